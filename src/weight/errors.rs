//! What makes the ± of a weight, part by part. Two weights that share a part (a typed factor, a maker's claims, the tubes of
//! one frameset) differ by less than their ± together.

use crate::frameset::{Part, SizeIndex, Tube};
use crate::units::{Mass, Measured};

/// What an error of a weight is of. Sizes and weights are places in the frameset.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ErrorSource {
    /// The factor that the user typed for the whole line-up.
    TypedFactor,
    /// How far a frameset's own step lies from a typed factor, or a factor that was typed for one weight.
    OwnFactor(Part),
    /// How far all weights that a maker claims of a frameset lie from the scale.
    Claims(Part),
    /// A published weight: its rounding, and that one specimen was on the scale.
    Published(usize),
    /// A weight whose size is not published.
    SizeNotPublished(Part),
    /// What a frame weighs apart from its tubes.
    FixedParts(Part),
    /// A tube's weight beside the other tubes'.
    Tube(Part, Tube),
    /// The figures that the tubes' lengths in a size follow from.
    Figures(Part, SizeIndex),
    /// A millimetre of steerer.
    Steerer,
    /// How far a size's weight lies from the straight line between others.
    StraightLine(Part, SizeIndex),
    /// A line of the ledger.
    Line(Part, usize),
}

impl ErrorSource {
    /// Whether the same error is in two weights of these sources, of one frameset or of two.
    fn is_shared(self, other: Self, is_one_frameset: bool) -> bool {
        match self {
            Self::Line(..) => false,
            Self::TypedFactor => self == other,
            _ => is_one_frameset && self == other,
        }
    }
}

/// One part of a weight's u, g, with its sign: two parts of one source move together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightError {
    /// What it is of.
    pub source: ErrorSource,
    /// One standard uncertainty of the source moves the weight by so much.
    pub grams: f64,
}

impl WeightError {
    /// Of a source.
    #[must_use]
    pub const fn new(source: ErrorSource, grams: f64) -> Self {
        Self { source, grams }
    }

    /// The same error of a weight that is so many times as large.
    #[must_use]
    pub const fn times(self, factor: f64) -> Self {
        Self { grams: self.grams * factor, ..self }
    }
}

/// The errors with those of one source taken together.
#[must_use]
pub(super) fn gathered(errors: impl IntoIterator<Item = WeightError>) -> Vec<WeightError> {
    let mut all: Vec<WeightError> = Vec::new();
    for error in errors {
        match all.iter_mut().find(|e| e.source == error.source) {
            Some(same) => same.grams += error.grams,
            None => all.push(error),
        }
    }
    all
}

/// The standard uncertainty that gathered errors make.
#[must_use]
pub(super) fn u_of(errors: &[WeightError]) -> f64 {
    errors.iter().map(|e| e.grams * e.grams).sum::<f64>().sqrt()
}

/// How much heavier a weight is than another, with what both share left out of the u: errors of one source move both.
#[must_use]
pub fn weight_difference(
    own: (Measured<Mass>, &[WeightError]),
    other: (Measured<Mass>, &[WeightError]),
    is_one_frameset: bool,
) -> Measured<Mass> {
    let mut left: Vec<WeightError> = own.1.to_vec();
    for error in other.1 {
        match left.iter_mut().find(|e| e.source.is_shared(error.source, is_one_frameset)) {
            Some(shared) => shared.grams -= error.grams,
            None => left.push(*error),
        }
    }
    Measured::new(own.0.value - other.0.value, u_of(&left))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_two_weights_share_drops_out_of_their_difference() {
        let of = |grams: f64, errors: &[WeightError]| (Measured::new(grams, u_of(errors)), errors.to_vec());
        let factor = |grams| WeightError::new(ErrorSource::TypedFactor, grams);
        let own = |grams| WeightError::new(ErrorSource::OwnFactor(Part::Frame), grams);
        let line = |grams| WeightError::new(ErrorSource::Line(Part::Frame, 0), grams);
        let (a, of_a) = of(2600.0, &[factor(40.0), own(20.0), line(3.0)]);
        let (b, of_b) = of(2500.0, &[factor(38.0), own(19.0), line(4.0)]);
        assert!((a.u - 40f64.hypot(20.0).hypot(3.0)).abs() < 1e-12);
        let two = weight_difference((a, &of_a), (b, &of_b), false);
        assert!((two.value - 100.0).abs() < 1e-12);
        assert!((two.u - 2f64.hypot(20.0).hypot(19.0).hypot(5.0)).abs() < 1e-12, "{}", two.u);
        let one = weight_difference((a, &of_a), (b, &of_b), true);
        assert!((one.u - 2f64.hypot(1.0).hypot(5.0)).abs() < 1e-12, "{}", one.u);
        // Of opposite sign, the shared part counts twice.
        let (_, down) = of(2400.0, &[factor(-38.0)]);
        assert!((weight_difference((a, &of_a[..1]), (b, &down), false).u - 78.0).abs() < 1e-12);
    }

    #[test]
    fn errors_of_one_source_are_gathered() {
        let both = gathered(
            [ErrorSource::Published(0), ErrorSource::Steerer, ErrorSource::Published(0)].map(|s| WeightError::new(s, 2.0)),
        );
        assert_eq!(both.iter().map(|e| e.grams).collect::<Vec<_>>(), [4.0, 2.0]);
    }
}
