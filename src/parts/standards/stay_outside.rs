//! The outside of the right chainstay, as it is measured on a frame or published: how far from the frame's middle it lies at
//! places behind the bottom bracket.

use super::super::reading::{folded, mm, numbers};
use super::{NotUnderstood, refused};
use crate::units::{Length, Measured};

/// Places behind the bottom bracket, and distances from the middle, that are read, mm.
const BEHIND_MM: std::ops::RangeInclusive<f64> = 20.0..=300.0;
const OUT_MM: std::ops::RangeInclusive<f64> = 15.0..=120.0;
/// u of a distance measured with a rule. An assumption.
const U_MM: f64 = 0.5;
/// A stay between two places so far apart is taken as straight, mm, with this much more u for each mm to the nearer one. An
/// assumption: stays bend.
const STRAIGHT_MM: (f64, f64) = (60.0, 0.05);
/// How far beyond a place it is still told, mm, and the u for each mm: a stay leans by up to a fifth. An assumption.
const BEYOND_MM: (f64, f64) = (15.0, 0.1);

/// The outside of the right chainstay.
#[derive(Clone, Debug, PartialEq)]
pub struct StayOutside {
    /// Behind the bottom bracket's axis and from the frame's middle, mm, from front to rear.
    pub places: Vec<(f64, f64)>,
}

impl StayOutside {
    /// Reads `48 at 90`, `48 mm at 90 mm, 62 mm at 170 mm`: out from the middle, at so much behind the bottom bracket.
    ///
    /// # Errors
    /// No such pair, or a number out of range.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let mut places: Vec<(f64, f64)> = Vec::new();
        for clause in folded(text).split([',', ';']).filter(|c| !c.trim().is_empty()) {
            let pair = clause.split_once(" at ").map(|(out, behind)| (numbers(out), numbers(behind)));
            let Some((&[out], &[behind])) = pair.as_ref().map(|(out, behind)| (out.as_slice(), behind.as_slice())) else {
                return refused(format!(
                    "`{}` is not a chainstay’s outside: write mm from the middle at mm behind the bottom bracket, such as 48 at 90",
                    text.trim()
                ));
            };
            if !OUT_MM.contains(&out) || !BEHIND_MM.contains(&behind) {
                return refused(format!(
                    "`{}`: {} from the middle at {} behind: write 15 to 120 mm at 20 to 300 mm, such as 48 at 90",
                    text.trim(),
                    mm(out),
                    mm(behind)
                ));
            }
            places.push((behind, out));
        }
        if places.is_empty() {
            return refused("the chainstay’s outside is empty: write such as 48 at 90");
        }
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        if places.windows(2).any(|w| w[0].0 == w[1].0) {
            return refused(format!("`{}` names one place twice: write each once, such as 48 at 90, 62 at 170", text.trim()));
        }
        Ok(Self { places })
    }

    /// How far out it lies at a place behind the bottom bracket; `None` too far from where it is measured.
    #[must_use]
    pub fn at(&self, behind_mm: f64) -> Option<Measured<Length>> {
        let around = self.places.windows(2).find_map(|pair| match pair {
            [a, b] if (a.0..=b.0).contains(&behind_mm) && b.0 - a.0 <= STRAIGHT_MM.0 => Some((*a, *b)),
            _ => None,
        });
        if let Some((a, b)) = around {
            let out = a.1 + (behind_mm - a.0) / (b.0 - a.0) * (b.1 - a.1);
            let off = (behind_mm - a.0).min(b.0 - behind_mm);
            return Some(Measured::new(out, U_MM.hypot(off * STRAIGHT_MM.1)));
        }
        let off = |place: &&(f64, f64)| (place.0 - behind_mm).abs();
        let nearest = self.places.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        let off = off(&nearest);
        (off <= BEYOND_MM.0).then(|| Measured::new(nearest.1, U_MM.hypot(off * BEYOND_MM.1)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_read_in_any_order() {
        let read = |text: &str| StayOutside::read(text).map(|s| s.places);
        assert_eq!(read("62 mm at 170 mm; 48 at 90"), Ok(vec![(90.0, 48.0), (170.0, 62.0)]));
        for text in ["", "48", "at 90", "48 at", "8 at 90", "48 at 900", "48 at 90, 50 at 90", "48 at 90 or 100"] {
            assert!(read(text).unwrap_err().0.contains("48 at 90"), "{text}");
        }
    }

    #[test]
    fn between_two_places_it_is_straight_and_far_from_all_it_is_unknown() {
        let stay = StayOutside::read("40 at 60, 50 at 110, 66 at 190").unwrap();
        let at = |behind: f64| stay.at(behind).map(|m| m.value);
        assert_eq!((at(60.0), at(85.0), at(110.0)), (Some(40.0), Some(45.0), Some(50.0)));
        assert_eq!((at(48.0), at(44.0)), (Some(40.0), None));
        // 110 and 190 lie too far apart to say what is between them.
        assert_eq!((at(120.0), at(150.0), at(180.0)), (Some(50.0), None, Some(66.0)));
        assert_eq!(stay.at(60.0).unwrap().u, U_MM);
        assert!(stay.at(85.0).unwrap().u > stay.at(65.0).unwrap().u && stay.at(120.0).unwrap().u > 1.0);
    }
}
