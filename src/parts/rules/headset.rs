//! A headset against the head tube's bores and the fork. Integrated codes are never proven by the code alone.

use super::super::extra::Extra;
use super::super::reasons::HeadsetReason;
use super::super::source::Source;
use super::super::standards::{Beware, CupKind, Headset, HeadsetEnd};
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
    // One bore is told: that of the end that decides.
    let numbers = if top.fit > bottom.fit { top.numbers.clone() } else { bottom.numbers.clone() };
    let cups = Outcome { numbers, ..top.both(bottom) };
    let fork = match fork.known(Standard::Steerer) {
        Ok(fork) => fork,
        Err(why) => return if cups.fit == Fit::DoesNotFit { cups } else { Outcome::not_stated(why).caution(Caution::Headset) },
    };
    let same = |a: f64, b: f64| (a - b).abs() < 0.11;
    let (own_mm, fork_mm) = (own.lower.fork_mm, fork.race_mm);
    let outcome = if !same(own.upper.fork_mm, fork.steerer_mm) {
        let reason = HeadsetReason::SteerersDiffer { own_mm: own.upper.fork_mm, fork_mm: fork.steerer_mm };
        Outcome::does_not_fit(reason, Source::Maker)
    } else if same(own_mm, fork_mm) || cups.fit >= Fit::NotPublished {
        cups
    } else if own_mm > fork_mm {
        // A wide lower end takes a narrow fork with a reducing crown race; the other way round nothing helps.
        cups.both(Outcome::fits_with(
            Extra::ReducingRace { from_mm: own_mm, to_mm: fork_mm },
            HeadsetReason::RaceTooWide { own_mm, fork_mm },
            Source::TradePractice,
        ))
    } else {
        Outcome::does_not_fit(HeadsetReason::RaceTooNarrow { own_mm, fork_mm }, Source::Maker)
    };
    outcome.number("steerer", fork.steerer_mm).number("crown_race_seat", fork.race_mm).caution(Caution::Headset)
}

/// One end's cup in one end's bore.
fn one_end(own: &HeadsetEnd, tube: &HeadsetEnd) -> Outcome {
    let (own, tube) = (*own, *tube);
    let bores = own.bore().zip(tube.bore()).and_then(|(o, t)| Some((o, o.bore_mm?, t, t.bore_mm?)));
    let Some((own_bore, own_mm, bore, tube_mm)) = bores else {
        return Outcome::not_stated(HeadsetReason::BoreUnknown { own, tube });
    };
    let is_integrated = own.kind == CupKind::Integrated || tube.kind == CupKind::Integrated;
    let outcome = if is_integrated && own.kind == tube.kind && own.bore_code == tube.bore_code {
        let beware = bore.beware.unwrap_or(Beware::BearingAngles);
        Outcome::not_stated(HeadsetReason::CodeNotEnough { own, beware })
    } else if is_integrated {
        Outcome::does_not_fit(HeadsetReason::IntegratedDiffers { own, tube }, own_bore.source)
    } else if (own_mm - tube_mm).abs() > 0.06 {
        Outcome::does_not_fit(HeadsetReason::BoresDiffer { own, own_mm, tube, tube_mm }, bore.source)
    } else if let Some(beware) = bore.beware {
        Outcome::fits_with(Extra::BoreMeasured, HeadsetReason::BoreToMeasure { own, beware }, bore.source)
    } else if own.kind != tube.kind {
        let extra = Extra::OtherCup { end: own.end, is_raised: own.kind == CupKind::External };
        Outcome::fits_with(extra, HeadsetReason::OtherCupSameBore { own, tube, bore_mm: tube_mm }, bore.source)
    } else {
        Outcome::fits(HeadsetReason::Matches { own, bore_mm: tube_mm }, bore.source)
    };
    outcome.number("bore", tube_mm)
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
        // ZS44 and EC44 go into one bore: catalogues list both beside each other.
        let tall = verdict("ZS44/28.6 | EC44/40", "ZS44/28.6", "ZS44/30", tapered);
        assert_eq!(
            (tall.fit, tall.extras.as_slice()),
            (Fit::FitsWith, [Extra::OtherCup { end: End::Lower, is_raised: true }].as_slice())
        );
        // Both ends' extras are told.
        let both = verdict("EC44/28.6 | EC44/40", "ZS44/28.6", "ZS44/30", straight);
        let cup = |end| Extra::OtherCup { end, is_raised: true };
        assert_eq!(both.extras, [cup(End::Upper), cup(End::Lower), Extra::ReducingRace { from_mm: 40.0, to_mm: 30.0 }]);
        assert_eq!(verdict("ZS44/28.6 | ZS56/40", "ZS44/28.6", "ZS56/40", straight).fit, Fit::FitsWith);
        assert_eq!(verdict("ZS44/28.6 | ZS44/30", "ZS44/28.6", "ZS44/30", tapered).fit, Fit::DoesNotFit);
        // One inch: ISO and JIS differ, so the code alone does not settle it (30.10, JIS 29.85 to 29.90: trade practice, unverified).
        assert_eq!(verdict("EC30/25.4 | EC30/26.4", "EC30/25.4", "EC30/26.4", (25.4, 26.4)).fit, Fit::FitsWith);
    }

    #[test]
    fn integrated_codes_prove_nothing_alone() {
        // The identification guide shows a bearing of 36° × 45°: both angles exist and the code carries none.
        let outcome = verdict("IS42/28.6 | IS52/40", "IS42/28.6", "IS52/40", (28.6, 40.0));
        assert_eq!(outcome.fit, Fit::NotPublished);
        assert!(outcome.reasons.iter().all(|r| r.code() == "headset_code_not_enough"), "{:?}", outcome.reasons);
        assert_eq!(verdict("IS41/28.6 | IS52/40", "IS42/28.6", "IS52/40", (28.6, 40.0)).fit, Fit::DoesNotFit);
    }

    #[test]
    fn the_bore_that_is_told_is_that_of_the_end_that_decides() {
        let bore = |upper: &str, lower: &str| {
            let outcome = verdict("ZS44/28.6 | ZS56/40", upper, lower, (28.6, 40.0));
            let bores: Vec<f64> = outcome.numbers.iter().filter(|n| n.label == "bore").map(|n| n.value).collect();
            (outcome.fit, bores)
        };
        assert_eq!(bore("EC34/28.6", "ZS56/40"), (Fit::DoesNotFit, vec![33.95]));
        assert_eq!(bore("ZS44/28.6", "EC44/40"), (Fit::DoesNotFit, vec![44.0]));
    }

    #[test]
    fn a_wrong_cup_is_a_no_before_the_fork_is_known() {
        let verdict = |upper: &str| {
            headset(
                &Headset::read("ZS44/28.6 | ZS56/40").unwrap(),
                &Stated::Is(HeadsetEnd::read(End::Upper, upper).unwrap()),
                &Stated::Is(HeadsetEnd::read(End::Lower, "ZS56/40").unwrap()),
                &Stated::NotPublished,
            )
        };
        assert_eq!((verdict("EC34/28.6").fit, verdict("ZS44/28.6").fit), (Fit::DoesNotFit, Fit::NotPublished));
    }

    #[test]
    fn integrated_and_pressed_cups_never_share_a_bore() {
        // IS42 and ZS44 would be 2 mm apart; that they are of two systems is what is told, either way round.
        for (own, upper) in [("IS42/28.6 | ZS56/40", "ZS44/28.6"), ("ZS44/28.6 | ZS56/40", "IS42/28.6")] {
            let outcome = verdict(own, upper, "ZS56/40", (28.6, 40.0));
            let codes: Vec<&str> = outcome.reasons.iter().map(crate::parts::Reason::code).collect();
            assert_eq!((outcome.fit, codes), (Fit::DoesNotFit, vec!["headset_integrated_differs"]), "{own}");
        }
    }
}
