//! The table of the room: its figures down, frames across, each frame but the reference with its difference and its ±.

use super::comparison_table::{Cell, Column, Mark, Subject, Table, TableRow};
use crate::frameset::FrameIndex;
use crate::lineup::{BagSpaceFigure, Findings};
use crate::units::{AnyKind, Measured, System};

/// The comparison of the room of all shown frames (and the reference). Figures that no frame has are left out.
#[must_use]
pub fn bag_space_table(findings: &Findings, units: System) -> Table {
    let columns = super::comparison_table::columns(findings);
    let shown = |figure: BagSpaceFigure| columns.iter().any(|c| figure.of(&findings.frames[c.frame]).is_some());
    let rows =
        BagSpaceFigure::ALL.into_iter().filter(|f| shown(*f)).map(|figure| row(findings, &columns, figure, units)).collect();
    Table { columns, rows }
}

/// One figure's row.
pub(super) fn row(findings: &Findings, columns: &[Column], figure: BagSpaceFigure, units: System) -> TableRow {
    TableRow {
        subject: Subject::BagSpace(figure),
        label: super::bag_figure_label(figure),
        unit: bag_space_unit(figure, units),
        cells: columns.iter().map(|c| cell(findings, c, figure, units)).collect(),
    }
}

/// A room's figure `value ± 2u` as people read it, without its unit.
#[must_use]
pub fn bag_space_text(figure: BagSpaceFigure, measured: Measured<AnyKind>, units: System) -> String {
    units.plus_minus(figure.quantity(), measured)
}

/// A difference `+value ± 2u` as people read it, without its unit.
#[must_use]
pub fn bag_space_difference_text(figure: BagSpaceFigure, difference: Measured<AnyKind>, units: System) -> String {
    units.signed_plus_minus(figure.quantity(), difference)
}

/// The unit of a room's figure as it follows a number.
#[must_use]
pub fn bag_space_unit(figure: BagSpaceFigure, units: System) -> &'static str {
    units.unit(figure.quantity())
}

pub(super) fn cell(findings: &Findings, column: &Column, figure: BagSpaceFigure, units: System) -> Cell {
    let absent = Cell { text: super::comparison_table::UNKNOWN.to_owned(), value: None, u: None, mark: Mark::Absent };
    if column.is_difference {
        return findings.bag_space_difference(column.frame, figure).map_or(Cell { text: "–".to_owned(), ..absent }, |d| Cell {
            text: bag_space_difference_text(figure, d, units),
            value: Some(d.value),
            u: Some(d.u),
            mark: if d.is_clear() { Mark::ClearDifference } else { Mark::NoClearDifference },
        });
    }
    figure.of(&findings.frames[column.frame]).map_or(absent, |m| Cell {
        text: bag_space_text(figure, m, units),
        value: Some(m.value),
        u: Some(m.u),
        // Junctions that are assumed are what a room leans on wherever a measurement of one would help.
        mark: if is_partly_assumed(findings, column.frame) { Mark::PartlyAssumed } else { Mark::Computed },
    })
}

fn is_partly_assumed(findings: &Findings, frame: FrameIndex) -> bool {
    findings.frames[frame].luggage.bag_space.as_ref().is_ok_and(|r| !r.helps.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{Tube, read_frameset};
    use crate::lineup::Lineup;

    fn findings() -> Findings {
        let mut lineup = Lineup::default();
        for name in ["marrowby-drift", "quern-halter"] {
            let path = format!("{}/sample-frames/{name}.frame.ron", env!("CARGO_MANIFEST_DIR"));
            lineup.add(read_frameset(&std::fs::read(path).unwrap()).unwrap(), None);
        }
        Findings::of(&lineup)
    }

    #[test]
    fn the_table_has_every_side_corner_and_edge() {
        let findings = findings();
        let table = bag_space_table(&findings, System::Metric);
        // Two frames, the second with its difference; no top tube meets a down tube, and a full bag has no cut line.
        assert_eq!(table.columns.len(), 3);
        let labels: Vec<&str> = table.rows.iter().map(|r| r.label).collect();
        assert_eq!(labels.len(), BagSpaceFigure::ALL.len() - 2, "{labels:?}");
        let value = |figure: BagSpaceFigure, column: usize| {
            let row = table.rows.iter().find(|r| r.subject == Subject::BagSpace(figure)).unwrap();
            row.cells[column].value.unwrap()
        };
        let corners = [
            (Tube::SeatTube, Tube::TopTube),
            (Tube::TopTube, Tube::HeadTube),
            (Tube::HeadTube, Tube::DownTube),
            (Tube::DownTube, Tube::SeatTube),
        ];
        for column in [0, 1] {
            let sum: f64 = corners.into_iter().map(|(a, b)| value(BagSpaceFigure::Angle(a, b), column)).sum();
            assert!((sum - 360.0).abs() < 1e-9, "a quadrilateral's corners: {sum}");
        }
        for row in &table.rows {
            let [own, other, difference] = &row.cells[..] else { panic!("{}", row.label) };
            let (own, other) = (own.value.unwrap(), other.value.unwrap());
            assert!((other - own - difference.value.unwrap()).abs() < 1e-9, "{}", row.label);
            let is_clear = Measured::<AnyKind>::new(difference.value.unwrap(), difference.u.unwrap()).is_clear();
            assert_eq!(difference.mark, if is_clear { Mark::ClearDifference } else { Mark::NoClearDifference }, "{}", row.label);
        }
    }

    #[test]
    fn inches_are_for_lengths_and_areas() {
        let findings = findings();
        let table = bag_space_table(&findings, System::Imperial);
        let unit = |figure: BagSpaceFigure| table.rows.iter().find(|r| r.subject == Subject::BagSpace(figure)).unwrap().unit;
        assert_eq!(unit(BagSpaceFigure::Circle), "in");
        assert_eq!(unit(BagSpaceFigure::Area), "in²");
        assert_eq!(unit(BagSpaceFigure::Litres), "l");
        assert_eq!(unit(BagSpaceFigure::Angle(Tube::DownTube, Tube::SeatTube)), "°");
    }
}
