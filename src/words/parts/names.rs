//! Names of standards inside sentences.

use super::super::lengths::{number, trade_size};
use crate::parts::standards::{Axle, GapHoldsFor, Hub, MountKind, Pull, ShellRow, Thread, Wheel};
use crate::parts::{ClearanceOf, EyeletsFor};

/// `front`, `rear`.
pub(super) const fn end_name(end: Wheel) -> &'static str {
    match end {
        Wheel::Front => "front",
        Wheel::Rear => "rear",
    }
}

/// `12 mm through axle`.
pub(super) fn axle_name(axle: Axle) -> String {
    match axle {
        Axle::QuickRelease => "quick release".to_owned(),
        Axle::Nutted => "nutted axle".to_owned(),
        Axle::Through(Some(mm)) => format!("{} through axle", trade_size(mm)),
        Axle::Through(None) => "through axle".to_owned(),
    }
}

/// `142 mm, 12 mm through axle`.
pub(super) fn hub_name(hub: Hub) -> String {
    match hub.axle {
        Some(axle) => format!("{}, {}", trade_size(hub.spacing_mm), axle_name(axle)),
        None => trade_size(hub.spacing_mm),
    }
}

/// `post mount`.
pub(super) const fn mount_name(mount: MountKind) -> &'static str {
    match mount {
        MountKind::International => "IS",
        MountKind::Post => "post mount",
        MountKind::Flat => "flat mount",
        MountKind::RimBosses => "rim brake bosses",
        MountKind::RimHole => "rim brake hole",
    }
}

/// `BSA (threaded, 1.37 in × 24)`.
pub(super) fn shell_name(row: &ShellRow) -> String {
    let held = if row.thread == Thread::Threaded { "threaded" } else { "press-fit" };
    format!("{} ({held}, {})", row.name, row.bore)
}

/// `top`, `bottom`.
pub(super) const fn pull_name(pull: Pull) -> &'static str {
    match pull {
        Pull::Top => "top",
        Pull::Bottom => "bottom",
        Pull::Front => "front",
    }
}

/// What a published gap holds for.
pub(super) const fn gap_holds_for(of: GapHoldsFor) -> &'static str {
    match of {
        GapHoldsFor::CityTrekkingMountain => "city, trekking and mountain bicycles",
        GapHoldsFor::Racing => "racing bicycles",
        GapHoldsFor::UnitedStates => "bicycles sold in the United States",
    }
}

/// `the frame`, `the fork`.
pub(super) const fn clearance_of(of: ClearanceOf) -> &'static str {
    match of {
        ClearanceOf::Frame => "the frame",
        ClearanceOf::Fork => "the fork",
        ClearanceOf::OwnFork => "the frame's own fork",
    }
}

/// `a rear rack`.
pub(super) const fn eyelets_for(what: EyeletsFor) -> &'static str {
    match what {
        EyeletsFor::Rack(Wheel::Front) => "a front rack",
        EyeletsFor::Rack(Wheel::Rear) => "a rear rack",
        EyeletsFor::Mudguard(Wheel::Front) => "a front mudguard",
        EyeletsFor::Mudguard(Wheel::Rear) => "a rear mudguard",
        EyeletsFor::BothMudguards => "mudguards at both ends",
        EyeletsFor::EitherMudguard => "a mudguard at either end",
    }
}

/// A tyre by its designation from width and bead seat, mm: `57-622`.
pub(super) fn designation(width_mm: f64, bead_mm: f64) -> String {
    format!("{}-{}", number(width_mm), number(bead_mm))
}

/// Wheels by their bead seats, mm: `622 and 584`.
pub(super) fn wheels(bead_seats_mm: &[f64]) -> String {
    let names: Vec<String> = bead_seats_mm.iter().map(|w| number(*w)).collect();
    crate::units::listed(names.iter().map(String::as_str))
}

/// Counts at places: `3 and 3`.
pub(super) fn counts(places: &[u32]) -> String {
    let counts: Vec<String> = places.iter().map(ToString::to_string).collect();
    crate::units::listed(counts.iter().map(String::as_str))
}
