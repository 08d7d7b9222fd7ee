//! Geometry tables as makers publish them, of framesets that are designed regularly: sizes step evenly or stay, angles,
//! chainstays and drops are alike over several sizes, junctions lie alike. Then something is made wrong with them.

use super::{Dice, TOP_TUBE, USUAL};
use spandrel::frameset::{Figure, Frameset, read_frameset};
use spandrel::geometry::{Quantity as Q, State, closure, figure};

/// What is wrong with a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Wrong {
    Nothing,
    /// One figure of one size, by so much up or down.
    Cell(Figure, f64),
    /// The next size's value stands in a cell.
    Neighbour(Figure),
    /// Head and seat angle of one size are exchanged.
    Angles,
    /// Two neighbouring sizes' whole columns are exchanged.
    Columns,
    /// Chainstays are measured horizontally.
    Horizontal,
    /// Head tubes are measured with the cups.
    Cups,
    /// Fork lengths are measured straight from axle to crown; the table does not say how.
    StraightFork,
    /// A figure is off by so much in all sizes.
    Row(Figure, f64),
}

/// Where it is wrong: the figures, and the size if it is one.
#[derive(Debug, PartialEq)]
pub(crate) struct Where {
    pub(crate) figures: Vec<Figure>,
    pub(crate) size: Option<usize>,
}

/// What a maker prints, of what kind of frame.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kind<'a> {
    pub(crate) printed: &'a [Figure],
    /// A long fork with travel, a low bottom bracket.
    pub(crate) has_suspension: bool,
    /// A seat tube that is curved or set back.
    pub(crate) has_curved_seat_tube: bool,
    /// A smaller wheel behind than in front.
    pub(crate) has_two_tyres: bool,
}

impl<'a> Kind<'a> {
    pub(crate) const fn rigid(printed: &'a [Figure]) -> Self {
        Self { printed, has_suspension: false, has_curved_seat_tube: false, has_two_tyres: false }
    }
}

/// The dozen of rigid frames.
pub(crate) const RIGID: Kind = Kind::rigid(&USUAL);

/// A table with its truth.
pub(crate) struct MadeUpTable {
    pub(crate) frameset: Frameset,
    pub(crate) truth: Vec<State<f64>>,
    pub(crate) wrong: Option<Where>,
    /// The other size of an exchange.
    pub(crate) other_size: Option<usize>,
}

fn states(
    dice: &mut Dice,
    count: usize,
    kind: &Kind,
    (lower, lower_u): (f64, f64),
    radius: f64,
    front: Option<f64>,
) -> Vec<State<f64>> {
    let lower = dice.normal(lower, lower_u).max(0.0);
    let radius = dice.normal(radius, 2.0);
    let (fork, offset) = (dice.between(375.0, 500.0), dice.between(40.0, 60.0));
    let fork = if kind.has_suspension { fork.mul_add(0.3, 400.0) } else { fork };
    let front = front.map(|front| dice.normal(front, 2.0));
    let setback = if kind.has_curved_seat_tube { dice.between(-30.0, 60.0) } else { 0.0 };
    let (stack, reach) = (dice.between(540.0, 600.0), dice.between(350.0, 390.0));
    let (stack_step, reach_step) = (dice.between(14.0, 24.0), dice.between(7.0, 13.0));
    let (head, head_step) = (dice.between(68.0, 72.0), dice.one_of(&[0.0, 0.25, 0.5]));
    let (seat, seat_step) = (dice.between(73.0, 75.0), dice.one_of(&[0.0, 0.25, 0.5]));
    let (chainstay, drop) = (dice.between(425.0, 460.0), dice.between(50.0, 78.0));
    let from = |dice: &mut Dice| if dice.chance(25) { 1 + dice.below(4) } else { usize::MAX };
    let (longer_from, higher_from) = (from(dice), from(dice));
    let seat_tube_step = dice.between(25.0, 45.0);
    let junctions = [dice.normal(30.0, 8.0), dice.normal(35.0, 15.0), dice.normal(40.0, 8.0)];
    (0..count)
        .map(|i| {
            let k = i as f64;
            let mut state = State::start();
            let mut set = |q: Q, value: f64| state.0[q.index()] = value;
            set(Q::Stack, stack + k * stack_step + dice.normal(0.0, 2.0));
            set(Q::Reach, reach + k * reach_step + dice.normal(0.0, 1.0));
            set(Q::HeadAngle, head + k.min(3.0) * head_step);
            set(Q::SeatAngle, seat - k.min(3.0) * seat_step);
            set(Q::SeatTube, 420.0 + k * seat_tube_step + dice.normal(0.0, 3.0));
            set(Q::SeatTubeSetback, setback + dice.normal(0.0, 0.5));
            set(Q::AxleToCrown, fork);
            set(Q::ForkOffset, offset);
            set(Q::Chainstay, if i < longer_from { chainstay } else { chainstay + 5.0 });
            set(Q::BbDrop, if i < higher_from { drop } else { drop - 5.0 });
            set(Q::TopTubeBelowHeadTubeTop, junctions[0] + dice.normal(0.0, 3.0));
            set(Q::TopTubeBelowSeatTubeTop, junctions[1] + dice.normal(0.0, 3.0));
            set(Q::DownTubeAboveHeadTubeBottom, junctions[2] + dice.normal(0.0, 3.0));
            set(Q::LowerHeadset, lower);
            set(Q::RearTyreRadius, radius);
            set(Q::FrontTyreRadius, front.unwrap_or(radius));
            for _ in 0..60 {
                state.0[Q::HeadTube.index()] += closure(&state) / state.get(Q::HeadAngle).to_radians().sin();
            }
            state
        })
        .collect()
}

/// A table of `count` sizes with something wrong, printed to 1 mm and 0.5°.
pub(crate) fn table(seed: u64, count: usize, printed: &[Figure], wrong: Wrong) -> MadeUpTable {
    table_of(seed, count, &Kind::rigid(printed), wrong)
}

/// The same, of a kind of frame.
pub(crate) fn table_of(seed: u64, count: usize, kind: &Kind, wrong: Wrong) -> MadeUpTable {
    let mut dice = Dice::new(seed.wrapping_mul(7919) + 17);
    let mut refused = 0;
    let (mut frameset, truth) = loop {
        refused += 1;
        assert!(refused < 1000, "no made-up table reads");
        // Cups are told from the rest only where they stand out of the head tube.
        let fits = [("EC44/40", (12.0, 3.0)), ("EC34/30", (12.0, 3.0)), ("ZS44/30", (1.5, 1.5))];
        let (fit, lower) = if wrong == Wrong::Cups { fits[0] } else { dice.one_of(&fits) };
        let (tyre, radius) = dice.one_of(&[("47-622", 358.0), ("57-622", 368.0), ("50-584", 342.0), ("40-622", 351.0)]);
        let front = if kind.has_two_tyres { Some(("57-622", 368.0)) } else { None };
        let (tyre, radius) = if kind.has_two_tyres { ("57-584", 349.0) } else { (tyre, radius) };
        let truth = states(&mut dice, count, kind, lower, radius, front.map(|(_, radius)| radius));
        // Where along the tube standover is taken: alike in all sizes.
        let standover_off = if kind.printed.contains(&Figure::Standover) { dice.normal(0.0, 5.0) } else { 0.0 };
        let mut sizes = String::new();
        for (i, state) in truth.iter().enumerate() {
            let mut figures = String::new();
            for f in kind.printed {
                let as_measured = match (wrong, f) {
                    (Wrong::Horizontal, Figure::Chainstay) => Figure::ChainstayHorizontal,
                    (Wrong::StraightFork, Figure::AxleToCrown) => Figure::AxleToCrownDirect,
                    _ => *f,
                };
                let step = if f.is_angle() { 0.5 } else { 1.0 };
                let off = if *f == Figure::Standover { standover_off } else { 0.0 };
                let value = ((figure(as_measured, state, TOP_TUBE) + off) / step).round() * step;
                figures.push_str(&format!("{}: {value:.6}, ", f.about().name));
            }
            sizes.push_str(&format!("(label: \"{i}\", figures: {{{figures}}}), "));
        }
        let front = front.map_or(String::new(), |(tyre, _)| format!("front_tyre: \"{tyre}\", "));
        let text = format!(
            "#![enable(implicit_some)]
Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", rounded_to: (mm: 1.0, deg: 0.5), tyre: \"{tyre}\", {front}
             standards: {{LowerHeadset: \"{fit}\"}}, sizes: [{sizes}])"
        );
        if let Ok(frameset) = read_frameset(text.as_bytes()) {
            break (frameset, truth);
        }
    };
    let size = dice.below(count);
    let up = if dice.chance(50) { 1.0 } else { -1.0 };
    let other = if size + 1 < count { size + 1 } else { size.saturating_sub(1) };
    let other_size = matches!(wrong, Wrong::Columns).then_some(other);
    let cells = &mut frameset.sizes;
    let one = |figures: &[Figure]| Some(Where { figures: figures.to_vec(), size: Some(size) });
    let row = |figure: Figure| Some(Where { figures: vec![figure], size: None });
    let wrong = match wrong {
        Wrong::Nothing => None,
        Wrong::Cell(f, by) => {
            let value = cells[size].figures.get_mut(&f).unwrap();
            let range = f.about().low..=f.about().high;
            *value += if range.contains(&(*value + up * by)) { up * by } else { -up * by };
            one(&[f])
        }
        Wrong::Neighbour(f) => {
            let value = cells[other].figures[&f];
            cells[size].figures.insert(f, value);
            one(&[f])
        }
        Wrong::Angles => {
            let figures = &mut cells[size].figures;
            let (head, seat) = (figures[&Figure::HeadAngle], figures[&Figure::SeatAngle]);
            figures.insert(Figure::HeadAngle, seat);
            figures.insert(Figure::SeatAngle, head);
            one(&[Figure::HeadAngle, Figure::SeatAngle])
        }
        Wrong::Columns => {
            let (a, b) = (cells[size].figures.clone(), cells[other].figures.clone());
            cells[size].figures = b;
            cells[other].figures = a;
            Some(Where { figures: kind.printed.to_vec(), size: Some(size) })
        }
        Wrong::Horizontal => row(Figure::Chainstay),
        Wrong::StraightFork => row(Figure::AxleToCrown),
        Wrong::Cups => {
            for (size, state) in cells.iter_mut().zip(&truth) {
                *size.figures.get_mut(&Figure::HeadTube).unwrap() += (state.get(Q::LowerHeadset) + 13.0).round();
            }
            row(Figure::HeadTube)
        }
        Wrong::Row(f, by) => {
            for size in cells.iter_mut() {
                *size.figures.get_mut(&f).unwrap() += by;
            }
            row(f)
        }
    };
    MadeUpTable { frameset, truth, wrong, other_size }
}
