//! Bottles on tubes that lie along the axes, so that every place and gap follows by hand.

use super::bag::{Bag, bag};
use super::plane::signed_area;
use super::tests::{USUAL, bag_space_of, bottles, cage, made, nearest};
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

const CAGE: Cage = cage(Bottle::Middle, 235.0);
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
        let (clash, found) = nearest(&fit).unwrap();
        assert_eq!(clash, Clash::Tube(Tube::HeadTube));
        assert!((found - gap).abs() < 1e-9 && fit.fits(), "{found} {gap}");
    }
    // Over its side of 74 mm they share 0.9 and 1.1 mm²: less than 1 mm² is the drawing's own roundness.
    let touching = with(Tube::ChainStay, [100.0, 190.0 + 0.9 / 74.0], [0.0, 200.0]);
    assert!(touching.fits() && nearest(&touching).is_some_and(|(_, gap)| gap > 0.0 && gap < 0.01), "{touching:?}");
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
        let (clash, gap) = nearest(fit).unwrap();
        assert!(fit.fits() && clash == Clash::Bottle(other) && (gap - 100.0).abs() < 1e-9, "{fit:?}");
    }
    let close = at(190.0);
    assert_eq!(close[0].hits, [Clash::Bottle(Holder::SeatTube)]);
    assert_eq!(close[1].hits, [Clash::Bottle(Holder::DownTube)]);
    assert_eq!(nearest(&close[0]).unwrap().0, Clash::Tube(Tube::SeatTube));
    assert!((nearest(&close[0]).unwrap().1 - 70.0).abs() < 1e-9);
}

#[test]
fn tyres_reach_as_far_as_their_radius() {
    let wheel = |x: f64, tyre_radius_mm: f64| Some(Wheel { axle: Point { x, y: 63.0 }, tyre_radius_mm, rim_radius_mm: 311.0 });
    let with = |front_wheel, rear_wheel| {
        let seen = Outline { rear_wheel, front_wheel, ..of_tubes(vec![level(Tube::DownTube)]) };
        bottles(&seen, None, &ON_DOWN_TUBE).fits[0].clone()
    };
    let both = with(wheel(802.0, 390.0), wheel(-160.0, 345.0));
    assert!(both.fits() && nearest(&both).is_some_and(|(c, gap)| c == Clash::RearTyre && (gap - 5.0).abs() < 1e-9), "{both:?}");
    let front = with(wheel(802.0, 398.0), wheel(-160.0, 345.0));
    assert!(nearest(&front).is_some_and(|(c, gap)| c == Clash::FrontTyre && (gap - 2.0).abs() < 1e-9), "{front:?}");
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
        let own = Some(cage(Bottle::Middle, lower_boss_mm));
        let settings = match holder {
            Holder::DownTube => CageSettings { down_tube: own, ..NONE },
            _ => CageSettings { under_down_tube: own, ..NONE },
        };
        nearest(&bottles(&of_tubes(vec![level(Tube::DownTube)]), None, &CageSettings { chainring_teeth, ..settings }).fits[0])
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
    assert!(above.fits() && nearest(&above).is_some_and(|(c, gap)| c == Clash::Bag && (gap - 8.0).abs() < 1e-9), "{above:?}");
    let below = with([95.0, 300.0]);
    assert_eq!((below.hits.as_slice(), below.fits(), below.fits_without_bag()), (&[Clash::Bag][..], false, true));
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

/// An upright wall in front of the mouth, which ends 167 mm past the lower boss of 235: at x = 402.
fn before_a_wall(x: f64, boss_plus_minus_mm: f64, doubts: PlaceDoubts) -> BottleFit {
    let wall = tube(Tube::HeadTube, [(x, 0.0), (x, 1.0)], block([x, x + 40.0], [-100.0, 300.0]));
    let settings = CageSettings { down_tube: Some(Cage { boss_plus_minus_mm, ..CAGE }), ..NONE };
    super::bottles(&of_tubes(vec![level(Tube::DownTube), wall]), None, &settings, doubts).fits[0].clone()
}

#[test]
fn a_bottle_slides_to_where_it_fits_within_the_range_of_its_boss() {
    let fit = |x| before_a_wall(x, 25.0, PlaceDoubts::default());
    // 40 mm of space clear all of the ± and of the bottle's own ± 5.
    let wide = fit(442.0);
    assert_eq!((wide.alone, wide.free_mm, wide.lower_boss_mm), (BottleVerdict::Fits, None, 235.0));
    // 10 mm short: it stands 10 mm lower, and fits from the lowest boss up to there.
    let short = fit(392.0);
    assert_eq!(short.alone, BottleVerdict::Borderline);
    assert!(short.fits() && (short.lower_boss_mm - 225.0).abs() < 0.2, "{short:?}");
    let (from, to) = short.free_mm.unwrap();
    assert!(from == 210.0 && (to - 225.0).abs() < 0.2, "{from} {to}");
    // Further short than it can slide and than its ±: 25 + 5.
    let blocked = fit(371.0);
    assert_eq!((blocked.alone, blocked.free_mm, blocked.lower_boss_mm), (BottleVerdict::DoesNotFit, None, 235.0));
    assert_eq!((blocked.hits.as_slice(), blocked.fits_without_bag()), (&[Clash::Tube(Tube::HeadTube)][..], false));
    assert_eq!(fit(374.0).alone, BottleVerdict::Borderline, "1 mm short of what is sure");
    assert_eq!(fit(433.0).alone, BottleVerdict::Fits, "31 mm of space, 30 of doubt");
    assert_eq!(fit(431.0).alone, BottleVerdict::Borderline, "29 mm of space, 30 of doubt");
}

#[test]
fn a_gap_within_its_plus_minus_is_borderline() {
    let at = |x| before_a_wall(x, 0.0, PlaceDoubts::default());
    assert_eq!([408.0, 406.0, 398.0, 396.0].map(|x| at(x).alone), {
        use BottleVerdict::{Borderline, DoesNotFit, Fits};
        [Fits, Borderline, Borderline, DoesNotFit]
    });
    assert_eq!(at(410.0).nearest.unwrap().1, crate::units::Measured::new(8.0, BOTTLE_U_MM));
    // A tyre that is known to 10 mm needs twice as much.
    let wheel = |x: f64| Some(Wheel { axle: Point { x, y: 63.0 }, tyre_radius_mm: 300.0, rim_radius_mm: 280.0 });
    let tyre = |x: f64, front_tyre_u_mm: f64| {
        let seen = Outline { front_wheel: wheel(x), ..of_tubes(vec![level(Tube::DownTube)]) };
        super::bottles(&seen, None, &ON_DOWN_TUBE, PlaceDoubts { front_tyre_u_mm, ..PlaceDoubts::default() }).fits[0].alone
    };
    assert_eq!((tyre(712.0, 0.0), tyre(712.0, 10.0)), (BottleVerdict::Fits, BottleVerdict::Borderline));
}

#[test]
fn the_edges_of_the_opening_bring_their_own_doubt() {
    let frameset = made(USUAL, "");
    let adjusted = adjust(&frameset);
    let seen = outline(&frameset, &adjusted, SizeIndex(0), None).unwrap();
    let space = bag_space_of(&frameset).unwrap();
    let u = |doubts| super::bottles(&seen, None, &ON_DOWN_TUBE, doubts).fits[0].nearest.unwrap().1.u;
    let known = u(PlaceDoubts::default());
    let doubted = u(PlaceDoubts { bag_space: Some(&space), ..PlaceDoubts::default() });
    assert!(known == BOTTLE_U_MM && doubted > known, "{known} {doubted}");
}

#[test]
fn two_bottles_are_judged_over_both_their_ranges() {
    let above = |y: f64| tube(Tube::SeatTube, [(0.0, y), (600.0, y)], block([0.0, 600.0], [y - 20.0, y + 20.0]));
    let both = CageSettings { down_tube: Some(CAGE), seat_tube: Some(CAGE), ..NONE };
    let at = |y| bottles(&of_tubes(vec![level(Tube::DownTube), above(y)]), None, &both).fits[0].clone();
    let close = at(190.0);
    assert_eq!((close.alone, close.without_bag), (BottleVerdict::Fits, BottleVerdict::DoesNotFit), "each fits on its own");
    assert_eq!(at(300.0).without_bag, BottleVerdict::Fits);
    assert_eq!(at(203.0).without_bag, BottleVerdict::Borderline, "3 mm apart");
}

#[test]
fn a_bag_never_changes_what_is_said_without_it() {
    let space = bag_space_of(&made(USUAL, "")).unwrap();
    let full = bag(&space, &BagSettings::default()).unwrap();
    let frameset = made(USUAL, "");
    let seen = outline(&frameset, &adjust(&frameset), SizeIndex(0), None).unwrap();
    let [with, without] = [Some(&full), None].map(|bag| bottles(&seen, bag, &CageSettings::default()).fits);
    for (with, without) in with.iter().zip(&without) {
        assert_eq!((with.alone, with.without_bag), (without.alone, without.without_bag));
        assert_eq!((with.with_bag, without.with_bag), (BottleVerdict::DoesNotFit, without.without_bag));
    }
}
