//! The reference's dimensions on the side view: lengths between small ticks, each with its ±.
//!
//! Invariants: a dimension stands where it is measured; one that is unknown is said, not drawn; words never cover
//! one another, and a dimension without room for its words is left out.

use super::measure::text_width;
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Pattern, Pt, Role, Stroke};
use super::standing::Standing;
use super::view::Canvas;
use crate::frameset::{Figure, Tube};
use crate::geometry::Point;
use crate::lineup::FrameFindings;
use crate::units::System;
use crate::units::listed;
use crate::words::drawings as labels;
use crate::words::{in_sentence, value_text};

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
    let mut sheet = Sheet { pen, canvas, stands, frame, units, missing: Vec::new(), covered: Vec::new() };
    // In the order of rank: where there is no room for all, the later ones are left out.
    sheet.stack_and_reach();
    sheet.head();
    sheet.trail();
    sheet.lengths();
    sheet.drop();
    if sheet.missing.is_empty() {
        return Vec::new();
    }
    let names: Vec<String> = sheet.missing.iter().map(|f| in_sentence(*f)).collect();
    vec![labels::figures_unknown(&frame.letter, &listed(names.iter().map(String::as_str)))]
}

struct Sheet<'a> {
    pen: &'a mut Pen,
    canvas: Canvas,
    stands: &'a Standing<'a>,
    frame: &'a FrameFindings,
    units: System,
    missing: Vec<Figure>,
    /// What words cover already.
    covered: Vec<Rect>,
}

/// Words that have a place.
struct Words {
    at: Pt,
    text: String,
    anchor: Anchor,
}

impl Sheet<'_> {
    fn at(&self, point: Point<f64>) -> Pt {
        self.canvas.at(self.stands.on_drawing(point))
    }

    fn has(&self, tube: Tube) -> bool {
        self.stands.outline.tubes.iter().any(|t| t.tube == tube)
    }

    /// `stack 612 ± 1 mm`; `None`, and noted, where it is unknown.
    fn label(&mut self, figure: Figure, name: &str) -> Option<String> {
        let value = self.frame.value(figure).filter(|v| !v.is_missing);
        if value.is_none() && !self.missing.contains(&figure) {
            self.missing.push(figure);
        }
        value.map(|v| format!("{name} {}", value_text(self.units, v)))
    }

    /// A place for a dimension's words: moved sideways where they would run over the canvas's edge and their place does
    /// not. `None` where other words stand already: then the dimension is left out, as it could not be read.
    fn words(&mut self, at: Pt, text: &str, anchor: Anchor) -> Option<Words> {
        let of = |at| Rect::of_text(at, text, FACE.size, anchor, FACE.weight).inset(-2.0);
        let room = self.canvas.rect.inset(6.0);
        let covers = of(at);
        let shift = (room.right() - covers.right()).min(0.0) + (room.x - covers.x).max(0.0);
        let at = if room.contains(at) { Pt { x: at.x + shift, y: at.y } } else { at };
        let covers = of(at);
        if self.covered.iter().any(|c| c.overlaps(covers)) {
            return None;
        }
        self.covered.push(covers);
        Some(Words { at, text: text.to_owned(), anchor })
    }

    fn write(&mut self, words: Words) {
        self.pen.backed_text(words.at, words.text, FACE, words.anchor);
    }

    /// Small marks at the ends of a level or an upright dimension.
    fn level_marks(&mut self, xs: [f64; 2], y: f64) {
        for x in xs {
            self.pen.line(vec![Pt { x, y: y - 5.0 }, Pt { x, y: y + 5.0 }], LINE);
        }
    }

    fn upright_marks(&mut self, x: f64, ys: [f64; 2]) {
        for y in ys {
            self.pen.line(vec![Pt { x: x - 5.0, y }, Pt { x: x + 5.0, y }], LINE);
        }
    }

    /// A level dimension from x to x at height y, its words in the middle, or beside it where there is no room.
    fn level(&mut self, from: f64, to: f64, y: f64, text: &str) -> bool {
        let width = text_width(text, FACE.size, FACE.weight);
        let base = y + 4.0;
        let words = if width + 24.0 <= (to - from).abs() {
            self.words(Pt { x: f64::midpoint(from, to), y: base }, text, Anchor::Middle)
        } else {
            self.words(Pt { x: from.max(to) + 10.0, y: base }, text, Anchor::Start)
        };
        let Some(words) = words else { return false };
        self.pen.line(vec![Pt { x: from, y }, Pt { x: to, y }], LINE);
        self.level_marks([from, to], y);
        self.write(words);
        true
    }

    /// Steering axis from above the head tube to the road, with the head angle at the road.
    fn head(&mut self) {
        let text = self.label(Figure::HeadAngle, labels::dimensions::HEAD_ANGLE);
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
        let Some(words) = self.words(Pt { x: centre.x + 12.0, y: centre.y - 14.0 }, &text, Anchor::Start) else { return };
        let radius = self.canvas.px(150.0).clamp(30.0, 90.0);
        let angle = (-uy).atan2(ux);
        let arc = (0..=16).map(|i| {
            // From level backwards up to the axis.
            let a = std::f64::consts::PI - angle * f64::from(i) / 16.0;
            Pt { x: centre.x + radius * a.cos(), y: centre.y - radius * a.sin() }
        });
        self.pen.line(arc.collect(), LINE);
        self.write(words);
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
        let (stack, reach) =
            (self.label(Figure::Stack, labels::dimensions::STACK), self.label(Figure::Reach, labels::dimensions::REACH));
        if !self.has(Tube::HeadTube) {
            return;
        }
        let top = self.at(self.stands.outline.points.head_top);
        let foot = self.at(Point { x: 0.0, y: 0.0 });
        if let Some(text) = stack {
            // Beside the line, in the open part of the main triangle.
            let y = foot.y + (top.y - foot.y) * 0.62;
            if let Some(words) = self.words(Pt { x: foot.x + 9.0, y }, &text, Anchor::Start) {
                self.pen.line(vec![foot, Pt { x: foot.x, y: top.y }], LINE);
                self.upright_marks(foot.x, [top.y, foot.y]);
                self.write(words);
            }
        }
        if let Some(text) = reach {
            self.level(foot.x, top.x, top.y, &text);
        }
    }

    /// Bottom bracket drop, ahead of the bottom bracket and below the down tube.
    fn drop(&mut self) {
        let text = self.label(Figure::BbDrop, labels::dimensions::DROP);
        let (Some(text), Some(wheel)) = (text, self.stands.outline.rear_wheel) else { return };
        let (axle, foot) = (self.at(wheel.axle), self.at(Point { x: 0.0, y: 0.0 }));
        let x = foot.x + self.canvas.px(130.0).clamp(30.0, 90.0);
        let at = Pt { x: x + 10.0, y: f64::midpoint(axle.y, foot.y) + 4.0 };
        let Some(words) = self.words(at, &text, Anchor::Start) else { return };
        self.pen.line(vec![axle, Pt { x: x + 8.0, y: axle.y }], EXTENSION);
        self.pen.line(vec![foot, Pt { x: x + 8.0, y: foot.y }], EXTENSION);
        self.pen.line(vec![Pt { x, y: axle.y }, Pt { x, y: foot.y }], LINE);
        self.upright_marks(x, [axle.y, foot.y]);
        self.write(words);
    }

    /// Chainstay and front centre beside themselves, wheelbase below the road.
    fn lengths(&mut self) {
        let outline = self.stands.outline;
        let chainstay = self.label(Figure::Chainstay, labels::dimensions::CHAINSTAY);
        let front = self.label(Figure::FrontCentre, labels::dimensions::FRONT_CENTRE);
        let wheelbase = self.label(Figure::Wheelbase, labels::dimensions::WHEELBASE);
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
        if let (Some(text), Some(rear), Some(ahead), Some(road)) = (wheelbase, rear, ahead, road)
            && self.level(rear.x, ahead.x, road + ROW, &text)
        {
            for p in [rear, ahead] {
                self.pen.line(vec![p, Pt { x: p.x, y: road + ROW + 5.0 }], EXTENSION);
            }
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
        let (a, b) = (moved(from, ASIDE), moved(to, ASIDE));
        let middle = Pt { x: f64::midpoint(a.x, b.x), y: f64::midpoint(a.y, b.y) };
        let width = text_width(text, FACE.size, FACE.weight);
        // The line stops at both sides of its words; where they are wider than it, they stand below.
        let gap = width / 2.0 + 6.0;
        let fits = 2.0 * gap + 10.0 <= length;
        let base = middle.y + if fits { 4.0 } else { 20.0 };
        let Some(words) = self.words(Pt { x: middle.x, y: base }, text, Anchor::Middle) else { return };
        for p in [from, to] {
            self.pen.line(vec![p, moved(p, ASIDE + 5.0)], EXTENSION);
            self.pen.line(vec![moved(p, ASIDE - 5.0), moved(p, ASIDE + 5.0)], LINE);
        }
        if fits {
            let beside = |side: f64| Pt { x: middle.x + dx / length * gap * side, y: middle.y + dy / length * gap * side };
            self.pen.line(vec![a, beside(-1.0)], LINE);
            self.pen.line(vec![beside(1.0), b], LINE);
            self.pen.text(words.at, words.text, FACE, words.anchor);
        } else {
            self.pen.line(vec![a, b], LINE);
            self.write(words);
        }
    }

    fn trail(&mut self) {
        let text = self.label(Figure::Trail, labels::dimensions::TRAIL);
        let (Some(text), Some(wheel), Some(foot)) = (text, self.stands.outline.front_wheel, self.axis_on_road()) else { return };
        let (touch, foot) = (self.at(wheel.axle), self.at(foot));
        let y = foot.y + ROW;
        let at = Pt { x: foot.x.max(touch.x) + 10.0, y: y + 4.0 };
        let Some(words) = self.words(at, &text, Anchor::Start) else { return };
        self.pen.line(vec![foot, Pt { x: foot.x, y: y + 5.0 }], EXTENSION);
        self.pen.line(vec![Pt { x: touch.x, y }, Pt { x: foot.x, y }], LINE);
        self.level_marks([touch.x, foot.x], y);
        self.write(words);
    }
}
