//! Weighted nonlinear least squares by Levenberg–Marquardt on a block-arrow problem.
//!
//! The unknowns are `blocks` groups of `L` local ones, which never meet each other in an observation, and `S` shared
//! ones. `JᵀJ` is then a block-arrow matrix; it is never formed. Each block's rows are rotated into a triangular factor
//! [R | T] by Givens rotations, what is left of them touches shared unknowns only and is rotated into theirs (the
//! square-root form of block elimination: Björck, *Numerical Methods for Least Squares Problems*, 1996, §2.3 and §6.3).
//! The obvious alternative, Cholesky of the normal matrix, squares the condition number and fails where weights of
//! 1/0.05 mm and start values of 1/1000 mm meet. Damping after Nielsen (Madsen, Nielsen & Tingleff, *Methods for
//! Non-Linear Least Squares Problems*, 2nd ed. 2004, alg. 3.16), scaled by the diagonal as Marquardt has it. An
//! ordinary dense problem is one block and no shared unknowns.
//!
//! Nothing here knows bicycles.

/// One observation at some state: everything divided by its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row<const L: usize, const S: usize> {
    /// (observed − computed) / σ.
    pub residual: f64,
    /// Gradient of the computed value by the block's local unknowns, / σ.
    pub local: [f64; L],
    /// Gradient by the shared unknowns, / σ.
    pub shared: [f64; S],
}

/// A problem: its observations as functions of the unknowns.
pub trait Problem<const L: usize, const S: usize> {
    /// How many blocks of local unknowns there are.
    fn blocks(&self) -> usize;
    /// How many of the shared unknowns are in use, from the first; no row touches the rest, which stay as they are.
    fn shared_in_use(&self) -> usize {
        S
    }
    /// Appends the rows of `block` at the given unknowns.
    fn rows(&self, block: usize, local: &[f64; L], shared: &[f64; S], into: &mut Vec<Row<L, S>>);
    /// Appends the rows that touch shared unknowns only.
    fn shared_rows(&self, shared: &[f64; S], into: &mut Vec<Row<L, S>>);
}

/// Values of all unknowns.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknowns<const L: usize, const S: usize> {
    /// One group a block.
    pub locals: Vec<[f64; L]>,
    /// Shared by all blocks.
    pub shared: [f64; S],
}

/// When to stop and how carefully to begin.
#[derive(Clone, Copy, Debug)]
pub struct Options {
    /// Damping at the start, relative to the diagonal: tiny when the start is near, 1e-3 when it is not.
    pub damping: f64,
    /// Stop when a step moves the solution by less than this, measured in standard uncertainties (√(δᵀNδ)).
    pub tolerance: f64,
    /// Give up after so many evaluations.
    pub max_evaluations: usize,
}

/// Where the iteration ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution<const L: usize, const S: usize> {
    /// The unknowns.
    pub at: Unknowns<L, S>,
    /// Σ residual².
    pub chi_squared: f64,
    /// Whether the last step was within the tolerance.
    pub converged: bool,
    /// How often the rows were evaluated.
    pub evaluations: usize,
}

/// The rows at some unknowns, with what damping and gain need of them.
struct Linearised<const L: usize, const S: usize> {
    blocks: Vec<Vec<Row<L, S>>>,
    shared: Vec<Row<L, S>>,
    chi_squared: f64,
    in_use: usize,
}

/// Levenberg–Marquardt from `start`. Never NaN: a step to where the rows are not finite is refused and damped.
pub fn solve<const L: usize, const S: usize>(
    problem: &impl Problem<L, S>,
    start: Unknowns<L, S>,
    options: Options,
) -> Solution<L, S> {
    let mut at = start;
    let mut rows = Linearised::at(problem, &at);
    let (mut damping, mut growth) = (options.damping, 2.0);
    let mut evaluations = 1;
    let mut converged = false;
    while evaluations < options.max_evaluations && rows.chi_squared.is_finite() {
        let Some(step) = rows.step(damping) else {
            damping = damping.max(1e-12) * growth;
            growth *= 2.0;
            evaluations += 1;
            continue;
        };
        let (length_squared, gain) = rows.measure(&step);
        let next = at.moved(&step);
        if length_squared <= options.tolerance * options.tolerance && rows.is_short_undamped(damping, options.tolerance) {
            at = next;
            converged = true;
            break;
        }
        let next_rows = Linearised::at(problem, &next);
        evaluations += 1;
        let improvement = rows.chi_squared - next_rows.chi_squared;
        let noise = 1e-13 * rows.chi_squared;
        if next_rows.chi_squared.is_finite() && improvement >= -noise {
            let ratio = if gain > noise { improvement / gain } else { 1.0 };
            damping *= (1.0 - (2.0 * ratio - 1.0).powi(3)).max(1.0 / 3.0);
            growth = 2.0;
            at = next;
            rows = next_rows;
        } else {
            damping = damping.max(1e-12) * growth;
            growth *= 2.0;
            if !damping.is_finite() || damping > 1e16 {
                break;
            }
        }
    }
    Solution { at, chi_squared: rows.chi_squared, converged, evaluations }
}

impl<const L: usize, const S: usize> Unknowns<L, S> {
    fn moved(&self, step: &Self) -> Self {
        let mut next = self.clone();
        add_scaled(&mut next.shared, &step.shared, 1.0);
        for (local, delta) in next.locals.iter_mut().zip(&step.locals) {
            add_scaled(local, delta, 1.0);
        }
        next
    }
}

impl<const L: usize, const S: usize> Linearised<L, S> {
    fn at(problem: &impl Problem<L, S>, at: &Unknowns<L, S>) -> Self {
        let mut blocks = Vec::with_capacity(at.locals.len());
        for (block, local) in at.locals.iter().enumerate() {
            let mut rows = Vec::with_capacity(2 * L + 12);
            problem.rows(block, local, &at.shared, &mut rows);
            blocks.push(rows);
        }
        let mut shared = Vec::with_capacity(S * 3);
        problem.shared_rows(&at.shared, &mut shared);
        let chi_squared = blocks.iter().flatten().chain(&shared).map(|r| r.residual * r.residual).sum();
        Self { blocks, shared, chi_squared, in_use: problem.shared_in_use().min(S) }
    }

    /// The triangular factor of the rows and of √damping · diagonal beneath them.
    fn factor(&self, damping: f64) -> Factor<L, S> {
        let mut factor =
            Factor { blocks: vec![Triangle::empty(L, self.in_use); self.blocks.len()], shared: Triangle::empty(self.in_use, 0) };
        let mut shared_diagonal = [0.0; S];
        for row in self.blocks.iter().flatten().chain(&self.shared) {
            for (sum, a) in shared_diagonal.iter_mut().zip(&row.shared) {
                *sum += a * a;
            }
        }
        factor.shared.add_damping(&shared_diagonal, damping);
        let mut several: Vec<&Row<L, S>> = Vec::new();
        for (rows, block) in self.blocks.iter().zip(&mut factor.blocks) {
            let mut diagonal = [0.0; L];
            for row in rows {
                for (sum, a) in diagonal.iter_mut().zip(&row.local) {
                    *sum += a * a;
                }
            }
            block.add_damping(&diagonal, damping);
            // Rows of one unknown go first, while the triangle is still diagonal: each then costs a single element.
            several.clear();
            for row in rows {
                match single_unknown(row) {
                    Some(i) => block.rotate_in_single(i, row.local[i], row.residual),
                    None => several.push(row),
                }
            }
            // Then by how many unknowns they touch: rows that come late are filled up by those before them.
            several.sort_by_key(|row| row.local.iter().filter(|a| **a != 0.0).count());
            for row in &several {
                let (rest, residual) = block.rotate_in(row.local, row.shared, row.residual);
                if rest.iter().any(|a| *a != 0.0) {
                    factor.shared.rotate_in(rest, [], residual);
                }
            }
        }
        for row in &self.shared {
            factor.shared.rotate_in(row.shared, [], row.residual);
        }
        factor
    }

    /// One damped step, or `None` where the factor is singular.
    fn step(&self, damping: f64) -> Option<Unknowns<L, S>> {
        let factor = self.factor(damping);
        let shared = factor.shared.solve(&[])?;
        let locals = factor.blocks.iter().map(|b| b.solve(&shared)).collect::<Option<Vec<_>>>()?;
        Some(Unknowns { locals, shared })
    }

    /// Whether the undamped step is as short as the tolerance asks: damping alone makes any step short.
    fn is_short_undamped(&self, damping: f64, tolerance: f64) -> bool {
        const NEXT_TO_NOTHING: f64 = 1e-6;
        if damping <= NEXT_TO_NOTHING {
            return true;
        }
        self.step(NEXT_TO_NOTHING).is_some_and(|step| self.measure(&step).0 <= tolerance * tolerance)
    }

    /// |Jδ|², and the fall of Σ residual² that the linear model promises: `δᵀ(2Jᵀr − JᵀJδ)`.
    fn measure(&self, step: &Unknowns<L, S>) -> (f64, f64) {
        let (mut quadratic, mut linear) = (0.0, 0.0);
        let mut add = |change: f64, residual: f64| {
            quadratic += change * change;
            linear += change * residual;
        };
        for (rows, local) in self.blocks.iter().zip(&step.locals) {
            for row in rows {
                add(dot(&row.local, local) + dot(&row.shared, &step.shared), row.residual);
            }
        }
        for row in &self.shared {
            add(dot(&row.shared, &step.shared), row.residual);
        }
        (quadratic, 2.0 * linear - quadratic)
    }
}

#[inline]
fn add_scaled<const N: usize>(to: &mut [f64; N], from: &[f64; N], factor: f64) {
    for (t, f) in to.iter_mut().zip(from) {
        *t += f * factor;
    }
}

#[inline]
pub(super) fn dot<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The factor of the whole problem.
struct Factor<const L: usize, const S: usize> {
    blocks: Vec<Triangle<L, S>>,
    shared: Triangle<S, 0>,
}

/// An upper triangular factor R of some unknowns, with the columns T of further unknowns beside it, and the rotated
/// residuals.
#[derive(Clone)]
struct Triangle<const N: usize, const T: usize> {
    r: [[f64; N]; N],
    beside: [[f64; T]; N],
    rhs: [f64; N],
    /// How many unknowns are in use, and how many columns beside them.
    in_use: usize,
    beside_in_use: usize,
}

impl<const N: usize, const T: usize> Triangle<N, T> {
    fn empty(in_use: usize, beside_in_use: usize) -> Self {
        Self { r: [[0.0; N]; N], beside: [[0.0; T]; N], rhs: [0.0; N], in_use, beside_in_use }
    }

    /// Rows √(damping · diagonal) on the diagonal, before anything else.
    fn add_damping(&mut self, diagonal: &[f64; N], damping: f64) {
        for i in 0..N {
            self.r[i][i] = (diagonal[i] * damping).sqrt();
        }
    }

    /// Rotates in a row of the single unknown `i`, while the triangle is diagonal there.
    fn rotate_in_single(&mut self, i: usize, a: f64, residual: f64) {
        let pivot = self.r[i][i];
        let length = length(pivot, a);
        self.r[i][i] = length;
        self.rhs[i] = (pivot * self.rhs[i] + a * residual) / length;
    }

    /// Rotates a row in and returns what is left of it beside the triangle (Givens 1958; leading zeros
    /// are skipped).
    fn rotate_in(&mut self, mut row: [f64; N], mut beside: [f64; T], mut residual: f64) -> ([f64; T], f64) {
        for i in 0..self.in_use {
            let a = row[i];
            if a == 0.0 {
                continue;
            }
            let pivot = self.r[i][i];
            let length = length(pivot, a);
            let (c, s) = (pivot / length, a / length);
            rotate(&mut self.r[i][i..self.in_use], &mut row[i..self.in_use], c, s);
            rotate(&mut self.beside[i][..self.beside_in_use], &mut beside[..self.beside_in_use], c, s);
            let (x, y) = (self.rhs[i], residual);
            self.rhs[i] = c * x + s * y;
            residual = c * y - s * x;
        }
        (beside, residual)
    }

    /// R x = rhs − T · beside, or `None` where R is singular.
    fn solve(&self, beside: &[f64; T]) -> Option<[f64; N]> {
        let mut x = [0.0; N];
        for i in (0..self.in_use).rev() {
            let known: f64 = (i + 1..self.in_use).map(|j| self.r[i][j] * x[j]).sum::<f64>() + dot(&self.beside[i], beside);
            let value = (self.rhs[i] - known) / self.r[i][i];
            if !value.is_finite() {
                return None;
            }
            x[i] = value;
        }
        Some(x)
    }

    /// R⁻¹, or `None` where R is singular.
    fn inverse(&self) -> Option<[[f64; N]; N]> {
        let mut inverse = [[0.0; N]; N];
        for i in (0..self.in_use).rev() {
            let pivot = 1.0 / self.r[i][i];
            if !pivot.is_finite() {
                return None;
            }
            let mut row = [0.0; N];
            for k in i + 1..self.in_use {
                add_scaled(&mut row, &inverse[k], -self.r[i][k] * pivot);
            }
            row[i] = pivot;
            inverse[i] = row;
        }
        Some(inverse)
    }

    /// ln |det R|.
    fn ln_det(&self) -> f64 {
        (0..self.in_use).map(|i| self.r[i][i].abs().ln()).sum()
    }
}

/// Turns two rows by the angle whose cosine and sine are `c` and `s`.
#[inline]
fn rotate(upper: &mut [f64], lower: &mut [f64], c: f64, s: f64) {
    for (x, y) in upper.iter_mut().zip(lower) {
        (*x, *y) = (c * *x + s * *y, c * *y - s * *x);
    }
}

/// The place of a row's only unknown, where it is a local one.
fn single_unknown<const L: usize, const S: usize>(row: &Row<L, S>) -> Option<usize> {
    if row.shared.iter().any(|a| *a != 0.0) {
        return None;
    }
    let first = row.local.iter().position(|a| *a != 0.0)?;
    if row.local[first + 1..].iter().all(|a| *a == 0.0) { Some(first) } else { None }
}

/// √(a² + b²), by the careful way only where the squares leave the range of numbers.
fn length(a: f64, b: f64) -> f64 {
    let square = a * a + b * b;
    if square.is_normal() { square.sqrt() } else { a.hypot(b) }
}

/// `C = (JᵀJ)⁻¹` in the parts that figures of one block need: its own, with the shared, and towards every other block.
#[derive(Clone, Debug, PartialEq)]
pub struct Covariance<const L: usize, const S: usize> {
    /// Among the shared unknowns.
    pub shared: [[f64; S]; S],
    /// One a block.
    pub blocks: Vec<BlockCovariance<L, S>>,
    /// R⁻¹ of the shared unknowns, whose product with its transpose is `shared`.
    pub shared_root: [[f64; S]; S],
    /// ln det C.
    pub ln_det: f64,
    /// How many shared unknowns are in use.
    pub in_use: usize,
}

/// The covariances of one block's local unknowns.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockCovariance<const L: usize, const S: usize> {
    /// Among themselves.
    pub local: [[f64; L]; L],
    /// With the shared unknowns.
    pub cross: [[f64; S]; L],
    /// (R⁻¹T)ᵀ, which carries a change of this block's observations to the shared unknowns.
    pub carry: [[f64; L]; S],
    /// R⁻¹ of the local unknowns, whose product with its transpose is their covariance were the shared ones known.
    pub root: [[f64; L]; L],
}

/// One observation against what all others predict for it, without solving again: with its residual v (in units of σ)
/// and its leverage a C aᵀ (a its row) the others miss it by v / r where r = 1 − a C aᵀ is its redundancy number, with a
/// standard uncertainty of 1 / √r (W. Baarda, *A testing procedure for use in geodetic networks*, Netherlands Geodetic
/// Commission, 1968; citation from memory). Exact for linear problems.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftOut {
    /// (observed − adjusted) / σ.
    pub residual: f64,
    /// The share of the observation that the others control: 1 where they say all, 0 where they say nothing. The
    /// redundancy numbers of all observations add up to observations − unknowns.
    pub redundancy: f64,
}

impl LeftOut {
    /// From the residual (in σ) and the leverage, 0 to 1.
    #[must_use]
    pub fn of(residual: f64, leverage: f64) -> Self {
        Self { residual, redundancy: 1.0 - leverage }
    }

    /// w: (observed − predicted) / its standard uncertainty. Standard normal for right observations; not finite where
    /// the others say nothing.
    #[must_use]
    pub fn w(self) -> f64 {
        self.residual / self.redundancy.sqrt()
    }

    /// (observed − predicted) / σ.
    #[must_use]
    pub fn gap(self) -> f64 {
        self.residual / self.redundancy
    }

    /// Standard uncertainty of the gap, in σ.
    #[must_use]
    pub fn u_of_gap(self) -> f64 {
        1.0 / self.redundancy.sqrt()
    }
}

impl<const L: usize, const S: usize> Covariance<L, S> {
    /// The covariance at a solution, or `None` where some unknown is reached by no row at all.
    pub fn of(problem: &impl Problem<L, S>, at: &Unknowns<L, S>) -> Option<Self> {
        let factor = Linearised::at(problem, at).factor(0.0);
        let shared_root = factor.shared.inverse()?;
        let shared = times_transpose(&shared_root, factor.shared.in_use);
        let blocks = factor.blocks.iter().map(|b| BlockCovariance::of(b, &shared)).collect::<Option<Vec<_>>>()?;
        let ln_det = -2.0 * (factor.shared.ln_det() + factor.blocks.iter().map(Triangle::ln_det).sum::<f64>());
        Some(Self { shared, blocks, shared_root, ln_det, in_use: factor.shared.in_use })
    }

    /// Covariance of the local unknowns of two blocks with each other; a block's own where they are the same.
    #[must_use]
    pub fn between(&self, a: usize, b: usize) -> [[f64; L]; L] {
        if a == b {
            return self.blocks[a].local;
        }
        let mut product = [[0.0; L]; L];
        for (i, row) in product.iter_mut().enumerate() {
            for (carry, cross) in self.blocks[b].carry.iter().zip(&self.blocks[a].cross[i]) {
                add_scaled(row, carry, -cross);
            }
        }
        product
    }

    /// The part of a row of `block` (of one that touches shared unknowns only where there is no such block) that lies in
    /// the space of the unknowns, in an orthonormal basis of it: a C bᵀ of two rows is the product of their shared
    /// parts, plus that of their local parts where they are of one block.
    #[must_use]
    pub fn projected(&self, block: usize, row: &Row<L, S>) -> ([f64; L], [f64; S]) {
        let mut local = [0.0; L];
        let mut rest = row.shared;
        if let Some(own) = self.blocks.get(block) {
            for (i, a) in row.local.iter().enumerate().filter(|(_, a)| **a != 0.0) {
                for (l, r) in local[i..].iter_mut().zip(&own.root[i][i..]) {
                    *l += r * a;
                }
                for (rest, carry) in rest[..self.in_use].iter_mut().zip(&own.carry) {
                    *rest -= carry[i] * a;
                }
            }
        }
        let mut shared = [0.0; S];
        for (i, a) in rest[..self.in_use].iter().enumerate().filter(|(_, a)| **a != 0.0) {
            for (s, r) in shared[i..self.in_use].iter_mut().zip(&self.shared_root[i][i..]) {
                *s += r * a;
            }
        }
        (local, shared)
    }

    /// a C aᵀ of a row of `block`; of a row that touches shared unknowns only where there is no such block.
    #[must_use]
    pub fn leverage(&self, block: usize, row: &Row<L, S>) -> f64 {
        let shared: f64 = self.shared.iter().zip(&row.shared).map(|(c, a)| a * dot(c, &row.shared)).sum();
        let Some(own) = self.blocks.get(block) else { return shared };
        let local: f64 = own.local.iter().zip(&row.local).map(|(c, a)| a * dot(c, &row.local)).sum();
        let cross: f64 = own.cross.iter().zip(&row.local).map(|(c, a)| a * dot(c, &row.shared)).sum();
        local + 2.0 * cross + shared
    }
}

impl<const L: usize, const S: usize> BlockCovariance<L, S> {
    fn of(block: &Triangle<L, S>, shared: &[[f64; S]; S]) -> Option<Self> {
        let inverse = block.inverse()?;
        let mut carry = [[0.0; L]; S];
        for i in 0..L {
            for k in i..L {
                for s in 0..block.beside_in_use {
                    carry[s][i] += inverse[i][k] * block.beside[k][s];
                }
            }
        }
        let mut cross = [[0.0; S]; L];
        for i in 0..L {
            for t in 0..block.beside_in_use {
                add_scaled(&mut cross[i], &shared[t], -carry[t][i]);
            }
        }
        let mut local = times_transpose(&inverse, L);
        for i in 0..L {
            for s in 0..block.beside_in_use {
                add_scaled(&mut local[i], &carry[s], -cross[i][s]);
            }
        }
        Some(Self { local, cross, carry, root: inverse })
    }
}

/// U Uᵀ of an upper triangular U whose first `in_use` rows and columns count: symmetric to the last bit.
fn times_transpose<const N: usize>(upper: &[[f64; N]; N], in_use: usize) -> [[f64; N]; N] {
    let mut product = [[0.0; N]; N];
    for i in 0..in_use {
        for j in 0..=i {
            let sum: f64 = (i..in_use).map(|k| upper[i][k] * upper[j][k]).sum();
            product[i][j] = sum;
            product[j][i] = sum;
        }
    }
    product
}
