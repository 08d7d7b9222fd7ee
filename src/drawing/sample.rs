//! Line-ups for tests of scenes, from the invented frame files beside it.

use super::sample_files::{BARE, HALF, frame_files};
use crate::frameset::read_frameset;
use crate::lineup::Lineup;

/// The first `frames` (up to eight) samples, each in its third size, L; the first is the reference.
pub(crate) fn lineup(frames: usize) -> Lineup {
    let mut lineup = Lineup::default();
    for text in frame_files().iter().take(frames) {
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
    }
    lineup
}

/// One whole frame, one of which next to nothing is published, one without seat tube and fork.
pub(crate) fn lineup_with_gaps() -> Lineup {
    let mut lineup = lineup(1);
    for text in [BARE, HALF] {
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
    }
    lineup
}
