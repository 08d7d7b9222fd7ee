//! One figure against another: every size of every shown frame a point with its ± as bars, the chosen sizes strong, the
//! sizes of one frame joined in their order.
//!
//! Invariants: no label covers another; what is not determined stands in words under the plot, never at a made-up place.

use std::fmt::Write;

use super::measure::{CAP_HEIGHT, text_width, wrap};
use super::order::from_back_to_front;
use super::palette::frame_pattern;
use super::pen::{BALLOON, Face, Pen, solid};
use super::plot_labels::Taken;
use super::plot_view::PlotView;
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke, Weight};
use super::ticks::ticks;
use crate::frameset::Figure;
use crate::geometry::Value;
use crate::lineup::{Axes, Findings, FrameFindings};
use crate::units::{System, listed};
use crate::words::{difference_text, frame_and_size, in_sentence, value_and_leans, value_text};

const LEFT: f64 = 64.0;
const RIGHT: f64 = 24.0;
/// Where the upright axis's title begins.
pub(super) const SIDE: f64 = 16.0;
const TOP: f64 = 38.0;
const BOTTOM: f64 = 52.0;
const NOTE_LINE: f64 = 17.0;
const NOTE: Face = Face::regular(12.0, Role::SecondInk);
const TICK: Face = Face::regular(12.0, Role::SecondInk);
const TITLE: Face = Face::semibold(13.0, Role::Ink);

/// The plot on a page.
#[must_use]
pub fn plot_scene(findings: &Findings, axes: Axes, units: System, page: Page, view: PlotView) -> Scene {
    let mut pen = Pen::default();
    draw(&mut pen, findings, axes, units, Rect::of_page(page), view);
    let title = format!("{} against {}", axes.up.label(), in_sentence(axes.across));
    pen.finish(page, title, description(findings, axes, units))
}

/// The part of the page that the plot's window covers: without axes, titles and the words below.
#[must_use]
pub fn plot_area(findings: &Findings, axes: Axes, page: Page) -> Rect {
    area(findings, axes, Rect::of_page(page))
}

fn area(findings: &Findings, axes: Axes, rect: Rect) -> Rect {
    let below = BOTTOM + NOTE_LINE * notes(findings, axes, rect).len() as f64;
    Rect::new(rect.x + LEFT, rect.y + TOP, rect.width - LEFT - RIGHT, rect.height - TOP - below)
}

/// What is not determined, in lines that fit the width.
fn notes(findings: &Findings, axes: Axes, rect: Rect) -> Vec<String> {
    let figures = if axes.across == axes.up { vec![axes.up] } else { vec![axes.up, axes.across] };
    let mut sentences = Vec::new();
    for frame in findings.frames.iter().filter(|f| f.shown) {
        let sizes = &frame.adjusted.sizes;
        let lacks = |figure: Figure| sizes.iter().filter(move |s| s.value(figure).is_missing);
        let (nowhere, here_and_there): (Vec<Figure>, Vec<Figure>) =
            figures.iter().copied().filter(|f| lacks(*f).next().is_some()).partition(|f| lacks(*f).count() == sizes.len());
        if !nowhere.is_empty() {
            let names: Vec<String> = nowhere.into_iter().map(in_sentence).collect();
            sentences.push(format!("{}: {} not determined.", frame.letter, listed(names.iter().map(String::as_str))));
        }
        for figure in here_and_there {
            let labels = listed(lacks(figure).map(|s| s.label.as_str()));
            sentences.push(format!("{}: {} not determined in size {labels}.", frame.letter, in_sentence(figure)));
        }
    }
    let most = if rect.height > 320.0 { 4 } else { 1 };
    wrap(&sentences.join(" "), NOTE.size, NOTE.weight, (rect.width - LEFT - RIGHT).max(0.0), most)
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(findings: &Findings, axes: Axes, units: System) -> String {
    let mut text = String::new();
    for (place, frame) in findings.frames.iter().enumerate().filter(|(_, f)| f.shown) {
        let figures: Vec<String> = [axes.across, axes.up]
            .iter()
            .filter_map(|f| frame.value(*f))
            .map(|v| format!("{} {}", in_sentence(v.figure), value_text(units, v)))
            .collect();
        let _ = write!(text, "{}: {}", frame_and_size(frame), figures.join(", "));
        let against = against_reference(findings, place, axes, units);
        let _ = if against.is_empty() { write!(text, ". ") } else { write!(text, "; {against}. ") };
    }
    if text.is_empty() { "No frame is shown.".to_owned() } else { text.trim_end().to_owned() }
}

/// `against A: trail +11 ± 2 mm, chainstay −5 ± 6 mm (within its ±)`; empty for the reference.
fn against_reference(findings: &Findings, place: usize, axes: Axes, units: System) -> String {
    let Some(reference) = findings.reference_frame() else { return String::new() };
    let words: Vec<String> = [axes.across, axes.up]
        .iter()
        .filter_map(|f| Some((*f, findings.difference(place, *f)?)))
        .map(|(figure, difference)| {
            let grade = if difference.is_clear() { "" } else { " (within its ±)" };
            format!("{} {}{grade}", in_sentence(figure), difference_text(units, figure, difference))
        })
        .collect();
    if words.is_empty() { String::new() } else { format!("against {}: {}", reference.letter, words.join(", ")) }
}

/// A size of a frame in the plane.
struct Dot<'a> {
    place: usize,
    size: &'a str,
    is_chosen: bool,
    across: &'a Value,
    up: &'a Value,
    at: Pt,
}

/// The names that points are given: sizes of one frame that lie (nearly) on one another share one, `M, L, XL`, at the
/// chosen size if it is among them.
fn named<'a, 'b>(dots: &'b [Dot<'a>]) -> Vec<(&'b Dot<'a>, String)> {
    let mut groups: Vec<Vec<&Dot>> = Vec::new();
    for dot in dots {
        let near = |other: &Dot| other.place == dot.place && (other.at.x - dot.at.x).hypot(other.at.y - dot.at.y) < 9.0;
        match groups.iter_mut().find(|g| near(g[0])) {
            Some(group) => group.push(dot),
            None => groups.push(vec![dot]),
        }
    }
    let name = |group: Vec<&'b Dot<'a>>| {
        let text = group.iter().map(|d| d.size).collect::<Vec<_>>().join(", ");
        let dot = group.iter().find(|d| d.is_chosen).or(group.first()).copied()?;
        Some((dot, text))
    };
    groups.into_iter().filter_map(name).collect()
}

/// Draws the plot into a rectangle.
pub(super) fn draw(pen: &mut Pen, findings: &Findings, axes: Axes, units: System, rect: Rect, view: PlotView) {
    let area = area(findings, axes, rect);
    if area.width < 40.0 || area.height < 40.0 {
        return;
    }
    let plot = Plot { findings, axes, units, area, view };
    plot.axes(pen, rect);
    pen.clip(area);
    let order = from_back_to_front(findings);
    let dots: Vec<Dot> = order.iter().flat_map(|place| plot.dots(*place)).collect();
    for place in &order {
        plot.join(pen, &dots, *place);
    }
    for dot in dots.iter().filter(|d| !d.is_chosen).chain(dots.iter().filter(|d| d.is_chosen)) {
        plot.dot(pen, dot);
    }
    plot.labels(pen, &dots);
    pen.unclip();
    for dot in dots.iter().filter(|d| !d.is_chosen).chain(dots.iter().filter(|d| d.is_chosen)) {
        plot.target(pen, dot);
    }
    if order.is_empty() {
        pen.text(area.centre(), "No frame is shown.", Face::regular(15.0, Role::SecondInk), Anchor::Middle);
    }
}

struct Plot<'a> {
    findings: &'a Findings,
    axes: Axes,
    units: System,
    area: Rect,
    view: PlotView,
}

impl<'a> Plot<'a> {
    fn at(&self, across: f64, up: f64) -> Pt {
        self.view.to_page(self.area, across, up)
    }

    fn title(&self, figure: Figure) -> String {
        match self.units.unit(figure.quantity()) {
            "°" => format!("{}, degrees", figure.label()),
            unit => format!("{}, {unit}", figure.label()),
        }
    }

    fn axes(&self, pen: &mut Pen, rect: Rect) {
        let Self { area, view, .. } = *self;
        let grid = Stroke { role: Role::Hairline, width: 0.8, pattern: Pattern::Solid, opacity: 0.9 };
        let factor = |figure: Figure| self.units.factor(figure.quantity());
        let by = factor(self.axes.across);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of labels across a page")]
        let most = |length: f64, spacing: f64| ((length / spacing) as usize).max(2);
        for tick in ticks(view.left * by, view.right * by, most(area.width, 84.0)) {
            let x = self.at(tick.value / by, view.bottom).x;
            pen.line(vec![Pt { x, y: area.y }, Pt { x, y: area.bottom() }], grid);
            pen.text(Pt { x, y: area.bottom() + 17.0 }, tick.label, TICK, Anchor::Middle);
        }
        let by = factor(self.axes.up);
        for tick in ticks(view.bottom * by, view.top * by, most(area.height, 52.0)) {
            let y = self.at(view.left, tick.value / by).y;
            pen.line(vec![Pt { x: area.x, y }, Pt { x: area.right(), y }], grid);
            pen.text(Pt { x: area.x - 8.0, y: y + 4.0 }, tick.label, TICK, Anchor::End);
        }
        let (left, bottom) = (area.x, area.bottom());
        pen.line(
            vec![Pt { x: left, y: area.y }, Pt { x: left, y: bottom }, Pt { x: area.right(), y: bottom }],
            solid(Role::Ink, 1.2),
        );
        pen.text(Pt { x: rect.x + SIDE, y: area.y - 14.0 }, self.title(self.axes.up), TITLE, Anchor::Start);
        pen.text(Pt { x: area.right(), y: bottom + 38.0 }, self.title(self.axes.across), TITLE, Anchor::End);
        for (i, line) in notes(self.findings, self.axes, rect).into_iter().enumerate() {
            let y = bottom + BOTTOM + NOTE_LINE * (i as f64 + 0.35);
            pen.text(Pt { x: left, y }, line, NOTE, Anchor::Start);
        }
    }

    /// The sizes of a frame that have both figures, in their order.
    fn dots(&self, place: usize) -> impl Iterator<Item = Dot<'a>> + use<'a, '_> {
        let frame = &self.findings.frames[place];
        frame.adjusted.sizes.iter().enumerate().filter_map(move |(i, size)| {
            let (across, up) = (size.value(self.axes.across), size.value(self.axes.up));
            if across.is_missing || up.is_missing {
                return None;
            }
            let at = self.at(across.value, up.value);
            Some(Dot { place, size: &size.label, is_chosen: i == frame.size, across, up, at })
        })
    }

    fn is_reference(&self, place: usize) -> bool {
        self.findings.reference == Some(place)
    }

    fn join(&self, pen: &mut Pen, dots: &[Dot], place: usize) {
        let points: Vec<Pt> = dots.iter().filter(|d| d.place == place).map(|d| d.at).collect();
        let pattern = frame_pattern(place, self.is_reference(place));
        pen.line(points, Stroke { role: Role::FrameLine(place), width: 1.4, pattern, opacity: 0.75 });
    }

    fn dot(&self, pen: &mut Pen, dot: &Dot) {
        let role = Role::FrameLine(dot.place);
        let (width, opacity, cap, radius) = if dot.is_chosen { (1.6, 1.0, 4.0, 5.5) } else { (0.9, 0.4, 0.0, 3.0) };
        let stroke = Stroke { role, width, pattern: Pattern::Solid, opacity };
        let (low, high) = self.reach(dot);
        let Pt { x, y } = dot.at;
        pen.line(vec![Pt { x: low.x, y }, Pt { x: high.x, y }], stroke);
        pen.line(vec![Pt { x, y: low.y }, Pt { x, y: high.y }], stroke);
        if cap > 0.0 {
            for end in [low.x, high.x] {
                pen.line(vec![Pt { x: end, y: y - cap }, Pt { x: end, y: y + cap }], stroke);
            }
            for end in [low.y, high.y] {
                pen.line(vec![Pt { x: x - cap, y: end }, Pt { x: x + cap, y: end }], stroke);
            }
        }
        let fill = if dot.is_chosen { Fill { role, opacity: 1.0 } } else { Fill { role: Role::Paper, opacity: 1.0 } };
        let edge = if dot.is_chosen { solid(Role::Paper, 1.4) } else { solid(role, 1.2) };
        pen.circle(dot.at, radius, Some(fill), Some(edge));
    }

    /// Ends of the bars, ± 2u: lower left and upper right.
    fn reach(&self, dot: &Dot) -> (Pt, Pt) {
        let (across, up) = (dot.across.measured(), dot.up.measured());
        (self.at(across.low(), up.low()), self.at(across.high(), up.high()))
    }

    /// Letters beside the chosen sizes, then the sizes' names where there is room.
    fn labels(&self, pen: &mut Pen, dots: &[Dot]) {
        let mut taken = Taken::within(self.area.inset(2.0));
        for dot in dots {
            taken.add(Rect::around(dot.at, if dot.is_chosen { 6.5 } else { 4.0 }));
            let (low, high) = self.reach(dot);
            taken.add_line(Pt { x: low.x, y: dot.at.y }, Pt { x: high.x, y: dot.at.y });
            taken.add_line(Pt { x: dot.at.x, y: low.y }, Pt { x: dot.at.x, y: high.y });
            if dot.is_chosen {
                taken.add(Rect::new(low.x, dot.at.y - 2.0, high.x - low.x, 4.0));
                taken.add(Rect::new(dot.at.x - 2.0, high.y, 4.0, low.y - high.y));
            }
        }
        for pair in dots.windows(2).filter(|p| p[0].place == p[1].place) {
            taken.add_line(pair[0].at, pair[1].at);
        }
        let mut chosen: Vec<&Dot> = dots.iter().filter(|d| d.is_chosen).collect();
        chosen.sort_by_key(|d| d.place);
        let size = 2.0 * BALLOON + 1.0;
        let mut balloons = Vec::new();
        for dot in chosen {
            // A point outside the window keeps its letter at the edge.
            let edge = self.area.inset(BALLOON + 3.0);
            let near = Pt { x: dot.at.x.clamp(edge.x, edge.right()), y: dot.at.y.clamp(edge.y, edge.bottom()) };
            let found =
                taken.place(near, size, size, &[5.0, 16.0, 30.0, 46.0]).or_else(|| taken.place_anywhere(near, size, size));
            let Some(centre) = found else { continue };
            let distance = (dot.at.x - centre.x).hypot(dot.at.y - centre.y);
            if self.area.contains(dot.at) && distance > BALLOON + 10.0 {
                let line = Stroke { role: Role::FrameLine(dot.place), width: 0.9, pattern: Pattern::Solid, opacity: 0.9 };
                pen.line(vec![centre, dot.at], line);
            }
            balloons.push((centre, dot.place));
        }
        for (dot, text) in named(dots).into_iter().rev().filter(|(d, _)| self.area.contains(d.at)) {
            let weight = if dot.is_chosen { Weight::Semibold } else { Weight::Regular };
            let face = Face { size: 11.0, role: Role::FrameLetter(dot.place), weight };
            let width = text_width(&text, face.size, face.weight);
            if width > 110.0 {
                continue;
            }
            let rings: &[f64] = if dot.is_chosen { &[4.0, 8.0, 14.0, 22.0] } else { &[4.0, 8.0] };
            if let Some(centre) = taken.place(dot.at, width + 3.0, face.size, rings) {
                let base = Pt { x: centre.x, y: centre.y + face.size * CAP_HEIGHT / 2.0 };
                pen.text(base, text, face, Anchor::Middle);
            }
        }
        for (centre, place) in balloons {
            pen.balloon(centre, &self.findings.frames[place].letter, place);
        }
    }

    fn target(&self, pen: &mut Pen, dot: &Dot) {
        if !self.area.contains(dot.at) {
            return;
        }
        let frame: &FrameFindings = &self.findings.frames[dot.place];
        let name = format!("{} {}, size {}", frame.letter, frame.name, dot.size);
        let figures = [dot.up, dot.across].map(|v| format!("{} {}", in_sentence(v.figure), value_and_leans(self.units, v)));
        let mut detail = figures.join("; ");
        let against = against_reference(self.findings, dot.place, self.axes, self.units);
        if dot.is_chosen && !against.is_empty() {
            let _ = write!(detail, "; {against}");
        }
        pen.spot(dot.at, if dot.is_chosen { 9.0 } else { 7.0 }, name, detail);
    }
}
