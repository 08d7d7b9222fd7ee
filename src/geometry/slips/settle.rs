//! What a single measurement would settle: the figure whose value differs most between the sets that are left, beside what
//! each of them leaves open and what a tape measure reads to.

use super::explain::{NOT_USED_FROM, figure_in};
use super::resolve::Resolved;
use crate::frameset::{Figure, Frameset, SizeIndex};

/// Figures that can be measured on a frame, the easier ones first.
const MEASURABLE: [Figure; 10] = [
    Figure::Wheelbase,
    Figure::Chainstay,
    Figure::HeadTube,
    Figure::Stack,
    Figure::Reach,
    Figure::EffectiveTopTube,
    Figure::FrontCentre,
    Figure::HeadAngle,
    Figure::SeatAngle,
    Figure::BbDrop,
];
/// Standard uncertainty of a measurement on a frame, mm and degrees: trade practice, unverified.
const MEASURED_MM: f64 = 1.0;
const MEASURED_DEG: f64 = 0.1;
/// Least ratio of the variance between the sets to that within them from which a measurement settles something.
const SETTLES: f64 = 4.0;

/// A measurement that would tell the causes of a doubt apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settling {
    /// The size to be measured.
    pub size: SizeIndex,
    /// What is to be measured.
    pub figure: Figure,
    /// Variance between the sets over that within them: how well it tells them apart.
    pub ratio: f64,
}

/// The most telling measurement, where no set is nearly sure.
pub(super) fn settling(frameset: &Frameset, sets: &[(f64, Resolved)]) -> Option<Settling> {
    if sets.first().is_none_or(|(chance, _)| *chance >= NOT_USED_FROM) {
        return None;
    }
    let mut best: Option<Settling> = None;
    for size in SizeIndex::all(frameset.sizes.len()) {
        for figure in MEASURABLE {
            let Some(ratio) = ratio(sets, size, figure) else { continue };
            if ratio >= SETTLES && best.is_none_or(|b| ratio > b.ratio) {
                best = Some(Settling { size, figure, ratio });
            }
        }
    }
    best
}

fn ratio(sets: &[(f64, Resolved)], size: SizeIndex, figure: Figure) -> Option<f64> {
    let measured = if figure.is_angle() { MEASURED_DEG } else { MEASURED_MM };
    let mut values: Vec<(f64, f64, f64)> = Vec::with_capacity(sets.len());
    for (chance, set) in sets {
        let (value, variance) = figure_in(set, size, figure)?;
        values.push((*chance, value, variance));
    }
    let mean: f64 = values.iter().map(|(chance, value, _)| chance * value).sum();
    let between: f64 = values.iter().map(|(chance, value, _)| chance * (value - mean) * (value - mean)).sum();
    let within: f64 = values.iter().map(|(chance, _, variance)| chance * variance).sum();
    Some(between / (within + measured * measured))
}
