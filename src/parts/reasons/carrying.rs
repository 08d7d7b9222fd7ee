//! Reasons of the rules of `rules/carrying.rs`.

use super::super::codes::codes;
use super::super::standards::{Eyelets, Wheel};
use crate::frameset::TyreSize;

/// What eyelets carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EyeletsFor {
    /// A rack at that end.
    Rack(Wheel),
    /// A mudguard at that end.
    Mudguard(Wheel),
    /// Mudguards at both ends.
    BothMudguards,
    /// A mudguard at either end.
    EitherMudguard,
}

/// Why cages, racks and mudguards do or do not fit. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum CarryingReason {
    /// Every cage has its place.
    EnoughBosses {
        /// Bosses that each cage needs, the most first.
        wanted: Vec<u32>,
        /// Bosses at each published place, the most first.
        there: Vec<u32>,
    },
    /// A cage has no place.
    TooFewBosses {
        /// Bosses that each cage needs, the most first.
        wanted: Vec<u32>,
        /// Bosses at each published place, the most first; empty where there are none.
        there: Vec<u32>,
    },
    /// The eyelets of the listed fork are not entered.
    ForkEyeletsUnknown,
    /// The maker publishes eyelets for it.
    Eyelets(EyeletsFor),
    /// The maker publishes eyelets, and none for it.
    OtherEyelets(EyeletsFor),
    /// The maker says that there are no eyelets.
    NoEyelets,
    /// How wide a mudguard is over its tyre.
    MudguardOverTyre {
        /// At which end.
        end: Wheel,
        /// Width of the mudguard.
        width_mm: f64,
        /// The tyre.
        tyre: TyreSize,
    },
    /// With mudguards the maker allows narrower tyres only.
    TyreTooWideForMudguards {
        /// At which end.
        end: Wheel,
        /// Width of the tyre.
        tyre_mm: f64,
        /// Widest tyre with mudguards.
        widest_mm: f64,
    },
    /// Whether a mudguard passes is not published.
    ClearanceUnknown {
        /// At which end.
        end: Wheel,
        /// Width of the mudguard.
        width_mm: f64,
    },
    /// The mudguard passes through the clear width.
    Passes {
        /// At which end.
        end: Wheel,
        /// Clear width.
        clear_mm: f64,
    },
    /// The mudguard does not pass through the clear width.
    DoesNotPass {
        /// At which end.
        end: Wheel,
        /// Width of the mudguard.
        width_mm: f64,
        /// Clear width.
        clear_mm: f64,
    },
    /// Clearance for so wide a tyre is published, with mudguards or without.
    ClearanceForTyre {
        /// At which end.
        end: Wheel,
        /// Widest tyre.
        tyre_mm: f64,
        /// Whether that is with mudguards.
        with_mudguards: bool,
    },
    /// Clearance for a narrower tyre is published, and nothing of a mudguard.
    ClearanceForTyreOnly {
        /// At which end.
        end: Wheel,
        /// Widest tyre.
        tyre_mm: f64,
    },
}

codes!(CarryingReason {
    EnoughBosses => "bosses_enough",
    TooFewBosses => "bosses_too_few",
    ForkEyeletsUnknown => "eyelets_of_listed_fork_unknown",
    Eyelets => "eyelets_published",
    OtherEyelets => "eyelets_for_other_things",
    NoEyelets => "eyelets_none",
    MudguardOverTyre => "mudguard_over_tyre",
    TyreTooWideForMudguards => "mudguard_tyre_too_wide",
    ClearanceUnknown => "mudguard_clearance_unknown",
    Passes => "mudguard_passes",
    DoesNotPass => "mudguard_does_not_pass",
    ClearanceForTyre => "mudguard_tyre_clearance",
    ClearanceForTyreOnly => "mudguard_tyre_clearance_only",
});

impl CarryingReason {
    /// That there are no eyelets for `what`.
    pub(in super::super) const fn no_eyelets(eyelets: Eyelets, what: EyeletsFor) -> Self {
        if eyelets.is_any() { Self::OtherEyelets(what) } else { Self::NoEyelets }
    }
}
