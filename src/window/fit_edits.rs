//! Changes of what is fitted: parts, needs, another fork, the rider. Part of [`Edit`](super::edits::Edit); places beyond
//! the last entry change nothing.

use super::labels::changes as labels;
use crate::frameset::FrameIndex;
use crate::lineup::Lineup;
use crate::loaded::LoadedSettings;
use crate::parts::contact_points::Rider;
use crate::parts::{ForkPart, ForkTrial, Need, Part, Purchase, RearSettings};
use crate::words::Label;

/// One change of what is fitted.
#[derive(Clone, Debug, PartialEq)]
pub enum FitEdit {
    /// A part at the end.
    AddPart(Part),
    /// The part at this place becomes another.
    Part(usize, Part),
    /// Away with the part at this place.
    RemovePart(usize),
    /// Weight and price of what frames need besides, by its key.
    Besides(&'static str, Purchase),
    /// What the rears from above show.
    Rear(RearSettings),
    /// The fork of the parts list, or none.
    ListedFork(Option<ForkPart>),
    /// A need at the end.
    AddNeed(Need),
    /// The need at this place becomes another.
    Need(usize, Need),
    /// Away with the need at this place.
    RemoveNeed(usize),
    /// Another fork or other tyres.
    ForkTrial(ForkTrial),
    /// The rider's hands, saddle and legs.
    Rider(Rider),
    /// The rider's body and where luggage hangs; what was changed.
    Loaded(LoadedSettings, String),
    /// Frames in these sizes, by their labels; they follow the rule from now on.
    Sizes(Vec<(FrameIndex, String)>),
}

impl FitEdit {
    /// In words, after "undo" and "redo".
    pub(crate) fn label(&self) -> String {
        match self {
            Self::AddPart(part) => labels::adding(&part.kind.label().to_lowercase()),
            Self::Part(_, part) => format!("{} {}", part.kind.label().to_lowercase(), part.text),
            Self::Besides(..) => labels::WEIGHT_OR_PRICE_OF_A_PART.to_owned(),
            Self::Rear(_) => labels::REAR_FROM_ABOVE.to_owned(),
            Self::RemovePart(_) => labels::REMOVING_A_PART.to_owned(),
            Self::ListedFork(Some(_)) => labels::FORK_IN_THE_PARTS_LIST.to_owned(),
            Self::ListedFork(None) => labels::NO_FORK_IN_THE_PARTS_LIST.to_owned(),
            Self::AddNeed(need) => labels::need(&need),
            Self::Need(_, need) => labels::need(&need),
            Self::RemoveNeed(_) => labels::REMOVING_A_NEED.to_owned(),
            Self::ForkTrial(_) => labels::ANOTHER_FORK_OR_TYRE.to_owned(),
            Self::Rider(_) => labels::CONTACT_POINTS.to_owned(),
            Self::Loaded(_, what) => what.clone(),
            Self::Sizes(_) => labels::CLOSEST_SIZES.to_owned(),
        }
    }

    /// Makes the change in the line-up.
    pub(crate) fn apply(self, lineup: &mut Lineup) {
        let settings = &mut lineup.settings;
        match self {
            Self::AddPart(part) => settings.parts.parts.push(part),
            Self::Part(place, part) => {
                if let Some(entry) = settings.parts.parts.get_mut(place) {
                    *entry = part;
                }
            }
            Self::RemovePart(place) => {
                if place < settings.parts.parts.len() {
                    settings.parts.parts.remove(place);
                }
            }
            Self::Besides(key, purchase) if purchase.is_empty() => {
                settings.parts.besides.remove(key);
            }
            Self::Besides(key, purchase) => {
                settings.parts.besides.insert(key.to_owned(), purchase);
            }
            Self::Rear(rear) => settings.rear = rear,
            Self::ListedFork(fork) => settings.parts.fork = fork,
            Self::AddNeed(need) => settings.needs.push(need),
            Self::Need(place, need) => {
                if let Some(entry) = settings.needs.get_mut(place) {
                    *entry = need;
                }
            }
            Self::RemoveNeed(place) => {
                if place < settings.needs.len() {
                    settings.needs.remove(place);
                }
            }
            Self::ForkTrial(fork_trial) => settings.fork_trial = fork_trial,
            Self::Rider(rider) => settings.rider = rider,
            Self::Loaded(loaded, _) => settings.loaded = loaded,
            Self::Sizes(sizes) => lineup.put_into(sizes),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::PartKind;

    #[test]
    fn places_beyond_the_last_change_nothing() {
        let mut lineup = Lineup::default();
        let part = Part::new(PartKind::Belt, "belt", "").expect("reads");
        FitEdit::Part(3, part.clone()).apply(&mut lineup);
        FitEdit::RemovePart(0).apply(&mut lineup);
        FitEdit::RemoveNeed(0).apply(&mut lineup);
        FitEdit::Sizes(vec![(FrameIndex(4), "M".to_owned())]).apply(&mut lineup);
        assert_eq!(lineup, Lineup::default());
        FitEdit::AddPart(part).apply(&mut lineup);
        assert_eq!(lineup.settings.parts.parts.len(), 1);
    }
}
