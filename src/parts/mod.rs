//! Parts: the standards that a frameset is built with, what fits it, what the rider needs of it, what another fork or tyre
//! does to it, and where the rider's hands and saddle come.
//!
//! Invariant: numbers and statements in, verdicts out: no disk, no screen, nothing guessed. What a maker does not state is
//! "not stated", never a no; every verdict names its source.

mod check;
mod codes;
pub mod contact_points;
mod extra;
mod fork_limits;
mod fork_part;
mod fork_trial;
mod list;
mod needs;
pub mod places;
mod purchase;
mod ranges;
mod reading;
mod rear_settings;
mod rear_view;
mod reason;
mod reasons;
mod rules;
mod source;
pub mod standards;
mod stated;
mod verdict;

pub use check::{Candidate, check};
pub use extra::Extra;
pub use fork_limits::{LengthLimit, Limits, length_limit};
pub use fork_part::{ForkMeasurement, ForkPart};
pub use fork_trial::{ChangeFindings, ChangedFigure, Correction, ForkTrial, Look, PutOn, SHOWN, change_findings, correction};
pub use list::{Meaning, Part, PartKind, PartsList};
pub use needs::{Answer, Limit, Limited, Measure, Measures, Met, NEED_EXAMPLES, Need, NeedFact, NeedReason};
pub use purchase::{
    AXLE_KEYS, Purchase, PurchaseError, besides_keys, check_besides, check_part_grams, check_part_plus_minus, check_part_price,
    typed_part_weight, written_part_weight,
};
pub use rear_settings::{MOST_RINGS, MOST_SPROCKETS, RearGear, RearSettings};
pub use rear_view::{GearChain, NoGearChain, NoStayGap, RearArm, RearRings, RearSource, RearTyre, RearView};
pub use reason::Reason;
pub use reasons::{
    BrakeReason, CarryingReason, ClearanceOf, CrankReason, DerailleurReason, DropoutReason, EyeletsFor, ForkLengthReason,
    HeadsetReason, HubReason, RimReason, RotorReason, SeatPostReason, ShellReason, SteererReason, TyreReason,
};
pub use source::Source;
pub use stated::{Slip, Stated, Statements, Steerer, Unknown};
pub use verdict::{About, Caution, Fit, Number, Outcome, Verdict};
