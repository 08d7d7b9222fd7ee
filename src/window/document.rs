//! The open document: the line-up as it stands, as it was last saved, its history, its files, and the findings that
//! follow from it.
//!
//! It knows no widget. Findings are computed here, when the line-up changes, and nowhere else.
//!
//! Invariants: `findings` always belong to `lineup`; unsaved means that the line-up differs from what its file holds;
//! every frame has a key of its own, by which it is known in its history as well.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use super::edits::{Edit, MergeKey};
use super::labels::notices as labels;
use crate::disk::{FileIdentity, Unsaved};
use crate::frameset::FrameIndex;
use crate::lineup::{Entry, Findings, FrameKey, Lineup, sizes_that_follow};

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

    /// The same for an equal line-up, whose frames keep their keys.
    fn with_keys_of(self, lineup: &Lineup) -> Self {
        let mut keyed = Lineup::clone(&self.lineup);
        for (entry, known) in keyed.frames.iter_mut().zip(&lineup.frames) {
            entry.key = known.key;
        }
        Self { lineup: Arc::new(keyed), findings: self.findings }
    }
}

/// A size that followed the rule in an edit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct FollowedSize {
    /// The frame's place.
    pub(crate) frame: FrameIndex,
    /// Label of its size before.
    pub(crate) from: String,
    /// Label of its size now.
    pub(crate) to: String,
}

/// The line-up with its history, files and findings.
pub(crate) struct Document {
    lineup: Arc<Lineup>,
    /// What its file holds; `None` where the file is gone or holds something else.
    saved: Option<Arc<Lineup>>,
    file: Option<FileIdentity>,
    frame_files: BTreeMap<FrameKey, FileIdentity>,
    last_key: u64,
    is_unsaved: bool,
    undo: Vec<Step>,
    redo: Vec<Step>,
    gesture: Option<MergeKey>,
    findings: Arc<Findings>,
    ahead: Option<Computed>,
    revision: u64,
    changes: u64,
}

impl Default for Document {
    fn default() -> Self {
        Self::new(Lineup::default(), None)
    }
}

impl Document {
    /// A document just read from a file, or a fresh one.
    pub(crate) fn new(lineup: Lineup, file: Option<FileIdentity>) -> Self {
        Self::of(Computed::of(lineup), file)
    }

    fn of(computed: Computed, file: Option<FileIdentity>) -> Self {
        let mut last_key = 0;
        let mut lineup = Lineup::clone(&computed.lineup);
        give_keys(&mut lineup.frames, &mut last_key);
        let lineup = Arc::new(lineup);
        Self {
            saved: Some(Arc::clone(&lineup)),
            findings: computed.findings,
            lineup,
            file,
            frame_files: BTreeMap::new(),
            last_key,
            ahead: None,
            is_unsaved: false,
            undo: Vec::new(),
            redo: Vec::new(),
            gesture: None,
            revision: 0,
            changes: 0,
        }
    }

    /// The document of a file just opened, whose line-up may have been computed ahead.
    pub(crate) fn opened(&mut self, lineup: Lineup, file: FileIdentity) -> Self {
        match self.ahead.take().filter(|a| *a.lineup == lineup) {
            Some(computed) => Self::of(computed, Some(file)),
            None => Self::new(lineup, Some(file)),
        }
    }

    /// The document of unsaved work that was kept for recovery: it knows its files, and is saved nowhere yet.
    pub(crate) fn restored(lineup: Lineup, file: Option<FileIdentity>, frames: Vec<Option<FileIdentity>>) -> Self {
        let mut document = Self::new(lineup, file);
        document.lose_saved();
        for (place, identity) in frames.into_iter().enumerate() {
            if let Some(identity) = identity {
                document.tie(FrameIndex(place), identity);
            }
        }
        document
    }

    /// Takes what was computed ahead, for when the line-up becomes that one.
    pub(crate) fn expect(&mut self, computed: Computed) {
        self.ahead = Some(computed);
    }

    /// The line-up with its findings, for work beside the window.
    pub(crate) fn shared(&self) -> (Arc<Lineup>, Arc<Findings>) {
        (Arc::clone(&self.lineup), Arc::clone(&self.findings))
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

    /// Counts the changes of the line-up and of what is known of its files: what is kept for recovery follows it.
    pub(crate) fn changes(&self) -> u64 {
        self.changes
    }

    /// The file it was read from or saved to, as it then was.
    pub(crate) fn file(&self) -> Option<&FileIdentity> {
        self.file.as_ref()
    }

    /// The path of that file.
    pub(crate) fn path(&self) -> Option<&Path> {
        self.file.as_ref().map(|f| f.path.as_path())
    }

    /// The file that the frame at this place was read from or saved to, as it then was.
    pub(crate) fn frame_file(&self, place: FrameIndex) -> Option<&FileIdentity> {
        place.of(&self.lineup.frames).and_then(|entry| self.frame_files.get(&entry.key))
    }

    /// The key of the frame at this place.
    pub(crate) fn key_at(&self, place: FrameIndex) -> Option<FrameKey> {
        place.of(&self.lineup.frames).map(|entry| entry.key)
    }

    /// Where the frame of this key now stands; `None` where it was removed.
    pub(crate) fn place_of(&self, key: FrameKey) -> Option<FrameIndex> {
        self.lineup.frames.iter().position(|entry| entry.key == key).map(FrameIndex)
    }

    /// Remembers which file the frame at this place was read from or saved to. That is no change of the line-up: it stays
    /// through undo and redo.
    pub(crate) fn tie(&mut self, place: FrameIndex, identity: FileIdentity) {
        if let Some(key) = self.key_at(place) {
            self.frame_files.insert(key, identity);
            self.changes += 1;
        }
    }

    /// The line-up with its files, as it is kept for recovery; `None` where closing would lose nothing.
    pub(crate) fn unsaved(&self) -> Option<Unsaved> {
        let frames = FrameIndex::all(self.lineup.frames.len()).map(|place| self.frame_file(place).cloned()).collect();
        self.is_unsaved.then(|| Unsaved { lineup: Arc::clone(&self.lineup), file: self.file.clone(), frames })
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
        let file = self.path().and_then(Path::file_name).map(|n| n.to_string_lossy().into_owned());
        match file {
            Some(file) => file.strip_suffix(".lineup.ron").or_else(|| file.strip_suffix(".ron")).unwrap_or(&file).to_owned(),
            None if self.lineup.title.is_empty() => labels::NEW_LINE_UP.to_owned(),
            None => self.lineup.title.clone(),
        }
    }

    /// Changes the line-up. Edits with the same merge key inside one gesture (a drag, a field being typed in) make one
    /// step of the history. An edit that changes nothing leaves no step. Sizes that follow the rule go with it; those of
    /// frames that were here before are given back.
    pub(crate) fn edit(&mut self, edit: Edit) -> Vec<FollowedSize> {
        let label = edit.label(&self.lineup);
        let key = edit.merge_key();
        let mut next = Lineup::clone(&self.lineup);
        edit.apply(&mut next);
        if next == *self.lineup {
            return Vec::new();
        }
        give_keys(&mut next.frames, &mut self.last_key);
        let before = Arc::clone(&self.findings);
        let mut next = self.computed(next.into(), &before);
        let follow = sizes_that_follow(&next.lineup, &next.findings, Some((&self.lineup, &self.findings)));
        let mut followed = Vec::new();
        if !follow.is_empty() {
            for (frame, to) in &follow {
                let entry = frame.of(&next.lineup.frames).filter(|e| self.place_of(e.key).is_some());
                followed.extend(entry.map(|e| FollowedSize { frame: *frame, from: e.size.clone(), to: to.clone() }));
            }
            let mut put = Lineup::clone(&next.lineup);
            put.put_into(follow);
            next = self.computed(put.into(), &next.findings);
        }
        self.step_to(next, label, key);
        followed
    }

    fn step_to(&mut self, next: Computed, label: String, key: Option<MergeKey>) {
        if *next.lineup == *self.lineup {
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
        self.replace(next);
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
        let computed = self.computed(step.lineup, &Arc::clone(&self.findings));
        self.replace(computed);
        Some(step.label)
    }

    /// Brings the last undone step back and says which.
    pub(crate) fn redo(&mut self) -> Option<String> {
        let step = self.redo.pop()?;
        self.undo.push(Step { label: step.label.clone(), lineup: Arc::clone(&self.lineup) });
        self.gesture = None;
        let computed = self.computed(step.lineup, &Arc::clone(&self.findings));
        self.replace(computed);
        Some(step.label)
    }

    /// This document in the place of another: the count of changes goes on, so that nothing made from the other one is
    /// taken for this one's.
    pub(crate) fn in_place_of(mut self, other: &Self) -> Self {
        self.revision = other.revision + 1;
        self.changes = other.changes + 1;
        self
    }

    /// Remembers that the line-up as it stands is on disk in this file.
    pub(crate) fn mark_saved(&mut self, file: FileIdentity) {
        self.file = Some(file);
        self.saved = Some(Arc::clone(&self.lineup));
        self.is_unsaved = false;
        self.changes += 1;
    }

    /// Remembers that no file holds what was last saved: it was deleted or holds something else now.
    pub(crate) fn lose_saved(&mut self) {
        self.saved = None;
        self.is_unsaved = true;
        self.changes += 1;
    }

    /// The line-up as its file holds it now, as a step that undo takes back. Frames that are still in it keep their files.
    pub(crate) fn reread(&mut self, mut lineup: Lineup, file: FileIdentity, label: String) {
        self.gesture = None;
        take_keys(&mut lineup.frames, &self.lineup.frames);
        give_keys(&mut lineup.frames, &mut self.last_key);
        let computed = self.computed(lineup.into(), &Arc::clone(&self.findings));
        self.step_to(computed, label, None);
        self.mark_saved(file);
    }

    /// Takes the line-up as it stands for the starting point: nothing to lose, nothing to undo.
    pub(crate) fn mark_start(&mut self) {
        self.saved = Some(Arc::clone(&self.lineup));
        self.is_unsaved = false;
        self.changes += 1;
        self.undo.clear();
        self.redo.clear();
    }

    /// A line-up with its findings, which may have been computed ahead. What is known from `before` is not computed again.
    fn computed(&mut self, lineup: Arc<Lineup>, before: &Findings) -> Computed {
        if self.ahead.as_ref().is_some_and(|a| *a.lineup == *lineup)
            && let Some(ahead) = self.ahead.take()
        {
            return ahead.with_keys_of(&lineup);
        }
        let findings = Arc::new(Findings::renewed(&lineup, Some(before)));
        Computed { lineup, findings }
    }

    fn replace(&mut self, Computed { lineup, findings }: Computed) {
        self.ahead = None;
        self.is_unsaved = self.saved.as_ref().is_none_or(|saved| *lineup != **saved);
        self.findings = findings;
        self.lineup = lineup;
        self.revision += 1;
        self.changes += 1;
    }
}

/// Gives a key to every frame that has none.
fn give_keys(frames: &mut [Entry], last: &mut u64) {
    for entry in frames.iter_mut().filter(|entry| entry.key == FrameKey::default()) {
        *last += 1;
        entry.key = FrameKey(*last);
    }
}

/// Gives frames that were read again the keys that they had: first those that are the same frameset, then those of the same
/// name from a file of the same name. Of several alike, the first takes the first's.
fn take_keys(frames: &mut [Entry], before: &[Entry]) {
    let is_same: fn(&Entry, &Entry) -> bool = |a, b| a.frameset == b.frameset && a.came_from == b.came_from;
    let is_renewed: fn(&Entry, &Entry) -> bool = |a, b| a.frameset.name() == b.frameset.name() && a.came_from == b.came_from;
    let mut left: Vec<&Entry> = before.iter().collect();
    for is_alike in [is_same, is_renewed] {
        for entry in frames.iter_mut().filter(|entry| entry.key == FrameKey::default()) {
            if let Some(found) = left.iter().position(|old| is_alike(entry, old)) {
                entry.key = left.remove(found).key;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::Frameset;

    fn frame(model: &str, note: &str) -> (Frameset, Option<String>) {
        let text = format!(
            "Frameset(format: 1, maker: \"Marrowby\", model: \"{model}\", note: \"{note}\", sizes: [(label: \"M\", figures: \
             {{Stack: 622, Reach: 387}})])"
        );
        (crate::frameset::read_frameset(text.as_bytes()).unwrap(), Some("a.frame.ron".to_owned()))
    }

    #[test]
    fn frames_keep_their_files_when_the_line_up_is_read_again() {
        let mut document = Document::default();
        document.edit(Edit::Add([("Drift", ""), ("Lee", ""), ("Lee", "second")].map(|(m, n)| frame(m, n)).to_vec()));
        let file = |name: &str| FileIdentity::of(Path::new(name), name.as_bytes());
        for (place, name) in ["/one/a.frame.ron", "/two/a.frame.ron", "/three/a.frame.ron"].into_iter().enumerate() {
            document.tie(FrameIndex(place), file(name));
        }
        // Another program put the second Lee first, changed the Drift and added a frame.
        let mut other = Document::default();
        let changed = [("Lee", "second"), ("Drift", "changed"), ("Heath", ""), ("Lee", "")];
        other.edit(Edit::Add(changed.map(|(m, n)| frame(m, n)).to_vec()));
        let read: Vec<Entry> =
            other.lineup().frames.iter().map(|entry| Entry { key: FrameKey::default(), ..entry.clone() }).collect();
        let again = Lineup { frames: read, ..other.lineup().clone() };
        document.reread(again, file("/x.lineup.ron"), "reading the line-up again".to_owned());
        let paths = |document: &Document| -> Vec<Option<String>> {
            let files = FrameIndex::all(document.lineup().frames.len()).map(|place| document.frame_file(place));
            files.map(|file| file.map(|f| f.path.to_string_lossy().into_owned())).collect()
        };
        let expected = [Some("/three/a.frame.ron"), Some("/one/a.frame.ron"), None, Some("/two/a.frame.ron")];
        assert_eq!(paths(&document), expected.map(|path| path.map(str::to_owned)));
        assert!(!document.is_unsaved());
        document.undo();
        let before = ["/one/a.frame.ron", "/two/a.frame.ron", "/three/a.frame.ron"].map(|path| Some(path.to_owned()));
        assert_eq!(paths(&document), before);
    }

    #[test]
    fn a_drag_is_one_step_and_unsaved_is_a_difference() {
        let mut document = Document::default();
        for factor in [1.02, 1.05, 1.10] {
            document.edit(Edit::Factor(Some(factor)));
        }
        assert!(document.is_unsaved());
        assert_eq!(document.undo().as_deref(), Some("weight factor per size"));
        assert_eq!(document.lineup().settings.weight.factor, None);
        assert!(!document.is_unsaved(), "back where it was saved");
        assert!(document.undo().is_none());
        assert!(document.redo().is_some());
        assert_eq!(document.lineup().settings.weight.factor, Some(1.10));
        document.end_gesture();
        document.edit(Edit::Factor(Some(1.2)));
        document.end_gesture();
        document.edit(Edit::Factor(Some(1.3)));
        document.undo();
        assert_eq!(document.lineup().settings.weight.factor, Some(1.2));
    }

    #[test]
    fn an_edit_that_changes_nothing_leaves_no_step() {
        let mut document = Document::default();
        document.edit(Edit::Wheels(true));
        document.edit(Edit::Remove(FrameIndex(3)));
        assert!(document.undo_label().is_none());
    }
}
