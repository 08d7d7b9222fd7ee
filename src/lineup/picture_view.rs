//! What a published picture shows: one of the views, or a part of one.

use super::document::{Axes, Lineup};

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PictureView {
    /// The overview.
    Overview,
    /// Outlines of the frames, overlaid.
    Outline,
    /// The steering plot.
    Steering,
    /// The plot of stack and reach.
    StackAndReach,
    /// The weights.
    Weight,
    /// What weight and price come to: the answers, price against weight, the climb.
    PriceAndClimb,
    /// Price against weight.
    Price,
    /// What the weights do on a climb.
    Climb,
    /// What gears do.
    Gears,
    /// Frame-bag spaces with bags and bottles.
    Bags,
    /// What it takes to build a bicycle on each frame.
    Build,
    /// The published standards of the frames.
    Standards,
    /// The parts of the build against the frames.
    Parts,
    /// The rears of the frames, seen from above.
    RearFromAbove,
    /// The frames against the rider's needs.
    Needs,
    /// A frame with another fork or other tyres.
    Fork,
    /// The rider's contact points.
    ContactPoints,
    /// The loaded bicycles.
    Loaded,
}

impl PictureView {
    /// All, in the order of menus.
    pub const ALL: [Self; 18] = [
        Self::Overview,
        Self::Outline,
        Self::Steering,
        Self::StackAndReach,
        Self::Weight,
        Self::PriceAndClimb,
        Self::Price,
        Self::Climb,
        Self::Gears,
        Self::Build,
        Self::Bags,
        Self::Standards,
        Self::Parts,
        Self::RearFromAbove,
        Self::Needs,
        Self::Fork,
        Self::ContactPoints,
        Self::Loaded,
    ];

    /// Name of its file, without an ending.
    #[must_use]
    pub const fn file_stem(self) -> &'static str {
        match self {
            Self::Overview => "overview",
            Self::Outline => "outline",
            Self::Steering => "steering",
            Self::StackAndReach => "stack-and-reach",
            Self::Weight => "weight",
            Self::PriceAndClimb => "price-and-climb",
            Self::Price => "price",
            Self::Climb => "climb",
            Self::Gears => "gears",
            Self::Build => "build",
            Self::Standards => "standards",
            Self::Bags => "bags",
            Self::Parts => "parts",
            Self::RearFromAbove => "rear-from-above",
            Self::Needs => "needs",
            Self::Fork => "fork",
            Self::ContactPoints => "contact-points",
            Self::Loaded => "loaded",
        }
    }

    /// Whether it shows the frames' shape, which depends on their tyres.
    #[must_use]
    pub const fn is_of_shape(self) -> bool {
        matches!(self, Self::Outline | Self::Steering | Self::StackAndReach)
    }

    /// The axes of a plot; `None` for what is none.
    #[must_use]
    pub fn axes(self, lineup: &Lineup) -> Option<Axes> {
        match self {
            Self::Steering => Some(lineup.settings.steering),
            Self::StackAndReach => Some(lineup.settings.stack_and_reach),
            _ => None,
        }
    }
}
