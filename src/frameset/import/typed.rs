//! One value typed in a field: with a unit or without, with a decimal comma or point.

use super::Unit;
use super::cell_error::CellError;
use super::numeral::{Cell, DecimalMark, read};
use crate::frameset::{Figure, check_figure};
use crate::units::System;

/// Reads what was typed for `figure`: `445`, `44,5 cm`, `28 5/8"`, `71,5°`. Blank takes the figure out. Of the readings
/// with a decimal point and with a decimal comma the one counts that can be the figure at all; a number without a unit
/// is in degrees, or in the millimetres or inches of `units`.
///
/// # Errors
/// Words, two numbers, a unit of another kind, or a value that the figure cannot have.
///
/// # Examples
/// ```
/// use spandrel::frameset::{Figure, import};
/// use spandrel::units::System::{Imperial, Metric};
/// assert_eq!(import::typed(Figure::Chainstay, "44,5 cm", Metric), Ok(Some(445.0)));
/// assert_eq!(import::typed(Figure::Chainstay, "17.5", Imperial), Ok(Some(444.5)));
/// assert_eq!(import::typed(Figure::HeadAngle, "71,5°", Metric), Ok(Some(71.5)));
/// assert_eq!(import::typed(Figure::Stack, " ", Metric), Ok(None));
/// assert!(import::typed(Figure::Stack, "0.61", Metric).is_err());
/// ```
pub fn typed(figure: Figure, text: &str, units: System) -> Result<Option<f64>, CellError> {
    let mut refusal = None;
    for mark in DecimalMark::BOTH {
        let number = match read(text, mark) {
            Cell::Blank => return Ok(None),
            Cell::Number(number) => number,
            Cell::Range(..) => return Err(CellError::TwoNumbers),
            Cell::NotStated | Cell::Words => continue,
        };
        if let Some(unit) = number.unit.filter(|u| u.is_angle() != figure.is_angle()) {
            return Err(CellError::NotMeasuredIn { figure, unit });
        }
        // A typed length in other units is rounded to a hundredth of a millimetre: no more was meant.
        let unsaid = if units == System::Imperial && !figure.is_angle() { Unit::Inch } else { Unit::Millimetre };
        let unit = number.unit.unwrap_or(unsaid);
        let value = (number.value * unit.factor() * 100.0).round() / 100.0;
        match check_figure(figure, value) {
            Ok(()) => return Ok(Some(value)),
            Err(_) if unsaid == Unit::Inch && unit == Unit::Inch => {
                refusal = refusal.or(Some(CellError::OutsideInInches { figure, inches: number.value }));
            }
            Err(why) => refusal = refusal.or(Some(CellError::Value(why))),
        }
    }
    Err(refusal.unwrap_or(CellError::NoNumber { figure, units }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_unit_a_length_is_in_the_units_chosen() {
        let inches = |text| typed(Figure::Stack, text, System::Imperial);
        assert_eq!(inches("24.134"), Ok(Some(613.0)));
        assert_eq!(inches("24,134"), Ok(Some(613.0)));
        assert_eq!(inches("24 3/16"), Ok(Some(614.36)));
        assert_eq!(inches("613 mm"), Ok(Some(613.0)));
        assert_eq!(inches("61,3 cm"), Ok(Some(613.0)));
        assert_eq!(typed(Figure::HeadAngle, "71.5", System::Imperial), Ok(Some(71.5)));
        assert_eq!(typed(Figure::Stack, "613", System::Metric), Ok(Some(613.0)));
    }

    #[test]
    fn a_refusal_speaks_in_the_units_typed() {
        let refusal = |text| typed(Figure::Stack, text, System::Imperial).unwrap_err().to_string();
        assert_eq!(refusal("613"), "Stack 613 in is outside 11.81 to 35.43 in: for millimetres, write 613 mm");
        assert_eq!(refusal("2"), "Stack 2 in is outside 11.81 to 35.43 in");
        assert!(refusal("61 mm").contains("300 to 900 mm"), "{}", refusal("61 mm"));
        assert!(refusal("long").contains("17.5"));
    }

    /// What a field shows is read back as the value that it shows.
    #[test]
    fn a_length_comes_back_exactly() {
        for mm in [712.0, 1071.0, 1044.5, 998.25, 998.26] {
            for units in [System::Metric, System::Imperial] {
                let shown = units.in_field(Figure::Wheelbase.quantity(), mm);
                assert_eq!(typed(Figure::Wheelbase, &shown, units), Ok(Some(mm)), "{shown}");
            }
        }
    }
}
