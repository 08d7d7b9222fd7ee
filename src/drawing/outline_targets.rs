//! What can be pointed at in the side view: each tube and each point, with its figures.

use super::pen::{Pen, octagon};
use super::scene::Pt;
use super::standing::Standing;
use super::view::Canvas;
use crate::frameset::{Figure, Tube};
use crate::geometry::{Point, TubeOutline};
use crate::lineup::FrameFindings;
use crate::units::{Quantity, System, fixed};
use crate::words::Label;
use crate::words::drawings::{self as labels, FramePoint};
use crate::words::{in_sentence, value_and_assumed, value_text};

/// Radius of a point's target, page units.
const SPOT: f64 = 8.0;

/// Adds a frame's targets: wheels below, then tubes, then points.
pub(super) fn add(pen: &mut Pen, canvas: Canvas, stands: &Standing, frame: &FrameFindings, units: System) {
    let outline = stands.outline;
    let at = |p: Point<f64>| canvas.at(stands.on_drawing(p));
    let letter = &frame.letter;
    for tube in &outline.tubes {
        let shape: Vec<Pt> = tube.outline.iter().map(|p| at(*p)).collect();
        let (name, detail) = (format!("{letter} {}", tube_name(tube)), tube_detail(tube, frame, units));
        pen.target_of_figures(shape, name, detail, figure_of(tube).into_iter().collect());
    }
    let mut spot = |point: Point<f64>, name: FramePoint, figures: &[Figure]| {
        let words = figures.iter().filter_map(|f| frame.value(*f));
        let words = words.map(|v| format!("{} {}", in_sentence(v.figure), value_text(units, v)));
        let detail = words.collect::<Vec<_>>().join(", ");
        pen.target_of_figures(octagon(at(point), SPOT), labels::point_of(letter, name), detail, figures.to_vec());
    };
    let has = |tube| outline.tubes.iter().any(|t| t.tube == tube);
    let p = &outline.points;
    if let Some(wheel) = outline.rear_wheel {
        spot(wheel.axle, FramePoint::RearAxle, &[Figure::Chainstay, Figure::BbDrop, Figure::RearTyreRadius]);
    }
    if let Some(wheel) = outline.front_wheel {
        let figures = [Figure::FrontCentre, Figure::Wheelbase, Figure::ForkOffset, Figure::FrontTyreRadius];
        spot(wheel.axle, FramePoint::FrontAxle, &figures);
        let touch = Point { x: wheel.axle.x, y: wheel.axle.y - wheel.tyre_radius_mm };
        spot(touch, FramePoint::FrontTyreOnTheGround, &[Figure::Trail, Figure::MechanicalTrail]);
    }
    if has(Tube::SeatTube) {
        spot(p.seat_top, FramePoint::SeatTubeTop, &[Figure::SeatTube, Figure::SeatAngle]);
    }
    if has(Tube::HeadTube) {
        spot(p.head_top, FramePoint::HeadTubeTop, &[Figure::Stack, Figure::Reach, Figure::HeadAngle]);
        spot(p.head_bottom, FramePoint::HeadTubeBottom, &[Figure::LowerHeadset]);
    }
    if !outline.tubes.is_empty() {
        spot(Point { x: 0.0, y: 0.0 }, FramePoint::BottomBracket, &[Figure::BbDrop, Figure::BbHeight]);
    }
}

fn tube_name(tube: &TubeOutline) -> String {
    match tube.tube {
        Tube::TopTube => labels::TOP_TUBE_CENTRE_LINE.to_owned(),
        other => other.label().to_owned(),
    }
}

/// The tube's own figure, where a table has one.
const fn figure_of(tube: &TubeOutline) -> Option<Figure> {
    match tube.tube {
        Tube::TopTube => Some(Figure::TopTube),
        Tube::SeatTube => Some(Figure::SeatTube),
        Tube::HeadTube => Some(Figure::HeadTube),
        Tube::ChainStay => Some(Figure::Chainstay),
        Tube::ForkBlade => Some(Figure::AxleToCrownAlongAxis),
        Tube::DownTube | Tube::SeatStay | Tube::SeatPost => None,
    }
}

/// The tube's own figure, where a table has one, and its diameter.
fn tube_detail(tube: &TubeOutline, frame: &FrameFindings, units: System) -> String {
    let value = figure_of(tube).and_then(|f| frame.value(f));
    let factor = units.factor(Quantity::Length);
    let diameter = units.with_unit(Quantity::Length, &fixed(tube.diameter_mm * factor, if factor == 1.0 { 1 } else { 2 }));
    let origin = if tube.is_assumed { labels::ASSUMED } else { labels::AS_PUBLISHED };
    let tube_diameter = labels::diameter_text(&diameter, origin);
    match value {
        Some(value) => format!("{}; {tube_diameter}", value_and_assumed(units, value)),
        None => tube_diameter,
    }
}
