//! Figures that are printed alike in several sizes: their rounding is one, so that n equal figures are one measurement and
//! their difference is known to be near zero.

use super::figure_set::FigureSet;
use super::observations::u_of_step;
use crate::frameset::{Figure, Frameset};

/// Share of u² of the rounding that sizes with the same printed value have in common; also sizes whose values step evenly
/// from one to the next.
const COMMON_SHARE: f64 = 0.9;
/// The same of angles that step or stay from size to size, unevenly: steps finer than the printing may lie behind them.
const STAIRS_SHARE: f64 = 0.5;
/// A row is coarse where its printing step is more than this share of the smallest step between its sizes: equal values
/// then say little of equal sizes.
const COARSE_SHARE: f64 = 0.25;
/// Smallest steps between sizes that makers design to, mm and degrees (trade practice, unverified): what tells whether a
/// row is coarse that has the same value in every size.
const DESIGNED_MM: f64 = 5.0;
const DESIGNED_DEG: f64 = 0.5;

/// Largest step of an angle from size to size that belongs to the design, degrees.
const MOST_BETWEEN_ANGLES: f64 = 1.0;

/// So many sizes with the same value are taken to be alike, however coarse the row is.
const ALIKE_DESPITE_COARSE: usize = 3;

/// A printed value, or a row of them, whose rounding several sizes share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Run {
    pub(super) figure: Figure,
    /// The value; `None` for all of a row.
    pub(super) value: Option<f64>,
    pub(super) step: f64,
    /// How many sizes print it.
    pub(super) sizes: usize,
    /// Share of u² of the rounding that they have in common.
    pub(super) share: f64,
}

impl Run {
    /// Whether the rounding of a figure is part of it.
    pub(super) fn holds(&self, figure: Figure, value: f64, step: f64) -> bool {
        self.figure == figure && self.step == step && self.value.is_none_or(|v| v == value)
    }

    /// The u of the rounding that it has in common.
    pub(super) fn common_u(&self) -> f64 {
        self.share.sqrt() * u_of_step(self.step)
    }

    /// Whether that is nearly all of the rounding, so that it is bounded by half a step.
    pub(super) fn is_whole(&self) -> bool {
        self.share >= COMMON_SHARE
    }
}

/// The runs of a frameset's figures, but for those in `apart`, the longest first.
pub(super) fn runs(frameset: &Frameset, apart: FigureSet) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    if frameset.sizes.len() < 2 {
        return runs;
    }
    let mut row: Vec<(f64, f64)> = Vec::with_capacity(frameset.sizes.len());
    // Of two seat angles that are both printed, one follows from the other: it is alike by chance.
    let prints_seat_angle = frameset.sizes.iter().any(|s| s.believed(Figure::SeatAngle).is_some());
    let follows = |f: Figure| f == Figure::SeatTubeAngle && prints_seat_angle;
    for figure in Figure::printable().filter(|f| !apart.contains(*f) && !follows(*f)) {
        row.clear();
        row.extend(frameset.sizes.iter().filter_map(|s| Some((s.believed(figure)?, frameset.step(s, figure)))));
        let before = runs.len();
        for (value, step) in &row {
            match runs[before..].iter_mut().find(|r| r.value == Some(*value) && r.step == *step) {
                Some(run) => run.sizes += 1,
                None => runs.push(Run { figure, value: Some(*value), step: *step, sizes: 1, share: COMMON_SHARE }),
            }
        }
        // A row that steps from size to size has no runs, only neighbours that happen to be equal.
        let distinct = runs.len() - before;
        let is_alike = distinct == 1 && row.len() >= ALIKE_DESPITE_COARSE;
        if 2 * distinct > row.len() + 1 || (is_coarse(figure, &row) && !is_alike) {
            runs.truncate(before);
            runs.extend(stairs(figure, &row));
        } else {
            runs.retain(|r| r.sizes > 1);
        }
    }
    runs.sort_by_key(|r| std::cmp::Reverse(r.sizes));
    runs
}

/// A row of angles that steps from size to size, by the same step or not at all. Its rounding is one where it steps evenly:
/// the steps are what the maker designs to, and printed exactly.
fn stairs(figure: Figure, row: &[(f64, f64)]) -> Option<Run> {
    if !figure.is_angle() || row.len() < 2 || row.iter().any(|(_, step)| *step != row[0].1) {
        return None;
    }
    let steps: Vec<f64> = row.windows(2).map(|pair| pair[1].0 - pair[0].0).collect();
    let first = steps.iter().copied().find(|s| *s != 0.0)?;
    let is_one = |s: f64| (s - first).abs() < 1e-6;
    if first.abs() > MOST_BETWEEN_ANGLES || !steps.iter().all(|s| *s == 0.0 || is_one(*s)) {
        return None;
    }
    let share = if steps.len() > 1 && steps.iter().all(|s| is_one(*s)) { COMMON_SHARE } else { STAIRS_SHARE };
    Some(Run { figure, value: None, step: row[0].1, sizes: row.len(), share })
}

fn is_coarse(figure: Figure, row: &[(f64, f64)]) -> bool {
    let designed = if figure.is_angle() { DESIGNED_DEG } else { DESIGNED_MM };
    let between = row.windows(2).map(|pair| (pair[1].0 - pair[0].0).abs()).filter(|d| *d > 0.0);
    let smallest = between.fold(designed, f64::min);
    row.iter().any(|(_, step)| *step > COARSE_SHARE * smallest)
}
