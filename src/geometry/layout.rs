//! How the observations stand among the unknowns: where each quantity lies, where the iteration begins, and the rows that
//! the solver sees.

use super::formulas::{TopTubeShape, closure, figure};
use super::jet::Jet;
use super::least_squares::{Problem, Row, Unknowns};
use super::observations::{
    BASE_QUANTITIES, LOCAL, Observation, Observations, Reads, SHARED, SHARED_FORK_LENGTH, SHARED_FORK_OFFSET,
};
use super::state::{Quantity, STATES, State};
use crate::frameset::Frameset;

/// A place among the unknowns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Slot {
    Local(usize),
    Shared(usize),
}

impl Observations {
    /// Unknowns to begin from: the printed values where the quantity itself is printed, the start values elsewhere.
    pub(super) fn begin(&self, frameset: &Frameset) -> Unknowns<LOCAL, SHARED> {
        let mut shared = [0.0; SHARED];
        shared[..BASE_QUANTITIES.len()].copy_from_slice(&[8.0, 350.0, 350.0, 420.0, 48.0]);
        let direct = |observations: &[Observation], quantity: Quantity| {
            observations
                .iter()
                .find(|o| o.reads == Reads::Quantity(quantity) && o.terms[0].is_none_or(|t| t.1 > 0.0))
                .map(|o| o.value)
        };
        for (slot, quantity) in BASE_QUANTITIES.into_iter().enumerate() {
            if let Some(value) = direct(&self.shared, quantity) {
                shared[slot] = value;
            }
        }
        if frameset.front_tyre.is_none() {
            shared[2] = shared[1];
        }
        for observation in &self.shared {
            if let Reads::Shared(slot) = observation.reads
                && slot >= BASE_QUANTITIES.len()
            {
                shared[slot] = observation.value;
            }
        }
        let locals = self
            .sizes
            .iter()
            .map(|own| {
                let mut local = [0.0; LOCAL];
                for (slot, quantity) in local.iter_mut().zip(Quantity::ALL) {
                    *slot = direct(own, quantity).unwrap_or(quantity.start().0);
                }
                local
            })
            .collect();
        Unknowns { locals, shared }
    }

    /// The state of one size.
    pub(super) fn state(&self, local: &[f64; LOCAL], shared: &[f64; SHARED]) -> State<f64> {
        let mut state = [0.0; STATES];
        state[..LOCAL].copy_from_slice(local);
        state[LOCAL..].copy_from_slice(&shared[..3]);
        if self.shares_length {
            state[Quantity::AxleToCrown.index()] = shared[SHARED_FORK_LENGTH];
        }
        if self.shares_offset {
            state[Quantity::ForkOffset.index()] = shared[SHARED_FORK_OFFSET];
        }
        State(state)
    }

    /// Where a quantity of the state stands among the unknowns.
    pub(super) fn slot(&self, quantity: usize) -> Slot {
        if quantity >= LOCAL {
            return Slot::Shared(quantity - LOCAL);
        }
        if quantity == Quantity::AxleToCrown.index() && self.shares_length {
            return Slot::Shared(SHARED_FORK_LENGTH);
        }
        if quantity == Quantity::ForkOffset.index() && self.shares_offset {
            return Slot::Shared(SHARED_FORK_OFFSET);
        }
        Slot::Local(quantity)
    }

    /// Splits a gradient by the state into the parts by local and shared unknowns, divided by σ.
    pub(super) fn split(&self, gradient: &[f64; STATES], sigma: f64) -> ([f64; LOCAL], [f64; SHARED]) {
        let (mut local, mut shared) = ([0.0; LOCAL], [0.0; SHARED]);
        for (quantity, g) in gradient.iter().enumerate() {
            if *g != 0.0 {
                match self.slot(quantity) {
                    Slot::Local(i) => local[i] += g / sigma,
                    Slot::Shared(i) => shared[i] += g / sigma,
                }
            }
        }
        (local, shared)
    }

    /// One observation's row: of a size, or of what only shared unknowns reach (`local` is then `None`).
    fn row(
        &self,
        observation: &Observation,
        local: Option<&[f64; LOCAL]>,
        shared: &[f64; SHARED],
        state: &State<f64>,
        jets: &mut Option<State<Jet>>,
        top: TopTubeShape,
    ) -> Row<LOCAL, SHARED> {
        let mut row = Row { residual: 0.0, local: [0.0; LOCAL], shared: [0.0; SHARED] };
        let weight = 1.0 / observation.sigma;
        let mut computed = match observation.reads {
            Reads::Local(i) => {
                row.local[i] = weight;
                local.map_or(0.0, |l| l[i])
            }
            Reads::Shared(i) => {
                row.shared[i] = weight;
                shared[i]
            }
            Reads::Quantity(quantity) => {
                let slot = match (self.slot(quantity.index()), local) {
                    // What is observed for all sizes is of the shared unknown.
                    (Slot::Local(_), None) => BASE_QUANTITIES.iter().position(|q| *q == quantity).map(Slot::Shared),
                    (slot, _) => Some(slot),
                };
                match slot {
                    Some(Slot::Local(i)) => row.local[i] = weight,
                    Some(Slot::Shared(i)) => row.shared[i] = weight,
                    None => {}
                }
                state.get(quantity)
            }
            Reads::Figure(_) | Reads::SameTyres | Reads::Closure => {
                let jets = jets.get_or_insert_with(|| state.jets());
                let jet = match observation.reads {
                    Reads::Figure(f) => figure(f, jets, top),
                    Reads::SameTyres => jets.get(Quantity::FrontTyreRadius) - jets.get(Quantity::RearTyreRadius),
                    _ => closure(jets),
                };
                (row.local, row.shared) = self.split(&jet.gradient, observation.sigma);
                jet.value
            }
        };
        for (slot, factor) in observation.terms.iter().flatten() {
            computed += factor * shared[*slot];
            row.shared[*slot] += factor * weight;
        }
        row.residual = (observation.value - computed) * weight;
        row
    }
}

impl Problem<LOCAL, SHARED> for Observations {
    fn blocks(&self) -> usize {
        self.sizes.len()
    }

    fn shared_in_use(&self) -> usize {
        self.in_use
    }

    fn rows(&self, block: usize, local: &[f64; LOCAL], shared: &[f64; SHARED], into: &mut Vec<Row<LOCAL, SHARED>>) {
        let state = self.state(local, shared);
        let mut jets = None;
        let top = self.top_tubes[block];
        into.extend(self.sizes[block].iter().map(|o| self.row(o, Some(local), shared, &state, &mut jets, top)));
    }

    fn shared_rows(&self, shared: &[f64; SHARED], into: &mut Vec<Row<LOCAL, SHARED>>) {
        let mut state = State::start();
        state.0[LOCAL..].copy_from_slice(&shared[..3]);
        state.0[Quantity::AxleToCrown.index()] = shared[SHARED_FORK_LENGTH];
        state.0[Quantity::ForkOffset.index()] = shared[SHARED_FORK_OFFSET];
        let mut jets = None;
        into.extend(self.shared.iter().map(|o| self.row(o, None, shared, &state, &mut jets, TopTubeShape::default())));
    }
}
