//! Weights as published, and brought to the size compared by the factor that the user typed.
//!
//! A frame's weight is never set beside a frameset's: what is not published and cannot be summed is not stated.

use super::document::{Entry, WeightSettings};
use crate::frameset::{Known, Part, Weight};
use crate::geometry::u_of_step;
use crate::units::{THIN_SPACE, fixed};

/// One part's weight at the size compared.
#[derive(Clone, Debug, PartialEq)]
pub struct PartWeight {
    /// Frame, fork or frameset.
    pub part: Part,
    /// Grams at the size compared.
    pub grams: f64,
    /// Standard uncertainty as far as anybody states it: the scale's step / √12, scaled with the weight. Neither a
    /// claimed weight nor a typed factor comes with one, so they add nothing here and `is_estimate` says so.
    pub u: f64,
    /// Whether u leaves something out: a claimed weight, or a factor.
    pub is_estimate: bool,
    /// The sum spelled out: "2600 g M weighed × 1.10 = 2860 g L estimated".
    pub sum: String,
}

/// What is known of a frame's weights at the size compared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weights {
    /// The frame alone.
    pub frame: Option<PartWeight>,
    /// The fork alone.
    pub fork: Option<PartWeight>,
    /// Both: as published, or summed where both are known.
    pub frameset: Option<PartWeight>,
}

impl Weights {
    /// One of them.
    #[must_use]
    pub fn part(&self, part: Part) -> Option<&PartWeight> {
        match part {
            Part::Frame => self.frame.as_ref(),
            Part::Fork => self.fork.as_ref(),
            Part::Frameset => self.frameset.as_ref(),
        }
    }
}

/// The weights of one frame of the line-up at the size compared.
#[must_use]
pub(super) fn weights(entry: &Entry, settings: WeightSettings) -> Weights {
    let factor = entry.weight_factor.unwrap_or(settings.factor);
    let size = entry.frameset.sizes.get(entry.size_index()).map_or("", |s| s.label.as_str());
    let best = |part| best_published(&entry.frameset.weights, part, size).map(|w| brought(w, size, factor));
    let (frame, fork) = (best(Part::Frame), best(Part::Fork));
    let summed = match (&frame, &fork) {
        (Some(frame), Some(fork)) => Some(PartWeight {
            part: Part::Frameset,
            grams: frame.grams + fork.grams,
            u: frame.u.hypot(fork.u),
            is_estimate: frame.is_estimate || fork.is_estimate,
            sum: format!("{}; + fork {} = {}", frame.sum, grams(fork.grams), grams(frame.grams + fork.grams)),
        }),
        _ => None,
    };
    // A frameset weighed as one beats a sum in which something is claimed.
    Weights { frameset: best(Part::Frameset).or(summed), frame, fork }
}

/// The published weight to begin from: of the size compared, else of a named size, else of none; weighed before claimed.
fn best_published<'a>(weights: &'a [Weight], part: Part, size: &str) -> Option<&'a Weight> {
    weights.iter().filter(|w| w.part == part).min_by_key(|w| {
        let nearness = match w.size.as_deref() {
            Some(label) if label == size => 0,
            Some(_) => 1,
            None => 2,
        };
        (nearness, matches!(w.from, Known::Claimed))
    })
}

fn brought(weight: &Weight, size: &str, factor: f64) -> PartWeight {
    let (how, u) = match weight.from {
        Known::Weighed { to } => ("weighed", u_of_step(to)),
        Known::Claimed => ("claimed", 0.0),
    };
    let is_claimed = matches!(weight.from, Known::Claimed);
    let published = grams(weight.grams);
    let is_scaled = weight.part != Part::Fork && weight.size.as_deref().is_some_and(|label| label != size);
    let (total, sum) = match weight.size.as_deref() {
        Some(label) if is_scaled => {
            let total = weight.grams * factor;
            (total, format!("{published} {label} {how} × {} = {} {size} estimated", fixed(factor, 2), grams(total)))
        }
        Some(label) => (weight.grams, format!("{published} {label} {how}")),
        None if weight.part == Part::Fork => (weight.grams, format!("{published} {how}")),
        None => (weight.grams, format!("{published} {how}, size not stated")),
    };
    let scale = if is_scaled { factor } else { 1.0 };
    PartWeight { part: weight.part, grams: total, u: u * scale, is_estimate: is_claimed || is_scaled, sum }
}

fn grams(value: f64) -> String {
    format!("{}{THIN_SPACE}g", fixed(value, 0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::Lineup;

    fn entry(weights: &str, size: &str) -> Entry {
        let text = format!(
            "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", weights: [{weights}],
             sizes: [(label: \"M\", figures: {{Stack: 600}}), (label: \"L\", figures: {{Stack: 620}})])"
        );
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
        let mut entry = lineup.frames.remove(0);
        entry.size = size.to_owned();
        entry
    }

    #[test]
    fn the_sum_is_spelled_out() {
        // 2.6 kg × 1.10 = 2.86 kg: common practice, no source.
        let entry =
            entry("(part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5)), (part: Fork, grams: 1370, from: Claimed)", "L");
        let weights = weights(&entry, WeightSettings { factor: 1.10 });
        let frameset = weights.frameset.unwrap();
        assert!((frameset.grams - 4230.0).abs() < 1e-9);
        assert_eq!(frameset.sum.replace(THIN_SPACE, " "), "2600 g M weighed × 1.10 = 2860 g L estimated; + fork 1370 g = 4230 g");
        assert!(frameset.is_estimate);
        assert!((weights.frame.unwrap().u - 1.1 * 5.0 / 12f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn the_weighed_size_itself_is_not_scaled_and_nothing_is_invented() {
        let entry = entry("(part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5))", "M");
        let weights = weights(&entry, WeightSettings { factor: 1.10 });
        let frame = weights.frame.unwrap();
        assert_eq!((frame.grams, frame.is_estimate), (2600.0, false));
        assert_eq!((weights.fork, weights.frameset), (None, None));
    }

    #[test]
    fn a_frameset_weight_is_never_split() {
        let entry = entry("(part: Frameset, grams: 4100, from: Claimed)", "L");
        let weights = weights(&entry, WeightSettings { factor: 1.10 });
        assert_eq!(weights.frame, None);
        let frameset = weights.frameset.unwrap();
        assert_eq!(frameset.grams, 4100.0);
        assert!(frameset.sum.contains("size not stated"));
    }
}
