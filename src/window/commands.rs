//! The one table of commands: label, shortcut, menu and tooltip of everything that can be asked for without choosing a
//! value. Labels and tooltips are written in `labels/commands.rs`. It feeds the menus, the keyboard, the list of shortcuts and the tests.
//!
//! It does nothing itself: `apply` does. Invariant: no two commands share a label or a shortcut.

use std::sync::LazyLock;

use egui::{Key, KeyboardShortcut, Modifiers};

use super::entry::is_untouched;
use super::labels::Named;
use super::labels::commands as labels;
use super::session::Appearance;
use super::view_id::{ViewGroup, ViewId};

/// A command of the menus, with a key for some.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the table below describes each")]
pub enum Command {
    New,
    Open,
    OpenByPath,
    PasteTable,
    NewFrame,
    /// Opens the sample comparison that is built in.
    Sample,
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
    /// Brings the view of a group to the front that was last seen there.
    ShowGroup(ViewGroup),
    /// Brings the view at this place of the group in front, 0 first.
    ShowPlace(usize),
    /// Brings a view to the front.
    Show(ViewId),
    NextView,
    PreviousView,
    Fit,
    ZoomIn,
    ZoomOut,
    Wheels,
    AllWheels,
    Grid,
    Dimensions,
    LinePatterns,
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
            Self::File => labels::FILE_MENU,
            Self::Edit => labels::EDIT_MENU,
            Self::Lineup => labels::LINEUP_MENU,
            Self::View => labels::VIEW_MENU,
            Self::Appearance => labels::APPEARANCE_MENU,
            Self::Help => labels::HELP_MENU,
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

/// Keys of a group: Ctrl with the digit of its place.
fn group_keys(group: ViewGroup) -> Option<KeyboardShortcut> {
    DIGITS.get(group.place()).and_then(|key| keys(CTRL, *key))
}

/// Keys of a view while its group is in front: Alt with the digit of its place there.
pub(crate) fn keys_in_group(view: ViewId) -> Option<KeyboardShortcut> {
    DIGITS.get(view.place_in_group()).and_then(|key| keys(ALT, *key))
}

#[expect(clippy::unnecessary_wraps, reason = "the table's column is optional")]
const fn keys(modifiers: Modifiers, key: Key) -> Option<KeyboardShortcut> {
    Some(KeyboardShortcut::new(modifiers, key))
}

fn row(command: Command, menu: Menu, named: Named, shortcut: Option<KeyboardShortcut>) -> About {
    let Named { label, tooltip } = named;
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
    for group in ViewGroup::ALL {
        if let Some(view) = group.only_view() {
            rows.push(row(Command::Show(view), Menu::View, view.named(), group_keys(group)).always().group());
            continue;
        }
        rows.push(row(Command::ShowGroup(group), Menu::View, group.named(), group_keys(group)).always().group());
        rows.extend(group.views().map(|view| row(Command::Show(view), Menu::View, view.named(), None)));
    }
    rows.extend(view_rows());
    rows
}

fn file_rows() -> Vec<About> {
    use Command as C;
    use Menu as M;
    vec![
        row(C::New, M::File, labels::NEW, keys(CTRL, Key::N)).always(),
        row(C::Open, M::File, labels::OPEN, keys(CTRL, Key::O)).always(),
        row(C::OpenByPath, M::File, labels::OPEN_BY_PATH, keys(CTRL_SHIFT, Key::O)).always(),
        row(C::PasteTable, M::File, labels::PASTE_TABLE, keys(CTRL_SHIFT, Key::V)).always().group(),
        row(C::NewFrame, M::File, labels::NEW_FRAME, keys(CTRL_SHIFT, Key::N)).always(),
        row(C::Sample, M::File, labels::SAMPLE, None),
        row(C::Save, M::File, labels::SAVE, keys(CTRL, Key::S)).always().group(),
        row(C::SaveAs, M::File, labels::SAVE_AS, keys(CTRL_SHIFT, Key::S)).always(),
        row(C::SaveFrame, M::File, labels::SAVE_FRAME, keys(CTRL_SHIFT, Key::F)).always(),
        row(C::SavePicture, M::File, labels::SAVE_PICTURE, keys(CTRL, Key::E)).always().group(),
        row(C::CopyPicture, M::File, labels::COPY_PICTURE, keys(CTRL_SHIFT, Key::C)).always(),
        row(C::CopyFigures, M::File, labels::COPY_FIGURES, keys(CTRL_SHIFT, Key::T)).always(),
        row(C::Publish, M::File, labels::PUBLISH, keys(CTRL, Key::P)).always().group(),
        row(C::PublishAgain, M::File, labels::PUBLISH_AGAIN, keys(CTRL_SHIFT, Key::P)).always(),
        row(C::Quit, M::File, labels::QUIT, keys(CTRL, Key::Q)).always().group(),
    ]
}

fn lineup_rows() -> Vec<About> {
    use Command as C;
    use Menu as M;
    vec![
        row(C::Undo, M::Edit, labels::UNDO, keys(CTRL, Key::Z)),
        row(C::Redo, M::Edit, labels::REDO, keys(CTRL_SHIFT, Key::Z)),
        row(C::Decide, M::Edit, labels::DECIDE, keys(CTRL, Key::M)).always().group(),
        row(C::SelectPrevious, M::Lineup, labels::SELECT_PREVIOUS, keys(PLAIN, Key::PageUp)),
        row(C::SelectNext, M::Lineup, labels::SELECT_NEXT, keys(PLAIN, Key::PageDown)),
        row(C::MoveUp, M::Lineup, labels::MOVE_UP, keys(ALT, Key::ArrowUp)).group(),
        row(C::MoveDown, M::Lineup, labels::MOVE_DOWN, keys(ALT, Key::ArrowDown)),
        row(C::SmallerSize, M::Lineup, labels::SMALLER_SIZE, keys(ALT, Key::ArrowLeft)),
        row(C::LargerSize, M::Lineup, labels::LARGER_SIZE, keys(ALT, Key::ArrowRight)),
        row(C::MakeReference, M::Lineup, labels::MAKE_REFERENCE, keys(PLAIN, Key::R)).group(),
        row(C::ShowOrHide, M::Lineup, labels::SHOW_OR_HIDE, keys(PLAIN, Key::H)),
        row(C::Remove, M::Lineup, labels::REMOVE, keys(PLAIN, Key::Delete)).group(),
        row(C::Words, M::Lineup, labels::TITLE_AND_NOTES, keys(CTRL, Key::T)).always().group(),
    ]
}

fn view_rows() -> Vec<About> {
    use Command as C;
    use Menu as M;
    vec![
        row(C::NextView, M::View, labels::NEXT_VIEW, keys(CTRL, Key::PageDown)).always().group(),
        row(C::PreviousView, M::View, labels::PREVIOUS_VIEW, keys(CTRL, Key::PageUp)).always(),
        row(C::Fit, M::View, labels::ZOOM_TO_FIT, keys(PLAIN, Key::F)).group(),
        row(C::ZoomIn, M::View, labels::ZOOM_IN, keys(PLAIN, Key::Plus)),
        row(C::ZoomOut, M::View, labels::ZOOM_OUT, keys(PLAIN, Key::Minus)),
        row(C::Wheels, M::View, labels::WHEELS, keys(PLAIN, Key::W)).group(),
        row(C::AllWheels, M::View, labels::ALL_WHEELS, None),
        row(C::Grid, M::View, labels::GRID, keys(PLAIN, Key::G)),
        row(C::Dimensions, M::View, labels::DIMENSIONS, keys(PLAIN, Key::D)),
        row(C::LinePatterns, M::View, labels::LINE_PATTERNS, None),
        row(C::Appearance(Appearance::System), M::Appearance, labels::FOLLOW_SYSTEM, None),
        row(C::Appearance(Appearance::Light), M::Appearance, labels::LIGHT, None),
        row(C::Appearance(Appearance::Dark), M::Appearance, labels::DARK, None),
        row(C::LargerText, M::Appearance, labels::LARGER_TEXT, keys(CTRL, Key::Plus)).always().group(),
        row(C::SmallerText, M::Appearance, labels::SMALLER_TEXT, keys(CTRL, Key::Minus)).always(),
        row(C::NormalText, M::Appearance, labels::RESET_TEXT_SIZE, keys(CTRL, Key::Num0)).always(),
        row(C::Guide, M::Help, labels::GUIDE, keys(SHIFT, Key::F1)).always(),
        row(C::Shortcuts, M::Help, labels::SHORTCUTS, keys(PLAIN, Key::F1)).always(),
        row(C::About, M::Help, labels::ABOUT, None),
    ]
}

/// Keys that do the same as a command's own, for keyboards and habits that differ.
const ALSO: [(Modifiers, Key, Command); 12] = [
    (CTRL, Key::Y, Command::Redo),
    (CTRL, Key::Equals, Command::LargerText),
    (PLAIN, Key::Equals, Command::ZoomIn),
    (PLAIN, Key::Home, Command::Fit),
    (CTRL, Key::D, Command::Remove),
    (CTRL_SHIFT, Key::E, Command::SavePicture),
    // With Alt, a digit may also be a letter that is being typed: these keys rest meanwhile, as all of this table do.
    (ALT, Key::Num1, Command::ShowPlace(0)),
    (ALT, Key::Num2, Command::ShowPlace(1)),
    (ALT, Key::Num3, Command::ShowPlace(2)),
    (ALT, Key::Num4, Command::ShowPlace(3)),
    (ALT, Key::Num5, Command::ShowPlace(4)),
    (ALT, Key::Num6, Command::ShowPlace(5)),
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
