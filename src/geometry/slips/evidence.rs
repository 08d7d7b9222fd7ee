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
            } else {
                lower[row][column] = value / lower[column][column];
            }
        }
        let known: f64 = (0..row).map(|k| lower[row][k] * half[k]).sum();
        half[row] = (after[*i] - known) / lower[row][row];
        ln += 0.5 * half[row] * half[row] - lower[row][row].ln() - tau.ln();
    }
    for row in (0..count).rev() {
        let known: f64 = (row + 1..count).map(|k| lower[k][row] * (magnitude[free[k].0] - terms[free[k].0].mean)).sum();
        magnitude[free[row].0] += (half[row] - known) / lower[row][row];
    }
    ln.is_finite().then_some((ln, magnitude))
}
