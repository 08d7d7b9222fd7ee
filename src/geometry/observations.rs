//! The observations of a frameset: every believed printed figure, the assumptions for what no figure reaches, the start
//! values and the closure of the wheels, each with its standard uncertainty, laid out for the solver.
//!
//! Local unknowns are the first fourteen quantities of the state; shared by all sizes are lower headset, both tyre
//! radii, and fork length and offset where every size prints the same or none prints any. A slot that is not in use
//! (the local fork length of a frameset that shares it) is held by a row of its own that touches nothing else.

use super::adjusted::Assumption;
use super::formulas::{TopTubeShape, closure, figure};
use super::jet::Jet;
use super::least_squares::{Problem, Row, Unknowns};
use super::state::{Quantity, STATES, State};
use super::tubes::top_tube_shape;
use crate::frameset::{Figure, Frameset, LowerFit, Size};

/// Local unknowns a size.
pub(super) const LOCAL: usize = 14;
/// Unknowns shared by all sizes.
pub(super) const SHARED: usize = 5;
/// Where the shared fork length and offset stand among the shared unknowns.
const SHARED_FORK_LENGTH: usize = 3;
const SHARED_FORK_OFFSET: usize = 4;

/// u of a tyre's radius when its designation is stated, mm.
pub const TYRE_RADIUS_U_MM: f64 = 2.0;
/// Closure is held to this, mm.
const CLOSURE_MM: f64 = 0.05;
/// Without a front tyre stated, both tyres are alike to this, mm.
const SAME_TYRES_MM: f64 = 0.05;
/// Offset taken for a fork length of unstated convention where none is printed, mm.
const USUAL_OFFSET_MM: f64 = 45.0;

/// A step of `step` printed is a uniform distribution: u = step / √12 (JCGM 100:2008, 4.3.7).
#[must_use]
pub fn u_of_step(step: f64) -> f64 {
    step / 12f64.sqrt()
}

/// What an observation is of, and so what makes a part of a figure's ±.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The printing step of a figure.
    Printed(Figure),
    /// A junction that the file states, to the file's step.
    Junction(Assumption),
    /// An assumption.
    Assumed(Assumption),
    /// That both tyres are alike.
    SameTyres,
    /// Nothing but the start value reaches it.
    Start(Quantity),
    /// That both wheels stand on the road.
    Closure,
}

/// One observation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Observation {
    pub(super) cause: Cause,
    pub(super) value: f64,
    pub(super) sigma: f64,
    /// Printed alike in all sizes and counted once.
    pub(super) is_common: bool,
}

/// A frameset's observations.
pub(super) struct Observations {
    pub(super) sizes: Vec<Vec<Observation>>,
    pub(super) shared: Vec<Observation>,
    pub(super) top_tubes: Vec<TopTubeShape>,
    shares_length: bool,
    shares_offset: bool,
}

const FORK_LENGTHS: [Figure; 3] = [Figure::ForkLengthAlong, Figure::ForkLengthStraight, Figure::ForkLength];

impl Observations {
    pub(super) fn of(frameset: &Frameset) -> Self {
        let all_alike = |f: Figure| all_print_the_same(frameset, f);
        let none = |f: Figure| frameset.sizes.iter().all(|s| s.believed(f).is_none());
        let shares_length = FORK_LENGTHS.iter().all(|f| all_alike(*f) || none(*f));
        let shares_offset = all_alike(Figure::ForkOffset) || none(Figure::ForkOffset);
        let mut observations = Self {
            sizes: Vec::with_capacity(frameset.sizes.len()),
            shared: Vec::with_capacity(16),
            top_tubes: frameset.sizes.iter().map(|s| top_tube_shape(frameset, s)).collect(),
            shares_length,
            shares_offset,
        };
        observations.add_shared(frameset);
        for (index, size) in frameset.sizes.iter().enumerate() {
            let own = observations.of_size(frameset, size, index == 0);
            observations.sizes.push(own);
        }
        observations
    }

    /// Whether the printed figure, alike in all sizes, is one measurement for all of them.
    fn is_common(&self, frameset: &Frameset, figure: Figure) -> bool {
        let of_shared_unknown = match figure {
            Figure::LowerHeadset => true,
            Figure::ForkOffset => self.shares_offset,
            f if FORK_LENGTHS.contains(&f) => self.shares_length,
            _ => false,
        };
        of_shared_unknown && frameset.sizes.len() > 1 && all_print_the_same(frameset, figure)
    }

    /// Whether a common figure touches shared unknowns only.
    fn is_of_shared_only(&self, figure: Figure) -> bool {
        match figure {
            Figure::ForkLengthStraight | Figure::ForkLength => self.shares_offset,
            _ => true,
        }
    }

    fn add_shared(&mut self, frameset: &Frameset) {
        let assumed =
            |assumption, value, sigma| Observation { cause: Cause::Assumed(assumption), value, sigma, is_common: false };
        let (rear, rear_u) = frameset.tyre.map_or((350.0, 12.0), |t| (t.radius_mm(), TYRE_RADIUS_U_MM));
        self.shared.push(assumed(Assumption::RearTyreRadius, rear, rear_u));
        self.shared.push(match frameset.front_tyre {
            Some(tyre) => assumed(Assumption::FrontTyreRadius, tyre.radius_mm(), TYRE_RADIUS_U_MM),
            None => Observation { cause: Cause::SameTyres, value: 0.0, sigma: SAME_TYRES_MM, is_common: false },
        });
        if frameset.sizes.iter().all(|s| s.believed(Figure::LowerHeadset).is_none()) {
            let (value, sigma) = match frameset.lower_fit() {
                LowerFit::Outside => (12.0, 3.0),
                LowerFit::Inside => (1.5, 1.5),
                LowerFit::NotStated => (8.0, 6.0),
            };
            self.shared.push(assumed(Assumption::LowerHeadset, value, sigma));
        }
        if let Some(first) = frameset.sizes.first() {
            for figure in [Figure::LowerHeadset, Figure::ForkOffset].into_iter().chain(FORK_LENGTHS) {
                if self.is_common(frameset, figure) && self.is_of_shared_only(figure) {
                    self.shared.extend(printed(frameset, first, figure, true));
                }
            }
        }
        for quantity in [Quantity::LowerHeadset, Quantity::RearTyreRadius, Quantity::FrontTyreRadius] {
            self.shared.push(start(quantity));
        }
        self.shared.push(start(Quantity::ForkLength));
        self.shared.push(start(Quantity::ForkOffset));
    }

    fn of_size(&self, frameset: &Frameset, size: &Size, is_first: bool) -> Vec<Observation> {
        let mut own = Vec::with_capacity(size.figures.len() + LOCAL + 6);
        for figure in size.figures.keys().copied() {
            if self.is_common(frameset, figure) {
                if is_first && !self.is_of_shared_only(figure) {
                    own.extend(printed(frameset, size, figure, true));
                }
            } else {
                own.extend(printed(frameset, size, figure, false));
            }
        }
        let says = |f: Figure| size.believed(f).is_some();
        let says_setback = says(Figure::SeatTubeSetback)
            || (says(Figure::SeatTubeAngle) && (says(Figure::SeatAngle) || says(Figure::EffectiveTopTube)));
        if !says_setback {
            let cause = Cause::Assumed(Assumption::SeatTubeSetback);
            own.push(Observation { cause, value: 0.0, sigma: 0.5, is_common: false });
        }
        let step = u_of_step(frameset.printed_to.mm);
        for (assumption, stated, value, sigma) in [
            (Assumption::TopTubeBelowHeadTubeTop, size.junctions.top_tube_below_head_tube_top, 30.0, 8.0),
            (Assumption::TopTubeBelowSeatTubeTop, size.junctions.top_tube_below_seat_tube_top, 35.0, 15.0),
            (Assumption::DownTubeAboveHeadTubeBottom, size.junctions.down_tube_above_head_tube_bottom, 40.0, 8.0),
        ] {
            own.push(match stated {
                Some(value) => Observation { cause: Cause::Junction(assumption), value, sigma: step, is_common: false },
                None => Observation { cause: Cause::Assumed(assumption), value, sigma, is_common: false },
            });
        }
        own.push(Observation { cause: Cause::Closure, value: 0.0, sigma: CLOSURE_MM, is_common: false });
        own.extend(Quantity::ALL.into_iter().take(LOCAL).map(start));
        own
    }

    /// Unknowns to begin from: the printed values where the quantity itself is printed, the start values elsewhere.
    pub(super) fn begin(&self, frameset: &Frameset) -> Unknowns<LOCAL, SHARED> {
        let mut shared = [8.0, 350.0, 350.0, 420.0, 48.0];
        let direct = |observations: &[Observation], quantity: Quantity| {
            observations.iter().find(|o| direct_quantity(o.cause) == Some(quantity)).map(|o| o.value)
        };
        for (slot, quantity) in [Quantity::LowerHeadset, Quantity::RearTyreRadius, Quantity::FrontTyreRadius]
            .into_iter()
            .chain([Quantity::ForkLength, Quantity::ForkOffset])
            .enumerate()
        {
            if let Some(value) = direct(&self.shared, quantity) {
                shared[slot] = value;
            }
        }
        if frameset.front_tyre.is_none() {
            shared[2] = shared[1];
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
            state[Quantity::ForkLength.index()] = shared[SHARED_FORK_LENGTH];
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
        if quantity == Quantity::ForkLength.index() && self.shares_length {
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

    /// One observation's row at a state.
    pub(super) fn row(&self, observation: &Observation, jets: &State<Jet>, top: TopTubeShape) -> Row<LOCAL, SHARED> {
        let computed = value_at(observation.cause, jets, top);
        let (local, shared) = self.split(&computed.gradient, observation.sigma);
        Row { residual: (observation.value - computed.value) / observation.sigma, local, shared }
    }
}

/// A place among the unknowns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Slot {
    Local(usize),
    Shared(usize),
}

impl Problem<LOCAL, SHARED> for Observations {
    fn blocks(&self) -> usize {
        self.sizes.len()
    }

    fn rows(&self, block: usize, local: &[f64; LOCAL], shared: &[f64; SHARED], into: &mut Vec<Row<LOCAL, SHARED>>) {
        let state = self.state(local, shared);
        let jets = state.jets();
        let top = self.top_tubes[block];
        for observation in &self.sizes[block] {
            into.push(match direct_quantity(observation.cause) {
                // A start value always belongs to the size's own slot, in use or not, so that N stays regular.
                Some(quantity) if matches!(observation.cause, Cause::Start(_)) => {
                    let mut row = Row { residual: 0.0, local: [0.0; LOCAL], shared: [0.0; SHARED] };
                    row.local[quantity.index()] = 1.0 / observation.sigma;
                    row.residual = (observation.value - local[quantity.index()]) / observation.sigma;
                    row
                }
                Some(quantity) => {
                    let mut row = Row {
                        residual: (observation.value - state.get(quantity)) / observation.sigma,
                        local: [0.0; LOCAL],
                        shared: [0.0; SHARED],
                    };
                    match self.slot(quantity.index()) {
                        Slot::Local(i) => row.local[i] = 1.0 / observation.sigma,
                        Slot::Shared(i) => row.shared[i] = 1.0 / observation.sigma,
                    }
                    row
                }
                None => self.row(observation, &jets, top),
            });
        }
    }

    fn shared_rows(&self, shared: &[f64; SHARED], into: &mut Vec<Row<LOCAL, SHARED>>) {
        let mut state = State::start();
        state.0[LOCAL..].copy_from_slice(&shared[..3]);
        state.0[Quantity::ForkLength.index()] = shared[SHARED_FORK_LENGTH];
        state.0[Quantity::ForkOffset.index()] = shared[SHARED_FORK_OFFSET];
        let jets = state.jets();
        for observation in &self.shared {
            let computed = value_at(observation.cause, &jets, TopTubeShape::default());
            let mut row = Row {
                residual: (observation.value - computed.value) / observation.sigma,
                local: [0.0; LOCAL],
                shared: [0.0; SHARED],
            };
            for (quantity, slot) in [
                (Quantity::LowerHeadset, 0),
                (Quantity::RearTyreRadius, 1),
                (Quantity::FrontTyreRadius, 2),
                (Quantity::ForkLength, SHARED_FORK_LENGTH),
                (Quantity::ForkOffset, SHARED_FORK_OFFSET),
            ] {
                row.shared[slot] = computed.gradient[quantity.index()] / observation.sigma;
            }
            into.push(row);
        }
    }
}

fn value_at(cause: Cause, jets: &State<Jet>, top: TopTubeShape) -> Jet {
    match cause {
        Cause::Printed(f) => figure(f, jets, top),
        Cause::Junction(a) | Cause::Assumed(a) => jets.get(a.quantity()),
        Cause::SameTyres => jets.get(Quantity::FrontTyreRadius) - jets.get(Quantity::RearTyreRadius),
        Cause::Start(q) => jets.get(q),
        Cause::Closure => closure(jets),
    }
}

/// The quantity that an observation is directly of, where its row has a single one.
fn direct_quantity(cause: Cause) -> Option<Quantity> {
    match cause {
        Cause::Junction(a) | Cause::Assumed(a) => Some(a.quantity()),
        Cause::Start(q) => Some(q),
        Cause::SameTyres | Cause::Closure => None,
        Cause::Printed(f) => quantity_of(f),
    }
}

/// The quantity of the state that a figure simply is.
pub(super) fn quantity_of(figure: Figure) -> Option<Quantity> {
    match figure {
        Figure::Stack => Some(Quantity::Stack),
        Figure::Reach => Some(Quantity::Reach),
        Figure::HeadAngle => Some(Quantity::HeadAngle),
        Figure::SeatAngle => Some(Quantity::SeatAngle),
        Figure::SeatTubeSetback => Some(Quantity::SeatTubeSetback),
        Figure::SeatTube => Some(Quantity::SeatTube),
        Figure::HeadTube => Some(Quantity::HeadTube),
        Figure::ForkLengthAlong => Some(Quantity::ForkLength),
        Figure::ForkOffset => Some(Quantity::ForkOffset),
        Figure::Chainstay => Some(Quantity::Chainstay),
        Figure::BbDrop => Some(Quantity::BbDrop),
        Figure::LowerHeadset => Some(Quantity::LowerHeadset),
        Figure::RearTyreRadius => Some(Quantity::RearTyreRadius),
        Figure::FrontTyreRadius => Some(Quantity::FrontTyreRadius),
        _ => None,
    }
}

fn start(quantity: Quantity) -> Observation {
    let (value, sigma) = quantity.start();
    Observation { cause: Cause::Start(quantity), value, sigma, is_common: false }
}

fn all_print_the_same(frameset: &Frameset, figure: Figure) -> bool {
    let mut values = frameset.sizes.iter().map(|s| s.believed(figure).map(|v| (v, frameset.step(s, figure))));
    let Some(Some(first)) = values.next() else { return false };
    values.all(|v| v == Some(first))
}

fn printed(frameset: &Frameset, size: &Size, figure: Figure, is_common: bool) -> Option<Observation> {
    let value = size.believed(figure)?;
    let mut sigma = u_of_step(frameset.step(size, figure));
    if figure == Figure::ForkLength {
        // The maker does not say how it was measured: δ between along and straight, uniform.
        let offset = size.believed(Figure::ForkOffset).unwrap_or(USUAL_OFFSET_MM);
        sigma = sigma.hypot(u_of_step(value.hypot(offset) - value));
    }
    Some(Observation { cause: Cause::Printed(figure), value, sigma, is_common })
}
