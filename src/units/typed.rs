//! Numbers as people type them.

use super::{MINUS, THIN_SPACE};

/// The number in a text: digits with at most one decimal point or comma and a sign, real minus or hyphen; spaces are
/// dropped. `None` for anything else, such as two points, an exponent, a unit or nothing.
#[must_use]
pub fn typed_number(text: &str) -> Option<f64> {
    let plain = typed_digits(text);
    let is_plain = plain.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+'));
    if is_plain { plain.parse::<f64>().ok().filter(|n| n.is_finite()) } else { None }
}

/// The text without spaces and thin spaces, a comma read as a point and a real minus as a hyphen.
#[must_use]
pub fn typed_digits(text: &str) -> String {
    let kept = text.chars().filter(|c| !c.is_whitespace() && *c != THIN_SPACE);
    kept.map(|c| match c {
        ',' => '.',
        MINUS => '-',
        c => c,
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_number_is_read_and_nothing_is_guessed() {
        for (text, number) in [
            ("12.5", Some(12.5)),
            (" 12,5 ", Some(12.5)),
            ("\u{2212}3", Some(-3.0)),
            ("-3", Some(-3.0)),
            ("+4", Some(4.0)),
            ("2\u{2009}860", Some(2860.0)),
            ("1,234,5", None),
            ("1.2.3", None),
            ("1e3", None),
            ("inf", None),
            ("NaN", None),
            ("12 mm", None),
            ("", None),
            ("-", None),
        ] {
            assert_eq!(typed_number(text), number, "{text:?}");
        }
    }
}
