//! Needs and parts on a sheet, one line of words a frame: what it meets or takes, and what it does not.

use super::head::{heading, write};
use super::placed::balloon;
use super::sheeted::Sheeted;
use crate::drawing::measure::wrap;
use crate::drawing::pen::{BALLOON, Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Pt, Role};
use crate::lineup::Block;
use crate::words::Label;
use crate::words::{FrameLine, needs_list, parts_list};

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

    fn lead(with: &Sheeted) -> f64 {
        2.0 * BALLOON * with.least / 13.0 + with.least * 0.6
    }

    fn wrapped(with: &Sheeted, text: &str, width: f64) -> Vec<String> {
        let face = Face::regular(with.least, Role::Ink);
        wrap(text, face.size, face.weight, width - Self::lead(with), 4)
    }

    fn line_height(with: &Sheeted, text: &str, width: f64) -> f64 {
        let lines = Self::wrapped(with, text, width).len() as f64 * with.least * 1.28;
        lines.max(2.0 * BALLOON * with.least / 13.0) + with.least * 0.5
    }

    pub(super) fn height(&self, with: &Sheeted, width: f64) -> f64 {
        with.least * 1.45 + self.lines.iter().map(|l| Self::line_height(with, &l.text, width)).sum::<f64>()
    }

    pub(super) fn draw(&self, pen: &mut Pen, with: &Sheeted, rect: Rect) {
        let by = with.least / 13.0;
        let radius = BALLOON * by;
        let mut y = rect.y + heading(pen, with, Pt { x: rect.x, y: rect.y }, self.block.label());
        for FrameLine { frame: place, letter, text } in &self.lines {
            balloon(pen, Pt { x: rect.x + radius, y: y + radius }, letter, *place, by);
            let lines = Self::wrapped(with, text, rect.width);
            let first = y + if lines.len() == 1 { radius - with.least * 0.64 } else { 0.0 };
            let at = Pt { x: rect.x + Self::lead(with), y: first };
            write(pen, &lines, at, Face::regular(with.least, Role::Ink), with.least * 1.28);
            y += Self::line_height(with, text, rect.width);
        }
    }
}
