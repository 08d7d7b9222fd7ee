//! Figures in words, alike everywhere: value ± 2u with its unit, what is assumed in it, and what is unknown.

use super::assumptions::partly_assumed;
use super::comparison_table::UNKNOWN;
use crate::frameset::Figure;
use crate::geometry::Value;
use crate::lineup::{FrameFindings, OverlaidOfMore};
use crate::units::{AnyKind, Measured, System, decimals_for, expanded, fixed, lower_first};

/// What every picture says about its figures, and about trusting them.
pub const CAUTION: &str = "Each ± is two standard uncertainties, about 95\u{2009}% certain. These are calculations from published and assumed \
                           figures. The maker’s limits and local rules come first. Have a competent mechanic check the built bicycle.";

/// The caution in short, for a picture with one statement.
pub(super) const STATEMENT_CAUTION: &str = "Each ± is about 95\u{2009}% certain, from published and assumed figures. The maker’s limits come \
                                     first. Check the built bicycle.";

/// `445.0 ± 0.6 mm`, or that it is unknown.
#[must_use]
pub fn value_text(units: System, value: &Value) -> String {
    if value.is_missing {
        return UNKNOWN.to_owned();
    }
    units.text(value.figure.quantity(), value.measured())
}

/// The same, followed by the assumptions that make a tenth or more of its u²: `73 ± 6 mm, partly assumed (rear tyre radius)`.
#[must_use]
pub fn value_and_assumed(units: System, value: &Value) -> String {
    let text = value_text(units, value);
    if value.is_missing || value.assumed.is_empty() {
        return text;
    }
    format!("{text}, {}", partly_assumed(value.assumed))
}

/// A difference from the reference: `+12 ± 3 mm`.
#[must_use]
pub fn difference_text(units: System, figure: Figure, difference: Measured<AnyKind>) -> String {
    units.signed_text(figure.quantity(), difference)
}

/// `± 0.6 mm` of a figure, on its own.
#[must_use]
pub fn plus_minus_alone(figure: Figure, u: f64, units: System) -> String {
    let expanded = expanded(u) * units.factor(figure.quantity());
    units.with_unit(figure.quantity(), &format!("±\u{2009}{}", fixed(expanded, decimals_for(expanded))))
}

/// A published value without its unit: in millimetres and degrees as the file has it, in inches to a thousandth.
#[must_use]
pub fn published_value(figure: Figure, value: f64, units: System) -> String {
    shortest(value * units.factor(figure.quantity()))
}

/// A number without the zeros at its end that say nothing, with at most three decimals.
#[must_use]
pub fn shortest(value: f64) -> String {
    let text = fixed(value, 3);
    let trimmed = text.trim_end_matches('0').trim_end_matches('.');
    if trimmed.is_empty() { "0".to_owned() } else { trimmed.to_owned() }
}

/// `one frame`, `7 frames`.
#[must_use]
pub fn frames_in_words(count: usize) -> String {
    if count == 1 { "one frame".to_owned() } else { format!("{count} frames") }
}

/// `40 of 1000 shown frames are drawn: the reference and the first others. Hide frames to see the rest.`
#[must_use]
pub fn overlaid_text(of_more: OverlaidOfMore) -> String {
    let OverlaidOfMore { drawn, shown } = of_more;
    format!("{drawn} of {shown} shown frames are drawn: the reference and the first others. Hide frames to see the rest.")
}

/// `1 more frame does not fit here.`
#[must_use]
pub fn more_do_not_fit(count: usize) -> String {
    if count == 1 { "1 more frame does not fit here.".to_owned() } else { format!("{count} more frames do not fit here.") }
}

/// `1 more row does not fit on this page.`
#[must_use]
pub fn more_rows_do_not_fit(count: usize) -> String {
    if count == 1 {
        "1 more row does not fit on this page.".to_owned()
    } else {
        format!("{count} more rows do not fit on this page.")
    }
}

/// A figure's name inside a sentence: `bottom bracket drop`, `horizontal chainstay`.
#[must_use]
pub fn in_sentence(figure: Figure) -> String {
    match figure {
        Figure::SeatAngle => "effective seat angle".to_owned(),
        Figure::AxleToCrownDirect => "direct axle-to-crown".to_owned(),
        Figure::ChainstayHorizontal => "horizontal chainstay".to_owned(),
        Figure::FrontCentreHorizontal => "horizontal front centre".to_owned(),
        _ => lower_first(figure.label()),
    }
}

/// A frame with its letter and size: `A Marrowby Drift, size L`.
#[must_use]
pub fn frame_and_size(frame: &FrameFindings) -> String {
    format!("{} {}, size {}", frame.letter, frame.name, frame.size_label())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::adjust;

    #[test]
    fn decimals_that_say_nothing_are_left_out() {
        assert_eq!([610.0, 71.5, 0.0, -12.25].map(shortest), ["610", "71.5", "0", "−12.25"]);
    }

    #[test]
    fn a_figure_inside_a_sentence_begins_small() {
        assert_eq!(in_sentence(Figure::BbDrop), "bottom bracket drop");
        for figure in Figure::ALL {
            let name = in_sentence(*figure);
            assert!(!name.contains([',', '(']) && name.starts_with(char::is_lowercase), "{name}");
        }
    }

    #[test]
    fn a_value_says_what_is_assumed_in_it_or_that_it_is_unknown() {
        let text = "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", sizes: [(label: \"M\", figures: {Stack: 613, Reach: 390, \
                    HeadAngle: 70, HeadTube: 111, ForkLengthAlong: 480, ForkOffset: 46})])";
        let adjusted = adjust(&crate::frameset::read_frameset(text.as_bytes()).unwrap());
        let value = |figure| adjusted.sizes[0].value(figure);
        let texts =
            |units| [Figure::Stack, Figure::Trail, Figure::Chainstay].map(|f| value_and_assumed(units, value(f))).join("\n");
        insta::assert_snapshot!(texts(System::Metric), @r"
        613.0 ± 0.6 mm
        78 ± 9 mm, partly assumed (rear tyre radius)
        unknown
        ");
        insta::assert_snapshot!(texts(System::Imperial), @r"
        24.13 ± 0.02 in
        3.1 ± 0.4 in, partly assumed (rear tyre radius)
        unknown
        ");
        let imperial =
            [Figure::Stack, Figure::HeadAngle].map(|f| published_value(f, value(f).printed.unwrap(), System::Imperial));
        assert_eq!(imperial, ["24.134", "70"]);
        assert_eq!(plus_minus_alone(Figure::Stack, 0.29, System::Metric), "±\u{2009}0.6\u{2009}mm");
    }
}
