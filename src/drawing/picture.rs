//! A picture to show others: one of the views on a sheet with title, legend and foot note, fitted to the pixels asked for.
//!
//! The sheet is laid out in page units such that its area is that of 1280 × 720: small and huge pictures are the same
//! sheet in another grain, so that nothing becomes too small to read. Words keep to the inner 90 % of each side, where
//! no television cuts them (SMPTE ST 2046-1, graphics safe area).

use super::fit_scene::{FitPart, fit_bands_scene, has_fit};
use super::ghost::{change_scene, fit_change, is_changed};
use super::legend::{self, Legend};
use super::measure::{LINE_HEIGHT, wrap};
use super::outline_scene::{fit_outline, outline_scene};
use super::palette::Background;
use super::pen::{Face, Pen, solid};
use super::plot_view::{PlotView, fit_plot};
use super::price_and_climb_scene::price_and_climb_scene;
use super::rear_scene::has_rear;
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene};
use super::view::View;
use super::{
    bag_space_scene, climb_scene, fit_scene, loaded_picture, loaded_scene, overview_scene, plot_axes, plot_scene, price_scene,
    rear_scene, weight_scene,
};
use crate::lineup::{Findings, Lineup, PictureView};
use crate::parts::contact_points::Rider;
use crate::words::{picture_foot_note, picture_headline, picture_subline};

/// Which part of a drawing a picture shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Look {
    /// This part of a drawing to scale, as it was seen on a page of that size.
    Scale(View, Page),
    /// These ranges of a plot's axes.
    Plot(PlotView),
}

/// A picture asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Picture {
    /// What it shows.
    pub view: PictureView,
    /// Pixels across.
    pub width_px: u32,
    /// Pixels down.
    pub height_px: u32,
    /// Paper or dark.
    pub background: Background,
    /// The part that is shown; `None` shows everything.
    pub look: Option<Look>,
}

/// Area of the sheet, square page units.
const SHEET: f64 = 1280.0 * 720.0;
/// The smallest grain: a picture of few pixels gets a smaller sheet rather than unreadable words.
const LEAST_PIXELS_A_UNIT: f64 = 0.9;
const TITLE: Face = Face::regular(27.0, Role::Ink);
const SUBLINE: Face = Face::regular(14.5, Role::SecondInk);
const FOOT: Face = Face::regular(12.0, Role::SecondInk);

impl PictureView {
    /// Whether there is something to show: a part listed, a need, another fork, a stem. Geometry and weights always
    /// have, be it that nothing is stated.
    #[must_use]
    pub fn has_something(self, findings: &Findings, lineup: &Lineup) -> bool {
        match self {
            Self::Fork => is_changed(findings),
            Self::RearFromAbove => has_rear(findings),
            Self::ContactPoints => lineup.settings.rider != Rider::default(),
            _ => self.fit_part().is_none_or(|part| has_fit(part, lineup, findings)),
        }
    }

    /// The table behind it.
    pub(super) const fn fit_part(self) -> Option<FitPart> {
        match self {
            Self::Parts => Some(FitPart::Parts),
            Self::Needs => Some(FitPart::Needs),
            Self::ContactPoints => Some(FitPart::ContactPoints),
            Self::Gears => Some(FitPart::Gears),
            Self::Build => Some(FitPart::Build),
            Self::Standards => Some(FitPart::Standards),
            _ => None,
        }
    }

    /// Whether the frames stand in a legend beside it; a table and the rooms name them themselves.
    const fn has_legend(self) -> bool {
        self.fit_part().is_none() && !matches!(self, Self::Fork | Self::Bags | Self::RearFromAbove | Self::Overview)
    }

    /// Margins of its own left and right, page units: it is drawn that much wider, so that its words begin and end where
    /// the title does.
    const fn sides(self) -> (f64, f64) {
        match self {
            Self::Steering | Self::StackAndReach | Self::Price => (plot_axes::SIDE, 0.0),
            Self::Weight => (weight_scene::SIDE, weight_scene::SIDE),
            Self::PriceAndClimb | Self::Climb => (climb_scene::SIDE, climb_scene::SIDE),
            Self::Parts | Self::Needs | Self::ContactPoints | Self::Gears | Self::Build | Self::Standards => {
                (fit_scene::SIDE, fit_scene::SIDE)
            }
            Self::Overview => (overview_scene::SIDE, overview_scene::SIDE),
            Self::RearFromAbove => (rear_scene::SIDE, rear_scene::SIDE),
            Self::Bags => (bag_space_scene::MARGIN, bag_space_scene::MARGIN),
            Self::Loaded => (loaded_scene::SIDE, loaded_scene::SIDE),
            Self::Outline | Self::Fork => (0.0, 0.0),
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
    let title = picture_headline(lineup, picture.view);
    let left = head(&mut pen, safe, &title, &picture_subline(findings, lineup, picture.view));
    let left = foot(&mut pen, left, &picture_foot_note(findings, lineup, picture.view));
    let canvas =
        if picture.view.has_legend() { legend::draw(&mut pen, left, &Legend::of(findings, lineup, picture.view)) } else { left };
    let (before, behind) = picture.view.sides();
    let canvas = Rect::new(canvas.x - before, canvas.y, canvas.width + before + behind, canvas.height);
    let view = view_scene(findings, lineup, picture, canvas.size());
    let description = view.description.clone();
    pen.place(view, Pt { x: canvas.x, y: canvas.y });
    pen.finish(page, title, description)
}

/// The view itself, on a page of its own.
fn view_scene(findings: &Findings, lineup: &Lineup, picture: &Picture, page: Page) -> Scene {
    let settings = &lineup.settings;
    let (outline, units) = (&settings.outline, settings.units);
    let scale = match picture.look {
        Some(Look::Scale(view, seen_on)) => Some(view.on_another_page(seen_on, page)),
        _ => None,
    };
    let plotted = match picture.look {
        Some(Look::Plot(view)) => Some(view),
        _ => None,
    };
    match (picture.view, picture.view.axes(lineup), picture.view.fit_part()) {
        (_, Some(axes), _) => plot_scene(findings, axes, units, page, plotted.unwrap_or_else(|| fit_plot(findings, axes))),
        (_, _, Some(part)) => {
            let bands = |width: f64| fit_bands_scene(part, lineup, findings, width);
            // Rows that do not fit are left out and counted.
            let fitting = |page: Page| {
                let bands = bands(page.width);
                if bands.page.height <= page.height { bands } else { fit_scene::fit_scene(part, lineup, findings, page) }
            };
            whole_table(page, fit_scene::SIDE, |width| bands(width).page.height, fitting)
        }
        (PictureView::Overview, ..) => overview_scene::overview_on(lineup, findings, page),
        (PictureView::Bags, ..) => bag_space_scene(findings, &settings.bags, units, page),
        (PictureView::RearFromAbove, ..) => rear_scene::rear_scene(lineup, findings, page),
        (PictureView::Weight, ..) => weight_scene(findings, units, page),
        (PictureView::PriceAndClimb, ..) => price_and_climb_scene(lineup, findings, page, plotted),
        (PictureView::Price, ..) => price_scene::price_scene(lineup, findings, page),
        (PictureView::Climb, ..) => climb_scene::climb_scene(lineup, findings, page),
        (PictureView::Loaded, ..) => loaded_picture::loaded_picture(lineup, findings, page),
        (PictureView::Fork, ..) => {
            let view = scale.unwrap_or_else(|| fit_change(findings, outline, page));
            change_scene(findings, outline, units, page, view)
        }
        _ => outline_scene(findings, outline, units, page, scale.unwrap_or_else(|| fit_outline(findings, outline, page))),
    }
}

/// A table with all its rows, in smaller letters where the page is low; below seven tenths, rows are left out and
/// counted rather than made unreadable.
pub(super) fn whole_table(page: Page, side: f64, height: impl Fn(f64) -> f64, scene: impl Fn(Page) -> Scene) -> Scene {
    const SCALES: [f64; 6] = [1.0, 0.94, 0.88, 0.82, 0.76, 0.7];
    let larger = |scale: f64| Page { width: (page.width - 2.0 * side) / scale + 2.0 * side, height: page.height / scale };
    let fits = |scale: &&f64| {
        let page = larger(**scale);
        height(page.width) <= page.height
    };
    let scale = SCALES.iter().find(fits).copied().unwrap_or(SCALES[SCALES.len() - 1]);
    let table = scene(larger(scale)).scaled(scale);
    let (title, description) = (table.title.clone(), table.description.clone());
    let mut pen = Pen::default();
    // The table's own margins shrank with it; its words begin where the title does.
    pen.place(table, Pt { x: side * (1.0 - scale), y: 0.0 });
    pen.finish(page, title, description)
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
    let most = match rect.height {
        tall if tall > 900.0 => 9,
        usual if usual > 420.0 => 5,
        _ => 3,
    };
    let lines = wrap(note, FOOT.size, FOOT.weight, rect.width, most);
    let pitch = FOOT.size * LINE_HEIGHT;
    let first = rect.bottom() - pitch * lines.len() as f64;
    for (i, line) in lines.into_iter().enumerate() {
        pen.text(Pt { x: rect.x, y: first + pitch * i as f64 + FOOT.size }, line, FOOT, Anchor::Start);
    }
    Rect::new(rect.x, rect.y, rect.width, first - rect.y - 10.0)
}
