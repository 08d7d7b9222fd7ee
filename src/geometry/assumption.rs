//! Assumptions that stand in for what no figure says, and sets of them.

use super::state::Quantity;

/// A weak assumption that stands in for what no figure says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Assumption {
    /// Rear tyre radius.
    RearTyreRadius,
    /// Front tyre radius: its own, or that it equals the rear one's.
    FrontTyreRadius,
    /// Lower headset.
    LowerHeadset,
    /// Seat tube setback.
    SeatTubeSetback,
    /// Top tube axis below the head tube's top.
    TopTubeBelowHeadTubeTop,
    /// Top tube axis below the seat tube's top.
    TopTubeBelowSeatTubeTop,
    /// Down tube axis above the head tube's bottom.
    DownTubeAboveHeadTubeBottom,
}

impl Assumption {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::RearTyreRadius,
        Self::FrontTyreRadius,
        Self::LowerHeadset,
        Self::SeatTubeSetback,
        Self::TopTubeBelowHeadTubeTop,
        Self::TopTubeBelowSeatTubeTop,
        Self::DownTubeAboveHeadTubeBottom,
    ];

    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::RearTyreRadius => "rear_tyre_radius",
            Self::FrontTyreRadius => "front_tyre_radius",
            Self::LowerHeadset => "lower_headset",
            Self::SeatTubeSetback => "seat_tube_setback",
            Self::TopTubeBelowHeadTubeTop => "top_tube_below_head_tube_top",
            Self::TopTubeBelowSeatTubeTop => "top_tube_below_seat_tube_top",
            Self::DownTubeAboveHeadTubeBottom => "down_tube_above_head_tube_bottom",
        }
    }

    /// The quantity it is about.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::RearTyreRadius => Quantity::RearTyreRadius,
            Self::FrontTyreRadius => Quantity::FrontTyreRadius,
            Self::LowerHeadset => Quantity::LowerHeadset,
            Self::SeatTubeSetback => Quantity::SeatTubeSetback,
            Self::TopTubeBelowHeadTubeTop => Quantity::TopTubeBelowHeadTubeTop,
            Self::TopTubeBelowSeatTubeTop => Quantity::TopTubeBelowSeatTubeTop,
            Self::DownTubeAboveHeadTubeBottom => Quantity::DownTubeAboveHeadTubeBottom,
        }
    }
}

/// A set of assumptions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Assumptions(u8);

impl Assumptions {
    /// Adds one.
    pub fn insert(&mut self, assumption: Assumption) {
        self.0 |= 1 << assumption as u8;
    }

    /// Whether it is in the set.
    #[must_use]
    pub fn contains(self, assumption: Assumption) -> bool {
        self.0 & (1 << assumption as u8) != 0
    }

    /// Whether the set is empty.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// In the order of [`Assumption::ALL`].
    pub fn iter(self) -> impl Iterator<Item = Assumption> {
        Assumption::ALL.into_iter().filter(move |a| self.contains(*a))
    }
}
