//! Needs, parts, standards and builds on a sheet, a few lines of words a frame. What does not fit is counted.

use super::head::{HEADING, heading, write};
use super::placed::balloon;
use super::sheeted::Sheeted;
use crate::drawing::measure::wrap;
use crate::drawing::pen::{BALLOON, Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Pt, Role};
use crate::lineup::Block;
use crate::words::Label;
use crate::words::{FrameLine, LeftOut, build_list, needs_list, parts_list, standards_list};

/// Frames below which a list is left out.
const LEAST_FRAMES: usize = 2;

/// A list.
pub(super) struct List {
    pub(super) block: Block,
    lines: Vec<FrameLine>,
}

impl List {
    /// Which frame meets the needs; `None` where there are none.
    pub(super) fn needs(with: &Sheeted) -> Option<Self> {
        needs_list(with.findings, &with.lineup.settings.needs).map(|lines| Self { block: Block::Needs, lines })
    }

    /// Which frame takes the parts; `None` where there are none.
    pub(super) fn parts(with: &Sheeted) -> Option<Self> {
        parts_list(with.findings).map(|lines| Self { block: Block::Parts, lines })
    }

    /// Which standards the frames publish otherwise than the reference; `None` where none is published.
    pub(super) fn standards(with: &Sheeted) -> Option<Self> {
        standards_list(with.findings).map(|lines| Self { block: Block::Standards, lines })
    }

    /// What must be bought for each frame; `None` without parts.
    pub(super) fn build(with: &Sheeted) -> Option<Self> {
        build_list(with.lineup, with.findings).map(|lines| Self { block: Block::Build, lines })
    }

    /// Lines of builds stand below their totals, which have the heading.
    fn has_heading(&self) -> bool {
        self.block != Block::Build
    }

    /// That it does not fit; the totals of builds stand without their lines.
    pub(super) const fn left_out(&self) -> LeftOut {
        match self.block {
            Block::Build => LeftOut::Lines { block: self.block, lost: self.lines.len(), of: self.lines.len() },
            block => LeftOut::Block(block),
        }
    }

    /// Width that it likes: the lines of standards and builds are long.
    pub(super) fn wanted_width(&self, with: &Sheeted) -> f64 {
        with.least * if matches!(self.block, Block::Standards | Block::Build) { 40.0 } else { 21.0 }
    }

    fn lead(with: &Sheeted) -> f64 {
        2.0 * BALLOON * with.least / 13.0 + with.least * 0.6
    }

    fn wrapped(with: &Sheeted, text: &str, width: f64) -> Vec<String> {
        let face = Face::regular(with.least, Role::Ink);
        wrap(text, face.size, face.weight, width - Self::lead(with), usize::MAX)
    }

    fn line_height(with: &Sheeted, text: &str, width: f64) -> f64 {
        let lines = Self::wrapped(with, text, width).len() as f64 * with.least * 1.28;
        lines.max(2.0 * BALLOON * with.least / 13.0) + with.least * 0.5
    }

    fn height_of(&self, with: &Sheeted, lines: &[FrameLine], width: f64) -> f64 {
        let heading = if self.has_heading() { with.least * HEADING } else { 0.0 };
        heading + lines.iter().map(|l| Self::line_height(with, &l.text, width)).sum::<f64>()
    }

    pub(super) fn height(&self, with: &Sheeted, width: f64) -> f64 {
        self.height_of(with, &self.lines, width)
    }

    /// Height of the heading and the first frames, below which the list is left out.
    pub(super) fn least_height(&self, with: &Sheeted, width: f64) -> f64 {
        self.height_of(with, &self.lines[..self.lines.len().min(LEAST_FRAMES)], width)
    }

    /// Draws whole frames as long as there is room.
    pub(super) fn draw(&self, pen: &mut Pen, with: &Sheeted, rect: Rect, left_out: &mut Vec<LeftOut>) {
        let by = with.least / 13.0;
        let radius = BALLOON * by;
        let mut y = rect.y;
        if self.has_heading() {
            y += heading(pen, with, Pt { x: rect.x, y }, self.block.label());
        }
        for (drawn, FrameLine { frame: place, letter, text }) in self.lines.iter().enumerate() {
            if y + Self::line_height(with, text, rect.width) > rect.bottom() + with.least {
                let of = self.lines.len();
                left_out.push(LeftOut::Lines { block: self.block, lost: of - drawn, of });
                break;
            }
            balloon(pen, Pt { x: rect.x + radius, y: y + radius }, letter, *place, by);
            let lines = Self::wrapped(with, text, rect.width);
            let first = y + if lines.len() == 1 { radius - with.least * 0.64 } else { 0.0 };
            let at = Pt { x: rect.x + Self::lead(with), y: first };
            write(pen, &lines, at, Face::regular(with.least, Role::Ink), with.least * 1.28);
            y += Self::line_height(with, text, rect.width);
        }
    }
}
