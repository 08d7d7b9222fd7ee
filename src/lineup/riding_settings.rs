//! Riding settings: rider, luggage and other parts, the climb, the gears.

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use crate::riding::{Climb, ClimbError, Conditions, Gearing, RidingUnit};

/// Riding settings: rider, luggage and other parts, the climb, the gears.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RidingSettings {
    /// The rider, dressed, kg.
    #[serde(deserialize_with = "rider")]
    pub rider_kg: f64,
    /// Luggage, kg.
    #[serde(deserialize_with = "luggage")]
    pub luggage_kg: f64,
    /// The bicycle without its frameset, kg.
    #[serde(alias = "rest_kg", deserialize_with = "rest")]
    pub other_parts_kg: f64,
    /// The climb.
    pub climb: Climb,
    /// Air, tyres, drive.
    pub conditions: Conditions,
    /// Cadence, rpm.
    #[serde(deserialize_with = "cadence")]
    pub cadence_rpm: f64,
    /// Gears, side by side.
    pub builds: Vec<Gearing>,
}

/// Numbers of [`RidingSettings`], with their ranges for files and fields.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RidingNumber {
    /// The rider, kg.
    Rider,
    /// Luggage, kg.
    Luggage,
    /// The rest of the bicycle, kg.
    Rest,
    /// Cadence, rpm.
    Cadence,
}

impl RidingNumber {
    /// Unit in which files hold it.
    #[must_use]
    pub const fn unit(self) -> RidingUnit {
        match self {
            Self::Rider | Self::Luggage | Self::Rest => RidingUnit::Kilograms,
            Self::Cadence => RidingUnit::TurnsPerMinute,
        }
    }

    /// Least and greatest value, in the file's unit.
    #[must_use]
    pub const fn range(self) -> (f64, f64) {
        match self {
            Self::Rider => (20.0, 250.0),
            Self::Luggage => (0.0, 150.0),
            Self::Rest => (2.0, 80.0),
            Self::Cadence => (20.0, 150.0),
        }
    }

    /// Whether the value is in its range.
    ///
    /// # Errors
    /// A value outside it, with the range.
    pub fn check(self, value: f64) -> Result<f64, ClimbError> {
        let (low, high) = self.range();
        let what = match self {
            Self::Rider => "a rider",
            Self::Luggage => "luggage",
            Self::Rest => "a weight of the other parts",
            Self::Cadence => "a cadence",
        };
        if (low..=high).contains(&value) {
            return Ok(value);
        }
        Err(ClimbError::OutOfRange { what, unit: self.unit(), value, low, high })
    }
}

impl Default for RidingSettings {
    /// 70, 15 and 11 kg, and two builds to begin with: one ring with a wide cassette, two with a narrower one.
    fn default() -> Self {
        let build = |name: &str, chainrings: &[u32], cogs: &[u32]| Gearing {
            name: name.to_owned(),
            chainrings: chainrings.to_vec(),
            cogs: cogs.to_vec(),
        };
        Self {
            rider_kg: 70.0,
            luggage_kg: 15.0,
            other_parts_kg: 11.0,
            climb: Climb::default(),
            conditions: Conditions::default(),
            cadence_rpm: 70.0,
            builds: vec![
                build("one ring", &[34], &[11, 13, 15, 17, 20, 23, 27, 32, 38, 44, 50]),
                build("two rings", &[44, 28], &[11, 12, 14, 16, 18, 20, 23, 26, 30, 34]),
            ],
        }
    }
}

impl RidingSettings {
    /// Everything that moves with a frameset of `frameset_g`, kg.
    #[must_use]
    pub fn whole_kg(&self, frameset_g: f64) -> f64 {
        self.rider_kg + self.luggage_kg + self.other_parts_kg + frameset_g / 1000.0
    }
}

fn checked<'de, D: Deserializer<'de>>(deserializer: D, moving: RidingNumber) -> Result<f64, D::Error> {
    moving.check(f64::deserialize(deserializer)?).map_err(D::Error::custom)
}

fn rider<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, RidingNumber::Rider)
}

fn luggage<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, RidingNumber::Luggage)
}

fn rest<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, RidingNumber::Rest)
}

fn cadence<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, RidingNumber::Cadence)
}
