//! The views, by their tabs, by keys and by mouse.

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

use driving::{click, press, sample, window_of_size, window_on, window_on_three};
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::window::{ViewGroup, ViewId, Window};

#[test]
fn tabs_and_digits_lead_to_every_view() {
    let mut harness = window_on_three();
    let digits = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];
    for view in ViewId::ALL {
        let (label, group) = (view.label(), view.group());
        let other = if group == ViewGroup::Compare { Key::Num2 } else { Key::Num1 };
        press(&mut harness, Modifiers::COMMAND, other);
        // Ctrl with a digit leads to the group, Alt with one to the view there.
        press(&mut harness, Modifiers::COMMAND, digits[group.place()]);
        press(&mut harness, Modifiers::ALT, digits[view.place_in_group()]);
        assert_eq!(harness.state().view(), view);
        press(&mut harness, Modifiers::COMMAND, other);
        assert_ne!(harness.state().view(), view);
        click(&mut harness, label);
        assert_eq!(harness.state().view(), view);
        assert!(harness.unnamed_widgets().is_empty(), "{label}: {:?}", harness.unnamed_widgets());
    }
}

#[test]
fn a_group_leads_back_to_the_view_that_was_seen_there_last() {
    let mut harness = window_on_three();
    click(&mut harness, "Parts");
    click(&mut harness, "Cost");
    assert_eq!(harness.state().view(), ViewId::Weight, "the first one, since none was seen yet");
    click(&mut harness, "Fit");
    assert_eq!(harness.state().view(), ViewId::Parts);
    press(&mut harness, Modifiers::COMMAND, Key::PageUp);
    press(&mut harness, Modifiers::COMMAND, Key::Num4);
    press(&mut harness, Modifiers::COMMAND, Key::Num2);
    assert_eq!(harness.state().view(), ViewId::Bags);
    // A place that the group does not have changes nothing.
    press(&mut harness, Modifiers::ALT, Key::Num6);
    assert_eq!(harness.state().view(), ViewId::Bags);
}

/// All tabs lie within the window, beside one another, at every width.
#[test]
fn no_tab_is_cut() {
    for width in [1000.0, 1280.0, 1920.0] {
        let mut harness = window_of_size(&[sample("village-library.lineup.ron")], width, 800.0);
        for group in ViewGroup::ALL {
            click(&mut harness, group.label());
            let tabs: Vec<_> = harness.query_all_by_role(egui::accesskit::Role::Tab).map(|tab| tab.rect()).collect();
            let expected = ViewGroup::ALL.len() + if group.only_view().is_some() { 0 } else { group.views().count() };
            assert_eq!(tabs.len(), expected, "{group:?} at {width}");
            for (i, tab) in tabs.iter().enumerate() {
                assert!(tab.right() <= width, "{group:?} at {width}: {tab:?}");
                assert!(tabs[..i].iter().all(|other| !other.shrink(0.5).intersects(tab.shrink(0.5))), "{group:?} at {width}");
            }
        }
    }
}

#[test]
fn a_drawing_is_described_in_sentences() {
    let harness = window_on_three();
    let drawing = harness.get_by_role(egui::accesskit::Role::GraphicsDocument);
    let words = drawing.accesskit_node().data().description().unwrap_or_default().to_owned();
    for part in ["Marrowby Drift", "Quern Halter", "trail", "±"] {
        assert!(words.contains(part), "{part} in: {words}");
    }
}

#[test]
fn a_drag_measures_and_escape_puts_it_away() {
    let mut harness = window_on_three();
    let field = harness.get_by_role(egui::accesskit::Role::GraphicsDocument).rect();
    let (from, to) = (field.center() - egui::vec2(300.0, 150.0), field.center() - egui::vec2(200.0, 150.0));
    harness.drag_at(from);
    harness.run();
    harness.hover_at(from + egui::vec2(50.0, 0.0));
    harness.run();
    harness.hover_at(to);
    harness.run();
    harness.drop_at(to);
    harness.run();
    let status = harness.state().status().to_owned();
    assert!(status.contains(" at 0.0°") || status.contains(" at 180.0°"), "{status}");
    assert!(!harness.state().is_unsaved(), "measuring changes nothing");
}

#[test]
fn wheel_and_keys_move_and_fit_brings_back() {
    let mut harness = window_on_three();
    let field = harness.get_by_role(egui::accesskit::Role::GraphicsDocument).rect();
    let told = |harness: &driving::Driven| {
        let words = harness.root().children_recursive().filter_map(|n| n.value()).find(|v| v.starts_with("x "));
        words.unwrap_or_default()
    };
    harness.hover_at(field.center());
    harness.run();
    let before = told(&harness);
    assert!(before.contains("mm"), "{before}");
    press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
    assert_ne!(told(&harness), before);
    press(&mut harness, Modifiers::NONE, Key::F);
    assert_eq!(told(&harness), before);
    // Closer at the pointer: the point under it stays.
    harness.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Point,
        source: egui::MouseWheelSource::Wheel,
        delta: egui::vec2(0.0, 60.0),
        phase: egui::TouchPhase::Move,
        modifiers: Modifiers::NONE,
    });
    harness.run();
    assert_eq!(told(&harness), before);
    harness.hover_at(field.center() + egui::vec2(80.0, 0.0));
    harness.run();
    let near = told(&harness);
    press(&mut harness, Modifiers::NONE, Key::F);
    assert_ne!(told(&harness), near, "it was enlarged");
}

#[test]
fn a_plot_shows_any_figure_against_any_other() {
    let mut harness = window_on_three();
    click(&mut harness, "Steering");
    click(&mut harness, "Horizontal axis: figure");
    harness.get_by_label("Wheelbase").scroll_to_me();
    harness.run();
    click(&mut harness, "Wheelbase");
    assert_eq!(harness.state().lineup().settings.steering.across.label(), "Wheelbase");
    click(&mut harness, "Stack and reach");
    click(&mut harness, "Vertical axis: figure");
    click(&mut harness, "Head angle");
    assert_eq!(harness.state().lineup().settings.stack_and_reach.up.label(), "Head angle");
}

#[test]
fn switches_of_the_outline() {
    let mut harness = window_on_three();
    for (name, key) in [("Wheels", Key::W), ("Grid", Key::G), ("Dimensions", Key::D)] {
        let before = harness.state().lineup().settings.clone();
        click(&mut harness, name);
        assert_ne!(harness.state().lineup().settings, before, "{name}");
        press(&mut harness, Modifiers::NONE, key);
        assert_eq!(harness.state().lineup().settings, before, "{name} by key");
    }
}

#[test]
fn figures_say_what_they_are() {
    let mut harness = window_on(&[sample("marrowby-drift.frame.ron"), sample("quern-halter.frame.ron")]);
    click(&mut harness, "All figures");
    harness.get_by_label_contains("Trail, A Marrowby Drift");
    harness.get_by_label_contains("Trail, B − A");
    harness.get_by_label("Copy figures").click();
    harness.run();
    assert!(harness.state().status().contains("clipboard"));
}

#[test]
fn every_view_holds_in_small_and_large_windows() {
    let all: Vec<_> = [
        "marrowby-drift",
        "quern-halter",
        "tansett-fourways",
        "ellersby-longbarn",
        "brackwater-cob",
        "wrenfold-ambler",
        "hollinshaw-wether",
    ]
    .iter()
    .map(|n| sample(&format!("{n}.frame.ron")))
    .collect();
    for (files, width, height) in [
        (&all[..1], 760.0, 480.0),
        (&all[..], 760.0, 480.0),
        (&all[..], 1280.0, 800.0),
        (&all[..], 1920.0, 1080.0),
        (&all[6..], 1280.0, 800.0),
    ] {
        let mut harness = window_of_size(files, width, height);
        for label in ViewId::ALL.map(ViewId::label) {
            click(&mut harness, label);
            assert_eq!(harness.state().view_label(), label);
        }
    }
}

#[test]
fn a_window_left_alone_asks_for_no_repaint() {
    let mut harness = window_on_three();
    for label in ViewId::ALL.map(ViewId::label) {
        click(&mut harness, label);
        harness.step();
        harness.step();
        // Some pictures are made beside the window, which looks for them meanwhile.
        for _ in 0..3000 {
            if !Window::is_making_pictures(&harness.ctx) {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
            harness.step();
        }
        harness.step();
        let delay = harness.output().viewport_output.values().map(|v| v.repaint_delay).min().expect("one viewport");
        assert!(delay > std::time::Duration::from_secs(3600), "{label}: {delay:?}");
    }
}
