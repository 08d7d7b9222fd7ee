//! The rider's musts: a short list of readable sentences, each held against what a frame states. What is not stated is
//! never counted as no, and a figure within its ± of the limit is neither.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::reading::{folded, mm, numbers, plain, says};
use super::standards::{Axle, NotUnderstood, Tension, Wheel, bead_seat_named, refused};
use super::stated::{Stated, Statements};
use crate::frameset::{Bar, Figure, Frameset, Material, Standard};
use crate::geometry::AdjustedSize;
use crate::units::plus_minus;

/// What a need asks.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Asks {
    Tyre { width_mm: f64, bead_mm: f64, end: Option<Wheel> },
    ForkBosses(u32),
    FrameCages(u32),
    Axle { is_through: bool, end: Option<Wheel> },
    Rotor { mm: f64, end: Option<Wheel> },
    Figure { figure: Figure, is_least: bool, value: f64 },
    Thing(Thing),
    Lacks(Thing),
}

/// What a frame has or has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Thing {
    FrontDerailleur,
    SuspensionFork,
    DiscBrakes,
    GearHub,
    Belt,
    DropperPost,
    RearRack,
    FrontRack,
    Mudguards,
    DropBar,
    FlatBar,
    ThreadedShell,
    IntegratedHeadset,
    Of(Material),
}

/// Phrases of things, the more particular first.
const THINGS: &[(&str, Thing)] = &[
    ("front derailleur", Thing::FrontDerailleur),
    ("suspension fork", Thing::SuspensionFork),
    ("disc brakes", Thing::DiscBrakes),
    ("disc brake", Thing::DiscBrakes),
    ("discs", Thing::DiscBrakes),
    ("gear hub", Thing::GearHub),
    ("belt", Thing::Belt),
    ("dropper post", Thing::DropperPost),
    ("dropper", Thing::DropperPost),
    ("rear rack", Thing::RearRack),
    ("front rack", Thing::FrontRack),
    ("rack", Thing::RearRack),
    ("mudguards", Thing::Mudguards),
    ("mudguard", Thing::Mudguards),
    ("drop bar", Thing::DropBar),
    ("drop bars", Thing::DropBar),
    ("flat bar", Thing::FlatBar),
    ("flat bars", Thing::FlatBar),
    ("threaded bottom bracket", Thing::ThreadedShell),
    ("threaded shell", Thing::ThreadedShell),
    ("integrated headset", Thing::IntegratedHeadset),
    ("steel", Thing::Of(Material::Steel)),
    ("aluminium", Thing::Of(Material::Aluminium)),
    ("titanium", Thing::Of(Material::Titanium)),
    ("carbon", Thing::Of(Material::Carbon)),
];

/// What the field shows as examples.
pub const NEED_EXAMPLES: &[&str] = &[
    "tyre at least 50 mm on 622",
    "three bosses on the fork",
    "front derailleur",
    "no suspension fork",
    "quick release",
    "two cages on the frame",
    "rotor at least 180 mm",
    "stack at least 600 mm",
];

/// One need, as the user wrote it.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    text: String,
    asks: Asks,
}

/// How a frame answers a need.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Met {
    /// It does.
    Met,
    /// The maker does not state enough.
    NotStated,
    /// A figure whose ± covers the limit.
    WithinPlusMinus,
    /// It does not.
    Unmet,
}

impl Met {
    /// In words.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotStated => "not stated",
            Self::WithinPlusMinus => "within its ±",
            Self::Unmet => "unmet",
        }
    }

    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotStated => "not_stated",
            Self::WithinPlusMinus => "within_plus_minus",
            Self::Unmet => "unmet",
        }
    }
}

/// An answer to one need.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// How.
    pub met: Met,
    /// Why, in a sentence.
    pub reason: String,
}

fn answer(met: Met, reason: impl Into<String>) -> Answer {
    Answer { met, reason: reason.into() }
}

impl fmt::Display for Need {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl Serialize for Need {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for Need {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

/// A count in digits or words.
fn count(text: &str) -> Option<u32> {
    const WORDS: [&str; 9] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"];
    let word = (0u32..).zip(WORDS).find(|(_, w)| says(text, w)).map(|(n, _)| n);
    word.or_else(|| numbers(text).first().and_then(|n| (0u32..=8).find(|k| f64::from(*k) == *n)))
}

fn end_of(text: &str) -> Option<Wheel> {
    match (says(text, "front"), says(text, "rear")) {
        (true, false) => Some(Wheel::Front),
        (false, true) => Some(Wheel::Rear),
        _ => None,
    }
}

impl FromStr for Need {
    type Err = NotUnderstood;

    fn from_str(text: &str) -> Result<Self, NotUnderstood> {
        let words = folded(text);
        let asks = asks(&words).and_then(|a| {
            a.ok_or_else(|| {
                let known = THINGS.iter().map(|t| t.0).chain(NEED_EXAMPLES.iter().copied());
                let hint = crate::frameset::nearest(&words, known).unwrap_or("tyre at least 50 mm on 622");
                NotUnderstood(format!("`{}` is not a need that is known here: did you mean \"{hint}\"?", text.trim()))
            })
        })?;
        Ok(Self { text: text.trim().to_owned(), asks })
    }
}

fn asks(words: &str) -> Result<Option<Asks>, NotUnderstood> {
    if words.starts_with("tyre") || says(words, "tyre at least") || says(words, "tyres") {
        return tyre_need(words).map(Some);
    }
    if says(words, "bosses") || says(words, "boss") {
        if !says(words, "fork") {
            return Ok(None);
        }
        return Ok(count(words).map(Asks::ForkBosses));
    }
    if says(words, "cages") || says(words, "cage") {
        return Ok(count(words).map(Asks::FrameCages));
    }
    let is_through = says(words, "through axle") || says(words, "through axles");
    if is_through || says(words, "quick release") {
        let negated = says(words, "no") || says(words, "without");
        return Ok(Some(Asks::Axle { is_through: is_through != negated, end: end_of(words) }));
    }
    if words.contains("rotor") {
        let Some(size) = numbers(words).first().copied() else { return Ok(None) };
        let mm = super::standards::rotor(&plain(size))?;
        return Ok(Some(Asks::Rotor { mm, end: end_of(words) }));
    }
    if let Some(found) = figure_need(words)? {
        return Ok(Some(found));
    }
    let thing = THINGS.iter().find(|(phrase, _)| says(words, phrase)).map(|(_, thing)| *thing);
    let lacks = says(words, "no") || says(words, "not") || says(words, "without");
    Ok(thing.map(|t| if lacks { Asks::Lacks(t) } else { Asks::Thing(t) }))
}

fn tyre_need(words: &str) -> Result<Asks, NotUnderstood> {
    if let Some(designation) = words.split(' ').find(|w| w.contains('-') && w.bytes().any(|b| b.is_ascii_digit())) {
        let tyre = super::standards::named_tyre(designation)?;
        return Ok(Asks::Tyre { width_mm: tyre.width_mm(), bead_mm: tyre.bead_seat_mm(), end: end_of(words) });
    }
    let (width, wheel) = words.split_once(" on ").unwrap_or((words, ""));
    let wheel = wheel.trim();
    let width_mm = numbers(width).first().copied();
    let bead_mm = match numbers(wheel).first() {
        Some(n) if (203.0..=787.0).contains(n) => Some(*n),
        _ if wheel.is_empty() => None,
        _ => Some(f64::from(bead_seat_named(wheel, None)?)),
    };
    match (width_mm, bead_mm) {
        (Some(width_mm), Some(bead_mm)) if (18.0..=150.0).contains(&width_mm) => {
            Ok(Asks::Tyre { width_mm, bead_mm, end: end_of(words) })
        }
        _ => refused("a tyre is asked for as \"tyre at least 50 mm on 622\""),
    }
}

fn figure_need(words: &str) -> Result<Option<Asks>, NotUnderstood> {
    let (name, rest, is_least) = if let Some((name, rest)) = words.split_once(" at least ") {
        (name, rest, true)
    } else if let Some((name, rest)) = words.split_once(" at most ") {
        (name, rest, false)
    } else {
        return Ok(None);
    };
    let label = |f: Figure| folded(f.label());
    let Some(figure) = Figure::ALL.iter().copied().find(|f| label(*f) == name || f.key().replace('_', " ") == name) else {
        return Ok(None);
    };
    let Some(value) = numbers(rest).first().copied() else { return Ok(None) };
    let about = figure.about();
    if !(about.low..=about.high).contains(&value) {
        return refused(format!(
            "{} of {} is outside {} to {} {}",
            about.label,
            plain(value),
            about.low,
            about.high,
            figure.file_unit()
        ));
    }
    Ok(Some(Asks::Figure { figure, is_least, value }))
}

impl Need {
    /// As the user wrote it.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// How a frame answers, in the size that would be built.
    #[must_use]
    pub fn held_against(&self, frameset: &Frameset, said: &Statements, size: Option<&AdjustedSize>) -> Answer {
        match self.asks {
            Asks::Tyre { width_mm, bead_mm, end } => ends(end, |w| tyre(width_mm, bead_mm, w, said)),
            Asks::ForkBosses(wanted) => stated(&said.fork_bosses, Standard::ForkBosses, |bosses| {
                let reason = format!("Most bosses on a side: {}; {wanted} wanted.", bosses.most());
                answer(met(bosses.most() >= wanted), reason)
            }),
            Asks::FrameCages(wanted) => stated(&said.frame_bosses, Standard::FrameBosses, |bosses| {
                let there = bosses.cages();
                answer(met(there as f64 >= f64::from(wanted)), format!("Places for cages: {there}; {wanted} wanted."))
            }),
            Asks::Axle { is_through, end } => ends(end, |w| axle(is_through, w, said)),
            Asks::Rotor { mm, end } => ends(end, |w| rotor(mm, w, said)),
            Asks::Figure { figure, is_least, value } => figure_answer(figure, is_least, value, size),
            Asks::Thing(thing) => has(thing, frameset, said),
            Asks::Lacks(thing) => {
                let has = has(thing, frameset, said);
                let met = match has.met {
                    Met::Met => Met::Unmet,
                    Met::Unmet => Met::Met,
                    other => other,
                };
                Answer { met, reason: has.reason }
            }
        }
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

fn tyre(width_mm: f64, bead_mm: f64, end: Wheel, said: &Statements) -> Answer {
    let rooms = match (end, &said.widest_front_tyre) {
        (Wheel::Front, front @ (Stated::Is(_) | Stated::NotUnderstood(_))) => front,
        _ => &said.widest_tyre,
    };
    stated(rooms, Standard::WidestTyre, |rooms| {
        let widest = rooms
            .0
            .iter()
            .filter(|r| r.bead_seat_mm == bead_mm)
            // Six millimetres a side where only the clear width is stated (from memory: ISO 4210-2).
            .filter_map(|r| Some((r.widest_mm.or(r.clear_mm.map(|c| c - 12.0))?, r.with_spacing_mm)))
            .fold(None, |best: Option<(f64, Option<f64>)>, room| match best {
                Some(best) if best.0 >= room.0 => Some(best),
                _ => Some(room),
            });
        match widest {
            Some((widest, spacing)) => {
                let with = spacing.map(|s| format!(" with a crank of spacing {}", plain(s))).unwrap_or_default();
                answer(met(widest >= width_mm), format!("Up to {} on {}{with}.", mm(widest), plain(bead_mm)))
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
    let over = if is_least { value.value - limit } else { limit - value.value };
    let met = if over.abs() <= 2.0 * value.u { Met::WithinPlusMinus } else { met(over > 0.0) };
    let unit = if figure.is_angle() { "°".to_owned() } else { format!("{}mm", crate::units::THIN_SPACE) };
    answer(met, format!("{} {}{unit}.", figure.label(), plus_minus(value.value, 2.0 * value.u)))
}

fn has(thing: Thing, frameset: &Frameset, said: &Statements) -> Answer {
    match thing {
        Thing::FrontDerailleur => stated(&said.front_derailleur, Standard::FrontDerailleur, |d| {
            use super::standards::Attachment as A;
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
            answer(met(r.is_inside || r.is_outside), if r.is_inside { "The cable runs inside." } else { "As the maker states." })
        }),
        Thing::RearRack | Thing::FrontRack | Thing::Mudguards => stated(&said.eyelets, Standard::Eyelets, |e| {
            let is_there = match thing {
                Thing::RearRack => e.rear_rack,
                Thing::FrontRack => e.front_rack,
                _ => e.front_mudguard && e.rear_mudguard,
            };
            answer(met(is_there), if is_there { "Eyelets are stated." } else { "Eyelets are stated, but not for this." })
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
            let is_threaded = shell.row.thread == super::standards::Thread::Threaded;
            answer(met(is_threaded), format!("{}, {}.", shell.row.name, shell.row.bore))
        }),
        Thing::IntegratedHeadset => stated(&said.upper_headset, Standard::UpperHeadset, |upper| {
            stated(&said.lower_headset, Standard::LowerHeadset, |lower| {
                let is_any = [upper, lower].iter().any(|e| e.kind == super::standards::CupKind::Integrated);
                answer(met(is_any), format!("{upper} | {lower}."))
            })
        }),
        Thing::Of(material) => match frameset.tubing.as_ref() {
            None => answer(Met::NotStated, "The material is not stated."),
            Some(tubing) => answer(met(tubing.material == material), format!("The frame is of {}.", tubing.material.label())),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    fn held(need: &str, frame: &str) -> Met {
        let text = match frame {
            "drift" => include_str!("../../sample-frames/marrowby-drift.frame.ron"),
            "fourways" => include_str!("../../sample-frames/tansett-fourways.frame.ron"),
            "wether" => include_str!("../../sample-frames/hollinshaw-wether.frame.ron"),
            _ => include_str!("../../sample-frames/wrenfold-ambler.frame.ron"),
        };
        let frameset = read_frameset(text.as_bytes()).unwrap();
        let adjusted = adjust(&frameset);
        need.parse::<Need>().unwrap().held_against(&frameset, &Statements::of(&frameset), adjusted.sizes.get(1)).met
    }

    #[test]
    fn every_example_is_read_and_written_back() {
        for text in NEED_EXAMPLES {
            let need: Need = text.parse().unwrap();
            assert_eq!(ron::from_str::<Need>(&ron::to_string(&need).unwrap()).unwrap(), need);
        }
        let wrong = |text: &str| text.parse::<Need>().unwrap_err().to_string();
        assert!(wrong("front deraileur").contains("front derailleur"));
        assert!(wrong("tyre at least 50 mm on 26").contains("more than one wheel"));
        assert!(wrong("tyre at least 50").contains("on 622"));
        assert!(wrong("rotor at least 1800").contains("180"));
        assert!(wrong("stack at least 6000 mm").contains("outside"));
        assert!(wrong("").contains("did you mean"));
    }

    #[test]
    fn frames_answer_by_what_they_state() {
        assert_eq!(held("tyre at least 50 mm on 622", "drift"), Met::Met);
        assert_eq!(held("tyre at least 70 mm on 622", "drift"), Met::Unmet);
        assert_eq!(held("tyre at least 50 mm on 559", "drift"), Met::NotStated);
        assert_eq!(held("three bosses on the fork", "drift"), Met::Met);
        assert_eq!(held("no suspension fork", "drift"), Met::Met);
        assert_eq!(held("no suspension fork", "fourways"), Met::Unmet);
        assert_eq!(held("quick release", "drift"), Met::Met);
        assert_eq!(held("quick release", "fourways"), Met::Unmet);
        assert_eq!(held("through axle", "fourways"), Met::Met);
        assert_eq!(held("belt", "ambler"), Met::Met);
        assert_eq!(held("steel", "drift"), Met::Met);
        assert_eq!(held("integrated headset", "drift"), Met::Unmet);
    }

    #[test]
    fn what_is_not_stated_is_never_counted_as_no() {
        for need in ["tyre at least 50 mm on 622", "three bosses on the fork", "front derailleur", "no suspension fork", "rack"] {
            assert_eq!(held(need, "wether"), Met::NotStated, "{need}");
        }
    }

    #[test]
    fn a_figure_within_its_plus_minus_is_neither() {
        assert_eq!(held("stack at least 600 mm", "drift"), Met::Met);
        assert_eq!(held("stack at least 613 mm", "drift"), Met::WithinPlusMinus);
        assert_eq!(held("stack at most 600 mm", "drift"), Met::Unmet);
    }
}
