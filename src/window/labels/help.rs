//! The user guide: labels, tooltips and sentences.

use std::fmt::Display;

/// Name for screen readers.
pub(crate) fn page(title: &dyn Display) -> String {
    format!("Page: {title}")
}

/// Label.
pub(crate) const SPANDREL: &str = "Spandrel";

/// Label.
pub(crate) const THE_WINDOW: &str = "The window";

/// Label.
pub(crate) const UNCERTAINTY_AND_ASSUMPTIONS: &str = "Uncertainty and assumptions";

/// Label.
pub(crate) const FIGURES: &str = "Figures";

/// Label.
pub(crate) const FRAME_FILES: &str = "Frame files";

/// Label.
pub(crate) const LINE_UP_FILES: &str = "Line-up files";

/// Label.
pub(crate) const COMMAND_LINE: &str = "Command line";

/// Label.
pub(crate) const JSON: &str = "JSON";

/// Label.
pub(crate) const OLD_AND_NEW_NAMES: &str = "Old and new names";

/// Label.
pub(crate) const PUBLISHING: &str = "Publishing";
