//! Hypotheses at one solution: each a signature, how the whitened observations would move, projected onto what the
//! unknowns cannot follow. With R = I − A C Aᵀ and v the whitened residuals, G = aᵢᵀ R aⱼ and b = aᵢᵀ R v.

use super::hypothesis::{Effect, Hypothesis};
use crate::frameset::{Figure, SizeIndex};
use crate::geometry::figure_set::{MISSING_MM, missing_above};
use crate::geometry::formulas::figure;
use crate::geometry::least_squares::{Problem, Row, dot};
use crate::geometry::observations::{Cause, LOCAL, Observation, Observations, SHARED};
use crate::geometry::solved::Solved;
use crate::geometry::state::State;

/// A fixed signature that moves the observations by less than this, in standard uncertainties that the others leave, is
/// not worth telling.
const LEAST_FIXED: f64 = 2.0;

/// Standard deviation of a magnitude that may be anything.
const ANYTHING: f64 = 1e4;

/// The parts of a row in the space of the unknowns.
type Projected = ([f64; LOCAL], [f64; SHARED]);

/// The rows of a solution with what they need: residual, σ, and the part in the space of the unknowns.
pub(super) struct Projection<'a> {
    observations: &'a Observations,
    beginnings: &'a [usize],
    rows: Vec<Row<LOCAL, SHARED>>,
    states: Vec<State<f64>>,
    solved: &'a Solved,
    /// The parts in the space of the unknowns, as they were asked for, and where each row's stands among them.
    projected: Vec<Projected>,
    projected_at: Vec<Option<usize>>,
}

/// A row of figures on the way to its test.
struct RowSum {
    b: f64,
    g: f64,
    shared: [f64; SHARED],
}

/// A hypothesis at a solution.
#[derive(Clone, Debug)]
pub(super) struct Signature {
    /// Place of the hypothesis in the list of all.
    pub(super) hypothesis: usize,
    entries: Vec<(usize, f64)>,
    local: Vec<(usize, [f64; LOCAL])>,
    shared: [f64; SHARED],
    /// aᵀ R v.
    pub(super) b: f64,
    /// aᵀ R a.
    pub(super) g: f64,
    /// Standard deviation of the magnitude; `None` where it is fixed at 1.
    pub(super) tau: Option<f64>,
    /// What is added to the log odds.
    pub(super) ln_odds: f64,
    /// Expected magnitude.
    pub(super) mean: f64,
}

impl Signature {
    /// The test of this hypothesis alone, standard normal where nothing is wrong.
    pub(super) fn w(&self) -> f64 {
        self.b / self.g.sqrt()
    }

    /// The error that fits best, in its own unit.
    pub(super) fn gap(&self) -> f64 {
        self.b / self.g
    }

    /// aᵢᵀ R aⱼ.
    pub(super) fn with(&self, other: &Self) -> f64 {
        let mut g = 0.0;
        for (place, a) in &self.entries {
            g += other.entries.iter().filter(|(p, _)| p == place).map(|(_, b)| a * b).sum::<f64>();
        }
        for (block, local) in &self.local {
            g -= other.local.iter().filter(|(b, _)| b == block).map(|(_, l)| dot(local, l)).sum::<f64>();
        }
        g - dot(&self.shared, &other.shared)
    }
}

impl<'a> Projection<'a> {
    pub(super) fn of(observations: &'a Observations, beginnings: &'a [usize], solved: &'a Solved) -> Self {
        let at = &solved.solution.at;
        let mut rows = Vec::with_capacity(beginnings.last().copied().unwrap_or_default() + observations.shared.len());
        for (k, local) in at.locals.iter().enumerate() {
            observations.rows(k, local, &at.shared, &mut rows);
        }
        observations.shared_rows(&at.shared, &mut rows);
        let states = at.locals.iter().map(|local| observations.state(local, &at.shared)).collect();
        let projected_at = vec![None; rows.len()];
        Self { observations, beginnings, rows, states, solved, projected: Vec::new(), projected_at }
    }

    /// Whether some printed figure, row of figures or assumption gives reason to look for errors: its |b/√G| passes
    /// `above`, or `above_assumed` for an assumption. Exchanged values show in the same tests.
    pub(super) fn is_any_above(&mut self, above: f64, above_assumed: f64) -> bool {
        let sizes = self.observations.sizes.len();
        let mut rows: [Option<RowSum>; Figure::COUNT] = [const { None }; Figure::COUNT];
        let mut place = 0;
        for (block, own) in self.observations.sizes.iter().chain([&self.observations.shared]).enumerate() {
            for observation in own {
                let here = place;
                place += 1;
                if !matches!(observation.cause, Cause::Printed(_) | Cause::Assumed(_)) {
                    continue;
                }
                let row = &self.rows[here];
                let (local, shared) = self.solved.covariance.projected(block, row);
                let seen = dot(&local, &local);
                let redundancy = 1.0 - seen - dot(&shared, &shared);
                let limit = observation.printed_figure().map_or(MISSING_MM, missing_above);
                let above = if matches!(observation.cause, Cause::Assumed(_)) { above_assumed } else { above };
                if redundancy > 1e-7
                    && observation.sigma / redundancy.sqrt() <= limit
                    && row.residual.abs() > above * redundancy.sqrt()
                {
                    return true;
                }
                if let Some(figure) = observation.printed_figure().filter(|_| sizes > 1 && block < sizes) {
                    let sum = rows[figure as usize].get_or_insert(RowSum { b: 0.0, g: 0.0, shared: [0.0; SHARED] });
                    let a = 1.0 / observation.sigma;
                    sum.b += a * row.residual;
                    sum.g += a * a * (1.0 - seen);
                    sum.shared.iter_mut().zip(&shared).for_each(|(s, z)| *s += a * z);
                }
                self.keep(here, &(local, shared));
            }
        }
        let limits = Figure::ALL.iter().map(|f| missing_above(*f));
        rows.iter().zip(limits).any(|(sum, limit)| {
            sum.as_ref().is_some_and(|sum| {
                let g = sum.g - dot(&sum.shared, &sum.shared);
                g > 1.0 / (limit * limit) && sum.b.abs() > above * g.sqrt()
            })
        })
    }

    pub(super) fn observations(&self) -> &'a Observations {
        self.observations
    }

    /// a C bᵀ of two observations' rows.
    pub(super) fn common(&mut self, a: usize, b: usize) -> f64 {
        let (of_a, of_b) = (self.part(a), self.part(b));
        let local = if self.block(a) == self.block(b) { dot(&of_a.0, &of_b.0) } else { 0.0 };
        local + dot(&of_a.1, &of_b.1)
    }

    /// (observed − computed) / σ.
    pub(super) fn residual(&self, place: usize) -> f64 {
        self.rows[place].residual
    }

    /// The part of an observation's row in the space of the unknowns.
    fn part(&mut self, place: usize) -> Projected {
        if let Some(known) = self.projected_at[place].and_then(|at| self.projected.get(at)) {
            return *known;
        }
        let part = self.solved.covariance.projected(self.block(place), &self.rows[place]);
        self.keep(place, &part);
        part
    }

    fn keep(&mut self, place: usize, part: &Projected) {
        self.projected_at[place] = Some(self.projected.len());
        self.projected.push(*part);
    }

    /// Which size an observation belongs to; the number of sizes for a shared one.
    fn block(&self, place: usize) -> usize {
        self.beginnings.iter().rposition(|b| *b <= place).unwrap_or_default()
    }

    /// The observation at a place counted through all.
    fn observation(&self, place: usize) -> Option<&'a Observation> {
        let block = self.block(place);
        let own = self.observations.sizes.get(block).unwrap_or(&self.observations.shared);
        own.get(place - self.beginnings.get(block)?)
    }

    fn sigma(&self, place: usize) -> f64 {
        self.observation(place).map_or(1.0, |o| o.sigma)
    }

    fn value_of(&self, size: SizeIndex, f: Figure) -> f64 {
        match (self.states.get(size.0), self.observations.top_tubes.get(size.0)) {
            (Some(state), Some(top)) => figure(f, state, *top),
            _ => 0.0,
        }
    }

    fn signature(&mut self, index: usize, entries: Vec<(usize, f64)>, tau: Option<f64>, ln_odds: f64) -> Signature {
        let mut local: Vec<(usize, [f64; LOCAL])> = Vec::with_capacity(entries.len());
        let mut shared = [0.0; SHARED];
        let (mut b, mut g) = (0.0, 0.0);
        for (place, a) in &entries {
            let block = self.block(*place);
            b += a * self.rows[*place].residual;
            g += a * a;
            let (own, rest) = self.part(*place);
            for (s, r) in shared.iter_mut().zip(&rest) {
                *s += a * r;
            }
            if block < self.observations.sizes.len() {
                match local.iter_mut().find(|(other, _)| *other == block) {
                    Some((_, sum)) => sum.iter_mut().zip(&own).for_each(|(s, o)| *s += a * o),
                    None => local.push((block, own.map(|o| a * o))),
                }
            }
        }
        let seen: f64 = local.iter().map(|(_, l)| dot(l, l)).sum::<f64>() + dot(&shared, &shared);
        Signature {
            hypothesis: index,
            entries,
            local,
            shared,
            b,
            g: (g - seen).max(0.0),
            tau,
            ln_odds,
            mean: if tau.is_some() { 0.0 } else { 1.0 },
        }
    }

    /// A hypothesis here, unless the others could not tell it.
    pub(super) fn of_hypothesis(&mut self, index: usize, hypothesis: &Hypothesis) -> Option<Signature> {
        let per_unit: Vec<(usize, f64)> = hypothesis.places.iter().map(|p| (*p, 1.0 / self.sigma(*p))).collect();
        let signature = match &hypothesis.effect {
            Effect::Off { tau, by } => Signature { mean: *by, ..self.signature(index, per_unit, Some(*tau), hypothesis.ln_odds) },
            Effect::OfSize(other) => {
                let place = *hypothesis.places.first()?;
                let (_, figure_of) = *hypothesis.cells().first()?;
                let own = self.observation(place)?;
                let off = (own.value - self.value_of(*other, figure_of)) / own.sigma;
                // The evidence is that of the cell left out, times how well it agrees with the other size.
                let ln_odds = hypothesis.ln_odds + ANYTHING.ln() - own.sigma.ln() - 0.5 * off * off;
                self.signature(index, per_unit, Some(ANYTHING), ln_odds)
            }
            Effect::Values(values) => {
                let entries = hypothesis.places.iter().zip(values).filter_map(|(place, to)| {
                    let own = self.observation(*place)?;
                    Some((*place, (own.value - to) / own.sigma))
                });
                self.signature(index, entries.collect(), None, hypothesis.ln_odds)
            }
            Effect::Reads(other) => {
                let entries = hypothesis.places.iter().filter_map(|place| {
                    let (size, own) = (SizeIndex(self.block(*place)), self.observation(*place)?);
                    let as_named = self.value_of(size, own.printed_figure()?);
                    Some((*place, (self.value_of(size, *other) - as_named) / own.sigma))
                });
                self.signature(index, entries.collect(), None, hypothesis.ln_odds)
            }
        };
        let is_told = match signature.tau {
            Some(_) => {
                let figure_of = self.observation(*hypothesis.places.first()?)?.printed_figure();
                signature.g > 0.0 && 1.0 / signature.g.sqrt() <= figure_of.map_or(MISSING_MM, missing_above)
            }
            None => signature.g >= LEAST_FIXED * LEAST_FIXED,
        };
        (is_told && signature.b.is_finite() && signature.g.is_finite()).then_some(signature)
    }
}
