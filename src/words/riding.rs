//! Riding in words: times, distances, speeds, loads and developments in the chosen units, and why there are none.

use crate::lineup::{NoClimb, NoGears};
use crate::riding::{Climb, ClimbError, RidingUnit};
use crate::units::{Mass, Measured, System, THIN_SPACE, as_typed, expanded, fixed, per_cent, plus_minus};

pub(super) const MILE_KM: f64 = 1.609_344;
pub(super) const POUND_KG: f64 = 0.453_592_37;
const FOOT_M: f64 = 0.3048;

/// `1 h 02 min 09 s`, `4 min 05 s`, `31 s`; rounded to the second, thin spaces before the units.
#[must_use]
pub fn duration_text(seconds: f64) -> String {
    use THIN_SPACE as T;
    if !seconds.is_finite() || !(0.0..1e9).contains(&seconds) {
        return "–".to_owned();
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked to lie between 0 and 10⁹ just above")]
    let whole = seconds.round() as u64;
    let (hours, minutes, rest) = (whole / 3600, whole / 60 % 60, whole % 60);
    match (hours, minutes) {
        (0, 0) => format!("{rest}{T}s"),
        (0, _) => format!("{minutes}{T}min {rest:02}{T}s"),
        _ => format!("{hours}{T}h {minutes:02}{T}min {rest:02}{T}s"),
    }
}

/// A number without needless decimals, at most `decimals`.
fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Symbol of a number's unit as it is shown, and the factor from the file's unit to it.
#[must_use]
pub const fn shown_unit(units: System, unit: RidingUnit) -> (&'static str, f64) {
    match (units, unit) {
        (System::Imperial, RidingUnit::Kilograms) => ("lb", 1.0 / POUND_KG),
        (System::Imperial, RidingUnit::Kilometres) => ("mi", 1.0 / MILE_KM),
        (System::Imperial, RidingUnit::MetresPerSecond) => ("mph", 3.6 / MILE_KM),
        _ => (unit.symbol(), 1.0),
    }
}

/// A number's label with its unit: `Rider, kg`.
#[must_use]
pub fn label_with_unit(units: System, label: &str, unit: RidingUnit) -> String {
    let (symbol, _) = shown_unit(units, unit);
    if symbol.is_empty() { label.to_owned() } else { format!("{label}, {symbol}") }
}

/// Refusal of a number outside its range: `a rider of 7 kg is outside 20 to 250 kg`.
#[must_use]
pub fn out_of_range_text(units: System, error: &ClimbError) -> String {
    let ClimbError::OutOfRange { what, unit, value, low, high } = *error;
    if units == System::Metric {
        return error.to_string();
    }
    let (symbol, factor) = shown_unit(units, unit);
    let number = |value: f64| if factor == 1.0 { as_typed(value) } else { trimmed(value * factor, 1) };
    let symbol = if symbol.is_empty() { String::new() } else { format!(" {symbol}") };
    format!("{what} of {}{symbol} is outside {} to {}{symbol}", number(value), number(low), number(high))
}

/// A loaded weight, kg, in the chosen units: `100.0 kg`, `220.5 lb`.
#[must_use]
pub fn load_text(units: System, kg: f64) -> String {
    match units {
        System::Metric => format!("{}{THIN_SPACE}kg", fixed(kg, 1)),
        System::Imperial => format!("{}{THIN_SPACE}lb", fixed(kg / POUND_KG, 1)),
    }
}

/// A loaded total with its ±: `98.9 ± 0.2 kg`.
pub(super) fn loaded_total_text(units: System, total: Measured<Mass>) -> String {
    format!("{}{THIN_SPACE}{}", loaded_total_number(units, total), loaded_total_unit(units))
}

/// The same without the unit.
pub(super) fn loaded_total_number(units: System, total: Measured<Mass>) -> String {
    match units {
        System::Metric => total.times(0.001).number(units),
        System::Imperial => total.number(units),
    }
}

/// The unit that loaded totals are shown in.
pub(super) const fn loaded_total_unit(units: System) -> &'static str {
    match units {
        System::Metric => "kg",
        System::Imperial => "lb",
    }
}

/// A difference of loaded totals with its sign: `−1.43 ± 0.09 kg`.
pub(super) fn loaded_total_difference_text(units: System, difference: Measured<Mass>) -> String {
    match units {
        System::Metric => format!("{}{THIN_SPACE}kg", difference.times(0.001).signed_number(units)),
        System::Imperial => difference.signed_text(units),
    }
}

/// A development, m, and its u in the chosen units: `1.83 ± 0.02 m`.
pub(super) fn development_text(units: System, m: f64, u: f64) -> String {
    format!("{}{THIN_SPACE}{}", development_number(units, m, u), development_unit(units))
}

/// The same without the unit.
pub(super) fn development_number(units: System, m: f64, u: f64) -> String {
    let factor = match units {
        System::Metric => 1.0,
        System::Imperial => 1.0 / FOOT_M,
    };
    plus_minus(m * factor, expanded(u) * factor)
}

/// Unit of developments.
pub(super) const fn development_unit(units: System) -> &'static str {
    match units {
        System::Metric => "m",
        System::Imperial => "ft",
    }
}

/// A speed, km/h, and its u in the chosen units: `8.0 ± 0.1 km/h`, `5.0 ± 0.1 mph`.
pub(super) fn speed_text(units: System, km_h: f64, u: f64) -> String {
    match units {
        System::Metric => format!("{}{THIN_SPACE}km/h", plus_minus(km_h, expanded(u))),
        System::Imperial => format!("{}{THIN_SPACE}mph", plus_minus(km_h / MILE_KM, expanded(u) / MILE_KM)),
    }
}

/// A climb: `10 km at 5 % with 150 W`.
#[must_use]
pub fn climb_described(units: System, climb: &Climb) -> String {
    let length = match units {
        System::Metric => format!("{}{THIN_SPACE}km", trimmed(climb.length_km, 2)),
        System::Imperial => format!("{}{THIN_SPACE}mi", trimmed(climb.length_km / MILE_KM, 2)),
    };
    format!("{length} at {} with {}", per_cent(&trimmed(climb.gradient_percent, 2)), power_text(climb.power_w))
}

/// A power: `150 W`.
pub(super) fn power_text(watts: f64) -> String {
    format!("{}{THIN_SPACE}W", fixed(watts, 0))
}

/// A cadence: `70 rpm`.
pub(super) fn cadence_text(rpm: f64) -> String {
    format!("{}{THIN_SPACE}rpm", fixed(rpm, 0))
}

/// Reason why a climb has no time: `unknown (needs the frameset’s weight)`.
#[must_use]
pub fn no_climb_text(units: System, why: &NoClimb) -> String {
    match why {
        NoClimb::WeightNotPublished => "unknown (needs the frameset’s weight)".to_owned(),
        NoClimb::OutOfRange(error) => format!("unknown: {}", out_of_range_text(units, error)),
    }
}

/// Reason why gears have no answer: `unknown (needs the rear tyre’s size)`.
#[must_use]
pub fn no_gears_text(why: &NoGears) -> String {
    match why {
        NoGears::TyreRadiusUnknown => "unknown (needs the rear tyre’s size)".to_owned(),
        NoGears::NotValid(error) => format!("unknown: {error}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_read_as_people_say_them() {
        let plain = |s: f64| duration_text(s).replace(THIN_SPACE, " ");
        assert_eq!(plain(3729.4), "1 h 02 min 09 s");
        assert_eq!(plain(245.0), "4 min 05 s");
        assert_eq!(plain(59.6), "1 min 00 s");
        assert_eq!(plain(31.2), "31 s");
        assert_eq!(plain(f64::NAN), "–");
    }

    #[test]
    fn distances_loads_speeds_and_developments_follow_the_units() {
        let climb = Climb { length_km: 12.5, gradient_percent: 7.5, power_w: 180.0 };
        let all = |units| {
            [
                climb_described(units, &climb),
                load_text(units, 99.58),
                speed_text(units, 8.04672, 0.08),
                development_text(units, 1.8288, 0.01),
            ]
            .join("\n")
            .replace([THIN_SPACE, crate::units::NO_BREAK_SPACE], " ")
        };
        insta::assert_snapshot!(all(System::Metric), @r"
        12.5 km at 7.5 % with 180 W
        99.6 kg
        8.05 ± 0.16 km/h
        1.83 ± 0.02 m
        ");
        insta::assert_snapshot!(all(System::Imperial), @r"
        7.77 mi at 7.5 % with 180 W
        219.5 lb
        5.00 ± 0.10 mph
        6.00 ± 0.07 ft
        ");
    }

    #[test]
    fn what_is_unknown_says_what_it_needs() {
        let error = ClimbError::OutOfRange { what: "a rider", unit: RidingUnit::Kilograms, value: 7.0, low: 20.0, high: 250.0 };
        assert_eq!(out_of_range_text(System::Metric, &error), "a rider of 7 kg is outside 20 to 250 kg");
        assert_eq!(out_of_range_text(System::Imperial, &error), "a rider of 15.4 lb is outside 44.1 to 551.2 lb");
        assert_eq!(label_with_unit(System::Imperial, "Head wind", RidingUnit::MetresPerSecond), "Head wind, mph");
        assert_eq!(label_with_unit(System::Metric, "Rolling resistance", RidingUnit::One), "Rolling resistance");
        assert_eq!(no_climb_text(System::Metric, &NoClimb::WeightNotPublished), "unknown (needs the frameset’s weight)");
        assert_eq!(no_gears_text(&NoGears::TyreRadiusUnknown), "unknown (needs the rear tyre’s size)");
    }
}
