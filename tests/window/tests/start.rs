//! The ways in: start screen, “+ Add…”, pasted paths, context menus; notices that move nothing; commands while typing.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

mod driving;

use driving::{Driven, click, control, models, press, sample, window_on, window_on_three};
use egui::{Event, Key, Modifiers, OutputCommand};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::frameset::{Figure, FigureUse};

const WAYS: [&str; 4] = ["Paste a geometry table…", "Type in a frameset", "Open files…", "Sample comparison"];

fn click_at(window: &mut Driven, place: egui::Pos2, button: egui::PointerButton) {
    window.event(Event::PointerMoved(place));
    for pressed in [true, false] {
        window.event(Event::PointerButton { pos: place, button, pressed, modifiers: Modifiers::NONE });
    }
    window.run();
}

fn paste(window: &mut Driven, text: &str) {
    window.event(Event::Paste(text.to_owned()));
    window.run();
}

/// Two clicks in one frame: frames of a test are too far apart for a double click.
fn double_click(window: &mut Driven, place: egui::Pos2) {
    window.event(Event::PointerMoved(place));
    window.run_steps(20);
    let button = egui::PointerButton::Primary;
    let events = [true, false, true, false];
    let events = events.map(|pressed| Event::PointerButton { pos: place, button, pressed, modifiers: Modifiers::NONE });
    window.input_mut().events.extend(events);
    window.run();
}

#[test]
fn the_start_screen_and_both_menus_offer_the_same_ways() {
    let mut window = window_on(&[]);
    for way in WAYS {
        control(&window, way);
    }
    click(&mut window, "+ Add…");
    for way in WAYS {
        assert_eq!(
            window
                .query_all_by_label_contains(way)
                .filter(|n| n.accesskit_node().role() == egui::accesskit::Role::Button)
                .count(),
            2,
            "{way}"
        );
    }
    press(&mut window, Modifiers::NONE, Key::Escape);
    click(&mut window, "Edit");
    click(&mut window, "Add a frame");
    for way in WAYS {
        assert!(window.query_all_by_label_contains(way).count() >= 2, "{way}");
    }
}

#[test]
fn the_sample_comparison_is_built_in_and_opens_as_a_line_up_without_a_file() {
    let mut window = window_on(&[]);
    click(&mut window, "Sample comparison");
    assert_eq!(window.state().lineup().frames.len(), 7);
    assert!(!window.state().is_unsaved(), "closing it unchanged asks nothing");
    press(&mut window, Modifiers::COMMAND, Key::S);
    assert!(window.query_by_label("Path").is_some(), "it is in no file: saving asks where");
}

#[test]
fn the_sample_asks_before_it_replaces_unsaved_work() {
    let mut window = window_on(&[]);
    click(&mut window, "Type in a frameset");
    assert_eq!(models(&window), ["New frame"]);
    click(&mut window, "+ Add…");
    click(&mut window, "Sample comparison");
    assert!(window.query_by_label_contains("The sample comparison will replace it").is_some());
    click(&mut window, "Cancel");
    assert_eq!(models(&window), ["New frame"]);
}

#[test]
fn a_double_click_on_the_empty_canvas_does_nothing() {
    let mut window = window_on(&[]);
    let before = window.state().view();
    double_click(&mut window, egui::pos2(1200.0, 720.0));
    assert_eq!((window.state().view(), models(&window).len()), (before, 0));
    assert!(window.query_by_label("Path").is_none());
}

#[test]
fn a_pasted_path_opens_the_file() {
    let mut window = window_on(&[]);
    let path = sample("marrowby-drift.frame.ron").canonicalize().unwrap();
    paste(&mut window, &format!("file://{}\n", path.display()));
    window.run();
    assert_eq!(models(&window), ["Drift"]);
    paste(&mut window, "/nowhere/absent.frame.ron");
    window.run();
    assert_eq!(window.state().notices().count(), 1, "a file that is not there is named");
}

#[test]
fn a_notice_moves_nothing() {
    let mut window = window_on_three();
    let tabs = ["Compare", "Steering", "All figures", "Zoom to fit"];
    let places = |window: &Driven| tabs.map(|tab| control(window, tab).rect());
    let drawing = |window: &Driven| window.query_all_by_label_contains("Drawing: ").next().unwrap().rect();
    let before = (places(&window), drawing(&window));
    paste(&mut window, "/nowhere/absent.frame.ron");
    window.run();
    assert_eq!(window.state().notices().count(), 1);
    assert_eq!((places(&window), drawing(&window)), before);
    click(&mut window, "Dismiss notice 1");
    assert_eq!((places(&window), drawing(&window)), before);
}

#[test]
fn a_picture_can_be_asked_for_while_a_field_is_typed_in_and_what_was_typed_is_entered() {
    let mut window = window_on_three();
    click(&mut window, "Price and climb");
    control(&window, "Rider, kg").focus();
    window.run();
    press(&mut window, Modifiers::COMMAND, Key::A);
    window.event(Event::Text("71".to_owned()));
    press(&mut window, Modifiers::COMMAND, Key::E);
    assert_eq!(window.state().lineup().settings.price_and_climb.rider_kg, 71.0);
    control(&window, "Width in pixels");
}

#[test]
fn a_card_opens_its_frameset_by_a_double_click_and_offers_what_is_done_to_it() {
    let mut window = window_on_three();
    let place = |window: &Driven| {
        let card = window.get_by_label("Select B").rect();
        egui::pos2(card.left() + 20.0, card.bottom() - 4.0)
    };
    let at = place(&window);
    click_at(&mut window, at, egui::PointerButton::Secondary);
    assert_eq!(window.state().selected().0, 1);
    click(&mut window, "Set as reference");
    assert_eq!(window.state().lineup().reference_index().map(|r| r.0), Some(1));
    let at = place(&window);
    double_click(&mut window, at);
    assert_eq!(window.state().view_label(), "Frameset");
}

#[test]
fn a_cell_is_copied_alone_and_with_its_uncertainty() {
    let mut window = window_on_three();
    click(&mut window, "All figures");
    let copied = |window: &mut Driven, entry: &str| {
        let cell = window.query_all_by_label_contains("Stack, A").next().unwrap().rect().center();
        click_at(window, cell, egui::PointerButton::Secondary);
        control(window, entry).click();
        window.step();
        let mut texts = Vec::new();
        for _ in 0..4 {
            texts.extend(window.output().platform_output.commands.iter().filter_map(|command| match command {
                OutputCommand::CopyText(text) => Some(text.clone()),
                _ => None,
            }));
            window.step();
        }
        texts.first().cloned().unwrap_or_default()
    };
    let use_of = |window: &Driven| {
        let frameset = &window.state().lineup().frames[0].frameset;
        let size = frameset.size_index(&window.state().lineup().frames[0].size).unwrap();
        frameset.sizes[size.0].figure_use(Figure::Stack).unwrap()
    };
    let (alone, whole) = (copied(&mut window, "Copy value"), copied(&mut window, "Copy value with ±"));
    assert!(alone.parse::<f64>().is_ok_and(|mm| (500.0..700.0).contains(&mm)), "{alone}");
    assert!(whole.starts_with(&alone) && whole.contains('±'), "{whole}");
    copied(&mut window, "Ignore it");
    assert!(matches!(use_of(&window), FigureUse::Ignored(_)));
    copied(&mut window, "Use if the others agree");
    assert_eq!(use_of(&window), FigureUse::AsOthersAgree);
}

#[test]
fn a_distance_is_measured_from_the_drawings_menu_to_the_next_click() {
    let mut window = window_on_three();
    let drawing = window.query_all_by_label_contains("Drawing: ").next().unwrap().rect();
    let (from, to) = (drawing.center() - egui::vec2(150.0, 0.0), drawing.center() + egui::vec2(150.0, 0.0));
    click_at(&mut window, from, egui::PointerButton::Secondary);
    control(&window, "Save picture…");
    click(&mut window, "Measure from here");
    click_at(&mut window, to, egui::PointerButton::Primary);
    let measured = window.state().status().to_owned();
    assert!(measured.contains("across"), "{measured}");
    window.event(Event::PointerMoved(drawing.center()));
    window.run();
    assert_eq!(window.state().status(), measured, "the click ended it");
    press(&mut window, Modifiers::NONE, Key::Escape);
    click_at(&mut window, to, egui::PointerButton::Primary);
    assert_eq!(window.state().status(), measured, "and the next one measures nothing");
}

#[test]
fn a_pasted_specification_is_added_to_the_selected_frame() {
    let mut window = window_on_three();
    press(&mut window, Modifiers::NONE, Key::PageDown);
    let before = window.state().lineup().frames[1].frameset.clone();
    paste(&mut window, "Fork weight: 987 g\nPrice frameset: 1.299,00 EUR\nPaint: moss green");
    click(&mut window, &format!("Add to B {}", before.name()));
    let after = window.state().lineup().frames[1].frameset.clone();
    assert_eq!(window.state().lineup().frames.len(), 3);
    assert_eq!(after.sizes, before.sizes);
    assert!(after.weights.iter().any(|w| w.grams == 987.0));
    assert!(after.prices.iter().any(|p| (p.amount.as_str(), p.currency.as_str()) == ("1299.00", "EUR")));
    assert!(after.note.clone().unwrap_or_default().contains("moss green"));
    press(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(window.state().lineup().frames[1].frameset, before);
    paste(&mut window, "Size\tM\nStack\t600\nReach\t400\nHead angle\t70");
    assert_eq!(window.query_all_by_label_contains("Add to B").count(), 0, "a geometry table is another frameset");
}
