//! The rear seen from above in the JSON of `figures --json`: the key `rear` of each frame of a line-up, for its chosen size.

use serde::Serialize;

use super::numbers::{Pair, pair};
use spandrel::parts::RearView;
use spandrel::units::System;
use spandrel::words::rear_view_sentences;

/// The clearances of a frame's rear, mm.
#[derive(Serialize)]
pub(super) struct RearEntry {
    chain_to_tyre: Option<Pair>,
    /// Never known: stays are not published.
    crank_to_chainstay: Option<Pair>,
    says: Vec<String>,
}

impl RearEntry {
    pub(super) fn of(units: System, view: Option<&RearView>) -> Self {
        Self {
            chain_to_tyre: view.and_then(RearView::chain_to_tyre).map(pair),
            crank_to_chainstay: None,
            says: rear_view_sentences(units, view),
        }
    }
}
