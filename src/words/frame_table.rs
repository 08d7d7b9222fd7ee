//! The table of a page that can be sorted: frames down, a sheet's figures across, each with its difference from the
//! reference below it.

use rust_decimal::prelude::ToPrimitive;

use super::comparison_table;
use super::small_table::{SmallCell, chosen_rows, currency, price_cell, row_label, row_unit, small_cell};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup, Sheet};

/// The table.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameTable {
    /// Names and units of the figures across.
    pub heads: Vec<(String, String)>,
    /// One a frame that is shown.
    pub rows: Vec<FrameRow>,
}

/// A frame's row.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameRow {
    /// The frame's place.
    pub frame: FrameIndex,
    /// One a head.
    pub cells: Vec<FrameCell>,
}

/// A figure of a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameCell {
    /// What it says.
    pub own: SmallCell,
    /// By how much it differs from the reference's; `None` for the reference itself.
    pub difference: Option<SmallCell>,
    /// The number to sort by, in the file's unit or the common currency; `None` sorts last.
    pub number: Option<f64>,
}

/// The table of a sheet's figures, bag space, weight and price.
#[must_use]
pub fn frame_table(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> FrameTable {
    let units = lineup.settings.units;
    let full = comparison_table(findings, units);
    let chosen = chosen_rows(&full, sheet);
    let currency = currency(findings, &full.columns);
    let mut heads: Vec<(String, String)> = chosen.iter().map(|r| (row_label(r).to_owned(), row_unit(r).to_owned())).collect();
    heads.extend(currency.map(|code| ("Price".to_owned(), code.to_owned())));
    let column = |frame: FrameIndex, is_difference: bool| {
        full.columns.iter().position(|c| c.frame == frame && c.is_difference == is_difference)
    };
    let row = |frame: FrameIndex| {
        let (own, difference) = (column(frame, false)?, column(frame, true));
        let figure = |row: &&crate::words::TableRow| FrameCell {
            own: small_cell(units, row, own, false),
            difference: difference.map(|d| small_cell(units, row, d, true)),
            number: row.cells[own].value,
        };
        let mut cells: Vec<FrameCell> = chosen.iter().map(figure).collect();
        cells.extend(currency.map(|_| FrameCell {
            own: price_cell(findings, &full.columns[own]),
            difference: difference.map(|d| price_cell(findings, &full.columns[d])),
            number: frame.of(&findings.price_and_climb).and_then(|w| w.offer.set.as_ref().ok()?.money.amount.to_f64()),
        }));
        Some(FrameRow { frame, cells })
    };
    let rows = FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown).filter_map(row).collect();
    FrameTable { heads, rows }
}

#[cfg(test)]
mod tests {
    use super::super::small_table;
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn it_says_what_the_small_table_says() {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let (findings, sheet) = (Findings::of(&lineup), Sheet::default());
        let table = frame_table(&lineup, &findings, &sheet);
        let small = small_table(&lineup, &findings, &sheet);
        assert_eq!(table.heads.len(), small.rows.len());
        assert_eq!(table.rows.len(), lineup.frames.iter().filter(|f| f.shown).count());
        for row in &table.rows {
            for (cell, small_row) in row.cells.iter().zip(&small.rows) {
                for ((_, frame), small_cell) in small.columns.iter().zip(&small_row.cells).filter(|((_, f), _)| *f == row.frame) {
                    let is_reference = findings.reference == Some(*frame);
                    assert_eq!(if is_reference { Some(&cell.own) } else { cell.difference.as_ref() }, Some(small_cell));
                }
                assert_eq!(cell.difference.is_none(), findings.reference == Some(row.frame));
            }
        }
        let prices: Vec<f64> = table.rows.iter().filter_map(|r| r.cells.last()?.number).collect();
        assert!(prices.contains(&585.0) && prices.contains(&719.0), "{prices:?}");
    }
}
