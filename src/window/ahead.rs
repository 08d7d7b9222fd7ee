//! Files read, and their findings computed, while the desktop is still making the window: the first picture need not wait
//! for them.
//!
//! Not here: many files. The window reads those itself, a few each frame, with progress and a way to stop.

use std::collections::HashMap;
use std::path::PathBuf;
use std::thread::{self, JoinHandle};

use super::document::Computed;
use super::files::{base_name, is_table_name};
use crate::disk::{FileProblem, Loaded, Opened, open};
use crate::frameset::Frameset;
use crate::lineup::Lineup;

/// So many files take no longer than the desktop does.
const MOST: usize = 16;

/// What was read ahead.
#[derive(Default)]
pub(crate) struct ReadAhead {
    /// The files, as [`open`] gave them.
    pub(crate) loaded: HashMap<PathBuf, Result<Opened, FileProblem>>,
    /// The line-up that they make, where that is plain.
    pub(crate) computed: Option<Computed>,
}

/// Reading ahead, going on.
pub(crate) struct Ahead(JoinHandle<ReadAhead>);

impl Ahead {
    /// Begins to read; nothing where there is nothing to read, or much.
    pub(crate) fn start(files: &[PathBuf]) -> Option<Self> {
        if files.is_empty() || files.len() > MOST {
            return None;
        }
        let files: Vec<PathBuf> = files.iter().filter(|f| !is_table_name(f)).cloned().collect();
        Some(Self(thread::spawn(move || read(files))))
    }

    /// What was read. A thread that broke off leaves nothing, and the window reads for itself.
    pub(crate) fn take(self) -> ReadAhead {
        self.0.join().unwrap_or_default()
    }
}

fn read(files: Vec<PathBuf>) -> ReadAhead {
    let mut lineup = Lineup::default();
    let mut opened = Vec::new();
    let mut loaded = HashMap::new();
    for path in files {
        let file = open(&path);
        match file.as_ref().map(|opened| &opened.loaded) {
            Ok(Loaded::Frameset(frameset)) => lineup.add(Frameset::clone(frameset), base_name(&path)),
            Ok(Loaded::Lineup(lineup)) => opened.push(Lineup::clone(lineup)),
            Err(_) => {}
        }
        loaded.insert(path, file);
    }
    let whole = match (opened.pop(), lineup.frames.is_empty()) {
        (Some(only), true) if opened.is_empty() => Some(only),
        (None, false) => Some(lineup),
        _ => None,
    };
    ReadAhead { loaded, computed: whole.map(Computed::of) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::document::Document;

    fn sample(name: &str) -> PathBuf {
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sample-frames").join(name)
    }

    #[test]
    fn what_is_read_ahead_is_what_would_be_read() {
        let files = [sample("marrowby-drift.frame.ron"), sample("absent.frame.ron"), sample("village-library.lineup.ron")];
        let ahead = Ahead::start(&files).expect("a few files").take();
        assert!(ahead.computed.is_none(), "a line-up and a frame: not plain what they make");
        assert_eq!(ahead.loaded.len(), 3);
        for path in &files {
            let file = &ahead.loaded[path];
            assert_eq!(file.as_ref().map_err(ToString::to_string), open(path).as_ref().map_err(ToString::to_string));
        }
        assert!(Ahead::start(&[]).is_none());
        assert!(Ahead::start(&vec![PathBuf::new(); MOST + 1]).is_none());
    }

    #[test]
    fn a_line_up_computed_ahead_opens_with_the_same_findings() {
        let file = sample("village-library.lineup.ron");
        let mut ahead = Ahead::start(std::slice::from_ref(&file)).expect("one file").take();
        let Some(Ok(Opened { loaded: Loaded::Lineup(lineup), identity })) = ahead.loaded.remove(&file) else {
            panic!("a line-up")
        };
        let usual = Document::new(Lineup::clone(&lineup), Some(identity.clone()));
        let mut before = Document::default();
        before.expect(ahead.computed.expect("computed"));
        let opened = before.opened(*lineup, identity);
        assert_eq!(opened.findings(), usual.findings());
        assert_eq!((opened.lineup(), opened.path(), opened.is_unsaved()), (usual.lineup(), usual.path(), false));
    }
}
