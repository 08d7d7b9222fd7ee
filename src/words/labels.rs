//! Labels: what the choices of a comparison, its sheets and its parts are called on screen and on what is published.

use crate::frameset::{Material, Tube};
use crate::lineup::{AlignAt, Block, Movement, Shape, SheetBackground, StatementSubject};
use crate::parts::PartKind;
use crate::parts::contact_points::Handlebar;

/// What something is called on screen.
pub trait Label: Copy {
    /// One to four words.
    fn label(self) -> &'static str;
}

impl Label for AlignAt {
    fn label(self) -> &'static str {
        match self {
            Self::BottomBracket => "bottom bracket",
            Self::RearAxle => "rear axle",
            Self::FrontAxle => "front axle",
            Self::HeadTubeTop => "top of head tube",
            Self::Ground => "ground",
        }
    }
}

impl Label for StatementSubject {
    fn label(self) -> &'static str {
        match self {
            Self::Outline => "Outline",
            Self::Bags => "Frame bags",
            Self::Steering => "Steering",
            Self::Lengths => "Chainstay and wheelbase",
        }
    }
}

impl Label for Shape {
    fn label(self) -> &'static str {
        match self {
            Self::Wide => "16:9",
            Self::Upright => "9:16",
            Self::Square => "1:1",
            Self::BlogColumn => "Blog column",
            Self::A4 => "A4",
            Self::A4Landscape => "A4 landscape",
            Self::A3 => "A3",
            Self::A3Landscape => "A3 landscape",
        }
    }
}

impl Label for SheetBackground {
    fn label(self) -> &'static str {
        match self {
            Self::Light => "Light",
            Self::Dark => "Dark",
            Self::TransparentLight => "Transparent, for light film",
            Self::TransparentDark => "Transparent, light lines",
        }
    }
}

impl Label for Block {
    fn label(self) -> &'static str {
        match self {
            Self::Overview => "Overview",
            Self::Outline => "Outline",
            Self::Steering => "Steering",
            Self::StackAndReach => "Stack and reach",
            Self::Bags => "Bags",
            Self::RearFromAbove => "Rear from above",
            Self::Loaded => "Loaded",
            Self::Weights => "Weights",
            Self::PriceAgainstWeight => "Price against weight",
            Self::PriceAndClimb => "Price and climb",
            Self::Table => "Table of differences",
            Self::Captions => "Sentences",
            Self::Needs => "Needs",
            Self::Parts => "Parts",
            Self::Standards => "Standards",
            Self::Build => "Build",
        }
    }
}

impl Label for Movement {
    fn label(self) -> &'static str {
        match self {
            Self::Appear => "Frames appear one by one",
            Self::Change => "Each frame changes into the next",
            Self::Fork(_) => "The fork gets longer",
        }
    }
}

impl Label for PartKind {
    fn label(self) -> &'static str {
        match self {
            Self::FrontHub => "Front hub",
            Self::RearHub => "Rear hub",
            Self::Rims => "Rims",
            Self::Tyre => "Tyres",
            Self::FrontTyre => "Front tyre",
            Self::RearTyre => "Rear tyre",
            Self::Crank => "Crank",
            Self::BottomBracket => "Bottom bracket",
            Self::Headset => "Headset",
            Self::SeatPost => "Seat post",
            Self::FrontBrake => "Front brake",
            Self::RearBrake => "Rear brake",
            Self::FrontRotor => "Front rotor",
            Self::RearRotor => "Rear rotor",
            Self::FrontDerailleur => "Front derailleur",
            Self::GearHub => "Gear hub",
            Self::Belt => "Belt",
            Self::ForkCages => "Cages on the fork",
            Self::FrameCages => "Cages on the frame",
            Self::RearRack => "Rear rack",
            Self::FrontRack => "Front rack",
            Self::Mudguards => "Mudguards",
        }
    }
}

impl Label for Handlebar {
    fn label(self) -> &'static str {
        match self {
            Self::Flat { .. } => "flat bar",
            Self::Drop { .. } => "drop bar",
        }
    }
}

impl Label for Tube {
    fn label(self) -> &'static str {
        match self {
            Self::TopTube => "top tube",
            Self::DownTube => "down tube",
            Self::SeatTube => "seat tube",
            Self::HeadTube => "head tube",
            Self::ChainStay => "chainstay",
            Self::SeatStay => "seat stay",
            Self::ForkBlade => "fork blade",
            Self::SeatPost => "seat post",
        }
    }
}

impl Label for Material {
    fn label(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Aluminium => "aluminium",
            Self::Titanium => "titanium",
            Self::Carbon => "carbon",
        }
    }
}
