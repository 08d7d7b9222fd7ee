//! How a frame answers what a need asks, by what its maker states.

use super::super::reading::{mm, plain};
use super::super::standards::{Axle, Tension, Wheel};
use super::super::stated::{Stated, Statements};
use super::asks::{Asks, Thing};
use super::{Answer, Met};
use crate::frameset::{Bar, Figure, Frameset, Standard};
use crate::geometry::AdjustedSize;
use crate::units::System;

fn answer(met: Met, reason: impl Into<String>) -> Answer {
    Answer { met, reason: reason.into() }
}

/// The answer, in the size that would be built.
pub(super) fn answer_of(asks: Asks, frameset: &Frameset, said: &Statements, size: Option<&AdjustedSize>) -> Answer {
    match asks {
        Asks::Tyre { width_mm, bead_mm, end } => ends(end, |w| tyre((width_mm, bead_mm), w, end.is_some(), said)),
        Asks::ForkBosses(wanted) => stated(&said.fork_bosses, Standard::ForkBosses, |bosses| {
            let reason = format!("Most bosses on a side: {}; {wanted} wanted.", bosses.most());
            answer(met(bosses.most() >= wanted), reason)
        }),
        Asks::ForkCages(wanted) => stated(&said.fork_bosses, Standard::ForkBosses, |bosses| {
            let there = bosses.cages();
            answer(met(there as f64 >= f64::from(wanted)), format!("Places for cages on the fork: {there}; {wanted} wanted."))
        }),
        Asks::FrameCages(wanted) => stated(&said.frame_bosses, Standard::FrameBosses, |bosses| {
            let there = bosses.cages();
            answer(met(there as f64 >= f64::from(wanted)), format!("Places for cages: {there}; {wanted} wanted."))
        }),
        Asks::Axle { is_through, end } => ends(end, |w| axle(is_through, w, said)),
        Asks::Rotor { mm, end } => ends(end, |w| rotor(mm, w, said)),
        Asks::Figure { figure, is_least, value } => figure_answer(figure, is_least, value, size),
        Asks::Thing(thing) => has(thing, frameset, said),
        Asks::Travel { is_least, mm } => travel(is_least, mm, frameset),
        Asks::Lacks(thing) => lacks(thing, frameset, said),
    }
}

fn met(is_met: bool) -> Met {
    if is_met { Met::Met } else { Met::Unmet }
}

fn stated<T>(value: &Stated<T>, standard: Standard, then: impl FnOnce(&T) -> Answer) -> Answer {
    match value.known(standard) {
        Ok(value) => then(value),
        Err(why) => answer(Met::NotStated, why),
    }
}

/// One end, or both: then the worse answer.
fn ends(end: Option<Wheel>, one: impl Fn(Wheel) -> Answer) -> Answer {
    if let Some(end) = end {
        return one(end);
    }
    let (front, rear) = (one(Wheel::Front), one(Wheel::Rear));
    match front.met.cmp(&rear.met) {
        std::cmp::Ordering::Less => Answer { reason: format!("Rear: {}", rear.reason), ..rear },
        std::cmp::Ordering::Greater => Answer { reason: format!("Front: {}", front.reason), ..front },
        std::cmp::Ordering::Equal if front.reason == rear.reason => rear,
        std::cmp::Ordering::Equal => answer(rear.met, format!("Front: {} Rear: {}", front.reason, rear.reason)),
    }
}

/// Room for a tyre of that width and bead seat, mm. What is stated for the frame is not stated for its fork; a need that
/// names no end is asked of the frame and says so, one that names the front is not answered by it.
fn tyre((width_mm, bead_mm): (f64, f64), end: Wheel, is_end_named: bool, said: &Statements) -> Answer {
    let (rooms, standard, is_of_frame) = match (end, &said.widest_front_tyre) {
        (Wheel::Front, Stated::NotStated) => (&said.widest_tyre, Standard::WidestTyre, true),
        (Wheel::Front, front) => (front, Standard::WidestFrontTyre, false),
        (Wheel::Rear, _) => (&said.widest_tyre, Standard::WidestTyre, false),
    };
    let of_frame = if is_of_frame { ", stated for the frame and not for its fork" } else { "" };
    stated(rooms, standard, |rooms| {
        let widest = rooms
            .0
            .iter()
            .filter(|r| r.bead_seat_mm == bead_mm)
            // Six millimetres a side where only the clear width is stated (ISO 4210-2, from memory).
            .filter_map(|r| Some((r.widest_mm.or(r.clear_mm.map(|c| c - 12.0))?, r.with_spacing_mm)))
            .fold(None, |best: Option<(f64, Option<f64>)>, room| match best {
                Some(best) if best.0 >= room.0 => Some(best),
                _ => Some(room),
            });
        match widest {
            Some((widest, spacing)) => {
                // The chain runs beside the rear tyre only.
                let with = spacing
                    .filter(|_| end == Wheel::Rear)
                    .map(|s| format!(" with a crank of spacing {}", plain(s)))
                    .unwrap_or_default();
                let answered = if is_of_frame && is_end_named { Met::NotStated } else { met(widest >= width_mm) };
                answer(answered, format!("Up to {} on {}{with}{of_frame}.", mm(widest), plain(bead_mm)))
            }
            None => {
                answer(Met::NotStated, format!("Room is stated on {} only, not on {}.", rooms.wheels_in_words(), plain(bead_mm)))
            }
        }
    })
}

fn axle(is_through: bool, end: Wheel, said: &Statements) -> Answer {
    let (hub, standard) = match end {
        Wheel::Front => (&said.front_hub, Standard::FrontHub),
        Wheel::Rear => (&said.rear_hub, Standard::RearHub),
    };
    stated(hub, standard, |hub| match hub.axle {
        None => answer(Met::NotStated, format!("{}, the axle is not stated.", mm(hub.spacing_mm))),
        Some(axle) => answer(met(matches!(axle, Axle::Through(_)) == is_through), format!("{hub}.")),
    })
}

fn rotor(wanted_mm: f64, end: Wheel, said: &Statements) -> Answer {
    let (mount, standard) = match end {
        Wheel::Front => (&said.front_brake, Standard::FrontBrake),
        Wheel::Rear => (&said.rear_brake, Standard::RearBrake),
    };
    stated(mount, standard, |mount| {
        if !mount.kind.is_disc() {
            return answer(Met::Unmet, format!("{}: no disc.", mount.kind.words()));
        }
        match (mount.most_mm, mount.native_mm) {
            (Some(most), _) => answer(met(most >= wanted_mm), format!("Rotors up to {}.", mm(most))),
            (None, Some(native)) if native >= wanted_mm => answer(Met::Met, format!("The mount is made for {}.", mm(native))),
            _ => answer(Met::NotStated, "The largest rotor is not stated."),
        }
    })
}

fn figure_answer(figure: Figure, is_least: bool, limit: f64, size: Option<&AdjustedSize>) -> Answer {
    let Some(value) = size.map(|s| *s.value(figure)).filter(|v| !v.is_missing) else {
        return answer(Met::NotStated, format!("Nothing determines the {}.", figure.label().to_lowercase()));
    };
    let measured = value.measured();
    let over = if is_least { measured.moved(-limit) } else { (-measured).moved(limit) };
    let met = if over.is_clear() { met(over.value > 0.0) } else { Met::WithinPlusMinus };
    answer(met, format!("{} {}.", figure.label(), System::Metric.text(figure.quantity(), measured)))
}

fn travel(is_least: bool, limit_mm: f64, frameset: &Frameset) -> Answer {
    match frameset.fork.as_ref().and_then(|f| f.travel) {
        None => answer(Met::NotStated, "The maker does not say what fork it is."),
        Some(travel) if travel > 0.0 => {
            let is_met = if is_least { travel >= limit_mm } else { travel <= limit_mm };
            answer(met(is_met), format!("A fork of {} travel.", mm(travel)))
        }
        Some(_) => answer(Met::Unmet, "A rigid fork."),
    }
}

/// That a thing is not there. Of what is for both ends, one of them is there already.
fn lacks(thing: Thing, frameset: &Frameset, said: &Statements) -> Answer {
    match thing {
        Thing::DiscBrakes => stated(&said.rear_brake, Standard::RearBrake, |rear| {
            stated(&said.front_brake, Standard::FrontBrake, |front| {
                let is_any = rear.kind.is_disc() || front.kind.is_disc();
                answer(met(!is_any), format!("Front {}, rear {}.", front.kind.words(), rear.kind.words()))
            })
        }),
        Thing::Mudguards => stated(&said.eyelets, Standard::Eyelets, |e| {
            let is_any = e.front_mudguard || e.rear_mudguard;
            let reason = if is_any {
                "The maker states eyelets for a mudguard.".to_owned()
            } else {
                e.none_for("a mudguard at either end")
            };
            answer(met(!is_any), reason)
        }),
        _ => {
            let has = has(thing, frameset, said);
            let met = match has.met {
                Met::Met => Met::Unmet,
                Met::Unmet => Met::Met,
                other => other,
            };
            Answer { met, ..has }
        }
    }
}

fn has(thing: Thing, frameset: &Frameset, said: &Statements) -> Answer {
    match thing {
        Thing::FrontDerailleur => stated(&said.front_derailleur, Standard::FrontDerailleur, |d| {
            use super::super::standards::Attachment as A;
            match d.attachment {
                A::None => answer(Met::Unmet, "The maker says that it takes none."),
                A::Clamp(tube) => answer(Met::Met, format!("A clamp of {}.", mm(tube))),
                A::BrazeOn => answer(Met::Met, "A tab for one."),
                A::Direct => answer(Met::Met, "Direct mount."),
            }
        }),
        Thing::SuspensionFork => match frameset.fork.as_ref().and_then(|f| f.travel) {
            None => answer(Met::NotStated, "The maker does not say what fork it is."),
            Some(travel) if travel > 0.0 => answer(Met::Met, format!("A fork of {} travel.", mm(travel))),
            Some(_) => answer(Met::Unmet, "A rigid fork."),
        },
        Thing::DiscBrakes => stated(&said.rear_brake, Standard::RearBrake, |rear| {
            stated(&said.front_brake, Standard::FrontBrake, |front| {
                let is_both = rear.kind.is_disc() && front.kind.is_disc();
                answer(met(is_both), format!("Front {}, rear {}.", front.kind.words(), rear.kind.words()))
            })
        }),
        Thing::GearHub => stated(&said.dropouts, Standard::Dropouts, |d| {
            if d.is_for_gear_hub {
                answer(Met::Met, "The maker sells it for one.")
            } else if d.tension == Tension::None {
                answer(Met::Unmet, "Vertical dropouts, which only a chain tensioner would help.")
            } else {
                answer(Met::NotStated, "The chain can be tensioned; a gear hub is not stated.")
            }
        }),
        Thing::Belt => stated(&said.dropouts, Standard::Dropouts, |d| {
            if d.opens_for_belt {
                answer(Met::Met, "The frame opens for a belt.")
            } else if d.tension == Tension::None {
                answer(Met::Unmet, "Vertical dropouts do not tension a belt.")
            } else {
                answer(Met::NotStated, "Whether the frame opens for a belt is not stated.")
            }
        }),
        Thing::DropperPost => stated(&said.dropper_routing, Standard::DropperRouting, |r| {
            answer(
                met(r.is_inside || r.is_outside),
                match (r.is_inside, r.is_outside) {
                    (true, true) => "The cable runs inside or outside.",
                    (true, false) => "The cable runs inside.",
                    (false, true) => "The cable runs outside.",
                    (false, false) => "The maker says that there is no way for its cable.",
                },
            )
        }),
        Thing::RearRack | Thing::FrontRack | Thing::Mudguards => stated(&said.eyelets, Standard::Eyelets, |e| {
            let (is_there, what) = match thing {
                Thing::RearRack => (e.rear_rack, "a rear rack"),
                Thing::FrontRack => (e.front_rack, "a front rack"),
                _ => (e.front_mudguard && e.rear_mudguard, "mudguards at both ends"),
            };
            answer(met(is_there), if is_there { format!("The maker states eyelets for {what}.") } else { e.none_for(what) })
        }),
        Thing::DropBar | Thing::FlatBar => match frameset.bar {
            None => answer(Met::NotStated, "The maker does not say for which bar it is drawn."),
            Some(Bar::Either) => answer(Met::Met, "Drawn for either."),
            Some(bar) => {
                let wanted = if thing == Thing::DropBar { Bar::Drop } else { Bar::Flat };
                answer(met(bar == wanted), if bar == Bar::Drop { "Drawn for drop bars." } else { "Drawn for flat bars." })
            }
        },
        Thing::ThreadedShell => stated(&said.bottom_bracket, Standard::BottomBracket, |shell| {
            let is_threaded = shell.row.thread == super::super::standards::Thread::Threaded;
            answer(met(is_threaded), format!("{}, {}.", shell.row.name, shell.row.bore))
        }),
        Thing::IntegratedHeadset => stated(&said.upper_headset, Standard::UpperHeadset, |upper| {
            stated(&said.lower_headset, Standard::LowerHeadset, |lower| {
                let is_any = [upper, lower].iter().any(|e| e.kind == super::super::standards::CupKind::Integrated);
                answer(met(is_any), format!("{upper} | {lower}."))
            })
        }),
        Thing::Of(material) => match frameset.tubing.as_ref() {
            None => answer(Met::NotStated, "The material is not stated."),
            Some(tubing) => answer(met(tubing.material == material), format!("The frame is of {}.", tubing.material.label())),
        },
    }
}
