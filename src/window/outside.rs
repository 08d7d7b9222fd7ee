//! Files that were changed outside: noticed when the window comes to the front again, and offered, never taken silently.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::app::Window;
use super::questions::Question;
use crate::disk::{self, Stamp};

/// The frame files that were opened or saved, as they were last seen.
#[derive(Debug, Default)]
pub(crate) struct Outside {
    seen: BTreeMap<PathBuf, Option<Stamp>>,
    was_in_front: bool,
}

impl Outside {
    /// Watches a frame file from now on.
    pub(crate) fn watch(&mut self, path: &Path) {
        if !disk::is_lineup_name(path) {
            self.seen.insert(path.to_owned(), disk::stamp(path));
        }
    }

    /// A file that looks otherwise than when it was last seen; from now on it is seen as it looks.
    fn changed(&mut self) -> Option<PathBuf> {
        let (path, now) = self.seen.iter().find_map(|(path, before)| {
            let now = disk::stamp(path);
            (now.is_some() && now != *before).then(|| (path.clone(), now))
        })?;
        self.seen.insert(path.clone(), now);
        Some(path)
    }
}

impl Window {
    /// Looks at the watched files when the window has come to the front.
    pub(super) fn look_outside(&mut self, ctx: &egui::Context) {
        let is_in_front = ctx.input(|i| i.focused);
        let comes = is_in_front && !self.outside.was_in_front;
        self.outside.was_in_front = is_in_front;
        if comes
            && self.moment.question.is_none()
            && let Some(path) = self.outside.changed()
        {
            self.moment.question = Some(Question::ChangedOutside(path));
        }
    }
}
