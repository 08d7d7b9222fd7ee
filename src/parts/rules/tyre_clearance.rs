//! A tyre against the clearance that is published for its wheel, with this drivetrain.

use super::super::extra::Extra;
use super::super::reasons::{ClearanceOf, RimReason, TyreReason};
use super::super::source::Source;
use super::super::standards::{CrankSpacing, GAPS, TyreClearance, TyreClearances};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::{Standard, TyreSize};
use crate::parts::{Fit, Stated};

/// The drivetrain beside a rear tyre: the crank of the list and the one that the frame is drawn for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in super::super) struct Drivetrain {
    pub(in super::super) crank: Option<CrankSpacing>,
    pub(in super::super) drawn_for: Option<CrankSpacing>,
}

/// The verdict on a tyre in the clearance of the frame or a fork.
pub(in super::super) fn tyre_clearance(
    tyre: TyreSize,
    rooms: &Stated<TyreClearances>,
    drivetrain: Drivetrain,
    of: ClearanceOf,
) -> Outcome {
    let rooms = match rooms.known(Standard::WidestTyre) {
        Ok(rooms) => rooms,
        Err(why) => return Outcome::not_stated(why).caution(Caution::TyreGap),
    };
    let bead_mm = tyre.bead_seat_mm();
    let ways = rooms.0.iter().filter(|r| r.bead_seat_mm == bead_mm).map(|r| one_room(tyre, r, drivetrain, of));
    let none = || Outcome::not_stated(TyreReason::WheelNotPublished { bead_mm, published_mm: rooms.wheels() });
    Outcome::best(ways).unwrap_or_else(none).caution(Caution::TyreGap)
}

/// A front tyre by what is published for the frame alone: nobody said it of the fork, so a yes is a condition and a no is
/// none.
pub(in super::super) fn by_the_frames_clearance(tyre: TyreSize, rooms: &Stated<TyreClearances>) -> Outcome {
    // What is tied to a drivetrain is so at the rear.
    let rooms = match rooms {
        Stated::Is(rooms) => {
            Stated::Is(TyreClearances(rooms.0.iter().map(|r| TyreClearance { with_spacing_mm: None, ..*r }).collect()))
        }
        other => other.clone(),
    };
    let of_frame = tyre_clearance(tyre, &rooms, Drivetrain::default(), ClearanceOf::Frame);
    let outcome = match of_frame.fit {
        Fit::NotPublished | Fit::Borderline => return of_frame,
        Fit::DoesNotFit => Outcome { fit: Fit::NotPublished, source: Source::Maker, ..of_frame },
        Fit::Fits | Fit::FitsWith => Outcome { fit: Fit::FitsWith, ..of_frame.also(Extra::ForkClearanceMeasured) },
    };
    outcome.because(TyreReason::FrameOnly)
}

fn one_room(tyre: TyreSize, room: &TyreClearance, drivetrain: Drivetrain, of: ClearanceOf) -> Outcome {
    let width = tyre.width_mm();
    if let Some(clear) = room.clear_mm {
        return clear_room(tyre, clear, of);
    }
    let widest_mm = room.widest_mm.unwrap_or(0.0);
    let left_mm = (widest_mm - width) / 2.0;
    let numbers = |o: Outcome| o.number("widest_tyre", widest_mm).number("room_left_a_side", left_mm);
    if width > widest_mm {
        return numbers(Outcome::does_not_fit(TyreReason::TooWide { tyre, widest_mm, of }, Source::Maker));
    }
    let allowed = TyreReason::Allowed { tyre, widest_mm, of, with_mudguards: room.with_mudguards, left_mm };
    // What the statement is tied to, or what the frame is drawn for, against the crank at hand.
    let tied = room.with_spacing_mm;
    let crank = drivetrain.crank.map(|c| c.spacing_mm);
    let wanted = tied.or(drivetrain.drawn_for.map(|d| d.spacing_mm));
    match (wanted, crank) {
        (Some(wanted), Some(crank_mm)) if crank_mm < wanted => {
            // Six millimetres of spacing are six of tyre: the chain comes in by half on each side.
            let after = widest_mm - (wanted - crank_mm);
            let reason = TyreReason::CrankMovesChain { crank_mm, a_side_mm: (wanted - crank_mm) / 2.0, widest_mm: after };
            let outcome = if width <= after {
                Outcome::fits(allowed, Source::TradePractice)
            } else if tied.is_some() {
                Outcome::does_not_fit(allowed, Source::TradePractice)
            } else {
                Outcome::fits_with(Extra::ChainTried, allowed, Source::TradePractice)
            };
            numbers(outcome.because(reason)).number("widest_tyre_with_this_crank", after)
        }
        (Some(spacing_mm), None) if tied.is_some() => {
            numbers(Outcome::fits_with(Extra::CrankOfSpacing { spacing_mm }, allowed, Source::Maker))
        }
        _ => numbers(Outcome::fits(allowed, Source::Maker)),
    }
}

fn clear_room(tyre: TyreSize, clear_mm: f64, of: ClearanceOf) -> Outcome {
    let gap_mm = (clear_mm - tyre.width_mm()) / 2.0;
    let clear = TyreReason::ClearWidth { tyre, clear_mm, of, gap_mm };
    let met = GAPS.iter().enumerate().find(|(_, g)| gap_mm >= g.gap_mm);
    let outcome = if let Some((rank, met)) = met {
        let enough = TyreReason::GapEnough { least_mm: met.gap_mm, holds_for: met.holds_for };
        let outcome = if rank == 0 {
            Outcome::fits(clear, met.source)
        } else {
            Outcome::fits_with(Extra::GapPublishedFor(met.holds_for), clear, met.source)
        };
        outcome.because(enough)
    } else {
        let least_mm = GAPS.last().map_or(0.0, |g| g.gap_mm);
        let source = GAPS.last().map_or(Source::TradePractice, |g| g.source);
        Outcome::does_not_fit(clear, source).because(TyreReason::GapTooSmall { least_mm })
    };
    outcome.number("clear_width", clear_mm).number("gap_a_side", gap_mm)
}

/// Rims against the wheels that the frame publishes clearance for, and against the tyre of the list.
pub(in super::super) fn rims(bead_mm: f64, rooms: &Stated<TyreClearances>, tyre: Option<TyreSize>) -> Outcome {
    if let Some(tyre) = tyre.filter(|t| t.bead_seat_mm() != bead_mm) {
        return Outcome::does_not_fit(
            RimReason::TyreDiffers { tyre, bead_mm },
            Source::Standard("ISO 5775: the second number of the designation is the rim's"),
        );
    }
    match rooms.known(Standard::WidestTyre) {
        Err(why) => Outcome::not_stated(why),
        Ok(rooms) if rooms.wheels().contains(&bead_mm) => Outcome::fits(RimReason::Published { bead_mm }, Source::Maker),
        Ok(rooms) => Outcome::not_stated(RimReason::NotPublished { bead_mm, published_mm: rooms.wheels() }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rooms(text: &str) -> Stated<TyreClearances> {
        Stated::Is(TyreClearances::read(text).unwrap())
    }

    fn with(crank: &str, drawn_for: &str) -> Drivetrain {
        let read = |t: &str| if t.is_empty() { None } else { Some(CrankSpacing::read(t).unwrap()) };
        Drivetrain { crank: read(crank), drawn_for: read(drawn_for) }
    }

    fn verdict(tyre: &str, room: &str, drivetrain: Drivetrain) -> Outcome {
        tyre_clearance(tyre.parse().unwrap(), &rooms(room), drivetrain, ClearanceOf::Frame)
    }

    #[test]
    fn the_room_is_that_of_the_wheel() {
        assert_eq!(verdict("50-622", "57-622", Drivetrain::default()).fit, Fit::Fits);
        assert_eq!(verdict("50-622", "57-622", Drivetrain::default()).numbers[1].value, 3.5);
        assert_eq!(verdict("60-622", "57-622", Drivetrain::default()).fit, Fit::DoesNotFit);
        assert_eq!(verdict("60-584", "57-622", Drivetrain::default()).fit, Fit::NotPublished, "silence is never a no");
        assert_eq!(verdict("60-584", "57-622; 64-584", Drivetrain::default()).fit, Fit::Fits);
        let nothing = tyre_clearance("50-622".parse().unwrap(), &Stated::NotPublished, Drivetrain::default(), ClearanceOf::Frame);
        assert_eq!(nothing.fit, Fit::NotPublished);
        assert!(nothing.caution.is_some());
    }

    #[test]
    fn what_is_stated_for_the_frame_is_not_said_of_its_fork() {
        let front = |tyre: &str| by_the_frames_clearance(tyre.parse().unwrap(), &rooms("60-622; 66-584 with spacing 142"));
        let within = front("50-622");
        assert_eq!((within.fit, within.extras.as_slice()), (Fit::FitsWith, [Extra::ForkClearanceMeasured].as_slice()));
        assert_eq!(within.reasons.last(), Some(&TyreReason::FrameOnly.into()));
        assert_eq!(front("70-622").reasons.len(), 2, "what was published, and that it was not of the fork");
        assert_eq!(front("70-622").fit, Fit::NotPublished, "nobody said no");
        assert_eq!(front("65-584").extras, within.extras, "the crank is none of the front tyre's business");
        assert_eq!(front("50-559").fit, Fit::NotPublished);
        assert_eq!(by_the_frames_clearance("50-622".parse().unwrap(), &Stated::NotPublished).fit, Fit::NotPublished);
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

    #[test]
    fn a_narrower_crank_moves_the_chain_in_by_half() {
        let narrow = verdict("58-559", "64-559 with spacing 148", with("142", ""));
        let reason = TyreReason::CrankMovesChain { crank_mm: 142.0, a_side_mm: 3.0, widest_mm: 58.0 };
        assert_eq!((narrow.fit, narrow.reasons.last()), (Fit::Fits, Some(&reason.into())));
    }

    #[test]
    fn rims_fit_the_wheels_that_are_published() {
        let fit = |bead: f64, tyre: &str| rims(bead, &rooms("60-622; 66-584"), tyre.parse().ok()).fit;
        assert_eq!((fit(622.0, ""), fit(584.0, "")), (Fit::Fits, Fit::Fits));
        assert_eq!(fit(559.0, ""), Fit::NotPublished);
        assert_eq!((fit(622.0, "50-622"), fit(622.0, "50-584")), (Fit::Fits, Fit::DoesNotFit));
    }
}
