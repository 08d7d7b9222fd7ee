//! A fork's length against the limits that the maker publishes.

use super::codes::codes;
use super::stated::{Statements, Unknown};
use crate::frameset::Standard;

/// A fork's length beside the maker's limits, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Shortest fork that the maker allows.
    pub least_mm: f64,
    /// Longest fork that the maker allows.
    pub most_mm: f64,
    /// The fork's unloaded length.
    pub length_mm: f64,
    /// Whether it is so near a limit that the way of measuring decides.
    pub is_near: bool,
}

/// Whether a fork's length is within what the maker allows.
#[derive(Clone, Debug, PartialEq)]
pub enum LengthLimit {
    /// Within the limits.
    Within(Limits),
    /// Shorter or longer than the limits.
    Beyond(Limits),
    /// The maker's limits are not known.
    Unknown(Unknown),
}

codes!(LengthLimit {
    Within => "fork_length_within_limits",
    Beyond => "fork_length_beyond_limits",
    Unknown => "fork_length_limits_unknown",
});

impl LengthLimit {
    /// Within (`true`), beyond (`false`), or not known.
    #[must_use]
    pub const fn is_within(&self) -> Option<bool> {
        match self {
            Self::Within(_) => Some(true),
            Self::Beyond(_) => Some(false),
            Self::Unknown(_) => None,
        }
    }
}

/// Makers measure axle-to-crown along the steering axis or direct: half the difference of the two, mm.
const NEAR_LIMIT_MM: f64 = 3.0;

/// The unloaded length of a fork against the published limits.
#[must_use]
pub fn length_limit(statements: &Statements, unloaded_mm: f64) -> LengthLimit {
    match statements.fork_lengths.known(Standard::ForkLengths) {
        Ok((least, most)) => {
            let is_near = [least, most].iter().any(|l| (unloaded_mm - **l).abs() < NEAR_LIMIT_MM);
            let limits = Limits { least_mm: *least, most_mm: *most, length_mm: unloaded_mm, is_near };
            if (*least..=*most).contains(&unloaded_mm) { LengthLimit::Within(limits) } else { LengthLimit::Beyond(limits) }
        }
        Err(why) => LengthLimit::Unknown(why),
    }
}
