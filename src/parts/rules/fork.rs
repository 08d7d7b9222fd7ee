//! Another fork under a frame: its steerer in the head tube, and its length.

use super::super::another::length_limit;
use super::super::list::ForkPart;
use super::super::reading::mm;
use super::super::source::Source;
use super::super::standards::{BORES, CupKind, HeadsetEnd};
use super::super::stated::{Stated, Statements, Steerer};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::{Figure, Standard};
use crate::geometry::{AdjustedSize, Change, changed, u_of_step};
use crate::units::{Measured, System};

/// Whether the fork's steerer can turn in this head tube with some headset: the worse of both ends.
pub(in super::super) fn fork_steerer(fork: Option<Steerer>, upper: &Stated<HeadsetEnd>, lower: &Stated<HeadsetEnd>) -> Outcome {
    let Some(fork) = fork else {
        return Outcome::not_stated("The fork's steerer is not stated.").caution(Caution::Headset);
    };
    upper_end(fork, upper).both(lower_end(fork, lower)).caution(Caution::Headset)
}

/// Least bore of a head tube for a steerer, mm: the external cups that are made for it (EC30/25.4, EC34/28.6, EC37/31.8,
/// EC49/38.1). Trade practice, unverified; so is that none is made for less.
const LEAST_BORES_MM: [(f64, f64); 4] = [(25.4, 30.10), (28.6, 33.95), (31.8, 36.95), (38.1, 49.61)];

/// The steerer in the upper end.
fn upper_end(fork: Steerer, upper: &Stated<HeadsetEnd>) -> Outcome {
    let upper = match upper.known(Standard::UpperHeadset) {
        Ok(upper) => upper,
        Err(why) => return Outcome::not_stated(why),
    };
    let numbers = |o: Outcome| o.number("steerer", fork.steerer_mm).number("stated_steerer", upper.fork_mm);
    if (upper.fork_mm - fork.steerer_mm).abs() < 0.11 {
        return numbers(Outcome::fits(format!("Upper end: {upper} is for this steerer."), Source::Maker));
    }
    let least_mm = LEAST_BORES_MM.iter().find(|(steerer, _)| (steerer - fork.steerer_mm).abs() < 0.11).map(|(_, bore)| *bore);
    let bore_mm = upper.bore().and_then(|b| b.bore_mm).filter(|_| upper.kind != CupKind::Integrated);
    match (least_mm, bore_mm) {
        (Some(least), Some(bore)) if bore >= least - 0.06 => numbers(Outcome::fits_with(
            format!("an upper headset and a stem for a steerer of {}", mm(fork.steerer_mm)),
            format!("Upper end: {upper} is for a steerer of {}; its bore of {} takes another.", mm(upper.fork_mm), mm(bore)),
            Source::TradePractice,
        )),
        _ => numbers(Outcome::does_not_fit(
            format!(
                "Upper end: a steerer of {} does not go through a head tube that is {upper}, for {}.",
                mm(fork.steerer_mm),
                mm(upper.fork_mm)
            ),
            Source::Maker,
        )),
    }
}

/// The crown race in the lower end.
fn lower_end(fork: Steerer, lower: &Stated<HeadsetEnd>) -> Outcome {
    let lower = match lower.known(Standard::LowerHeadset) {
        Ok(lower) => lower,
        Err(why) => return Outcome::not_stated(why),
    };
    let numbers = |o: Outcome| o.number("crown_race_seat", fork.race_mm).number("stated_race", lower.fork_mm);
    let bore = lower.bore().and_then(|b| b.bore_mm);
    if (lower.fork_mm - fork.race_mm).abs() < 0.11 {
        let reason = format!("Lower end: head tube and fork are both for the {}.", lower.fork_meaning());
        return numbers(Outcome::fits(reason, Source::Maker));
    }
    if fork.race_mm < lower.fork_mm {
        return numbers(Outcome::fits_with(
            format!("a lower headset or a reducing race for a crown race seat of {}", mm(fork.race_mm)),
            format!("Lower end: the fork's steerer is thinner than the head tube is for ({lower})."),
            Source::TradePractice,
        ));
    }
    // A tapered steerer wants at least a 44 mm bore and then a cup outside it.
    let wide = bore.is_some_and(|b| b > 43.5);
    if fork.race_mm > 39.0 && wide && lower.kind != CupKind::Integrated {
        let outside = BORES.iter().find(|b| b.kind == CupKind::External && b.bore_mm == bore);
        if let Some(cup) = outside {
            return numbers(Outcome::fits_with(
                format!("a lower headset EC{}/40, which raises the front by about 10 to 14 mm", cup.code),
                format!("Lower end: the steerer is tapered, the head tube stated as {lower}; its bore takes an external cup."),
                Source::TradePractice,
            ));
        }
    }
    numbers(Outcome::does_not_fit(
        format!("Lower end: a crown race of {} does not go under a head tube that is {lower}.", mm(fork.race_mm)),
        Source::Maker,
    ))
}

/// The fork's length under the chosen size.
pub(in super::super) fn fork_length(fork: &ForkPart, statements: &Statements, size: Option<&AdjustedSize>) -> Outcome {
    let Some(size) = size.filter(|s| !s.value(Figure::ForkLengthAlong).is_missing && !s.value(Figure::HeadAngle).is_missing)
    else {
        return Outcome::not_stated("The length of the frame's own fork is not known.").caution(Caution::ForkLength);
    };
    let standing = fork.standing_length_mm();
    let typed = |value| Some(Measured::new(value, u_of_step(1.0)));
    let after = changed(size, &Change { fork_length: typed(standing), fork_offset: typed(fork.offset), ..Change::default() });
    let length = |f: Figure| after.difference(f).as_length();
    let (longer, trail) = (length(Figure::ForkLengthAlong), length(Figure::Trail));
    let angle = after.difference(Figure::HeadAngle).as_angle();
    let does = format!(
        "It stands {} {} than the frame's own: head angle {} {}, trail {} {}",
        longer.abs().text(System::Metric),
        if longer.value >= 0.0 { "longer" } else { "shorter" },
        angle.abs().text(System::Metric),
        if angle.value <= 0.0 { "slacker" } else { "steeper" },
        trail.abs().text(System::Metric),
        if trail.value >= 0.0 { "more" } else { "less" }
    );
    let numbers = |o: Outcome| {
        o.number("longer", longer.value)
            .number("longer_u", longer.u)
            .number("head_angle_change_deg", angle.value)
            .number("head_angle_change_u_deg", angle.u)
            .number("trail_change", trail.value)
            .number("trail_change_u", trail.u)
            .caution(Caution::ForkLength)
    };
    let limit = length_limit(statements, standing + fork.sag_mm());
    match limit.is_within {
        Some(false) => return numbers(Outcome::does_not_fit(format!("{} {does}.", limit.sentence), limit.source)),
        Some(true) => return numbers(Outcome::fits(format!("{} {does}.", limit.sentence), limit.source)),
        None => {}
    }
    // Limits that are printed and not understood may forbid it: only a maker who prints none leaves it to practice.
    if matches!(statements.fork_lengths, Stated::NotUnderstood(_)) {
        return numbers(Outcome::not_stated(format!("{} {does}.", limit.sentence)));
    }
    // Ways of measuring differ by as much; beyond two centimetres nobody but the maker can say.
    if longer.value.abs() <= 5.0 && (fork.offset - size.value(Figure::ForkOffset).value).abs() <= 3.0 {
        numbers(Outcome::fits(format!("{does}."), Source::TradePractice))
    } else if longer.value.abs() <= 20.0 {
        numbers(Outcome::fits_with("other steering", format!("{does}; the maker states no limits."), Source::TradePractice))
    } else {
        numbers(Outcome::not_stated(format!("{does}; that is for the maker to allow, who states no limits.")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;
    use crate::parts::Fit;
    use crate::parts::standards::End;

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
        assert_eq!(fork_steerer(None, &Stated::NotStated, &Stated::NotStated).fit, Fit::NotStated);
    }

    #[test]
    fn the_upper_end_is_held_against_the_steerer_too() {
        let verdict = |steerer: f64, upper: &str| {
            let upper = HeadsetEnd::read(End::Upper, upper).map_or(Stated::NotStated, Stated::Is);
            let lower = Stated::Is(HeadsetEnd::read(End::Lower, "EC44/40").unwrap());
            fork_steerer(Some(Steerer { steerer_mm: steerer, race_mm: 40.0 }), &upper, &lower)
        };
        for upper in ["EC34/28.6", "ZS44/28.6", "IS42/28.6"] {
            let thick = verdict(38.1, upper);
            assert_eq!((thick.fit, thick.caution), (Fit::DoesNotFit, Some(Caution::Headset)), "{upper}");
            assert!(thick.reason.starts_with("Upper end: a steerer of 38.1"), "{}", thick.reason);
            assert_eq!(verdict(28.6, upper).fit, Fit::Fits, "{upper}");
        }
        // EC49/38.1 is made; a thin steerer in a wide head tube wants another cup.
        assert_eq!(verdict(38.1, "EC49/28.6").fit, Fit::FitsWith);
        assert_eq!(verdict(25.4, "EC34/28.6").fit, Fit::FitsWith);
        assert_eq!(verdict(28.6, "").fit, Fit::NotStated, "an upper end that is not stated is not taken to fit");
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
            assert_eq!(outcome.fit, Fit::NotStated, "{length}");
            assert!(outcome.reason.contains("`492 to 465` is no pair of fork lengths"), "{}", outcome.reason);
            assert!(!outcome.reason.contains("states no limits"), "{}", outcome.reason);
            assert!(outcome.reason.contains('±'), "{}", outcome.reason);
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
        assert_eq!(verdict(&frameset, 440.0).fit, Fit::NotStated);
        frameset.standards.insert(Standard::ForkLengths, "470 to 490".to_owned());
        assert_eq!(verdict(&frameset, 440.0).fit, Fit::DoesNotFit);
        assert_eq!(verdict(&frameset, 485.0).fit, Fit::Fits);
    }
}
