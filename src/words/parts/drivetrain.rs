//! Cranks, bottom brackets, front derailleurs, gear hubs and belts: why they fit or not, in sentences.

use super::super::lengths::{length, number, trade_size, trade_sizes};
use super::names::{pull_name, shell_name};
use crate::parts::{CrankReason, DerailleurReason, DropoutReason, ShellReason};
use crate::units::System;

/// Why a crank fits or not.
pub(super) fn crank_reason(units: System, reason: &CrankReason) -> String {
    match *reason {
        CrankReason::NothingPublished => "Neither crank spacing nor rear hub is published.".to_owned(),
        CrankReason::SeveralHubs { least_mm, most_mm } => {
            format!(
                "The dropouts take hubs from {}; the one that suits the crank best is judged.",
                trade_sizes(least_mm, most_mm)
            )
        }
        CrankReason::SoldTogether { spacing_mm, chainline_mm } => {
            format!("Cranks with a chainline of {} are sold for {} hubs.", length(units, chainline_mm), trade_size(spacing_mm))
        }
        CrankReason::Matches { spacing_mm, chainline_mm } => {
            format!("Crank and frame are for {} spacing: chainline {}.", trade_size(spacing_mm), length(units, chainline_mm))
        }
        CrankReason::LinesDiffer { own_mm, frame_mm, out_mm } => format!(
            "The crank's chainline is {}; the frame is made for {}. The chain moves {} by {}.",
            length(units, own_mm),
            length(units, frame_mm),
            if out_mm > 0.0 { "out" } else { "in" },
            length(units, out_mm.abs())
        ),
        // One sprocket has one gear.
        CrankReason::ChainRuns { lowest, highest, .. } if lowest == highest => {
            format!("The chain runs {} off straight.", lowest.abs().text(units))
        }
        CrankReason::ChainRuns { rings, lowest, highest } => format!(
            "With {}, the chain runs {} off straight in the lowest gear and {} in the highest.",
            match rings {
                1 => "one chainring",
                2 => "two chainrings",
                _ => "three chainrings",
            },
            lowest.abs().text(units),
            highest.abs().text(units)
        ),
        CrankReason::TooOblique { most_deg } => format!("A chain runs well up to about {}°.", number(most_deg)),
        CrankReason::DependsOnRings => "It depends on the number of chainrings: enter 1x, 2x or 3x.".to_owned(),
        CrankReason::GearHubLineUnknown { own_mm } => format!(
            "The crank's chainline is {}; the gear hub's is not entered. Write it as in 135 nutted, chainline 54.",
            length(units, own_mm)
        ),
        CrankReason::RingTooLarge { own, most } => {
            format!("The maker allows chainrings of up to {most} teeth; the largest here has {own}.")
        }
        CrankReason::SmallRingTooLarge { own, most } => {
            format!("The maker allows a smallest chainring of up to {most} teeth; here it has {own}.")
        }
        CrankReason::RingLimitUnknown { rings } => format!(
            "The maker publishes the largest chainrings, but not for {}.",
            match rings {
                1 => "one chainring",
                2 => "two chainrings",
                _ => "three chainrings",
            }
        ),
    }
}

/// Why a bottom bracket fits or not.
pub(super) fn shell_reason(reason: &ShellReason) -> String {
    match reason {
        ShellReason::KindsDiffer { own, shell } => {
            format!("The bottom bracket is {}; the shell is {}.", shell_name(own), shell_name(shell))
        }
        ShellReason::WidthUnknown(shell) => format!("The shell is {}; its width is not published.", shell.name),
        ShellReason::OwnWidthUnknown { shell, width_mm } => {
            format!("The shell is {}, {} wide; the bottom bracket's width is not entered.", shell.name, trade_size(*width_mm))
        }
        ShellReason::Matches { shell, width_mm } => format!("Both are {}, {} wide.", shell.name, trade_size(*width_mm)),
        ShellReason::WidthsDiffer { width_mm, own_mm } => {
            let own: Vec<String> = own_mm.iter().map(|w| number(*w)).collect();
            let own = own.join(" or ");
            format!("The shell is {} wide; the bottom bracket is for {own}\u{2009}mm.", trade_size(*width_mm))
        }
    }
}

/// Why a front derailleur fits or not.
pub(super) fn derailleur_reason(units: System, reason: &DerailleurReason) -> String {
    match *reason {
        DerailleurReason::FrameTakesNone => "The frame takes no front derailleur.".to_owned(),
        DerailleurReason::NoneWanted => "No front derailleur is needed.".to_owned(),
        DerailleurReason::ClampMatches { tube_mm } => format!("Clamp and seat tube are both {}.", trade_size(tube_mm)),
        DerailleurReason::ClampWider { own_mm, tube_mm } => {
            format!("The clamp is {}; the seat tube is only {}.", trade_size(own_mm), trade_size(tube_mm))
        }
        DerailleurReason::ClampNarrower { own_mm, tube_mm } => {
            format!("A {} clamp does not fit round a {} seat tube.", trade_size(own_mm), trade_size(tube_mm))
        }
        DerailleurReason::NeedsTab => "The derailleur needs a tab, and the frame has none.".to_owned(),
        DerailleurReason::TabMatches => "The frame has the tab that the derailleur needs.".to_owned(),
        DerailleurReason::DirectMatches => "Frame and derailleur are both direct mount.".to_owned(),
        DerailleurReason::TubeUnknown => "The frame has a tab; its seat tube diameter is not published.".to_owned(),
        DerailleurReason::HeldDifferently => "Frame and derailleur have different mounts.".to_owned(),
        DerailleurReason::PullsDiffer { own, frame } => {
            format!("The derailleur is {} pull; the frame's cable stop is for {} pull.", pull_name(own), pull_name(frame))
        }
        DerailleurReason::OwnStop => "A front-pull derailleur has its own stop for the cable housing.".to_owned(),
        DerailleurReason::NoHousingStop { own } => {
            format!("The derailleur is {} pull; the frame has no stop for the cable housing.", pull_name(own))
        }
        DerailleurReason::ChainlinesDiffer { own_mm, crank_mm } => {
            format!("The derailleur is for a {} chainline; the crank's is {}.", length(units, own_mm), length(units, crank_mm))
        }
        DerailleurReason::CrankLineUnknown { own_mm, least_mm, most_mm } => format!(
            "The derailleur is for a {} chainline; such cranks are sold with {} to {}. Enter the crank's chainline.",
            length(units, own_mm),
            length(units, least_mm),
            length(units, most_mm)
        ),
        DerailleurReason::OutOfReach { own_mm, crank_mm } => format!(
            "The derailleur is for a {} chainline; the crank's is {}. That is out of its reach.",
            length(units, own_mm),
            length(units, crank_mm)
        ),
    }
}

/// Why a gear hub or belt fits the dropouts or not.
pub(super) const fn dropout_reason(reason: DropoutReason) -> &'static str {
    match reason {
        DropoutReason::ChainNotTensioned => "Vertical dropouts do not tension a chain.",
        DropoutReason::SoldForGearHub => "The maker sells the frame for a gear hub.",
        DropoutReason::GearHubNotPublished => "The frame can tension a chain; a gear hub is not mentioned by the maker.",
        DropoutReason::SoldForBelt => "The maker sells the frame for a belt.",
        DropoutReason::BeltNotTensioned => "Vertical dropouts do not tension a belt.",
        DropoutReason::BeltOpeningUnknown => "The frame can tension a belt; whether it has an opening for one is not published.",
    }
}
