//! The ledger: every total is a list of lines (as published, to the size compared, added and taken off), each with its ±.

use super::density::{Assumed, fixed_parts, fork_g, steerer_g_per_mm};
use super::lengths::tube_lengths;
use super::published::{Published, best_published, offered_lines};
use super::settings::{Line, Method, PartWeighing, Weighing, WeightSettings};
use super::to_size::{Estimate, Ways, between_weighed, by_stated_factor, by_tube_lengths, disagreement};
use super::tube_set::tube_set;
use super::typed::unlikely;
use crate::frameset::{Figure, Frameset, Part};
use crate::geometry::Adjusted;
use crate::units::{COVERAGE_FACTOR, MINUS, Mass, Measured, System, THIN_SPACE, fixed};

/// ± of a frame whose published weight names no size, as a share: about a size step and a half by tube lengths. Our own
/// assumption.
const SIZE_UNKNOWN_SHARE: f64 = 0.04;

/// One frame at the size compared, with the user's choices about its weights.
#[derive(Clone, Copy, Debug)]
pub struct Entry<'a> {
    /// The frameset.
    pub frameset: &'a Frameset,
    /// All its sizes.
    pub adjusted: &'a Adjusted,
    /// Place of the size compared.
    pub size: usize,
    /// The choices.
    pub weighing: &'a Weighing,
}

/// What a row of a ledger is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowOf {
    /// The weight as published.
    Published,
    /// What the way to the size compared adds.
    ToSize,
    /// The user's line at this place.
    Line(usize),
    /// The total of a part.
    Part(Part),
}

/// A row of a ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is.
    pub of: RowOf,
    /// In words.
    pub label: String,
    /// What it adds; the rows add up to the total.
    pub mass: Measured<Mass>,
}

/// One part's weight at the size compared.
#[derive(Clone, Debug, PartialEq)]
pub struct PartWeight {
    /// Frame, fork or frameset.
    pub part: Part,
    /// Mass at the size compared.
    pub mass: Measured<Mass>,
    /// Whether it is anything but weighed in this very size.
    pub is_estimate: bool,
    /// The sum spelled out: "2600 g M weighed × 1.10 = 2860 g L estimated".
    pub sum: String,
    /// The published weight that it begins from; `None` for the sum of frame and fork.
    pub published: Option<Published>,
    /// The ways to the size compared, where it was published for another.
    pub ways: Option<Ways>,
    /// The way that counts.
    pub counted: Option<Method>,
    /// The rows; they add up to `mass`, and the squares of their u to that of its u (but for the published weight's, which
    /// is scaled with it).
    pub rows: Vec<Row>,
    /// What there is to say about it, in sentences.
    pub says: Vec<String>,
    /// Lines that the published weight asks for.
    pub offered: Vec<Line>,
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
}

/// The weights of one frame at the size compared. A frameset that is published as one comes before the sum of its parts.
#[must_use]
pub fn weights(entry: &Entry, settings: &WeightSettings) -> Weights {
    let total = |part| total(entry, part, settings);
    let (frame, fork) = (total(Part::Frame), total(Part::Fork));
    let summed = match (&frame, &fork) {
        (Some(frame), Some(fork)) => Some(sum(frame, fork)),
        _ => None,
    };
    Weights { frameset: total(Part::Frameset).or(summed), frame, fork }
}

fn sum(frame: &PartWeight, fork: &PartWeight) -> PartWeight {
    let mass = frame.mass.plus(fork.mass);
    let row = |p: &PartWeight| Row { of: RowOf::Part(p.part), label: p.part.label().to_owned(), mass: p.mass };
    PartWeight {
        part: Part::Frameset,
        mass,
        is_estimate: frame.is_estimate || fork.is_estimate,
        sum: format!("{}; + fork {} = {}", frame.sum, grams_text(fork.mass.value), grams_text(mass.value)),
        published: None,
        ways: None,
        counted: frame.counted,
        rows: vec![row(frame), row(fork)],
        says: Vec::new(),
        offered: Vec::new(),
    }
}

fn total(entry: &Entry, part: Part, settings: &WeightSettings) -> Option<PartWeight> {
    let choice = entry.weighing.part(part);
    let mut published = best_published(entry.frameset, part, entry.size, choice, settings.claimed_percent)?;
    if let Some(plus_minus) = choice.plus_minus {
        published.mass.u = plus_minus / COVERAGE_FACTOR;
    }
    let weight = entry.frameset.weights.get(published.index)?;
    let mut says: Vec<String> = unlikely(part, published.mass.value, System::Metric).into_iter().collect();
    let row = Row { of: RowOf::Published, label: published.words(entry.frameset), mass: published.mass };
    let mut rows = vec![row];
    let mut spelled = published.words(entry.frameset);
    let (mut grams, mut u2) = (published.mass.value, published.mass.u * published.mass.u);
    let label = |size: usize| entry.frameset.sizes.get(size).map_or("", |s| s.label.as_str());

    let ways = published.size.filter(|from| *from != entry.size).map(|from| ways(entry, part, &published, from, settings));
    let mut counted = None;
    if let Some(ways) = &ways
        && let Some((method, estimate)) = counting(ways, part, choice, settings, &mut says)
    {
        counted = Some(method);
        grams = estimate.mass.value;
        u2 = estimate.mass.u * estimate.mass.u;
        spelled.push_str(&format!(" {} = {} {} estimated", estimate.words, grams_text(grams), label(entry.size)));
        let way = format!("to {} by {}", label(entry.size), method.label());
        rows.push(Row { of: RowOf::ToSize, label: way, mass: Measured::new(grams - published.mass.value, estimate.way_u) });
        says.extend(estimate.caution.clone());
        let from = published.size.map_or("", label);
        let is_typed = choice.factor.or(settings.factor).is_some_and(|f| f != 1.0) || method == Method::Stated;
        says.extend(disagreement(ways, from, label(entry.size)).filter(|_| is_typed && part != Part::Fork));
    }
    if published.size.is_none() && part != Part::Fork {
        let u = published.mass.value * SIZE_UNKNOWN_SHARE / COVERAGE_FACTOR;
        u2 += u * u;
        rows.push(Row { of: RowOf::ToSize, label: "size not stated".to_owned(), mass: Measured::new(0.0, u) });
        says.push("The size that was weighed is not stated: the weight is taken as it is.".to_owned());
    }
    for (index, line) in choice.lines.iter().enumerate() {
        let (added, u) = (line.amount.grams(), line.plus_minus / COVERAGE_FACTOR);
        grams += added;
        u2 += u * u;
        let sign = if added < 0.0 { MINUS } else { '+' };
        spelled.push_str(&format!("; {sign} {} {} = {}", line.what.label(), grams_text(added.abs()), grams_text(grams)));
        rows.push(Row { of: RowOf::Line(index), label: line.what.label().to_owned(), mass: Measured::new(added, u) });
    }
    let head_tube = entry.adjusted.sizes.get(entry.size).map(|s| s.value(Figure::HeadTube));
    let head_tube = head_tube.filter(|v| !v.is_missing).map(|v| v.value);
    Some(PartWeight {
        part,
        mass: Measured::new(grams, u2.sqrt()),
        is_estimate: published.is_claimed || ways.is_some() || (published.size.is_none() && part != Part::Fork),
        sum: spelled,
        ways,
        counted,
        rows,
        says,
        offered: offered_lines(entry.frameset, weight, head_tube, choice),
        published: Some(published),
    })
}

/// The way that counts: the part's own choice, else the line-up's, else the first that can be gone, which is then said.
/// A fork is not scaled with the frame: unless its own choice says otherwise its steerer alone counts.
fn counting<'a>(
    ways: &'a Ways,
    part: Part,
    choice: &PartWeighing,
    settings: &WeightSettings,
    says: &mut Vec<String>,
) -> Option<(Method, &'a Estimate)> {
    let chosen = choice.method.unwrap_or(if part == Part::Fork { Method::TubeLengths } else { settings.method });
    let of = |method| match method {
        Method::Stated => &ways.stated,
        Method::TubeLengths => &ways.tube_lengths,
        Method::BetweenWeighed => &ways.between,
    };
    match of(chosen) {
        Ok(estimate) => Some((chosen, estimate)),
        Err(why) => {
            let order = [Method::BetweenWeighed, Method::TubeLengths, Method::Stated];
            let (method, estimate) = order.into_iter().find_map(|m| of(m).as_ref().ok().map(|e| (m, e)))?;
            says.push(format!("The way “{}” is not possible: {why}. Instead “{}” counts.", chosen.label(), method.label()));
            Some((method, estimate))
        }
    }
}

fn ways(entry: &Entry, part: Part, published: &Published, from: usize, settings: &WeightSettings) -> Ways {
    let choice = entry.weighing.part(part);
    let factor = choice.factor.or(settings.factor);
    let half_range = |factor: f64| settings.factor_plus_minus.unwrap_or_else(|| ((factor - 1.0).abs() / 2.0).max(0.02));
    let factor_u = |factor: f64| half_range(factor) / COVERAGE_FACTOR;
    let steps = i32::try_from(entry.size).unwrap_or(0) - i32::try_from(from).unwrap_or(0);
    let others = entry.frameset.weights.iter().enumerate().filter(|(_, w)| w.part == part);
    let mut weighed: Vec<Published> =
        others.filter_map(|(i, _)| Published::of(entry.frameset, i, settings.claimed_percent)).collect();
    for other in &mut weighed {
        if other.index == published.index {
            other.mass.u = published.mass.u;
        }
    }
    Ways {
        stated: factor
            .map(|factor| by_stated_factor(published, steps, factor, factor_u(factor), settings.per))
            .ok_or_else(|| "no factor is entered: enter your own estimate, such as 1.05".to_owned()),
        tube_lengths: match part {
            Part::Fork => by_steerer(entry, published, from),
            Part::Frame => by_tubes(entry, published, from, settings, Assumed { value: 0.0, plus_minus: 0.0 }),
            Part::Frameset => by_tubes(entry, published, from, settings, fork_in(entry, settings)),
        },
        between: between_weighed(&weighed, entry.size, published, entry.frameset),
    }
}

/// The fork's share of a frameset that is published as one: the published fork's weight, else an assumed one.
fn fork_in(entry: &Entry, settings: &WeightSettings) -> Assumed {
    let choice = PartWeighing::default();
    match best_published(entry.frameset, Part::Fork, entry.size, &choice, settings.claimed_percent) {
        Some(fork) => Assumed { value: fork.mass.value, plus_minus: fork.mass.expanded() },
        None => fork_g(entry.frameset),
    }
}

fn by_tubes(
    entry: &Entry,
    published: &Published,
    from: usize,
    settings: &WeightSettings,
    fork: Assumed,
) -> Result<Estimate, String> {
    let set = tube_set(entry.frameset);
    let parts = match settings.fixed_grams {
        Some(value) => Assumed { value, plus_minus: settings.fixed_plus_minus },
        None => Assumed { plus_minus: settings.fixed_plus_minus, ..fixed_parts(set.material) },
    };
    let same = Assumed { value: parts.value + fork.value, plus_minus: parts.plus_minus.hypot(fork.plus_minus) };
    let lengths = |size| tube_lengths(entry.frameset, entry.adjusted, size);
    let (before, after) = (lengths(from), lengths(entry.size));
    by_tube_lengths(published, (from, &before), (entry.size, &after), &set, entry.adjusted, same)
}

/// A fork is longer in another size by its steerer, and that by the head tube.
fn by_steerer(entry: &Entry, published: &Published, from: usize) -> Result<Estimate, String> {
    let head_tube = |index: usize| {
        let size = entry.adjusted.sizes.get(index);
        let value = size.map(|s| s.value(Figure::HeadTube)).filter(|v| !v.is_missing);
        value.ok_or_else(|| format!("the head tube of {} is not determined", size.map_or("", |s| s.label.as_str())))
    };
    let (before, after) = (head_tube(from)?, head_tube(entry.size)?);
    let each = steerer_g_per_mm(entry.frameset);
    let mm = after.value - before.value;
    let change = mm * each.value;
    let way_u = (each.value * before.u.hypot(after.u)).hypot(mm * each.u());
    Ok(Estimate {
        mass: published.mass.plus(Measured::new(change, way_u)),
        way_u,
        percent: Measured::new(change / published.mass.value * 100.0, way_u / published.mass.value * 100.0),
        words: format!(
            "{} {} for {}{THIN_SPACE}mm of steerer",
            if change < 0.0 { MINUS } else { '+' },
            grams_text(change.abs()),
            fixed(mm.abs(), 0)
        ),
        caution: None,
    })
}

fn grams_text(value: f64) -> String {
    format!("{}{THIN_SPACE}g", fixed(value, 0))
}
