//! The room and what goes into it, on frames with known answers and on the sample frames.

use geo::algorithm::buffer::{BufferStyle, LineJoin};
use geo::{Area, BooleanOps, Buffer, Centroid};

use super::bag_shape::{Shape, largest, polygon};
use super::plane::{bounds, contains, edges, length, signed_area, sub};
use super::*;
use crate::frameset::{Frameset, Junctions, SizeIndex, Tube, read_frameset};
use crate::geometry::{Adjusted, Outline, Point, Quantity, adjust, outline};

pub(super) fn shape(points: &[(f64, f64)]) -> Vec<Point<f64>> {
    points.iter().map(|(x, y)| Point { x: *x, y: *y }).collect()
}

fn samples() -> Vec<Frameset> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-frames");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    files
        .iter()
        .filter(|p| p.to_string_lossy().ends_with(".frame.ron"))
        .map(|p| read_frameset(&std::fs::read(p).unwrap()).unwrap())
        .collect()
}

pub(super) fn bag_spaces() -> Vec<(String, BagSpace)> {
    let mut bag_spaces = Vec::new();
    for frameset in samples() {
        let adjusted = adjust(&frameset);
        for (printed, size) in frameset.sizes.iter().zip(&adjusted.sizes) {
            if let Ok(found) = bag_space(&frameset, printed, size) {
                bag_spaces.push((format!("{} {}", frameset.name(), size.label), found));
            }
        }
    }
    assert!(bag_spaces.len() > 15, "{}", bag_spaces.len());
    bag_spaces
}

/// One size whose figures are all printed; `more` is put into the size, `junctions` all stated or none.
pub(super) fn made(figures: &str, more: &str) -> Frameset {
    let text = format!(
        "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", printed_to: (mm: 1.0, deg: 0.1), tyre: \"47-622\",
         tube_diameters: {{TopTube: 28.6, DownTube: 34.9, SeatTube: 28.6, HeadTube: 40.0}},
         sizes: [(label: \"M\", figures: {{ {figures} }}, {more})])"
    );
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e}"))
}

pub(super) const USUAL: &str = "Stack: 610, Reach: 398, HeadAngle: 71.5, SeatAngle: 73.0, HeadTube: 148, SeatTube: 520, ForkLengthAlong: 430, \
                     ForkOffset: 49, Chainstay: 445, BbDrop: 67";

pub(super) fn bag_space_of(frameset: &Frameset) -> Result<BagSpace, NoOpening> {
    let Adjusted { sizes, .. } = adjust(frameset);
    bag_space(frameset, &frameset.sizes[0], &sizes[0])
}

/// Areas, centroids and insets with mitred joints by shapely 2.2.0 (GEOS 3.14.1); the triangle's and the L's also
/// by hand: A (1 − d/r)², and 4.64, 2.16.
#[test]
fn areas_and_insets_as_shapely_finds_them() {
    let triangle = shape(&[(0.0, 0.0), (400.0, 0.0), (0.0, 300.0)]);
    let quadrilateral = shape(&[(0.0, 0.0), (-160.0, 520.0), (390.0, 570.0), (420.0, 450.0)]);
    let trapezium = shape(&[(0.0, 0.0), (600.0, 0.0), (500.0, 200.0), (100.0, 200.0)]);
    let l = shape(&[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]);
    assert!((signed_area(&quadrilateral) + 178950.0).abs() < 1e-9);
    for (outline, area, (x, y), insets) in [
        (&triangle, 60000.0, (400.0 / 3.0, 100.0), [(10.0, 48600.0), (30.0, 29400.0)]),
        (&quadrilateral, 178950.0, (111.184688460464, 359.167365185806), [(10.0, 161030.373906767), (30.0, 127807.479711168)]),
        (&trapezium, 100000.0, (300.0, 280.0 / 3.0), [(10.0, 85975.077640500), (30.0, 60608.514494501)]),
        (&l, 6.0, (1.5, 1.0), [(0.1, 4.64), (0.3, 2.16)]),
    ] {
        assert!((signed_area(outline).abs() - area).abs() < 1e-9);
        let centroid = polygon(outline).centroid().unwrap();
        assert!((centroid.x() - x).abs() < 1e-9 && (centroid.y() - y).abs() < 1e-9, "{centroid:?}");
        for (d, inset) in insets {
            let shrunk = polygon(outline).buffer_with_style(BufferStyle::new(-d).line_join(LineJoin::Miter(0.02)));
            let found = shrunk.unsigned_area();
            assert!((found - inset).abs() < 1e-6 * area, "{d}: {found} {inset}");
        }
    }
}

#[test]
fn every_sample_has_a_room_or_a_reason() {
    for frameset in samples() {
        let adjusted = adjust(&frameset);
        for (printed, size) in frameset.sizes.iter().zip(&adjusted.sizes) {
            match bag_space(&frameset, printed, size) {
                Ok(bag_space) => {
                    let area = bag_space.area_dm2;
                    assert!((5.0..25.0).contains(&area.value) && area.u > 0.0 && area.u < 2.0, "{} {area:?}", size.label);
                    let circle = bag_space.circle.unwrap();
                    assert!(contains(&bag_space.outline, circle.centre));
                    let rectangle = bag_space.rectangle.unwrap();
                    assert!(rectangle.area_dm2.value < area.value && rectangle.area_dm2.value > 0.3 * area.value);
                    let angles: f64 = bag_space.corners.iter().map(|c| c.angle_deg.value).sum();
                    let bends = bag_space.outline.len() - bag_space.corners.len();
                    if bends == 0 {
                        assert!((angles - 180.0 * (bag_space.corners.len() as f64 - 2.0)).abs() < 1e-9);
                    }
                    assert!(bag_space.sides.iter().all(|s| s.length_mm.value > 0.0 && s.length_mm.u.is_finite()));
                }
                Err(why) => assert!(!why.code().is_empty()),
            }
        }
    }
}

/// The exact gradients against differences of whole rooms, by every quantity of the state.
#[test]
fn gradients_are_those_of_the_room_itself() {
    for more in ["", "top_tube_bends: [(along: 0.35, off: -28.0)]"] {
        let frameset = made(USUAL, more);
        let adjusted = adjust(&frameset);
        let size = &adjusted.sizes[0];
        let of = |size: &crate::geometry::AdjustedSize| {
            let bag_space = bag_space(&frameset, &frameset.sizes[0], size).unwrap();
            let rectangle = bag_space.rectangle.unwrap();
            vec![
                bag_space.area_dm2.value,
                bag_space.circle.unwrap().diameter_mm.value / 100.0,
                rectangle.area_dm2.value,
                rectangle.width_mm.value / 100.0,
                bag_space.height_above_bb_mm.unwrap().value / 100.0,
                bag_space.sides[2].length_mm.value / 100.0,
                bag_space.corners[0].angle_deg.value,
            ]
        };
        for quantity in Quantity::ALL {
            // A covariance of one in this quantity alone makes each u the size of its slope.
            let mut alone = size.clone();
            alone.covariance = [[0.0; crate::geometry::STATES]; crate::geometry::STATES];
            alone.covariance[quantity.index()][quantity.index()] = 1.0;
            let exact = bag_space(&frameset, &frameset.sizes[0], &alone).unwrap();
            let rectangle = exact.rectangle.unwrap();
            let slopes = [
                exact.area_dm2.u,
                exact.circle.unwrap().diameter_mm.u / 100.0,
                rectangle.area_dm2.u,
                rectangle.width_mm.u / 100.0,
                exact.height_above_bb_mm.unwrap().u / 100.0,
                exact.sides[2].length_mm.u / 100.0,
                exact.corners[0].angle_deg.u,
            ];
            let (mut up, mut down) = (size.clone(), size.clone());
            up.state.0[quantity.index()] += 1e-3;
            down.state.0[quantity.index()] -= 1e-3;
            for (k, ((a, b), slope)) in of(&up).iter().zip(of(&down)).zip(slopes).enumerate() {
                let difference = ((a - b) / 2e-3).abs();
                assert!((difference - slope).abs() < 2e-5 * (1.0 + slope), "{more} {quantity:?} {k}: {difference} {slope}");
            }
        }
    }
}

#[test]
fn a_measured_junction_does_what_the_advice_says() {
    let frameset = made(USUAL, "");
    let before = bag_space_of(&frameset).unwrap();
    assert_eq!(before.helps[0].measure, Measurement::Junction(crate::geometry::Assumption::TopTubeBelowSeatTubeTop));
    let mut measured = frameset.clone();
    measured.sizes[0].junctions = Junctions { top_tube_below_seat_tube_top: Some(35.0), ..Junctions::default() };
    let after = bag_space_of(&measured).unwrap();
    assert!((after.area_dm2.u - before.helps[0].area_u_dm2).abs() < 2e-3 * after.area_dm2.u, "{:?}", after.area_dm2);
}

/// Each measurement that would help, tried: the frame is adjusted anew with it, and none that is not named helps more.
#[test]
fn the_first_advice_is_the_best_of_all_that_could_be_measured() {
    let mut assumed = made(USUAL, "");
    assumed.tube_diameters.clear();
    let before = bag_space_of(&assumed).unwrap();
    let assumptions = [
        crate::geometry::Assumption::TopTubeBelowHeadTubeTop,
        crate::geometry::Assumption::TopTubeBelowSeatTubeTop,
        crate::geometry::Assumption::DownTubeAboveHeadTubeBottom,
    ];
    let all = assumptions.map(Measurement::Junction).into_iter().chain(AROUND.map(Measurement::Diameter));
    let mut tried: Vec<(Measurement, f64)> = Vec::new();
    for measurement in all {
        let mut measured = assumed.clone();
        let junctions = &mut measured.sizes[0].junctions;
        match measurement {
            Measurement::Junction(crate::geometry::Assumption::TopTubeBelowHeadTubeTop) => {
                junctions.top_tube_below_head_tube_top = Some(30.0);
            }
            Measurement::Junction(crate::geometry::Assumption::TopTubeBelowSeatTubeTop) => {
                junctions.top_tube_below_seat_tube_top = Some(35.0);
            }
            Measurement::Junction(_) => junctions.down_tube_above_head_tube_bottom = Some(40.0),
            Measurement::Diameter(tube) => {
                let (value, _) = crate::geometry::diameter_mm(&assumed, tube);
                measured.tube_diameters.insert(tube, value);
            }
        }
        tried.push((measurement, bag_space_of(&measured).unwrap().area_dm2.u));
    }
    tried.sort_by(|a, b| a.1.total_cmp(&b.1));
    assert_eq!(tried.len(), 7);
    assert_eq!(before.helps[0].measure, tried[0].0);
    let limit = 0.9 * before.area_dm2.u;
    let worth_it: Vec<Measurement> = tried.iter().filter(|(_, u)| *u <= limit).map(|(m, _)| *m).collect();
    assert_eq!(before.helps.iter().map(|h| h.measure).collect::<Vec<_>>(), worth_it);
    for (help, (_, u)) in before.helps.iter().zip(&tried) {
        // A diameter that is typed counts as exact, one that the advice speaks of as read to the millimetre.
        assert!((help.area_u_dm2 - u).abs() < 0.01 * u, "{help:?} {u}");
    }
}

#[test]
fn an_assumed_diameter_widens_the_plus_minus() {
    let given = made(USUAL, "");
    let mut assumed = given.clone();
    assumed.tube_diameters.remove(&Tube::TopTube);
    let (given, assumed) = (bag_space_of(&given).unwrap(), bag_space_of(&assumed).unwrap());
    assert!(assumed.area_dm2.u > given.area_dm2.u);
    assert_eq!(assumed.assumed_diameters, vec![Tube::TopTube]);
    // The edge moves by half of what the diameter does, along the whole side.
    let side = given.side(Tube::TopTube).unwrap().length_mm.value;
    let added = (assumed.area_dm2.u.powi(2) - given.area_dm2.u.powi(2)).sqrt();
    assert!((added - side * ASSUMED_DIAMETER_U_MM / 2.0 * 1e-4).abs() < 0.02 * added, "{added}");
}

#[test]
fn degenerate_frames_get_a_clear_answer() {
    let no_seat_tube = made(&USUAL.replace("SeatTube: 520, ", ""), "");
    let why = bag_space_of(&no_seat_tube).unwrap_err();
    assert_eq!(why, NoOpening::NoSeatTubeJunction);
    let no_head = made(&USUAL.replace("HeadTube: 148, ", "").replace("HeadAngle: 71.5, ", ""), "");
    let why = bag_space_of(&no_head).unwrap_err();
    assert!(matches!(&why, NoOpening::Missing(figures) if figures.contains(&crate::frameset::Figure::HeadTube)), "{why:?}");
    // A head tube of 60 mm has both tubes at the same place: they cross. (The fork is left to follow.)
    let free = USUAL.replace("ForkLengthAlong: 430, ", "");
    let crossing = made(&free.replace("HeadTube: 148", "HeadTube: 60"), "");
    let why = bag_space_of(&crossing).unwrap_err();
    assert_eq!(why, NoOpening::Crossing(Tube::TopTube, Tube::DownTube));
    // A short head tube between thick tubes does not show: three sides.
    let short = made(&free.replace("HeadTube: 148", "HeadTube: 82"), "");
    let three = bag_space_of(&short).unwrap();
    assert_eq!((three.sides.len(), three.outline.len(), three.side(Tube::HeadTube)), (3, 3, None));
    // A seat tube so short that the top tube would meet it below the down tube.
    let low = made(&USUAL.replace("SeatTube: 520", "SeatTube: 200"), "junctions: (top_tube_below_seat_tube_top: 190.0)");
    match bag_space_of(&low) {
        Ok(bag_space) => assert!(signed_area(&bag_space.outline) > 0.0),
        Err(why) => assert!(matches!(why, NoOpening::Crossing(..)), "{why:?}"),
    }
    let bent = bag_space_of(&made(USUAL, "top_tube_bends: [(along: 0.5, off: -40.0)]")).unwrap();
    let straight = bag_space_of(&made(USUAL, "")).unwrap();
    assert_eq!(bent.outline.len(), 5);
    assert!(bent.area_dm2.value < straight.area_dm2.value - 0.8);
}

#[test]
fn turning_changes_no_area_and_no_circle() {
    let bag_space = bag_space_of(&made(USUAL, "top_tube_bends: [(along: 0.5, off: 25.0)]")).unwrap();
    for angle in [0.3f64, 1.7, 4.0] {
        let (sin, cos) = angle.sin_cos();
        let turned: Vec<Point<f64>> =
            bag_space.outline.iter().map(|p| Point { x: p.x * cos - p.y * sin, y: p.x * sin + p.y * cos }).collect();
        assert!((signed_area(&turned) * 1e-4 - bag_space.area_dm2.value).abs() < 1e-10);
        let circle = super::circle::largest_circle(&turned).unwrap();
        assert!((2.0 * circle.radius - bag_space.circle.unwrap().diameter_mm.value).abs() < 1e-7);
    }
}

pub(super) fn plain_bag() -> BagSettings {
    BagSettings { gap_to_tubes_mm: 0.0, corner_radius_mm: 0.0, ..BagSettings::default() }
}

/// A full bag without clearance and round corners is the opening, with the opening's own u.
#[test]
fn the_plainest_bag_is_the_opening() {
    for (name, bag_space) in bag_spaces() {
        let bag = bag(&bag_space, &plain_bag()).unwrap();
        if bag_space.shell_intrudes {
            // The bottom bracket shell takes a bite out of the lowest corner: less than its own disc.
            let bite = bag_space.area_dm2.value - bag.area_dm2.value;
            assert!(bite > 0.0 && bite < 0.1257, "{name}: {bite}");
            continue;
        }
        assert!((bag.area_dm2.value - bag_space.area_dm2.value).abs() < 1e-6, "{name}");
        assert!(
            (bag.area_dm2.u - bag_space.area_dm2.u).abs() < 1e-3 * bag_space.area_dm2.u,
            "{name}: {:?} {:?}",
            bag.area_dm2,
            bag_space.area_dm2
        );
        for edge in &bag.edges {
            let Along::Tube(tube) = edge.along else { panic!("{name}: a cut line in a full bag") };
            let side = bag_space.side(tube).unwrap().length_mm;
            assert!((edge.length_mm.value - side.value).abs() < 1e-3, "{name} {tube:?}");
            assert!((edge.length_mm.u - side.u).abs() < 1e-2 * side.u + 1e-3, "{name} {tube:?}: {:?} {side:?}", edge.length_mm);
        }
    }
}

/// Exact construction for a convex opening: the mitred inset less, at each corner of inside angle φ, what the arc of
/// radius r cuts off: r² (cot(φ/2) − (π − φ)/2).
#[test]
fn round_corners_as_constructed() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    let sharp = bag(&bag_space, &BagSettings { corner_radius_mm: 0.0, ..BagSettings::default() }).unwrap();
    let round = bag(&bag_space, &BagSettings::default()).unwrap();
    let cut: f64 = bag_space
        .corners
        .iter()
        .map(|c| {
            let phi = c.angle_deg.value.to_radians();
            15.0 * 15.0 * (1.0 / (phi / 2.0).tan() - (std::f64::consts::PI - phi) / 2.0)
        })
        .sum();
    let found = (sharp.area_dm2.value - round.area_dm2.value) * 1e4;
    assert!((found - cut).abs() < 1.5, "{found} {cut}");
}

#[test]
fn bags_lie_in_their_openings_and_grow_with_less_clearance() {
    let parts =
        [BagPart::Full, BagPart::Above(Cut::Level { above_bb_mm: 330.0 }), BagPart::Above(Cut::AlongTopTube { below_mm: 130.0 })];
    for (name, bag_space) in bag_spaces() {
        for part in parts {
            let mut before: Option<Bag> = None;
            for gap_to_tubes_mm in [12.0, 8.0, 5.0, 2.0, 0.0] {
                let settings = BagSettings { part, gap_to_tubes_mm, ..BagSettings::default() };
                let Ok(bag) = bag(&bag_space, &settings) else { continue };
                let outside = polygon(&bag.outline).difference(&polygon(&bag_space.outline)).unsigned_area();
                assert!(outside < 0.01, "{name} {settings:?}: {outside}");
                assert!(bag.litres.value > 0.0 && bag.litres.u.is_finite());
                if let Some(before) = before {
                    assert!(bag.area_dm2.value >= before.area_dm2.value - 1e-9, "{name} {settings:?}");
                    assert!(bag.litres.value >= before.litres.value - 1e-9, "{name} {settings:?}");
                }
                before = Some(bag);
            }
        }
    }
}

/// Upper and lower half make the whole, in area and in litres (without round corners, which a cut adds two of).
#[test]
fn half_and_rest_make_the_whole() {
    for (name, bag_space) in bag_spaces() {
        let sharp = BagSettings { corner_radius_mm: 0.0, ..BagSettings::default() };
        let whole = bag(&bag_space, &sharp).unwrap();
        // Of the shell the outlines hold chords, which lie up to an eighth of their squared angle inside of it.
        let chords = if bag_space.shell_intrudes { std::f64::consts::TAU * 25.0 * 25.0 * 0.01 / 8.0 * 1e-4 } else { 1e-6 };
        let (low, high) = bounds(&whole.outline);
        for part in [0.2, 0.5, 0.8] {
            let y = low.y + (high.y - low.y) * part;
            let above = bag(&bag_space, &BagSettings { part: BagPart::Above(Cut::Level { above_bb_mm: y }), ..sharp }).unwrap();
            let below: Vec<Point<f64>> = shape(&[(-2000.0, -2000.0), (2000.0, -2000.0), (2000.0, y), (-2000.0, y)]);
            let below = polygon(&whole.outline).intersection(&polygon(&below));
            let outlines = [&above.outline, &whole.outline].map(|o| signed_area(o));
            assert!((outlines[0] + below.unsigned_area() - outlines[1]).abs() < 0.01, "{name} {part}");
            let rest = below.unsigned_area() * 1e-4;
            assert!((above.area_dm2.value + rest - whole.area_dm2.value).abs() < chords, "{name} {part}");
            // The width changes evenly with height, so that the mean width is the one at the centroid.
            let at = (below.centroid().unwrap().y() - low.y) / (high.y - low.y);
            let (top_mm, bottom_mm) = whole.width_mm;
            let litres = rest * (bottom_mm + at * (top_mm - bottom_mm)) / 100.0;
            assert!((above.litres.value + litres - whole.litres.value).abs() < chords, "{name} {part}");
            let cut = above.edges.iter().find(|e| e.along == Along::Cut).unwrap();
            let [rear, front] = above.cut.unwrap();
            assert!(cut.length_mm.value < front.x - rear.x && cut.length_mm.value > front.x - rear.x - 40.0);
        }
    }
}

/// A bag's measures against the polygon library's, of the outline that the library itself cut out: area, centroid and
/// circumference, to what chords of a tenth of a radian take off an arc; and their slopes against differences.
#[test]
fn measures_are_those_of_the_outline() {
    let mut dice = 20261126_u64;
    let mut part_of_one = || {
        // Numerical Recipes' ranqd1 has too few bits; this is Knuth's MMIX generator.
        dice = dice.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (dice >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut bag_spaces: Vec<(String, BagSpace)> = bag_spaces();
    for off in [-40.0, -15.0, 12.0, 30.0] {
        let more = format!("top_tube_bends: [(along: 0.4, off: {off})], seat_tube_bends: [(along: 0.3, off: 8.0)]");
        bag_spaces.push((more.clone(), bag_space_of(&made(USUAL, &more)).unwrap()));
    }
    assert!(bag_spaces.iter().any(|(_, r)| r.shell_intrudes) && bag_spaces.iter().any(|(_, r)| !r.shell_intrudes));
    let (mut tried, mut with_shell) = (0, 0);
    for (name, bag_space) in &bag_spaces {
        for _ in 0..40 {
            let part = match part_of_one() {
                x if x < 0.25 => BagPart::Full,
                x if x < 0.5 => BagPart::Above(Cut::AlongTopTube { below_mm: 300.0 * part_of_one() }),
                _ => BagPart::Above(Cut::Level { above_bb_mm: 520.0 * part_of_one() - 20.0 }),
            };
            let corner_radius_mm = (50.0 * part_of_one() - 10.0).max(0.0);
            let gap_to_tubes_mm = (25.0 * part_of_one() - 5.0).max(0.0);
            let settings = BagSettings { part, gap_to_tubes_mm, corner_radius_mm, ..BagSettings::default() };
            let shape = Shape::of(bag_space, &settings);
            let what = format!("{name} {settings:?}");
            let Ok((core, _)) = shape.core(&bag_space.outline) else { continue };
            let (exact, _) = shape.cut_out(&bag_space.outline).unwrap_or_else(|why| panic!("{what}: {why:?}"));
            // The library's own round corners.
            let rounded = core.buffer_with_style(BufferStyle::new(corner_radius_mm).line_join(LineJoin::Round(0.1)));
            let library = if corner_radius_mm > 0.0 { largest(rounded).unwrap().0 } else { core };
            // A chord of angle φ takes r² φ³ / 12 off its arc's area and r φ³ / 24 off its length; the library's are up to
            // 0.12 rad, because a corner has a whole number of them.
            let shell = if bag_space.shell_intrudes { 20.0 + gap_to_tubes_mm } else { 0.0 };
            let turn = std::f64::consts::TAU * 0.12 * 0.12;
            let area = turn * (corner_radius_mm.powi(2) + shell.powi(2)) / 12.0 + 0.2;
            let outline = exact.outline(0.1);
            assert!((exact.area - signed_area(&outline)).abs() < area, "{what}: {} {}", exact.area, signed_area(&outline));
            assert!((exact.area - library.unsigned_area()).abs() < area, "{what}: {} {}", exact.area, library.unsigned_area());
            let height = library.centroid().unwrap().y();
            assert!((exact.height - height).abs() < 0.02, "{what}: {} {height}", exact.height);
            let differs = polygon(&outline).xor(&library).unsigned_area();
            assert!(differs < 2.0 * area, "{what}: {differs}");
            let length: f64 = edges(&outline).map(|[a, b]| length(sub(b, a))).sum();
            let around = turn * (corner_radius_mm + shell) / 24.0 + 1e-6;
            assert!((exact.around - length).abs() < around, "{what}: {} {length}", exact.around);
            tried += 1;
            with_shell += u32::from(bag_space.shell_intrudes && matches!(part, BagPart::Full));
        }
    }
    assert!(tried > 500 && with_shell > 20, "{tried} {with_shell}");
}

/// The u of a bag's measures: slopes by each corner of the opening against differences of bags that the library cut out.
#[test]
fn slopes_are_those_of_the_bag_itself() {
    for (name, bag_space) in bag_spaces() {
        for part in [
            BagPart::Full,
            BagPart::Above(Cut::Level { above_bb_mm: 310.0 }),
            BagPart::Above(Cut::AlongTopTube { below_mm: 130.0 }),
        ] {
            let settings = BagSettings { part, ..BagSettings::default() };
            let shape = Shape::of(&bag_space, &settings);
            let Ok((exact, _)) = shape.cut_out(&bag_space.dual) else { continue };
            let litres = shape.litres(&bag_space.dual, &exact);
            // The library's, by differences: moving a corner of the opening, chained with the corner's own gradient.
            let step = 0.05;
            let mut slopes = [exact.area, exact.around].map(|d| d.gradient.map(|_| 0.0));
            let mut moved = bag_space.outline.clone();
            for (k, corner) in bag_space.dual.iter().enumerate() {
                for (is_x, coordinate) in [(true, corner.x), (false, corner.y)] {
                    let mut at = |by: f64| {
                        moved[k] = bag_space.outline[k];
                        if is_x {
                            moved[k].x += by;
                        } else {
                            moved[k].y += by;
                        }
                        let (core, _) = shape.core(&moved).unwrap();
                        moved[k] = bag_space.outline[k];
                        let bag = core.buffer_with_style(BufferStyle::new(15.0).line_join(LineJoin::Round(0.1)));
                        let around = bag.0[0].exterior().lines().map(|l| l.dx().hypot(l.dy())).sum();
                        [bag.unsigned_area(), around]
                    };
                    let (up, down) = (at(step), at(-step));
                    for (slope, (up, down)) in slopes.iter_mut().zip(up.into_iter().zip(down)) {
                        for (s, c) in slope.iter_mut().zip(&coordinate.gradient) {
                            *s += (up - down) / (2.0 * step) * c;
                        }
                    }
                }
            }
            for (which, (exact, found)) in [exact.area, exact.around].into_iter().zip(slopes).enumerate() {
                let scale = exact.gradient.iter().map(|g| g.abs()).fold(0.0, f64::max);
                for (a, b) in exact.gradient.iter().zip(found) {
                    assert!((a - b).abs() < 5e-3 * scale + 1e-3, "{name} {part:?} {which}: {a} {b}");
                }
            }
            assert!(litres.gradient.iter().all(|g| g.is_finite()) && litres.value > 0.0);
        }
    }
}

/// A prism of even width: litres = dm² × dm.
#[test]
fn litres_of_an_even_width() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    let settings = BagSettings { gusset_top_mm: 50.0, gusset_bottom_mm: 50.0, ..BagSettings::default() };
    let bag = bag(&bag_space, &settings).unwrap();
    assert!((bag.litres.value - bag.area_dm2.value * 0.5).abs() < 1e-9);
    assert!((bag.litres.u - bag.area_dm2.u * 0.5).abs() < 1e-6);
    assert_eq!(bag.width_mm, (50.0, 50.0));
}

#[test]
fn the_band_holds_the_outline() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    let with = |settings: BagSettings| {
        let bag = bag(&bag_space, &settings).unwrap();
        (band(&bag_space, &settings, &bag), bag)
    };
    let (around, bag) = with(BagSettings::default());
    let area = |o: &[Point<f64>]| signed_area(o);
    assert!(area(&around.inner) < area(&bag.outline) && area(&bag.outline) < area(&around.outer));
    assert!(polygon(&around.inner).difference(&polygon(&around.outer)).unsigned_area() < 1e-3);
    assert!((area(&around.in_both) - area(&around.inner)).abs() < 1.0);
    assert!(polygon(&bag.outline).difference(&polygon(&around.seam)).unsigned_area() < 1e-3);
    // A cut that follows the top tube moves with it: neither edge holds the other.
    let part = BagPart::Above(Cut::AlongTopTube { below_mm: 130.0 });
    let (around, _) = with(BagSettings { part, ..BagSettings::default() });
    assert!(area(&around.in_both) < area(&around.inner).min(area(&around.outer)) - 100.0);
    for edge in [&around.inner, &around.outer] {
        assert!(polygon(&around.in_both).difference(&polygon(edge)).unsigned_area() < 1e-3);
    }
}

#[test]
fn too_tight_bags_say_so() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    // What is clear of the tubes and has round corners holds a circle of the corners' radius: no larger one fits than the
    // largest of the opening, less the clearance.
    let largest = bag_space.circle.unwrap().diameter_mm.value / 2.0;
    let with = |corner_radius_mm: f64| {
        let gap_to_tubes_mm = largest - 60.0;
        bag(&bag_space, &BagSettings { gap_to_tubes_mm, corner_radius_mm, ..BagSettings::default() })
    };
    assert!(with(59.0).is_ok_and(|b| b.area_dm2.value > 0.0));
    let why = with(61.0).unwrap_err();
    assert_eq!(why, NoBag::TooTight { clearance: largest - 60.0, radius: 61.0 });
    let above = BagSettings { part: BagPart::Above(Cut::Level { above_bb_mm: 900.0 }), ..BagSettings::default() };
    assert_eq!(bag(&bag_space, &above).unwrap_err(), NoBag::NothingAboveCut);
}

/// A cage whose boss is measured.
pub(super) const fn cage(bottle: Bottle, lower_boss_mm: f64) -> Cage {
    Cage { bottle, lower_boss_mm, boss_plus_minus_mm: 0.0 }
}

/// Bottles between places that are known.
pub(super) fn bottles(outline: &Outline, bag: Option<&Bag>, settings: &CageSettings) -> Bottles {
    super::bottles(outline, bag, settings, PlaceDoubts::default())
}

/// What is nearest to a bottle, and how far, mm.
pub(super) fn nearest(fit: &BottleFit) -> Option<(Clash, f64)> {
    fit.nearest.map(|(clash, gap)| (clash, gap.value))
}

#[test]
fn bottles_fit_or_say_what_they_hit() {
    let frameset = made(USUAL, "");
    let adjusted = adjust(&frameset);
    let outline = outline(&frameset, &adjusted, SizeIndex(0), None).unwrap();
    let bag_space = bag_space_of(&frameset).unwrap();
    let settings = CageSettings::default();
    let alone = bottles(&outline, None, &settings);
    assert_eq!(alone.fits.len(), 2);
    assert!(alone.fits.iter().all(BottleFit::fits), "{:?}", alone.fits);
    for fit in &alone.fits {
        // A bottle stands in the opening, off its tube by the cage, and its bosses 64 mm apart on the tube's surface.
        assert!(fit.outline.iter().all(|p| contains(&bag_space.outline, *p)), "{fit:?}");
        let [a, b] = fit.bosses;
        assert!(((b.x - a.x).hypot(b.y - a.y) - 64.0).abs() < 1e-9);
        let area = signed_area(&fit.outline);
        assert!(area > 0.0);
    }
    let full = bag(&bag_space, &BagSettings::default()).unwrap();
    let with_bag = bottles(&outline, Some(&full), &settings);
    assert!(with_bag.fits.iter().all(|f| f.hits.contains(&Clash::Bag)));
    let high = CageSettings { down_tube: Some(cage(Bottle::Large, 470.0)), ..settings };
    let hit = &bottles(&outline, None, &high).fits[0];
    assert!(hit.hits.iter().any(|c| matches!(c, Clash::Tube(_))), "{:?}", hit.hits);
    let under = CageSettings { under_down_tube: Some(cage(Bottle::Large, 330.0)), ..settings };
    let hit = &bottles(&outline, None, &under).fits[2];
    assert!(hit.hits.contains(&Clash::FrontTyre), "{:?}", hit.hits);
    // Near the bottom bracket the ring is in the way of one under the down tube, of none inside.
    let near = |teeth: u32| {
        let under = Some(cage(Bottle::Small, 130.0));
        bottles(&outline, None, &CageSettings { under_down_tube: under, chainring_teeth: teeth, ..settings })
    };
    let gap = |found: &Bottles| nearest(&found.fits[2]).map(|(_, gap)| gap);
    assert!(near(50).fits[2].nearest.is_some_and(|(clash, _)| clash == Clash::ChainRing), "{:?}", near(50).fits[2]);
    assert!(gap(&near(50)) <= gap(&near(30)), "a larger ring is never farther");
    assert!(near(50).fits[..2].iter().all(BottleFit::fits));
    // Both pushed together into the lowest corner hit each other.
    let low = Some(cage(Bottle::Large, 100.0));
    let both = bottles(&outline, None, &CageSettings { down_tube: low, seat_tube: low, ..settings });
    assert!(both.fits[0].hits.contains(&Clash::Bottle(Holder::SeatTube)), "{:?}", both.fits[0]);
    assert!(both.fits[1].hits.contains(&Clash::Bottle(Holder::DownTube)), "{:?}", both.fits[1]);
}
