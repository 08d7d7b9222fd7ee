//! A row on its way to a figure: its cells as they may be read, and what was taken of them.

use super::cell_error::CellError;
use super::numeral::{Cell, Fineness};
use super::reading::RowReading;
use super::unit::Unit;
use crate::frameset::{Figure, check_figure};

/// A row's cells under a decimal point and under a decimal comma.
pub(super) type BothWays = Vec<[Cell; 2]>;

/// A number as it was printed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Printed {
    pub(super) fineness: Fineness,
    /// In its unit.
    pub(super) value: f64,
    pub(super) unit: Unit,
}

/// A row under way: what is shown of it, and what later steps need.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub(super) reading: RowReading,
    /// Fineness of each cell that was taken, in its own unit, with that unit's factor.
    pub(super) fineness: Vec<Option<Printed>>,
}

/// A length or angle in the file's unit, free of the noise of binary fractions, if the figure can have it.
pub(super) fn checked(figure: Figure, value: f64, unit: Unit) -> Result<f64, CellError> {
    if figure.is_angle() != unit.is_angle() {
        return Err(CellError::OtherUnit { figure, unit });
    }
    let value = (value * unit.factor() * 1e4).round() / 1e4;
    let of_unit = |why| if unit.factor() == 1.0 { CellError::Value(why) } else { CellError::ReadAs { unit, why } };
    check_figure(figure, value).map(|()| value).map_err(of_unit)
}
