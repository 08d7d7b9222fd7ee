//! Whole columns of two sizes exchanged. Each column agrees with itself, so the figures of a size say nothing of it; what
//! tells are the rows, which step on and then back again.

use super::rows::{ln_likelihood_ratio, scale};
use crate::frameset::{Figure, Frameset, SizeIndex};

/// Sizes further apart than this are not taken to have exchanged their columns.
const MOST_APART: usize = 2;
/// So many rows at least have to step back from one size to the other.
const ROWS_BACK: usize = 2;

/// Two sizes whose columns may be exchanged: what each figure of the first and of the second is to be.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct ExchangedColumns {
    pub(super) sizes: (SizeIndex, SizeIndex),
    /// Likelihood of the rows with both exchanged over that of the printed rows, as a logarithm.
    pub(super) ln_rows: f64,
}

/// The pairs of sizes that the rows give reason to think of. A row of two sizes steps one way only, and says nothing.
pub(super) fn exchanged_columns(frameset: &Frameset) -> Vec<ExchangedColumns> {
    let n = frameset.sizes.len();
    let mut found = Vec::new();
    if n < 3 {
        return found;
    }
    for a in 0..n - 1 {
        for b in a + 1..=(a + MOST_APART).min(n - 1) {
            if !steps_back(frameset, a, b) || !prints_the_same_figures(frameset, a, b) {
                continue;
            }
            let (of_a, of_b) = (&frameset.sizes[a], &frameset.sizes[b]);
            let mut corrections = Vec::new();
            for figure in of_a.figures.keys().copied() {
                if let (Some(x), Some(y)) = (of_a.believed(figure), of_b.believed(figure))
                    && x != y
                {
                    corrections.extend([(SizeIndex(a), figure, y), (SizeIndex(b), figure, x)]);
                }
            }
            found.push(ExchangedColumns {
                sizes: (SizeIndex(a), SizeIndex(b)),
                ln_rows: ln_likelihood_ratio(frameset, &corrections),
            });
        }
    }
    found
}

/// Whether some rows step back from `a` to `b`, against the way they go from the first size to the last, and more of them
/// than step on.
fn steps_back(frameset: &Frameset, a: usize, b: usize) -> bool {
    let (mut back, mut on) = (0, 0);
    let [first, .., last] = frameset.sizes.as_slice() else { return false };
    for figure in frameset.sizes[a].figures.keys().copied().filter(|f| scale(*f).is_some()) {
        let at = |k: usize| frameset.sizes[k].believed(figure);
        if let (Some(x), Some(y), Some(from), Some(to)) = (at(a), at(b), first.believed(figure), last.believed(figure)) {
            let along = (y - x) * (to - from);
            back += usize::from(along < 0.0);
            on += usize::from(along > 0.0);
        }
    }
    back >= ROWS_BACK && back > on
}

fn prints_the_same_figures(frameset: &Frameset, a: usize, b: usize) -> bool {
    let prints = |k: usize, f: Figure| frameset.sizes[k].believed(f).is_some();
    Figure::printable().all(|f| prints(a, f) == prints(b, f))
}
