//! Charts of the loaded bicycle: what happens while luggage is moved from the rear to the front, and how weaving and falling
//! into a turn grow or die out over the speed.

use super::line_chart::{Line, LineChart};
use super::measure::wrap;
use super::pen::{Face, Pen};
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup, LoadedFindings, Spread};
use crate::loaded::{LoadedFigure, NamedMotion, Ride};
use crate::units::expanded;
use crate::words::drawings as labels;
use crate::words::{
    DIES_OUT, MOTIONS_TITLE, SPREAD_NOTE, SPREAD_TITLE, loaded_factor, loaded_short_name, motion_title, motions_note, speed_axis,
    speed_unit, spread_across, spread_sentences, spread_up, steady_range_sentence,
};

/// Which charts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LoadedCharts {
    /// Luggage moved from the rear to the front.
    Spread,
    /// Growth of the motions over the speed.
    Motions,
}

/// Height of one chart, page units.
const HEIGHT: f64 = 270.0;
/// Least width of one chart, page units.
const LEAST_WIDTH: f64 = 330.0;
const SIDE: f64 = 20.0;
const GAP: f64 = 18.0;
const NOTE: Face = Face::regular(11.5, Role::SecondInk);
const NOTE_LINE: f64 = 15.0;

/// Speeds at which the motions are computed.
const STEPS: u32 = 60;
/// Greatest speed of the charts, m/s.
const FASTEST: f64 = 50.0 / 3.6;
/// Growth that the charts show at most, 1/s.
const MOST_GROWTH: f64 = 3.0;
/// With more frames than these only the reference has a band.
const FRAMES_WITH_BANDS: usize = 3;

impl LoadedCharts {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Spread, Self::Motions];

    const fn count(self) -> usize {
        match self {
            Self::Spread => 3,
            Self::Motions => 2,
        }
    }

    /// Charts side by side in a width.
    fn columns(self, width: f64) -> usize {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
        let most = ((width - 2.0 * SIDE + GAP) / (LEAST_WIDTH + GAP)).floor().max(1.0) as usize;
        if most >= self.count() { self.count() } else { 1 }
    }
}

/// Charts on a page.
#[must_use]
pub fn loaded_charts(charts: LoadedCharts, lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let found = findings.loaded(lineup);
    let (title, drawn, note) = match charts {
        LoadedCharts::Spread => {
            let figures = [LoadedFigure::WeaveSpeed, LoadedFigure::FrontLoad, LoadedFigure::PitchOver];
            (SPREAD_TITLE, figures.map(|f| spread_chart(lineup, findings, f)).to_vec(), SPREAD_NOTE.to_owned())
        }
        LoadedCharts::Motions => {
            let drawn = NamedMotion::ALL.map(|motion| motion_chart(lineup, findings, found, motion));
            let loading = most_changing(found, reference_or_first(findings)).and_then(|i| found.loadings[i].as_ref());
            (MOTIONS_TITLE, drawn.to_vec(), motions_note(loading.map(|l| l.name.as_str())))
        }
    };
    let mut pen = Pen::default();
    let columns = charts.columns(page.width);
    let width = (page.width - 2.0 * SIDE - GAP * (columns - 1) as f64) / columns as f64;
    for (i, chart) in drawn.iter().enumerate() {
        let (column, row) = ((i % columns) as f64, (i / columns) as f64);
        chart.draw(&mut pen, Rect::new(SIDE + column * (width + GAP), row * HEIGHT, width, HEIGHT));
    }
    let mut y = charts.count().div_ceil(columns) as f64 * HEIGHT + NOTE_LINE;
    for line in wrap(&note, NOTE.size, NOTE.weight, page.width - 2.0 * SIDE, 4) {
        pen.text(Pt { x: SIDE, y }, line, NOTE, Anchor::Start);
        y += NOTE_LINE;
    }
    let told = drawn.iter().flat_map(|chart| &chart.lines).map(|line| line.detail.clone()).collect::<Vec<_>>();
    let description = if told.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { told.join(" ") };
    pen.finish(page, title, description)
}

/// The height at which they stand in that width, page units.
#[must_use]
pub fn loaded_charts_height(charts: LoadedCharts, width: f64) -> f64 {
    charts.count().div_ceil(charts.columns(width)) as f64 * HEIGHT + 3.0 * NOTE_LINE
}

fn shown(findings: &Findings) -> impl Iterator<Item = FrameIndex> {
    FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown).map(|(i, _)| i)
}

fn reference_or_first(findings: &Findings) -> Option<FrameIndex> {
    let reference = findings.reference.filter(|r| r.of(&findings.frames).is_some_and(|f| f.shown));
    reference.or_else(|| shown(findings).next())
}

fn spread_chart(lineup: &Lineup, findings: &Findings, figure: LoadedFigure) -> LineChart {
    let units = lineup.settings.units;
    let factor = loaded_factor(units, figure);
    let are_few = shown(findings).count() <= FRAMES_WITH_BANDS;
    let has_band = |place: FrameIndex| are_few || findings.reference == Some(place);
    let mut lines = Vec::new();
    for place in shown(findings) {
        let (Some(frame), Some(moved)) = (place.of(&findings.frames), place.of(findings.moved_luggage(lineup))) else { continue };
        for is_in_frame in [false, true] {
            let of_line = |s: &&Spread| (s.in_frame_percent > 0.0) == is_in_frame;
            let point = |s: &Spread| {
                let (value, u) = s.figure(figure).map_or((f64::NAN, 0.0), |m| (m.value * factor, expanded(m.u) * factor));
                (s.at_front_percent, value, if u.is_finite() && has_band(place) && !is_in_frame { u } else { 0.0 })
            };
            let points: Vec<_> = moved.0.iter().filter(of_line).map(point).collect();
            let (Some(first), Some(last)) = (points.first(), points.last()) else { continue };
            let name = if is_in_frame { String::new() } else { frame.letter.clone() };
            let detail = spread_sentences(units, figure, &frame.letter, (first.1, last.1), is_in_frame);
            lines.push(Line { name, detail, points, role: Role::FrameLetter(place), is_broken: is_in_frame });
        }
    }
    LineChart {
        up: spread_up(units, figure),
        across: spread_across(units, lineup.settings.price_and_climb.luggage_kg),
        up_range: range(&lines, (f64::NEG_INFINITY, f64::INFINITY)),
        across_range: (0.0, 100.0),
        mark: None,
        lines,
    }
}

/// Ends of the vertical axis: those of the lines and a little more, within `within`.
fn range(lines: &[Line], within: (f64, f64)) -> (f64, f64) {
    let ends = lines
        .iter()
        .flat_map(|l| &l.points)
        .filter(|p| p.1.is_finite())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| (low.min(p.1 - p.2), high.max(p.1 + p.2)));
    if ends.0.is_finite() && ends.1.is_finite() {
        let more = (ends.1 - ends.0).max(1e-3) * 0.06;
        ((ends.0 - more).max(within.0), (ends.1 + more).min(within.1))
    } else {
        (0.0, 1.0)
    }
}

/// The loading that changes the weave speed of a frame most.
fn most_changing(found: &LoadedFindings, frame: Option<FrameIndex>) -> Option<usize> {
    let weave = |ride: &Ride| ride.speeds.weave.unwrap_or(0.0);
    let rides = &frame?.of(&found.frames)?.rides;
    let loaded = rides.iter().enumerate().skip(1).filter_map(|(i, ride)| Some((i, weave(ride.as_ref().ok()?))));
    loaded.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(i, _)| i)
}

/// The reference and the first other shown frame, without luggage and with the loading that changes most.
fn motion_chart(lineup: &Lineup, findings: &Findings, found: &LoadedFindings, motion: NamedMotion) -> LineChart {
    let units = lineup.settings.units;
    let (factor, _) = speed_unit(units);
    let first = reference_or_first(findings);
    let other = shown(findings).find(|i| Some(*i) != first);
    let mut lines = Vec::new();
    let loadings: Vec<usize> = std::iter::once(0).chain(most_changing(found, first)).collect();
    for place in first.into_iter().chain(other) {
        for loading in &loadings {
            let ride = place.of(&found.frames).and_then(|f| f.rides.get(*loading)?.as_ref().ok());
            let (Some(ride), Some(frame)) = (ride, place.of(&findings.frames)) else { continue };
            let at = |step: u32| {
                let speed = FASTEST * f64::from(step) / f64::from(STEPS);
                let growth = ride.motion(motion, speed).map(|m| (m.growth.value, expanded(m.growth.u)));
                let (growth, band) = growth.unwrap_or((f64::NAN, 0.0));
                // Where two motions meet, nothing is linear: no band rather than one without end.
                (speed * factor, growth, if band < 1.0 { band } else { 0.0 })
            };
            let with = loaded_short_name(&frame.letter, found.loadings.get(*loading).and_then(Option::as_ref));
            let name = if *loading == 0 { frame.letter.clone() } else { String::new() };
            let points = (1..=STEPS).map(at).collect();
            let detail = steady_range_sentence(units, &with, &ride.speeds);
            lines.push(Line { name, detail, points, role: Role::FrameLetter(place), is_broken: *loading > 0 });
        }
    }
    let (low, high) = range(&lines, (-MOST_GROWTH, MOST_GROWTH));
    LineChart {
        up: motion_title(motion).to_owned(),
        across: speed_axis(units),
        // The line where growing ends and dying out begins is always seen.
        up_range: (low.min(-0.2), high.max(0.2)),
        across_range: (0.0, FASTEST * factor),
        mark: Some((0.0, DIES_OUT.to_owned())),
        lines,
    }
}
