//! Doubtful figures in words: what is published, what the others give, how it is perhaps wrong, and how likely that is.

use super::phrases::in_sentence;
use crate::frameset::Figure;
use crate::geometry::{Doubt, OtherWay, Slip, SlipKind};
use crate::units::{System, capitalised, decimals_for, fixed};

use super::assumptions::assumption_label;

/// A doubtful figure: what is published, what the other figures give, how it is perhaps wrong, and whether it is used.
#[must_use]
pub fn doubt_text(doubt: &Doubt, units: System) -> String {
    let quantity = doubt.figure.quantity();
    let mut text = format!(
        "{} is published as {}; the other figures give {}. {} ({}).",
        capitalised(&in_sentence(doubt.figure)),
        units.with_unit(quantity, &published_text(doubt, units)),
        units.text(quantity, doubt.expected),
        verdict(doubt),
        in_hundred(doubt.chance),
    );
    if let Some(others) = others_text(&doubt.others) {
        text.push_str(&format!(" The wrong figure could also be {others}."));
    }
    text.push_str(if doubt.is_used { " The ± covers this." } else { " It is not used." });
    text
}

/// A doubtful figure in one line: `Wheelbase: published 1069, the others give 1057 ± 2 mm (98 in 100)`.
#[must_use]
pub fn doubt_line(doubt: &Doubt, units: System) -> String {
    let expected = units.text(doubt.figure.quantity(), doubt.expected);
    let published = published_text(doubt, units);
    format!("{}: published {published}, the others give {expected} ({})", doubt.figure.label(), in_hundred(doubt.chance))
}

/// How a figure is perhaps wrong, as a sentence without its end: `It is probably a misprint`.
fn verdict(doubt: &Doubt) -> String {
    let how = match (doubt.kind, doubt.other_way) {
        (SlipKind::Convention, Some(way)) => return capitalised(other_way_text(way)),
        (SlipKind::AllSizes | SlipKind::Convention, _) => "wrong by the same amount in all sizes",
        (SlipKind::Neighbour, _) => "the value of another size",
        (SlipKind::Swapped, _) => "exchanged with another value",
        (SlipKind::Slip | SlipKind::Gross | SlipKind::Assumption, _) => "a misprint",
    };
    if doubt.chance >= 0.5 { format!("It is probably {how}") } else { format!("It is perhaps {how}") }
}

/// How a figure seems to be measured.
const fn other_way_text(way: OtherWay) -> &'static str {
    match way {
        OtherWay::ChainstayHorizontal => "chainstays seem to be measured horizontally, not along the stay",
        OtherWay::HeadTubeWithCups => "head tubes seem to be measured with the headset cups",
        OtherWay::TopTubeEffective => "top tubes seem to be effective ones, not along the tube",
        OtherWay::EffectiveTopTubeAlong => "top tubes seem to be measured along the tube, not effective ones",
        OtherWay::FrontCentreHorizontal => "front centres seem to be measured horizontally, not directly",
    }
}

/// A chance as `98 in 100`; never none and never all.
#[must_use]
pub fn in_hundred(chance: f64) -> String {
    format!("{} in 100", fixed((chance * 100.0).round().clamp(1.0, 99.0), 0))
}

/// What is perhaps wrong with a whole table, in one sentence; `labels` are the sizes'.
#[must_use]
pub fn slip_text(slip: &Slip, labels: &[&str], units: System) -> String {
    let chance = in_hundred(slip.chance);
    if let Some((assumption, expected)) = slip.assumption {
        let value = units.text(crate::units::Quantity::Length, expected);
        return format!("The assumed {} does not fit: it seems to be {value} ({chance}).", assumption_label(assumption));
    }
    let Some(first) = slip.cells.first() else { return String::new() };
    let name = in_sentence(first.figure);
    let size = labels.get(first.size).copied().unwrap_or_default();
    match (slip.kind, slip.other_way) {
        (SlipKind::Convention, Some(way)) => format!("{} ({chance}).", capitalised(other_way_text(way))),
        (SlipKind::AllSizes | SlipKind::Convention, _) => {
            let by = units.signed_text(first.figure.quantity(), -first.expected.moved(-first.published));
            format!("{} seems to be wrong by the same amount in all sizes, {by} ({chance}).", capitalised(&name))
        }
        (SlipKind::Swapped, _) => {
            let cells: Vec<String> = slip
                .cells
                .iter()
                .take(2)
                .map(|c| format!("{} of {}", in_sentence(c.figure), labels.get(c.size).copied().unwrap_or_default()))
                .collect();
            format!("{} seem to be exchanged ({chance}).", capitalised(&cells.join(" and ")))
        }
        _ => {
            let quantity = first.figure.quantity();
            let likely = if slip.chance >= 0.5 { "probably" } else { "perhaps" };
            let used = if slip.is_used { "" } else { " Not used." };
            format!(
                "{size}: {name} {} is {likely} a misprint ({chance}); the others give {}.{used}",
                published(first.published, first.figure, first.expected.expanded(), units),
                units.text(quantity, first.expected)
            )
        }
    }
}

/// The published value with as many decimals as the expected one, without its unit.
fn published_text(doubt: &Doubt, units: System) -> String {
    published(doubt.published, doubt.figure, doubt.expected.expanded(), units)
}

fn published(value: f64, figure: Figure, expanded: f64, units: System) -> String {
    let factor = units.factor(figure.quantity());
    let decimals = decimals_for(expanded * factor).max(usize::from(figure.is_angle()));
    fixed(value * factor, decimals)
}

/// `a (35 in 100)`, `a (…) or b (…)`; `None` for none.
fn others_text(others: &[(Figure, f64)]) -> Option<String> {
    let names: Vec<String> =
        others.iter().take(3).map(|(f, chance)| format!("{} ({})", in_sentence(*f), in_hundred(*chance))).collect();
    match names.as_slice() {
        [] => None,
        [one] => Some(one.clone()),
        [before @ .., last] => Some(format!("{} or {last}", before.join(", "))),
    }
}
