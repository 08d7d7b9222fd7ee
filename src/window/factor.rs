//! Reading of a typed weight factor: `1.10`, `× 1.1`, `1,10`, `+10 %`, `−5%`.
//!
//! Invariant: what is accepted is finite and from 0.5 to 2; everything else is refused with a sentence.

use crate::units::{MINUS, fixed};

/// Reads a factor.
///
/// # Errors
/// A sentence that says what to write.
pub(crate) fn read_factor(text: &str) -> Result<f64, String> {
    let plain: String = text.chars().filter(|c| !c.is_whitespace()).map(|c| if c == ',' { '.' } else { c }).collect();
    let plain = plain.replace(MINUS, "-");
    let hint = "write a factor such as 1.10, or a change such as +10 %";
    let factor = if let Some(percent) = plain.strip_suffix('%') {
        1.0 + percent.parse::<f64>().ok().ok_or(hint)? / 100.0
    } else {
        let number = plain.trim_start_matches(['×', 'x', '*']);
        if number.starts_with(['+', '-']) {
            return Err(format!("a change needs its percent sign: {hint}"));
        }
        number.parse::<f64>().ok().ok_or(hint)?
    };
    if (0.5..=2.0).contains(&factor) {
        Ok(factor)
    } else {
        Err(format!("a factor of {} cannot be meant: {hint}", fixed(factor, 2)))
    }
}

/// A factor as it stands in its field: two decimals, more where they are needed.
pub(crate) fn write_factor(factor: f64) -> String {
    let short = format!("{factor:.2}");
    if short.parse::<f64>() == Ok(factor) { short } else { format!("{factor}") }
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
        for text in ["", "ten", "+0.1", "11", "0", "+200 %", "NaN", "inf", "1.1.1"] {
            assert!(read_factor(text).is_err(), "{text}");
        }
    }

    #[test]
    fn what_is_written_reads_back() {
        for factor in [1.0, 1.1, 0.95, 1.125, 1.03] {
            assert_eq!(read_factor(&write_factor(factor)), Ok(factor));
        }
        assert_eq!(write_factor(1.1), "1.10");
    }
}
