//! Where numbers come from: each source is a standard, law or paper by its name, our own measurement, or "trade practice,
//! unverified". No shop, periodical or page of anybody stands in for one.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use std::fs;
use std::path::{Path, PathBuf};

use spandrel::frameset::read_frameset;
use spandrel::geometry::adjust;
use spandrel::parts::contact_points::TOE_LIMITS;
use spandrel::parts::standards::{
    BORES, BY_WIDTH, CLAMPS, GAPS, HUBS, LEAST_INSERTION, MountKind, NAMES, POST_DIAMETERS, ROTORS, SHELLS, SPACINGS, STEERERS,
};
use spandrel::parts::{Candidate, Part, PartKind, PartsList, Source, Statements, check};
use spandrel::words::source_text;

/// Bodies whose standards and laws are named, as they stand before a number.
const BODIES: [&str; 4] = ["ISO ", "EN ", "JIS ", "16 CFR "];

/// What no source is.
const RETIRED: [&str; 20] = [
    "forum",
    "magazine",
    "charity",
    "vendor",
    "toolmaker",
    "encyclop",
    "usual table",
    "on the web",
    "workshop page",
    "workshop column",
    "repair guide",
    "spec guide",
    "specification guide",
    "shop guide",
    "shop's",
    "public catalogue",
    "data sheet",
    "launch text",
    "common practice",
    "no source",
];

/// Whether a text names a standard or law: its body, then its number.
fn names_a_standard(text: &str) -> bool {
    BODIES.iter().any(|body| {
        text.strip_prefix(body).is_some_and(|rest| rest.trim_start_matches("D ").starts_with(|c: char| c.is_ascii_digit()))
    })
}

/// Whether a source's words take one of the forms.
fn is_sound(source: Source) -> bool {
    let words = source_text(source);
    let has_form = match source {
        Source::Standard(text) => words == text && names_a_standard(text),
        Source::TradePractice => words == "trade practice, unverified",
        Source::Maker | Source::Arithmetic => words.ends_with("the maker") || words.ends_with("the maker publishes"),
    };
    has_form && retired_in(words).is_none()
}

/// The first retired phrase in a text, wherever its lines and comments are broken.
fn retired_in(text: &str) -> Option<&'static str> {
    let words = text.split_whitespace().filter(|w| !w.starts_with("//"));
    let flat = words.collect::<Vec<_>>().join(" ").to_lowercase().replace('’', "'").replace("\\'", "'");
    RETIRED.into_iter().find(|phrase| flat.contains(phrase))
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Texts under a folder by their paths; other files are passed over.
fn texts_under(folder: &Path, into: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            if path.file_name().is_some_and(|n| n != "target") {
                texts_under(&path, into);
            }
        } else if let Ok(text) = fs::read_to_string(&path) {
            into.push((path, text));
        }
    }
}

#[test]
fn every_source_of_a_table_takes_one_of_the_forms() {
    let diameters = [ROTORS, CLAMPS, POST_DIAMETERS].concat();
    let mounts = [MountKind::International, MountKind::Post, MountKind::Flat];
    let sources: Vec<Source> = HUBS
        .iter()
        .map(|r| r.source)
        .chain(SHELLS.iter().map(|r| r.source))
        .chain(SPACINGS.iter().map(|r| r.source))
        .chain(BORES.iter().map(|r| r.source))
        .chain(STEERERS.iter().map(|r| r.3))
        .chain(NAMES.iter().map(|r| r.source))
        .chain(BY_WIDTH.iter().map(|r| r.source))
        .chain(GAPS.iter().map(|r| r.source))
        .chain(TOE_LIMITS.iter().map(|r| r.source))
        .chain(diameters.iter().map(|r| r.source))
        .chain(mounts.iter().filter_map(|m| m.bolts_mm()).map(|b| b.1))
        .chain([LEAST_INSERTION])
        .collect();
    assert!(sources.iter().any(|s| matches!(s, Source::Standard(_))) && sources.contains(&Source::TradePractice));
    for source in sources {
        assert!(is_sound(source), "{source:?}");
    }
}

/// Every kind of part in every sample frame, with every fork that a rule asks about.
#[test]
fn every_source_of_a_verdict_takes_one_of_the_forms() {
    let mut frames = Vec::new();
    texts_under(&root().join("sample-frames"), &mut frames);
    let parts = PartKind::ALL.iter().map(|kind| Part::new(*kind, kind.example(), "").unwrap());
    let fork = r#"(length: 485, offset: 46, steerer: "28.6 | 40", hub: "100 x 9 quick release")"#;
    let list = PartsList { parts: parts.collect(), fork: Some(ron::from_str(fork).unwrap()), ..PartsList::default() };
    let mut said = 0;
    for (_, text) in frames.iter().filter(|(path, _)| path.to_string_lossy().ends_with(".frame.ron")) {
        let frameset = read_frameset(text.as_bytes()).unwrap();
        let (statements, adjusted) = (Statements::of(&frameset), adjust(&frameset));
        let candidate = Candidate {
            frameset: &frameset,
            statements: &statements,
            size: adjusted.sizes.first(),
            saddle_height_mm: Some(700.0),
        };
        for verdict in check(&list, &candidate) {
            assert!(is_sound(verdict.outcome.source), "{verdict:?}");
            said += 1;
        }
    }
    assert!(said > 100, "{said}");
}

/// Also those of rules that no sample reaches.
#[test]
fn every_standard_in_the_code_is_named_by_body_and_number() {
    let mut files = Vec::new();
    texts_under(&root().join("src"), &mut files);
    let mut found = 0;
    for (path, text) in &files {
        for rest in text.split("Source::Standard(").skip(1).filter(|rest| rest.trim_start().starts_with('"')) {
            let named = rest.split('"').nth(1).unwrap();
            assert!(names_a_standard(named), "{}: {named}", path.display());
            found += 1;
        }
    }
    assert!(found >= 6, "{found}");
    assert!(!names_a_standard("ISO standards") && !names_a_standard("a page on ISO 5775"));
}

#[test]
fn no_text_names_a_shop_or_a_page_as_a_source() {
    let mut files = Vec::new();
    for folder in ["src", "tests", "benches", "sample-frames"] {
        texts_under(&root().join(folder), &mut files);
    }
    for page in ["README.md", "DEVELOPERS.md", "CHANGELOG.md"] {
        files.push((root().join(page), fs::read_to_string(root().join(page)).unwrap()));
    }
    texts_under(&root().join("docs"), &mut files);
    files.retain(|(path, _)| {
        !path.ends_with("tests/sources.rs") && !path.ends_with("tests/words.rs") && !path.ends_with("Cargo.lock")
    });
    let found: Vec<String> =
        files.iter().filter_map(|(path, text)| retired_in(text).map(|phrase| format!("{}: {phrase}", path.display()))).collect();
    assert!(found.is_empty(), "{found:#?}");
    assert_eq!(retired_in("chainlines: common\n/// practice, unverified"), Some("common practice"), "also over a line's end");
}
