//! The ledger: every total is a list of lines (as published, to the size compared, added and taken off), each with its ±.

use super::density::{Assumed, fixed_parts, fork_g, steerer_g_per_mm};
use super::errors::{ErrorSource, WeightError, gathered, u_of, weight_difference};
use super::lengths::tube_lengths;
use super::notes::{NoWay, WeightNote};
use super::published::{Published, best_published, offered_lines};
use super::settings::{Line, Method, PartWeightChoices, WeightChoices, WeightSettings, What};
use super::to_size::{Estimate, SizeStep, TypedFactor, Ways, between_weighed, by_stated_factor, by_tube_lengths, disagreement};
use super::tube_set::tube_set;
use super::typed::{is_usual, usual_grams};
use crate::frameset::{Figure, Frameset, Part, SizeIndex};
use crate::geometry::Adjusted;
use crate::units::{COVERAGE_FACTOR, Mass, Measured};

/// ± of a frame whose published weight names no size, as a share: about a size step and a half by tube lengths. Our own
/// assumption.
const SIZE_UNKNOWN_SHARE: f64 = 0.04;

/// One frame at the size compared, with the user's choices about its weights.
#[derive(Clone, Copy, Debug)]
pub struct WeighedFrame<'a> {
    /// The frameset.
    pub frameset: &'a Frameset,
    /// All its sizes.
    pub adjusted: &'a Adjusted,
    /// Place of the size compared.
    pub size: SizeIndex,
    /// The choices.
    pub weight_choices: &'a WeightChoices,
}

/// What a row of a ledger is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowOf {
    /// The weight as published.
    Published,
    /// What a way to the size compared adds.
    ToSize(Method),
    /// The ± of a weight whose size is not published.
    SizeNotPublished,
    /// The user's line at this place.
    Line {
        /// Its place.
        index: usize,
        /// What it is of.
        what: What,
    },
    /// The total of a part.
    Part(Part),
}

/// A row of a ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is.
    pub of: RowOf,
    /// What it adds; the rows add up to the total.
    pub mass: Measured<Mass>,
}

/// One part's weight at the size compared.
#[derive(Clone, Debug, PartialEq)]
pub struct PartWeight {
    /// Frame, fork or frameset.
    pub part: Part,
    /// Place of the size compared.
    pub size: SizeIndex,
    /// Mass at the size compared.
    pub mass: Measured<Mass>,
    /// Whether it is anything but weighed in this very size.
    pub is_estimate: bool,
    /// The published weight that it begins from; `None` for the sum of frame and fork.
    pub published: Option<Published>,
    /// The ways to the size compared, where it was published for another.
    pub ways: Option<Ways>,
    /// The way that counts.
    pub counted: Option<Method>,
    /// The rows; they add up to `mass`, and the squares of their u to that of its u (but for the published weight's, which
    /// is scaled with it).
    pub rows: Vec<Row>,
    /// Notes on it.
    pub notes: Vec<WeightNote>,
    /// Lines that the published weight asks for.
    pub offered: Vec<Line>,
    /// What makes the u of `mass`, each source once.
    pub errors: Vec<WeightError>,
}

impl PartWeight {
    /// How much heavier it is than another weight; what both share is left out of the u. Whether both are of one frameset
    /// is for the caller to say.
    #[must_use]
    pub fn difference(&self, other: &Self, is_one_frameset: bool) -> Measured<Mass> {
        weight_difference((self.mass, &self.errors), (other.mass, &other.errors), is_one_frameset)
    }

    /// The estimate that counts, where the weight was published for another size.
    #[must_use]
    pub fn estimate(&self) -> Option<&Estimate> {
        self.ways.as_ref()?.by(self.counted?).ok()
    }
}

/// How a weight is known, the surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WeightOrigin {
    /// Put on a scale, in this size.
    Weighed,
    /// Claimed by the maker.
    Claimed,
    /// Brought to this size from another.
    Estimated,
}

/// What is known of a frame's weights at the size compared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weights {
    /// The frame alone.
    pub frame: Option<PartWeight>,
    /// The fork alone.
    pub fork: Option<PartWeight>,
    /// Both: as published, or summed where both are known.
    pub frameset: Option<PartWeight>,
}

impl Weights {
    /// One of them.
    #[must_use]
    pub const fn part(&self, part: Part) -> Option<&PartWeight> {
        match part {
            Part::Frame => self.frame.as_ref(),
            Part::Fork => self.fork.as_ref(),
            Part::Frameset => self.frameset.as_ref(),
        }
    }

    /// How a part's weight is known; a frameset that is summed is as sure as its less sure part.
    #[must_use]
    pub fn origin(&self, part: Part) -> Option<WeightOrigin> {
        let weight = self.part(part)?;
        if weight.published.is_none() {
            return self.origin(Part::Frame).max(self.origin(Part::Fork));
        }
        let is_claimed = weight.published.is_some_and(|p| p.is_claimed);
        Some(match (weight.ways.is_some(), is_claimed) {
            (true, _) => WeightOrigin::Estimated,
            (false, true) => WeightOrigin::Claimed,
            (false, false) => WeightOrigin::Weighed,
        })
    }
}

/// The weights of one frame at the size compared. A frameset that is published as one comes before the sum of its parts.
#[must_use]
pub fn weights(entry: &WeighedFrame, settings: &WeightSettings) -> Weights {
    let total = |part| total(entry, part, settings);
    let (frame, fork) = (total(Part::Frame), total(Part::Fork));
    let summed = match (&frame, &fork) {
        (Some(frame), Some(fork)) => Some(sum(frame, fork)),
        _ => None,
    };
    Weights { frameset: total(Part::Frameset).or(summed), frame, fork }
}

fn sum(frame: &PartWeight, fork: &PartWeight) -> PartWeight {
    let row = |p: &PartWeight| Row { of: RowOf::Part(p.part), mass: p.mass };
    let errors = gathered(frame.errors.iter().chain(&fork.errors).copied());
    PartWeight {
        part: Part::Frameset,
        size: frame.size,
        mass: Measured::new(frame.mass.value + fork.mass.value, u_of(&errors)),
        errors,
        is_estimate: frame.is_estimate || fork.is_estimate,
        published: None,
        ways: None,
        counted: frame.counted,
        rows: vec![row(frame), row(fork)],
        notes: Vec::new(),
        offered: Vec::new(),
    }
}

fn total(entry: &WeighedFrame, part: Part, settings: &WeightSettings) -> Option<PartWeight> {
    let choice = entry.weight_choices.part(part);
    let mut published = best_published(entry.frameset, part, entry.size, choice, settings.claimed_percent)?;
    if let Some(plus_minus) = choice.plus_minus {
        published.mass.u = plus_minus / COVERAGE_FACTOR;
    }
    let weight = entry.frameset.weights.get(published.index)?;
    let mut notes = Vec::new();
    if !is_usual(part, published.mass.value) {
        notes.push(WeightNote::Unlikely { part, mass: published.mass, usual: usual_grams(part) });
    }
    let mut rows = vec![Row { of: RowOf::Published, mass: published.mass }];
    let mut grams = published.mass.value;
    let mut errors = published.errors(part);
    let from = published.size.filter(|from| *from != entry.size);
    let ways = from.map(|from| ways(entry, part, &published, from, settings));
    let mut counted = None;
    if let Some((ways, from)) = ways.as_ref().zip(from)
        && let Some((method, estimate)) = counting(ways, part, choice, settings, &mut notes)
    {
        counted = Some(method);
        grams = estimate.mass.value;
        let begun = errors.into_iter().map(|e| e.times(estimate.of_published));
        errors = begun.chain(estimate.way_errors.iter().copied()).collect();
        rows.push(Row { of: RowOf::ToSize(method), mass: Measured::new(grams - published.mass.value, estimate.way_u) });
        notes.extend(estimate.note.clone());
        let is_typed = choice.factor.or(settings.factor).is_some_and(|f| f != 1.0) || method == Method::YourFactor;
        let disagreement = disagreement(ways, from, entry.size).filter(|_| is_typed && part != Part::Fork);
        notes.extend(disagreement.map(WeightNote::WaysDisagree));
    }
    if published.size.is_none() && part != Part::Fork {
        let u = published.mass.value * SIZE_UNKNOWN_SHARE / COVERAGE_FACTOR;
        errors.push(WeightError::new(ErrorSource::SizeNotPublished(part), u));
        rows.push(Row { of: RowOf::SizeNotPublished, mass: Measured::new(0.0, u) });
        notes.push(WeightNote::SizeNotPublished);
    }
    for (index, line) in choice.lines.iter().enumerate() {
        let (added, u) = (line.amount.grams(), line.plus_minus / COVERAGE_FACTOR);
        grams += added;
        errors.push(WeightError::new(ErrorSource::Line(part, index), u));
        rows.push(Row { of: RowOf::Line { index, what: line.what.clone() }, mass: Measured::new(added, u) });
    }
    let head_tube = entry.size.of(&entry.adjusted.sizes).map(|s| s.value(Figure::HeadTube));
    let head_tube = head_tube.filter(|v| !v.is_missing).map(|v| v.value);
    let errors: Vec<WeightError> = gathered(errors).into_iter().filter(|e| e.grams != 0.0).collect();
    Some(PartWeight {
        part,
        size: entry.size,
        mass: Measured::new(grams, u_of(&errors)),
        errors,
        is_estimate: published.is_claimed || ways.is_some() || (published.size.is_none() && part != Part::Fork),
        ways,
        counted,
        rows,
        notes,
        offered: offered_lines(entry.frameset, weight, head_tube, choice),
        published: Some(published),
    })
}

/// The way that counts: the part's own choice, else the line-up's, else the first that can be gone, which is then said.
/// A fork is not scaled with the frame: unless its own choice says otherwise its steerer alone counts.
fn counting<'a>(
    ways: &'a Ways,
    part: Part,
    choice: &PartWeightChoices,
    settings: &WeightSettings,
    notes: &mut Vec<WeightNote>,
) -> Option<(Method, &'a Estimate)> {
    let chosen = choice.method.unwrap_or(if part == Part::Fork { Method::TubeLengths } else { settings.method });
    match ways.by(chosen) {
        Ok(estimate) => Some((chosen, estimate)),
        Err(why) => {
            let order = [Method::BetweenWeighedSizes, Method::TubeLengths, Method::YourFactor];
            let (counts, estimate) = order.into_iter().find_map(|m| ways.by(m).ok().map(|e| (m, e)))?;
            notes.push(WeightNote::OtherWay { chosen, why: why.clone(), counts });
            Some((counts, estimate))
        }
    }
}

fn ways(entry: &WeighedFrame, part: Part, published: &Published, from: SizeIndex, settings: &WeightSettings) -> Ways {
    let choice = entry.weight_choices.part(part);
    let factor = choice.factor.or(settings.factor);
    let half_range = |factor: f64| settings.factor_plus_minus.unwrap_or_else(|| ((factor - 1.0).abs() / 2.0).max(0.02));
    let factor_u = |factor: f64| half_range(factor) / COVERAGE_FACTOR;
    let steps = i32::try_from(entry.size.0).unwrap_or(0) - i32::try_from(from.0).unwrap_or(0);
    let others = entry.frameset.weights.iter().enumerate().filter(|(_, w)| w.part == part);
    // Only the weight that is chosen can be of the user's own frame.
    let of = |i: usize| Published::of(entry.frameset, i, settings.claimed_percent, choice.own_frame && i == published.index);
    let mut weighed: Vec<Published> = others.filter_map(|(i, _)| of(i)).collect();
    for other in &mut weighed {
        if other.index == published.index {
            other.mass.u = published.mass.u;
        }
    }
    Ways {
        stated: factor
            .map(|factor| TypedFactor { factor, u: factor_u(factor), is_own: choice.factor.is_some() })
            .map(|typed| by_stated_factor(published, part, steps, &typed, settings.per))
            .ok_or(NoWay::NoFactor),
        tube_lengths: match part {
            Part::Fork => by_steerer(entry, published, from),
            Part::Frame => by_tubes(entry, (part, published), from, settings, Assumed { value: 0.0, plus_minus: 0.0 }),
            Part::Frameset => by_tubes(entry, (part, published), from, settings, fork_in(entry, settings)),
        },
        between: between_weighed(&weighed, part, entry.size, published),
    }
}

/// The fork's share of a frameset that is published as one: the published fork's weight, else an assumed one.
fn fork_in(entry: &WeighedFrame, settings: &WeightSettings) -> Assumed {
    let choice = PartWeightChoices::default();
    match best_published(entry.frameset, Part::Fork, entry.size, &choice, settings.claimed_percent) {
        Some(fork) => Assumed { value: fork.mass.value, plus_minus: fork.mass.expanded() },
        None => fork_g(entry.frameset),
    }
}

fn by_tubes(
    entry: &WeighedFrame,
    (part, published): (Part, &Published),
    from: SizeIndex,
    settings: &WeightSettings,
    fork: Assumed,
) -> Result<Estimate, NoWay> {
    let set = tube_set(entry.frameset);
    let parts = match settings.fixed_grams {
        Some(value) => Assumed { value, plus_minus: settings.fixed_plus_minus },
        None => Assumed { plus_minus: settings.fixed_plus_minus, ..fixed_parts(set.material) },
    };
    let same = Assumed { value: parts.value + fork.value, plus_minus: parts.plus_minus.hypot(fork.plus_minus) };
    let lengths = |size| tube_lengths(entry.frameset, entry.adjusted, size);
    let (before, after) = (lengths(from), lengths(entry.size));
    by_tube_lengths(published, part, (from, &before), (entry.size, &after), &set, entry.adjusted, same)
}

/// A fork is longer in another size by its steerer, and that by the head tube.
fn by_steerer(entry: &WeighedFrame, published: &Published, from: SizeIndex) -> Result<Estimate, NoWay> {
    let head_tube = |size: SizeIndex| {
        let value = size.of(&entry.adjusted.sizes).map(|s| s.value(Figure::HeadTube)).filter(|v| !v.is_missing);
        value.ok_or(NoWay::HeadTubeUnknown { size })
    };
    let (before, after) = (head_tube(from)?, head_tube(entry.size)?);
    let each = steerer_g_per_mm(entry.frameset);
    let mm = after.value - before.value;
    // Two sizes of one frameset: the u of their difference, not of both.
    let longer = entry.adjusted.difference(entry.size, from, Figure::HeadTube).map_or(before.u.hypot(after.u), |d| d.u);
    let way_errors = vec![
        WeightError::new(ErrorSource::Figures(Part::Fork, entry.size), each.value * longer),
        WeightError::new(ErrorSource::Steerer, mm * each.u()),
    ];
    let way_u = u_of(&way_errors);
    let change = Measured::new(mm * each.value, way_u);
    Ok(Estimate {
        mass: published.mass.plus(change),
        way_u,
        way_errors,
        of_published: 1.0,
        percent: Measured::new(change.value / published.mass.value * 100.0, way_u / published.mass.value * 100.0),
        step: SizeStep::Steerer { mm, change },
        note: None,
    })
}
