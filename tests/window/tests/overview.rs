//! The overview: its cells lead on, its rows are chosen and ordered, and limits join the needs.

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

use driving::{Driven, click, enter, press, sample, type_over, window_as_it_opens, window_on_three};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::frameset::{Figure, FrameIndex};
use spandrel::lineup::OverviewRow;
use spandrel::window::ViewId;

fn library() -> Driven {
    window_as_it_opens(&[sample("village-library.lineup.ron")], 1280.0, 800.0)
}

fn rows(harness: &Driven) -> Vec<OverviewRow> {
    harness.state().lineup().settings.overview.rows().collect()
}

#[test]
fn a_cell_leads_to_the_view_and_the_figure_behind_it() {
    let mut harness = library();
    assert_eq!(harness.state().view(), ViewId::Overview, "the first view");
    for (cell, view) in [
        ("Reach difference at the same bar height, mm", ViewId::ContactPoints),
        ("Needs met", ViewId::Parts),
        ("Loaded total, kg", ViewId::PriceAndClimb),
        ("Frameset weight, g", ViewId::Weight),
        ("Price, EUR", ViewId::PriceAndClimb),
        ("Trail, mm", ViewId::Check),
        ("Frame bag, l", ViewId::Bags),
        ("Bottles without a bag", ViewId::Bags),
        ("Doubtful figures", ViewId::Check),
    ] {
        click(&mut harness, &format!("{cell}: B Quern Halter L"));
        assert_eq!((harness.state().view(), harness.state().selected()), (view, FrameIndex(1)), "{cell}");
        click(&mut harness, "Compare");
        press(&mut harness, Modifiers::ALT, Key::Num1);
        assert_eq!(harness.state().view(), ViewId::Overview);
    }
    click(&mut harness, "Wheelbase, mm: D Ellersby Longbarn 56");
    assert_eq!(harness.state().selected(), FrameIndex(3));
    assert_eq!(harness.state().figure(), Figure::Wheelbase);
    press(&mut harness, Modifiers::ALT, Key::Num1);
    assert!(!harness.state().is_unsaved(), "looking changes nothing");
}

#[test]
fn rows_are_hidden_moved_and_brought_back_by_undo() {
    let mut harness = library();
    click(&mut harness, "Rows and limits");
    click(&mut harness, "Show Trail");
    assert!(!rows(&harness).contains(&OverviewRow::Trail));
    assert!(harness.query_by_label("Trail, mm: A Marrowby Drift L").is_none());
    click(&mut harness, "Move Needs met up");
    assert_eq!(rows(&harness)[..2], [OverviewRow::Needs, OverviewRow::SizeFit]);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(rows(&harness), OverviewRow::ALL);
    assert!(harness.unnamed_widgets().is_empty(), "{:?}", harness.unnamed_widgets());
}

#[test]
fn a_limit_joins_the_needs_and_marks_its_row() {
    let mut harness = library();
    let needs = |h: &Driven| h.state().lineup().settings.needs.iter().map(|n| n.text().to_owned()).collect::<Vec<_>>();
    let before = needs(&harness);
    click(&mut harness, "Rows and limits");
    enter(&mut harness, "Limit of Chainstay", "≤ 443");
    let joined = needs(&harness);
    assert_eq!(joined.len(), before.len() + 1);
    assert_eq!(joined.last().map(String::as_str), Some("chainstay at most 443 mm"));
    assert!(harness.query_all_by_label_contains("Chainstay, mm (≤ 443): A").next().is_some());
    // Another limit takes its place; one that says no side changes nothing.
    enter(&mut harness, "Limit of Chainstay", "≤ 446");
    assert_eq!(needs(&harness).last().map(String::as_str), Some("chainstay at most 446 mm"));
    enter(&mut harness, "Limit of Chainstay", "450");
    assert_eq!(needs(&harness).last().map(String::as_str), Some("chainstay at most 446 mm"));
    press(&mut harness, Modifiers::NONE, Key::Escape);
    type_over(&mut harness, "Limit of Chainstay", "");
    press(&mut harness, Modifiers::NONE, Key::Delete);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(needs(&harness), before);
}

#[test]
fn eight_frames_stand_in_a_window_of_1280_without_scrolling_sideways() {
    let names = ["marrowby-drift", "quern-halter", "tansett-fourways", "ellersby-longbarn", "brackwater-cob", "wrenfold-ambler"];
    let files: Vec<_> = names.iter().chain(&names[..2]).map(|n| sample(&format!("{n}.frame.ron"))).collect();
    let harness = window_as_it_opens(&files, 1280.0, 800.0);
    let frames = harness.state().lineup().frames.len();
    let cells: Vec<_> = harness.query_all_by_label_contains("Trail, mm: ").collect();
    assert_eq!(cells.len(), frames);
    for cell in cells {
        assert!(cell.rect().right() <= 1280.0 && cell.rect().width() >= 80.0, "{:?}", cell.rect());
    }
}

#[test]
fn the_cells_of_a_new_line_up_follow_the_reference() {
    let mut harness = window_on_three();
    press(&mut harness, Modifiers::ALT, Key::Num1);
    let size = harness.state().lineup().frames[1].size.clone();
    assert!(harness.query_by_label(&format!("Trail, mm: B Quern Halter {size}")).is_some());
    let described = harness.get_by_role(egui::accesskit::Role::GraphicsDocument);
    let words = egui_kittest::kittest::NodeT::accesskit_node(&described).data().description().unwrap_or_default().to_owned();
    assert!(words.contains("A Marrowby Drift") && words.contains("Trail, mm"), "{words}");
}
