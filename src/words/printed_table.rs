//! One frameset as its maker's table: sizes across, printable figures down, each cell with what is printed, what the
//! adjustment makes of it, and a mark.
//!
//! What the window edits and what Trust lists; nothing here changes anything.

use crate::frameset::{Figure, Frameset};
use crate::geometry::{Adjusted, AdjustedSize};
use crate::units::{System, decimals_for, expanded, fixed};

use super::comparison_table::{Mark, NOT_DETERMINED};

/// A frameset's table.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedTable {
    /// Labels of the sizes.
    pub sizes: Vec<String>,
    /// All figures that a file may print, in the order of tables; then those only computed.
    pub rows: Vec<PrintedRow>,
}

/// One figure in all sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedRow {
    /// Which.
    pub figure: Figure,
    /// Whether any size prints it.
    pub is_printed: bool,
    /// One a size.
    pub cells: Vec<PrintedCell>,
}

/// One figure of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedCell {
    /// As printed, with the decimals that it needs and no unit; empty where nothing is.
    pub printed: String,
    /// The adjusted value with its ±, or that nothing determines it.
    pub adjusted: String,
    /// What its looks tell.
    pub mark: Mark,
    /// Why it was set aside.
    pub set_aside: Option<String>,
    /// In words, for a tooltip: the mark, what it leans on, what the others expect.
    pub note: String,
}

/// The table of a frameset.
#[must_use]
pub fn printed_table(frameset: &Frameset, adjusted: &Adjusted, units: System) -> PrintedTable {
    let rows = Figure::ALL
        .iter()
        .map(|figure| PrintedRow {
            figure: *figure,
            is_printed: frameset.sizes.iter().any(|s| s.figures.contains_key(figure)),
            cells: frameset
                .sizes
                .iter()
                .zip(&adjusted.sizes)
                .map(|(printed, size)| {
                    let reason = printed.set_aside.get(figure).cloned();
                    cell(size, *figure, printed.figures.get(figure).copied(), reason, units)
                })
                .collect(),
        })
        .collect();
    PrintedTable { sizes: frameset.sizes.iter().map(|s| s.label.clone()).collect(), rows }
}

fn cell(size: &AdjustedSize, figure: Figure, printed: Option<f64>, set_aside: Option<String>, units: System) -> PrintedCell {
    let value = size.value(figure);
    let quantity = figure.quantity();
    let suspect = size.suspect(figure);
    let mark = Mark::of(size, figure);
    let mut note = match &set_aside {
        Some(reason) => format!("Set aside: {reason}. "),
        None => String::new(),
    };
    note.push_str(mark.meaning());
    if !value.is_missing && !value.leans_on.is_empty() {
        let leans: Vec<&str> = value.leans_on.iter().map(crate::geometry::Assumption::label).collect();
        note.push_str(&format!(": {}", leans.join(", ")));
    }
    if let Some(suspect) = suspect {
        note.push_str(&format!(". {}", super::trust::suspect_sentence(suspect, units)));
    }
    let note = format!("{}.", crate::units::capitalised(note.trim_end_matches('.')));
    PrintedCell {
        printed: printed.map(shortest).unwrap_or_default(),
        adjusted: if value.is_missing { NOT_DETERMINED.to_owned() } else { units.plus_minus(quantity, value.measured()) },
        mark,
        set_aside,
        note,
    }
}

/// A printed value as a file has it: no decimals that say nothing. Always metric, since files are.
#[must_use]
pub fn shortest(value: f64) -> String {
    let text = fixed(value, 3);
    let trimmed = text.trim_end_matches('0').trim_end_matches('.');
    if trimmed.is_empty() { "0".to_owned() } else { trimmed.to_owned() }
}

/// "± 0.6 mm" of a value, on its own.
#[must_use]
pub fn plus_minus_alone(figure: Figure, u: f64, units: System) -> String {
    let expanded = expanded(u) * units.factor(figure.quantity());
    units.with_unit(figure.quantity(), &format!("±\u{2009}{}", fixed(expanded, decimals_for(expanded))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    #[test]
    fn every_printed_figure_stands_in_its_cell() {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let table = printed_table(&frameset, &adjust(&frameset), System::Metric);
        assert_eq!(table.sizes, ["XS", "S", "M", "L", "XL"]);
        let row = |figure| table.rows.iter().find(|r| r.figure == figure).unwrap();
        assert_eq!(row(Figure::HeadAngle).cells[3].printed, "71.5");
        let wheelbase = &row(Figure::Wheelbase).cells[3];
        assert_eq!((wheelbase.printed.as_str(), wheelbase.mark), ("1071", Mark::Doubted));
        assert!(wheelbase.note.contains("expected from the others"), "{}", wheelbase.note);
        assert!(!row(Figure::Trail).is_printed && row(Figure::Trail).cells[0].printed.is_empty());
    }

    #[test]
    fn decimals_that_say_nothing_are_left_out() {
        assert_eq!([610.0, 71.5, 0.0, -12.25].map(shortest), ["610", "71.5", "0", "−12.25"]);
    }
}
