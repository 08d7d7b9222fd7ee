//! Every refusal of a file, with its exact place and sentence: a corpus that is only added to.
//!
//! Each row: a file of `tests/bad-files/`, where the refusal points and what it says, and the text that stands there,
//! so that a wrong line or a wrong column cannot pass. That a bottom bracket drop is shorter than the chainstay follows
//! from the two ranges, which is checked here as well.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use spandrel::disk::load;
use spandrel::frameset::{Figure, FileKind, read_frameset};

/// The file, `line:column: sentence`, and what stands at that place (or one character after it, behind a quotation mark
/// or a bracket); empty where the text ends.
const REFUSALS: &[(&str, &str, &str)] = &[
    ("angle-from-the-vertical.frame.ron", "11:28: HeadAngle 18.5° is outside 50 to 90°", "18.5"),
    ("angle-in-radians.frame.ron", "11:28: HeadAngle 1.25° is outside 50 to 90°: it looks like radians, so write 71.6", "1.25"),
    (
        "angle-without-point.frame.ron",
        "11:28: HeadAngle 715° is outside 50 to 90°: it looks like a missing decimal point, so write 71.5",
        "715",
    ),
    ("another-document.frame.ron", "2:1: `Frameset(` is expected here, not `Bicycle`", "Bicycle"),
    ("axis-unknown.lineup.ron", "6:28: unknown name `Chainstays`: did you mean `Chainstay`?", "Chainstays"),
    ("bar-unknown.frame.ron", "6:10: unknown name `Flatt`: did you mean `Flat`?", "Flatt"),
    ("bend-nan.frame.ron", "7:71: a bend's `along` of NaN is not between 0 and 1: it is a share of the tube's length", "NaN"),
    ("bends-out-of-order.frame.ron", "10:54: bends stand in order along the tube, each `along` above the one before", "along"),
    ("colon-missing.frame.ron", "11:23: not well-formed: Expected colon", "398"),
    ("comma-missing.frame.ron", "5:5: not well-formed: Expected comma", "model"),
    ("diameter-impossible.frame.ron", "6:47: diameter of DownTube of 349 mm is outside 5 to 120 mm", "349"),
    ("diameter-twice.frame.ron", "6:37: TopTube is given twice", "TopTube"),
    (
        "drop-as-long-as-the-chainstay.frame.ron",
        "11:25: BbDrop 440 mm is outside −120 to 150 mm: it looks like a missing decimal point, so write 44",
        "440",
    ),
    ("empty.frame.ron", "1:1: `Frameset(` is expected here", ""),
    ("field-absent.frame.ron", "8:1: field `model` is missing", ")"),
    ("field-twice.frame.ron", "6:5: field `maker` is given twice", "maker"),
    ("field-unknown-in-size.frame.ron", "8:13: unknown field `lable`: did you mean `label`?", "lable"),
    ("field-unknown.frame.ron", "4:5: unknown field `makr`: did you mean `maker`?", "makr"),
    ("field-unknown.lineup.ron", "4:5: unknown field `frams`: did you mean `frames`?", "frams"),
    ("field-unlike-any.frame.ron", "4:5: unknown field `qqq`: known are format, maker, model, year, …", "qqq"),
    ("figure-computed-only.frame.ron", "11:34: MechanicalTrail is always computed: leave it out", "60"),
    (
        "figure-decimal-comma.frame.ron",
        "10:31: a name is expected here, not `5`: decimals are written with a point, as in 71.5",
        "5",
    ),
    ("figure-in-quotes.frame.ron", "10:24: a number is expected here, without quotation marks and without a unit", "\"610\""),
    ("figure-infinite.frame.ron", "11:24: Stack inf is not a finite number", "inf"),
    ("figure-minus-infinite.frame.ron", "11:29: ForkOffset -inf is not a finite number", "-inf"),
    ("figure-minus-zero.frame.ron", "10:24: Stack −0 mm is outside 300 to 900 mm", "-0"),
    ("figure-nan.frame.ron", "10:24: Stack NaN is not a finite number", "NaN"),
    ("figure-overflowing.frame.ron", "11:24: Stack inf is not a finite number", "1e999"),
    ("figure-twice.frame.ron", "12:17: Stack is given twice", "Stack"),
    ("figure-unknown-snake-case.frame.ron", "11:17: unknown name `head_angle`: did you mean `HeadAngle`?", "head_angle"),
    ("figure-unknown.frame.ron", "11:17: unknown name `Stak`: did you mean `Stack`?", "Stak"),
    ("figure-with-unit.frame.ron", "10:28: not well-formed: Expected comma", "mm"),
    ("fork-travel-nan.frame.ron", "6:37: travel of NaN mm is outside 0 to 300 mm", "NaN"),
    ("format-absent.frame.ron", "8:1: field `format` is missing", ")"),
    ("format-negative.frame.ron", "3:14: not well-formed: Integer is out of bounds", "1"),
    (
        "format-newer-behind-unknown-fields.frame.ron",
        "7:13: newer format 99: this program knows frame files up to format 2; open it with a newer Spandrel",
        "99",
    ),
    (
        "format-newer-behind-unknown-fields.lineup.ron",
        "5:13: newer format 99: this program knows line-ups up to format 2; open it with a newer Spandrel",
        "99",
    ),
    (
        "format-newer.frame.ron",
        "3:13: newer format 99: this program knows frame files up to format 2; open it with a newer Spandrel",
        "99",
    ),
    (
        "format-newer.lineup.ron",
        "3:13: newer format 99: this program knows line-ups up to format 2; open it with a newer Spandrel",
        "99",
    ),
    ("format-zero.frame.ron", "3:13: format 0 does not exist: write `format: 2`", "0"),
    ("frame-wrong-inside.lineup.ron", "7:47: Stack 0.61 mm is outside 300 to 900 mm: it looks like metres, so write 610", "0.61"),
    ("frames-absent.lineup.ron", "4:1: field `frames` is missing", ")"),
    ("junction-impossible.frame.ron", "7:87: a junction's distance of 900 mm is outside −50 to 300 mm", "900"),
    ("ledger-line-too-heavy.lineup.ron", "8:76: a line in grams of 62000 is outside −5000 to 5000", "62000"),
    ("ledger-plus-minus-negative.lineup.ron", "8:91: a ± in grams of −5 is outside 0 to 5000", "-5"),
    ("ledger-steerer-too-long.lineup.ron", "8:74: a length in mm of −900 is outside −500 to 500", "-900"),
    ("ledger-steerer-weightless.lineup.ron", "8:93: a weight of 0 g/mm is outside 0 to 10: a steel steerer has about 1.07", "0"),
    (
        "money-currency-unknown.lineup.ron",
        "11:28: “XQX” is not a currency code of ISO 4217: write three letters such as EUR, GBP or USD",
        "XQX",
    ),
    ("money-rate-as-number.lineup.ron", "11:42: not well-formed: Expected string", "0.87"),
    ("money-rate-without-day.lineup.ron", "11:59: field `on` is missing", ")"),
    (
        "money-rate-zero.lineup.ron",
        "11:43: “0” is not an exchange rate: write a number from 0.000001 to 1000000, such as 1.1506",
        "0",
    ),
    ("money-tax-as-fraction.lineup.ron", "11:31: a tax rate of 0.19 % looks like a fraction: for 19 % write 19", "0.19"),
    ("money-tax-unknown.lineup.ron", "11:22: unknown name `Include`: did you mean `Included`?", "Include"),
    ("no-size.frame.ron", "6:13: no size is given: a frameset needs at least one", "]"),
    ("not-closed.frame.ron", "8:7: the text ends too early: a bracket or a quotation mark is not closed", ""),
    ("not-ron.frame.ron", "1:1: `Frameset(` is expected here, not `maker`", "maker = Marrowby"),
    ("only-a-comment.frame.ron", "1:19: `Frameset(` is expected here", ""),
    (
        "price-currency.frame.ron",
        "10:55: currency \"Euro\" is not an ISO 4217 code: three capital letters, such as \"EUR\"",
        "Euro",
    ),
    ("price-date.frame.ron", "10:66: \"31.02.2026\" is not a date: write year-month-day, such as \"2026-10-02\"", "31.02.2026"),
    (
        "price-negative.frame.ron",
        "6:40: amount \"-648.00\" is not decimal text: write digits and a point, such as \"648.00\"",
        "-648.00",
    ),
    ("price-of-nothing.frame.ron", "7:37: 0 is not a valid price: leave the price out if it is unknown", "0.00"),
    (
        "price-with-a-comma.frame.ron",
        "10:35: amount \"648,00\" is not decimal text: write digits and a point, such as \"648.00\"",
        "648",
    ),
    ("rate-of-a-currency-to-itself.lineup.ron", "7:33: an exchange rate needs two different currencies, not EUR twice", "one"),
    (
        "rate-out-of-range.lineup.ron",
        "7:50: “0.000000000000000001” is not an exchange rate: write a number from 0.000001 to 1000000, such as 1.1506",
        "0.000000000000000001",
    ),
    ("rates-of-one-pair.lineup.ron", "9:10: these currencies have an exchange rate already: 1 EUR = 0.87 GBP, 2026-10-12", "one"),
    (
        "reach-in-centimetres.frame.ron",
        "11:24: Reach 39.8 mm is outside 200 to 650 mm: it looks like centimetres, so write 398",
        "39.8",
    ),
    ("reference-beyond.lineup.ron", "7:5: reference 99 is not a valid place: there is one frame, at 0", "reference"),
    ("reference-negative.lineup.ron", "5:17: not well-formed: Integer is out of bounds", "1"),
    ("rubbish-behind.frame.ron", "10:1: nothing may stand behind the closing bracket", "and so on"),
    ("set-aside-unknown.frame.ron", "7:57: unknown name `Stck`: did you mean `Stack`?", "Stck"),
    ("ignored-unpublished.frame.ron", "6:61: size \"M\" ignores its chainstay, which is not published", "ignored"),
    ("set-aside-unprinted.frame.ron", "6:61: size \"M\" ignores its chainstay, which is not published", "set_aside"),
    ("size-not-there.lineup.ron", "7:13: size \"Q\" is not among the sizes of Marrowby Drift: they are \"M\"", "size"),
    ("size-twice.frame.ron", "9:10: size \"M\" is given twice", "label"),
    ("size-without-figures.frame.ron", "7:20: field `figures` is missing", ")"),
    ("size-without-label.frame.ron", "7:10: a size has an empty label", "label"),
    ("sizes-absent.frame.ron", "6:1: field `sizes` is missing", ")"),
    ("sizes-not-a-list.frame.ron", "6:12: not well-formed: Expected opening `[`", "("),
    (
        "source-date-impossible.frame.ron",
        "10:37: \"2026-02-30\" is not a date: write year-month-day, such as \"2026-10-02\"",
        "2026-02-30",
    ),
    ("stack-in-inches.frame.ron", "10:24: Stack 24 mm is outside 300 to 900 mm: it looks like inches, so write 609.6", "24"),
    ("stack-in-metres.frame.ron", "11:24: Stack 0.61 mm is outside 300 to 900 mm: it looks like metres, so write 610", "0.61"),
    (
        "stack-ten-times.frame.ron",
        "11:24: Stack 6100 mm is outside 300 to 900 mm: it looks like a missing decimal point, so write 610",
        "6100",
    ),
    ("standard-twice.frame.ron", "11:9: SeatPost is given twice", "SeatPost"),
    ("standard-unknown.frame.ron", "11:9: unknown name `SeatPst`: did you mean `SeatPost`?", "SeatPst"),
    ("step-nan.frame.ron", "6:22: a step of NaN is not valid: write the smallest published difference, such as 1 or 0.5", "NaN"),
    (
        "step-negative.frame.ron",
        "6:30: a step of -0.5 is not valid: write the smallest published difference, such as 1 or 0.5",
        "-0.5",
    ),
    ("step-of-a-computed-figure.frame.ron", "7:69: WheelFlop is never published, so it has no step", "1"),
    (
        "step-of-a-figure-zero.frame.ron",
        "10:37: step of HeadAngle: a step of 0 is not valid: write the smallest published difference, such as 1 or 0.5",
        "0",
    ),
    ("step-too-coarse.frame.ron", "6:22: a step of 100 is too large: write at most 50, such as 1", "100"),
    ("step-zero.frame.ron", "6:22: a step of 0 is not valid: write the smallest published difference, such as 1 or 0.5", "0"),
    ("string-not-closed.frame.ron", "5:13: not well-formed: Expected comma", "Drift"),
    ("tyre-bead-seat.frame.ron", "6:18: bead seat diameter 122 mm is outside 203 to 787 mm", "47-122"),
    (
        "tyre-by-another-name.frame.ron",
        "6:12: `700x47C` is not a tyre designation: write section width, hyphen, bead seat diameter as ISO 5775 does, for example `47-622`",
        "700x47C",
    ),
    ("tyre-too-narrow.frame.ron", "6:12: tyre width 12 mm is outside 18 to 150 mm", "12-622"),
    ("tyre-turned.frame.ron", "6:12: `622-47` is the wrong way round: the width comes first, so write `47-622`", "622-47"),
    ("weight-factor-for-percent.lineup.ron", "11:26: a weight factor of 10 is outside 0.5 to 2: for 10 % write 1.10", "10"),
    ("weight-factor-nan.lineup.ron", "6:26: a weight factor of NaN is outside 0.5 to 2: write 1.1 for ten percent more", "NaN"),
    ("weight-factor-zero.lineup.ron", "8:40: a weight factor of 0 is outside 0.5 to 2: write 1.1 for ten percent more", "0"),
    ("weight-in-kilograms.frame.ron", "10:41: 2.6 g is too light: it looks like kilograms, so write 2600", "2.6"),
    ("weight-infinite.frame.ron", "10:30: a weight of inf g is outside 50 to 15000 g", "inf"),
    ("weight-negative.frame.ron", "6:47: a weight of −2600 g is outside 50 to 15000 g", "-2600"),
    ("weight-of-an-unknown-size.frame.ron", "7:5: a weight of size \"Q\": the sizes are \"M\"", "weights"),
    ("weight-part-unknown.frame.ron", "10:16: unknown name `Framset`: did you mean `Frameset`?", "Framset"),
    (
        "weight-scale-step.frame.ron",
        "10:54: a step of 0 is not valid: write the smallest published difference, such as 1 or 0.5",
        "0",
    ),
    ("weight-zero.frame.ron", "6:47: a weight of 0 g is outside 50 to 15000 g", "0"),
    ("worth-climb-too-steep.lineup.ron", "11:58: a gradient of 80 % is outside −25 to 40 %", "80"),
    ("worth-efficiency-in-percent.lineup.ron", "11:42: an efficiency of 97.6 is outside 0.5 to 1", "97.6"),
    ("worth-gradient-nan.lineup.ron", "11:58: a gradient of NaN % is outside −25 to 40 %", "NaN"),
    ("worth-luggage-negative.lineup.ron", "11:29: luggage of −15 kg is outside 0 to 150 kg", "-15"),
    ("worth-no-cogs.lineup.ron", "11:70: no teeth are given: write numbers such as 11, 13, 15", "]"),
    ("worth-rider-too-light.lineup.ron", "11:27: a rider of 7 kg is outside 20 to 250 kg", "7"),
    ("worth-teeth.lineup.ron", "11:58: 340 teeth are outside 9 to 60: write numbers such as 11, 13, 15", "340"),
    ("year-in-quotes.frame.ron", "6:11: not well-formed: Expected integer", "\"2026\""),
    ("year-of-five-digits.frame.ron", "6:11: 20260 is not a valid year: write for example 2026", "20260"),
];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join("bad-files")
}

/// What the disk's reader says about the file, without its path.
fn refusal(path: &Path) -> String {
    let problem = match load(path) {
        Err(problem) => problem.to_string(),
        Ok(_) => return "read without complaint".to_owned(),
    };
    assert_eq!(problem.lines().count(), 1, "one line a problem: {problem}");
    problem.strip_prefix(&format!("{}:", path.display())).unwrap_or(&problem).to_owned()
}

#[test]
fn every_refusal_says_where_and_what() {
    let mut wrong = String::new();
    for (name, expected, _) in REFUSALS {
        let found = refusal(&folder().join(name));
        // An ellipsis stands for a list that grows with the format.
        let is_as_expected = expected.strip_suffix('…').map_or(found == *expected, |begin| found.starts_with(begin));
        if !is_as_expected {
            writeln!(wrong, "{name}\n  expected {expected}\n  found    {found}").unwrap();
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_place_is_the_culprits() {
    for (name, expected, culprit) in REFUSALS {
        let text = fs::read_to_string(folder().join(name)).unwrap();
        let mut parts = expected.splitn(3, ':');
        let mut number = || parts.next().unwrap().parse::<usize>().unwrap();
        let (line, column) = (number(), number());
        let Some(there) = text.split('\n').nth(line - 1) else { panic!("{name} has no line {line}") };
        let there: String = there.chars().skip(column - 1).collect();
        assert!(there.starts_with(culprit), "{name}: {culprit:?} is not at {line}:{column}, but {there:?}");
        if culprit.is_empty() {
            assert!(there.trim().is_empty(), "{name}: something stands at {line}:{column}: {there:?}");
        }
    }
}

#[test]
fn every_file_of_the_corpus_is_in_the_table() {
    let mut names: Vec<String> = fs::read_dir(folder()).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    let mut listed: Vec<&str> = REFUSALS.iter().map(|(name, ..)| *name).collect();
    listed.sort_unstable();
    assert_eq!(names, listed);
}

#[test]
fn the_drop_is_shorter_than_the_chainstay_by_their_ranges() {
    assert!(Figure::BbDrop.about().high < Figure::Chainstay.about().low);
    assert!(-Figure::BbDrop.about().low < Figure::Chainstay.about().low);
}

#[test]
fn a_mistyped_name_is_answered_with_the_nearest() {
    for (typed, meant) in [
        ("Stak", "Stack"),
        ("stack", "Stack"),
        ("Headangle", "HeadAngle"),
        ("head_tube", "HeadTube"),
        ("ChainStay", "Chainstay"),
        ("ForkOfset", "ForkOffset"),
        ("BBDrop", "BbDrop"),
        ("WheelBase", "Wheelbase"),
        ("EffectiveTopTub", "EffectiveTopTube"),
        ("StandOver", "Standover"),
    ] {
        let text = format!("Frameset(format: 1, maker: \"\", model: \"\", sizes: [(label: \"M\", figures: {{{typed}: 400}})])");
        let problem = read_frameset(text.as_bytes()).unwrap_err().to_string();
        assert_eq!(problem, format!("unknown name `{typed}`: did you mean `{meant}`?"));
    }
}

/// Files that are no text, or more than is read: written into a folder of their own.
#[test]
fn what_is_no_text_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let check = |name: &str, bytes: &[u8], expected: &str| {
        let path = folder.path().join(name);
        fs::write(&path, bytes).unwrap();
        assert_eq!(refusal(&path), expected, "{name}");
    };
    let utf8 = "not UTF-8 text: save the file as UTF-8";
    let whole = "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\",\n sizes: [(label: \"M\", figures: {Stack: 610})])";
    // Latin-1: the ü of a maker's name is one byte.
    let latin = [b"Frameset(format: 1,\n    maker: \"M".as_slice(), b"\xfc", b"ller\")"].concat();
    check("latin-1.frame.ron", &latin, &format!("2:14: {utf8}"));
    let wide: Vec<u8> = b"\xff\xfe".iter().copied().chain(whole.bytes().flat_map(|b| [b, 0])).collect();
    check("utf-16.frame.ron", &wide, &format!("1:1: {utf8}"));
    let picture = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR";
    check("picture.frame.ron", picture, &format!("1:1: {utf8}"));
    check("zeros.frame.ron", &[0; 64], "1:1: `Frameset(` is expected here");
    let too_large = " this is larger than 4 MB, the limit for a frame file";
    check("large.frame.ron", &vec![b' '; 5_000_000], too_large);
    // At the limit it is still read; one byte more and it is not.
    let padded = |length: usize| format!("{whole}{}", " ".repeat(length - whole.len()));
    check("at-the-limit.frame.ron", padded(FileKind::Frame.max_bytes()).as_bytes(), "read without complaint");
    check("over-the-limit.frame.ron", padded(FileKind::Frame.max_bytes() + 1).as_bytes(), too_large);
    // A byte order mark is not held against a file.
    check("marked.frame.ron", format!("\u{feff}{whole}").as_bytes(), "read without complaint");
    check("windows.frame.ron", whole.replace('\n', "\r\n").as_bytes(), "read without complaint");
    let nested = format!("Frameset(format: 1, makr: {}", "[".repeat(100_000));
    check("nested.frame.ron", nested.as_bytes(), "1:21: unknown field `makr`: did you mean `maker`?");
    check(
        "nested-maker.frame.ron",
        format!("Frameset(format: 1, maker: {}", "(".repeat(100_000)).as_bytes(),
        "1:28: not well-formed: Expected string",
    );
    assert_eq!(refusal(&folder.path().join("absent.frame.ron")), " cannot be read: there is no such file or folder");
    assert_eq!(refusal(folder.path()), " is a folder, not a file: choose a file in it, such as NAME.frame.ron");
}

/// Cutting a good file off anywhere, or breaking any one byte of it, is refused or read, never a panic; and every place
/// named is inside the text.
#[test]
fn broken_copies_of_a_good_file_never_panic() {
    let good = fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-frames/marrowby-drift.frame.ron")).unwrap();
    let lines = String::from_utf8_lossy(&good).lines().count();
    let look = |bytes: &[u8]| {
        if let Err(error) = read_frameset(bytes) {
            let at = error.position().unwrap();
            assert!((1..=lines + 1).contains(&at.line) && at.column >= 1, "{error} at {at:?}");
            assert!(!error.to_string().is_empty() && !error.to_string().contains('\u{1}'));
        }
    };
    for end in (0..good.len()).step_by(2) {
        look(&good[..end]);
    }
    for at in (0..good.len()).step_by(3) {
        for by in [b'"', b'(', b'}', b'-', b'\n', 0xff] {
            let mut broken = good.clone();
            broken[at] = by;
            look(&broken);
        }
    }
}
