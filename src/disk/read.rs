//! Reading with a limit, regular files only, and telling frame files from line-ups.
//!
//! Invariant: whatever a path leads to, opening it does not wait and reading it ends: a pipe, a device and a socket are
//! refused unread, and of an endless file no more is read than its limit and one byte.

use std::fs::{self, File, FileType, OpenOptions};
use std::io::{self, Read};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

use super::{FileIdentity, FileProblem, Loaded, is_lineup_name};
use crate::frameset::{FileKind, ReadError, read_frameset};
use crate::lineup::read_lineup;

/// The file argument that stands for standard input on the command line.
pub const STANDARD_INPUT: &str = "-";

/// The bytes of a regular file that is no larger than its kind may be.
///
/// # Errors
/// When it cannot be read, is not a regular file, or is larger.
pub fn read_bytes(path: &Path, kind: FileKind) -> Result<Vec<u8>, FileProblem> {
    let problem = |e: io::Error| FileProblem::io(path, "cannot be read", &e);
    if is_stream_name(path) {
        let sentence = "cannot be read by this name: write - for standard input, as in: spandrel figures -";
        return Err(FileProblem::new(path, None, sentence));
    }
    // A device may do something when it is opened, so the path is looked at first; only what was opened is sure to be
    // what is read, so that is looked at again.
    let refuse = |found: FileType| match why_not_regular(found) {
        Some(sentence) => Err(FileProblem::new(path, None, sentence)),
        None => Ok(()),
    };
    refuse(fs::metadata(path).map_err(problem)?.file_type())?;
    let file = open_file(path).map_err(problem)?;
    let about = file.metadata().map_err(problem)?;
    refuse(about.file_type())?;
    if about.len() > kind.max_bytes() as u64 {
        return Err(FileProblem::read(path, &ReadError::TooLarge(kind)));
    }
    read_bounded(path, file, usize::try_from(about.len()).unwrap_or_default(), kind)
}

/// Whether standard input was read.
static WAS_READ: AtomicBool = AtomicBool::new(false);

/// The bytes of a file named on the command line, where `-` is standard input.
///
/// # Errors
/// As [`read_bytes`]; standard input that is read a second time.
pub fn read_argument(path: &Path, kind: FileKind) -> Result<Vec<u8>, FileProblem> {
    if path.as_os_str() != STANDARD_INPUT {
        return read_bytes(path, kind);
    }
    if WAS_READ.swap(true, Ordering::Relaxed) {
        return Err(FileProblem::new(path, None, "standard input can be read once: give - once"));
    }
    read_bounded(path, io::stdin().lock(), 0, kind)
}

/// All there is, up to the limit; `expected` bytes are likely.
fn read_bounded(path: &Path, from: impl Read, expected: usize, kind: FileKind) -> Result<Vec<u8>, FileProblem> {
    let most = kind.max_bytes();
    let mut bytes = Vec::with_capacity(expected.min(most) + 1);
    from.take(most as u64 + 1).read_to_end(&mut bytes).map_err(|e| FileProblem::io(path, "cannot be read", &e))?;
    if bytes.len() > most { Err(FileProblem::read(path, &ReadError::TooLarge(kind))) } else { Ok(bytes) }
}

/// Opens for reading without waiting for anybody.
#[cfg(unix)]
fn open_file(path: &Path) -> io::Result<File> {
    use rustix::fs::OFlags;
    use std::os::unix::fs::OpenOptionsExt;
    let flags = OFlags::NONBLOCK | OFlags::NOCTTY;
    OpenOptions::new().read(true).custom_flags(flags.bits().cast_signed()).open(path)
}

/// Opens for reading.
#[cfg(not(unix))]
fn open_file(path: &Path) -> io::Result<File> {
    OpenOptions::new().read(true).open(path)
}

/// Whether a path names a stream of the running program rather than a file.
fn is_stream_name(path: &Path) -> bool {
    let text = path.to_string_lossy();
    let is_of_process = || {
        let inside = text.strip_prefix("/proc/").and_then(|rest| rest.split_once('/'));
        inside.is_some_and(|(_, rest)| rest.starts_with("fd/"))
    };
    text == "/dev/stdin" || text.starts_with("/dev/fd/") || is_of_process()
}

/// Why something is not read, where it is not a regular file.
fn why_not_regular(found: FileType) -> Option<&'static str> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        if found.is_fifo() {
            return Some("is a pipe, not a file: write its contents to a file, or give - and pipe them to standard input");
        }
        if found.is_char_device() || found.is_block_device() {
            return Some("is a device, not a file: choose a regular file, such as NAME.frame.ron");
        }
        if found.is_socket() {
            return Some("is a socket, not a file: choose a regular file, such as NAME.frame.ron");
        }
    }
    if found.is_dir() {
        return Some("is a folder, not a file: choose a file in it, such as NAME.frame.ron");
    }
    (!found.is_file()).then_some("is not a regular file: choose one, such as NAME.frame.ron")
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
    loaded(path, &read_bytes(path, kind_by_name(path))?)
}

/// Reads a frame file or a line-up as [`load`] does, and remembers which file it was and what it held.
///
/// # Errors
/// As [`load`].
pub fn open(path: &Path) -> Result<Opened, FileProblem> {
    let bytes = read_bytes(path, kind_by_name(path))?;
    Ok(Opened { loaded: loaded(path, &bytes)?, identity: FileIdentity::of(path, &bytes) })
}

/// Reads a frame file or a line-up named on the command line, where `-` is standard input.
///
/// # Errors
/// As [`load`]; standard input that is read a second time.
pub fn load_argument(path: &Path) -> Result<Loaded, FileProblem> {
    loaded(path, &read_argument(path, kind_by_name(path))?)
}

/// The kind of file that a name promises, and the larger of both where it says nothing.
fn kind_by_name(path: &Path) -> FileKind {
    let is_frame = path.file_name().is_some_and(|n| n.to_string_lossy().ends_with(".frame.ron"));
    if is_frame { FileKind::Frame } else { FileKind::Lineup }
}

fn loaded(path: &Path, bytes: &[u8]) -> Result<Loaded, FileProblem> {
    let problem = |e: ReadError| FileProblem::read(path, &e);
    let is_named_so = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ron"));
    if !is_named_so && [&b"\x89PNG"[..], b"%PDF", b"<svg", b"<!DOCTYPE"].iter().any(|start| bytes.starts_with(start)) {
        let sentence = "this is a picture or page, not a frame file or line-up. Extract the comparison that it carries with: \
                        spandrel extract FILE --to NAME.lineup.ron";
        return Err(FileProblem::new(path, None, sentence));
    }
    if is_lineup_name(path) || begins_with_lineup(bytes) {
        Ok(Loaded::Lineup(Box::new(read_lineup(bytes).map_err(problem)?)))
    } else {
        Ok(Loaded::Frameset(Box::new(read_frameset(bytes).map_err(problem)?)))
    }
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
        assert!(load(&path).unwrap_err().to_string().contains("spandrel extract"));
    }

    #[test]
    fn what_is_too_large_is_refused_with_its_kind_and_limit() {
        let folder = tempfile::tempdir().unwrap();
        for (name, kind, says) in [
            ("big.frame.ron", FileKind::Frame, "larger than 4 MB, the limit for a frame file"),
            ("big.lineup.ron", FileKind::Lineup, "larger than 64 MB, the limit for a line-up"),
            ("big.csv", FileKind::Table, "larger than 4 MB, the limit for a geometry table"),
            ("big.png", FileKind::Published, "larger than 128 MB, the limit for a picture or page"),
        ] {
            let path = folder.path().join(name);
            // A hole takes no place on the disk.
            File::create(&path).unwrap().set_len(kind.max_bytes() as u64 + 1).unwrap();
            let problem = read_bytes(&path, kind).unwrap_err().to_string();
            assert!(problem.contains(says), "{problem}");
        }
        // At the limit it is read.
        let path = folder.path().join("large.csv");
        File::create(&path).unwrap().set_len(FileKind::Table.max_bytes() as u64).unwrap();
        assert_eq!(read_bytes(&path, FileKind::Table).unwrap().len(), FileKind::Table.max_bytes());
        let path = folder.path().join("big.frame.ron");
        assert!(load(&path).unwrap_err().to_string().contains("4 MB"));
        // A frame file of any name has a frame file's limit.
        let path = folder.path().join("big.ron");
        fs::write(&path, vec![b' '; FileKind::Frame.max_bytes() + 1]).unwrap();
        assert!(load(&path).unwrap_err().to_string().contains("the limit for a frame file"));
    }

    /// What grows while it is read, or says that it is empty and is not.
    #[test]
    fn an_endless_stream_is_read_up_to_its_limit() {
        let problem = read_bounded(Path::new("x"), io::repeat(b' '), 0, FileKind::Table).unwrap_err();
        assert!(problem.to_string().contains("larger than 4 MB"), "{problem}");
        let whole = read_bounded(Path::new("x"), io::repeat(b' ').take(FileKind::Table.max_bytes() as u64), 0, FileKind::Table);
        assert_eq!(whole.unwrap().len(), FileKind::Table.max_bytes());
    }

    #[test]
    fn streams_by_name_are_refused_with_the_right_form() {
        for name in ["/dev/stdin", "/dev/fd/0", "/proc/self/fd/0", "/proc/1/fd/3"] {
            let problem = load(Path::new(name)).unwrap_err().to_string();
            assert!(problem.contains("write - for standard input"), "{problem}");
        }
        assert!(!is_stream_name(Path::new("/proc/cpuinfo")) && !is_stream_name(Path::new("fd/1")));
    }

    /// None of these may hang: each is tried on a thread, and the test waits no longer than a minute for the answer.
    #[cfg(unix)]
    #[test]
    fn only_regular_files_are_read_and_nothing_waits() {
        use rustix::fs::{CWD, FileType as Kind, Mode, mknodat};
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        mknodat(CWD, at("pipe.frame.ron"), Kind::Fifo, Mode::RUSR | Mode::WUSR, 0).unwrap();
        let _socket = std::os::unix::net::UnixListener::bind(at("socket.frame.ron")).unwrap();
        std::os::unix::fs::symlink("/dev/zero", at("zero.frame.ron")).unwrap();
        std::os::unix::fs::symlink(at("loop.frame.ron"), at("loop.frame.ron")).unwrap();
        let (sender, answers) = std::sync::mpsc::channel();
        let asked = [
            (at("pipe.frame.ron"), "is a pipe"),
            (at("socket.frame.ron"), "is a socket"),
            (at("zero.frame.ron"), "is a device"),
            ("/dev/null".into(), "is a device"),
            (folder.path().to_owned(), "is a folder"),
            (at("loop.frame.ron"), "cannot be read"),
        ];
        for (path, says) in asked {
            let (sender, path) = (sender.clone(), path.clone());
            std::thread::spawn(move || sender.send((load(&path), says)).unwrap());
        }
        for _ in 0..6 {
            let (answer, says) = answers.recv_timeout(std::time::Duration::from_mins(1)).unwrap();
            let problem = answer.unwrap_err().to_string();
            assert!(problem.contains(says), "{says}: {problem}");
        }
        // What takes the place of a file between the look and the opening does not wait either.
        let (sender, opened) = std::sync::mpsc::channel();
        let pipe = at("pipe.frame.ron");
        std::thread::spawn(move || sender.send(open_file(&pipe).unwrap().metadata().unwrap().file_type()).unwrap());
        let opened = opened.recv_timeout(std::time::Duration::from_mins(1)).expect("opening a pipe does not wait");
        assert!(std::os::unix::fs::FileTypeExt::is_fifo(&opened));
    }
}
