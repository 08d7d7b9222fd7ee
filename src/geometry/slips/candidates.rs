//! The hypotheses that a table gives rise to.

use super::columns::ExchangedColumns;
use super::hypothesis::{Effect, Hypothesis, OtherWay, PRIORS, Prior, SlipKind, Subject};
use crate::frameset::{Figure, Frameset, LowerFit, SizeIndex};
use crate::geometry::assumption::Assumption;
use crate::geometry::observations::{Cause, Observation, Observations, lower_headset};

/// Sizes further apart than this are not taken to have exchanged a value.
const MOST_APART: usize = 2;
/// Sizes that a swapped pair of angles has to differ by, degrees.
const LEAST_BETWEEN_ANGLES: f64 = 1.0;

/// Where the observations of each size begin when all are counted through; the shared ones follow the last size.
pub(super) fn beginnings(observations: &Observations) -> Vec<usize> {
    let mut at = 0;
    let mut beginnings = Vec::with_capacity(observations.sizes.len() + 1);
    for own in &observations.sizes {
        beginnings.push(at);
        at += own.len();
    }
    beginnings.push(at);
    beginnings
}

/// A printed figure of one size.
#[derive(Clone, Copy)]
struct Cell {
    size: SizeIndex,
    figure: Figure,
    place: usize,
    value: f64,
    is_in_run: bool,
}

/// All hypotheses of a frameset.
pub(super) fn hypotheses(
    frameset: &Frameset,
    observations: &Observations,
    beginnings: &[usize],
    columns: &[ExchangedColumns],
) -> Vec<Hypothesis> {
    let shared_at = beginnings.last().copied().unwrap_or_default();
    let is_open = |size: SizeIndex, figure: Figure| size.of(&frameset.sizes).is_some_and(|s| !s.use_anyway.contains(&figure));
    let mut cells: Vec<Cell> = Vec::with_capacity(64);
    let mut commons: Vec<(Figure, usize)> = Vec::new();
    let all = SizeIndex::numbered(&observations.sizes).flat_map(|(k, own)| own.iter().map(move |o| (k, o)));
    let shared = observations.shared.iter().enumerate().map(|(j, o)| (shared_at + j, o));
    for (place, (size, observation)) in all.enumerate() {
        let Some(figure) = observation.printed_figure() else { continue };
        if observation.is_common {
            commons.push((figure, place));
        } else {
            cells.push(Cell { size, figure, place, value: observation.value, is_in_run: observation.is_in_run });
        }
    }
    commons.extend(shared.filter(|(_, o)| o.is_common).filter_map(|(place, o)| Some((o.printed_figure()?, place))));
    let mut found = Found { list: Vec::with_capacity(3 * cells.len() + 32) };
    for cell in cells.iter().filter(|c| is_open(c.size, c.figure)) {
        found.of_cell(cell, &cells);
    }
    for figure in Figure::printable() {
        let row: Vec<Cell> = cells.iter().filter(|c| c.figure == figure && is_open(c.size, figure)).copied().collect();
        if row.len() == cells.iter().filter(|c| c.figure == figure).count() && !row.is_empty() {
            found.of_row(figure, &row, frameset);
        }
        found.swapped_pairs(&row);
    }
    for (figure, place) in commons {
        if SizeIndex::all(frameset.sizes.len()).all(|size| is_open(size, figure)) {
            let prior = PRIORS.of_row(figure);
            found.off(SlipKind::AllSizes, Subject::Row(figure), vec![place], prior, prior.scale(figure));
        }
    }
    found.swapped_angles(&cells, frameset.sizes.len(), &is_open);
    for pair in columns {
        found.swapped_columns(pair.sizes, &cells, &is_open);
    }
    found.of_assumptions(observations, beginnings);
    found.list
}

/// The hypothesis that a row of figures, which stand at `places`, is measured in another way than its name says.
fn other_way(figure: Figure, places: Vec<usize>, frameset: &Frameset) -> Option<Hypothesis> {
    let prints = |f: Figure| frameset.sizes.iter().any(|s| s.believed(f).is_some());
    let reads = |other: Figure| (Effect::Reads(other), prints(other));
    let (way, (effect, prints_both)) = match figure {
        Figure::Chainstay => (OtherWay::ChainstayHorizontal, reads(Figure::ChainstayHorizontal)),
        Figure::TopTube => (OtherWay::TopTubeEffective, reads(Figure::EffectiveTopTube)),
        Figure::EffectiveTopTube => (OtherWay::EffectiveTopTubeAlong, reads(Figure::TopTube)),
        Figure::FrontCentre => (OtherWay::FrontCentreHorizontal, reads(Figure::FrontCentreHorizontal)),
        Figure::HeadTube => {
            let by = cups_mm(frameset.lower_fit());
            let effect = Effect::Off { tau: PRIORS.cups.mm, by };
            (OtherWay::HeadTubeWithCups, (effect, false))
        }
        _ => return None,
    };
    if frameset.states(way.ruled_out_by()) || prints_both || places.is_empty() {
        return None;
    }
    let (kind, prior) = (SlipKind::Convention, PRIORS.of_way(way));
    let (ln_odds, ln_more) = (prior.ln_odds(), prior.ln_more());
    Some(Hypothesis { kind, other_way: Some(way), subject: Subject::Row(figure), places, effect, ln_odds, ln_more })
}

/// Figures that may be measured in another way.
const OTHERWISE: [Figure; 5] =
    [Figure::Chainstay, Figure::HeadTube, Figure::EffectiveTopTube, Figure::TopTube, Figure::FrontCentre];

/// The hypotheses of other ways of measuring alone.
pub(super) fn other_ways(frameset: &Frameset, observations: &Observations, beginnings: &[usize]) -> Vec<Hypothesis> {
    let is_open = |f: Figure| frameset.sizes.iter().all(|s| !s.use_anyway.contains(&f));
    let places = |figure: Figure| {
        let own = observations.sizes.iter().zip(beginnings);
        let places = own.flat_map(|(own, begins)| {
            let here = own.iter().enumerate().filter(move |(_, o)| o.printed_figure() == Some(figure) && !o.is_common);
            here.map(move |(j, _)| begins + j)
        });
        places.collect()
    };
    OTHERWISE.into_iter().filter(|f| is_open(*f)).filter_map(|f| other_way(f, places(f), frameset)).collect()
}

/// Whether a figure differs from size to size as a rule, so that two equal ones are worth a thought.
const fn grows(figure: Figure) -> bool {
    matches!(
        figure,
        Figure::Stack
            | Figure::Reach
            | Figure::EffectiveTopTube
            | Figure::TopTube
            | Figure::HeadTube
            | Figure::SeatTube
            | Figure::Wheelbase
            | Figure::FrontCentre
            | Figure::FrontCentreHorizontal
            | Figure::Standover
    )
}

struct Found {
    list: Vec<Hypothesis>,
}

impl Found {
    fn push(&mut self, kind: SlipKind, subject: Subject, places: Vec<usize>, prior: Prior, effect: Effect) {
        let (ln_odds, ln_more) = (prior.ln_odds(), prior.ln_more());
        self.list.push(Hypothesis { kind, other_way: None, subject, places, effect, ln_odds, ln_more });
    }

    fn off(&mut self, kind: SlipKind, subject: Subject, places: Vec<usize>, prior: Prior, tau: f64) {
        self.push(kind, subject, places, prior, Effect::Off { tau, by: 0.0 });
    }

    fn of_cell(&mut self, cell: &Cell, cells: &[Cell]) {
        let subject = || Subject::Cells(vec![(cell.size, cell.figure)]);
        for (kind, prior) in [(SlipKind::Slip, PRIORS.slip), (SlipKind::Gross, PRIORS.gross)] {
            self.off(kind, subject(), vec![cell.place], prior, prior.scale(cell.figure));
        }
        if cell.is_in_run || !grows(cell.figure) {
            return;
        }
        let neighbours = cells.iter().filter(|c| c.figure == cell.figure && c.size.0.abs_diff(cell.size.0) == 1);
        for neighbour in neighbours.filter(|n| n.value == cell.value) {
            self.push(SlipKind::Neighbour, subject(), vec![cell.place], PRIORS.neighbour, Effect::OfSize(neighbour.size));
        }
    }

    fn of_row(&mut self, figure: Figure, row: &[Cell], frameset: &Frameset) {
        if row.len() > 1 {
            let prior = PRIORS.of_row(figure);
            let places = row.iter().map(|c| c.place).collect();
            self.off(SlipKind::AllSizes, Subject::Row(figure), places, prior, prior.scale(figure));
        }
        self.list.extend(other_way(figure, row.iter().map(|c| c.place).collect(), frameset));
    }

    /// Two sizes' values of one figure exchanged.
    fn swapped_pairs(&mut self, row: &[Cell]) {
        for (i, a) in row.iter().enumerate() {
            for b in row[i + 1..].iter().filter(|b| b.size.0 - a.size.0 <= MOST_APART && b.value != a.value) {
                let subject = Subject::Cells(vec![(a.size, a.figure), (b.size, b.figure)]);
                let effect = Effect::Values(vec![b.value, a.value]);
                self.push(SlipKind::Swapped, subject, vec![a.place, b.place], PRIORS.swapped, effect);
            }
        }
    }

    /// Head and seat angle exchanged, in one size or in all.
    fn swapped_angles(&mut self, cells: &[Cell], sizes: usize, is_open: &impl Fn(SizeIndex, Figure) -> bool) {
        let angle = |size: SizeIndex, figure: Figure| cells.iter().find(|c| c.size == size && c.figure == figure);
        let mut everywhere = (Vec::new(), Vec::new(), Vec::new());
        for size in SizeIndex::all(sizes) {
            let seat = angle(size, Figure::SeatAngle).or(angle(size, Figure::SeatTubeAngle));
            let (Some(head), Some(seat)) = (angle(size, Figure::HeadAngle), seat) else { continue };
            if !is_open(size, head.figure) || !is_open(size, seat.figure) {
                continue;
            }
            let cells = [(size, head.figure), (size, seat.figure)];
            let (places, values) = ([head.place, seat.place], [seat.value, head.value]);
            everywhere.0.extend(cells);
            everywhere.1.extend(places);
            everywhere.2.extend(values);
            if (head.value - seat.value).abs() >= LEAST_BETWEEN_ANGLES {
                let effect = Effect::Values(values.to_vec());
                self.push(SlipKind::Swapped, Subject::Cells(cells.to_vec()), places.to_vec(), PRIORS.swapped_angles, effect);
            }
        }
        if everywhere.0.len() == 2 * sizes && sizes > 1 {
            let (cells, places, values) = everywhere;
            self.push(SlipKind::Swapped, Subject::Cells(cells), places, PRIORS.swapped_angles, Effect::Values(values));
        }
    }

    /// Two sizes' whole columns exchanged.
    fn swapped_columns(&mut self, (a, b): (SizeIndex, SizeIndex), cells: &[Cell], is_open: &impl Fn(SizeIndex, Figure) -> bool) {
        let of = |size: SizeIndex| cells.iter().filter(move |c| c.size == size);
        if of(a).chain(of(b)).any(|c| !is_open(c.size, c.figure)) {
            return;
        }
        let (mut exchanged, mut places, mut values) = (Vec::new(), Vec::new(), Vec::new());
        for (own, other) in of(a).filter_map(|own| Some((own, of(b).find(|c| c.figure == own.figure)?))) {
            exchanged.extend([(a, own.figure), (b, own.figure)]);
            places.extend([own.place, other.place]);
            values.extend([other.value, own.value]);
        }
        self.push(SlipKind::Swapped, Subject::Cells(exchanged), places, PRIORS.swapped_columns, Effect::Values(values));
    }

    fn of_assumptions(&mut self, observations: &Observations, beginnings: &[usize]) {
        let shared_at = beginnings.last().copied().unwrap_or_default();
        let is_of = |o: &Observation, assumption: Assumption| o.cause == Cause::Assumed(assumption);
        for assumption in Assumption::ALL {
            let prior = match assumption {
                Assumption::SeatTubeSetback => PRIORS.setback,
                Assumption::LowerHeadset => PRIORS.lower_headset,
                Assumption::RearTyreRadius | Assumption::FrontTyreRadius => PRIORS.tyre_radius,
                _ => PRIORS.junction,
            };
            let mut places: Vec<usize> = observations
                .shared
                .iter()
                .enumerate()
                .filter(|(_, o)| is_of(o, assumption))
                .map(|(j, _)| shared_at + j)
                .collect();
            if places.is_empty() {
                for (own, begins) in observations.sizes.iter().zip(beginnings) {
                    let here = own.iter().enumerate().filter(|(_, o)| is_of(o, assumption));
                    places.extend(here.map(|(j, _)| begins + j));
                }
            }
            if !places.is_empty() {
                self.off(SlipKind::Assumption, Subject::Assumption(assumption), places, prior, prior.mm);
            }
        }
    }
}

/// How much longer a head tube is with the cups of its headset, mm: the assumed lower stack height, and about as much of
/// the upper cup (trade practice, unverified).
fn cups_mm(fit: LowerFit) -> f64 {
    2.0 * lower_headset(fit).0
}
