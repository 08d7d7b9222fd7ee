//! Steering figures against numbers that others printed: trail, mechanical trail and wheel flop factor.
//!
//! c = (R cos θ − o) / sin θ; mechanical trail R cos θ − o; wheel flop factor c sin θ cos θ. Angles in degrees from the
//! horizontal, lengths in millimetres. Each check names its source; rows marked "own" are made-up inputs computed
//! independently (in Python), and no published table of trails was found that could be read.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use spandrel::frameset::Figure;
use spandrel::geometry::{Jet, Quantity, Scalar, State, TopTubeShape, figure, trail, u_of_step};

/// A state in which only what steering needs is set.
fn state(radius: f64, offset: f64, head_angle: f64) -> State<f64> {
    let mut state = State::start();
    state.0[Quantity::FrontTyreRadius.index()] = radius;
    state.0[Quantity::ForkOffset.index()] = offset;
    state.0[Quantity::HeadAngle.index()] = head_angle;
    state
}

/// Trail, mechanical trail and flop factor as the library's figures.
fn steering(radius: f64, offset: f64, head_angle: f64) -> [f64; 3] {
    let state = state(radius, offset, head_angle);
    [Figure::Trail, Figure::MechanicalTrail, Figure::WheelFlop].map(|f| figure(f, &state, TopTubeShape::default()))
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected} ± {within}");
}

/// J. P. Meijaard, J. M. Papadopoulos, A. Ruina, A. L. Schwab, "Linearized dynamics equations for the balance and steer
/// of a bicycle: a benchmark and review", Proc. R. Soc. A 463 (2007) 1955–1982, Table 1: trail c = 0.08 m, steer axis
/// tilt π/10 (head angle 72°), front wheel radius 0.35 m. The offset follows from them by Moore's form below.
#[test]
fn the_benchmark_bicycle_has_its_trail() {
    let [trail, mechanical, flop] = steering(350.0, 32.0714267276193, 72.0);
    near(trail, 80.0, 1e-9);
    near(mechanical, 76.0845213036123, 1e-9);
    near(flop, 23.5114100916989, 1e-9);
}

/// J. K. Moore, *Human Control of a Bicycle*, PhD thesis, University of California Davis, 2012, chapter "Physical
/// Parameters": offset f_o = r_F cos λ − c sin λ. There and back again over the whole accepted range.
#[test]
fn offset_and_trail_turn_into_each_other() {
    for head_angle in [50.0, 60.0, 66.6, 71.37, 75.0, 89.0, 90.0_f64] {
        for offset in [-100.0, -20.0, 0.0, 44.3, 65.0, 150.0] {
            for radius in [150.0, 305.1, 340.0, 372.0] {
                let (sin, cos) = head_angle.to_radians().sin_cos();
                let back = radius * cos - trail(radius, offset, head_angle) * sin;
                near(back, offset, 1e-12 * radius);
            }
        }
    }
}

/// Moore 2012, table `physicalparameters/yellowBenchmark`, columns "Yellow" and "Yellowrev": one bicycle measured with
/// its fork forwards (λ 0.302 ± 0.003 rad, c 0.047 ± 0.002 m, r_F 0.3419 ± 0.0001 m) and backwards (λ 0.339 ± 0.003,
/// c 0.180 ± 0.002). The offsets of the two must be of one size and opposite sign.
#[test]
fn a_fork_turned_backwards_has_the_opposite_offset() {
    near(trail(341.9, 56.81847, 72.69667), 47.0, 0.001);
    near(trail(341.9, -56.05893, 70.57673), 180.0, 0.001);
    // Offset as a function of the measured three, its u by the library's exact derivatives and the printed ±.
    let offset = |tilt_rad: f64, trail_mm: f64| {
        let head_angle = <Jet>::variable(90.0 - tilt_rad.to_degrees(), 0);
        let (sin, cos) = head_angle.sin_cos_deg();
        let offset = Jet::variable(341.9, 1) * cos - Jet::variable(trail_mm, 2) * sin;
        let u = [0.003_f64.to_degrees(), 0.1, 2.0].iter().zip(&offset.gradient).map(|(u, g)| (u * g).powi(2)).sum::<f64>().sqrt();
        (offset.value, u)
    };
    let (forwards, u_forwards) = offset(0.302, 47.0);
    let (backwards, u_backwards) = offset(0.339, 180.0);
    near(forwards, 56.82, 0.01);
    near(backwards, -56.06, 0.01);
    near(u_forwards, 2.2, 0.05);
    near(u_backwards, 2.2, 0.05);
    assert!((forwards + backwards).abs() < 2.0 * u_forwards.hypot(u_backwards));
}

/// Own rows: R, o, θ → trail, mechanical trail, flop factor.
#[test]
fn worked_rows() {
    for (radius, offset, head_angle, expected) in [
        (340.0, 45.0, 73.0, [56.892303, 54.406380, 15.906886]),
        (336.0, 45.0, 73.0, [55.669380, 53.236893, 15.564961]),
        (349.0, 43.0, 73.0, [61.735262, 59.037725, 17.260960]),
        (339.0, 50.0, 71.5, [60.703198, 57.566279, 18.266048]),
        (368.0, 44.0, 67.0, [108.406876, 99.789055, 38.990690]),
        (334.0, 65.0, 72.0, [40.178134, 38.211676, 11.808057]),
    ] {
        for (found, expected) in steering(radius, offset, head_angle).into_iter().zip(expected) {
            near(found, expected, 1e-6);
        }
    }
}

/// Own: an upright axis has no trail but what the offset makes, and never any flop.
#[test]
fn an_upright_axis() {
    for value in steering(340.0, 0.0, 90.0) {
        near(value, 0.0, 1e-9);
    }
    let [trail, mechanical, flop] = steering(340.0, -20.0, 90.0);
    near(trail, 20.0, 1e-9);
    near(mechanical, 20.0, 1e-9);
    near(flop, 0.0, 1e-9);
}

/// Own: ∂c/∂R = cot θ, ∂c/∂o = −1 / sin θ, ∂c/∂θ = (−R + o cos θ) / sin² θ; the library's exact gradient against
/// these and against central differences.
#[test]
fn partial_derivatives() {
    let jet = figure(Figure::Trail, &state(340.0, 45.0, 73.0).jets(), TopTubeShape::default());
    let by = |q: Quantity| jet.gradient[q.index()];
    near(by(Quantity::FrontTyreRadius), 0.305731, 1e-6);
    near(by(Quantity::ForkOffset), -1.045692, 1e-6);
    near(by(Quantity::HeadAngle), -6.237697, 1e-6);
    let h = 1e-4;
    let difference =
        |r: f64, o: f64, a: f64| (trail(340.0 + r, 45.0 + o, 73.0 + a) - trail(340.0 - r, 45.0 - o, 73.0 - a)) / (2.0 * h);
    near(by(Quantity::FrontTyreRadius), difference(h, 0.0, 0.0), 1e-6);
    near(by(Quantity::ForkOffset), difference(0.0, h, 0.0), 1e-6);
    near(by(Quantity::HeadAngle), difference(0.0, 0.0, h), 1e-6);
    assert_eq!(jet.gradient.iter().filter(|g| **g != 0.0).count(), 3, "trail depends on nothing else");
}

/// Every figure's exact gradient against central differences, at an ordinary state with a setback.
#[test]
fn every_gradient_agrees_with_differences() {
    let mut state = state(356.0, 47.0, 71.3);
    state.0[Quantity::SeatTubeSetback.index()] = 23.0;
    let shape = TopTubeShape { radius_mm: 14.3, rise_midway_mm: 6.0 };
    for f in Figure::ALL {
        let exact = figure(*f, &state.jets(), shape);
        near(exact.value, figure(*f, &state, shape), 1e-9);
        for q in Quantity::ALL {
            let moved = |by: f64| {
                let mut moved = state;
                moved.0[q.index()] += by;
                figure(*f, &moved, shape)
            };
            let h = 1e-3;
            let difference = (moved(h) - moved(-h)) / (2.0 * h);
            let gradient = exact.gradient[q.index()];
            assert!((gradient - difference).abs() < 1e-6 * (1.0 + gradient.abs()), "{f:?} by {q:?}: {gradient} {difference}");
        }
    }
}

/// The rule of JCGM 100:2008 (GUM) 4.3.7 for rectangular distributions (clause number from memory), on own inputs:
/// R ± 2 mm, o ± 0.5 mm, θ ± 0.05° contribute 0.353027, 0.301865 and 0.180067 mm.
#[test]
fn the_rounding_budget_of_trail() {
    let jet = figure(Figure::Trail, &state(340.0, 45.0, 73.0).jets(), TopTubeShape::default());
    // ± a is a step of 2a.
    let contribution = |q: Quantity, half_width: f64| (jet.gradient[q.index()] * u_of_step(2.0 * half_width)).abs();
    let parts = [
        contribution(Quantity::FrontTyreRadius, 2.0),
        contribution(Quantity::ForkOffset, 0.5),
        contribution(Quantity::HeadAngle, 0.05),
    ];
    for (found, expected) in parts.iter().zip([0.353027, 0.301865, 0.180067]) {
        near(*found, expected, 1e-6);
    }
    near(parts.iter().map(|p| p * p).sum::<f64>().sqrt(), 0.498172, 1e-6);
}

/// How far the lowest point of a knife-edge wheel rises towards the frame when it is steered by δ, from the circle
/// itself: its plane is spanned by the steering axis and the direction ahead of it, turned by δ about the axis.
fn drop(radius: f64, offset: f64, head_angle: f64, steer_deg: f64) -> f64 {
    let (sin, cos) = head_angle.to_radians().sin_cos();
    let lowest = |steer: f64| {
        let ahead_y = cos * steer.to_radians().cos();
        offset * ahead_y - radius * (sin * sin + ahead_y * ahead_y).sqrt()
    };
    lowest(steer_deg) - lowest(0.0)
}

/// Own, computed with a turned circle: the flop figure f is a factor, not millimetres that the front drops; the drop is
/// about f δ² / 2. That is why it is labelled a factor.
#[test]
fn flop_is_a_factor_and_not_a_drop() {
    let [_, _, flop] = steering(340.0, 45.0, 73.0);
    for (degrees, exact, by_factor, within) in
        [(1.0_f64, 0.00242239, 0.00242276, 2e-4), (5.0, 0.0603380, 0.0605689, 4e-3), (10.0, 0.238590, 0.242276, 2e-2)]
    {
        let exactly = drop(340.0, 45.0, 73.0, degrees);
        let approximately = 0.5 * flop * degrees.to_radians().powi(2);
        near(exactly, exact, 1e-6);
        near(approximately, by_factor, 1e-6);
        assert!((approximately / exactly - 1.0).abs() < within, "{degrees}°: {approximately} {exactly}");
    }
    assert!(Figure::WheelFlop.label().contains("factor") && Figure::WheelFlop.meaning().contains("not a drop"));
}
