//! How alike in fit each frame is to the reference, in the size compared: reach at the reference's bar height, what is left
//! over of it, and how the size was chosen.

use super::document::Lineup;
use super::findings::Findings;
use super::size_rule::{RuledBy, SizeRule, same_label};
use crate::frameset::{FrameIndex, SizeIndex};
use crate::parts::contact_points::ClosestSize;
use crate::units::{Length, Measured};

/// Frames are alike in fit while their reach at one bar height differs by no more than this, mm: the next stem makes it up.
/// Stems come in steps of 10 mm: trade practice, unverified.
pub const ALIKE_MM: f64 = 10.0;

/// How the size compared was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeBasis {
    /// It is the reference: the others follow it.
    Reference,
    /// By hand.
    Hand,
    /// Its fit is closest to the reference's.
    Fit,
    /// It has the reference's label, since reach at the bar height is unknown.
    Label,
    /// It stands at the reference's place in the row of sizes, since reach at the bar height is unknown.
    Place,
    /// As the file or the label has it: no rule was followed.
    AsPublished,
}

impl SizeBasis {
    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Reference => "reference",
            Self::Hand => "pinned",
            Self::Fit => "closest_fit",
            Self::Label => "label",
            Self::Place => "place",
            Self::AsPublished => "as_published",
        }
    }
}

/// How alike in fit a frame is to the reference.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeFit {
    /// How its size was chosen.
    pub basis: SizeBasis,
    /// Reach of the size compared, less the reference's, at the reference's bar height; `None` for the reference itself and
    /// where it is unknown.
    pub left_over: Option<Measured<Length>>,
    /// Label of another size that is closer in fit, where there is one.
    pub closer: Option<String>,
}

impl SizeFit {
    /// Whether it is alike in fit to the reference, which is alike to itself; `None` where that is unknown. What lies within
    /// the ± of the limit is alike.
    #[must_use]
    pub fn is_alike(&self) -> Option<bool> {
        match (self.basis, self.left_over) {
            (SizeBasis::Reference, _) => Some(true),
            (_, left_over) => left_over.map(|d| !d.abs().is_clearly_above(ALIKE_MM)),
        }
    }
}

/// The size that the rule gives a frame, and by what; `None` for the reference.
pub(super) fn ruled(lineup: &Lineup, frame: FrameIndex, closest: Option<&ClosestSize>) -> Option<(SizeIndex, RuledBy)> {
    let reference = lineup.reference_index().filter(|r| *r != frame)?.of(&lineup.frames)?;
    match (lineup.settings.sizes, closest) {
        (SizeRule::SameFit, Some(closest)) => Some((closest.size, RuledBy::Fit)),
        _ => Some(same_label(&reference.frameset, &reference.size, &frame.of(&lineup.frames)?.frameset)),
    }
}

/// How alike a frame is; `left_over` is its reach at the bar height less the reference's.
pub(super) fn size_fit(
    lineup: &Lineup,
    frame: FrameIndex,
    closest: Option<&ClosestSize>,
    left_over: Option<Measured<Length>>,
) -> SizeFit {
    let entry = frame.of(&lineup.frames);
    let size = entry.map(super::document::Entry::size_index);
    let basis = match (ruled(lineup, frame, closest), entry.is_some_and(|e| e.is_pinned)) {
        (None, _) => SizeBasis::Reference,
        (_, true) => SizeBasis::Hand,
        (Some((place, by)), _) if lineup.settings.sizes == SizeRule::SameFit && size == Some(place) => match by {
            RuledBy::Fit => SizeBasis::Fit,
            RuledBy::Label => SizeBasis::Label,
            RuledBy::Place => SizeBasis::Place,
        },
        _ => SizeBasis::AsPublished,
    };
    let closer = closest.filter(|c| Some(c.size) != size).map(|c| c.label.clone());
    SizeFit { basis, left_over, closer }
}

impl Findings {
    /// Places of the shown frames that are not alike in fit to the reference, and of those of which it is unknown.
    #[must_use]
    pub fn unlike_in_fit(&self) -> (Vec<FrameIndex>, Vec<FrameIndex>) {
        let shown = |alike: Option<bool>| {
            let frames = FrameIndex::numbered(self.frames.iter().zip(&self.fit));
            frames.filter(|(_, (f, fit))| f.shown && fit.size_fit.is_alike() == alike).map(|(i, _)| i).collect()
        };
        (shown(Some(false)), shown(None))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    fn library() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn what_is_left_over_is_least_in_the_size_that_the_rule_gives() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        for (index, fit) in FrameIndex::numbered(&findings.fit) {
            let Some(closest) = &fit.contact_points.closest_size else { continue };
            for (place, size) in SizeIndex::numbered(&findings.frames[index].frameset.sizes) {
                let mut other = lineup.clone();
                other.frames[index].size.clone_from(&size.label);
                let found = Findings::of(&other).fit[index].size_fit.clone();
                let Some(left_over) = found.left_over else { continue };
                assert!(left_over.value.abs() >= closest.difference.value.abs() - 1e-9, "{index:?} {}", size.label);
                assert_eq!(found.closer.is_none(), place == closest.size);
                if place == closest.size {
                    assert_eq!(left_over, closest.difference);
                }
            }
        }
    }

    #[test]
    fn the_size_says_how_it_was_chosen() {
        let mut lineup = library();
        let basis = |lineup: &Lineup, frame: usize| Findings::of(lineup).fit[frame].size_fit.basis;
        assert_eq!((basis(&lineup, 0), basis(&lineup, 1)), (SizeBasis::Reference, SizeBasis::AsPublished));
        lineup.settings.sizes = SizeRule::SameFit;
        let wether = lineup.frames.iter().position(|e| e.frameset.model == "Wether").unwrap();
        lineup.put_added_into_their_sizes(1);
        assert_eq!((basis(&lineup, 1), basis(&lineup, wether)), (SizeBasis::Fit, SizeBasis::Place));
        lineup.frames[1].is_pinned = true;
        assert_eq!(basis(&lineup, 1), SizeBasis::Hand);
    }

    #[test]
    fn frames_beyond_a_stems_step_are_not_alike() {
        let fit = |value, u| SizeFit { basis: SizeBasis::Fit, left_over: Some(Measured::new(value, u)), closer: None };
        assert_eq!(
            [fit(9.0, 0.5), fit(-10.9, 0.5), fit(-11.1, 0.5), fit(20.0, 6.0)].map(|f| f.is_alike()),
            [Some(true), Some(true), Some(false), Some(true)]
        );
        assert_eq!(SizeFit { left_over: None, ..fit(0.0, 0.0) }.is_alike(), None);
        let findings = Findings::of(&library());
        let (unlike, unknown) = findings.unlike_in_fit();
        assert!(unlike.iter().all(|i| findings.frames[*i].shown) && unknown.is_empty());
    }
}
