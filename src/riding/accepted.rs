//! What the numbers of a climb and of what resists may be: one range each, for files and fields.

use serde::{Deserialize, Deserializer, de::Error as _};

use super::climb::ClimbError;

/// Unit of a number of riding, as files hold it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RidingUnit {
    /// kg.
    Kilograms,
    /// km.
    Kilometres,
    /// m/s.
    MetresPerSecond,
    /// %.
    Percent,
    /// W.
    Watts,
    /// rpm.
    TurnsPerMinute,
    /// kg/m³.
    Density,
    /// m².
    SquareMetres,
    /// 1: a share or a coefficient.
    One,
}

impl RidingUnit {
    /// Its symbol; empty for [`Self::One`].
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Kilograms => "kg",
            Self::Kilometres => "km",
            Self::MetresPerSecond => "m/s",
            Self::Percent => "%",
            Self::Watts => "W",
            Self::TurnsPerMinute => "rpm",
            Self::Density => "kg/m³",
            Self::SquareMetres => "m²",
            Self::One => "",
        }
    }
}

/// A number's name, its unit and its accepted range, both ends included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Accepted {
    what: &'static str,
    unit: RidingUnit,
    low: f64,
    high: f64,
}

const fn accepted(what: &'static str, unit: RidingUnit, low: f64, high: f64) -> Accepted {
    Accepted { what, unit, low, high }
}

pub(super) const LENGTH: Accepted = accepted("a length", RidingUnit::Kilometres, 0.1, 200.0);
pub(super) const GRADIENT: Accepted = accepted("a gradient", RidingUnit::Percent, -25.0, 40.0);
pub(super) const POWER: Accepted = accepted("a power", RidingUnit::Watts, 10.0, 1000.0);
pub(super) const MASS: Accepted = accepted("a loaded total", RidingUnit::Kilograms, 1.0, 1000.0);
pub(super) const AIR: Accepted = accepted("a density of air", RidingUnit::Density, 0.3, 2.0);
pub(super) const DRAG: Accepted = accepted("a drag area", RidingUnit::SquareMetres, 0.05, 2.0);
pub(super) const WHEELS: Accepted = accepted("a drag area of the wheels", RidingUnit::SquareMetres, 0.0, 0.1);
pub(super) const ROLLING: Accepted = accepted("a rolling coefficient", RidingUnit::One, 0.001, 0.1);
pub(super) const EFFICIENCY: Accepted = accepted("an efficiency", RidingUnit::One, 0.5, 1.0);
pub(super) const WIND: Accepted = accepted("a head wind", RidingUnit::MetresPerSecond, -30.0, 30.0);

impl Accepted {
    /// Whether the value is in its range.
    pub(super) fn check(self, value: f64) -> Result<(), ClimbError> {
        let Self { what, unit, low, high } = self;
        if (low..=high).contains(&value) { Ok(()) } else { Err(ClimbError::OutOfRange { what, unit, value, low, high }) }
    }

    fn read<'de, D: Deserializer<'de>>(self, deserializer: D) -> Result<f64, D::Error> {
        let value = f64::deserialize(deserializer)?;
        self.check(value).map(|()| value).map_err(D::Error::custom)
    }
}

pub(super) fn length<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    LENGTH.read(deserializer)
}

pub(super) fn gradient<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    GRADIENT.read(deserializer)
}

pub(super) fn watts<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    POWER.read(deserializer)
}

pub(super) fn air<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    AIR.read(deserializer)
}

pub(super) fn drag<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    DRAG.read(deserializer)
}

pub(super) fn wheels<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    WHEELS.read(deserializer)
}

pub(super) fn rolling<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    ROLLING.read(deserializer)
}

pub(super) fn efficiency<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    EFFICIENCY.read(deserializer)
}

pub(super) fn wind<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    WIND.read(deserializer)
}
