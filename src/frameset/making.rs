//! How a frameset is made, as far as its weight depends on it: walls of tubes, the steerer, and the small parts that may
//! have been on the scale.

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use super::checks::within;

/// A tube's wall: plain, or thicker at its ends (butted). The middle takes up what a longer size adds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// Thickness at the first end (rear or lower), mm; of the whole tube where nothing else is given.
    #[serde(deserialize_with = "wall")]
    pub wall: f64,
    /// Thickness in the middle, mm.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "optional_wall")]
    pub middle: Option<f64>,
    /// Thickness at the other end, mm, where it differs from the first.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "optional_wall")]
    pub other_end: Option<f64>,
    /// Length of the first thick end, mm.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "run")]
    pub butt: Option<f64>,
    /// Length of the other thick end, mm, where it differs from the first.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "run")]
    pub other_butt: Option<f64>,
    /// Length over which the wall thins from an end to the middle, mm.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "run")]
    pub taper: Option<f64>,
}

impl Wall {
    /// The same all along.
    #[must_use]
    pub const fn plain(wall: f64) -> Self {
        Self { wall, middle: None, other_end: None, butt: None, other_butt: None, taper: None }
    }

    /// Both ends alike, thinner in the middle.
    #[must_use]
    pub const fn butted(wall: f64, middle: f64, butt: f64, taper: f64) -> Self {
        Self { wall, middle: Some(middle), other_end: None, butt: Some(butt), other_butt: None, taper: Some(taper) }
    }
}

/// A steerer, as it comes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Steerer {
    /// Its length uncut, mm.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "steerer_length")]
    pub length: Option<f64>,
    /// What a millimetre of it weighs, g.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "grams_per_mm")]
    pub grams_per_mm: Option<f64>,
}

/// A part that one publisher weighs with the frame or fork and another does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum SmallPart {
    /// The axle of a wheel.
    Axle,
    /// The clamp that holds the seat post.
    SeatClamp,
    /// Cups or bearings of the headset.
    HeadsetCups,
    /// Paint, or its absence.
    Paint,
    /// The hanger of the rear derailleur.
    Hanger,
    /// Bolts, covers, guides.
    Bolts,
}

impl SmallPart {
    /// All of them, in the order of menus.
    pub const ALL: [Self; 6] = [Self::Axle, Self::SeatClamp, Self::HeadsetCups, Self::Paint, Self::Hanger, Self::Bolts];

    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Axle => "axle",
            Self::SeatClamp => "seat clamp",
            Self::HeadsetCups => "headset cups",
            Self::Paint => "paint",
            Self::Hanger => "hanger",
            Self::Bolts => "bolts and covers",
        }
    }
}

fn wall<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let mm = f64::deserialize(deserializer)?;
    within(mm, 0.2, 10.0, "a tube's wall", "mm").map_err(D::Error::custom)?;
    Ok(mm)
}

fn optional<'de, D: Deserializer<'de>>(
    deserializer: D,
    low: f64,
    high: f64,
    what: &str,
    unit: &'static str,
) -> Result<Option<f64>, D::Error> {
    let value = Option::<f64>::deserialize(deserializer)?;
    if let Some(value) = value {
        within(value, low, high, what, unit).map_err(D::Error::custom)?;
    }
    Ok(value)
}

fn optional_wall<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    optional(deserializer, 0.2, 10.0, "a tube's wall", "mm")
}

fn run<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    optional(deserializer, 0.0, 400.0, "the length of a butt or taper", "mm")
}

fn steerer_length<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    optional(deserializer, 100.0, 500.0, "a steerer's length", "mm")
}

fn grams_per_mm<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    optional(deserializer, 0.1, 3.0, "a steerer's weight per millimetre", "g/mm")
}

#[cfg(test)]
mod tests {
    use crate::frameset::{SmallPart, Tube, Wall, read_frameset, write_frameset};

    fn read(fields: &str) -> Result<crate::frameset::Frameset, String> {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Marrowby\", model: \"Drift\", {fields},
             sizes: [(label: \"M\", figures: {{Stack: 600}})])"
        );
        read_frameset(text.as_bytes()).map_err(|e| e.to_string())
    }

    #[test]
    fn walls_steerer_and_small_parts_come_back_as_they_were_written() {
        let frameset = read(
            "tube_walls: {TopTube: (wall: 0.8, middle: 0.5, butt: 100, taper: 30), ChainStay: (wall: 0.8)},
             small_parts: {Axle: 62}, fork: (steerer: (length: 300, grams_per_mm: 1.07)),
             weights: [(part: Fork, grams: 1370, from: Claimed, with: [Axle])]",
        )
        .unwrap();
        assert_eq!(frameset.tube_walls[&Tube::TopTube], Wall::butted(0.8, 0.5, 100.0, 30.0));
        assert_eq!(frameset.small_parts[&SmallPart::Axle], 62.0);
        assert_eq!(frameset.weights[0].with, [SmallPart::Axle]);
        assert_eq!(read_frameset(write_frameset(&frameset).unwrap().as_bytes()).unwrap(), frameset);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        for (fields, says) in [
            ("tube_walls: {TopTube: (wall: 0)}", "a tube's wall of 0 mm is outside 0.2 to 10 mm"),
            ("tube_walls: {TopTube: (wall: 0.8, butt: 900)}", "the length of a butt or taper of 900 mm"),
            ("fork: (steerer: (grams_per_mm: 1070))", "a steerer's weight per millimetre of 1070 g/mm"),
            ("small_parts: {Axle: 0}", "the axle of 0 g"),
            ("small_parts: {Axel: 60}", "did you mean `Axle`?"),
        ] {
            let sentence = read(fields).unwrap_err();
            assert!(sentence.contains(says), "{sentence}");
        }
    }
}
