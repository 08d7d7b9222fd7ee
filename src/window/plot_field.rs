//! A plot in the window: the toolkit's plot with its axes, bounds, panning, enlarging by a box and pointing, and the marks
//! of `drawing` as its item, so that screen and published picture show the same.
//!
//! Not here: what is plotted. Invariant: whatever hand or key does, some of what is compared stays in sight.

use std::sync::Arc;

use egui::{Color32, Id, RichText, Sense, Shape, Tooltip, Ui, UiBuilder, vec2};
use egui_plot::{
    AxisHints, ClosestElem, Cursor, GridInput, GridMark, HoverPosition, LabelFormatterFn, Plot, PlotBounds, PlotConfig,
    PlotGeometry, PlotItem, PlotItemBase, PlotPoint, PlotTransform,
};

use super::canvas::{kept, keys_moved, outlined};
use super::labels::drawings as labels;
use super::menu::picture_menu_ui;
use super::named::described;
use super::paint;
use super::requests::Requests;
use super::shown::Shown;
use super::theme::{SMALL, Tones, regular, semibold};
use crate::drawing::{PlotDot, PlotMarks, PlotView, Pt, Rect};
use crate::frameset::Figure;
use crate::words::placing_text;

/// The plot asks for its grid by a least distance, points; below it nothing is drawn.
const GRID: f32 = 4.0;
/// How near to a mark's edge the pointer must come, points, is the toolkit's; this is a mark's radius.
const MARK: f32 = 5.5;

/// What the wheel does over a plot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wheel {
    /// It enlarges the plot.
    Zooms,
    /// It scrolls the page that the plot is on; with Ctrl it enlarges.
    Scrolls,
}

/// A plot to be shown.
pub(crate) struct PlotField<'a> {
    /// Tells plots apart.
    pub(crate) id: Id,
    /// Its marks.
    pub(crate) marks: &'a Arc<PlotMarks>,
    /// Changes when the marks do.
    pub(crate) revision: u64,
    /// The part of the plane that is seen; `None` for all.
    pub(crate) view: Option<PlotView>,
    /// What the wheel does.
    pub(crate) wheel: Wheel,
    /// The figures along its axes, where it plots figures.
    pub(crate) figures: Option<[Figure; 2]>,
}

impl PlotField<'_> {
    /// Shows the plot with its notes below in that place, which the caller has put aside; gives the part of the plane that mouse and keys
    /// asked for, when they did, and whether all was asked for.
    pub(crate) fn show(self, ui: &mut Ui, place: egui::Rect, shown: Shown<'_>, out: &mut Requests) -> (Option<PlotView>, bool) {
        let inside = egui::Rect::from_min_max(place.min + vec2(8.0, 34.0), place.max - vec2(20.0, 0.0));
        let ui = &mut ui.new_child(UiBuilder::new().max_rect(inside).id_salt(self.id));
        let tones = Tones::of(ui);
        let marks = self.marks;
        // Above the axis, as published: along it, it would be longer than a low plot.
        let title = place.min + vec2(16.0, 10.0);
        ui.painter().text(title, egui::Align2::LEFT_TOP, &marks.up.title, semibold(SMALL + 1.0), tones.ink());
        let before = self.view.unwrap_or(marks.bounds).within_limits(marks.bounds);
        let height = (ui.available_height() - words_height(ui, marks)).max(60.0);
        let item = MarksItem::of(ui, &self, shown, tones);
        let plot = plot(self.id, marks, tones).height(height).show(ui, |plot| {
            plot.set_plot_bounds(bounds(before));
            plot.add(item);
        });
        words_ui(ui, marks, tones);
        let response = plot.response;
        described(&response, &labels::drawing(&marks.title), &marks.description);
        outlined(ui, &response, tones);
        picture_menu_ui(&response, shown, out);
        if !marks.empty.is_empty() {
            let at = response.rect.center();
            ui.painter().text(at, egui::Align2::CENTER_CENTER, marks.empty, regular(SMALL + 3.0), tones.second());
        }
        let [left, bottom] = plot.transform.bounds().min();
        let [right, top] = plot.transform.bounds().max();
        let painted = PlotView { left, right, bottom, top };
        let area = area(&plot.transform);
        let middle = Pt { x: area.width / 2.0, y: area.height / 2.0 };
        let mut after = painted.zoomed_at(area, middle, shown.moment.zoom);
        let (x, y) = keys_moved(ui, &response);
        after = after.panned(area, f64::from(x), f64::from(y));
        if let (Wheel::Zooms, Some(place)) = (self.wheel, response.hover_pos()) {
            let wheel = ui.input(|i| i.smooth_scroll_delta().y);
            let at = place - response.rect.min;
            after = after.zoomed_at(area, Pt { x: f64::from(at.x), y: f64::from(at.y) }, f64::from((wheel * 0.004).exp()));
        }
        let after = after.limited_from(before, marks.bounds);
        if after != painted {
            ui.ctx().request_repaint();
        }
        ((after != before).then_some(after), response.double_clicked())
    }
}

/// The plot without its marks: axes, grid and what the hand may do.
fn plot(id: Id, marks: &Arc<PlotMarks>, tones: Tones) -> Plot<'static> {
    let [across, up] = [marks.across.clone(), marks.up.clone()];
    let title = |text: &str| RichText::new(text).font(semibold(SMALL + 1.0)).color(tones.ink());
    let spacing = egui::Rangef::new(GRID, 2.0 * GRID);
    let hints =
        |hints: AxisHints<'static>| hints.label_spacing(spacing).tick_label_color(tones.second()).tick_label_font(regular(SMALL));
    let x_axis = hints(AxisHints::new_x().label(title(&across.title)));
    let y_axis = hints(AxisHints::new_y());
    let (x_labels, y_labels) = (across.clone(), up.clone());
    let written = |axis: &crate::drawing::PlotAxis, mark: GridMark| axis.written(mark.value, mark.step_size);
    Plot::new(id)
        .id(id)
        .sense(Sense::click_and_drag())
        .auto_bounds(false)
        .allow_scroll(false)
        .allow_double_click_reset(false)
        .show_crosshair(false)
        .label_formatter(|_: &HoverPosition<'_>| None)
        .grid_spacing(spacing)
        .grid_color(tones.hairline())
        .grid_fade(0.0)
        .x_grid_spacer(move |input| grid(&across, &input))
        .y_grid_spacer(move |input| grid(&up, &input))
        .custom_x_axes(vec![x_axis.formatter(move |mark, _| written(&x_labels, mark))])
        .custom_y_axes(vec![y_axis.formatter(move |mark, _| written(&y_labels, mark))])
        .cursor_color(tones.second())
}

/// The axis's own round numbers, as in a published picture.
fn grid(axis: &crate::drawing::PlotAxis, input: &GridInput) -> Vec<GridMark> {
    let (low, high) = input.bounds;
    // The plot asks by the length that `GRID` points are in its own units. It is an f32's worth of points.
    let points = ((high - low) / input.base_step_size * f64::from(GRID) * 100.0).round() / 100.0;
    let marks = axis.ticks(low, high, points).into_iter();
    marks.map(|(value, step_size, _)| GridMark { value, step_size }).collect()
}

fn bounds(view: PlotView) -> PlotBounds {
    PlotBounds::from_min_max([view.left, view.bottom], [view.right, view.top])
}

/// The field between the axes, as a page's area with its corner at the origin.
fn area(transform: &PlotTransform) -> Rect {
    let frame = transform.frame();
    Rect::new(0.0, 0.0, f64::from(frame.width()), f64::from(frame.height()))
}

/// What stands below the plot.
fn words(marks: &PlotMarks) -> String {
    let key = marks.key.join("  ·  ");
    [key, marks.notes.clone()].into_iter().filter(|t| !t.is_empty()).collect::<Vec<_>>().join("\n")
}

fn words_height(ui: &Ui, marks: &PlotMarks) -> f32 {
    let words = words(marks);
    if words.is_empty() {
        return 8.0;
    }
    let galley = ui.painter().layout(words, regular(SMALL), Color32::PLACEHOLDER, (ui.available_width() - 40.0).max(80.0));
    galley.size().y.min(ui.available_height() * 0.4) + 16.0
}

fn words_ui(ui: &Ui, marks: &PlotMarks, tones: Tones) {
    let words = words(marks);
    if !words.is_empty() {
        let rect = ui.available_rect_before_wrap();
        let painter = ui.painter().with_clip_rect(ui.clip_rect());
        let galley = painter.layout(words, regular(SMALL), tones.second(), (rect.width() - 40.0).max(80.0));
        painter.galley(rect.min + vec2(20.0, 6.0), galley, tones.second());
    }
}

/// The marks as an item of the plot.
struct MarksItem<'a> {
    base: PlotItemBase,
    shown: Shown<'a>,
    figures: Option<[Figure; 2]>,
    marks: Arc<PlotMarks>,
    points: Arc<Vec<PlotPoint>>,
    id: Id,
    revision: u64,
    tones: Tones,
}

impl<'a> MarksItem<'a> {
    fn of(ui: &Ui, field: &PlotField<'_>, shown: Shown<'a>, tones: Tones) -> Self {
        let marks = Arc::clone(field.marks);
        let points = kept(ui, field.id.with("points"), field.revision, || {
            marks.dots.iter().map(|d| PlotPoint::new(d.across.value, d.up.value)).collect::<Vec<_>>()
        });
        let (id, revision) = (field.id.with("marks"), field.revision);
        let base = PlotItemBase::new(marks.title.clone());
        Self { base, shown, figures: field.figures, marks, points, id, revision, tones }
    }

    /// Where a point's figures stand among the other frames; of the size compared only.
    fn placing(&self, dot: &PlotDot) -> Option<String> {
        placing_text(self.shown.findings(), dot.place, &self.figures.filter(|_| dot.is_chosen)?)
    }
}

impl PlotItem for MarksItem<'_> {
    fn shapes(&self, ui: &Ui, transform: &PlotTransform, shapes: &mut Vec<Shape>) {
        let [left, bottom] = transform.bounds().min();
        let [right, top] = transform.bounds().max();
        let view = PlotView { left, right, bottom, top };
        let key = (self.revision, *transform.frame(), view, ui.visuals().dark_mode);
        let painted = kept(ui, self.id, key, || {
            let area = area(transform);
            paint::shapes(ui.painter(), transform.frame().min, &self.marks.items(area, view), area, self.tones)
        });
        shapes.extend(painted.iter().cloned());
    }

    fn initialize(&mut self, _x_range: std::ops::RangeInclusive<f64>) {}

    fn color(&self) -> Color32 {
        self.tones.ink()
    }

    fn geometry(&self) -> PlotGeometry<'_> {
        PlotGeometry::Points(&self.points)
    }

    fn bounds(&self) -> PlotBounds {
        bounds(self.marks.bounds)
    }

    fn base(&self) -> &PlotItemBase {
        &self.base
    }

    fn base_mut(&mut self) -> &mut PlotItemBase {
        &mut self.base
    }

    /// The nearest mark, by its edge; of several under the pointer the one painted last.
    fn find_closest(&self, place: egui::Pos2, transform: &PlotTransform) -> Option<ClosestElem> {
        let near = |(index, point): (usize, &PlotPoint)| {
            let from_edge = (transform.position_from_point(point).distance(place) - MARK).max(0.0);
            ClosestElem { index, dist_sq: from_edge * from_edge }
        };
        let is_chosen = |elem: &ClosestElem| self.marks.dots.get(elem.index).is_some_and(|d| d.is_chosen);
        let closest = self.points.iter().enumerate().map(near);
        closest.min_by(|a, b| a.dist_sq.total_cmp(&b.dist_sq).then(is_chosen(b).cmp(&is_chosen(a))))
    }

    fn on_hover(
        &self,
        response: &egui::Response,
        elem: ClosestElem,
        shapes: &mut Vec<Shape>,
        _cursors: &mut Vec<Cursor>,
        plot: &PlotConfig<'_>,
        _label_formatter: Option<&LabelFormatterFn<'_>>,
    ) {
        let (Some(dot), Some(point)) = (self.marks.dots.get(elem.index), self.points.get(elem.index)) else { return };
        if response.dragged() {
            return;
        }
        let at = plot.transform.position_from_point(point);
        shapes.push(Shape::circle_stroke(at, MARK + 2.5, (1.2, self.tones.ink())));
        let id = response.id.with("pointed at");
        let tooltip = Tooltip::always_open(response.ctx.clone(), response.layer_id, id, egui::PopupAnchor::Pointer);
        tooltip.gap(14.0).show(|ui| {
            ui.label(&dot.name);
            ui.label(&dot.detail);
            if let Some(placing) = self.placing(dot) {
                ui.label(placing);
            }
        });
    }
}

#[cfg(test)]
mod tests {
    use egui::{Context, Event, PointerButton, Pos2, RawInput};

    use super::super::app::Window;
    use super::*;
    use crate::drawing::{Item, Page, Scene, plot_marks, plot_scene, price_marks, price_scene};
    use crate::lineup::{Findings, Lineup, read_lineup};

    fn sample() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    /// A window that shows nothing but a plot.
    struct Plotted {
        ctx: Context,
        window: Window,
        marks: Arc<PlotMarks>,
        view: Option<PlotView>,
        shapes: Vec<Shape>,
    }

    impl Plotted {
        fn of(marks: PlotMarks) -> Self {
            let ctx = Context::default();
            let window = Window::headless(&ctx, sample());
            let mut plotted = Self { ctx, window, marks: Arc::new(marks), view: None, shapes: Vec::new() };
            for _ in 0..4 {
                plotted.frame(Vec::new());
            }
            plotted
        }

        fn frame(&mut self, events: Vec<Event>) {
            let screen_rect = Some(egui::Rect::from_min_size(Pos2::ZERO, vec2(900.0, 640.0)));
            let input = RawInput { screen_rect, events, ..RawInput::default() };
            let mut asked = None;
            let mut output = self.ctx.run_ui(input, |ui| {
                let field = PlotField {
                    id: Id::unique("plot"),
                    marks: &self.marks,
                    revision: 1,
                    view: self.view,
                    wheel: Wheel::Zooms,
                    figures: None,
                };
                let place = ui.available_rect_before_wrap();
                asked = field.show(ui, place, self.window.shown(), &mut Requests::default()).0;
            });
            output.textures_delta.clear();
            self.shapes = output.shapes.into_iter().map(|s| s.shape).collect();
            self.view = asked.or(self.view);
        }

        /// The frame of the field between the axes, and its bounds.
        fn memory(&self) -> (egui::Rect, PlotBounds) {
            let transform = egui_plot::PlotMemory::load(&self.ctx, Id::unique("plot")).unwrap().transform();
            (*transform.frame(), *transform.bounds())
        }

        fn circles(&self) -> Vec<Pos2> {
            let centre = |s: &Shape| if let Shape::Circle(c) = s { Some(c.center) } else { None };
            self.shapes.iter().filter_map(centre).collect()
        }

        fn texts(&self) -> Vec<String> {
            let text = |s: &Shape| if let Shape::Text(t) = s { Some(t.galley.text().to_owned()) } else { None };
            self.shapes.iter().filter_map(text).collect()
        }
    }

    /// The published plot on a page whose field between the axes is as large as `size`, and that field.
    fn published(size: egui::Vec2, make: impl Fn(Page) -> Scene) -> (Scene, Rect) {
        let mut page = Page { width: 900.0, height: 640.0 };
        for _ in 0..4 {
            let scene = make(page);
            let clip = scene.items.iter().find_map(|i| if let Item::Clip { at, size } = i { Some((*at, *size)) } else { None });
            let (at, field) = clip.unwrap();
            let (wider, higher) = (f64::from(size.x) - field.width, f64::from(size.y) - field.height);
            if wider.abs() < 1e-6 && higher.abs() < 1e-6 {
                return (scene, Rect::new(at.x, at.y, field.width, field.height));
            }
            page = Page { width: page.width + wider, height: page.height + higher };
        }
        panic!("the field does not follow the page");
    }

    fn compare(marks: &PlotMarks, make: impl Fn(Page) -> Scene) {
        let plotted = Plotted::of(marks.clone());
        let (frame, bounds_shown) = plotted.memory();
        assert_eq!(bounds_shown, bounds(marks.bounds), "{}", marks.title);
        let (scene, field) = published(frame.size(), make);
        // Every point, ring and letter is where the published picture has it.
        let to_window = |p: &Pt| frame.min + vec2((p.x - field.x) as f32, (p.y - field.y) as f32);
        let there = plotted.circles();
        let mut wanted = 0;
        for item in &scene.items {
            if let Item::Circle { centre, fill, .. } = item {
                let at = to_window(centre);
                let near = there.iter().filter(|c| c.distance(at) < 0.05).count();
                assert!(near >= 1, "{}: {at:?}", marks.title);
                wanted += if fill.is_some() { 2 } else { 1 };
            }
        }
        assert!(wanted > marks.dots.len());
        assert_eq!(there.len(), wanted, "{}: no more and no fewer", marks.title);
        // All words, those of the axes too.
        let below = words(marks);
        let is_mark = |text: &String| !below.contains(text.as_str());
        let mut published: Vec<String> = scene
            .items
            .iter()
            .filter_map(|i| if let Item::Text { text, .. } = i { Some(text.clone()) } else { None })
            .filter(is_mark)
            .collect();
        let mut shown: Vec<String> = plotted.texts().into_iter().filter(is_mark).collect();
        published.sort();
        shown.sort();
        assert_eq!(shown, published, "{}", marks.title);
        // The data itself.
        let item_points: Vec<(f64, f64)> = marks.dots.iter().map(|d| (d.across.value, d.up.value)).collect();
        let drawn = |(x, y): &(f64, f64)| {
            let at = marks.bounds.to_page(field, *x, *y);
            scene
                .items
                .iter()
                .any(|i| matches!(i, Item::Circle { centre, .. } if (centre.x - at.x).hypot(centre.y - at.y) < 1e-6))
        };
        assert!(item_points.iter().all(drawn), "{}", marks.title);
    }

    #[test]
    fn the_window_shows_what_is_published() {
        let lineup = sample();
        let findings = Findings::of(&lineup);
        let units = lineup.settings.units;
        for axes in [lineup.settings.steering, lineup.settings.stack_and_reach] {
            let marks = plot_marks(&findings, axes, units);
            let all = marks.bounds;
            compare(&marks, |page| plot_scene(&findings, axes, units, page, all));
        }
        compare(&price_marks(&lineup, &findings), |page| price_scene(&lineup, &findings, page));
    }

    #[test]
    fn the_hand_pans_and_enlarges_by_a_box_and_a_mark_is_pointed_at() {
        let lineup = sample();
        let findings = Findings::of(&lineup);
        let marks = plot_marks(&findings, lineup.settings.steering, lineup.settings.units);
        let all = marks.bounds;
        let mut plotted = Plotted::of(marks);
        let (frame, _) = plotted.memory();
        let drag = |plotted: &mut Plotted, button: PointerButton, from: Pos2, to: Pos2| {
            let press = |pos, pressed| Event::PointerButton { pos, button, pressed, modifiers: egui::Modifiers::NONE };
            plotted.frame(vec![Event::PointerMoved(from)]);
            plotted.frame(vec![press(from, true)]);
            plotted.frame(vec![Event::PointerMoved(from.lerp(to, 0.05))]);
            plotted.frame(vec![Event::PointerMoved(to)]);
            plotted.frame(vec![press(to, false)]);
            plotted.frame(vec![Event::PointerGone]);
            plotted.frame(Vec::new());
        };
        drag(&mut plotted, PointerButton::Primary, frame.center(), frame.center() + vec2(90.0, 40.0));
        let panned = plotted.view.unwrap();
        let share = 90.0 / f64::from(frame.width());
        let moved = (all.left - panned.left) / (all.right - all.left);
        assert!((moved / share - 1.0).abs() < 0.1, "a drag begins after a few points: {moved}");
        drag(&mut plotted, PointerButton::Secondary, frame.center() - vec2(100.0, 80.0), frame.center() + vec2(100.0, 80.0));
        let boxed = plotted.view.unwrap();
        let shown = (boxed.right - boxed.left) / (panned.right - panned.left);
        assert!((shown - 200.0 / f64::from(frame.width())).abs() < 0.02, "{shown}");
        // Back to all, and over a point: its words stand there.
        plotted.view = None;
        plotted.frame(Vec::new());
        let dot = plotted.marks.dots.iter().find(|d| d.is_chosen).unwrap().clone();
        let at =
            all.to_page(Rect::new(0.0, 0.0, f64::from(frame.width()), f64::from(frame.height())), dot.across.value, dot.up.value);
        let place = frame.min + vec2(at.x as f32, at.y as f32);
        for _ in 0..3 {
            plotted.frame(vec![Event::PointerMoved(place)]);
        }
        let chosen: Vec<&str> = plotted.marks.dots.iter().filter(|d| d.is_chosen).map(|d| d.name.as_str()).collect();
        assert!(plotted.texts().iter().any(|t| chosen.contains(&t.as_str())), "{:?}", plotted.texts());
    }
}
