//! Typing a frameset in, and what the program says of it: the maker's table, keystroke by keystroke, and Trust.

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

use driving::{Driven, click, control, enter, press, sample, type_over, window_on};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::frameset::Figure;

fn figure(harness: &Driven, size: usize, figure: Figure) -> Option<f64> {
    harness.state().lineup().frames[0].frameset.sizes[size].figures.get(&figure).copied()
}

fn table() -> Driven {
    let mut harness = window_on(&[sample("marrowby-drift.frame.ron")]);
    click(&mut harness, "Frameset");
    harness
}

#[test]
fn a_figure_follows_each_keystroke_with_comma_and_unit_and_escape_gives_it_back() {
    let mut harness = table();
    type_over(&mut harness, "Stack, size M", "61,5 cm");
    assert_eq!(figure(&harness, 1, Figure::Stack), Some(615.0));
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert_eq!(figure(&harness, 1, Figure::Stack), Some(619.0));
    type_over(&mut harness, "Head angle, size M", "70,5");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert_eq!(figure(&harness, 1, Figure::HeadAngle), Some(70.5));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(figure(&harness, 1, Figure::HeadAngle), Some(70.0));
}

#[test]
fn what_cannot_be_is_said_at_the_field_and_changes_nothing() {
    let mut harness = table();
    type_over(&mut harness, "Stack, size M", "0.61");
    assert!(harness.query_all_by_label_contains("300").count() >= 1, "the accepted range is named");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert_eq!(figure(&harness, 1, Figure::Stack), Some(619.0));
    let status = harness.state().status().to_owned();
    assert!(status.contains("0.61") && status.contains("not accepted"), "what was typed is not dropped silently: {status}");
}

#[test]
fn a_standard_that_is_not_understood_is_marked_at_its_field_and_kept() {
    let mut harness = table();
    harness.get_by_label_contains("Also published").click();
    harness.run();
    let said = |h: &Driven| h.query_all_by_label_contains("Published, but not understood: upper headset").count();
    assert_eq!(said(&harness), 0);
    type_over(&mut harness, "upper headset", "EC34/286");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert!(said(&harness) >= 1, "at the field");
    assert!(harness.query_all_by_label_contains("did you mean EC34/28.6?").count() >= 1);
    let printed = harness.state().lineup().frames[0].frameset.standards[&spandrel::frameset::Standard::UpperHeadset].clone();
    assert_eq!(printed, "EC34/286");
    type_over(&mut harness, "upper headset", "EC34/28.6");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert_eq!(said(&harness), 0);
}

#[test]
fn sizes_are_added_copied_and_removed() {
    let mut harness = table();
    let sizes = |h: &Driven| h.state().lineup().frames[0].frameset.sizes.iter().map(|s| s.label.clone()).collect::<Vec<_>>();
    assert_eq!(sizes(&harness), ["S", "M", "L", "XL"]);
    click(&mut harness, "Size M: add, copy, remove");
    click(&mut harness, "Copy this size");
    assert_eq!(sizes(&harness).len(), 5);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(sizes(&harness), ["S", "M", "L", "XL"]);
    click(&mut harness, "Size S: add, copy, remove");
    click(&mut harness, "Remove this size");
    assert_eq!(sizes(&harness), ["M", "L", "XL"]);
}

#[test]
fn a_new_frame_is_typed_in_from_blank() {
    let mut harness = window_on(&[]);
    press(&mut harness, Modifiers { shift: true, ..Modifiers::COMMAND }, Key::N);
    assert_eq!(harness.state().view_label(), "Frameset");
    let label = harness.state().lineup().frames[0].frameset.sizes[0].label.clone();
    type_over(&mut harness, &format!("Stack, size {label}"), "24 3/16\"");
    let stack = figure(&harness, 0, Figure::Stack).expect("taken");
    assert!((stack - 614.4).abs() < 0.1, "{stack}");
}

#[test]
fn a_new_weight_or_price_is_stated_only_once_it_is_typed() {
    let mut harness = table();
    harness.get_by_label_contains("Also published").click();
    harness.run();
    let frameset = |h: &Driven| h.state().lineup().frames[0].frameset.clone();
    let before = frameset(&harness);
    enter(&mut harness, "New weight", "2,6");
    assert_eq!(frameset(&harness).weights.len(), before.weights.len());
    assert!(harness.query_all_by_label_contains("looks like kilograms").count() >= 1, "it is said at the field");
    enter(&mut harness, "New weight", "2715");
    let weight = frameset(&harness).weights.last().cloned().expect("a weight");
    assert_eq!((weight.grams, weight.size), (2715.0, None));
    enter(&mut harness, "New price", "700 EUR");
    let price = frameset(&harness).prices.last().cloned().expect("a price");
    assert_eq!((price.amount.as_str(), price.currency.as_str()), ("700", "EUR"));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(frameset(&harness), before);
}

#[test]
fn with_inches_chosen_the_table_is_shown_and_typed_in_inches() {
    let mut harness = table();
    click(&mut harness, "in, lb");
    let value = |h: &Driven, name: &str| control(h, name).value().unwrap_or_default();
    assert_eq!(value(&harness, "Stack, size M"), "24.37");
    assert_eq!(value(&harness, "Head angle, size M"), "70");
    assert_eq!(value(&harness, "Length step, in"), "0.0394");
    for unit in [", mm", "\u{2009}mm", " mm"] {
        assert_eq!(harness.query_all_by_label_contains(unit).count(), 0, "something is in mm: {unit}");
    }
    let file = harness.state().lineup().frames[0].frameset.clone();
    type_over(&mut harness, "Stack, size M", "24.25");
    assert_eq!(figure(&harness, 1, Figure::Stack), Some(615.95));
    type_over(&mut harness, "Stack, size M", "613 mm");
    assert_eq!(figure(&harness, 1, Figure::Stack), Some(613.0));
    type_over(&mut harness, "Stack, size M", "613");
    assert!(harness.query_all_by_label_contains("is outside 11.81 to 35.43 in: for millimetres, write 613 mm").count() >= 1);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    type_over(&mut harness, "Length step, in", "0.0625");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert_eq!(harness.state().lineup().frames[0].frameset.rounded_to.mm, 1.59);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().lineup().frames[0].frameset, file, "undone");
    let offered = control(&harness, "Length step, in").value();
    type_over(&mut harness, "Length step, in", "3");
    assert!(harness.query_all_by_label_contains("a step of 3 in is not accepted: write 0.0004 to 1.968").count() >= 1);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert_eq!(control(&harness, "Length step, in").value(), offered);

    harness.get_by_label_contains("Also published").click();
    harness.run();
    enter(&mut harness, "New weight", "2715");
    assert_eq!(harness.state().lineup().frames[0].frameset, file, "2715 lb is no frame");
    assert!(harness.query_all_by_label_contains("2715 lb is outside 0.111 to 33.069 lb").count() >= 1);
    enter(&mut harness, "New weight", "5.985");
    let weight = |h: &Driven| h.state().lineup().frames[0].frameset.weights.last().cloned().expect("a weight");
    assert_eq!(weight(&harness).grams, 2714.8);
    let last = |h: &Driven, name: &str| h.query_all_by_label(name).last().and_then(|field| field.value()).unwrap_or_default();
    assert_eq!(last(&harness, "pounds"), "5.985");
    assert_eq!(harness.query_all_by_label("grams").count(), 0);
    assert!(harness.query_all_by_label("scale step, lb (empty if claimed)").count() >= 1);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    click(&mut harness, "mm, g");
    assert_eq!(harness.state().lineup().frames[0].frameset, file, "what is only shown changes nothing");
}

#[test]
fn a_text_that_is_too_long_is_said_at_its_field_and_changes_nothing() {
    let mut harness = table();
    let before = harness.state().lineup().clone();
    let says = |h: &Driven, words: &str| h.query_all_by_label_contains(words).count() >= 1;
    let limit = "201 characters: at most 200 are accepted";
    for name in ["Maker", "Model", "Label of size M"] {
        type_over(&mut harness, name, &"x".repeat(201));
        assert!(says(&harness, limit), "{name}");
        press(&mut harness, Modifiers::NONE, Key::Tab);
        let status = harness.state().status().to_owned();
        assert!(status.contains("xxx…” was not accepted") && status.contains(limit) && status.len() < 200, "{status}");
    }
    harness.get_by_label_contains("Also published").click();
    harness.run();
    for name in ["New source", "upper headset"] {
        type_over(&mut harness, name, &"x".repeat(1001));
        assert!(says(&harness, "1,001 characters: at most 1,000 are accepted"), "{name}");
        press(&mut harness, Modifiers::NONE, Key::Escape);
    }
    assert_eq!(*harness.state().lineup(), before);
    harness.get_by_label_contains("Also published").click();
    harness.run();
    type_over(&mut harness, "Maker", &"x".repeat(200));
    assert_eq!(harness.state().lineup().frames[0].frameset.maker.len(), 200);
    // A copy of a size whose label is as long as may be has a label that may be.
    type_over(&mut harness, "Label of size M", &"x".repeat(200));
    press(&mut harness, Modifiers::NONE, Key::Tab);
    click(&mut harness, &format!("Size {}: add, copy, remove", "x".repeat(200)));
    click(&mut harness, "Copy this size");
    let written = spandrel::lineup::write_lineup(harness.state().lineup());
    assert!(written.is_ok_and(|text| spandrel::lineup::read_lineup(text.as_bytes()).is_ok()), "it is saved and opened again");
}

#[test]
fn title_and_notes_that_are_too_long_wait_in_their_dialog() {
    let mut harness = window_on(&[sample("marrowby-drift.frame.ron")]);
    press(&mut harness, Modifiers::COMMAND, Key::T);
    type_over(&mut harness, "Title", &"x".repeat(201));
    assert!(harness.query_by_label_contains("the title has 201 characters: at most 200 are accepted").is_some());
    click(&mut harness, "Change");
    assert!(harness.state().lineup().title.is_empty());
    type_over(&mut harness, "Title", &"x".repeat(200));
    click(&mut harness, "Change");
    assert_eq!(harness.state().lineup().title.len(), 200);
}

#[test]
fn a_figures_menu_copies_its_value_and_ignores_it() {
    let mut harness = table();
    // The keyboard brings it into sight.
    control(&harness, "Stack, size M").focus();
    harness.run();
    control(&harness, "Stack, size M").click_secondary();
    harness.run();
    control(&harness, "Copy value with ±").click();
    let mut copied = None;
    for _ in 0..4 {
        harness.step();
        copied = copied.or(harness.output().platform_output.commands.iter().find_map(|command| match command {
            egui::OutputCommand::CopyText(text) => Some(text.clone()),
            _ => None,
        }));
    }
    assert!(copied.is_some_and(|text| text.starts_with("619") && text.contains('±')), "the best estimate");
    harness.run();
    control(&harness, "Stack, size M").click_secondary();
    harness.run();
    click(&mut harness, "Ignore it");
    let size = &harness.state().lineup().frames[0].frameset.sizes[1];
    assert!(size.ignored.contains_key(&Figure::Stack));
}
