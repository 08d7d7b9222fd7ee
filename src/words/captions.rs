//! Captions: the findings in plain sentences with their ±. A sentence follows its figures until the user writes another;
//! the user's own then stays, and says so when the figures that it stood for have changed.

use super::room_table::room_text;
use crate::frameset::{Figure, Part};
use crate::lineup::{Findings, FrameFindings, Lineup, RoomFigure, Sheet};
use crate::units::{AnyKind, Measured, System, THIN_SPACE, listed, lower_first};

/// One sentence of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caption {
    /// What it is about, by which an edit finds it again: `Trail: Quern Halter`.
    pub of: String,
    /// What stands on the sheet.
    pub text: String,
    /// What the findings say.
    pub found: String,
    /// Whether it tells a difference larger than its ±.
    pub is_real: bool,
    /// Whether the user wrote it.
    pub is_edited: bool,
    /// Whether the findings said something else when the user wrote it.
    pub is_outdated: bool,
}

/// What captions are about, in the order in which they are told.
const SUBJECTS: [Subject; 9] = [
    Subject::Figure(Figure::Trail, "steers slower", "steers quicker"),
    Subject::Weight,
    Subject::Figure(Figure::Stack, "is taller in front", "is lower in front"),
    Subject::Figure(Figure::Reach, "reaches further", "reaches less far"),
    Subject::Room,
    Subject::Figure(Figure::Wheelbase, "is longer", "is shorter"),
    Subject::Figure(Figure::Chainstay, "is longer behind", "is shorter behind"),
    Subject::Figure(Figure::BbDrop, "hangs lower between its wheels", "stands higher above its axles"),
    Subject::Figure(Figure::Standover, "is higher to stand over", "is lower to stand over"),
];

/// Captions about one frame, at most.
const EACH: usize = 5;

#[derive(Clone, Copy)]
enum Subject {
    /// A figure, what a frame does that has more of it, and less.
    Figure(Figure, &'static str, &'static str),
    /// The frameset's weight.
    Weight,
    /// The opening's area.
    Room,
}

impl Subject {
    /// At the head of a caption's key, and of a sentence.
    const fn label(self) -> &'static str {
        match self {
            Self::Figure(figure, ..) => figure.label(),
            Self::Weight => "Weight",
            Self::Room => "Room in the triangle",
        }
    }

    const fn verbs(self) -> (&'static str, &'static str) {
        match self {
            Self::Figure(_, more, less) => (more, less),
            Self::Weight => ("is heavier", "is lighter"),
            Self::Room => ("has more room in the triangle", "has less room in the triangle"),
        }
    }

    fn difference(self, findings: &Findings, frame: usize) -> Option<Measured<AnyKind>> {
        match self {
            Self::Figure(figure, ..) => findings.difference(frame, figure),
            Self::Weight => findings.weight_difference(frame, Part::Frameset).map(Measured::of_any_kind),
            Self::Room => findings.room_difference(frame, RoomFigure::Area),
        }
    }

    /// `58 ± 3 mm`.
    fn value(self, frame: &FrameFindings, units: System) -> Option<String> {
        match self {
            Self::Figure(figure, ..) => {
                let value = frame.value(figure).filter(|v| !v.is_missing)?;
                Some(units.text(figure.quantity(), value.measured()))
            }
            Self::Weight => {
                let weight = frame.weights.part(Part::Frameset)?;
                Some(weight.mass.text(units))
            }
            Self::Room => {
                RoomFigure::Area.of(frame).map(|area| format!("{}{THIN_SPACE}dm²", room_text(RoomFigure::Area, area, units)))
            }
        }
    }

    /// What the values are of, before them.
    fn noun(self) -> String {
        match self {
            Self::Figure(figure, ..) => lower_first(figure.label()),
            Self::Weight => "frameset".to_owned(),
            Self::Room => "opening".to_owned(),
        }
    }
}

/// The captions of a sheet, with the user's edits. Frame by frame the real differences, then what is within its ±.
#[must_use]
pub fn captions(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> Vec<Caption> {
    found(findings, lineup.settings.units).into_iter().map(|(of, text, is_real)| edited(sheet, of, text, is_real)).collect()
}

fn edited(sheet: &Sheet, of: String, found: String, is_real: bool) -> Caption {
    match sheet.captions.iter().find(|c| c.of == of) {
        Some(edit) => Caption {
            of,
            text: edit.text.trim().to_owned(),
            is_outdated: edit.instead_of != found,
            is_edited: true,
            found,
            is_real,
        },
        None => Caption { of, text: found.clone(), is_outdated: false, is_edited: false, found, is_real },
    }
}

fn found(findings: &Findings, units: System) -> Vec<(String, String, bool)> {
    let Some(reference) = findings.reference_frame() else { return Vec::new() };
    let others: Vec<usize> =
        (0..findings.frames.len()).filter(|i| findings.frames[*i].shown && findings.reference != Some(*i)).collect();
    // Few frames leave room for more about each.
    let each = if others.len() > 2 { EACH - 2 } else { EACH };
    let real =
        |place: usize| SUBJECTS.iter().filter(move |s| s.difference(findings, place).is_some_and(Measured::is_clear)).take(each);
    let told = |place: usize, rank: usize| {
        let frame = &findings.frames[place];
        let subject = real(place).nth(rank)?;
        let (own, other) = (subject.value(frame, units)?, subject.value(reference, units)?);
        let (more, less) = subject.verbs();
        let verb = if subject.difference(findings, place)?.value > 0.0 { more } else { less };
        let text = format!("{} {verb}: {} {own} against {other}.", frame.letter, subject.noun());
        Some((format!("{}: {}", subject.label(), frame.name), text, true))
    };
    // The weightiest of each frame first, so that a sheet with little room tells of every frame.
    let mut sentences: Vec<(String, String, bool)> = others.iter().filter_map(|place| told(*place, 0)).collect();
    sentences.extend(within(findings, reference, &others, Subject::Weight));
    for rank in 1..each {
        sentences.extend(others.iter().filter_map(|place| told(*place, rank)));
    }
    let rest = SUBJECTS.into_iter().filter(|s| !matches!(s, Subject::Weight));
    sentences.extend(rest.filter_map(|subject| within(findings, reference, &others, subject)));
    sentences
}

/// That frames differ in something by less than its ±; `None` where none do.
fn within(findings: &Findings, reference: &FrameFindings, others: &[usize], subject: Subject) -> Option<(String, String, bool)> {
    let is_within = |i: &&usize| subject.difference(findings, **i).is_some_and(|d| !d.is_clear());
    let letters: Vec<&str> = others.iter().filter(is_within).map(|i| findings.frames[*i].letter.as_str()).collect();
    if letters.is_empty() {
        return None;
    }
    let of = if letters.len() == others.len() {
        String::new()
    } else {
        format!(" of {}", listed(std::iter::once(reference.letter.as_str()).chain(letters.iter().copied())))
    };
    let text = match subject {
        Subject::Weight => format!("Weights{of} differ by less than their ±."),
        _ => format!("{}{of} differs by less than its ±.", subject.label()),
    };
    Some((format!("{}: within ±", subject.label()), text, false))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    fn library() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn real_differences_are_told_with_their_plus_minus_and_others_are_not_told_as_real() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        let found = captions(&lineup, &findings, &Sheet::default());
        let trail = found.iter().find(|c| c.of == "Trail: Quern Halter").unwrap();
        let difference = findings.difference(1, Figure::Trail).unwrap();
        assert!(trail.is_real && difference.is_clear());
        let verb = if difference.value < 0.0 { "steers quicker" } else { "steers slower" };
        assert!(trail.text.starts_with(&format!("B {verb}: trail ")), "{}", trail.text);
        assert_eq!(trail.text.matches('±').count(), 2, "{}", trail.text);
        for caption in found.iter().filter(|c| !c.is_real) {
            assert!(caption.text.contains("by less than"), "{}", caption.text);
        }
        for (place, frame) in findings.frames.iter().enumerate() {
            for subject in SUBJECTS {
                if subject.difference(&findings, place).is_some_and(|d| !d.is_clear()) {
                    let key = format!("{}: {}", subject.label(), frame.name);
                    assert!(found.iter().all(|c| c.of != key), "{key} is within its ±");
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
        sheet.edit_caption(&trail.of, "The Halter turns in sooner.".to_owned(), &trail.found);
        let of = |lineup: &Lineup, sheet: &Sheet| {
            let all = captions(lineup, &Findings::of(lineup), sheet);
            all.into_iter().find(|c| c.of == "Trail: Quern Halter").unwrap()
        };
        let edited = of(&lineup, &sheet);
        assert_eq!((edited.text.as_str(), edited.is_edited, edited.is_outdated), ("The Halter turns in sooner.", true, false));
        // Another size has other figures: the words stay, the finding has moved on.
        lineup.frames[0].size = "S".to_owned();
        let later = of(&lineup, &sheet);
        assert_eq!(later.text, "The Halter turns in sooner.");
        assert!(later.is_outdated && later.found != trail.found);
        // An unedited caption has moved with its figures.
        assert_ne!(captions(&lineup, &Findings::of(&lineup), &Sheet::default()), before);
    }
}
