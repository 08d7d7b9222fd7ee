//! What a need asks, out of its words. Every word is understood by the branch that takes it, or the need is refused by
//! naming the words that are not: half a need is never taken for the whole.

use super::super::reading::{folded, number, plain};
use super::super::standards::{NotUnderstood, Wheel, bead_seat_named, named_tyre, refused, rotor};
use super::NEED_EXAMPLES;
use super::measure::Measure;
use super::words::{Unit, Words};
use crate::frameset::{Figure, Material};

/// What a need asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Asks {
    Tyre { width_mm: f64, bead_mm: f64, end: Option<Wheel> },
    ForkBosses(u32),
    ForkCages(u32),
    FrameCages(u32),
    Axle { is_through: bool, end: Option<Wheel> },
    Rotor { mm: f64, end: Option<Wheel> },
    Figure { figure: Figure, is_least: bool, value: f64 },
    Measure { measure: Measure, is_least: bool, value: f64 },
    Travel { is_least: bool, mm: f64 },
    Thing(Thing),
    Lacks(Thing),
}

/// What a frame has or has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Thing {
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
    ("steel frame", Thing::Of(Material::Steel)),
    ("aluminium frame", Thing::Of(Material::Aluminium)),
    ("titanium frame", Thing::Of(Material::Titanium)),
    ("carbon frame", Thing::Of(Material::Carbon)),
    ("steel", Thing::Of(Material::Steel)),
    ("aluminium", Thing::Of(Material::Aluminium)),
    ("titanium", Thing::Of(Material::Titanium)),
    ("carbon", Thing::Of(Material::Carbon)),
];

/// What a need's text asks.
///
/// # Errors
/// What is not understood of it, and how it is written.
pub(super) fn read(text: &str) -> Result<Asks, NotUnderstood> {
    let written = text;
    let text = &in_words(text);
    let mut words = Words::of(text);
    if words.take_any(&["tyre", "tyres"]) {
        return tyre(words);
    }
    if words.take_any(&["bosses", "boss"]) {
        return bosses(words);
    }
    if words.take_any(&["cages", "cage"]) {
        return cages(words);
    }
    if words.has("through axle") || words.has("through axles") || words.has("quick release") {
        return axle(words);
    }
    if words.take_any(&["rotor", "rotors"]) {
        return rotor_size(words);
    }
    // Before the figures, so that travel is read as the fork's.
    if let Some((phrase, thing)) = THINGS.iter().find(|(phrase, _)| words.has(phrase)) {
        words.take(phrase);
        return a_thing(words, phrase, *thing);
    }
    if let Some(asks) = limit(&folded(text))? {
        return Ok(asks);
    }
    let known = THINGS.iter().map(|t| t.0).chain(NEED_EXAMPLES.iter().copied());
    let hint = crate::frameset::nearest(&folded(text), known).unwrap_or("tyre at least 50 mm on 622");
    refused(format!("`{}` is not a need that is known here: did you mean \"{hint}\"?", written.trim()))
}

/// `chainstay ≤ 450` as `chainstay at most 450`.
fn in_words(text: &str) -> String {
    [("<=", " at most "), ("≤", " at most "), (">=", " at least "), ("≥", " at least ")]
        .into_iter()
        .fold(text.to_owned(), |text, (sign, words)| text.replace(sign, words))
}

const TYRE: &str = "tyre at least 50 mm on 622";

fn tyre(mut words: Words) -> Result<Asks, NotUnderstood> {
    words.take_any(&["of at least", "at least"]);
    let end = words.take_end();
    let is_designation = |w: &str| w.split_once('-').is_some_and(|(a, b)| number(a).is_some() && number(b).is_some());
    if let Some(designation) = words.take_word(is_designation) {
        let tyre = named_tyre(&designation)?;
        words.all_understood("a tyre", "tyre 50-622")?;
        return Ok(Asks::Tyre { width_mm: tyre.width_mm(), bead_mm: tyre.bead_seat_mm(), end });
    }
    let wheel = if words.take("on") { words.take_behind("on") } else { None };
    let bead_mm = match wheel.as_deref() {
        None => None,
        Some(wheel) => match number(wheel).filter(|n| (203.0..=787.0).contains(n)) {
            Some(bead) => {
                words.take_any(&["mm"]);
                Some(bead)
            }
            None => Some(f64::from(bead_seat_named(wheel, None)?)),
        },
    };
    words.take_any(&["inch", "in", "rims", "rim", "wheels", "wheel"]);
    let width_mm = words.take_number().filter(|(n, unit)| (18.0..=150.0).contains(n) && *unit != Unit::Degrees);
    words.take("wide");
    words.all_understood("a tyre", TYRE)?;
    match (width_mm, bead_mm) {
        (Some((width_mm, _)), Some(bead_mm)) => Ok(Asks::Tyre { width_mm, bead_mm, end }),
        _ => refused(format!("a tyre is asked for as \"{TYRE}\"")),
    }
}

fn bosses(mut words: Words) -> Result<Asks, NotUnderstood> {
    const EXAMPLE: &str = "three bosses on the fork";
    words.take("at least");
    let count = words.take_count();
    let is_fork = words.take_any(&["on each side of the fork", "on the fork", "on fork", "fork"]);
    words.all_understood("bosses", EXAMPLE)?;
    match count {
        Some(count) if is_fork => Ok(Asks::ForkBosses(count)),
        _ => refused(format!(
            "bosses are counted from one to eight on one side of the fork: write \"{EXAMPLE}\"; of the frame write \"two cages \
             on the frame\""
        )),
    }
}

fn cages(mut words: Words) -> Result<Asks, NotUnderstood> {
    const EXAMPLE: &str = "two cages on the frame";
    words.take("at least");
    let count = words.take_count();
    let is_fork = words.take_any(&["on the fork", "on fork"]);
    if !is_fork {
        words.take_any(&["on the frame", "on frame"]);
    }
    words.all_understood("cages", EXAMPLE)?;
    match count {
        Some(count) if is_fork => Ok(Asks::ForkCages(count)),
        Some(count) => Ok(Asks::FrameCages(count)),
        None => refused(format!("cages are counted from one to eight: write \"{EXAMPLE}\"")),
    }
}

fn axle(mut words: Words) -> Result<Asks, NotUnderstood> {
    let is_negated = words.take_negation();
    let is_through = words.take_any(&["through axles", "through axle"]);
    if !is_through {
        words.take("quick release");
        words.take_any(&["axles", "axle"]);
    }
    words.take_any(&["hubs", "hub", "wheels", "wheel"]);
    let end = words.take_end();
    words.all_understood("an axle", "no quick release")?;
    Ok(Asks::Axle { is_through: is_through != is_negated, end })
}

fn rotor_size(mut words: Words) -> Result<Asks, NotUnderstood> {
    const EXAMPLE: &str = "rotor at least 180 mm";
    words.take_any(&["of at least", "at least"]);
    let end = words.take_end();
    let size = words.take_number().filter(|(_, unit)| *unit != Unit::Degrees);
    words.all_understood("a rotor", EXAMPLE)?;
    match size {
        Some((mm, _)) => Ok(Asks::Rotor { mm: rotor(&plain(mm))?, end }),
        None => refused(format!("a rotor is asked for as \"{EXAMPLE}\"")),
    }
}

fn a_thing(mut words: Words, phrase: &str, thing: Thing) -> Result<Asks, NotUnderstood> {
    let lacks = words.take_negation();
    if thing == Thing::SuspensionFork && !lacks && (words.has("at least") || words.has("at most")) {
        const EXAMPLE: &str = "suspension fork with at least 120 mm travel";
        let is_least = words.take("at least");
        if !is_least {
            words.take("at most");
        }
        words.take_any(&["with", "of"]);
        let travel = words.take_number();
        words.take_any(&["of travel", "travel"]);
        words.all_understood("a suspension fork", EXAMPLE)?;
        return match travel {
            Some((mm, Unit::None | Unit::Millimetres)) if (1.0..=250.0).contains(&mm) => Ok(Asks::Travel { is_least, mm }),
            _ => refused(format!("a fork's travel is asked for in mm up to 250, as \"{EXAMPLE}\"")),
        };
    }
    let example = if lacks { format!("no {phrase}") } else { phrase.to_owned() };
    words.all_understood(&format!("\"{phrase}\""), &example)?;
    Ok(if lacks { Asks::Lacks(thing) } else { Asks::Thing(thing) })
}

fn limit(text: &str) -> Result<Option<Asks>, NotUnderstood> {
    let (name, rest, is_least) = if let Some((name, rest)) = text.split_once(" at least ") {
        (name, rest, true)
    } else if let Some((name, rest)) = text.split_once(" at most ") {
        (name, rest, false)
    } else {
        return Ok(None);
    };
    let name = name.trim_start_matches("the ").trim();
    if let Some(measure) = Measure::named(name) {
        return Ok(Some(Asks::Measure { measure, is_least, value: measure.read(rest)? }));
    }
    let label = |f: Figure| folded(f.label());
    let Some(figure) = Figure::ALL.iter().copied().find(|f| label(*f) == name || f.key().replace('_', " ") == name) else {
        return Ok(None);
    };
    let mut words = Words::of(rest);
    let value = words.take_number();
    let about = figure.about();
    let limit = if is_least { "least" } else { "most" };
    let unit = if figure.is_angle() { "°" } else { " mm" };
    let example = format!("{name} at {limit} {}{unit}", plain(f64::midpoint(about.low, about.high).round()));
    words.all_understood(&format!("\"{name}\""), &example)?;
    let Some((value, written)) = value else { return refused(format!("`{rest}` is not a valid number: write \"{example}\"")) };
    let is_other = if figure.is_angle() { written == Unit::Millimetres } else { written == Unit::Degrees };
    if is_other {
        return refused(format!("{} is not measured so: write \"{example}\"", about.label));
    }
    if !(about.low..=about.high).contains(&value) {
        return refused(format!(
            "{} of {} is outside {} to {} {}",
            about.label,
            plain(value),
            plain(about.low),
            plain(about.high),
            figure.file_unit()
        ));
    }
    Ok(Some(Asks::Figure { figure, is_least, value }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tyre_is_asked_for_by_designation_or_by_width_and_wheel() {
        let rear = Asks::Tyre { width_mm: 50.0, bead_mm: 622.0, end: Some(Wheel::Rear) };
        for text in [
            "rear tyre 50-622",
            "tyre 50-622 at the rear",
            "rear tyre at least 50 on 622",
            "rear tyre of at least 50 mm on 622 rims",
        ] {
            assert_eq!(read(text), Ok(rear), "{text}");
        }
        let refused = |text: &str| read(text).unwrap_err().0;
        for text in ["tyre wide-622", "tyre 50-wide"] {
            assert!(refused(text).contains("not understood in a need for a tyre"), "{}", refused(text));
        }
        for text in ["tyre at least 500 mm on 622", "tyre at least 50° on 622", "tyre at least 50 mm", "tyre on 622"] {
            assert!(refused(text).contains("a tyre is asked for as"), "{}", refused(text));
        }
    }

    #[test]
    fn cages_on_the_fork_are_not_those_on_the_frame() {
        assert_eq!(read("two cages on the fork"), Ok(Asks::ForkCages(2)));
        assert_eq!(read("at least 3 cages on the frame"), Ok(Asks::FrameCages(3)));
        assert_eq!(read("two cages"), Ok(Asks::FrameCages(2)));
        assert!(read("cages on the fork").unwrap_err().0.contains("one to eight"));
    }

    #[test]
    fn a_limit_is_written_in_words_or_with_a_sign() {
        let chainstay = Asks::Figure { figure: Figure::Chainstay, is_least: false, value: 450.0 };
        for text in ["chainstay ≤ 450", "Chainstay <= 450 mm", "chainstay≤450mm", "chainstay at most 450 mm"] {
            assert_eq!(read(text), Ok(chainstay), "{text}");
        }
        let asks = |measure, is_least, value| Ok(Asks::Measure { measure, is_least, value });
        for (text, asked) in [
            ("frameset weight at most 2500 g", asks(Measure::FramesetWeight, false, 2500.0)),
            ("weight ≤ 2.5 kg", asks(Measure::FramesetWeight, false, 2500.0)),
            ("loaded weight ≤ 100", asks(Measure::LoadedWeight, false, 100_000.0)),
            ("price at most 1200", asks(Measure::Price, false, 1200.0)),
            ("frame bag ≥ 6 l", asks(Measure::BagVolume, true, 6.0)),
            ("bottles at least 2", asks(Measure::Bottles, true, 2.0)),
        ] {
            assert_eq!(read(text), asked, "{text}");
        }
        let refused = |text: &str| read(text).unwrap_err().0;
        assert_eq!(refused("weight at most 2 mm"), "`2 mm` is not a frameset weight: write \"frameset weight at most 2500 g\"");
        assert!(refused("price at most 1200 apples").contains("write \"price at most 1200\""));
        assert!(refused("frame bag at least 600 l").contains("is outside 0 to 100"));
    }

    #[test]
    fn a_figure_goes_by_its_name_on_screen_or_in_json() {
        let drop = Asks::Figure { figure: Figure::BbDrop, is_least: false, value: 70.0 };
        for text in ["bottom bracket drop at most 70 mm", "the bb drop at most 70", "BB drop at most 70 mm"] {
            assert_eq!(read(text), Ok(drop), "{text}");
        }
        let refused = |text: &str| read(text).unwrap_err().0;
        assert!(refused("head angle at least 70 mm").contains("not measured so"));
        assert!(refused("stack at least 600°").contains("not measured so"));
        assert!(refused("stack at least 60 mm").contains("outside 300 to 900 mm"), "{}", refused("stack at least 60 mm"));
    }
}
