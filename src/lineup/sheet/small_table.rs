//! The small table of a sheet: the reference's figures and how the others differ, or, of two frames, both and their
//! difference. The full table is `table.rs`; this one says the same of fewer figures in fewer columns.

use super::settings::Sheet;
use crate::frameset::Part;
use crate::lineup::room_findings::RoomFigure;
use crate::lineup::{Findings, Lineup, Mark, Subject, comparison_table};

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SmallCell {
    /// What it says.
    pub text: String,
    /// Whether it is grey: a difference within its ±, or nothing to show.
    pub is_grey: bool,
}

/// A row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SmallRow {
    /// The figure's name.
    pub label: String,
    /// Its unit; empty for angles, whose sign stands in the cells.
    pub unit: String,
    /// One a column.
    pub cells: Vec<SmallCell>,
}

/// The table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SmallTable {
    /// Heads of the columns, `A` or `B − A`, each with its frame's place.
    pub columns: Vec<(String, usize)>,
    /// The rows, the most important first.
    pub rows: Vec<SmallRow>,
}

/// The small table of a sheet: its figures, then room, weight and price where any frame has one.
#[must_use]
pub fn small_table(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> SmallTable {
    let full = comparison_table(findings, lineup.settings.units);
    let frames = full.columns.iter().filter(|c| !c.is_difference).count();
    // Of two frames both stand there; of more, the reference and the differences.
    let chosen: Vec<usize> = (0..full.columns.len())
        .filter(|i| full.columns[*i].is_difference || frames <= 2 || findings.reference == Some(full.columns[*i].frame))
        .collect();
    // The reference first, as all differences are from it.
    let mut chosen = chosen;
    chosen.sort_by_key(|i| (full.columns[*i].is_difference, findings.reference != Some(full.columns[*i].frame), *i));
    let head = |i: &usize| {
        let column = &full.columns[*i];
        let letter = || findings.frames.get(column.frame).map(|f| f.letter.clone()).unwrap_or_default();
        (if column.is_difference { column.title.clone() } else { letter() }, column.frame)
    };
    let room = Subject::Room(RoomFigure::Area);
    let weight = Subject::Weight(Part::Frameset);
    let subjects = sheet.figures.iter().map(|f| Subject::Figure(*f)).chain([room, weight]);
    let mut rows: Vec<SmallRow> = Vec::new();
    for subject in subjects {
        let Some(row) = full.rows.iter().find(|r| r.subject == subject) else { continue };
        if matches!(subject, Subject::Room(_) | Subject::Weight(_)) && row.cells.iter().all(|c| c.value.is_none()) {
            continue;
        }
        let is_angle = row.unit == "°";
        let cells = chosen.iter().map(|i| {
            let cell = &row.cells[*i];
            let text = match (cell.mark, cell.value, subject) {
                (Mark::Absent, ..) => "–".to_owned(),
                // A weight stands with its ± here, as every figure does.
                (_, Some(grams), Subject::Weight(_)) if !full.columns[*i].is_difference => {
                    lineup.settings.units.plus_minus(crate::units::Quantity::Mass, grams, cell.u.unwrap_or(0.0))
                }
                _ => cell.text.clone(),
            };
            let degrees = if is_angle && cell.value.is_some() { "°" } else { "" };
            SmallCell { text: format!("{text}{degrees}"), is_grey: cell.mark.is_grey() }
        });
        let label = match subject {
            Subject::Figure(_) => row.label.split(" (").next().unwrap_or(row.label).to_owned(),
            Subject::Room(_) => "Room".to_owned(),
            Subject::Weight(_) => "Weight".to_owned(),
        };
        let unit = if is_angle { String::new() } else { row.unit.to_owned() };
        rows.push(SmallRow { label, unit, cells: cells.collect() });
    }
    rows.extend(price_row(findings, &full.columns, &chosen));
    SmallTable { columns: chosen.iter().map(head).collect(), rows }
}

/// The prices, where any shown frameset has one on the common footing. A price has no ±.
fn price_row(findings: &Findings, columns: &[crate::lineup::Column], chosen: &[usize]) -> Option<SmallRow> {
    let price = |frame: usize| findings.worth.get(frame)?.offer.set.as_ref().ok().map(|c| c.money);
    let currency = columns.iter().find_map(|c| price(c.frame))?.currency;
    let cells = chosen.iter().map(|i| {
        let column = &columns[*i];
        let money = if column.is_difference {
            findings.worth.get(column.frame).and_then(|w| w.against.as_ref()).and_then(|a| a.price)
        } else {
            price(column.frame)
        };
        let code = format!("{}{}", crate::units::THIN_SPACE, currency.code());
        match money {
            Some(money) => {
                let text = money.text().replace(&code, "");
                let sign =
                    if column.is_difference && money.amount.is_sign_positive() && !money.amount.is_zero() { "+" } else { "" };
                SmallCell { text: format!("{sign}{text}"), is_grey: false }
            }
            None => SmallCell { text: "–".to_owned(), is_grey: true },
        }
    });
    Some(SmallRow { label: "Price".to_owned(), unit: currency.code().to_owned(), cells: cells.collect() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn two_frames_stand_side_by_side_and_more_against_the_reference() {
        let mut lineup = read_lineup(include_bytes!("../../../sample-frames/village-library.lineup.ron")).unwrap();
        let heads = |lineup: &Lineup| -> Vec<String> {
            small_table(lineup, &Findings::of(lineup), &Sheet::default()).columns.into_iter().map(|c| c.0).collect()
        };
        for (place, frame) in lineup.frames.iter_mut().enumerate() {
            frame.shown = [0, 1, 3].contains(&place);
        }
        assert_eq!(heads(&lineup), ["A", "B − A", "D − A"]);
        lineup.reference = 1;
        assert_eq!(heads(&lineup), ["B", "A − B", "D − B"]);
        lineup.frames[3].shown = false;
        assert_eq!(heads(&lineup), ["B", "A", "A − B"]);
        let table = small_table(&lineup, &Findings::of(&lineup), &Sheet::default());
        let price = table.rows.last().unwrap();
        let texts: Vec<&str> = price.cells.iter().map(|c| c.text.as_str()).collect();
        assert_eq!((price.unit.as_str(), texts), ("EUR", vec!["719.00", "648.00", "−71.00"]));
        assert!(table.rows.iter().all(|r| r.cells.len() == 3));
    }
}
