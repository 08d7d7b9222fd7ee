//! The rear seen from above in the JSON of `figures --json`: the key `rear` of each frame of a line-up, for its chosen size.

use serde::Serialize;

use super::numbers::{Pair, pair};
use spandrel::parts::{RearGear, RearView};
use spandrel::units::System;
use spandrel::words::rear_view_sentences;

/// The chain in the chosen gear.
#[derive(Serialize)]
struct ChosenGear {
    ring: u8,
    sprocket: u8,
    off_straight_deg: Option<Pair>,
    chain_to_tyre: Option<Pair>,
}

/// The clearances of a frame's rear, mm.
#[derive(Serialize)]
pub(super) struct RearEntry {
    chain_to_tyre: Option<Pair>,
    rings_to_chainstay: Option<Pair>,
    rings_clear_by_maker: Option<bool>,
    crank_to_chainstay: Option<Pair>,
    #[serde(skip_serializing_if = "Option::is_none")]
    chosen_gear: Option<ChosenGear>,
    says: Vec<String>,
}

impl RearEntry {
    pub(super) fn of(units: System, view: Option<&RearView>, gear: Option<RearGear>) -> Self {
        let chosen = |gear: RearGear| {
            let chain = view.and_then(|v| v.chain_in(gear).ok());
            let (ring, sprocket) = (gear.ring, gear.sprocket);
            let off_straight_deg = chain.map(|c| pair(c.angle));
            ChosenGear { ring, sprocket, off_straight_deg, chain_to_tyre: chain.and_then(|c| c.to_tyre).map(pair) }
        };
        Self {
            chain_to_tyre: view.and_then(RearView::chain_to_tyre).map(pair),
            rings_to_chainstay: view.and_then(|v| v.rings_to_stay().ok()).map(pair),
            rings_clear_by_maker: view.and_then(|v| v.rings_clear),
            crank_to_chainstay: view.and_then(|v| v.arm_to_stay().ok()).map(pair),
            chosen_gear: gear.map(chosen),
            says: rear_view_sentences(units, view, gear),
        }
    }
}
