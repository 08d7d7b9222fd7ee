//! Sizes that follow the rule when a line-up is edited.
//!
//! A size is chosen when an edit is made, and a file holds it by its label. It is not derived anew each time a line-up is
//! read: a saved comparison shows the sizes that were published, whatever a later version would choose. An edit changes
//! only the sizes for which the rule's answer has changed by that edit, and the window says which.

use super::document::{Entry, FrameKey, Lineup};
use super::findings::Findings;
use super::size_fit::ruled;
use super::size_rule::{RuledBy, SizeRule};
use crate::frameset::{FrameIndex, SizeIndex};

/// The size that the rule gives a frame, and by what; `None` for the reference.
fn ruled_of(lineup: &Lineup, findings: &Findings, frame: FrameIndex) -> Option<(SizeIndex, RuledBy)> {
    ruled(lineup, frame, frame.of(&findings.fit)?.contact_points.closest_size.as_ref())
}

/// Frames whose size follows the rule to another, with that size's label: what an edit from `before` to `lineup` brings
/// with it. Without `before`, every size that the rule gives otherwise.
#[must_use]
pub fn sizes_that_follow(
    lineup: &Lineup,
    findings: &Findings,
    before: Option<(&Lineup, &Findings)>,
) -> Vec<(FrameIndex, String)> {
    let ruled_before = |key: FrameKey| {
        let (lineup, findings) = before?;
        let place = FrameIndex(lineup.frames.iter().position(|e| e.key == key)?);
        let entry = place.of(&lineup.frames).filter(|e| !e.is_pinned)?;
        let (size, by) = ruled_of(lineup, findings, place)?;
        Some((size.of(&entry.frameset.sizes)?.label.clone(), by, lineup.settings.sizes))
    };
    let follows = |frame: FrameIndex, entry: &Entry| {
        let (size, by) = ruled_of(lineup, findings, frame)?;
        let label = &size.of(&entry.frameset.sizes)?.label;
        let is_settled = match ruled_before(entry.key) {
            Some((_, _, rule)) if rule == lineup.settings.sizes && rule == SizeRule::AsPublished => true,
            Some((known, known_by, rule)) => rule == lineup.settings.sizes && known == *label && known_by == by,
            None => false,
        };
        (!is_settled && *label != entry.size).then(|| (frame, label.clone()))
    };
    FrameIndex::numbered(&lineup.frames).filter(|(_, entry)| !entry.is_pinned).filter_map(|(i, e)| follows(i, e)).collect()
}

impl Lineup {
    /// Puts frames into these sizes. They follow the rule from now on.
    pub fn put_into(&mut self, sizes: Vec<(FrameIndex, String)>) {
        for (frame, label) in sizes {
            if let Some(entry) = frame.of_mut(&mut self.frames).filter(|e| e.frameset.size_index(&label).is_some()) {
                entry.size = label;
                entry.is_pinned = false;
            }
        }
    }

    /// Gives every frame that stands behind the first `settled` ones the size that the rule gives it.
    pub fn put_added_into_their_sizes(&mut self, settled: usize) {
        if self.frames.len() > settled.max(1) {
            let sizes = sizes_that_follow(self, &Findings::of(self), None);
            self.put_into(sizes.into_iter().filter(|(frame, _)| frame.0 >= settled).collect());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::size_rule::same_label;
    use super::*;
    use crate::lineup::{read_lineup, write_lineup};

    fn library() -> Lineup {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        for (number, entry) in lineup.frames.iter_mut().enumerate() {
            entry.key = FrameKey(number as u64 + 1);
        }
        lineup
    }

    fn sizes(lineup: &Lineup) -> Vec<String> {
        lineup.frames.iter().map(|e| e.size.clone()).collect()
    }

    /// An edit with what follows from it.
    fn edited(lineup: &Lineup, edit: impl FnOnce(&mut Lineup)) -> Lineup {
        let mut next = lineup.clone();
        edit(&mut next);
        let sizes = sizes_that_follow(&next, &Findings::of(&next), Some((lineup, &Findings::of(lineup))));
        next.put_into(sizes);
        next
    }

    #[test]
    fn a_new_reference_takes_the_others_with_it_but_not_a_size_chosen_by_hand() {
        let mut lineup = library();
        lineup.settings.sizes = SizeRule::SameFit;
        lineup.put_into(sizes_that_follow(&lineup, &Findings::of(&lineup), None));
        let quern = lineup.frames.iter().position(|e| e.frameset.model == "Halter").unwrap();
        lineup.frames[quern].size = lineup.frames[quern].frameset.sizes[0].label.clone();
        lineup.frames[quern].is_pinned = true;
        let small = edited(&lineup, |l| l.frames[0].size = "S".to_owned());
        assert_eq!(small.frames[quern].size, lineup.frames[quern].size, "pinned");
        let findings = Findings::of(&small);
        for (index, entry) in FrameIndex::numbered(&small.frames).filter(|(i, e)| i.0 != 0 && !e.is_pinned) {
            let (size, _) = ruled_of(&small, &findings, index).unwrap();
            assert_eq!(entry.size_index(), size, "{}", entry.frameset.name());
        }
        assert_ne!(sizes(&small), sizes(&lineup));
        // Unpinned, it follows too.
        let unpinned = edited(&small, |l| l.frames[quern].is_pinned = false);
        assert_eq!(unpinned.frames[quern].size_index(), ruled_of(&unpinned, &findings, FrameIndex(quern)).unwrap().0);
    }

    #[test]
    fn what_does_not_change_the_rules_answer_changes_no_size() {
        let mut lineup = library();
        lineup.settings.sizes = SizeRule::SameFit;
        // As a file may have it: in sizes that the rule would not give.
        for entry in &mut lineup.frames {
            entry.size = entry.frameset.sizes[0].label.clone();
        }
        let changed = edited(&lineup, |l| l.settings.outline.wheels = false);
        assert_eq!(sizes(&changed), sizes(&lineup));
        let removed = edited(&lineup, |l| drop(l.frames.pop()));
        assert_eq!(sizes(&removed)[..], sizes(&lineup)[..lineup.frames.len() - 1]);
    }

    #[test]
    fn sizes_as_published_stay_until_the_rule_is_chosen() {
        let lineup = library();
        assert_eq!(lineup.settings.sizes, SizeRule::AsPublished, "files that do not say");
        let other = edited(&lineup, |l| l.reference = FrameIndex(3));
        assert_eq!(sizes(&other), sizes(&lineup));
        let ruled_by_fit = edited(&lineup, |l| l.settings.sizes = SizeRule::SameFit);
        let back = edited(&ruled_by_fit, |l| l.settings.sizes = SizeRule::AsPublished);
        assert_eq!(back.frames[1].size, "L", "the label of the reference");
    }

    #[test]
    fn without_figures_the_label_decides_and_then_the_place() {
        let mut lineup = library();
        lineup.settings.sizes = SizeRule::SameFit;
        let wether = lineup.frames.iter().position(|e| e.frameset.model == "Wether").unwrap();
        let (place, by) = ruled_of(&lineup, &Findings::of(&lineup), FrameIndex(wether)).unwrap();
        // The reference stands at the third of four or five sizes; the other has none of its labels.
        let (own, count) = (lineup.frames[0].size_index().0, lineup.frames[0].frameset.sizes.len());
        let last = lineup.frames[wether].frameset.sizes.len() - 1;
        assert_eq!((place.0, by), ((2 * own * last + count - 1) / (2 * (count - 1)), RuledBy::Place));
        let quern = &lineup.frames[1].frameset;
        assert_eq!(same_label(&lineup.frames[0].frameset, " l", quern), (quern.size_index("L").unwrap(), RuledBy::Label));
    }

    #[test]
    fn rule_and_hand_are_written_and_older_files_have_neither() {
        let mut lineup = library();
        assert!(!write_lineup(&lineup).unwrap().contains("pinned"));
        assert!(!write_lineup(&lineup).unwrap().contains("SameFit"));
        lineup.settings.sizes = SizeRule::SameFit;
        lineup.frames[1].is_pinned = true;
        let text = write_lineup(&lineup).unwrap();
        assert!(text.contains("sizes: SameFit") && text.contains("pinned: true"));
        assert_eq!(read_lineup(text.as_bytes()).unwrap(), lineup);
        assert_eq!(Lineup::default().settings.sizes, SizeRule::SameFit, "a new line-up");
    }
}
