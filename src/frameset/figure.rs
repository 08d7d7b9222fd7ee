//! The figures: everything a geometry table may print, with its name in files, its name on screen, what it means, its
//! unit and the range in which a printed value is believed to be in that unit at all.
//!
//! One table ([`Figure::about`]) holds it all, so that adding a figure is one line here and one formula in `geometry`.

use serde::{Deserialize, Serialize};

use crate::units::Quantity;

macro_rules! figures {
    ($($(#[doc = $doc:literal])* $name:ident $(was $old:literal)?, $key:literal, $label:literal, $quantity:ident, $low:literal ..= $high:literal, $printed:literal;)*) => {
        /// A figure of one frame in one size. Signs, axes and definitions are those of the variants' descriptions:
        /// side view, bicycle facing right, origin at the bottom bracket, x forward, y up.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Figure { $($(#[doc = $doc])* $(#[serde(alias = $old)])? $name,)* }

        impl Figure {
            /// Every figure, in the order of tables.
            pub const ALL: &'static [Figure] = &[$(Figure::$name,)*];
            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();

            /// All that is fixed about the figure.
            #[must_use]
            pub const fn about(self) -> &'static About {
                match self {
                    $(Figure::$name => &About {
                        name: stringify!($name), key: $key, label: $label, meaning: concat!($($doc),*),
                        quantity: Quantity::$quantity, low: $low, high: $high, in_files: $printed,
                    },)*
                }
            }
        }
    };
}

/// What is fixed about a figure.
#[derive(Debug)]
pub struct About {
    /// Its name in frame files.
    pub name: &'static str,
    /// Its name in JSON.
    pub key: &'static str,
    /// Its name on screen.
    pub label: &'static str,
    /// One sentence for tooltips.
    pub meaning: &'static str,
    /// Length or angle.
    pub quantity: Quantity,
    /// Least accepted printed value, mm or degrees.
    pub low: f64,
    /// Greatest accepted printed value, mm or degrees.
    pub high: f64,
    /// Whether a frame file may print it (the rest are only computed).
    pub in_files: bool,
}

figures! {
    /** Height of the centre of the top of the head tube above the bottom bracket. */
    Stack, "stack", "Stack", Length, 300.0..=900.0, true;
    /** How far the centre of the top of the head tube lies ahead of the bottom bracket. */
    Reach, "reach", "Reach", Length, 200.0..=650.0, true;
    /** The steering axis from the horizontal. */
    HeadAngle, "head_angle", "Head angle", Angle, 50.0..=90.0, true;
    /** The effective seat angle: the line from the bottom bracket to where the horizontal line through the top of the head tube meets the seat post's axis. */
    SeatAngle, "seat_angle", "Seat angle (effective)", Angle, 50.0..=90.0, true;
    /** The seat tube's own angle from the horizontal. */
    SeatTubeAngle, "seat_tube_angle", "Seat tube angle", Angle, 50.0..=90.0, true;
    /** How far behind the bottom bracket the seat tube's axis passes at bottom bracket height; 0 is straight through it. */
    SeatTubeSetback, "seat_tube_setback", "Seat tube setback", Length, -150.0..=250.0, true;
    /** Horizontal distance from the top of the head tube to the seat post's axis. */
    EffectiveTopTube, "effective_top_tube", "Effective top tube", Length, 400.0..=800.0, true;
    /** The top tube's centre line from junction to junction. */
    TopTube, "top_tube", "Top tube", Length, 300.0..=800.0, true;
    /** Length of the head tube along the steering axis. */
    HeadTube, "head_tube", "Head tube", Length, 40.0..=400.0, true;
    /** From the bottom of the head tube to the crown race seat, along the steering axis. */
    LowerHeadset, "lower_headset", "Lower headset stack height", Length, 0.0..=40.0, true;
    /** From the crown race seat to the front axle, measured along the steering axis. */
    AxleToCrownAlongAxis was "ForkLengthAlong", "axle_to_crown_along_axis", "Axle-to-crown along the steering axis", Length, 250.0..=650.0, true;
    /** From the crown race seat directly to the front axle. */
    AxleToCrownDirect was "ForkLengthStraight", "axle_to_crown_direct", "Axle-to-crown, direct", Length, 250.0..=650.0, true;
    /** Axle-to-crown where the maker does not say how it is measured: halfway between along the steering axis and direct. */
    AxleToCrown was "ForkLength", "axle_to_crown", "Axle-to-crown", Length, 250.0..=650.0, true;
    /** How far the front axle lies ahead of the steering axis, at right angles to it. */
    ForkOffset, "fork_offset", "Fork offset", Length, -100.0..=150.0, true;
    /** From the bottom bracket directly to the rear axle. */
    Chainstay, "chainstay", "Chainstay", Length, 300.0..=650.0, true;
    /** Horizontal distance from the bottom bracket to the rear axle. */
    ChainstayHorizontal was "ChainstayLevel", "chainstay_horizontal", "Chainstay, horizontal", Length, 300.0..=650.0, true;
    /** How far the bottom bracket lies below the rear axle. */
    BbDrop, "bb_drop", "Bottom bracket drop", Length, -120.0..=150.0, true;
    /** Height of the bottom bracket above the ground: rear tyre radius less the drop. */
    BbHeight, "bb_height", "Bottom bracket height", Length, 150.0..=450.0, true;
    /** Horizontal distance between the axles. */
    Wheelbase, "wheelbase", "Wheelbase", Length, 700.0..=1600.0, true;
    /** From the bottom bracket directly to the front axle. */
    FrontCentre, "front_centre", "Front centre", Length, 400.0..=1100.0, true;
    /** Horizontal distance from the bottom bracket to the front axle. */
    FrontCentreHorizontal was "FrontCentreLevel", "front_centre_horizontal", "Front centre, horizontal", Length, 400.0..=1100.0, true;
    /** Distance along the ground from the steering axis back to the front tyre's contact point. */
    Trail, "trail", "Trail", Length, -60.0..=250.0, true;
    /** From the bottom bracket to the top of the seat tube, along the tube. */
    SeatTube, "seat_tube", "Seat tube", Length, 200.0..=800.0, true;
    /** Height of the top tube's upper edge above the ground, midway between its junctions. */
    Standover, "standover", "Standover", Length, 400.0..=1100.0, true;
    /** Trail measured at right angles to the steering axis, also called normal trail. */
    MechanicalTrail, "mechanical_trail", "Mechanical trail", Length, -60.0..=250.0, false;
    /** Trail · sin · cos of the head angle: a factor for how readily the front falls into a turn, not a drop in millimetres. */
    WheelFlop, "wheel_flop", "Wheel flop factor", Length, -60.0..=250.0, false;
    /** Radius of the front tyre as it stands. */
    FrontTyreRadius, "front_tyre_radius", "Front tyre radius", Length, 100.0..=500.0, false;
    /** Radius of the rear tyre as it stands. */
    RearTyreRadius, "rear_tyre_radius", "Rear tyre radius", Length, 100.0..=500.0, false;
}

impl Figure {
    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        self.about().label
    }

    /// Name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        self.about().key
    }

    /// One sentence on what it means.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        self.about().meaning.trim()
    }

    /// Length or angle.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        self.about().quantity
    }

    /// Whether it is an angle (degrees) rather than a length (millimetres).
    #[must_use]
    pub const fn is_angle(self) -> bool {
        matches!(self.about().quantity, Quantity::Angle)
    }

    /// The unit's name in files: `mm` or `deg`.
    #[must_use]
    pub const fn file_unit(self) -> &'static str {
        if self.is_angle() { "deg" } else { "mm" }
    }

    /// The figures that a frame file may print.
    pub fn printable() -> impl Iterator<Item = Figure> {
        Self::ALL.iter().copied().filter(|f| f.about().in_files)
    }

    /// The figure of that name in files, letter for letter.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Figure> {
        Self::ALL.iter().copied().find(|f| f.about().name == name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `HeadAngle` → `head_angle`.
    fn snake_case(name: &str) -> String {
        let mut snake = String::new();
        for c in name.chars() {
            if c.is_ascii_uppercase() && !snake.is_empty() {
                snake.push('_');
            }
            snake.push(c.to_ascii_lowercase());
        }
        snake
    }

    #[test]
    fn keys_are_the_names_in_snake_case_and_all_differ() {
        for figure in Figure::ALL {
            assert_eq!(figure.key(), snake_case(figure.about().name));
            assert!(figure.meaning().ends_with('.'), "{figure:?} explains itself in a sentence");
            assert_eq!(Figure::ALL[*figure as usize], *figure);
        }
        let labels: std::collections::BTreeSet<_> = Figure::ALL.iter().map(|f| f.label()).collect();
        assert_eq!(labels.len(), Figure::COUNT);
    }
}
