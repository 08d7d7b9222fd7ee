//! The hypotheses of what is wrong with a table: their kinds, their prior chances and scales, and what each does to the
//! observations.
//!
//! The chances and scales are ours, trade practice, unverified; they stand in [`PRIORS`] alone, and
//! `docs/assumptions.md` shows them.

use crate::frameset::{Figure, SizeIndex, Stated};
use crate::geometry::assumption::Assumption;

/// What kind of error a hypothesis is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SlipKind {
    /// One figure of one size is wrong.
    Slip,
    /// One figure of one size is far off: a digit, a unit, another row.
    Gross,
    /// One figure is wrong by the same amount in all sizes.
    AllSizes,
    /// One figure is measured in another way in all sizes.
    Convention,
    /// The value of the neighbouring size stands in the table.
    Neighbour,
    /// Two values were exchanged.
    Swapped,
    /// An assumption does not hold.
    Assumption,
}

impl SlipKind {
    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Slip => "slip",
            Self::Gross => "gross",
            Self::AllSizes => "all_sizes",
            Self::Convention => "convention",
            Self::Neighbour => "neighbour",
            Self::Swapped => "swapped",
            Self::Assumption => "assumption",
        }
    }
}

/// Another way of measuring a figure than the one that its name says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OtherWay {
    /// Chainstays measured horizontally.
    ChainstayHorizontal,
    /// Head tube measured with the cups of the headset.
    HeadTubeWithCups,
    /// Top tube published as effective.
    TopTubeEffective,
    /// Effective top tube published as along the tube.
    EffectiveTopTubeAlong,
    /// Front centre measured horizontally.
    FrontCentreHorizontal,
}

impl OtherWay {
    /// The way of measuring that rules it out where a maker states it.
    #[must_use]
    pub const fn ruled_out_by(self) -> Stated {
        match self {
            Self::ChainstayHorizontal => Stated::ChainstayAlong,
            Self::HeadTubeWithCups => Stated::HeadTubeWithoutCups,
            Self::TopTubeEffective | Self::EffectiveTopTubeAlong => Stated::TopTubeAlong,
            Self::FrontCentreHorizontal => Stated::FrontCentreDirect,
        }
    }
}

/// A kind's prior chance and the scale of its error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// Chance, 0 to 1: of a printed figure, of a row, of a size or of an assumption.
    pub chance: f64,
    /// The chance that the ± allow for: larger where it is little known how usual the error is.
    pub at_most: f64,
    /// Standard deviation of the error of a length, mm; 0 where the error is fixed.
    pub mm: f64,
    /// Standard deviation of the error of an angle, degrees.
    pub deg: f64,
}

/// All prior chances and scales.
#[derive(Clone, Copy, Debug)]
pub struct Priors {
    /// A figure of one size.
    pub slip: Prior,
    /// A figure of one size, far off.
    pub gross: Prior,
    /// A figure in all sizes alike.
    pub all_sizes: Prior,
    /// The same of a figure that depends on the fork, the tyres or the sag that it was published with, which a table need
    /// not share with the rest: wheelbase, front centre, bottom bracket height, standover.
    pub all_sizes_as_fitted: Prior,
    /// Another way of measuring, where the maker does not say.
    pub convention: Prior,
    /// Chainstays measured horizontally, where the maker does not say: both ways are usual.
    pub chainstay_horizontal: Prior,
    /// What is left of a head tube with cups, whose cups' height is known roughly.
    pub cups: Prior,
    /// The neighbour's value.
    pub neighbour: Prior,
    /// Two sizes' values of one figure.
    pub swapped: Prior,
    /// Head and seat angle.
    pub swapped_angles: Prior,
    /// Two sizes' whole columns.
    pub swapped_columns: Prior,
    /// An assumption: setback, lower headset, tyre radius, junction.
    pub setback: Prior,
    /// Lower headset.
    pub lower_headset: Prior,
    /// Tyre radius.
    pub tyre_radius: Prior,
    /// Junction.
    pub junction: Prior,
}

const fn prior(chance: f64, mm: f64, deg: f64) -> Prior {
    Prior { chance, at_most: chance, mm, deg }
}

/// A prior whose chance is little known: an error is told by the smaller one, and the ± hold with the larger one too.
const fn prior_up_to(at_most: f64, prior: Prior) -> Prior {
    Prior { at_most, ..prior }
}

/// The table of priors.
///
/// Horizontal chainstays move the head angle by 0.3 to 0.5°. Where its rounding hides that, a table says nothing, and the
/// prior alone decides: with one chance of 5 in 100 the ± held the head angle in 86 of 100 such tables of four sizes, with
/// up to 25 in 100 in 95, clean tables' ± being the same to 1 % (measured by `examples/coverage.rs 2000 400`). So the chances
/// of what nobody has counted are a range (bounds over a class of priors: J. Berger, *Statistical Decision Theory and
/// Bayesian Analysis*, 2nd ed. 1985, §4.7; citation from memory).
pub const PRIORS: Priors = Priors {
    slip: prior(1.0 / 1000.0, 30.0, 5.0),
    gross: prior(1.0 / 4000.0, 300.0, 20.0),
    all_sizes: prior(1.0 / 500.0, 12.0, 2.0),
    all_sizes_as_fitted: prior_up_to(0.25, prior(0.03, 12.0, 2.0)),
    convention: prior(0.02, 0.0, 0.0),
    chainstay_horizontal: prior_up_to(0.25, prior(0.05, 0.0, 0.0)),
    cups: prior(0.02, 5.0, 0.0),
    neighbour: prior(1.0 / 4000.0, 0.0, 0.0),
    swapped: prior(1.0 / 4000.0, 0.0, 0.0),
    swapped_angles: prior(1.0 / 2000.0, 0.0, 0.0),
    swapped_columns: prior(1.0 / 2000.0, 0.0, 0.0),
    setback: prior(0.03, 20.0, 0.0),
    lower_headset: prior(0.03, 12.0, 0.0),
    tyre_radius: prior(0.03, 8.0, 0.0),
    junction: prior(0.03, 25.0, 0.0),
};

impl Priors {
    /// A figure wrong in all sizes alike.
    pub(super) const fn of_row(&self, figure: Figure) -> Prior {
        match figure {
            Figure::Wheelbase | Figure::FrontCentre | Figure::FrontCentreHorizontal | Figure::BbHeight | Figure::Standover => {
                self.all_sizes_as_fitted
            }
            _ => self.all_sizes,
        }
    }

    /// A figure measured in another way.
    pub(super) const fn of_way(&self, way: OtherWay) -> Prior {
        match way {
            OtherWay::ChainstayHorizontal => self.chainstay_horizontal,
            OtherWay::HeadTubeWithCups => self.cups,
            _ => self.convention,
        }
    }
}

impl Prior {
    /// ln(p / (1 − p)).
    pub(super) fn ln_odds(self) -> f64 {
        ln_odds(self.chance)
    }

    /// How much the log odds grow where the chance is the largest one.
    pub(super) fn ln_more(self) -> f64 {
        ln_odds(self.at_most) - ln_odds(self.chance)
    }

    /// The scale for a figure, mm or degrees.
    pub(super) fn scale(self, figure: Figure) -> f64 {
        if figure.is_angle() { self.deg } else { self.mm }
    }
}

fn ln_odds(chance: f64) -> f64 {
    (chance / (1.0 - chance)).ln()
}

/// What a hypothesis is about: no two of a set are about the same.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Subject {
    /// Figures of single sizes, by the place of the size.
    Cells(Vec<(SizeIndex, Figure)>),
    /// A figure in all sizes.
    Row(Figure),
    /// An assumption.
    Assumption(Assumption),
}

impl Subject {
    pub(super) fn meets(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Cells(a), Self::Cells(b)) => a.iter().any(|cell| b.contains(cell)),
            _ => self == other,
        }
    }
}

/// What a hypothesis does to the observations that it is about.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Effect {
    /// They are off by one error of this standard deviation, after `by` is taken off.
    Off {
        /// Standard deviation of the error.
        tau: f64,
        /// Fixed part of the error.
        by: f64,
    },
    /// The observation is of the same figure of another size, so it says nothing of its own.
    OfSize(SizeIndex),
    /// They are to have these values instead.
    Values(Vec<f64>),
    /// They are of another figure.
    Reads(Figure),
}

/// One hypothesis.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Hypothesis {
    pub(super) kind: SlipKind,
    pub(super) other_way: Option<OtherWay>,
    pub(super) subject: Subject,
    /// The observations, counted through all sizes and the shared ones behind them.
    pub(super) places: Vec<usize>,
    pub(super) effect: Effect,
    /// ln(p / (1 − p)).
    pub(super) ln_odds: f64,
    /// What is added to that for the ±, which allow for the largest chance.
    pub(super) ln_more: f64,
}

impl Hypothesis {
    /// The cells that it corrects one by one.
    pub(super) fn cells(&self) -> &[(SizeIndex, Figure)] {
        match &self.subject {
            Subject::Cells(cells) => cells,
            _ => &[],
        }
    }
}
