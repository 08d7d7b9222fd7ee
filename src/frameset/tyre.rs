//! Tyre designations of ISO 5775: nominal section width, a hyphen, nominal rim (bead seat) diameter, both in
//! millimetres, as in `47-622`.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A tyre by its ISO 5775 designation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct TyreSize {
    width_mm: u16,
    bead_seat_mm: u16,
}

/// Why a text is not a tyre designation.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TyreError {
    /// Not two whole numbers around a hyphen.
    #[error(
        "`{0}` is not a tyre designation: write section width, hyphen, bead seat diameter as ISO 5775 does, for example `47-622`"
    )]
    Form(String),
    /// The two numbers stand in each other's place.
    #[error("`{given}` is the wrong way round: the width comes first, so write `{turned}`")]
    Turned {
        /// As it was given.
        given: String,
        /// As it should be.
        turned: String,
    },
    /// The width is outside 18 to 150 mm.
    #[error("tyre width {0} mm is outside 18 to 150 mm")]
    Width(u32),
    /// The bead seat diameter is outside 203 to 787 mm.
    #[error("bead seat diameter {0} mm is outside 203 to 787 mm")]
    BeadSeat(u32),
}

impl TyreSize {
    /// Width 18 to 150 mm, bead seat diameter 203 to 787 mm.
    ///
    /// # Errors
    /// When either is outside its range, or they are the wrong way round.
    pub fn new(width_mm: u32, bead_seat_mm: u32) -> Result<Self, TyreError> {
        let is_width = |mm: u32| (18..=150).contains(&mm);
        let is_bead_seat = |mm: u32| (203..=787).contains(&mm);
        if is_bead_seat(width_mm) && is_width(bead_seat_mm) {
            return Err(TyreError::Turned {
                given: format!("{width_mm}-{bead_seat_mm}"),
                turned: format!("{bead_seat_mm}-{width_mm}"),
            });
        }
        if !is_width(width_mm) {
            return Err(TyreError::Width(width_mm));
        }
        if !is_bead_seat(bead_seat_mm) {
            return Err(TyreError::BeadSeat(bead_seat_mm));
        }
        let narrow = |mm: u32| u16::try_from(mm).unwrap_or(u16::MAX);
        Ok(Self { width_mm: narrow(width_mm), bead_seat_mm: narrow(bead_seat_mm) })
    }

    /// Nominal section width, mm.
    #[must_use]
    pub fn width_mm(self) -> f64 {
        f64::from(self.width_mm)
    }

    /// Nominal bead seat diameter of the rim, mm.
    #[must_use]
    pub fn bead_seat_mm(self) -> f64 {
        f64::from(self.bead_seat_mm)
    }

    /// The same as the whole number that it is, mm.
    #[must_use]
    pub const fn bead_seat(self) -> u16 {
        self.bead_seat_mm
    }

    /// Radius of the tyre as it stands: bead seat diameter / 2 + section width, mm. ISO 5775 takes the section as high
    /// as it is wide.
    #[must_use]
    pub fn radius_mm(self) -> f64 {
        self.bead_seat_mm() / 2.0 + self.width_mm()
    }
}

impl fmt::Display for TyreSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.width_mm, self.bead_seat_mm)
    }
}

impl FromStr for TyreSize {
    type Err = TyreError;

    fn from_str(text: &str) -> Result<Self, TyreError> {
        let form = || TyreError::Form(text.to_owned());
        let (width, bead_seat) = text.split_once(['-', '–', '\u{2010}', '\u{2011}']).ok_or_else(form)?;
        let number = |part: &str| -> Option<u32> {
            let part = part.trim();
            let short = (1..=4).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
            if short { part.parse().ok() } else { None }
        };
        Self::new(number(width).ok_or_else(form)?, number(bead_seat).ok_or_else(form)?)
    }
}

impl Serialize for TyreSize {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for TyreSize {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn designations_of_iso_5775_are_read() {
        // ISO 5775-1: width, hyphen, nominal rim diameter.
        for (text, width, bead_seat) in
            [("47-622", 47.0, 622.0), ("28-622", 28.0, 622.0), ("32-597", 32.0, 597.0), (" 57 - 584 ", 57.0, 584.0)]
        {
            let tyre: TyreSize = text.parse().unwrap_or_else(|e| panic!("{e}"));
            assert_eq!((tyre.width_mm(), tyre.bead_seat_mm()), (width, bead_seat));
        }
        // Radius by the rule "overall diameter = rim diameter + 2 × section": 47-622 is 716 mm, pi·716 = 2249.38 mm.
        let tyre = TyreSize::new(47, 622).unwrap_or_else(|e| panic!("{e}"));
        assert!((std::f64::consts::TAU * tyre.radius_mm() - 2249.38).abs() < 0.01);
    }

    #[test]
    fn what_is_wrong_is_said_with_the_right_form() {
        let turned = "622-47".parse::<TyreSize>().unwrap_err().to_string();
        assert!(turned.contains("wrong way round") && turned.contains("`47-622`"), "{turned}");
        for bad in ["", "47", "47-", "x-622", "47-622-1", "4.7-622", "+47-622", "99999999999-622"] {
            assert!(matches!(bad.parse::<TyreSize>(), Err(TyreError::Form(_))), "{bad}");
        }
        assert_eq!("17-622".parse::<TyreSize>(), Err(TyreError::Width(17)));
        assert_eq!("47-800".parse::<TyreSize>(), Err(TyreError::BeadSeat(800)));
    }
}
