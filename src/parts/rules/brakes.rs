//! Calipers on mounts, and rotors within what the maker allows.

use super::super::reading::mm;
use super::super::source::Source;
use super::super::standards::{Mount, MountKind};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::Standard;
use crate::parts::Stated;

/// The verdict on a caliper.
pub(in super::super) fn caliper(own: Mount, place: &Stated<Mount>, standard: Standard) -> Outcome {
    use MountKind as K;
    let place = match place.known(standard) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why),
    };
    let pair = |with: &str, source| {
        let bolts = |kind: K| kind.bolts_mm().map(|b| format!(" ({} between bolts)", mm(b.0))).unwrap_or_default();
        let reason = format!(
            "The caliper is {}{}, the mount {}{}.",
            own.kind.words(),
            bolts(own.kind),
            place.kind.words(),
            bolts(place.kind)
        );
        if with.is_empty() { Outcome::does_not_fit(reason, source) } else { Outcome::fits_with(with, reason, source) }
    };
    match (own.kind, place.kind) {
        (a, b) if a == b => Outcome::fits(format!("Caliper and mount are both {}.", a.words()), Source::Maker),
        (K::Post, K::International) => pair("an adapter from IS to post mount for the rotor's size", Source::TradePractice),
        (K::Flat, K::Post) => pair("an adapter from post mount to flat mount", Source::TradePractice),
        (K::Post, K::Flat) => {
            pair("an adapter from flat mount to post mount, if the frame's maker allows one", Source::TradePractice)
        }
        (K::Flat, K::International) => pair("two adapters on one another, which few makers allow", Source::TradePractice),
        _ => pair("", Source::TradePractice),
    }
}

/// The verdict on a rotor, mm.
pub(in super::super) fn rotor(own_mm: f64, place: &Stated<Mount>, standard: Standard) -> Outcome {
    let place = match place.known(standard) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why).caution(Caution::Rotor),
    };
    if !place.kind.is_disc() {
        return Outcome::does_not_fit(format!("The frame has {}, no mount for a disc.", place.kind.words()), Source::Maker);
    }
    let numbers = |o: Outcome| {
        let o = o.number("rotor", own_mm);
        let o = if let Some(native) = place.native_mm { o.number("rotor_without_adapter", native) } else { o };
        let o = if let Some(most) = place.most_mm { o.number("largest_rotor", most) } else { o };
        o.caution(Caution::Rotor)
    };
    if let Some(most) = place.most_mm
        && own_mm > most + 0.5
    {
        return numbers(Outcome::does_not_fit(format!("The maker allows rotors up to {}.", mm(most)), Source::Maker));
    }
    match place.native_mm {
        Some(native) if own_mm < native - 0.5 => numbers(Outcome::does_not_fit(
            format!("The mount begins at {}: a smaller rotor is not reached.", mm(native)),
            Source::Arithmetic,
        )),
        Some(native) if (own_mm - native).abs() <= 0.5 => {
            numbers(Outcome::fits(format!("The mount is made for {}.", mm(native)), Source::Maker))
        }
        Some(native) if place.most_mm.is_some() => numbers(Outcome::fits_with(
            format!("an adapter of +{} mm", (own_mm - native).round()),
            format!("The mount is made for {} and the maker allows this rotor.", mm(native)),
            Source::Maker,
        )),
        Some(native) => {
            numbers(Outcome::not_stated(format!("The mount is made for {}; how large a rotor may be is not stated.", mm(native))))
        }
        None if place.most_mm.is_some() => numbers(Outcome::fits_with(
            "the adapter that the mount asks for",
            "The maker allows this rotor; the size without adapter is not stated.",
            Source::Maker,
        )),
        None => numbers(Outcome::not_stated("The maker states no rotor size.")),
    }
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
        assert_eq!(caliper(Mount::read("post").unwrap(), &Stated::NotStated, Standard::RearBrake).fit, Fit::NotStated);
    }

    #[test]
    fn rotors_stay_within_what_the_maker_allows() {
        let verdict = |own: f64, at: &str| rotor(own, &place(at), Standard::RearBrake);
        assert_eq!(verdict(160.0, "IS 160-180").fit, Fit::Fits);
        assert_eq!(verdict(180.0, "IS 160-180").fit, Fit::FitsWith);
        assert_eq!(verdict(203.0, "IS 160-180").fit, Fit::DoesNotFit);
        assert_eq!(verdict(160.0, "post mount 180").fit, Fit::DoesNotFit);
        let silent = verdict(180.0, "flat mount 160");
        assert_eq!((silent.fit, silent.caution), (Fit::NotStated, Some(Caution::Rotor)));
    }
}
