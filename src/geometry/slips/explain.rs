//! What is believed: the sets that count with their chances, and what each hypothesis comes to over all of them.

use super::hypothesis::{Hypothesis, OtherWay, SlipKind, Subject};
use super::resolve::Resolved;
use super::search::{Sets, search};
use super::settle::{Settling, settling};
use crate::frameset::{Figure, Frameset, SizeIndex};
use crate::geometry::assumption::Assumption;
use crate::geometry::formulas::figure;
use crate::geometry::least_squares::dot;
use crate::geometry::observations::{Observations, SHARED};
use crate::geometry::solved::{Solved, state_covariance};
use crate::units::{AnyKind, Measured};

/// Hypotheses below this chance are not told at all.
const TOLD_FROM: f64 = 0.02;
/// From this chance on an error is listed, and named as another possible cause.
pub const LISTED_FROM: f64 = 0.05;
/// From this chance on a published figure counts as not used: its share in every number is next to nothing.
pub(in crate::geometry) const NOT_USED_FROM: f64 = 0.95;
/// A sum of squares this unlikely, as a standard normal value, is explained by nothing that was found.
const UNEXPLAINED: f64 = 5.0;

/// The most that a covariance is multiplied by.
const WIDEST: f64 = 1e6;

/// A published cell that a hypothesis is about.
#[derive(Clone, Debug, PartialEq)]
pub struct SlipCell {
    /// Which figure.
    pub figure: Figure,
    /// Place of the size.
    pub size: SizeIndex,
    /// As published, mm or degrees.
    pub published: f64,
    /// What all others give for it.
    pub expected: Measured<AnyKind>,
}

/// Something that is perhaps wrong with a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// Which kind of error; of several kinds about the same figure, the likeliest.
    pub kind: SlipKind,
    /// How the figure is measured instead, for another convention.
    pub other_way: Option<OtherWay>,
    /// The assumption that does not hold, with what it should be.
    pub assumption: Option<(Assumption, Measured<AnyKind>)>,
    /// The chance that it is so, 0 to 1.
    pub chance: f64,
    /// Whether the published figures are still used. Not used: their share in every number is next to nothing.
    pub is_used: bool,
    /// The published figures that it is about; all of a row where all sizes have it.
    pub cells: Vec<SlipCell>,
}

/// A set of hypotheses with its solution and its share in the averages: its chance where little known errors are as
/// usual as they may be.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::geometry) struct WeighedSet {
    pub(in crate::geometry) chance: f64,
    pub(in crate::geometry) observations: Observations,
    pub(in crate::geometry) solved: Solved,
    /// What the covariance is multiplied by where the set leaves too much unexplained, else 1.
    pub(in crate::geometry) spread: f64,
}

/// What the search came to.
#[derive(Debug)]
pub(in crate::geometry) struct Explained {
    pub(in crate::geometry) sets: Vec<WeighedSet>,
    pub(in crate::geometry) slips: Vec<Slip>,
    /// The chance that nothing is wrong.
    pub(in crate::geometry) slip_free: f64,
    /// What one measurement would tell the sets apart.
    pub(in crate::geometry) settling: Option<Settling>,
    /// Whether no set that was found explains the table.
    pub(in crate::geometry) is_unexplained: bool,
}

pub(in crate::geometry) fn explain(frameset: &Frameset, observations: &Observations, solved: Solved) -> Explained {
    let Sets { all, weighed: sets, shares, is_searched } = search(frameset, observations, solved);
    if !is_searched {
        let sets = shares.into_iter().zip(sets).map(|(share, (_, set))| weigh(share, set, false)).collect();
        return Explained { sets, slips: Vec::new(), slip_free: 1.0, settling: None, is_unexplained: false };
    }
    let slip_free = sets.iter().find(|(_, r)| r.set.is_empty()).map_or(0.0, |(chance, _)| *chance);
    let slips = slips(frameset, &all, &sets);
    let settling = settling(frameset, &sets);
    let mut sets: Vec<WeighedSet> = shares.into_iter().zip(sets).map(|(share, (_, set))| weigh(share, set, true)).collect();
    sets.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    let is_unexplained = sets.first().is_some_and(|s| s.spread > 1.0);
    Explained { sets, slips, slip_free, settling, is_unexplained }
}

fn weigh(chance: f64, resolved: Resolved, is_searched: bool) -> WeighedSet {
    let Resolved { observations, solved, .. } = resolved;
    let spread = if is_searched { spread(&observations, &solved) } else { 1.0 };
    WeighedSet { chance, observations, solved, spread }
}

/// χ² over its degrees of freedom where it is beyond all chance, else 1.
fn spread(observations: &Observations, solved: &Solved) -> f64 {
    use crate::geometry::observations::{Cause, Reads};
    let covariance = &solved.covariance;
    let rows = observations.sizes.iter().map(Vec::len).sum::<usize>() + observations.shared.len();
    let unknowns = observations.in_use + observations.sizes.len() * crate::geometry::observations::LOCAL;
    let mut freedom = rows as f64 - unknowns as f64;
    // Start values control nothing; each takes its own redundancy away again.
    for (own, block) in observations.sizes.iter().zip(&covariance.blocks) {
        for o in own {
            if let (Cause::Start(_), Reads::Local(i)) = (o.cause, o.reads) {
                freedom -= 1.0 - block.local[i][i] / (o.sigma * o.sigma);
            }
        }
    }
    for o in &observations.shared {
        if let (Cause::Start(_), Reads::Shared(i)) = (o.cause, o.reads) {
            freedom -= 1.0 - covariance.shared[i][i] / (o.sigma * o.sigma);
        }
    }
    let per_freedom = solved.solution.chi_squared / freedom.max(1.0);
    // Wilson & Hilferty's cube root of χ² is nearly normal.
    let width = 2.0 / (9.0 * freedom.max(1.0));
    let normal = (per_freedom.cbrt() - (1.0 - width)) / width.sqrt();
    if normal > UNEXPLAINED { per_freedom.clamp(1.0, WIDEST) } else { 1.0 }
}

/// Every hypothesis over all sets; those about the same taken together.
fn slips(frameset: &Frameset, all: &[Hypothesis], sets: &[(f64, Resolved)]) -> Vec<Slip> {
    let mut slips: Vec<Slip> = Vec::new();
    let mut seen: Vec<(&Subject, Option<OtherWay>)> = Vec::new();
    for hypothesis in sets.iter().flat_map(|(_, r)| r.set.iter().filter_map(|i| all.get(*i))) {
        if seen.contains(&(&hypothesis.subject, hypothesis.other_way)) {
            continue;
        }
        seen.push((&hypothesis.subject, hypothesis.other_way));
        slips.push(slip(frameset, all, sets, hypothesis));
    }
    slips.retain(|s| s.chance >= TOLD_FROM);
    slips.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    slips
}

fn slip(frameset: &Frameset, all: &[Hypothesis], sets: &[(f64, Resolved)], of: &Hypothesis) -> Slip {
    let is_it = |i: &&usize| all.get(**i).is_some_and(|h| h.subject == of.subject && h.other_way == of.other_way);
    let with: Vec<(f64, &Resolved, SlipKind)> =
        sets.iter().filter_map(|(chance, r)| Some((*chance, r, all.get(*r.set.iter().find(is_it)?)?.kind))).collect();
    let chance: f64 = with.iter().map(|w| w.0).sum();
    let kind = with.iter().max_by(|a, b| a.0.total_cmp(&b.0)).map_or(of.kind, |w| w.2);
    let mean = |value: &dyn Fn(&Resolved) -> Option<(f64, f64)>| {
        let values: Vec<(f64, (f64, f64))> = with.iter().filter_map(|(c, r, _)| Some((*c, value(r)?))).collect();
        let total: f64 = values.iter().map(|v| v.0).sum::<f64>().max(1e-300);
        let mean = values.iter().map(|(c, (v, _))| c * v).sum::<f64>() / total;
        let variance = values.iter().map(|(c, (v, var))| c * (var + (v - mean) * (v - mean))).sum::<f64>() / total;
        Measured::new(mean, variance.max(0.0).sqrt())
    };
    let mut cells = Vec::new();
    let mut assumption = None;
    let mut cell = |size: SizeIndex, figure_of: Figure| {
        let published = size.of(&frameset.sizes).and_then(|s| s.believed(figure_of));
        cells.extend(published.map(|published| {
            let expected = mean(&|r: &Resolved| figure_in(r, size, figure_of));
            SlipCell { figure: figure_of, size, published, expected }
        }));
    };
    match &of.subject {
        Subject::Cells(list) => list.iter().for_each(|(size, figure_of)| cell(*size, *figure_of)),
        Subject::Row(figure_of) => SizeIndex::all(frameset.sizes.len()).for_each(|size| cell(size, *figure_of)),
        Subject::Assumption(of) => {
            let expected = mean(&|r: &Resolved| {
                let i = of.quantity().index();
                let at = &r.solved.solution.at;
                let state = r.observations.state(at.locals.first()?, &at.shared);
                let c = state_covariance(&r.observations, &r.solved.covariance, SizeIndex(0), SizeIndex(0));
                Some((state.0[i], c[i][i]))
            });
            assumption = Some((*of, expected));
        }
    }
    let is_used = chance < NOT_USED_FROM;
    Slip { kind, other_way: of.other_way, assumption, chance, is_used, cells }
}

/// A figure of a size in a set, with its variance.
pub(super) fn figure_in(resolved: &Resolved, size: SizeIndex, figure_of: Figure) -> Option<(f64, f64)> {
    let at = &resolved.solved.solution.at;
    let state = resolved.observations.state(at.locals.get(size.0)?, &at.shared);
    let jet = figure(figure_of, &state.jets(), *resolved.observations.top_tubes.get(size.0)?);
    let row = {
        let (local, shared) = resolved.observations.split(&jet.gradient, 1.0);
        crate::geometry::least_squares::Row { residual: 0.0, local, shared }
    };
    let (local, shared): (_, [f64; SHARED]) = resolved.solved.covariance.projected(size.0, &row);
    Some((jet.value, dot(&local, &local) + dot(&shared, &shared)))
}
