//! Bottles on tubes that lie along the axes, so that every place and gap follows by hand.

use super::bag::{Bag, bag};
use super::plane::signed_area;
use super::tests::{USUAL, bag_space_of, made};
use super::*;
use crate::frameset::{SizeIndex, Tube};
use crate::geometry::{Outline, Point, TubeOutline, Wheel, adjust, outline};

/// Corners of an upright rectangle, counter-clockwise.
fn block(x: [f64; 2], y: [f64; 2]) -> Vec<Point<f64>> {
    [(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])].map(|(x, y)| Point { x, y }).to_vec()
}

fn tube(tube: Tube, axis: [(f64, f64); 2], outline: Vec<Point<f64>>) -> TubeOutline {
    let axis = axis.map(|(x, y)| Point { x, y }).to_vec();
    TubeOutline { tube, axis, outline, diameter_mm: 40.0, is_assumed: false }
}

/// A side view of these tubes and nothing else.
fn of_tubes(tubes: Vec<TubeOutline>) -> Outline {
    let frameset = made(USUAL, "");
    let whole = outline(&frameset, &adjust(&frameset), SizeIndex(0), None).unwrap();
    Outline { tubes, front_wheel: None, rear_wheel: None, ..whole }
}

/// A tube of 40 mm that runs level forwards from the bottom bracket.
fn level(which: Tube) -> TubeOutline {
    tube(which, [(0.0, 0.0), (600.0, 0.0)], block([0.0, 600.0], [-20.0, 20.0]))
}

const CAGE: Cage = Cage { bottle: Bottle::Middle, lower_boss_mm: 235.0 };
const NONE: CageSettings = CageSettings { down_tube: None, seat_tube: None, under_down_tube: None, chainring_teeth: 40 };
const ON_DOWN_TUBE: CageSettings = CageSettings { down_tube: Some(CAGE), ..NONE };
const UNDER: CageSettings = CageSettings { under_down_tube: Some(CAGE), ..NONE };

/// The base lies 45 mm below the lower boss, the body begins 6 mm off the tube and is 74 mm thick; the shoulder leads from
/// 50 mm below the mouth over 25 mm to a neck of 42 mm.
#[test]
fn a_bottle_stands_off_its_tube_by_its_cage() {
    for (holder, which, side) in [
        (Holder::DownTube, Tube::DownTube, 1.0),
        (Holder::SeatTube, Tube::SeatTube, -1.0),
        (Holder::UnderDownTube, Tube::DownTube, -1.0),
    ] {
        let settings = match holder {
            Holder::DownTube => ON_DOWN_TUBE,
            Holder::SeatTube => CageSettings { seat_tube: Some(CAGE), ..NONE },
            Holder::UnderDownTube => UNDER,
        };
        let found = bottles(&of_tubes(vec![level(which)]), None, &settings);
        assert_eq!(found.fits.len(), 1);
        let fit = &found.fits[0];
        assert_eq!((fit.holder, fit.bottle), (holder, Bottle::Middle));
        for (x, y) in [(190.0, 26.0), (190.0, 100.0), (352.0, 26.0), (352.0, 100.0), (377.0, 42.0), (377.0, 84.0), (402.0, 42.0)]
        {
            let near = |p: &Point<f64>| (p.x - x).hypot(p.y - y * side) < 1e-9;
            assert!(fit.outline.iter().any(near), "{holder:?}: no corner at {x}, {y}: {:?}", fit.outline);
        }
        // 162 × 74 of body, 25 × (74 + 42) / 2 of shoulder, 25 × 42 of neck; counter-clockwise.
        assert!((signed_area(&fit.outline) - (11988.0 + 1450.0 + 1050.0)).abs() < 1e-6);
        let bosses = fit.bosses.map(|p| (p.x, p.y * side));
        assert!((bosses[0].0 - 235.0).abs() < 1e-9 && (bosses[1].0 - 299.0).abs() < 1e-9, "{bosses:?}");
        assert!(bosses.iter().all(|b| (b.1 - 20.0).abs() < 1e-9), "{bosses:?}");
    }
}

/// The same on a tube that leans: turned about the bottom bracket and moved with the tube's foot.
#[test]
fn a_bottle_turns_with_its_tube() {
    let (sin, cos) = (0.6, 0.8);
    let leaning = tube(Tube::DownTube, [(10.0, -5.0), (10.0 + 500.0 * cos, -5.0 + 500.0 * sin)], Vec::new());
    let fits = |tube| bottles(&of_tubes(vec![tube]), None, &ON_DOWN_TUBE).fits[0].outline.clone();
    for (p, q) in fits(level(Tube::DownTube)).into_iter().zip(fits(leaning)) {
        let turned = Point { x: 10.0 + p.x * cos - p.y * sin, y: -5.0 + p.x * sin + p.y * cos };
        assert!((turned.x - q.x).hypot(turned.y - q.y) < 1e-9, "{turned:?} {q:?}");
    }
}

#[test]
fn a_cage_without_its_tube_is_named_and_stands_nowhere() {
    let found = bottles(&of_tubes(vec![level(Tube::SeatTube)]), None, &ON_DOWN_TUBE);
    assert_eq!((found.fits.len(), found.without_tube.len()), (0, 1));
    let short = tube(Tube::DownTube, [(0.0, 0.0), (0.3, 0.4)], Vec::new());
    assert_eq!(bottles(&of_tubes(vec![short]), None, &ON_DOWN_TUBE).without_tube.len(), 1);
    let just = tube(Tube::DownTube, [(0.0, 0.0), (0.9, 1.2)], Vec::new());
    assert_eq!(bottles(&of_tubes(vec![just]), None, &ON_DOWN_TUBE).fits.len(), 1);
    let both = CageSettings { down_tube: Some(CAGE), seat_tube: Some(CAGE), ..NONE };
    assert_eq!(bottles(&of_tubes(Vec::new()), None, &both).without_tube.len(), 2);
    assert_eq!(bottles(&of_tubes(vec![level(Tube::DownTube)]), None, &NONE), Bottles::default());
}

/// The mouth ends at x = 402 mm, the base at 190; the body lies between y = 26 and 100.
#[test]
fn gaps_are_those_to_the_nearest_point() {
    let with = |what: Tube, x, y| {
        let other = tube(what, [(0.0, 0.0), (1.0, 1.0)], block(x, y));
        bottles(&of_tubes(vec![level(Tube::DownTube), other]), None, &ON_DOWN_TUBE).fits[0].clone()
    };
    for (x, y, gap) in [
        ([409.0, 500.0], [0.0, 100.0], 7.0),
        ([100.0, 186.5], [0.0, 100.0], 3.5),
        ([190.0, 300.0], [112.0, 150.0], 12.0),
        ([100.0, 187.0], [104.0, 150.0], 5.0),
    ] {
        let fit = with(Tube::HeadTube, x, y);
        let (clash, found) = fit.nearest.unwrap();
        assert_eq!(clash, Clash::Tube(Tube::HeadTube));
        assert!((found - gap).abs() < 1e-9 && fit.fits(), "{found} {gap}");
    }
    // Over its side of 74 mm they share 0.9 and 1.1 mm²: less than 1 mm² is the drawing's own roundness.
    let touching = with(Tube::ChainStay, [100.0, 190.0 + 0.9 / 74.0], [0.0, 200.0]);
    assert!(touching.fits() && touching.nearest.is_some_and(|(_, gap)| gap > 0.0 && gap < 0.01), "{touching:?}");
    let hit = with(Tube::ChainStay, [100.0, 190.0 + 1.1 / 74.0], [0.0, 200.0]);
    assert_eq!((hit.hits.as_slice(), hit.fits(), hit.nearest), (&[Clash::Tube(Tube::ChainStay)][..], false, None));
    // Seat post and seat stays lie behind or above, whatever the side view shows.
    for behind in [Tube::SeatPost, Tube::SeatStay] {
        let fit = with(behind, [100.0, 300.0], [0.0, 200.0]);
        assert!(fit.fits() && fit.nearest.is_none(), "{behind:?}");
    }
}

#[test]
fn bottles_of_two_cages_stand_to_each_other() {
    // The seat tube runs level the other way, 300 mm above, so that its bottle hangs below it: from y = 274 to 200.
    let above = |y: f64| tube(Tube::SeatTube, [(0.0, y), (600.0, y)], block([0.0, 600.0], [y - 20.0, y + 20.0]));
    let both = CageSettings { down_tube: Some(CAGE), seat_tube: Some(CAGE), ..NONE };
    let at = |y| bottles(&of_tubes(vec![level(Tube::DownTube), above(y)]), None, &both).fits;
    let apart = at(300.0);
    // 100 mm to the bottle, and 180 to the tube.
    for (fit, other) in apart.iter().zip([Holder::SeatTube, Holder::DownTube]) {
        let (clash, gap) = fit.nearest.unwrap();
        assert!(fit.fits() && clash == Clash::Bottle(other) && (gap - 100.0).abs() < 1e-9, "{fit:?}");
    }
    let close = at(190.0);
    assert_eq!(close[0].hits, [Clash::Bottle(Holder::SeatTube)]);
    assert_eq!(close[1].hits, [Clash::Bottle(Holder::DownTube)]);
    assert_eq!(close[0].nearest.unwrap().0, Clash::Tube(Tube::SeatTube));
    assert!((close[0].nearest.unwrap().1 - 70.0).abs() < 1e-9);
}

#[test]
fn tyres_reach_as_far_as_their_radius() {
    let wheel = |x: f64, tyre_radius_mm: f64| Some(Wheel { axle: Point { x, y: 63.0 }, tyre_radius_mm, rim_radius_mm: 311.0 });
    let with = |front_wheel, rear_wheel| {
        let seen = Outline { rear_wheel, front_wheel, ..of_tubes(vec![level(Tube::DownTube)]) };
        bottles(&seen, None, &ON_DOWN_TUBE).fits[0].clone()
    };
    let both = with(wheel(802.0, 390.0), wheel(-160.0, 345.0));
    assert!(both.fits() && both.nearest.is_some_and(|(c, gap)| c == Clash::RearTyre && (gap - 5.0).abs() < 1e-9), "{both:?}");
    let front = with(wheel(802.0, 398.0), wheel(-160.0, 345.0));
    assert!(front.nearest.is_some_and(|(c, gap)| c == Clash::FrontTyre && (gap - 2.0).abs() < 1e-9), "{front:?}");
    assert_eq!(with(wheel(802.0, 400.5), wheel(-160.0, 345.0)).hits, [Clash::FrontTyre]);
    assert_eq!(with(wheel(802.0, 390.0), wheel(-160.0, 350.5)).hits, [Clash::RearTyre]);
    // An axle within the bottle is hit whatever the radius.
    assert_eq!(with(wheel(250.0, 1.0), None).hits, [Clash::FrontTyre]);
    assert_eq!(with(None, None).nearest, None);
}

/// A ring of 40 teeth of half an inch has a pitch circle of 12.7 / (2 sin 4.5°) = 80.93 mm; 4 mm more to the tips. Across,
/// half a bottle of 74 mm leaves 10 of the 47 mm to the ring.
#[test]
fn a_chain_ring_is_near_under_the_down_tube_alone() {
    let at = |holder: Holder, lower_boss_mm: f64, chainring_teeth: u32| {
        let cage = Some(Cage { bottle: Bottle::Middle, lower_boss_mm });
        let settings = match holder {
            Holder::DownTube => CageSettings { down_tube: cage, ..NONE },
            _ => CageSettings { under_down_tube: cage, ..NONE },
        };
        bottles(&of_tubes(vec![level(Tube::DownTube)]), None, &CageSettings { chainring_teeth, ..settings }).fits[0].nearest
    };
    // The base's nearest corner lies at (120, −26): 122.78 mm away, 37.85 from the ring; with the 10 across 39.15.
    let seen = 120f64.hypot(26.0) - (80.934 + 4.0);
    let (clash, gap) = at(Holder::UnderDownTube, 165.0, 40).unwrap();
    assert!(clash == Clash::ChainRing && (gap - seen.hypot(10.0)).abs() < 1e-3, "{gap}");
    // A ring that covers the bottle in the side view still leaves what is between them across.
    let (clash, gap) = at(Holder::UnderDownTube, 80.0, 70).unwrap();
    assert!(clash == Clash::ChainRing && (gap - 10.0).abs() < 1e-9, "{gap}");
    assert_eq!(at(Holder::DownTube, 165.0, 40), None);
}

#[test]
fn a_bag_is_what_its_outline_is() {
    let bag_space = bag_space_of(&made(USUAL, "")).unwrap();
    let any = bag(&bag_space, &BagSettings::default()).unwrap();
    let with = |y: [f64; 2]| {
        let bag = Bag { outline: block([0.0, 600.0], y), ..any.clone() };
        bottles(&of_tubes(vec![level(Tube::DownTube)]), Some(&bag), &ON_DOWN_TUBE).fits[0].clone()
    };
    let above = with([108.0, 300.0]);
    assert!(above.fits() && above.nearest.is_some_and(|(c, gap)| c == Clash::Bag && (gap - 8.0).abs() < 1e-9), "{above:?}");
    assert_eq!(with([95.0, 300.0]).hits, [Clash::Bag]);
}

#[test]
fn cages_are_read_within_their_bounds() {
    let read = |text: &str| ron::from_str::<CageSettings>(text);
    let boss = |mm: &str| read(&format!("(down_tube: Some((lower_boss_mm: {mm})))"));
    for mm in ["0", "600", "235.5"] {
        assert!(boss(mm).is_ok(), "{mm}");
    }
    for mm in ["-0.1", "600.1", "NaN", "inf"] {
        assert!(boss(mm).is_err(), "{mm}");
    }
    for (teeth, is_read) in [("15", false), ("16", true), ("70", true), ("71", false)] {
        assert_eq!(read(&format!("(chainring_teeth: {teeth})")).is_ok(), is_read, "{teeth}");
    }
    assert_eq!(read("(chainring_teeth: 46)").unwrap().chainring_teeth, 46);
}
