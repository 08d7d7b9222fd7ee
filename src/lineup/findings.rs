//! Findings: everything that is shown, computed purely from the document.

use std::sync::Arc;

use super::document::{Lineup, letter};
use super::weights::{Weights, weights};
use crate::frameset::{Figure, Frameset, Part};
use crate::geometry::{Adjusted, AdjustedSize, Outline, Value, adjust, outline};

/// Everything that follows from a line-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Findings {
    /// One a frame, in the line-up's order.
    pub frames: Vec<FrameFindings>,
    /// Place of the reference; `None` in an empty line-up.
    pub reference: Option<usize>,
}

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
    /// All its sizes.
    pub adjusted: Arc<Adjusted>,
    /// Place of the chosen size.
    pub size: usize,
    /// The chosen size's outline.
    pub outline: Option<Outline>,
    /// Its weights.
    pub weights: Weights,
}

/// A difference between a frame and the reference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Frame − reference, mm or degrees (or grams).
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
}

impl Difference {
    /// Whether it is real: larger than its ± of two standard uncertainties.
    #[must_use]
    pub fn is_real(self) -> bool {
        self.value.abs() > 2.0 * self.u
    }
}

impl Findings {
    /// Computes everything.
    #[must_use]
    pub fn of(lineup: &Lineup) -> Self {
        Self::renewed(lineup, None)
    }

    /// Computes what changed since `before`: a frameset that is the very same is not adjusted again.
    #[must_use]
    pub fn renewed(lineup: &Lineup, before: Option<&Self>) -> Self {
        let known = |frameset: &Arc<Frameset>| {
            let frames = before.map(|b| b.frames.as_slice()).unwrap_or_default();
            frames.iter().find(|f| Arc::ptr_eq(&f.frameset, frameset)).map(|f| Arc::clone(&f.adjusted))
        };
        let frames = lineup
            .frames
            .iter()
            .enumerate()
            .map(|(index, entry)| {
                let adjusted = known(&entry.frameset).unwrap_or_else(|| Arc::new(adjust(&entry.frameset)));
                let size = entry.size_index();
                FrameFindings {
                    letter: letter(index),
                    name: entry.frameset.name(),
                    shown: entry.shown,
                    frameset: Arc::clone(&entry.frameset),
                    size,
                    outline: outline(&entry.frameset, &adjusted, size),
                    weights: weights(entry, lineup.settings.weight),
                    adjusted,
                }
            })
            .collect();
        Self { frames, reference: lineup.reference_index() }
    }

    /// The reference's findings.
    #[must_use]
    pub fn reference_frame(&self) -> Option<&FrameFindings> {
        self.reference.and_then(|r| self.frames.get(r))
    }

    /// How a frame's figure differs from the reference's; `None` for the reference itself and where either is missing.
    /// Figures of two makers share no error. Two sizes of the very same frameset share some, so theirs is stated a
    /// little too wide rather than too narrow.
    #[must_use]
    pub fn difference(&self, frame: usize, figure: Figure) -> Option<Difference> {
        if self.reference == Some(frame) {
            return None;
        }
        let own = self.frames.get(frame)?.value(figure)?;
        let other = self.reference_frame()?.value(figure)?;
        if own.is_missing || other.is_missing {
            return None;
        }
        Some(Difference { value: own.value - other.value, u: own.u.hypot(other.u) })
    }
}

impl Findings {
    /// How a part's weight differs from the reference's, grams; `None` for the reference itself and where either is not
    /// stated. Its u holds what is stated only: see [`PartWeight::is_estimate`](super::PartWeight::is_estimate).
    #[must_use]
    pub fn weight_difference(&self, frame: usize, part: Part) -> Option<Difference> {
        if self.reference == Some(frame) {
            return None;
        }
        let own = self.frames.get(frame)?.weights.part(part)?;
        let other = self.reference_frame()?.weights.part(part)?;
        Some(Difference { value: own.grams - other.grams, u: own.u.hypot(other.u) })
    }
}

impl FrameFindings {
    /// The chosen size, adjusted.
    #[must_use]
    pub fn chosen(&self) -> Option<&AdjustedSize> {
        self.adjusted.sizes.get(self.size)
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
