//! Why a cell of a table, or a value typed for a figure, is not taken.

use super::unit::Unit;
use crate::frameset::{Figure, TyreError, ValueError, check_figure};
use crate::units::{System, as_typed, fixed};

/// Why one cell is not taken, or one typed value is refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CellError {
    /// An angle in a unit of length, or a length in a unit of angle.
    #[error("{} is {}, but this is in {}", figure.label(), if figure.is_angle() { "an angle" } else { "a length" }, unit.label())]
    OtherUnit {
        /// Figure that the cell is read as.
        figure: Figure,
        /// The unit of the cell.
        unit: Unit,
    },
    /// A typed length or angle in a unit of the other kind.
    #[error("{} is not measured in {}", figure.label(), unit.label())]
    NotMeasuredIn {
        /// Figure that the cell is read as.
        figure: Figure,
        /// The unit as typed.
        unit: Unit,
    },
    /// A value that the figure cannot have.
    #[error("{0}")]
    Value(#[from] ValueError),
    /// A value that the figure cannot have when it is read in this unit.
    #[error("read as {}: {why}", unit.plural())]
    ReadAs {
        /// Unit that the cell is read in.
        unit: Unit,
        /// Why the figure cannot have the value.
        why: ValueError,
    },
    /// Two values in the cell of one size.
    #[error("two values for one size")]
    TwoValues,
    /// Words in place of a number.
    #[error("not a number")]
    NotANumber,
    /// Two numbers in place of one.
    #[error("Enter one number, not two.")]
    TwoNumbers,
    /// Words typed in place of a number.
    #[error("Enter a number, for example {}, or leave it empty.", example(*figure, *units))]
    NoNumber {
        /// Figure that the value is of.
        figure: Figure,
        /// Units that are shown.
        units: System,
    },
    /// Inches that the figure cannot have.
    #[error("{}", outside_in_inches(*figure, *inches))]
    OutsideInInches {
        /// Figure that the value is of.
        figure: Figure,
        /// The value as typed, in.
        inches: f64,
    },
    /// A text that is not a tyre.
    #[error("“{0}” names no tyre of ISO 5775 such as 47-622: kept as a note")]
    NotATyre(String),
    /// A tyre of which the rim or the width is open.
    #[error("“{0}” leaves the rim or the width open: kept as a note; enter the tyre as 47-622")]
    AmbiguousTyre(String),
    /// A tyre that is not made.
    #[error("{0}")]
    Tyre(#[from] TyreError),
}

/// A value as it may be typed for a figure.
const fn example(figure: Figure, units: System) -> &'static str {
    match (figure.is_angle(), units) {
        (true, _) => "71.5",
        (false, System::Metric) => "445",
        (false, System::Imperial) => "17.5",
    }
}

/// Why so many inches cannot be a figure, and how the millimetres that may have been meant are written.
fn outside_in_inches(figure: Figure, inches: f64) -> String {
    let about = figure.about();
    let shown = |mm: f64| fixed(mm / Unit::Inch.factor(), 2);
    let (typed, low, high) = (as_typed(inches), shown(about.low), shown(about.high));
    let mut sentence = format!("{} {typed} in is outside {low} to {high} in", about.name);
    if check_figure(figure, inches).is_ok() {
        sentence.push_str(&format!(": for millimetres, write {typed} mm"));
    }
    sentence
}
