//! The view Contact points: labels, tooltips and sentences.

use std::fmt::Display;

/// Button that sets the other frames’ sizes.
pub(crate) const USE_THE_CLOSEST_SIZES: &str = "Use the closest sizes";

/// Tooltip of the button that sets the other frames’ sizes.
pub(crate) const SETS_CLOSEST_SIZES: &str =
    "Sets every other frame to the size whose reach at the reference's bar height is closest. Undo restores the sizes.";

/// Letter of the reference while there is none.
pub(crate) const LETTER_A: &str = "A";

/// Note.
pub(crate) const WHY_ENTER_STEM_AND_HANDLEBAR: &str =
    "Enter stem and handlebar to find the same hand position on the other frames.";

/// Button.
pub(crate) const ENTER_STEM_AND_HANDLEBAR: &str = "Enter stem and handlebar";

/// Heading.
pub(crate) const SADDLE: &str = "Saddle";

/// Button.
pub(crate) const ENTER_SADDLE: &str = "Enter saddle";

/// Name of a field.
pub(crate) const SADDLE_HEIGHT: &str = "Saddle height";

/// Name of a field: how far the saddle is behind the bottom bracket.
pub(crate) const SADDLE_SETBACK_FROM_BOTTOM_BRACKET: &str = "Saddle setback from bottom bracket";

/// Heading.
pub(crate) const LEGS_AND_FEET: &str = "Legs and feet";

/// Name of a field.
pub(crate) const CRANK_LENGTH: &str = "Crank length";

/// Name of a field.
pub(crate) const SHOE_AHEAD_OF_PEDAL_AXLE: &str = "Shoe ahead of pedal axle";

/// Name of a field.
pub(crate) const MUDGUARD_GAP_TO_FRONT_TYRE: &str = "Mudguard gap to front tyre";

/// Choice.
pub(crate) const CLIPPED_IN: &str = "clipped in";

/// Name of a field.
pub(crate) const INSIDE_LEG: &str = "Inside leg";

/// Hint in an empty field.
pub(crate) const NOT_ENTERED: &str = "not entered";

/// Hint in an empty field.
pub(crate) const ASSUMED: &str = "assumed";

/// Name of a field.
pub(crate) const STEM_LENGTH: &str = "Stem length";

/// Name of a field.
pub(crate) const STEM_ANGLE: &str = "Stem angle";

/// Name of a field.
pub(crate) const SPACERS: &str = "Spacers";

/// Name of a field.
pub(crate) const UPPER_HEADSET_STACK_HEIGHT: &str = "Upper headset stack height";

/// Name of a field.
pub(crate) const HANDLEBAR: &str = "Handlebar";

/// Choice.
pub(crate) const ANOTHER_HANDLEBAR_ON_THE_OTHER_FRAMES: &str = "another handlebar on the other frames";

/// Name of a field.
pub(crate) const OTHER_HANDLEBAR: &str = "Other handlebar";

/// Name of a field.
pub(crate) const WIDTH: &str = "width";

/// Name of a field.
pub(crate) const RISE: &str = "rise";

/// Name of a field.
pub(crate) const REACH: &str = "reach";

/// Name of a field.
pub(crate) const DROP: &str = "drop";

/// Name of a field.
pub(crate) const HOODS: &str = "hoods";

/// Heading.
pub(crate) fn handlebar_on(letter: &dyn Display) -> String {
    format!("Handlebar on {letter}")
}

/// Name of a field with its unit.
pub(crate) fn with_unit(name: &dyn Display, unit: &dyn Display) -> String {
    format!("{name}, {unit}")
}

/// Name of a field: a handlebar’s sweep.
pub(crate) fn sweep(name: &dyn Display) -> String {
    format!("{name} sweep")
}
