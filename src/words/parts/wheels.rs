//! Hubs, rims and tyres: why they fit or not, in sentences.

use super::super::lengths::{length, length_to_whole, lengths, number, trade_size, trade_sizes};
use super::names::{axle_name, clearance_of, designation, gap_holds_for, hub_name, wheels};
use crate::parts::standards::RimWidth;
use crate::parts::{HubReason, RimReason, TyreReason};
use crate::units::{System, capitalised};
use crate::words::Label;

/// Why a hub fits or not.
pub(super) fn hub_reason(units: System, reason: &HubReason) -> String {
    match *reason {
        HubReason::Matches(hub) => format!("Hub and dropouts are both {}.", hub_name(hub)),
        HubReason::OtherEndsUnused => "The hub's other end caps are not needed.".to_owned(),
        HubReason::AxleNotHeld { own, wanted, is_convertible } => {
            let convert = if is_convertible { " With other end caps the flanges line up." } else { "" };
            format!("The hub has a {}; the dropouts are for a {}.{convert}", axle_name(own), axle_name(wanted))
        }
        HubReason::ThickerAxle { spacing_mm } => {
            format!("Both are {} wide, but the hub is made for a thicker axle.", trade_size(spacing_mm))
        }
        HubReason::AxlesDiffer { own_mm, wanted_mm } => {
            format!("The hub takes a {} axle; the dropouts take {}.", trade_size(own_mm), trade_size(wanted_mm))
        }
        HubReason::AxleUnknown { spacing_mm, is_hubs } => {
            let (whose, how) = if is_hubs { ("hub", "entered") } else { ("frame", "published") };
            format!("Both are {} wide, but the {whose}'s axle is not {how}.", trade_size(spacing_mm))
        }
        HubReason::DiameterUnknown { spacing_mm, is_hubs } => {
            let (whose, how) = if is_hubs { ("hub", "entered") } else { ("frame", "published") };
            format!("Both are {} wide; the diameter of the {whose}'s through axle is not {how}.", trade_size(spacing_mm))
        }
        HubReason::WithinRange { spacing_mm, least_mm, most_mm, a_side_mm } => format!(
            "The dropouts are {} apart, and the maker allows hubs from {}. Each side moves by {}.",
            trade_size(spacing_mm),
            trade_sizes(least_mm, most_mm),
            length(units, a_side_mm)
        ),
        HubReason::SpacingsDiffer { by_mm } => {
            let direction = if by_mm > 0.0 { "wider" } else { "narrower" };
            let (by, a_side) = (length(units, by_mm.abs()), length(units, by_mm.abs() / 2.0));
            format!("The hub is {by} {direction} than the dropouts, {a_side} a side.")
        }
        HubReason::DependsOnAxle { is_hubs } => {
            let (whose, how) = if is_hubs { ("hub", "entered") } else { ("frame", "published") };
            format!("It depends on the {whose}'s axle, which is not {how}.")
        }
        HubReason::ClosedDropouts => "Dropouts for a through axle do not flex.".to_owned(),
        HubReason::TooMuchToColdSet { most_a_side_mm } => {
            format!("Steel is cold-set by at most {} a side.", length(units, most_a_side_mm))
        }
        HubReason::NeverColdSet(material) => format!("{} must never be cold-set.", capitalised(material.label())),
        HubReason::MaterialUnknown => "Only steel can be cold-set, and the material is not published.".to_owned(),
        HubReason::NoSpacing => "The hub's spacing is not entered.".to_owned(),
    }
}

/// Why rims fit or not.
pub(super) fn rim_reason(units: System, reason: &RimReason) -> String {
    match reason {
        RimReason::TyreDiffers { tyre, bead_mm } => {
            format!("The tyre {tyre} of this list does not fit a {} rim.", number(*bead_mm))
        }
        RimReason::InnerWidth { tyre, inner_mm, made_for_mm, width } => {
            let how = match width {
                RimWidth::Usual => "is usual for",
                RimWidth::Outside => "is outside the usual range for",
                RimWidth::FarOutside => "is far outside the usual range for",
            };
            format!(
                "A rim {} wide inside {how} {tyre}. That tyre is made for about {}.",
                length(units, *inner_mm),
                length_to_whole(units, *made_for_mm)
            )
        }
        RimReason::Published { bead_mm } => format!("The maker publishes tyre clearance for wheel size {}.", number(*bead_mm)),
        RimReason::NotPublished { bead_mm, published_mm } => not_published(*bead_mm, published_mm),
    }
}

/// That clearance is published for other wheels only.
pub(super) fn not_published(bead_mm: f64, published_mm: &[f64]) -> String {
    let sizes = if published_mm.len() == 1 { "wheel size" } else { "wheel sizes" };
    format!("The maker publishes clearance for {sizes} {} only, not for {}.", wheels(published_mm), number(bead_mm))
}

/// Why a tyre fits or not.
pub(super) fn tyre_reason(units: System, reason: &TyreReason) -> String {
    match reason {
        TyreReason::WheelNotPublished { bead_mm, published_mm } => not_published(*bead_mm, published_mm),
        TyreReason::TooWide { tyre, widest_mm, of } => format!(
            "{tyre} is {} wider than the widest tyre allowed on {}, {}.",
            length(units, tyre.width_mm() - widest_mm),
            clearance_of(*of),
            designation(*widest_mm, tyre.bead_seat_mm())
        ),
        TyreReason::Allowed { tyre, widest_mm, of, with_mudguards, left_mm } => {
            let guards = if *with_mudguards { ", with mudguards" } else { "" };
            let widest = designation(*widest_mm, tyre.bead_seat_mm());
            let allowed = format!("The maker allows up to {widest} on {}{guards}.", clearance_of(*of));
            if *left_mm > 0.0 {
                format!("{allowed} {tyre} leaves {} more clearance a side.", length(units, *left_mm))
            } else {
                format!("{allowed} {tyre} is as wide as that.")
            }
        }
        TyreReason::TooWideWithMudguards { tyre, of } => {
            format!("With mudguards, {tyre} is too wide for {}. Without them it is allowed.", clearance_of(*of))
        }
        TyreReason::WithMudguardsOnly => "What is allowed without mudguards is not published.".to_owned(),
        TyreReason::PublishedForRings { most, own } => {
            let rings = |n: u8| if n == 1 { "one chainring".to_owned() } else { format!("{n} chainrings") };
            format!("The widest tyre is published for {}; the crank has {}.", rings(*most), rings(*own))
        }
        TyreReason::BuiltWidth { tyre, inner_mm, built } => {
            format!("On a rim {} wide inside, {tyre} measures about {}.", length(units, *inner_mm), built.text(units))
        }
        TyreReason::CrankMovesChain { crank_mm, a_side_mm, widest_mm } => format!(
            "A crank with a chainline of {} moves the chain in by {}. That leaves clearance for a tyre {} wide.",
            length(units, *crank_mm),
            length(units, *a_side_mm),
            length(units, *widest_mm)
        ),
        TyreReason::ClearWidth { tyre, clear_mm, of, gap_mm } => {
            let clear = length(units, *clear_mm);
            if *gap_mm < 0.0 {
                format!("The clear width on {} is {clear}. {tyre} is wider than that.", clearance_of(*of))
            } else {
                let gap = length(units, *gap_mm);
                format!("The clear width on {} is {clear}. {tyre} leaves a gap of {gap} a side.", clearance_of(*of))
            }
        }
        TyreReason::GapEnough { least_mm, holds_for } => {
            format!("At least {} is required of {}.", length(units, *least_mm), gap_holds_for(*holds_for))
        }
        TyreReason::GapTooSmall { least_mm } => {
            format!("Every published rule requires at least {}.", length(units, *least_mm))
        }
        TyreReason::FrameOnly => "That is published for the frame, not for its fork.".to_owned(),
    }
}

/// Widest tyre on a wheel, as it answers a need.
pub(super) fn widest_tyre(widest_mm: f64, bead_mm: f64, with_spacing_mm: Option<f64>, is_of_frame_only: bool) -> String {
    let with = with_spacing_mm.map(|mm| format!(" with a crank for {} spacing", trade_size(mm))).unwrap_or_default();
    let of_frame = if is_of_frame_only { " That is published for the frame, not for its fork." } else { "" };
    format!("Tyres up to {}{with}.{of_frame}", designation(widest_mm, bead_mm))
}

/// Travel of a frame's own suspension fork.
pub(super) fn travel(units: System, travel_mm: f64) -> String {
    format!("The frame has a suspension fork with {} travel.", length(units, travel_mm))
}

/// Travel that a rigid fork may stand in for.
pub(super) fn travels(units: System, (least_mm, most_mm): (f64, f64)) -> String {
    lengths(units, least_mm, most_mm)
}
