//! Weight: what tubes weigh, three ways from a weighed size to another, and the ledger that every total is.
//!
//! What it is not: a scale. Claimed weights and typed factors carry a ± that is itself stated.
//!
//! Invariant: a frame's weight is never set beside a frameset's; what is neither published nor the sum of what is
//! published is left out. Every line of a ledger has its ±, and the lines add up to the total. Scaling to another size
//! and back is the identity.

mod density;
mod errors;
mod ledger;
#[cfg(test)]
mod ledger_tests;
mod lengths;
mod notes;
mod published;
mod settings;
#[cfg(test)]
mod tests;
mod to_size;
mod tube_mass;
mod tube_set;
mod typed;
#[cfg(test)]
mod typed_tests;
#[cfg(test)]
mod ways_tests;

pub use density::{Assumed, density_kg_m3, fixed_parts, fork_g, small_part_g, steerer_g_per_mm};
pub use errors::{ErrorSource, WeightError, weight_difference};
pub use ledger::{PartWeight, Row, RowOf, WeighedFrame, WeightOrigin, Weights, weights};
pub use lengths::{TubeLength, tube_lengths};
pub use notes::{Disagreement, NoWay, WeightNote};
pub use published::{Published, best_published, offered_lines};
pub use settings::{Amount, Line, Method, PartWeightChoices, Per, WeightChoices, WeightSettings, What};
pub use to_size::{Estimate, SizeStep, TypedFactor, Ways, between_weighed, by_stated_factor, by_tube_lengths, disagreement};
pub use tube_mass::{Profile, section_mm2};
pub use tube_set::{TubeOf, TubeSet, tube_set};
pub use typed::{
    TypedError, read_factor, read_fixed_parts, read_grams, read_grams_per_mm, read_line_grams, read_line_mm, read_plus_minus,
    read_within, write_factor, write_grams_per_mm,
};
