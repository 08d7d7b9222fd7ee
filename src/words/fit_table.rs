//! The tables of what fits: parts and needs across the frames, the change by another fork, the rider's position. The
//! window, the pictures and the exports all show these, so the words are the same everywhere.

use super::contact_points::{
    matched_text, repeated_name, repeated_text, saddle_text, spacers_text, standover_text, stem_text, toe_text,
    upper_headset_text,
};
use super::parts::{answer_text, caution_text, fit_text, met_name, verdict_in_full, verdict_title};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, FrameFindings, FrameFit, Lineup, by_unmet_needs};
use crate::parts::contact_points::{Clearance, Repeated, Works};
use crate::parts::{About, Caution, Fit, Met, Verdict};
use crate::units::{AnyKind, Length, Measured, Quantity, System};
use crate::words::Label;

/// What a cell tells by its mark, never by colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FitMark {
    /// Fits, met, works.
    Yes,
    /// With an extra part or on a condition.
    With,
    /// Unknown, not published, or borderline: grey.
    Open,
    /// Does not fit, not met, does not work.
    No,
    /// Clearly the best of its row.
    Best,
    /// Plain words.
    Plain,
}

impl FitMark {
    /// A sign that stands before the words.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Yes | Self::Best => "●",
            Self::With => "◐",
            Self::Open => "○",
            Self::No => "×",
            Self::Plain => "",
        }
    }

    /// Whether the cell is grey.
    #[must_use]
    pub const fn is_grey(self) -> bool {
        matches!(self, Self::Open)
    }

    fn of(fit: Fit) -> Self {
        match fit {
            Fit::Fits => Self::Yes,
            Fit::FitsWith => Self::With,
            Fit::Borderline | Fit::NotPublished => Self::Open,
            Fit::DoesNotFit => Self::No,
        }
    }

    fn of_met(met: Met) -> Self {
        match met {
            Met::Met => Self::Yes,
            Met::NotPublished | Met::Borderline => Self::Open,
            Met::NotMet => Self::No,
        }
    }
}

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FitCell {
    /// What it says, short.
    pub text: String,
    /// Why, with source and caution.
    pub detail: String,
    /// Its mark.
    pub mark: FitMark,
}

/// A row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FitRow {
    /// What it is about.
    pub label: String,
    /// One a column.
    pub cells: Vec<FitCell>,
}

/// The corner of a table whose frames stand down the side.
pub const FRAME_CORNER: &str = "Frame";

/// A table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FitTable {
    /// What the rows are.
    pub corner: String,
    /// Places of the frames in the line-up, or nothing where columns are not frames.
    pub frames: Vec<FrameIndex>,
    /// Across.
    pub columns: Vec<String>,
    /// Down.
    pub rows: Vec<FitRow>,
}

impl FitTable {
    /// The same rows with `count` columns from `first` on.
    #[must_use]
    pub fn columns_from(&self, first: usize, count: usize) -> Self {
        fn part<T: Clone>(all: &[T], first: usize, count: usize) -> Vec<T> {
            all.iter().skip(first).take(count).cloned().collect()
        }
        let row = |row: &FitRow| FitRow { label: row.label.clone(), cells: part(&row.cells, first, count) };
        Self {
            corner: self.corner.clone(),
            // Where frames stand down the side, all stay.
            frames: if self.corner == FRAME_CORNER { self.frames.clone() } else { part(&self.frames, first, count) },
            columns: part(&self.columns, first, count),
            rows: self.rows.iter().map(row).collect(),
        }
    }
}

pub(super) fn title(frame: &FrameFindings) -> String {
    format!("{} {} {}", frame.letter, frame.name, frame.size_label()).trim_end().to_owned()
}

fn shown(findings: &Findings) -> Vec<FrameIndex> {
    FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown || findings.reference == Some(*i)).collect()
}

/// All frames of the line-up and their titles.
pub(super) fn all_frames(findings: &Findings) -> (Vec<FrameIndex>, Vec<String>) {
    let frames: Vec<FrameIndex> = FrameIndex::all(findings.frames.len()).collect();
    let columns = frames.iter().map(|i| title(&findings.frames[*i])).collect();
    (frames, columns)
}

/// Parts down, all frames of the line-up across.
#[must_use]
pub fn parts_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let (frames, columns) = all_frames(findings);
    let abouts: Vec<(About, String)> =
        findings.fit.first().map_or_else(Vec::new, |f| f.verdicts.iter().map(|v| (v.about, row_label(lineup, v))).collect());
    let rows = abouts
        .iter()
        .enumerate()
        .map(|(place, (_, label))| FitRow {
            label: label.clone(),
            cells: frames
                .iter()
                .filter_map(|i| i.of(&findings.fit)?.verdicts.get(place))
                .map(|v| verdict_cell(lineup.settings.units, v))
                .collect(),
        })
        .collect();
    FitTable { corner: "Part".to_owned(), frames, columns, rows }
}

fn row_label(lineup: &Lineup, verdict: &Verdict) -> String {
    use crate::parts::standards::Wheel;
    match verdict.about {
        About::ForkSteerer => format!("{}: steerer", verdict_title(verdict)),
        About::ForkLength => format!("{}: length", verdict_title(verdict)),
        About::Part(index, end) => {
            let end = match end {
                Some(Wheel::Front) => ", front",
                Some(Wheel::Rear) => ", rear",
                None => "",
            };
            match lineup.settings.parts.parts.get(index) {
                Some(part) if !part.name.is_empty() => format!("{} ({} {}){end}", part.name, part.kind.label(), part.text),
                _ => format!("{}{end}", verdict_title(verdict)),
            }
        }
    }
}

fn verdict_cell(units: System, verdict: &Verdict) -> FitCell {
    let outcome = &verdict.outcome;
    FitCell { text: fit_text(units, outcome), detail: verdict_in_full(units, verdict), mark: FitMark::of(outcome.fit) }
}

/// Frames down, fewest needs that are not met first, needs across.
#[must_use]
pub fn needs_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let frames = by_unmet_needs(&findings.fit);
    let mut columns = vec!["not met".to_owned(), "unknown".to_owned()];
    columns.extend(lineup.settings.needs.iter().map(|n| n.text().to_owned()));
    let count = |n: usize| FitCell { text: n.to_string(), detail: String::new(), mark: FitMark::Plain };
    let rows = frames
        .iter()
        .filter_map(|i| Some((i.of(&findings.frames)?, i.of(&findings.fit)?)))
        .map(|(frame, fit)| {
            let mut cells = vec![count(fit.not_met()), count(fit.open())];
            cells.extend(fit.answers.iter().map(|a| FitCell {
                text: met_name(a).to_owned(),
                detail: answer_text(lineup.settings.units, a),
                mark: FitMark::of_met(a.met),
            }));
            FitRow { label: title(frame), cells }
        })
        .collect();
    FitTable { corner: FRAME_CORNER.to_owned(), frames, columns, rows }
}

/// A number of a change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangeCell {
    /// The number with its ±, without its unit; `None` where it is unknown.
    pub number: Option<String>,
    /// Whether it is grey: unknown, or no clear difference.
    pub is_grey: bool,
}

/// A figure before and after a change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangeRow {
    /// The figure's name.
    pub label: String,
    /// What it measures.
    pub quantity: Quantity,
    /// As published, changed, and the difference.
    pub cells: [ChangeCell; 3],
}

/// Heads of the columns of a change.
pub const CHANGE_COLUMNS: [&str; 3] = ["as published", "changed", "difference"];

/// Figures before and after a change, for one frame. Empty where nothing is changed.
#[must_use]
pub fn change_rows(units: System, findings: &Findings, frame: FrameIndex) -> Vec<ChangeRow> {
    let Some(change) = frame.of(&findings.fit).and_then(|f| f.change.as_ref()) else { return Vec::new() };
    let row = |figure: &crate::parts::ChangedFigure| {
        let quantity = figure.figure.quantity();
        let amount = |value: Option<Measured<AnyKind>>| ChangeCell {
            number: value.map(|v| units.plus_minus(quantity, v)),
            is_grey: value.is_none(),
        };
        let difference = ChangeCell {
            number: figure.difference.map(|d| units.signed_plus_minus(quantity, d)),
            is_grey: !figure.difference.is_some_and(Measured::is_clear),
        };
        ChangeRow {
            label: figure.figure.label().to_owned(),
            quantity,
            cells: [amount(figure.before), amount(figure.after), difference],
        }
    };
    change.figures.iter().map(row).collect()
}

impl ChangeCell {
    /// What it says without a unit, for a table with the unit at the row's name.
    #[must_use]
    pub fn text(&self) -> &str {
        self.number.as_deref().unwrap_or("unknown")
    }

    /// What it says with its unit.
    #[must_use]
    pub fn text_with_unit(&self, units: System, quantity: Quantity) -> String {
        self.number.as_ref().map_or_else(|| "unknown".to_owned(), |number| units.with_unit(quantity, number))
    }
}

/// A cell of plain words, with what stands behind it; empty where nothing does.
pub(super) fn plain(text: impl Into<String>, detail: impl Into<String>) -> FitCell {
    FitCell { text: text.into(), detail: detail.into(), mark: FitMark::Plain }
}

/// A cell that is unknown or within its ±, with the reason.
pub(super) fn open(text: impl Into<String>, detail: impl Into<String>) -> FitCell {
    FitCell { text: text.into(), detail: detail.into(), mark: FitMark::Open }
}

/// A cell that cannot be told: what the rider has to enter, or a figure of the frame, is missing.
fn unknown_cell() -> FitCell {
    open("unknown", "Needs the rider’s entries and the frame’s figures.")
}

/// Stem, spacers, standover, toe overlap and saddle down, the shown frames across.
#[must_use]
pub fn contact_points_table(units: System, findings: &Findings) -> FitTable {
    let frames = shown(findings);
    let columns = frames.iter().map(|i| title(&findings.frames[*i])).collect();
    let row = |label: &str, cell: &dyn Fn(&FrameFit) -> FitCell| FitRow {
        label: label.to_owned(),
        cells: frames.iter().filter_map(|i| i.of(&findings.fit)).map(cell).collect(),
    };
    let amount = |length: Measured<Length>| length.text(units);
    let judged = |is_enough: Option<bool>| match is_enough {
        Some(true) => FitMark::Yes,
        Some(false) => FitMark::No,
        None => FitMark::Open,
    };
    let repeated = |then: &dyn Fn(&Repeated) -> String, fit: &FrameFit| match &fit.contact_points.repeated {
        Some(r) => FitCell {
            text: then(r),
            detail: format!("{} {}", repeated_text(units, r), caution_text(r.caution)),
            mark: match (r.works, r.is_sure) {
                (_, false) => FitMark::Open,
                (Works::No, true) => FitMark::No,
                (Works::AsIt, true) => FitMark::Yes,
                (Works::WithAnotherAngle, true) => FitMark::With,
            },
        },
        None if fit.contact_points.hands.is_some() => plain("as entered", ""),
        None => unknown_cell(),
    };
    let clearance = |c: Option<&Clearance>, text: fn(System, &Clearance) -> String| match c {
        Some(c) => FitCell { text: amount(c.gap), detail: text(units, c), mark: judged(c.is_enough) },
        None => unknown_cell(),
    };
    let is_to_mudguard = findings.fit.iter().any(|f| f.contact_points.toe.as_ref().is_some_and(|t| t.is_to_mudguard));
    let toe = if is_to_mudguard {
        "Toe-overlap clearance, pedal axle to mudguard"
    } else {
        "Toe-overlap clearance, pedal axle to tyre"
    };
    let rows = vec![
        row("Same hand position", &|f| repeated(&|r| repeated_name(r).to_owned(), f)),
        row("Stem", &|f| repeated(&|r| stem_text(units, r), f)),
        row("Spacers", &|f| repeated(&|r| spacers_text(units, r), f)),
        row("Upper headset stack height", &|f| match &f.contact_points.upper_headset {
            Some(headset) => plain(amount(headset.stack_height), upper_headset_text(headset)),
            None => unknown_cell(),
        }),
        row("Standover clearance", &|f| clearance(f.contact_points.standover.as_ref(), standover_text)),
        row(toe, &|f| match &f.contact_points.toe {
            Some(toe) => FitCell {
                text: amount(toe.from_pedal),
                detail: format!("{} {}", toe_text(units, toe), caution_text(toe.caution)),
                mark: judged(toe.is_enough),
            },
            None => unknown_cell(),
        }),
        row("Saddle setback from post", &|f| clearance(f.contact_points.layback.as_ref(), saddle_text)),
        FitRow { label: "Closest size".to_owned(), cells: frames.iter().map(|i| closest_size(units, findings, *i)).collect() },
    ];
    FitTable { corner: "Contact points".to_owned(), frames, columns, rows }
}

fn closest_size(units: System, findings: &Findings, frame: FrameIndex) -> FitCell {
    match frame.of(&findings.fit).and_then(|f| f.contact_points.closest_size.as_ref()) {
        Some(m) => FitCell {
            text: m.label.clone(),
            detail: matched_text(units, m),
            mark: if m.is_clear { FitMark::Plain } else { FitMark::Open },
        },
        None if findings.reference == Some(frame) => plain("as chosen", ""),
        None => unknown_cell(),
    }
}

/// The cautions of the parts table, each once.
#[must_use]
pub fn parts_cautions(findings: &Findings) -> Vec<&'static str> {
    each_once(findings.fit.iter().flat_map(|f| f.verdicts.iter().filter_map(|v| v.outcome.caution)))
}

/// The cautions of the position table, each once.
#[must_use]
pub fn contact_points_cautions(findings: &Findings) -> Vec<&'static str> {
    let repeated = findings.fit.iter().filter_map(|f| f.contact_points.repeated.as_ref().map(|r| r.caution));
    each_once(repeated.chain(findings.fit.iter().filter_map(|f| f.contact_points.toe.as_ref().map(|t| t.caution))))
}

fn each_once(cautions: impl Iterator<Item = Caution>) -> Vec<&'static str> {
    let mut found: Vec<Caution> = cautions.collect();
    found.sort_unstable();
    found.dedup();
    found.into_iter().map(caution_text).collect()
}

impl FitTable {
    /// As tab-separated text.
    #[must_use]
    pub fn as_text(&self) -> String {
        let mut out = self.corner.clone();
        for column in &self.columns {
            out.push('\t');
            out.push_str(column);
        }
        for row in &self.rows {
            out.push('\n');
            out.push_str(&row.label);
            for cell in &row.cells {
                out.push('\t');
                out.push_str(&cell.text);
            }
        }
        out
    }
}
