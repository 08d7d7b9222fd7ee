//! Three ways from a weighed size to another, side by side, each with its range.
//!
//! With m the published weight, F what has the same weight in every size (fixed parts; for a frameset the fork too), and
//! Σ(s) the weight of the tubes in size s as their lengths, diameters and walls have it:
//!
//! - typed factor: m fⁿ, n size steps up (down: divided);
//! - tube lengths: F + (m − F) Σ(target) / Σ(published): the published weight fixes the remaining scale;
//! - between weighed sizes: the straight line through the two nearest published sizes.
//!
//! Ranges are two standard uncertainties, propagated to first order (JCGM 100:2008 §5.1.2).

use super::density::Assumed;
use super::errors::{ErrorSource, WeightError, gathered, u_of};
use super::lengths::{TubeLength, tube_grams, tube_grams_u};
use super::notes::{Disagreement, NoWay, WeightNote};
use super::published::Published;
use super::settings::{Method, Per};
use super::tube_set::TubeSet;
use crate::frameset::{Part, SizeIndex, Tube};
use crate::geometry::Adjusted;
use crate::units::{COVERAGE_FACTOR, Mass, Measured, Ratio};

/// Share of u² of the line-up's typed factor that all weights have in common; the rest is each frameset's own. Our own
/// assumption.
const COMMON_FACTOR: f64 = 0.8;
/// How much the step from one size to the next changes from step to step, as a share of the weight (one standard
/// uncertainty): about a fifth of a step. Our own assumption.
const BEND_SHARE: f64 = 0.005;

/// A weight at another size.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// Mass at the size. Its u holds the published weight's.
    pub mass: Measured<Mass>,
    /// What the way alone leaves in it, g: without the published weight's own u.
    pub way_u: f64,
    /// What makes that.
    pub way_errors: Vec<WeightError>,
    /// How an error of the published weight comes back in it; 0 where the way begins from others.
    pub of_published: f64,
    /// How much heavier than the published one. Its u is what the way alone leaves in it.
    pub percent: Measured<Ratio>,
    /// The step from the published weight to this one.
    pub step: SizeStep,
    /// A note, where there is one: beyond the weighed sizes, scale far from the tubes assumed.
    pub note: Option<WeightNote>,
}

/// Step from a published weight to another size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SizeStep {
    /// A typed factor, multiplied so many times; divided where the count is negative.
    Factor {
        /// The factor.
        factor: f64,
        /// How many times.
        times: i32,
    },
    /// The tubes' lengths.
    TubeLengths {
        /// What they add.
        change: Measured<Mass>,
    },
    /// A longer or shorter steerer.
    Steerer {
        /// What is longer, mm; negative is shorter.
        mm: f64,
        /// What it adds.
        change: Measured<Mass>,
    },
    /// The straight line through two weighed sizes: the place of each in the frameset, and its weight.
    Line {
        /// The smaller size.
        low: (SizeIndex, Measured<Mass>),
        /// The larger size.
        high: (SizeIndex, Measured<Mass>),
    },
}

/// The three ways side by side; a way that is not possible says why.
#[derive(Clone, Debug, PartialEq)]
pub struct Ways {
    /// By the typed factor.
    pub stated: Result<Estimate, NoWay>,
    /// By the tubes' lengths.
    pub tube_lengths: Result<Estimate, NoWay>,
    /// Between published sizes.
    pub between: Result<Estimate, NoWay>,
}

impl Ways {
    /// One of them.
    ///
    /// # Errors
    /// Why it is not possible.
    pub const fn by(&self, method: Method) -> Result<&Estimate, &NoWay> {
        match method {
            Method::YourFactor => self.stated.as_ref(),
            Method::TubeLengths => self.tube_lengths.as_ref(),
            Method::BetweenWeighedSizes => self.between.as_ref(),
        }
    }
}

/// A factor that the user typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypedFactor {
    /// The factor.
    pub factor: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// Whether it is a single weight's own; the line-up's is one unknown for all that it scales.
    pub is_own: bool,
}

impl TypedFactor {
    /// Shares of u² by their sources; `part` is what is scaled.
    fn errors(&self, part: Part, grams: f64) -> Vec<WeightError> {
        let of_frameset = |share: f64| WeightError::new(ErrorSource::OwnFactor(part), grams * share.sqrt());
        if self.is_own {
            return vec![of_frameset(1.0)];
        }
        let common = WeightError::new(ErrorSource::TypedFactor, grams * COMMON_FACTOR.sqrt());
        vec![common, of_frameset(1.0 - COMMON_FACTOR)]
    }
}

/// By a typed factor over `steps` sizes up (down where negative) of a part.
#[must_use]
pub fn by_stated_factor(published: &Published, part: Part, steps: i32, typed: &TypedFactor, per: Per) -> Estimate {
    let TypedFactor { factor, u: factor_u, .. } = *typed;
    let n = match per {
        Per::Step => steps,
        Per::All => steps.signum(),
    };
    let total = factor.powi(n);
    let slope = f64::from(n) * factor.powi(n - 1) * factor_u;
    let total_u = slope.abs();
    let way_u = published.mass.value * total_u;
    Estimate {
        mass: Measured::new(published.mass.value * total, way_u.hypot(published.mass.u * total)),
        way_u,
        way_errors: typed.errors(part, published.mass.value * slope),
        of_published: total,
        percent: Measured::new((total - 1.0) * 100.0, total_u * 100.0),
        step: SizeStep::Factor { factor, times: n },
        note: None,
    }
}

/// By tube lengths, from the size `from` to the size `to`; `fixed_parts` is F, in grams.
///
/// # Errors
/// Tubes of unknown length in either size, and fixed parts that would outweigh all.
pub fn by_tube_lengths(
    published: &Published,
    part: Part,
    from: (SizeIndex, &Result<Vec<TubeLength>, Vec<Tube>>),
    to: (SizeIndex, &Result<Vec<TubeLength>, Vec<Tube>>),
    set: &TubeSet,
    adjusted: &Adjusted,
    fixed_parts: Assumed,
) -> Result<Estimate, NoWay> {
    let known = |lengths: &Result<Vec<TubeLength>, Vec<Tube>>, size: SizeIndex| {
        lengths.clone().map_err(|tubes| NoWay::TubesUnknown { size, tubes })
    };
    let (before, after) = (known(from.1, from.0)?, known(to.1, to.0)?);
    let free = published.mass.value - fixed_parts.value;
    if free <= 0.0 {
        return Err(NoWay::FixedPartsTooHeavy { fixed: fixed_parts.mass() });
    }
    let (light, heavy) = (tube_grams(set, &before), tube_grams(set, &after));
    let (sum_before, sum_after): (f64, f64) = (light.iter().sum(), heavy.iter().sum());
    if sum_before <= 0.0 {
        return Err(NoWay::NoTubeLength);
    }
    let ratio = sum_after / sum_before;
    let scale = free / sum_before;
    let mut way_errors: Vec<WeightError> = Vec::with_capacity(set.tubes.len() + 2);
    for (tube, (a, b)) in set.tubes.iter().zip(light.iter().zip(&heavy)) {
        let grams = scale * (b - ratio * a) * tube.share_plus_minus / COVERAGE_FACTOR;
        way_errors.push(WeightError::new(ErrorSource::Tube(part, tube.tube), grams));
    }
    if from.0 != to.0 {
        let grams = scale * tube_grams_u(set, adjusted, (to.0, &after), (from.0, &before), ratio);
        way_errors.push(WeightError::new(ErrorSource::Figures(part, to.0), grams));
    }
    way_errors.push(WeightError::new(ErrorSource::FixedParts(part), (1.0 - ratio) * fixed_parts.u()));
    let way_u = u_of(&way_errors);
    let grams = fixed_parts.value + free * ratio;
    let does_not_fit = !(0.5..=2.0).contains(&scale);
    Ok(Estimate {
        mass: Measured::new(grams, way_u.hypot(published.mass.u * ratio)),
        way_u,
        way_errors,
        of_published: ratio,
        percent: percent_of(published, grams, way_u),
        step: SizeStep::TubeLengths { change: Measured::new(grams - published.mass.value, way_u) },
        note: does_not_fit.then(|| WeightNote::TubesDoNotFit { fixed: fixed_parts.mass(), times: scale }),
    })
}

/// Between published sizes: the straight line, one size step being as wide as the next, through the two published sizes
/// around `to`, or the two nearest where `to` lies beyond them (with a caution). A published size itself is its own answer.
/// How far a size lies off that line has a u of its own, which grows with the distance from both ends. `published` is what
/// the percentage is of.
///
/// # Errors
/// Fewer than two published sizes.
pub fn between_weighed(weighed: &[Published], part: Part, to: SizeIndex, published: &Published) -> Result<Estimate, NoWay> {
    let mut known: Vec<(SizeIndex, &Published)> = Vec::new();
    for weight in weighed {
        let Some(size) = weight.size else { continue };
        match known.iter_mut().find(|(s, _)| *s == size) {
            Some(same) if same.1.is_claimed && !weight.is_claimed => same.1 = weight,
            Some(_) => {}
            None => known.push((size, weight)),
        }
    }
    known.sort_by_key(|(size, _)| *size);
    if known.len() < 2 {
        return Err(NoWay::FewerThanTwoSizes);
    }
    // The pair around the size; beyond the ends the last pair on that side.
    let upper = known.iter().position(|(size, _)| *size >= to).unwrap_or(known.len() - 1).max(1);
    let ((a, low), (b, high)) = (known[upper - 1], known[upper]);
    let t = (to.0 as f64 - a.0 as f64) / (b.0 as f64 - a.0 as f64);
    let grams = low.mass.value + (high.mass.value - low.mass.value) * t;
    let off = 0.5 * BEND_SHARE * grams * ((to.0 as f64 - a.0 as f64) * (to.0 as f64 - b.0 as f64)).abs();
    let ends = low.errors(part).into_iter().map(|e| e.times(1.0 - t)).chain(high.errors(part).into_iter().map(|e| e.times(t)));
    let own = (off > 0.0).then_some(WeightError::new(ErrorSource::StraightLine(part, to), off));
    let way_errors = gathered(ends.chain(own));
    let u = u_of(&way_errors);
    let is_beyond = !(0.0..=1.0).contains(&t);
    let weighed = [known[0].0, known[known.len() - 1].0];
    Ok(Estimate {
        mass: Measured::new(grams, u),
        // Both ends' own u, and how far the size may lie off the line.
        way_u: u,
        way_errors,
        of_published: 0.0,
        percent: percent_of(published, grams, u),
        step: SizeStep::Line { low: (a, low.mass), high: (b, high.mass) },
        note: is_beyond.then_some(WeightNote::BeyondWeighed { size: to, weighed }),
    })
}

/// How much heavier `grams` are than the published weight, with what the way alone leaves in it.
fn percent_of(published: &Published, grams: f64, way_u: f64) -> Measured<Ratio> {
    Measured::new((grams / published.mass.value - 1.0) * 100.0, way_u / published.mass.value * 100.0)
}

/// Where the typed factor and the tubes' lengths differ by more than their ranges, how. `from` and `to` are sizes.
#[must_use]
pub fn disagreement(ways: &Ways, from: SizeIndex, to: SizeIndex) -> Option<Disagreement> {
    let (Ok(stated), Ok(lengths)) = (&ways.stated, &ways.tube_lengths) else { return None };
    let way = |e: &Estimate| Measured::new(e.mass.value, e.way_u);
    stated.percent.minus(lengths.percent).is_clear().then(|| Disagreement {
        from,
        to,
        by_factor: stated.percent,
        by_lengths: lengths.percent,
        apart: way(stated).minus(way(lengths)),
    })
}
