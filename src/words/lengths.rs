//! Lengths in words: computed and measured ones in the chosen units, trade sizes as the trade writes them.

use crate::units::{Quantity, System, fixed};

/// A number without needless decimals, at most two: `27.2`, `135`.
pub(super) fn number(value: f64) -> String {
    let text = fixed(value, 2);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// A computed or measured length, mm, in the chosen units: `3.5 mm`, `0.14 in`.
pub(super) fn length(units: System, mm: f64) -> String {
    units.with_unit(Quantity::Length, &number(mm * units.factor(Quantity::Length)))
}

/// The same to the tenth of a millimetre: `465.8 mm`, `18.34 in`.
pub(super) fn length_to_tenth(units: System, mm: f64) -> String {
    match units {
        System::Metric => length(units, (mm * 10.0).round() / 10.0),
        System::Imperial => length(units, mm),
    }
}

/// The same to the millimetre, or the tenth of an inch.
pub(super) fn length_to_whole(units: System, mm: f64) -> String {
    let scaled = mm * units.factor(Quantity::Length);
    let whole = match units {
        System::Metric => scaled.round(),
        System::Imperial => (scaled * 10.0).round() / 10.0,
    };
    units.with_unit(Quantity::Length, &number(whole))
}

/// A range of lengths, mm, its unit once: `80 to 120 mm`.
pub(super) fn lengths(units: System, least_mm: f64, most_mm: f64) -> String {
    let least = number(least_mm * units.factor(Quantity::Length));
    format!("{least} to {}", length(units, most_mm))
}

/// A trade size, in millimetres whatever the units: `27.2 mm`.
pub(super) fn trade_size(mm: f64) -> String {
    System::Metric.with_unit(Quantity::Length, &number(mm))
}

/// Two trade sizes, the unit once: `27.2 to 31.6 mm`.
pub(super) fn trade_sizes(from_mm: f64, to_mm: f64) -> String {
    format!("{} to {}", number(from_mm), trade_size(to_mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_follow_the_units_and_trade_sizes_do_not() {
        assert_eq!(length(System::Metric, 3.5), "3.5\u{2009}mm");
        assert_eq!(length(System::Imperial, 3.5), "0.14\u{2009}in");
        assert_eq!(length_to_tenth(System::Metric, 465.83), "465.8\u{2009}mm");
        assert_eq!(length_to_whole(System::Imperial, 254.0), "10\u{2009}in");
        assert_eq!(lengths(System::Imperial, 254.0, 508.0), "10 to 20\u{2009}in");
        assert_eq!(trade_sizes(27.2, 31.6), "27.2 to 31.6\u{2009}mm");
    }
}
