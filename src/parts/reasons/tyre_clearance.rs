//! Reasons of the rules of `rules/tyre_clearance.rs`.

use super::super::codes::codes;
use super::super::standards::{GapHoldsFor, RimWidth};
use crate::frameset::TyreSize;
use crate::units::{Length, Measured};

/// What a clearance is published for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClearanceOf {
    /// The frame.
    Frame,
    /// The fork of the parts list.
    Fork,
    /// The frame's own fork.
    OwnFork,
}

/// Why a tyre does or does not fit. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum TyreReason {
    /// Clearance is published for other wheels only.
    WheelNotPublished {
        /// Bead seat diameter of the tyre.
        bead_mm: f64,
        /// Bead seat diameters that are published.
        published_mm: Vec<f64>,
    },
    /// Wider than the widest tyre that the maker allows.
    TooWide {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Widest tyre that is allowed.
        widest_mm: f64,
        /// Place whose clearance is meant.
        of: ClearanceOf,
    },
    /// Within what the maker allows.
    Allowed {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Widest tyre that is allowed.
        widest_mm: f64,
        /// Place whose clearance is meant.
        of: ClearanceOf,
        /// Whether that is with mudguards.
        with_mudguards: bool,
        /// What is left on each side beyond the maker's own gap.
        left_mm: f64,
    },
    /// With mudguards the tyre is wider than the maker allows.
    TooWideWithMudguards {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Place whose clearance is meant.
        of: ClearanceOf,
    },
    /// The maker publishes the widest tyre with mudguards only.
    WithMudguardsOnly,
    /// The widest tyre is published for fewer chainrings.
    PublishedForRings {
        /// Most chainrings that it is published for.
        most: u8,
        /// Chainrings of the crank.
        own: u8,
    },
    /// How wide the tyre is on its rim.
    BuiltWidth {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Inner width of the rim.
        inner_mm: f64,
        /// Width on it.
        built: Measured<Length>,
    },
    /// The crank moves the chain towards the tyre.
    CrankMovesChain {
        /// Chainline of the crank.
        crank_mm: f64,
        /// How far on each side.
        a_side_mm: f64,
        /// Widest tyre that is left.
        widest_mm: f64,
    },
    /// A clear width, and the gap that is left in it.
    ClearWidth {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Clear width.
        clear_mm: f64,
        /// Place whose clearance is meant.
        of: ClearanceOf,
        /// Gap on each side; negative where there is none.
        gap_mm: f64,
    },
    /// The gap is enough by a published rule.
    GapEnough {
        /// Least gap of that rule.
        least_mm: f64,
        /// What it holds for.
        holds_for: GapHoldsFor,
    },
    /// The gap is less than any published rule asks.
    GapTooSmall {
        /// The least gap of any rule.
        least_mm: f64,
    },
    /// The clearance is published for the frame and not for its fork.
    FrameOnly,
}

codes!(TyreReason {
    WheelNotPublished => "tyre_wheel_not_published",
    TooWide => "tyre_too_wide",
    Allowed => "tyre_allowed",
    TooWideWithMudguards => "tyre_too_wide_with_mudguards",
    WithMudguardsOnly => "tyre_clearance_with_mudguards_only",
    PublishedForRings => "tyre_clearance_for_fewer_chainrings",
    BuiltWidth => "tyre_built_width",
    CrankMovesChain => "tyre_crank_moves_chain",
    ClearWidth => "tyre_clear_width",
    GapEnough => "tyre_gap_enough",
    GapTooSmall => "tyre_gap_too_small",
    FrameOnly => "tyre_clearance_of_frame_only",
});

/// Why rims do or do not fit. Diameters of bead seats in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum RimReason {
    /// The tyre of the list is for another rim.
    TyreDiffers {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Bead seat diameter of the rim, mm.
        bead_mm: f64,
    },
    /// The rim's inner width beside the one that the tyre is made for.
    InnerWidth {
        /// Tyre that is judged.
        tyre: TyreSize,
        /// Inner width of the rim, mm.
        inner_mm: f64,
        /// Inner width that the tyre is made for, mm.
        made_for_mm: f64,
        /// How they stand to one another.
        width: RimWidth,
    },
    /// The maker publishes clearance for this wheel.
    Published {
        /// Bead seat diameter of the rim, mm.
        bead_mm: f64,
    },
    /// The maker publishes other wheels only.
    NotPublished {
        /// Bead seat diameter of the rim, mm.
        bead_mm: f64,
        /// Wheels that are published.
        published_mm: Vec<f64>,
    },
}

codes!(RimReason {
    TyreDiffers => "rim_tyre_differs",
    InnerWidth => "rim_inner_width",
    Published => "rim_published",
    NotPublished => "rim_not_published",
});
