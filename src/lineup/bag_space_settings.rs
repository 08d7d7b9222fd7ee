//! What the user chose about room, bags and bottles: one choice for all frames, so that they are compared alike.

use serde::{Deserialize, Serialize};

use crate::frameset::Tube;
use crate::luggage::{BagSettings, CageSettings};

/// Settings of the room.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
// A file may write this name before the brackets.
#[serde(deny_unknown_fields, default, rename = "RoomSettings")]
pub struct BagSpaceSettings {
    /// The corner at which the openings are aligned.
    #[serde(alias = "stand_at")]
    pub align_at: BagSpaceCorner,
    /// Whether the bag is drawn, and in the way of bottles.
    pub with_bag: bool,
    /// The bag.
    pub bag: BagSettings,
    /// Whether bottles are drawn.
    pub with_bottles: bool,
    /// Cages and bottles.
    pub cages: CageSettings,
}

impl Default for BagSpaceSettings {
    fn default() -> Self {
        Self {
            align_at: BagSpaceCorner::default(),
            with_bag: true,
            bag: BagSettings::default(),
            with_bottles: true,
            cages: CageSettings::default(),
        }
    }
}

/// A corner of the openings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum BagSpaceCorner {
    /// Between seat tube and down tube.
    #[default]
    BottomBracket,
    /// Between top tube and seat tube.
    SeatTubeTop,
    /// Between head tube and top tube, or down tube and top tube where no head tube shows.
    HeadTube,
}

impl BagSpaceCorner {
    /// All, in the order of menus.
    pub const ALL: [Self; 3] = [Self::BottomBracket, Self::SeatTubeTop, Self::HeadTube];

    /// The tubes that may make it, the better pair first.
    #[must_use]
    pub const fn between(self) -> [(Tube, Tube); 2] {
        match self {
            Self::BottomBracket => [(Tube::SeatTube, Tube::DownTube); 2],
            Self::SeatTubeTop => [(Tube::TopTube, Tube::SeatTube); 2],
            Self::HeadTube => [(Tube::HeadTube, Tube::TopTube), (Tube::DownTube, Tube::TopTube)],
        }
    }
}
