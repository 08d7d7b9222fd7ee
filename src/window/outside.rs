//! Files that were changed outside: noticed when the window comes to the front, and asked about, never taken silently.
//!
//! The files are read on a thread of their own: a slow disk does not stop the window.

use std::collections::VecDeque;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;

use super::app::Window;
use super::labels::notices as labels;
use super::question::{Question, Saving};
use crate::disk::{self, ContentHash, FileIdentity, Obstacle};
use crate::frameset::FrameIndex;

/// A file of the line-up as it was found on disk.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Found {
    saving: Saving,
    /// As this window knows it.
    known: FileIdentity,
    /// As it is; `None` where it is gone or cannot be read.
    now: Option<ContentHash>,
}

/// What was found, and what was told already.
#[derive(Default)]
pub(crate) struct Outside {
    was_in_front: bool,
    looking: Option<Receiver<Vec<Found>>>,
    found: VecDeque<Found>,
    told: Vec<Found>,
}

impl Window {
    /// Looks at the files of the line-up when the window has come to the front.
    pub(super) fn look_outside(&mut self, ctx: &egui::Context) {
        let is_in_front = ctx.input(|i| i.focused);
        let comes = is_in_front && !self.outside.was_in_front;
        self.outside.was_in_front = is_in_front;
        if comes && self.outside.looking.is_none() {
            self.outside.looking = Some(look(self.known_files(), ctx.clone()));
        }
        match self.outside.looking.as_ref().map(Receiver::try_recv) {
            Some(Ok(found)) => {
                self.outside.looking = None;
                self.outside.found.extend(found);
            }
            Some(Err(TryRecvError::Disconnected)) => self.outside.looking = None,
            Some(Err(TryRecvError::Empty)) | None => {}
        }
        while self.moment.question.is_none()
            && let Some(found) = self.outside.found.pop_front()
        {
            self.tell_changed(found);
        }
    }

    /// The line-up's file and each frame's, with what they held when they were last read or saved here.
    fn known_files(&self) -> Vec<(Saving, FileIdentity)> {
        let lineup = self.document.file().map(|file| (Saving::Lineup, file.clone()));
        let frames = FrameIndex::all(self.document.lineup().frames.len()).filter_map(|place| {
            let key = self.document.key_at(place)?;
            Some((Saving::Frame(key), self.document.frame_file(place)?.clone()))
        });
        lineup.into_iter().chain(frames).collect()
    }

    fn tell_changed(&mut self, found: Found) {
        let is_known_still = self.file_of(found.saving) == Some(&found.known);
        if !is_known_still || self.outside.told.contains(&found) {
            return;
        }
        self.outside.told.retain(|told| told.saving != found.saving);
        self.outside.told.push(found.clone());
        let path = found.known.path;
        if found.saving == Saving::Lineup {
            self.lose_saved();
        }
        if found.now.is_some() {
            let obstacle = Obstacle::Changed(found.now);
            self.put_question(Question::SaveOver { saving: found.saving, path, obstacle, agreed: Vec::new() });
        } else {
            self.notify(labels::is_no_longer_there(&path.display()));
        }
    }
}

/// Compares the files with what is on disk; those that are unchanged are left out.
fn look(files: Vec<(Saving, FileIdentity)>, ctx: egui::Context) -> Receiver<Vec<Found>> {
    let (sender, receiver) = channel();
    thread::spawn(move || {
        let found = files.into_iter().map(|(saving, known)| {
            let now = disk::content_hash(&known.path);
            Found { saving, known, now }
        });
        let changed = found.filter(|found| found.now != Some(found.known.hash)).collect();
        // A window that closed meanwhile wants no answer.
        drop(sender.send(changed));
        ctx.request_repaint();
    });
    receiver
}
