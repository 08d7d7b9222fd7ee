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

mod code;

use std::collections::{BTreeMap, BTreeSet};

use code::{Graph, Source, circles, code_of, names_after, sources};

/// The modules from the innermost outwards, each with those it may know. Modules of one kind of finding stand side by
/// side: none of them knows another. `command_line` is the program's, all others are the library's.
const MODULES: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("frameset", &["units"]),
    ("geometry", INNER),
    ("loaded", SIDE),
    ("luggage", SIDE),
    ("money", SIDE),
    ("parts", SIDE),
    ("riding", SIDE),
    ("weight", SIDE),
    ("lineup", FINDINGS),
    ("words", &["units", "frameset", "geometry", "loaded", "luggage", "money", "parts", "riding", "weight", "lineup"]),
    ("drawing", &["units", "frameset", "geometry", "loaded", "luggage", "money", "parts", "riding", "weight", "lineup", "words"]),
    (
        "publish",
        &[
            "units", "frameset", "geometry", "loaded", "luggage", "money", "parts", "riding", "weight", "lineup", "words",
            "drawing",
        ],
    ),
    ("disk", &["units", "frameset", "lineup"]),
    ("command_line", ALL),
    ("window", ALL),
];
const INNER: &[&str] = &["units", "frameset"];
const SIDE: &[&str] = &["units", "frameset", "geometry"];
const FINDINGS: &[&str] = &["units", "frameset", "geometry", "loaded", "luggage", "money", "parts", "riding", "weight"];
const ALL: &[&str] = &[
    "units", "frameset", "geometry", "loaded", "luggage", "money", "parts", "riding", "weight", "lineup", "words", "drawing",
    "publish", "disk",
];

/// Whether a word stands in some code by itself.
fn has_word(code: &str, word: &str) -> bool {
    let is_name = |c: char| c.is_alphanumeric() || c == '_';
    code.match_indices(word).any(|(at, _)| {
        !code[..at].chars().next_back().is_some_and(is_name) && !code[at + word.len()..].chars().next().is_some_and(is_name)
    })
}

#[test]
fn arrows_between_modules_run_one_way() {
    let sources = sources();
    let graph = Graph::of(&sources);
    for source in &sources {
        let known = MODULES.iter().find(|(module, _)| *module == source.module);
        let (_, may_know) =
            known.unwrap_or_else(|| panic!("{} is in a module that this test does not list", source.path.display()));
        for other in graph.modules_named(source) {
            let is_allowed = other == source.module || may_know.contains(&other.as_str());
            assert!(is_allowed, "{} knows the module {other}", source.path.display());
        }
    }
}

/// The most files that may lead to one another.
const LARGEST_CIRCLE: usize = 3;

/// Circles that are larger, each by its files, its reason, and how many they are. The list only shrinks.
const LARGER_CIRCLES: &[(&str, usize, &str)] = &[];

#[test]
fn files_that_lead_to_one_another_are_few() {
    let sources = sources();
    let graph = Graph::of(&sources);
    let known: BTreeMap<_, _> = sources.iter().map(|s| (s.place.clone(), graph.known_to(s))).collect();
    let mut allowed: BTreeSet<&str> = LARGER_CIRCLES.iter().map(|(file, _, _)| *file).collect();
    for circle in circles(&known).into_iter().filter(|c| c.len() > LARGEST_CIRCLE) {
        let files: Vec<String> = circle.iter().map(|place| place.join("/")).collect();
        let found = LARGER_CIRCLES.iter().find(|(file, _, _)| files.iter().any(|f| f == file));
        assert!(found.is_some_and(|(_, most, _)| files.len() <= *most), "a circle of {}: {files:?}", files.len());
        found.map(|(file, _, _)| allowed.remove(file));
    }
    assert!(allowed.is_empty(), "these circles are gone: {allowed:?}");
}

/// What the core is built from: all that another program builds with it when it asks for no feature.
const CORE: &[&str] = &[
    "geo",
    "iso_currency",
    "libm",
    "nalgebra",
    "ron",
    "rust_decimal",
    "serde",
    "serde_json",
    "sha2",
    "strsim",
    "tempfile",
    "thiserror",
    "ttf-parser",
];

/// The lines of a section of the manifest, without comments.
fn section<'a>(manifest: &'a str, name: &str) -> Vec<&'a str> {
    let after = manifest.split_once(&format!("\n[{name}]\n")).unwrap().1;
    after.lines().take_while(|l| !l.starts_with('[')).filter(|l| !l.is_empty() && !l.starts_with('#')).collect()
}

#[test]
fn the_core_needs_few_crates_and_no_feature_is_left_out_by_default() {
    let manifest = include_str!("../Cargo.toml");
    let dependencies = section(manifest, "dependencies");
    let needed = dependencies.iter().filter(|l| !l.contains("optional = true")).map(|l| l.split(' ').next().unwrap());
    assert_eq!(needed.collect::<Vec<_>>(), CORE, "a crate that a feature needs is optional");
    let features = section(manifest, "features").join(" ");
    let (default, others) = features.split_once(']').unwrap();
    for name in others.split(']').filter_map(|f| f.split_once(" = [")).map(|(name, _)| name.trim()) {
        assert!(default.contains(&format!("\"{name}\"")), "{name} is not built by default: its tests would be skipped");
    }
}

/// The files of made-up code, by their places.
fn made_up(files: &[(&str, &str)]) -> Vec<Source> {
    let source = |(place, code): &(&str, &str)| Source {
        module: place.split('/').next().unwrap_or_default().to_owned(),
        place: place.split('/').map(str::to_owned).collect(),
        path: if files.iter().any(|(other, _)| other.starts_with(&format!("{place}/"))) {
            format!("{place}/mod.rs").into()
        } else {
            format!("{place}.rs").into()
        },
        code: code_of(code),
    };
    files.iter().map(source).collect()
}

#[test]
fn paths_are_led_to_the_files_that_define_what_they_name() {
    let sources = made_up(&[
        ("outer", "mod front;\nmod back;\npub use front::Front;\npub(crate) const MOST: usize = 3;"),
        ("outer/front", "use super::back::{self, Back as Rear};\npub struct Front(Rear, back::Wheel);"),
        ("outer/back", "use super::Front;\nuse super::super::inner::deep::{Deep, Other};\nfn f(_: super::Hub) {}"),
        ("inner", "pub mod deep;\nfn f() { deep::call(); }"),
        (
            "inner/deep",
            "// use crate::outer::Front;\n#[cfg(test)]\nmod some_tests;\nfn f() -> &'static str { \"crate::outer::X\" }",
        ),
        (
            "inner/late",
            "#[cfg(test)]\nmod some_tests;\n\nuse crate::outer::MOST;\n\n#[cfg(test)]\nmod tests {\n    use crate::weight::X;\n}\nfn g() { crate::outer::back::f() }",
        ),
    ]);
    let graph = Graph::of(&sources);
    let known = |at: usize| -> Vec<String> { graph.known_to(&sources[at]).iter().map(|p| p.join("/")).collect() };
    assert_eq!(known(0), Vec::<String>::new(), "what a front hands on, it does not know");
    assert_eq!(known(1), ["outer/back"]);
    assert_eq!(known(2), ["inner/deep", "outer", "outer/front"]);
    assert_eq!(known(3), ["inner/deep"]);
    assert_eq!(known(4), Vec::<String>::new(), "comments, tests and texts are no code");
    assert_eq!(known(5), ["outer", "outer/back"], "what follows a module of tests is seen");
    assert_eq!(graph.modules_named(&sources[2]).into_iter().collect::<Vec<_>>(), ["inner", "outer"]);
    let known: BTreeMap<_, _> = sources.iter().map(|s| (s.place.clone(), graph.known_to(s))).collect();
    let found: Vec<Vec<String>> = circles(&known).iter().map(|c| c.iter().map(|p| p.join("/")).collect()).collect();
    assert_eq!(found, [["outer/back", "outer/front"]]);
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

/// Labels of commands that a control of another kind has too, by file: what it is there.
const LABELS_OF_OTHERS: &[(&str, &str, &str)] = &[
    ("window/labels/notices.rs", "Line-up", "the desktop's name for a kind of file"),
    ("window/labels/line_up.rs", "Line-up", "the heading of a panel"),
    ("window/labels/questions.rs", "Save", "the answer to a question"),
    ("window/labels/publish.rs", "Zoom to fit", "how large a sheet is shown, beside Actual size"),
];

/// The texts between double quotes in some code, as they are written.
fn literals(code: &str) -> Vec<&str> {
    code.split('"').skip(1).step_by(2).collect()
}

#[test]
fn labels_of_commands_stand_in_the_table_alone() {
    let sources = sources();
    let table = sources.iter().find(|s| s.path.ends_with("window/labels/commands.rs")).unwrap();
    let is_label = |text: &&str| text.starts_with(char::is_uppercase) && text.chars().count() <= 40 && !text.ends_with('.');
    let labels: BTreeSet<&str> = literals(&table.code).into_iter().filter(is_label).collect();
    assert!(labels.len() > 40 && labels.contains("Zoom to fit"), "the table is read: {labels:?}");
    for source in sources.iter().filter(|s| s.module == "window" && s.path != table.path) {
        let path = source.path.to_string_lossy();
        for label in literals(&source.code).into_iter().filter(|text| labels.contains(text)) {
            let is_other = LABELS_OF_OTHERS.iter().any(|(file, other, _)| *file == path && *other == label);
            assert!(is_other, "{path} writes “{label}”: a control of a command takes its label from `commands::about`");
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

/// Files of the window that may change its document, session and moment.
fn changes_state(name: &str) -> bool {
    name.starts_with("apply") || ["document.rs", "session.rs", "moment.rs"].contains(&name)
}

/// Where some code sets or lends out part of the document, the session or the moment of the window, or calls one of these
/// methods of theirs. What a dialog holds is edited in place while it stands open: `self.moment.question` may be lent.
fn changes_of_state<'a>(code: &'a str, methods: &BTreeSet<String>) -> Vec<&'a str> {
    let is_path = |c: char| c.is_alphanumeric() || matches!(c, '_' | '.');
    let mut found = Vec::new();
    for part in ["document", "session", "moment", "table"] {
        for (at, _) in code.match_indices(&format!("self.{part}")) {
            let path = code[at..].split(|c| !is_path(c)).next().unwrap_or_default();
            if path.split('.').nth(1) != Some(part) {
                continue;
            }
            let after = code[at + path.len()..].trim_start();
            let is_set = after.starts_with('=') && !after.starts_with("==") && !after.starts_with("=>");
            let is_added = ["+=", "-=", "*=", "/="].iter().any(|sign| after.starts_with(sign));
            let is_called = after.starts_with('(') && path.rsplit('.').next().is_some_and(|last| methods.contains(last));
            let is_lent = code[..at].ends_with("&mut ") && path != "self.moment.question";
            if is_set || is_added || is_called || is_lent {
                found.push(path);
            }
        }
    }
    found
}

/// Methods that take `&mut self`, and those of collections that change them.
fn changing_methods(code: &str) -> BTreeSet<String> {
    let own =
        code.split("fn ").skip(1).filter(|rest| rest.split_once('(').is_some_and(|(_, rest)| rest.starts_with("&mut self")));
    let own = own.filter_map(|rest| rest.split(['(', '<']).next());
    own.chain(["clear", "push", "pop", "insert", "remove", "retain", "take", "extend"]).map(str::to_owned).collect()
}

#[test]
fn the_state_of_the_window_is_changed_where_requests_are_applied() {
    let methods = changing_methods("fn look(&self) {} fn edit(&mut self, edit: Edit) {}");
    let code = "self.moment.zoom = 1.0; self.moment.zoom == 1.0; self.document.edit(e); self.document.look(); f(&mut self.session); \
                f(&mut self.moment.question); self.moment.notices.clear(); match self.table.0 { _ => self.moment.zoom += 1.0 }";
    assert_eq!(
        changes_of_state(code, &methods),
        ["self.document.edit", "self.session", "self.moment.zoom", "self.moment.notices.clear", "self.moment.zoom"]
    );
    let sources = sources();
    let window = || sources.iter().filter(|s| s.module == "window");
    let name = |s: &Source| s.path.file_name().unwrap().to_string_lossy().into_owned();
    let state: String =
        window().filter(|s| changes_state(&name(s)) && !name(s).starts_with("apply")).map(|s| s.code.as_str()).collect();
    let methods = changing_methods(&state);
    assert!(["undo", "remember", "notify", "edit"].iter().all(|m| methods.contains(*m)), "the methods are found: {methods:?}");
    let mut applied = 0;
    for source in window() {
        let found = changes_of_state(&source.code, &methods);
        if name(source).starts_with("apply") {
            applied += found.len();
        } else if !changes_state(&name(source)) {
            assert!(found.is_empty(), "{} changes {found:?}: only `window/apply*.rs` changes the state", source.path.display());
        }
    }
    assert!(applied > 30, "changes are seen where they are: {applied}");
}
