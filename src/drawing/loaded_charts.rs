//! Two charts of the loaded bicycle: from which speed it steadies itself while luggage is moved from the rear to the front,
//! and how fast its slowest motion dies out over the speed.

use super::line_chart::{Line, LineChart};
use super::pen::Pen;
use super::rect::Rect;
use super::scene::{Page, Role, Scene};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup, LoadedFindings, Spread};
use crate::loaded::Ride;
use crate::units::expanded;
use crate::words::drawings as labels;
use crate::words::{
    DIES_OUT, GROWTH_TITLE, SPREAD_TITLE, WITH_A_THIRD_IN_THE_FRAME, loaded_short_name, luggage_in_front, speed_axis, speed_unit,
    spread_sentences, spread_up,
};

/// Which chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LoadedChart {
    /// Luggage moved from the rear to the front.
    Spread,
    /// Growth of the slowest motion over the speed.
    Growth,
}

/// Height at which a chart stands at ease, page units.
pub const LOADED_CHART_HEIGHT: f64 = 270.0;

/// Speeds at which the motions are computed.
const STEPS: u32 = 60;
/// Greatest speed of the chart, m/s.
const FASTEST: f64 = 50.0 / 3.6;
/// Growth that the chart shows, 1/s.
const GROWTH: (f64, f64) = (-2.0, 3.0);

/// A chart on a page.
#[must_use]
pub fn loaded_chart(chart: LoadedChart, lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let found = findings.loaded(lineup);
    let (title, drawn) = match chart {
        LoadedChart::Spread => (SPREAD_TITLE, spread_chart(lineup, findings, found)),
        LoadedChart::Growth => (GROWTH_TITLE, growth_chart(lineup, findings, found)),
    };
    let mut pen = Pen::default();
    drawn.draw(&mut pen, Rect::new(20.0, 0.0, page.width - 40.0, page.height));
    let told = drawn.lines.iter().map(|line| line.detail.clone()).collect::<Vec<_>>();
    let description = if told.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { told.join(" ") };
    pen.finish(page, title, description)
}

fn shown(findings: &Findings) -> impl Iterator<Item = FrameIndex> {
    FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown).map(|(i, _)| i)
}

fn spread_chart(lineup: &Lineup, findings: &Findings, found: &LoadedFindings) -> LineChart {
    let units = lineup.settings.units;
    let (factor, _) = speed_unit(units);
    let whole = lineup.settings.price_and_climb.luggage_kg;
    let mut lines = Vec::new();
    for place in shown(findings) {
        let (Some(frame), Some(loaded)) = (place.of(&findings.frames), place.of(&found.frames)) else { continue };
        for is_in_frame in [false, true] {
            let of_line = |s: &&Spread| (s.in_frame_percent > 0.0) == is_in_frame;
            let points: Vec<_> = loaded
                .spread
                .iter()
                .filter(of_line)
                .map(|s| (s.at_front_percent, s.weave.map_or(f64::NAN, |v| v * factor), 0.0))
                .collect();
            let (Some(first), Some(last)) = (points.first(), points.last()) else { continue };
            let name = if is_in_frame { format!("{}{WITH_A_THIRD_IN_THE_FRAME}", frame.letter) } else { frame.letter.clone() };
            let detail = spread_sentences(units, &frame.letter, (first.1, last.1), is_in_frame);
            lines.push(Line { name, detail, points, role: Role::FrameLetter(place), is_broken: is_in_frame });
        }
    }
    let ends = lines
        .iter()
        .flat_map(|l| &l.points)
        .filter(|p| p.1.is_finite())
        .fold((f64::INFINITY, 0.0_f64), |(low, high), p| (low.min(p.1), high.max(p.1)));
    let range = if ends.0.is_finite() { (ends.0 - 1.0, ends.1 + 1.0) } else { (0.0, 1.0) };
    LineChart {
        up: spread_up(units),
        across: luggage_in_front(units, whole),
        up_range: range,
        across_range: (0.0, 100.0),
        mark: None,
        lines,
    }
}

/// The reference and the first other shown frame, without luggage and with the loading that changes most.
fn growth_chart(lineup: &Lineup, findings: &Findings, found: &LoadedFindings) -> LineChart {
    let units = lineup.settings.units;
    let (factor, _) = speed_unit(units);
    let reference = findings.reference.filter(|r| r.of(&findings.frames).is_some_and(|f| f.shown));
    let other = shown(findings).find(|i| Some(*i) != reference);
    let weave = |ride: &Ride| ride.speeds.weave.unwrap_or(0.0);
    let most = |frame: FrameIndex| {
        let rides = &frame.of(&found.frames)?.rides;
        let loaded = rides.iter().enumerate().skip(1).filter_map(|(i, ride)| Some((i, weave(ride.as_ref().ok()?))));
        loaded.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(i, _)| i)
    };
    let mut lines = Vec::new();
    let loadings: Vec<usize> = std::iter::once(0).chain(reference.or(other).and_then(most)).collect();
    for place in reference.into_iter().chain(other) {
        for loading in &loadings {
            let ride = place.of(&found.frames).and_then(|f| f.rides.get(*loading)?.as_ref().ok());
            let (Some(ride), Some(frame)) = (ride, place.of(&findings.frames)) else { continue };
            let at = |step: u32| {
                let speed = FASTEST * f64::from(step) / f64::from(STEPS);
                let slowest = ride.motions(speed).into_iter().next();
                let (growth, band) = slowest.map_or((f64::NAN, 0.0), |m| (m.growth.value, expanded(m.growth.u)));
                // Where two motions meet, nothing is linear: no band rather than one without end.
                (speed * factor, growth, if band < 1.0 { band } else { 0.0 })
            };
            let name = loaded_short_name(&frame.letter, found.loadings.get(*loading).and_then(Option::as_ref));
            let points = (1..=STEPS).map(at).collect();
            let detail = crate::words::steady_range_sentence(units, &name, &ride.speeds);
            lines.push(Line { name, detail, points, role: Role::FrameLetter(place), is_broken: *loading > 0 });
        }
    }
    LineChart {
        up: GROWTH_TITLE.to_owned(),
        across: speed_axis(units),
        up_range: GROWTH,
        across_range: (0.0, FASTEST * factor),
        mark: Some((0.0, DIES_OUT.to_owned())),
        lines,
    }
}
