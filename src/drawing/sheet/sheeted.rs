//! What the parts of a sheet have in common: what is shown, in which format, at which least size of text.

use super::format::Format;
use crate::drawing::pen::Pen;
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Fill, Role};
use crate::lineup::{Findings, Lineup, Sheet};

pub(super) use super::format::UNBOUNDED;

/// What all parts of a sheet are drawn with.
#[derive(Clone, Copy)]
pub(super) struct Sheeted<'a> {
    pub(super) findings: &'a Findings,
    pub(super) lineup: &'a Lineup,
    pub(super) sheet: &'a Sheet,
    pub(super) format: Format,
    /// The least text size, page units.
    pub(super) least: f64,
}

impl Sheeted<'_> {
    /// A backing under what is written, where film shows through.
    pub(super) fn backing(&self, pen: &mut Pen, rect: Rect) {
        if self.sheet.background.is_clear() && rect.height > 0.0 {
            let around = self.least * 0.6;
            pen.area(rect.inset(-around).corners(), Some(Fill { role: Role::Background, opacity: BACKING }), None);
        }
    }
}

/// Opacity of the backing under words on a clear ground: over black and over white film every text keeps 4.5:1.
pub const BACKING: f64 = 0.9;
