//! The pictures of the README, made by the program from the sample comparison. `GALLERY=write cargo test -p spandrel
//! --no-default-features --test gallery` makes them again; without that, those that lie there must be what would be made.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use std::path::Path;

use spandrel::drawing::sheet_scene;
use spandrel::lineup::{Block, Findings, Lineup, Movement, Moves, Shape, Sheet, SheetGround, read_lineup};
use spandrel::publish::{Going, sequence, sheet_png};

/// The most that all of them may take, bytes.
const MOST: usize = 400_000;

fn sample() -> Lineup {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-frames/village-library.lineup.ron");
    read_lineup(&std::fs::read(path).unwrap()).unwrap()
}

/// Names and bytes.
fn gallery() -> Vec<(String, Vec<u8>)> {
    let lineup = sample();
    let findings = Findings::of(&lineup);
    let sheet = |shape, width, ground, blocks: &[Block]| Sheet {
        shape,
        width: Some(width),
        ground,
        blocks: blocks.to_vec(),
        author: "Village bicycle library".to_owned(),
        ..Sheet::default()
    };
    let stills = [
        ("film", sheet(Shape::Wide, 820, SheetGround::Paper, &[Block::Overlay, Block::Table, Block::Captions])),
        ("telephone", sheet(Shape::Upright, 340, SheetGround::Dark, &[Block::Overlay, Block::Table, Block::Captions])),
        ("rooms", sheet(Shape::Wide, 640, SheetGround::Paper, &[Block::Room, Block::Weights])),
    ];
    let mut files: Vec<(String, Vec<u8>)> = stills
        .into_iter()
        .map(|(name, sheet)| (format!("{name}.png"), sheet_png(&sheet_scene(&findings, &lineup, &sheet).scene, &sheet).unwrap()))
        .collect();
    let mut two = lineup.clone();
    two.frames.iter_mut().enumerate().for_each(|(place, f)| f.shown = place == 0 || place == 4);
    let moves = Some(Moves { what: Movement::Change, seconds: 2, rate: 8 });
    let film = Sheet { moves, ..sheet(Shape::Wide, 420, SheetGround::ClearLight, &[Block::Overlay]) };
    let moving = sequence(&Findings::of(&two), &two, &film, &Going::default()).unwrap().unwrap();
    files.extend(moving.into_iter().filter(|(name, _)| name == "moving.gif"));
    files
}

#[test]
fn the_readmes_pictures_are_what_the_program_makes() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/gallery");
    let files = gallery();
    if std::env::var_os("GALLERY").is_some_and(|word| word == "write") {
        std::fs::create_dir_all(&folder).unwrap();
        for (name, bytes) in &files {
            std::fs::write(folder.join(name), bytes).unwrap();
        }
    }
    let readme = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).unwrap();
    for (name, bytes) in &files {
        let there = std::fs::read(folder.join(name)).unwrap_or_default();
        // Other processors may round a shade of grey another way.
        let is_same = &there == bytes || cfg!(not(target_arch = "x86_64")) && !there.is_empty();
        assert!(is_same, "assets/gallery/{name} is not what is made now: run this test with GALLERY=write");
        assert!(readme.contains(&format!("(assets/gallery/{name})")), "{name} is not shown in the README");
    }
    assert_eq!(std::fs::read_dir(&folder).unwrap().count(), files.len(), "nothing else lies there");
    let size: usize = files.iter().map(|(_, bytes)| bytes.len()).sum();
    assert!(size <= MOST, "the gallery takes {size} bytes");
}
