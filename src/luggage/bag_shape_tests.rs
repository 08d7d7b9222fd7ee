//! A bag's outline: off the shell, above its cut line, as wide as its height says; and the band around it.

use geo::{Area, BooleanOps, MultiPolygon};

use super::bag_shape::{largest, points, polygon};
use super::plane::{bounds, contains, length, signed_area};
use super::tests::{USUAL, bag_space_of, made, plain_bag, shape};
use super::*;
use crate::frameset::Tube;
use crate::geometry::{Point, STATES, adjust};

fn square(x: f64, side: f64) -> geo::Polygon {
    polygon(&shape(&[(x, 0.0), (x + side, 0.0), (x + side, side), (x, side)]))
}

#[test]
fn the_largest_piece_counts_and_crumbs_are_no_pieces() {
    let of = |sides: &[f64]| {
        let pieces = sides.iter().zip(0u8..).map(|(side, i)| square(100.0 * f64::from(i), *side)).collect();
        largest(MultiPolygon::new(pieces)).map(|(p, others)| (p.unsigned_area(), others))
    };
    assert_eq!(of(&[]), None);
    assert_eq!(of(&[20.0]), Some((400.0, false)));
    assert_eq!(of(&[20.0, 30.0, 25.0]), Some((900.0, true)));
    // 1 cm² is a square of 10 mm.
    assert_eq!(of(&[20.0, 9.9]), Some((400.0, false)));
    assert_eq!(of(&[10.1, 20.0]), Some((400.0, true)));
    assert_eq!(of(&[9.0, 8.0]), Some((81.0, false)));
}

#[test]
fn outlines_run_counter_clockwise() {
    let l = shape(&[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]);
    assert_eq!(points(&polygon(&l)), l);
    let clockwise: Vec<Point<f64>> = l.iter().rev().copied().collect();
    assert!(signed_area(&points(&polygon(&clockwise))) > 0.0);
}

/// Tubes so thin that the shell stands in the lowest corner.
fn above_the_shell() -> BagSpace {
    let mut frameset = made(USUAL, "");
    frameset.tube_diameters.insert(Tube::DownTube, 14.0);
    frameset.tube_diameters.insert(Tube::SeatTube, 14.0);
    let bag_space = bag_space_of(&frameset).unwrap();
    assert!(bag_space.shell_intrudes);
    bag_space
}

/// The shell's 20 mm (trade practice, unverified) and the gap to the tubes are kept free about the bottom bracket.
#[test]
fn a_bag_keeps_off_the_shell_as_off_the_tubes() {
    let bag_space = above_the_shell();
    for (gap_to_tubes_mm, corner_radius_mm) in [(0.0, 0.0), (3.0, 0.0), (0.0, 3.0), (2.0, 2.0), (0.0, 5.0)] {
        let settings = BagSettings { gap_to_tubes_mm, corner_radius_mm, ..BagSettings::default() };
        let found = bag(&bag_space, &settings).unwrap();
        let free = 20.0 + gap_to_tubes_mm;
        let nearest = found.outline.iter().map(|p| length(*p)).fold(f64::INFINITY, f64::min);
        assert!((nearest - free).abs() < 1e-6, "{settings:?}: {nearest}");
        let touching = found.outline.iter().filter(|p| length(**p) < free + 1e-6).count();
        assert!(touching >= 2, "{settings:?}: an arc, not a point");
        // Two straight pieces end at it, and no piece runs through it.
        assert_eq!(found.edges.len(), 4, "{settings:?}");
        let middle = |[a, b]: [Point<f64>; 2]| Point { x: a.x.midpoint(b.x), y: a.y.midpoint(b.y) };
        assert!(found.pieces.iter().all(|(_, ends)| length(middle(*ends)) > free), "{settings:?}");
    }
    // A corner wider than the lowest one leaves the shell alone.
    let wide = bag(&bag_space, &BagSettings { gap_to_tubes_mm: 0.0, corner_radius_mm: 30.0, ..BagSettings::default() }).unwrap();
    assert!(wide.outline.iter().all(|p| length(*p) > 20.0 + 1e-3));
}

#[test]
fn a_bag_is_as_wide_as_its_height_in_the_opening_says() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    let whole = bag(&bag_space, &plain_bag()).unwrap();
    let (top, bottom) = whole.width_mm;
    assert!((top - 60.0).abs() < 1e-9 && (bottom - 45.0).abs() < 1e-9, "{top} {bottom}");
    let (low, high) = bounds(&bag_space.outline);
    for part in [0.25, 0.5] {
        let y = low.y + part * (high.y - low.y);
        let above = bag(&bag_space, &BagSettings { part: BagPart::Above(Cut::Level { above_bb_mm: y }), ..plain_bag() }).unwrap();
        assert!((above.width_mm.0 - 60.0).abs() < 1e-9 && (above.width_mm.1 - (45.0 + 15.0 * part)).abs() < 1e-6, "{above:?}");
    }
    // Wider below than above as well.
    let turned = BagSettings { gusset_top_mm: 40.0, gusset_bottom_mm: 80.0, ..plain_bag() };
    assert_eq!(bag(&bag_space, &turned).unwrap().width_mm, (40.0, 80.0));
}

/// A top tube bent far down leaves one piece in front of the bend and one behind it above a high cut line.
#[test]
fn a_cut_through_a_bend_leaves_pieces() {
    let bag_space = bag_space_of(&made(USUAL, "top_tube_bends: [(along: 0.5, off: -150.0)]")).unwrap();
    let bend = bag_space.outline.iter().zip(&bag_space.edges).filter(|(_, t)| **t == Tube::TopTube).nth(1).unwrap().0;
    let cut = |above_bb_mm| BagSettings { part: BagPart::Above(Cut::Level { above_bb_mm }), ..plain_bag() };
    let above = bag(&bag_space, &cut(bend.y + 10.0)).unwrap();
    let below = bag(&bag_space, &cut(bend.y - 40.0)).unwrap();
    assert!(above.is_in_pieces && !below.is_in_pieces);
    // The bag is the larger piece, whole on one side of the bend.
    assert!(above.outline.iter().all(|p| p.x > bend.x) || above.outline.iter().all(|p| p.x < bend.x));
}

/// The cut line runs from tube to tube, the rear end first, as low or as far below the top tube as asked.
#[test]
fn cut_lines_lie_where_they_are_asked() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    let with = |part| bag(&bag_space, &BagSettings { part, ..plain_bag() }).unwrap();
    let level = with(BagPart::Above(Cut::Level { above_bb_mm: 300.0 }));
    let [rear, front] = level.cut.unwrap();
    assert!(rear.x < front.x && (rear.y - 300.0).abs() < 1e-9 && (front.y - 300.0).abs() < 1e-9);
    let (low, _) = bounds(&level.outline);
    assert!((low.y - 300.0).abs() < 1e-6);
    let along = with(BagPart::Above(Cut::AlongTopTube { below_mm: 120.0 }));
    for p in along.cut.unwrap() {
        assert!((bag_space.below_top_tube_mm(p).unwrap() - 120.0).abs() < 1e-9);
    }
    for p in &along.outline {
        let below = bag_space.below_top_tube_mm(*p).unwrap();
        assert!(below > -1e-6 && below < 120.0 + 1e-6, "{below}");
    }
    let [from, to] = bag_space.under_top_tube().unwrap();
    assert!(from.x > to.x, "from its front end to its rear");
    assert!(bag_space.below_top_tube_mm(Point { x: 0.0, y: 0.0 }).unwrap() > 300.0);
    assert!(bag_space.below_top_tube_mm(Point { x: 0.0, y: 900.0 }).unwrap() < -200.0);
}

/// With nothing uncertain but the top tube's diameter of ± 2 mm, the band lies between the bags of frames whose top tube
/// is 4 mm thicker or thinner, which moves its lower edge by 2 mm.
#[test]
fn the_band_is_that_of_tubes_two_uncertainties_further() {
    let bag_space = |diameter: Option<f64>, u: bool| {
        let mut frameset = made(USUAL, "");
        let _ = frameset.tube_diameters.remove(&Tube::TopTube);
        frameset.tube_diameters.extend(diameter.map(|d| (Tube::TopTube, d)));
        let mut size = adjust(&frameset).sizes[0].clone();
        size.covariance = [[0.0; STATES]; STATES];
        let found = super::bag_space(&frameset, &frameset.sizes[0], &size).unwrap();
        assert_eq!(found.area_dm2.u > 0.0, u);
        found
    };
    // 28.6 mm is a steel top tube's usual diameter (trade practice, unverified).
    let (own, thick, thin) = (bag_space(None, true), bag_space(Some(32.6), false), bag_space(Some(24.6), false));
    for (edge, u) in own.edges.iter().zip(&own.edge_u_mm) {
        let expected = if *edge == Tube::TopTube { 1.0 } else { 0.0 };
        assert!(u.iter().all(|u| (u - expected).abs() < 1e-9), "{edge:?} {u:?}");
    }
    for part in [BagPart::Full, BagPart::Above(Cut::AlongTopTube { below_mm: 120.0 })] {
        let settings = BagSettings { part, ..BagSettings::default() };
        let own_bag = bag(&own, &settings).unwrap();
        let found = band(&own, &settings, &own_bag);
        for (outline, other) in [(&found.inner, &thick), (&found.outer, &thin)] {
            let other = bag(other, &settings).unwrap().outline;
            let apart = polygon(outline).xor(&polygon(&other)).unsigned_area();
            assert!(apart < 1.0, "{part:?}: {apart} mm²");
        }
    }
}

/// Around a convex bag a seam of s mm adds s times its length and π s² at its corners.
#[test]
fn a_seam_runs_all_round() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    for seam_allowance_mm in [0.0, 5.0, 12.0] {
        let settings = BagSettings { seam_allowance_mm, ..BagSettings::default() };
        let own = bag(&bag_space, &settings).unwrap();
        let seam = band(&bag_space, &settings, &own).seam;
        if seam_allowance_mm == 0.0 {
            assert_eq!(seam, own.outline);
            continue;
        }
        let around: f64 = own.around_mm.value;
        let expected =
            own.area_dm2.value * 1e4 + seam_allowance_mm * around + std::f64::consts::PI * seam_allowance_mm * seam_allowance_mm;
        assert!((signed_area(&seam) - expected).abs() < 5.0, "{seam_allowance_mm}: {} {expected}", signed_area(&seam));
        assert!(own.outline.iter().all(|p| contains(&seam, *p)));
    }
}

#[test]
fn settings_are_read_within_their_bounds() {
    for (field, low, high) in [
        ("gap_to_tubes_mm", 0.0, 60.0),
        ("corner_radius_mm", 0.0, 80.0),
        ("gusset_top_mm", 10.0, 250.0),
        ("gusset_bottom_mm", 10.0, 250.0),
        ("seam_allowance_mm", 0.0, 40.0),
    ] {
        let read = |value: String| ron::from_str::<BagSettings>(&format!("({field}: {value})"));
        for value in [low, high, f64::midpoint(low, high)] {
            assert!(read(value.to_string()).is_ok(), "{field}: {value}");
        }
        for value in [low - 0.1, high + 0.1] {
            assert!(read(value.to_string()).is_err(), "{field}: {value}");
        }
        assert!(read("NaN".to_owned()).is_err() && read("inf".to_owned()).is_err() && read("-inf".to_owned()).is_err());
    }
}
