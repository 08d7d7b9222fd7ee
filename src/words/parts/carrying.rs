//! Cages, racks, mudguards and seat posts: why they fit or not, in sentences.

use super::super::lengths::{length, length_to_whole, trade_size};
use super::names::{counts, end_name, eyelets_for};
use crate::parts::{CarryingReason, EyeletsFor, SeatPostReason};
use crate::units::System;

/// Why cages, racks and mudguards fit or not.
pub(super) fn carrying_reason(units: System, reason: &CarryingReason) -> String {
    match reason {
        CarryingReason::EnoughBosses { wanted, there } | CarryingReason::TooFewBosses { wanted, there } => {
            let there = if there.is_empty() { "none".to_owned() } else { counts(there) };
            format!("Bosses needed: {}. Published: {there}.", counts(wanted))
        }
        CarryingReason::ForkEyeletsUnknown => "The eyelets of the listed fork are not entered.".to_owned(),
        CarryingReason::Eyelets(what) => eyelets(*what),
        CarryingReason::OtherEyelets(what) => other_eyelets(*what),
        CarryingReason::NoEyelets => NO_EYELETS.to_owned(),
        CarryingReason::MudguardOverTyre { end, width_mm, tyre } => {
            format!("The {} mudguard is {} wide; the tyre is {tyre}.", end_name(*end), length(units, *width_mm))
        }
        CarryingReason::TyreTooWideForMudguards { end, tyre_mm, widest_mm } => format!(
            "With mudguards the maker allows {} tyres up to {} wide; this one is {}.",
            end_name(*end),
            length(units, *widest_mm),
            length(units, *tyre_mm)
        ),
        CarryingReason::ClearanceUnknown { end, width_mm } => {
            format!("Clearance for a {} mudguard {} wide is not published.", end_name(*end), length(units, *width_mm))
        }
        CarryingReason::Passes { end, clear_mm } => {
            format!("The clear width at the {} is {}.", end_name(*end), length(units, *clear_mm))
        }
        CarryingReason::DoesNotPass { end, width_mm, clear_mm } => format!(
            "The {} mudguard is {} wide; the clear width is only {}.",
            end_name(*end),
            length(units, *width_mm),
            length(units, *clear_mm)
        ),
        CarryingReason::ClearanceForTyre { end, tyre_mm, with_mudguards } => {
            let guards = if *with_mudguards { ", with mudguards" } else { "" };
            format!("The maker allows {} tyres up to {} wide{guards}.", end_name(*end), length(units, *tyre_mm))
        }
        CarryingReason::ClearanceForTyreOnly { end, tyre_mm } => format!(
            "The maker allows {} tyres up to {} wide; a wider mudguard is not mentioned.",
            end_name(*end),
            length(units, *tyre_mm)
        ),
    }
}

/// That there are no eyelets at all.
pub(super) const NO_EYELETS: &str = "There are no eyelets.";

/// That there are eyelets for it.
pub(super) fn eyelets(what: EyeletsFor) -> String {
    format!("The maker publishes eyelets for {}.", eyelets_for(what))
}

/// That there are eyelets, and none for it.
pub(super) fn other_eyelets(what: EyeletsFor) -> String {
    format!("The maker publishes eyelets, but none for {}.", eyelets_for(what))
}

/// Why a seat post fits or not.
pub(super) fn seat_post_reason(units: System, reason: SeatPostReason) -> String {
    match reason {
        SeatPostReason::TooThick { post_mm, tube_mm } => {
            format!("A {} post does not fit a seat tube for {}.", trade_size(post_mm), trade_size(tube_mm))
        }
        SeatPostReason::NoInternalRouting => "The post's cable runs inside, but the frame has no internal routing.".to_owned(),
        SeatPostReason::TooShort { inside_mm, least_mm } => format!(
            "At this saddle height only about {} of the post is inside; at least {} is required.",
            length_to_whole(units, inside_mm.max(0.0)),
            length(units, least_mm)
        ),
        SeatPostReason::TooThin { by_mm } => {
            format!("The post is {} too thin, and no shim is that thin.", length(units, by_mm))
        }
        SeatPostReason::Thinner { post_mm, tube_mm } => {
            format!("The post is {}; the seat tube is for {}.", trade_size(post_mm), trade_size(tube_mm))
        }
        SeatPostReason::Matches { tube_mm } => format!("Post and seat tube are both {}.", trade_size(tube_mm)),
    }
}
