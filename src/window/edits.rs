//! Changes of the line-up, each with the words that undo shows. Panels push them; the document applies them.
//!
//! Invariant: an edit is applied to any line-up without panicking; places beyond the last frame change nothing.

use std::sync::Arc;

use super::fit_edits::FitEdit;
use super::labels::changes as labels;
use super::sheet_edits::SheetEdit;
use super::weight_and_price_edits::WeightAndPriceEdit;
use crate::frameset::{Figure, FrameIndex, Frameset};
use crate::lineup::{AlignAt, Axes, BagSpaceSettings, Entry, Lineup, OverviewSettings, Sag, SizeRule, Tyres, letter};
use crate::units::System;
use crate::words::Label;

/// Which plot a pair of axes belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Plot {
    /// How a frame steers.
    Steering,
    /// Where it puts the hands.
    StackAndReach,
}

/// A change of the line-up.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Frames at the end, each with the file it came from.
    Add(Vec<(Frameset, Option<String>)>),
    /// A changed frameset in the place of the frame's own.
    Frameset {
        /// The frame's place.
        frame: FrameIndex,
        /// As it now is.
        frameset: Arc<Frameset>,
        /// What was done, for undo.
        what: String,
        /// The field that it was typed in: keystrokes in one field are one step.
        field: Option<u64>,
    },
    /// Away with the frame at this place.
    Remove(FrameIndex),
    /// The frame at `from` goes to the place `to`.
    Move {
        /// Place of the frame before the move.
        from: FrameIndex,
        /// Its place afterwards.
        to: FrameIndex,
    },
    /// The size compared, chosen by hand.
    Size {
        /// The frame's place.
        frame: FrameIndex,
        /// The size's label.
        label: String,
    },
    /// The frame's size follows the rule again.
    Unpin(FrameIndex),
    /// How frames get their sizes.
    Sizes(SizeRule),
    /// Drawn or not.
    Shown {
        /// The frame's place.
        frame: FrameIndex,
        /// Whether it is drawn.
        shown: bool,
    },
    /// The frame that the others are compared with.
    Reference(FrameIndex),
    /// Where the frames stand together.
    AlignAt(AlignAt),
    /// Wheels on the outline.
    Wheels(bool),
    /// Wheels of every frame on the outline.
    AllWheels(bool),
    /// Frames' lines in patterns.
    LinePatterns(bool),
    /// Grid on the outline.
    Grid(bool),
    /// Dimensions of the reference on the outline.
    Dimensions(bool),
    /// Figures of a plot.
    Axes {
        /// Plot whose axes change.
        plot: Plot,
        /// Figures of the two axes.
        axes: Axes,
    },
    /// Factor on weights that were published for another size.
    Factor(Option<f64>),
    /// The same for one frame; `None` for the line-up's.
    OwnFactor {
        /// The frame's place.
        frame: FrameIndex,
        /// Its own factor.
        factor: Option<f64>,
    },
    /// Which tyres the frames stand on.
    Tyres(Tyres),
    /// Sag of suspension forks.
    Sag(Sag),
    /// Units that are shown change.
    Units(System),
    /// Room, bag and bottles.
    BagSpace(BagSpaceSettings),
    /// Rows of the overview.
    Overview(OverviewSettings),
    /// Parts, needs, another fork, the rider.
    Fit(FitEdit),
    /// Weights, money, riding.
    WeightAndPrice(WeightAndPriceEdit),
    /// A sheet changes.
    Sheet(SheetEdit),
    /// The comparison's title, and the user's own words.
    Words {
        /// Title of the line-up.
        title: String,
        /// Notes on the line-up.
        notes: String,
    },
}

/// What lets edits of one gesture make one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum MergeKey {
    Factor,
    OwnFactor(FrameIndex),
    Field(u64),
    ForkTrial,
    Rider,
    BagSpace,
}

impl Edit {
    /// In words, after "undo" and "redo".
    pub(crate) fn label(&self, lineup: &Lineup) -> String {
        let on = |is_on: bool| if is_on { labels::ON } else { labels::OFF };
        match self {
            Self::Add(frames) => match frames.as_slice() {
                [(frameset, _)] => labels::adding(&frameset.name()),
                more => labels::adding_frames(&more.len()),
            },
            Self::Frameset { what, .. } => what.clone(),
            Self::Remove(frame) => match frame.of(&lineup.frames) {
                Some(entry) => labels::removing(&entry.frameset.name()),
                None => labels::REMOVING.to_owned(),
            },
            Self::Move { from, to } => labels::moving_to(&letter(*from), &letter(*to)),
            Self::Size { frame, label } => labels::size_for(&label, &letter(*frame)),
            Self::Unpin(frame) => labels::size_by_fit(&letter(*frame)),
            Self::Sizes(rule) => labels::sizes(&rule.label()),
            Self::Overview(_) => labels::ROWS_OF_THE_OVERVIEW.to_owned(),
            Self::Shown { frame, shown: true } => labels::showing(&letter(*frame)),
            Self::Shown { frame, shown: false } => labels::hiding(&letter(*frame)),
            Self::Reference(frame) => labels::as_the_reference(&letter(*frame)),
            Self::AlignAt(at) => labels::aligned_at_the(&at.label()),
            Self::Wheels(is_on) => labels::wheels(&on(*is_on)),
            Self::AllWheels(is_on) => labels::all_wheels(&on(*is_on)),
            Self::LinePatterns(is_on) => labels::line_patterns(&on(*is_on)),
            Self::Grid(is_on) => labels::grid(&on(*is_on)),
            Self::Dimensions(is_on) => labels::dimensions(&on(*is_on)),
            Self::Axes { axes, .. } => labels::against(&lower(axes.up), &lower(axes.across)),
            Self::Factor(_) => labels::WEIGHT_FACTOR_PER_SIZE.to_owned(),
            Self::OwnFactor { frame, .. } => labels::weight_factor_of(&letter(*frame)),
            Self::Sag(Sag::Unsagged) => labels::FORKS_WITHOUT_SAG.to_owned(),
            Self::Sag(_) => labels::SAG_OF_SUSPENSION_FORKS.to_owned(),
            Self::Tyres(Tyres::AsPublished) => labels::TYRES_AS_PUBLISHED.to_owned(),
            Self::Tyres(Tyres::SameOnAll(tyre)) => labels::tyre_on_all_frames(&tyre),
            Self::Units(System::Metric) => labels::METRIC_UNITS.to_owned(),
            Self::Units(System::Imperial) => labels::INCHES_AND_POUNDS.to_owned(),
            Self::BagSpace(settings) => bag_space_words(&lineup.settings.bags, settings),
            Self::Fit(edit) => edit.label(),
            Self::WeightAndPrice(edit) => edit.label(),
            Self::Sheet(edit) => edit.label(lineup),
            Self::Words { .. } => labels::TITLE_AND_NOTES.to_owned(),
        }
    }

    /// Edits with the same key merge while one gesture lasts.
    pub(crate) fn merge_key(&self) -> Option<MergeKey> {
        match self {
            Self::Factor(_) => Some(MergeKey::Factor),
            Self::OwnFactor { frame, .. } => Some(MergeKey::OwnFactor(*frame)),
            Self::Frameset { field, .. } | Self::Sheet(SheetEdit::Put { field, .. }) => field.map(MergeKey::Field),
            Self::BagSpace(_) => Some(MergeKey::BagSpace),
            Self::Fit(FitEdit::ForkTrial(_)) => Some(MergeKey::ForkTrial),
            Self::Fit(FitEdit::Rider(_)) => Some(MergeKey::Rider),
            _ => None,
        }
    }

    /// Makes the change in the line-up.
    pub(crate) fn apply(self, lineup: &mut Lineup) {
        let settings = &mut lineup.settings;
        match self {
            Self::Add(frames) => {
                for (frameset, came_from) in frames {
                    lineup.add(frameset, came_from);
                }
            }
            Self::Frameset { frame, frameset, .. } => {
                if let Some(entry) = frame.of_mut(&mut lineup.frames) {
                    follow_size(entry, &frameset);
                    entry.frameset = frameset;
                }
            }
            Self::Remove(frame) => remove(lineup, frame),
            Self::Move { from, to } => shift(lineup, from, to),
            Self::Size { frame, label } => {
                if let Some(entry) = frame.of_mut(&mut lineup.frames) {
                    entry.size = label;
                    entry.is_pinned = true;
                }
            }
            Self::Unpin(frame) => {
                if let Some(entry) = frame.of_mut(&mut lineup.frames) {
                    entry.is_pinned = false;
                }
            }
            Self::Sizes(rule) => settings.sizes = rule,
            Self::Overview(overview) => settings.overview = overview,
            Self::Shown { frame, shown } => {
                if let Some(entry) = frame.of_mut(&mut lineup.frames) {
                    entry.shown = shown;
                }
            }
            Self::Reference(frame) => {
                if frame.of(&lineup.frames).is_some() {
                    lineup.reference = frame;
                }
            }
            Self::AlignAt(at) => settings.outline.align_at = at,
            Self::Wheels(is_on) => settings.outline.wheels = is_on,
            Self::AllWheels(is_on) => settings.outline.all_wheels = is_on,
            Self::LinePatterns(is_on) => settings.outline.line_patterns = is_on,
            Self::Grid(is_on) => settings.outline.grid = is_on,
            Self::Dimensions(is_on) => settings.outline.dimensions = is_on,
            Self::Axes { plot: Plot::Steering, axes } => settings.steering = axes,
            Self::Axes { plot: Plot::StackAndReach, axes } => settings.stack_and_reach = axes,
            Self::Factor(factor) => settings.weight.factor = factor,
            Self::OwnFactor { frame, factor } => {
                if let Some(entry) = frame.of_mut(&mut lineup.frames) {
                    entry.weight_choices.frame.factor = factor;
                }
            }
            Self::Tyres(tyres) => settings.tyres = tyres,
            Self::Sag(sag) => settings.sag = sag,
            Self::Units(units) => settings.units = units,
            Self::BagSpace(room) => settings.bags = room,
            Self::Fit(edit) => edit.apply(lineup),
            Self::WeightAndPrice(edit) => edit.apply(lineup),
            Self::Sheet(edit) => edit.apply(lineup),
            Self::Words { title, notes } => (lineup.title, lineup.notes) = (title, notes),
        }
    }
}

/// What differs between two choices about bags and bottles.
fn bag_space_words(before: &BagSpaceSettings, after: &BagSpaceSettings) -> String {
    if before.bag.part != after.bag.part {
        labels::CUT_LINE_OF_THE_BAG.to_owned()
    } else if before.bag != after.bag || before.with_bag != after.with_bag {
        labels::BAG.to_owned()
    } else if before.align_at != after.align_at {
        labels::aligned_at_the(&crate::words::corner_label(after.align_at))
    } else {
        labels::BOTTLES.to_owned()
    }
}

fn lower(figure: Figure) -> String {
    figure.label().to_lowercase()
}

/// The size compared stays the same one by its label, and by its place where it was given another label or taken out.
fn follow_size(entry: &mut Entry, frameset: &Frameset) {
    let place = entry.size_index();
    if frameset.size_index(&entry.size).is_none()
        && let Some(size) = place.of(&frameset.sizes).or(frameset.sizes.last())
    {
        entry.size.clone_from(&size.label);
    }
}

/// The reference stays the same frame; without it, the first frame becomes the reference.
fn remove(lineup: &mut Lineup, frame: FrameIndex) {
    if frame.of(&lineup.frames).is_none() {
        return;
    }
    let reference = lineup.reference_index().unwrap_or_default();
    lineup.frames.remove(frame.0);
    lineup.reference = match frame.cmp(&reference) {
        std::cmp::Ordering::Less => reference.before().unwrap_or_default(),
        std::cmp::Ordering::Equal => FrameIndex::default(),
        std::cmp::Ordering::Greater => reference,
    };
}

/// The reference stays the same frame.
fn shift(lineup: &mut Lineup, from: FrameIndex, to: FrameIndex) {
    let (Some(reference), true) = (lineup.reference_index(), from.max(to).of(&lineup.frames).is_some()) else {
        return;
    };
    let entry = lineup.frames.remove(from.0);
    lineup.frames.insert(to.0, entry);
    lineup.reference = if reference == from {
        to
    } else if from < reference && reference <= to {
        reference.before().unwrap_or_default()
    } else if to <= reference && reference < from {
        reference.after()
    } else {
        reference
    };
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;

    fn lineup(models: &[&str]) -> Lineup {
        let mut lineup = Lineup::default();
        for model in models {
            let text =
                format!("(format: 1, maker: \"Quern\", model: \"{model}\", sizes: [(label: \"M\", figures: {{Stack: 610}})])");
            lineup.add(read_frameset(text.as_bytes()).expect("well-formed"), None);
        }
        lineup
    }

    fn reference(lineup: &Lineup) -> &str {
        &lineup.frames[lineup.reference_index().expect("not empty")].frameset.model
    }

    #[test]
    fn the_reference_follows_its_frame() {
        for from in FrameIndex::all(4) {
            for to in FrameIndex::all(4) {
                for chosen in 0..4 {
                    let mut lineup = lineup(&["Ash", "Birch", "Cedar", "Dogwood"]);
                    Edit::Reference(FrameIndex(chosen)).apply(&mut lineup);
                    let before = reference(&lineup).to_owned();
                    Edit::Move { from, to }.apply(&mut lineup);
                    assert_eq!(reference(&lineup), before, "{chosen}: {from:?} to {to:?}");
                    assert_eq!(lineup.frames.len(), 4);
                }
            }
        }
    }

    #[test]
    fn removing_keeps_the_reference_or_takes_the_first() {
        let mut lineup = lineup(&["Ash", "Birch", "Cedar"]);
        Edit::Reference(FrameIndex(1)).apply(&mut lineup);
        Edit::Remove(FrameIndex(0)).apply(&mut lineup);
        assert_eq!(reference(&lineup), "Birch");
        Edit::Remove(FrameIndex(0)).apply(&mut lineup);
        assert_eq!(reference(&lineup), "Cedar");
        Edit::Remove(FrameIndex(0)).apply(&mut lineup);
        assert_eq!(lineup.reference_index(), None);
        Edit::Remove(FrameIndex(0)).apply(&mut lineup);
    }
}
