//! What a line of a specification list is about: names in six languages, one file each under `names/`.
//!
//! A line of those files is `FIELD = name; name; …`. A field is `Weight` or `Price`, alone or with a part; a standard's name
//! in frame files; or one of the others. `@Harmless` are words that may be left out.
//!
//! Invariant: only a name that is there, in any order of its words, is a field: nothing is like a name.

use std::collections::{BTreeSet, HashMap};
use std::sync::LazyLock;

use super::super::fold::{fold, words};
use crate::frameset::{Part, Standard};

/// What a line of a specification list says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SpecificationField {
    /// The weight of a part; of which one, where that is said.
    Weight(Option<Part>),
    /// The price of a part; of which one, where that is said.
    Price(Option<Part>),
    /// A standard.
    Standard(Standard),
    /// Both ends of the headset.
    Headsets,
    /// The front and the rear axle.
    Axles,
    /// The front and the rear brake.
    Brakes,
    /// The fork in words.
    Fork,
    /// Material and tubing of the frame.
    Tubing,
    /// Model year.
    Year,
    /// The sizes that there are.
    Sizes,
}

impl SpecificationField {
    /// All, in the order of a picker.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let parts = [Some(Part::Frame), Some(Part::Fork), Some(Part::Frameset)];
        let mut all: Vec<Self> = parts.into_iter().map(Self::Weight).chain(parts.into_iter().map(Self::Price)).collect();
        all.extend([Self::Axles, Self::Brakes, Self::Headsets]);
        all.extend(Standard::ALL.into_iter().map(Self::Standard));
        all.extend([Self::Fork, Self::Tubing, Self::Year, Self::Sizes]);
        all
    }

    /// Its name on screen.
    #[must_use]
    pub fn label(self) -> String {
        match self {
            Self::Weight(None) => "weight".to_owned(),
            Self::Weight(Some(part)) => format!("{} weight", part.label()),
            Self::Price(None) => "price".to_owned(),
            Self::Price(Some(part)) => format!("{} price", part.label()),
            Self::Standard(standard) => standard.label().to_owned(),
            Self::Headsets => "headset, both ends".to_owned(),
            Self::Axles => "hubs, front and rear".to_owned(),
            Self::Brakes => "brakes, front and rear".to_owned(),
            Self::Fork => "fork".to_owned(),
            Self::Tubing => "frame material".to_owned(),
            Self::Year => "model year".to_owned(),
            Self::Sizes => "sizes".to_owned(),
        }
    }
}

struct Names {
    exact: HashMap<String, SpecificationField>,
    harmless: BTreeSet<String>,
}

const FILES: [&str; 6] = [
    include_str!("names/en.txt"),
    include_str!("names/de.txt"),
    include_str!("names/fr.txt"),
    include_str!("names/es.txt"),
    include_str!("names/it.txt"),
    include_str!("names/nl.txt"),
];

static NAMES: LazyLock<Names> = LazyLock::new(|| {
    let mut names = Names { exact: HashMap::new(), harmless: BTreeSet::new() };
    for line in FILES.iter().flat_map(|text| text.lines()).filter(|l| !l.starts_with('#')) {
        let Some((field, list)) = line.split_once('=') else { continue };
        if field.trim() == "@Harmless" {
            names.harmless.extend(list.split(';').map(fold));
            continue;
        }
        let Some(field) = parse(field) else { continue };
        for name in list.split(';') {
            // Ä, Ö, Ü written without their dots: ae, oe, ue.
            let spelt = name.replace('ä', "ae").replace('ö', "oe").replace('ü', "ue");
            for key in [name, &spelt].into_iter().flat_map(|n| keys(&words(n))) {
                names.exact.entry(key).or_insert(field);
            }
        }
    }
    names
});

fn parse(text: &str) -> Option<SpecificationField> {
    let mut words = text.split_whitespace();
    let first = words.next()?;
    let part = match words.next() {
        None => None,
        Some("Frame") => Some(Part::Frame),
        Some("Fork") => Some(Part::Fork),
        Some("Frameset") => Some(Part::Frameset),
        Some(_) => return None,
    };
    Some(match first {
        "Weight" => SpecificationField::Weight(part),
        "Price" => SpecificationField::Price(part),
        "Headsets" => SpecificationField::Headsets,
        "Axles" => SpecificationField::Axles,
        "Brakes" => SpecificationField::Brakes,
        "Fork" => SpecificationField::Fork,
        "Tubing" => SpecificationField::Tubing,
        "Year" => SpecificationField::Year,
        "Sizes" => SpecificationField::Sizes,
        name => {
            let named = |standard: &&Standard| format!("{standard:?}") == name;
            SpecificationField::Standard(*Standard::ALL.iter().find(named)?)
        }
    })
}

/// The words run together in order, and in alphabetical order.
fn keys(words: &[String]) -> [String; 2] {
    let mut sorted = words.to_vec();
    sorted.sort();
    [words.concat(), sorted.concat()]
}

/// The field that a label names; `None` for any other text.
pub(in super::super) fn field_of(label: &str) -> Option<SpecificationField> {
    if label.chars().count() > 80 {
        return None;
    }
    let all = words(label);
    let look = |words: &[String]| keys(words).iter().find_map(|key| NAMES.exact.get(key)).copied();
    if all.is_empty() {
        return None;
    }
    look(&all).or_else(|| {
        let needed: Vec<String> = all.iter().filter(|w| !NAMES.harmless.contains(*w)).cloned().collect();
        if needed.is_empty() || needed.len() == all.len() { None } else { look(&needed) }
    })
}

#[cfg(test)]
mod tests {
    use super::super::super::names::{Meaning, find_exact};
    use super::*;

    #[test]
    fn every_line_of_every_file_is_understood() {
        for line in FILES.iter().flat_map(|text| text.lines()).filter(|l| !l.starts_with('#')) {
            let (field, list) = line.split_once('=').unwrap_or_else(|| panic!("{line}"));
            assert!(field.trim() == "@Harmless" || parse(field).is_some(), "{line}");
            assert!(list.split(';').all(|name| !name.trim().is_empty()), "{line}");
        }
    }

    #[test]
    fn no_name_is_also_a_figures() {
        for line in FILES.iter().flat_map(|text| text.lines()).filter(|l| !l.starts_with(['#', '@'])) {
            let (field, list) = line.split_once('=').unwrap_or_else(|| panic!("{line}"));
            for name in list.split(';') {
                let of_figure =
                    find_exact(name).is_some_and(|f| f.likeness >= 1.0 && matches!(f.meaning, Meaning::Figures { .. }));
                assert!(!of_figure, "{name} ({field})");
                // Spanish and Italian share *peso*: either is a weight.
                assert_eq!(field_of(name), parse(field), "{name}");
            }
        }
    }

    #[test]
    fn labels_of_pages_are_known() {
        use SpecificationField as F;
        for (label, field) in [
            ("Frame weight", F::Weight(Some(Part::Frame))),
            ("Weight (frame)", F::Weight(Some(Part::Frame))),
            ("Rahmengewicht ca.", F::Weight(Some(Part::Frame))),
            ("UVP", F::Price(None)),
            ("Achse hinten", F::Standard(Standard::RearHub)),
            ("Diamètre de la tige de selle", F::Standard(Standard::SeatPost)),
            ("Reifenfreiheit", F::Standard(Standard::WidestTyre)),
            ("Scatola movimento", F::Standard(Standard::BottomBracket)),
            ("Max. bandbreedte", F::Standard(Standard::WidestTyre)),
            ("Anclajes portabultos y guardabarros", F::Standard(Standard::Eyelets)),
        ] {
            assert_eq!(field_of(label), Some(field), "{label}");
        }
        for label in ["Stack", "Head tube", "Seat tube angle", "Marrowby Drift", "", "Colour"] {
            assert_eq!(field_of(label), None, "{label}");
        }
    }
}
