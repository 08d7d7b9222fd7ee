//! The fonts that travel with the program: the window, the measuring of text and the exporters all take these, so that
//! nothing depends on what a machine has installed.
//!
//! Open Sans (Apache License 2.0, see `assets/fonts/`), Latin, Greek and Cyrillic, with tabular digits.

use super::scene::Weight;

/// Open Sans Regular, a TrueType file.
pub const REGULAR: &[u8] = include_bytes!("../../assets/fonts/OpenSans-Regular.ttf");
/// Open Sans Semibold, a TrueType file.
pub const SEMIBOLD: &[u8] = include_bytes!("../../assets/fonts/OpenSans-Semibold.ttf");

/// The TrueType file of a weight.
#[must_use]
pub const fn file(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => REGULAR,
        Weight::Semibold => SEMIBOLD,
    }
}

/// The family's name as it stands in the file of a weight.
#[must_use]
pub const fn family(weight: Weight) -> &'static str {
    match weight {
        Weight::Regular => "Open Sans",
        Weight::Semibold => "Open Sans Semibold",
    }
}

/// The weight's number as CSS counts (400 is regular).
#[must_use]
pub const fn css_weight(weight: Weight) -> u16 {
    match weight {
        Weight::Regular => 400,
        Weight::Semibold => 600,
    }
}
