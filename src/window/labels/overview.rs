//! The view Overview: labels, tooltips and sentences.

use std::fmt::Display;

/// Name of the drawing, for screen readers.
pub(crate) const DRAWING: &str = "Overview of the frames";

/// Switch.
pub(crate) const ROWS_AND_LIMITS: &str = "Rows and limits";

/// Tooltip of the switch Rows and limits.
pub(crate) const CHOOSES_ROWS: &str = "Chooses the rows and their order, and sets your limits. A limit joins your needs.";

/// Note below the table, until a cell is selected.
pub(crate) const SELECT_A_CELL: &str = "Select a cell to see the view and the figure behind it.";

/// Heading.
pub(crate) const ROWS: &str = "Rows of the overview";

/// Note above the fields for limits.
pub(crate) const LIMITS_JOIN_THE_NEEDS: &str =
    "A limit such as ≤ 450 or ≥ 420 joins the needs of the Parts view. Clear the field to remove it.";

/// Button.
pub(crate) const COPY_TABLE: &str = "Copy table";

/// Tooltip of the button that copies the table.
pub(crate) const COPIES_AS_TABS: &str = "Copies the overview as a table for a spreadsheet.";

/// Name for screen readers.
pub(crate) fn move_up(row: &dyn Display) -> String {
    format!("Move {row} up")
}

/// Name for screen readers.
pub(crate) fn move_down(row: &dyn Display) -> String {
    format!("Move {row} down")
}

/// Name for screen readers.
pub(crate) fn limit_of(row: &dyn Display) -> String {
    format!("Limit of {row}")
}

/// Name for screen readers.
pub(crate) fn show_row(row: &dyn Display) -> String {
    format!("Show {row}")
}
