//! Power at steady speed, term by term.
//!
//! Method: J. C. Martin, D. L. Milliken, J. E. Cobb, K. L. McFadden, A. R. Coggan, "Validation of a Mathematical Model
//! for Road Cycling Power", Journal of Applied Biomechanics 14(3), 1998, 276–291. The paper's term for changing speed
//! is left out: everything here is steady.

use serde::{Deserialize, Serialize};

use super::accepted;

/// Standard of the worked examples, m/s².
pub const GRAVITY: f64 = 9.81;

/// What the road and the bicycle oppose to the rider.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Conditions {
    /// Density of the air, kg/m³.
    #[serde(deserialize_with = "accepted::air")]
    pub air_kg_m3: f64,
    /// Drag area of bicycle and rider, m².
    #[serde(deserialize_with = "accepted::drag")]
    pub drag_area_m2: f64,
    /// Drag area that the turning wheels add, m².
    #[serde(deserialize_with = "accepted::wheels")]
    pub wheel_area_m2: f64,
    /// Coefficient of rolling resistance, 1.
    #[serde(deserialize_with = "accepted::rolling")]
    pub rolling: f64,
    /// Share of the rider's power that reaches the rear wheel, 0 to 1.
    #[serde(deserialize_with = "accepted::efficiency")]
    pub efficiency: f64,
    /// Head wind along the road, m/s; negative from behind.
    #[serde(deserialize_with = "accepted::wind")]
    pub head_wind_m_s: f64,
}

impl Default for Conditions {
    /// A loaded tourer on forest roads in still air: drag area 0.45 m² and rolling resistance 0.010 are trade practice,
    /// unverified; wheel area 0.0044 m² and efficiency 0.976 are Martin's, from memory; air 1.20 kg/m³ is about 20 °C
    /// near sea level.
    fn default() -> Self {
        Self { air_kg_m3: 1.20, drag_area_m2: 0.45, wheel_area_m2: 0.0044, rolling: 0.010, efficiency: 0.976, head_wind_m_s: 0.0 }
    }
}

/// The rider's power, by what it is spent on: watts at the rear wheel, and the total at the pedals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Power {
    /// Air.
    pub air_w: f64,
    /// Rolling resistance.
    pub rolling_w: f64,
    /// Wheel bearings.
    pub bearings_w: f64,
    /// The slope; negative downhill.
    pub slope_w: f64,
    /// All of them divided by the efficiency: what the rider does.
    pub total_w: f64,
}

/// Power at a steady `speed_m_s` (≥ 0) of `mass_kg` in all, on a road that rises `gradient` metres for each level metre.
///
/// A wind from behind that is faster than the bicycle pushes it: the air term is then negative.
#[must_use]
pub fn power(speed_m_s: f64, mass_kg: f64, gradient: f64, conditions: &Conditions) -> Power {
    let through_air = speed_m_s + conditions.head_wind_m_s;
    let area = conditions.drag_area_m2 + conditions.wheel_area_m2;
    let slope = gradient.atan();
    let weight_n = mass_kg * GRAVITY;
    let air_w = 0.5 * conditions.air_kg_m3 * area * through_air * through_air.abs() * speed_m_s;
    let rolling_w = speed_m_s * slope.cos() * conditions.rolling * weight_n;
    let bearings_w = speed_m_s * (91.0 + 8.7 * speed_m_s) * 1e-3;
    let slope_w = speed_m_s * weight_n * slope.sin();
    Power { air_w, rolling_w, bearings_w, slope_w, total_w: (air_w + rolling_w + bearings_w + slope_w) / conditions.efficiency }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// The paper's parameters (from memory), with the drag area of the worked rows.
    pub(crate) const MARTIN: Conditions = Conditions {
        air_kg_m3: 1.2234,
        drag_area_m2: 0.2565,
        wheel_area_m2: 0.0044,
        rolling: 0.0032,
        efficiency: 0.976,
        head_wind_m_s: 0.0,
    };

    #[test]
    fn the_equation_term_by_term() {
        // Martin et al. 1998, the equation as published; inputs our own, computed independently. The rows put 0.0044 m²
        // of wheels beside 0.2565 m² and divide by 0.976.
        let p = power(11.94, 90.0, 0.003, &MARTIN);
        for (term, expected) in [
            (p.air_w, 271.659902),
            (p.rolling_w, 33.733691),
            (p.bearings_w, 2.326843),
            (p.slope_w, 31.625336),
            (p.total_w, 347.690341),
        ] {
            assert!((term - expected).abs() < 1e-6, "{term} {expected}");
        }
        let p = power(5.0, 85.0, 0.07, &MARTIN);
        for (term, expected) in [
            (p.air_w, 19.949066),
            (p.rolling_w, 13.309033),
            (p.bearings_w, 0.672500),
            (p.slope_w, 291.135091),
            (p.total_w, 333.059108),
        ] {
            assert!((term - expected).abs() < 1e-6, "{term} {expected}");
        }
        assert!((power(10.0, 85.0, 0.0, &MARTIN).total_w - 192.680051).abs() < 1e-6);
        assert!((power(4.0, 85.0, 0.08, &MARTIN).total_w - 294.404329).abs() < 1e-6);
    }

    #[test]
    fn a_wind_from_behind_pushes() {
        let wind = Conditions { head_wind_m_s: -8.0, ..MARTIN };
        assert!(power(5.0, 85.0, 0.0, &wind).air_w < 0.0);
        assert!(power(10.0, 85.0, 0.0, &wind).air_w > 0.0);
        assert_eq!(power(0.0, 85.0, 0.1, &wind).total_w, 0.0);
    }
}
