//! Where pictures, patterns and sheets are saved: nothing is replaced before the user agreed to it.

use std::path::{Path, PathBuf};

use egui::Context;

use super::app::Window;
use super::question::{Purpose, Question};
use crate::disk::{self, Occupant, Replace};

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
    pub(super) fn keep_picture(&mut self, path: &Path, replace: Replace, made: Result<Vec<u8>, String>) {
        // A link is written through where the user agreed to make the file that it names.
        let target = if replace == Replace::Confirmed { disk::write_target(path) } else { path.to_owned() };
        match made.and_then(|bytes| disk::write(&target, &bytes, replace).map_err(|e| e.to_string())) {
            Ok(()) => self.moment.status = format!("Saved {}.", path.display()),
            Err(problem) => {
                self.stay_open();
                self.moment.notify(problem);
            }
        }
    }
}
