//! Menus and commands: labels and tooltips.

use super::Named;

/// Menu.
pub(crate) const FILE_MENU: &str = "File";

/// Menu.
pub(crate) const EDIT_MENU: &str = "Edit";

/// Menu.
pub(crate) const LINEUP_MENU: &str = "Line-up";

/// Menu.
pub(crate) const VIEW_MENU: &str = "View";

/// Menu.
pub(crate) const APPEARANCE_MENU: &str = "Appearance";

/// Menu.
pub(crate) const HELP_MENU: &str = "Help";

/// Command.
pub(crate) const NEW: Named = Named { label: "New line-up", tooltip: "Starts an empty line-up." };

/// Command.
pub(crate) const OPEN: Named =
    Named { label: "Open files…", tooltip: "Adds frame files to the line-up, or opens a saved line-up." };

/// Command.
pub(crate) const OPEN_BY_PATH: Named =
    Named { label: "Open by path…", tooltip: "Opens files by their paths, typed or pasted." };

/// Command.
pub(crate) const PASTE_TABLE: Named = Named {
    label: "Paste a geometry table…",
    tooltip: "Reads a geometry table or a specification list copied from a web page or spreadsheet. Ctrl+V also works.",
};

/// Command.
pub(crate) const NEW_FRAME: Named =
    Named { label: "Type in a frameset", tooltip: "Adds an empty frameset to fill in as a table." };

/// Command.
pub(crate) const SAMPLE: Named = Named {
    label: "Sample comparison",
    tooltip: "Opens seven invented framesets as a line-up of your own. Nothing is saved until you save it.",
};

/// Command.
pub(crate) const SAVE: Named = Named { label: "Save", tooltip: "Saves the line-up with its frames, so that it opens anywhere." };

/// Command.
pub(crate) const SAVE_AS: Named = Named { label: "Save as…", tooltip: "Saves the line-up under another name." };

/// Command.
pub(crate) const SAVE_FRAME: Named =
    Named { label: "Save frame file…", tooltip: "Saves the selected frameset as a frame file." };

/// Command.
pub(crate) const SAVE_PICTURE: Named =
    Named { label: "Save picture…", tooltip: "Saves this view as an SVG or PNG picture of any size." };

/// Command.
pub(crate) const COPY_PICTURE: Named =
    Named { label: "Copy picture", tooltip: "Copies this view to the clipboard as a picture." };

/// Command.
pub(crate) const COPY_FIGURES: Named =
    Named { label: "Copy figures", tooltip: "Copies the table of figures to the clipboard as tab-separated text." };

/// Command.
pub(crate) const PUBLISH: Named = Named {
    label: "Publish the sheet…",
    tooltip: "Publishes the sheet to a folder: pictures, animation, web page, PDF and tables.",
};

/// Command.
pub(crate) const PUBLISH_AGAIN: Named =
    Named { label: "Publish again", tooltip: "Publishes to the same folder. Files that were changed since are kept." };

/// Command.
pub(crate) const QUIT: Named = Named { label: "Quit", tooltip: "Closes the window." };

/// Command.
pub(crate) const UNDO: Named = Named { label: "Undo", tooltip: "Undoes the last change." };

/// Command.
pub(crate) const REDO: Named = Named { label: "Redo", tooltip: "Redoes the last change that was undone." };

/// Command.
pub(crate) const DECIDE: Named = Named {
    label: "Use, ignore or measure",
    tooltip: "Moves the keyboard to the choices for this figure: use it anyway, ignore it, or enter what you measured.",
};

/// Command.
pub(crate) const SELECT_PREVIOUS: Named =
    Named { label: "Select the frame above", tooltip: "Selects the frame above in the line-up." };

/// Command.
pub(crate) const SELECT_NEXT: Named =
    Named { label: "Select the frame below", tooltip: "Selects the frame below in the line-up." };

/// Command.
pub(crate) const MOVE_UP: Named = Named { label: "Move up", tooltip: "Moves the selected frame up. Letters follow the order." };

/// Command.
pub(crate) const MOVE_DOWN: Named =
    Named { label: "Move down", tooltip: "Moves the selected frame down. Letters follow the order." };

/// Command.
pub(crate) const SMALLER_SIZE: Named =
    Named { label: "Smaller size", tooltip: "Shows the next smaller size of the selected frame." };

/// Command.
pub(crate) const LARGER_SIZE: Named =
    Named { label: "Larger size", tooltip: "Shows the next larger size of the selected frame." };

/// Command.
pub(crate) const MAKE_REFERENCE: Named =
    Named { label: "Set as reference", tooltip: "Compares the other frames with the selected one." };

/// Command.
pub(crate) const SHOW_OR_HIDE: Named = Named { label: "Show or hide", tooltip: "Shows or hides the selected frame." };

/// Command.
pub(crate) const REMOVE: Named =
    Named { label: "Remove", tooltip: "Removes the selected frame from the line-up. Its file is kept." };

/// Command.
pub(crate) const TITLE_AND_NOTES: Named =
    Named { label: "Title and notes…", tooltip: "Edits the title and notes, which are saved with the line-up." };

/// Command.
pub(crate) const NEXT_VIEW: Named = Named { label: "Next view", tooltip: "Shows the view to the right of this one." };

/// Command.
pub(crate) const PREVIOUS_VIEW: Named = Named { label: "Previous view", tooltip: "Shows the view to the left of this one." };

/// Command.
pub(crate) const ZOOM_TO_FIT: Named = Named { label: "Zoom to fit", tooltip: "Zooms so that the whole drawing is visible." };

/// Command.
pub(crate) const ZOOM_IN: Named = Named { label: "Zoom in", tooltip: "Enlarges the drawing about its centre." };

/// Command.
pub(crate) const ZOOM_OUT: Named = Named { label: "Zoom out", tooltip: "Shrinks the drawing about its centre." };

/// Command.
pub(crate) const WHEELS: Named = Named { label: "Wheels", tooltip: "Shows or hides the wheels." };

/// Command.
pub(crate) const ALL_WHEELS: Named = Named {
    label: "All wheels and saddles",
    tooltip: "Draws the wheels and the saddle of every frame, not only the reference's.",
};

/// Command.
pub(crate) const LINE_PATTERNS: Named =
    Named { label: "Line patterns", tooltip: "Draws each frame's line in its own pattern, for printing in black and white." };

/// Command.
pub(crate) const GRID: Named = Named { label: "Grid", tooltip: "Shows or hides the grid." };

/// Command.
pub(crate) const DIMENSIONS: Named = Named { label: "Dimensions", tooltip: "Shows or hides the reference's dimensions." };

/// Command.
pub(crate) const FOLLOW_SYSTEM: Named =
    Named { label: "Follow the system", tooltip: "Uses light or dark colours as the system does." };

/// Command.
pub(crate) const LIGHT: Named = Named { label: "Light", tooltip: "Uses dark lines on a light background." };

/// Command.
pub(crate) const DARK: Named = Named { label: "Dark", tooltip: "Uses light lines on a dark background." };

/// Command.
pub(crate) const LARGER_TEXT: Named = Named { label: "Larger text", tooltip: "Enlarges all text and controls." };

/// Command.
pub(crate) const SMALLER_TEXT: Named = Named { label: "Smaller text", tooltip: "Shrinks all text and controls." };

/// Command.
pub(crate) const RESET_TEXT_SIZE: Named =
    Named { label: "Reset text size", tooltip: "Returns text and controls to their normal size." };

/// Command.
pub(crate) const GUIDE: Named = Named { label: "User guide", tooltip: "Shows how to use Spandrel, and what its files hold." };

/// Command.
pub(crate) const SHORTCUTS: Named = Named { label: "Keyboard shortcuts", tooltip: "Lists all keyboard shortcuts." };

/// Command.
pub(crate) const ABOUT: Named = Named { label: "About Spandrel", tooltip: "Shows the version, cautions and licence." };

/// Button.
pub(crate) const RECENT_FILES: &str = "Recent files";

/// Line of a menu without recent files.
pub(crate) const NO_RECENT_FILES: &str = "No recent files";

/// Button.
pub(crate) const CLEAR_RECENT_FILES: &str = "Clear recent files";
