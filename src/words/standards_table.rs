//! The published standards of all frames side by side, so that they can be compared before any part is entered.

use super::fit_table::{FitCell, FitMark, FitRow, FitTable, all_frames};
use crate::frameset::{FrameIndex, Standard};
use crate::lineup::Findings;
use crate::units::capitalised;

/// What stands before a cell that differs from the reference's.
const DIFFERS: &str = "≠ ";

/// Standards down, all frames of the line-up across; those that no frame publishes are left out.
#[must_use]
pub fn standards_table(findings: &Findings) -> FitTable {
    let (frames, columns) = all_frames(findings);
    let published = |standard: Standard, frame: FrameIndex| {
        let frameset = &frame.of(&findings.frames)?.frameset;
        frameset.standards.get(&standard).map(|text| text.trim()).filter(|text| !text.is_empty())
    };
    let cell = |standard: Standard, frame: FrameIndex| {
        let Some(text) = published(standard, frame) else {
            return FitCell { text: "not published".to_owned(), detail: String::new(), mark: FitMark::Open };
        };
        let said = |frame: FrameIndex| frame.of(&findings.fit).map(|f| &f.statements);
        let differs = findings
            .reference
            .filter(|r| *r != frame && published(standard, *r).is_some())
            .is_some_and(|r| said(frame).zip(said(r)).is_some_and(|(own, other)| !own.is_same(other, standard)));
        let slip = said(frame).and_then(|s| s.slip(standard));
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
        .filter(|standard| frames.iter().any(|frame| published(*standard, *frame).is_some()))
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
        // The same in other words is no difference.
        let mut lineup = lineup;
        let other = std::sync::Arc::make_mut(&mut lineup.frames[FrameIndex(1)].frameset);
        other.standards.insert(Standard::BottomBracket, "73 mm BSA".to_owned());
        let table = standards_table(&Findings::of(&lineup));
        let shell = table.rows.iter().find(|r| r.label == "Bottom bracket").unwrap();
        assert_eq!(shell.cells[1].text, "73 mm BSA");
    }
}
