//! Titles of drawings, and what a drawing says where it has nothing to show or too little space.

/// Where no frame of the line-up is shown.
pub const NO_FRAME_IS_SHOWN: &str = "No frame is shown.";
/// Title of the overview.
pub const OVERVIEW_TITLE: &str = "Overview";
/// In place of the side view of a frame.
pub const NOT_DRAWN: &str = "not drawn";
/// Title of the outlines.
pub const OUTLINE_TITLE: &str = "Outline";
/// Title of the outlines published alone.
pub const OUTLINES_TITLE: &str = "Outlines of the framesets";
/// Title of the bag spaces.
pub const BAGS_TITLE: &str = "Bags";
/// Title of the bag spaces published alone.
pub const BAG_SPACES_TITLE: &str = "Bag space in the main triangles";
/// In place of a bag's figure.
pub const NO_BAG_FITS: &str = "No bag fits.";
/// Title of the weights.
pub const WEIGHT_TITLE: &str = "Weight";
/// Title of the weights published alone.
pub const WEIGHTS_TITLE: &str = "Weights of the framesets";
/// Below the bars of the weights.
pub const WEIGHT_BARS_TEXT: &str = "The line at a bar’s end is its ±. A grey difference is not clear.";
/// Title of the plot of prices, and of the plot published alone.
pub const PRICE_TITLE: &str = "Price against weight";
/// Where the plot of prices has no point.
pub const NO_WEIGHT_WITH_A_PRICE: &str = "No shown frameset has both a weight and a price.";
/// What the ring in the plot of prices means.
pub const UNBEATEN_RING: &str = "ring: nothing shown is both lighter and cheaper";
/// What the bar in the plot of prices means.
pub const WEIGHT_BAR: &str = "bar: ± of the weight";
/// Title of price, weight and climb in one drawing.
pub const PRICE_AND_CLIMB_TITLE: &str = "Weight, price and the climb";
/// Title of the climb.
pub const CLIMB_TITLE: &str = "On the climb";
/// Where the climb has no space.
pub const CLIMB_DOES_NOT_FIT: &str = "The climb does not fit here.";
/// Title of a frame beside itself with another fork or tyre.
pub const ANOTHER_FORK_TITLE: &str = "Another fork";
/// Where neither fork nor tyre is changed.
pub const NOTHING_IS_CHANGED: &str = "Nothing is changed: enter another fork or tyre.";
/// Where no frame publishes a standard.
pub const NO_STANDARD: &str = "No frame publishes a standard.";
/// Where the list of parts is empty.
pub const NO_PART_IS_LISTED: &str = "No part is listed yet. Add the parts you own.";
/// Where the list of needs is empty.
pub const NO_NEED_IS_LISTED: &str = "No need is listed yet. Add what the frame must have.";
/// Where no contact points are entered.
pub const NO_CONTACT_POINTS: &str = "No contact points are entered yet.";
/// Where no build is entered.
pub const NO_GEARS: &str = "No gears are entered yet: add a build.";

/// Title of a frame drawn as published and as estimated: `B Marrowby Drift, size L, both ways`.
#[must_use]
pub fn both_ways_title(letter: impl std::fmt::Display, name: &str, size_label: &str) -> String {
    format!("{letter} {name}, size {size_label}, both ways")
}

/// What an outline shows: `Side view of 2 frames, aligned at the bottom bracket.`
#[must_use]
pub fn side_view_text(shown: usize, aligned_at: &str) -> String {
    format!("Side view of {}, aligned at the {aligned_at}.", super::frames_in_words(shown))
}
