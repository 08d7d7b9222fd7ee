//! Which part of a plot's plane is shown: a window in the figures' own units, and the moves that a hand makes.

use super::rect::Rect;
use super::scene::Pt;
use crate::frameset::{Figure, SizeIndex};
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

/// The least and the greatest span that zooming reaches, as shares of the span that shows everything.
const SPAN: std::ops::RangeInclusive<f64> = 0.0005..=40.0;
/// How far the middle may be moved beyond what is shown, as a share of the span: a corner of it stays in sight.
const BEYOND: f64 = 0.45;
/// By how much of a span a limit may be passed, which is rounding.
const ROUNDING: f64 = 1e-9;
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

    /// The window magnified by `factor` about a point of the page that stays where it is; unchanged where the factor is not
    /// a number above zero. [`Self::within_limits`] bounds it.
    #[must_use]
    pub fn zoomed_at(self, area: Rect, at: Pt, factor: f64) -> Self {
        // One changes nothing, to the last digit.
        if !(factor.is_finite() && factor > 0.0) || factor == 1.0 {
            return self;
        }
        let (across, up) = self.to_values(area, at);
        let moved = |edge: f64, fixed: f64| fixed + (edge - fixed) / factor;
        Self {
            left: moved(self.left, across),
            right: moved(self.right, across),
            bottom: moved(self.bottom, up),
            top: moved(self.top, up),
        }
    }

    /// The window that a hand brought here from `before`, within its limits: where a limit was reached before, the window
    /// stays where it was instead of creeping towards the pointer.
    #[must_use]
    pub fn limited_from(self, before: Self, all: Self) -> Self {
        let is_held = |span: f64, earlier: f64, whole: f64| {
            let (least, most) = (SPAN.start() * whole, SPAN.end() * whole);
            (span < least && earlier <= least * (1.0 + 1e-6)) || (span > most && earlier >= most * (1.0 - 1e-6))
        };
        let mut kept = self;
        if is_held(self.right - self.left, before.right - before.left, all.right - all.left) {
            (kept.left, kept.right) = (before.left, before.right);
        }
        if is_held(self.top - self.bottom, before.top - before.bottom, all.top - all.bottom) {
            (kept.bottom, kept.top) = (before.bottom, before.top);
        }
        kept.within_limits(all)
    }

    /// The window itself, or the nearest to it that zooming and panning may reach: from a two-thousandth to forty times the
    /// span of `all`, and never so far aside that nothing of `all` is in it. `all` itself where it is not finite.
    #[must_use]
    pub fn within_limits(self, all: Self) -> Self {
        let side = |low: f64, high: f64, all_low: f64, all_high: f64| {
            let (span, whole) = (high - low, all_high - all_low);
            let (least, most) = (SPAN.start() * whole, SPAN.end() * whole);
            let middle = f64::midpoint(low, high);
            let kept = span.clamp(least, most);
            let (nearest, furthest) = (all_low - BEYOND * kept, all_high + BEYOND * kept);
            let is_span_kept = (kept - span).abs() <= ROUNDING * whole.min(kept);
            let is_middle_kept = middle >= nearest - ROUNDING * kept && middle <= furthest + ROUNDING * kept;
            if is_span_kept && is_middle_kept {
                return (low, high);
            }
            let middle = middle.clamp(nearest, furthest);
            (middle - kept / 2.0, middle + kept / 2.0)
        };
        let is_finite = [self.left, self.right, self.bottom, self.top].iter().all(|edge| edge.is_finite());
        if !is_finite || self.right <= self.left || self.top <= self.bottom {
            return all;
        }
        let (left, right) = side(self.left, self.right, all.left, all.right);
        let (bottom, top) = side(self.bottom, self.top, all.bottom, all.top);
        Self { left, right, bottom, top }
    }
}

/// The window that shows every size of every shown frame, and the chosen sizes with their ±.
///
/// The other sizes' ± do not count: they may be far wider than anything that is compared.
#[must_use]
pub fn fit_plot(findings: &Findings, axes: Axes) -> PlotView {
    let (left, right) = range(findings, axes.across, axes.up);
    let (bottom, top) = range(findings, axes.up, axes.across);
    PlotView { left, right, bottom, top }
}

fn range(findings: &Findings, figure: Figure, other: Figure) -> (f64, f64) {
    let mut low = f64::INFINITY;
    let mut high = f64::NEG_INFINITY;
    for frame in findings.frames.iter().filter(|f| f.shown) {
        for (place, size) in SizeIndex::numbered(&frame.adjusted.sizes) {
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
        assert_eq!(view.zoomed_at(AREA, at, 0.0), view);
        assert_eq!(view.zoomed_at(AREA, at, 1.0), view);
    }

    #[test]
    fn limits_hold_and_are_not_narrower_than_themselves() {
        let all = PlotView { left: 430.0, right: 470.0, bottom: 50.0, top: 80.0 };
        assert_eq!(all.within_limits(all), all);
        let at = Pt { x: 70.0, y: 320.0 };
        for factor in [0.3, 0.9, 1.7, 40.0] {
            let mut view = all;
            for _ in 0..300 {
                let next = view.zoomed_at(AREA, at, factor).within_limits(all);
                assert_eq!(next.within_limits(all), next);
                let span = (next.right - next.left) / 40.0;
                assert!(span > 0.00049 && span < 40.1, "{span}");
                assert!(next.left < all.right && next.right > all.left && next.bottom < all.top && next.top > all.bottom);
                view = next;
            }
        }
        for factor in [1.7, 0.4] {
            let limit = (0..60).fold(all, |view, _| view.zoomed_at(AREA, at, factor).limited_from(view, all));
            assert_eq!(limit.zoomed_at(AREA, at, factor).limited_from(limit, all), limit, "it does not creep");
        }
        let gone = (0..500).fold(all, |view, _| view.panned(AREA, 300.0, -200.0).within_limits(all));
        assert!(gone.left < all.right && gone.right > all.left && gone.bottom < all.top && gone.top > all.bottom, "{gone:?}");
        assert_eq!(PlotView { left: f64::NAN, ..all }.within_limits(all), all);
        assert_eq!(PlotView { left: 500.0, right: 400.0, ..all }.within_limits(all), all);
    }
}
