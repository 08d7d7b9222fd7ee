//! Calipers and rotors: why they fit or not, in sentences.

use super::super::lengths::trade_size;
use super::names::mount_name;
use crate::parts::standards::MountKind;
use crate::parts::{BrakeReason, RotorReason};

/// Why a caliper fits or not.
pub(super) fn brake_reason(reason: BrakeReason) -> String {
    let with_bolts = |kind: MountKind| match kind.bolts_mm() {
        Some((apart_mm, _)) => format!("{} (bolts {} apart)", mount_name(kind), trade_size(apart_mm)),
        None => mount_name(kind).to_owned(),
    };
    match reason {
        BrakeReason::Matches(kind) => format!("Caliper and mount are both {}.", mount_name(kind)),
        BrakeReason::KindsDiffer { own, mount } => {
            format!("Caliper: {}. Mount: {}.", with_bolts(own), with_bolts(mount))
        }
    }
}

/// Why a rotor fits or not.
pub(super) fn rotor_reason(reason: RotorReason) -> String {
    match reason {
        RotorReason::NoDiscMount(_) => NO_DISC_MOUNT.to_owned(),
        RotorReason::TooLarge { most_mm } => largest_rotor(most_mm),
        RotorReason::TooSmall { native_mm } => {
            format!("The mount starts at {}; a smaller rotor does not fit.", trade_size(native_mm))
        }
        RotorReason::MadeForIt { native_mm } => made_for(native_mm),
        RotorReason::Allowed { native_mm: Some(native_mm) } => {
            format!("The mount is made for a {} rotor, and the maker allows this one.", trade_size(native_mm))
        }
        RotorReason::Allowed { native_mm: None } => {
            "The maker allows this rotor; the size without an adapter is not published.".to_owned()
        }
        RotorReason::LargestUnknown { native_mm } => {
            format!("The mount is made for a {} rotor; the largest rotor is not published.", trade_size(native_mm))
        }
        RotorReason::NoSizePublished => "The maker publishes no rotor size.".to_owned(),
    }
}

/// That a mount is for a rim brake.
pub(super) const NO_DISC_MOUNT: &str = "The mount is for a rim brake, not for a disc brake.";

/// Largest rotor that the maker allows.
pub(super) fn largest_rotor(most_mm: f64) -> String {
    format!("The maker allows rotors up to {}.", trade_size(most_mm))
}

/// Rotor that the mount is made for.
pub(super) fn made_for(native_mm: f64) -> String {
    format!("The mount is made for a {} rotor.", trade_size(native_mm))
}
