//! The line-up's panel and the keys that stand for it.

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

use driving::{Driven, click, control, enter, models, press, sample, window_of_size, window_on, window_on_three};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::frameset::FrameIndex;
use spandrel::lineup::{AlignAt, Tyres};
use spandrel::units::System;

#[test]
fn an_empty_window_says_how_to_begin() {
    let harness = window_on(&[]);
    harness.get_by_label("Open files…");
    harness.get_by_label("+ Add…");
    assert!(!harness.state().is_unsaved());
    assert!(harness.unnamed_widgets().is_empty(), "{:?}", harness.unnamed_widgets());
}

#[test]
fn frames_from_the_command_line_are_the_starting_point() {
    let harness = window_on_three();
    assert_eq!(models(&harness), ["Drift", "Halter", "Fourways"]);
    assert!(!harness.state().is_unsaved(), "opening alone loses nothing");
    assert_eq!(harness.state().notices().count(), 0);
}

#[test]
fn size_shown_and_reference_by_their_names() {
    let mut harness = window_on_three();
    click(&mut harness, "Size of B");
    let other = harness.state().lineup().frames[1].frameset.sizes[0].label.clone();
    assert_ne!(harness.state().lineup().frames[1].size, other);
    click(&mut harness, &other);
    assert_eq!(harness.state().lineup().frames[1].size, other);
    click(&mut harness, "Show C");
    assert!(!harness.state().lineup().frames[2].shown);
    click(&mut harness, "B is the reference");
    assert_eq!(harness.state().lineup().reference, FrameIndex(1));
    assert!(harness.state().is_unsaved());
    for _ in 0..3 {
        press(&mut harness, Modifiers::COMMAND, Key::Z);
    }
    assert!(!harness.state().is_unsaved(), "all taken back");
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(harness.state().lineup().frames[1].size, other);
}

#[test]
fn keys_select_move_resize_and_remove() {
    let mut harness = window_on_three();
    press(&mut harness, Modifiers::NONE, Key::PageDown);
    assert_eq!(harness.state().selected(), FrameIndex(1));
    press(&mut harness, Modifiers::ALT, Key::ArrowDown);
    assert_eq!(models(&harness), ["Drift", "Fourways", "Halter"]);
    assert_eq!(harness.state().selected(), FrameIndex(2), "the selection goes with the frame");
    let before = harness.state().lineup().frames[2].size_index();
    press(&mut harness, Modifiers::ALT, Key::ArrowLeft);
    assert_eq!(harness.state().lineup().frames[2].size_index().after(), before);
    press(&mut harness, Modifiers::NONE, Key::R);
    assert_eq!(harness.state().lineup().reference_index(), Some(FrameIndex(2)));
    press(&mut harness, Modifiers::NONE, Key::H);
    assert!(!harness.state().lineup().frames[2].shown);
    press(&mut harness, Modifiers::NONE, Key::Delete);
    assert_eq!(models(&harness), ["Drift", "Fourways"]);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(models(&harness), ["Drift", "Fourways", "Halter"]);
}

#[test]
fn a_card_is_dragged_by_its_handle() {
    let mut harness = window_on_three();
    let from = harness.get_by_label("Move A").rect().center();
    // Past the middle of the last card, which has a line on its fork.
    let to = harness.get_by_label("Move C").rect().center() + egui::vec2(0.0, 60.0);
    harness.drag_at(from);
    harness.run();
    harness.hover_at(from + egui::vec2(0.0, 20.0));
    harness.run();
    harness.hover_at(to);
    harness.run();
    harness.drop_at(to);
    harness.run();
    assert_eq!(models(&harness), ["Halter", "Fourways", "Drift"]);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(models(&harness), ["Drift", "Halter", "Fourways"], "one drag is one step");
}

#[test]
fn footing_by_picker_and_by_typing() {
    let mut harness = window_on_three();
    click(&mut harness, "Align at");
    click(&mut harness, "front axle");
    assert_eq!(harness.state().lineup().settings.outline.align_at, AlignAt::FrontAxle);
    for (text, factor) in [("+12 %", 1.12), ("1,05", 1.05)] {
        enter(&mut harness, "Weight factor per size", text);
        let typed = harness.state().lineup().settings.weight.factor;
        assert!(typed.is_some_and(|typed: f64| (typed - factor).abs() < 1e-12), "{text}");
    }
    enter(&mut harness, "Weight factor per size", "eleven");
    assert_eq!(harness.state().lineup().settings.weight.factor, Some(1.05), "what cannot be read changes nothing");
    control(&harness, "Weight factor per size").focus();
    harness.run();
    press(&mut harness, Modifiers::COMMAND, Key::A);
    press(&mut harness, Modifiers::NONE, Key::Delete);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().lineup().settings.weight.factor, None, "an emptied field is none");
    enter(&mut harness, "Same tyre on all", "55-622");
    assert!(matches!(harness.state().lineup().settings.tyres, Tyres::SameOnAll(tyre) if tyre.to_string() == "55-622"));
    enter(&mut harness, "Same tyre on all", "");
    click(&mut harness, "in, lb");
    assert_eq!(harness.state().lineup().settings.units, System::Imperial);
}

#[test]
fn keys_belong_to_the_field_that_is_typed_in() {
    let mut harness = window_on_three();
    control(&harness, "Weight factor per size").focus();
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Delete);
    press(&mut harness, Modifiers::NONE, Key::W);
    assert_eq!(harness.state().lineup().frames.len(), 3);
    assert!(harness.state().lineup().settings.outline.wheels);
}

#[test]
fn doubts_are_told_and_lead_to_trust() {
    let mut harness = window_on(&[sample("quern-halter.frame.ron")]);
    press(&mut harness, Modifiers::ALT, Key::ArrowRight);
    let doubts = harness.get_by_label_contains("Doubtful or unknown figures of A:");
    doubts.click();
    harness.run();
    assert_eq!(harness.state().view_label(), "Check");
}

#[test]
fn title_and_notes_are_kept_with_the_line_up() {
    let mut harness = window_on_three();
    press(&mut harness, Modifiers::COMMAND, Key::T);
    control(&harness, "Title").focus();
    harness.run();
    control(&harness, "Title").type_text("Six loan bikes");
    harness.run();
    click(&mut harness, "Change");
    assert_eq!(harness.state().lineup().title, "Six loan bikes");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().lineup().title, "");
}

#[test]
fn the_selected_card_comes_into_view() {
    let all = [
        "brackwater-cob",
        "ellersby-longbarn",
        "hollinshaw-wether",
        "marrowby-drift",
        "quern-halter",
        "tansett-fourways",
        "wrenfold-ambler",
    ];
    let mut harness = window_of_size(&all.map(|name| sample(&format!("{name}.frame.ron"))), 1280.0, 640.0);
    let foot = harness.get_by_label("Common settings").rect().top();
    let last = |h: &Driven| control(h, "Remove G").rect();
    assert!(last(&harness).bottom() > foot, "too many cards for the panel");
    for _ in 1..all.len() {
        press(&mut harness, Modifiers::NONE, Key::PageDown);
    }
    assert!(last(&harness).bottom() <= foot, "{:?} above {foot}", last(&harness));
}

#[test]
fn of_very_many_cards_those_near_the_view_are_shown() {
    let files = vec![sample("marrowby-drift.frame.ron"); 66];
    let mut harness = window_of_size(&files, 1280.0, 640.0);
    assert_eq!(harness.state().lineup().frames.len(), 66);
    assert!(harness.query_by_label("Remove A").is_some());
    assert!(harness.query_by_label("Remove BN").is_none(), "far below");
    for _ in 1..66 {
        press(&mut harness, Modifiers::NONE, Key::PageDown);
    }
    let foot = harness.get_by_label("Common settings").rect().top();
    let last = control(&harness, "Remove BN").rect();
    assert!(last.bottom() <= foot, "{last:?} above {foot}");
    assert!(harness.query_by_label("Remove A").is_none(), "far above");
}
