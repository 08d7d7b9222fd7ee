//! What it takes to build on a frame, in the JSON of `figures --json`: the key `build` of each frame of a line-up.

use serde::Serialize;

use super::numbers::{Pair, pair};
use spandrel::lineup::{Build, BuildItem, BuildRow, Lineup};
use spandrel::words::{build_item_text, not_priced_text};

/// A row of a build.
#[derive(Serialize)]
struct RowEntry {
    item: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    code: Option<&'static str>,
    #[serde(rename = "use")]
    is: &'static str,
    to_check: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    grams: Option<Pair>,
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why_no_price: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why_code: Option<&'static str>,
}

/// What it takes to build on a frame; amounts are decimal text.
#[derive(Serialize)]
pub(super) struct BuildEntry {
    currency: &'static str,
    rows: Vec<RowEntry>,
    parts_to_buy: String,
    price: String,
    grams: Pair,
    without_price: Vec<String>,
    without_weight: Vec<String>,
    price_difference: Option<String>,
    grams_difference: Option<Pair>,
}

impl BuildEntry {
    pub(super) fn of(lineup: &Lineup, build: &Build) -> Self {
        let plain = |text: String| text.replace(spandrel::units::THIN_SPACE, " ");
        let name = |item: &BuildItem| plain(build_item_text(lineup, item));
        let row = |row: &BuildRow| {
            let why = row.price.as_ref().and_then(|p| p.as_ref().err());
            RowEntry {
                item: name(&row.item),
                code: row.item.besides_key(),
                is: row.is.code(),
                to_check: row.to_check,
                grams: row.mass.map(pair),
                price: row.price.as_ref().and_then(|p| p.as_ref().ok()).map(|charge| charge.money.plain()),
                why_no_price: why.map(|why| plain(not_priced_text(why))),
                why_code: why.map(spandrel::money::NotPriced::code),
            }
        };
        Self {
            currency: build.price.currency.code(),
            rows: build.rows.iter().map(row).collect(),
            parts_to_buy: build.extra.plain(),
            price: build.price.plain(),
            grams: pair(build.mass),
            without_price: build.unpriced().map(name).collect(),
            without_weight: build.unweighed().map(name).collect(),
            price_difference: build.against.as_ref().and_then(|a| a.price).map(spandrel::money::Money::plain),
            grams_difference: build.against.as_ref().and_then(|a| a.mass).map(pair),
        }
    }
}
