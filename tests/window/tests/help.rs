//! The user guide under Help: its pages, links between them, and that it speaks of the window as it is.

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

use driving::{click, press, window_of_size, window_on_three};
use egui::{Key, ModifierNames, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::window::ViewId;
use spandrel::window::commands::table;

const README: &str = include_str!("../../../README.md");
const WINDOW: &str = include_str!("../../../docs/window.md");

#[test]
fn every_page_opens_from_the_list_and_closes() {
    let mut harness = window_on_three();
    click(&mut harness, "Help");
    click(&mut harness, "User guide");
    for (title, heading) in [
        ("The window", "Views"),
        ("Uncertainty and assumptions", "How a ± is worked out"),
        ("Frame files", "What is refused"),
        ("Command line", "pattern"),
        ("Publishing", "Single views"),
        ("Spandrel", "A first comparison"),
    ] {
        click(&mut harness, &format!("Page: {title}"));
        assert!(harness.query_all_by_label(heading).next().is_some(), "{title} has no “{heading}”");
        assert!(harness.unnamed_widgets().is_empty(), "{title}: {:?}", harness.unnamed_widgets());
    }
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(harness.query_by_label("Page: The window").is_none());
}

#[test]
fn a_link_leads_to_its_page_and_keys_scroll() {
    let mut harness = window_of_size(&[], 1280.0, 600.0);
    press(&mut harness, Modifiers::SHIFT, Key::F1);
    let top = |harness: &driving::Driven| harness.get_by_label("Install and run").rect().top();
    let before = top(&harness);
    press(&mut harness, Modifiers::NONE, Key::PageDown);
    assert!(top(&harness) < before - 100.0, "{before}, {}", top(&harness));
    press(&mut harness, Modifiers::NONE, Key::Home);
    assert!((top(&harness) - before).abs() < 1.0);
    press(&mut harness, Modifiers::NONE, Key::End);
    click(&mut harness, "Frame files");
    assert!(harness.query_by_label("What is refused").is_some());
}

/// Views and keys that the pages name are the window's own.
#[test]
fn the_pages_name_the_windows_own_views_and_keys() {
    let rows: Vec<&str> = WINDOW.lines().filter_map(|line| line.strip_prefix("| ")?.split(" | ").next()).collect();
    let views = rows.into_iter().filter(|row| *row != "view");
    assert_eq!(views.collect::<Vec<_>>(), ViewId::ALL.map(ViewId::label));
    let keys: Vec<String> =
        table().iter().filter_map(|about| about.shortcut).map(|keys| keys.format(&ModifierNames::NAMES, false)).collect();
    let mut count = 0;
    for page in [README, WINDOW] {
        for word in page.split(|c: char| !(c.is_alphanumeric() || c == '+')) {
            let word = word.trim_end_matches('+');
            // Ctrl+V is the toolkit's own: it pastes.
            if (word.starts_with("Ctrl+") && word != "Ctrl+V") || word == "F1" {
                assert!(keys.iter().any(|k| k == word), "no command has the keys {word}: {keys:?}");
                count += 1;
            }
        }
    }
    assert!(count >= 8, "{count}");
}
