//! Seat posts: diameters in use and the least length inside the tube.

use super::super::reading::{distinct, folded, mm, nearest_value, numbers, plain, same_digits, says, says_any};
use super::super::source::Source;
use super::{DiameterRow, NotUnderstood, diameter, refused};

/// Diameters in use.
pub const POST_DIAMETERS: &[DiameterRow] = &[
    diameter(25.4, "small frames, children's bicycles"),
    diameter(26.8, "older steel frames"),
    diameter(27.0, "older steel frames"),
    diameter(27.2, "road, touring"),
    diameter(28.6, "some aluminium frames"),
    diameter(29.8, "some aluminium frames"),
    diameter(30.0, "some aluminium frames"),
    diameter(30.4, "some trail frames"),
    diameter(30.9, "trail, dropper posts"),
    diameter(31.4, "some aluminium frames"),
    diameter(31.6, "trail, dropper posts"),
    diameter(33.9, "folding bicycles"),
    diameter(34.9, "trail, dropper posts"),
];

/// Where the least insertion comes from.
pub const LEAST_INSERTION: Source = Source::Standard("ISO 4210-2, 4.16.2; from memory");

/// The least length of a post inside the tube, mm: twice its diameter, counted from the post's end.
#[must_use]
pub fn least_insertion_mm(diameter_mm: f64) -> f64 {
    2.0 * diameter_mm
}

/// A seat post, or the tube for one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeatPost {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Whole length, mm, where stated.
    pub length_mm: Option<f64>,
    /// Travel of a dropper post, mm.
    pub drop_mm: Option<f64>,
    /// Whether its cable or hose runs inside the frame.
    pub is_routed_inside: bool,
}

impl SeatPost {
    /// Reads `27.2`, `27.2 x 350`, `30.9 x 430, drops 125, inside`.
    ///
    /// # Errors
    /// A diameter outside 20 to 40 mm, with the nearest one in use.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        let found = numbers(&text);
        let Some(diameter_mm) = found.iter().copied().find(|n| (20.0..=40.0).contains(n)) else {
            let known = || POST_DIAMETERS.iter().map(|r| r.mm);
            let first = found.first().copied().unwrap_or(27.2);
            let near = same_digits(first, known()).or_else(|| nearest_value(first, known())).unwrap_or(27.2);
            return refused(format!("`{text}` is not a valid seat post diameter, 20 to 40 mm: did you mean {}?", plain(near)));
        };
        let drop_mm = drop_of(&text, &found);
        let is_length = |n: &f64| (150.0..=650.0).contains(n) && Some(*n) != drop_mm;
        let length_mm = match distinct(found.iter().copied().filter(is_length), 0.0..=f64::INFINITY).as_slice() {
            [] => None,
            [only] => Some(*only),
            _ => return refused(format!("`{text}` names more than one length: write one, such as 27.2 x 350")),
        };
        if let Some(other) = found.iter().copied().find(|n| *n > 650.0) {
            return refused(format!("`{text}`: a post {} long is not made: 150 to 650 mm", mm(other)));
        }
        let is_routed_inside = says(&text, "inside") || says(&text, "internal");
        Ok(Self { diameter_mm, length_mm, drop_mm, is_routed_inside })
    }
}

/// The travel of a dropper post: behind "drops", or the one number of 50 to 250 beside "travel" or "dropper".
fn drop_of(text: &str, found: &[f64]) -> Option<f64> {
    if let Some(rest) = text.split("drops").nth(1) {
        return numbers(rest).first().copied();
    }
    let is_dropper = says_any(text, &["travel", "drop", "dropper"]);
    match distinct(found.iter().copied().filter(|n| *n != 0.0), 50.0..=250.0).as_slice() {
        [only] if is_dropper => Some(*only),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn posts_are_read_and_slips_are_seen() {
        let post = SeatPost::read("27.2 x 350").unwrap();
        assert_eq!((post.diameter_mm, post.length_mm), (27.2, Some(350.0)));
        let dropper = SeatPost::read("30.9 x 430, drops 125, inside").unwrap();
        assert_eq!((dropper.length_mm, dropper.drop_mm, dropper.is_routed_inside), (Some(430.0), Some(125.0), true));
        for text in ["30.9 x 430, 150 mm travel", "dropper 30.9, travel 150 mm, 430 mm long"] {
            let post = SeatPost::read(text).unwrap();
            assert_eq!((post.length_mm, post.drop_mm), (Some(430.0), Some(150.0)), "{text}");
        }
        assert_eq!(SeatPost::read("dropper 30.9, 150 mm travel").unwrap().length_mm, None, "the travel is no length");
        assert!(SeatPost::read("272").unwrap_err().0.contains("27.2"));
        assert!(SeatPost::read("27.2 x 3500").is_err());
        // Two diameters of a 27.2 mm post are 54.4 mm (ISO 4210-2, 4.16.2; from memory).
        assert_eq!(least_insertion_mm(27.2), 54.4);
    }
}
