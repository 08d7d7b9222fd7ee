//! A verdict on one part in one frame: whether it fits, with what, why, by which numbers, and how that is known.

use super::codes::codes;
use super::extra::Extra;
use super::list::PartKind;
use super::reason::Reason;
use super::source::Source;
use super::standards::Wheel;

/// Whether a part fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// As it is.
    Fits,
    /// With an adapter or under a condition.
    FitsWith,
    /// So near a limit, or so dependent on how it is measured, that it has to be tried.
    Borderline,
    /// The maker does not state enough to tell. Never a no.
    NotPublished,
    /// It does not.
    DoesNotFit,
}

impl Fit {
    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::FitsWith => "fits_with",
            Self::Borderline => "borderline",
            Self::NotPublished => "not_published",
            Self::DoesNotFit => "does_not_fit",
        }
    }
}

/// A number behind a verdict, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// What it is, in JSON's spelling.
    pub label: &'static str,
    /// Its value, mm (degrees where the label ends in `_deg`).
    pub value: f64,
}

/// What can hurt someone where a number is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// A tyre or mudguard close to frame or fork.
    TyreGap,
    /// A tyre on a rim that is not made for it.
    TyreOnRim,
    /// Stays that are spread or squeezed.
    ColdSetting,
    /// A fork of another length.
    ForkLength,
    /// A larger rotor.
    Rotor,
    /// A seat post that is inserted too little.
    PostInsertion,
    /// Spacers under a stem.
    Spacers,
    /// A toe that meets the front wheel.
    Toe,
    /// A headset that does not match.
    Headset,
}

codes!(Caution {
    TyreGap => "tyre_gap",
    TyreOnRim => "tyre_on_rim",
    ColdSetting => "cold_setting",
    ForkLength => "fork_length",
    Rotor => "rotor",
    PostInsertion => "post_insertion",
    Spacers => "spacers",
    Toe => "toe_overlap",
    Headset => "headset",
});

/// What a verdict is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// A part of the list, by its place; at one end where the part is for both.
    Part(usize, Option<Wheel>),
    /// The fork's steerer in this head tube.
    ForkSteerer,
    /// The fork's length under this frame.
    ForkLength,
}

/// Outcome of one rule: facts alone. What they say in English is for the words module.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Whether it fits.
    pub fit: Fit,
    /// Extra parts and conditions of [`Fit::FitsWith`]; else empty.
    pub extras: Vec<Extra>,
    /// Why, the most important first; never empty.
    pub reasons: Vec<Reason>,
    /// The numbers behind it.
    pub numbers: Vec<Number>,
    /// How it is known.
    pub source: Source,
    /// What to mind.
    pub caution: Option<Caution>,
}

/// Verdict on one part, or on one place of the frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// What it is about.
    pub about: About,
    /// Kind of part; `None` for the fork.
    pub kind: Option<PartKind>,
    /// The user's name for the part; empty where it has none.
    pub name: String,
    /// What the user typed about it; empty for the fork.
    pub text: String,
    /// Whether it fits, with its reasons.
    pub outcome: Outcome,
}

impl Outcome {
    fn new(fit: Fit, reason: impl Into<Reason>, source: Source) -> Self {
        Self { fit, extras: Vec::new(), reasons: vec![reason.into()], numbers: Vec::new(), source, caution: None }
    }

    pub(super) fn fits(reason: impl Into<Reason>, source: Source) -> Self {
        Self::new(Fit::Fits, reason, source)
    }

    pub(super) fn fits_with(extra: Extra, reason: impl Into<Reason>, source: Source) -> Self {
        Self { extras: vec![extra], ..Self::new(Fit::FitsWith, reason, source) }
    }

    pub(super) fn does_not_fit(reason: impl Into<Reason>, source: Source) -> Self {
        Self::new(Fit::DoesNotFit, reason, source)
    }

    pub(super) fn borderline(reason: impl Into<Reason>, source: Source) -> Self {
        Self::new(Fit::Borderline, reason, source)
    }

    pub(super) fn not_stated(reason: impl Into<Reason>) -> Self {
        Self::new(Fit::NotPublished, reason, Source::Maker)
    }

    pub(super) fn number(mut self, label: &'static str, value: f64) -> Self {
        self.numbers.push(Number { label, value });
        self
    }

    pub(super) fn caution(mut self, caution: Caution) -> Self {
        self.caution = Some(caution);
        self
    }

    /// Another extra beside those that are there; only for [`Fit::FitsWith`].
    pub(super) fn also(mut self, extra: Extra) -> Self {
        self.extras.push(extra);
        self
    }

    /// Another reason behind those that are there.
    pub(super) fn because(mut self, reason: impl Into<Reason>) -> Self {
        self.reasons.push(reason.into());
        self
    }

    /// The reasons, numbers and caution of another outcome behind those that are there.
    pub(super) fn because_all(mut self, other: Self) -> Self {
        self.reasons = joined(self.reasons, other.reasons);
        self.numbers.extend(other.numbers);
        Self { caution: self.caution.or(other.caution), ..self }
    }

    /// Without the last reason where it is this one.
    pub(super) fn without_last_if(mut self, reason: impl Into<Reason>) -> Self {
        let reason = reason.into();
        if self.reasons.len() > 1 && self.reasons.last().is_some_and(|last| last.code() == reason.code()) {
            self.reasons.pop();
        }
        self
    }

    /// A reason before those that are there.
    pub(super) fn because_first(mut self, reason: impl Into<Reason>) -> Self {
        self.reasons.insert(0, reason.into());
        self
    }

    /// Two verdicts on one part, both of which count: the worse; with the extras and reasons of both where they are alike.
    pub(super) fn both(self, other: Self) -> Self {
        let numbers = [self.numbers.clone(), other.numbers.clone()].concat();
        let caution = self.caution.or(other.caution);
        let worse = match self.fit.cmp(&other.fit) {
            std::cmp::Ordering::Greater => self,
            std::cmp::Ordering::Less => other,
            std::cmp::Ordering::Equal => {
                Self { extras: joined(self.extras, other.extras), reasons: joined(self.reasons, other.reasons), ..other }
            }
        };
        Self { numbers, caution, ..worse }
    }

    /// The kindest of several ways, ties to the first.
    pub(super) fn best(ways: impl IntoIterator<Item = Self>) -> Option<Self> {
        ways.into_iter().min_by_key(|o| o.fit)
    }
}

/// Both lists, what they share once.
fn joined<T: PartialEq>(mut first: Vec<T>, second: Vec<T>) -> Vec<T> {
    for item in second {
        if !first.contains(&item) {
            first.push(item);
        }
    }
    first
}
