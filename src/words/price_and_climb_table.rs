//! The tables of what framesets are worth: prices, weights, shares and climbs with the frames across; gears with the
//! builds across. The window, the pictures and the exports all show these, so the words are the same everywhere.

use super::fit_table::{FitCell, FitMark, FitRow, FitTable};
use super::price_and_climb::{cost_sentence, per_gram_text, stands};
use crate::frameset::{Part, Tax};
use crate::lineup::{Against, Findings, FrameFindings, Lineup, PriceAndClimb};
use crate::riding::{GearsFound, duration_text};
use crate::units::{System, THIN_SPACE, expanded, fixed, plus_minus};

fn plain(text: impl Into<String>, detail: impl Into<String>) -> FitCell {
    FitCell { text: text.into(), detail: detail.into(), mark: FitMark::Plain }
}

fn open(text: impl Into<String>, detail: impl Into<String>) -> FitCell {
    FitCell { text: text.into(), detail: detail.into(), mark: FitMark::Open }
}

/// Prices, weights, shares and times down, the shown frames (and the reference) across.
#[must_use]
pub fn price_and_climb_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let frames: Vec<usize> =
        findings.frames.iter().enumerate().filter(|(i, f)| stands(findings, *i, f)).map(|(i, _)| i).collect();
    let title = |f: &FrameFindings| format!("{} {} {}", f.letter, f.name, f.size_label()).trim_end().to_owned();
    let columns = frames.iter().filter_map(|i| findings.frames.get(*i)).map(title).collect();
    let row = |label: String, cell: &dyn Fn(usize, &FrameFindings, &PriceAndClimb) -> FitCell| FitRow {
        label,
        cells: frames
            .iter()
            .filter_map(|i| Some((*i, findings.frames.get(*i)?, findings.price_and_climb.get(*i)?)))
            .map(|(i, frame, worth)| cell(i, frame, worth))
            .collect(),
    };
    let base = findings.reference_frame().map_or("the reference", |f| f.letter.as_str());
    let money = &lineup.settings.money;
    let tax = match money.tax {
        Tax::Included => "with tax",
        Tax::Excluded => "without tax",
    };
    let units = lineup.settings.units;
    let against = |i: usize, then: &dyn Fn(&Against) -> FitCell, worth: &PriceAndClimb| match &worth.against {
        Some(against) => then(against),
        None if findings.reference == Some(i) => plain("reference", ""),
        None => open("not stated", "A weight is missing on one side."),
    };
    let mut rows = Vec::new();
    for (part, name) in [(Part::Frame, "frame"), (Part::Fork, "fork"), (Part::Frameset, "set")] {
        let label = format!("Price, {name}, {tax}");
        rows.push(row(label, &|_, _, worth| match worth.offer.part(part) {
            Ok(charge) => plain(charge.money.text(), charge.steps.clone()),
            Err(why) => open("not stated", why.to_string()),
        }));
    }
    rows.push(row("Weight, frameset".to_owned(), &|_, frame, _| match frame.weights.part(Part::Frameset) {
        Some(weight) => plain(weight.mass.text(units), weight.sum.clone()),
        None => open("not stated", "Neither the frameset nor both its parts are published."),
    }));
    rows.push(row(format!("Weight against {base}"), &|i, _, worth| {
        let cell = |a: &Against| {
            let text = a.mass.signed_text(units);
            if a.mass.is_clear() { plain(text, "") } else { open(text, "Within its ±: there may be no difference.") }
        };
        against(i, &cell, worth)
    }));
    rows.push(row("Each gram saved".to_owned(), &|i, _, worth| {
        let detail = cost_sentence(lineup, findings, i).unwrap_or_default();
        match worth.against.as_ref().and_then(|a| a.per_gram.as_ref()) {
            Some(each) => plain(per_gram_text(each), detail),
            None if findings.reference == Some(i) => plain("reference", ""),
            None => open("–", detail),
        }
    }));
    rows.push(row("Beaten in price and weight".to_owned(), &|_, _, worth| match worth.is_unbeaten {
        Some(true) => plain("by nobody here", "No frameset here is lighter for real and not dearer."),
        Some(false) => plain("yes", "Another one here is lighter for real and not dearer."),
        None => open("not stated", "Its price or its weight is not stated."),
    }));
    rows.push(row("Share of the whole".to_owned(), &|_, _, worth| match (worth.share_percent, worth.whole_kg) {
        (Some(share), Some(whole)) => plain(share.text(units), format!("Of {}{THIN_SPACE}kg that move.", fixed(whole, 1))),
        _ => open("not stated", ""),
    }));
    rows.push(row(format!("Of the whole, against {base}"), &|i, _, worth| {
        let cell = |a: &Against| {
            let text = a.whole_percent.signed_text(units);
            if a.mass.is_clear() { plain(text, "") } else { open(text, "Within its ±: there may be no difference.") }
        };
        against(i, &cell, worth)
    }));
    rows.push(row("Climb".to_owned(), &|_, _, worth| match &worth.climb {
        Ok(time) => {
            plain(duration_text(time.value), format!("{} from the weight’s ± alone.", time.moved(-time.value).signed_text(units)))
        }
        Err(why) => open("not stated", why.clone()),
    }));
    rows.push(row(format!("Climb against {base}"), &|i, _, worth| {
        let cell = |a: &Against| match &a.climb {
            Some(time) => plain(time.signed_text(units), ""),
            None => open("–", "Their weights cannot be told apart."),
        };
        against(i, &cell, worth)
    }));
    rows.push(row("Front derailleur".to_owned(), &|_, _, worth| match &worth.front_derailleur {
        Some(mount) => plain(mount.clone(), "As printed."),
        None => open("not stated", ""),
    }));
    for (place, build) in lineup.settings.riding.builds.iter().enumerate() {
        rows.push(row(format!("Gears, {}", build.name), &|_, _, worth| match worth.gears.get(place) {
            Some(Ok(found)) => developments(found),
            Some(Err(why)) => open("–", why.clone()),
            None => open("–", ""),
        }));
    }
    FitTable { corner: "PriceAndClimb".to_owned(), frames, columns, rows }
}

/// From the lowest to the highest gear.
fn developments(found: &GearsFound) -> FitCell {
    let metres = |value: f64| plus_minus(value, expanded(found.share_u * value));
    let steepest = found.steepest.text(System::Metric);
    plain(format!("{} to {}{THIN_SPACE}m", metres(found.lowest_m), metres(found.highest_m)), format!("Up to {steepest} steep."))
}

/// What gears do: figures down, builds across, on the wheels and with the weight of one frame.
#[must_use]
pub fn gears_table(lineup: &Lineup, findings: &Findings, frame: usize) -> FitTable {
    let settings = &lineup.settings.riding;
    let columns = settings.builds.iter().map(|b| b.name.clone()).collect();
    let found: Vec<Option<&Result<GearsFound, String>>> =
        (0..settings.builds.len()).map(|i| findings.price_and_climb.get(frame).and_then(|w| w.gears.get(i))).collect();
    let row = |label: String, cell: &dyn Fn(&GearsFound) -> String| FitRow {
        label,
        cells: found
            .iter()
            .map(|f| match f {
                Some(Ok(gears)) => plain(cell(gears), ""),
                Some(Err(why)) => open("–", why.clone()),
                None => open("–", ""),
            })
            .collect(),
    };
    let teeth = |label: &str, of: &dyn Fn(&crate::riding::Gearing) -> &[u32]| FitRow {
        label: label.to_owned(),
        cells: settings.builds.iter().map(|b| plain(crate::riding::write_teeth(of(b)), "")).collect(),
    };
    let unit = |value: f64, decimals: usize, unit: &str| format!("{}{THIN_SPACE}{unit}", fixed(value, decimals));
    let sure = |value: f64, u: f64, unit: &str| format!("{}{THIN_SPACE}{unit}", plus_minus(value, expanded(u)));
    let cadence = fixed(settings.cadence_rpm, 0);
    let power = unit(settings.climb.power_w, 0, "W");
    let rows = vec![
        teeth("Chainrings", &|b| &b.chainrings),
        teeth("Cogs", &|b| &b.cogs),
        row("Range".to_owned(), &|g| unit(g.range_percent, 0, "%")),
        row("Different gears".to_owned(), &|g| g.different.to_string()),
        row("Lowest development".to_owned(), &|g| sure(g.lowest_m, g.share_u * g.lowest_m, "m")),
        row("Highest development".to_owned(), &|g| sure(g.highest_m, g.share_u * g.highest_m, "m")),
        row(format!("Slowest at {cadence}/min"), &|g| sure(g.lowest_km_h, g.share_u * g.lowest_km_h, "km/h")),
        row(format!("Fastest at {cadence}/min"), &|g| sure(g.highest_km_h, g.share_u * g.highest_km_h, "km/h")),
        row(format!("Steepest at {power}"), &|g| g.steepest.text(System::Metric)),
    ];
    let letter = findings.frames.get(frame).map_or("", |f| f.letter.as_str());
    FitTable { corner: format!("Gears on {letter}"), frames: Vec::new(), columns, rows }
}
