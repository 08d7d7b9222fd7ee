//! From web pages, and from nothing but a keyboard, to a fair comparison: what has to be done is counted. Words and figures
//! that are typed are content; every key with another meaning and every click is an action.

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

use std::fs;

use driving::{ENGLISH_TABLE, Hand, control, models, press, until_there, window_of_size, window_on};
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::frameset::{Figure, FrameIndex, Part, SizeIndex, Standard};
use spandrel::lineup::{BagSpaceFigure, SizeBasis};
use spandrel::window::ViewId;

/// An invented page in German: sizes down, decimal commas, and a list below.
const GERMAN: &str = "Geometrie
Rahmengröße;Stack (mm);Reach (mm);Lenkwinkel;Sitzwinkel;Steuerrohrlänge (mm);Sitzrohrlänge (mm);\
Gabeleinbaulänge (mm);Gabelvorbiegung (mm);Kettenstrebenlänge (mm);Tretlagerabsenkung (mm);Radstand (mm)
S;594,5;372,0;69,5°;74,0°;93;410;482;46;445;62;1061
M;613,5;390,0;70,0°;73,5°;111;445;482;46;445;62;1080
L;632,0;408,0;70,0°;73,5°;131;480;482;46;445;62;1105
XL;655,0;425,0;70,5°;73,0°;153;520;482;46;445;62;1125

Technische Daten
Rahmengewicht: ca. 2,41 kg (M)
Gabelgewicht: 1.050 g
UVP Rahmenset: 1.299,00 €
Achse hinten: 12 x 148 mm
Achse vorne: 15 x 110 mm
Tretlager: BSA 73 mm
Sattelstütze: 27,2 mm
Reifenfreiheit: bis zu 29 × 2,4
Farbe: moosgrün
";

/// Behind the table in English: a list with one blank between label and value.
const ENGLISH_LIST: &str = "Frame weight 2.28 kg (M)
Fork weight 1150 g
Frameset price £1,145
Rear axle 12 x 148 mm
Bottom bracket BSA 73
Tyre clearance: 50 mm
Lower headset: EC44/40
";

/// An invented page in English: the table, then its list.
fn english() -> String {
    format!("{ENGLISH_TABLE}\n{ENGLISH_LIST}")
}

/// An invented page in inches and dollars.
const INCHES: &str = "Frame size\tSmall\tMedium\tLarge
Stack\t23.3\"\t24.0\"\t24.8\"
Reach\t14.7\"\t15.4\"\t16.1\"
Head angle\t70°\t70.5°\t70.5°
Seat angle\t74°\t73.5°\t73.5°
Head tube length\t3.7\"\t4.3\"\t5.1\"
Seat tube length\t16.1\"\t17.5\"\t18.9\"
Axle to crown\t18.9\"\t18.9\"\t18.9\"
Fork rake\t1.8\"\t1.8\"\t1.8\"
Chainstay length\t17.5\"\t17.5\"\t17.5\"
BB drop\t2.6\"\t2.6\"\t2.6\"
Wheelbase\t41.7\"\t42.4\"\t43.3\"

Frame weight\t5 lb 2 oz (Medium)
Fork weight\t2.3 lb
Frameset price\t1,395.00 USD
Seatpost\t27.2 mm
Tire clearance\t29 x 2.2
";

#[test]
fn three_pages_become_a_fair_picture_of_two_bags_in_at_most_25_actions() {
    let folder = tempfile::tempdir().expect("a folder");
    let picture = folder.path().join("bags.png");
    let mut hand = Hand::at(window_of_size(&[], 1920.0, 1080.0));
    let english = english();
    for (page, maker, model) in [(GERMAN, "Marrowby", "Drift"), (&english, "Tansett", "Fourways"), (INCHES, "Quern", "Halter")] {
        hand.paste(page);
        hand.words(maker);
        hand.key(Modifiers::NONE, Key::Tab);
        hand.words(model);
        hand.key(Modifiers::NONE, Key::Enter);
    }
    assert_eq!(models(&hand.window), ["Drift", "Fourways", "Halter"]);
    // What the lists say is in the framesets, nothing typed.
    for (place, price, grams) in [(0, "1299.00 EUR", 2410.0), (1, "1145 GBP", 2280.0), (2, "1395.00 USD", 2324.7)] {
        let frameset = &hand.window.state().lineup().frames[place].frameset;
        let told = format!("{} {}", frameset.prices[0].amount, frameset.prices[0].currency);
        let frame = frameset.weights.iter().find(|w| w.part == Part::Frame).expect("a frame's weight");
        assert_eq!((told.as_str(), frame.grams, frame.size.is_some()), (price, grams, true), "{}", frameset.name());
        assert!(frameset.weights.iter().any(|w| w.part == Part::Fork), "{}", frameset.name());
    }
    let english = &hand.window.state().lineup().frames[1].frameset.standards;
    assert_eq!(english.get(&Standard::LowerHeadset).map(String::as_str), Some("EC44/40"));
    // The third frame is left out.
    hand.click("Show C");
    hand.click("Fit");
    assert_eq!(hand.window.state().view(), ViewId::Bags);
    hand.key(Modifiers::COMMAND, Key::E);
    hand.key(Modifiers::NONE, Key::Enter);
    assert!(hand.window.query_by_label("Path").is_some(), "1080p is the size that is offered");
    // The place that is suggested is taken as it is, but in a folder of the test's own.
    press(&mut hand.window, Modifiers::COMMAND, Key::A);
    hand.words(&picture.to_string_lossy());
    hand.key(Modifiers::NONE, Key::Enter);
    until_there(&mut hand.window, &picture);
    let bytes = fs::read(&picture).expect("saved");
    assert_eq!(bytes[16..24], [0, 0, 7, 128, 0, 0, 4, 56], "1920 by 1080");
    // Fair: the size that was taken is the closest in fit, and what remains is on the picture.
    let state = hand.window.state();
    let findings = spandrel::lineup::Findings::of(state.lineup());
    let fit = &findings.fit[FrameIndex(1)].size_fit;
    assert!(matches!(fit.basis, SizeBasis::Fit), "{:?}", fit.basis);
    let left = fit.left_over.expect("both have stack and reach").value.abs();
    for other in SizeIndex::all(findings.frames[FrameIndex(1)].frameset.sizes.len()) {
        let label = findings.frames[FrameIndex(1)].frameset.sizes[other.0].label.clone();
        let mut lineup = state.lineup().clone();
        lineup.frames[1].size = label.clone();
        let again = spandrel::lineup::Findings::of(&lineup).fit[FrameIndex(1)].size_fit.left_over.expect("known").value.abs();
        assert!(again >= left - 1e-9, "{label} would be closer: {again} against {left}");
    }
    assert!(findings.frames.iter().filter(|f| f.shown).all(|f| BagSpaceFigure::Litres.of(f).is_some()));
    println!("{} actions", hand.actions);
    assert!(hand.actions <= 25, "{} actions", hand.actions);
}

#[test]
fn a_frame_typed_by_hand_takes_at_most_60_keystrokes_beyond_its_figures() {
    let figures = [
        (Figure::Stack, "612"),
        (Figure::Reach, "388"),
        (Figure::HeadAngle, "70.5"),
        (Figure::SeatAngle, "73.5"),
        (Figure::HeadTube, "118"),
        (Figure::AxleToCrown, "470"),
        (Figure::ForkOffset, "47"),
        (Figure::Chainstay, "442"),
        (Figure::BbDrop, "66"),
        (Figure::Wheelbase, "1074"),
        (Figure::SeatTube, "470"),
    ];
    let mut hand = Hand::at(window_on(&[]));
    hand.key(Modifiers { shift: true, ..Modifiers::COMMAND }, Key::N);
    hand.words("Marrowby");
    hand.key(Modifiers::NONE, Key::Tab);
    hand.key(Modifiers::COMMAND, Key::A);
    hand.words("Drift");
    hand.key(Modifiers::NONE, Key::Enter);
    hand.key(Modifiers::COMMAND, Key::A);
    hand.words("54");
    hand.key(Modifiers::NONE, Key::Enter);
    let in_files = Figure::ALL.iter().copied().filter(|figure| figure.about().in_files);
    for figure in in_files {
        if let Some((_, text)) = figures.iter().find(|(known, _)| *known == figure) {
            hand.words(text);
        }
        hand.key(Modifiers::NONE, Key::Enter);
        if figure == Figure::SeatTube {
            break;
        }
    }
    // Weight and price from the views that miss them.
    for (view, offer, text) in [
        (ViewId::Weight, "A: No weight yet: enter one", "2350"),
        (ViewId::PriceAndClimb, "A: No price yet: enter one", "1.299,00 EUR"),
    ] {
        // The tab of its group, and its own.
        hand.actions += 2;
        driving::click(&mut hand.window, view.label());
        hand.click(offer);
        hand.words(text);
        hand.key(Modifiers::NONE, Key::Enter);
    }
    let frameset = &hand.window.state().lineup().frames[0].frameset;
    assert_eq!((frameset.maker.as_str(), frameset.model.as_str(), frameset.sizes[0].label.as_str()), ("Marrowby", "Drift", "54"));
    for (figure, text) in figures {
        assert_eq!(frameset.sizes[0].figures.get(&figure), text.parse().ok().as_ref(), "{figure:?}");
    }
    assert_eq!(frameset.sizes[0].figures.len(), figures.len());
    assert_eq!((frameset.weights[0].grams, frameset.prices[0].amount.as_str()), (2350.0, "1299.00"));
    println!("{} keystrokes", hand.actions);
    assert!(hand.actions <= 60, "{} keystrokes", hand.actions);
}

#[test]
fn what_a_view_misses_is_offered_there_and_leads_to_its_field() {
    let without_seat_tube: String =
        ENGLISH_TABLE.lines().filter(|line| !line.starts_with("Seat tube length")).map(|line| format!("{line}\n")).collect();
    let mut hand = Hand::at(window_on(&[]));
    hand.paste(&without_seat_tube);
    hand.key(Modifiers::NONE, Key::Enter);
    // In the view.
    driving::click(&mut hand.window, "Weight");
    hand.click("A: No weight yet: enter one");
    assert_eq!(hand.window.state().view(), ViewId::Frameset);
    hand.words("2350");
    hand.key(Modifiers::NONE, Key::Enter);
    assert_eq!(hand.window.state().lineup().frames[0].frameset.weights[0].grams, 2350.0);
    assert!(hand.window.state().is_unsaved());
    // Its size from a list.
    control(&hand.window, "size").click();
    hand.window.run();
    control(&hand.window, "L").click();
    hand.window.run();
    assert_eq!(hand.window.state().lineup().frames[0].frameset.weights[0].size.as_deref(), Some("L"));
    // A figure.
    driving::click(&mut hand.window, "Bags");
    hand.click("A: Needs seat tube: enter it");
    let size = hand.window.state().lineup().frames[0].size.clone();
    assert!(control(&hand.window, &format!("Seat tube, size {size}")).is_focused());
    hand.words("430");
    hand.key(Modifiers::NONE, Key::Enter);
    driving::click(&mut hand.window, "Bags");
    assert!(hand.window.query_all_by_label_contains("Needs").next().is_none(), "nothing is missing any more");
    // In a cell of the overview.
    driving::click(&mut hand.window, "Overview");
    let cells = hand.window.query_all_by_label_contains("Widest tyre on 622");
    let name = cells.filter_map(|cell| cell.accesskit_node().label()).find(|label| label.ends_with(&size)).expect("a cell");
    hand.click(&name);
    assert_eq!(hand.window.state().view(), ViewId::Frameset);
    hand.words("50-622");
    hand.key(Modifiers::NONE, Key::Tab);
    let standards = &hand.window.state().lineup().frames[0].frameset.standards;
    assert_eq!(standards.get(&Standard::WidestTyre).map(String::as_str), Some("50-622"));
}

#[test]
fn a_clearance_without_a_wheel_is_asked_about() {
    let mut hand = Hand::at(window_on(&[]));
    hand.paste(&english());
    assert!(hand.window.query_by_label_contains("does not name the wheel").is_some());
    hand.click("700C or 29 in");
    hand.key(Modifiers::NONE, Key::Escape);
}
