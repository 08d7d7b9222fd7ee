//! What was understood of a table, row by row, for review: what was read, as which figure, in which unit, what is asked
//! and what is kept as a note. Every change by the user is kept as an answer and the table is read anew from its text.
//!
//! Invariant: a figure's value here passed [`check_figure`](crate::frameset::check_figure); every text of the table is
//! in a row, a size, a line or a unit.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::grid::{Grid, Separator};
use super::names::Language;
use super::numeral::DecimalMark;
use super::question::{Question, Subject};
use super::specification::{SpecificationField, SpecificationLine, SpecificationRow};
use super::unit::Unit;
use crate::frameset::{Figure, RoundedTo, TyreSize};

/// Which way round a table lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Orientation {
    /// A row for each figure, a column for each size.
    FiguresDown,
    /// A column for each figure, a row for each size.
    SizesDown,
}

/// A table understood. See the module.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What stood between the cells.
    pub separator: Separator,
    /// Which way round it lay.
    pub orientation: Orientation,
    /// Decimal point or comma, where the table shows which.
    pub decimal_mark: Option<DecimalMark>,
    /// The unit of lengths that say none themselves, where there are any.
    pub length_unit: Option<Unit>,
    /// Languages of the labels, the most frequent first.
    pub languages: Vec<Language>,
    /// The sizes, smallest first.
    pub sizes: Vec<SizeReading>,
    /// The rows (columns, where sizes go down) in the table's order.
    pub rows: Vec<RowReading>,
    /// Lines of a specification list, in the text's order.
    pub specification: Vec<SpecificationRow>,
    /// Titles, headings and footnotes.
    pub lines: Vec<String>,
    /// To which step lengths and angles are printed.
    pub rounded_to: RoundedTo,
    /// Figures printed to another step, mm or degrees.
    pub steps: BTreeMap<Figure, f64>,
    /// The tyre that the table names, when it is one for all sizes.
    pub tyre: Option<TyreSize>,
    /// The front tyre, where it has a row of its own.
    pub front_tyre: Option<TyreSize>,
    /// What is asked.
    pub questions: Vec<Question>,
    /// What was decided about the table as a whole, in sentences.
    pub remarks: Vec<String>,
    pub(super) source: Arc<Source>,
    pub(super) answers: Answers,
}

/// A size of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeReading {
    /// Its label, from the table or from the user.
    pub label: String,
    /// Its place in the table, from 0: the key of [`Reading::name_size`].
    pub column: usize,
    /// Whether the user leaves it out.
    pub left_out: bool,
}

/// Sizes as the table has them, before their order.
pub(super) fn size_reading(column: usize, label: String, answers: &Answers) -> SizeReading {
    SizeReading { label, column, left_out: answers.left_out.get(&column).copied().unwrap_or(false) }
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct RowReading {
    /// Its number, the key of [`Reading::assign`].
    pub line: usize,
    /// Its label as printed.
    pub label: String,
    /// The figure that it is taken as and the likeness of its label to that figure's name, 0 to 1 (1 also where the
    /// user assigned it).
    pub figure: Option<(Figure, f64)>,
    /// The unit of its numbers.
    pub unit: Option<Unit>,
    /// Its cells, one for each of [`Reading::sizes`].
    pub cells: Vec<CellReading>,
    /// Whether the whole row goes into the frameset's note.
    pub kept_as_note: bool,
    /// The step it is printed to, mm or degrees, where it is a figure.
    pub step: Option<f64>,
    /// What was decided about it, in sentences.
    pub remarks: Vec<String>,
}

/// A cell of a row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CellReading {
    /// As printed.
    pub text: String,
    /// The value, mm or degrees, where it was taken.
    pub value: Option<f64>,
    /// Why it was not, in a sentence; a cell with a problem is kept as a note.
    pub problem: Option<String>,
}

/// The text in all the ways that it can be cut.
#[derive(Debug, PartialEq)]
pub(super) struct Source {
    pub(super) layouts: Vec<Layout>,
    /// Lines of a specification list, cut out of the text.
    pub(super) specification: Vec<SpecificationLine>,
    /// What is left of the text beside them: notes, where there is no table.
    pub(super) other_lines: Vec<String>,
    pub(super) remarks: Vec<String>,
}

/// One way to cut the text and to lay the table.
#[derive(Debug, PartialEq)]
pub(super) struct Layout {
    pub(super) separator: Separator,
    pub(super) orientation: Orientation,
    /// The sheet's name, of a spreadsheet with several.
    pub(super) sheet: Option<String>,
    /// The cells as the text has them, not turned.
    pub(super) grid: Grid,
}

/// What the user decided.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Answers {
    pub(super) chosen: BTreeMap<Subject, usize>,
    pub(super) assigned: BTreeMap<usize, Option<Figure>>,
    pub(super) units: BTreeMap<usize, Unit>,
    pub(super) labels: BTreeMap<usize, String>,
    pub(super) left_out: BTreeMap<usize, bool>,
    pub(super) rounded_to: Option<RoundedTo>,
    pub(super) steps: BTreeMap<Figure, f64>,
    pub(super) tyre: Stated,
    pub(super) specification: BTreeMap<usize, Option<SpecificationField>>,
}

/// The tyre as the user states it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) enum Stated {
    /// The table's, if it names one.
    #[default]
    ByTable,
    /// This one, or that none is stated.
    ByUser(Option<TyreSize>),
}

impl Reading {
    /// The questions that must be answered before there can be a frameset.
    pub fn open_questions(&self) -> impl Iterator<Item = &Question> {
        self.questions.iter().filter(|q| q.is_open())
    }

    /// How many values were taken.
    #[must_use]
    pub fn taken(&self) -> usize {
        self.rows.iter().flat_map(|r| &r.cells).filter(|c| c.value.is_some()).count()
    }

    /// All that goes into the frameset's note: lines, rows that are no figure, cells that could not be taken.
    #[must_use]
    pub fn notes(&self) -> Vec<String> {
        let mut notes = self.lines.clone();
        for row in &self.rows {
            let whole = row.kept_as_note;
            let cells: Vec<String> = row
                .cells
                .iter()
                .zip(&self.sizes)
                .filter(|(cell, _)| !cell.text.is_empty() && (whole || cell.problem.is_some()))
                .map(|(cell, size)| format!("{} {}", size.label, cell.text))
                .collect();
            if !cells.is_empty() {
                notes.push(format!(
                    "{}: {}",
                    if row.label.is_empty() { "(no label)" } else { &row.label },
                    together(row, &cells)
                ));
            }
        }
        for row in self.specification.iter().filter(|row| row.kept_as_note) {
            notes.push(format!("{}: {}", row.label, row.text));
        }
        notes
    }
}

/// The cells of a note; one text where all sizes say the same.
fn together(row: &RowReading, cells: &[String]) -> String {
    let mut texts = row.cells.iter().map(|c| &c.text);
    let first = texts.next();
    if row.kept_as_note && row.cells.len() > 1 && texts.all(|t| Some(t) == first) {
        return first.cloned().unwrap_or_default();
    }
    cells.join("; ")
}
