//! What each frame of the window sets in the state, asked for or not: the end of a gesture, the table of figures, the title,
//! and what other parts of the window ask and tell the user.

use egui::{Context, ViewportCommand};

use super::app::Window;
use super::labels::notices as labels;
use super::question::Question;
use crate::units::visible;
use crate::words::comparison_table;

impl Window {
    /// A gesture is over when no button is held and no field is being typed in.
    pub(super) fn end_gesture(&mut self, ctx: &Context) {
        if !ctx.input(|i| i.pointer.any_down()) && !ctx.text_edit_focused() {
            self.document.end_gesture();
        }
    }

    /// The table of figures follows the document.
    pub(super) fn renew_table(&mut self) {
        if self.table.0 != self.document.revision() {
            let units = self.document.lineup().settings.units;
            self.table = (self.document.revision(), comparison_table(self.document.findings(), units));
        }
    }

    /// The window's title follows the document's name, with a mark while it is unsaved.
    pub(super) fn set_title(&mut self, ctx: &Context) {
        let mark = if self.document.is_unsaved() { " *" } else { "" };
        let title = labels::spandrel(&visible(&self.document.name()), &mark);
        if title != self.moment.title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.moment.title = title;
        }
    }

    /// The step of zoom that was asked for is done: the views have shown it.
    pub(super) fn end_zoom(&mut self) {
        self.moment.zoom = 1.0;
    }

    /// Asks a question, in place of any that stands open.
    pub(super) fn put_question(&mut self, question: Question) {
        self.moment.question = Some(question);
    }

    /// Closes the question that stands open.
    pub(super) fn drop_question(&mut self) {
        self.moment.question = None;
    }

    /// Adds a notice.
    pub(super) fn notify(&mut self, text: impl Into<String>) {
        self.moment.notify(text);
    }

    /// Writes the words at the left end of the status line.
    pub(super) fn say(&mut self, words: impl Into<String>) {
        self.moment.status = words.into();
    }

    /// Lets the window close at the desktop's next request.
    pub(super) fn let_close(&mut self) {
        self.moment.may_close = true;
    }

    /// What is here stands in no file now: closing asks.
    pub(super) fn lose_saved(&mut self) {
        self.document.lose_saved();
    }
}
