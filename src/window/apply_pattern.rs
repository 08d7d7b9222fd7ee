//! Does what the Bags view asks for: the pattern of a frame's bag as a file to print.

use std::path::PathBuf;

use eframe::Frame;
use egui::Context;

use super::app::Window;
use super::file_names::file_name;
use super::labels::notices as labels;
use super::question::Purpose;
use super::work::{Done, Work, WorkError};
use crate::disk::{self, Replace};
use crate::drawing::{Paper, pattern_scenes};
use crate::frameset::FrameIndex;
use crate::publish;
use crate::words::no_pattern_text;

impl Window {
    /// Asks where to save a frame's pattern; says why where there is none.
    pub(super) fn choose_pattern(&mut self, frame: FrameIndex, ctx: &Context, desktop: Option<&Frame>) {
        let Some(found) = frame.of(&self.document.findings().frames) else { return };
        let units = self.document.lineup().settings.units;
        if let Err(why) = pattern_scenes(found, units, Paper::OneSheet, None) {
            let words = format!("{}: {}", found.name, no_pattern_text(units, &why));
            self.moment.notify(words);
            return;
        }
        let purpose = Purpose::SavePattern(frame);
        let suggested = self.suggestion(purpose);
        self.choose(purpose, suggested, ctx, desktop);
    }

    /// A file name that says whose pattern it is.
    pub(super) fn pattern_name(&self, frame: FrameIndex) -> String {
        let found = frame.of(&self.document.findings().frames);
        let name = found.map(|f| labels::bag(&f.name, &f.size_label()).to_lowercase()).unwrap_or_default();
        format!("{}.pdf", file_name(&name))
    }

    /// Saves it: pages in a PDF, or all on one sheet in an SVG.
    pub(super) fn save_pattern(&mut self, frame: FrameIndex, path: PathBuf, replace: Replace, ctx: &Context) {
        let Some(found) = frame.of(&self.document.findings().frames) else { return };
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        let is_pdf = ending == "pdf";
        if !is_pdf && ending != "svg" {
            self.moment.notify(labels::a_pattern_is_saved(&path.display()));
            return;
        }
        let paper = if is_pdf { self.session.paper } else { Paper::OneSheet };
        let day = disk::today();
        let units = self.document.lineup().settings.units;
        match pattern_scenes(found, units, paper, day) {
            Ok(pages) => self.work.push(Work::start(ctx, labels::CREATING_THE_PATTERN, true, move || {
                Done::Picture(path, replace, publish::pattern_file(&pages, is_pdf, day).map_err(WorkError::from))
            })),
            Err(why) => {
                let words = format!("{}: {}", found.name, no_pattern_text(units, &why));
                self.moment.notify(words);
            }
        }
    }
}
