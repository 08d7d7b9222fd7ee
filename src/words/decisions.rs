//! What the user decided about a maker's figures, in words: ignored, used anyway, measured; and the ways of measuring that
//! a maker may state.

use super::phrases::in_sentence;
use crate::frameset::{Figure, FigureUse, OwnMeasurement, Size, Stated};
use crate::units::{System, listed};

/// What the user decided about a figure of a size, each in a sentence: `Ignored: differs from the drawing.`
#[must_use]
pub fn decision_texts(size: &Size, figure: Figure, units: System) -> Vec<String> {
    let mut texts = Vec::new();
    match size.figure_use(figure) {
        Some(FigureUse::Ignored(reason)) => texts.push(format!("{}.", with_reason("Ignored", ": ", "", &reason))),
        Some(FigureUse::Anyway) => texts.push("Used anyway, whatever the other figures give.".to_owned()),
        Some(FigureUse::AsOthersAgree) | None => {}
    }
    if let Some(measured) = size.measured.get(&figure) {
        texts.push(format!("You measured {}.", measured_text(figure, *measured, units)));
    }
    texts
}

/// What a user measured: `1060 ± 2 mm`.
#[must_use]
pub fn measured_text(figure: Figure, measured: OwnMeasurement, units: System) -> String {
    units.text(figure.quantity(), measured.measured())
}

/// What the user decided about all figures of a size, for a footnote, in up to three sentences; `frame` is its letter.
#[must_use]
pub(super) fn decisions_footnotes(size: &Size, frame: &str, units: System) -> Vec<String> {
    let reason = |(figure, reason): (&Figure, &String)| with_reason(&in_sentence(*figure), " (", ")", reason);
    let used: Vec<String> = size.use_anyway.iter().map(|f| in_sentence(*f)).collect();
    let measured = |(figure, measured): (&Figure, &OwnMeasurement)| {
        format!("{} {}", in_sentence(*figure), measured_text(*figure, *measured, units))
    };
    [
        ("Ignored figures of", size.ignored.iter().map(reason).collect::<Vec<_>>()),
        ("Figures used anyway of", used),
        ("Measured figures of", size.measured.iter().map(measured).collect()),
    ]
    .into_iter()
    .filter(|(_, figures)| !figures.is_empty())
    .map(|(what, figures)| format!("{what} {frame}: {}.", listed(figures.iter().map(String::as_str))))
    .collect()
}

/// A reason between two marks behind what it is of; without them where it is empty.
fn with_reason(what: &str, before: &str, behind: &str, reason: &str) -> String {
    match reason.trim().trim_end_matches('.') {
        "" => what.to_owned(),
        reason => format!("{what}{before}{reason}{behind}"),
    }
}

/// A way of measuring as a choice: `Straight seat tube`.
#[must_use]
pub const fn stated_label(convention: Stated) -> &'static str {
    match convention {
        Stated::StraightSeatTube => "Straight seat tube",
        Stated::ChainstayAlong => "Chainstay along the stay",
        Stated::ForkAlong => "Axle-to-crown along the steering axis",
        Stated::HeadTubeWithoutCups => "Head tube without headset cups",
        Stated::TopTubeAlong => "Top tube along the tube",
        Stated::FrontCentreDirect => "Front centre direct",
        Stated::StandoverMidway => "Standover midway",
    }
}

/// What a way of measuring means, in a sentence.
#[must_use]
pub const fn stated_meaning(convention: Stated) -> &'static str {
    match convention {
        Stated::StraightSeatTube => "Its axis passes through the bottom bracket.",
        Stated::ChainstayAlong => "From bottom bracket to rear axle, not horizontally.",
        Stated::ForkAlong => "Not directly from crown race seat to axle.",
        Stated::HeadTubeWithoutCups => "The tube alone, from end to end.",
        Stated::TopTubeAlong => "Not the effective (horizontal) length.",
        Stated::FrontCentreDirect => "From bottom bracket to front axle, not horizontally.",
        Stated::StandoverMidway => "Halfway along the top tube, not at its lowest point.",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{Frameset, SizeIndex};

    fn decided() -> Size {
        let mut frameset = Frameset::blank();
        for (figure, value) in [(Figure::Wheelbase, 1071.0), (Figure::Stack, 600.0), (Figure::SeatAngle, 73.0)] {
            frameset.set_figure(SizeIndex(0), figure, Some(value)).unwrap();
        }
        frameset.ignore_figure(SizeIndex(0), Figure::Wheelbase, "differs from the drawing.");
        frameset.ignore_figure(SizeIndex(0), Figure::SeatAngle, "");
        frameset.set_figure_use(SizeIndex(0), Figure::Stack, FigureUse::Anyway);
        let measured = OwnMeasurement { value: 1060.0, plus_minus: 2.0 };
        frameset.set_measured(SizeIndex(0), Figure::Wheelbase, Some(measured)).unwrap();
        frameset.sizes[0].clone()
    }

    #[test]
    fn what_was_decided_is_told_at_the_figure() {
        let texts = |figure, units| decision_texts(&decided(), figure, units).join(" ");
        insta::assert_snapshot!(texts(Figure::Wheelbase, System::Metric), @"Ignored: differs from the drawing. You measured 1060 ± 2 mm.");
        insta::assert_snapshot!(texts(Figure::Wheelbase, System::Imperial), @"Ignored: differs from the drawing. You measured 41.73 ± 0.08 in.");
        insta::assert_snapshot!(texts(Figure::SeatAngle, System::Metric), @"Ignored.");
        insta::assert_snapshot!(texts(Figure::Stack, System::Metric), @"Used anyway, whatever the other figures give.");
        assert!(texts(Figure::Reach, System::Metric).is_empty());
    }

    #[test]
    fn what_was_decided_stands_under_a_picture() {
        insta::assert_snapshot!(decisions_footnotes(&decided(), "B", System::Metric).join("\n"), @r"
        Ignored figures of B: effective seat angle and wheelbase (differs from the drawing).
        Figures used anyway of B: stack.
        Measured figures of B: wheelbase 1060 ± 2 mm.
        ");
        assert!(decisions_footnotes(&Size::blank("M"), "B", System::Metric).is_empty());
    }
}
