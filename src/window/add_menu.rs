//! What adds a frame, the same wherever it is offered: on the start screen, below “+ Add…” and in the Edit menu.

use egui::Ui;

use super::commands::Command;
use super::labels::commands as labels;
use super::menu::{commands_ui, recent_ui};
use super::requests::Requests;
use super::shown::Shown;

/// The ways, the quickest first.
pub(crate) const WAYS: [Command; 4] = [Command::PasteTable, Command::NewFrame, Command::Open, Command::Sample];

/// Lists the ways, and the recent files, in a menu.
pub(crate) fn add_menu_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    commands_ui(ui, &WAYS, shown, out);
    ui.menu_button(labels::RECENT_FILES, |ui| recent_ui(ui, shown, out));
}
