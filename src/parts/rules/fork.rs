//! Another fork under a frame: its steerer in the head tube, and its length.

use super::super::another::{degrees, length_limit};
use super::super::list::ForkPart;
use super::super::reading::mm;
use super::super::source::Source;
use super::super::standards::{BORES, CupKind, HeadsetEnd};
use super::super::stated::{Stated, Statements, Steerer};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::{Figure, Standard};
use crate::geometry::{AdjustedSize, Change, NewValue, changed, u_of_step};

/// Whether the fork's steerer can turn in this head tube with some headset.
pub(in super::super) fn fork_steerer(fork: Option<Steerer>, lower: &Stated<HeadsetEnd>) -> Outcome {
    let Some(fork) = fork else {
        return Outcome::not_stated("The fork's steerer is not stated.").caution(Caution::Headset);
    };
    let lower = match lower.known(Standard::LowerHeadset) {
        Ok(lower) => lower,
        Err(why) => return Outcome::not_stated(why).caution(Caution::Headset),
    };
    let numbers =
        |o: Outcome| o.number("crown_race_seat", fork.race_mm).number("stated_race", lower.fork_mm).caution(Caution::Headset);
    let bore = lower.bore().and_then(|b| b.bore_mm);
    if (lower.fork_mm - fork.race_mm).abs() < 0.11 {
        return numbers(Outcome::fits(format!("Head tube and fork are both for the {}.", lower.fork_meaning()), Source::Maker));
    }
    if fork.race_mm < lower.fork_mm {
        return numbers(Outcome::fits_with(
            format!("a lower headset or a reducing race for a crown race seat of {}", mm(fork.race_mm)),
            format!("The fork's steerer is thinner than the head tube is for ({lower})."),
            Source::CommonPractice,
        ));
    }
    // A tapered steerer wants at least a 44 mm bore and then a cup outside it.
    let wide = bore.is_some_and(|b| b > 43.5);
    if fork.race_mm > 39.0 && wide && lower.kind != CupKind::Integrated {
        let outside = BORES.iter().find(|b| b.kind == CupKind::External && b.bore_mm == bore);
        if let Some(cup) = outside {
            return numbers(Outcome::fits_with(
                format!("a lower headset EC{}/40, which raises the front by about 10 to 14 mm", cup.code),
                format!("The steerer is tapered, the head tube stated as {lower}; its bore takes an external cup."),
                Source::Published("unior tip: ZS44/28.6 with EC44/40"),
            ));
        }
    }
    numbers(Outcome::does_not_fit(
        format!("A crown race of {} does not go under a head tube that is {lower}.", mm(fork.race_mm)),
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
    let own = size.value(Figure::ForkLengthAlong);
    let typed = |value| Some(NewValue { value, u: u_of_step(1.0) });
    let after = changed(size, &Change { fork_length: typed(standing), fork_offset: typed(fork.offset), ..Change::default() });
    let by = |f: Figure| after.differences[f as usize].0;
    let (longer, angle, trail) = (standing - own.value, by(Figure::HeadAngle), by(Figure::Trail));
    let does = format!(
        "It stands {} {} than the frame's own: head angle {} {}, trail {} {}",
        mm((longer.abs() * 10.0).round() / 10.0),
        if longer >= 0.0 { "longer" } else { "shorter" },
        degrees(angle.abs()),
        if angle <= 0.0 { "slacker" } else { "steeper" },
        mm(trail.abs().round()),
        if trail >= 0.0 { "more" } else { "less" }
    );
    let numbers = |o: Outcome| {
        o.number("longer", longer)
            .number("longer_u", after.differences[Figure::ForkLengthAlong as usize].1)
            .number("head_angle_change_deg", angle)
            .number("trail_change", trail)
            .caution(Caution::ForkLength)
    };
    let limit = length_limit(statements, standing + fork.sag_mm());
    match limit.is_within {
        Some(false) => return numbers(Outcome::does_not_fit(format!("{} {does}.", limit.sentence), limit.source)),
        Some(true) => return numbers(Outcome::fits(format!("{} {does}.", limit.sentence), limit.source)),
        None => {}
    }
    // Ways of measuring differ by as much; beyond two centimetres nobody but the maker can say.
    if longer.abs() <= 5.0 && (fork.offset - size.value(Figure::ForkOffset).value).abs() <= 3.0 {
        numbers(Outcome::fits(format!("{does}."), Source::CommonPractice))
    } else if longer.abs() <= 20.0 {
        numbers(Outcome::fits_with("other steering", format!("{does}; the maker states no limits."), Source::CommonPractice))
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
            fork_steerer(Some(Steerer { steerer_mm: 28.6, race_mm: race }), &lower).fit
        };
        assert_eq!(verdict(30.0, "EC34/30"), Fit::Fits);
        assert_eq!(verdict(30.0, "ZS56/40"), Fit::FitsWith);
        assert_eq!(verdict(40.0, "ZS44/30"), Fit::FitsWith);
        assert_eq!(verdict(40.0, "EC34/30"), Fit::DoesNotFit);
        assert_eq!(fork_steerer(None, &Stated::NotStated).fit, Fit::NotStated);
    }

    #[test]
    fn a_length_is_judged_by_the_maker_first() {
        let mut frameset = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        frameset.standards.remove(&Standard::ForkLengths);
        let adjusted = adjust(&frameset);
        let size = &adjusted.sizes[2];
        let fork = |length: f64| ForkPart {
            name: String::new(),
            length,
            measured: super::super::super::list::Measured::Along,
            offset: 46.0,
            travel: 0.0,
            sag_percent: 0.0,
            steerer: String::new(),
            hub: String::new(),
            brake: String::new(),
            widest_tyre: String::new(),
            bosses: String::new(),
        };
        let verdict = |f: &crate::frameset::Frameset, length| fork_length(&fork(length), &Statements::of(f), Some(size));
        assert_eq!(verdict(&frameset, 481.0).fit, Fit::Fits);
        assert_eq!(verdict(&frameset, 495.0).fit, Fit::FitsWith);
        assert_eq!(verdict(&frameset, 440.0).fit, Fit::NotStated);
        frameset.standards.insert(Standard::ForkLengths, "470 to 490".to_owned());
        assert_eq!(verdict(&frameset, 440.0).fit, Fit::DoesNotFit);
        assert_eq!(verdict(&frameset, 485.0).fit, Fit::Fits);
    }
}
