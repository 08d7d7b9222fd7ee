//! The frameset that fields and choices change, and the edit that a change makes.

use std::sync::Arc;

use egui::Id;

use super::super::edits::Edit;
use super::super::labels::changes as labels;
use crate::frameset::{FrameIndex, Frameset};
use crate::units::System;

/// The frameset that is typed in.
#[derive(Clone, Copy)]
pub(crate) struct Sheet<'a> {
    /// Its place in the line-up.
    pub(crate) frame: FrameIndex,
    /// Letter of the frame.
    pub(crate) letter: &'a str,
    /// Frameset whose figures are shown.
    pub(crate) frameset: &'a Arc<Frameset>,
    /// Units that it is shown and typed in.
    pub(crate) units: System,
}

impl Sheet<'_> {
    /// The edit that a change makes, or why it is refused. `field` merges keystrokes in one field into one step.
    pub(crate) fn changed<E>(
        self,
        what: &str,
        field: Option<Id>,
        change: impl FnOnce(&mut Frameset) -> Result<(), E>,
    ) -> Result<Edit, E> {
        let mut frameset = Frameset::clone(self.frameset);
        change(&mut frameset)?;
        Ok(Edit::Frameset {
            frame: self.frame,
            frameset: Arc::new(frameset),
            what: labels::change_of(&what, &self.letter),
            field: field.map(|id| id.value()),
        })
    }
}
