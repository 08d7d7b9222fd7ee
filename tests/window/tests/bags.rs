//! The Bags view: the bag's settings, the cut line dragged, moved by keys and typed, bottles, the pattern saved.

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

use driving::{Driven, click, control, enter, press, sample, window_of_size, window_on};
use egui::{Key, Modifiers, Pos2, Rect, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::drawing::{Page, Pt, cut_through, is_on_cut};
use spandrel::lineup::{BagSpaceCorner, BagSpaceSettings, Findings};
use spandrel::luggage::{BagPart, Bottle, Cut};

/// The Bags view on three frames, high enough for its whole panel.
fn bag_space() -> Driven {
    let files = ["marrowby-drift.frame.ron", "quern-halter.frame.ron", "hollinshaw-wether.frame.ron"].map(sample);
    let mut harness = window_of_size(&files, 1280.0, 1400.0);
    click(&mut harness, "Bags");
    harness
}

fn settings(harness: &Driven) -> BagSpaceSettings {
    harness.state().lineup().settings.bags
}

fn drawing(harness: &Driven) -> Rect {
    harness.get_by_label("Drawing: Bags").rect()
}

fn said(harness: &Driven) -> String {
    let node = harness.get_by_label("Drawing: Bags");
    node.accesskit_node().data().description().unwrap_or_default().to_owned()
}

fn level(harness: &Driven) -> f64 {
    match settings(harness).bag.part {
        BagPart::Above(Cut::Level { above_bb_mm }) => above_bb_mm,
        other => panic!("{other:?}"),
    }
}

/// A place on the screen where the cut line can be taken, and the cut line so many points above it.
fn cut_line(harness: &Driven, up: f64) -> (Pos2, f64) {
    let rect = drawing(harness);
    let page = Page { width: f64::from(rect.width()), height: f64::from(rect.height()) };
    let findings = Findings::of(harness.state().lineup());
    let bag_space = settings(harness);
    let own = level(harness);
    // Quarters of a pixel, since a pixel is more than the millimetre to which the line is set.
    for quarter in 0..4 * rect.height() as i32 {
        for x in (0..rect.width() as i32).step_by(7) {
            let at = Pt { x: f64::from(x), y: f64::from(quarter) / 4.0 };
            let exact = cut_through(&findings, &bag_space, page, at, at) == Some(Cut::Level { above_bb_mm: own });
            if exact && is_on_cut(&findings, &bag_space, page, at) {
                let to = cut_through(&findings, &bag_space, page, at, Pt { y: at.y - up, ..at });
                let Some(Cut::Level { above_bb_mm }) = to else { panic!("{to:?}") };
                return (rect.min + vec2(x as f32, at.y as f32), above_bb_mm);
            }
        }
    }
    panic!("no cut line on the page");
}

#[test]
fn a_bag_is_chosen_and_every_number_has_a_name() {
    let mut harness = bag_space();
    click(&mut harness, "Partial bag, horizontal cut line");
    assert!(level(&harness) > 0.0);
    enter(&mut harness, "Cut line above bottom bracket", "350");
    assert_eq!(level(&harness), 350.0);
    enter(&mut harness, "Gap to tubes", "8");
    enter(&mut harness, "Corner radius", "20");
    enter(&mut harness, "Gusset width at top", "70");
    enter(&mut harness, "Gusset width at bottom", "50");
    enter(&mut harness, "Seam allowance", "12");
    let bag = settings(&harness).bag;
    assert_eq!((bag.gap_to_tubes_mm, bag.corner_radius_mm), (8.0, 20.0));
    assert_eq!((bag.gusset_top_mm, bag.gusset_bottom_mm, bag.seam_allowance_mm), (70.0, 50.0, 12.0));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(settings(&harness).bag.seam_allowance_mm, 10.0);
    click(&mut harness, "Partial bag, cut line along the top tube");
    enter(&mut harness, "Cut line below top tube", "140");
    assert_eq!(settings(&harness).bag.part, BagPart::Above(Cut::AlongTopTube { below_mm: 140.0 }));
    click(&mut harness, "Full frame bag");
    assert_eq!(settings(&harness).bag.part, BagPart::Full);
}

#[test]
fn the_cut_line_is_dragged_in_one_step_and_moved_by_keys() {
    let mut harness = bag_space();
    click(&mut harness, "Partial bag, horizontal cut line");
    let before = level(&harness);
    let (from, expected) = cut_line(&harness, 30.0);
    assert!(expected > before + 10.0, "{before} {expected}");
    harness.drag_at(from);
    harness.run();
    for part in [6.0, 14.0, 30.0] {
        harness.hover_at(from - vec2(0.0, part));
        harness.run();
    }
    harness.drop_at(from - vec2(0.0, 30.0));
    harness.run();
    assert_eq!(level(&harness), expected, "the line is where the pointer let it go");
    assert!(harness.state().status().contains("Cut line"), "{}", harness.state().status());
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    assert_eq!(level(&harness), expected - 5.0);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(level(&harness), before, "one drag is one step");
    // Beside the line nothing is taken.
    let (from, _) = cut_line(&harness, 0.0);
    harness.drag_at(from + vec2(0.0, 60.0));
    harness.run();
    harness.hover_at(from);
    harness.run();
    harness.drop_at(from);
    harness.run();
    assert_eq!(level(&harness), before);
}

#[test]
fn what_does_not_fit_or_is_not_known_is_said() {
    let mut harness = bag_space();
    let words = said(&harness);
    for part in ["Marrowby Drift", "Quern Halter", "bottle on the down tube hits the bag", "Measure along"] {
        assert!(words.contains(part), "{part} in: {words}");
    }
    assert!(words.contains("Hollinshaw Wether, size middle: Frame-bag space cannot be drawn: stack, reach"), "{words}");
    // No bag, no pattern; the other two have theirs.
    let is_off = |h: &Driven, name: &str| control(h, name).accesskit_node().is_disabled();
    assert!(!is_off(&harness, "Save pattern of A…") && !is_off(&harness, "Save pattern of B…"));
    assert!(is_off(&harness, "Save pattern of C…"));
    click(&mut harness, "Partial bag, horizontal cut line");
    enter(&mut harness, "Cut line above bottom bracket", "900");
    assert!(said(&harness).contains("Move the line down"), "{}", said(&harness));
    assert!(is_off(&harness, "Save pattern of A…"));
}

#[test]
fn bottles_and_the_common_corner_are_chosen() {
    let mut harness = bag_space();
    click(&mut harness, "Bottle on the down tube");
    click(&mut harness, "1.0 l");
    assert_eq!(settings(&harness).cages.down_tube.map(|c| c.bottle), Some(Bottle::Large));
    click(&mut harness, "Bottle on the seat tube");
    click(&mut harness, "none");
    assert_eq!(settings(&harness).cages.seat_tube, None);
    enter(&mut harness, "Lower boss on the down tube", "250");
    assert_eq!(settings(&harness).cages.down_tube.map(|c| c.lower_boss_mm), Some(250.0));
    click(&mut harness, "Align bags at");
    click(&mut harness, "head tube");
    assert_eq!(settings(&harness).align_at, BagSpaceCorner::HeadTube);
    click(&mut harness, "Bag");
    assert!(!settings(&harness).with_bag);
    assert!(said(&harness).contains("bottle on the down tube fits"), "{}", said(&harness));
    assert!(harness.unnamed_widgets().is_empty(), "{:?}", harness.unnamed_widgets());
}

#[test]
fn the_pattern_is_saved_as_pdf_and_svg() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = bag_space();
    click(&mut harness, "Paper");
    click(&mut harness, "A3");
    for (name, begins) in [("bag.pdf", "%PDF-1."), ("bag.svg", "<svg ")] {
        let path = folder.path().join(name);
        click(&mut harness, "Save pattern of B…");
        harness.get_by_label("Path").focus();
        harness.run();
        harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        harness.run();
        harness.get_by_label("Path").type_text(&path.to_string_lossy());
        harness.run();
        click(&mut harness, "Save");
        for _ in 0..500 {
            if path.exists() {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(20));
            harness.step();
        }
        let bytes = std::fs::read(&path).expect("saved");
        let text = String::from_utf8_lossy(&bytes);
        assert!(text.starts_with(begins), "{name}");
        assert!(text.contains("Quern Halter"), "{name} says whose it is");
        if name == "bag.pdf" {
            // A3: 297 mm and 420 mm in points of 1/72 inch, to the last digit that the file rounds.
            assert!(text.contains("841.889") && text.contains("1190.551"), "the paper chosen");
        }
        harness.run();
    }
    assert!(!harness.state().is_unsaved(), "saving a pattern changes nothing");
}

#[test]
fn the_view_stands_on_one_frame_and_on_a_small_window() {
    let mut harness = window_on(&[sample("tansett-fourways.frame.ron")]);
    click(&mut harness, "Bags");
    assert!(said(&harness).contains("Tansett Fourways"));
    assert!(drawing(&harness).width() > 300.0 && drawing(&harness).height() > 200.0, "{:?}", drawing(&harness));
}
