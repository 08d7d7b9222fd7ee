//! How the frame-bag spaces of two frames differ.

use super::bag_space_findings::BagSpaceFigure;
use super::findings::Findings;
use crate::frameset::FrameIndex;
use crate::units::{AnyKind, Measured};

impl Findings {
    /// How a figure of a frame's room differs from the reference's; `None` for the reference itself and where either
    /// has none. Two makers share no error; two sizes of one frameset share some, so theirs is stated a little too wide.
    #[must_use]
    pub fn bag_space_difference(&self, frame: FrameIndex, figure: BagSpaceFigure) -> Option<Measured<AnyKind>> {
        if self.reference == Some(frame) {
            return None;
        }
        let own = figure.of(frame.of(&self.frames)?)?;
        let other = figure.of(self.reference_frame()?)?;
        Some(own.minus(other))
    }
}
