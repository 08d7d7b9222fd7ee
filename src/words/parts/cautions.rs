//! Cautions and sources beside a verdict: the risk, then what to do.

use crate::parts::{Caution, Source};

/// A caution in sentences.
#[must_use]
pub const fn caution_text(caution: Caution) -> &'static str {
    match caution {
        Caution::TyreGap => {
            "A tyre that touches frame or fork can cause a crash, and a tyre can measure wider than its label. Keep to the maker's \
             limit and local rules. Have a competent mechanic check the gap on the built bicycle."
        }
        Caution::TyreOnRim => {
            "A tyre on a rim too narrow or too wide for it can come off. Keep to the limits of the makers of tyre and rim."
        }
        Caution::ColdSetting => {
            "Cold-setting can crack aluminium and carbon, and the maker may forbid it for steel. Leave it to a frame builder. Have \
             a competent mechanic check the built bicycle."
        }
        Caution::ForkLength => {
            "A longer fork loads the frame more and changes the steering. Keep to the maker's limits. Have a competent mechanic \
             check the built bicycle."
        }
        Caution::Rotor => {
            "A larger rotor loads frame and fork more. Keep to the maker's largest rotor. Have a competent mechanic check the built \
             bicycle."
        }
        Caution::PostInsertion => {
            "A seat post that is inserted too little can break the frame. Keep to the post's mark and the frame maker's minimum \
             insertion. Have a competent mechanic check the built bicycle."
        }
        Caution::Spacers => {
            "Too many spacers can break a steerer. Keep to the limits of the makers of fork and stem. Have a competent mechanic \
             check the built bicycle."
        }
        Caution::Toe => {
            "Toe overlap can cause a crash. Check it on the built bicycle, with its mudguard. Local rules come first."
        }
        Caution::Headset => {
            "A headset that does not match can work loose. Measure head tube and fork. Have a competent mechanic check the built \
             bicycle."
        }
    }
}

/// Where a verdict's numbers come from: `trade practice, unverified`.
#[must_use]
pub const fn source_text(source: Source) -> &'static str {
    match source {
        Source::Standard(name) => name,
        Source::TradePractice => "trade practice, unverified",
        Source::Maker => "published by the maker",
        Source::Arithmetic => "computed from what the maker publishes",
    }
}
