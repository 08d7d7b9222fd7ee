//! The adjustment: from what was printed to one frame, all sizes of a frameset together.
//!
//! Weighted least squares over [`Observations`](super::observations); C = N⁻¹ gives every figure its u, each printed
//! figure is tested against what the others predict (data snooping: W. Baarda, *A testing procedure for use in geodetic
//! networks*, Netherlands Geodetic Commission, 1968; citation from memory), and what stays undetermined is missing.

use std::sync::Arc;

use super::adjusted::{Adjusted, AdjustedSize, Origin, Value, unknown_values};
use super::assumption::{Assumption, Assumptions};
use super::averaged::{averaged, likeliest};
use super::doubt::doubts;
use super::figure_set::missing_above;
use super::formulas::figure;
use super::least_squares::{BlockCovariance, Covariance, Options, Solution, dot};
use super::observations::{Cause, LOCAL, Observations, Reads, SHARED, quantity_of, whole_sigma};
use super::second_order::second_order_variance;
use super::slips::{Explained, explain};
use super::solved::Solved;
use super::state::{Quantity, STATES};
use crate::frameset::{Figure, Frameset, Size, SizeIndex};

/// A figure is partly assumed where an assumption makes more than this share of its u².
const ASSUMED_ABOVE: f64 = 0.1;

/// Adjusts a frameset. Answers for any frameset whose values are finite: no NaN, no panic.
#[must_use]
pub fn adjust(frameset: &Frameset) -> Adjusted {
    let observations = Observations::of(frameset);
    let solved = solve_for(frameset, &observations);
    let Explained { sets, slips, slip_free, settling, is_unexplained } = explain(frameset, &observations, solved);
    let mut sizes = Vec::with_capacity(frameset.sizes.len());
    for (index, size) in SizeIndex::numbered(&frameset.sizes) {
        let (state, covariance) = averaged(&sets, index);
        let mut adjusted = AdjustedSize {
            label: size.label.clone(),
            state,
            covariance,
            likeliest: likeliest(&sets, index),
            top_tube: observations.top_tubes[index.0],
            doubts: doubts(&slips, index),
            values: unknown_values(),
        };
        fill_values(&mut adjusted, size, &observations, index);
        sizes.push(adjusted);
    }
    let converged = sets.iter().all(|s| s.solved.solution.converged);
    let lower_fit = frameset.lower_fit();
    Adjusted { sizes, slips, slip_free, settling, is_unexplained, converged, lower_fit, sets: Arc::new(sets) }
}

fn solve_for(frameset: &Frameset, observations: &Observations) -> Solved {
    let options = Options { damping: 1e-9, tolerance: 1e-4, max_evaluations: 200 };
    let begin = observations.begin(frameset);
    if let Some(solved) = Solved::of(observations, begin.clone(), options) {
        return solved;
    }
    // Not reached from checked files: the start values keep N regular. Should it happen, the start is an honest answer
    // with the start values' own uncertainty.
    let block = BlockCovariance {
        local: diagonal(Quantity::ALL.map(|q| q.start().1 * q.start().1).first_chunk().copied().unwrap_or([1e6; LOCAL])),
        cross: [[0.0; SHARED]; LOCAL],
        carry: [[0.0; LOCAL]; SHARED],
        root: diagonal([1e3; LOCAL]),
    };
    let covariance = Covariance {
        shared: diagonal([1e6; SHARED]),
        blocks: vec![block; begin.locals.len()],
        shared_root: diagonal([1e3; SHARED]),
        ln_det: 0.0,
        in_use: SHARED,
    };
    Solved { solution: Solution { at: begin, chi_squared: f64::INFINITY, converged: false, evaluations: 0 }, covariance }
}

fn diagonal<const N: usize>(values: [f64; N]) -> [[f64; N]; N] {
    let mut matrix = [[0.0; N]; N];
    for (i, value) in values.into_iter().enumerate() {
        matrix[i][i] = value;
    }
    matrix
}

/// C g.
pub(super) fn times(c: &[[f64; STATES]; STATES], gradient: &[f64; STATES]) -> [f64; STATES] {
    let mut product = [0.0; STATES];
    for (row, g) in c.iter().zip(gradient) {
        if *g != 0.0 {
            for (p, c) in product.iter_mut().zip(row) {
                *p += c * g;
            }
        }
    }
    product
}

fn fill_values(adjusted: &mut AdjustedSize, size: &Size, observations: &Observations, index: SizeIndex) {
    let jets = adjusted.state.jets();
    let mut assumed: Vec<(Assumption, f64)> = Vec::with_capacity(Assumption::ALL.len());
    let mut same_tyres = None;
    for observation in observations.shared.iter().chain(&observations.sizes[index.0]) {
        match observation.cause {
            Cause::Assumed(a) if !matches!(observation.reads, Reads::Shared(_)) => {
                assumed.push((a, whole_sigma(a, observation.sigma)));
            }
            Cause::SameTyres => same_tyres = Some(observation.sigma),
            _ => {}
        }
    }
    for figure_of in Figure::ALL.iter().copied() {
        let (value, cg, u_squared) = if let Some(quantity) = quantity_of(figure_of) {
            let i = quantity.index();
            (adjusted.state.0[i], adjusted.covariance[i], adjusted.covariance[i][i])
        } else {
            let jet = figure(figure_of, &jets, adjusted.top_tube);
            let cg = times(&adjusted.covariance, &jet.gradient);
            let second = second_order_variance(figure_of, &jets, |g| adjusted.variance(g));
            (jet.value, cg, dot(&cg, &jet.gradient) + second)
        };
        let u_squared = u_squared.max(0.0);
        let u = u_squared.sqrt();
        let mut partly = Assumptions::default();
        for (assumption, sigma) in &assumed {
            let part = cg[assumption.quantity().index()] / sigma;
            if part * part > ASSUMED_ABOVE * u_squared {
                partly.insert(*assumption);
            }
        }
        if let Some(sigma) = same_tyres {
            let part = (cg[Quantity::FrontTyreRadius.index()] - cg[Quantity::RearTyreRadius.index()]) / sigma;
            if part * part > ASSUMED_ABOVE * u_squared {
                partly.insert(Assumption::FrontTyreRadius);
            }
        }
        let printed = size.figures.get(&figure_of).copied();
        let is_believed = size.believed(figure_of).is_some();
        let is_assumed_quantity = assumed.iter().any(|(a, _)| Some(a.quantity()) == quantity_of(figure_of))
            || (figure_of == Figure::FrontTyreRadius && same_tyres.is_some());
        let origin = if is_believed {
            Origin::Published
        } else if is_assumed_quantity {
            Origin::Assumed
        } else {
            Origin::Computed
        };
        adjusted.values[figure_of as usize] = Value {
            figure: figure_of,
            value,
            u,
            origin,
            assumed: partly,
            printed,
            is_ignored: printed.is_some() && !is_believed,
            is_missing: !(u <= missing_above(figure_of) && value.is_finite()),
            likeliest: adjusted.likeliest_figure(figure_of),
        };
    }
}
