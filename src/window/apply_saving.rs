//! Saving the line-up and frame files. A file is written only where nothing is lost by it, or the user agreed.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::Frame;
use egui::Context;

use super::app::Window;
use super::edits::Edit;
use super::labels::notices as labels;
use super::moment::Reading;
use super::question::{Purpose, Question, Saving};
use super::reader::ReadPurpose;
use super::work::WorkError;
use crate::disk::{self, Expected, FileIdentity, FileProblem, Loaded, Obstacle, Opened, Saved};
use crate::frameset::{FrameIndex, write_frameset};
use crate::lineup::{letter, write_lineup};

impl Window {
    /// Saves to a path that the user chose. `has_asked`: a dialog has asked about replacing the file there.
    pub(super) fn save_chosen(&mut self, saving: Saving, path: PathBuf, has_asked: bool, ctx: &Context) {
        let mut agreed = Vec::new();
        if has_asked && let Err(there @ Obstacle::Exists(_)) = disk::expected(&path, self.file_of(saving), &[]) {
            agreed.push(there);
        }
        self.save_over(saving, path, agreed, ctx);
    }

    /// Saves, after asking about what stands in the way and was not agreed to.
    pub(super) fn save_over(&mut self, saving: Saving, path: PathBuf, agreed: Vec<Obstacle>, ctx: &Context) {
        match disk::expected(&path, self.file_of(saving), &agreed) {
            Err(obstacle) => self.moment.question = Some(Question::SaveOver { saving, path, obstacle, agreed }),
            Ok(expected) => match saving {
                Saving::Lineup => self.save_lineup(&path, expected, ctx),
                Saving::Frame(_) => self.save_frame(saving, &path, expected),
            },
        }
    }

    /// Another program wrote the file in the very moment of saving: it is asked about like any other change.
    fn overtaken(&mut self, saving: Saving, path: &Path) {
        if let Err(obstacle) = disk::expected(path, self.file_of(saving), &[]) {
            let path = path.to_owned();
            self.moment.question = Some(Question::SaveOver { saving, path, obstacle, agreed: Vec::new() });
        } else {
            self.then = None;
            self.moment.notify(labels::not_saved_another_program(&path.display()));
        }
    }

    /// The user agreed to this obstacle.
    pub(super) fn save_agreed(
        &mut self,
        saving: Saving,
        path: PathBuf,
        obstacle: Obstacle,
        mut agreed: Vec<Obstacle>,
        ctx: &Context,
    ) {
        if let Obstacle::NoFolder(folder) = &obstacle
            && let Err(problem) = disk::make_folder(folder)
        {
            self.then = None;
            self.moment.notify(problem.to_string());
            return;
        }
        // With its folder, the absence of the file itself was agreed to.
        if matches!(obstacle, Obstacle::NoFolder(_)) {
            agreed.push(Obstacle::Gone);
        }
        agreed.push(obstacle);
        self.save_over(saving, path, agreed, ctx);
    }

    /// Saves beside the file, under a name that is free, and stays with that file.
    pub(super) fn keep_both(&mut self, saving: Saving, path: &Path, ctx: &Context) {
        self.save_over(saving, disk::free_path(path), Vec::new(), ctx);
    }

    /// The document's own file.
    pub(super) fn file_of(&self, saving: Saving) -> Option<&FileIdentity> {
        match saving {
            Saving::Lineup => self.document.file(),
            Saving::Frame(key) => self.document.place_of(key).and_then(|place| self.document.frame_file(place)),
        }
    }

    /// What is saved, in words that tell it from the others.
    pub(super) fn words_for(&self, saving: Saving) -> String {
        match saving {
            Saving::Lineup => labels::THE_LINE_UP.to_owned(),
            Saving::Frame(key) => {
                match self.document.place_of(key).and_then(|p| Some((p, p.of(&self.document.lineup().frames)?))) {
                    Some((place, entry)) => format!("{} {}", letter(place), entry.frameset.name()),
                    None => labels::THE_FRAME.to_owned(),
                }
            }
        }
    }

    /// Where else to save.
    pub(super) fn save_elsewhere(&mut self, saving: Saving, ctx: &Context, desktop: Option<&Frame>) {
        let purpose = match saving {
            Saving::Lineup => Purpose::SaveLineup,
            Saving::Frame(key) => Purpose::SaveFrame(key),
        };
        let suggested = self.suggestion(purpose);
        self.choose(purpose, suggested, ctx, desktop);
    }

    fn save_lineup(&mut self, path: &Path, expected: Expected, ctx: &Context) {
        let written = write_lineup(self.document.lineup()).map_err(|why| WorkError::Document { path: path.to_owned(), why });
        // Whenever the program ends from here on, the journal holds what is being saved, or is gone.
        if self.document.is_unsaved() {
            self.flush_recovery();
        }
        match written.and_then(|text| written_to(path, text.as_bytes(), expected)) {
            Ok(None) => self.overtaken(Saving::Lineup, path),
            Ok(Some(file)) => {
                self.moment.status = labels::saved(&path.display());
                self.session.remember(path);
                self.document.mark_saved(file);
                self.flush_recovery();
                self.claim_file(Some(path));
                if let Some(then) = self.then.take() {
                    self.go_on_with(then, ctx);
                }
            }
            Err(problem) => {
                self.then = None;
                self.moment.notify(problem.to_string());
            }
        }
    }

    fn save_frame(&mut self, saving: Saving, path: &Path, expected: Expected) {
        let Saving::Frame(key) = saving else { return };
        let Some((place, entry)) = self.document.place_of(key).and_then(|p| Some((p, p.of(&self.document.lineup().frames)?)))
        else {
            self.moment.notify(labels::not_saved_the_frame(&path.display()));
            return;
        };
        let written = write_frameset(&entry.frameset).map_err(|why| WorkError::Document { path: path.to_owned(), why });
        match written.and_then(|text| written_to(path, text.as_bytes(), expected)) {
            Ok(None) => self.overtaken(saving, path),
            Ok(Some(file)) => {
                self.moment.status = labels::saved(&path.display());
                self.session.remember(path);
                self.document.tie(place, file);
            }
            Err(problem) => self.moment.notify(problem.to_string()),
        }
    }

    /// Begins to read the line-up or the frame again from its file.
    pub(super) fn read_again(&mut self, saving: Saving, path: PathBuf) {
        self.then = None;
        self.moment.reading.get_or_insert_with(Reading::default).queue(vec![path], ReadPurpose::Again(saving));
    }

    /// Takes what was read again. Undo brings back what was here.
    pub(super) fn take_again(&mut self, saving: Saving, path: &Path, opened: Result<Opened, FileProblem>) {
        match (opened, saving) {
            (Ok(Opened { loaded: Loaded::Lineup(lineup), identity }), Saving::Lineup) => {
                self.document.reread(*lineup, identity, labels::READING_THE_LINE_UP_AGAIN.to_owned());
                self.moment.status = labels::read_again(&path.display());
                self.moment.selected =
                    self.moment.selected.min(FrameIndex(self.document.lineup().frames.len().saturating_sub(1)));
            }
            (Ok(Opened { loaded: Loaded::Frameset(frameset), identity }), Saving::Frame(key)) => {
                let Some(frame) = self.document.place_of(key) else { return };
                let what = labels::reading_again(&letter(frame));
                self.edit(Edit::Frameset { frame, frameset: Arc::new(*frameset), what, field: None });
                self.document.end_gesture();
                self.document.tie(frame, identity);
            }
            (Ok(_), _) => self.moment.notify(labels::holds_another_kind_of_file(&path.display())),
            (Err(problem), _) => self.moment.notify(problem.to_string()),
        }
    }
}

/// Writes a file, through links, and says how it is known from now on; `None` where another program came first.
fn written_to(path: &Path, bytes: &[u8], expected: Expected) -> Result<Option<FileIdentity>, WorkError> {
    let saved = disk::save_document(path, bytes, expected)?;
    Ok((saved == Saved::Written).then(|| FileIdentity::of(path, bytes)))
}
