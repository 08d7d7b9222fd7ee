//! Drawings, plots and the strip of key figures: labels, tooltips and sentences.

use std::fmt::Display;

/// Name for screen readers.
pub(crate) fn drawing(title: &dyn Display) -> String {
    format!("Drawing: {title}")
}

/// Label.
pub(crate) fn measured_between(dy: &dyn Display, angle: &dyn Display, abs: &dyn Display, abs_2: &dyn Display) -> String {
    format!("{dy} at {angle}°, {abs} across, {abs_2} up")
}

/// Label.
pub(crate) const DROP_FRAME_FILES_HERE: &str = "Drop frame files here";

/// Sentence.
pub(crate) const WHAT_AN_OPENED_LINE_UP_SHOWS: &str =
    "or open a saved line-up. Outlines are overlaid to scale, and each figure has its ±.";

/// Button.
pub(crate) const OPEN_FILES: &str = "Open files…";

/// Sentence.
pub(crate) const FIRST_KEYS: &str = "Ctrl+O opens files, Ctrl+Shift+O opens by path, F1 lists all shortcuts.";

/// Label.
pub(crate) fn unknown(missing: &dyn Display) -> String {
    format!("Unknown: {missing}.")
}

/// Label.
pub(crate) fn position(x: &dyn Display, y: &dyn Display, unit: &dyn Display) -> String {
    format!("x {x}  y {y} {unit}")
}

/// Label.
pub(crate) const VERTICAL_AXIS: &str = "Vertical axis";

/// Label.
pub(crate) const HORIZONTAL_AXIS: &str = "Horizontal axis";

/// Name for screen readers.
pub(crate) fn figure(name: &dyn Display) -> String {
    format!("{name}: figure")
}
