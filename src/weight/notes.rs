//! Notes on a weight, as facts: why a way to another size is not possible, and what to check in what was found.

use super::settings::Method;
use crate::frameset::{Part, SizeIndex, Tube};
use crate::units::{Mass, Measured, Ratio};

/// Reason why a way to another size is not possible. Sizes are places in the frameset.
#[derive(Clone, Debug, PartialEq)]
pub enum NoWay {
    /// No factor is entered.
    NoFactor,
    /// The published figures leave the length of tubes open; no tube is named where nothing can be drawn.
    TubesUnknown {
        /// The size.
        size: SizeIndex,
        /// Tubes of unknown length.
        tubes: Vec<Tube>,
    },
    /// Fixed parts that would outweigh the whole.
    FixedPartsTooHeavy {
        /// Weight of the fixed parts.
        fixed: Measured<Mass>,
    },
    /// All tubes have the length zero.
    NoTubeLength,
    /// The head tube's length, which the steerer follows, is unknown.
    HeadTubeUnknown {
        /// The size.
        size: SizeIndex,
    },
    /// Weights are published for fewer than two sizes.
    FewerThanTwoSizes,
}

impl NoWay {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoFactor => "no_factor",
            Self::TubesUnknown { .. } => "tubes_unknown",
            Self::FixedPartsTooHeavy { .. } => "fixed_parts_too_heavy",
            Self::NoTubeLength => "no_tube_length",
            Self::HeadTubeUnknown { .. } => "head_tube_unknown",
            Self::FewerThanTwoSizes => "fewer_than_two_sizes",
        }
    }
}

/// Note on a weight. Sizes are places in the frameset.
#[derive(Clone, Debug, PartialEq)]
pub enum WeightNote {
    /// The published weight lies outside what such parts usually weigh.
    Unlikely {
        /// Frame, fork or frameset.
        part: Part,
        /// As published.
        mass: Measured<Mass>,
        /// Least and greatest usual weight, g.
        usual: [f64; 2],
    },
    /// The chosen way is not possible, so another one counts.
    OtherWay {
        /// The chosen way.
        chosen: Method,
        /// Why it is not possible.
        why: NoWay,
        /// The way that counts.
        counts: Method,
    },
    /// The size that was weighed is not published.
    SizeNotPublished,
    /// The tubes would weigh far more or less than assumed.
    TubesDoNotFit {
        /// Weight of the fixed parts.
        fixed: Measured<Mass>,
        /// Weight that is left for the tubes over their assumed weight, 1.
        times: f64,
    },
    /// The size lies beyond the weighed sizes.
    BeyondWeighed {
        /// The size.
        size: SizeIndex,
        /// The smallest and the largest weighed size.
        weighed: [SizeIndex; 2],
    },
    /// The typed factor and the tubes' lengths differ clearly.
    WaysDisagree(Disagreement),
}

impl WeightNote {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Unlikely { .. } => "unlikely_weight",
            Self::OtherWay { .. } => "other_way",
            Self::SizeNotPublished => "size_not_published",
            Self::TubesDoNotFit { .. } => "tubes_do_not_fit",
            Self::BeyondWeighed { .. } => "beyond_weighed_sizes",
            Self::WaysDisagree(_) => "ways_disagree",
        }
    }
}

/// Disagreement of the typed factor and the tubes' lengths about a size. Sizes are places in the frameset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disagreement {
    /// The weighed size.
    pub from: SizeIndex,
    /// The size compared.
    pub to: SizeIndex,
    /// Change of weight by the factor.
    pub by_factor: Measured<Ratio>,
    /// Change of weight by the tubes' lengths.
    pub by_lengths: Measured<Ratio>,
    /// Weight by the factor less that by the lengths, g. Its u is of the ways alone.
    pub apart: Measured<Mass>,
}
