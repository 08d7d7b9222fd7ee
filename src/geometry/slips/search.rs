//! The search for sets of hypotheses that explain a table: by beam at one solution, from the empty set or from a gross slip
//! that was solved anew first, then every set that may count solved anew.

use super::candidates::{beginnings, hypotheses, other_ways};
use super::columns::{ExchangedColumns, exchanged_columns};
use super::evidence::{MOST, Term, ln_odds};
use super::hypothesis::{Effect, Hypothesis, PRIORS, SlipKind};
use super::project::{Projection, Signature};
use super::resolve::{Begin, Resolved, resolve};
use super::rounding::ln_bounded;
use super::rows::{ln_likelihood_ratio, unevenness};
use crate::frameset::{Figure, Frameset, SizeIndex};
use crate::geometry::observations::Observations;
use crate::geometry::solved::Solved;

/// The search is made where some hypothesis alone reaches this |b/√G|.
const LOOK_ABOVE: f64 = 3.0;
/// The same for an assumption, whose prior chance is larger.
const LOOK_ABOVE_ASSUMED: f64 = 2.4;
/// Or where another way of measuring is this likely.
const LOOK_FROM_CHANCE: f64 = 0.02;
/// Or where the roundings that the plain solution needs are this much less likely for being bounded, in log odds.
const LOOK_BELOW_BOUNDED: f64 = -1.5;
/// Sets kept from one length to the next.
const WIDTH: usize = 6;
/// Sets this far below the best in log odds are forgotten.
const FORGET_BELOW: f64 = 8.0;
/// Sets below this chance are not solved anew.
const LEAST_CHANCE: f64 = 0.01;
/// Most sets that are solved anew.
const MOST_RESOLVED: usize = 10;
/// A gap from which linearisation is not trusted, mm and degrees.
const FAR_MM: f64 = 25.0;
const FAR_DEG: f64 = 3.0;
/// Most single gross slips that are solved anew.
const MOST_GROSS: usize = 14;
/// A cell this uneven in its row, in scales, may be a gross slip.
const UNEVEN: f64 = 4.0;
/// How much better a gross slip has to explain the table to be built on, in log odds.
const BUILT_ON: f64 = 8.0;

/// What the search found: the sets that count, the empty one first if it does, with their chances.
pub(super) struct Sets {
    pub(super) all: Vec<Hypothesis>,
    pub(super) weighed: Vec<(f64, Resolved)>,
    /// Whether there was anything to look for.
    pub(super) is_searched: bool,
}

struct Search<'a> {
    frameset: &'a Frameset,
    plain: &'a Observations,
    beginnings: Vec<usize>,
    all: Vec<Hypothesis>,
}

/// A set at a linearisation: its signatures, and its log odds, with what the rows say.
struct Found {
    set: Vec<usize>,
    ln: f64,
}

pub(super) fn search(frameset: &Frameset, plain: &Observations, solved: Solved) -> Sets {
    let beginnings = beginnings(plain);
    let whole = |solved: Solved| Resolved { set: Vec::new(), observations: plain.clone(), solved, ln_evidence: 0.0 };
    let mut projection = Projection::of(plain, &beginnings, &solved);
    let columns: Vec<ExchangedColumns> = exchanged_columns(frameset)
        .into_iter()
        .filter(|c| c.ln_rows + PRIORS.swapped_columns.ln_odds() > LEAST_CHANCE.ln())
        .collect();
    let is_doubtful = !columns.is_empty()
        || projection.is_any_above(LOOK_ABOVE, LOOK_ABOVE_ASSUMED)
        || ln_bounded(&mut projection, &[]) < LOOK_BELOW_BOUNDED;
    let all = if is_doubtful {
        hypotheses(frameset, plain, &beginnings, &columns)
    } else {
        let mut ways = other_ways(frameset, plain, &beginnings);
        ways.retain(|way| {
            let signature = projection.of_hypothesis(0, way);
            signature.and_then(|s| ln_odds(&[s.term()], |_, _| s.g)).is_some_and(|(ln, _)| ln > LOOK_FROM_CHANCE.ln())
        });
        ways
    };
    if all.is_empty() {
        return Sets { weighed: vec![(1.0, whole(solved))], all, is_searched: false };
    }
    let search = Search { frameset, plain, beginnings, all };
    let Some(empty) = resolve(frameset, plain, &search.beginnings, &search.all, &[], Begin::At(&solved)) else {
        return Sets { weighed: vec![(1.0, whole(solved))], all: search.all, is_searched: false };
    };
    let mut resolved = vec![empty];
    if !is_doubtful {
        // No figure stands out; one way of measuring or another is all that there is to weigh.
        for way in 0..search.all.len() {
            search.add(&[way], Begin::At(&solved), &mut resolved);
        }
        return Sets { weighed: weighted(resolved), all: search.all, is_searched: true };
    }
    let here = search.signatures(plain, &solved, &[]);
    let mut found = search.beam(&here, &[], resolved[0].ln_evidence);
    search.try_columns(&columns, &mut resolved);
    // A gross slip is solved anew before anything else is believed; then there may be another one.
    let mut base = 0;
    let mut signatures = here;
    while resolved[base].set.len() < MOST {
        let before = resolved[base].set.len() + 1;
        search.try_gross(&signatures, base, &mut resolved);
        let built = (0..resolved.len()).filter(|k| resolved[*k].set.len() == before);
        let best = built.max_by(|a, b| resolved[*a].ln_evidence.total_cmp(&resolved[*b].ln_evidence));
        let Some(best) = best.filter(|b| resolved[*b].ln_evidence > resolved[base].ln_evidence + BUILT_ON) else { break };
        base = best;
        let built_on = &resolved[base];
        signatures = search.signatures(&built_on.observations, &built_on.solved, &built_on.set);
        found.extend(search.beam(&signatures, &built_on.set, built_on.ln_evidence));
    }
    search.resolve_all(found, base, &mut resolved);
    Sets { weighed: weighted(resolved), all: search.all, is_searched: true }
}

impl Search<'_> {
    /// All hypotheses that can be told at a solution and do not meet those that it is built on.
    fn signatures(&self, observations: &Observations, solved: &Solved, base: &[usize]) -> Vec<Signature> {
        let mut projection = Projection::of(observations, &self.beginnings, solved);
        let is_free = |h: &Hypothesis| base.iter().all(|b| !self.all[*b].subject.meets(&h.subject));
        self.all.iter().enumerate().filter(|(_, h)| is_free(h)).filter_map(|(i, h)| projection.of_hypothesis(i, h)).collect()
    }

    /// Sets on top of `base`, by beam.
    fn beam(&self, signatures: &[Signature], base: &[usize], ln_base: f64) -> Vec<Found> {
        let mut kept: Vec<(Vec<usize>, f64)> = vec![(Vec::new(), ln_base)];
        let mut all: Vec<Found> = Vec::new();
        for _ in base.len()..MOST {
            let mut longer: Vec<(Vec<usize>, f64, [f64; MOST])> = Vec::new();
            for (members, _) in &kept {
                for (i, signature) in signatures.iter().enumerate() {
                    let subject = &self.all[signature.hypothesis].subject;
                    let meets = |m: &usize| self.all[signatures[*m].hypothesis].subject.meets(subject);
                    if members.iter().any(meets) {
                        continue;
                    }
                    let mut set = members.clone();
                    set.push(i);
                    set.sort_unstable();
                    let terms: Vec<Term> = set.iter().map(|i| signatures[*i].term()).collect();
                    let g = |a: usize, b: usize| {
                        if a == b { signatures[set[a]].g } else { signatures[set[a]].with(&signatures[set[b]]) }
                    };
                    if let Some((ln, magnitudes)) = ln_odds(&terms, g) {
                        longer.push((set, ln, magnitudes));
                    }
                }
            }
            longer.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
            longer.dedup_by(|a, b| a.0 == b.0);
            let best = longer.first().map_or(f64::NEG_INFINITY, |l| l.1);
            longer.retain(|l| l.1 > best - 2.0 * FORGET_BELOW);
            longer.truncate(8 * WIDTH);
            let mut level: Vec<(Vec<usize>, f64)> = longer
                .into_iter()
                .map(|(set, ln, magnitudes)| {
                    let corrections = self.corrections(&set, signatures, &magnitudes);
                    (set, ln_base + ln + ln_likelihood_ratio(self.frameset, &corrections))
                })
                .collect();
            level.sort_by(|a, b| b.1.total_cmp(&a.1));
            all.extend(level.iter().take(4 * WIDTH).map(|(set, ln)| {
                let mut whole: Vec<usize> = set.iter().map(|i| signatures[*i].hypothesis).chain(base.iter().copied()).collect();
                whole.sort_unstable();
                Found { set: whole, ln: *ln }
            }));
            level.truncate(WIDTH);
            kept = level;
        }
        all
    }

    /// What the cells of a set are to be, by its magnitudes.
    fn corrections(&self, set: &[usize], signatures: &[Signature], magnitudes: &[f64; MOST]) -> Vec<(SizeIndex, Figure, f64)> {
        let mut corrections = Vec::new();
        for (i, magnitude) in set.iter().zip(magnitudes) {
            let hypothesis = &self.all[signatures[*i].hypothesis];
            for (place, (size, figure)) in hypothesis.cells().iter().enumerate() {
                let printed = size.of(&self.frameset.sizes).and_then(|s| s.believed(*figure));
                let to = match &hypothesis.effect {
                    Effect::Values(values) => values.get(place).copied(),
                    _ => printed.map(|p| p - magnitude),
                };
                corrections.extend(to.map(|to| (*size, *figure, to)));
            }
        }
        corrections
    }

    /// Exchanged columns, which no observation of a single size speaks of, so that they are solved anew whenever the rows do.
    fn try_columns(&self, columns: &[ExchangedColumns], resolved: &mut Vec<Resolved>) {
        for pair in columns {
            let (a, b) = pair.sizes;
            let is_it = |h: &Hypothesis| {
                let has = |size: SizeIndex| h.cells().iter().any(|c| c.0 == size);
                h.cells().len() > 2 && h.cells().iter().all(|c| c.0 == a || c.0 == b) && has(a) && has(b)
            };
            let place = self.all.iter().position(|h| h.kind == SlipKind::Swapped && is_it(h));
            if let Some(place) = place {
                self.add(&[place], Begin::Printed, resolved);
            }
        }
    }

    /// Single gross slips on top of a base, solved anew, where some gap is far.
    fn try_gross(&self, signatures: &[Signature], base: usize, resolved: &mut Vec<Resolved>) {
        let gross = |s: &&Signature| self.all[s.hypothesis].kind == SlipKind::Gross;
        let is_far = |s: &Signature| {
            let far = self.all[s.hypothesis].cells().first().map_or(FAR_MM, |(_, f)| if f.is_angle() { FAR_DEG } else { FAR_MM });
            s.w().abs() > LOOK_ABOVE && s.gap().abs() > far
        };
        if !signatures.iter().filter(gross).any(is_far) {
            return;
        }
        let uneven =
            |s: &Signature| self.all[s.hypothesis].cells().first().map_or(0.0, |(size, f)| unevenness(self.frameset, *size, *f));
        let mut worth: Vec<(f64, usize)> = signatures
            .iter()
            .filter(gross)
            .filter(|s| s.w().abs() > LOOK_ABOVE || uneven(s) > UNEVEN)
            .map(|s| (s.w().abs() * (1.0 + uneven(s).min(20.0)), s.hypothesis))
            .collect();
        worth.sort_by(|a, b| b.0.total_cmp(&a.0));
        let sets: Vec<Vec<usize>> = worth
            .iter()
            .take(MOST_GROSS)
            .map(|(_, hypothesis)| {
                let mut set = resolved[base].set.clone();
                set.push(*hypothesis);
                set.sort_unstable();
                set
            })
            .collect();
        for set in sets {
            self.add(&set, Begin::Printed, resolved);
        }
    }

    fn add(&self, set: &[usize], begin: Begin<'_>, resolved: &mut Vec<Resolved>) {
        if resolved.iter().all(|r| r.set != set) {
            resolved.extend(resolve(self.frameset, self.plain, &self.beginnings, &self.all, set, begin));
        }
    }

    /// Solves anew what may count.
    fn resolve_all(&self, mut found: Vec<Found>, base: usize, resolved: &mut Vec<Resolved>) {
        found.sort_by(|a, b| b.ln.total_cmp(&a.ln));
        found.dedup_by(|a, b| a.set == b.set);
        let near = resolved[base].solved.clone();
        let base_set = resolved[base].set.clone();
        let best = found.iter().map(|f| f.ln).chain(resolved.iter().map(|r| r.ln_evidence)).fold(f64::NEG_INFINITY, f64::max);
        // Of several lengths: what is within reach of the best, the best first.
        let within: Vec<Found> = found.into_iter().filter(|f| f.ln - best > LEAST_CHANCE.ln()).take(MOST_RESOLVED).collect();
        for Found { set, .. } in within {
            let begin = if base_set.iter().all(|b| set.contains(b)) { Begin::At(&near) } else { Begin::Printed };
            self.add(&set, begin, resolved);
        }
    }
}

impl Signature {
    fn term(&self) -> Term {
        Term { b: self.b, mean: self.mean, tau: self.tau, ln_odds: self.ln_odds }
    }
}

/// The sets whose chance counts, with their chances, the most likely first.
fn weighted(mut resolved: Vec<Resolved>) -> Vec<(f64, Resolved)> {
    let best = resolved.iter().map(|r| r.ln_evidence).fold(f64::NEG_INFINITY, f64::max);
    // As a difference: beside an evidence of −1e20 a chance is no number any more.
    resolved.retain(|r| r.ln_evidence - best > (0.3 * LEAST_CHANCE).ln());
    let total: f64 = resolved.iter().map(|r| (r.ln_evidence - best).exp()).sum();
    let mut sets: Vec<(f64, Resolved)> = resolved.into_iter().map(|r| ((r.ln_evidence - best).exp() / total, r)).collect();
    sets.sort_by(|a, b| b.0.total_cmp(&a.0));
    sets
}
