//! Weighted nonlinear least squares by Levenberg–Marquardt on a block-arrow normal matrix.
//!
//! The unknowns are `blocks` groups of `L` local ones, which never meet each other in an observation, and `S` shared
//! ones: N = [[D₁ … E₁], [… Dₖ Eₖ], [Eᵀ … F]]. Each block is eliminated by Cholesky and the shared part solved from
//! the Schur complement (Björck, *Numerical Methods for Least Squares Problems*, 1996, §6.3). Damping after Nielsen
//! (Madsen, Nielsen & Tingleff, *Methods for Non-Linear Least Squares Problems*, 2nd ed. 2004, alg. 3.16), scaled by
//! the diagonal as Marquardt has it. An ordinary dense problem is one block and no shared unknowns.
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

/// The normal matrix, and the right-hand side Jᵀr beside it.
struct Normal<const L: usize, const S: usize> {
    blocks: Vec<Block<L, S>>,
    shared: [[f64; S]; S],
    shared_rhs: [f64; S],
    chi_squared: f64,
}

struct Block<const L: usize, const S: usize> {
    matrix: [[f64; L]; L],
    cross: [[f64; S]; L],
    rhs: [f64; L],
}

/// Levenberg–Marquardt from `start`. Never NaN: a step to where the rows are not finite is refused and damped.
pub fn solve<const L: usize, const S: usize>(
    problem: &impl Problem<L, S>,
    start: Unknowns<L, S>,
    options: Options,
) -> Solution<L, S> {
    let mut rows = Vec::new();
    let mut at = start;
    let mut normal = assemble(problem, &at, &mut rows);
    let (mut damping, mut growth) = (options.damping, 2.0);
    let mut evaluations = 1;
    let mut converged = false;
    while evaluations < options.max_evaluations && normal.chi_squared.is_finite() {
        let Some(step) = step(&normal, damping) else {
            damping = damping.max(1e-12) * growth;
            growth *= 2.0;
            evaluations += 1;
            continue;
        };
        let (length_squared, gain) = measure(&normal, &step, damping);
        if length_squared <= options.tolerance * options.tolerance {
            at = moved(&at, &step);
            converged = true;
            break;
        }
        let next = moved(&at, &step);
        let next_normal = assemble(problem, &next, &mut rows);
        evaluations += 1;
        let improvement = normal.chi_squared - next_normal.chi_squared;
        let noise = 1e-13 * normal.chi_squared;
        if next_normal.chi_squared.is_finite() && improvement >= -noise {
            let ratio = if gain > noise { improvement / gain } else { 1.0 };
            damping *= (1.0 - (2.0 * ratio - 1.0).powi(3)).max(1.0 / 3.0);
            growth = 2.0;
            at = next;
            normal = next_normal;
        } else {
            damping = damping.max(1e-12) * growth;
            growth *= 2.0;
            if !damping.is_finite() || damping > 1e16 {
                break;
            }
        }
    }
    Solution { at, chi_squared: normal.chi_squared, converged, evaluations }
}

fn assemble<const L: usize, const S: usize>(
    problem: &impl Problem<L, S>,
    at: &Unknowns<L, S>,
    rows: &mut Vec<Row<L, S>>,
) -> Normal<L, S> {
    let mut normal =
        Normal { blocks: Vec::with_capacity(problem.blocks()), shared: [[0.0; S]; S], shared_rhs: [0.0; S], chi_squared: 0.0 };
    for (block, local) in at.locals.iter().enumerate() {
        rows.clear();
        problem.rows(block, local, &at.shared, rows);
        let mut sum = Block { matrix: [[0.0; L]; L], cross: [[0.0; S]; L], rhs: [0.0; L] };
        for row in rows.iter() {
            for (i, a) in row.local.iter().enumerate() {
                if *a != 0.0 {
                    add_scaled(&mut sum.matrix[i], &row.local, *a);
                    add_scaled(&mut sum.cross[i], &row.shared, *a);
                    sum.rhs[i] += a * row.residual;
                }
            }
            normal.add_shared(row);
        }
        normal.blocks.push(sum);
    }
    rows.clear();
    problem.shared_rows(&at.shared, rows);
    for row in rows.iter() {
        normal.add_shared(row);
    }
    normal
}

impl<const L: usize, const S: usize> Normal<L, S> {
    fn add_shared(&mut self, row: &Row<L, S>) {
        for (i, a) in row.shared.iter().enumerate() {
            if *a != 0.0 {
                add_scaled(&mut self.shared[i], &row.shared, *a);
                self.shared_rhs[i] += a * row.residual;
            }
        }
        self.chi_squared += row.residual * row.residual;
    }
}

#[inline]
fn add_scaled<const N: usize>(to: &mut [f64; N], from: &[f64; N], factor: f64) {
    for (t, f) in to.iter_mut().zip(from) {
        *t += f * factor;
    }
}

#[inline]
fn dot<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// One damped step, or `None` where the damped matrix is not positive definite.
fn step<const L: usize, const S: usize>(normal: &Normal<L, S>, damping: f64) -> Option<Unknowns<L, S>> {
    let mut schur = damped(&normal.shared, damping);
    let mut rhs = normal.shared_rhs;
    let mut reduced = Vec::with_capacity(normal.blocks.len());
    for block in &normal.blocks {
        let factor = cholesky(damped(&block.matrix, damping))?;
        let own = solve_with(&factor, block.rhs);
        // B = D⁻¹E, one column a shared unknown.
        let columns: [[f64; L]; S] = std::array::from_fn(|s| solve_with(&factor, std::array::from_fn(|i| block.cross[i][s])));
        for s in 0..S {
            let e: [f64; L] = std::array::from_fn(|i| block.cross[i][s]);
            rhs[s] -= dot(&e, &own);
            for t in 0..S {
                schur[s][t] -= dot(&e, &columns[t]);
            }
        }
        reduced.push((own, columns));
    }
    let shared = solve_with(&cholesky(schur)?, rhs);
    let locals = reduced
        .iter()
        .map(|(own, columns)| {
            let mut local = *own;
            for (column, s) in columns.iter().zip(shared) {
                add_scaled(&mut local, column, -s);
            }
            local
        })
        .collect();
    Some(Unknowns { locals, shared })
}

/// δᵀNδ, and the fall of Σ residual² that the quadratic model promises: δᵀ(2Jᵀr − Nδ).
fn measure<const L: usize, const S: usize>(normal: &Normal<L, S>, step: &Unknowns<L, S>, _damping: f64) -> (f64, f64) {
    let shared = &step.shared;
    let mut quadratic: f64 = (0..S).map(|s| shared[s] * dot(&normal.shared[s], shared)).sum();
    let mut linear = dot(&normal.shared_rhs, shared);
    for (block, local) in normal.blocks.iter().zip(&step.locals) {
        for i in 0..L {
            quadratic += local[i] * (dot(&block.matrix[i], local) + 2.0 * dot(&block.cross[i], shared));
        }
        linear += dot(&block.rhs, local);
    }
    (quadratic.max(0.0), 2.0 * linear - quadratic)
}

fn moved<const L: usize, const S: usize>(at: &Unknowns<L, S>, step: &Unknowns<L, S>) -> Unknowns<L, S> {
    let mut next = at.clone();
    add_scaled(&mut next.shared, &step.shared, 1.0);
    for (local, delta) in next.locals.iter_mut().zip(&step.locals) {
        add_scaled(local, delta, 1.0);
    }
    next
}

fn damped<const N: usize>(matrix: &[[f64; N]; N], damping: f64) -> [[f64; N]; N] {
    let mut damped = *matrix;
    for (i, row) in damped.iter_mut().enumerate() {
        row[i] *= 1.0 + damping;
    }
    damped
}

/// Lower Cholesky factor, or `None` where the matrix is not positive definite (or holds NaN).
fn cholesky<const N: usize>(mut a: [[f64; N]; N]) -> Option<[[f64; N]; N]> {
    for j in 0..N {
        let (done, rest) = a.split_at_mut(j);
        let row = rest.first_mut()?;
        for (k, above) in done.iter().enumerate() {
            let sum: f64 = (0..k).map(|i| row[i] * above[i]).sum();
            row[k] = (row[k] - sum) / above[k];
        }
        let square = row[j] - (0..j).map(|k| row[k] * row[k]).sum::<f64>();
        if !(square > 0.0 && square.is_finite()) {
            return None;
        }
        row[j] = square.sqrt();
    }
    Some(a)
}

/// Solves L Lᵀ x = b.
fn solve_with<const N: usize>(factor: &[[f64; N]; N], mut b: [f64; N]) -> [f64; N] {
    for i in 0..N {
        let sum: f64 = (0..i).map(|k| factor[i][k] * b[k]).sum();
        b[i] = (b[i] - sum) / factor[i][i];
    }
    for i in (0..N).rev() {
        let sum: f64 = (i + 1..N).map(|k| factor[k][i] * b[k]).sum();
        b[i] = (b[i] - sum) / factor[i][i];
    }
    b
}

/// C = N⁻¹ in the parts that figures of one block need: its own, with the shared, and towards every other block.
#[derive(Clone, Debug, PartialEq)]
pub struct Covariance<const L: usize, const S: usize> {
    /// Among the shared unknowns.
    pub shared: [[f64; S]; S],
    /// One a block.
    pub blocks: Vec<BlockCovariance<L, S>>,
}

/// The covariances of one block's local unknowns.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockCovariance<const L: usize, const S: usize> {
    /// Among themselves.
    pub local: [[f64; L]; L],
    /// With the shared unknowns.
    pub cross: [[f64; S]; L],
    /// Eᵀ D⁻¹, which carries a change of this block's observations to the shared unknowns.
    pub carry: [[f64; L]; S],
}

impl<const L: usize, const S: usize> Covariance<L, S> {
    /// The covariance at a solution, or `None` where the normal matrix is not positive definite there.
    pub fn of(problem: &impl Problem<L, S>, at: &Unknowns<L, S>) -> Option<Self> {
        let normal = assemble(problem, at, &mut Vec::new());
        let mut schur = normal.shared;
        let mut parts = Vec::with_capacity(normal.blocks.len());
        for block in &normal.blocks {
            let inverse = inverse(&cholesky(block.matrix)?);
            let carry: [[f64; L]; S] = std::array::from_fn(|s| {
                let mut row = [0.0; L];
                for i in 0..L {
                    add_scaled(&mut row, &inverse[i], block.cross[i][s]);
                }
                row
            });
            for s in 0..S {
                for i in 0..L {
                    for t in 0..S {
                        schur[s][t] -= carry[s][i] * block.cross[i][t];
                    }
                }
            }
            parts.push((inverse, carry));
        }
        let shared = inverse(&cholesky(schur)?);
        let blocks = parts
            .into_iter()
            .map(|(mut local, carry)| {
                let mut cross = [[0.0; S]; L];
                for i in 0..L {
                    for s in 0..S {
                        cross[i][s] = -(0..S).map(|t| carry[t][i] * shared[t][s]).sum::<f64>();
                    }
                }
                for i in 0..L {
                    for s in 0..S {
                        let factor = -cross[i][s];
                        add_scaled(&mut local[i], &carry[s], factor);
                    }
                }
                BlockCovariance { local, cross, carry }
            })
            .collect();
        Some(Self { shared, blocks })
    }
}

/// The inverse from a Cholesky factor.
fn inverse<const N: usize>(factor: &[[f64; N]; N]) -> [[f64; N]; N] {
    let mut inverse: [[f64; N]; N] = std::array::from_fn(|j| {
        let mut unit = [0.0; N];
        unit[j] = 1.0;
        solve_with(factor, unit)
    });
    for i in 0..N {
        for j in 0..i {
            let mean = f64::midpoint(inverse[i][j], inverse[j][i]);
            inverse[i][j] = mean;
            inverse[j][i] = mean;
        }
    }
    inverse
}
