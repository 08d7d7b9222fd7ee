//! Reasons of the rules of `rules/hub.rs`.

use super::super::codes::codes;
use super::super::standards::{Axle, Hub};
use crate::frameset::Material;

/// Why a hub does or does not fit. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HubReason {
    /// Spacing and axle are the same.
    Matches(Hub),
    /// The hub's other end caps stay unused.
    OtherEndsUnused,
    /// The dropouts do not hold this kind of axle.
    AxleNotHeld {
        /// The hub's axle.
        own: Axle,
        /// The axle that the dropouts are made for.
        wanted: Axle,
        /// Whether the flanges would lie in the same place, so that the hub may be converted.
        is_convertible: bool,
    },
    /// The hub is made for a thicker through axle than the frame's, in the same spacing.
    ThickerAxle {
        /// Spacing of both.
        spacing_mm: f64,
    },
    /// Through axles of different diameters.
    AxlesDiffer {
        /// The hub's axle.
        own_mm: f64,
        /// The frame's axle.
        wanted_mm: f64,
    },
    /// The spacing is the same, and an axle is not known.
    AxleUnknown {
        /// Spacing of both.
        spacing_mm: f64,
        /// Whether it is the hub's axle that is not known, not the frame's.
        is_hubs: bool,
    },
    /// Both are for a through axle in the same spacing, and a diameter is not known.
    DiameterUnknown {
        /// Spacing of both.
        spacing_mm: f64,
        /// Whether it is the hub's diameter that is not known, not the frame's.
        is_hubs: bool,
    },
    /// The maker sells the dropouts for this spacing too.
    WithinRange {
        /// Between the dropouts.
        spacing_mm: f64,
        /// Narrowest hub that the maker allows.
        least_mm: f64,
        /// Widest hub that the maker allows.
        most_mm: f64,
        /// By how much each side moves.
        a_side_mm: f64,
    },
    /// The spacings differ.
    SpacingsDiffer {
        /// Hub less dropouts, both sides together.
        by_mm: f64,
    },
    /// It depends on an axle that is not known.
    DependsOnAxle {
        /// Whether it is the hub's axle that is not known, not the frame's.
        is_hubs: bool,
    },
    /// Dropouts for a through axle do not give.
    ClosedDropouts,
    /// More than steel is cold-set by.
    TooMuchToColdSet {
        /// Most on each side.
        most_a_side_mm: f64,
    },
    /// A material that is never cold-set.
    NeverColdSet(Material),
    /// The material is not published, so that nobody can say.
    MaterialUnknown,
    /// The hub has no spacing.
    NoSpacing,
}

codes!(HubReason {
    Matches => "hub_matches",
    OtherEndsUnused => "hub_other_ends_unused",
    AxleNotHeld => "hub_axle_not_held",
    ThickerAxle => "hub_thicker_axle",
    AxlesDiffer => "hub_axles_differ",
    AxleUnknown => "hub_axle_unknown",
    DiameterUnknown => "hub_axle_diameter_unknown",
    WithinRange => "hub_within_makers_range",
    SpacingsDiffer => "hub_spacings_differ",
    DependsOnAxle => "hub_depends_on_axle",
    ClosedDropouts => "hub_closed_dropouts",
    TooMuchToColdSet => "hub_too_much_to_cold_set",
    NeverColdSet => "hub_material_never_cold_set",
    MaterialUnknown => "hub_material_unknown",
    NoSpacing => "hub_no_spacing",
});
