//! Weights as published, and brought to the size compared by the factor that the user typed.
//!
//! A frame's weight is never set beside a frameset's: what is not published and cannot be summed is not stated.

use super::document::{Entry, WeightSettings};
use crate::frameset::{Known, Part, Weight};

/// One part's weight at the size compared.
#[derive(Clone, Debug, PartialEq)]
pub struct PartWeight {
    /// Frame, fork or frameset.
    pub part: Part,
    /// Grams at the size compared.
    pub grams: f64,
    /// Standard uncertainty as far as it is known: the scale's step / √12. A claimed weight and a typed factor carry
    /// none that anybody states, so zero.
    pub u: f64,
    /// Whether u leaves something out: a claimed weight, or a factor.
    pub is_estimate: bool,
    /// The sum spelled out: "2600 g M weighed × 1.10 = 2860 g L estimated".
    pub sum: String,
}

/// What is known of a frame's weights at the size compared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weights {
    /// The frame alone.
    pub frame: Option<PartWeight>,
    /// The fork alone.
    pub fork: Option<PartWeight>,
    /// Both: as published, or summed where both are known.
    pub frameset: Option<PartWeight>,
}
