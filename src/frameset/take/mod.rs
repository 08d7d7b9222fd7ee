//! Taking in a geometry table: a text that was pasted, a CSV or XLSX file, in English, German, French, Spanish, Italian
//! or Dutch, whichever way round it lies. What comes out is a [`Reading`] for review: each row with the figure it is taken
//! as, its unit and its values, questions where two readings are possible, and everything else kept as a note. From it a
//! frameset is made.
//!
//! No disk, no screen, no arithmetic on figures: only units are converted.
//!
//! Invariant: nothing of the table is dropped silently and nothing is guessed silently; every value that becomes a
//! figure passed [`check_figure`](super::check_figure).
//!
//! # Examples
//! ```
//! use spandrel::frameset::take;
//! let reading = take::read_text("Size\tS\tM\nStack\t580\t600\nReach\t390\t400\nHead angle\t71,5°\t72°")?;
//! let frameset = reading.to_frameset("Marrowby", "Drift")?;
//! assert_eq!(frameset.sizes.len(), 2);
//! # Ok::<(), take::TakeError>(())
//! ```

mod cell_values;
mod figures;
mod fold;
mod grid;
mod meaning;
mod names;
mod numeral;
mod question;
mod reading;
mod refit;
mod report;
mod settle;
mod size_label;
mod size_order;
mod skeleton;
mod steps;
mod text;
mod to_frameset;
mod typed;
mod tyres;
mod understand;
mod unit;
mod workbook;

pub use grid::Separator;
pub use names::{Language, SURE, WORTH_ASKING};
pub use numeral::DecimalMark;
pub use question::{Question, Subject};
pub use reading::{CellReading, Orientation, Reading, RowReading, SizeReading};
pub use report::report;
pub use text::{read_bytes, read_text};
pub use typed::typed;
pub use unit::Unit;

/// The most columns that are read: no frame comes in two hundred sizes, and no maker prints so many figures.
pub const MAX_COLUMNS: usize = 200;
/// The most rows that are read.
pub const MAX_ROWS: usize = 1000;

/// Why a table was not taken, in a sentence that says what to do.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TakeError {
    /// Nothing but blanks.
    #[error("there is nothing here: copy the whole geometry table, with the names of its figures and sizes, and paste it again")]
    Empty,
    /// More than is read of a table.
    #[error("this is larger than {}, the limit for a geometry table: copy only the table", super::FileKind::Table.limit())]
    TooLarge,
    /// Bytes that are no text.
    #[error("this is neither text nor an XLSX spreadsheet: copy the table as text, or save it as XLSX or CSV")]
    Binary,
    /// No cells.
    #[error(
        "no table was found: there are no columns apart by tabs, semicolons, commas, bars or blanks, and no figures one below the other; copy the table with its columns"
    )]
    NotATable,
    /// Cells, and no name of a figure.
    #[error(
        "no row or column is named as a figure of a frame (stack, reach, head angle …): copy the table together with the names of its rows"
    )]
    NoFigures,
    /// Too many columns.
    #[error("the table has {0} columns and at most 200 are read: copy only the geometry table")]
    TooWide(usize),
    /// Too many rows.
    #[error("the table has {0} rows and at most 1000 are read: copy only the geometry table")]
    TooLong(usize),
    /// A spreadsheet file that cannot be read.
    #[error("the spreadsheet could not be read ({0}): save it again as XLSX, or as CSV")]
    Workbook(String),
    /// Questions without an answer.
    #[error("answer first: {}", .0.join(" "))]
    Open(Vec<String>),
    /// Nothing to make a frameset of.
    #[error("no figure of any size was taken: say for at least one row which figure it is")]
    NothingTaken,
    /// Two sizes of one label.
    #[error("two sizes are called {0}: give each its own name")]
    SameLabel(String),
    /// A frameset that would be refused when read again.
    #[error("{0}")]
    Refused(String),
}
