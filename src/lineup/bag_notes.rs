//! Notes on a frame's frame-bag space, bag and bottles: what is unknown, assumed, in the way, and what to measure next.
//!
//! Facts only; `words` turns them into sentences.

use super::findings::Findings;
use crate::frameset::{FrameIndex, Tube};
use crate::luggage::{BottleFit, BottleVerdict, Holder, Measurement, NoBag, NoOpening};
use crate::units::{Area, Measured};

/// One fact about a frame's frame-bag space, bag or bottles.
#[derive(Clone, Debug, PartialEq)]
pub enum BagNote {
    /// There is no frame-bag space that could be drawn.
    NoOpening(NoOpening),
    /// A measurement to 1 mm that would narrow the space's area most.
    MeasureFirst {
        /// What to measure.
        measure: Measurement,
        /// Area as it is known, dm².
        now: Measured<Area>,
        /// Area as it would be known then, dm².
        then: Measured<Area>,
    },
    /// No single measurement would narrow the space's area, dm², much.
    NothingToMeasure(Measured<Area>),
    /// Tubes whose diameter is assumed from the material.
    AssumedDiameters(Vec<Tube>),
    /// The bottom bracket shell reaches into the lowest corner.
    ShellInCorner,
    /// No bag fits.
    NoBag(NoBag),
    /// The cut line leaves more than one piece, of which the largest is the bag.
    BagInPieces,
    /// How a bottle fits.
    Bottle(BottleFit),
    /// A bottle whose tube cannot be drawn.
    BottleWithoutTube(Holder),
}

impl BagNote {
    /// Stable code, for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoOpening(why) => why.code(),
            Self::MeasureFirst { .. } => "measure_first",
            Self::NothingToMeasure(_) => "nothing_to_measure",
            Self::AssumedDiameters(_) => "tube_diameters_assumed",
            Self::ShellInCorner => "shell_in_corner",
            Self::NoBag(why) => why.code(),
            Self::BagInPieces => "bag_in_pieces",
            Self::Bottle(BottleFit { with_bag: BottleVerdict::Fits, .. }) => "bottle_fits",
            Self::Bottle(BottleFit { with_bag: BottleVerdict::Borderline, .. }) => "bottle_borderline",
            Self::Bottle(_) => "bottle_hits",
            Self::BottleWithoutTube(_) => "bottle_tube_unknown",
        }
    }
}

impl Findings {
    /// Notes on a frame's frame-bag space, bag and bottles, in the order in which they are told.
    #[must_use]
    pub fn bag_notes(&self, frame: FrameIndex) -> Vec<BagNote> {
        let Some(found) = frame.of(&self.frames) else { return Vec::new() };
        let luggage = &found.luggage;
        let bag_space = match &luggage.bag_space {
            Ok(bag_space) => bag_space,
            Err(why) => return vec![BagNote::NoOpening(why.clone())],
        };
        let mut notes = vec![bag_space_measure(bag_space)];
        if !bag_space.assumed_diameters.is_empty() {
            notes.push(BagNote::AssumedDiameters(bag_space.assumed_diameters.clone()));
        }
        if bag_space.shell_intrudes {
            notes.push(BagNote::ShellInCorner);
        }
        let settings = luggage.settings();
        if settings.with_bag {
            match &luggage.bag {
                Some(Err(why)) => notes.push(BagNote::NoBag(*why)),
                Some(Ok(bag)) if bag.is_in_pieces => notes.push(BagNote::BagInPieces),
                _ => {}
            }
        }
        if settings.with_bottles {
            notes.extend(luggage.bottles.fits.iter().cloned().map(BagNote::Bottle));
            notes.extend(luggage.bottles.without_tube.iter().copied().map(BagNote::BottleWithoutTube));
        }
        notes
    }
}

/// What to measure first in a frame-bag space.
#[must_use]
pub fn bag_space_measure(bag_space: &crate::luggage::BagSpace) -> BagNote {
    let now = bag_space.area_dm2;
    bag_space.helps.first().map_or(BagNote::NothingToMeasure(now), |best| BagNote::MeasureFirst {
        measure: best.measure,
        now,
        then: Measured::new(now.value, best.area_u_dm2),
    })
}
