//! One value typed in a field: with a unit or without, with a decimal comma or point.

use super::numeral::{Cell, DecimalMark, read};
use crate::frameset::{Figure, check_figure};

/// Reads what was typed for `figure`: `445`, `44,5 cm`, `28 5/8"`, `71,5°`. Blank takes the figure out. Of the readings
/// with a decimal point and with a decimal comma the one counts that can be the figure at all; a number without a unit
/// is in millimetres or degrees.
///
/// # Errors
/// A sentence that says what to write.
///
/// # Examples
/// ```
/// use spandrel::frameset::{Figure, import};
/// assert_eq!(import::typed(Figure::Chainstay, "44,5 cm"), Ok(Some(445.0)));
/// assert_eq!(import::typed(Figure::HeadAngle, "71,5°"), Ok(Some(71.5)));
/// assert_eq!(import::typed(Figure::Stack, " "), Ok(None));
/// assert!(import::typed(Figure::Stack, "0.61").is_err());
/// ```
pub fn typed(figure: Figure, text: &str) -> Result<Option<f64>, String> {
    let mut refusal = None;
    for mark in DecimalMark::BOTH {
        let number = match read(text, mark) {
            Cell::Blank => return Ok(None),
            Cell::Number(number) => number,
            Cell::Range(..) => return Err("Enter one number, not two.".to_owned()),
            Cell::NotStated | Cell::Words => continue,
        };
        if let Some(unit) = number.unit.filter(|u| u.is_angle() != figure.is_angle()) {
            return Err(format!("{} is not measured in {}", figure.label(), unit.label()));
        }
        // A typed length in other units is rounded to a hundredth of a millimetre: no more was meant.
        let value = number.value * number.unit.map_or(1.0, super::Unit::factor);
        let value = (value * 100.0).round() / 100.0;
        match check_figure(figure, value) {
            Ok(()) => return Ok(Some(value)),
            Err(sentence) => refusal = refusal.or(Some(sentence)),
        }
    }
    Err(refusal.unwrap_or_else(|| {
        let example = if figure.is_angle() { "71.5" } else { "445" };
        format!("Enter a number, for example {example}, or leave it empty.")
    }))
}
