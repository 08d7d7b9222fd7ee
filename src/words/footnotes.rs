//! Footnotes that appear by themselves: what is assumed, which figures are ignored or doubtful, how weights and prices were
//! converted, where all of it was published, and the caution.

use super::assumptions::{assumption_label, no_fit};
use super::decisions::decisions_footnotes;
use super::doubts::{doubt_brief, doubt_of_frame_text};
use super::phrases::{CAUTION, in_sentence, overlaid_text};
use super::prices::offer_text;
use super::weights::weight_workings;
use super::{bag_settings_texts, fit_sentences, parts_cautions};
use crate::frameset::{Figure, Frameset, Part};
use crate::geometry::Assumption;
use crate::lineup::{Block, Findings, FrameFindings, Lineup, Sag, Sheet, Tyres, travel_mm};
use crate::units::{Quantity, System, as_typed, listed, per_cent};
use crate::words::Label;

/// What a footnote is about, the most important first: where not all fit a shape, the last are left to the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FootnoteKind {
    /// What ± is, and what comes first.
    Caution,
    /// How alike in fit the frames are.
    Fit,
    /// Figures that the user ignored, used anyway or measured.
    Ignored,
    /// Doubtful figures.
    Doubtful,
    /// What is not drawn.
    NotDrawn,
    /// Assumptions.
    Assumption,
    /// Factors and sums of weights.
    Factor,
    /// How prices were converted.
    Price,
    /// Where it was published, and when.
    Source,
}

/// A footnote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Footnote {
    /// What it is about.
    pub kind: FootnoteKind,
    /// One sentence or more.
    pub text: String,
}

/// The footnotes of a sheet, the most important first.
#[must_use]
pub fn footnotes(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> Vec<Footnote> {
    let mut notes = Vec::new();
    let mut add = |kind, texts: Vec<String>| {
        notes.extend(texts.into_iter().filter(|text| !text.is_empty()).map(|text| Footnote { kind, text }));
    };
    add(FootnoteKind::Caution, vec![CAUTION.to_owned()]);
    if sheet.has(Block::Parts) || sheet.has(Block::Build) {
        add(FootnoteKind::Caution, parts_cautions(findings).into_iter().map(ToOwned::to_owned).collect());
    }
    add(FootnoteKind::Fit, vec![fit_sentences(findings, lineup.settings.units).join(" ")]);
    let shown: Vec<&FrameFindings> = findings.frames.iter().filter(|f| f.shown).collect();
    let of_each = |of: fn(&FrameFindings) -> Option<String>| shown.iter().filter_map(|f| of(f)).collect();
    add(FootnoteKind::Ignored, shown.iter().flat_map(|f| decisions(f, lineup.settings.units)).collect());
    add(FootnoteKind::Doubtful, shown.iter().filter_map(|f| doubtful(f, lineup.settings.units)).collect());
    if sheet.has(Block::Outline) || sheet.has(Block::Bags) {
        add(FootnoteKind::NotDrawn, findings.overlaid_of_more().map(overlaid_text).into_iter().collect());
    }
    if sheet.has(Block::Outline) {
        add(FootnoteKind::NotDrawn, of_each(not_drawn));
    }
    let bags = bag_settings_texts(lineup.settings.units, &lineup.settings.bags);
    if sheet.has(Block::Bags) && !bags.is_empty() {
        add(FootnoteKind::Assumption, vec![format!("Bags: {}.", bags.join(", "))]);
    }
    add(FootnoteKind::Assumption, assumed_sentences(findings, &figures_told(lineup, sheet)));
    if sheet.has(Block::Outline) || sheet.has(Block::Bags) {
        let thick = |f: &&&FrameFindings| f.outline.as_ref().is_some_and(|o| o.tubes.iter().any(|t| t.is_assumed));
        let letters: Vec<&str> = shown.iter().filter(thick).map(|f| f.letter.as_str()).collect();
        if !letters.is_empty() {
            let text = format!(
                "Tube diameters of {} are typical for the material where none are published.",
                listed(letters.into_iter())
            );
            add(FootnoteKind::Assumption, vec![text]);
        }
    }
    if let Tyres::SameOnAll(tyre) = lineup.settings.tyres {
        let text = format!("All frames are shown with {tyre} tyres. Check that they fit each frame.");
        add(FootnoteKind::Assumption, vec![text]);
    }
    add(FootnoteKind::Assumption, sag_text(lineup.settings.units, lineup.settings.sag, &shown).into_iter().collect());
    if [Block::Weights, Block::Table, Block::Captions, Block::PriceAgainstWeight, Block::PriceAndClimb]
        .iter()
        .any(|b| sheet.has(*b))
    {
        add(FootnoteKind::Factor, factors(lineup.settings.units, &shown));
    }
    if [Block::Table, Block::PriceAgainstWeight, Block::PriceAndClimb].iter().any(|b| sheet.has(*b)) {
        add(FootnoteKind::Price, conversions(findings));
    }
    let sources: Vec<String> = shown.iter().filter_map(|f| sources(f)).collect();
    if !sources.is_empty() {
        add(FootnoteKind::Source, vec![format!("Sources: {}.", sources.join("; "))]);
    }
    notes
}

/// How far suspension forks are compressed, where a shown frame has one.
#[must_use]
fn sag_text(units: System, sag: Sag, shown: &[&FrameFindings]) -> Option<String> {
    let has_travel = |f: &&&FrameFindings| travel_mm(&f.frameset).is_some();
    let letters: Vec<&str> = shown.iter().filter(has_travel).map(|f| f.letter.as_str()).collect();
    let forks = match letters.len() {
        0 => return None,
        1 => format!("The suspension fork of {} is", letters[0]),
        _ => format!("The suspension forks of {} are", listed(letters.into_iter())),
    };
    Some(match sag {
        Sag::Unsagged => format!("{forks} shown without sag. With a rider, head and seat angles are steeper."),
        Sag::Millimetres(mm) => {
            let amount = units.with_unit(Quantity::Length, &units.in_field(Quantity::Length, mm));
            format!("{forks} shown with {amount} of sag.")
        }
        Sag::Percent(percent) => format!("{forks} shown with {} of sag.", per_cent(&as_typed(percent))),
    })
}

/// How far a frame's own suspension fork is compressed, in few words: `without sag`, `with 20 % sag`. `None` without one.
#[must_use]
pub fn sag_brief(units: System, sag: Sag, frameset: &Frameset) -> Option<String> {
    travel_mm(frameset)?;
    Some(match sag {
        Sag::Unsagged => "without sag".to_owned(),
        Sag::Millimetres(mm) => {
            format!("with {} sag", units.with_unit(Quantity::Length, &units.in_field(Quantity::Length, mm)))
        }
        Sag::Percent(percent) => format!("with {} sag", per_cent(&as_typed(percent))),
    })
}

/// The figures that stand on the sheet in numbers.
fn figures_told(lineup: &Lineup, sheet: &Sheet) -> Vec<Figure> {
    let mut figures = if sheet.has(Block::Table) { sheet.figures.clone() } else { Vec::new() };
    let settings = &lineup.settings;
    for (block, axes) in [(Block::Steering, settings.steering), (Block::StackAndReach, settings.stack_and_reach)] {
        if sheet.has(block) {
            figures.extend([axes.across, axes.up]);
        }
    }
    if sheet.has(Block::Captions) {
        figures.extend([Figure::Trail, Figure::Stack, Figure::Reach, Figure::Wheelbase, Figure::Chainstay]);
    }
    figures
}

/// `Figures of A and B are partly assumed: front tyre radius.`, one sentence an assumption.
#[must_use]
pub fn assumed_sentences(findings: &Findings, figures: &[Figure]) -> Vec<String> {
    let is_assumed = |frame: &FrameFindings, assumption| {
        figures.iter().filter_map(|f| frame.value(*f)).any(|v| !v.is_missing && v.assumed.contains(assumption))
    };
    let sentence = |assumption: &Assumption| {
        let frames = findings.frames.iter().filter(|f| f.shown && is_assumed(f, *assumption));
        let letters: Vec<&str> = frames.map(|f| f.letter.as_str()).collect();
        match letters.len() {
            0 => None,
            _ => {
                Some(format!("Figures of {} are partly assumed: {}.", listed(letters.into_iter()), assumption_label(*assumption)))
            }
        }
    };
    Assumption::ALL.iter().filter_map(sentence).collect()
}

fn decisions(frame: &FrameFindings, units: System) -> Vec<String> {
    frame.size.of(&frame.frameset.sizes).map(|size| decisions_footnotes(size, &frame.letter, units)).unwrap_or_default()
}

/// What seems wrong with the published figures of a frame: the most doubtful one in full, the others by name.
fn doubtful(frame: &FrameFindings, units: System) -> Option<String> {
    let doubts = &frame.chosen()?.doubts;
    let mut sentences: Vec<String> = no_fit(&frame.as_published).map(|s| format!("{}: {s}", frame.letter)).into_iter().collect();
    if let [strongest, others @ ..] = doubts.as_slice() {
        sentences.push(doubt_of_frame_text(strongest, &frame.letter, units));
        let others: Vec<String> = others.iter().map(|d| in_sentence(d.figure)).collect();
        if !others.is_empty() {
            sentences.push(format!("Also doubtful: {}.", listed(others.iter().map(String::as_str))));
        }
    }
    (!sentences.is_empty()).then(|| sentences.join(" "))
}

/// What is to be known of the figures of the shown frames: how alike in fit they are, what the user decided, and what is
/// doubtful.
#[must_use]
pub fn figure_remarks(findings: &Findings, units: System) -> Vec<String> {
    let of_frame = |frame: &FrameFindings| decisions(frame, units).into_iter().chain(doubtful(frame, units));
    fit_sentences(findings, units).into_iter().chain(findings.frames.iter().filter(|f| f.shown).flat_map(of_frame)).collect()
}

/// Which figures of the shown frames are doubtful, one short sentence a frame, for a picture.
pub(super) fn doubts_in_brief(findings: &Findings) -> Vec<String> {
    let of_frame = |frame: &FrameFindings| {
        let doubts = &frame.chosen()?.doubts;
        let strongest = doubts.first()?;
        let used = if strongest.is_used { "" } else { " and not used" };
        let more = if doubts.len() > 1 { " Other figures are doubtful too." } else { "" };
        Some(format!("{}: {}{used}.{more}", frame.letter, doubt_brief(strongest)))
    };
    findings.frames.iter().filter(|f| f.shown).filter_map(of_frame).collect()
}

fn not_drawn(frame: &FrameFindings) -> Option<String> {
    let undrawn = match &frame.outline {
        Some(outline) if !outline.tubes.is_empty() => &outline.undrawn,
        _ => return Some(format!("{} is not drawn: too few figures are published.", frame.letter)),
    };
    let tubes = listed(undrawn.iter().map(|t| t.label()));
    (!undrawn.is_empty()).then(|| format!("{} is drawn without {tubes}: too few figures are published.", frame.letter))
}

/// The workings of weights that were converted from another size.
fn factors(units: System, shown: &[&FrameFindings]) -> Vec<String> {
    let workings = |f: &&FrameFindings| {
        f.weights.part(Part::Frameset)?;
        let parts = [Part::Frame, Part::Fork, Part::Frameset];
        let is_brought = parts.iter().filter_map(|p| f.weights.part(*p)).any(|p| p.ways.is_some());
        is_brought.then(|| format!("Weight of {}: {}.", f.letter, weight_workings(units, f, Part::Frameset)))
    };
    shown.iter().filter_map(workings).collect()
}

/// How prices were converted.
fn conversions(findings: &Findings) -> Vec<String> {
    let frames = findings.frames.iter().zip(&findings.price_and_climb).filter(|(f, _)| f.shown);
    let converted = frames.filter(|(_, w)| w.offer.set.as_ref().is_ok_and(|c| c.is_converted));
    converted.filter_map(|(f, w)| Some(format!("Price of {}: {}.", f.letter, offer_text(&w.offer)?))).collect()
}

fn sources(frame: &FrameFindings) -> Option<String> {
    let frameset: &Frameset = &frame.frameset;
    let each: Vec<String> = frameset
        .sources
        .iter()
        .map(|s| match &s.on {
            Some(on) => format!("{}, {on}", s.what.trim()),
            None => s.what.trim().to_owned(),
        })
        .collect();
    (!each.is_empty()).then(|| format!("{} from {}", frame.letter, listed(each.iter().map(String::as_str))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn a_suspension_fork_says_how_far_it_is_compressed() {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let mut frameset = (*lineup.frames[0].frameset).clone();
        let mut with = |travel: Option<f64>, sag: Sag, units: System| {
            frameset.fork.as_mut().unwrap().travel = travel;
            sag_brief(units, sag, &frameset)
        };
        assert_eq!(with(None, Sag::Unsagged, System::Metric), None, "a rigid fork has no sag to speak of");
        assert_eq!(with(Some(0.0), Sag::Percent(20.0), System::Metric), None);
        assert_eq!(with(Some(100.0), Sag::Unsagged, System::Metric).unwrap(), "without sag");
        assert_eq!(with(Some(100.0), Sag::Percent(20.0), System::Metric).unwrap(), "with 20\u{a0}% sag");
        assert_eq!(
            with(Some(100.0), Sag::Millimetres(25.4), System::Imperial).unwrap().replace(['\u{a0}', '\u{2009}'], " "),
            "with 1 in sag"
        );
    }

    #[test]
    fn footnotes_name_what_was_assumed_ignored_converted_and_published() {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let kinds = |lineup: &Lineup| -> Vec<(FootnoteKind, String)> {
            footnotes(lineup, &Findings::of(lineup), &Sheet::default()).into_iter().map(|n| (n.kind, n.text)).collect()
        };
        assert!(kinds(&lineup).iter().all(|(k, t)| *k != FootnoteKind::Factor || !t.contains('×')), "no factor is typed");
        (lineup.settings.weight.factor, lineup.settings.weight.method) = (Some(1.1), crate::weight::Method::YourFactor);
        let plain = kinds(&lineup);
        assert!(plain.is_sorted_by_key(|(kind, _)| *kind), "the most important first: {plain:?}");
        assert!(plain[0].1.contains("maker’s limits"));
        let of = |notes: &[(FootnoteKind, String)], kind| notes.iter().any(|(k, _)| *k == kind);
        assert!(!of(&plain, FootnoteKind::Ignored));
        assert!(plain.iter().any(|(k, t)| *k == FootnoteKind::Factor && t.contains("× 1.10")), "{plain:?}");
        assert!(plain.iter().any(|(k, t)| *k == FootnoteKind::Source && t.contains("maker's catalogue, page 14, 2026-10-02")));
        let size = lineup.frames[0].size_index();
        let frameset = &mut lineup.frames[0].frameset;
        std::sync::Arc::make_mut(frameset).ignore_figure(size, Figure::Wheelbase, "a slip.");
        let sheet = Sheet { contents: vec![Block::Bags], ..Sheet::default() };
        let of_bag_spaces = footnotes(&lineup, &Findings::of(&lineup), &sheet);
        assert!(of_bag_spaces.iter().any(|n| n.text.starts_with("Bags: full frame bag, 5")), "{of_bag_spaces:?}");
        let after = kinds(&lineup);
        let text = "Ignored figures of A: wheelbase (a slip).";
        assert!(after.iter().any(|(k, t)| *k == FootnoteKind::Ignored && t == text), "{after:?}");
    }
}
