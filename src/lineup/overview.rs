//! The overview: what decides between the shown frames, a column a frame and a row a measure; which value of a row is
//! clearly best, and which keep the user's limits.
//!
//! Facts only; `words` turns them into a table. Invariant: a value is best only where its difference from every other known
//! one is clear.

use super::bag_space_findings::BagSpaceFigure;
use super::document::Lineup;
use super::findings::Findings;
use super::measures::bottles;
use super::overview_settings::{Better, OverviewRow};
use crate::frameset::{FrameIndex, Part, TyreSize};
use crate::money::Money;
use crate::parts::{Met, Need};
use crate::units::{AnyKind, Measured};

/// Bead seat diameter of a wheel where the reference names none, mm: ISO 5775-1, the commonest of today's.
const USUAL_BEAD_MM: f64 = 622.0;

/// What a cell shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OverviewValue {
    /// It is what the others are compared with.
    Reference,
    /// A measured value: mm, g or litres.
    Measured(Measured<AnyKind>),
    /// A price.
    Price(Money),
    /// How many needs are met, unknown or borderline, and not met.
    Needs {
        /// Met.
        met: usize,
        /// Unknown or borderline.
        open: usize,
        /// Not met.
        not_met: usize,
    },
    /// A count.
    Count(usize),
    /// Width of a tyre, mm.
    Tyre(f64),
    /// Not known.
    Unknown,
}

/// A cell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OverviewCell {
    /// What it shows.
    pub value: OverviewValue,
    /// Whether it is clearly the best of its row.
    pub is_best: bool,
    /// Whether it keeps the user's limits; `None` where there are none.
    pub limits: Option<Met>,
}

/// A row with its cells.
#[derive(Clone, Debug, PartialEq)]
pub struct OverviewLine {
    /// Which row.
    pub row: OverviewRow,
    /// One a frame of the overview.
    pub cells: Vec<OverviewCell>,
    /// Places of the needs that limit it.
    pub needs: Vec<usize>,
}

/// The overview of the shown frames; of very many, the reference and the first others.
#[derive(Clone, Debug, PartialEq)]
pub struct Overview {
    /// Places of its frames.
    pub frames: Vec<FrameIndex>,
    /// Its rows.
    pub lines: Vec<OverviewLine>,
    /// The wheel that the widest tyre is for, as its bead seat diameter, mm.
    pub bead_mm: f64,
}

impl Findings {
    /// The overview of the shown frames.
    #[must_use]
    pub fn overview(&self, lineup: &Lineup) -> Overview {
        let frames = self.overlaid();
        let bead_mm = self.overview_bead_mm();
        let lines = lineup.settings.overview.rows().map(|row| self.overview_line(lineup, row, &frames, bead_mm)).collect();
        Overview { frames, lines, bead_mm }
    }

    /// The reference's wheel, by the tyre that it was drawn with or the first that it takes.
    #[must_use]
    pub fn overview_bead_mm(&self) -> f64 {
        let reference = self.reference_frame().and_then(|frame| frame.frameset.tyre).map(TyreSize::bead_seat_mm);
        let clearances = self.reference.and_then(|r| r.of(&self.fit)?.statements.widest_tyre.is());
        reference.or_else(|| clearances?.0.first().map(|room| room.bead_seat_mm)).unwrap_or(USUAL_BEAD_MM)
    }

    fn overview_line(&self, lineup: &Lineup, row: OverviewRow, frames: &[FrameIndex], bead_mm: f64) -> OverviewLine {
        let limited = |(_, need): &(usize, &Need)| need.limit().is_some_and(|limit| row.is_limited_by(limit.of, bead_mm));
        let needs: Vec<usize> = lineup.settings.needs.iter().enumerate().filter(limited).map(|(place, _)| place).collect();
        let values: Vec<OverviewValue> = frames.iter().map(|frame| self.overview_value(row, *frame, bead_mm)).collect();
        let cells = frames.iter().enumerate().map(|(at, frame)| {
            let answers = frame.of(&self.fit).map(|fit| &fit.answers);
            OverviewCell {
                value: values[at],
                is_best: self.is_best(row, at, &values, frames),
                limits: answers.and_then(|a| needs.iter().filter_map(|place| a.get(*place)).map(|answer| answer.met).max()),
            }
        });
        OverviewLine { row, cells: cells.collect(), needs }
    }

    fn overview_value(&self, row: OverviewRow, place: FrameIndex, bead_mm: f64) -> OverviewValue {
        let (Some(frame), Some(fit), Some(cost)) = (place.of(&self.frames), place.of(&self.fit), place.of(&self.price_and_climb))
        else {
            return OverviewValue::Unknown;
        };
        let known = match row {
            OverviewRow::SizeFit if self.reference == Some(place) => Some(OverviewValue::Reference),
            OverviewRow::SizeFit => fit.size_fit.left_over.map(|d| OverviewValue::Measured(d.of_any_kind())),
            OverviewRow::Needs => {
                let (open, not_met) = (fit.open(), fit.not_met());
                Some(OverviewValue::Needs { met: fit.answers.len() - open - not_met, open, not_met })
            }
            OverviewRow::Price => cost.offer.set.as_ref().ok().map(|charge| OverviewValue::Price(charge.money)),
            OverviewRow::LoadedWeight => cost.loaded.map(|total| OverviewValue::Measured(total.of_any_kind())),
            OverviewRow::FramesetWeight => {
                frame.weights.part(Part::Frameset).map(|w| OverviewValue::Measured(w.mass.of_any_kind()))
            }
            OverviewRow::Trail | OverviewRow::Chainstay | OverviewRow::Wheelbase => {
                let value = row.figure().and_then(|figure| frame.value(figure)).filter(|v| !v.is_missing);
                value.map(|v| OverviewValue::Measured(v.measured()))
            }
            OverviewRow::BagVolume => BagSpaceFigure::Litres.of(frame).map(OverviewValue::Measured),
            OverviewRow::Bottles => bottles(frame).map(OverviewValue::Count),
            OverviewRow::WidestTyre => {
                let widest = fit.statements.widest_tyre.is().and_then(|clearances| clearances.widest_on(bead_mm));
                widest.map(|(width_mm, _)| OverviewValue::Tyre(width_mm))
            }
            OverviewRow::DoubtfulFigures => frame.chosen().map(|size| OverviewValue::Count(size.doubts.len())),
        };
        known.unwrap_or(OverviewValue::Unknown)
    }

    /// Whether the value at a place is clearly better than every other known one, of which there is at least one.
    fn is_best(&self, row: OverviewRow, at: usize, values: &[OverviewValue], frames: &[FrameIndex]) -> bool {
        let is_known = |value: &OverviewValue| *value != OverviewValue::Unknown;
        let Some(better) = row.better().filter(|_| is_known(&values[at])) else { return false };
        let mut others = (0..values.len()).filter(|other| *other != at && is_known(&values[*other])).peekable();
        others.peek().is_some() && others.all(|other| self.is_better(row, better, (values, frames), at, other))
    }

    fn is_better(
        &self,
        row: OverviewRow,
        better: Better,
        (values, frames): (&[OverviewValue], &[FrameIndex]),
        own: usize,
        other: usize,
    ) -> bool {
        let is_more = |is_more: bool, is_less: bool| if better == Better::More { is_more } else { is_less };
        match (values[own], values[other]) {
            (OverviewValue::Measured(a), OverviewValue::Measured(b)) => {
                let weights = || {
                    let (a, b) = (frames[own].of(&self.frames)?, frames[other].of(&self.frames)?);
                    Some(a.weight_difference(b, Part::Frameset)?.of_any_kind())
                };
                let difference = match row {
                    OverviewRow::FramesetWeight | OverviewRow::LoadedWeight => weights(),
                    _ => Some(a.minus(b)),
                };
                difference.is_some_and(|d| d.is_clear() && is_more(d.value > 0.0, d.value < 0.0))
            }
            (OverviewValue::Price(a), OverviewValue::Price(b)) => {
                a.currency == b.currency && is_more(a.amount > b.amount, a.amount < b.amount)
            }
            (OverviewValue::Count(a), OverviewValue::Count(b)) => is_more(a > b, a < b),
            (OverviewValue::Tyre(a), OverviewValue::Tyre(b)) => is_more(a > b, a < b),
            // Whatever the unknown ones turn out to be.
            (OverviewValue::Needs { met, .. }, OverviewValue::Needs { met: b, open, .. }) => met > b + open,
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::{Entry, read_lineup};

    fn library() -> Lineup {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        for entry in &mut lineup.frames {
            entry.shown = true;
        }
        lineup
    }

    fn line(lineup: &Lineup, row: OverviewRow) -> (Findings, OverviewLine) {
        let findings = Findings::of(lineup);
        let overview = findings.overview(lineup);
        let line = overview.lines.into_iter().find(|line| line.row == row).unwrap();
        (findings, line)
    }

    #[test]
    fn the_best_of_a_row_is_clearly_better_than_every_other() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        let overview = findings.overview(&lineup);
        assert_eq!(overview.lines.iter().map(|l| l.row).collect::<Vec<_>>(), OverviewRow::ALL);
        let mut marked = 0;
        for line in &overview.lines {
            let best: Vec<usize> = (0..line.cells.len()).filter(|at| line.cells[*at].is_best).collect();
            assert!(best.len() <= 1, "{:?}", line.row);
            assert!(best.is_empty() || line.row.better().is_some(), "{:?}", line.row);
            marked += best.len();
            let Some(best) = best.first() else { continue };
            for (at, cell) in line.cells.iter().enumerate().filter(|(at, _)| at != best) {
                let is_better = match (line.cells[*best].value, cell.value) {
                    (_, OverviewValue::Unknown) => true,
                    (OverviewValue::Measured(_), OverviewValue::Measured(_)) if line.row == OverviewRow::BagVolume => {
                        let litres = |at: usize| BagSpaceFigure::Litres.of(&findings.frames[overview.frames[at]]).unwrap();
                        let d = litres(*best).minus(litres(at));
                        d.value > d.expanded()
                    }
                    (OverviewValue::Measured(a), OverviewValue::Measured(b)) => a.value < b.value,
                    (OverviewValue::Price(a), OverviewValue::Price(b)) => a.amount < b.amount,
                    (OverviewValue::Tyre(a), OverviewValue::Tyre(b)) => a > b,
                    (OverviewValue::Count(a), OverviewValue::Count(b)) => a != b,
                    (OverviewValue::Needs { met: a, .. }, OverviewValue::Needs { met: b, open, .. }) => a > b + open,
                    other => panic!("{other:?}"),
                };
                assert!(is_better, "{:?}: {:?}", line.row, cell.value);
            }
        }
        assert!(marked >= 2, "the price and the widest tyre at least");
    }

    #[test]
    fn what_is_no_clear_difference_marks_nobody() {
        let mut lineup = library();
        // A and B weigh alike within their ±; two frames of one price are no cheaper than one another.
        lineup.frames.truncate(2);
        let (findings, weights) = line(&lineup, OverviewRow::FramesetWeight);
        assert!(!findings.weight_difference(FrameIndex(1), Part::Frameset).unwrap().is_clear());
        assert!(weights.cells.iter().all(|cell| !cell.is_best));
        lineup.frames[1] = lineup.frames[0].clone();
        for row in OverviewRow::ALL {
            assert!(line(&lineup, row).1.cells.iter().all(|cell| !cell.is_best), "{row:?} of two equal frames");
        }
    }

    #[test]
    fn one_frame_alone_is_best_in_nothing() {
        let mut lineup = library();
        lineup.frames.truncate(1);
        for row in OverviewRow::ALL {
            assert!(!line(&lineup, row).1.cells[0].is_best, "{row:?}");
        }
    }

    #[test]
    fn limits_join_the_needs_and_stand_at_their_row() {
        let mut lineup = library();
        let before = line(&lineup, OverviewRow::Needs).1.cells[0].value;
        lineup.settings.needs.push("chainstay ≤ 443".parse().unwrap());
        let (_, chainstays) = line(&lineup, OverviewRow::Chainstay);
        assert_eq!(chainstays.needs, [lineup.settings.needs.len() - 1]);
        // 441.0 ± 0.6 keeps it, 445.0 ± 0.6 does not.
        assert_eq!((chainstays.cells[0].limits, chainstays.cells[1].limits), (Some(Met::Met), Some(Met::NotMet)));
        assert_eq!(line(&lineup, OverviewRow::Trail).1.cells[0].limits, None);
        let counts = |value| match value {
            OverviewValue::Needs { met, open, not_met } => (met, met + open + not_met),
            other => panic!("{other:?}"),
        };
        let after = counts(line(&lineup, OverviewRow::Needs).1.cells[0].value);
        assert_eq!(after, (counts(before).0 + 1, counts(before).1 + 1));
        // A second limit of the same row: the worse answer counts.
        lineup.settings.needs.push("chainstay ≥ 441".parse().unwrap());
        assert_eq!(line(&lineup, OverviewRow::Chainstay).1.cells[0].limits, Some(Met::Borderline));
    }

    #[test]
    fn another_order_of_the_frames_changes_only_the_order_of_the_columns() {
        let mut lineup = library();
        let before = Findings::of(&lineup).overview(&lineup);
        let reference: Entry = lineup.frames[0].clone();
        lineup.frames.reverse();
        lineup.reference = FrameIndex(lineup.frames.iter().position(|e| *e == reference).unwrap());
        let after = Findings::of(&lineup).overview(&lineup);
        for (a, b) in before.lines.iter().zip(&after.lines) {
            let mut cells = b.cells.clone();
            cells.reverse();
            assert_eq!((a.row, &a.cells), (b.row, &cells));
        }
    }
}
