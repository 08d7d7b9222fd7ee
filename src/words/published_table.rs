//! One frameset as its maker's table: sizes across, figures down, each cell with what is published, the best estimate,
//! and a mark.
//!
//! What the window edits and what Check lists; nothing here changes anything.

use crate::frameset::{Figure, FigureUse, Frameset, Size};
use crate::geometry::{Adjusted, AdjustedSize};
use crate::units::{System, capitalised};

use super::assumptions::partly_assumed;
use super::comparison_table::{Mark, UNKNOWN};
use super::decisions::{decision_texts, measured_text};
use super::doubts::doubt_text;
use super::phrases::published_value;

/// A frameset's table.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedTable {
    /// Labels of the sizes.
    pub sizes: Vec<String>,
    /// All figures that a file may print, in the order of tables; then those only computed.
    pub rows: Vec<PublishedRow>,
}

/// One figure in all sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedRow {
    /// Which.
    pub figure: Figure,
    /// Its unit in the chosen units: cells are plain numbers.
    pub unit: &'static str,
    /// Whether any size prints it.
    pub is_published: bool,
    /// One a size.
    pub cells: Vec<PublishedCell>,
}

/// One figure of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedCell {
    /// As published, with the decimals that it needs and no unit; empty where nothing is.
    pub printed: String,
    /// Best estimate with its ±, or that it is unknown.
    pub adjusted: String,
    /// What its looks tell.
    pub mark: Mark,
    /// How the published figure is used; `None` where nothing is published.
    pub figure_use: Option<FigureUse>,
    /// What the user measured, with its ± and unit.
    pub measured: Option<String>,
    /// In words, for a tooltip: the mark, what is assumed in it, what the others give.
    pub note: String,
}

/// The table of a frameset.
#[must_use]
pub fn published_table(frameset: &Frameset, adjusted: &Adjusted, units: System) -> PublishedTable {
    let rows = Figure::ALL
        .iter()
        .map(|figure| PublishedRow {
            figure: *figure,
            unit: units.unit(figure.quantity()),
            is_published: frameset.sizes.iter().any(|s| s.figures.contains_key(figure)),
            cells: frameset
                .sizes
                .iter()
                .zip(&adjusted.sizes)
                .map(|(published, size)| cell(published, size, *figure, units))
                .collect(),
        })
        .collect();
    PublishedTable { sizes: frameset.sizes.iter().map(|s| s.label.clone()).collect(), rows }
}

fn cell(published: &Size, size: &AdjustedSize, figure: Figure, units: System) -> PublishedCell {
    let value = size.value(figure);
    let quantity = figure.quantity();
    let mark = Mark::of(size, figure);
    let figure_use = published.figure_use(figure);
    let measured = published.measured.get(&figure).map(|m| measured_text(figure, *m, units));
    let mut notes = decision_texts(published, figure, units);
    match mark {
        Mark::PartlyAssumed if !value.assumed.is_empty() => {
            notes.push(format!("{}.", capitalised(&partly_assumed(value.assumed))));
        }
        // What the user decided, or what is doubtful, says more.
        Mark::Published | Mark::Computed if !notes.is_empty() => {}
        Mark::Doubtful => {}
        _ => notes.push(format!("{}.", capitalised(mark.meaning()))),
    }
    if let Some(doubt) = size.doubt(figure) {
        notes.push(doubt_text(doubt, units));
    }
    PublishedCell {
        printed: published.figures.get(&figure).map(|p| published_value(figure, *p, units)).unwrap_or_default(),
        adjusted: if value.is_missing { UNKNOWN.to_owned() } else { units.plus_minus(quantity, value.measured()) },
        mark,
        figure_use,
        measured,
        note: notes.join(" "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    #[test]
    fn every_printed_figure_stands_in_its_cell() {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let table = published_table(&frameset, &adjust(&frameset), System::Metric);
        assert_eq!(table.sizes, ["XS", "S", "M", "L", "XL"]);
        let row = |figure| table.rows.iter().find(|r| r.figure == figure).unwrap();
        assert_eq!((row(Figure::HeadAngle).cells[3].printed.as_str(), row(Figure::HeadAngle).unit), ("71.5", "°"));
        let wheelbase = &row(Figure::Wheelbase).cells[3];
        assert_eq!((wheelbase.printed.as_str(), wheelbase.mark), ("1071", Mark::Doubtful));
        assert!(wheelbase.note.contains("the other figures give"), "{}", wheelbase.note);
        assert!(!row(Figure::Trail).is_published && row(Figure::Trail).cells[0].printed.is_empty());
    }
}
