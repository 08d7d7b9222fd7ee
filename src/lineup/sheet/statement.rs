//! A statement: one finding as a picture's headline, with the drawing and the few differences that bear it out.

use serde::{Deserialize, Serialize};

use crate::frameset::Figure;

/// What a statement picture is about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum StatementSubject {
    /// The frame's shape as a whole.
    #[default]
    Outline,
    /// The frame bags.
    Bags,
    /// Steering geometry.
    Steering,
    /// Chainstay and wheelbase.
    Lengths,
}

impl StatementSubject {
    /// All, in the order of menus.
    pub const ALL: [Self; 4] = [Self::Outline, Self::Bags, Self::Steering, Self::Lengths];

    /// The figures that its callouts may tell of.
    #[must_use]
    pub const fn figures(self) -> &'static [Figure] {
        match self {
            Self::Outline => &[
                Figure::Stack,
                Figure::Reach,
                Figure::HeadAngle,
                Figure::SeatAngle,
                Figure::Chainstay,
                Figure::BbDrop,
                Figure::Wheelbase,
                Figure::AxleToCrownAlongAxis,
                Figure::Trail,
                Figure::Standover,
            ],
            Self::Bags => &[Figure::Stack, Figure::SeatTube, Figure::Standover],
            Self::Steering => {
                &[Figure::Trail, Figure::HeadAngle, Figure::ForkOffset, Figure::AxleToCrownAlongAxis, Figure::Wheelbase]
            }
            Self::Lengths => &[Figure::Chainstay, Figure::Wheelbase, Figure::FrontCentre],
        }
    }

    /// The figure that its headline is about where that one differs clearly; `None` where it is the largest difference.
    #[must_use]
    pub const fn leading(self) -> Option<Figure> {
        match self {
            Self::Steering => Some(Figure::Trail),
            Self::Lengths => Some(Figure::Wheelbase),
            Self::Outline | Self::Bags => None,
        }
    }
}

/// What the user chose about a statement picture.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Statement {
    /// What it is about.
    pub about: StatementSubject,
    /// Name of the frame that is compared with the reference; the first other frame shown where it is empty or gone.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub frame: String,
}
