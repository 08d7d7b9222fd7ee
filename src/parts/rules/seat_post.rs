//! A seat post in its tube: diameter, shim, the way in for a dropper's cable, and the length that stays inside.

use super::super::extra::Extra;
use super::super::reasons::SeatPostReason;
use super::super::source::Source;
use super::super::standards::{LEAST_INSERTION, PostRouting, SeatPost, least_insertion_mm};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::Standard;
use crate::parts::Stated;

/// From the rails' clamp to the top of the saddle, mm: trade practice, unverified.
const SADDLE_ABOVE_CLAMP_MM: f64 = 50.0;

/// What the rider and the size add: bottom bracket to saddle top, and to the top of the seat tube, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in super::super) struct Heights {
    pub(in super::super) saddle_mm: f64,
    pub(in super::super) seat_tube_mm: f64,
}

/// The verdict on a seat post.
pub(in super::super) fn seat_post(
    own: SeatPost,
    tube: &Stated<SeatPost>,
    routing: &Stated<PostRouting>,
    maker_least_mm: Option<f64>,
    heights: Option<Heights>,
) -> Outcome {
    let tube = match tube.known(Standard::SeatPost) {
        Ok(tube) => tube,
        Err(why) => return Outcome::not_stated(why),
    };
    let (post_mm, tube_mm) = (own.diameter_mm, tube.diameter_mm);
    in_tube(own, tube_mm, routing, maker_least_mm, heights).number("post", post_mm).number("tube", tube_mm)
}

fn in_tube(
    own: SeatPost,
    tube_mm: f64,
    routing: &Stated<PostRouting>,
    maker_least_mm: Option<f64>,
    heights: Option<Heights>,
) -> Outcome {
    let post_mm = own.diameter_mm;
    let thinner = tube_mm - post_mm;
    if thinner < -0.05 {
        return Outcome::does_not_fit(SeatPostReason::TooThick { post_mm, tube_mm }, Source::Maker);
    }
    if own.drop_mm.is_some() && own.is_routed_inside {
        match routing.known(Standard::DropperRouting) {
            Err(why) => return Outcome::not_stated(why),
            Ok(routing) if !routing.is_inside => {
                return Outcome::does_not_fit(SeatPostReason::NoInternalRouting, Source::Maker);
            }
            Ok(_) => {}
        }
    }
    if let Some(outcome) = insertion(own, maker_least_mm, heights) {
        return outcome;
    }
    if thinner <= 0.05 {
        return Outcome::fits(SeatPostReason::Matches { tube_mm }, Source::Maker);
    }
    // A shim has two walls; below 0.2 mm each none is sold, and a post that is 0.2 mm thin is simply the wrong one. Diameters
    // are to a tenth of a millimetre, and 27.2 less 26.8 is not quite 0.4 in binary.
    if thinner < 0.35 {
        return Outcome::does_not_fit(SeatPostReason::TooThin { by_mm: thinner }, Source::TradePractice);
    }
    Outcome::fits_with(
        Extra::PostShim { from_mm: post_mm, to_mm: tube_mm },
        SeatPostReason::Thinner { post_mm, tube_mm },
        Source::TradePractice,
    )
}

/// A post of which too little stays inside; `None` where it is enough, or nobody can tell.
fn insertion(own: SeatPost, maker_least_mm: Option<f64>, heights: Option<Heights>) -> Option<Outcome> {
    let heights = heights?;
    let length = own.length_mm?;
    let own_least = least_insertion_mm(own.diameter_mm);
    let (least_mm, source) = match maker_least_mm {
        Some(maker) if maker > own_least => (maker, Source::Maker),
        _ => (own_least, LEAST_INSERTION),
    };
    let inside_mm = length - (heights.saddle_mm - SADDLE_ABOVE_CLAMP_MM - heights.seat_tube_mm);
    if inside_mm >= least_mm {
        return None;
    }
    let outcome = Outcome::does_not_fit(SeatPostReason::TooShort { inside_mm, least_mm }, source);
    Some(outcome.number("inside", inside_mm).number("least_inside", least_mm).caution(Caution::PostInsertion))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::Fit;

    fn verdict(own: &str, tube: &str, heights: Option<Heights>) -> Outcome {
        let routing = Stated::NotPublished;
        seat_post(SeatPost::read(own).unwrap(), &Stated::Is(SeatPost::read(tube).unwrap()), &routing, None, heights)
    }

    #[test]
    fn diameters_match_or_are_shimmed() {
        assert_eq!(verdict("27.2 x 350", "27.2", None).fit, Fit::Fits);
        assert_eq!(verdict("27.2", "31.6", None).fit, Fit::FitsWith);
        assert_eq!(verdict("31.6", "27.2", None).fit, Fit::DoesNotFit);
        assert_eq!(verdict("27.0", "27.2", None).fit, Fit::DoesNotFit);
        assert_eq!(verdict("30.9 x 400, drops 125, inside", "30.9", None).fit, Fit::NotPublished);
    }

    #[test]
    fn the_least_insertion_is_two_diameters_or_the_makers() {
        // Saddle 750, clamp 50 below, tube 480: 220 mm stand out, so 130 of 350 stay in and 54.4 are asked
        // (ISO 4210-2, 4.16.2; from memory). Of 270 only 50 would stay.
        let heights = Some(Heights { saddle_mm: 750.0, seat_tube_mm: 480.0 });
        assert_eq!(verdict("27.2 x 350", "27.2", heights).fit, Fit::Fits);
        let short = verdict("27.2 x 270", "27.2", heights);
        assert_eq!((short.fit, short.caution), (Fit::DoesNotFit, Some(Caution::PostInsertion)));
        assert!(short.numbers.iter().any(|n| n.label == "inside" && n.value == 50.0));
        let tube = Stated::Is(SeatPost::read("27.2").unwrap());
        let post = SeatPost::read("27.2 x 300").unwrap();
        let maker = seat_post(post, &tube, &Stated::NotPublished, Some(100.0), heights);
        assert_eq!((maker.fit, maker.source), (Fit::DoesNotFit, Source::Maker));
    }

    #[test]
    fn the_cable_of_a_dropper_post_wants_its_way_in() {
        let fit = |post: &str, routing: &str| {
            let routing = PostRouting::read(routing).map_or(Stated::NotPublished, Stated::Is);
            let tube = Stated::Is(SeatPost::read("30.9").unwrap());
            seat_post(SeatPost::read(post).unwrap(), &tube, &routing, None, None).fit
        };
        let (inside, outside) = ("30.9 x 400, drops 125, inside", "30.9 x 400, drops 125");
        assert_eq!((fit(inside, "inside"), fit(inside, "inside and outside")), (Fit::Fits, Fit::Fits));
        assert_eq!((fit(inside, "outside"), fit(inside, "none")), (Fit::DoesNotFit, Fit::DoesNotFit));
        assert_eq!((fit(outside, "none"), fit(outside, "")), (Fit::Fits, Fit::Fits), "its cable runs outside");
        assert_eq!(fit("30.9 x 400, inside", "none"), Fit::Fits, "only a dropper post has a cable");
    }

    #[test]
    fn a_shim_is_not_thinner_than_two_tenths_a_wall() {
        for (post, tube, fit) in [
            ("27.2", "27.2", Fit::Fits),
            ("27.0", "27.2", Fit::DoesNotFit),
            ("31.4", "31.6", Fit::DoesNotFit),
            ("26.8", "27.2", Fit::FitsWith),
            ("30.0", "30.4", Fit::FitsWith),
            ("30.4", "30.9", Fit::FitsWith),
            ("27.2", "27.0", Fit::DoesNotFit),
        ] {
            assert_eq!(verdict(post, tube, None).fit, fit, "{post} in {tube}");
        }
    }
}
