//! The budget of a figure: which printed step or assumption makes how much of its u².
//!
//! Observation i contributes (∇g C aᵢ / σᵢ)², where aᵢ is its gradient and σᵢ its u; since C = (Σ aᵢ aᵢᵀ / σᵢ²)⁻¹, the
//! shares add up to one.

use super::adjusted::Adjusted;
use super::formulas::figure;
use super::least_squares::Problem;
use super::observations::{Cause, LOCAL, Observation, SHARED};
use crate::frameset::{Figure, Frameset, SizeIndex};

/// A part of a figure's u².
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// What makes it.
    pub cause: Cause,
    /// Label of the size whose figure it is; `None` for what all sizes share.
    pub size: Option<String>,
    /// 0 to 1.
    pub share: f64,
}

/// The budget of `figure_of` in the size at `index`: all shares, the largest first; they add up to one. `adjusted` is
/// what [`adjust`](super::adjust()) made of `frameset`, whose solution is used again. Empty for a size that is not there.
#[must_use]
pub fn budget(frameset: &Frameset, adjusted: &Adjusted, index: SizeIndex, figure_of: Figure) -> Vec<Share> {
    let Some(likeliest) = adjusted.sets.first() else { return Vec::new() };
    let observations = &likeliest.observations;
    let (at, covariance) = (&likeliest.solved.solution.at, &likeliest.solved.covariance);
    if index.of(&frameset.sizes).is_none() || at.locals.len() != frameset.sizes.len() {
        return Vec::new();
    }
    let state = observations.state(&at.locals[index.0], &at.shared);
    let gradient = figure(figure_of, &state.jets(), observations.top_tubes[index.0]).gradient;
    let (local, shared) = observations.split(&gradient, 1.0);
    let block = &covariance.blocks[index.0];
    // p = cov(g, shared unknowns), q = cov(g, own local unknowns).
    let mut p = [0.0; SHARED];
    let mut q = [0.0; LOCAL];
    for s in 0..SHARED {
        p[s] = (0..LOCAL).map(|i| local[i] * block.cross[i][s]).sum::<f64>()
            + (0..SHARED).map(|t| shared[t] * covariance.shared[t][s]).sum::<f64>();
    }
    for i in 0..LOCAL {
        q[i] = (0..LOCAL).map(|j| local[j] * block.local[j][i]).sum::<f64>()
            + (0..SHARED).map(|s| shared[s] * block.cross[i][s]).sum::<f64>();
    }
    let mut shares = Vec::new();
    let mut rows = Vec::new();
    for (k, own) in observations.sizes.iter().enumerate() {
        rows.clear();
        observations.rows(k, &at.locals[k], &at.shared, &mut rows);
        for (observation, row) in own.iter().zip(&rows) {
            let through_shared = |a: &[f64; SHARED]| (0..SHARED).map(|s| p[s] * a[s]).sum::<f64>();
            let part = if k == index.0 {
                (0..LOCAL).map(|i| q[i] * row.local[i]).sum::<f64>() + through_shared(&row.shared)
            } else {
                let carried: [f64; SHARED] = std::array::from_fn(|s| {
                    row.shared[s] - (0..LOCAL).map(|i| covariance.blocks[k].carry[s][i] * row.local[i]).sum::<f64>()
                });
                through_shared(&carried)
            };
            push(&mut shares, observation, Some(&frameset.sizes[k].label), part * part);
        }
    }
    rows.clear();
    observations.shared_rows(&at.shared, &mut rows);
    for (observation, row) in observations.shared.iter().zip(&rows) {
        let part: f64 = (0..SHARED).map(|s| p[s] * row.shared[s]).sum();
        push(&mut shares, observation, None, part * part);
    }
    let total: f64 = (0..LOCAL).map(|i| q[i] * local[i]).sum::<f64>() + (0..SHARED).map(|s| p[s] * shared[s]).sum::<f64>();
    // What the likeliest set does not make is the doubt which set is right.
    let whole = adjusted.sizes[index].value(figure_of).u.powi(2);
    let scale = if adjusted.sets.len() == 1 { 1.0 } else { (total / whole.max(1e-300)).min(1.0) };
    for share in &mut shares {
        share.share *= scale / total.max(1e-300);
    }
    if scale < 1.0 {
        shares.push(Share { cause: Cause::Slips, size: None, share: 1.0 - scale });
    }
    shares.sort_by(|a, b| b.share.total_cmp(&a.share));
    shares
}

fn push(shares: &mut Vec<Share>, observation: &Observation, size: Option<&String>, variance: f64) {
    if variance == 0.0 {
        return;
    }
    shares.push(Share { cause: observation.cause, size: size.filter(|_| !observation.is_common).cloned(), share: variance });
}
