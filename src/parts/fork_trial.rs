//! Another fork or other tyres on a frame: what they do to its figures, whether the frame looks corrected for suspension,
//! and whether the maker allows the length. The turning itself is `geometry::change`.

use serde::{Deserialize, Serialize};

use super::codes::codes;
use super::fork_limits::{LengthLimit, length_limit};
use super::fork_part::ForkPart;
use super::ranges::{bounded, bounded_option};
use super::stated::Statements;
use super::verdict::Caution;
use crate::frameset::{Figure, FrameIndex, Frameset, TyreSize};
use crate::geometry::{AdjustedSize, Change, Changed, TYRE_RADIUS_U_MM, Value, changed, u_of_step};
use crate::units::{AnyKind, Length, Measured};

/// What is put on the frames, all lengths in mm. Nothing given is nothing changed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
// A file may write this name before the brackets.
#[serde(deny_unknown_fields, default, rename = "Another")]
pub struct ForkTrial {
    /// Place of the frame whose change is drawn; the reference where absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub frame: Option<FrameIndex>,
    /// Whether the changed frame is drawn over the outline.
    #[serde(rename = "drawn", alias = "is_drawn")]
    pub is_drawn: bool,
    /// Takes length, offset and sag from the fork of the parts list where there is one.
    #[serde(alias = "takes_listed_fork")]
    pub use_listed_fork: bool,
    /// Fork length along the steering axis, unloaded.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "bounded_option::<_, 250, 650>")]
    pub fork_length: Option<f64>,
    /// Fork offset.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "bounded_option::<_, -100, 150>")]
    pub fork_offset: Option<f64>,
    /// How far the fork sinks under the rider, along the axis. Only with a fork length.
    #[serde(deserialize_with = "bounded::<_, 0, 150>")]
    pub sag: f64,
    /// Lower headset.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "bounded_option::<_, 0, 40>")]
    pub lower_headset: Option<f64>,
    /// Front tyre.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub front_tyre: Option<TyreSize>,
    /// Rear tyre.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rear_tyre: Option<TyreSize>,
}

impl ForkTrial {
    /// Whether anything is put on at all.
    #[must_use]
    pub fn is_empty(&self, listed: Option<&ForkPart>) -> bool {
        self.change(listed) == Change::default()
    }

    /// Unloaded fork length along the steering axis, offset and sag, mm, as they are put on: of the listed fork or as typed.
    #[must_use]
    pub fn applied(&self, listed: Option<&ForkPart>) -> (Option<f64>, Option<f64>, f64) {
        match listed.filter(|_| self.use_listed_fork) {
            Some(fork) => (Some(fork.standing_length_mm() + fork.sag_mm()), Some(fork.offset), fork.sag_mm()),
            None => (self.fork_length, self.fork_offset, self.sag),
        }
    }

    /// What is put on, with the listed fork where it is taken.
    #[must_use]
    pub fn put_on(&self, listed: Option<&ForkPart>) -> PutOn {
        let (fork_length, fork_offset, sag) = self.applied(listed);
        PutOn {
            listed_fork: listed.filter(|_| self.use_listed_fork).map(|f| f.name.clone()),
            fork_length,
            fork_offset,
            sag,
            lower_headset: self.lower_headset,
            front_tyre: self.front_tyre,
            rear_tyre: self.rear_tyre,
        }
    }

    /// As a change of the state. Typed lengths are taken to the millimetre.
    #[must_use]
    pub fn change(&self, listed: Option<&ForkPart>) -> Change {
        let typed = |value: f64| Measured::new(value, u_of_step(1.0));
        let radius = |tyre: TyreSize| Measured::new(tyre.radius_mm(), TYRE_RADIUS_U_MM);
        let listed = listed.filter(|_| self.use_listed_fork);
        Change {
            fork_length: listed
                .map(|f| typed(f.standing_length_mm()))
                .or(self.fork_length.map(|length| typed(length - self.sag))),
            fork_offset: listed.map(|f| typed(f.offset)).or(self.fork_offset.map(typed)),
            lower_headset: self.lower_headset.map(typed),
            front_radius: self.front_tyre.map(radius),
            rear_radius: self.rear_tyre.map(radius),
            is_one_tyre: self.front_tyre.is_some() && self.front_tyre == self.rear_tyre,
            sag_mm: 0.0,
        }
    }
}

/// What is put on a frame, all lengths in mm; `None` for what stays.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PutOn {
    /// Name of the parts list's fork, where that is taken; empty where it has none.
    pub listed_fork: Option<String>,
    /// Unloaded fork length along the steering axis.
    pub fork_length: Option<f64>,
    /// Fork offset.
    pub fork_offset: Option<f64>,
    /// How far the fork sinks under the rider, along the axis.
    pub sag: f64,
    /// Lower headset stack height.
    pub lower_headset: Option<f64>,
    /// Front tyre.
    pub front_tyre: Option<TyreSize>,
    /// Rear tyre.
    pub rear_tyre: Option<TyreSize>,
}

/// The figures that a change is read by, in the order of tables.
pub const SHOWN: [Figure; 11] = [
    Figure::AxleToCrownAlongAxis,
    Figure::ForkOffset,
    Figure::HeadAngle,
    Figure::SeatAngle,
    Figure::Trail,
    Figure::WheelFlop,
    Figure::BbHeight,
    Figure::Stack,
    Figure::Reach,
    Figure::Wheelbase,
    Figure::Standover,
];

/// One figure before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChangedFigure {
    /// Figure that may change.
    pub figure: Figure,
    /// Value and u as drawn; `None` where missing.
    pub before: Option<Measured<AnyKind>>,
    /// Value and u after; `None` where missing.
    pub after: Option<Measured<AnyKind>>,
    /// After less before and its own u; `None` where either is missing.
    pub difference: Option<Measured<AnyKind>>,
}

/// Whether a frame looks corrected for suspension.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Its fork is longer than wheel and tyre need.
    Corrected,
    /// It is as long as wheel and tyre need.
    NotCorrected,
    /// The doubt covers the difference.
    CannotTell,
}

codes!(Look { Corrected => "corrected", NotCorrected => "not_corrected", CannotTell => "cannot_tell" });

/// How a frame's fork length compares with what its wheel needs.
#[derive(Clone, Debug, PartialEq)]
pub struct Correction {
    /// Fork length beyond tyre radius, gap and crown.
    pub beyond: Measured<Length>,
    /// Whether the frame looks corrected for suspension.
    pub look: Look,
    /// Travel that it would stand in for, mm, least and most; only when it looks corrected.
    pub travel: Option<(f64, f64)>,
    /// Travel of the frame's own suspension fork, mm; `None` for a rigid or unknown one.
    pub own_travel: Option<f64>,
    /// Travel that the maker says a rigid fork stands in for, mm.
    pub published_travel: Option<f64>,
}

/// Tyre to crown race seat where nothing is left over for suspension: gap and crown together. 45 ± 8 mm (one u): trade
/// practice, unverified.
const CROWN_AND_GAP: Measured<Length> = Measured::new(45.0, 8.0);
/// Length that a rigid fork may have to spare for mudguards or a wider tyre without standing in for suspension, mm: trade
/// practice, unverified.
const FOR_MUDGUARDS_MM: f64 = 20.0;
/// How much of the travel a fork sinks under its rider: one fifth to one quarter, trade practice, unverified.
const SINKS: (f64, f64) = (0.2, 0.25);

/// How the frame's own fork looks.
#[must_use]
pub fn correction(frameset: &Frameset, size: &AdjustedSize) -> Option<Correction> {
    use crate::geometry::Quantity as Q;
    if size.value(Figure::AxleToCrownAlongAxis).is_missing || size.value(Figure::FrontTyreRadius).is_missing {
        return None;
    }
    let beyond = size.propagate(|s| s.get(Q::AxleToCrown) - s.get(Q::FrontTyreRadius)).minus(CROWN_AND_GAP);
    let look = if beyond.is_clearly_above(FOR_MUDGUARDS_MM) {
        Look::Corrected
    } else if beyond.value < FOR_MUDGUARDS_MM / 2.0 {
        Look::NotCorrected
    } else {
        Look::CannotTell
    };
    let own_travel = frameset.fork.as_ref().and_then(|f| f.travel).filter(|t| *t > 0.0);
    // A suspension fork is drawn at its full length; a rigid one stands in for it as it sinks under the rider.
    let travel = (look == Look::Corrected && own_travel.is_none()).then(|| {
        let least = beyond.low().max(0.0) / (1.0 - SINKS.0);
        let most = beyond.high() / (1.0 - SINKS.1);
        (round_to(least, 10.0), round_to(most, 10.0))
    });
    let published_travel = frameset.fork.as_ref().and_then(|f| f.corrected_for);
    Some(Correction { beyond, look, travel, own_travel, published_travel })
}

fn round_to(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// What a change does to one size.
#[derive(Clone, Debug, PartialEq)]
pub struct ChangeFindings {
    /// The size as it then stands.
    pub changed: Changed,
    /// The figures that a change is read by.
    pub figures: Vec<ChangedFigure>,
    /// How the frame's own fork looks; `None` where its length or tyre is missing.
    pub correction: Option<Correction>,
    /// The maker's limits, where the fork's length changes.
    pub limit: Option<LengthLimit>,
    /// What to mind, where the fork changes.
    pub caution: Option<Caution>,
    /// What is put on.
    pub put_on: PutOn,
}

impl ChangeFindings {
    /// One of the figures that a change is read by.
    #[must_use]
    pub fn figure(&self, figure: Figure) -> Option<&ChangedFigure> {
        self.figures.iter().find(|f| f.figure == figure)
    }
}

/// What `fork_trial` does to a size. `None` where nothing is changed, or the figures that would turn are missing.
#[must_use]
pub fn change_findings(
    frameset: &Frameset,
    statements: &Statements,
    size: &AdjustedSize,
    fork_trial: &ForkTrial,
    listed: Option<&ForkPart>,
) -> Option<ChangeFindings> {
    let change = fork_trial.change(listed);
    if change == Change::default() {
        return None;
    }
    let is_known = |f: Figure| !size.value(f).is_missing;
    let needed = [Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::HeadTube, Figure::Chainstay, Figure::BbDrop];
    if !needed.iter().all(|f| is_known(*f)) {
        return None;
    }
    let changed = changed(size, &change);
    let figures = SHOWN
        .iter()
        .map(|f| {
            let (before, after) = (size.value(*f), changed.size.value(*f));
            let known = |value: &Value| (!value.is_missing).then(|| value.measured());
            ChangedFigure {
                figure: *f,
                before: known(before),
                after: known(after),
                difference: known(before).and(known(after)).map(|_| changed.difference(*f)),
            }
        })
        .collect();
    let offset = change.fork_offset.map_or(size.value(Figure::ForkOffset).value, |o| o.value);
    let limit = fork_trial.applied(listed).0.map(|mm| length_limit(statements, mm, offset));
    let caution = (change.fork_length.is_some() || change.fork_offset.is_some()).then_some(Caution::ForkLength);
    Some(ChangeFindings {
        correction: correction(frameset, size),
        figures,
        limit,
        caution,
        put_on: fork_trial.put_on(listed),
        changed,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::{adjust, closure};
    use crate::parts::ForkMeasurement;

    fn sample(name: &str) -> Frameset {
        let text = match name {
            "drift" => include_str!("../../sample-frames/marrowby-drift.frame.ron"),
            _ => include_str!("../../sample-frames/quern-halter.frame.ron"),
        };
        read_frameset(text.as_bytes()).unwrap()
    }

    fn findings(frameset: &Frameset, fork_trial: &ForkTrial) -> Option<ChangeFindings> {
        let adjusted = adjust(frameset);
        change_findings(frameset, &Statements::of(frameset), &adjusted.sizes[1], fork_trial, None)
    }

    #[test]
    fn nothing_given_is_nothing_changed() {
        assert!(findings(&sample("drift"), &ForkTrial::default()).is_none());
    }

    #[test]
    fn what_is_put_on_is_what_is_applied() {
        let mut fork = ForkPart::rigid(468.0, 45.0);
        fork.name = "Brindle touring fork".to_owned();
        let listed = ForkTrial { use_listed_fork: true, fork_length: Some(500.0), ..ForkTrial::default() };
        // √(468² − 45²) = 465.83; what is typed beside it does not count.
        let put_on = listed.put_on(Some(&fork));
        assert!((put_on.fork_length.unwrap() - 465.83).abs() < 0.01);
        assert_eq!((put_on.listed_fork.as_deref(), put_on.fork_offset), (Some("Brindle touring fork"), Some(45.0)));
        let typed = ForkTrial { fork_length: Some(500.0), sag: 20.0, front_tyre: "50-622".parse().ok(), ..ForkTrial::default() };
        let put_on = typed.put_on(Some(&fork));
        assert_eq!((put_on.listed_fork, put_on.fork_length, put_on.sag), (None, Some(500.0), 20.0));
        assert_eq!(ForkTrial::default().put_on(Some(&fork)), PutOn::default());
    }

    #[test]
    fn twenty_millimetres_slacken_by_about_a_degree() {
        // "A fork 20 mm longer slackens the head by about 1°": trade practice, unverified. Exactly for this frame: the
        // front axle drops by 20 sin θ over the wheelbase, asin(20 sin 70° / 1080) = 0.997°.
        let frameset = sample("drift");
        let adjusted = adjust(&frameset);
        let size = &adjusted.sizes[1];
        let own = size.value(Figure::AxleToCrownAlongAxis).value;
        let fork_trial = ForkTrial { fork_length: Some(own + 20.0), ..ForkTrial::default() };
        let found = findings(&frameset, &fork_trial).unwrap();
        let difference = found.figures.iter().find(|f| f.figure == Figure::HeadAngle).unwrap().difference.unwrap();
        let exact = (20.0 * size.value(Figure::HeadAngle).value.to_radians().sin() / size.value(Figure::Wheelbase).value)
            .asin()
            .to_degrees();
        assert!((difference.value + exact).abs() < 0.02, "{difference:?} {exact}");
        assert!((difference.value + 1.0).abs() < 0.1);
        assert!(difference.u < 0.03, "{difference:?}");
        assert!(found.caution.is_some());
        assert!(closure(&found.changed.size.state).abs() < 1e-9);
    }

    #[test]
    fn a_longer_fork_never_steepens_and_both_wheels_always_stand() {
        let frameset = sample("drift");
        let mut before = f64::INFINITY;
        for length in (380..=560).step_by(10) {
            let fork_trial = ForkTrial { fork_length: Some(f64::from(length)), ..ForkTrial::default() };
            let found = findings(&frameset, &fork_trial).unwrap();
            let angle = found.changed.size.value(Figure::HeadAngle).value;
            assert!(angle < before, "{length}");
            assert!(closure(&found.changed.size.state).abs() < 1e-9);
            before = angle;
        }
    }

    #[test]
    fn a_corrected_frame_looks_it() {
        // Our own two sample frames: one drawn for a fork that stands in for 100 mm of travel, one not.
        let drift = sample("drift");
        let look = correction(&drift, &adjust(&drift).sizes[1]).unwrap();
        assert_eq!(look.look, Look::Corrected);
        let (least, most) = look.travel.unwrap();
        assert!(least <= 100.0 && most >= 100.0, "{least} {most}");
        assert_eq!(look.published_travel, Some(100.0));
        let halter = sample("halter");
        assert_eq!(correction(&halter, &adjust(&halter).sizes[1]).unwrap().look, Look::NotCorrected);
    }

    #[test]
    fn the_makers_limits_are_said() {
        let mut frameset = sample("drift");
        frameset.standards.remove(&crate::frameset::Standard::ForkLengths);
        assert_eq!(length_limit(&Statements::of(&frameset), 500.0, 45.0).is_within(), None);
        frameset.standards.insert(crate::frameset::Standard::ForkLengths, "465 to 492".to_owned());
        let statements = Statements::of(&frameset);
        let limit = |mm: f64| length_limit(&statements, mm, 45.0);
        assert_eq!((limit(480.0).is_within(), limit(510.0).is_within()), (Some(true), Some(false)));
        // √(491² + 45²) = 493.1 and √(463² + 45²) = 465.2: the way of measuring decides.
        let depends = |mm: f64| matches!(limit(mm), LengthLimit::Depends(_));
        assert!(!depends(480.0) && depends(491.0) && depends(463.0) && !depends(462.0) && !depends(493.0));
    }

    #[test]
    fn a_wrong_length_is_refused_on_reading() {
        assert!(ron::from_str::<ForkTrial>("(fork_length: Some(42))").is_err());
        assert!(ron::from_str::<ForkTrial>("(fork_length: Some(480), sag: 20)").is_ok());
    }

    #[test]
    fn every_field_counts_as_a_change() {
        let fork = ForkPart::rigid(468.0, 45.0);
        let nothing = ForkTrial::default();
        assert!(nothing.is_empty(Some(&fork)), "a listed fork that is not used changes nothing");
        let listed = ForkTrial { use_listed_fork: true, ..ForkTrial::default() };
        assert!(listed.is_empty(None) && !listed.is_empty(Some(&fork)));
        for one in [
            ForkTrial { fork_length: Some(480.0), ..ForkTrial::default() },
            ForkTrial { fork_offset: Some(45.0), ..ForkTrial::default() },
            ForkTrial { lower_headset: Some(12.0), ..ForkTrial::default() },
            ForkTrial { front_tyre: "50-622".parse().ok(), ..ForkTrial::default() },
            ForkTrial { rear_tyre: "50-622".parse().ok(), ..ForkTrial::default() },
        ] {
            assert!(!one.is_empty(None), "{one:?}");
        }
    }

    #[test]
    fn a_fork_stands_shorter_by_its_sag_and_is_judged_unloaded() {
        // 500 mm along the axis, a fifth of 100 mm of travel: 480 mm under the rider.
        let fork =
            ForkPart { measured: ForkMeasurement::Along, travel: 100.0, sag_percent: 20.0, ..ForkPart::rigid(500.0, 45.0) };
        let typed = ForkTrial { fork_length: Some(500.0), sag: 20.0, ..ForkTrial::default() };
        let listed = ForkTrial { use_listed_fork: true, ..ForkTrial::default() };
        for trial in [typed, listed] {
            assert_eq!(trial.change(Some(&fork)).fork_length.map(|l| l.value), Some(480.0), "{trial:?}");
            let (unloaded, _, sag) = trial.applied(Some(&fork));
            assert_eq!((unloaded, sag), (Some(500.0), 20.0), "{trial:?}");
        }
    }

    #[test]
    fn two_tyres_are_one_only_where_they_are_the_same() {
        let is_one = |front: &str, rear: &str| {
            let trial = ForkTrial { front_tyre: front.parse().ok(), rear_tyre: rear.parse().ok(), ..ForkTrial::default() };
            trial.change(None).is_one_tyre
        };
        assert!(is_one("50-622", "50-622"));
        assert!(!is_one("57-622", "50-622") && !is_one("50-622", "") && !is_one("", "50-622") && !is_one("", ""));
    }

    #[test]
    fn a_figure_is_found_by_its_name() {
        let trial = ForkTrial { fork_offset: Some(60.0), ..ForkTrial::default() };
        let found = findings(&sample("drift"), &trial).unwrap();
        for figure in SHOWN {
            assert_eq!(found.figure(figure).map(|f| f.figure), Some(figure));
        }
        assert_eq!(found.figure(Figure::HeadTube), None, "no change is read by it");
    }

    /// One size whose fork is longer than tyre, gap and crown by `extra_mm`.
    fn with_fork(extra_mm: f64) -> Frameset {
        let length = "57-622".parse::<TyreSize>().unwrap().radius_mm() + CROWN_AND_GAP.value + extra_mm;
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 2, maker: \"Quern\", model: \"Halter\", rounded_to: (mm: 1, deg: 0.1),
             tyre: \"57-622\", fork: (material: Steel, travel: 0),
             sizes: [(label: \"M\", figures: {{Stack: 620, Reach: 390, HeadAngle: 70, SeatAngle: 73, ForkOffset: 46,
             Chainstay: 440, BbDrop: 65, AxleToCrownAlongAxis: {length}}})])"
        );
        read_frameset(text.as_bytes()).unwrap()
    }

    #[test]
    fn a_fork_looks_corrected_by_what_it_has_to_spare() {
        let look = |extra: f64| {
            let frameset = with_fork(extra);
            correction(&frameset, &adjust(&frameset).sizes[0]).unwrap()
        };
        // 20 mm to spare may be for mudguards; the ± of what wheel and crown need is 16 mm.
        for (extra, expected) in [
            (-10.0, Look::NotCorrected),
            (8.0, Look::NotCorrected),
            (14.0, Look::CannotTell),
            (30.0, Look::CannotTell),
            (45.0, Look::Corrected),
        ] {
            let found = look(extra);
            assert_eq!(found.look, expected, "{extra}: {:?}", found.beyond);
            assert_eq!(found.travel.is_some(), expected == Look::Corrected, "{extra}");
        }
        // 80 ± 16 mm stand in for a fork that sinks by 20 to 25 %: 64 / 0.8 = 80, 96 / 0.75 = 128, in tens of millimetres.
        assert_eq!(look(80.0).travel, Some((80.0, 130.0)));
    }

    #[test]
    fn a_suspension_fork_stands_in_for_nothing() {
        let mut frameset = with_fork(80.0);
        frameset.fork.as_mut().unwrap().travel = Some(120.0);
        let found = correction(&frameset, &adjust(&frameset).sizes[0]).unwrap();
        assert_eq!((found.look, found.travel, found.own_travel), (Look::Corrected, None, Some(120.0)));
    }
}
