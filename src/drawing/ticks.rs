//! Round numbers along an axis.

use crate::units::fixed;

/// A round number on an axis and how it is written.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tick {
    pub(super) value: f64,
    pub(super) label: String,
}

/// Multiples of 1, 2 or 5 · 10ⁿ from `low` to `high`, as close as may be without there being more than `most` (at least
/// two). Written with the decimals that the step needs. A range that is empty or not finite has none.
pub(super) fn ticks(low: f64, high: f64, most: usize) -> Vec<Tick> {
    let span = high - low;
    if !(span.is_finite() && span > 0.0) {
        return Vec::new();
    }
    let (step, power) = step(span / most.max(2) as f64);
    let decimals = usize::try_from(-power).unwrap_or(0);
    let (first, last) = ((low / step - 1e-9).ceil(), (high / step + 1e-9).floor());
    (0..1000)
        .map(|i| first + f64::from(i))
        .take_while(|i| *i <= last)
        .map(|i| Tick { value: i * step, label: fixed(i * step, decimals) })
        .collect()
}

/// The smallest 1, 2 or 5 · 10ⁿ that is not below `least`, and n.
fn step(least: f64) -> (f64, i32) {
    #[expect(clippy::cast_possible_truncation, reason = "the exponent of a double")]
    let power = least.log10().floor().clamp(-12.0, 12.0) as i32;
    let unit = 10f64.powi(power);
    [1.0, 2.0, 5.0]
        .into_iter()
        .map(|m| (m * unit, power))
        .find(|(s, _)| *s >= least * (1.0 - 1e-9))
        .unwrap_or((10.0 * unit, power + 1))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn labels(low: f64, high: f64, most: usize) -> Vec<String> {
        ticks(low, high, most).into_iter().map(|t| t.label).collect()
    }

    #[test]
    fn steps_are_round_and_decimals_fit() {
        assert_eq!(labels(428.0, 462.0, 8), ["430", "435", "440", "445", "450", "455", "460"]);
        assert_eq!(labels(-0.12, 0.31, 5), ["−0.1", "0.0", "0.1", "0.2", "0.3"]);
        assert_eq!(labels(0.0, 1000.0, 5), ["0", "200", "400", "600", "800", "1000"]);
        assert_eq!(labels(71.02, 71.06, 4), ["71.02", "71.03", "71.04", "71.05", "71.06"]);
        assert!(labels(5.0, 5.0, 5).is_empty() && labels(f64::NAN, 5.0, 5).is_empty());
    }

    proptest! {
        #[test]
        fn never_too_many_and_all_inside(low in -1e4..1e4_f64, span in 1e-3..1e4_f64, most in 2_usize..20) {
            let found = ticks(low, low + span, most);
            prop_assert!(found.len() <= most + 1);
            for tick in &found {
                prop_assert!(tick.value >= low - 1e-6 * span && tick.value <= low + span * (1.0 + 1e-6));
            }
            for pair in found.windows(2) {
                prop_assert!(pair[1].label != pair[0].label);
            }
        }
    }
}
