//! Recovery journals: unsaved line-ups kept on disk while a window is open, so that no crash loses them.
//!
//! They lie in `journals/` of the state folder: the one where the toolkit keeps its settings, on Linux
//! `$XDG_DATA_HOME/spandrel`, else `~/.local/share/spandrel`. `ID.journal` holds one window's unsaved line-up: a line of
//! JSON with its files and the time, then the text of the line-up. The window holds the lock on `ID.lock`, which the
//! system releases when the process ends: a journal whose lock is free was left behind. IDs are random. There is no
//! journal while nothing is unsaved.
//!
//! Journals are private: they hold full paths, which a line-up file never does.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use serde::{Deserialize, Serialize};

use super::{FileIdentity, FileProblem, Loaded, Lock, load, make_folder, names_in, remove, save};
use crate::lineup::{Lineup, read_lineup, write_lineup};

const FOLDER: &str = "journals";
const JOURNAL: &str = ".journal";
const LOCK: &str = ".lock";
/// What an older version kept: `unsaved-PROCESS.lineup.ron` in the state folder itself.
const OLD_PREFIX: &str = "unsaved-";
const OLD_ENDING: &str = ".lineup.ron";

/// What stands in the first line of a journal.
#[derive(Debug, Serialize, Deserialize)]
struct Head {
    /// Version of this form.
    journal: u32,
    /// Seconds since 1970.
    at: u64,
    file: Option<FileIdentity>,
    frames: Vec<Option<FileIdentity>>,
}

/// An unsaved line-up with its files.
#[derive(Clone, Debug, PartialEq)]
pub struct Unsaved {
    /// The line-up.
    pub lineup: std::sync::Arc<Lineup>,
    /// The file that it belongs to, as it was when it was read or saved.
    pub file: Option<FileIdentity>,
    /// The file of each frame, in the order of the line-up.
    pub frames: Vec<Option<FileIdentity>>,
}

/// One window's journal. Dropping it leaves what it holds to be offered; [`Journal::end`] leaves nothing.
#[derive(Debug)]
pub struct Journal {
    path: PathBuf,
    lock_path: PathBuf,
    lock: Lock,
}

impl Journal {
    /// A journal of its own for one window, empty so far.
    ///
    /// # Errors
    /// The folder cannot be made or written to, or knows no locks.
    pub fn begin(state: &Path) -> Result<Self, FileProblem> {
        let folder = state.join(FOLDER);
        make_folder(&folder)?;
        let problem = |e: std::io::Error| FileProblem::io(&folder, "cannot be written to", &e);
        let named = tempfile::Builder::new().prefix("").suffix(LOCK).rand_bytes(20).tempfile_in(&folder).map_err(problem)?;
        let (_, lock_path) = named.keep().map_err(|e| problem(e.error))?;
        let journal = Self::claim(lock_path.with_extension("journal"), lock_path.clone())?;
        journal.ok_or_else(|| FileProblem::new(&lock_path, None, "is locked by another program"))
    }

    fn claim(path: PathBuf, lock_path: PathBuf) -> Result<Option<Self>, FileProblem> {
        Ok(Lock::try_take(&lock_path)?.map(|lock| Self { path, lock_path, lock }))
    }

    /// Writes the unsaved line-up, whole or not at all.
    ///
    /// # Errors
    /// A full disk and whatever else the system says; what was written before is untouched.
    pub fn write(&self, unsaved: &Unsaved) -> Result<(), FileProblem> {
        let at = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
        let head = Head { journal: 1, at, file: unsaved.file.clone(), frames: unsaved.frames.clone() };
        let problem = |e: String| FileProblem::new(&self.path, None, format!("cannot be written: {e}"));
        let head = serde_json::to_string(&head).map_err(|e| problem(e.to_string()))?;
        let lineup = write_lineup(&unsaved.lineup).map_err(|e| problem(e.to_string()))?;
        save(&self.path, format!("{head}\n{lineup}").as_bytes())
    }

    /// Nothing is unsaved.
    ///
    /// # Errors
    /// The file is there and cannot be removed.
    pub fn clear(&self) -> Result<(), FileProblem> {
        remove(&self.path)
    }

    /// Takes the journal away for good, before its lock.
    ///
    /// # Errors
    /// As for [`Journal::clear`].
    pub fn end(self) -> Result<(), FileProblem> {
        self.clear()?;
        let gone = remove(&self.lock_path);
        drop(self.lock);
        gone
    }
}

/// A journal that was left behind. As long as it is held, no other window is offered it.
#[derive(Debug)]
pub struct LeftJournal {
    journal: Journal,
    /// What it holds.
    pub unsaved: Unsaved,
    /// When it was written, seconds since 1970; `None` where that is not known.
    pub at: Option<u64>,
}

impl LeftJournal {
    /// Takes it away for good.
    ///
    /// # Errors
    /// It cannot be removed.
    pub fn discard(self) -> Result<(), FileProblem> {
        self.journal.end()
    }
}

/// All journals whose windows are gone, oldest first, and sentences about those that cannot be read. One whose line-up is
/// what its file holds was saved in the last moment: it is taken away.
#[must_use]
pub fn left_journals(state: &Path) -> (Vec<LeftJournal>, Vec<String>) {
    let folder = state.join(FOLDER);
    let mut left = Vec::new();
    let mut problems = Vec::new();
    let current = names_in(&folder).into_iter().filter_map(|name| {
        let id = name.strip_suffix(JOURNAL)?;
        Some((folder.join(&name), folder.join(format!("{id}{LOCK}"))))
    });
    let old = names_in(state).into_iter().filter_map(|name| {
        let process = name.strip_prefix(OLD_PREFIX)?.strip_suffix(OLD_ENDING)?;
        let process = process.parse::<u32>().ok()?;
        (!is_spandrel(process)).then(|| (state.join(&name), folder.join(format!("{OLD_PREFIX}{process}{LOCK}"))))
    });
    for (path, lock_path) in current.chain(old) {
        drop(make_folder(&folder));
        let Ok(Some(journal)) = Journal::claim(path, lock_path) else { continue };
        match read(&journal.path) {
            Ok((unsaved, at)) => {
                let is_saved = unsaved
                    .file
                    .as_ref()
                    .is_some_and(|file| matches!(load(&file.path), Ok(Loaded::Lineup(lineup)) if *lineup == *unsaved.lineup));
                if is_saved {
                    problems.extend(journal.end().err().map(|e| e.to_string()));
                } else {
                    left.push(LeftJournal { journal, unsaved, at });
                }
            }
            Err(problem) => {
                if journal.path.exists() {
                    problems.push(format!("unsaved work was left here and cannot be restored; the file stays: {problem}"));
                } else {
                    // Its window closed while this one looked.
                    problems.extend(journal.end().err().map(|e| e.to_string()));
                }
            }
        }
    }
    left.sort_by(|a, b| (a.at, &a.journal.path).cmp(&(b.at, &b.journal.path)));
    (left, problems)
}

fn read(path: &Path) -> Result<(Unsaved, Option<u64>), FileProblem> {
    let bytes = fs::read(path).map_err(|e| FileProblem::io(path, "cannot be read", &e))?;
    let lineup = |bytes: &[u8]| read_lineup(bytes).map_err(|e| FileProblem::read(path, &e));
    if path.extension().is_none_or(|ending| ending != "journal") {
        let about = fs::metadata(path).ok().and_then(|m| m.modified().ok());
        let at = about.and_then(|at| at.duration_since(UNIX_EPOCH).ok()).map(|d| d.as_secs());
        return Ok((Unsaved { lineup: lineup(&bytes)?.into(), file: None, frames: Vec::new() }, at));
    }
    let spoilt = || FileProblem::new(path, None, "is not a valid journal: its first line cannot be read");
    let end = bytes.iter().position(|byte| *byte == b'\n').ok_or_else(spoilt)?;
    let (head, text) = bytes.split_at(end);
    let head: Head = serde_json::from_slice(head).ok().filter(|head: &Head| head.journal == 1).ok_or_else(spoilt)?;
    let lineup = lineup(text.get(1..).unwrap_or_default())?;
    Ok((Unsaved { lineup: lineup.into(), file: head.file, frames: head.frames }, Some(head.at)))
}

/// Whether a process of that number runs this program, as far as the system tells: where it does not, none does.
fn is_spandrel(process: u32) -> bool {
    process != std::process::id()
        && fs::read_to_string(format!("/proc/{process}/comm")).is_ok_and(|name| name.trim() == "spandrel")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unsaved(title: &str, file: Option<FileIdentity>) -> Unsaved {
        let lineup = Lineup { title: title.to_owned(), ..Lineup::default() };
        let frames = vec![None, Some(FileIdentity::of(Path::new("/a/drift.frame.ron"), b"x"))];
        Unsaved { lineup: lineup.into(), file, frames }
    }

    #[test]
    fn what_a_window_left_is_offered_once_and_a_living_window_is_left_alone() {
        let state = tempfile::tempdir().unwrap();
        let file = Some(FileIdentity::of(&state.path().join("gone.lineup.ron"), b"x"));
        let living = Journal::begin(state.path()).unwrap();
        living.write(&unsaved("living", None)).unwrap();
        let killed = Journal::begin(state.path()).unwrap();
        killed.write(&unsaved("before", None)).unwrap();
        killed.write(&unsaved("killed", file.clone())).unwrap();
        drop(killed);
        let (left, problems) = left_journals(state.path());
        assert!(problems.is_empty(), "{problems:?}");
        assert_eq!(left.iter().map(|l| &l.unsaved).collect::<Vec<_>>(), [&unsaved("killed", file)]);
        assert!(left[0].at.is_some());
        assert!(left_journals(state.path()).0.is_empty(), "another window is offered nothing meanwhile");
        drop(left);
        let (left, _) = left_journals(state.path());
        assert_eq!(left.len(), 1, "not thrown away: offered again");
        for journal in left {
            journal.discard().unwrap();
        }
        living.clear().unwrap();
        living.end().unwrap();
        assert!(names_in(&state.path().join(FOLDER)).is_empty());
    }

    #[test]
    fn work_saved_in_the_last_moment_is_not_offered() {
        let state = tempfile::tempdir().unwrap();
        let path = state.path().join("a.lineup.ron");
        let work = unsaved("same", Some(FileIdentity::of(&path, b"before")));
        let journal = Journal::begin(state.path()).unwrap();
        journal.write(&work).unwrap();
        save(&path, write_lineup(&work.lineup).unwrap().as_bytes()).unwrap();
        drop(journal);
        assert!(left_journals(state.path()).0.is_empty());
        assert!(names_in(&state.path().join(FOLDER)).is_empty());
    }

    #[test]
    fn an_older_form_is_offered_and_a_spoilt_journal_stays() {
        let state = tempfile::tempdir().unwrap();
        let text = write_lineup(&unsaved("old", None).lineup).unwrap();
        fs::write(state.path().join(format!("unsaved-{}.lineup.ron", std::process::id())), text).unwrap();
        fs::create_dir(state.path().join(FOLDER)).unwrap();
        let spoilt = state.path().join(FOLDER).join("abc.journal");
        fs::write(&spoilt, "{}\nLineup").unwrap();
        let (left, problems) = left_journals(state.path());
        assert_eq!(left[0].unsaved.lineup.title, "old");
        assert!(problems.len() == 1 && problems[0].contains("abc.journal") && spoilt.exists(), "{problems:?}");
    }
}
