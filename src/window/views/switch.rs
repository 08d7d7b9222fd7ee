//! A switch among a view's tools. Its label, tooltip and keys are those of its command.

use egui::Ui;

use super::super::commands::{Command, about};
use super::super::requests::Requests;

/// A switch among a view's tools, with the label of its command.
pub(crate) fn switch_ui(ui: &mut Ui, is_on: bool, command: Command, out: &mut Requests) {
    let Some(about) = about(command) else { return };
    let keys = about.shortcut.map(|s| ui.ctx().format_shortcut(&s)).unwrap_or_default();
    let response = ui.selectable_label(is_on, about.label).on_hover_text(format!("{} {keys}", about.tooltip));
    if response.clicked() {
        out.command(command);
    }
}
