//! What a maker publishes about one frameset, as plain data. Millimetres, degrees, grams; money as decimal text with an
//! ISO 4217 code. Nothing here is computed.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::conventions::{OwnMeasurement, Stated};
use super::figure::Figure;
use super::making::{SmallPart, Steerer, Wall};
use super::places::OnePerSize;
use super::places::SizeIndex;
use super::tyre::TyreSize;
use super::values;

/// A frameset: one model in all its sizes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Frameset {
    /// Version of the file format.
    #[serde(deserialize_with = "values::format")]
    pub format: u32,
    /// Maker's name.
    pub maker: String,
    /// Model's name.
    pub model: String,
    /// Model year, 1900 to 2199.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::year")]
    pub year: Option<i32>,
    /// To which step lengths and angles are printed, unless a size says otherwise for a figure.
    #[serde(default, alias = "printed_to")]
    pub rounded_to: RoundedTo,
    /// Tyre that the geometry was drawn with, rear and, unless `front_tyre` says otherwise, front.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyre: Option<TyreSize>,
    /// Front tyre where it differs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_tyre: Option<TyreSize>,
    /// Handlebar that the frame was drawn for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bar: Option<Bar>,
    /// What the frame is made of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tubing: Option<Tubing>,
    /// The fork, as far as it is not a figure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fork: Option<Fork>,
    /// Outside diameters of the tubes, mm, where known.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::tube_diameters")]
    pub tube_diameters: BTreeMap<Tube, f64>,
    /// Walls of the tubes, where known.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::unique_map")]
    pub tube_walls: BTreeMap<Tube, Wall>,
    /// Weights of small parts that come with the frameset, g.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::small_parts")]
    pub small_parts: BTreeMap<SmallPart, f64>,
    /// Ways of measuring that the maker states.
    #[serde(default, skip_serializing_if = "Vec::is_empty", deserialize_with = "values::stated")]
    pub stated: Vec<Stated>,
    /// The sizes, smallest first.
    #[serde(deserialize_with = "values::sizes")]
    pub sizes: Vec<Size>,
    /// Published weights.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub weights: Vec<Weight>,
    /// Published prices.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub prices: Vec<Price>,
    /// Standards of the parts that fit, as printed.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::unique_map")]
    pub standards: BTreeMap<Standard, String>,
    /// Where the figures come from.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sources: Vec<Source>,
    /// Anything else worth keeping.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A size of a frameset: its label, its published figures and their rounding.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Size {
    /// The maker's name for it.
    pub label: String,
    /// The printed figures, mm and degrees.
    #[serde(deserialize_with = "values::figures")]
    pub figures: BTreeMap<Figure, f64>,
    /// Steps of single figures that differ from the file's.
    #[serde(default, alias = "printed_to", skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::steps")]
    pub rounded_to: BTreeMap<Figure, f64>,
    /// Figures that the user does not believe, each with the reason. They stay in the file and out of the arithmetic.
    #[serde(default, alias = "set_aside", skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::unique_map")]
    pub ignored: BTreeMap<Figure, String>,
    /// Published figures that the user believes although the others disagree.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub use_anyway: BTreeSet<Figure>,
    /// What the user measured, kept beside what is published.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty", deserialize_with = "values::measurements")]
    pub measured: BTreeMap<Figure, OwnMeasurement>,
    /// Where tubes meet, where the maker says so.
    #[serde(default, skip_serializing_if = "Junctions::is_empty")]
    pub junctions: Junctions,
    /// Bends of the top tube, in order from the seat tube to the head tube.
    #[serde(default, skip_serializing_if = "Vec::is_empty", deserialize_with = "values::bends")]
    pub top_tube_bends: Vec<Bend>,
    /// Bends of the seat tube, in order from the bottom bracket up.
    #[serde(default, skip_serializing_if = "Vec::is_empty", deserialize_with = "values::bends")]
    pub seat_tube_bends: Vec<Bend>,
}

impl OnePerSize for Size {}

/// Printing steps of lengths and angles.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
// A file may write this name before the brackets.
#[serde(deny_unknown_fields, rename = "PrintedTo")]
pub struct RoundedTo {
    /// Step of lengths, mm.
    #[serde(default = "one_millimetre", deserialize_with = "values::step")]
    pub mm: f64,
    /// Step of angles, degrees.
    #[serde(default = "half_a_degree", deserialize_with = "values::step")]
    pub deg: f64,
}

fn one_millimetre() -> f64 {
    1.0
}

fn half_a_degree() -> f64 {
    0.5
}

impl Default for RoundedTo {
    /// Where a file does not say: lengths to 1 mm and, to be careful, angles to 0.5°.
    fn default() -> Self {
        Self { mm: one_millimetre(), deg: half_a_degree() }
    }
}

/// Where the tubes' axes meet, mm along the tube they meet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Junctions {
    /// Top tube axis below the head tube's top, along the head tube.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::junction")]
    pub top_tube_below_head_tube_top: Option<f64>,
    /// Top tube axis below the seat tube's top, along the seat tube.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::junction")]
    pub top_tube_below_seat_tube_top: Option<f64>,
    /// Down tube axis above the head tube's bottom, along the head tube.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::junction")]
    pub down_tube_above_head_tube_bottom: Option<f64>,
}

impl Junctions {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// A bend: a point off the straight line between a tube's two ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bend {
    /// How far along the straight line, 0 to 1.
    #[serde(deserialize_with = "values::along")]
    pub along: f64,
    /// How far off it, mm: up for the top tube, forward for the seat tube.
    #[serde(deserialize_with = "values::off")]
    pub off: f64,
}

/// A tube, by the trade's name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the trade's own names")]
pub enum Tube {
    TopTube,
    DownTube,
    SeatTube,
    HeadTube,
    ChainStay,
    SeatStay,
    ForkBlade,
    SeatPost,
}

/// Handlebar that a frame was drawn for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the trade's own names")]
pub enum Bar {
    Flat,
    Drop,
    Either,
}

/// What tubes are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the trade's own names")]
pub enum Material {
    Steel,
    Aluminium,
    Titanium,
    Carbon,
}

/// The frame's tubing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tubing {
    /// Material of the tubes.
    pub material: Material,
    /// Grade as printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grade: Option<String>,
    /// Butting as printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub butting: Option<String>,
}

/// The fork that the frameset comes with or was drawn for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fork {
    /// Material of the tubes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<Material>,
    /// Travel of a suspension fork, mm; absent or 0 for a rigid one.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::travel")]
    pub travel: Option<f64>,
    /// Travel of the suspension fork that a rigid fork stands in for, mm, where the maker says so.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::travel")]
    pub corrected_for: Option<f64>,
    /// Its steerer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steerer: Option<Steerer>,
    /// Anything else as printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// What a weight or a price is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Part {
    /// The frame alone.
    Frame,
    /// The fork alone.
    Fork,
    /// Frame and fork together.
    Frameset,
}

impl Part {
    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Frame => "frame",
            Self::Fork => "fork",
            Self::Frameset => "frameset",
        }
    }
}

/// A published weight.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weight {
    /// What was weighed.
    pub part: Part,
    /// In which size; absent where the publisher does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<String>,
    /// Grams.
    #[serde(deserialize_with = "values::grams")]
    pub grams: f64,
    /// How it is known.
    pub from: Known,
    /// Small parts that were weighed with it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub with: Vec<SmallPart>,
    /// What it was weighed with, as printed ("with axle and clamp").
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// How a weight is known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Known {
    /// On a scale that reads to this many grams.
    Weighed {
        /// Step of the scale, g.
        #[serde(deserialize_with = "values::step")]
        to: f64,
    },
    /// Said by the maker.
    Claimed,
}

/// A published price.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Price {
    /// What it buys.
    pub part: Part,
    /// Decimal text, a point before the minor unit: `648.00`.
    #[serde(deserialize_with = "values::amount")]
    pub amount: String,
    /// ISO 4217 code.
    #[serde(deserialize_with = "values::currency")]
    pub currency: String,
    /// Whether tax is in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<Tax>,
    /// Rate of the tax that is in it, percent as decimal text, where stated.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::percent")]
    pub tax_percent: Option<String>,
    /// Date of the price, year-month-day.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::date")]
    pub on: Option<String>,
}

/// Whether tax is in a price.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "they say it all")]
pub enum Tax {
    Included,
    Excluded,
}

/// What a printed standard is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the trade's own names")]
pub enum Standard {
    UpperHeadset,
    LowerHeadset,
    FrontHub,
    RearHub,
    BottomBracket,
    SeatPost,
    FrontBrake,
    RearBrake,
    FrontDerailleur,
    Dropouts,
    WidestTyre,
    WidestFrontTyre,
    ForkBosses,
    FrameBosses,
    Steerer,
    ForkLengths,
    CrankSpacing,
    PostInsertion,
    DropperRouting,
    Eyelets,
    WeightLimit,
    ChainstayOutside,
}

impl Standard {
    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::UpperHeadset => "upper headset",
            Self::LowerHeadset => "lower headset",
            Self::FrontHub => "front hub",
            Self::RearHub => "rear hub",
            Self::BottomBracket => "bottom bracket",
            Self::SeatPost => "seat post",
            Self::FrontBrake => "front brake",
            Self::RearBrake => "rear brake",
            Self::FrontDerailleur => "front derailleur",
            Self::Dropouts => "dropouts",
            Self::WidestTyre => "widest tyre",
            Self::WidestFrontTyre => "widest front tyre",
            Self::ForkBosses => "bosses on the fork",
            Self::FrameBosses => "bosses on the frame",
            Self::Steerer => "steerer and crown race",
            Self::ForkLengths => "fork lengths the maker allows",
            Self::CrankSpacing => "crank spacing",
            Self::PostInsertion => "least insertion of the seat post",
            Self::DropperRouting => "routing for a dropper post",
            Self::Eyelets => "eyelets",
            Self::WeightLimit => "weight limit",
            Self::ChainstayOutside => "outside of the right chainstay",
        }
    }
}

impl Standard {
    /// All, in the order of tables.
    pub const ALL: [Self; 22] = [
        Self::UpperHeadset,
        Self::LowerHeadset,
        Self::FrontHub,
        Self::RearHub,
        Self::BottomBracket,
        Self::SeatPost,
        Self::FrontBrake,
        Self::RearBrake,
        Self::FrontDerailleur,
        Self::Dropouts,
        Self::WidestTyre,
        Self::WidestFrontTyre,
        Self::ForkBosses,
        Self::FrameBosses,
        Self::Steerer,
        Self::ForkLengths,
        Self::CrankSpacing,
        Self::PostInsertion,
        Self::DropperRouting,
        Self::Eyelets,
        Self::WeightLimit,
        Self::ChainstayOutside,
    ];
}

/// Where figures come from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// What was read: a page, a catalogue, a scale.
    pub what: String,
    /// When, year-month-day.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "values::date")]
    pub on: Option<String>,
}

/// How the lower headset sits in the head tube, as far as its printed SHIS code says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LowerFit {
    /// External cup (EC).
    Outside,
    /// Semi-integrated (ZS) or integrated (IS).
    Inside,
    /// Nothing printed, or no code in it.
    NotStated,
}

impl Frameset {
    /// The newest format this program writes.
    pub const FORMAT: u32 = 2;

    /// `maker model`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} {}", self.maker, self.model).trim().to_owned()
    }

    /// Place of the size with that label.
    #[must_use]
    pub fn size_index(&self, label: &str) -> Option<SizeIndex> {
        self.sizes.iter().position(|s| s.label == label).map(SizeIndex)
    }

    /// The step to which `figure` was printed in `size`, mm or degrees.
    #[must_use]
    pub fn step(&self, size: &Size, figure: Figure) -> f64 {
        let general = if figure.is_angle() { self.rounded_to.deg } else { self.rounded_to.mm };
        size.rounded_to.get(&figure).copied().unwrap_or(general)
    }

    /// Whether the maker states a way of measuring.
    #[must_use]
    pub fn states(&self, convention: Stated) -> bool {
        self.stated.contains(&convention)
    }

    /// How the lower headset sits, by its SHIS code if it is one that is made.
    #[must_use]
    pub fn lower_fit(&self) -> LowerFit {
        self.standards.get(&Standard::LowerHeadset).map_or(LowerFit::NotStated, |code| super::shis::lower_fit(code))
    }
}

impl Size {
    /// A printed figure that counts: not set aside.
    #[must_use]
    pub fn believed(&self, figure: Figure) -> Option<f64> {
        if self.ignored.contains_key(&figure) { None } else { self.figures.get(&figure).copied() }
    }
}
