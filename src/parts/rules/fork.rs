//! Another fork under a frame: its steerer in the head tube, and its length.

use super::super::extra::Extra;
use super::super::fork_limits::{LengthLimit, length_limit};
use super::super::fork_part::ForkPart;
use super::super::reasons::{ForkLengthReason, SteererReason};
use super::super::source::Source;
use super::super::standards::{BORES, CupKind, HeadsetEnd};
use super::super::stated::{Stated, Statements, Steerer, Unknown};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::{Figure, Standard};
use crate::geometry::{AdjustedSize, Change, changed, u_of_step};
use crate::units::Measured;

/// Whether the fork's steerer can turn in this head tube with some headset: the worse of both ends.
pub(in super::super) fn fork_steerer(fork: Option<Steerer>, upper: &Stated<HeadsetEnd>, lower: &Stated<HeadsetEnd>) -> Outcome {
    let Some(fork) = fork else {
        return Outcome::not_stated(SteererReason::NotEntered).caution(Caution::Headset);
    };
    upper_end(fork, upper).both(lower_end(fork, lower)).caution(Caution::Headset)
}

/// Least bore of a head tube for a steerer, mm: the external cups that are made for it (EC30/25.4, EC34/28.6, EC37/31.8,
/// EC49/38.1). Trade practice, unverified; so is that none is made for less.
const LEAST_BORES_MM: [(f64, f64); 4] = [(25.4, 30.10), (28.6, 33.95), (31.8, 36.95), (38.1, 49.61)];

/// The steerer in the upper end.
fn upper_end(fork: Steerer, upper: &Stated<HeadsetEnd>) -> Outcome {
    let upper = match upper.known(Standard::UpperHeadset) {
        Ok(upper) => *upper,
        Err(why) => return Outcome::not_stated(why),
    };
    let steerer_mm = fork.steerer_mm;
    let least_mm = LEAST_BORES_MM.iter().find(|(steerer, _)| (steerer - steerer_mm).abs() < 0.11).map(|(_, bore)| *bore);
    let bore_mm = upper.bore().and_then(|b| b.bore_mm).filter(|_| upper.kind != CupKind::Integrated);
    let outcome = if (upper.fork_mm - steerer_mm).abs() < 0.11 {
        Outcome::fits(SteererReason::UpperMatches(upper), Source::Maker)
    } else if let (Some(least), Some(bore_mm)) = (least_mm, bore_mm)
        && bore_mm >= least - 0.06
    {
        let reason = SteererReason::UpperBoreTakesIt { upper, bore_mm };
        Outcome::fits_with(Extra::UpperHeadsetAndStem { steerer_mm }, reason, Source::TradePractice)
    } else {
        Outcome::does_not_fit(SteererReason::UpperTooNarrow { steerer_mm, upper }, Source::Maker)
    };
    outcome.number("steerer", steerer_mm).number("stated_steerer", upper.fork_mm)
}

/// The crown race in the lower end.
fn lower_end(fork: Steerer, lower: &Stated<HeadsetEnd>) -> Outcome {
    let lower = match lower.known(Standard::LowerHeadset) {
        Ok(lower) => *lower,
        Err(why) => return Outcome::not_stated(why),
    };
    let race_mm = fork.race_mm;
    let bore = lower.bore().and_then(|b| b.bore_mm);
    // A tapered steerer wants at least a 44 mm bore and then a cup outside it.
    let is_wide = bore.is_some_and(|b| b > 43.5) && lower.kind != CupKind::Integrated;
    let external = BORES.iter().find(|b| b.kind == CupKind::External && b.bore_mm == bore).filter(|_| race_mm > 39.0 && is_wide);
    let outcome = if (lower.fork_mm - race_mm).abs() < 0.11 {
        Outcome::fits(SteererReason::LowerMatches(lower), Source::Maker)
    } else if race_mm < lower.fork_mm {
        let reason = SteererReason::LowerWider { race_mm, lower };
        Outcome::fits_with(Extra::LowerHeadsetOrRace { race_mm }, reason, Source::TradePractice)
    } else if let Some(cup) = external {
        let reason = SteererReason::LowerBoreTakesExternalCup(lower);
        Outcome::fits_with(Extra::ExternalLowerCup { bore_code: cup.code }, reason, Source::TradePractice)
    } else {
        Outcome::does_not_fit(SteererReason::LowerTooNarrow { race_mm, lower }, Source::Maker)
    };
    outcome.number("crown_race_seat", race_mm).number("stated_race", lower.fork_mm)
}

/// The fork's length under the chosen size.
pub(in super::super) fn fork_length(fork: &ForkPart, statements: &Statements, size: Option<&AdjustedSize>) -> Outcome {
    let Some(size) = size.filter(|s| !s.value(Figure::AxleToCrownAlongAxis).is_missing && !s.value(Figure::HeadAngle).is_missing)
    else {
        return Outcome::not_stated(ForkLengthReason::OwnLengthUnknown).caution(Caution::ForkLength);
    };
    let standing = fork.standing_length_mm();
    let typed = |value| Some(Measured::new(value, u_of_step(1.0)));
    let after = changed(size, &Change { fork_length: typed(standing), fork_offset: typed(fork.offset), ..Change::default() });
    let length = |f: Figure| after.difference(f).as_length();
    let (longer, trail) = (length(Figure::AxleToCrownAlongAxis), length(Figure::Trail));
    let head_angle = after.difference(Figure::HeadAngle).as_angle();
    let stands = ForkLengthReason::Stands { longer, head_angle, trail };
    let limit = length_limit(statements, standing + fork.sag_mm(), fork.offset);
    let outcome = match &limit {
        LengthLimit::Beyond(_) => Outcome::does_not_fit(stands, Source::Maker).because_first(ForkLengthReason::Limit(limit)),
        LengthLimit::Within(_) => Outcome::fits(stands, Source::Maker).because_first(ForkLengthReason::Limit(limit)),
        LengthLimit::Depends(_) => Outcome::borderline(stands, Source::Maker).because_first(ForkLengthReason::Limit(limit)),
        // Limits that are published and not understood may forbid it: only a maker who publishes none leaves it to practice.
        LengthLimit::Unknown(Unknown::NotUnderstood(_)) => {
            Outcome::not_stated(stands).because_first(ForkLengthReason::Limit(limit))
        }
        // Ways of measuring differ by as much; beyond two centimetres nobody but the maker can say.
        LengthLimit::Unknown(_) => {
            let is_same = longer.value.abs() <= 5.0 && (fork.offset - size.value(Figure::ForkOffset).value).abs() <= 3.0;
            if is_same {
                Outcome::fits(stands, Source::TradePractice)
            } else if longer.value.abs() <= 20.0 {
                Outcome::fits_with(Extra::ChangedSteering, stands, Source::TradePractice).because(ForkLengthReason::Limit(limit))
            } else {
                Outcome::not_stated(stands).because(ForkLengthReason::Limit(limit))
            }
        }
    };
    outcome
        .number("longer", longer.value)
        .number("longer_u", longer.u)
        .number("head_angle_change_deg", head_angle.value)
        .number("head_angle_change_u_deg", head_angle.u)
        .number("trail_change", trail.value)
        .number("trail_change_u", trail.u)
        .caution(Caution::ForkLength)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;
    use crate::parts::standards::End;
    use crate::parts::{Fit, Reason, Unknown};

    #[test]
    fn steerers_turn_in_head_tubes_that_are_wide_enough() {
        let verdict = |race: f64, lower: &str| {
            let lower = Stated::Is(HeadsetEnd::read(End::Lower, lower).unwrap());
            let upper = Stated::Is(HeadsetEnd::read(End::Upper, "EC34/28.6").unwrap());
            fork_steerer(Some(Steerer { steerer_mm: 28.6, race_mm: race }), &upper, &lower).fit
        };
        assert_eq!(verdict(30.0, "EC34/30"), Fit::Fits);
        assert_eq!(verdict(30.0, "ZS56/40"), Fit::FitsWith);
        assert_eq!(verdict(40.0, "ZS44/30"), Fit::FitsWith);
        assert_eq!(verdict(40.0, "EC34/30"), Fit::DoesNotFit);
        assert_eq!(fork_steerer(None, &Stated::NotPublished, &Stated::NotPublished).fit, Fit::NotPublished);
    }

    #[test]
    fn the_upper_end_is_held_against_the_steerer_too() {
        let verdict = |steerer: f64, upper: &str| {
            let upper = HeadsetEnd::read(End::Upper, upper).map_or(Stated::NotPublished, Stated::Is);
            let lower = Stated::Is(HeadsetEnd::read(End::Lower, "EC44/40").unwrap());
            fork_steerer(Some(Steerer { steerer_mm: steerer, race_mm: 40.0 }), &upper, &lower)
        };
        for upper in ["EC34/28.6", "ZS44/28.6", "IS42/28.6"] {
            assert_eq!(verdict(28.6, upper).fit, Fit::Fits, "{upper}");
            let thick = verdict(38.1, upper);
            assert_eq!((thick.fit, thick.caution), (Fit::DoesNotFit, Some(Caution::Headset)), "{upper}");
            let upper = HeadsetEnd::read(End::Upper, upper).unwrap();
            assert_eq!(thick.reasons, [SteererReason::UpperTooNarrow { steerer_mm: 38.1, upper }.into()]);
        }
        // EC49/38.1 is made; a thin steerer in a wide head tube wants another cup.
        assert_eq!(verdict(38.1, "EC49/28.6").fit, Fit::FitsWith);
        assert_eq!(verdict(25.4, "EC34/28.6").fit, Fit::FitsWith);
        assert_eq!(verdict(28.6, "").fit, Fit::NotPublished, "an upper end that is not stated is not taken to fit");
        // Both ends are told.
        assert!(verdict(28.6, "ZS44/28.6").numbers.iter().any(|n| n.label == "stated_steerer" && n.value == 28.6));
    }

    #[test]
    fn limits_that_are_not_understood_are_not_taken_for_none() {
        let mut frameset = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        frameset.standards.insert(Standard::ForkLengths, "492 to 465".to_owned());
        let adjusted = adjust(&frameset);
        for length in [481.0, 495.0, 440.0] {
            let fork = ForkPart::rigid(length, 46.0);
            let outcome = fork_length(&fork, &Statements::of(&frameset), Some(&adjusted.sizes[2]));
            assert_eq!(outcome.fit, Fit::NotPublished, "{length}");
            let [Reason::ForkLength(ForkLengthReason::Limit(LengthLimit::Unknown(Unknown::NotUnderstood(slip)))), stands] =
                outcome.reasons.as_slice()
            else {
                panic!("{:?}", outcome.reasons)
            };
            assert!(slip.why.contains("`492 to 465` is not a valid range of fork lengths"), "{slip}");
            assert_eq!(stands.code(), "fork_length_differs");
        }
    }

    #[test]
    fn a_length_is_judged_by_the_maker_first() {
        let mut frameset = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        frameset.standards.remove(&Standard::ForkLengths);
        let adjusted = adjust(&frameset);
        let size = &adjusted.sizes[2];
        let fork = |length: f64| ForkPart { measured: crate::parts::ForkMeasurement::Along, ..ForkPart::rigid(length, 46.0) };
        let verdict = |f: &crate::frameset::Frameset, length| fork_length(&fork(length), &Statements::of(f), Some(size));
        assert_eq!(verdict(&frameset, 481.0).fit, Fit::Fits);
        assert_eq!(verdict(&frameset, 495.0).fit, Fit::FitsWith);
        assert_eq!(verdict(&frameset, 440.0).fit, Fit::NotPublished);
        frameset.standards.insert(Standard::ForkLengths, "470 to 490".to_owned());
        assert_eq!(verdict(&frameset, 440.0).fit, Fit::DoesNotFit);
        assert_eq!(verdict(&frameset, 485.0).fit, Fit::Fits);
        // √(489² + 46²) = 491.2: by one way of measuring within 490 mm, by the other not.
        assert_eq!(verdict(&frameset, 489.0).fit, Fit::Borderline);
        // √(468² + 46²) = 470.3: the same at the lower limit.
        assert_eq!((verdict(&frameset, 468.0).fit, verdict(&frameset, 467.0).fit), (Fit::Borderline, Fit::DoesNotFit));
    }

    #[test]
    fn a_tapered_fork_gets_an_external_cup_of_the_same_bore() {
        let lower = |race_mm: f64, code: &str| {
            let lower = Stated::Is(HeadsetEnd::read(End::Lower, code).unwrap());
            lower_end(Steerer { steerer_mm: 28.6, race_mm }, &lower)
        };
        for (code, cup) in [("ZS44/30", 44), ("EC44/30", 44), ("ZS49/30", 49), ("ZS56/30", 56)] {
            let outcome = lower(40.0, code);
            assert_eq!(outcome.fit, Fit::FitsWith, "{code}");
            assert_eq!(outcome.extras, [Extra::ExternalLowerCup { bore_code: cup }], "{code}");
        }
        // Too narrow, no external cup of that bore, an integrated bearing; and a 1¼ in race is not the tapered one.
        for (race_mm, code) in [(40.0, "EC34/30"), (40.0, "ZS41/30"), (40.0, "IS42/30"), (40.0, "IS52/30"), (33.0, "ZS44/30")] {
            assert_eq!(lower(race_mm, code).fit, Fit::DoesNotFit, "{race_mm} in {code}");
        }
    }

    #[test]
    fn the_makers_limits_are_for_the_unloaded_fork() {
        let mut frameset = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        frameset.standards.insert(Standard::ForkLengths, "470 to 490".to_owned());
        let adjusted = adjust(&frameset);
        let measured = crate::parts::ForkMeasurement::Along;
        let fit = |length: f64, travel: f64| {
            let fork = ForkPart { measured, travel, sag_percent: 25.0, ..ForkPart::rigid(length, 46.0) };
            fork_length(&fork, &Statements::of(&frameset), Some(&adjusted.sizes[2])).fit
        };
        assert_eq!((fit(485.0, 0.0), fit(485.0, 100.0)), (Fit::Fits, Fit::Fits), "25 mm of sag are not a shorter fork");
        assert_eq!(fit(505.0, 100.0), Fit::DoesNotFit, "nor do they make a long one short");
    }

    #[test]
    fn a_fork_is_not_judged_where_the_frames_own_is_unknown() {
        for figures in ["Stack: 600, Reach: 390, HeadAngle: 71, SeatAngle: 73", "Stack: 600, AxleToCrownAlongAxis: 400"] {
            let text = format!(
                "Frameset(format: 2, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: {{{figures}}})])"
            );
            let frameset = read_frameset(text.as_bytes()).unwrap();
            let adjusted = adjust(&frameset);
            let size = &adjusted.sizes[0];
            assert!(size.value(Figure::AxleToCrownAlongAxis).is_missing != size.value(Figure::HeadAngle).is_missing, "{figures}");
            let outcome = fork_length(&ForkPart::rigid(400.0, 46.0), &Statements::of(&frameset), Some(size));
            assert_eq!(outcome.reasons, [ForkLengthReason::OwnLengthUnknown.into()], "{figures}");
            assert_eq!((outcome.fit, outcome.caution), (Fit::NotPublished, Some(Caution::ForkLength)), "{figures}");
        }
    }
}
