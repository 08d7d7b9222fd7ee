//! The session: what is remembered from one run to the next and may be lost: appearance, text size, the panel's width,
//! recent files, paper. It lies in the toolkit's own storage and never touches a picture or a figure.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::drawing::Paper;

/// How many recent files are listed.
const RECENT: usize = 12;
/// How many places of published sheets are remembered.
const PUBLISHED: usize = 60;
/// The name by which desktops know the program, and under which its session is stored.
pub(super) const APP_ID: &str = "spandrel";
/// Under which key the session lies in the storage.
pub(crate) const SESSION_ID: &str = "session";

/// Light, dark, or as the desktop is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Appearance {
    /// As the desktop is.
    #[default]
    System,
    /// Ink on paper.
    Light,
    /// Chalk on slate.
    Dark,
}

/// What is remembered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Session {
    /// Light, dark, or as the desktop is.
    pub(crate) appearance: Appearance,
    /// 1 is normal.
    pub(crate) text_scale: f32,
    /// Width of the line-up's panel, points.
    pub(crate) panel_width: f32,
    /// Files opened or saved lately, newest first.
    pub(crate) recent: Vec<PathBuf>,
    /// Size of saved pictures, pixels.
    pub(crate) picture: (u32, u32),
    /// Whether saved pictures are dark.
    pub(crate) is_picture_dark: bool,
    /// What patterns are printed on.
    pub(crate) paper: Paper,
    /// Whether Parts shows the rear from above and not its tables.
    pub(crate) is_rear_shown: bool,
    /// Which sheet was last published where, newest last.
    pub(crate) published: Vec<(String, PathBuf)>,
}

impl Default for Session {
    fn default() -> Self {
        Self {
            appearance: Appearance::System,
            text_scale: 1.0,
            panel_width: 304.0,
            recent: Vec::new(),
            picture: (1920, 1080),
            is_picture_dark: false,
            paper: Paper::A4,
            is_rear_shown: false,
            published: Vec::new(),
        }
    }
}

impl Session {
    /// Puts a file at the head of the recent ones.
    pub(crate) fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|known| *known != path);
        self.recent.insert(0, path);
        self.recent.truncate(RECENT);
    }

    /// Remembers where a sheet was published.
    pub(crate) fn remember_published(&mut self, sheet: String, folder: PathBuf) {
        let folder = std::path::absolute(&folder).unwrap_or(folder);
        self.published.retain(|(known, _)| *known != sheet);
        self.published.push((sheet, folder));
        let surplus = self.published.len().saturating_sub(PUBLISHED);
        self.published.drain(..surplus);
    }

    /// Where a sheet was last published.
    pub(crate) fn published_in(&self, sheet: &str) -> Option<&Path> {
        self.published.iter().find(|(known, _)| known == sheet).map(|(_, folder)| folder.as_path())
    }

    /// Text a step larger (+1) or smaller (−1), within what fits a screen.
    pub(crate) fn scale_text(&mut self, steps: f32) {
        self.text_scale = (((self.text_scale + 0.1 * steps) * 10.0).round() / 10.0).clamp(0.6, 2.5);
    }

    /// What was stored may have been edited or come from another version.
    pub(crate) fn made_sane(mut self) -> Self {
        let fallback = Self::default();
        if !self.text_scale.is_finite() || !(0.6..=2.5).contains(&self.text_scale) {
            self.text_scale = fallback.text_scale;
        }
        if !self.panel_width.is_finite() || !(200.0..=600.0).contains(&self.panel_width) {
            self.panel_width = fallback.panel_width;
        }
        self.recent.truncate(RECENT);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn recent_files_are_listed_once_newest_first() {
        let mut session = Session::default();
        for name in ["a.ron", "b.ron", "a.ron"] {
            session.remember(Path::new(name));
        }
        assert_eq!(session.recent.len(), 2);
        assert!(session.recent[0].ends_with("a.ron"));
        for number in 0..40 {
            session.remember(&PathBuf::from(format!("{number}.ron")));
        }
        assert_eq!(session.recent.len(), RECENT);
    }

    #[test]
    fn the_last_place_of_each_sheet_is_remembered() {
        let mut session = Session::default();
        for number in 0..100 {
            session.remember_published(format!("a {number}"), PathBuf::from("/one"));
        }
        session.remember_published("a 99".to_owned(), PathBuf::from("/two"));
        assert_eq!(session.published_in("a 99"), Some(Path::new("/two")));
        assert_eq!((session.published_in("a 0"), session.published.len()), (None, PUBLISHED));
    }

    #[test]
    fn a_spoilt_session_is_made_sane() {
        let session = Session { text_scale: f32::NAN, panel_width: 1e9, ..Session::default() }.made_sane();
        assert_eq!(session, Session::default());
    }
}
