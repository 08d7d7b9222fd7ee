//! The time that a climb takes at a steady power: the inverse of [`power`](super::power), by bisection.

use serde::{Deserialize, Serialize};

use super::accepted::{self, AIR, DRAG, EFFICIENCY, GRADIENT, LENGTH, MASS, POWER, ROLLING, RidingUnit, WHEELS, WIND};
use super::power::{Conditions, power};
use crate::units::as_typed;

/// Above this speed nothing is looked for, m/s (216 km/h).
const FASTEST_M_S: f64 = 60.0;
/// Halvings of the search: 60 m/s / 2⁶⁰ is far below what a double holds.
const HALVINGS: usize = 60;

/// A climb that the user describes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Climb {
    /// Its length along the road, km.
    #[serde(deserialize_with = "accepted::length")]
    pub length_km: f64,
    /// How many metres it rises in a hundred level ones.
    #[serde(deserialize_with = "accepted::gradient")]
    pub gradient_percent: f64,
    /// What the rider does, W.
    #[serde(deserialize_with = "accepted::watts")]
    pub power_w: f64,
}

impl Default for Climb {
    /// Ten kilometres of a mountain road at a tourer's pace.
    fn default() -> Self {
        Self { length_km: 10.0, gradient_percent: 5.0, power_w: 150.0 }
    }
}

/// Why a climb has no time.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ClimbError {
    /// A value outside its accepted range.
    #[error("{what} of {}{sign} is outside {} to {}{sign}", as_typed(*value), as_typed(*low), as_typed(*high), sign = spaced(*unit))]
    OutOfRange {
        /// What.
        what: &'static str,
        /// Its unit.
        unit: RidingUnit,
        /// As typed.
        value: f64,
        /// Least.
        low: f64,
        /// Greatest.
        high: f64,
    },
}

/// A unit's symbol after a blank.
fn spaced(unit: RidingUnit) -> String {
    if unit == RidingUnit::One { String::new() } else { format!(" {}", unit.symbol()) }
}

impl Climb {
    /// Whether all its numbers are in their ranges.
    ///
    /// # Errors
    /// The first value that is out of its range: 0.1 to 200 km, −25 to 40 %, 10 to 1000 W.
    pub fn checked(&self) -> Result<(), ClimbError> {
        LENGTH.check(self.length_km)?;
        GRADIENT.check(self.gradient_percent)?;
        POWER.check(self.power_w)
    }
}

impl Conditions {
    /// Whether all numbers are in their ranges.
    ///
    /// # Errors
    /// The first value that is out of its range.
    pub fn checked(&self) -> Result<(), ClimbError> {
        AIR.check(self.air_kg_m3)?;
        DRAG.check(self.drag_area_m2)?;
        WHEELS.check(self.wheel_area_m2)?;
        ROLLING.check(self.rolling)?;
        EFFICIENCY.check(self.efficiency)?;
        WIND.check(self.head_wind_m_s)
    }
}

/// The steady speed that `power_w` (> 0) holds, m/s, up to 60 m/s. `mass_kg` is everything that moves.
///
/// Where a descent or a wind would make several speeds possible it is the fastest one that the power reaches.
#[must_use]
pub fn speed_at(power_w: f64, mass_kg: f64, gradient: f64, conditions: &Conditions) -> f64 {
    // Resistance grows with speed beyond the last speed at which the power is short, so bisection from above finds it.
    let is_enough = |speed: f64| power(speed, mass_kg, gradient, conditions).total_w <= power_w;
    let (mut low, mut high) = (0.0, FASTEST_M_S);
    if is_enough(high) {
        return high;
    }
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if is_enough(middle) { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The time of the climb, s, with `mass_kg` in all (1 to 1000).
///
/// # Errors
/// Values outside their ranges.
pub fn climb_seconds(climb: &Climb, mass_kg: f64, conditions: &Conditions) -> Result<f64, ClimbError> {
    climb.checked()?;
    conditions.checked()?;
    MASS.check(mass_kg)?;
    let speed = speed_at(climb.power_w, mass_kg, climb.gradient_percent / 100.0, conditions);
    // Ten watts climb any accepted slope with any accepted mass at more than a millimetre a second.
    Ok(climb.length_km * 1000.0 / speed.max(1e-6))
}

/// The gradient on which `power_w` holds `speed_m_s` (> 0) with `mass_kg`, metres for a level metre; negative where the
/// power is not even enough on the level. Looked for between −1 and 1.
#[must_use]
pub fn gradient_at(power_w: f64, speed_m_s: f64, mass_kg: f64, conditions: &Conditions) -> f64 {
    let (mut low, mut high) = (-1.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if power(speed_m_s, mass_kg, middle, conditions).total_w <= power_w { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::power::tests::MARTIN;
    use super::*;

    #[test]
    fn the_time_of_an_added_kilogram() {
        // Martin's equation at 250 W, computed independently: 80 against 81 kg.
        for (gradient, light, heavy, percent, seconds) in [
            (0.05, 5.272993, 5.223551, 0.9465, 17.95),
            (0.08, 3.625165, 3.584357, 1.1385, 31.41),
            (0.10, 2.971429, 2.936589, 1.1864, 39.93),
        ] {
            let v = speed_at(250.0, 80.0, gradient, &MARTIN);
            let w = speed_at(250.0, 81.0, gradient, &MARTIN);
            assert!((v - light).abs() < 1e-6 && (w - heavy).abs() < 1e-6, "{v} {w}");
            assert!(((v / w - 1.0) * 100.0 - percent).abs() < 1e-4);
            assert!((10_000.0 / w - 10_000.0 / v - seconds).abs() < 5e-3);
            assert!(v / w - 1.0 < 1.0 / 80.0, "never more than the mass itself");
            let climb = Climb { length_km: 10.0, gradient_percent: gradient * 100.0, power_w: 250.0 };
            assert!((climb_seconds(&climb, 80.0, &MARTIN).unwrap() - 10_000.0 / v).abs() < 1e-6);
        }
    }

    #[test]
    fn a_gradient_is_the_inverse_of_a_speed() {
        for gradient in [-0.02, 0.0, 0.05, 0.12] {
            let speed = speed_at(200.0, 100.0, gradient, &MARTIN);
            assert!((gradient_at(200.0, speed, 100.0, &MARTIN) - gradient).abs() < 1e-9);
        }
    }

    #[test]
    fn what_is_outside_its_range_is_refused_in_a_sentence() {
        let climb = Climb { length_km: 10.0, gradient_percent: 80.0, power_w: 150.0 };
        let error = climb_seconds(&climb, 100.0, &MARTIN).unwrap_err().to_string();
        assert_eq!(error, "a gradient of 80 % is outside −25 to 40 %");
        assert!(climb_seconds(&Climb { power_w: f64::NAN, ..Climb::default() }, 100.0, &MARTIN).is_err());
        assert!(climb_seconds(&Climb::default(), 0.0, &MARTIN).is_err());
    }

    proptest! {
        #[test]
        fn a_heavier_bicycle_never_climbs_faster(
            mass in 50.0..250.0f64, added in 0.0..20.0f64, gradient in 0.0..0.3f64, watts in 40.0..500.0f64, wind in -5.0..5.0f64
        ) {
            let conditions = Conditions { head_wind_m_s: wind, ..Conditions::default() };
            let light = speed_at(watts, mass, gradient, &conditions);
            let heavy = speed_at(watts, mass + added, gradient, &conditions);
            prop_assert!(heavy <= light + 1e-12);
        }
    }
}
