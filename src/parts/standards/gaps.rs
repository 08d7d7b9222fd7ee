//! The least gap between a tyre and what it must not touch, as far as texts print it.

use super::super::source::Source;

/// Bicycles that a published least gap holds for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GapHoldsFor {
    /// City, trekking and mountain bicycles.
    CityTrekkingMountain,
    /// Racing bicycles.
    Racing,
    /// Bicycles sold in the United States.
    UnitedStates,
}

/// A published least gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapRow {
    /// Gap on each side, mm.
    pub gap_mm: f64,
    /// Where it holds.
    pub holds_for: GapHoldsFor,
    /// How it is known.
    pub source: Source,
}

/// The gaps, the widest first.
pub const GAPS: &[GapRow] = &[
    GapRow { gap_mm: 6.0, holds_for: GapHoldsFor::CityTrekkingMountain, source: Source::Standard("ISO 4210-2, from memory") },
    GapRow { gap_mm: 4.0, holds_for: GapHoldsFor::Racing, source: Source::Standard("EN 14781:2005, 4.10.2") },
    GapRow { gap_mm: 1.6, holds_for: GapHoldsFor::UnitedStates, source: Source::Standard("16 CFR 1512.11(b)") },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gaps_are_those_of_the_texts() {
        // EN 14781:2005, 4.10.2: 4 mm. 16 CFR 1512.11(b): 1/16 in.
        assert!(GAPS.iter().any(|g| g.gap_mm == 4.0 && g.source == Source::Standard("EN 14781:2005, 4.10.2")));
        assert!((GAPS[2].gap_mm - 25.4 / 16.0).abs() < 0.05);
    }
}
