//! How alike in fit the frames are, in words: the badge of one frame, the sentences of a picture or a table, and what an
//! edit did to the sizes.

use super::phrases::frames_in_words;
use crate::frameset::FrameIndex;
use crate::lineup::{ALIKE_MM, Findings, SizeBasis, SizeFit, SizeRule, letter};
use crate::units::{Length, Measured, System, listed};
use crate::words::Label;
use crate::words::lengths::length_to_whole;

impl Label for SizeRule {
    fn label(self) -> &'static str {
        match self {
            Self::SameFit => "same fit as the reference",
            Self::AsPublished => "as published (labels)",
        }
    }
}

/// What a rule for sizes does, in sentences.
#[must_use]
pub const fn size_rule_text(rule: SizeRule) -> &'static str {
    match rule {
        SizeRule::SameFit => {
            "Each frame takes the size whose reach is closest to the reference’s at the same bar height. A stem makes up what is \
             left. Where stack, reach or head angle is unknown, the size with the reference’s label is taken, or the one at the \
             same place in the row of sizes. A size chosen by hand stays."
        }
        SizeRule::AsPublished => {
            "A frame is added in the size with the reference’s label, or at the same place in the row of sizes. After that, only \
             you change it."
        }
    }
}

/// `reach 8 ± 1 mm shorter`, or that there is no clear difference.
fn reach_text(units: System, left_over: Measured<Length>) -> String {
    if !left_over.is_clear() {
        return "no clear difference in reach".to_owned();
    }
    let way = if left_over.value < 0.0 { "shorter" } else { "longer" };
    format!("reach {} {way}", left_over.abs().text(units))
}

/// What is left over of the fit of a frame: `reach 8 ± 1 mm shorter at the same bar height`; `None` for the reference.
#[must_use]
pub fn size_fit_badge(units: System, fit: &SizeFit) -> Option<String> {
    match (fit.basis, fit.left_over) {
        (SizeBasis::Reference, _) => None,
        (_, Some(left_over)) => Some(format!("{} at the same bar height", reach_text(units, left_over))),
        (SizeBasis::Label, None) => Some("fit unknown, size by its label".to_owned()),
        (SizeBasis::Place, None) => Some("fit unknown, size by its place in the row".to_owned()),
        (_, None) => Some("fit unknown".to_owned()),
    }
}

/// The same for a narrow place: `closest fit: reach 8 ± 1 mm shorter`.
#[must_use]
pub fn size_fit_short(units: System, fit: &SizeFit) -> String {
    match (fit.left_over, fit.basis, fit.is_alike()) {
        (None, ..) => size_fit_badge(units, fit).unwrap_or_default(),
        (Some(left_over), _, Some(false)) => format!("not alike: {}", reach_text(units, left_over)),
        (Some(left_over), SizeBasis::Fit, _) => format!("closest fit: {}", reach_text(units, left_over)),
        (Some(left_over), ..) => reach_text(units, left_over),
    }
}

/// How a frame's size was chosen and how alike it is, in sentences.
#[must_use]
pub fn size_fit_text(units: System, fit: &SizeFit) -> String {
    let mut sentences = vec![
        match fit.basis {
            SizeBasis::Reference => "The reference: the other frames are compared with its fit.",
            SizeBasis::Hand => "You chose this size by hand, so it stays.",
            SizeBasis::Fit => "This size is closest in fit to the reference.",
            SizeBasis::Label => "Fit is unknown: this size has the reference’s label.",
            SizeBasis::Place => "Fit is unknown: this size has the reference’s place in the row of sizes.",
            SizeBasis::AsPublished => "This size was not chosen by its fit.",
        }
        .to_owned(),
    ];
    match (fit.basis, fit.left_over) {
        (SizeBasis::Reference, _) => {}
        (_, Some(left_over)) => {
            let compared = "with the reference, at the same bar height";
            sentences.push(format!("Compared {compared}: {}.", reach_text(units, left_over)));
            if fit.is_alike() == Some(false) {
                let step = length_to_whole(units, ALIKE_MM);
                sentences.push(format!("That is not alike in fit: stems come in steps of {step} (trade practice, unverified)."));
            }
        }
        (_, None) => sentences.push("Stack, reach or head angle of this frame or of the reference is unknown.".to_owned()),
    }
    if let Some(closer) = &fit.closer {
        sentences.push(format!("Size {closer} is closer in fit."));
    }
    sentences.join(" ")
}

/// How many frames are told of one by one.
const TOLD: usize = 8;

/// What is left over of the fit of each shown frame, and which are not alike: for a picture or a table.
#[must_use]
pub fn fit_sentences(findings: &Findings, units: System) -> Vec<String> {
    let Some(reference) = findings.reference else { return Vec::new() };
    let frames = FrameIndex::numbered(findings.frames.iter().zip(&findings.fit));
    let others = frames.filter(|(index, (frame, _))| frame.shown && *index != reference);
    let mut known = Vec::new();
    for (_, (frame, fit)) in others {
        if let Some(left_over) = fit.size_fit.left_over {
            known.push((frame, left_over));
        }
    }
    let told = |left_over: Measured<Length>| match left_over.is_clear() {
        true if left_over.value < 0.0 => format!("{} shorter", left_over.abs().text(units)),
        true => format!("{} longer", left_over.abs().text(units)),
        false => "no clear difference".to_owned(),
    };
    let base = letter(reference);
    let mut sentences = Vec::new();
    if known.len() > TOLD {
        let furthest = known.iter().max_by(|a, b| a.1.value.abs().total_cmp(&b.1.value.abs()));
        sentences.extend(furthest.map(|(frame, left_over)| {
            let whose = format!("Of {}, {} differs most in reach", frames_in_words(known.len()), frame.letter);
            format!("{whose} at the bar height of {base}: {}.", told(*left_over))
        }));
    } else if !known.is_empty() {
        let each: Vec<String> =
            known.iter().map(|(frame, d)| format!("{} ({}) {}", frame.letter, frame.size_label(), told(*d))).collect();
        sentences.push(format!("Reach at the bar height of {base}: {}.", each.join(", ")));
    }
    let (unlike, unknown) = findings.unlike_in_fit();
    for (what, places) in [("Not alike in fit", unlike), ("Fit unknown", unknown)] {
        let letters: Vec<String> = places.into_iter().map(letter).collect();
        match letters.len() {
            0 => {}
            many if many > TOLD => sentences.push(format!("{what}: {}.", frames_in_words(many))),
            _ => sentences.push(format!("{what}: {}.", listed(letters.iter().map(String::as_str)))),
        }
    }
    sentences
}

/// Which frames are not alike in fit, as one sentence for a notice above a view; `None` where all are.
#[must_use]
pub fn unlike_text(findings: &Findings, units: System) -> Option<String> {
    let (unlike, _) = findings.unlike_in_fit();
    let told = |index: &FrameIndex| {
        let (frame, fit) = (index.of(&findings.frames)?, index.of(&findings.fit)?);
        Some(format!("{} ({}), {}", frame.letter, frame.size_label(), reach_text(units, fit.size_fit.left_over?)))
    };
    match unlike.as_slice() {
        [] => None,
        few if few.len() <= 3 => {
            let each: Vec<String> = few.iter().filter_map(told).collect();
            Some(format!("Not alike in fit: {}.", each.join("; ")))
        }
        many => {
            let letters: Vec<String> = many.iter().take(TOLD).map(|i| letter(*i)).collect();
            let more = if many.len() > TOLD { format!(" and {} more", many.len() - TOLD) } else { String::new() };
            Some(format!("Not alike in fit: {}{more}.", letters.join(", ")))
        }
    }
}

/// What an edit did to the sizes of other frames: `Sizes follow the reference: B from L to M, D from 56 to 54.`
#[must_use]
pub fn sizes_followed_text(changes: &[(FrameIndex, String, String)]) -> String {
    let each = changes.iter().take(TOLD).map(|(frame, from, to)| format!("{} from {from} to {to}", letter(*frame)));
    let more = if changes.len() > TOLD { format!(" and {} more", changes.len() - TOLD) } else { String::new() };
    format!("Sizes follow the reference’s fit: {}{more}.", each.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    fn fit(basis: SizeBasis, left_over: Option<(f64, f64)>, closer: Option<&str>) -> SizeFit {
        SizeFit { basis, left_over: left_over.map(|(v, u)| Measured::new(v, u)), closer: closer.map(str::to_owned) }
    }

    #[test]
    fn badges_and_their_tooltips_in_english() {
        let all = [
            fit(SizeBasis::Reference, None, None),
            fit(SizeBasis::Fit, Some((-8.0, 0.5)), None),
            fit(SizeBasis::Hand, Some((23.0, 0.5)), Some("M")),
            fit(SizeBasis::Fit, Some((0.4, 0.5)), None),
            fit(SizeBasis::Place, None, None),
        ];
        let told = all.iter().map(|f| {
            let badge = size_fit_badge(System::Metric, f).unwrap_or_default();
            format!("{badge}\n    {}", size_fit_text(System::Metric, f)).replace('\u{2009}', " ")
        });
        insta::assert_snapshot!(told.collect::<Vec<_>>().join("\n"), @r"

            The reference: the other frames are compared with its fit.
        reach 8.0 ± 1.0 mm shorter at the same bar height
            This size is closest in fit to the reference. Compared with the reference, at the same bar height: reach 8.0 ± 1.0 mm shorter.
        reach 23.0 ± 1.0 mm longer at the same bar height
            You chose this size by hand, so it stays. Compared with the reference, at the same bar height: reach 23.0 ± 1.0 mm longer. That is not alike in fit: stems come in steps of 10 mm (trade practice, unverified). Size M is closer in fit.
        no clear difference in reach at the same bar height
            This size is closest in fit to the reference. Compared with the reference, at the same bar height: no clear difference in reach.
        fit unknown, size by its place in the row
            Fit is unknown: this size has the reference’s place in the row of sizes. Stack, reach or head angle of this frame or of the reference is unknown.
        ");
    }

    #[test]
    fn a_picture_says_what_is_left_over_and_who_is_not_alike() {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let told = |lineup: &crate::lineup::Lineup| {
            fit_sentences(&Findings::of(lineup), System::Metric).join(" ").replace('\u{2009}', " ")
        };
        insta::assert_snapshot!(told(&lineup), @"Reach at the bar height of A: B (L) 30.8 ± 1.0 mm shorter, D (56) 15.6 ± 0.9 mm shorter, E (57) 28.7 ± 0.9 mm shorter. Not alike in fit: B, D and E.");
        lineup.frames[1].size = "S".to_owned();
        assert!(told(&lineup).contains("Not alike in fit: B"), "{}", told(&lineup));
        assert!(unlike_text(&Findings::of(&lineup), System::Metric).unwrap().contains("B (S), reach"));
        // A hidden frame is not on the picture.
        lineup.frames[1].shown = false;
        assert!(!told(&lineup).contains("B ("), "{}", told(&lineup));
        // More than can be told one by one.
        lineup.frames = vec![lineup.frames[3].clone(); 12];
        assert!(told(&lineup).starts_with("Of 11 frames, "), "{}", told(&lineup));
    }

    #[test]
    fn changed_sizes_are_named() {
        let change = |frame| (FrameIndex(frame), "L".to_owned(), "M".to_owned());
        assert_eq!(
            sizes_followed_text(&[change(1), change(3)]),
            "Sizes follow the reference’s fit: B from L to M, D from L to M."
        );
        let many: Vec<_> = (0..11).map(change).collect();
        assert!(sizes_followed_text(&many).ends_with("H from L to M and 3 more."));
    }
}
