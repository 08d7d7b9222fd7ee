//! Propagation of uncertainty, least squares and the test for suspects against worked examples that others printed and
//! against adjustments done by hand.
//!
//! JCGM 100:2008, *Guide to the expression of uncertainty in measurement* (GUM), annex H.2 (resistance and reactance
//! from simultaneous readings) and H.3 (calibration of a thermometer): clause numbers, readings and printed results from
//! memory, every one reproduced by independent computation. W. Baarda, *A testing procedure for use in geodetic
//! networks*, Netherlands Geodetic Commission, 1968: citation from memory, critical values from normal quantiles.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use spandrel::frameset::read_frameset;
use spandrel::geometry::least_squares::{Covariance, LeftOut, Options, Problem, Row, Solution, Unknowns, solve};
use spandrel::geometry::{Jet, Scalar, State, adjust, u_of_step};
use spandrel::units::two_sided;
use spandrel::units::{AnyKind, Measured};

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected} ± {within}");
}

/// JCGM 100:2008, 4.3.7 and F.2.2.1: a rectangular distribution of half-width a has u = a / √3, a digital step δx has
/// u = 0.29 δx.
#[test]
fn a_printed_step_is_a_rectangular_distribution() {
    near(u_of_step(1.0), 0.288675, 1e-6);
    near(u_of_step(1.0), 0.5 / 3f64.sqrt(), 1e-15);
    near(u_of_step(0.1), 0.0288675, 1e-7);
    // And so it is in an adjusted frame: a figure that nothing else reaches keeps the u of its step.
    let text = "Frameset(format: 1, maker: \"\", model: \"\", printed_to: (mm: 5, deg: 1), sizes: [(label: \"M\", figures: {HeadAngle: 71, SeatTube: 500})])";
    let adjusted = adjust(&read_frameset(text.as_bytes()).unwrap());
    let value = |f| adjusted.sizes[0].value(f);
    near(value(spandrel::frameset::Figure::HeadAngle).u, u_of_step(1.0), 1e-3);
    near(value(spandrel::frameset::Figure::SeatTube).u, u_of_step(5.0), 1e-4);
}

/// Means, standard uncertainties of the means and their covariances from simultaneous readings (GUM 5.2.3).
fn means_and_covariance(readings: [[f64; 5]; 3]) -> ([f64; 3], [[f64; 3]; 3]) {
    let means = readings.map(|r| r.iter().sum::<f64>() / 5.0);
    let mut covariance = [[0.0; 3]; 3];
    for i in 0..3 {
        for j in 0..3 {
            covariance[i][j] =
                (0..5).map(|k| (readings[i][k] - means[i]) * (readings[j][k] - means[j])).sum::<f64>() / (5.0 * 4.0);
        }
    }
    (means, covariance)
}

/// GUM H.2: R = V cos φ / I, X = V sin φ / I, Z = V / I, all three correlated, by the library's exact derivatives and
/// its propagation. The means and covariances stand in the places of the first three quantities of a frame's state; the
/// formulas are the example's.
#[test]
fn gum_h2_resistance_and_reactance() {
    let ([v, i, phi], c) = means_and_covariance([
        [5.007, 4.994, 5.005, 4.990, 4.999],
        [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3],
        [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
    ]);
    // GUM Table H.2, as rounded there.
    near(v, 4.9990, 5e-5);
    near(i, 19.6610e-3, 5e-8);
    near(phi, 1.04446, 5e-6);
    for (k, u) in [0.0032, 0.0095e-3, 0.00075].into_iter().enumerate() {
        near(c[k][k].sqrt(), u, 0.01 * u);
    }
    let r = |a: usize, b: usize| c[a][b] / (c[a][a] * c[b][b]).sqrt();
    near(r(0, 1), -0.36, 0.005);
    near(r(0, 2), 0.86, 0.005);
    near(r(1, 2), -0.65, 0.006);

    let text = "Frameset(format: 1, maker: \"\", model: \"\", sizes: [(label: \"M\", figures: {Stack: 600})])";
    let mut carrier = adjust(&read_frameset(text.as_bytes()).unwrap()).sizes.remove(0);
    let per_degree = std::f64::consts::PI / 180.0;
    let scale = [1.0, 1.0, 1.0 / per_degree];
    carrier.covariance = Default::default();
    for a in 0..3 {
        carrier.state.0[a] = [v, i, phi][a] * scale[a];
        for b in 0..3 {
            carrier.covariance[a][b] = c[a][b] * scale[a] * scale[b];
        }
    }
    let resistance = |s: &State<Jet>| s.0[0] * s.0[2].sin_cos_deg().1 / s.0[1];
    let reactance = |s: &State<Jet>| s.0[0] * s.0[2].sin_cos_deg().0 / s.0[1];
    let impedance = |s: &State<Jet>| s.0[0] / s.0[1];
    let relative = 1e-5;
    let mut with_sign = Vec::new();
    let results: [(Measured<AnyKind>, f64, f64); 3] = [
        (carrier.propagate(resistance), 127.732170, 0.07107141),
        (carrier.propagate(reactance), 219.846512, 0.29558168),
        (carrier.propagate(impedance), 254.259702, 0.23633613),
    ];
    for (jet, value, u) in results {
        near(jet.value, value, relative * value);
        near(jet.u, u, relative * u);
        with_sign.push(jet.u);
    }
    // The GUM prints R 127.732 (0.071), X 219.847 (0.295), Z 254.260 (0.236).
    // Covariances of results: u²(a + b) = u²(a) + u²(b) + 2 u(a, b).
    let correlation = |sum: Measured<AnyKind>, a: f64, b: f64| (sum.u * sum.u - a * a - b * b) / (2.0 * a * b);
    near(correlation(carrier.propagate(|s| resistance(s) + reactance(s)), with_sign[0], with_sign[1]), -0.588430, 1e-5);
    near(correlation(carrier.propagate(|s| resistance(s) + impedance(s)), with_sign[0], with_sign[2]), -0.485259, 1e-5);
    near(correlation(carrier.propagate(|s| reactance(s) + impedance(s)), with_sign[1], with_sign[2]), 0.992512, 1e-5);
    // Leaving the correlations out gives 0.1945, 0.2009 and 0.2041: far enough away for this test to see it.
    for a in 0..3 {
        for b in 0..3 {
            if a != b {
                carrier.covariance[a][b] = 0.0;
            }
        }
    }
    near(carrier.propagate::<AnyKind>(resistance).u, 0.1945, 1e-4);
    near(carrier.propagate::<AnyKind>(reactance).u, 0.2009, 1e-4);
    near(carrier.propagate::<AnyKind>(impedance).u, 0.2041, 1e-4);
}

/// A linear problem: each observation's factors, value and σ. The last `S` unknowns are shared by all blocks.
struct Linear<const L: usize, const S: usize> {
    blocks: Vec<Vec<([f64; L], [f64; S], f64, f64)>>,
}

impl<const L: usize, const S: usize> Problem<L, S> for Linear<L, S> {
    fn blocks(&self) -> usize {
        self.blocks.len()
    }

    fn rows(&self, block: usize, local: &[f64; L], shared: &[f64; S], into: &mut Vec<Row<L, S>>) {
        for (by_local, by_shared, value, sigma) in &self.blocks[block] {
            let computed: f64 = by_local.iter().zip(local).map(|(a, x)| a * x).sum::<f64>()
                + by_shared.iter().zip(shared).map(|(a, x)| a * x).sum::<f64>();
            into.push(Row {
                residual: (value - computed) / sigma,
                local: by_local.map(|a| a / sigma),
                shared: by_shared.map(|a| a / sigma),
            });
        }
    }

    fn shared_rows(&self, _shared: &[f64; S], _into: &mut Vec<Row<L, S>>) {}
}

/// Solves a linear problem of one block.
fn solved<const L: usize, const S: usize>(problem: &Linear<L, S>) -> (Solution<L, S>, Covariance<L, S>) {
    let options = Options { damping: 1e-9, tolerance: 1e-9, max_evaluations: 100 };
    let start = Unknowns { locals: vec![[0.0; L]; problem.blocks.len()], shared: [0.0; S] };
    let solution = solve(problem, start, options);
    assert!(solution.converged);
    let covariance = Covariance::of(problem, &solution.at).unwrap();
    (solution, covariance)
}

/// The test of every observation of the first block against all others.
fn left_out<const L: usize, const S: usize>(problem: &Linear<L, S>) -> Vec<LeftOut> {
    let (solution, covariance) = solved(problem);
    let mut rows = Vec::new();
    problem.rows(0, &solution.at.locals[0], &solution.at.shared, &mut rows);
    rows.iter().map(|row| LeftOut::of(row.residual, covariance.leverage(0, row))).collect()
}

/// GUM H.3: b = y₁ + y₂ (t − 20) through eleven readings of a thermometer, unweighted.
#[test]
fn gum_h3_calibration_line() {
    let readings = [
        (21.521, -0.171),
        (22.012, -0.169),
        (22.512, -0.166),
        (23.003, -0.159),
        (23.507, -0.164),
        (23.999, -0.165),
        (24.513, -0.156),
        (25.002, -0.157),
        (25.503, -0.159),
        (26.010, -0.161),
        (26.511, -0.160),
    ];
    let problem = Linear { blocks: vec![readings.iter().map(|(t, b)| ([1.0, t - 20.0], [], *b, 1.0)).collect()] };
    let (solution, covariance) = solved(&problem);
    let [y1, y2] = solution.at.locals[0];
    let variance = solution.chi_squared / 9.0;
    let c = covariance.blocks[0].local.map(|row| row.map(|c| c * variance));
    near(y1, -0.17120379, 1e-7);
    near(c[0][0].sqrt(), 0.00287760, 1e-7);
    near(y2, 0.00218270, 1e-7);
    near(c[1][1].sqrt(), 0.00066794, 1e-7);
    near(c[0][1] / (c[0][0] * c[1][1]).sqrt(), -0.93042960, 1e-7);
    near(variance.sqrt(), 0.00349756, 1e-7);
    // The correction at 30 °C.
    near(y1 + 10.0 * y2, -0.14937681, 1e-7);
    near((c[0][0] + 100.0 * c[1][1] + 20.0 * c[0][1]).sqrt(), 0.00413860, 1e-7);
}

/// l = x₁, x₂, x₁ + x₂ (and x₁ − x₂), the second unknown local or shared.
fn two_unknowns(observations: &[(f64, f64)]) -> (Linear<2, 0>, Linear<1, 1>) {
    let factors = [[1.0, 0.0], [0.0, 1.0], [1.0, 1.0], [1.0, -1.0]];
    let dense = observations.iter().zip(factors).map(|((l, sigma), f)| (f, [], *l, *sigma)).collect();
    let arrow = observations.iter().zip(factors).map(|((l, sigma), f)| ([f[0]], [f[1]], *l, *sigma)).collect();
    (Linear { blocks: vec![dense] }, Linear { blocks: vec![arrow] })
}

/// What a hand adjustment came to.
struct ByHand<'a> {
    unknowns: [f64; 2],
    u: [f64; 2],
    covariance: f64,
    redundancy: &'a [f64],
    w: &'a [f64],
    chi_squared: f64,
    within: f64,
}

/// The dense problem and the same with one unknown shared must both come to what the hand came to.
#[track_caller]
fn check(observations: &[(f64, f64)], by_hand: &ByHand) {
    let (dense, arrow) = two_unknowns(observations);
    let (solution, covariance) = solved(&dense);
    let c = &covariance.blocks[0].local;
    for i in 0..2 {
        near(solution.at.locals[0][i], by_hand.unknowns[i], by_hand.within);
        near(c[i][i].sqrt(), by_hand.u[i], by_hand.within);
    }
    near(c[0][1], by_hand.covariance, by_hand.within);
    near(solution.chi_squared, by_hand.chi_squared, by_hand.within);
    let (again, its) = solved(&arrow);
    near(again.at.locals[0][0], by_hand.unknowns[0], by_hand.within);
    near(again.at.shared[0], by_hand.unknowns[1], by_hand.within);
    near(its.blocks[0].local[0][0].sqrt(), by_hand.u[0], by_hand.within);
    near(its.shared[0][0].sqrt(), by_hand.u[1], by_hand.within);
    near(its.blocks[0].cross[0][0], by_hand.covariance, by_hand.within);
    for tests in [left_out(&dense), left_out(&arrow)] {
        for ((test, redundancy), w) in tests.iter().zip(by_hand.redundancy).zip(by_hand.w) {
            near(test.redundancy, *redundancy, by_hand.within);
            near(test.w(), *w, by_hand.within);
            near(test.gap() / test.u_of_gap(), *w, by_hand.within);
        }
        let total: f64 = tests.iter().map(|t| t.redundancy).sum();
        near(total, observations.len() as f64 - 2.0, 1e-12);
    }
}

/// Own, by hand: 10.0, 20.0, 30.3, all σ 0.1. One redundant observation: a contradiction is seen and cannot be located,
/// so all three have the same |w|, also when it is large.
#[test]
fn hand_adjustment_1() {
    let third = 1.0 / 3.0;
    let w = 3f64.sqrt();
    // v = adjusted − observed in the usual sign; w here has the sign of observed − predicted.
    check(
        &[(10.0, 0.1), (20.0, 0.1), (30.3, 0.1)],
        &ByHand {
            unknowns: [10.1, 20.1],
            u: [0.02f64.sqrt() / 3f64.sqrt(); 2],
            covariance: -0.01 / 3.0,
            redundancy: &[third; 3],
            w: &[-w, -w, w],
            chi_squared: 3.0,
            within: 1e-9,
        },
    );
    near(0.02f64.sqrt() / 3f64.sqrt(), 0.0816497, 1e-7);
    near(w, 1.7320508, 1e-7);
    let (large, _) = two_unknowns(&[(10.0, 0.1), (20.0, 0.1), (30.9, 0.1)]);
    for test in left_out(&large) {
        near(test.w().abs(), 5.1961524, 1e-7);
        near((test.residual * 0.1).abs(), 0.3, 1e-9);
        assert!(test.w().abs() > two_sided(0.001));
    }
}

/// Own, by hand: 400, 300, 700.4, 100.2 of x₁, x₂, x₁ + x₂, x₁ − x₂, σ 0.5; then with a blunder in the third.
#[test]
fn hand_adjustment_2() {
    let redundancy = [2.0 / 3.0, 2.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0];
    let u = 0.25f64.sqrt() / 3f64.sqrt();
    let by_hand = ByHand {
        unknowns: [400.2, 300.0 + 0.2 / 3.0],
        u: [u, u],
        covariance: 0.0,
        redundancy: &redundancy,
        w: &[-0.4898979486, -0.1632993162, 0.4618802154, 0.2309401077],
        chi_squared: 0.8 / 3.0,
        within: 1e-9,
    };
    near(u, 0.2886751, 1e-7);
    check(&[(400.0, 0.5), (300.0, 0.5), (700.4, 0.5), (100.2, 0.5)], &by_hand);
    let (blunder, _) = two_unknowns(&[(400.0, 0.5), (300.0, 0.5), (704.0, 0.5), (100.2, 0.5)]);
    let w: Vec<f64> = left_out(&blunder).iter().map(|t| t.w()).collect();
    for (found, expected) in w.iter().zip([3.4293, 3.1027, 4.6188, 0.2309]) {
        near(found.abs(), expected, 5e-5);
    }
    // The largest |w| names the third; only the first and the third exceed Baarda's 3.29.
    let accused: Vec<usize> = (0..4).filter(|i| w[*i].abs() > two_sided(0.001)).collect();
    assert_eq!(accused, [0, 2]);
    assert!((0..4).all(|i| w[2].abs() >= w[i].abs()));
}

/// Own, by hand: the same four with σ 0.5, 1, 0.25, 0.5.
#[test]
fn hand_adjustment_3() {
    let redundancy = [0.7666666667, 0.9333333333, 0.0666666667, 0.2333333333];
    let residuals_in_sigma: [f64; 4] = [-0.2333333333 / 0.5, -0.1333333333, 0.0333333333 / 0.25, 0.1 / 0.5];
    let w: Vec<f64> = residuals_in_sigma.iter().zip(redundancy).map(|(v, r)| v / f64::sqrt(r)).collect();
    check(
        &[(400.0, 0.5), (300.0, 1.0), (700.4, 0.25), (100.2, 0.5)],
        &ByHand {
            unknowns: [400.0 + 0.7 / 3.0, 300.0 + 0.4 / 3.0],
            u: [0.2415229458, 0.2581988897],
            covariance: -0.1 / 3.0,
            redundancy: &redundancy,
            w: &w,
            chi_squared: 0.2933333333,
            within: 1e-9,
        },
    );
}

/// What an observation left out is predicted to be, by solving again without it: a linear problem must agree to the
/// last digits.
#[test]
fn leaving_out_is_solving_without() {
    let observations = [(400.0, 0.5), (300.0, 1.0), (704.0, 0.25), (100.2, 0.5)];
    let (all, _) = two_unknowns(&observations);
    let tests = left_out(&all);
    for i in 0..4 {
        let without =
            Linear { blocks: vec![all.blocks[0].iter().enumerate().filter(|(k, _)| *k != i).map(|(_, o)| *o).collect()] };
        let (solution, covariance) = solved(&without);
        let (factors, _, value, sigma) = all.blocks[0][i];
        let predicted: f64 = factors.iter().zip(&solution.at.locals[0]).map(|(a, x)| a * x).sum();
        let row = Row { residual: 0.0, local: factors, shared: [] };
        let u = (sigma * sigma + covariance.leverage(0, &row)).sqrt();
        near(sigma * tests[i].gap(), value - predicted, 1e-9);
        near(sigma * tests[i].u_of_gap(), u, 1e-9);
    }
}

/// Own, by hand: 10.0 (σ 0.1) and 10.3 (σ 0.2) have the weighted mean 10.06, u 0.0894427.
#[test]
fn weighted_mean() {
    let problem = Linear { blocks: vec![vec![([1.0], [], 10.0, 0.1), ([1.0], [], 10.3, 0.2)]] };
    let (solution, covariance) = solved(&problem);
    near(solution.at.locals[0][0], 10.06, 1e-9);
    near(covariance.blocks[0].local[0][0].sqrt(), 0.0894427191, 1e-9);
    // The same mean shared by two blocks that hold one observation and one nuisance unknown each.
    let blocks = [(10.0, 0.1), (10.3, 0.2)].map(|(l, sigma)| vec![([0.0], [1.0], l, sigma), ([1.0], [0.0], 5.0, 1.0)]);
    let (solution, covariance) = solved(&Linear { blocks: blocks.to_vec() });
    near(solution.at.shared[0], 10.06, 1e-9);
    near(covariance.shared[0][0].sqrt(), 0.0894427191, 1e-9);
}

/// Baarda's critical values as tabulated: 3.29 for 0.1 % two-sided, and δ₀ = 4.13 with a power of 80 %.
#[test]
fn baardas_critical_values() {
    for (alpha, z) in [(0.001, 3.2905), (0.05, 1.9600), (0.01, 2.5758)] {
        near(two_sided(alpha), z, 1e-4);
    }
    // The one-sided 80 % is the two-sided 40 %.
    let delta = two_sided(0.001) + two_sided(0.4);
    near(delta, 4.1321, 1e-4);
    near(delta * delta, 17.0746, 1e-3);
}
