//! Titles of drawings, and what a drawing says where it has nothing to show or too little space.

use std::fmt::Display;

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
/// Where there is nothing to build with.
pub const NO_BUILD: &str = "No part is listed yet. Add the parts of the build.";
/// Where the list of needs is empty.
pub const NO_NEED_IS_LISTED: &str = "No need is listed yet. Add what the frame must have.";
/// Where no contact points are entered.
pub const NO_CONTACT_POINTS: &str = "No contact points are entered yet.";
/// Where no build is entered.
pub const NO_GEARS: &str = "No gears are entered yet: add a build.";
/// The frame that others are compared with, beside its name.
pub const REFERENCE: &str = "reference";
/// The same behind a size: `L, reference`.
pub const REFERENCE_BEHIND: &str = ", reference";
/// Behind a difference that is not clear.
pub const NO_CLEAR_DIFFERENCE_BEHIND: &str = ", no clear difference";
/// In place of a difference of times that is not clear.
pub const NO_CLEAR_DIFFERENCE: &str = "no clear difference";
/// In place of a time or a share that is unknown.
pub const UNKNOWN: &str = super::UNKNOWN;
/// In place of a frame’s name.
pub const NO_NAME: &str = "no name";
/// Above the bag spaces where all lie over one another, if there is little space.
pub const OVERLAID: &str = "Overlaid";
/// What a rectangle in the main triangle is.
pub const LARGEST_RECTANGLE: &str = "largest upright rectangle";
/// Below the climb.
pub const CLIMB_NOTES: &str = "Steady riding, by the equation of Martin and others (1998). The ± is from the weights alone. Real \
                               riders vary more.";
/// Titles of the climb’s columns: seconds and percent of the loaded total from the reference, share of the loaded total,
/// whole time.
pub const CLIMB_COLUMNS: [&str; 4] = ["time", "total", "frameset share", "climbing time"];
/// At the side of the bars of those that climb in less time.
pub const FASTER: &str = "faster";
/// At the side of the bars of those that climb in more time.
pub const SLOWER: &str = "slower";
/// Names of dimensions in the outline.
pub mod dimensions {
    /// Angle of the steering axis.
    pub const HEAD_ANGLE: &str = "head angle";
    /// Height of the head tube’s top above the bottom bracket.
    pub const STACK: &str = "stack";
    /// Distance of the head tube’s top ahead of the bottom bracket.
    pub const REACH: &str = "reach";
    /// Bottom bracket drop.
    pub const DROP: &str = "drop";
    /// Bottom bracket to rear axle.
    pub const CHAINSTAY: &str = "chainstay";
    /// Bottom bracket to front axle.
    pub const FRONT_CENTRE: &str = "front centre";
    /// Axle to axle.
    pub const WHEELBASE: &str = "wheelbase";
    /// Trail on the ground.
    pub const TRAIL: &str = "trail";
}
/// Title of the table of what it takes to build.
pub const BUILD_TITLE: &str = "Build";
/// Title of the table of published standards.
pub const STANDARDS_TITLE: &str = "Standards";
/// Title of the table of parts.
pub const PARTS_TITLE: &str = "Parts";
/// Title of the table of needs.
pub const NEEDS_TITLE: &str = "Needs";
/// Title of the table of contact points.
pub const CONTACT_POINTS_TITLE: &str = "Contact points";
/// Title of the table of prices and times.
pub const PRICE_AND_CLIMB_TABLE_TITLE: &str = "Price and climb";
/// Title of the table of loaded bicycles.
pub const LOADED_TABLE_TITLE: &str = "Loaded";
/// Title of the table of the trade’s rules of thumb.
pub const RULES_OF_THUMB_TITLE: &str = "Rules of thumb";
/// Title of the table of gears.
pub const GEARS_TITLE: &str = "Gears";
/// Heading of the speeds from which loaded bicycles steady themselves.
pub const STEADY_FROM: &str = "steadies itself from";
/// In place of such a speed.
pub const AT_NO_SPEED: &str = "at no speed";
/// Heading of the shares of the weight on the front wheel.
pub const FRONT_WHEEL: &str = "front wheel";
/// Between the names of two frames that are compared.
pub const AGAINST: &str = "against";
/// What the mark for yes means.
pub const MARK_YES: &str = "fits, met";
/// What the mark for yes on a condition means.
pub const MARK_WITH: &str = "fits with an extra part or on a condition";
/// What the mark for an open question means.
pub const MARK_OPEN: &str = "unknown, not published, or borderline";
/// What the mark for no means.
pub const MARK_NO: &str = "does not fit, not met";
/// The whole line, where a broken one is the frame with another fork.
pub const AS_PUBLISHED: &str = "as published";
/// The origin of a tube’s diameter that no maker publishes.
pub const ASSUMED: &str = "assumed";
/// What stands beside a frame’s letter where nothing of it is drawn.
pub const FRAME_NOT_DRAWN: &str = "not drawn: too few figures are published";
/// Name of a top tube under the pointer.
pub const TOP_TUBE_CENTRE_LINE: &str = "top tube, centre line";
/// Paper for printing (ISO 216).
pub const A4: &str = "A4";
/// Paper for printing (ISO 216).
pub const A3: &str = "A3";
/// Paper for printing.
pub const US_LETTER: &str = "US Letter";
/// Paper for printing: as large as what is on it.
pub const ONE_LARGE_SHEET: &str = "one large sheet";
/// On a pattern: which way the bicycle rides.
pub const FRONT_OF_THE_BICYCLE: &str = "front of the bicycle";
/// What a broken line in the plot of prices means, in metric units.
pub const PRICE_PER_GRAM_SAVED: &str = "dashed line: price per gram saved";
/// What a broken line in the plot of prices means, with pounds.
pub const PRICE_PER_OUNCE_SAVED: &str = "dashed line: price per ounce saved";
/// Heading of the frames’ weights.
pub const FRAME_ALONE: &str = "Frame alone";
/// Heading of the forks’ weights.
pub const FORK_ALONE: &str = "Fork alone";
/// Heading of the framesets’ weights.
pub const FRAME_AND_FORK: &str = "Frameset: frame and fork";

/// Title of a frame drawn as published and as estimated: `B Marrowby Drift, size L, both ways`.
#[must_use]
pub fn both_ways_title(letter: impl Display, name: &str, size_label: &str) -> String {
    format!("{letter} {name}, size {size_label}, both ways")
}

/// Title of the table of one loading: `Loaded: With rear panniers`.
#[must_use]
pub fn loaded_title(loading: &str) -> String {
    format!("{LOADED_TABLE_TITLE}: {loading}")
}

/// What an outline shows: `Side view of 2 frames, aligned at the bottom bracket.`
#[must_use]
pub fn side_view_text(shown: usize, aligned_at: &str) -> String {
    format!("Side view of {}, aligned at the {aligned_at}.", super::frames_in_words(shown))
}

/// A difference and what it is from: `+0.4 l vs A`.
#[must_use]
pub fn versus(what: &str, letter: impl Display) -> String {
    format!("{what} vs {letter}")
}

/// How openings lie over one another: `Overlaid, aligned at the bottom bracket`.
#[must_use]
pub fn overlaid_at(corner: &str) -> String {
    format!("Overlaid, aligned at the {corner}")
}

/// The opening of a frame’s main triangle, under the pointer.
#[must_use]
pub fn opening_of(letter: impl Display) -> String {
    format!("{letter} opening")
}

/// A frame’s bag, under the pointer.
#[must_use]
pub fn bag_of(letter: impl Display) -> String {
    format!("{letter} bag")
}

/// A frame’s largest rectangle, under the pointer.
#[must_use]
pub fn rectangle_of(letter: impl Display) -> String {
    format!("{letter} rectangle")
}

/// A frame’s bottle, under the pointer.
#[must_use]
pub fn bottle_of(letter: impl Display, holder: &str) -> String {
    format!("{letter} bottle {holder}")
}

/// The largest circle, from the longest form to the shortest; `size` is its diameter with unit.
#[must_use]
pub fn largest_circle_forms(size: String) -> Vec<String> {
    vec![format!("largest circle {size}"), format!("circle {size}"), size]
}

/// The largest circle, and the largest rectangle behind it.
#[must_use]
pub fn with_largest_rectangle(circle: &str, size: &str) -> String {
    format!("{circle}, largest rectangle {size}")
}

/// What the broken line of a frame drawn both ways is, and what is said beside it.
#[must_use]
pub fn both_ways_text(told: &str, said: &str) -> String {
    format!("Broken line {told}.{said}")
}

/// Dimensions or figures that are unknown: `B: trail and wheelbase unknown`.
#[must_use]
pub fn figures_unknown(letter: impl Display, figures: &str) -> String {
    format!("{letter}: {figures} unknown")
}

/// A figure that is unknown in some sizes: `B: trail unknown in size S and M.`
#[must_use]
pub fn figure_unknown_in(letter: impl Display, figure: &str, sizes: &str) -> String {
    format!("{letter}: {figure} unknown in size {sizes}.")
}

/// The outline of a frame with another fork or tyres, under the pointer.
#[must_use]
pub fn with_another_fork(frame: &str) -> String {
    format!("{frame}: with the other fork or tyres")
}

/// What is put on a frame: `with a fork of 440 mm`.
#[must_use]
pub fn with_text(what: &str) -> String {
    format!("with {what}")
}

/// A size: `size L`.
#[must_use]
pub fn size_text(label: &str) -> String {
    format!("size {label}")
}

/// What differences are from: `difference from A`.
#[must_use]
pub fn difference_from(letter: impl Display) -> String {
    format!("difference from {letter}")
}

/// A difference from the reference, in a description.
#[must_use]
pub fn difference_from_the_reference(difference: &str) -> String {
    format!("difference from the reference {difference}")
}

/// Frames that a legend has no space for.
#[must_use]
pub fn and_more(count: usize) -> String {
    format!("and {count} more")
}

/// Tubes of a frame that are not drawn.
#[must_use]
pub fn tubes_not_drawn(letter: impl Display, tubes: &str) -> String {
    format!("{letter}: {tubes} {FRAME_NOT_DRAWN}")
}

/// A frame that stands elsewhere than the others.
#[must_use]
pub fn aligned_elsewhere(letter: impl Display, point: &str) -> String {
    format!("{letter}: aligned at its bottom bracket, because its {point} is unknown")
}

/// A point of a frame, under the pointer: `B rear axle`.
#[must_use]
pub fn point_of(letter: impl Display, point: FramePoint) -> String {
    let name = match point {
        FramePoint::RearAxle => "rear axle",
        FramePoint::FrontAxle => "front axle",
        FramePoint::FrontTyreOnTheGround => "front tyre on the ground",
        FramePoint::SeatTubeTop => "top of the seat tube",
        FramePoint::HeadTubeTop => "top of the head tube",
        FramePoint::HeadTubeBottom => "bottom of the head tube",
        FramePoint::BottomBracket => "bottom bracket",
    };
    format!("{letter} {name}")
}

/// Points of a frame that are named under the pointer.
#[derive(Clone, Copy, Debug)]
#[expect(missing_docs, reason = "each says what it is")]
pub enum FramePoint {
    RearAxle,
    FrontAxle,
    FrontTyreOnTheGround,
    SeatTubeTop,
    HeadTubeTop,
    HeadTubeBottom,
    BottomBracket,
}

/// A tube’s diameter and where it is from: `Ø 31.8 mm, as published`.
#[must_use]
pub fn diameter_text(diameter: &str, origin: &str) -> String {
    format!("Ø {diameter}, {origin}")
}

/// On a pattern’s edge: the page that adjoins.
#[must_use]
pub fn page_text(number: usize) -> String {
    format!("page {number}")
}

/// Number of a pattern’s page.
#[must_use]
pub fn page_of(number: usize, of: usize) -> String {
    format!("page {number} of {of}")
}

/// Title of an axis with angles.
#[must_use]
pub fn in_degrees(label: &str) -> String {
    format!("{label}, degrees")
}

/// Title of a plot: `Trail against chainstay`.
#[must_use]
pub fn plot_title(up: &str, across: &str) -> String {
    format!("{up} against {across}")
}

/// A frame at a size, under the pointer.
#[must_use]
pub fn frame_at_size(letter: impl Display, name: &str, size_label: &str) -> String {
    format!("{letter} {name}, size {size_label}")
}

/// A difference that is not clear, in a list of differences.
#[must_use]
pub fn not_clear(difference: &str) -> String {
    format!("{difference} (no clear difference)")
}

/// Title of the axis of weights.
#[must_use]
pub fn frameset_weight_axis(unit: &str) -> String {
    format!("Weight of the frameset, {unit}")
}

/// Title of the bars of a sheet’s weights, with the kinds of them.
#[must_use]
pub fn frameset_weights_title(kinds: &str) -> String {
    format!("Frameset: {kinds}")
}
