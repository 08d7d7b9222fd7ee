//! What follows for one frame of a line-up.

use std::sync::Arc;

use super::bag_space_findings::BagSpaceFindings;
use crate::frameset::{Figure, Frameset, OnePerFrame, SizeIndex};
use crate::geometry::{Adjusted, AdjustedSize, Outline, Value};
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
    /// All its sizes as they are compared: as drawn, or on the line-up's tyre.
    pub adjusted: Arc<Adjusted>,
    /// On one common tyre: how each figure of the chosen size answers to its radius, per mm.
    pub by_tyre_radius: Option<Box<[f64; Figure::COUNT]>>,
    /// Place of the chosen size.
    pub size: SizeIndex,
    /// The chosen size's outline.
    pub outline: Option<Outline>,
    /// Its weights.
    pub weights: Weights,
    /// Room, bag and bottles of the chosen size.
    pub luggage: BagSpaceFindings,
}

impl OnePerFrame for FrameFindings {}

impl FrameFindings {
    /// Whether this is the same frameset as another frame's, whichever sizes are chosen.
    pub(super) fn is_of_same_frameset(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.frameset, &other.frameset) || (self.name == other.name && self.frameset == other.frameset)
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
