//! The Publish view: a sheet made from one to begin with, changed, published and published again.

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
use std::path::Path;
use std::time::{Duration, Instant};

use driving::{Driven, click, control, enter, press, sample, type_over, window_on};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::lineup::{Block, Lineup, Shape, Sheet, SheetBackground};

fn sheets() -> Driven {
    let mut harness = window_on(&[sample("village-library.lineup.ron")]);
    click(&mut harness, "Publish");
    harness
}

fn lineup(harness: &Driven) -> &Lineup {
    harness.state().lineup()
}

fn only_sheet(harness: &Driven) -> &Sheet {
    let sheets = &lineup(harness).sheets;
    assert_eq!(sheets.len(), 1);
    &sheets[0]
}

fn pick(harness: &mut Driven, name: &str, choice: &str) {
    click(harness, name);
    click(harness, choice);
}

/// Presses a control that may be scrolled out of sight, as a screen reader does.
fn press_far(harness: &mut Driven, name: &str) {
    control(harness, name).click_accesskit();
    harness.run();
}

/// Waits for work beside the window to end.
fn wait(harness: &mut Driven, is_done: impl Fn(&Driven) -> bool) {
    let began = Instant::now();
    while !is_done(harness) {
        assert!(began.elapsed() < Duration::from_secs(240), "{}", harness.state().status());
        std::thread::sleep(Duration::from_millis(30));
        harness.step();
    }
}

/// Names of all files in a folder and below it.
fn names(folder: &Path) -> Vec<String> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                found.push(path.strip_prefix(folder).unwrap().display().to_string());
            }
        }
    }
    found.sort();
    found
}

#[test]
fn what_is_changed_on_a_sheet_to_begin_with_makes_it_the_line_ups_own() {
    let mut harness = sheets();
    assert!(lineup(&harness).sheets.is_empty());
    type_over(&mut harness, "Title", "Six bicycles");
    assert_eq!((only_sheet(&harness).name.as_str(), only_sheet(&harness).title.as_str()), ("Film", "Six bicycles"));
    control(&harness, "Name of the sheet");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    pick(&mut harness, "Background", "Transparent, light lines");
    pick(&mut harness, "Shape", "9:16");
    let sheet = only_sheet(&harness);
    assert_eq!((sheet.background, sheet.shape, sheet.width), (SheetBackground::TransparentDark, Shape::Upright, None));
    for _ in 0..2 {
        press(&mut harness, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!((only_sheet(&harness).background, only_sheet(&harness).shape), (SheetBackground::Light, Shape::Wide));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(lineup(&harness).sheets.is_empty(), "the typed title was one step");
}

#[test]
fn parts_are_put_in_order_added_and_removed_by_name() {
    let mut harness = sheets();
    control(&harness, "Move Sentences up").focus();
    harness.run();
    let orders = [
        [Block::Outline, Block::Captions, Block::Table],
        [Block::Captions, Block::Outline, Block::Table],
        [Block::Captions, Block::Outline, Block::Table],
    ];
    for order in orders {
        press(&mut harness, Modifiers::NONE, Key::Enter);
        assert_eq!(only_sheet(&harness).contents, order, "the keyboard goes up with its row, and stays at the top");
    }
    click(&mut harness, "Remove Outline");
    press_far(&mut harness, "Add a part…");
    click(&mut harness, "Weights");
    assert_eq!(only_sheet(&harness).contents, [Block::Captions, Block::Table, Block::Weights]);
    click(&mut harness, "Remove Table of differences");
    assert!(harness.query_by_label("Add a figure…").is_none(), "without its table no figures are asked for");
    assert!(harness.unnamed_widgets().is_empty(), "{:?}", harness.unnamed_widgets());
}

#[test]
fn an_edited_sentence_stays_and_says_when_the_figures_changed() {
    let mut harness = sheets();
    let name = "Sentence: Trail: Quern Halter";
    type_over(&mut harness, name, "B turns in sooner. ");
    assert_eq!(only_sheet(&harness).captions[0].text, "B turns in sooner. ", "blanks can be typed");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    // One common tyre makes other trails.
    enter(&mut harness, "Same tyre on all", "47-622");
    assert_eq!(only_sheet(&harness).captions[0].text, "B turns in sooner. ");
    assert!(harness.query_all_by_label_contains("The figures or their wording have changed since you edited this").count() == 1);
    press_far(&mut harness, "Reset: Trail: Quern Halter");
    assert!(only_sheet(&harness).captions.is_empty());
    type_over(&mut harness, name, " ");
    assert_eq!(only_sheet(&harness).captions[0].text.trim(), "", "an empty one is left out");
}

#[test]
fn what_cannot_be_is_said_at_its_field_and_changes_nothing() {
    let mut harness = sheets();
    enter(&mut harness, "Width, pixels", "12");
    assert!(harness.query_all_by_label_contains("Enter a whole number from 320 to 7680").count() >= 1);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(lineup(&harness).sheets.is_empty());
    click(&mut harness, "Duplicate sheet");
    click(&mut harness, "Duplicate sheet");
    let names = |h: &Driven| lineup(h).sheets.iter().map(|s| s.name.clone()).collect::<Vec<_>>();
    assert_eq!(names(&harness), ["Film", "Film 2"]);
    enter(&mut harness, "Name of the sheet", "film");
    assert!(harness.query_all_by_label_contains("“film” is already the name of a sheet").count() >= 1);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    enter(&mut harness, "Name of the sheet", "Loan bikes");
    assert_eq!(names(&harness), ["Film", "Loan bikes"]);
    click(&mut harness, "Remove sheet");
    assert_eq!(names(&harness), ["Film"]);
}

#[test]
fn a_sheet_is_published_and_again_over_its_own_files_only() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("out");
    let mut harness = sheets();
    enter(&mut harness, "Width, pixels", "320");
    press_far(&mut harness, "Publish an animation");
    assert!(only_sheet(&harness).animation.is_none());
    press(&mut harness, Modifiers::COMMAND, Key::P);
    enter(&mut harness, "Path", to.to_str().unwrap());
    wait(&mut harness, |h| h.state().status().starts_with("Published"));
    let first = names(&to);
    for name in ["picture.png", "picture.svg", "upright.png", "overlay.png", "sheet.pdf", "page.html", "comparison.lineup.ron"] {
        assert!(first.iter().any(|n| n == name), "{name} in {first:?}");
    }
    fs::write(to.join("mine.txt"), "mine").unwrap();
    fs::write(to.join("page.html"), "retouched").unwrap();
    let before = fs::read(to.join("picture.png")).unwrap();
    type_over(&mut harness, "Title", "Another title");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::P);
    let says = "page.html: kept as it is, because it was changed since Spandrel made it";
    wait(&mut harness, |h| h.state().notices().any(|n| n.contains(says)));
    assert_ne!(fs::read(to.join("picture.png")).unwrap(), before);
    assert_eq!(fs::read_to_string(to.join("page.html")).unwrap(), "retouched");
    assert_eq!(fs::read_to_string(to.join("mine.txt")).unwrap(), "mine");
}

#[test]
fn publishing_is_stopped_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (whole, stopped) = (folder.path().join("whole"), folder.path().join("stopped"));
    let mut harness = sheets();
    enter(&mut harness, "Width, pixels", "320");
    let publish = |harness: &mut Driven, to: &Path| {
        press(harness, Modifiers::COMMAND, Key::P);
        enter(harness, "Path", to.to_str().unwrap());
    };
    let began = Instant::now();
    publish(&mut harness, &whole);
    wait(&mut harness, |h| h.state().status().starts_with("Published"));
    let needed = began.elapsed();
    publish(&mut harness, &stopped);
    click(&mut harness, "Stop");
    assert!(harness.query_by_label("Stop").is_none());
    std::thread::sleep(2 * needed + Duration::from_secs(1));
    harness.run();
    assert!(whole.exists() && !stopped.exists(), "nothing is written before all of it is made");
}

#[test]
fn the_sheet_is_the_views_picture() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = sheets();
    enter(&mut harness, "Width, pixels", "640");
    for name in ["sheet.png", "sheet.svg", "sheet.pdf"] {
        let path = folder.path().join(name);
        press(&mut harness, Modifiers::COMMAND, Key::E);
        enter(&mut harness, "Path", path.to_str().unwrap());
        wait(&mut harness, |_| path.exists());
    }
    let svg = fs::read_to_string(folder.path().join("sheet.svg")).unwrap();
    assert!(svg.contains("One frameset for six loan bicycles") && svg.contains("width=\"640.00\""), "{svg:.800}");
    assert!(fs::read(folder.path().join("sheet.pdf")).unwrap().starts_with(b"%PDF"));
}

#[test]
fn a_text_of_a_sheet_that_is_too_long_is_said_at_its_field() {
    let mut harness = sheets();
    let before = lineup(&harness).clone();
    for (name, longest) in [("Title", "200"), ("Subtitle", "200"), ("Date", "200"), ("Author", "200")] {
        type_over(&mut harness, name, &"x".repeat(201));
        let words = format!("201 characters: at most {longest} are accepted");
        assert!(harness.query_all_by_label_contains(&words).count() >= 1, "{name}");
        press(&mut harness, Modifiers::NONE, Key::Tab);
        assert!(harness.state().status().contains("was not accepted"), "{}", harness.state().status());
    }
    assert_eq!(*lineup(&harness), before);
    type_over(&mut harness, "Title", &"x".repeat(200));
    assert_eq!(only_sheet(&harness).title.len(), 200);
}
