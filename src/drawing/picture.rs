//! A picture to show others: one of the views on a sheet with title, legend and foot note, fitted to the pixels asked for.
//!
//! The sheet is laid out in page units such that its area is that of 1280 × 720: small and huge pictures are the same
//! sheet in another grain, so that nothing becomes too small to read. Words keep to the inner 90 % of each side, where
//! no television cuts them (SMPTE ST 2046-1, graphics safe area).

use super::legend::{self, Legend};
use super::measure::{LINE_HEIGHT, wrap};
use super::palette::Ground;
use super::pen::{Face, Pen, solid};
use super::picture_words::{foot_note, headline, subline};
use super::plot_scene::draw as draw_plot;
use super::plot_view::fit_plot;
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene};
use super::view::Canvas;
use super::{outline_scene, plot_scene, weight_scene};
use crate::lineup::{Axes, Findings, Lineup};

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PictureView {
    /// The frames over one another.
    Outline,
    /// The steering plot.
    Steering,
    /// The position plot.
    Position,
    /// The weights.
    Weight,
}

/// A picture asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picture {
    /// What it shows.
    pub view: PictureView,
    /// Pixels across.
    pub width_px: u32,
    /// Pixels down.
    pub height_px: u32,
    /// Paper or dark.
    pub ground: Ground,
}

/// Area of the sheet, square page units.
const SHEET: f64 = 1280.0 * 720.0;
/// The smallest grain: a picture of few pixels gets a smaller sheet rather than unreadable words.
const LEAST_PIXELS_A_UNIT: f64 = 0.9;
const TITLE: Face = Face::regular(27.0, Role::Ink);
const SUBLINE: Face = Face::regular(14.5, Role::SecondInk);
const FOOT: Face = Face::regular(12.0, Role::SecondInk);

impl PictureView {
    /// All, in the order of menus.
    pub const ALL: [Self; 4] = [Self::Outline, Self::Steering, Self::Position, Self::Weight];

    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Outline => "Outline",
            Self::Steering => "Steering",
            Self::Position => "Position",
            Self::Weight => "Weight",
        }
    }

    /// The axes of a plot; `None` for what is none.
    #[must_use]
    pub fn axes(self, lineup: &Lineup) -> Option<Axes> {
        match self {
            Self::Steering => Some(lineup.settings.steering),
            Self::Position => Some(lineup.settings.position),
            Self::Outline | Self::Weight => None,
        }
    }
}

impl Picture {
    /// The sheet's size in page units.
    #[must_use]
    pub fn page(&self) -> Page {
        let (width, height) = (f64::from(self.width_px.max(1)), f64::from(self.height_px.max(1)));
        let pixels_a_unit = (width * height / SHEET).sqrt().max(LEAST_PIXELS_A_UNIT);
        Page { width: width / pixels_a_unit, height: height / pixels_a_unit }
    }
}

/// The sheet of a picture.
#[must_use]
pub fn picture_scene(findings: &Findings, lineup: &Lineup, picture: &Picture) -> Scene {
    let page = picture.page();
    let mut pen = Pen::default();
    let safe = Rect::new(page.width * 0.05, page.height * 0.05, page.width * 0.9, page.height * 0.9);
    let title = headline(lineup, picture.view);
    let left = head(&mut pen, safe, &title, &subline(findings, lineup, picture.view));
    let left = foot(&mut pen, left, &foot_note(findings, lineup, picture.view));
    let legend = Legend::of(findings, lineup, picture.view);
    let canvas = legend::draw(&mut pen, left, &legend);
    let description = view(&mut pen, findings, lineup, picture.view, canvas);
    pen.finish(page, title, description)
}

/// Draws the view itself; gives back its description.
fn view(pen: &mut Pen, findings: &Findings, lineup: &Lineup, view: PictureView, rect: Rect) -> String {
    let settings = &lineup.settings;
    match (view, view.axes(lineup)) {
        (PictureView::Weight, _) => {
            weight_scene::draw(pen, findings, settings.units, widened(rect, weight_scene::SIDE, weight_scene::SIDE));
            weight_scene::description(findings, settings.units)
        }
        (_, Some(axes)) => {
            let rect = widened(rect, plot_scene::SIDE, 0.0);
            draw_plot(pen, findings, axes, settings.units, rect, fit_plot(findings, axes, rect.size()));
            plot_scene::description(findings, axes, settings.units)
        }
        (_, None) => {
            let view = outline_scene::fit_outline(findings, &settings.outline, rect.size());
            outline_scene::draw(pen, findings, settings.outline, settings.units, Canvas { rect, view });
            outline_scene::description(findings, settings.outline, settings.units)
        }
    }
}

/// Wider by a view's own margins, so that its words begin and end where the title does.
fn widened(rect: Rect, left: f64, right: f64) -> Rect {
    Rect::new(rect.x - left, rect.y, rect.width + left + right, rect.height)
}

/// Title and the line below it; gives back what is left of the rectangle.
fn head(pen: &mut Pen, rect: Rect, title: &str, subline: &str) -> Rect {
    let mut y = rect.y;
    let most = if rect.height > 400.0 { 2 } else { 1 };
    for (text, face, lines) in [(title, TITLE, most), (subline, SUBLINE, most)] {
        for line in wrap(text, face.size, face.weight, rect.width, lines) {
            pen.text(Pt { x: rect.x, y: y + face.size }, line, face, Anchor::Start);
            y += face.size * LINE_HEIGHT;
        }
        y += 2.0;
    }
    y += 8.0;
    pen.line(vec![Pt { x: rect.x, y }, Pt { x: rect.right(), y }], solid(Role::Hairline, 1.0));
    Rect::new(rect.x, y + 12.0, rect.width, rect.bottom() - y - 12.0)
}

/// The foot note; gives back what is left above it.
fn foot(pen: &mut Pen, rect: Rect, note: &str) -> Rect {
    let most = if rect.height > 420.0 { 5 } else { 3 };
    let lines = wrap(note, FOOT.size, FOOT.weight, rect.width, most);
    let pitch = FOOT.size * LINE_HEIGHT;
    let first = rect.bottom() - pitch * lines.len() as f64;
    for (i, line) in lines.into_iter().enumerate() {
        pen.text(Pt { x: rect.x, y: first + pitch * i as f64 + FOOT.size }, line, FOOT, Anchor::Start);
    }
    Rect::new(rect.x, rect.y, rect.width, first - rect.y - 10.0)
}
