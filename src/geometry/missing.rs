//! What would settle a missing figure: the smallest sets of one or two unprinted figures.

use super::adjust::times;
use super::adjusted::AdjustedSize;
use super::figure_set::missing_above;
use super::formulas::figure;
use super::least_squares::dot;
use super::observations::u_of_step;
use super::state::STATES;
use crate::frameset::{Figure, Frameset, Size};

/// At most so many sets are listed for a figure.
const MOST_SETS: usize = 6;

/// A missing figure and what would settle it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// Which.
    pub figure: Figure,
    /// Sets of one figure each where a single one does, else of two; the sharpest first, at most six. Empty where not
    /// even two would do.
    pub sets: Vec<Vec<Figure>>,
}

/// For each missing figure of a size, the smallest sets of unprinted figures that, printed to the file's steps, would
/// bring its u below what counts as missing.
///
/// A further figure j with standard uncertainty σ changes u² of a figure m by `−cov(m, j)² / (σ² + u_j²)`.
#[must_use]
pub fn settled_by(frameset: &Frameset, printed: &Size, size: &AdjustedSize) -> Vec<Missing> {
    if size.missing().next().is_none() {
        return Vec::new();
    }
    let jets = size.state.jets();
    let gradient = |f: Figure| figure(f, &jets, size.top_tube).gradient;
    let candidates: Vec<Candidate> = Figure::printable()
        .filter(|f| printed.believed(*f).is_none())
        .map(|f| {
            let gradient = gradient(f);
            let cg = times(&size.covariance, &gradient);
            let sigma = u_of_step(frameset.step(printed, f));
            Candidate { figure: f, gradient, cg, variance: dot(&gradient, &cg), sigma_squared: sigma * sigma }
        })
        .collect();
    size.missing().map(|m| Missing { figure: m, sets: sets_for(m, &gradient(m), size, &candidates) }).collect()
}

struct Candidate {
    figure: Figure,
    gradient: [f64; STATES],
    cg: [f64; STATES],
    variance: f64,
    sigma_squared: f64,
}

fn sets_for(missing: Figure, gradient: &[f64; STATES], size: &AdjustedSize, candidates: &[Candidate]) -> Vec<Vec<Figure>> {
    let limit = missing_above(missing) * missing_above(missing);
    let variance = size.variance(gradient);
    let mut found: Vec<(f64, Vec<Figure>)> = Vec::new();
    for c in candidates {
        let after = variance - square(dot(gradient, &c.cg)) / (c.sigma_squared + c.variance);
        if after <= limit {
            found.push((after, vec![c.figure]));
        }
    }
    if found.is_empty() {
        for (i, a) in candidates.iter().enumerate() {
            let with_a = a.sigma_squared + a.variance;
            let cov_a = dot(gradient, &a.cg);
            for b in candidates.iter().skip(i + 1) {
                let between = dot(&b.gradient, &a.cg);
                let variance_b = b.variance - square(between) / with_a;
                let cov_b = dot(gradient, &b.cg) - cov_a * between / with_a;
                let after = variance - square(cov_a) / with_a - square(cov_b) / (b.sigma_squared + variance_b);
                if after <= limit {
                    found.push((after, vec![a.figure, b.figure]));
                }
            }
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
    found.truncate(MOST_SETS);
    found.into_iter().map(|(_, set)| set).collect()
}

fn square(x: f64) -> f64 {
    x * x
}
