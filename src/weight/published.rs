//! The published weight that a total begins from.

use super::density::{Assumed, small_part_g, steerer_g_per_mm};
use super::errors::{ErrorSource, WeightError};
use super::settings::{Amount, Line, PartWeightChoices, What};
use crate::frameset::{Frameset, Known, Part, SizeIndex, Weight};
use crate::geometry::u_of_step;
use crate::units::{Mass, Measured};

/// How much framesets of one size and model differ, as a share (one standard uncertainty): trade practice, unverified.
const SPECIMEN_SHARE: f64 = 0.01;
/// Share of u² of a claimed weight that all claims about a frameset have in common. Our own assumption.
const COMMON_CLAIM: f64 = 0.8;

/// A published weight with its ±.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Published {
    /// Place among the frameset's weights.
    pub index: usize,
    /// As published. Its u is the scale's step / √12 and that of a single specimen, or half of the ± that claimed weights
    /// are given.
    pub mass: Measured<Mass>,
    /// Place of the size it was weighed in; `None` where nobody says, or where the label is none of the frameset's.
    pub size: Option<SizeIndex>,
    /// Whether it is claimed and not weighed.
    pub is_claimed: bool,
}

impl Published {
    /// Of the weight at `index`; `claimed_percent` is the ± of claimed weights. Where the user owns the very frame that was
    /// weighed, it is not a specimen of others.
    #[must_use]
    pub fn of(frameset: &Frameset, index: usize, claimed_percent: f64, own_frame: bool) -> Option<Self> {
        let weight = frameset.weights.get(index)?;
        let specimen = if own_frame { 0.0 } else { weight.grams * SPECIMEN_SHARE };
        let (u, is_claimed) = match weight.from {
            Known::Weighed { to } => (u_of_step(to).hypot(specimen), false),
            Known::Claimed => (weight.grams * claimed_percent / 200.0, true),
        };
        let size = weight.size.as_deref().and_then(|label| frameset.size_index(label));
        Some(Self { index, mass: Measured::new(weight.grams, u), size, is_claimed })
    }

    /// What makes its u: of a claim, mostly what all claims of the maker have in common.
    pub(super) fn errors(&self, part: Part) -> Vec<WeightError> {
        let own = |u| WeightError::new(ErrorSource::Published(self.index), u);
        if !self.is_claimed {
            return vec![own(self.mass.u)];
        }
        let common = WeightError::new(ErrorSource::Claims(part), self.mass.u * COMMON_CLAIM.sqrt());
        vec![common, own(self.mass.u * (1.0 - COMMON_CLAIM).sqrt())]
    }
}

/// The published weight of a part that its total at `size` begins from: the user's choice, else of that size, else of
/// the nearest size, else of none; weighed before claimed.
#[must_use]
pub fn best_published(
    frameset: &Frameset,
    part: Part,
    size: SizeIndex,
    choice: &PartWeightChoices,
    claimed_percent: f64,
) -> Option<Published> {
    let chosen = choice.start_from.filter(|i| frameset.weights.get(*i).is_some_and(|w| w.part == part));
    let nearness = |weight: &Weight| match weight.size.as_deref().map(|label| frameset.size_index(label)) {
        Some(Some(place)) => (0, place.0.abs_diff(size.0)),
        Some(None) | None => (1, 0),
    };
    let best = || {
        let own = frameset.weights.iter().enumerate().filter(|(_, w)| w.part == part);
        own.min_by_key(|(_, w)| (nearness(w), matches!(w.from, Known::Claimed))).map(|(i, _)| i)
    };
    Published::of(frameset, chosen.or_else(best)?, claimed_percent, choice.own_frame)
}

/// Lines that a weight asks for: what was weighed with it, to be taken off so that bare stands against bare, and the end
/// of a steerer that is longer than the head tube and what stands on it need. Offered, never added unasked; those that the
/// ledger has already are left out.
#[must_use]
pub fn offered_lines(frameset: &Frameset, weight: &Weight, head_tube_mm: Option<f64>, choice: &PartWeightChoices) -> Vec<Line> {
    let mut offered: Vec<Line> = Vec::new();
    for part in &weight.with {
        let given = frameset.small_parts.get(part).map(|grams| Assumed { value: *grams, plus_minus: 2.0 });
        let assumed = given.unwrap_or_else(|| small_part_g(*part));
        let amount = Amount::Grams(-assumed.value);
        offered.push(Line { what: What::Small(*part), amount, plus_minus: assumed.plus_minus });
    }
    let uncut = frameset.fork.as_ref().and_then(|f| f.steerer).and_then(|s| s.length);
    if weight.part != Part::Frame
        && let (Some(uncut), Some(head_tube)) = (uncut, head_tube_mm)
    {
        let too_long = uncut - head_tube - ABOVE_HEAD_TUBE_MM;
        if too_long > 1.0 {
            let each = steerer_g_per_mm(frameset);
            let amount = Amount::Length { mm: -too_long.round(), grams_per_mm: each.value };
            let plus_minus = (each.plus_minus * too_long).hypot(each.value * ABOVE_PLUS_MINUS_MM);
            offered.push(Line { what: What::Steerer, amount, plus_minus: plus_minus.round() });
        }
    }
    offered.retain(|line| choice.lines.iter().all(|own| own.what != line.what));
    offered
}

/// Headset, spacers and stem on the steerer above and below the head tube, mm, and the ± of that. Trade practice,
/// unverified.
const ABOVE_HEAD_TUBE_MM: f64 = 80.0;
const ABOVE_PLUS_MINUS_MM: f64 = 25.0;
