//! The silhouette of a frameset in the side view: the union of its tubes, headset, bottom bracket shell and dropouts, so that
//! it can be drawn as one shape without lines inside.

use geo::orient::{Direction, Orient};
use geo::{Area, BooleanOps, ConvexHull, Coord, LineString, MultiPolygon, Polygon, unary_union};

use super::formulas::Point;
use super::outline::{Outline, thicken};
use crate::frameset::Tube;

/// Radius of a dropout's disc about its axle, mm. A sketch: it is nobody's figure.
pub const DROPOUT_RADIUS_MM: f64 = 9.0;
/// Corners of a disc.
const CORNERS: u32 = 48;
/// What is smaller is no opening and no part, but where edges nearly meet, mm².
const SLIVER_MM2: f64 = 4.0;
/// How far the headset reaches into head tube and crown, mm, so that all three are one part.
const OVERLAP_MM: f64 = 1.0;
/// Headset cups are narrower than the head tube.
const CUP_SHARE: f64 = 0.84;

/// One connected part of a silhouette: its outer edge and the openings in it. Rings are closed, their first point not repeated.
#[derive(Clone, Debug, PartialEq)]
pub struct SilhouettePart {
    /// Outer edge, mm from the bottom bracket.
    pub edge: Vec<Point<f64>>,
    /// Edges of the openings, such as the main triangle.
    pub openings: Vec<Vec<Point<f64>>>,
}

impl SilhouettePart {
    /// Outer edge and openings.
    pub fn rings(&self) -> impl Iterator<Item = &Vec<Point<f64>>> {
        std::iter::once(&self.edge).chain(&self.openings)
    }
}

/// The silhouette of all tubes that are drawn, without seat post, saddle and wheels; empty where no tube is. Mostly one part,
/// several where what joins them is unknown.
#[must_use]
pub fn silhouette(outline: &Outline) -> Vec<SilhouettePart> {
    parts_of(unary_union(&solids(outline)))
}

/// What of a closed outline lies beyond another one.
#[must_use]
pub fn area_beyond(outline: &[Point<f64>], other: &[Point<f64>]) -> Vec<SilhouettePart> {
    parts_of(polygon(outline).difference(&polygon(other)))
}

/// Closed outlines as one shape.
#[must_use]
pub fn joined(outlines: &[Vec<Point<f64>>]) -> Vec<SilhouettePart> {
    parts_of(unary_union(&outlines.iter().map(|o| polygon(o)).collect::<Vec<_>>()))
}

/// A limb with round ends from one point to another, each end of its own radius, mm.
#[must_use]
pub fn limb(from: Point<f64>, to: Point<f64>, radii: [f64; 2]) -> Vec<Point<f64>> {
    let ends = [disc(from, radii[0]), disc(to, radii[1])];
    let hull = MultiPolygon::new(ends.to_vec()).convex_hull();
    hull.exterior().coords().skip(1).map(|c| Point { x: c.x, y: c.y }).collect()
}

/// What the silhouette is the union of.
fn solids(outline: &Outline) -> Vec<Polygon<f64>> {
    let tubes = outline.tubes.iter().filter(|t| t.tube != Tube::SeatPost);
    let mut parts: Vec<Polygon<f64>> = tubes.map(|t| polygon(&t.outline)).collect();
    if parts.is_empty() {
        return parts;
    }
    parts.push(disc(Point { x: 0.0, y: 0.0 }, outline.shell_radius_mm));
    let wheels = [outline.rear_wheel, outline.front_wheel];
    parts.extend(wheels.into_iter().flatten().map(|wheel| disc(wheel.axle, DROPOUT_RADIUS_MM)));
    parts.extend(cups(outline));
    parts
}

/// The lower headset between head tube and crown race seat.
fn cups(outline: &Outline) -> Option<Polygon<f64>> {
    let tube = |wanted| outline.tubes.iter().find(|t| t.tube == wanted);
    let (head, _) = (tube(Tube::HeadTube)?, tube(Tube::ForkBlade)?);
    let half = head.diameter_mm / 2.0 * CUP_SHARE;
    let (from, to) = (outline.points.head_bottom, outline.points.crown);
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let share = OVERLAP_MM / dx.hypot(dy).max(OVERLAP_MM);
    let beyond = |p: Point<f64>, by: f64| Point { x: p.x + dx * by, y: p.y + dy * by };
    Some(polygon(&thicken(&[beyond(from, -share), beyond(to, share)], half, half)))
}

/// A polygon that turns anticlockwise, as a union's parts must.
fn polygon(points: &[Point<f64>]) -> Polygon<f64> {
    let ring: LineString<f64> = points.iter().map(|p| Coord { x: p.x, y: p.y }).collect();
    Polygon::new(ring, Vec::new()).orient(Direction::Default)
}

fn disc(centre: Point<f64>, radius: f64) -> Polygon<f64> {
    let corner = |i: u32| {
        let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / f64::from(CORNERS)).sin_cos();
        Point { x: centre.x + radius * cos, y: centre.y + radius * sin }
    };
    polygon(&(0..CORNERS).map(corner).collect::<Vec<_>>())
}

/// All parts but slivers.
fn parts_of(whole: MultiPolygon<f64>) -> Vec<SilhouettePart> {
    whole.into_iter().filter(|part| part.unsigned_area() > SLIVER_MM2).map(|part| part_of(&part)).collect()
}

fn part_of(part: &Polygon<f64>) -> SilhouettePart {
    let ring = |line: &LineString<f64>| line.coords().skip(1).map(|c| Point { x: c.x, y: c.y }).collect::<Vec<_>>();
    let openings = part.interiors().iter().filter(|hole| Polygon::new((*hole).clone(), Vec::new()).unsigned_area() > SLIVER_MM2);
    SilhouettePart { edge: ring(part.exterior()), openings: openings.map(ring).collect() }
}

#[cfg(test)]
mod tests {
    use super::super::{adjust, outline};
    use super::*;
    use crate::frameset::{Frameset, SizeIndex, read_frameset};

    fn sample(name: &str) -> Frameset {
        read_frameset(&std::fs::read(format!("sample-frames/{name}.frame.ron")).unwrap()).unwrap()
    }

    fn area(ring: &[Point<f64>]) -> f64 {
        polygon(ring).unsigned_area()
    }

    #[test]
    fn a_diamond_frame_is_one_shape_with_two_openings() {
        for name in ["marrowby-drift", "quern-halter"] {
            let frameset = sample(name);
            let outline = outline(&frameset, &adjust(&frameset), SizeIndex(1), None).unwrap();
            let parts = silhouette(&outline);
            let [whole] = parts.as_slice() else { panic!("{name}: {} parts", parts.len()) };
            assert_eq!(whole.openings.len(), 2, "{name}: main triangle and rear triangle");
            assert!(whole.rings().all(|ring| ring.len() >= 3 && area(ring) > 100.0), "{name}: no slivers");
        }
    }

    /// Each tube lies within the silhouette, and the silhouette is no larger than all of them together.
    #[test]
    fn the_union_holds_every_tube_and_nothing_else() {
        let frameset = sample("marrowby-drift");
        let outline = outline(&frameset, &adjust(&frameset), SizeIndex(1), None).unwrap();
        let parts = silhouette(&outline);
        let [whole] = parts.as_slice() else { panic!("{} parts", parts.len()) };
        let covered = area(&whole.edge) - whole.openings.iter().map(|ring| area(ring)).sum::<f64>();
        let tubes = outline.tubes.iter().filter(|t| t.tube != Tube::SeatPost);
        let (largest, sum) = tubes.map(|t| area(&t.outline)).fold((0.0_f64, 0.0), |(l, s), a| (l.max(a), s + a));
        let discs = std::f64::consts::PI * (20.0_f64.powi(2) + 2.0 * DROPOUT_RADIUS_MM.powi(2));
        assert!(covered > largest && covered < sum + discs + 36.0 * 40.0, "{covered} of {sum}");
        let union: MultiPolygon<f64> = unary_union(&[part_as_polygon(whole)]);
        for tube in outline.tubes.iter().filter(|t| t.tube != Tube::SeatPost) {
            let outside = polygon(&tube.outline).difference(&union);
            assert!(outside.unsigned_area() < 1.0, "{:?}: {} mm² outside", tube.tube, outside.unsigned_area());
        }
    }

    /// Areas of the same polygons' union, mm², by shapely 2.2.0 on GEOS 3.14.1.
    #[test]
    fn the_area_is_that_of_another_librarys_union() {
        let theirs =
            [("marrowby-drift", 1, 81_281.799_584), ("quern-halter", 2, 77_183.471_036), ("brackwater-cob", 0, 88_494.291_796)];
        for (name, size, area) in theirs {
            let (frameset, size) = (sample(name), SizeIndex(size));
            let outline = outline(&frameset, &adjust(&frameset), size, None).unwrap();
            let covered: f64 = silhouette(&outline).iter().map(|part| part_as_polygon(part).unsigned_area()).sum();
            assert!((covered - area).abs() < 0.01, "{name}: {covered} instead of {area}");
        }
    }

    fn part_as_polygon(part: &SilhouettePart) -> Polygon<f64> {
        let ring = |points: &Vec<Point<f64>>| points.iter().map(|p| Coord { x: p.x, y: p.y }).collect::<LineString<f64>>();
        Polygon::new(ring(&part.edge), part.openings.iter().map(ring).collect())
    }

    #[test]
    fn what_lies_beyond_an_outline_is_its_difference() {
        let square = |low: f64, high: f64| [(low, low), (high, low), (high, high), (low, high)].map(|(x, y)| Point { x, y });
        let area = |parts: &[SilhouettePart]| parts.iter().map(|part| part_as_polygon(part).unsigned_area()).sum::<f64>();
        let beyond = area_beyond(&square(0.0, 100.0), &square(50.0, 150.0));
        assert!((area(&beyond) - 7500.0).abs() < 0.01 && beyond.len() == 1);
        let around = area_beyond(&square(0.0, 100.0), &square(40.0, 60.0));
        assert!((area(&around) - 9600.0).abs() < 0.01 && around[0].openings.len() == 1);
        assert!(area_beyond(&square(40.0, 60.0), &square(0.0, 100.0)).is_empty());
    }

    #[test]
    fn what_nothing_determines_leaves_parts_of_their_own() {
        let text = b"Frameset(format: 2, maker: \"Marrowby\", model: \"Lee\", sizes: [(label: \"M\", figures: {Chainstay: 440, BbDrop: 72})])";
        let frameset = read_frameset(text).unwrap();
        let outline = outline(&frameset, &adjust(&frameset), SizeIndex(0), None).unwrap();
        let parts = silhouette(&outline);
        assert_eq!(parts.len(), 1, "a chainstay from the shell to its dropout");
        assert!(parts[0].openings.is_empty());
    }
}
