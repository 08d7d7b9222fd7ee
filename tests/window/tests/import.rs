//! Tables from pages into the line-up: pasted, looked through, compared, published, without a text editor.

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

use driving::{ENGLISH_TABLE, Hand, click, control, models, press, until_there, window_on};
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::frameset::Figure;

/// An invented maker's page in German: sizes down the side, decimal commas, parted by semicolons. The wheelbase of M is
/// 12 mm too long.
const GERMAN: &str = "Rahmengröße;Stack (mm);Reach (mm);Lenkwinkel;Sitzwinkel;Steuerrohrlänge (mm);Sitzrohrlänge (mm);\
Gabeleinbaulänge (mm);Gabelvorbiegung (mm);Kettenstrebenlänge (mm);Tretlagerabsenkung (mm);Radstand (mm)
S;594;372;69,5°;74,0°;93;410;482;46;445;62;1061
M;613;390;70,0°;73,5°;111;445;482;46;445;62;1092
L;632;408;70,0°;73,5°;131;480;482;46;445;62;1105
XL;655;425;70,5°;73,0°;153;520;482;46;445;62;1125
";

/// Another in English, with a row that is no figure.
fn english() -> String {
    format!("{ENGLISH_TABLE}Rider height\t160-172\t170-182\t180-192\n")
}

#[test]
fn two_copied_tables_become_a_picture_in_at_most_twelve_actions() {
    let folder = tempfile::tempdir().expect("a folder");
    let picture = folder.path().join("both.png");
    let mut hand = Hand::at(window_on(&[]));
    let english = english();
    for (table, maker, model) in [(GERMAN, "Marrowby", "Drift"), (&english, "Tansett", "Fourways")] {
        hand.paste(table);
        hand.words(maker);
        hand.key(Modifiers::NONE, Key::Tab);
        hand.words(model);
        hand.key(Modifiers::NONE, Key::Enter);
    }
    assert_eq!(models(&hand.window), ["Drift", "Fourways"]);
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
    assert!(hand.actions <= 12, "{} actions", hand.actions);
}

#[test]
fn a_misprint_in_a_pasted_table_is_named_and_set_aside() {
    let mut hand = Hand::at(window_on(&[]));
    hand.paste(GERMAN);
    click(&mut hand.window, "Import");
    press(&mut hand.window, Modifiers::ALT, Key::ArrowLeft);
    let size = hand.window.state().lineup().frames[0].size.clone();
    while hand.window.state().lineup().frames[0].size != "M" {
        press(&mut hand.window, Modifiers::ALT, Key::ArrowRight);
    }
    assert_eq!(hand.window.state().lineup().frames[0].frameset.sizes[1].figures[&Figure::HeadAngle], 70.0, "from {size}");
    let doubts = hand.window.query_all_by_label_contains("Doubtful or unknown figures of A").count();
    assert_eq!(doubts, 1, "the card says that a figure is doubtful");
    click(&mut hand.window, "Check");
    let named = hand.window.query_all_by_label_contains("M: wheelbase 1092 is").count();
    assert!(named >= 1, "the wheelbase is named with what the others expect");
}

#[test]
fn what_is_not_understood_is_kept_and_nothing_is_taken_by_cancel() {
    let mut hand = Hand::at(window_on(&[]));
    hand.paste(&english());
    assert!(hand.window.query_all_by_label_contains("Kept as a note: Rider height").count() == 1);
    hand.click("Cancel");
    assert!(models(&hand.window).is_empty());
    hand.paste("Once upon a time there was a bicycle.");
    let go = control(&hand.window, "Import");
    assert!(go.accesskit_node().is_disabled(), "prose is no table");
}

#[test]
fn a_row_is_taken_as_another_figure() {
    let mut hand = Hand::at(window_on(&[]));
    hand.paste("Size\tS\tM\nStack\t600\t620\nReach\t380\t395\nHead tube angle\t70\t70\nWunderlength\t440\t440\n");
    hand.click("Wunderlength read as");
    control(&hand.window, "Chainstay").click_accesskit();
    hand.window.run();
    hand.click("Import");
    let frames = &hand.window.state().lineup().frames;
    assert_eq!(frames[0].frameset.sizes[0].figures.get(&Figure::Chainstay), Some(&440.0));
}

#[test]
fn a_page_with_a_specification_is_reviewed_and_fills_the_frameset() {
    let mut hand = Hand::at(window_on(&[]));
    let list = "Frame weight: 2.35 kg (M)\nPrice: 1.299,00 €\nSeatpost: 27.2\nColour: moss\nMudguard line: 60 mm\n";
    hand.paste(&format!("{}\n{list}", english()));
    let frameset = {
        assert!(hand.window.query_by_label("Specification").is_some(), "the review has its section");
        assert!(hand.window.query_by_label_contains("frame weight 2350 g, size M").is_some());
        assert!(hand.window.query_by_label("Mudguard line read as").is_some(), "what is not known can be assigned");
        // The review finds its height in a few passes.
        hand.window.run();
        hand.window.run();
        hand.click("Import");
        hand.window.run();
        hand.window.state().lineup().frames.last().unwrap().frameset.clone()
    };
    assert_eq!(frameset.weights.len(), 1);
    assert_eq!((frameset.prices[0].amount.as_str(), frameset.prices[0].currency.as_str()), ("1299.00", "EUR"));
    assert_eq!(frameset.standards.values().collect::<Vec<_>>(), ["27.2"]);
    assert!(frameset.note.as_ref().unwrap().contains("Colour: moss"));
}
