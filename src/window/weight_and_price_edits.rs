//! Changes of what is weighed, priced and ridden: part of [`Edit`](super::edits::Edit). Places beyond the last entry
//! change nothing.

use super::labels::changes as labels;
use crate::frameset::{FrameIndex, Part};
use crate::lineup::{Lineup, RidingSettings, WeightSettings, letter};
use crate::money::MoneySettings;
use crate::weight::PartWeightChoices;

/// One change of weights, money or riding.
#[derive(Clone, Debug, PartialEq)]
pub enum WeightAndPriceEdit {
    /// How weights are brought to the size compared, in the whole line-up.
    Weights {
        /// As they now are.
        settings: WeightSettings,
        /// What was changed, for undo.
        what: &'static str,
    },
    /// The choices about one weight of one frame.
    WeightChoices {
        /// The frame's place.
        frame: FrameIndex,
        /// Which of its weights.
        part: Part,
        /// As they now are.
        weight_choices: PartWeightChoices,
        /// What was changed, for undo.
        what: &'static str,
    },
    /// How prices are brought together.
    Money {
        /// As they now are.
        settings: MoneySettings,
        /// What was changed, for undo.
        what: &'static str,
    },
    /// Who and what moves, the climb, the gears.
    Riding {
        /// As they now are.
        settings: RidingSettings,
        /// What was changed, for undo.
        what: &'static str,
    },
}

impl WeightAndPriceEdit {
    /// In words, after "undo" and "redo".
    pub(crate) fn label(&self) -> String {
        match self {
            Self::Weights { what, .. } | Self::Money { what, .. } | Self::Riding { what, .. } => (*what).to_owned(),
            Self::WeightChoices { frame, part, what, .. } => labels::change_of_weight(&what, &part.label(), &letter(*frame)),
        }
    }

    /// Makes the change in the line-up.
    pub(crate) fn apply(self, lineup: &mut Lineup) {
        match self {
            Self::Weights { settings, .. } => lineup.settings.weight = settings,
            Self::WeightChoices { frame, part, weight_choices, .. } => {
                if let Some(entry) = frame.of_mut(&mut lineup.frames) {
                    *entry.weight_choices.part_mut(part) = weight_choices;
                }
            }
            Self::Money { settings, .. } => lineup.settings.money = settings,
            Self::Riding { settings, .. } => lineup.settings.price_and_climb = settings,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_beyond_the_last_change_nothing_and_labels_say_what() {
        let mut lineup = Lineup::default();
        let weight_choices = PartWeightChoices { plus_minus: Some(40.0), ..PartWeightChoices::default() };
        let edit = WeightAndPriceEdit::WeightChoices { frame: FrameIndex(2), part: Part::Fork, weight_choices, what: "±" };
        assert_eq!(edit.label(), "± of the fork of C");
        edit.apply(&mut lineup);
        assert_eq!(lineup, Lineup::default());
        let settings = WeightSettings { factor: Some(1.1), ..WeightSettings::default() };
        WeightAndPriceEdit::Weights { settings, what: "weight factor per size" }.apply(&mut lineup);
        assert_eq!(lineup.settings.weight.factor, Some(1.1));
    }
}
