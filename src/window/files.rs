//! Files on their way in: read a few each frame, sorted into frames and line-ups, refusals turned into notices.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use super::ahead::Ahead;
use super::moment::Reading;
use super::taking::Taking;
use crate::disk::{FileIdentity, Loaded, Opened, open, read_bytes};
use crate::frameset::MAX_BYTES;
use crate::lineup::Lineup;

/// How long one frame may spend on reading.
const SLICE: Duration = Duration::from_millis(25);

/// What reading came to, this frame.
#[derive(Debug, Default)]
pub(crate) struct Progress {
    /// Refusals, one line each.
    pub(crate) problems: Vec<String>,
    /// Files that were good.
    pub(crate) good: Vec<PathBuf>,
    /// Line-ups found, with their files.
    pub(crate) lineups: Vec<(Lineup, FileIdentity)>,
    /// Tables to be looked through.
    pub(crate) tables: Vec<Taking>,
    /// Whether nothing is left to read.
    pub(crate) is_done: bool,
}

impl Reading {
    /// Reading what the program was started with, if anything.
    pub(crate) fn at_start(files: Vec<PathBuf>, ahead: Option<Ahead>) -> Option<Self> {
        let mut reading = Self { is_start: true, ahead, ..Self::default() };
        reading.queue(files);
        (reading.total > 0).then_some(reading)
    }

    /// Puts files in the queue.
    pub(crate) fn queue(&mut self, paths: Vec<PathBuf>) {
        self.total += paths.len();
        self.waiting.extend(paths);
    }

    /// Reads for a short while.
    pub(crate) fn go_on(&mut self) -> Progress {
        let began = Instant::now();
        let mut progress = Progress::default();
        while let Some(path) = self.waiting.pop_front() {
            if is_table_name(&path) {
                match read_bytes(&path, MAX_BYTES) {
                    Ok(bytes) => progress.tables.push(Taking::of_file(&bytes, path.display().to_string())),
                    Err(problem) => progress.problems.push(problem.to_string()),
                }
                continue;
            }
            match self.loaded.remove(&path).unwrap_or_else(|| open(&path)) {
                Ok(Opened { loaded: Loaded::Frameset(frameset), identity }) => {
                    self.frames.push((*frameset, identity));
                    progress.good.push(path);
                }
                Ok(Opened { loaded: Loaded::Lineup(lineup), identity }) => {
                    progress.good.push(path);
                    progress.lineups.push((*lineup, identity));
                }
                Err(problem) => progress.problems.push(problem.to_string()),
            }
            if began.elapsed() > SLICE {
                break;
            }
        }
        progress.is_done = self.waiting.is_empty();
        progress
    }
}

/// Whether a file's name says that it is a table: CSV, tabbed text or a spreadsheet.
pub(crate) fn is_table_name(path: &Path) -> bool {
    let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
    ["csv", "tsv", "tab", "txt", "xlsx"].contains(&ending.as_str())
}

/// A file's name without its folders: all that a line-up says of where a frame came from, for it may be published.
pub(crate) fn base_name(path: &Path) -> Option<String> {
    path.file_name().map(|name| name.to_string_lossy().into_owned())
}

/// A typed path: `~` is the home folder, and quotes around it are dropped.
pub(crate) fn typed_path(text: &str) -> PathBuf {
    let text = text.trim().trim_matches(['"', '\'']);
    let text = text.strip_prefix("file://").unwrap_or(text);
    match text.strip_prefix("~/").zip(std::env::home_dir()) {
        Some((rest, home)) => home.join(rest),
        None => PathBuf::from(text),
    }
}

/// The path with its ending, where the typed one has none.
pub(crate) fn with_ending(path: &Path, ending: &str) -> PathBuf {
    if path.extension().is_some() {
        return path.to_owned();
    }
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_paths() {
        assert_eq!(typed_path(" \"/tmp/a b.frame.ron\" "), PathBuf::from("/tmp/a b.frame.ron"));
        assert_eq!(typed_path("file:///tmp/a"), PathBuf::from("/tmp/a"));
        assert!(!typed_path("~/x").starts_with("~"));
        assert_eq!(with_ending(Path::new("/tmp/a"), ".lineup.ron"), PathBuf::from("/tmp/a.lineup.ron"));
        assert_eq!(with_ending(Path::new("/tmp/a.svg"), ".svg"), PathBuf::from("/tmp/a.svg"));
    }
}
