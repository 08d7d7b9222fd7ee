//! A tyre against the room that is stated for its wheel, with this drivetrain.

use super::super::reading::{mm, plain};
use super::super::source::Source;
use super::super::standards::{CrankSpacing, GAPS, TyreRoom, TyreRooms};
use super::super::verdict::{Caution, Outcome, a_side};
use crate::frameset::{Standard, TyreSize};
use crate::parts::{Fit, Stated};

/// The drivetrain beside a rear tyre: the crank of the list and the one that the frame is drawn for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in super::super) struct Drivetrain {
    pub(in super::super) crank: Option<CrankSpacing>,
    pub(in super::super) drawn_for: Option<CrankSpacing>,
}

/// The verdict on a tyre; `whose` is "the frame" or "the fork".
pub(in super::super) fn tyre_room(tyre: TyreSize, rooms: &Stated<TyreRooms>, drivetrain: Drivetrain, whose: &str) -> Outcome {
    let rooms = match rooms.known(Standard::WidestTyre) {
        Ok(rooms) => rooms,
        Err(why) => return Outcome::not_stated(why).caution(Caution::TyreGap),
    };
    let ways = rooms.0.iter().filter(|r| r.bead_seat_mm == tyre.bead_seat_mm()).map(|r| one_room(tyre, r, drivetrain, whose));
    Outcome::best(ways).unwrap_or_else(|| {
        Outcome::not_stated(format!(
            "The maker states room on {} only, not on {}.",
            rooms.wheels_in_words(),
            plain(tyre.bead_seat_mm())
        ))
        .caution(Caution::TyreGap)
    })
}

/// The condition where the room is stated for the frame alone.
const MEASURED: &str = "the fork's own room measured";

/// A front tyre by what is stated for the frame alone: nobody said it of the fork, so a yes is a condition and a no is none.
pub(in super::super) fn by_the_frames_room(tyre: TyreSize, rooms: &Stated<TyreRooms>) -> Outcome {
    // What is tied to a drivetrain is so at the rear.
    let rooms = match rooms {
        Stated::Is(rooms) => Stated::Is(TyreRooms(rooms.0.iter().map(|r| TyreRoom { with_spacing_mm: None, ..*r }).collect())),
        other => other.clone(),
    };
    let of_frame = tyre_room(tyre, &rooms, Drivetrain::default(), "the frame");
    let reason = format!("{} That is stated for the frame and not for its fork.", of_frame.reason);
    match of_frame.fit {
        Fit::NotStated => of_frame,
        Fit::DoesNotFit => Outcome { fit: Fit::NotStated, reason, source: Source::Maker, ..of_frame },
        Fit::Fits => Outcome { fit: Fit::FitsWith, with: Some(MEASURED.to_owned()), reason, ..of_frame },
        Fit::FitsWith => {
            let with = of_frame.with.as_ref().map(|w| format!("{w}, and {MEASURED}"));
            Outcome { with, reason, ..of_frame }
        }
    }
}

fn one_room(tyre: TyreSize, room: &TyreRoom, drivetrain: Drivetrain, whose: &str) -> Outcome {
    let width = tyre.width_mm();
    if let Some(clear) = room.clear_mm {
        return clear_room(tyre, clear, whose);
    }
    let widest = room.widest_mm.unwrap_or(0.0);
    let left = (widest - width) / 2.0;
    if width > widest {
        return Outcome::does_not_fit(
            format!(
                "{tyre} is {} wider than the widest tyre that the maker allows on {whose}, {}.",
                mm(width - widest),
                mm(widest)
            ),
            Source::Maker,
        )
        .number("widest_tyre", widest)
        .number("room_left_a_side", left)
        .caution(Caution::TyreGap);
    }
    let guards = if room.with_mudguards { ", with mudguards" } else { "" };
    let stated = format!(
        "{tyre}: the maker allows {} on {whose}{guards}, which leaves {} beyond the maker's own gap.",
        mm(widest),
        a_side(left)
    );
    let numbers = |o: Outcome| o.number("widest_tyre", widest).number("room_left_a_side", left).caution(Caution::TyreGap);
    // What the statement is tied to, or what the frame is drawn for, against the crank at hand.
    let tied = room.with_spacing_mm;
    let crank = drivetrain.crank.map(|c| c.spacing_mm);
    let wanted = tied.or(drivetrain.drawn_for.map(|d| d.spacing_mm));
    match (wanted, crank) {
        (Some(wanted), Some(crank)) if crank < wanted => {
            // Six millimetres of spacing are six of tyre: the chain comes in by half on each side.
            let after = widest - (wanted - crank);
            let base = |o: Outcome| numbers(o).number("widest_tyre_with_this_crank", after);
            let why = format!(
                "{stated} A crank of spacing {} moves the chain in by {}, which leaves room for {}.",
                plain(crank),
                a_side((wanted - crank) / 2.0),
                mm(after)
            );
            if width <= after {
                base(Outcome::fits(why, Source::TradePractice))
            } else if tied.is_some() {
                base(Outcome::does_not_fit(why, Source::TradePractice))
            } else {
                base(Outcome::fits_with("the chain tried in its innermost gear beside the tyre", why, Source::TradePractice))
            }
        }
        (Some(wanted), None) if tied.is_some() => {
            numbers(Outcome::fits_with(format!("a crank of spacing {}", plain(wanted)), stated, Source::Maker))
        }
        _ => numbers(Outcome::fits(stated, Source::Maker)),
    }
}

fn clear_room(tyre: TyreSize, clear: f64, whose: &str) -> Outcome {
    let gap = (clear - tyre.width_mm()) / 2.0;
    let sentence = |end: String| format!("{tyre} in {} of clear width on {whose} leaves {}{end}.", mm(clear), a_side(gap));
    let met = GAPS.iter().find(|g| gap >= g.gap_mm);
    let outcome = match (GAPS.first(), met) {
        (Some(first), Some(met)) if met.gap_mm == first.gap_mm => {
            Outcome::fits(sentence(format!("; {} are asked of {}", mm(met.gap_mm), met.holds_for)), met.source)
        }
        (_, Some(met)) => Outcome::fits_with(
            format!("a gap that is published for {} only", met.holds_for),
            sentence(format!(", enough for {} ({})", met.holds_for, mm(met.gap_mm))),
            met.source,
        ),
        (_, None) => {
            let least = GAPS.last().map_or(0.0, |g| g.gap_mm);
            let source = GAPS.last().map_or(Source::TradePractice, |g| g.source);
            Outcome::does_not_fit(sentence(format!(", less than the {} of any published rule", mm(least))), source)
        }
    };
    outcome.number("clear_width", clear).number("gap_a_side", gap).caution(Caution::TyreGap)
}

/// Rims against the wheels that the frame states room for, and against the tyre of the list.
pub(in super::super) fn rims(bead_mm: f64, rooms: &Stated<TyreRooms>, tyre: Option<TyreSize>) -> Outcome {
    if let Some(tyre) = tyre
        && tyre.bead_seat_mm() != bead_mm
    {
        return Outcome::does_not_fit(
            format!("The tyre {tyre} of this list does not sit on a rim of {}.", plain(bead_mm)),
            Source::Standard("ISO 5775: the second number of the designation is the rim's"),
        );
    }
    match rooms.known(Standard::WidestTyre) {
        Err(why) => Outcome::not_stated(why),
        Ok(rooms) if rooms.wheels().contains(&bead_mm) => {
            Outcome::fits(format!("The maker states room on {} mm rims.", plain(bead_mm)), Source::Maker)
        }
        Ok(rooms) => Outcome::not_stated(format!(
            "The maker states wheels of {} only, not of {}.",
            rooms.wheels_in_words(),
            plain(bead_mm)
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rooms(text: &str) -> Stated<TyreRooms> {
        Stated::Is(TyreRooms::read(text).unwrap())
    }

    fn with(crank: &str, drawn_for: &str) -> Drivetrain {
        let read = |t: &str| if t.is_empty() { None } else { Some(CrankSpacing::read(t).unwrap()) };
        Drivetrain { crank: read(crank), drawn_for: read(drawn_for) }
    }

    fn verdict(tyre: &str, room: &str, drivetrain: Drivetrain) -> Outcome {
        tyre_room(tyre.parse().unwrap(), &rooms(room), drivetrain, "the frame")
    }

    #[test]
    fn the_room_is_that_of_the_wheel() {
        assert_eq!(verdict("50-622", "57-622", Drivetrain::default()).fit, Fit::Fits);
        assert_eq!(verdict("50-622", "57-622", Drivetrain::default()).numbers[1].value, 3.5);
        assert_eq!(verdict("60-622", "57-622", Drivetrain::default()).fit, Fit::DoesNotFit);
        assert_eq!(verdict("60-584", "57-622", Drivetrain::default()).fit, Fit::NotStated, "silence is never a no");
        assert_eq!(verdict("60-584", "57-622; 64-584", Drivetrain::default()).fit, Fit::Fits);
        let nothing = tyre_room("50-622".parse().unwrap(), &Stated::NotStated, Drivetrain::default(), "the frame");
        assert_eq!(nothing.fit, Fit::NotStated);
        assert!(nothing.caution.is_some());
    }

    #[test]
    fn what_is_stated_for_the_frame_is_not_said_of_its_fork() {
        let front = |tyre: &str| by_the_frames_room(tyre.parse().unwrap(), &rooms("60-622; 66-584 with spacing 142"));
        let within = front("50-622");
        assert_eq!((within.fit, within.with.as_deref()), (Fit::FitsWith, Some("the fork's own room measured")));
        assert!(!within.reason.contains("own fork") && within.reason.contains("not for its fork"), "{}", within.reason);
        assert_eq!(front("70-622").fit, Fit::NotStated, "nobody said no");
        assert_eq!(front("65-584").with, within.with, "the crank is none of the front tyre's business");
        assert_eq!(front("50-559").fit, Fit::NotStated);
        assert_eq!(by_the_frames_room("50-622".parse().unwrap(), &Stated::NotStated).fit, Fit::NotStated);
    }

    #[test]
    fn six_millimetres_of_spacing_are_six_of_tyre() {
        // Trade practice, unverified.
        let room = "64-559 with spacing 148; 50-622";
        let narrow = verdict("60-559", room, with("142", ""));
        assert_eq!(narrow.fit, Fit::DoesNotFit);
        assert!(narrow.numbers.iter().any(|n| n.label == "widest_tyre_with_this_crank" && n.value == 58.0));
        assert_eq!(verdict("58-559", room, with("142", "")).fit, Fit::Fits);
        assert_eq!(verdict("60-559", room, with("148", "")).fit, Fit::Fits);
        assert_eq!(verdict("60-559", room, with("", "")).fit, Fit::FitsWith);
        assert_eq!(verdict("50-622", room, with("142", "")).fit, Fit::Fits, "28 in with any crank");
        // The frame's own statement stands, the practice is set beside it.
        let beside = verdict("60-622", "61-622", with("142", "148"));
        assert_eq!((beside.fit, beside.source), (Fit::FitsWith, Source::TradePractice));
    }

    #[test]
    fn a_stated_clear_width_is_held_against_the_published_gaps() {
        let gap = |tyre: &str| verdict(tyre, "clear 62 on 622", Drivetrain::default());
        assert_eq!(gap("50-622").fit, Fit::Fits); // 6 mm, ISO 4210-2, from memory
        assert_eq!((gap("54-622").fit, gap("54-622").source), (Fit::FitsWith, Source::Standard("EN 14781:2005, 4.10.2")));
        assert_eq!(gap("58-622").fit, Fit::FitsWith); // 2 mm, 16 CFR 1512.11(b)
        assert_eq!(gap("60-622").fit, Fit::DoesNotFit);
    }

    #[test]
    fn a_wider_tyre_never_fits_better() {
        for room in ["57-622", "clear 72 on 622", "57-622 with spacing 148"] {
            let mut before = Fit::Fits;
            for width in 18..=80 {
                let fit = verdict(&format!("{width}-622"), room, with("142", "142")).fit;
                assert!(fit >= before, "{room} {width}");
                before = fit;
            }
        }
    }
}
