//! Which rows the overview shows, and in which order.

use serde::{Deserialize, Serialize};

use crate::frameset::Figure;
use crate::parts::{Limited, Measure};

/// A row of the overview.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum OverviewRow {
    /// Reach at the reference's bar height, less the reference's.
    SizeFit,
    /// The rider's needs.
    Needs,
    /// Weight of everything that moves.
    LoadedWeight,
    /// Weight of the frameset.
    FramesetWeight,
    /// Price of the frameset.
    Price,
    /// Trail.
    Trail,
    /// Chainstay.
    Chainstay,
    /// Wheelbase.
    Wheelbase,
    /// Volume of the frame bag.
    BagVolume,
    /// Bottles that fit without a bag.
    Bottles,
    /// The widest tyre.
    WidestTyre,
    /// Doubtful figures.
    DoubtfulFigures,
}

/// Which way a row is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// Less is better.
    Less,
    /// More is better.
    More,
}

impl OverviewRow {
    /// All, in the order in which they begin.
    pub const ALL: [Self; 12] = [
        Self::SizeFit,
        Self::Needs,
        Self::LoadedWeight,
        Self::FramesetWeight,
        Self::Price,
        Self::Trail,
        Self::Chainstay,
        Self::Wheelbase,
        Self::BagVolume,
        Self::Bottles,
        Self::WidestTyre,
        Self::DoubtfulFigures,
    ];

    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::SizeFit => "size_fit",
            Self::Needs => "needs",
            Self::LoadedWeight => "loaded_weight",
            Self::FramesetWeight => "frameset_weight",
            Self::Price => "price",
            Self::Trail => "trail",
            Self::Chainstay => "chainstay",
            Self::Wheelbase => "wheelbase",
            Self::BagVolume => "bag_volume",
            Self::Bottles => "bottles",
            Self::WidestTyre => "widest_tyre",
            Self::DoubtfulFigures => "doubtful_figures",
        }
    }

    /// The figure that it shows, if it is one.
    #[must_use]
    pub const fn figure(self) -> Option<Figure> {
        match self {
            Self::Trail => Some(Figure::Trail),
            Self::Chainstay => Some(Figure::Chainstay),
            Self::Wheelbase => Some(Figure::Wheelbase),
            _ => None,
        }
    }

    /// The measure that it shows, if it is one.
    #[must_use]
    pub const fn measure(self) -> Option<Measure> {
        match self {
            Self::LoadedWeight => Some(Measure::LoadedWeight),
            Self::FramesetWeight => Some(Measure::FramesetWeight),
            Self::Price => Some(Measure::Price),
            Self::BagVolume => Some(Measure::BagVolume),
            Self::Bottles => Some(Measure::Bottles),
            _ => None,
        }
    }

    /// Which way it is better; `None` where neither is, or where it depends on the rider.
    #[must_use]
    pub const fn better(self) -> Option<Better> {
        match self {
            Self::LoadedWeight | Self::FramesetWeight | Self::Price | Self::DoubtfulFigures => Some(Better::Less),
            Self::BagVolume | Self::Bottles | Self::WidestTyre | Self::Needs => Some(Better::More),
            Self::SizeFit | Self::Trail | Self::Chainstay | Self::Wheelbase => None,
        }
    }

    /// Whether a limit is about it; its widest tyre is for this bead seat diameter, mm.
    #[must_use]
    pub fn is_limited_by(self, limited: Limited, bead_mm: f64) -> bool {
        match limited {
            Limited::Figure(figure) => self.figure() == Some(figure),
            Limited::Measure(measure) => self.measure() == Some(measure),
            Limited::Tyre(bead) => self == Self::WidestTyre && f64::from(bead) == bead_mm,
        }
    }

    /// Whether the user can set a limit for it.
    #[must_use]
    pub const fn takes_limit(self) -> bool {
        self.figure().is_some() || self.measure().is_some() || matches!(self, Self::WidestTyre)
    }
}

/// What the overview shows.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct OverviewSettings {
    /// Its rows, from the top. One that is named twice stands where it is named first.
    pub rows: Vec<OverviewRow>,
}

impl Default for OverviewSettings {
    fn default() -> Self {
        Self { rows: OverviewRow::ALL.to_vec() }
    }
}

impl OverviewSettings {
    pub(super) fn is_default(&self) -> bool {
        *self == Self::default()
    }

    /// Its rows, each once.
    pub fn rows(&self) -> impl Iterator<Item = OverviewRow> + '_ {
        let is_first = |(at, row): &(usize, &OverviewRow)| !self.rows[..*at].contains(row);
        self.rows.iter().enumerate().filter(is_first).map(|(_, row)| *row)
    }

    /// Shows a row at the end, or hides it.
    pub fn show(&mut self, row: OverviewRow, is_shown: bool) {
        self.rows = self.rows().filter(|r| *r != row).collect();
        if is_shown {
            self.rows.push(row);
        }
    }

    /// Moves a row one place up or down; at the end it stays.
    pub fn shift(&mut self, row: OverviewRow, is_up: bool) {
        self.rows = self.rows().collect();
        let Some(at) = self.rows.iter().position(|r| *r == row) else { return };
        let to = if is_up { at.checked_sub(1) } else { Some(at + 1).filter(|to| *to < self.rows.len()) };
        if let Some(to) = to {
            self.rows.swap(at, to);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_hidden_shown_and_moved_and_stand_once() {
        let mut settings = OverviewSettings { rows: vec![OverviewRow::Trail, OverviewRow::Price, OverviewRow::Trail] };
        assert_eq!(settings.rows().collect::<Vec<_>>(), [OverviewRow::Trail, OverviewRow::Price]);
        settings.shift(OverviewRow::Price, true);
        assert_eq!(settings.rows, [OverviewRow::Price, OverviewRow::Trail]);
        settings.shift(OverviewRow::Price, true);
        settings.shift(OverviewRow::Trail, false);
        assert_eq!(settings.rows, [OverviewRow::Price, OverviewRow::Trail], "they stay at the ends");
        settings.show(OverviewRow::Needs, true);
        settings.show(OverviewRow::Price, false);
        assert_eq!(settings.rows, [OverviewRow::Trail, OverviewRow::Needs]);
    }
}
