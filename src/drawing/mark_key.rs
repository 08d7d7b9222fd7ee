//! The key below a table: what its marks mean, over as many lines as it needs.

use super::fit_scene::mark;
use super::measure::text_width;
use super::pen::{Face, Pen};
use super::scene::{Anchor, Pt, Role};
use crate::words::FitMark;

/// Height of a line of the key.
pub(super) const KEY_LINE: f64 = 16.0;
const NOTE: Face = Face::regular(11.0, Role::SecondInk);
/// Space for a mark before its words, and what is free behind them.
const MARK: f64 = 14.0;
const GAP: f64 = 18.0;

/// A mark and what it means.
pub(super) type Meaning = (FitMark, &'static str);

/// A key in lines.
pub(super) struct MarkKey(Vec<Vec<Meaning>>);

fn width_of(words: &str) -> f64 {
    MARK + text_width(words, NOTE.size, NOTE.weight)
}

impl MarkKey {
    /// The key of these marks in that width, page units.
    pub(super) fn of(meanings: impl IntoIterator<Item = Meaning>, width: f64) -> Self {
        let mut lines: Vec<Vec<Meaning>> = Vec::new();
        let mut x = f64::INFINITY;
        for (mark, words) in meanings {
            if x + width_of(words) > width {
                lines.push(Vec::new());
                x = 0.0;
            }
            x += width_of(words) + GAP;
            if let Some(line) = lines.last_mut() {
                line.push((mark, words));
            }
        }
        Self(lines)
    }

    /// How many lines it takes.
    pub(super) const fn len(&self) -> usize {
        self.0.len()
    }

    /// Draws it, the base line of its first line at `y`.
    pub(super) fn draw(&self, pen: &mut Pen, left: f64, y: f64) {
        for (line, marks) in self.0.iter().enumerate() {
            let (mut x, y) = (left, y + KEY_LINE * line as f64);
            for (sign, words) in marks {
                mark(pen, Pt { x: x + 4.0, y: y - 4.0 }, *sign);
                pen.text(Pt { x: x + MARK, y }, *words, NOTE, Anchor::Start);
                x += width_of(words) + GAP;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TWO: [Meaning; 2] = [(FitMark::Yes, "fits"), (FitMark::No, "does not fit")];

    #[test]
    fn a_key_breaks_its_line_where_the_next_words_would_leave_the_width() {
        let whole = width_of("fits") + GAP + width_of("does not fit");
        assert_eq!(MarkKey::of(TWO, whole + 0.01).len(), 1);
        assert_eq!(MarkKey::of(TWO, whole - 0.01).len(), 2);
        assert_eq!(MarkKey::of([], 100.0).len(), 0);
        // Words that are wider than everything stand on a line of their own.
        assert_eq!(MarkKey::of(TWO, 1.0).len(), 2);
    }
}
