//! The search for sets of hypotheses that explain a table: by beam at one solution, from the empty set or from a gross slip
//! that was solved anew first, then every set that may count solved anew.

use super::candidates::{beginnings, hypotheses, other_ways};
use super::columns::{ExchangedColumns, exchanged_columns};
use super::evidence::{MOST, Term, ln_odds};
use super::hypothesis::{Effect, Hypothesis, PRIORS, SlipKind};
use super::project::{Projection, Signature};
use super::resolve::{Begin, Resolved, first_steps, resolve, widened};
use super::rounding::ln_bounded;
use super::rows::{ln_likelihood_ratio, unevenness};
use crate::frameset::{Figure, Frameset, SizeIndex};
use crate::geometry::least_squares::Solution;
use crate::geometry::observations::{LOCAL, Observations, SHARED};
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
/// A gross slip is not worth solving to its end where the sum of squares after the first steps is above so many times the
/// least one, and so much more.
const HOPELESS_TIMES: f64 = 3.0;
const HOPELESS_BEYOND: f64 = 60.0;
/// A cell this uneven in its row, in scales, may be a gross slip.
const UNEVEN: f64 = 4.0;
/// How much better a gross slip has to explain the table to be built on, in log odds.
const BUILT_ON: f64 = 8.0;

/// What the search found: the sets that count, the likeliest first, with their chances.
pub(super) struct Sets {
    pub(super) all: Vec<Hypothesis>,
    pub(super) weighed: Vec<(f64, Resolved)>,
    /// The share of each in the averages, which allow for the largest prior chances.
    pub(super) shares: Vec<f64>,
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
    let unsearched = |all: Vec<Hypothesis>, solved: Solved| {
        let observations = plain.clone();
        let whole = Resolved { set: Vec::new(), observations, solved, ln_evidence: 0.0, ln_more: 0.0 };
        Sets { weighed: vec![(1.0, whole)], shares: vec![1.0], all, is_searched: false }
    };
    let mut projection = Projection::of(plain, &beginnings, &solved);
    let columns: Vec<ExchangedColumns> = exchanged_columns(frameset)
        .into_iter()
        .filter(|c| c.ln_rows + PRIORS.swapped_columns.ln_odds() > LEAST_CHANCE.ln())
        .collect();
    let is_doubtful = !columns.is_empty() || gives_reason_to_look(&mut projection, &[]);
    let all = if is_doubtful {
        hypotheses(frameset, plain, &beginnings, &columns)
    } else {
        let mut ways = other_ways(frameset, plain, &beginnings);
        ways.retain(|way| is_likely(&mut projection, way));
        ways
    };
    if all.is_empty() {
        return unsearched(all, solved);
    }
    let search = Search { frameset, plain, beginnings, all };
    let Some(empty) = resolve(frameset, plain, &search.beginnings, &search.all, &[], Begin::At(&solved)) else {
        return unsearched(search.all, solved);
    };
    let mut resolved = vec![empty];
    if !is_doubtful {
        // No figure stands out; one way of measuring or another is all that there is to weigh.
        for way in 0..search.all.len() {
            search.add(&[way], Begin::At(&solved), &mut resolved);
        }
        return Sets::of(resolved, search.all);
    }
    let here = search.signatures(plain, &solved, &[]);
    search.try_columns(&columns, &mut resolved);
    let mut found = Vec::new();
    // A gross slip is solved anew before anything else is believed; then there may be another one.
    let mut base = 0;
    let mut on_base: Option<Vec<Signature>> = None;
    while resolved[base].set.len() < MOST {
        let before = resolved[base].set.len() + 1;
        search.try_gross(on_base.as_ref().unwrap_or(&here), base, &mut resolved);
        let built = (0..resolved.len()).filter(|k| resolved[*k].set.len() == before);
        let best = built.max_by(|a, b| resolved[*a].ln_evidence.total_cmp(&resolved[*b].ln_evidence));
        let Some(best) = best.filter(|b| resolved[*b].ln_evidence > resolved[base].ln_evidence + BUILT_ON) else { break };
        base = best;
        if search.add_ways_on(base, &mut resolved) {
            break;
        }
        let built_on = &resolved[base];
        let signatures = search.signatures(&built_on.observations, &built_on.solved, &built_on.set);
        found.extend(search.beam(&signatures, &built_on.set, built_on.ln_evidence, MOST));
        on_base = Some(signatures);
    }
    // At the state that a gross slip has ruined, only what is as simple as that slip is worth a thought.
    let most = if base == 0 { MOST } else { resolved[base].set.len() };
    found.extend(search.beam(&here, &[], resolved[0].ln_evidence, most));
    search.resolve_all(found, base, &mut resolved);
    Sets::of(resolved, search.all)
}

/// Whether anything at a solution gives reason to look for errors. `but_for` are the places of observations that are not
/// only rounded.
fn gives_reason_to_look(projection: &mut Projection<'_>, but_for: &[usize]) -> bool {
    projection.is_any_above(LOOK_ABOVE, LOOK_ABOVE_ASSUMED) || ln_bounded(projection, but_for) < LOOK_BELOW_BOUNDED
}

/// Whether a way of measuring is likely enough at a solution to be weighed where nothing else gives reason to look.
fn is_likely(projection: &mut Projection<'_>, way: &Hypothesis) -> bool {
    let alone = projection.of_hypothesis(0, way).and_then(|s| ln_odds(&[s.term()], |_, _| s.g));
    alone.is_some_and(|(ln, _)| ln + way.ln_more > LOOK_FROM_CHANCE.ln())
}

impl Search<'_> {
    /// All hypotheses that can be told at a solution and do not meet those that it is built on.
    fn signatures(&self, observations: &Observations, solved: &Solved, base: &[usize]) -> Vec<Signature> {
        let mut projection = Projection::of(observations, &self.beginnings, solved);
        let is_free = |h: &Hypothesis| base.iter().all(|b| !self.all[*b].subject.meets(&h.subject));
        self.all.iter().enumerate().filter(|(_, h)| is_free(h)).filter_map(|(i, h)| projection.of_hypothesis(i, h)).collect()
    }

    /// Where a base leaves no reason to look for more, only the ways of measuring that are likely there are solved on top of
    /// it, as in a table in which nothing is wrong. Whether it is so.
    fn add_ways_on(&self, base: usize, resolved: &mut Vec<Resolved>) -> bool {
        let built_on = &resolved[base];
        let members: Vec<&Hypothesis> = built_on.set.iter().filter_map(|i| self.all.get(*i)).collect();
        let mut projection = Projection::of(&built_on.observations, &self.beginnings, &built_on.solved);
        if gives_reason_to_look(&mut projection, &widened(&members)) {
            return false;
        }
        let meets = |way: &Hypothesis| members.iter().any(|m| m.subject.meets(&way.subject));
        let ways = self.all.iter().enumerate().filter(|(_, h)| h.kind == SlipKind::Convention && !meets(h));
        let likely: Vec<usize> = ways.filter(|(_, way)| is_likely(&mut projection, way)).map(|(i, _)| i).collect();
        let (set, near) = (built_on.set.clone(), built_on.solved.clone());
        for way in likely {
            let mut with = set.clone();
            with.push(way);
            with.sort_unstable();
            self.add(&with, Begin::At(&near), resolved);
        }
        true
    }

    /// Sets on top of `base`, by beam, of up to `most` hypotheses altogether.
    fn beam(&self, signatures: &[Signature], base: &[usize], ln_base: f64, most: usize) -> Vec<Found> {
        let mut kept: Vec<(Vec<usize>, f64)> = vec![(Vec::new(), ln_base)];
        let mut best_of_all = ln_base;
        // Of each signature that was kept: its aᵀ R a with all.
        let mut gram: Vec<Vec<f64>> = vec![Vec::new(); signatures.len()];
        let mut all: Vec<Found> = Vec::new();
        for _ in base.len()..most {
            let mut longer: Vec<(Vec<usize>, f64, [f64; MOST])> = Vec::new();
            let mut best = f64::NEG_INFINITY;
            for (members, _) in &kept {
                for member in members {
                    if gram[*member].is_empty() {
                        gram[*member] = signatures.iter().map(|s| signatures[*member].with(s)).collect();
                    }
                }
                for (i, signature) in signatures.iter().enumerate() {
                    let subject = &self.all[signature.hypothesis].subject;
                    let meets = |m: &usize| self.all[signatures[*m].hypothesis].subject.meets(subject);
                    if members.iter().any(meets) {
                        continue;
                    }
                    let count = members.len() + 1;
                    let mut set = [i; MOST];
                    set[..count - 1].copy_from_slice(members);
                    let set = &mut set[..count];
                    set.sort_unstable();
                    let mut terms = [signature.term(); MOST];
                    for (term, at) in terms.iter_mut().zip(&*set) {
                        *term = signatures[*at].term();
                    }
                    let g = |a: usize, b: usize| match (set[a], set[b]) {
                        (a, b) if a == b => signatures[a].g,
                        (a, b) if a == i => gram[b][a],
                        (a, b) => gram[a][b],
                    };
                    if let Some((ln, magnitudes)) = ln_odds(&terms[..count], g)
                        && ln > best - 2.0 * FORGET_BELOW
                    {
                        best = best.max(ln);
                        longer.push((set.to_vec(), ln, magnitudes));
                    }
                }
            }
            longer.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
            longer.dedup_by(|a, b| a.0 == b.0);
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
            best_of_all = level.first().map_or(best_of_all, |l| best_of_all.max(l.1));
            level.retain(|l| l.1 > best_of_all - FORGET_BELOW);
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
        let steps = |set: &Vec<usize>| first_steps(self.frameset, self.plain, &self.beginnings, &self.all, set);
        let begun: Vec<Solution<LOCAL, SHARED>> = sets.iter().map(steps).collect();
        let least = begun.iter().map(|b| b.chi_squared).fold(f64::INFINITY, f64::min);
        for (set, begun) in sets.iter().zip(&begun) {
            if begun.chi_squared <= HOPELESS_TIMES * least + HOPELESS_BEYOND {
                self.add(set, Begin::OnTheWay(&begun.at), resolved);
            }
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
        let more = |f: &Found| f.set.iter().filter_map(|i| self.all.get(*i)).map(|h| h.ln_more).sum::<f64>();
        let is_within = |f: &Found| f.ln + more(f) - best > LEAST_CHANCE.ln();
        let within: Vec<Found> = found.into_iter().filter(is_within).take(MOST_RESOLVED).collect();
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

impl Sets {
    /// The sets whose chance counts, or whose share in the averages.
    fn of(mut resolved: Vec<Resolved>, all: Vec<Hypothesis>) -> Self {
        let told = |r: &Resolved| r.ln_evidence;
        let averaged = |r: &Resolved| r.ln_evidence + r.ln_more;
        let best = |of: &dyn Fn(&Resolved) -> f64, all: &[Resolved]| all.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        let (most_told, most_averaged) = (best(&told, &resolved), best(&averaged, &resolved));
        // As a difference: beside an evidence of −1e20 a chance is no number any more.
        let counts = |ln: f64| ln > (0.3 * LEAST_CHANCE).ln();
        resolved.retain(|r| counts(told(r) - most_told) || counts(averaged(r) - most_averaged));
        resolved.sort_by(|a, b| told(b).total_cmp(&told(a)));
        let chances = |of: &dyn Fn(&Resolved) -> f64, most: f64| -> Vec<f64> {
            let total: f64 = resolved.iter().map(|r| (of(r) - most).exp()).sum();
            resolved.iter().map(|r| (of(r) - most).exp() / total).collect()
        };
        let (chances, shares) = (chances(&told, most_told), chances(&averaged, most_averaged));
        Self { weighed: chances.into_iter().zip(resolved).collect(), shares, all, is_searched: true }
    }
}
