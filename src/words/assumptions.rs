//! Names of assumptions, and what is said of figures that are partly assumed.

use crate::geometry::{Adjusted, Assumption, Assumptions, Quantity};

/// Noun for what an assumption stands in for: `lower headset stack height`.
#[must_use]
pub const fn assumption_label(assumption: Assumption) -> &'static str {
    quantity_label(assumption.quantity())
}

/// Noun for a quantity of the frame's state, for the middle of a sentence.
pub(super) const fn quantity_label(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Stack => "stack",
        Quantity::Reach => "reach",
        Quantity::HeadAngle => "head angle",
        Quantity::SeatAngle => "effective seat angle",
        Quantity::SeatTubeSetback => "seat tube setback",
        Quantity::SeatTube => "seat tube length",
        Quantity::HeadTube => "head tube length",
        Quantity::AxleToCrown => "axle-to-crown length",
        Quantity::ForkOffset => "fork offset",
        Quantity::Chainstay => "chainstay length",
        Quantity::BbDrop => "bottom bracket drop",
        Quantity::TopTubeBelowHeadTubeTop => "top tube junction at the head tube",
        Quantity::TopTubeBelowSeatTubeTop => "top tube junction at the seat tube",
        Quantity::DownTubeAboveHeadTubeBottom => "down tube junction at the head tube",
        Quantity::LowerHeadset => "lower headset stack height",
        Quantity::RearTyreRadius => "rear tyre radius",
        Quantity::FrontTyreRadius => "front tyre radius",
    }
}

/// `partly assumed (rear tyre radius, seat tube setback)`; empty for no assumption.
#[must_use]
pub fn partly_assumed(assumptions: Assumptions) -> String {
    let labels: Vec<&str> = assumptions.iter().map(assumption_label).collect();
    if labels.is_empty() { String::new() } else { format!("partly assumed ({})", labels.join(", ")) }
}

/// What to say where no frame fits the published figures; `None` where one does.
#[must_use]
pub const fn no_fit(adjusted: &Adjusted) -> Option<&'static str> {
    if adjusted.is_unexplained {
        return Some("At least two published figures are wrong; the doubtful ones shown are the likeliest. Every ± is wide.");
    }
    if adjusted.converged {
        return None;
    }
    Some(
        "No frame fits the published figures: too few are published, or they disagree too much. \
         The figures shown are the closest found.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    #[test]
    fn assumptions_in_words() {
        let mut assumptions = Assumptions::default();
        assert_eq!(partly_assumed(assumptions), "");
        assumptions.insert(Assumption::SeatTubeSetback);
        assumptions.insert(Assumption::LowerHeadset);
        insta::assert_snapshot!(partly_assumed(assumptions), @"partly assumed (lower headset stack height, seat tube setback)");
        let labels: std::collections::BTreeSet<&str> = Quantity::ALL.into_iter().map(quantity_label).collect();
        assert_eq!(labels.len(), Quantity::ALL.len());
    }

    #[test]
    fn only_what_no_frame_fits_says_so() {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let mut adjusted = adjust(&frameset);
        assert_eq!(no_fit(&adjusted), None);
        adjusted.converged = false;
        insta::assert_snapshot!(no_fit(&adjusted).unwrap(), @"No frame fits the published figures: too few are published, or they disagree too much. The figures shown are the closest found.");
    }
}
