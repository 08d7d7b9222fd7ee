//! What the adjustment found: for one frameset, every figure of every size with its u, what is assumed in it, what is
//! doubted, and what is missing. Codes, no sentences.

use std::sync::Arc;

use super::assumption::Assumptions;
use super::averaged::{LikeliestState, between_sizes, between_sizes_by};
use super::doubt::Doubt;
use super::formulas::{self, Points, TopTubeShape};
use super::jet::Jet;
use super::least_squares::dot;
use super::second_order::second_order_variance;
use super::slips::{LISTED_FROM, Settling, Slip, WeighedSet};
use super::state::{STATES, State};
use crate::frameset::{Figure, LowerFit, OnePerSize, SizeIndex};
use crate::units::{AnyKind, Likeliest, Measured};

/// Where a value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// The maker printed it (its value is the adjusted one all the same).
    Published,
    /// It follows from other figures.
    Computed,
    /// It is an assumption's, with whatever the figures add to it.
    Assumed,
}

impl Origin {
    /// Its name in JSON and tables.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Computed => "computed",
            Self::Assumed => "assumed",
        }
    }
}

/// A figure of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// Which.
    pub figure: Figure,
    /// Adjusted value, mm or degrees. Not to be shown when the figure is missing.
    pub value: f64,
    /// Its standard uncertainty, mm or degrees; shown as ± 2u.
    pub u: f64,
    /// Where it comes from.
    pub origin: Origin,
    /// Assumptions that make more than a tenth of u².
    pub assumed: Assumptions,
    /// What the maker printed.
    pub printed: Option<f64>,
    /// Whether the printed value is set aside.
    pub is_ignored: bool,
    /// Whether u is so large that nothing can be said.
    pub is_missing: bool,
    /// What the likeliest of several explanations of the table says.
    pub(super) likeliest: Option<Likeliest>,
}

impl Value {
    /// Adjusted value with its u. Not to be shown when the figure is missing.
    #[must_use]
    pub const fn measured(&self) -> Measured<AnyKind> {
        Measured::new(self.value, self.u).averaged(self.likeliest)
    }
}

/// One size, adjusted.
#[derive(Clone, Debug, PartialEq)]
pub struct AdjustedSize {
    /// The maker's label.
    pub label: String,
    /// The state that fits best.
    pub state: State<f64>,
    /// Covariance of the state.
    pub covariance: [[f64; STATES]; STATES],
    /// Both by the likeliest of the explanations that they were averaged over; `None` where there is one alone.
    pub(super) likeliest: Option<Box<LikeliestState>>,
    /// The top tube's thickness and bend that the standover was computed with.
    pub top_tube: TopTubeShape,
    /// Published figures that are perhaps wrong, the most doubtful first.
    pub doubts: Vec<Doubt>,
    pub(super) values: [Value; Figure::COUNT],
}

impl OnePerSize for AdjustedSize {}

/// A frameset, all sizes adjusted together.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// The sizes, in the file's order.
    pub sizes: Vec<AdjustedSize>,
    /// What is perhaps wrong with the table, the likeliest first.
    pub slips: Vec<Slip>,
    /// The chance that nothing is wrong; 1 where nothing gave reason to look.
    pub slip_free: f64,
    /// The measurement that would tell the likeliest causes apart, where none of them is nearly sure.
    pub settling: Option<Settling>,
    /// Whether nothing that was found explains the table: then at least two published figures are wrong.
    pub is_unexplained: bool,
    /// Whether the iteration settled. When it did not, values are the best found.
    pub converged: bool,
    /// How the lower headset was taken to sit.
    pub lower_fit: LowerFit,
    /// The sets that the sizes were averaged over, the likeliest first, for budgets and differences.
    pub(super) sets: Arc<Vec<WeighedSet>>,
}

impl Adjusted {
    /// The labels of the sizes, in their order.
    #[must_use]
    pub fn size_labels(&self) -> Vec<&str> {
        self.sizes.iter().map(|size| size.label.as_str()).collect()
    }

    /// What is perhaps wrong with the table and likely enough to be listed, the likeliest first.
    #[must_use]
    pub fn listed_slips(&self) -> &[Slip] {
        self.slips.get(..self.slips.partition_point(|s| s.chance >= LISTED_FROM)).unwrap_or_default()
    }

    /// Covariance of the states of two sizes with each other: rows for the quantities of `a`, columns for those of `b`.
    /// Zero where there is no such size.
    #[must_use]
    pub fn between_sizes(&self, a: SizeIndex, b: SizeIndex) -> [[f64; STATES]; STATES] {
        if a.max(b).of(&self.sizes).is_none() {
            return [[0.0; STATES]; STATES];
        }
        between_sizes(&self.sets, a, b)
    }

    /// The same if the likeliest explanation of the table is the right one.
    #[must_use]
    pub fn between_sizes_by_likeliest(&self, a: SizeIndex, b: SizeIndex) -> [[f64; STATES]; STATES] {
        let is_there = a.max(b).of(&self.sizes).is_some();
        self.sets.first().filter(|_| is_there).map_or([[0.0; STATES]; STATES], |set| between_sizes_by(set, a, b))
    }

    /// How a figure of size `a` differs from that of size `b`, with the u of the difference: what both share, such as a
    /// tyre, drops out. `None` where there is no such size.
    #[must_use]
    pub fn difference(&self, a: SizeIndex, b: SizeIndex, figure: Figure) -> Option<Measured<AnyKind>> {
        let (of_a, of_b) = (a.of(&self.sizes)?, b.of(&self.sizes)?);
        let (jets_a, jets_b) = (of_a.state.jets(), of_b.state.jets());
        let at_a = formulas::figure(figure, &jets_a, of_a.top_tube);
        let at_b = formulas::figure(figure, &jets_b, of_b.top_tube);
        let between = self.between_sizes(a, b);
        let common: f64 = between.iter().zip(&at_a.gradient).map(|(row, g)| g * dot(row, &at_b.gradient)).sum();
        let second = |size: &AdjustedSize, jets| second_order_variance(figure, jets, |g| size.variance(g));
        let second = second(of_a, &jets_a) + second(of_b, &jets_b);
        let variance = of_a.variance(&at_a.gradient) + of_b.variance(&at_b.gradient) - 2.0 * common + second;
        Some(Measured::new(at_a.value - at_b.value, variance.max(0.0).sqrt()))
    }
}

impl AdjustedSize {
    /// A figure.
    #[must_use]
    pub fn value(&self, figure: Figure) -> &Value {
        &self.values[figure as usize]
    }

    /// All figures, in the order of tables.
    #[must_use]
    pub fn values(&self) -> &[Value] {
        &self.values
    }

    /// Figures of which nothing can be said.
    pub fn missing(&self) -> impl Iterator<Item = Figure> {
        self.values.iter().filter(|v| v.is_missing).map(|v| v.figure)
    }

    /// The doubt about a published figure.
    #[must_use]
    pub fn doubt(&self, figure: Figure) -> Option<&Doubt> {
        self.doubts.iter().find(|d| d.figure == figure)
    }

    /// The points of the side view, mm.
    #[must_use]
    pub fn points(&self) -> Points<f64> {
        formulas::points(&self.state)
    }

    /// Value and u of any function of the state, by its exact gradient (JCGM 100:2008, 5.1.2 and 5.2.2). The caller says
    /// what kind the function gives.
    #[must_use]
    pub fn propagate<K>(&self, function: impl Fn(&State<Jet>) -> Jet) -> Measured<K> {
        let jet = function(&self.state.jets());
        let likeliest = self.by_likeliest(|l| {
            let jet = function(&l.state.jets());
            (jet.value, quadratic_form(&l.covariance, &jet.gradient))
        });
        Measured::new(jet.value, self.variance(&jet.gradient).sqrt()).averaged(likeliest)
    }

    /// The size by the likeliest explanation of the table alone, with its chance; `None` where there is one explanation.
    #[must_use]
    pub fn by_likeliest_alone(&self) -> Option<(f64, Self)> {
        let LikeliestState { chance, state, covariance } = *self.likeliest.as_deref()?;
        Some((chance, Self { state, covariance, likeliest: None, ..self.clone() }))
    }

    /// What the likeliest explanation says of a figure.
    pub(super) fn likeliest_figure(&self, of: Figure) -> Option<Likeliest> {
        self.by_likeliest(|l| {
            let jets = l.state.jets();
            let jet = formulas::figure(of, &jets, self.top_tube);
            let second = second_order_variance(of, &jets, |g| quadratic_form(&l.covariance, g));
            (jet.value, quadratic_form(&l.covariance, &jet.gradient) + second)
        })
    }

    /// Value and variance by the likeliest explanation, as one.
    fn by_likeliest(&self, value: impl FnOnce(&LikeliestState) -> (f64, f64)) -> Option<Likeliest> {
        let likeliest = self.likeliest.as_deref()?;
        let (value, variance) = value(likeliest);
        Some(Likeliest { chance: likeliest.chance, value, u: variance.sqrt() })
    }

    /// How every figure answers to the state, by the order of [`Figure::ALL`].
    #[must_use]
    pub fn gradients(&self) -> [[f64; STATES]; Figure::COUNT] {
        let jets = self.state.jets();
        std::array::from_fn(|i| Figure::ALL.get(i).map_or([0.0; STATES], |f| formulas::figure(*f, &jets, self.top_tube).gradient))
    }

    /// gᵀ C g.
    #[must_use]
    pub fn variance(&self, gradient: &[f64; STATES]) -> f64 {
        quadratic_form(&self.covariance, gradient)
    }
}

/// gᵀ C g, not below 0.
pub(super) fn quadratic_form(covariance: &[[f64; STATES]; STATES], gradient: &[f64; STATES]) -> f64 {
    let mut variance = 0.0;
    for (row, a) in covariance.iter().zip(gradient) {
        if *a != 0.0 {
            variance += a * row.iter().zip(gradient).map(|(c, b)| c * b).sum::<f64>();
        }
    }
    variance.max(0.0)
}

/// Values before anything is known: all missing.
pub(super) fn unknown_values() -> [Value; Figure::COUNT] {
    std::array::from_fn(|i| Value {
        figure: Figure::ALL.get(i).copied().unwrap_or(Figure::Stack),
        value: 0.0,
        u: f64::INFINITY,
        origin: Origin::Computed,
        assumed: Assumptions::default(),
        printed: None,
        is_ignored: false,
        is_missing: true,
        likeliest: None,
    })
}
