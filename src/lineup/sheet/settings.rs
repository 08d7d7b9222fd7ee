//! What the user chose about a sheet. It is saved in the line-up, so that the same sheet is made again when figures change.

use std::ops::RangeInclusive;

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use super::animation::Animation;
use super::caption_key::current_key;
use super::statement::{Statement, StatementSubject};
use crate::frameset::Figure;
use crate::lineup::Lineup;

/// How many pixels across a picture may have.
pub const PIXELS_ACROSS: RangeInclusive<u32> = 320..=7680;

/// A sheet: which blocks are published, in which shape and colours.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Sheet {
    /// What it is called in the line-up.
    pub name: String,
    /// Its title; the comparison's own where empty.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub title: String,
    /// The line below; what all frames share where empty.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub subtitle: String,
    /// A date, as it is to stand there.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub date: String,
    /// Who made it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub author: String,
    /// The user's own sentence before the captions.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub words: String,
    /// The finding that the pictures for screens state; a table sheet where none is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub statement: Option<Statement>,
    /// Shape of the sheet.
    pub shape: Shape,
    /// Pixels across; what is usual for the shape where none are asked for.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "width")]
    pub width: Option<u32>,
    /// Background of the sheet.
    #[serde(alias = "ground")]
    pub background: SheetBackground,
    /// What is on it, in this order.
    #[serde(alias = "blocks")]
    pub contents: Vec<Block>,
    /// Figures of the small table, in this order.
    pub figures: Vec<Figure>,
    /// Captions in the user's own words.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub captions: Vec<EditedCaption>,
    /// Moving pictures beside it.
    #[serde(alias = "moves", skip_serializing_if = "Option::is_none")]
    pub animation: Option<Animation>,
}

/// A sheet's shape.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Shape {
    /// 16:9, for video.
    #[default]
    Wide,
    /// 9:16, for a phone held upright.
    Upright,
    /// 1:1.
    Square,
    /// As wide as is asked and as high as it needs to be, for a blog.
    #[serde(alias = "Column")]
    BlogColumn,
    /// A4 paper, upright.
    A4,
    /// A4 paper, across.
    #[serde(alias = "A4Across")]
    A4Landscape,
    /// A3 paper, upright.
    A3,
    /// A3 paper, across.
    #[serde(alias = "A3Across")]
    A3Landscape,
}

/// What a sheet is painted on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum SheetBackground {
    /// Light background.
    #[default]
    #[serde(alias = "Paper")]
    Light,
    /// Dark background.
    Dark,
    /// None, for laying over film; dark lines and letters on light backings.
    #[serde(alias = "ClearLight")]
    TransparentLight,
    /// None, for laying over film; light lines and letters on dark backings.
    #[serde(alias = "ClearDark")]
    TransparentDark,
}

/// A part of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Block {
    /// What decides between the frames, side by side.
    Overview,
    /// The overlaid outlines.
    #[serde(alias = "Overlay")]
    Outline,
    /// The steering plot.
    Steering,
    /// The position plot.
    #[serde(alias = "Position")]
    StackAndReach,
    /// The openings of the main triangles, with bag and bottles.
    #[serde(alias = "Room")]
    Bags,
    /// The rears of the frames, seen from above.
    RearFromAbove,
    /// The loaded bicycles: self-steadying speeds, and where the luggage hangs.
    Loaded,
    /// The weights.
    Weights,
    /// Price against weight.
    #[serde(alias = "Price")]
    PriceAgainstWeight,
    /// What weight and price come to, in sentences.
    #[serde(alias = "Worth")]
    PriceAndClimb,
    /// A small table of figures and differences.
    Table,
    /// The findings in sentences.
    Captions,
    /// Which frame meets the needs.
    Needs,
    /// Which frame takes the parts.
    Parts,
    /// The published standards of the frames.
    Standards,
    /// What it takes to build on each frame.
    Build,
}

/// A caption in the user's own words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EditedCaption {
    /// Which caption: the finding's subject and frame, `Trail: Quern Halter`.
    #[serde(deserialize_with = "caption_key")]
    pub of: String,
    /// The user's words; empty leaves the caption out.
    pub text: String,
    /// What the findings said when it was written.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub instead_of: String,
    /// The figures then, by which a change is noticed whatever the units and the wording; empty in older files.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub figures: String,
}

impl Default for Sheet {
    fn default() -> Self {
        Self {
            name: String::new(),
            title: String::new(),
            subtitle: String::new(),
            date: String::new(),
            author: String::new(),
            words: String::new(),
            statement: None,
            shape: Shape::Wide,
            width: None,
            background: SheetBackground::Light,
            contents: vec![Block::Outline, Block::Table, Block::Captions],
            figures: vec![Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::Trail, Figure::Chainstay, Figure::Wheelbase],
            captions: Vec::new(),
            animation: None,
        }
    }
}

impl Shape {
    /// All, in the order of menus.
    pub const ALL: [Self; 8] =
        [Self::Wide, Self::Upright, Self::Square, Self::BlogColumn, Self::A4, Self::A4Landscape, Self::A3, Self::A3Landscape];

    /// Width and height of paper, mm; `None` for a screen's shapes.
    #[must_use]
    pub const fn paper_mm(self) -> Option<(f64, f64)> {
        // ISO 216.
        match self {
            Self::Wide | Self::Upright | Self::Square | Self::BlogColumn => None,
            Self::A4 => Some((210.0, 297.0)),
            Self::A4Landscape => Some((297.0, 210.0)),
            Self::A3 => Some((297.0, 420.0)),
            Self::A3Landscape => Some((420.0, 297.0)),
        }
    }

    /// Whether it is the picture of a screen, which shows one thing at a time.
    #[must_use]
    pub const fn is_screen(self) -> bool {
        matches!(self, Self::Wide | Self::Upright | Self::Square)
    }

    /// Pixels across where none are asked for; paper at 200 an inch.
    #[must_use]
    pub const fn usual_width(self) -> u32 {
        match self {
            Self::Wide => 1920,
            Self::Upright | Self::Square | Self::BlogColumn => 1080,
            Self::A4 => 1654,
            Self::A4Landscape | Self::A3 => 2339,
            Self::A3Landscape => 3307,
        }
    }
}

impl SheetBackground {
    /// All, in the order of menus.
    pub const ALL: [Self; 4] = [Self::Light, Self::Dark, Self::TransparentLight, Self::TransparentDark];

    /// Whether film shows through.
    #[must_use]
    pub const fn is_clear(self) -> bool {
        matches!(self, Self::TransparentLight | Self::TransparentDark)
    }
}

impl Block {
    /// All, in the order of menus.
    pub const ALL: [Self; 16] = [
        Self::Overview,
        Self::Outline,
        Self::Steering,
        Self::StackAndReach,
        Self::Bags,
        Self::RearFromAbove,
        Self::Loaded,
        Self::Weights,
        Self::PriceAgainstWeight,
        Self::PriceAndClimb,
        Self::Table,
        Self::Captions,
        Self::Needs,
        Self::Parts,
        Self::Standards,
        Self::Build,
    ];

    /// Whether it is drawn rather than written.
    #[must_use]
    pub const fn is_drawing(self) -> bool {
        matches!(
            self,
            Self::Overview
                | Self::Outline
                | Self::Steering
                | Self::StackAndReach
                | Self::Bags
                | Self::RearFromAbove
                | Self::Loaded
                | Self::Weights
                | Self::PriceAgainstWeight
        )
    }
}

impl Sheet {
    /// Pixels across.
    #[must_use]
    pub fn pixels_across(&self) -> u32 {
        self.width.unwrap_or(self.shape.usual_width()).clamp(*PIXELS_ACROSS.start(), *PIXELS_ACROSS.end())
    }

    /// The sheet's title, the comparison's, or what the sheet is.
    #[must_use]
    pub fn headline<'a>(&'a self, lineup: &'a Lineup) -> &'a str {
        [self.title.trim(), lineup.title.trim()].into_iter().find(|t| !t.is_empty()).unwrap_or("Framesets side by side")
    }

    /// Whether it has that block.
    #[must_use]
    pub fn has(&self, block: Block) -> bool {
        self.contents.contains(&block)
    }

    /// Puts a caption in the user's own words, in place of what the findings say with these figures; the same words as the
    /// findings' undo the edit.
    pub fn edit_caption(&mut self, of: &str, text: String, instead_of: &str, figures: &str) {
        self.captions.retain(|c| c.of != of);
        if text.trim() != instead_of {
            let (of, instead_of, figures) = (of.to_owned(), instead_of.to_owned(), figures.to_owned());
            self.captions.push(EditedCaption { of, text, instead_of, figures });
        }
    }

    /// Sheets to begin with: for film, phone, blog and wall, and statement pictures.
    #[must_use]
    pub fn presets() -> Vec<Self> {
        let sheet = |name: &str, shape| Self { name: name.to_owned(), shape, ..Self::default() };
        let statement =
            |name: &str, about| Self { statement: Some(Statement { about, ..Statement::default() }), ..sheet(name, Shape::Wide) };
        let all = [Block::Outline, Block::Steering, Block::Weights, Block::Table, Block::Captions];
        vec![
            Self { animation: Some(Animation::default()), ..sheet("Film", Shape::Wide) },
            Self { background: SheetBackground::Dark, animation: Some(Animation::default()), ..sheet("Dark film", Shape::Wide) },
            sheet("Phone", Shape::Upright),
            Self {
                contents: vec![Block::Outline, Block::Table],
                figures: vec![Figure::Stack, Figure::Reach, Figure::Trail],
                ..sheet("Square", Shape::Square)
            },
            Self { contents: all.to_vec(), ..sheet("Blog", Shape::BlogColumn) },
            Self { contents: [&all[..], &[Block::Needs]].concat(), ..sheet("Wall", Shape::A3) },
            statement("Statement: outline", StatementSubject::Outline),
            Self {
                contents: vec![Block::Outline, Block::Bags, Block::Table, Block::Captions],
                ..statement("Statement: bags", StatementSubject::Bags)
            },
            statement("Statement: steering", StatementSubject::Steering),
            statement("Statement: lengths", StatementSubject::Lengths),
        ]
    }
}

/// A line-up has no sheet of the wanted name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("“{wanted}” is not a sheet of this line-up. Choose {}", quoted(names))]
pub struct NoSheet {
    /// The name as given.
    pub wanted: String,
    /// Names of the line-up's sheets and of those to begin with.
    pub names: Vec<String>,
}

fn quoted(names: &[String]) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("“{name}”")).collect();
    crate::units::listed(quoted.iter().map(String::as_str))
}

/// The sheet of that name: among the line-up's own, else among those to begin with. Small and capital letters are alike.
///
/// # Errors
/// No sheet of that name.
pub fn find_sheet(lineup: &Lineup, name: &str) -> Result<Sheet, NoSheet> {
    let presets = Sheet::presets();
    let wanted = match name.trim().to_lowercase() {
        // Its name before version 0.2.
        old if old == "telephone" && !lineup.sheets.iter().any(|s| s.name.trim().to_lowercase() == old) => "phone".to_owned(),
        wanted => wanted,
    };
    let all = || lineup.sheets.iter().chain(&presets);
    all().find(|s| s.name.trim().to_lowercase() == wanted).cloned().ok_or_else(|| {
        let mut names: Vec<String> = Vec::new();
        for sheet in all() {
            let name = sheet.name.trim();
            if !names.iter().any(|known| known == name) {
                names.push(name.to_owned());
            }
        }
        NoSheet { wanted: name.to_owned(), names }
    })
}

fn caption_key<'de, D: Deserializer<'de>>(deserializer: D) -> Result<String, D::Error> {
    String::deserialize(deserializer).map(|key| current_key(&key))
}

fn width<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<u32>, D::Error> {
    match Option::<u32>::deserialize(deserializer)? {
        Some(width) if !PIXELS_ACROSS.contains(&width) => Err(D::Error::custom(format!(
            "{width} is not a valid width. Enter {} to {} pixels, for example 1920",
            PIXELS_ACROSS.start(),
            PIXELS_ACROSS.end()
        ))),
        width => Ok(width),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_are_found_by_name_and_refused_with_the_names_there_are() {
        let lineup = Lineup { sheets: vec![Sheet { name: "Loan bikes".to_owned(), ..Sheet::default() }], ..Lineup::default() };
        assert_eq!(find_sheet(&lineup, " loan BIKES").unwrap().name, "Loan bikes");
        for name in ["phone", "Telephone"] {
            assert_eq!(find_sheet(&lineup, name).unwrap().name, "Phone");
        }
        let refusal = find_sheet(&lineup, "poster").unwrap_err().to_string();
        assert!(refusal.contains("“poster” is not a sheet") && refusal.contains("“Loan bikes”, “Film”"), "{refusal}");
    }

    #[test]
    fn a_caption_written_back_to_the_findings_words_is_no_edit() {
        let mut sheet = Sheet::default();
        sheet.edit_caption("Trail: Quern Halter", "It turns in sooner.".to_owned(), "B has less trail.", "73, 85");
        assert_eq!(sheet.captions.len(), 1);
        sheet.edit_caption("Trail: Quern Halter", "B has less trail.".to_owned(), "B has less trail.", "73, 85");
        assert!(sheet.captions.is_empty());
    }
}
