//! What every question is built of: its heading, its answers, and which control has the keyboard first.

use egui::{RichText, Ui};

use super::question::Answer;
use super::requests::{Request, Requests};

/// Heading of a question.
pub(super) fn heading(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).heading());
    ui.add_space(4.0);
}

/// Button that gives an answer.
pub(super) fn button(ui: &mut Ui, label: &str, answer: Answer, out: &mut Requests) -> egui::Response {
    let response = ui.button(label);
    if response.clicked() {
        out.push(Request::Answer(answer));
    }
    response
}

/// Gives the keyboard to a control when the question has just appeared.
pub(super) fn focus_first(ui: &Ui, response: &egui::Response) {
    if ui.memory(|m| m.focused().is_none()) {
        response.request_focus();
    }
}
