//! Where each frame stands when all are drawn over one another: the chosen point of each at the drawing's origin.
//!
//! Invariant: a frame is never moved by a point that nothing determines; it stands at its bottom bracket instead, and
//! that is said.

use std::borrow::Cow;

use crate::frameset::Tube;
use crate::geometry::{Outline, Point, SilhouettePart, silhouette};
use crate::lineup::{AlignAt, FrameFindings};
use crate::units::ComputedOnce;

/// A frame's outline and how far it is moved, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Standing<'a> {
    pub(super) outline: &'a Outline,
    cached: Option<&'a ComputedOnce<Vec<SilhouettePart>>>,
    shift: Point<f64>,
    /// Whether the point that it should stand at is unknown.
    pub(super) is_astray: bool,
}

impl<'a> Standing<'a> {
    /// How the frame stands; `None` when it has no outline.
    pub(super) fn of(frame: &'a FrameFindings, align_at: AlignAt) -> Option<Self> {
        let stands = Self::of_outline(frame.outline.as_ref()?, align_at);
        Some(Self { cached: Some(&frame.silhouette), ..stands })
    }

    /// How an outline stands.
    pub(super) fn of_outline(outline: &'a Outline, align_at: AlignAt) -> Self {
        let common = common_point(outline, align_at);
        let shift = common.unwrap_or(Point { x: 0.0, y: 0.0 });
        Self { outline, cached: None, shift, is_astray: common.is_none() }
    }

    /// The frame's silhouette, mm from the bottom bracket.
    pub(super) fn silhouette(&self) -> Cow<'a, [SilhouettePart]> {
        let made = || silhouette(self.outline);
        self.cached.map_or_else(|| Cow::Owned(made()), |cached| Cow::Borrowed(cached.get(made).as_slice()))
    }

    /// A point of the frame (bottom bracket at the origin) on the drawing, mm.
    pub(super) fn on_drawing(&self, point: Point<f64>) -> Point<f64> {
        Point { x: point.x - self.shift.x, y: point.y - self.shift.y }
    }

    /// Lowest and highest corner of all that is drawn of it, mm on the drawing; `None` where nothing is.
    pub(super) fn bounds(&self, with_wheels: bool) -> Option<(Point<f64>, Point<f64>)> {
        let outline = self.outline;
        let mut low = Point { x: f64::INFINITY, y: f64::INFINITY };
        let mut high = Point { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY };
        let mut take = |p: Point<f64>, around: f64| {
            low = Point { x: low.x.min(p.x - around), y: low.y.min(p.y - around) };
            high = Point { x: high.x.max(p.x + around), y: high.y.max(p.y + around) };
        };
        for point in outline.tubes.iter().flat_map(|t| &t.outline).chain(&outline.saddle) {
            take(*point, 0.0);
        }
        for wheel in [outline.rear_wheel, outline.front_wheel].into_iter().flatten() {
            if with_wheels {
                take(wheel.axle, wheel.tyre_radius_mm);
            } else {
                take(Point { x: wheel.axle.x, y: wheel.axle.y - wheel.tyre_radius_mm }, 0.0);
            }
        }
        (low.x.is_finite() && high.x.is_finite()).then(|| (self.on_drawing(low), self.on_drawing(high)))
    }

    /// Where its letter belongs: the head tube's top, else the seat tube's, else the bottom bracket; `None` where nothing
    /// of it is drawn.
    pub(super) fn head(&self) -> Option<Point<f64>> {
        let has = |tube| self.outline.tubes.iter().any(|t| t.tube == tube);
        let p = &self.outline.points;
        let point = if has(Tube::HeadTube) {
            p.head_top
        } else if has(Tube::SeatTube) {
            p.seat_top
        } else if self.outline.tubes.is_empty() {
            return None;
        } else {
            Point { x: 0.0, y: 0.0 }
        };
        Some(self.on_drawing(point))
    }
}

fn common_point(outline: &Outline, align_at: AlignAt) -> Option<Point<f64>> {
    let has_head = outline.tubes.iter().any(|t| t.tube == Tube::HeadTube);
    match align_at {
        AlignAt::BottomBracket => Some(Point { x: 0.0, y: 0.0 }),
        AlignAt::RearAxle => outline.rear_wheel.map(|w| w.axle),
        AlignAt::FrontAxle => outline.front_wheel.map(|w| w.axle),
        AlignAt::HeadTubeTop => has_head.then_some(outline.points.head_top),
        AlignAt::Ground => outline.road_y.map(|y| Point { x: 0.0, y }),
    }
}
