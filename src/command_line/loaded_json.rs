//! JSON of the loaded bicycles of a line-up. Numbers are in kg, m/s, degrees, percent and N m, rounded to four decimals.

use std::collections::BTreeMap;

use serde::Serialize;

use super::numbers::rounded;
use spandrel::frameset::FrameIndex;
use spandrel::lineup::{Findings, Lineup, NotLoaded, Spread};
use spandrel::loaded::{LoadedFigure, Motion, NamedMotion, Ride, RuleOfThumb, USUAL_SPEED};
use spandrel::units::{AnyKind, Measured};
use spandrel::words::not_loaded_text;

/// The loaded bicycles of a line-up.
#[derive(Serialize)]
pub(super) struct LoadedJson {
    /// Saddle, hands and bar, mm from the bottom bracket: alike on all frames.
    seat: Option<SeatJson>,
    frames: Vec<FrameJson>,
}

#[derive(Serialize)]
struct SeatJson {
    saddle: [f64; 2],
    hands: [f64; 2],
    bar: [f64; 2],
    saddle_entered: bool,
    cockpit_entered: bool,
}

#[derive(Serialize)]
struct FrameJson {
    letter: String,
    name: String,
    size: String,
    weights_published: bool,
    pedal_lean: Option<ValueJson>,
    weight_limit: Option<LimitJson>,
    loadings: Vec<LoadingJson>,
    spread: Vec<SpreadJson>,
}

#[derive(Serialize)]
struct LimitJson {
    kg: f64,
    counts: &'static str,
}

#[derive(Serialize)]
struct ValueJson {
    value: f64,
    u: Option<f64>,
}

#[derive(Serialize)]
struct DifferenceJson {
    value: f64,
    u: Option<f64>,
    clear: bool,
}

#[derive(Serialize)]
struct LoadingJson {
    name: Option<String>,
    kg: BTreeMap<&'static str, f64>,
    #[serde(flatten)]
    found: FoundJson,
}

#[derive(Serialize)]
#[serde(untagged)]
enum FoundJson {
    Ride {
        self_steady: Vec<(f64, Option<f64>)>,
        figures: BTreeMap<&'static str, FigureJson>,
        at_20_km_h: BTreeMap<&'static str, NamedMotionJson>,
        rules_of_thumb: BTreeMap<&'static str, RuleJson>,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        motions: Vec<MotionsJson>,
    },
    Not {
        why: String,
        why_code: &'static str,
    },
}

#[derive(Serialize)]
struct FigureJson {
    value: Option<f64>,
    u: Option<f64>,
    /// Less the reference's, with the same loading.
    #[serde(skip_serializing_if = "Option::is_none")]
    difference: Option<DifferenceJson>,
    /// Less the same frame's without luggage.
    #[serde(skip_serializing_if = "Option::is_none")]
    by_loading: Option<DifferenceJson>,
}

#[derive(Serialize)]
struct RuleJson {
    weave: Option<f64>,
    front_share_percent: f64,
    pitch_over_g: f64,
}

#[derive(Serialize)]
struct NamedMotionJson {
    growth: ValueJson,
    time_constant: Option<ValueJson>,
    swing: f64,
}

#[derive(Serialize)]
struct MotionsJson {
    speed: f64,
    growth: Vec<ValueJson>,
    swing: Vec<f64>,
}

#[derive(Serialize)]
struct SpreadJson {
    at_front_percent: f64,
    in_frame_percent: f64,
    weave: Option<ValueJson>,
    front_kg: Option<ValueJson>,
    front_share_percent: Option<ValueJson>,
    pitch_over_g: Option<ValueJson>,
}

fn finite(number: f64) -> Option<f64> {
    number.is_finite().then(|| rounded(number))
}

fn value(measured: Measured<AnyKind>) -> ValueJson {
    ValueJson { value: rounded(measured.value), u: finite(measured.u) }
}

fn difference(measured: Measured<AnyKind>) -> DifferenceJson {
    DifferenceJson { value: rounded(measured.value), u: finite(measured.u), clear: measured.is_clear() }
}

fn spread(at: &Spread) -> SpreadJson {
    SpreadJson {
        at_front_percent: rounded(at.at_front_percent),
        in_frame_percent: rounded(at.in_frame_percent),
        weave: at.weave.map(value),
        front_kg: at.front_load.map(value),
        front_share_percent: at.front_share.map(value),
        pitch_over_g: at.pitch_over.map(value),
    }
}

/// What the answers are made from.
pub(super) struct Asked<'a> {
    /// The line-up.
    pub(super) lineup: &'a Lineup,
    /// Its findings.
    pub(super) findings: &'a Findings,
    /// Speeds at which the motions are wanted, m/s.
    pub(super) speeds: &'a [f64],
}

impl Asked<'_> {
    /// Everything that is known.
    pub(super) fn answer(&self) -> LoadedJson {
        let loaded = self.findings.loaded(self.lineup);
        let seat = loaded.seat.map(|seat| SeatJson {
            saddle: [rounded(seat.saddle.x), rounded(seat.saddle.y)],
            hands: [rounded(seat.hands.x), rounded(seat.hands.y)],
            bar: [rounded(seat.bar.x), rounded(seat.bar.y)],
            saddle_entered: seat.is_saddle_entered,
            cockpit_entered: seat.is_cockpit_entered,
        });
        let frames = FrameIndex::numbered(self.findings.frames.iter().zip(&loaded.frames));
        let frames = frames.map(|(index, (frame, found))| FrameJson {
            letter: frame.letter.clone(),
            name: frame.name.clone(),
            size: frame.size_label().to_owned(),
            weights_published: found.is_weight_known,
            pedal_lean: found.pedal_lean.map(|lean| ValueJson { value: rounded(lean.value), u: finite(lean.u) }),
            weight_limit: found.weight_limit.map(|limit| LimitJson { kg: rounded(limit.kg), counts: limit.of.key() }),
            loadings: (loaded.loadings.iter().zip(&found.rides).enumerate())
                .map(|(place, (loading, ride))| LoadingJson {
                    name: loading.as_ref().map(|l| l.name.clone()),
                    kg: loading.iter().flat_map(|l| &l.kg).map(|(place, kg)| (place.key(), *kg)).collect(),
                    found: self.found(index, place, ride),
                })
                .collect(),
            spread: index
                .of(self.findings.moved_luggage(self.lineup))
                .into_iter()
                .flat_map(|moved| &moved.0)
                .map(spread)
                .collect(),
        });
        LoadedJson { seat, frames: frames.collect() }
    }

    fn found(&self, frame: FrameIndex, loading: usize, ride: &Result<Ride, NotLoaded>) -> FoundJson {
        let ride = match ride {
            Ok(ride) => ride,
            Err(why) => {
                let units = self.lineup.settings.units;
                return FoundJson::Not { why: not_loaded_text(units, why), why_code: why.code() };
            }
        };
        let figure = |figure: LoadedFigure| {
            let found = ride.figure(figure);
            let by_loading =
                (loading > 0).then(|| self.findings.loaded(self.lineup).by_loading(frame, loading, figure)).flatten();
            FigureJson {
                value: found.map(|m| rounded(m.value)),
                u: found.and_then(|m| finite(m.u)),
                difference: self.findings.loaded_difference(self.lineup, frame, loading, figure).map(difference),
                by_loading: by_loading.map(difference),
            }
        };
        let rule = |rule: RuleOfThumb| {
            let effect = self.findings.loaded(self.lineup).rule_of_thumb(frame, loading, rule)?;
            let json = RuleJson {
                weave: effect.weave.map(rounded),
                front_share_percent: rounded(effect.front_share_percent),
                pitch_over_g: rounded(effect.pitch_over),
            };
            Some((rule.key(), json))
        };
        let motions = |speed: &f64| {
            let motions = ride.motions(*speed);
            let growth = |m: &Motion| value(m.growth);
            MotionsJson {
                speed: *speed,
                growth: motions.iter().map(growth).collect(),
                swing: motions.iter().map(|m| rounded(m.swing)).collect(),
            }
        };
        let named = |motion: NamedMotion| {
            let found = ride.motion(motion, USUAL_SPEED)?;
            let (growth, time_constant) = (value(found.growth), found.time_constant().map(value));
            Some((motion.key(), NamedMotionJson { growth, time_constant, swing: rounded(found.swing) }))
        };
        FoundJson::Ride {
            self_steady: ride.speeds.self_steady.iter().map(|(from, to)| (rounded(*from), finite(*to))).collect(),
            figures: LoadedFigure::ALL.into_iter().map(|f| (f.key(), figure(f))).collect(),
            at_20_km_h: NamedMotion::ALL.into_iter().filter_map(named).collect(),
            rules_of_thumb: RuleOfThumb::ALL.into_iter().filter_map(rule).collect(),
            motions: self.speeds.iter().map(motions).collect(),
        }
    }
}
