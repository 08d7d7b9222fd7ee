//! Figures that are printed alike in several sizes: their rounding is one, so that n equal figures are one measurement and
//! their difference is known to be near zero.

use super::figure_set::FigureSet;
use crate::frameset::{Figure, Frameset};

/// Share of u² of the rounding that sizes with the same printed value have in common.
pub(super) const COMMON_SHARE: f64 = 0.9;
/// A row is coarse where its printing step is more than this share of the smallest step between its sizes: equal values
/// then say little of equal sizes.
const COARSE_SHARE: f64 = 0.25;
/// Smallest steps between sizes that makers design to, mm and degrees (trade practice, unverified): what tells whether a
/// row is coarse that has the same value in every size.
const DESIGNED_MM: f64 = 5.0;
const DESIGNED_DEG: f64 = 0.5;

/// So many sizes with the same value are taken to be alike, however coarse the row is.
const ALIKE_DESPITE_COARSE: usize = 3;

/// A printed value that several sizes share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Run {
    pub(super) figure: Figure,
    pub(super) value: f64,
    pub(super) step: f64,
    /// How many sizes print it.
    pub(super) sizes: usize,
}

/// The runs of a frameset's figures, but for those in `apart`, the longest first.
pub(super) fn runs(frameset: &Frameset, apart: FigureSet) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    if frameset.sizes.len() < 2 {
        return runs;
    }
    let mut row: Vec<(f64, f64)> = Vec::with_capacity(frameset.sizes.len());
    for figure in Figure::printable().filter(|f| !apart.contains(*f)) {
        row.clear();
        row.extend(frameset.sizes.iter().filter_map(|s| Some((s.believed(figure)?, frameset.step(s, figure)))));
        let before = runs.len();
        for (value, step) in &row {
            match runs[before..].iter_mut().find(|r| r.value == *value && r.step == *step) {
                Some(run) => run.sizes += 1,
                None => runs.push(Run { figure, value: *value, step: *step, sizes: 1 }),
            }
        }
        // A row that steps from size to size has no runs, only neighbours that happen to be equal.
        let distinct = runs.len() - before;
        let is_alike = distinct == 1 && row.len() >= ALIKE_DESPITE_COARSE;
        if 2 * distinct > row.len() + 1 || (is_coarse(figure, &row) && !is_alike) {
            runs.truncate(before);
        } else {
            runs.retain(|r| r.sizes > 1);
        }
    }
    runs.sort_by_key(|r| std::cmp::Reverse(r.sizes));
    runs
}

fn is_coarse(figure: Figure, row: &[(f64, f64)]) -> bool {
    let designed = if figure.is_angle() { DESIGNED_DEG } else { DESIGNED_MM };
    let between = row.windows(2).map(|pair| (pair[1].0 - pair[0].0).abs()).filter(|d| *d > 0.0);
    let smallest = between.fold(designed, f64::min);
    row.iter().any(|(_, step)| *step > COARSE_SHARE * smallest)
}
