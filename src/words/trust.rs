//! Which figures to believe: the budget of a figure in words, what would narrow it, suspects in sentences, and the
//! comparison with and without a figure. All of it is computed by trying, not guessed.

use std::sync::Arc;

use super::printed_table::plus_minus_alone;
use crate::frameset::{Figure, Frameset, TyreSize};
use crate::geometry::{Adjusted, Assumption, Cause, Suspect, adjust, budget};
use crate::lineup::FrameFindings;
use crate::units::{AnyKind, Measured, System, fixed, lower_first};

/// A part of a figure's ±, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// "rounding of the printed head angle", "assumed tyre radius".
    pub label: String,
    /// Its share of u², 0 to 1.
    pub share: f64,
    /// Whether it is an assumption rather than something printed.
    pub is_assumption: bool,
}

/// Where a figure's ± comes from, and what to do about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// Which figure.
    pub figure: Figure,
    /// The parts above one percent, the largest first, and the rest as one.
    pub parts: Vec<Part>,
    /// "Trail is ± 6 mm; 92 % of its square is the unknown tyre. State the tyre and it is ± 1 mm."
    pub sentence: String,
}

/// The budget of a figure of a frame's chosen size, as its maker drew it. `None` where nothing determines the figure.
#[must_use]
pub fn budget_in_words(frame: &FrameFindings, figure: Figure, units: System) -> Option<Budget> {
    let value = *frame.as_drawn.sizes.get(frame.size)?.value(figure);
    if value.is_missing {
        return None;
    }
    let shares = budget(&frame.frameset, frame.size, figure);
    let own_label = frame.size_label();
    let mut parts: Vec<Part> = Vec::new();
    let mut rest = 0.0;
    for share in &shares {
        if share.share < 0.01 {
            rest += share.share;
            continue;
        }
        let other_size = share.size.as_deref().filter(|s| *s != own_label);
        let label = cause_label(share.cause, other_size, &frame.frameset);
        parts.push(Part { label, share: share.share, is_assumption: is_assumption(share.cause) });
    }
    if rest > 0.0005 {
        parts.push(Part { label: "all else".to_owned(), share: rest, is_assumption: false });
    }
    let mut sentence = format!("{} is {}", figure.label(), plus_minus_alone(figure, value.u, units));
    if let Some(first) = shares.first() {
        let label = cause_label(first.cause, first.size.as_deref().filter(|s| *s != own_label), &frame.frameset);
        sentence.push_str(&format!("; {}\u{2009}% of its square is the {label}.", fixed(first.share * 100.0, 0)));
        if let Some((remedy, better)) = remedy(&frame.frameset, first.cause, first.size.as_deref())
            && let Some(size) = adjust(&better).sizes.get(frame.size)
        {
            let after = size.value(figure).u;
            if after < 0.9 * value.u {
                sentence.push_str(&format!(" {remedy} and it is {}.", plus_minus_alone(figure, after, units)));
            } else {
                sentence.push_str(" Nothing that could be printed would narrow it much.");
            }
        } else if matches!(first.cause, Cause::Assumed(Assumption::RearTyreRadius | Assumption::FrontTyreRadius)) {
            sentence.push_str(" Measuring the mounted wheel would narrow it most.");
        }
    } else {
        sentence.push('.');
    }
    Some(Budget { figure, parts, sentence })
}

fn is_assumption(cause: Cause) -> bool {
    matches!(cause, Cause::Assumed(_) | Cause::SameTyres | Cause::Start(_))
}

fn cause_label(cause: Cause, other_size: Option<&str>, frameset: &Frameset) -> String {
    let label = match cause {
        Cause::Printed(figure) => format!("rounding of the printed {}", lower_first(figure.label())),
        Cause::Junction(a) => format!("rounding of the stated {}", a.label().trim_start_matches("assumed ")),
        Cause::Assumed(Assumption::RearTyreRadius) if frameset.tyre.is_none() => "unknown tyre".to_owned(),
        Cause::Assumed(Assumption::RearTyreRadius) if frameset.front_tyre.is_none() => "assumed tyre radius".to_owned(),
        Cause::Assumed(a) => a.label().to_owned(),
        Cause::SameTyres => "assumption that both tyres are alike".to_owned(),
        Cause::Start(q) => format!("start value of {q:?}, which nothing determines"),
        Cause::Closure => "play in how both wheels stand".to_owned(),
    };
    match other_size {
        Some(size) => format!("{label} of size {size}"),
        None => label,
    }
}

/// What would take a cause away, in words, and the frameset as it would then be published.
fn remedy(frameset: &Frameset, cause: Cause, size: Option<&str>) -> Option<(String, Frameset)> {
    let mut better = frameset.clone();
    let adjusted = adjust(frameset);
    let words = match cause {
        Cause::Printed(figure) => {
            let step = frameset.sizes.iter().map(|s| frameset.step(s, figure)).fold(0.0, f64::max) / 10.0;
            for s in better.sizes.iter_mut().filter(|s| size.is_none_or(|label| s.label == label)) {
                s.printed_to.insert(figure, step);
            }
            let unit = if figure.is_angle() { "°".to_owned() } else { "\u{2009}mm".to_owned() };
            format!("Know the {} to {}{unit}", lower_first(figure.label()), fixed(step, if step < 0.1 { 2 } else { 1 }))
        }
        Cause::Assumed(Assumption::RearTyreRadius) if frameset.tyre.is_none() => {
            better.tyre = nearest_tyre(&adjusted);
            better.tyre?;
            "State the tyre".to_owned()
        }
        Cause::Assumed(Assumption::RearTyreRadius | Assumption::FrontTyreRadius) => return None,
        Cause::Assumed(Assumption::LowerHeadset) => {
            for (s, a) in better.sizes.iter_mut().zip(&adjusted.sizes) {
                s.figures.insert(Figure::LowerHeadset, a.value(Figure::LowerHeadset).value);
                s.printed_to.insert(Figure::LowerHeadset, 1.0);
            }
            "State the lower headset's height".to_owned()
        }
        Cause::Assumed(Assumption::SeatTubeSetback) => {
            for (s, a) in better.sizes.iter_mut().zip(&adjusted.sizes) {
                s.figures.insert(Figure::SeatTubeSetback, a.value(Figure::SeatTubeSetback).value);
                s.printed_to.insert(Figure::SeatTubeSetback, 0.1);
            }
            "State the seat tube's setback".to_owned()
        }
        Cause::Assumed(a) => {
            for (s, adjusted) in better.sizes.iter_mut().zip(&adjusted.sizes) {
                let at = Some(adjusted.state.get(a.quantity()));
                match a {
                    Assumption::TopTubeBelowHeadTubeTop => s.junctions.top_tube_below_head_tube_top = at,
                    Assumption::TopTubeBelowSeatTubeTop => s.junctions.top_tube_below_seat_tube_top = at,
                    _ => s.junctions.down_tube_above_head_tube_bottom = at,
                }
            }
            format!("Measure where the {} meets", a.label().trim_start_matches("assumed ").replace(" junction at", "'s axis and"))
        }
        Cause::Junction(_) | Cause::SameTyres | Cause::Start(_) | Cause::Closure => return None,
    };
    Some((words, better))
}

/// The tyre on a 622 rim whose radius is nearest to the adjusted one.
fn nearest_tyre(adjusted: &Adjusted) -> Option<TyreSize> {
    let radius = adjusted.sizes.first()?.value(Figure::RearTyreRadius).value;
    (20u32..100).filter_map(|w| TyreSize::new(w, 622).ok()).min_by(|a, b| {
        let gap = |t: &TyreSize| (t.radius_mm() - radius).abs();
        gap(a).total_cmp(&gap(b))
    })
}

/// A suspect in one sentence: what is printed, what the others expect, how sure, and who explains it as well.
#[must_use]
pub fn suspect_sentence(suspect: &Suspect, units: System) -> String {
    let quantity = suspect.figure.quantity();
    let factor = units.factor(quantity);
    let decimals = crate::units::decimals_for(suspect.expected().expanded() * factor).max(usize::from(suspect.figure.is_angle()));
    let mut sentence = format!(
        "{} {} printed, {} expected from the others ({} times its u): {}.",
        suspect.figure.label(),
        fixed(suspect.printed * factor, decimals),
        units.text(quantity, suspect.expected()),
        fixed(suspect.w.abs(), 1),
        suspect.grade.label()
    );
    if !suspect.explained_as_well_by.is_empty() {
        let names: Vec<String> = suspect.explained_as_well_by.iter().map(|f| lower_first(f.label())).collect();
        sentence.push_str(&format!(" The figures cannot tell it apart from {}.", names.join(", ")));
    }
    sentence
}

/// The frameset with a figure of a size set aside, or taken back in when `reason` is `None`.
#[must_use]
pub fn set_aside(frameset: &Arc<Frameset>, size: usize, figure: Figure, reason: Option<&str>) -> Arc<Frameset> {
    let mut changed = Frameset::clone(frameset);
    if let Some(size) = changed.sizes.get_mut(size) {
        match reason {
            Some(reason) => {
                size.set_aside.insert(figure, reason.to_owned());
            }
            None => {
                size.set_aside.remove(&figure);
            }
        }
    }
    Arc::new(changed)
}

/// A figure of the chosen size with and without a printed figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WithAndWithout {
    /// Which figure changes.
    pub figure: Figure,
    /// With the printed figure in.
    pub with: Measured<AnyKind>,
    /// Without it; `None` where it is then missing.
    pub without: Option<Measured<AnyKind>>,
}

/// What every known figure of a frame's chosen size would be without a printed one: those that change by more than a
/// tenth of their u, or go missing. Empty when the figure is not printed.
#[must_use]
pub fn without(frame: &FrameFindings, figure: Figure) -> Vec<WithAndWithout> {
    let trial = adjust(&set_aside(&frame.frameset, frame.size, figure, Some("tried")));
    let (Some(before), Some(after)) = (frame.as_drawn.sizes.get(frame.size), trial.sizes.get(frame.size)) else {
        return Vec::new();
    };
    let changes = before.values().iter().zip(after.values()).filter(|(b, a)| {
        let moved = (b.value - a.value).abs() > 0.1 * b.u || (a.u - b.u).abs() > 0.1 * b.u;
        !b.is_missing && (moved || a.is_missing)
    });
    changes
        .map(|(b, a)| WithAndWithout { figure: b.figure, with: b.measured(), without: (!a.is_missing).then(|| a.measured()) })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::{Findings, Lineup};

    fn findings(tyre: &str) -> Findings {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Marrowby\", model: \"Drift\", printed_to: (mm: 1, deg: 0.1), {tyre}
             sizes: [(label: \"M\", figures: {{Stack: 613, Reach: 390, HeadAngle: 70, SeatAngle: 73.5, HeadTube: 111, SeatTube: 445,
             ForkLengthAlong: 480, ForkOffset: 46, Chainstay: 445, BbDrop: 62, Wheelbase: 1080}})])"
        );
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
        Findings::of(&lineup)
    }

    #[test]
    fn the_unknown_tyre_is_named_and_the_remedy_was_tried() {
        let unknown = findings("");
        let words = budget_in_words(&unknown.frames[0], Figure::Trail, System::Metric).unwrap();
        assert!(words.parts[0].is_assumption && words.parts[0].share > 0.8);
        assert!(words.sentence.contains("% of its square is the unknown tyre. State the tyre and it is ±"), "{}", words.sentence);
        assert!((words.parts.iter().map(|p| p.share).sum::<f64>() - 1.0).abs() < 0.001);
        // The promised ± is the one that a stated tyre then gives.
        let stated = findings("tyre: \"50-622\",");
        let promised = stated.frames[0].value(Figure::Trail).unwrap().u;
        assert!(
            words.sentence.ends_with(&format!("{}.", plus_minus_alone(Figure::Trail, promised, System::Metric))),
            "{}",
            words.sentence
        );
    }

    #[test]
    fn setting_aside_keeps_the_figure_and_its_reason() {
        let frame = &findings("").frames[0];
        let changed = set_aside(&frame.frameset, 0, Figure::Wheelbase, Some("contradicts the front centre"));
        assert_eq!(changed.sizes[0].figures[&Figure::Wheelbase], 1080.0);
        assert_eq!(changed.sizes[0].believed(Figure::Wheelbase), None);
        assert_eq!(set_aside(&changed, 0, Figure::Wheelbase, None), frame.frameset);
        let changes = without(frame, Figure::Wheelbase);
        assert!(changes.iter().any(|c| c.figure == Figure::HeadAngle && c.without.is_some_and(|w| w.u > c.with.u)));
    }
}
