//! Rims: the bead seat and the inner width, and how wide a tyre becomes on them.

use super::super::reading::{distinct, folded, number, numbers};
use super::super::source::Source;
use super::{NotUnderstood, bead_seat_named, refused};
use crate::frameset::TyreSize;
use crate::units::{Length, Measured};

/// A rim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rim {
    /// Bead seat diameter, mm.
    pub bead_mm: f64,
    /// Width between the flanges, mm, where stated.
    pub inner_mm: Option<f64>,
}

/// How a rim's inner width stands to a tyre's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RimWidth {
    /// Within what is usual.
    Usual,
    /// Outside the usual range.
    Outside,
    /// So far outside that the tyre may come off or be cut.
    FarOutside,
}

/// Where the shares of the tyre's width come from.
pub const RIM_WIDTH_SOURCE: Source =
    Source::Standard("ISO 5775, older editions; from memory; the range around it: trade practice, unverified");

/// Inner width that a tyre is made for, as a share of its width: below 30 mm of tyre, and from there on.
const MADE_FOR: (f64, f64) = (0.65, 0.55);
/// Usual rims, as multiples of the width that a tyre is made for. Trade practice, unverified.
const USUAL: (f64, f64) = (0.7, 1.35);
/// Beyond these multiples a rim is far outside. Trade practice, unverified.
const FAR: (f64, f64) = (0.5, 1.7);
/// How much wider a tyre becomes for each millimetre of rim. Trade practice, unverified.
const WIDER_PER_MM: f64 = 0.4;
/// u of a tyre's width on its rim, mm. Trade practice, unverified.
const WIDTH_U_MM: f64 = 0.8;

impl Rim {
    /// Reads `622 x 25`, `25-622`, `700C, 25 mm inside`, `622`.
    ///
    /// # Errors
    /// No bead seat diameter and no name of one; several inner widths.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let folded = folded(text);
        let found = numbers(&folded);
        let inner = distinct(found.iter().copied(), 9.0..=110.0);
        let beads = distinct(found.iter().copied(), 203.0..=645.0);
        let is_name = |n: f64| n == 700.0 || n == 650.0;
        if let ([bead], false) = (beads.as_slice(), found.iter().any(|n| is_name(*n))) {
            return match inner.as_slice() {
                [] => Ok(Self { bead_mm: *bead, inner_mm: None }),
                [only] => Ok(Self { bead_mm: *bead, inner_mm: Some(*only) }),
                _ => refused(format!("`{folded}` names more than one inner width: write one, such as 622 x 25")),
            };
        }
        // A name, and a width behind an x, a comma or a blank.
        let mut parts = folded.splitn(2, ['x', ',']).map(str::trim);
        let (name, rest) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
        let (name, rest) = match (name.split_once(' '), rest) {
            (Some((first, more)), "") => (first, more),
            _ => (name, rest),
        };
        let bead = bead_seat_named(name, None)?;
        let widths = distinct(numbers(rest), 9.0..=110.0);
        match widths.as_slice() {
            [] => Ok(Self { bead_mm: f64::from(bead), inner_mm: number(rest) }),
            [only] => Ok(Self { bead_mm: f64::from(bead), inner_mm: Some(*only) }),
            _ => refused(format!("`{folded}` names more than one inner width: write one, such as 622 x 25")),
        }
    }
}

/// Inner width that a tyre is made for, mm.
#[must_use]
pub fn made_for_mm(tyre: TyreSize) -> f64 {
    let width = tyre.width_mm();
    width * if width < 30.0 { MADE_FOR.0 } else { MADE_FOR.1 }
}

/// How a rim's inner width, mm, stands to a tyre.
#[must_use]
pub fn rim_width(tyre: TyreSize, inner_mm: f64) -> RimWidth {
    let of = inner_mm / made_for_mm(tyre);
    if (USUAL.0..=USUAL.1).contains(&of) {
        RimWidth::Usual
    } else if (FAR.0..=FAR.1).contains(&of) {
        RimWidth::Outside
    } else {
        RimWidth::FarOutside
    }
}

/// How wide a tyre is on a rim of that inner width, mm; as marked where it is not known.
#[must_use]
pub fn built_width(tyre: TyreSize, inner_mm: Option<f64>) -> Measured<Length> {
    let wider = inner_mm.map_or(0.0, |inner| WIDER_PER_MM * (inner - made_for_mm(tyre)));
    Measured::new(tyre.width_mm() + wider, WIDTH_U_MM)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rims_are_read_with_their_inner_width() {
        for (text, bead, inner) in [
            ("622 x 25", 622.0, Some(25.0)),
            ("25-622", 622.0, Some(25.0)),
            ("622x25c", 622.0, Some(25.0)),
            ("700C, 25 mm inside", 622.0, Some(25.0)),
            ("29 x 30", 622.0, Some(30.0)),
            ("650b 21", 584.0, Some(21.0)),
            ("622", 622.0, None),
            ("27.5", 584.0, None),
        ] {
            assert_eq!(Rim::read(text), Ok(Rim { bead_mm: bead, inner_mm: inner }), "{text}");
        }
        assert!(Rim::read("26 x 25").is_err(), "26 means several wheels");
        assert!(Rim::read("622 x 25 or 30").is_err());
    }

    #[test]
    fn rims_and_tyres_go_together_in_three_steps() {
        let width = |tyre: &str, inner| rim_width(tyre.parse().unwrap(), inner);
        assert_eq!([width("57-622", 13.0), width("23-622", 45.0)], [RimWidth::FarOutside; 2]);
        assert_eq!([width("50-622", 25.0), width("28-622", 17.0), width("40-622", 25.0)], [RimWidth::Usual; 3]);
        assert_eq!([width("57-622", 19.0), width("28-622", 26.0)], [RimWidth::Outside; 2]);
    }

    #[test]
    fn a_tyre_grows_with_its_rim() {
        let tyre: TyreSize = "50-622".parse().unwrap();
        // Made for 27.5 mm: 2.5 mm less are 1 mm of tyre.
        assert!((built_width(tyre, Some(25.0)).value - 49.0).abs() < 1e-9);
        assert!((built_width(tyre, Some(30.0)).value - 51.0).abs() < 1e-9);
        assert_eq!(built_width(tyre, None).value, 50.0);
    }
}
