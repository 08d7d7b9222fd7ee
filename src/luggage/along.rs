//! What the edges of a bag run along.

use crate::frameset::Tube;

/// What an edge of the bag runs along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// A tube.
    Tube(Tube),
    /// The cut line.
    Cut,
}

impl Along {
    pub(super) const ALL: [Self; 5] = [
        Self::Tube(Tube::DownTube),
        Self::Tube(Tube::HeadTube),
        Self::Tube(Tube::TopTube),
        Self::Tube(Tube::SeatTube),
        Self::Cut,
    ];
}
