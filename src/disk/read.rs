//! Reading with a limit, and telling frame files from line-ups.

use std::fs;
use std::path::Path;

use super::{FileIdentity, FileProblem, Loaded, is_lineup_name};
use crate::frameset::{MAX_BYTES, ReadError, read_frameset};
use crate::lineup::read_lineup;

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

/// A file that was read: what it holds, and by which it is known again.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What it holds.
    pub loaded: Loaded,
    /// Its full path and the hash of its bytes.
    pub identity: FileIdentity,
}

/// Reads a frame file or a line-up, told apart by the name's ending and, where that says nothing, by what it begins with.
///
/// # Errors
/// In one line: what is wrong, where, and the nearest right form.
pub fn load(path: &Path) -> Result<Loaded, FileProblem> {
    open(path).map(|opened| opened.loaded)
}

/// Reads a frame file or a line-up as [`load`] does, and remembers which file it was and what it held.
///
/// # Errors
/// As [`load`].
pub fn open(path: &Path) -> Result<Opened, FileProblem> {
    let bytes = read_bytes(path, MAX_BYTES)?;
    let problem = |e: ReadError| FileProblem::read(path, &e);
    let is_named_so = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ron"));
    if !is_named_so && [&b"\x89PNG"[..], b"%PDF", b"<svg", b"<!DOCTYPE"].iter().any(|start| bytes.starts_with(start)) {
        let sentence = "a picture or page is no frame and no line-up; the comparison that a published one carries is taken out \
                        with: spandrel comparison FILE --to NAME.lineup.ron";
        return Err(FileProblem::new(path, None, sentence));
    }
    let loaded = if is_lineup_name(path) || begins_with_lineup(&bytes) {
        Loaded::Lineup(Box::new(read_lineup(&bytes).map_err(problem)?))
    } else {
        Loaded::Frameset(Box::new(read_frameset(&bytes).map_err(problem)?))
    };
    Ok(Opened { loaded, identity: FileIdentity::of(path, &bytes) })
}

fn begins_with_lineup(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes.get(..4096).unwrap_or(bytes));
    text.lines()
        .map(str::trim_start)
        .find(|l| !l.is_empty() && !l.starts_with("//") && !l.starts_with('#'))
        .is_some_and(|l| l.starts_with("Lineup"))
}

#[cfg(test)]
mod tests {
    use super::*;

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
