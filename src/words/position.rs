//! The rider's contact points in words: standover, toe overlap, saddle setback, and the stem that repeats a hand position.

use super::lengths::{length, length_to_whole};
use crate::parts::Source;
use crate::parts::position::{
    Clearance, LONGEST_STEM_MM, MOST_SPACERS_MM, MatchedSize, POST_SETBACK_MM, RefusedStem, Repeated, SHORTEST_STEM_MM,
    STANDOVER_CLEARANCE_MM, ToeGap, Works,
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
    let feet = if toe.limit.feet_held { "clipped in" } else { "on flat pedals" };
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
            sentences.push("No other stem angle that is sold helps.".to_owned());
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
pub fn matched_text(units: System, matched: &MatchedSize) -> String {
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
pub const fn matched_code(matched: &MatchedSize) -> &'static str {
    match (matched.is_clear, matched.is_too_tall) {
        (true, false) => "closest_size",
        (false, false) => "closest_size_no_clear_difference",
        (true, true) => "closest_size_head_tube_too_tall",
        (false, true) => "closest_size_no_clear_difference_head_tube_too_tall",
    }
}
