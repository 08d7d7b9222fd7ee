//! The linear equations of motion of a bicycle that rolls upright with nobody's hand on the bar (Whipple's model).
//!
//! With q = (lean, steer), both positive to the right, and the forward speed v:
//!
//! ```text
//! M q̈ + v C₁ q̇ + (g K₀ + v² K₂) q = 0
//! ```
//!
//! Source of every line below: Meijaard, Papadopoulos, Ruina & Schwab, Proc. R. Soc. A 463 (2007) 1955–1982, appendix A.
//! The tyres are knife-edged and do not slip, the bodies are rigid, the rider does not move and does not steer.

use super::parameters::BicycleParameters;

/// 2 × 2 matrix by rows: lean, then steer.
pub type Matrix2 = [[f64; 2]; 2];

/// Coefficients of the linear equations of motion, SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinearModel {
    /// Mass matrix M, kg m².
    pub mass: Matrix2,
    /// Damping matrix C₁: the forces of a turning bicycle per unit of speed.
    pub damping: Matrix2,
    /// Stiffness of gravity K₀, per unit of gravity.
    pub stiffness: Matrix2,
    /// Stiffness of speed K₂, per unit of speed squared.
    pub speed_stiffness: Matrix2,
    /// Gravity g, m/s².
    pub gravity: f64,
}

impl LinearModel {
    /// The model of a bicycle. Finite for all [checked](BicycleParameters::checked) parameters.
    #[must_use]
    #[expect(clippy::similar_names, reason = "the symbols of the paper's appendix")]
    pub fn of(p: &BicycleParameters) -> Self {
        let (sin, cos) = p.steer_axis_tilt.sin_cos();
        let w = p.wheelbase;
        let (r_r, r_f) = (p.rear_wheel_radius, p.front_wheel_radius);
        let (m_r, m_b, m_h, m_f) = (p.rear_wheel_mass, p.body_mass, p.front_mass, p.front_wheel_mass);

        // The whole bicycle (T), its moments about the rear contact.
        let mx_t = p.body_x * m_b + p.front_x * m_h + w * m_f;
        let mz_t = -r_r * m_r + p.body_z * m_b + p.front_z * m_h - r_f * m_f;
        let i_txx = p.rear_wheel_ixx
            + p.body_ixx
            + p.front_ixx
            + p.front_wheel_ixx
            + m_r * r_r * r_r
            + m_b * p.body_z * p.body_z
            + m_h * p.front_z * p.front_z
            + m_f * r_f * r_f;
        let i_txz = p.body_ixz + p.front_ixz - m_b * p.body_x * p.body_z - m_h * p.front_x * p.front_z + m_f * w * r_f;
        let i_tzz = p.rear_wheel_ixx
            + p.body_izz
            + p.front_izz
            + p.front_wheel_ixx
            + m_b * p.body_x * p.body_x
            + m_h * p.front_x * p.front_x
            + m_f * w * w;

        // What turns with the bar (A), its moments about its own centre of mass.
        let m_a = m_h + m_f;
        let (x_a, z_a) =
            if m_a > 0.0 { ((p.front_x * m_h + w * m_f) / m_a, (p.front_z * m_h - r_f * m_f) / m_a) } else { (w, -r_f) };
        let i_axx = p.front_ixx + p.front_wheel_ixx + m_h * (p.front_z - z_a).powi(2) + m_f * (r_f + z_a).powi(2);
        let i_axz = p.front_ixz - m_h * (p.front_x - x_a) * (p.front_z - z_a) + m_f * (w - x_a) * (r_f + z_a);
        let i_azz = p.front_izz + p.front_wheel_ixx + m_h * (p.front_x - x_a).powi(2) + m_f * (w - x_a).powi(2);
        // Its centre of mass ahead of the steering axis, and its moments about that axis (λ).
        let u_a = (x_a - w - p.trail) * cos - z_a * sin;
        let i_all = m_a * u_a * u_a + i_axx * sin * sin + 2.0 * i_axz * sin * cos + i_azz * cos * cos;
        let i_alx = -m_a * u_a * z_a + i_axx * sin + i_axz * cos;
        let i_alz = m_a * u_a * x_a + i_axz * sin + i_azz * cos;

        let mu = p.trail / w * cos;
        // Spin of the wheels per unit of speed.
        let (s_r, s_f) = (p.rear_wheel_iyy / r_r, p.front_wheel_iyy / r_f);
        let s_t = s_r + s_f;
        let s_a = m_a * u_a + mu * mx_t;

        let coupled = i_alx + mu * i_txz;
        Self {
            mass: [[i_txx, coupled], [coupled, i_all + 2.0 * mu * i_alz + mu * mu * i_tzz]],
            damping: [
                [0.0, mu * s_t + s_f * cos + i_txz * cos / w - mu * mz_t],
                [-(mu * s_t + s_f * cos), i_alz * cos / w + mu * (s_a + i_tzz * cos / w)],
            ],
            stiffness: [[mz_t, -s_a], [-s_a, -s_a * sin]],
            speed_stiffness: [[0.0, (s_t - mz_t) * cos / w], [0.0, (s_a + s_f * sin) * cos / w]],
            gravity: p.gravity,
        }
    }

    /// Stiffness at a speed, g K₀ + v² K₂.
    #[must_use]
    pub fn stiffness_at(&self, speed_m_s: f64) -> Matrix2 {
        let squared = speed_m_s * speed_m_s;
        let entry =
            |row: usize, column: usize| self.gravity * self.stiffness[row][column] + squared * self.speed_stiffness[row][column];
        [[entry(0, 0), entry(0, 1)], [entry(1, 0), entry(1, 1)]]
    }
}

#[cfg(test)]
mod tests {
    use super::super::parameters::tests::benchmark;
    use super::*;

    #[track_caller]
    fn near(found: Matrix2, printed: Matrix2) {
        for (row, expected) in found.iter().zip(printed) {
            for (found, expected) in row.iter().zip(expected) {
                assert!((found - expected).abs() < 1e-12, "{found} is not {expected}");
            }
        }
    }

    /// Meijaard et al. 2007, section 5: the matrices of the benchmark bicycle as printed.
    #[test]
    fn the_benchmark_has_its_printed_matrices() {
        let model = LinearModel::of(&benchmark());
        near(model.mass, [[80.81722, 2.319_413_322_087_09], [2.319_413_322_087_09, 0.297_841_881_996_86]]);
        near(model.damping, [[0.0, 33.866_413_914_924_94], [-0.850_356_414_569_78, 1.685_403_973_975_60]]);
        near(model.stiffness, [[-80.95, -2.599_516_852_498_72], [-2.599_516_852_498_72, -0.803_294_884_586_18]]);
        near(model.speed_stiffness, [[0.0, 76.597_345_895_732_22], [0.0, 2.654_315_237_946_04]]);
    }

    /// Work of gravity is symmetric, and so is the mass matrix, whatever the bicycle.
    #[test]
    fn mass_and_gravity_are_symmetric() {
        let mut bicycle = benchmark();
        bicycle.trail = -0.03;
        bicycle.front_mass = 20.0;
        let model = LinearModel::of(&bicycle);
        assert!((model.mass[0][1] - model.mass[1][0]).abs() < 1e-12);
        assert!((model.stiffness[0][1] - model.stiffness[1][0]).abs() < 1e-12);
    }
}
