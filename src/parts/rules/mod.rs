//! The rules of what fits what: one file a family of parts. Each rule answers for every input: fits, fits with
//! something, does not fit, or unknown; and gives its reasons as data.

mod brakes;
mod carrying;
mod crank;
mod drivetrain;
mod fork;
mod headset;
mod hub;
mod seat_post;
mod tyre_room;

pub use brakes::{BrakeReason, RotorReason};
pub(super) use brakes::{caliper, rotor};
pub use carrying::{CarryingReason, EyeletsFor};
pub(super) use carrying::{EyeletsAt, GuardPlace, cages, mudguards, rack};
pub use crank::{CrankReason, ShellReason};
pub(super) use crank::{bottom_bracket, crank};
pub use drivetrain::{DerailleurReason, DropoutReason};
pub(super) use drivetrain::{belt, front_derailleur, gear_hub};
pub use fork::{ForkLengthReason, SteererReason};
pub(super) use fork::{fork_length, fork_steerer};
pub use headset::HeadsetReason;
pub(super) use headset::headset;
pub use hub::HubReason;
pub(super) use hub::hub;
pub use seat_post::SeatPostReason;
pub(super) use seat_post::{Heights, seat_post};
pub use tyre_room::{ClearanceOf, RimReason, TyreReason};
pub(super) use tyre_room::{Drivetrain, by_the_frames_room, rims, tyre_room};
