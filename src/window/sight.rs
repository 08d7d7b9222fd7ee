//! How a view's drawing is moved and enlarged by hand: a view to scale, or the ranges of a plot's axes.
//!
//! The arithmetic is the drawing's own; this only tells the two kinds apart.

use crate::drawing::{Page, PlotView, Pt, Rect, View};

/// Which part of a drawing is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Sight {
    /// A drawing to scale.
    Scale(View),
    /// A plot, and the field between its axes.
    Plot(PlotView, Rect),
}

impl Sight {
    /// Moved by a drag of so many points.
    pub(crate) fn panned(self, right: f64, down: f64) -> Self {
        match self {
            Self::Scale(view) => Self::Scale(view.panned(right, down)),
            Self::Plot(view, area) => Self::Plot(view.panned(area, right, down), area),
        }
    }

    /// Enlarged at a point of the page that stays where it is.
    pub(crate) fn zoomed_at(self, page: Page, at: Pt, factor: f64) -> Self {
        match self {
            Self::Scale(view) => Self::Scale(view.zoomed_at(page, at, factor)),
            Self::Plot(view, area) => Self::Plot(view.zoomed_at(area, at, factor), area),
        }
    }
}
