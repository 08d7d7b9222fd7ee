//! What is published, read again by programs that share no code with this one: Python's XML, HTML and CSV readers, Pillow,
//! poppler, and what the formats' standards say of their bytes. And: names that try to become something else.
//!
//! Without `python3`, Pillow or poppler the checks that need them are left out with a loud word, except in the full check (`CI`
//! set), where they must be there.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::doc_markdown,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;

use spandrel::lineup::{Animation, Block, Lineup, Movement, Shape, Sheet, SheetBackground, read_lineup, write_lineup};

const COMPARISON: &str = "sample-frames/village-library.lineup.ron";

/// Names that people's files may hold, and that must come out harmless and legible.
const NAMES: [&str; 7] = [
    "<script>alert(1)</script>",
    "\"quoted\" & 'quoted' ]]> -->",
    "=cmd|' /C calc'!A0",
    "@SUM(1+1)*2",
    "\u{202e}turned\u{202c} הגה \u{2067}x",
    "../../etc/passwd",
    "🚲 A name of two hundred letters that goes on and on, because somebody wanted to say everything about a frame in \
     its name, from its colour to the forest that it was first ridden in, and went on",
];

fn sample() -> Lineup {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(COMPARISON);
    read_lineup(&std::fs::read(path).unwrap()).unwrap()
}

/// The sample with wild names everywhere that a user can write one.
fn wild() -> Lineup {
    let mut lineup = sample();
    for (place, entry) in lineup.frames.iter_mut().enumerate() {
        let mut frameset = (*entry.frameset).clone();
        NAMES[place % NAMES.len()].clone_into(&mut frameset.maker);
        NAMES[(place + 3) % NAMES.len()].clone_into(&mut frameset.model);
        entry.frameset = Arc::new(frameset);
        entry.shown = true;
    }
    lineup.title = NAMES[..6].join(" ");
    lineup.sheets = vec![Sheet {
        name: NAMES[0].to_owned(),
        subtitle: NAMES[1].to_owned(),
        author: NAMES[4].to_owned(),
        date: NAMES[2].to_owned(),
        words: NAMES[6].to_owned(),
        width: Some(640),
        contents: Block::ALL.to_vec(),
        ..Sheet::default()
    }];
    lineup
}

/// Publishes a sheet with the program itself.
fn publish(lineup: &Lineup, sheet: &str, folder: &Path) {
    let file = folder.join("in.lineup.ron");
    std::fs::write(&file, write_lineup(lineup).unwrap()).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_spandrel"))
        .arg("publish")
        .arg(&file)
        .args(["--sheet", sheet, "--to"])
        .arg(folder.join("out"))
        .stdin(Stdio::null())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// Says what is not checked, past the harness, which would swallow it.
fn not_checked(missing: &str, package: &str) {
    let words = format!("\n**** NOT CHECKED: {missing} is missing. Install {package} and run this again. ****\n");
    drop(writeln!(std::io::stderr(), "{words}"));
}

/// Whether a program is there; where it must be and is not, the test fails.
fn has(program: &str, package: &str) -> bool {
    let found = Command::new(program).arg(if program == "python3" { "--version" } else { "-v" }).output();
    if found.is_ok_and(|o| o.status.success()) {
        return true;
    }
    assert!(std::env::var_os("CI").is_none(), "{program} is missing: apt-get install {package}");
    not_checked(program, package);
    false
}

fn run(command: &mut Command) -> String {
    let output = command.output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A check written in Python, on the published folder.
fn python(check: &str, folder: &Path) {
    run(Command::new("python3").args(["-c", check]).arg(folder.join("out")));
}

/// A Python that has Pillow, whose decoders share no code with this program.
fn with_pillow() -> Option<&'static str> {
    let has = |python: &&str| Command::new(python).args(["-c", "import PIL.Image"]).output().is_ok_and(|o| o.status.success());
    let found = ["python3", "/usr/bin/python3"].into_iter().find(has);
    if found.is_none() {
        assert!(std::env::var_os("CI").is_none(), "Pillow is missing: apt-get install python3-pil");
        not_checked("Pillow", "python3-pil");
    }
    found
}

const SVG: &str = r"
import sys, xml.etree.ElementTree as tree
root = tree.parse(sys.argv[1] + '/picture.svg').getroot()
name = lambda e: e.tag.split('}')[1]
assert root.tag == '{http://www.w3.org/2000/svg}svg', root.tag
assert root.get('role') == 'img'
ids = {e.get('id') for e in root.iter() if e.get('id')}
assert set(root.get('aria-labelledby').split()) <= ids
import base64
assert base64.b64decode(root.find('{http://www.w3.org/2000/svg}metadata').text, validate=True).startswith(b'#![enable')
allowed = {'svg', 'title', 'desc', 'metadata', 'style', 'rect', 'g', 'clipPath', 'polyline', 'polygon', 'circle', 'text'}
for e in root.iter():
    assert name(e) in allowed, e.tag
    assert not any(a.startswith('on') or 'href' in a for a in e.attrib), e.attrib
words = ' '.join(e.text or '' for e in root.iter() if name(e) == 'text')
assert not any(ord(c) in range(0x202a, 0x202f) or ord(c) in range(0x2066, 0x206a) for c in words)
assert len(words) > 200
";

const HTML: &str = r"
import sys
from html.parser import HTMLParser
class Reader(HTMLParser):
    def __init__(self):
        super().__init__(); self.tags = []; self.open = []; self.words = ''; self.ids = []; self.labels = []
    def handle_starttag(self, tag, attributes):
        a = dict(attributes); self.tags.append(tag)
        assert not any(k.startswith('on') for k in a), a
        for k in ('src', 'srcset', 'action'): assert k not in a, (tag, a)
        if 'href' in a: assert a['href'].startswith('data:application/octet-stream;base64,'), a['href'][:60]
        if 'id' in a: self.ids.append(a['id'])
        self.labels += a.get('aria-labelledby', '').split()
        if tag not in ('meta', 'br', 'rect', 'polyline', 'polygon', 'circle'): self.open.append(tag)
    def handle_startendtag(self, tag, attributes):
        self.tags.append(tag)
    def handle_endtag(self, tag):
        assert self.open.pop() == tag, tag
    def handle_data(self, data):
        if self.open and self.open[-1] not in ('style', 'script'): self.words += data
page = open(sys.argv[1] + '/page.html', encoding='utf-8').read()
r = Reader(); r.feed(page); r.close()
assert r.open == [], r.open
assert r.tags.count('script') == 1 and 'img' not in r.tags and 'iframe' not in r.tags
assert len(set(r.ids)) == len(r.ids), 'ids are unique'
assert set(r.labels) <= set(r.ids), set(r.labels) - set(r.ids)
for wanted in ('svg', 'table', 'h1', 'title', 'desc'): assert wanted in r.tags, wanted
assert 'alert(1)' in r.words and 'etc/passwd' in r.words
assert not any(0x202a <= ord(c) <= 0x202e or 0x2066 <= ord(c) <= 0x2069 for c in page)
";

const CSV: &str = r"
import csv, sys
rows = list(csv.reader(open(sys.argv[1] + '/figures.csv', encoding='utf-8', newline=''), strict=True))
assert len(rows) > 10 and len({len(r) for r in rows}) == 1, [len(r) for r in rows]
for field in (f for r in rows for f in r):
    number = field.replace('-', '', 1).replace('.', '', 1).isdigit()
    assert number or not field.lstrip().startswith(('=', '+', '-', '@', '\t')), field
";

#[test]
fn wild_names_come_out_harmless_in_every_format() {
    let folder = tempfile::tempdir().unwrap();
    publish(&wild(), NAMES[0], folder.path());
    let out = folder.path().join("out");
    let again = read_lineup(&std::fs::read(out.join("comparison.lineup.ron")).unwrap()).unwrap();
    assert_eq!(again, wild(), "the line-up itself keeps every letter");
    let outside: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(outside.len(), 2, "nothing lands beside the folder: {outside:?}");
    let markdown = std::fs::read_to_string(out.join("figures.md")).unwrap();
    assert!(!markdown.contains("<script>") && markdown.contains("&lt;script&gt;"));
    let names: Vec<String> = std::fs::read_dir(&out).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    let is_plain = |n: &String| n.chars().all(|c| c.is_ascii_lowercase() || c == '.' || c == '-');
    assert!(names.iter().all(is_plain), "no name of a file is taken from a name inside: {names:?}");
    if has("pdftotext", "poppler-utils") {
        let words = run(Command::new("pdftotext").arg(out.join("sheet.pdf")).arg("-"));
        for legible in ["<script>", "'quoted' ]]> -->", "=cmd|' /C calc'!A0", "@SUM(1+1)*2", "../../etc/passwd"] {
            assert!(words.contains(legible), "{legible} is not among {words}");
        }
        let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        assert!(!words.contains('\u{202e}') && !words.contains('\u{2067}'), "{:?}", words.chars().find(|c| turns(*c)));
    }
    if has("python3", "python3") {
        for check in [SVG, HTML, CSV] {
            python(check, folder.path());
        }
    }
}

/// ISO 216: A4 is 210 mm × 297 mm, 595.276 × 841.890 points; A3 841.890 × 1190.551.
#[test]
fn paper_has_its_size_and_its_text_is_text() {
    let mut lineup = sample();
    let sheet = |name: &str, shape| Sheet { name: name.to_owned(), shape, width: Some(320), ..Sheet::default() };
    lineup.sheets = vec![sheet("four", Shape::A4), sheet("across", Shape::A4Landscape), sheet("three", Shape::A3)];
    for (name, width, height) in [("four", 595.276, 841.890), ("across", 841.890, 595.276), ("three", 841.890, 1190.551)] {
        let folder = tempfile::tempdir().unwrap();
        publish(&lineup, name, folder.path());
        let file = folder.path().join("out/sheet.pdf");
        let bytes = std::fs::read(&file).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        let numbers = text.split_once("/MediaBox").unwrap().1.split_once('[').unwrap().1.split_once(']').unwrap().0;
        let numbers: Vec<f64> = numbers.split_whitespace().map(|n| n.parse().unwrap()).collect();
        for (found, expected) in numbers.iter().zip([0.0, 0.0, width, height]) {
            assert!((found - expected).abs() < 1e-2, "{name}: {numbers:?}");
        }
        if has("pdftotext", "poppler-utils") {
            let words = run(Command::new("pdftotext").arg(&file).arg("-"));
            for needed in ["One frameset for six loan bicycles", "Marrowby Drift", "less trail", "competent mechanic"] {
                assert!(words.contains(needed), "{name}: {needed} is not among {words}");
            }
            let saved = folder.path().join("attached.ron");
            run(Command::new("pdfdetach").args(["-save", "1", "-o"]).arg(&saved).arg(&file));
            assert_eq!(read_lineup(&std::fs::read(&saved).unwrap()).unwrap(), lineup, "{name}: the attachment");
            assert_eq!(run(Command::new("pdfinfo").arg(&file)).matches("Pages:           1").count(), 1);
        }
    }
}

/// The same input gives the same bytes, and a second call overwrites only what is there already.
#[test]
fn publishing_twice_gives_the_same_folder() {
    let mut lineup = sample();
    lineup.sheets =
        vec![Sheet { name: "small".to_owned(), width: Some(320), background: SheetBackground::Dark, ..Sheet::default() }];
    let read = |folder: &Path| -> Vec<(String, Vec<u8>)> {
        let out = folder.join("out");
        let mut names: Vec<String> =
            std::fs::read_dir(&out).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names.into_iter().filter(|n| out.join(n).is_file()).map(|n| (n.clone(), std::fs::read(out.join(&n)).unwrap())).collect()
    };
    let (one, two) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    publish(&lineup, "small", one.path());
    publish(&lineup, "small", two.path());
    let first = read(one.path());
    assert_eq!(first, read(two.path()));
    std::fs::write(one.path().join("out/mine.txt"), "mine").unwrap();
    publish(&lineup, "small", one.path());
    let mut after = read(one.path());
    after.retain(|(name, _)| name != "mine.txt");
    assert_eq!(after, first);
}

/// Reads every moving picture again with Pillow: how many, how long, and that each is the numbered picture of its time.
const MOVING: &str = r"
import os, sys
from PIL import Image, ImageChops, ImageStat
folder, count, rate, width, height = sys.argv[1], *map(int, sys.argv[2:6])
names = sorted(os.listdir(folder + '/moving'))
assert names == ['%04d.png' % (i + 1) for i in range(count)], names
numbered = [Image.open(folder + '/moving/' + n) for n in names]
for p in numbered:
    p.load()
    assert p.mode == 'RGBA' and p.size == (width, height), (p.mode, p.size)
    assert p.getpixel((0, 0))[3] == 0 and p.getextrema()[3] == (0, 255)
paper = Image.new('RGBA', (width, height), (250, 248, 243, 255))
for name in ('moving.png', 'moving.gif'):
    moving, at = Image.open(folder + '/' + name), 0
    assert moving.info.get('loop') == 0 and moving.size == (width, height), moving.info
    for frame in range(moving.n_frames):
        moving.seek(frame)
        pictures = moving.info['duration'] * rate / 1000
        assert pictures == int(pictures) >= 1, (name, frame, moving.info['duration'])
        for _ in range(int(pictures)):
            if name == 'moving.png':
                assert moving.convert('RGBA').tobytes() == numbered[at].tobytes(), (frame, at)
            else:
                truth = Image.alpha_composite(paper, numbered[at]).convert('RGB')
                away = ImageStat.Stat(ImageChops.difference(moving.convert('RGB'), truth)).mean
                assert max(away) < 3, (frame, at, away)
            at += 1
    assert at == count, (name, at)
still = Image.open(folder + '/picture.png'); still.load()
assert still.text['Spandrel comparison'].startswith('#![enable')
assert still.size == (width, height) and still.mode in ('RGB', 'RGBA')
assert still.convert('RGB').getpixel((0, 0)) == (250, 248, 243)
";

/// APNG: *PNG (Third Edition)*, W3C 2025; GIF: version 89a, 1990.
#[test]
fn moving_pictures_are_read_alike_by_another_decoder() {
    let Some(python) = with_pillow() else { return };
    let mut lineup = sample();
    for what in Movement::ALL {
        let animation = Some(Animation { what, seconds: 1, frames_per_second: 10 });
        lineup.sheets = vec![Sheet { name: "moving".to_owned(), width: Some(480), animation, ..Sheet::default() }];
        let folder = tempfile::tempdir().unwrap();
        publish(&lineup, "moving", folder.path());
        run(Command::new(python).args(["-c", MOVING]).arg(folder.path().join("out")).args(["10", "10", "480", "270"]));
    }
}
