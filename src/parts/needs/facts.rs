//! What a frame is found to have of what a need asks.

use super::super::codes::codes;
use super::super::reasons::EyeletsFor;
use super::super::standards::{Attachment, HeadsetEnd, Hub, MountKind, PostRouting, ShellRow};
use super::super::stated::Unknown;
use super::measure::Measure;
use crate::frameset::{Bar, Figure, Material};
use crate::units::{AnyKind, Measured};

/// A fact that answers a need. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum NeedFact {
    /// The standard that would answer is not known.
    Unknown(Unknown),
    /// Most bosses on one side of the fork.
    BossesOnSide {
        /// Bosses there.
        there: u32,
        /// Bosses that are needed.
        needed: u32,
    },
    /// Places for cages on the fork.
    CagesOnFork {
        /// Places there.
        there: usize,
        /// Places that are needed.
        needed: u32,
    },
    /// Places for cages on the frame.
    CagesOnFrame {
        /// Places there.
        there: usize,
        /// Places that are needed.
        needed: u32,
    },
    /// Widest tyre on that wheel.
    WidestTyre {
        /// Its width.
        widest_mm: f64,
        /// Bead seat diameter of the wheel.
        bead_mm: f64,
        /// Crank spacing that it is tied to.
        with_spacing_mm: Option<f64>,
        /// Whether that is published for the frame and not for its fork.
        is_of_frame_only: bool,
    },
    /// Clearance is published for other wheels only.
    WheelNotPublished {
        /// Bead seat diameter that is asked.
        bead_mm: f64,
        /// Bead seat diameters that are published.
        published_mm: Vec<f64>,
    },
    /// The hub's axle is not published.
    AxleUnknown {
        /// Spacing of the hub.
        spacing_mm: f64,
    },
    /// The hub that the frame takes.
    Takes(Hub),
    /// The mount is not for a disc brake.
    NoDiscMount(MountKind),
    /// Largest rotor that the maker allows.
    LargestRotor {
        /// Diameter.
        most_mm: f64,
    },
    /// Rotor that the mount is made for.
    MountMadeFor {
        /// Diameter.
        native_mm: f64,
    },
    /// The largest rotor is not published.
    LargestRotorUnknown,
    /// The figure is unknown.
    FigureUnknown(Figure),
    /// The figure's value.
    FigureIs(Figure, Measured<AnyKind>),
    /// A weight, the price, the bag or the bottles are unknown.
    MeasureUnknown(Measure),
    /// How much there is of it, in g, litres, money or a count.
    MeasureIs(Measure, Measured<AnyKind>),
    /// The maker does not say what fork it is.
    ForkUnknown,
    /// A suspension fork.
    SuspensionFork {
        /// Its travel.
        travel_mm: f64,
    },
    /// A rigid fork.
    RigidFork,
    /// Brake mounts of both ends.
    BrakeMounts {
        /// Of the fork.
        front: MountKind,
        /// Of the frame.
        rear: MountKind,
    },
    /// Eyelets are published for it.
    Eyelets(EyeletsFor),
    /// Eyelets are published, and none for it.
    OtherEyelets(EyeletsFor),
    /// The maker says that there are no eyelets.
    NoEyelets,
    /// How a front derailleur is held.
    DerailleurMount(Attachment),
    /// The maker sells the dropouts for a gear hub.
    SoldForGearHub,
    /// Vertical dropouts do not tension the chain of a gear hub.
    ChainNotTensioned,
    /// The chain can be tensioned; a gear hub is not published.
    GearHubNotPublished,
    /// The frame opens for a belt.
    OpensForBelt,
    /// Vertical dropouts do not tension a belt.
    BeltNotTensioned,
    /// Whether the frame opens for a belt is not published.
    BeltOpeningUnknown,
    /// Where a dropper post's cable runs.
    DropperRouting(PostRouting),
    /// The maker does not say for which bar the frame is designed.
    BarUnknown,
    /// The bar that the frame is designed for.
    DesignedFor(Bar),
    /// The bottom bracket shell.
    Shell(&'static ShellRow),
    /// Both ends of the head tube.
    HeadTube {
        /// Upper end.
        upper: HeadsetEnd,
        /// Lower end.
        lower: HeadsetEnd,
    },
    /// The frame's material is not published.
    MaterialUnknown,
    /// The frame's material.
    MadeOf(Material),
}

codes!(NeedFact {
    Unknown => "standard_unknown",
    BossesOnSide => "fork_bosses",
    CagesOnFork => "fork_cages",
    CagesOnFrame => "frame_cages",
    WidestTyre => "widest_tyre",
    WheelNotPublished => "wheel_not_published",
    AxleUnknown => "axle_unknown",
    Takes => "hub",
    NoDiscMount => "no_disc_mount",
    LargestRotor => "largest_rotor",
    MountMadeFor => "mount_made_for",
    LargestRotorUnknown => "largest_rotor_unknown",
    FigureUnknown => "figure_unknown",
    FigureIs => "figure",
    MeasureUnknown => "measure_unknown",
    MeasureIs => "measure",
    ForkUnknown => "fork_unknown",
    SuspensionFork => "suspension_fork",
    RigidFork => "rigid_fork",
    BrakeMounts => "brake_mounts",
    Eyelets => "eyelets_published",
    OtherEyelets => "eyelets_for_other_things",
    NoEyelets => "eyelets_none",
    DerailleurMount => "front_derailleur_mount",
    SoldForGearHub => "sold_for_gear_hub",
    ChainNotTensioned => "chain_not_tensioned",
    GearHubNotPublished => "gear_hub_not_published",
    OpensForBelt => "opens_for_belt",
    BeltNotTensioned => "belt_not_tensioned",
    BeltOpeningUnknown => "belt_opening_unknown",
    DropperRouting => "dropper_routing",
    BarUnknown => "bar_unknown",
    DesignedFor => "designed_for_bar",
    Shell => "bottom_bracket_shell",
    HeadTube => "head_tube",
    MaterialUnknown => "material_unknown",
    MadeOf => "material",
});
