//! The thread that reads files, so that a slow or hanging file system never freezes the window. It begins before there is
//! a window: for a few files the findings are computed too while the desktop is still making it.
//!
//! A file system that hangs cannot be interrupted: dropping the reader leaves such a thread behind, and its result is
//! wanted by nobody.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, SyncSender, channel, sync_channel};
use std::thread;
use std::time::Duration;

use super::document::Computed;
use super::file_names::{base_name, is_table_name};
use super::import_review::ImportReview;
use super::question::Saving;
use crate::disk::{FileProblem, Loaded, Opened, open, read_bytes};
use crate::frameset::{FileKind, Frameset};
use crate::lineup::Lineup;

/// So many files take no longer to compute than the desktop needs for the window.
const MOST_COMPUTED: usize = 16;
/// So many results wait to be fetched; the thread waits with them, so that memory stays bounded.
const MOST_WAITING: usize = 64;

/// What a file is read for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ReadPurpose {
    /// To be added, opened or looked through.
    Open,
    /// To replace the line-up or the frame that came from it.
    Again(Saving),
}

/// What the reader brings.
pub(crate) enum ReadResult {
    /// A frame file or a line-up.
    File(PathBuf, ReadPurpose, Result<Opened, FileProblem>),
    /// A geometry table.
    Table(Result<Box<ImportReview>, FileProblem>),
    /// The line-up that the starting files make, with its findings; nothing where it is not plain which that is.
    Computed(Option<Box<Computed>>),
}

/// What the thread is asked for.
enum Job {
    Read(PathBuf, ReadPurpose),
    /// What the files read so far make.
    Compute,
}

/// A thread that reads.
pub(crate) struct Reader {
    jobs: Sender<Job>,
    results: Receiver<ReadResult>,
}

impl Default for Reader {
    fn default() -> Self {
        let (jobs, wanted) = channel();
        let (sender, results) = sync_channel(MOST_WAITING);
        thread::spawn(move || work(&wanted, &sender));
        Self { jobs, results }
    }
}

impl Reader {
    /// Asks for a file.
    pub(crate) fn ask(&self, path: PathBuf, purpose: ReadPurpose) {
        // A thread that broke off is noticed when its result is fetched.
        drop(self.jobs.send(Job::Read(path, purpose)));
    }

    /// Asks for the findings of what these starting files make. Says whether they will come.
    pub(crate) fn ask_findings(&self, files: usize) -> bool {
        (1..=MOST_COMPUTED).contains(&files) && self.jobs.send(Job::Compute).is_ok()
    }

    /// The next result; waits so long for it. `Err` tells whether the thread broke off.
    pub(crate) fn next(&self, patience: Duration) -> Result<ReadResult, RecvTimeoutError> {
        self.results.recv_timeout(patience)
    }
}

/// Does what it is asked for until nobody asks or listens.
fn work(wanted: &Receiver<Job>, results: &SyncSender<ReadResult>) {
    let mut start = Some(Start::default());
    while let Ok(job) = wanted.recv() {
        let result = match job {
            Job::Read(path, _) if is_table_name(&path) => {
                let read = read_bytes(&path, FileKind::Table);
                ReadResult::Table(read.map(|bytes| Box::new(ImportReview::of_file(&bytes, path.display().to_string()))))
            }
            Job::Read(path, purpose) => {
                let opened = open(&path);
                if let (Some(start), Ok(opened)) = (&mut start, &opened) {
                    start.add(&path, &opened.loaded);
                }
                ReadResult::File(path, purpose, opened)
            }
            Job::Compute => ReadResult::Computed(start.take().and_then(Start::whole).map(|l| Box::new(Computed::of(l)))),
        };
        if results.send(result).is_err() {
            return;
        }
    }
}

/// What the starting files make.
#[derive(Default)]
struct Start {
    added: Lineup,
    opened: Vec<Lineup>,
    files: usize,
}

impl Start {
    fn add(&mut self, path: &std::path::Path, loaded: &Loaded) {
        self.files += 1;
        if self.files > MOST_COMPUTED {
            return;
        }
        match loaded {
            Loaded::Frameset(frameset) => {
                self.added.add(Frameset::clone(frameset), base_name(path));
            }
            Loaded::Lineup(lineup) => self.opened.push(Lineup::clone(lineup)),
        }
    }

    /// One line-up alone, or frames alone.
    fn whole(mut self) -> Option<Lineup> {
        match (self.opened.pop(), self.added.frames.is_empty()) {
            (Some(only), true) if self.opened.is_empty() => Some(only),
            (None, false) => Some(self.added),
            _ => None,
        }
    }
}

#[cfg(test)]
impl Reader {
    /// A reader whose file system hangs, and what keeps it so.
    pub(crate) fn hanging() -> (Self, impl Sized) {
        let ((jobs, wanted), (sender, results)) = (channel(), sync_channel(MOST_WAITING));
        (Self { jobs, results }, (wanted, sender))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::document::Document;

    const LONG: Duration = Duration::from_mins(1);

    fn sample(name: &str) -> PathBuf {
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sample-frames").join(name)
    }

    fn computed(files: &[PathBuf]) -> Option<Box<Computed>> {
        let reader = Reader::default();
        for file in files {
            reader.ask(file.clone(), ReadPurpose::Open);
        }
        assert!(reader.ask_findings(files.len()));
        for path in files {
            let Ok(ReadResult::File(read, _, result)) = reader.next(LONG) else { panic!("a file") };
            assert_eq!(&read, path);
            assert_eq!(result.map_err(|e| e.to_string()), open(path).map_err(|e| e.to_string()));
        }
        let Ok(ReadResult::Computed(computed)) = reader.next(LONG) else { panic!("what they make") };
        computed
    }

    #[test]
    fn files_come_in_their_order_and_what_they_make_behind_them() {
        let (drift, absent) = (sample("marrowby-drift.frame.ron"), sample("absent.frame.ron"));
        let lineup = sample("village-library.lineup.ron");
        assert!(computed(&[drift.clone(), absent.clone()]).is_some());
        assert!(computed(&[drift, absent, lineup]).is_none(), "a line-up and a frame: not plain what they make");
        assert!(!Reader::default().ask_findings(0) && !Reader::default().ask_findings(MOST_COMPUTED + 1));
    }

    #[test]
    fn a_line_up_computed_ahead_opens_with_the_same_findings() {
        let file = sample("village-library.lineup.ron");
        let Ok(Opened { loaded: Loaded::Lineup(lineup), identity }) = open(&file) else { panic!("a line-up") };
        let usual = Document::new(Lineup::clone(&lineup), Some(identity.clone()));
        let mut before = Document::default();
        before.expect(*computed(std::slice::from_ref(&file)).expect("computed"));
        let opened = before.opened(*lineup, identity);
        assert_eq!(opened.findings(), usual.findings());
        assert_eq!((opened.lineup(), opened.path(), opened.is_unsaved()), (usual.lineup(), usual.path(), false));
    }
}
