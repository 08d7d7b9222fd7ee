//! In which order frames are painted.

use crate::lineup::Findings;

/// The frames that are shown, in the order of painting: the reference last, the others from the last to the first.
pub(super) fn from_back_to_front(findings: &Findings) -> Vec<usize> {
    let is_reference = |i: &usize| findings.reference == Some(*i);
    let shown = |i: &usize| findings.frames[*i].shown;
    let mut order: Vec<usize> = (0..findings.frames.len()).rev().filter(|i| shown(i) && !is_reference(i)).collect();
    order.extend(findings.reference.filter(|r| findings.frames.get(*r).is_some_and(|f| f.shown)));
    order
}
