//! The lines of a frame's tubes that are seen: where tubes meet, the one in front hides the other's edge, as on a
//! workshop drawing.
//!
//! Method: each edge is cut where it crosses an outline in front, and a piece stays when its middle lies in none of
//! them (even-odd rule). Exact for straight edges; touching edges count as outside.

use super::rect::Rect;
use super::scene::Pt;
use crate::geometry::plane::contains;

/// A closed outline that hides what is behind it.
#[derive(Clone, Debug)]
pub(super) struct Cover {
    points: Vec<Pt>,
    bounds: Rect,
}

impl Cover {
    pub(super) fn new(points: Vec<Pt>) -> Self {
        let bounds = bounds(&points);
        Self { points, bounds }
    }

    /// A circle, as 24 corners.
    pub(super) fn disc(centre: Pt, radius: f64) -> Self {
        let corner = |i: u32| {
            let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 24.0).sin_cos();
            Pt { x: centre.x + radius * cos, y: centre.y + radius * sin }
        };
        Self::new((0..24).map(corner).collect())
    }

    fn edges(&self) -> impl Iterator<Item = (Pt, Pt)> {
        self.points.iter().zip(self.points.iter().cycle().skip(1)).map(|(a, b)| (*a, *b))
    }

    /// Whether the point lies inside, by the even-odd rule.
    fn hides(&self, p: Pt) -> bool {
        self.bounds.contains(p) && contains(&self.points, p)
    }
}

fn bounds(points: &[Pt]) -> Rect {
    let fold = |pick: fn(&Pt) -> f64, of: fn(f64, f64) -> f64, start: f64| points.iter().map(pick).fold(start, of);
    let (x, y) = (fold(|p| p.x, f64::min, f64::INFINITY), fold(|p| p.y, f64::min, f64::INFINITY));
    let (right, bottom) = (fold(|p| p.x, f64::max, f64::NEG_INFINITY), fold(|p| p.y, f64::max, f64::NEG_INFINITY));
    Rect::new(x, y, right - x, bottom - y)
}

/// The parts of a closed outline that none of `covers` hides, as polylines. An outline that nothing hides comes back
/// whole, its first point repeated at the end.
pub(super) fn seen(outline: &[Pt], covers: &[&Cover]) -> Vec<Vec<Pt>> {
    let own = bounds(outline);
    let covers: Vec<&Cover> = covers.iter().copied().filter(|c| c.bounds.overlaps(own)).collect();
    let mut runs: Vec<Vec<Pt>> = Vec::new();
    let mut goes_on = false;
    for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        for (from, to, is_seen) in pieces(*a, *b, &covers) {
            match (is_seen, goes_on, runs.last_mut()) {
                (true, true, Some(run)) => run.push(to),
                (true, ..) => runs.push(vec![from, to]),
                (false, ..) => {}
            }
            goes_on = is_seen;
        }
    }
    // The last run may go on into the first.
    if runs.len() > 1 && runs.first().and_then(|r| r.first()) == runs.last().and_then(|r| r.last()) {
        let first = runs.remove(0);
        if let Some(last) = runs.last_mut() {
            last.extend(first.into_iter().skip(1));
        }
    }
    runs
}

/// An edge in the pieces between its crossings, each with whether it is seen.
fn pieces(a: Pt, b: Pt, covers: &[&Cover]) -> Vec<(Pt, Pt, bool)> {
    let at = |t: f64| if t >= 1.0 { b } else { Pt { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t } };
    let mut cuts = vec![0.0, 1.0];
    let own = bounds(&[a, b]).inset(-1e-9);
    for cover in covers.iter().filter(|c| c.bounds.overlaps(own)) {
        cuts.extend(cover.edges().filter_map(|(c, d)| crossing(a, b, c, d)));
    }
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|x, y| (*x - *y).abs() < 1e-9);
    cuts.windows(2).map(|w| (at(w[0]), at(w[1]), !covers.iter().any(|c| c.hides(at(f64::midpoint(w[0], w[1])))))).collect()
}

/// How far along a–b it crosses c–d, strictly between 0 and 1; `None` where they are parallel or miss.
fn crossing(a: Pt, b: Pt, c: Pt, d: Pt) -> Option<f64> {
    let (rx, ry, sx, sy) = (b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y);
    let area = rx * sy - ry * sx;
    if area.abs() < 1e-12 {
        return None;
    }
    let t = ((c.x - a.x) * sy - (c.y - a.y) * sx) / area;
    let u = ((c.x - a.x) * ry - (c.y - a.y) * rx) / area;
    (t > 0.0 && t < 1.0 && (0.0..=1.0).contains(&u)).then_some(t)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Pt> {
        list.iter().map(|(x, y)| Pt { x: *x, y: *y }).collect()
    }

    fn length(runs: &[Vec<Pt>]) -> f64 {
        runs.iter().flat_map(|r| r.windows(2)).map(|w| (w[1].x - w[0].x).hypot(w[1].y - w[0].y)).sum()
    }

    #[test]
    fn what_nothing_hides_comes_back_whole() {
        let square = points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let far = Cover::new(points(&[(20.0, 0.0), (30.0, 0.0), (30.0, 10.0)]));
        let runs = seen(&square, &[&far]);
        assert_eq!(runs.len(), 1);
        assert_eq!(runs[0].len(), 5);
        assert_eq!(runs[0].first(), runs[0].last());
    }

    #[test]
    fn a_tube_that_ends_in_another_loses_its_end() {
        // A level tube 10 thick whose end stands 5 deep in an upright one: 2 × 95 of its length and one end are seen.
        let tube = points(&[(0.0, 0.0), (100.0, 0.0), (100.0, 10.0), (0.0, 10.0)]);
        let upright = Cover::new(points(&[(95.0, -50.0), (115.0, -50.0), (115.0, 60.0), (95.0, 60.0)]));
        let runs = seen(&tube, &[&upright]);
        assert_eq!(runs.len(), 1, "{runs:?}");
        assert!((length(&runs) - (2.0 * 95.0 + 10.0)).abs() < 1e-9);
        assert!(runs.iter().flatten().all(|p| p.x <= 95.0 + 1e-9));
    }

    #[test]
    fn what_is_wholly_hidden_is_gone() {
        let small = points(&[(4.0, 4.0), (6.0, 4.0), (6.0, 6.0)]);
        assert!(seen(&small, &[&Cover::disc(Pt { x: 5.0, y: 5.0 }, 4.0)]).is_empty());
    }

    #[test]
    fn a_disc_takes_its_chord_out_of_a_line() {
        // Thin tube through the middle of a disc of radius 10 (24 corners, one at each end of the diameter).
        let tube = points(&[(-50.0, 0.0), (50.0, 0.0), (50.0, 0.1), (-50.0, 0.1)]);
        let runs = seen(&tube, &[&Cover::disc(Pt { x: 0.0, y: 0.05 }, 10.0)]);
        assert_eq!(runs.len(), 2);
        assert!((length(&runs) - (2.0 * 80.0 + 0.2)).abs() < 0.1, "{}", length(&runs));
    }
}
