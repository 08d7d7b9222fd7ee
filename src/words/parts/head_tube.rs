//! Headsets, steerers and fork lengths: why they fit or not, in sentences.

use super::super::lengths::{length_to_tenth, lengths, trade_size};
use crate::parts::standards::Beware;
use crate::parts::{ForkLengthReason, HeadsetReason, LengthLimit, SteererReason, Unknown};
use crate::units::System;

/// Why a headset fits or not.
pub(super) fn headset_reason(reason: &HeadsetReason) -> String {
    match *reason {
        HeadsetReason::BoreUnknown { own, tube } => format!("The bore of {own} or {tube} is in no table."),
        HeadsetReason::CodeNotEnough { own, beware } => {
            format!("Both are {}{}. {}", own.kind.code(), own.bore_code, beware_text(beware))
        }
        HeadsetReason::IntegratedDiffers { own, tube } => format!("{own} does not fit a head tube for {tube}."),
        HeadsetReason::BoresDiffer { own, own_mm, tube, tube_mm } => {
            format!("{own} needs a bore of {}; the head tube ({tube}) has {}.", trade_size(own_mm), trade_size(tube_mm))
        }
        HeadsetReason::BoreToMeasure { own, beware } => format!("{own} matches by its code. {}", beware_text(beware)),
        HeadsetReason::OtherCupSameBore { own, tube, bore_mm } => {
            format!("{own} and the published {tube} have the same bore, {}.", trade_size(bore_mm))
        }
        HeadsetReason::Matches { own, bore_mm } => format!("{own} fits the head tube's bore of {}.", trade_size(bore_mm)),
        HeadsetReason::SteerersDiffer { own_mm, fork_mm } => {
            format!("The headset is for a {} steerer; the fork's is {}.", trade_size(own_mm), trade_size(fork_mm))
        }
        HeadsetReason::RaceTooWide { own_mm, fork_mm } => {
            format!("The headset's crown race is {}; the fork's seat is narrower, {}.", trade_size(own_mm), trade_size(fork_mm))
        }
        HeadsetReason::RaceTooNarrow { own_mm, fork_mm } => {
            format!("The fork's crown race seat of {} does not fit a {} race.", trade_size(fork_mm), trade_size(own_mm))
        }
    }
}

/// What a SHIS code leaves open.
const fn beware_text(beware: Beware) -> &'static str {
    match beware {
        Beware::BearingAngles => "The code does not give the bearing's angles: 36° × 45° and 45° × 45° both exist.",
        Beware::JisBore => "JIS head tubes have a bore of 29.85 to 29.90\u{2009}mm.",
    }
}

/// Why a fork's steerer fits the head tube or not.
pub(super) fn steerer_reason(reason: &SteererReason) -> String {
    match *reason {
        SteererReason::NotEntered => "The fork's steerer is not entered.".to_owned(),
        SteererReason::UpperMatches(upper) => format!("Upper end: {upper} is for this steerer."),
        SteererReason::UpperBoreTakesIt { upper, bore_mm } => format!(
            "Upper end: {upper} is for a {} steerer; its bore of {} takes this one too.",
            trade_size(upper.fork_mm),
            trade_size(bore_mm)
        ),
        SteererReason::UpperTooNarrow { steerer_mm, upper } => {
            format!("Upper end: a {} steerer does not fit a head tube for {upper}.", trade_size(steerer_mm))
        }
        SteererReason::LowerMatches(lower) => {
            format!("Lower end: head tube and fork are both for the {}.", lower.fork_meaning())
        }
        SteererReason::LowerWider { race_mm, lower } => {
            format!("Lower end: the fork's crown race seat is {}; {lower} is for a wider one.", trade_size(race_mm))
        }
        SteererReason::LowerBoreTakesExternalCup(lower) => {
            format!("Lower end: the steerer is tapered; the bore of {lower} takes an external cup.")
        }
        SteererReason::LowerTooNarrow { race_mm, lower } => {
            format!("Lower end: a {} crown race does not fit a head tube for {lower}.", trade_size(race_mm))
        }
    }
}

/// Why a fork's length is allowed or not.
pub(super) fn fork_length_reason(units: System, reason: &ForkLengthReason) -> String {
    match reason {
        ForkLengthReason::OwnLengthUnknown => "The length of the frame's own fork is unknown.".to_owned(),
        ForkLengthReason::Limit(limit) => limit_text(units, limit),
        ForkLengthReason::Stands { longer, head_angle, trail } => {
            format!(
                "It is {} {} than the frame's own fork. Head angle {} {}, trail {} {}.",
                longer.abs().text(units),
                if longer.value >= 0.0 { "longer" } else { "shorter" },
                head_angle.abs().text(units),
                if head_angle.value <= 0.0 { "slacker" } else { "steeper" },
                trail.abs().text(units),
                if trail.value >= 0.0 { "more" } else { "less" }
            )
        }
    }
}

/// A fork's length beside the maker's limits, in sentences.
#[must_use]
pub fn limit_text(units: System, limit: &LengthLimit) -> String {
    let (limits, end) = match limit {
        LengthLimit::Within(limits) => (limits, "is within that."),
        LengthLimit::Depends(limits) => {
            return format!(
                "The maker allows forks from {}. This fork has {} along the steering axis and {} directly. Borderline: it depends \
                 on how the maker measures.",
                lengths(units, limits.least_mm, limits.most_mm),
                length_to_tenth(units, limits.along_mm),
                length_to_tenth(units, limits.direct_mm)
            );
        }
        LengthLimit::Beyond(limits) => (limits, "is not. Riding it can break the frame: ask the maker first."),
        LengthLimit::Unknown(Unknown::NotPublished(_)) => return "The maker publishes no limits of fork length.".to_owned(),
        LengthLimit::Unknown(Unknown::NotUnderstood(slip)) => return slip.to_string(),
    };
    format!(
        "The maker allows forks from {}; {} {end}",
        lengths(units, limits.least_mm, limits.most_mm),
        length_to_tenth(units, limits.along_mm)
    )
}
