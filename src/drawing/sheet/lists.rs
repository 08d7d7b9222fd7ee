//! Needs and parts on a sheet, one line of words a frame: what it meets or takes, and what it does not.

use super::Sheeted;
use super::head::{heading, write};
use super::placed::balloon;
use crate::drawing::measure::wrap;
use crate::drawing::pen::{BALLOON, Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Pt, Role};
use crate::lineup::{Findings, listed};
use crate::parts::{Answer, Fit, Met, Need};

/// A list.
pub(super) struct List {
    pub(super) title: &'static str,
    entries: Vec<(usize, String, String)>,
}

impl List {
    /// Which frame meets the needs; `None` where there are none.
    pub(super) fn needs(findings: &Findings, needs: &[Need]) -> Option<Self> {
        let entry = |answers: &[Answer]| {
            let of = |met: Met| {
                let which: Vec<String> =
                    answers.iter().zip(needs).filter(|(a, _)| a.met == met).map(|(_, n)| n.to_string()).collect();
                listed(which.iter().map(String::as_str))
            };
            let all = answers.len();
            let met = answers.iter().filter(|a| a.met == Met::Met).count();
            let mut words = vec![if met == all { format!("meets all {all} needs") } else { format!("meets {met} of {all}") }];
            for (met, before) in [(Met::Unmet, "not"), (Met::WithinPlusMinus, "within its ±"), (Met::NotStated, "not stated")] {
                let which = of(met);
                if !which.is_empty() {
                    words.push(format!("{before}: {which}"));
                }
            }
            format!("{}.", words.join("; "))
        };
        let has_needs = findings.fit.iter().any(|f| !f.answers.is_empty());
        has_needs.then(|| Self::of(findings, "Needs", &|place| entry(&findings.fit[place].answers)))
    }

    /// Which frame takes the parts; `None` where there are none.
    pub(super) fn parts(findings: &Findings) -> Option<Self> {
        let entry = |place: usize| {
            let fit = &findings.fit[place];
            let of = |wanted: Fit| {
                let mut titles: Vec<&str> =
                    fit.verdicts.iter().filter(|v| v.outcome.fit == wanted).map(|v| v.title.as_str()).collect();
                titles.dedup();
                listed(titles.into_iter())
            };
            let mut words = Vec::new();
            for (wanted, before) in [
                (Fit::DoesNotFit, "does not take"),
                (Fit::FitsWith, "takes with something more"),
                (Fit::NotStated, "not stated whether it takes"),
            ] {
                let which = of(wanted);
                if !which.is_empty() {
                    words.push(format!("{before}: {which}"));
                }
            }
            if words.is_empty() { "takes all parts.".to_owned() } else { format!("{}; takes the rest.", words.join("; ")) }
        };
        let has_parts = findings.fit.iter().any(|f| !f.verdicts.is_empty());
        has_parts.then(|| Self::of(findings, "Parts", &entry))
    }

    fn of(findings: &Findings, title: &'static str, entry: &dyn Fn(usize) -> String) -> Self {
        let shown = findings.frames.iter().enumerate().filter(|(i, f)| f.shown && *i < findings.fit.len());
        Self { title, entries: shown.map(|(i, f)| (i, f.letter.clone(), entry(i))).collect() }
    }

    fn lead(with: &Sheeted) -> f64 {
        2.0 * BALLOON * with.least / 13.0 + with.least * 0.6
    }

    fn lines(with: &Sheeted, text: &str, width: f64) -> Vec<String> {
        let face = Face::regular(with.least, Role::Ink);
        wrap(text, face.size, face.weight, width - Self::lead(with), 4)
    }

    fn entry_height(with: &Sheeted, text: &str, width: f64) -> f64 {
        let lines = Self::lines(with, text, width).len() as f64 * with.least * 1.28;
        lines.max(2.0 * BALLOON * with.least / 13.0) + with.least * 0.5
    }

    pub(super) fn height(&self, with: &Sheeted, width: f64) -> f64 {
        with.least * 1.45 + self.entries.iter().map(|e| Self::entry_height(with, &e.2, width)).sum::<f64>()
    }

    pub(super) fn draw(&self, pen: &mut Pen, with: &Sheeted, rect: Rect) {
        let by = with.least / 13.0;
        let radius = BALLOON * by;
        let mut y = rect.y + heading(pen, with, Pt { x: rect.x, y: rect.y }, self.title);
        for (place, letter, text) in &self.entries {
            balloon(pen, Pt { x: rect.x + radius, y: y + radius }, letter, *place, by);
            let lines = Self::lines(with, text, rect.width);
            let first = y + if lines.len() == 1 { radius - with.least * 0.64 } else { 0.0 };
            let at = Pt { x: rect.x + Self::lead(with), y: first };
            write(pen, &lines, at, Face::regular(with.least, Role::Ink), with.least * 1.28);
            y += Self::entry_height(with, text, rect.width);
        }
    }
}
