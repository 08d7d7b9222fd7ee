//! The invariants of the modules, read off the source text: which module knows which, who touches the toolkit, the disk, the
//! clock and the colours. They are mostly about what is absent, which no other test would miss.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::fs;
use std::path::{Path, PathBuf};

/// The modules from the innermost outwards, each with those it may know. Rooms of one kind of finding stand side by side:
/// none of them knows another.
const MODULES: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("frameset", &["units"]),
    ("geometry", INNER),
    ("luggage", SIDE),
    ("money", SIDE),
    ("parts", SIDE),
    ("riding", SIDE),
    ("weight", SIDE),
    ("lineup", FINDINGS),
    ("words", &["units", "frameset", "geometry", "luggage", "money", "parts", "riding", "weight", "lineup"]),
    ("drawing", &["units", "frameset", "geometry", "luggage", "money", "parts", "riding", "weight", "lineup", "words"]),
    (
        "publish",
        &["units", "frameset", "geometry", "luggage", "money", "parts", "riding", "weight", "lineup", "words", "drawing"],
    ),
    ("disk", &["units", "frameset", "lineup"]),
    ("command_line", ALL),
    ("window", ALL),
];
const INNER: &[&str] = &["units", "frameset"];
const SIDE: &[&str] = &["units", "frameset", "geometry"];
const FINDINGS: &[&str] = &["units", "frameset", "geometry", "luggage", "money", "parts", "riding", "weight"];
const ALL: &[&str] = &[
    "units", "frameset", "geometry", "luggage", "money", "parts", "riding", "weight", "lineup", "words", "drawing", "publish",
    "disk",
];

/// A source file: its module, its path for messages, and its code without comments and without its tests.
struct Source {
    module: String,
    path: PathBuf,
    code: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    gather(&root, &root, &mut found);
    assert!(found.len() > 30, "the source is there");
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

fn gather(root: &Path, folder: &Path, found: &mut Vec<Source>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            gather(root, &path, found);
            continue;
        }
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let is_test = name == "tests.rs" || name.ends_with("_tests.rs");
        if path.extension().is_none_or(|e| e != "rs") || is_test || name == "main.rs" || name == "lib.rs" {
            continue;
        }
        let inside = path.strip_prefix(root).unwrap();
        let module = inside.iter().next().unwrap().to_string_lossy().trim_end_matches(".rs").to_owned();
        let text = fs::read_to_string(&path).unwrap();
        let without_tests = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
        let code = without_tests.lines().filter(|l| !l.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
        found.push(Source { module, path: inside.to_owned(), code });
    }
}

/// The names that follow `prefix` in some code.
fn names_after<'a>(code: &'a str, prefix: &str) -> Vec<&'a str> {
    let is_name = |c: char| c.is_alphanumeric() || c == '_';
    code.split(prefix).skip(1).map(|rest| rest.split(|c| !is_name(c)).next().unwrap_or_default()).collect()
}

/// Whether a word stands in some code by itself.
fn has_word(code: &str, word: &str) -> bool {
    let is_name = |c: char| c.is_alphanumeric() || c == '_';
    code.match_indices(word).any(|(at, _)| {
        !code[..at].chars().next_back().is_some_and(is_name) && !code[at + word.len()..].chars().next().is_some_and(is_name)
    })
}

#[test]
fn arrows_between_modules_run_one_way() {
    for source in sources() {
        let known = MODULES.iter().find(|(module, _)| *module == source.module);
        let (_, may_know) =
            known.unwrap_or_else(|| panic!("{} is in a module that this test does not list", source.path.display()));
        for other in names_after(&source.code, "crate::") {
            let is_module = MODULES.iter().any(|(module, _)| *module == other);
            let is_allowed = other == source.module || may_know.contains(&other) || !is_module;
            assert!(is_allowed, "{} knows the module {other}", source.path.display());
        }
        assert!(!source.code.contains("use crate::{"), "{}: name each module in a line of its own", source.path.display());
    }
}

#[test]
fn only_the_window_knows_the_toolkit() {
    for source in sources().iter().filter(|s| s.module != "window") {
        for name in ["egui", "eframe", "egui_plot", "egui_extras", "winit", "rfd", "arboard"] {
            assert!(!has_word(&source.code, name), "{} names {name}", source.path.display());
        }
    }
}

#[test]
fn only_the_disk_writes_and_inner_modules_know_no_world() {
    for source in sources() {
        let path = source.path.display();
        if source.module != "disk" {
            for name in ["fs::write", "fs::rename", "fs::remove_file", "File::create", "OpenOptions", "tempfile"] {
                assert!(!source.code.contains(name), "{path} writes: {name}");
            }
        }
        let is_outer = ["disk", "command_line", "window"].contains(&source.module.as_str());
        if !is_outer {
            for name in ["std::fs", "std::env", "std::net", "std::process", "SystemTime", "Instant", "stdout", "stderr", "rayon"]
                .into_iter()
                // The pictures of a sequence do not know one another, and are put in order again.
                .filter(|name| *name != "rayon" || source.module != "publish")
            {
                assert!(!has_word(&source.code, name), "{path} reaches outside: {name}");
            }
        }
    }
}

/// A u that is doubled by hand in some code: `2.0 * weight.u`, `2.0 * way_u`.
fn doubled_uncertainties(code: &str) -> Vec<&str> {
    let is_path = |c: char| c.is_alphanumeric() || matches!(c, '_' | '.');
    let factors = code.split("2.0 * ").skip(1).map(|rest| rest.split(|c| !is_path(c)).next().unwrap_or_default());
    factors
        .filter(|name| *name == "u" || name.rsplit_once('.').is_some_and(|(_, last)| last == "u") || name.ends_with("_u"))
        .collect()
}

#[test]
fn the_coverage_factor_is_said_once() {
    assert_eq!(doubled_uncertainties("a > 2.0 * b.u && 2.0 * way_u + 2.0 * u - 2.0 * menu * 2.0 * b.u2"), ["b.u", "way_u", "u"]);
    for source in sources() {
        let found = doubled_uncertainties(&source.code);
        let path = source.path.display();
        assert!(found.is_empty(), "{path} doubles {found:?}: `expanded` and `is_clear` of units/measured.rs do that");
    }
}

#[test]
fn no_exporter_knows_another() {
    let sources = sources();
    let siblings: Vec<&Source> = sources.iter().filter(|s| s.module == "publish" && !s.path.ends_with("mod.rs")).collect();
    let stems: Vec<String> = siblings.iter().map(|s| s.path.file_stem().unwrap().to_string_lossy().into_owned()).collect();
    let exporters = ["svg", "png", "pdf", "html", "csv", "markdown", "apng", "gif"];
    for source in siblings.iter().filter(|s| exporters.iter().any(|e| s.path.file_stem().is_some_and(|stem| stem == *e))) {
        for other in names_after(&source.code, "super::").into_iter().chain(names_after(&source.code, "crate::publish::")) {
            let is_exporter = stems.iter().any(|stem| stem == other) && exporters.contains(&other);
            assert!(!is_exporter, "{} knows the exporter {other}", source.path.display());
        }
    }
}

#[test]
fn colours_live_in_the_palette_and_the_theme() {
    for source in sources() {
        if source.path.ends_with("drawing/palette.rs") || source.path.ends_with("window/theme.rs") {
            continue;
        }
        let is_literal = |rest: &str| {
            let digits = rest.bytes().take_while(u8::is_ascii_hexdigit).count();
            digits == 6 || digits == 8
        };
        let path = source.path.display();
        assert!(!source.code.split('#').skip(1).any(is_literal), "{path} holds a colour");
        for name in ["from_rgb", "from_rgba_unmultiplied", "from_gray", "Color32::RED", "Color32::WHITE", "Color32::BLACK"] {
            assert!(!source.code.contains(name), "{path} makes a colour: {name}");
        }
    }
}
