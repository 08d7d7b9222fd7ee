//! What is printed as a table comes back when it is pasted, whichever way round it lies and in whatever language, and
//! the order of rows and columns changes nothing.

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

use std::collections::BTreeMap;

use made_up::{Assumptions, Dice, USUAL, frameset};
use proptest::prelude::*;
use spandrel::frameset::{Figure, Frameset, import};

/// Labels as makers print them, one column a language, in the order of [`USUAL`].
const LABELS: [(&str, [&str; 12]); 4] = [
    (
        "Size",
        [
            "Stack",
            "Reach",
            "Effective top tube",
            "Head tube angle",
            "Seat tube angle",
            "Head tube length",
            "Seat tube length",
            "Fork length along the axis",
            "Fork offset",
            "Chainstay",
            "BB drop",
            "Wheelbase",
        ],
    ),
    (
        "Rahmengröße",
        [
            "Stack",
            "Reach",
            "Oberrohrlänge horizontal",
            "Lenkwinkel",
            "Sitzwinkel",
            "Steuerrohrlänge",
            "Sitzrohrlänge",
            "Fork length along the axis",
            "Gabelvorbiegung",
            "Kettenstrebenlänge",
            "Tretlagerabsenkung",
            "Radstand",
        ],
    ),
    (
        "Taille",
        [
            "Stack",
            "Reach",
            "Tube supérieur horizontal",
            "Angle de direction",
            "Angle de selle",
            "Douille de direction",
            "Tube de selle",
            "Fork length along the axis",
            "Déport de fourche",
            "Bases",
            "Abaissement du boîtier",
            "Empattement",
        ],
    ),
    (
        "Maat",
        [
            "Stack",
            "Reach",
            "Bovenbuis horizontaal",
            "Balhoofdhoek",
            "Zitbuishoek",
            "Balhoofdbuis",
            "Zitbuis",
            "Fork length along the axis",
            "Vorksprong",
            "Achtervork",
            "Bracketverlaging",
            "Wielbasis",
        ],
    ),
];

/// How a table is printed.
#[derive(Clone, Copy, Debug)]
struct Style {
    language: usize,
    separator: char,
    is_comma: bool,
    sizes_down: bool,
    in_cm: bool,
    mm: f64,
    deg: f64,
}

fn style(dice: &mut Dice) -> Style {
    let is_comma = dice.chance(50);
    Style {
        language: dice.below(LABELS.len()),
        separator: dice.one_of(if is_comma { &['\t', ';'] } else { &['\t', ';', ','] }),
        is_comma,
        sizes_down: dice.chance(40),
        in_cm: dice.chance(25),
        mm: dice.one_of(&[1.0, 0.5, 0.1]),
        deg: dice.one_of(&[0.5, 0.1, 0.25]),
    }
}

/// The table as a grid of cells, figures down, sizes across, and the figure of each row.
fn grid(frameset: &Frameset, style: Style) -> Vec<Vec<String>> {
    let (size, labels) = LABELS[style.language];
    let mut rows = vec![std::iter::once(size.to_owned()).chain(frameset.sizes.iter().map(|s| s.label.clone())).collect()];
    for (figure, label) in USUAL.iter().zip(labels) {
        let (unit, factor, step) = match (figure.is_angle(), style.in_cm) {
            (true, _) => ("°", 1.0, style.deg),
            (false, true) => ("cm", 0.1, style.mm),
            (false, false) => ("mm", 1.0, style.mm),
        };
        // Every cell with the decimals that the step needs, as makers print it.
        let decimals = (0..5).find(|d| ((step * factor) * 10f64.powi(*d)).fract().abs() < 1e-9).unwrap();
        let mut row: Vec<String> = vec![format!("{label} ({unit})")];
        for s in &frameset.sizes {
            let text = format!("{:.*}", usize::try_from(decimals).unwrap(), s.figures[figure] * factor);
            row.push(if style.is_comma { text.replace('.', ",") } else { text });
        }
        rows.push(row);
    }
    rows
}

fn text(rows: &[Vec<String>], style: Style) -> String {
    let turned: Vec<Vec<String>> = if style.sizes_down {
        (0..rows[0].len()).map(|c| rows.iter().map(|r| r[c].clone()).collect()).collect()
    } else {
        rows.to_vec()
    };
    turned.iter().map(|r| r.join(&style.separator.to_string()) + "\n").collect()
}

/// What each size says of each figure, to a thousandth.
fn said(frameset: &Frameset) -> BTreeMap<String, BTreeMap<Figure, String>> {
    let thousandths = |v: f64| format!("{v:.3}");
    frameset.sizes.iter().map(|s| (s.label.clone(), s.figures.iter().map(|(f, v)| (*f, thousandths(*v))).collect())).collect()
}

fn labelled(mut frameset: Frameset) -> Frameset {
    for (size, label) in frameset.sizes.iter_mut().zip(["XS", "S", "M", "L", "XL"]) {
        label.clone_into(&mut size.label);
    }
    frameset
}

fn pasted(table: &str) -> Frameset {
    let reading = import::read_text(table).unwrap_or_else(|e| panic!("{e}\n{table}"));
    let open: Vec<&str> = reading.open_questions().map(|q| q.sentence.as_str()).collect();
    assert!(open.is_empty(), "{open:?}\n{table}");
    reading.to_frameset("Marrowby", "Drift").unwrap_or_else(|e| panic!("{e}\n{table}"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 160, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_was_printed_comes_back_and_no_step_is_taken_too_fine(seed: u64) {
        let mut dice = Dice::new(seed);
        let style = style(&mut dice);
        let count = 3 + dice.below(3);
        let printed = labelled(frameset(&mut dice, count, &USUAL, (style.mm, style.deg), true, Assumptions::Right).frameset);
        let table = text(&grid(&printed, style), style);
        let back = pasted(&table);
        prop_assert_eq!(said(&back), said(&printed), "{:?}\n{}", style, table);
        for size in &back.sizes {
            for figure in USUAL {
                let step = if figure.is_angle() { style.deg } else { style.mm };
                prop_assert!(back.step(size, figure) > step - 1e-9, "{figure:?} to {}: {style:?}\n{table}", back.step(size, figure));
            }
        }
    }

    #[test]
    fn the_order_of_rows_and_columns_changes_nothing(seed: u64) {
        let mut dice = Dice::new(seed);
        let style = style(&mut dice);
        let count = 3 + dice.below(3);
        let printed = labelled(frameset(&mut dice, count, &USUAL, (style.mm, style.deg), true, Assumptions::Right).frameset);
        let mut rows = grid(&printed, style);
        let straight = pasted(&text(&rows, style));
        for i in (2..rows.len()).rev() {
            rows.swap(i, 1 + dice.below(i));
        }
        let columns: Vec<usize> = {
            let mut columns: Vec<usize> = (1..rows[0].len()).collect();
            for i in (1..columns.len()).rev() {
                columns.swap(i, dice.below(i + 1));
            }
            columns
        };
        let turned: Vec<Vec<String>> =
            rows.iter().map(|r| std::iter::once(r[0].clone()).chain(columns.iter().map(|c| r[*c].clone())).collect()).collect();
        let shuffled = pasted(&text(&turned, style));
        prop_assert_eq!(said(&straight), said(&shuffled));
        prop_assert_eq!(straight.rounded_to, shuffled.rounded_to);
    }
}
