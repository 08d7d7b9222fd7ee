//! The state: the 17 quantities that fix one size of a frame in the side view.

use super::jet::{Jet, Scalar};

/// How many quantities the state has.
pub const STATES: usize = 17;

/// A quantity of the state, by its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(usize)]
pub enum Quantity {
    /// S, stack.
    Stack,
    /// R, reach.
    Reach,
    /// θ, head angle.
    HeadAngle,
    /// Effective seat angle.
    SeatAngle,
    /// Seat tube setback.
    SeatTubeSetback,
    /// Seat tube length.
    SeatTube,
    /// H, head tube.
    HeadTube,
    /// f, fork length along the axis.
    AxleToCrown,
    /// o, fork offset.
    ForkOffset,
    /// c, chainstay.
    Chainstay,
    /// d, bottom bracket drop.
    BbDrop,
    /// Top tube axis below the head tube's top, along it.
    TopTubeBelowHeadTubeTop,
    /// Top tube axis below the seat tube's top, along it.
    TopTubeBelowSeatTubeTop,
    /// Down tube axis above the head tube's bottom, along it.
    DownTubeAboveHeadTubeBottom,
    /// h, lower headset.
    LowerHeadset,
    /// Rear tyre radius.
    RearTyreRadius,
    /// Front tyre radius.
    FrontTyreRadius,
}

impl Quantity {
    /// All, in the order of the state.
    pub const ALL: [Self; STATES] = [
        Self::Stack,
        Self::Reach,
        Self::HeadAngle,
        Self::SeatAngle,
        Self::SeatTubeSetback,
        Self::SeatTube,
        Self::HeadTube,
        Self::AxleToCrown,
        Self::ForkOffset,
        Self::Chainstay,
        Self::BbDrop,
        Self::TopTubeBelowHeadTubeTop,
        Self::TopTubeBelowSeatTubeTop,
        Self::DownTubeAboveHeadTubeBottom,
        Self::LowerHeadset,
        Self::RearTyreRadius,
        Self::FrontTyreRadius,
    ];

    /// Its place in the state.
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Start value and its weight as one standard uncertainty, mm or degrees: what keeps the normal matrix regular
    /// where no figure and no assumption reaches.
    #[must_use]
    pub const fn start(self) -> (f64, f64) {
        match self {
            Self::Stack => (600.0, 1000.0),
            Self::Reach => (400.0, 1000.0),
            Self::HeadAngle => (71.0, 60.0),
            Self::SeatAngle => (73.0, 60.0),
            Self::SeatTubeSetback => (0.0, 1000.0),
            Self::SeatTube => (500.0, 1000.0),
            Self::HeadTube => (140.0, 1000.0),
            Self::AxleToCrown => (420.0, 1000.0),
            Self::ForkOffset => (48.0, 1000.0),
            Self::Chainstay => (440.0, 1000.0),
            Self::BbDrop => (65.0, 1000.0),
            Self::TopTubeBelowHeadTubeTop => (30.0, 1000.0),
            Self::TopTubeBelowSeatTubeTop => (35.0, 1000.0),
            Self::DownTubeAboveHeadTubeBottom => (40.0, 1000.0),
            Self::LowerHeadset => (8.0, 1000.0),
            Self::RearTyreRadius | Self::FrontTyreRadius => (350.0, 1000.0),
        }
    }
}

/// One size's state: millimetres and degrees, in the order of [`Quantity`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State<T>(pub [T; STATES]);

impl<T: Scalar> State<T> {
    /// One of its quantities.
    #[must_use]
    #[inline]
    pub fn get(&self, quantity: Quantity) -> T {
        self.0[quantity.index()]
    }
}

impl State<f64> {
    /// The start values.
    #[must_use]
    pub fn start() -> Self {
        Self(Quantity::ALL.map(|q| q.start().0))
    }

    /// The same state, every quantity a variable of differentiation.
    #[must_use]
    pub fn jets(&self) -> State<Jet> {
        State(std::array::from_fn(|i| Jet::variable(self.0[i], i)))
    }
}
