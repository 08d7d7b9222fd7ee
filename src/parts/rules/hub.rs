//! A hub between dropouts: exact, within what the maker sells the frame for, or only in cold-set steel.

use super::super::extra::Extra;
use super::super::reasons::HubReason;
use super::super::source::Source;
use super::super::standards::{Axle, GROOVE_MM, Hub, Wheel};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::{Material, Standard};
use crate::parts::{Fit, Stated};

/// Most by which steel is cold-set, both sides together, mm: 130 hubs in 135 dropouts and back. Trade practice, unverified.
const MOST_COLD_SET_MM: f64 = 5.0;

/// Two spacings are one when they differ by less than this, mm.
const SAME_MM: f64 = 0.5;

/// The verdict on a hub with its exchangeable ends, in dropouts of `material`.
pub(in super::super) fn hub(ends: &[Hub], place: &Stated<Hub>, standard: Standard, material: Option<Material>) -> Outcome {
    let place = match place.known(standard) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why),
    };
    let wheel = if standard == Standard::FrontHub { Wheel::Front } else { Wheel::Rear };
    let ways = ends.iter().map(|end| one_end(end, place, wheel, material));
    let best = Outcome::best(ways).unwrap_or_else(|| Outcome::not_stated(HubReason::NoSpacing));
    if ends.len() > 1 && best.fit == Fit::Fits {
        return best.because(HubReason::OtherEndsUnused);
    }
    best
}

fn one_end(hub: &Hub, place: &Hub, wheel: Wheel, material: Option<Material>) -> Outcome {
    let difference = hub.spacing_mm - place.spacing_mm;
    let a_side_mm = difference.abs() / 2.0;
    let numbers = |o: Outcome| {
        o.number("hub_spacing", hub.spacing_mm).number("dropout_spacing", place.spacing_mm).number("a_side", a_side_mm)
    };
    let is_in_range = place.takes_mm.filter(|(least, most)| (least - SAME_MM..=most + SAME_MM).contains(&hub.spacing_mm));
    let is_open = hub.axle.is_none() || place.axle.is_none();
    if is_open && difference.abs() >= SAME_MM && is_in_range.is_none() {
        let differ = HubReason::SpacingsDiffer { by_mm: difference };
        return numbers(if may_fit(hub, place, wheel, material) {
            Outcome::not_stated(differ).because(HubReason::DependsOnAxle { is_hubs: hub.axle.is_none() })
        } else {
            Outcome::does_not_fit(differ, Source::Arithmetic)
        });
    }
    match (hub.axle, place.axle) {
        (Some(own), Some(wanted)) if own.is_slotted() != wanted.is_slotted() => {
            return numbers(other_ends(hub, place, wheel, own, wanted));
        }
        (Some(Axle::Through(Some(own_mm))), Some(Axle::Through(Some(wanted_mm)))) if (own_mm - wanted_mm).abs() > 0.1 => {
            return numbers(if own_mm > wanted_mm && difference.abs() < SAME_MM {
                Outcome::fits_with(
                    Extra::AxleAdapter { from_mm: own_mm, to_mm: wanted_mm },
                    HubReason::ThickerAxle { spacing_mm: hub.spacing_mm },
                    Source::TradePractice,
                )
            } else if difference.abs() < SAME_MM && wheel == Wheel::Front && own_mm >= 12.0 && wanted_mm <= 15.0 {
                // Front hubs of 100 mm are made with ends for 12 and for 15 mm.
                Outcome::fits_with(
                    Extra::EndCaps { spacing_mm: place.spacing_mm, axle: Axle::Through(Some(wanted_mm)) },
                    HubReason::AxlesDiffer { own_mm, wanted_mm },
                    Source::TradePractice,
                )
            } else {
                Outcome::does_not_fit(HubReason::AxlesDiffer { own_mm, wanted_mm }, Source::Arithmetic)
            });
        }
        (None | Some(Axle::Through(None)), _) | (_, None | Some(Axle::Through(None))) if difference.abs() < SAME_MM => {
            let is_hubs = matches!(hub.axle, None | Some(Axle::Through(None)));
            let reason = if hub.axle.is_some() && place.axle.is_some() {
                HubReason::DiameterUnknown { spacing_mm: hub.spacing_mm, is_hubs }
            } else {
                HubReason::AxleUnknown { spacing_mm: hub.spacing_mm, is_hubs: hub.axle.is_none() }
            };
            return numbers(Outcome::not_stated(reason));
        }
        _ => {}
    }
    if difference.abs() < SAME_MM {
        return numbers(Outcome::fits(HubReason::Matches(*place), Source::Maker));
    }
    if let Some((least_mm, most_mm)) = is_in_range {
        let reason = HubReason::WithinRange { spacing_mm: place.spacing_mm, least_mm, most_mm, a_side_mm };
        return numbers(Outcome::fits(reason, Source::Maker));
    }
    let differ = HubReason::SpacingsDiffer { by_mm: difference };
    let is_slotted = place.axle.is_none_or(Axle::is_slotted);
    if !is_slotted {
        return numbers(Outcome::does_not_fit(differ, Source::TradePractice).because(HubReason::ClosedDropouts));
    }
    let outcome = match material {
        Some(Material::Steel) if difference.abs() <= MOST_COLD_SET_MM => Outcome::fits_with(
            Extra::ColdSet { end: wheel, a_side_mm, is_spread: difference > 0.0 },
            differ,
            Source::TradePractice,
        ),
        Some(Material::Steel) => Outcome::does_not_fit(differ, Source::TradePractice)
            .because(HubReason::TooMuchToColdSet { most_a_side_mm: MOST_COLD_SET_MM / 2.0 }),
        Some(other) => Outcome::does_not_fit(differ, Source::TradePractice).because(HubReason::NeverColdSet(other)),
        None => Outcome::not_stated(differ).because(HubReason::MaterialUnknown),
    };
    numbers(outcome.caution(Caution::ColdSetting))
}

/// Whether a hub in dropouts of another spacing may fit, with one kind of axle where hub or dropouts do not say which.
fn may_fit(hub: &Hub, place: &Hub, wheel: Wheel, material: Option<Material>) -> bool {
    let axles = |own: Option<Axle>| own.map_or_else(|| vec![Axle::QuickRelease, Axle::Through(None)], |axle| vec![axle]);
    let with = |hub: &Hub, axle| Hub { axle: Some(axle), ..*hub };
    let mut ways = axles(hub.axle).into_iter().flat_map(|own| axles(place.axle).into_iter().map(move |wanted| (own, wanted)));
    let fits = |(own, wanted)| one_end(&with(hub, own), &with(place, wanted), wheel, material).fit != Fit::DoesNotFit;
    ways.any(fits)
}

/// A hub for slots in closed dropouts, or the other way round: with other ends, where its flanges would then lie right.
fn other_ends(hub: &Hub, place: &Hub, wheel: Wheel, own: Axle, wanted: Axle) -> Outcome {
    let (closed_mm, slotted_mm) =
        if own.is_slotted() { (place.spacing_mm, hub.spacing_mm) } else { (hub.spacing_mm, place.spacing_mm) };
    let wider_mm = closed_mm - slotted_mm;
    let is_same_place = wider_mm.abs() < SAME_MM || (wheel == Wheel::Rear && (wider_mm - 2.0 * GROOVE_MM).abs() < SAME_MM);
    // A solid axle is no hub with ends.
    let is_convertible = is_same_place && own != Axle::Nutted;
    let reason = HubReason::AxleNotHeld { own, wanted, is_convertible };
    if is_convertible {
        Outcome::fits_with(Extra::EndCaps { spacing_mm: place.spacing_mm, axle: wanted }, reason, Source::TradePractice)
    } else {
        Outcome::does_not_fit(reason, Source::Arithmetic)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn verdict(ends: &str, place: &str, material: Material) -> Outcome {
        hub(&Hub::read_all(ends).unwrap(), &Stated::Is(Hub::read(place).unwrap()), Standard::RearHub, Some(material))
    }

    #[test]
    fn a_spacing_between_two_hubs_takes_both() {
        // 132.5 mm dropouts lie between 130 and 135.
        let place = "132.5 x 10 quick release, takes 130 to 135";
        for (hub, a_side) in [("130 x 10 quick release", 1.25), ("135 x 10 quick release", 1.25)] {
            let outcome = verdict(hub, place, Material::Steel);
            assert_eq!((outcome.fit, outcome.numbers[2].value), (Fit::Fits, a_side), "{hub}");
            assert_eq!(outcome.source, Source::Maker);
        }
        assert_eq!(verdict("141 x 10 quick release", place, Material::Steel).fit, Fit::DoesNotFit);
        // Without the maker's word it is cold-setting, and never of aluminium or carbon.
        let silent = "132.5 x 10 quick release";
        let cold_set = verdict("135 x 10 quick release", silent, Material::Steel);
        assert_eq!((cold_set.fit, cold_set.caution), (Fit::FitsWith, Some(Caution::ColdSetting)));
        assert_eq!(cold_set.extras, [Extra::ColdSet { end: Wheel::Rear, a_side_mm: 1.25, is_spread: true }]);
        for material in [Material::Aluminium, Material::Carbon, Material::Titanium] {
            assert_eq!(verdict("135 x 10 quick release", silent, material).fit, Fit::DoesNotFit, "{material:?}");
        }
    }

    #[test]
    fn axles_that_are_not_held_do_not_fit() {
        // 142 = 135 + 2 × 3.5: the flanges lie in the same place, the axle is not held all the same.
        let outcome = verdict("135 x 10 quick release", "142 x 12 through axle", Material::Steel);
        let wanted = Axle::Through(Some(12.0));
        assert_eq!((outcome.fit, outcome.extras), (Fit::FitsWith, vec![Extra::EndCaps { spacing_mm: 142.0, axle: wanted }]));
        let reason = HubReason::AxleNotHeld { own: Axle::QuickRelease, wanted, is_convertible: true };
        assert_eq!(outcome.reasons, [reason.into()]);
        for (hub, place) in [
            ("135 nutted", "142 x 12 through axle"),
            ("130 x 10 quick release", "142 x 12 through axle"),
            ("142 x 10 quick release", "135 x 12 through axle"),
        ] {
            assert_eq!(verdict(hub, place, Material::Steel).fit, Fit::DoesNotFit, "{hub} in {place}");
        }
        assert_eq!(verdict("142 x 12", "135 x 10 quick release", Material::Carbon).fit, Fit::FitsWith, "the other way round");
        let ends = "142 x 12 through axle or 135 x 10 quick release";
        assert_eq!(verdict(ends, "142 x 12 through axle", Material::Carbon).fit, Fit::Fits);
        assert_eq!(verdict(ends, "135 x 10 quick release", Material::Carbon).fit, Fit::Fits);
        assert_eq!(verdict("148 x 12 through axle", "142 x 12 through axle", Material::Steel).fit, Fit::DoesNotFit);
        assert_eq!(verdict("100 x 15 through axle", "100 x 12 through axle", Material::Steel).fit, Fit::FitsWith);
        assert_eq!(verdict("135", "135 x 10 quick release", Material::Steel).fit, Fit::NotPublished);
    }

    #[test]
    fn a_diameter_that_is_not_published_is_never_invented() {
        let front = |hub: &str, place: &str| hub_in(hub, place).fit;
        let diameter = hub_in("110 x 15 through axle", "110 through axle");
        let reason = HubReason::DiameterUnknown { spacing_mm: 110.0, is_hubs: false };
        assert_eq!((diameter.fit, diameter.reasons), (Fit::NotPublished, vec![reason.into()]));
        assert_eq!(front("100 through axle", "100 x 12 through axle"), Fit::NotPublished);
        assert_eq!(front("100 through axle", "110 x 15 through axle"), Fit::DoesNotFit, "another spacing all the same");
        assert_eq!(front("100 x 9 quick release", "100 x 12 through axle"), Fit::FitsWith, "end caps");
        assert_eq!(front("100 x 12 through axle", "100 x 15 through axle"), Fit::FitsWith, "end caps");
        assert_eq!(front("110 x 15 through axle", "110 x 20 through axle"), Fit::DoesNotFit);
    }

    fn hub_in(ends: &str, place: &str) -> Outcome {
        hub(&Hub::read_all(ends).unwrap(), &Stated::Is(Hub::read(place).unwrap()), Standard::FrontHub, None)
    }

    #[test]
    fn another_spacing_with_an_axle_that_is_not_known_may_fit() {
        // 135 with a quick release holds what 142 with a through axle does; with a through axle it does not.
        for (hub, place, is_hubs) in
            [("142 x 12", "135", false), ("135", "142 x 12", true), ("130 x 10 quick release", "135", false)]
        {
            let outcome = verdict(hub, place, Material::Steel);
            assert_eq!(outcome.fit, Fit::NotPublished, "{hub} in {place}");
            assert_eq!(outcome.reasons.last(), Some(&HubReason::DependsOnAxle { is_hubs }.into()));
        }
        for (hub, place) in [("148 x 12", "142"), ("142 x 12", "148"), ("126 x 10 quick release", "135"), ("130", "142 x 12")] {
            assert_eq!(verdict(hub, place, Material::Steel).fit, Fit::DoesNotFit, "{hub} in {place}");
        }
        let range = "132.5, takes 130 to 135";
        assert_eq!(verdict("135 x 10 quick release", range, Material::Carbon).fit, Fit::Fits, "within what the maker says");
    }

    #[test]
    fn steel_gives_a_little_only() {
        // 130 ↔ 135, cold-set by 2.5 mm a side: trade practice, unverified.
        let outcome = verdict("130 x 10 quick release", "135 x 10 quick release", Material::Steel);
        assert_eq!((outcome.fit, outcome.numbers[2].value), (Fit::FitsWith, 2.5));
        assert_eq!(verdict("126 x 10 quick release", "135 x 10 quick release", Material::Steel).fit, Fit::DoesNotFit);
    }

    #[test]
    fn a_thin_axle_has_no_place_in_a_thick_dropout() {
        let fit = |hub: &str, place: &str| verdict(hub, place, Material::Steel).fit;
        let (thin, thick) = ("100 x 12 through axle", "100 x 15 through axle");
        assert_eq!(fit(thin, thick), Fit::DoesNotFit, "a 12 mm hub in 15 mm dropouts");
        assert_eq!(fit("110 x 15 through axle", thin), Fit::DoesNotFit, "end caps do not narrow a hub");
        let outcome = verdict(thick, thin, Material::Steel);
        assert_eq!(outcome.extras, [Extra::AxleAdapter { from_mm: 15.0, to_mm: 12.0 }]);
    }

    #[test]
    fn other_ends_are_told_where_one_of_them_fits() {
        let is_told = |ends: &str| {
            let outcome = verdict(ends, "142 x 12 through axle", Material::Steel);
            outcome.reasons.contains(&HubReason::OtherEndsUnused.into())
        };
        assert!(is_told("142 x 12 through axle or 135 x 10 quick release"));
        assert!(!is_told("142 x 12 through axle"), "there are no others");
        assert!(!is_told("148 x 12 through axle or 135 x 10 quick release"), "none of them fits");
    }

    #[test]
    fn the_most_that_steel_is_set_is_told_for_each_side() {
        let outcome = verdict("126 x 10 quick release", "135 x 10 quick release", Material::Steel);
        let reasons = [HubReason::SpacingsDiffer { by_mm: -9.0 }, HubReason::TooMuchToColdSet { most_a_side_mm: 2.5 }];
        assert_eq!(outcome.reasons, reasons.map(crate::parts::Reason::from));
        // A narrower hub is squeezed in, a wider one spread.
        let squeezed = verdict("130 x 10 quick release", "135 x 10 quick release", Material::Steel).extras;
        assert_eq!(squeezed, [Extra::ColdSet { end: Wheel::Rear, a_side_mm: 2.5, is_spread: false }]);
    }
}
