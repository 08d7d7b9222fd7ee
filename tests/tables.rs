//! Invented geometry tables, and in `tests/pages` whole pages with specifications, in many shapes and six languages, each with what must be understood of it.
//!
//! Beside `NAME.tsv` (or another ending) stands `NAME.expect`, written by hand: `sizes:`, `printed: MM DEG`, a line for
//! each figure with its values in the sizes' order (`-` for none), `step FIGURE: …`, `tyre: …`, `note: …` (a text that the
//! frameset's note must hold), `fact: …` (a weight, price, standard or other fact of a specification; no other may be there), `remark: …` (one that the report must hold), `asks: …` (every question that is asked, and
//! no other) and `answer: … = choice`, counted from 1.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use spandrel::frameset::import::{self, Reading, Subject};
use spandrel::frameset::{Figure, Frameset, read_frameset, write_frameset};

fn tables() -> Vec<(PathBuf, PathBuf)> {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let mut all = Vec::new();
    let folders = ["tables", "pages"].map(|folder| std::fs::read_dir(tests.join(folder)).unwrap());
    for entry in folders.into_iter().flatten() {
        let table = entry.unwrap().path();
        if table.extension().is_none_or(|e| e == "expect") {
            continue;
        }
        let expect = table.with_extension("expect");
        assert!(expect.exists(), "{} has its expectation", table.display());
        all.push((table, expect));
    }
    all.sort();
    all
}

/// A question by the words of the expectation files.
fn name(subject: &Subject, reading: &Reading) -> String {
    let label = |line: &usize| reading.rows.iter().find(|r| r.line == *line).map_or("?", |r| r.label.as_str()).to_owned();
    let of_list = |line: &usize| reading.specification.iter().find(|r| r.line == *line).map_or("?", |r| r.label.as_str());
    match subject {
        Subject::Layout => "layout".to_owned(),
        Subject::Decimals => "decimals".to_owned(),
        Subject::LengthUnit => "unit".to_owned(),
        Subject::Meaning(line) => format!("meaning {}", label(line)),
        Subject::RowUnit(line) => format!("unit {}", label(line)),
        Subject::Range(line) => format!("range {}", label(line)),
        Subject::Sign(line) => format!("sign {}", label(line)),
        Subject::Merged(line) => format!("merged {}", label(line)),
        Subject::Cut(line) => format!("cut {}", label(line)),
        Subject::Twice(figure) => format!("twice {}", figure.about().name),
        Subject::SameSize(size) => format!("size {size}"),
        Subject::Part(line) => format!("part {}", of_list(line)),
        Subject::Currency(line) => format!("currency {}", of_list(line)),
        Subject::Wheel(line) => format!("wheel {}", of_list(line)),
    }
}

struct Expectation {
    sizes: Vec<String>,
    printed: (f64, f64),
    figures: BTreeMap<Figure, Vec<Option<f64>>>,
    steps: BTreeMap<Figure, f64>,
    tyre: Option<String>,
    facts: BTreeSet<String>,
    notes: Vec<String>,
    remarks: Vec<String>,
    asks: BTreeSet<String>,
    answers: Vec<(String, usize)>,
}

fn expectation(text: &str) -> Expectation {
    let mut e = Expectation {
        sizes: Vec::new(),
        printed: (0.0, 0.0),
        figures: BTreeMap::new(),
        steps: BTreeMap::new(),
        tyre: None,
        facts: BTreeSet::new(),
        notes: Vec::new(),
        remarks: Vec::new(),
        asks: BTreeSet::new(),
        answers: Vec::new(),
    };
    for line in text.lines().filter(|l| !l.trim().is_empty()) {
        let (key, value) = line.split_once(": ").unwrap_or_else(|| panic!("{line}"));
        match key {
            "sizes" => e.sizes = value.split(" | ").map(str::to_owned).collect(),
            "printed" => {
                let steps: Vec<f64> = value.split(' ').map(|n| n.parse().unwrap()).collect();
                e.printed = (steps[0], steps[1]);
            }
            "tyre" => e.tyre = Some(value.to_owned()),
            "fact" => assert!(e.facts.insert(value.to_owned())),
            "note" => e.notes.push(value.to_owned()),
            "remark" => e.remarks.push(value.to_owned()),
            "asks" => assert!(e.asks.insert(value.to_owned())),
            "answer" => {
                let (question, choice) = value.rsplit_once(" = ").unwrap();
                e.answers.push((question.to_owned(), choice.parse::<usize>().unwrap() - 1));
            }
            figure => {
                let named = |name: &str| Figure::from_name(name).unwrap_or_else(|| panic!("{name} is a figure"));
                if let Some(step_of) = figure.strip_prefix("step ") {
                    e.steps.insert(named(step_of), value.parse().unwrap());
                } else {
                    e.figures.insert(named(figure), value.split(' ').map(|v| v.parse().ok()).collect());
                }
            }
        }
    }
    e
}

#[test]
fn every_table_is_understood_as_a_careful_reader_would() {
    let tables = tables();
    assert!(tables.len() >= 70, "{} tables", tables.len());
    let mut problems = Vec::new();
    for (table, expect) in &tables {
        let wanted = expectation(&std::fs::read_to_string(expect).unwrap());
        let outcome = std::panic::catch_unwind(|| check(table, &wanted));
        if outcome.is_err() {
            problems.push(table.file_name().unwrap().to_string_lossy().into_owned());
        }
    }
    assert!(problems.is_empty(), "{} of {} tables: {problems:?}", problems.len(), tables.len());
}

/// What a frameset has beside its figures, in the words of the expectation files.
fn facts(frameset: &Frameset) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for weight in &frameset.weights {
        let size = weight.size.as_ref().map_or(String::new(), |s| format!(" {s}"));
        let note = if weight.note.is_some() { ", noted" } else { "" };
        all.insert(format!("{} weight {}{size}{note}", weight.part.label(), weight.grams));
    }
    for price in &frameset.prices {
        let tax = price.tax.map_or(String::new(), |t| format!(" {t:?}"));
        let percent = price.tax_percent.as_ref().map_or(String::new(), |p| format!(" {p}"));
        all.insert(format!("{} price {} {}{tax}{percent}", price.part.label(), price.amount, price.currency));
    }
    all.extend(frameset.standards.iter().map(|(standard, text)| format!("{standard:?} {text}")));
    all.extend(frameset.fork.iter().map(|f| format!("fork {:?} {:?}", f.material, f.travel)));
    all.extend(frameset.tubing.iter().map(|t| format!("tubing {:?}", t.material)));
    all.extend(frameset.year.map(|year| format!("year {year}")));
    all
}

fn check(table: &Path, wanted: &Expectation) {
    let mut reading = import::read_bytes(&std::fs::read(table).unwrap()).unwrap_or_else(|e| panic!("{}: {e}", table.display()));
    let first_report = import::report(&reading);
    let context = || format!("{}\n{first_report}", table.display());
    let asked: BTreeSet<String> = reading.questions.iter().map(|q| name(&q.subject, &reading)).collect();
    assert_eq!(asked, wanted.asks, "questions of {}", context());
    let must_answer = reading.open_questions().count();
    assert_eq!(reading.to_frameset("Marrowby", "Drift").is_err(), must_answer > 0, "{}", context());
    for (question, choice) in &wanted.answers {
        let subject = reading.questions.iter().find(|q| name(&q.subject, &reading) == *question).map(|q| q.subject.clone());
        reading.answer(&subject.unwrap_or_else(|| panic!("{question} is asked: {}", context())), *choice);
    }
    let frameset = reading.to_frameset("Marrowby", "Drift").unwrap_or_else(|e| panic!("{e}: {}", context()));
    let labels: Vec<&String> = frameset.sizes.iter().map(|s| &s.label).collect();
    assert_eq!(labels, wanted.sizes.iter().collect::<Vec<_>>(), "sizes of {}", context());
    let figures: BTreeSet<Figure> = frameset.sizes.iter().flat_map(|s| s.figures.keys().copied()).collect();
    assert_eq!(figures, wanted.figures.keys().copied().collect(), "figures of {}", context());
    for (figure, values) in &wanted.figures {
        let read: Vec<Option<f64>> = frameset.sizes.iter().map(|s| s.figures.get(figure).copied()).collect();
        assert_eq!(&read, values, "{figure:?} of {}", context());
    }
    assert_eq!((frameset.rounded_to.mm, frameset.rounded_to.deg), wanted.printed, "steps of {}", context());
    let steps: BTreeMap<Figure, f64> = frameset.sizes.iter().flat_map(|s| s.rounded_to.clone()).collect();
    assert_eq!(steps, wanted.steps, "figures' own steps of {}", context());
    assert_eq!(frameset.tyre.map(|t| t.to_string()), wanted.tyre, "tyre of {}", context());
    assert_eq!(facts(&frameset), wanted.facts, "facts of {}", context());
    let note = frameset.note.clone().unwrap_or_default();
    for text in &wanted.notes {
        assert!(note.contains(text), "the note holds “{text}”: {}", context());
    }
    let report = import::report(&reading);
    for text in &wanted.remarks {
        assert!(report.contains(text), "the report says “{text}”: {report}");
    }
    let written = write_frameset(&frameset).unwrap();
    assert_eq!(read_frameset(written.as_bytes()).unwrap(), frameset);
}
