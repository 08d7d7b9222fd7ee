//! The published standards of all frames side by side, so that they can be compared before any part is entered.

use super::fit_table::{FitCell, FitMark, FitRow, FitTable, all_frames};
use super::lists::{FrameLine, lines};
use crate::frameset::{FrameIndex, Standard};
use crate::lineup::Findings;
use crate::units::{capitalised, listed};

/// What stands before a cell that differs from the reference's.
const DIFFERS: &str = "≠ ";

/// What a frame's maker publishes of a standard.
fn published(findings: &Findings, standard: Standard, frame: FrameIndex) -> Option<&str> {
    let frameset = &frame.of(&findings.frames)?.frameset;
    frameset.standards.get(&standard).map(|text| text.trim()).filter(|text| !text.is_empty())
}

/// Whether a frame and the reference both publish a standard, and not the same of it.
fn differs(findings: &Findings, standard: Standard, frame: FrameIndex) -> bool {
    let is_published = |frame| published(findings, standard, frame).is_some();
    let said = |frame: FrameIndex| frame.of(&findings.fit).map(|f| &f.statements);
    let reference = findings.reference.filter(|r| *r != frame && is_published(*r) && is_published(frame));
    reference.and_then(|r| said(frame).zip(said(r))).is_some_and(|(own, other)| !own.is_same(other, standard))
}

/// A line a shown frame, where the whole table is too high: of the reference the standards in which another differs, of the
/// others what differs and what is not published. `None` where nothing is published.
#[must_use]
pub fn standards_list(findings: &Findings) -> Option<Vec<FrameLine>> {
    let shown: Vec<FrameIndex> = FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown).map(|(i, _)| i).collect();
    let all: Vec<Standard> =
        Standard::ALL.into_iter().filter(|s| shown.iter().any(|f| published(findings, *s, *f).is_some())).collect();
    let texts = |frame: FrameIndex, wanted: &dyn Fn(Standard) -> bool| {
        let told = all.iter().filter(|s| wanted(**s));
        let told = told.filter_map(|s| Some(format!("{}: {}", s.label(), published(findings, *s, frame)?)));
        told.collect::<Vec<_>>().join("; ")
    };
    let letter = findings.reference_frame().map(|f| f.letter.as_str());
    let line = |frame: FrameIndex| {
        let Some(letter) = letter.filter(|_| findings.reference != Some(frame)) else {
            let is_told = |s: Standard| letter.is_none() || shown.iter().any(|f| differs(findings, s, *f));
            let told = texts(frame, &is_told);
            return if told.is_empty() {
                "Publishes nothing that others publish otherwise.".to_owned()
            } else {
                format!("{}.", capitalised(&told))
            };
        };
        let other = texts(frame, &|s| differs(findings, s, frame));
        let missing: Vec<&str> = all.iter().filter(|s| published(findings, **s, frame).is_none()).map(|s| s.label()).collect();
        let words = [
            if other.is_empty() {
                format!("As {letter}, so far as both publish it")
            } else {
                format!("Differs from {letter}. {}", capitalised(&other))
            },
            if missing.is_empty() { String::new() } else { format!("Not published: {}", listed(missing.into_iter())) },
        ];
        format!("{}.", words.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(". "))
    };
    (!all.is_empty()).then(|| lines(findings, &line))
}

/// Standards down, all frames of the line-up across; those that no frame publishes are left out.
#[must_use]
pub fn standards_table(findings: &Findings) -> FitTable {
    let (frames, columns) = all_frames(findings);
    let cell = |standard: Standard, frame: FrameIndex| {
        let Some(text) = published(findings, standard, frame) else {
            return FitCell { text: "not published".to_owned(), detail: String::new(), mark: FitMark::Open };
        };
        let differs = differs(findings, standard, frame);
        let slip = frame.of(&findings.fit).and_then(|f| f.statements.slip(standard));
        let letter = findings.reference.and_then(|r| r.of(&findings.frames)).map_or("", |f| f.letter.as_str());
        let detail = match slip {
            Some(slip) => slip.to_string(),
            None if differs => format!("Differs from the reference, {letter}."),
            None => String::new(),
        };
        FitCell { text: format!("{}{text}", if differs { DIFFERS } else { "" }), detail, mark: FitMark::Plain }
    };
    let rows = Standard::ALL
        .into_iter()
        .filter(|standard| frames.iter().any(|frame| published(findings, *standard, *frame).is_some()))
        .map(|standard| FitRow {
            label: capitalised(standard.label()),
            cells: frames.iter().map(|frame| cell(standard, *frame)).collect(),
        })
        .collect();
    FitTable { corner: "Standard".to_owned(), frames, columns, rows }
}

/// What stands below that table.
#[must_use]
pub fn standards_notes(findings: &Findings) -> Vec<String> {
    let table = standards_table(findings);
    let differs = table.rows.iter().flat_map(|r| &r.cells).any(|c| c.text.starts_with(DIFFERS));
    let letter = findings.reference.and_then(|r| r.of(&findings.frames)).map_or("", |f| f.letter.as_str());
    if differs {
        vec![format!("{DIFFERS}differs from the reference, {letter}. Published by the makers, in their words.")]
    } else {
        Vec::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn standards_stand_side_by_side_and_differences_are_marked() {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        let table = standards_table(&findings);
        assert!(table.rows.iter().all(|r| r.cells.len() == findings.frames.len()));
        let row = |label: &str| table.rows.iter().find(|r| r.label == label).unwrap();
        let shell: Vec<&str> = row("Bottom bracket").cells.iter().map(|c| c.text.as_str()).collect();
        assert_eq!(shell[0], "BSA 73", "the reference");
        assert!(shell.contains(&"≠ T47 68"), "{shell:?}");
        assert!(!shell.contains(&"≠ BSA 73"), "{shell:?}");
        assert!(row("Front hub").cells.iter().any(|c| c.text == "not published" && c.mark == FitMark::Open));
        assert_eq!(standards_notes(&findings).len(), 1);
        let list = standards_list(&findings).unwrap();
        let line = |letter: &str| list.iter().find(|l| l.letter == letter).map(|l| l.text.clone()).unwrap();
        assert!(line("A").contains("bottom bracket: BSA 73"), "{}", line("A"));
        assert!(
            list.iter().any(|l| l.text.starts_with("Differs from A. ") && l.text.contains("bottom bracket: T47 68")),
            "{list:?}"
        );
        assert!(list.iter().any(|l| l.text.contains("Not published: ") && l.text.contains("front hub")), "{list:?}");
        // The same in other words is no difference.
        let mut lineup = lineup;
        let other = std::sync::Arc::make_mut(&mut lineup.frames[FrameIndex(1)].frameset);
        other.standards.insert(Standard::BottomBracket, "73 mm BSA".to_owned());
        let table = standards_table(&Findings::of(&lineup));
        let shell = table.rows.iter().find(|r| r.label == "Bottom bracket").unwrap();
        assert_eq!(shell.cells[1].text, "73 mm BSA");
    }
}
