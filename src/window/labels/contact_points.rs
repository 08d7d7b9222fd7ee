//! The view Contact points: labels, tooltips and sentences.

use std::fmt::Display;

/// Label.
pub(crate) const USE_THE_CLOSEST_SIZES: &str = "Use the closest sizes";

/// Sentence.
pub(crate) const SETS_CLOSEST_SIZES: &str =
    "Sets every other frame to the size whose reach at the reference's bar height is closest. Undo restores the sizes.";

/// Label.
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

/// Label.
pub(crate) const SADDLE_HEIGHT: &str = "Saddle height";

/// Sentence.
pub(crate) const SADDLE_SETBACK_FROM_BOTTOM_BRACKET: &str = "Saddle setback from bottom bracket";

/// Heading.
pub(crate) const LEGS_AND_FEET: &str = "Legs and feet";

/// Label.
pub(crate) const CRANK_LENGTH: &str = "Crank length";

/// Label.
pub(crate) const SHOE_AHEAD_OF_PEDAL_AXLE: &str = "Shoe ahead of pedal axle";

/// Label.
pub(crate) const MUDGUARD_GAP_TO_FRONT_TYRE: &str = "Mudguard gap to front tyre";

/// Choice.
pub(crate) const CLIPPED_IN: &str = "clipped in";

/// Label.
pub(crate) const INSIDE_LEG: &str = "Inside leg";

/// Hint in an empty field.
pub(crate) const NOT_ENTERED: &str = "not entered";

/// Hint in an empty field.
pub(crate) const ASSUMED: &str = "assumed";

/// Label.
pub(crate) const STEM_LENGTH: &str = "Stem length";

/// Label.
pub(crate) const STEM_ANGLE: &str = "Stem angle";

/// Label.
pub(crate) const SPACERS: &str = "Spacers";

/// Label.
pub(crate) const UPPER_HEADSET_STACK_HEIGHT: &str = "Upper headset stack height";

/// Label.
pub(crate) const HANDLEBAR: &str = "Handlebar";

/// Choice.
pub(crate) const ANOTHER_HANDLEBAR_ON_THE_OTHER_FRAMES: &str = "another handlebar on the other frames";

/// Label.
pub(crate) const OTHER_HANDLEBAR: &str = "Other handlebar";

/// Label.
pub(crate) const WIDTH: &str = "width";

/// Label.
pub(crate) const RISE: &str = "rise";

/// Label.
pub(crate) const REACH: &str = "reach";

/// Label.
pub(crate) const DROP: &str = "drop";

/// Label.
pub(crate) const HOODS: &str = "hoods";

/// Heading.
pub(crate) fn handlebar_on(letter: &dyn Display) -> String {
    format!("Handlebar on {letter}")
}

/// Label.
pub(crate) fn with_unit(name: &dyn Display, unit: &dyn Display) -> String {
    format!("{name}, {unit}")
}

/// Label.
pub(crate) fn sweep(name: &dyn Display) -> String {
    format!("{name} sweep")
}
