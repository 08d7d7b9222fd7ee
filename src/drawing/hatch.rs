//! Hatching: parallel lines within a shape that may have openings.

use super::scene::Pt;

/// Lines at 45° within an odd number of the rings, `spacing` page units apart; rising to the right, or falling.
pub(super) fn hatched(rings: &[Vec<Pt>], spacing: f64, is_rising: bool) -> Vec<[Pt; 2]> {
    let slope = if is_rising { -1.0 } else { 1.0 };
    // A line has y = slope · x + c.
    let level = |p: &Pt| p.y - slope * p.x;
    let levels = || rings.iter().flatten().map(level);
    let (low, high) = levels().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), c| (low.min(c), high.max(c)));
    // Square to the lines they are that much nearer.
    let step = spacing * std::f64::consts::SQRT_2;
    let mut lines = Vec::new();
    if !(low.is_finite() && high.is_finite() && step > 0.0) {
        return lines;
    }
    let mut c = (low / step).ceil() * step;
    while c < high {
        let mut crossings: Vec<f64> = rings.iter().flat_map(|ring| crossings(ring, &level, c)).collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let on = |x: f64| Pt { x, y: slope * x + c };
            lines.push([on(pair[0]), on(pair[1])]);
        }
        c += step;
    }
    lines
}

/// Where a closed ring crosses the line at a level: x of each crossing.
fn crossings(ring: &[Pt], level: &impl Fn(&Pt) -> f64, c: f64) -> Vec<f64> {
    let next = ring.iter().cycle().skip(1);
    let crossing = |(a, b): (&Pt, &Pt)| {
        let (la, lb) = (level(a), level(b));
        // Half open, so that a corner on the line is one crossing or none.
        ((la <= c) != (lb <= c)).then(|| a.x + (b.x - a.x) * (c - la) / (lb - la))
    };
    ring.iter().zip(next).filter_map(crossing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatching_covers_a_square_without_its_opening() {
        let square = |low: f64, high: f64| vec![(low, low), (high, low), (high, high), (low, high)];
        let ring = |corners: Vec<(f64, f64)>| corners.into_iter().map(|(x, y)| Pt { x, y }).collect::<Vec<_>>();
        for is_rising in [true, false] {
            let rings = [ring(square(0.0, 100.0)), ring(square(40.0, 60.0))];
            let lines = hatched(&rings, 2.0, is_rising);
            let length: f64 = lines.iter().map(|[a, b]| (b.x - a.x).hypot(b.y - a.y)).sum();
            // Area = length × spacing.
            assert!((length * 2.0 - 9600.0).abs() < 250.0, "{length}");
            let in_opening = |p: Pt| (41.0..59.0).contains(&p.x) && (41.0..59.0).contains(&p.y);
            let middle = |[a, b]: &[Pt; 2]| Pt { x: f64::midpoint(a.x, b.x), y: f64::midpoint(a.y, b.y) };
            assert!(lines.iter().all(|line| !in_opening(middle(line))));
        }
        assert!(hatched(&[], 2.0, true).is_empty());
    }
}
