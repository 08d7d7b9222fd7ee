//! Checks of numbers as tables write them.

use super::DecimalMark::{Comma, Point};
use super::*;

fn number_of(text: &str, mark: DecimalMark) -> Option<(f64, Option<Unit>)> {
    match read(text, mark) {
        Cell::Number(n) => Some((n.value, n.unit)),
        _ => None,
    }
}

/// The marks of Unicode CLDR 48 for the six languages,
/// `main/{en,de,fr,es,it,nl,de-AT,de-CH,fr-CH}/numbers.json`, `symbols-numberSystem-latn`.
#[test]
fn numbers_of_the_six_languages_are_read_with_their_marks() {
    for (language, decimal, group, mark) in [
        ("en", '.', ',', Point),
        ("de", ',', '.', Comma),
        ("fr", ',', '\u{202f}', Comma),
        ("es", ',', '.', Comma),
        ("it", ',', '.', Comma),
        ("nl", ',', '.', Comma),
        ("de-AT", ',', '\u{a0}', Comma),
        ("de-CH", '.', '\'', Point),
        ("fr-CH", ',', '\'', Comma),
    ] {
        assert_eq!(number_of(&format!("71{decimal}5"), mark), Some((71.5, None)), "{language}");
        assert_eq!(number_of(&format!("1{group}118"), mark), Some((1118.0, None)), "{language}");
        assert_eq!(number_of(&format!("1{group}118{decimal}4"), mark), Some((1118.4, None)), "{language}");
    }
    // CLDR sets minimumGroupingDigits to 2 in es and it: four digits stand without a mark there.
    assert_eq!(number_of("1118,4", Comma), Some((1118.4, None)));
}

#[test]
fn a_mark_of_the_other_kind_is_a_group_or_nothing() {
    assert_eq!(number_of("1,118", Point), Some((1118.0, None)));
    assert_eq!(number_of("1,118", Comma), Some((1.118, None)));
    for (text, mark) in
        [("71,5", Point), ("71.5", Comma), ("0,450", Point), ("1,11,8", Point), ("1.118.5", Comma), ("12,1234", Point)]
    {
        assert_eq!(read(text, mark), Cell::Words, "{text} {mark:?}");
    }
}

#[test]
fn units_fractions_and_minutes() {
    for (text, value, unit) in [
        ("71.5°", 71.5, Unit::Degree),
        ("71.5º", 71.5, Unit::Degree),
        ("71.5 deg.", 71.5, Unit::Degree),
        ("71°30'", 71.5, Unit::Degree),
        ("71° 15′ 0″", 71.25, Unit::Degree),
        ("580 mm", 580.0, Unit::Millimetre),
        ("580mm*", 580.0, Unit::Millimetre),
        ("58cm", 58.0, Unit::Centimetre),
        ("28 5/8\"", 28.625, Unit::Inch),
        ("28-5/8\"", 28.625, Unit::Inch),
        ("28⅝”", 28.625, Unit::Inch),
        ("22.8 in", 22.8, Unit::Inch),
        ("22.8''", 22.8, Unit::Inch),
        ("57.9 cm (22.8\")", 57.9, Unit::Centimetre),
        ("22.8\" / 580 mm", 580.0, Unit::Millimetre),
        ("580 (22.8)", 580.0, Unit::Millimetre),
    ] {
        assert_eq!(number_of(text, Point), Some((value, Some(unit))), "{text}");
    }
    assert_eq!(number_of("−65", Point), Some((-65.0, None)));
    assert_eq!(number_of("445²", Point), Some((445.0, None)));
    assert!(matches!(read("ca. 780", Point), Cell::Number(Numeral { approximate: true, .. })));
}

#[test]
fn ranges_dashes_and_words() {
    for text in ["445/450", "445–450", "445 - 450 mm", "445 bis 450", "445mm to 450mm"] {
        assert!(
            matches!(read(text, Point), Cell::Range(a, b) if a.value == 445.0 && b.value == 450.0 && a.unit == b.unit),
            "{text}"
        );
    }
    for text in ["–", "-", "n/a", "TBC", "k. A.", "N.v.t.", "…", "?"] {
        assert_eq!(read(text, Point), Cell::NotStated, "{text}");
    }
    for text in ["S", "M/L", "700x45c", "max. 445", "445 mm eff", "5/8/9", "580 mm (30°)", "580 mm / 30\"", "999999999999999"] {
        assert_eq!(read(text, Point), Cell::Words, "{text}");
    }
    assert_eq!(read(" \u{a0}", Point), Cell::Blank);
}
