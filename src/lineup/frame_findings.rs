//! What follows for one frame of a line-up.

use std::sync::Arc;

use super::bag_space_findings::BagSpaceFindings;
use crate::frameset::{Figure, Frameset, OnePerFrame, Part, SizeIndex};
use crate::geometry::{Adjusted, AdjustedSize, Outline, STATES, SilhouettePart, Value};
use crate::units::{ComputedOnce, Mass, Measured};
use crate::weight::Weights;

/// What follows for one frame.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameFindings {
    /// A, B, C …
    pub letter: String,
    /// Maker and model.
    pub name: String,
    /// Whether it is drawn.
    pub shown: bool,
    /// The frameset it was computed from.
    pub frameset: Arc<Frameset>,
    /// All its sizes as the maker drew them.
    pub as_published: Arc<Adjusted>,
    /// All its sizes as they are compared: as drawn, or on the line-up's tyre and at its sag.
    pub adjusted: Arc<Adjusted>,
    /// Where that differs from as drawn: how each figure of the chosen size answers to the state as drawn, but for the tyre.
    pub answers: Option<Box<[[f64; STATES]; Figure::COUNT]>>,
    /// Place of the chosen size.
    pub size: SizeIndex,
    /// The chosen size's outline.
    pub outline: Option<Outline>,
    /// The silhouette of that outline.
    pub silhouette: ComputedOnce<Vec<SilhouettePart>>,
    /// Its weights.
    pub weights: Weights,
    /// Room, bag and bottles of the chosen size.
    pub luggage: BagSpaceFindings,
}

impl OnePerFrame for FrameFindings {}

impl FrameFindings {
    /// Whether this is the same frameset as another frame's, whichever sizes are chosen.
    #[must_use]
    pub fn is_of_same_frameset(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.frameset, &other.frameset) || (self.name == other.name && self.frameset == other.frameset)
    }

    /// How much heavier a part is than another frame's, grams: what both weights share drops out of the u. `None` where
    /// either is not stated.
    #[must_use]
    pub fn weight_difference(&self, other: &Self, part: Part) -> Option<Measured<Mass>> {
        let (own, base) = (self.weights.part(part)?, other.weights.part(part)?);
        Some(own.difference(base, self.is_of_same_frameset(other)))
    }

    /// How a figure of the chosen size answers to the state as drawn, but for a common tyre.
    pub(super) fn gradient(&self, figure: Figure) -> Option<[f64; STATES]> {
        if let Some(answers) = &self.answers {
            return Some(answers[figure as usize]);
        }
        let size = self.chosen()?;
        Some(crate::geometry::figure(figure, &size.state.jets(), size.top_tube).gradient)
    }

    /// The chosen size, adjusted.
    #[must_use]
    pub fn chosen(&self) -> Option<&AdjustedSize> {
        self.size.of(&self.adjusted.sizes)
    }

    /// A figure of the chosen size.
    #[must_use]
    pub fn value(&self, figure: Figure) -> Option<&Value> {
        self.chosen().map(|s| s.value(figure))
    }

    /// Label of the chosen size.
    #[must_use]
    pub fn size_label(&self) -> &str {
        self.chosen().map_or("", |s| s.label.as_str())
    }
}
