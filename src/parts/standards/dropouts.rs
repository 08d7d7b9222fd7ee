//! Dropouts: whether they tension a chain without a derailleur, take a gear hub, and open for a belt.

use super::super::reading::{folded, says, says_any};
use super::{NotUnderstood, refused};

/// How a chain or belt is tensioned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tension {
    /// Vertical: not at all.
    None,
    /// Horizontal or track slots.
    Slots,
    /// Sliding or swinging dropouts.
    Sliding,
    /// Eccentric bottom bracket.
    Eccentric,
}

/// The dropouts of a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dropouts {
    /// How they tension.
    pub tension: Tension,
    /// Whether the maker sells them for a gear hub.
    pub is_for_gear_hub: bool,
    /// Whether the frame opens for a belt.
    pub opens_for_belt: bool,
}

impl Dropouts {
    /// Reads `vertical`, `sliding, gear hub and belt`, `horizontal`, `track`, `eccentric`.
    ///
    /// # Errors
    /// None of these.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        let tension = if says_any(&text, &["sliding", "sliders", "swinging", "rocker"]) {
            Tension::Sliding
        } else if says_any(&text, &["horizontal", "track", "track ends", "semi-horizontal"]) {
            Tension::Slots
        } else if says_any(&text, &["eccentric", "ebb"]) {
            Tension::Eccentric
        } else if says(&text, "vertical") {
            Tension::None
        } else {
            return refused(format!(
                "`{text}` is not a valid dropout type: write vertical, sliding, horizontal, track or eccentric"
            ));
        };
        if says(&text, "no") || says(&text, "without") {
            return refused(format!("`{text}` says what they lack: write what they are, such as sliding, gear hub"));
        }
        Ok(Self {
            tension,
            is_for_gear_hub: says_any(&text, &["gear hub", "gear hubs", "internal gears", "hub gear", "hub gears"]),
            opens_for_belt: says(&text, "belt"),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dropouts_are_read() {
        let sliding = Dropouts::read("sliding, gear hub and belt").unwrap();
        assert_eq!((sliding.tension, sliding.is_for_gear_hub, sliding.opens_for_belt), (Tension::Sliding, true, true));
        assert_eq!(Dropouts::read("Vertical").unwrap().tension, Tension::None);
        assert!(Dropouts::read("hooded").is_err());
        assert!(Dropouts::read("sliding, no belt").is_err(), "not taken for a belt");
    }
}
