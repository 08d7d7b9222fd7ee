//! Which frame a statement picture is about.

use super::findings::Findings;
use super::sheet::Statement;
use crate::frameset::FrameIndex;

/// The frame that a statement compares with the reference; `None` where no other is shown.
#[must_use]
pub fn stated_frame(statement: &Statement, findings: &Findings) -> Option<FrameIndex> {
    findings.reference_frame().filter(|reference| reference.shown)?;
    let others =
        || FrameIndex::numbered(&findings.frames).filter(|(place, frame)| frame.shown && findings.reference != Some(*place));
    others().find(|(_, frame)| frame.name == statement.frame).or_else(|| others().next()).map(|(place, _)| place)
}
