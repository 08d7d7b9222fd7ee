//! Riding: the power that a bicycle needs, the time that a climb takes, and what gears do.
//!
//! What it is not: a model of a rider. It is arithmetic on steady riding; real riders vary more.
//!
//! Invariant: numbers in, numbers out, in SI units that the names say; no files, no screen. Checked input gives finite
//! answers; a heavier bicycle never climbs faster.

mod accepted;
mod climb;
mod gears;
mod power;

pub use accepted::RidingUnit;
pub use climb::{Climb, ClimbError, climb_seconds, gradient_at, speed_at};
pub use gears::{GearError, Gearing, GearsFound, gears, read_teeth, write_teeth};
pub use power::{Conditions, GRAVITY, Power, power};
