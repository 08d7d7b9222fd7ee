//! `spandrel loaded`: the benchmark bicycle of the docs from end to end, and files that hold no bicycle.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use std::io::Write;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

/// The JSON of the page on the command line.
fn benchmark() -> String {
    let page = include_str!("../docs/command-line.md");
    let from = page.split("```json\n").nth(1).unwrap();
    from.split("```").next().unwrap().to_owned()
}

fn loaded(file: &str, options: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_spandrel"));
    program.args(["loaded", "--bicycle", "-"]).args(options).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut running = program.spawn().unwrap();
    running.stdin.take().unwrap().write_all(file.as_bytes()).unwrap();
    running.wait_with_output().unwrap()
}

fn refusal(file: &str) -> String {
    let output = loaded(file, &["--json"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    String::from_utf8(output.stderr).unwrap()
}

#[track_caller]
fn near(found: &Value, expected: f64, within: f64) {
    let found = found.as_f64().unwrap();
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

/// Meijaard, Papadopoulos, Ruina & Schwab, Proc. R. Soc. A 463 (2007) 1955–1982, section 5 and Table 2: all printed digits.
#[test]
fn the_benchmark_bicycle_answers_with_the_printed_digits() {
    let output = loaded(&benchmark(), &["--json", "--speed", "5"]);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    let found: Value = serde_json::from_slice(&output.stdout).unwrap();
    let printed = [
        ("M", [[80.81722, 2.319_413_322_087_09], [2.319_413_322_087_09, 0.297_841_881_996_86]]),
        ("C1", [[0.0, 33.866_413_914_924_94], [-0.850_356_414_569_78, 1.685_403_973_975_60]]),
        ("K0", [[-80.95, -2.599_516_852_498_72], [-2.599_516_852_498_72, -0.803_294_884_586_18]]),
        ("K2", [[0.0, 76.597_345_895_732_22], [0.0, 2.654_315_237_946_04]]),
    ];
    for (key, matrix) in printed {
        for (row, values) in matrix.iter().enumerate() {
            for (column, value) in values.iter().enumerate() {
                near(&found[key][row][column], *value, 1e-12);
            }
        }
    }
    near(&found["weave"], 4.292_382_536_341_11, 1e-12);
    near(&found["capsize"], 6.024_262_015_388_37, 1e-12);
    near(&found["self_steady"][0][0], 4.292_382_536_341_11, 1e-12);
    near(&found["front_share"], 0.335_419_274, 1e-9);
    near(&found["pitch_over_g"], 0.787_152_563, 1e-9);
    let at_five = &found["eigenvalues"][0];
    near(&at_five["speed"], 5.0, 0.0);
    near(&at_five["values"][0][0], -0.322_866_429_004_09, 1e-9);
    near(&at_five["values"][1][1], 4.464_867_713_788_23, 1e-9);
}

#[test]
fn the_text_says_what_the_numbers_say_and_what_the_model_is_not() {
    let output = loaded(&benchmark(), &[]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("The front wheel carries 33.5\u{a0}% of 94.0 kg."), "{text}");
    assert!(text.contains("The bicycle steadies itself from 15.5 km/h (4.29 m/s) to 21.7 km/h (6.02 m/s)."), "{text}");
    assert!(text.contains("nothing of comfort, shimmy or safety") && text.contains("makers’ limits"), "{text}");
}

#[test]
fn a_file_without_a_bicycle_is_refused_with_what_is_wrong_and_where() {
    let whole = benchmark();
    assert!(refusal("{\"w\": 1.02,\n nonsense}").starts_with("-:2:2: this is not a JSON object"));
    assert!(refusal("[1, 2]").contains("this is not a JSON object"));
    let missing = refusal(&whole.replace("\"xB\": 0.3, ", ""));
    assert!(missing.contains("a parameter is missing: `xB`"), "{missing}");
    let unknown = refusal(&whole.replace("\"mB\"", "\"mb\""));
    assert!(unknown.contains("`mb` is not a parameter: did you mean `mB`?"), "{unknown}");
    let twice = refusal(&whole.replace("\"mB\": 85", "\"mB\": 85, \"mB\": 86"));
    assert!(twice.contains("`mB` is given twice"), "{twice}");
    let text = refusal(&whole.replace("\"mB\": 85", "\"mB\": \"85\""));
    assert!(text.contains("`mB`: \"85\" is not a number"), "{text}");
    let heavy = refusal(&whole.replace("\"mB\": 85", "\"mB\": 8500"));
    assert!(heavy.contains("8500 is outside 0.1 to 1000 kg"), "{heavy}");
    let spun = refusal(&whole.replace("\"IRyy\": 0.12", "\"IRyy\": 12"));
    assert!(spun.contains("Rear wheel: no body has these moments of inertia"), "{spun}");
}

/// The sample comparison end to end: numbers beside their ±, and a frame whose table says too little is told so.
#[test]
fn frames_of_a_line_up_answer_with_each_loading() {
    let run = |options: &[&str]| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_spandrel"));
        program.args(["loaded", "sample-frames/village-library.lineup.ron"]).args(options);
        program.current_dir(env!("CARGO_MANIFEST_DIR"));
        let output = program.output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    let found: Value = serde_json::from_str(&run(&["--json", "--speed", "6"])).unwrap();
    let loadings = found["frames"][0]["loadings"].as_array().unwrap();
    assert_eq!(loadings.len(), 3);
    let number = |loading: usize, figure: &str, key: &str| loadings[loading]["figures"][figure][key].as_f64().unwrap();
    assert!(
        number(0, "weave", "value") < number(1, "weave", "value") && number(1, "weave", "value") < number(2, "weave", "value")
    );
    near(&loadings[1]["figures"]["whole_kg"]["by_loading"]["value"], 15.0, 1e-9);
    let figures = &loadings[1]["figures"];
    let sum = figures["front_kg"]["value"].as_f64().unwrap() + figures["rear_kg"]["value"].as_f64().unwrap();
    near(&figures["whole_kg"]["value"], sum, 1e-3);
    // 6 m/s lies between both speeds: every motion dies out.
    let growth = loadings[0]["motions"][0]["growth"].as_array().unwrap();
    assert_eq!(growth.len(), 4);
    assert!(growth.iter().all(|motion| motion["value"].as_f64().unwrap() < 0.0 && motion["u"].as_f64().unwrap() > 0.0));
    let spare = found["frames"].as_array().unwrap().last().unwrap();
    assert_eq!(spare["loadings"][0]["why_code"], "figures_missing");
    let text = run(&[]);
    for words in ["With no luggage", "With rear panniers", "Steadies itself from", "Difference from A", "One change alone"] {
        assert!(text.contains(words), "{words}");
    }
}

#[test]
fn a_file_and_a_bicycle_are_not_taken_together() {
    for arguments in [&["loaded"][..], &["loaded", "a.lineup.ron", "--bicycle", "b.json"]] {
        let output = Command::new(env!("CARGO_BIN_EXE_spandrel")).args(arguments).output().unwrap();
        assert_eq!(output.status.code(), Some(1));
    }
}
