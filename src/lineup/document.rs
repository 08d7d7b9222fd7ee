//! The line-up: a comparison that holds the frames themselves, so that it opens anywhere and draws the same picture.

use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize};

use super::bag_space_settings::BagSpaceSettings;
use super::overview_settings::OverviewSettings;
use super::riding_settings::RidingSettings;
use super::sag::Sag;
use super::sheet::Sheet;
use super::size_rule::{SizeRule, same_label};
use crate::frameset::{
    Figure, FileKind, FrameIndex, Frameset, OnePerFrame, ReadError, SizeIndex, TyreSize, WriteError, read_document, refused_at,
    write_document,
};
use crate::loaded::LoadedSettings;
use crate::money::MoneySettings;
use crate::parts::contact_points::Rider;
use crate::parts::{ForkTrial, Need, PartsList, RearSettings};
use crate::units::System;
use crate::weight::{WeightChoices, WeightSettings};

/// A comparison of framesets: what is saved, and what undo goes back through.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lineup {
    /// Version of the file format.
    #[serde(deserialize_with = "format")]
    pub format: u32,
    /// Title of the comparison, on pictures.
    #[serde(default)]
    pub title: String,
    /// The frames, in order: the first is A, the second B.
    #[serde(deserialize_with = "frames")]
    pub frames: Vec<Entry>,
    /// Place of the frame that the others are compared with.
    #[serde(default)]
    pub reference: FrameIndex,
    /// Everything that changes a figure or a picture.
    #[serde(default)]
    pub settings: Settings,
    /// The user's own words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Sheets to show it on.
    #[serde(default, skip_serializing_if = "Vec::is_empty", deserialize_with = "sheets")]
    pub sheets: Vec<Sheet>,
}

/// Which frame of an open line-up this is, whatever its place: it stays when the frame is moved, changed, removed and
/// brought back. It is never written: a file read again has new ones.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct FrameKey(pub u64);

/// One frame of the line-up. Two are equal when what is saved of them is equal.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Which frame it is while the line-up is open; 0 until it is given one.
    #[serde(skip)]
    pub key: FrameKey,
    /// The frameset itself.
    pub frameset: Arc<Frameset>,
    /// The file that it came from, as it was named then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub came_from: Option<String>,
    /// Label of the size compared.
    pub size: String,
    /// Whether that size was chosen by hand: then no rule changes it.
    #[serde(rename = "pinned", default, skip_serializing_if = "is_not")]
    pub is_pinned: bool,
    /// Whether it is drawn.
    #[serde(default = "yes")]
    pub shown: bool,
    /// The user's choices about its weights, line by line.
    #[serde(default, alias = "weighing", skip_serializing_if = "WeightChoices::is_default")]
    pub weight_choices: WeightChoices,
}

impl OnePerFrame for Entry {}

fn yes() -> bool {
    true
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_not(value: &bool) -> bool {
    !*value
}

impl PartialEq for Entry {
    fn eq(&self, other: &Self) -> bool {
        let Self { key: _, frameset, came_from, size, is_pinned, shown, weight_choices } = self;
        *frameset == other.frameset
            && *came_from == other.came_from
            && *size == other.size
            && *is_pinned == other.is_pinned
            && *shown == other.shown
            && *weight_choices == other.weight_choices
    }
}

/// Everything that changes a figure or a picture.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    /// Units shown.
    pub units: System,
    /// How frames get their sizes.
    #[serde(skip_serializing_if = "SizeRule::is_as_published")]
    pub sizes: SizeRule,
    /// Which tyres the frames stand on.
    pub tyres: Tyres,
    /// Sag of suspension forks.
    #[serde(skip_serializing_if = "Sag::is_unsagged")]
    pub sag: Sag,
    /// The outline's.
    pub outline: OutlineSettings,
    /// Axes of the steering plot.
    pub steering: Axes,
    /// Axes of the position plot.
    #[serde(alias = "position")]
    pub stack_and_reach: Axes,
    /// How weights are brought to the size compared.
    pub weight: WeightSettings,
    /// Room, bag and bottles.
    #[serde(alias = "room")]
    pub bags: BagSpaceSettings,
    /// The parts of the build.
    pub parts: PartsList,
    /// What the rears seen from above show.
    #[serde(skip_serializing_if = "RearSettings::is_default")]
    pub rear: RearSettings,
    /// The rider's musts.
    pub needs: Vec<Need>,
    /// What the overview shows.
    #[serde(skip_serializing_if = "OverviewSettings::is_default")]
    pub overview: OverviewSettings,
    /// Another fork or other tyres, tried on every frame.
    #[serde(alias = "another")]
    pub fork_trial: ForkTrial,
    /// The rider's hands, saddle and legs.
    pub rider: Rider,
    /// How prices are brought together.
    pub money: MoneySettings,
    /// Who and what moves, the climb, the gears.
    #[serde(alias = "worth")]
    pub price_and_climb: RidingSettings,
    /// The rider's body and where luggage hangs.
    #[serde(skip_serializing_if = "LoadedSettings::is_default")]
    pub loaded: LoadedSettings,
}

/// Which tyres the frames stand on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Tyres {
    /// Each frame on the tyres that its maker drew it with.
    #[default]
    #[serde(alias = "AsDrawn")]
    AsPublished,
    /// The same tyre on all wheels; every frame turns until both wheels stand. Whether the tyre fits is another matter.
    SameOnAll(TyreSize),
}

/// What the outline shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of its own")]
pub struct OutlineSettings {
    /// The point that all frames have in common on the drawing.
    #[serde(alias = "stand_at")]
    pub align_at: AlignAt,
    /// Wheels with tyres: the reference's.
    pub wheels: bool,
    /// Saddle and, where wheels are drawn, wheels of every frame.
    pub all_wheels: bool,
    /// Grid in millimetres.
    pub grid: bool,
    /// Dimensions of the reference.
    pub dimensions: bool,
    /// Lines broken in patterns, each frame's its own, as for print in black and white.
    pub line_patterns: bool,
}

/// The point where all frames stand together on the drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum AlignAt {
    /// Bottom brackets over one another.
    #[default]
    BottomBracket,
    /// Rear axles over one another.
    RearAxle,
    /// Front axles over one another.
    FrontAxle,
    /// Tops of the head tubes over one another.
    HeadTubeTop,
    /// On one road, bottom brackets above one another.
    Ground,
}

impl AlignAt {
    /// All, in the order of menus.
    pub const ALL: [Self; 5] = [Self::BottomBracket, Self::RearAxle, Self::FrontAxle, Self::HeadTubeTop, Self::Ground];
}

/// Two figures against each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Axes {
    /// Along the horizontal axis.
    pub across: Figure,
    /// Along the vertical axis.
    pub up: Figure,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            units: System::Metric,
            sizes: SizeRule::AsPublished,
            tyres: Tyres::AsPublished,
            sag: Sag::Unsagged,
            outline: OutlineSettings::default(),
            steering: Axes { across: Figure::Chainstay, up: Figure::Trail },
            stack_and_reach: Axes { across: Figure::Reach, up: Figure::Stack },
            weight: WeightSettings::default(),
            bags: BagSpaceSettings::default(),
            parts: PartsList::default(),
            rear: RearSettings::default(),
            needs: Vec::new(),
            overview: OverviewSettings::default(),
            fork_trial: ForkTrial::default(),
            rider: Rider::default(),
            money: MoneySettings::default(),
            price_and_climb: RidingSettings::default(),
            loaded: LoadedSettings::default(),
        }
    }
}

impl Default for OutlineSettings {
    fn default() -> Self {
        Self {
            align_at: AlignAt::BottomBracket,
            wheels: true,
            all_wheels: false,
            grid: true,
            dimensions: false,
            line_patterns: false,
        }
    }
}

impl Default for Lineup {
    /// A new line-up, whose frames get sizes that are alike in fit. Files that do not say so have theirs as published.
    fn default() -> Self {
        Self {
            format: Self::FORMAT,
            title: String::new(),
            frames: Vec::new(),
            reference: FrameIndex::default(),
            settings: Settings { sizes: SizeRule::SameFit, ..Settings::default() },
            notes: String::new(),
            sheets: Vec::new(),
        }
    }
}

impl From<Frameset> for Lineup {
    /// One frameset, in its middle size.
    fn from(frameset: Frameset) -> Self {
        let mut lineup = Self::default();
        lineup.add(frameset, None);
        lineup
    }
}

impl Lineup {
    /// The newest format this program writes.
    pub const FORMAT: u32 = 2;

    /// Place of the reference, or `None` in an empty line-up.
    #[must_use]
    pub fn reference_index(&self) -> Option<FrameIndex> {
        if self.frames.is_empty() { None } else { Some(self.reference.min(FrameIndex(self.frames.len() - 1))) }
    }

    /// Adds a frameset, shown: the first in its middle size, another in the size with the reference's label, or at the same
    /// place in the row of sizes. [`put_added_into_their_sizes`](Self::put_added_into_their_sizes) then follows the rule.
    pub fn add(&mut self, frameset: Frameset, came_from: Option<String>) {
        let place = match self.reference_index().and_then(|r| r.of(&self.frames)) {
            Some(reference) => same_label(&reference.frameset, &reference.size, &frameset).0,
            None => SizeIndex(frameset.sizes.len() / 2),
        };
        let size = place.of(&frameset.sizes).map(|s| s.label.clone()).unwrap_or_default();
        self.frames.push(Entry {
            key: FrameKey::default(),
            frameset: Arc::new(frameset),
            came_from,
            size,
            is_pinned: false,
            shown: true,
            weight_choices: WeightChoices::default(),
        });
    }
}

impl Entry {
    /// Place of the chosen size; the first where the label is not among the frameset's.
    #[must_use]
    pub fn size_index(&self) -> SizeIndex {
        self.frameset.size_index(&self.size).unwrap_or_default()
    }
}

/// Letter of the frame at `index`: A … Z, then AA, AB ….
#[must_use]
pub fn letter(index: FrameIndex) -> String {
    let last = char::from(b'A' + u8::try_from(index.0 % 26).unwrap_or(0));
    if index.0 < 26 { last.to_string() } else { format!("{}{last}", letter(FrameIndex(index.0 / 26 - 1))) }
}

fn format<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    crate::frameset::known_format(deserializer, Lineup::FORMAT, "line-ups")
}

/// Frames, each in a size that its frameset has.
fn frames<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Entry>, D::Error> {
    crate::frameset::checked_list(
        deserializer,
        "a list of frames in brackets, `[(frameset: …, size: …), …]`",
        |_, entry: &Entry| {
            entry.frameset.check_whole()?;
            if entry.frameset.size_index(&entry.size).is_some() {
                return Ok(());
            }
            let labels: Vec<String> = entry.frameset.sizes.iter().map(|s| format!("\"{}\"", s.label)).collect();
            let (size, name, labels) = (&entry.size, entry.frameset.name(), labels.join(", "));
            Err(("size", format!("size \"{size}\" is not among the sizes of {name}: they are {labels}")))
        },
    )
}

/// Sheets, each with a name of its own.
fn sheets<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Sheet>, D::Error> {
    crate::frameset::checked_list(deserializer, "a list of sheets in brackets, `[(name: …), …]`", |before, sheet: &Sheet| {
        let name = sheet.name.trim().to_lowercase();
        if name.is_empty() {
            return Err(("name", "a sheet needs a name, such as Film".to_owned()));
        }
        if before.iter().any(|b: &Sheet| b.name.trim().to_lowercase() == name) {
            return Err(("name", format!("there are two sheets “{}”: give each a name of its own", sheet.name.trim())));
        }
        Ok(())
    })
}

/// Reads a line-up file.
///
/// # Errors
/// As for frame files, with the position in the line-up's own text.
pub fn read_lineup(bytes: &[u8]) -> Result<Lineup, ReadError> {
    let lineup: Lineup = read_document(bytes, FileKind::Lineup)?;
    let (reference, frames) = (lineup.reference.0, lineup.frames.len());
    if reference < frames.max(1) {
        return Ok(lineup);
    }
    let sentence = match frames {
        0 => format!("reference {reference} is not a valid place: there are no frames, so write 0"),
        1 => format!("reference {reference} is not a valid place: there is one frame, at 0"),
        _ => format!("reference {reference} is not a valid place: there are {frames} frames, at 0 to {}", frames - 1),
    };
    Err(refused_at(bytes, "reference", sentence))
}

/// Writes a line-up file. Reading it again gives an equal line-up.
///
/// # Errors
/// What reading would refuse: a text that is too long, a file that is too large, a value that is not accepted.
pub fn write_lineup(lineup: &Lineup) -> Result<String, WriteError> {
    write_document("Lineup", FileKind::Lineup, lineup, read_lineup)
}
