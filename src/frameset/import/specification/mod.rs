//! Specification lists: lines such as `Frame weight: 2.3 kg (M)` or `Hinterachse  12 x 142 mm`, alone or beside a geometry
//! table, become weights, prices and standards, each with the size that it is for. What is not understood is kept as a note
//! and can be assigned by hand.
//!
//! Invariant: nothing is dropped and nothing is guessed silently: each line is a [`SpecificationRow`] with what it was
//! taken as, and what was decided about it is a remark or a question.

mod ends;
mod field;
mod lines;
mod prices;
mod read;
mod standards;
mod tyre_clearance;
mod weights;

pub use field::SpecificationField;
pub(super) use field::field_of;
pub(super) use lines::{SpecificationLine, take_from_rows, take_from_text};
pub(super) use read::{read_lines, rows_of_table};

use crate::frameset::{Fork, Material, Price, Standard, Tubing, Weight};
use crate::units::fixed;

/// A line of a specification list, and what it was taken as.
#[derive(Clone, Debug, PartialEq)]
pub struct SpecificationRow {
    /// Its number, the key of [`Reading::assign_specification`](super::Reading::assign_specification).
    pub line: usize,
    /// Its label as published.
    pub label: String,
    /// What is said, as published.
    pub text: String,
    /// What it is about, where that is known.
    pub field: Option<SpecificationField>,
    /// What was taken of it.
    pub facts: Vec<SpecificationFact>,
    /// Whether its text goes into the frameset's note.
    pub kept_as_note: bool,
    /// What was decided about it, in sentences.
    pub remarks: Vec<String>,
}

/// A fact that a line states.
#[derive(Clone, Debug, PartialEq)]
#[expect(missing_docs, reason = "named as in frame files")]
pub enum SpecificationFact {
    Weight(Weight),
    Price(Price),
    Standard(Standard, String),
    Fork(Fork),
    Tubing(Tubing),
    Year(i32),
    Size(String),
}

impl SpecificationFact {
    /// The fact in words: `frame weight 2350 g, size M`.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Self::Weight(weight) => {
                let size = weight.size.as_ref().map_or(String::new(), |size| format!(", size {size}"));
                let decimals = usize::from(weight.grams.fract() != 0.0);
                format!("{} weight {} g{size}", weight.part.label(), fixed(weight.grams, decimals))
            }
            Self::Price(price) => {
                let tax = match (price.tax, &price.tax_percent) {
                    (Some(crate::frameset::Tax::Included), Some(percent)) => format!(", with {percent} % tax"),
                    (Some(crate::frameset::Tax::Included), None) => ", with tax".to_owned(),
                    (Some(crate::frameset::Tax::Excluded), _) => ", without tax".to_owned(),
                    (None, _) => String::new(),
                };
                format!("{} price {} {}{tax}", price.part.label(), price.amount, price.currency)
            }
            Self::Standard(standard, text) => format!("{}: {text}", standard.label()),
            Self::Fork(fork) => {
                let material = fork.material.map_or(String::new(), |m| format!(", {}", material_name(m)));
                let travel = fork.travel.map_or(String::new(), |mm| format!(", travel {} mm", fixed(mm, 0)));
                format!("fork in words{material}{travel}")
            }
            Self::Tubing(tubing) => format!("frame material: {}", material_name(tubing.material)),
            Self::Year(year) => format!("model year {year}"),
            Self::Size(size) => format!("size {size}"),
        }
    }
}

/// The material's name in reports.
const fn material_name(material: Material) -> &'static str {
    match material {
        Material::Steel => "steel",
        Material::Aluminium => "aluminium",
        Material::Titanium => "titanium",
        Material::Carbon => "carbon",
    }
}
