//! The one table of commands: label, shortcut, menu and tooltip of everything that can be asked for without choosing a
//! value. It feeds the menus, the keyboard, the list of shortcuts and the tests.
//!
//! It does nothing itself: `apply` does. Invariant: no two commands share a label or a shortcut.

use std::sync::LazyLock;

use egui::{Key, KeyboardShortcut, Modifiers};

use super::entry::is_untouched;
use super::session::Appearance;
use super::view_id::ViewId;

/// A command of the menus, with a key for some.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the table below describes each")]
pub enum Command {
    New,
    Open,
    OpenByPath,
    PasteTable,
    NewFrame,
    Save,
    SaveAs,
    SaveFrame,
    SavePicture,
    CopyPicture,
    CopyFigures,
    Publish,
    PublishAgain,
    Quit,
    Undo,
    Redo,
    /// Leads to what can be decided about the chosen figure.
    Decide,
    SelectNext,
    SelectPrevious,
    MoveUp,
    MoveDown,
    LargerSize,
    SmallerSize,
    MakeReference,
    ShowOrHide,
    Remove,
    Words,
    /// Brings a view to the front.
    Show(ViewId),
    NextView,
    PreviousView,
    Fit,
    ZoomIn,
    ZoomOut,
    Wheels,
    Grid,
    Dimensions,
    Appearance(Appearance),
    LargerText,
    SmallerText,
    NormalText,
    Guide,
    Shortcuts,
    About,
}

/// The menu that a command is listed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "their labels say it")]
pub enum Menu {
    File,
    Edit,
    Lineup,
    View,
    Appearance,
    Help,
}

impl Menu {
    /// All, from left to right.
    pub const ALL: [Self; 6] = [Self::File, Self::Edit, Self::Lineup, Self::View, Self::Appearance, Self::Help];

    /// Its name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::File => "File",
            Self::Edit => "Edit",
            Self::Lineup => "Line-up",
            Self::View => "View",
            Self::Appearance => "Appearance",
            Self::Help => "Help",
        }
    }
}

/// What is fixed about a command.
#[derive(Debug)]
pub struct About {
    /// Command that this is about.
    pub command: Command,
    /// Its name on screen.
    pub label: &'static str,
    /// What it does, in a sentence.
    pub tooltip: &'static str,
    /// Menu that the command stands in.
    pub menu: Menu,
    /// Keys that give the command.
    pub shortcut: Option<KeyboardShortcut>,
    /// Whether its keys work while a text field is being typed in.
    pub works_while_typing: bool,
    /// Whether a rule is drawn above it in its menu.
    pub begins_group: bool,
}

const PLAIN: Modifiers = Modifiers::NONE;
const CTRL: Modifiers = Modifiers::COMMAND;
const SHIFT: Modifiers = Modifiers::SHIFT;
const ALT: Modifiers = Modifiers::ALT;
const CTRL_SHIFT: Modifiers = Modifiers { alt: false, ctrl: false, shift: true, mac_cmd: false, command: true };
const DIGITS: [Key; 9] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];

/// Keys of a view: Ctrl with the digits, then Alt with the digits from 1 on.
fn view_keys(view: ViewId) -> Option<KeyboardShortcut> {
    let place = view.place();
    let (modifiers, key) = DIGITS.get(place).map_or_else(|| (ALT, DIGITS.get(place - DIGITS.len())), |key| (CTRL, Some(key)));
    key.and_then(|key| keys(modifiers, *key))
}

#[expect(clippy::unnecessary_wraps, reason = "the table's column is optional")]
const fn keys(modifiers: Modifiers, key: Key) -> Option<KeyboardShortcut> {
    Some(KeyboardShortcut::new(modifiers, key))
}

fn row(command: Command, menu: Menu, label: &'static str, shortcut: Option<KeyboardShortcut>, tooltip: &'static str) -> About {
    About { command, label, tooltip, menu, shortcut, works_while_typing: false, begins_group: false }
}

impl About {
    /// Its keys work while a text field is being typed in, too.
    fn always(mut self) -> Self {
        self.works_while_typing = true;
        self
    }

    /// A rule goes above it.
    fn group(mut self) -> Self {
        self.begins_group = true;
        self
    }
}

/// All commands, in the order of menus.
#[must_use]
pub fn table() -> &'static [About] {
    static TABLE: LazyLock<Vec<About>> = LazyLock::new(build);
    &TABLE
}

/// What is fixed about `command`.
#[must_use]
pub fn about(command: Command) -> Option<&'static About> {
    table().iter().find(|a| a.command == command)
}

fn build() -> Vec<About> {
    let mut rows = file_rows();
    rows.extend(lineup_rows());
    for view in ViewId::ALL {
        let shown = row(Command::Show(view), Menu::View, view.label(), view_keys(view), view.tooltip());
        // With Alt, a digit may also be a letter that is being typed.
        let shown = if view.place() < DIGITS.len() { shown.always() } else { shown };
        rows.push(if view.begins_group() { shown.group() } else { shown });
    }
    rows.extend(view_rows());
    rows
}

fn file_rows() -> Vec<About> {
    use Command as C;
    use Menu as M;
    vec![
        row(C::New, M::File, "New line-up", keys(CTRL, Key::N), "Starts an empty line-up.").always(),
        row(C::Open, M::File, "Open…", keys(CTRL, Key::O), "Adds frame files to the line-up, or opens a saved line-up.").always(),
        row(C::OpenByPath, M::File, "Open by path…", keys(CTRL_SHIFT, Key::O), "Opens files by their paths, typed or pasted.")
            .always(),
        row(
            C::PasteTable,
            M::File,
            "Paste or import a geometry table…",
            keys(CTRL_SHIFT, Key::V),
            "Reads a geometry table copied from a web page or spreadsheet. Ctrl+V also works.",
        )
        .always()
        .group(),
        row(C::NewFrame, M::File, "New frame", keys(CTRL_SHIFT, Key::N), "Adds an empty frameset to fill in as a table.")
            .always(),
        row(C::Save, M::File, "Save", keys(CTRL, Key::S), "Saves the line-up with its frames, so that it opens anywhere.")
            .always()
            .group(),
        row(C::SaveAs, M::File, "Save as…", keys(CTRL_SHIFT, Key::S), "Saves the line-up under another name.").always(),
        row(C::SaveFrame, M::File, "Save frame file…", keys(CTRL_SHIFT, Key::F), "Saves the selected frameset as a frame file.")
            .always(),
        row(
            C::SavePicture,
            M::File,
            "Save picture…",
            keys(CTRL, Key::E),
            "Saves this view as an SVG or PNG picture of any size.",
        )
        .group(),
        row(C::CopyPicture, M::File, "Copy picture", keys(CTRL_SHIFT, Key::C), "Copies this view to the clipboard as a picture."),
        row(
            C::CopyFigures,
            M::File,
            "Copy figures",
            keys(CTRL_SHIFT, Key::T),
            "Copies the table of figures to the clipboard as tab-separated text.",
        ),
        row(
            C::Publish,
            M::File,
            "Publish the sheet…",
            keys(CTRL, Key::P),
            "Publishes the sheet to a folder: pictures, animation, web page, PDF and tables.",
        )
        .always()
        .group(),
        row(
            C::PublishAgain,
            M::File,
            "Publish again",
            keys(CTRL_SHIFT, Key::P),
            "Publishes to the same folder. Files that were changed since are kept.",
        )
        .always(),
        row(C::Quit, M::File, "Quit", keys(CTRL, Key::Q), "Closes the window.").always().group(),
    ]
}

fn lineup_rows() -> Vec<About> {
    use Command as C;
    use Menu as M;
    vec![
        row(C::Undo, M::Edit, "Undo", keys(CTRL, Key::Z), "Undoes the last change."),
        row(C::Redo, M::Edit, "Redo", keys(CTRL_SHIFT, Key::Z), "Redoes the last change that was undone."),
        row(
            C::Decide,
            M::Edit,
            "Use, ignore or measure",
            keys(CTRL, Key::M),
            "Moves the keyboard to the choices for this figure: use it anyway, ignore it, or enter what you measured.",
        )
        .always()
        .group(),
        row(
            C::SelectPrevious,
            M::Lineup,
            "Select the frame above",
            keys(PLAIN, Key::PageUp),
            "Selects the frame above in the line-up.",
        ),
        row(
            C::SelectNext,
            M::Lineup,
            "Select the frame below",
            keys(PLAIN, Key::PageDown),
            "Selects the frame below in the line-up.",
        ),
        row(C::MoveUp, M::Lineup, "Move up", keys(ALT, Key::ArrowUp), "Moves the selected frame up. Letters follow the order.")
            .group(),
        row(
            C::MoveDown,
            M::Lineup,
            "Move down",
            keys(ALT, Key::ArrowDown),
            "Moves the selected frame down. Letters follow the order.",
        ),
        row(
            C::SmallerSize,
            M::Lineup,
            "Smaller size",
            keys(ALT, Key::ArrowLeft),
            "Shows the next smaller size of the selected frame.",
        ),
        row(
            C::LargerSize,
            M::Lineup,
            "Larger size",
            keys(ALT, Key::ArrowRight),
            "Shows the next larger size of the selected frame.",
        ),
        row(
            C::MakeReference,
            M::Lineup,
            "Set as reference",
            keys(PLAIN, Key::R),
            "Compares the other frames with the selected one.",
        )
        .group(),
        row(C::ShowOrHide, M::Lineup, "Show or hide", keys(PLAIN, Key::H), "Shows or hides the selected frame."),
        row(
            C::Remove,
            M::Lineup,
            "Remove",
            keys(PLAIN, Key::Delete),
            "Removes the selected frame from the line-up. Its file is kept.",
        )
        .group(),
        row(
            C::Words,
            M::Lineup,
            "Title and notes…",
            keys(CTRL, Key::T),
            "Edits the title and notes, which are saved with the line-up.",
        )
        .group(),
    ]
}

fn view_rows() -> Vec<About> {
    use Command as C;
    use Menu as M;
    vec![
        row(C::NextView, M::View, "Next view", keys(CTRL, Key::PageDown), "Shows the view to the right of this one.")
            .always()
            .group(),
        row(C::PreviousView, M::View, "Previous view", keys(CTRL, Key::PageUp), "Shows the view to the left of this one.")
            .always(),
        row(C::Fit, M::View, "Zoom to fit", keys(PLAIN, Key::F), "Zooms so that the whole drawing is visible.").group(),
        row(C::ZoomIn, M::View, "Zoom in", keys(PLAIN, Key::Plus), "Enlarges the drawing about its centre."),
        row(C::ZoomOut, M::View, "Zoom out", keys(PLAIN, Key::Minus), "Shrinks the drawing about its centre."),
        row(C::Wheels, M::View, "Wheels", keys(PLAIN, Key::W), "Shows or hides the wheels.").group(),
        row(C::Grid, M::View, "Grid", keys(PLAIN, Key::G), "Shows or hides the grid."),
        row(C::Dimensions, M::View, "Dimensions", keys(PLAIN, Key::D), "Shows or hides the reference's dimensions."),
        row(
            C::Appearance(Appearance::System),
            M::Appearance,
            "Follow the system",
            None,
            "Uses light or dark colours as the system does.",
        ),
        row(C::Appearance(Appearance::Light), M::Appearance, "Light", None, "Uses dark lines on a light background."),
        row(C::Appearance(Appearance::Dark), M::Appearance, "Dark", None, "Uses light lines on a dark background."),
        row(C::LargerText, M::Appearance, "Larger text", keys(CTRL, Key::Plus), "Enlarges all text and controls.")
            .always()
            .group(),
        row(C::SmallerText, M::Appearance, "Smaller text", keys(CTRL, Key::Minus), "Shrinks all text and controls.").always(),
        row(
            C::NormalText,
            M::Appearance,
            "Reset text size",
            keys(CTRL, Key::Num0),
            "Returns text and controls to their normal size.",
        )
        .always(),
        row(C::Guide, M::Help, "User guide", keys(SHIFT, Key::F1), "Shows how to use Spandrel, and what its files hold.")
            .always(),
        row(C::Shortcuts, M::Help, "Keyboard shortcuts", keys(PLAIN, Key::F1), "Lists all keyboard shortcuts.").always(),
        row(C::About, M::Help, "About Spandrel", None, "Shows the version, cautions and licence."),
    ]
}

/// Keys that do the same as a command's own, for keyboards and habits that differ.
const ALSO: [(Modifiers, Key, Command); 6] = [
    (CTRL, Key::Y, Command::Redo),
    (CTRL, Key::Equals, Command::LargerText),
    (PLAIN, Key::Equals, Command::ZoomIn),
    (PLAIN, Key::Home, Command::Fit),
    (CTRL, Key::D, Command::Remove),
    (CTRL_SHIFT, Key::E, Command::SavePicture),
];

/// Takes the commands whose keys were pressed out of the input, in the order in which they were pressed, each as often.
pub(crate) fn pressed(ctx: &egui::Context) -> Vec<Command> {
    let is_typing = ctx.text_edit_focused();
    let is_untouched = is_untouched(ctx);
    let is_picking = ctx.any_popup_open();
    let works = |about: &About, shortcut: KeyboardShortcut| {
        let is_undo = matches!(about.command, Command::Undo | Command::Redo);
        let while_typing = about.works_while_typing || (is_undo && is_untouched);
        (!is_typing || while_typing) && !(is_picking && shortcut.modifiers.is_none())
    };
    let command_of = |held: Modifiers, key: Key| {
        let in_table = table().iter().find_map(|about| {
            let shortcut = about.shortcut?;
            let is_meant = shortcut.logical_key == key && matches(held, shortcut.modifiers, key) && works(about, shortcut);
            is_meant.then_some(about.command)
        });
        let also = ALSO.iter().filter(|_| !is_typing && !is_picking);
        let mut also = also.filter(|(asked, k, _)| *k == key && matches(held, *asked, key));
        in_table.or_else(|| also.next().map(|(.., command)| *command))
    };
    let mut commands = Vec::new();
    ctx.input_mut(|input| {
        input.events.retain(|event| {
            let egui::Event::Key { key, pressed: true, modifiers, .. } = event else { return true };
            let command = command_of(*modifiers, *key);
            commands.extend(command);
            command.is_none()
        });
    });
    commands
}

/// Whether the keys held are exactly those asked for. On many keyboards + is itself a shifted key, so shift is free there.
fn matches(held: Modifiers, asked: Modifiers, key: Key) -> bool {
    let held = if key == Key::Plus { Modifiers { shift: asked.shift, ..held } } else { held };
    held.matches_exact(asked)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn labels_and_shortcuts_are_unique_and_tooltips_are_sentences() {
        let mut labels = BTreeSet::new();
        let mut shortcuts = BTreeSet::new();
        for about in table() {
            assert!(labels.insert(about.label), "{} twice", about.label);
            assert!(about.tooltip.ends_with('.'), "{}", about.label);
            if let Some(shortcut) = about.shortcut {
                assert!(shortcuts.insert(format!("{shortcut:?}")), "keys of {} twice", about.label);
            }
        }
        for (modifiers, key, _) in ALSO {
            assert!(shortcuts.insert(format!("{:?}", KeyboardShortcut::new(modifiers, key))), "{key:?} twice");
        }
    }
}
