//! The overview as a table: labels of its rows, what each cell says, and what stands behind it for the pointer.

use super::comparison_table::{NOT_PUBLISHED, UNKNOWN};
use super::doubts::doubt_brief;
use super::drawings::OVERVIEW_TITLE;
use super::fit_table::{FitCell, FitMark, FitRow, FitTable, title};
use super::phrases::value_and_assumed;
use super::placing::placing_text;
use super::prices::{charge_text, not_priced_in_brief, not_priced_text, tax_label};
use super::riding::{loaded_total_number, loaded_total_text, loaded_total_unit};
use super::size_fit::size_fit_text;
use super::weights::weight_workings;
use super::{answer_text, bottle_fit_text, no_bag_text, no_opening_text};
use crate::frameset::{FrameIndex, Part};
use crate::lineup::{Findings, Lineup, Overview, OverviewCell, OverviewLine, OverviewRow, OverviewValue};
use crate::parts::{Limit, Limited, Measure, Met};
use crate::units::{Quantity, System, as_typed, capitalised, fixed};
use crate::words::Label;

/// What the marks of the overview mean.
pub const OVERVIEW_KEY: [(FitMark, &str); 3] = [
    (FitMark::Best, "clearly best of the known values"),
    (FitMark::No, "your limit is not met"),
    (FitMark::Open, "unknown, or within the ± of your limit"),
];

impl Label for OverviewRow {
    fn label(self) -> &'static str {
        match self {
            Self::SizeFit => "Reach difference at the same bar height",
            Self::Needs => "Needs met",
            Self::LoadedWeight => "Loaded total",
            Self::FramesetWeight => "Frameset weight",
            Self::Price => "Price",
            Self::Trail => "Trail",
            Self::Chainstay => "Chainstay",
            Self::Wheelbase => "Wheelbase",
            Self::BagVolume => "Frame bag",
            Self::Bottles => "Bottles without a bag",
            Self::WidestTyre => "Widest tyre",
            Self::DoubtfulFigures => "Doubtful figures",
        }
    }
}

/// A limit in the chosen units, without the unit: `≤ 450`.
#[must_use]
pub fn limit_in_brief(units: System, limit: &Limit) -> String {
    let number = match limit.of {
        Limited::Figure(figure) => units.in_field(figure.quantity(), limit.value),
        Limited::Measure(Measure::LoadedWeight) if units == System::Metric => as_typed(limit.value / 1000.0),
        Limited::Measure(measure) => {
            measure.quantity().map_or_else(|| as_typed(limit.value), |quantity| units.in_field(quantity, limit.value))
        }
        Limited::Tyre(_) => as_typed(limit.value),
    };
    format!("{} {number}", if limit.is_least { "≥" } else { "≤" })
}

/// The overview of the shown frames: rows down, frames across.
#[must_use]
pub fn overview_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let overview = findings.overview(lineup);
    let words = OverviewWords { lineup, findings, overview: &overview };
    let columns = overview.frames.iter().map(|i| title(&findings.frames[*i])).collect();
    let rows = overview.lines.iter().map(|line| words.row(line)).collect();
    FitTable { corner: OVERVIEW_TITLE.to_owned(), frames: overview.frames.clone(), columns, rows }
}

/// The table in sentences, for those who do not see the picture.
#[must_use]
pub fn overview_description(table: &FitTable) -> String {
    let of_frame = |(at, title): (usize, &String)| {
        let cell = |row: &FitRow| {
            let cell = &row.cells[at];
            let mark = match cell.mark {
                FitMark::Best => ", clearly best",
                FitMark::No => ", limit not met",
                _ => "",
            };
            format!("{} {}{mark}", row.label, cell.text)
        };
        format!("{title}: {}.", table.rows.iter().map(cell).collect::<Vec<_>>().join("; "))
    };
    table.columns.iter().enumerate().map(of_frame).collect::<Vec<_>>().join(" ")
}

struct OverviewWords<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    overview: &'a Overview,
}

impl OverviewWords<'_> {
    fn row(&self, line: &OverviewLine) -> FitRow {
        let frames = self.overview.frames.iter().zip(&line.cells);
        FitRow { label: self.label(line), cells: frames.map(|(frame, cell)| self.cell(line, *frame, cell)).collect() }
    }

    /// `Chainstay, mm (≤ 450)`.
    fn label(&self, line: &OverviewLine) -> String {
        let settings = &self.lineup.settings;
        let units = settings.units;
        let name = line.row.label();
        let named = match line.row {
            OverviewRow::Needs | OverviewRow::Bottles | OverviewRow::DoubtfulFigures => name.to_owned(),
            OverviewRow::LoadedWeight => format!("{name}, {}", loaded_total_unit(units)),
            OverviewRow::FramesetWeight => format!("{name}, {}", units.unit(Quantity::Mass)),
            OverviewRow::Price => format!("{name}, {}", settings.money.currency.code()),
            OverviewRow::BagVolume => format!("{name}, {}", units.unit(Quantity::Volume)),
            // Tyres are named in millimetres whatever the units; beside inches the designation says so.
            OverviewRow::WidestTyre => match units {
                System::Metric => format!("{name} on {}, mm", fixed(self.overview.bead_mm, 0)),
                System::Imperial => format!("{name} on ISO {}", fixed(self.overview.bead_mm, 0)),
            },
            OverviewRow::SizeFit | OverviewRow::Trail | OverviewRow::Chainstay | OverviewRow::Wheelbase => {
                format!("{name}, {}", units.unit(Quantity::Length))
            }
        };
        let limits: Vec<String> = self.limits(line).map(|limit| limit_in_brief(units, &limit)).collect();
        if limits.is_empty() { named } else { format!("{named} ({})", limits.join(", ")) }
    }

    fn limits<'b>(&'b self, line: &'b OverviewLine) -> impl Iterator<Item = Limit> + 'b {
        line.needs.iter().filter_map(|place| self.lineup.settings.needs.get(*place)?.limit())
    }

    fn cell(&self, line: &OverviewLine, frame: FrameIndex, cell: &OverviewCell) -> FitCell {
        let mark = match (cell.limits, cell.value, cell.is_best) {
            (Some(Met::NotMet), ..) => FitMark::No,
            (_, OverviewValue::Unknown, _) | (Some(Met::Borderline | Met::NotPublished), ..) => FitMark::Open,
            (_, _, true) => FitMark::Best,
            _ => FitMark::Plain,
        };
        let mut sentences = self.behind(line.row, frame);
        if cell.is_best {
            sentences.push("Clearly the best of the known values in this row.".to_owned());
        }
        let met = match cell.limits {
            Some(Met::Met) => "met",
            Some(Met::NotMet) => "not met",
            Some(Met::Borderline) => "borderline",
            Some(Met::NotPublished) | None => UNKNOWN,
        };
        let limits: Vec<String> = self.limits(line).map(|limit| limit_in_brief(self.lineup.settings.units, &limit)).collect();
        if !limits.is_empty() {
            sentences.push(format!("Your limit {}: {met}.", limits.join(", ")));
        }
        let no_price = |frame: FrameIndex| frame.of(&self.findings.price_and_climb)?.offer.set.as_ref().err();
        let text = match no_price(frame).filter(|_| line.row == OverviewRow::Price) {
            Some(why) => not_priced_in_brief(why).to_owned(),
            None => self.text(line.row, &cell.value),
        };
        FitCell { text, detail: sentences.join(" "), mark }
    }

    fn text(&self, row: OverviewRow, value: &OverviewValue) -> String {
        let units = self.lineup.settings.units;
        match value {
            OverviewValue::Reference => "reference".to_owned(),
            OverviewValue::Measured(value) => match row {
                OverviewRow::SizeFit => units.signed_plus_minus(Quantity::Length, *value),
                OverviewRow::LoadedWeight => loaded_total_number(units, value.as_mass()),
                OverviewRow::FramesetWeight => units.plus_minus(Quantity::Mass, *value),
                OverviewRow::BagVolume => units.plus_minus(Quantity::Volume, *value),
                _ => units.plus_minus(Quantity::Length, *value),
            },
            OverviewValue::Price(money) => money.digits(),
            OverviewValue::Needs { met: 0, open: 0, not_met: 0 } => "none listed".to_owned(),
            OverviewValue::Needs { met, open, not_met } => {
                let of = format!("{met} of {}", met + open + not_met);
                if *open == 0 { of } else { format!("{of}, {open} unknown") }
            }
            OverviewValue::Count(0) if row == OverviewRow::DoubtfulFigures => "none".to_owned(),
            OverviewValue::Count(count) => count.to_string(),
            OverviewValue::Tyre(width_mm) => as_typed(*width_mm),
            OverviewValue::Unknown => match row {
                OverviewRow::FramesetWeight | OverviewRow::LoadedWeight | OverviewRow::Price | OverviewRow::WidestTyre => {
                    NOT_PUBLISHED.to_owned()
                }
                _ => UNKNOWN.to_owned(),
            },
        }
    }

    /// What stands behind a cell, in sentences.
    fn behind(&self, row: OverviewRow, place: FrameIndex) -> Vec<String> {
        let (Some(frame), Some(fit), Some(cost)) =
            (place.of(&self.findings.frames), place.of(&self.findings.fit), place.of(&self.findings.price_and_climb))
        else {
            return Vec::new();
        };
        let units = self.lineup.settings.units;
        let sentence = |text: &str| format!("{}.", capitalised(text.trim_end_matches('.')));
        match row {
            OverviewRow::SizeFit => vec![size_fit_text(units, &fit.size_fit)],
            OverviewRow::Needs => {
                let needs = self.lineup.settings.needs.iter().zip(&fit.answers).filter(|(_, answer)| answer.met != Met::Met);
                needs.map(|(need, answer)| format!("{}: {}", capitalised(need.text()), answer_text(units, answer))).collect()
            }
            OverviewRow::LoadedWeight => match cost.loaded {
                Some(total) => {
                    let share =
                        cost.share_percent.map_or_else(String::new, |s| format!(" The frameset is {} of it.", s.text(units)));
                    vec![format!("{} with rider, luggage and other parts.{share}", loaded_total_text(units, total))]
                }
                None => vec!["It needs the frameset’s weight.".to_owned()],
            },
            OverviewRow::FramesetWeight => vec![sentence(&weight_workings(units, frame, Part::Frameset))],
            OverviewRow::Price => {
                vec![match &cost.offer.set {
                    Ok(charge) if charge.steps.is_empty() => sentence(tax_label(self.lineup.settings.money.tax)),
                    Ok(charge) => sentence(&charge_text(&charge.steps)),
                    Err(why) => sentence(&not_priced_text(why)),
                }]
            }
            OverviewRow::Trail | OverviewRow::Chainstay | OverviewRow::Wheelbase => {
                let Some(figure) = row.figure() else { return Vec::new() };
                let value = frame.value(figure).map(|value| sentence(&value_and_assumed(units, value)));
                value.into_iter().chain(placing_text(self.findings, place, &[figure])).collect()
            }
            OverviewRow::BagVolume => match (&frame.luggage.bag_space, &frame.luggage.bag) {
                (Err(why), _) => vec![no_opening_text(why)],
                (_, Some(Err(why))) => vec![no_bag_text(units, *why)],
                _ => vec!["Estimated for a frame bag with the gap to tubes and the gusset widths of the Bags view.".to_owned()],
            },
            OverviewRow::Bottles => frame.luggage.bottles.fits.iter().map(|fit| sentence(&bottle_fit_text(units, fit))).collect(),
            OverviewRow::WidestTyre => {
                vec!["As published for the frame. Check the clearance on the built bicycle.".to_owned()]
            }
            OverviewRow::DoubtfulFigures => {
                let doubts = frame.chosen().map(|size| size.doubts.as_slice()).unwrap_or_default();
                doubts.iter().map(|doubt| sentence(&doubt_brief(doubt))).collect()
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    fn library() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    fn told(lineup: &Lineup) -> String {
        let table = overview_table(lineup, &Findings::of(lineup));
        let row = |row: &FitRow| {
            let cells: Vec<String> = row.cells.iter().map(|c| format!("{}{}", c.mark.sign(), c.text)).collect();
            format!("{}: {}", row.label, cells.join(" | "))
        };
        table.rows.iter().map(row).collect::<Vec<_>>().join("\n").replace('\u{2009}', " ")
    }

    #[test]
    fn the_sample_in_one_table() {
        let mut lineup = library();
        insta::assert_snapshot!(told(&lineup), @"
        Reach difference at the same bar height, mm: reference | −30.8 ± 1.0 | −15.6 ± 0.9 | −28.7 ± 0.9
        Needs met: 6 of 6 | 5 of 6 | 5 of 6 | 4 of 6, 2 unknown
        Loaded total, kg: 99.79 ± 0.08 | 99.65 ± 0.14 | 98.37 ± 0.04 | ●98.24 ± 0.09
        Frameset weight, g: 3792 ± 81 | 3650 ± 139 | 2365 ± 38 | ●2238 ± 92
        Price, EUR: 585.00 | 719.00 | 2947.64 | ●459.00
        Trail, mm: 84.8 ± 1.9 | 68 ± 2 | 67.7 ± 1.5 | 59.7 ± 1.8
        Chainstay, mm: 441.1 ± 1.4 | 445.1 ± 1.3 | 433.9 ± 0.4 | 433.6 ± 0.7
        Wheelbase, mm: 1104.1 ± 1.6 | 1060 ± 2 | 1067.2 ± 0.4 | 1045.0 ± 0.8
        Frame bag, l: 6.0 ± 0.4 | 6.8 ± 0.6 | 6.4 ± 0.5 | 6.8 ± 0.4
        Bottles without a bag: 2 | 2 | 2 | 2
        Widest tyre on 622, mm (≥ 45): ●60 | 50 | 55 | ○not published
        Doubtful figures: none | 1 | none | none
        ");
        lineup.settings.needs.push("chainstay ≤ 443".parse().unwrap());
        lineup.settings.needs.push("price ≤ 600".parse().unwrap());
        lineup.settings.units = System::Imperial;
        insta::assert_snapshot!(told(&lineup), @"
        Reach difference at the same bar height, in: reference | −1.21 ± 0.04 | −0.61 ± 0.03 | −1.13 ± 0.04
        Needs met: 8 of 8 | 5 of 8 | 6 of 8 | 6 of 8, 2 unknown
        Loaded total, lb: 220.00 ± 0.18 | 219.7 ± 0.3 | 216.86 ± 0.08 | ●216.6 ± 0.2
        Frameset weight, lb: 8.36 ± 0.18 | 8.0 ± 0.3 | 5.21 ± 0.08 | ●4.9 ± 0.2
        Price, EUR (≤ 600): 585.00 | ×719.00 | ×2947.64 | ●459.00
        Trail, in: 3.34 ± 0.08 | 2.67 ± 0.08 | 2.66 ± 0.06 | 2.35 ± 0.07
        Chainstay, in (≤ 17.441): 17.37 ± 0.06 | ×17.52 ± 0.05 | 17.082 ± 0.015 | 17.07 ± 0.03
        Wheelbase, in: 43.47 ± 0.06 | 41.73 ± 0.08 | 42.016 ± 0.017 | 41.14 ± 0.03
        Frame bag, l: 6.0 ± 0.4 | 6.8 ± 0.6 | 6.4 ± 0.5 | 6.8 ± 0.4
        Bottles without a bag: 2 | 2 | 2 | 2
        Widest tyre on ISO 622 (≥ 45): ●60 | 50 | 55 | ○not published
        Doubtful figures: none | 1 | none | none
        ");
    }

    #[test]
    fn a_price_says_what_it_lacks() {
        let mut lineup = library();
        lineup.settings.money.rates.clear();
        lineup.frames[1].frameset = {
            let mut frameset = (*lineup.frames[1].frameset).clone();
            frameset.prices.clear();
            frameset.into()
        };
        let table = overview_table(&lineup, &Findings::of(&lineup));
        let prices = table.rows.iter().find(|row| row.label.starts_with("Price")).unwrap();
        let texts: Vec<&str> = prices.cells.iter().map(|cell| cell.text.as_str()).collect();
        assert_eq!(texts, ["585.00", "not published", "no exchange rate", "459.00"]);
    }

    #[test]
    fn every_cell_says_what_is_behind_it() {
        let mut lineup = library();
        lineup.settings.needs.push("chainstay ≤ 443".parse().unwrap());
        let table = overview_table(&lineup, &Findings::of(&lineup));
        let cell = |row: &str, column: usize| {
            let row = table.rows.iter().find(|r| r.label.starts_with(row)).unwrap();
            row.cells[column].detail.replace('\u{2009}', " ")
        };
        assert!(cell("Chainstay", 1).contains("Your limit ≤ 443: not met."), "{}", cell("Chainstay", 1));
        assert!(cell("Doubtful", 1).contains("Wheelbase is probably a misprint."), "{}", cell("Doubtful", 1));
        assert!(cell("Price", 0).contains("tax"), "{}", cell("Price", 0));
        for row in &table.rows {
            for cell in &row.cells {
                let may_be_empty = row.label.starts_with("Needs") || row.label.starts_with("Doubtful");
                assert!(may_be_empty || !cell.detail.is_empty(), "{}: {}", row.label, cell.text);
            }
        }
    }
}
