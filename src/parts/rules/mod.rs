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
mod tyre_clearance;

pub(super) use brakes::{caliper, rotor};
pub(super) use carrying::{EyeletsAt, GuardPlace, cages, mudguards, rack};
pub(super) use crank::{RearEnd, bottom_bracket, crank, rings_clear};
pub(super) use drivetrain::{belt, front_derailleur, gear_hub};
pub(super) use fork::{fork_length, fork_steerer};
pub(super) use headset::headset;
pub(super) use hub::hub;
pub(super) use seat_post::{Heights, seat_post};
pub(super) use tyre_clearance::{Beside, by_the_frames_clearance, rims, tyre_clearance};
