//! The fuzz targets' corpora, replayed: each file that a fuzzer's run was worth keeping, read by its target as bytes are
//! read there. Small, because it is only added to.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

#[path = "fuzz/src/lib.rs"]
#[allow(unreachable_pub, dead_code, reason = "it is a library for the fuzzer's binaries")]
mod targets;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn corpora() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus")
}

#[test]
fn every_kept_input_is_answered() {
    for (name, target) in targets::TARGETS {
        let mut files: Vec<PathBuf> = fs::read_dir(corpora().join(name)).unwrap().map(|e| e.unwrap().path()).collect();
        files.sort();
        assert!(!files.is_empty(), "{name} has a corpus");
        let bytes: u64 = files.iter().map(|file| fs::metadata(file).unwrap().len()).sum();
        assert!(bytes < 40_000, "the corpus of {name} has {bytes} bytes: keep it small");
        for file in files {
            // Said before it is tried, so that a panic has its file.
            println!("{name}: {}", file.display());
            target(&fs::read(file).unwrap());
        }
    }
}

#[test]
fn each_target_has_its_binary_its_corpus_and_its_place_in_the_script() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz");
    let names = |folder: PathBuf| -> BTreeSet<String> {
        fs::read_dir(folder).unwrap().map(|e| e.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned()).collect()
    };
    let targets: BTreeSet<String> = targets::TARGETS.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(names(root.join("src/bin")), targets);
    assert_eq!(names(corpora()), targets);
    let script = fs::read_to_string(root.join("run")).unwrap();
    for name in &targets {
        assert!(script.split(['(', ')', ' ', '\n']).any(|word| word == name), "{name} in tests/fuzz/run");
    }
}
