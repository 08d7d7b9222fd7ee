//! The framesets' weights on a sheet: one bar a frame from zero, with its ± and its value. Frames and forks alone have
//! their own rows in the Weight view; here only what is alike stands side by side.

use super::head::heading;
use super::placed::balloon;
use super::sheeted::Sheeted;
use crate::drawing::measure::{CAP_HEIGHT, text_width, wrap};
use crate::drawing::pen::{BALLOON, Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Anchor, Pt, Role, Weight};
use crate::drawing::weight_scene::{draw_bar, draw_range};
use crate::frameset::{FrameIndex, Part};
use crate::lineup::Findings;
use crate::units::{Mass, Measured, System, listed};
use crate::weight::WeightOrigin;
use crate::words::drawings as labels;
use crate::words::{NOT_PUBLISHED, origin_label, weight_text};

/// A frame's bar.
struct Bar {
    place: FrameIndex,
    letter: String,
    /// `None` where not published.
    mass: Option<Measured<Mass>>,
    words: String,
    origin: WeightOrigin,
}

/// The bars.
pub(super) struct WeightBlock(Vec<Bar>);

const ROW: f64 = 2.15;

impl WeightBlock {
    /// The bars of the shown frames; `None` where no frameset's weight is published.
    pub(super) fn of(findings: &Findings, units: System) -> Option<Self> {
        let shown = FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown);
        let bars: Vec<Bar> = shown
            .map(|(place, frame)| Bar {
                place,
                letter: frame.letter.clone(),
                mass: frame.weights.part(Part::Frameset).map(|w| w.mass),
                words: weight_text(units, frame, Part::Frameset),
                origin: frame.weights.origin(Part::Frameset).unwrap_or(WeightOrigin::Claimed),
            })
            .collect();
        bars.iter().any(|b| b.mass.is_some()).then_some(Self(bars))
    }

    /// `A and B weighed; C converted from fork_trial size`, the surest first.
    fn kinds(&self) -> String {
        let known = || self.0.iter().filter(|b| b.mass.is_some());
        let of = |wanted: WeightOrigin| known().filter(|b| b.origin == wanted).map(|b| b.letter.as_str()).collect::<Vec<_>>();
        let words = [WeightOrigin::Weighed, WeightOrigin::Claimed, WeightOrigin::Estimated].into_iter().filter_map(|k| {
            let letters = of(k);
            (!letters.is_empty()).then(|| format!("{} {}", listed(letters.into_iter()), origin_label(k)))
        });
        words.collect::<Vec<_>>().join("; ")
    }

    fn title(&self, least: f64, width: f64) -> Vec<String> {
        wrap(&labels::frameset_weights_title(&self.kinds()), least, Weight::Semibold, width, 3)
    }

    pub(super) fn height(&self, least: f64, width: f64) -> f64 {
        least * (1.45 * self.title(least, width).len() as f64 + ROW * self.0.len() as f64)
    }

    pub(super) fn draw(&self, pen: &mut Pen, with: &Sheeted, rect: Rect) {
        let least = with.least;
        let mut y = rect.y;
        for line in self.title(least, rect.width) {
            y += heading(pen, with, Pt { x: rect.x, y }, &line);
        }
        let by = least / 13.0;
        let zero = rect.x + 2.0 * BALLOON * by + least * 0.6;
        let face = Face::regular(least, Role::Ink);
        let value = self.0.iter().map(|b| text_width(&b.words, face.size, face.weight)).fold(0.0, f64::max);
        let length = (rect.right() - zero - value - least * 0.8).max(least * 3.0);
        let most = self.0.iter().filter_map(|b| b.mass).map(Measured::high).fold(1.0, f64::max);
        let x = |grams: f64| zero + grams.max(0.0) / most * length;
        for bar in &self.0 {
            let middle = y + least * ROW / 2.0;
            balloon(pen, Pt { x: rect.x + BALLOON * by, y: middle }, &bar.letter, bar.place, by);
            let base = middle + least * CAP_HEIGHT / 2.0;
            let Some(mass) = bar.mass else {
                pen.text(Pt { x: zero, y: base }, NOT_PUBLISHED, Face::regular(least, Role::Grey), Anchor::Start);
                y += least * ROW;
                continue;
            };
            let height = least * 0.9;
            draw_bar(pen, Rect::new(zero, middle - height / 2.0, x(mass.value) - zero, height), bar.place, bar.origin);
            draw_range(pen, middle, [x(mass.low()), x(mass.high())]);
            pen.text(Pt { x: rect.right(), y: base }, bar.words.clone(), face, Anchor::End);
            y += least * ROW;
        }
    }
}
