//! The pictures of `docs/publishing.md`, made by the program from the sample comparison. `GALLERY=write cargo test -p spandrel
//! --no-default-features --features cli --test gallery` makes them again; without that, those that lie there must
//! look like what would be made.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use std::path::Path;

use spandrel::drawing::sheet_scene;
use spandrel::lineup::{Animation, Block, Findings, Lineup, Movement, Shape, Sheet, SheetBackground, read_lineup};
use spandrel::publish::{PublishProgress, sequence, sheet_png};

/// The most that all of them may take, bytes.
const MOST: usize = 400_000;

/// Share of pixels that may look different: a last digit may, a drawing may not.
const FAR: f64 = 0.005;

/// Size and colours of a picture, of a moving one those of its first, and how many it has.
fn decoded(name: &str, bytes: &[u8]) -> (usize, (u32, u32), Vec<u8>) {
    if name.ends_with("png") {
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut pixels).unwrap();
        assert_eq!(info.color_type, png::ColorType::Rgba);
        return (1, (info.width, info.height), pixels);
    }
    let mut options = gif::DecodeOptions::new();
    options.set_color_output(gif::ColorOutput::RGBA);
    let mut decoder = options.read_info(bytes).unwrap();
    let first = decoder.read_next_frame().unwrap().unwrap().clone();
    let mut count = 1;
    while decoder.read_next_frame().unwrap().is_some() {
        count += 1;
    }
    (count, (u32::from(first.width), u32::from(first.height)), first.buffer.into_owned())
}

/// Share of pixels of which a channel differs by more than a quarter; all where sizes do.
fn share_of_other_pixels(name: &str, a: &[u8], b: &[u8]) -> f64 {
    let (a, b) = (decoded(name, a), decoded(name, b));
    if (a.0, a.1) != (b.0, b.1) {
        return 1.0;
    }
    let is_far = |(a, b): &(&[u8], &[u8])| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > 64);
    let far = a.2.chunks(4).zip(b.2.chunks(4)).filter(is_far).count();
    far as f64 / (a.2.len() / 4) as f64
}

fn sample() -> Lineup {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-frames/village-library.lineup.ron");
    read_lineup(&std::fs::read(path).unwrap()).unwrap()
}

/// Names and bytes.
fn gallery() -> Vec<(String, Vec<u8>)> {
    let lineup = sample();
    let findings = Findings::of(&lineup);
    let sheet = |shape, width, background, blocks: &[Block]| Sheet {
        shape,
        width: Some(width),
        background,
        contents: blocks.to_vec(),
        author: "Village bicycle library".to_owned(),
        ..Sheet::default()
    };
    let stills = [
        ("film", sheet(Shape::Wide, 820, SheetBackground::Light, &[Block::Outline, Block::Table, Block::Captions])),
        ("phone", sheet(Shape::Upright, 340, SheetBackground::Dark, &[Block::Outline, Block::Table, Block::Captions])),
        ("bag-spaces", sheet(Shape::Wide, 640, SheetBackground::Light, &[Block::Bags, Block::Weights])),
    ];
    let mut files: Vec<(String, Vec<u8>)> = stills
        .into_iter()
        .map(|(name, sheet)| (format!("{name}.png"), sheet_png(&sheet_scene(&findings, &lineup, &sheet).scene, &sheet).unwrap()))
        .collect();
    let mut two = lineup.clone();
    two.frames.iter_mut().enumerate().for_each(|(place, f)| f.shown = place == 0 || place == 4);
    let animation = Some(Animation { what: Movement::Change, seconds: 2, frames_per_second: 8 });
    let film = Sheet { animation, ..sheet(Shape::Wide, 420, SheetBackground::TransparentLight, &[Block::Outline]) };
    let moving = sequence(&Findings::of(&two), &two, &film, &PublishProgress::default()).unwrap().unwrap();
    files.extend(moving.into_iter().filter(|(name, _)| name == "moving.gif"));
    files
}

#[test]
fn another_picture_is_told() {
    let files = gallery();
    let mut lineup = sample();
    lineup.frames[1].shown = false;
    let sheet = Sheet { width: Some(820), author: "Village bicycle library".to_owned(), ..Sheet::default() };
    let other = sheet_png(&sheet_scene(&Findings::of(&lineup), &lineup, &sheet).scene, &sheet).unwrap();
    let far = share_of_other_pixels("film.png", &files[0].1, &other);
    assert!(far > 2.0 * FAR, "{far}");
}

#[test]
fn the_pictures_shown_are_what_the_program_makes() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/gallery");
    let files = gallery();
    if std::env::var_os("GALLERY").is_some_and(|word| word == "write") {
        std::fs::create_dir_all(&folder).unwrap();
        for (name, bytes) in &files {
            std::fs::write(folder.join(name), bytes).unwrap();
        }
    }
    let page = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/publishing.md")).unwrap();
    for (name, bytes) in &files {
        let there = std::fs::read(folder.join(name)).expect("run this test with GALLERY=write");
        let far = share_of_other_pixels(name, &there, bytes);
        assert!(far <= FAR, "assets/gallery/{name} is not what is made now ({far}): run this test with GALLERY=write");
        assert!(page.contains(&format!("(../assets/gallery/{name})")), "{name} is not shown in docs/publishing.md");
    }
    assert_eq!(std::fs::read_dir(&folder).unwrap().count(), files.len(), "nothing else lies there");
    let size: usize = files.iter().map(|(_, bytes)| bytes.len()).sum();
    assert!(size <= MOST, "the gallery takes {size} bytes");
}
