//! The user guide: labels, tooltips and sentences.

use std::fmt::Display;

/// Name for screen readers.
pub(crate) fn page(title: &dyn Display) -> String {
    format!("Page: {title}")
}

/// Title of a page of the user guide.
pub(crate) const SPANDREL: &str = "Spandrel";

/// Title of a page of the user guide.
pub(crate) const THE_WINDOW: &str = "The window";

/// Title of a page of the user guide.
pub(crate) const UNCERTAINTY_AND_ASSUMPTIONS: &str = "Uncertainty and assumptions";

/// Title of a page of the user guide.
pub(crate) const FIGURES: &str = "Figures";

/// Title of a page of the user guide.
pub(crate) const FRAME_FILES: &str = "Frame files";

/// Title of a page of the user guide.
pub(crate) const LINE_UP_FILES: &str = "Line-up files";

/// Title of a page of the user guide.
pub(crate) const COMMAND_LINE: &str = "Command line";

/// Title of a page of the user guide.
pub(crate) const JSON: &str = "JSON";

/// Title of a page of the user guide.
pub(crate) const OLD_AND_NEW_NAMES: &str = "Old and new names";

/// Title of a page of the user guide.
pub(crate) const PUBLISHING: &str = "Publishing";
