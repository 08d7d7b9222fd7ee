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
    /// The fork's unloaded length along the steering axis.
    pub along_mm: f64,
    /// The same length directly from crown race seat to axle.
    pub direct_mm: f64,
}

/// Whether a fork's length is within what the maker allows.
#[derive(Clone, Debug, PartialEq)]
pub enum LengthLimit {
    /// Within the limits, along the steering axis and directly.
    Within(Limits),
    /// Within the limits by one way of measuring and not by the other; which one the maker uses is not published.
    Depends(Limits),
    /// Shorter or longer than the limits.
    Beyond(Limits),
    /// The maker's limits are not known.
    Unknown(Unknown),
}

codes!(LengthLimit {
    Within => "fork_length_within_limits",
    Depends => "fork_length_depends_on_measuring",
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
            Self::Depends(_) | Self::Unknown(_) => None,
        }
    }
}

/// The unloaded length of a fork along the steering axis, and its offset, against the published limits. Makers measure
/// axle-to-crown along the axis or directly and seldom say which, so both are held against them.
#[must_use]
pub fn length_limit(statements: &Statements, along_mm: f64, offset_mm: f64) -> LengthLimit {
    match statements.fork_lengths.known(Standard::ForkLengths) {
        Ok((least, most)) => {
            let direct_mm = along_mm.hypot(offset_mm);
            let limits = Limits { least_mm: *least, most_mm: *most, along_mm, direct_mm };
            let is_within = |mm: f64| (*least..=*most).contains(&mm);
            match (is_within(along_mm), is_within(direct_mm)) {
                (true, true) => LengthLimit::Within(limits),
                (false, false) => LengthLimit::Beyond(limits),
                _ => LengthLimit::Depends(limits),
            }
        }
        Err(why) => LengthLimit::Unknown(why),
    }
}
