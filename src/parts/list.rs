//! The parts of the build: what the user owns or wants, entered once and checked against every frame.
//!
//! Each part is a kind and one short text in the trade's own words; the text is checked when it is read, so that a slip is
//! said at its field (or at its line of the file) with the nearest right form.

use std::collections::BTreeMap;

use serde::{Deserialize, Deserializer, Serialize};

use super::fork_part::ForkPart;
use super::purchase::{Purchase, check_besides};
use super::ranges::within;
use super::reading::{folded, number};
use super::standards::{
    Bosses, CrankSpacing, FrontDerailleur, Headset, Hub, Mount, NotUnderstood, Rim, SeatPost, Shell, Wheel, named_tyre,
    read_plainly, refused, rotor,
};
use crate::frameset::TyreSize;

/// What a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the trade's own names")]
pub enum PartKind {
    FrontHub,
    RearHub,
    Rims,
    Tyre,
    FrontTyre,
    RearTyre,
    Crank,
    BottomBracket,
    Headset,
    SeatPost,
    FrontBrake,
    RearBrake,
    FrontRotor,
    RearRotor,
    FrontDerailleur,
    GearHub,
    Belt,
    ForkCages,
    FrameCages,
    RearRack,
    FrontRack,
    Mudguards,
}

impl PartKind {
    /// All, in the order of menus.
    pub const ALL: [Self; 22] = [
        Self::FrontHub,
        Self::RearHub,
        Self::Rims,
        Self::Tyre,
        Self::FrontTyre,
        Self::RearTyre,
        Self::Crank,
        Self::BottomBracket,
        Self::Headset,
        Self::SeatPost,
        Self::FrontBrake,
        Self::RearBrake,
        Self::FrontRotor,
        Self::RearRotor,
        Self::FrontDerailleur,
        Self::GearHub,
        Self::Belt,
        Self::ForkCages,
        Self::FrameCages,
        Self::RearRack,
        Self::FrontRack,
        Self::Mudguards,
    ];

    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::FrontHub => "front_hub",
            Self::RearHub => "rear_hub",
            Self::Rims => "rims",
            Self::Tyre => "tyre",
            Self::FrontTyre => "front_tyre",
            Self::RearTyre => "rear_tyre",
            Self::Crank => "crank",
            Self::BottomBracket => "bottom_bracket",
            Self::Headset => "headset",
            Self::SeatPost => "seat_post",
            Self::FrontBrake => "front_brake",
            Self::RearBrake => "rear_brake",
            Self::FrontRotor => "front_rotor",
            Self::RearRotor => "rear_rotor",
            Self::FrontDerailleur => "front_derailleur",
            Self::GearHub => "gear_hub",
            Self::Belt => "belt",
            Self::ForkCages => "fork_cages",
            Self::FrameCages => "frame_cages",
            Self::RearRack => "rear_rack",
            Self::FrontRack => "front_rack",
            Self::Mudguards => "mudguards",
        }
    }

    /// How its text is written.
    #[must_use]
    pub const fn example(self) -> &'static str {
        match self {
            Self::FrontHub => "100 x 9 quick release",
            Self::RearHub => "142 x 12 through axle or 135 x 10 quick release",
            Self::Rims => "622 x 25",
            Self::Tyre | Self::FrontTyre | Self::RearTyre => "50-622",
            Self::Crank => "142, chainline 49",
            Self::BottomBracket => "BSA 68/73",
            Self::Headset => "ZS44/28.6 | EC44/40",
            Self::SeatPost => "27.2 x 350",
            Self::FrontBrake | Self::RearBrake => "post mount",
            Self::FrontRotor | Self::RearRotor => "180",
            Self::FrontDerailleur => "28.6 mm clamp, bottom pull",
            Self::GearHub => "135 nutted",
            Self::Belt => "belt",
            Self::ForkCages => "3+3",
            Self::FrameCages => "2 on down tube, 2 on seat tube",
            Self::RearRack | Self::FrontRack => "rack",
            Self::Mudguards => "60 wide",
        }
    }
}

/// A part's text, understood.
#[derive(Clone, Debug, PartialEq)]
#[expect(missing_docs, reason = "one a kind of part")]
pub enum Meaning {
    /// A hub with its exchangeable ends.
    Hub(Vec<Hub>),
    Rims(Rim),
    Tyre(TyreSize),
    Crank(CrankSpacing),
    BottomBracket(Shell),
    Headset(Headset),
    SeatPost(SeatPost),
    Brake(Mount),
    /// Diameter, mm.
    Rotor(f64),
    FrontDerailleur(FrontDerailleur),
    Cages(Bosses),
    /// Width, mm, where it is given.
    Mudguards(Option<f64>),
    /// Nothing more to say of it.
    Plain,
}

/// One part of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub kind: PartKind,
    /// As entered, in the trade's words.
    pub text: String,
    /// The user's own name for it.
    pub name: String,
    /// What the text means.
    pub meaning: Meaning,
    /// Whether it is owned, its weight and price.
    pub purchase: Purchase,
}

impl Part {
    /// A part from its text.
    ///
    /// # Errors
    /// A sentence with the nearest right form.
    ///
    /// # Examples
    /// ```
    /// use spandrel::parts::{Part, PartKind};
    /// assert!(Part::new(PartKind::RearHub, "135 x 10 quick release", "").is_ok());
    /// let wrong = Part::new(PartKind::FrontRotor, "1,800 mm", "").unwrap_err();
    /// assert!(wrong.to_string().contains("180"));
    /// ```
    pub fn new(kind: PartKind, text: &str, name: &str) -> Result<Self, NotUnderstood> {
        let meaning = read_plainly(text, |text| Self::meaning_of(kind, text))?;
        Ok(Self { kind, text: text.trim().to_owned(), name: name.trim().to_owned(), meaning, purchase: Purchase::default() })
    }

    /// The same part, bought or owned as is said.
    #[must_use]
    pub fn with_purchase(self, purchase: Purchase) -> Self {
        Self { purchase, ..self }
    }

    fn meaning_of(kind: PartKind, text: &str) -> Result<Meaning, NotUnderstood> {
        Ok(match kind {
            PartKind::FrontHub | PartKind::RearHub | PartKind::GearHub => Meaning::Hub(Hub::read_all(text)?),
            PartKind::Rims => Meaning::Rims(Rim::read(text)?),
            PartKind::Tyre | PartKind::FrontTyre | PartKind::RearTyre => Meaning::Tyre(named_tyre(text)?),
            PartKind::Crank => Meaning::Crank(CrankSpacing::read(text)?),
            PartKind::BottomBracket => Meaning::BottomBracket(Shell::read(text)?),
            PartKind::Headset => Meaning::Headset(Headset::read(text)?),
            PartKind::SeatPost => Meaning::SeatPost(SeatPost::read(text)?),
            PartKind::FrontBrake | PartKind::RearBrake => Meaning::Brake(Mount::read(text)?),
            PartKind::FrontRotor | PartKind::RearRotor => Meaning::Rotor(rotor(text)?),
            PartKind::FrontDerailleur => Meaning::FrontDerailleur(FrontDerailleur::read(text)?),
            PartKind::ForkCages | PartKind::FrameCages => Meaning::Cages(Bosses::read(text)?),
            PartKind::Mudguards => Meaning::Mudguards(mudguards(text)?),
            PartKind::Belt => plain_words(text, &["belt", "drive"])?,
            PartKind::RearRack => plain_words(text, &["rear", "rack"])?,
            PartKind::FrontRack => plain_words(text, &["front", "rack"])?,
        })
    }
}

/// The width of mudguards, mm, where one is given: `60 wide`.
fn mudguards(text: &str) -> Result<Option<f64>, NotUnderstood> {
    let example = PartKind::Mudguards.example();
    let mut width = None;
    for word in folded(text).replace("mm", " mm").split([' ', ',']).filter(|w| !w.is_empty()) {
        match number(word) {
            Some(mm) if width.is_none() => {
                within(mm, 20.0, 120.0, "a mudguard's width", "mm")?;
                width = Some(mm);
            }
            None if ["mudguards", "mudguard", "wide", "mm", "full", "length"].contains(&word) => {}
            _ => return refused(format!("`{word}` is not understood of mudguards: write their width in mm, such as {example}")),
        }
    }
    Ok(width)
}

/// A part of which there is nothing to say but its name.
fn plain_words(text: &str, known: &[&str]) -> Result<Meaning, NotUnderstood> {
    match folded(text).split([' ', ',']).find(|w| !w.is_empty() && !known.contains(w)) {
        Some(word) => {
            let right = known.last().copied().unwrap_or_default();
            refused(format!("`{word}` is not read of this part: leave the text empty, or put such words into its name ({right})"))
        }
        None => Ok(Meaning::Plain),
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenPart {
    kind: PartKind,
    #[serde(default)]
    text: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    name: String,
    #[serde(default, skip_serializing_if = "Purchase::is_empty")]
    purchase: Purchase,
}

impl Serialize for Part {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (text, name, purchase) = (self.text.clone(), self.name.clone(), self.purchase.clone());
        WrittenPart { kind: self.kind, text, name, purchase }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Part {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = WrittenPart::deserialize(deserializer)?;
        let part = Self::new(written.kind, &written.text, &written.name).map_err(serde::de::Error::custom)?;
        Ok(part.with_purchase(written.purchase))
    }
}

/// The parts of the build.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PartsList {
    /// The parts, in the user's order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
    /// A fork in place of each frame's own; the front hub, brake, tyre and cages are then checked against it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fork: Option<ForkPart>,
    /// Weight and price of what frames need besides, by its key; see [`check_besides`].
    #[serde(skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "besides")]
    pub besides: BTreeMap<String, Purchase>,
}

fn besides<'de, D: Deserializer<'de>>(d: D) -> Result<BTreeMap<String, Purchase>, D::Error> {
    let read = BTreeMap::<String, Purchase>::deserialize(d)?;
    for key in read.keys() {
        check_besides(key).map_err(serde::de::Error::custom)?;
    }
    Ok(read)
}

impl PartsList {
    /// Whether neither part nor fork is listed.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.fork.is_none()
    }

    /// The first part of a kind.
    #[must_use]
    pub fn first(&self, kind: PartKind) -> Option<&Part> {
        self.parts.iter().find(|p| p.kind == kind)
    }

    /// The tyre at that end, if there is one.
    #[must_use]
    pub fn tyre(&self, end: Wheel) -> Option<TyreSize> {
        let own = if end == Wheel::Front { PartKind::FrontTyre } else { PartKind::RearTyre };
        match self.first(own).or_else(|| self.first(PartKind::Tyre))?.meaning {
            Meaning::Tyre(tyre) => Some(tyre),
            _ => None,
        }
    }

    /// Inner width of the rims, mm, where there are rims and it is entered.
    #[must_use]
    pub fn rim_inner_mm(&self) -> Option<f64> {
        match self.first(PartKind::Rims)?.meaning {
            Meaning::Rims(rim) => rim.inner_mm,
            _ => None,
        }
    }

    /// The crank's spacing, if there is a crank.
    #[must_use]
    pub fn crank(&self) -> Option<CrankSpacing> {
        match self.first(PartKind::Crank)?.meaning {
            Meaning::Crank(crank) => Some(crank),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_is_itself_read() {
        for kind in PartKind::ALL {
            let part = Part::new(kind, kind.example(), "").unwrap_or_else(|e| panic!("{kind:?}: {e}"));
            assert_eq!(part.text, kind.example());
        }
    }

    #[test]
    fn slips_are_said_at_the_field() {
        let wrong = |kind, text: &str| Part::new(kind, text, "").unwrap_err().to_string();
        assert!(wrong(PartKind::Headset, "EC34/286 | EC34/30").contains("EC34/28.6"));
        assert!(wrong(PartKind::Tyre, "44-622, 26 in").contains("never called 26"));
        assert!(wrong(PartKind::FrontRotor, "1,800 mm").contains("did you mean 180?"));
        assert!(wrong(PartKind::Mudguards, "banana 300").contains("`banana`"));
        assert!(wrong(PartKind::Mudguards, "300").contains("outside 20 to 120"));
        assert!(wrong(PartKind::Mudguards, "60 50").contains("`50`"));
        assert!(wrong(PartKind::RearHub, "142 x 12, not boost").contains("`not`"));
        assert!(wrong(PartKind::RearRack, "front rack").contains("`front`"));
        let width = |text: &str| Part::new(PartKind::Mudguards, text, "").unwrap().meaning;
        assert_eq!(
            (width("60 wide"), width("60mm"), width("")),
            (Meaning::Mudguards(Some(60.0)), Meaning::Mudguards(Some(60.0)), Meaning::Mudguards(None))
        );
    }

    #[test]
    fn a_list_reads_back_as_it_was_written() {
        let list = PartsList {
            parts: vec![Part::new(PartKind::RearHub, "135 x 10 quick release", "old dynamo wheelset").unwrap()],
            fork: Some(ron::from_str("(length: 440, offset: 45, steerer: \"tapered\")").unwrap()),
            ..PartsList::default()
        };
        let text = ron::to_string(&list).unwrap();
        assert_eq!(ron::from_str::<PartsList>(&text).unwrap(), list);
        let wrong = ron::from_str::<PartsList>("(parts: [(kind: FrontRotor, text: \"1800\")])").unwrap_err();
        assert!(wrong.to_string().contains("180"), "{wrong}");
        let wrong = ron::from_str::<PartsList>("(fork: Some((length: 42, offset: 45)))").unwrap_err();
        assert!(wrong.to_string().contains("420"), "{wrong}");
    }

    #[test]
    fn a_tyre_for_one_end_comes_before_one_for_both() {
        let part = |kind, text: &str| Part::new(kind, text, "").unwrap();
        let tyres = |parts: Vec<Part>| {
            let list = PartsList { parts, fork: None, ..PartsList::default() };
            [Wheel::Front, Wheel::Rear].map(|end| list.tyre(end).map(|t| t.to_string()))
        };
        let both = part(PartKind::Tyre, "50-622");
        let is = |text: &str| Some(text.to_owned());
        assert_eq!(tyres(vec![]), [None, None]);
        assert_eq!(tyres(vec![both.clone()]), [is("50-622"), is("50-622")]);
        assert_eq!(tyres(vec![part(PartKind::RearTyre, "40-622")]), [None, is("40-622")]);
        assert_eq!(tyres(vec![both, part(PartKind::FrontTyre, "57-622")]), [is("57-622"), is("50-622")]);
    }

    #[test]
    fn the_first_crank_of_a_list_is_the_one_that_counts() {
        let part = |kind, text: &str| Part::new(kind, text, "").unwrap();
        let spacing = |parts: Vec<Part>| PartsList { parts, fork: None, ..PartsList::default() }.crank().map(|c| c.spacing_mm);
        assert_eq!(spacing(vec![part(PartKind::RearHub, "142")]), None);
        let cranks = vec![part(PartKind::RearHub, "142"), part(PartKind::Crank, "148"), part(PartKind::Crank, "130")];
        assert_eq!(spacing(cranks), Some(148.0));
    }
}
