//! Frame, parts, rider and luggage put together as the four bodies of the Whipple model.
//!
//! Masses of parts that were not typed, and where they sit, are trade practice, unverified; each has its u. What is one
//! for all frames (rider, wheels, luggage) stands apart from what each frame has of its own, so that it drops out of
//! differences between frames.

use super::body::Body;
use super::luggage_place::{Anchors, LuggagePlace, PLACE_U_M};
use super::parameters::BicycleParameters;
use super::settings::Loading;
use crate::geometry::{Points, Quantity as Q, STATES, State, points, trail};

/// Standard gravity, m/s² (CGPM 1901).
pub const GRAVITY: f64 = 9.806_65;

/// Uncertain inputs that are one for all frames: rider, wheels, bar, other parts, then each place of luggage forward and up.
pub const SHARED: usize = 12 + 2 * LuggagePlace::ALL.len();

/// Standard uncertainties of the shared inputs. Inputs are departures from what is assumed: m, kg, or shares.
#[must_use]
pub fn shared_u() -> [f64; SHARED] {
    let mut u = [PLACE_U_M; SHARED];
    // Rider forward and up (m), rider's moments (share); front and rear wheel (kg), their spin (share); bar, stem and
    // levers (kg, forward, up in m); other parts forward and up (m).
    let first = [0.015, 0.015, 0.05, 0.15, 0.20, 0.08, 0.08, 0.20, 0.02, 0.02, 0.03, 0.03];
    u[..first.len()].copy_from_slice(&first);
    u
}

/// Uncertain inputs of one frame: its state, then the masses of frame and fork (kg) and the frame's centre forward and up (m).
pub const OWN: usize = STATES + 4;

/// Standard uncertainty of where a frame's own mass is centred, m: trade practice, unverified.
pub const FRAME_CENTRE_U_M: f64 = 0.02;

/// Masses of the parts other than frame and fork, kg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartMasses {
    /// All of them.
    pub whole: f64,
    /// Front wheel without its tyre.
    pub front_wheel: f64,
    /// Rear wheel with its cassette, without its tyre.
    pub rear_wheel: f64,
    /// Bar, stem, levers, upper headset.
    pub bar: f64,
}

impl PartMasses {
    /// Usual masses of wheels and bar within a bicycle whose parts weigh `whole` kg; trade practice, unverified. Light
    /// builds keep their proportions.
    #[must_use]
    pub fn usual(whole: f64) -> Self {
        let share = (whole / 11.0).min(1.0);
        Self { whole, front_wheel: 0.95 * share, rear_wheel: 1.60 * share, bar: 1.20 * share }
    }
}

/// A wheel's size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WheelSize {
    /// Radius of the rim's bead seat, m.
    pub rim_radius: f64,
    /// Width of the tyre, m.
    pub tyre_width: f64,
}

impl WheelSize {
    /// Mass of a tyre with tube or sealant, kg: 13 g a millimetre of width at 622 mm; trade practice, unverified.
    fn tyre_kg(self) -> f64 {
        13.0 * self.tyre_width * self.rim_radius / 0.311
    }

    /// Mass (kg) and moment about the axle (kg m²) of a wheel of outer radius `radius` m that weighs `wheel_kg` without
    /// its tyre: half of that in the rim, a quarter in the spokes, the rest at the hub; trade practice, unverified.
    fn spin(self, wheel_kg: f64, radius: f64) -> (f64, f64) {
        let tyre = self.tyre_kg();
        let tyre_radius = f64::midpoint(radius, self.rim_radius);
        let rim = 0.5 * wheel_kg.min(1.0) * self.rim_radius * self.rim_radius;
        let spokes = 0.25 * wheel_kg.min(1.0) * self.rim_radius * self.rim_radius / 3.0;
        (wheel_kg + tyre, tyre * tyre_radius * tyre_radius + rim + spokes)
    }
}

/// What is the same for all frames: who rides with what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load<'a> {
    /// The seated rider, from the bottom bracket: see [`RiderBody::seated`](super::RiderBody::seated).
    pub rider: Body,
    /// Masses of parts.
    pub parts: PartMasses,
    /// Top of the saddle from the bottom bracket, forward and up, m.
    pub saddle: [f64; 2],
    /// Hands from the bottom bracket, m.
    pub hands: [f64; 2],
    /// Middle of the bar's clamp from the bottom bracket, m.
    pub bar: [f64; 2],
    /// Luggage; `None` without any.
    pub luggage: Option<&'a Loading>,
}

/// What a frame adds to its state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrameBody {
    /// Mass of the frame alone, kg.
    pub frame_kg: f64,
    /// Mass of the fork, kg.
    pub fork_kg: f64,
    /// Middle of the bag in the main triangle from the bottom bracket, m.
    pub frame_bag: [f64; 2],
    /// Rear wheel.
    pub rear_wheel: WheelSize,
    /// Front wheel.
    pub front_wheel: WheelSize,
}

/// Uncertain inputs at the values that are taken.
pub type Own = [f64; OWN];

/// Inputs of a frame: its state with its masses.
#[must_use]
pub fn own_inputs(state: &State<f64>, frame: &FrameBody) -> Own {
    let mut own = [0.0; OWN];
    own[..STATES].copy_from_slice(&state.0);
    own[STATES] = frame.frame_kg;
    own[STATES + 1] = frame.fork_kg;
    own
}

/// Puts a loaded bicycle together.
#[must_use]
pub fn assemble(own: &Own, shared: &[f64; SHARED], frame: &FrameBody, load: &Load<'_>) -> BicycleParameters {
    let mut state = [0.0; STATES];
    state.copy_from_slice(&own[..STATES]);
    let state = State(state);
    let at: Points<f64> = points(&state);
    let [frame_kg, fork_kg, frame_forward, frame_up] = [own[STATES], own[STATES + 1], own[STATES + 2], own[STATES + 3]];
    let (rear_radius, front_radius) = (state.get(Q::RearTyreRadius) / 1000.0, state.get(Q::FrontTyreRadius) / 1000.0);
    // From the bottom bracket in mm to the rear contact in m.
    let origin = [at.rear_axle.x / 1000.0, at.rear_axle.y / 1000.0 - rear_radius];
    let moved = |[x, y]: [f64; 2]| [x - origin[0], y - origin[1]];
    let point = |p: crate::geometry::Point<f64>| moved([p.x / 1000.0, p.y / 1000.0]);
    let anchors = Anchors::of(&at, frame.frame_bag, load.saddle, load.bar).from_point(origin);
    let Anchors { rear_axle, front_axle, crown, bar, .. } = anchors;
    let [hands, bottom_bracket] = [load.hands, [0.0, 0.0]].map(moved);

    let [rider_forward, rider_up, rider_moments] = [shared[0], shared[1], 1.0 + shared[2]];
    let mut rider = load.rider.moved(rider_forward - origin[0], rider_up - origin[1]);
    rider.about_forward *= rider_moments;
    rider.about_vertical *= rider_moments;
    rider.forward_and_up *= rider_moments;

    let parts = &load.parts;
    let (front_wheel, front_spin) = frame.front_wheel.spin(parts.front_wheel + shared[3], front_radius);
    let (rear_wheel, rear_spin) = frame.rear_wheel.spin(parts.rear_wheel + shared[4], rear_radius);
    let bar_kg = parts.bar + shared[7];
    let rest_kg = (parts.whole - front_wheel - rear_wheel - bar_kg).max(0.0);

    // A frame's mass is spread over its tubes: as a box around its main triangle, its centre the mean of its corners.
    let corners = [at.head_bottom, at.seat_top, at.rear_axle].map(point);
    let mean = |i: usize| (corners.iter().map(|c| c[i]).sum::<f64>() + bottom_bracket[i]) / 4.0;
    let frame_body = Body::cuboid(frame_kg, [mean(0) + frame_forward, mean(1) + frame_up], [0.9, 0.45, 0.08]);
    // Cranks, derailleurs, seat post, saddle and pedals: around the bottom bracket and up to the saddle.
    let low = [bottom_bracket[0] + shared[10], bottom_bracket[1] + 0.12 + shared[11]];
    let rest = Body::cuboid(rest_kg, low, [0.35, 0.60, 0.20]);
    let fork = Body::long(fork_kg, crown, front_axle, 0.35, [0.33, 0.33, 0.12]);
    let held = [f64::midpoint(bar[0], hands[0]) + shared[8], f64::midpoint(bar[1], hands[1]) + shared[9]];
    let bar_body = Body::cuboid(bar_kg, held, [0.12, 0.06, 0.60]);

    let mut behind = vec![rider, frame_body, rest];
    let mut in_front = vec![fork, bar_body];
    if let Some(luggage) = load.luggage {
        for (place, kg) in &luggage.kg {
            let first = 12 + 2 * place.index();
            let body = place.body(*kg, &anchors).moved(shared[first], shared[first + 1]);
            if place.turns_with_the_bar() { in_front.push(body) } else { behind.push(body) }
        }
    }
    let (body, front) = (Body::together(&behind), Body::together(&in_front));
    let head_angle = state.get(Q::HeadAngle);
    BicycleParameters {
        wheelbase: front_axle[0] - rear_axle[0],
        trail: trail(front_radius, state.get(Q::ForkOffset) / 1000.0, head_angle),
        steer_axis_tilt: (90.0 - head_angle).to_radians(),
        gravity: GRAVITY,
        rear_wheel_radius: rear_radius,
        rear_wheel_mass: rear_wheel,
        rear_wheel_ixx: rear_spin * (1.0 + shared[6]) / 2.0,
        rear_wheel_iyy: rear_spin * (1.0 + shared[6]),
        body_x: body.x,
        body_z: -body.y,
        body_mass: body.mass,
        body_ixx: body.about_forward,
        body_iyy: body.about_sideways,
        body_izz: body.about_vertical,
        body_ixz: body.forward_and_up,
        front_x: front.x,
        front_z: -front.y,
        front_mass: front.mass,
        front_ixx: front.about_forward,
        front_iyy: front.about_sideways,
        front_izz: front.about_vertical,
        front_ixz: front.forward_and_up,
        front_wheel_radius: front_radius,
        front_wheel_mass: front_wheel,
        front_wheel_ixx: front_spin * (1.0 + shared[5]) / 2.0,
        front_wheel_iyy: front_spin * (1.0 + shared[5]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    /// Each shared input moves the parameter that it is about, in its direction, and leaves the other end alone.
    #[test]
    fn shared_inputs_are_about_what_they_say() {
        let frameset = read_frameset(include_bytes!("../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        let size = adjust(&frameset).sizes[1].clone();
        let wheel = WheelSize { rim_radius: 0.311, tyre_width: 0.057 };
        let frame = FrameBody { frame_kg: 2.6, fork_kg: 1.3, frame_bag: [0.1, 0.25], rear_wheel: wheel, front_wheel: wheel };
        let kg = LuggagePlace::ALL.map(|place| (place, 2.0)).into_iter().collect();
        let luggage = Loading { name: "all over".to_owned(), kg };
        let load = Load {
            rider: Body::cuboid(70.0, [-0.05, 0.84], [0.5, 0.9, 0.4]),
            parts: PartMasses::usual(11.0),
            saddle: [-0.21, 0.70],
            hands: [0.50, 0.68],
            bar: [0.42, 0.68],
            luggage: Some(&luggage),
        };
        let own = own_inputs(&size.state, &frame);
        let base = assemble(&own, &[0.0; SHARED], &frame, &load);
        let moved = |i: usize| {
            let mut shared = [0.0; SHARED];
            shared[i] = 0.05;
            assemble(&own, &shared, &frame, &load)
        };
        let more = |i: usize, of: fn(&BicycleParameters) -> f64| assert!(of(&moved(i)) > of(&base), "input {i}");
        let same = |i: usize, of: fn(&BicycleParameters) -> f64| assert_eq!(of(&moved(i)), of(&base), "input {i}");
        for i in [0, 10] {
            more(i, |p| p.body_x);
            same(i, |p| p.front_x);
        }
        for i in [1, 11] {
            more(i, |p| -p.body_z);
            same(i, |p| p.front_z);
        }
        more(2, |p| p.body_ixx);
        for (i, front) in [(3, true), (4, false)] {
            let [this, other]: [fn(&BicycleParameters) -> f64; 2] = if front {
                [|p| p.front_wheel_mass, |p| p.rear_wheel_mass]
            } else {
                [|p| p.rear_wheel_mass, |p| p.front_wheel_mass]
            };
            more(i, this);
            same(i, other);
        }
        for (i, front) in [(5, true), (6, false)] {
            let [this, other]: [fn(&BicycleParameters) -> f64; 2] =
                if front { [|p| p.front_wheel_iyy, |p| p.rear_wheel_iyy] } else { [|p| p.rear_wheel_iyy, |p| p.front_wheel_iyy] };
            more(i, this);
            same(i, other);
        }
        more(7, |p| p.front_mass);
        more(8, |p| p.front_x);
        more(9, |p| -p.front_z);
        for place in LuggagePlace::ALL {
            let first = 12 + 2 * place.index();
            let turns = place.turns_with_the_bar();
            more(first, if turns { |p| p.front_x } else { |p| p.body_x });
            more(first + 1, if turns { |p| -p.front_z } else { |p| -p.body_z });
            same(first, if turns { |p| p.body_x } else { |p| p.front_x });
        }
    }
}
