//! The motions of a bicycle at one speed: the eigenvalues of its linear equations.

use nalgebra::{Complex, Matrix4};

use super::linear_model::LinearModel;

/// Eigenvalues of the four motions, 1/s.
pub type Modes = [Complex<f64>; 4];

/// Eigenvalues at a speed, 1/s, those with the greatest real part first, of a pair the positive imaginary part first. The
/// real part says how fast a motion grows (positive) or dies out (negative), the imaginary part how fast it swings. `None`
/// where the mass matrix cannot be inverted.
#[must_use]
pub fn modes(model: &LinearModel, speed_m_s: f64) -> Option<Modes> {
    let [[m11, m12], [m21, m22]] = model.mass;
    let determinant = m11 * m22 - m12 * m21;
    if !(determinant.is_finite() && determinant.abs() > f64::MIN_POSITIVE) {
        return None;
    }
    let stiffness = model.stiffness_at(speed_m_s);
    // −M⁻¹ X, by Cramer's rule.
    let answer = |x: [[f64; 2]; 2], row: usize, column: usize| {
        let (upper, lower) = (x[0][column], x[1][column]);
        if row == 0 { -(m22 * upper - m12 * lower) / determinant } else { -(m11 * lower - m21 * upper) / determinant }
    };
    let damping = model.damping.map(|row| row.map(|entry| speed_m_s * entry));
    let matrix = Matrix4::from_fn(|row, column| match (row, column) {
        (0, 2) | (1, 3) => 1.0,
        (0 | 1, _) => 0.0,
        (_, 0 | 1) => answer(stiffness, row - 2, column),
        _ => answer(damping, row - 2, column - 2),
    });
    let found = matrix.complex_eigenvalues();
    let mut modes = [found[0], found[1], found[2], found[3]];
    modes.sort_by(|a, b| b.re.total_cmp(&a.re).then(b.im.total_cmp(&a.im)));
    Some(modes)
}

#[cfg(test)]
mod tests {
    use super::super::parameters::tests::benchmark;
    use super::*;

    /// Meijaard et al. 2007, Table 2: eigenvalues of the benchmark bicycle at 0 to 10 m/s: capsize, weave (real and
    /// imaginary part), castering. 0 m/s has four real ones, in the order of the table here: largest first.
    #[test]
    fn the_benchmark_has_its_printed_eigenvalues() {
        let model = LinearModel::of(&benchmark());
        for (speed, capsize, weave, swing, caster) in [
            (1.0, -3.134_231_250_665_78, 3.526_961_709_900_69, 0.807_740_275_199_31, -7.110_080_146_374_41),
            (2.0, -3.071_586_456_415_14, 2.682_345_175_127_45, 1.680_662_965_906_76, -8.673_879_848_317_37),
            (3.0, -2.633_661_372_536_65, 1.706_756_056_639_73, 2.315_824_473_843_24, -10.351_014_672_459_23),
            (4.0, -1.429_444_273_613_26, 0.413_253_315_211_24, 3.079_108_186_032_05, -12.158_614_265_764_44),
            (5.0, -0.322_866_429_004_09, -0.775_341_882_195_84, 4.464_867_713_788_23, -14.078_389_692_798_25),
            (6.0, -0.004_066_900_769_70, -1.526_444_865_841_42, 5.876_730_605_987_08, -16.085_371_230_980_28),
            (7.0, 0.102_681_705_747_66, -2.138_756_442_583_63, 7.195_259_133_298_04, -18.157_884_661_252_02),
            (8.0, 0.143_278_797_657_13, -2.693_486_835_810_95, 8.460_379_713_969_34, -20.279_408_943_945_66),
            (9.0, 0.157_901_840_309_17, -3.216_754_022_524_91, 9.693_773_515_317_82, -22.437_885_590_408_59),
            (10.0, 0.161_053_386_531_72, -3.720_168_404_372_88, 10.906_811_394_762_88, -24.624_596_350_174),
        ] {
            let mut printed: [Complex<f64>; 4] =
                [Complex::new(capsize, 0.0), Complex::new(weave, swing), Complex::new(weave, -swing), Complex::new(caster, 0.0)];
            printed.sort_by(|a, b| b.re.total_cmp(&a.re).then(b.im.total_cmp(&a.im)));
            for (found, printed) in modes(&model, speed).unwrap().iter().zip(printed) {
                assert!((found - printed).norm() < 1e-9, "{speed} m/s: {found} is not {printed}");
            }
        }
        let at_rest = modes(&model, 0.0).unwrap();
        for (found, printed) in
            at_rest.iter().zip([5.530_943_717_653_94, 3.131_643_247_906_56, -3.131_643_247_906_56, -5.530_943_717_653_94])
        {
            assert!((found.re - printed).abs() < 1e-9 && found.im.abs() < 1e-9, "{found} is not {printed}");
        }
    }

    /// `SymPy` 1.14.0, `sympy/physics/mechanics/tests/test_kane3.py`, `test_bicycle`: rows of the state matrix of the same
    /// bicycle as functions of the speed. Here by the sums and products of the eigenvalues: trace and determinant.
    #[test]
    fn trace_and_determinant_are_those_of_another_derivation() {
        let model = LinearModel::of(&benchmark());
        for v in [0.5, 3.0, 5.0, 9.0_f64] {
            let lean = [9.489_774_446_773_55, -0.891_197_738_059_089 * v * v - 0.571_523_173_729_245];
            let steer = [11.719_476_871_963_3, -1.971_715_084_999_72 * v * v + 30.908_753_393_240_7];
            let trace = -0.105_522_449_805_691 * v - 3.084_865_527_433_11 * v;
            let found = modes(&model, v).unwrap();
            let sum: Complex<f64> = found.iter().sum();
            let product: Complex<f64> = found.iter().product();
            assert!((sum.re - trace).abs() < 1e-10 && sum.im.abs() < 1e-10);
            let determinant = lean[0] * steer[1] - lean[1] * steer[0];
            assert!((product.re - determinant).abs() < 1e-8 * determinant.abs().max(1.0), "{product} is not {determinant}");
        }
    }
}
