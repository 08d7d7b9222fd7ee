//! Notices, the line at the bottom, what the window does with files: labels, tooltips and sentences.

use std::fmt::Display;

/// Title of the window until a line-up is shown.
pub(crate) const SPANDREL: &str = "Spandrel";

/// Title of the window.
pub(crate) fn spandrel(name: &dyn Display, mark: &dyn Display) -> String {
    format!("{name}{mark} – Spandrel")
}

/// Line at the bottom of the window.
pub(crate) const NOTHING_TO_UNDO: &str = "Nothing to undo.";

/// Line at the bottom of the window.
pub(crate) const NOTHING_TO_REDO: &str = "Nothing to redo.";

/// Line at the bottom of the window.
pub(crate) const ADD_A_FRAME_FIRST: &str = "Add a frame first.";

/// Line at the bottom of the window.
pub(crate) fn done(words: &dyn Display) -> String {
    format!("Done: {words}.")
}

/// Line at the bottom of the window.
pub(crate) fn undid(label: &dyn Display) -> String {
    format!("Undid: {label}.")
}

/// Line at the bottom of the window.
pub(crate) fn redid(label: &dyn Display) -> String {
    format!("Redid: {label}.")
}

/// Line at the bottom of the window where the desktop has no file dialog.
pub(crate) const NO_FILE_DIALOG: &str = "No file dialog is available here. Enter the path.";

/// Line at the bottom of the window.
pub(crate) const PICTURE_COPIED_TO_THE_CLIPBOARD: &str = "Picture copied to the clipboard.";

/// Notice.
pub(crate) fn failed_try_again(label: &dyn Display) -> String {
    format!("{label} failed. Try again.")
}

/// Model of a new, empty frameset.
pub(crate) const NEW_FRAME: &str = "New frame";

/// Change, as Undo names it.
pub(crate) fn adding_the_specification(letter: &dyn Display) -> String {
    format!("adding the specification to {letter}")
}

/// Work in progress.
pub(crate) const CREATING_THE_PATTERN: &str = "Creating the pattern";

/// Name of a pattern’s file, to begin with.
pub(crate) fn bag(name: &dyn Display, size_label: &dyn Display) -> String {
    format!("{name}-{size_label}-bag")
}

/// Notice.
pub(crate) fn a_pattern_is_saved(path: &dyn Display) -> String {
    format!("{path}: a pattern is saved as .pdf or .svg")
}

/// Work in progress.
pub(crate) const CREATING_THE_PICTURE: &str = "Creating the picture";

/// Line at the bottom of the window.
pub(crate) const FIGURES_COPIED_TO_THE_CLIPBOARD: &str = "Figures copied to the clipboard as tab-separated text.";

/// Line at the bottom of the window.
pub(crate) fn saved(path: &dyn Display) -> String {
    format!("Saved {path}.")
}

/// Line at the bottom of the window when a table is to be copied as a picture.
pub(crate) fn is_a_table_copy(view: &dyn Display) -> String {
    format!("{view} is a table. Copy it as text.")
}

/// Files that were left when reading was stopped.
pub(crate) const ONE_FILE_WAS_NOT_READ: &str = "1 file was not read";

/// Files that were left when reading was stopped.
pub(crate) fn files_were_not_read(left: &dyn Display) -> String {
    format!("{left} files were not read")
}

/// Notice.
pub(crate) fn reading_was_stopped(left: &dyn Display) -> String {
    format!("Reading was stopped: {left}.")
}

/// What is saved, in a sentence.
pub(crate) const THE_LINE_UP: &str = "the line-up";

/// What is saved, in a sentence.
pub(crate) const THE_FRAME: &str = "the frame";

/// Change, as Undo names it.
pub(crate) const READING_THE_LINE_UP_AGAIN: &str = "reading the line-up again";

/// Notice.
pub(crate) fn not_saved_another_program(path: &dyn Display) -> String {
    format!("{path}: not saved, another program is writing to it; save again")
}

/// Notice.
pub(crate) fn not_saved_the_frame(path: &dyn Display) -> String {
    format!("{path}: not saved, the frame is no longer in the line-up")
}

/// Line at the bottom of the window.
pub(crate) fn read_again(path: &dyn Display) -> String {
    format!("Read {path} again.")
}

/// Change, as Undo names it.
pub(crate) fn reading_again(letter: &dyn Display) -> String {
    format!("reading {letter} again")
}

/// Notice.
pub(crate) fn holds_another_kind_of_file(path: &dyn Display) -> String {
    format!("{path}: holds another kind of file now; nothing was read")
}

/// Line at the bottom of the window.
pub(crate) const PUBLISHING_IS_BEING_STOPPED: &str = "Publishing is still being stopped: wait a moment, and publish again.";

/// Line at the bottom of the window when publishing is asked for twice.
pub(crate) const A_SHEET_IS_ALREADY_BEING_PUBLISHED: &str = "A sheet is already being published.";

/// Work in progress.
pub(crate) const PUBLISHING_THE_SHEET: &str = "Publishing the sheet";

/// Notice.
pub(crate) fn this_is_a_file_choose(folder: &dyn Display) -> String {
    format!("{folder}: this is a file. Choose a folder to publish to.")
}

/// Work in progress.
pub(crate) fn left_out(left_out: &dyn Display) -> String {
    format!("Left out: {left_out}")
}

/// Line at the bottom of the window.
pub(crate) fn publishing_was_stopped_nothing_was(folder: &dyn Display) -> String {
    format!("Publishing was stopped. Nothing was changed in {folder}.")
}

/// Line at the bottom of the window.
pub(crate) fn published_files_to(files: &dyn Display, folder: &dyn Display) -> String {
    format!("Published {files} files to {folder}.")
}

/// Notice.
pub(crate) fn a_sheet_is_saved(path: &dyn Display) -> String {
    format!("{path}: a sheet is saved as .png, .svg or .pdf")
}

/// Error.
pub(crate) const NO_CLIPBOARD: &str = "No clipboard is available. Save a file instead.";

/// Error.
pub(crate) const PICTURE_IS_NOT_COPIED: &str = "The picture could not be copied. Save it as a file instead.";

/// Name of a line-up without a title or file.
pub(crate) const NEW_LINE_UP: &str = "new line-up";

/// Field, in an error.
pub(crate) const THIS_TEXT: &str = "this text";

/// Answer to a question at a field.
pub(crate) const YES: &str = "Yes";

/// Answer to a question at a field.
pub(crate) const NO: &str = "No";

/// Notice of a typed text that a field refused.
pub(crate) fn was_not_accepted(name: &dyn Display, beginning: &dyn Display, sentence: &dyn Display) -> String {
    format!("{name}: “{beginning}” was not accepted: {sentence}")
}

/// Name of a line-up’s file, to begin with.
pub(crate) const LINE_UP: &str = "line-up";

/// Notice of a failure while files were read.
pub(crate) const READING_FAILED_OPEN_THE_FILES_AGAIN: &str = "Reading failed. Open the files again.";

/// Tooltip of the button that closes a notice.
pub(crate) const DISMISSES_THIS_NOTICE: &str = "Dismisses this notice.";

/// Button.
pub(crate) const DISMISS_ALL: &str = "Dismiss all";

/// Tooltip of the button that stops the reading of files.
pub(crate) const STOPS_AND_KEEPS_WHAT_IS_DONE: &str = "Stops. What is done so far is kept.";

/// Work in progress.
pub(crate) const STOPPING: &str = "Stopping";

/// Tooltip of the button that stops other work.
pub(crate) const STOPS: &str = "Stops.";

/// Button.
pub(crate) const STOP: &str = "Stop";

/// Name for screen readers.
pub(crate) fn dismiss_notice(index: &dyn Display) -> String {
    format!("Dismiss notice {index}")
}

/// Work in progress.
pub(crate) fn reading_of_files(done: &dyn Display, total: &dyn Display) -> String {
    format!("Reading: {done} of {total} files")
}

/// Work in progress.
pub(crate) fn progress(done: &dyn Display, of: &dyn Display) -> String {
    format!("{done} of {of}")
}

/// Notice.
pub(crate) fn is_no_longer_there(path: &dyn Display) -> String {
    format!("{path} is no longer there or cannot be read. Saving it again asks first.")
}

/// Line at the bottom of the window.
pub(crate) const RESTORED_IT_IS_NOT_SAVED_YET: &str = "Restored. It is not saved yet.";

/// How long ago something was.
pub(crate) const LESS_THAN_A_MINUTE_AGO: &str = "less than a minute ago";

/// Notice.
pub(crate) fn unsaved_work_cannot_be_kept_for_recovery(problem: &dyn Display) -> String {
    format!("Unsaved work cannot be kept for recovery. Save often. {problem}")
}

/// Notice.
pub(crate) fn unsaved_work_cannot_be_kept(problem: &dyn Display) -> String {
    format!("Unsaved work cannot be kept for recovery. Save soon. {problem}")
}

/// How long ago something was, in minutes.
pub(crate) fn minutes_ago(count: u64) -> String {
    format!("{count} minute{} ago", plural(count))
}

/// How long ago something was, in hours.
pub(crate) fn hours_ago(count: u64) -> String {
    format!("{count} hour{} ago", plural(count))
}

/// How long ago something was, in days.
pub(crate) fn days_ago(count: u64) -> String {
    format!("{count} day{} ago", plural(count))
}

fn plural(count: u64) -> &'static str {
    if count == 1 { "" } else { "s" }
}

/// Error.
pub(crate) const NO_DISPLAY: &str = "no window can be opened: there is no display (neither DISPLAY nor WAYLAND_DISPLAY leads to one); `spandrel figures` works without";

/// Error.
pub(crate) const DESKTOP_LIBRARY_IS_MISSING: &str = "no window can be opened: a desktop library is missing; on Debian and Ubuntu: apt install libxcursor1 libxi6 libxkbcommon-x11-0 libgl1";

/// Error.
pub(crate) const OPENGL_DOES_NOT_WORK: &str =
    "no window can be opened: OpenGL does not work here; LIBGL_ALWAYS_SOFTWARE=1 in the environment may help";

/// Title of a file dialog.
pub(crate) const OPEN_FRAME_FILES: &str = "Open frame files or a line-up";

/// Kind of file, in a file dialog.
pub(crate) const FRAMES_LINE_UPS_TABLES: &str = "Frames, line-ups, tables";

/// Kind of file, in a file dialog.
pub(crate) const ALL_FILES: &str = "All files";

/// Title of a file dialog.
pub(crate) const SAVE_THE_LINE_UP: &str = "Save the line-up";

/// Kind of file, in a file dialog.
pub(crate) const LINE_UP_CAPITAL: &str = "Line-up";

/// Title of a file dialog.
pub(crate) const SAVE_THE_FRAME_FILE: &str = "Save the frame file";

/// Kind of file, in a file dialog.
pub(crate) const FRAME_FILE: &str = "Frame file";

/// Title of a file dialog.
pub(crate) const SAVE_THE_PICTURE: &str = "Save the picture";

/// Title of a file dialog.
pub(crate) const SAVE_THE_SHEET: &str = "Save the sheet";

/// Kind of file, in a file dialog.
pub(crate) const PICTURES: &str = "Pictures";

/// Title of a file dialog.
pub(crate) const PUBLISH_THE_SHEET_INTO_THIS_FOLDER: &str = "Publish the sheet into this folder";

/// Title of a file dialog.
pub(crate) const SAVE_THE_PATTERN: &str = "Save the pattern";

/// Kind of file, in a file dialog.
pub(crate) const PDF_SVG: &str = "PDF, SVG";

/// Work in progress.
pub(crate) const A_FILE_DIALOG_IS_OPEN: &str = "A file dialog is open";

/// Error.
pub(crate) fn cannot_be_written(path: &dyn Display, why: &dyn Display) -> String {
    format!("{path}: cannot be written: {why}")
}
