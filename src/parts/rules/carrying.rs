//! Cages on bosses, racks and mudguards on eyelets.

use super::super::extra::Extra;
use super::super::reasons::{CarryingReason, EyeletsFor};
use super::super::source::Source;
use super::super::standards::{Bosses, Eyelets, TyreClearances, Wheel};
use super::super::verdict::{Caution, Outcome};
use crate::frameset::{Standard, TyreSize};
use crate::parts::{Reason, Stated};

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
    let is_enough = wanted.iter().enumerate().all(|(i, n)| there.get(i).copied().unwrap_or(0) >= *n);
    if is_enough {
        Outcome::fits(CarryingReason::EnoughBosses { wanted, there }, Source::Maker)
    } else {
        Outcome::does_not_fit(CarryingReason::TooFewBosses { wanted, there }, Source::Maker)
    }
}

/// Eyelets at one end, and whose they are.
#[derive(Clone, Copy)]
pub(in super::super) struct EyeletsAt<'a> {
    pub(in super::super) end: Wheel,
    /// Whether it is the listed fork that has them, not what the frame's maker sells.
    pub(in super::super) is_listed_fork: bool,
    pub(in super::super) eyelets: &'a Stated<Eyelets>,
}

impl EyeletsAt<'_> {
    fn known(&self) -> Result<&Eyelets, Box<Reason>> {
        match self.eyelets {
            Stated::NotPublished if self.is_listed_fork => Err(Box::new(CarryingReason::ForkEyeletsUnknown.into())),
            other => other.known(Standard::Eyelets).map_err(|why| Box::new(Reason::from(why))),
        }
    }
}

/// The verdict on a rack.
pub(in super::super) fn rack(at: EyeletsAt) -> Outcome {
    let what = EyeletsFor::Rack(at.end);
    match at.known() {
        Err(why) => Outcome::not_stated(*why),
        Ok(e) if (if at.end == Wheel::Rear { e.rear_rack } else { e.front_rack }) => {
            Outcome::fits(CarryingReason::Eyelets(what), Source::Maker)
        }
        Ok(e) => Outcome::fits_with(Extra::RackClamps, CarryingReason::no_eyelets(*e, what), Source::TradePractice),
    }
}

/// What a mudguard meets at one end.
#[derive(Clone, Copy)]
pub(in super::super) struct GuardPlace<'a> {
    pub(in super::super) at: EyeletsAt<'a>,
    pub(in super::super) rooms: &'a Stated<TyreClearances>,
    /// The tyre of the list at that end.
    pub(in super::super) tyre: Option<TyreSize>,
}

/// How much wider than its tyre a mudguard should be, mm: trade practice, unverified.
const COVER_MM: f64 = 5.0;
/// How much wider than its tyre a mudguard is at most, so that room stated with mudguards holds it, mm: trade
/// practice, unverified.
const MOST_COVER_MM: f64 = 15.0;

/// The verdict on mudguards of that width, mm, where it is given: the worse of both ends.
pub(in super::super) fn mudguards(width_mm: Option<f64>, rear: GuardPlace, front: GuardPlace) -> Outcome {
    guard(width_mm, rear).both(guard(width_mm, front))
}

fn guard(width_mm: Option<f64>, place: GuardPlace) -> Outcome {
    let end = place.at.end;
    let what = EyeletsFor::Mudguard(end);
    let fixed = match place.at.known() {
        Err(why) => Outcome::not_stated(*why),
        Ok(e) if (if end == Wheel::Rear { e.rear_mudguard } else { e.front_mudguard }) => {
            Outcome::fits(CarryingReason::Eyelets(what), Source::Maker)
        }
        Ok(e) => Outcome::fits_with(Extra::MudguardStraps(end), CarryingReason::no_eyelets(*e, what), Source::TradePractice),
    };
    let Some(width) = width_mm else {
        return match too_wide_for_mudguards(place) {
            Some(no) => fixed.both(no).caution(Caution::TyreGap),
            None => fixed,
        };
    };
    let covered = place.tyre.map(|tyre| cover(width, tyre, end));
    let outcome = [covered, Some(mudguard_clearance(width, place))].into_iter().flatten().fold(fixed, Outcome::both);
    outcome.caution(Caution::TyreGap)
}

/// That the tyre of the list is wider than the maker allows with mudguards.
fn too_wide_for_mudguards(place: GuardPlace) -> Option<Outcome> {
    let (tyre, rooms) = (place.tyre?, place.rooms.is()?);
    let own = rooms.0.iter().filter(|r| r.with_mudguards && r.bead_seat_mm == tyre.bead_seat_mm());
    let widest_mm = own.filter_map(|r| r.widest_mm).reduce(f64::max).filter(|widest| tyre.width_mm() > *widest)?;
    let reason = CarryingReason::TyreTooWideForMudguards { end: place.at.end, tyre_mm: tyre.width_mm(), widest_mm };
    Some(Outcome::does_not_fit(reason, Source::Maker))
}

/// The mudguard over the tyre of the list.
fn cover(width_mm: f64, tyre: TyreSize, end: Wheel) -> Outcome {
    let wider_mm = width_mm - tyre.width_mm();
    let reason = CarryingReason::MudguardOverTyre { end, width_mm, tyre };
    if wider_mm < 0.0 {
        Outcome::does_not_fit(reason, Source::Arithmetic)
    } else if wider_mm < COVER_MM {
        Outcome::fits_with(Extra::NarrowMudguard { end, wider_mm }, reason, Source::TradePractice)
    } else {
        Outcome::fits(reason, Source::TradePractice)
    }
}

/// The mudguard between stays or blades, as far as the clearance there is published.
fn mudguard_clearance(width_mm: f64, place: GuardPlace) -> Outcome {
    let end = place.at.end;
    let unknown = || Outcome::not_stated(CarryingReason::ClearanceUnknown { end, width_mm });
    let Stated::Is(rooms) = place.rooms else { return unknown() };
    if let Some(no) = too_wide_for_mudguards(place) {
        return no;
    }
    let bead = place.tyre.map(TyreSize::bead_seat_mm);
    let of_wheel = || rooms.0.iter().filter(|r| bead.is_none_or(|b| b == r.bead_seat_mm));
    // A limit with mudguards is the one that counts for them.
    let has_own = of_wheel().any(|r| r.with_mudguards);
    let ways = of_wheel().filter(|r| r.with_mudguards == has_own).map(|room| {
        let with_mudguards = room.with_mudguards;
        match (room.clear_mm, room.widest_mm) {
            (Some(clear_mm), _) if width_mm <= clear_mm => Outcome::fits(CarryingReason::Passes { end, clear_mm }, Source::Maker),
            (Some(clear_mm), _) => Outcome::does_not_fit(CarryingReason::DoesNotPass { end, width_mm, clear_mm }, Source::Maker),
            (None, Some(tyre_mm)) if with_mudguards && width_mm <= tyre_mm + MOST_COVER_MM => {
                Outcome::fits(CarryingReason::ClearanceForTyre { end, tyre_mm, with_mudguards }, Source::Maker)
            }
            // Where so wide a tyre passes, so does a mudguard.
            (None, Some(tyre_mm)) if width_mm <= tyre_mm => {
                let reason = CarryingReason::ClearanceForTyre { end, tyre_mm, with_mudguards: false };
                Outcome::fits(reason, Source::Arithmetic)
            }
            (None, tyre) => Outcome::not_stated(CarryingReason::ClearanceForTyreOnly { end, tyre_mm: tyre.unwrap_or_default() }),
        }
    });
    Outcome::best(ways).unwrap_or_else(unknown)
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
        assert_eq!(cages(&Bosses::read("2").unwrap(), &Stated::NotPublished, Standard::ForkBosses).fit, Fit::NotPublished);
    }

    #[test]
    fn eyelets_are_not_guessed() {
        let at = |end, eyelets: &Stated<Eyelets>| rack(EyeletsAt { end, is_listed_fork: false, eyelets });
        let eyelets = read("rear rack, mudguards");
        assert_eq!(at(Wheel::Rear, &eyelets).fit, Fit::Fits);
        assert_eq!(at(Wheel::Front, &eyelets).fit, Fit::FitsWith);
        assert_eq!(at(Wheel::Front, &Stated::NotPublished).fit, Fit::NotPublished);
        assert_eq!(at(Wheel::Rear, &read("none")).reasons, [CarryingReason::NoEyelets.into()]);
        assert_eq!(at(Wheel::Front, &eyelets).reasons, [CarryingReason::OtherEyelets(EyeletsFor::Rack(Wheel::Front)).into()]);
        // A listed fork that states none has none of the frame's.
        let silent = rack(EyeletsAt { end: Wheel::Front, is_listed_fork: true, eyelets: &Stated::NotPublished });
        assert_eq!((silent.fit, silent.reasons), (Fit::NotPublished, vec![CarryingReason::ForkEyeletsUnknown.into()]));
    }

    fn read(text: &str) -> Stated<Eyelets> {
        Stated::Is(Eyelets::read(text).unwrap())
    }

    fn guards(width: Option<f64>, eyelets: &str, room: &str) -> Outcome {
        let eyelets = if eyelets.is_empty() { Stated::NotPublished } else { read(eyelets) };
        let rooms = if room.is_empty() { Stated::NotPublished } else { Stated::Is(TyreClearances::read(room).unwrap()) };
        let place = |end| GuardPlace {
            at: EyeletsAt { end, is_listed_fork: false, eyelets: &eyelets },
            rooms: &rooms,
            tyre: Some("50-622".parse().unwrap()),
        };
        mudguards(width, place(Wheel::Rear), place(Wheel::Front))
    }

    #[test]
    fn mudguards_want_eyelets_cover_and_room() {
        let verdict = |width: f64, eyelets: &str, room: &str| guards(Some(width), eyelets, room).fit;
        assert_eq!(guards(None, "mudguards", "").fit, Fit::Fits);
        assert_eq!(guards(None, "", "").fit, Fit::NotPublished);
        assert_eq!(guards(None, "rear mudguard", "").extras, [Extra::MudguardStraps(Wheel::Front)]);
        assert_eq!(verdict(60.0, "mudguards", "64-622"), Fit::Fits);
        assert_eq!(verdict(52.0, "mudguards", "64-622"), Fit::FitsWith, "2 mm of cover");
        assert_eq!(verdict(45.0, "mudguards", "64-622"), Fit::DoesNotFit, "narrower than the tyre");
        assert_eq!(verdict(66.0, "mudguards", "64-622"), Fit::NotPublished, "nothing is said of so much room");
        assert_eq!(verdict(60.0, "mudguards", "50-622 with mudguards"), Fit::Fits);
        assert_eq!(verdict(60.0, "mudguards", "57-622; 45-622 with mudguards"), Fit::DoesNotFit, "the tyre is 50 wide");
        assert_eq!(verdict(60.0, "mudguards", "57-622; 50-622 with mudguards"), Fit::Fits);
        assert_eq!(verdict(60.0, "mudguards", "clear 58 on 622"), Fit::DoesNotFit);
        assert_eq!(verdict(60.0, "mudguards", ""), Fit::NotPublished);
        assert_eq!(verdict(60.0, "mudguards", "70-584"), Fit::NotPublished, "another wheel");
        assert!(guards(Some(60.0), "mudguards", "64-622").caution.is_some());
    }
}
