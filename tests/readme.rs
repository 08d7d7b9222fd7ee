//! The README holds what is true: its examples are read by the program, name every field there is, and show the numbers
//! that the program answers with.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::process::Command;

use serde_json::Value;
use spandrel::frameset::{Figure, read_frameset};
use spandrel::lineup::read_lineup;

const README: &str = include_str!("../README.md");

/// The text of the README's code blocks in `language`.
fn blocks(language: &str) -> Vec<&'static str> {
    let fence = format!("```{language}\n");
    README.split(fence.as_str()).skip(1).filter_map(|rest| rest.split("\n```").next()).collect()
}

/// The names that a refusal lists as known: the fields of the struct in which an unknown one stood.
fn known_fields(refusal: &str) -> Vec<String> {
    let (_, names) = refusal.split_once("known are ").unwrap_or_else(|| panic!("no names in: {refusal}"));
    names.split(", ").map(|n| n.trim_matches('`').to_owned()).collect()
}

#[test]
fn both_files_of_the_readme_are_read() {
    let [frame, lineup] = blocks("ron")[..] else { panic!("two files are shown") };
    let frameset = read_frameset(frame.as_bytes()).unwrap_or_else(|e| panic!("{e} {:?}", e.position()));
    assert_eq!(frameset.name(), "Marrowby Drift");
    let lineup = read_lineup(lineup.as_bytes()).unwrap_or_else(|e| panic!("{e} {:?}", e.position()));
    assert_eq!(lineup.frames.len(), 1);
}

#[test]
fn the_frame_file_of_the_readme_names_every_field() {
    let frame = blocks("ron")[0];
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
            assert!(frame.contains(&format!("{field}:")), "the README's frame file does not show `{field}`");
        }
    }
}

#[test]
fn the_line_up_of_the_readme_names_every_field() {
    let lineup = blocks("ron")[1];
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
            assert!(lineup.contains(&format!("{field}:")), "the README's line-up does not show `{field}`");
        }
    }
}

#[test]
fn every_figure_stands_in_the_readme_with_its_unit_and_range() {
    for figure in Figure::ALL {
        let about = figure.about();
        let row = if about.in_files {
            let unit = if figure.is_angle() { "degrees" } else { "mm" };
            let range = format!("{} to {}", about.low, about.high).replace('-', "−");
            format!("| `{}` | {unit} | {range} | {} |", about.name, figure.meaning())
        } else {
            format!("`{}`", about.key)
        };
        assert!(README.contains(&row), "missing in the README: {row}");
    }
}

#[test]
fn the_json_of_the_readme_is_what_the_program_answers() {
    let shown: Value = serde_json::from_str(blocks("json")[0]).unwrap();
    let file = shown["frames"][0]["file"].as_str().unwrap();
    let program = Command::new(env!("CARGO_BIN_EXE_spandrel")).args(["figures", "--json", file]).output().unwrap();
    assert!(program.status.success());
    let answered: Value = serde_json::from_slice(&program.stdout).unwrap();
    assert_eq!(shown["spandrel"], answered["spandrel"]);
    let (shown, answered) = (&shown["frames"][0], &answered["frames"][0]);
    assert_eq!((&shown["maker"], &shown["model"]), (&answered["maker"], &answered["model"]));
    let size = &shown["sizes"][0];
    let all = answered["sizes"].as_array().unwrap();
    let same = all.iter().find(|s| s["size"] == size["size"]).unwrap();
    for (figure, entry) in size["figures"].as_object().unwrap() {
        assert_eq!(entry, &same["figures"][figure], "{figure}");
    }
    assert_eq!(size["suspects"][0], same["suspects"][0]);
    for key in ["points", "missing", "settled_by"] {
        assert_eq!(size[key], same[key], "{key}");
    }
    assert_eq!(size["weights"]["frame"], same["weights"]["frame"]);
    for (key, part) in [
        ("money", "set"),
        ("money", "currency"),
        ("money", "tax"),
        ("worth", "whole_kg"),
        ("worth", "share_u"),
        ("worth", "climb"),
    ] {
        assert_eq!(shown[key][part], answered[key][part], "{key} {part}");
    }
    // Every key there is stands in the table.
    let keys = answered.as_object().unwrap().keys().chain(same.as_object().unwrap().keys());
    for key in keys
        .chain(same["figures"]["stack"].as_object().unwrap().keys())
        .chain(same["suspects"][0].as_object().unwrap().keys())
        .chain(same["weights"]["frame"].as_object().unwrap().keys())
        .chain(answered["worth"].as_object().unwrap().keys())
        .chain(answered["money"].as_object().unwrap().keys())
    {
        assert!(key == "figure" || README.contains(&format!("`{key}`")), "`{key}` is not explained");
    }
}

/// The README's own call of `pattern` works, and it names every option.
#[test]
fn the_pattern_of_the_readme_is_written() {
    let call = README.split("`spandrel pattern ").nth(1).and_then(|rest| rest.split('`').next()).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("bag.pdf");
    let arguments = call.split(' ').map(|word| if word == "bag.pdf" { file.to_str().unwrap() } else { word });
    let program = Command::new(env!("CARGO_BIN_EXE_spandrel")).arg("pattern").args(arguments).output().unwrap();
    assert!(program.status.success(), "{}", String::from_utf8_lossy(&program.stderr));
    assert!(std::fs::read(file).unwrap().starts_with(b"%PDF"));
    let help = Command::new(env!("CARGO_BIN_EXE_spandrel")).args(["pattern", "--help"]).output().unwrap();
    let help = String::from_utf8(help.stdout).unwrap();
    for option in help.split_whitespace().filter(|w| w.starts_with("--") && w.len() > 2 && *w != "--help") {
        let option = option.trim_end_matches([',', '.', ';']);
        assert!(README.contains(&format!("{option} ")) || README.contains(&format!("{option}`")), "{option}");
    }
}
