//! Reasons of the rules of `rules/headset.rs`.

use super::super::codes::codes;
use super::super::standards::{Beware, HeadsetEnd};

/// Why a headset does or does not fit. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeadsetReason {
    /// No table gives a bore behind one of these codes.
    BoreUnknown {
        /// The headset's end.
        own: HeadsetEnd,
        /// The head tube's end.
        tube: HeadsetEnd,
    },
    /// Both are integrated and of one code, which leaves something open.
    CodeNotEnough {
        /// The headset's end.
        own: HeadsetEnd,
        /// What is left open.
        beware: Beware,
    },
    /// One end is integrated and the other is of another code.
    IntegratedDiffers {
        /// The headset's end.
        own: HeadsetEnd,
        /// The head tube's end.
        tube: HeadsetEnd,
    },
    /// The bores differ.
    BoresDiffer {
        /// The headset's end.
        own: HeadsetEnd,
        /// Bore that it needs.
        own_mm: f64,
        /// The head tube's end.
        tube: HeadsetEnd,
        /// Bore of the head tube.
        tube_mm: f64,
    },
    /// The code fits and leaves something of the bore open.
    BoreToMeasure {
        /// The headset's end.
        own: HeadsetEnd,
        /// What is left open.
        beware: Beware,
    },
    /// A cup of another type in the same bore.
    OtherCupSameBore {
        /// The headset's end.
        own: HeadsetEnd,
        /// The head tube's end.
        tube: HeadsetEnd,
        /// Bore of both.
        bore_mm: f64,
    },
    /// The cup's bore is the head tube's.
    Matches {
        /// The headset's end.
        own: HeadsetEnd,
        /// Bore of both.
        bore_mm: f64,
    },
    /// The headset is for another steerer than the fork's.
    SteerersDiffer {
        /// Steerer that the headset is for.
        own_mm: f64,
        /// The fork's steerer.
        fork_mm: f64,
    },
    /// The fork's crown race seat is narrower than the headset's race.
    RaceTooWide {
        /// The headset's race.
        own_mm: f64,
        /// The fork's crown race seat.
        fork_mm: f64,
    },
    /// The fork's crown race seat is wider than the headset's race.
    RaceTooNarrow {
        /// The headset's race.
        own_mm: f64,
        /// The fork's crown race seat.
        fork_mm: f64,
    },
}

codes!(HeadsetReason {
    BoreUnknown => "headset_bore_unknown",
    CodeNotEnough => "headset_code_not_enough",
    IntegratedDiffers => "headset_integrated_differs",
    BoresDiffer => "headset_bores_differ",
    BoreToMeasure => "headset_bore_to_measure",
    OtherCupSameBore => "headset_other_cup_same_bore",
    Matches => "headset_matches",
    SteerersDiffer => "headset_steerers_differ",
    RaceTooWide => "headset_race_too_wide",
    RaceTooNarrow => "headset_race_too_narrow",
});
