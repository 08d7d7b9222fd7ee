//! Decimals and signs. A number is written with as many decimals as its ± deserves and no more.

/// A real minus sign (U+2212), never a hyphen.
pub const MINUS: char = '\u{2212}';
/// The thin space (U+2009) that stands before a unit and around ±.
pub const THIN_SPACE: char = '\u{2009}';

/// The space inside `47 %` (U+00A0). It never breaks a line: of the spaces that should not, the window's text layout keeps
/// this one alone together.
pub const NO_BREAK_SPACE: char = '\u{a0}';

/// A number with the sign for per cent: `47 %`.
#[must_use]
pub fn per_cent(number: &str) -> String {
    format!("{number}{NO_BREAK_SPACE}%")
}

/// How many decimals a value deserves whose expanded uncertainty (± 2u) is `expanded`: two digits of the ± when they
/// begin with 1, else one digit (66.3 ± 1.4, 66 ± 3, 71.50 ± 0.12). Never more than three; an exact or unknown ± (zero
/// or not finite) gets one.
#[must_use]
pub fn decimals_for(expanded: f64) -> usize {
    if !expanded.is_finite() || expanded <= 0.0 {
        return 1;
    }
    let mut decimals = 0;
    let mut scaled = expanded;
    while scaled < 1.95 && decimals < 3 {
        scaled *= 10.0;
        decimals += 1;
    }
    decimals
}

/// `value` with a fixed number of decimals, a real minus sign, and −0 written as 0. What is not finite is "–".
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|b| b == b'0' || b == b'.') => digits.to_owned(),
        Some(digits) => format!("{MINUS}{digits}"),
        None => text,
    }
}

/// A number's text with a plus sign where it is above zero.
#[must_use]
pub fn with_sign(number: String) -> String {
    let is_zero = number.bytes().all(|b| b == b'0' || b == b'.');
    if is_zero || number.starts_with(MINUS) { number } else { format!("+{number}") }
}

/// A value with all the decimals that it was typed with, and a minus sign where it is negative: `−25`, `0.5`.
#[must_use]
pub fn as_typed(value: f64) -> String {
    value.to_string().replacen('-', "\u{2212}", 1)
}

/// `value ± expanded` with fitting decimals and no unit: `66.3 ± 1.4`.
#[must_use]
pub fn plus_minus(value: f64, expanded: f64) -> String {
    let decimals = decimals_for(expanded);
    format!("{}{THIN_SPACE}±{THIN_SPACE}{}", fixed(value, decimals), fixed(expanded, decimals))
}

/// The same for a difference, with its sign always written: `+12 ± 3`, `−0.4 ± 0.6`.
#[must_use]
pub fn signed_plus_minus(value: f64, expanded: f64) -> String {
    let text = plus_minus(value, expanded);
    let is_zero = text.split(THIN_SPACE).next().is_some_and(|v| v.bytes().all(|b| b == b'0' || b == b'.'));
    if value > 0.0 && !is_zero { format!("+{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_number_has_a_minus_sign_and_its_own_decimals() {
        assert_eq!((as_typed(-25.0).as_str(), as_typed(0.125).as_str(), as_typed(40.0).as_str()), ("−25", "0.125", "40"));
    }

    #[test]
    fn decimals_follow_the_plus_minus() {
        for (expanded, decimals) in
            [(14.0, 0), (2.9, 0), (1.95, 0), (1.4, 1), (0.58, 1), (0.12, 2), (0.02, 2), (0.0001, 3), (0.0, 1), (f64::NAN, 1)]
        {
            assert_eq!(decimals_for(expanded), decimals, "{expanded}");
        }
    }

    #[test]
    fn signs_are_real_and_zero_has_none() {
        assert_eq!(fixed(-0.04, 1), "0.0");
        assert_eq!(fixed(-2.0, 1), "−2.0");
        assert_eq!(plus_minus(66.31, 5.84), "66\u{2009}±\u{2009}6");
        assert_eq!(signed_plus_minus(12.2, 0.8), "+12.2\u{2009}±\u{2009}0.8");
        assert_eq!(signed_plus_minus(0.01, 0.8), "0.0\u{2009}±\u{2009}0.8");
        assert_eq!(signed_plus_minus(-80.0, 95.0), "−80\u{2009}±\u{2009}95");
    }
}
