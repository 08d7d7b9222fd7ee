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

#[test]
fn each_loading_is_told_beside_no_luggage() {
    let harness = library();
    let told = told(&harness);
    for words in
        ["Without luggage A steadies itself from", "With rear panniers (15 kg) A steadies itself from", "more than without"]
    {
        assert!(told.contains(words), "{told}");
    }
}

#[test]
fn luggage_is_added_removed_and_brought_back() {
    let mut harness = library();
    let kilograms = |harness: &Driven| harness.state().lineup().settings.loaded.loadings.clone();
    click(&mut harness, "Add luggage");
    assert_eq!(kilograms(&harness).len(), 3);
    assert_eq!(kilograms(&harness)[2].at(LuggagePlace::FrameBag), 3.0);
    assert!(told(&harness).contains("With luggage 3 (3 kg)"));
    click(&mut harness, "Remove luggage 1");
    assert_eq!(kilograms(&harness)[0].name, "low front panniers");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().lineup().settings.loaded, spandrel::loaded::LoadedSettings::default());
}

#[test]
fn every_field_of_luggage_has_its_own_name() {
    let harness = library();
    for name in ["Frame bag, luggage 1", "Frame bag, luggage 2", "Rear panniers, luggage 1", "Body height", "Rider, dressed"] {
        control(&harness, name);
    }
}
