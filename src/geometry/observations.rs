//! The observations of a frameset: every believed printed figure, what the user measured, the assumptions for what no
//! figure reaches, the start values and the closure of the wheels, each with its standard uncertainty.
//!
//! Local unknowns are the first fourteen quantities of the state; shared by all sizes are lower headset, both tyre
//! radii, and fork length and offset where every size prints the same or none prints any, where junctions usually are, and
//! the rounding that equal figures have in common. A slot that is not in use (the local fork length of a frameset that
//! shares it) is held by a row of its own that touches nothing else.

use super::assumption::Assumption;
use super::figure_set::FigureSet;
use super::formulas::TopTubeShape;
use super::runs::{Run, runs};
use super::state::Quantity;
use super::tubes::top_tube_shape;
use crate::frameset::{Figure, Frameset, LowerFit, Size, Stated};

/// Local unknowns a size.
pub(super) const LOCAL: usize = 14;
/// Most unknowns shared by all sizes.
pub(super) const SHARED: usize = 20;
/// Shared unknowns that every frameset has: lower headset, tyre radii, fork length and offset.
pub(super) const BASE_SHARED: usize = 5;
/// Shared unknowns that are kept free for errors that all sizes have in common.
const KEPT_FREE: usize = 3;
/// Where the shared fork length and offset stand among the shared unknowns.
pub(super) const SHARED_FORK_LENGTH: usize = 3;
pub(super) const SHARED_FORK_OFFSET: usize = 4;

/// u of a tyre's radius when its designation is stated, mm.
pub const TYRE_RADIUS_U_MM: f64 = 2.0;
/// Closure is held to this, mm.
const CLOSURE_MM: f64 = 0.05;
/// Without a front tyre stated, both tyres are alike to this, mm.
const SAME_TYRES_MM: f64 = 0.05;
/// Offset taken for a fork length of unstated convention where none is printed, mm.
const USUAL_OFFSET_MM: f64 = 45.0;
/// u of a seat tube's setback, mm: stated to be straight through the bottom bracket, and not.
const STRAIGHT_SETBACK_MM: f64 = 0.5;
const SETBACK_MM: f64 = 4.0;
/// u of where along the top tube a printed standover was taken, mm.
const STANDOVER_MM: f64 = 5.0;
/// How much that differs between sizes of one frameset, mm.
const STANDOVER_OF_SIZE_MM: f64 = 1.0;
/// How much junctions of one frameset's sizes differ, mm.
const JUNCTION_OF_SIZE_MM: f64 = 3.0;

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
    /// What the user measured of a figure.
    Measured(Figure),
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
    /// Which of several published figures is wrong.
    Slips,
}

/// What is computed from the unknowns to be compared with what was observed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Reads {
    /// A figure of the state.
    Figure(Figure),
    /// A quantity of the state.
    Quantity(Quantity),
    /// A local unknown, in use or not.
    Local(usize),
    /// A shared unknown.
    Shared(usize),
    SameTyres,
    Closure,
}

/// One observation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Observation {
    pub(super) cause: Cause,
    pub(super) reads: Reads,
    pub(super) value: f64,
    pub(super) sigma: f64,
    /// Printed alike in all sizes and counted once.
    pub(super) is_common: bool,
    /// Printed as in another size, and so rounded as there.
    pub(super) is_in_run: bool,
    /// Only a part of a rounding, so that half a printing step does not bound it.
    pub(super) is_part: bool,
    /// Shared unknowns that are added to what is computed, each times its factor.
    pub(super) terms: [Option<(usize, f64)>; 2],
}

impl Observation {
    pub(super) fn new(cause: Cause, reads: Reads, value: f64, sigma: f64) -> Self {
        Self { cause, reads, value, sigma, is_common: false, is_in_run: false, is_part: false, terms: [None; 2] }
    }

    /// Adds a shared unknown to what is computed.
    pub(super) fn add_term(&mut self, slot: usize, factor: f64) {
        if let Some(free) = self.terms.iter_mut().find(|t| t.is_none()) {
            *free = Some((slot, factor));
        }
    }

    /// The printed figure that it is of.
    pub(super) fn printed_figure(&self) -> Option<Figure> {
        match self.cause {
            Cause::Printed(figure) => Some(figure),
            _ => None,
        }
    }
}

/// A frameset's observations.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Observations {
    pub(super) sizes: Vec<Vec<Observation>>,
    pub(super) shared: Vec<Observation>,
    pub(super) top_tubes: Vec<TopTubeShape>,
    pub(super) shares_length: bool,
    pub(super) shares_offset: bool,
    /// How many shared unknowns are in use.
    pub(super) in_use: usize,
}

const FORK_LENGTHS: [Figure; 3] = [Figure::AxleToCrownAlongAxis, Figure::AxleToCrownDirect, Figure::AxleToCrown];

const JUNCTIONS: [(Assumption, f64, f64); 3] = [
    (Assumption::TopTubeBelowHeadTubeTop, 30.0, 8.0),
    (Assumption::TopTubeBelowSeatTubeTop, 35.0, 15.0),
    (Assumption::DownTubeAboveHeadTubeBottom, 40.0, 8.0),
];

impl Observations {
    pub(super) fn of(frameset: &Frameset) -> Self {
        let all_alike = |f: Figure| all_print_the_same(frameset, f);
        let none = |f: Figure| frameset.sizes.iter().all(|s| s.believed(f).is_none());
        let shares_length = FORK_LENGTHS.iter().all(|f| all_alike(*f) || none(*f));
        let shares_offset = all_alike(Figure::ForkOffset) || none(Figure::ForkOffset);
        let mut observations = Self {
            sizes: Vec::with_capacity(frameset.sizes.len()),
            shared: Vec::with_capacity(24),
            top_tubes: frameset.sizes.iter().map(|s| top_tube_shape(frameset, s)).collect(),
            shares_length,
            shares_offset,
            in_use: BASE_SHARED,
        };
        let common = observations.common_figures(frameset);
        observations.add_shared(frameset, common);
        let junctions = observations.add_common_junctions(frameset);
        let standover = observations.add_common_standover(frameset);
        let runs = observations.add_runs(frameset, common);
        for (index, size) in frameset.sizes.iter().enumerate() {
            let own = observations.of_size(frameset, size, index == 0, (common, &runs), junctions, standover);
            observations.sizes.push(own);
        }
        observations
    }

    /// A further shared unknown near `value` to ± `sigma`; `None` where all are in use.
    pub(super) fn add_unknown(&mut self, cause: Cause, value: f64, sigma: f64) -> Option<usize> {
        let slot = self.in_use;
        if slot >= SHARED {
            return None;
        }
        self.in_use += 1;
        self.shared.push(Observation::new(cause, Reads::Shared(slot), value, sigma));
        Some(slot)
    }

    /// The printed figures that, alike in all sizes, are one measurement for all of them.
    fn common_figures(&self, frameset: &Frameset) -> FigureSet {
        let of_shared_unknown = |figure| match figure {
            Figure::LowerHeadset => true,
            Figure::ForkOffset => self.shares_offset,
            f if FORK_LENGTHS.contains(&f) => self.shares_length,
            _ => false,
        };
        if frameset.sizes.len() < 2 {
            return FigureSet::default();
        }
        Figure::printable().filter(|f| of_shared_unknown(*f) && all_print_the_same(frameset, *f)).collect()
    }

    /// Whether a common figure touches shared unknowns only.
    fn is_of_shared_only(&self, figure: Figure) -> bool {
        match figure {
            Figure::AxleToCrownDirect | Figure::AxleToCrown => self.shares_offset,
            _ => true,
        }
    }

    fn add_shared(&mut self, frameset: &Frameset, common: FigureSet) {
        let assumed = |assumption: Assumption, value, sigma| {
            Observation::new(Cause::Assumed(assumption), Reads::Quantity(assumption.quantity()), value, sigma)
        };
        let (rear, rear_u) = frameset.tyre.map_or((350.0, 12.0), |t| (t.radius_mm(), TYRE_RADIUS_U_MM));
        self.shared.push(assumed(Assumption::RearTyreRadius, rear, rear_u));
        self.shared.push(match frameset.front_tyre {
            Some(tyre) => assumed(Assumption::FrontTyreRadius, tyre.radius_mm(), TYRE_RADIUS_U_MM),
            None => Observation::new(Cause::SameTyres, Reads::SameTyres, 0.0, SAME_TYRES_MM),
        });
        if frameset.sizes.iter().all(|s| s.believed(Figure::LowerHeadset).is_none()) {
            let (value, sigma) = lower_headset(frameset.lower_fit());
            self.shared.push(assumed(Assumption::LowerHeadset, value, sigma));
        }
        if let Some(first) = frameset.sizes.first() {
            let of_shared: Vec<Figure> = common.iter().filter(|f| self.is_of_shared_only(*f)).collect();
            for figure in of_shared {
                self.shared.extend(printed(frameset, first, figure).map(|o| Observation { is_common: true, ..o }));
            }
        }
        for (slot, quantity) in BASE_QUANTITIES.into_iter().enumerate() {
            let (value, sigma) = quantity.start();
            self.shared.push(Observation::new(Cause::Start(quantity), Reads::Shared(slot), value, sigma));
        }
    }

    /// Where assumed junctions of several sizes usually are, each a shared unknown.
    fn add_common_junctions(&mut self, frameset: &Frameset) -> [Option<usize>; 3] {
        JUNCTIONS.map(|(assumption, value, sigma)| {
            let open = frameset.sizes.iter().filter(|s| stated_junction(s, assumption).is_none()).count();
            if open < 2 { None } else { self.add_unknown(Cause::Assumed(assumption), value, sigma) }
        })
    }

    /// How far from midway along the top tube a maker measures standover, where several sizes have it: alike in all of them.
    fn add_common_standover(&mut self, frameset: &Frameset) -> Option<usize> {
        let printed = frameset.sizes.iter().filter(|s| s.believed(Figure::Standover).is_some()).count();
        if printed < 2 || frameset.states(Stated::StandoverMidway) {
            return None;
        }
        self.add_unknown(Cause::Printed(Figure::Standover), 0.0, STANDOVER_MM).inspect(|_| {
            if let Some(common) = self.shared.last_mut() {
                common.is_part = true;
            }
        })
    }

    /// The rounding that equal figures have in common, each run's a shared unknown.
    fn add_runs(&mut self, frameset: &Frameset, common: FigureSet) -> Vec<(Run, usize)> {
        let mut added = Vec::new();
        for run in runs(frameset, common) {
            if self.in_use + KEPT_FREE >= SHARED {
                break;
            }
            if let Some(slot) = self.add_unknown(Cause::Printed(run.figure), 0.0, run.common_u()) {
                if let Some(common) = self.shared.last_mut().filter(|_| !run.is_whole()) {
                    common.is_part = true;
                }
                added.push((run, slot));
            }
        }
        added
    }

    fn of_size(
        &self,
        frameset: &Frameset,
        size: &Size,
        is_first: bool,
        (common, runs): (FigureSet, &[(Run, usize)]),
        junctions: [Option<usize>; 3],
        standover: Option<usize>,
    ) -> Vec<Observation> {
        let mut own = Vec::with_capacity(size.figures.len() + LOCAL + 6);
        for figure in size.figures.keys().copied() {
            if common.contains(figure) {
                if is_first && !self.is_of_shared_only(figure) {
                    own.extend(printed(frameset, size, figure).map(|o| Observation { is_common: true, ..o }));
                }
            } else if let Some(mut observation) = printed(frameset, size, figure) {
                if let Some(slot) = standover.filter(|_| figure == Figure::Standover) {
                    let of_size = STANDOVER_OF_SIZE_MM;
                    observation.sigma =
                        (observation.sigma * observation.sigma - STANDOVER_MM * STANDOVER_MM + of_size * of_size).sqrt();
                    observation.add_term(slot, 1.0);
                }
                let step = frameset.step(size, figure);
                if let Some((run, slot)) = runs.iter().find(|(r, _)| r.holds(figure, observation.value, step)) {
                    let common = run.common_u();
                    observation.sigma = (observation.sigma * observation.sigma - common * common).sqrt();
                    observation.is_in_run = run.value.is_some();
                    observation.add_term(*slot, 1.0);
                }
                own.push(observation);
            }
        }
        for (figure, measured) in &size.measured {
            let sigma = measured.plus_minus / crate::units::COVERAGE_FACTOR;
            own.push(Observation::new(Cause::Measured(*figure), reads_figure(*figure), measured.value, sigma));
        }
        if !says_setback(size) {
            let sigma = if frameset.states(Stated::StraightSeatTube) { STRAIGHT_SETBACK_MM } else { SETBACK_MM };
            let cause = Cause::Assumed(Assumption::SeatTubeSetback);
            own.push(Observation::new(cause, Reads::Quantity(Quantity::SeatTubeSetback), 0.0, sigma));
        }
        let step = u_of_step(frameset.rounded_to.mm);
        for ((assumption, value, sigma), slot) in JUNCTIONS.into_iter().zip(junctions) {
            let reads = Reads::Quantity(assumption.quantity());
            own.push(match (stated_junction(size, assumption), slot) {
                (Some(stated), _) => Observation::new(Cause::Junction(assumption), reads, stated, step),
                (None, Some(slot)) => {
                    let mut of_size = Observation::new(Cause::Assumed(assumption), reads, 0.0, JUNCTION_OF_SIZE_MM);
                    of_size.add_term(slot, -1.0);
                    of_size
                }
                (None, None) => Observation::new(Cause::Assumed(assumption), reads, value, sigma.hypot(JUNCTION_OF_SIZE_MM)),
            });
        }
        own.push(Observation::new(Cause::Closure, Reads::Closure, 0.0, CLOSURE_MM));
        for (slot, quantity) in Quantity::ALL.into_iter().take(LOCAL).enumerate() {
            let (value, sigma) = quantity.start();
            own.push(Observation::new(Cause::Start(quantity), Reads::Local(slot), value, sigma));
        }
        own
    }
}

/// The quantities of the shared unknowns that every frameset has.
pub(super) const BASE_QUANTITIES: [Quantity; BASE_SHARED] =
    [Quantity::LowerHeadset, Quantity::RearTyreRadius, Quantity::FrontTyreRadius, Quantity::AxleToCrown, Quantity::ForkOffset];

/// Assumed lower headset stack height and its u, mm.
pub(super) const fn lower_headset(fit: LowerFit) -> (f64, f64) {
    match fit {
        LowerFit::Outside => (12.0, 3.0),
        LowerFit::Inside => (1.5, 1.5),
        LowerFit::NotStated => (8.0, 6.0),
    }
}

/// What is assumed where no figure says it, mm; `None` for tyre radii, which follow from the tyre.
#[must_use]
pub fn assumed_mm(frameset: &Frameset, assumption: Assumption) -> Option<f64> {
    match assumption {
        Assumption::LowerHeadset => Some(lower_headset(frameset.lower_fit()).0),
        Assumption::SeatTubeSetback => Some(0.0),
        _ => JUNCTIONS.iter().find(|(a, ..)| *a == assumption).map(|(_, value, _)| *value),
    }
}

/// u of an assumption in one size, where it stands alone: of a junction, all sizes' and its own.
pub(super) fn whole_sigma(assumption: Assumption, sigma: f64) -> f64 {
    JUNCTIONS.iter().find(|(a, ..)| *a == assumption).map_or(sigma, |(_, _, common)| common.hypot(JUNCTION_OF_SIZE_MM))
}

fn says_setback(size: &Size) -> bool {
    let says = |f: Figure| size.believed(f).is_some();
    says(Figure::SeatTubeSetback) || (says(Figure::SeatTubeAngle) && (says(Figure::SeatAngle) || says(Figure::EffectiveTopTube)))
}

fn stated_junction(size: &Size, assumption: Assumption) -> Option<f64> {
    match assumption {
        Assumption::TopTubeBelowHeadTubeTop => size.junctions.top_tube_below_head_tube_top,
        Assumption::TopTubeBelowSeatTubeTop => size.junctions.top_tube_below_seat_tube_top,
        Assumption::DownTubeAboveHeadTubeBottom => size.junctions.down_tube_above_head_tube_bottom,
        _ => None,
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
        Figure::AxleToCrownAlongAxis => Some(Quantity::AxleToCrown),
        Figure::ForkOffset => Some(Quantity::ForkOffset),
        Figure::Chainstay => Some(Quantity::Chainstay),
        Figure::BbDrop => Some(Quantity::BbDrop),
        Figure::LowerHeadset => Some(Quantity::LowerHeadset),
        Figure::RearTyreRadius => Some(Quantity::RearTyreRadius),
        Figure::FrontTyreRadius => Some(Quantity::FrontTyreRadius),
        _ => None,
    }
}

/// What is computed for a figure: the quantity that it simply is, or its formula.
pub(super) fn reads_figure(figure: Figure) -> Reads {
    quantity_of(figure).map_or(Reads::Figure(figure), Reads::Quantity)
}

fn all_print_the_same(frameset: &Frameset, figure: Figure) -> bool {
    let mut values = frameset.sizes.iter().map(|s| s.believed(figure).map(|v| (v, frameset.step(s, figure))));
    let Some(Some(first)) = values.next() else { return false };
    values.all(|v| v == Some(first))
}

fn printed(frameset: &Frameset, size: &Size, figure: Figure) -> Option<Observation> {
    let value = size.believed(figure)?;
    let mut sigma = u_of_step(frameset.step(size, figure));
    let mut reads = reads_figure(figure);
    match figure {
        Figure::AxleToCrown if frameset.states(Stated::ForkAlong) => reads = Reads::Quantity(Quantity::AxleToCrown),
        Figure::AxleToCrown => {
            // The maker does not say how it was measured: one or the other, so the figure is halfway to ± half of δ.
            let offset = size.believed(Figure::ForkOffset).unwrap_or(USUAL_OFFSET_MM);
            sigma = sigma.hypot((value.hypot(offset) - value) / 2.0);
        }
        Figure::Standover if !frameset.states(Stated::StandoverMidway) => sigma = sigma.hypot(STANDOVER_MM),
        _ => {}
    }
    Some(Observation::new(Cause::Printed(figure), reads, value, sigma))
}
