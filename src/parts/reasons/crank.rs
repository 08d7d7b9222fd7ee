//! Reasons of the rules of `rules/crank.rs`.

use super::super::codes::codes;
use super::super::standards::ShellRow;
use crate::units::{Angle, Measured};

/// Why a crank does or does not fit. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CrankReason {
    /// Neither the crank spacing nor the rear hub is published.
    NothingPublished,
    /// The dropouts are sold for several hubs, and the one that suits best is judged.
    SeveralHubs {
        /// Narrowest hub.
        least_mm: f64,
        /// Widest hub.
        most_mm: f64,
    },
    /// Cranks with this chainline are sold for this hub.
    SoldTogether {
        /// Spacing of the hub.
        spacing_mm: f64,
        /// The crank's chainline.
        chainline_mm: f64,
    },
    /// The frame is made for this crank.
    Matches {
        /// Spacing that the frame is made for.
        spacing_mm: f64,
        /// The crank's chainline.
        chainline_mm: f64,
    },
    /// The frame is made for another chainline.
    LinesDiffer {
        /// The crank's.
        own_mm: f64,
        /// The frame's.
        frame_mm: f64,
        /// How far the chain moves out, negative in.
        out_mm: f64,
    },
    /// How far off straight the chain runs; positive where the ring is further out than the sprocket.
    ChainRuns {
        /// How many chainrings.
        rings: u8,
        /// In the lowest gear on the smallest ring.
        lowest: Measured<Angle>,
        /// In the highest gear on the largest ring.
        highest: Measured<Angle>,
    },
    /// A chain runs well, or at all, only up to this.
    TooOblique {
        /// Most off straight, degrees.
        most_deg: f64,
    },
    /// The number of chainrings decides and is not entered.
    DependsOnRings,
    /// The gear hub's chainline is not entered.
    GearHubLineUnknown {
        /// The crank's.
        own_mm: f64,
    },
    /// The smallest of several rings has more teeth than the maker allows.
    SmallRingTooLarge {
        /// Teeth of the ring.
        own: u8,
        /// Most teeth.
        most: u8,
    },
    /// The largest rings are published for another number of rings.
    RingLimitUnknown {
        /// How many rings the crank has.
        rings: u8,
    },
    /// The largest ring has more teeth than the maker allows.
    RingTooLarge {
        /// Teeth of the ring.
        own: u8,
        /// Most teeth.
        most: u8,
    },
}

codes!(CrankReason {
    NothingPublished => "crank_nothing_published",
    SeveralHubs => "crank_one_of_several_hubs",
    SoldTogether => "crank_sold_with_hub",
    Matches => "crank_matches",
    LinesDiffer => "crank_chainlines_differ",
    ChainRuns => "crank_chain_angle",
    TooOblique => "crank_chain_too_oblique",
    DependsOnRings => "crank_depends_on_rings",
    GearHubLineUnknown => "crank_gear_hub_chainline_unknown",
    SmallRingTooLarge => "crank_small_ring_too_large",
    RingLimitUnknown => "crank_ring_limit_unknown",
    RingTooLarge => "crank_ring_too_large",
});

/// Why a bottom bracket does or does not fit. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum ShellReason {
    /// Another kind of shell.
    KindsDiffer {
        /// The bottom bracket.
        own: &'static ShellRow,
        /// The frame's shell.
        shell: &'static ShellRow,
    },
    /// The shell's width is not published.
    WidthUnknown(&'static ShellRow),
    /// The bottom bracket's width is not entered.
    OwnWidthUnknown {
        /// The frame's shell.
        shell: &'static ShellRow,
        /// Its width.
        width_mm: f64,
    },
    /// Kind and width are the same.
    Matches {
        /// The frame's shell.
        shell: &'static ShellRow,
        /// Its width.
        width_mm: f64,
    },
    /// The bottom bracket is made for other widths.
    WidthsDiffer {
        /// The shell's width.
        width_mm: f64,
        /// Widths that the bottom bracket suits.
        own_mm: Vec<f64>,
    },
}

codes!(ShellReason {
    KindsDiffer => "bottom_bracket_kinds_differ",
    WidthUnknown => "bottom_bracket_shell_width_unknown",
    OwnWidthUnknown => "bottom_bracket_width_unknown",
    Matches => "bottom_bracket_matches",
    WidthsDiffer => "bottom_bracket_widths_differ",
});
