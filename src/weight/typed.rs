//! Reading of what is typed about weights: `1.10`, `+10 %`, `2600`, `2.6 kg`.
//!
//! Invariant: what is accepted is finite and in range; what is possible but unlikely is asked about, everything else is
//! refused with a sentence that says what to write. Nothing is changed silently.

use super::settings::FACTORS;
use crate::frameset::Part;
use crate::units::{MINUS, Quantity, System, THIN_SPACE, fixed, per_cent, typed_digits, typed_length, typed_mass, typed_number};

/// Why typed text is not taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TypedError {
    /// It is not valid.
    #[error("{0}")]
    Refused(String),
    /// It may be meant; the user is asked, and `value` is what a yes takes.
    #[error("{sentence}")]
    Asks {
        /// The question.
        sentence: String,
        /// What a yes takes.
        value: f64,
    },
}

fn refused<T>(sentence: impl Into<String>) -> Result<T, TypedError> {
    Err(TypedError::Refused(sentence.into()))
}

const FACTOR_HINT: &str = "write a factor such as 1.10, or a change such as +10 %";

/// Reads a factor: `1.10`, `× 1.1`, `1,10`, `+10 %`, `−5%`. A bare 10 may be meant as a percentage: it is asked about, and
/// the value of a yes is 1.10.
///
/// # Errors
/// What is outside 0.5 to 2, or no number.
pub fn read_factor(text: &str) -> Result<f64, TypedError> {
    let plain = typed_digits(text);
    let factor = if let Some(percent) = plain.strip_suffix('%') {
        match typed_number(percent) {
            Some(percent) => 1.0 + percent / 100.0,
            None => return refused(FACTOR_HINT),
        }
    } else {
        let digits = plain.trim_start_matches(['×', 'x', '*']);
        let Some(value) = typed_number(digits) else { return refused(FACTOR_HINT) };
        let is_change = digits.starts_with(['+', '-']);
        let is_percent = if is_change { value.abs() <= 50.0 } else { value > 2.0 && value <= 50.0 };
        if is_percent && value.abs() >= 1.0 {
            let meant = 1.0 + value / 100.0;
            let sentence = format!(
                "A factor of {} is outside 0.5 to 2. Do you mean {}, a factor of {}?",
                fixed(value, 0),
                per_cent(&fixed(value, usize::from(value.fract() != 0.0))),
                fixed(meant, 2)
            );
            return Err(TypedError::Asks { sentence, value: meant });
        }
        if is_change {
            return refused(format!("a change needs its percent sign: {FACTOR_HINT}"));
        }
        value
    };
    if FACTORS.contains(&factor) {
        Ok(factor)
    } else {
        refused(format!("a factor of {} is outside 0.5 to 2: {FACTOR_HINT}", fixed(factor, 2)))
    }
}

/// A factor as it stands in its field: two decimals, more where they are needed.
#[must_use]
pub fn write_factor(factor: f64) -> String {
    let short = format!("{factor:.2}");
    if short.parse::<f64>() == Ok(factor) { short } else { format!("{factor}") }
}

/// A weight in grams, and whether its unit was written: `2600`, `2,600 g`, `2.6 kg`, `5.7 lb`, `5 lb 14 oz`. Without a unit
/// it is in those of `units`.
fn grams_of(text: &str, units: System) -> Option<(f64, bool)> {
    let plain = text.trim().replace(MINUS, "-");
    let (sign, size) = match plain.strip_prefix('-') {
        Some(size) => (-1.0, size),
        None => (1.0, plain.strip_prefix('+').unwrap_or(&plain)),
    };
    let bare = || typed_number(size).map(|number| (units.from_field(Quantity::Mass, number), false));
    let (grams, has_unit) = typed_mass(size).map(|grams| (grams, true)).or_else(bare)?;
    Some((sign * grams, has_unit))
}

/// A weight or length as sentences say it: whole grams and millimetres, pounds and inches to a hundredth.
fn said(units: System, quantity: Quantity, value: f64) -> String {
    units.with_unit(quantity, &bare(units, quantity, value))
}

/// The same without its unit.
fn bare(units: System, quantity: Quantity, value: f64) -> String {
    let decimals = match units {
        System::Metric => 0,
        System::Imperial => 2,
    };
    fixed(value * units.factor(quantity), decimals)
}

/// How a weight of about that many grams is written, as an example.
fn example(units: System, grams: f64) -> String {
    match units {
        System::Metric => format!("grams such as {}", bare(units, Quantity::Mass, grams)),
        System::Imperial => format!("pounds such as {}", bare(units, Quantity::Mass, grams)),
    }
}

/// Reads the weight of a frame, fork or frameset, in the units chosen where none is written. A frame outside 0.5 to 8 kg
/// (fork 0.2 to 4, frameset 0.8 to 12) is asked about; so are a bare number below 20 as kilograms and bare pounds that are
/// likely grams.
///
/// # Errors
/// What is no number, or not above zero, or above 15 kg.
pub fn read_grams(text: &str, part: Part, units: System) -> Result<f64, TypedError> {
    let Some((grams, has_unit)) = grams_of(text, units) else {
        return refused(format!("write {}, or kilograms such as 2.6 kg", example(units, 2600.0)));
    };
    if grams <= 0.0 {
        return refused(format!("the weight of a {} must be above 0: write {}", part.label(), example(units, 2600.0)));
    }
    if !has_unit && units == System::Metric && grams < 20.0 {
        let sentence = format!("Do you mean {} kilograms, {}{THIN_SPACE}g?", trimmed(grams), fixed(grams * 1000.0, 0));
        return Err(TypedError::Asks { sentence, value: grams * 1000.0 });
    }
    if !WEIGHTS.contains(&grams) {
        // Bare pounds: with a unit it is no plain number, and plain grams of that many would have been taken.
        if let Some(number) = typed_number(text).filter(|number| (200.0..=*WEIGHTS.end()).contains(number)) {
            let meant = said(units, Quantity::Mass, number);
            let sentence = format!("Do you mean {} grams, {meant}?", trimmed(number));
            return Err(TypedError::Asks { sentence, value: number });
        }
        let low = bare(units, Quantity::Mass, *WEIGHTS.start());
        let [grams, high] = [grams, *WEIGHTS.end()].map(|grams| said(units, Quantity::Mass, grams));
        return refused(format!("a {} of {grams} is outside {low} to {high}", part.label()));
    }
    unlikely(part, grams, units).map_or(Ok(grams), |sentence| Err(TypedError::Asks { sentence, value: grams }))
}

/// Grams that a frame, fork or frameset may weigh.
const WEIGHTS: std::ops::RangeInclusive<f64> = 50.0..=15000.0;

/// Least and greatest weight that such a part usually has, g. Our own assumption.
pub(super) const fn usual_grams(part: Part) -> [f64; 2] {
    match part {
        Part::Frame => [500.0, 8000.0],
        Part::Fork => [200.0, 4000.0],
        Part::Frameset => [800.0, 12000.0],
    }
}

/// Whether such a part usually weighs so much.
pub(super) fn is_usual(part: Part, grams: f64) -> bool {
    let [low, high] = usual_grams(part);
    (low..=high).contains(&grams)
}

/// The question about a weight that is possible but unlikely.
fn unlikely(part: Part, grams: f64, units: System) -> Option<String> {
    let [low, high] = usual_grams(part);
    let limit = |grams: f64, decimals: usize| match units {
        System::Metric => format!("{}{THIN_SPACE}kg", fixed(grams / 1000.0, decimals)),
        System::Imperial => said(units, Quantity::Mass, grams),
    };
    let than = if grams < low {
        format!("lighter than {}", limit(low, 1))
    } else if grams > high {
        format!("heavier than {}", limit(high, 0))
    } else {
        return None;
    };
    Some(format!("A {} of {} is {than}. Is that right?", part.label(), said(units, Quantity::Mass, grams)))
}

/// The heaviest line of a ledger and the largest ±, g.
const MOST_GRAMS: f64 = 5000.0;

/// Reads a line of a ledger: a weight with its sign, negative for what is taken off; `62`, `−62`, `+0.1 kg`.
///
/// # Errors
/// What is no number, zero, or beyond 5 kg either way.
pub fn read_line_grams(text: &str, units: System) -> Result<f64, TypedError> {
    match grams_of(text, units) {
        Some((grams, _)) if grams != 0.0 && grams.abs() <= MOST_GRAMS => Ok(grams),
        Some((0.0, _)) => refused("0 changes nothing: write a weight, or remove the line"),
        Some((grams, _)) => {
            let low = bare(units, Quantity::Mass, -MOST_GRAMS);
            let [grams, most] = [grams, MOST_GRAMS].map(|grams| said(units, Quantity::Mass, grams));
            refused(format!("{grams} is outside {low} to {most}: write {}", example(units, 62.0)))
        }
        None => {
            let taken_off = bare(units, Quantity::Mass, -62.0);
            refused(format!("write {}, or {taken_off} to subtract", example(units, 62.0)))
        }
    }
}

/// Reads a ± of a weight; `±` itself may be typed.
///
/// # Errors
/// What is no number, negative, or above 5 kg.
pub fn read_plus_minus(text: &str, units: System) -> Result<f64, TypedError> {
    match grams_of(text.trim().trim_start_matches('±'), units) {
        Some((grams, _)) if (0.0..=MOST_GRAMS).contains(&grams) => Ok(grams),
        Some(_) => {
            refused(format!("a ± is from 0 to {}: write {}", said(units, Quantity::Mass, MOST_GRAMS), example(units, 20.0)))
        }
        None => refused(format!("write a ± in {}", example(units, 20.0))),
    }
}

/// Reads what the parts weigh that are alike in all sizes, g.
///
/// # Errors
/// What is no number, negative, or above 3 kg.
pub fn read_fixed_parts(text: &str, units: System) -> Result<f64, TypedError> {
    const MOST: f64 = 3000.0;
    match grams_of(text, units) {
        Some((grams, _)) if (0.0..=MOST).contains(&grams) => Ok(grams),
        Some((grams, _)) => {
            let [grams, most] = [grams, MOST].map(|grams| said(units, Quantity::Mass, grams));
            refused(format!("a weight of fixed parts of {grams} is outside 0 to {most}"))
        }
        None => refused(format!("write a weight of fixed parts in {}", example(units, 450.0))),
    }
}

/// Reads a length of a line, in mm, negative for what is cut off.
///
/// # Errors
/// What is no number, zero, or beyond 500 mm either way.
pub fn read_line_mm(text: &str, units: System) -> Result<f64, TypedError> {
    // The sign of what is cut off stands before the length.
    let plain = text.trim().replace(MINUS, "-");
    let mm = match plain.strip_prefix('-') {
        Some(length) => typed_length(length, units).map(|mm| -mm),
        None => typed_length(&plain, units),
    };
    match mm {
        Some(mm) if mm != 0.0 && mm.abs() <= 500.0 => Ok(mm),
        Some(0.0) => refused("0 changes nothing: write a length, or remove the line"),
        Some(mm) => {
            let low = bare(units, Quantity::Length, -500.0);
            let [mm, most] = [mm, 500.0].map(|mm| said(units, Quantity::Length, mm));
            refused(format!("{mm} of steerer is outside {low} to {most}"))
        }
        None => {
            let cut_off = bare(units, Quantity::Length, -90.0);
            refused(format!("write {} such as {cut_off} for what is cut off", units.unit(Quantity::Length)))
        }
    }
}

/// Reads what a millimetre (in inches and pounds: an inch) weighs, in grams a millimetre.
///
/// # Errors
/// What is no number, zero or less, or above 10 g.
pub fn read_grams_per_mm(text: &str, units: System) -> Result<f64, TypedError> {
    let each = typed_number(&typed_digits(text)).map(|each| match units {
        System::Metric => each,
        // To the step at which the field shows it again.
        System::Imperial => (each / per_length(units) * 1e4).round() / 1e4,
    });
    match (each, units) {
        (Some(each), _) if each > 0.0 && each <= 10.0 => Ok(each),
        (Some(_), System::Metric) => {
            refused("the weight of a millimetre must be above 0 and at most 10 g: a steel steerer has about 1.07")
        }
        (Some(_), System::Imperial) => {
            refused("the weight of an inch must be above 0 and at most 0.56 lb: a steel steerer has about 0.06")
        }
        (None, System::Metric) => refused("write grams per millimetre, such as 1.07"),
        (None, System::Imperial) => refused("write pounds per inch, such as 0.06"),
    }
}

/// What a millimetre or an inch weighs as it stands in its field: g/mm or lb/in.
#[must_use]
pub fn write_grams_per_mm(each: f64, units: System) -> String {
    let decimals = match units {
        System::Metric => 3,
        System::Imperial => 7,
    };
    let text = fixed(each * per_length(units), decimals);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Shown weight per shown length in one gram per millimetre.
fn per_length(units: System) -> f64 {
    units.factor(Quantity::Mass) / units.factor(Quantity::Length)
}

/// Reads a number between two bounds; `what` names it in the refusal.
///
/// # Errors
/// What is no number or outside.
pub fn read_within(text: &str, what: &str, unit: &str, low: f64, high: f64) -> Result<f64, TypedError> {
    let plain = typed_digits(text);
    let digits = plain.strip_suffix(unit).unwrap_or(&plain).trim_start_matches('±');
    match typed_number(digits) {
        Some(value) if (low..=high).contains(&value) => Ok(value),
        Some(value) => {
            let value = trimmed(value);
            refused(format!("{what} of {value}{THIN_SPACE}{unit} is outside {} to {}", trimmed(low), trimmed(high)))
        }
        None => refused(format!("write {what} as a number, {} to {}", trimmed(low), trimmed(high))),
    }
}

fn trimmed(value: f64) -> String {
    let text = fixed(value, 2);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::NO_BREAK_SPACE;

    #[test]
    fn factors_and_percents() {
        for (text, factor) in [
            ("1.10", 1.1),
            ("1,1", 1.1),
            ("× 1.1", 1.1),
            ("+10 %", 1.1),
            ("+10%", 1.1),
            ("-5 %", 0.95),
            ("−5 %", 0.95),
            (" 1 ", 1.0),
        ] {
            let read = read_factor(text).unwrap_or(f64::NAN);
            assert!((read - factor).abs() < 1e-12, "{text}: {read}");
        }
        for text in ["", "ten", "+0.1", "0", "+200 %", "NaN", "inf", "1.1.1", "1e1", "-", "300"] {
            assert!(matches!(read_factor(text), Err(TypedError::Refused(_))), "{text}");
        }
    }

    #[test]
    fn a_bare_ten_is_asked_about() {
        let Err(TypedError::Asks { sentence, value }) = read_factor("10") else { unreachable!("10 is asked about") };
        assert_eq!(
            sentence.replace(NO_BREAK_SPACE, " "),
            "A factor of 10 is outside 0.5 to 2. Do you mean 10 %, a factor of 1.10?"
        );
        assert!((value - 1.1).abs() < 1e-12);
        assert!(matches!(read_factor("+10"), Err(TypedError::Asks { value, .. }) if (value - 1.1).abs() < 1e-12));
        assert!(matches!(read_factor("-5"), Err(TypedError::Asks { value, .. }) if (value - 0.95).abs() < 1e-12));
    }

    #[test]
    fn what_is_written_reads_back() {
        for factor in [1.0, 1.1, 0.95, 1.125, 1.03] {
            assert_eq!(read_factor(&write_factor(factor)), Ok(factor));
        }
        assert_eq!(write_factor(1.1), "1.10");
    }

    #[test]
    fn weights_are_refused_or_asked_about() {
        assert_eq!(read_grams("2600", Part::Frame, System::Metric), Ok(2600.0));
        assert_eq!(read_grams("2 600 g", Part::Frame, System::Metric), Ok(2600.0));
        assert_eq!(read_grams("2,6 kg", Part::Frame, System::Metric), Ok(2600.0));
        for text in ["0", "-2600", "", "heavy", "20000", "0 kg", "30 g"] {
            assert!(matches!(read_grams(text, Part::Frame, System::Metric), Err(TypedError::Refused(_))), "{text}");
        }
        for (text, value) in [("2.6", 2600.0), ("8500", 8500.0), ("450", 450.0)] {
            assert!(
                matches!(read_grams(text, Part::Frame, System::Metric), Err(TypedError::Asks { value: v, .. }) if v == value),
                "{text}"
            );
        }
        assert_eq!(read_grams("450", Part::Fork, System::Metric), Ok(450.0));
        let sentence = read_grams("9000", Part::Frame, System::Metric).unwrap_err().to_string();
        assert_eq!(sentence.replace(THIN_SPACE, " "), "A frame of 9000 g is heavier than 8 kg. Is that right?");
    }

    #[test]
    fn lines_have_a_sign() {
        assert_eq!(read_line_grams("−62", System::Metric), Ok(-62.0));
        assert_eq!(read_line_grams("+0.1 kg", System::Metric), Ok(100.0));
        assert!(
            read_line_grams("0", System::Metric).is_err()
                && read_line_grams("6000", System::Metric).is_err()
                && read_line_grams("x", System::Metric).is_err()
        );
        assert_eq!(read_line_mm("−90 mm", System::Metric), Ok(-90.0));
        assert!(
            read_line_mm("0", System::Metric).is_err()
                && read_line_mm("900", System::Metric).is_err()
                && read_line_mm("long", System::Metric).is_err()
        );
        assert_eq!(read_grams_per_mm("1,07", System::Metric), Ok(1.07));
        assert!(
            read_grams_per_mm("0", System::Metric).is_err()
                && read_grams_per_mm("20", System::Metric).is_err()
                && read_grams_per_mm("", System::Metric).is_err()
        );
        assert_eq!(read_within("5 %", "a ±", "%", 0.0, 50.0), Ok(5.0));
        let refusal = read_within("80", "a ± of a claimed weight", "%", 0.0, 50.0).unwrap_err().to_string();
        assert_eq!(refusal.replace(THIN_SPACE, " "), "a ± of a claimed weight of 80 % is outside 0 to 50");
        assert_eq!(read_plus_minus("± 20 g", System::Metric), Ok(20.0));
        assert!(read_plus_minus("-3", System::Metric).is_err());
    }

    #[test]
    fn with_pounds_chosen_weights_are_read_and_refused_in_pounds() {
        let plain = |e: TypedError| e.to_string().replace(THIN_SPACE, " ");
        let read = |text| read_grams(text, Part::Frame, System::Imperial).map_err(plain);
        assert_eq!(read("5.7"), Ok(2585.5));
        assert_eq!(read("2600 g"), Ok(2600.0));
        assert_eq!(read("2.6 kg"), Ok(2600.0));
        assert_eq!(read_grams("5.7 lb", Part::Frame, System::Metric), Ok(2585.5));
        assert_eq!(read("2600"), Err("Do you mean 2600 grams, 5.73 lb?".to_owned()));
        assert_eq!(read("40"), Err("a frame of 40.00 lb is outside 0.11 to 33.07 lb".to_owned()));
        assert_eq!(read("20"), Err("A frame of 20.00 lb is heavier than 17.64 lb. Is that right?".to_owned()));
        assert_eq!(read("heavy"), Err("write pounds such as 5.73, or kilograms such as 2.6 kg".to_owned()));
        assert_eq!(read_line_grams("−0.14", System::Imperial), Ok(-63.5));
        assert_eq!(
            read_line_grams("12", System::Imperial).map_err(plain),
            Err("12.00 lb is outside −11.02 to 11.02 lb: write pounds such as 0.14".to_owned())
        );
        assert_eq!(read_plus_minus("± 0.05", System::Imperial), Ok(22.7));
        assert_eq!(read_line_mm("−3.5", System::Imperial), Ok(-88.9));
        assert_eq!(read_line_mm("−90 mm", System::Imperial), Ok(-90.0));
        assert_eq!(read_line_mm("−3.5 in", System::Metric), Ok(-88.9));
        assert_eq!(
            read_line_mm("30", System::Imperial).map_err(plain),
            Err("30.00 in of steerer is outside −19.69 to 19.69 in".to_owned())
        );
        for each in [1.07, 0.8, 1.1234] {
            for units in [System::Metric, System::Imperial] {
                let shown = write_grams_per_mm(each, units);
                let read = read_grams_per_mm(&shown, units).unwrap_or(f64::NAN);
                assert!((read - each).abs() < 1e-3, "{shown}: {read}");
                assert_eq!(write_grams_per_mm(read, units), shown, "it is shown as it was typed");
            }
        }
    }
}
