//! Rounding is bounded: a figure that is printed to half a degree is off by a quarter of one at most, however sure the
//! others are of more. The adjustment stands in for that with a normal error of the same u. Where the error that a set of
//! hypotheses needs lies beyond the bound, the set explains less than the normal error says, by what is computed here.
//!
//! The joint normal distribution of the rounding errors that matter is corrected for one bound after the other, the most
//! strained first, each time matching mean and variance (assumed-density filtering: T. Minka, *A family of algorithms for
//! approximate Bayesian inference*, 2001, §3.1; citation from memory).

use super::project::Projection;
use crate::frameset::Figure;
use crate::geometry::observations::{Cause, Observations, Reads};
use crate::units::probability_below;

/// Half a printing step over the standard uncertainty that stands for it.
const HALF_STEP: f64 = 1.7320508075688772;
/// Least difference of precisions, in those of the prior, from which the others say anything of a rounding error.
const TELLS: f64 = 1e-6;
/// ln √(2π).
const LN_ROOT_TAU: f64 = 0.9189385332046727;
/// What a single rounding error can speak against a set at most, so that no sum is lost among large numbers.
const LEAST_LN: f64 = -1e3;
/// So many standard deviations beyond a bound everything is as unlikely.
const FARTHEST: f64 = 8.0;

/// A rounding error as a sum of residuals, each by its place and factor, in units of the u that stands for it.
type RoundingError = Vec<(usize, f64)>;

/// ln of the probability of the observations with bounded rounding over that with normal rounding, at one solution. 0 where
/// nothing is strained. Counted are the roundings that all sizes share and those of angles, which are printed coarsely.
/// `but_for` are the places of observations that are not only rounded.
pub(super) fn ln_bounded(projection: &mut Projection<'_>, but_for: &[usize]) -> f64 {
    let errors: Vec<RoundingError> = rounding_errors(projection.observations(), but_for);
    if errors.is_empty() {
        return 0.0;
    }
    let n = errors.len();
    let mut means: Vec<f64> =
        errors.iter().map(|e| e.iter().map(|(place, factor)| factor * projection.residual(*place)).sum()).collect();
    let mut covariance = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            for (a, by_a) in &errors[i] {
                for (b, by_b) in &errors[j] {
                    covariance[i][j] += by_a * by_b * projection.common(*a, *b);
                }
            }
            covariance[j][i] = covariance[i][j];
        }
    }
    let mut left: Vec<usize> = (0..n).collect();
    let mut ln = 0.0;
    while let Some(at) = (0..left.len()).max_by(|a, b| means[left[*a]].abs().total_cmp(&means[left[*b]].abs())) {
        let i = left.swap_remove(at);
        let variance = covariance[i][i];
        let precision = 1.0 / variance - 1.0;
        if precision < TELLS || !precision.is_finite() {
            continue;
        }
        let bound = Bound::of(means[i] / variance / precision, 1.0 / precision);
        ln += bound.ln;
        let gains: Vec<f64> = covariance[i].iter().map(|c| c / variance).collect();
        let (shift, change) = (bound.mean - means[i], bound.variance - variance);
        for j in 0..n {
            means[j] += gains[j] * shift;
            for k in 0..n {
                covariance[j][k] += gains[j] * gains[k] * change;
            }
        }
    }
    ln
}

fn rounding_errors(observations: &Observations, but_for: &[usize]) -> Vec<RoundingError> {
    let mut errors = Vec::new();
    let shared_at: usize = observations.sizes.iter().map(Vec::len).sum();
    let slot_at = |slot: usize| observations.shared.iter().position(|o| o.reads == Reads::Shared(slot));
    for (place, observation) in observations.sizes.iter().flatten().enumerate() {
        let is_angle = observation.printed_figure().is_some_and(Figure::is_angle);
        if !is_angle || observation.is_in_run || but_for.contains(&place) {
            continue;
        }
        match observation.terms[0].and_then(|(slot, _)| slot_at(slot)) {
            None => errors.push(vec![(place, 1.0)]),
            Some(at) => {
                // What the size has of its own, and what it shares: together they are the rounding.
                let (own, common) = (observation.sigma, observations.shared[at].sigma);
                let u = own.hypot(common);
                errors.push(vec![(place, own / u), (shared_at + at, -common / u)]);
            }
        }
    }
    for (at, observation) in observations.shared.iter().enumerate() {
        let is_rounding = matches!((observation.cause, observation.reads), (Cause::Printed(_), Reads::Shared(_)));
        if is_rounding && !observation.is_part {
            errors.push(vec![(shared_at + at, 1.0)]);
        }
    }
    errors
}

/// What a bounded rounding error comes to, given what the others say of it.
struct Bound {
    ln: f64,
    mean: f64,
    variance: f64,
}

impl Bound {
    /// The others say `mean` with `variance`, in units of the rounding's own σ.
    fn of(mean: f64, variance: f64) -> Self {
        let sigma = variance.sqrt();
        let (low, high) = ((-HALF_STEP - mean) / sigma, (HALF_STEP - mean) / sigma);
        // By symmetry the upper bound is the nearer one, so that differences of tails keep their digits.
        let (low, high, sign) = if mean > 0.0 { (low, high, 1.0) } else { (-high, -low, -1.0) };
        // Far beyond the bound, by the first term of the tail's asymptotic series.
        let ln_tail = |z: f64| -0.5 * z * z - z.abs().ln() - LN_ROOT_TAU;
        let is_far = high < -FARTHEST;
        let (low, high) = (low, high.max(-FARTHEST));
        let inside = (probability_below(high) - probability_below(low)).max(f64::MIN_POSITIVE);
        let ln_inside = if is_far { ln_tail((HALF_STEP - mean.abs()) / sigma) } else { inside.ln() };
        let ln_normal = -0.5 * mean * mean / (1.0 + variance) - 0.5 * variance.ln_1p() - LN_ROOT_TAU;
        let (at_low, at_high) = (density(low), density(high));
        let lean = (at_low - at_high) / inside;
        let weigh = |z: f64, d: f64| if z.is_finite() { z * d } else { 0.0 };
        let narrowed = 1.0 + (weigh(low, at_low) - weigh(high, at_high)) / inside - lean * lean;
        Self {
            ln: (ln_inside - (2.0 * HALF_STEP).ln() - ln_normal).max(LEAST_LN),
            mean: (mean + sign * sigma * lean).clamp(-HALF_STEP, HALF_STEP),
            variance: variance * narrowed.clamp(1e-6, 1.0),
        }
    }
}

fn density(z: f64) -> f64 {
    (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By quadrature over the bounded error: probability of the observations, mean and variance of the error.
    fn by_quadrature(mean: f64, variance: f64) -> (f64, f64, f64) {
        let steps = 200_000;
        let (mut sum, mut first, mut second) = (0.0, 0.0, 0.0);
        for i in 0..steps {
            let e = -HALF_STEP + (f64::from(i) + 0.5) * 2.0 * HALF_STEP / f64::from(steps);
            let weight = (-0.5 * (e - mean) * (e - mean) / variance).exp() / (std::f64::consts::TAU * variance).sqrt();
            sum += weight / f64::from(steps);
            first += e * weight / f64::from(steps);
            second += e * e * weight / f64::from(steps);
        }
        let normal = (-0.5 * mean * mean / (1.0 + variance)).exp() / (std::f64::consts::TAU * (1.0 + variance)).sqrt();
        ((sum / normal).ln(), first / sum, second / sum - (first / sum) * (first / sum))
    }

    #[test]
    fn one_bounded_error_is_as_by_quadrature() {
        for (mean, variance) in [(0.0, 0.2), (1.5, 0.05), (-1.5, 0.05), (3.0, 0.2), (-3.0, 0.3), (0.4, 30.0)] {
            let (ln, at, wide) = by_quadrature(mean, variance);
            let bound = Bound::of(mean, variance);
            assert!((bound.ln - ln).abs() < 1e-6, "{mean} {variance}: {} {ln}", bound.ln);
            assert!((bound.mean - at).abs() < 1e-6 && (bound.variance - wide).abs() < 1e-6, "{mean} {variance}");
        }
    }

    #[test]
    fn far_beyond_its_bound_an_error_speaks_against_a_set_the_more_the_farther() {
        let ln: Vec<f64> = [2.0, 3.0, 4.0, 6.0, 8.0, 12.0].iter().map(|mean| Bound::of(*mean, 0.1).ln).collect();
        assert!(ln.windows(2).all(|pair| pair[1] < pair[0]) && ln.iter().all(|l| l.is_finite()), "{ln:?}");
    }
}
