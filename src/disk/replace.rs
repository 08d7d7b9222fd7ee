//! The rule for all output: what may give way to a file that is written, and what stays.
//!
//! Invariant: every writer asks [`way`], and nothing that Spandrel did not make is replaced unless the user agreed to it.

use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};

use super::FileProblem;

/// What the user agreed to, where something lies under the name already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Nothing is replaced: the name must be free.
    Never,
    /// A file is replaced that Spandrel made there and nobody changed since.
    Made,
    /// Any file is replaced: the user asked for it, on the command line or in a dialog.
    Asked,
    /// A write-protected file or a dangling link is replaced too: the user was told of it and agreed.
    Confirmed,
}

/// What lies where a file is to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Occupant {
    /// A file, or a link to one.
    File,
    /// A file that may not be written to, or a link to one.
    Protected,
    /// A link, and no file can be reached where it leads to.
    DanglingLink(PathBuf),
    /// A folder, or a link to one.
    Folder,
    /// A pipe, or a device that takes characters: it is written into, and nothing is replaced.
    Stream,
    /// A disk or a socket.
    Other,
}

impl Occupant {
    /// The occupant of a path; `None` where the name is free, and where the path cannot be looked at: then writing says why.
    #[must_use]
    pub fn at(path: &Path) -> Option<Self> {
        let mut about = fs::symlink_metadata(path).ok()?;
        if about.is_symlink() {
            match fs::metadata(path) {
                Ok(found) => about = found,
                Err(_) => return Some(Self::DanglingLink(fs::read_link(path).unwrap_or_default())),
            }
        }
        Some(if about.is_dir() {
            Self::Folder
        } else if about.is_file() {
            if is_protected(path, &about) { Self::Protected } else { Self::File }
        } else if is_stream(&about) {
            Self::Stream
        } else {
            Self::Other
        })
    }

    /// Whether it gives way to a file after what the user agreed to. A folder never does.
    #[must_use]
    pub fn gives_way(&self, replace: Replace) -> bool {
        match self {
            Self::Stream => true,
            Self::File => matches!(replace, Replace::Asked | Replace::Confirmed),
            Self::Protected | Self::DanglingLink(_) => replace == Replace::Confirmed,
            Self::Folder | Self::Other => false,
        }
    }

    /// What it is and what to do, behind the path: "… is write-protected: …".
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::File => "this file exists already: choose another name".to_owned(),
            Self::Protected => "this file is write-protected: remove its protection, or choose another name".to_owned(),
            Self::DanglingLink(to) => {
                format!("this is a link to {}, which is not there: remove the link, or choose another name", to.display())
            }
            Self::Folder => "this is a folder, not a file: add a file name".to_owned(),
            Self::Stream => "this is a pipe or a device, not a file".to_owned(),
            Self::Other => "this is a disk or a socket, not a file: choose another name".to_owned(),
        }
    }
}

/// How a file gets to its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// The name is free, and must be until the file is there.
    Free,
    /// The file here gives way. Where the name is a link, this is where it leads to, so that the link stays.
    Over(PathBuf),
    /// The bytes go straight into a pipe or a device.
    Into,
}

/// Decides how a file gets to its place, if at all. `is_made` says whether what lies there is as Spandrel made it.
///
/// # Errors
/// A sentence that says what is in the way, and what to do.
pub(super) fn way(path: &Path, replace: Replace, is_made: impl FnOnce() -> bool) -> Result<Way, FileProblem> {
    match Occupant::at(path) {
        None => Ok(Way::Free),
        Some(Occupant::Stream) => Ok(Way::Into),
        Some(found) if found.gives_way(replace) || (found == Occupant::File && replace == Replace::Made && is_made()) => {
            // A link that leads nowhere is replaced itself.
            Ok(Way::Over(fs::canonicalize(path).unwrap_or_else(|_| path.to_owned())))
        }
        Some(found) => Err(FileProblem::new(path, None, found.sentence())),
    }
}

/// Whether a file may not be written to: by its own mode, or because this user may not.
fn is_protected(path: &Path, about: &Metadata) -> bool {
    let is_refused = || {
        let opened = fs::OpenOptions::new().write(true).open(path);
        opened.is_err_and(|e| matches!(e.kind(), io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem))
    };
    about.permissions().readonly() || is_refused()
}

#[cfg(unix)]
fn is_stream(about: &Metadata) -> bool {
    use std::os::unix::fs::FileTypeExt;
    about.file_type().is_fifo() || about.file_type().is_char_device()
}

#[cfg(not(unix))]
fn is_stream(_: &Metadata) -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_obstacle_gives_way_to_what_was_agreed_to_and_no_more() {
        use Occupant::{DanglingLink, File, Folder, Other, Protected, Stream};
        let link = DanglingLink("gone".into());
        let table = [
            (File, [false, false, true, true]),
            (Protected, [false, false, false, true]),
            (link, [false, false, false, true]),
            (Folder, [false; 4]),
            (Other, [false; 4]),
            (Stream, [true; 4]),
        ];
        for (obstacle, expected) in table {
            let found = [Replace::Never, Replace::Made, Replace::Asked, Replace::Confirmed].map(|r| obstacle.gives_way(r));
            assert_eq!(found, expected, "{obstacle:?}");
        }
    }

    #[test]
    fn a_file_that_was_made_here_gives_way_to_its_maker() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.png");
        assert_eq!(way(&path, Replace::Never, || false), Ok(Way::Free));
        fs::write(&path, "a").unwrap();
        assert!(way(&path, Replace::Made, || false).is_err());
        assert!(way(&path, Replace::Never, || true).is_err());
        assert_eq!(way(&path, Replace::Made, || true), Ok(Way::Over(path.canonicalize().unwrap())));
    }

    #[cfg(unix)]
    #[test]
    fn what_lies_there_is_told_apart() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("file"), "a").unwrap();
        fs::write(at("protected"), "a").unwrap();
        fs::set_permissions(at("protected"), fs::Permissions::from_mode(0o444)).unwrap();
        symlink("file", at("link")).unwrap();
        symlink("gone", at("dangling")).unwrap();
        symlink("loop", at("loop")).unwrap();
        let _socket = std::os::unix::net::UnixListener::bind(at("socket")).unwrap();
        let expected = [
            ("none", None),
            ("file", Some(Occupant::File)),
            ("link", Some(Occupant::File)),
            ("protected", Some(Occupant::Protected)),
            ("dangling", Some(Occupant::DanglingLink("gone".into()))),
            ("loop", Some(Occupant::DanglingLink("loop".into()))),
            ("", Some(Occupant::Folder)),
            ("socket", Some(Occupant::Other)),
        ];
        for (name, obstacle) in expected {
            assert_eq!(Occupant::at(&at(name)), obstacle, "{name}");
        }
        assert_eq!(Occupant::at(Path::new("/dev/null")), Some(Occupant::Stream));
    }
}
