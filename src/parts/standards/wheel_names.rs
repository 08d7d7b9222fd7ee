//! Trade names of wheels and the bead seat diameters (ISO 5775) that they stand for. A name that means more than one is
//! refused until one is chosen.

use super::super::reading::{folded, says};
use super::super::source::Source;
use super::{NotUnderstood, refused};

/// A trade name and what it means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NameRow {
    /// The name as printed, without the width.
    pub name: &'static str,
    /// Bead seat diameters that it is used for, mm, the commonest first.
    pub bead_seats: &'static [u16],
    /// How that is known.
    pub source: Source,
}

/// The names. Those with one meaning come first.
pub const NAMES: &[NameRow] = &[
    NameRow { name: "700C", bead_seats: &[622], source: Source::TradePractice },
    NameRow { name: "29", bead_seats: &[622], source: Source::TradePractice },
    NameRow { name: "650B", bead_seats: &[584], source: Source::TradePractice },
    NameRow { name: "27.5", bead_seats: &[584], source: Source::TradePractice },
    NameRow { name: "650C", bead_seats: &[571], source: Source::TradePractice },
    NameRow { name: "650A", bead_seats: &[590], source: Source::TradePractice },
    NameRow { name: "700A", bead_seats: &[642], source: Source::TradePractice },
    NameRow { name: "700B", bead_seats: &[635], source: Source::TradePractice },
    NameRow { name: "27", bead_seats: &[630], source: Source::TradePractice },
    NameRow { name: "22", bead_seats: &[457], source: Source::TradePractice },
    NameRow { name: "18", bead_seats: &[355], source: Source::TradePractice },
    NameRow { name: "26", bead_seats: &[559, 584, 590, 571, 597, 599], source: Source::TradePractice },
    NameRow { name: "28", bead_seats: &[622, 635, 642], source: Source::TradePractice },
    NameRow { name: "24", bead_seats: &[507, 540, 520, 547], source: Source::TradePractice },
    NameRow { name: "20", bead_seats: &[406, 451, 419, 440], source: Source::TradePractice },
    NameRow { name: "16", bead_seats: &[305, 349, 340], source: Source::TradePractice },
    NameRow { name: "700", bead_seats: &[622, 635, 642], source: Source::TradePractice },
    NameRow { name: "650", bead_seats: &[584, 571, 590], source: Source::TradePractice },
];

/// An inch name with its width, as far as the width settles the rim: decimals and fractions are never the same size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WidthRow {
    /// The name, as in [`NAMES`].
    pub name: &'static str,
    /// Widths as printed, fractions with a stroke; `decimal` for every decimal one.
    pub widths: &'static [&'static str],
    /// Bead seat diameter, mm.
    pub bead_seat: u16,
    /// How that is known.
    pub source: Source,
}

/// The names that a width settles.
pub const BY_WIDTH: &[WidthRow] = &[
    WidthRow { name: "28", widths: &["decimal"], bead_seat: 622, source: Source::TradePractice },
    WidthRow { name: "28", widths: &["1 1/2"], bead_seat: 635, source: Source::TradePractice },
    WidthRow { name: "28", widths: &["1 5/8", "1 3/8"], bead_seat: 622, source: Source::TradePractice },
    WidthRow { name: "26", widths: &["decimal"], bead_seat: 559, source: Source::TradePractice },
    WidthRow { name: "26", widths: &["1 1/2"], bead_seat: 584, source: Source::TradePractice },
    WidthRow { name: "26", widths: &["1 3/8"], bead_seat: 590, source: Source::TradePractice },
    WidthRow { name: "26", widths: &["1"], bead_seat: 571, source: Source::TradePractice },
    WidthRow { name: "24", widths: &["decimal"], bead_seat: 507, source: Source::TradePractice },
    WidthRow { name: "24", widths: &["1 3/8"], bead_seat: 540, source: Source::TradePractice },
    WidthRow { name: "24", widths: &["1"], bead_seat: 520, source: Source::TradePractice },
    WidthRow { name: "20", widths: &["decimal"], bead_seat: 406, source: Source::TradePractice },
    WidthRow { name: "20", widths: &["1 3/8"], bead_seat: 451, source: Source::TradePractice },
    WidthRow { name: "16", widths: &["decimal"], bead_seat: 305, source: Source::TradePractice },
    WidthRow { name: "16", widths: &["1 3/8"], bead_seat: 349, source: Source::TradePractice },
];

fn is_bead_seat(mm: u16) -> bool {
    NAMES.iter().any(|r| r.bead_seats.contains(&mm))
}

fn row(name: &str) -> Option<&'static NameRow> {
    let name = folded(name);
    let name = name.trim_end_matches(['"', '″', '\'']).trim();
    let name = name.strip_suffix("inch").or_else(|| name.strip_suffix("in")).unwrap_or(name).trim();
    let name = name.strip_suffix("er").unwrap_or(name);
    NAMES.iter().find(|r| r.name.eq_ignore_ascii_case(name))
}

/// The bead seat diameter that a trade name stands for, mm; `width` as printed behind the `x`, where there is one.
///
/// # Errors
/// A name that means several until one is chosen, with the candidates; a name that is not known.
///
/// # Examples
/// ```
/// use spandrel::parts::standards::bead_seat_named;
/// assert_eq!(bead_seat_named("29", None)?, 622);
/// assert_eq!(bead_seat_named("26", Some("1.5"))?, 559);
/// assert_eq!(bead_seat_named("26", Some("1 1/2"))?, 584);
/// assert!(bead_seat_named("26", None).is_err());
/// # Ok::<(), spandrel::parts::standards::NotUnderstood>(())
/// ```
pub fn bead_seat_named(name: &str, width: Option<&str>) -> Result<u16, NotUnderstood> {
    let Some(row) = row(name) else {
        if let (Some(bead), Some(width)) = (name.trim().parse().ok().filter(|n| is_bead_seat(*n)), width) {
            return refused(format!("`{bead} x {width}` has the width behind: write {width}-{bead}"));
        }
        return refused(format!(
            "`{}` is not a wheel's name that is known here: write its bead seat diameter, such as 622",
            name.trim()
        ));
    };
    if let [only] = row.bead_seats {
        return Ok(*only);
    }
    if let Some(width) = width.map(fraction) {
        let is_decimal = width.contains('.');
        let fits = |w: &WidthRow| w.name == row.name && w.widths.iter().any(|x| *x == width || (is_decimal && *x == "decimal"));
        if let Some(found) = BY_WIDTH.iter().find(|w| fits(w)) {
            return Ok(found.bead_seat);
        }
    }
    let list: Vec<String> = row.bead_seats.iter().map(ToString::to_string).collect();
    refused(format!(
        "`{}` has meant more than one wheel ({}): write the one on the tyre's wall, such as 47-{}",
        name.trim(),
        list.join(", "),
        list.first().map_or("622", String::as_str)
    ))
}

/// `1½`, `1-1/2`, `1 1/2` alike.
fn fraction(width: &str) -> String {
    let spaced = width.trim().replace('½', " 1/2").replace('⅜', " 3/8").replace('⅝', " 5/8").replace('-', " ").replace(',', ".");
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The trade names that a bead seat diameter goes by.
pub fn names_of(bead_seat: u16) -> impl Iterator<Item = &'static str> {
    NAMES.iter().filter(move |r| r.bead_seats.contains(&bead_seat)).map(|r| r.name)
}

/// A trade name beside a designation (`44-622, 26 in`) that never means that wheel: a sentence.
pub(super) fn contradiction(text: &str, bead_seat: u16) -> Option<String> {
    let text = folded(text);
    for row in NAMES {
        let name = row.name.to_ascii_lowercase();
        let is_named = [format!("{name} in"), format!("{name} inch"), format!("{name}\""), format!("{name}er")]
            .iter()
            .any(|form| text.contains(form.as_str()) && says(&text, form.trim_end_matches('"')))
            || (name.contains(['a', 'b', 'c']) && says(&text, &name));
        if is_named && !row.bead_seats.contains(&bead_seat) {
            let own: Vec<&str> = names_of(bead_seat).collect();
            let means: Vec<String> = row.bead_seats.iter().map(ToString::to_string).collect();
            return Some(format!(
                "{bead_seat} mm is never called {}: that name means {} mm; {bead_seat} mm is sold as {}",
                row.name,
                means.join(" or "),
                if own.is_empty() { "nothing else".to_owned() } else { own.join(" or ") }
            ));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_one_meaning_are_taken() {
        // Trade practice, unverified.
        for (name, bead_seat) in
            [("700C", 622), ("29 in", 622), ("29er", 622), ("29\"", 622), ("27.5", 584), ("650b", 584), ("27", 630)]
        {
            assert_eq!(bead_seat_named(name, None), Ok(bead_seat), "{name}");
        }
    }

    #[test]
    fn decimals_and_fractions_are_never_the_same() {
        // 26 × 1.5 (559) and 26 × 1½ (584) are different sizes: trade practice, unverified.
        assert_eq!(bead_seat_named("26", Some("1.5")), Ok(559));
        assert_eq!(bead_seat_named("26", Some("1½")), Ok(584));
        assert_eq!(bead_seat_named("26", Some("1 3/8")), Ok(590));
        // 24 × 1.5 to 2.125 is 507, 20 × 1.5 to 2.125 is 406, 16 × 1.75 is 305: trade practice, unverified.
        assert_eq!(bead_seat_named("24", Some("2.125")), Ok(507));
        assert_eq!(bead_seat_named("20", Some("1.75")), Ok(406));
        assert_eq!(bead_seat_named("16", Some("1.75")), Ok(305));
    }

    #[test]
    fn a_name_of_several_meanings_is_refused_with_all_of_them() {
        // At least six different sizes are called 26 in: trade practice, unverified.
        let NotUnderstood(sentence) = bead_seat_named("26", None).unwrap_err();
        for bead_seat in ["559", "571", "584", "590", "597", "599"] {
            assert!(sentence.contains(bead_seat), "{sentence}");
        }
        for name in ["28", "24", "20", "16", "700", "650"] {
            assert!(bead_seat_named(name, None).is_err(), "{name}");
        }
        // 27 in (630) is larger than 28 in (622): ISO 5775 designations.
        assert!(bead_seat_named("27", None).unwrap() > bead_seat_named("28", Some("1.5")).unwrap());
    }

    #[test]
    fn a_name_that_contradicts_the_designation_is_seen() {
        assert!(contradiction("44-622, 26 in", 622).is_some_and(|s| s.contains("29") && s.contains("559")));
        assert!(contradiction("44-622, 29 in", 622).is_none());
        assert!(contradiction("44-622", 622).is_none());
        assert!(contradiction("47-584 (650B)", 584).is_none());
        assert!(contradiction("47-622 (650B)", 622).is_some());
    }
}
