//! Metric or inch and pound, as a display choice. One inch is 25.4 mm and one pound 453.59237 g, both exact
//! (international yard and pound agreement of 1959).

use serde::{Deserialize, Serialize};

use super::{Measured, THIN_SPACE, per_cent, plus_minus, signed_plus_minus};

/// What kind of thing a number measures, and so which units it may be shown in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Quantity {
    /// Millimetres in files; inches on request.
    Length,
    /// Degrees, always.
    Angle,
    /// Grams in files; pounds on request.
    Mass,
    /// Square decimetres in files; square inches on request.
    Area,
    /// Litres, always.
    Volume,
    /// Seconds, always.
    Time,
    /// Percent, always.
    Ratio,
}

impl Quantity {
    /// The unit that files hold it in.
    #[must_use]
    pub const fn file_unit(self) -> &'static str {
        match self {
            Self::Length => "mm",
            Self::Angle => "deg",
            Self::Mass => "g",
            Self::Area => "dm2",
            Self::Volume => "l",
            Self::Time => "s",
            Self::Ratio => "percent",
        }
    }
}

/// The units that lengths and masses are shown in. Files stay metric.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum System {
    /// Millimetres and grams.
    #[default]
    Metric,
    /// Inches and pounds.
    Imperial,
}

impl System {
    /// The factor from the file's unit to the shown one.
    #[must_use]
    pub fn factor(self, quantity: Quantity) -> f64 {
        match (self, quantity) {
            (Self::Imperial, Quantity::Length) => 1.0 / 25.4,
            (Self::Imperial, Quantity::Mass) => 1.0 / 453.59237,
            (Self::Imperial, Quantity::Area) => 10_000.0 / (25.4 * 25.4),
            (Self::Metric, Quantity::Length | Quantity::Mass | Quantity::Area)
            | (_, Quantity::Angle | Quantity::Volume | Quantity::Time | Quantity::Ratio) => 1.0,
        }
    }

    /// The unit's short name as it follows a number.
    #[must_use]
    pub fn unit(self, quantity: Quantity) -> &'static str {
        match (self, quantity) {
            (_, Quantity::Angle) => "°",
            (_, Quantity::Volume) => "l",
            (_, Quantity::Time) => "s",
            (_, Quantity::Ratio) => "%",
            (Self::Metric, Quantity::Length) => "mm",
            (Self::Metric, Quantity::Mass) => "g",
            (Self::Metric, Quantity::Area) => "dm²",
            (Self::Imperial, Quantity::Length) => "in",
            (Self::Imperial, Quantity::Mass) => "lb",
            (Self::Imperial, Quantity::Area) => "in²",
        }
    }

    /// The unit's name in tables for spreadsheets, in ASCII letters.
    #[must_use]
    pub const fn plain_unit(self, quantity: Quantity) -> &'static str {
        match (self, quantity) {
            (Self::Imperial, Quantity::Length) => "in",
            (Self::Imperial, Quantity::Mass) => "lb",
            (Self::Imperial, Quantity::Area) => "in2",
            _ => quantity.file_unit(),
        }
    }

    /// `value ± U` in these units, without the unit's name. `measured` is in the file's unit.
    #[must_use]
    pub fn plus_minus<K>(self, quantity: Quantity, measured: Measured<K>) -> String {
        let factor = self.factor(quantity);
        plus_minus(measured.value * factor, measured.expanded() * factor)
    }

    /// A difference `+value ± U` in these units, its sign always written, without the unit's name.
    #[must_use]
    pub fn signed_plus_minus<K>(self, quantity: Quantity, measured: Measured<K>) -> String {
        let factor = self.factor(quantity);
        signed_plus_minus(measured.value * factor, measured.expanded() * factor)
    }

    /// `value ± U` in these units, with the unit's name: for a value whose kind the `quantity` says.
    #[must_use]
    pub fn text<K>(self, quantity: Quantity, measured: Measured<K>) -> String {
        self.with_unit(quantity, &self.plus_minus(quantity, measured))
    }

    /// The same with its sign always written, for a difference.
    #[must_use]
    pub fn signed_text<K>(self, quantity: Quantity, measured: Measured<K>) -> String {
        self.with_unit(quantity, &self.signed_plus_minus(quantity, measured))
    }

    /// `text` followed by the unit: a thin space before letters, none before the degree sign, one that keeps the line before %.
    #[must_use]
    pub fn with_unit(self, quantity: Quantity, text: &str) -> String {
        match quantity {
            Quantity::Angle => format!("{text}°"),
            Quantity::Ratio => per_cent(text),
            _ => format!("{text}{THIN_SPACE}{}", self.unit(quantity)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn inches_and_pounds_are_exact() {
        assert_eq!(
            System::Imperial.plus_minus(Quantity::Length, Measured::<Length>::new(254.0, 0.254)),
            "10.00\u{2009}±\u{2009}0.02"
        );
        assert!((System::Imperial.factor(Quantity::Mass) * 453.59237 - 1.0).abs() < 1e-15);
        // A square of 254 mm, which is 6.4516 dm², has 100 square inches.
        assert!((System::Imperial.factor(Quantity::Area) * 6.4516 - 100.0).abs() < 1e-12);
        assert_eq!(System::Metric.with_unit(Quantity::Length, "445"), "445\u{2009}mm");
        assert_eq!(System::Imperial.with_unit(Quantity::Angle, "71.5"), "71.5°");
        let plain = |system: System| [Quantity::Length, Quantity::Mass, Quantity::Area].map(|q| system.plain_unit(q));
        assert_eq!((plain(System::Metric), plain(System::Imperial)), (["mm", "g", "dm2"], ["in", "lb", "in2"]));
    }
}
