//! How a frame answers a need, in words.

use super::super::lengths::trade_size;
use super::super::riding::loaded_total_text;
use super::brakes::{NO_DISC_MOUNT, largest_rotor, made_for};
use super::carrying::{NO_EYELETS, eyelets, other_eyelets};
use super::names::{hub_name, mount_name, shell_name};
use super::unknown_text;
use super::wheels::{not_published, travel, widest_tyre};
use crate::frameset::Bar;
use crate::parts::standards::{Attachment, PostRouting, Wheel};
use crate::parts::{Answer, Measure, Met, NeedFact, Unknown};
use crate::units::{System, as_typed, capitalised, lower_first};
use crate::words::Label;

/// How a need is answered, in a word or two.
#[must_use]
pub fn met_name(answer: &Answer) -> &'static str {
    match answer.met {
        Met::Met => "met",
        Met::Borderline => "borderline",
        Met::NotPublished if answer.reasons.iter().all(|r| matches!(r.fact, NeedFact::Unknown(Unknown::NotPublished(_)))) => {
            "not published"
        }
        Met::NotPublished => "unknown",
        Met::NotMet => "not met",
    }
}

/// Why a need is answered so, in sentences.
#[must_use]
pub fn answer_text(units: System, answer: &Answer) -> String {
    let sentences = answer.reasons.iter().map(|reason| {
        let fact = fact_text(units, &reason.fact);
        match reason.end {
            Some(Wheel::Front) => format!("Front: {}", lower_first_word(&fact)),
            Some(Wheel::Rear) => format!("Rear: {}", lower_first_word(&fact)),
            None => fact,
        }
    });
    sentences.collect::<Vec<_>>().join(" ")
}

/// A sentence behind a colon: its first letter small, but in abbreviations.
fn lower_first_word(sentence: &str) -> String {
    let is_abbreviation = sentence.chars().nth(1).is_some_and(|c| c.is_uppercase() || c.is_ascii_digit());
    if is_abbreviation { sentence.to_owned() } else { lower_first(sentence) }
}

fn fact_text(units: System, fact: &NeedFact) -> String {
    let there_are = |there: String, what: &str, needed: u32| format!("{what}: {there}. Needed: {needed}.");
    match fact {
        NeedFact::Unknown(unknown) => unknown_text(unknown),
        NeedFact::BossesOnSide { there, needed } => there_are(there.to_string(), "Bosses on one side of the fork", *needed),
        NeedFact::CagesOnFork { there, needed } => there_are(there.to_string(), "Places for cages on the fork", *needed),
        NeedFact::CagesOnFrame { there, needed } => there_are(there.to_string(), "Places for cages on the frame", *needed),
        NeedFact::WidestTyre { widest_mm, bead_mm, with_spacing_mm, is_of_frame_only } => {
            widest_tyre(*widest_mm, *bead_mm, *with_spacing_mm, *is_of_frame_only)
        }
        NeedFact::WheelNotPublished { bead_mm, published_mm } => not_published(*bead_mm, published_mm),
        NeedFact::AxleUnknown { spacing_mm } => {
            format!("The dropouts are {} apart; the axle is not published.", trade_size(*spacing_mm))
        }
        NeedFact::Takes(hub) => format!("Hub {}.", hub_name(*hub)),
        NeedFact::NoDiscMount(_) => NO_DISC_MOUNT.to_owned(),
        NeedFact::LargestRotor { most_mm } => largest_rotor(*most_mm),
        NeedFact::MountMadeFor { native_mm } => made_for(*native_mm),
        NeedFact::LargestRotorUnknown => "The largest rotor is not published.".to_owned(),
        NeedFact::FigureUnknown(figure) => format!("{} is unknown.", figure.label()),
        NeedFact::FigureIs(figure, value) => {
            format!("{} {}.", figure.label(), units.text(figure.quantity(), *value))
        }
        NeedFact::MeasureUnknown(measure) => format!("{} unknown.", measure_sentence(*measure)),
        NeedFact::MeasureIs(measure, value) => {
            let is = match measure.quantity() {
                Some(_) if *measure == Measure::LoadedWeight => loaded_total_text(units, value.as_mass()),
                Some(quantity) => units.text(quantity, *value),
                None => as_typed(value.value),
            };
            format!("{} {is}.", capitalised(measure.name()))
        }
        NeedFact::ForkUnknown => "The maker does not publish the type of fork.".to_owned(),
        NeedFact::SuspensionFork { travel_mm } => travel(units, *travel_mm),
        NeedFact::RigidFork => "The frame has a rigid fork.".to_owned(),
        NeedFact::BrakeMounts { front, rear } => format!("Front {}, rear {}.", mount_name(*front), mount_name(*rear)),
        NeedFact::Eyelets(what) => eyelets(*what),
        NeedFact::OtherEyelets(what) => other_eyelets(*what),
        NeedFact::NoEyelets => NO_EYELETS.to_owned(),
        NeedFact::DerailleurMount(attachment) => match attachment {
            Attachment::None => "The frame takes no front derailleur.".to_owned(),
            Attachment::Clamp(tube_mm) => format!("The frame takes a {} clamp.", trade_size(*tube_mm)),
            Attachment::BrazeOn => "The frame has a tab for one.".to_owned(),
            Attachment::Direct => "The frame is for direct mount.".to_owned(),
        },
        NeedFact::SoldForGearHub => "The maker sells the frame for a gear hub.".to_owned(),
        NeedFact::ChainNotTensioned => "Vertical dropouts need a chain tensioner for a gear hub.".to_owned(),
        NeedFact::GearHubNotPublished => "The frame can tension a chain; a gear hub is not mentioned by the maker.".to_owned(),
        NeedFact::OpensForBelt => "The frame has an opening for a belt.".to_owned(),
        NeedFact::BeltNotTensioned => "Vertical dropouts do not tension a belt.".to_owned(),
        NeedFact::BeltOpeningUnknown => "Whether the frame has an opening for a belt is not published.".to_owned(),
        NeedFact::DropperRouting(routing) => dropper_routing(*routing).to_owned(),
        NeedFact::BarUnknown => "The maker does not publish which bar the frame is designed for.".to_owned(),
        NeedFact::DesignedFor(bar) => match bar {
            Bar::Either => "The frame is designed for drop or flat bars.",
            Bar::Drop => "The frame is designed for drop bars.",
            Bar::Flat => "The frame is designed for flat bars.",
        }
        .to_owned(),
        NeedFact::Shell(row) => format!("The shell is {}.", shell_name(row)),
        NeedFact::HeadTube { upper, lower } => format!("The head tube is {upper} | {lower}."),
        NeedFact::MaterialUnknown => "The material is not published.".to_owned(),
        NeedFact::MadeOf(material) => format!("The frame is made of {}.", material.label()),
    }
}

/// `Price is`, `Bottles are`.
fn measure_sentence(measure: Measure) -> String {
    let verb = if measure == Measure::Bottles { "are" } else { "is" };
    format!("{} {verb}", capitalised(measure.name()))
}

const fn dropper_routing(routing: PostRouting) -> &'static str {
    match (routing.is_inside, routing.is_outside) {
        (true, true) => "The dropper cable can run inside or outside.",
        (true, false) => "The dropper cable runs inside.",
        (false, true) => "The dropper cable runs outside.",
        (false, false) => "The frame has no routing for a dropper cable.",
    }
}
