//! The line-up: cards, common settings: labels, tooltips and sentences.

use std::fmt::Display;

/// Choice.
pub(crate) const SHOWN: &str = "shown";

/// Tooltip of the choice on a card that shows or hides its frame.
pub(crate) const SHOWS_OR_HIDES_THIS_FRAME: &str = "Shows or hides this frame.";

/// Choice.
pub(crate) const REFERENCE: &str = "reference";

/// Tooltip of the choice on a card that makes its frame the reference.
pub(crate) const COMPARES_THE_OTHER_FRAMES: &str = "Compares the other frames with this one.";

/// Tooltip of a card’s handle.
pub(crate) const HOW_TO_MOVE_A_FRAME: &str = "Drag to move. Alt with the up or down arrow also works.";

/// Line of a frame’s card: what is not as published.
pub(crate) const ONE_UNKNOWN_FIGURE: &str = "1 unknown figure";

/// Line of a frame’s card: what is not as published.
pub(crate) const FIGURES_DISAGREE: &str = "figures disagree";

/// Name for screen readers.
pub(crate) fn select(letter: &dyn Display) -> String {
    format!("Select {letter}")
}

/// Name for screen readers.
pub(crate) fn show(letter: &dyn Display) -> String {
    format!("Show {letter}")
}

/// Name for screen readers.
pub(crate) fn is_the_reference(letter: &dyn Display) -> String {
    format!("{letter} is the reference")
}

/// Name for screen readers.
pub(crate) fn remove(letter: &dyn Display) -> String {
    format!("Remove {letter}")
}

/// Tooltip of the button on a card that removes its frame.
pub(crate) fn removes_from_the_line_up(letter: &dyn Display) -> String {
    format!("Removes {letter} from the line-up. Its file is kept.")
}

/// Name for screen readers.
pub(crate) fn move_letter(letter: &dyn Display) -> String {
    format!("Move {letter}")
}

/// Name for screen readers.
pub(crate) fn size_of(letter: &dyn Display) -> String {
    format!("Size of {letter}")
}

/// Tooltip of a card’s choice of size.
pub(crate) fn size_of_alt(letter: &dyn Display, size: &dyn Display) -> String {
    format!("Size of {letter}: {size}. Alt with the left or right arrow changes it.")
}

/// Line of a frame’s card: what is not as published.
pub(crate) fn doubtful_figures(several: &dyn Display) -> String {
    format!("{several} doubtful figures")
}

/// Line of a frame’s card: what is not as published.
pub(crate) fn unknown_figures(missing: &dyn Display) -> String {
    format!("{missing} unknown figures")
}

/// Line of a frame’s card: what is not as published.
pub(crate) fn unknown(missing: &dyn Display) -> String {
    format!("{missing} unknown")
}

/// Name for screen readers.
pub(crate) fn doubtful_or_unknown_figures_of(letter: &dyn Display, words: &dyn Display) -> String {
    format!("Doubtful or unknown figures of {letter}: {words}")
}

/// Heading.
pub(crate) const COMMON_SETTINGS: &str = "Common settings";

/// Name of a field.
pub(crate) const ALIGN_AT: &str = "Align at";

/// Name of a field.
pub(crate) const SAME_TYRE_ON_ALL: &str = "Same tyre on all";

/// Name of a field.
pub(crate) const FORK_SAG: &str = "Fork sag";

/// Name of a field.
pub(crate) const WEIGHT_FACTOR_PER_SIZE: &str = "Weight factor per size";

/// Name of a field.
pub(crate) const UNITS: &str = "Units";

/// Tooltip of the choice Align at.
pub(crate) const OUTLINES_ARE_ALIGNED_HERE: &str = "Point at which all outlines are aligned.";

/// Hint in an empty field.
pub(crate) const NONE: &str = "none";

/// Tooltip of the field for the weight factor.
pub(crate) const HOW_TO_ENTER_A_WEIGHT_FACTOR: &str = "Your estimate, for example 1.05 or +5 %. It converts a weight published for one size to the next. Leave it empty to use tube lengths.";

/// Hint in an empty field.
pub(crate) const AS_PUBLISHED: &str = "as published";

/// Tooltip of the field for one tyre on all frames.
pub(crate) const DRAWS_ALL_ON_ONE_TYRE: &str = "Draws every frame on one tyre size, for example 47-622 or 700 x 47C. Leave it empty for each frame's own tyres. A tyre that is too wide can jam: check the maker's limit and the clearance.";

/// Tooltip of the field for the sag of suspension forks.
pub(crate) const SHOWS_FORKS_WITH_SAG: &str = "Shows frames with a suspension fork as they stand under a rider, for example 20 % of the travel or 25 mm. Leave it empty for forks as published. Frames with a rigid fork stay as they are.";

/// Line of a card.
pub(crate) fn suspension_fork(sag: &dyn Display) -> String {
    format!("suspension fork {sag}")
}

/// Tooltip.
pub(crate) const WHERE_SAG_IS_SET: &str = "Head and seat angles are steeper with sag. Set it under Common settings, Fork sag.";

/// Error.
pub(crate) fn sag_is_not_valid_enter(most_sag_percent: &dyn Display, most_sag_mm: &dyn Display) -> String {
    format!("Sag is not valid. Enter 0 to {most_sag_percent} % of the travel, or 0 to {most_sag_mm} mm, for example 20 %.")
}

/// Choice of units.
pub(crate) const IN_LB: &str = "in, lb";

/// Tooltip of the choice of inches and pounds.
pub(crate) const SHOWS_INCHES_AND_POUNDS: &str = "Shows inches and pounds. Files stay metric.";

/// Choice of units.
pub(crate) const MM_G: &str = "mm, g";

/// Tooltip of the choice of millimetres and grams.
pub(crate) const SHOWS_MILLIMETRES_AND_GRAMS: &str = "Shows millimetres and grams.";

/// Heading.
pub(crate) const LINE_UP: &str = "Line-up";

/// Button.
pub(crate) const ADD: &str = "+ Add…";

/// Note in an empty line-up.
pub(crate) const DROP_FRAME_FILES_HERE: &str = "Drop frame files here, or use the button above.";

/// Note below the cards.
pub(crate) const DROP_MORE_FRAME_FILES_ANYWHERE: &str = "Drop more frame files anywhere in the window.";

/// Name of a field.
pub(crate) const SIZES: &str = "Sizes";

/// Mark beside a size that the user chose.
pub(crate) const BY_HAND: &str = "by hand";

/// Tooltip of the mark that a size was chosen by hand; `fit` is a whole sentence.
pub(crate) fn unpin(fit: &dyn Display) -> String {
    format!("{fit} Click to let the size follow the reference’s fit again.")
}

/// Name for screen readers.
pub(crate) fn size_chosen_by_hand(letter: &dyn Display) -> String {
    format!("Size of {letter} chosen by hand")
}

/// Name for screen readers.
pub(crate) fn fit_of(letter: &dyn Display, badge: &dyn Display) -> String {
    format!("Fit of {letter}: {badge}")
}
