//! Price and climb of a comparison, behind the figures of its frames: the answers in sentences and the tables, as text,
//! Markdown and CSV.

use super::columns::{plain, table_text};
use super::numbers::rounded;
use spandrel::frameset::Part;
use spandrel::lineup::{Findings, Lineup};
use spandrel::publish::{LineEnd, csv_line, fit_markdown, markdown_text};
use spandrel::units::visible;
use spandrel::words::{
    FitTable, PriceAndClimbAnswers, gear_sentences, gears_table, price_and_climb_answers, price_and_climb_table,
};

fn tables(lineup: &Lineup, findings: &Findings) -> [FitTable; 2] {
    [price_and_climb_table(lineup, findings), gears_table(lineup, findings, findings.reference.unwrap_or_default())]
}

fn sentences(lineup: &Lineup, findings: &Findings) -> Vec<String> {
    let PriceAndClimbAnswers { lightest, ways, cost, climb } = price_and_climb_answers(lineup, findings);
    let gears = gear_sentences(lineup, findings);
    std::iter::once(lightest).chain(ways).chain(cost).chain(climb).chain(gears).collect()
}

fn title(lineup: &Lineup) -> &str {
    if lineup.title.trim().is_empty() { "The comparison" } else { lineup.title.trim() }
}

pub(super) fn markdown(lineup: &Lineup, findings: &Findings) -> String {
    let mut out = format!("### {}\n", markdown_text(title(lineup)));
    for sentence in sentences(lineup, findings) {
        out.push_str(&format!("\n{}\n", markdown_text(&sentence)));
    }
    for table in tables(lineup, findings) {
        out.push_str(&format!("\n{}", fit_markdown(&table)));
    }
    out
}

pub(super) fn text(file: &str, lineup: &Lineup, findings: &Findings) -> String {
    let mut out = format!("{} ({})\n", visible(title(lineup)), visible(file));
    for sentence in sentences(lineup, findings) {
        out.push_str(&plain(&sentence));
        out.push('\n');
    }
    for table in tables(lineup, findings) {
        out.push('\n');
        out.push_str(&table_text(&table));
    }
    out
}

/// One line a value, in the columns of the figures: the frames in the sizes compared. Amounts of money are decimal text.
pub(super) fn csv(file: &str, lineup: &Lineup, findings: &Findings) -> String {
    let mut out = String::new();
    for (frame, worth) in findings.frames.iter().zip(&findings.price_and_climb) {
        let frameset = &frame.frameset;
        let mut line = |key: &str, value: String, u: Option<f64>, unit: &str, origin: &str| {
            let u = u.map(|u| rounded(u).to_string()).unwrap_or_default();
            let head = [file, &frameset.maker, &frameset.model, frame.size_label()];
            let fields = [&head[..], &[key, "", &value, &u, unit, origin, "", ""]].concat();
            out.push_str(&csv_line(&fields, LineEnd::Lf));
        };
        for (part, key) in [(Part::Frame, "weight_frame"), (Part::Fork, "weight_fork"), (Part::Frameset, "weight_frameset")] {
            if let Some(weight) = frame.weights.part(part) {
                let origin = if weight.is_estimate { "computed" } else { "published" };
                line(key, rounded(weight.mass.value).to_string(), Some(weight.mass.u), "g", origin);
            }
        }
        for (part, key) in [(Part::Frame, "price_frame"), (Part::Fork, "price_fork"), (Part::Frameset, "price_frameset")] {
            if let Ok(charge) = worth.offer.part(part) {
                let origin = if charge.is_converted { "computed" } else { "published" };
                line(key, charge.money.plain(), None, lineup.settings.money.currency.code(), origin);
            }
        }
        if let Some(share) = worth.share_percent {
            line("share_of_whole", rounded(share.value).to_string(), Some(share.u), "percent", "computed");
        }
        if let Ok(climb) = &worth.climb {
            line("climb", rounded(climb.value).to_string(), Some(climb.u), "s", "computed");
        }
    }
    out
}
