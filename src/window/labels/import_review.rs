//! The review of an imported table: labels, tooltips and sentences.

use std::fmt::Display;

/// Error.
pub(crate) const PASTE_A_TABLE_FIRST: &str = "Paste a table first.";

/// Name of a frameset without a maker and model.
pub(crate) const UNNAMED: &str = "Unnamed";

/// Heading.
pub(crate) const SPECIFICATION: &str = "Specification";

/// Heading of a column.
pub(crate) const LINE: &str = "line";

/// Heading of a column.
pub(crate) const AS_PUBLISHED: &str = "as published";

/// Heading of a column.
pub(crate) const READ_AS: &str = "read as";

/// Heading of a column.
pub(crate) const IMPORTED_AS: &str = "imported as";

/// Choice of a row that is not a figure.
pub(crate) const KEPT_AS_A_NOTE: &str = "kept as a note";

/// Choice of a row that is not a figure.
pub(crate) const NOTE: &str = "note";

/// Name for screen readers.
pub(crate) fn read_as(label: &dyn Display) -> String {
    format!("{label} read as")
}

/// Heading.
pub(crate) const PASTE_OR_IMPORT_A_GEOMETRY_TABLE: &str = "Paste or import a geometry table";

/// Note below the field for the table.
pub(crate) const HOW_TO_PASTE_A_TABLE: &str = "Copy a geometry table, a specification list or both from a web page or spreadsheet and paste them above. Sizes may be rows or columns. Labels may be English, German, French, Spanish, Italian or Dutch.";

/// Button.
pub(crate) const IMPORT: &str = "Import";

/// Button.
pub(crate) fn add_to(name: &dyn Display) -> String {
    format!("Add to {name}")
}

/// Tooltip of the button that adds a specification list to the selected frame.
pub(crate) const WHAT_ADDING_DOES: &str =
    "Adds weights, prices and standards to the selected frame. What it already has stays; the rest goes into its note.";

/// Button.
pub(crate) const CANCEL: &str = "Cancel";

/// Hint in an empty field.
pub(crate) const PASTE_THE_TABLE_HERE: &str = "Paste the table here";

/// Name for screen readers.
pub(crate) const TABLE: &str = "Table";

/// Name of a field.
pub(crate) const MAKER: &str = "Maker";

/// Hint in an empty field.
pub(crate) const MAKERS_NAME: &str = "maker’s name";

/// Name of a field.
pub(crate) const MODEL: &str = "Model";

/// Mark of the choice that most tables need.
pub(crate) const USUAL_CHOICE: &str = "usual\u{a0}choice";

/// Heading of a column.
pub(crate) const UNIT: &str = "unit";

/// Words before the steps of a row’s figures.
pub(crate) const ROUNDED_TO: &str = "rounded to";

/// A row without a label.
pub(crate) const NO_LABEL: &str = "(no label)";

/// Unit of a row’s step.
pub(crate) const MILLIMETRES: &str = " mm";

/// Words before the steps of a row’s figures.
pub(crate) const ROUNDED_TO_CAPITAL: &str = "Rounded to";

/// Name for screen readers.
pub(crate) const ROUNDING_OF_LENGTHS_MM: &str = "Rounding of lengths, mm";

/// Words between the steps of lengths and of angles.
pub(crate) const MM_AND: &str = "mm and";

/// Name for screen readers.
pub(crate) const ROUNDING_OF_ANGLES_DEGREES: &str = "Rounding of angles, degrees";

/// Words behind the fields for the rounding of lengths and angles.
pub(crate) const ROUNDING_COUNTS_UNLESS_A_ROW_DIFFERS: &str = "°, unless a row says otherwise. Every ± depends on it.";

/// Tooltip of a cell: its text in the pasted table.
pub(crate) fn published_as(cell: &dyn Display) -> String {
    format!("published as {cell}")
}

/// A figure that a row’s label resembles.
pub(crate) fn percent_match(label: &dyn Display, likeness: &dyn Display) -> String {
    format!("{label} ({likeness:.0}\u{a0}% match)")
}

/// Rows that are kept as a note.
pub(crate) fn kept_as_a_note(notes: &dyn Display) -> String {
    format!("Kept as a note: {notes}")
}
