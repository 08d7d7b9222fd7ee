//! An outline between two others: point by point along the same tubes. A picture on the way, nobody's frame.

use super::formulas::{Point, Points};
use super::outline::{Outline, TubeOutline, Wheel};

/// The outline at `share` (0 to 1) of the way from `a` to `b`: the tubes that both have, each from its own points; wheels
/// and saddle that both have. At 0 its tubes lie where `a`'s do, at 1 where `b`'s do.
#[must_use]
pub fn outline_between(a: &Outline, b: &Outline, share: f64) -> Outline {
    let tubes = a.tubes.iter().filter_map(|from| {
        let to = b.tubes.iter().find(|t| t.tube == from.tube)?;
        Some(tube_between(from, to, share))
    });
    let wheel = |a: Option<Wheel>, b: Option<Wheel>| {
        a.zip(b).map(|(a, b)| Wheel {
            axle: point(a.axle, b.axle, share),
            tyre_radius_mm: number(a.tyre_radius_mm, b.tyre_radius_mm, share),
            rim_radius_mm: number(a.rim_radius_mm, b.rim_radius_mm, share),
        })
    };
    let saddle = if a.saddle.len() == b.saddle.len() {
        a.saddle.iter().zip(&b.saddle).map(|(a, b)| point(*a, *b, share)).collect()
    } else {
        Vec::new()
    };
    Outline {
        tubes: tubes.collect(),
        undrawn: Vec::new(),
        saddle,
        rear_wheel: wheel(a.rear_wheel, b.rear_wheel),
        front_wheel: wheel(a.front_wheel, b.front_wheel),
        shell_radius_mm: number(a.shell_radius_mm, b.shell_radius_mm, share),
        road_y: a.road_y.zip(b.road_y).map(|(a, b)| number(a, b, share)),
        points: points(&a.points, &b.points, share),
    }
}

fn number(a: f64, b: f64, share: f64) -> f64 {
    a + (b - a) * share
}

fn point(a: Point<f64>, b: Point<f64>, share: f64) -> Point<f64> {
    Point { x: number(a.x, b.x, share), y: number(a.y, b.y, share) }
}

fn points(a: &Points<f64>, b: &Points<f64>, share: f64) -> Points<f64> {
    let at = |of: fn(&Points<f64>) -> Point<f64>| point(of(a), of(b), share);
    Points {
        rear_axle: at(|p| p.rear_axle),
        front_axle: at(|p| p.front_axle),
        head_top: at(|p| p.head_top),
        head_bottom: at(|p| p.head_bottom),
        crown: at(|p| p.crown),
        seat_top: at(|p| p.seat_top),
        top_tube_front: at(|p| p.top_tube_front),
        top_tube_rear: at(|p| p.top_tube_rear),
        down_tube_front: at(|p| p.down_tube_front),
        seat_foot: at(|p| p.seat_foot),
        seat_at_stack: at(|p| p.seat_at_stack),
    }
}

/// A tube's outline is its left side from start to end and its right side back, with as many points each as its axis: so
/// points of the same share of the axis belong together, whichever of both tubes has one there.
fn tube_between(a: &TubeOutline, b: &TubeOutline, share: f64) -> TubeOutline {
    let mut shares: Vec<f64> = along(&a.axis).into_iter().chain(along(&b.axis)).collect();
    shares.sort_by(f64::total_cmp);
    shares.dedup_by(|x, y| (*x - *y).abs() < 1e-6);
    let both = |of: fn(&TubeOutline) -> Vec<Point<f64>>| {
        let (own, other) = (of(a), of(b));
        let (from, to) = (along(&a.axis), along(&b.axis));
        shares.iter().map(|s| point(at(&own, &from, *s), at(&other, &to, *s), share)).collect::<Vec<_>>()
    };
    let mut outline = both(left);
    outline.extend(both(right).into_iter().rev());
    TubeOutline {
        tube: a.tube,
        axis: both(|t| t.axis.clone()),
        outline,
        diameter_mm: number(a.diameter_mm, b.diameter_mm, share),
        is_assumed: a.is_assumed || b.is_assumed,
    }
}

fn left(tube: &TubeOutline) -> Vec<Point<f64>> {
    tube.outline.iter().take(tube.axis.len()).copied().collect()
}

fn right(tube: &TubeOutline) -> Vec<Point<f64>> {
    tube.outline.iter().rev().take(tube.axis.len()).copied().collect()
}

/// At which share of its length each point of a line lies.
fn along(line: &[Point<f64>]) -> Vec<f64> {
    let mut lengths = vec![0.0];
    for pair in line.windows(2) {
        let before = lengths.last().copied().unwrap_or_default();
        lengths.push(before + (pair[1].x - pair[0].x).hypot(pair[1].y - pair[0].y));
    }
    let whole = lengths.last().copied().unwrap_or_default().max(1e-9);
    lengths.into_iter().map(|l| l / whole).collect()
}

/// The point of a side at a share of the axis, whose points lie at `shares`.
fn at(side: &[Point<f64>], shares: &[f64], share: f64) -> Point<f64> {
    let after = shares.iter().position(|s| *s >= share - 1e-9).unwrap_or(side.len().saturating_sub(1));
    let zero = Point { x: 0.0, y: 0.0 };
    let of = |i: usize| side.get(i).or(side.last()).copied().unwrap_or(zero);
    if after == 0 {
        return of(0);
    }
    let (before, here) = (shares[after - 1], shares[after]);
    point(of(after - 1), of(after), ((share - before) / (here - before).max(1e-12)).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::SizeIndex;
    use crate::frameset::read_frameset;
    use crate::geometry::{adjust, outline};

    fn of(text: &str) -> Outline {
        let frameset = read_frameset(text.as_bytes()).unwrap();
        outline(&frameset, &adjust(&frameset), SizeIndex(1), None).unwrap()
    }

    fn two() -> (Outline, Outline) {
        let quern = of(include_str!("../../sample-frames/quern-halter.frame.ron"));
        (of(include_str!("../../sample-frames/marrowby-drift.frame.ron")), quern)
    }

    /// Farthest that a point of `a`'s tubes lies from the same tube's edge in `b`, mm.
    fn farthest(a: &Outline, b: &Outline) -> f64 {
        let mut most: f64 = 0.0;
        for tube in &a.tubes {
            let other = b.tubes.iter().find(|t| t.tube == tube.tube).unwrap();
            for p in &tube.outline {
                let edges = other.outline.iter().zip(other.outline.iter().cycle().skip(1));
                let nearest = edges.map(|(q, r)| {
                    let (dx, dy) = (r.x - q.x, r.y - q.y);
                    let t = (((p.x - q.x) * dx + (p.y - q.y) * dy) / (dx * dx + dy * dy).max(1e-12)).clamp(0.0, 1.0);
                    (q.x + t * dx - p.x).hypot(q.y + t * dy - p.y)
                });
                most = most.max(nearest.fold(f64::INFINITY, f64::min));
            }
        }
        most
    }

    #[test]
    fn it_begins_at_one_outline_and_ends_at_the_other() {
        let (a, b) = two();
        assert_eq!(a.tubes.len(), b.tubes.len());
        for (share, end) in [(0.0, &a), (1.0, &b)] {
            let between = outline_between(&a, &b, share);
            assert_eq!(between.tubes.len(), a.tubes.len());
            assert!(farthest(&between, end) < 1e-6 && farthest(end, &between) < 1e-6, "{share}");
            assert_eq!(between.front_wheel.unwrap().axle, end.front_wheel.unwrap().axle);
        }
    }

    #[test]
    fn halfway_every_point_has_gone_half_its_way_and_tubes_keep_their_thickness() {
        let (a, b) = two();
        let half = outline_between(&a, &b, 0.5);
        let middle = |p: Point<f64>, q: Point<f64>| Point { x: f64::midpoint(p.x, q.x), y: f64::midpoint(p.y, q.y) };
        let expected = middle(a.points.head_top, b.points.head_top);
        assert!((half.points.head_top.x - expected.x).hypot(half.points.head_top.y - expected.y) < 1e-9);
        for (place, tube) in half.tubes.iter().enumerate() {
            assert_eq!(tube.outline.len(), 2 * tube.axis.len(), "{:?}", tube.tube);
            let wide = |t: &TubeOutline| {
                let (l, r) = (t.outline[0], t.outline[t.outline.len() - 1]);
                (l.x - r.x).hypot(l.y - r.y)
            };
            let mean = f64::midpoint(wide(&a.tubes[place]), wide(&b.tubes[place]));
            // Two directions a few degrees apart: the chord between them is that much shorter.
            assert!((wide(tube) / mean - 1.0).abs() < 0.02, "{:?}: {} against {mean}", tube.tube, wide(tube));
        }
    }

    #[test]
    fn a_tube_that_only_one_has_is_left_out() {
        let (a, mut b) = two();
        let gone = b.tubes.pop().unwrap();
        b.front_wheel = None;
        let between = outline_between(&a, &b, 0.3);
        assert!(between.tubes.iter().all(|t| t.tube != gone.tube) && between.front_wheel.is_none());
    }
}
