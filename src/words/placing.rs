//! Where a figure stands among the frames of the line-up, in a sentence.

use super::phrases::in_sentence;
use crate::frameset::{Figure, FrameIndex};
use crate::lineup::{Findings, Placing};
use crate::units::capitalised;

/// What larger and smaller values of a figure are called: `longer`, `shorter`.
const fn comparatives(figure: Figure) -> (&'static str, &'static str) {
    match figure {
        Figure::HeadAngle | Figure::SeatAngle | Figure::SeatTubeAngle => ("steeper", "slacker"),
        Figure::Stack | Figure::Standover | Figure::BbHeight | Figure::LowerHeadset => ("higher", "lower"),
        Figure::SeatTubeSetback
        | Figure::ForkOffset
        | Figure::BbDrop
        | Figure::Trail
        | Figure::MechanicalTrail
        | Figure::WheelFlop => ("more", "less"),
        Figure::FrontTyreRadius | Figure::RearTyreRadius => ("larger", "smaller"),
        Figure::Reach
        | Figure::EffectiveTopTube
        | Figure::TopTube
        | Figure::HeadTube
        | Figure::AxleToCrownAlongAxis
        | Figure::AxleToCrownDirect
        | Figure::AxleToCrown
        | Figure::Chainstay
        | Figure::ChainstayHorizontal
        | Figure::Wheelbase
        | Figure::FrontCentre
        | Figure::FrontCentreHorizontal
        | Figure::SeatTube => ("longer", "shorter"),
    }
}

/// `longer than 5 of the 7 others and shorter than 1`.
fn told(figure: Figure, placing: Placing) -> String {
    let (more, less) = comparatives(figure);
    let others = match placing.others {
        1 => "the one other frame".to_owned(),
        others => format!("the {others} others"),
    };
    let than = |word: &str, count: usize| match placing.others {
        1 => format!("{word} than {others}"),
        all if all == count => format!("{word} than all {all} others"),
        _ => format!("{word} than {count} of {others}"),
    };
    match (placing.above, placing.below) {
        (0, 0) => format!("no clear difference from {others}"),
        (above, 0) => than(more, above),
        (0, below) => than(less, below),
        (above, below) => format!("{} and {less} than {below}", than(more, above)),
    }
}

/// Where figures of a frame stand among the others: `Longer than 5 of the 7 others in this line-up, at sizes alike in fit.`
/// Several figures are named. `None` where there is nothing to compare them with.
#[must_use]
pub fn placing_text(findings: &Findings, frame: FrameIndex, figures: &[Figure]) -> Option<String> {
    let placings: Vec<(Figure, Placing)> = figures.iter().filter_map(|f| Some((*f, findings.placing(frame, *f)?))).collect();
    let said = match (placings.as_slice(), figures) {
        ([], _) => return None,
        ([(figure, placing)], [_]) => told(*figure, *placing),
        (placings, _) => {
            let each = placings.iter().map(|(figure, placing)| format!("{} {}", in_sentence(*figure), told(*figure, *placing)));
            each.collect::<Vec<_>>().join("; ")
        }
    };
    Some(format!("{} in this line-up, at sizes alike in fit.", capitalised(&said)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::{SizeRule, read_lineup, sizes_that_follow};

    #[test]
    fn a_place_is_told_in_a_sentence() {
        let placing = |above, below, others| Placing { above, below, others };
        let all = [
            told(Figure::Chainstay, placing(5, 1, 7)),
            told(Figure::Stack, placing(0, 7, 7)),
            told(Figure::HeadAngle, placing(0, 3, 7)),
            told(Figure::Trail, placing(1, 0, 1)),
            told(Figure::Trail, placing(0, 0, 1)),
            told(Figure::Wheelbase, placing(0, 0, 4)),
        ];
        insta::assert_snapshot!(all.join("\n"), @"
        longer than 5 of the 7 others and shorter than 1
        lower than all 7 others
        slacker than 3 of the 7 others
        more than the one other frame
        no clear difference from the one other frame
        no clear difference from the 4 others
        ");
    }

    #[test]
    fn several_figures_are_named_and_nothing_is_said_of_one_frame_alone() {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        lineup.settings.sizes = SizeRule::SameFit;
        lineup.put_into(sizes_that_follow(&lineup, &Findings::of(&lineup), None));
        let findings = Findings::of(&lineup);
        let reference = findings.reference.unwrap();
        let one = placing_text(&findings, reference, &[Figure::Trail]).unwrap();
        assert!(one.starts_with("More than ") && one.ends_with(" in this line-up, at sizes alike in fit."), "{one}");
        let both = placing_text(&findings, reference, &[Figure::Trail, Figure::Chainstay]).unwrap();
        assert!(both.starts_with("Trail more than ") && both.contains("; chainstay "), "{both}");
        lineup.frames.truncate(1);
        assert_eq!(placing_text(&Findings::of(&lineup), FrameIndex(0), &[Figure::Trail]), None);
    }
}
