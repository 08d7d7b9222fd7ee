//! The overview and the places of figures among the line-up's frames, in the JSON of a frame.

use std::collections::BTreeMap;

use serde::Serialize;

use super::numbers::rounded;
use spandrel::frameset::{Figure, FrameIndex};
use spandrel::lineup::{Findings, Lineup, Overview, OverviewCell, OverviewLine, OverviewValue};
use spandrel::words::{FitTable, overview_table};

/// A frame among the others.
#[derive(Serialize)]
pub(super) struct AmongOthers {
    /// `null` for a frame that is not in the overview.
    overview: Option<Vec<CellEntry>>,
    placing: BTreeMap<&'static str, PlacingEntry>,
}

#[derive(Serialize)]
struct CellEntry {
    row: &'static str,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    u: Option<f64>,
    best: bool,
    limits: Option<&'static str>,
}

#[derive(Serialize)]
struct PlacingEntry {
    above: usize,
    below: usize,
    others: usize,
}

/// The overview of a line-up, found once for all its frames.
pub(super) struct OverviewColumns<'a> {
    findings: &'a Findings,
    overview: Overview,
    table: FitTable,
}

impl<'a> OverviewColumns<'a> {
    pub(super) fn of(lineup: &Lineup, findings: &'a Findings) -> Self {
        Self { findings, overview: findings.overview(lineup), table: overview_table(lineup, findings) }
    }

    /// What is written of one frame.
    pub(super) fn of_frame(&self, frame: FrameIndex) -> AmongOthers {
        let column = self.overview.frames.iter().position(|shown| *shown == frame);
        let cells = |column: usize| {
            let said = self.table.rows.iter().filter_map(move |row| row.cells.get(column));
            let lines = self.overview.lines.iter().filter_map(move |line| Some((line, line.cells.get(column)?)));
            lines.zip(said).map(|((line, cell), said)| CellEntry::of(line, cell, &said.text)).collect()
        };
        let placing = Figure::ALL.iter().filter_map(|figure| {
            let placing = self.findings.placing(frame, *figure)?;
            Some((figure.key(), PlacingEntry { above: placing.above, below: placing.below, others: placing.others }))
        });
        AmongOthers { overview: column.map(cells), placing: placing.collect() }
    }
}

impl CellEntry {
    fn of(line: &OverviewLine, cell: &OverviewCell, text: &str) -> Self {
        let (value, u) = match cell.value {
            OverviewValue::Measured(measured) => (Some(measured.value), Some(measured.u)),
            OverviewValue::Tyre(width_mm) => (Some(width_mm), None),
            OverviewValue::Count(count) => (Some(count as f64), None),
            OverviewValue::Needs { met, .. } => (Some(met as f64), None),
            OverviewValue::Reference | OverviewValue::Price(_) | OverviewValue::Unknown => (None, None),
        };
        Self {
            row: line.row.key(),
            text: text.to_owned(),
            value: value.map(rounded),
            u: u.map(rounded),
            best: cell.is_best,
            limits: cell.limits.map(spandrel::parts::Met::key),
        }
    }
}
