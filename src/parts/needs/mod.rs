//! The rider's musts: a short list of readable sentences, each held against what a frame states. What is not stated is
//! never counted as no, and a figure within its ± of the limit is neither.

mod answers;
mod asks;
mod facts;
mod measure;
mod words;

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

pub use self::facts::NeedFact;
pub use self::measure::{Measure, Measures};

use self::asks::Asks;
use super::standards::{NotUnderstood, Wheel};
use super::stated::Statements;
use crate::frameset::{Figure, Frameset};
use crate::geometry::AdjustedSize;

/// What the field shows as examples.
pub const NEED_EXAMPLES: &[&str] = &[
    "tyre at least 50 mm on 622",
    "three bosses on the fork",
    "front derailleur",
    "no suspension fork",
    "quick release",
    "two cages on the frame",
    "rotor at least 180 mm",
    "stack at least 600 mm",
    "chainstay ≤ 450",
    "frameset weight at most 2500 g",
    "price at most 1200",
    "frame bag at least 6 l",
];

/// One need, as the user wrote it.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    text: String,
    asks: Asks,
}

/// How a frame answers a need.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Met {
    /// The frame meets the need.
    Met,
    /// The maker does not state enough.
    NotPublished,
    /// A figure whose ± covers the limit.
    Borderline,
    /// It does not.
    NotMet,
}

impl Met {
    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotPublished => "not_published",
            Self::Borderline => "borderline",
            Self::NotMet => "not_met",
        }
    }
}

/// What a need limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limited {
    /// A figure, mm or degrees.
    Figure(Figure),
    /// A weight, the price, the bag or the bottles.
    Measure(Measure),
    /// Width of the tyre, mm, on this bead seat diameter, mm.
    Tyre(u32),
}

/// A limit that a need sets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// What it limits.
    pub of: Limited,
    /// Whether that must not be less; else it must not be more.
    pub is_least: bool,
    /// The limit, in mm, degrees, g, litres, money or a count.
    pub value: f64,
}

/// An answer to one need.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Whether the frame meets the need.
    pub met: Met,
    /// Why; one, or one an end.
    pub reasons: Vec<NeedReason>,
}

/// A reason of an answer.
#[derive(Clone, Debug, PartialEq)]
pub struct NeedReason {
    /// The end that it is about, where it is about one of both.
    pub end: Option<Wheel>,
    /// What was found.
    pub fact: NeedFact,
}

impl fmt::Display for Need {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl Serialize for Need {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for Need {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

impl FromStr for Need {
    type Err = NotUnderstood;

    fn from_str(text: &str) -> Result<Self, NotUnderstood> {
        Ok(Self { text: text.trim().to_owned(), asks: asks::read(text)? })
    }
}

impl Need {
    /// As the user wrote it.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The limit that it sets; `None` where it asks for a thing.
    #[must_use]
    pub fn limit(&self) -> Option<Limit> {
        match self.asks {
            Asks::Figure { figure, is_least, value } => Some(Limit { of: Limited::Figure(figure), is_least, value }),
            Asks::Measure { measure, is_least, value } => Some(Limit { of: Limited::Measure(measure), is_least, value }),
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a bead seat of 203 to 787 mm")]
            Asks::Tyre { width_mm, bead_mm, .. } => {
                Some(Limit { of: Limited::Tyre(bead_mm.round() as u32), is_least: true, value: width_mm })
            }
            _ => None,
        }
    }

    /// How a frame answers, in the size that would be built.
    #[must_use]
    pub fn held_against(
        &self,
        frameset: &Frameset,
        said: &Statements,
        size: Option<&AdjustedSize>,
        measures: &Measures,
    ) -> Answer {
        answers::answer_of(self.asks, frameset, said, size, measures)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    fn answered(need: &str, frame: &str) -> Answer {
        let text = match frame {
            "drift" => include_str!("../../../sample-frames/marrowby-drift.frame.ron"),
            "fourways" => include_str!("../../../sample-frames/tansett-fourways.frame.ron"),
            "quern" => include_str!("../../../sample-frames/quern-halter.frame.ron"),
            "wether" => include_str!("../../../sample-frames/hollinshaw-wether.frame.ron"),
            _ => include_str!("../../../sample-frames/wrenfold-ambler.frame.ron"),
        };
        let frameset = read_frameset(text.as_bytes()).unwrap();
        let adjusted = adjust(&frameset);
        need.parse::<Need>().unwrap().held_against(
            &frameset,
            &Statements::of(&frameset),
            adjusted.sizes.get(1),
            &Measures::default(),
        )
    }

    fn held(need: &str, frame: &str) -> Met {
        answered(need, frame).met
    }

    #[test]
    fn every_example_is_read_and_written_back() {
        for text in NEED_EXAMPLES {
            let need: Need = text.parse().unwrap();
            assert_eq!(ron::from_str::<Need>(&ron::to_string(&need).unwrap()).unwrap(), need);
        }
        let wrong = |text: &str| text.parse::<Need>().unwrap_err().to_string();
        assert!(wrong("front deraileur").contains("front derailleur"));
        assert!(wrong("tyre at least 50 mm on 26").contains("more than one wheel"));
        assert!(wrong("tyre at least 50").contains("on 622"));
        assert!(wrong("rotor at least 1800").contains("180"));
        assert!(wrong("stack at least 6000 mm").contains("outside"));
        assert!(wrong("").contains("did you mean"));
    }

    #[test]
    fn frames_answer_by_what_they_state() {
        assert_eq!(held("tyre at least 50 mm on 622", "drift"), Met::Met);
        assert_eq!(held("tyre at least 70 mm on 622", "drift"), Met::NotMet);
        assert_eq!(held("tyre at least 50 mm on 559", "drift"), Met::NotPublished);
        assert_eq!(held("three bosses on the fork", "drift"), Met::Met);
        assert_eq!(held("no suspension fork", "drift"), Met::Met);
        assert_eq!(held("no suspension fork", "fourways"), Met::NotMet);
        assert_eq!(held("quick release", "drift"), Met::Met);
        assert_eq!(held("quick release", "fourways"), Met::NotMet);
        assert_eq!(held("through axle", "fourways"), Met::Met);
        assert_eq!(held("belt", "ambler"), Met::Met);
        assert_eq!(held("steel", "drift"), Met::Met);
        assert_eq!(held("integrated headset", "drift"), Met::NotMet);
    }

    #[test]
    fn what_is_not_stated_is_never_counted_as_no() {
        for need in ["tyre at least 50 mm on 622", "three bosses on the fork", "front derailleur", "no suspension fork", "rack"] {
            assert_eq!(held(need, "wether"), Met::NotPublished, "{need}");
        }
    }

    #[test]
    fn a_figure_within_its_plus_minus_is_neither() {
        assert_eq!(held("stack at least 600 mm", "drift"), Met::Met);
        assert_eq!(held("stack at least 619 mm", "drift"), Met::Borderline);
        assert_eq!(held("stack at most 600 mm", "drift"), Met::NotMet);
    }

    #[test]
    fn every_word_is_understood_or_named() {
        let refused = |text: &str| text.parse::<Need>().unwrap_err().to_string();
        for (text, word) in [
            ("tyre at most 50 mm on 622", "`at most`"),
            ("no three bosses on the fork", "`no`"),
            ("tyre at least 64 mm on 622 with mudguards", "`with mudguards`"),
            ("two cages on the frame under the down tube", "`under the down tube`"),
            ("tyre at least 50 on 622 and 40 on 584", "`and 40 on 584` is a second need"),
            ("rear rack and front rack", "`and front rack` is a second need"),
            ("front disc brake", "`front`"),
            ("rotor at most 180 mm", "`at most`"),
            ("stack at least 600 mm with spacers", "`with spacers`"),
            ("stack at least 60 cm", "`cm`"),
            ("head angle at least 70 mm", "not measured so"),
            ("12 mm through axle", "`12 mm`"),
            ("steel fork", "`fork`"),
            ("bosses on the fork", "one to eight"),
            ("three bosses on the frame", "`on the frame`"),
            ("suspension fork with at least 120 cm travel", "`cm`"),
        ] {
            let sentence = refused(text);
            assert!(sentence.contains(word), "{text}: {sentence}");
        }
        // A word that means nothing here, put anywhere into a need that is understood, is named and never dropped.
        let needs = [
            "through axle at the rear",
            "front tyre at least 40 mm on 584",
            "no belt",
            "suspension fork with at least 120 mm travel",
        ];
        for need in NEED_EXAMPLES.iter().chain(&needs) {
            assert!(need.parse::<Need>().is_ok(), "{need}");
            let words: Vec<&str> = need.split(' ').collect();
            for place in 0..=words.len() {
                for odd in ["banana", "not", "only"] {
                    let mut with = words.clone();
                    with.insert(place, odd);
                    let text = with.join(" ");
                    match text.parse::<Need>() {
                        Ok(read) => {
                            let own: Need = need.parse().unwrap();
                            assert!(odd == "not" && read.asks != own.asks, "{text} is read as {need}");
                        }
                        Err(why) => assert!(why.0.contains(odd), "{text}: {why}"),
                    }
                }
            }
        }
    }

    #[test]
    fn negations_and_travel_are_answered_in_full() {
        assert_eq!(held("not quick release", "drift"), Met::NotMet);
        assert_eq!(held("without quick release", "fourways"), Met::Met);
        assert_eq!(held("suspension fork with at least 120 mm travel", "fourways"), Met::NotMet);
        assert_eq!(held("suspension fork with at least 100 mm travel", "fourways"), Met::Met);
        assert_eq!(held("suspension fork with at most 120 mm travel", "fourways"), Met::Met);
        assert_eq!(held("suspension fork with at most 120 mm travel", "drift"), Met::NotMet);
        assert_eq!(held("suspension fork with at least 80 mm travel", "wether"), Met::NotPublished);
        assert_eq!((held("rear rack", "quern"), held("front rack", "quern")), (Met::Met, Met::NotMet));
        assert_eq!((held("two cages on the fork", "drift"), held("three cages on the fork", "drift")), (Met::Met, Met::NotMet));
        let none = answered("mudguards", "fourways");
        assert_eq!((none.met, &none.reasons[0].fact), (Met::NotMet, &NeedFact::NoEyelets));
        assert_eq!(held("no mudguards", "quern"), Met::NotMet);
    }

    #[test]
    fn the_frames_room_is_not_the_forks() {
        // Drift states 60-622 and nothing of its fork.
        assert_eq!(held("front tyre at least 50 mm on 622", "drift"), Met::NotPublished);
        assert_eq!(held("rear tyre at least 50 mm on 622", "drift"), Met::Met);
        let both = answered("tyre at least 50 mm on 622", "drift");
        let front = &both.reasons[0];
        assert_eq!((both.met, both.reasons.len(), front.end), (Met::Met, 2, Some(Wheel::Front)));
        assert!(matches!(front.fact, NeedFact::WidestTyre { is_of_frame_only: true, .. }), "{front:?}");
    }
}
