//! Atomic writing: a new file beside the old one, written, flushed, renamed.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

use super::FileProblem;

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
}
