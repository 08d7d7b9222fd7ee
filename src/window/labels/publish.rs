//! The view Publish: labels, tooltips and sentences.

use std::fmt::Display;

/// Tooltip of a control that cannot be used now.
pub(crate) const SHEET_IS_NOT_PUBLISHED_YET: &str = "This sheet has not been published yet.";

/// Choice of how large the sheet is shown.
pub(crate) const ACTUAL_SIZE_100_PERCENT: &str = "Actual size (100 %)";

/// Choice of how large the sheet is shown.
pub(crate) const ZOOM_TO_FIT: &str = "Zoom to fit";

/// Tooltip of the choice Zoom to fit.
pub(crate) const FITS_THE_SHEET_INTO_THE_WINDOW: &str = "Fits the whole sheet into the window.";

/// Tooltip of the choice of the actual size.
pub(crate) const SHOWS_TRUE_PIXELS: &str = "Shows one pixel of the picture as one pixel of the screen.";

/// Note.
pub(crate) fn left_out(sentences: &dyn Display) -> String {
    format!("Left out: {sentences}")
}

/// Heading.
pub(crate) const SHEET: &str = "Sheet";

/// Name of a field.
pub(crate) const SHOWN: &str = "Shown";

/// Heading of the templates in a list of sheets.
pub(crate) const TEMPLATES: &str = "templates";

/// Name for screen readers.
pub(crate) const SHEET_SHOWN: &str = "Sheet shown";

/// Note.
pub(crate) const THIS_IS_A_TEMPLATE: &str = "This is a template. A change makes it a sheet of this line-up.";

/// Error.
pub(crate) const ENTER_A_NAME_FOR_EXAMPLE_FILM: &str = "Enter a name, for example Film.";

/// Field, in an error.
pub(crate) const THE_NAME: &str = "the name";

/// Name of a field.
pub(crate) const NAME: &str = "Name";

/// Name of a field.
pub(crate) const NAME_OF_THE_SHEET: &str = "Name of the sheet";

/// Change, as Undo names it.
pub(crate) const NAME_CHANGE: &str = "name";

/// Button.
pub(crate) const DUPLICATE_SHEET: &str = "Duplicate sheet";

/// Tooltip of the button that duplicates the sheet.
pub(crate) const ADDS_A_COPY: &str = "Adds a copy of this sheet to the line-up.";

/// Change, as Undo names it.
pub(crate) const DUPLICATING_THE_SHEET: &str = "duplicating the sheet";

/// Button.
pub(crate) const REMOVE_SHEET: &str = "Remove sheet";

/// Tooltip of the button that removes the sheet.
pub(crate) const REMOVES_THIS_SHEET: &str = "Removes this sheet from the line-up. Undo restores it.";

/// Field, in an error.
pub(crate) const THIS_TEXT: &str = "this text";

/// Heading.
pub(crate) const WORDS: &str = "Words";

/// Name of a field.
pub(crate) const TITLE: &str = "Title";

/// Name of a field.
pub(crate) const SUBTITLE: &str = "Subtitle";

/// Hint in an empty field.
pub(crate) const WHAT_ALL_FRAMES_SHARE: &str = "what all frames share";

/// Name of a field.
pub(crate) const DATE: &str = "Date";

/// Hint in an empty field.
pub(crate) const FOR_EXAMPLE_12_OCTOBER_2026: &str = "for example 12 October 2026";

/// Name of a field.
pub(crate) const AUTHOR: &str = "Author";

/// Hint in an empty field.
pub(crate) const YOUR_NAME_OR_YOUR_SITES: &str = "your name or your site's";

/// Name of a field.
pub(crate) const INTRODUCTION: &str = "Introduction";

/// Hint in an empty field.
pub(crate) const TEXT_ABOVE_THE_SENTENCES: &str = "text above the sentences";

/// Heading.
pub(crate) const SHAPE: &str = "Shape";

/// Change, as Undo names it.
pub(crate) const SHAPE_CHANGE: &str = "shape";

/// Name of a field.
pub(crate) const WIDTH_PIXELS: &str = "Width, pixels";

/// Change, as Undo names it.
pub(crate) const WIDTH: &str = "width";

/// Name of a field.
pub(crate) const BACKGROUND: &str = "Background";

/// Change, as Undo names it.
pub(crate) const BACKGROUND_CHANGE: &str = "background";

/// Heading.
pub(crate) const CONTENTS: &str = "Contents";

/// One item of a list that the user orders.
pub(crate) const PART: &str = "part";

/// Change, as Undo names it.
pub(crate) const PARTS: &str = "parts";

/// Heading.
pub(crate) const FIGURES_IN_THE_TABLE: &str = "Figures in the table";

/// One item of a list that the user orders.
pub(crate) const FIGURE: &str = "figure";

/// Change, as Undo names it.
pub(crate) const FIGURES: &str = "figures";

/// Heading.
pub(crate) const SENTENCES: &str = "Sentences";

/// Note.
pub(crate) const SENTENCES_FOLLOW_THE_FIGURES: &str =
    "Sentences follow the figures until you edit them. An empty sentence is left out.";

/// Button.
pub(crate) const RESET: &str = "Reset";

/// Change, as Undo names it.
pub(crate) const A_SENTENCE: &str = "a sentence";

/// Hint in an empty field.
pub(crate) const LEFT_OUT: &str = "left out";

/// Heading.
pub(crate) const ANIMATION: &str = "Animation";

/// Choice.
pub(crate) const PUBLISH_AN_ANIMATION: &str = "Publish an animation";

/// Tooltip of the choice of an animation.
pub(crate) const PUBLISHES_NUMBERED_PNG_PICTURES: &str =
    "Publishes numbered PNG pictures with a transparent background, an APNG and a GIF.";

/// Change, as Undo names it.
pub(crate) const ANIMATION_CHANGE: &str = "animation";

/// Name of a field.
pub(crate) const ANIMATION_TYPE: &str = "Animation type";

/// Change, as Undo names it.
pub(crate) const ANIMATION_TYPE_CHANGE: &str = "animation type";

/// Name of a field.
pub(crate) const SECONDS: &str = "Seconds";

/// Change, as Undo names it.
pub(crate) const SECONDS_CHANGE: &str = "seconds";

/// Name of a field.
pub(crate) const FRAMES_PER_SECOND: &str = "Frames per second";

/// Change, as Undo names it.
pub(crate) const FRAMES_PER_SECOND_CHANGE: &str = "frames per second";

/// Refusal of a sheet’s name.
pub(crate) fn is_already_the_name(text: &dyn Display) -> String {
    format!("“{text}” is already the name of a sheet. Enter another name.")
}

/// Refusal of a number of pixels, seconds or frames per second.
pub(crate) fn enter_a_whole_number_from_to(low: &dyn Display, high: &dyn Display) -> String {
    format!("Enter a whole number from {low} to {high}.")
}

/// Refusal of a width that may be left out.
pub(crate) fn enter_a_whole_number(low: &dyn Display, high: &dyn Display) -> String {
    format!("Enter a whole number from {low} to {high}, for example 1920, or leave it empty.")
}

/// Name of a field.
pub(crate) fn remove(name: &dyn Display) -> String {
    format!("Remove {name}")
}

/// Button that moves an item of a list.
pub(crate) fn move_down(name: &dyn Display) -> String {
    format!("Move {name} down")
}

/// Button that moves an item of a list.
pub(crate) fn move_up(name: &dyn Display) -> String {
    format!("Move {name} up")
}

/// Menu of what can be added.
pub(crate) fn add_a(what: &dyn Display) -> String {
    format!("Add a {what}…")
}

/// What a sentence is about, marked where the user edited it.
pub(crate) fn yours(caption: &dyn Display) -> String {
    format!("{caption} (yours)")
}

/// Name for screen readers.
pub(crate) fn reset(caption: &dyn Display) -> String {
    format!("Reset: {caption}")
}

/// Name of a field.
pub(crate) fn sentence(caption: &dyn Display) -> String {
    format!("Sentence: {caption}")
}

/// Note.
pub(crate) fn the_figures_or_their_wording(found: &dyn Display) -> String {
    format!("The figures or their wording have changed since you edited this. The sentence is now: {found}")
}

/// Name of a field with its unit.
pub(crate) fn fork_longer_by(unit: &dyn Display) -> String {
    format!("Fork longer by, {unit}")
}

/// Error.
pub(crate) fn enter_a_number_from_to(low: &dyn Display, high: &dyn Display) -> String {
    format!("Enter a number from {low} to {high}.")
}

/// Heading.
pub(crate) const STATEMENT: &str = "Statement";

/// Checkbox.
pub(crate) const STATE_ONE_FINDING: &str = "State one finding";

/// Tooltip of the choice of a statement.
pub(crate) const STATES_ONE_FINDING: &str = "A picture for the screen has one finding as its headline, the drawing and three differences. Paper and web page have everything.";

/// Name of the choice of what the statement is about.
pub(crate) const STATEMENT_ABOUT: &str = "About";

/// Name of the choice of the frame that is compared with the reference.
pub(crate) const STATEMENT_FRAME: &str = "Compared frame";

/// Note.
pub(crate) const SHOW_ANOTHER_FRAME: &str = "Show the reference and another frame to compare.";

/// Change, as Undo names it.
pub(crate) const STATEMENT_CHANGE: &str = "statement";
