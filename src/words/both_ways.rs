//! A frame both ways in words: which outline is which, and how far they lie apart.

use super::assumptions::assumption_label;
use super::phrases::{in_sentence, published_value};
use crate::geometry::Point;
use crate::lineup::{BothWays, Differing, FramePoint};
use crate::units::{Quantity, System, fixed, listed};

/// What the two outlines are: as published, or assumed, and as the figures give it.
#[must_use]
pub fn both_ways_legend(both: &BothWays, units: System) -> [String; 2] {
    match &both.differs {
        Differing::Figures(cells) => {
            let published = cells.iter().map(|c| {
                let quantity = c.figure.quantity();
                let value = units.with_unit(quantity, &published_value(c.figure, c.published, units));
                format!("{} {value}", in_sentence(c.figure))
            });
            let expected =
                cells.iter().map(|c| format!("{} {}", in_sentence(c.figure), units.text(c.figure.quantity(), c.expected)));
            let joined = |texts: Vec<String>| listed(texts.iter().map(String::as_str));
            [
                format!("as published: {}", joined(published.collect())),
                format!("as the other figures give it: {}", joined(expected.collect())),
            ]
        }
        Differing::Assumption(assumption, assumed, expected) => {
            let label = assumption_label(*assumption);
            let assumed = units.with_unit(Quantity::Length, &units.in_field(Quantity::Length, *assumed));
            [
                format!("as assumed: {label} {assumed}"),
                format!("as the figures give it: {label} {}", units.text(Quantity::Length, *expected)),
            ]
        }
    }
}

/// How far the point that differs most lies apart: `The front axle then lies 11 mm further back.`
#[must_use]
pub fn farthest_text(both: &BothWays, units: System) -> Option<String> {
    let (point, by) = both.farthest?;
    let name = match point {
        FramePoint::RearAxle => "rear axle",
        FramePoint::FrontAxle => "front axle",
        FramePoint::HeadTubeTop => "top of the head tube",
        FramePoint::HeadTubeBottom => "bottom of the head tube",
        FramePoint::SeatTubeTop => "top of the seat tube",
    };
    Some(format!("The {name} then lies {}.", moved_text(by, units)))
}

/// `11 mm further back and 3 mm lower`; a part below a quarter of the other is left out.
fn moved_text(by: Point<f64>, units: System) -> String {
    let length = |mm: f64| {
        let shown = mm.abs() * units.factor(Quantity::Length);
        let decimals = match units {
            System::Metric => usize::from(shown < 9.95),
            System::Imperial => 2,
        };
        units.with_unit(Quantity::Length, &fixed(shown, decimals))
    };
    let across = (by.x, if by.x > 0.0 { "further forward" } else { "further back" });
    let up = (by.y, if by.y > 0.0 { "higher" } else { "lower" });
    let least = 0.25 * by.x.abs().max(by.y.abs());
    let parts: Vec<String> =
        [across, up].into_iter().filter(|(mm, _)| mm.abs() >= least).map(|(mm, way)| format!("{} {way}", length(mm))).collect();
    listed(parts.iter().map(String::as_str))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{FrameIndex, read_frameset};
    use crate::geometry::Assumption;
    use crate::lineup::{Findings, Lineup};
    use crate::units::Measured;

    fn quern() -> BothWays {
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap(), None);
        Findings::of(&lineup).both_ways(FrameIndex(0), 0).unwrap()
    }

    #[test]
    fn the_legend_names_both_values() {
        let both = quern();
        let told = |both: &BothWays, units| both_ways_legend(both, units).join("\n");
        insta::assert_snapshot!(told(&both, System::Metric), @"
        as published: wheelbase 1071 mm
        as the other figures give it: wheelbase 1059.9 ± 1.7 mm
        ");
        insta::assert_snapshot!(told(&both, System::Imperial), @"
        as published: wheelbase 42.165 in
        as the other figures give it: wheelbase 41.73 ± 0.07 in
        ");
        let differs = Differing::Assumption(Assumption::LowerHeadset, 8.0, Measured::new(16.0, 1.0));
        insta::assert_snapshot!(told(&BothWays { differs, ..both }, System::Metric), @r"
        as assumed: lower headset stack height 8 mm
        as the figures give it: lower headset stack height 16 ± 2 mm
        ");
    }

    #[test]
    fn the_point_that_moves_farthest_is_told_with_its_directions() {
        let both = quern();
        let told = |x, y, units| {
            farthest_text(&BothWays { farthest: Some((FramePoint::FrontAxle, Point { x, y })), ..both.clone() }, units).unwrap()
        };
        insta::assert_snapshot!(told(-11.2, 0.3, System::Metric), @"The front axle then lies 11 mm further back.");
        insta::assert_snapshot!(told(3.0, -2.0, System::Metric), @"The front axle then lies 3.0 mm further forward and 2.0 mm lower.");
        insta::assert_snapshot!(told(0.0, 25.4, System::Imperial), @"The front axle then lies 1.00 in higher.");
        assert!(farthest_text(&BothWays { farthest: None, ..both }, System::Metric).is_none());
    }
}
