//! Weights at the size compared: frames beside frames, forks beside forks, framesets beside framesets, each a bar from
//! zero with its ±, its workings and its difference from the reference.
//!
//! Invariants: a frame's weight never stands beside a frameset's; what is not published says so; a claimed weight and an
//! estimate look different from a weighing.

use super::measure::{CAP_HEIGHT, shorten, text_width, wrap};
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke};
use super::ticks::ticks;
use crate::frameset::{FrameIndex, Part};
use crate::lineup::{Findings, FrameFindings};
use crate::units::{Quantity, System};
use crate::weight::WeightOrigin;
use crate::words::drawings as labels;
use crate::words::{
    NOT_PUBLISHED, frame_and_size, more_do_not_fit, origin_label, weight_difference, weight_steps, weight_text, weight_workings,
};

const PARTS: [Part; 3] = [Part::Frame, Part::Fork, Part::Frameset];
/// Height of a part's heading, page units.
const HEADING: f64 = 34.0;
/// Lowest and highest row, and one that reads comfortably.
const ROW: std::ops::RangeInclusive<f64> = 16.0..=52.0;
const COMFORTABLE_ROW: f64 = 40.0;
/// Room above the first heading and for the axis and the key below the last row.
const TOP: f64 = 8.0;
const BELOW: f64 = 76.0;
pub(super) const SIDE: f64 = 20.0;
/// Room for a frame's letter before its bar.
const LETTER: f64 = 34.0;
/// Room for a value behind the longest bar, and for a difference.
const VALUE: f64 = 112.0;
const DIFFERENCE: f64 = 168.0;
/// The shortest bar column beside which sums get a column of their own, and the narrowest such column.
const LEAST_BAR: f64 = 190.0;
const LEAST_SUM: f64 = 230.0;
const SUM: Face = Face::regular(12.0, Role::SecondInk);
const NUMBER: Face = Face::semibold(12.5, Role::Ink);

/// The weights on a page.
#[must_use]
pub fn weight_scene(findings: &Findings, units: System, page: Page) -> Scene {
    let mut pen = Pen::default();
    draw(&mut pen, findings, units, Rect::of_page(page));
    pen.finish(page, labels::WEIGHT_TITLE, description(findings, units))
}

/// The height at which the weights stand comfortably, page units: for a page that may scroll.
#[must_use]
pub fn weight_height(findings: &Findings) -> f64 {
    let shown = findings.frames.iter().filter(|f| f.shown).count().max(1);
    TOP + BELOW + (HEADING + COMFORTABLE_ROW * shown as f64) * PARTS.len() as f64
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(findings: &Findings, units: System) -> String {
    let mut sentences = Vec::new();
    for (place, frame) in FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown) {
        let parts = PARTS.map(|part| {
            let difference = weight_difference(units, findings, place, part);
            let against =
                difference.map_or_else(String::new, |d| format!(", {}", labels::difference_from_the_reference(&d.text)));
            format!("{} {}{against}", part.label(), weight_workings(units, frame, part))
        });
        sentences.push(format!("{}: {}.", frame_and_size(frame), parts.join("; ")));
    }
    if sentences.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { sentences.join(" ") }
}

/// Draws the weights into a rectangle.
pub(super) fn draw(pen: &mut Pen, findings: &Findings, units: System, rect: Rect) {
    let shown: Vec<FrameIndex> = FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown).collect();
    if shown.is_empty() {
        pen.text(rect.centre(), labels::NO_FRAME_IS_SHOWN, Face::regular(15.0, Role::SecondInk), Anchor::Middle);
        return;
    }
    let parts = PARTS.len() as f64;
    let room = (rect.height - TOP - BELOW - HEADING * parts).max(0.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows on a page")]
    let fitting = ((room / parts / ROW.start()) as usize).max(1);
    let (drawn, left_out) = shown.split_at(fitting.min(shown.len()));
    let row = (room / parts / drawn.len() as f64).clamp(*ROW.start(), *ROW.end());
    let sheet = Sheet::new(findings, units, rect, row, drawn);
    sheet.draw(pen, drawn, left_out.len());
}

struct Sheet<'a> {
    findings: &'a Findings,
    units: System,
    rect: Rect,
    row: f64,
    /// Where bars begin, and how long the heaviest is.
    zero: f64,
    length: f64,
    /// The heaviest of all, g.
    most: f64,
    /// Where sums begin and how wide they may be; zero where there is no column for them.
    sum_at: f64,
    sum_width: f64,
}

impl<'a> Sheet<'a> {
    fn new(findings: &'a Findings, units: System, rect: Rect, row: f64, drawn: &[FrameIndex]) -> Self {
        let weights = drawn.iter().flat_map(|i| PARTS.map(|p| findings.frames[*i].weights.part(p).map(|w| w.mass.high())));
        let most = weights.flatten().fold(0.0, f64::max);
        let zero = rect.x + SIDE + LETTER;
        let free = (rect.width - 2.0 * SIDE - LETTER - VALUE - DIFFERENCE).max(60.0);
        // Sums get a column of their own, as wide as the longest, where the page has it.
        let frames = drawn.iter().map(|i| &findings.frames[*i]);
        let sums = frames.flat_map(|f| PARTS.map(|p| weight_workings(units, f, p)));
        let widest = sums.map(|sum| text_width(&sum, SUM.size, SUM.weight)).fold(LEAST_SUM, f64::max) + 12.0;
        let sum_width = if free >= LEAST_BAR + LEAST_SUM { widest.min(free - LEAST_BAR) } else { 0.0 };
        let length = free - sum_width;
        Self { findings, units, rect, row, zero, length, most, sum_at: zero + length + VALUE, sum_width }
    }

    fn x(&self, grams: f64) -> f64 {
        if self.most > 0.0 { self.zero + grams / self.most * self.length } else { self.zero }
    }

    fn draw(&self, pen: &mut Pen, drawn: &[FrameIndex], left_out: usize) {
        let top = self.rect.y + TOP;
        let bottom = top + (HEADING + self.row * drawn.len() as f64) * PARTS.len() as f64;
        self.axis(pen, top, bottom);
        let mut y = top;
        for part in PARTS {
            self.heading(pen, part, y);
            y += HEADING;
            for place in drawn {
                self.weight(pen, *place, part, y);
                y += self.row;
            }
        }
        self.key(pen, drawn, bottom, left_out);
    }

    /// Hairlines at round weights, their numbers below.
    fn axis(&self, pen: &mut Pen, top: f64, bottom: f64) {
        let factor = self.units.factor(Quantity::Mass);
        if self.most <= 0.0 {
            return;
        }
        let grid = Stroke { role: Role::Hairline, width: 0.8, pattern: Pattern::Solid, opacity: 0.9 };
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of labels across a page")]
        let most = ((self.length / 56.0) as usize).max(2);
        for tick in ticks(0.0, self.most * factor, most) {
            let x = self.x(tick.value / factor);
            pen.line(vec![Pt { x, y: top + HEADING }, Pt { x, y: bottom + 4.0 }], grid);
            let text = self.units.with_unit(Quantity::Mass, &tick.label);
            pen.text(Pt { x, y: bottom + 19.0 }, text, Face::regular(11.5, Role::SecondInk), Anchor::Middle);
        }
    }

    fn heading(&self, pen: &mut Pen, part: Part, y: f64) {
        let base = y + HEADING - 11.0;
        let name = match part {
            Part::Frame => labels::FRAME_ALONE,
            Part::Fork => labels::FORK_ALONE,
            Part::Frameset => labels::FRAME_AND_FORK,
        };
        let (left, right) = (self.rect.x + SIDE, self.rect.right() - SIDE);
        pen.text(Pt { x: left, y: base }, name, Face::semibold(13.0, Role::Ink), Anchor::Start);
        if let Some(reference) = self.findings.reference_frame() {
            let text = labels::difference_from(&reference.letter);
            pen.text(Pt { x: right, y: base }, text, SUM, Anchor::End);
        }
        let rule = solid(Role::Hairline, 1.0);
        pen.line(vec![Pt { x: left, y: base + 6.0 }, Pt { x: right, y: base + 6.0 }], rule);
    }

    fn weight(&self, pen: &mut Pen, place: FrameIndex, part: Part, y: f64) {
        let frame = &self.findings.frames[place];
        let middle = y + self.row / 2.0;
        let has_two_lines = self.sum_width == 0.0 && self.row >= 32.0;
        let line = if has_two_lines { middle - 7.0 } else { middle };
        self.letter(pen, frame, place, middle);
        let base = |size: f64| line + size * CAP_HEIGHT / 2.0;
        let Some(weight) = frame.weights.part(part) else {
            pen.text(Pt { x: self.zero + 6.0, y: base(SUM.size) }, NOT_PUBLISHED, SUM, Anchor::Start);
            return;
        };
        let height = if has_two_lines { 12.0 } else { (self.row * 0.55).min(16.0) };
        let end = self.x(weight.mass.value);
        let bar = Rect::new(self.zero, line - height / 2.0, end - self.zero, height);
        draw_bar(pen, bar, place, frame.weights.origin(part).unwrap_or(WeightOrigin::Claimed));
        let (least, most) = (self.x(weight.mass.low().max(0.0)), self.x(weight.mass.high()));
        draw_range(pen, line, [least, most]);
        pen.text(Pt { x: most + 8.0, y: base(NUMBER.size) }, weight_text(self.units, frame, part), NUMBER, Anchor::Start);
        let difference = weight_difference(self.units, self.findings, place, part);
        let right = self.rect.right() - SIDE;
        if self.findings.reference == Some(place) {
            pen.text(Pt { x: right, y: base(SUM.size) }, labels::REFERENCE, SUM, Anchor::End);
        } else if let Some(difference) = &difference {
            let role = if difference.is_clear { Role::Ink } else { Role::Grey };
            let face = Face { role, ..Face::regular(12.5, Role::Ink) };
            pen.text(Pt { x: right, y: base(face.size) }, difference.text.clone(), face, Anchor::End);
        }
        let steps = weight_steps(self.units, &frame.frameset, &frame.weights, part);
        if has_two_lines {
            let width = right - self.zero;
            let text = shorten(&steps.join("; "), SUM.size, SUM.weight, width);
            pen.text(Pt { x: self.zero, y: middle + 14.0 }, text, SUM, Anchor::Start);
        } else if self.sum_width > 0.0 {
            self.sum(pen, &steps, middle);
        }
        let row = Rect::new(self.rect.x + SIDE, y, self.rect.width - 2.0 * SIDE, self.row);
        let against = difference.map_or_else(String::new, |d| format!("; {}", labels::difference_from_the_reference(&d.text)));
        let detail = format!("{}{against}", steps.join("; "));
        pen.target(row.corners(), format!("{}: {}", frame_and_size(frame), part.label()), detail);
    }

    /// The workings in their column, on two lines where they need them and the row has them.
    fn sum(&self, pen: &mut Pen, steps: &[String], middle: f64) {
        let width = self.sum_width - 12.0;
        let sum = steps.join("; ");
        let is_long = text_width(&sum, SUM.size, SUM.weight) > width;
        let lines = match steps {
            // What is added stands on a line of its own.
            [first, rest @ ..] if is_long && !rest.is_empty() && self.row >= 27.0 => {
                [format!("{first};"), rest.join("; ")].map(|part| shorten(&part, SUM.size, SUM.weight, width)).to_vec()
            }
            _ => wrap(&sum, SUM.size, SUM.weight, width, if self.row >= 27.0 { 2 } else { 1 }),
        };
        let first = middle + SUM.size * CAP_HEIGHT / 2.0 - 6.75 * (lines.len().saturating_sub(1)) as f64;
        for (i, line) in lines.into_iter().enumerate() {
            pen.text(Pt { x: self.sum_at, y: first + 13.5 * i as f64 }, line, SUM, Anchor::Start);
        }
    }

    fn letter(&self, pen: &mut Pen, frame: &FrameFindings, place: FrameIndex, middle: f64) {
        let centre = Pt { x: self.rect.x + SIDE + 11.0, y: middle };
        if self.row >= 25.0 {
            pen.balloon(centre, &frame.letter, place);
        } else {
            let face = Face::semibold(12.5, Role::FrameLetter(place));
            let base = Pt { x: centre.x, y: middle + face.size * CAP_HEIGHT / 2.0 };
            pen.text(base, frame.letter.clone(), face, Anchor::Middle);
        }
    }

    /// What the bars' looks mean, and what is known of their ±.
    fn key(&self, pen: &mut Pen, drawn: &[FrameIndex], bottom: f64, left_out: usize) {
        let kinds = drawn.iter().flat_map(|i| PARTS.map(|p| (i, p)));
        let mut occurring: Vec<WeightOrigin> = kinds.filter_map(|(i, p)| self.findings.frames[*i].weights.origin(p)).collect();
        occurring.sort_unstable();
        occurring.dedup();
        let mut x = self.rect.x + SIDE;
        let y = bottom + 40.0;
        for origin in &occurring {
            let width = 30.0 + text_width(origin_label(*origin), SUM.size, SUM.weight);
            if x + width > self.rect.right() - SIDE {
                break;
            }
            draw_bar(pen, Rect::new(x, y - 10.0, 22.0, 11.0), FrameIndex(6), *origin);
            pen.text(Pt { x: x + 30.0, y }, origin_label(*origin), SUM, Anchor::Start);
            x += width + 24.0;
        }
        let mut sentences = Vec::new();
        if !occurring.is_empty() {
            sentences.push(labels::WEIGHT_BARS_TEXT.to_owned());
        }
        if left_out > 0 {
            sentences.push(more_do_not_fit(left_out));
        }
        let width = self.rect.width - 2.0 * SIDE;
        let text = shorten(&sentences.join(" "), SUM.size, SUM.weight, width);
        pen.text(Pt { x: self.rect.x + SIDE, y: y + 20.0 }, text, SUM, Anchor::Start);
    }
}

/// The ± at a bar's end: a line with a stroke at either end, where it is long enough to be one.
pub(super) fn draw_range(pen: &mut Pen, y: f64, [least, most]: [f64; 2]) {
    if most - least < 2.0 {
        return;
    }
    let stroke = solid(Role::Ink, 1.2);
    pen.line(vec![Pt { x: least, y }, Pt { x: most, y }], stroke);
    for x in [least, most] {
        pen.line(vec![Pt { x, y: y - 4.0 }, Pt { x, y: y + 4.0 }], stroke);
    }
}

/// Weighed: full. Claimed: pale with an edge. Estimated: hatched with a broken edge.
pub(super) fn draw_bar(pen: &mut Pen, bar: Rect, place: FrameIndex, origin: WeightOrigin) {
    let role = Role::FrameLine(place);
    let opacity = match origin {
        WeightOrigin::Weighed => 0.8,
        WeightOrigin::Claimed => 0.28,
        WeightOrigin::Estimated => 0.08,
    };
    let pattern = if origin == WeightOrigin::Estimated { Pattern::Dashes } else { Pattern::Solid };
    pen.area(bar.corners(), Some(Fill { role: Role::Background, opacity: 1.0 }), None);
    pen.area(bar.corners(), Some(Fill { role, opacity }), None);
    if origin == WeightOrigin::Estimated {
        let hatch = Stroke { role, width: 0.9, pattern: Pattern::Solid, opacity: 0.75 };
        let mut start = bar.x - bar.height + 6.0;
        while start < bar.right() {
            // From the lower edge up to the right, cut at the bar's ends.
            let (from, to) = (start.max(bar.x), (start + bar.height).min(bar.right()));
            let y = |x: f64| bar.bottom() - (x - start);
            if to > from {
                pen.line(vec![Pt { x: from, y: y(from) }, Pt { x: to, y: y(to) }], hatch);
            }
            start += 6.0;
        }
    }
    pen.area(bar.corners(), None, Some(Stroke { role, width: 1.1, pattern, opacity: 1.0 }));
}
