//! A shape's page, its safe area and the least size of its text.
//!
//! A video shape is laid out with 720 page units along its shorter side, whatever its pixels: every resolution is the same
//! sheet in another grain.

use crate::drawing::{Page, Rect};
use crate::lineup::{Block, Shape};

/// Higher than any sheet: the height of a column before it is known.
pub(super) const UNBOUNDED: f64 = 100_000.0;

/// The least text on the shapes for screens, page units: 1/40 of the shorter side.
///
/// Why: a telephone's screen is about 65 mm across its shorter side and is held about 300 mm from the
/// eye (both trade practice, unverified). Text of 1/40 of that is 1.63 mm, its small letters (0.535 of it in our font) 0.87 mm: ten
/// minutes of arc, twice what an eye of normal acuity just resolves (five minutes, ISO 8596), which is the usual reserve
/// for text that is read rather than deciphered (trade practice, unverified).
pub const LEAST_ON_SCREENS: f64 = 18.0;

/// The least text on paper, page units of 1/96 inch: 8.25 points on A4, and √2 times that on A3, which hangs farther away.
pub const LEAST_ON_PAPER: f64 = 11.0;

/// Shorter side of a video shape, page units.
const SHORT_SIDE: f64 = 720.0;
/// Page units a millimetre of paper.
const PER_MM: f64 = 96.0 / 25.4;

/// How a shape is laid out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Format {
    width: f64,
    height: f64,
    /// What stays free at the sides, and at the top and the bottom, page units.
    pub(super) margin: (f64, f64),
    /// The least text size, page units.
    pub least: f64,
}

impl Format {
    /// A shape's.
    #[must_use]
    pub fn of(shape: Shape) -> Self {
        let long = SHORT_SIDE * 16.0 / 9.0;
        // Graphics keep to the inner 90 % of each side of a video picture (SMPTE ST 2046-1, safe title area).
        let video =
            |width: f64, height: f64| Self { width, height, margin: (width * 0.05, height * 0.05), least: LEAST_ON_SCREENS };
        match shape {
            Shape::Wide => video(long, SHORT_SIDE),
            Shape::Upright => video(SHORT_SIDE, long),
            Shape::Square => video(SHORT_SIDE, SHORT_SIDE),
            Shape::BlogColumn => Self { width: SHORT_SIDE, height: UNBOUNDED, margin: (24.0, 26.0), least: LEAST_ON_SCREENS },
            // A3 is A4 enlarged.
            Shape::A4 | Shape::A3 => Self::paper(210.0, 297.0),
            Shape::A4Landscape | Shape::A3Landscape => Self::paper(297.0, 210.0),
        }
    }

    /// Paper with margins of 14 mm, which printers can do.
    fn paper(width_mm: f64, height_mm: f64) -> Self {
        let margin = 14.0 * PER_MM;
        Self { width: width_mm * PER_MM, height: height_mm * PER_MM, margin: (margin, margin), least: LEAST_ON_PAPER }
    }

    /// The page; of a column, one that is too high.
    #[must_use]
    pub const fn page(self) -> Page {
        Page { width: self.width, height: self.height }
    }

    /// Where everything of meaning lies.
    #[must_use]
    pub fn safe(self) -> Rect {
        let (x, y) = self.margin;
        Rect::new(x, y, self.width - 2.0 * x, self.height - 2.0 * y)
    }

    /// Whether what is written stands beside the drawings.
    pub(super) fn is_wide(self) -> bool {
        self.width > self.height * 1.2
    }

    /// Whether it is neither wide nor high.
    pub(super) fn is_square(self) -> bool {
        self.width == self.height
    }

    /// How many lines of footnotes it has room for.
    pub(super) fn foot_lines(self) -> usize {
        if self.least == LEAST_ON_PAPER {
            return 16;
        }
        if self.height > self.width { 9 } else { 3 }
    }

    /// By how much a drawing is enlarged so that its least text (twelve units on outlines and rooms, eleven on plots) is as large
    /// as text has to be; and by how much its lines are.
    pub(super) fn enlarged(self, block: Block) -> (f64, f64) {
        let by = self.least / if matches!(block, Block::Outline | Block::Bags) { 12.0 } else { 11.0 };
        (by, by.powf(0.45))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 90 % of 1920 × 1080 is 1728 × 972 from 96, 54 (SMPTE ST 2046-1).
    #[test]
    fn the_safe_area_is_that_of_television() {
        let format = Format::of(Shape::Wide);
        let pixels = 1920.0 / format.page().width;
        let safe = format.safe();
        let found = [safe.x, safe.y, safe.width, safe.height].map(|v| v * pixels);
        for (found, expected) in found.into_iter().zip([96.0, 54.0, 1728.0, 972.0]) {
            assert!((found - expected).abs() < 1e-9, "{found} {expected}");
        }
    }

    #[test]
    fn the_least_text_is_ten_minutes_of_arc_on_a_telephone() {
        // 65 mm across the shorter side, 300 mm away, small letters 0.535 of the size.
        let x_height_mm = LEAST_ON_SCREENS / SHORT_SIDE * 65.0 * 0.535;
        let minutes = (x_height_mm / 300.0).atan().to_degrees() * 60.0;
        assert!((9.9..10.2).contains(&minutes), "{minutes}");
    }
}
