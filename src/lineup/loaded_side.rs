//! A loaded bicycle seen from the side: where rider, bags and the whole mass are, for whoever draws it.

use super::document::Lineup;
use super::findings::Findings;
use super::frame_findings::FrameFindings;
use super::loaded_findings::{contacts, frame_bag, metres, rider_body};
use crate::frameset::{Figure, FrameIndex};
use crate::geometry::{AdjustedSize, Point};
use crate::loaded::{Anchors, Bag, LoadedFigure, LuggagePlace, Posture, WheelLoads};
use crate::units::{AnyKind, Measured};

/// A loaded bicycle from the side. Metres are counted from the bottom bracket, forward and up.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadedSide {
    /// The rider's joints, m.
    pub posture: Posture,
    /// Top of the saddle, m.
    pub saddle: [f64; 2],
    /// Middle of the handlebar's clamp, then where the hands are, m.
    pub bar: [[f64; 2]; 2],
    /// Bags that carry something.
    pub bags: Vec<HungBag>,
    /// Centre of mass of bicycle, rider and luggage, m.
    pub centre_of_mass: [f64; 2],
    /// Load on the rear wheel, then on the front wheel, kg.
    pub wheel_loads: [Option<Measured<AnyKind>>; 2],
}

/// A bag and what is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct HungBag {
    /// Where it hangs.
    pub place: LuggagePlace,
    /// What is in it, kg.
    pub kg: f64,
    /// Its outline: the bag in the main triangle as it is cut, else the box that stands for it, m.
    pub outline: Vec<[f64; 2]>,
}

impl Findings {
    /// A frame with a loading, a place among the findings' loadings; `None` where that bicycle cannot be put together.
    #[must_use]
    pub fn loaded_side(&self, lineup: &Lineup, frame: FrameIndex, loading: usize) -> Option<LoadedSide> {
        let found = self.loaded(lineup);
        let ride = frame.of(&found.frames)?.rides.get(loading)?.as_ref().ok()?;
        let (seat, of_frame) = (found.seat?, frame.of(&self.frames)?);
        let size: &AdjustedSize = of_frame.chosen()?;
        let points = size.points();
        let anchors = Anchors::of(&points, frame_bag(of_frame), metres(seat.saddle), metres(seat.bar));
        let luggage = found.loadings.get(loading)?.as_ref();
        let bags = luggage.into_iter().flat_map(|l| &l.kg);
        let whole = WheelLoads::of(&ride.bicycle);
        let [rear_x, rear_y] = metres(Point { x: points.rear_axle.x, y: points.rear_axle.y });
        let radius = size.value(Figure::RearTyreRadius).value / 1000.0;
        Some(LoadedSide {
            posture: rider_body(lineup).posture(&contacts(lineup, seat)).ok()?,
            saddle: metres(seat.saddle),
            bar: [seat.bar, seat.hands].map(metres),
            bags: bags
                .map(|(place, kg)| HungBag { place: *place, kg: *kg, outline: outline(of_frame, *place, &anchors) })
                .collect(),
            centre_of_mass: [rear_x + whole.ahead_m, rear_y - radius + whole.height_m],
            wheel_loads: [LoadedFigure::RearLoad, LoadedFigure::FrontLoad].map(|figure| ride.figure(figure)),
        })
    }
}

/// The outline of a bag, m from the bottom bracket.
fn outline(frame: &FrameFindings, place: LuggagePlace, anchors: &Anchors) -> Vec<[f64; 2]> {
    let cut = frame.luggage.bag().filter(|_| place == LuggagePlace::FrameBag);
    cut.map_or_else(|| corners(&place.bag(anchors)), |bag| bag.outline.iter().map(|p| metres(*p)).collect())
}

/// Corners of a box from the side.
fn corners(bag: &Bag) -> Vec<[f64; 2]> {
    let ([x, y], [length, height, _]) = (bag.centre, bag.size);
    let corner = |(forward, up): (f64, f64)| [x + forward * length / 2.0, y + up * height / 2.0];
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(corner).to_vec()
}
