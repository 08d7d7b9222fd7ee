//! Measures what the adjustment finds in tables with something wrong, and whether its ± then hold the truth: of every
//! figure, of the room in the frame and a bag's litres, of differences between two sizes, of weights.
//!
//! `cargo run --release --no-default-features --example coverage -- FROM COUNT [WORD…]` takes the made-up tables FROM …
//! FROM + COUNT − 1 of each row (10000 and 400 unless said otherwise) and prints the rows whose name contains each WORD; the
//! word `each` prints what was found in every table.
//! A priori chances and scales are chosen on tables below 10000, so what is reported comes from others.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "what measures may panic and print"
)]

#[path = "../tests/made_up/mod.rs"]
mod made_up;

use std::collections::{BTreeMap, BTreeSet};

use made_up::tables::{Kind, MadeUpTable, RIGID, Where, Wrong, table_of};
use made_up::{Dice, USUAL};
use rayon::prelude::*;
use spandrel::frameset::{Figure, Frameset, Known, Part, SizeIndex, Tube, Weight};
use spandrel::geometry::{Adjusted, Slip, SlipKind, adjust, figure};
use spandrel::luggage::{BagSettings, BagSpace, bag, bag_space};
use spandrel::units::COVERAGE_FACTOR;
use spandrel::weight::{WeighedFrame, WeightChoices, WeightSettings, tube_lengths, tube_set, weights};

/// What is measured of one table besides figures.
#[derive(Clone, Copy, PartialEq)]
enum Depth {
    Figures,
    /// Rooms, litres and weights too.
    All,
}

/// One row: tables of one kind.
struct Row {
    name: String,
    sizes: usize,
    kind: Kind<'static>,
    wrong: Wrong,
    depth: Depth,
}

/// Counts of one row.
#[derive(Default)]
struct Counts {
    tables: f64,
    named: f64,
    among_three: f64,
    seen: f64,
    accused_clean: f64,
    nobody: f64,
    unexplained: f64,
    /// Of each thing: how often, how often its ± held the truth, its u.
    covered: BTreeMap<String, (f64, f64, Vec<f64>)>,
}

impl Counts {
    fn plus(mut self, other: Self) -> Self {
        self.tables += other.tables;
        self.named += other.named;
        self.among_three += other.among_three;
        self.seen += other.seen;
        self.accused_clean += other.accused_clean;
        self.nobody += other.nobody;
        self.unexplained += other.unexplained;
        for (name, (all, held, us)) in other.covered {
            let sum = self.covered.entry(name).or_default();
            sum.0 += all;
            sum.1 += held;
            sum.2.extend(us);
        }
        self
    }

    fn add(&mut self, name: &str, value: f64, u: f64, truth: f64) {
        let sum = self.covered.entry(name.to_owned()).or_default();
        sum.0 += 1.0;
        // As wide as rounding errors of the arithmetic at least: what is known exactly is known to that.
        sum.1 += f64::from(u8::from((value - truth).abs() <= COVERAGE_FACTOR * u + 1e-6));
        sum.2.push(u);
    }
}

fn is_it(slip: &Slip, at: &Where) -> bool {
    let is_row = matches!(slip.kind, SlipKind::AllSizes | SlipKind::Convention);
    let is_there = |size: usize| slip.cells.iter().any(|c| c.size.0 == size);
    slip.cells.first().is_some_and(|c| at.figures.contains(&c.figure)) && at.size.map_or(is_row, |k| !is_row && is_there(k))
}

/// What was found in one table, in a line.
fn told(seed: u64, made_up: &MadeUpTable, adjusted: &Adjusted) -> String {
    let slips = adjusted.slips.iter().map(|s| {
        let cells: BTreeSet<String> = s.cells.iter().map(|c| format!("{}.{}", c.figure.key(), c.size.0)).collect();
        let what =
            s.assumption.map_or_else(|| cells.into_iter().take(3).collect::<Vec<_>>().join(" "), |(a, _)| a.key().to_owned());
        format!("{} {what} {:.3}", s.kind.key(), s.chance)
    });
    let wrong = made_up.wrong.as_ref().map(|w| format!("{:?}", w.size));
    format!("{seed}: wrong in {wrong:?}; nothing {:.3}; {}", adjusted.slip_free, slips.collect::<Vec<_>>().join("; "))
}

fn judge(row: &Row, seed: u64, is_each_told: bool) -> Counts {
    let made_up = table_of(seed, row.sizes, &row.kind, row.wrong);
    let adjusted = adjust(&made_up.frameset);
    let off = |k: usize, f: Figure| {
        let (size, truth) = (&adjusted.sizes[k], &made_up.truth[k]);
        let value = size.value(f);
        (value.value - figure(f, truth, size.top_tube)) / value.u
    };
    if is_each_told {
        let farthest = (0..made_up.truth.len())
            .flat_map(|k| Figure::ALL.iter().map(move |f| (k, *f)))
            .filter(|(k, f)| !adjusted.sizes[*k].value(*f).is_missing)
            .max_by(|a, b| off(a.0, a.1).abs().total_cmp(&off(b.0, b.1).abs()));
        if let Some((k, f)) = farthest {
            println!("    farthest: {} of {k} by {:.1} u", f.key(), off(k, f));
        }
        println!("    {}", told(seed, &made_up, &adjusted));
    }
    let mut counts = Counts { tables: 1.0, ..Counts::default() };
    let one = |is: bool| f64::from(u8::from(is));
    counts.unexplained = one(adjusted.is_unexplained);
    for (size, truth) in adjusted.sizes.iter().zip(&made_up.truth) {
        for value in size.values().iter().filter(|v| !v.is_missing) {
            counts.add(value.figure.key(), value.value, value.u, figure(value.figure, truth, size.top_tube));
        }
    }
    let (first, last) = (0, adjusted.sizes.len() - 1);
    if last > first {
        for f in Figure::ALL.iter().filter(|f| [first, last].iter().all(|k| !adjusted.sizes[*k].value(**f).is_missing)) {
            let found = adjusted.difference(SizeIndex(last), SizeIndex(first), *f).unwrap();
            let truth = |k: usize| figure(*f, &made_up.truth[k], adjusted.sizes[k].top_tube);
            counts.add(&format!("Δ {}", f.key()), found.value, found.u, truth(last) - truth(first));
        }
    }
    let accused: Vec<&Slip> = adjusted.slips.iter().filter(|s| s.chance >= 0.5 && s.assumption.is_none()).collect();
    counts.nobody = one(accused.is_empty());
    let wrong_size = made_up.wrong.as_ref().and_then(|w| w.size);
    let exchanged = if row.wrong == Wrong::Columns { made_up.other_size } else { None };
    if made_up.wrong.as_ref().is_none_or(|w| w.size.is_some()) {
        let sizes: BTreeSet<usize> = accused.iter().flat_map(|s| s.cells.iter().map(|c| c.size.0)).collect();
        counts.accused_clean = sizes.iter().filter(|k| Some(**k) != wrong_size && Some(**k) != exchanged).count() as f64;
    }
    if let Some(at) = &made_up.wrong {
        let place = adjusted.slips.iter().position(|s| is_it(s, at));
        counts.named = one(place == Some(0));
        counts.among_three = one(place.is_some_and(|p| p < 3));
        let chance: f64 = adjusted.slips.iter().filter(|s| is_it(s, at)).map(|s| s.chance).sum();
        counts.seen = one(chance >= 0.1);
    }
    if row.depth == Depth::All {
        rooms(&mut counts, &made_up, &adjusted, seed);
        weighings(&mut counts, &made_up, &adjusted, seed);
    }
    counts
}

/// The adjusted sizes with the true states in place of the found ones.
fn in_truth(made_up: &MadeUpTable, adjusted: &Adjusted) -> Adjusted {
    let mut truth = adjusted.clone();
    for (size, state) in truth.sizes.iter_mut().zip(&made_up.truth) {
        size.state = *state;
    }
    truth
}

/// Areas, lengths and litres of the room in the middle size, whose tubes' diameters are as wrong as their u says.
fn rooms(counts: &mut Counts, made_up: &MadeUpTable, adjusted: &Adjusted, seed: u64) {
    let mut dice = Dice::new(seed.wrapping_mul(31) + 5);
    let k = adjusted.sizes.len() / 2;
    let truth = in_truth(made_up, adjusted);
    let mut with_tubes = made_up.frameset.clone();
    for tube in [Tube::TopTube, Tube::DownTube, Tube::SeatTube, Tube::HeadTube] {
        let (assumed, _) = spandrel::geometry::diameter_mm(&made_up.frameset, tube);
        with_tubes.tube_diameters.insert(tube, dice.normal(assumed, 2.0));
    }
    let found = bag_space(&made_up.frameset, &made_up.frameset.sizes[k], &adjusted.sizes[k]);
    let true_room = bag_space(&with_tubes, &with_tubes.sizes[k], &truth.sizes[k]);
    let (Ok(found), Ok(true_room)) = (found, true_room) else { return };
    let measures = |room: &BagSpace| {
        let mut all: Vec<(String, f64, f64)> = vec![("room area".to_owned(), room.area_dm2.value, room.area_dm2.u)];
        all.extend(room.sides.iter().map(|s| (format!("room side {:?}", s.tube), s.length_mm.value, s.length_mm.u)));
        all.extend(
            room.corners
                .iter()
                .map(|c| (format!("room angle {:?} {:?}", c.between.0, c.between.1), c.angle_deg.value, c.angle_deg.u)),
        );
        all.extend(room.circle.iter().map(|c| ("room circle".to_owned(), c.diameter_mm.value, c.diameter_mm.u)));
        if let Some(r) = &room.rectangle {
            all.push(("room rectangle".to_owned(), r.area_dm2.value, r.area_dm2.u));
            all.push(("room rectangle width".to_owned(), r.width_mm.value, r.width_mm.u));
            all.push(("room rectangle height".to_owned(), r.height_mm.value, r.height_mm.u));
        }
        all.extend(room.height_above_bb_mm.iter().map(|h| ("room height".to_owned(), h.value, h.u)));
        if let Ok(bag) = bag(room, &BagSettings::default()) {
            all.push(("litres".to_owned(), bag.litres.value, bag.litres.u));
            all.push(("bag around".to_owned(), bag.around_mm.value, bag.around_mm.u));
        }
        all
    };
    let truths = measures(&true_room);
    for (name, value, u) in measures(&found) {
        if let Some((_, truth, _)) = truths.iter().find(|t| t.0 == name) {
            counts.add(&name, value, u, *truth);
        }
    }
}

/// The frame's weight at the largest size from a weighing of the smallest, and the difference of both: tubes and fixed parts
/// are as wrong as their ± say, and the frame on the scale is one specimen.
fn weighings(counts: &mut Counts, made_up: &MadeUpTable, adjusted: &Adjusted, seed: u64) {
    let mut dice = Dice::new(seed.wrapping_mul(37) + 11);
    let truth = in_truth(made_up, adjusted);
    let set = tube_set(&made_up.frameset);
    let fixed = dice.normal(500.0, 75.0);
    let shares: Vec<f64> = set.tubes.iter().map(|t| dice.normal(1.0, t.share_plus_minus / COVERAGE_FACTOR)).collect();
    let grams = |size: usize| {
        let lengths = tube_lengths(&made_up.frameset, &truth, SizeIndex(size)).ok()?;
        let of = |t: Tube| lengths.iter().find(|l| l.tube == t).map_or(0.0, |l| l.mm);
        let tubes = set.tubes.iter().zip(&shares);
        Some(fixed + tubes.map(|(t, share)| share * t.count * t.profile.grams(of(t.tube), set.density_kg_m3)).sum::<f64>())
    };
    let (first, last) = (0, adjusted.sizes.len() - 1);
    let (Some(small), Some(large)) = (grams(first), grams(last)) else { return };
    let on_scale = (small * dice.normal(1.0, 0.01) / 5.0).round() * 5.0;
    let mut frameset: Frameset = made_up.frameset.clone();
    let label = frameset.sizes[first].label.clone();
    frameset.weights.push(Weight {
        part: Part::Frame,
        size: Some(label),
        grams: on_scale,
        from: Known::Weighed { to: 5.0 },
        with: Vec::new(),
        note: None,
    });
    let at = |size: usize| {
        let entry =
            WeighedFrame { frameset: &frameset, adjusted, size: SizeIndex(size), weight_choices: &WeightChoices::default() };
        weights(&entry, &WeightSettings::default()).frame
    };
    let (Some(of_small), Some(of_large)) = (at(first), at(last)) else { return };
    counts.add("weight", of_small.mass.value, of_small.mass.u, small);
    if last > first {
        counts.add("weight of another size", of_large.mass.value, of_large.mass.u, large);
        let heavier = of_large.difference(&of_small, true);
        counts.add("Δ weight", heavier.value, heavier.u, large - small);
    }
}

fn rows() -> Vec<Row> {
    let mut rows = Vec::new();
    let mut add = |name: String, sizes, kind, wrong, depth| rows.push(Row { name, sizes, kind, wrong, depth });
    for sizes in [1, 2, 3, 4, 5] {
        add(format!("clean, {sizes} sizes"), sizes, RIGID, Wrong::Nothing, Depth::All);
    }
    for (name, kind) in KINDS {
        add(format!("clean {name}, 4 sizes"), 4, kind, Wrong::Nothing, Depth::All);
    }
    for (f, amounts) in CELLS {
        for by in amounts {
            let depth = if by == &amounts[0] { Depth::All } else { Depth::Figures };
            add(format!("slip {} {by}, 4 sizes", f.key()), 4, RIGID, Wrong::Cell(f, *by), depth);
        }
        for sizes in [3, 2, 1] {
            let by = amounts[0];
            add(format!("slip {} {by}, {sizes} sizes", f.key()), sizes, RIGID, Wrong::Cell(f, by), Depth::Figures);
        }
    }
    for (name, kind) in KINDS {
        add(format!("slip wheelbase 10 {name}, 4 sizes"), 4, kind, Wrong::Cell(Figure::Wheelbase, 10.0), Depth::Figures);
        add(format!("slip reach 10 {name}, 4 sizes"), 4, kind, Wrong::Cell(Figure::Reach, 10.0), Depth::Figures);
    }
    for f in [Figure::Stack, Figure::HeadTube, Figure::Wheelbase, Figure::Reach, Figure::EffectiveTopTube] {
        add(format!("neighbour {}, 4 sizes", f.key()), 4, RIGID, Wrong::Neighbour(f), Depth::Figures);
    }
    for sizes in [5, 4, 3] {
        add(format!("angles, {sizes} sizes"), sizes, RIGID, Wrong::Angles, Depth::Figures);
        add(format!("columns, {sizes} sizes"), sizes, RIGID, Wrong::Columns, Depth::Figures);
        add(format!("horizontal, {sizes} sizes"), sizes, RIGID, Wrong::Horizontal, Depth::Figures);
        add(format!("cups, {sizes} sizes"), sizes, RIGID, Wrong::Cups, Depth::Figures);
        add(format!("straight fork, {sizes} sizes"), sizes, UNSAID_FORK, Wrong::StraightFork, Depth::Figures);
        add(format!("row wheelbase 8, {sizes} sizes"), sizes, RIGID, Wrong::Row(Figure::Wheelbase, 8.0), Depth::Figures);
    }
    rows
}

/// The figures that others can check, each by how much it is wrong.
const CELLS: [(Figure, &[f64]); 10] = [
    (Figure::HeadTube, &[10.0, 30.0, 100.0]),
    (Figure::Stack, &[10.0, 30.0, 100.0, 300.0]),
    (Figure::Wheelbase, &[10.0, 30.0, 100.0, 300.0]),
    (Figure::Reach, &[10.0, 30.0, 100.0]),
    (Figure::Chainstay, &[10.0, 30.0, 100.0]),
    (Figure::HeadAngle, &[2.0, 12.0]),
    (Figure::SeatAngle, &[2.0, 12.0]),
    (Figure::EffectiveTopTube, &[10.0, 30.0, 100.0]),
    (Figure::BbDrop, &[10.0, 30.0]),
    (Figure::ForkOffset, &[10.0, 30.0]),
];

const FEW: [Figure; 8] = [
    Figure::Stack,
    Figure::Reach,
    Figure::HeadAngle,
    Figure::SeatAngle,
    Figure::HeadTube,
    Figure::Chainstay,
    Figure::BbDrop,
    Figure::Wheelbase,
];

/// The dozen and more.
const fn with<const N: usize, const ALL: usize>(more: [Figure; N]) -> [Figure; ALL] {
    let mut all = [Figure::Stack; ALL];
    let mut i = 0;
    while i < ALL {
        all[i] = if i < USUAL.len() { USUAL[i] } else { more[i - USUAL.len()] };
        i += 1;
    }
    all
}

const STANDOVER: [Figure; 13] = with([Figure::Standover]);
const MANY: [Figure; 16] = with([Figure::FrontCentre, Figure::TopTube, Figure::Standover, Figure::BbHeight]);
const CURVED: [Figure; 13] = with([Figure::SeatTubeAngle]);
const UNSAID: [Figure; 12] = {
    let mut all = USUAL;
    all[7] = Figure::AxleToCrown;
    all
};
const UNSAID_FORK: Kind = Kind::rigid(&UNSAID);

const KINDS: [(&str, Kind); 7] = [
    ("few figures", Kind::rigid(&FEW)),
    ("printed standover", Kind::rigid(&STANDOVER)),
    ("many figures", Kind::rigid(&MANY)),
    ("suspension", Kind { has_suspension: true, ..RIGID }),
    ("curved seat tube", Kind { has_curved_seat_tube: true, printed: &CURVED, ..RIGID }),
    ("two tyres", Kind { has_two_tyres: true, ..RIGID }),
    ("fork length of unsaid way", UNSAID_FORK),
];

fn main() {
    let mut arguments = std::env::args().skip(1);
    let from: u64 = arguments.next().map_or(10_000, |a| a.parse().expect("FROM is a number"));
    let count: u64 = arguments.next().map_or(400, |a| a.parse().expect("COUNT is a number"));
    let mut words: Vec<String> = arguments.collect();
    let is_each_told = words.iter().any(|w| w == "each");
    words.retain(|w| w != "each");
    for row in rows().iter().filter(|r| words.iter().all(|w| r.name.contains(w.as_str()))) {
        let counts =
            (from..from + count).into_par_iter().map(|seed| judge(row, seed, is_each_told)).reduce(Counts::default, Counts::plus);
        let share = |n: f64| 100.0 * n / counts.tables;
        println!(
            "{}: first {:.1} %, among three {:.1} %, chance of 0.1 {:.1} %, clean sizes accused {:.3} a table, nobody accused {:.1} %, unexplained {:.1} %",
            row.name,
            share(counts.named),
            share(counts.among_three),
            share(counts.seen),
            counts.accused_clean / counts.tables,
            share(counts.nobody),
            share(counts.unexplained),
        );
        let line: Vec<String> = counts
            .covered
            .into_iter()
            .map(|(name, (all, held, mut us))| {
                us.sort_by(f64::total_cmp);
                format!("{name} {:.1} of {all} (± {:.3})", 100.0 * held / all, COVERAGE_FACTOR * us[us.len() / 2])
            })
            .collect();
        println!("  {}", line.join(", "));
    }
}
