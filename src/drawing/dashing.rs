//! A broken line as the straight pieces of its dashes, for a toolkit that paints whole lines only.

use super::scene::Pt;

/// How far a dash may pass beside a bend of its line, page units: less than anybody sees.
const STRAIGHT: f64 = 0.2;
/// How many dashes a line has at most: more cannot be told apart on any screen.
const MOST_DASHES: f64 = 20_000.0;

/// The dashes of a polyline, each as straight pieces: dash, gap, dash, gap … of these lengths (page units, an even number
/// of them). A dash is broken at a bend only where it would leave it by more than a fifth of a unit: a wheel's edge takes a
/// piece a dash, not one more for each of its chords. `None` for a line that has more dashes than can be seen, no dashes or
/// no finite length: it is to be drawn whole.
///
/// Each dash begins where its number says, not where the one before it ended, so that no rounding adds up.
#[must_use]
pub fn broken(path: &[Pt], lengths: &[f64]) -> Option<Vec<[Pt; 2]>> {
    let mut along = vec![0.0];
    let mut whole = 0.0;
    for ends in path.windows(2) {
        whole += distance(ends[0], ends[1]);
        along.push(whole);
    }
    let period: f64 = lengths.iter().sum();
    let in_period = lengths.len() / 2;
    let count = (whole / period).ceil() * in_period as f64;
    if path.len() < 2 || in_period == 0 || !(period > 0.0 && count <= MOST_DASHES) {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most 20,000")]
    let count = count as usize;
    let starts: Vec<f64> = (0..in_period).map(|i| lengths[..2 * i].iter().sum()).collect();
    let mut pieces = Vec::with_capacity(count);
    let mut segment = 0;
    for dash in 0..count {
        let (place, round) = (dash % in_period, (dash / in_period) as f64);
        let from = round * period + starts[place];
        let to = (from + lengths[2 * place]).min(whole);
        if from >= whole {
            break;
        }
        while segment + 2 < along.len() && along[segment + 1] <= from {
            segment += 1;
        }
        let at = |distance: f64, segment: usize| {
            let length = along[segment + 1] - along[segment];
            let share = if length > 0.0 { ((distance - along[segment]) / length).clamp(0.0, 1.0) } else { 0.0 };
            let (a, b) = (path[segment], path[segment + 1]);
            Pt { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
        };
        let mut begin = at(from, segment);
        let mut reached = segment;
        while reached + 2 < along.len() && along[reached + 1] < to {
            let corner = path[reached + 1];
            if beside(begin, corner, path[reached + 2], to - along[reached + 1]) > STRAIGHT {
                pieces.push([begin, corner]);
                begin = corner;
            }
            reached += 1;
        }
        pieces.push([begin, at(to, reached)]);
    }
    Some(pieces)
}

fn distance(a: Pt, b: Pt) -> f64 {
    (b.x - a.x).hypot(b.y - a.y)
}

/// How far the straight way from `begin` to `left` behind `corner`, towards `next`, passes beside the corner.
fn beside(begin: Pt, corner: Pt, next: Pt, left: f64) -> f64 {
    let behind = distance(corner, next);
    let (long, short) = (distance(begin, corner), behind.min(left));
    let cross = (corner.x - begin.x) * (next.y - corner.y) - (corner.y - begin.y) * (next.x - corner.x);
    if long + short > 0.0 && behind > 0.0 { cross.abs() / behind * short / (long + short) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> Pt {
        Pt { x, y }
    }

    #[test]
    fn dashes_break_at_corners_and_run_over_a_wheels_chords() {
        let straight = broken(&[p(0.0, 0.0), p(10.0, 0.0)], &[3.0, 2.0]);
        assert_eq!(straight, Some(vec![[p(0.0, 0.0), p(3.0, 0.0)], [p(5.0, 0.0), p(8.0, 0.0)]]));
        let corner = broken(&[p(0.0, 0.0), p(4.0, 0.0), p(4.0, 4.0)], &[6.0, 1.0]);
        assert_eq!(corner, Some(vec![[p(0.0, 0.0), p(4.0, 0.0)], [p(4.0, 0.0), p(4.0, 2.0)], [p(4.0, 3.0), p(4.0, 4.0)]]));
        let wheel: Vec<Pt> = (0..=100)
            .map(|i| {
                let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / 100.0).sin_cos();
                p(200.0 * cos, 200.0 * sin)
            })
            .collect();
        let pieces = broken(&wheel, &[8.0, 4.0]).unwrap();
        let around: f64 = wheel.windows(2).map(|w| distance(w[0], w[1])).sum();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "about a hundred")]
        let dashes = (around / 12.0).ceil() as usize;
        assert_eq!(pieces.len(), dashes, "a piece a dash");
        assert!(pieces.iter().flatten().all(|p| (p.x.hypot(p.y) - 200.0).abs() < 0.3), "on the wheel");
    }

    #[test]
    fn a_line_without_dashes_or_with_too_many_is_drawn_whole() {
        let line = [p(0.0, 0.0), p(10.0, 0.0)];
        assert_eq!(broken(&line, &[0.0, 0.0]), None);
        assert_eq!(broken(&line, &[]), None);
        assert_eq!(broken(&[], &[3.0, 2.0]), None);
        assert_eq!(broken(&line, &[f64::NAN, 1.0]), None);
        assert_eq!(broken(&[p(0.0, 0.0), p(1e9, 0.0)], &[3.0, 2.0]), None);
        assert_eq!(broken(&[p(-1e308, 0.0), p(1e308, 0.0)], &[3.0, 2.0]), None);
        assert_eq!(broken(&[p(0.0, 0.0), p(f64::NAN, 0.0)], &[3.0, 2.0]), None);
    }

    #[test]
    fn far_out_dashes_are_as_long_as_at_home() {
        // At 16 million a single-precision number cannot take a step of a third.
        let far = 16_777_216.0;
        let pieces = broken(&[p(far, far), p(far + 100.0, far)], &[0.3, 0.3]).unwrap();
        assert_eq!(pieces.len(), 167);
        assert!(pieces[..166].iter().all(|[a, b]| (b.x - a.x - 0.3).abs() < 1e-6));
    }
}
