//! What a user chooses about a bag. Part of the saved document, so every field has a first value and a checked range.

use super::no_bag::NoBag;
use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

/// A bag in the opening.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct BagSettings {
    /// All of the opening, or what lies above a cut line.
    pub part: BagPart,
    /// Kept free between bag and tubes, mm, 0 to 60.
    #[serde(alias = "clearance_mm", deserialize_with = "clearance")]
    pub gap_to_tubes_mm: f64,
    /// Radius of the bag's corners, mm, 0 to 80.
    #[serde(deserialize_with = "corner_radius")]
    pub corner_radius_mm: f64,
    /// Width of the bag (across the bicycle) where the opening is highest, mm, 10 to 250.
    #[serde(alias = "width_top_mm", deserialize_with = "width")]
    pub gusset_top_mm: f64,
    /// Width of the bag where the opening is lowest, mm, 10 to 250. Between the two it changes evenly with height.
    #[serde(alias = "width_bottom_mm", deserialize_with = "width")]
    pub gusset_bottom_mm: f64,
    /// Seam allowance around the pattern, mm, 0 to 40.
    #[serde(alias = "seam_mm", deserialize_with = "seam")]
    pub seam_allowance_mm: f64,
}

/// How much of the opening the bag takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum BagPart {
    /// All of it.
    #[default]
    Full,
    /// What lies above the cut line.
    Above(Cut),
}

/// The line that separates an upper bag from the space for bottles.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Cut {
    /// Level, so many mm above the bottom bracket.
    Level {
        /// Height, mm, −200 to 1000.
        #[serde(deserialize_with = "height")]
        above_bb_mm: f64,
    },
    /// Parallel to the top tube, so many mm below its lower edge, square to it.
    AlongTopTube {
        /// Distance, mm, 0 to 1000.
        #[serde(deserialize_with = "distance")]
        below_mm: f64,
    },
}

impl Default for BagSettings {
    fn default() -> Self {
        Self {
            part: BagPart::Full,
            gap_to_tubes_mm: 5.0,
            corner_radius_mm: 15.0,
            gusset_top_mm: 60.0,
            gusset_bottom_mm: 45.0,
            seam_allowance_mm: 10.0,
        }
    }
}

impl BagSettings {
    /// Why there is no bag where gap and corners take everything.
    pub(super) const fn too_tight(&self) -> NoBag {
        NoBag::TooTight { clearance: self.gap_to_tubes_mm, radius: self.corner_radius_mm }
    }
}

pub(super) fn checked<'de, D: Deserializer<'de>>(deserializer: D, low: f64, high: f64, what: &str) -> Result<f64, D::Error> {
    let value = f64::deserialize(deserializer)?;
    if value.is_finite() && (low..=high).contains(&value) {
        return Ok(value);
    }
    Err(D::Error::custom(format!("{what} of {value} mm is outside {low} to {high} mm")))
}

fn clearance<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 0.0, 60.0, "a bag's clearance")
}

fn corner_radius<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 0.0, 80.0, "a bag's corner radius")
}

fn width<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 10.0, 250.0, "a bag's width")
}

fn seam<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 0.0, 40.0, "a seam allowance")
}

fn height<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, -200.0, 1000.0, "a cut line's height")
}

fn distance<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 0.0, 1000.0, "a cut line's distance")
}
