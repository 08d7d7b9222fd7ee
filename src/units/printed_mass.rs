//! Weights in printed and typed text, with their unit: `2.68 kg`, `2,350 g`, `5.9 lb`, `5 lb 14 oz`.

use super::printed_number::{PrintedNumber, printed_numbers};
use super::{Quantity, System};

/// A weight in a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrintedMass {
    /// Grams, to a tenth where it was in pounds or ounces.
    pub grams: f64,
    /// Where it begins, bytes.
    pub start: usize,
    /// Where it ends, bytes.
    pub end: usize,
}

#[derive(Clone, Copy, PartialEq)]
enum Unit {
    Gram,
    Kilogram,
    Pound,
    Ounce,
}

/// A kilogram mark before three digits: a weight in grams below this is in thousands (2,350 g).
const LIGHTEST_GRAMS: f64 = 20.0;

/// All weights of a text that have their unit, in order. The unit's name may be in English, German, French, Spanish,
/// Italian or Dutch. Two numbers of one unit (`2.1–2.3 kg`) are one weight only for the number beside the unit.
#[must_use]
pub fn printed_masses(text: &str) -> Vec<PrintedMass> {
    let mut found: Vec<PrintedMass> = Vec::new();
    let mut pounds: Option<(f64, usize, usize)> = None;
    for number in printed_numbers(text) {
        let Some((unit, end)) = unit_after(text, number.end) else { continue };
        let Some(value) = value(&number, unit) else { continue };
        // Ounces behind pounds belong to them.
        if unit == Unit::Ounce
            && let Some((before, start, pounds_end)) = pounds.take()
            && text.get(pounds_end..number.start).is_some_and(|gap| gap.trim_matches([' ', '.', ',', '\u{a0}']).is_empty())
        {
            found.pop();
            found.push(PrintedMass { grams: grams(before + value / 16.0), start, end });
            continue;
        }
        pounds = (unit == Unit::Pound).then_some((value, number.start, end));
        let grams = match unit {
            Unit::Gram => value,
            Unit::Kilogram => (value * 1e6).round() / 1e3,
            Unit::Pound => grams(value),
            Unit::Ounce => grams(value / 16.0),
        };
        found.push(PrintedMass { grams, start: number.start, end });
    }
    found
}

/// The weight that a text is, with its unit and nothing else.
///
/// # Examples
/// ```
/// use spandrel::units::typed_mass;
/// assert_eq!(typed_mass("2.68 kg"), Some(2680.0));
/// assert_eq!(typed_mass("5 lb 14 oz"), Some(2664.9));
/// assert_eq!(typed_mass("2.68"), None);
/// ```
#[must_use]
pub fn typed_mass(text: &str) -> Option<f64> {
    match printed_masses(text.trim()).as_slice() {
        [only] if only.start == 0 && only.end == text.trim().len() => Some(only.grams),
        _ => None,
    }
}

fn grams(pounds: f64) -> f64 {
    System::Imperial.from_field(Quantity::Mass, pounds)
}

fn value(number: &PrintedNumber, unit: Unit) -> Option<f64> {
    let read = |text: &Option<String>| text.as_ref().and_then(|t| t.parse::<f64>().ok());
    let (decimals, thousands) = (read(&number.with_decimals), read(&number.with_thousands));
    match unit {
        Unit::Gram => decimals.filter(|g| *g >= LIGHTEST_GRAMS || thousands.is_none()).or(thousands),
        _ => decimals.or(thousands),
    }
}

/// The unit that follows, and the place behind it.
fn unit_after(text: &str, at: usize) -> Option<(Unit, usize)> {
    let rest = text.get(at..)?;
    let blanks = rest.len() - rest.trim_start().len();
    let rest = rest.trim_start();
    let length = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
    let word = rest.get(..length)?;
    let unit = match word.to_lowercase().as_str() {
        "g" | "gr" | "gram" | "grams" | "gramm" | "gramme" | "grammes" | "gramo" | "gramos" | "grammo" | "grammi" => Unit::Gram,
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" | "kilogramm" | "kilogrammes" | "kilogramos" | "chili" => {
            Unit::Kilogram
        }
        "lb" | "lbs" | "pound" | "pounds" | "libras" | "libbre" => Unit::Pound,
        "oz" | "ounce" | "ounces" => Unit::Ounce,
        _ => return None,
    };
    let end = at + blanks + length;
    Some((unit, if text.get(end..).is_some_and(|t| t.starts_with('.')) { end + 1 } else { end }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_read_as_pages_print_them() {
        for (text, grams) in [
            ("2.68 kg", 2680.0),
            ("2,68 kg", 2680.0),
            ("2.350 kg", 2350.0),
            ("2,350 g", 2350.0),
            ("2.350 g", 2350.0),
            ("2 350 g", 2350.0),
            ("985g", 985.0),
            ("5.9 lb", 2676.2),
            ("5 lb 14 oz", 2664.9),
            ("5lbs. 14oz.", 2664.9),
            ("5 lb, 14 oz", 2664.9),
            ("83 oz", 2353.0),
            ("2350 Gramm", 2350.0),
        ] {
            assert_eq!(typed_mass(text), Some(grams), "{text}");
        }
        for text in ["2.68", "2.68 kg frame", "kg", "2..6 kg", "", "5 lb 14", "about 2 kg"] {
            assert_eq!(typed_mass(text), None, "{text}");
        }
    }

    #[test]
    fn every_weight_of_a_text_is_found() {
        let grams: Vec<f64> = printed_masses("S: 2.1 kg / M: 2.2 kg, fork 985 g (5 lb 3 oz)").iter().map(|m| m.grams).collect();
        assert_eq!(grams, [2100.0, 2200.0, 985.0, 2353.0]);
        assert_eq!(printed_masses("27.2 mm, 3 bolts"), []);
    }
}
