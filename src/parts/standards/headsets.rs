//! Headsets by SHIS code: kind of cup and bore of the head tube, a stroke, the steerer (upper) or crown race (lower):
//! `ZS44/28.6 | EC44/40`. The bore is looked up in a table: the code's number is not the bore rounded (49.61 is called 49).

use std::fmt;

use super::super::reading::{folded, mm, nearest_value, number, plain, same_digits, says};
use super::super::source::Source;
use super::{NotUnderstood, refused};
pub use crate::frameset::CupKind;
use crate::frameset::{CROWN_RACES_MM, HEAD_TUBES};

/// Upper or lower.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "they say it all")]
pub enum End {
    Upper,
    Lower,
}

/// One end of a headset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadsetEnd {
    /// Upper or lower.
    pub end: End,
    /// How the cup sits.
    pub kind: CupKind,
    /// The code's number for the head tube: a name, not a measure.
    pub bore_code: u16,
    /// Steerer (upper) or crown race seat (lower), mm.
    pub fork_mm: f64,
}

/// A whole headset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Headset {
    /// Upper end.
    pub upper: HeadsetEnd,
    /// Lower end.
    pub lower: HeadsetEnd,
}

/// What a SHIS code leaves open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beware {
    /// The bearing's angles: 36° × 45° and 45° × 45° are both made.
    BearingAngles,
    /// The bore: JIS head tubes are 29.85 to 29.90 mm.
    JisBore,
}

/// A head tube's bore behind a code.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoreRow {
    /// Kind of cup.
    pub kind: CupKind,
    /// The code's number.
    pub code: u16,
    /// Finished bore of the head tube, mm; `None` where no text gives it.
    pub bore_mm: Option<f64>,
    /// What to beware of.
    pub beware: Option<Beware>,
    /// How it is known.
    pub source: Source,
}

/// The bores, one a head tube that has a code.
pub const BORES: &[BoreRow] = &bores();

const fn bores() -> [BoreRow; HEAD_TUBES.len()] {
    let mut rows = [bore(HEAD_TUBES[0]); HEAD_TUBES.len()];
    let mut place = 1;
    while place < HEAD_TUBES.len() {
        rows[place] = bore(HEAD_TUBES[place]);
        place += 1;
    }
    rows
}

/// What EC30 may be taken for.
const JIS: Option<Beware> = Some(Beware::JisBore);
/// What an IS code leaves out.
const ANGLE: Option<Beware> = Some(Beware::BearingAngles);

const fn bore((kind, code, mm): (CupKind, u16, f64)) -> BoreRow {
    let beware = match (kind, code) {
        (CupKind::External, 30) => JIS,
        (CupKind::Integrated, _) => ANGLE,
        _ => None,
    };
    BoreRow { kind, code, bore_mm: Some(mm), beware, source: Source::TradePractice }
}

/// Fork dimensions behind the stroke: end, millimetres, meaning, how it is known.
pub const STEERERS: &[(End, f64, &str, Source)] = &[
    (End::Upper, 25.4, "1 in steerer", Source::Arithmetic),
    (End::Upper, 28.6, "1⅛ in steerer", Source::Arithmetic),
    (End::Upper, 31.8, "1¼ in steerer", Source::Arithmetic),
    (End::Upper, 38.1, "1½ in steerer", Source::Arithmetic),
    (End::Lower, CROWN_RACES_MM[0], "crown race of a 1 in steerer (ISO)", Source::TradePractice),
    (End::Lower, CROWN_RACES_MM[1], "crown race of a 1 in steerer (JIS)", Source::TradePractice),
    (End::Lower, CROWN_RACES_MM[2], "crown race of a straight 1⅛ in steerer", Source::TradePractice),
    (End::Lower, CROWN_RACES_MM[3], "crown race of a 1¼ in steerer", Source::TradePractice),
    (End::Lower, CROWN_RACES_MM[4], "crown race of a steerer tapered to 1½ in", Source::TradePractice),
];

/// A code such as is meant by one that is not whole: `EC34/28.6` for `EC34`.
fn example_of(end: End, code: &str) -> String {
    let is_bore = |b: &&BoreRow| code == format!("{}{}", b.kind.code(), b.code);
    match (BORES.iter().find(is_bore), end) {
        (Some(_), End::Upper) => format!("{code}/28.6"),
        (Some(bore), End::Lower) => format!("{code}/{}", if bore.code <= 41 { 30 } else { 40 }),
        (None, End::Upper) => "ZS44/28.6".to_owned(),
        (None, End::Lower) => "ZS56/40".to_owned(),
    }
}

impl HeadsetEnd {
    /// Reads one end's code.
    ///
    /// # Errors
    /// What does not follow the grammar, a bore or steerer that is not made, with the nearest right form.
    pub fn read(end: End, text: &str) -> Result<Self, NotUnderstood> {
        let code = folded(text).replace(' ', "").to_ascii_uppercase();
        let example = example_of(end, &code);
        let form = || {
            NotUnderstood(format!(
                "`{}` is not a SHIS code: write cup and bore, a stroke, the fork, such as {example}",
                text.trim()
            ))
        };
        let kind = match code.get(..2) {
            Some("EC") => CupKind::External,
            Some("ZS") => CupKind::SemiIntegrated,
            Some("IS") => CupKind::Integrated,
            _ => return Err(form()),
        };
        let (tube, fork) = code.get(2..).and_then(|rest| rest.split_once('/')).ok_or_else(form)?;
        let tube = number(tube).ok_or_else(form)?;
        let fork_mm = number(fork).ok_or_else(form)?;
        let known_codes = || BORES.iter().filter(move |b| b.kind == kind).map(|b| f64::from(b.code));
        let Some(row) = BORES.iter().find(|b| b.kind == kind && f64::from(b.code) == tube) else {
            let near = same_digits(tube, known_codes()).or_else(|| nearest_value(tube, known_codes())).unwrap_or(44.0);
            return refused(format!(
                "`{}`: no head tube is called {}{}: did you mean {}{}/{}?",
                text.trim(),
                kind.code(),
                plain(tube),
                kind.code(),
                plain(near),
                plain(fork_mm)
            ));
        };
        let known = || STEERERS.iter().filter(move |s| s.0 == end).map(|s| s.1);
        if !known().any(|k| (k - fork_mm).abs() < 0.11) {
            let near = same_digits(fork_mm, known()).or_else(|| nearest_value(fork_mm, known())).unwrap_or(28.6);
            let what = if end == End::Upper { "steerer" } else { "crown race" };
            return refused(format!(
                "`{}`: no {what} of {} is made: did you mean {}{}/{}?",
                text.trim(),
                mm(fork_mm),
                kind.code(),
                row.code,
                plain(near)
            ));
        }
        // Codes are written to a tenth of a millimetre.
        Ok(Self { end, kind, bore_code: row.code, fork_mm: (fork_mm * 10.0).round() / 10.0 })
    }

    /// The bore behind the code.
    #[must_use]
    pub fn bore(&self) -> Option<&'static BoreRow> {
        BORES.iter().find(|b| b.kind == self.kind && b.code == self.bore_code)
    }

    /// What its fork dimension means.
    #[must_use]
    pub fn fork_meaning(&self) -> &'static str {
        STEERERS.iter().find(|s| s.0 == self.end && (s.1 - self.fork_mm).abs() < 0.11).map_or("", |s| s.2)
    }
}

impl fmt::Display for HeadsetEnd {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}/{}", self.kind.code(), self.bore_code, plain(self.fork_mm))
    }
}

impl Headset {
    /// Reads both ends: `ZS44/28.6 | EC44/40`, `upper ZS44/28.6, lower EC44/40`. Which is which is known by what stands
    /// behind the stroke, so the order does not matter where two codes can be told apart.
    ///
    /// # Errors
    /// As [`HeadsetEnd::read`]; and when only one end is given.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let codes: Vec<&str> = text.split([' ', ',', ';', '|', '(', ')', '+']).filter(|w| w.contains('/')).collect();
        if let [first, second] = codes.as_slice() {
            let as_ends = |upper, lower| {
                HeadsetEnd::read(End::Upper, upper)
                    .and_then(|upper| Ok(Self { upper, lower: HeadsetEnd::read(End::Lower, lower)? }))
            };
            let read = as_ends(first, second);
            return if read.is_err() { as_ends(second, first).or(read) } else { read };
        }
        let Some((upper, lower)) = text.split_once('|') else {
            // One wrong code is named before the missing bar.
            HeadsetEnd::read(End::Upper, text.split_whitespace().next().unwrap_or(text))?;
            return refused(format!("`{}` is one end: write upper | lower, such as ZS44/28.6 | ZS56/40", text.trim()));
        };
        Ok(Self { upper: HeadsetEnd::read(End::Upper, upper)?, lower: HeadsetEnd::read(End::Lower, lower)? })
    }
}

/// The sizes in inches that a text names, in eighths, the smaller first: `1 1/8" - 1.5"` is 9 and 12.
fn eighths(folded: &str) -> Vec<u8> {
    const SIZES: [(u8, &[&str]); 4] = [
        (8, &["1\"", "1 in"]),
        (9, &["1 1/8", "1-1/8", "1⅛", "1.125"]),
        (10, &["1 1/4", "1-1/4", "1¼", "1.25"]),
        (12, &["1 1/2", "1-1/2", "1½", "1.5"]),
    ];
    SIZES
        .iter()
        .filter(|(_, names)| names.iter().any(|name| says(folded, name.trim_end_matches('"')) && folded.contains(name)))
        .map(|(e, _)| *e)
        .collect()
}

/// Steerer and crown race from `28.6 | 40`, from the words `tapered` and `straight`, or from inches: `1 1/8"`,
/// `1 1/8" - 1.5"`.
///
/// # Errors
/// Neither; with the right form.
pub fn ends_of(text: &str) -> Result<(f64, f64), NotUnderstood> {
    let words = folded(text);
    let found = super::super::reading::numbers(&words);
    let pair = match (found.as_slice(), words.as_str()) {
        ([steerer, race], _) if *steerer > 20.0 => (*steerer, *race),
        (_, w) if !eighths(w).is_empty() => match eighths(w)[..] {
            [9] if w.contains("tapered") => (28.6, 40.0),
            [9] => (28.6, 30.0),
            [9, 10] => (28.6, CROWN_RACES_MM[3]),
            [9, 12] => (28.6, 40.0),
            _ => (0.0, 0.0),
        },
        ([], w) if w.contains("tapered") => (28.6, 40.0),
        ([], w) if w.contains("straight") => (28.6, 30.0),
        _ => (0.0, 0.0),
    };
    let known = |end: End, value: f64| STEERERS.iter().any(|s| s.0 == end && (s.1 - value).abs() < 0.11);
    if known(End::Upper, pair.0) && known(End::Lower, pair.1) {
        return Ok(pair);
    }
    refused(format!(
        "`{}` is not a valid steerer: write steerer | crown race, such as 28.6 | 40, or tapered or straight",
        text.trim()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_grammar_of_shis_is_read() {
        // The external headset of a straight 1⅛ in steerer: trade practice, unverified.
        let traditional = Headset::read("EC34/28.6 | EC34/30").unwrap();
        assert_eq!(traditional.upper.kind, CupKind::External);
        assert_eq!(traditional.upper.fork_meaning(), "1⅛ in steerer");
        assert_eq!(traditional.lower.fork_meaning(), "crown race of a straight 1⅛ in steerer");
        for text in ["ZS44/28.6 EC44/40", "EC44/40 | ZS44/28.6", "upper ZS44/28.6, lower EC44/40", "zs44/28.6; ec44/40"] {
            assert_eq!(Headset::read(text), Headset::read("ZS44/28.6 | EC44/40"), "{text}");
        }
        // Ends in use: trade practice, unverified.
        for upper in ["ZS44/28.6", "EC34/28.6", "IS41/28.6", "IS42/28.6", "ZS49/28.6", "EC44/28.6", "IS52/28.6"] {
            assert_eq!(HeadsetEnd::read(End::Upper, upper).unwrap().to_string(), upper);
        }
        for lower in ["ZS56/40", "EC44/40", "IS52/40", "EC49/40", "ZS44/30", "EC34/30", "IS41/30", "IS42/30", "ZS56/30"] {
            assert_eq!(HeadsetEnd::read(End::Lower, lower).unwrap().to_string(), lower);
        }
    }

    #[test]
    fn steerers_are_read_in_millimetres_and_in_inches() {
        for (text, ends) in [
            ("28.6 | 40", (28.6, 40.0)),
            ("tapered", (28.6, 40.0)),
            ("1 1/8\"", (28.6, 30.0)),
            ("1⅛ in, straight", (28.6, 30.0)),
            ("1-1/8\" – 1.5\"", (28.6, 40.0)),
            ("tapered, 1 1/8\" to 1 1/2\"", (28.6, 40.0)),
        ] {
            assert_eq!(ends_of(text), Ok(ends), "{text}");
        }
        for text in ["1 1/2\"", "wide", "28.6 | 99", "11/8"] {
            assert!(ends_of(text).is_err(), "{text}");
        }
    }

    #[test]
    fn bores_come_from_the_table_and_not_from_rounding() {
        // Trade practice, unverified.
        for (code, bore) in [("EC34", 33.95), ("EC37", 36.95), ("EC49", 49.61), ("ZS41", 41.40), ("ZS44", 44.0), ("ZS56", 55.95)]
        {
            let end = HeadsetEnd::read(End::Lower, &format!("{code}/30")).unwrap();
            assert_eq!(end.bore().and_then(|b| b.bore_mm), Some(bore), "{code}");
        }
        // 49.61 rounds to 50 and yet is called 49.
        assert!(HeadsetEnd::read(End::Lower, "EC50/40").unwrap_err().0.contains("EC49/40"));
    }

    #[test]
    fn slips_are_said_with_the_right_form() {
        let upper = |text: &str| HeadsetEnd::read(End::Upper, text).unwrap_err().0;
        assert!(upper("EC34/286").contains("did you mean EC34/28.6?"), "{}", upper("EC34/286"));
        assert!(Headset::read("EC34/286 | EC34/30").unwrap_err().0.contains("EC34/28.6"));
        assert!(upper("EC34").ends_with("such as EC34/28.6"), "{}", upper("EC34"));
        let lower = |text: &str| HeadsetEnd::read(End::Lower, text).unwrap_err().0;
        assert!(lower("EC34").ends_with("such as EC34/30") && lower("ZS56").ends_with("such as ZS56/40"), "{}", lower("EC34"));
        assert!(upper("XX34/28.6").contains("not a SHIS code"));
        // 1¼ in is 31.75 mm, not 34.
        assert!(upper("EC44/34").contains("EC44/31.8"), "{}", upper("EC44/34"));
        assert!(Headset::read("ZS44/28.6").unwrap_err().0.contains("upper | lower"));
    }

    #[test]
    fn steerers_go_by_number_or_name() {
        assert_eq!(ends_of("tapered"), Ok((28.6, 40.0)));
        assert_eq!(ends_of("28.6 | 30"), Ok((28.6, 30.0)));
        assert!(ends_of("34").is_err());
    }

    #[test]
    fn the_assumed_height_goes_by_the_codes_that_are_read() {
        use crate::frameset::{Frameset, LowerFit, Standard, read_frameset};
        let mut frameset: Frameset = read_frameset(
            b"Frameset(format: 1, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: {Stack: 600})])",
        )
        .unwrap();
        let mut fit = |code: &str| {
            frameset.standards.insert(Standard::LowerHeadset, code.to_owned());
            frameset.lower_fit()
        };
        for kind in ["EC", "ZS", "IS", "XX"] {
            for tube in 20..70 {
                for race in ["25.4", "26.4", "27", "28.6", "30", "33", "39.8", "40", "400", "x", ""] {
                    let code = format!("{kind}{tube}/{race}");
                    let expected = match HeadsetEnd::read(End::Lower, &code).map(|e| e.kind) {
                        Ok(CupKind::External) => LowerFit::Outside,
                        Ok(CupKind::SemiIntegrated | CupKind::Integrated) => LowerFit::Inside,
                        Err(_) => LowerFit::NotStated,
                    };
                    assert_eq!(fit(&code), expected, "{code}");
                }
            }
        }
    }

    #[test]
    fn what_is_written_reads_back_the_same() {
        // Found by fuzzing: more decimals than a code has.
        for code in ["ZS44/28.61240", "EC34/28.6", "IS42/28,6"] {
            let read = HeadsetEnd::read(End::Upper, code).unwrap();
            assert_eq!(HeadsetEnd::read(End::Upper, &read.to_string()), Ok(read), "{code}");
        }
    }

    #[test]
    fn each_end_is_told_its_own_right_form() {
        let wrong = |end, text: &str| HeadsetEnd::read(end, text).unwrap_err().0;
        assert!(wrong(End::Upper, "44").ends_with("such as ZS44/28.6") && wrong(End::Lower, "44").ends_with("such as ZS56/40"));
        // The upper end holds a steerer, the lower one a crown race.
        let (upper, lower) = (wrong(End::Upper, "ZS44/40"), wrong(End::Lower, "ZS44/25.4"));
        assert!(upper.contains("no steerer of 40") && upper.ends_with("ZS44/38.1?"), "{upper}");
        assert!(lower.contains("no crown race of 25.4") && lower.ends_with("ZS44/26.4?"), "{lower}");
    }

    #[test]
    fn steerer_and_crown_race_must_both_be_made() {
        assert_eq!((ends_of("28.6 | 40"), ends_of("straight")), (Ok((28.6, 40.0)), Ok((28.6, 30.0))));
        for text in ["29 | 40", "28.6 | 41", "40 | 28.6", "28.6", "28.6 | 30 | 40", "wide"] {
            assert!(ends_of(text).is_err(), "{text}");
        }
    }
}
