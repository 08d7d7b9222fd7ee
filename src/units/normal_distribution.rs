//! The standard normal distribution: probabilities by the complementary error function, and the value behind one.

use std::f64::consts::{PI, SQRT_2};

/// Φ(z), the probability that a standard normal value lies below `z`: 0.5 for 0, 0.975 for 1.96. Φ(z) = ½ erfc(−z / √2)
/// (Abramowitz & Stegun 1964, 26.2.29).
#[must_use]
pub fn probability_below(z: f64) -> f64 {
    libm::erfc(-z / SQRT_2) / 2.0
}

/// The value that |z| exceeds with probability `alpha` for a standard normal z: 1.9600 for 0.05, 3.2905 for 0.001.
///
/// Newton's method on P(|Z| > z) = erfc(z / √2), to about 1e-12 for 1e-12 ≤ `alpha` < 1. Outside (0, 1) it is clamped into
/// that range.
#[must_use]
pub fn two_sided(alpha: f64) -> f64 {
    let alpha = alpha.clamp(1e-12, 1.0 - 1e-12);
    let mut z = (-2.0 * (alpha / 2.0).ln()).sqrt().min(8.0) * 0.9;
    for _ in 0..60 {
        // d/dz P(|Z| > z) = −√(2/π) exp(−z²/2)
        let density = (2.0 / PI).sqrt() * (-z * z / 2.0).exp();
        let step = (libm::erfc(z / SQRT_2) - alpha) / density;
        z = (z + step.clamp(-0.5, 0.5)).max(0.0);
        if step.abs() < 1e-13 {
            break;
        }
    }
    z
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn critical_values_of_the_tables() {
        // Normal quantiles as tabulated everywhere; Baarda's 3.29 is the one for 0.1 %.
        for (alpha, z) in [(0.05, 1.959964), (0.01, 2.575829), (0.001, 3.290527), (0.000167493, 3.763588), (0.5, 0.674490)] {
            assert!((two_sided(alpha) - z).abs() < 1e-4, "{alpha}: {}", two_sided(alpha));
        }
        assert!(two_sided(0.0).is_finite() && two_sided(1.0) >= 0.0 && !two_sided(f64::NAN).is_infinite());
    }

    #[test]
    fn probabilities_of_the_tables() {
        // Φ of the two-sided 5 %, 1 % and 0.1 % values: 0.975, 0.995, 0.9995; and Φ(−z) = 1 − Φ(z).
        for (z, expected) in [(0.0, 0.5), (1.959963984540054, 0.975), (2.575829303548901, 0.995), (3.290526731491926, 0.9995)] {
            assert!((probability_below(z) - expected).abs() < 1e-12, "{z}");
            assert!((probability_below(-z) - (1.0 - expected)).abs() < 1e-12, "{z}");
        }
        assert!(probability_below(7.9) <= 1.0 && probability_below(9.0) == 1.0);
    }
}
