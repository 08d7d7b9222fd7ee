//! Files of format 1 are read for ever: old names mean what the new ones mean, and are written as the new ones.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use std::path::{Path, PathBuf};

use spandrel::frameset::{Frameset, RETIRED_NAMES, read_frameset, write_frameset};
use spandrel::lineup::{Lineup, SizeRule, read_lineup, write_lineup};

const KEYS: &str = include_str!("../docs/keys.md");

fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

fn text(path: &str) -> String {
    std::fs::read_to_string(at(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// The example of a page of `docs/`.
fn example(path: &str) -> String {
    let page = text(path);
    let (_, rest) = page.split_once("```ron\n").unwrap();
    rest.split_once("\n```").unwrap().0.to_owned()
}

fn frame(text: &str) -> Frameset {
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e} {:?}", e.position()))
}

fn lineup(text: &str) -> Lineup {
    read_lineup(text.as_bytes()).unwrap_or_else(|e| panic!("{e} {:?}", e.position()))
}

/// Whether `name` stands in `text` as a word of its own.
fn has_word(text: &str, name: &str) -> bool {
    let is_letter = |c: char| c.is_alphanumeric() || c == '_';
    text.match_indices(name).any(|(i, _)| !text[..i].ends_with(is_letter) && !text[i + name.len()..].starts_with(is_letter))
}

#[test]
fn old_files_hold_the_documents_that_new_ones_hold() {
    let old = |name: &str| text(&format!("tests/format-1/{name}"));
    assert!(old("every-field.frame.ron").contains("format: 1,"));
    // Without what only format 2 has.
    let mut new = frame(&example("docs/frame-files.md"));
    new.stated.clear();
    new.standards.remove(&spandrel::frameset::Standard::WeightLimit);
    new.standards.remove(&spandrel::frameset::Standard::ChainstayOutside);
    for size in &mut new.sizes {
        size.use_anyway.clear();
        size.measured.clear();
    }
    assert_eq!(frame(&old("every-field.frame.ron")), new);
    let mut new = lineup(&example("docs/lineup-files.md"));
    for caption in new.sheets.iter_mut().flat_map(|sheet| &mut sheet.captions) {
        caption.figures = String::new();
    }
    // What the old example leaves out.
    new.settings.parts.besides.clear();
    new.settings.parts.parts.retain(|part| part.text != "142 x 12 through axle");
    for part in &mut new.settings.parts.parts {
        part.purchase = spandrel::parts::Purchase::default();
    }
    new.settings.rear = spandrel::parts::RearSettings::default();
    new.settings.overview = spandrel::lineup::OverviewSettings::default();
    new.settings.loaded = spandrel::loaded::LoadedSettings::default();
    let cages = &mut new.settings.bags.cages;
    cages.down_tube.as_mut().unwrap().boss_plus_minus_mm = cages.seat_tube.unwrap().boss_plus_minus_mm;
    new.settings.sizes = SizeRule::AsPublished;
    for entry in &mut new.frames {
        entry.is_pinned = false;
    }
    for sheet in &mut new.sheets {
        sheet.statement = None;
    }
    new.settings.rider.cockpit.as_mut().unwrap().upper_headset_stack_height = None;
    assert_eq!(lineup(&old("every-field.lineup.ron")), new);
    assert_eq!(frame(&old("marrowby-drift.frame.ron")), frame(&text("sample-frames/marrowby-drift.frame.ron")));
    assert_eq!(lineup(&old("village-library.lineup.ron")), lineup(&text("sample-frames/village-library.lineup.ron")));
}

#[test]
fn each_old_name_is_read_in_its_place_and_written_as_the_new_one() {
    let values = text("tests/format-1/old-values.lineup.ron");
    let frames = [text("tests/format-1/every-field.frame.ron"), text("tests/format-1/old-figures.frame.ron")];
    let lineups = [text("tests/format-1/every-field.lineup.ron"), values];
    let old = [&frames[..], &lineups[..]].concat().join("\n");
    let mut new = String::new();
    for file in &frames {
        new.push_str(&write_frameset(&frame(file)).unwrap());
    }
    for file in &lineups {
        new.push_str(&write_lineup(&lineup(file)).unwrap());
    }
    for (was, is) in RETIRED_NAMES {
        assert!(has_word(&old, was), "no old file has `{was}`");
        assert!(has_word(&new, is), "`{is}` is not written");
    }
    assert!(!new.contains("format: 1"), "files are written as the newest format");
}

#[test]
fn the_page_of_names_has_every_old_one_with_its_new_one() {
    for (was, is) in RETIRED_NAMES {
        assert!(KEYS.contains(&format!("| `{was}` | `{is}` |")), "docs/keys.md lacks `{was}` | `{is}`");
    }
}

#[test]
fn a_mistyped_name_is_likened_to_new_names_only() {
    let refused = |text: &str| read_frameset(text.as_bytes()).unwrap_err().to_string();
    assert_eq!(refused("Frameset(printed_tox: 1)"), "unknown field `printed_tox`: did you mean `rounded_to`?");
}
