//! The evidence for a set of hypotheses: the mean-shift outlier model with its Bayes factor (Box & Tiao 1968,
//! *Biometrika* 55, 119–129). One free hypothesis alone gives Baarda's w as b/√G.

/// Most hypotheses of a set.
pub const MOST: usize = 3;

/// One hypothesis of a set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// aᵀ R v.
    pub b: f64,
    /// Expected magnitude: 1 for a fixed hypothesis, 0 for an error of unknown sign.
    pub mean: f64,
    /// Standard deviation of the magnitude; `None` where it is fixed.
    pub tau: Option<f64>,
    /// ln(p / (1 − p)).
    pub ln_odds: f64,
}

/// The log odds of a set against the empty one, and the magnitudes that it gives its hypotheses. With m the means and F
/// the free ones:
///
/// Σ ln(p/(1−p)) + mᵀb − ½ mᵀGm + ½ cᵀ(`G_FF` + P)⁻¹c − ½ ln det(`G_FF` + P) − `Σ_F` ln τ,
///
/// where c = (b − Gm) over F and P = diag(1/τ²). `g(i, j)` is aᵢᵀ R aⱼ. `None` for more than [`MOST`] hypotheses, and where
/// two of them are one.
#[must_use]
pub fn ln_odds(terms: &[Term], g: impl Fn(usize, usize) -> f64) -> Option<(f64, [f64; MOST])> {
    let n = terms.len();
    if n > MOST {
        return None;
    }
    let mut ln = terms.iter().map(|t| t.ln_odds).sum::<f64>();
    let mut magnitude = [0.0; MOST];
    let mut after = [0.0; MOST];
    for i in 0..n {
        magnitude[i] = terms[i].mean;
        let explained: f64 = (0..n).filter(|j| terms[*j].mean != 0.0).map(|j| g(i, j) * terms[j].mean).sum();
        after[i] = terms[i].b - explained;
        ln += terms[i].mean * (terms[i].b - 0.5 * explained);
    }
    // Cholesky of G + P over the free ones.
    let mut free = [(0, 0.0); MOST];
    let mut count = 0;
    for (i, tau) in terms.iter().enumerate().filter_map(|(i, t)| Some((i, t.tau?))) {
        free[count] = (i, tau);
        count += 1;
    }
    let free = &free[..count];
    let mut lower = [[0.0; MOST]; MOST];
    let mut half = [0.0; MOST];
    // Of (G_FF + P) times the variances: its logarithm is taken once.
    let mut determinant = 1.0;
    for (row, (i, tau)) in free.iter().enumerate() {
        for column in 0..=row {
            let (j, _) = free[column];
            let known: f64 = (0..column).map(|k| lower[row][k] * lower[column][k]).sum();
            let value = g(*i, j) + if row == column { 1.0 / (tau * tau) } else { 0.0 } - known;
            if row == column {
                if value <= 1e-12 * g(*i, *i) {
                    return None;
                }
                lower[row][row] = value.sqrt();
                determinant *= value * tau * tau;
            } else {
                lower[row][column] = value / lower[column][column];
            }
        }
        let known: f64 = (0..row).map(|k| lower[row][k] * half[k]).sum();
        half[row] = (after[*i] - known) / lower[row][row];
        ln += 0.5 * half[row] * half[row];
    }
    ln -= 0.5 * determinant.ln();
    for row in (0..count).rev() {
        let known: f64 = (row + 1..count).map(|k| lower[k][row] * (magnitude[free[k].0] - terms[free[k].0].mean)).sum();
        magnitude[free[row].0] += (half[row] - known) / lower[row][row];
    }
    ln.is_finite().then_some((ln, magnitude))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIGMA: f64 = 0.5;

    /// Own, by hand: 400, 300, 704.0, 100.2 of x₁, x₂, x₁ + x₂, x₁ − x₂, σ 0.5. With `AᵀA = 3 I`, `R = I − AAᵀ/3`.
    fn four() -> ([f64; 4], [[f64; 4]; 4]) {
        let a = [[1.0, 0.0], [0.0, 1.0], [1.0, 1.0], [1.0, -1.0]];
        let observed = [400.0, 300.0, 704.0, 100.2];
        let mut r = [[0.0; 4]; 4];
        for i in 0..4 {
            for j in 0..4 {
                let own: f64 = if i == j { 1.0 } else { 0.0 };
                r[i][j] = own - (a[i][0] * a[j][0] + a[i][1] * a[j][1]) / 3.0;
            }
        }
        (std::array::from_fn(|i| (0..4).map(|j| r[i][j] * observed[j]).sum::<f64>() / SIGMA), r)
    }

    fn odds(of: &[(usize, f64, Option<f64>)]) -> (f64, [f64; MOST]) {
        let (v, r) = four();
        let term = |(i, mean, tau): &(usize, f64, Option<f64>)| Term { b: v[*i] / SIGMA, mean: *mean, tau: *tau, ln_odds: 0.0 };
        let terms: Vec<Term> = of.iter().map(term).collect();
        ln_odds(&terms, |i, j| r[of[i].0][of[j].0] / (SIGMA * SIGMA)).unwrap()
    }

    /// Outside: the densities of both closing errors, x₁ + x₂ − l₃ and x₁ − x₂ − l₄, with the covariance V + τ² aaᵀ of
    /// each hypothesis, computed with `NumPy` 2.4.6: `y = N.T @ (l − m)`, `W = N.T @ V @ N` with N the null space of `A.T` by
    /// `numpy.linalg.svd`, and −½ yᵀW⁻¹y − ½ ln det W by `solve` and `slogdet`, less the same of the empty set.
    #[test]
    fn it_is_the_ratio_of_the_densities_of_what_does_not_close() {
        let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-9, "{found} {expected}");
        near(odds(&[(2, 0.0, Some(5.0))]).0, 8.587_928_705_235_57);
        near(odds(&[(2, 0.0, Some(5.0)), (0, 0.0, Some(3.0))]).0, 7.352_221_033_223_32);
        near(odds(&[(2, 3.0, Some(1.0))]).0, 9.957_303_450_758_88);
    }

    /// Differences in height of fifteen pairs of maize plants, eighths of an inch (C. Darwin, *The effects of cross and self
    /// fertilisation in the vegetable kingdom*, 1876; the figures from memory).
    const DARWIN: [f64; 15] = [49.0, -67.0, 8.0, 16.0, 6.0, 23.0, 28.0, 41.0, 14.0, 29.0, 56.0, 24.0, 75.0, 60.0, -48.0];

    /// The model of Box & Tiao (1968): each difference is N(μ, σ²) or, with the chance α = 0.05, N(μ, (kσ)²), k = 5; μ and
    /// ln σ may be anything. In their closed form a set of r differences that are more widely spread weighs
    /// (α/(1 − α))ʳ k⁻ʳ (Σc)^−½ (Σ c (y − ȳ)²)^−(n − 1)/2, where c is 1/k² for them, else 1, and ȳ the mean weighed with c
    /// (the form from memory; derived anew). Outside: all 576 sets of up to three by that form with `NumPy` 2.4.6. Here the
    /// evidence at a known σ, τ = σ√(k² − 1), summed over ln σ.
    #[test]
    fn darwins_differences_weigh_as_in_the_contaminated_normal_model() {
        const ALPHA: f64 = 0.05;
        const K: f64 = 5.0;
        let n = DARWIN.len();
        let mean = DARWIN.iter().sum::<f64>() / n as f64;
        let squares: f64 = DARWIN.iter().map(|y| (y - mean) * (y - mean)).sum();
        let r = |i: usize, j: usize| f64::from(u8::from(i == j)) - 1.0 / n as f64;
        let mut sets: Vec<Vec<usize>> = vec![Vec::new()];
        for i in 0..n {
            sets.push(vec![i]);
            for j in i + 1..n {
                sets.push(vec![i, j]);
                sets.extend((j + 1..n).map(|k| vec![i, j, k]));
            }
        }
        assert_eq!(sets.len(), 576);
        let mut weights = vec![0.0; sets.len()];
        for step in 0..300 {
            let sigma = (5.0_f64.ln() + f64::from(step) * 0.012).exp();
            // Of the empty set; 30 keeps the numbers small.
            let ln_plain = -(n as f64 - 1.0) * (sigma / 30.0).ln() - 0.5 * squares / (sigma * sigma);
            for (set, weight) in sets.iter().zip(&mut weights) {
                let terms: Vec<Term> = set
                    .iter()
                    .map(|i| Term {
                        b: (DARWIN[*i] - mean) / (sigma * sigma),
                        mean: 0.0,
                        tau: Some(sigma * (K * K - 1.0).sqrt()),
                        ln_odds: (ALPHA / (1.0 - ALPHA)).ln(),
                    })
                    .collect();
                let (ln, _) = ln_odds(&terms, |a, b| r(set[a], set[b]) / (sigma * sigma)).unwrap();
                *weight += (ln_plain + ln).exp();
            }
        }
        let total: f64 = weights.iter().sum();
        let chance = |is_it: &dyn Fn(&[usize]) -> bool| {
            sets.iter().zip(&weights).filter(|(set, _)| is_it(set)).map(|(_, w)| w / total).sum::<f64>()
        };
        let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-6, "{found} {expected}");
        near(chance(&|set| set.is_empty()), 0.432_019_152);
        near(chance(&|set| set == [1]), 0.163_325_980);
        near(chance(&|set| set == [14]), 0.033_413_122);
        near(chance(&|set| set == [1, 14]), 0.177_398_793);
        near(chance(&|set| set.contains(&1)), 0.439_109_453);
        near(chance(&|set| set.contains(&14)), 0.277_867_332);
        near(chance(&|set| set.contains(&0)), 0.013_694_110);
    }

    /// A fixed error of one: the closing errors of 3.5 less. And Baarda's w is b/√G.
    #[test]
    fn a_fixed_error_and_the_test_of_one() {
        let (v, r) = four();
        let fixed = [Term { b: 3.5 * v[2] / SIGMA, mean: 1.0, tau: None, ln_odds: 0.0 }];
        let (ln, magnitude) = ln_odds(&fixed, |_, _| r[2][2] * (3.5 / SIGMA) * (3.5 / SIGMA)).unwrap();
        assert!((ln - 10.5).abs() < 1e-9 && magnitude[0] == 1.0, "{ln}");
        let w = v[2] / r[2][2].sqrt();
        assert!((w.abs() - 4.6188).abs() < 5e-5, "{w}");
        // With a wide scale the magnitude is the gap to what the others give: 704 − 700.
        assert!((odds(&[(2, 0.0, Some(1e6))]).1[0] - 4.0).abs() < 1e-6);
    }

    #[test]
    fn more_than_it_holds_and_one_twice_is_none() {
        let term = Term { b: 1.0, mean: 0.0, tau: Some(1e9), ln_odds: 0.0 };
        assert!(ln_odds(&[term; 4], |_, _| 1.0).is_none());
        assert!(ln_odds(&[term; 2], |_, _| 1.0).is_none(), "one hypothesis twice");
    }
}
