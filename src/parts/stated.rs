//! What a frameset states about the parts it takes, understood once: each standard is stated, not stated, or stated in
//! words that are not understood. Silence is never a no.

use super::codes::codes;
use super::standards::{
    Bosses, CrankSpacing, Dropouts, End, Eyelets, FrontDerailleur, HeadsetEnd, Hub, Mount, NotUnderstood, PostRouting, SeatPost,
    Shell, StayOutside, Tension, TyreClearances, WeightLimit, ends_of,
};
use crate::frameset::{Frameset, Standard};
use crate::units::capitalised;

/// A statement as far as it goes.
#[derive(Clone, Debug, PartialEq)]
pub enum Stated<T> {
    /// The maker publishes nothing.
    NotPublished,
    /// The maker publishes something that is not understood: why, in a sentence.
    NotUnderstood(String),
    /// What it means.
    Is(T),
}

/// A standard whose meaning is not known: the maker publishes nothing, or something that is not understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unknown {
    /// Nothing is published.
    NotPublished(Standard),
    /// What is published is not understood.
    NotUnderstood(Slip),
}

codes!(Unknown { NotPublished => "not_published", NotUnderstood => "not_understood" });

/// A standard that a file states in words that are not understood: an error of that file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("Published, but not understood: {}. {}", .standard.label(), ended(&capitalised(.why)))]
pub struct Slip {
    /// Standard that the maker publishes.
    pub standard: Standard,
    /// What is wrong and the nearest right form: the beginning of a sentence.
    pub why: String,
}

impl<T> Stated<T> {
    /// The meaning, or why there is none of `standard`.
    ///
    /// # Errors
    /// What is published, or why it is unknown.
    pub fn known(&self, standard: Standard) -> Result<&T, Unknown> {
        match self {
            Self::Is(value) => Ok(value),
            Self::NotPublished => Err(Unknown::NotPublished(standard)),
            Self::NotUnderstood(why) => Err(Unknown::NotUnderstood(Slip { standard, why: why.clone() })),
        }
    }

    /// The meaning, if any.
    #[must_use]
    pub fn is(&self) -> Option<&T> {
        match self {
            Self::Is(value) => Some(value),
            Self::NotPublished | Self::NotUnderstood(_) => None,
        }
    }
}

/// A sentence with its end, whatever end it has already.
fn ended(sentence: &str) -> String {
    if sentence.ends_with(['.', '?', '!']) { sentence.to_owned() } else { format!("{sentence}.") }
}

/// Steerer and crown race seat of a fork, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steerer {
    /// Outside diameter at the stem.
    pub steerer_mm: f64,
    /// Crown race seat.
    pub race_mm: f64,
}

/// All statements of a frameset.
#[derive(Clone, Debug, PartialEq)]
#[expect(missing_docs, reason = "named as in frame files")]
pub struct Statements {
    pub upper_headset: Stated<HeadsetEnd>,
    pub lower_headset: Stated<HeadsetEnd>,
    pub front_hub: Stated<Hub>,
    pub rear_hub: Stated<Hub>,
    pub bottom_bracket: Stated<Shell>,
    pub seat_post: Stated<SeatPost>,
    pub front_brake: Stated<Mount>,
    pub rear_brake: Stated<Mount>,
    pub front_derailleur: Stated<FrontDerailleur>,
    pub dropouts: Stated<Dropouts>,
    /// At the rear, and in front unless that is stated apart.
    pub widest_tyre: Stated<TyreClearances>,
    pub widest_front_tyre: Stated<TyreClearances>,
    pub fork_bosses: Stated<Bosses>,
    pub frame_bosses: Stated<Bosses>,
    pub steerer: Stated<Steerer>,
    /// Least and most fork length, mm.
    pub fork_lengths: Stated<(f64, f64)>,
    pub crank_spacing: Stated<CrankSpacing>,
    /// Least insertion of the post, mm.
    pub post_insertion: Stated<f64>,
    pub dropper_routing: Stated<PostRouting>,
    pub eyelets: Stated<Eyelets>,
    pub weight_limit: Stated<WeightLimit>,
    /// How far out the right chainstay lies.
    pub chainstay_outside: Stated<StayOutside>,
}

impl Statements {
    /// Reads all that a frameset states.
    #[must_use]
    pub fn of(frameset: &Frameset) -> Self {
        fn read<T>(frameset: &Frameset, standard: Standard, read: impl FnOnce(&str) -> Result<T, NotUnderstood>) -> Stated<T> {
            match frameset.standards.get(&standard).map(|text| text.trim()) {
                None | Some("") => Stated::NotPublished,
                Some(text) => match super::standards::read_plainly(text, read) {
                    Ok(value) => Stated::Is(value),
                    Err(NotUnderstood(why)) => Stated::NotUnderstood(why),
                },
            }
        }
        let upper_headset = read(frameset, Standard::UpperHeadset, |t| HeadsetEnd::read(End::Upper, t));
        let lower_headset = read(frameset, Standard::LowerHeadset, |t| HeadsetEnd::read(End::Lower, t));
        let mut steerer =
            read(frameset, Standard::Steerer, |t| ends_of(t).map(|(steerer_mm, race_mm)| Steerer { steerer_mm, race_mm }));
        // The two codes behind their strokes describe the maker's own fork.
        if let (Stated::NotPublished, Some(upper), Some(lower)) = (&steerer, upper_headset.is(), lower_headset.is()) {
            steerer = Stated::Is(Steerer { steerer_mm: upper.fork_mm, race_mm: lower.fork_mm });
        }
        Self {
            upper_headset,
            lower_headset,
            front_hub: read(frameset, Standard::FrontHub, Hub::read),
            rear_hub: read(frameset, Standard::RearHub, Hub::read),
            bottom_bracket: read(frameset, Standard::BottomBracket, Shell::read),
            seat_post: read(frameset, Standard::SeatPost, SeatPost::read),
            front_brake: read(frameset, Standard::FrontBrake, Mount::read),
            rear_brake: read(frameset, Standard::RearBrake, Mount::read),
            front_derailleur: read(frameset, Standard::FrontDerailleur, FrontDerailleur::read),
            dropouts: read(frameset, Standard::Dropouts, Dropouts::read),
            widest_tyre: read(frameset, Standard::WidestTyre, TyreClearances::read),
            widest_front_tyre: read(frameset, Standard::WidestFrontTyre, TyreClearances::read),
            fork_bosses: read(frameset, Standard::ForkBosses, Bosses::on_fork),
            frame_bosses: read(frameset, Standard::FrameBosses, Bosses::read),
            steerer,
            fork_lengths: read(frameset, Standard::ForkLengths, fork_lengths),
            crank_spacing: read(frameset, Standard::CrankSpacing, CrankSpacing::read),
            post_insertion: read(frameset, Standard::PostInsertion, post_insertion),
            dropper_routing: read(frameset, Standard::DropperRouting, PostRouting::read),
            eyelets: read(frameset, Standard::Eyelets, Eyelets::read),
            weight_limit: read(frameset, Standard::WeightLimit, WeightLimit::read),
            chainstay_outside: read(frameset, Standard::ChainstayOutside, StayOutside::read),
        }
    }

    /// Why the statement of a standard is not understood; `None` where it is, or nothing is stated.
    #[must_use]
    pub fn slip(&self, standard: Standard) -> Option<Slip> {
        fn why<T>(stated: &Stated<T>) -> Option<&str> {
            match stated {
                Stated::NotUnderstood(why) => Some(why),
                Stated::NotPublished | Stated::Is(_) => None,
            }
        }
        let why = match standard {
            Standard::UpperHeadset => why(&self.upper_headset),
            Standard::LowerHeadset => why(&self.lower_headset),
            Standard::FrontHub => why(&self.front_hub),
            Standard::RearHub => why(&self.rear_hub),
            Standard::BottomBracket => why(&self.bottom_bracket),
            Standard::SeatPost => why(&self.seat_post),
            Standard::FrontBrake => why(&self.front_brake),
            Standard::RearBrake => why(&self.rear_brake),
            Standard::FrontDerailleur => why(&self.front_derailleur),
            Standard::Dropouts => why(&self.dropouts),
            Standard::WidestTyre => why(&self.widest_tyre),
            Standard::WidestFrontTyre => why(&self.widest_front_tyre),
            Standard::ForkBosses => why(&self.fork_bosses),
            Standard::FrameBosses => why(&self.frame_bosses),
            Standard::Steerer => why(&self.steerer),
            Standard::ForkLengths => why(&self.fork_lengths),
            Standard::CrankSpacing => why(&self.crank_spacing),
            Standard::PostInsertion => why(&self.post_insertion),
            Standard::DropperRouting => why(&self.dropper_routing),
            Standard::Eyelets => why(&self.eyelets),
            Standard::WeightLimit => why(&self.weight_limit),
            Standard::ChainstayOutside => why(&self.chainstay_outside),
        };
        why.map(|why| Slip { standard, why: why.to_owned() })
    }

    /// The dropouts, which an eccentric bottom bracket lets tension a chain.
    pub(super) fn tensioning(&self) -> Stated<Dropouts> {
        match (&self.dropouts, self.bottom_bracket.is()) {
            (Stated::Is(own), Some(shell)) if shell.is_eccentric && own.tension == Tension::None => {
                Stated::Is(Dropouts { tension: Tension::Eccentric, ..*own })
            }
            (Stated::NotPublished, Some(shell)) if shell.is_eccentric => {
                Stated::Is(Dropouts { tension: Tension::Eccentric, is_for_gear_hub: false, opens_for_belt: false })
            }
            (own, _) => own.clone(),
        }
    }

    /// Whether two framesets state the same of a standard, in whatever words.
    #[must_use]
    pub fn is_same(&self, other: &Self, standard: Standard) -> bool {
        match standard {
            Standard::UpperHeadset => self.upper_headset == other.upper_headset,
            Standard::LowerHeadset => self.lower_headset == other.lower_headset,
            Standard::FrontHub => self.front_hub == other.front_hub,
            Standard::RearHub => self.rear_hub == other.rear_hub,
            Standard::BottomBracket => self.bottom_bracket == other.bottom_bracket,
            Standard::SeatPost => self.seat_post == other.seat_post,
            Standard::FrontBrake => self.front_brake == other.front_brake,
            Standard::RearBrake => self.rear_brake == other.rear_brake,
            Standard::FrontDerailleur => self.front_derailleur == other.front_derailleur,
            Standard::Dropouts => self.dropouts == other.dropouts,
            Standard::WidestTyre => self.widest_tyre == other.widest_tyre,
            Standard::WidestFrontTyre => self.widest_front_tyre == other.widest_front_tyre,
            Standard::ForkBosses => self.fork_bosses == other.fork_bosses,
            Standard::FrameBosses => self.frame_bosses == other.frame_bosses,
            Standard::Steerer => self.steerer == other.steerer,
            Standard::ForkLengths => self.fork_lengths == other.fork_lengths,
            Standard::CrankSpacing => self.crank_spacing == other.crank_spacing,
            Standard::PostInsertion => self.post_insertion == other.post_insertion,
            Standard::DropperRouting => self.dropper_routing == other.dropper_routing,
            Standard::Eyelets => self.eyelets == other.eyelets,
            Standard::WeightLimit => self.weight_limit == other.weight_limit,
            Standard::ChainstayOutside => self.chainstay_outside == other.chainstay_outside,
        }
    }

    /// All of these, in the order of tables. What is printed so is kept all the same.
    #[must_use]
    pub fn slips(&self) -> Vec<Slip> {
        Standard::ALL.iter().filter_map(|s| self.slip(*s)).collect()
    }
}

fn fork_lengths(text: &str) -> Result<(f64, f64), NotUnderstood> {
    match super::reading::numbers(text)[..] {
        [least, most] if (250.0..=650.0).contains(&least) && least <= most && most <= 650.0 => Ok((least, most)),
        _ => super::standards::refused(format!(
            "`{text}` is not a valid range of fork lengths: write least to most in mm, such as 460 to 490"
        )),
    }
}

fn post_insertion(text: &str) -> Result<f64, NotUnderstood> {
    match super::reading::numbers(text).first() {
        Some(mm) if (20.0..=300.0).contains(mm) => Ok(*mm),
        _ => {
            super::standards::refused(format!("`{text}` is not a valid insertion: write millimetres from 20 to 300, such as 100"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;

    #[test]
    fn an_eccentric_bottom_bracket_tensions_what_the_dropouts_do_not() {
        let tension = |dropouts: Option<&str>, shell: &str| {
            let mut frameset = read_frameset(include_bytes!("../../sample-frames/marrowby-drift.frame.ron")).unwrap();
            frameset.standards = [(Standard::BottomBracket, shell.to_owned())].into();
            frameset.standards.extend(dropouts.map(|d| (Standard::Dropouts, d.to_owned())));
            Statements::of(&frameset).tensioning().is().map(|d| d.tension)
        };
        assert_eq!(tension(Some("vertical"), "eccentric BSA 68"), Some(Tension::Eccentric));
        assert_eq!(tension(None, "BSA 68, EBB"), Some(Tension::Eccentric));
        assert_eq!(tension(Some("sliding"), "eccentric BSA 68"), Some(Tension::Sliding));
        assert_eq!((tension(Some("vertical"), "BSA 68"), tension(None, "BSA 68")), (Some(Tension::None), None));
    }

    #[test]
    fn each_standard_is_held_against_the_same_one_of_another_frameset() {
        let mut silent = read_frameset(include_bytes!("../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        silent.standards.clear();
        for standard in Standard::ALL {
            let mut frameset = silent.clone();
            frameset.standards = [(standard, "perhaps".to_owned())].into();
            let (told, silent) = (Statements::of(&frameset), Statements::of(&silent));
            assert!(told.is_same(&told, standard) && silent.is_same(&silent, standard), "{standard:?}");
            assert!(!told.is_same(&silent, standard), "{standard:?}");
        }
    }

    #[test]
    fn every_standard_says_that_it_is_not_understood() {
        let mut frameset = read_frameset(include_bytes!("../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        assert_eq!(Statements::of(&frameset).slips(), []);
        for standard in Standard::ALL {
            frameset.standards = [(standard, "perhaps".to_owned())].into();
            let slips = Statements::of(&frameset).slips();
            assert_eq!(slips.len(), 1, "{standard:?}");
            let said = slips[0].to_string();
            assert!(said.contains(standard.label()) && said.contains("`perhaps`"), "{said}");
        }
        frameset.standards = [
            (Standard::UpperHeadset, "EC34/286".to_owned()),
            (Standard::RearBrake, "IS 1800".to_owned()),
            (Standard::ForkBosses, "many".to_owned()),
        ]
        .into();
        let slips: Vec<String> = Statements::of(&frameset).slips().iter().map(ToString::to_string).collect();
        assert!(slips[0].ends_with("did you mean EC34/28.6?"), "{}", slips[0]);
        assert!(slips[1].ends_with("did you mean 180?"), "{}", slips[1]);
        assert!(
            slips[2].starts_with("Published, but not understood: bosses on the fork. `many` is not a valid number of bosses"),
            "{}",
            slips[2]
        );
    }
}
