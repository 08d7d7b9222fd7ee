//! A distance measured on the outline.

use super::labels::drawings as labels;
use crate::geometry::Point;
use crate::units::{Quantity, System, fixed};

/// A distance measured on the drawing, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Measure {
    /// Where the drag began.
    pub(crate) from: Point<f64>,
    /// Where it is or was let go.
    pub(crate) to: Point<f64>,
}

impl Measure {
    /// Length, and angle from the horizontal (0 to 180° as lines have it, rising to the right up to 90°), in words.
    pub(crate) fn words(self, units: System) -> String {
        let (dx, dy) = (self.to.x - self.from.x, self.to.y - self.from.y);
        let number = |mm: f64| {
            let decimals = if units == System::Metric { 0 } else { 2 };
            units.with_unit(Quantity::Length, &fixed(mm * units.factor(Quantity::Length), decimals))
        };
        let angle = dy.atan2(dx).to_degrees().rem_euclid(180.0);
        labels::measured_between(&number(dx.hypot(dy)), &fixed(angle, 1), &number(dx.abs()), &number(dy.abs()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_measure_is_the_same_from_either_end() {
        let (a, b) = (Point { x: 0.0, y: 0.0 }, Point { x: 300.0, y: 400.0 });
        let words = Measure { from: a, to: b }.words(System::Metric);
        assert_eq!(words, Measure { from: b, to: a }.words(System::Metric));
        assert!(words.starts_with("500\u{2009}mm at 53.1°"), "{words}");
    }
}
