//! In which order frames are painted.

use super::palette::frame_pattern;
use super::scene::Pattern;
use crate::frameset::FrameIndex;
use crate::lineup::Findings;

/// The frames that are shown, in the order of painting: the reference last, the others from the last to the first.
pub(super) fn from_back_to_front(findings: &Findings) -> Vec<FrameIndex> {
    let shown = |i: &FrameIndex| findings.frames[*i].shown;
    let mut places: Vec<FrameIndex> = FrameIndex::all(findings.frames.len()).filter(shown).collect();
    places.sort_by_key(|place| (findings.reference == Some(*place), std::cmp::Reverse(*place)));
    places
}

/// The frames that are drawn over one another, in the order of painting: the reference, which is filled, first.
pub(super) fn overlaid_from_back_to_front(findings: &Findings) -> Vec<FrameIndex> {
    let mut places = findings.overlaid();
    places.sort_by_key(|place| (findings.reference != Some(*place), std::cmp::Reverse(*place)));
    places
}

/// The pattern that a frame's line is drawn with.
#[must_use]
pub fn frame_pattern_of(findings: &Findings, place: FrameIndex) -> Pattern {
    frame_pattern(place, findings.reference == Some(place), findings.has_line_patterns)
}
