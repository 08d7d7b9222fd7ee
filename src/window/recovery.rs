//! Recovery: a short while after a change, the unsaved line-up is kept in a file of its own beside the session; the next
//! run offers it when this one ended without saving or discarding.
//!
//! The file's name holds the process's number, so that two windows do not write over each other.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use super::app::Window;
use super::document::Document;
use super::questions::Question;
use crate::disk::{self, Loaded};
use crate::lineup::{Lineup, write_lineup};

/// How long nothing must change before the line-up is kept.
const PAUSE: Duration = Duration::from_secs(2);
const PREFIX: &str = "unsaved-";
const ENDING: &str = ".lineup.ron";

/// Where the unsaved line-up is kept, and when next.
#[derive(Debug, Default)]
pub(crate) struct Recovery {
    file: Option<PathBuf>,
    due: Option<Instant>,
    is_kept: bool,
    has_failed: bool,
}

impl Recovery {
    /// The line-up changed.
    pub(crate) fn note_change(&mut self) {
        self.due = Some(Instant::now() + PAUSE);
    }
}

impl Window {
    /// Keeps unsaved line-ups in this folder from now on, and offers what an earlier run left there.
    pub fn keep_recovery_in(&mut self, folder: &Path) {
        if let Err(problem) = disk::make_folder(folder) {
            self.moment.notify(format!("{problem}; an unsaved line-up cannot be kept for recovery"));
            return;
        }
        self.recovery.file = Some(folder.join(format!("{PREFIX}{}{ENDING}", std::process::id())));
        if let Some((lineup, path)) = left_in(folder) {
            self.moment.question = Some(Question::Recover(Box::new(lineup), path));
        }
    }

    /// Keeps the line-up when it is time.
    pub(super) fn keep_for_recovery(&mut self, ctx: &egui::Context) {
        let (Some(file), Some(due)) = (self.recovery.file.clone(), self.recovery.due) else { return };
        let left = due.saturating_duration_since(Instant::now());
        if !left.is_zero() {
            ctx.request_repaint_after(left);
            return;
        }
        self.recovery.due = None;
        if !self.document.is_unsaved() {
            self.forget_recovery();
            return;
        }
        let kept = write_lineup(self.document.lineup())
            .map_err(|e| e.to_string())
            .and_then(|text| disk::save(&file, text.as_bytes()).map_err(|e| e.to_string()));
        match kept {
            Ok(()) => self.recovery.is_kept = true,
            Err(problem) if !self.recovery.has_failed => {
                self.recovery.has_failed = true;
                self.moment.notify(format!("the unsaved line-up cannot be kept for recovery; save it soon: {problem}"));
            }
            Err(_) => {}
        }
    }

    /// Nothing unsaved is left to be kept.
    pub(super) fn forget_recovery(&mut self) {
        self.recovery.due = None;
        if let (true, Some(file)) = (self.recovery.is_kept, &self.recovery.file) {
            self.recovery.is_kept = false;
            if let Err(problem) = disk::remove(file) {
                self.moment.notify(problem.to_string());
            }
        }
    }

    /// Goes on with a line-up that was left unsaved. The kept file goes only when this run has kept the line-up itself
    /// or saved it, so that nothing is lost in between.
    pub(super) fn recover(&mut self, lineup: Lineup, kept: &Path) {
        self.replace(Document::restored(lineup, None, Vec::new()));
        self.recovery.note_change();
        self.recovery.due = Some(Instant::now());
        let ours = self.recovery.file.clone();
        if let (Some(ours), Ok(text)) = (ours, write_lineup(self.document.lineup()))
            && disk::save(&ours, text.as_bytes()).is_ok()
        {
            self.recovery.is_kept = true;
            if ours != kept {
                self.throw_away(kept);
            }
        }
        "This is what was left unsaved.".clone_into(&mut self.moment.status);
    }

    /// Throws a kept line-up away.
    pub(super) fn throw_away(&mut self, kept: &Path) {
        if let Err(problem) = disk::remove(kept) {
            self.moment.notify(problem.to_string());
        }
    }
}

/// A readable line-up that a process which is no more left in the folder: the last by name.
fn left_in(folder: &Path) -> Option<(Lineup, PathBuf)> {
    let mut files = disk::names_in(folder);
    files.sort();
    files.into_iter().rev().find_map(|name| {
        let process = name.strip_prefix(PREFIX)?.strip_suffix(ENDING)?.parse::<u32>().ok()?;
        if process != std::process::id() && disk::is_running(process) {
            return None;
        }
        let path = folder.join(&name);
        match disk::load(&path) {
            Ok(Loaded::Lineup(lineup)) => Some((*lineup, path)),
            _ => None,
        }
    })
}
