//! The reference's dimensions on the side view: lengths between small ticks, each with its ±.
//!
//! Invariant: a dimension stands where it is measured, and one that is not determined is said, not drawn.

use super::measure::text_width;
use super::pen::{Face, Pen, solid};
use super::scene::{Anchor, Pattern, Pt, Role, Stroke};
use super::standing::Standing;
use super::view::Canvas;
use super::wording::{in_sentence, listed, value_text};
use crate::frameset::{Figure, Tube};
use crate::geometry::Point;
use crate::lineup::FrameFindings;
use crate::units::System;

/// Room that dimensions need below the road, page units.
pub(super) const ROOM_BELOW: f64 = 64.0;
/// How far the row of dimensions lies below the road.
const ROW: f64 = 24.0;
/// How far a dimension lies beside what it measures.
const ASIDE: f64 = 36.0;
const FACE: Face = Face::regular(12.0, Role::Ink);
const LINE: Stroke = solid(Role::Ink, 1.0);
const EXTENSION: Stroke = Stroke { role: Role::Ink, width: 0.6, pattern: Pattern::Solid, opacity: 0.45 };
const AXIS: Stroke = Stroke { role: Role::Ink, width: 0.9, pattern: Pattern::Dashes, opacity: 0.8 };

/// Draws the dimensions; gives back what must be said instead.
pub(super) fn draw(pen: &mut Pen, canvas: Canvas, stands: &Standing, frame: &FrameFindings, units: System) -> Vec<String> {
    let mut sheet = Sheet { pen, canvas, stands, frame, units, missing: Vec::new() };
    sheet.head();
    sheet.stack_and_reach();
    sheet.drop();
    sheet.lengths();
    sheet.trail();
    if sheet.missing.is_empty() {
        return Vec::new();
    }
    let names: Vec<String> = sheet.missing.iter().map(|f| in_sentence(*f)).collect();
    vec![format!("{}: {} not determined", frame.letter, listed(names.iter().map(String::as_str)))]
}

struct Sheet<'a> {
    pen: &'a mut Pen,
    canvas: Canvas,
    stands: &'a Standing<'a>,
    frame: &'a FrameFindings,
    units: System,
    missing: Vec<Figure>,
}

impl Sheet<'_> {
    fn at(&self, point: Point<f64>) -> Pt {
        self.canvas.at(self.stands.on_drawing(point))
    }

    fn has(&self, tube: Tube) -> bool {
        self.stands.outline.tubes.iter().any(|t| t.tube == tube)
    }

    /// `stack 612 ± 1 mm`; `None`, and noted, where it is not determined.
    fn label(&mut self, figure: Figure, name: &str) -> Option<String> {
        let value = self.frame.value(figure).filter(|v| !v.is_missing);
        if value.is_none() && !self.missing.contains(&figure) {
            self.missing.push(figure);
        }
        value.map(|v| format!("{name} {}", value_text(self.units, v)))
    }

    /// A level dimension from x to x at height y, its text in the middle, or beside it where there is no room.
    fn level(&mut self, from: f64, to: f64, y: f64, text: &str) {
        self.pen.line(vec![Pt { x: from, y }, Pt { x: to, y }], LINE);
        for x in [from, to] {
            self.pen.line(vec![Pt { x, y: y - 5.0 }, Pt { x, y: y + 5.0 }], LINE);
        }
        let width = text_width(text, FACE.size, FACE.weight);
        let base = y + 4.0;
        if width + 24.0 <= (to - from).abs() {
            self.pen.backed_text(Pt { x: f64::midpoint(from, to), y: base }, text, FACE, Anchor::Middle);
        } else {
            self.pen.backed_text(Pt { x: from.max(to) + 10.0, y: base }, text, FACE, Anchor::Start);
        }
    }

    /// Steering axis from above the head tube to the road, with the head angle at the road.
    fn head(&mut self) {
        let text = self.label(Figure::HeadAngle, "head angle");
        let (Some(text), true) = (text, self.has(Tube::HeadTube)) else { return };
        let p = self.stands.outline.points;
        let (dx, dy) = (p.head_bottom.x - p.head_top.x, p.head_bottom.y - p.head_top.y);
        let length = dx.hypot(dy).max(1.0);
        let (ux, uy) = (dx / length, dy / length);
        let above = Point { x: p.head_top.x - ux * 55.0, y: p.head_top.y - uy * 55.0 };
        let foot = self.axis_on_road();
        let end = foot.unwrap_or(Point { x: p.head_bottom.x + ux * 300.0, y: p.head_bottom.y + uy * 300.0 });
        let ends = vec![self.at(above), self.at(end)];
        self.pen.line(ends, AXIS);
        let Some(foot) = foot else { return };
        let centre = self.at(foot);
        let radius = self.canvas.px(150.0).clamp(30.0, 90.0);
        let angle = (-uy).atan2(ux);
        let arc = (0..=16).map(|i| {
            // From level backwards up to the axis.
            let a = std::f64::consts::PI - angle * f64::from(i) / 16.0;
            Pt { x: centre.x + radius * a.cos(), y: centre.y - radius * a.sin() }
        });
        self.pen.line(arc.collect(), LINE);
        self.pen.backed_text(Pt { x: centre.x + 12.0, y: centre.y - 14.0 }, text, FACE, Anchor::Start);
    }

    /// Where the steering axis meets the road, mm from the bottom bracket.
    fn axis_on_road(&self) -> Option<Point<f64>> {
        let outline = self.stands.outline;
        let road = outline.road_y?;
        let p = &outline.points;
        let fall = p.head_top.y - p.head_bottom.y;
        if !self.has(Tube::HeadTube) || fall < 1.0 {
            return None;
        }
        let share = (p.head_top.y - road) / fall;
        Some(Point { x: p.head_top.x + (p.head_bottom.x - p.head_top.x) * share, y: road })
    }

    fn stack_and_reach(&mut self) {
        let (stack, reach) = (self.label(Figure::Stack, "stack"), self.label(Figure::Reach, "reach"));
        if !self.has(Tube::HeadTube) {
            return;
        }
        let top = self.at(self.stands.outline.points.head_top);
        let foot = self.at(Point { x: 0.0, y: 0.0 });
        if let Some(text) = stack {
            self.pen.line(vec![foot, Pt { x: foot.x, y: top.y }], LINE);
            for y in [top.y, foot.y] {
                self.pen.line(vec![Pt { x: foot.x - 5.0, y }, Pt { x: foot.x + 5.0, y }], LINE);
            }
            // Beside the line, in the open part of the main triangle.
            let y = foot.y + (top.y - foot.y) * 0.62;
            self.pen.backed_text(Pt { x: foot.x + 9.0, y }, text, FACE, Anchor::Start);
        }
        if let Some(text) = reach {
            self.level(foot.x, top.x, top.y, &text);
        }
    }

    /// Bottom bracket drop, ahead of the bottom bracket and below the down tube.
    fn drop(&mut self) {
        let text = self.label(Figure::BbDrop, "drop");
        let (Some(text), Some(wheel)) = (text, self.stands.outline.rear_wheel) else { return };
        let (axle, foot) = (self.at(wheel.axle), self.at(Point { x: 0.0, y: 0.0 }));
        let x = foot.x + self.canvas.px(130.0).clamp(30.0, 90.0);
        self.pen.line(vec![axle, Pt { x: x + 8.0, y: axle.y }], EXTENSION);
        self.pen.line(vec![foot, Pt { x: x + 8.0, y: foot.y }], EXTENSION);
        self.pen.line(vec![Pt { x, y: axle.y }, Pt { x, y: foot.y }], LINE);
        for y in [axle.y, foot.y] {
            self.pen.line(vec![Pt { x: x - 5.0, y }, Pt { x: x + 5.0, y }], LINE);
        }
        let at = Pt { x: x + 10.0, y: f64::midpoint(axle.y, foot.y) + 4.0 };
        self.pen.backed_text(at, text, FACE, Anchor::Start);
    }

    /// Chainstay and front centre beside themselves, wheelbase below the road.
    fn lengths(&mut self) {
        let outline = self.stands.outline;
        let chainstay = self.label(Figure::Chainstay, "chainstay");
        let front = self.label(Figure::FrontCentre, "front centre");
        let wheelbase = self.label(Figure::Wheelbase, "wheelbase");
        let foot = self.at(Point { x: 0.0, y: 0.0 });
        let rear = outline.rear_wheel.map(|w| self.at(w.axle));
        let ahead = outline.front_wheel.map(|w| self.at(w.axle));
        if let (Some(text), Some(rear)) = (chainstay, rear) {
            self.aligned(rear, foot, &text);
        }
        if let (Some(text), Some(ahead)) = (front, ahead) {
            self.aligned(foot, ahead, &text);
        }
        let road = outline.road_y.map(|y| self.at(Point { x: 0.0, y }).y);
        if let (Some(text), Some(rear), Some(ahead), Some(road)) = (wheelbase, rear, ahead, road) {
            for p in [rear, ahead] {
                self.pen.line(vec![p, Pt { x: p.x, y: road + ROW + 5.0 }], EXTENSION);
            }
            self.level(rear.x, ahead.x, road + ROW, &text);
        }
    }

    /// A dimension parallel to the line from `from` to `to` (rising x), below it.
    fn aligned(&mut self, from: Pt, to: Pt, text: &str) {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let length = dx.hypot(dy);
        if length < 1.0 {
            return;
        }
        // Square to the line, downwards on the page.
        let (nx, ny) = (-dy / length, dx / length);
        let moved = |p: Pt, by: f64| Pt { x: p.x + nx * by, y: p.y + ny * by };
        for p in [from, to] {
            self.pen.line(vec![p, moved(p, ASIDE + 5.0)], EXTENSION);
            self.pen.line(vec![moved(p, ASIDE - 5.0), moved(p, ASIDE + 5.0)], LINE);
        }
        let (a, b) = (moved(from, ASIDE), moved(to, ASIDE));
        self.pen.line(vec![a, b], LINE);
        let middle = Pt { x: f64::midpoint(a.x, b.x), y: f64::midpoint(a.y, b.y) + 4.0 };
        self.pen.backed_text(middle, text, FACE, Anchor::Middle);
    }

    fn trail(&mut self) {
        let text = self.label(Figure::Trail, "trail");
        let (Some(text), Some(wheel), Some(foot)) = (text, self.stands.outline.front_wheel, self.axis_on_road()) else { return };
        let (touch, foot) = (self.at(wheel.axle), self.at(foot));
        self.pen.line(vec![foot, Pt { x: foot.x, y: foot.y + ROW + 5.0 }], EXTENSION);
        let y = foot.y + ROW;
        self.pen.line(vec![Pt { x: touch.x, y }, Pt { x: foot.x, y }], LINE);
        self.pen.line(vec![Pt { x: foot.x, y: y - 5.0 }, Pt { x: foot.x, y: y + 5.0 }], LINE);
        self.pen.backed_text(Pt { x: foot.x.max(touch.x) + 10.0, y: y + 4.0 }, text, FACE, Anchor::Start);
    }
}
