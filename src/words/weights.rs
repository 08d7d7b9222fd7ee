//! Weights in words: published weights, how each was brought to the size compared, and the notes on it.

use super::comparison_table::NOT_PUBLISHED;
use super::lengths::length_to_whole;
use crate::frameset::{FrameIndex, Frameset, Part, SizeIndex};
use crate::lineup::{Findings, FrameFindings};
use crate::units::{MINUS, Mass, Measured, Quantity, System, THIN_SPACE, capitalised, fixed, listed, with_sign};
use crate::weight::{
    Disagreement, Estimate, Method, NoWay, PartWeight, Per, Published, Row, RowOf, SizeStep, WeightNote, WeightOrigin, Weights,
    What,
};
use crate::words::Label;

/// Name of a way to another size: `your factor`, `from tube lengths`.
#[must_use]
pub const fn method_label(method: Method) -> &'static str {
    match method {
        Method::YourFactor => "your factor",
        Method::TubeLengths => "from tube lengths",
        Method::BetweenWeighedSizes => "between weighed sizes",
    }
}

/// Scope of a typed factor: `per size`.
#[must_use]
pub const fn per_label(per: Per) -> &'static str {
    match per {
        Per::Step => "per size",
        Per::All => "in total",
    }
}

/// Name of a ledger's line: `seat clamp`.
#[must_use]
pub fn line_name(what: &What) -> &str {
    match what {
        What::Small(part) => part.label(),
        What::Steerer => "steerer",
        What::Other(words) => words,
    }
}

/// How a weight is known, as it stands in a key: `claimed by the maker`.
#[must_use]
pub const fn origin_label(origin: WeightOrigin) -> &'static str {
    match origin {
        WeightOrigin::Weighed => "weighed",
        WeightOrigin::Claimed => "claimed by the maker",
        WeightOrigin::Estimated => "converted from another size",
    }
}

/// A mass without its ±: `2600 g`, `5.73 lb`.
#[must_use]
pub fn mass_alone(units: System, grams: f64) -> String {
    units.with_unit(Quantity::Mass, &mass_number(units, grams))
}

fn mass_number(units: System, grams: f64) -> String {
    let decimals = if units == System::Metric { 0 } else { 2 };
    fixed(grams * units.factor(Quantity::Mass), decimals)
}

/// The same with its sign always written: `+134 g`.
#[must_use]
pub fn signed_mass_alone(units: System, grams: f64) -> String {
    units.with_unit(Quantity::Mass, &with_sign(mass_number(units, grams)))
}

fn size_label(frameset: &Frameset, size: SizeIndex) -> &str {
    size.of(&frameset.sizes).map_or("", |s| s.label.as_str())
}

/// A published weight: `2600 g (M, weighed)`.
#[must_use]
pub fn published_weight(units: System, frameset: &Frameset, published: &Published) -> String {
    let how = if published.is_claimed { "claimed" } else { "weighed" };
    let mass = mass_alone(units, published.mass.value);
    let weight = frameset.weights.get(published.index);
    match weight.and_then(|w| w.size.as_deref()) {
        Some(label) => format!("{mass} ({label}, {how})"),
        None if weight.is_some_and(|w| w.part == Part::Fork) => format!("{mass} ({how})"),
        None => format!("{mass} ({how}, size {NOT_PUBLISHED})"),
    }
}

/// Weight of a frame's part, or that it is not published: `2734 ± 124 g`.
#[must_use]
pub fn weight_text(units: System, frame: &FrameFindings, part: Part) -> String {
    frame.weights.part(part).map_or_else(|| NOT_PUBLISHED.to_owned(), |w| w.mass.text(units))
}

/// Difference of a weight from the reference's, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WeightDifference {
    /// `−70 ± 20 g (−2.4 %)`.
    pub text: String,
    /// Whether it is larger than its ±.
    pub is_clear: bool,
}

/// How a frame's weight differs from the reference's; `None` for the reference itself and where either is not published.
#[must_use]
pub fn weight_difference(units: System, findings: &Findings, place: FrameIndex, part: Part) -> Option<WeightDifference> {
    let difference = findings.weight_difference(place, part)?;
    let reference = findings.reference_frame()?.weights.part(part)?;
    let percent = with_sign(fixed(difference.value / reference.mass.value * 100.0, 1));
    let text = format!("{} ({percent}{THIN_SPACE}%)", difference.signed_text(units));
    Some(WeightDifference { text, is_clear: difference.is_clear() })
}

/// Workings of a frame's weight, one step an entry; empty where it is not published.
#[must_use]
pub fn weight_steps(units: System, frameset: &Frameset, weights: &Weights, part: Part) -> Vec<String> {
    let Some(weight) = weights.part(part) else { return Vec::new() };
    let Some(published) = &weight.published else {
        let fork = weights.fork.as_ref().map_or(0.0, |f| f.mass.value);
        let mut steps = weight_steps(units, frameset, weights, Part::Frame);
        steps.push(format!("with the {} fork: {}", mass_alone(units, fork), mass_alone(units, weight.mass.value)));
        return steps;
    };
    let first = published_weight(units, frameset, published);
    let mut grams = published.mass.value;
    let mut steps = vec![match weight.estimate() {
        None => first,
        Some(estimate) => {
            grams = estimate.mass.value;
            let found = format!("{} ({}, estimate)", mass_alone(units, grams), size_label(frameset, weight.size));
            match step_text(units, frameset, &estimate.step) {
                None => first,
                Some(line) if matches!(estimate.step, SizeStep::Line { .. }) => format!("{line}: {found}"),
                Some(step) => format!("{first} {step} = {found}"),
            }
        }
    }];
    for row in &weight.rows {
        if let RowOf::Line { what, .. } = &row.of {
            grams += row.mass.value;
            let sign = if row.mass.value < 0.0 { MINUS } else { '+' };
            let added = mass_alone(units, row.mass.value.abs());
            steps.push(format!("{sign} {} {added} = {}", line_name(what), mass_alone(units, grams)));
        }
    }
    steps
}

/// Workings of a frame's weight in one line, or that it is not published.
#[must_use]
pub fn weight_workings(units: System, frame: &FrameFindings, part: Part) -> String {
    let steps = weight_steps(units, &frame.frameset, &frame.weights, part);
    if steps.is_empty() { NOT_PUBLISHED.to_owned() } else { steps.join("; ") }
}

/// Workings of the frameset's weight; of frame or fork where the other one's is not published.
#[must_use]
pub fn frameset_workings(units: System, frame: &FrameFindings) -> String {
    let weights = &frame.weights;
    let only = |part: Part, other: Part| {
        let workings = weight_workings(units, frame, part);
        format!("{} {workings}; {} {NOT_PUBLISHED}", part.label(), other.label())
    };
    match (&weights.frameset, &weights.frame, &weights.fork) {
        (None, Some(_), None) => only(Part::Frame, Part::Fork),
        (None, None, Some(_)) => only(Part::Fork, Part::Frame),
        _ => weight_workings(units, frame, Part::Frameset),
    }
}

/// A step to another size: `× 1.10²`, `+82 ± 12 g from tube lengths`; `None` where there is none.
fn step_text(units: System, frameset: &Frameset, step: &SizeStep) -> Option<String> {
    let of =
        |(size, mass): (SizeIndex, Measured<Mass>)| format!("{} ({})", mass_alone(units, mass.value), size_label(frameset, size));
    Some(match *step {
        SizeStep::Factor { times: 0, .. } => return None,
        SizeStep::Factor { factor, times } => {
            let sign = if times < 0 { "÷" } else { "×" };
            let power = if times.abs() == 1 { String::new() } else { superscript(times.abs()) };
            format!("{sign} {}{power}", factor_text(factor))
        }
        SizeStep::TubeLengths { change } => {
            let sign = if change.value < 0.0 { MINUS } else { '+' };
            format!("{sign} {} from tube lengths", change.abs().text(units))
        }
        SizeStep::Steerer { mm, change } => {
            let sign = if change.value < 0.0 { MINUS } else { '+' };
            let length = length_to_whole(units, mm.abs());
            format!("{sign} {} for {length} of steerer", mass_alone(units, change.value.abs()))
        }
        SizeStep::Line { low, high } => format!("on the line from {} to {}", of(low), of(high)),
    })
}

fn factor_text(factor: f64) -> String {
    let short = fixed(factor, 2);
    if (short.parse::<f64>().unwrap_or(0.0) - factor).abs() < 1e-9 { short } else { fixed(factor, 3) }
}

fn superscript(n: i32) -> String {
    n.to_string().chars().map(|c| "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().nth(c.to_digit(10).unwrap_or(0) as usize).unwrap_or(c)).collect()
}

/// Label of a ledger's row.
#[must_use]
pub fn row_label(units: System, frameset: &Frameset, weight: &PartWeight, row: &Row) -> String {
    match &row.of {
        RowOf::Published => weight.published.map_or_else(String::new, |p| published_weight(units, frameset, &p)),
        RowOf::ToSize(method) => format!("to {}, {}", size_label(frameset, weight.size), method_label(*method)),
        RowOf::SizeNotPublished => format!("size {NOT_PUBLISHED}"),
        RowOf::Line { what, .. } => line_name(what).to_owned(),
        RowOf::Part(part) => part.label().to_owned(),
    }
}

/// An estimate with its change: `2734 ± 124 g, +10 ± 5 %`.
#[must_use]
pub fn estimate_text(units: System, estimate: &Estimate) -> String {
    format!("{}, {}", estimate.mass.text(units), estimate.percent.signed_text(units))
}

/// Reason why a way to another size is not possible, without a full stop: `no factor is entered`.
#[must_use]
pub fn no_way_text(units: System, frameset: &Frameset, why: &NoWay) -> String {
    match why {
        NoWay::NoFactor => "no factor is entered".to_owned(),
        NoWay::TubesUnknown { size, tubes } if tubes.is_empty() => {
            format!("too few figures of {} are published to draw its tubes", size_label(frameset, *size))
        }
        NoWay::TubesUnknown { size, tubes } => {
            let label = size_label(frameset, *size);
            let names = listed(tubes.iter().map(|t| t.label()));
            match tubes.len() {
                1 => format!("the length of the {names} of {label} is unknown"),
                _ => format!("the lengths of the {names} of {label} are unknown"),
            }
        }
        NoWay::FixedPartsTooHeavy { fixed } => {
            format!("its fixed parts, {}, weigh more than the whole", mass_alone(units, fixed.value))
        }
        NoWay::NoTubeLength => "its tubes have no length".to_owned(),
        NoWay::HeadTubeUnknown { size } => {
            format!("the head tube length of {} is unknown", size_label(frameset, *size))
        }
        NoWay::FewerThanTwoSizes => "weights of fewer than two sizes are published".to_owned(),
    }
}

/// A note on a weight, in a sentence or two.
#[must_use]
pub fn note_text(units: System, frameset: &Frameset, note: &WeightNote) -> String {
    match note {
        WeightNote::Unlikely { part, mass, usual: [low, high] } => format!(
            "A {} of {} is doubtful: most weigh {} to {}. Check the published weight.",
            part.label(),
            mass_alone(units, mass.value),
            mass_number(units, *low),
            mass_alone(units, *high),
        ),
        WeightNote::OtherWay { chosen, why, counts } => format!(
            "Conversion {} is not possible: {}. The weight is converted {} instead.",
            by_method(*chosen),
            no_way_text(units, frameset, why),
            by_method(*counts),
        ),
        WeightNote::SizeNotPublished => "The weighed size is not published. The weight is not converted.".to_owned(),
        WeightNote::TubesDoNotFit { fixed: parts, times } => format!(
            "With {} of fixed parts, the tubes weigh {} times what is assumed. Check their walls, the material and what was weighed.",
            mass_alone(units, parts.value),
            fixed(*times, 1),
        ),
        WeightNote::BeyondWeighed { size, weighed: [first, last] } => format!(
            "{} is beyond the weighed sizes, {} to {}. The line is extended.",
            size_label(frameset, *size),
            size_label(frameset, *first),
            size_label(frameset, *last),
        ),
        WeightNote::WaysDisagree(disagreement) => disagreement_text(units, frameset, disagreement),
    }
}

/// A way inside a sentence: `by your factor`.
pub(super) const fn by_method(method: Method) -> &'static str {
    match method {
        Method::YourFactor => "by your factor",
        Method::TubeLengths => "from tube lengths",
        Method::BetweenWeighedSizes => "between weighed sizes",
    }
}

fn disagreement_text(units: System, frameset: &Frameset, found: &Disagreement) -> String {
    let change = |percent: Measured<crate::units::Ratio>| {
        let heavier = if percent.value < 0.0 { "lighter" } else { "heavier" };
        format!("{} {heavier}", percent.abs().text(units))
    };
    format!(
        "By your factor, {} is {} than {}. From tube lengths, it is {}. They clearly differ, by {}.",
        size_label(frameset, found.to),
        change(found.by_factor),
        size_label(frameset, found.from),
        change(found.by_lengths),
        mass_alone(units, found.apart.value.abs()),
    )
}

/// What a line offered takes off: `Subtract the axle: −62 ± 2 g`.
#[must_use]
pub fn offered_text(units: System, what: &What, mass: Measured<Mass>) -> String {
    format!("Subtract the {}: {}", line_name(what), mass.signed_text(units))
}

/// Name of a part that begins a heading: `Frame`.
#[must_use]
pub fn part_heading(part: Part) -> String {
    capitalised(part.label())
}
