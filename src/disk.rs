//! The only room that touches the disk: reading with a limit, and atomic writing (a new file beside the old one,
//! written, flushed, renamed), so that an original is never half written. And it reads the calendar off the clock.

mod made;

use std::fmt;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use crate::frameset::{Frameset, MAX_BYTES, Position, ReadError, read_frameset};
use crate::lineup::{Lineup, read_lineup};
use crate::units::Day;

/// Today in universal time; `None` where the clock is set before 1970.
#[must_use]
pub fn today() -> Option<Day> {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).ok()?;
    Day::of_unix_seconds(since.as_secs())
}

pub use made::{LIST, write_made};

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
    /// The file.
    pub path: PathBuf,
    /// Where in it.
    pub position: Option<Position>,
    /// What is wrong and what to do.
    pub sentence: String,
}

impl fmt::Display for FileProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // One line, and nothing that a terminal would obey, whatever the file and its labels are called.
        let plain = |text: &str| text.replace(char::is_control, " ");
        write!(f, "{}:", plain(&self.path.to_string_lossy()))?;
        if let Some(at) = self.position {
            write!(f, "{}:{}:", at.line, at.column)?;
        }
        write!(f, " {}", plain(&self.sentence))
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
            _ => error.to_string(),
        };
        Self::new(path, None, format!("{doing}: {why}"))
    }
}

/// Whether the name says that the file is a line-up.
#[must_use]
pub fn is_lineup_name(path: &Path) -> bool {
    path.file_name().is_some_and(|n| n.to_string_lossy().ends_with(".lineup.ron"))
}

/// The bytes of a file of at most `limit` bytes; a larger one is refused unread.
///
/// # Errors
/// When it cannot be read, is no plain file, or is larger.
pub fn read_bytes(path: &Path, limit: usize) -> Result<Vec<u8>, FileProblem> {
    let about = fs::metadata(path).map_err(|e| FileProblem::io(path, "cannot be read", &e))?;
    if about.is_dir() {
        return Err(FileProblem::new(path, None, "is a folder, not a file"));
    }
    if about.len() > limit as u64 {
        return Err(FileProblem::read(path, &ReadError::TooLarge));
    }
    fs::read(path).map_err(|e| FileProblem::io(path, "cannot be read", &e))
}

/// Reads a frame file or a line-up, told apart by the name's ending and, where that says nothing, by what it begins with.
///
/// # Errors
/// In one line: what is wrong, where, and the nearest right form.
pub fn load(path: &Path) -> Result<Loaded, FileProblem> {
    let bytes = read_bytes(path, MAX_BYTES)?;
    let problem = |e: ReadError| FileProblem::read(path, &e);
    let is_named_so = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ron"));
    if !is_named_so && [&b"\x89PNG"[..], b"%PDF", b"<svg", b"<!DOCTYPE"].iter().any(|start| bytes.starts_with(start)) {
        let sentence = "a picture or page is no frame and no line-up; the comparison that a published one carries is taken out \
                        with: spandrel comparison FILE --to NAME.lineup.ron";
        return Err(FileProblem::new(path, None, sentence));
    }
    if is_lineup_name(path) || begins_with_lineup(&bytes) {
        Ok(Loaded::Lineup(Box::new(read_lineup(&bytes).map_err(problem)?)))
    } else {
        Ok(Loaded::Frameset(Box::new(read_frameset(&bytes).map_err(problem)?)))
    }
}

fn begins_with_lineup(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes.get(..4096).unwrap_or(bytes));
    text.lines()
        .map(str::trim_start)
        .find(|l| !l.is_empty() && !l.starts_with("//") && !l.starts_with('#'))
        .is_some_and(|l| l.starts_with("Lineup"))
}

/// Writes a file whole or not at all: a new file in the same folder, written, flushed to the disk, renamed over the old
/// one, whose permissions it keeps.
///
/// # Errors
/// A read-only folder, a full disk and whatever else the system says, in one line; the original is untouched then.
pub fn save(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    let problem = |e: io::Error| FileProblem::io(path, "cannot be saved", &e);
    if path.is_dir() {
        return Err(FileProblem::new(path, None, "cannot be saved: it is a folder"));
    }
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut new = tempfile::Builder::new().prefix(".spandrel-").tempfile_in(folder).map_err(problem)?;
    new.write_all(bytes).map_err(problem)?;
    new.as_file().sync_all().map_err(problem)?;
    let permissions = fs::metadata(&target).ok().map(|m| m.permissions());
    set_permissions(new.as_file(), permissions).map_err(problem)?;
    new.persist(&target).map_err(|e| problem(e.error))?;
    if let Ok(folder) = fs::File::open(folder) {
        // The rename itself reaches the disk; systems that cannot flush a folder say so and lose nothing.
        drop(folder.sync_all());
    }
    Ok(())
}

/// A file as it was last seen, by which a change from outside is noticed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    modified: Option<std::time::SystemTime>,
    length: u64,
}

/// How a file looks now; `None` when it is not there.
#[must_use]
pub fn stamp(path: &Path) -> Option<Stamp> {
    let about = fs::metadata(path).ok()?;
    Some(Stamp { modified: about.modified().ok(), length: about.len() })
}

/// Names of what lies in a folder, in no order; empty where it cannot be read.
#[must_use]
pub fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    entries.map(|e| e.file_name().to_string_lossy().into_owned()).collect()
}

/// Whether a process of that number is alive, as far as the system tells: where it does not, none is.
#[must_use]
pub fn is_running(process: u32) -> bool {
    Path::new("/proc").join(process.to_string()).exists()
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

/// The old file's permissions, or those that a new file usually gets.
fn set_permissions(file: &fs::File, permissions: Option<fs::Permissions>) -> io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        file.set_permissions(permissions.unwrap_or_else(|| fs::Permissions::from_mode(0o644)))
    }
    #[cfg(not(unix))]
    {
        permissions.map_or(Ok(()), |p| file.set_permissions(p))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn saving_replaces_whole_files_and_leaves_nothing_behind() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.frame.ron");
        save(&path, b"one").unwrap();
        save(&path, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
        let problem = save(&folder.path().join("none/a"), b"x").unwrap_err();
        assert!(problem.to_string().ends_with("cannot be saved: there is no such file or folder"), "{problem}");
    }

    #[test]
    fn a_change_from_outside_is_noticed_and_removal_is_calm() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.frame.ron");
        assert_eq!(stamp(&path), None);
        save(&path, b"one").unwrap();
        let before = stamp(&path);
        assert_eq!(stamp(&path), before);
        fs::write(&path, b"longer").unwrap();
        assert_ne!(stamp(&path), before);
        remove(&path).unwrap();
        remove(&path).unwrap();
        make_folder(&folder.path().join("b/c")).unwrap();
        assert!(remove(&folder.path().join("b")).is_err());
    }

    #[test]
    fn a_picture_is_told_from_a_spoilt_frame() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("picture.png");
        fs::write(&path, b"\x89PNG\r\n\x1a\n").unwrap();
        assert!(load(&path).unwrap_err().to_string().contains("spandrel comparison"));
    }

    #[test]
    fn what_is_too_large_is_refused_unread() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("big.frame.ron");
        fs::write(&path, vec![b' '; MAX_BYTES + 1]).unwrap();
        assert!(load(&path).unwrap_err().to_string().contains("larger than 4 MB"));
        assert!(load(folder.path()).unwrap_err().to_string().contains("folder"));
    }
}
