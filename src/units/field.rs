//! Values in fields: shown in the units chosen, read back to the file's units.
//!
//! Invariant: what a field shows is read back as the value that it shows, to the step that a typed value is kept to.

use super::{Quantity, System, fixed};

impl System {
    /// A value of a file as it stands in a field, without its unit: metric with up to three decimals; in inches or pounds
    /// with the fewest decimals, up to five, that are read back as this value.
    #[must_use]
    pub fn in_field(self, quantity: Quantity, value: f64) -> String {
        let factor = self.factor(quantity);
        let (most, is_same): (usize, &dyn Fn(&str) -> bool) = if factor == 1.0 {
            (3, &|text| text == fixed(value, 3).trim_end_matches('0').trim_end_matches('.'))
        } else {
            (5, &|text| super::typed_number(text).is_some_and(|n| self.from_field(quantity, n) == kept(quantity, value)))
        };
        (0..most)
            .map(|decimals| fixed(value * factor, decimals))
            .find(|text| is_same(text))
            .unwrap_or_else(|| fixed(value * factor, most))
    }

    /// What a number typed in these units is in the file's unit. Inches are kept to a hundredth of a millimetre and pounds
    /// to a tenth of a gram: no more was meant.
    #[must_use]
    pub fn from_field(self, quantity: Quantity, number: f64) -> f64 {
        let factor = self.factor(quantity);
        if factor == 1.0 { number } else { kept(quantity, number / factor) }
    }
}

/// A value to the step that a converted one is kept to.
fn kept(quantity: Quantity, value: f64) -> f64 {
    let steps = if quantity == Quantity::Length { 100.0 } else { 10.0 };
    (value * steps).round() / steps
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::typed_number;

    #[test]
    fn fields_show_no_more_decimals_than_are_needed() {
        let metric = |value| System::Metric.in_field(Quantity::Length, value);
        assert_eq!([613.0, 0.5, -12.25, 0.0, 1.23456].map(metric), ["613", "0.5", "\u{2212}12.25", "0", "1.235"]);
        let inches = |value| System::Imperial.in_field(Quantity::Length, value);
        assert_eq!([613.0, 25.4, 1.0, -25.0, 0.0].map(inches), ["24.134", "1", "0.0394", "\u{2212}0.9843", "0"]);
        assert_eq!(System::Imperial.in_field(Quantity::Angle, 71.5), "71.5");
        assert_eq!(System::Imperial.in_field(Quantity::Mass, 2715.0), "5.9856");
        assert_eq!(System::Imperial.from_field(Quantity::Length, 24.1875), 614.36);
    }

    proptest! {
        /// What is shown is read back as what it shows.
        #[test]
        fn what_a_field_shows_is_read_back(hundredths in -200_000_i32..200_000, is_mass in any::<bool>()) {
            let (quantity, value) = if is_mass {
                (Quantity::Mass, f64::from(hundredths) / 10.0)
            } else {
                (Quantity::Length, f64::from(hundredths) / 100.0)
            };
            for system in [System::Metric, System::Imperial] {
                let shown = system.in_field(quantity, value);
                let read = typed_number(&shown).map(|number| system.from_field(quantity, number));
                prop_assert_eq!(read, Some(value), "{}", shown);
            }
        }
    }
}
