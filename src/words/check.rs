//! Check in words: where a figure's ± comes from and what would narrow it, doubtful figures, and what unknown ones need.

use super::assumptions::{assumption_label, quantity_label};
use super::phrases::shortest;
use super::phrases::{in_sentence, plus_minus_alone};
use crate::frameset::{Figure, RoundedTo};
use crate::geometry::{Missing, missing_above, u_of_step};
use crate::lineup::{BudgetPart, Narrowing, Remedy, TubeJunction, UncertaintyBudget, UncertaintySource};
use crate::units::{Quantity, System, capitalised, fixed, listed, per_cent};

/// A line of a budget.
#[derive(Clone, Debug, PartialEq)]
pub struct BudgetLine {
    /// `rounding of the published head angle`.
    pub label: String,
    /// Share of u², 0 to 1.
    pub share: f64,
    /// Whether it is assumed, rather than the rounding of something published.
    pub is_assumed: bool,
}

/// Lines of a budget: its parts, the largest first, and the rest as one.
#[must_use]
pub fn budget_lines(budget: &UncertaintyBudget) -> Vec<BudgetLine> {
    let line = |part: &BudgetPart| {
        let label = source_label(part.source);
        let label = part.other_size.as_ref().map_or_else(|| label.clone(), |size| format!("{label} (size {size})"));
        BudgetLine { label, share: part.share, is_assumed: part.source.is_assumed() }
    };
    let mut lines: Vec<BudgetLine> = budget.parts.iter().map(line).collect();
    if budget.rest > 0.0005 {
        lines.push(BudgetLine { label: "all other causes".to_owned(), share: budget.rest, is_assumed: false });
    }
    lines
}

/// A figure's ±, its largest cause, and what would narrow it, in two or three sentences.
#[must_use]
pub fn budget_text(budget: &UncertaintyBudget, units: System) -> String {
    let figure = budget.figure;
    let mut text =
        format!("{} is known to {}.", capitalised(&in_sentence(figure)), plus_minus_alone(figure, budget.value.u, units));
    if let Some(first) = budget_lines(budget).first() {
        let percent = per_cent(&fixed(first.share * 100.0, 0));
        text.push_str(&format!(" The {} causes {percent} of the uncertainty (variance).", first.label));
    }
    if let Some(sentence) = narrowing_text(budget, units) {
        text.push(' ');
        text.push_str(&sentence);
    }
    text
}

fn narrowing_text(budget: &UncertaintyBudget, units: System) -> Option<String> {
    match budget.narrowing {
        Narrowing::By(remedy, u) => {
            let after = plus_minus_alone(budget.figure, u, units);
            Some(format!("{} to reduce this to {after}.", remedy_text(remedy, units)))
        }
        Narrowing::Little => Some("No other published figure would reduce it much.".to_owned()),
        Narrowing::MeasuredWheel => Some("Measuring the wheel with its tyre would reduce it most.".to_owned()),
        Narrowing::Nothing => None,
    }
}

/// What to do, as a command: `Find the tyre size`.
fn remedy_text(remedy: Remedy, units: System) -> String {
    match remedy {
        Remedy::FinerStep(figure, step) => {
            format!("Find the {} to the nearest {}", in_sentence(figure), step_text(figure.quantity(), step, units, 1))
        }
        Remedy::TyreSize => "Find the tyre size".to_owned(),
        Remedy::LowerHeadset => "Find the lower headset stack height".to_owned(),
        Remedy::SeatTubeSetback => "Find the seat tube setback".to_owned(),
        Remedy::Junction(TubeJunction::TopTubeAtHeadTube) => {
            "Measure from the top of the head tube down to the top tube’s centre line".to_owned()
        }
        Remedy::Junction(TubeJunction::TopTubeAtSeatTube) => {
            "Measure from the top of the seat tube down to the top tube’s centre line".to_owned()
        }
        Remedy::Junction(TubeJunction::DownTubeAtHeadTube) => {
            "Measure from the bottom of the head tube up to the down tube’s centre line".to_owned()
        }
    }
}

/// A step with its unit: `0.1 mm`, `0.05°`; in inches with so many digits, `0.004 in` with one.
fn step_text(quantity: Quantity, step: f64, units: System, digits: i32) -> String {
    let factor = units.factor(quantity);
    if factor == 1.0 {
        return units.with_unit(quantity, &shortest(step));
    }
    let shown = step * factor;
    let decimals = (0..5).find(|d| shown * 10f64.powi(*d) >= 0.95 * 10f64.powi(digits - 1)).unwrap_or(5);
    units.with_unit(quantity, &fixed(shown, decimals.unsigned_abs() as usize))
}

/// Noun for what makes a part of a ±, for the middle of a sentence.
fn source_label(source: UncertaintySource) -> String {
    match source {
        UncertaintySource::Rounding(figure) => format!("rounding of the published {}", in_sentence(figure)),
        UncertaintySource::JunctionRounding(junction) => format!("rounding of the {}", assumption_label(junction)),
        UncertaintySource::UnknownTyre => "unknown tyre size".to_owned(),
        UncertaintySource::TyreRadius => "tyre radius assumed from the tyre size".to_owned(),
        UncertaintySource::Assumed(assumption) => format!("assumed {}", assumption_label(assumption)),
        UncertaintySource::SameTyres => "assumption that both tyres are alike".to_owned(),
        UncertaintySource::NoFigure(quantity) => format!("missing {}", quantity_label(quantity)),
        UncertaintySource::LevelGround => "tolerance of both wheels on level ground".to_owned(),
        UncertaintySource::Measured(figure) => format!("± of the measured {}", in_sentence(figure)),
        UncertaintySource::DoubtfulFigures => "doubt which published figure is wrong".to_owned(),
    }
}

/// Unknown figures and what would make them known, each in a line; those that no other figure settles in one.
#[must_use]
pub fn unknown_texts(missing: &[Missing]) -> Vec<String> {
    let (alone, settled): (Vec<&Missing>, Vec<&Missing>) = missing.iter().partition(|m| is_alone(m));
    let mut texts: Vec<String> = settled.into_iter().map(|m| format!("{}: {}", m.figure.label(), unknown_needs(m))).collect();
    if !alone.is_empty() {
        let names: Vec<String> = alone.iter().map(|m| in_sentence(m.figure)).collect();
        texts.push(format!("Unknown until published or measured: {}", listed(names.iter().map(String::as_str))));
    }
    texts
}

/// Whether only the figure itself would make it known.
fn is_alone(missing: &Missing) -> bool {
    !missing.sets.is_empty() && missing.sets.iter().all(|set| set.as_slice() == [missing.figure])
}

/// `unknown (needs head angle, or fork offset and wheelbase)`; the figure itself is left out where others would do.
#[must_use]
pub fn unknown_needs(missing: &Missing) -> String {
    if is_alone(missing) {
        return "unknown (needs a published or measured value)".to_owned();
    }
    let others = missing.sets.iter().filter(|set| set.as_slice() != [missing.figure]);
    let sets: Vec<String> = others.map(|set| set.iter().map(|f| in_sentence(*f)).collect::<Vec<_>>().join(" and ")).collect();
    if sets.is_empty() {
        "unknown (needs more than two figures)".to_owned()
    } else {
        format!("unknown (needs {})", sets.join(", or "))
    }
}

/// Why no number is shown for an unknown figure.
#[must_use]
pub fn unknown_reason(figure: Figure, units: System) -> String {
    format!(
        "{} is unknown. No number is shown, because its uncertainty would exceed {}.",
        capitalised(&in_sentence(figure)),
        plus_minus_alone(figure, missing_above(figure), units)
    )
}

/// To which steps a table is published, and what that leaves of uncertainty.
#[must_use]
pub fn steps_text(to: RoundedTo, units: System) -> String {
    let length = step_text(Quantity::Length, to.mm, units, 2);
    format!(
        "Lengths are published to {length}, angles to {}. Rounding to {length} alone leaves {}. \
         Each ± is two standard uncertainties, about 95\u{a0}% certain.",
        step_text(Quantity::Angle, to.deg, units, 2),
        plus_minus_alone(Figure::Stack, u_of_step(to.mm), units)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::FrameIndex;
    use crate::lineup::Findings;
    use crate::lineup::check_test_frame::findings;

    fn budget(findings: &Findings, figure: Figure) -> UncertaintyBudget {
        findings.check(FrameIndex(0), figure).unwrap().budget.unwrap()
    }

    #[test]
    fn a_budget_names_its_largest_cause_and_what_to_do() {
        let unknown = findings("", "Wheelbase: 1080");
        let trail = budget(&unknown, Figure::Trail);
        let lines = budget_lines(&trail);
        assert!(lines[0].is_assumed && (lines.iter().map(|l| l.share).sum::<f64>() - 1.0).abs() < 1e-3);
        insta::assert_snapshot!(budget_text(&trail, System::Metric), @"Trail is known to ± 9 mm. The unknown tyre size causes 99 % of the uncertainty (variance). Find the tyre size to reduce this to ± 1.6 mm.");
        insta::assert_snapshot!(budget_text(&trail, System::Imperial), @"Trail is known to ± 0.3 in. The unknown tyre size causes 99 % of the uncertainty (variance). Find the tyre size to reduce this to ± 0.06 in.");
        let known = findings("tyre: \"50-622\",", "Wheelbase: 1080");
        insta::assert_snapshot!(budget_text(&budget(&known, Figure::SeatAngle), System::Metric), @"Effective seat angle is known to ± 0.06°. The rounding of the published effective seat angle causes 100 % of the uncertainty (variance). Find the effective seat angle to the nearest 0.01° to reduce this to ± 0.006°.");
        insta::assert_snapshot!(budget_text(&budget(&known, Figure::Chainstay), System::Imperial), @"Chainstay is known to ± 0.02 in. The rounding of the published chainstay causes 82 % of the uncertainty (variance). Find the chainstay to the nearest 0.004 in to reduce this to ± 0.002 in.");
        insta::assert_snapshot!(budget_text(&budget(&known, Figure::BbHeight), System::Metric), @"Bottom bracket height is known to ± 4 mm. The tyre radius assumed from the tyre size causes 98 % of the uncertainty (variance). Measuring the wheel with its tyre would reduce it most.");
        insta::assert_snapshot!(budget_text(&budget(&known, Figure::TopTube), System::Metric), @"Top tube is known to ± 4 mm. The assumed seat tube setback causes 62 % of the uncertainty (variance). Find the seat tube setback to reduce this to ± 2 mm.");
    }

    #[test]
    fn each_source_and_each_remedy_has_words_of_its_own() {
        use crate::geometry::{Assumption, Quantity as State};
        let sources = [
            UncertaintySource::Rounding(Figure::AxleToCrownAlongAxis),
            UncertaintySource::JunctionRounding(Assumption::TopTubeBelowHeadTubeTop),
            UncertaintySource::UnknownTyre,
            UncertaintySource::TyreRadius,
            UncertaintySource::Assumed(Assumption::LowerHeadset),
            UncertaintySource::SameTyres,
            UncertaintySource::NoFigure(State::HeadAngle),
            UncertaintySource::LevelGround,
            UncertaintySource::Measured(Figure::Wheelbase),
            UncertaintySource::DoubtfulFigures,
        ];
        insta::assert_snapshot!(sources.map(source_label).join("\n"), @r"
        rounding of the published axle-to-crown along the steering axis
        rounding of the top tube junction at the head tube
        unknown tyre size
        tyre radius assumed from the tyre size
        assumed lower headset stack height
        assumption that both tyres are alike
        missing head angle
        tolerance of both wheels on level ground
        ± of the measured wheelbase
        doubt which published figure is wrong
        ");
        let remedies = [
            Remedy::FinerStep(Figure::AxleToCrownDirect, 0.1),
            Remedy::TyreSize,
            Remedy::LowerHeadset,
            Remedy::SeatTubeSetback,
            Remedy::Junction(TubeJunction::TopTubeAtHeadTube),
            Remedy::Junction(TubeJunction::TopTubeAtSeatTube),
            Remedy::Junction(TubeJunction::DownTubeAtHeadTube),
        ];
        insta::assert_snapshot!(remedies.map(|r| remedy_text(r, System::Metric)).join("\n"), @r"
        Find the direct axle-to-crown to the nearest 0.1 mm
        Find the tyre size
        Find the lower headset stack height
        Find the seat tube setback
        Measure from the top of the head tube down to the top tube’s centre line
        Measure from the top of the seat tube down to the top tube’s centre line
        Measure from the bottom of the head tube up to the down tube’s centre line
        ");
        assert_eq!(remedy_text(remedies[0], System::Imperial), "Find the direct axle-to-crown to the nearest 0.004\u{2009}in");
    }

    #[test]
    fn an_unknown_figure_says_what_it_needs() {
        let missing = |sets| Missing { figure: Figure::Trail, sets };
        let sets = vec![vec![Figure::HeadAngle], vec![Figure::Trail], vec![Figure::ForkOffset, Figure::Wheelbase]];
        let alone = |figure| Missing { figure, sets: vec![vec![figure]] };
        let several = [alone(Figure::Stack), missing(sets), alone(Figure::HeadTube)];
        insta::assert_snapshot!(unknown_texts(&several).join("\n"), @r"
        Trail: unknown (needs head angle, or fork offset and wheelbase)
        Unknown until published or measured: stack and head tube
        ");
        insta::assert_snapshot!(unknown_needs(&several[0]), @"unknown (needs a published or measured value)");
        insta::assert_snapshot!(unknown_needs(&missing(Vec::new())), @"unknown (needs more than two figures)");
        insta::assert_snapshot!(unknown_reason(Figure::Trail, System::Imperial), @"Trail is unknown. No number is shown, because its uncertainty would exceed ± 1.2 in.");
        insta::assert_snapshot!(unknown_reason(Figure::HeadAngle, System::Metric), @"Head angle is unknown. No number is shown, because its uncertainty would exceed ± 6°.");
    }

    #[test]
    fn steps_stand_in_the_chosen_units() {
        let to = RoundedTo { mm: 1.0, deg: 0.5 };
        insta::assert_snapshot!(steps_text(to, System::Metric), @"Lengths are published to 1 mm, angles to 0.5°. Rounding to 1 mm alone leaves ± 0.6 mm. Each ± is two standard uncertainties, about 95\u{a0}% certain.");
        insta::assert_snapshot!(steps_text(to, System::Imperial), @"Lengths are published to 0.039 in, angles to 0.5°. Rounding to 0.039 in alone leaves ± 0.02 in. Each ± is two standard uncertainties, about 95\u{a0}% certain.");
    }
}
