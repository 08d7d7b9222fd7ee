//! Doubtful figures in words: what is published, what the others give, how it is perhaps wrong, and how likely that is.

use super::phrases::{in_sentence, published_value};
use crate::frameset::{Figure, SizeIndex};
use crate::geometry::{Doubt, OtherWay, Settling, Slip, SlipKind};
use crate::units::{System, capitalised, fixed, per_cent};

use super::assumptions::assumption_label;

/// A doubtful figure: what is published, what the other figures give, how it is perhaps wrong, and whether it is used.
#[must_use]
pub fn doubt_text(doubt: &Doubt, units: System) -> String {
    doubt_sentences(&capitalised(&in_sentence(doubt.figure)), doubt, units)
}

/// The same about a frame among others: `The wheelbase of B is published as …`.
#[must_use]
pub(super) fn doubt_of_frame_text(doubt: &Doubt, frame: &str, units: System) -> String {
    doubt_sentences(&format!("The {} of {frame}", in_sentence(doubt.figure)), doubt, units)
}

fn doubt_sentences(subject: &str, doubt: &Doubt, units: System) -> String {
    let quantity = doubt.figure.quantity();
    let mut text = format!(
        "{subject} is published as {}; the other figures give {}. {} ({}).",
        units.with_unit(quantity, &published_value(doubt.figure, doubt.published, units)),
        units.text(quantity, doubt.expected),
        verdict(doubt),
        chance_text(doubt.chance),
    );
    if let Some(others) = others_text(&doubt.others) {
        text.push_str(&format!(" The wrong figure could also be {others}."));
    }
    text.push_str(if doubt.is_used { " The ± covers this." } else { " It is not used." });
    text
}

/// A doubtful figure in a few words: `wheelbase is probably a misprint`.
#[must_use]
pub fn doubt_brief(doubt: &Doubt) -> String {
    let name = in_sentence(doubt.figure);
    match doubt.kind {
        SlipKind::AllSizes | SlipKind::Convention => format!("{name} is doubtful in all sizes"),
        kind => format!("{name} is {} {}", likely(doubt.chance), how(kind)),
    }
}

/// How a figure is perhaps wrong, as a sentence without its end: `It is probably a misprint`.
fn verdict(doubt: &Doubt) -> String {
    match (doubt.kind, doubt.other_way) {
        (SlipKind::Convention, Some(way)) => capitalised(other_way_text(way)),
        (kind, _) => format!("It is {} {}", likely(doubt.chance), how(kind)),
    }
}

/// How a figure is wrong, behind *is probably*.
const fn how(kind: SlipKind) -> &'static str {
    match kind {
        SlipKind::AllSizes | SlipKind::Convention => "wrong by the same amount in all sizes",
        SlipKind::Neighbour => "the value of another size",
        SlipKind::Swapped => "exchanged with another value",
        SlipKind::Slip | SlipKind::Gross | SlipKind::Assumption => "a misprint",
    }
}

/// How likely an error is: `probably` from even odds on.
fn likely(chance: f64) -> &'static str {
    if chance >= 0.5 { "probably" } else { "perhaps" }
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

/// A chance as `98 %`; never none and never all.
#[must_use]
pub fn chance_text(chance: f64) -> String {
    per_cent(&fixed((chance * 100.0).round().clamp(1.0, 99.0), 0))
}

/// What to say where several published figures of a table are wrong almost for sure.
#[must_use]
pub fn several_wrong_text(slips: &[Slip]) -> Option<&'static str> {
    let is_figure = |slip: &&Slip| !matches!(slip.kind, SlipKind::Convention | SlipKind::Assumption) && !slip.is_used;
    let is_several = slips.iter().filter(is_figure).nth(1).is_some();
    is_several.then_some("At least two published figures are wrong; these are the likeliest.")
}

/// What is perhaps wrong with a whole table, in one sentence; `labels` are the sizes'.
#[must_use]
pub fn slip_text(slip: &Slip, labels: &[&str], units: System) -> String {
    let chance = chance_text(slip.chance);
    if let Some((assumption, expected)) = slip.assumption {
        let value = units.text(crate::units::Quantity::Length, expected);
        return format!("The assumed {} does not fit: it seems to be {value} ({chance}).", assumption_label(assumption));
    }
    let Some(first) = slip.cells.first() else { return String::new() };
    let name = in_sentence(first.figure);
    let size = labels.get(first.size.0).copied().unwrap_or_default();
    match (slip.kind, slip.other_way) {
        (SlipKind::Convention, Some(way)) => format!("{} ({chance}).", capitalised(other_way_text(way))),
        (SlipKind::AllSizes | SlipKind::Convention, _) => {
            let by = units.signed_text(first.figure.quantity(), -first.expected.moved(-first.published));
            format!("{} seems to be wrong by the same amount in all sizes, {by} ({chance}).", capitalised(&name))
        }
        (SlipKind::Swapped, _) if exchanged_columns(slip).is_some() => {
            let (a, b) = exchanged_columns(slip).unwrap_or((first.size, first.size));
            let label = |size: SizeIndex| labels.get(size.0).copied().unwrap_or_default();
            let used = if slip.is_used { "" } else { " Each is used for the other size." };
            format!("The columns of {} and {} are {} exchanged ({chance}).{used}", label(a), label(b), likely(slip.chance))
        }
        (SlipKind::Swapped, _) => {
            let cells: Vec<String> = slip
                .cells
                .iter()
                .take(2)
                .map(|c| format!("{} of {}", in_sentence(c.figure), labels.get(c.size.0).copied().unwrap_or_default()))
                .collect();
            format!("{} seem to be exchanged ({chance}).", capitalised(&cells.join(" and ")))
        }
        _ => {
            let quantity = first.figure.quantity();
            let likely = likely(slip.chance);
            let used = if slip.is_used { "" } else { " Not used." };
            format!(
                "{size}: {name} {} is {likely} {} ({chance}); the others give {}.{used}",
                published_value(first.figure, first.published, units),
                how(slip.kind),
                units.text(quantity, first.expected)
            )
        }
    }
}

/// The two sizes whose whole columns are exchanged.
fn exchanged_columns(slip: &Slip) -> Option<(SizeIndex, SizeIndex)> {
    let a = slip.cells.first()?.size;
    let b = slip.cells.iter().map(|c| c.size).find(|size| *size != a)?;
    (slip.cells.len() > 2 && slip.cells.iter().all(|c| c.size == a || c.size == b)).then_some((a, b))
}

/// What to measure to settle a doubt; `labels` are the sizes'.
#[must_use]
pub fn settling_text(settling: &Settling, labels: &[&str]) -> String {
    let label = labels.get(settling.size.0).copied().unwrap_or_default();
    format!("Measure the {} of {label} to settle it.", in_sentence(settling.figure))
}

/// `a (35 %)`, `a (…) or b (…)`; `None` for none.
fn others_text(others: &[(Figure, f64)]) -> Option<String> {
    let names: Vec<String> =
        others.iter().take(3).map(|(f, chance)| format!("{} ({})", in_sentence(*f), chance_text(*chance))).collect();
    match names.as_slice() {
        [] => None,
        [one] => Some(one.clone()),
        [before @ .., last] => Some(format!("{} or {last}", before.join(", "))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::{Adjusted, SlipCell, adjust};

    fn quern() -> Adjusted {
        adjust(&read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap())
    }

    #[test]
    fn a_doubtful_figure_says_what_the_others_give() {
        let adjusted = quern();
        let doubt = adjusted.sizes[3].doubt(Figure::Wheelbase).unwrap();
        insta::assert_snapshot!(doubt_text(doubt, System::Metric), @"Wheelbase is published as 1071 mm; the other figures give 1059.9 ± 1.7 mm. It is probably a misprint (99 %). It is not used.");
        insta::assert_snapshot!(doubt_text(doubt, System::Imperial), @"Wheelbase is published as 42.165 in; the other figures give 41.73 ± 0.07 in. It is probably a misprint (99 %). It is not used.");
        insta::assert_snapshot!(doubt_brief(doubt), @"wheelbase is probably a misprint");
        let in_all = Doubt { kind: SlipKind::AllSizes, ..doubt.clone() };
        insta::assert_snapshot!(doubt_brief(&in_all), @"wheelbase is doubtful in all sizes");
        let perhaps = Doubt { chance: 0.35, is_used: true, others: vec![(Figure::Chainstay, 0.62)], ..doubt.clone() };
        insta::assert_snapshot!(doubt_text(&perhaps, System::Metric), @"Wheelbase is published as 1071 mm; the other figures give 1059.9 ± 1.7 mm. It is perhaps a misprint (35 %). The wrong figure could also be chainstay (62 %). The ± covers this.");
        let way = Some(OtherWay::ChainstayHorizontal);
        let horizontal = Doubt { kind: SlipKind::Convention, other_way: way, chance: 0.8, is_used: true, ..doubt.clone() };
        insta::assert_snapshot!(doubt_text(&horizontal, System::Metric), @"Wheelbase is published as 1071 mm; the other figures give 1059.9 ± 1.7 mm. Chainstays seem to be measured horizontally, not along the stay (80 %). The ± covers this.");
    }

    #[test]
    fn what_is_wrong_with_a_table_stands_in_a_sentence() {
        let adjusted = quern();
        let labels = adjusted.size_labels();
        let first = &adjusted.slips[0];
        insta::assert_snapshot!(slip_text(first, &labels, System::Metric), @"L: wheelbase 1071 is probably a misprint (99 %); the others give 1059.9 ± 1.7 mm. Not used.");
        assert_eq!(several_wrong_text(&adjusted.slips), None);
        let twice = [first.clone(), first.clone()];
        insta::assert_snapshot!(several_wrong_text(&twice).unwrap(), @"At least two published figures are wrong; these are the likeliest.");
        let neighbour = Slip { kind: SlipKind::Neighbour, chance: 0.3, is_used: true, ..first.clone() };
        insta::assert_snapshot!(slip_text(&neighbour, &labels, System::Metric), @"L: wheelbase 1071 is perhaps the value of another size (30 %); the others give 1059.9 ± 1.7 mm.");
        let all = Slip { kind: SlipKind::AllSizes, chance: 0.3, is_used: true, ..first.clone() };
        insta::assert_snapshot!(slip_text(&all, &labels, System::Metric), @"Wheelbase seems to be wrong by the same amount in all sizes, +11.1 ± 1.7 mm (30 %).");
        let assumption = Some((crate::geometry::Assumption::LowerHeadset, crate::units::Measured::new(16.0, 1.0)));
        let assumed = Slip { kind: SlipKind::Assumption, assumption, chance: 0.999, cells: Vec::new(), ..first.clone() };
        insta::assert_snapshot!(slip_text(&assumed, &labels, System::Metric), @"The assumed lower headset stack height does not fit: it seems to be 16 ± 2 mm (99 %).");
        let exchanged = |size: usize, figure| SlipCell { size: SizeIndex(size), figure, ..first.cells[0].clone() };
        let of = |size| [Figure::Stack, Figure::Reach].map(|figure| exchanged(size, figure));
        let cells = [of(1), of(2)].concat();
        let columns = Slip { kind: SlipKind::Swapped, chance: 0.98, cells, ..first.clone() };
        insta::assert_snapshot!(slip_text(&columns, &labels, System::Metric), @"The columns of S and M are probably exchanged (98 %). Each is used for the other size.");
        let settling = Settling { size: SizeIndex(2), figure: Figure::Wheelbase, ratio: 9.0 };
        insta::assert_snapshot!(settling_text(&settling, &labels), @"Measure the wheelbase of M to settle it.");
        let way = Some(OtherWay::HeadTubeWithCups);
        let cups = Slip { kind: SlipKind::Convention, other_way: way, chance: 0.8, ..first.clone() };
        insta::assert_snapshot!(slip_text(&cups, &labels, System::Metric), @"Head tubes seem to be measured with the headset cups (80 %).");
    }
}
