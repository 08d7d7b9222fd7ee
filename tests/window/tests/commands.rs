//! The table of commands: each in its menu by name, each reachable by its keys, the whole of it listed.

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

use driving::{click, press, window_on, window_on_three};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::window::commands::{Menu, table};
use spandrel::window::{Appearance, ViewId};

#[test]
fn every_command_is_in_its_menu_by_name() {
    for menu in Menu::ALL {
        let mut harness = window_on_three();
        // In a view without switches of the same names.
        press(&mut harness, Modifiers::COMMAND, Key::Num4);
        click(&mut harness, menu.label());
        for about in table().iter().filter(|a| a.menu == menu) {
            assert!(harness.query_all_by_label(about.label).next().is_some(), "{} in {}", about.label, menu.label());
        }
        assert!(harness.unnamed_widgets().is_empty(), "{:?}", harness.unnamed_widgets());
    }
}

#[test]
fn every_command_can_be_asked_for_in_any_state() {
    for about in table() {
        for mut harness in [window_on(&[]), window_on_three()] {
            harness.state_mut().ask(about.command);
            harness.run();
            press(&mut harness, Modifiers::NONE, Key::Escape);
        }
    }
}

#[test]
fn every_key_is_listed() {
    let mut harness = window_on_three();
    press(&mut harness, Modifiers::NONE, Key::F1);
    for about in table().iter().filter(|a| a.shortcut.is_some()) {
        assert!(harness.query_all_by_label(about.tooltip).next().is_some(), "{}", about.label);
    }
    click(&mut harness, "Close");
    assert!(harness.query_by_label("Close").is_none());
}

#[test]
fn a_menu_entry_does_what_its_key_does() {
    let mut harness = window_on_three();
    click(&mut harness, "Line-up");
    click(&mut harness, "Move down");
    assert_eq!(driving::models(&harness), ["Halter", "Drift", "Fourways"]);
    click(&mut harness, "Edit");
    click(&mut harness, "Undo");
    assert_eq!(driving::models(&harness), ["Drift", "Halter", "Fourways"]);
    click(&mut harness, "Appearance");
    click(&mut harness, "Dark");
    assert_eq!(harness.state().appearance(), Appearance::Dark);
    assert!(harness.ctx.global_style().visuals.dark_mode);
}

#[test]
fn text_grows_and_shrinks() {
    let mut harness = window_on_three();
    press(&mut harness, Modifiers::COMMAND, Key::Plus);
    press(&mut harness, Modifiers::COMMAND, Key::Plus);
    assert!((harness.ctx.zoom_factor() - 1.2).abs() < 1e-6);
    press(&mut harness, Modifiers::COMMAND, Key::Minus);
    assert!((harness.ctx.zoom_factor() - 1.1).abs() < 1e-6);
    press(&mut harness, Modifiers::COMMAND, Key::Num0);
    assert!((harness.ctx.zoom_factor() - 1.0).abs() < 1e-6);
}

#[test]
fn cautions_stand_in_the_window() {
    let mut harness = window_on_three();
    click(&mut harness, "Help");
    click(&mut harness, "About Spandrel");
    assert!(harness.query_by_label_contains("competent mechanic").is_some());
}

#[test]
fn every_view_is_reached_by_keys_alone() {
    let mut harness = window_on_three();
    let views = ViewId::ALL;
    press(&mut harness, Modifiers::COMMAND, Key::Num1);
    press(&mut harness, Modifiers::ALT, Key::Num1);
    for view in views.iter().skip(1).chain(views.first()) {
        press(&mut harness, Modifiers::COMMAND, Key::PageDown);
        assert_eq!(harness.state().view(), *view);
    }
    for view in views.iter().rev() {
        press(&mut harness, Modifiers::COMMAND, Key::PageUp);
        assert_eq!(harness.state().view(), *view);
    }
}
