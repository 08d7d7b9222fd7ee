//! What a plot shows, as data in the figures' own units: points with their ±, lines between them, letters and names, axes
//! and the part of the plane that shows all of it.
//!
//! The published scene and the window's plot both read it, and both have its marks laid out by [`PlotMarks::items`].
//! Invariants: no label covers another; a plot that is crowded names the chosen sizes alone.

use super::measure::{CAP_HEIGHT, text_width};
use super::pen::{BALLOON, Face, Pen, solid};
use super::plot_labels::Taken;
use super::plot_view::PlotView;
use super::rect::Rect;
use super::scene::{Anchor, Fill, Item, Pattern, Pt, Role, Stroke, Weight};
use super::ticks::ticks;
use crate::frameset::FrameIndex;
use crate::units::fixed;

/// How many sizes a plot may show before only the chosen ones are named.
const MOST_NAMED: usize = 300;
/// How many frames a plot may compare before a letter that finds no place near its point is left out: lines from far
/// letters to so many points could not be followed.
const MOST_FAR_LETTERS: usize = 60;
/// Radius of a chosen size's point, of another one's, and of the ring around a point, page units.
pub(super) const DOT: f64 = 5.5;
const FAINT_DOT: f64 = 3.0;
pub(super) const RING: f64 = 9.5;

/// A plot's marks.
#[derive(Clone, Debug)]
pub struct PlotMarks {
    /// Title for screen readers.
    pub title: String,
    /// The findings in sentences, for those who do not see the plot.
    pub description: String,
    /// The axis from left to right.
    pub across: PlotAxis,
    /// The axis upwards.
    pub up: PlotAxis,
    /// The part of the plane that shows all that is compared.
    pub bounds: PlotView,
    /// The points, frame by frame from back to front, those of a frame in the order of its sizes.
    pub dots: Vec<PlotDot>,
    /// Lines under the points.
    pub joins: Vec<PlotJoin>,
    /// What the marks mean, where that is not plain.
    pub key: Vec<&'static str>,
    /// What has no place in the plot, in sentences.
    pub notes: String,
    /// What stands in place of the marks where there are none.
    pub empty: &'static str,
    pub(super) look: MarkLook,
}

/// An axis of a plot.
#[derive(Clone, Debug)]
pub struct PlotAxis {
    /// What it measures, with its unit.
    pub title: String,
    /// Shown units for one of the figures' own.
    pub factor: f64,
    /// Least distance between two of its labels, page units.
    pub spacing: f64,
}

impl PlotAxis {
    /// Round numbers from `low` to `high` (own units) on an axis of that length (page units): where each lies in own units, how far it is from the
    /// next, and how it is written in shown units.
    #[must_use]
    pub fn ticks(&self, low: f64, high: f64, length: f64) -> Vec<(f64, f64, String)> {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "2 to 200")]
        let most = (length / self.spacing).clamp(2.0, 200.0) as usize;
        let found = ticks(low * self.factor, high * self.factor, most);
        let step = found.windows(2).map(|p| p[1].value - p[0].value).next().unwrap_or(high - low);
        found.into_iter().map(|t| (t.value / self.factor, step / self.factor, t.label)).collect()
    }

    /// A value in shown units, with the decimals that a step of the axis needs (both in own units).
    #[must_use]
    pub fn written(&self, value: f64, step: f64) -> String {
        let power = ((step * self.factor).abs().log10() + 1e-9).floor();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 12")]
        let decimals = (-power).clamp(0.0, 12.0) as usize;
        fixed(value * self.factor, decimals)
    }
}

/// A point of a plot.
#[derive(Clone, Debug)]
pub struct PlotDot {
    /// Place of its frame.
    pub place: FrameIndex,
    /// Letter of its frame.
    pub letter: String,
    /// Its name beside it: the size. Empty for none.
    pub label: String,
    /// Whether it is the frame's chosen size.
    pub is_chosen: bool,
    /// Whether a ring stands around it.
    pub has_ring: bool,
    /// Its place from left to right.
    pub across: PlotValue,
    /// Its place upwards.
    pub up: PlotValue,
    /// What it is.
    pub name: String,
    /// Its figures.
    pub detail: String,
}

/// A value on an axis with the ends of its bar, own units; both are the value where it has no ±.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlotValue {
    /// The value.
    pub value: f64,
    /// Two standard uncertainties below it.
    pub low: f64,
    /// Two standard uncertainties above it.
    pub high: f64,
}

impl PlotValue {
    /// Whether it has a bar.
    fn is_uncertain(self) -> bool {
        self.high > self.low
    }
}

/// A line of a plot.
#[derive(Clone, Debug)]
pub struct PlotJoin {
    /// Pairs of values, across and up.
    pub points: Vec<(f64, f64)>,
    /// Its look.
    pub stroke: Stroke,
    /// Words at its middle.
    pub label: Option<String>,
}

/// How a plot's marks look.
#[derive(Clone, Copy, Debug)]
pub(super) struct MarkLook {
    /// How far around a point its letter may stand, page units.
    pub(super) rings: [f64; 4],
    /// From which distance on a line leads from a letter to its point.
    pub(super) leader_from: f64,
    /// From which length on a bar is drawn.
    pub(super) bar_from: f64,
    /// Width of the edge around a chosen point.
    pub(super) edge: f64,
    /// How much of a point stays free of labels, as a radius.
    pub(super) clear: f64,
    /// Half the height of a bar that stays free of labels.
    pub(super) bar_clear: f64,
    /// Radius of the target around a chosen point, and around another one.
    pub(super) targets: (f64, f64),
}

/// Words at a line's middle.
const LINE_LABEL: Face = Face::regular(11.5, Role::SecondInk);

impl PlotMarks {
    /// The marks in an area of a page that shows `view`: lines, ±, points, names and letters. What lies outside is left out.
    #[must_use]
    pub fn items(&self, area: Rect, view: PlotView) -> Vec<Item> {
        let mut pen = Pen::default();
        self.draw(&mut pen, area, view);
        pen.into_items()
    }

    pub(super) fn draw(&self, pen: &mut Pen, area: Rect, view: PlotView) {
        let laid = Laid { marks: self, area, dots: self.dots.iter().map(|dot| Placed::of(dot, area, view)).collect() };
        let joins = laid.joins(pen, view);
        for dot in laid.in_order() {
            laid.dot(pen, dot);
        }
        laid.labels(pen, &joins);
    }

    /// The points in the order of painting: the chosen ones last.
    pub(super) fn in_order(&self) -> impl Iterator<Item = &PlotDot> {
        self.dots.iter().filter(|d| !d.is_chosen).chain(self.dots.iter().filter(|d| d.is_chosen))
    }

    /// Puts down a target around each point that the area shows.
    pub(super) fn targets(&self, pen: &mut Pen, area: Rect, view: PlotView) {
        let (chosen, other) = self.look.targets;
        for dot in self.in_order() {
            let at = view.to_page(area, dot.across.value, dot.up.value);
            if area.contains(at) {
                pen.spot(at, if dot.is_chosen { chosen } else { other }, &*dot.name, &*dot.detail);
            }
        }
    }
}

/// A point with where it lies on the page, and the ends of its bars (± 2u): lower left and upper right.
struct Placed<'a> {
    dot: &'a PlotDot,
    at: Pt,
    low: Pt,
    high: Pt,
}

impl<'a> Placed<'a> {
    fn of(dot: &'a PlotDot, area: Rect, view: PlotView) -> Self {
        let (x, y) = (dot.across, dot.up);
        let at = |across: f64, up: f64| view.to_page(area, across, up);
        Self { dot, at: at(x.value, y.value), low: at(x.low, y.low), high: at(x.high, y.high) }
    }

    /// All that it covers.
    fn covers(&self) -> Rect {
        let bars = Rect::new(self.low.x, self.high.y, self.high.x - self.low.x, self.low.y - self.high.y);
        bars.inset(-RING)
    }
}

/// Marks laid out on an area.
struct Laid<'a> {
    marks: &'a PlotMarks,
    area: Rect,
    dots: Vec<Placed<'a>>,
}

impl<'a> Laid<'a> {
    /// The points that the area shows, the chosen ones last.
    fn in_order(&self) -> impl Iterator<Item = &Placed<'a>> {
        let seen = |d: &&Placed| d.covers().overlaps(self.area);
        let (others, chosen) = (self.dots.iter().filter(|d| !d.dot.is_chosen), self.dots.iter().filter(|d| d.dot.is_chosen));
        others.chain(chosen).filter(seen)
    }

    /// Draws the lines; gives the ends of each that has words.
    fn joins(&self, pen: &mut Pen, view: PlotView) -> Vec<(Pt, Pt, &'a str)> {
        let mut labels = Vec::new();
        for join in &self.marks.joins {
            let points: Vec<Pt> = join.points.iter().map(|(x, y)| view.to_page(self.area, *x, *y)).collect();
            if let (Some(label), Some(from), Some(to)) = (&join.label, points.first(), points.last()) {
                labels.push((*from, *to, label.as_str()));
            }
            pen.line(points, join.stroke);
        }
        labels
    }

    fn dot(&self, pen: &mut Pen, placed: &Placed) {
        let Placed { dot, at, low, high } = placed;
        let role = Role::FrameLine(dot.place);
        let (width, opacity, cap, radius) = if dot.is_chosen { (1.6, 1.0, 4.0, DOT) } else { (0.9, 0.4, 0.0, FAINT_DOT) };
        let stroke = Stroke { role, width, pattern: Pattern::Solid, opacity };
        // A bar inside its point would only blur it.
        let inside = if dot.has_ring { 2.0 * RING } else { self.marks.look.bar_from };
        let Pt { x, y } = *at;
        if dot.across.is_uncertain() && high.x - low.x > inside {
            pen.line(vec![Pt { x: low.x, y }, Pt { x: high.x, y }], stroke);
        }
        if dot.up.is_uncertain() && low.y - high.y > inside {
            pen.line(vec![Pt { x, y: low.y }, Pt { x, y: high.y }], stroke);
        }
        if cap > 0.0 && dot.across.is_uncertain() && high.x - low.x > inside {
            for end in [low.x, high.x] {
                pen.line(vec![Pt { x: end, y: y - cap }, Pt { x: end, y: y + cap }], stroke);
            }
        }
        if cap > 0.0 && dot.up.is_uncertain() && low.y - high.y > inside {
            for end in [low.y, high.y] {
                pen.line(vec![Pt { x: x - cap, y: end }, Pt { x: x + cap, y: end }], stroke);
            }
        }
        if dot.has_ring {
            pen.circle(*at, RING, None, Some(solid(role, 1.6)));
        }
        let fill = if dot.is_chosen { Fill { role, opacity: 1.0 } } else { Fill { role: Role::Background, opacity: 1.0 } };
        let edge = if dot.is_chosen { solid(Role::Background, self.marks.look.edge) } else { solid(role, 1.2) };
        pen.circle(*at, radius, Some(fill), Some(edge));
    }

    /// Whether so many sizes are seen that names of the others would not be read.
    fn is_crowded(&self) -> bool {
        self.dots.iter().filter(|d| self.area.contains(d.at)).nth(MOST_NAMED).is_some()
    }

    /// What labels keep clear of.
    fn taken(&self, named: &[&Placed]) -> Taken {
        let look = self.marks.look;
        let mut taken = Taken::within(self.area.inset(2.0));
        for Placed { dot, at, low, high } in named {
            taken.add(Rect::around(*at, if dot.is_chosen { look.clear } else { 4.0 }));
            taken.add_line(Pt { x: low.x, y: at.y }, Pt { x: high.x, y: at.y });
            taken.add_line(Pt { x: at.x, y: low.y }, Pt { x: at.x, y: high.y });
            if dot.is_chosen {
                taken.add(Rect::new(low.x, at.y - look.bar_clear, high.x - low.x, 2.0 * look.bar_clear));
                if dot.up.is_uncertain() {
                    taken.add(Rect::new(at.x - 2.0, high.y, 4.0, low.y - high.y));
                }
            }
        }
        for pair in named.windows(2).filter(|p| p[0].dot.place == p[1].dot.place) {
            taken.add_line(pair[0].at, pair[1].at);
        }
        taken
    }

    /// Letters beside the chosen sizes, words of lines, then the sizes' names where there is space.
    fn labels(&self, pen: &mut Pen, joins: &[(Pt, Pt, &str)]) {
        let is_crowded = self.is_crowded();
        let named: Vec<&Placed> = self.dots.iter().filter(|d| d.dot.is_chosen || !is_crowded).collect();
        let mut taken = self.taken(&named);
        for (from, to, _) in joins {
            taken.add_line(*from, *to);
        }
        let balloons = self.balloons(pen, &mut taken);
        for (from, to, text) in joins {
            let middle = Pt { x: f64::midpoint(from.x, to.x), y: f64::midpoint(from.y, to.y) };
            let (width, height) = (text_width(text, LINE_LABEL.size, LINE_LABEL.weight) + 8.0, LINE_LABEL.size + 4.0);
            let near = taken.place(middle, width, height, &[0.0, 4.0, 10.0, 18.0, 30.0]);
            if let Some(centre) = near.or_else(|| taken.place_anywhere(middle, width, height)) {
                let base = Pt { x: centre.x, y: centre.y + LINE_LABEL.size * CAP_HEIGHT / 2.0 };
                pen.backed_text(base, *text, LINE_LABEL, Anchor::Middle);
            }
        }
        for (placed, text) in names(&named).into_iter().rev().filter(|(d, _)| self.area.contains(d.at)) {
            let dot = placed.dot;
            let weight = if dot.is_chosen { Weight::Semibold } else { Weight::Regular };
            let face = Face { size: 11.0, role: Role::FrameLetter(dot.place), weight };
            let width = text_width(&text, face.size, face.weight);
            if text.is_empty() || width > 110.0 {
                continue;
            }
            let rings: &[f64] = if dot.is_chosen { &[4.0, 8.0, 14.0, 22.0] } else { &[4.0, 8.0] };
            if let Some(centre) = taken.place(placed.at, width + 3.0, face.size, rings) {
                let base = Pt { x: centre.x, y: centre.y + face.size * CAP_HEIGHT / 2.0 };
                pen.text(base, text, face, Anchor::Middle);
            }
        }
        for (centre, dot) in balloons {
            pen.balloon(centre, &dot.letter, dot.place);
        }
    }

    /// Where the chosen sizes' letters stand, in the order of frames; a line leads to a point that is further off.
    fn balloons(&self, pen: &mut Pen, taken: &mut Taken) -> Vec<(Pt, &'a PlotDot)> {
        let look = self.marks.look;
        let mut chosen: Vec<&Placed> = self.dots.iter().filter(|d| d.dot.is_chosen).collect();
        chosen.sort_by_key(|d| d.dot.place);
        let size = 2.0 * BALLOON + 1.0;
        let may_be_far = chosen.len() <= MOST_FAR_LETTERS;
        let mut balloons = Vec::new();
        for Placed { dot, at, .. } in chosen {
            // A point outside the window keeps its letter at the edge.
            let edge = self.area.inset(BALLOON + 3.0);
            let near = Pt { x: at.x.clamp(edge.x, edge.right()), y: at.y.clamp(edge.y, edge.bottom()) };
            let beside = taken.place(near, size, size, &look.rings);
            let found = if may_be_far { beside.or_else(|| taken.place_anywhere(near, size, size)) } else { beside };
            let Some(centre) = found else { continue };
            let distance = (at.x - centre.x).hypot(at.y - centre.y);
            if self.area.contains(*at) && distance > BALLOON + look.leader_from {
                let line = Stroke { role: Role::FrameLine(dot.place), width: 0.9, pattern: Pattern::Solid, opacity: 0.9 };
                pen.line(vec![centre, *at], line);
            }
            balloons.push((centre, *dot));
        }
        balloons
    }
}

/// The names that points are given: sizes of one frame that lie (nearly) on one another share one, `M, L, XL`, at the
/// chosen size if it is among them.
fn names<'a, 'b>(dots: &[&'b Placed<'a>]) -> Vec<(&'b Placed<'a>, String)> {
    let mut groups: Vec<Vec<&'b Placed<'a>>> = Vec::new();
    for dot in dots {
        let near =
            |other: &Placed| other.dot.place == dot.dot.place && (other.at.x - dot.at.x).hypot(other.at.y - dot.at.y) < 9.0;
        match groups.iter_mut().find(|g| near(g[0])) {
            Some(group) => group.push(dot),
            None => groups.push(vec![dot]),
        }
    }
    let name = |group: Vec<&'b Placed<'a>>| {
        let labels = group.iter().map(|d| d.dot.label.as_str()).filter(|l| !l.is_empty());
        let text = labels.collect::<Vec<_>>().join(", ");
        let dot = group.iter().find(|d| d.dot.is_chosen).or(group.first()).copied()?;
        Some((dot, text))
    };
    groups.into_iter().filter_map(name).collect()
}
