//! What fits, what is needed, what another fork does and where the rider comes, for every frame of a line-up.

use super::document::Lineup;
use super::frame_findings::FrameFindings;
use super::measures::measures;
use super::price_and_climb::PriceAndClimb;
use super::size_fit::{SizeFit, size_fit};
use crate::frameset::{Figure, FrameIndex, OnePerFrame, SizeIndex};
use crate::geometry::{Adjusted, AdjustedSize, Outline, outline};
use crate::parts::contact_points::{
    Clearance, ClosestSize, Hand, Repeated, Rider, Steered, ToeGap, UpperHeadset, closest_size, hands, reach_difference, repeat,
    seat_layback, standover, toe_gap,
};
use crate::parts::{
    Answer, Candidate, ChangeFindings, Correction, Fit, Measures, Met, RearView, Statements, Verdict, change_findings, check,
    correction,
};
use crate::units::{Length, Measured};

/// All of it for one frame.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameFit {
    /// What the maker states, understood.
    pub statements: Statements,
    /// The parts list, in its order, the fork first.
    pub verdicts: Vec<Verdict>,
    /// The rear seen from above, where enough is known.
    pub rear: Option<RearView>,
    /// The needs, in their order.
    pub answers: Vec<Answer>,
    /// Another fork or tyre on the chosen size.
    pub change: Option<ChangeFindings>,
    /// Whether the chosen size looks corrected for suspension.
    pub correction: Option<Correction>,
    /// How alike in fit the chosen size is to the reference's.
    pub size_fit: SizeFit,
    /// The rider on the chosen size.
    pub contact_points: ContactPointFindings,
    /// Whether it is the frame that the other fork or tyres go on.
    pub is_tried: bool,
    /// The changed frame to draw over the one as drawn; only for the frame that the change is drawn on.
    pub ghost: Option<Ghost>,
}

impl OnePerFrame for FrameFit {}

/// A changed frame, to be drawn over the one as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Ghost {
    /// Its side view.
    pub outline: Outline,
    /// Whether the outline of all frames shows it too.
    pub is_on_outline: bool,
}

/// The rider on one frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ContactPointFindings {
    /// The upper headset, entered or assumed; `None` where no stem and handlebar are entered.
    pub upper_headset: Option<UpperHeadset>,
    /// The reference's hands, forward of and above the bottom bracket.
    pub hands: Option<[Measured<Length>; 2]>,
    /// What repeats the reference's position here; `None` on the reference itself.
    pub repeated: Option<Repeated>,
    /// Over the top tube.
    pub standover: Option<Clearance>,
    /// Before the toe, with the rider's crank (170 mm until another is entered).
    pub toe: Option<ToeGap>,
    /// The saddle's clamp behind the post's axis.
    pub layback: Option<Clearance>,
    /// The size nearest to the reference's; `None` on the reference itself.
    pub closest_size: Option<ClosestSize>,
}

impl FrameFit {
    /// How many needs are unmet.
    #[must_use]
    pub fn not_met(&self) -> usize {
        self.count(Met::NotMet)
    }

    /// How many needs are neither met nor unmet.
    #[must_use]
    pub fn open(&self) -> usize {
        self.count(Met::NotPublished) + self.count(Met::Borderline)
    }

    fn count(&self, met: Met) -> usize {
        self.answers.iter().filter(|a| a.met == met).count()
    }

    /// How many verdicts are of a kind.
    #[must_use]
    pub fn verdicts_of(&self, fit: Fit) -> usize {
        self.verdicts.iter().filter(|v| v.outcome.fit == fit).count()
    }
}

/// Everything for every frame; `frames` and `costs` are the line-up's findings so far.
pub(super) fn fit(
    lineup: &Lineup,
    frames: &[FrameFindings],
    costs: &[PriceAndClimb],
    reference: Option<FrameIndex>,
) -> Vec<FrameFit> {
    let settings = &lineup.settings;
    let reference_frame = reference.and_then(|r| r.of(frames));
    let own = reference_frame.and_then(|frame| {
        let statements = Statements::of(&frame.frameset);
        let headset = match &settings.rider.cockpit {
            Some(cockpit) => UpperHeadset::of_reference(cockpit, &statements),
            None => UpperHeadset::assumed(&statements),
        };
        Some(Steered { size: frame.chosen()?, headset })
    });
    FrameIndex::numbered(frames)
        .map(|(index, frame)| {
            let statements = Statements::of(&frame.frameset);
            let size = frame.chosen();
            let as_published = frame.size.of(&frame.as_published.sizes);
            let candidate = Candidate {
                frameset: &frame.frameset,
                statements: &statements,
                size: as_published,
                saddle_height_mm: settings.rider.saddle.map(|s| s.height),
            };
            let verdicts = check(&settings.parts, &candidate);
            let rear = RearView::of(&settings.parts, &statements, as_published, frame.frameset.tyre);
            let measures = index.of(costs).map_or_else(Measures::default, |cost| measures(frame, cost));
            let answers =
                settings.needs.iter().map(|n| n.held_against(&frame.frameset, &statements, as_published, &measures)).collect();
            let listed = settings.parts.fork.as_ref();
            let is_reference = reference == Some(index);
            let change =
                as_published.and_then(|s| change_findings(&frame.frameset, &statements, s, &settings.fork_trial, listed));
            let contact_points = size.map_or_else(ContactPointFindings::default, |size| {
                position(&settings.rider, frame, size, &statements, own, is_reference)
            });
            let left_over = own
                .zip(size)
                .filter(|_| !is_reference)
                .and_then(|(own, size)| reach_difference(own.size, size, bar_height(&settings.rider, own)));
            let is_tried = settings.fork_trial.frame.filter(|f| f.of(frames).is_some()).or(reference) == Some(index);
            FrameFit {
                verdicts,
                rear,
                answers,
                ghost: change.as_ref().filter(|_| is_tried).and_then(|c| ghost(lineup, frame, c)),
                change,
                is_tried,
                correction: as_published.and_then(|s| correction(&frame.frameset, s)),
                size_fit: size_fit(lineup, index, contact_points.closest_size.as_ref(), left_over),
                contact_points,
                statements,
            }
        })
        .collect()
}

fn ghost(lineup: &Lineup, frame: &FrameFindings, change: &ChangeFindings) -> Option<Ghost> {
    // Only the changed size is asked for, so it stands alone.
    let mut frameset = crate::frameset::Frameset::clone(&frame.frameset);
    let fork_trial = &lineup.settings.fork_trial;
    frameset.front_tyre = fork_trial.front_tyre.or(frameset.front_tyre).or(frameset.tyre);
    frameset.tyre = fork_trial.rear_tyre.or(frameset.tyre);
    frameset.sizes = vec![frame.size.of(&frameset.sizes)?.clone()];
    let mut adjusted = Adjusted::clone(&frame.as_published);
    adjusted.sizes = vec![change.changed.size.clone()];
    let outline = outline(&frameset, &adjusted, SizeIndex(0), None)?;
    Some(Ghost { outline, is_on_outline: fork_trial.is_drawn })
}

/// Height above the bottom bracket at which reaches are compared, mm: of the reference's bar clamp, or of its head tube's top
/// where no cockpit is entered.
fn bar_height(rider: &Rider, own: Steered<'_>) -> f64 {
    match &rider.cockpit {
        Some(cockpit) => hands(&own.size.state, cockpit, own.headset.stack_height.value, Hand::Tops).y,
        None => own.size.value(Figure::Stack).value,
    }
}

/// The rider on a size of `frame`; `own` is the reference's.
fn position(
    rider: &Rider,
    frame: &FrameFindings,
    size: &AdjustedSize,
    statements: &Statements,
    own: Option<Steered<'_>>,
    is_reference: bool,
) -> ContactPointFindings {
    let there = own.filter(|_| !is_reference);
    let here = if is_reference { own } else { Some(Steered { size, headset: UpperHeadset::assumed(statements) }) };
    let cockpit = rider.cockpit.as_ref();
    ContactPointFindings {
        upper_headset: cockpit.and(here).map(|here| here.headset),
        hands: cockpit.zip(here).filter(|_| is_reference).and_then(|(cockpit, here)| here.hands(cockpit)),
        repeated: cockpit.zip(here).and_then(|(cockpit, here)| {
            repeat(there?, cockpit, here, rider.bar_elsewhere.unwrap_or(cockpit.bar), frame.frameset.bar)
        }),
        standover: rider.inside_leg.and_then(|leg| standover(size, leg)),
        toe: toe_gap(size, rider),
        layback: rider.saddle.and_then(|saddle| seat_layback(size, saddle)),
        closest_size: there.and_then(|own| closest_size(own.size, &frame.adjusted, bar_height(rider, own))),
    }
}

/// Frames by unmet needs, then by open ones, then in the line-up's order.
#[must_use]
pub fn by_unmet_needs(fits: &[FrameFit]) -> Vec<FrameIndex> {
    let mut order: Vec<FrameIndex> = FrameIndex::all(fits.len()).collect();
    order.sort_by_key(|i| i.of(fits).map_or((0, 0), |f| (f.not_met(), f.open())));
    order
}

/// The line-up's sizes with every frame in the size that matches the reference's, where one is known.
#[must_use]
pub fn with_matched_sizes(lineup: &Lineup, fits: &[FrameFit]) -> Vec<(FrameIndex, String)> {
    let matched =
        FrameIndex::numbered(fits).filter_map(|(i, f)| f.contact_points.closest_size.as_ref().map(|m| (i, m.label.clone())));
    matched.filter(|(i, label)| i.of(&lineup.frames).is_some_and(|e| e.size != *label)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::{Findings, read_lineup, write_lineup};
    use crate::units::System;
    use crate::words::{contact_points_table, needs_table, parts_table};

    fn library() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn one_wheelset_one_crank_one_fork_and_six_needs_are_answered_in_one_table() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        let first = by_unmet_needs(&findings.fit)[0];
        assert_eq!(findings.frames[first].name, "Marrowby Drift", "the one frame that meets all six");
        assert_eq!((findings.fit[first].not_met(), findings.fit[first].open()), (0, 0));
        assert_eq!(findings.fit[first].verdicts_of(Fit::DoesNotFit), 0, "and takes the parts that are owned");
        assert!(findings.fit[first].verdicts_of(Fit::FitsWith) > 0, "with something here and there");
        // The next one is told why not, each line with a reason and a source.
        let quern = findings.frames.iter().position(|f| f.name == "Quern Halter").unwrap();
        assert!(findings.fit[quern].verdicts_of(Fit::DoesNotFit) > 0);
        for fit in &findings.fit {
            for verdict in &fit.verdicts {
                assert!(!verdict.outcome.reasons.is_empty(), "{verdict:?}");
            }
        }
        let parts = parts_table(&lineup, &findings);
        assert!(parts.rows.iter().all(|r| r.cells.len() == findings.frames.len()));
        let needs = needs_table(&lineup, &findings);
        let not_met: Vec<usize> = needs.frames.iter().map(|i| findings.fit[*i].not_met()).collect();
        assert!(not_met.is_sorted(), "{not_met:?}");
        assert_eq!(needs.columns.len(), 2 + 6);
    }

    #[test]
    fn a_frame_that_states_little_is_never_refused_for_it() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        let wether = findings.frames.iter().position(|f| f.name == "Hollinshaw Wether").unwrap();
        let fit = &findings.fit[wether];
        // It states steel, an EC34 head tube, 135 mm with quick release and a BSA 68 shell: nothing of the list contradicts
        // that, and all else is open.
        assert_eq!(fit.not_met(), 0);
        assert_eq!(fit.verdicts_of(Fit::DoesNotFit), 0, "{:?}", fit.verdicts);
        assert!(fit.open() >= 4);
    }

    #[test]
    fn settings_come_back_as_they_were_written_and_old_files_read() {
        let lineup = library();
        let text = write_lineup(&lineup).unwrap();
        assert_eq!(read_lineup(text.as_bytes()).unwrap(), lineup);
        let old = read_lineup(b"(format: 1, frames: [], settings: (units: Metric))").unwrap();
        assert_eq!(old.settings.parts, crate::parts::PartsList::default());
    }

    #[test]
    fn nearest_sizes_are_offered_and_never_taken() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        let offered = with_matched_sizes(&lineup, &findings.fit);
        assert!(offered.iter().all(|(i, label)| lineup.frames[*i].size != *label && *i != lineup.reference));
        for fit in &findings.fit {
            if let Some(matched) = &fit.contact_points.closest_size {
                assert!(matched.height_mm > 500.0, "{matched:?}");
            }
        }
    }

    #[test]
    fn the_room_before_the_toe_says_what_it_is_measured_to() {
        let mut lineup = library();
        for (mudguard, label) in
            [(0.0, "Toe-overlap clearance, pedal axle to tyre"), (12.0, "Toe-overlap clearance, pedal axle to mudguard")]
        {
            lineup.settings.rider.mudguard = mudguard;
            let labels: Vec<String> =
                contact_points_table(System::Metric, &Findings::of(&lineup)).rows.into_iter().map(|r| r.label).collect();
            assert_eq!(labels.iter().filter(|l| l.starts_with("Toe-overlap")).collect::<Vec<_>>(), [label]);
        }
    }
}
