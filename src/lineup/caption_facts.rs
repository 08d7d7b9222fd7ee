//! What the captions of a sheet tell: which frames differ clearly from the reference in what, and in what none does.
//!
//! Facts only; `words` turns them into sentences.

use super::bag_space_findings::BagSpaceFigure;
use super::findings::Findings;
use super::frame_findings::FrameFindings;
use super::sheet::{BAG_SPACE, NO_CLEAR_DIFFERENCE};
use crate::frameset::{Figure, FrameIndex, Part};
use crate::units::{AnyKind, Measured, Quantity, System};

/// What a caption is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CaptionSubject {
    /// Trail.
    Trail,
    /// Weight of the frameset.
    Weight,
    /// Stack.
    Stack,
    /// Reach.
    Reach,
    /// Area of the frame-bag space.
    BagSpace,
    /// Wheelbase.
    Wheelbase,
    /// Chainstay length.
    Chainstay,
    /// Bottom bracket drop.
    BbDrop,
    /// Standover height.
    Standover,
}

impl CaptionSubject {
    /// All, in the order in which they are told.
    pub const ALL: [Self; 9] = [
        Self::Trail,
        Self::Weight,
        Self::Stack,
        Self::Reach,
        Self::BagSpace,
        Self::Wheelbase,
        Self::Chainstay,
        Self::BbDrop,
        Self::Standover,
    ];

    /// Name under which line-up files keep an edited caption about it.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Trail => "Trail",
            Self::Weight => "Weight",
            Self::Stack => "Stack",
            Self::Reach => "Reach",
            Self::BagSpace => BAG_SPACE,
            Self::Wheelbase => "Wheelbase",
            Self::Chainstay => "Chainstay",
            Self::BbDrop => "Bottom bracket drop",
            Self::Standover => "Standover",
        }
    }

    const fn figure(self) -> Option<Figure> {
        match self {
            Self::Trail => Some(Figure::Trail),
            Self::Stack => Some(Figure::Stack),
            Self::Reach => Some(Figure::Reach),
            Self::Wheelbase => Some(Figure::Wheelbase),
            Self::Chainstay => Some(Figure::Chainstay),
            Self::BbDrop => Some(Figure::BbDrop),
            Self::Standover => Some(Figure::Standover),
            Self::Weight | Self::BagSpace => None,
        }
    }

    /// What its values measure.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Weight => Quantity::Mass,
            Self::BagSpace => Quantity::Area,
            _ => Quantity::Length,
        }
    }

    fn value(self, frame: &FrameFindings) -> Option<Measured<AnyKind>> {
        match (self, self.figure()) {
            (_, Some(figure)) => frame.value(figure).filter(|v| !v.is_missing).map(crate::geometry::Value::measured),
            (Self::Weight, None) => frame.weights.part(Part::Frameset).map(|w| w.mass.of_any_kind()),
            (_, None) => BagSpaceFigure::Area.of(frame),
        }
    }

    /// How a frame differs from the reference in it.
    #[must_use]
    pub fn difference(self, findings: &Findings, frame: FrameIndex) -> Option<Measured<AnyKind>> {
        match (self, self.figure()) {
            (_, Some(figure)) => findings.difference(frame, figure),
            (Self::Weight, None) => findings.weight_difference(frame, Part::Frameset).map(Measured::of_any_kind),
            (_, None) => findings.bag_space_difference(frame, BagSpaceFigure::Area),
        }
    }
}

/// A fact for one caption.
#[derive(Clone, Debug, PartialEq)]
pub enum CaptionFact {
    /// A frame differs clearly from the reference.
    Difference {
        /// In what.
        subject: CaptionSubject,
        /// The frame's place.
        frame: FrameIndex,
        /// Whether the frame has more of it.
        is_more: bool,
        /// The frame's value.
        own: Measured<AnyKind>,
        /// The reference's.
        other: Measured<AnyKind>,
    },
    /// Some frames have no clear difference from the reference.
    NoClearDifference {
        /// In what.
        subject: CaptionSubject,
        /// Their places, the reference's first.
        frames: Vec<FrameIndex>,
        /// Whether these are all shown frames.
        is_all: bool,
    },
}

impl CaptionFact {
    /// What it is about, by which an edit finds it again: `Trail: Quern Halter`.
    #[must_use]
    pub fn key(&self, findings: &Findings) -> String {
        match self {
            Self::Difference { subject, frame, .. } => {
                format!("{}: {}", subject.key(), frame.of(&findings.frames).map_or("", |f| f.name.as_str()))
            }
            Self::NoClearDifference { subject, .. } => format!("{}: {NO_CLEAR_DIFFERENCE}", subject.key()),
        }
    }

    /// Its figures, metric whatever the chosen units, by which a change is noticed: `73.1 ± 1.8, 84.7 ± 1.7`.
    #[must_use]
    pub fn figures(&self, findings: &Findings) -> String {
        match self {
            Self::Difference { subject, own, other, .. } => {
                let number = |value| System::Metric.plus_minus(subject.quantity(), value);
                format!("{}, {}", number(*own), number(*other))
            }
            Self::NoClearDifference { frames, .. } => {
                let names = frames.iter().filter_map(|f| f.of(&findings.frames)).map(|f| f.name.as_str());
                names.collect::<Vec<_>>().join(", ")
            }
        }
    }
}

/// Captions about one frame, at most.
const EACH: usize = 5;

impl Findings {
    /// The facts for captions: of each frame its first clear difference, then the second ones, and so on; at last in what
    /// there is no clear difference. Weight is told of early, whichever way.
    #[must_use]
    pub fn caption_facts(&self) -> Vec<CaptionFact> {
        let Some(reference) = self.reference else { return Vec::new() };
        let Some(reference_frame) = self.reference_frame() else { return Vec::new() };
        let others: Vec<FrameIndex> =
            FrameIndex::all(self.frames.len()).filter(|i| self.frames[*i].shown && *i != reference).collect();
        // Few frames leave space for more about each.
        let each = if others.len() > 2 { EACH - 2 } else { EACH };
        let clear = |frame: FrameIndex| {
            let is_clear = move |s: &CaptionSubject| s.difference(self, frame).is_some_and(Measured::is_clear);
            CaptionSubject::ALL.into_iter().filter(is_clear).take(each)
        };
        let told = |frame: FrameIndex, rank: usize| {
            let subject = clear(frame).nth(rank)?;
            let (own, other) = (subject.value(frame.of(&self.frames)?)?, subject.value(reference_frame)?);
            let is_more = subject.difference(self, frame)?.value > 0.0;
            Some(CaptionFact::Difference { subject, frame, is_more, own, other })
        };
        // The first of each frame first, so that a small sheet tells of every frame.
        let mut facts: Vec<CaptionFact> = others.iter().filter_map(|frame| told(*frame, 0)).collect();
        facts.extend(self.no_clear_difference(reference, &others, CaptionSubject::Weight));
        for rank in 1..each {
            facts.extend(others.iter().filter_map(|frame| told(*frame, rank)));
        }
        let rest = CaptionSubject::ALL.into_iter().filter(|s| *s != CaptionSubject::Weight);
        facts.extend(rest.filter_map(|subject| self.no_clear_difference(reference, &others, subject)));
        facts
    }

    /// That frames have no clear difference in something; `None` where none are like that.
    fn no_clear_difference(&self, reference: FrameIndex, others: &[FrameIndex], subject: CaptionSubject) -> Option<CaptionFact> {
        let is_unclear = |frame: &&FrameIndex| subject.difference(self, **frame).is_some_and(|d| !d.is_clear());
        let alike: Vec<FrameIndex> = others.iter().filter(is_unclear).copied().collect();
        let is_all = alike.len() == others.len();
        let frames = std::iter::once(reference).chain(alike.iter().copied()).collect();
        (!alike.is_empty()).then_some(CaptionFact::NoClearDifference { subject, frames, is_all })
    }
}
