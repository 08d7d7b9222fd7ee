//! In which order frames are painted.

use crate::frameset::FrameIndex;
use crate::lineup::Findings;

/// The frames that are shown, in the order of painting.
pub(super) fn from_back_to_front(findings: &Findings) -> Vec<FrameIndex> {
    let shown = |i: &FrameIndex| findings.frames[*i].shown;
    painted(FrameIndex::all(findings.frames.len()).filter(shown).collect(), findings)
}

/// The frames that are drawn over one another, in the order of painting.
pub(super) fn overlaid_from_back_to_front(findings: &Findings) -> Vec<FrameIndex> {
    painted(findings.overlaid(), findings)
}

/// Places in the order of painting: the reference last, the others from the last to the first.
fn painted(mut places: Vec<FrameIndex>, findings: &Findings) -> Vec<FrameIndex> {
    places.sort_by_key(|place| (findings.reference == Some(*place), std::cmp::Reverse(*place)));
    places
}
