//! Files on their way in: read on a thread of their own, sorted into frames and line-ups, refusals turned into notices.

use std::path::PathBuf;
use std::sync::mpsc::RecvTimeoutError;
use std::time::{Duration, Instant};

use super::document::Computed;
use super::import_review::ImportReview;
use super::labels::notices as labels;
use super::moment::Reading;
use super::question::Saving;
use super::reader::{ReadPurpose, ReadResult};
use crate::disk::{FileIdentity, FileProblem, Loaded, Opened};
use crate::lineup::Lineup;

/// How long one window frame may spend on what was read.
const SLICE: Duration = Duration::from_millis(25);
/// How long the window waits for the first result: most files are there before it is painted again.
const PATIENCE: Duration = Duration::from_millis(250);
/// How long it waits once a result has let it wait that long.
const GLANCE: Duration = Duration::from_millis(2);

/// What reading came to, this frame.
#[derive(Default)]
pub(crate) struct Progress {
    /// Refusals, one line each.
    pub(crate) problems: Vec<String>,
    /// Files that were good.
    pub(crate) good: Vec<PathBuf>,
    /// Line-ups found, with their files; told when all is read.
    pub(crate) lineups: Vec<(Lineup, FileIdentity)>,
    /// Tables to be looked through.
    pub(crate) tables: Vec<ImportReview>,
    /// Files that were read again.
    pub(crate) again: Vec<(Saving, PathBuf, Result<Opened, FileProblem>)>,
    /// What the starting files make, computed ahead.
    pub(crate) computed: Option<Computed>,
    /// Whether nothing is left to read.
    pub(crate) is_done: bool,
}

impl Reading {
    /// Reading what the program was started with, if anything. It begins at once.
    pub(crate) fn at_start(files: Vec<PathBuf>) -> Option<Self> {
        let mut reading = Self { is_start: true, ..Self::default() };
        let count = files.len();
        reading.queue(files, ReadPurpose::Open);
        reading.awaits_findings = reading.reader.ask_findings(count);
        (reading.total > 0).then_some(reading)
    }

    /// Puts files in the queue.
    pub(crate) fn queue(&mut self, paths: Vec<PathBuf>, purpose: ReadPurpose) {
        self.total += paths.len();
        self.is_slow = false;
        for path in paths {
            self.reader.ask(path, purpose);
        }
    }

    /// Fetches what was read, for a short while.
    pub(crate) fn go_on(&mut self) -> Progress {
        let began = Instant::now();
        let mut progress = Progress::default();
        while !self.is_done() {
            match self.reader.next(if self.is_slow { GLANCE } else { PATIENCE }) {
                Ok(result) => self.sort(result, &mut progress),
                Err(RecvTimeoutError::Timeout) => {
                    self.is_slow = true;
                    break;
                }
                Err(RecvTimeoutError::Disconnected) => {
                    progress.problems.push(labels::READING_FAILED_OPEN_THE_FILES_AGAIN.to_owned());
                    self.awaits_findings = false;
                    self.done = self.total;
                }
            }
            if began.elapsed() > SLICE {
                break;
            }
        }
        progress.is_done = self.is_done();
        if progress.is_done {
            progress.lineups = std::mem::take(&mut self.lineups);
        }
        progress
    }

    fn is_done(&self) -> bool {
        self.done >= self.total && !self.awaits_findings
    }

    fn sort(&mut self, result: ReadResult, progress: &mut Progress) {
        if let ReadResult::Computed(computed) = result {
            self.awaits_findings = false;
            progress.computed = computed.map(|c| *c);
            return;
        }
        self.done += 1;
        match result {
            ReadResult::File(path, ReadPurpose::Again(saving), opened) => progress.again.push((saving, path, opened)),
            ReadResult::File(path, ReadPurpose::Open, Ok(Opened { loaded: Loaded::Frameset(frameset), identity })) => {
                self.frames.push((*frameset, identity));
                progress.good.push(path);
            }
            ReadResult::File(path, ReadPurpose::Open, Ok(Opened { loaded: Loaded::Lineup(lineup), identity })) => {
                progress.good.push(path);
                self.lineups.push((*lineup, identity));
            }
            ReadResult::File(_, ReadPurpose::Open, Err(problem)) | ReadResult::Table(Err(problem)) => {
                progress.problems.push(problem.to_string());
            }
            ReadResult::Table(Ok(review)) => progress.tables.push(*review),
            ReadResult::Computed(_) => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::reader::Reader;

    /// The window is painted again and again while a file lets it wait, and stops waiting for it.
    #[test]
    fn a_hanging_file_system_is_not_waited_for() {
        let (reader, _kept) = Reader::hanging();
        let mut reading = Reading { reader, ..Reading::default() };
        reading.queue(vec!["far/away.frame.ron".into()], ReadPurpose::Open);
        for _ in 0..100 {
            let progress = reading.go_on();
            assert!(!progress.is_done && progress.problems.is_empty());
        }
        assert!(reading.is_slow && (reading.done, reading.total) == (0, 1));
    }

    /// A thread that broke off ends the reading, and says so.
    #[test]
    fn reading_that_broke_off_ends_and_says_so() {
        let (reader, kept) = Reader::hanging();
        let mut reading = Reading { reader, ..Reading::default() };
        reading.queue(vec!["x.frame.ron".into()], ReadPurpose::Open);
        drop(kept);
        let progress = reading.go_on();
        assert!(progress.is_done && progress.problems.len() == 1, "{:?}", progress.problems);
    }
}
