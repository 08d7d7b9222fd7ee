//! A headset against the head tube's bores and the fork. Integrated codes are never proven by the code alone.

use super::super::reading::mm;
use super::super::source::Source;
use super::super::standards::{CupKind, Headset, HeadsetEnd};
use super::super::stated::Steerer;
use super::super::verdict::{Caution, Outcome};
use crate::frameset::Standard;
use crate::parts::{Fit, Stated};

/// The verdict on a headset; `fork` is the one that will turn in it.
pub(in super::super) fn headset(
    own: &Headset,
    upper: &Stated<HeadsetEnd>,
    lower: &Stated<HeadsetEnd>,
    fork: &Stated<Steerer>,
) -> Outcome {
    let (upper, lower) = match (upper.known(Standard::UpperHeadset), lower.known(Standard::LowerHeadset)) {
        (Ok(upper), Ok(lower)) => (upper, lower),
        (Err(why), _) | (_, Err(why)) => return Outcome::not_stated(why).caution(Caution::Headset),
    };
    let (top, bottom) = (one_end(&own.upper, upper), one_end(&own.lower, lower));
    let mut outcome = if top.fit > bottom.fit { top } else { bottom };
    let fork = match fork.known(Standard::Steerer) {
        Ok(fork) => fork,
        Err(why) => {
            return if outcome.fit == Fit::DoesNotFit { outcome } else { Outcome::not_stated(why).caution(Caution::Headset) };
        }
    };
    let same = |a: f64, b: f64| (a - b).abs() < 0.11;
    if !same(own.upper.fork_mm, fork.steerer_mm) {
        outcome = Outcome::does_not_fit(
            format!("The headset is for a steerer of {}, the fork's is {}.", mm(own.upper.fork_mm), mm(fork.steerer_mm)),
            Source::Maker,
        );
    } else if !same(own.lower.fork_mm, fork.race_mm) && outcome.fit < Fit::NotStated {
        // A wide lower end takes a narrow fork with a reducing crown race; the other way round nothing helps.
        outcome = if own.lower.fork_mm > fork.race_mm {
            Outcome::fits_with(
                format!("a reducing crown race from {} to {}", mm(own.lower.fork_mm), mm(fork.race_mm)),
                "The fork's crown race seat is narrower than the headset's race.",
                Source::TradePractice,
            )
        } else {
            Outcome::does_not_fit(
                format!("The fork's crown race seat of {} does not enter a race of {}.", mm(fork.race_mm), mm(own.lower.fork_mm)),
                Source::Maker,
            )
        };
    }
    outcome.number("steerer", fork.steerer_mm).number("crown_race_seat", fork.race_mm).caution(Caution::Headset)
}

/// One end's cup in one end's bore.
fn one_end(own: &HeadsetEnd, tube: &HeadsetEnd) -> Outcome {
    let (Some(own_bore), Some(bore)) = (own.bore(), tube.bore()) else {
        return Outcome::not_stated(format!("No table gives the bore behind {own} or {tube}."));
    };
    let (Some(cup_mm), Some(tube_mm)) = (own_bore.bore_mm, bore.bore_mm) else {
        return Outcome::not_stated(format!("No table gives the bore behind {own} or {tube}."));
    };
    let number = |o: Outcome| o.number("bore", tube_mm);
    let is_integrated = own.kind == CupKind::Integrated || tube.kind == CupKind::Integrated;
    if is_integrated {
        return number(if own.kind == tube.kind && own.bore_code == tube.bore_code {
            Outcome::not_stated(format!(
                "Both are {}{}, but {}.",
                own.kind.code(),
                own.bore_code,
                bore.beware.unwrap_or("the code does not carry the bearing's angles")
            ))
        } else {
            Outcome::does_not_fit(
                format!("{own} is not for a head tube that is {}{}.", tube.kind.code(), tube.bore_code),
                own_bore.source,
            )
        });
    }
    if (cup_mm - tube_mm).abs() > 0.06 {
        return number(Outcome::does_not_fit(
            format!("{own} is for a bore of {}, the head tube ({tube}) has {}.", mm(cup_mm), mm(tube_mm)),
            bore.source,
        ));
    }
    if let Some(beware) = bore.beware {
        return number(Outcome::fits_with("the head tube's bore measured", format!("{own} by its code; {beware}."), bore.source));
    }
    if own.kind != tube.kind {
        let rise = if own.kind == CupKind::External { "raises" } else { "lowers" };
        return number(Outcome::fits_with(
            format!("a cup of another kind, which {rise} that end by about 10 to 14 mm"),
            format!("{own} and the stated {tube} share a bore of {}.", mm(tube_mm)),
            bore.source,
        ));
    }
    number(Outcome::fits(format!("{own} in a bore of {}.", mm(tube_mm)), bore.source))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::standards::End;

    fn verdict(own: &str, upper: &str, lower: &str, fork: (f64, f64)) -> Outcome {
        headset(
            &Headset::read(own).unwrap(),
            &Stated::Is(HeadsetEnd::read(End::Upper, upper).unwrap()),
            &Stated::Is(HeadsetEnd::read(End::Lower, lower).unwrap()),
            &Stated::Is(Steerer { steerer_mm: fork.0, race_mm: fork.1 }),
        )
    }

    #[test]
    fn bores_and_forks_must_agree() {
        let straight = (28.6, 30.0);
        let tapered = (28.6, 40.0);
        assert_eq!(verdict("EC34/28.6 | EC34/30", "EC34/28.6", "EC34/30", straight).fit, Fit::Fits);
        assert_eq!(verdict("ZS44/28.6 | ZS56/40", "ZS44/28.6", "ZS56/40", tapered).fit, Fit::Fits);
        assert_eq!(verdict("EC34/28.6 | EC34/30", "ZS44/28.6", "ZS44/30", straight).fit, Fit::DoesNotFit);
        // ZS44 and EC44 go into one bore: catalogues list both beside each other (unior tip: ZS44/28.6 + EC44/40).
        let tall = verdict("ZS44/28.6 | EC44/40", "ZS44/28.6", "ZS44/30", tapered);
        assert_eq!(tall.fit, Fit::FitsWith);
        assert_eq!(verdict("ZS44/28.6 | ZS56/40", "ZS44/28.6", "ZS56/40", straight).fit, Fit::FitsWith);
        assert_eq!(verdict("ZS44/28.6 | ZS44/30", "ZS44/28.6", "ZS44/30", tapered).fit, Fit::DoesNotFit);
        // One inch: ISO and JIS differ, so the code alone does not settle it (30.10, JIS 29.85 to 29.90: trade practice, unverified).
        assert_eq!(verdict("EC30/25.4 | EC30/26.4", "EC30/25.4", "EC30/26.4", (25.4, 26.4)).fit, Fit::FitsWith);
    }

    #[test]
    fn integrated_codes_prove_nothing_alone() {
        // The identification guide shows a bearing of 36° × 45°: both angles exist and the code carries none.
        let outcome = verdict("IS42/28.6 | IS52/40", "IS42/28.6", "IS52/40", (28.6, 40.0));
        assert_eq!(outcome.fit, Fit::NotStated);
        assert!(outcome.reason.contains("angles"));
        assert_eq!(verdict("IS41/28.6 | IS52/40", "IS42/28.6", "IS52/40", (28.6, 40.0)).fit, Fit::DoesNotFit);
    }
}
