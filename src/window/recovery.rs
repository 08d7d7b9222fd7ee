//! Recovery: the unsaved line-up is kept in a journal while the window is open, and what earlier windows left is offered.

use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use super::app::Window;
use super::document::Document;
use super::keeper::Keeper;
use super::labels::notices as labels;
use super::question::{Offer, Question, Then};
use crate::disk::{self, FileIdentity, Journal, LeftJournal, Lock};

/// The state folder, the journal, and what earlier windows left.
#[derive(Default)]
pub(crate) struct Recovery {
    state: Option<PathBuf>,
    keeper: Option<Keeper>,
    /// The document's count of changes when it was last given to the keeper.
    noted: Option<u64>,
    left: VecDeque<LeftJournal>,
    offered: usize,
    found: usize,
    /// The lock of the open line-up's file.
    lineup_lock: Option<(PathBuf, Lock)>,
}

impl Window {
    /// Keeps unsaved work and locks in this folder from now on, and offers what earlier windows left there.
    pub fn keep_state_in(&mut self, folder: &Path) {
        self.recovery.state = Some(folder.to_owned());
        let file = self.document.path().map(Path::to_owned);
        self.claim_file(file.as_deref());
        match Journal::begin(folder) {
            Ok(journal) => self.recovery.keeper = Some(Keeper::start(journal)),
            Err(problem) => self.notify(labels::unsaved_work_cannot_be_kept_for_recovery(&problem)),
        }
        let (left, problems) = disk::left_journals(folder);
        self.recovery.found = left.len();
        self.recovery.left = left.into();
        for problem in problems {
            self.notify(problem);
        }
    }

    /// Gives the line-up to the journal when it or what is known of its files has changed.
    pub(super) fn keep_for_recovery(&mut self, ctx: &egui::Context) {
        let Some(keeper) = &self.recovery.keeper else { return };
        let changes = self.document.changes();
        if self.recovery.noted != Some(changes) {
            self.recovery.noted = Some(changes);
            keeper.keep(self.document.unsaved(), Some(ctx));
        }
        if let Some(problem) = keeper.take_problem() {
            self.notify(labels::unsaved_work_cannot_be_kept(&problem));
        }
    }

    /// Has the journal hold the document as it stands before something else happens to it; whether it does.
    pub(super) fn flush_recovery(&mut self) -> bool {
        let Some(keeper) = &self.recovery.keeper else { return false };
        let changes = self.document.changes();
        if self.recovery.noted != Some(changes) {
            self.recovery.noted = Some(changes);
            keeper.keep(self.document.unsaved(), None);
        }
        keeper.flush()
    }

    /// The window closes for good. Nothing is left where nothing is unsaved or the user discarded it.
    pub fn end_recovery(&mut self) {
        self.recovery.left.clear();
        self.recovery.lineup_lock = None;
        let Some(keeper) = self.recovery.keeper.take() else { return };
        if self.moment.may_close || !self.document.is_unsaved() {
            keeper.end();
        }
    }

    /// Offers the next line-up that was left unsaved, when nothing else is going on.
    pub(super) fn offer_left(&mut self) {
        let is_free =
            self.moment.question.is_none() && self.moment.reading.is_none() && self.then.is_none() && self.work.is_empty();
        if let (true, Some(left)) = (is_free, self.recovery.left.front()) {
            let unsaved = &left.unsaved;
            let file = unsaved.file.as_ref();
            let named = Document::restored(unsaved.lineup.as_ref().clone(), file.cloned(), Vec::new()).name();
            self.put_question(Question::Restore(Offer {
                name: if unsaved.lineup.title.is_empty() { named } else { unsaved.lineup.title.clone() },
                file: file.map(|file| file.path.clone()),
                frames: unsaved.lineup.frames.len(),
                age: left.at.and_then(age_since),
                has_changed: file.is_some_and(|file| disk::content_hash(&file.path) != Some(file.hash)),
                number: (self.recovery.offered + 1, self.recovery.found),
            }));
        }
    }

    /// Restores the line-up that was offered. Its journal goes only when this window's own holds the line-up.
    pub(super) fn restore_left(&mut self) {
        let Some(left) = self.recovery.left.pop_front() else { return };
        self.recovery.offered += 1;
        let unsaved = left.unsaved.clone();
        let file = unsaved.file.clone();
        self.replace(Document::restored(unsaved.lineup.as_ref().clone(), unsaved.file, unsaved.frames));
        self.claim_file(file.as_ref().map(|file| file.path.as_path()));
        if self.flush_recovery()
            && let Err(problem) = left.discard()
        {
            self.notify(problem.to_string());
        }
        self.say(labels::RESTORED_IT_IS_NOT_SAVED_YET);
    }

    /// Discards the line-up that was offered.
    pub(super) fn discard_left(&mut self) {
        self.recovery.offered += 1;
        if let Some(Err(problem)) = self.recovery.left.pop_front().map(LeftJournal::discard) {
            self.notify(problem.to_string());
        }
    }

    /// Leaves the line-up that was offered for another time.
    pub(super) fn postpone_left(&mut self) {
        self.recovery.offered += 1;
        self.recovery.left.pop_front();
    }

    /// Whether another window has this file open, as far as the locks tell.
    pub(super) fn is_open_elsewhere(&self, path: &Path) -> bool {
        let Some(state) = &self.recovery.state else { return false };
        let lock = disk::lock_path(state, path);
        let is_ours = self.recovery.lineup_lock.as_ref().is_some_and(|(held, _)| *held == lock);
        !is_ours && matches!(Lock::try_take(&lock), Ok(None))
    }

    /// Holds the lock of the open line-up's file, where it is free, and of no other.
    pub(super) fn claim_file(&mut self, path: Option<&Path>) {
        let Some((state, path)) = self.recovery.state.as_deref().zip(path) else {
            self.recovery.lineup_lock = None;
            return;
        };
        let lock = disk::lock_path(state, path);
        if self.recovery.lineup_lock.as_ref().is_some_and(|(held, _)| *held == lock) {
            return;
        }
        drop(disk::make_folder(lock.parent().unwrap_or(state)));
        self.recovery.lineup_lock = Lock::try_take(&lock).ok().flatten().map(|held| (lock, held));
    }

    /// Opens a line-up, after telling where another window has it open.
    pub(super) fn open_lineup(&mut self, lineup: crate::lineup::Lineup, file: FileIdentity, ctx: &egui::Context) {
        let is_elsewhere = self.is_open_elsewhere(&file.path);
        let then = Then::Replace(Box::new(lineup), file);
        if is_elsewhere {
            self.put_question(Question::OpenElsewhere(then));
        } else {
            self.leave(then, ctx);
        }
    }
}

fn age_since(seconds: u64) -> Option<String> {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).ok()?.as_secs();
    Some(age_in_words(now.checked_sub(seconds)?))
}

/// How long ago something was. A time of day would need the user's time zone.
fn age_in_words(seconds: u64) -> String {
    match seconds {
        0..60 => labels::LESS_THAN_A_MINUTE_AGO.to_owned(),
        60..3600 => labels::minutes_ago(seconds / 60),
        3600..86400 => labels::hours_ago(seconds / 3600),
        _ => labels::days_ago(seconds / 86400),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ages_are_in_words() {
        assert_eq!(age_in_words(59), "less than a minute ago");
        assert_eq!(age_in_words(60), "1 minute ago");
        assert_eq!(age_in_words(7300), "2 hours ago");
        assert_eq!(age_in_words(86_400 * 3), "3 days ago");
    }
}
