//! Reasons of the rules of `rules/crank.rs`.

use super::super::codes::codes;
use super::super::standards::ShellRow;

/// Why a crank does or does not fit. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CrankReason {
    /// Neither the crank spacing nor the rear hub is published.
    NothingPublished,
    /// The dropouts are sold for several hubs, and the crank is made for one of them.
    SuitsOneOfSeveral {
        /// Narrowest hub.
        least_mm: f64,
        /// Widest hub.
        most_mm: f64,
    },
    /// Crank and frame are made for the same spacing.
    Matches {
        /// That spacing.
        spacing_mm: f64,
        /// The crank's chainline.
        chainline_mm: f64,
    },
    /// The crank's chainline is not that of the frame's spacing.
    ChainlinesDiffer {
        /// The crank's.
        own_mm: f64,
        /// The frame's spacing.
        spacing_mm: f64,
        /// Its usual chainline.
        usual_mm: f64,
    },
    /// The crank is made for another spacing.
    MovesChain {
        /// The crank's spacing.
        own_mm: f64,
        /// The frame's spacing.
        spacing_mm: f64,
        /// How far the chain moves out, negative in.
        out_mm: f64,
    },
    /// Too far for a chain to run straight.
    TooFarToMove {
        /// Most on each side.
        most_mm: f64,
    },
}

codes!(CrankReason {
    NothingPublished => "crank_nothing_published",
    SuitsOneOfSeveral => "crank_suits_one_of_several_hubs",
    Matches => "crank_matches",
    ChainlinesDiffer => "crank_chainlines_differ",
    MovesChain => "crank_moves_chain",
    TooFarToMove => "crank_moves_chain_too_far",
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
