//! Findings: everything that is shown, computed purely from the document.

use std::collections::HashMap;
use std::sync::Arc;

use super::bag_space_findings::{BagSpaceFindings, BagSpaceSource};
use super::document::{Entry, Lineup, Tyres, letter};
use super::fit::{FrameFit, fit};
use super::frame_findings::FrameFindings;
use super::price_and_climb::{Lightest, PriceAndClimb, lightest, price_and_climb};
use crate::frameset::{Figure, FrameIndex, Frameset, Part, SizeIndex, TyreSize};
use crate::geometry::{Adjusted, Change, TYRE_RADIUS_U_MM, adjust, changed, outline};
use crate::units::{AnyKind, Mass, Measured, visible};
use crate::weight::{WeightSettings, Weights, weights};

/// Everything that follows from a line-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Findings {
    /// One a frame, in the line-up's order.
    pub frames: Vec<FrameFindings>,
    /// Place of the reference; `None` in an empty line-up.
    pub reference: Option<FrameIndex>,
    /// What fits, what is needed, what another fork does and where the rider comes: one a frame.
    pub fit: Vec<FrameFit>,
    /// Price and climb of each frame, in the same order.
    pub price_and_climb: Vec<PriceAndClimb>,
    /// The lightest of the shown framesets; `None` where no weight is stated.
    pub lightest: Option<Lightest>,
}

/// The weights of an entry's frameset at a size. Tubes are as long on one tyre as on another.
#[must_use]
pub fn weights_of(entry: &Entry, as_published: &Adjusted, size: SizeIndex, settings: &WeightSettings) -> Weights {
    let entry = crate::weight::WeighedFrame {
        frameset: &entry.frameset,
        adjusted: as_published,
        size,
        weight_choices: &entry.weight_choices,
    };
    weights(&entry, settings)
}

/// All sizes on one tyre, and how the chosen one's figures answer to its radius.
fn on_tyre(as_published: &Adjusted, size: SizeIndex, tyre: TyreSize) -> (Arc<Adjusted>, Option<Box<[f64; Figure::COUNT]>>) {
    let radius = Some(Measured::new(tyre.radius_mm(), TYRE_RADIUS_U_MM));
    let change = Change { front_radius: radius, rear_radius: radius, is_one_tyre: true, ..Change::default() };
    let mut adjusted = as_published.clone();
    let mut by_tyre_radius = None;
    for (index, drawn) in SizeIndex::numbered(&mut adjusted.sizes) {
        let after = changed(drawn, &change);
        *drawn = after.size;
        if index == size {
            by_tyre_radius = Some(Box::new(after.by_tyre_radius));
        }
    }
    (Arc::new(adjusted), by_tyre_radius)
}

impl Findings {
    /// Computes everything.
    #[must_use]
    pub fn of(lineup: &Lineup) -> Self {
        Self::renewed(lineup, None)
    }

    /// Computes what changed since `before`: a frameset that is the very same is not adjusted again.
    #[must_use]
    pub fn renewed(lineup: &Lineup, before: Option<&Self>) -> Self {
        let frames_before = before.map(|b| b.frames.as_slice()).unwrap_or_default();
        let by_frameset: HashMap<*const Frameset, &Arc<Adjusted>> =
            frames_before.iter().map(|f| (Arc::as_ptr(&f.frameset), &f.as_published)).collect();
        let known = |frameset: &Arc<Frameset>| by_frameset.get(&Arc::as_ptr(frameset)).map(|known| Arc::clone(known));
        let tyre = match lineup.settings.tyres {
            Tyres::AsPublished => None,
            Tyres::SameOnAll(tyre) => Some(tyre),
        };
        let frames: Vec<FrameFindings> = FrameIndex::numbered(&lineup.frames)
            .map(|(index, entry)| {
                let as_published = known(&entry.frameset).unwrap_or_else(|| Arc::new(adjust(&entry.frameset)));
                let size = entry.size_index();
                let (adjusted, by_tyre_radius) = match tyre {
                    None => (Arc::clone(&as_published), None),
                    Some(tyre) => on_tyre(&as_published, size, tyre),
                };
                let drawn = outline(&entry.frameset, &adjusted, size, tyre);
                let source = BagSpaceSource {
                    frameset: &entry.frameset,
                    adjusted: &adjusted,
                    size,
                    outline: drawn.as_ref(),
                    tyres: lineup.settings.tyres,
                    settings: lineup.settings.bags,
                };
                let luggage = BagSpaceFindings::renewed(&source, before.and_then(|b| index.of(&b.frames)));
                FrameFindings {
                    letter: letter(index),
                    name: visible(&entry.frameset.name()).into_owned(),
                    shown: entry.shown,
                    frameset: Arc::clone(&entry.frameset),
                    size,
                    outline: drawn,
                    weights: weights_of(entry, &as_published, size, &lineup.settings.weight),
                    as_published,
                    adjusted,
                    by_tyre_radius,
                    luggage,
                }
            })
            .collect::<Vec<_>>();
        let reference = lineup.reference_index();
        Self {
            fit: fit(lineup, &frames, reference),
            price_and_climb: price_and_climb(lineup, &frames),
            lightest: lightest(&frames, reference),
            frames,
            reference,
        }
    }

    /// The reference's findings.
    #[must_use]
    pub fn reference_frame(&self) -> Option<&FrameFindings> {
        self.reference.and_then(|r| r.of(&self.frames))
    }

    /// How a frame's figure differs from the reference's; `None` for the reference itself and where either is missing.
    /// Figures of two makers share no error, but one common tyre's radius is common to both. Two sizes of one frameset, as
    /// published, share what is one for both: its assumptions, its fork, the rounding of equal figures.
    #[must_use]
    pub fn difference(&self, frame: FrameIndex, figure: Figure) -> Option<Measured<AnyKind>> {
        if self.reference == Some(frame) {
            return None;
        }
        let (frame, reference) = (frame.of(&self.frames)?, self.reference_frame()?);
        let (own, other) = (frame.value(figure)?, reference.value(figure)?);
        if own.is_missing || other.is_missing {
            return None;
        }
        if frame.by_tyre_radius.is_none() && reference.by_tyre_radius.is_none() && frame.is_of_same_frameset(reference) {
            return frame.adjusted.difference(frame.size, reference.size, figure);
        }
        // Var(a − b) = Var a + Var b − 2 Cov(a, b); the common tyre's part of the covariance is ∂a/∂r · ∂b/∂r · u_r².
        let answers = |f: &FrameFindings| f.by_tyre_radius.as_ref().map_or(0.0, |by| by[figure as usize]);
        let common = answers(frame) * answers(reference) * TYRE_RADIUS_U_MM * TYRE_RADIUS_U_MM;
        let variance = own.u * own.u + other.u * other.u - 2.0 * common;
        Some(Measured::new(own.value - other.value, variance.max(0.0).sqrt()))
    }
}

impl Findings {
    /// How a part's weight differs from the reference's, grams; `None` for the reference itself and where either is not
    /// stated. Its u holds what is stated only: see [`PartWeight::is_estimate`](super::PartWeight::is_estimate).
    #[must_use]
    pub fn weight_difference(&self, frame: FrameIndex, part: Part) -> Option<Measured<Mass>> {
        if self.reference == Some(frame) {
            return None;
        }
        let own = frame.of(&self.frames)?.weights.part(part)?;
        let other = self.reference_frame()?.weights.part(part)?;
        Some(own.mass.minus(other.mass))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::Lineup;

    fn lineup() -> Lineup {
        crate::lineup::read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn one_common_tyre_is_common_to_both_sides_of_a_difference() {
        let mut lineup = lineup();
        lineup.settings.tyres = Tyres::SameOnAll(TyreSize::new(57, 622).unwrap());
        let findings = Findings::of(&lineup);
        let (a, b) = (findings.frames[0].value(Figure::BbHeight).unwrap(), findings.frames[1].value(Figure::BbHeight).unwrap());
        let difference = findings.difference(FrameIndex(1), Figure::BbHeight).unwrap();
        // Each height is uncertain by the tyre, the difference only by the two drops.
        assert!(a.u > 1.9 && b.u > 1.9 && difference.u < 0.6, "{} {} {}", a.u, b.u, difference.u);
        assert!(!findings.frames[0].value(Figure::BbHeight).unwrap().assumed.is_empty());
        let drawn = Findings::of(&{
            let mut lineup = lineup.clone();
            lineup.settings.tyres = Tyres::AsPublished;
            lineup
        });
        assert!(drawn.difference(FrameIndex(1), Figure::BbHeight).unwrap().u > 2.5);
    }

    #[test]
    fn nothing_is_adjusted_twice() {
        let lineup = lineup();
        let before = Findings::of(&lineup);
        let after = Findings::renewed(&lineup, Some(&before));
        assert!(before.frames.iter().zip(&after.frames).all(|(b, a)| Arc::ptr_eq(&b.as_published, &a.as_published)));
        assert_eq!(before, after);
    }
}
