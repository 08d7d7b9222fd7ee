//! A build on a sheet, where a whole table of it is too high: its sums as a small table, and a line a frame of what must be
//! bought and what does not fit.

use super::build_table::{build_item_text, builds_in_tables};
use super::labels::Label;
use super::lists::{FrameLine, lines};
use super::small_table::{SmallCell, SmallRow, SmallTable};
use crate::frameset::FrameIndex;
use crate::lineup::{Build, BuildItem, BuildRow, BuildUse, Findings, Lineup};
use crate::units::{Measured, Quantity, lower_first, with_sign};

/// Before a sum of which a part is missing.
const AT_LEAST: &str = "≥ ";

/// The sums of the builds on the shown frames; no rows without a list of parts.
#[must_use]
pub fn build_small_table(lineup: &Lineup, findings: &Findings) -> SmallTable {
    let builds = builds_in_tables(lineup, findings);
    let letter = |i: &FrameIndex| i.of(&findings.frames).map(|f| f.letter.clone()).unwrap_or_default();
    let columns: Vec<(String, FrameIndex)> = builds.iter().map(|(i, _)| (letter(i), *i)).collect();
    if builds.is_empty() {
        return SmallTable { columns, rows: Vec::new() };
    }
    let units = lineup.settings.units;
    let currency = lineup.settings.money.currency.code();
    let mass_unit = units.unit(Quantity::Mass);
    let row = |label: &str, unit: &str, cell: &dyn Fn(&Build) -> SmallCell| SmallRow {
        label: label.to_owned(),
        unit: unit.to_owned(),
        cells: builds.iter().map(|(_, build)| cell(build)).collect(),
    };
    let sum = |text: String, is_whole: bool| SmallCell {
        text: if is_whole { text } else { format!("{AT_LEAST}{text}") },
        is_grey: !is_whole,
    };
    // The reference has no difference from itself.
    let apart = |build: &Build, text: Option<String>| match (text, &build.against) {
        (Some(text), _) => SmallCell { text, is_grey: false },
        (None, None) => SmallCell { text: "–".to_owned(), is_grey: true },
        (None, Some(_)) => SmallCell { text: "unknown".to_owned(), is_grey: true },
    };
    let base = findings.reference_frame().map_or("the reference", |f| f.letter.as_str());
    let price_apart = |build: &Build| {
        let price = build.against.as_ref().and_then(|a| a.price);
        apart(build, price.map(|p| with_sign(p.digits())))
    };
    let mass_apart = |build: &Build| {
        let mass = build.against.as_ref().and_then(|a| a.mass);
        let text = mass.map(|m| units.signed_plus_minus(Quantity::Mass, m));
        let is_clear = mass.is_some_and(Measured::is_clear);
        let cell = apart(build, text);
        SmallCell { is_grey: cell.is_grey || !is_clear, ..cell }
    };
    let rows = vec![
        row("Parts that do not fit", "", &|build| sum(build.unusable().count().to_string(), true)),
        row("Parts to buy", currency, &|build| {
            sum(build.extra.digits(), build.unpriced().all(|item| *item == BuildItem::Frameset))
        }),
        row("Complete bicycle", currency, &|build| sum(build.price.digits(), build.unpriced().next().is_none())),
        row(&format!("Difference from {base}"), currency, &price_apart),
        row("Complete bicycle", mass_unit, &|build| {
            sum(units.plus_minus(Quantity::Mass, build.mass), build.unweighed().next().is_none())
        }),
        row(&format!("Difference from {base}"), mass_unit, &mass_apart),
    ];
    SmallTable { columns, rows }
}

/// A line a shown frame: what must be bought, what does not fit, how many have no price or weight; `None` without a list of
/// parts.
#[must_use]
pub fn build_list(lineup: &Lineup, findings: &Findings) -> Option<Vec<FrameLine>> {
    if lineup.settings.parts.is_empty() {
        return None;
    }
    let missing = |count: usize| match count {
        0 => None,
        1 => Some("one part".to_owned()),
        count => Some(format!("{count} parts")),
    };
    let line = |build: &Build| {
        let name = |item: &BuildItem| match item {
            BuildItem::Another(kind) => lower_first(kind.label()),
            item => lower_first(&build_item_text(lineup, item)),
        };
        let names = |items: Vec<BuildItem>| (!items.is_empty()).then(|| items.iter().map(name).collect::<Vec<_>>().join("; "));
        let is_bought = |row: &&BuildRow| row.is == BuildUse::ToBuy && row.item != BuildItem::Frameset;
        let bought = names(build.rows.iter().filter(is_bought).map(|r| r.item).collect());
        let unusable = names(build.unusable().copied().collect());
        let told = [
            Some(bought.map_or_else(|| "Nothing to buy".to_owned(), |names| format!("To buy: {names}"))),
            unusable.map(|names| format!("Does not fit: {names}")),
            missing(build.unpriced().count()).map(|parts| format!("No price of {parts}")),
            missing(build.unweighed().count()).map(|parts| format!("No weight of {parts}")),
        ];
        format!("{}.", told.into_iter().flatten().collect::<Vec<_>>().join(". "))
    };
    Some(lines(findings, &|frame| frame.of(&findings.builds).map(line).unwrap_or_default()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;
    use crate::parts::{Part, PartKind};

    fn lineup() -> Lineup {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let mut hub = Part::new(PartKind::RearHub, "148 x 12 through axle", "").unwrap();
        hub.purchase.grams = Some(340.0);
        lineup.settings.parts.parts = vec![hub];
        lineup
    }

    #[test]
    fn a_sum_that_lacks_a_part_is_a_lower_bound_and_says_of_what() {
        let lineup = lineup();
        let findings = Findings::of(&lineup);
        let table = build_small_table(&lineup, &findings);
        let list = build_list(&lineup, &findings).unwrap();
        assert_eq!(table.columns.len(), findings.frames.iter().filter(|f| f.shown).count());
        assert!(table.rows.iter().all(|r| r.cells.len() == table.columns.len()));
        let bought = table.rows.iter().find(|r| r.label == "Parts to buy").unwrap();
        for (place, line) in list.iter().enumerate() {
            let cell = &bought.cells[place];
            let lacks = line.text.contains("No price of ");
            assert_eq!((cell.text.starts_with(AT_LEAST), cell.is_grey), (lacks, lacks), "{cell:?} {}", line.text);
        }
        assert!(list.iter().any(|l| l.text.contains("Does not fit: rear hub 148 x 12")), "{list:?}");
        assert!(list.iter().any(|l| l.text.contains("To buy: rear hub")), "{list:?}");
    }

    #[test]
    fn without_parts_nothing_is_told() {
        let mut lineup = lineup();
        lineup.settings.parts.parts.clear();
        lineup.settings.parts.fork = None;
        let findings = Findings::of(&lineup);
        assert!(build_small_table(&lineup, &findings).rows.is_empty() && build_list(&lineup, &findings).is_none());
    }
}
