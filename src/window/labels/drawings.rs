//! Drawings, plots and the strip of key figures: labels, tooltips and sentences.

use std::fmt::Display;

/// Name for screen readers.
pub(crate) fn drawing(title: &dyn Display) -> String {
    format!("Drawing: {title}")
}

/// The measurement in the outline.
pub(crate) fn measured_between(distance: &dyn Display, angle: &dyn Display, across: &dyn Display, up: &dyn Display) -> String {
    format!("{distance} at {angle}°, {across} across, {up} up")
}

/// Entry of the drawing's menu.
pub(crate) const MEASURE_FROM_HERE: &str = "Measure from here";

/// Tooltip of the menu’s entry that begins a measurement.
pub(crate) const HOW_A_MEASUREMENT_ENDS: &str = "A click ends the measurement. Escape removes it.";

/// Figures that a plot lacks.
pub(crate) fn unknown(missing: &dyn Display) -> String {
    format!("Unknown: {missing}.")
}

/// Where the pointer is in the outline.
pub(crate) fn position(x: &dyn Display, y: &dyn Display, unit: &dyn Display) -> String {
    format!("x {x}  y {y} {unit}")
}

/// Name of a field.
pub(crate) const VERTICAL_AXIS: &str = "Vertical axis";

/// Name of a field.
pub(crate) const HORIZONTAL_AXIS: &str = "Horizontal axis";

/// Name for screen readers.
pub(crate) fn figure(name: &dyn Display) -> String {
    format!("{name}: figure")
}

/// Tooltip: where a frame's figure stands.
pub(crate) fn placed(letter: &dyn Display, placing: &dyn Display) -> String {
    format!("{letter}: {placing}")
}
