//! What a need may ask beyond geometry and standards: weights, price, bag and bottles. How much a frameset has of each is
//! worked out elsewhere and comes as a measured number.

use super::super::reading::number;
use super::super::standards::{NotUnderstood, refused};
use crate::units::{AnyKind, Measured, Quantity, typed_mass};

/// A measure that a need can limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Weight of the frameset, g.
    FramesetWeight,
    /// Weight of everything that moves, g.
    LoadedWeight,
    /// Price of the frameset in the currency that prices are compared in.
    Price,
    /// Volume of the frame bag, litres.
    BagVolume,
    /// Bottles that fit without a bag.
    Bottles,
}

impl Measure {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::FramesetWeight, Self::LoadedWeight, Self::Price, Self::BagVolume, Self::Bottles];

    /// What it is called in a need, the usual name first.
    const fn names(self) -> &'static [&'static str] {
        match self {
            Self::FramesetWeight => &["frameset weight", "weight"],
            Self::LoadedWeight => &["loaded total", "loaded weight"],
            Self::Price => &["price"],
            Self::BagVolume => &["frame bag", "bag"],
            Self::Bottles => &["bottles"],
        }
    }

    /// Its usual name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.names()[0]
    }

    /// What it measures; `None` for money and counts.
    #[must_use]
    pub const fn quantity(self) -> Option<Quantity> {
        match self {
            Self::FramesetWeight | Self::LoadedWeight => Some(Quantity::Mass),
            Self::BagVolume => Some(Quantity::Volume),
            Self::Price | Self::Bottles => None,
        }
    }

    pub(super) fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|m| m.names().contains(&name))
    }

    const fn example(self) -> &'static str {
        match self {
            Self::FramesetWeight => "frameset weight at most 2500 g",
            Self::LoadedWeight => "loaded total at most 100 kg",
            Self::Price => "price at most 1200",
            Self::BagVolume => "frame bag at least 6 l",
            Self::Bottles => "bottles at least 2",
        }
    }

    /// The largest limit.
    const fn most(self) -> f64 {
        match self {
            Self::FramesetWeight => 20_000.0,
            Self::LoadedWeight => 1_000_000.0,
            Self::Price => 1e9,
            Self::BagVolume => 100.0,
            Self::Bottles => 10.0,
        }
    }

    /// A limit as it is written, in g, litres or a count.
    pub(super) fn read(self, text: &str) -> Result<f64, NotUnderstood> {
        let text = text.trim();
        let value = match self {
            Self::FramesetWeight => number(text).or_else(|| typed_mass(text)),
            Self::LoadedWeight => number(text).map(|kg| kg * 1000.0).or_else(|| typed_mass(text)),
            Self::Price | Self::Bottles => number(text),
            Self::BagVolume => {
                let litres = ["litres", "litre", "l"].into_iter().find_map(|unit| text.strip_suffix(unit));
                number(litres.unwrap_or(text).trim())
            }
        };
        let name = self.name();
        let Some(value) = value else {
            let article = if self == Self::Bottles { "a number of" } else { "a" };
            return refused(format!("`{text}` is not {article} {name}: write \"{}\"", self.example()));
        };
        if !(0.0..=self.most()).contains(&value) {
            return refused(format!("`{text}` is outside 0 to {}: write \"{}\"", self.most(), self.example()));
        }
        Ok(value)
    }
}

/// What a frameset has of each measure.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measures([Option<Measured<AnyKind>>; Measure::ALL.len()]);

impl Measures {
    /// The same with a value of one measure; `None` where it is unknown.
    #[must_use]
    pub fn with(mut self, measure: Measure, value: Option<Measured<AnyKind>>) -> Self {
        self.0[measure as usize] = value;
        self
    }

    /// The value of one measure, in g, litres, money or a count.
    #[must_use]
    pub const fn of(&self, measure: Measure) -> Option<Measured<AnyKind>> {
        self.0[measure as usize]
    }
}
