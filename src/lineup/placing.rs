//! Where a figure of a frame stands among the frames of the line-up, at sizes that are alike in fit.

use super::findings::Findings;
use crate::frameset::{Figure, FrameIndex};

/// How a frame's figure stands among the other frames that are alike in fit. Only clear differences count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placing {
    /// How many of the others it clearly exceeds.
    pub above: usize,
    /// How many of the others clearly exceed it.
    pub below: usize,
    /// How many others there are of which the figure is known.
    pub others: usize,
}

impl Findings {
    /// How a figure of a frame stands among the others, hidden ones included; `None` where the frame is not alike in fit to
    /// the reference, its figure is unknown, or there is nothing to compare it with.
    #[must_use]
    pub fn placing(&self, frame: FrameIndex, figure: Figure) -> Option<Placing> {
        let is_alike = |place: &FrameIndex| place.of(&self.fit).is_some_and(|fit| fit.size_fit.is_alike() == Some(true));
        if !is_alike(&frame) {
            return None;
        }
        let others = FrameIndex::all(self.frames.len()).filter(|other| *other != frame && is_alike(other));
        let mut placing = Placing { above: 0, below: 0, others: 0 };
        for difference in others.filter_map(|other| self.difference_between(frame, other, figure)) {
            placing.others += 1;
            if difference.is_clear() {
                if difference.value > 0.0 {
                    placing.above += 1;
                } else {
                    placing.below += 1;
                }
            }
        }
        (placing.others > 0).then_some(placing)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::{SizeRule, read_lineup, sizes_that_follow};

    #[test]
    fn clear_differences_among_sizes_alike_in_fit_are_counted() {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        lineup.settings.sizes = SizeRule::SameFit;
        lineup.put_into(sizes_that_follow(&lineup, &Findings::of(&lineup), None));
        let findings = Findings::of(&lineup);
        let alike: Vec<FrameIndex> =
            FrameIndex::all(findings.frames.len()).filter(|i| findings.fit[*i].size_fit.is_alike() == Some(true)).collect();
        assert!(alike.len() > 2 && alike.len() < findings.frames.len(), "{alike:?}");
        for figure in [Figure::Trail, Figure::Chainstay, Figure::Wheelbase] {
            let mut clear = (0, 0);
            for place in &alike {
                let placing = findings.placing(*place, figure).unwrap();
                assert!(placing.above + placing.below <= placing.others && placing.others < alike.len());
                clear = (clear.0 + placing.above, clear.1 + placing.below);
            }
            assert_eq!(clear.0, clear.1, "who is longer than another has another who is shorter");
        }
        // Of the reference, by hand.
        let others = alike.iter().filter(|i| Some(**i) != findings.reference);
        let clear = others.filter_map(|i| findings.difference(*i, Figure::Trail)).filter(|d| d.is_clear() && d.value < 0.0);
        assert_eq!(findings.placing(findings.reference.unwrap(), Figure::Trail).unwrap().above, clear.count());
        let unlike = FrameIndex::all(findings.frames.len()).find(|i| !alike.contains(i)).unwrap();
        assert_eq!(findings.placing(unlike, Figure::Trail), None);
    }
}
