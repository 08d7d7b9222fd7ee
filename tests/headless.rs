//! The built program without its window, as a script meets it: answers, problems, exit status.

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
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use spandrel::frameset::Figure;
use spandrel::frameset::FrameIndex;

fn sample(name: &str) -> PathBuf {
    Path::new("sample-frames").join(format!("{name}.frame.ron"))
}

fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_spandrel"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(arguments).stdin(Stdio::null());
    command
}

fn figures(form: &[&str], files: &[PathBuf]) -> Output {
    program(&["figures"]).args(form).args(files).output().unwrap()
}

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

#[track_caller]
fn json(files: &[PathBuf]) -> Value {
    let output = figures(&["--json"], files);
    assert!(output.status.success() && output.stderr.is_empty(), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

#[track_caller]
fn keys(value: &Value) -> BTreeSet<&str> {
    value.as_object().unwrap_or_else(|| panic!("{value} is no object")).keys().map(String::as_str).collect()
}

fn number(value: &Value) -> f64 {
    let number = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!(number.is_finite());
    number
}

fn strings(value: &Value) -> Vec<&str> {
    value.as_array().unwrap().iter().map(|v| v.as_str().unwrap()).collect()
}

/// The documented shape, for every sample frame: keys, types, units, origins, points; every figure either known or
/// missing.
#[test]
fn json_has_the_documented_shape() {
    let names =
        ["marrowby-drift", "tansett-fourways", "quern-halter", "ellersby-longbarn", "wrenfold-ambler", "hollinshaw-wether"];
    let answer = json(&names.map(sample));
    assert_eq!(keys(&answer), ["frames", "spandrel"].into());
    assert_eq!(answer["spandrel"], env!("CARGO_PKG_VERSION"));
    let known: BTreeSet<&str> = Figure::ALL.iter().map(|f| f.key()).collect();
    let assumptions = [
        "rear_tyre_radius",
        "front_tyre_radius",
        "lower_headset",
        "seat_tube_setback",
        "top_tube_below_head_tube_top",
        "top_tube_below_seat_tube_top",
        "down_tube_above_head_tube_bottom",
    ];
    let frames = answer["frames"].as_array().unwrap();
    assert_eq!(frames.len(), names.len());
    for (frame, name) in frames.iter().zip(names) {
        let mut expected =
            BTreeSet::from(["file", "maker", "model", "money", "price_and_climb", "sizes", "slip_free", "slips", "standards"]);
        expected.extend(frame.get("suspension").map(|suspension| {
            assert!(number(&suspension["travel_mm"]) > 0.0 && number(&suspension["sag_mm"]) == 0.0, "{suspension}");
            "suspension"
        }));
        expected.extend(frame.get("measure").map(|_| "measure"));
        assert_eq!(keys(frame), expected);
        assert_eq!(frame["file"], sample(name).to_string_lossy().as_ref());
        assert!(frame["maker"].is_string() && frame["model"].is_string());
        assert!((0.0..=1.0).contains(&number(&frame["slip_free"])));
        for slip in frame["slips"].as_array().unwrap() {
            assert!(keys(slip).is_superset(&["cells", "kind", "probability", "text", "used"].into()), "{slip}");
            assert!((0.0..=1.0).contains(&number(&slip["probability"])) && slip["used"].is_boolean());
            assert_eq!(slip["kind"] == "assumption", slip.get("assumption").is_some(), "{slip}");
            assert!(slip["text"].as_str().unwrap().ends_with('.'));
            for cell in slip["cells"].as_array().unwrap() {
                assert_eq!(keys(cell), ["expected", "figure", "published", "size"].into());
                assert!(known.contains(cell["figure"].as_str().unwrap()) && number(&cell["expected"]["u"]) > 0.0);
            }
        }
        let sizes = frame["sizes"].as_array().unwrap();
        assert!(sizes.len() >= 3);
        for size in sizes {
            assert_eq!(keys(size), ["bag_space", "figures", "missing", "points", "settled_by", "size", "weights"].into());
            assert!(size["size"].is_string());
            for (key, figure) in size["figures"].as_object().unwrap() {
                let must: BTreeSet<&str> = ["value", "u", "unit", "origin", "assumed"].into();
                let may: BTreeSet<&str> = must.iter().copied().chain(["published", "ignored"]).collect();
                assert!(keys(figure).is_superset(&must) && keys(figure).is_subset(&may), "{key}: {figure}");
                assert!(number(&figure["u"]) >= 0.0);
                number(&figure["value"]);
                assert_eq!(figure["unit"], if key.ends_with("_angle") { "deg" } else { "mm" }, "{key}");
                let origin = figure["origin"].as_str().unwrap();
                assert!(["published", "computed", "assumed"].contains(&origin));
                assert_eq!(origin == "published", figure.get("published").is_some(), "{key}");
                assert!(strings(&figure["assumed"]).iter().all(|a| assumptions.contains(a)), "{figure}");
            }
            let missing: BTreeSet<&str> = strings(&size["missing"]).into_iter().collect();
            let figures = keys(&size["figures"]);
            assert!(missing.is_disjoint(&figures));
            assert_eq!(missing.union(&figures).copied().collect::<BTreeSet<_>>(), known, "every figure is known or missing");
            assert_eq!(keys(&size["settled_by"]), missing);
            let points: BTreeSet<&str> = ["rear_axle", "front_axle", "head_top", "head_bottom", "crown", "seat_top"].into();
            assert!(keys(&size["points"]).is_subset(&points));
            for point in size["points"].as_object().unwrap().values() {
                let [x, y] = point.as_array().unwrap().as_slice() else { panic!("{point} is no pair") };
                assert!(number(x).abs() < 2000.0 && number(y).abs() < 2000.0);
            }
        }
    }
}

/// Figures and points of one size tell of one and the same frame.
#[test]
fn json_is_consistent_with_itself() {
    let answer = json(&[sample("marrowby-drift")]);
    for size in answer["frames"][0]["sizes"].as_array().unwrap() {
        let figure = |key: &str| number(&size["figures"][key]["value"]);
        let point = |key: &str, axis: usize| number(&size["points"][key][axis]);
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-3, "{a} {b}");
        near(point("head_top", 0), figure("reach"));
        near(point("head_top", 1), figure("stack"));
        near(point("rear_axle", 1), figure("bb_drop"));
        near(point("rear_axle", 0).hypot(point("rear_axle", 1)), figure("chainstay"));
        near(point("front_axle", 0) - point("rear_axle", 0), figure("wheelbase"));
        near(figure("trail") * figure("head_angle").to_radians().sin(), figure("mechanical_trail"));
        near(figure("mechanical_trail") * figure("head_angle").to_radians().cos(), figure("wheel_flop"));
        near(figure("rear_tyre_radius") - figure("bb_drop"), figure("bb_height"));
    }
}

#[test]
fn the_misprinted_sample_is_found_out_and_no_other() {
    let answer = json(&[sample("quern-halter")]);
    let slips = answer["frames"][0]["slips"].as_array().unwrap();
    let cell = &slips[0]["cells"][0];
    assert_eq!((&slips[0]["kind"], &cell["figure"], &cell["size"]), (&"slip".into(), &"wheelbase".into(), &"L".into()));
    assert!(number(&slips[0]["probability"]) > 0.9, "{slips:?}");
    // As its neighbours have it, about eleven millimetres less.
    assert!((number(&cell["expected"]["value"]) - 1060.0).abs() < 2.0, "{cell}");
    assert!(slips[1..].iter().all(|s| number(&s["probability"]) < 0.1), "{slips:?}");
    let others =
        ["marrowby-drift", "tansett-fourways", "ellersby-longbarn", "wrenfold-ambler", "brackwater-cob", "hollinshaw-wether"];
    for name in others {
        let frame = &json(&[sample(name)])["frames"][0];
        let doubted = frame["slips"].as_array().unwrap().iter().filter(|s| number(&s["probability"]) >= 0.1).count();
        assert_eq!(doubted, 0, "{name}: {}", frame["slips"]);
    }
}

#[test]
fn the_sparse_sample_says_what_is_missing_and_what_would_settle_it() {
    let answer = json(&[sample("hollinshaw-wether")]);
    for size in answer["frames"][0]["sizes"].as_array().unwrap() {
        let missing = strings(&size["missing"]);
        for figure in ["stack", "reach", "trail", "wheelbase", "fork_offset"] {
            assert!(missing.contains(&figure), "{figure}");
            assert!(size["figures"].get(figure).is_none() && size["points"].get("head_top").is_none());
            assert!(size["settled_by"][figure].is_array());
        }
        let reach: Vec<Vec<&str>> = size["settled_by"]["reach"].as_array().unwrap().iter().map(strings).collect();
        assert!(reach.contains(&vec!["stack"]) && reach.contains(&vec!["reach"]), "{reach:?}");
    }
}

/// All of a line-up's frames are answered, as if their files had been given.
#[test]
fn a_lineup_answers_for_its_frames() {
    let answer = json(&[Path::new("sample-frames").join("village-library.lineup.ron")]);
    let frames = answer["frames"].as_array().unwrap();
    assert!(frames.len() >= 6);
    let drift = frames.iter().find(|f| f["model"] == "Drift").unwrap();
    let alone = &json(&[sample("marrowby-drift")])["frames"][0]["sizes"];
    // Weights and money follow the line-up's settings; the shape does not.
    for (in_lineup, alone) in drift["sizes"].as_array().unwrap().iter().zip(alone.as_array().unwrap()) {
        for key in ["size", "figures", "points", "missing", "settled_by"] {
            assert_eq!(in_lineup[key], alone[key], "{key}");
        }
    }
}

/// Behind its frames' figures a line-up answers what they weigh, cost and do on the climb; in CSV in the same columns.
#[test]
fn a_lineup_answers_with_price_and_climb() {
    let file = [Path::new("sample-frames").join("village-library.lineup.ron")];
    let answer = json(&file);
    let drift = &answer["frames"].as_array().unwrap().iter().find(|f| f["model"] == "Drift").unwrap().clone();
    let plain = |form: &[&str]| text(&figures(form, &file).stdout).replace(['\u{2009}', '\u{a0}'], " ");
    for form in [&[][..], &["--markdown"]] {
        let said = plain(form);
        for words in [
            "E Brackwater Cob 57 is the lightest frameset: 2238 ± 92 g",
            "(99.4 % certain)",
            "E is lighter and cheaper than A: 1553 ± 123 g and 126.00 EUR less.",
            "A Marrowby Drift L takes 1 h 08 min 44 s for 10 km at 5 % with 150 W.",
            "Price, frameset, with tax",
            "Lowest development",
        ] {
            assert!(said.contains(words), "{form:?}: {words} in {said}");
        }
    }
    let records = csv_records(&plain(&["--csv"]));
    let found = |key: &str| {
        let line = records.iter().find(|r| r.len() > 4 && r[2] == "Drift" && r[4] == key);
        line.unwrap_or_else(|| panic!("no line of {key}")).clone()
    };
    let columns = records[0].len();
    assert_eq!(found("price_frameset")[6..9], ["585.00", "", "EUR"]);
    assert_eq!(found("weight_frameset")[8], "g");
    let seconds: f64 = found("climb")[6].parse().unwrap();
    assert!((seconds - drift["price_and_climb"]["climb"]["seconds"].as_f64().unwrap()).abs() < 1e-9);
    assert!(records.iter().all(|r| r.len() == columns || r.len() == 1), "every line has the same columns");
    // A frameset alone is compared with nothing.
    assert!(!text(&figures(&[], &[sample("marrowby-drift")]).stdout).contains("lightest"));
}

#[test]
fn bad_files_are_told_in_a_line_each_and_good_ones_answered() {
    let bad = |name: &str| Path::new("tests").join("bad-files").join(name);
    let files = [
        bad("stack-in-metres.frame.ron"),
        sample("marrowby-drift"),
        bad("format-newer.lineup.ron"),
        PathBuf::from("absent.frame.ron"),
        sample("quern-halter"),
        PathBuf::from("sample-frames"),
    ];
    for form in [&[][..], &["--json"], &["--csv"], &["--markdown"]] {
        let output = figures(form, &files);
        assert_eq!(output.status.code(), Some(1), "{form:?}");
        let problems: Vec<&str> = text(&output.stderr).lines().collect();
        assert_eq!(problems.len(), 4, "{problems:?}");
        let expected = [
            ("stack-in-metres.frame.ron", ":11:24: Stack 0.61 mm is outside 300 to 900 mm: it looks like metres, so write 610"),
            (
                "format-newer.lineup.ron",
                ":3:13: newer format 99: this program knows line-ups up to format 2; open it with a newer Spandrel",
            ),
            ("absent.frame.ron", ": cannot be read: there is no such file or folder"),
            ("sample-frames", ": is a folder, not a file: choose a file in it, such as NAME.frame.ron"),
        ];
        for (problem, (file, sentence)) in problems.iter().zip(expected) {
            assert!(problem.ends_with(&format!("{file}{sentence}")), "{problem}");
        }
        let answer = text(&output.stdout);
        assert!(answer.contains("Drift") && answer.contains("Halter"), "{form:?}: the good files are answered");
    }
    let output = figures(&["--json"], &files);
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answer["frames"].as_array().unwrap().len(), 2);
    // With nothing to answer it is still an answer.
    let output = figures(&["--json"], &files[..1]);
    assert_eq!(serde_json::from_slice::<Value>(&output.stdout).unwrap()["frames"], serde_json::json!([]));
    assert_eq!(output.status.code(), Some(1));
}

/// Records and fields as RFC 4180 has them: read here by hand, so that the writing is held against something else.
fn csv_records(text: &str) -> Vec<Vec<String>> {
    let mut records = vec![vec![String::new()]];
    let mut is_quoted = false;
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        let record = records.last_mut().unwrap();
        match c {
            '"' if is_quoted && rest.peek() == Some(&'"') => {
                rest.next();
                record.last_mut().unwrap().push('"');
            }
            '"' => is_quoted = !is_quoted,
            ',' if !is_quoted => record.push(String::new()),
            '\n' if !is_quoted => records.push(vec![String::new()]),
            _ => record.last_mut().unwrap().push(c),
        }
    }
    assert!(!is_quoted);
    assert_eq!(records.pop(), Some(vec![String::new()]), "the last line ends");
    records
}

#[test]
fn csv_says_the_same_as_json() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("odd, \"name\".frame.ron");
    let odd = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(sample("quern-halter"))).unwrap();
    fs::write(&path, odd.replace("\"Quern\"", "\"=Quern, \\\"& Sons\\\"\\n\"").replace("\"XL\"", "\"-1\"")).unwrap();
    let files = [path];
    let output = figures(&["--csv"], &files);
    assert!(output.status.success());
    let records = csv_records(text(&output.stdout));
    let header = ["file", "maker", "model", "size", "figure", "published", "value", "u", "unit", "origin", "assumed", "suspect"];
    assert_eq!(records[0], header);
    let answer = json(&files);
    let frame = &answer["frames"][0];
    let mut count = 0;
    for record in &records[1..] {
        assert_eq!(record.len(), header.len(), "{record:?}");
        assert_eq!(record[0], files[0].to_string_lossy());
        // A spreadsheet must not take a maker for a formula, and a line break in a name must not break the row.
        assert_eq!(record[1], "'=Quern, \"& Sons\" ");
        let size = frame["sizes"].as_array().unwrap().iter().find(|s| s["size"] == record[3]).unwrap();
        let figure = &size["figures"][&record[4]];
        assert!((record[6].parse::<f64>().unwrap() - number(&figure["value"])).abs() < 1e-4);
        assert!((record[7].parse::<f64>().unwrap() - number(&figure["u"])).abs() < 1e-4);
        assert_eq!((&record[8][..], &record[9][..]), (figure["unit"].as_str().unwrap(), figure["origin"].as_str().unwrap()));
        assert_eq!(record[5].parse::<f64>().ok(), figure.get("published").map(number));
        assert_eq!(record[10], strings(&figure["assumed"]).join(" "));
        let is_here = |s: &&Value| {
            let cells = s["cells"].as_array().unwrap().iter();
            number(&s["probability"]) >= 0.1 && cells.clone().any(|c| c["figure"] == record[4] && c["size"] == record[3])
        };
        let slip = frame["slips"].as_array().unwrap().iter().find(is_here);
        assert_eq!(record[11], slip.map_or("", |s| s["kind"].as_str().unwrap()));
        count += 1;
    }
    let figures: usize = frame["sizes"].as_array().unwrap().iter().map(|s| keys(&s["figures"]).len()).sum();
    assert_eq!(count, figures);
}

#[test]
fn markdown_is_a_table() {
    let output = figures(&["--markdown"], &[sample("marrowby-drift")]);
    assert!(output.status.success());
    let answer = text(&output.stdout);
    assert!(
        answer.starts_with("### Marrowby Drift\n\n| figure | unit | S | M | L | XL |\n|---|---|---:|---:|---:|---:|\n"),
        "{answer}"
    );
    let rows: Vec<&str> = answer.lines().filter(|l| l.starts_with('|')).collect();
    assert!(rows.len() > 20 && rows.iter().all(|r| r.matches('|').count() == 7));
    let stack = rows.iter().find(|r| r.starts_with("| Stack |")).unwrap();
    assert!(stack.contains("| mm |") && stack.matches('±').count() == 4, "{stack}");
}

#[test]
fn text_is_aligned_and_says_what_is_doubtful() {
    let output = figures(&[], &[sample("quern-halter"), sample("hollinshaw-wether")]);
    assert!(output.status.success());
    let answer = text(&output.stdout);
    let doubt = answer
        .lines()
        .find(|l| l.starts_with("L: Wheelbase is published as 1071\u{2009}mm; the other figures give 1059.9"))
        .unwrap();
    assert!(doubt.contains("It is probably a misprint") && doubt.ends_with("It is not used."), "{doubt}");
    assert!(answer.contains("Stack: unknown (needs reach") && answer.contains("Reach: unknown (needs stack"), "{answer}");
    let table: Vec<&str> = answer.lines().skip(1).take_while(|l| !l.starts_with("L: ")).collect();
    let ends: BTreeSet<usize> = table.iter().map(|l| l.chars().count()).collect();
    assert_eq!(ends.len(), 1, "right-aligned columns end together: {answer}");
    assert!(!answer.contains("NaN") && !answer.contains("inf"));
}

/// A reader who has had enough is no problem.
/// Kept as printed, said beside the answer, and nobody's mistake that would stop a script.
#[test]
fn standards_that_are_not_understood_are_said() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("slips.frame.ron");
    let printed = std::fs::read_to_string(sample("marrowby-drift")).unwrap();
    let printed = printed.replace("ZS44/28.6", "EC34/286").replace("RearBrake: \"IS 160-183\"", "RearBrake: \"IS 1800\"");
    assert!(printed.contains("EC34/286") && printed.contains("IS 1800"));
    std::fs::write(&path, printed).unwrap();
    for form in ["--json", "--csv", "--markdown"] {
        let output = figures(&[form], std::slice::from_ref(&path));
        assert!(output.status.success(), "{form}");
        let lines: Vec<&str> = text(&output.stderr).lines().collect();
        assert_eq!(lines.len(), 2, "{lines:?}");
        assert!(lines[0].contains("Marrowby Drift") && lines[0].ends_with("did you mean EC34/28.6?"), "{lines:?}");
    }
    let answer: Value = serde_json::from_slice(&figures(&["--json"], &[path]).stdout).unwrap();
    let notes = strings(&answer["frames"][0]["notes"]);
    assert_eq!(notes.len(), 2);
    assert!(notes[1].ends_with("did you mean 180?"), "{notes:?}");
    assert!(json(&[sample("marrowby-drift")])["frames"][0].get("notes").is_none());
}

#[test]
fn a_broken_pipe_is_harmless() {
    for form in ["--json", "--csv", "--markdown"] {
        let mut child = program(&["figures", form])
            .args(std::iter::repeat_n(sample("marrowby-drift"), 200))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut out = child.stdout.take().unwrap();
        let mut first = [0; 10];
        out.read_exact(&mut first).unwrap();
        drop(out);
        let output = child.wait_with_output().unwrap();
        assert!(output.status.success() && output.stderr.is_empty(), "{form}: {:?} {}", output.status, text(&output.stderr));
    }
}

#[test]
fn odd_arguments_end_in_a_sentence() {
    let help = program(&["--help"]).output().unwrap();
    assert!(help.status.success() && text(&help.stdout).contains("figures"));
    let version = program(&["--version"]).output().unwrap();
    assert_eq!(text(&version.stdout).trim(), concat!("spandrel ", env!("CARGO_PKG_VERSION")));
    for arguments in [
        &["figures"][..],
        &["figures", "--json"],
        &["figures", "--jsn", "a"],
        &["figures", "--json", "--csv", "a"],
        &["figures", "--csv", "--markdown", "a"],
        &["figures", ""],
        &["figures", "-"],
        &["figures", "\u{1b}[31m\nred"],
        &["--windows"],
    ] {
        let output = program(arguments).output().unwrap();
        assert_eq!(output.status.code(), Some(1), "{arguments:?}");
        let problem = text(&output.stderr);
        assert!(!problem.is_empty() && !problem.contains("panicked"), "{arguments:?}: {problem}");
    }
    // A file's name does not paint the terminal or make two lines of one problem.
    let output = program(&["figures", "\u{1b}[31m\nred"]).output().unwrap();
    assert_eq!(text(&output.stderr), "␛[31m red: cannot be read: there is no such file or folder\n");
}

/// Whether a terminal or a page would obey it, or show nothing where it stands.
fn acts(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}');
    turns || (c.is_control() && c != '\n') || matches!(c, '\u{e0000}'..='\u{e007f}')
}

/// Names in a file, in the file's own name and in what is wrong with it, in every form of answer.
#[test]
fn no_name_steers_the_terminal() {
    let folder = tempfile::tempdir().unwrap();
    let hostile = "\u{1b}]0;x\u{7}\u{202e}a\u{9b}31m\u{200b}\u{7f}\u{e0041}";
    let written = |name: &str, stack: &str| {
        let path = folder.path().join(name);
        let frame = format!(
            "Frameset(format: 1, maker: \"M{hostile}\", model: \"D{hostile}\", standards: {{UpperHeadset: \"EC{hostile}\"}}, \
             sizes: [(label: \"S{hostile}\", figures: {{Stack: {stack}, Reach: 390, HeadAngle: 71}})])"
        );
        fs::write(&path, frame).unwrap();
        path
    };
    let good = written(&format!("good{hostile}.frame.ron"), "610");
    let bad = written(&format!("bad{hostile}.frame.ron"), "6");
    for form in [&[][..], &["--csv"], &["--markdown"], &["--json"]] {
        let output = figures(form, &[good.clone(), bad.clone()]);
        for stream in [&output.stdout, &output.stderr] {
            let shown = text(stream);
            assert!(!shown.is_empty() && !shown.chars().any(acts), "{form:?}: {shown:?}");
        }
    }
    // JSON keeps the name as it is, and the others show where something stands.
    assert_eq!(
        serde_json::from_slice::<Value>(&figures(&["--json"], std::slice::from_ref(&good)).stdout).unwrap()["frames"][0]["model"],
        format!("D{hostile}")
    );
    assert!(text(&figures(&["--csv"], std::slice::from_ref(&good)).stdout).contains("␛]0;x␇[U+202E]a[U+009B]31m"));
    let (table, hostile) = (folder.path().join("table.csv"), "\u{202e}a\u{200b}\u{2066}");
    fs::write(&table, format!("Size;M{hostile}\nStack;610\nReach;390\nFinish{hostile};red{hostile}\n")).unwrap();
    let output = program(&["take", "--report", "--maker", "M", "--model", "D"]).arg(&table).output().unwrap();
    let shown = text(&output.stdout);
    assert!(shown.contains("[U+202E]a") && !shown.chars().any(acts), "{shown:?}");
}

#[test]
fn texts_on_the_command_line_have_a_longest_length() {
    let long = "é".repeat(201);
    for (arguments, says) in [
        (&["import", "none.csv", "--model", "D", "--maker", &long][..], "--maker has 201 characters: at most 200 are accepted"),
        (&["import", "none.csv", "--maker", "M", "--model", &long], "--model has 201 characters: at most 200 are accepted"),
        (&["pattern", "none", "--to", "x.pdf", "--size", &long], "--size has 201 characters: at most 200 are accepted"),
        (&["figures", &"x".repeat(4097)], "an argument has 4,097 characters: at most 4,096 are accepted"),
        (&["-"], "-: the window opens files only: write standard input to a file, such as NAME.frame.ron, and open that"),
    ] {
        let output = program(arguments).output().unwrap();
        assert_eq!((output.status.code(), text(&output.stderr).trim()), (Some(1), says));
    }
    let sheet =
        program(&["publish", "sample-frames/marrowby-drift.frame.ron", "--to", "none", "--sheet", &long]).output().unwrap();
    assert_eq!(text(&sheet.stderr).trim(), "--sheet has 201 characters: at most 200 are accepted");
}

/// Names that are no text: bytes that are not UTF-8.
#[cfg(unix)]
#[test]
fn a_name_that_is_no_text_is_answered() {
    use std::os::unix::ffi::OsStrExt;
    let name = std::ffi::OsStr::from_bytes(b"fr\xfcme.frame.ron");
    let output = program(&["figures"]).arg(name).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(String::from_utf8_lossy(&output.stderr).lines().count(), 1);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join(sample("marrowby-drift")), &path).unwrap();
    let output = program(&["figures", "--json"]).arg(&path).output().unwrap();
    assert!(output.status.success() && serde_json::from_slice::<Value>(&output.stdout).is_ok());
}

/// The same files give the same bytes, and many files come in their order.
#[test]
fn answers_are_the_same_every_time() {
    let files: Vec<PathBuf> = ["tansett-fourways", "brackwater-cob"].iter().cycle().take(40).map(|n| sample(n)).collect();
    let first = figures(&["--json"], &files);
    assert_eq!(first.stdout, figures(&["--json"], &files).stdout);
    let answer: Value = serde_json::from_slice(&first.stdout).unwrap();
    for (frame, file) in answer["frames"].as_array().unwrap().iter().zip(&files) {
        assert_eq!(frame["file"], file.to_string_lossy().as_ref());
    }
}

#[test]
fn a_line_up_states_its_differences_as_the_window_does() {
    let path = PathBuf::from("sample-frames/village-library.lineup.ron");
    let answer = json(std::slice::from_ref(&path));
    let lineup = spandrel::lineup::read_lineup(&fs::read(&path).unwrap()).unwrap();
    let findings = spandrel::lineup::Findings::of(&lineup);
    let mut real = BTreeSet::new();
    for (index, frame) in answer["frames"].as_array().unwrap().iter().enumerate() {
        let index = FrameIndex(index);
        if Some(index) == findings.reference {
            assert!(frame.get("differences").is_none(), "the reference differs from nothing");
            continue;
        }
        for figure in Figure::ALL {
            let entry = frame["differences"].get(figure.key());
            let Some(difference) = findings.difference(index, *figure) else {
                assert!(entry.is_none(), "{}", figure.key());
                continue;
            };
            let entry = entry.unwrap();
            assert!((number(&entry["value"]) - difference.value).abs() < 1e-4);
            assert!((number(&entry["u"]) - difference.u).abs() < 1e-4);
            assert_eq!(entry["clear"], difference.is_clear());
            real.insert(difference.is_clear());
        }
    }
    assert_eq!(real.len(), 2, "some are real, some within their ±");
    assert!(json(&[sample("marrowby-drift")])["frames"][0].get("differences").is_none());
}
