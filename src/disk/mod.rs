//! The only room that touches the disk: reading with a limit, and atomic writing (a new file beside the old one,
//! written, flushed, renamed), so that an original is never half written, and that nothing which Spandrel did not make is
//! replaced unasked. And it reads the calendar off the clock.

mod document_file;
mod identity;
mod journal;
mod leftovers;
mod lock;
mod made;
mod obstacle;
mod publication;
mod read;
mod replace;
mod write;

use std::fmt;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::frameset::{Frameset, Position, ReadError};
use crate::lineup::Lineup;
use crate::units::{Day, visible};

/// Today in universal time; `None` where the clock is set before 1970.
#[must_use]
pub fn today() -> Option<Day> {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).ok()?;
    Day::of_unix_seconds(since.as_secs())
}

pub use document_file::{Saved, save_document};
pub use identity::{ContentHash, FileIdentity, full_path, is_same_file};
pub use journal::{Journal, LeftJournal, Unsaved, left_journals};
pub use lock::{Lock, lock_path};
pub use made::LIST;
pub use obstacle::{Expected, Obstacle, content_hash, expected, free_path, write_target};
pub use publication::{Publication, publish_into};
pub use read::{Opened, STANDARD_INPUT, load, load_argument, open, read_argument, read_bytes};
pub use replace::{Occupant, Replace};
pub use write::{save, write};

/// What a file turned out to hold.
#[derive(Clone, Debug, PartialEq)]
pub enum Loaded {
    /// A frame file.
    Frameset(Box<Frameset>),
    /// A line-up file.
    Lineup(Box<Lineup>),
}

/// What is wrong with a file, in one line: `file:line:column: sentence`.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct FileProblem {
    /// File or folder that the problem is about.
    pub path: PathBuf,
    /// Where in it.
    pub position: Option<Position>,
    /// What is wrong and what to do.
    pub sentence: String,
}

impl fmt::Display for FileProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // One line, and nothing that a terminal would obey, whatever the file and its labels are called.
        write!(f, "{}:", visible(&self.path.to_string_lossy()))?;
        if let Some(at) = self.position {
            write!(f, "{}:{}:", at.line, at.column)?;
        }
        write!(f, " {}", visible(&self.sentence))
    }
}

impl FileProblem {
    fn new(path: &Path, position: Option<Position>, sentence: impl Into<String>) -> Self {
        Self { path: path.to_owned(), position, sentence: sentence.into() }
    }

    fn read(path: &Path, error: &ReadError) -> Self {
        Self::new(path, error.position(), error.to_string())
    }

    fn io(path: &Path, doing: &str, error: &io::Error) -> Self {
        let why = match error.kind() {
            io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
            io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
            io::ErrorKind::StorageFull => "the disk is full".to_owned(),
            io::ErrorKind::ReadOnlyFilesystem => "the folder is on a read-only disk".to_owned(),
            io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
            io::ErrorKind::QuotaExceeded => "your disk quota is used up".to_owned(),
            io::ErrorKind::NotADirectory => "a part of its path is not a folder".to_owned(),
            _ => by_the_system(error),
        };
        Self::new(path, None, format!("{doing}: {why}"))
    }
}

/// What the system says of an error that is rare: in our words where it can be told what to do, else in its own, without
/// its number and without the hidden name of a file that was being written.
fn by_the_system(error: &io::Error) -> String {
    let text = error.to_string();
    let words = text.split(" (os error").next().unwrap_or(&text);
    match words {
        "Input/output error" => "the disk reports an error: check it, or choose another disk".to_owned(),
        "Too many levels of symbolic links" => "it is a link that leads back to itself".to_owned(),
        words => format!("the system reports: {words}"),
    }
}

/// Whether the name says that the file is a line-up.
#[must_use]
pub fn is_lineup_name(path: &Path) -> bool {
    path.file_name().is_some_and(|n| n.to_string_lossy().ends_with(".lineup.ron"))
}

/// Names of what lies in a folder, in no order; empty where it cannot be read.
#[must_use]
pub fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    entries.map(|e| e.file_name().to_string_lossy().into_owned()).collect()
}

/// Takes a file away. One that is not there is as good as taken away.
///
/// # Errors
/// Whatever the system says, in one line.
pub fn remove(path: &Path) -> Result<(), FileProblem> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(FileProblem::io(path, "cannot be removed", &error)),
        _ => Ok(()),
    }
}

/// Makes a folder, and those above it.
///
/// # Errors
/// Whatever the system says, in one line.
pub fn make_folder(path: &Path) -> Result<(), FileProblem> {
    fs::create_dir_all(path).map_err(|e| FileProblem::io(path, "cannot be made", &e))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn removal_is_calm() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.frame.ron");
        save(&path, b"one").unwrap();
        remove(&path).unwrap();
        remove(&path).unwrap();
        make_folder(&folder.path().join("b/c")).unwrap();
        assert!(remove(&folder.path().join("b")).is_err());
    }
}
