//! Extra parts and conditions in words.

use super::super::lengths::{length, lengths, trade_size, trade_sizes};
use super::names::{axle_name, end_name, gap_holds_for, mount_name};
use crate::parts::standards::{End, Wheel};
use crate::parts::{Extra, Fit, Outcome, Reason, Unknown};
use crate::units::{System, listed};

/// An extra part as a noun, or a condition as a clause behind "if".
pub(in crate::words) fn extra_text(units: System, extra: Extra) -> String {
    match extra {
        Extra::AxleAdapter { from_mm, to_mm } => {
            format!("end caps or a sleeve from a {} to a {} axle", trade_size(from_mm), trade_size(to_mm))
        }
        Extra::EndCaps { spacing_mm, axle } => {
            format!("end caps for {}, {}, if the hub's maker offers them", trade_size(spacing_mm), axle_name(axle))
        }
        Extra::ColdSet { end, a_side_mm, is_spread } => {
            let what = if end == Wheel::Front { "the fork blades" } else { "the stays" };
            let how = if is_spread { "spread" } else { "squeezed in" };
            format!("{what} are {how} (cold-set) by {} a side", length(units, a_side_mm))
        }
        Extra::LessTyreClearance { by_mm } => format!("{} less clearance for the rear tyre is enough", length(units, by_mm)),
        Extra::RingsClearStay => "the chainrings clear the chainstay".to_owned(),
        Extra::BrakeAdapter { from, to } => format!("a brake adapter from {} to {}", mount_name(from), mount_name(to)),
        Extra::StackedBrakeAdapters => "two stacked brake adapters, which few makers allow".to_owned(),
        Extra::RotorAdapter { more_mm } => format!("a +{} brake adapter", trade_size(more_mm)),
        Extra::MountsOwnAdapter => "the brake adapter for this rotor".to_owned(),
        Extra::BoreMeasured => "the head tube's bore is measured and matches".to_owned(),
        Extra::OtherCup { end, is_raised } => {
            let end = if end == End::Upper { "upper" } else { "lower" };
            let how = if is_raised { "raises" } else { "lowers" };
            format!("another type of {end} cup, which {how} that end by about {}", lengths(units, 10.0, 14.0))
        }
        Extra::ReducingRace { from_mm, to_mm } => format!("a reducing crown race from {}", trade_sizes(from_mm, to_mm)),
        Extra::UpperHeadsetAndStem { steerer_mm } => {
            format!("an upper headset and a stem for a {} steerer", trade_size(steerer_mm))
        }
        Extra::LowerHeadsetOrRace { race_mm } => {
            format!("a lower headset or a reducing race for a {} crown race seat", trade_size(race_mm))
        }
        Extra::ExternalLowerCup { bore_code } => {
            let by = lengths(units, 10.0, 14.0);
            format!("an EC{bore_code}/40 lower headset, which raises the front by about {by}")
        }
        Extra::ChangedSteering => "the changed head angle and trail suit you".to_owned(),
        Extra::PostShim { from_mm, to_mm } => format!("a seat post shim from {}", trade_sizes(from_mm, to_mm)),
        Extra::ForkClearanceMeasured => "the fork's own clearance is measured and is enough".to_owned(),
        Extra::ChainTried => "the chain clears the tyre in its innermost gear".to_owned(),
        Extra::WithoutMudguards => "the mudguards are left off".to_owned(),
        Extra::CrankOfRings { most: 1 } => "a crank with one chainring".to_owned(),
        Extra::CrankOfRings { most } => format!("a crank with at most {most} chainrings"),
        Extra::TyreMeasured { most_mm } => format!("the tyre measures at most {} on this rim", length(units, most_mm)),
        Extra::CrankOfSpacing { spacing_mm } => format!("a crank for {} rear spacing", trade_size(spacing_mm)),
        Extra::GapPublishedFor(of) => format!("the gap that is required of {} is enough", gap_holds_for(of)),
        Extra::RackClamps => "rack clamps or an axle that carries the rack, where the makers allow them".to_owned(),
        Extra::MudguardStraps(end) => format!("mudguard straps at the {}", end_name(end)),
        Extra::NarrowMudguard { end, wider_mm } => {
            format!("a mudguard only {} wider than the {} tyre keeps off enough spray", length(units, wider_mm), end_name(end))
        }
        Extra::ClampShim { from_mm, to_mm } => format!("a clamp shim from {}", trade_sizes(from_mm, to_mm)),
        Extra::BandWithTab { tube_mm } => format!("a clamp-on band with a tab for a {} seat tube", trade_size(tube_mm)),
        Extra::OffsetAdapter { by_mm } => format!("an adapter that moves the derailleur out by {}", length(units, by_mm)),
        Extra::CablePulley => "a pulley that turns the derailleur cable round".to_owned(),
        Extra::FullHousing => "cable housing in one piece up to the derailleur".to_owned(),
        Extra::HousingStop => "a clamp-on stop for the cable housing".to_owned(),
        Extra::ChainTensioner => "a chain tensioner".to_owned(),
        Extra::TorqueArm => "a torque arm or washer for the gear hub".to_owned(),
    }
}

/// Extra parts as nouns, and conditions as clauses behind "if".
fn parted(units: System, extras: &[Extra]) -> (Vec<String>, Vec<String>) {
    let texts = |is_part: bool| extras.iter().filter(|e| e.is_part() == is_part).map(|e| extra_text(units, *e)).collect();
    (texts(true), texts(false))
}

/// Extras alone: `a seat post shim from 27.2 to 31.6 mm, if the chain …`; empty where there are none.
#[must_use]
pub fn extras_text(units: System, extras: &[Extra]) -> String {
    let (parts, conditions) = parted(units, extras);
    let parts = listed(parts.iter().map(String::as_str));
    let conditions = conditions.join(", and if ");
    match (parts.is_empty(), conditions.is_empty()) {
        (false, false) => format!("{parts}, if {conditions}"),
        (true, false) => format!("if {conditions}"),
        (_, true) => parts,
    }
}

/// Extras as sentences: `It needs an extra part: a chain tensioner.`; empty where there are none.
pub(super) fn extras_sentences(units: System, extras: &[Extra]) -> String {
    let (parts, conditions) = parted(units, extras);
    let mut sentences = Vec::new();
    match parts.as_slice() {
        [] => {}
        [one] => sentences.push(format!("It needs an extra part: {one}.")),
        many => sentences.push(format!("It needs extra parts: {}.", listed(many.iter().map(String::as_str)))),
    }
    sentences.extend(conditions.iter().map(|condition| format!("It fits only if {condition}.")));
    sentences.join(" ")
}

/// Whether a part fits, in a few words, without its extras.
#[must_use]
pub fn fit_name(outcome: &Outcome) -> &'static str {
    match outcome.fit {
        Fit::Fits => "fits",
        Fit::FitsWith if outcome.extras.iter().any(|e| e.is_part()) => "fits with an extra part",
        Fit::FitsWith => "fits on a condition",
        Fit::Borderline => "borderline",
        Fit::NotPublished if matches!(outcome.reasons.first(), Some(Reason::Unknown(Unknown::NotPublished(_)))) => {
            "not published"
        }
        Fit::NotPublished => "unknown",
        Fit::DoesNotFit => "does not fit",
    }
}

/// Whether a part fits, with its extras: `fits with an extra part: a chain tensioner`.
#[must_use]
pub fn fit_text(units: System, outcome: &Outcome) -> String {
    let (parts, conditions) = parted(units, &outcome.extras);
    let parts = match parts.as_slice() {
        [] => String::new(),
        [one] => format!(" with an extra part: {one}"),
        many => format!(" with extra parts: {}", listed(many.iter().map(String::as_str))),
    };
    match (outcome.fit, conditions.is_empty()) {
        (Fit::FitsWith, true) => format!("fits{parts}"),
        (Fit::FitsWith, false) if parts.is_empty() => format!("fits if {}", conditions.join(", and if ")),
        (Fit::FitsWith, false) => format!("fits{parts}; only if {}", conditions.join(", and if ")),
        _ => fit_name(outcome).to_owned(),
    }
}
