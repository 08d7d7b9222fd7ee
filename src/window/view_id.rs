//! The views: names, tooltips and order, in one table. Tabs, menu, keys, notices and tests read it.

use super::labels::Named;
use super::labels::views as labels;

/// A view. Its place in [`ViewId::ALL`] is its place among the tabs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ViewId {
    /// Outlines, overlaid to scale.
    #[default]
    Outline,
    /// A plot that begins with trail against chainstay.
    Steering,
    /// A plot that begins with stack against reach.
    StackAndReach,
    /// The table of figures, with differences from the reference.
    AllFigures,
    /// Bags and bottles in the main triangle.
    Bags,
    /// Which parts fit.
    Parts,
    /// Another fork or other tyres.
    Fork,
    /// Hands, saddle, standover and toes.
    ContactPoints,
    /// Weights and their workings.
    Weight,
    /// Price per saved gram, time on a climb, gears.
    PriceAndClimb,
    /// The selected frameset as a table to edit.
    Frameset,
    /// Doubtful figures, and what each ± consists of.
    Check,
    /// The sheet that is published.
    Publish,
}

impl ViewId {
    /// All views, in the order of the tabs.
    pub const ALL: [Self; 13] = [
        Self::Outline,
        Self::Steering,
        Self::StackAndReach,
        Self::AllFigures,
        Self::Bags,
        Self::Parts,
        Self::Fork,
        Self::ContactPoints,
        Self::Weight,
        Self::PriceAndClimb,
        Self::Frameset,
        Self::Check,
        Self::Publish,
    ];

    /// Name and tooltip, in their one place.
    pub(crate) const fn named(self) -> Named {
        match self {
            Self::Outline => labels::OUTLINE,
            Self::Steering => labels::STEERING,
            Self::StackAndReach => labels::STACK_AND_REACH,
            Self::AllFigures => labels::ALL_FIGURES,
            Self::Bags => labels::BAGS,
            Self::Parts => labels::PARTS,
            Self::Fork => labels::FORK,
            Self::ContactPoints => labels::CONTACT_POINTS,
            Self::Weight => labels::WEIGHT,
            Self::PriceAndClimb => labels::PRICE_AND_CLIMB,
            Self::Frameset => labels::FRAMESET,
            Self::Check => labels::CHECK,
            Self::Publish => labels::PUBLISH,
        }
    }

    /// Name on the tab and in the menu.
    #[must_use]
    pub const fn label(self) -> &'static str {
        self.named().label
    }

    /// What the view shows, in one sentence.
    #[must_use]
    pub const fn tooltip(self) -> &'static str {
        self.named().tooltip
    }

    /// Whether a group of tabs begins here: geometry, parts and rider, weight and price, frameset, publishing.
    #[must_use]
    pub const fn begins_group(self) -> bool {
        matches!(self, Self::Bags | Self::Weight | Self::Frameset | Self::Publish)
    }

    /// Place among the tabs, 0 first.
    #[must_use]
    pub const fn place(self) -> usize {
        self as usize
    }

    /// The view to the right; the first one behind the last.
    #[must_use]
    pub const fn next(self) -> Self {
        Self::ALL[(self.place() + 1) % Self::ALL.len()]
    }

    /// The view to the left; the last one before the first.
    #[must_use]
    pub const fn previous(self) -> Self {
        Self::ALL[(self.place() + Self::ALL.len() - 1) % Self::ALL.len()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_in_the_order_of_the_enum() {
        for (place, view) in ViewId::ALL.into_iter().enumerate() {
            assert_eq!(view.place(), place);
            assert_eq!(view.next().previous(), view);
        }
    }
}
