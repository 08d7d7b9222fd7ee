//! The README and the pages of `docs/` hold what is true: their examples are read by the program, name every field, key and
//! option there is, and show the numbers that the program gives. Their links lead somewhere.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;
use spandrel::frameset::{Figure, read_frameset};
use spandrel::geometry::adjust;
use spandrel::lineup::{Findings, Sheet, read_lineup};
use spandrel::units::System;
use spandrel::words::comparison_table;

const README: &str = include_str!("../README.md");
const ASSUMPTIONS: &str = include_str!("../docs/assumptions.md");
const COMMAND_LINE: &str = include_str!("../docs/command-line.md");
const FIGURES: &str = include_str!("../docs/figures.md");
const FRAME_FILES: &str = include_str!("../docs/frame-files.md");
const JSON: &str = include_str!("../docs/json.md");
const LINEUP_FILES: &str = include_str!("../docs/lineup-files.md");
const PUBLISHING: &str = include_str!("../docs/publishing.md");

/// How many lines the README may have: it is for a first reading.
const MOST_LINES: usize = 160;

/// The text of the first code block of a page in `language`.
fn block(page: &'static str, language: &str) -> &'static str {
    let fence = format!("```{language}\n");
    let mut blocks = page.split(fence.as_str()).skip(1).filter_map(|rest| rest.split("\n```").next());
    let first = blocks.next().unwrap_or_else(|| panic!("no {language} in the page"));
    assert!(blocks.next().is_none(), "one {language} example a page");
    first
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The README and all pages of `docs/`, with their text.
fn pages() -> Vec<(PathBuf, String)> {
    let docs = std::fs::read_dir(root().join("docs")).unwrap().map(|entry| entry.unwrap().path());
    let all = docs.chain([root().join("README.md")]);
    all.map(|path| (path.clone(), std::fs::read_to_string(path).unwrap())).collect()
}

/// The cells of a row of a Markdown table.
fn cells(row: &str) -> Vec<&str> {
    row.trim().trim_matches('|').split(" | ").map(str::trim).collect()
}

/// What the program answers on standard output.
fn answer(arguments: &[&str]) -> String {
    let program = Command::new(env!("CARGO_BIN_EXE_spandrel")).args(arguments).current_dir(root()).output().unwrap();
    assert!(program.status.success(), "{}", String::from_utf8_lossy(&program.stderr));
    String::from_utf8(program.stdout).unwrap()
}

/// The names that a refusal lists as known: the fields of the struct in which an unknown one stood.
fn known_fields(refusal: &str) -> Vec<String> {
    let (_, names) = refusal.split_once("known are ").unwrap_or_else(|| panic!("no names in: {refusal}"));
    names.split(", ").map(|n| n.trim_matches('`').to_owned()).collect()
}

#[test]
fn both_files_shown_are_read() {
    let (frame, lineup) = (block(FRAME_FILES, "ron"), block(LINEUP_FILES, "ron"));
    let frameset = read_frameset(frame.as_bytes()).unwrap_or_else(|e| panic!("{e} {:?}", e.position()));
    assert_eq!(frameset.name(), "Marrowby Drift");
    let lineup = read_lineup(lineup.as_bytes()).unwrap_or_else(|e| panic!("{e} {:?}", e.position()));
    assert_eq!(lineup.frames.len(), 1);
}

#[test]
fn the_frame_file_shown_names_every_field() {
    let frame = block(FRAME_FILES, "ron");
    let size =
        |inside: &str| format!(r#"Frameset(format: 1, maker: "", model: "", sizes: [(label: "M", figures: {{}}, {inside})])"#);
    let whole = |inside: &str| format!("Frameset({inside})");
    for text in [
        whole("qqqqqqqq: 1"),
        whole("printed_to: (qqqqqqqq: 1)"),
        whole("tubing: (qqqqqqqq: 1)"),
        whole("fork: (qqqqqqqq: 1)"),
        whole("tube_diameters: {Qqqqqqqq: 1}"),
        whole("fork: (steerer: (qqqqqqqq: 1))"),
        whole("tube_walls: {Qqqqqqqq: (wall: 1)}"),
        whole("tube_walls: {TopTube: (qqqqqqqq: 1)}"),
        whole("small_parts: {Qqqqqqqq: 1}"),
        whole("weights: [(qqqqqqqq: 1)]"),
        whole("prices: [(qqqqqqqq: 1)]"),
        whole("standards: {Qqqqqqqq: \"\"}"),
        whole("sources: [(qqqqqqqq: 1)]"),
        size("qqqqqqqq: 1"),
        size("junctions: (qqqqqqqq: 1)"),
        size("top_tube_bends: [(qqqqqqqq: 1)]"),
    ] {
        let refusal = read_frameset(text.as_bytes()).unwrap_err().to_string();
        for field in known_fields(&refusal) {
            assert!(frame.contains(&format!("{field}:")), "the frame file shown does not have `{field}`");
        }
    }
}

#[test]
fn the_line_up_shown_names_every_field() {
    let lineup = block(LINEUP_FILES, "ron");
    for text in [
        "Lineup(qqqqqqqq: 1)",
        "Lineup(frames: [(qqqqqqqq: 1)])",
        "Lineup(sheets: [(qqqqqqqq: 1)])",
        "Lineup(sheets: [(captions: [(qqqqqqqq: 1)])])",
        "Lineup(sheets: [(moves: (qqqqqqqq: 1))])",
        "Lineup(settings: (qqqqqqqq: 1))",
        "Lineup(settings: (outline: (qqqqqqqq: 1)))",
        "Lineup(settings: (room: (qqqqqqqq: 1)))",
        "Lineup(settings: (room: (bag: (qqqqqqqq: 1))))",
        "Lineup(settings: (room: (cages: (qqqqqqqq: 1))))",
        "Lineup(settings: (steering: (qqqqqqqq: 1)))",
        "Lineup(settings: (weight: (qqqqqqqq: 1)))",
        "Lineup(settings: (money: (qqqqqqqq: 1)))",
        "Lineup(settings: (money: (rates: [(qqqqqqqq: 1)])))",
        "Lineup(settings: (worth: (qqqqqqqq: 1)))",
        "Lineup(settings: (worth: (climb: (qqqqqqqq: 1))))",
        "Lineup(settings: (worth: (conditions: (qqqqqqqq: 1))))",
        "Lineup(settings: (worth: (builds: [(qqqqqqqq: 1)])))",
        "Lineup(frames: [(weighing: (qqqqqqqq: 1))])",
        "Lineup(frames: [(weighing: (frame: (qqqqqqqq: 1)))])",
        "Lineup(frames: [(weighing: (frame: (lines: [(qqqqqqqq: 1)])))])",
    ] {
        let refusal = read_lineup(text.as_bytes()).unwrap_err().to_string();
        for field in known_fields(&refusal) {
            assert!(lineup.contains(&format!("{field}:")), "the line-up shown does not have `{field}`");
        }
    }
}

#[test]
fn every_figure_has_its_row_with_unit_and_range() {
    for figure in Figure::ALL {
        let about = figure.about();
        let row = if about.in_files {
            let unit = if figure.is_angle() { "degrees" } else { "mm" };
            let range = format!("{} to {}", about.low, about.high).replace('-', "−");
            format!("| `{}` | {unit} | {range} | {} |", about.name, figure.meaning())
        } else {
            format!("`{}`", about.key)
        };
        assert!(FIGURES.contains(&row), "missing in docs/figures.md: {row}");
    }
}

#[test]
fn the_json_shown_is_what_the_program_answers() {
    let shown: Value = serde_json::from_str(block(JSON, "json")).unwrap();
    let file = shown["frames"][0]["file"].as_str().unwrap();
    let answered: Value = serde_json::from_str(&answer(&["figures", "--json", file])).unwrap();
    assert_eq!(shown["spandrel"], answered["spandrel"]);
    let (shown, answered) = (&shown["frames"][0], &answered["frames"][0]);
    assert_eq!((&shown["maker"], &shown["model"]), (&answered["maker"], &answered["model"]));
    let size = &shown["sizes"][0];
    let all = answered["sizes"].as_array().unwrap();
    let same = all.iter().find(|s| s["size"] == size["size"]).unwrap();
    for (figure, entry) in size["figures"].as_object().unwrap() {
        assert_eq!(entry, &same["figures"][figure], "{figure}");
    }
    assert_eq!(shown["slips"][0], answered["slips"][0]);
    assert_eq!(shown["slip_free"], answered["slip_free"]);
    for key in ["points", "missing", "settled_by"] {
        assert_eq!(size[key], same[key], "{key}");
    }
    assert_eq!(size["weights"]["frame"], same["weights"]["frame"]);
    for (key, part) in [
        ("money", "frameset"),
        ("money", "currency"),
        ("money", "tax"),
        ("price_and_climb", "loaded_total_kg"),
        ("price_and_climb", "share_u"),
        ("price_and_climb", "climb"),
    ] {
        assert_eq!(shown[key][part], answered[key][part], "{key} {part}");
    }
    // Every key there is stands in the table.
    let keys = answered.as_object().unwrap().keys().chain(same.as_object().unwrap().keys());
    for key in keys
        .chain(same["figures"]["stack"].as_object().unwrap().keys())
        .chain(answered["slips"][0].as_object().unwrap().keys())
        .chain(answered["slips"][0]["cells"][0].as_object().unwrap().keys())
        .chain(same["weights"]["frame"].as_object().unwrap().keys())
        .chain(answered["price_and_climb"].as_object().unwrap().keys())
        .chain(answered["money"].as_object().unwrap().keys())
    {
        assert!(key == "figure" || JSON.contains(&format!("`{key}`")), "`{key}` is not explained");
    }
}

/// Every key of a frame of a line-up, in all frames of the sample comparison.
#[test]
fn every_key_of_a_line_up_stands_in_the_table() {
    let answered: Value =
        serde_json::from_str(&answer(&["figures", "--json", "sample-frames/village-library.lineup.ron"])).unwrap();
    let frames = answered["frames"].as_array().unwrap();
    let keys: BTreeSet<&String> = frames.iter().flat_map(|frame| frame.as_object().unwrap().keys()).collect();
    assert!(keys.len() > 8, "{keys:?}");
    for key in keys {
        let is_in_a_row = |line: &str| line.starts_with('|') && cells(line)[0].contains(&format!("`{key}`"));
        assert!(JSON.lines().any(is_in_a_row), "`{key}` has no row in docs/json.md");
    }
}

/// Every code that a program may meet stands in the page, and no other.
#[test]
fn every_code_of_parts_and_needs_stands_in_the_page() {
    use spandrel::parts::{Caution, Extra, NeedFact, Reason};
    let (_, codes) = JSON.split_once("## Codes of parts and needs").unwrap();
    let (codes, _) = codes.split_once("\n## ").unwrap_or((codes, ""));
    let listed: BTreeSet<&str> = codes.split('`').skip(1).step_by(2).collect();
    let keys = ["reason_codes", "parts", "with_codes", "caution_code", "needs"];
    let known: BTreeSet<&str> =
        [Reason::codes(), Extra::CODES.to_vec(), Caution::CODES.to_vec(), NeedFact::CODES.to_vec(), keys.to_vec()]
            .concat()
            .into_iter()
            .collect();
    let apart: Vec<_> = known.symmetric_difference(&listed).collect();
    assert!(known.len() > 150 && apart.is_empty(), "{apart:?}");
}

/// The call of `pattern` that is shown works.
#[test]
fn the_pattern_shown_is_written() {
    let call = COMMAND_LINE.split("`spandrel pattern ").nth(1).and_then(|rest| rest.split('`').next()).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("bag.pdf");
    let arguments = call.split(' ').map(|word| if word == "bag.pdf" { file.to_str().unwrap() } else { word });
    answer(&["pattern"].into_iter().chain(arguments).collect::<Vec<_>>());
    assert!(std::fs::read(file).unwrap().starts_with(b"%PDF"));
}

#[test]
fn every_command_and_option_is_named() {
    let help = answer(&["--help"]);
    let commands = help.split("Commands:\n").nth(1).unwrap().lines().take_while(|line| !line.trim().is_empty());
    let mut options_seen = 0;
    for command in commands.filter_map(|line| line.split_whitespace().next()).filter(|name| *name != "help") {
        assert!(COMMAND_LINE.contains(&format!("`{command}`")), "docs/command-line.md does not name `{command}`");
        let help = answer(&[command, "--help"]);
        let options = help.lines().map(str::trim).filter(|line| line.starts_with('-'));
        for option in options.filter_map(|line| line.split_whitespace().find(|word| word.starts_with("--"))) {
            let is_named = |page: &str| page.contains(&format!("`{option} ")) || page.contains(&format!("`{option}`"));
            assert!(
                option == "--help" || is_named(COMMAND_LINE) || is_named(PUBLISHING),
                "`{command} {option}` is not described"
            );
            options_seen += 1;
        }
    }
    assert!(options_seen > 25, "{options_seen}");
}

#[test]
fn every_sheet_to_begin_with_is_named() {
    for sheet in Sheet::presets() {
        assert!(PUBLISHING.contains(&sheet.name), "docs/publishing.md does not name {}", sheet.name);
    }
}

/// The README's small table is what the program finds in the sample comparison.
#[test]
fn the_table_of_the_readme_is_what_the_sample_says() {
    let sample = std::fs::read(root().join("sample-frames/village-library.lineup.ron")).unwrap();
    let table = comparison_table(&Findings::of(&read_lineup(&sample).unwrap()), System::Metric);
    let place = |title: &str| {
        let is_meant = |c: &spandrel::words::Column| {
            c.title == title || title.split_once(' ').is_some_and(|(a, z)| c.title.starts_with(a) && c.title.ends_with(z))
        };
        table.columns.iter().position(is_meant).unwrap_or_else(|| panic!("no column {title}"))
    };
    let mut lines = README.lines().skip_while(|line| !line.starts_with("| | A L |"));
    let heads = cells(lines.next().unwrap());
    let rows: Vec<_> = lines.skip(1).take_while(|line| line.starts_with('|')).map(cells).collect();
    assert!(rows.len() >= 3);
    for row in rows {
        let (label, unit) = row[0].split_once(", ").unwrap();
        let found = table.rows.iter().find(|r| r.label == label && r.unit == unit).unwrap_or_else(|| panic!("no row {label}"));
        for (head, shown) in heads[1..].iter().zip(&row[1..]) {
            let text = found.cells[place(head)].text.replace('\u{2009}', " ");
            assert_eq!(*shown, text, "{label}, {head}");
        }
    }
}

/// The assumptions that are figures too, read from a frameset that says nothing else.
#[test]
fn the_values_assumed_are_those_of_the_table() {
    let frameset = |inside: &str| {
        let size = "sizes: [(label: \"M\", figures: {Stack: 620, Reach: 390, HeadAngle: 71, SeatAngle: 73})]";
        let text = format!("Frameset(format: 1, maker: \"\", model: \"\", {inside} {size})");
        read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e}"))
    };
    let lower = |code: &str| format!("standards: {{LowerHeadset: \"{code}\"}},");
    for (row, inside, figure) in [
        ("`EC…`", lower("EC44/40"), Figure::LowerHeadset),
        ("`ZS…`", lower("ZS56/40"), Figure::LowerHeadset),
        ("| | 8 ± 6 mm", String::new(), Figure::LowerHeadset),
        ("350 ± 12 mm", String::new(), Figure::RearTyreRadius),
        ("seat tube setback", String::new(), Figure::SeatTubeSetback),
    ] {
        let line = ASSUMPTIONS.lines().find(|line| line.starts_with('|') && line.contains(row)).unwrap();
        let (value, rest) = cells(line).into_iter().find_map(|cell| cell.split_once(" ± ")).unwrap();
        let (value, u): (f64, f64) = (value.parse().unwrap(), rest.trim_end_matches(" mm").parse().unwrap());
        let adjusted = adjust(&frameset(&inside));
        let found = adjusted.sizes[0].value(figure);
        // That both wheels stand on one road sharpens a tyre's radius in its fourth digit.
        assert!((found.value - value).abs() < 1e-3 && (found.u - u).abs() < 1e-2, "{row}: {found:?}");
    }
}

#[test]
fn every_link_and_every_test_named_is_there() {
    let mut count = 0;
    for (path, text) in pages() {
        let links = text.split("](").skip(1).filter_map(|rest| rest.split([')', '#']).next());
        for link in links.filter(|link| !link.starts_with("https://") && !link.is_empty()) {
            assert!(path.parent().unwrap().join(link).exists(), "{}: {link}", path.display());
            count += 1;
        }
        for test in text.split("`tests/").skip(1).filter_map(|rest| rest.split('`').next()) {
            assert!(root().join("tests").join(test).exists(), "{}: tests/{test}", path.display());
            count += 1;
        }
    }
    assert!(count > 25, "{count}");
}

#[test]
fn the_readme_is_short_and_leads_to_every_page() {
    assert!(README.lines().count() <= MOST_LINES, "{} lines", README.lines().count());
    for (path, _) in pages() {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        assert!(name == "README.md" || README.contains(&format!("(docs/{name})")), "the README does not lead to docs/{name}");
    }
}
