//! The small table of a sheet: the reference's figures and how the others differ, or, of two frames, both and their
//! difference. The full table is `table.rs`; this one says the same of fewer figures in fewer columns.

use super::{Column, Mark, Subject, Table, TableRow, comparison_table};
use crate::frameset::{Figure, FrameIndex, Part};
use crate::lineup::{BagSpaceFigure, Findings, Lineup, Sheet};
use crate::units::{Mass, Measured, Quantity, System};

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SmallCell {
    /// What it says.
    pub text: String,
    /// Whether it is grey: a difference within its ±, or nothing to show.
    pub is_grey: bool,
}

/// A row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SmallRow {
    /// The figure's name.
    pub label: String,
    /// Its unit; empty for angles, whose sign stands in the cells.
    pub unit: String,
    /// One a column.
    pub cells: Vec<SmallCell>,
}

/// The table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SmallTable {
    /// Heads of the columns, `A` or `B − A`, each with its frame's place.
    pub columns: Vec<(String, FrameIndex)>,
    /// The rows, the most important first.
    pub rows: Vec<SmallRow>,
}

/// The small table of a sheet: its figures, then bag space, weight and price where any frame has one.
#[must_use]
pub fn small_table(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> SmallTable {
    let full = comparison_table(findings, lineup.settings.units);
    let frames = full.columns.iter().filter(|c| !c.is_difference).count();
    // Of two frames both stand there; of more, the reference and the differences.
    let chosen: Vec<usize> = (0..full.columns.len())
        .filter(|i| full.columns[*i].is_difference || frames <= 2 || findings.reference == Some(full.columns[*i].frame))
        .collect();
    // The reference first, as all differences are from it.
    let mut chosen = chosen;
    chosen.sort_by_key(|i| (full.columns[*i].is_difference, findings.reference != Some(full.columns[*i].frame), *i));
    let head = |i: &usize| {
        let column = &full.columns[*i];
        let letter = || column.frame.of(&findings.frames).map(|f| f.letter.clone()).unwrap_or_default();
        (if column.is_difference { column.title.clone() } else { letter() }, column.frame)
    };
    let units = lineup.settings.units;
    let mut rows: Vec<SmallRow> = chosen_rows(&full, sheet)
        .into_iter()
        .map(|row| SmallRow {
            label: row_label(row).to_owned(),
            unit: row_unit(row).to_owned(),
            cells: chosen.iter().map(|i| small_cell(units, row, *i, full.columns[*i].is_difference)).collect(),
        })
        .collect();
    if let Some(currency) = currency(findings, &full.columns) {
        let cells = chosen.iter().map(|i| price_cell(findings, &full.columns[*i])).collect();
        rows.push(SmallRow { label: "Price".to_owned(), unit: currency.to_owned(), cells });
    }
    SmallTable { columns: chosen.iter().map(head).collect(), rows }
}

/// The rows of a sheet's tables: its figures, then bag space and weight where any frame has one.
pub(super) fn chosen_rows<'t>(full: &'t Table, sheet: &Sheet) -> Vec<&'t TableRow> {
    let more = [Subject::BagSpace(BagSpaceFigure::Area), Subject::Weight(Part::Frameset)];
    let subjects = sheet.figures.iter().map(|f| Subject::Figure(*f)).chain(more);
    let rows = subjects.filter_map(|subject| full.rows.iter().find(|r| r.subject == subject));
    rows.filter(|r| matches!(r.subject, Subject::Figure(_)) || r.cells.iter().any(|c| c.value.is_some())).collect()
}

/// A row's name in few letters.
pub(super) const fn row_label(row: &TableRow) -> &'static str {
    match row.subject {
        Subject::Figure(Figure::SeatAngle) => "Seat angle",
        Subject::Weight(_) => "Weight",
        Subject::Figure(_) | Subject::BagSpace(_) => row.label,
    }
}

/// Its unit; empty for angles, whose sign stands in the cells.
pub(super) const fn row_unit(row: &TableRow) -> &'static str {
    if is_angle(row) { "" } else { row.unit }
}

/// Whether its cells carry the degree sign.
const fn is_angle(row: &TableRow) -> bool {
    matches!(row.subject.quantity(), Quantity::Angle)
}

/// A cell of a row as it stands in a sheet's tables.
pub(super) fn small_cell(units: System, row: &TableRow, column: usize, is_difference: bool) -> SmallCell {
    let Some(cell) = row.cells.get(column) else { return SmallCell::none() };
    let text = match (cell.mark, cell.value, row.subject) {
        (Mark::Absent, ..) => return SmallCell::none(),
        // A weight stands with its ± here, as every figure does.
        (_, Some(grams), Subject::Weight(_)) if !is_difference => {
            Measured::<Mass>::new(grams, cell.u.unwrap_or(0.0)).number(units)
        }
        _ => cell.text.clone(),
    };
    let text = if is_angle(row) && cell.value.is_some() { units.with_unit(Quantity::Angle, &text) } else { text };
    SmallCell { text: text + cell.mark.behind(), is_grey: cell.mark.is_grey() }
}

/// The common currency's code, where any frame of the columns has a price on the common footing.
pub(super) fn currency(findings: &Findings, columns: &[Column]) -> Option<&'static str> {
    columns.iter().find_map(|c| Some(c.frame.of(&findings.price_and_climb)?.offer.set.as_ref().ok()?.money.currency.code()))
}

/// A column's price. A price has no ±.
pub(super) fn price_cell(findings: &Findings, column: &Column) -> SmallCell {
    let Some(worth) = column.frame.of(&findings.price_and_climb) else { return SmallCell::none() };
    let money = if column.is_difference {
        worth.against.as_ref().and_then(|a| a.price)
    } else {
        worth.offer.set.as_ref().ok().map(|c| c.money)
    };
    let Some(money) = money else { return SmallCell::none() };
    let sign = if column.is_difference && money.amount.is_sign_positive() && !money.amount.is_zero() { "+" } else { "" };
    SmallCell { text: format!("{sign}{}", money.digits()), is_grey: false }
}

impl SmallCell {
    /// Nothing to show.
    fn none() -> Self {
        Self { text: "–".to_owned(), is_grey: true }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn two_frames_stand_side_by_side_and_more_against_the_reference() {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let heads = |lineup: &Lineup| -> Vec<String> {
            small_table(lineup, &Findings::of(lineup), &Sheet::default()).columns.into_iter().map(|c| c.0).collect()
        };
        for (place, frame) in lineup.frames.iter_mut().enumerate() {
            frame.shown = [0, 1, 3].contains(&place);
        }
        assert_eq!(heads(&lineup), ["A", "B − A", "D − A"]);
        lineup.reference = FrameIndex(1);
        assert_eq!(heads(&lineup), ["B", "A − B", "D − B"]);
        lineup.frames[3].shown = false;
        assert_eq!(heads(&lineup), ["B", "A", "A − B"]);
        let table = small_table(&lineup, &Findings::of(&lineup), &Sheet::default());
        let price = table.rows.last().unwrap();
        let texts: Vec<&str> = price.cells.iter().map(|c| c.text.as_str()).collect();
        assert_eq!((price.unit.as_str(), texts), ("EUR", vec!["719.00", "585.00", "−134.00"]));
        assert!(table.rows.iter().all(|r| r.cells.len() == 3));
        let labels: Vec<&str> = table.rows.iter().map(|r| r.label.as_str()).collect();
        assert!(labels.contains(&"Bag space") && labels.contains(&"Weight"), "{labels:?}");
        // Angles carry their sign in the cells, other figures their unit beside the label.
        for row in &table.rows {
            assert_eq!(row.unit.is_empty(), row.cells.iter().any(|c| c.text.ends_with('°')), "{}", row.label);
        }
    }
}
