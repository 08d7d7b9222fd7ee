//! The thread that keeps unsaved work on disk: it writes the newest state, at most twice a second, whether or not the
//! window is painted, and tries again while the disk refuses.

use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use crate::disk::{FileProblem, Journal, Unsaved};

/// Between the beginnings of two writes. A change waits no longer than this, so it is on disk within a second.
const PAUSE: Duration = Duration::from_millis(500);
/// How long a flush waits for a disk that does not answer.
const PATIENCE: Duration = Duration::from_secs(5);

/// What the journal shall hold.
#[derive(Clone)]
enum Wanted {
    Unsaved(Unsaved),
    Nothing,
}

/// How the thread ends.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Ending {
    /// What is unsaved stays on disk, to be offered.
    Leave,
    /// Nothing stays.
    Clear,
}

#[derive(Default)]
struct State {
    wanted: Option<Wanted>,
    /// Counts what was wanted, and which of it is done.
    asked: u64,
    done: u64,
    has_failed: bool,
    is_urgent: bool,
    ending: Option<Ending>,
    problem: Option<String>,
    to_wake: Option<egui::Context>,
}

#[derive(Default)]
struct Shared {
    state: Mutex<State>,
    changed: Condvar,
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Keeps one window's unsaved work. Dropping it writes what still waits and leaves it to be offered.
pub(crate) struct Keeper {
    shared: Arc<Shared>,
    thread: Option<JoinHandle<()>>,
}

impl Keeper {
    /// Starts the thread on this journal.
    pub(crate) fn start(journal: Journal) -> Self {
        let shared = Arc::new(Shared::default());
        let theirs = Arc::clone(&shared);
        Self { shared, thread: Some(thread::spawn(move || keep(&theirs, journal))) }
    }

    /// The journal shall hold this, or nothing. The context is woken when there is a problem to tell.
    pub(crate) fn keep(&self, unsaved: Option<Unsaved>, to_wake: Option<&egui::Context>) {
        let mut state = self.shared.lock();
        state.wanted = Some(unsaved.map_or(Wanted::Nothing, Wanted::Unsaved));
        state.asked += 1;
        if let Some(ctx) = to_wake {
            state.to_wake = Some(ctx.clone());
        }
        self.shared.changed.notify_all();
    }

    /// Waits until the journal holds what was asked for; whether it does.
    pub(crate) fn flush(&self) -> bool {
        let mut state = self.shared.lock();
        state.is_urgent = true;
        self.shared.changed.notify_all();
        let waits = |state: &mut State| state.done < state.asked;
        let result = self.shared.changed.wait_timeout_while(state, PATIENCE, waits);
        let (state, _) = result.unwrap_or_else(PoisonError::into_inner);
        state.done == state.asked && !state.has_failed
    }

    /// What went wrong, once for each run of failures.
    pub(crate) fn take_problem(&self) -> Option<String> {
        self.shared.lock().problem.take()
    }

    /// Ends it and leaves nothing on disk: nothing is unsaved.
    pub(crate) fn end(self) {
        self.shared.lock().ending = Some(Ending::Clear);
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        self.shared.lock().ending.get_or_insert(Ending::Leave);
        self.shared.changed.notify_all();
        if let Some(thread) = self.thread.take() {
            drop(thread.join());
        }
    }
}

fn keep(shared: &Shared, journal: Journal) {
    let mut began: Option<Instant> = None;
    let mut state = shared.lock();
    loop {
        if state.ending == Some(Ending::Clear) {
            drop(state);
            // What cannot be removed now is the next run's to offer.
            drop(journal.end());
            return;
        }
        let Some(wanted) = state.wanted.take() else {
            if state.ending.is_some() {
                return;
            }
            state.is_urgent = false;
            state = shared.changed.wait(state).unwrap_or_else(PoisonError::into_inner);
            continue;
        };
        let left = began.map_or(Duration::ZERO, |began| PAUSE.saturating_sub(began.elapsed()));
        let may_wait = !state.is_urgent && matches!(wanted, Wanted::Unsaved(_)) || state.has_failed;
        if may_wait && !left.is_zero() && state.ending.is_none() {
            state.wanted = Some(wanted);
            state = shared.changed.wait_timeout(state, left).unwrap_or_else(PoisonError::into_inner).0;
            continue;
        }
        let asked = state.asked;
        drop(state);
        began = Some(Instant::now());
        let result = match &wanted {
            Wanted::Unsaved(unsaved) => journal.write(unsaved),
            Wanted::Nothing => journal.clear(),
        };
        state = shared.lock();
        note(&mut state, asked, wanted, result);
        shared.changed.notify_all();
    }
}

/// Notes how a write went. What failed is wanted still, unless something newer is or the thread ends.
fn note(state: &mut State, asked: u64, wanted: Wanted, result: Result<(), FileProblem>) {
    state.done = asked;
    let Err(problem) = result else {
        state.has_failed = false;
        return;
    };
    if !state.has_failed {
        state.problem = Some(problem.to_string());
        if let Some(ctx) = &state.to_wake {
            ctx.request_repaint();
        }
    }
    state.has_failed = true;
    if state.wanted.is_none() && state.ending.is_none() {
        state.wanted = Some(wanted);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::disk::left_journals;
    use crate::lineup::Lineup;

    fn unsaved(title: &str) -> Unsaved {
        let lineup = Lineup { title: title.to_owned(), ..Lineup::default() };
        Unsaved { lineup: lineup.into(), file: None, frames: Vec::new() }
    }

    #[test]
    fn the_newest_state_is_on_disk_within_a_second_and_without_anybody_asking() {
        let folder = tempfile::tempdir().unwrap();
        let keeper = Keeper::start(Journal::begin(folder.path()).unwrap());
        assert!(journal_text(folder.path()).is_empty());
        for number in 0..100 {
            keeper.keep(Some(unsaved(&number.to_string())), None);
            thread::sleep(Duration::from_millis(10));
        }
        thread::sleep(Duration::from_secs(1));
        let text = journal_text(folder.path());
        assert!(text.contains("\"99\""), "{text}");
        drop(keeper);
        assert_eq!(left_journals(folder.path()).0[0].unsaved.lineup.title, "99");
    }

    /// The journal's text, or nothing.
    fn journal_text(state: &std::path::Path) -> String {
        let names = crate::disk::names_in(&state.join("journals"));
        let journal = names.iter().find(|name| name.ends_with(".journal"));
        journal.and_then(|name| std::fs::read_to_string(state.join("journals").join(name)).ok()).unwrap_or_default()
    }

    #[test]
    fn a_flush_waits_for_the_disk_and_a_clean_end_leaves_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let keeper = Keeper::start(Journal::begin(folder.path()).unwrap());
        for title in ["one", "two"] {
            keeper.keep(Some(unsaved(title)), None);
            assert!(keeper.flush());
            assert!(journal_text(folder.path()).contains(title));
        }
        keeper.keep(None, None);
        assert!(keeper.flush());
        assert!(journal_text(folder.path()).is_empty());
        keeper.keep(Some(unsaved("three")), None);
        keeper.end();
        assert!(crate::disk::names_in(&folder.path().join("journals")).is_empty());
    }

    #[test]
    fn a_failing_disk_is_told_once_and_tried_again() {
        let folder = tempfile::tempdir().unwrap();
        let keeper = Keeper::start(Journal::begin(folder.path()).unwrap());
        let journals = folder.path().join("journals");
        let away = folder.path().join("away");
        std::fs::rename(&journals, &away).unwrap();
        keeper.keep(Some(unsaved("one")), None);
        assert!(!keeper.flush());
        assert!(keeper.take_problem().is_some());
        thread::sleep(2 * PAUSE);
        assert!(keeper.take_problem().is_none(), "once");
        std::fs::rename(&away, &journals).unwrap();
        thread::sleep(3 * PAUSE);
        assert!(journal_text(folder.path()).contains("one"), "without another change");
    }
}
