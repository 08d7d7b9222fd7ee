//! A switch among a view's tools.

use egui::Ui;

use super::super::commands::{Command, about};
use super::super::requests::Requests;

/// A switch among a view's tools.
pub(crate) fn switch_ui(ui: &mut Ui, label: &str, is_on: bool, command: Command, out: &mut Requests) {
    let tooltip = about(command).map(|a| {
        let keys = a.shortcut.map(|s| ui.ctx().format_shortcut(&s)).unwrap_or_default();
        format!("{} {keys}", a.tooltip)
    });
    let response = ui.selectable_label(is_on, label).on_hover_text(tooltip.unwrap_or_default());
    if response.clicked() {
        out.command(command);
    }
}
