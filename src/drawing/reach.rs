//! Keeps what is drawn near its page: a line, an area or a circle that reaches far beyond it, as a drawing enlarged to its
//! limit has them, is cut there, in f64, before anything is painted or written.
//!
//! Invariant: what is given back lies within [`REACH`] of the field, and looks the same inside it: a broken line keeps its
//! dashes where they were.
//!
//! Method: segments by Liang and Barsky (1984), areas by Sutherland and Hodgman (1974).

use std::borrow::Cow;

use super::palette::dashes;
use super::rect::Rect;
use super::scene::{Fill, Item, Pt, Stroke, Target};

/// How far items may reach beyond the field, page units: more than a line is wide and than its dashes are long.
const REACH: f64 = 400.0;
/// Coordinates further out than this are moved here, so that no length overflows.
const FARTHEST: f64 = 1e12;
/// How far the chords of a circle that is cut may pass beside it, page units, and how many there are at most.
const SAGITTA: f64 = 0.05;
const MOST_CHORDS: f64 = 8192.0;

/// The item itself where all of it is near the field, else what is left of it there.
#[must_use]
pub fn near(item: &Item, field: Rect) -> Cow<'_, [Item]> {
    let reach = field.inset(-REACH);
    let is_near = match item {
        Item::Line { points, .. } | Item::Area { points, .. } => points.iter().all(|p| reach.contains(*p)),
        Item::Shape { rings, .. } => rings.iter().flatten().all(|p| reach.contains(*p)),
        Item::Circle { centre, radius, .. } => reach.encloses(Rect::around(*centre, *radius)),
        Item::Text { at, text, size, anchor, weight, .. } => {
            reach.contains(*at) || reach.overlaps(Rect::of_text(*at, text, *size, *anchor, *weight))
        }
        Item::Clip { .. } | Item::Unclip => true,
    };
    if is_near {
        return Cow::Borrowed(std::slice::from_ref(item));
    }
    Cow::Owned(match item {
        Item::Line { points, stroke } => lines(points, false, *stroke, reach),
        Item::Area { points, fill, stroke } => area(points, *fill, *stroke, reach),
        // Each ring is cut by the same rectangle, so that what lies within an odd number of them stays so.
        Item::Shape { rings, fill } => {
            let rings: Vec<Vec<Pt>> = rings.iter().map(|ring| polygon(ring, reach)).filter(|ring| ring.len() > 2).collect();
            if rings.is_empty() { Vec::new() } else { vec![Item::Shape { rings, fill: *fill }] }
        }
        Item::Circle { centre, radius, fill, stroke } => circle(*centre, *radius, *fill, *stroke, reach),
        Item::Text { .. } | Item::Clip { .. } | Item::Unclip => Vec::new(),
    })
}

/// What is left of a target near the field, if anything is.
pub(super) fn near_target(target: Target, field: Rect) -> Option<Target> {
    let reach = field.inset(-REACH);
    if target.shape.iter().all(|p| reach.contains(*p)) {
        return Some(target);
    }
    let shape = polygon(&target.shape, reach);
    (shape.len() > 2).then_some(Target { shape, ..target })
}

/// The part of the way from `a` to `b` that lies in a rectangle, as shares of the way; `None` if it misses it.
pub(super) fn crossing(rect: Rect, a: Pt, b: Pt) -> Option<(f64, f64)> {
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    for (step, space) in [(-dx, a.x - rect.x), (dx, rect.right() - a.x), (-dy, a.y - rect.y), (dy, rect.bottom() - a.y)] {
        if step == 0.0 {
            if space < 0.0 {
                return None;
            }
        } else if step < 0.0 {
            enters = enters.max(space / step);
        } else {
            leaves = leaves.min(space / step);
        }
    }
    (enters <= leaves).then_some((enters, leaves))
}

fn tamed(point: Pt) -> Pt {
    Pt { x: point.x.clamp(-FARTHEST, FARTHEST), y: point.y.clamp(-FARTHEST, FARTHEST) }
}

fn between(a: Pt, b: Pt, share: f64) -> Pt {
    Pt { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
}

/// A path with how far each of its corners is along it.
struct Path {
    corners: Vec<Pt>,
    along: Vec<f64>,
}

impl Path {
    fn of(points: &[Pt], is_closed: bool) -> Self {
        let last = points.first().filter(|_| is_closed);
        let corners: Vec<Pt> = points.iter().chain(last).map(|p| tamed(*p)).collect();
        let mut length = 0.0;
        let mut along = vec![0.0];
        for ends in corners.windows(2) {
            length += (ends[1].x - ends[0].x).hypot(ends[1].y - ends[0].y);
            along.push(length);
        }
        Self { corners, along }
    }

    /// Stretches of the path inside a rectangle, as distances along it.
    fn inside(&self, rect: Rect) -> Vec<(f64, f64)> {
        let mut stretches: Vec<(f64, f64)> = Vec::new();
        for (i, ends) in self.corners.windows(2).enumerate() {
            let Some((enters, leaves)) = crossing(rect, ends[0], ends[1]) else { continue };
            let (begin, length) = (self.along[i], self.along[i + 1] - self.along[i]);
            let (from, to) = (begin + enters * length, begin + leaves * length);
            match stretches.last_mut() {
                Some(before) if enters == 0.0 && before.1 == begin => before.1 = to,
                _ => stretches.push((from, to)),
            }
        }
        stretches
    }

    /// The corners and ends of a stretch.
    fn stretch(&self, from: f64, to: f64) -> Vec<Pt> {
        let first = self.along.partition_point(|along| *along <= from);
        let behind = self.along.partition_point(|along| *along < to);
        let at = |distance: f64, next: usize| {
            let next = next.clamp(1, self.corners.len() - 1);
            let length = self.along[next] - self.along[next - 1];
            let share = if length > 0.0 { (distance - self.along[next - 1]) / length } else { 0.0 };
            between(self.corners[next - 1], self.corners[next], share.clamp(0.0, 1.0))
        };
        let mut points = vec![at(from, first)];
        points.extend(self.corners.get(first..behind).unwrap_or_default());
        points.push(at(to, behind));
        points
    }
}

/// A polyline's or an outline's edge inside the reach. A piece of a broken line begins where a whole number of its patterns
/// has passed.
fn lines(points: &[Pt], is_closed: bool, stroke: Stroke, reach: Rect) -> Vec<Item> {
    let path = Path::of(points, is_closed);
    let period: f64 = dashes(stroke).iter().sum();
    let piece = |(from, to): (f64, f64)| {
        let from = if period > 0.0 { (from / period).floor() * period } else { from };
        Item::Line { points: path.stretch(from, to), stroke }
    };
    path.inside(reach).into_iter().map(piece).collect()
}

fn area(points: &[Pt], fill: Option<Fill>, stroke: Option<Stroke>, reach: Rect) -> Vec<Item> {
    let inside = polygon(points, reach);
    let mut items = Vec::new();
    if fill.is_some() && inside.len() > 2 {
        items.push(Item::Area { points: inside, fill, stroke: None });
    }
    if let Some(stroke) = stroke {
        items.extend(lines(points, true, stroke, reach));
    }
    items
}

/// A circle as the chords that are left of it.
fn circle(centre: Pt, radius: f64, fill: Option<Fill>, stroke: Option<Stroke>, reach: Rect) -> Vec<Item> {
    if !reach.overlaps(Rect::around(centre, radius)) {
        return Vec::new();
    }
    let chords = (std::f64::consts::PI * (radius / (2.0 * SAGITTA)).sqrt()).ceil().clamp(64.0, MOST_CHORDS);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "64 to 8192")]
    let count = chords as u32;
    let corner = |i: u32| {
        let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / chords).sin_cos();
        Pt { x: centre.x + radius * cos, y: centre.y + radius * sin }
    };
    let points: Vec<Pt> = (0..count).map(corner).collect();
    area(&points, fill, stroke, reach)
}

/// The part of an outline inside a rectangle: cut at one edge after the other.
fn polygon(points: &[Pt], rect: Rect) -> Vec<Pt> {
    let (left, right, top, bottom) = (rect.x, rect.right(), rect.y, rect.bottom());
    let tamed: Vec<Pt> = points.iter().map(|p| tamed(*p)).collect();
    let upright = |x: f64| move |a: Pt, b: Pt| Pt { x, ..between(a, b, (x - a.x) / (b.x - a.x)) };
    let level = |y: f64| move |a: Pt, b: Pt| Pt { y, ..between(a, b, (y - a.y) / (b.y - a.y)) };
    let cut = cut_at(&tamed, |p| p.x >= left, upright(left));
    let cut = cut_at(&cut, |p| p.x <= right, upright(right));
    let cut = cut_at(&cut, |p| p.y >= top, level(top));
    cut_at(&cut, |p| p.y <= bottom, level(bottom))
}

fn cut_at(points: &[Pt], is_inside: impl Fn(Pt) -> bool, meet: impl Fn(Pt, Pt) -> Pt) -> Vec<Pt> {
    let Some(mut before) = points.last().copied() else { return Vec::new() };
    let mut kept = Vec::with_capacity(points.len() + 4);
    for point in points {
        if is_inside(before) != is_inside(*point) {
            kept.push(meet(before, *point));
        }
        if is_inside(*point) {
            kept.push(*point);
        }
        before = *point;
    }
    kept
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::drawing::{Pattern, Role, broken};
    use crate::frameset::FrameIndex;

    const FIELD: Rect = Rect { x: 0.0, y: 0.0, width: 1000.0, height: 600.0 };
    const DASHED: Stroke = Stroke { role: Role::Ink, width: 2.0, pattern: Pattern::Frame(FrameIndex(2)), opacity: 1.0 };
    const FILL: Fill = Fill { role: Role::Ink, opacity: 1.0 };

    fn p(x: f64, y: f64) -> Pt {
        Pt { x, y }
    }

    fn corners(item: &Item) -> &[Pt] {
        match item {
            Item::Line { points, .. } | Item::Area { points, .. } => points,
            _ => &[],
        }
    }

    fn has(outline: &[Pt], at: Pt) -> bool {
        let pairs = outline.iter().zip(outline.iter().cycle().skip(1));
        let crossed = |(a, b): &(&Pt, &Pt)| (a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x);
        pairs.filter(crossed).count() % 2 == 1
    }

    #[test]
    fn what_is_near_is_left_as_it_is() {
        let line = Item::Line { points: vec![p(-399.0, 10.0), p(1399.0, 999.0)], stroke: DASHED };
        assert!(matches!(near(&line, FIELD), Cow::Borrowed(items) if items == [line.clone()]));
        let wheel = Item::Circle { centre: p(500.0, 300.0), radius: 690.0, fill: None, stroke: Some(DASHED) };
        assert!(matches!(near(&wheel, FIELD), Cow::Borrowed(_)));
    }

    #[test]
    fn dashes_stay_where_they_were() {
        // The same line begun by hand where a whole number of patterns has passed.
        let period: f64 = dashes(DASHED).iter().sum();
        let whole = Item::Line { points: vec![p(-period * 1e6, 300.0), p(1e9, 300.0)], stroke: DASHED };
        let items = near(&whole, FIELD);
        let by_hand = [p(-period * 12.0, 300.0), p(1400.0, 300.0)];
        let visible = |points: &[Pt]| {
            let pieces = broken(points, &dashes(DASHED)).unwrap();
            pieces.into_iter().filter(|[a, b]| b.x > 0.0 && a.x < 1000.0).map(|[a, b]| [a.x, b.x]).collect::<Vec<_>>()
        };
        let (cut, uncut) = (visible(corners(&items[0])), visible(&by_hand));
        assert_eq!((items.len(), cut.len()), (1, uncut.len()));
        for (a, b) in cut.iter().flatten().zip(uncut.iter().flatten()) {
            assert!((a - b).abs() < 1e-6, "{a} {b}");
        }
    }

    #[test]
    fn a_circle_around_the_field_fills_it_and_one_beside_it_is_gone() {
        let around = Item::Circle { centre: p(500.0, 300.0), radius: 1e7, fill: Some(FILL), stroke: Some(DASHED) };
        let items = near(&around, FIELD);
        assert_eq!(items.len(), 1, "no edge is near");
        assert!(has(corners(&items[0]), p(1.0, 1.0)) && has(corners(&items[0]), p(999.0, 599.0)));
        let beside = Item::Circle { centre: p(1e7, 300.0), radius: 1e6, fill: Some(FILL), stroke: Some(DASHED) };
        assert!(near(&beside, FIELD).is_empty());
        // The edge of a wheel at the largest scale: within a twentieth of a unit of where it was.
        let wheel = Item::Circle { centre: p(-14_000.0, 300.0), radius: 14_500.0, fill: None, stroke: Some(DASHED) };
        let items = near(&wheel, FIELD);
        assert!(!items.is_empty());
        for pair in items.iter().flat_map(|i| corners(i).windows(2)) {
            let middle = between(pair[0], pair[1], 0.5);
            let off = (middle.x + 14_000.0).hypot(middle.y - 300.0) - 14_500.0;
            assert!(off.abs() < 0.06, "{off}");
        }
    }

    #[test]
    fn words_far_away_are_left_out() {
        let words = |x: f64| Item::Text {
            at: p(x, 300.0),
            text: "Trail".to_owned(),
            size: 12.0,
            anchor: super::super::Anchor::Start,
            role: Role::Ink,
            weight: super::super::Weight::Regular,
        };
        assert_eq!(near(&words(-390.0), FIELD).len(), 1);
        assert_eq!(near(&words(-410.0), FIELD).len(), 1, "it reaches in");
        assert!(near(&words(-900.0), FIELD).is_empty() && near(&words(1e300), FIELD).is_empty());
    }

    proptest! {
        /// Areas hold the same places of the field as before, and nothing reaches further than it may.
        #[test]
        fn areas_cover_the_same(centre in (-3e6..3e6_f64, -3e6..3e6_f64), size in 1.0..4e6_f64,
                                at in (0.0..1000.0_f64, 0.0..600.0_f64)) {
            // A star, which is not convex.
            let points: Vec<Pt> = (0..10).map(|i| {
                let far = if i % 2 == 0 { size } else { size * 0.4 };
                let (sin, cos) = (f64::from(i) * 0.628_318).sin_cos();
                p(centre.0 + far * cos, centre.1 + far * sin)
            }).collect();
            let item = Item::Area { points: points.clone(), fill: Some(FILL), stroke: Some(DASHED) };
            let kept = near(&item, FIELD);
            let at = p(at.0, at.1);
            let is_filled = |i: &Item| matches!(i, Item::Area { points, .. } if has(points, at));
            prop_assert_eq!(has(&points, at), kept.iter().any(is_filled));
            let period: f64 = dashes(DASHED).iter().sum();
            for corner in kept.iter().flat_map(corners).filter(|_| matches!(kept, Cow::Owned(_))) {
                prop_assert!(FIELD.inset(-REACH - period - 1e-3).contains(*corner), "{:?}", corner);
            }
            prop_assert!(kept.iter().map(|i| corners(i).len()).sum::<usize>() < 60);
        }

        /// No number, however large, is more than is bounded.
        #[test]
        fn nothing_overflows(points in prop::collection::vec((-1e308..1e308_f64, -1e308..1e308_f64), 2..6),
                             radius in 1.0..1e308_f64) {
            let points: Vec<Pt> = points.into_iter().map(|(x, y)| p(x, y)).collect();
            let first = points[0];
            for item in [
                Item::Line { points: points.clone(), stroke: DASHED },
                Item::Area { points, fill: Some(FILL), stroke: Some(DASHED) },
                Item::Circle { centre: first, radius, fill: Some(FILL), stroke: Some(DASHED) },
            ] {
                let kept = near(&item, FIELD);
                for corner in kept.iter().flat_map(corners) {
                    prop_assert!(corner.x.abs() < 1e4 && corner.y.abs() < 1e4, "{:?}", corner);
                }
            }
        }
    }
}
