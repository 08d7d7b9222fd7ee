//! Combinations of what a frame publishes and a part: each row of `tests/parts-cases/` says the verdict, one reason or extra
//! part of it, and the form of its source. Then what must hold of all of them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use spandrel::frameset::{Frameset, Standard, read_frameset};
use spandrel::parts::{Candidate, Fit, Part, PartKind, PartsList, Statements, Verdict, check};
use spandrel::words::source_text;

struct Case {
    place: String,
    standard: Standard,
    frame: String,
    kind: PartKind,
    part: String,
    beside: Vec<(PartKind, String)>,
    verdict: String,
    code: String,
    source: String,
}

fn kind(name: &str) -> PartKind {
    ron::from_str(name).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn cases() -> Vec<Case> {
    let mut found = Vec::new();
    let mut files: Vec<_> = std::fs::read_dir("tests/parts-cases").unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    for file in files {
        for (line, text) in std::fs::read_to_string(&file).unwrap().lines().enumerate().filter(|(_, t)| !t.starts_with('#')) {
            let place = format!("{}:{}", file.display(), line + 1);
            let cells: Vec<&str> = text.split('\t').collect();
            let [standard, frame, part_kind, part, beside, verdict, code, source] = cells[..] else { panic!("{place}") };
            let beside = beside.split(';').filter(|b| !b.is_empty()).map(|b| {
                let (name, text) = b.split_once('=').unwrap();
                (kind(name), text.to_owned())
            });
            found.push(Case {
                standard: ron::from_str(standard).unwrap_or_else(|e| panic!("{place}: {e}")),
                kind: kind(part_kind),
                beside: beside.collect(),
                frame: frame.to_owned(),
                part: part.to_owned(),
                verdict: verdict.to_owned(),
                code: code.to_owned(),
                source: source.to_owned(),
                place,
            });
        }
    }
    found
}

fn frameset(standard: Standard, text: &str) -> Frameset {
    let bare = b"Frameset(format: 2, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: {Stack: 600})])";
    let mut frameset = read_frameset(bare).unwrap();
    frameset.standards.insert(standard, text.to_owned());
    frameset
}

fn judged(case: &Case, frame: &str, part: &str) -> Verdict {
    let frameset = frameset(case.standard, frame);
    let statements = Statements::of(&frameset);
    let list = |kind, text: &str| Part::new(kind, text, "").unwrap_or_else(|e| panic!("{}: {text}: {e}", case.place));
    let parts = std::iter::once(list(case.kind, part)).chain(case.beside.iter().map(|(kind, text)| list(*kind, text)));
    let list = PartsList { parts: parts.collect(), fork: None, ..PartsList::default() };
    let candidate = Candidate { frameset: &frameset, statements: &statements, size: None, saddle_height_mm: None };
    check(&list, &candidate).remove(0)
}

#[test]
fn every_case_has_its_verdict_reason_and_source() {
    let cases = cases();
    assert!(cases.len() >= 120, "{} cases", cases.len());
    let mut wrong = Vec::new();
    for case in &cases {
        let outcome = judged(case, &case.frame, &case.part).outcome;
        let codes: Vec<&str> = outcome
            .reasons
            .iter()
            .map(spandrel::parts::Reason::code)
            .chain(outcome.extras.iter().map(spandrel::parts::Extra::code))
            .collect();
        if outcome.fit.key() != case.verdict || !codes.contains(&case.code.as_str()) || source_text(outcome.source) != case.source
        {
            wrong.push(format!(
                "{}: {} in {}: {} {codes:?} {}",
                case.place,
                case.part,
                case.frame,
                outcome.fit.key(),
                source_text(outcome.source)
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A text with its clauses in another order; `None` where it has but one.
fn turned(text: &str) -> Option<String> {
    let clauses: Vec<&str> = text.split(", ").collect();
    (clauses.len() > 1 && !text.contains(';')).then(|| clauses.iter().rev().copied().collect::<Vec<_>>().join(", "))
}

#[test]
fn the_same_words_in_another_order_give_the_same_verdict() {
    let mut tried = 0;
    for case in cases() {
        // A condition of a tyre clearance belongs to the size before it, and takes to the hub before it.
        if matches!(case.standard, Standard::WidestTyre) || case.frame.contains("takes") {
            continue;
        }
        let own = judged(&case, &case.frame, &case.part).outcome.fit;
        if let Some(frame) = turned(&case.frame) {
            assert_eq!(judged(&case, &frame, &case.part).outcome.fit, own, "{}: {frame}", case.place);
            tried += 1;
        }
        if let Some(part) = turned(&case.part) {
            assert_eq!(judged(&case, &case.frame, &part).outcome.fit, own, "{}: {part}", case.place);
            tried += 1;
        }
    }
    assert!(tried >= 20, "{tried}");
}

#[test]
fn a_narrower_tyre_never_fits_worse_and_more_room_never_turns_yes_into_no() {
    let besides = ["", "Crank=142", "Crank=148, 1x", "Mudguards=60", "Rims=622 x 25", "Rims=622 x 40"];
    let forms = [
        "{}-622",
        "{}-622 with spacing 148",
        "clear {} on 622",
        "{}-622 with mudguards",
        "{}-622, 1x only",
        "80-622; {}-622 with mudguards",
    ];
    for beside in besides {
        for form in forms {
            let case = Case {
                place: format!("{form}, {beside}"),
                standard: Standard::WidestTyre,
                frame: String::new(),
                kind: PartKind::RearTyre,
                part: String::new(),
                beside: beside.split_once('=').map(|(k, t)| (kind(k), t.to_owned())).into_iter().collect(),
                verdict: String::new(),
                code: String::new(),
                source: String::new(),
            };
            let fit =
                |room: u32, tyre: u32| judged(&case, &form.replace("{}", &room.to_string()), &format!("{tyre}-622")).outcome.fit;
            for room in [40, 50, 60, 72] {
                let mut before = Fit::Fits;
                for tyre in (20..=76).step_by(2) {
                    let now = fit(room, tyre);
                    assert!(now >= before, "{}: {tyre} in {room}", case.place);
                    assert!(fit(room + 4, tyre) <= now, "{}: {tyre} in {room}", case.place);
                    before = now;
                }
            }
        }
    }
}
