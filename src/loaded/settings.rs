//! Settings of the loaded bicycle: the rider's body and where luggage hangs. The rider's weight is the one that climbs.

use std::collections::BTreeMap;

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use super::luggage_place::{LuggagePlace, MOST_KG};
use super::rider::BodyTable;

/// Least and greatest body height, mm.
pub const BODY_HEIGHT_MM: (f64, f64) = (1200.0, 2300.0);

/// Most loadings side by side.
pub const MOST_LOADINGS: usize = 4;

/// Luggage in its places.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Loading {
    /// The user's name for it.
    pub name: String,
    /// Kilograms at each place.
    #[serde(deserialize_with = "kilograms")]
    pub kg: BTreeMap<LuggagePlace, f64>,
}

impl Loading {
    /// All of its luggage, kg.
    #[must_use]
    pub fn whole_kg(&self) -> f64 {
        self.kg.values().sum()
    }

    /// What hangs at a place, kg.
    #[must_use]
    pub fn at(&self, place: LuggagePlace) -> f64 {
        self.kg.get(&place).copied().unwrap_or(0.0)
    }
}

/// Settings of the loaded bicycle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LoadedSettings {
    /// Body height, mm.
    #[serde(deserialize_with = "body_height")]
    pub body_height: f64,
    /// Body table.
    pub body: BodyTable,
    /// Loadings that are compared, beside the bicycle without luggage.
    #[serde(deserialize_with = "loadings")]
    pub loadings: Vec<Loading>,
}

impl Default for LoadedSettings {
    /// A rider of 1750 mm; 15 kg behind, and the same at the fork.
    fn default() -> Self {
        let loading = |name: &str, place| Loading { name: name.to_owned(), kg: BTreeMap::from([(place, 15.0)]) };
        Self {
            body_height: 1750.0,
            body: BodyTable::Mean,
            loadings: vec![
                loading("rear panniers", LuggagePlace::RearPanniers),
                loading("low front panniers", LuggagePlace::FrontPanniersLow),
            ],
        }
    }
}

impl LoadedSettings {
    /// Whether nothing was changed: then a file need not hold them.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == Self::default()
    }
}

/// Why a number of the loaded bicycle is refused.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LoadedNumberError {
    /// A body height.
    #[error("{0} mm is no body height: enter {low} to {high} mm, for example 1750", low = BODY_HEIGHT_MM.0, high = BODY_HEIGHT_MM.1)]
    BodyHeight(f64),
    /// A load.
    #[error("{0} kg is no load: enter 0 to {MOST_KG} kg at one place, for example 8")]
    Load(f64),
    /// Too many loadings.
    #[error("{0} loadings are too many: at most {MOST_LOADINGS} stand side by side")]
    Loadings(usize),
}

/// A body height in its range.
///
/// # Errors
/// One outside it.
pub fn checked_height(mm: f64) -> Result<f64, LoadedNumberError> {
    if (BODY_HEIGHT_MM.0..=BODY_HEIGHT_MM.1).contains(&mm) { Ok(mm) } else { Err(LoadedNumberError::BodyHeight(mm)) }
}

/// A load in its range.
///
/// # Errors
/// One outside it.
pub fn checked_load(kg: f64) -> Result<f64, LoadedNumberError> {
    if (0.0..=MOST_KG).contains(&kg) { Ok(kg) } else { Err(LoadedNumberError::Load(kg)) }
}

fn body_height<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked_height(f64::deserialize(deserializer)?).map_err(D::Error::custom)
}

fn kilograms<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<LuggagePlace, f64>, D::Error> {
    let kg = BTreeMap::deserialize(deserializer)?;
    for load in kg.values() {
        checked_load(*load).map_err(D::Error::custom)?;
    }
    Ok(kg)
}

fn loadings<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Loading>, D::Error> {
    let loadings = Vec::<Loading>::deserialize(deserializer)?;
    if loadings.len() > MOST_LOADINGS {
        return Err(D::Error::custom(LoadedNumberError::Loadings(loadings.len())));
    }
    Ok(loadings)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_come_back_and_impossible_ones_are_refused() {
        let settings = LoadedSettings::default();
        assert_eq!(ron::from_str::<LoadedSettings>(&ron::to_string(&settings).unwrap()).unwrap(), settings);
        assert_eq!(ron::from_str::<LoadedSettings>("()").unwrap(), settings);
        for (text, says) in [
            ("(body_height: 175.0)", "175 mm is no body height"),
            ("(loadings: [(name: \"a\", kg: {BarBag: -1.0})])", "-1 kg is no load"),
            ("(loadings: [(name: \"a\", kg: {BarBag: 61.0})])", "61 kg is no load"),
            ("(loadings: [(name: \"a\", kg: {Rucksack: 1.0})])", "Rucksack"),
        ] {
            let refused = ron::from_str::<LoadedSettings>(text).unwrap_err().to_string();
            assert!(refused.contains(says), "{refused}");
        }
    }
}
