//! How often one wrong figure among right ones is found, and how often a frameset without any is accused all the same.
//!
//! Made-up framesets of three to five sizes print a dozen figures to 1 mm and 0.5°; the assumptions (lower headset, tyre
//! radius) are as wrong as their u says. One figure is then changed by 12 to 30 mm or by 2.5 to 5°, which no rounding
//! explains. *Accused* means that the changed figure itself is among the suspects of its size; *named* that it heads
//! them, or that the one that does says that the data cannot tell the two apart.
//!
//! What cannot be found, and why:
//! - `SeatTube`: its length enters no other of the dozen figures, so nothing contradicts it;
//! - where one size stands alone and the file does not say how the lower headset sits, a wrong `HeadTube` or
//!   `ForkLengthAlong` is swallowed by that loose assumption (± 6 mm) about as often as not; several sizes share it and
//!   so know it better;
//! - a fork length that is wrong alike in *every* size looks like another lower headset: it is found where the file
//!   says how the headset sits, and missed about every second time where it does not;
//! - figures that come in pairs, such as `Reach` and `EffectiveTopTube` wrong by the same amount: they agree with each
//!   other.
//!
//! `FRAMESETS=1000 cargo test --release --test misprints -- --nocapture` prints the rates over so many framesets.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

mod made_up;

use made_up::{Assumptions, Dice, MadeUp, USUAL, frameset, printed_value};
use rayon::prelude::*;
use spandrel::frameset::{Figure, Standard};
use spandrel::geometry::adjust;

/// How many framesets; 300 unless the environment says otherwise.
fn framesets() -> u64 {
    std::env::var("FRAMESETS").ok().and_then(|n| n.parse().ok()).unwrap_or(300)
}

/// A frameset of `least` to `most` sizes with nothing wrong in it.
fn clean(seed: u64, (least, most): (usize, usize)) -> (Dice, MadeUp) {
    let mut dice = Dice::new(seed);
    let count = least + dice.below(most - least + 1);
    let made_up = frameset(&mut dice, count, &USUAL, (1.0, 0.5), true, Assumptions::AsSure);
    (dice, made_up)
}

/// What is changed in a clean frameset.
#[derive(Clone, Copy)]
struct Change {
    figure: Figure,
    /// In all sizes alike rather than in one.
    in_all: bool,
    /// Sizes of the framesets, least and most.
    sizes: (usize, usize),
    /// Whether the file says how the lower headset sits.
    says_headset: bool,
}

impl Change {
    fn of(figure: Figure) -> Self {
        Self { figure, in_all: false, sizes: (3, 5), says_headset: true }
    }

    /// Whether the changed figure is accused, and whether it is named, in the frameset of that seed.
    fn outcome(self, seed: u64) -> (bool, bool) {
        let figure = self.figure;
        let (mut dice, mut made_up) = clean(seed, self.sizes);
        let size = dice.below(made_up.frameset.sizes.len());
        let by = if figure.is_angle() { dice.between(2.5, 5.0) } else { dice.between(12.0, 30.0).round() };
        let by = if dice.chance(50) { by } else { -by };
        for (i, s) in made_up.frameset.sizes.iter_mut().enumerate() {
            if self.in_all || i == size {
                *printed_value(s, figure) += by;
            }
        }
        if !self.says_headset {
            made_up.frameset.standards.remove(&Standard::LowerHeadset);
        }
        let suspects = &adjust(&made_up.frameset).sizes[size].suspects;
        let accused = suspects.iter().any(|s| s.figure == figure);
        let named = suspects.first().is_some_and(|s| s.figure == figure || s.explained_as_well_by.contains(&figure));
        (accused, named)
    }

    /// Shares of framesets in which the figure is accused, and named.
    fn rates(self) -> (f64, f64) {
        let outcomes: Vec<(bool, bool)> = (0..framesets()).into_par_iter().map(|seed| self.outcome(seed)).collect();
        let share = |of: fn(&(bool, bool)) -> bool| outcomes.iter().filter(|o| of(o)).count() as f64 / outcomes.len() as f64;
        let rates = (share(|o| o.0), share(|o| o.1));
        let place = if self.in_all { "all sizes" } else { "one size" };
        let headset = if self.says_headset { "" } else { ", lower headset not stated" };
        println!(
            "{:?} changed in {place} of {:?}{headset}: accused {:.1} %, named {:.1} %",
            self.figure,
            self.sizes,
            rates.0 * 100.0,
            rates.1 * 100.0
        );
        rates
    }
}

/// Each of the dozen, changed in one size of several: all but the seat tube's length.
#[test]
fn one_wrong_figure_is_accused() {
    for figure in USUAL {
        let (accused, named) = Change::of(figure).rates();
        if figure == Figure::SeatTube {
            assert_eq!(accused, 0.0, "nothing contradicts a seat tube's length: the note above is out of date");
        } else {
            assert!(accused >= 0.99 && named >= 0.90, "{figure:?}: {accused} {named}");
        }
    }
}

/// A fork that is printed wrong alike in every size counts once, for all of them.
#[test]
fn a_fork_wrong_in_every_size() {
    let wrong = |figure| Change { in_all: true, ..Change::of(figure) };
    let (accused, _) = wrong(Figure::ForkOffset).rates();
    assert!(accused >= 0.99, "{accused}");
    let (accused, _) = wrong(Figure::ForkLengthAlong).rates();
    assert!(accused >= 0.90, "{accused}");
    let (blind, _) = Change { says_headset: false, ..wrong(Figure::ForkLengthAlong) }.rates();
    assert!(blind < accused, "{blind} without a stated headset, {accused} with one");
}

/// What several sizes together are good for.
#[test]
fn a_size_alone_finds_less() {
    for figure in [Figure::HeadTube, Figure::ForkLengthAlong] {
        let several = Change { says_headset: false, ..Change::of(figure) };
        let (alone, together) = (Change { sizes: (1, 1), ..several }.rates().0, several.rates().0);
        assert!(alone < 0.6 && together >= 0.99, "{figure:?}: {alone} alone, {together} together");
    }
}

/// A frameset with nothing wrong in it is accused in at most one case of a hundred, as w₀ promises.
#[test]
fn a_clean_frameset_is_hardly_ever_accused() {
    for says_headset in [true, false] {
        let accused = (0..framesets())
            .into_par_iter()
            .filter(|seed| {
                let mut made_up = clean(*seed, (3, 5)).1;
                if !says_headset {
                    made_up.frameset.standards.remove(&Standard::LowerHeadset);
                }
                adjust(&made_up.frameset).sizes.iter().any(|s| !s.suspects.is_empty())
            })
            .count();
        println!("clean framesets accused: {accused} of {}, lower headset stated: {says_headset}", framesets());
        assert!(accused as f64 <= 0.01 * framesets() as f64, "{accused}");
    }
}
