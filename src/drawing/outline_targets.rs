//! What can be pointed at in the side view: each tube and each point, with its figures.

use super::pen::Pen;
use super::scene::Pt;
use super::standing::Standing;
use super::view::Canvas;
use crate::frameset::{Figure, Tube};
use crate::geometry::{Point, TubeOutline};
use crate::lineup::FrameFindings;
use crate::units::{Quantity, System, fixed};
use crate::words::Label;
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
        pen.target(shape, format!("{letter} {}", tube_name(tube)), tube_detail(tube, frame, units));
    }
    let figures = |list: &[Figure]| {
        let words = list.iter().filter_map(|f| frame.value(*f));
        words.map(|v| format!("{} {}", in_sentence(v.figure), value_text(units, v))).collect::<Vec<_>>().join(", ")
    };
    let has = |tube| outline.tubes.iter().any(|t| t.tube == tube);
    let p = &outline.points;
    if let Some(wheel) = outline.rear_wheel {
        let detail = figures(&[Figure::Chainstay, Figure::BbDrop, Figure::RearTyreRadius]);
        pen.spot(at(wheel.axle), SPOT, format!("{letter} rear axle"), detail);
    }
    if let Some(wheel) = outline.front_wheel {
        let detail = figures(&[Figure::FrontCentre, Figure::Wheelbase, Figure::ForkOffset, Figure::FrontTyreRadius]);
        pen.spot(at(wheel.axle), SPOT, format!("{letter} front axle"), detail);
        let touch = Point { x: wheel.axle.x, y: wheel.axle.y - wheel.tyre_radius_mm };
        let detail = figures(&[Figure::Trail, Figure::MechanicalTrail]);
        pen.spot(at(touch), SPOT, format!("{letter} front tyre on the ground"), detail);
    }
    if has(Tube::SeatTube) {
        let detail = figures(&[Figure::SeatTube, Figure::SeatAngle]);
        pen.spot(at(p.seat_top), SPOT, format!("{letter} top of the seat tube"), detail);
    }
    if has(Tube::HeadTube) {
        let detail = figures(&[Figure::Stack, Figure::Reach, Figure::HeadAngle]);
        pen.spot(at(p.head_top), SPOT, format!("{letter} top of the head tube"), detail);
        pen.spot(at(p.head_bottom), SPOT, format!("{letter} bottom of the head tube"), figures(&[Figure::LowerHeadset]));
    }
    if !outline.tubes.is_empty() {
        let detail = figures(&[Figure::BbDrop, Figure::BbHeight]);
        pen.spot(at(Point { x: 0.0, y: 0.0 }), SPOT, format!("{letter} bottom bracket"), detail);
    }
}

fn tube_name(tube: &TubeOutline) -> String {
    match tube.tube {
        Tube::TopTube => "top tube, centre line".to_owned(),
        other => other.label().to_owned(),
    }
}

/// The tube's own figure, where a table has one, and its diameter.
fn tube_detail(tube: &TubeOutline, frame: &FrameFindings, units: System) -> String {
    let figure = match tube.tube {
        Tube::TopTube => Some(Figure::TopTube),
        Tube::SeatTube => Some(Figure::SeatTube),
        Tube::HeadTube => Some(Figure::HeadTube),
        Tube::ChainStay => Some(Figure::Chainstay),
        Tube::ForkBlade => Some(Figure::AxleToCrownAlongAxis),
        Tube::DownTube | Tube::SeatStay | Tube::SeatPost => None,
    };
    let value = figure.and_then(|f| frame.value(f));
    let factor = units.factor(Quantity::Length);
    let diameter = units.with_unit(Quantity::Length, &fixed(tube.diameter_mm * factor, if factor == 1.0 { 1 } else { 2 }));
    let origin = if tube.is_assumed { "assumed" } else { "as published" };
    let tube_diameter = format!("Ø {diameter}, {origin}");
    match value {
        Some(value) => format!("{}; {tube_diameter}", value_and_assumed(units, value)),
        None => tube_diameter,
    }
}
