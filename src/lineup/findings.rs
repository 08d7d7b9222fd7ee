//! Findings: everything that is shown, computed purely from the document.

use std::collections::HashMap;
use std::sync::Arc;

use super::bag_space_findings::{BagSpaceFindings, BagSpaceSource};
use super::build::{Build, builds};
use super::document::{Entry, Lineup, Tyres, letter};
use super::fit::{FrameFit, fit};
use super::frame_findings::FrameFindings;
use super::loaded_findings::{LoadedFindings, loaded};
use super::moved_luggage::{MovedLuggage, moved_luggage};
use super::price_and_climb::{Lightest, PriceAndClimb, lightest, price_and_climb};
use super::sag::Sag;
use crate::frameset::{Figure, FrameIndex, Frameset, Part, SizeIndex, TyreSize};
use crate::geometry::{Adjusted, Change, Quantity, STATES, TYRE_RADIUS_U_MM, adjust, changed, outline};
use crate::units::{AnyKind, Common, ComputedOnce, Mass, Measured, visible};
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
    /// What it takes to build a bicycle on each frame, in the same order.
    pub builds: Vec<Build>,
    /// The lightest of the shown framesets; `None` where no weight is stated.
    pub lightest: Option<Lightest>,
    /// Whether frames' lines are broken in patterns, each its own.
    pub has_line_patterns: bool,
    /// Whether all frames stand on one tyre.
    pub has_common_tyre: bool,
    /// The loaded bicycles: see [`Findings::loaded`].
    loaded: ComputedOnce<LoadedFindings>,
    /// See [`Findings::moved_luggage`].
    moved_luggage: ComputedOnce<Vec<MovedLuggage>>,
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

/// How each figure answers to the state.
type Answers = Box<[[f64; STATES]; Figure::COUNT]>;

/// All sizes with the settings that are common to all frames, and how the chosen one's figures answer to the state.
fn on_common_settings(as_published: &Arc<Adjusted>, size: SizeIndex, change: &Change) -> (Arc<Adjusted>, Option<Answers>) {
    if change.is_none() {
        return (Arc::clone(as_published), None);
    }
    let mut adjusted = Adjusted::clone(as_published);
    let mut answers = None;
    for (index, drawn) in SizeIndex::numbered(&mut adjusted.sizes) {
        let after = changed(drawn, change);
        *drawn = after.size;
        if index == size {
            answers = Some(after.gradients);
        }
    }
    (Arc::new(adjusted), answers)
}

/// What the common settings change on a frame.
fn common_change(frameset: &Frameset, tyre: Option<TyreSize>, sag: Sag) -> Change {
    let radius = tyre.map(|tyre| Measured::new(tyre.radius_mm(), TYRE_RADIUS_U_MM));
    let is_one_tyre = radius.is_some();
    Change { front_radius: radius, rear_radius: radius, is_one_tyre, sag_mm: sag.of(frameset), ..Change::default() }
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
                let change = common_change(&entry.frameset, tyre, lineup.settings.sag);
                let (adjusted, answers) = on_common_settings(&as_published, size, &change);
                let drawn = outline(&entry.frameset, &adjusted, size, tyre);
                let source = BagSpaceSource {
                    frameset: &entry.frameset,
                    adjusted: &adjusted,
                    size,
                    outline: drawn.as_ref(),
                    tyres: lineup.settings.tyres,
                    sag: lineup.settings.sag,
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
                    silhouette: ComputedOnce::default(),
                    weights: weights_of(entry, &as_published, size, &lineup.settings.weight),
                    as_published,
                    adjusted,
                    answers,
                    luggage,
                }
            })
            .collect::<Vec<_>>();
        let reference = lineup.reference_index();
        let price_and_climb = price_and_climb(lineup, &frames);
        let fit = fit(lineup, &frames, &price_and_climb, reference);
        Self {
            builds: builds(lineup, &frames, fit.iter().map(|f| (&f.statements, f.verdicts.as_slice())), &price_and_climb),
            fit,
            price_and_climb,
            lightest: lightest(&frames, reference),
            frames,
            reference,
            has_line_patterns: lineup.settings.outline.line_patterns,
            has_common_tyre: tyre.is_some(),
            loaded: ComputedOnce::default(),
            moved_luggage: ComputedOnce::default(),
        }
    }

    /// The loaded bicycles, computed when they are first asked for. `lineup` is the one that all of this follows from.
    #[must_use]
    pub fn loaded(&self, lineup: &Lineup) -> &LoadedFindings {
        self.loaded.get(|| loaded(lineup, &self.frames, self.reference_frame()))
    }

    /// What each frame's luggage does where it is moved from the rear to the front, computed when it is first asked for.
    /// `lineup` is the one that all of this follows from.
    #[must_use]
    pub fn moved_luggage(&self, lineup: &Lineup) -> &[MovedLuggage] {
        self.moved_luggage.get(|| moved_luggage(lineup, &self.frames, self.loaded(lineup)))
    }

    /// The reference's findings.
    #[must_use]
    pub fn reference_frame(&self) -> Option<&FrameFindings> {
        self.reference.and_then(|r| r.of(&self.frames))
    }

    /// How a frame's figure differs from the reference's; `None` for the reference itself and where either is missing.
    /// Figures of two makers share no error, but one common tyre's radius is common to both. Two sizes of one frameset share
    /// what is one for both: its assumptions, its fork, the rounding of equal figures.
    #[must_use]
    pub fn difference(&self, frame: FrameIndex, figure: Figure) -> Option<Measured<AnyKind>> {
        let reference = self.reference.filter(|reference| *reference != frame)?;
        self.difference_between(frame, reference, figure)
    }

    /// How a frame's figure differs from another frame's, as [`difference`](Self::difference) from the reference's.
    pub(super) fn difference_between(&self, frame: FrameIndex, from: FrameIndex, figure: Figure) -> Option<Measured<AnyKind>> {
        let (frame, reference) = (frame.of(&self.frames)?, from.of(&self.frames)?);
        let (own, other) = (frame.value(figure)?, reference.value(figure)?);
        if own.is_missing || other.is_missing {
            return None;
        }
        let has_same_explanations = frame.is_of_same_frameset(reference);
        if !has_same_explanations && !self.has_common_tyre {
            return Some(own.measured().minus(other.measured()));
        }
        let (answers, answers_there) = (frame.gradient(figure)?, reference.gradient(figure)?);
        let common = |between: &[[f64; STATES]; STATES]| {
            let rows = answers.iter().zip(between).filter(|(a, _)| **a != 0.0);
            rows.map(|(a, row)| a * row.iter().zip(&answers_there).map(|(c, b)| c * b).sum::<f64>()).sum::<f64>()
        };
        let of_likeliest = if has_same_explanations {
            self.on_common_tyre(frame.as_published.between_sizes_by_likeliest(frame.size, reference.size))
        } else {
            self.on_common_tyre([[0.0; STATES]; STATES])
        };
        let covariance = common(&self.covariance_between(frame, reference));
        let of_likeliest = common(&of_likeliest);
        let common = Common { covariance, of_likeliest, has_same_explanations };
        Some(own.measured().minus_with(other.measured(), common))
    }

    /// Covariance of the states of two frames' chosen sizes: what two sizes of one frameset share, and a common tyre.
    pub(super) fn covariance_between(&self, frame: &FrameFindings, other: &FrameFindings) -> [[f64; STATES]; STATES] {
        self.on_common_tyre(if frame.is_of_same_frameset(other) {
            frame.as_published.between_sizes(frame.size, other.size)
        } else {
            [[0.0; STATES]; STATES]
        })
    }

    /// Covariance of the states of two frames' chosen sizes, as drawn but for a common tyre, whose radius is one for both.
    fn on_common_tyre(&self, mut between: [[f64; STATES]; STATES]) -> [[f64; STATES]; STATES] {
        if self.has_common_tyre {
            let tyres = [Quantity::RearTyreRadius.index(), Quantity::FrontTyreRadius.index()];
            for i in 0..STATES {
                for j in 0..STATES {
                    match (tyres.contains(&i), tyres.contains(&j)) {
                        (true, true) => between[i][j] = TYRE_RADIUS_U_MM * TYRE_RADIUS_U_MM,
                        (false, false) => {}
                        _ => between[i][j] = 0.0,
                    }
                }
            }
        }
        between
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
        frame.of(&self.frames)?.weight_difference(self.reference_frame()?, part)
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

    /// Two sizes of one frameset differ by less than their ± together, as drawn and on one tyre alike.
    #[test]
    fn sizes_of_one_frameset_share_their_errors_on_one_tyre_too() {
        let mut lineup = lineup();
        let mut entry = lineup.frames[0].clone();
        entry.size = entry.frameset.sizes[0].label.clone();
        lineup.frames.push(entry);
        let last = lineup.frames.len() - 1;
        for tyres in [Tyres::AsPublished, Tyres::SameOnAll(TyreSize::new(57, 622).unwrap())] {
            lineup.settings.tyres = tyres;
            let findings = Findings::of(&lineup);
            for figure in [Figure::Trail, Figure::BbHeight, Figure::Stack, Figure::LowerHeadset] {
                let [own, other] = [0, last].map(|f| *findings.frames[f].value(figure).unwrap());
                let found = findings.difference(FrameIndex(last), figure).unwrap();
                assert!((found.value - (other.value - own.value)).abs() < 1e-9, "{figure:?}");
                let apart = own.u.hypot(other.u);
                let most = if figure == Figure::Stack { 1.01 } else { 0.6 };
                assert!(found.u < most * apart, "{figure:?} {tyres:?}: {} of {apart}", found.u);
            }
        }
    }

    /// At sag a suspension frame stands steeper and lower, a rigid one as before.
    #[test]
    fn only_a_suspension_frame_changes_with_sag() {
        let mut lineup = lineup();
        let fork = crate::frameset::Fork { material: None, travel: Some(100.0), corrected_for: None, steerer: None, note: None };
        Arc::make_mut(&mut lineup.frames[1].frameset).fork = Some(fork);
        let before = Findings::of(&lineup);
        lineup.settings.sag = Sag::Percent(25.0);
        let after = Findings::renewed(&lineup, Some(&before));
        let of = |findings: &Findings, frame: usize, figure: Figure| findings.frames[frame].value(figure).unwrap().value;
        assert_eq!(of(&before, 0, Figure::HeadAngle), of(&after, 0, Figure::HeadAngle));
        let steeper = of(&after, 1, Figure::HeadAngle) - of(&before, 1, Figure::HeadAngle);
        assert!((0.8..2.0).contains(&steeper), "{steeper}");
        assert!(of(&after, 1, Figure::Stack) < of(&before, 1, Figure::Stack) - 5.0);
        let shorter = of(&before, 1, Figure::AxleToCrownAlongAxis) - of(&after, 1, Figure::AxleToCrownAlongAxis);
        assert!((shorter - 25.0).abs() < 1e-9);
        let rooms = [&before, &after].map(|f| f.frames[1].luggage.bag_space.as_ref().unwrap().rectangle.unwrap().area_dm2.value);
        assert!(rooms[0] != rooms[1], "its opening is turned");
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
