//! Pictures and tables out: what of the view in front is saved or copied, and where. Nothing is replaced before the user
//! agreed to it.

use std::path::{Path, PathBuf};

use eframe::Frame;
use egui::Context;

use super::app::Window;
use super::labels::notices as labels;
use super::question::{PictureChoice, Purpose, Question};
use super::viewport::Viewport;
use super::views;
use super::work::{Done, Work, WorkError};
use crate::disk::{self, Occupant, Replace};
use crate::drawing::{Background, Look, Picture};
use crate::publish;

impl Window {
    /// Saves to a path that the user chose, after asking about what is there. `has_asked`: a dialog has asked about
    /// replacing the file there.
    pub(super) fn picture_chosen(&mut self, purpose: Purpose, path: PathBuf, has_asked: bool, ctx: &Context) {
        match Occupant::at(&path) {
            None | Some(Occupant::Stream) => self.make_picture(purpose, path, Replace::Never, ctx),
            Some(Occupant::File) if has_asked => self.make_picture(purpose, path, Replace::Asked, ctx),
            Some(found @ (Occupant::Folder | Occupant::Other)) => {
                self.moment.notify(format!("{}: {}", path.display(), found.sentence()));
            }
            Some(occupant) => self.moment.question = Some(Question::ReplacePicture { purpose, path, occupant }),
        }
    }

    /// The user agreed to replace what is there.
    pub(super) fn picture_agreed(&mut self, purpose: Purpose, path: PathBuf, occupant: &Occupant, ctx: &Context) {
        let replace = if *occupant == Occupant::File { Replace::Asked } else { Replace::Confirmed };
        self.make_picture(purpose, path, replace, ctx);
    }

    fn make_picture(&mut self, purpose: Purpose, path: PathBuf, replace: Replace, ctx: &Context) {
        match purpose {
            Purpose::SaveSheet => self.save_sheet(path, replace, ctx),
            Purpose::SavePicture => self.save_picture(path, replace, ctx),
            Purpose::SavePattern(frame) => self.save_pattern(frame, path, replace, ctx),
            Purpose::Open | Purpose::SaveLineup | Purpose::SaveFrame(_) | Purpose::Publish => {}
        }
    }

    /// Writes what was made.
    pub(super) fn keep_picture(&mut self, path: &Path, replace: Replace, made: Result<Vec<u8>, WorkError>) {
        // A link is written through where the user agreed to make the file that it names.
        let target = if replace == Replace::Confirmed { disk::write_target(path) } else { path.to_owned() };
        match made.and_then(|bytes| Ok(disk::write(&target, &bytes, replace)?)) {
            Ok(()) => self.moment.status = labels::saved(&path.display()),
            Err(problem) => {
                self.stay_open();
                self.moment.notify(problem.to_string());
            }
        }
    }

    /// Asks what picture to save.
    pub(super) fn ask_picture(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        if self.sheet_shown().is_some() {
            let suggested = self.suggestion(Purpose::SaveSheet);
            self.choose(Purpose::SaveSheet, suggested, ctx, desktop);
            return;
        }
        if self.picture_of_view((16, 9), Background::Light).is_none() {
            self.say_no_picture();
            return;
        }
        let (width, height) = self.session.picture;
        let is_dark = self.picture.as_ref().map_or(ctx.global_style().visuals.dark_mode, |p| p.is_dark);
        let is_png = self.picture.as_ref().is_none_or(|p| p.is_png);
        let choice = PictureChoice { width: width.to_string(), height: height.to_string(), is_png, is_dark };
        self.moment.question = Some(Question::Picture(choice));
    }

    fn say_no_picture(&mut self) {
        let view = self.moment.view.label();
        self.moment.status = if self.document.lineup().frames.is_empty() {
            labels::ADD_A_FRAME_FIRST.to_owned()
        } else {
            labels::is_a_table_copy(&view)
        };
    }

    /// What the view in front shows, with title, legend and foot note, as it is seen: the same part of the drawing.
    fn picture_of_view(&self, (width_px, height_px): (u32, u32), background: Background) -> Option<Picture> {
        let id = self.moment.view;
        let view = views::view(id).picture(self.shown()).filter(|_| !self.document.lineup().frames.is_empty())?;
        let look = match self.moment.viewports.get(&id).copied() {
            Some((Viewport::Scale(seen), on)) => Some(Look::Scale(seen, on)),
            Some((Viewport::Plot(seen), _)) => Some(Look::Plot(seen)),
            None => None,
        };
        Some(Picture { view, width_px, height_px, background, look })
    }

    fn save_picture(&mut self, path: PathBuf, replace: Replace, ctx: &Context) {
        let Some(choice) = self.picture.clone() else { return };
        let background = if choice.is_dark { Background::Dark } else { Background::Light };
        let Some(picture) = choice.size().ok().and_then(|size| self.picture_of_view(size, background)) else {
            self.say_no_picture();
            return;
        };
        let is_png = path.extension().map_or(choice.is_png, |e| e.eq_ignore_ascii_case("png"));
        // The line-up as it is now, whatever is changed while the pixels are made.
        let svg = publish::picture_svg(self.document.findings(), self.document.lineup(), &picture);
        self.work.push(Work::start(ctx, labels::CREATING_THE_PICTURE, true, move || {
            let made = if is_png {
                publish::png(&svg, picture.width_px, picture.height_px).map_err(WorkError::from)
            } else {
                Ok(svg.into_bytes())
            };
            Done::Picture(path, replace, made)
        }));
    }

    /// Copies the picture of the view in front.
    pub(super) fn copy_picture(&mut self, ctx: &Context) {
        if let Some(sheet) = self.sheet_shown() {
            self.copy_sheet(sheet, ctx);
            return;
        }
        let background = if ctx.global_style().visuals.dark_mode { Background::Dark } else { Background::Light };
        let Some(picture) = self.picture_of_view(self.session.picture, background) else {
            self.say_no_picture();
            return;
        };
        let svg = publish::picture_svg(self.document.findings(), self.document.lineup(), &picture);
        self.work.push(Work::start(ctx, labels::CREATING_THE_PICTURE, true, move || {
            Done::Copied(publish::pixels(&svg, picture.width_px, picture.height_px).map_err(WorkError::from))
        }));
    }

    /// Copies all figures as text.
    pub(super) fn copy_figures(&mut self, ctx: &Context) {
        if self.document.lineup().frames.is_empty() {
            labels::ADD_A_FRAME_FIRST.clone_into(&mut self.moment.status);
            return;
        }
        ctx.copy_text(publish::tabbed(self.table()));
        labels::FIGURES_COPIED_TO_THE_CLIPBOARD.clone_into(&mut self.moment.status);
    }
}
