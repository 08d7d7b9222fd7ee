//! How a frame answers what a need asks, by what its maker publishes.

use super::super::reasons::EyeletsFor;
use super::super::standards::{Attachment, Axle, CupKind, Eyelets, Tension, Thread, Wheel};
use super::super::stated::{Stated, Statements};
use super::asks::{Asks, Thing};
use super::{Answer, Measures, Met, NeedFact, NeedReason};
use crate::frameset::{Bar, Figure, Frameset, Standard};
use crate::geometry::AdjustedSize;
use crate::units::{AnyKind, Measured};

fn answer(met: Met, fact: NeedFact) -> Answer {
    Answer { met, reasons: vec![NeedReason { end: None, fact }] }
}

/// The answer, in the size that would be built.
pub(super) fn answer_of(
    asks: Asks,
    frameset: &Frameset,
    said: &Statements,
    size: Option<&AdjustedSize>,
    measures: &Measures,
) -> Answer {
    match asks {
        Asks::Tyre { width_mm, bead_mm, end } => ends(end, |w| tyre((width_mm, bead_mm), w, end.is_some(), said)),
        Asks::ForkBosses(needed) => stated(&said.fork_bosses, Standard::ForkBosses, |bosses| {
            let there = bosses.most();
            answer(met(there >= needed), NeedFact::BossesOnSide { there, needed })
        }),
        Asks::ForkCages(needed) => stated(&said.fork_bosses, Standard::ForkBosses, |bosses| {
            let there = bosses.cages();
            answer(met(there as f64 >= f64::from(needed)), NeedFact::CagesOnFork { there, needed })
        }),
        Asks::FrameCages(needed) => stated(&said.frame_bosses, Standard::FrameBosses, |bosses| {
            let there = bosses.cages();
            answer(met(there as f64 >= f64::from(needed)), NeedFact::CagesOnFrame { there, needed })
        }),
        Asks::Axle { is_through, end } => ends(end, |w| axle(is_through, w, said)),
        Asks::Rotor { mm, end } => ends(end, |w| rotor(mm, w, said)),
        Asks::Figure { figure, is_least, value } => figure_answer(figure, is_least, value, size),
        Asks::Measure { measure, is_least, value } => match measures.of(measure) {
            Some(measured) => answer(within(measured, is_least, value), NeedFact::MeasureIs(measure, measured)),
            None => answer(Met::NotPublished, NeedFact::MeasureUnknown(measure)),
        },
        Asks::Thing(thing) => has(thing, frameset, said),
        Asks::Travel { is_least, mm } => travel(is_least, mm, frameset),
        Asks::Lacks(thing) => lacks(thing, frameset, said),
    }
}

fn met(is_met: bool) -> Met {
    if is_met { Met::Met } else { Met::NotMet }
}

fn stated<T>(value: &Stated<T>, standard: Standard, then: impl FnOnce(&T) -> Answer) -> Answer {
    match value.known(standard) {
        Ok(value) => then(value),
        Err(why) => answer(Met::NotPublished, NeedFact::Unknown(why)),
    }
}

/// One end, or both: then the worse answer, and both reasons where they answer alike.
fn ends(end: Option<Wheel>, one: impl Fn(Wheel) -> Answer) -> Answer {
    if let Some(end) = end {
        return one(end);
    }
    let (front, rear) = (one(Wheel::Front), one(Wheel::Rear));
    if front == rear {
        return rear;
    }
    let at = |end: Wheel, answer: Answer| Answer {
        reasons: answer.reasons.into_iter().map(|reason| NeedReason { end: Some(end), ..reason }).collect(),
        ..answer
    };
    let (front, rear) = (at(Wheel::Front, front), at(Wheel::Rear, rear));
    match front.met.cmp(&rear.met) {
        std::cmp::Ordering::Less => rear,
        std::cmp::Ordering::Greater => front,
        std::cmp::Ordering::Equal => Answer { reasons: [front.reasons, rear.reasons].concat(), ..rear },
    }
}

/// Clearance for a tyre of that width and bead seat, mm. What is published for the frame is not published for its fork; a
/// need that names no end is asked of the frame and says so, one that names the front is not answered by it.
fn tyre((width_mm, bead_mm): (f64, f64), end: Wheel, is_end_named: bool, said: &Statements) -> Answer {
    let (rooms, standard, is_of_frame_only) = match (end, &said.widest_front_tyre) {
        (Wheel::Front, Stated::NotPublished) => (&said.widest_tyre, Standard::WidestTyre, true),
        (Wheel::Front, front) => (front, Standard::WidestFrontTyre, false),
        (Wheel::Rear, _) => (&said.widest_tyre, Standard::WidestTyre, false),
    };
    stated(rooms, standard, |rooms| {
        let widest = rooms.widest_on(bead_mm);
        match widest {
            Some((widest_mm, spacing)) => {
                // The chain runs beside the rear tyre only.
                let with_spacing_mm = spacing.filter(|_| end == Wheel::Rear);
                let answered = if is_of_frame_only && is_end_named { Met::NotPublished } else { met(widest_mm >= width_mm) };
                answer(answered, NeedFact::WidestTyre { widest_mm, bead_mm, with_spacing_mm, is_of_frame_only })
            }
            None => answer(Met::NotPublished, NeedFact::WheelNotPublished { bead_mm, published_mm: rooms.wheels() }),
        }
    })
}

fn axle(is_through: bool, end: Wheel, said: &Statements) -> Answer {
    let (hub, standard) = match end {
        Wheel::Front => (&said.front_hub, Standard::FrontHub),
        Wheel::Rear => (&said.rear_hub, Standard::RearHub),
    };
    stated(hub, standard, |hub| match hub.axle {
        None => answer(Met::NotPublished, NeedFact::AxleUnknown { spacing_mm: hub.spacing_mm }),
        Some(axle) => answer(met(matches!(axle, Axle::Through(_)) == is_through), NeedFact::Takes(*hub)),
    })
}

fn rotor(wanted_mm: f64, end: Wheel, said: &Statements) -> Answer {
    let (mount, standard) = match end {
        Wheel::Front => (&said.front_brake, Standard::FrontBrake),
        Wheel::Rear => (&said.rear_brake, Standard::RearBrake),
    };
    stated(mount, standard, |mount| {
        if !mount.kind.is_disc() {
            return answer(Met::NotMet, NeedFact::NoDiscMount(mount.kind));
        }
        match (mount.most_mm, mount.native_mm) {
            (Some(most_mm), _) => answer(met(most_mm >= wanted_mm), NeedFact::LargestRotor { most_mm }),
            (None, Some(native_mm)) if native_mm >= wanted_mm => answer(Met::Met, NeedFact::MountMadeFor { native_mm }),
            _ => answer(Met::NotPublished, NeedFact::LargestRotorUnknown),
        }
    })
}

fn figure_answer(figure: Figure, is_least: bool, limit: f64, size: Option<&AdjustedSize>) -> Answer {
    let Some(value) = size.map(|s| *s.value(figure)).filter(|v| !v.is_missing) else {
        return answer(Met::NotPublished, NeedFact::FigureUnknown(figure));
    };
    let measured = value.measured();
    answer(within(measured, is_least, limit), NeedFact::FigureIs(figure, measured))
}

/// Whether a value keeps to a limit. One whose ± covers the limit is borderline; an exact one keeps to a limit that it
/// equals.
fn within(measured: Measured<AnyKind>, is_least: bool, limit: f64) -> Met {
    let over = if is_least { measured.moved(-limit) } else { (-measured).moved(limit) };
    match (over.u == 0.0, over.is_clear()) {
        (true, _) => met(over.value >= 0.0),
        (false, true) => met(over.value > 0.0),
        (false, false) => Met::Borderline,
    }
}

fn travel(is_least: bool, limit_mm: f64, frameset: &Frameset) -> Answer {
    match frameset.fork.as_ref().and_then(|f| f.travel) {
        None => answer(Met::NotPublished, NeedFact::ForkUnknown),
        Some(travel_mm) if travel_mm > 0.0 => {
            let is_met = if is_least { travel_mm >= limit_mm } else { travel_mm <= limit_mm };
            answer(met(is_met), NeedFact::SuspensionFork { travel_mm })
        }
        Some(_) => answer(Met::NotMet, NeedFact::RigidFork),
    }
}

/// That a thing is not there. Of what is for both ends, one of them is there already.
fn lacks(thing: Thing, frameset: &Frameset, said: &Statements) -> Answer {
    match thing {
        Thing::DiscBrakes => stated(&said.rear_brake, Standard::RearBrake, |rear| {
            stated(&said.front_brake, Standard::FrontBrake, |front| {
                let (front, rear) = (front.kind, rear.kind);
                answer(met(!front.is_disc() && !rear.is_disc()), NeedFact::BrakeMounts { front, rear })
            })
        }),
        Thing::Mudguards => stated(&said.eyelets, Standard::Eyelets, |e| {
            let is_any = e.front_mudguard || e.rear_mudguard;
            answer(met(!is_any), eyelets(*e, is_any, EyeletsFor::EitherMudguard))
        }),
        _ => {
            let has = has(thing, frameset, said);
            let met = match has.met {
                Met::Met => Met::NotMet,
                Met::NotMet => Met::Met,
                other => other,
            };
            Answer { met, ..has }
        }
    }
}

/// Whether there are eyelets for `what`, as a fact.
fn eyelets(eyelets: Eyelets, is_there: bool, what: EyeletsFor) -> NeedFact {
    match (is_there, eyelets.is_any()) {
        (true, _) => NeedFact::Eyelets(what),
        (false, true) => NeedFact::OtherEyelets(what),
        (false, false) => NeedFact::NoEyelets,
    }
}

fn has(thing: Thing, frameset: &Frameset, said: &Statements) -> Answer {
    match thing {
        Thing::FrontDerailleur => stated(&said.front_derailleur, Standard::FrontDerailleur, |d| {
            answer(met(d.attachment != Attachment::None), NeedFact::DerailleurMount(d.attachment))
        }),
        Thing::SuspensionFork => match frameset.fork.as_ref().and_then(|f| f.travel) {
            None => answer(Met::NotPublished, NeedFact::ForkUnknown),
            Some(travel_mm) if travel_mm > 0.0 => answer(Met::Met, NeedFact::SuspensionFork { travel_mm }),
            Some(_) => answer(Met::NotMet, NeedFact::RigidFork),
        },
        Thing::DiscBrakes => stated(&said.rear_brake, Standard::RearBrake, |rear| {
            stated(&said.front_brake, Standard::FrontBrake, |front| {
                let (front, rear) = (front.kind, rear.kind);
                answer(met(front.is_disc() && rear.is_disc()), NeedFact::BrakeMounts { front, rear })
            })
        }),
        Thing::GearHub => stated(&said.tensioning(), Standard::Dropouts, |d| {
            if d.is_for_gear_hub {
                answer(Met::Met, NeedFact::SoldForGearHub)
            } else if d.tension == Tension::None {
                answer(Met::NotMet, NeedFact::ChainNotTensioned)
            } else {
                answer(Met::NotPublished, NeedFact::GearHubNotPublished)
            }
        }),
        Thing::Belt => stated(&said.tensioning(), Standard::Dropouts, |d| {
            if d.opens_for_belt {
                answer(Met::Met, NeedFact::OpensForBelt)
            } else if d.tension == Tension::None {
                answer(Met::NotMet, NeedFact::BeltNotTensioned)
            } else {
                answer(Met::NotPublished, NeedFact::BeltOpeningUnknown)
            }
        }),
        Thing::DropperPost => stated(&said.dropper_routing, Standard::DropperRouting, |r| {
            answer(met(r.is_inside || r.is_outside), NeedFact::DropperRouting(*r))
        }),
        Thing::RearRack | Thing::FrontRack | Thing::Mudguards => stated(&said.eyelets, Standard::Eyelets, |e| {
            let (is_there, what) = match thing {
                Thing::RearRack => (e.rear_rack, EyeletsFor::Rack(Wheel::Rear)),
                Thing::FrontRack => (e.front_rack, EyeletsFor::Rack(Wheel::Front)),
                _ => (e.front_mudguard && e.rear_mudguard, EyeletsFor::BothMudguards),
            };
            answer(met(is_there), eyelets(*e, is_there, what))
        }),
        Thing::DropBar | Thing::FlatBar => match frameset.bar {
            None => answer(Met::NotPublished, NeedFact::BarUnknown),
            Some(bar) => {
                let wanted = if thing == Thing::DropBar { Bar::Drop } else { Bar::Flat };
                answer(met(bar == wanted || bar == Bar::Either), NeedFact::DesignedFor(bar))
            }
        },
        Thing::ThreadedShell => stated(&said.bottom_bracket, Standard::BottomBracket, |shell| {
            answer(met(shell.row.thread == Thread::Threaded), NeedFact::Shell(shell.row))
        }),
        Thing::IntegratedHeadset => stated(&said.upper_headset, Standard::UpperHeadset, |upper| {
            stated(&said.lower_headset, Standard::LowerHeadset, |lower| {
                let is_any = [upper, lower].iter().any(|e| e.kind == CupKind::Integrated);
                answer(met(is_any), NeedFact::HeadTube { upper: *upper, lower: *lower })
            })
        }),
        Thing::Of(material) => match frameset.tubing.as_ref() {
            None => answer(Met::NotPublished, NeedFact::MaterialUnknown),
            Some(tubing) => answer(met(tubing.material == material), NeedFact::MadeOf(tubing.material)),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{Material, read_frameset};
    use crate::parts::{Limit, Limited, Need};

    /// How a frame of which only this is published answers.
    fn answer_to(need: &str, published: &[(Standard, &str)]) -> Answer {
        let text = b"Frameset(format: 2, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: {Stack: 600})])";
        let mut frameset = read_frameset(text).unwrap();
        frameset.standards = published.iter().map(|(standard, text)| (*standard, (*text).to_owned())).collect();
        let said = Statements::of(&frameset);
        assert_eq!(said.slips(), [], "{published:?}");
        need.parse::<Need>().unwrap().held_against(&frameset, &said, None, &Measures::default())
    }

    #[test]
    fn a_limit_is_kept_missed_or_within_the_plus_minus() {
        let met = |need: &str, value: Option<(f64, f64)>| {
            let need = need.parse::<Need>().unwrap();
            let Some(Limit { of: Limited::Measure(measure), .. }) = need.limit() else { panic!("{need}") };
            let measures = Measures::default().with(measure, value.map(|(v, u)| Measured::new(v, u)));
            let text =
                b"Frameset(format: 2, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: {Stack: 600})])";
            let frameset = read_frameset(text).unwrap();
            need.held_against(&frameset, &Statements::of(&frameset), None, &measures).met
        };
        for (need, value, wanted) in [
            ("weight at most 2500 g", Some((2400.0, 30.0)), Met::Met),
            ("weight at most 2500 g", Some((2480.0, 30.0)), Met::Borderline),
            ("weight at most 2500 g", Some((2600.0, 30.0)), Met::NotMet),
            ("weight at most 2500 g", None, Met::NotPublished),
            ("price at most 1200", Some((1200.0, 0.0)), Met::Met),
            ("price at most 1200", Some((1200.01, 0.0)), Met::NotMet),
            ("bottles at least 2", Some((2.0, 0.0)), Met::Met),
            ("bottles at least 2", Some((1.0, 0.0)), Met::NotMet),
            ("frame bag at least 6 l", Some((7.0, 0.2)), Met::Met),
        ] {
            assert_eq!(met(need, value), wanted, "{need}: {value:?}");
        }
    }

    #[test]
    fn a_need_is_held_against_what_is_published_of_it() {
        use super::Met as M;
        use Standard as S;
        for (standard, need, rows) in [
            (
                S::WidestTyre,
                "rear tyre at least 50 mm on 622",
                [("50-622", M::Met), ("49-622", M::NotMet), ("60-584", M::NotPublished)].as_slice(),
            ),
            // 6 mm of gap a side: 62 − 12 = 50.
            (S::WidestTyre, "rear tyre at least 50 mm on 622", &[("clear 62 on 622", M::Met), ("clear 61 on 622", M::NotMet)]),
            // The widest of several counts, wherever it stands.
            (
                S::WidestTyre,
                "rear tyre at least 65 mm on 622",
                &[("60-622; 66-622", M::Met), ("66-622; 60-622", M::Met), ("60-622; 64-622", M::NotMet)],
            ),
            (S::WidestFrontTyre, "front tyre at least 50 mm on 622", &[("50-622", M::Met), ("49-622", M::NotMet)]),
            (S::ForkBosses, "three bosses on the fork", &[("3+3", M::Met), ("2+2", M::NotMet), ("none", M::NotMet)]),
            (S::ForkBosses, "two cages on the fork", &[("3+3", M::Met), ("3 on the left, 1 on the right", M::NotMet)]),
            (S::FrameBosses, "two cages on the frame", &[("2, 2", M::Met), ("3, 2, 2", M::Met), ("2, 1", M::NotMet)]),
            (
                S::RearHub,
                "through axle at the rear",
                &[("142 x 12 through axle", M::Met), ("135 quick release", M::NotMet), ("135", M::NotPublished)],
            ),
            (S::FrontHub, "quick release at the front", &[("100 quick release", M::Met), ("100 x 12 through axle", M::NotMet)]),
            (
                S::RearBrake,
                "rear rotor at least 180 mm",
                &[("IS 160-180", M::Met), ("IS 160-203", M::Met), ("IS 140-160", M::NotMet), ("rim bosses", M::NotMet)],
            ),
            // A mount made for 180 takes 180; whether one made for 160 does, its maker does not say.
            (
                S::RearBrake,
                "rear rotor at least 180 mm",
                &[("post mount 180", M::Met), ("post mount 160", M::NotPublished), ("post mount", M::NotPublished)],
            ),
            (S::FrontDerailleur, "front derailleur", &[("28.6 clamp", M::Met), ("none", M::NotMet)]),
            (S::FrontDerailleur, "no front derailleur", &[("28.6 clamp", M::NotMet), ("none", M::Met)]),
            (S::Dropouts, "gear hub", &[("sliding, gear hub", M::Met), ("vertical", M::NotMet), ("sliding", M::NotPublished)]),
            (S::Dropouts, "belt", &[("sliding, belt", M::Met), ("vertical", M::NotMet), ("sliding", M::NotPublished)]),
            (S::Dropouts, "no belt", &[("sliding, belt", M::NotMet), ("vertical", M::Met), ("sliding", M::NotPublished)]),
            (S::DropperRouting, "dropper post", &[("inside", M::Met), ("outside", M::Met), ("none", M::NotMet)]),
            (S::Eyelets, "rear rack", &[("rear rack", M::Met), ("front rack", M::NotMet)]),
            (S::Eyelets, "front rack", &[("front rack", M::Met), ("rear rack", M::NotMet)]),
            (
                S::Eyelets,
                "mudguards",
                &[("mudguards", M::Met), ("front mudguard", M::NotMet), ("rear mudguard", M::NotMet), ("none", M::NotMet)],
            ),
            // One mudguard is there already.
            (S::Eyelets, "no mudguards", &[("rack", M::Met), ("front mudguard", M::NotMet), ("rear mudguard", M::NotMet)]),
            (S::BottomBracket, "threaded shell", &[("BSA 68", M::Met), ("PF30 68", M::NotMet)]),
        ] {
            assert_eq!(answer_to(need, &[]).met, M::NotPublished, "{need} of a frame that publishes nothing");
            for (text, met) in rows {
                assert_eq!(answer_to(need, &[(standard, *text)]).met, *met, "{need}: {text}");
            }
        }
    }

    #[test]
    fn what_is_for_both_ends_is_asked_of_both() {
        for (front, rear, has, lacks) in [
            ("flat mount 160", "flat mount 160", Met::Met, Met::NotMet),
            ("rim bosses", "flat mount 160", Met::NotMet, Met::NotMet),
            ("flat mount 160", "rim bosses", Met::NotMet, Met::NotMet),
            ("rim bosses", "rim bosses", Met::NotMet, Met::Met),
        ] {
            let published = [(Standard::FrontBrake, front), (Standard::RearBrake, rear)];
            let met = |need| answer_to(need, &published).met;
            assert_eq!((met("disc brakes"), met("no disc brakes")), (has, lacks), "{front}, {rear}");
        }
        for (upper, lower, met) in [
            ("IS42/28.6", "IS52/40", Met::Met),
            ("IS42/28.6", "ZS56/40", Met::Met),
            ("ZS44/28.6", "IS52/40", Met::Met),
            ("ZS44/28.6", "ZS56/40", Met::NotMet),
        ] {
            let published = [(Standard::UpperHeadset, upper), (Standard::LowerHeadset, lower)];
            assert_eq!(answer_to("integrated headset", &published).met, met, "{upper} {lower}");
        }
    }

    #[test]
    fn the_chain_runs_beside_the_rear_tyre_alone() {
        let spacing = |need: &str, standard| match answer_to(need, &[(standard, "60-622 with spacing 142")]).reasons[0].fact {
            NeedFact::WidestTyre { with_spacing_mm, .. } => with_spacing_mm,
            ref other => panic!("{other:?}"),
        };
        assert_eq!(spacing("rear tyre at least 50 mm on 622", Standard::WidestTyre), Some(142.0));
        assert_eq!(spacing("front tyre at least 50 mm on 622", Standard::WidestFrontTyre), None);
    }

    #[test]
    fn bars_and_materials_are_those_of_the_frame() {
        let text = "#![enable(implicit_some)]\nFrameset(format: 2, maker: \"Quern\", model: \"Halter\",
            tubing: (material: Steel), sizes: [(label: \"M\", figures: {Stack: 600})])";
        let mut frameset = read_frameset(text.as_bytes()).unwrap();
        let met = |need: &str, frameset: &Frameset| {
            need.parse::<Need>().unwrap().held_against(frameset, &Statements::of(frameset), None, &Measures::default()).met
        };
        for (bar, drop, flat) in [
            (None, Met::NotPublished, Met::NotPublished),
            (Some(Bar::Drop), Met::Met, Met::NotMet),
            (Some(Bar::Flat), Met::NotMet, Met::Met),
            (Some(Bar::Either), Met::Met, Met::Met),
        ] {
            frameset.bar = bar;
            assert_eq!((met("drop bar", &frameset), met("flat bar", &frameset)), (drop, flat), "{bar:?}");
        }
        assert_eq!((met("steel", &frameset), met("titanium frame", &frameset)), (Met::Met, Met::NotMet));
        frameset.tubing.as_mut().unwrap().material = Material::Titanium;
        assert_eq!((met("no steel", &frameset), met("titanium frame", &frameset)), (Met::Met, Met::Met));
        frameset.tubing = None;
        assert_eq!(met("steel", &frameset), Met::NotPublished);
    }
}
