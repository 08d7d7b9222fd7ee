//! Reasons of the rules of `rules/fork.rs`.

use super::super::codes::codes;
use super::super::fork_limits::LengthLimit;
use super::super::standards::HeadsetEnd;
use crate::units::{Angle, Length, Measured};

/// Why a fork's steerer does or does not fit the head tube. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SteererReason {
    /// The fork's steerer is not entered.
    NotEntered,
    /// The upper end is for this steerer.
    UpperMatches(HeadsetEnd),
    /// The upper end is for another steerer, and its bore takes this one.
    UpperBoreTakesIt {
        /// The head tube's upper end.
        upper: HeadsetEnd,
        /// Its bore.
        bore_mm: f64,
    },
    /// The steerer does not go through the upper end.
    UpperTooNarrow {
        /// The fork's steerer.
        steerer_mm: f64,
        /// The head tube's upper end.
        upper: HeadsetEnd,
    },
    /// The lower end is for this crown race.
    LowerMatches(HeadsetEnd),
    /// The fork's crown race seat is narrower than the lower end is for.
    LowerWider {
        /// The fork's crown race seat.
        race_mm: f64,
        /// The head tube's lower end.
        lower: HeadsetEnd,
    },
    /// The steerer is tapered, and the lower bore takes an external cup.
    LowerBoreTakesExternalCup(HeadsetEnd),
    /// The crown race does not go under the lower end.
    LowerTooNarrow {
        /// The fork's crown race seat.
        race_mm: f64,
        /// The head tube's lower end.
        lower: HeadsetEnd,
    },
}

codes!(SteererReason {
    NotEntered => "fork_steerer_not_entered",
    UpperMatches => "fork_upper_end_matches",
    UpperBoreTakesIt => "fork_upper_bore_takes_steerer",
    UpperTooNarrow => "fork_upper_end_too_narrow",
    LowerMatches => "fork_lower_end_matches",
    LowerWider => "fork_lower_end_wider",
    LowerBoreTakesExternalCup => "fork_lower_bore_takes_external_cup",
    LowerTooNarrow => "fork_lower_end_too_narrow",
});

/// Why a fork's length does or does not fit.
#[derive(Clone, Debug, PartialEq)]
pub enum ForkLengthReason {
    /// The length of the frame's own fork is unknown.
    OwnLengthUnknown,
    /// The maker's limits, and this fork's length against them.
    Limit(LengthLimit),
    /// How it stands against the frame's own fork.
    Stands {
        /// How much longer.
        longer: Measured<Length>,
        /// Change of the head angle.
        head_angle: Measured<Angle>,
        /// Change of the trail.
        trail: Measured<Length>,
    },
}

impl ForkLengthReason {
    /// Codes of all variants.
    pub const CODES: &[&str] = &[
        "fork_own_length_unknown",
        "fork_length_within_limits",
        "fork_length_depends_on_measuring",
        "fork_length_beyond_limits",
        "fork_length_limits_unknown",
        "fork_length_differs",
    ];

    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::OwnLengthUnknown => "fork_own_length_unknown",
            Self::Limit(limit) => limit.code(),
            Self::Stands { .. } => "fork_length_differs",
        }
    }
}
