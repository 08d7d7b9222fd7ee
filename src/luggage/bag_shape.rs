//! A bag's outline as it follows from the opening's: shrunk by the clearance, cut, and its corners rounded. What is left
//! of the opening, and so which lines the outline follows, is found by the polygon library's offsets and cuts; the corners
//! between those lines are exact.
//!
//! Not here: what it measures. Invariant: an outline is simple and runs counter-clockwise.

use geo::algorithm::buffer::{BufferStyle, LineCap, LineJoin};
use geo::{Area, BooleanOps, Buffer, Coord, LineString, MultiPolygon, Polygon};

use super::along::Along;
use super::bag_measures::{Follows, Measures};
use super::bag_settings::{BagPart, BagSettings, Cut};
use super::bag_space::{BagSpace, SHELL_RADIUS_MM, under_top_tube};
use super::no_bag::NoBag;
use super::plane::{along, cross, dot, edges, left, length, moved, plain, sub};
use crate::frameset::Tube;
use crate::geometry::{Point, Scalar};

/// Arcs are drawn as chords of no more than this angle, radians: of 15 mm, arcs are true to 0.02 mm.
pub(super) const CHORD_RAD: f64 = 0.1;
/// How far a corner of the outline may lie from what its edge follows, mm.
const NEAR_MM: f64 = 0.01;
/// Larger than any bicycle, mm.
const FAR: f64 = 5000.0;

/// A bag's shape as a function of the opening's outline.
pub(super) struct Shape<'a> {
    settings: BagSettings,
    tubes: &'a [Tube],
    /// The radius about the bottom bracket that is kept free, mm, where its shell reaches into the opening.
    shell_mm: Option<f64>,
}

impl<'a> Shape<'a> {
    pub(super) fn of(bag_space: &'a BagSpace, settings: &BagSettings) -> Self {
        let shell_mm = bag_space.shell_intrudes.then_some(SHELL_RADIUS_MM + settings.gap_to_tubes_mm);
        Self { settings: *settings, tubes: &bag_space.edges, shell_mm }
    }

    /// The bag in an opening, and whether other pieces were left out.
    pub(super) fn cut_out<T: Scalar>(&self, opening: &[Point<T>]) -> Result<(Measures<T>, bool), NoBag> {
        let (core, is_in_pieces) = self.core(&opening.iter().map(|p| plain(*p)).collect::<Vec<_>>())?;
        let lines = self.lines(opening);
        // Too little is left to have corners: nothing that could be sewn.
        let measures = Measures::of(&self.order(&lines, &core), T::of(self.settings.corner_radius_mm));
        Ok((measures.ok_or_else(|| self.settings.too_tight())?, is_in_pieces))
    }

    /// Where the middles of circles of the corners' radius may lie, and whether other pieces were left out: the bag is what
    /// those circles cover.
    pub(super) fn core(&self, opening: &[Point<f64>]) -> Result<(Polygon, bool), NoBag> {
        let s = &self.settings;
        let too_tight = s.too_tight();
        let mut left_over = MultiPolygon::new(vec![polygon(opening)]);
        if s.gap_to_tubes_mm > 0.0 {
            left_over = left_over.buffer_with_style(sharp(-s.gap_to_tubes_mm));
        }
        if let Some(radius) = self.shell_mm {
            let shell = geo::Point::new(0.0, 0.0).buffer_with_style(style(radius));
            left_over = left_over.difference(&shell);
        }
        let (whole, _) = largest(left_over).ok_or(too_tight)?;
        let mut left_over = MultiPolygon::new(vec![whole]);
        if let Some([a, b]) = self.cut_line(opening) {
            // Everything to the right of a → b, which runs backwards: above it.
            let d = sub(b, a);
            let n = left(a, b);
            let unit = Point { x: d.x / length(d), y: d.y / length(d) };
            let far = |p: Point<f64>, s: f64| along(p, unit, s * FAR);
            let above = |p: Point<f64>| along(p, n, -FAR);
            let keep = [far(a, -1.0), far(b, 1.0), above(far(b, 1.0)), above(far(a, -1.0))];
            left_over = left_over.intersection(&polygon(&keep));
            if left_over.0.is_empty() {
                return Err(NoBag::NothingAboveCut);
            }
        }
        if s.corner_radius_mm > 0.0 {
            left_over = left_over.buffer_with_style(sharp(-s.corner_radius_mm));
        }
        largest(left_over).ok_or(too_tight)
    }

    /// The cut line, from the front to the rear, so that what is kept lies to its right.
    pub(super) fn cut_line<T: Scalar>(&self, opening: &[Point<T>]) -> Option<[Point<T>; 2]> {
        match self.settings.part {
            BagPart::Full => None,
            BagPart::Above(Cut::Level { above_bb_mm }) => {
                Some([1000.0, -1000.0].map(|x| Point { x: T::of(x), y: T::of(above_bb_mm) }))
            }
            BagPart::Above(Cut::AlongTopTube { below_mm }) => {
                let [a, b] = under_top_tube(opening, self.tubes)?;
                let n = left(a, b);
                Some([along(a, n, T::of(below_mm)), along(b, n, T::of(below_mm))])
            }
        }
    }

    /// Width at a height, mm.
    pub(super) fn width<T: Scalar>(&self, opening: &[Point<T>], y: T) -> T {
        let Some(first) = opening.first() else { return T::of(self.settings.gusset_bottom_mm) };
        let (mut low, mut high) = (first.y, first.y);
        for p in opening {
            low = if p.y.value() < low.value() { p.y } else { low };
            high = if p.y.value() > high.value() { p.y } else { high };
        }
        let wider = T::of(self.settings.gusset_top_mm - self.settings.gusset_bottom_mm);
        T::of(self.settings.gusset_bottom_mm) + wider * (y - low) / (high - low)
    }

    /// Volume, litres: area × the width at its centroid's height, which is exact for a width that changes evenly.
    pub(super) fn litres<T: Scalar>(&self, opening: &[Point<T>], measures: &Measures<T>) -> T {
        measures.area * self.width(opening, measures.height) * T::of(1e-6)
    }

    /// The lines that a bag's straight edges run along, the bag to their left.
    fn lines<T: Scalar>(&self, opening: &[Point<T>]) -> Vec<(Along, [Point<T>; 2])> {
        let clearance = T::of(self.settings.gap_to_tubes_mm);
        let mut lines: Vec<(Along, [Point<T>; 2])> =
            edges(opening).zip(self.tubes).map(|(edge, tube)| (Along::Tube(*tube), moved(edge, clearance))).collect();
        lines.extend(self.cut_line(opening).map(|[a, b]| (Along::Cut, [b, a])));
        lines
    }

    /// What the bag around a core follows, counter-clockwise: what the core's edges lie beside.
    fn order<T: Scalar>(&self, lines: &[(Along, [Point<T>; 2])], core: &Polygon) -> Vec<Follows<T>> {
        let radius = self.settings.corner_radius_mm;
        let beside: Vec<[Point<f64>; 2]> = lines.iter().map(|(_, line)| moved(line.map(plain), radius)).collect();
        let mut order: Vec<Followed> = Vec::new();
        for edge in edges(&points(core)) {
            let found = self.followed(&beside, edge);
            order.extend(found.filter(|f| order.last() != Some(f)));
        }
        // The core's outline may begin in the middle of what it ends with.
        if order.len() > 1 && order.first() == order.last() {
            order.pop();
        }
        let follows = |followed| match followed {
            Followed::Line(i) => Follows::Line(lines[i].0, lines[i].1),
            Followed::Shell(radius) => Follows::Shell(T::of(radius)),
        };
        order.into_iter().map(follows).collect()
    }

    /// What an edge of the core lies beside.
    fn followed(&self, lines: &[[Point<f64>; 2]], [a, b]: [Point<f64>; 2]) -> Option<Followed> {
        let d = sub(b, a);
        let line = lines.iter().position(|[p, q]| {
            let e = sub(*q, *p);
            let is_parallel = cross(d, e).abs() < 1e-3 * length(d) * length(e) && dot(d, e) > 0.0;
            is_parallel && dot(sub(a, *p), left(*p, *q)).abs() < NEAR_MM
        });
        let on_shell = || {
            let shell = self.shell_mm?;
            let radius = shell + self.settings.corner_radius_mm;
            // Chords lie within the circle, and where they were moved outwards their corners lie outside of it.
            let off = CHORD_RAD * CHORD_RAD / 8.0;
            let near = radius - shell * off - NEAR_MM..=radius + self.settings.corner_radius_mm * off + NEAR_MM;
            [a, b].into_iter().all(|p| near.contains(&length(p))).then_some(Followed::Shell(shell))
        };
        line.map(Followed::Line).or_else(on_shell)
    }
}

/// A line by its place, or the shell with the radius that is kept free.
#[derive(Clone, Copy, PartialEq)]
enum Followed {
    Line(usize),
    Shell(f64),
}

pub(super) fn polygon(outline: &[Point<f64>]) -> Polygon {
    Polygon::new(LineString(outline.iter().map(|p| Coord { x: p.x, y: p.y }).collect()), Vec::new())
}

/// The outside of a polygon, counter-clockwise.
pub(super) fn points(polygon: &Polygon) -> Vec<Point<f64>> {
    let ring = &polygon.exterior().0;
    let mut outline: Vec<Point<f64>> = ring.iter().take(ring.len().saturating_sub(1)).map(|c| Point { x: c.x, y: c.y }).collect();
    if super::plane::signed_area(&outline) < 0.0 {
        outline.reverse();
    }
    outline
}

fn sharp(distance: f64) -> BufferStyle<f64> {
    BufferStyle::new(distance).line_join(LineJoin::Miter(0.02))
}

pub(super) fn style(distance: f64) -> BufferStyle<f64> {
    BufferStyle::new(distance).line_join(LineJoin::Round(CHORD_RAD)).line_cap(LineCap::Round(CHORD_RAD))
}

/// The largest piece, and whether there are others worth the name (over 1 cm²).
pub(super) fn largest(pieces: MultiPolygon) -> Option<(Polygon, bool)> {
    let others = pieces.0.iter().filter(|p| p.unsigned_area() > 100.0).count() > 1;
    pieces.0.into_iter().max_by(|a, b| a.unsigned_area().total_cmp(&b.unsigned_area())).map(|p| (p, others))
}
