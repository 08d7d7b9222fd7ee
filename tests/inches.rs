//! With inches chosen, nothing that is published shows a metric length, weight or speed, but sizes as the trade names them.
//!
//! What is read is: every text of every file of the published folders (SVG, HTML, Markdown, CSV), of the patterns, of what
//! the program prints, of every sheet's shape and animation, of the statement pictures, of the sentences in JSON, and of the
//! details that the window shows beside its tables. Numbers in JSON and the line-up's file stay metric. A user's own texts
//! stay as they were written.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::doc_markdown,
    reason = "what checks may panic and write formulas in its comments"
)]

use std::fs;
use std::path::Path;
use std::process::Command;

use spandrel::drawing::{Moving, Scene, overlay_scene, sheet_scene};
use spandrel::frameset::FrameIndex;
use spandrel::geometry::settled_by;
use spandrel::lineup::{Animation, Block, Findings, Lineup, Movement, Shape, Sheet, read_lineup, write_lineup};
use spandrel::luggage::{BagPart, Cut};
use spandrel::publish::svg;
use spandrel::units::System;
use spandrel::words;
use spandrel::words::Label;

/// Units that are not shown with inches chosen.
const UNITS: &[&str] =
    &["mm", "cm", "m", "km", "g", "kg", "dm²", "dm2", "cm²", "km/h", "m/s", "g/mm", "EUR/g", "EUR/kg", "W/kg", "g/m"];
/// Words that say the same.
const WORDS: &[&str] = &["millimetre", "centimetre", "kilometre", "metre", "gram", "kilogram"];
/// Sizes by which the trade and its standards name a part, in millimetres everywhere.
const TRADE_MM: &[&str] = &[
    // Widths of hubs, dropouts and cranks, and diameters of axles.
    "100", "110", "130", "132.5", "135", "142", "148", "12", "15", // Seat posts and front derailleur clamps.
    "27.2", "31.6", "28.6", "31.8", "34.9", // Rotors.
    "160", "180", "183", "200", "203", // Shells of bottom brackets, and crown races.
    "68", "73", "41", "30", // Crank lengths.
    "170",
];

/// The places of a text that are metric, each with the words around it.
fn metric(text: &str) -> Vec<String> {
    let is_between = |c: char| c.is_whitespace() || "()[],;:\"“”|".contains(c);
    let tokens: Vec<&str> = text.split(is_between).map(|t| t.trim_end_matches('.')).filter(|t| !t.is_empty()).collect();
    let is_metric = |place: usize| {
        let token = tokens[place];
        let bare = token.trim_start_matches(|c: char| c.is_ascii_digit() || ".,+−-±".contains(c));
        let is_behind_number = bare.len() < token.len();
        let is_after_number = place > 0 && tokens[place - 1].ends_with(|c: char| c.is_ascii_digit());
        // A metre and a gram are single letters, which may stand for something else where no number does.
        let is_letter = bare.len() == 1;
        let is_of_trade = bare == "mm" && is_after_number && TRADE_MM.contains(&tokens[place - 1]) && {
            // What has a ± was computed.
            place < 2 || tokens[place - 2] != "±"
        };
        let is_unit =
            !is_of_trade && UNITS.contains(&bare) && (!is_letter || is_behind_number || is_after_number || tokens.len() == 1);
        is_unit || WORDS.iter().any(|word| bare.strip_prefix(word).is_some_and(|rest| rest.is_empty() || rest == "s"))
    };
    let around = |place: usize| tokens[place.saturating_sub(6)..(place + 4).min(tokens.len())].join(" ");
    (0..tokens.len()).filter(|place| is_metric(*place)).map(around).collect()
}

/// A page's or picture's texts, in one: without tags, style, script and metadata, but with what tags say to a reader.
fn words_of_markup(markup: &str) -> String {
    let mut words = String::new();
    let mut hidden = "";
    for piece in markup.split('<') {
        let (tag, text) = piece.split_once('>').unwrap_or(("", piece));
        let name = tag.split([' ', '\n']).next().unwrap_or_default();
        if name.strip_prefix('/') == Some(hidden) {
            hidden = "";
        } else if !hidden.is_empty() {
            continue;
        }
        if let Some(kept) = ["style", "script", "metadata"].into_iter().find(|n| *n == name) {
            hidden = kept;
            continue;
        }
        for said in ["title=\"", "aria-label=\"", "alt=\""] {
            if let Some((_, after)) = tag.split_once(said) {
                words.push_str(after.split('"').next().unwrap_or_default());
                words.push(' ');
            }
        }
        // Parts of one line of text are joined; whatever else ends, ends a word.
        let is_within = ["tspan", "/tspan", "span", "/span", "bdi", "/bdi"].contains(&name);
        if !is_within {
            words.push(' ');
        }
        words.push_str(text.trim_matches('\n'));
    }
    words.replace("&quot;", "\"").replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">")
}

/// The texts in JSON, without the unit beside each number.
fn sentences_of(json: &serde_json::Value) -> Vec<String> {
    match json {
        serde_json::Value::String(text) => vec![text.clone()],
        serde_json::Value::Array(items) => items.iter().flat_map(sentences_of).collect(),
        serde_json::Value::Object(entries) => {
            entries.iter().filter(|(key, _)| *key != "unit").flat_map(|(_, value)| sentences_of(value)).collect()
        }
        _ => Vec::new(),
    }
}

/// The texts of a file by its name's ending; nothing where it has no text of its own.
fn texts_of(name: &str, bytes: &[u8]) -> Vec<String> {
    let text = || String::from_utf8(bytes.to_vec()).unwrap();
    let cells =
        |between: &'static str| text().lines().flat_map(|l| l.split(between).map(str::to_owned).collect::<Vec<_>>()).collect();
    match Path::new(name).extension().and_then(std::ffi::OsStr::to_str) {
        Some("svg" | "html") => vec![words_of_markup(&text())],
        Some("csv") => cells(","),
        Some("md") => cells("|"),
        // What is printed stands in columns, two blanks or more apart.
        Some("txt") => cells("  "),
        Some("json") => sentences_of(&serde_json::from_slice(bytes).unwrap()),
        Some("png" | "gif" | "pdf" | "ron") => Vec::new(),
        other => panic!("{name}: files of the kind {other:?} are not read"),
    }
}

/// The sample line-up with all frames shown and one sheet of everything.
fn sample(units: System) -> Lineup {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-frames/village-library.lineup.ron");
    let mut lineup = read_lineup(&fs::read(file).unwrap()).unwrap();
    lineup.settings.units = units;
    for frame in &mut lineup.frames {
        frame.shown = true;
    }
    lineup.sheets = vec![whole_sheet(Shape::A3)];
    lineup
}

fn whole_sheet(shape: Shape) -> Sheet {
    Sheet { name: "Whole".to_owned(), shape, width: Some(640), contents: Block::ALL.to_vec(), ..Sheet::default() }
}

/// The same with what it leaves out: a partial bag, a fork that is drawn, weights that are typed, the same tyres on all.
fn changed_sample(units: System, cut: Cut) -> Lineup {
    let mut lineup = sample(units);
    let settings = &mut lineup.settings;
    settings.bags.with_bag = true;
    settings.bags.with_bottles = true;
    settings.bags.bag.part = BagPart::Above(cut);
    settings.fork_trial.is_drawn = true;
    settings.fork_trial.use_listed_fork = false;
    settings.fork_trial.fork_length = Some(430.0);
    settings.fork_trial.fork_offset = Some(52.0);
    settings.weight.method = spandrel::weight::Method::BetweenWeighedSizes;
    settings.weight.fixed_grams = Some(950.0);
    settings.outline.dimensions = true;
    lineup
}

/// What a user wrote, longest first: it is not the program's to change.
fn own_texts(lineup: &Lineup) -> Vec<String> {
    let mut own: Vec<String> = lineup.settings.needs.iter().map(|need| need.text().to_owned()).collect();
    own.extend(lineup.settings.parts.parts.iter().flat_map(|part| [part.text.clone(), part.name.clone()]));
    for entry in &lineup.frames {
        own.extend(entry.frameset.standards.values().cloned());
        own.extend(entry.frameset.weights.iter().filter_map(|weight| weight.note.clone()));
    }
    own.retain(|text| text.contains(|c: char| c.is_ascii_digit()) && text.contains(' '));
    // In a table it may begin a sentence.
    own.extend(own.clone().iter().map(|text| text[..1].to_uppercase() + &text[1..]));
    own.sort_by_key(|text| std::cmp::Reverse(text.len()));
    own
}

/// Finds what is metric in texts, in one line each.
struct Reader {
    own: Vec<String>,
    read: usize,
    found: Vec<String>,
}

impl Reader {
    fn of(lineup: &Lineup) -> Self {
        Self { own: own_texts(lineup), read: 0, found: Vec::new() }
    }

    fn read(&mut self, place: &str, text: &str) {
        let mut text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for own in &self.own {
            text = text.replace(own.as_str(), "");
        }
        self.read += text.len();
        let mut found: Vec<String> = metric(&text).into_iter().map(|found| format!("{place}: {found}")).collect();
        found.dedup();
        self.found.extend(found);
    }

    fn read_scene(&mut self, place: &str, scene: &Scene) {
        self.read(place, &words_of_markup(&svg(scene, spandrel::drawing::Background::Light)));
    }

    /// All that was read was in inches, and there was something to read.
    fn none(mut self, least: usize) {
        assert!(self.read > least, "only {} letters were read", self.read);
        self.found.sort();
        self.found.dedup();
        assert!(self.found.is_empty(), "{} metric texts:\n{}", self.found.len(), self.found.join("\n"));
    }
}

fn program(arguments: &[&str]) -> Vec<u8> {
    let run = Command::new(env!("CARGO_BIN_EXE_spandrel")).args(arguments).output().unwrap();
    assert!(run.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&run.stderr));
    run.stdout
}

/// All texts that the program publishes and prints of a line-up, each with its file's name.
fn published(lineup: &Lineup) -> Vec<(String, String)> {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let file = path("sample.lineup.ron");
    fs::write(&file, write_lineup(lineup).unwrap()).unwrap();
    let mut texts = Vec::new();
    let mut add = |name: &str, bytes: &[u8]| texts.extend(texts_of(name, bytes).into_iter().map(|t| (name.to_owned(), t)));
    let statements: Vec<String> =
        Sheet::presets().into_iter().filter(|sheet| sheet.statement.is_some()).map(|sheet| sheet.name).collect();
    assert!(!statements.is_empty());
    let sheets = statements.iter().map(|name| (name.as_str(), vec!["--sheet", name, "--still"]));
    let whole =
        [("views", vec!["--width", "640", "--height", "480"]), ("sheet", vec!["--sheet", "Whole", "--still"])].into_iter();
    for (name, more) in whole.chain(sheets) {
        let said = program(&[&["publish", &file, "--to", &path(name)][..], &more].concat());
        add(&format!("{name} said.txt"), &said);
        let mut files: Vec<_> = fs::read_dir(path(name)).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.sort();
        assert!(files.len() > if name == "views" { 30 } else { 3 }, "{name}: {files:?}");
        for file in files {
            let file_name = file.file_name().unwrap().to_str().unwrap();
            add(&format!("{name}/{file_name}"), &fs::read(&file).unwrap());
        }
    }
    for (name, more) in
        [("pattern.svg", vec![]), ("cut.svg", vec!["--above", "260"]), ("along.svg", vec!["--below-top-tube", "90"])]
    {
        let to = path(name);
        add(&format!("{name} said.txt"), &program(&[&["pattern", &file, "--to", &to][..], &more].concat()));
        add(name, &fs::read(&to).unwrap());
    }
    add("figures.txt", &program(&["figures", &file]));
    add("figures.md", &program(&["figures", "--markdown", &file]));
    add("figures.json", &program(&["figures", "--json", &file]));
    add("loaded.txt", &program(&["loaded", &file]));
    add("loaded.json", &program(&["loaded", "--json", &file]));
    texts
}

#[test]
fn nothing_published_is_metric_where_inches_are_chosen() {
    for lineup in [sample(System::Imperial), changed_sample(System::Imperial, Cut::AlongTopTube { below_mm: 120.0 })] {
        let mut reader = Reader::of(&lineup);
        for (name, text) in published(&lineup) {
            reader.read(&name, &text);
        }
        reader.none(60_000);
    }
}

/// The same folders in metric units: each file that has a length, weight or speed is found to be metric.
#[test]
fn what_is_metric_is_found_in_every_kind_of_file() {
    let lineup = sample(System::Metric);
    let mut reader = Reader::of(&lineup);
    for (name, text) in published(&lineup) {
        reader.read(&name, &text);
    }
    for name in [
        "views/outline.svg",
        "views/stack-and-reach.svg",
        "views/bags.svg",
        "views/bags.csv",
        "views/bags.md",
        "views/weight.svg",
        "views/climb.svg",
        "views/contact-points.svg",
        "views/fork.svg",
        "views/overview.svg",
        "views/rear-from-above.svg",
        "views/gears.svg",
        "views/loaded.svg",
        "views/loaded.csv",
        "views/loaded.md",
        "Statement: outline/picture.svg",
        "Statement: lengths/picture.svg",
        "figures.json",
        "loaded.txt",
        "views/parts.svg",
        "views/price-and-climb.csv",
        "views/price-and-climb.md",
        "sheet/figures.csv",
        "sheet/figures.md",
        "sheet/page.html",
        "sheet/picture.svg",
        "pattern.svg",
        "figures.txt",
        "figures.md",
    ] {
        assert!(reader.found.iter().any(|found| found.starts_with(&format!("{name}: "))), "{name} has nothing metric");
    }
}

#[test]
fn no_shape_or_animation_of_a_sheet_is_metric() {
    let lineup = changed_sample(System::Imperial, Cut::Level { above_bb_mm: 300.0 });
    let findings = Findings::of(&lineup);
    let mut reader = Reader::of(&lineup);
    for shape in Shape::ALL {
        let sheet = whole_sheet(shape);
        let made = sheet_scene(&findings, &lineup, &sheet);
        reader.read_scene(shape.label(), &made.scene);
        for lost in &made.left_out {
            reader.read(shape.label(), &words::left_out_text(lost));
        }
        reader.read_scene(&format!("{} overlay", shape.label()), &overlay_scene(&findings, &lineup, &sheet));
        for note in words::footnotes(&lineup, &findings, &sheet) {
            reader.read("footnote", &note.text);
        }
        for caption in words::captions(&lineup, &findings, &sheet) {
            reader.read("caption", &caption.text);
        }
    }
    for what in [Movement::Appear, Movement::Change, Movement::Fork(40), Movement::Fork(-25)] {
        let sheet = Sheet { animation: Some(Animation { what, seconds: 1, frames_per_second: 5 }), ..whole_sheet(Shape::Wide) };
        let moving = Moving::of(&findings, &lineup, &sheet).unwrap();
        for picture in 0..moving.count() {
            reader.read_scene(what.label(), &moving.scene(picture));
        }
    }
    reader.none(20_000);
}

#[test]
fn no_detail_that_the_window_shows_is_metric() {
    let lineup = changed_sample(System::Imperial, Cut::Level { above_bb_mm: 300.0 });
    let units = lineup.settings.units;
    let findings = Findings::of(&lineup);
    let mut reader = Reader::of(&lineup);
    for (place, (entry, frame)) in lineup.frames.iter().zip(&findings.frames).enumerate() {
        for (published, size) in entry.frameset.sizes.iter().zip(&frame.adjusted.sizes) {
            for doubt in &size.doubts {
                reader.read("check", &words::doubt_text(doubt, units));
                reader.read("check", &words::doubt_brief(doubt));
            }
            for text in words::check::unknown_texts(&settled_by(&entry.frameset, published, size)) {
                reader.read("check", &text);
            }
        }
        for figure in spandrel::frameset::Figure::ALL {
            reader.read("check", &words::check::unknown_reason(*figure, units));
            if let Some(budget) = findings.check(FrameIndex(place), *figure).and_then(|check| check.budget) {
                reader.read("check", &words::check::budget_text(&budget, units));
            }
        }
        for part in [spandrel::frameset::Part::Frame, spandrel::frameset::Part::Fork, spandrel::frameset::Part::Frameset] {
            reader.read("weight", &words::weight_text(units, frame, part));
            reader.read("weight", &words::weight_workings(units, frame, part));
        }
        reader.read("weight", &words::frameset_workings(units, frame));
        let labels = frame.as_published.size_labels();
        for slip in &frame.as_published.slips {
            reader.read("check", &words::slip_text(slip, &labels, units));
        }
        for fit in &frame.luggage.bottles.fits {
            reader.read("bottle", &words::bottle_fit_text(units, fit));
        }
    }
    for (place, fit) in findings.fit.iter().enumerate() {
        for verdict in &fit.verdicts {
            reader.read("part", &words::verdict_in_full(units, verdict));
        }
        for answer in &fit.answers {
            reader.read("need", &words::answer_text(units, answer));
        }
        reader.read("size", &words::size_fit_text(units, &fit.size_fit));
        reader.read("size", &words::size_fit_badge(units, &fit.size_fit).unwrap_or_default());
        for text in words::rear_view_sentences(units, fit.rear.as_ref(), lineup.settings.rear.gear) {
            reader.read("rear", &text);
        }
        if let Some(change) = &fit.change {
            reader.read("fork", &words::change_sentence(units, change));
        }
        if let Some(correction) = &fit.correction {
            reader.read("fork", &words::correction_text(units, correction));
        }
        for row in words::change_rows(units, &findings, FrameIndex(place)) {
            for cell in &row.cells {
                reader.read("fork", &cell.text_with_unit(units, row.quantity));
            }
        }
    }
    let tables = [
        words::parts_table(&lineup, &findings),
        words::needs_table(&lineup, &findings),
        words::contact_points_table(units, &findings),
        words::overview_table(&lineup, &findings),
        words::loaded_tables_in_one(&lineup, &findings),
        words::rules_of_thumb_table(&lineup, &findings),
        words::price_and_climb_table(&lineup, &findings),
    ];
    let sentences = [
        words::loaded_sentences(&lineup, &findings),
        words::gear_sentences(&lineup, &findings),
        words::fit_sentences(&findings, units),
        words::bag_settings_texts(units, &lineup.settings.bags),
    ];
    for text in sentences.iter().flatten() {
        reader.read("sentence", text);
    }
    for table in &tables {
        for text in table.rows.iter().flat_map(|row| row.cells.iter().map(|cell| format!("{} {}", cell.text, cell.detail))) {
            reader.read("table", &text);
        }
    }
    reader.none(10_000);
}

/// The test finds what it looks for, and nothing else.
#[test]
fn metric_texts_are_found_and_trade_sizes_are_not() {
    let is_metric = |text: &str| !metric(text).is_empty();
    for text in [
        "3.5\u{2009}mm",
        "stack 638 ± 1 mm.",
        "45mm",
        "Weight, kg",
        "12 g",
        "g",
        "EUR/g",
        "per gram",
        "8 km/h",
        "1.2 dm²)",
        "30 ± 12 mm",
    ] {
        assert!(is_metric(text), "{text}");
    }
    for text in [
        "622 x 25",
        "27.2 mm seat post",
        "57-622",
        "30 mm crown race seat",
        "12.3 in",
        "5.9 lb",
        "A frame of size M",
        "G meets it",
        "programme",
    ] {
        assert!(!is_metric(text), "{text}");
    }
    assert_eq!(words_of_markup("<a title=\"x\">1<style>2 mm</style><b>3</b><tspan>4</tspan>").split_whitespace().count(), 4);
}
