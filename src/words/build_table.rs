//! What it takes to build on each frame, as a table: frameset and parts down, frames across, the sums below.

use super::comparison_table::NOT_PUBLISHED;
use super::fit_table::{FitCell, FitMark, FitRow, FitTable, open, plain};
use super::labels::Label;
use super::parts::extra_text;
use super::price_and_climb::{is_in_tables, name_of};
use super::prices::{charge_text, not_priced_text};
use crate::frameset::FrameIndex;
use crate::lineup::{Build, BuildItem, BuildRow, BuildUse, Findings, Lineup};
use crate::money::{Money, NotPriced};
use crate::parts::Extra;
use crate::parts::standards::Wheel;
use crate::units::{System, capitalised, listed};

/// Said below the table of builds.
pub const BUILD_NOTE: &str = "Of several parts of one kind the first that fits is used. Prices and weights are those that were \
                              entered; what is not entered is not counted. A frame that is not sold alone counts at the \
                              frameset's price.";

/// What an item of a build is, with what was entered of it: `Rear hub 142 x 12`.
#[must_use]
pub fn build_item_text(lineup: &Lineup, item: &BuildItem) -> String {
    let list = &lineup.settings.parts;
    match item {
        BuildItem::Frameset => "Frameset".to_owned(),
        BuildItem::Fork => match &list.fork {
            Some(fork) if !fork.name.is_empty() => fork.name.clone(),
            _ => "Fork of the build".to_owned(),
        },
        BuildItem::Part(place) => match list.parts.get(*place) {
            Some(part) if !part.name.is_empty() => part.name.clone(),
            Some(part) => format!("{} {}", part.kind.label(), part.text),
            None => String::new(),
        },
        BuildItem::Extra(extra, wheel) => {
            let name = extra_name(lineup.settings.units, *extra);
            match wheel {
                Some(Wheel::Front) => format!("{name} (front)"),
                Some(Wheel::Rear) => format!("{name} (rear)"),
                None => name,
            }
        }
        BuildItem::Another(kind) => format!("{}, not listed", kind.label()),
        BuildItem::ThroughAxle(Wheel::Front) => "Front through axle".to_owned(),
        BuildItem::ThroughAxle(Wheel::Rear) => "Rear through axle".to_owned(),
    }
}

/// An extra part without its article: `Chain tensioner`.
fn extra_name(units: System, extra: Extra) -> String {
    let text = extra_text(units, extra);
    let bare = ["a ", "an ", "the "].into_iter().find_map(|article| text.strip_prefix(article)).unwrap_or(&text);
    capitalised(bare)
}

/// Sorts of parts that a build lacks, and axles, as the frame publishes them.
fn published(findings: &Findings, frame: FrameIndex, item: &BuildItem) -> Option<String> {
    use crate::frameset::Standard;
    use crate::parts::PartKind;
    let standards = &frame.of(&findings.frames)?.frameset.standards;
    let of = |wanted: &[Standard]| {
        let found: Vec<&str> = wanted.iter().filter_map(|s| standards.get(s)).map(String::as_str).collect();
        (!found.is_empty()).then(|| found.join(" | "))
    };
    match item {
        BuildItem::Another(PartKind::Headset) => of(&[Standard::UpperHeadset, Standard::LowerHeadset]),
        BuildItem::Another(PartKind::BottomBracket) => of(&[Standard::BottomBracket]),
        BuildItem::Another(PartKind::SeatPost) => of(&[Standard::SeatPost]),
        BuildItem::Another(PartKind::RearHub) | BuildItem::ThroughAxle(Wheel::Rear) => of(&[Standard::RearHub]),
        BuildItem::Another(PartKind::FrontHub) | BuildItem::ThroughAxle(Wheel::Front) => of(&[Standard::FrontHub]),
        BuildItem::Another(PartKind::Crank) => of(&[Standard::CrankSpacing]),
        BuildItem::Another(PartKind::FrontDerailleur) => of(&[Standard::FrontDerailleur]),
        _ => None,
    }
}

fn cell(lineup: &Lineup, findings: &Findings, frame: FrameIndex, row: &BuildRow) -> FitCell {
    let mass = row.mass.map(|m| m.text(lineup.settings.units));
    let (price, why) = match &row.price {
        Some(Ok(charge)) => (Some(charge.money.text()), charge_text(&charge.steps)),
        Some(Err(NotPriced::NotPublished)) | None => (None, String::new()),
        Some(Err(why)) => (None, capitalised(&not_priced_text(why))),
    };
    let is = match row.is {
        BuildUse::Used => "used",
        BuildUse::ToBuy if row.item == BuildItem::Frameset => "",
        BuildUse::ToBuy => "to buy",
        BuildUse::NotNeeded => return open("not needed", "Another listed part of this kind fits and is used."),
        BuildUse::CannotBeUsed => {
            let why = "The table of parts says why.";
            return FitCell { text: "cannot be used".to_owned(), detail: why.to_owned(), mark: FitMark::No };
        }
    };
    let sort = published(findings, frame, &row.item);
    let is_priced = row.price.as_ref().is_none_or(Result::is_ok);
    let missing = match (is_priced, row.mass.is_some(), &row.item) {
        (false, false, BuildItem::Frameset) => NOT_PUBLISHED,
        (false, false, _) => "no price or weight",
        (false, true, _) => "no price",
        (true, false, _) => "no weight",
        (true, true, _) => "",
    };
    let check = if row.to_check { "check that it fits" } else { "" };
    let told = [Some(is.to_owned()), sort, price, mass, Some(missing.to_owned()), Some(check.to_owned())];
    let text = told.into_iter().flatten().filter(|t| !t.is_empty()).collect::<Vec<_>>().join(", ");
    let axle = if matches!(row.item, BuildItem::ThroughAxle(_)) { "Unless it comes with the frameset." } else { "" };
    let detail = [why.as_str(), axle].into_iter().filter(|t| !t.is_empty()).collect::<Vec<_>>().join(" ");
    if row.to_check { open(text, detail) } else { plain(text, detail) }
}

/// Items in words, or nothing where there are none.
fn without(lineup: &Lineup, items: Vec<&BuildItem>) -> Option<String> {
    let names: Vec<String> = items.into_iter().map(|i| crate::units::lower_first(&build_item_text(lineup, i))).collect();
    (!names.is_empty()).then(|| format!("Without {}.", listed(names.iter().map(String::as_str))))
}

fn summed(text: String, missing: Option<String>) -> FitCell {
    match missing {
        Some(missing) => open(format!("{text}, incomplete"), missing),
        None => plain(text, ""),
    }
}

/// The builds on the shown frames (and the reference); none without a list of parts.
pub(super) fn builds_in_tables<'a>(lineup: &Lineup, findings: &'a Findings) -> Vec<(FrameIndex, &'a Build)> {
    if lineup.settings.parts.is_empty() {
        return Vec::new();
    }
    let frames = FrameIndex::numbered(&findings.frames).filter(|(i, f)| is_in_tables(findings, *i, f));
    frames.filter_map(|(i, _)| Some((i, i.of(&findings.builds)?))).collect()
}

/// What it takes to build on the shown frames (and the reference). Without a list of parts it has no rows.
#[must_use]
pub fn build_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let builds = builds_in_tables(lineup, findings);
    let frames: Vec<FrameIndex> = builds.iter().map(|(i, _)| *i).collect();
    let columns = frames.iter().filter_map(|i| i.of(&findings.frames)).map(name_of).collect();
    let corner = "Build".to_owned();
    if builds.is_empty() {
        return FitTable { corner, frames, columns, rows: Vec::new() };
    }
    let mut items: Vec<BuildItem> = Vec::new();
    for item in builds.iter().flat_map(|(_, b)| &b.rows).map(|r| r.item) {
        if !items.iter().any(|known| known.is_same(&item)) {
            items.push(item);
        }
    }
    // What is listed first, then what is needed besides.
    items.sort_by_key(|item| item.besides_key().is_some());
    let mut rows: Vec<FitRow> = items
        .iter()
        .map(|item| FitRow {
            label: build_item_text(lineup, item),
            cells: builds
                .iter()
                .map(|(frame, build)| match build.rows.iter().find(|r| r.item.is_same(item)) {
                    Some(row) => cell(lineup, findings, *frame, row),
                    None => plain("–", "Not needed on this frame."),
                })
                .collect(),
        })
        .collect();
    let sum = |label: String, cell: &dyn Fn(FrameIndex, &Build) -> FitCell| FitRow {
        label,
        cells: builds.iter().map(|(frame, build)| cell(*frame, build)).collect(),
    };
    let units = lineup.settings.units;
    let base = findings.reference_frame().map_or("the reference", |f| f.letter.as_str());
    rows.push(sum("Listed parts that cannot be used".to_owned(), &|_, build| plain(build.unusable().count().to_string(), "")));
    rows.push(sum("Parts to buy".to_owned(), &|_, build| {
        let missing = build.unpriced().filter(|i| **i != BuildItem::Frameset).collect();
        summed(build.extra.text(), without(lineup, missing))
    }));
    rows.push(sum("Complete bicycle, price".to_owned(), &|_, build| {
        summed(build.price.text(), without(lineup, build.unpriced().collect()))
    }));
    rows.push(sum("Complete bicycle, weight".to_owned(), &|_, build| {
        summed(build.mass.text(units), without(lineup, build.unweighed().collect()))
    }));
    let against = |frame: FrameIndex, text: Option<String>, why: &str| match text {
        _ if findings.reference == Some(frame) => plain("reference", ""),
        Some(text) => plain(text, ""),
        None => open("unknown", why),
    };
    rows.push(sum(format!("Price, difference from {base}"), &|frame, build| {
        let price = build.against.as_ref().and_then(|a| a.price);
        against(frame, price.map(Money::signed_text), "One of the two bicycles lacks a price.")
    }));
    rows.push(sum(format!("Weight, difference from {base}"), &|frame, build| {
        let mass = build.against.as_ref().and_then(|a| a.mass);
        against(frame, mass.map(|m| m.signed_text(units)), "One of the two bicycles lacks a weight.")
    }));
    FitTable { corner, frames, columns, rows }
}
