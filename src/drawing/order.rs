//! In which order frames are painted.

use crate::frameset::FrameIndex;
use crate::lineup::Findings;

/// The frames that are shown, in the order of painting: the reference last, the others from the last to the first.
pub(super) fn from_back_to_front(findings: &Findings) -> Vec<FrameIndex> {
    let is_reference = |i: &FrameIndex| findings.reference == Some(*i);
    let shown = |i: &FrameIndex| findings.frames[*i].shown;
    let mut order: Vec<FrameIndex> =
        FrameIndex::all(findings.frames.len()).rev().filter(|i| shown(i) && !is_reference(i)).collect();
    order.extend(findings.reference.filter(|r| r.of(&findings.frames).is_some_and(|f| f.shown)));
    order
}
