//! The loaded bicycle of each frame: wheel loads, braking and self-steadying speeds, without luggage and with each loading.
//!
//! The rider sits alike on all frames: saddle, hands and pedals stand where the reference has them, so that frames and
//! loadings differ, and nothing else. Computed on demand.

use geo::{Centroid, LineString, Polygon};

use super::document::{Lineup, Tyres};
use super::frame_findings::FrameFindings;
use crate::frameset::{Figure, FrameIndex, OnePerFrame, Part, TyreSize};
use crate::geometry::{AdjustedSize, Point};
use crate::loaded::{
    Contacts, CriticalSpeeds, FrameBody, LinearModel, Load, LoadedFigure, Loading, PartMasses, PostureError, Quartic, Ride,
    RiderBody, RuleOfThumb, WheelLoads, WheelSize,
};
use crate::parts::contact_points::{Cockpit, Hand, UpperHeadset, hands};
use crate::parts::standards::{LimitOf, WeightLimit};
use crate::units::{Angle, AnyKind, Length, Mass, Measured};

/// Everything about the loaded bicycles of a line-up.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadedFindings {
    /// One a frame, in the line-up's order.
    pub frames: Vec<FrameLoaded>,
    /// Names of the loadings; the first is `None`, the bicycle without luggage.
    pub loadings: Vec<Option<Loading>>,
    /// Where the rider sits and holds the bar on every frame.
    pub seat: Option<Seat>,
}

/// Where the rider is, mm from the bottom bracket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Top of the saddle.
    pub saddle: Point<f64>,
    /// Hands.
    pub hands: Point<f64>,
    /// Middle of the bar's clamp.
    pub bar: Point<f64>,
    /// Whether the saddle was entered; otherwise it is assumed from the body height.
    pub is_saddle_entered: bool,
    /// Whether stem and bar were entered.
    pub is_cockpit_entered: bool,
}

/// One frame's loaded bicycle.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameLoaded {
    /// One a loading, in the order of [`LoadedFindings::loadings`].
    pub rides: Vec<Result<Ride, NotLoaded>>,
    /// The maker's weight limit, where it is published.
    pub weight_limit: Option<WeightLimit>,
    /// Lean at which the lower pedal touches the road; `None` where the bottom bracket's height is missing.
    pub pedal_lean: Option<Measured<Angle>>,
    /// Whether the frame's and the fork's weights are published; otherwise they are assumed.
    pub is_weight_known: bool,
}

impl OnePerFrame for FrameLoaded {}

/// Reason why a frame has no loaded bicycle.
#[derive(Clone, Debug, PartialEq)]
pub enum NotLoaded {
    /// Figures that nothing fixes.
    Missing(Vec<Figure>),
    /// The rider's body does not reach.
    Posture(PostureError),
    /// No frame is the reference, so that nobody sits anywhere.
    NoReference,
}

impl NotLoaded {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Missing(_) => "figures_missing",
            Self::Posture(error) => error.code(),
            Self::NoReference => "no_reference",
        }
    }
}

/// Figures that a loaded bicycle needs.
const NEEDED: [Figure; 6] =
    [Figure::Wheelbase, Figure::Trail, Figure::Stack, Figure::Chainstay, Figure::BbHeight, Figure::FrontTyreRadius];

/// Masses that are assumed where the maker publishes none, g, with their u: trade practice, unverified.
const USUAL_FRAME_G: (f64, f64) = (2200.0, 500.0);
const USUAL_FORK_G: (f64, f64) = (1000.0, 300.0);

/// Saddle's height and setback as shares of the body height where none is entered: trade practice, unverified.
const SADDLE_UP: f64 = 0.41;
const SADDLE_BACK: f64 = 0.12;

/// Outermost edge of a pedal from the middle of the bicycle, and half its thickness, mm: trade practice, unverified.
const PEDAL_EDGE_MM: (f64, f64) = (180.0, 10.0);
const HALF_PEDAL_MM: f64 = 10.0;

/// Everything about loaded bicycles; `frames` are the line-up's findings so far, the reference's among them.
pub(super) fn loaded(lineup: &Lineup, frames: &[FrameFindings], reference: Option<&FrameFindings>) -> LoadedFindings {
    let mut loadings = vec![None];
    loadings.extend(lineup.settings.loaded.loadings.iter().cloned().map(Some));
    let seat = reference.and_then(|frame| seat(lineup, frame));
    let frames = frames
        .iter()
        .map(|frame| {
            let (masses, is_weight_known) = masses(frame);
            let bare = bare(lineup, frame, seat, masses);
            let with = |loading: &Option<Loading>| {
                let Bare { size, body, load, u } = bare.clone()?;
                Ok(Ride::of(size, &body, &Load { luggage: loading.as_ref(), ..load }, u))
            };
            FrameLoaded {
                rides: loadings.iter().map(with).collect(),
                weight_limit: crate::parts::Statements::of(&frame.frameset).weight_limit.is().copied(),
                pedal_lean: pedal_lean(frame, lineup.settings.rider.crank),
                is_weight_known,
            }
        })
        .collect();
    LoadedFindings { frames, loadings, seat }
}

/// A load beside the maker's limit for it, kg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AgainstLimit {
    /// The limit.
    pub limit: WeightLimit,
    /// What it counts, with a loading.
    pub load: Measured<AnyKind>,
}

impl LoadedFindings {
    /// What a maker's weight limit counts with a loading, beside that limit; `None` where none is published.
    #[must_use]
    pub fn against_limit(&self, lineup: &Lineup, frame: FrameIndex, loading: usize) -> Option<AgainstLimit> {
        let found = frame.of(&self.frames)?;
        let limit = found.weight_limit?;
        let rider = lineup.settings.price_and_climb.rider_kg;
        let luggage = self.loadings.get(loading)?.as_ref().map_or(0.0, Loading::whole_kg);
        let load = match limit.of {
            LimitOf::Whole => found.rides.get(loading)?.as_ref().ok()?.figure(LoadedFigure::WholeMass)?,
            LimitOf::RiderAndLuggage => Measured::exact(rider + luggage),
            LimitOf::Rider => Measured::exact(rider),
        };
        Some(AgainstLimit { limit, load })
    }

    /// What a loading does to a frame: the figure with it less the figure without luggage.
    #[must_use]
    pub fn by_loading(&self, frame: FrameIndex, loading: usize, figure: LoadedFigure) -> Option<Measured<AnyKind>> {
        let rides = &frame.of(&self.frames)?.rides;
        let (with, without) = (rides.get(loading)?.as_ref().ok()?, rides.first()?.as_ref().ok()?);
        with.difference(without, without.own_covariance(), figure)
    }

    /// What rules of thumb come to on the reference with a loading: each figure changed less unchanged. No u: the same
    /// bicycle stands on both sides.
    #[must_use]
    pub fn rule_of_thumb(&self, frame: FrameIndex, loading: usize, rule: RuleOfThumb) -> Option<RuleOfThumbEffect> {
        let ride = frame.of(&self.frames)?.rides.get(loading)?.as_ref().ok()?;
        let (before, after) = (&ride.bicycle, rule.applied(&ride.bicycle));
        let weave = |b| CriticalSpeeds::of(&Quartic::of(&LinearModel::of(b))).weave;
        let (loads, loads_after) = (WheelLoads::of(before), WheelLoads::of(&after));
        Some(RuleOfThumbEffect {
            weave: weave(&after).zip(weave(before)).map(|(after, before)| after - before),
            front_share_percent: 100.0 * (loads_after.front_share() - loads.front_share()),
            pitch_over: loads_after.pitch_over() - loads.pitch_over(),
        })
    }
}

/// What a change of shape does alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RuleOfThumbEffect {
    /// Change of the weave speed, m/s; `None` where there is none before or after.
    pub weave: Option<f64>,
    /// Change of the front wheel's share, percentage points.
    pub front_share_percent: f64,
    /// Change of the deceleration at which the rear wheel lifts, in units of g.
    pub pitch_over: f64,
}

fn seat(lineup: &Lineup, reference: &FrameFindings) -> Option<Seat> {
    let rider = &lineup.settings.rider;
    let cockpit = rider.cockpit.unwrap_or_default();
    let state = &reference.chosen()?.state;
    let statements = crate::parts::Statements::of(&reference.frameset);
    let upper = match &rider.cockpit {
        Some(cockpit) => UpperHeadset::of_reference(cockpit, &statements),
        None => UpperHeadset::assumed(&statements),
    };
    let hand = |hand| hands(state, &Cockpit::clone(&cockpit), upper.stack_height.value, hand);
    let height = lineup.settings.loaded.body_height;
    let saddle = rider.saddle.map_or(Point { x: -SADDLE_BACK * height, y: SADDLE_UP * height }, |saddle| Point {
        x: -saddle.setback,
        y: (saddle.height * saddle.height - saddle.setback * saddle.setback).max(0.0).sqrt(),
    });
    Some(Seat {
        saddle,
        hands: hand(Hand::Main),
        bar: hand(Hand::Tops),
        is_saddle_entered: rider.saddle.is_some(),
        is_cockpit_entered: rider.cockpit.is_some(),
    })
}

/// Masses of a frame and its fork, g, and whether both are published.
pub(super) type Masses = [Measured<Mass>; 2];

pub(super) fn masses(frame: &FrameFindings) -> (Masses, bool) {
    let part = |part| frame.weights.part(part).map(|w| w.mass);
    let usual = |(g, u): (f64, f64)| Measured::new(g, u);
    match (part(Part::Frame), part(Part::Fork), part(Part::Frameset)) {
        (Some(frame), Some(fork), _) => ([frame, fork], true),
        (Some(frame), None, Some(set)) if set.value > frame.value => ([frame, set.minus(frame)], true),
        (None, Some(fork), Some(set)) if set.value > fork.value => ([set.minus(fork), fork], true),
        (Some(frame), None, _) => ([frame, usual(USUAL_FORK_G)], false),
        (None, Some(fork), _) => ([usual(USUAL_FRAME_G), fork], false),
        (None, None, Some(set)) if set.value > 2.0 * USUAL_FORK_G.0 => {
            let fork = usual(USUAL_FORK_G);
            ([Measured::new(set.value - fork.value, set.u.hypot(fork.u)), fork], true)
        }
        _ => ([usual(USUAL_FRAME_G), usual(USUAL_FORK_G)], false),
    }
}

fn missing(frame: &FrameFindings) -> Vec<Figure> {
    let is_missing = |figure: &Figure| frame.value(*figure).is_none_or(|v| v.is_missing);
    NEEDED.into_iter().filter(is_missing).collect()
}

/// A wheel's size: its tyre's, or what its radius leaves for a usual tyre.
fn wheel(tyre: Option<TyreSize>, radius_mm: f64) -> WheelSize {
    /// Width of a tyre that nobody published, mm: trade practice, unverified.
    const USUAL_WIDTH_MM: f64 = 45.0;
    match tyre {
        Some(tyre) => WheelSize { rim_radius: tyre.bead_seat_mm() / 2000.0, tyre_width: tyre.width_mm() / 1000.0 },
        None => WheelSize { rim_radius: (radius_mm - USUAL_WIDTH_MM) / 1000.0, tyre_width: USUAL_WIDTH_MM / 1000.0 },
    }
}

/// Middle of the bag in the main triangle, m from the bottom bracket; of the triangle itself where no bag is cut.
pub(super) fn frame_bag(frame: &FrameFindings) -> [f64; 2] {
    let bag = frame.luggage.bag().map(|bag| bag.outline.iter().map(|p| (p.x, p.y)).collect::<Vec<_>>());
    let points = frame.chosen().map(crate::geometry::AdjustedSize::points);
    let corners =
        bag.or_else(|| points.map(|p| vec![(0.0, 0.0), (p.head_bottom.x, p.head_bottom.y), (p.seat_top.x, p.seat_top.y)]));
    let middle = corners.and_then(|c| Polygon::new(LineString::from(c), Vec::new()).centroid());
    middle.map_or([0.1, 0.25], |m| [m.x() / 1000.0, m.y() / 1000.0])
}

pub(super) fn metres(point: Point<f64>) -> [f64; 2] {
    [point.x / 1000.0, point.y / 1000.0]
}

/// The rider of the settings.
pub(super) fn rider_body(lineup: &Lineup) -> RiderBody {
    RiderBody {
        mass_kg: lineup.settings.price_and_climb.rider_kg,
        height_m: lineup.settings.loaded.body_height / 1000.0,
        table: lineup.settings.loaded.body,
    }
}

/// Where the rider touches the bicycle, m from the bottom bracket.
pub(super) fn contacts(lineup: &Lineup, seat: Seat) -> Contacts {
    let crank = lineup.settings.rider.crank / 1000.0;
    Contacts { saddle: metres(seat.saddle), hands: metres(seat.hands), bottom_bracket: [0.0, 0.0], crank }
}

/// A frame with its rider, luggage aside.
#[derive(Clone)]
pub(super) struct Bare<'a> {
    pub(super) size: &'a AdjustedSize,
    pub(super) body: FrameBody,
    pub(super) load: Load<'a>,
    /// Standard uncertainties of the masses of frame and fork, kg.
    pub(super) u: [f64; 2],
}

impl LoadedFindings {
    /// The same frame with its rider, for other luggage; `None` where it has no loaded bicycle.
    pub(super) fn bare<'a>(&self, lineup: &Lineup, frame: &'a FrameFindings) -> Option<Bare<'a>> {
        bare(lineup, frame, self.seat, masses(frame).0).ok()
    }
}

pub(super) fn bare<'a>(
    lineup: &Lineup,
    frame: &'a FrameFindings,
    seat: Option<Seat>,
    masses: Masses,
) -> Result<Bare<'a>, NotLoaded> {
    let missing = missing(frame);
    let (Some(size), true) = (frame.chosen(), missing.is_empty()) else {
        return Err(NotLoaded::Missing(missing));
    };
    let seat = seat.ok_or(NotLoaded::NoReference)?;
    let riding = &lineup.settings.price_and_climb;
    let common = match lineup.settings.tyres {
        Tyres::AsPublished => None,
        Tyres::SameOnAll(tyre) => Some(tyre),
    };
    let rear_tyre = common.or(frame.frameset.tyre);
    let front_tyre = common.or(frame.frameset.front_tyre).or(frame.frameset.tyre);
    let body = FrameBody {
        frame_kg: masses[0].value / 1000.0,
        fork_kg: masses[1].value / 1000.0,
        frame_bag: frame_bag(frame),
        rear_wheel: wheel(rear_tyre, size.value(Figure::RearTyreRadius).value),
        front_wheel: wheel(front_tyre, size.value(Figure::FrontTyreRadius).value),
    };
    let [saddle, hands, bar] = [seat.saddle, seat.hands, seat.bar].map(metres);
    let load = Load {
        rider: rider_body(lineup).seated(&contacts(lineup, seat)).map_err(NotLoaded::Posture)?,
        parts: PartMasses::usual(riding.other_parts_kg),
        saddle,
        hands,
        bar,
        luggage: None,
    };
    Ok(Bare { size, body, load, u: masses.map(|m| m.u / 1000.0) })
}

/// Lean at which the outer edge of the lower pedal touches the road.
fn pedal_lean(frame: &FrameFindings, crank_mm: f64) -> Option<Measured<Angle>> {
    let height: Measured<Length> = frame.value(Figure::BbHeight).filter(|v| !v.is_missing)?.measured().as_length();
    let above = height.value - crank_mm - HALF_PEDAL_MM;
    let (edge, u_edge) = PEDAL_EDGE_MM;
    let square = above * above + edge * edge;
    let u = (edge / square * height.u).hypot(above / square * u_edge);
    Some(Measured::new(above.atan2(edge).to_degrees(), u.to_degrees()))
}
