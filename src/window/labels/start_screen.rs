//! The start screen, and the menu that adds a frame.

/// Heading.
pub(crate) const COMPARE_BICYCLE_FRAMESETS: &str = "Compare bicycle framesets";

/// Heading of the list of recent files.
pub(crate) const RECENT: &str = "Recent line-ups and frames";

/// Note at the bottom of the start screen.
pub(crate) const DROP_OR_F1: &str = "You can also drop files on the window. F1 lists all keyboard shortcuts.";

/// Menu in Edit.
pub(crate) const ADD_A_FRAME: &str = "Add a frame";
