//! The room inside the main triangle, measured: area, sides, corner angles, largest circle, largest upright rectangle,
//! height above the bottom bracket, each with the u that the adjustment and assumed diameters leave in it, and which
//! single measurement on the real frame would take most of that away.
//!
//! Not here: bags and bottles. Invariant: pure; no NaN from checked files.

use super::circle::largest_circle;
use super::opening::{AROUND, NoOpening, Opening, Tubes, check, opening};
use super::plane::{constant, cross, dot, edges, left, length, plain, signed_area, sub};
use super::rectangle::largest_rectangle;
use crate::frameset::{Frameset, Size, Tube};
use crate::geometry::{AdjustedSize, Assumption, Jet, Point, STATES, Scalar, State, u_of_step};
use crate::units::{Angle, Area, Length, Likeliest, Measured};

/// What the room follows from: the state's quantities and the four tubes' radii, because a diameter that is assumed from
/// the material moves an edge as much as an assumed junction does.
const VARIABLES: usize = STATES + 4;
/// A value with its gradient by all of them.
pub(super) type Dual = Jet<VARIABLES>;

/// Standard uncertainty of a tube's diameter that is assumed from the material, mm: trade practice, unverified.
pub const ASSUMED_DIAMETER_U_MM: f64 = 2.0;
/// Outside radius of the bottom bracket shell, mm: trade practice, unverified.
pub const SHELL_RADIUS_MM: f64 = 20.0;

/// A side of the opening: the inner edge of one tube from corner to corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// The tube.
    pub tube: Tube,
    /// Along the edge, mm.
    pub length_mm: Measured<Length>,
}

/// A corner of the opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// The tubes before and after it, counter-clockwise.
    pub between: (Tube, Tube),
    /// Where, mm from the bottom bracket.
    pub at: Point<f64>,
    /// Inside angle, degrees.
    pub angle_deg: Measured<Angle>,
}

/// The largest circle in the opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BagSpaceCircle {
    /// Its centre; where several are as good, one of them.
    pub centre: Point<f64>,
    /// Its diameter, mm.
    pub diameter_mm: Measured<Length>,
}

/// The largest rectangle with level and upright sides in the opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BagSpaceRectangle {
    /// Its lower rear corner.
    pub from: Point<f64>,
    /// Its upper front corner.
    pub to: Point<f64>,
    /// Level side, mm.
    pub width_mm: Measured<Length>,
    /// Upright side, mm.
    pub height_mm: Measured<Length>,
    /// Area, dm².
    pub area_dm2: Measured<Area>,
}

/// What could be measured on the real frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measurement {
    /// A junction that is assumed.
    Junction(Assumption),
    /// A tube's diameter that is assumed.
    Diameter(Tube),
}

impl Measurement {
    /// Its name in JSON.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Junction(assumption) => assumption.key(),
            Self::Diameter(Tube::TopTube) => "top_tube_diameter",
            Self::Diameter(Tube::DownTube) => "down_tube_diameter",
            Self::Diameter(Tube::SeatTube) => "seat_tube_diameter",
            Self::Diameter(_) => "head_tube_diameter",
        }
    }
}

/// A measurement to 1 mm and what the area's u would be with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Help {
    /// What is measured.
    pub measure: Measurement,
    /// The area's standard uncertainty then, dm².
    pub area_u_dm2: f64,
}

/// The room inside one size's main triangle.
#[derive(Clone, Debug, PartialEq)]
pub struct BagSpace {
    /// The opening's outline, counter-clockwise, mm from the bottom bracket, the first point not repeated.
    pub outline: Vec<Point<f64>>,
    /// The tube along the edge from each point to the next.
    pub edges: Vec<Tube>,
    /// For each edge, the u of its place, square to it, at its two ends, mm.
    pub edge_u_mm: Vec<[f64; 2]>,
    /// Area, dm².
    pub area_dm2: Measured<Area>,
    /// Its sides: down tube, head tube where it shows, top tube, seat tube.
    pub sides: Vec<Side>,
    /// Its corners, each at the end of the side of the same place.
    pub corners: Vec<Corner>,
    /// The largest circle.
    pub circle: Option<BagSpaceCircle>,
    /// The largest upright rectangle.
    pub rectangle: Option<BagSpaceRectangle>,
    /// The top tube's lower edge straight above the bottom bracket, mm; `None` where the top tube does not reach over it.
    pub height_above_bb_mm: Option<Measured<Length>>,
    /// What could be measured, the most useful first; only what takes at least a tenth off the area's u.
    pub helps: Vec<Help>,
    /// Tubes whose diameter is assumed.
    pub assumed_diameters: Vec<Tube>,
    /// Whether the bottom bracket shell reaches into the opening's lowest corner.
    pub shell_intrudes: bool,
    pub(super) dual: Vec<Point<Dual>>,
    pub(super) spread: Spread,
}

/// How the variables scatter.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Spread {
    covariance: Box<[[f64; STATES]; STATES]>,
    radius_u: [f64; 4],
    /// The likeliest explanation of the table, where there are several.
    likeliest: Option<SpreadByLikeliest>,
}

/// How the variables scatter if the likeliest explanation of the table is the right one.
#[derive(Clone, Debug, PartialEq)]
struct SpreadByLikeliest {
    chance: f64,
    /// From the averaged state to its own.
    off: [f64; STATES],
    spread: Box<Spread>,
}

impl Spread {
    fn of(size: &AdjustedSize, radius_u: [f64; 4]) -> Self {
        let likeliest = size.by_likeliest_alone().map(|(chance, by_likeliest)| SpreadByLikeliest {
            chance,
            off: std::array::from_fn(|i| by_likeliest.state.0[i] - size.state.0[i]),
            spread: Box::new(Self { covariance: Box::new(by_likeliest.covariance), radius_u, likeliest: None }),
        });
        Self { covariance: Box::new(size.covariance), radius_u, likeliest }
    }

    /// gᵀ C.
    fn row(&self, gradient: &[f64; VARIABLES]) -> [f64; VARIABLES] {
        let mut row = [0.0; VARIABLES];
        for (i, g) in gradient.iter().enumerate() {
            if i < STATES {
                if *g != 0.0 {
                    for (r, c) in row.iter_mut().zip(&self.covariance[i]) {
                        *r += g * c;
                    }
                }
            } else {
                row[i] = g * self.radius_u[i - STATES] * self.radius_u[i - STATES];
            }
        }
        row
    }

    fn variance(&self, gradient: &[f64; VARIABLES]) -> f64 {
        self.row(gradient).iter().zip(gradient).map(|(r, g)| r * g).sum::<f64>().max(0.0)
    }

    pub(super) fn measured<K>(&self, dual: &Dual, factor: f64) -> Measured<K> {
        self.measured_to_second_order(dual, |_| 0.0, factor)
    }

    /// The same where the gradient leaves out too much: `second` is the variance that the second order adds.
    pub(super) fn measured_to_second_order<K>(&self, dual: &Dual, second: impl Fn(&Self) -> f64, factor: f64) -> Measured<K> {
        let u = |spread: &Self| (spread.variance(&dual.gradient) + second(spread)).sqrt();
        let likeliest = self.likeliest.as_ref().map(|l| Likeliest {
            chance: l.chance,
            value: dual.value + l.off.iter().zip(&dual.gradient).map(|(off, g)| off * g).sum::<f64>(),
            u: u(&l.spread),
        });
        Measured::new(dual.value, u(self)).averaged(likeliest).times(factor)
    }

    /// The variance that the second order adds to the length of edges, whose ends also move square to them: s⁴ / L² for each,
    /// as for a top tube's length.
    pub(super) fn beyond_lengths(&self, edges: &[[Point<Dual>; 2]]) -> f64 {
        let longer = edges.iter().map(|[a, b]| {
            let along = sub(plain(*b), plain(*a));
            let length = along.x.hypot(along.y).max(1.0);
            let n = Point { x: Dual::of(-along.y / length), y: Dual::of(along.x / length) };
            self.variance(&dot(sub(*b, *a), n).gradient) / length
        });
        let longer: f64 = longer.sum();
        longer * longer
    }

    /// The variance that the second order adds to a product of two lengths: of normal ones u²v² + c², with c their
    /// covariance.
    fn beyond_product(&self, a: &Dual, b: &Dual) -> f64 {
        let common: f64 = self.row(&a.gradient).iter().zip(&b.gradient).map(|(r, g)| r * g).sum();
        self.variance(&a.gradient) * self.variance(&b.gradient) + common * common
    }
}

const DM2: f64 = 1e-4;

/// The room of a size.
///
/// # Errors
/// When the figures do not fix the tubes around it or make them cross.
pub fn bag_space(frameset: &Frameset, printed: &Size, size: &AdjustedSize) -> Result<BagSpace, NoOpening> {
    check(size)?;
    let tubes = Tubes::of(frameset, printed);
    let state: State<Dual> = State(std::array::from_fn(|i| Dual::variable(size.state.0[i], i)));
    let radii: [Dual; 4] = std::array::from_fn(|k| Dual::variable(tubes.diameters[k].0 / 2.0, STATES + k));
    let found = opening(&state, radii, tubes)?;
    let radius_u = tubes.diameters.map(|(_, is_assumed)| if is_assumed { ASSUMED_DIAMETER_U_MM / 2.0 } else { 0.0 });
    let spread = Spread::of(size, radius_u);
    Ok(measure(found, spread, printed, &tubes))
}

fn measure(found: Opening<Dual>, spread: Spread, printed: &Size, tubes: &Tubes) -> BagSpace {
    let Opening { outline: dual, edges: edge_tubes } = found;
    let outline: Vec<Point<f64>> = dual.iter().map(|p| plain(*p)).collect();
    let area = signed_area(&dual);
    let mut sides: Vec<Side> = Vec::with_capacity(4);
    let mut corners: Vec<Corner> = Vec::with_capacity(4);
    for tube in AROUND.into_iter().filter(|t| edge_tubes.contains(t)) {
        let own: Vec<[Point<Dual>; 2]> =
            edges(&dual).zip(&edge_tubes).filter(|(_, t)| **t == tube).map(|(edge, _)| edge).collect();
        let total = own.iter().fold(Dual::of(0.0), |sum, [a, b]| sum + length(sub(*b, *a)));
        let length_mm = spread.measured_to_second_order(&total, |spread| spread.beyond_lengths(&own), 1.0);
        sides.push(Side { tube, length_mm });
    }
    for i in 0..dual.len() {
        let next = (i + 1) % dual.len();
        if edge_tubes[i] != edge_tubes[next] {
            let (before, after) = (sub(dual[i], dual[next]), sub(dual[(next + 1) % dual.len()], dual[next]));
            // From the edge after the corner, counter-clockwise through the inside, to the edge before it.
            let mut angle = cross(after, before).atan2_deg(dot(after, before));
            if angle.value < 0.0 {
                angle.value += 360.0;
            }
            corners.push(Corner {
                between: (edge_tubes[i], edge_tubes[next]),
                at: outline[next],
                angle_deg: spread.measured(&angle, 1.0),
            });
        }
    }
    let circle = largest_circle(&dual).map(|c| BagSpaceCircle { centre: c.centre, diameter_mm: spread.measured(&c.radius, 2.0) });
    let rectangle = largest_rectangle(&dual).map(|r| {
        let (width, height) = (r.width(), r.height());
        BagSpaceRectangle {
            from: Point { x: r.x[0].value, y: r.y[0].value },
            to: Point { x: r.x[1].value, y: r.y[1].value },
            width_mm: spread.measured(&width, 1.0),
            height_mm: spread.measured(&height, 1.0),
            area_dm2: spread.measured_to_second_order(&(width * height), |spread| spread.beyond_product(&width, &height), DM2),
        }
    });
    let height = height_above_bb(&dual, &edge_tubes).map(|h| spread.measured(&h, 1.0));
    let edge_u_mm = edges(&dual)
        .map(|[a, b]| {
            let n = left(a, b);
            [a, b].map(|end| spread.measured::<Length>(&dot(sub(constant(plain(end)), a), n), 1.0).u)
        })
        .collect();
    let shell_intrudes = super::plane::depth(&outline, Point { x: 0.0, y: 0.0 }) > -SHELL_RADIUS_MM;
    BagSpace {
        helps: helps(&area, &spread, printed, tubes),
        area_dm2: spread.measured(&area, DM2),
        sides,
        corners,
        circle,
        rectangle,
        height_above_bb_mm: height,
        assumed_diameters: AROUND.into_iter().zip(tubes.diameters).filter(|(_, (_, a))| *a).map(|(t, _)| t).collect(),
        shell_intrudes,
        edges: edge_tubes,
        edge_u_mm,
        outline,
        dual,
        spread,
    }
}

/// From the front corner of the top tube's edge to its rear corner, whatever bends lie between.
pub(super) fn under_top_tube<T: Copy>(outline: &[Point<T>], tubes: &[Tube]) -> Option<[Point<T>; 2]> {
    let first = tubes.iter().position(|t| *t == Tube::TopTube)?;
    let last = tubes.iter().rposition(|t| *t == Tube::TopTube)?;
    Some([*outline.get(first)?, *outline.get((last + 1) % outline.len())?])
}

/// Height of the top tube's lower edge at x = 0.
fn height_above_bb(dual: &[Point<Dual>], tubes: &[Tube]) -> Option<Dual> {
    edges(dual).zip(tubes).find_map(|([a, b], tube)| {
        if *tube != Tube::TopTube || a.x.value <= 0.0 || b.x.value > 0.0 {
            return None;
        }
        Some(a.y + (b.y - a.y) * (-a.x / (b.x - a.x)))
    })
}

/// What would help: u² of the area after a further measurement m of u σ is u² − cov(A, m)² / (σ² + uₘ²).
fn helps(area: &Dual, spread: &Spread, printed: &Size, tubes: &Tubes) -> Vec<Help> {
    let row = spread.row(&area.gradient);
    let variance = spread.variance(&area.gradient);
    let sigma = u_of_step(1.0);
    let with = |measure, index: usize, own_variance: f64| Help {
        measure,
        area_u_dm2: (variance - row[index] * row[index] / (sigma * sigma + own_variance)).max(0.0).sqrt() * DM2,
    };
    let junctions = [
        (Assumption::TopTubeBelowHeadTubeTop, printed.junctions.top_tube_below_head_tube_top),
        (Assumption::TopTubeBelowSeatTubeTop, printed.junctions.top_tube_below_seat_tube_top),
        (Assumption::DownTubeAboveHeadTubeBottom, printed.junctions.down_tube_above_head_tube_bottom),
    ];
    let mut helps: Vec<Help> = junctions
        .into_iter()
        .filter(|(_, stated)| stated.is_none())
        .map(|(assumption, _)| {
            let index = assumption.quantity().index();
            with(Measurement::Junction(assumption), index, spread.covariance[index][index])
        })
        .collect();
    for (k, (tube, (_, is_assumed))) in AROUND.into_iter().zip(tubes.diameters).enumerate() {
        if is_assumed {
            // The radius is half of what is measured.
            let own = spread.radius_u[k] * spread.radius_u[k];
            let after = variance - row[STATES + k] * row[STATES + k] / (sigma * sigma / 4.0 + own);
            helps.push(Help { measure: Measurement::Diameter(tube), area_u_dm2: after.max(0.0).sqrt() * DM2 });
        }
    }
    let limit = 0.9 * variance.sqrt() * DM2;
    helps.retain(|h| h.area_u_dm2 <= limit);
    helps.sort_by(|a, b| a.area_u_dm2.total_cmp(&b.area_u_dm2));
    helps
}

impl BagSpace {
    /// The side of a tube; `None` for a head tube that does not show.
    #[must_use]
    pub fn side(&self, tube: Tube) -> Option<&Side> {
        self.sides.iter().find(|s| s.tube == tube)
    }

    /// The corner between two tubes, in either order.
    #[must_use]
    pub fn corner(&self, a: Tube, b: Tube) -> Option<&Corner> {
        self.corners.iter().find(|c| c.between == (a, b) || c.between == (b, a))
    }

    /// The straight line along the top tube's lower edge, from its front corner to its rear one: what a cut line that
    /// follows the top tube is parallel to.
    #[must_use]
    pub fn under_top_tube(&self) -> Option<[Point<f64>; 2]> {
        under_top_tube(&self.outline, &self.edges)
    }

    /// How far a point lies below that line, square to it, mm; negative above it.
    #[must_use]
    pub fn below_top_tube_mm(&self, point: Point<f64>) -> Option<f64> {
        let [a, b] = self.under_top_tube()?;
        Some(dot(sub(point, a), left(a, b)))
    }
}
