//! One frame of the side view: the union of its tubes as one shape, with post, saddle and wheels faint beside it.
//!
//! Invariant: a frame's shape has no lines inside; only a filled frame (the reference) covers anything, and palely.

use super::pen::Pen;
use super::scene::{Fill, Pattern, Pt, Role, Stroke};
use super::standing::Standing;
use super::view::Canvas;
use crate::frameset::{FrameIndex, Tube};
use crate::geometry::Point;

/// How a frame is drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct FrameLook {
    pub(super) place: FrameIndex,
    /// Whether it is pale inside, as the reference is.
    pub(super) is_filled: bool,
    /// Whether seat post and saddle are drawn.
    pub(super) has_saddle: bool,
    pub(super) pattern: Pattern,
    /// Frames that are drawn over one another.
    pub(super) frames: usize,
    /// Whether another frame is brought forward.
    pub(super) steps_back: bool,
}

impl FrameLook {
    /// One frame for itself.
    pub(super) const fn alone(place: FrameIndex) -> Self {
        Self { place, is_filled: true, has_saddle: true, pattern: Pattern::Solid, frames: 1, steps_back: false }
    }
}

/// Opacity of the reference's inside.
const PALE: f64 = 0.2;
/// Opacity of seat posts and saddles, which are nobody's figures.
const SKETCH: f64 = 0.4;
/// Opacities of tyres and rims.
const TYRE: f64 = 0.32;
const RIM: f64 = 0.2;
/// Share of its opacity that a frame keeps when it steps back.
const BACK: f64 = 0.35;

/// A frame as one shape: pale inside, or an edge alone, so that lines are told apart where frames lie over one another.
pub(super) fn draw(pen: &mut Pen, canvas: Canvas, stands: &Standing, look: FrameLook) {
    let role = Role::FrameLine(look.place);
    let on_page = |points: &[Point<f64>]| points.iter().map(|p| canvas.at(stands.on_drawing(*p))).collect::<Vec<Pt>>();
    let share = if look.steps_back { BACK } else { 1.0 };
    let sketch = |width: f64| Stroke { role, width, pattern: Pattern::Solid, opacity: SKETCH * share };
    if look.has_saddle {
        for post in stands.outline.tubes.iter().filter(|tube| tube.tube == Tube::SeatPost) {
            pen.area(on_page(&post.outline), None, Some(sketch(0.9)));
        }
        pen.line(on_page(&stands.outline.saddle), sketch(3.2));
    }
    let width = if look.is_filled || look.frames > 4 { 1.6 } else { 2.0 };
    let stroke = Stroke { role, width, pattern: look.pattern, opacity: share };
    for part in stands.silhouette().iter() {
        let rings: Vec<Vec<Pt>> = part.rings().map(|ring| on_page(ring)).collect();
        if look.is_filled {
            pen.shape(rings.clone(), Fill { role, opacity: PALE });
        }
        for ring in rings {
            pen.area(ring, None, Some(stroke));
        }
    }
}

/// Faint tyres and rims.
pub(super) fn draw_wheels(pen: &mut Pen, canvas: Canvas, stands: &Standing, place: FrameIndex) {
    let line = |width, opacity| Stroke { role: Role::FrameLine(place), width, pattern: Pattern::Solid, opacity };
    for wheel in [stands.outline.rear_wheel, stands.outline.front_wheel].into_iter().flatten() {
        let centre = canvas.at(stands.on_drawing(wheel.axle));
        pen.circle(centre, canvas.px(wheel.tyre_radius_mm), None, Some(line(1.2, TYRE)));
        pen.circle(centre, canvas.px(wheel.rim_radius_mm), None, Some(line(0.8, RIM)));
    }
}
