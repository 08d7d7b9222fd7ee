//! Standards, fork and material of a specification's line.

use super::super::fold::words;
use super::SpecificationFact;
use super::ends::{front_and_rear, halves, headset_codes, spacing};
use super::tyre_clearance::tyres_in;
use crate::frameset::trade_words::in_english;
use crate::frameset::{Fork, Material, Standard, Tubing};

/// What a line became: its facts, remarks, and whether its text is to be kept as well.
#[derive(Default)]
pub(super) struct Taken {
    pub(super) facts: Vec<SpecificationFact>,
    pub(super) remarks: Vec<String>,
    pub(super) keep_text: bool,
}

impl Taken {
    fn with(facts: Vec<SpecificationFact>) -> Self {
        Self { facts, ..Self::default() }
    }

    pub(super) fn nothing(remark: impl Into<String>) -> Self {
        Self { remarks: vec![remark.into()], keep_text: true, ..Self::default() }
    }
}

/// One standard but the widest tyres.
pub(super) fn standard(standard: Standard, text: &str) -> Taken {
    let (english, changed) = in_english(text.trim());
    let remarks = if changed { vec![format!("Read as {english}.")] } else { Vec::new() };
    Taken { facts: vec![SpecificationFact::Standard(standard, english)], remarks, keep_text: changed }
}

/// The widest tyres; `wheel` is the bead seat diameter of a width that names no wheel, mm.
pub(super) fn clearance(standard: Standard, text: &str, wheel: Option<u32>) -> Taken {
    let (read, remark) = match tyres_in(text, wheel) {
        Some(tyres) if tyres == text.trim() => (tyres, None),
        Some(tyres) => {
            let remark = format!("Read as {tyres}.");
            (tyres, Some(remark))
        }
        None => (text.trim().to_owned(), Some("The wheel or the width is not clear. The text is kept as published.".to_owned())),
    };
    Taken { facts: vec![SpecificationFact::Standard(standard, read)], remarks: remark.into_iter().collect(), keep_text: false }
}

/// Front and rear hub.
pub(super) fn axles(text: &str) -> Taken {
    if let Some(ends) = front_and_rear(text) {
        return both(Standard::FrontHub, Standard::RearHub, ends.first, ends.second, text);
    }
    let (english, changed) = in_english(text);
    match halves(&english) {
        Some((front, rear)) if spacing(&front).zip(spacing(&rear)).is_some_and(|(a, b)| a < b) => Taken {
            remarks: vec!["The narrower spacing is read as the front hub, the wider as the rear hub.".to_owned()],
            keep_text: changed,
            ..both(Standard::FrontHub, Standard::RearHub, Some(front), Some(rear), text)
        },
        _ => Taken::nothing("It is not said which wheel this is for. Choose rear hub or front hub."),
    }
}

/// Both brakes.
pub(super) fn brakes(text: &str) -> Taken {
    if let Some(ends) = front_and_rear(text) {
        return both(Standard::FrontBrake, Standard::RearBrake, ends.first, ends.second, text);
    }
    let (english, changed) = in_english(text.trim());
    Taken {
        facts: vec![
            SpecificationFact::Standard(Standard::FrontBrake, english.clone()),
            SpecificationFact::Standard(Standard::RearBrake, english),
        ],
        remarks: vec!["Read for the front and the rear brake, since none is named.".to_owned()],
        keep_text: changed,
    }
}

/// Both ends of the headset.
pub(super) fn headsets(text: &str) -> Taken {
    match headset_codes(text).as_slice() {
        [upper, lower] => both(Standard::UpperHeadset, Standard::LowerHeadset, Some(upper.clone()), Some(lower.clone()), text),
        _ => Taken::nothing("No codes of two headset cups were found, such as EC34/28.6 | EC44/40."),
    }
}

fn both(first: Standard, second: Standard, a: Option<String>, b: Option<String>, text: &str) -> Taken {
    let facts = [(first, a), (second, b)];
    let facts = facts.into_iter().filter_map(|(standard, text)| Some(SpecificationFact::Standard(standard, text?)));
    Taken { keep_text: in_english(text).1, ..Taken::with(facts.collect()) }
}

/// The fork in words: its material and travel where they are said.
pub(super) fn fork(text: &str) -> Taken {
    let travel = travel(text);
    let fork = Fork { material: material(text), travel, corrected_for: None, steerer: None, note: Some(text.trim().to_owned()) };
    Taken::with(vec![SpecificationFact::Fork(fork)])
}

/// Millimetres beside a word for travel.
fn travel(text: &str) -> Option<f64> {
    const TRAVEL: [&str; 8] =
        ["travel", "federweg", "débattement", "debattement", "recorrido", "escursione", "veerweg", "suspension"];
    let lower = text.to_lowercase();
    if !TRAVEL.iter().any(|word| lower.contains(word)) || lower.contains("corrected") {
        return None;
    }
    let (before, _) = lower.split_once("mm")?;
    let digits: String =
        before.trim_end().chars().rev().take_while(char::is_ascii_digit).collect::<Vec<_>>().into_iter().rev().collect();
    digits.parse().ok().filter(|mm| (0.0..=300.0).contains(mm))
}

/// The material of the frame, the text as its grade.
pub(super) fn tubing(text: &str) -> Taken {
    match material(text) {
        Some(material) => {
            let grade = Some(text.trim().to_owned());
            Taken::with(vec![SpecificationFact::Tubing(Tubing { material, grade, butting: None })])
        }
        None => Taken::nothing("No material was recognised."),
    }
}

/// The one material that a text names, in six languages.
fn material(text: &str) -> Option<Material> {
    const NAMES: [(Material, &[&str]); 4] = [
        (
            Material::Steel,
            &["steel", "stahl", "acier", "acero", "acciaio", "staal", "crmo", "chromoly", "cromoly", "4130", "chromo"],
        ),
        (Material::Aluminium, &["aluminium", "aluminum", "alu", "alloy", "aluminio", "alluminio", "6061"]),
        (Material::Titanium, &["titanium", "titan", "titane", "titanio", "titaan", "ti"]),
        (Material::Carbon, &["carbon", "carbone", "carbono", "carbonio"]),
    ];
    let all = words(text);
    let named: Vec<Material> = NAMES
        .iter()
        .filter(|(_, names)| all.iter().any(|w| names.contains(&w.as_str())))
        .map(|(material, _)| *material)
        .collect();
    match named.as_slice() {
        [only] => Some(*only),
        _ => None,
    }
}
