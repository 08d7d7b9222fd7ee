//! The small tables on a sheet: figures down, frames across, hairlines between, grey where there is no clear difference.
//! Sums of builds, whose columns are wide, stand in bands below one another where the frames do not stand side by side.

use super::head::{HEADING, heading};
use super::sheeted::Sheeted;
use crate::drawing::measure::{CAP_HEIGHT, shorten, text_width};
use crate::drawing::pen::{Face, Pen, solid};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Anchor, Pt, Role, Weight};
use crate::words::{LeftOut, SmallRow, SmallTable};

/// A table, ready to be drawn.
pub(super) struct TableBlock {
    pub(super) table: SmallTable,
    /// Above it, if anything.
    pub(super) title: Option<&'static str>,
    /// Whether columns that do not stand side by side stand in bands; else they are left out.
    pub(super) is_banded: bool,
}

/// Height of a row and of the heads, in text sizes.
const ROW: f64 = 1.4;
/// Rows below which the table is left out.
const LEAST_ROWS: usize = 3;

fn gap(least: f64) -> f64 {
    least * 0.95
}

fn label_width(row: &SmallRow, least: f64) -> f64 {
    let unit = if row.unit.is_empty() { 0.0 } else { text_width(&row.unit, least, Weight::Regular) + least * 0.4 };
    text_width(&row.label, least, Weight::Regular) + unit
}

impl TableBlock {
    fn labels_width(&self, least: f64) -> f64 {
        self.table.rows.iter().map(|r| label_width(r, least)).fold(0.0, f64::max)
    }

    fn column_width(&self, column: usize, least: f64) -> f64 {
        let cells = self.table.rows.iter().filter_map(|r| r.cells.get(column));
        let head = self.table.columns.get(column).map_or(0.0, |c| text_width(&c.0, least, Weight::Semibold));
        cells.map(|c| text_width(&c.text, least, Weight::Regular)).fold(head, f64::max) + gap(least)
    }

    pub(super) fn width(&self, least: f64) -> f64 {
        self.labels_width(least) + (0..self.table.columns.len()).map(|c| self.column_width(c, least)).sum::<f64>()
    }

    /// The table in bands of as many columns as stand side by side; itself alone where it has none.
    fn bands(&self, width: f64, least: f64) -> Vec<Self> {
        let columns = self.table.columns.len();
        let most = self.columns_that_fit(width, least).max(1);
        let bands = if self.is_banded { columns.div_ceil(most).max(1) } else { 1 };
        let in_each = columns.div_ceil(bands).max(1);
        let part = |band: usize| {
            let (from, to) = (band * in_each, ((band + 1) * in_each).min(columns));
            let row = |row: &SmallRow| SmallRow { cells: row.cells[from..to].to_vec(), ..row.clone() };
            let table =
                SmallTable { columns: self.table.columns[from..to].to_vec(), rows: self.table.rows.iter().map(row).collect() };
            Self { table, title: None, is_banded: false }
        };
        (0..bands).map(part).collect()
    }

    fn title_height(&self, least: f64) -> f64 {
        if self.title.is_some() { HEADING * least } else { 0.0 }
    }

    pub(super) fn height(&self, least: f64, width: f64) -> f64 {
        self.title_height(least) + self.bands(width, least).len() as f64 * ROW * least * (self.table.rows.len() + 1) as f64
    }

    /// Bands are whole or not there, and the first is there.
    pub(super) fn least_height(&self, least: f64) -> f64 {
        let rows = self.table.rows.len();
        let rows = if self.is_banded { rows } else { rows.min(LEAST_ROWS) };
        self.title_height(least) + ROW * least * (rows + 1) as f64
    }

    pub(super) fn draw(&self, pen: &mut Pen, with: &Sheeted, rect: Rect, left_out: &mut Vec<LeftOut>) {
        let height = ROW * with.least * (self.table.rows.len() + 1) as f64;
        let mut y = rect.y;
        if let Some(title) = self.title {
            y += heading(pen, with, Pt { x: rect.x, y }, title);
        }
        let mut lost = 0;
        for band in self.bands(rect.width, with.least) {
            if !self.is_banded {
                return band.draw_band(pen, with, rect, left_out);
            }
            if y + height > rect.bottom() + 0.5 {
                lost += band.table.columns.len();
                continue;
            }
            band.draw_band(pen, with, Rect::new(rect.x, y, rect.width, height), left_out);
            y += height;
        }
        if lost > 0 {
            left_out.push(LeftOut::TableColumns { lost, of: self.table.columns.len() });
        }
    }

    fn draw_band(&self, pen: &mut Pen, with: &Sheeted, rect: Rect, left_out: &mut Vec<LeftOut>) {
        let least = with.least;
        let pitch = ROW * least;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows on a page")]
        let fitting = ((rect.height / pitch + 0.02) as usize).saturating_sub(1).min(self.table.rows.len());
        if fitting < self.table.rows.len() {
            left_out.push(LeftOut::TableRows(self.table.rows[fitting..].iter().map(|r| r.label.clone()).collect()));
        }
        let columns = self.columns_that_fit(rect.width, least);
        let lost = self.table.columns.len() - columns;
        if lost > 0 {
            left_out.push(LeftOut::TableColumns { lost, of: self.table.columns.len() });
        }
        let labels = self.labels_width(least).min(rect.width * 0.4);
        // Columns share what the labels leave, so that the table is as wide as its column.
        let own: Vec<f64> = (0..columns).map(|c| self.column_width(c, least)).collect();
        let spare = ((rect.width - labels - own.iter().sum::<f64>()) / columns.max(1) as f64).clamp(0.0, least * 4.0);
        let mut ends = Vec::with_capacity(columns);
        let mut x = rect.x + labels;
        for width in own {
            x += width + spare;
            ends.push(x);
        }
        let right = ends.last().copied().unwrap_or(rect.right());
        let base = |row: usize| rect.y + pitch * (row as f64 + 0.5) + least * CAP_HEIGHT / 2.0;
        for ((head, place), end) in self.table.columns.iter().zip(&ends) {
            let face = Face { size: least, role: Role::FrameLetter(*place), weight: Weight::Semibold };
            pen.text(Pt { x: *end, y: base(0) }, head.clone(), face, Anchor::End);
        }
        for (i, row) in self.table.rows.iter().take(fitting).enumerate() {
            let top = rect.y + pitch * (i + 1) as f64;
            pen.line(vec![Pt { x: rect.x, y: top }, Pt { x: right, y: top }], solid(Role::Hairline, 1.0));
            let label = shorten(&row.label, least, Weight::Regular, labels);
            let after = rect.x + text_width(&label, least, Weight::Regular) + least * 0.4;
            pen.text(Pt { x: rect.x, y: base(i + 1) }, label, Face::regular(least, Role::Ink), Anchor::Start);
            pen.text(Pt { x: after, y: base(i + 1) }, row.unit.clone(), Face::regular(least, Role::SecondInk), Anchor::Start);
            for (cell, end) in row.cells.iter().zip(&ends) {
                let role = if cell.is_grey { Role::Grey } else { Role::Ink };
                pen.text(Pt { x: *end, y: base(i + 1) }, cell.text.clone(), Face::regular(least, role), Anchor::End);
            }
        }
    }

    /// How many columns fit, from the left; at least one.
    fn columns_that_fit(&self, width: f64, least: f64) -> usize {
        let mut left = width - self.labels_width(least).min(width * 0.4) + 0.5;
        let mut count = 0;
        for column in 0..self.table.columns.len() {
            left -= self.column_width(column, least);
            if left < 0.0 && count > 0 {
                break;
            }
            count += 1;
        }
        count
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::FrameIndex;
    use crate::words::SmallCell;

    fn totals(is_banded: bool) -> TableBlock {
        let cell = |text: String| SmallCell { text, is_grey: false };
        let row = |label: &str| SmallRow {
            label: label.to_owned(),
            unit: "g".to_owned(),
            cells: (0..7).map(|i| cell(format!("{label} {i}"))).collect(),
        };
        let columns = ["A", "B", "C", "D", "E", "F", "G"];
        let columns = columns.iter().enumerate().map(|(i, c)| ((*c).to_owned(), FrameIndex(i))).collect();
        let table = SmallTable { columns, rows: vec![row("Price"), row("Weight")] };
        TableBlock { table, title: Some("Build"), is_banded }
    }

    #[test]
    fn bands_have_every_column_once_and_the_height_of_all() {
        let (least, mut before) = (10.0, usize::MAX);
        for width in [60.0, 160.0, 260.0, 400.0, 2000.0] {
            let bands = totals(true).bands(width, least);
            let columns: Vec<_> = bands.iter().flat_map(|b| b.table.columns.clone()).collect();
            assert_eq!(columns, totals(true).table.columns, "{width}");
            for row in 0..2 {
                let cells: Vec<_> = bands.iter().flat_map(|b| b.table.rows[row].cells.clone()).collect();
                assert_eq!(cells, totals(true).table.rows[row].cells, "{width}");
            }
            assert!(bands.len() <= before, "{width}");
            before = bands.len();
            let height = HEADING * least + bands.len() as f64 * 3.0 * ROW * least;
            assert!((totals(true).height(least, width) - height).abs() < 1e-9, "{width}");
            assert!(totals(true).least_height(least) <= height + 1e-9);
        }
        assert_eq!(before, 1, "all side by side where there is room");
        assert_eq!(totals(true).bands(60.0, least).len(), 7);
        assert_eq!(totals(false).bands(60.0, least).len(), 1, "columns are left out where there are no bands");
    }
}
