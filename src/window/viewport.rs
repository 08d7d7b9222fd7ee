//! Which part of a view's drawing is seen: a view to scale, or the ranges of a plot's axes.

use crate::drawing::{PlotView, View};

/// Which part of a drawing is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Viewport {
    /// A drawing to scale.
    Scale(View),
    /// A plot.
    Plot(PlotView),
}
