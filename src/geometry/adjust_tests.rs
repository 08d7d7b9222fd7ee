//! Behaviour of the adjustment on made-up frames with known answers.

use super::*;
use crate::frameset::{Figure, Frameset, SizeIndex, read_frameset};
use crate::geometry::averaged::averaged;
use crate::geometry::slips::WeighedSet;

/// A frameset of `count` sizes whose figures are computed from known states and rounded to the steps.
pub(super) fn made_up(count: usize, mm: f64, deg: f64) -> Frameset {
    let mut sizes = String::new();
    for i in 0..count {
        let k = i as f64;
        let mut state = State::start();
        let set = |state: &mut State<f64>, q: Quantity, v: f64| state.0[q.index()] = v;
        set(&mut state, Quantity::Stack, 590.3 + 19.2 * k);
        set(&mut state, Quantity::Reach, 388.4 + 9.7 * k);
        set(&mut state, Quantity::HeadAngle, 71.37 + 0.2 * k);
        set(&mut state, Quantity::SeatAngle, 73.6 - 0.3 * k);
        set(&mut state, Quantity::SeatTube, 450.2 + 30.1 * k);
        set(&mut state, Quantity::AxleToCrown, 427.6);
        set(&mut state, Quantity::ForkOffset, 49.2);
        set(&mut state, Quantity::Chainstay, 445.4);
        set(&mut state, Quantity::BbDrop, 67.3);
        set(&mut state, Quantity::LowerHeadset, 11.2);
        set(&mut state, Quantity::RearTyreRadius, 358.0);
        set(&mut state, Quantity::FrontTyreRadius, 358.0);
        // Head tube that closes the wheels.
        for _ in 0..50 {
            let gap = closure(&state);
            state.0[Quantity::HeadTube.index()] += gap / state.get(Quantity::HeadAngle).to_radians().sin();
        }
        let round = |v: f64, step: f64| (v / step).round() * step;
        let mut figures = String::new();
        for f in [
            Figure::Stack,
            Figure::Reach,
            Figure::HeadAngle,
            Figure::SeatAngle,
            Figure::HeadTube,
            Figure::SeatTube,
            Figure::AxleToCrownAlongAxis,
            Figure::ForkOffset,
            Figure::Chainstay,
            Figure::BbDrop,
            Figure::Wheelbase,
            Figure::EffectiveTopTube,
        ] {
            let v = figure(f, &state, TopTubeShape::default());
            figures.push_str(&format!("{}: {:.9}, ", f.about().name, round(v, if f.is_angle() { deg } else { mm })));
        }
        sizes.push_str(&format!("(label: \"{i}\", figures: {{{figures}}}),"));
    }
    let text = format!(
        "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", printed_to: (mm: {mm:?}, deg: {deg:?}), tyre: \"47-622\",
         standards: {{LowerHeadset: \"EC44/40\"}}, sizes: [{sizes}])"
    );
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e}: {text}"))
}

/// The same frameset with one printed figure changed.
fn misprinted(frameset: &Frameset, size: usize, figure: Figure, by: f64) -> Frameset {
    let mut wrong = frameset.clone();
    *wrong.sizes[size].figures.get_mut(&figure).unwrap() += by;
    wrong
}

#[test]
fn a_wheelbase_pins_the_head_angle_and_a_wrong_one_is_found() {
    // A head angle printed to 0.5° has u = 0.144°; the wheelbase brings it to about 0.05°.
    let mut clean = made_up(1, 1.0, 0.5);
    // Of one size alone, horizontal chainstays would leave it open.
    clean.stated = vec![crate::frameset::Stated::ChainstayAlong];
    let u = adjust(&clean).sizes[0].value(Figure::HeadAngle).u;
    assert!((0.04..0.06).contains(&u), "{u}");
    // In a table of five sizes a wrong wheelbase is found and left out.
    let clean = made_up(5, 1.0, 0.5);
    let adjusted = adjust(&misprinted(&clean, 2, Figure::Wheelbase, 12.0));
    let strongest = &adjusted.sizes[2].doubts[0];
    assert_eq!((strongest.figure, strongest.kind), (Figure::Wheelbase, SlipKind::Slip));
    assert!((strongest.published - strongest.expected.value - 12.0).abs() < 3.0 * strongest.expected.u, "{strongest:?}");
    assert!(adjusted.sizes.iter().enumerate().all(|(k, s)| k == 2 || s.doubts.iter().all(|d| d.chance < 0.5)));
    let (with, without) = (adjusted.sizes[2].value(Figure::HeadAngle), *adjust(&clean).sizes[2].value(Figure::HeadAngle));
    assert!((with.value - without.value).abs() < 2.0 * with.u, "{with:?} {without:?}");
}

#[test]
fn a_clean_frameset_is_not_accused() {
    for count in [1, 3, 5] {
        let adjusted = adjust(&made_up(count, 1.0, 0.5));
        assert!(adjusted.converged);
        assert!(adjusted.sizes.iter().all(|s| s.doubts.is_empty()));
    }
}

#[test]
fn five_sizes_find_what_one_size_swallows() {
    let (one, five) = (made_up(1, 1.0, 0.5), made_up(5, 1.0, 0.5));
    for figure in [Figure::HeadTube, Figure::AxleToCrownAlongAxis] {
        for by in [12.0, -12.0] {
            let together = adjust(&misprinted(&five, 2, figure, by));
            assert!(together.sizes[2].doubt(figure).is_some(), "{figure:?} {by} among five");
        }
    }
    // The lower headset is known better when sizes share it, though their equal chainstays and drops count once.
    let u = |frameset: &Frameset| adjust(frameset).sizes[0].value(Figure::LowerHeadset).u;
    assert!(u(&five) < 0.8 * u(&one), "{} {}", u(&five), u(&one));
}

#[test]
fn too_few_figures_are_missing_not_invented() {
    let text = r#"Frameset(format: 1, maker: "Hollinshaw", model: "Wether", printed_to: (mm: 5.0, deg: 1.0),
        sizes: [(label: "a", figures: {EffectiveTopTube: 550, HeadAngle: 71, SeatAngle: 73, Chainstay: 450, BbDrop: 60})])"#;
    let frameset = read_frameset(text.as_bytes()).unwrap();
    let adjusted = adjust(&frameset);
    let size = &adjusted.sizes[0];
    assert!(adjusted.converged);
    assert!((size.value(Figure::HeadAngle).u - u_of_step(1.0)).abs() < 1e-3);
    for missing in [Figure::Stack, Figure::Reach, Figure::Wheelbase, Figure::Trail] {
        assert!(size.value(missing).is_missing, "{missing:?}");
    }
    let sets = settled_by(&frameset, &frameset.sizes[0], size);
    let reach = sets.iter().find(|m| m.figure == Figure::Reach).unwrap();
    // Reach = effective top tube − stack / tan(seat angle): the stack settles it, and so does reach itself.
    assert!(reach.sets.contains(&vec![Figure::Stack]) && reach.sets.contains(&vec![Figure::Reach]), "{reach:?}");
}

/// Of a table in which one of two figures is wrong: what the likeliest explanation says, and all others together, give the
/// mean of all, and chances near those of all explanations one by one.
#[test]
fn a_chance_over_two_parts_is_near_that_over_all_explanations() {
    let two_sizes = misprinted(&made_up(2, 1.0, 0.5), 1, Figure::Chainstay, 10.0);
    let adjusted = adjust(&two_sizes);
    assert!(adjusted.sets.len() > 1, "{:?}", adjusted.slips);
    let size = &adjusted.sizes[1];
    for f in [Figure::HeadAngle, Figure::Trail, Figure::Chainstay, Figure::Wheelbase, Figure::FrontCentre] {
        let value = size.value(f);
        let likeliest = value.measured().likeliest().unwrap();
        assert!((likeliest.chance - adjusted.sets[0].chance).abs() < 1e-12 && likeliest.chance < 1.0);
        let propagated: crate::units::Measured<crate::units::AnyKind> = size.propagate(|s| super::figure(f, s, size.top_tube));
        let again = propagated.likeliest().unwrap();
        assert!((again.value - likeliest.value).abs() < 1e-9 && (again.u - likeliest.u).abs() < 1e-6, "{f:?}");
        for limit in [value.value - value.u, value.value, likeliest.value + 2.0 * likeliest.u, value.value + value.u] {
            let of_all: f64 = adjusted
                .sets
                .iter()
                .map(|set| {
                    let alone = [WeighedSet { chance: 1.0, ..set.clone() }];
                    let (state, covariance) = averaged(&alone, SizeIndex(1));
                    let jet = super::figure(f, &state.jets(), size.top_tube);
                    let u = crate::geometry::adjusted::quadratic_form(&covariance, &jet.gradient).sqrt();
                    set.chance * crate::units::probability_below((jet.value - limit) / u)
                })
                .sum();
            let found = value.measured().chance_above(limit);
            assert!((found - of_all).abs() < 0.08, "{f:?} above {limit}: {found} and {of_all}");
        }
    }
    // One explanation alone: none is the likeliest.
    assert!(adjust(&made_up(3, 1.0, 0.5)).sizes[0].value(Figure::Trail).measured().likeliest().is_none());
}

/// Another fork on a doubtful table: each explanation stands on it.
#[test]
fn a_change_is_made_to_the_likeliest_explanation_too() {
    let adjusted = adjust(&misprinted(&made_up(2, 1.0, 0.5), 1, Figure::Chainstay, 10.0));
    let size = &adjusted.sizes[1];
    let length = size.value(Figure::AxleToCrownAlongAxis).value + 20.0;
    let fork_length = Some(crate::units::Measured::exact(length));
    let change = crate::geometry::Change { fork_length, ..crate::geometry::Change::default() };
    let after = crate::geometry::changed(size, &change);
    let (chance, alone) = size.by_likeliest_alone().unwrap();
    let expected = crate::geometry::changed(&alone, &change);
    for f in [Figure::HeadAngle, Figure::Trail, Figure::Chainstay] {
        let found = after.size.value(f).measured().likeliest().unwrap();
        assert_eq!(found, expected.size.value(f).measured().as_likeliest(chance), "{f:?}");
        assert_eq!(after.difference(f).likeliest().unwrap(), expected.difference(f).as_likeliest(chance), "{f:?}");
    }
    assert!(after.size.by_likeliest_alone().is_some());
}
