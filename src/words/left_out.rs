//! What a sheet leaves out because its shape is too small for it.

use super::phrases::frames_in_words;
use crate::lineup::Block;
use crate::units::{listed, lower_first};
use crate::words::Label;

/// Something that does not fit a sheet's shape.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// A whole block.
    Block(Block),
    /// So many frames of the legend.
    LegendFrames(usize),
    /// Some footnotes.
    Footnotes {
        /// How many do not fit.
        lost: usize,
        /// Of how many.
        of: usize,
    },
    /// Rows of the table, by their labels.
    TableRows(Vec<String>),
    /// Some columns of the table.
    TableColumns {
        /// How many do not fit.
        lost: usize,
        /// Of how many.
        of: usize,
    },
    /// Some lines of a list, one a frame.
    Lines {
        /// The list.
        block: Block,
        /// How many do not fit.
        lost: usize,
        /// Of how many.
        of: usize,
    },
    /// Some sentences.
    Sentences {
        /// How many do not fit.
        lost: usize,
        /// Of how many.
        of: usize,
    },
}

/// What does not fit, in a sentence or two.
#[must_use]
pub fn left_out_text(left_out: &LeftOut) -> String {
    let some = |lost: usize, of: usize, one: &str, many: &str| match (lost, of) {
        (1, 1) => format!("The {one} does not fit this shape."),
        (lost, of) if lost == of => format!("None of the {of} {many} fit this shape."),
        (1, of) => format!("1 of {of} {many} does not fit this shape."),
        (lost, of) => format!("{lost} of {of} {many} do not fit this shape."),
    };
    match left_out {
        LeftOut::Block(block) => {
            let fit = if is_plural(*block) { "do" } else { "does" };
            format!("{} {fit} not fit this shape.", block.label())
        }
        LeftOut::LegendFrames(1) => "One frame does not fit in the legend.".to_owned(),
        LeftOut::LegendFrames(frames) => format!("{} do not fit in the legend.", frames_in_words(*frames)),
        LeftOut::Footnotes { lost, of } => {
            format!("{} The web page has them all.", some(*lost, *of, "footnote", "footnotes"))
        }
        LeftOut::TableRows(rows) => {
            let names: Vec<String> = rows.iter().map(|r| lower_first(r)).collect();
            let row = if rows.len() == 1 { "This row does" } else { "These rows do" };
            format!("{row} not fit in the table: {}.", listed(names.iter().map(String::as_str)))
        }
        LeftOut::TableColumns { lost, of } => some(*lost, *of, "column of the table", "columns of the table"),
        LeftOut::Lines { block, lost, of } => {
            format!("{}: {} The web page has them all.", block.label(), lower_first(&some(*lost, *of, "line", "lines")))
        }
        LeftOut::Sentences { lost, of } => some(*lost, *of, "sentence", "sentences"),
    }
}

/// Whether a block's label is a plural.
const fn is_plural(block: Block) -> bool {
    matches!(block, Block::Bags | Block::Weights | Block::Captions | Block::Needs | Block::Parts | Block::Standards)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_is_said_in_the_singular_and_the_plural() {
        let rows = |labels: &[&str]| LeftOut::TableRows(labels.iter().map(|l| (*l).to_owned()).collect());
        let all = [
            LeftOut::Block(Block::Outline),
            LeftOut::Block(Block::Bags),
            LeftOut::LegendFrames(1),
            LeftOut::LegendFrames(3),
            LeftOut::Footnotes { lost: 1, of: 9 },
            LeftOut::Footnotes { lost: 4, of: 9 },
            LeftOut::Lines { block: Block::Standards, lost: 3, of: 8 },
            LeftOut::Sentences { lost: 1, of: 1 },
            LeftOut::Sentences { lost: 5, of: 5 },
            LeftOut::TableColumns { lost: 2, of: 7 },
            rows(&["Wheelbase"]),
            rows(&["Chainstay", "Bag space", "Price"]),
        ];
        insta::assert_snapshot!(all.iter().map(left_out_text).collect::<Vec<_>>().join("\n"), @"
        Outline does not fit this shape.
        Bags do not fit this shape.
        One frame does not fit in the legend.
        3 frames do not fit in the legend.
        1 of 9 footnotes does not fit this shape. The web page has them all.
        4 of 9 footnotes do not fit this shape. The web page has them all.
        Standards: 3 of 8 lines do not fit this shape. The web page has them all.
        The sentence does not fit this shape.
        None of the 5 sentences fit this shape.
        2 of 7 columns of the table do not fit this shape.
        This row does not fit in the table: wheelbase.
        These rows do not fit in the table: chainstay, bag space and price.
        ");
    }
}
