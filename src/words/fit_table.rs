//! The tables of what fits: parts and needs across the frames, the change by another fork, the rider's position. The
//! window, the pictures and the exports all show these, so the words are the same everywhere.

use crate::lineup::{Findings, FrameFindings, FrameFit, Lineup, by_unmet_needs};
use crate::parts::position::Works;
use crate::parts::{About, Caution, Fit, Met, Verdict};
use crate::units::{AnyKind, Length, Measured, System, fixed};

/// What a cell tells by its mark, never by colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FitMark {
    /// Fits, met, works.
    Yes,
    /// With something.
    With,
    /// Not stated, or within its ±: grey.
    Open,
    /// Does not fit, unmet, does not work.
    No,
    /// Plain words.
    Plain,
}

impl FitMark {
    /// A sign that stands before the words.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Yes => "●",
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
            Fit::NotStated => Self::Open,
            Fit::DoesNotFit => Self::No,
        }
    }

    fn of_met(met: Met) -> Self {
        match met {
            Met::Met => Self::Yes,
            Met::NotStated | Met::WithinPlusMinus => Self::Open,
            Met::Unmet => Self::No,
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

/// A table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FitTable {
    /// What the rows are.
    pub corner: String,
    /// Places of the frames in the line-up, or nothing where columns are not frames.
    pub frames: Vec<usize>,
    /// Across.
    pub columns: Vec<String>,
    /// Down.
    pub rows: Vec<FitRow>,
}

fn title(frame: &FrameFindings) -> String {
    format!("{} {} {}", frame.letter, frame.name, frame.size_label()).trim_end().to_owned()
}

fn shown(findings: &Findings) -> Vec<usize> {
    (0..findings.frames.len()).filter(|i| findings.frames[*i].shown || findings.reference == Some(*i)).collect()
}

/// Reason, numbers' source and caution of a verdict in full.
#[must_use]
pub fn verdict_in_full(verdict: &Verdict) -> String {
    let outcome = &verdict.outcome;
    let with = outcome.with.as_ref().map(|w| format!(" With {w}.")).unwrap_or_default();
    let caution = outcome.caution.map(|c| format!(" {}", c.words())).unwrap_or_default();
    format!("{}{with} Source: {}.{caution}", outcome.reason, outcome.source.words())
}

/// Parts down, all frames of the line-up across.
#[must_use]
pub fn parts_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let frames: Vec<usize> = (0..findings.frames.len()).collect();
    let columns = frames.iter().map(|i| title(&findings.frames[*i])).collect();
    let abouts: Vec<(About, String)> =
        findings.fit.first().map_or_else(Vec::new, |f| f.verdicts.iter().map(|v| (v.about, row_label(lineup, v))).collect());
    let rows = abouts
        .iter()
        .enumerate()
        .map(|(place, (_, label))| FitRow {
            label: label.clone(),
            cells: frames.iter().filter_map(|i| findings.fit.get(*i)?.verdicts.get(place)).map(verdict_cell).collect(),
        })
        .collect();
    FitTable { corner: "Part".to_owned(), frames, columns, rows }
}

fn row_label(lineup: &Lineup, verdict: &Verdict) -> String {
    use crate::parts::standards::Wheel;
    match verdict.about {
        About::ForkSteerer => format!("{}: steerer", verdict.title),
        About::ForkLength => format!("{}: length", verdict.title),
        About::Part(index, end) => {
            let end = match end {
                Some(Wheel::Front) => ", front",
                Some(Wheel::Rear) => ", rear",
                None => "",
            };
            match lineup.settings.parts.parts.get(index) {
                Some(part) if !part.name.is_empty() => format!("{} ({} {}){end}", part.name, part.kind.label(), part.text),
                _ => format!("{}{end}", verdict.title),
            }
        }
    }
}

fn verdict_cell(verdict: &Verdict) -> FitCell {
    let outcome = &verdict.outcome;
    let text = match &outcome.with {
        Some(with) => format!("{} {with}", outcome.fit.label()),
        None => outcome.fit.label().to_owned(),
    };
    FitCell { text, detail: verdict_in_full(verdict), mark: FitMark::of(outcome.fit) }
}

/// Frames down, fewest unmet needs first, needs across.
#[must_use]
pub fn needs_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let frames = by_unmet_needs(&findings.fit);
    let mut columns = vec!["unmet".to_owned(), "open".to_owned()];
    columns.extend(lineup.settings.needs.iter().map(|n| n.text().to_owned()));
    let count = |n: usize| FitCell { text: n.to_string(), detail: String::new(), mark: FitMark::Plain };
    let rows = frames
        .iter()
        .filter_map(|i| Some((findings.frames.get(*i)?, findings.fit.get(*i)?)))
        .map(|(frame, fit)| {
            let mut cells = vec![count(fit.unmet()), count(fit.open())];
            cells.extend(fit.answers.iter().map(|a| FitCell {
                text: a.met.label().to_owned(),
                detail: a.reason.clone(),
                mark: FitMark::of_met(a.met),
            }));
            FitRow { label: title(frame), cells }
        })
        .collect();
    FitTable { corner: "Frame".to_owned(), frames, columns, rows }
}

/// Figures down, as drawn, changed and the change across, for one frame. Empty where nothing is changed.
#[must_use]
pub fn change_table(findings: &Findings, frame: usize) -> FitTable {
    let mut table = FitTable {
        corner: "Figure".to_owned(),
        frames: vec![frame],
        columns: vec!["as drawn".to_owned(), "changed".to_owned(), "change".to_owned()],
        rows: Vec::new(),
    };
    let Some(change) = findings.fit.get(frame).and_then(|f| f.change.as_ref()) else { return table };
    for figure in &change.figures {
        let quantity = figure.figure.quantity();
        let amount = |value: Option<Measured<AnyKind>>| match value {
            Some(value) => plain(&System::Metric.text(quantity, value)),
            None => open("not determined"),
        };
        let difference = match figure.difference {
            Some(d) => FitCell {
                text: System::Metric.signed_text(quantity, d),
                detail: String::new(),
                mark: if d.is_clear() { FitMark::Plain } else { FitMark::Open },
            },
            None => open("–"),
        };
        table.rows.push(FitRow {
            label: figure.figure.label().to_owned(),
            cells: vec![amount(figure.before), amount(figure.after), difference],
        });
    }
    table
}

fn plain(text: &str) -> FitCell {
    FitCell { text: text.to_owned(), detail: String::new(), mark: FitMark::Plain }
}

fn open(text: &str) -> FitCell {
    FitCell { text: text.to_owned(), detail: String::new(), mark: FitMark::Open }
}

/// Stem, spacers, standover, toe and saddle down, the shown frames across.
#[must_use]
pub fn position_table(findings: &Findings) -> FitTable {
    let frames = shown(findings);
    let columns = frames.iter().map(|i| title(&findings.frames[*i])).collect();
    let row = |label: &str, cell: &dyn Fn(&FrameFit) -> FitCell| FitRow {
        label: label.to_owned(),
        cells: frames.iter().filter_map(|i| findings.fit.get(*i)).map(cell).collect(),
    };
    let amount = |length: Measured<Length>| length.text(System::Metric);
    let judged = |is_enough: Option<bool>| match is_enough {
        Some(true) => FitMark::Yes,
        Some(false) => FitMark::No,
        None => FitMark::Open,
    };
    let repeated = |then: &dyn Fn(&crate::parts::position::Repeated) -> String, fit: &FrameFit| match &fit.position.repeated {
        Some(r) => FitCell {
            text: then(r),
            detail: format!("{} {}", r.sentence, r.caution.words()),
            mark: match (r.works, r.is_sure) {
                (_, false) => FitMark::Open,
                (Works::No, true) => FitMark::No,
                (Works::AsIt, true) => FitMark::Yes,
                (Works::WithAnotherAngle, true) => FitMark::With,
            },
        },
        None if fit.position.hands.is_some() => plain("as entered"),
        None => open("–"),
    };
    let clearance = |c: Option<&crate::parts::position::Clearance>| match c {
        Some(c) => FitCell { text: amount(c.gap), detail: c.sentence.clone(), mark: judged(c.is_enough) },
        None => open("–"),
    };
    let to_mudguard = findings.fit.iter().any(|f| f.position.toe.as_ref().is_some_and(|t| t.is_to_mudguard));
    let rows = vec![
        row("Same hands", &|f| {
            repeated(
                &|r| {
                    let words = match r.works {
                        Works::AsIt => "yes",
                        Works::WithAnotherAngle => "with another stem angle",
                        Works::No => "no",
                    };
                    format!("{words}{}", if r.is_sure { "" } else { ", within its ±" })
                },
                f,
            )
        }),
        row("Stem", &|f| repeated(&|r| format!("{} at {}°", amount(r.stem), fixed(r.stem_angle, 0)), f)),
        row("Spacers", &|f| repeated(&|r| amount(r.spacers), f)),
        row("Over the top tube", &|f| clearance(f.position.standover.as_ref())),
        row(if to_mudguard { "Pedal to front mudguard" } else { "Pedal to front tyre" }, &|f| match &f.position.toe {
            Some(toe) => FitCell {
                text: amount(toe.from_pedal),
                detail: format!("{} {}", toe.sentence, toe.caution.words()),
                mark: judged(toe.is_enough),
            },
            None => open("–"),
        }),
        row("Saddle behind the post", &|f| clearance(f.position.layback.as_ref())),
        FitRow { label: "Nearest size".to_owned(), cells: frames.iter().map(|i| nearest_size(findings, *i)).collect() },
    ];
    FitTable { corner: "Rider".to_owned(), frames, columns, rows }
}

fn nearest_size(findings: &Findings, frame: usize) -> FitCell {
    match findings.fit.get(frame).and_then(|f| f.position.matched.as_ref()) {
        Some(m) => FitCell {
            text: m.label.clone(),
            detail: m.sentence.clone(),
            mark: if m.is_clear { FitMark::Plain } else { FitMark::Open },
        },
        None if findings.reference == Some(frame) => plain("as chosen"),
        None => open("–"),
    }
}

/// The cautions of the parts table, each once.
#[must_use]
pub fn parts_cautions(findings: &Findings) -> Vec<&'static str> {
    each_once(findings.fit.iter().flat_map(|f| f.verdicts.iter().filter_map(|v| v.outcome.caution)))
}

/// The cautions of the position table, each once.
#[must_use]
pub fn position_cautions(findings: &Findings) -> Vec<&'static str> {
    let repeated = findings.fit.iter().filter_map(|f| f.position.repeated.as_ref().map(|r| r.caution));
    each_once(repeated.chain(findings.fit.iter().filter_map(|f| f.position.toe.as_ref().map(|t| t.caution))))
}

fn each_once(cautions: impl Iterator<Item = Caution>) -> Vec<&'static str> {
    let mut found: Vec<Caution> = cautions.collect();
    found.sort_unstable();
    found.dedup();
    found.into_iter().map(Caution::words).collect()
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
