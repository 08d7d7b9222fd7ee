//! The speeds between which a bicycle steadies itself, from the quartic of its motions.
//!
//! The characteristic polynomial a s⁴ + b s³ + c s² + d s + e of [`LinearModel`] has b ∝ v, c = c₀ + c₂v²,
//! d = d₁v + d₃v³ and e = e₀ + e₂v². By the conditions of Routh and Hurwitz, with a > 0, all motions die out where b, c, d,
//! e and bcd − ad² − b²e are positive; the last, divided by v², is a quadratic in v², so that every border is found exactly.

use super::linear_model::LinearModel;

/// Coefficients of the characteristic polynomial as functions of the speed v.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quartic {
    /// s⁴, at every speed.
    pub a: f64,
    /// s³ per v.
    pub b1: f64,
    /// s² at rest.
    pub c0: f64,
    /// s² per v².
    pub c2: f64,
    /// s per v.
    pub d1: f64,
    /// s per v³.
    pub d3: f64,
    /// Constant at rest.
    pub e0: f64,
    /// Constant per v².
    pub e2: f64,
}

/// How many coefficients a [`Quartic`] has.
pub const QUARTIC_COEFFICIENTS: usize = 8;

impl Quartic {
    /// The quartic of a model: det(M s² + v C₁ s + g K₀ + v² K₂).
    #[must_use]
    pub fn of(model: &LinearModel) -> Self {
        let [[m11, m12], [m21, m22]] = model.mass;
        let [[c11, c12], [c21, c22]] = model.damping;
        let [[k11, k12], [k21, k22]] = model.stiffness.map(|row| row.map(|entry| model.gravity * entry));
        let [[q11, q12], [q21, q22]] = model.speed_stiffness;
        Self {
            a: m11 * m22 - m12 * m21,
            b1: m11 * c22 + c11 * m22 - m12 * c21 - c12 * m21,
            c0: m11 * k22 + k11 * m22 - m12 * k21 - k12 * m21,
            c2: m11 * q22 + q11 * m22 - m12 * q21 - q12 * m21 + c11 * c22 - c12 * c21,
            d1: c11 * k22 + k11 * c22 - c12 * k21 - k12 * c21,
            d3: c11 * q22 + q11 * c22 - c12 * q21 - q12 * c21,
            e0: k11 * k22 - k12 * k21,
            // The term with v⁴, det K₂, is zero: lean alone is not stiffened by speed.
            e2: k11 * q22 + q11 * k22 - k12 * q21 - q12 * k21,
        }
    }

    /// Coefficients in the order a, b₁, c₀, c₂, d₁, d₃, e₀, e₂.
    #[must_use]
    pub const fn coefficients(&self) -> [f64; QUARTIC_COEFFICIENTS] {
        [self.a, self.b1, self.c0, self.c2, self.d1, self.d3, self.e0, self.e2]
    }

    /// Polynomial at a speed: a, b, c, d, e.
    #[must_use]
    pub fn at(&self, speed_m_s: f64) -> [f64; 5] {
        let squared = speed_m_s * speed_m_s;
        [
            self.a,
            self.b1 * speed_m_s,
            self.c0 + self.c2 * squared,
            (self.d1 + self.d3 * squared) * speed_m_s,
            self.e0 + self.e2 * squared,
        ]
    }

    /// Whether every motion dies out at a speed.
    #[must_use]
    pub fn is_stable_at(&self, speed_m_s: f64) -> bool {
        let [a, b, c, d, e] = self.at(speed_m_s);
        let sign = a.signum();
        [a, b, c, d, e].iter().all(|k| k * sign > 0.0) && (b * c * d - a * d * d - b * b * e) * sign > 0.0
    }

    /// bcd − ad² − b²e divided by v², as a quadratic in v²: constant, linear, squared.
    const fn hurwitz(&self) -> [f64; 3] {
        let Self { a, b1, c0, c2, d1, d3, e0, e2 } = *self;
        [
            b1 * c0 * d1 - a * d1 * d1 - b1 * b1 * e0,
            b1 * (c0 * d3 + c2 * d1) - 2.0 * a * d1 * d3 - b1 * b1 * e2,
            b1 * c2 * d3 - a * d3 * d3,
        ]
    }
}

/// Real roots of p₀ + p₁x + p₂x², in ascending order, without cancellation.
fn quadratic_roots([p0, p1, p2]: [f64; 3]) -> Vec<f64> {
    let discriminant = p1 * p1 - 4.0 * p2 * p0;
    if discriminant < 0.0 {
        return Vec::new();
    }
    let half = -0.5 * (p1 + p1.signum() * discriminant.sqrt());
    let mut roots: Vec<f64> = [half / p2, p0 / half].into_iter().filter(|root| root.is_finite()).collect();
    roots.sort_by(f64::total_cmp);
    roots.dedup();
    roots
}

/// Speeds at which a bicycle's motions change their nature, m/s.
#[derive(Clone, Debug, PartialEq)]
pub struct CriticalSpeeds {
    /// Weave speed: above it the weaving from side to side dies out. `None` where weaving dies out at no speed, or at all.
    pub weave: Option<f64>,
    /// Capsize speed: above it the bicycle falls slowly into a turn. `None` where it does so at all speeds or at none.
    pub capsize: Option<f64>,
    /// Ranges of speed in which the bicycle steadies itself, in ascending order: from, to; to infinity where nothing ends it.
    pub self_steady: Vec<(f64, f64)>,
}

impl CriticalSpeeds {
    /// Critical speeds of a quartic.
    #[must_use]
    pub fn of(quartic: &Quartic) -> Self {
        let Quartic { b1, c0, c2, d1, d3, e0, e2, .. } = *quartic;
        let speed = |squared: f64| (squared > 0.0 && squared.is_finite()).then(|| squared.sqrt());
        let hurwitz = quartic.hurwitz();
        let crossings: Vec<f64> = quadratic_roots(hurwitz).into_iter().filter_map(speed).collect();
        // On a crossing a pair of roots is ± iω with ω² = d / b; where that is negative two real roots are opposite.
        let is_weave = |v: &f64| (d1 + d3 * v * v) / b1 > 0.0;
        // The weaving dies out above the crossing where the form becomes positive.
        let rises = |v: &f64| hurwitz[1] + 2.0 * hurwitz[2] * v * v > 0.0;
        let weave = crossings.iter().copied().filter(is_weave).filter(rises).reduce(f64::max);
        let capsize = speed(-e0 / e2);

        let others = [speed(-c0 / c2), speed(-d1 / d3), capsize];
        let mut borders: Vec<f64> = crossings.into_iter().chain(others.into_iter().flatten()).collect();
        borders.sort_by(f64::total_cmp);
        borders.dedup();
        let mut self_steady: Vec<(f64, f64)> = Vec::new();
        let mut from = 0.0;
        for to in borders.into_iter().chain([f64::INFINITY]) {
            let inside = if to.is_finite() { f64::midpoint(from, to) } else { 2.0 * from + 1.0 };
            if quartic.is_stable_at(inside) {
                match self_steady.last_mut() {
                    Some(last) if last.1 >= from => last.1 = to,
                    _ => self_steady.push((from, to)),
                }
            }
            from = to;
        }
        Self { weave, capsize, self_steady }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::linear_model::LinearModel;
    use super::super::parameters::BicycleParameters;
    use super::super::parameters::tests::benchmark;
    use super::*;

    fn quartic(bicycle: &BicycleParameters) -> Quartic {
        Quartic::of(&LinearModel::of(bicycle))
    }

    /// Meijaard et al. 2007, Table 2: weave speed 4.29238253634111 m/s, capsize speed 6.02426201538837 m/s.
    #[test]
    fn the_benchmark_has_its_printed_speeds() {
        let found = CriticalSpeeds::of(&quartic(&benchmark()));
        assert!((found.weave.unwrap() - 4.292_382_536_341_11).abs() < 1e-12);
        assert!((found.capsize.unwrap() - 6.024_262_015_388_37).abs() < 1e-12);
        assert_eq!(found.self_steady, [(found.weave.unwrap(), found.capsize.unwrap())]);
    }

    #[test]
    fn a_bicycle_without_trail_or_spin_never_steadies_itself() {
        let mut bicycle = benchmark();
        bicycle.trail = 0.0;
        bicycle.rear_wheel_iyy = 0.0;
        bicycle.front_wheel_iyy = 0.0;
        bicycle.rear_wheel_ixx = 0.0;
        bicycle.front_wheel_ixx = 0.0;
        bicycle.front_x = bicycle.wheelbase;
        assert!(CriticalSpeeds::of(&quartic(&bicycle)).self_steady.is_empty());
    }

    #[test]
    fn roots_come_without_cancellation() {
        assert_eq!(quadratic_roots([2.0, -3.0, 1.0]), [1.0, 2.0]);
        assert_eq!(quadratic_roots([1.0, 0.0, 1.0]), Vec::<f64>::new());
        assert_eq!(quadratic_roots([-4.0, 2.0, 0.0]), [2.0]);
        let small = quadratic_roots([1.0, 1e9, 1.0]);
        assert!((small[1] + 1e-9).abs() < 1e-22, "{small:?}");
    }

    proptest! {
        /// Inside a range every motion dies out, outside one does not: by the conditions at random speeds.
        #[test]
        fn ranges_agree_with_the_conditions(
            trail in -0.1..0.2f64, tilt in 0.0..0.6f64, front_mass in 0.5..25.0f64, front_x in 0.6..1.3f64,
            height in 0.5..1.3f64, body_x in 0.1..0.7f64, speed in 0.01..30.0f64,
        ) {
            let bicycle = BicycleParameters {
                trail, steer_axis_tilt: tilt, front_mass, front_x, body_z: -height, body_x, ..benchmark()
            };
            let quartic = quartic(&bicycle);
            let found = CriticalSpeeds::of(&quartic);
            let is_near_a_border = found.self_steady.iter().any(|(from, to)| (speed - from).abs() < 1e-6 || (speed - to).abs() < 1e-6);
            let is_inside = found.self_steady.iter().any(|(from, to)| *from < speed && speed < *to);
            prop_assert!(is_near_a_border || is_inside == quartic.is_stable_at(speed));
        }
    }
}
