//! Locks on files, held by the system for a process: it releases them when the process ends, however it ends.
//!
//! A lock stands on a file of its own, never on a document: a document is replaced by renaming, and a lock would stay with
//! the file that went.

use std::fs::{File, OpenOptions, TryLockError};
use std::io;
use std::path::{Path, PathBuf};

use super::identity::real_path;
use super::{ContentHash, FileProblem};

/// A lock that is held until it is dropped, or until its process ends.
#[derive(Debug)]
pub struct Lock(File);

/// Why a lock was not taken, where nobody else holds it.
#[derive(Debug)]
pub(super) struct Unlocked {
    /// What the system says, in one line.
    pub(super) problem: FileProblem,
    /// Whether the file is there, and its file system knows no locks.
    pub(super) knows_no_locks: bool,
}

impl Lock {
    /// Takes the lock on a file, which is made where it is not there; `None` where another process, or another lock of
    /// this one, holds it.
    ///
    /// # Errors
    /// The file can be neither opened nor made, or its file system knows no locks.
    pub fn try_take(path: &Path) -> Result<Option<Self>, FileProblem> {
        Self::take_or_tell(path).map_err(|unlocked| unlocked.problem)
    }

    /// The same, telling whether the file system knows no locks.
    pub(super) fn take_or_tell(path: &Path) -> Result<Option<Self>, Unlocked> {
        let problem = |e: io::Error| FileProblem::io(path, "cannot be locked", &e);
        let file = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path);
        let file = file.map_err(|e| Unlocked { problem: problem(e), knows_no_locks: false })?;
        match file.try_lock() {
            Ok(()) => Ok(Some(Self(file))),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => {
                let knows_no_locks = error.kind() != io::ErrorKind::Interrupted;
                Err(Unlocked { problem: problem(error), knows_no_locks })
            }
        }
    }

    /// Whether the file that is locked still lies at a path. Where files that were locked are taken away, another lock may
    /// be held on a newer file of that name.
    #[cfg(unix)]
    #[must_use]
    pub fn is_at(&self, path: &Path) -> bool {
        use std::os::unix::fs::MetadataExt;
        let place = |about: std::fs::Metadata| (about.dev(), about.ino());
        self.0.metadata().ok().map(place).is_some_and(|here| std::fs::symlink_metadata(path).ok().map(place) == Some(here))
    }

    /// Whether the file that is locked still lies at a path: where files cannot be told apart, whether one does.
    #[cfg(not(unix))]
    #[must_use]
    pub fn is_at(&self, path: &Path) -> bool {
        self.0.metadata().is_ok() && path.exists()
    }
}

/// Where the lock of a document stands: in `locks/` of the state folder, named by the hash of the document's path, so that
/// all links to one document share it. The empty file stays when the lock is released: taking it away could let two
/// windows hold one lock.
#[must_use]
pub fn lock_path(state: &Path, document: &Path) -> PathBuf {
    let name = ContentHash::of(real_path(document).as_os_str().as_encoded_bytes());
    state.join("locks").join(format!("{}.lock", name.hex()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lock_is_held_until_it_is_dropped() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("lock");
        let held = Lock::try_take(&path).unwrap();
        assert!(held.is_some());
        assert!(Lock::try_take(&path).unwrap().is_none());
        drop(held);
        let held = Lock::try_take(&path).unwrap().unwrap();
        assert!(held.is_at(&path));
        std::fs::remove_file(&path).unwrap();
        assert!(!held.is_at(&path));
        let newer = Lock::try_take(&path).unwrap().unwrap();
        assert!(newer.is_at(&path) && !held.is_at(&path));
        assert!(Lock::try_take(&folder.path().join("none/lock")).is_err());
    }
}
