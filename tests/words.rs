//! The language: phrases that were retired occur nowhere in what a user reads.
//!
//! What is read is: every text in the sources outside tests (labels, tooltips, notices, sentences, errors), the help of
//! every command, what the sample comparison comes to in metric units and in inches, and the pages about the program.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use spandrel::lineup::{Block, Findings, Lineup, Sheet, read_lineup};
use spandrel::units::System;

/// Phrases, small letters, and what is said in their place. A phrase is found at word boundaries, in any case.
const RETIRED: &[(&str, &str)] = &[
    // Settings and menus.
    ("on one footing", "Common settings"),
    ("stand together", "Align at"),
    ("standing together", "Aligned at"),
    ("tyre on all: as drawn", "Same tyre on all: as published"),
    ("tyres as drawn", "tyres as published"),
    ("factor for other sizes", "Weight factor per size"),
    ("stated factor", "your factor"),
    ("other sizes, all weights", "Converting weights to another size"),
    ("take in a table", "Paste or import a geometry table"),
    ("take it into the line-up", "Import"),
    ("tables taken in", "tables imported"),
    ("spandrel take", "spandrel import"),
    ("spandrel comparison", "spandrel extract"),
    ("take out", "extract"),
    ("takes out", "extracts"),
    ("take the nearest sizes", "Use the closest sizes"),
    ("nearest sizes", "closest sizes"),
    ("further away", "Zoom out"),
    ("as the desktop", "Follow the system"),
    ("normal text", "Reset text size"),
    ("took back", "Undid"),
    ("take back", "undo"),
    ("put all notices away", "Dismiss all"),
    ("puts all notices away", "Dismiss all"),
    ("puts this notice away", "Dismisses this notice"),
    ("broke off", "failed, or was stopped"),
    ("parted by tabs", "tab-separated"),
    ("write over", "Replace"),
    ("or does not.", "Shows or hides …"),
    // Sheets.
    ("on slate", "Dark background"),
    ("chalk", "light lines"),
    ("true pixels", "Actual size (100 %)"),
    ("what stands on it", "Contents"),
    ("pictures a second", "Frames per second"),
    ("telephone", "phone"),
    ("moving pictures", "animation"),
    ("have no room", "do not fit"),
    ("has no room", "does not fit"),
    ("had no room", "did not fit"),
    ("had room", "did not fit"),
    ("over one another", "overlaid"),
    // Views.
    ("position view", "Stack and reach"),
    ("room view", "Bags"),
    ("hands view", "Contact points"),
    ("worth view", "Price and climb"),
    ("table view", "Frameset"),
    ("trust view", "Check"),
    ("sheet view", "Publish"),
    // Figures, and how sure they are.
    ("in doubt", "probably a misprint, or doubtful"),
    ("suspect", "doubtful figure"),
    ("set aside", "ignored"),
    ("setting it aside", "ignoring it"),
    ("do not believe it", "Ignore"),
    ("take back in", "Use again"),
    ("taking back in", "using again"),
    ("leans on", "partly assumed"),
    ("lean on", "partly assumed"),
    ("leaning on", "partly assumed"),
    ("not determined", "unknown (needs …)"),
    ("within its ±", "no clear difference"),
    ("of its square", "… causes 48 % of the uncertainty"),
    ("contradict", "is doubtful: …"),
    ("witness", "another figure"),
    ("accuse", "is doubtful"),
    ("honest", "(left out)"),
    ("along the axis", "along the steering axis"),
    ("chainstay, level", "Chainstay, horizontal"),
    ("front centre, level", "Front centre, horizontal"),
    ("tube thickness", "tube diameter"),
    ("cannot be meant", "is not a valid …"),
    ("is no valid", "is not a valid …"),
    // Bags.
    ("room in the triangle", "frame-bag space"),
    ("whole triangle", "full frame bag"),
    ("clear of the tubes", "gap to tubes"),
    ("strip between the sides", "gusset"),
    // Parts, fork and contact points.
    ("same hands", "Same hand position"),
    ("over the top tube", "Standover clearance"),
    ("pedal to front tyre", "Toe-overlap clearance"),
    ("saddle behind the post", "Saddle setback from post"),
    ("feet held to the pedals", "clipped in"),
    ("unmet", "not met"),
    ("is sprung by", "stays are spread (cold-set)"),
    ("are sprung by", "stays are spread (cold-set)"),
    ("from the cellar", "parts you own"),
    ("what you have", "parts you own"),
    ("a forum's list", "trade practice, unverified"),
    // Weight, price and climb.
    ("the sums", "Workings"),
    ("what moves besides", "Rider, luggage and other parts"),
    ("turns of the cranks", "Cadence"),
    ("grams cost nothing", "lighter and cheaper"),
    ("saves no gram", "cheaper but heavier"),
    ("nobody can tell", "too close to call"),
    ("sure to 99.7", "99.7 % certain"),
    ("beaten by nobody", "nothing shown is both lighter and cheaper"),
    ("nobody holds a power", "Real riders vary more"),
    ("steers quicker", "has less trail"),
    ("steers slower", "has more trail"),
    // The pages for contributors.
    ("for whoever carries on", "For contributors"),
];

/// Where a retired phrase stands for good: phrase, file, why.
const KEPT: &[(&str, &str, &str)] = &[
    ("suspect", "docs/command-line.md", "that column"),
    ("suspect", "docs/json.md", "a key of the JSON"),
    ("suspect", "src/command_line/figures.rs", "a column of the CSV; columns and keys that exist are kept"),
    ("spandrel comparison", "src/publish/carried.rs", "the keyword under which published pictures carry their comparison"),
    ("room in the triangle", "src/lineup/sheet/caption_key.rs", "the former key of an edited caption, still understood"),
    ("telephone", "src/lineup/sheet/settings.rs", "the former name of a sheet, still understood"),
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The retired phrases in a text, in small letters and with single blanks between words.
fn found(text: &str) -> Vec<(&'static str, &'static str)> {
    let text = text.to_lowercase().replace('’', "'").split_whitespace().collect::<Vec<_>>().join(" ");
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    let stands_in = |phrase: &str| {
        text.match_indices(phrase).any(|(at, _)| {
            let (before, after) = (text[..at].chars().next_back(), text[at + phrase.len()..].chars().next());
            let is_whole_end = !phrase.ends_with(char::is_alphanumeric) || !is_letter(after);
            !is_letter(before) && (is_whole_end || is_inflected(phrase, &text[at + phrase.len()..]))
        })
    };
    RETIRED.iter().copied().filter(|(phrase, _)| stands_in(phrase)).collect()
}

/// Whether a phrase of one word goes on as a form of the same word: "contradicts", "suspected".
fn is_inflected(phrase: &str, rest: &str) -> bool {
    let ending: String = rest.chars().take_while(|c| c.is_alphanumeric()).collect();
    !phrase.contains(' ') && ["s", "ed", "d", "es", "ing", "ion"].contains(&ending.as_str())
}

/// The retired phrases in some texts of one place.
fn problems<'a>(place: &str, texts: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let mut problems = Vec::new();
    for text in texts {
        for (phrase, now) in found(text) {
            let problem = format!("{place}: “{phrase}” is now “{now}”, in: {}", shortened(text, phrase));
            if !KEPT.iter().any(|(known, at, _)| *known == phrase && *at == place) {
                problems.push(problem);
            }
        }
    }
    problems
}

fn shortened(text: &str, phrase: &str) -> String {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let at = text.to_lowercase().find(phrase).unwrap_or_default();
    let from = text.char_indices().map(|(i, _)| i).rfind(|i| i + 60 <= at).unwrap_or_default();
    text[from..].chars().take(160).collect()
}

#[track_caller]
fn none(problems: &[String]) {
    assert!(problems.is_empty(), "{} retired phrases:\n{}", problems.len(), problems.join("\n"));
}

/// The texts between quotes in some code, without comments and without what stands behind the first test module.
fn texts_of(code: &str) -> Vec<String> {
    let code = code.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let mut texts = Vec::new();
    let chars: Vec<char> = code.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    let mut i = 0;
    while i < chars.len() {
        match at(i) {
            '/' if at(i + 1) == '/' => {
                while i < chars.len() && at(i) != '\n' {
                    i += 1;
                }
            }
            'r' if (at(i + 1) == '"' || at(i + 1) == '#' && at(i + 2) == '"') && !at(i.wrapping_sub(1)).is_alphanumeric() => {
                let hash = at(i + 1) == '#';
                i += if hash { 3 } else { 2 };
                let mut text = String::new();
                while i < chars.len() && !(at(i) == '"' && (!hash || at(i + 1) == '#')) {
                    text.push(at(i));
                    i += 1;
                }
                texts.push(text);
                i += 1;
            }
            '\'' if at(i + 1) == '\\' => {
                i += 3;
                while i < chars.len() && at(i) != '\'' {
                    i += 1;
                }
                i += 1;
            }
            '\'' if at(i + 2) == '\'' => i += 3,
            '"' => {
                i += 1;
                let mut text = String::new();
                while i < chars.len() && at(i) != '"' {
                    if at(i) == '\\' {
                        i += 1;
                        // A line that goes on leaves nothing behind, and what else is escaped is no letter.
                        if at(i) == '\n' {
                            while at(i + 1).is_whitespace() {
                                i += 1;
                            }
                        } else if at(i) == '\'' || at(i) == '"' {
                            text.push(at(i));
                        } else if at(i) == 'u' {
                            text.push(' ');
                            while at(i) != '}' {
                                i += 1;
                            }
                        } else {
                            text.push(' ');
                        }
                    } else {
                        text.push(at(i));
                    }
                    i += 1;
                }
                texts.push(text);
                i += 1;
            }
            _ => i += 1,
        }
    }
    texts
}

fn sources(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let is_test = name == "tests" || name == "tests.rs" || name.ends_with("_tests.rs");
        if path.is_dir() && !is_test {
            sources(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") && !is_test {
            into.push(path);
        }
    }
}

#[test]
fn no_text_of_the_sources_holds_a_retired_phrase() {
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    files.sort();
    let mut count = 0;
    let mut all = Vec::new();
    for file in files {
        let texts = texts_of(&fs::read_to_string(&file).unwrap());
        count += texts.len();
        let place = file.strip_prefix(root()).unwrap().to_string_lossy().into_owned();
        all.extend(problems(&place, texts.iter().map(String::as_str)));
    }
    assert!(count > 3_000, "{count} texts were read");
    none(&all);
}

fn program(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_spandrel")).current_dir(root()).args(arguments).output().unwrap();
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn no_help_of_a_command_holds_a_retired_phrase() {
    let mut all = problems("spandrel --help", [program(&["--help"]).as_str()]);
    for command in ["figures", "extract", "pattern", "publish", "import"] {
        let help = program(&[command, "--help"]);
        assert!(help.contains("Usage: spandrel"), "{help}");
        all.extend(problems(&format!("spandrel {command} --help"), [help.as_str()]));
    }
    none(&all);
}

const COMPARISON: &str = "sample-frames/village-library.lineup.ron";

fn comparison(units: System) -> Lineup {
    let mut lineup = read_lineup(&fs::read(root().join(COMPARISON)).unwrap()).unwrap();
    lineup.settings.units = units;
    lineup
}

/// A page's words: without its tags, its style and what is embedded in it.
fn words_of_page(page: &str) -> String {
    let body = page.split_once("<body").map_or(page, |(_, body)| body);
    let mut words = String::new();
    for piece in body.split('<') {
        let (tag, text) = piece.split_once('>').unwrap_or(("", piece));
        let is_words = !["script", "style"].iter().any(|name| tag.starts_with(name));
        if is_words {
            words.push_str(&text.replace("&quot;", "\"").replace("&amp;", "&"));
            words.push(' ');
        }
    }
    words
}

#[test]
fn nothing_that_the_sample_comparison_comes_to_holds_a_retired_phrase() {
    let mut all = Vec::new();
    for (units, name) in [(System::Metric, "metric"), (System::Imperial, "inches")] {
        let lineup = comparison(units);
        let findings = Findings::of(&lineup);
        let sheet = Sheet { contents: Block::ALL.to_vec(), ..Sheet::default() };
        let page = spandrel::publish::sheet_page(&findings, &lineup, &sheet).unwrap();
        let words = words_of_page(&page);
        assert!(words.contains("Drift") && words.len() > 4_000, "{} letters", words.len());
        all.extend(problems(&format!("page, {name}"), [words.as_str()]));
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("sample.lineup.ron");
        fs::write(&file, spandrel::lineup::write_lineup(&lineup).unwrap()).unwrap();
        let answer = program(&["figures", file.to_str().unwrap()]);
        assert!(answer.len() > 2_000);
        all.extend(problems(&format!("figures, {name}"), answer.lines()));
        let json: serde_json::Value = serde_json::from_str(&program(&["figures", "--json", file.to_str().unwrap()])).unwrap();
        let mut texts = Vec::new();
        json_texts(&json, &mut texts);
        assert!(texts.len() > 200);
        all.extend(problems(&format!("figures --json, {name}"), texts));
    }
    none(&all);
}

fn json_texts<'a>(value: &'a serde_json::Value, into: &mut Vec<&'a str>) {
    match value {
        serde_json::Value::String(text) => into.push(text),
        serde_json::Value::Array(values) => values.iter().for_each(|v| json_texts(v, into)),
        serde_json::Value::Object(values) => values.values().for_each(|v| json_texts(v, into)),
        _ => {}
    }
}

#[test]
fn no_page_about_the_program_holds_a_retired_phrase() {
    let mut pages: Vec<PathBuf> = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"].map(|name| root().join(name)).to_vec();
    if let Ok(docs) = fs::read_dir(root().join("docs")) {
        // The table of old and new words holds the old ones.
        let is_page = |path: &PathBuf| path.extension().is_some_and(|e| e == "md") && !path.ends_with("keys.md");
        pages.extend(docs.map(|entry| entry.unwrap().path()).filter(is_page));
    }
    pages.sort();
    let mut all = Vec::new();
    for page in pages {
        let text = fs::read_to_string(&page).unwrap();
        let place = page.strip_prefix(root()).unwrap().to_string_lossy().into_owned();
        all.extend(problems(&place, text.lines()));
    }
    none(&all);
}

/// Commands by their old names answer as before, say the new name in one line, and are in no list.
#[test]
fn old_names_of_commands_still_work_and_say_the_new_one() {
    let folder = tempfile::tempdir().unwrap();
    let table = folder.path().join("table.tsv");
    fs::write(&table, "Size\tS\tM\nStack\t580\t600\nReach\t390\t400\nHead angle\t71.5°\t72°\n").unwrap();
    let svg = folder.path().join("page.svg");
    let lineup = comparison(System::Metric);
    let findings = Findings::of(&lineup);
    let sheet = Sheet::default();
    let scene = spandrel::drawing::sheet_scene(&findings, &lineup, &sheet).scene;
    let file = spandrel::lineup::write_lineup(&lineup).unwrap();
    fs::write(&svg, spandrel::publish::sheet_svg_carrying(&scene, &sheet, &file)).unwrap();
    let (table, svg) = (table.to_str().unwrap(), svg.to_str().unwrap());
    for (old, new, arguments) in [
        ("take", "import", vec![table, "--maker", "Marrowby", "--model", "Drift", "--report"]),
        ("comparison", "extract", vec![svg]),
    ] {
        let run = |name: &str| Command::new(env!("CARGO_BIN_EXE_spandrel")).arg(name).args(&arguments).output().unwrap();
        let (by_old, by_new) = (run(old), run(new));
        assert!(by_old.status.success() && by_new.status.success(), "{}", String::from_utf8_lossy(&by_new.stderr));
        assert!(!by_new.stdout.is_empty());
        assert_eq!(by_old.stdout, by_new.stdout);
        let said = String::from_utf8(by_old.stderr).unwrap();
        assert!(said.contains(&format!("`spandrel {new}`")) && said.lines().count() == 1, "{said}");
        assert!(by_new.stderr.is_empty());
        let help = program(&["--help"]);
        let listed: Vec<&str> = help.lines().filter_map(|line| line.trim_start().split(' ').next()).collect();
        assert!(listed.contains(&new) && !listed.contains(&old), "{help}");
    }
}

/// The test finds what it looks for, and nothing else.
#[test]
fn retired_phrases_are_found_at_word_boundaries_in_any_case() {
    let phrases = |text: &str| found(text).into_iter().map(|(phrase, _)| phrase).collect::<Vec<_>>();
    assert_eq!(phrases("On One\n  Footing: stood"), ["on one footing"]);
    assert_eq!(phrases("The others contradict it, and contradicted it before."), ["contradict"]);
    assert_eq!(phrases("Dishonest words, a common settings panel, and retake outside."), Vec::<&str>::new());
    assert_eq!(phrases("Draws the wheels, or does not."), ["or does not."]);
    let code = "/// take out\nlet a = \"set \\\n    aside\"; // \"suspect\"\nlet b = ['\"', '\\''];\nlet c = r#\"unmet \"x\"#;\n\
                #[cfg(test)]\nmod tests { const T: &str = \"took back\"; }";
    let texts = texts_of(code);
    assert_eq!(texts.iter().flat_map(|t| phrases(t)).collect::<Vec<_>>(), ["set aside", "unmet"]);
}
