//! Taking in a geometry table and a specification list: a text or page that was pasted, a CSV, XLSX or HTML file, in English, German, French, Spanish, Italian
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
//! use spandrel::frameset::import;
//! let reading = import::read_text("Size\tS\tM\nStack\t580\t600\nReach\t390\t400\nHead angle\t71,5°\t72°")?;
//! let frameset = reading.to_frameset("Marrowby", "Drift")?;
//! assert_eq!(frameset.sizes.len(), 2);
//! # Ok::<(), import::ImportError>(())
//! ```

mod cell_error;
mod cell_values;
mod corrections;
mod figures;
mod fold;
mod grid;
mod html;
mod meaning;
mod names;
mod numeral;
mod question;
mod reading;
mod refit;
mod report;
mod row;
mod settle;
mod size_label;
mod size_order;
mod skeleton;
mod specification;
mod steps;
mod text;
mod to_frameset;
mod typed;
mod tyres;
mod understand;
mod unit;
mod workbook;

pub use cell_error::CellError;
pub use grid::Separator;
pub use names::{Language, SURE, WORTH_ASKING};
pub use question::{Question, Subject};
pub use reading::{CellReading, Orientation, Reading, RowReading, SizeReading};
pub use report::{problems, report};
pub use specification::{SpecificationFact, SpecificationField, SpecificationRow};
pub use text::{read_bytes, read_copied, read_text};
pub use typed::typed;
pub use unit::Unit;

pub use crate::units::DecimalMark;

/// The most columns that are read: no frame comes in two hundred sizes, and no maker prints so many figures.
pub const MAX_COLUMNS: usize = 200;
/// The most rows that are read.
pub const MAX_ROWS: usize = 1000;

/// Why a table was not taken, in a sentence that says what to do.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ImportError {
    /// Nothing but blanks.
    #[error("The text is empty. Copy the whole geometry table with its figure names and sizes, and paste it again.")]
    Empty,
    /// More than is read of a table.
    #[error("The text is larger than {}, the limit for a geometry table. Copy only the table.", super::FileKind::Table.limit())]
    TooLarge,
    /// Bytes that are no text.
    #[error("The file is not text or an XLSX spreadsheet. Copy the table as text, or save it as XLSX or CSV.")]
    Binary,
    /// No cells.
    #[error(
        "No table was found. Columns can be separated by tabs, semicolons, commas, bars or spaces. Copy the table with its columns."
    )]
    NotATable,
    /// Cells, and no name of a figure.
    #[error("No row or column has the name of a figure, such as stack, reach or head angle. Copy the table with its row names.")]
    NoFigures,
    /// Too many columns.
    #[error("The table has {0} columns. The limit is 200. Copy only the geometry table.")]
    TooWide(usize),
    /// Too many rows.
    #[error("The table has {0} rows. The limit is 1000. Copy only the geometry table.")]
    TooLong(usize),
    /// A spreadsheet file that cannot be read.
    #[error("The spreadsheet could not be read. Save it again as XLSX or CSV.")]
    Workbook(String),
    /// Questions without an answer.
    #[error("Answer first: {}", .0.join(" "))]
    Open(Vec<String>),
    /// Nothing to make a frameset of.
    #[error("No figure was found. Choose a figure for at least one row.")]
    NothingImported,
    /// Two sizes of one label.
    #[error("Two sizes have the name {0}. Give each size its own name.")]
    SameLabel(String),
    /// A frameset that would be refused when read again.
    #[error("{0}")]
    Refused(String),
}
