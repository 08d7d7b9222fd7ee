//! The bones of a table whose rows are figures: which column holds the labels, which the sizes, which row names the
//! sizes, what stands about it. No number is decided here.
//!
//! Invariant: every cell of the grid ends in a row, a size's label, a line beside the table, or a unit.

use super::grid::Grid;
use super::names::{self, Found, Meaning};
use super::numeral::{self, Cell, DecimalMark};
use super::size_label;
use super::specification::field_of;
use super::unit::{self, Unit};

/// A row with a label and a cell for each size.
#[derive(Clone, Debug)]
pub(super) struct RawRow {
    /// The row's place in the grid.
    pub(super) line: usize,
    pub(super) label: String,
    pub(super) found: Option<Found>,
    pub(super) unit: Option<Unit>,
    pub(super) cells: Vec<String>,
    /// Text in other columns of the row.
    pub(super) beside: String,
}

/// A column that is a size.
#[derive(Clone, Debug)]
pub(super) struct RawSize {
    pub(super) column: usize,
    /// Empty where nothing names it.
    pub(super) label: String,
    pub(super) unit: Option<Unit>,
}

/// See the module.
#[derive(Clone, Debug, Default)]
pub(super) struct Skeleton {
    pub(super) sizes: Vec<RawSize>,
    pub(super) rows: Vec<RawRow>,
    /// Titles, headings, footnotes.
    pub(super) lines: Vec<String>,
    /// The unit that a line beside the table states for all lengths.
    pub(super) unit: Option<Unit>,
    pub(super) remarks: Vec<String>,
}

/// The most labels that are looked at for likeness in one column.
const MOST_ALIKE: usize = 250;

struct Columns {
    label: usize,
    values: Vec<usize>,
    units: Vec<usize>,
    /// Text columns before the first value, the label's own among them.
    parts: Vec<usize>,
    beside: Vec<usize>,
}

/// The bones, or `None` where no label names a figure.
pub(super) fn skeleton(grid: &Grid) -> Option<Skeleton> {
    let label = label_column(grid)?;
    let own: Vec<Option<Found>> = (0..grid.cells.len()).map(|r| find(&unit::split_label(grid.cell(r, label)).1)).collect();
    let hits: Vec<usize> = (0..grid.cells.len()).filter(|r| is_figure(own.get(*r).and_then(Option::as_ref))).collect();
    let columns = sort_columns(grid, label, &hits)?;
    let mut build = Builder {
        grid,
        columns,
        own,
        hits,
        out: Skeleton::default(),
        size_rows: Vec::new(),
        headers: Vec::new(),
        column_units: None,
    };
    build.rows();
    build.sizes();
    Some(build.out)
}

/// As [`names::find`], but only figures may be merely like a name: sizes, tyres and the rest are known or unknown.
/// A line of a specification list is never merely like a figure.
fn find(label: &str) -> Option<Found> {
    if field_of(label).is_some() && names::find_exact(label).is_none() {
        return None;
    }
    names::find(label).filter(|f| f.likeness >= names::SURE || matches!(f.meaning, Meaning::Figures { .. }))
}

fn is_figure(found: Option<&Found>) -> bool {
    found.is_some_and(|f| matches!(f.meaning, Meaning::Figures { .. }))
}

/// The column with the most labels that name something, figures counting double.
fn label_column(grid: &Grid) -> Option<usize> {
    let score = |column: usize, look: fn(&str) -> Option<Found>, most: usize| -> usize {
        (0..grid.cells.len())
            .map(|row| grid.cell(row, column))
            .filter(|cell| cell.contains(char::is_alphabetic))
            .take(most)
            .filter_map(|cell| look(&unit::split_label(cell).1))
            .map(|found| if matches!(found.meaning, Meaning::Figures { .. }) { 1000 } else { 1 })
            .sum()
    };
    let best = |look: fn(&str) -> Option<Found>, columns: usize, most: usize| {
        (0..grid.width().min(columns))
            .map(|c| (score(c, look, most), c))
            .filter(|(s, _)| *s >= 1000)
            .max_by_key(|(s, c)| (*s, usize::MAX - c))
            .map(|(_, c)| c)
    };
    best(names::find_exact, usize::MAX, usize::MAX).or_else(|| best(names::find, 3, MOST_ALIKE / 3))
}

pub(super) fn is_numeric(text: &str) -> bool {
    DecimalMark::BOTH.iter().any(|m| numeral::read(text, *m).is_numeric())
}

fn is_empty(text: &str) -> bool {
    matches!(numeral::read(text, DecimalMark::Point), Cell::Blank | Cell::NotStated)
}

fn sort_columns(grid: &Grid, label: usize, hits: &[usize]) -> Option<Columns> {
    let mut columns = Columns { label, values: Vec::new(), units: Vec::new(), parts: Vec::new(), beside: Vec::new() };
    let mut texts = Vec::new();
    for column in (0..grid.width()).filter(|c| *c != label) {
        let (mut numeric, mut empty, mut units, mut text) = (0, 0, 0, 0);
        for row in hits {
            let cell = grid.cell(*row, column);
            if is_numeric(cell) {
                numeric += 1;
            } else if Unit::from_word(cell).is_some() {
                units += 1;
            } else if is_empty(cell) {
                empty += 1;
            } else {
                text += 1;
            }
        }
        if numeric > 0 && numeric + empty >= text + units {
            columns.values.push(column);
        } else if units > 0 && text == 0 {
            columns.units.push(column);
        } else if text > 0 || (0..grid.cells.len()).any(|r| !grid.cell(r, column).is_empty()) {
            texts.push((column, text));
        }
    }
    let first = *columns.values.first()?;
    columns.parts.push(label);
    for (column, text) in texts {
        // A column without a word in any row of figures is a size that has no figures, when it stands among the sizes.
        if text == 0 && column > first && hits.iter().all(|r| is_empty(grid.cell(*r, column))) {
            columns.values.push(column);
        } else if column < first && label < first {
            columns.parts.push(column);
        } else {
            columns.beside.push(column);
        }
    }
    columns.values.sort_unstable();
    columns.parts.sort_unstable();
    Some(columns)
}

struct Builder<'a> {
    grid: &'a Grid,
    columns: Columns,
    own: Vec<Option<Found>>,
    hits: Vec<usize>,
    out: Skeleton,
    size_rows: Vec<RawRow>,
    /// Rows without a known label that may name the sizes.
    headers: Vec<RawRow>,
    column_units: Option<Vec<Option<Unit>>>,
}

impl Builder<'_> {
    fn rows(&mut self) {
        let first_hit = self.hits.first().copied().unwrap_or(0);
        let mut filled: Vec<String> = vec![String::new(); self.columns.parts.len()];
        let mut heading = String::new();
        for line in 0..self.grid.cells.len() {
            let cells: Vec<String> = self.columns.values.iter().map(|c| self.grid.cell(line, *c).to_owned()).collect();
            let texts: Vec<String> = self.columns.parts.iter().map(|c| self.grid.cell(line, *c).to_owned()).collect();
            let beside = self.beside(line);
            if cells.iter().all(String::is_empty) {
                let mut whole = texts.clone();
                whole.extend(self.columns.units.iter().map(|c| self.grid.cell(line, *c).to_owned()));
                whole.push(beside);
                whole.retain(|t| !t.is_empty());
                if !whole.is_empty() {
                    heading = whole.join(" ");
                    self.line(&heading.clone());
                }
                continue;
            }
            let (label, found, unit) = self.label(line, &texts, &mut filled, &heading);
            let unit = unit.or_else(|| self.columns.units.iter().find_map(|c| Unit::from_word(self.grid.cell(line, *c))));
            let row = RawRow { line, label, found, unit, cells, beside };
            self.place(row, first_hit);
        }
    }

    fn beside(&self, line: usize) -> String {
        let texts: Vec<&str> = self.columns.beside.iter().map(|c| self.grid.cell(line, *c)).filter(|t| !t.is_empty()).collect();
        texts.join(" ")
    }

    fn line(&mut self, text: &str) {
        let unit = text.split(|c: char| c.is_whitespace() || matches!(c, ':' | ',' | ';' | '=')).find_map(|word| {
            let unit = Unit::from_word(word)?;
            // "in" and "m" are words of other languages as well.
            let plain = word.trim_matches(['(', ')', '[', ']', '.']);
            (!unit.is_angle() && !matches!(plain, "in" | "m" | "M" | "po")).then_some(unit)
        });
        if let Some(unit) = unit
            && self.out.unit.is_none()
            && !text.contains(|c: char| c.is_ascii_digit())
        {
            self.out.unit = Some(unit);
        }
        self.out.lines.push(text.to_owned());
    }

    /// The label of a row, what it means and the unit in it: all its parts together where that names something, else
    /// its own cell, else its own cell under the last heading.
    fn label(
        &self,
        line: usize,
        texts: &[String],
        filled: &mut [String],
        heading: &str,
    ) -> (String, Option<Found>, Option<Unit>) {
        let own_at = self.columns.parts.iter().position(|c| *c == self.columns.label).unwrap_or(0);
        let own_text = texts.get(own_at).cloned().unwrap_or_default();
        let last = texts.iter().rposition(|t| !t.is_empty());
        for (place, text) in texts.iter().enumerate() {
            if let Some(slot) = filled.get_mut(place) {
                // A blank before a filled part belongs to the merged cell above it.
                if !text.is_empty() || last.is_none_or(|l| place > l) {
                    slot.clone_from(text);
                }
            }
        }
        let parts: Vec<&str> = filled.iter().map(String::as_str).filter(|t| !t.is_empty()).collect();
        let joined = parts.join(" ");
        let (own_unit, own_rest) = unit::split_label(&own_text);
        if parts.len() > 1 {
            let (unit, rest) = unit::split_label(&joined);
            if let Some(found) = names::find_exact(&rest) {
                return (joined, Some(found), unit.or(own_unit));
            }
            if own_text.is_empty() {
                let found = find(&rest);
                return (joined, found, unit);
            }
        }
        let mut found = self.own.get(line).cloned().flatten();
        if found.as_ref().is_none_or(|f| f.likeness < names::SURE) && !heading.is_empty() && !own_rest.is_empty() {
            let under = format!("{} {own_rest}", unit::split_label(heading).1);
            if let Some(better) = names::find_exact(&under).filter(|f| matches!(f.meaning, Meaning::Figures { .. })) {
                found = Some(better);
            }
        }
        let label = if found.is_some() && parts.len() <= 1 { own_text } else { joined };
        (label, found, own_unit)
    }

    fn place(&mut self, row: RawRow, first_hit: usize) {
        let filled = || row.cells.iter().filter(|c| !c.is_empty());
        if filled().all(|c| Unit::from_word(c).is_some()) && filled().count() > 0 && self.column_units.is_none() {
            // A size called M is no row of metres.
            let letters = filled().all(|c| size_label::rank(c).is_some());
            if !letters {
                self.column_units = Some(row.cells.iter().map(|c| Unit::from_word(c)).collect());
                return;
            }
        }
        match row.found.as_ref().map(|f| &f.meaning) {
            Some(Meaning::Size) => self.size_rows.push(row),
            Some(_) => self.out.rows.push(row),
            None => {
                let all_sizes = filled().all(|c| size_label::rank(c).is_some());
                let letters = filled().any(|c| matches!(size_label::rank(c), Some(size_label::Rank::Letters(_))));
                if row.label.is_empty() || row.line < first_hit || (all_sizes && letters) {
                    self.headers.push(row);
                } else {
                    self.out.rows.push(row);
                }
            }
        }
    }

    /// Chooses the row that names the sizes; the others stay rows.
    fn sizes(&mut self) {
        let distinct = |row: &RawRow| {
            let mut cells: Vec<&String> = row.cells.iter().filter(|c| !c.is_empty()).collect();
            cells.sort_unstable();
            cells.dedup();
            cells.len()
        };
        let like_sizes = |row: &RawRow| row.cells.iter().filter(|c| size_label::rank(c).is_some()).count();
        let letters =
            |row: &RawRow| row.cells.iter().filter(|c| matches!(size_label::rank(c), Some(size_label::Rank::Letters(_)))).count();
        let best = |rows: &[RawRow]| {
            (0..rows.len()).max_by_key(|i| {
                rows.get(*i).map_or((0, 0, 0, 0), |r| (distinct(r), letters(r), like_sizes(r), usize::MAX - r.line))
            })
        };
        let mut labels: Option<RawRow> = best(&self.size_rows).map(|i| self.size_rows.remove(i));
        if labels.is_none() {
            labels = best(&self.headers).map(|i| self.headers.remove(i));
        }
        if labels.is_none()
            && let Some(i) = self
                .out
                .rows
                .iter()
                .position(|r| matches!(&r.found, Some(Found { meaning: Meaning::Figures { or_size: true, .. }, .. })))
        {
            let row = self.out.rows.remove(i);
            self.out.remarks.push(format!("“{}” is read as the size labels. It could also be the seat tube lengths.", row.label));
            labels = Some(row);
        }
        let same = |a: &RawRow, b: &RawRow| a.cells == b.cells;
        let repeated: Vec<RawRow> = self.size_rows.drain(..).chain(self.headers.drain(..)).collect();
        for row in repeated {
            if labels.as_ref().is_some_and(|l| same(l, &row)) {
                self.out.remarks.push("The row of sizes is repeated.".to_owned());
            } else {
                self.out.rows.push(row);
            }
        }
        self.out.rows.sort_by_key(|r| r.line);
        if let Some(row) = &labels
            && !row.beside.is_empty()
        {
            self.out.lines.push(row.beside.clone());
        }
        let mut last = String::new();
        for (place, column) in self.columns.values.iter().enumerate() {
            let mut label = labels.as_ref().and_then(|l| l.cells.get(place)).cloned().unwrap_or_default();
            let unit = self.column_units.as_ref().and_then(|u| u.get(place).copied().flatten());
            if label.is_empty() && unit.is_some() {
                label.clone_from(&last);
            }
            last.clone_from(&label);
            self.out.sizes.push(RawSize { column: *column, label: clean_label(&label), unit });
        }
    }
}

/// A size's label without footnote marks and blanks around it.
fn clean_label(label: &str) -> String {
    label.trim().trim_end_matches(super::fold::is_footnote).trim().to_owned()
}
