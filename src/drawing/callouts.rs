//! Places for callouts: blocks of words beside a drawing, each with a line to the point that it is about.
//!
//! Invariants: a block lies in the field, over no drawn line, no other words and no point that a callout is about; no
//! callout's line runs through a block or across another callout's line. What finds no such place is left out.

use super::reach::crossing;
use super::rect::Rect;
use super::scene::Pt;

/// A block of words that wants a place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Callout {
    /// The point that it is about.
    pub(super) at: Pt,
    pub(super) width: f64,
    pub(super) height: f64,
}

/// What lies around.
#[derive(Clone, Debug)]
pub(super) struct Surroundings {
    /// Where words may stand.
    pub(super) field: Rect,
    /// Lines that words must not cover.
    pub(super) lines: Vec<[Pt; 2]>,
    /// What is covered already.
    pub(super) covered: Vec<Rect>,
    /// Faint circles, as centre and radius, that words had better not cover.
    pub(super) faint: Vec<(Pt, f64)>,
}

/// Where a callout stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) rect: Rect,
    /// Where its line begins, on the block's edge.
    pub(super) from: Pt,
    cost: f64,
}

/// Free around a block, page units.
const AROUND: f64 = 6.0;
/// Least and best length of a callout's line, page units.
const LEAST_LINE: f64 = 18.0;
const BEST_LINE: f64 = 46.0;
/// What a drawn line under the callout's line, and a faint circle under its words, cost in page units of length.
const LINE_COST: f64 = 22.0;
const FAINT_COST: f64 = 60.0;
/// Places of one callout that are weighed against the others'.
const WEIGHED: usize = 300;
/// Up to so many callouts are tried in every order.
const ALL_ORDERS: usize = 4;

/// A place for each callout, `None` where there is none; the first are served first where not all find one.
pub(super) fn placed(callouts: &[Callout], around: &Surroundings) -> Vec<Option<Spot>> {
    let choices: Vec<Vec<Spot>> = callouts.iter().map(|callout| spots(callout, callouts, around)).collect();
    let mut best: Option<(usize, f64, Vec<Option<Spot>>)> = None;
    for order in orders(callouts.len()) {
        let spots = in_order(callouts, &choices, &order);
        let count = spots.iter().flatten().count();
        let cost: f64 = spots.iter().flatten().map(|spot| spot.cost).sum();
        if best.as_ref().is_none_or(|(most, least, _)| count > *most || (count == *most && cost < *least)) {
            best = Some((count, cost, spots));
        }
    }
    best.map(|(_, _, spots)| spots).unwrap_or_default()
}

/// The orders in which places are given away: all of a few, else the order given.
fn orders(count: usize) -> Vec<Vec<usize>> {
    if count > ALL_ORDERS {
        return vec![(0..count).collect()];
    }
    let mut orders: Vec<Vec<usize>> = vec![Vec::new()];
    for next in 0..count {
        let longer = orders.iter().flat_map(|order| {
            (0..=order.len()).rev().map(|at| {
                let mut longer = order.clone();
                longer.insert(at, next);
                longer
            })
        });
        orders = longer.collect();
    }
    orders
}

/// Each callout in turn at its best place that those before it leave free.
fn in_order(callouts: &[Callout], choices: &[Vec<Spot>], order: &[usize]) -> Vec<Option<Spot>> {
    let mut taken: Vec<Option<Spot>> = vec![None; callouts.len()];
    for i in order {
        let is_free = |spot: &&Spot| {
            taken
                .iter()
                .zip(callouts)
                .all(|(other, callout)| other.is_none_or(|other| are_apart(spot, callouts[*i].at, &other, callout.at)))
        };
        taken[*i] = choices[*i].iter().find(is_free).copied();
    }
    taken
}

/// Whether two callouts do not touch.
fn are_apart(a: &Spot, a_at: Pt, b: &Spot, b_at: Pt) -> bool {
    let free = |rect: Rect| rect.inset(-AROUND);
    !free(a.rect).overlaps(b.rect)
        && crossing(free(a.rect), b.from, b_at).is_none()
        && crossing(free(b.rect), a.from, a_at).is_none()
        && !cross([a.from, a_at], [b.from, b_at])
}

/// Whether two lines cross. Lines that end at one point do not.
fn cross(a: [Pt; 2], b: [Pt; 2]) -> bool {
    let side = |from: Pt, to: Pt, p: Pt| (to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x);
    let apart = |line: [Pt; 2], other: [Pt; 2]| side(line[0], line[1], other[0]) * side(line[0], line[1], other[1]) < 0.0;
    apart(a, b) && apart(b, a)
}

/// The places of one callout, the best first.
fn spots(callout: &Callout, all: &[Callout], around: &Surroundings) -> Vec<Spot> {
    let field = around.field;
    let step = (callout.height / 3.0).clamp(6.0, 20.0);
    let count = |space: f64| {
        let steps = (space / step).floor().clamp(-1.0, 2000.0) + 1.0;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "steps across a page")]
        let steps = steps as usize;
        steps
    };
    let (across, down) = (count(field.width - callout.width), count(field.height - callout.height));
    let mut found = Vec::new();
    for row in 0..down {
        for column in 0..across {
            let corner = Pt { x: field.x + column as f64 * step, y: field.y + row as f64 * step };
            let rect = Rect::new(corner.x, corner.y, callout.width, callout.height);
            found.extend(spot(rect, callout, all, around));
        }
    }
    found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    found.truncate(WEIGHED);
    found
}

/// A callout at a place, with what the place costs; `None` where it cannot stand.
fn spot(rect: Rect, callout: &Callout, all: &[Callout], around: &Surroundings) -> Option<Spot> {
    let free = rect.inset(-AROUND);
    let from = Pt { x: callout.at.x.clamp(rect.x, rect.right()), y: callout.at.y.clamp(rect.y, rect.bottom()) };
    let length = (callout.at.x - from.x).hypot(callout.at.y - from.y);
    let is_free = length >= LEAST_LINE
        && !all.iter().any(|other| free.contains(other.at))
        && !around.covered.iter().any(|covered| covered.overlaps(free) || crossing(*covered, from, callout.at).is_some())
        && !around.lines.iter().any(|[a, b]| crossing(free, *a, *b).is_some());
    if !is_free {
        return None;
    }
    let crossed = around.lines.iter().filter(|line| cross(**line, [from, callout.at])).count();
    let faint = around.faint.iter().filter(|(centre, radius)| is_on_circle(free, *centre, *radius)).count();
    let cost = (length - BEST_LINE).abs() + LINE_COST * crossed as f64 + FAINT_COST * faint as f64;
    Some(Spot { rect, from, cost })
}

/// Whether a circle's line runs through a rectangle.
fn is_on_circle(rect: Rect, centre: Pt, radius: f64) -> bool {
    let distance = |x: f64, y: f64| (x - centre.x).hypot(y - centre.y);
    let nearest = distance(centre.x.clamp(rect.x, rect.right()), centre.y.clamp(rect.y, rect.bottom()));
    let farthest = rect.corners().iter().map(|p| distance(p.x, p.y)).fold(0.0, f64::max);
    nearest <= radius && radius <= farthest
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const FIELD: Rect = Rect { x: 50.0, y: 40.0, width: 900.0, height: 520.0 };

    fn point() -> impl Strategy<Value = Pt> {
        (60.0..940.0, 50.0..550.0).prop_map(|(x, y)| Pt { x, y })
    }

    fn surroundings() -> impl Strategy<Value = Surroundings> {
        let line = (point(), -160.0..160.0, -160.0..160.0).prop_map(|(a, dx, dy)| [a, Pt { x: a.x + dx, y: a.y + dy }]);
        let rect = (point(), 20.0..160.0, 10.0..80.0).prop_map(|(at, width, height)| Rect::new(at.x, at.y, width, height));
        let circle = (point(), 30.0..200.0);
        let of = |lines, covered, faint| Surroundings { field: FIELD, lines, covered, faint };
        (prop::collection::vec(line, 0..14), prop::collection::vec(rect, 0..4), prop::collection::vec(circle, 0..3))
            .prop_map(move |(lines, covered, faint)| of(lines, covered, faint))
    }

    fn callouts() -> impl Strategy<Value = Vec<Callout>> {
        let callout = (point(), 60.0..260.0, 20.0..60.0).prop_map(|(at, width, height)| Callout { at, width, height });
        prop::collection::vec(callout, 0..6)
    }

    /// Points along a line, a page unit apart.
    fn along(a: Pt, b: Pt) -> Vec<Pt> {
        let length = (b.x - a.x).hypot(b.y - a.y);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of points")]
        let count = length.ceil().max(1.0) as usize;
        let at = |i: usize| i as f64 / count as f64;
        (0..=count).map(|i| Pt { x: a.x + (b.x - a.x) * at(i), y: a.y + (b.y - a.y) * at(i) }).collect()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(96))]

        #[test]
        fn callouts_overlap_nothing_and_stay_in_the_field(callouts in callouts(), around in surroundings()) {
            let spots = placed(&callouts, &around);
            prop_assert_eq!(spots.len(), callouts.len());
            let standing: Vec<(Spot, Pt)> =
                spots.iter().zip(&callouts).filter_map(|(spot, callout)| Some(((*spot)?, callout.at))).collect();
            for (i, (spot, at)) in standing.iter().enumerate() {
                prop_assert!(around.field.encloses(spot.rect));
                prop_assert!(!around.covered.iter().any(|covered| covered.overlaps(spot.rect)));
                prop_assert!(!callouts.iter().any(|callout| spot.rect.contains(callout.at)));
                for [a, b] in &around.lines {
                    prop_assert!(!along(*a, *b).iter().any(|p| spot.rect.contains(*p)), "words over a line");
                }
                for (j, (other, other_at)) in standing.iter().enumerate().filter(|(j, _)| *j != i) {
                    prop_assert!(!spot.rect.overlaps(other.rect), "{i} over {j}");
                    prop_assert!(!along(other.from, *other_at).iter().any(|p| spot.rect.contains(*p)), "line {j} through {i}");
                    prop_assert!(!cross([spot.from, *at], [other.from, *other_at]));
                }
            }
        }
    }

    #[test]
    fn a_lone_callout_stands_beside_its_point() {
        let around = Surroundings { field: FIELD, lines: Vec::new(), covered: Vec::new(), faint: Vec::new() };
        let callout = Callout { at: Pt { x: 500.0, y: 300.0 }, width: 200.0, height: 40.0 };
        let [Some(spot)] = placed(&[callout], &around)[..] else { panic!("no place in an empty field") };
        assert!((spot.from.x - 500.0).hypot(spot.from.y - 300.0) < 80.0, "{spot:?}");
    }

    #[test]
    fn a_callout_without_room_is_left_out_and_the_others_stand() {
        let around = Surroundings { field: FIELD, lines: Vec::new(), covered: Vec::new(), faint: Vec::new() };
        let of = |width| Callout { at: Pt { x: 500.0, y: 300.0 }, width, height: 40.0 };
        let spots = placed(&[of(1200.0), of(200.0)], &around);
        assert!(spots[0].is_none() && spots[1].is_some());
    }

    #[test]
    fn lines_that_cross_are_seen_to_cross() {
        let p = |x, y| Pt { x, y };
        assert!(cross([p(0.0, 0.0), p(10.0, 10.0)], [p(0.0, 10.0), p(10.0, 0.0)]));
        assert!(!cross([p(0.0, 0.0), p(10.0, 10.0)], [p(0.0, 10.0), p(4.0, 6.0)]));
        assert!(!cross([p(0.0, 0.0), p(10.0, 0.0)], [p(10.0, 0.0), p(20.0, 5.0)]));
    }
}
