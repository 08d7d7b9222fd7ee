//! Tables of price and climb: prices, weights, shares and climbs with the frames across; gears with the builds across. The
//! window, the pictures and the exports all show these, so the words are the same everywhere.

use super::comparison_table::NOT_PUBLISHED;
use super::fit_table::{FitCell, FitRow, FitTable, open, plain};
use super::price_and_climb::{cost_sentence, is_in_tables, name_of};
use super::prices::{charge_text, not_priced_text, per_gram_text, saved_unit, tax_label};
use super::riding::{
    cadence_text, development_number, development_text, development_unit, duration_text, load_text, loaded_total_difference_text,
    loaded_total_text, no_climb_text, no_gears_text, power_text, speed_text,
};
use super::weights::{weight_text, weight_workings};
use crate::frameset::{FrameIndex, Part};
use crate::lineup::{Against, Findings, FrameFindings, Lineup, NoGears, PriceAndClimb};
use crate::money::NotPriced;
use crate::riding::GearsFound;
use crate::units::{System, THIN_SPACE, capitalised, fixed, per_cent};

const NO_CLEAR_DIFFERENCE: &str = "No clear difference.";

/// A reason as a sentence.
fn sentence(reason: &str) -> String {
    format!("{}.", capitalised(reason))
}

/// Prices, weights, shares and times down, the shown frames (and the reference) across.
#[must_use]
pub fn price_and_climb_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let frames: Vec<FrameIndex> =
        FrameIndex::numbered(&findings.frames).filter(|(i, f)| is_in_tables(findings, *i, f)).map(|(i, _)| i).collect();
    let columns = frames.iter().filter_map(|i| i.of(&findings.frames)).map(name_of).collect();
    let row = |label: String, cell: &dyn Fn(FrameIndex, &FrameFindings, &PriceAndClimb) -> FitCell| FitRow {
        label,
        cells: frames
            .iter()
            .filter_map(|i| Some((*i, i.of(&findings.frames)?, i.of(&findings.price_and_climb)?)))
            .map(|(i, frame, found)| cell(i, frame, found))
            .collect(),
    };
    let base = findings.reference_frame().map_or("the reference", |f| f.letter.as_str());
    let tax = tax_label(lineup.settings.money.tax);
    let units = lineup.settings.units;
    let against = |i: FrameIndex, then: &dyn Fn(&Against) -> FitCell, found: &PriceAndClimb| match &found.against {
        Some(against) => then(against),
        None if findings.reference == Some(i) => plain("reference", ""),
        None => open("unknown", "It needs both weights."),
    };
    let mut rows = Vec::new();
    for (part, name) in [(Part::Frame, "frame"), (Part::Fork, "fork"), (Part::Frameset, "frameset")] {
        let label = format!("Price, {name}, {tax}");
        rows.push(row(label, &|_, _, found| match found.offer.part(part) {
            Ok(charge) => plain(charge.money.text(), charge_text(&charge.steps)),
            Err(NotPriced::NotPublished | NotPriced::PartNotPublished(_)) => open(NOT_PUBLISHED, ""),
            Err(why) => open("unknown", sentence(&not_priced_text(why))),
        }));
    }
    rows.push(row("Weight, frameset".to_owned(), &|_, frame, _| {
        let text = weight_text(units, frame, Part::Frameset);
        match frame.weights.part(Part::Frameset) {
            Some(_) => plain(text, weight_workings(units, frame, Part::Frameset)),
            None => open(text, format!("The weight of the frameset, or of frame and fork, is {NOT_PUBLISHED}.")),
        }
    }));
    rows.push(row(format!("Weight difference from {base}"), &|i, _, found| {
        let cell = |a: &Against| {
            let text = a.mass.signed_text(units);
            if a.mass.is_clear() { plain(text, "") } else { open(text, NO_CLEAR_DIFFERENCE) }
        };
        against(i, &cell, found)
    }));
    rows.push(row(format!("Price per {} saved", saved_unit(units)), &|i, _, found| {
        let detail = cost_sentence(lineup, findings, i).unwrap_or_default();
        match found.against.as_ref().and_then(|a| a.per_gram.as_ref()) {
            Some(each) => plain(per_gram_text(units, each), detail),
            None if findings.reference == Some(i) => plain("reference", ""),
            None => open("–", detail),
        }
    }));
    rows.push(row("Another is lighter and cheaper".to_owned(), &|_, _, found| match found.is_unbeaten {
        Some(true) => plain("no", "Nothing shown is clearly lighter and no dearer."),
        Some(false) => plain("yes", "Another frameset shown is clearly lighter and no dearer."),
        None => open("unknown", "It needs price and weight."),
    }));
    rows.push(row("Loaded total".to_owned(), &|_, _, found| match found.loaded {
        Some(total) => plain(loaded_total_text(units, total), "Rider, luggage, other parts and frameset."),
        None => open("unknown", "It needs the frameset’s weight."),
    }));
    rows.push(row("Share of loaded total".to_owned(), &|_, _, found| match (found.share_percent, found.loaded) {
        (Some(share), Some(total)) => plain(share.text(units), format!("Of {}.", load_text(units, total.value / 1000.0))),
        _ => open("unknown", "It needs the frameset’s weight."),
    }));
    rows.push(row(format!("Loaded total, difference from {base}"), &|i, _, found| {
        let cell = |a: &Against| {
            let text = format!("{} ({})", loaded_total_difference_text(units, a.mass), a.whole_percent.signed_text(units));
            if a.mass.is_clear() { plain(text, "") } else { open(text, NO_CLEAR_DIFFERENCE) }
        };
        against(i, &cell, found)
    }));
    rows.push(row("Time of the climb".to_owned(), &|_, _, found| match &found.climb {
        Ok(time) => {
            let alone = time.moved(-time.value).signed_text(units);
            plain(duration_text(time.value), format!("{alone} from the weight’s ± alone."))
        }
        Err(why) => open("unknown", sentence(&no_climb_text(units, why))),
    }));
    rows.push(row(format!("Climb, difference from {base}"), &|i, _, found| {
        let cell = |a: &Against| match &a.climb {
            Some(time) => plain(time.signed_text(units), ""),
            None => open("–", NO_CLEAR_DIFFERENCE),
        };
        against(i, &cell, found)
    }));
    rows.push(row("Front derailleur mount".to_owned(), &|_, _, found| match &found.front_derailleur {
        Some(mount) => plain(mount.clone(), "As published."),
        None => open(NOT_PUBLISHED, ""),
    }));
    for (place, build) in lineup.settings.price_and_climb.builds.iter().enumerate() {
        rows.push(row(format!("Development, {}", build.name), &|_, _, found| match found.gears.get(place) {
            Some(Ok(gears)) => developments(units, gears),
            Some(Err(why)) => open("–", sentence(&no_gears_text(why))),
            None => open("–", ""),
        }));
    }
    FitTable { corner: "Price and climb".to_owned(), frames, columns, rows }
}

/// From the lowest to the highest gear.
fn developments(units: System, found: &GearsFound) -> FitCell {
    let number = |value: f64| development_number(units, value, found.share_u * value);
    let text = format!("{} to {}{THIN_SPACE}{}", number(found.lowest_m), number(found.highest_m), development_unit(units));
    plain(text, format!("Steepest gradient: {}.", found.steepest.text(units)))
}

/// What gears do: figures down, builds across, on the wheels and with the weight of one frame.
#[must_use]
pub fn gears_table(lineup: &Lineup, findings: &Findings, frame: FrameIndex) -> FitTable {
    let (settings, units) = (&lineup.settings.price_and_climb, lineup.settings.units);
    let columns = settings.builds.iter().map(|b| b.name.clone()).collect();
    let found: Vec<Option<&Result<GearsFound, NoGears>>> =
        (0..settings.builds.len()).map(|i| frame.of(&findings.price_and_climb).and_then(|w| w.gears.get(i))).collect();
    let row = |label: String, cell: &dyn Fn(&GearsFound) -> String| FitRow {
        label,
        cells: found
            .iter()
            .map(|f| match f {
                Some(Ok(gears)) => plain(cell(gears), ""),
                Some(Err(why)) => open("–", sentence(&no_gears_text(why))),
                None => open("–", ""),
            })
            .collect(),
    };
    let teeth = |label: &str, of: &dyn Fn(&crate::riding::Gearing) -> &[u32]| FitRow {
        label: label.to_owned(),
        cells: settings.builds.iter().map(|b| plain(crate::riding::write_teeth(of(b)), "")).collect(),
    };
    let development = |m: f64, g: &GearsFound| development_text(units, m, g.share_u * m);
    let speed = |km_h: f64, g: &GearsFound| speed_text(units, km_h, g.share_u * km_h);
    let cadence = cadence_text(settings.cadence_rpm);
    let rows = vec![
        teeth("Chainrings", &|b| &b.chainrings),
        teeth("Sprockets", &|b| &b.cogs),
        row("Range".to_owned(), &|g| per_cent(&fixed(g.range_percent, 0))),
        row("Different gears".to_owned(), &|g| g.different.to_string()),
        row("Lowest development".to_owned(), &|g| development(g.lowest_m, g)),
        row("Highest development".to_owned(), &|g| development(g.highest_m, g)),
        row(format!("Lowest gear at {cadence}"), &|g| speed(g.lowest_km_h, g)),
        row(format!("Highest gear at {cadence}"), &|g| speed(g.highest_km_h, g)),
        row(format!("Steepest gradient at {}", power_text(settings.climb.power_w)), &|g| g.steepest.text(units)),
    ];
    let letter = frame.of(&findings.frames).map_or("", |f| f.letter.as_str());
    FitTable { corner: format!("Gears on {letter}"), frames: Vec::new(), columns, rows }
}
