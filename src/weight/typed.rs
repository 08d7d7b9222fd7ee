//! Reading of what is typed about weights: `1.10`, `+10 %`, `2600`, `2.6 kg`.
//!
//! Invariant: what is accepted is finite and in range; what is possible but unlikely is asked about, everything else is
//! refused with a sentence that says what to write. Nothing is changed silently.

use super::settings::FACTORS;
use crate::frameset::Part;
use crate::units::{THIN_SPACE, fixed, typed_digits, typed_number};

/// Why typed text is not taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TypedError {
    /// It cannot be meant.
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
                "× {} cannot be meant; is it {}{THIN_SPACE}%, that is × {}?",
                fixed(value, 0),
                fixed(value, usize::from(value.fract() != 0.0)),
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
        refused(format!("a factor of {} cannot be meant: {FACTOR_HINT}", fixed(factor, 2)))
    }
}

/// A factor as it stands in its field: two decimals, more where they are needed.
#[must_use]
pub fn write_factor(factor: f64) -> String {
    let short = format!("{factor:.2}");
    if short.parse::<f64>() == Ok(factor) { short } else { format!("{factor}") }
}

/// Grams with their unit, or without: `2600`, `2600 g`, `2.6 kg`.
fn grams_of(text: &str) -> Option<(f64, bool)> {
    let plain = typed_digits(text).to_lowercase();
    if let Some(kilograms) = plain.strip_suffix("kg") {
        return typed_number(kilograms).map(|kg| (kg * 1000.0, true));
    }
    let digits = plain.strip_suffix('g').unwrap_or(&plain);
    typed_number(digits).map(|grams| (grams, plain.ends_with('g')))
}

/// Reads the weight of a frame, fork or frameset. A frame outside 0.5 to 8 kg (fork 0.2 to 4, frameset 0.8 to 12) is asked
/// about; a bare number below 20 is asked about as kilograms.
///
/// # Errors
/// What is no number, or not above zero, or above 15 kg.
pub fn read_grams(text: &str, part: Part) -> Result<f64, TypedError> {
    let Some((grams, has_unit)) = grams_of(text) else {
        return refused("write grams such as 2600, or kilograms such as 2.6 kg");
    };
    if grams <= 0.0 {
        return refused(format!("a {} weighs more than nothing: write grams such as 2600", part.label()));
    }
    if !has_unit && grams < 20.0 {
        let sentence =
            format!("{}{THIN_SPACE}g? Is it kilograms, that is {}{THIN_SPACE}g?", trimmed(grams), fixed(grams * 1000.0, 0));
        return Err(TypedError::Asks { sentence, value: grams * 1000.0 });
    }
    if !(50.0..=15000.0).contains(&grams) {
        return refused(format!("a {} of {}{THIN_SPACE}g is outside 50 to 15000{THIN_SPACE}g", part.label(), fixed(grams, 0)));
    }
    unlikely(part, grams).map_or(Ok(grams), |sentence| Err(TypedError::Asks { sentence, value: grams }))
}

/// The question about a weight that is possible but unlikely.
pub(super) fn unlikely(part: Part, grams: f64) -> Option<String> {
    let (low, high) = match part {
        Part::Frame => (500.0, 8000.0),
        Part::Fork => (200.0, 4000.0),
        Part::Frameset => (800.0, 12000.0),
    };
    let than = if grams < low {
        format!("lighter than {}", fixed(low / 1000.0, 1))
    } else if grams > high {
        format!("heavier than {}", fixed(high / 1000.0, 0))
    } else {
        return None;
    };
    Some(format!("a {} of {}{THIN_SPACE}g is {than}{THIN_SPACE}kg: is that what was weighed?", part.label(), fixed(grams, 0)))
}

/// Reads a line of a ledger: grams with their sign, negative for what is taken off; `62`, `−62`, `+0.1 kg`.
///
/// # Errors
/// What is no number, zero, or beyond 5 kg either way.
pub fn read_line_grams(text: &str) -> Result<f64, TypedError> {
    match grams_of(text) {
        Some((grams, _)) if grams != 0.0 && grams.abs() <= 5000.0 => Ok(grams),
        Some((0.0, _)) => refused("a line of nothing changes nothing: write grams, or remove the line"),
        Some((grams, _)) => refused(format!("{}{THIN_SPACE}g is beyond 5{THIN_SPACE}kg", fixed(grams, 0))),
        None => refused("write grams such as 62, or −62 for what is taken off"),
    }
}

/// Reads a ± in grams; `±` itself may be typed.
///
/// # Errors
/// What is no number, negative, or above 5 kg.
pub fn read_plus_minus(text: &str) -> Result<f64, TypedError> {
    match grams_of(text.trim().trim_start_matches('±')) {
        Some((grams, _)) if (0.0..=5000.0).contains(&grams) => Ok(grams),
        Some(_) => refused("a ± lies between 0 and 5000 g"),
        None => refused("write a ± in grams such as 20"),
    }
}

/// Reads a length of a line in mm, negative for what is cut off.
///
/// # Errors
/// What is no number, zero, or beyond 500 mm either way.
pub fn read_line_mm(text: &str) -> Result<f64, TypedError> {
    let plain = typed_digits(text).to_lowercase();
    match typed_number(plain.strip_suffix("mm").unwrap_or(&plain)) {
        Some(mm) if mm != 0.0 && mm.abs() <= 500.0 => Ok(mm),
        Some(0.0) => refused("a length of nothing changes nothing: write mm, or remove the line"),
        Some(mm) => refused(format!("{}{THIN_SPACE}mm of steerer cannot be meant: at most 500", fixed(mm, 0))),
        None => refused("write mm such as −90 for what is cut off"),
    }
}

/// Reads what a millimetre weighs, g.
///
/// # Errors
/// What is no number, zero or less, or above 10 g.
pub fn read_grams_per_mm(text: &str) -> Result<f64, TypedError> {
    match typed_number(&typed_digits(text)) {
        Some(each) if each > 0.0 && each <= 10.0 => Ok(each),
        Some(_) => refused("a millimetre weighs more than nothing and at most 10 g: steel steerers about 1.07"),
        None => refused("write what a millimetre weighs in grams, such as 1.07"),
    }
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
            refused(format!("{what} of {value}{THIN_SPACE}{unit} cannot be meant: write {} to {}", trimmed(low), trimmed(high)))
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
        assert_eq!(sentence.replace(THIN_SPACE, " "), "× 10 cannot be meant; is it 10 %, that is × 1.10?");
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
        assert_eq!(read_grams("2600", Part::Frame), Ok(2600.0));
        assert_eq!(read_grams("2 600 g", Part::Frame), Ok(2600.0));
        assert_eq!(read_grams("2,6 kg", Part::Frame), Ok(2600.0));
        for text in ["0", "-2600", "", "heavy", "20000", "0 kg", "30 g"] {
            assert!(matches!(read_grams(text, Part::Frame), Err(TypedError::Refused(_))), "{text}");
        }
        for (text, value) in [("2.6", 2600.0), ("8500", 8500.0), ("450", 450.0)] {
            assert!(matches!(read_grams(text, Part::Frame), Err(TypedError::Asks { value: v, .. }) if v == value), "{text}");
        }
        assert_eq!(read_grams("450", Part::Fork), Ok(450.0));
        let sentence = read_grams("9000", Part::Frame).unwrap_err().to_string();
        assert_eq!(sentence.replace(THIN_SPACE, " "), "a frame of 9000 g is heavier than 8 kg: is that what was weighed?");
    }

    #[test]
    fn lines_have_a_sign() {
        assert_eq!(read_line_grams("−62"), Ok(-62.0));
        assert_eq!(read_line_grams("+0.1 kg"), Ok(100.0));
        assert!(read_line_grams("0").is_err() && read_line_grams("6000").is_err() && read_line_grams("x").is_err());
        assert_eq!(read_line_mm("−90 mm"), Ok(-90.0));
        assert!(read_line_mm("0").is_err() && read_line_mm("900").is_err() && read_line_mm("long").is_err());
        assert_eq!(read_grams_per_mm("1,07"), Ok(1.07));
        assert!(read_grams_per_mm("0").is_err() && read_grams_per_mm("20").is_err() && read_grams_per_mm("").is_err());
        assert_eq!(read_within("5 %", "a ±", "%", 0.0, 50.0), Ok(5.0));
        let refusal = read_within("80", "a ± of a claimed weight", "%", 0.0, 50.0).unwrap_err().to_string();
        assert_eq!(refusal.replace(THIN_SPACE, " "), "a ± of a claimed weight of 80 % cannot be meant: write 0 to 50");
        assert_eq!(read_plus_minus("± 20 g"), Ok(20.0));
        assert!(read_plus_minus("-3").is_err());
    }
}
