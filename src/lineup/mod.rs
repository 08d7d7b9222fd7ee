//! The user's document (which frames, sizes, reference, settings) and the findings computed from it, purely.
//!
//! Invariant: findings are a pure function of the document; no pixels, no disk, no clock.

mod bag_notes;
mod bag_space_differences;
mod bag_space_findings;
mod bag_space_settings;
mod both_ways;
mod build;
mod callout_facts;
mod caption_facts;
mod check;
mod document;
mod findings;
mod fit;
mod frame_findings;
mod loaded_differences;
mod loaded_findings;
#[cfg(test)]
mod loaded_findings_tests;
mod loaded_side;
mod measures;
mod missing_entry;
mod moved_luggage;
mod overlaid;
mod overview;
mod overview_limit;
mod overview_settings;
mod picture_view;
mod placing;
mod price_and_climb;
mod riding_settings;
mod sag;
mod sheet;
mod size_fit;
mod size_rule;
mod sizes_that_follow;
mod stated_frame;

#[cfg(test)]
pub(crate) use check::test_frame as check_test_frame;

pub use bag_notes::{BagNote, bag_space_measure};
pub use bag_space_findings::{BagSpaceFigure, BagSpaceFindings};
pub use bag_space_settings::{BagSpaceCorner, BagSpaceSettings};
pub use both_ways::{BothWays, Differing, FramePoint};
pub use build::{Build, BuildAgainst, BuildItem, BuildRow, BuildUse};
pub use callout_facts::CalloutFact;
pub use caption_facts::{CaptionFact, CaptionSubject};
pub use check::{BudgetPart, FigureCheck, Narrowing, Remedy, TubeJunction, UncertaintyBudget, UncertaintySource, WithAndWithout};
pub use document::{AlignAt, Axes, Entry, FrameKey, Lineup, OutlineSettings, Settings, Tyres, letter, read_lineup, write_lineup};
pub use findings::{Findings, weights_of};
pub use fit::{ContactPointFindings, FrameFit, Ghost, by_unmet_needs, with_matched_sizes};
pub use frame_findings::FrameFindings;
pub use loaded_findings::{AgainstLimit, FrameLoaded, LoadedFindings, NotLoaded, RuleOfThumbEffect, Seat};
pub use loaded_side::{HungBag, LoadedSide};
pub use missing_entry::MissingEntry;
pub use moved_luggage::{MovedLuggage, Spread};
pub use overlaid::OverlaidOfMore;
pub use overview::{Overview, OverviewCell, OverviewLine, OverviewValue};
pub use overview_limit::limit_need;
pub use overview_settings::{Better, OverviewRow, OverviewSettings};
pub use picture_view::PictureView;
pub use placing::Placing;
pub use price_and_climb::{Against, Lightest, NoClimb, NoGears, PriceAndClimb, lightest_of, weight_for_gears};
pub use riding_settings::{RidingNumber, RidingSettings};
pub use sag::{MOST_SAG_MM, MOST_SAG_PERCENT, Sag, travel_mm};
pub use sheet::{
    Animation, Block, EditedCaption, FORK_LONGER_MM, Movement, NoAnimation, NoSheet, PIXELS_ACROSS, RATES, SECONDS, Shape, Sheet,
    SheetBackground, Statement, StatementSubject, find_sheet,
};
pub use size_fit::{ALIKE_MM, SizeBasis, SizeFit};
pub use size_rule::SizeRule;
pub use sizes_that_follow::sizes_that_follow;
pub use stated_frame::stated_frame;

pub use crate::weight::{PartWeight, WeightChoices, WeightSettings, Weights};
