//! Upper headset stack height: from the top of the head tube to the lowest spacer, along the steering axis. The rider enters
//! it for the reference; elsewhere it is assumed by the kind of upper headset that the maker publishes.
//!
//! SHIS names cup and bore, not the stack height: that differs from headset to headset of one code.

use super::super::stated::Statements;
use super::cockpit::Cockpit;
use crate::frameset::CupKind;
use crate::units::{Length, Measured};

/// Upper headset of a frame: its stack height, and how that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UpperHeadset {
    /// Stack height with its u; exact where it was entered.
    pub stack_height: Measured<Length>,
    /// Whether the rider entered it.
    pub is_entered: bool,
    /// The kind that the maker publishes, which an assumed height goes by.
    pub kind: Option<CupKind>,
}

/// Stack height that is assumed for a kind of cup, and its u, mm: trade practice, unverified (from memory).
#[must_use]
pub const fn assumed_upper_headset_mm(kind: Option<CupKind>) -> (f64, f64) {
    match kind {
        // The cup with its bearing stands outside the head tube, under a cover.
        Some(CupKind::External) => (13.0, 2.5),
        // A flange and a cover.
        Some(CupKind::SemiIntegrated) => (10.0, 3.0),
        // A cover alone, flat or conical.
        Some(CupKind::Integrated) => (8.0, 3.0),
        None => (10.0, 4.0),
    }
}

impl UpperHeadset {
    /// The headset of a frame, assumed by what its maker publishes.
    #[must_use]
    pub fn assumed(statements: &Statements) -> Self {
        let kind = statements.upper_headset.is().map(|end| end.kind);
        let (height, u) = assumed_upper_headset_mm(kind);
        Self { stack_height: Measured::new(height, u), is_entered: false, kind }
    }

    /// The headset of the reference: as entered for the cockpit, else assumed.
    #[must_use]
    pub fn of_reference(cockpit: &Cockpit, statements: &Statements) -> Self {
        let assumed = Self::assumed(statements);
        match cockpit.upper_headset_stack_height {
            Some(height) => Self { stack_height: Measured::exact(height), is_entered: true, ..assumed },
            None => assumed,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;

    fn statements(code: &str) -> Statements {
        let text = format!(
            "Frameset(format: 2, maker: \"Quern\", model: \"Halter\", standards: {{UpperHeadset: \"{code}\"}},
             sizes: [(label: \"M\", figures: {{Stack: 600, Reach: 390}})])"
        );
        Statements::of(&read_frameset(text.as_bytes()).unwrap())
    }

    #[test]
    fn the_published_kind_says_how_high_a_headset_stands() {
        for (code, kind) in [
            ("EC34/28.6", Some(CupKind::External)),
            ("zs 44/28.6", Some(CupKind::SemiIntegrated)),
            ("IS42/28.6", Some(CupKind::Integrated)),
            ("EC34/286", None),
            ("", None),
        ] {
            let found = UpperHeadset::assumed(&statements(code));
            let (height, u) = assumed_upper_headset_mm(kind);
            let expected = UpperHeadset { stack_height: Measured::new(height, u), is_entered: false, kind };
            assert_eq!(found, expected, "{code}");
        }
        let heights = [Some(CupKind::Integrated), Some(CupKind::SemiIntegrated), Some(CupKind::External)];
        assert!(heights.map(|k| assumed_upper_headset_mm(k).0).is_sorted());
    }

    #[test]
    fn what_was_entered_is_exact_and_of_the_reference_alone() {
        let said = statements("ZS44/28.6");
        let cockpit = Cockpit { upper_headset_stack_height: Some(15.0), ..Cockpit::default() };
        let entered = UpperHeadset::of_reference(&cockpit, &said);
        assert_eq!((entered.stack_height, entered.is_entered), (Measured::exact(15.0), true));
        let open = Cockpit { upper_headset_stack_height: None, ..cockpit };
        assert_eq!(UpperHeadset::of_reference(&open, &said), UpperHeadset::assumed(&said));
    }
}
