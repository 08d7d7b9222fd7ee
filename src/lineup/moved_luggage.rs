//! What the luggage of the riding settings does to each frame while it is moved from the rear to the front. Computed on
//! demand.

use super::document::Lineup;
use super::frame_findings::FrameFindings;
use super::loaded_findings::{Bare, LoadedFindings};
use crate::frameset::OnePerFrame;
use crate::loaded::{Load, LoadedFigure, Loading, LuggagePlace, Ride};
use crate::units::{AnyKind, Measured};

/// Steps in which luggage is moved from the rear to the front.
const SPREAD_STEPS: u32 = 10;

/// Luggage spread between rear and low front panniers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Share of the luggage at the front, percent.
    pub at_front_percent: f64,
    /// Share of the luggage in the frame bag, percent. The rest hangs behind.
    pub in_frame_percent: f64,
    /// Weave speed, m/s; `None` where weaving dies out at no speed.
    pub weave: Option<Measured<AnyKind>>,
    /// Load on the front wheel, kg.
    pub front_load: Option<Measured<AnyKind>>,
    /// Load on the front wheel, percent of the whole.
    pub front_share: Option<Measured<AnyKind>>,
    /// Deceleration at which the rear wheel lifts, in units of g.
    pub pitch_over: Option<Measured<AnyKind>>,
}

impl Spread {
    /// One of its figures; only those that it has.
    #[must_use]
    pub const fn figure(&self, figure: LoadedFigure) -> Option<Measured<AnyKind>> {
        match figure {
            LoadedFigure::WeaveSpeed => self.weave,
            LoadedFigure::FrontLoad => self.front_load,
            LoadedFigure::FrontShare => self.front_share,
            LoadedFigure::PitchOver => self.pitch_over,
            _ => None,
        }
    }
}

/// One frame's luggage, moved in steps; empty where it has no loaded bicycle.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MovedLuggage(pub Vec<Spread>);

impl OnePerFrame for MovedLuggage {}

/// One a frame, in the line-up's order.
pub(super) fn moved_luggage(lineup: &Lineup, frames: &[FrameFindings], found: &LoadedFindings) -> Vec<MovedLuggage> {
    let of_frame = |frame| found.bare(lineup, frame).map(|bare| moved(lineup, &bare)).unwrap_or_default();
    frames.iter().map(|frame| MovedLuggage(of_frame(frame))).collect()
}

/// Luggage moved from the rear to the front, first none in the frame bag, then a third of it there.
fn moved(lineup: &Lineup, bare: &Bare<'_>) -> Vec<Spread> {
    let whole = lineup.settings.price_and_climb.luggage_kg;
    let mut found = Vec::new();
    for in_frame in [0.0, 1.0 / 3.0] {
        for step in 0..=SPREAD_STEPS {
            let at_front = f64::from(step) / f64::from(SPREAD_STEPS);
            let outside = whole * (1.0 - in_frame);
            let kg = [
                (LuggagePlace::FrameBag, whole * in_frame),
                (LuggagePlace::RearPanniers, outside * (1.0 - at_front)),
                (LuggagePlace::FrontPanniersLow, outside * at_front),
            ];
            let luggage = Loading { name: String::new(), kg: kg.into_iter().collect() };
            let load = Load { luggage: Some(&luggage), ..bare.load };
            let ride = Ride::of(bare.size, &bare.body, &load, bare.u);
            found.push(Spread {
                at_front_percent: 100.0 * at_front * (1.0 - in_frame),
                in_frame_percent: 100.0 * in_frame,
                weave: ride.figure(LoadedFigure::WeaveSpeed),
                front_load: ride.figure(LoadedFigure::FrontLoad),
                front_share: ride.figure(LoadedFigure::FrontShare),
                pitch_over: ride.figure(LoadedFigure::PitchOver),
            });
        }
    }
    found
}
