//! Does what the Sheet view asks for: a sheet as a picture, on the clipboard, and published as a whole into a folder.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::Frame;
use egui::Context;

use super::app::Window;
use super::file_names::file_name;
use super::labels::notices as labels;
use super::question::Purpose;
use super::sheet_edits::sheet_in_front;
use super::shown::Shown;
use super::views;
use super::work::{Done, Published, Work, WorkError};
use crate::disk::{Publication, Replace, publish_into};
use crate::drawing::sheet_scene;
use crate::lineup::Sheet;
use crate::publish::{self, PublishProgress};

impl Shown<'_> {
    /// The folder that the sheet in front was last published into.
    pub(crate) fn published_in(&self) -> Option<&Path> {
        let (_, sheet) = sheet_in_front(self.lineup(), self.moment.sheet);
        match self.document.path() {
            Some(path) => self.session.published_in(&key(path, &sheet.name)),
            None => self.moment.published.iter().rev().find(|(name, _)| *name == sheet.name).map(|(_, folder)| folder.as_path()),
        }
    }
}

/// Under which name the session remembers where a sheet went. A line-up that is in no file yet has none: another one
/// would take it for its own.
fn key(lineup: &Path, sheet: &str) -> String {
    format!("{} {}", lineup.display(), sheet.trim())
}

impl Window {
    /// The sheet that the view in front shows, if it shows one.
    pub(super) fn sheet_shown(&self) -> Option<Sheet> {
        views::view(self.moment.view).sheet(self.shown()).filter(|_| !self.document.lineup().frames.is_empty())
    }

    fn sheet_in_front(&self) -> Sheet {
        sheet_in_front(self.document.lineup(), self.moment.sheet).1
    }

    /// A file name that says which sheet it is, without its ending.
    pub(super) fn sheet_name(&self) -> String {
        let sheet = self.sheet_in_front();
        format!("{}-{}", file_name(&self.document.name()), file_name(&sheet.name.to_lowercase()))
    }

    /// Asks for a folder to publish into, or takes the one that the sheet was last published into.
    pub(super) fn choose_publishing(&mut self, is_again: bool, ctx: &Context, desktop: Option<&Frame>) {
        if self.document.lineup().frames.is_empty() {
            labels::ADD_A_FRAME_FIRST.clone_into(&mut self.moment.status);
            return;
        }
        match self.shown().published_in().map(Path::to_owned) {
            Some(folder) if is_again => self.publish_into(folder, ctx),
            _ => {
                let suggested = self.suggestion(Purpose::Publish);
                self.choose(Purpose::Publish, suggested, ctx, desktop);
            }
        }
    }

    /// Publishes the sheet in front, beside the window: with progress, and it can be stopped.
    pub(super) fn publish_into(&mut self, folder: PathBuf, ctx: &Context) {
        if folder.is_file() {
            self.moment.notify(labels::this_is_a_file_choose(&folder.display()));
            return;
        }
        if let Some(work) = self.work.iter().find(|work| work.is_long()) {
            self.moment.status = if work.is_stopping() {
                labels::PUBLISHING_IS_BEING_STOPPED.to_owned()
            } else {
                labels::A_SHEET_IS_ALREADY_BEING_PUBLISHED.to_owned()
            };
            return;
        }
        let sheet = self.sheet_in_front();
        let (findings, lineup) = (Arc::clone(self.document.findings()), self.document.lineup().clone());
        let going = Arc::new(PublishProgress::default());
        let watched = Arc::clone(&going);
        self.work.push(Work::start_long(ctx, labels::PUBLISHING_THE_SHEET, watched, move || {
            let Ok(made) = publish::sheet_folder(&findings, &lineup, &sheet, &going) else {
                return Done::Published(folder, Ok(None));
            };
            let mut is_whole = made.problems.is_empty();
            let mut said = made.problems;
            if !made.left_out.is_empty() {
                said.push(labels::left_out(&made.left_out.join(" ")));
            }
            let written = match publish_into(&folder, &made.files, Replace::Made, &|| !going.is_stopped()) {
                Ok(Publication::Written { kept, files }) => {
                    is_whole &= kept.is_empty();
                    said.extend(kept);
                    Ok(Some(Published { sheet: sheet.name.clone(), files, said, is_whole }))
                }
                Ok(Publication::Stopped) => Ok(None),
                Err(problem) => Err(problem.into()),
            };
            Done::Published(folder, written)
        }));
    }

    /// Says what publishing came to, and remembers where it went.
    pub(super) fn tell_published(&mut self, folder: PathBuf, published: Result<Option<Published>, WorkError>) {
        match published {
            Ok(None) => self.moment.status = labels::publishing_was_stopped_nothing_was(&folder.display()),
            Ok(Some(Published { sheet, files, said, is_whole })) => {
                if !is_whole {
                    self.stay_open();
                }
                self.moment.status = labels::published_files_to(&files, &folder.display());
                for words in said {
                    self.moment.notify(words);
                }
                match self.document.path() {
                    Some(path) => self.session.remember_published(key(path, &sheet), folder),
                    None => self.moment.published.push((sheet, folder)),
                }
            }
            Err(problem) => {
                self.stay_open();
                self.moment.notify(problem.to_string());
            }
        }
    }

    /// Saves the sheet alone, as its file's ending says.
    pub(super) fn save_sheet(&mut self, path: PathBuf, replace: Replace, ctx: &Context) {
        let sheet = self.sheet_in_front();
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        if !["png", "svg", "pdf"].contains(&ending.as_str()) {
            self.moment.notify(labels::a_sheet_is_saved(&path.display()));
            return;
        }
        let scene = sheet_scene(self.document.findings(), self.document.lineup(), &sheet).scene;
        self.work.push(Work::start(ctx, labels::CREATING_THE_PICTURE, true, move || {
            let made = match ending.as_str() {
                "png" => publish::sheet_png(&scene, &sheet),
                "pdf" => publish::sheet_pdf(&scene, &sheet),
                _ => Ok(publish::sheet_svg(&scene, &sheet).into_bytes()),
            };
            Done::Picture(path, replace, made.map_err(WorkError::from))
        }));
    }

    /// Puts the sheet's pixels on the clipboard.
    pub(super) fn copy_sheet(&mut self, sheet: Sheet, ctx: &Context) {
        let scene = sheet_scene(self.document.findings(), self.document.lineup(), &sheet).scene;
        self.work.push(Work::start(ctx, labels::CREATING_THE_PICTURE, true, move || {
            Done::Copied(publish::sheet_pixels(&scene, &sheet).map_err(WorkError::from))
        }));
    }
}
