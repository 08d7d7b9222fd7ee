//! The parts of the build: what is already in the cellar or wished for, entered once and checked against every frame.
//!
//! Each part is a kind and one short text in the trade's own words; the text is checked when it is read, so that a slip is
//! said at its field (or at its line of the file) with the nearest right form.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize};

use super::ranges::{within, within_lengths};
use super::reading::{folded, length_number, number};
use super::standards::{
    Bosses, CrankSpacing, Eyelets, FrontDerailleur, Headset, Hub, Mount, NotUnderstood, Rim, SeatPost, Shell, Wheel, ends_of,
    named_tyre, read_plainly, refused, rotor,
};
use crate::frameset::TyreSize;
use crate::units::System;

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
        Ok(Self { kind, text: text.trim().to_owned(), name: name.trim().to_owned(), meaning })
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
}

impl Serialize for Part {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        WrittenPart { kind: self.kind, text: self.text.clone(), name: self.name.clone() }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Part {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = WrittenPart::deserialize(deserializer)?;
        Self::new(written.kind, &written.text, &written.name).map_err(serde::de::Error::custom)
    }
}

/// How a fork's length was measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ForkMeasurement {
    /// Along the steering axis.
    Along,
    /// Straight from crown race seat to axle, as makers mostly do.
    #[default]
    #[serde(alias = "Straight")]
    Direct,
}

/// A fork in the cellar. Texts are written as in frame files; an empty one is not stated.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ForkPart {
    /// The user's own name for it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Crown race seat to axle, mm, unloaded.
    #[serde(deserialize_with = "fork_length")]
    pub length: f64,
    /// How that was measured.
    #[serde(default)]
    pub measured: ForkMeasurement,
    /// Offset, mm.
    #[serde(deserialize_with = "fork_offset")]
    pub offset: f64,
    /// Travel of a suspension fork, mm; 0 for a rigid one.
    #[serde(default, deserialize_with = "travel")]
    pub travel: f64,
    /// How much of the travel it sinks under the rider, percent.
    #[serde(default, deserialize_with = "sag")]
    pub sag_percent: f64,
    /// Steerer and crown race: `28.6 | 40`, `tapered` or `straight`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "steerer")]
    pub steerer: String,
    /// Its hub: `100 x 9 quick release`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "hub")]
    pub hub: String,
    /// Its brake mount: `IS 160-180`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "mount")]
    pub brake: String,
    /// Widest tyre: `57-622`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "room")]
    pub widest_tyre: String,
    /// Bosses: `3+3`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "bosses")]
    pub bosses: String,
    /// Its eyelets: `rack, mudguards`. The frame's own are at its rear and on its own fork.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "eyelets")]
    pub eyelets: String,
}

impl ForkPart {
    /// A rigid fork of this length and offset, mm, of which nothing else is known yet.
    #[must_use]
    pub fn rigid(length: f64, offset: f64) -> Self {
        Self {
            name: String::new(),
            length,
            measured: ForkMeasurement::default(),
            offset,
            travel: 0.0,
            sag_percent: 0.0,
            steerer: String::new(),
            hub: String::new(),
            brake: String::new(),
            widest_tyre: String::new(),
            bosses: String::new(),
            eyelets: String::new(),
        }
    }

    /// Whether all of it can be: lengths within their ranges, texts understood or empty.
    ///
    /// # Errors
    /// The first thing that cannot be, with the nearest right form, in the chosen units.
    pub fn check(&self, units: System) -> Result<(), NotUnderstood> {
        fn text<T>(text: &str, read: impl Fn(&str) -> Result<T, NotUnderstood>) -> Result<(), NotUnderstood> {
            if text.trim().is_empty() { Ok(()) } else { read_plainly(text, read).map(drop) }
        }
        check_fork_length(self.length, units)?;
        within_lengths(self.offset, FORK_OFFSETS_MM, "a fork offset", units)?;
        within_lengths(self.travel, FORK_TRAVELS_MM, "a fork's travel", units)?;
        within(self.sag_percent, 0.0, 60.0, "a sag", "%")?;
        text(&self.steerer, ends_of)?;
        text(&self.hub, Hub::read)?;
        text(&self.brake, Mount::read)?;
        text(&self.widest_tyre, super::standards::TyreClearances::read)?;
        text(&self.bosses, Bosses::on_fork)?;
        text(&self.eyelets, Eyelets::read)
    }

    /// Sag, mm along the axis.
    #[must_use]
    pub fn sag_mm(&self) -> f64 {
        self.travel * self.sag_percent / 100.0
    }

    /// Length along the steering axis as it stands under the rider, mm. A straight length shorter than the offset cannot
    /// be read from a file (lengths begin at 250 mm, offsets end at 150).
    #[must_use]
    pub fn standing_length_mm(&self) -> f64 {
        let along = match self.measured {
            ForkMeasurement::Along => self.length,
            ForkMeasurement::Direct => (self.length * self.length - self.offset * self.offset).max(0.0).sqrt(),
        };
        along - self.sag_mm()
    }
}

/// Axle-to-crown lengths of forks, mm.
const FORK_LENGTHS_MM: [f64; 2] = [250.0, 650.0];
/// Offsets of forks, mm.
const FORK_OFFSETS_MM: [f64; 2] = [-100.0, 150.0];
/// Travels of forks, mm.
const FORK_TRAVELS_MM: [f64; 2] = [0.0, 250.0];

/// Whether a length, mm, can be a fork's. The refusal names the likely slip.
fn check_fork_length(mm: f64, units: System) -> Result<(), NotUnderstood> {
    let slips = match units {
        System::Metric => [(10.0, "centimetres"), (25.4, "inches"), (0.1, "a slip of the point")],
        System::Imperial => [(1.0 / 25.4, "millimetres"), (1.0 / 2.54, "centimetres"), (0.1, "a slip of the point")],
    };
    let [low, high] = FORK_LENGTHS_MM;
    within_lengths(mm, FORK_LENGTHS_MM, "an axle-to-crown length", units).map_err(|NotUnderstood(refusal)| {
        let slip = slips.into_iter().find(|(factor, _)| (low..=high).contains(&(mm * factor)));
        let hint = slip.map(|(factor, what)| format!(": it looks like {what}, so write {}", length_number(mm * factor, units)));
        NotUnderstood(refusal + &hint.unwrap_or_default())
    })
}

fn checked<'de, D: Deserializer<'de>>(d: D, check: impl Fn(f64) -> Result<(), NotUnderstood>) -> Result<f64, D::Error> {
    let value = f64::deserialize(d)?;
    check(value).map_err(serde::de::Error::custom)?;
    Ok(value)
}

fn fork_length<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |mm| check_fork_length(mm, System::Metric))
}

fn fork_offset<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |mm| within_lengths(mm, FORK_OFFSETS_MM, "a fork offset", System::Metric))
}

fn travel<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |mm| within_lengths(mm, FORK_TRAVELS_MM, "a fork's travel", System::Metric))
}

fn sag<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |v| within(v, 0.0, 60.0, "a sag", "%"))
}

fn checked_text<'de, D: Deserializer<'de>, T>(d: D, read: impl Fn(&str) -> Result<T, NotUnderstood>) -> Result<String, D::Error> {
    let text = String::deserialize(d)?;
    if !text.trim().is_empty() {
        read_plainly(&text, read).map_err(serde::de::Error::custom)?;
    }
    Ok(text)
}

fn steerer<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, ends_of)
}

fn hub<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Hub::read)
}

fn mount<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Mount::read)
}

fn room<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, super::standards::TyreClearances::read)
}

fn bosses<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Bosses::on_fork)
}

fn eyelets<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Eyelets::read)
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
}

impl PartsList {
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

impl fmt::Display for ForkMeasurement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Along => "along the steering axis",
            Self::Direct => "straight, crown race to axle",
        })
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
        let refusal = |fork: ForkPart, units| fork.check(units).unwrap_err().to_string().replace(crate::units::THIN_SPACE, " ");
        let is = |fork: ForkPart, metric: &str, imperial: &str| {
            assert_eq!(refusal(fork.clone(), System::Metric), metric);
            assert_eq!(refusal(fork, System::Imperial), imperial);
        };
        is(
            ForkPart::rigid(420.0, -160.0),
            "a fork offset of \u{2212}160 mm is outside \u{2212}100 to 150 mm",
            "a fork offset of \u{2212}6.299 in is outside \u{2212}3.93 to 5.9 in",
        );
        is(
            ForkPart { travel: 1000.0, ..ForkPart::rigid(420.0, 45.0) },
            "a fork's travel of 1000 mm is outside 0 to 250 mm",
            "a fork's travel of 39.37 in is outside 0 to 9.84 in",
        );
        let length = |mm| ForkPart::rigid(mm, 45.0);
        assert!(
            refusal(length(42.0), System::Metric).ends_with("outside 250 to 650 mm: it looks like centimetres, so write 420")
        );
        assert!(refusal(length(16.5), System::Metric).ends_with("it looks like inches, so write 419.1"));
        assert!(refusal(length(420.0 * 25.4), System::Imperial).ends_with("it looks like millimetres, so write 16.535"));
        assert!(refusal(length(42.0 * 25.4), System::Imperial).ends_with("it looks like centimetres, so write 16.535"));
        assert!(check_fork_length(f64::NAN, System::Metric).is_err());
    }

    #[test]
    fn a_list_reads_back_as_it_was_written() {
        let list = PartsList {
            parts: vec![Part::new(PartKind::RearHub, "135 x 10 quick release", "old dynamo wheelset").unwrap()],
            fork: Some(ron::from_str("(length: 440, offset: 45, steerer: \"tapered\")").unwrap()),
        };
        let text = ron::to_string(&list).unwrap();
        assert_eq!(ron::from_str::<PartsList>(&text).unwrap(), list);
        let wrong = ron::from_str::<PartsList>("(parts: [(kind: FrontRotor, text: \"1800\")])").unwrap_err();
        assert!(wrong.to_string().contains("180"), "{wrong}");
        let wrong = ron::from_str::<PartsList>("(fork: Some((length: 42, offset: 45)))").unwrap_err();
        assert!(wrong.to_string().contains("420"), "{wrong}");
    }

    #[test]
    fn sag_and_the_way_of_measuring_shorten_a_fork() {
        let fork: ForkPart = ron::from_str("(length: 500, offset: 44, travel: 100, sag_percent: 20)").unwrap();
        // √(500² − 44²) = 498.0602, less 20 mm of sag.
        assert!((fork.standing_length_mm() - 478.0602).abs() < 1e-4);
    }

    #[test]
    fn a_tyre_for_one_end_comes_before_one_for_both() {
        let part = |kind, text: &str| Part::new(kind, text, "").unwrap();
        let tyres = |parts: Vec<Part>| {
            let list = PartsList { parts, fork: None };
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
        let spacing = |parts: Vec<Part>| PartsList { parts, fork: None }.crank().map(|c| c.spacing_mm);
        assert_eq!(spacing(vec![part(PartKind::RearHub, "142")]), None);
        let cranks = vec![part(PartKind::RearHub, "142"), part(PartKind::Crank, "148"), part(PartKind::Crank, "130")];
        assert_eq!(spacing(cranks), Some(148.0));
    }

    #[test]
    fn each_text_of_a_fork_is_read_unless_it_is_empty() {
        let fork = |field: &str, text: &str| {
            let written = format!("(length: 440, offset: 45, {field}: \"{text}\")");
            ron::from_str::<ForkPart>(&written)
        };
        for (field, right, wrong) in [
            ("steerer", "28.6 | 40", "34"),
            ("hub", "100 x 12 through axle", "quick release"),
            ("brake", "post mount 160", "drum"),
            ("widest_tyre", "50-622", "large"),
            ("bosses", "3+3", "many"),
            ("eyelets", "rack", "bell"),
        ] {
            assert!(fork(field, right).is_ok_and(|f| f.check(System::Metric).is_ok()), "{field}");
            assert!(fork(field, " ").is_ok_and(|f| f.check(System::Metric).is_ok()), "{field}: blanks state nothing");
            assert!(fork(field, wrong).is_err(), "{field}");
        }
        let wrong = ForkPart { hub: "quick release".to_owned(), ..ForkPart::rigid(440.0, 45.0) };
        assert!(wrong.check(System::Metric).is_err());
    }
}
