//! The Loaded view: rider and luggage typed in it, and what follows.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

mod driving;

use driving::{Driven, click, control, press, sample, window_of_size};
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::loaded::LuggagePlace;

fn library() -> Driven {
    let mut harness = window_of_size(&[sample("village-library.lineup.ron")], 1280.0, 2200.0);
    click(&mut harness, "Fit");
    click(&mut harness, "Loaded");
    harness
}

/// What the drawing in front says, in sentences.
fn told(harness: &Driven) -> String {
    let drawings = harness.query_all_by_role(egui::accesskit::Role::GraphicsDocument);
    let words: Vec<String> = drawings.filter_map(|n| n.accesskit_node().data().description().map(str::to_owned)).collect();
    words.join(" ").replace(['\u{2009}', '\u{a0}'], " ")
}

/// Goes on until the pictures, which are made beside the window, say these words.
#[track_caller]
fn wait_for(harness: &mut Driven, words: &str) {
    for _ in 0..1000 {
        if told(harness).contains(words) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        harness.run();
    }
    panic!("{words:?} is not in {:?}", told(harness));
}

#[test]
fn each_loading_is_told_beside_no_luggage() {
    let mut harness = library();
    for words in
        ["Without luggage A steadies itself from", "With rear panniers (15 kg) A steadies itself from", "more than without"]
    {
        wait_for(&mut harness, words);
    }
}

#[test]
fn luggage_is_added_removed_and_brought_back() {
    let mut harness = library();
    let kilograms = |harness: &Driven| harness.state().lineup().settings.loaded.loadings.clone();
    click(&mut harness, "Add luggage");
    assert_eq!(kilograms(&harness).len(), 3);
    assert_eq!(kilograms(&harness)[2].at(LuggagePlace::FrameBag), 3.0);
    wait_for(&mut harness, "With luggage 3 (3 kg)");
    click(&mut harness, "Remove luggage 1");
    assert_eq!(kilograms(&harness)[0].name, "low front panniers");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().lineup().settings.loaded, spandrel::loaded::LoadedSettings::default());
}

#[test]
fn every_field_of_luggage_has_its_own_name() {
    let harness = library();
    for name in
        ["Frame bag, luggage 1", "Frame bag, luggage 2", "Rear panniers, luggage 1", "Body height", "Rider, dressed to ride"]
    {
        control(&harness, name);
    }
}

#[test]
fn a_rider_of_500_kg_is_refused_at_the_field() {
    let mut harness = library();
    let before = harness.state().lineup().settings.price_and_climb.rider_kg;
    click(&mut harness, "Rider, dressed to ride");
    press(&mut harness, Modifiers::COMMAND, Key::A);
    harness.event(egui::Event::Text("500".to_owned()));
    harness.run();
    let says = harness.query_all_by_label_contains("“500” is outside 20.0 to 250.0").count();
    assert_eq!(says, 1, "the refusal stands at the field");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, before);
    click(&mut harness, "Rider, dressed to ride");
    press(&mut harness, Modifiers::COMMAND, Key::A);
    harness.event(egui::Event::Text("82,5".to_owned()));
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, 82.5);
}
