//! What every target checks beyond not falling over.

use spandrel::frameset::{Frameset, read_frameset, write_frameset};
use spandrel::geometry::adjust;

/// Nothing that a frameset leads to is NaN or infinite.
///
/// # Panics
/// Where a shown value is not finite.
pub fn answers_without_nan(frameset: &Frameset) {
    for size in &adjust(frameset).sizes {
        for value in size.values().iter().filter(|v| !v.is_missing) {
            assert!(value.value.is_finite() && value.u.is_finite() && value.u >= 0.0, "{value:?}");
        }
    }
}

/// What is written reads back as the same.
///
/// # Panics
/// Where it does not.
pub fn comes_back(frameset: &Frameset) {
    let text = write_frameset(frameset).expect("a frameset can be written");
    let again = read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e}\n{text}"));
    assert_eq!(&again, frameset, "{text}");
}
