//! The table of figures: figures down, frames across, each frame but the reference with its difference and its ±.
//!
//! The window, the exports and the clipboard all show this one table, so wording and grey are the same everywhere.

use crate::frameset::{Figure, FrameIndex, Part};
use crate::geometry::{AdjustedSize, Origin};
use crate::lineup::{BagSpaceFigure, Findings, FrameFindings};
use crate::units::{Measured, Quantity, System};

/// What a cell says of a figure that too few others determine.
pub const UNKNOWN: &str = "unknown";
/// What a cell says where a maker publishes nothing.
pub const NOT_PUBLISHED: &str = "not published";

/// A table, ready to be shown or written.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Across.
    pub columns: Vec<Column>,
    /// Down.
    pub rows: Vec<TableRow>,
}

/// A column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Place of its frame in the line-up.
    pub frame: FrameIndex,
    /// "A Marrowby Drift L", or "B − A".
    pub title: String,
    /// Whether it holds differences from the reference.
    pub is_difference: bool,
}

/// A row.
#[derive(Clone, Debug, PartialEq)]
pub struct TableRow {
    /// What it is of.
    pub subject: Subject,
    /// Name of the figure.
    pub label: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// One a column.
    pub cells: Vec<Cell>,
}

/// What a row is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A figure of the shape.
    Figure(Figure),
    /// A part's weight.
    Weight(Part),
    /// A figure of the room inside the main triangle.
    BagSpace(BagSpaceFigure),
}

impl Subject {
    /// What its numbers measure.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Figure(figure) => figure.quantity(),
            Self::Weight(_) => Quantity::Mass,
            Self::BagSpace(figure) => figure.quantity(),
        }
    }
}

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// What it says.
    pub text: String,
    /// The number behind it in the file's unit, where there is one.
    pub value: Option<f64>,
    /// Its standard uncertainty.
    pub u: Option<f64>,
    /// What kind of cell.
    pub mark: Mark,
}

/// What a cell's looks tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A value that the maker published and the others agree with.
    Published,
    /// A value that follows from others.
    Computed,
    /// A value that is partly assumed, or an assumption.
    PartlyAssumed,
    /// A published value that the others disagree with.
    Doubtful,
    /// A difference larger than its ±.
    ClearDifference,
    /// A difference within its ±: grey.
    NoClearDifference,
    /// Nothing to show: grey.
    Absent,
}

impl Mark {
    /// How a figure of a size is marked.
    #[must_use]
    pub fn of(size: &AdjustedSize, figure: Figure) -> Self {
        let value = size.value(figure);
        if value.is_missing {
            Self::Absent
        } else if size.doubt(figure).is_some() {
            Self::Doubtful
        } else if value.origin == Origin::Assumed || !value.assumed.is_empty() {
            Self::PartlyAssumed
        } else if value.origin == Origin::Published {
            Self::Published
        } else {
            Self::Computed
        }
    }

    /// Whether the cell is grey.
    #[must_use]
    pub const fn is_grey(self) -> bool {
        matches!(self, Self::NoClearDifference | Self::Absent)
    }

    /// What stands behind a figure in tables that are read without colours and signs of the window: a doubtful one has a
    /// question mark.
    #[must_use]
    pub const fn behind(self) -> &'static str {
        if matches!(self, Self::Doubtful) { " ?" } else { "" }
    }

    /// In words, for tooltips and legends.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Published => "published, and the other figures agree",
            Self::Computed => "computed from other figures",
            Self::PartlyAssumed => "partly assumed",
            Self::Doubtful => "doubtful: published, but the other figures disagree",
            Self::ClearDifference => "clear difference: larger than its ±",
            Self::NoClearDifference => "no clear difference: not larger than its ±",
            Self::Absent => "unknown or not published",
        }
    }
}

/// The comparison of all shown frames (and the reference), all figures and weights.
#[must_use]
pub fn comparison_table(findings: &Findings, units: System) -> Table {
    let columns = columns(findings);
    let row = |subject: Subject, label| TableRow {
        subject,
        label,
        unit: units.unit(subject.quantity()),
        cells: columns.iter().map(|c| cell(findings, c, subject, units)).collect(),
    };
    let mut rows: Vec<TableRow> = Figure::ALL.iter().map(|f| row(Subject::Figure(*f), f.label())).collect();
    rows.push(super::bag_space_table::row(findings, &columns, BagSpaceFigure::Area, units));
    for (part, label) in [(Part::Frame, "Weight, frame"), (Part::Fork, "Weight, fork"), (Part::Frameset, "Weight, frameset")] {
        rows.push(row(Subject::Weight(part), label));
    }
    Table { columns, rows }
}

/// The columns: each shown frame (and the reference), each but the reference followed by its difference.
pub(super) fn columns(findings: &Findings) -> Vec<Column> {
    let shown: Vec<FrameIndex> =
        FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown || findings.reference == Some(*i)).collect();
    let mut columns = Vec::new();
    for index in &shown {
        let frame = &findings.frames[*index];
        let title = format!("{} {} {}", frame.letter, frame.name, frame.size_label());
        columns.push(Column { frame: *index, title: title.trim_end().to_owned(), is_difference: false });
        if let Some(reference) = findings.reference_frame()
            && findings.reference != Some(*index)
        {
            columns.push(Column {
                frame: *index,
                title: format!("{} − {}", frame.letter, reference.letter),
                is_difference: true,
            });
        }
    }
    columns
}

fn cell(findings: &Findings, column: &Column, subject: Subject, units: System) -> Cell {
    let quantity = subject.quantity();
    let frame = &findings.frames[column.frame];
    match (subject, column.is_difference) {
        (Subject::Figure(figure), false) => figure_cell(frame, figure, units),
        (Subject::Figure(figure), true) => difference_cell(findings.difference(column.frame, figure), quantity, units),
        (Subject::Weight(part), false) => weight_cell(frame, part, units),
        (Subject::Weight(part), true) => difference_cell(findings.weight_difference(column.frame, part), quantity, units),
        (Subject::BagSpace(figure), _) => super::bag_space_table::cell(findings, column, figure, units),
    }
}

fn absent(text: &str) -> Cell {
    Cell { text: text.to_owned(), value: None, u: None, mark: Mark::Absent }
}

fn figure_cell(frame: &FrameFindings, figure: Figure, units: System) -> Cell {
    let Some(size) = frame.chosen() else { return absent(UNKNOWN) };
    let value = size.value(figure);
    if value.is_missing {
        return absent(UNKNOWN);
    }
    let mark = Mark::of(size, figure);
    let text = units.plus_minus(figure.quantity(), value.measured());
    Cell { text, value: Some(value.value), u: Some(value.u), mark }
}

fn weight_cell(frame: &FrameFindings, part: Part, units: System) -> Cell {
    let Some(weight) = frame.weights.part(part) else { return absent(NOT_PUBLISHED) };
    let factor = units.factor(Quantity::Mass);
    let decimals = match units {
        System::Metric => 0,
        System::Imperial => 2,
    };
    let text =
        if weight.mass.u > 0.0 { weight.mass.number(units) } else { crate::units::fixed(weight.mass.value * factor, decimals) };
    Cell {
        text,
        value: Some(weight.mass.value),
        u: Some(weight.mass.u),
        mark: if weight.is_estimate { Mark::PartlyAssumed } else { Mark::Published },
    }
}

fn difference_cell<K>(difference: Option<Measured<K>>, quantity: Quantity, units: System) -> Cell {
    let Some(difference) = difference else { return absent("–") };
    Cell {
        text: units.signed_plus_minus(quantity, difference),
        value: Some(difference.value),
        u: Some(difference.u),
        mark: if difference.is_clear() { Mark::ClearDifference } else { Mark::NoClearDifference },
    }
}
