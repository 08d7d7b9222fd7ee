//! What is decided about a published figure: labels, tooltips and sentences.

use std::fmt::Display;

/// Sizes for which a maker states something.
pub(crate) const ALL_SIZES: &str = "all sizes";

/// Choice of how a published figure is used.
pub(crate) const USE_IF_THE_OTHERS_AGREE: &str = "Use if the others agree";

/// Tooltip of the choice to use a figure if the others agree.
pub(crate) const USED_AS_FAR_AS_THE_OTHERS_AGREE: &str = "The less the other figures agree with it, the less it counts.";

/// Change, as Undo names it.
pub(crate) const USING_AGAIN: &str = "using again";

/// Choice of how a published figure is used.
pub(crate) const USE_IT_ANYWAY: &str = "Use it anyway";

/// Tooltip of the choice to use a figure anyway.
pub(crate) const USED_FULLY: &str = "It counts fully, whatever the other figures give.";

/// Change, as Undo names it.
pub(crate) const USING_ANYWAY: &str = "using anyway";

/// Choice of how a published figure is used.
pub(crate) const IGNORE_IT: &str = "Ignore it";

/// Tooltip of the choice to ignore a figure.
pub(crate) const IGNORED_BUT_KEPT: &str = "It stays in the file with your reason. The calculation leaves it out.";

/// Change, as Undo names it.
pub(crate) const IGNORING: &str = "ignoring";

/// Hint in an empty field.
pub(crate) const REASON_THEN_ENTER: &str = "reason, then Enter";

/// Tooltip of the field for the reason to ignore a figure.
pub(crate) const ENTER_A_REASON_TO_IGNORE: &str = "Enter a reason to ignore the published figure.";

/// Change, as Undo names it.
pub(crate) const STATED: &str = "stated";

/// Change, as Undo names it.
pub(crate) const NOT_STATED: &str = "not stated";

/// Error.
pub(crate) fn the_plus_minus_is_above(most: &dyn Display, example: &dyn Display) -> String {
    format!("the ± must be above 0 and at most {most}, such as {example}")
}

/// Words before the field of what the user measured.
pub(crate) const I_MEASURED_IT: &str = "I measured it:";

/// Hint in an empty field.
pub(crate) const VALUE: &str = "value";

/// Tooltip of the field for the user’s own measurement.
pub(crate) const MEASUREMENT_COUNTS_TOO: &str =
    "Your own measurement counts beside the published figure. Enter adds it; an empty field removes it.";

/// Tooltip of the field for the ± of the user’s own measurement.
pub(crate) const PLUS_MINUS_OF_THE_MEASUREMENT: &str = "The ± of your measurement, about 95\u{a0}% certain.";

/// Button.
pub(crate) const REMOVE_MEASUREMENT: &str = "Remove measurement";

/// Sizes for which a maker states something.
pub(crate) fn one_size(one: &dyn Display) -> String {
    format!("size {one}")
}

/// Sizes for which a maker states something.
pub(crate) fn sizes(some: &dyn Display) -> String {
    format!("sizes {some}")
}

/// Words before the choices for a published figure.
pub(crate) fn published(name: &dyn Display) -> String {
    format!("Published {name}:")
}

/// Name of a field: why a figure is ignored.
pub(crate) fn reason_for_ignoring(name: &dyn Display) -> String {
    format!("Reason for ignoring {name}")
}

/// Name for screen readers.
pub(crate) fn stated_by_the_maker(label: &dyn Display) -> String {
    format!("Stated by the maker: {label}")
}

/// A figure and the size that it is of.
pub(crate) fn size(figure: &dyn Display, label: &dyn Display) -> String {
    format!("{figure}, size {label}")
}

/// Words before the field of what the user measured.
pub(crate) fn i_measured(name: &dyn Display) -> String {
    format!("I measured {name}:")
}

/// Name of a field: what the user measured, or its ±.
pub(crate) fn measured(name: &dyn Display) -> String {
    format!("Measured {name}")
}

/// Change, as Undo names it.
pub(crate) fn measuring(name: &dyn Display) -> String {
    format!("measuring {name}")
}

/// Name of a field: what the user measured, or its ±.
pub(crate) fn plus_minus_of_measured(name: &dyn Display) -> String {
    format!("± of measured {name}")
}

/// Change, as Undo names it.
pub(crate) fn plus_minus_of_the_measured(name: &dyn Display) -> String {
    format!("± of the measured {name}")
}

/// Tooltip of the button that removes a measurement; `units` is the measured value.
pub(crate) fn removes(units: &dyn Display) -> String {
    format!("Removes {units}.")
}

/// Name for screen readers.
pub(crate) fn remove_the_measured(name: &dyn Display) -> String {
    format!("Remove the measured {name}")
}

/// Change, as Undo names it.
pub(crate) fn removing_the_measured(name: &dyn Display) -> String {
    format!("removing the measured {name}")
}
