//! States and covariances over all sets of hypotheses that count, weighed with their chances.

use super::slips::WeighedSet;
use super::solved::state_covariance;
use super::state::{STATES, State};
use crate::frameset::SizeIndex;

/// State and covariance of a size over all sets: x̄ = Σ π x, C̄ = Σ π (C + (x − x̄)(x − x̄)ᵀ).
pub(super) fn averaged(sets: &[WeighedSet], index: SizeIndex) -> (State<f64>, [[f64; STATES]; STATES]) {
    let states: Vec<State<f64>> = sets.iter().map(|s| state_of(s, index)).collect();
    let mean = mean_state(sets, &states);
    let mut covariance = [[0.0; STATES]; STATES];
    for (set, state) in sets.iter().zip(&states) {
        let own = between_sizes_by(set, index, index);
        let off: [f64; STATES] = std::array::from_fn(|i| state.0[i] - mean.0[i]);
        for i in 0..STATES {
            for j in 0..STATES {
                covariance[i][j] += set.chance * (own[i][j] + off[i] * off[j]);
            }
        }
    }
    (mean, covariance)
}

fn state_of(set: &WeighedSet, index: SizeIndex) -> State<f64> {
    let at = &set.solved.solution.at;
    set.observations.state(&at.locals[index.0], &at.shared)
}

fn mean_state(sets: &[WeighedSet], states: &[State<f64>]) -> State<f64> {
    match states {
        [only] => *only,
        _ => State(std::array::from_fn(|i| sets.iter().zip(states).map(|(set, s)| set.chance * s.0[i]).sum())),
    }
}

/// A size by the likeliest of the sets that its state and covariance were averaged over.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LikeliestState {
    pub(super) chance: f64,
    pub(super) state: State<f64>,
    pub(super) covariance: [[f64; STATES]; STATES],
}

/// A size by the likeliest set; `None` where there is one alone.
pub(super) fn likeliest(sets: &[WeighedSet], index: SizeIndex) -> Option<Box<LikeliestState>> {
    let [first, _, ..] = sets else { return None };
    let (chance, state, covariance) = (first.chance, state_of(first, index), between_sizes_by(first, index, index));
    Some(Box::new(LikeliestState { chance, state, covariance }))
}

/// Covariance of the states of two sizes with each other, by one set.
pub(super) fn between_sizes_by(set: &WeighedSet, a: SizeIndex, b: SizeIndex) -> [[f64; STATES]; STATES] {
    let own = state_covariance(&set.observations, &set.solved.covariance, a, b);
    own.map(|row| row.map(|c| set.spread * c))
}

/// Covariance of the states of two sizes with each other, over all sets.
pub(super) fn between_sizes(sets: &[WeighedSet], a: SizeIndex, b: SizeIndex) -> [[f64; STATES]; STATES] {
    let of = |index: SizeIndex| sets.iter().map(|s| state_of(s, index)).collect::<Vec<_>>();
    let (of_a, of_b) = (of(a), of(b));
    let (mean_a, mean_b) = (mean_state(sets, &of_a), mean_state(sets, &of_b));
    let mut covariance = [[0.0; STATES]; STATES];
    for (k, set) in sets.iter().enumerate() {
        let own = between_sizes_by(set, a, b);
        for i in 0..STATES {
            for j in 0..STATES {
                let off = (of_a[k].0[i] - mean_a.0[i]) * (of_b[k].0[j] - mean_b.0[j]);
                covariance[i][j] += set.chance * (own[i][j] + off);
            }
        }
    }
    covariance
}
