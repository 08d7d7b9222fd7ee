//! Front derailleur, gear hub and belt.

use super::super::extra::Extra;
use super::super::reasons::{DerailleurReason, DropoutReason};
use super::super::source::Source;
use super::super::standards::{Attachment, CrankSpacing, Dropouts, FrontDerailleur, Pull, Tension, crank_family};
use super::super::verdict::Outcome;
use crate::frameset::Standard;
use crate::parts::{Fit, Stated};

/// How far the cage reaches past the chainline it is made for, mm: trade practice, unverified.
const REACHES_MM: f64 = 2.5;
/// How far out an adapter moves a derailleur that is bolted on, at most, mm: trade practice, unverified, from memory.
const OFFSET_MOST_MM: f64 = 18.0;

/// The verdict on a front derailleur, with the crank of the list.
pub(in super::super) fn front_derailleur(
    own: FrontDerailleur,
    place: &Stated<FrontDerailleur>,
    crank: Option<CrankSpacing>,
) -> Outcome {
    let place = match place.known(Standard::FrontDerailleur) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why),
    };
    if place.attachment == Attachment::None {
        return Outcome::does_not_fit(DerailleurReason::FrameTakesNone, Source::Maker);
    }
    if own.attachment == Attachment::None {
        return Outcome::fits(DerailleurReason::NoneWanted, Source::Arithmetic);
    }
    let held = attachment(own.attachment, place.attachment);
    let pulled = match (own.pull, place.pull) {
        // It has its own stop, to which the housing runs in one piece.
        (Some(Pull::Front), frame) if frame.is_some_and(|f| f != Pull::Front) => {
            held.both(Outcome::fits_with(Extra::FullHousing, DerailleurReason::OwnStop, Source::TradePractice))
        }
        (Some(own), _) if own != Pull::Front && place.lacks_stop => {
            held.both(Outcome::fits_with(Extra::HousingStop, DerailleurReason::NoHousingStop { own }, Source::TradePractice))
        }
        (Some(own), Some(frame)) if own != frame => {
            held.both(Outcome::fits_with(Extra::CablePulley, DerailleurReason::PullsDiffer { own, frame }, Source::TradePractice))
        }
        _ => held,
    };
    match own.chainline_mm.zip(crank) {
        Some((own_mm, crank)) => {
            let off = crank.chainline_mm - own_mm;
            let lined = over_the_rings(&own, own_mm, &crank);
            lined.map_or(pulled.clone(), |lined| pulled.both(lined)).number("chainline_offset", off)
        }
        None => pulled,
    }
}

/// The cage over the crank's chainline; `None` where it reaches. A crank that states no chainline has one of those that
/// cranks for its hub are sold with.
fn over_the_rings(own: &FrontDerailleur, own_mm: f64, crank: &CrankSpacing) -> Option<Outcome> {
    let crank_mm = crank.chainline_mm;
    let sold = crank_family(crank.spacing_mm).filter(|_| !crank.is_chainline_stated);
    let (least_mm, most_mm) = sold.map_or((crank_mm, crank_mm), |f| f.sold_mm);
    let reaches = |mm: f64| (mm - own_mm).abs() <= REACHES_MM;
    if reaches(least_mm) && reaches(most_mm) {
        return None;
    }
    if most_mm >= own_mm - REACHES_MM && least_mm <= own_mm + REACHES_MM {
        return Some(Outcome::not_stated(DerailleurReason::CrankLineUnknown { own_mm, least_mm, most_mm }));
    }
    let by_mm = crank_mm - own_mm;
    // An adapter stands between tab or bolts and the derailleur, and moves it out; a band cannot be moved.
    let is_bolted = matches!(own.attachment, Attachment::BrazeOn | Attachment::Direct);
    Some(if is_bolted && by_mm > 0.0 && by_mm <= OFFSET_MOST_MM {
        let reason = DerailleurReason::ChainlinesDiffer { own_mm, crank_mm };
        Outcome::fits_with(Extra::OffsetAdapter { by_mm }, reason, Source::TradePractice)
    } else {
        Outcome::does_not_fit(DerailleurReason::OutOfReach { own_mm, crank_mm }, Source::TradePractice)
    })
}

/// How it is held; neither is [`Attachment::None`].
fn attachment(own: Attachment, frame: Attachment) -> Outcome {
    match (own, frame) {
        (Attachment::Clamp(own_mm), Attachment::Clamp(tube_mm)) if (own_mm - tube_mm).abs() < 0.11 => {
            Outcome::fits(DerailleurReason::ClampMatches { tube_mm }, Source::Maker)
        }
        (Attachment::Clamp(own_mm), Attachment::Clamp(tube_mm)) if own_mm > tube_mm => Outcome::fits_with(
            Extra::ClampShim { from_mm: tube_mm, to_mm: own_mm },
            DerailleurReason::ClampWider { own_mm, tube_mm },
            Source::TradePractice,
        ),
        (Attachment::Clamp(own_mm), Attachment::Clamp(tube_mm)) => {
            Outcome::does_not_fit(DerailleurReason::ClampNarrower { own_mm, tube_mm }, Source::Arithmetic)
        }
        (Attachment::BrazeOn, Attachment::Clamp(tube_mm)) => {
            Outcome::fits_with(Extra::BandWithTab { tube_mm }, DerailleurReason::NeedsTab, Source::TradePractice)
        }
        (Attachment::BrazeOn, Attachment::BrazeOn) => Outcome::fits(DerailleurReason::TabMatches, Source::Maker),
        (Attachment::Direct, Attachment::Direct) => Outcome::fits(DerailleurReason::DirectMatches, Source::Maker),
        (Attachment::Clamp(_), Attachment::BrazeOn) => Outcome::not_stated(DerailleurReason::TubeUnknown),
        _ => Outcome::does_not_fit(DerailleurReason::HeldDifferently, Source::Maker),
    }
}

/// The verdict on a gear hub, beside that on its spacing.
pub(in super::super) fn gear_hub(spacing: Outcome, dropouts: &Stated<Dropouts>) -> Outcome {
    if spacing.fit == Fit::DoesNotFit {
        return spacing;
    }
    let dropouts = match dropouts.known(Standard::Dropouts) {
        Ok(dropouts) => dropouts,
        Err(why) => return Outcome::not_stated(why),
    };
    spacing.both(match dropouts.tension {
        Tension::None => Outcome::fits_with(Extra::ChainTensioner, DropoutReason::ChainNotTensioned, Source::TradePractice)
            .also(Extra::TorqueArm),
        _ if dropouts.is_for_gear_hub => Outcome::fits(DropoutReason::SoldForGearHub, Source::Maker),
        _ => Outcome::fits_with(Extra::TorqueArm, DropoutReason::GearHubNotPublished, Source::TradePractice),
    })
}

/// The verdict on a belt.
pub(in super::super) fn belt(dropouts: &Stated<Dropouts>) -> Outcome {
    let dropouts = match dropouts.known(Standard::Dropouts) {
        Ok(dropouts) => dropouts,
        Err(why) => return Outcome::not_stated(why),
    };
    if dropouts.opens_for_belt {
        Outcome::fits(DropoutReason::SoldForBelt, Source::Maker)
    } else if dropouts.tension == Tension::None {
        Outcome::does_not_fit(DropoutReason::BeltNotTensioned, Source::TradePractice)
    } else {
        Outcome::not_stated(DropoutReason::BeltOpeningUnknown)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn verdict(own: &str, place: &str, crank: Option<&str>) -> Fit {
        let crank = crank.map(|c| CrankSpacing::read(c).unwrap());
        front_derailleur(FrontDerailleur::read(own).unwrap(), &Stated::Is(FrontDerailleur::read(place).unwrap()), crank).fit
    }

    #[test]
    fn derailleurs_are_held_pulled_and_reach() {
        assert_eq!(verdict("28.6 clamp", "28.6 clamp", None), Fit::Fits);
        assert_eq!(verdict("34.9 clamp", "28.6 clamp", None), Fit::FitsWith);
        assert_eq!(verdict("28.6 clamp", "34.9 clamp", None), Fit::DoesNotFit);
        assert_eq!(verdict("braze-on", "31.8 clamp", None), Fit::FitsWith);
        assert_eq!(verdict("28.6 clamp", "none", None), Fit::DoesNotFit);
        assert_eq!(verdict("28.6 clamp, top pull", "28.6 clamp, bottom pull", None), Fit::FitsWith);
        let unknown = FrontDerailleur::read("28.6 clamp, top pull").unwrap();
        let tab = Stated::Is(FrontDerailleur::read("braze-on, bottom pull").unwrap());
        assert_eq!(front_derailleur(unknown, &tab, None).fit, Fit::NotPublished, "a pulley does not settle the clamp");
        assert_eq!(verdict("28.6 clamp, chainline 43.5", "28.6 clamp", Some("148")), Fit::DoesNotFit);
        assert_eq!(verdict("28.6 clamp, chainline 50", "28.6 clamp", Some("148, chainline 52")), Fit::Fits);
        assert_eq!(verdict("28.6 clamp, front pull", "28.6 clamp, bottom pull", None), Fit::FitsWith, "its own stop");
        assert_eq!(verdict("28.6 clamp, front pull", "28.6 clamp, no housing stop", None), Fit::Fits);
        assert_eq!(verdict("28.6 clamp, top pull", "28.6 clamp, no housing stop", None), Fit::FitsWith, "needs a stop");
        let silent = front_derailleur(FrontDerailleur::read("28.6 clamp").unwrap(), &Stated::NotPublished, None);
        assert_eq!(silent.fit, Fit::NotPublished);
    }

    #[test]
    fn a_bolted_derailleur_is_moved_out_to_the_rings() {
        let on = |own: &str, place: &str, crank: &str| {
            let crank = Some(CrankSpacing::read(crank).unwrap());
            front_derailleur(FrontDerailleur::read(own).unwrap(), &Stated::Is(FrontDerailleur::read(place).unwrap()), crank)
        };
        let moved = on("braze-on, chainline 43.5", "34.9 clamp", "2x, chainline 47");
        let both = [Extra::BandWithTab { tube_mm: 34.9 }, Extra::OffsetAdapter { by_mm: 3.5 }];
        assert_eq!((moved.fit, moved.extras.as_slice()), (Fit::FitsWith, &both[..]));
        assert_eq!(on("direct mount, chainline 48", "direct mount", "2x, chainline 66").fit, Fit::FitsWith);
        // Further than any adapter, further in, or held by a band: out of reach.
        for (own, place, crank) in [
            ("direct mount, chainline 47.9", "direct mount", "2x, chainline 66"),
            ("braze-on, chainline 50", "braze-on", "2x, chainline 43.5"),
            ("34.9 clamp, chainline 43.5", "34.9 clamp", "2x, chainline 47"),
        ] {
            assert_eq!(on(own, place, crank).fit, Fit::DoesNotFit, "{own}");
        }
        assert_eq!(on("34.9 clamp, chainline 43.5", "34.9 clamp", "2x, chainline 46").fit, Fit::Fits);
    }

    #[test]
    fn a_crank_that_states_no_chainline_is_judged_by_all_that_are_sold() {
        // For 142 cranks are sold with 43 to 50.5 mm.
        assert_eq!(verdict("28.6 clamp, chainline 45", "28.6 clamp", Some("142")), Fit::NotPublished);
        assert_eq!(verdict("28.6 clamp, chainline 40", "28.6 clamp", Some("142")), Fit::DoesNotFit);
        assert_eq!(verdict("28.6 clamp, chainline 44.5", "28.6 clamp", Some("130")), Fit::Fits);
    }

    #[test]
    fn gear_hubs_and_belts_want_tension() {
        let dropouts = |text: &str| Stated::Is(Dropouts::read(text).unwrap());
        let spacing = || Outcome::fits(DropoutReason::SoldForGearHub, Source::Maker);
        assert_eq!(gear_hub(spacing(), &dropouts("sliding, gear hub and belt")).fit, Fit::Fits);
        assert_eq!(gear_hub(spacing(), &dropouts("vertical")).fit, Fit::FitsWith);
        assert_eq!(gear_hub(spacing(), &Stated::NotPublished).fit, Fit::NotPublished);
        let shimmed = Outcome::fits_with(Extra::MountsOwnAdapter, DropoutReason::SoldForGearHub, Source::Maker);
        let extras = gear_hub(shimmed, &dropouts("vertical")).extras;
        assert_eq!(extras, [Extra::MountsOwnAdapter, Extra::ChainTensioner, Extra::TorqueArm], "none of both is lost");
        assert_eq!(belt(&dropouts("sliding, gear hub and belt")).fit, Fit::Fits);
        assert_eq!(belt(&dropouts("vertical")).fit, Fit::DoesNotFit);
        assert_eq!(belt(&dropouts("horizontal")).fit, Fit::NotPublished);
    }
}
