//! Ranges of typed numbers, held while a file is being read.

use serde::{Deserialize, Deserializer};

use super::reading::{length_number, plain};
use super::standards::{NotUnderstood, refused};
use crate::units::{Quantity, System, THIN_SPACE};

/// Whether a number lies within its range.
pub(super) fn within(value: f64, low: f64, high: f64, what: &str, unit: &str) -> Result<(), NotUnderstood> {
    if value.is_finite() && (low..=high).contains(&value) {
        return Ok(());
    }
    let unit = if unit.is_empty() { String::new() } else { format!("{THIN_SPACE}{unit}") };
    refused(format!("{what} of {}{unit} is outside {} to {}{unit}", plain(value), plain(low), plain(high)))
}

/// Whether a length lies within its range, both in mm. A refusal is in the chosen units; its bounds are rounded inwards, so
/// that each can be entered.
pub(super) fn within_lengths(mm: f64, [low, high]: [f64; 2], what: &str, units: System) -> Result<(), NotUnderstood> {
    if (low..=high).contains(&mm) {
        return Ok(());
    }
    let per_unit = 100.0 * units.factor(Quantity::Length);
    let [low, high] = [(low * per_unit).ceil(), (high * per_unit).floor()].map(|hundredths| plain(hundredths / 100.0));
    let (value, unit) = (length_number(mm, units), units.unit(Quantity::Length));
    refused(format!("{what} of {value}{THIN_SPACE}{unit} is outside {low} to {high}{THIN_SPACE}{unit}"))
}

/// A number from `LOW` to `HIGH`.
pub(super) fn bounded<'de, D: Deserializer<'de>, const LOW: i32, const HIGH: i32>(deserializer: D) -> Result<f64, D::Error> {
    let value = f64::deserialize(deserializer)?;
    within(value, f64::from(LOW), f64::from(HIGH), "a value", "").map_err(serde::de::Error::custom)?;
    Ok(value)
}

/// The same, or none.
pub(super) fn bounded_option<'de, D: Deserializer<'de>, const LOW: i32, const HIGH: i32>(
    deserializer: D,
) -> Result<Option<f64>, D::Error> {
    let value = Option::<f64>::deserialize(deserializer)?;
    if let Some(value) = value {
        within(value, f64::from(LOW), f64::from(HIGH), "a value", "").map_err(serde::de::Error::custom)?;
    }
    Ok(value)
}
