//! Reasons of the rules of `rules/drivetrain.rs`.

use super::super::codes::codes;
use super::super::standards::Pull;

/// Why a front derailleur does or does not fit. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DerailleurReason {
    /// The maker says that the frame takes none.
    FrameTakesNone,
    /// None is wanted.
    NoneWanted,
    /// Clamp and seat tube are of one diameter.
    ClampMatches {
        /// That diameter.
        tube_mm: f64,
    },
    /// The clamp is wider than the seat tube.
    ClampWider {
        /// Diameter of the clamp.
        own_mm: f64,
        /// Diameter of the tube.
        tube_mm: f64,
    },
    /// The clamp is narrower than the seat tube.
    ClampNarrower {
        /// Diameter of the clamp.
        own_mm: f64,
        /// Diameter of the tube.
        tube_mm: f64,
    },
    /// The derailleur is for a tab, the frame for a clamp.
    NeedsTab,
    /// The frame has the tab.
    TabMatches,
    /// Both are direct mount.
    DirectMatches,
    /// The frame has a tab; the tube's diameter for a clamp is not published.
    TubeUnknown,
    /// Held in different ways.
    HeldDifferently,
    /// The cable pulls from the other side.
    PullsDiffer {
        /// Pull of the derailleur.
        own: Pull,
        /// Pull that the frame's stop is for.
        frame: Pull,
    },
    /// The derailleur has its own stop for the cable housing.
    OwnStop,
    /// The frame has no stop for the cable housing.
    NoHousingStop {
        /// Pull of the derailleur.
        own: Pull,
    },
    /// The crank's chainline lies further out, within reach of an adapter.
    ChainlinesDiffer {
        /// Chainline that the derailleur is made for.
        own_mm: f64,
        /// The crank's chainline.
        crank_mm: f64,
    },
    /// The crank's chainline is not entered, and some of those sold are out of the cage's reach.
    CrankLineUnknown {
        /// Chainline that the derailleur is made for.
        own_mm: f64,
        /// Least chainline that such cranks are sold with.
        least_mm: f64,
        /// Most.
        most_mm: f64,
    },
    /// The crank's chainline is out of the cage's reach.
    OutOfReach {
        /// Chainline that the derailleur is made for.
        own_mm: f64,
        /// The crank's chainline.
        crank_mm: f64,
    },
}

codes!(DerailleurReason {
    FrameTakesNone => "front_derailleur_frame_takes_none",
    NoneWanted => "front_derailleur_none_wanted",
    ClampMatches => "front_derailleur_clamp_matches",
    ClampWider => "front_derailleur_clamp_wider",
    ClampNarrower => "front_derailleur_clamp_narrower",
    NeedsTab => "front_derailleur_needs_tab",
    TabMatches => "front_derailleur_tab_matches",
    DirectMatches => "front_derailleur_direct_mount_matches",
    TubeUnknown => "front_derailleur_seat_tube_unknown",
    HeldDifferently => "front_derailleur_mounts_differ",
    PullsDiffer => "front_derailleur_pulls_differ",
    OwnStop => "front_derailleur_own_stop",
    NoHousingStop => "front_derailleur_no_housing_stop",
    ChainlinesDiffer => "front_derailleur_chainlines_differ",
    CrankLineUnknown => "front_derailleur_crank_chainline_unknown",
    OutOfReach => "front_derailleur_out_of_reach",
});

/// Why a gear hub or belt does or does not fit the dropouts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DropoutReason {
    /// Vertical dropouts do not tension a chain.
    ChainNotTensioned,
    /// The maker sells the dropouts for a gear hub.
    SoldForGearHub,
    /// The chain can be tensioned; a gear hub is not published.
    GearHubNotPublished,
    /// The maker sells the frame for a belt.
    SoldForBelt,
    /// Vertical dropouts do not tension a belt.
    BeltNotTensioned,
    /// The belt can be tensioned; whether the frame opens for one is not published.
    BeltOpeningUnknown,
}

codes!(DropoutReason {
    ChainNotTensioned => "dropouts_do_not_tension_chain",
    SoldForGearHub => "dropouts_sold_for_gear_hub",
    GearHubNotPublished => "dropouts_gear_hub_not_published",
    SoldForBelt => "dropouts_sold_for_belt",
    BeltNotTensioned => "dropouts_do_not_tension_belt",
    BeltOpeningUnknown => "dropouts_belt_opening_unknown",
});
