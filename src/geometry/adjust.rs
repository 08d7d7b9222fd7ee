//! The adjustment: from what was printed to one frame, all sizes of a frameset together.
//!
//! Weighted least squares over [`Observations`](super::observations); C = N⁻¹ gives every figure its u, each printed
//! figure is tested against what the others predict (data snooping: W. Baarda, *A testing procedure for use in geodetic
//! networks*, Netherlands Geodetic Commission, 1968; citation from memory), and what stays undetermined is missing.

use std::sync::Arc;

use super::adjusted::{
    Adjusted, AdjustedSize, Assumption, Assumptions, Grade, Origin, Suspect, Value, missing_above, unknown_values,
};
use super::formulas::figure;
use super::least_squares::{BlockCovariance, Covariance, LeftOut, Options, Solution, dot, solve};
use super::normal_distribution::two_sided;
use super::observations::{Cause, LOCAL, Observation, Observations, SHARED, Slot, quantity_of};
use super::state::{Quantity, STATES, State};
use crate::frameset::{Figure, Frameset, Size};

/// A figure is partly assumed where an assumption makes more than this share of its u².
const ASSUMED_ABOVE: f64 = 0.1;
/// A suspect's neighbour explains the contradiction as well when leaving it out instead takes away all but this much
/// of w²: a likelihood ratio below 20 : 1 (2 ln 20 ≈ 6).
const AS_WELL: f64 = 6.0;

/// Adjusts a frameset. Answers for any frameset whose values are finite: no NaN, no panic.
#[must_use]
pub fn adjust(frameset: &Frameset) -> Adjusted {
    let observations = Observations::of(frameset);
    let solved = solve_for(frameset, &observations);
    let Solved { solution, covariance } = &solved;
    let mut sizes = Vec::with_capacity(frameset.sizes.len());
    let mut tests: Vec<Vec<Test>> = Vec::with_capacity(frameset.sizes.len());
    for (index, size) in frameset.sizes.iter().enumerate() {
        let state = observations.state(&solution.at.locals[index], &solution.at.shared);
        let c = state_covariance(&observations, covariance, index);
        let top = observations.top_tubes[index];
        let mut adjusted = AdjustedSize {
            label: size.label.clone(),
            state,
            covariance: c,
            top_tube: top,
            suspects: Vec::new(),
            values: unknown_values(),
        };
        fill_values(&mut adjusted, size, &observations, index);
        tests.push(tests_of(&adjusted, &observations, index));
        sizes.push(adjusted);
    }
    let own: usize = tests.iter().flatten().filter(|t| !t.is_common).count();
    let common: usize = tests.first().map_or(0, |t| t.iter().filter(|t| t.is_common).count());
    let tested = own + common;
    let critical = critical(tested);
    for (size, tests) in sizes.iter_mut().zip(&tests) {
        size.suspects = suspects(tests, critical);
    }
    let converged = solution.converged;
    Adjusted { sizes, tested, critical, converged, lower_fit: frameset.lower_fit(), solved: Arc::new(solved) }
}

/// w₀ for `tested` figures: the two-sided normal value for α = min(0.001, 1 − 0.99^(1/n)), so that a clean frameset is
/// accused in at most one case of a hundred. 3.29 up to ten figures, 3.76 for sixty.
#[must_use]
pub fn critical(tested: usize) -> f64 {
    let alpha = if tested == 0 { 0.001 } else { (-(0.99f64.ln() / tested as f64).exp_m1()).min(0.001) };
    two_sided(alpha)
}

/// Solution of the adjustment with its covariance: what figures, tests and budgets are computed from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Solved {
    pub(super) solution: Solution<LOCAL, SHARED>,
    pub(super) covariance: Covariance<LOCAL, SHARED>,
}

fn solve_for(frameset: &Frameset, observations: &Observations) -> Solved {
    let options = Options { damping: 1e-9, tolerance: 1e-6, max_evaluations: 200 };
    let begin = observations.begin(frameset);
    let solution = solve(observations, begin.clone(), options);
    if let Some(covariance) = Covariance::of(observations, &solution.at) {
        return Solved { solution, covariance };
    }
    // Not reached from checked files: the start values keep N regular. Should it happen, the start is an honest answer
    // with the start values' own uncertainty.
    let block = BlockCovariance {
        local: diagonal(Quantity::ALL.map(|q| q.start().1 * q.start().1).first_chunk().copied().unwrap_or([1e6; LOCAL])),
        cross: [[0.0; SHARED]; LOCAL],
        carry: [[0.0; LOCAL]; SHARED],
    };
    let covariance = Covariance { shared: diagonal([1e6; SHARED]), blocks: vec![block; begin.locals.len()] };
    Solved { solution: Solution { at: begin, chi_squared: f64::INFINITY, converged: false, evaluations: 0 }, covariance }
}

fn diagonal<const N: usize>(values: [f64; N]) -> [[f64; N]; N] {
    let mut matrix = [[0.0; N]; N];
    for (i, value) in values.into_iter().enumerate() {
        matrix[i][i] = value;
    }
    matrix
}

/// The covariance of one size's state.
fn state_covariance(
    observations: &Observations,
    covariance: &Covariance<LOCAL, SHARED>,
    index: usize,
) -> [[f64; STATES]; STATES] {
    let block = &covariance.blocks[index];
    let slots: [Slot; STATES] = std::array::from_fn(|q| observations.slot(q));
    let mut c = [[0.0; STATES]; STATES];
    for i in 0..STATES {
        for j in 0..=i {
            let value = match (slots[i], slots[j]) {
                (Slot::Local(a), Slot::Local(b)) => block.local[a][b],
                (Slot::Local(a), Slot::Shared(b)) | (Slot::Shared(b), Slot::Local(a)) => block.cross[a][b],
                (Slot::Shared(a), Slot::Shared(b)) => covariance.shared[a][b],
            };
            c[i][j] = value;
            c[j][i] = value;
        }
    }
    c
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

fn fill_values(adjusted: &mut AdjustedSize, size: &Size, observations: &Observations, index: usize) {
    let jets = adjusted.state.jets();
    let mut assumed: Vec<(Assumption, f64)> = Vec::with_capacity(Assumption::ALL.len());
    let mut same_tyres = None;
    for observation in observations.shared.iter().chain(&observations.sizes[index]) {
        match observation.cause {
            Cause::Assumed(a) => assumed.push((a, observation.sigma)),
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
            (jet.value, cg, dot(&cg, &jet.gradient))
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
            Origin::Printed
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
            is_set_aside: printed.is_some() && !is_believed,
            is_missing: !(u <= missing_above(figure_of) && value.is_finite()),
        };
    }
}

/// One printed figure against all others.
pub(super) struct Test {
    figure: Figure,
    printed: f64,
    sigma: f64,
    left_out: LeftOut,
    gradient: [f64; STATES],
    /// C g, with the gradient divided by σ.
    cg: [f64; STATES],
    is_common: bool,
}

/// The tests of one size: its own figures and the common ones, those that the others predict to better than what
/// counts as missing.
fn tests_of(adjusted: &AdjustedSize, observations: &Observations, index: usize) -> Vec<Test> {
    let jets = adjusted.state.jets();
    let first_common = observations.sizes.first().into_iter().flatten().filter(|o| index > 0 && o.is_common);
    observations
        .shared
        .iter()
        .chain(&observations.sizes[index])
        .chain(first_common)
        .filter_map(|o| test(o, adjusted, &jets))
        .collect()
}

fn test(observation: &Observation, adjusted: &AdjustedSize, jets: &State<super::jet::Jet>) -> Option<Test> {
    let Cause::Printed(figure_of) = observation.cause else { return None };
    let computed = figure(figure_of, jets, adjusted.top_tube);
    let sigma = observation.sigma;
    let gradient = computed.gradient.map(|g| g / sigma);
    let cg = times(&adjusted.covariance, &gradient);
    let left_out = LeftOut::of((observation.value - computed.value) / sigma, dot(&gradient, &cg));
    // Beyond what counts as missing, nothing predicts this figure.
    if left_out.redundancy <= 1e-7 || sigma * left_out.u_of_gap() > missing_above(figure_of) {
        return None;
    }
    Some(Test { figure: figure_of, printed: observation.value, sigma, left_out, gradient, cg, is_common: observation.is_common })
}

fn suspects(tests: &[Test], critical: f64) -> Vec<Suspect> {
    let mut suspects: Vec<Suspect> = tests
        .iter()
        .filter_map(|t| {
            let gap = t.sigma * t.left_out.gap();
            let step = step_of(t);
            if t.left_out.w().abs() <= critical || gap.abs() <= step {
                return None;
            }
            let quiet = if t.figure.is_angle() { 0.3 } else { 3.0 };
            Some(Suspect {
                figure: t.figure,
                printed: t.printed,
                predicted: t.printed - gap,
                u: t.sigma * t.left_out.u_of_gap(),
                w: t.left_out.w(),
                grade: if gap.abs() <= quiet { Grade::Convention } else { Grade::Misprint },
                explained_as_well_by: tests.iter().filter(|o| explains_as_well(t, o, critical)).map(|o| o.figure).collect(),
                is_shared: t.is_common,
            })
        })
        .collect();
    suspects.sort_by(|a, b| b.w.abs().total_cmp(&a.w.abs()).then(a.figure.cmp(&b.figure)));
    suspects
}

/// The printed step, back from σ. For a fork length of unstated convention it is a little more than the step.
fn step_of(test: &Test) -> f64 {
    test.sigma * 12f64.sqrt()
}

/// Whether leaving out `other` instead of `suspect` takes the contradiction away almost as well.
fn explains_as_well(suspect: &Test, other: &Test, critical: f64) -> bool {
    if suspect.figure == other.figure {
        return false;
    }
    let (w, w_other) = (suspect.left_out.w(), other.left_out.w());
    if w * w - w_other * w_other > AS_WELL {
        return false;
    }
    // Correlation of the two tests, and the suspect's test once the other is left out.
    let correlation = -dot(&suspect.gradient, &other.cg) / (suspect.left_out.redundancy * other.left_out.redundancy).sqrt();
    let rest = 1.0 - correlation * correlation;
    rest < 1e-9 || ((w - correlation * w_other) / rest.sqrt()).abs() <= critical
}
