//! The rider's contact points in words: standover, toe overlap, saddle setback, and the stem that repeats a hand position.

use super::lengths::{length, length_to_whole, lengths};
use crate::parts::Source;
use crate::parts::contact_points::{
    Clearance, ClosestSize, LONGEST_STEM_MM, MOST_SPACERS_MM, POST_SETBACK_MM, RefusedStem, Repeated, SHORTEST_STEM_MM,
    STANDOVER_CLEARANCE_MM, ToeGap, UpperHeadset, Works,
};
use crate::units::{Length, Measured, System, fixed, listed};

use super::parts::source_text;

/// A length with its ±.
fn amount(units: System, length: Measured<Length>) -> String {
    length.text(units)
}

/// An angle to the degree.
fn degrees(angle: f64) -> String {
    format!("{}°", fixed(angle, 0))
}

/// Standover clearance in sentences.
#[must_use]
pub fn standover_text(units: System, clearance: &Clearance) -> String {
    let usual = format!("At least {} is usual ({})", length(units, STANDOVER_CLEARANCE_MM), source_text(Source::TradePractice));
    let gap = amount(units, clearance.gap);
    match clearance.is_enough {
        Some(true) => format!("The rider clears the top tube by {gap}. {usual}."),
        Some(false) if clearance.gap.value < 0.0 => {
            format!("The top tube is higher than the inside leg: clearance {gap}. The rider cannot stand over it flat-footed.")
        }
        Some(false) => format!("The rider clears the top tube by only {gap}. {usual}."),
        None => format!("The rider clears the top tube by {gap}. {usual}: borderline."),
    }
}

/// Code of standover clearance, for JSON.
#[must_use]
pub const fn standover_code(clearance: &Clearance) -> &'static str {
    match clearance.is_enough {
        Some(true) => "standover_enough",
        Some(false) if clearance.gap.value < 0.0 => "standover_none",
        Some(false) => "standover_too_small",
        None => "standover_borderline",
    }
}

/// Toe-overlap clearance in sentences.
#[must_use]
pub fn toe_text(units: System, toe: &ToeGap) -> String {
    let what = if toe.is_to_mudguard { "mudguard" } else { "tyre" };
    let feet = if toe.limit.clipped_in { "clipped in" } else { "on flat pedals" };
    let verdict = match toe.is_enough {
        Some(true) => "met",
        Some(false) => "not met",
        None => "borderline",
    };
    let overlap = if toe.from_toe_mm < 0.0 {
        format!(" The toe overlaps the {what} by about {}.", length_to_whole(units, -toe.from_toe_mm))
    } else {
        String::new()
    };
    format!(
        "Pedal axle to front {what}: {}. {} requires {} with feet {feet}: {verdict}.{overlap}",
        amount(units, toe.from_pedal),
        source_text(toe.limit.source),
        length(units, toe.limit.least_mm)
    )
}

/// Code of toe-overlap clearance, for JSON.
#[must_use]
pub const fn toe_code(toe: &ToeGap) -> &'static str {
    match toe.is_enough {
        Some(true) => "toe_clearance_met",
        Some(false) => "toe_clearance_not_met",
        None => "toe_clearance_borderline",
    }
}

/// Saddle setback from the seat post in sentences.
#[must_use]
pub fn saddle_text(units: System, clearance: &Clearance) -> String {
    let setback = format!("The saddle clamp is {} behind the post's axis.", amount(units, clearance.gap));
    let (least, most) = POST_SETBACK_MM;
    let range = format!("Posts and saddle rails give {} to {}", length(units, least), length(units, most));
    match clearance.is_enough {
        Some(true) => setback,
        Some(false) => format!("{setback} {range} ({}): not enough.", source_text(Source::TradePractice)),
        None => format!("{setback} {range} ({}): borderline.", source_text(Source::TradePractice)),
    }
}

/// Code of saddle setback, for JSON.
#[must_use]
pub const fn saddle_code(clearance: &Clearance) -> &'static str {
    match clearance.is_enough {
        Some(true) => "saddle_setback_possible",
        Some(false) => "saddle_setback_impossible",
        None => "saddle_setback_borderline",
    }
}

/// How an upper headset's stack height is known, in a sentence.
#[must_use]
pub fn upper_headset_text(headset: &UpperHeadset) -> String {
    match (headset.is_entered, headset.kind) {
        (true, _) => "As entered.".to_owned(),
        (false, Some(kind)) => format!("Assumed for {} ({}).", kind.code(), source_text(Source::TradePractice)),
        (false, None) => format!("Assumed: no standard is published ({}).", source_text(Source::TradePractice)),
    }
}

/// Code of that sentence, for JSON.
#[must_use]
pub const fn upper_headset_code(headset: &UpperHeadset) -> &'static str {
    match (headset.is_entered, headset.kind) {
        (true, _) => "upper_headset_entered",
        (false, Some(_)) => "upper_headset_assumed_by_standard",
        (false, None) => "upper_headset_assumed",
    }
}

/// Whether a hand position can be repeated, in a few words.
#[must_use]
pub const fn repeated_name(repeated: &Repeated) -> &'static str {
    match (repeated.works, repeated.is_sure) {
        (Works::AsIt, true) => "yes",
        (Works::AsIt, false) => "yes, borderline",
        (Works::WithAnotherAngle, true) => "with another stem angle",
        (Works::WithAnotherAngle, false) => "with another stem angle, borderline",
        (Works::No, true) => "no",
        (Works::No, false) => "no, borderline",
    }
}

/// The stem that repeats a hand position: `93.0 ± 1.4 mm at −6°`.
#[must_use]
pub fn stem_text(units: System, repeated: &Repeated) -> String {
    format!("{} at {}", amount(units, repeated.stem), degrees(repeated.stem_angle))
}

/// The spacers that repeat a hand position: `12 ± 3 mm`.
#[must_use]
pub fn spacers_text(units: System, repeated: &Repeated) -> String {
    amount(units, repeated.spacers)
}

/// What repeats a hand position, and why not what does not, in sentences.
#[must_use]
pub fn repeated_text(units: System, repeated: &Repeated) -> String {
    let same = "the same hand position";
    let needs = format!("{} stem and {} of spacers", amount(units, repeated.stem), amount(units, repeated.spacers));
    let mut sentences = Vec::new();
    match (repeated.works, &repeated.refused) {
        (Works::WithAnotherAngle, Some(refused)) => {
            let sure = if refused.is_sure { "does not give" } else { "probably does not give" };
            sentences.push(format!(
                "A {} stem {sure} {same}: {}.",
                degrees(refused.angle),
                listed(refusals(units, refused).iter().map(String::as_str))
            ));
            sentences.push(format!("A {} stem does: {needs}.", degrees(repeated.stem_angle)));
        }
        (Works::No, Some(refused)) => {
            sentences.push(format!(
                "No stem gives {same}. At {}: {}.",
                degrees(refused.angle),
                listed(refusals(units, refused).iter().map(String::as_str))
            ));
            sentences.push("No other common stem angle helps.".to_owned());
        }
        _ => sentences.push(format!("A {} stem gives {same}: {needs}.", degrees(repeated.stem_angle))),
    }
    if !repeated.is_sure {
        sentences.push("That is borderline: measure before you buy.".to_owned());
    }
    if repeated.is_drop_on_flat {
        sentences.push(
            match repeated.works {
                Works::No => "The frame is designed for flat bars and is too long for this drop bar.",
                Works::AsIt | Works::WithAnotherAngle => "The frame is designed for flat bars, but this drop bar works.",
            }
            .to_owned(),
        );
    }
    sentences.join(" ")
}

/// What a stem that does not work would need.
fn refusals(units: System, stem: &RefusedStem) -> Vec<String> {
    let mut reasons = Vec::new();
    if stem.spacers.value < 0.0 {
        reasons.push(format!("without spacers the bar is {} too high", length_to_whole(units, -stem.spacers.value)));
    } else if stem.spacers.value > MOST_SPACERS_MM {
        reasons.push(format!(
            "it needs {} of spacers, more than {}",
            amount(units, stem.spacers),
            length(units, MOST_SPACERS_MM)
        ));
    }
    if stem.stem.value < SHORTEST_STEM_MM {
        reasons.push(format!("it needs a {} stem, shorter than {}", amount(units, stem.stem), length(units, SHORTEST_STEM_MM)));
    } else if stem.stem.value > LONGEST_STEM_MM {
        reasons.push(format!("it needs a {} stem, longer than {}", amount(units, stem.stem), length(units, LONGEST_STEM_MM)));
    }
    reasons
}

/// Code of a repeated hand position, for JSON.
#[must_use]
pub const fn repeated_code(repeated: &Repeated) -> &'static str {
    match (repeated.works, repeated.is_sure) {
        (Works::AsIt, true) => "hand_position_repeated",
        (Works::AsIt, false) => "hand_position_repeated_borderline",
        (Works::WithAnotherAngle, true) => "hand_position_with_another_stem_angle",
        (Works::WithAnotherAngle, false) => "hand_position_with_another_stem_angle_borderline",
        (Works::No, true) => "hand_position_not_repeated",
        (Works::No, false) => "hand_position_not_repeated_borderline",
    }
}

/// The closest size and why, in sentences.
#[must_use]
pub fn matched_text(units: System, matched: &ClosestSize) -> String {
    let by = matched.difference.signed_text(units);
    let height = length_to_whole(units, matched.height_mm);
    let mut text = format!("Size {} is closest: reach differs by {by} at a bar height of {height}.", matched.label);
    if let Some((other, difference)) = &matched.next {
        let difference = signed_whole(units, *difference);
        text.push_str(&format!(" Size {other} differs by {difference}."));
    }
    if !matched.is_clear {
        text.push_str(" There is no clear difference between the two: compare standover and stem.");
    }
    if matched.is_too_tall {
        text.push_str(" Its head tube ends above that height, so the bar is higher.");
    }
    text
}

/// A difference to the millimetre or tenth of an inch, its sign always written.
fn signed_whole(units: System, mm: f64) -> String {
    let text = length_to_whole(units, mm);
    if mm > 0.0 && !text.starts_with("0\u{2009}") { format!("+{text}") } else { text }
}

/// Code of the closest size, for JSON.
#[must_use]
pub const fn matched_code(matched: &ClosestSize) -> &'static str {
    match (matched.is_clear, matched.is_too_tall) {
        (true, false) => "closest_size",
        (false, false) => "closest_size_no_clear_difference",
        (true, true) => "closest_size_head_tube_too_tall",
        (false, true) => "closest_size_no_clear_difference_head_tube_too_tall",
    }
}

/// The stems and spacers that count as usual, and who decides: `Stems of 35 to 130 mm …`.
#[must_use]
pub fn position_limits_text(units: System) -> String {
    format!(
        "Stems of {} and spacers up to {}: trade practice, unverified. Too many spacers can break a steerer. Keep to the limits \
         of the makers of fork and stem.",
        lengths(units, SHORTEST_STEM_MM, LONGEST_STEM_MM),
        length(units, MOST_SPACERS_MM)
    )
}

/// What is said of an inside leg outside this range, mm.
#[must_use]
pub fn inside_leg_range_text(units: System, least_mm: f64, most_mm: f64) -> String {
    let range = lengths(units, least_mm, most_mm);
    let example = length_to_whole(units, 820.0);
    format!("Enter the inside leg, {range}, for example {example}, or leave it empty.")
}

/// What is said of an upper headset stack height outside this range, mm.
#[must_use]
pub fn upper_headset_range_text(units: System, least_mm: f64, most_mm: f64) -> String {
    let range = lengths(units, least_mm, most_mm);
    let example = length_to_whole(units, 12.0);
    format!("Enter the upper headset stack height, {range}, for example {example}, or leave it empty: then it is assumed.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::SizeIndex;
    use crate::parts::Caution;
    use crate::parts::contact_points::TOE_LIMITS;

    /// In millimetres and in inches, a line each.
    fn told<T>(facts: &[T], code: fn(&T) -> &'static str, text: fn(System, &T) -> String) -> String {
        let lines = facts.iter().map(|fact| {
            format!("{}: {}\n    {}", code(fact), text(System::Metric, fact), text(System::Imperial, fact))
                .replace('\u{2009}', " ")
        });
        lines.collect::<Vec<_>>().join("\n")
    }

    fn clearance(gap: f64, u: f64, is_enough: Option<bool>) -> Clearance {
        Clearance { gap: Measured::new(gap, u), is_enough }
    }

    #[test]
    fn standover_in_english() {
        let standover = [
            clearance(60.0, 2.0, Some(true)),
            clearance(27.0, 2.0, None),
            clearance(12.0, 2.0, Some(false)),
            clearance(-10.0, 2.0, Some(false)),
        ];
        insta::assert_snapshot!(told(&standover, standover_code, standover_text), @r"
        standover_enough: The rider clears the top tube by 60 ± 4 mm. At least 25 mm is usual (trade practice, unverified).
            The rider clears the top tube by 2.36 ± 0.16 in. At least 0.98 in is usual (trade practice, unverified).
        standover_borderline: The rider clears the top tube by 27 ± 4 mm. At least 25 mm is usual (trade practice, unverified): borderline.
            The rider clears the top tube by 1.06 ± 0.16 in. At least 0.98 in is usual (trade practice, unverified): borderline.
        standover_too_small: The rider clears the top tube by only 12 ± 4 mm. At least 25 mm is usual (trade practice, unverified).
            The rider clears the top tube by only 0.47 ± 0.16 in. At least 0.98 in is usual (trade practice, unverified).
        standover_none: The top tube is higher than the inside leg: clearance −10 ± 4 mm. The rider cannot stand over it flat-footed.
            The top tube is higher than the inside leg: clearance −0.39 ± 0.16 in. The rider cannot stand over it flat-footed.
        ");
    }

    #[test]
    fn upper_headsets_in_english() {
        use crate::frameset::CupKind;
        let headset = |is_entered, kind| UpperHeadset { stack_height: Measured::new(10.0, 3.0), is_entered, kind };
        let of = [(true, Some(CupKind::External)), (false, Some(CupKind::SemiIntegrated)), (false, None)];
        let told = of.map(|(e, k)| headset(e, k)).map(|h| format!("{}: {}", upper_headset_code(&h), upper_headset_text(&h)));
        insta::assert_snapshot!(told.join("\n"), @r"
        upper_headset_entered: As entered.
        upper_headset_assumed_by_standard: Assumed for ZS (trade practice, unverified).
        upper_headset_assumed: Assumed: no standard is published (trade practice, unverified).
        ");
    }

    #[test]
    fn saddle_setback_in_english() {
        let saddle = [clearance(20.0, 2.0, Some(true)), clearance(44.0, 2.0, None), clearance(70.0, 2.0, Some(false))];
        insta::assert_snapshot!(told(&saddle, saddle_code, saddle_text), @r"
        saddle_setback_possible: The saddle clamp is 20 ± 4 mm behind the post's axis.
            The saddle clamp is 0.79 ± 0.16 in behind the post's axis.
        saddle_setback_borderline: The saddle clamp is 44 ± 4 mm behind the post's axis. Posts and saddle rails give −20 mm to 45 mm (trade practice, unverified): borderline.
            The saddle clamp is 1.73 ± 0.16 in behind the post's axis. Posts and saddle rails give −0.79 in to 1.77 in (trade practice, unverified): borderline.
        saddle_setback_impossible: The saddle clamp is 70 ± 4 mm behind the post's axis. Posts and saddle rails give −20 mm to 45 mm (trade practice, unverified): not enough.
            The saddle clamp is 2.76 ± 0.16 in behind the post's axis. Posts and saddle rails give −0.79 in to 1.77 in (trade practice, unverified): not enough.
        ");
    }

    #[test]
    fn toe_overlap_in_english() {
        let toe = |gap, from_toe_mm, is_enough, limit: usize| ToeGap {
            from_pedal: Measured::new(gap, 1.0),
            from_toe_mm,
            is_to_mudguard: limit == 1,
            is_enough,
            limit: TOE_LIMITS[limit],
            caution: Caution::Toe,
        };
        let toes = [toe(110.0, 10.0, Some(true), 0), toe(89.5, -10.5, None, 1), toe(70.0, -30.0, Some(false), 0)];
        insta::assert_snapshot!(told(&toes, toe_code, toe_text), @r"
        toe_clearance_met: Pedal axle to front tyre: 110 ± 2 mm. JIS D 9301:2019, 5.6.2 b) requires 100 mm with feet on flat pedals: met.
            Pedal axle to front tyre: 4.33 ± 0.08 in. JIS D 9301:2019, 5.6.2 b) requires 3.94 in with feet on flat pedals: met.
        toe_clearance_borderline: Pedal axle to front mudguard: 90 ± 2 mm. JIS D 9301:2019, 5.6.2 b) requires 89 mm with feet clipped in: borderline. The toe overlaps the mudguard by about 11 mm.
            Pedal axle to front mudguard: 3.52 ± 0.08 in. JIS D 9301:2019, 5.6.2 b) requires 3.5 in with feet clipped in: borderline. The toe overlaps the mudguard by about 0.4 in.
        toe_clearance_not_met: Pedal axle to front tyre: 70 ± 2 mm. JIS D 9301:2019, 5.6.2 b) requires 100 mm with feet on flat pedals: not met. The toe overlaps the tyre by about 30 mm.
            Pedal axle to front tyre: 2.76 ± 0.08 in. JIS D 9301:2019, 5.6.2 b) requires 3.94 in with feet on flat pedals: not met. The toe overlaps the tyre by about 1.2 in.
        ");
    }

    #[test]
    fn repeated_hand_positions_in_english() {
        let length = |value| Measured::new(value, 0.7);
        let repeated = |works, is_sure, refused, is_drop_on_flat| Repeated {
            works,
            is_sure,
            stem_angle: -6.0,
            stem: length(92.0),
            spacers: length(14.0),
            refused,
            is_drop_on_flat,
            caution: Caution::Spacers,
        };
        let refused =
            |stem, spacers, is_sure| Some(RefusedStem { angle: 6.0, stem: length(stem), spacers: length(spacers), is_sure });
        let all = [
            repeated(Works::AsIt, true, None, false),
            repeated(Works::AsIt, false, None, true),
            repeated(Works::WithAnotherAngle, true, refused(90.0, 60.0, true), false),
            repeated(Works::WithAnotherAngle, false, refused(30.0, 41.0, false), false),
            repeated(Works::No, true, refused(140.0, -20.0, true), true),
        ];
        insta::assert_snapshot!(told(&all, repeated_code, repeated_text), @r"
        hand_position_repeated: A −6° stem gives the same hand position: 92.0 ± 1.4 mm stem and 14.0 ± 1.4 mm of spacers.
            A −6° stem gives the same hand position: 3.62 ± 0.06 in stem and 0.55 ± 0.06 in of spacers.
        hand_position_repeated_borderline: A −6° stem gives the same hand position: 92.0 ± 1.4 mm stem and 14.0 ± 1.4 mm of spacers. That is borderline: measure before you buy. The frame is designed for flat bars, but this drop bar works.
            A −6° stem gives the same hand position: 3.62 ± 0.06 in stem and 0.55 ± 0.06 in of spacers. That is borderline: measure before you buy. The frame is designed for flat bars, but this drop bar works.
        hand_position_with_another_stem_angle: A 6° stem does not give the same hand position: it needs 60.0 ± 1.4 mm of spacers, more than 40 mm. A −6° stem does: 92.0 ± 1.4 mm stem and 14.0 ± 1.4 mm of spacers.
            A 6° stem does not give the same hand position: it needs 2.36 ± 0.06 in of spacers, more than 1.57 in. A −6° stem does: 3.62 ± 0.06 in stem and 0.55 ± 0.06 in of spacers.
        hand_position_with_another_stem_angle_borderline: A 6° stem probably does not give the same hand position: it needs 41.0 ± 1.4 mm of spacers, more than 40 mm and it needs a 30.0 ± 1.4 mm stem, shorter than 35 mm. A −6° stem does: 92.0 ± 1.4 mm stem and 14.0 ± 1.4 mm of spacers. That is borderline: measure before you buy.
            A 6° stem probably does not give the same hand position: it needs 1.61 ± 0.06 in of spacers, more than 1.57 in and it needs a 1.18 ± 0.06 in stem, shorter than 1.38 in. A −6° stem does: 3.62 ± 0.06 in stem and 0.55 ± 0.06 in of spacers. That is borderline: measure before you buy.
        hand_position_not_repeated: No stem gives the same hand position. At 6°: without spacers the bar is 20 mm too high and it needs a 140.0 ± 1.4 mm stem, longer than 130 mm. No other common stem angle helps. The frame is designed for flat bars and is too long for this drop bar.
            No stem gives the same hand position. At 6°: without spacers the bar is 0.8 in too high and it needs a 5.51 ± 0.06 in stem, longer than 5.12 in. No other common stem angle helps. The frame is designed for flat bars and is too long for this drop bar.
        ");
    }

    #[test]
    fn closest_sizes_in_english() {
        let matched = |is_clear, is_too_tall, next: f64| ClosestSize {
            size: SizeIndex(1),
            label: "M".to_owned(),
            difference: Measured::new(-3.0, 0.6),
            next: Some(("L".to_owned(), next)),
            is_clear,
            is_too_tall,
            height_mm: 660.2,
        };
        let all = [matched(true, false, 15.0), matched(false, true, -4.0), matched(true, false, 0.2)];
        insta::assert_snapshot!(told(&all, matched_code, matched_text), @r"
        closest_size: Size M is closest: reach differs by −3.0 ± 1.2 mm at a bar height of 660 mm. Size L differs by +15 mm.
            Size M is closest: reach differs by −0.12 ± 0.05 in at a bar height of 26 in. Size L differs by +0.6 in.
        closest_size_no_clear_difference_head_tube_too_tall: Size M is closest: reach differs by −3.0 ± 1.2 mm at a bar height of 660 mm. Size L differs by −4 mm. There is no clear difference between the two: compare standover and stem. Its head tube ends above that height, so the bar is higher.
            Size M is closest: reach differs by −0.12 ± 0.05 in at a bar height of 26 in. Size L differs by −0.2 in. There is no clear difference between the two: compare standover and stem. Its head tube ends above that height, so the bar is higher.
        closest_size: Size M is closest: reach differs by −3.0 ± 1.2 mm at a bar height of 660 mm. Size L differs by 0 mm.
            Size M is closest: reach differs by −0.12 ± 0.05 in at a bar height of 26 in. Size L differs by 0 in.
        ");
    }
}
