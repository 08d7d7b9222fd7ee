//! What is doubted of a single published figure, from what the search for errors found for the whole table.

use super::slips::{LISTED_FROM, OtherWay, Slip, SlipKind};
use crate::frameset::{Figure, SizeIndex};
use crate::units::{AnyKind, Measured};

/// A figure is doubted from this chance on that it is wrong.
pub(super) const DOUBTED_FROM: f64 = 0.1;

/// A published figure of one size that is perhaps wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// Which figure.
    pub figure: Figure,
    /// As published, mm or degrees.
    pub published: f64,
    /// What the other figures give.
    pub expected: Measured<AnyKind>,
    /// The chance that it is wrong, 0 to 1.
    pub chance: f64,
    /// How it is wrong, likeliest.
    pub kind: SlipKind,
    /// How it is measured instead, for another way of measuring.
    pub other_way: Option<OtherWay>,
    /// Whether it is still used.
    pub is_used: bool,
    /// Whether it is wrong alike in all sizes.
    pub is_in_all_sizes: bool,
    /// Other published figures that could be wrong instead, with their chances, the likeliest first.
    pub others: Vec<(Figure, f64)>,
}

/// The doubts about the published figures of the size at `index`, the strongest first, each figure once.
pub(super) fn doubts(slips: &[Slip], index: SizeIndex) -> Vec<Doubt> {
    let mut doubts: Vec<Doubt> = Vec::new();
    for slip in slips.iter().filter(|s| s.chance >= DOUBTED_FROM) {
        let is_in_all_sizes = matches!(slip.kind, SlipKind::AllSizes | SlipKind::Convention);
        for cell in slip.cells.iter().filter(|c| c.size == index) {
            if doubts.iter().any(|d| d.figure == cell.figure) {
                continue;
            }
            doubts.push(Doubt {
                figure: cell.figure,
                published: cell.published,
                expected: cell.expected,
                chance: slip.chance,
                kind: slip.kind,
                other_way: slip.other_way,
                is_used: slip.is_used,
                is_in_all_sizes,
                others: if slip.is_used { others(slips, slip, index) } else { Vec::new() },
            });
        }
    }
    doubts
}

/// What else could be wrong instead: other figures of the same size, and of all sizes.
fn others(slips: &[Slip], of: &Slip, index: SizeIndex) -> Vec<(Figure, f64)> {
    let mut others: Vec<(Figure, f64)> = Vec::new();
    let own: Vec<Figure> = of.cells.iter().map(|c| c.figure).collect();
    for slip in slips.iter().filter(|s| s.chance >= LISTED_FROM && *s != of) {
        for cell in slip.cells.iter().filter(|c| c.size == index && !own.contains(&c.figure)) {
            match others.iter_mut().find(|(f, _)| *f == cell.figure) {
                Some((_, chance)) => *chance += slip.chance,
                None => others.push((cell.figure, slip.chance)),
            }
        }
    }
    // What is wrong as well, for sure, is not wrong instead.
    others.retain(|(_, chance)| *chance + of.chance <= 1.0 + 1e-9);
    others.sort_by(|a, b| b.1.total_cmp(&a.1));
    others
}
