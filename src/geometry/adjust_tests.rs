//! Behaviour of the adjustment on made-up frames with known answers.

use super::*;
use crate::frameset::{Figure, Frameset, read_frameset};

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
        set(&mut state, Quantity::ForkLength, 427.6);
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
            Figure::ForkLengthAlong,
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

#[test]
fn probe() {
    let f = made_up(5, 1.0, 0.5);
    let a = adjust(&f);
    println!("{} {} {}", a.converged, a.tested, a.critical);
    for s in &a.sizes {
        for v in s.values() {
            println!(
                "{:?} {:.3} u {:.3} {:?} {:?} {}",
                v.figure,
                v.value,
                v.u,
                v.origin,
                v.leans_on.iter().collect::<Vec<_>>(),
                v.is_missing
            );
        }
        println!("{:?}", s.suspects);
        break;
    }
    for n in [1, 5] {
        let mut f = made_up(n, 1.0, 0.5);
        for fig in [
            Figure::Wheelbase,
            Figure::ForkLengthAlong,
            Figure::HeadTube,
            Figure::Stack,
            Figure::Reach,
            Figure::Chainstay,
            Figure::ForkOffset,
            Figure::BbDrop,
            Figure::HeadAngle,
            Figure::SeatAngle,
        ] {
            let k = n / 2;
            let mut g = f.clone();
            let d = if fig.is_angle() { 2.5 } else { 12.0 };
            *g.sizes[k].figures.get_mut(&fig).unwrap() += d;
            let a = adjust(&g);
            println!(
                "n {n} {fig:?} -> {:?}",
                a.sizes[k]
                    .suspects
                    .iter()
                    .map(|s| (s.figure, (s.w * 10.0).round() / 10.0, s.predicted.round(), s.u, s.explained_as_well_by.clone()))
                    .collect::<Vec<_>>()
            );
        }
    }
}
