//! The parts list against one frame: every part a verdict, the fork two, tyres one an end.

use super::fork_part::ForkPart;
use super::list::{Meaning, Part, PartKind, PartsList};
use super::standards::{Bosses, Eyelets, Hub, Mount, TyreClearances, Wheel, ends_of};
use super::stated::{Stated, Statements, Steerer};
use super::verdict::{About, Outcome, Verdict};
use super::{reasons, rules};
use crate::frameset::{Figure, Frameset, Material, Standard, TyreSize};
use crate::geometry::AdjustedSize;

/// A frame that parts are checked against: what it states and, where known, its chosen size and the rider's saddle.
#[derive(Clone, Copy, Debug)]
pub struct Candidate<'a> {
    /// Frameset that the parts are for.
    pub frameset: &'a Frameset,
    /// What it states, understood once.
    pub statements: &'a Statements,
    /// The size that would be built, for what depends on it.
    pub size: Option<&'a AdjustedSize>,
    /// Bottom bracket to the top of the saddle, mm.
    pub saddle_height_mm: Option<f64>,
}

/// What the front parts are checked against: the listed fork, or the frame's own.
struct FrontEnd {
    of: reasons::ClearanceOf,
    material: Option<Material>,
    hub: Stated<Hub>,
    brake: Stated<Mount>,
    rooms: Stated<TyreClearances>,
    /// Whether the room is that which the maker states for the frame, nothing being stated for its fork.
    is_frames_clearance: bool,
    eyelets: Stated<Eyelets>,
    is_listed: bool,
    bosses: Stated<Bosses>,
    steerer: Stated<Steerer>,
}

fn read<T>(text: &str, read: impl FnOnce(&str) -> Result<T, super::standards::NotUnderstood>) -> Stated<T> {
    if text.trim().is_empty() {
        return Stated::NotPublished;
    }
    match super::standards::read_plainly(text, read) {
        Ok(value) => Stated::Is(value),
        Err(why) => Stated::NotUnderstood(why.0),
    }
}

impl FrontEnd {
    fn eyelets(&self) -> rules::EyeletsAt<'_> {
        rules::EyeletsAt { end: Wheel::Front, is_listed_fork: self.is_listed, eyelets: &self.eyelets }
    }

    fn of(fork: Option<&ForkPart>, candidate: &Candidate) -> Self {
        let said = candidate.statements;
        match fork {
            Some(fork) => Self {
                of: reasons::ClearanceOf::Fork,
                material: None,
                hub: read(&fork.hub, Hub::read),
                brake: read(&fork.brake, Mount::read),
                rooms: read(&fork.widest_tyre, TyreClearances::read),
                is_frames_clearance: false,
                eyelets: read(&fork.eyelets, Eyelets::read),
                is_listed: true,
                bosses: read(&fork.bosses, Bosses::on_fork),
                steerer: read(&fork.steerer, |t| ends_of(t).map(|(steerer_mm, race_mm)| Steerer { steerer_mm, race_mm })),
            },
            None => Self {
                of: reasons::ClearanceOf::OwnFork,
                material: candidate.frameset.fork.as_ref().and_then(|f| f.material),
                hub: said.front_hub.clone(),
                brake: said.front_brake.clone(),
                rooms: match &said.widest_front_tyre {
                    Stated::NotPublished => said.widest_tyre.clone(),
                    stated => stated.clone(),
                },
                is_frames_clearance: said.widest_front_tyre == Stated::NotPublished,
                eyelets: said.eyelets.clone(),
                is_listed: false,
                bosses: said.fork_bosses.clone(),
                steerer: said.steerer.clone(),
            },
        }
    }
}

fn rear_eyelets(said: &Statements) -> rules::EyeletsAt<'_> {
    rules::EyeletsAt { end: Wheel::Rear, is_listed_fork: false, eyelets: &said.eyelets }
}

/// Every part of the list against the frame, in the list's order, the fork first.
#[must_use]
pub fn check(list: &PartsList, candidate: &Candidate) -> Vec<Verdict> {
    let front = FrontEnd::of(list.fork.as_ref(), candidate);
    let mut verdicts = Vec::new();
    if let Some(fork) = &list.fork {
        let mut push =
            |about, outcome| verdicts.push(Verdict { about, kind: None, name: fork.name.clone(), text: String::new(), outcome });
        let said = candidate.statements;
        push(About::ForkSteerer, rules::fork_steerer(front.steerer.is().copied(), &said.upper_headset, &said.lower_headset));
        push(About::ForkLength, rules::fork_length(fork, candidate.statements, candidate.size));
    }
    for (index, part) in list.parts.iter().enumerate() {
        let mut push = |end, outcome| {
            verdicts.push(Verdict {
                about: About::Part(index, end),
                kind: Some(part.kind),
                name: part.name.clone(),
                text: part.text.clone(),
                outcome,
            });
        };
        if let (PartKind::Tyre, Meaning::Tyre(size)) = (part.kind, &part.meaning) {
            push(Some(Wheel::Front), tyre(*size, Wheel::Front, list, candidate, &front));
            push(Some(Wheel::Rear), tyre(*size, Wheel::Rear, list, candidate, &front));
        } else {
            push(None, one(part, list, candidate, &front));
        }
    }
    verdicts
}

fn tyre(size: TyreSize, end: Wheel, list: &PartsList, candidate: &Candidate, front: &FrontEnd) -> Outcome {
    let beside = rules::Beside {
        rim_inner_mm: list.rim_inner_mm(),
        has_mudguards: list.first(PartKind::Mudguards).is_some(),
        ..rules::Beside::default()
    };
    match end {
        Wheel::Front if front.is_frames_clearance => rules::by_the_frames_clearance(size, &front.rooms, beside),
        Wheel::Front => rules::tyre_clearance(size, &front.rooms, beside, front.of),
        Wheel::Rear => {
            let said = candidate.statements;
            let beside = rules::Beside { crank: list.crank(), drawn_for: said.crank_spacing.is().copied(), ..beside };
            rules::tyre_clearance(size, &said.widest_tyre, beside, reasons::ClearanceOf::Frame)
        }
    }
}

/// What a crank runs with on this frame.
fn rear_end<'a>(list: &'a PartsList, candidate: &'a Candidate) -> rules::RearEnd<'a> {
    let said = candidate.statements;
    let ends = |kind| match list.first(kind).map(|p| &p.meaning) {
        Some(Meaning::Hub(ends)) => Some(ends.as_slice()),
        _ => None,
    };
    let chainstay = candidate.size.map(|s| s.value(Figure::Chainstay)).filter(|v| !v.is_missing);
    rules::RearEnd {
        drawn_for: &said.crank_spacing,
        place: &said.rear_hub,
        listed: ends(PartKind::RearHub),
        gear_hub: ends(PartKind::GearHub),
        chainstay: chainstay.map(|v| v.measured().as_length()),
    }
}

fn one(part: &Part, list: &PartsList, candidate: &Candidate, front: &FrontEnd) -> Outcome {
    let said = candidate.statements;
    let material = candidate.frameset.tubing.as_ref().map(|t| t.material);
    match (&part.meaning, part.kind) {
        (Meaning::Hub(ends), PartKind::FrontHub) => rules::hub(ends, &front.hub, Standard::FrontHub, front.material),
        (Meaning::Hub(ends), PartKind::GearHub) => {
            rules::gear_hub(rules::hub(ends, &said.rear_hub, Standard::RearHub, material), &said.tensioning())
        }
        (Meaning::Hub(ends), _) => rules::hub(ends, &said.rear_hub, Standard::RearHub, material),
        (Meaning::Rims(rim), _) => {
            let mut tyres: Vec<TyreSize> = [Wheel::Front, Wheel::Rear].into_iter().filter_map(|end| list.tyre(end)).collect();
            tyres.dedup();
            rules::rims(*rim, &said.widest_tyre, &tyres)
        }
        (Meaning::Tyre(size), PartKind::FrontTyre) => tyre(*size, Wheel::Front, list, candidate, front),
        (Meaning::Tyre(size), _) => tyre(*size, Wheel::Rear, list, candidate, front),
        (Meaning::Crank(crank), _) => rules::crank(*crank, rear_end(list, candidate)),
        (Meaning::BottomBracket(shell), _) => rules::bottom_bracket(shell, &said.bottom_bracket),
        (Meaning::Headset(headset), _) => rules::headset(headset, &said.upper_headset, &said.lower_headset, &front.steerer),
        (Meaning::SeatPost(post), _) => {
            let heights = candidate.saddle_height_mm.and_then(|saddle_mm| {
                let tube = candidate.size?.value(Figure::SeatTube);
                (!tube.is_missing).then_some(rules::Heights { saddle_mm, seat_tube_mm: tube.value })
            });
            rules::seat_post(*post, &said.seat_post, &said.dropper_routing, said.post_insertion.is().copied(), heights)
        }
        (Meaning::Brake(mount), PartKind::FrontBrake) => rules::caliper(*mount, &front.brake, Standard::FrontBrake),
        (Meaning::Brake(mount), _) => rules::caliper(*mount, &said.rear_brake, Standard::RearBrake),
        (Meaning::Rotor(rotor), PartKind::FrontRotor) => rules::rotor(*rotor, &front.brake, Standard::FrontBrake),
        (Meaning::Rotor(rotor), _) => rules::rotor(*rotor, &said.rear_brake, Standard::RearBrake),
        (Meaning::FrontDerailleur(own), _) => rules::front_derailleur(*own, &said.front_derailleur, list.crank()),
        (Meaning::Cages(bosses), PartKind::ForkCages) => rules::cages(bosses, &front.bosses, Standard::ForkBosses),
        (Meaning::Cages(bosses), _) => rules::cages(bosses, &said.frame_bosses, Standard::FrameBosses),
        (Meaning::Plain, PartKind::Belt) => rules::belt(&said.tensioning()),
        (Meaning::Plain, PartKind::FrontRack) => rules::rack(front.eyelets()),
        (Meaning::Plain, _) => rules::rack(rear_eyelets(said)),
        (Meaning::Mudguards(width), _) => {
            let rear = rules::GuardPlace { at: rear_eyelets(said), rooms: &said.widest_tyre, tyre: list.tyre(Wheel::Rear) };
            // Room that is stated for the frame alone says nothing of the fork.
            let rooms = if front.is_frames_clearance { &Stated::NotPublished } else { &front.rooms };
            let front = rules::GuardPlace { at: front.eyelets(), rooms, tyre: list.tyre(Wheel::Front) };
            rules::mudguards(*width, rear, front)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;
    use crate::parts::{CarryingReason, Extra, Fit, Reason};

    fn list() -> PartsList {
        let part = |kind, text: &str| Part::new(kind, text, "").unwrap();
        PartsList {
            parts: PartKind::ALL.iter().map(|k| part(*k, k.example())).collect(),
            fork: Some(
                ron::from_str("(length: 485, offset: 46, steerer: \"28.6 | 30\", hub: \"100 x 9 quick release\")").unwrap(),
            ),
            ..PartsList::default()
        }
    }

    #[test]
    fn a_frame_that_states_nothing_is_never_refused() {
        let bare = read_frameset(
            b"Frameset(format: 1, maker: \"Quern\", model: \"Blank\", sizes: [(label: \"M\", figures: {Stack: 600})])",
        );
        let bare = bare.unwrap();
        let statements = Statements::of(&bare);
        let candidate = Candidate { frameset: &bare, statements: &statements, size: None, saddle_height_mm: None };
        let mut own_fork = list();
        own_fork.fork = None;
        // The rims and the tyre of this list do not contradict one another, so nothing at all can be a no.
        for verdict in check(&own_fork, &candidate) {
            assert_eq!(verdict.outcome.fit, Fit::NotPublished, "{verdict:?}");
        }
    }

    #[test]
    fn every_sample_frame_answers_for_every_kind_of_part() {
        for text in [
            include_str!("../../sample-frames/marrowby-drift.frame.ron"),
            include_str!("../../sample-frames/quern-halter.frame.ron"),
            include_str!("../../sample-frames/wrenfold-ambler.frame.ron"),
            include_str!("../../sample-frames/hollinshaw-wether.frame.ron"),
        ] {
            let frameset = read_frameset(text.as_bytes()).unwrap();
            let statements = Statements::of(&frameset);
            let candidate = Candidate { frameset: &frameset, statements: &statements, size: None, saddle_height_mm: None };
            let verdicts = check(&list(), &candidate);
            assert_eq!(verdicts.len(), PartKind::ALL.len() + 1 + 2);
            for verdict in &verdicts {
                assert!(!verdict.outcome.reasons.is_empty(), "{verdict:?}");
                assert_eq!(verdict.outcome.extras.is_empty(), verdict.outcome.fit != Fit::FitsWith, "{verdict:?}");
            }
        }
    }

    #[test]
    fn a_listed_fork_takes_the_place_of_the_frames_own() {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let statements = Statements::of(&frameset);
        let candidate = Candidate { frameset: &frameset, statements: &statements, size: None, saddle_height_mm: None };
        let front = |list: &PartsList| {
            check(list, &candidate).into_iter().find(|v| v.kind == Some(PartKind::FrontHub)).map(|v| v.outcome.fit)
        };
        let mut list = list();
        assert_eq!(front(&list), Some(Fit::Fits), "quick release hub in the quick release fork");
        // Its eyelets are its own: the frame's front ones went with the frame's fork.
        let outcome =
            |list: &PartsList, kind| check(list, &candidate).into_iter().find(|v| v.kind == Some(kind)).unwrap().outcome;
        for kind in [PartKind::Mudguards, PartKind::FrontRack] {
            let silent = outcome(&list, kind);
            assert_eq!(silent.fit, Fit::NotPublished, "{kind:?}");
            let unknown = Reason::from(CarryingReason::ForkEyeletsUnknown);
            assert!(silent.reasons.contains(&unknown), "{:?}", silent.reasons);
        }
        list.fork.as_mut().unwrap().eyelets = "rack, mudguards".to_owned();
        assert_eq!(outcome(&list, PartKind::FrontRack).fit, Fit::Fits);
        let unknown = Reason::from(CarryingReason::ForkEyeletsUnknown);
        assert!(!outcome(&list, PartKind::Mudguards).reasons.contains(&unknown));
        list.fork = None;
        assert_eq!(front(&list), Some(Fit::FitsWith), "and with other end caps in the frame's own, closed one");
        assert_eq!(outcome(&list, PartKind::FrontTyre).extras, [Extra::ForkClearanceMeasured]);
    }

    #[test]
    fn a_short_seat_post_is_seen_in_the_chosen_size() {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let statements = Statements::of(&frameset);
        let adjusted = adjust(&frameset);
        let list = PartsList {
            parts: vec![Part::new(PartKind::SeatPost, "27.2 x 250", "").unwrap()],
            fork: None,
            ..PartsList::default()
        };
        let fit = |size: Option<usize>, saddle_height_mm| {
            let size = size.and_then(|s| adjusted.sizes.get(s));
            check(&list, &Candidate { frameset: &frameset, statements: &statements, size, saddle_height_mm })[0].outcome.fit
        };
        // The clamp is 700 mm up: 280 above the seat tube of 420 (XS), 160 above that of 540 (XL), which leaves 90 inside.
        assert_eq!((fit(Some(0), Some(750.0)), fit(Some(4), Some(750.0))), (Fit::DoesNotFit, Fit::Fits));
        assert_eq!((fit(Some(0), None), fit(None, Some(750.0))), (Fit::Fits, Fit::Fits), "nothing to judge it by");
    }

    #[test]
    fn rear_parts_are_held_against_the_rear_and_front_parts_against_the_front() {
        let text = "#![enable(implicit_some)]\nFrameset(format: 2, maker: \"Quern\", model: \"Halter\",
            sizes: [(label: \"M\", figures: {Stack: 600})], standards: {
            FrontHub: \"100 x 12 through axle\", RearHub: \"142 x 12 through axle\", FrontBrake: \"flat mount 160\",
            RearBrake: \"post mount 180\", ForkBosses: \"3+3\", FrameBosses: \"2, 2\", Eyelets: \"rear rack\",
            WidestTyre: \"40-622\", WidestFrontTyre: \"50-622\"})";
        let frameset = read_frameset(text.as_bytes()).unwrap();
        let statements = Statements::of(&frameset);
        let candidate = Candidate { frameset: &frameset, statements: &statements, size: None, saddle_height_mm: None };
        let fits = |kind, text: &str| {
            let list = PartsList { parts: vec![Part::new(kind, text, "").unwrap()], fork: None, ..PartsList::default() };
            check(&list, &candidate)[0].outcome.fit == Fit::Fits
        };
        for (front, rear, part, is_front, is_rear) in [
            (PartKind::FrontHub, PartKind::RearHub, "100 x 12 through axle", true, false),
            (PartKind::FrontHub, PartKind::RearHub, "142 x 12 through axle", false, true),
            (PartKind::FrontBrake, PartKind::RearBrake, "flat mount", true, false),
            (PartKind::FrontBrake, PartKind::RearBrake, "post mount", false, true),
            (PartKind::FrontRotor, PartKind::RearRotor, "160", true, false),
            (PartKind::FrontRotor, PartKind::RearRotor, "180", false, true),
            (PartKind::ForkCages, PartKind::FrameCages, "3+3", true, false),
            (PartKind::FrontRack, PartKind::RearRack, "rack", false, true),
            (PartKind::FrontTyre, PartKind::RearTyre, "45-622", true, false),
        ] {
            assert_eq!((fits(front, part), fits(rear, part)), (is_front, is_rear), "{part}");
        }
    }
}
