//! What moves in a sheet's moving pictures, how long, and at which frame rate.

use std::ops::RangeInclusive;

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

/// How long moving pictures may be, s.
pub const SECONDS: RangeInclusive<u32> = 1..=30;
/// Pictures a second that may be asked for.
pub const RATES: RangeInclusive<u32> = 5..=60;
/// By how much a fork may be made longer (or shorter, −), mm.
pub const FORK_LONGER_MM: RangeInclusive<i32> = -100..=150;

/// Animation of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
// A file may write this name before the brackets.
#[serde(deny_unknown_fields, default, rename = "Moves")]
pub struct Animation {
    /// What the animation shows.
    pub what: Movement,
    /// How long, s.
    #[serde(deserialize_with = "seconds")]
    pub seconds: u32,
    /// Pictures a second.
    #[serde(alias = "rate", deserialize_with = "rate")]
    pub frames_per_second: u32,
}

/// What an animation shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Movement {
    /// The shown frames appear one after the other, the reference first.
    #[default]
    Appear,
    /// The reference's outline changes into each other shown frame's, one after the other.
    Change,
    /// The reference's fork gets longer (−: shorter) by so many mm, and the frame turns with it.
    Fork(#[serde(deserialize_with = "longer")] i32),
}

/// Why an animation shows nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NoAnimation {
    /// Too few figures of the reference are published to draw it.
    ReferenceNotDrawn,
    /// No frame is drawn.
    NoFrame,
    /// Only one frame is drawn, and it is to change into another.
    OneFrame,
}

impl Default for Animation {
    fn default() -> Self {
        Self { what: Movement::Appear, seconds: 4, frames_per_second: 25 }
    }
}

impl Animation {
    /// How many pictures.
    #[must_use]
    pub fn pictures(self) -> usize {
        (self.seconds * self.frames_per_second) as usize
    }
}

impl Movement {
    /// One of each kind, in the order of menus.
    pub const ALL: [Self; 3] = [Self::Appear, Self::Change, Self::Fork(40)];
}

fn within<'de, D: Deserializer<'de>, T: Deserialize<'de> + PartialOrd + std::fmt::Display>(
    deserializer: D,
    range: &RangeInclusive<T>,
    what: &str,
) -> Result<T, D::Error> {
    let value = T::deserialize(deserializer)?;
    if range.contains(&value) {
        return Ok(value);
    }
    Err(D::Error::custom(format!("{value} is not a valid {what}: write {} to {}", range.start(), range.end())))
}

fn seconds<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    within(deserializer, &SECONDS, "length of an animation in seconds")
}

fn rate<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    within(deserializer, &RATES, "number of frames per second")
}

fn longer<'de, D: Deserializer<'de>>(deserializer: D) -> Result<i32, D::Error> {
    within(deserializer, &FORK_LONGER_MM, "change of fork length in millimetres")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_made_is_refused_with_what_can() {
        let read = |text: &str| ron::from_str::<Animation>(text);
        assert_eq!(read("(what: Fork(-20), seconds: 2, rate: 30)").unwrap().pictures(), 60);
        for (text, says) in [("(seconds: 0)", "1 to 30"), ("(rate: 1000)", "5 to 60"), ("(what: Fork(900))", "-100 to 150")] {
            let refusal = read(text).unwrap_err().to_string();
            assert!(refusal.contains(says), "{refusal}");
        }
    }
}
