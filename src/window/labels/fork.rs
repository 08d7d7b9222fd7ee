//! The view Fork: labels, tooltips and sentences.

use std::fmt::Display;

/// Tooltip of the choice Show in Outline.
pub(crate) const ALSO_SHOWS_THE_CHANGED_FRAME: &str = "Also shows the changed frame in the Outline view.";

/// Choice.
pub(crate) const SHOW_IN_OUTLINE: &str = "Show in Outline";

/// Heading.
pub(crate) const ANOTHER_FORK_OR_TYRE: &str = "Another fork or tyre";

/// Name of a field.
pub(crate) const FRAME: &str = "Frame";

/// Name for screen readers.
pub(crate) const CHANGED_FRAME: &str = "Changed frame";

/// Choice.
pub(crate) const FORK_FROM_THE_PARTS_LIST: &str = "Fork from the parts list";

/// Tooltip of the choice of the parts list’s fork.
pub(crate) const USES_THE_FORK_OF_THE_PARTS_LIST: &str = "Uses its length, offset and sag, as entered in the Parts view.";

/// Name of a field.
pub(crate) const AXLE_TO_CROWN_ALONG_STEERING_AXIS: &str = "Axle-to-crown along steering axis";

/// Name of a field.
pub(crate) const FORK_OFFSET: &str = "Fork offset";

/// Name of a field.
pub(crate) const SAG: &str = "Sag";

/// Name of a field.
pub(crate) const FRONT_TYRE: &str = "Front tyre";

/// Name of a field.
pub(crate) const OTHER_FRONT_TYRE: &str = "Other front tyre";

/// Name of a field.
pub(crate) const REAR_TYRE: &str = "Rear tyre";

/// Name of a field.
pub(crate) const OTHER_REAR_TYRE: &str = "Other rear tyre";

/// Button.
pub(crate) const RESET: &str = "Reset";

/// Tooltip of the button that resets fork and tyres.
pub(crate) const REMOVES_THE_OTHER_FORK_AND_TYRES: &str = "Removes the other fork and tyres.";

/// State of a setting of the other fork.
pub(crate) const AS_PUBLISHED: &str = "as published";

/// State of a setting of the other fork.
pub(crate) const UNKNOWN: &str = "unknown";

/// State of a setting of the other fork.
pub(crate) const CHANGED: &str = "changed";

/// State of a setting of the other fork.
pub(crate) const FROM_THE_PARTS_LIST: &str = "from the parts list";

/// Tooltip of the button that resets one setting.
pub(crate) const RESETS_IT_TO_THE_PUBLISHED_FIGURE: &str = "Resets it to the published figure.";

/// Tooltip of the fields for other tyres.
pub(crate) const HOW_TO_ENTER_ANOTHER_TYRE: &str = "As printed on the tyre, for example 50-622 or 29 x 2.0. Leave it empty for the published tyre. The Parts view checks whether it fits.";

/// Name for screen readers.
pub(crate) fn reset(label: &dyn Display) -> String {
    format!("Reset {label}")
}
