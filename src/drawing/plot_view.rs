//! Which part of a plot's plane is shown: a window in the figures' own units, and the moves that a hand makes.

use super::rect::Rect;
use super::scene::{Page, Pt};
use crate::frameset::Figure;
use crate::lineup::{Axes, Findings};

/// The window of a plot, mm or degrees as the axes' figures are in files.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlotView {
    /// Value at the left edge.
    pub left: f64,
    /// Value at the right edge, above `left`.
    pub right: f64,
    /// Value at the bottom edge.
    pub bottom: f64,
    /// Value at the top edge, above `bottom`.
    pub top: f64,
}

/// Least and greatest span that zooming reaches.
const SPAN: std::ops::RangeInclusive<f64> = 0.01..=10_000.0;
/// What a fitted window leaves free on each side, as a share of what is shown.
const MARGIN: f64 = 0.12;

impl PlotView {
    /// Where a pair of values lies in the plot's area on the page.
    #[must_use]
    pub fn to_page(self, area: Rect, across: f64, up: f64) -> Pt {
        Pt {
            x: area.x + (across - self.left) / (self.right - self.left) * area.width,
            y: area.bottom() - (up - self.bottom) / (self.top - self.bottom) * area.height,
        }
    }

    /// The pair of values (across, up) that lies there.
    #[must_use]
    pub fn to_values(self, area: Rect, at: Pt) -> (f64, f64) {
        (
            self.left + (at.x - area.x) / area.width.max(1.0) * (self.right - self.left),
            self.bottom + (area.bottom() - at.y) / area.height.max(1.0) * (self.top - self.bottom),
        )
    }

    /// The window after the plot was dragged by so many page units.
    #[must_use]
    pub fn panned(self, area: Rect, dx: f64, dy: f64) -> Self {
        let across = dx / area.width.max(1.0) * (self.right - self.left);
        let up = dy / area.height.max(1.0) * (self.top - self.bottom);
        Self { left: self.left - across, right: self.right - across, bottom: self.bottom + up, top: self.top + up }
    }

    /// The window magnified by `factor` about a point of the page that stays where it is; unchanged where a span would
    /// leave 0.01 to 10000 or the factor is not a number above zero.
    #[must_use]
    pub fn zoomed_at(self, area: Rect, at: Pt, factor: f64) -> Self {
        if !(factor.is_finite() && factor > 0.0) {
            return self;
        }
        let (across, up) = self.to_values(area, at);
        let moved = |edge: f64, fixed: f64| fixed + (edge - fixed) / factor;
        let zoomed = Self {
            left: moved(self.left, across),
            right: moved(self.right, across),
            bottom: moved(self.bottom, up),
            top: moved(self.top, up),
        };
        let is_allowed = |span: f64| SPAN.contains(&span);
        if is_allowed(zoomed.right - zoomed.left) && is_allowed(zoomed.top - zoomed.bottom) { zoomed } else { self }
    }
}

/// The window that shows every size of every shown frame, and the chosen sizes with their ±.
///
/// The other sizes' ± do not count: they may be far wider than anything that is compared.
#[must_use]
pub fn fit_plot(findings: &Findings, axes: Axes, _page: Page) -> PlotView {
    let (left, right) = range(findings, axes.across, axes.up);
    let (bottom, top) = range(findings, axes.up, axes.across);
    PlotView { left, right, bottom, top }
}

fn range(findings: &Findings, figure: Figure, other: Figure) -> (f64, f64) {
    let mut low = f64::INFINITY;
    let mut high = f64::NEG_INFINITY;
    for frame in findings.frames.iter().filter(|f| f.shown) {
        for (place, size) in frame.adjusted.sizes.iter().enumerate() {
            let value = size.value(figure);
            if value.is_missing || size.value(other).is_missing {
                continue;
            }
            let around = if place == frame.size { value.measured().expanded() } else { 0.0 };
            low = low.min(value.value - around);
            high = high.max(value.value + around);
        }
    }
    let least = if figure.is_angle() { 1.0 } else { 10.0 };
    if !(low.is_finite() && high.is_finite()) {
        let middle = f64::midpoint(figure.about().low, figure.about().high);
        (low, high) = (middle - least, middle + least);
    }
    let middle = f64::midpoint(low, high);
    let half = (high - low).max(least) * (0.5 + MARGIN);
    (middle - half, middle + half)
}

#[cfg(test)]
mod tests {
    use super::*;

    const AREA: Rect = Rect { x: 60.0, y: 30.0, width: 400.0, height: 300.0 };

    #[test]
    fn moves_are_exact() {
        let view = PlotView { left: 430.0, right: 470.0, bottom: 50.0, top: 80.0 };
        assert_eq!(view.to_page(AREA, 430.0, 50.0), Pt { x: 60.0, y: 330.0 });
        assert_eq!(view.to_page(AREA, 470.0, 80.0), Pt { x: 460.0, y: 30.0 });
        let at = Pt { x: 160.0, y: 100.0 };
        let (across, up) = view.to_values(AREA, at);
        let zoomed = view.zoomed_at(AREA, at, 2.0);
        let kept = zoomed.to_page(AREA, across, up);
        assert!((kept.x - at.x).abs() < 1e-9 && (kept.y - at.y).abs() < 1e-9);
        assert!((zoomed.right - zoomed.left - 20.0).abs() < 1e-9);
        let dragged = view.panned(AREA, 40.0, 10.0).to_page(AREA, across, up);
        assert!((dragged.x - at.x - 40.0).abs() < 1e-9 && (dragged.y - at.y - 10.0).abs() < 1e-9);
        assert_eq!(view.zoomed_at(AREA, at, 1e9), view);
        assert_eq!(view.zoomed_at(AREA, at, 0.0), view);
    }
}
