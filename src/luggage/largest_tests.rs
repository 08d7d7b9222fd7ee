//! The largest circle and rectangle in outlines whose answer follows by hand, or by trying everything another way.

use super::circle::largest_circle;
use super::plane::{depth, dot, left, length, signed_area, sub};
use super::rectangle::{Rectangle, largest_rectangle};
use super::tests::shape;
use crate::geometry::{Jet, Point};

/// An outline, counter-clockwise whichever way its points run.
fn outline(mut points: Vec<Point<f64>>) -> Vec<Point<f64>> {
    if signed_area(&points) < 0.0 {
        points.reverse();
    }
    points
}

/// As it is, mirrored left to right, turned upside down, and with both axes exchanged.
fn views(points: &[Point<f64>]) -> [Vec<Point<f64>>; 4] {
    let of = |f: fn(Point<f64>) -> Point<f64>| outline(points.iter().map(|p| f(*p)).collect());
    [
        of(|p| p),
        of(|p| Point { x: 100.0 - p.x, y: p.y }),
        of(|p| Point { x: p.x, y: -50.0 - p.y }),
        of(|p| Point { x: p.y, y: p.x }),
    ]
}

/// A long strip 20 mm high with ten bumps of 60 mm, one 30 mm high and the rest 24 mm: the circle stands in that one.
#[test]
fn the_widest_place_of_a_long_strip_is_found() {
    for widest in 0..10 {
        let mut points = vec![(0.0, 0.0), (1000.0, 0.0), (1000.0, 20.0)];
        for bump in (0..10).rev() {
            let (x, top) = (100.0 * f64::from(bump), if bump == widest { 30.0 } else { 24.0 });
            points.extend([(x + 83.0, 20.0), (x + 83.0, top), (x + 23.0, top), (x + 23.0, 20.0)]);
        }
        points.push((0.0, 20.0));
        for view in views(&shape(&points)) {
            let found = largest_circle(&view).unwrap();
            assert!((found.radius - 15.0).abs() < 1e-9, "{widest}: {found:?}");
            assert!((depth(&view, found.centre) - 15.0).abs() < 1e-9, "{widest}: {found:?}");
        }
    }
}

/// Steps against the axes: the rectangle is held by corners and edges, and no grid finds a deeper point.
#[test]
fn no_point_lies_deeper_than_the_largest_circle() {
    let dented = [
        shape(&[(0.0, 0.0), (420.0, 450.0), (390.0, 570.0), (130.0, 500.0), (-160.0, 520.0)]),
        shape(&[(0.0, 0.0), (300.0, 20.0), (180.0, 120.0), (310.0, 260.0), (10.0, 240.0), (90.0, 130.0)]),
        shape(&[(0.0, 0.0), (40.0, -10.0), (80.0, 5.0), (75.0, 60.0), (38.0, 31.0), (-4.0, 52.0)]),
    ];
    for points in &dented {
        for view in views(points) {
            let found = largest_circle(&view).unwrap();
            assert!((depth(&view, found.centre) - found.radius).abs() < 1e-7, "{found:?}");
            let (low, high) = super::plane::bounds(&view);
            let mut most = f64::NEG_INFINITY;
            for i in 0..=150 {
                for j in 0..=150 {
                    let at = |low: f64, high: f64, k: i32| low + (high - low) * f64::from(k) / 150.0;
                    most = most.max(depth(&view, Point { x: at(low.x, high.x, i), y: at(low.y, high.y, j) }));
                }
            }
            // The grid comes within half of its diagonal.
            let near = (high.x - low.x).hypot(high.y - low.y) / 300.0;
            assert!(found.radius > most - 1e-7 && found.radius < most + near, "{found:?} {most}");
        }
    }
}

/// Slopes of the radius by every coordinate against differences; of a circle held by a corner as by edges alone.
#[test]
fn the_circles_slopes_are_those_of_differences() {
    for points in [
        vec![(0.0, 0.0), (400.0, 30.0), (50.0, 300.0)],
        vec![(0.0, 0.0), (41.0, 2.0), (42.0, 12.0), (13.0, 11.0), (10.0, 33.0), (-1.0, 30.0)],
        vec![(0.0, 0.0), (420.0, 450.0), (390.0, 570.0), (130.0, 480.0), (-160.0, 520.0)],
    ] {
        let plain = shape(&points);
        let variables: Vec<Point<Jet<12>>> = plain
            .iter()
            .enumerate()
            .map(|(i, p)| Point { x: Jet::variable(p.x, 2 * i), y: Jet::variable(p.y, 2 * i + 1) })
            .collect();
        let exact = largest_circle(&variables).unwrap();
        for k in 0..2 * plain.len() {
            let at = |by: f64| {
                let mut moved = plain.clone();
                if k % 2 == 0 {
                    moved[k / 2].x += by;
                } else {
                    moved[k / 2].y += by;
                }
                largest_circle(&moved).unwrap().radius
            };
            let slope = (at(1e-4) - at(-1e-4)) / 2e-4;
            assert!((slope - exact.radius.gradient[k]).abs() < 1e-5, "{points:?} {k}: {slope} {:?}", exact.radius.gradient);
        }
    }
}

#[test]
fn what_has_no_area_has_neither_circle_nor_rectangle() {
    for points in [&[][..], &[(0.0, 0.0)], &[(0.0, 0.0), (5.0, 5.0)]] {
        assert!(largest_circle(&shape(points)).is_none() && largest_rectangle(&shape(points)).is_none(), "{points:?}");
    }
}

fn size(r: &Rectangle<f64>) -> f64 {
    r.width() * r.height()
}

/// Nothing of the outline lies inside, and the middle of the rectangle does.
fn is_inside(points: &[Point<f64>], r: &Rectangle<f64>) -> bool {
    let inner = [r.x[0] + 1e-4, r.x[1] - 1e-4, r.y[0] + 1e-4, r.y[1] - 1e-4];
    let corners = shape(&[(inner[0], inner[2]), (inner[1], inner[2]), (inner[1], inner[3]), (inner[0], inner[3])]);
    corners.iter().all(|p| depth(points, *p) > 0.0)
        && points.iter().all(|p| !(p.x > inner[0] && p.x < inner[1] && p.y > inner[2] && p.y < inner[3]))
}

/// Height of a chain of points, from left to right, over x.
fn height(chain: &[Point<f64>], x: f64) -> f64 {
    let piece = chain.windows(2).find(|w| x <= w[1].x).unwrap();
    piece[0].y + (piece[1].y - piece[0].y) * (x - piece[0].x) / (piece[1].x - piece[0].x)
}

/// Outlines between a lower and an upper chain, dented above or below: over any strip the rectangle reaches from the highest
/// point of the one to the lowest of the other, which lies at its sides or at a corner between them.
#[test]
fn no_rectangle_in_a_dented_outline_is_larger() {
    for (lower, upper) in [
        (vec![(0.0, 0.0), (500.0, 60.0)], vec![(0.0, 300.0), (240.0, 210.0), (500.0, 330.0)]),
        (vec![(0.0, 40.0), (150.0, 0.0), (500.0, 90.0)], vec![(0.0, 310.0), (90.0, 220.0), (380.0, 260.0), (500.0, 200.0)]),
        (vec![(0.0, 10.0), (220.0, 120.0), (600.0, 0.0)], vec![(0.0, 400.0), (600.0, 330.0)]),
        (vec![(0.0, 10.0), (300.0, 190.0), (700.0, 0.0)], vec![(0.0, 330.0), (330.0, 230.0), (700.0, 300.0)]),
    ] {
        let (lower, upper) = (shape(&lower), shape(&upper));
        let points: Vec<Point<f64>> = lower.iter().copied().chain(upper.iter().rev().copied()).collect();
        let right = lower.last().unwrap().x;
        let mut most: f64 = 0.0;
        for i in 0..120 {
            for j in i + 1..=120 {
                let (x0, x1) = (right * f64::from(i) / 120.0, right * f64::from(j) / 120.0);
                let over = |chain: &[Point<f64>]| -> Vec<f64> {
                    let between = chain.iter().filter(|p| p.x > x0 && p.x < x1).map(|p| p.y);
                    [height(chain, x0), height(chain, x1)].into_iter().chain(between).collect()
                };
                let bottom = over(&lower).into_iter().fold(f64::NEG_INFINITY, f64::max);
                let top = over(&upper).into_iter().fold(f64::INFINITY, f64::min);
                most = most.max((x1 - x0) * (top - bottom));
            }
        }
        let [own, mirrored, turned, _] = views(&points);
        for view in [own, mirrored, turned] {
            let found = largest_rectangle(&view).unwrap();
            assert!(is_inside(&view, &found), "{view:?}: {found:?}");
            assert!(size(&found) > most - 1e-6 && size(&found) < 1.02 * most, "{view:?}: {found:?} {} {most}", size(&found));
        }
    }
}

/// Lowest and highest point of a convex outline at x.
fn span(points: &[Point<f64>], x: f64) -> Option<(f64, f64)> {
    let mut found: Option<(f64, f64)> = None;
    for (a, b) in points.iter().zip(points.iter().cycle().skip(1)) {
        if (a.x - x) * (b.x - x) <= 0.0 && a.x != b.x {
            let y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
            found = Some(found.map_or((y, y), |(low, high): (f64, f64)| (low.min(y), high.max(y))));
        }
    }
    found
}

#[test]
fn no_rectangle_in_a_convex_outline_is_larger() {
    for points in [
        shape(&[(0.0, 0.0), (420.0, 450.0), (390.0, 570.0), (-160.0, 520.0)]),
        shape(&[(0.0, 0.0), (100.0, 10.0), (130.0, 80.0), (60.0, 120.0), (-20.0, 70.0)]),
        shape(&[
            (0.0, 0.0),
            (50.0, 5.0),
            (90.0, 40.0),
            (95.0, 90.0),
            (60.0, 130.0),
            (10.0, 140.0),
            (-30.0, 100.0),
            (-35.0, 45.0),
        ]),
        // Nine corners: more than every set of edges is tried for.
        outline((0..9).map(|i| (f64::from(i) * 0.69).sin_cos()).map(|(s, c)| Point { x: 300.0 * c, y: 200.0 * s }).collect()),
    ] {
        for view in views(&points) {
            let found = largest_rectangle(&view).unwrap();
            assert!(is_inside(&view, &found), "{view:?}: {found:?}");
            let (low, high) = super::plane::bounds(&view);
            let spans: Vec<Option<(f64, f64)>> =
                (0..=200).map(|i| span(&view, low.x + (high.x - low.x) * f64::from(i) / 200.0)).collect();
            let mut most: f64 = 0.0;
            for i in 0..=200_usize {
                for j in i..=200_usize {
                    if let (Some(a), Some(b)) = (spans[i], spans[j]) {
                        most = most.max((j - i) as f64 / 200.0 * (high.x - low.x) * (a.1.min(b.1) - a.0.max(b.0)));
                    }
                }
            }
            assert!(size(&found) > most - 1e-6 && size(&found) < 1.02 * most, "{view:?}: {found:?} {most}");
        }
    }
}

/// A rectangle that leans has its largest upright one on two of its edges; a circle of half its breadth.
#[test]
fn a_leaning_strip() {
    // 300 × 40 mm at a slope of 3 in 4.
    let strip = shape(&[(0.0, 0.0), (240.0, 180.0), (216.0, 212.0), (-24.0, 32.0)]);
    for view in views(&strip) {
        let circle = largest_circle(&view).unwrap();
        assert!((circle.radius - 20.0).abs() < 1e-9);
        assert!((depth(&view, circle.centre) - 20.0).abs() < 1e-9);
        // Between lines 40 mm apart, w sin + h cos = 40 mm: largest where both are 20, w = 20 / 0.6 and h = 20 / 0.8.
        let found = largest_rectangle(&view).unwrap();
        assert!((size(&found) - 20.0 / 0.6 * 20.0 / 0.8).abs() < 1e-6, "{found:?}");
        assert!(is_inside(&view, &found));
    }
    let n = left(strip[0], strip[1]);
    assert!((dot(sub(strip[2], strip[0]), n) - 40.0).abs() < 1e-9 && (length(sub(strip[1], strip[0])) - 300.0).abs() < 1e-9);
}
