//! What a part needs beside itself to fit: an extra part, or a condition.

use super::codes::codes;
use super::standards::{Axle, End, GapHoldsFor, MountKind, Wheel};

/// An extra part or a condition of "fits with". Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Extra {
    /// End caps or a sleeve from the hub's bore to a thinner axle.
    AxleAdapter {
        /// Axle that the hub is made for.
        from_mm: f64,
        /// Axle of the frame.
        to_mm: f64,
    },
    /// End caps that hold the hub in another kind of dropout, where the hub's maker offers them.
    EndCaps {
        /// Spacing that the hub has with them.
        spacing_mm: f64,
        /// Axle that they are for.
        axle: Axle,
    },
    /// Stays or fork blades that are cold-set.
    ColdSet {
        /// Stays at the rear, fork blades at the front.
        end: Wheel,
        /// By how much on each side.
        a_side_mm: f64,
        /// Spread for a wider hub, or squeezed for a narrower one.
        is_spread: bool,
    },
    /// Less clearance for the rear tyre, both sides together.
    LessTyreClearance {
        /// By how much.
        by_mm: f64,
    },
    /// Chainrings that clear the chainstay.
    RingsClearStay,
    /// An adapter from the frame's mount to the caliper's.
    BrakeAdapter {
        /// The frame's or fork's mount.
        from: MountKind,
        /// The caliper's mount.
        to: MountKind,
    },
    /// Two brake adapters on one another.
    StackedBrakeAdapters,
    /// A brake adapter for a larger rotor.
    RotorAdapter {
        /// How much larger than the mount's own rotor.
        more_mm: f64,
    },
    /// The brake adapter that an otherwise unknown mount needs for a rotor.
    MountsOwnAdapter,
    /// The head tube's bore, measured.
    BoreMeasured,
    /// A cup of another type than the published one.
    OtherCup {
        /// At which end.
        end: End,
        /// Whether that end rises or sinks.
        is_raised: bool,
    },
    /// A crown race that fits a narrower fork.
    ReducingRace {
        /// The headset's race.
        from_mm: f64,
        /// The fork's crown race seat.
        to_mm: f64,
    },
    /// An upper headset and a stem for another steerer.
    UpperHeadsetAndStem {
        /// Steerer, outside.
        steerer_mm: f64,
    },
    /// A lower headset or reducing race for another crown race seat.
    LowerHeadsetOrRace {
        /// Crown race seat.
        race_mm: f64,
    },
    /// An external lower cup for a tapered steerer.
    ExternalLowerCup {
        /// Number of its SHIS code.
        bore_code: u16,
    },
    /// A head angle and trail that differ from the published ones.
    ChangedSteering,
    /// A shim between seat post and seat tube.
    PostShim {
        /// The post's diameter.
        from_mm: f64,
        /// The tube's diameter.
        to_mm: f64,
    },
    /// The fork's own tyre clearance, measured.
    ForkClearanceMeasured,
    /// The chain, tried beside the tyre in its innermost gear.
    ChainTried,
    /// No mudguards.
    WithoutMudguards,
    /// A crank with no more chainrings than that.
    CrankOfRings {
        /// Most chainrings.
        most: u8,
    },
    /// The tyre, measured on its rim.
    TyreMeasured {
        /// Widest that is allowed.
        most_mm: f64,
    },
    /// A crank for another rear spacing.
    CrankOfSpacing {
        /// Rear hub that it is made for.
        spacing_mm: f64,
    },
    /// A tyre gap that is published for some bicycles only.
    GapPublishedFor(GapHoldsFor),
    /// Clamps, or an axle that carries a rack.
    RackClamps,
    /// Straps that hold a mudguard.
    MudguardStraps(Wheel),
    /// A mudguard hardly wider than its tyre.
    NarrowMudguard {
        /// At which end.
        end: Wheel,
        /// How much wider.
        wider_mm: f64,
    },
    /// A shim between seat tube and derailleur clamp.
    ClampShim {
        /// The seat tube's diameter.
        from_mm: f64,
        /// The clamp's diameter.
        to_mm: f64,
    },
    /// A band with a tab for a derailleur.
    BandWithTab {
        /// The seat tube's diameter.
        tube_mm: f64,
    },
    /// An adapter that holds a front derailleur further out.
    OffsetAdapter {
        /// How far.
        by_mm: f64,
    },
    /// A pulley or stop that turns the derailleur's cable round.
    CablePulley,
    /// Cable housing in one piece up to the derailleur.
    FullHousing,
    /// A clamp-on stop for the cable housing.
    HousingStop,
    /// A chain tensioner.
    ChainTensioner,
    /// An arm or washer that takes a gear hub's torque.
    TorqueArm,
}

codes!(Extra {
    AxleAdapter => "axle_adapter",
    EndCaps => "end_caps",
    ColdSet => "cold_set",
    LessTyreClearance => "less_tyre_clearance",
    RingsClearStay => "rings_clear_stay",
    BrakeAdapter => "brake_adapter",
    StackedBrakeAdapters => "stacked_brake_adapters",
    RotorAdapter => "rotor_adapter",
    MountsOwnAdapter => "mounts_own_adapter",
    BoreMeasured => "measure_bore",
    OtherCup => "other_cup",
    ReducingRace => "reducing_race",
    UpperHeadsetAndStem => "upper_headset_and_stem",
    LowerHeadsetOrRace => "lower_headset_or_race",
    ExternalLowerCup => "external_lower_cup",
    ChangedSteering => "changed_steering",
    PostShim => "seat_post_shim",
    ForkClearanceMeasured => "measure_fork_clearance",
    ChainTried => "try_chain",
    WithoutMudguards => "without_mudguards",
    CrankOfRings => "crank_of_chainrings",
    TyreMeasured => "measure_tyre",
    CrankOfSpacing => "crank_of_spacing",
    GapPublishedFor => "smaller_gap",
    RackClamps => "rack_clamps",
    MudguardStraps => "mudguard_straps",
    NarrowMudguard => "narrow_mudguard",
    ClampShim => "clamp_shim",
    BandWithTab => "band_with_tab",
    OffsetAdapter => "offset_adapter",
    CablePulley => "cable_pulley",
    FullHousing => "full_length_housing",
    HousingStop => "housing_stop",
    ChainTensioner => "chain_tensioner",
    TorqueArm => "torque_arm",
});

impl Extra {
    /// Whether it is a part to get, and not a condition to check or accept.
    #[must_use]
    pub const fn is_part(self) -> bool {
        !matches!(
            self,
            Self::ColdSet { .. }
                | Self::RingsClearStay
                | Self::LessTyreClearance { .. }
                | Self::BoreMeasured
                | Self::ChangedSteering
                | Self::ForkClearanceMeasured
                | Self::ChainTried
                | Self::WithoutMudguards
                | Self::TyreMeasured { .. }
                | Self::GapPublishedFor(_)
                | Self::NarrowMudguard { .. }
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_condition_is_no_part_to_get() {
        assert!(!Extra::RingsClearStay.is_part() && !Extra::ChainTried.is_part());
        assert!(Extra::ChainTensioner.is_part() && Extra::HousingStop.is_part());
    }
}
