//! Lines, mitres and outlines of the plane with answers by hand.

use super::plane::*;
use super::tests::shape;
use crate::geometry::Point;

fn at(x: f64, y: f64) -> Point<f64> {
    Point { x, y }
}

#[track_caller]
fn assert_at(found: Point<f64>, x: f64, y: f64) {
    assert!((found.x - x).hypot(found.y - y) < 1e-9, "{found:?} is not at {x}, {y}");
}

#[test]
fn lines_meet_where_they_cross_and_parallels_nowhere() {
    let (s, t, p) = meet([at(1.0, 1.0), at(5.0, 1.0)], [at(4.0, 0.0), at(4.0, 8.0)]).unwrap();
    assert!((s - 0.75).abs() < 1e-12 && (t - 0.125).abs() < 1e-12);
    assert_at(p, 4.0, 1.0);
    // Beyond an end the part is above 1, before the start below 0.
    let (s, t, p) = meet([at(0.0, 0.0), at(2.0, 2.0)], [at(5.0, 6.0), at(5.0, 8.0)]).unwrap();
    assert!((s - 2.5).abs() < 1e-12 && (t + 0.5).abs() < 1e-12);
    assert_at(p, 5.0, 5.0);
    // The limit is an angle, 10⁻⁹, whatever the lengths are.
    for length in [1e-2, 1.0, 1e4] {
        let level = [at(0.0, 0.0), at(length, 0.0)];
        let leaning = |angle: f64| [at(0.0, length), at(length, length * (1.0 + angle))];
        assert!(meet(level, leaning(1e-8)).is_some() && meet(level, leaning(-1e-8)).is_some(), "{length}");
        assert!(meet(level, leaning(1e-10)).is_none() && meet(level, leaning(-1e-10)).is_none(), "{length}");
    }
}

#[test]
fn a_line_beside_another_keeps_its_distance_round_corners() {
    // A right angle to the left and one to the right; the mitre lies on both moved lines.
    let found = beside(&shape(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]), 2.0);
    for (p, (x, y)) in found.iter().zip([(0.0, 2.0), (8.0, 2.0), (8.0, 10.0)]) {
        assert_at(*p, x, y);
    }
    let found = beside(&shape(&[(0.0, 0.0), (10.0, 0.0), (10.0, -10.0)]), 2.0);
    for (p, (x, y)) in found.iter().zip([(0.0, 2.0), (12.0, 2.0), (12.0, -10.0)]) {
        assert_at(*p, x, y);
    }
    // Whatever the turn, each moved point is 2 mm off the line before it and the line after it.
    let line = shape(&[(0.0, 0.0), (30.0, 4.0), (50.0, 20.0), (80.0, 15.0)]);
    let moved = beside(&line, 2.0);
    assert_eq!(moved.len(), line.len());
    for (i, ends) in line.windows(2).enumerate() {
        for p in [moved[i], moved[i + 1]] {
            assert!((dot(sub(p, ends[0]), left(ends[0], ends[1])) - 2.0).abs() < 1e-9, "{i} {p:?}");
        }
    }
    assert!(beside(&line[..1], 2.0).is_empty());
}

#[test]
fn turns_tell_convex_outlines_from_dented_ones() {
    let square = shape(&[(0.0, 0.0), (7.0, 0.0), (7.0, 3.0), (0.0, 3.0)]);
    assert!((0..4).all(|i| (turn(&square, i) - 1.0).abs() < 1e-12), "the sine of a right angle, whatever the sides");
    let l = shape(&[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]);
    assert!((turn(&l, 3) + 1.0).abs() < 1e-12);
    // Sides of 10 and 4 mm that turn by 30°: sine ½.
    let (sin, cos) = 30f64.to_radians().sin_cos();
    let bent = shape(&[(-10.0, 0.0), (0.0, 0.0), (4.0 * cos, 4.0 * sin)]);
    assert!((turn(&bent, 1) - 0.5).abs() < 1e-12);
    assert!(is_convex(&square) && !is_convex(&l));
    // A corner in a straight side turns by nothing.
    assert!(is_convex(&shape(&[(0.0, 0.0), (3.0, 0.0), (7.0, 0.0), (7.0, 3.0), (0.0, 3.0)])));
    assert!(!is_convex(&shape(&[(0.0, 0.0), (3.0, 0.001), (7.0, 0.0), (7.0, 3.0), (0.0, 3.0)])));
}

#[test]
fn the_nearest_point_of_a_segment_lies_beside_it_or_at_an_end() {
    let segment = [at(1.0, 2.0), at(7.0, 2.0)];
    for (x, y, distance) in [(4.0, 5.0, 3.0), (1.0, 0.0, 2.0), (-2.0, -2.0, 5.0), (10.0, 6.0, 5.0)] {
        assert!((distance_to_segment(at(x, y), segment) - distance).abs() < 1e-12, "{x} {y}");
    }
    let square = shape(&[(0.0, 0.0), (7.0, 0.0), (7.0, 3.0), (0.0, 3.0)]);
    for (x, y, expected) in [(1.0, 1.2, 1.0), (3.0, 1.2, 1.2), (3.0, -2.0, -2.0), (10.0, 7.0, -5.0)] {
        assert!((depth(&square, at(x, y)) - expected).abs() < 1e-12, "{x} {y}");
    }
}

#[test]
fn an_outline_lies_within_its_bounds_and_has_the_sign_of_its_way_round() {
    let l = shape(&[(-3.0, 5.0), (4.0, 5.0), (4.0, 6.0), (1.0, 6.0), (1.0, 9.0), (-3.0, 9.0)]);
    let (low, high) = bounds(&l);
    assert_at(low, -3.0, 5.0);
    assert_at(high, 4.0, 9.0);
    // 7 × 1 and 4 × 3.
    assert!((signed_area(&l) - 19.0).abs() < 1e-12);
    let reversed: Vec<_> = l.into_iter().rev().collect();
    assert!((signed_area(&reversed) + 19.0).abs() < 1e-12);
    assert_eq!(signed_area::<f64>(&[]), 0.0);
}

/// Systems made from their solutions.
#[test]
fn systems_are_solved_or_singular() {
    let solution = [3.0, -2.0, 0.5, 7.0];
    for scale in [1e-6, 1.0, 1e6] {
        let matrix = [[0.0, 2.0, 1.0, 3.0], [4.0, 1.0, 0.0, -2.0], [1.0, 1.0, 5.0, 0.0], [0.0, 3.0, 1.0, 1.0]]
            .map(|r| r.map(|v: f64| v * scale));
        let right = |row: &[f64; 4]| row.iter().zip(solution).map(|(a, x)| a * x).sum::<f64>();
        let mut rows: Vec<Vec<f64>> = matrix.iter().map(|row| row.iter().copied().chain([right(row)]).collect()).collect();
        for (found, expected) in solve(&mut rows).unwrap().into_iter().zip(solution) {
            assert!((found - expected).abs() < 1e-9, "{found} {expected}");
        }
        // The third equation is the sum of the others.
        let mut singular = vec![vec![1.0, 2.0, 3.0, 1.0], vec![4.0, 5.0, 6.0, 2.0], vec![5.0, 7.0, 9.0, 3.0]];
        singular.iter_mut().flatten().for_each(|v| *v *= scale);
        assert!(solve(&mut singular).is_none(), "{scale}");
        let mut nearly = vec![vec![scale, 0.0, scale], vec![0.0, scale * 1e-8, scale]];
        assert!(solve(&mut nearly).is_some(), "{scale}");
        let mut too_nearly = vec![vec![scale, 0.0, scale], vec![0.0, scale * 1e-12, scale]];
        assert!(solve(&mut too_nearly).is_none(), "{scale}");
    }
}
