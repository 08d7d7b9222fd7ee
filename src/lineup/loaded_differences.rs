//! How loaded bicycles differ: what two frames share, and one rider and one luggage, drop out.

use super::document::Lineup;
use super::findings::Findings;
use crate::frameset::FrameIndex;
use crate::geometry::STATES;
use crate::loaded::{LoadedFigure, OWN};
use crate::units::{AnyKind, Measured};

impl Findings {
    /// How a figure of a loaded frame differs from the reference's with the same loading, a place among the findings'
    /// loadings; `None` for the reference itself and where either has no such figure.
    #[must_use]
    pub fn loaded_difference(
        &self,
        lineup: &Lineup,
        frame: FrameIndex,
        loading: usize,
        figure: LoadedFigure,
    ) -> Option<Measured<AnyKind>> {
        let reference = self.reference.filter(|r| *r != frame)?;
        let found = self.loaded(lineup);
        let ride = |index: FrameIndex| index.of(&found.frames)?.rides.get(loading)?.as_ref().ok();
        let states = self.covariance_between(frame.of(&self.frames)?, reference.of(&self.frames)?);
        let mut own = Box::new([[0.0; OWN]; OWN]);
        own.iter_mut().zip(&states).for_each(|(row, state)| row[..STATES].copy_from_slice(state));
        ride(frame)?.difference(ride(reference)?, &own, figure)
    }
}
