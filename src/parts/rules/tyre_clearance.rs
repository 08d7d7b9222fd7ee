//! A tyre against the clearance that is published for its wheel, together with rims, mudguards and crank.

use super::super::extra::Extra;
use super::super::reasons::{ClearanceOf, RimReason, TyreReason};
use super::super::source::Source;
use super::super::standards::{
    CrankSpacing, GAPS, RIM_WIDTH_SOURCE, Rim, RimWidth, TyreClearance, TyreClearances, built_width, crank_family, made_for_mm,
    rim_width,
};
use super::super::verdict::{Caution, Outcome};
use super::crank::CHAINLINE_PLAY_MM;
use crate::frameset::{Standard, TyreSize};
use crate::parts::{Fit, Stated};

/// What stands beside a tyre: crank, rims and mudguards of the list, and the crank that the frame is drawn for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in super::super) struct Beside {
    pub(in super::super) crank: Option<CrankSpacing>,
    pub(in super::super) drawn_for: Option<CrankSpacing>,
    pub(in super::super) rim_inner_mm: Option<f64>,
    pub(in super::super) has_mudguards: bool,
}

/// The verdict on a tyre in the clearance of the frame or a fork.
pub(in super::super) fn tyre_clearance(
    tyre: TyreSize,
    rooms: &Stated<TyreClearances>,
    beside: Beside,
    of: ClearanceOf,
) -> Outcome {
    let rooms = match rooms.known(Standard::WidestTyre) {
        Ok(rooms) => rooms,
        Err(why) => return Outcome::not_stated(why).caution(Caution::TyreGap),
    };
    let bead_mm = tyre.bead_seat_mm();
    let judged = |is_with: bool| {
        let own = rooms.0.iter().filter(|r| r.bead_seat_mm == bead_mm && r.with_mudguards == is_with);
        Outcome::best(own.map(|r| one_room(tyre, r, beside, of)))
    };
    let outcome = match (judged(false), judged(true)) {
        (None, None) => Outcome::not_stated(TyreReason::WheelNotPublished { bead_mm, published_mm: rooms.wheels() }),
        // With mudguards their own limit counts; without them the tyre may be wider.
        (Some(without), Some(with)) if beside.has_mudguards => {
            if with.fit > Fit::FitsWith && without.fit <= Fit::FitsWith {
                Outcome::fits_with(Extra::WithoutMudguards, TyreReason::TooWideWithMudguards { tyre, of }, Source::Maker)
                    .because_all(with)
            } else {
                with
            }
        }
        (None, Some(with)) if beside.has_mudguards => with,
        (Some(outcome), None) => outcome,
        // What passes with mudguards passes without; what does not is not spoken of.
        (without, Some(with)) => {
            let with = if with.fit > Fit::FitsWith {
                Outcome { fit: Fit::NotPublished, ..with }.because(TyreReason::WithMudguardsOnly)
            } else {
                with
            };
            match without {
                Some(without) if without.fit <= with.fit || without.fit == Fit::DoesNotFit && with.fit > Fit::FitsWith => without,
                _ => with,
            }
        }
    };
    outcome.caution(Caution::TyreGap)
}

/// A front tyre by what is published for the frame alone: nobody said it of the fork, so a yes is a condition and a no is
/// none.
pub(in super::super) fn by_the_frames_clearance(tyre: TyreSize, rooms: &Stated<TyreClearances>, beside: Beside) -> Outcome {
    // What is tied to a drivetrain is so at the rear.
    let rooms = match rooms {
        Stated::Is(rooms) => Stated::Is(TyreClearances(
            rooms.0.iter().map(|r| TyreClearance { with_spacing_mm: None, with_rings: None, ..*r }).collect(),
        )),
        other => other.clone(),
    };
    let of_frame = tyre_clearance(tyre, &rooms, Beside { crank: None, drawn_for: None, ..beside }, ClearanceOf::Frame);
    let outcome = match of_frame.fit {
        Fit::NotPublished | Fit::Borderline => return of_frame,
        Fit::DoesNotFit => Outcome { fit: Fit::NotPublished, source: Source::Maker, ..of_frame },
        Fit::Fits | Fit::FitsWith => Outcome { fit: Fit::FitsWith, ..of_frame.also(Extra::ForkClearanceMeasured) },
    };
    outcome.because(TyreReason::FrameOnly)
}

fn one_room(tyre: TyreSize, room: &TyreClearance, beside: Beside, of: ClearanceOf) -> Outcome {
    let width = tyre.width_mm();
    let built = built_width(tyre, beside.rim_inner_mm);
    let on_rim = |o: Outcome| match beside.rim_inner_mm {
        Some(inner_mm) => o
            .because(TyreReason::BuiltWidth { tyre, inner_mm, built })
            .number("built_width", built.value)
            .number("built_width_u", built.u),
        None => o,
    };
    if let Some(clear) = room.clear_mm {
        return on_rim(clear_room(tyre, built.value, clear, of));
    }
    let widest_mm = room.widest_mm.unwrap_or(0.0);
    let left_mm = (widest_mm - width) / 2.0;
    let numbers = |o: Outcome| on_rim(o).number("widest_tyre", widest_mm).number("room_left_a_side", left_mm);
    if width > widest_mm {
        return numbers(Outcome::does_not_fit(TyreReason::TooWide { tyre, widest_mm, of }, Source::Maker));
    }
    let allowed = TyreReason::Allowed { tyre, widest_mm, of, with_mudguards: room.with_mudguards, left_mm };
    let mut outcome = beside_chain(tyre, room, beside, allowed.clone());
    if let (Some(most), true) = (room.with_rings, outcome.fit <= Fit::FitsWith) {
        let rings = beside.crank.and_then(|c| c.rings);
        outcome = match rings {
            Some(own) if own > most => outcome.both(Outcome::not_stated(TyreReason::PublishedForRings { most, own })),
            Some(_) => outcome,
            None => outcome.both(Outcome::fits_with(Extra::CrankOfRings { most }, allowed, Source::Maker)),
        };
    }
    // On a wide rim a tyre that is allowed by its marking may be wider than the widest that is.
    if built.value > widest_mm + 1.0 && outcome.fit <= Fit::FitsWith {
        outcome = Outcome { fit: Fit::FitsWith, ..outcome.also(Extra::TyreMeasured { most_mm: widest_mm }) };
    }
    numbers(outcome)
}

/// The tyre beside the chain: what the statement is tied to, or what the frame is drawn for, against the crank at hand.
fn beside_chain(tyre: TyreSize, room: &TyreClearance, beside: Beside, allowed: TyreReason) -> Outcome {
    let width = tyre.width_mm();
    let widest_mm = room.widest_mm.unwrap_or(0.0);
    let tied = room.with_spacing_mm.and_then(crank_family);
    let wanted_mm = tied.map(|row| row.chainline_mm).or(beside.drawn_for.map(|d| d.chainline_mm));
    match (wanted_mm, beside.crank) {
        (Some(wanted_mm), Some(crank)) if wanted_mm - crank.chainline_mm > CHAINLINE_PLAY_MM => {
            // Three millimetres of chainline, six of spacing, are six of tyre: the chain comes in on one side alone, and the
            // tyre stands in the middle.
            let a_side_mm = wanted_mm - crank.chainline_mm;
            let after = widest_mm - 2.0 * a_side_mm;
            let reason = TyreReason::CrankMovesChain { crank_mm: crank.chainline_mm, a_side_mm, widest_mm: after };
            let outcome = if width <= after {
                Outcome::fits(allowed, Source::TradePractice)
            } else if tied.is_some() {
                Outcome::does_not_fit(allowed, Source::TradePractice)
            } else {
                Outcome::fits_with(Extra::ChainTried, allowed, Source::TradePractice)
            };
            outcome.because(reason).number("widest_tyre_with_this_crank", after)
        }
        (Some(_), None) if tied.is_some() => {
            let spacing_mm = room.with_spacing_mm.unwrap_or_default();
            Outcome::fits_with(Extra::CrankOfSpacing { spacing_mm }, allowed, Source::Maker)
        }
        _ => Outcome::fits(allowed, Source::Maker),
    }
}

fn clear_room(tyre: TyreSize, width_mm: f64, clear_mm: f64, of: ClearanceOf) -> Outcome {
    let gap_mm = (clear_mm - width_mm) / 2.0;
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

/// Rims against the tyres of the list and the wheels that the frame publishes clearance for.
pub(in super::super) fn rims(rim: Rim, rooms: &Stated<TyreClearances>, tyres: &[TyreSize]) -> Outcome {
    let bead_mm = rim.bead_mm;
    if let Some(tyre) = tyres.iter().copied().find(|t| t.bead_seat_mm() != bead_mm) {
        return Outcome::does_not_fit(
            RimReason::TyreDiffers { tyre, bead_mm },
            Source::Standard("ISO 5775: the second number of the designation is the rim's"),
        );
    }
    let in_frame = match rooms.known(Standard::WidestTyre) {
        Err(why) => Outcome::not_stated(why),
        Ok(rooms) if rooms.wheels().contains(&bead_mm) => Outcome::fits(RimReason::Published { bead_mm }, Source::Maker),
        Ok(rooms) => Outcome::not_stated(RimReason::NotPublished { bead_mm, published_mm: rooms.wheels() }),
    };
    let widths = rim.inner_mm.into_iter().flat_map(|inner_mm| tyres.iter().map(move |tyre| tyre_on_rim(*tyre, inner_mm)));
    widths.fold(in_frame, Outcome::both)
}

/// A tyre on a rim of that inner width.
fn tyre_on_rim(tyre: TyreSize, inner_mm: f64) -> Outcome {
    let made_for_mm = made_for_mm(tyre);
    let width = rim_width(tyre, inner_mm);
    let reason = RimReason::InnerWidth { tyre, inner_mm, made_for_mm, width };
    let outcome = match width {
        RimWidth::Usual => Outcome::fits(reason, RIM_WIDTH_SOURCE),
        RimWidth::Outside => Outcome::borderline(reason, RIM_WIDTH_SOURCE).caution(Caution::TyreOnRim),
        RimWidth::FarOutside => Outcome::does_not_fit(reason, RIM_WIDTH_SOURCE).caution(Caution::TyreOnRim),
    };
    outcome.number("rim_inner_width", inner_mm).number("rim_made_for", made_for_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rooms(text: &str) -> Stated<TyreClearances> {
        Stated::Is(TyreClearances::read(text).unwrap())
    }

    fn with(crank: &str, drawn_for: &str) -> Beside {
        let read = |t: &str| if t.is_empty() { None } else { Some(CrankSpacing::read(t).unwrap()) };
        Beside { crank: read(crank), drawn_for: read(drawn_for), ..Beside::default() }
    }

    fn verdict(tyre: &str, room: &str, beside: Beside) -> Outcome {
        tyre_clearance(tyre.parse().unwrap(), &rooms(room), beside, ClearanceOf::Frame)
    }

    #[test]
    fn the_room_is_that_of_the_wheel() {
        assert_eq!(verdict("50-622", "57-622", Beside::default()).fit, Fit::Fits);
        assert_eq!(verdict("50-622", "57-622", Beside::default()).numbers[1].value, 3.5);
        assert_eq!(verdict("60-622", "57-622", Beside::default()).fit, Fit::DoesNotFit);
        assert_eq!(verdict("60-584", "57-622", Beside::default()).fit, Fit::NotPublished, "silence is never a no");
        assert_eq!(verdict("60-584", "57-622; 64-584", Beside::default()).fit, Fit::Fits);
        let nothing = tyre_clearance("50-622".parse().unwrap(), &Stated::NotPublished, Beside::default(), ClearanceOf::Frame);
        assert_eq!(nothing.fit, Fit::NotPublished);
        assert!(nothing.caution.is_some());
    }

    #[test]
    fn what_is_stated_for_the_frame_is_not_said_of_its_fork() {
        let front = |tyre: &str| {
            by_the_frames_clearance(tyre.parse().unwrap(), &rooms("60-622; 66-584 with spacing 142"), Beside::default())
        };
        let within = front("50-622");
        assert_eq!((within.fit, within.extras.as_slice()), (Fit::FitsWith, [Extra::ForkClearanceMeasured].as_slice()));
        assert_eq!(within.reasons.last(), Some(&TyreReason::FrameOnly.into()));
        assert_eq!(front("70-622").reasons.len(), 2, "what was published, and that it was not of the fork");
        assert_eq!(front("70-622").fit, Fit::NotPublished, "nobody said no");
        assert_eq!(front("65-584").extras, within.extras, "the crank is none of the front tyre's business");
        assert_eq!(front("50-559").fit, Fit::NotPublished);
        assert_eq!(
            by_the_frames_clearance("50-622".parse().unwrap(), &Stated::NotPublished, Beside::default()).fit,
            Fit::NotPublished
        );
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
        let gap = |tyre: &str| verdict(tyre, "clear 62 on 622", Beside::default());
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
        let reason = TyreReason::CrankMovesChain { crank_mm: 49.0, a_side_mm: 3.0, widest_mm: 58.0 };
        assert_eq!((narrow.fit, narrow.reasons.last()), (Fit::Fits, Some(&reason.into())));
    }

    #[test]
    fn rims_fit_the_wheels_that_are_published() {
        let rim = |bead_mm| Rim { bead_mm, inner_mm: None };
        let fit = |bead: f64, tyre: &str| {
            let tyres: Vec<TyreSize> = tyre.parse().ok().into_iter().collect();
            rims(rim(bead), &rooms("60-622; 66-584"), &tyres).fit
        };
        assert_eq!((fit(622.0, ""), fit(584.0, "")), (Fit::Fits, Fit::Fits));
        assert_eq!(fit(559.0, ""), Fit::NotPublished);
        assert_eq!((fit(622.0, "50-622"), fit(622.0, "50-584")), (Fit::Fits, Fit::DoesNotFit));
    }

    #[test]
    fn a_rim_must_suit_the_tyres_on_it() {
        let on = |inner, tyres: &[&str]| {
            let tyres: Vec<TyreSize> = tyres.iter().map(|t| t.parse().unwrap()).collect();
            rims(Rim { bead_mm: 622.0, inner_mm: Some(inner) }, &rooms("70-622"), &tyres)
        };
        assert_eq!((on(13.0, &["57-622"]).fit, on(45.0, &["23-622"]).fit), (Fit::DoesNotFit, Fit::DoesNotFit));
        assert_eq!(on(13.0, &["57-622"]).caution, Some(Caution::TyreOnRim));
        assert_eq!((on(25.0, &["50-622"]).fit, on(19.0, &["57-622"]).fit), (Fit::Fits, Fit::Borderline));
        assert_eq!(on(25.0, &["50-622", "23-622"]).fit, Fit::Borderline, "the worse of both tyres");
    }

    #[test]
    fn mudguards_have_a_limit_of_their_own() {
        let both = "57-622; 50-622 with mudguards";
        let fit = |tyre: &str, room: &str, has_mudguards| verdict(tyre, room, Beside { has_mudguards, ..Beside::default() });
        assert_eq!((fit("55-622", both, false).fit, fit("50-622", both, true).fit), (Fit::Fits, Fit::Fits));
        let wide = fit("55-622", both, true);
        assert_eq!((wide.fit, wide.extras), (Fit::FitsWith, vec![Extra::WithoutMudguards]));
        assert_eq!(fit("60-622", both, true).fit, Fit::DoesNotFit);
        // A limit with mudguards says nothing of a wider tyre without them.
        let only = "50-622 with mudguards";
        assert_eq!(
            [fit("50-622", only, false).fit, fit("55-622", only, false).fit, fit("55-622", only, true).fit],
            [Fit::Fits, Fit::NotPublished, Fit::DoesNotFit]
        );
        assert_eq!(fit("55-622", "57-622", true).fit, Fit::Fits, "the mudguards are judged by themselves");
    }

    #[test]
    fn a_limit_for_one_ring_is_for_one_ring() {
        let fit = |crank: &str| verdict("55-622", "57-622, 1x only", with(crank, "")).fit;
        assert_eq!(
            [fit("142, 1x"), fit("142, 2x"), fit("142"), fit("")],
            [Fit::Fits, Fit::NotPublished, Fit::FitsWith, Fit::FitsWith]
        );
    }

    #[test]
    fn a_tyre_is_as_wide_as_its_rim_makes_it() {
        let on = |inner: f64, room: &str| verdict("50-622", room, Beside { rim_inner_mm: Some(inner), ..Beside::default() });
        // Made for 27.5 mm; 35 mm make it 3 mm wider.
        let wide = on(35.0, "50-622");
        assert_eq!((wide.fit, wide.extras.as_slice()), (Fit::FitsWith, [Extra::TyreMeasured { most_mm: 50.0 }].as_slice()));
        assert!(wide.numbers.iter().any(|n| n.label == "built_width" && (n.value - 53.0).abs() < 1e-9));
        assert_eq!((on(25.0, "50-622").fit, on(35.0, "57-622").fit), (Fit::Fits, Fit::Fits));
        // 62 less 53 is 4.5 a side, less than 6.
        assert_eq!((on(27.5, "clear 62 on 622").fit, on(35.0, "clear 62 on 622").fit), (Fit::Fits, Fit::FitsWith));
    }
}
