//! The open document: the line-up as it stands, as it was last saved, its history, and the findings that follow from it.
//!
//! It knows no widget. Findings are computed here, when the line-up changes, and nowhere else.
//!
//! Invariant: `findings` always belong to `lineup`; unsaved means that the line-up differs from the saved one.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::edits::{Edit, MergeKey};
use crate::lineup::{Findings, Lineup};

/// How many steps undo goes back.
const STEPS: usize = 500;

/// One step of the history: what was done, and the line-up before (undo) or after it (redo).
struct Step {
    label: String,
    lineup: Arc<Lineup>,
}

/// A line-up with its findings, computed before anybody asked for it: while the desktop was still making the window.
pub(crate) struct Computed {
    lineup: Arc<Lineup>,
    findings: Arc<Findings>,
}

impl Computed {
    /// Computes it.
    pub(crate) fn of(lineup: Lineup) -> Self {
        let findings = Arc::new(Findings::of(&lineup));
        Self { lineup: Arc::new(lineup), findings }
    }
}

/// The line-up with its history and findings.
pub(crate) struct Document {
    lineup: Arc<Lineup>,
    saved: Arc<Lineup>,
    path: Option<PathBuf>,
    is_unsaved: bool,
    undo: Vec<Step>,
    redo: Vec<Step>,
    gesture: Option<MergeKey>,
    findings: Arc<Findings>,
    ahead: Option<Computed>,
    revision: u64,
}

impl Default for Document {
    fn default() -> Self {
        Self::new(Lineup::default(), None)
    }
}

impl Document {
    /// A document just read from `path`, or a fresh one.
    pub(crate) fn new(lineup: Lineup, path: Option<PathBuf>) -> Self {
        let Computed { lineup, findings } = Computed::of(lineup);
        Self {
            saved: Arc::clone(&lineup),
            findings,
            lineup,
            path,
            ahead: None,
            is_unsaved: false,
            undo: Vec::new(),
            redo: Vec::new(),
            gesture: None,
            revision: 0,
        }
    }

    /// The document that opens `path`, whose line-up may have been computed ahead.
    pub(crate) fn opened(&mut self, lineup: Lineup, path: PathBuf) -> Self {
        let ahead = self.ahead.take().filter(|a| *a.lineup == lineup);
        match ahead {
            Some(Computed { lineup, findings }) => {
                Self { saved: Arc::clone(&lineup), lineup, findings, path: Some(path), ..Self::default() }
            }
            None => Self::new(lineup, Some(path)),
        }
    }

    /// Takes what was computed ahead, for when the line-up becomes that one.
    pub(crate) fn expect(&mut self, computed: Computed) {
        self.ahead = Some(computed);
    }

    /// The line-up as it stands.
    pub(crate) fn lineup(&self) -> &Lineup {
        &self.lineup
    }

    /// What follows from it.
    pub(crate) fn findings(&self) -> &Arc<Findings> {
        &self.findings
    }

    /// Counts the changes, so that what was made from the line-up knows whether it still holds.
    pub(crate) fn revision(&self) -> u64 {
        self.revision
    }

    /// The file it was read from or saved to.
    pub(crate) fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Whether closing it now would lose something.
    pub(crate) fn is_unsaved(&self) -> bool {
        self.is_unsaved
    }

    /// What undo would take back.
    pub(crate) fn undo_label(&self) -> Option<&str> {
        self.undo.last().map(|s| s.label.as_str())
    }

    /// What redo would bring back.
    pub(crate) fn redo_label(&self) -> Option<&str> {
        self.redo.last().map(|s| s.label.as_str())
    }

    /// Name for the window's title: the file's, without its endings.
    pub(crate) fn name(&self) -> String {
        let file = self.path.as_deref().and_then(Path::file_name).map(|n| n.to_string_lossy().into_owned());
        match file {
            Some(file) => file.strip_suffix(".lineup.ron").or_else(|| file.strip_suffix(".ron")).unwrap_or(&file).to_owned(),
            None if self.lineup.title.is_empty() => "new line-up".to_owned(),
            None => self.lineup.title.clone(),
        }
    }

    /// Changes the line-up. Edits with the same merge key inside one gesture (a drag, a field being typed in) make one
    /// step of the history. An edit that changes nothing leaves no step.
    pub(crate) fn edit(&mut self, edit: Edit) {
        let label = edit.label(&self.lineup);
        let key = edit.merge_key();
        let mut next = Lineup::clone(&self.lineup);
        edit.apply(&mut next);
        if next == *self.lineup {
            return;
        }
        let merges = key.is_some() && key == self.gesture;
        if !merges {
            self.undo.push(Step { label, lineup: Arc::clone(&self.lineup) });
            if self.undo.len() > STEPS {
                self.undo.remove(0);
            }
        }
        self.gesture = key;
        self.redo.clear();
        self.replace(Arc::new(next));
    }

    /// Ends a gesture: the next edit is a step of its own.
    pub(crate) fn end_gesture(&mut self) {
        self.gesture = None;
    }

    /// Takes the last step back and says which.
    pub(crate) fn undo(&mut self) -> Option<String> {
        let step = self.undo.pop()?;
        self.redo.push(Step { label: step.label.clone(), lineup: Arc::clone(&self.lineup) });
        self.gesture = None;
        self.replace(step.lineup);
        Some(step.label)
    }

    /// Brings the last undone step back and says which.
    pub(crate) fn redo(&mut self) -> Option<String> {
        let step = self.redo.pop()?;
        self.undo.push(Step { label: step.label.clone(), lineup: Arc::clone(&self.lineup) });
        self.gesture = None;
        self.replace(step.lineup);
        Some(step.label)
    }

    /// This document in the place of another: the count of changes goes on, so that nothing made from the other one is
    /// taken for this one's.
    pub(crate) fn in_place_of(mut self, other: &Self) -> Self {
        self.revision = other.revision + 1;
        self
    }

    /// Remembers that the line-up as it stands is on disk at `path`.
    pub(crate) fn mark_saved(&mut self, path: PathBuf) {
        self.path = Some(path);
        self.saved = Arc::clone(&self.lineup);
        self.is_unsaved = false;
    }

    /// Takes the line-up as it stands for the starting point: nothing to lose, nothing to undo.
    pub(crate) fn mark_start(&mut self) {
        self.saved = Arc::clone(&self.lineup);
        self.is_unsaved = false;
        self.undo.clear();
        self.redo.clear();
    }

    /// Puts a line-up in the place of an empty one, as unsaved work.
    pub(crate) fn take_over(&mut self, lineup: Lineup) {
        self.replace(Arc::new(lineup));
    }

    fn replace(&mut self, lineup: Arc<Lineup>) {
        let ahead = self.ahead.take().filter(|a| *a.lineup == *lineup);
        let Computed { lineup, findings } = ahead.unwrap_or_else(|| {
            let findings = Arc::new(Findings::renewed(&lineup, Some(&self.findings)));
            Computed { lineup, findings }
        });
        self.is_unsaved = *lineup != *self.saved;
        self.findings = findings;
        self.lineup = lineup;
        self.revision += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drag_is_one_step_and_unsaved_is_a_difference() {
        let mut document = Document::default();
        for factor in [1.02, 1.05, 1.10] {
            document.edit(Edit::Factor(factor));
        }
        assert!(document.is_unsaved());
        assert_eq!(document.undo().as_deref(), Some("factor for other sizes"));
        assert_eq!(document.lineup().settings.weight.factor, 1.0);
        assert!(!document.is_unsaved(), "back where it was saved");
        assert!(document.undo().is_none());
        assert!(document.redo().is_some());
        assert_eq!(document.lineup().settings.weight.factor, 1.10);
        document.end_gesture();
        document.edit(Edit::Factor(1.2));
        document.end_gesture();
        document.edit(Edit::Factor(1.3));
        document.undo();
        assert_eq!(document.lineup().settings.weight.factor, 1.2);
    }

    #[test]
    fn an_edit_that_changes_nothing_leaves_no_step() {
        let mut document = Document::default();
        document.edit(Edit::Wheels(true));
        document.edit(Edit::Remove(3));
        assert!(document.undo_label().is_none());
    }
}
