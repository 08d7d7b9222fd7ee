//! Atomic writing: a new file beside the old one, written, flushed, renamed.
//!
//! The new file is locked while its writer lives, so that what a killed writer left can be told from it and cleared.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::leftovers::{NEW_BEGINS, NEW_ENDS, clear_leftovers};
use super::replace::{Replace, Way, way};
use super::{FileProblem, Occupant};

/// Writes a file that is the user's own, such as a line-up: [`write`] that replaces a file.
///
/// # Errors
/// As [`write`] has them.
pub fn save(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    write(path, bytes, Replace::Asked)
}

/// Writes a file whole or not at all: a new file in the same folder, written, flushed to the disk, renamed to its name. Of
/// a file that it replaces it keeps the permissions, as far as the disk knows them; a link to a file stays a link. What an
/// interrupted writer left in that folder is cleared. Pipes and devices are written into.
///
/// # Errors
/// What is in the way, a read-only folder, a full disk and whatever else the system says, in one line; what was there is
/// untouched then.
pub fn write(path: &Path, bytes: &[u8], replace: Replace) -> Result<(), FileProblem> {
    let target = match way(path, replace, || false)? {
        Way::Free => path.to_owned(),
        Way::Over(target) => target,
        Way::Into => return write_into(path, bytes).map_err(|e| not_saved(path, &e)),
    };
    let problem = |e: io::Error| not_saved(path, &e);
    let new = flushed_beside(&target, bytes).map_err(problem)?;
    if matches!(replace, Replace::Never | Replace::Made) {
        // The file stays open, and so locked, until it has its name.
        let (_file, new) = new.into_parts();
        move_new(&new, &target).map_err(|e| match e.kind() {
            io::ErrorKind::AlreadyExists => FileProblem::new(path, None, Occupant::File.sentence()),
            _ => problem(e),
        })?;
    } else {
        new.persist(&target).map_err(|e| problem(e.error))?;
    }
    flush_folder(folder_of(&target));
    Ok(())
}

/// A new file beside the target with these bytes, flushed, with the target's permissions as far as the disk knows them.
/// What interrupted writers left there is cleared.
pub(super) fn flushed_beside(target: &Path, bytes: &[u8]) -> io::Result<NamedTempFile> {
    let folder = folder_of(target);
    clear_leftovers(folder);
    let before = fs::metadata(target).ok().map(|m| m.permissions());
    let mut new = new_file(folder, before.is_some())?;
    new.write_all(bytes)?;
    new.as_file().sync_all()?;
    if let Some(permissions) = before {
        // A disk that knows no permissions, or does not let them be changed, still takes the file.
        drop(new.as_file().set_permissions(permissions));
    }
    Ok(new)
}

/// The folder that a file lies in.
pub(super) fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// A new file in a folder, locked. Nobody else may read what is to replace a file, whose permissions may be narrow.
fn new_file(folder: &Path, is_private: bool) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(NEW_BEGINS).suffix(NEW_ENDS);
    #[cfg(unix)]
    if !is_private {
        use std::os::unix::fs::PermissionsExt;
        // What the user's mask leaves of it.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    loop {
        let new = builder.tempfile_in(folder)?;
        // Somebody who clears leftovers may have come in between: then another one is made.
        let is_taken = matches!(new.as_file().try_lock(), Err(fs::TryLockError::WouldBlock));
        if !is_taken && new.path().exists() {
            return Ok(new);
        }
    }
}

/// Gives a file a name that is free, in one step: nothing is ever replaced.
pub(super) fn move_new(from: &Path, to: &Path) -> io::Result<()> {
    let from = tempfile::TempPath::try_from_path(from)?;
    let Err(failed) = from.persist_noclobber(to) else { return Ok(()) };
    let from = failed.path.keep().map_err(|e| e.error)?;
    let is_free = || fs::symlink_metadata(to).is_err_and(|e| e.kind() == io::ErrorKind::NotFound);
    match failed.error.kind() {
        // Disks that know neither such a step nor a second name for a file: the nearest that there is.
        io::ErrorKind::Unsupported | io::ErrorKind::PermissionDenied | io::ErrorKind::InvalidInput if is_free() => {
            fs::rename(from, to)
        }
        _ => Err(failed.error),
    }
}

/// Flushes a folder, so that a rename in it reaches the disk; systems that cannot do so lose nothing.
pub(super) fn flush_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        drop(folder.sync_all());
    }
}

/// Writes into a pipe or a device. A reader who has had enough is no problem; a pipe that nobody reads is one.
fn write_into(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut options = fs::OpenOptions::new();
    options.write(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.custom_flags(rustix::fs::OFlags::NONBLOCK.bits().cast_signed());
    }
    let mut file = options.open(path)?;
    #[cfg(unix)]
    rustix::fs::fcntl_setfl(&file, rustix::fs::OFlags::empty())?;
    match file.write_all(bytes) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        written => written,
    }
}

/// Why a file was not saved, with what to do.
pub(super) fn not_saved(path: &Path, error: &io::Error) -> FileProblem {
    let folder = || -> PathBuf {
        let folder = folder_of(path);
        if folder == Path::new(".") { "this folder".into() } else { folder.to_owned() }
    };
    #[cfg(unix)]
    if rustix::io::Errno::from_io_error(error) == Some(rustix::io::Errno::NXIO) {
        return FileProblem::new(path, None, "cannot be saved: nobody reads from this pipe; start its reader first");
    }
    let why = match error.kind() {
        io::ErrorKind::NotFound => {
            format!("there is no folder {}; make it, or choose another", folder().display())
        }
        io::ErrorKind::NotADirectory => format!("{} is not a folder; choose another", folder().display()),
        io::ErrorKind::PermissionDenied => {
            format!("{} may not be written to; choose another folder, or change its permissions", folder().display())
        }
        io::ErrorKind::StorageFull => "the disk is full; free some of it, or choose another".to_owned(),
        io::ErrorKind::QuotaExceeded => "your share of the disk is full; free some of it, or choose another".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only; choose a folder on another".to_owned(),
        io::ErrorKind::InvalidFilename => "the disk does not take this name; choose a shorter one".to_owned(),
        _ => return FileProblem::io(path, "cannot be saved", error),
    };
    FileProblem::new(path, None, format!("cannot be saved: {why}"))
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
        let problem = save(&folder.path().join("none/a"), b"x").unwrap_err().to_string();
        let expected = format!("cannot be saved: there is no folder {}", folder.path().join("none").display());
        assert!(problem.contains(&expected), "{problem}");
        let problem = save(&path.join("a"), b"x").unwrap_err().to_string();
        assert!(problem.contains("a.frame.ron is not a folder"), "{problem}");
        let problem = save(folder.path(), b"x").unwrap_err().to_string();
        assert!(problem.contains("is a folder, not a file"), "{problem}");
    }

    #[test]
    fn a_file_is_replaced_only_where_that_was_agreed_to() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.csv");
        write(&path, b"one", Replace::Never).unwrap();
        let problem = write(&path, b"two", Replace::Never).unwrap_err().to_string();
        assert!(problem.ends_with("this file exists already: choose another name"), "{problem}");
        write(&path, b"two", Replace::Made).unwrap_err();
        assert_eq!(fs::read(&path).unwrap(), b"one");
        write(&path, b"two", Replace::Asked).unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
    }

    /// Of many who write under one new name at once, one does.
    #[test]
    fn a_new_file_is_made_once() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.csv");
        let written: Vec<usize> = std::thread::scope(|scope| {
            let writers: Vec<_> = (0..8_usize)
                .map(|writer| {
                    let path = &path;
                    scope.spawn(move || write(path, writer.to_string().as_bytes(), Replace::Never).is_ok().then_some(writer))
                })
                .collect();
            writers.into_iter().filter_map(|w| w.join().unwrap()).collect()
        });
        assert_eq!(written.len(), 1);
        assert_eq!(fs::read_to_string(&path).unwrap(), written[0].to_string());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
        // The last step alone: a file that came in between stays, and so does what was to be moved.
        let other = folder.path().join("b.csv");
        fs::write(&other, "b").unwrap();
        assert_eq!(move_new(&other, &path).unwrap_err().kind(), io::ErrorKind::AlreadyExists);
        assert!(other.exists() && fs::read_to_string(&path).unwrap() == written[0].to_string());
    }

    #[cfg(unix)]
    #[test]
    fn links_stay_and_permissions_are_kept() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let mode = |name: &str| fs::metadata(at(name)).unwrap().permissions().mode() & 0o777;
        fs::write(at("file"), "a").unwrap();
        fs::set_permissions(at("file"), fs::Permissions::from_mode(0o640)).unwrap();
        symlink("file", at("link")).unwrap();
        write(&at("link"), b"b", Replace::Asked).unwrap();
        assert!(fs::symlink_metadata(at("link")).unwrap().is_symlink());
        assert_eq!((fs::read(at("file")).unwrap(), mode("file")), (b"b".to_vec(), 0o640));
        for replace in [Replace::Never, Replace::Asked] {
            symlink("gone", at("dangling")).unwrap();
            let problem = write(&at("dangling"), b"x", replace).unwrap_err().to_string();
            assert!(problem.contains("is a link to gone, which is not there"), "{problem}");
            fs::remove_file(at("dangling")).unwrap();
        }
        fs::set_permissions(at("file"), fs::Permissions::from_mode(0o444)).unwrap();
        let problem = save(&at("file"), b"x").unwrap_err().to_string();
        assert!(problem.contains("write-protected"), "{problem}");
        write(&at("file"), b"c", Replace::Confirmed).unwrap();
        assert_eq!((fs::read(at("file")).unwrap(), mode("file")), (b"c".to_vec(), 0o444));
        // A new file is as open as one that any other program makes.
        write(&at("new"), b"x", Replace::Never).unwrap();
        fs::write(at("other"), "x").unwrap();
        assert_eq!(mode("new"), mode("other"));
    }

    #[cfg(unix)]
    #[test]
    fn pipes_and_devices_are_written_into() {
        let folder = tempfile::tempdir().unwrap();
        let pipe = folder.path().join("pipe");
        assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        let problem = save(&pipe, b"x").unwrap_err().to_string();
        assert!(problem.contains("nobody reads from this pipe"), "{problem}");
        let reader = std::thread::spawn({
            let pipe = pipe.clone();
            move || fs::read(pipe).unwrap()
        });
        // More than a pipe holds at once.
        let long = vec![7; 300_000];
        while write(&pipe, &long, Replace::Never).is_err() {
            std::thread::yield_now();
        }
        assert_eq!(reader.join().unwrap(), long);
        write(Path::new("/dev/null"), b"x", Replace::Never).unwrap();
        if Path::new("/dev/full").exists() {
            let problem = save(Path::new("/dev/full"), b"x").unwrap_err().to_string();
            assert!(problem.contains("the disk is full"), "{problem}");
        }
        assert!(Occupant::at(Path::new("/dev/null")) == Some(Occupant::Stream), "it is still a device");
    }
}
