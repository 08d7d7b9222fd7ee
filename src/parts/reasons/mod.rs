//! Why a part fits or does not: one file for each file of `rules/`, each variant one finding of a rule, with its numbers.

mod brakes;
mod carrying;
mod crank;
mod drivetrain;
mod fork;
mod headset;
mod hub;
mod seat_post;
mod tyre_clearance;

pub use brakes::{BrakeReason, RotorReason};
pub use carrying::{CarryingReason, EyeletsFor};
pub use crank::{CrankReason, ShellReason};
pub use drivetrain::{DerailleurReason, DropoutReason};
pub use fork::{ForkLengthReason, SteererReason};
pub use headset::HeadsetReason;
pub use hub::HubReason;
pub use seat_post::SeatPostReason;
pub use tyre_clearance::{ClearanceOf, RimReason, TyreReason};
