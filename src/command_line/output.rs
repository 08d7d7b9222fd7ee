//! Where a command writes one file to: a file, or standard output.

use std::io::{ErrorKind, IsTerminal, Write};
use std::path::{Path, PathBuf};

use spandrel::disk::{self, FileProblem, Occupant, Replace};
use spandrel::units::visible_lines;

/// Why a file or standard output was not written.
#[derive(Debug, thiserror::Error)]
pub(super) enum OutputError {
    /// Something else has the file's name.
    #[error("{}: {}{}", to.display(), found.sentence(), if *found == Occupant::File { ", or add --replace" } else { "" })]
    Occupied {
        /// File that was to be written.
        to: PathBuf,
        /// What has its name.
        found: Occupant,
    },
    /// The file cannot be written.
    #[error("{0}")]
    File(#[from] FileProblem),
    /// Standard output leads to a full disk.
    #[error("standard output: the disk is full")]
    DiskFull,
    /// Standard output cannot be written; why.
    #[error("standard output: cannot be written: {0}")]
    Unwritable(std::io::Error),
    /// Bytes of a PDF would go to a terminal.
    #[error("standard output: this is a terminal, and a PDF is not text: write to a file, such as --to bag.pdf")]
    Terminal,
}

/// Whether a path stands for standard output: `-`, or a name that the system has for it.
pub(super) fn is_standard(path: &Path) -> bool {
    ["-", "/dev/stdout", "/dev/fd/1", "/proc/self/fd/1"].iter().any(|name| path.as_os_str() == *name)
}

/// Says why a file would not be written, before anything is computed for it.
pub(super) fn check(to: &Path, replace: bool) -> Result<(), OutputError> {
    if is_standard(to) {
        return Ok(());
    }
    match Occupant::at(to) {
        Some(found) if !found.gives_way(agreed(replace)) => Err(OutputError::Occupied { to: to.to_owned(), found }),
        _ => Ok(()),
    }
}

/// Writes a file, or to `out` where the path stands for standard output. A reader who has had enough is no problem. Into a
/// file or a pipe the bytes go as they are; a terminal would obey what stands in them, so there it is made visible.
pub(super) fn write(to: &Path, bytes: &[u8], replace: bool, out: &mut dyn Write, is_terminal: bool) -> Result<(), OutputError> {
    if is_standard(to) && is_terminal {
        return print(visible_lines(&String::from_utf8_lossy(bytes)).as_bytes(), out);
    }
    if is_standard(to) {
        return print(bytes, out);
    }
    check(to, replace)?;
    Ok(disk::write(to, bytes, agreed(replace))?)
}

/// Writes to standard output.
pub(super) fn print(bytes: &[u8], out: &mut dyn Write) -> Result<(), OutputError> {
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        Err(error) if error.kind() == ErrorKind::StorageFull => Err(OutputError::DiskFull),
        written => written.map_err(OutputError::Unwritable),
    }
}

/// Refuses to fill a terminal with what only programs read.
pub(super) fn check_terminal(to: &Path) -> Result<(), OutputError> {
    if is_standard(to) && std::io::stdout().is_terminal() {
        return Err(OutputError::Terminal);
    }
    Ok(())
}

/// What `--replace` agrees to. What is write-protected, or a link that leads nowhere, stays all the same.
pub(super) fn agreed(replace: bool) -> Replace {
    if replace { Replace::Asked } else { Replace::Never }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Failing(ErrorKind);

    impl Write for Failing {
        fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
            Err(self.0.into())
        }

        fn flush(&mut self) -> std::io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn standard_output_has_several_names_and_replaces_nothing() {
        for name in ["-", "/dev/stdout", "/dev/fd/1", "/proc/self/fd/1"] {
            let mut out = Vec::new();
            write(Path::new(name), b"x\x1b[2J\n", false, &mut out, false).unwrap();
            assert_eq!(out, b"x\x1b[2J\n", "{name}");
            out.clear();
            write(Path::new(name), b"x\x1b[2J\n", false, &mut out, true).unwrap();
            assert_eq!(out, "x␛[2J\n".as_bytes(), "{name}");
        }
        assert!(!is_standard(Path::new("./-")) && !is_standard(Path::new("out")));
    }

    #[test]
    fn a_reader_who_has_had_enough_is_no_problem_and_a_full_disk_is() {
        print(b"x", &mut Failing(ErrorKind::BrokenPipe)).unwrap();
        let problem = print(b"x", &mut Failing(ErrorKind::StorageFull)).unwrap_err().to_string();
        assert_eq!(problem, "standard output: the disk is full");
    }

    #[test]
    fn a_file_that_is_there_is_kept_with_advice() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.ron");
        let mut out = Vec::new();
        write(&path, b"one", false, &mut out, false).unwrap();
        let problem = write(&path, b"two", false, &mut out, false).unwrap_err().to_string();
        assert!(problem.ends_with("a.ron: this file exists already: choose another name, or add --replace"), "{problem}");
        write(&path, b"two", true, &mut out, false).unwrap();
        assert_eq!(std::fs::read(&path).unwrap(), b"two");
        let problem = write(folder.path(), b"two", true, &mut out, false).unwrap_err().to_string();
        assert!(problem.ends_with("this is a folder, not a file: add a file name"), "{problem}");
        assert!(out.is_empty());
    }
}
