//! Cages on bosses, racks and mudguards on eyelets.

use super::super::source::Source;
use super::super::standards::{Bosses, Eyelets, Wheel};
use super::super::verdict::Outcome;
use crate::frameset::Standard;
use crate::parts::Stated;

/// The verdict on cages that want bosses: each place of the list, the largest first, to a place that has as many.
pub(in super::super) fn cages(own: &Bosses, place: &Stated<Bosses>, standard: Standard) -> Outcome {
    let place = match place.known(standard) {
        Ok(place) => place,
        Err(why) => return Outcome::not_stated(why),
    };
    let sorted = |bosses: &Bosses| {
        let mut places = bosses.places.clone();
        places.sort_unstable_by(|a, b| b.cmp(a));
        places
    };
    let (wanted, there) = (sorted(own), sorted(place));
    let words = |places: &[u32]| places.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
    let missing: Vec<u32> =
        wanted.iter().enumerate().filter(|(i, n)| there.get(*i).copied().unwrap_or(0) < **n).map(|(_, n)| *n).collect();
    if missing.is_empty() {
        return Outcome::fits(format!("Bosses wanted: {}; stated: {}.", words(&wanted), words(&there)), Source::Maker);
    }
    Outcome::does_not_fit(
        format!(
            "Bosses wanted: {}; stated: {}.",
            words(&wanted),
            if there.is_empty() { "none".to_owned() } else { words(&there) }
        ),
        Source::Maker,
    )
}

/// The verdict on a rack.
pub(in super::super) fn rack(end: Wheel, eyelets: &Stated<Eyelets>) -> Outcome {
    match eyelets.known(Standard::Eyelets) {
        Err(why) => Outcome::not_stated(why),
        Ok(e) if (if end == Wheel::Rear { e.rear_rack } else { e.front_rack }) => {
            Outcome::fits("The maker states eyelets for it.", Source::Maker)
        }
        Ok(_) => Outcome::fits_with(
            "clamps or an axle that carries it, if the makers allow that",
            "The maker states no eyelets for a rack at this end.",
            Source::CommonPractice,
        ),
    }
}

/// The verdict on mudguards.
pub(in super::super) fn mudguards(eyelets: &Stated<Eyelets>) -> Outcome {
    match eyelets.known(Standard::Eyelets) {
        Err(why) => Outcome::not_stated(why),
        Ok(e) if e.front_mudguard && e.rear_mudguard => Outcome::fits("The maker states eyelets at both ends.", Source::Maker),
        Ok(e) => {
            let end = match (e.front_mudguard, e.rear_mudguard) {
                (true, _) => "the rear",
                (_, true) => "the front",
                _ => "both ends",
            };
            Outcome::fits_with(
                format!("straps at {end}"),
                format!("Eyelets are stated, but none for a mudguard at {end}."),
                Source::CommonPractice,
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::Fit;

    #[test]
    fn each_cage_wants_its_own_place() {
        let verdict = |own: &str, place: &str| {
            cages(&Bosses::read(own).unwrap(), &Stated::Is(Bosses::read(place).unwrap()), Standard::ForkBosses).fit
        };
        assert_eq!(verdict("3+3", "3+3"), Fit::Fits);
        assert_eq!(verdict("3+3", "3+2"), Fit::DoesNotFit);
        assert_eq!(verdict("2, 3", "3 on down tube, 2 on seat tube"), Fit::Fits);
        assert_eq!(verdict("2", "none"), Fit::DoesNotFit);
        assert_eq!(cages(&Bosses::read("2").unwrap(), &Stated::NotStated, Standard::ForkBosses).fit, Fit::NotStated);
    }

    #[test]
    fn eyelets_are_not_guessed() {
        let eyelets = |text: &str| Stated::Is(Eyelets::read(text).unwrap());
        assert_eq!(rack(Wheel::Rear, &eyelets("rear rack, mudguards")).fit, Fit::Fits);
        assert_eq!(rack(Wheel::Front, &eyelets("rear rack, mudguards")).fit, Fit::FitsWith);
        assert_eq!(mudguards(&eyelets("mudguards")).fit, Fit::Fits);
        assert_eq!(mudguards(&Stated::NotStated).fit, Fit::NotStated);
    }
}
