//! The JSON of `figures --json`: stable, documented in `docs/json.md`, checked by a test.
//!
//! Values are rounded to a tenth of a micrometre so that the same input gives the same bytes on every machine. Nothing
//! is gathered in between: each part writes itself from what was found.

use std::collections::BTreeMap;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use super::json_price_and_climb::{MoneyEntry, PriceAndClimbEntry, WeightsEntry};
use super::numbers::rounded;
use super::overview_json::AmongOthers;
use spandrel::frameset::{Figure, Frameset, Standard};
use spandrel::frameset::{FrameIndex, SizeIndex};
use spandrel::geometry::{Adjusted, AdjustedSize, Assumption, Missing, Point, Slip, Value, settled_by};
use spandrel::lineup::{Findings, Lineup, travel_mm, weights_of};
use spandrel::units::System;
use spandrel::words::slip_text;

/// One frameset's answer.
#[derive(Serialize)]
pub(super) struct Frame<'a> {
    file: &'a str,
    maker: &'a str,
    model: &'a str,
    #[serde(skip_serializing_if = "is_true")]
    settled: bool,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    notes: Vec<String>,
    slips: Vec<SlipEntry<'a>>,
    slip_free: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    measure: Option<Measure<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    suspension: Option<Suspension>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    standards: BTreeMap<String, &'a str>,
    sizes: Vec<Size<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    differences: Option<Differences<'a>>,
    money: Option<MoneyEntry>,
    price_and_climb: Option<PriceAndClimbEntry>,
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    fit: Option<super::fit_json::FitKeys<'a>>,
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    among_others: Option<AmongOthers>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_true(value: &bool) -> bool {
    *value
}

/// The measurement that would tell the causes of a doubt apart.
#[derive(Serialize)]
struct Measure<'a> {
    figure: &'static str,
    size: &'a str,
}

/// A frameset's own suspension fork.
#[derive(Serialize)]
struct Suspension {
    travel_mm: f64,
    sag_mm: f64,
}

/// The name of a standard in files as a key: `RearHub` is `rear_hub`.
fn standard_key(standard: Standard) -> String {
    let mut key = String::new();
    for c in format!("{standard:?}").chars() {
        if c.is_ascii_uppercase() && !key.is_empty() {
            key.push('_');
        }
        key.push(c.to_ascii_lowercase());
    }
    key
}

/// How the figures of the size compared differ from the reference's.
struct Differences<'a> {
    findings: &'a Findings,
    index: FrameIndex,
}

#[derive(Serialize)]
struct DifferenceEntry {
    value: f64,
    u: f64,
    clear: bool,
}

impl Serialize for Differences<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let stated = Figure::ALL.iter().filter_map(|figure| {
            let d = self.findings.difference(self.index, *figure)?;
            Some((figure.key(), DifferenceEntry { value: rounded(d.value), u: rounded(d.u), clear: d.is_clear() }))
        });
        serializer.collect_map(stated)
    }
}

#[derive(Serialize)]
struct Size<'a> {
    #[serde(rename = "size")]
    label: &'a str,
    figures: Figures<'a>,
    points: Points<'a>,
    bag_space: super::bag_space_json::BagSpace,
    missing: Vec<&'static str>,
    settled_by: SettledBy,
    weights: WeightsEntry,
}

/// One frame of a line-up, or of a line-up of its own; `compared` of a frame of a line-up, whose settings hold the parts,
/// the needs and the rider.
pub(super) fn frame<'a>(
    file: &'a str,
    lineup: &Lineup,
    findings: &'a Findings,
    index: FrameIndex,
    compared: Option<(super::fit_json::FitKeys<'a>, AmongOthers)>,
) -> Option<Frame<'a>> {
    let (fit, among_others) = compared.unzip();
    let (entry, found) = (index.of(&lineup.frames)?, index.of(&findings.frames)?);
    let frameset: &'a Frameset = &found.frameset;
    let units = lineup.settings.units;
    let sizes = SizeIndex::numbered(found.as_published.sizes.iter().zip(&frameset.sizes)).map(|(place, (size, printed))| Size {
        label: &size.label,
        figures: Figures(size),
        points: Points(size),
        bag_space: super::bag_space_json::BagSpace::of(frameset, printed, size),
        missing: size.missing().map(Figure::key).collect(),
        settled_by: SettledBy(settled_by(frameset, printed, size)),
        weights: WeightsEntry::of(units, frameset, &weights_of(entry, &found.as_published, place, &lineup.settings.weight)),
    });
    let worth = index.of(&findings.price_and_climb);
    Some(Frame {
        file,
        maker: &frameset.maker,
        model: &frameset.model,
        settled: found.as_published.converged,
        notes: findings
            .fit
            .get(index.0)
            .map(|f| f.statements.slips().iter().map(ToString::to_string).collect())
            .unwrap_or_default(),
        standards: frameset.standards.iter().map(|(standard, text)| (standard_key(*standard), text.as_str())).collect(),
        slips: found.as_published.slips.iter().map(|slip| SlipEntry::of(units, slip, &found.as_published)).collect(),
        slip_free: rounded(found.as_published.slip_free),
        measure: found.as_published.settling.map(|settling| Measure {
            figure: settling.figure.key(),
            size: settling.size.of(&found.as_published.sizes).map_or("", |s| s.label.as_str()),
        }),
        suspension: travel_mm(frameset)
            .map(|travel| Suspension { travel_mm: rounded(travel), sag_mm: rounded(lineup.settings.sag.of(frameset)) }),
        sizes: sizes.collect(),
        // A frame alone, and the reference itself, differ from nothing.
        differences: findings.reference.filter(|r| *r != index).map(|_| Differences { findings, index }),
        money: worth.map(|w| MoneyEntry::of(w, &lineup.settings.money)),
        price_and_climb: worth.map(|w| PriceAndClimbEntry::of(units, found.size_label(), w, &lineup.settings.price_and_climb)),
        fit,
        among_others,
    })
}

/// The figures of a size that are not missing.
struct Figures<'a>(&'a AdjustedSize);

impl Serialize for Figures<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let known = self.0.values().iter().filter(|v| !v.is_missing);
        serializer.collect_map(known.map(|v| (v.figure.key(), FigureEntry::of(v))))
    }
}

#[derive(Serialize)]
struct FigureEntry {
    value: f64,
    u: f64,
    unit: &'static str,
    origin: &'static str,
    assumed: Vec<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    published: Option<f64>,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    ignored: bool,
}

impl FigureEntry {
    fn of(value: &Value) -> Self {
        Self {
            value: rounded(value.value),
            u: rounded(value.u),
            unit: value.figure.file_unit(),
            origin: value.origin.key(),
            assumed: value.assumed.iter().map(Assumption::key).collect(),
            published: value.printed.map(rounded),
            ignored: value.is_ignored,
        }
    }
}

/// Something that is perhaps wrong with the table.
#[derive(Serialize)]
struct SlipEntry<'a> {
    kind: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    assumption: Option<&'static str>,
    probability: f64,
    used: bool,
    cells: Vec<SlipCellEntry<'a>>,
    text: String,
}

#[derive(Serialize)]
struct SlipCellEntry<'a> {
    figure: &'static str,
    size: &'a str,
    published: f64,
    expected: Expected,
}

#[derive(Serialize)]
struct Expected {
    value: f64,
    u: f64,
}

impl<'a> SlipEntry<'a> {
    fn of(units: System, slip: &Slip, adjusted: &'a Adjusted) -> Self {
        let labels = adjusted.size_labels();
        let cells = slip.cells.iter().map(|cell| SlipCellEntry {
            figure: cell.figure.key(),
            size: labels.get(cell.size.0).copied().unwrap_or_default(),
            published: rounded(cell.published),
            expected: Expected { value: rounded(cell.expected.value), u: rounded(cell.expected.u) },
        });
        Self {
            kind: slip.kind.key(),
            assumption: slip.assumption.map(|(assumption, _)| assumption.key()),
            probability: rounded(slip.chance),
            used: slip.is_used,
            cells: cells.collect(),
            text: slip_text(slip, &labels, units),
        }
    }
}

/// For each missing figure the sets that would settle it.
struct SettledBy(Vec<Missing>);

impl Serialize for SettledBy {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|missing| {
            let sets: Vec<Vec<&str>> = missing.sets.iter().map(|set| set.iter().map(|f| f.key()).collect()).collect();
            (missing.figure.key(), sets)
        }))
    }
}

/// The points that known figures fix.
struct Points<'a>(&'a AdjustedSize);

impl Serialize for Points<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let p = self.0.points();
        let known = |figures: &[Figure]| figures.iter().all(|f| !self.0.value(*f).is_missing);
        let head = known(&[Figure::Stack, Figure::Reach]);
        let tube = head && known(&[Figure::HeadAngle, Figure::HeadTube]);
        let fork = tube && known(&[Figure::AxleToCrownAlongAxis, Figure::ForkOffset]);
        let mut points = serializer.serialize_map(None)?;
        for (name, point, is_known) in [
            ("rear_axle", p.rear_axle, known(&[Figure::Chainstay, Figure::BbDrop])),
            ("front_axle", p.front_axle, fork),
            ("head_top", p.head_top, head),
            ("head_bottom", p.head_bottom, tube),
            ("crown", p.crown, tube && known(&[Figure::LowerHeadset])),
            ("seat_top", p.seat_top, known(&[Figure::SeatAngle, Figure::SeatTube])),
        ] {
            if is_known {
                points.serialize_entry(name, &pair(point))?;
            }
        }
        points.end()
    }
}

fn pair(point: Point<f64>) -> [f64; 2] {
    [rounded(point.x), rounded(point.y)]
}
