//! The review of an imported table: labels, tooltips and sentences.

use std::fmt::Display;

/// Error.
pub(crate) const PASTE_A_TABLE_FIRST: &str = "Paste a table first.";

/// Label.
pub(crate) const UNNAMED: &str = "Unnamed";

/// Label.
pub(crate) const SPECIFICATION: &str = "Specification";

/// Label.
pub(crate) const LINE: &str = "line";

/// Label.
pub(crate) const AS_PUBLISHED: &str = "as published";

/// Label.
pub(crate) const READ_AS: &str = "read as";

/// Label.
pub(crate) const TAKEN: &str = "taken";

/// Label.
pub(crate) const KEPT_AS_A_NOTE: &str = "kept as a note";

/// Label.
pub(crate) const NOTE: &str = "note";

/// Name for screen readers.
pub(crate) fn read_as(label: &dyn Display) -> String {
    format!("{label} read as")
}

/// Label.
pub(crate) const PASTE_OR_IMPORT_A_GEOMETRY_TABLE: &str = "Paste or import a geometry table";

/// Sentence.
pub(crate) const HOW_TO_PASTE_A_TABLE: &str = "Copy a geometry table, a specification list or both from a web page or spreadsheet and paste them above. Sizes may be rows or columns. Labels may be English, German, French, Spanish, Italian or Dutch.";

/// Label.
pub(crate) const IMPORT: &str = "Import";

/// Button.
pub(crate) const CANCEL: &str = "Cancel";

/// Hint in an empty field.
pub(crate) const PASTE_THE_TABLE_HERE: &str = "Paste the table here";

/// Name for screen readers.
pub(crate) const TABLE: &str = "Table";

/// Label.
pub(crate) const MAKER: &str = "Maker";

/// Hint in an empty field.
pub(crate) const MAKERS_NAME: &str = "maker’s name";

/// Label.
pub(crate) const MODEL: &str = "Model";

/// Label.
pub(crate) const USUAL_CHOICE: &str = "usual\u{a0}choice";

/// Label.
pub(crate) const UNIT: &str = "unit";

/// Label.
pub(crate) const ROUNDED_TO: &str = "rounded to";

/// Label.
pub(crate) const NO_LABEL: &str = "(no label)";

/// Label.
pub(crate) const MILLIMETRES: &str = " mm";

/// Label.
pub(crate) const ROUNDED_TO_CAPITAL: &str = "Rounded to";

/// Name for screen readers.
pub(crate) const ROUNDING_OF_LENGTHS_MM: &str = "Rounding of lengths, mm";

/// Label.
pub(crate) const MM_AND: &str = "mm and";

/// Name for screen readers.
pub(crate) const ROUNDING_OF_ANGLES_DEGREES: &str = "Rounding of angles, degrees";

/// Sentence.
pub(crate) const ROUNDING_COUNTS_UNLESS_A_ROW_DIFFERS: &str = "°, unless a row says otherwise. Every ± depends on it.";

/// Tooltip.
pub(crate) fn published_as(cell: &dyn Display) -> String {
    format!("published as {cell}")
}

/// Label.
pub(crate) fn percent_match(label: &dyn Display, likeness: &dyn Display) -> String {
    format!("{label} ({likeness:.0}\u{a0}% match)")
}

/// Label.
pub(crate) fn kept_as_a_note(notes: &dyn Display) -> String {
    format!("Kept as a note: {notes}")
}
