//! What every file of the project keeps to: a size to be read, a beginning that says what it is, nothing left for later,
//! and no path of the machine that it was written on. Which room knows which is held elsewhere (`architecture.rs`).

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

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn files_under(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            if path.file_name().is_some_and(|n| n != "target") {
                files_under(&path, into);
            }
        } else {
            into.push(path);
        }
    }
}

/// Sources under `src`, by their path from the crate's folder, with their text.
fn sources() -> Vec<(String, String)> {
    let mut files = Vec::new();
    files_under(&root().join("src"), &mut files);
    files.retain(|f| f.extension().is_some_and(|e| e == "rs"));
    files.sort();
    assert!(files.len() > 30, "the sources are where this test looks for them");
    let named = |file: &PathBuf| file.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
    files.iter().map(|file| (named(file), fs::read_to_string(file).unwrap())).collect()
}

#[test]
fn files_are_of_a_size_to_be_read() {
    let lengths = sources().into_iter().map(|(path, text)| (text.lines().count(), path));
    let long: Vec<(usize, String)> = lengths.filter(|(lines, _)| *lines > 600).collect();
    assert!(long.is_empty(), "{long:#?}");
}

#[test]
fn files_are_named_for_what_they_hold() {
    let vague = ["util", "utils", "helper", "helpers", "manager", "common", "misc"];
    let is_vague = |path: &str| path.trim_end_matches(".rs").split('/').any(|part| vague.contains(&part));
    let found: Vec<String> = sources().into_iter().map(|(path, _)| path).filter(|path| is_vague(path)).collect();
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn every_module_opens_with_what_it_is() {
    let is_silent = |text: &str| !text.trim_start().starts_with("//!");
    let silent: Vec<String> = sources().into_iter().filter(|(_, text)| is_silent(text)).map(|(path, _)| path).collect();
    assert!(silent.is_empty(), "{silent:#?}");
}

#[test]
fn nothing_is_left_for_later() {
    let words = ["todo!", "unimplemented!", "dbg!", "FIXME", "TODO", "unsafe {", "#[ignore", "should_panic"];
    let mut found = Vec::new();
    for (path, text) in sources() {
        found.extend(words.iter().filter(|w| text.contains(**w)).map(|w| format!("{path}: {w}")));
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn no_path_of_a_machine() {
    let mut files = Vec::new();
    for folder in ["src", "tests", "sample-frames", "benches", "docs"] {
        files_under(&root().join(folder), &mut files);
    }
    files.extend(["README.md", "DEVELOPERS.md", "CHANGELOG.md", "Cargo.toml"].map(|f| root().join(f)));
    // Written apart, so that this file passes.
    let paths = ["home", "work", "Users", "root"].map(|folder| format!("/{folder}/"));
    let mut found = Vec::new();
    for file in files {
        // Pictures are no text.
        let Ok(text) = fs::read_to_string(&file) else { continue };
        for (number, line) in text.lines().enumerate() {
            if paths.iter().any(|p| line.contains(p.as_str())) || line.contains(&format!("C:{}", '\\')) {
                found.push(format!("{}:{}: {line}", file.display(), number + 1));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
