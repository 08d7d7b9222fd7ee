//! What a bag measures, on outlines worked out by hand or summed a second way, in thin strips.

use super::along::Along;
use super::bag_measures::{Follows, Measures};
use super::plane::{edges, length, signed_area, sub};
use crate::frameset::Tube;
use crate::geometry::Point;

const PI: f64 = std::f64::consts::PI;

fn at(x: f64, y: f64) -> Point<f64> {
    Point { x, y }
}

/// Lines from each point to the next, the last to the first.
fn lines(points: &[(f64, f64)]) -> Vec<Follows<f64>> {
    let points: Vec<Point<f64>> = points.iter().map(|(x, y)| at(*x, *y)).collect();
    edges(&points).map(|edge| Follows::Line(Along::Cut, edge)).collect()
}

#[track_caller]
fn assert_close(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() < within, "{found} is not {expected}");
}

/// At each of four right-angled corners a square of the radius gives way to a quarter of a disc.
#[test]
fn a_rectangle_with_round_corners() {
    for (x, y) in [(0.0, 0.0), (-70.0, 35.0), (400.0, -250.0)] {
        let corners = [(x, y), (x + 200.0, y), (x + 200.0, y + 90.0), (x, y + 90.0)];
        for radius in [0.0, 10.0, 45.0] {
            let found = Measures::of(&lines(&corners), radius).unwrap();
            assert_close(found.area, 200.0 * 90.0 - (4.0 - PI) * radius * radius, 1e-8);
            // Where nothing is left of the upright sides, each still counts some 0.000 03 mm, so that slopes stay finite.
            assert_close(found.around, 2.0 * (200.0 + 90.0) - 8.0 * radius + 2.0 * PI * radius, 1e-4);
            assert_close(found.height, y + 45.0, 1e-9);
            assert_close(found.straight(Along::Cut), 2.0 * (200.0 + 90.0) - 8.0 * radius, 1e-4);
            assert_close(found.straight(Along::Tube(Tube::TopTube)), 0.0, 1e-12);
        }
    }
}

/// The centroid of a triangle lies at a third of its height. With round corners it is two discs' common tangents and so on:
/// summed in thin strips.
#[test]
fn a_triangle_stands_on_its_base() {
    let triangle = lines(&[(-30.0, 20.0), (270.0, 20.0), (-30.0, 420.0)]);
    let sharp = Measures::of(&triangle, 0.0).unwrap();
    assert_close(sharp.area, 60000.0, 1e-8);
    assert_close(sharp.around, 300.0 + 400.0 + 500.0, 1e-9);
    assert_close(sharp.height, 20.0 + 400.0 / 3.0, 1e-9);
    // What the corners of inside angle φ lose: area r² (cot(φ/2) − (π − φ)/2), length r (2 cot(φ/2) − (π − φ)).
    let r = 12.0;
    let round = Measures::of(&triangle, r).unwrap();
    let angles = [PI / 2.0, (400.0f64 / 300.0).atan(), (300.0f64 / 400.0).atan()];
    let cut = |phi: f64| 1.0 / (phi / 2.0).tan();
    let area: f64 = angles.iter().map(|phi| r * r * (cut(*phi) - (PI - phi) / 2.0)).sum();
    let around: f64 = angles.iter().map(|phi| r * (2.0 * cut(*phi) - (PI - phi))).sum();
    assert_close(round.area, 60000.0 - area, 1e-8);
    assert_close(round.around, 1200.0 - around, 1e-9);
    // The chords of a hundred-thousandth of a turn hold its centroid.
    let fine = round.outline(1e-3);
    let (mut area, mut moment) = (0.0, 0.0);
    for [a, b] in edges(&fine) {
        let twice = a.x * b.y - a.y * b.x;
        area += twice / 2.0;
        moment += twice * (a.y + b.y) / 6.0;
    }
    assert_close(area, round.area, 1e-3);
    assert_close(moment / area, round.height, 1e-5);
}

/// A corner that turns inwards stays sharp: an L loses at five corners and not at the sixth.
#[test]
fn an_inward_corner_stays_sharp() {
    let r = 8.0;
    let found = Measures::of(&lines(&[(0.0, 0.0), (160.0, 0.0), (160.0, 40.0), (40.0, 40.0), (40.0, 120.0), (0.0, 120.0)]), r);
    let found = found.unwrap();
    let corner = r * r * (1.0 - PI / 4.0);
    let area = 160.0 * 40.0 + 40.0 * 80.0 - 5.0 * corner;
    assert_close(found.area, area, 1e-8);
    assert_close(found.around, 2.0 * (160.0 + 120.0) - 5.0 * (2.0 - PI / 2.0) * r, 1e-9);
    // Of a corner's square less its quarter disc, the first moment about the disc's centre is r³ / 6.
    let lost = |centre: f64, side: f64| corner * centre + side * r * r * r / 6.0;
    let moment =
        160.0 * 40.0 * 20.0 + 40.0 * 80.0 * 80.0 - (2.0 * lost(r, -1.0) + lost(40.0 - r, 1.0) + 2.0 * lost(120.0 - r, 1.0));
    assert_close(found.height, moment / area, 1e-9);
}

/// Upright sides at x = −b and x = a, level top at h, and the circle of radius R about the origin below.
fn above_shell(a: f64, b: f64, h: f64, shell: f64) -> [Follows<f64>; 4] {
    [
        Follows::Line(Along::Tube(Tube::DownTube), [at(a, 0.0), at(a, 1.0)]),
        Follows::Line(Along::Tube(Tube::TopTube), [at(1.0, h), at(0.0, h)]),
        Follows::Line(Along::Tube(Tube::SeatTube), [at(-b, 1.0), at(-b, 0.0)]),
        Follows::Shell(shell),
    ]
}

/// A side at `a` with its corners: area and first moment from x = 0 to it in thin strips, and the length of its outline.
fn half_above_shell(a: f64, h: f64, shell: f64, r: f64) -> [f64; 3] {
    // The lower corner's circle touches the side from within and the shell from without.
    let x = a - r;
    let y = ((shell + r) * (shell + r) - x * x).sqrt();
    let touch = x * shell / (shell + r);
    let low =
        |at: f64| if at < touch { (shell * shell - at * at).sqrt() } else { y - (r * r - (at - x).powi(2)).max(0.0).sqrt() };
    let high = |at: f64| if at < x { h } else { h - r + (r * r - (at - x).powi(2)).max(0.0).sqrt() };
    let n = 200_000;
    let step = a / f64::from(n);
    let (mut area, mut moment) = (0.0, 0.0);
    for i in 0..n {
        let at = (f64::from(i) + 0.5) * step;
        let (low, high) = (low(at), high(at));
        area += (high - low) * step;
        moment += (high * high - low * low) / 2.0 * step;
    }
    let turn = PI - (x / (shell + r)).acos();
    let around = x + PI / 2.0 * r + (h - r - y) + turn * r + shell * (touch / shell).asin();
    [area, moment, around]
}

#[test]
fn a_bag_above_the_shell() {
    for (a, b, h, shell) in [(14.0, 9.0, 120.0, 25.0), (21.0, 20.0, 60.0, 22.0)] {
        for r in [0.0, 3.0, 5.0] {
            let found = Measures::of(&above_shell(a, b, h, shell), r).unwrap();
            let [right, left] = [a, b].map(|side| half_above_shell(side, h, shell, r));
            let area = right[0] + left[0];
            assert_close(found.area, area, 1e-4 * area);
            assert_close(found.height, (right[1] + left[1]) / area, 1e-3);
            assert_close(found.around, right[2] + left[2], 1e-9);
            assert_close(found.straight(Along::Tube(Tube::TopTube)), a + b - 2.0 * r, 1e-9);
            // Every point of the outline is off the shell, and within the lines.
            let outline = found.outline(0.01);
            for p in &outline {
                assert!(length(*p) > shell - 1e-9 && p.x < a + 1e-9 && p.x > -b - 1e-9 && p.y < h + 1e-9, "{p:?}");
            }
            assert_close(signed_area(&outline), found.area, 0.01);
            let around: f64 = edges(&outline).map(|[p, q]| length(sub(q, p))).sum();
            assert_close(around, found.around, 0.01);
        }
    }
}

/// A shell that ends below the sides' lines is met by none of them.
#[test]
fn a_shell_out_of_reach_has_no_corner() {
    assert!(Measures::of(&above_shell(14.0, 9.0, 120.0, 8.0), 0.0).is_none());
    assert!(Measures::of(&above_shell(14.0, 9.0, 120.0, 8.0), 3.0).is_none());
}

#[test]
fn chords_are_as_short_as_asked_and_no_point_comes_twice() {
    let found = Measures::of(&lines(&[(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)]), 25.0).unwrap();
    // Two half circles of 25 mm; the upright sides have no length left.
    for (chord, per_quarter) in [(0.1, 16), (0.5, 4), (2.0, 1)] {
        let outline = found.outline(chord);
        assert_eq!(outline.len(), 4 * per_quarter + 2, "{chord}");
        for p in &outline {
            let from_middle = (p.x - p.x.clamp(25.0, 75.0)).hypot(p.y - 25.0);
            assert_close(from_middle, 25.0, 1e-9);
        }
        for [p, q] in edges(&outline).filter(|[p, q]| (p.x - q.x).abs() < 49.0) {
            let chord_mm = 2.0 * 25.0 * (PI / 4.0 / per_quarter as f64).sin();
            assert!((length(sub(q, p)) - chord_mm).abs() < 1e-9 || length(sub(q, p)) < 1e-9, "{p:?} {q:?}");
        }
    }
}

#[test]
fn what_encloses_nothing_has_no_measures() {
    let clockwise = lines(&[(0.0, 0.0), (0.0, 90.0), (200.0, 90.0), (200.0, 0.0)]);
    assert!(Measures::of(&clockwise, 0.0).is_none());
    let parallel =
        [Follows::Line(Along::Cut, [at(0.0, 0.0), at(1.0, 0.0)]), Follows::Line(Along::Cut, [at(1.0, 9.0), at(0.0, 9.0)])];
    assert!(Measures::of(&parallel, 0.0).is_none() && Measures::of(&parallel, 2.0).is_none());
    assert!(Measures::of(&[Follows::Shell(20.0), Follows::Shell(30.0)], 2.0).is_none());
    assert!(Measures::of(&parallel[..1], 2.0).is_none() && Measures::<f64>::of(&[], 2.0).is_none());
    // Corners too round for the room between the lines.
    assert!(Measures::of(&lines(&[(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)]), 80.0).is_none());
}
