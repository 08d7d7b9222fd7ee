//! What is written on a sheet: small tables, sentences, lists a frame, the weights; and how they
//! share a column: each gets what it needs, and where that is too much, those before leave those behind their least.

use super::blocks::{self, Drawings};
use super::head::write;
use super::lists::List;
use super::sheeted::Sheeted;
use super::table::TableBlock;
use super::weights::WeightBlock;
use crate::drawing::measure::wrap;
use crate::drawing::pen::{Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Pt, Role};
use crate::lineup::Block;
use crate::words::{Label, LeftOut, SmallTable, build_small_table, captions, price_and_climb_answers, small_table};

/// A written block.
pub(super) enum Written {
    /// A small table of a block.
    Table(Block, TableBlock),
    /// Sentences of a block, each with whether it tells a clear difference.
    Sentences(Block, Vec<(String, bool)>),
    /// Needs, parts, standards or builds, frame by frame.
    List(List),
    /// The framesets' weights as bars.
    Weights(WeightBlock),
    /// A drawing among what is written.
    Drawing(Block),
}

impl Written {
    /// What a block of the sheet writes; nothing for a drawing, and where there is nothing to write.
    pub(super) fn of(with: &Sheeted, block: Block) -> Vec<Self> {
        let one = match block {
            Block::Overview
            | Block::Outline
            | Block::Steering
            | Block::StackAndReach
            | Block::Bags
            | Block::RearFromAbove
            | Block::Loaded
            | Block::PriceAgainstWeight => None,
            Block::Table => Self::table(block, small_table(with.lineup, with.findings, with.sheet)),
            Block::Captions => {
                let own = with.sheet.words.trim();
                let own = (!own.is_empty()).then(|| (own.to_owned(), true));
                let found = captions(with.lineup, with.findings, with.sheet).into_iter();
                let found = found.filter(|c| !c.text.is_empty()).map(|c| (c.text, c.is_clear || c.is_edited));
                let sentences: Vec<(String, bool)> = own.into_iter().chain(found).collect();
                (!sentences.is_empty()).then_some(Self::Sentences(block, sentences))
            }
            Block::PriceAndClimb => {
                let said = price_and_climb_answers(with.lineup, with.findings);
                let all = std::iter::once(said.lightest).chain(said.cost).chain(said.climb).filter(|s| !s.is_empty());
                let sentences: Vec<(String, bool)> = all.map(|s| (s, true)).collect();
                (!sentences.is_empty()).then_some(Self::Sentences(block, sentences))
            }
            Block::Needs => List::needs(with).map(Self::List),
            Block::Parts => List::parts(with).map(Self::List),
            Block::Standards => List::standards(with).map(Self::List),
            Block::Build => {
                let sums = Self::table(block, build_small_table(with.lineup, with.findings));
                return sums.into_iter().chain(List::build(with).map(Self::List)).collect();
            }
            Block::Weights => WeightBlock::of(with.findings, with.lineup.settings.units).map(Self::Weights),
        };
        one.into_iter().collect()
    }

    fn table(block: Block, table: SmallTable) -> Option<Self> {
        let is_empty = table.rows.is_empty() || table.columns.is_empty();
        (!is_empty).then(|| {
            Self::Table(block, {
                // Beside the table of differences it has to say what it is.
                let is_build = block == Block::Build;
                TableBlock { table, title: is_build.then_some(block.label()), is_banded: is_build }
            })
        })
    }

    /// The block of the sheet that it is.
    const fn block(&self) -> Block {
        match self {
            Self::Table(block, _) | Self::Sentences(block, _) => *block,
            Self::List(list) => list.block,
            Self::Weights(_) => Block::Weights,
            Self::Drawing(block) => *block,
        }
    }

    /// That it does not fit.
    pub(super) const fn left_out(&self) -> LeftOut {
        match self {
            Self::List(list) => list.left_out(),
            _ => LeftOut::Block(self.block()),
        }
    }

    /// Width that it likes.
    pub(super) fn wanted_width(&self, with: &Sheeted) -> f64 {
        match self {
            Self::Table(_, table) => table.width(with.least),
            Self::List(list) => list.wanted_width(with),
            Self::Sentences(..) | Self::Weights(_) | Self::Drawing(_) => with.least * 21.0,
        }
    }

    /// Height that it needs at a width.
    pub(super) fn height(&self, with: &Sheeted, width: f64) -> f64 {
        match self {
            Self::Table(_, table) => table.height(with.least, width),
            Self::Sentences(_, sentences) => sentences.iter().map(|s| sentence_height(with, &s.0, width)).sum(),
            Self::List(list) => list.height(with, width),
            Self::Weights(weights) => weights.height(with.least, width),
            Self::Drawing(block) => blocks::natural_height(with, *block, width),
        }
    }

    /// Height below which it is left out.
    fn least_height(&self, with: &Sheeted, width: f64) -> f64 {
        match self {
            Self::Table(_, table) => table.least_height(with.least),
            Self::Sentences(_, sentences) => sentences.iter().take(3).map(|s| sentence_height(with, &s.0, width)).sum(),
            Self::Drawing(block) if blocks::least_size(with, *block, width).width > width => f64::INFINITY,
            Self::Drawing(block) => blocks::least_size(with, *block, width).height,
            Self::List(list) => list.least_height(with, width),
            Self::Weights(_) => self.height(with, width),
        }
    }

    /// Height that is kept for it by those before: their totals come before the lines of builds.
    fn kept_height(&self, with: &Sheeted, width: f64) -> f64 {
        match self {
            Self::List(list) if list.block == Block::Build => 0.0,
            _ => self.least_height(with, width),
        }
    }

    /// Whether it can stand in a rectangle of that size; what is written always can, in part.
    pub(super) fn fits(&self, with: &Sheeted, width: f64, height: f64) -> bool {
        !matches!(self, Self::Drawing(_)) || self.least_height(with, width) <= height
    }

    /// Draws as much as fits.
    fn draw(&self, pen: &mut Pen, with: &Sheeted, rect: Rect, left_out: &mut Vec<LeftOut>) {
        match self {
            Self::Table(_, table) => table.draw(pen, with, rect, left_out),
            Self::Sentences(_, sentences) => draw_sentences(pen, with, rect, sentences, left_out),
            Self::List(list) => list.draw(pen, with, rect, left_out),
            Self::Weights(weights) => weights.draw(pen, with, rect),
            Self::Drawing(block) => Drawings::new(with, vec![*block]).draw(pen, rect),
        }
    }
}

/// Height that blocks below one another need.
pub(super) fn height(with: &Sheeted, written: &[Written], width: f64) -> f64 {
    written.iter().map(|w| w.height(with, width) + with.least * 1.1).sum()
}

/// Blocks in two columns, in their order, parted where the higher of both is lowest. Sentences alone share both.
pub(super) fn halves(with: &Sheeted, mut written: Vec<Written>, width: f64) -> (Vec<Written>, Vec<Written>) {
    if let [Written::Sentences(block, sentences)] = written.as_mut_slice() {
        let block = *block;
        let right = sentences.split_off(sentences.len().div_ceil(2));
        return (written, if right.is_empty() { Vec::new() } else { vec![Written::Sentences(block, right)] });
    }
    let higher = |at: &usize| {
        let (left, right) = written.split_at(*at);
        height(with, left, width).max(height(with, right, width))
    };
    let at = (0..=written.len()).min_by(|a, b| higher(a).total_cmp(&higher(b))).unwrap_or(0);
    let right = written.split_off(at);
    (written, right)
}

/// Blocks below one another; gives back where they end.
pub(super) fn column(pen: &mut Pen, with: &Sheeted, rect: Rect, written: &[Written], left_out: &mut Vec<LeftOut>) -> f64 {
    let gap = with.least * 1.1;
    let mut y = rect.y;
    for (i, block) in written.iter().enumerate() {
        let behind: f64 = written[i + 1..].iter().map(|w| w.kept_height(with, rect.width) + gap).sum();
        let left = rect.bottom() - y;
        let wanted = block.height(with, rect.width);
        let least = block.least_height(with, rect.width);
        // What comes behind is left room for only where both can be had.
        let height = wanted.min((left - behind).max(least)).min(left);
        if height + 0.5 < least {
            left_out.push(block.left_out());
            continue;
        }
        with.backing(pen, Rect::new(rect.x, y, rect.width, height));
        block.draw(pen, with, Rect::new(rect.x, y, rect.width, height), left_out);
        y += height + gap;
    }
    y
}

fn face(with: &Sheeted, is_clear: bool) -> Face {
    Face::regular(with.least * 1.04, if is_clear { Role::Ink } else { Role::Grey })
}

fn sentence_lines(with: &Sheeted, text: &str, width: f64) -> Vec<String> {
    let face = face(with, true);
    wrap(text, face.size, face.weight, width, 6)
}

fn sentence_height(with: &Sheeted, text: &str, width: f64) -> f64 {
    let face = face(with, true);
    sentence_lines(with, text, width).len() as f64 * face.size * 1.25 + with.least * 0.4
}

/// Whole sentences as long as there is room.
fn draw_sentences(pen: &mut Pen, with: &Sheeted, rect: Rect, sentences: &[(String, bool)], left_out: &mut Vec<LeftOut>) {
    let mut y = rect.y;
    let mut lost = 0;
    for (text, is_clear) in sentences {
        let height = sentence_height(with, text, rect.width);
        if y + height > rect.bottom() + with.least * 0.5 {
            lost += 1;
            continue;
        }
        let face = face(with, *is_clear);
        write(pen, &sentence_lines(with, text, rect.width), Pt { x: rect.x, y }, face, face.size * 1.25);
        y += height;
    }
    if lost > 0 {
        left_out.push(LeftOut::Sentences { lost, of: sentences.len() });
    }
}
