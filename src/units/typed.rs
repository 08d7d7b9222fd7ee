//! Numbers and lengths as people type them.

use super::{MINUS, Quantity, System, THIN_SPACE};

/// The number in a text: digits with at most one decimal point or comma and a sign, real minus or hyphen; spaces are
/// dropped; or a fraction as rulers have it, `1 1/8`, `1½`. `None` for anything else, such as two points, an exponent, a unit or nothing.
#[must_use]
pub fn typed_number(text: &str) -> Option<f64> {
    if let Some(number) = typed_fraction(text) {
        return Some(number);
    }
    let plain = typed_digits(text);
    let is_plain = plain.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+'));
    if is_plain { plain.parse::<f64>().ok().filter(|n| n.is_finite()) } else { None }
}

/// `1 1/8`, `5/8`, `1½`: whole number, blank or hyphen, numerator, stroke, denominator of a ruler.
fn typed_fraction(text: &str) -> Option<f64> {
    let text = text.trim();
    let spelt = [('½', "1/2"), ('¼', "1/4"), ('¾', "3/4"), ('⅛', "1/8"), ('⅜', "3/8"), ('⅝', "5/8"), ('⅞', "7/8")]
        .iter()
        .fold(text.replace('⁄', "/"), |text, (sign, spelt)| text.replace(*sign, &format!(" {spelt}")));
    let (before, denominator) = spelt.split_once('/')?;
    let (whole, numerator) = before.trim().rsplit_once([' ', '-']).unwrap_or(("0", before.trim()));
    let digits = |text: &str| -> Option<u32> {
        let text = text.trim();
        if (1..=3).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit()) { text.parse().ok() } else { None }
    };
    let (whole, numerator, denominator) = (digits(whole)?, digits(numerator)?, digits(denominator)?);
    let is_on_a_ruler = matches!(denominator, 2 | 4 | 8 | 16 | 32 | 64) && (1..denominator).contains(&numerator);
    is_on_a_ruler.then(|| f64::from(whole) + f64::from(numerator) / f64::from(denominator))
}

/// The length in a text, in millimetres: a number with `mm`, `cm`, `in` or an inch mark behind it; without a unit it is in
/// those of `units`, and a fraction in inches.
///
/// # Examples
/// ```
/// use spandrel::units::{System, typed_length};
/// assert_eq!(typed_length("1 1/8\"", System::Metric), Some(28.58));
/// assert_eq!(typed_length("44,5 cm", System::Imperial), Some(445.0));
/// assert_eq!(typed_length("445", System::Metric), Some(445.0));
/// ```
#[must_use]
pub fn typed_length(text: &str, units: System) -> Option<f64> {
    let text = text.trim().to_lowercase();
    let inches = |digits: &str| typed_number(digits).map(|inches| System::Imperial.from_field(Quantity::Length, inches));
    for (unit, factor) in [("mm", 1.0), ("cm", 10.0)] {
        if let Some(digits) = text.strip_suffix(unit) {
            return typed_number(digits).map(|number| (number * factor * 1e4).round() / 1e4);
        }
    }
    for unit in ["inches", "inch", "in", "\"", "″", "”", "''"] {
        if let Some(digits) = text.strip_suffix(unit) {
            return inches(digits);
        }
    }
    if typed_fraction(&text).is_some() {
        return inches(&text);
    }
    typed_number(&text).map(|number| units.from_field(Quantity::Length, number))
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
            ("1 1/8", Some(1.125)),
            ("1-1/8", Some(1.125)),
            ("1½", Some(1.5)),
            ("5/8", Some(0.625)),
            ("445/450", None),
            ("1/0", None),
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
