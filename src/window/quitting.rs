//! Quitting while something is published or a picture is made: the user is asked first, and the window closes when the
//! work has reported its end, so that no folder is left half exchanged.

use egui::{Context, ViewportCommand};

use super::app::Window;
use super::question::{Answer, Busy, Ending, Question, Then};
use super::work::Work;

impl Window {
    /// Lets the window close, or asks first.
    pub(super) fn take_close(&mut self, ctx: &Context) {
        if ctx.input(|i| i.viewport().close_requested()) && !self.moment.may_close {
            if matches!(self.moment.question, Some(Question::Busy { .. })) {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            } else if self.document.is_unsaved() {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                if !matches!(self.moment.question, Some(Question::Unsaved(_))) {
                    self.ask_about(Then::Quit);
                }
            } else if self.busy().is_some() {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                self.quit(ctx);
            } else {
                self.let_close();
            }
        }
    }

    /// What would be broken off by closing now.
    pub(super) fn busy(&self) -> Option<Busy> {
        if self.work.iter().any(Work::is_long) {
            return Some(Busy::Publishing);
        }
        self.work.iter().any(|work| work.can_stop).then_some(Busy::Picture)
    }

    /// Closes the window, or asks about what still goes on. Unsaved work was asked about before.
    pub(super) fn quit(&mut self, ctx: &Context) {
        let Some(busy) = self.busy() else {
            self.let_close();
            ctx.send_viewport_cmd(ViewportCommand::Close);
            return;
        };
        let is_stopping = self.work.iter().filter(|work| work.can_stop).all(Work::is_stopping);
        let ending = if is_stopping { Ending::Stopping } else { Ending::Asked };
        self.put_question(Question::Busy { busy, ending, revision: self.document.revision() });
    }

    /// Takes the answer. The question stays until the work has ended: meanwhile nothing can be changed.
    pub(super) fn answer_busy(&mut self, answer: &Answer, busy: Busy, revision: u64) {
        let ending = match answer {
            Answer::Wait => Ending::Waiting,
            Answer::StopWork => {
                self.stop_work();
                Ending::Stopping
            }
            _ => return,
        };
        self.put_question(Question::Busy { busy, ending, revision });
    }

    /// Stops what goes on beside the window. Publishing stays known until its thread reports.
    pub(super) fn stop_work(&mut self) {
        for work in self.work.iter().filter(|work| work.can_stop) {
            work.stop();
        }
        self.work.retain(|work| !work.can_stop || work.is_long());
    }

    /// Closes the window when what it waited for has ended.
    pub(super) fn go_on_quitting(&mut self, ctx: &Context) {
        let Some(Question::Busy { ending, revision, .. }) = self.moment.question else { return };
        if self.busy().is_some() {
            return;
        }
        self.drop_question();
        if ending == Ending::Asked || revision != self.document.revision() {
            // Nothing was agreed to, or not for what is here now.
            self.leave(Then::Quit, ctx);
        } else {
            self.quit(ctx);
        }
    }

    /// The window stays, because there is something to read about what ended.
    pub(super) fn stay_open(&mut self) {
        if matches!(self.moment.question, Some(Question::Busy { .. })) {
            self.drop_question();
        }
    }
}
