//! Luggage inside the main triangle: the room there, a bag cut to it, bottles in their cages.
//!
//! Knows the geometry and, for offsets of outlines, a polygon library; knows nothing of documents and screens.
//! Invariant: pure functions; every number that a user is shown carries its u, or its doc says why it has none.

mod along;
mod bag;
mod bag_measures;
#[cfg(test)]
mod bag_measures_tests;
mod bag_settings;
mod bag_shape;
#[cfg(test)]
mod bag_shape_tests;
mod bag_space;
#[cfg(test)]
mod bag_space_tests;
mod band;
mod bottle_gaps;
#[cfg(test)]
mod bottle_tests;
mod bottle_verdict;
mod bottles;
mod circle;
#[cfg(test)]
mod largest_tests;
mod no_bag;
mod opening;
mod plane;
#[cfg(test)]
mod plane_tests;
mod rectangle;
#[cfg(test)]
mod tests;

pub use along::Along;
pub use bag::{Bag, BagEdge, NoPattern, bag};
pub use bag_settings::{BagPart, BagSettings, Cut};
pub use bag_space::{
    ASSUMED_DIAMETER_U_MM, BagSpace, BagSpaceCircle, BagSpaceRectangle, Corner, Help, Measurement, SHELL_RADIUS_MM, Side,
    bag_space,
};
pub use band::{Band, band};
pub use bottle_gaps::{BOTTLE_U_MM, PlaceDoubts};
pub use bottle_verdict::BottleVerdict;
pub use bottles::{BOSS_PLUS_MINUS_MM, BOSSES_APART_MM, Bottle, BottleFit, Bottles, Cage, CageSettings, Clash, Holder, bottles};
pub use no_bag::NoBag;
pub use opening::{AROUND, NoOpening, Opening, Tubes, opening};
