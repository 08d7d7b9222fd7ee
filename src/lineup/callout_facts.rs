//! What callouts tell: in which figures a frame differs clearly from the reference, the largest difference first.
//!
//! Facts only; `words` turns them into words, `drawing` finds their places.

use super::findings::Findings;
use crate::frameset::{Figure, FrameIndex};
use crate::units::{AnyKind, Measured, Quantity};

/// A clear difference of one frame from the reference, for a callout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CalloutFact {
    /// In what.
    pub figure: Figure,
    /// The frame's value less the reference's.
    pub difference: Measured<AnyKind>,
}

/// A ratio of difference and ± from which on nobody asks how sure it is, and only its size counts.
const SURE_RATIO: f64 = 6.0;
/// Millimetres on the drawing that a degree is about as plain as: a head tube and fork of 450 mm, turned.
const MM_A_DEGREE: f64 = 8.0;

impl CalloutFact {
    /// How many times its ± it is, in whole numbers, where that still matters.
    fn sureness(&self) -> f64 {
        (self.difference.value.abs() / self.difference.expanded().max(f64::MIN_POSITIVE)).min(SURE_RATIO).floor()
    }

    /// How far apart the two lie for the eye, mm.
    fn extent(&self) -> f64 {
        let factor = if self.figure.quantity() == Quantity::Angle { MM_A_DEGREE } else { 1.0 };
        self.difference.value.abs() * factor
    }
}

impl Findings {
    /// The clear differences of a frame from the reference among some figures: the largest in units of their ± first, and
    /// of two alike in that the one that is larger on the drawing.
    #[must_use]
    pub fn callout_facts(&self, frame: FrameIndex, figures: &[Figure]) -> Vec<CalloutFact> {
        let of = |figure: &Figure| Some(CalloutFact { figure: *figure, difference: self.difference(frame, *figure)? });
        let mut facts: Vec<CalloutFact> = figures.iter().filter_map(of).filter(|fact| fact.difference.is_clear()).collect();
        facts.sort_by(|a, b| b.sureness().total_cmp(&a.sureness()).then(b.extent().total_cmp(&a.extent())));
        facts
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::Lineup;

    #[test]
    fn clear_differences_come_with_the_largest_first() {
        let mut lineup = Lineup::default();
        for name in ["marrowby-drift", "quern-halter"] {
            let bytes = std::fs::read(format!("sample-frames/{name}.frame.ron")).unwrap();
            lineup.add(read_frameset(&bytes).unwrap(), None);
        }
        let findings = Findings::of(&lineup);
        let facts = findings.callout_facts(FrameIndex(1), Figure::ALL);
        assert!(facts.len() > 3, "{facts:?}");
        assert!(facts.iter().all(|fact| fact.difference.is_clear()));
        let ranks: Vec<(f64, f64)> = facts.iter().map(|fact| (fact.sureness(), fact.extent())).collect();
        assert!(ranks.windows(2).all(|pair| pair[0] >= pair[1]), "{ranks:?}");
        assert!(findings.callout_facts(FrameIndex(0), Figure::ALL).is_empty(), "the reference does not differ from itself");
    }
}
