//! A solution of the observations with its covariance, and what it says of the states of sizes.

use super::layout::Slot;
use super::least_squares::{Covariance, Options, Solution, Unknowns, solve};
use super::observations::{LOCAL, Observations, SHARED};
use super::state::STATES;
use crate::frameset::SizeIndex;

/// Solution of the adjustment with its covariance: what figures, tests and budgets are computed from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Solved {
    pub(super) solution: Solution<LOCAL, SHARED>,
    pub(super) covariance: Covariance<LOCAL, SHARED>,
}

impl Solved {
    /// `None` where the covariance cannot be computed, or is not finite.
    pub(super) fn of(observations: &Observations, start: Unknowns<LOCAL, SHARED>, options: Options) -> Option<Self> {
        let solution = solve(observations, start, options);
        let covariance = Covariance::of(observations, &solution.at)?;
        let at = &solution.at;
        let states = at.locals.iter().flatten().chain(&at.shared);
        let blocks = covariance.blocks.iter().flat_map(|b| b.local.iter().flatten().chain(b.cross.iter().flatten()));
        let is_finite = states.chain(blocks).chain(covariance.shared.iter().flatten()).all(|v| v.is_finite());
        is_finite.then_some(Self { solution, covariance })
    }
}

/// Covariance of the states of two sizes with each other; a size's own where they are the same.
pub(super) fn state_covariance(
    observations: &Observations,
    covariance: &Covariance<LOCAL, SHARED>,
    a: SizeIndex,
    b: SizeIndex,
) -> [[f64; STATES]; STATES] {
    let local = covariance.between(a.0, b.0);
    let (of_a, of_b) = (&covariance.blocks[a.0], &covariance.blocks[b.0]);
    let slots: [Slot; STATES] = std::array::from_fn(|q| observations.slot(q));
    let mut c = [[0.0; STATES]; STATES];
    for i in 0..STATES {
        for j in 0..STATES {
            c[i][j] = match (slots[i], slots[j]) {
                (Slot::Local(i), Slot::Local(j)) => local[i][j],
                (Slot::Local(i), Slot::Shared(j)) => of_a.cross[i][j],
                (Slot::Shared(i), Slot::Local(j)) => of_b.cross[j][i],
                (Slot::Shared(i), Slot::Shared(j)) => covariance.shared[i][j],
            };
        }
    }
    c
}
