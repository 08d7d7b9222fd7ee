//! The views and their groups: names, tooltips and order, in one table. Tabs, menu, keys, notices and tests read it.

use super::labels::Named;
use super::labels::views as labels;

/// A group of views, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ViewGroup {
    /// The frames beside one another.
    Compare,
    /// What fits a frame, and the rider.
    Fit,
    /// Weight, price, and what a saved gram is worth.
    Cost,
    /// What a maker published, and what is doubtful about it.
    Data,
    /// What others get to see.
    Publish,
}

impl ViewGroup {
    /// All groups, in the order of the tabs.
    pub const ALL: [Self; 5] = [Self::Compare, Self::Fit, Self::Cost, Self::Data, Self::Publish];

    /// Name and tooltip, in their one place. A group of one view has the view's.
    pub(crate) const fn named(self) -> Named {
        match self {
            Self::Compare => labels::COMPARE,
            Self::Fit => labels::FIT,
            Self::Cost => labels::COST,
            Self::Data => labels::DATA,
            Self::Publish => labels::PUBLISH,
        }
    }

    /// Name on the tab and in the menu.
    #[must_use]
    pub const fn label(self) -> &'static str {
        self.named().label
    }

    /// What its views are about, in one sentence.
    #[must_use]
    pub const fn tooltip(self) -> &'static str {
        self.named().tooltip
    }

    /// Its views, in the order of the tabs.
    #[must_use]
    pub fn views(self) -> impl DoubleEndedIterator<Item = ViewId> {
        ViewId::ALL.into_iter().filter(move |view| view.group() == self)
    }

    /// Its only view, where it has one alone. Such a group has no second row of tabs.
    #[must_use]
    pub fn only_view(self) -> Option<ViewId> {
        let mut views = self.views();
        views.next().filter(|_| views.next().is_none())
    }

    /// Place among the groups, 0 first.
    #[must_use]
    pub const fn place(self) -> usize {
        self as usize
    }
}

/// A view. Its place in [`ViewId::ALL`] is its place among the tabs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ViewId {
    /// What decides between the frames, side by side.
    #[default]
    Overview,
    /// Outlines, overlaid to scale.
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
    /// Wheel loads, braking and self-steadying speeds, without luggage and with it.
    Loaded,
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
    pub const ALL: [Self; 15] = [
        Self::Overview,
        Self::Outline,
        Self::Steering,
        Self::StackAndReach,
        Self::AllFigures,
        Self::Bags,
        Self::Parts,
        Self::Fork,
        Self::ContactPoints,
        Self::Loaded,
        Self::Weight,
        Self::PriceAndClimb,
        Self::Frameset,
        Self::Check,
        Self::Publish,
    ];

    /// Name and tooltip, in their one place.
    pub(crate) const fn named(self) -> Named {
        match self {
            Self::Overview => labels::OVERVIEW,
            Self::Outline => labels::OUTLINE,
            Self::Steering => labels::STEERING,
            Self::StackAndReach => labels::STACK_AND_REACH,
            Self::AllFigures => labels::ALL_FIGURES,
            Self::Bags => labels::BAGS,
            Self::Parts => labels::PARTS,
            Self::Fork => labels::FORK,
            Self::ContactPoints => labels::CONTACT_POINTS,
            Self::Loaded => labels::LOADED,
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

    /// Group that the view's tab stands in. The views of a group stand together in [`ViewId::ALL`].
    #[must_use]
    pub const fn group(self) -> ViewGroup {
        match self {
            Self::Overview | Self::Outline | Self::Steering | Self::StackAndReach | Self::AllFigures => ViewGroup::Compare,
            Self::Bags | Self::Parts | Self::Fork | Self::ContactPoints | Self::Loaded => ViewGroup::Fit,
            Self::Weight | Self::PriceAndClimb => ViewGroup::Cost,
            Self::Frameset | Self::Check => ViewGroup::Data,
            Self::Publish => ViewGroup::Publish,
        }
    }

    /// Place among the views of its group, 0 first.
    #[must_use]
    pub fn place_in_group(self) -> usize {
        self.group().views().take_while(|view| *view != self).count()
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

    #[test]
    fn the_groups_parted_by_nothing_are_the_table() {
        let grouped: Vec<_> = ViewGroup::ALL.into_iter().flat_map(ViewGroup::views).collect();
        assert_eq!(grouped, ViewId::ALL);
        for (place, group) in ViewGroup::ALL.into_iter().enumerate() {
            assert_eq!(group.place(), place);
            // A group without a second row bears the name of its view.
            assert!(group.only_view().is_none_or(|view| view.label() == group.label()));
            for (place, view) in group.views().enumerate() {
                assert_eq!(view.place_in_group(), place);
            }
        }
    }
}
