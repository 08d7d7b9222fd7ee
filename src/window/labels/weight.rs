//! The view Weight: labels, tooltips and sentences.

use std::fmt::Display;

/// Heading.
pub(crate) const WORKINGS: &str = "Workings";

/// Change, as Undo names it.
pub(crate) const A_LINE: &str = "a line";

/// Name of a line of the workings.
pub(crate) const TOTAL: &str = "total";

/// Choice.
pub(crate) const WEIGHED_ON_YOUR_OWN: &str = "your own part weighed";

/// Tooltip of the choice that the user’s own part was weighed.
pub(crate) const OWN_PART_OR_SPECIMEN: &str =
    "Tick it if your own part was weighed. Otherwise another example was weighed, and examples differ by about 1 %.";

/// Change, as Undo names it.
pub(crate) const THE_WEIGHED_SPECIMEN: &str = "the weighed specimen";

/// Name of a field.
pub(crate) const BASED_ON: &str = "Based on";

/// Choice of the weight that others are converted from.
pub(crate) const CLOSEST_SIZE: &str = "closest size";

/// Change, as Undo names it.
pub(crate) const WHERE_THE_WEIGHT_BEGINS: &str = "weight to convert from";

/// Tooltip of the choice of a method for one weight.
pub(crate) const OWN_METHOD_FOR_THIS_WEIGHT: &str = "Converts this weight this way, whatever the setting for all weights.";

/// Change, as Undo names it.
pub(crate) const CONVERSION_METHOD: &str = "conversion method";

/// Button.
pub(crate) const USE_THE_SETTING_FOR_ALL: &str = "Use the setting for all";

/// Tooltip of the button that returns one weight to the setting for all.
pub(crate) const SETTING_FOR_ALL_WEIGHTS: &str = "Converts this weight by the setting for all weights.";

/// Name of a field.
pub(crate) const OWN_CONVERSION_METHOD: &str = "Own conversion method";

/// Name of a field.
pub(crate) const FACTOR_FOR_THIS_WEIGHT: &str = "Factor for this weight";

/// Hint in an empty field.
pub(crate) const NONE: &str = "none";

/// Change, as Undo names it.
pub(crate) const FACTOR: &str = "factor";

/// Change, as Undo names it.
pub(crate) const PUBLISHED_WEIGHT: &str = "published weight";

/// Tooltip of the empty field for the ± of a published weight.
pub(crate) const EMPTY_PLUS_MINUS_OF_A_WEIGHT: &str = "Leave empty to use the scale’s resolution, or the ± of claimed weights.";

/// Hint in an empty field.
pub(crate) const WHAT_IT_IS: &str = "what it is";

/// Refusal of a line without a name.
pub(crate) const WRITE_WHAT_IT_IS: &str = "write what it is, such as bottle bosses";

/// Tooltip of the field for a line’s weight.
pub(crate) const A_NEGATIVE_WEIGHT_IS_SUBTRACTED: &str = "A negative weight is subtracted.";

/// Tooltip of the button that removes a line.
pub(crate) const REMOVES_THE_LINE: &str = "Removes the line.";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_LINE: &str = "removing a line";

/// Change, as Undo names it.
pub(crate) const ADDING_A_LINE: &str = "adding a line";

/// Note at what was weighed with the part.
pub(crate) const WEIGHED_WITH_THE_PART: &str = "It was weighed with the part. Without it, bare weights are compared.";

/// Menu of what can be added.
pub(crate) const ADD_A_LINE: &str = "Add a line…";

/// Name of an item of the user’s own.
pub(crate) const ANOTHER_ITEM: &str = "another item";

/// Heading.
pub(crate) fn size(name: &dyn Display, size_label: &dyn Display, total: &dyn Display) -> String {
    format!("{name}, size {size_label}: {total}")
}

/// Note.
pub(crate) fn frame_and_fork_as_above(workings: &dyn Display) -> String {
    format!("Frame and fork as above: {workings}.")
}

/// Name for screen readers.
pub(crate) fn weighed_on_your_own(name: &dyn Display) -> String {
    format!("{name}: your own part weighed")
}

/// Name for screen readers.
pub(crate) fn based_on(name: &dyn Display) -> String {
    format!("{name} based on")
}

/// Note.
pub(crate) fn not_possible(why: &dyn Display) -> String {
    format!("Not possible: {why}.")
}

/// Button.
pub(crate) fn use_the_method_for_all(name: &dyn Display) -> String {
    format!("{name}: use the method for all")
}

/// Name of a field.
pub(crate) fn factor(name: &dyn Display) -> String {
    format!("{name}: factor")
}

/// Button.
pub(crate) fn use_the_factor_for_all(name: &dyn Display) -> String {
    format!("{name}: use the factor for all")
}

/// Name of a field with its unit.
pub(crate) fn published(name: &dyn Display, unit: &dyn Display) -> String {
    format!("{name}: published, {unit}")
}

/// Name of a field with its unit.
pub(crate) fn plus_minus_of_published(name: &dyn Display, unit: &dyn Display) -> String {
    format!("{name}: ± of published, {unit}")
}

/// Name of a field.
pub(crate) fn line_what(part: &dyn Display, number: &dyn Display) -> String {
    format!("{part} line {number}: what")
}

/// Name of a field with its unit.
pub(crate) fn line(part: &dyn Display, number: &dyn Display, mass_unit: &dyn Display) -> String {
    format!("{part} line {number}: {mass_unit}")
}

/// Name of a field.
pub(crate) fn line_plus_minus(part: &dyn Display, number: &dyn Display) -> String {
    format!("{part} line {number}: ±")
}

/// Name for screen readers.
pub(crate) fn remove_line(label: &dyn Display, number: &dyn Display) -> String {
    format!("Remove {label} line {number}")
}

/// Name for screen readers.
pub(crate) fn add_a_line(name: &dyn Display) -> String {
    format!("{name}: add a line")
}

/// Heading.
pub(crate) const WEIGHTS_OF_ONE_FRAME: &str = "Weights of one frame";

/// Note.
pub(crate) const ADD_PUBLISHED_WEIGHTS: &str = "Add published weights in the Frameset view, under “Also published”.";

/// Heading.
pub(crate) const CONVERTING_WEIGHTS_TO_ANOTHER_SIZE: &str = "Converting weights to another size";

/// Name of a field.
pub(crate) const WEIGHT_FACTOR: &str = "Weight factor";

/// Tooltip of the field for the weight factor of one frame.
pub(crate) const YOUR_OWN_ESTIMATE: &str = "Your own estimate for a larger size, such as 1.05 or +5 %. Leave empty for none.";

/// Change, as Undo names it.
pub(crate) const WEIGHT_FACTOR_PER_SIZE: &str = "weight factor per size";

/// Change, as Undo names it.
pub(crate) const WHAT_THE_FACTOR_IS_FOR: &str = "what the factor is for";

/// Change, as Undo names it.
pub(crate) const PLUS_MINUS_OF_THE_FACTOR: &str = "± of the factor";

/// Hint in an empty field.
pub(crate) const HALF: &str = "half";

/// Field, in an error.
pub(crate) const A_FACTORS_PLUS_MINUS: &str = "a factor's ±";

/// Name of a field.
pub(crate) const PLUS_MINUS_OF_CLAIMED_WEIGHTS_PERCENT: &str = "± of claimed weights, %";

/// Field, in an error.
pub(crate) const A_PLUS_MINUS_OF_CLAIMED_WEIGHTS: &str = "a ± of claimed weights";

/// Change, as Undo names it.
pub(crate) const PLUS_MINUS_OF_CLAIMED_WEIGHTS: &str = "± of claimed weights";

/// Hint in an empty field.
pub(crate) const USUAL: &str = "usual";

/// Change, as Undo names it.
pub(crate) const FIXED_PARTS: &str = "fixed parts";

/// Change, as Undo names it.
pub(crate) const PLUS_MINUS_OF_FIXED_PARTS: &str = "± of fixed parts";

/// Name of a field with its unit.
pub(crate) fn fixed_parts(unit: &dyn Display) -> String {
    format!("Fixed parts, {unit}")
}

/// Name of a field with its unit.
pub(crate) fn plus_minus_of_fixed_parts(unit: &dyn Display) -> String {
    format!("± of fixed parts, {unit}")
}
