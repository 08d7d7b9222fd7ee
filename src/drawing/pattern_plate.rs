//! What is drawn of a bag's pattern, in true size: outline, seam allowance, cut line, zip edge, tubes' names and the band in
//! which the outline may lie.
//!
//! Not here: pages. Invariant: whatever is drawn lies within [`Plate::bounds`].

use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Pattern, Pt, Role, Stroke};
use super::view::Canvas;
use crate::frameset::FrameIndex;
use crate::geometry::Point;
use crate::geometry::plane::contains;
use crate::luggage::{Along, Band};
use crate::words::PatternWords;
use crate::words::drawings as labels;

const NAME: Face = Face::semibold(13.0, Role::Ink);
const WORDS: Face = Face::regular(12.0, Role::Ink);
/// Room around the outermost line, mm.
const AROUND_MM: f64 = 4.0;
/// How far the zip's teeth are from the outline, and from each other, mm.
const ZIP_MM: f64 = 4.0;
/// Shortest piece that gets a name, mm.
const LEAST_NAMED_MM: f64 = 12.0;

/// A bag's pattern.
pub(super) struct Plate<'a> {
    /// Whose it is, and its words.
    pub(super) words: PatternWords<'a>,
    pub(super) band: Band,
    /// What each page shows for itself, upper rear and lower front corner, mm: words are not parted by a joint.
    pub(super) pages: Vec<(Point<f64>, Point<f64>)>,
}

impl Plate<'_> {
    /// Lowest and highest corner of all that is drawn, mm.
    pub(super) fn bounds(&self) -> (Point<f64>, Point<f64>) {
        let far = f64::INFINITY;
        let mut bounds = (Point { x: far, y: far }, Point { x: -far, y: -far });
        for p in self.band.seam.iter().chain(&self.band.outer).chain(&self.words.bag.outline) {
            bounds.0 = Point { x: bounds.0.x.min(p.x), y: bounds.0.y.min(p.y) };
            bounds.1 = Point { x: bounds.1.x.max(p.x), y: bounds.1.y.max(p.y) };
        }
        let (low, high) = bounds;
        (Point { x: low.x - AROUND_MM, y: low.y - AROUND_MM }, Point { x: high.x + AROUND_MM, y: high.y + AROUND_MM })
    }

    /// The outermost outlines, for asking what lies on a page.
    pub(super) fn outlines(&self) -> [&[Point<f64>]; 2] {
        [&self.band.seam, &self.band.outer]
    }

    /// Draws it.
    pub(super) fn draw(&self, pen: &mut Pen, canvas: Canvas) {
        let (bag, band) = (self.words.bag, &self.band);
        let on_page = |points: &[Point<f64>]| points.iter().map(|p| canvas.at(*p)).collect::<Vec<Pt>>();
        // The band: grey between its dashed edges.
        for (edge, role) in [(&band.outer, Role::Panel), (&band.inner, Role::Panel), (&band.in_both, Role::Background)] {
            pen.area(on_page(edge), Some(Fill { role, opacity: 1.0 }), None);
        }
        let dashed = Stroke { role: Role::SecondInk, width: 1.0, pattern: Pattern::Dashes, opacity: 1.0 };
        pen.area(on_page(&band.outer), None, Some(dashed));
        pen.area(on_page(&band.inner), None, Some(dashed));
        if self.has_seam() {
            pen.area(on_page(&band.seam), None, Some(solid(Role::Ink, 0.8)));
        }
        if let Some(line) = bag.cut {
            let stroke = Stroke { role: Role::Ink, width: 1.3, pattern: Pattern::Frame(FrameIndex(2)), opacity: 1.0 };
            pen.line(on_page(&line), stroke);
        }
        pen.area(on_page(&bag.outline), None, Some(solid(Role::Ink, 2.0)));
        self.zip(pen, canvas);
        self.names(pen, canvas);
    }

    pub(super) fn has_seam(&self) -> bool {
        self.words.frame.luggage.settings().bag.seam_allowance_mm > 0.0
    }

    /// Teeth inside the edge under the top tube.
    fn zip(&self, pen: &mut Pen, canvas: Canvas) {
        let Some(zip) = self.words.bag.zip() else { return };
        let stroke = solid(Role::Ink, 0.8);
        for (_, [a, b]) in self.words.bag.pieces.iter().filter(|(along, _)| *along == zip) {
            let (d, length) = unit(*a, *b);
            let inside = Point { x: -d.y, y: d.x };
            let at = |s: f64, t: f64| canvas.at(Point { x: a.x + d.x * s + inside.x * t, y: a.y + d.y * s + inside.y * t });
            pen.line(vec![at(0.0, ZIP_MM), at(length, ZIP_MM)], stroke);
            let mut s = 0.0;
            while s <= length {
                pen.line(vec![at(s, ZIP_MM - 1.2), at(s, ZIP_MM + 1.2)], stroke);
                s += ZIP_MM;
            }
        }
    }

    /// Each straight edge's name and length, inside the outline, where they are in nobody's way.
    fn names(&self, pen: &mut Pen, canvas: Canvas) {
        let mut taken: Vec<Rect> = Vec::new();
        let mut named: Vec<Along> = Vec::new();
        let mut pieces: Vec<&(Along, [Point<f64>; 2])> = self.words.bag.pieces.iter().collect();
        let length = |[a, b]: [Point<f64>; 2]| (b.x - a.x).hypot(b.y - a.y);
        pieces.sort_by(|a, b| length(b.1).total_cmp(&length(a.1)));
        for (along, piece) in pieces {
            if named.contains(along) || length(*piece) < LEAST_NAMED_MM {
                continue;
            }
            named.push(*along);
            let lines = self.words.edge(*along);
            if let Some((at, anchor, rect)) = self.place(&lines, *piece, canvas, &taken) {
                taken.push(rect);
                write(pen, &lines, at, anchor);
            }
        }
        self.middle(pen, canvas, &mut taken);
    }

    /// Where two lines of words stand beside a piece of the outline, inside it.
    fn place(&self, lines: &[String; 2], [a, b]: [Point<f64>; 2], canvas: Canvas, taken: &[Rect]) -> Option<(Pt, Anchor, Rect)> {
        let (d, length) = unit(a, b);
        let inside = Point { x: -d.y, y: d.x };
        let anchor = match inside.x {
            x if x > 0.35 => Anchor::Start,
            x if x < -0.35 => Anchor::End,
            _ => Anchor::Middle,
        };
        let places = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];
        let depths = [9.0, 12.0, 16.0, 20.0, 26.0, 34.0];
        let free: Vec<(Pt, Rect)> = depths
            .into_iter()
            .flat_map(|depth| places.map(|part| (part, depth)))
            .filter_map(|(part, depth)| {
                let p = canvas.at(Point {
                    x: a.x + d.x * length * part + inside.x * depth,
                    y: a.y + d.y * length * part + inside.y * depth,
                });
                // Two lines, their middle at the point.
                let at = Pt { x: p.x, y: p.y - 2.0 };
                let rect = covered(lines, at, anchor);
                let is_free = taken.iter().all(|t| !t.overlaps(rect.inset(-4.0)));
                let is_inside = rect
                    .corners()
                    .into_iter()
                    .map(|c| canvas.mm(c))
                    .all(|c| contains(&self.words.bag.outline, c) && distance(&self.words.bag.outline, c) > ZIP_MM + 2.0);
                (is_free && is_inside).then_some((at, rect))
            })
            .collect();
        let whole = free.iter().find(|(_, rect)| self.is_on_one_page(*rect, canvas));
        whole.or(free.first()).map(|(at, rect)| (*at, anchor, *rect))
    }

    /// Whether words lie on a single page, off its joints.
    fn is_on_one_page(&self, words: Rect, canvas: Canvas) -> bool {
        let corners: Vec<Point<f64>> = words.corners().into_iter().map(|c| canvas.mm(c)).collect();
        let holds =
            |(a, b): &(Point<f64>, Point<f64>)| corners.iter().all(|c| (a.x..=b.x).contains(&c.x) && (b.y..=a.y).contains(&c.y));
        self.pages.is_empty() || self.pages.iter().any(holds)
    }

    /// The frame's name, size and which way is forward, in the largest free place.
    fn middle(&self, pen: &mut Pen, canvas: Canvas, taken: &mut Vec<Rect>) {
        let lines = [self.words.frame_and_size(), labels::FRONT_OF_THE_BICYCLE.to_owned()];
        let with_arrow = |at: Pt| {
            let words = covered(&lines, at, Anchor::Middle);
            Rect::new(words.x, words.y, words.width, words.height + 14.0)
        };
        let (low, high) = self.bounds();
        let mut best: Option<((bool, f64), Pt)> = None;
        for i in 1..20 {
            for j in 1..20 {
                let (s, t) = (f64::from(i) / 20.0, f64::from(j) / 20.0);
                let mm = Point { x: low.x + (high.x - low.x) * s, y: low.y + (high.y - low.y) * t };
                let at = canvas.at(mm);
                let rect = with_arrow(at);
                let corners = rect.inset(-8.0).corners();
                if taken.iter().any(|t| t.overlaps(rect.inset(-8.0)))
                    || !corners.iter().all(|c| contains(&self.words.bag.outline, canvas.mm(*c)))
                {
                    continue;
                }
                let depth =
                    corners.iter().map(|c| distance(&self.words.bag.outline, canvas.mm(*c))).fold(f64::INFINITY, f64::min);
                let clear = taken.iter().map(|t| gap(*t, rect)).fold(depth * canvas.view.px_per_mm, f64::min);
                let worth = (self.is_on_one_page(rect, canvas), clear);
                if best.is_none_or(|(most, _)| worth > most) {
                    best = Some((worth, at));
                }
            }
        }
        if let Some((_, at)) = best {
            taken.push(with_arrow(at));
            write(pen, &lines, at, Anchor::Middle);
            let (y, half) = (at.y + 26.0, 34.0);
            let tip = Pt { x: at.x + half, y };
            let stroke = solid(Role::Ink, 1.2);
            pen.line(vec![Pt { x: at.x - half, y }, tip], stroke);
            pen.line(vec![Pt { x: tip.x - 8.0, y: y - 4.0 }, tip, Pt { x: tip.x - 8.0, y: y + 4.0 }], stroke);
        }
    }
}

fn write(pen: &mut Pen, lines: &[String; 2], at: Pt, anchor: Anchor) {
    pen.backed_text(at, lines[0].clone(), NAME, anchor);
    pen.backed_text(Pt { x: at.x, y: at.y + 15.0 }, lines[1].clone(), WORDS, anchor);
}

fn covered(lines: &[String; 2], at: Pt, anchor: Anchor) -> Rect {
    let first = Rect::of_text(at, &lines[0], NAME.size, anchor, NAME.weight);
    let second = Rect::of_text(Pt { x: at.x, y: at.y + 15.0 }, &lines[1], WORDS.size, anchor, WORDS.weight);
    let x = first.x.min(second.x);
    Rect::new(x, first.y, first.right().max(second.right()) - x, second.bottom() - first.y)
}

/// The direction from one point to another, and how far.
fn unit(a: Point<f64>, b: Point<f64>) -> (Point<f64>, f64) {
    let length = (b.x - a.x).hypot(b.y - a.y).max(1e-9);
    (Point { x: (b.x - a.x) / length, y: (b.y - a.y) / length }, length)
}

/// Distance of a point from an outline's edges.
fn distance(outline: &[Point<f64>], p: Point<f64>) -> f64 {
    let to_edge = |(a, b): (&Point<f64>, &Point<f64>)| {
        let (d, length) = unit(*a, *b);
        let along = ((p.x - a.x) * d.x + (p.y - a.y) * d.y).clamp(0.0, length);
        (p.x - a.x - d.x * along).hypot(p.y - a.y - d.y * along)
    };
    outline.iter().zip(outline.iter().cycle().skip(1)).map(to_edge).fold(f64::INFINITY, f64::min)
}

/// Distance between two rectangles.
fn gap(a: Rect, b: Rect) -> f64 {
    let across = (b.x - a.right()).max(a.x - b.right()).max(0.0);
    let up = (b.y - a.bottom()).max(a.y - b.bottom()).max(0.0);
    across.hypot(up)
}
