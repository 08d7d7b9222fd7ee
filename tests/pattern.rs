//! The printed pattern, measured on the rendered page: paper sizes, check bars and the bag's own outline, to 0.1 mm.
//!
//! Rendered by poppler's `pdftoppm`, which shares no code with the program. Without it the measuring tests are left out
//! with a loud word, except in the full check (`CI` set), where it must be there.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stderr,
    clippy::doc_markdown,
    clippy::cast_precision_loss,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const DPI: f64 = 600.0;
/// ISO 216 and ASME Y14.1, mm.
const PAPERS: [(&str, f64, f64); 3] = [("a4", 210.0, 297.0), ("a3", 297.0, 420.0), ("letter", 215.9, 279.4)];

fn spandrel(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_spandrel"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(arguments).stdin(Stdio::null()).output().unwrap()
}

#[track_caller]
fn pattern(folder: &Path, name: &str, more: &[&str]) -> PathBuf {
    let to = folder.join(name);
    let to_text = to.to_str().unwrap();
    let mut arguments = vec!["pattern", "sample-frames/quern-halter.frame.ron", "--to", to_text, "--date", "2026-10-02"];
    arguments.extend(more);
    let output = spandrel(&arguments);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    to
}

/// Whether poppler is there; where it must be and is not, the test fails.
fn has_poppler() -> bool {
    if Command::new("pdftoppm").arg("-v").output().is_ok_and(|o| o.status.success()) {
        return true;
    }
    assert!(std::env::var_os("CI").is_none(), "pdftoppm is missing: apt-get install poppler-utils");
    eprintln!("\n\n**** NOT MEASURED: pdftoppm is missing. Install poppler-utils and run this again. ****\n\n");
    false
}

/// The pages' boxes in points, read off the file's own text.
fn media_boxes(file: &[u8]) -> Vec<[f64; 4]> {
    let text = String::from_utf8_lossy(file);
    let one = |rest: &str| {
        let numbers = rest.split_once('[').unwrap().1.split_once(']').unwrap().0;
        let numbers: Vec<f64> = numbers.split_whitespace().map(|n| n.parse().unwrap()).collect();
        numbers.try_into().unwrap()
    };
    text.split("/MediaBox").skip(1).map(one).collect()
}

/// A page in shades of grey, 0 black to 255 white.
struct Image {
    width: usize,
    height: usize,
    dpi: f64,
    grey: Vec<u8>,
}

impl Image {
    /// Renders a page (from 1) of a PDF.
    fn of(file: &Path, page: usize, dpi: f64) -> Self {
        let page = page.to_string();
        let output = Command::new("pdftoppm")
            .args(["-gray", "-r", &dpi.to_string(), "-f", &page, "-l", &page])
            .arg(file)
            .output()
            .unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        // P5, width, height, 255, then the bytes (netpbm's PGM format).
        let mut fields = Vec::new();
        let mut at = 0;
        while fields.len() < 4 {
            let from = at;
            while !output.stdout[at].is_ascii_whitespace() {
                at += 1;
            }
            fields.push(std::str::from_utf8(&output.stdout[from..at]).unwrap().to_owned());
            at += 1;
        }
        assert_eq!((fields[0].as_str(), fields[3].as_str()), ("P5", "255"));
        let (width, height) = (fields[1].parse().unwrap(), fields[2].parse().unwrap());
        Self { width, height, dpi, grey: output.stdout[at..].to_vec() }
    }

    fn mm(&self, pixels: f64) -> f64 {
        pixels / self.dpi * 25.4
    }

    fn pixel(&self, mm: f64) -> usize {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place on a page")]
        let pixel = (mm / 25.4 * self.dpi).round() as usize;
        pixel
    }

    fn is_dark(&self, x: usize, y: usize) -> bool {
        self.grey[y * self.width + x] < 128
    }

    /// Runs of dark pixels along a level line, as (from, to) in mm.
    fn across(&self, y: usize) -> Vec<(f64, f64)> {
        runs((0..self.width).map(|x| self.is_dark(x, y))).into_iter().map(|(a, b)| (self.mm(a), self.mm(b))).collect()
    }

    /// Runs of dark pixels down an upright line, as (from, to) in mm.
    fn down(&self, x: usize) -> Vec<(f64, f64)> {
        runs((0..self.height).map(|y| self.is_dark(x, y))).into_iter().map(|(a, b)| (self.mm(a), self.mm(b))).collect()
    }
}

fn runs(dark: impl Iterator<Item = bool>) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    let mut from = None;
    for (place, is_dark) in dark.chain([false]).enumerate() {
        match (from, is_dark) {
            (None, true) => from = Some(place),
            (Some(start), false) => {
                found.push((start as f64, place as f64));
                from = None;
            }
            _ => {}
        }
    }
    found
}

/// Middles of the first, second and third stroke across a bar, from one that starts near `near` mm.
#[track_caller]
fn check_bar(runs: &[(f64, f64)], near: f64, what: &str) {
    let middles: Vec<f64> =
        runs.iter().filter(|(a, b)| b - a < 1.0).map(|(a, b)| f64::midpoint(*a, *b)).filter(|m| *m > near - 1.0).collect();
    let whole = middles.iter().find(|m| (*m - middles[0] - 100.0).abs() < 2.0);
    let whole = whole.unwrap_or_else(|| panic!("{what}: no bar from {near} mm in {middles:?}"));
    assert!((whole - middles[0] - 100.0).abs() < 0.1, "{what}: {} mm", whole - middles[0]);
    assert!(middles.iter().any(|m| (m - middles[0] - 50.0).abs() < 0.1), "{what}: its middle");
}

/// 14 mm of margin; the bars lie in its middle, their strokes 1.6 mm to either side.
const MARGIN: f64 = 14.0;

#[track_caller]
fn check_bars(image: &Image, what: &str) {
    let height = image.mm(image.height as f64);
    let beside = 1.2;
    check_bar(&image.across(image.pixel(height - MARGIN / 2.0 - beside)), MARGIN, &format!("{what}, level"));
    check_bar(&image.down(image.pixel(MARGIN / 2.0 + beside)), height - MARGIN - 100.0, &format!("{what}, upright"));
}

#[test]
fn pages_have_the_papers_size_and_every_bar_is_100_mm() {
    let folder = tempfile::tempdir().unwrap();
    for (paper, width, height) in PAPERS {
        let file = pattern(folder.path(), &format!("{paper}.pdf"), &["--size", "M", "--paper", paper]);
        let boxes = media_boxes(&std::fs::read(&file).unwrap());
        assert!(boxes.len() > 2, "{paper}: {} pages", boxes.len());
        for media in &boxes {
            // 1 mm = 72/25.4 points; a page may lie on its side.
            let (w, h) = (media[2] * 25.4 / 72.0, media[3] * 25.4 / 72.0);
            let is_upright = (w - width).abs() < 0.001 && (h - height).abs() < 0.001;
            let is_across = (w - height).abs() < 0.001 && (h - width).abs() < 0.001;
            assert!(is_upright || is_across, "{paper}: {w} × {h} mm");
        }
        if has_poppler() {
            for page in [1, 2, boxes.len()] {
                check_bars(&Image::of(&file, page, DPI), &format!("{paper}, page {page}"));
            }
        }
    }
}

/// The bag on one large sheet, measured on the page: across it at three heights, and upright from the edge under the top
/// tube to the cut at three places.
#[test]
fn the_printed_bag_is_the_bag() {
    use spandrel::frameset::read_frameset;
    use spandrel::lineup::{Findings, Lineup};
    use spandrel::luggage::{BagPart, Cut};
    let folder = tempfile::tempdir().unwrap();
    // No seam and a level cut: the finished edge is the only thick line, and its lowest part is level.
    let file = pattern(folder.path(), "one.pdf", &["--size", "M", "--paper", "sheet", "--seam", "0", "--above", "300"]);
    let text = std::fs::read("sample-frames/quern-halter.frame.ron").unwrap();
    let mut lineup = Lineup::default();
    lineup.add(read_frameset(&text).unwrap(), None);
    lineup.frames[0].size = "M".to_owned();
    lineup.settings.bags.bag.part = BagPart::Above(Cut::Level { above_bb_mm: 300.0 });
    lineup.settings.bags.bag.seam_allowance_mm = 0.0;
    let findings = Findings::of(&lineup);
    let bag = findings.frames[0].luggage.bag().unwrap();
    let low = bag.outline.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    assert!((low - 300.0).abs() < 0.05, "the cut is the bag's lower edge");
    let boxes = media_boxes(&std::fs::read(&file).unwrap());
    assert_eq!(boxes.len(), 1);
    if !has_poppler() {
        return;
    }
    let image = Image::of(&file, 1, DPI);
    check_bars(&image, "one sheet");
    // The dark line on a level line of the page through the bag, 40 mm above the cut: its two sides.
    // The cut line is the longest dark level run on the page; its middle is where it is.
    let longest: Vec<f64> = (0..image.height).map(|y| image.across(y).iter().map(|(a, b)| b - a).fold(0.0, f64::max)).collect();
    let most = longest.iter().copied().fold(0.0, f64::max);
    let rows: Vec<usize> = (0..image.height).filter(|y| longest[*y] > 0.9 * most).collect();
    let cut = image.mm((rows[0] + rows[rows.len() - 1] + 1) as f64 / 2.0);
    // How far right of the page's edge the bottom bracket's x = 0 lies.
    let mut origin = f64::NAN;
    for above in [40.0, 70.0, 100.0] {
        let row = image.pixel(cut - above);
        let thick: Vec<f64> = image
            .across(row)
            .into_iter()
            .filter(|(a, b)| (0.4..1.2).contains(&(b - a)))
            .map(|(a, b)| f64::midpoint(a, b))
            .collect();
        let (Some(first), Some(last)) = (thick.first(), thick.last()) else { panic!("no outline at {above}") };
        // The row's own middle, not the height asked for.
        let at = 300.0 + cut - image.mm(row as f64 + 0.5);
        let turned: Vec<[f64; 2]> = bag.outline.iter().map(|p| [p.y, p.x]).collect();
        let crossings = crossings(&turned, at);
        let expected = crossings[crossings.len() - 1] - crossings[0];
        assert!((last - first - expected).abs() < 0.1, "{above} mm above the cut: {} {expected}", last - first);
        origin = first - crossings[0];
    }
    // Upright through the bag: from the edge under the top tube down to the cut.
    let outline: Vec<[f64; 2]> = bag.outline.iter().map(|p| [p.x, p.y]).collect();
    let (left, right) = outline.iter().fold((f64::INFINITY, -f64::INFINITY), |(l, r), p| (l.min(p[0]), r.max(p[0])));
    for part in [0.2, 0.35, 0.5] {
        let column = image.pixel(origin + left + part * (right - left));
        let thick = image.down(column).into_iter().find(|(a, b)| (0.4..1.2).contains(&(b - a)));
        let Some(top) = thick.map(|(a, b)| f64::midpoint(a, b)) else { panic!("no edge at {part}") };
        let crossings = crossings(&outline, image.mm(column as f64 + 0.5) - origin);
        let expected = crossings[crossings.len() - 1] - crossings[0];
        assert!((crossings[0] - 300.0).abs() < 0.05, "the column meets the cut line");
        assert!((cut - top - expected).abs() < 0.1, "upright at {part}: {} {expected}", cut - top);
    }
}

/// Where an outline crosses the line on which its first coordinate has a value: the second ones, ascending.
fn crossings(outline: &[[f64; 2]], value: f64) -> Vec<f64> {
    let ends = outline.iter().zip(outline.iter().cycle().skip(1)).filter(|(a, b)| (a[0] > value) != (b[0] > value));
    let mut found: Vec<f64> = ends.map(|(a, b)| a[1] + (value - a[0]) / (b[0] - a[0]) * (b[1] - a[1])).collect();
    found.sort_by(f64::total_cmp);
    found
}

#[test]
fn the_svg_states_its_size_in_millimetres() {
    let folder = tempfile::tempdir().unwrap();
    let svg = std::fs::read_to_string(pattern(folder.path(), "bag.svg", &["--size", "M"])).unwrap();
    let number = |name: &str| -> f64 {
        let rest = svg.split_once(&format!(" {name}=\"")).unwrap().1.split_once('"').unwrap().0;
        rest.strip_suffix("mm").unwrap().parse().unwrap()
    };
    let view: Vec<f64> = {
        let rest = svg.split_once("viewBox=\"").unwrap().1.split_once('"').unwrap().0;
        rest.split(' ').map(|n| n.parse().unwrap()).collect()
    };
    // 96 page units are an inch of 25.4 mm (CSS Values 4, §6.2).
    assert!((number("width") / view[2] - 25.4 / 96.0).abs() < 2e-6 && (number("height") / view[3] - 25.4 / 96.0).abs() < 2e-6);
    for words in ["Cut card first", "100\u{2009}mm", "zip edge", "Seat tube", "size M", "2026-10-02", "seam allowance"] {
        assert!(svg.contains(words), "{words}");
    }
}

#[test]
fn the_same_call_gives_the_same_bytes() {
    let folder = tempfile::tempdir().unwrap();
    let (a, b) = (pattern(folder.path(), "a.pdf", &[]), pattern(folder.path(), "b.pdf", &[]));
    assert_eq!(std::fs::read(a).unwrap(), std::fs::read(b).unwrap());
}

#[test]
fn wrong_calls_are_refused_in_words() {
    let folder = tempfile::tempdir().unwrap();
    let refused = |file: &str, name: &str, more: &[&str], words: &str| {
        let to = folder.path().join(name);
        let mut arguments = vec!["pattern", file, "--to", to.to_str().unwrap()];
        arguments.extend(more);
        let output = spandrel(&arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert!(said.contains(words), "{words}: {said}");
        assert!(!to.exists(), "nothing is written");
    };
    let quern = "sample-frames/quern-halter.frame.ron";
    let lineup = "sample-frames/village-library.lineup.ron";
    refused(quern, "a.txt", &[], "NAME.pdf or NAME.svg");
    refused(quern, "a.pdf", &["--size", "XXS"], "no size \"XXS\"");
    refused(quern, "a.svg", &["--paper", "a4"], "one large sheet");
    refused(quern, "a.pdf", &["--clearance", "70"], "outside 0 to 60");
    refused(quern, "a.pdf", &["--seam", "wide"], "not a number");
    refused(quern, "a.pdf", &["--above", "900"], "Move the line down");
    refused(quern, "a.pdf", &["--date", "2026-13-01"], "not a date");
    refused(quern, "a.pdf", &["--frame", "B"], "for line-ups");
    refused(lineup, "a.pdf", &["--frame", "Q"], "no frame \"Q\"");
    refused("sample-frames/none.frame.ron", "a.pdf", &[], "none.frame.ron");
}

/// A line-up's own settings are the first values, and any of its frames can be asked for.
#[test]
fn a_line_up_gives_its_frame_and_its_settings() {
    let folder = tempfile::tempdir().unwrap();
    for frame in ["A", "b"] {
        let to = folder.path().join(format!("{frame}.svg"));
        let output =
            spandrel(&["pattern", "sample-frames/village-library.lineup.ron", "--frame", frame, "--to", to.to_str().unwrap()]);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    assert_ne!(read("A.svg"), read("b.svg"));
}
