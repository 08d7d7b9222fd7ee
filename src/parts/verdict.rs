//! A verdict on one part in one frame: whether it fits, with what, why, by which numbers, and how that is known.

use super::list::PartKind;
use super::reading::mm;
use super::source::Source;
use super::standards::Wheel;

/// Whether a part fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// As it is.
    Fits,
    /// With an adapter or under a condition.
    FitsWith,
    /// The maker does not state enough to tell. Never a no.
    NotStated,
    /// It does not.
    DoesNotFit,
}

impl Fit {
    /// In words.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::FitsWith => "fits with",
            Self::NotStated => "not stated",
            Self::DoesNotFit => "does not fit",
        }
    }

    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::FitsWith => "fits_with",
            Self::NotStated => "not_stated",
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

/// What to mind where a number can hurt someone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "named after what each is about")]
pub enum Caution {
    TyreGap,
    SpringingStays,
    ForkLength,
    Rotor,
    PostInsertion,
    Spacers,
    Toe,
    Headset,
}

impl Caution {
    /// The caution, one sentence or two.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::TyreGap => {
                "This is arithmetic on published figures: a tyre may measure wider than its name. The maker's limit and local rules \
                 come first; let a competent mechanic check the gap on the built bicycle."
            }
            Self::SpringingStays => {
                "Springing steel apart is a frame builder's work, and the maker may forbid it; aluminium and carbon crack. Let a \
                 competent mechanic check the built bicycle."
            }
            Self::ForkLength => {
                "A longer fork loads the frame harder and changes how it steers. The maker's limits come first; let a competent \
                 mechanic check the built bicycle."
            }
            Self::Rotor => {
                "A larger rotor loads frame and fork harder. The maker's largest rotor comes first; let a competent mechanic check \
                 the built bicycle."
            }
            Self::PostInsertion => {
                "A post that is too short in the tube can break it. The mark on the post and the frame maker's least insertion come \
                 first; let a competent mechanic check the built bicycle."
            }
            Self::Spacers => {
                "How high spacers may stand is for the makers of steerer and stem to say. This is arithmetic on published figures; \
                 let a competent mechanic check the built bicycle."
            }
            Self::Toe => {
                "A toe that touches the wheel throws the rider. This is arithmetic on published figures; local rules come first, and \
                 the built bicycle with its mudguard is what counts."
            }
            Self::Headset => {
                "A headset that does not match can work loose. Measure head tube and fork; let a competent mechanic check the built \
                 bicycle."
            }
        }
    }
}

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

/// The outcome of one rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Whether it fits.
    pub fit: Fit,
    /// The adapter or condition of "fits with".
    pub with: Option<String>,
    /// One sentence.
    pub reason: String,
    /// The numbers behind it.
    pub numbers: Vec<Number>,
    /// How it is known.
    pub source: Source,
    /// What to mind.
    pub caution: Option<Caution>,
}

/// One verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// What it is about.
    pub about: About,
    /// Kind of part; `None` for the fork.
    pub kind: Option<PartKind>,
    /// The part's title.
    pub title: String,
    /// The outcome.
    pub outcome: Outcome,
}

impl Outcome {
    fn new(fit: Fit, reason: impl Into<String>, source: Source) -> Self {
        Self { fit, with: None, reason: reason.into(), numbers: Vec::new(), source, caution: None }
    }

    pub(super) fn fits(reason: impl Into<String>, source: Source) -> Self {
        Self::new(Fit::Fits, reason, source)
    }

    pub(super) fn fits_with(with: impl Into<String>, reason: impl Into<String>, source: Source) -> Self {
        Self { with: Some(with.into()), ..Self::new(Fit::FitsWith, reason, source) }
    }

    pub(super) fn does_not_fit(reason: impl Into<String>, source: Source) -> Self {
        Self::new(Fit::DoesNotFit, reason, source)
    }

    pub(super) fn not_stated(reason: impl Into<String>) -> Self {
        Self::new(Fit::NotStated, reason, Source::Maker)
    }

    pub(super) fn number(mut self, label: &'static str, value: f64) -> Self {
        self.numbers.push(Number { label, value });
        self
    }

    pub(super) fn caution(mut self, caution: Caution) -> Self {
        self.caution = Some(caution);
        self
    }

    /// Two verdicts on one part, both of which count: the worse, with what both ask and say where they are alike.
    pub(super) fn both(self, other: Self) -> Self {
        let numbers = [self.numbers.clone(), other.numbers.clone()].concat();
        let caution = self.caution.or(other.caution);
        let worse = match self.fit.cmp(&other.fit) {
            std::cmp::Ordering::Greater => self,
            std::cmp::Ordering::Less => other,
            std::cmp::Ordering::Equal => {
                let with: Vec<String> = [self.with, other.with].into_iter().flatten().collect();
                let reason = format!("{} {}", self.reason, other.reason);
                Self { with: (!with.is_empty()).then(|| with.join(", and ")), reason, ..other }
            }
        };
        Self { numbers, caution, ..worse }
    }

    /// The kindest of several ways, ties to the first.
    pub(super) fn best(ways: impl IntoIterator<Item = Self>) -> Option<Self> {
        let rank = |o: &Self| match o.fit {
            Fit::Fits => 0,
            Fit::FitsWith => 1,
            Fit::NotStated => 2,
            Fit::DoesNotFit => 3,
        };
        ways.into_iter().min_by_key(rank)
    }
}

/// `3 mm a side`.
pub(super) fn a_side(value: f64) -> String {
    format!("{} a side", mm(value))
}
