//! A frame both ways: as it is if a doubtful figure is right as published, and if it is what all others give.
//!
//! Found by trying: the frameset is adjusted with the published figures used anyway, and with the expected ones in their
//! place. Facts, no sentences.

use super::findings::Findings;
use super::frame_findings::FrameFindings;
use crate::frameset::{Figure, FigureUse, FrameIndex, Frameset, OwnMeasurement, SizeIndex};
use crate::geometry::{Assumption, OtherWay, Outline, Point, Slip, SlipCell, adjust, assumed_mm, outline};
use crate::units::{AnyKind, Measured};

/// Least ± of a figure that stands in for a published one, mm or degrees.
const LEAST_PLUS_MINUS: f64 = 0.1;
/// A point is told to be moved from this distance on, mm.
const MOVED_MM: f64 = 0.5;

/// A frame of one size both ways.
#[derive(Clone, Debug, PartialEq)]
pub struct BothWays {
    /// Place of the size that is drawn.
    pub size: SizeIndex,
    /// What differs.
    pub differs: Differing,
    /// The frame if what is published, or assumed, is right.
    pub published: Outline,
    /// The frame if it is as the other figures give it.
    pub expected: Outline,
    /// The point that differs most, with how far it then lies from where the published figures put it, mm, x forward and y
    /// up; `None` where no point differs by half a millimetre.
    pub farthest: Option<(FramePoint, Point<f64>)>,
}

/// What differs between the two ways.
#[derive(Clone, Debug, PartialEq)]
pub enum Differing {
    /// Published figures of the size, with what the others give.
    Figures(Vec<SlipCell>),
    /// An assumption, mm, and what the figures give for it.
    Assumption(Assumption, f64, Measured<AnyKind>),
}

/// A point of the frame that can be named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FramePoint {
    /// Rear axle.
    RearAxle,
    /// Front axle.
    FrontAxle,
    /// Centre of the head tube's top.
    HeadTubeTop,
    /// Centre of the head tube's bottom.
    HeadTubeBottom,
    /// Centre of the seat tube's top.
    SeatTubeTop,
}

impl Findings {
    /// The frame at a place both ways, for what is perhaps wrong with its table, counted from the likeliest. Adjusts the
    /// frameset twice more, so it is asked for when it is shown. `None` where it cannot be drawn so: there is no such slip,
    /// nothing of the frame can be drawn, or an assumption cannot be put into a frameset.
    #[must_use]
    pub fn both_ways(&self, frame: FrameIndex, slip: usize) -> Option<BothWays> {
        let frame = frame.of(&self.frames)?;
        let slip = frame.as_published.slips.get(slip)?;
        let size = shown_size(slip, frame.size);
        let (published, expected, differs) = if let Some((assumption, expected)) = slip.assumption {
            let assumed = assumed_mm(&frame.frameset, assumption)?;
            let with = |mm: f64| with_quantity(&frame.frameset, assumption, mm);
            (with(assumed)?, with(expected.value)?, Differing::Assumption(assumption, assumed, expected))
        } else {
            let cells = slip.cells.iter().filter(|c| c.size == size).cloned().collect();
            (as_published(frame, slip), as_expected(frame, slip), Differing::Figures(cells))
        };
        let drawn =
            |frameset: &Frameset| outline(frameset, &adjust(frameset), size, None).filter(|outline| !outline.tubes.is_empty());
        let (published, expected) = (drawn(&published)?, drawn(&expected)?);
        let farthest = farthest(&published, &expected);
        Some(BothWays { size, differs, published, expected, farthest })
    }
}

/// The size that a slip is seen in: its own where it is about one, the chosen one otherwise.
fn shown_size(slip: &Slip, chosen: SizeIndex) -> SizeIndex {
    let is_of = |size: SizeIndex| slip.cells.iter().any(|c| c.size == size);
    match slip.cells.first() {
        Some(first) if !is_of(chosen) => first.size,
        _ => chosen,
    }
}

/// The frameset with every figure of the slip used anyway, and its way of measuring stated.
fn as_published(frame: &FrameFindings, slip: &Slip) -> Frameset {
    let mut frameset = Frameset::clone(&frame.frameset);
    for cell in &slip.cells {
        frameset.set_figure_use(cell.size, cell.figure, FigureUse::Anyway);
    }
    if let Some(stated) = slip.other_way.map(OtherWay::ruled_out_by) {
        frameset.set_stated(stated, true);
    }
    frameset
}

/// The frameset with every figure of the slip as the others give it.
fn as_expected(frame: &FrameFindings, slip: &Slip) -> Frameset {
    let mut frameset = Frameset::clone(&frame.frameset);
    for cell in &slip.cells {
        frameset.ignore_figure(cell.size, cell.figure, "");
        put(&mut frameset, cell.size, cell.figure, cell.expected);
    }
    frameset
}

/// Puts a value in the place of a published one. A value that no frame can have is left out: the others then give it.
fn put(frameset: &mut Frameset, size: SizeIndex, figure: Figure, value: Measured<AnyKind>) {
    let plus_minus = value.expanded().clamp(LEAST_PLUS_MINUS, OwnMeasurement::WIDEST);
    let _left_out = frameset.set_measured(size, figure, Some(OwnMeasurement { value: value.value, plus_minus }));
}

/// The frameset with an assumed quantity of that length in all sizes; `None` where a frameset cannot say it.
fn with_quantity(frameset: &Frameset, assumption: Assumption, mm: f64) -> Option<Frameset> {
    let mut frameset = frameset.clone();
    for place in SizeIndex::all(frameset.sizes.len()) {
        let junctions = &mut place.of_mut(&mut frameset.sizes)?.junctions;
        match assumption {
            Assumption::LowerHeadset => put(&mut frameset, place, Figure::LowerHeadset, Measured::exact(mm)),
            Assumption::SeatTubeSetback => put(&mut frameset, place, Figure::SeatTubeSetback, Measured::exact(mm)),
            Assumption::TopTubeBelowHeadTubeTop => junctions.top_tube_below_head_tube_top = Some(mm),
            Assumption::TopTubeBelowSeatTubeTop => junctions.top_tube_below_seat_tube_top = Some(mm),
            Assumption::DownTubeAboveHeadTubeBottom => junctions.down_tube_above_head_tube_bottom = Some(mm),
            Assumption::RearTyreRadius | Assumption::FrontTyreRadius => return None,
        }
    }
    Some(frameset)
}

/// The point that lies farthest from where the published figures put it.
fn farthest(published: &Outline, expected: &Outline) -> Option<(FramePoint, Point<f64>)> {
    let has = |o: &Outline| (o.rear_wheel.is_some(), o.front_wheel.is_some(), o.tubes.len());
    if has(published) != has(expected) {
        return None;
    }
    let (p, e) = (&published.points, &expected.points);
    let wheels = |point| match point {
        FramePoint::RearAxle => published.rear_wheel.is_some(),
        FramePoint::FrontAxle => published.front_wheel.is_some(),
        FramePoint::HeadTubeTop | FramePoint::HeadTubeBottom | FramePoint::SeatTubeTop => published.undrawn.is_empty(),
    };
    [
        (FramePoint::RearAxle, p.rear_axle, e.rear_axle),
        (FramePoint::FrontAxle, p.front_axle, e.front_axle),
        (FramePoint::HeadTubeTop, p.head_top, e.head_top),
        (FramePoint::HeadTubeBottom, p.head_bottom, e.head_bottom),
        (FramePoint::SeatTubeTop, p.seat_top, e.seat_top),
    ]
    .into_iter()
    .filter(|(point, ..)| wheels(*point))
    .map(|(point, before, after)| (point, Point { x: after.x - before.x, y: after.y - before.y }))
    .filter(|(_, by)| by.x.hypot(by.y) >= MOVED_MM)
    .max_by(|a, b| a.1.x.hypot(a.1.y).total_cmp(&b.1.x.hypot(b.1.y)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::Lineup;

    fn quern(change: impl FnOnce(&mut Frameset)) -> Findings {
        let mut frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        change(&mut frameset);
        let mut lineup = Lineup::default();
        lineup.add(frameset, None);
        Findings::of(&lineup)
    }

    fn wheelbase(outline: &Outline) -> f64 {
        outline.points.front_axle.x - outline.points.rear_axle.x
    }

    #[test]
    fn a_wrong_wheelbase_is_drawn_as_published_and_as_the_others_give_it() {
        let both = quern(|_| ()).both_ways(FrameIndex(0), 0).unwrap();
        assert_eq!(both.size, SizeIndex(3), "the size that the misprint is in, not the chosen one");
        let Differing::Figures(cells) = &both.differs else { panic!("{:?}", both.differs) };
        assert_eq!((cells[0].figure, cells[0].published), (Figure::Wheelbase, 1071.0));
        assert!((wheelbase(&both.published) - 1071.0).abs() < 1.5, "{}", wheelbase(&both.published));
        assert!((wheelbase(&both.expected) - cells[0].expected.value).abs() < 0.5, "{}", wheelbase(&both.expected));
        let (_, by) = both.farthest.unwrap();
        assert!(by.x.hypot(by.y) > 3.0, "{by:?}");
    }

    #[test]
    fn a_whole_row_is_drawn_in_the_chosen_size() {
        let findings = quern(|f| {
            for size in &mut f.sizes {
                *size.figures.get_mut(&Figure::HeadTube).unwrap() += 20.0;
            }
        });
        let place = findings.frames[0].as_published.slips.iter().position(|s| s.cells.len() == 5).expect("a row");
        let both = findings.both_ways(FrameIndex(0), place).unwrap();
        assert_eq!(both.size, findings.frames[0].size);
        assert!(both.published != both.expected);
        assert!(findings.both_ways(FrameIndex(0), 99).is_none() && findings.both_ways(FrameIndex(1), 0).is_none());
    }

    #[test]
    fn an_assumption_is_drawn_as_assumed_and_as_the_figures_give_it() {
        let frameset = quern(|_| ()).frames[0].frameset.clone();
        for assumption in Assumption::ALL {
            let with = |mm| with_quantity(&frameset, assumption, mm);
            let (Some(assumed), Some(before)) = (assumed_mm(&frameset, assumption), with(20.0)) else {
                assert!(matches!(assumption, Assumption::RearTyreRadius | Assumption::FrontTyreRadius));
                continue;
            };
            assert!((0.0..60.0).contains(&assumed), "{assumption:?} {assumed}");
            assert!(before != with(30.0).unwrap(), "{assumption:?}");
        }
    }
}
