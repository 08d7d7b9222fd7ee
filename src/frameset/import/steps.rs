//! To which step a table is printed, from the decimals seen in its cells.
//!
//! The rule, coarser where in doubt, because a step taken too fine would claim what was not printed: no decimals → 1 of
//! the unit; decimals that are all .0 or .5 → 0.5; two decimals that are all quarters → 0.25; more decimals
//! that all end in 0 or 5 → 5 of the last; else one of the last decimal. Fractions of an inch and minutes of arc go by their denominators. A figure keeps its own step where it
//! differs from the table's, which is the one that most lengths have. A row that prints as many decimals as a finer one
//! has the finer one's step, for one page prints one number of decimals, unless it drops its `.0`; angles printed without decimals share the step of
//! an angle that drops its `.0` (71.5 beside 72), for then they may have dropped theirs.

use std::collections::BTreeMap;

use super::numeral::Fineness;
use super::reading::{Answers, Reading};
use super::row::{Printed, Row};
use super::unit::Unit;
use crate::frameset::{Figure, RoundedTo};

/// The step of one row, mm or degrees; whether it mixes whole numbers and decimals.
fn row_step(cells: &[Printed]) -> Option<(f64, bool)> {
    let unit = cells.first()?.unit;
    let decimals = |p: &Printed| if let Fineness::Decimals(d) = p.fineness { Some(d) } else { None };
    let multiple_of = |step: f64| cells.iter().all(|p| ((p.value / step).round() * step - p.value).abs() < 1e-6);
    let denominators = cells.iter().filter_map(|p| if let Fineness::Fraction(d) = p.fineness { Some(d) } else { None });
    let step = if let Some(denominator) = denominators.max() {
        1.0 / f64::from(denominator)
    } else if cells.iter().any(|p| p.fineness == Fineness::Minutes) {
        // Degrees and minutes: the coarsest usual step that all of them keep to.
        [30.0, 15.0, 10.0, 5.0, 1.0].into_iter().map(|m| m / 60.0).find(|s| multiple_of(*s)).unwrap_or(1.0 / 60.0)
    } else {
        match cells.iter().filter_map(decimals).max().unwrap_or(0) {
            0 => 1.0,
            _ if multiple_of(0.5) => 0.5,
            2.. if multiple_of(0.25) => 0.25,
            most => {
                // Halves of the last decimal but one: 6.65 beside 7.10 cm is printed to half a millimetre.
                let last = 10f64.powi(-i32::from(most.min(4)));
                if most > 1 && multiple_of(5.0 * last) { 5.0 * last } else { last }
            }
        }
    };
    let mixed = cells.iter().any(|p| decimals(p) == Some(0)) && cells.iter().any(|p| decimals(p) != Some(0));
    Some(((step * unit.factor() * 1e6).round() / 1e6, mixed))
}

/// Rows that print as many decimals as another of their unit, all of them, share its step: beside 21.4" and 23.3" a drop
/// of 3.0" is printed to a tenth, though alone it could be to a half. A row that drops its `.0` keeps its own.
fn share_decimals(rows: &[Row], steps: &mut BTreeMap<Figure, (f64, bool)>) {
    let kind = |row: &Row| {
        let (figure, _) = row.reading.figure?;
        let decimals = |p: &Printed| if let Fineness::Decimals(d) = p.fineness { Some(d) } else { None };
        let printed: Vec<Printed> = row.fineness.iter().flatten().copied().collect();
        let most = printed.iter().map(decimals).collect::<Option<Vec<u8>>>()?.into_iter().max().filter(|d| *d > 0)?;
        Some((figure, printed.first()?.unit, most))
    };
    let mut finest: BTreeMap<(Unit, u8), f64> = BTreeMap::new();
    for row in rows {
        if let Some((figure, unit, decimals)) = kind(row)
            && let Some((step, _)) = steps.get(&figure)
        {
            let slot = finest.entry((unit, decimals)).or_insert(*step);
            *slot = slot.min(*step);
        }
    }
    for row in rows {
        if let Some((figure, unit, decimals)) = kind(row)
            && let (Some((step, false)), Some(finest)) = (steps.get_mut(&figure), finest.get(&(unit, decimals)))
        {
            *step = step.min(*finest);
        }
    }
}

/// Decides the table's steps and each figure's own.
pub(super) fn rounded_to(rows: &[Row], answers: &Answers, reading: &mut Reading) {
    let mut steps: BTreeMap<Figure, (f64, bool)> = BTreeMap::new();
    for row in rows {
        let Some((figure, _)) = row.reading.figure else { continue };
        let cells: Vec<Printed> = row.fineness.iter().flatten().copied().collect();
        if let Some(step) = row_step(&cells) {
            steps.insert(figure, step);
        }
    }
    share_decimals(rows, &mut steps);
    let angles: Vec<(f64, bool)> = steps.iter().filter(|(f, _)| f.is_angle()).map(|(_, s)| *s).collect();
    let dropping = angles.iter().filter(|(_, mixed)| *mixed).map(|(s, _)| *s).reduce(f64::max);
    // Angles without decimals beside ones that are printed finer without mixing cannot be told: 71 beside 73.5.
    let finest = angles.iter().map(|(s, _)| *s).reduce(f64::min).unwrap_or(0.5);
    let one_cell = rows.iter().all(|r| r.fineness.iter().flatten().count() <= 1);
    for (figure, (step, _)) in &mut steps {
        if figure.is_angle() && *step >= 1.0 {
            if let Some(dropping) = dropping {
                *step = step.min(dropping);
            } else if one_cell && finest < 1.0 {
                *step = step.min(finest.max(0.5));
            }
        }
    }
    let most = |angle: bool| {
        let mut tally: Vec<(f64, usize)> = Vec::new();
        for (figure, (step, _)) in &steps {
            if figure.is_angle() == angle {
                match tally.iter_mut().find(|(s, _)| s == step) {
                    Some((_, times)) => *times += 1,
                    None => tally.push((*step, 1)),
                }
            }
        }
        tally.into_iter().max_by(|a, b| a.1.cmp(&b.1).then(a.0.total_cmp(&b.0))).map(|(s, _)| s)
    };
    let default = RoundedTo::default();
    let found = RoundedTo { mm: most(false).unwrap_or(default.mm), deg: most(true).unwrap_or(default.deg) };
    if most(true) == Some(1.0) && answers.rounded_to.is_none() {
        reading.remarks.push(
            "Angles have no decimals, so rounding to 1° is assumed. Correct it if the maker publishes decimals.".to_owned(),
        );
    }
    reading.rounded_to = answers.rounded_to.unwrap_or(found);
    for (figure, (step, _)) in &steps {
        let general = if figure.is_angle() { reading.rounded_to.deg } else { reading.rounded_to.mm };
        let corrected = answers.steps.get(figure).copied();
        // A corrected table step stands for all figures that had the table's step before.
        let before = if figure.is_angle() { found.deg } else { found.mm };
        let own = corrected.or((*step != before).then_some(*step));
        if let Some(own) = own.filter(|s| *s != general) {
            reading.steps.insert(*figure, own);
        }
    }
}

/// Writes each row's step beside it.
pub(super) fn tell(rows: &mut [Row], reading: &Reading) {
    for row in rows {
        if let Some((figure, _)) = row.reading.figure
            && row.reading.cells.iter().any(|c| c.value.is_some())
        {
            let general = if figure.is_angle() { reading.rounded_to.deg } else { reading.rounded_to.mm };
            row.reading.step = Some(reading.steps.get(&figure).copied().unwrap_or(general));
        }
    }
}
