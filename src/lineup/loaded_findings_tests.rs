//! Loaded bicycles of the sample comparison: what holds for every load, and their ± against a Monte Carlo.

use super::document::Lineup;
use super::findings::Findings;
use super::loaded_findings::{LoadedFindings, NotLoaded, bare, masses};
use crate::frameset::{Figure, FrameIndex};
use crate::geometry::STATES;
use crate::loaded::{
    CriticalSpeeds, LinearModel, Load, LoadedFigure, Loading, LuggagePlace, NamedMotion, Quartic, WheelLoads, assemble,
    own_inputs, shared_u,
};
use crate::units::{AnyKind, Measured};

fn lineup() -> Lineup {
    crate::lineup::read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
}

fn value(found: &LoadedFindings, frame: usize, loading: usize, figure: LoadedFigure) -> Measured<AnyKind> {
    found.frames[frame].rides[loading].as_ref().unwrap().figure(figure).unwrap()
}

#[test]
fn where_the_load_hangs_matters_more_than_which_frame() {
    let lineup = lineup();
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    let weave = |frame, loading| value(found, frame, loading, LoadedFigure::WeaveSpeed).value;
    let bare = weave(0, 0);
    let by_front = weave(0, 2) - bare;
    for frame in 1..6 {
        assert!((weave(frame, 0) - bare).abs() < by_front / 2.0, "frame {frame}");
    }
    // Luggage at the front loads the front wheel, behind the rear one.
    let share = |loading| value(found, 0, loading, LoadedFigure::FrontShare).value;
    assert!(share(1) < share(0) && share(0) < share(2));
}

/// Both wheels carry everything, with every loading.
#[test]
fn wheel_loads_sum_to_the_whole() {
    let lineup = lineup();
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    for ride in found.frames.iter().flat_map(|f| &f.rides).flatten() {
        let of = |figure| ride.figure(figure).unwrap().value;
        assert!((of(LoadedFigure::FrontLoad) + of(LoadedFigure::RearLoad) - of(LoadedFigure::WholeMass)).abs() < 1e-9);
    }
}

/// No kilogram anywhere is no luggage at all, in every figure and its u.
#[test]
fn a_loading_of_nothing_is_no_luggage() {
    let mut lineup = lineup();
    let kg = LuggagePlace::ALL.map(|place| (place, 0.0)).into_iter().collect();
    lineup.settings.loaded.loadings = vec![Loading { name: "empty".to_owned(), kg }];
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    for figure in LoadedFigure::ALL {
        let (bare, empty) = (value(found, 0, 0, figure), value(found, 0, 1, figure));
        assert!((bare.value - empty.value).abs() < 1e-9 && (bare.u - empty.u).abs() < 1e-9, "{figure:?}");
        assert!(found.by_loading(FrameIndex(0), 1, figure).unwrap().u < 1e-6, "{figure:?}");
    }
}

/// Rider and wheels are one for all frames: a difference is surer than either side.
#[test]
fn what_frames_share_drops_out_of_their_differences() {
    let lineup = lineup();
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    assert_eq!(findings.loaded_difference(&lineup, FrameIndex(0), 0, LoadedFigure::WeaveSpeed), None, "of the reference itself");
    for figure in [LoadedFigure::WeaveSpeed, LoadedFigure::FrontShare, LoadedFigure::PitchOver] {
        let apart = findings.loaded_difference(&lineup, FrameIndex(3), 0, figure).unwrap();
        let [own, base] = [3, 0].map(|frame| value(found, frame, 0, figure));
        assert!((apart.value - (own.value - base.value)).abs() < 1e-12);
        assert!(apart.u < 0.4 * own.u.min(base.u), "{figure:?}: {} beside {} and {}", apart.u, own.u, base.u);
    }
}

#[test]
fn missing_figures_and_a_body_that_does_not_reach_are_told() {
    let mut lineup = lineup();
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    assert!(matches!(&found.frames[6].rides[0], Err(NotLoaded::Missing(figures)) if figures.contains(&Figure::Wheelbase)));
    lineup.settings.loaded.body_height = 1200.0;
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    assert!(matches!(found.frames[0].rides[0], Err(NotLoaded::Posture(_))));
}

/// The ± of the weave speed and of the front wheel's share by first order agrees with 2,000 draws of the inputs within
/// 10 % (JCGM 101:2008).
#[test]
fn uncertainties_agree_with_a_monte_carlo() {
    let lineup = lineup();
    let findings = Findings::of(&lineup);
    let frame = &findings.frames[0];
    let (found, size) = (findings.loaded(&lineup), frame.chosen().unwrap());
    let covariance = size.covariance;
    let factor = nalgebra::SMatrix::<f64, STATES, STATES>::from_fn(|i, j| covariance[i][j] + if i == j { 1e-12 } else { 0.0 });
    let factor = factor.cholesky().unwrap().l();
    let mut seed = 0x5eed_0001_u64;
    let mut normal = || {
        // The sum of twelve even numbers is nearly normal.
        let mut next = || {
            seed ^= seed << 13;
            seed ^= seed >> 7;
            seed ^= seed << 17;
            (seed >> 11) as f64 / (1u64 << 53) as f64
        };
        (0..12).map(|_| next()).sum::<f64>() - 6.0
    };
    let (mass, _) = masses(frame);
    for loading in 0..3 {
        let luggage = found.loadings[loading].as_ref();
        let bare = bare(&lineup, frame, found.seat, mass).unwrap();
        let (body, load) = (bare.body, Load { luggage, ..bare.load });
        let base = own_inputs(&size.state, &body);
        let mut drawn: [Vec<f64>; 2] = [Vec::new(), Vec::new()];
        for _ in 0..2000 {
            let z = nalgebra::SVector::<f64, STATES>::from_fn(|_, _| normal());
            let moved = factor * z;
            let mut own = base;
            (0..STATES).for_each(|i| own[i] += moved[i]);
            own[STATES] += mass[0].u / 1000.0 * normal();
            own[STATES + 1] += mass[1].u / 1000.0 * normal();
            own[STATES + 2] += crate::loaded::FRAME_CENTRE_U_M * normal();
            own[STATES + 3] += crate::loaded::FRAME_CENTRE_U_M * normal();
            let shared = shared_u().map(|u| u * normal());
            let bicycle = assemble(&own, &shared, &body, &load);
            let speeds = CriticalSpeeds::of(&Quartic::of(&LinearModel::of(&bicycle)));
            drawn[0].extend(speeds.weave);
            drawn[1].push(100.0 * WheelLoads::of(&bicycle).front_share());
        }
        for (drawn, figure) in drawn.iter().zip([LoadedFigure::WeaveSpeed, LoadedFigure::FrontShare]) {
            let n = drawn.len() as f64;
            let mean = drawn.iter().sum::<f64>() / n;
            let sd = (drawn.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt();
            let first_order = value(found, 0, loading, figure).u;
            assert!((sd / first_order - 1.0).abs() < 0.10, "{figure:?} {loading}: {sd} drawn, {first_order} by first order");
        }
    }
}

/// A bottom bracket 304 mm high (64 mm below axles of 57-622 tyres) with cranks of 170 mm: atan((304 − 170 − 10) / 180).
#[test]
fn a_pedal_touches_the_road_at_its_lean() {
    let lineup = lineup();
    let lean = Findings::of(&lineup).loaded(&lineup).frames[0].pedal_lean.unwrap();
    assert!((lean.value - 34.56).abs() < 0.1 && (1.0..3.0).contains(&lean.u), "{} ± {}", lean.value, lean.u);
}

/// The centre of mass divides the wheelbase as the wheels share the load, and bags hang where their names say.
#[test]
fn the_side_shows_what_the_wheels_carry() {
    let mut lineup = lineup();
    let kg = LuggagePlace::ALL.map(|place| (place, 2.0)).into_iter().collect();
    lineup.settings.loaded.loadings = vec![Loading { name: "all over".to_owned(), kg }];
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    for loading in 0..2 {
        let side = findings.loaded_side(&lineup, FrameIndex(0), loading).unwrap();
        let points = findings.frames[0].chosen().unwrap().points();
        let wheelbase = value(found, 0, loading, LoadedFigure::FrontShare).value / 100.0;
        let along = (side.centre_of_mass[0] * 1000.0 - points.rear_axle.x) / (points.front_axle.x - points.rear_axle.x);
        assert!((along - wheelbase).abs() < 1e-9, "{along} {wheelbase}");
        assert_eq!(side.wheel_loads[1], Some(value(found, 0, loading, LoadedFigure::FrontLoad)));
        assert!(side.posture.hip[1] > side.saddle[1] && side.posture.vertex[1] > side.posture.shoulder[1]);
        // Knees bend forward of the way from hip to ankle, elbows down.
        let hip = side.posture.hip;
        for leg in &side.posture.legs {
            let from_hip = |p: [f64; 2]| [p[0] - hip[0], p[1] - hip[1]];
            let ([ax, ay], [kx, ky]) = (from_hip(leg.ankle), from_hip(leg.knee));
            assert!(ax * ky - ay * kx > 0.0, "{leg:?}");
        }
        assert!(side.posture.elbow[1] < side.posture.shoulder[1]);
    }
    let side = findings.loaded_side(&lineup, FrameIndex(0), 1).unwrap();
    let middle = |place: LuggagePlace| {
        let bag = side.bags.iter().find(|bag| bag.place == place).unwrap();
        bag.outline.iter().map(|p| p[0]).sum::<f64>() / bag.outline.len() as f64
    };
    assert_eq!(side.bags.len(), LuggagePlace::ALL.len());
    for place in LuggagePlace::ALL {
        let bar = side.bar[0][0];
        assert_eq!(middle(place) > bar - 0.1, place.turns_with_the_bar(), "{place:?} at {}", middle(place));
    }
    assert_eq!(findings.loaded_side(&lineup, FrameIndex(6), 0), None, "of a frame without its figures");
}

/// Luggage that hangs behind alone does what a loading of rear panniers does, in value and ±.
#[test]
fn moved_luggage_begins_and_ends_as_the_loadings() {
    let lineup = lineup();
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    let without_frame_bag: Vec<_> = findings.moved_luggage(&lineup)[0].0.iter().filter(|s| s.in_frame_percent == 0.0).collect();
    let ends = [(without_frame_bag.first().unwrap(), 1), (without_frame_bag.last().unwrap(), 2)];
    for (end, loading) in ends {
        assert_eq!(lineup.settings.price_and_climb.luggage_kg, found.loadings[loading].as_ref().unwrap().whole_kg());
        for figure in [LoadedFigure::WeaveSpeed, LoadedFigure::FrontLoad, LoadedFigure::FrontShare, LoadedFigure::PitchOver] {
            let (moved, loaded) = (end.figure(figure).unwrap(), value(found, 0, loading, figure));
            // No luggage at all hangs in the other places: they add nothing to the ±.
            assert!((moved.value - loaded.value).abs() < 1e-9 && (moved.u / loaded.u - 1.0).abs() < 1e-6, "{figure:?}");
        }
    }
    assert!(findings.moved_luggage(&lineup)[6].0.is_empty());
}

/// Weaving is named where two of the four motions swing; its growth changes sign at the weave speed.
#[test]
fn weaving_begins_to_die_out_at_the_weave_speed() {
    let lineup = lineup();
    let findings = Findings::of(&lineup);
    let found = findings.loaded(&lineup);
    for ride in found.frames[0].rides.iter().flatten() {
        let (weave, capsize) = (ride.speeds.weave.unwrap(), ride.speeds.capsize.unwrap());
        for (motion, speed, sign) in [(NamedMotion::Weave, weave, -1.0), (NamedMotion::Capsize, capsize, 1.0)] {
            let growth = |by: f64| ride.motion(motion, speed * by).unwrap().growth.value * sign;
            assert!(growth(0.98) < 0.0 && growth(1.02) > 0.0, "{motion:?} at {speed}");
        }
        assert!(ride.motion(NamedMotion::Weave, 0.0).is_none(), "at rest nothing swings");
    }
}
