//! Reasons of the rules of `rules/seat_post.rs`.

use super::super::codes::codes;

/// Why a seat post does or does not fit. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SeatPostReason {
    /// The post is thicker than the tube's bore.
    TooThick {
        /// Diameter of the post.
        post_mm: f64,
        /// Diameter that the tube is made for.
        tube_mm: f64,
    },
    /// The cable of a dropper post runs inside, and the frame has no way in.
    NoInternalRouting,
    /// Too little of the post stays inside at this saddle height.
    TooShort {
        /// Length inside; negative where the post does not reach the tube.
        inside_mm: f64,
        /// Least length inside.
        least_mm: f64,
    },
    /// Thinner than the tube's bore by less than any shim.
    TooThin {
        /// By how much.
        by_mm: f64,
    },
    /// Thinner than the tube's bore.
    Thinner {
        /// Diameter of the post.
        post_mm: f64,
        /// Diameter that the tube is made for.
        tube_mm: f64,
    },
    /// Post and tube are of one diameter.
    Matches {
        /// That diameter.
        tube_mm: f64,
    },
}

codes!(SeatPostReason {
    TooThick => "seat_post_too_thick",
    NoInternalRouting => "seat_post_no_internal_routing",
    TooShort => "seat_post_too_short",
    TooThin => "seat_post_too_thin",
    Thinner => "seat_post_thinner",
    Matches => "seat_post_matches",
});
