//! The rider: where stem, spacers and bar put the hands, where the saddle stands, what repeats that on another frame, and
//! the room between the rider and the frame.
//!
//! Axes are those of the frame: origin at the bottom bracket, x forward, y up, mm and degrees.

mod body;
mod closest_size;
mod cockpit;
mod repeat;
mod upper_headset;

pub use body::{
    Clearance, POST_SETBACK_MM, STANDOVER_CLEARANCE_MM, TOE_LIMITS, ToeGap, ToeLimit, seat_layback, standover, toe_gap,
};
pub use closest_size::{ClosestSize, closest_size, reach_difference};
pub use cockpit::{Cockpit, Hand, Handlebar, Rider, Saddle, hands};
pub use repeat::{LONGEST_STEM_MM, MOST_SPACERS_MM, RefusedStem, Repeated, SHORTEST_STEM_MM, Steered, Works, repeat};
pub use upper_headset::{UpperHeadset, assumed_upper_headset_mm};
