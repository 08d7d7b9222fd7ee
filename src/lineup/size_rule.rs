//! How frames of a line-up get their sizes: alike in fit, or by their labels.

use serde::{Deserialize, Serialize};

use crate::frameset::{Frameset, SizeIndex};

/// How frames get their sizes, but for those chosen by hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum SizeRule {
    /// The size closest in fit to the reference's: by reach at the reference's bar height.
    SameFit,
    /// The size with the reference's label, when a frame is added. What older files mean.
    #[default]
    AsPublished,
}

impl SizeRule {
    /// All, in the order of menus.
    pub const ALL: [Self; 2] = [Self::SameFit, Self::AsPublished];

    #[expect(clippy::trivially_copy_pass_by_ref, reason = "what is written to files is asked by reference")]
    pub(super) const fn is_as_published(&self) -> bool {
        matches!(self, Self::AsPublished)
    }
}

/// Where the rule finds a size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum RuledBy {
    /// Its reach is closest.
    Fit,
    /// It has the reference's label.
    Label,
    /// It stands at the reference's place in the row of sizes.
    Place,
}

/// The size with the label that `like` is compared in, else the one at the same place in the row, from the smallest size to
/// the largest.
pub(super) fn same_label(like: &Frameset, label: &str, frameset: &Frameset) -> (SizeIndex, RuledBy) {
    let folded = |label: &str| label.trim().to_lowercase();
    if let Some(place) = frameset.sizes.iter().position(|s| folded(&s.label) == folded(label)) {
        return (SizeIndex(place), RuledBy::Label);
    }
    let last = frameset.sizes.len().saturating_sub(1);
    let place = match like.sizes.len() {
        0 | 1 => frameset.sizes.len() / 2,
        // To the nearest place: halves go up.
        count => (2 * like.size_index(label).unwrap_or_default().0 * last + count - 1) / (2 * (count - 1)),
    };
    (SizeIndex(place.min(last)), RuledBy::Place)
}
