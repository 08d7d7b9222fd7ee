//! Which frames are drawn over one another: not more than can be told apart.

use super::findings::Findings;
use crate::frameset::FrameIndex;

/// How many frames are drawn over one another at most. More cannot be told apart, and the tubes of thousands would stop the
/// window.
const MOST: usize = 40;

/// That not all shown frames are drawn over one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OverlaidOfMore {
    /// How many are drawn.
    pub drawn: usize,
    /// How many are shown.
    pub shown: usize,
}

impl Findings {
    /// The shown frames that are drawn over one another, in the line-up's order: the reference and the first of the others.
    #[must_use]
    pub fn overlaid(&self) -> Vec<FrameIndex> {
        let is_shown = |place: &FrameIndex| place.of(&self.frames).is_some_and(|f| f.shown);
        let reference = self.reference.filter(is_shown);
        let others = FrameIndex::all(self.frames.len()).filter(|i| is_shown(i) && Some(*i) != reference);
        let mut places: Vec<FrameIndex> = reference.into_iter().chain(others).take(MOST).collect();
        places.sort_unstable();
        places
    }

    /// Whether some shown frames are not drawn over the others, and how many are.
    #[must_use]
    pub fn overlaid_of_more(&self) -> Option<OverlaidOfMore> {
        let shown = self.frames.iter().filter(|f| f.shown).count();
        (shown > MOST).then_some(OverlaidOfMore { drawn: MOST, shown })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn the_reference_and_the_first_frames_are_drawn_over_one_another() {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let entry = lineup.frames[0].clone();
        lineup.frames = vec![entry; MOST + 3];
        lineup.reference = FrameIndex(MOST + 1);
        lineup.frames[2].shown = false;
        let findings = Findings::of(&lineup);
        let mut expected: Vec<FrameIndex> = FrameIndex::all(MOST).filter(|i| *i != FrameIndex(2)).collect();
        expected.push(FrameIndex(MOST + 1));
        assert_eq!(findings.overlaid(), expected);
        assert_eq!(findings.overlaid_of_more(), Some(OverlaidOfMore { drawn: MOST, shown: MOST + 2 }));
        lineup.frames.truncate(MOST + 1);
        lineup.reference = FrameIndex(0);
        assert_eq!(Findings::of(&lineup).overlaid_of_more(), None, "one is hidden");
    }
}
