//! Reasons of the rules of `rules/brakes.rs`.

use super::super::codes::codes;
use super::super::standards::MountKind;

/// Why a caliper does or does not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BrakeReason {
    /// Caliper and mount are of one kind.
    Matches(MountKind),
    /// They are of different kinds.
    KindsDiffer {
        /// The caliper's.
        own: MountKind,
        /// The frame's or fork's.
        mount: MountKind,
    },
}

codes!(BrakeReason { Matches => "brake_matches", KindsDiffer => "brake_mounts_differ" });

/// Why a rotor does or does not fit. Diameters in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RotorReason {
    /// The mount is not for a disc brake.
    NoDiscMount(MountKind),
    /// Larger than the maker allows.
    TooLarge {
        /// Largest rotor.
        most_mm: f64,
    },
    /// Smaller than the mount's own.
    TooSmall {
        /// Rotor without an adapter.
        native_mm: f64,
    },
    /// The mount's own size.
    MadeForIt {
        /// Rotor without an adapter.
        native_mm: f64,
    },
    /// Larger than the mount's own size, and allowed.
    Allowed {
        /// Rotor without an adapter; `None` where it is not published.
        native_mm: Option<f64>,
    },
    /// Larger than the mount's own size; the largest rotor is not published.
    LargestUnknown {
        /// Rotor without an adapter.
        native_mm: f64,
    },
    /// No rotor size is published.
    NoSizePublished,
}

codes!(RotorReason {
    NoDiscMount => "rotor_no_disc_mount",
    TooLarge => "rotor_too_large",
    TooSmall => "rotor_too_small",
    MadeForIt => "rotor_made_for_it",
    Allowed => "rotor_allowed",
    LargestUnknown => "rotor_largest_unknown",
    NoSizePublished => "rotor_no_size_published",
});
