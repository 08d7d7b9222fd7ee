//! What the drawing of the rear from above shows beside the lowest and the highest gear.

use serde::{Deserialize, Deserializer, Serialize};

/// Most chainrings and sprockets that a gear is chosen of.
pub const MOST_RINGS: u8 = 3;
/// See [`MOST_RINGS`].
pub const MOST_SPROCKETS: u8 = 13;

/// A gear, by its places from the lowest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RearGear {
    /// Chainring, 1 the smallest, 1 to 3.
    #[serde(deserialize_with = "ring")]
    pub ring: u8,
    /// Sprocket, 1 the largest, 1 to 13.
    #[serde(deserialize_with = "sprocket")]
    pub sprocket: u8,
}

/// What the rears show.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RearSettings {
    /// A gear whose chain is drawn, too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gear: Option<RearGear>,
    /// Whether the reference is drawn below every other frame.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub over_reference: bool,
}

impl RearSettings {
    /// Whether nothing is chosen.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == Self::default()
    }
}

fn ring<'de, D: Deserializer<'de>>(d: D) -> Result<u8, D::Error> {
    within(u8::deserialize(d)?, MOST_RINGS, "chainring")
}

fn sprocket<'de, D: Deserializer<'de>>(d: D) -> Result<u8, D::Error> {
    within(u8::deserialize(d)?, MOST_SPROCKETS, "sprocket")
}

fn within<E: serde::de::Error>(number: u8, most: u8, what: &str) -> Result<u8, E> {
    if (1..=most).contains(&number) {
        Ok(number)
    } else {
        Err(E::custom(format!("{number} is not a valid {what}. Enter 1 to {most}, for example 1")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gears_are_read_within_their_ranges() {
        let read = |text: &str| ron::from_str::<RearSettings>(text);
        let chosen = RearSettings { gear: Some(RearGear { ring: 3, sprocket: 13 }), over_reference: true };
        assert_eq!(read(&ron::to_string(&chosen).unwrap()), Ok(chosen));
        assert!(read("()").unwrap().is_default());
        for (text, says) in [
            ("(gear: Some((ring: 0, sprocket: 1)))", "1 to 3"),
            ("(gear: Some((ring: 4, sprocket: 1)))", "1 to 3"),
            ("(gear: Some((ring: 1, sprocket: 14)))", "1 to 13"),
        ] {
            assert!(read(text).unwrap_err().to_string().contains(says), "{text}");
        }
    }
}
