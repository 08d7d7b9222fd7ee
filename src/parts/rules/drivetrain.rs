//! Front derailleur, gear hub and belt.

use super::super::reading::mm;
use super::super::source::Source;
use super::super::standards::{Attachment, CrankSpacing, Dropouts, FrontDerailleur, Tension};
use super::super::verdict::Outcome;
use crate::frameset::Standard;
use crate::parts::{Fit, Stated};

/// How far the cage reaches past the chainline it is made for, mm: trade practice, unverified.
const REACHES_MM: f64 = 2.5;

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
    let outcome = match (own.attachment, place.attachment) {
        (_, Attachment::None) => {
            return Outcome::does_not_fit("The maker says that the frame takes no front derailleur.", Source::Maker);
        }
        (Attachment::None, _) => return Outcome::fits("No front derailleur is wanted.", Source::Arithmetic),
        (Attachment::Clamp(own), Attachment::Clamp(tube)) if (own - tube).abs() < 0.11 => {
            Outcome::fits(format!("Clamp and seat tube are both {}.", mm(tube)), Source::Maker)
        }
        (Attachment::Clamp(own), Attachment::Clamp(tube)) if own > tube => Outcome::fits_with(
            format!("a shim from {} to {}", mm(tube), mm(own)),
            "The clamp is wider than the seat tube.",
            Source::TradePractice,
        ),
        (Attachment::Clamp(own), Attachment::Clamp(tube)) => Outcome::does_not_fit(
            format!("A clamp of {} does not close round a seat tube of {}.", mm(own), mm(tube)),
            Source::Arithmetic,
        ),
        (Attachment::BrazeOn, Attachment::Clamp(tube)) => Outcome::fits_with(
            format!("a band with a tab for a seat tube of {}", mm(tube)),
            "The derailleur is for a brazed-on tab.",
            Source::TradePractice,
        ),
        (Attachment::BrazeOn, Attachment::BrazeOn) => Outcome::fits("The frame has the tab.", Source::Maker),
        (Attachment::Direct, Attachment::Direct) => {
            Outcome::fits("Frame and derailleur are both for direct mount.", Source::Maker)
        }
        (Attachment::Clamp(_), Attachment::BrazeOn) => {
            Outcome::not_stated("The frame has a tab; the seat tube's diameter for a clamp is not stated.")
        }
        _ => Outcome::does_not_fit("Derailleur and frame are held in different ways.", Source::Maker),
    };
    let outcome = match (own.pull, place.pull) {
        (Some(a), Some(b)) if a != b && outcome.fit < Fit::DoesNotFit => Outcome::fits_with(
            "a pulley or stop that turns the cable round",
            format!("The derailleur is {a:?} pull, the frame's stop is for {b:?} pull.").to_lowercase().replacen("the", "The", 1),
            Source::TradePractice,
        ),
        _ => outcome,
    };
    match (own.chainline_mm, crank) {
        (Some(line), Some(crank)) => {
            let off = crank.chainline_mm - line;
            let o = if off.abs() > REACHES_MM && outcome.fit < Fit::NotStated {
                Outcome::does_not_fit(
                    format!(
                        "It is made for a chainline of {}, the crank's is {}: {} out of its reach.",
                        mm(line),
                        mm(crank.chainline_mm),
                        mm(off.abs())
                    ),
                    Source::TradePractice,
                )
            } else {
                outcome
            };
            o.number("chainline_offset", off)
        }
        _ => outcome,
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
    let own = match dropouts.tension {
        Tension::None => Outcome::fits_with(
            "a chain tensioner, and an arm that takes the hub's torque",
            "Vertical dropouts do not tension a chain.",
            Source::TradePractice,
        ),
        _ if dropouts.is_for_gear_hub => Outcome::fits("The maker sells the dropouts for a gear hub.", Source::Maker),
        _ => Outcome::fits_with(
            "an arm or washer that takes the hub's torque",
            "The chain is tensioned at the frame; a gear hub is not stated.",
            Source::TradePractice,
        ),
    };
    let numbers = spacing.numbers.clone();
    let worse = if spacing.fit > own.fit { spacing } else { own };
    Outcome { numbers, ..worse }
}

/// The verdict on a belt.
pub(in super::super) fn belt(dropouts: &Stated<Dropouts>) -> Outcome {
    let dropouts = match dropouts.known(Standard::Dropouts) {
        Ok(dropouts) => dropouts,
        Err(why) => return Outcome::not_stated(why),
    };
    if dropouts.opens_for_belt {
        return Outcome::fits("The maker sells the frame for a belt.", Source::Maker);
    }
    if dropouts.tension == Tension::None {
        return Outcome::does_not_fit("Vertical dropouts do not tension a belt.", Source::TradePractice);
    }
    Outcome::not_stated("The belt could be tensioned; whether the frame opens for one is not stated.")
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
        assert_eq!(verdict("28.6 clamp, chainline 43.5", "28.6 clamp", Some("148")), Fit::DoesNotFit);
        assert_eq!(verdict("28.6 clamp, chainline 50", "28.6 clamp", Some("148")), Fit::Fits);
        let silent = front_derailleur(FrontDerailleur::read("28.6 clamp").unwrap(), &Stated::NotStated, None);
        assert_eq!(silent.fit, Fit::NotStated);
    }

    #[test]
    fn gear_hubs_and_belts_want_tension() {
        let dropouts = |text: &str| Stated::Is(Dropouts::read(text).unwrap());
        let spacing = || Outcome::fits("Hub and dropouts agree.", Source::Maker);
        assert_eq!(gear_hub(spacing(), &dropouts("sliding, gear hub and belt")).fit, Fit::Fits);
        assert_eq!(gear_hub(spacing(), &dropouts("vertical")).fit, Fit::FitsWith);
        assert_eq!(gear_hub(spacing(), &Stated::NotStated).fit, Fit::NotStated);
        assert_eq!(belt(&dropouts("sliding, gear hub and belt")).fit, Fit::Fits);
        assert_eq!(belt(&dropouts("vertical")).fit, Fit::DoesNotFit);
        assert_eq!(belt(&dropouts("horizontal")).fit, Fit::NotStated);
    }
}
