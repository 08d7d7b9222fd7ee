//! Dialogs: labels, tooltips and sentences.

use std::fmt::Display;

/// Error.
pub(crate) fn the_must_be_a_whole(what: &dyn Display) -> String {
    format!("The {what} must be a whole number from 320 to 7680, for example 1920.")
}

/// Field, in an error.
pub(crate) const WIDTH: &str = "width";

/// Field, in an error.
pub(crate) const HEIGHT: &str = "height";

/// What keeps the window open.
pub(crate) const SPANDREL_IS_STILL_PUBLISHING: &str = "Spandrel is still publishing.";

/// Button.
pub(crate) const STOP_PUBLISHING_AND_QUIT: &str = "Stop publishing and quit";

/// What keeps the window open.
pub(crate) const SPANDREL_IS_STILL_MAKING_A_PICTURE: &str = "Spandrel is still making a picture.";

/// Button.
pub(crate) const STOP_AND_QUIT: &str = "Stop and quit";

/// Explains the answer Wait while a sheet is being published.
pub(crate) const WAIT_FOR_PUBLISHING: &str = "Wait: closes the window when publishing has ended.";

/// Explains the answer Stop publishing and quit.
pub(crate) const STOP_PUBLISHING_LEAVES_A_WHOLE_FOLDER: &str =
    "Stop publishing and quit: the folder then has either all files from before or all new ones.";

/// Explains the answer Cancel while a sheet is being published.
pub(crate) const CANCEL_KEEPS_PUBLISHING: &str = "Cancel: the window stays open, and publishing goes on.";

/// Explains the answer Wait while a picture is being made.
pub(crate) const WAIT_FOR_THE_PICTURE: &str = "Wait: closes the window when the picture is done.";

/// Explains the answer Stop and quit.
pub(crate) const STOP_LOSES_THE_PICTURE: &str = "Stop and quit: the picture is not saved.";

/// After the answer Wait.
pub(crate) const THE_WINDOW_CLOSES_AFTER_THIS: &str = "The window closes when this has ended.";

/// After an answer that stops the work.
pub(crate) const THE_WINDOW_CLOSES_WHEN_STOPPED: &str = "This is being stopped. The window closes when it has stopped.";

/// Button.
pub(crate) const WAIT: &str = "Wait";

/// Button.
pub(crate) const CANCEL: &str = "Cancel";

/// Heading.
pub(crate) const SAVE_THE_LINE_UP_FIRST: &str = "Save the line-up first?";

/// Why unsaved changes would be lost.
pub(crate) const REPLACED_BY_A_NEW_LINE_UP: &str = "A new line-up will replace it.";

/// What happens to unsaved changes when another line-up is opened.
pub(crate) const REPLACED_BY_THE_OPENED_LINE_UP: &str = "The opened line-up will replace it.";

/// What happens to unsaved changes when the sample is opened.
pub(crate) const REPLACED_BY_THE_SAMPLE: &str = "The sample comparison will replace it.";

/// What happens to unsaved changes when a line-up is restored.
pub(crate) const REPLACED_BY_THE_RESTORED_LINE_UP: &str = "The restored line-up will replace it.";

/// Why unsaved changes would be lost.
pub(crate) const THE_WINDOW_IS_ABOUT_TO_CLOSE: &str = "The window is about to close.";

/// Button.
pub(crate) const SAVE: &str = "Save";

/// Button.
pub(crate) const DISCARD_CHANGES: &str = "Discard changes";

/// Title of a dialog that asks for a path.
pub(crate) const OPEN_BY_PATH: &str = "Open by path";

/// Button.
pub(crate) const OPEN: &str = "Open";

/// Hint in an empty field.
pub(crate) const ONE_PATH_PER_LINE: &str = "one path per line";

/// Title of a dialog that asks for a path.
pub(crate) const SAVE_THE_LINE_UP: &str = "Save the line-up";

/// Hint in an empty field.
pub(crate) const FOLDER_NAME_LINEUP_RON: &str = "folder/name.lineup.ron";

/// Title of a dialog that asks for a path.
pub(crate) const SAVE_THE_FRAME_FILE: &str = "Save the frame file";

/// Hint in an empty field.
pub(crate) const FOLDER_NAME_FRAME_RON: &str = "folder/name.frame.ron";

/// Title of a dialog that asks for a path.
pub(crate) const SAVE_THE_PICTURE: &str = "Save the picture";

/// Hint in an empty field.
pub(crate) const FOLDER_NAME_SVG_OR_PNG: &str = "folder/name.svg or .png";

/// Title of a dialog that asks for a path.
pub(crate) const SAVE_THE_SHEET: &str = "Save the sheet";

/// Hint in an empty field.
pub(crate) const FOLDER_NAME_PNG_SVG_OR_PDF: &str = "folder/name.png, .svg or .pdf";

/// Title of a dialog that asks for a path.
pub(crate) const PUBLISH_THE_SHEET: &str = "Publish the sheet";

/// Button.
pub(crate) const PUBLISH: &str = "Publish";

/// Hint in the empty field of the folder to publish to.
pub(crate) const FOLDER_TO_PUBLISH_TO: &str = "a folder, created if it does not exist";

/// Title of a dialog that asks for a path.
pub(crate) const SAVE_THE_PATTERN: &str = "Save the pattern";

/// Hint in an empty field.
pub(crate) const FOLDER_NAME_PDF_OR_SVG: &str = "folder/name.pdf or .svg";

/// Name for screen readers.
pub(crate) const PATH: &str = "Path";

/// Note.
pub(crate) const IS_YOUR_HOME_FOLDER: &str = "~ is your home folder.";

/// Heading.
pub(crate) const SAVE_PICTURE: &str = "Save picture";

/// Name of a field.
pub(crate) const SIZE: &str = "Size";

/// Name for screen readers.
pub(crate) const WIDTH_IN_PIXELS: &str = "Width in pixels";

/// Name for screen readers.
pub(crate) const HEIGHT_IN_PIXELS: &str = "Height in pixels";

/// Unit of a picture’s size.
pub(crate) const PIXELS: &str = "pixels";

/// Choice.
pub(crate) const SVG: &str = "SVG";

/// Tooltip of the choice of an SVG picture.
pub(crate) const STAYS_SHARP_AT_ANY_SIZE: &str = "Stays sharp at any size, for print and drawing programs.";

/// Choice.
pub(crate) const PNG: &str = "PNG";

/// Tooltip of the choice of a PNG picture.
pub(crate) const PIXELS_FOR_VIDEO_AND_WEB_PAGES: &str = "Pixels, for video and web pages.";

/// Choice.
pub(crate) const LIGHT_BACKGROUND: &str = "Light background";

/// Choice.
pub(crate) const DARK_BACKGROUND: &str = "Dark background";

/// Button.
pub(crate) const SAVE_TO: &str = "Save…";

/// Heading.
pub(crate) const CHANGE_TITLE_AND_NOTES: &str = "Change title and notes";

/// Name of a field.
pub(crate) const TITLE: &str = "Title";

/// Hint in an empty field.
pub(crate) const TITLE_OF_THE_LINE_UP: &str = "title of the line-up";

/// Name of a field.
pub(crate) const NOTES: &str = "Notes";

/// Hint in an empty field.
pub(crate) const NOTES_ON_THE_LINE_UP: &str = "notes on the line-up";

/// Field, in an error.
pub(crate) const THE_TITLE: &str = "the title";

/// Field, in an error.
pub(crate) const THE_TEXT: &str = "the text";

/// Button.
pub(crate) const CHANGE: &str = "Change";

/// Button.
pub(crate) const CLOSE: &str = "Close";

/// Heading.
pub(crate) const ON_A_DRAWING: &str = "On a drawing";

/// Keys or buttons of the mouse, in the list of keys.
pub(crate) const ARROWS: &str = "Arrows";

/// What keys or buttons of the mouse do.
pub(crate) const PAN_WITH_SHIFT_PAN_FURTHER: &str = "Pan. With Shift, pan further.";

/// Keys or buttons of the mouse, in the list of keys.
pub(crate) const WHEEL: &str = "Wheel";

/// What keys or buttons of the mouse do.
pub(crate) const ZOOM_IN_OR_OUT: &str = "Zoom in or out at the pointer.";

/// Keys or buttons of the mouse, in the list of keys.
pub(crate) const DRAG: &str = "Drag";

/// What dragging does, in the list of keys.
pub(crate) const MEASURE_OR_PAN: &str = "On the outline, measure a distance and an angle. On a plot, pan.";

/// Keys or buttons of the mouse, in the list of keys.
pub(crate) const RIGHT_DRAG_SPACE_AND_DRAG: &str = "Right drag, Space and drag";

/// What keys or buttons of the mouse do.
pub(crate) const PAN: &str = "Pan.";

/// Keys or buttons of the mouse, in the list of keys.
pub(crate) const ESCAPE: &str = "Escape";

/// What keys or buttons of the mouse do.
pub(crate) const CLEAR_THE_MEASUREMENT: &str = "Clear the measurement.";

/// Keys or buttons of the mouse, in the list of keys.
pub(crate) const TAB_SHIFT_TAB: &str = "Tab, Shift+Tab";

/// What keys or buttons of the mouse do.
pub(crate) const MOVE_BETWEEN_CONTROLS: &str = "Move between controls.";

/// What Spandrel does, in the dialog about it.
pub(crate) const WHAT_SPANDREL_DOES: &str = "Compares bicycle framesets. Each ± covers the rounding of published figures and the assumptions made. Grey marks no clear difference.";

/// Caution in the dialog about Spandrel.
pub(crate) const CAUTION: &str = "Spandrel calculates from published figures and has not seen the frame. A longer fork, a wide tyre, a large rotor, a raised seat post or toe overlap can cause a crash. Keep to the maker's limits and local rules, and have a competent mechanic check the built bicycle.";

/// Licences in the dialog about Spandrel.
pub(crate) const LICENCE: &str = "Licence: MIT or Apache 2.0. Typeface: Open Sans.";

/// Asks before unsaved changes are lost; `what` is a whole sentence.
pub(crate) fn has_changes_that_are_not_saved(name: &dyn Display, what: &dyn Display) -> String {
    format!("“{name}” has changes that are not saved. {what}")
}

/// Heading.
pub(crate) fn spandrel_version(env: &dyn Display) -> String {
    format!("Spandrel {env}")
}

/// What is saved, at the beginning of a sentence.
pub(crate) const THIS_LINE_UP: &str = "This line-up";

/// What a file holds, in a sentence.
pub(crate) const THE_FILE_OF_THIS_LINE_UP: &str = "the file of this line-up";

/// Title of a question before saving.
pub(crate) const THE_FILE_HAS_CHANGED: &str = "The file has changed";

/// Title of a question before saving.
pub(crate) const REPLACE_THIS_FILE: &str = "Replace this file?";

/// Title of a question before saving.
pub(crate) const SAVE_THE_MISSING_FILE_AGAIN: &str = "The file is gone. Save it again?";

/// Title of a question before saving: the folder is missing.
pub(crate) const CREATE_THE_MISSING_FOLDER_AGAIN: &str = "The folder is gone. Create it again?";

/// Explains a question before saving: the folder is missing.
pub(crate) const FOLDER_AND_FILE_ARE_GONE: &str = "The folder has been deleted or moved, together with the file.";

/// Title of a question before saving.
pub(crate) const REPLACE_A_WRITE_PROTECTED_FILE: &str = "Replace a write-protected file?";

/// What stands in the way of saving.
pub(crate) const FILE_IS_READ_ONLY: &str = "The file is marked as read-only.";

/// Title of a question before saving: the file is a link that leads nowhere.
pub(crate) const CREATE_THE_FILE_OF_A_LINK: &str = "Create the file that the link names?";

/// Explains the answer Keep both.
pub(crate) const WHAT_KEEP_BOTH_DOES: &str = "Keep both: saves this version beside it under a new name.";

/// Explains the answer Read again.
pub(crate) const WHAT_READ_AGAIN_DOES: &str = "Read again: shows the version on disk. Undo brings this version back.";

/// Explains the answer Replace.
pub(crate) const WHAT_REPLACE_DOES: &str = "Replace: saves this version over the one on disk.";

/// Button.
pub(crate) const KEEP_BOTH: &str = "Keep both";

/// Button.
pub(crate) const READ_AGAIN: &str = "Read again";

/// Button.
pub(crate) const REPLACE: &str = "Replace";

/// Button.
pub(crate) const SAVE_ELSEWHERE: &str = "Save elsewhere…";

/// Button.
pub(crate) const SAVE_AGAIN: &str = "Save again";

/// Button.
pub(crate) const CREATE_FOLDER_AND_SAVE: &str = "Create folder and save";

/// Button.
pub(crate) const CREATE_FILE: &str = "Create file";

/// What stands in the way of saving.
pub(crate) const THE_FILE_EXISTS_ALREADY: &str = "The file exists already.";

/// Heading.
pub(crate) const OPEN_A_SECOND_TIME: &str = "Open a second time?";

/// Explains what happens when a line-up is open in two windows.
pub(crate) const OPEN_IN_ANOTHER_WINDOW: &str =
    "This line-up is already open in another window. Saving asks first if the other window has saved its changes.";

/// Heading.
pub(crate) const RESTORE_UNSAVED_WORK: &str = "Restore unsaved work?";

/// Where unsaved work comes from: it has no file.
pub(crate) const IT_WAS_NEVER_SAVED: &str = "It was never saved to a file of its own.";

/// Warns that the file of unsaved work has changed since.
pub(crate) const FILE_HAS_CHANGED_OR_IS_GONE: &str =
    "The file has changed since or is gone. Saving asks before it replaces the file.";

/// Button.
pub(crate) const RESTORE: &str = "Restore";

/// Button.
pub(crate) const DISCARD: &str = "Discard";

/// Button.
pub(crate) const DECIDE_LATER: &str = "Decide later";

/// What is saved, at the beginning of a sentence.
pub(crate) fn frame(what: &dyn Display) -> String {
    format!("Frame {what}")
}

/// What a file holds, in a sentence.
pub(crate) fn the_file_of_frame(what: &dyn Display) -> String {
    format!("the file of frame {what}")
}

/// Explains a question before saving: the file was changed by another.
pub(crate) fn another_program_or_window(here: &dyn Display) -> String {
    format!("Another program or window has changed this file. {here} does not include those changes.")
}

/// Explains a question before saving: another file has this name.
pub(crate) fn a_file_with_this_name(file_of: &dyn Display) -> String {
    format!("A file with this name exists already. It is not {file_of}.")
}

/// Explains a question before saving: the file is missing.
pub(crate) fn this_was_it_has_been(file_of: &dyn Display) -> String {
    format!("This was {file_of}. It has been deleted or moved.")
}

/// Explains a question before saving: the file is a link that leads nowhere.
pub(crate) fn this_is_a_link(target: &dyn Display) -> String {
    format!("This is a link to {target}. That file does not exist.")
}

/// When unsaved work was last changed, at the end of a sentence.
pub(crate) fn last_changed(age: &dyn Display) -> String {
    format!(", last changed {age}")
}

/// Asks whether unsaved work is restored; `age` says when it was last changed.
pub(crate) fn spandrel_closed_before_was_saved(name: &dyn Display, frames: &dyn Display, age: &dyn Display) -> String {
    format!("Spandrel closed before “{name}” was saved. The line-up has {frames}{age}.")
}

/// Which of several line-ups with unsaved work a question is about.
pub(crate) fn of_line_ups_with_unsaved_work(number: &dyn Display, of: &dyn Display) -> String {
    format!("{number} of {of} line-ups with unsaved work")
}

/// Keys of the views of a group, in the list of keys.
pub(crate) const ALT_AND_A_DIGIT: &str = "Alt+1, Alt+2, …";

/// What [`ALT_AND_A_DIGIT`] does.
pub(crate) const SHOWS_A_VIEW_OF_THIS_GROUP: &str = "Shows the first, second, … view of this group.";
