//! A set of hypotheses solved anew at its own state, with its evidence there: where a gross slip has ruined the state,
//! linearisation lies.

use super::hypothesis::{Effect, Hypothesis};
use super::project::Projection;
use super::rounding::ln_bounded;
use super::rows::{from_neighbours, ln_likelihood_ratio};
use crate::frameset::{Figure, Frameset, SizeIndex};
use crate::geometry::formulas::figure;
use crate::geometry::least_squares::{Options, Solution, Unknowns, solve};
use crate::geometry::observations::{Cause, LOCAL, Observation, Observations, SHARED, quantity_of, reads_figure};
use crate::geometry::solved::Solved;

/// σ of an observation that says nothing.
const NOTHING: f64 = 1e7;

/// A set with its solution.
#[derive(Clone, Debug)]
pub(super) struct Resolved {
    /// Places of its hypotheses in the list of all, ascending.
    pub(super) set: Vec<usize>,
    pub(super) observations: Observations,
    pub(super) solved: Solved,
    /// ln of its evidence times its prior chance, but for a constant that all sets have.
    pub(super) ln_evidence: f64,
    /// What is added to that for the ±, which allow for the largest prior chances.
    pub(super) ln_more: f64,
}

/// Where to begin.
#[derive(Clone, Copy)]
pub(super) enum Begin<'a> {
    /// At another solution.
    At(&'a Solved),
    /// At the printed figures, the doubtful cells taken from their neighbours.
    Printed,
    /// On the way from the printed figures.
    OnTheWay(&'a Unknowns<LOCAL, SHARED>),
}

/// Evaluations after which the sum of squares of a set shows whether it can count at all.
const FIRST_EVALUATIONS: usize = 4;

/// The observation at a place counted through all.
fn at<'a>(observations: &'a mut Observations, beginnings: &[usize], place: usize) -> Option<&'a mut Observation> {
    let block = beginnings.iter().rposition(|b| *b <= place)?;
    let inside = place - beginnings[block];
    match observations.sizes.get_mut(block) {
        Some(own) => own.get_mut(inside),
        None => observations.shared.get_mut(inside),
    }
}

/// Changes the observations as a hypothesis says.
fn apply(observations: &mut Observations, beginnings: &[usize], hypothesis: &Hypothesis) {
    match &hypothesis.effect {
        Effect::Off { tau, by } => {
            let error = if hypothesis.places.len() > 1 { observations.add_unknown(Cause::Slips, 0.0, *tau) } else { None };
            for place in &hypothesis.places {
                if let Some(observation) = at(observations, beginnings, *place) {
                    observation.value -= by;
                    match error {
                        Some(slot) => observation.add_term(slot, 1.0),
                        None => observation.sigma = observation.sigma.hypot(*tau),
                    }
                }
            }
        }
        Effect::OfSize(_) => {
            for place in &hypothesis.places {
                if let Some(observation) = at(observations, beginnings, *place) {
                    observation.sigma = NOTHING;
                }
            }
        }
        Effect::Values(values) => {
            for (place, value) in hypothesis.places.iter().zip(values) {
                if let Some(observation) = at(observations, beginnings, *place) {
                    observation.value = *value;
                }
            }
        }
        Effect::Reads(other) => {
            for place in &hypothesis.places {
                if let Some(observation) = at(observations, beginnings, *place) {
                    observation.reads = reads_figure(*other);
                }
            }
        }
    }
}

/// The observations as the members of a set say.
fn applied(plain: &Observations, beginnings: &[usize], members: &[&Hypothesis]) -> Observations {
    let mut observations = plain.clone();
    for hypothesis in members {
        apply(&mut observations, beginnings, hypothesis);
    }
    observations
}

/// The first steps from the printed figures towards the solution of a set.
pub(super) fn first_steps(
    frameset: &Frameset,
    plain: &Observations,
    beginnings: &[usize],
    all: &[Hypothesis],
    set: &[usize],
) -> Solution<LOCAL, SHARED> {
    let members: Vec<&Hypothesis> = set.iter().filter_map(|i| all.get(*i)).collect();
    let observations = applied(plain, beginnings, &members);
    let options = Options { max_evaluations: FIRST_EVALUATIONS, ..options(1e-3) };
    solve(&observations, from_print(frameset, &observations, &members), options)
}

const fn options(damping: f64) -> Options {
    Options { damping, tolerance: 1e-3, max_evaluations: 60 }
}

/// Solves the set anew.
pub(super) fn resolve(
    frameset: &Frameset,
    plain: &Observations,
    beginnings: &[usize],
    all: &[Hypothesis],
    set: &[usize],
    begin: Begin<'_>,
) -> Option<Resolved> {
    let members: Vec<&Hypothesis> = set.iter().filter_map(|i| all.get(*i)).collect();
    let observations = applied(plain, beginnings, &members);
    let (start, damping) = match begin {
        Begin::At(solved) => (solved.solution.at.clone(), 1e-9),
        Begin::Printed => (from_print(frameset, &observations, &members), 1e-3),
        Begin::OnTheWay(at) => (at.clone(), 1e-3),
    };
    let solved = Solved::of(&observations, start, options(damping))?;
    let ln_evidence = ln_evidence(frameset, &observations, &solved, &members)
        + ln_bounded(&mut Projection::of(&observations, beginnings, &solved), &widened(&members));
    let ln_more = members.iter().map(|h| h.ln_more).sum();
    ln_evidence.is_finite().then(|| Resolved { set: set.to_vec(), observations, solved, ln_evidence, ln_more })
}

fn from_print(frameset: &Frameset, observations: &Observations, members: &[&Hypothesis]) -> Unknowns<LOCAL, SHARED> {
    let mut start = observations.begin(frameset);
    let doubtful = members.iter().filter(|h| !matches!(h.effect, Effect::Values(_)));
    for (size, figure_of) in doubtful.flat_map(|h| h.cells()) {
        if let (Some(quantity), Some(value)) = (quantity_of(*figure_of), from_neighbours(frameset, *size, *figure_of))
            && let Some(slot) = start.locals.get_mut(size.0).and_then(|l| l.get_mut(quantity.index()))
        {
            *slot = value;
        }
    }
    start
}

/// Places of single observations that the hypotheses take for more than rounded.
pub(super) fn widened(members: &[&Hypothesis]) -> Vec<usize> {
    let is_widened = |h: &&&Hypothesis| matches!(h.effect, Effect::Off { .. } | Effect::OfSize(_)) && h.places.len() == 1;
    members.iter().filter(is_widened).flat_map(|h| h.places.iter().copied()).collect()
}

/// −½ rᵀr + ½ ln det C − Σ ln σ + Σ ln(p/(1−p)), and what the rows say.
fn ln_evidence(frameset: &Frameset, observations: &Observations, solved: &Solved, members: &[&Hypothesis]) -> f64 {
    let every = observations.sizes.iter().flatten().chain(&observations.shared);
    let ln_sigmas: f64 = every.map(|o| o.sigma.ln()).sum();
    let mut ln = -0.5 * solved.solution.chi_squared + 0.5 * solved.covariance.ln_det - ln_sigmas;
    let mut corrections: Vec<(SizeIndex, Figure, f64)> = Vec::new();
    for hypothesis in members {
        ln += hypothesis.ln_odds;
        let value = |size: SizeIndex, figure_of: Figure| {
            let at = &solved.solution.at;
            let (local, top) = (at.locals.get(size.0)?, observations.top_tubes.get(size.0)?);
            Some(figure(figure_of, &observations.state(local, &at.shared), *top))
        };
        match &hypothesis.effect {
            Effect::OfSize(other) => {
                // The cell says nothing of its own size; how well it agrees with the other one counts instead.
                for (size, figure_of) in hypothesis.cells() {
                    let printed = size.of(&frameset.sizes).and_then(|s| Some((s, s.believed(*figure_of)?)));
                    let (Some((own, printed)), Some(there)) = (printed, value(*other, *figure_of)) else { continue };
                    let sigma = crate::geometry::observations::u_of_step(frameset.step(own, *figure_of));
                    let off = (printed - there) / sigma;
                    ln += NOTHING.ln() - sigma.ln() - 0.5 * off * off;
                }
                corrections.extend(hypothesis.cells().iter().filter_map(|(k, f)| Some((*k, *f, value(*k, *f)?))));
            }
            Effect::Values(values) => {
                corrections.extend(hypothesis.cells().iter().zip(values).map(|((k, f), to)| (*k, *f, *to)));
            }
            Effect::Off { .. } => {
                corrections.extend(hypothesis.cells().iter().filter_map(|(k, f)| Some((*k, *f, value(*k, *f)?))));
            }
            Effect::Reads(_) => {}
        }
    }
    ln + ln_likelihood_ratio(frameset, &corrections)
}
