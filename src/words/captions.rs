//! Captions: clear differences and what has none, in plain sentences. A sentence follows its figures until the user writes
//! another; the user's own then stays, and says so when the figures that it stood for have changed.

use crate::frameset::FrameIndex;
use crate::lineup::{CaptionFact, CaptionSubject, Findings, Lineup, Sheet};
use crate::units::{System, listed};

/// One sentence of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caption {
    /// What it is about, by which an edit finds it again: `Trail: Quern Halter`.
    pub of: String,
    /// What stands on the sheet.
    pub text: String,
    /// What the findings say.
    pub found: String,
    /// The figures behind that, whatever the units: `73.1 ± 1.8, 84.7 ± 1.7`.
    pub figures: String,
    /// Whether it tells of a clear difference.
    pub is_clear: bool,
    /// Whether the user wrote it.
    pub is_edited: bool,
    /// Whether the findings were others, or said otherwise in older files, when the user wrote it.
    pub is_outdated: bool,
}

/// The captions of a sheet, with the user's edits.
#[must_use]
pub fn captions(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> Vec<Caption> {
    let caption = |fact: CaptionFact| {
        let (of, figures) = (fact.key(findings), fact.figures(findings));
        let found = caption_text(findings, lineup.settings.units, &fact);
        let is_clear = matches!(fact, CaptionFact::Difference { .. });
        match sheet.captions.iter().find(|c| c.of == of) {
            Some(edit) => Caption {
                text: edit.text.trim().to_owned(),
                is_outdated: if edit.figures.is_empty() { edit.instead_of != found } else { edit.figures != figures },
                is_edited: true,
                of,
                found,
                figures,
                is_clear,
            },
            None => Caption { text: found.clone(), is_outdated: false, is_edited: false, of, found, figures, is_clear },
        }
    };
    findings.caption_facts().into_iter().map(caption).collect()
}

/// What a frame does that has more of something, or less.
const fn claim(subject: CaptionSubject, is_more: bool) -> &'static str {
    match (subject, is_more) {
        (CaptionSubject::Trail, true) => "has more trail",
        (CaptionSubject::Trail, false) => "has less trail",
        (CaptionSubject::Weight, true) => "is heavier",
        (CaptionSubject::Weight, false) => "is lighter",
        (CaptionSubject::Stack, true) => "has more stack",
        (CaptionSubject::Stack, false) => "has less stack",
        (CaptionSubject::Reach, true) => "has more reach",
        (CaptionSubject::Reach, false) => "has less reach",
        (CaptionSubject::BagSpace, true) => "has more frame-bag space",
        (CaptionSubject::BagSpace, false) => "has less frame-bag space",
        (CaptionSubject::Wheelbase, true) => "has a longer wheelbase",
        (CaptionSubject::Wheelbase, false) => "has a shorter wheelbase",
        (CaptionSubject::Chainstay, true) => "has longer chainstays",
        (CaptionSubject::Chainstay, false) => "has shorter chainstays",
        (CaptionSubject::BbDrop, true) => "has more bottom bracket drop",
        (CaptionSubject::BbDrop, false) => "has less bottom bracket drop",
        (CaptionSubject::Standover, true) => "has a higher standover",
        (CaptionSubject::Standover, false) => "has a lower standover",
    }
}

/// The measure's name in the middle of a sentence.
const fn noun(subject: CaptionSubject) -> &'static str {
    match subject {
        CaptionSubject::Trail => "trail",
        CaptionSubject::Weight => "weight",
        CaptionSubject::Stack => "stack",
        CaptionSubject::Reach => "reach",
        CaptionSubject::BagSpace => "frame-bag space",
        CaptionSubject::Wheelbase => "wheelbase",
        CaptionSubject::Chainstay => "chainstay length",
        CaptionSubject::BbDrop => "bottom bracket drop",
        CaptionSubject::Standover => "standover height",
    }
}

/// A fact in a sentence: `B has less trail: 73.1 ± 1.8 vs 84.7 ± 1.7 mm.`
fn caption_text(findings: &Findings, units: System, fact: &CaptionFact) -> String {
    let letter = |frame: &FrameIndex| frame.of(&findings.frames).map_or("", |f| f.letter.as_str());
    match fact {
        CaptionFact::Difference { subject, frame, is_more, own, other } => {
            let quantity = subject.quantity();
            let (own, other) = (units.plus_minus(quantity, *own), units.text(quantity, *other));
            format!("{} {}: {own} vs {other}.", letter(frame), claim(*subject, *is_more))
        }
        CaptionFact::NoClearDifference { subject, is_all: true, .. } => format!("No clear difference in {}.", noun(*subject)),
        CaptionFact::NoClearDifference { subject, frames, .. } => {
            format!("No clear difference in {} between {}.", noun(*subject), listed(frames.iter().map(letter)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::Figure;
    use crate::lineup::{Block, read_lineup};

    fn library() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn clear_differences_are_told_with_their_plus_minus_and_others_are_not_told_as_clear() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        let found = captions(&lineup, &findings, &Sheet::default());
        let trail = found.iter().find(|c| c.of == "Trail: Quern Halter").unwrap();
        let difference = findings.difference(FrameIndex(1), Figure::Trail).unwrap();
        assert!(trail.is_clear && difference.is_clear());
        let more = if difference.value < 0.0 { "less" } else { "more" };
        assert!(trail.text.starts_with(&format!("B has {more} trail: ")), "{}", trail.text);
        assert_eq!(trail.text.matches('±').count(), 2, "{}", trail.text);
        for caption in found.iter().filter(|c| !c.is_clear) {
            assert!(caption.text.starts_with("No clear difference in "), "{}", caption.text);
        }
        for (place, frame) in FrameIndex::numbered(&findings.frames) {
            for subject in CaptionSubject::ALL {
                if subject.difference(&findings, place).is_some_and(|d| !d.is_clear()) {
                    let key = format!("{}: {}", subject.key(), frame.name);
                    assert!(found.iter().all(|c| c.of != key), "{key}: no clear difference");
                }
            }
        }
    }

    #[test]
    fn the_users_words_stay_when_figures_change_and_say_that_they_have() {
        let mut lineup = library();
        let findings = Findings::of(&lineup);
        let mut sheet = Sheet::default();
        let before = captions(&lineup, &findings, &sheet);
        let trail = before.iter().find(|c| c.of == "Trail: Quern Halter").unwrap();
        sheet.edit_caption(&trail.of, "The Halter turns in sooner.".to_owned(), &trail.found, &trail.figures);
        let of = |lineup: &Lineup, sheet: &Sheet| {
            let all = captions(lineup, &Findings::of(lineup), sheet);
            all.into_iter().find(|c| c.of == "Trail: Quern Halter").unwrap()
        };
        let edited = of(&lineup, &sheet);
        assert_eq!((edited.text.as_str(), edited.is_edited, edited.is_outdated), ("The Halter turns in sooner.", true, false));
        // Other units change no figure.
        lineup.settings.units = System::Imperial;
        assert!(!of(&lineup, &sheet).is_outdated);
        lineup.settings.units = System::Metric;
        // A file of version 0.1 has the sentence alone.
        sheet.captions[0].figures.clear();
        assert!(!of(&lineup, &sheet).is_outdated);
        sheet.captions[0].figures.clone_from(&trail.figures);
        // Another size has other figures: the words stay, the finding has moved on.
        lineup.frames[0].size = "S".to_owned();
        let later = of(&lineup, &sheet);
        assert_eq!(later.text, "The Halter turns in sooner.");
        assert!(later.is_outdated && later.found != trail.found);
        // An unedited caption has moved with its figures.
        assert_ne!(captions(&lineup, &Findings::of(&lineup), &Sheet::default()), before);
    }

    #[test]
    fn captions_name_the_measure_in_the_chosen_units() {
        let mut lineup = library();
        let said = |lineup: &Lineup| {
            let sheet = Sheet { contents: vec![Block::Captions], ..Sheet::default() };
            let all = captions(lineup, &Findings::of(lineup), &sheet);
            all.into_iter().map(|c| c.text).collect::<Vec<_>>().join("\n").replace('\u{2009}', " ")
        };
        insta::assert_snapshot!(said(&lineup), @"
        B has less trail: 68 ± 2 vs 84.8 ± 1.9 mm.
        D has less trail: 67.7 ± 1.5 vs 84.8 ± 1.9 mm.
        E has less trail: 59.7 ± 1.8 vs 84.8 ± 1.9 mm.
        No clear difference in weight between A and B.
        B has less stack: 600.1 ± 0.5 vs 638.0 ± 0.5 mm.
        D is lighter: 2365 ± 38 vs 3792 ± 81 g.
        E is lighter: 2238 ± 92 vs 3792 ± 81 g.
        B has less reach: 390.1 ± 0.5 vs 410.0 ± 0.5 mm.
        D has less stack: 616.1 ± 0.5 vs 638.0 ± 0.5 mm.
        E has less stack: 600.0 ± 0.5 vs 638.0 ± 0.5 mm.
        No clear difference in frame-bag space between A and D.
        No clear difference in bottom bracket drop between A and E.
        No clear difference in standover height between A and D.
        ");
        lineup.settings.units = System::Imperial;
        insta::assert_snapshot!(said(&lineup), @"
        B has less trail: 2.67 ± 0.08 vs 3.34 ± 0.08 in.
        D has less trail: 2.66 ± 0.06 vs 3.34 ± 0.08 in.
        E has less trail: 2.35 ± 0.07 vs 3.34 ± 0.08 in.
        No clear difference in weight between A and B.
        B has less stack: 23.63 ± 0.02 vs 25.118 ± 0.019 in.
        D is lighter: 5.21 ± 0.08 vs 8.36 ± 0.18 lb.
        E is lighter: 4.9 ± 0.2 vs 8.36 ± 0.18 lb.
        B has less reach: 15.36 ± 0.02 vs 16.14 ± 0.02 in.
        D has less stack: 24.258 ± 0.018 vs 25.118 ± 0.019 in.
        E has less stack: 23.622 ± 0.019 vs 25.118 ± 0.019 in.
        No clear difference in frame-bag space between A and D.
        No clear difference in bottom bracket drop between A and E.
        No clear difference in standover height between A and D.
        ");
    }

    #[test]
    fn every_subject_has_a_claim_either_way_and_a_noun() {
        let said =
            |subject: CaptionSubject| format!("{}: B {}; B {}.", noun(subject), claim(subject, true), claim(subject, false));
        insta::assert_snapshot!(CaptionSubject::ALL.map(said).join("\n"), @"
        trail: B has more trail; B has less trail.
        weight: B is heavier; B is lighter.
        stack: B has more stack; B has less stack.
        reach: B has more reach; B has less reach.
        frame-bag space: B has more frame-bag space; B has less frame-bag space.
        wheelbase: B has a longer wheelbase; B has a shorter wheelbase.
        chainstay length: B has longer chainstays; B has shorter chainstays.
        bottom bracket drop: B has more bottom bracket drop; B has less bottom bracket drop.
        standover height: B has a higher standover; B has a lower standover.
        ");
    }
}
