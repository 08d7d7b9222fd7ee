//! Words of what fits: verdicts on parts, answers to needs, another fork or tyres.

mod brakes;
mod carrying;
mod cautions;
mod change;
mod drivetrain;
mod extras;
#[cfg(test)]
mod facts_tests;
mod head_tube;
mod names;
mod needs;
#[cfg(test)]
mod tests;
mod wheels;

pub use cautions::{caution_text, source_text};
pub use change::{change_sentence, correction_text, put_on_text};
pub(super) use extras::extra_text;
pub use extras::{extras_text, fit_name, fit_text};
pub use head_tube::limit_text;
pub use needs::{answer_text, met_name};

use crate::parts::{Outcome, Reason, Unknown, Verdict};
use crate::units::System;
use crate::words::Label;

/// Why a standard is unknown, in a sentence.
fn unknown_text(unknown: &Unknown) -> String {
    match unknown {
        Unknown::NotPublished(standard) => format!("Not published: {}.", standard.label()),
        Unknown::NotUnderstood(slip) => slip.to_string(),
    }
}

/// One reason of a verdict, in a sentence or two.
#[must_use]
pub fn reason_text(units: System, reason: &Reason) -> String {
    match reason {
        Reason::Unknown(unknown) => unknown_text(unknown),
        Reason::Hub(reason) => wheels::hub_reason(units, reason),
        Reason::Crank(reason) => drivetrain::crank_reason(units, reason),
        Reason::Shell(reason) => drivetrain::shell_reason(reason),
        Reason::Brake(reason) => brakes::brake_reason(*reason),
        Reason::Rotor(reason) => brakes::rotor_reason(*reason),
        Reason::Headset(reason) => head_tube::headset_reason(reason),
        Reason::Steerer(reason) => head_tube::steerer_reason(reason),
        Reason::ForkLength(reason) => head_tube::fork_length_reason(units, reason),
        Reason::SeatPost(reason) => carrying::seat_post_reason(units, *reason),
        Reason::Tyre(reason) => wheels::tyre_reason(units, reason),
        Reason::Rim(reason) => wheels::rim_reason(units, reason),
        Reason::Carrying(reason) => carrying::carrying_reason(units, reason),
        Reason::Derailleur(reason) => drivetrain::derailleur_reason(units, reason),
        Reason::Dropout(reason) => drivetrain::dropout_reason(*reason).to_owned(),
    }
}

/// All reasons of a verdict, in sentences.
#[must_use]
pub fn reasons_text(units: System, outcome: &Outcome) -> String {
    outcome.reasons.iter().map(|r| reason_text(units, r)).collect::<Vec<_>>().join(" ")
}

/// What a verdict is about: the part's name or kind and text, or the fork.
#[must_use]
pub fn verdict_title(verdict: &Verdict) -> String {
    match verdict.kind {
        _ if !verdict.name.is_empty() => verdict.name.clone(),
        Some(kind) => format!("{} {}", kind.label(), verdict.text),
        None => "Fork".to_owned(),
    }
}

/// Reasons, extras, source and caution of a verdict in full.
#[must_use]
pub fn verdict_in_full(units: System, verdict: &Verdict) -> String {
    let outcome = &verdict.outcome;
    let source = format!("Source: {}.", source_text(outcome.source));
    let caution = outcome.caution.map(caution_text).unwrap_or_default();
    let sentences = [&reasons_text(units, outcome), &extras::extras_sentences(units, &outcome.extras), source.as_str(), caution];
    sentences.into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join(" ")
}
