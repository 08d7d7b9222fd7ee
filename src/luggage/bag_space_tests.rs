//! The opening's measures against what its tubes and outline say.

use geo::{Distance, Euclidean};

use super::bag_shape::polygon;
use super::plane::{contains, distance_to_segment, edges, length, sub};
use super::tests::{USUAL, bag_space_of, bag_spaces, made};
use super::*;
use crate::frameset::{SizeIndex, Tube};
use crate::geometry::{Outline, Point, adjust, outline};

const BENT: &str =
    "top_tube_bends: [(along: 0.35, off: -28.0), (along: 0.8, off: -20.0)], seat_tube_bends: [(along: 0.3, off: 9.0)]";

/// Distance of a point from the nearest piece of a tube's axis.
fn off_axis(side_view: &Outline, tube: Tube, p: Point<f64>) -> f64 {
    let axis = &side_view.tubes.iter().find(|t| t.tube == tube).unwrap().axis;
    axis.windows(2).map(|w| distance_to_segment(p, [w[0], w[1]])).fold(f64::INFINITY, f64::min)
}

/// The middle of each edge lies half a diameter off its tube's axis, as the side view draws it.
#[test]
fn edges_lie_half_a_diameter_off_their_axes() {
    for more in ["", BENT] {
        let frameset = made(USUAL, more);
        let side_view = outline(&frameset, &adjust(&frameset), SizeIndex(0), None).unwrap();
        let bag_space = bag_space_of(&frameset).unwrap();
        assert_eq!(bag_space.outline.len(), if more.is_empty() { 4 } else { 7 });
        for ([a, b], tube) in edges(&bag_space.outline).zip(&bag_space.edges) {
            let middle = Point { x: a.x.midpoint(b.x), y: a.y.midpoint(b.y) };
            let expected = frameset.tube_diameters[tube] / 2.0;
            let found = off_axis(&side_view, *tube, middle);
            assert!((found - expected).abs() < 1e-6, "{more} {tube:?}: {found} {expected}");
        }
        // Within the opening no tube is nearer than its own half.
        let circle = bag_space.circle.unwrap();
        for tube in AROUND {
            let off = off_axis(&side_view, tube, circle.centre) - frameset.tube_diameters[&tube] / 2.0;
            assert!(off > circle.diameter_mm.value / 2.0 - 1e-6, "{more} {tube:?}: {off}");
        }
    }
}

/// Sides are as long as their edges, and corners as open as the edges beside them: in any simple outline inside angles
/// make 180° for every corner but two, bends of a tube included.
#[test]
fn sides_and_corners_are_those_of_the_outline() {
    for (name, bag_space) in bag_spaces().into_iter().chain([("bent".to_owned(), bag_space_of(&made(USUAL, BENT)).unwrap())]) {
        let around: f64 = edges(&bag_space.outline).map(|[a, b]| length(sub(b, a))).sum();
        let sides: f64 = bag_space.sides.iter().map(|s| s.length_mm.value).sum();
        assert!((around - sides).abs() < 1e-6, "{name}");
        for side in &bag_space.sides {
            let own = edges(&bag_space.outline).zip(&bag_space.edges).filter(|(_, t)| **t == side.tube);
            let length: f64 = own.map(|([a, b], _)| length(sub(b, a))).sum();
            assert!((length - side.length_mm.value).abs() < 1e-6, "{name} {:?}", side.tube);
            assert_eq!(bag_space.side(side.tube), Some(side));
        }
        let n = bag_space.outline.len();
        let mut angles = 0.0;
        for i in 0..n {
            let (a, b, c) = (bag_space.outline[(i + n - 1) % n], bag_space.outline[i], bag_space.outline[(i + 1) % n]);
            // By the law of cosines; more than half a turn where what lies between its sides is outside.
            let (u, v, w) = (length(sub(a, b)), length(sub(c, b)), length(sub(c, a)));
            let angle = ((u * u + v * v - w * w) / (2.0 * u * v)).clamp(-1.0, 1.0).acos().to_degrees();
            let inside = Point { x: a.x.midpoint(c.x), y: a.y.midpoint(c.y) };
            let towards = Point { x: b.x + (inside.x - b.x) * 1e-4, y: b.y + (inside.y - b.y) * 1e-4 };
            let angle = if contains(&bag_space.outline, towards) { angle } else { 360.0 - angle };
            angles += angle;
            if bag_space.edges[(i + n - 1) % n] != bag_space.edges[i] {
                let corner = bag_space.corner(bag_space.edges[i], bag_space.edges[(i + n - 1) % n]).unwrap();
                assert!((corner.angle_deg.value - angle).abs() < 1e-6, "{name} {corner:?} {angle}");
                assert_eq!(corner.at, b, "{name} {corner:?}");
                assert_eq!(
                    bag_space.corner(corner.between.0, corner.between.1),
                    bag_space.corner(corner.between.1, corner.between.0)
                );
            }
        }
        assert!((angles - 180.0 * (n as f64 - 2.0)).abs() < 1e-3, "{name}: {angles}");
    }
}

/// Straight above the bottom bracket the opening ends at the top tube.
#[test]
fn height_above_the_bottom_bracket_ends_the_opening() {
    for (name, bag_space) in bag_spaces().into_iter().chain([("bent".to_owned(), bag_space_of(&made(USUAL, BENT)).unwrap())]) {
        let Some(height) = bag_space.height_above_bb_mm else { panic!("{name}: the top tube reaches over the bottom bracket") };
        assert!(contains(&bag_space.outline, Point { x: 0.0, y: height.value - 0.01 }), "{name}");
        assert!(!contains(&bag_space.outline, Point { x: 0.0, y: height.value + 0.01 }), "{name}");
        assert!(height.value > 250.0 && height.u > 0.0 && height.u < 30.0, "{name}: {height:?}");
    }
}

/// The shell's 20 mm (trade practice, unverified) reach into an opening whose lowest corner is nearer.
#[test]
fn the_shell_intrudes_where_the_opening_begins_within_its_radius() {
    let mut both = [false; 2];
    for (name, bag_space) in bag_spaces() {
        let nearest = Euclidean.distance(&geo::Point::new(0.0, 0.0), &polygon(&bag_space.outline));
        assert_eq!(bag_space.shell_intrudes, nearest < 20.0, "{name}: {nearest}");
        both[usize::from(bag_space.shell_intrudes)] = true;
    }
    for (diameter, intrudes) in [(14.0, true), (40.0, false)] {
        let mut frameset = made(USUAL, "");
        frameset.tube_diameters.insert(Tube::DownTube, diameter);
        frameset.tube_diameters.insert(Tube::SeatTube, diameter);
        assert_eq!(bag_space_of(&frameset).unwrap().shell_intrudes, intrudes, "{diameter}");
    }
    assert!(both[1] || both[0]);
}

/// A thicker tube takes from the opening what it gains on its own side, half its gain wide.
#[test]
fn a_thicker_tube_leaves_less() {
    let thin = bag_space_of(&made(USUAL, "")).unwrap();
    for tube in AROUND {
        let mut frameset = made(USUAL, "");
        *frameset.tube_diameters.get_mut(&tube).unwrap() += 2.0;
        let thick = bag_space_of(&frameset).unwrap();
        let lost = (thin.area_dm2.value - thick.area_dm2.value) * 1e4;
        let side = thin.side(tube).unwrap().length_mm.value;
        assert!((lost - side).abs() < 4.0, "{tube:?}: {lost} {side}");
    }
}

#[test]
fn the_rectangle_lies_in_the_opening_as_wide_and_high_as_it_says() {
    for (name, bag_space) in bag_spaces().into_iter().chain([("bent".to_owned(), bag_space_of(&made(USUAL, BENT)).unwrap())]) {
        let r = bag_space.rectangle.unwrap();
        assert!((r.to.x - r.from.x - r.width_mm.value).abs() < 1e-9, "{name}");
        assert!((r.to.y - r.from.y - r.height_mm.value).abs() < 1e-9, "{name}");
        assert!((r.width_mm.value * r.height_mm.value * 1e-4 - r.area_dm2.value).abs() < 1e-9, "{name}");
        for (x, y) in [(r.from.x, r.from.y), (r.to.x, r.from.y), (r.from.x, r.to.y), (r.to.x, r.to.y)] {
            let middle = Point { x: r.from.x.midpoint(r.to.x), y: r.from.y.midpoint(r.to.y) };
            let inner = Point { x: x + (middle.x - x) * 1e-4, y: y + (middle.y - y) * 1e-4 };
            assert!(contains(&bag_space.outline, inner), "{name} {x} {y}");
        }
    }
}

/// Where a table can be explained in two ways, the likelier one has the space of the frame that it alone gives.
#[test]
fn the_likeliest_explanation_has_its_own_space() {
    // By the other figures it would be 584 mm.
    let frameset = made(&format!("{USUAL}, EffectiveTopTube: 570"), "");
    let adjusted = adjust(&frameset);
    let size = &adjusted.sizes[0];
    let (chance, alone) = size.by_likeliest_alone().unwrap();
    let space = |size| bag_space(&frameset, &frameset.sizes[0], size).unwrap().area_dm2;
    let (averaged, by_it) = (space(size), space(&alone));
    let found = averaged.likeliest().unwrap();
    assert!(found.chance == chance && chance < 1.0, "{found:?}");
    let apart = (by_it.value - averaged.value).abs();
    assert!(apart > 0.02, "{averaged:?} {by_it:?}");
    assert!((found.value - by_it.value).abs() < 0.2 * apart, "{found:?} {by_it:?}");
    assert!((found.u - by_it.u).abs() < 0.1 * by_it.u, "{found:?} {by_it:?}");
}
