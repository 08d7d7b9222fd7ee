//! What the user chooses about weights: for the whole line-up, and for each weight of each frame.

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use crate::frameset::{Part, SmallPart};
use crate::units::{as_typed, fixed};

/// A way from a weighed size to another.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Method {
    /// A factor that the user types.
    #[serde(alias = "Stated")]
    YourFactor,
    /// The tubes' lengths in both sizes.
    #[default]
    TubeLengths,
    /// A straight line between sizes that are published.
    #[serde(alias = "BetweenWeighed")]
    BetweenWeighedSizes,
}

impl Method {
    /// All, in the order of menus.
    pub const ALL: [Self; 3] = [Self::YourFactor, Self::TubeLengths, Self::BetweenWeighedSizes];

    /// Name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::YourFactor => "your_factor",
            Self::TubeLengths => "tube_lengths",
            Self::BetweenWeighedSizes => "between_weighed_sizes",
        }
    }
}

/// What a typed factor is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Per {
    /// Each step from one size to the next larger.
    #[default]
    Step,
    /// The whole way to the larger size, however many steps.
    All,
}

/// The line-up's choices about weights.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct WeightSettings {
    /// The user's own estimate: factor on a weight towards a larger size; a smaller size divides by it. None until the
    /// user types one; until then the factor is no way to another size.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "optional_factor")]
    pub factor: Option<f64>,
    /// What the factor is for.
    pub per: Per,
    /// ± of the factor; half of its distance from 1 and at least 0.02 where nobody says (our own assumption).
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "optional_plus_minus")]
    pub factor_plus_minus: Option<f64>,
    /// The way that counts.
    pub method: Method,
    /// ± of a claimed weight, percent. Trade practice, unverified.
    #[serde(deserialize_with = "percent")]
    pub claimed_percent: f64,
    /// What a frame weighs apart from its tubes, g; by material where nobody says.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "optional_grams")]
    pub fixed_grams: Option<f64>,
    /// Its ±, g.
    #[serde(deserialize_with = "grams")]
    pub fixed_plus_minus: f64,
}

impl Default for WeightSettings {
    fn default() -> Self {
        Self {
            factor: None,
            per: Per::Step,
            factor_plus_minus: None,
            method: Method::TubeLengths,
            claimed_percent: 5.0,
            fixed_grams: None,
            fixed_plus_minus: 150.0,
        }
    }
}

/// The choices about one frame's weights.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
// A file may write this name before the brackets.
#[serde(deny_unknown_fields, default, rename = "Weighing")]
pub struct WeightChoices {
    /// The frame's.
    #[serde(skip_serializing_if = "PartWeightChoices::is_default")]
    pub frame: PartWeightChoices,
    /// The fork's.
    #[serde(skip_serializing_if = "PartWeightChoices::is_default")]
    pub fork: PartWeightChoices,
    /// The frameset's, where it is published as one.
    #[serde(skip_serializing_if = "PartWeightChoices::is_default")]
    pub frameset: PartWeightChoices,
}

impl WeightChoices {
    /// One part's.
    #[must_use]
    pub const fn part(&self, part: Part) -> &PartWeightChoices {
        match part {
            Part::Frame => &self.frame,
            Part::Fork => &self.fork,
            Part::Frameset => &self.frameset,
        }
    }

    /// One part's, to change.
    pub const fn part_mut(&mut self, part: Part) -> &mut PartWeightChoices {
        match part {
            Part::Frame => &mut self.frame,
            Part::Fork => &mut self.fork,
            Part::Frameset => &mut self.frameset,
        }
    }

    /// Whether nothing is chosen.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == Self::default()
    }
}

/// The choices about one weight.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
// A file may write this name before the brackets.
#[serde(deny_unknown_fields, default, rename = "PartWeighing")]
pub struct PartWeightChoices {
    /// The way that counts, in place of the line-up's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub method: Option<Method>,
    /// Factor, in place of the line-up's.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "optional_factor")]
    pub factor: Option<f64>,
    /// Place among the frameset's published weights of the one to begin from; the nearest to the size where none is
    /// chosen, weighed before claimed.
    #[serde(alias = "begins_from", skip_serializing_if = "Option::is_none")]
    pub start_from: Option<usize>,
    /// ± of the published weight, g, in place of what its origin leaves.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "optional_plus_minus_grams")]
    pub plus_minus: Option<f64>,
    /// Whether the user owns the very frame that was weighed, so that it is not one specimen of many.
    #[serde(rename = "own_frame", skip_serializing_if = "is_false")]
    pub own_frame: bool,
    /// What is added to it or taken off.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lines: Vec<Line>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes fields by reference")]
const fn is_false(value: &bool) -> bool {
    !*value
}

impl PartWeightChoices {
    fn is_default(&self) -> bool {
        *self == Self::default()
    }
}

/// A line of a ledger.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// What is added or taken off.
    pub what: What,
    /// How much.
    pub amount: Amount,
    /// Its ±, g.
    #[serde(default, deserialize_with = "grams")]
    pub plus_minus: f64,
}

/// What a line is of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum What {
    /// A small part.
    Small(SmallPart),
    /// A length of steerer.
    Steerer,
    /// Anything else, in the user's words.
    Other(String),
}

/// How much a line is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Amount {
    /// Grams; negative is taken off.
    Grams(#[serde(deserialize_with = "signed_grams")] f64),
    /// Millimetres (negative is cut off) of what weighs so much each.
    Length {
        /// mm.
        #[serde(deserialize_with = "signed_mm")]
        mm: f64,
        /// g/mm.
        #[serde(deserialize_with = "grams_per_mm")]
        grams_per_mm: f64,
    },
}

impl Amount {
    /// Grams; negative is taken off.
    #[must_use]
    pub fn grams(self) -> f64 {
        match self {
            Self::Grams(grams) => grams,
            Self::Length { mm, grams_per_mm } => mm * grams_per_mm,
        }
    }
}

/// Least and greatest factor that can be meant.
pub(super) const FACTORS: std::ops::RangeInclusive<f64> = 0.5..=2.0;

/// Why a number of the settings is not accepted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
enum SettingError {
    /// A factor that is rather a percentage.
    #[error("a weight factor of {percent} is outside 0.5 to 2: for {percent} % write {}", fixed(1.0 + .percent / 100.0, 2))]
    Percentage {
        /// What was written.
        percent: f64,
    },
    /// A factor that cannot be meant.
    #[error("a weight factor of {0} is outside 0.5 to 2: write 1.1 for ten percent more")]
    Factor(f64),
    /// Another number outside its range.
    #[error("{what} of {} is outside {} to {}", as_typed(*.value), as_typed(*.low), as_typed(*.high))]
    OutOfRange {
        /// What it is.
        what: &'static str,
        /// The number.
        value: f64,
        /// Least accepted.
        low: f64,
        /// Greatest accepted.
        high: f64,
    },
}

fn checked(value: f64, low: f64, high: f64, what: &'static str) -> Result<f64, SettingError> {
    if (low..=high).contains(&value) { Ok(value) } else { Err(SettingError::OutOfRange { what, value, low, high }) }
}

fn check_factor(factor: f64) -> Result<f64, SettingError> {
    match factor {
        _ if FACTORS.contains(&factor) => Ok(factor),
        _ if factor > 2.0 && factor <= 50.0 => Err(SettingError::Percentage { percent: factor }),
        _ => Err(SettingError::Factor(factor)),
    }
}

fn optional_factor<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    Option::<f64>::deserialize(deserializer)?.map(check_factor).transpose().map_err(D::Error::custom)
}

fn optional_plus_minus<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    let value = Option::<f64>::deserialize(deserializer)?;
    value.map(|v| checked(v, 0.0, 0.5, "a factor's ±")).transpose().map_err(D::Error::custom)
}

fn optional_plus_minus_grams<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    let value = Option::<f64>::deserialize(deserializer)?;
    value.map(|v| checked(v, 0.0, 5000.0, "a ± in grams")).transpose().map_err(D::Error::custom)
}

fn percent<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(f64::deserialize(deserializer)?, 0.0, 50.0, "a ± in percent").map_err(D::Error::custom)
}

fn grams<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(f64::deserialize(deserializer)?, 0.0, 5000.0, "a ± in grams").map_err(D::Error::custom)
}

fn optional_grams<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    let value = Option::<f64>::deserialize(deserializer)?;
    value.map(|v| checked(v, 0.0, 3000.0, "the fixed parts' grams")).transpose().map_err(D::Error::custom)
}

fn signed_grams<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(f64::deserialize(deserializer)?, -5000.0, 5000.0, "a line in grams").map_err(D::Error::custom)
}

fn signed_mm<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(f64::deserialize(deserializer)?, -500.0, 500.0, "a length in mm").map_err(D::Error::custom)
}

fn grams_per_mm<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let each = f64::deserialize(deserializer)?;
    if each > 0.0 && each <= 10.0 {
        return Ok(each);
    }
    Err(D::Error::custom(format!("a weight of {each} g/mm is outside 0 to 10: a steel steerer has about 1.07")))
}
