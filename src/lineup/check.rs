//! Check: for one figure of a frame's chosen size, where its ± comes from, what would narrow it, which figures disagree,
//! and what would change without its published value.
//!
//! What would change is found by trying: the frameset is adjusted again with the change. Facts and codes, no sentences.

use super::findings::Findings;
use super::frame_findings::FrameFindings;
use crate::frameset::{Figure, FrameIndex, Frameset, TyreSize};
use crate::geometry::{Adjusted, Assumption, Cause, Doubt, Missing, Quantity, Share, adjust, budget, settled_by};
use crate::units::{AnyKind, Measured};

/// Parts of a budget below this share of u² are taken together.
const LEAST_SHARE: f64 = 0.01;
/// A remedy is worth naming where it brings u below this share of what it was.
const WORTH_IT: f64 = 0.9;
/// A figure changes where its value or its u moves by more than this share of u.
const CHANGES_ABOVE: f64 = 0.1;

/// What Check tells of one figure of a frame's chosen size, as its maker published it.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureCheck {
    /// Figure that is checked.
    pub figure: Figure,
    /// Where its ± comes from; `None` where it is unknown.
    pub budget: Option<UncertaintyBudget>,
    /// What is doubted of the published figure.
    pub doubt: Option<Doubt>,
    /// What would change without its published value; empty where none counts.
    pub without: Vec<WithAndWithout>,
    /// What would make it known, where it is unknown.
    pub needs: Option<Missing>,
}

/// Where a figure's ± comes from, and what would narrow it.
#[derive(Clone, Debug, PartialEq)]
pub struct UncertaintyBudget {
    /// Figure that is checked.
    pub figure: Figure,
    /// Its best estimate.
    pub value: Measured<AnyKind>,
    /// Parts of at least one percent of u², the largest first.
    pub parts: Vec<BudgetPart>,
    /// Share of u² of all other parts together, 0 to 1.
    pub rest: f64,
    /// What would narrow the ±, by the largest part.
    pub narrowing: Narrowing,
}

/// A part of a figure's u².
#[derive(Clone, Debug, PartialEq)]
pub struct BudgetPart {
    /// What makes it.
    pub source: UncertaintySource,
    /// Label of the size whose figure makes it, where that is another than the chosen one.
    pub other_size: Option<String>,
    /// 0 to 1.
    pub share: f64,
}

/// What makes a part of a figure's ±.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UncertaintySource {
    /// A published figure was rounded.
    Rounding(Figure),
    /// A junction that the file states was rounded.
    JunctionRounding(Assumption),
    /// No tyre is published.
    UnknownTyre,
    /// The tyre is published, and its radius is assumed from its size.
    TyreRadius,
    /// An assumption stands in for what no figure says.
    Assumed(Assumption),
    /// Both tyres are assumed to be alike.
    SameTyres,
    /// No figure says anything of a quantity.
    NoFigure(Quantity),
    /// Both wheels are taken to stand on level ground, to a tolerance.
    LevelGround,
    /// The ± of what the user measured of a figure.
    Measured(Figure),
    /// Which of several published figures is wrong.
    DoubtfulFigures,
}

impl UncertaintySource {
    fn of(cause: Cause, frameset: &Frameset) -> Self {
        match cause {
            Cause::Printed(figure) => Self::Rounding(figure),
            Cause::Junction(junction) => Self::JunctionRounding(junction),
            Cause::Assumed(Assumption::RearTyreRadius) if frameset.tyre.is_none() => Self::UnknownTyre,
            Cause::Assumed(Assumption::RearTyreRadius) if frameset.front_tyre.is_none() => Self::TyreRadius,
            Cause::Assumed(assumption) => Self::Assumed(assumption),
            Cause::SameTyres => Self::SameTyres,
            Cause::Start(quantity) => Self::NoFigure(quantity),
            Cause::Closure => Self::LevelGround,
            Cause::Measured(figure) => Self::Measured(figure),
            Cause::Slips => Self::DoubtfulFigures,
        }
    }

    /// Whether it is assumed, rather than the rounding of something published.
    #[must_use]
    pub const fn is_assumed(self) -> bool {
        !matches!(
            self,
            Self::Rounding(_) | Self::JunctionRounding(_) | Self::LevelGround | Self::Measured(_) | Self::DoubtfulFigures
        )
    }

    /// Its name in JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Rounding(_) => "rounding",
            Self::JunctionRounding(_) => "junction_rounding",
            Self::UnknownTyre => "unknown_tyre",
            Self::TyreRadius => "tyre_radius",
            Self::Assumed(_) => "assumed",
            Self::SameTyres => "same_tyres",
            Self::NoFigure(_) => "no_figure",
            Self::LevelGround => "level_ground",
            Self::Measured(_) => "measured",
            Self::DoubtfulFigures => "doubtful_figures",
        }
    }
}

/// What would narrow a figure's ±.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Narrowing {
    /// The remedy was tried, and leaves this u, mm or degrees.
    By(Remedy, f64),
    /// What takes the largest part away was tried, and leaves nearly as much: other parts are about as large.
    Little,
    /// The wheel with its tyre is to be measured; no published figure does it.
    MeasuredWheel,
    /// There is nothing to try for the largest part.
    Nothing,
}

/// What would take the largest part of a figure's ± away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// A figure is known to a finer step, mm or degrees.
    FinerStep(Figure, f64),
    /// The tyre's size is known.
    TyreSize,
    /// The lower headset stack height is known to a millimetre.
    LowerHeadset,
    /// The seat tube's setback is known to a tenth of a millimetre.
    SeatTubeSetback,
    /// A tube's junction is measured.
    Junction(TubeJunction),
}

impl Remedy {
    /// Its name in JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::FinerStep(..) => "finer_step",
            Self::TyreSize => "tyre_size",
            Self::LowerHeadset => "lower_headset",
            Self::SeatTubeSetback => "seat_tube_setback",
            Self::Junction(junction) => junction.code(),
        }
    }
}

/// Where the centre line of a tube meets another tube, along the latter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TubeJunction {
    /// Top tube, below the top of the head tube.
    TopTubeAtHeadTube,
    /// Top tube, below the top of the seat tube.
    TopTubeAtSeatTube,
    /// Down tube, above the bottom of the head tube.
    DownTubeAtHeadTube,
}

impl TubeJunction {
    /// Its name in JSON: that of the assumption that stands in for it.
    #[must_use]
    pub const fn code(self) -> &'static str {
        self.assumption().key()
    }

    const fn assumption(self) -> Assumption {
        match self {
            Self::TopTubeAtHeadTube => Assumption::TopTubeBelowHeadTubeTop,
            Self::TopTubeAtSeatTube => Assumption::TopTubeBelowSeatTubeTop,
            Self::DownTubeAtHeadTube => Assumption::DownTubeAboveHeadTubeBottom,
        }
    }
}

/// A figure of the chosen size with and without another's published value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WithAndWithout {
    /// Which figure changes.
    pub figure: Figure,
    /// With the published value.
    pub with: Measured<AnyKind>,
    /// Without it; `None` where the figure is then unknown.
    pub without: Option<Measured<AnyKind>>,
}

impl Findings {
    /// What Check tells of a figure of a frame's chosen size. Adjusts the frameset once or twice more, so it is asked for
    /// when it is shown. `None` where there is no such frame.
    #[must_use]
    pub fn check(&self, frame: FrameIndex, figure: Figure) -> Option<FigureCheck> {
        let frame = frame.of(&self.frames)?;
        let size = frame.size.of(&frame.as_published.sizes)?;
        Some(FigureCheck {
            figure,
            budget: uncertainty_budget(frame, figure),
            doubt: size.doubt(figure).cloned(),
            without: without(frame, figure),
            needs: frame.unknown().into_iter().find(|m| m.figure == figure),
        })
    }
}

impl FrameFindings {
    /// Unknown figures of the chosen size as published, each with the smallest sets of further figures that would make it
    /// known.
    #[must_use]
    pub fn unknown(&self) -> Vec<Missing> {
        match (self.size.of(&self.frameset.sizes), self.size.of(&self.as_published.sizes)) {
            (Some(published), Some(size)) => settled_by(&self.frameset, published, size),
            _ => Vec::new(),
        }
    }
}

fn uncertainty_budget(frame: &FrameFindings, figure: Figure) -> Option<UncertaintyBudget> {
    let value = *frame.size.of(&frame.as_published.sizes)?.value(figure);
    if value.is_missing {
        return None;
    }
    let shares = budget(&frame.frameset, &frame.as_published, frame.size, figure);
    let own_label = frame.size_label();
    let parts = shares.iter().filter(|s| s.share >= LEAST_SHARE).map(|share| BudgetPart {
        source: UncertaintySource::of(share.cause, &frame.frameset),
        other_size: share.size.clone().filter(|s| s != own_label),
        share: share.share,
    });
    Some(UncertaintyBudget {
        figure,
        value: value.measured(),
        parts: parts.collect(),
        rest: shares.iter().filter(|s| s.share < LEAST_SHARE).map(|s| s.share).sum(),
        narrowing: shares.first().map_or(Narrowing::Nothing, |first| narrowing(frame, figure, value.u, first)),
    })
}

fn narrowing(frame: &FrameFindings, figure: Figure, u: f64, largest: &Share) -> Narrowing {
    let Some((remedy, better)) = remedied(&frame.frameset, &frame.as_published, largest) else {
        let is_tyre = matches!(largest.cause, Cause::Assumed(Assumption::RearTyreRadius | Assumption::FrontTyreRadius));
        return if is_tyre { Narrowing::MeasuredWheel } else { Narrowing::Nothing };
    };
    match adjust(&better).sizes.get(frame.size.0) {
        Some(size) if size.value(figure).u < WORTH_IT * u => Narrowing::By(remedy, size.value(figure).u),
        _ => Narrowing::Little,
    }
}

/// What would take a part away, and the frameset as it would then be published.
fn remedied(frameset: &Frameset, adjusted: &Adjusted, part: &Share) -> Option<(Remedy, Frameset)> {
    let mut better = frameset.clone();
    let remedy = match part.cause {
        Cause::Printed(figure) => {
            let step = frameset.sizes.iter().map(|s| frameset.step(s, figure)).fold(0.0, f64::max) / 10.0;
            let is_named = |label: &str| part.size.as_deref().is_none_or(|size| size == label);
            for size in better.sizes.iter_mut().filter(|s| is_named(&s.label)) {
                size.rounded_to.insert(figure, step);
            }
            Remedy::FinerStep(figure, step)
        }
        Cause::Assumed(Assumption::RearTyreRadius) if frameset.tyre.is_none() => {
            better.tyre = Some(nearest_tyre(adjusted)?);
            Remedy::TyreSize
        }
        Cause::Assumed(Assumption::LowerHeadset) => {
            publish(&mut better, adjusted, Figure::LowerHeadset, 1.0);
            Remedy::LowerHeadset
        }
        Cause::Assumed(Assumption::SeatTubeSetback) => {
            publish(&mut better, adjusted, Figure::SeatTubeSetback, 0.1);
            Remedy::SeatTubeSetback
        }
        Cause::Assumed(Assumption::TopTubeBelowHeadTubeTop) => measure(&mut better, adjusted, TubeJunction::TopTubeAtHeadTube),
        Cause::Assumed(Assumption::TopTubeBelowSeatTubeTop) => measure(&mut better, adjusted, TubeJunction::TopTubeAtSeatTube),
        Cause::Assumed(Assumption::DownTubeAboveHeadTubeBottom) => {
            measure(&mut better, adjusted, TubeJunction::DownTubeAtHeadTube)
        }
        Cause::Assumed(Assumption::RearTyreRadius | Assumption::FrontTyreRadius)
        | Cause::Junction(_)
        | Cause::SameTyres
        | Cause::Start(_)
        | Cause::Closure
        | Cause::Measured(_)
        | Cause::Slips => return None,
    };
    Some((remedy, better))
}

/// Publishes a figure in all sizes at its best estimate, to a step.
fn publish(frameset: &mut Frameset, adjusted: &Adjusted, figure: Figure, step: f64) {
    for (size, at) in frameset.sizes.iter_mut().zip(&adjusted.sizes) {
        size.figures.insert(figure, at.value(figure).value);
        size.rounded_to.insert(figure, step);
    }
}

/// States a junction in all sizes at its best estimate.
fn measure(frameset: &mut Frameset, adjusted: &Adjusted, junction: TubeJunction) -> Remedy {
    for (size, at) in frameset.sizes.iter_mut().zip(&adjusted.sizes) {
        let value = Some(at.state.get(junction.assumption().quantity()));
        match junction {
            TubeJunction::TopTubeAtHeadTube => size.junctions.top_tube_below_head_tube_top = value,
            TubeJunction::TopTubeAtSeatTube => size.junctions.top_tube_below_seat_tube_top = value,
            TubeJunction::DownTubeAtHeadTube => size.junctions.down_tube_above_head_tube_bottom = value,
        }
    }
    Remedy::Junction(junction)
}

/// The tyre on a 622 rim whose radius is nearest to the best estimate.
fn nearest_tyre(adjusted: &Adjusted) -> Option<TyreSize> {
    let radius = adjusted.sizes.first()?.value(Figure::RearTyreRadius).value;
    (20u32..100).filter_map(|w| TyreSize::new(w, 622).ok()).min_by(|a, b| {
        let gap = |t: &TyreSize| (t.radius_mm() - radius).abs();
        gap(a).total_cmp(&gap(b))
    })
}

/// What every known figure of a frame's chosen size would be without a published one: those that change by more than a
/// tenth of their u, or become unknown. Empty when the figure is not published, or ignored.
fn without(frame: &FrameFindings, figure: Figure) -> Vec<WithAndWithout> {
    if frame.size.of(&frame.frameset.sizes).is_none_or(|s| s.believed(figure).is_none()) {
        return Vec::new();
    }
    let mut trial = Frameset::clone(&frame.frameset);
    trial.ignore_figure(frame.size, figure, "tried");
    let trial = adjust(&trial);
    let (Some(before), Some(after)) = (frame.size.of(&frame.as_published.sizes), frame.size.of(&trial.sizes)) else {
        return Vec::new();
    };
    let changes = before.values().iter().zip(after.values()).filter(|(b, a)| {
        let is_moved = (b.value - a.value).abs() > CHANGES_ABOVE * b.u || (a.u - b.u).abs() > CHANGES_ABOVE * b.u;
        !b.is_missing && (is_moved || a.is_missing)
    });
    changes
        .map(|(b, a)| WithAndWithout { figure: b.figure, with: b.measured(), without: (!a.is_missing).then(|| a.measured()) })
        .collect()
}

/// The frame of one size that Check and its words are tried on.
#[cfg(test)]
pub(crate) mod test_frame {
    use super::Findings;
    use crate::frameset::read_frameset;
    use crate::lineup::Lineup;

    /// Its findings, with these facts of the frameset and these figures besides its own.
    pub(crate) fn findings(facts: &str, figures: &str) -> Findings {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Marrowby\", model: \"Drift\", printed_to: (mm: 1, deg: 0.1), {facts}
             sizes: [(label: \"M\", figures: {{Stack: 613, Reach: 390, HeadAngle: 70, SeatAngle: 73.5, HeadTube: 111, SeatTube: 445,
             ForkLengthAlong: 480, ForkOffset: 46, Chainstay: 445, BbDrop: 62, {figures}}})])"
        );
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
        Findings::of(&lineup)
    }
}

#[cfg(test)]
mod tests {
    use super::test_frame::findings;
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::Lineup;

    #[test]
    fn a_remedy_leaves_the_u_that_the_frameset_then_has() {
        let unknown = findings("", "Wheelbase: 1080");
        let budget = unknown.check(FrameIndex(0), Figure::Trail).unwrap().budget.unwrap();
        assert_eq!(budget.parts[0].source, UncertaintySource::UnknownTyre);
        assert!(budget.parts[0].share > 0.8);
        assert!((budget.parts.iter().map(|p| p.share).sum::<f64>() + budget.rest - 1.0).abs() < 1e-3);
        let Narrowing::By(Remedy::TyreSize, u) = budget.narrowing else { panic!("{:?}", budget.narrowing) };
        let stated = findings("tyre: \"50-622\",", "Wheelbase: 1080");
        let published = stated.frames[0].value(Figure::Trail).unwrap().u;
        assert!((u / published - 1.0).abs() < 0.02, "{u} and {published}");
        // With the tyre known, its radius is measured on the wheel.
        let budget = stated.check(FrameIndex(0), Figure::BbHeight).unwrap().budget.unwrap();
        assert_eq!((budget.parts[0].source, budget.narrowing), (UncertaintySource::TyreRadius, Narrowing::MeasuredWheel));
    }

    #[test]
    fn a_junction_and_a_coarse_angle_have_remedies_of_their_own() {
        let found = findings("tyre: \"50-622\", stated: [StraightSeatTube],", "Wheelbase: 1080");
        let narrowing = |figure| found.check(FrameIndex(0), figure).unwrap().budget.unwrap().narrowing;
        assert!(matches!(narrowing(Figure::TopTube), Narrowing::By(Remedy::Junction(_), _)), "{:?}", narrowing(Figure::TopTube));
        let Narrowing::By(remedy, u) = narrowing(Figure::SeatAngle) else { panic!("{:?}", narrowing(Figure::SeatAngle)) };
        assert_eq!((remedy, remedy.code()), (Remedy::FinerStep(Figure::SeatAngle, 0.01), "finer_step"));
        assert!(u < 0.1 * 0.1, "ten times finer: {u}");
    }

    #[test]
    fn without_a_figure_others_are_less_certain_or_unknown() {
        let found = findings("", "Wheelbase: 1080");
        let check = found.check(FrameIndex(0), Figure::Wheelbase).unwrap();
        assert!(check.without.iter().any(|c| c.figure == Figure::HeadAngle && c.without.is_some_and(|w| w.u > c.with.u)));
        assert!(found.check(FrameIndex(0), Figure::Trail).unwrap().without.is_empty(), "trail is not published");
        let check = found.check(FrameIndex(0), Figure::Chainstay).unwrap();
        assert!(check.budget.is_some() && check.needs.is_none());
        assert!(found.check(FrameIndex(1), Figure::Trail).is_none());
    }

    #[test]
    fn an_unknown_figure_names_what_it_needs() {
        let text = "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", sizes: [(label: \"M\", figures: {Stack: 613, Reach: 390})])";
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
        let check = Findings::of(&lineup).check(FrameIndex(0), Figure::Chainstay).unwrap();
        assert!(check.budget.is_none() && check.without.is_empty());
        assert_eq!(check.needs.unwrap().sets[0], [Figure::Chainstay]);
    }
}
