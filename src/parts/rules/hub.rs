//! A hub between dropouts: exact, within what the maker sells the frame for, or only by springing steel.

use super::super::reading::mm;
use super::super::source::Source;
use super::super::standards::{Axle, GROOVE_MM, Hub};
use super::super::verdict::{Caution, Outcome, a_side};
use crate::frameset::{Material, Standard};
use crate::parts::Stated;

/// Steel is sprung by at most this, both sides together, mm: 130 hubs in 135 dropouts and back. Trade practice, unverified.
const MOST_SPRINGING_MM: f64 = 5.0;

/// Two spacings are one when they differ by less than this, mm.
const SAME_MM: f64 = 0.5;

/// The verdict on a hub with its exchangeable ends, in dropouts of `material`.
pub(in super::super) fn hub(ends: &[Hub], place: &Stated<Hub>, standard: Standard, material: Option<Material>) -> Outcome {
    let place = match place.known(standard) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why),
    };
    let ways = ends.iter().map(|end| one_end(end, place, material));
    let best = Outcome::best(ways).unwrap_or_else(|| Outcome::not_stated("The hub states no spacing."));
    if ends.len() > 1 && best.with.is_none() && best.fit == crate::parts::Fit::Fits {
        let reason = format!("{} Its other ends stay in the drawer.", best.reason);
        return Outcome { reason, ..best };
    }
    best
}

fn one_end(hub: &Hub, place: &Hub, material: Option<Material>) -> Outcome {
    let difference = hub.spacing_mm - place.spacing_mm;
    let numbers = |o: Outcome| {
        o.number("hub_spacing", hub.spacing_mm)
            .number("dropout_spacing", place.spacing_mm)
            .number("a_side", difference.abs() / 2.0)
    };
    match (hub.axle, place.axle) {
        (Some(own), Some(wanted)) if own.is_slotted() != wanted.is_slotted() => {
            let grooves = (difference.abs() - 2.0 * GROOVE_MM).abs() < SAME_MM;
            let note = if grooves {
                " The flanges would lie in the same place, so another axle and ends may be had from the hub's maker."
            } else {
                ""
            };
            return numbers(Outcome::does_not_fit(
                format!("A hub with a {} is not held by dropouts for a {}.{note}", own.words(), wanted.words()),
                Source::Arithmetic,
            ));
        }
        (Some(Axle::Through(own)), Some(Axle::Through(wanted))) if (own - wanted).abs() > 0.1 => {
            if own > wanted && difference.abs() < SAME_MM {
                return numbers(Outcome::fits_with(
                    format!("end caps or a sleeve from {} to {}", mm(own), mm(wanted)),
                    format!("Both are {} wide; the hub is bored for a thicker axle.", mm(hub.spacing_mm)),
                    Source::TradePractice,
                ));
            }
            return numbers(Outcome::does_not_fit(
                format!("The hub takes a {} axle, the dropouts a {} one.", mm(own), mm(wanted)),
                Source::Arithmetic,
            ));
        }
        (None, _) | (_, None) if difference.abs() < SAME_MM => {
            let silent = if hub.axle.is_none() { "hub" } else { "maker of the frame" };
            return numbers(Outcome::not_stated(format!(
                "Both are {} wide, but the {silent} states no axle.",
                mm(hub.spacing_mm)
            )));
        }
        _ => {}
    }
    if difference.abs() < SAME_MM {
        return numbers(Outcome::fits(format!("Hub and dropouts are both {place}."), Source::Maker));
    }
    if let Some((least, most)) = place.takes_mm
        && (least - SAME_MM..=most + SAME_MM).contains(&hub.spacing_mm)
    {
        return numbers(Outcome::fits(
            format!(
                "The dropouts are {} apart and the maker sells them for hubs of {} to {}: they move by {}.",
                mm(place.spacing_mm),
                mm(least),
                mm(most),
                a_side(difference.abs() / 2.0)
            ),
            Source::Maker,
        ));
    }
    let direction = if difference > 0.0 { "wider" } else { "narrower" };
    let what = format!("The hub is {} {direction} than the dropouts, {}", mm(difference.abs()), a_side(difference.abs() / 2.0));
    let is_slotted = place.axle.is_none_or(Axle::is_slotted);
    if !is_slotted {
        return numbers(Outcome::does_not_fit(format!("{what}, and closed dropouts do not give."), Source::TradePractice));
    }
    match material {
        Some(Material::Steel) if difference.abs() <= MOST_SPRINGING_MM => numbers(
            Outcome::fits_with(
                format!("the steel stays sprung by {}", a_side(difference.abs() / 2.0)),
                format!("{what}."),
                Source::TradePractice,
            )
            .caution(Caution::SpringingStays),
        ),
        Some(Material::Steel) => numbers(
            Outcome::does_not_fit(format!("{what}, more than steel is sprung by."), Source::TradePractice)
                .caution(Caution::SpringingStays),
        ),
        Some(other) => numbers(
            Outcome::does_not_fit(format!("{what}, and {} is never sprung.", other.label()), Source::TradePractice)
                .caution(Caution::SpringingStays),
        ),
        None => numbers(
            Outcome::not_stated(format!("{what}; whether it may be sprung depends on the material, which is not stated."))
                .caution(Caution::SpringingStays),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::Fit;

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
        // Without the maker's word it is springing, and never of aluminium or carbon.
        let silent = "132.5 x 10 quick release";
        let sprung = verdict("135 x 10 quick release", silent, Material::Steel);
        assert_eq!((sprung.fit, sprung.caution), (Fit::FitsWith, Some(Caution::SpringingStays)));
        for material in [Material::Aluminium, Material::Carbon, Material::Titanium] {
            assert_eq!(verdict("135 x 10 quick release", silent, material).fit, Fit::DoesNotFit, "{material:?}");
        }
    }

    #[test]
    fn axles_that_are_not_held_do_not_fit() {
        // 142 = 135 + 2 × 3.5: the flanges lie in the same place, the axle is not held all the same.
        let outcome = verdict("135 x 10 quick release", "142 x 12 through axle", Material::Steel);
        assert_eq!(outcome.fit, Fit::DoesNotFit);
        assert!(outcome.reason.contains("flanges"));
        let ends = "142 x 12 through axle or 135 x 10 quick release";
        assert_eq!(verdict(ends, "142 x 12 through axle", Material::Carbon).fit, Fit::Fits);
        assert_eq!(verdict(ends, "135 x 10 quick release", Material::Carbon).fit, Fit::Fits);
        assert_eq!(verdict("148 x 12 through axle", "142 x 12 through axle", Material::Steel).fit, Fit::DoesNotFit);
        assert_eq!(verdict("100 x 15 through axle", "100 x 12 through axle", Material::Steel).fit, Fit::FitsWith);
        assert_eq!(verdict("135", "135 x 10 quick release", Material::Steel).fit, Fit::NotStated);
    }

    #[test]
    fn steel_gives_a_little_only() {
        // 130 ↔ 135, springing by 2.5 mm a side: trade practice, unverified.
        let outcome = verdict("130 x 10 quick release", "135 x 10 quick release", Material::Steel);
        assert_eq!((outcome.fit, outcome.numbers[2].value), (Fit::FitsWith, 2.5));
        assert_eq!(verdict("126 x 10 quick release", "135 x 10 quick release", Material::Steel).fit, Fit::DoesNotFit);
    }
}
