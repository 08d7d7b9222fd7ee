//! Calipers on mounts, and rotors within what the maker allows.

use super::super::extra::Extra;
use super::super::reasons::{BrakeReason, RotorReason};
use super::super::source::Source;
use super::super::standards::{Mount, MountKind};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::Standard;
use crate::parts::Stated;

/// The verdict on a caliper.
pub(in super::super) fn caliper(own: Mount, place: &Stated<Mount>, standard: Standard) -> Outcome {
    use MountKind as K;
    let mount = match place.known(standard) {
        Ok(place) => place.kind,
        Err(why) => return Outcome::not_stated(why),
    };
    let own = own.kind;
    if own == mount {
        return Outcome::fits(BrakeReason::Matches(mount), Source::Maker);
    }
    let reason = BrakeReason::KindsDiffer { own, mount };
    let extra = match (own, mount) {
        (K::Post, K::International | K::Flat) | (K::Flat, K::Post) => Extra::BrakeAdapter { from: mount, to: own },
        (K::Flat, K::International) => Extra::StackedBrakeAdapters,
        _ => return Outcome::does_not_fit(reason, Source::TradePractice),
    };
    Outcome::fits_with(extra, reason, Source::TradePractice)
}

/// The verdict on a rotor, mm.
pub(in super::super) fn rotor(own_mm: f64, place: &Stated<Mount>, standard: Standard) -> Outcome {
    let place = match place.known(standard) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why).caution(Caution::Rotor),
    };
    if !place.kind.is_disc() {
        return Outcome::does_not_fit(RotorReason::NoDiscMount(place.kind), Source::Maker);
    }
    let outcome = match (place.native_mm, place.most_mm) {
        (_, Some(most_mm)) if own_mm > most_mm + 0.5 => Outcome::does_not_fit(RotorReason::TooLarge { most_mm }, Source::Maker),
        (Some(native_mm), _) if own_mm < native_mm - 0.5 => {
            Outcome::does_not_fit(RotorReason::TooSmall { native_mm }, Source::Arithmetic)
        }
        (Some(native_mm), _) if (own_mm - native_mm).abs() <= 0.5 => {
            Outcome::fits(RotorReason::MadeForIt { native_mm }, Source::Maker)
        }
        (Some(native_mm), Some(_)) => Outcome::fits_with(
            Extra::RotorAdapter { more_mm: (own_mm - native_mm).round() },
            RotorReason::Allowed { native_mm: Some(native_mm) },
            Source::Maker,
        ),
        (Some(native_mm), None) => Outcome::not_stated(RotorReason::LargestUnknown { native_mm }),
        (None, Some(_)) => Outcome::fits_with(Extra::MountsOwnAdapter, RotorReason::Allowed { native_mm: None }, Source::Maker),
        (None, None) => Outcome::not_stated(RotorReason::NoSizePublished),
    };
    let mut outcome = outcome.number("rotor", own_mm);
    for (label, value) in [("rotor_without_adapter", place.native_mm), ("largest_rotor", place.most_mm)] {
        if let Some(value) = value {
            outcome = outcome.number(label, value);
        }
    }
    outcome.caution(Caution::Rotor)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::Fit;

    fn place(text: &str) -> Stated<Mount> {
        Stated::Is(Mount::read(text).unwrap())
    }

    #[test]
    fn calipers_go_straight_on_or_with_an_adapter() {
        let verdict = |own: &str, at: &str| caliper(Mount::read(own).unwrap(), &place(at), Standard::RearBrake).fit;
        assert_eq!(verdict("flat mount", "flat mount 160"), Fit::Fits);
        assert_eq!(verdict("post mount", "IS 160-180"), Fit::FitsWith);
        assert_eq!(verdict("IS", "post mount 160"), Fit::DoesNotFit);
        assert_eq!(verdict("rim bosses", "flat mount 160"), Fit::DoesNotFit);
        assert_eq!(caliper(Mount::read("post").unwrap(), &Stated::NotPublished, Standard::RearBrake).fit, Fit::NotPublished);
    }

    #[test]
    fn rotors_stay_within_what_the_maker_allows() {
        let verdict = |own: f64, at: &str| rotor(own, &place(at), Standard::RearBrake);
        assert_eq!(verdict(160.0, "IS 160-180").fit, Fit::Fits);
        assert_eq!(verdict(180.0, "IS 160-180").fit, Fit::FitsWith);
        assert_eq!(verdict(203.0, "IS 160-180").fit, Fit::DoesNotFit);
        assert_eq!(verdict(160.0, "post mount 180").fit, Fit::DoesNotFit);
        let silent = verdict(180.0, "flat mount 160");
        assert_eq!((silent.fit, silent.caution), (Fit::NotPublished, Some(Caution::Rotor)));
    }

    #[test]
    fn a_larger_rotor_wants_an_adapter_for_the_difference() {
        let outcome = rotor(203.0, &place("post mount 160, at most 203"), Standard::RearBrake);
        assert_eq!((outcome.fit, outcome.extras), (Fit::FitsWith, vec![Extra::RotorAdapter { more_mm: 43.0 }]));
        // The mount's own rotor is not published: an adapter, nobody knows which.
        let outcome = rotor(180.0, &place("post mount, at most 203"), Standard::RearBrake);
        assert_eq!(outcome.extras, [Extra::MountsOwnAdapter]);
        assert_eq!(rotor(160.0, &place("rim bosses"), Standard::RearBrake).fit, Fit::DoesNotFit);
    }
}
