//! Rigid bodies of a bicycle, alike on both sides, and what several of them are together.

/// A rigid body that is alike on both sides of the bicycle's plane. x forward and y **up** from the rear wheel's contact
/// with the ground, m, kg and kg m². Moments are about the body's own centre of mass.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Body {
    /// Mass.
    pub mass: f64,
    /// Centre of mass, forward.
    pub x: f64,
    /// Centre of mass, up.
    pub y: f64,
    /// Moment of inertia about the forward axis.
    pub about_forward: f64,
    /// Moment of inertia about the sideways axis.
    pub about_sideways: f64,
    /// Moment of inertia about the vertical axis.
    pub about_vertical: f64,
    /// Mass-weighted mean of (x − x̄)(y − ȳ): positive where what is higher is also further forward.
    pub forward_and_up: f64,
}

impl Body {
    /// A long body from one point to another. Its centre of mass lies at `centre` of its length; `radii` are its radii of
    /// gyration as shares of the length: square to its axis about the forward side, about the sideways axis, about its
    /// own axis.
    #[must_use]
    pub fn long(mass: f64, from: [f64; 2], to: [f64; 2], centre: f64, radii: [f64; 3]) -> Self {
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        let length = dx.hypot(dy);
        let [across, sideways, along] = radii.map(|r| mass * (r * length).powi(2));
        let (ux, uy) = if length > 0.0 { (dx / length, dy / length) } else { (0.0, 1.0) };
        Self {
            mass,
            x: from[0] + centre * dx,
            y: from[1] + centre * dy,
            about_forward: along * ux * ux + across * uy * uy,
            about_sideways: sideways,
            about_vertical: along * uy * uy + across * ux * ux,
            forward_and_up: (across - along) * ux * uy,
        }
    }

    /// A box of even density: length forward, height, width.
    #[must_use]
    pub fn cuboid(mass: f64, centre: [f64; 2], [length, height, width]: [f64; 3]) -> Self {
        let about = |a: f64, b: f64| mass * (a * a + b * b) / 12.0;
        Self {
            mass,
            x: centre[0],
            y: centre[1],
            about_forward: about(height, width),
            about_sideways: about(length, height),
            about_vertical: about(length, width),
            forward_and_up: 0.0,
        }
    }

    /// The same mass as two halves, each `beside` m away from the bicycle's plane.
    #[must_use]
    pub fn beside(self, beside: f64) -> Self {
        let further = self.mass * beside * beside;
        Self { about_forward: self.about_forward + further, about_vertical: self.about_vertical + further, ..self }
    }

    /// The same body elsewhere.
    #[must_use]
    pub fn moved(self, forward: f64, up: f64) -> Self {
        Self { x: self.x + forward, y: self.y + up, ..self }
    }

    /// Several bodies as one. Of no mass at all where they have none.
    #[must_use]
    pub fn together(bodies: &[Self]) -> Self {
        let mass: f64 = bodies.iter().map(|b| b.mass).sum();
        if mass <= 0.0 {
            return Self::default();
        }
        let mean = |of: fn(&Self) -> f64| bodies.iter().map(|b| b.mass * of(b)).sum::<f64>() / mass;
        let (x, y) = (mean(|b| b.x), mean(|b| b.y));
        let mut whole = Self { mass, x, y, ..Self::default() };
        for body in bodies {
            let (dx, dy) = (body.x - x, body.y - y);
            whole.about_forward += body.about_forward + body.mass * dy * dy;
            whole.about_sideways += body.about_sideways + body.mass * (dx * dx + dy * dy);
            whole.about_vertical += body.about_vertical + body.mass * dx * dx;
            whole.forward_and_up += body.forward_and_up + body.mass * dx * dy;
        }
        whole
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn near(a: f64, b: f64) -> bool {
        (a - b).abs() <= 1e-9 * (1.0 + a.abs().max(b.abs()))
    }

    #[test]
    fn a_slanting_rod_has_its_moments() {
        // A thin rod of 2 kg and 1 m at 45°: m l²/12 square to it, half of that about either axis.
        let third = (1.0f64 / 12.0).sqrt();
        let side = 0.5f64.sqrt();
        let rod = Body::long(2.0, [0.0, 0.0], [side, side], 0.5, [third, third, 0.0]);
        assert!(near(rod.about_sideways, 2.0 / 12.0) && near(rod.about_forward, 1.0 / 12.0));
        assert!(near(rod.about_vertical, 1.0 / 12.0) && near(rod.forward_and_up, 1.0 / 12.0));
        assert!(near(rod.x, side / 2.0) && near(rod.y, side / 2.0));
    }

    #[test]
    fn nothing_together_is_nothing() {
        assert_eq!(Body::together(&[]), Body::default());
        assert_eq!(Body::together(&[Body::cuboid(0.0, [1.0, 1.0], [1.0; 3])]), Body::default());
    }

    proptest! {
        /// A box cut in two is the same box: by the parallel axes.
        #[test]
        fn a_box_cut_in_two_is_the_box(mass in 0.1..50.0f64, x in -1.0..1.0f64, y in 0.0..1.5f64, length in 0.1..1.0f64, cut in 0.1..0.9f64) {
            let whole = Body::cuboid(mass, [x, y], [length, 0.3, 0.2]);
            let left = Body::cuboid(mass * cut, [x - length / 2.0 * (1.0 - cut), y], [length * cut, 0.3, 0.2]);
            let right = Body::cuboid(mass * (1.0 - cut), [x + length / 2.0 * cut, y], [length * (1.0 - cut), 0.3, 0.2]);
            let joined = Body::together(&[left, right]);
            for (a, b) in [
                (joined.mass, whole.mass), (joined.x, whole.x), (joined.y, whole.y), (joined.about_forward, whole.about_forward),
                (joined.about_sideways, whole.about_sideways), (joined.about_vertical, whole.about_vertical),
                (joined.forward_and_up, 0.0),
            ] {
                prop_assert!(near(a, b), "{a} {b}");
            }
        }

        /// Halves to the left and the right add what the parallel axes say, and move nothing.
        #[test]
        fn halves_beside_the_plane_turn_harder(mass in 0.1..50.0f64, beside in 0.0..0.5f64) {
            let apart = Body::cuboid(mass, [0.0, 0.0], [0.3, 0.3, 0.1]).beside(beside);
            let one = Body::cuboid(mass, [0.0, 0.0], [0.3, 0.3, 0.1]);
            prop_assert!(near(apart.about_forward - one.about_forward, mass * beside * beside));
            prop_assert_eq!(apart.about_sideways, one.about_sideways);
            prop_assert_eq!((apart.x, apart.y), (0.0, 0.0));
        }
    }
}
