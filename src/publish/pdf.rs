//! Scenes as the pages of a PDF: text stays text, with the letters that occur embedded; lengths are exact, 96 page units
//! being an inch (72 points, 25.4 mm); the same scenes always give the same bytes.
//!
//! Not here: what is shown, and colours. A ground of white is left bare, so that nothing is printed where nothing is.

use krilla::color::rgb;
use krilla::embed::{AssociationKind, EmbeddedFile, MimeType};
use krilla::geom::{PathBuilder, Point, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{FillRule, LineCap, LineJoin, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};
use krilla::{Document, SerializeSettings, paint};

use crate::drawing::{
    Anchor, Background, Fill, Item, Palette, Pattern, Pt, Role, Scene, Stroke, Weight, dashes, drawable, fonts, text_width,
};
use crate::units::Day;

/// Points (1/72 inch) in a page unit (1/96 inch).
const POINTS: f64 = 72.0 / 96.0;

/// Why a PDF could not be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PdfError {
    /// There is no scene.
    #[error("a PDF needs at least one page")]
    NoPage,
    /// A page has no size.
    #[error("page {0} of the PDF cannot be made: its sides must be longer than nothing")]
    Size(usize),
    /// A font or the whole cannot be written.
    #[error("the PDF cannot be written: {0}")]
    Writing(String),
}

/// The scenes as a PDF, a page each, in order; each page as large as its scene. The first scene's title and description
/// are the document's; `day` is written in as the day of its making.
///
/// # Errors
/// No scene; a page without size.
pub fn pdf(scenes: &[Scene], background: Background, day: Option<Day>) -> Result<Vec<u8>, PdfError> {
    pdf_with(scenes, background, day, None)
}

/// The same with a file as its attachment: its name and what it holds.
///
/// # Errors
/// As [`pdf`].
pub fn pdf_with(
    scenes: &[Scene],
    background: Background,
    day: Option<Day>,
    attached: Option<(&str, &[u8])>,
) -> Result<Vec<u8>, PdfError> {
    let first = scenes.first().ok_or(PdfError::NoPage)?;
    let mut document = Document::new_with(SerializeSettings { enable_tagging: false, ..SerializeSettings::default() });
    let fonts = Fonts { regular: font(Weight::Regular)?, semibold: font(Weight::Semibold)? };
    for (place, scene) in scenes.iter().enumerate() {
        let (width, height) = (scene.page.width * POINTS, scene.page.height * POINTS);
        let settings = PageSettings::from_wh(single(width), single(height)).ok_or(PdfError::Size(place + 1))?;
        let mut page = document.start_page_with(settings);
        // Surface and page are finished by going out of scope, in that order.
        Writer { surface: page.surface(), palette: Palette::of(background), fonts: &fonts }.scene(scene, background);
    }
    let mut metadata = Metadata::new()
        .title(first.title.clone())
        .description(first.description.clone())
        .language("en".to_owned())
        .creator(concat!("Spandrel ", env!("CARGO_PKG_VERSION")).to_owned());
    if let Some(day) = day {
        metadata = metadata.creation_date(DateTime::new(day.year()).month(day.month()).day(day.day()));
    }
    document.set_metadata(metadata);
    if let Some((name, bytes)) = attached {
        let file = EmbeddedFile {
            path: name.to_owned(),
            mime_type: MimeType::new("application/octet-stream"),
            description: Some("The comparison, for Spandrel".to_owned()),
            association_kind: AssociationKind::Source,
            data: bytes.to_vec().into(),
            modification_date: None,
            compress: None,
            location: None,
        };
        document.embed_file(file).ok_or_else(|| PdfError::Writing(format!("{name} is attached twice")))?;
    }
    document.finish().map_err(|e| PdfError::Writing(format!("{e:?}")))
}

struct Fonts {
    regular: Font,
    semibold: Font,
}

fn font(weight: Weight) -> Result<Font, PdfError> {
    Font::new(fonts::file(weight).into(), 0).ok_or_else(|| PdfError::Writing(format!("{} is no font", fonts::family(weight))))
}

/// Single precision, as the file holds it; what is not finite is 0.
fn single(value: f64) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "a page's coordinates keep a thousandth of a point")]
    let value = value as f32;
    if value.is_finite() { value } else { 0.0 }
}

fn normal(opacity: f64) -> NormalizedF32 {
    NormalizedF32::new(single(opacity.clamp(0.0, 1.0))).unwrap_or(NormalizedF32::ONE)
}

struct Writer<'a> {
    surface: Surface<'a>,
    palette: Palette,
    fonts: &'a Fonts,
}

impl Writer<'_> {
    fn scene(mut self, scene: &Scene, background: Background) {
        let scale = single(POINTS);
        self.surface.push_transform(&Transform::from_scale(scale, scale));
        if background != Background::White {
            let (w, h) = (scene.page.width, scene.page.height);
            let corners = [Pt { x: 0.0, y: 0.0 }, Pt { x: w, y: 0.0 }, Pt { x: w, y: h }, Pt { x: 0.0, y: h }];
            self.path(&corners, true, Some(Fill { role: Role::Background, opacity: 1.0 }), None);
        }
        let mut is_clipped = false;
        for item in &scene.items {
            match item {
                Item::Line { points, stroke } => self.path(points, false, None, Some(*stroke)),
                Item::Area { points, fill, stroke } => self.path(points, true, *fill, *stroke),
                Item::Shape { rings, fill } => self.shape(rings, *fill),
                Item::Circle { centre, radius, fill, stroke } => self.circle(*centre, *radius, *fill, *stroke),
                Item::Text { at, text, size, anchor, role, weight } => self.text(*at, text, *size, (*anchor, *role, *weight)),
                Item::Clip { at, size } => {
                    self.unclip(is_clipped);
                    let (x, y, w, h) = (single(at.x), single(at.y), single(size.width), single(size.height));
                    let mut path = PathBuilder::new();
                    path.move_to(x, y);
                    path.line_to(x + w, y);
                    path.line_to(x + w, y + h);
                    path.line_to(x, y + h);
                    path.close();
                    is_clipped = path.finish().is_some_and(|path| {
                        self.surface.push_clip_path(&path, &FillRule::NonZero);
                        true
                    });
                }
                Item::Unclip => {
                    self.unclip(is_clipped);
                    is_clipped = false;
                }
            }
        }
        self.unclip(is_clipped);
        self.surface.pop();
    }

    fn unclip(&mut self, is_clipped: bool) {
        if is_clipped {
            self.surface.pop();
        }
    }

    fn colour(&self, role: Role) -> paint::Paint {
        let colour = self.palette.colour(role);
        rgb::Color::new(colour.r, colour.g, colour.b).into()
    }

    /// Sets what the next shape is filled and drawn with; whether it leaves a mark at all.
    fn look(&mut self, fill: Option<Fill>, stroke: Option<Stroke>) -> bool {
        let fill = fill.map(|f| paint::Fill { paint: self.colour(f.role), opacity: normal(f.opacity), rule: FillRule::NonZero });
        let stroke = stroke.map(|s| {
            let lengths: Vec<f32> = dashes(s).into_iter().map(single).collect();
            paint::Stroke {
                paint: self.colour(s.role),
                width: single(s.width),
                line_cap: if s.pattern == Pattern::Solid { LineCap::Round } else { LineCap::Butt },
                line_join: LineJoin::Round,
                opacity: normal(s.opacity),
                dash: (!lengths.is_empty()).then_some(StrokeDash { array: lengths, offset: 0.0 }),
                ..paint::Stroke::default()
            }
        });
        let leaves_mark = fill.is_some() || stroke.is_some();
        self.surface.set_fill(fill);
        self.surface.set_stroke(stroke);
        leaves_mark
    }

    /// What lies within an odd number of rings.
    fn shape(&mut self, rings: &[Vec<Pt>], fill: Fill) {
        let mut path = PathBuilder::new();
        for ring in rings {
            add(&mut path, ring);
            path.close();
        }
        if let Some(path) = path.finish() {
            let paint = self.colour(fill.role);
            self.surface.set_fill(Some(paint::Fill { paint, opacity: normal(fill.opacity), rule: FillRule::EvenOdd }));
            self.surface.set_stroke(None);
            self.surface.draw_path(&path);
        }
    }

    fn path(&mut self, points: &[Pt], is_closed: bool, fill: Option<Fill>, stroke: Option<Stroke>) {
        let mut path = PathBuilder::new();
        add(&mut path, points);
        if is_closed {
            path.close();
        }
        if let Some(path) = path.finish().filter(|_| self.look(fill, stroke)) {
            self.surface.draw_path(&path);
        }
    }

    /// Four cubic curves, true to 0.03 % of the radius: the handles are 4/3 tan(π/8) of it.
    fn circle(&mut self, centre: Pt, radius: f64, fill: Option<Fill>, stroke: Option<Stroke>) {
        let handle = single(radius * 4.0 / 3.0 * (std::f64::consts::FRAC_PI_8).tan());
        let (x, y, r) = (single(centre.x), single(centre.y), single(radius));
        let mut path = PathBuilder::new();
        path.move_to(x + r, y);
        path.cubic_to(x + r, y + handle, x + handle, y + r, x, y + r);
        path.cubic_to(x - handle, y + r, x - r, y + handle, x - r, y);
        path.cubic_to(x - r, y - handle, x - handle, y - r, x, y - r);
        path.cubic_to(x + handle, y - r, x + r, y - handle, x + r, y);
        path.close();
        if let Some(path) = path.finish().filter(|_| self.look(fill, stroke)) {
            self.surface.draw_path(&path);
        }
    }

    fn text(&mut self, at: Pt, text: &str, size: f64, (anchor, role, weight): (Anchor, Role, Weight)) {
        let text: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        let text = drawable(&text);
        let width = text_width(&text, size, weight);
        let x = match anchor {
            Anchor::Start => at.x,
            Anchor::Middle => at.x - width / 2.0,
            Anchor::End => at.x - width,
        };
        let font = match weight {
            Weight::Regular => self.fonts.regular.clone(),
            Weight::Semibold => self.fonts.semibold.clone(),
        };
        self.look(Some(Fill { role, opacity: 1.0 }), None);
        let start = Point::from_xy(single(x), single(at.y));
        self.surface.draw_text(start, font, single(size), &text, false, TextDirection::Auto);
    }
}

/// Adds a polyline to a path.
fn add(path: &mut PathBuilder, points: &[Pt]) {
    for (place, point) in points.iter().enumerate() {
        let (x, y) = (single(point.x), single(point.y));
        if place == 0 {
            path.move_to(x, y);
        } else {
            path.line_to(x, y);
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::drawing::Page;
    use crate::frameset::FrameIndex;

    const MM: f64 = 96.0 / 25.4;

    fn scene(page: Page, items: Vec<Item>) -> Scene {
        Scene { page, items, targets: Vec::new(), title: "A (and) B".to_owned(), description: "A is taller.".to_owned() }
    }

    fn text(text: &str, weight: Weight) -> Item {
        let at = Pt { x: 50.0, y: 54.0 };
        Item::Text {
            at,
            text: text.to_owned(),
            size: 13.0,
            anchor: Anchor::Middle,
            role: Role::FrameLetter(FrameIndex(2)),
            weight,
        }
    }

    fn every_kind() -> Vec<Item> {
        let stroke = |role, pattern, opacity| Stroke { role, width: 1.5, pattern, opacity };
        vec![
            Item::Clip { at: Pt { x: 0.0, y: 0.0 }, size: Page { width: 150.0, height: 100.0 } },
            Item::Line {
                points: vec![Pt { x: -0.001, y: 10.0 }, Pt { x: 1.0 / 3.0, y: f64::NAN }],
                stroke: stroke(Role::FrameLine(FrameIndex(1)), Pattern::Frame(FrameIndex(1)), 0.5),
            },
            Item::Clip { at: Pt { x: 0.0, y: 0.0 }, size: Page { width: 90.0, height: 90.0 } },
            Item::Area {
                points: vec![Pt { x: 0.0, y: 0.0 }, Pt { x: 10.0, y: 0.0 }, Pt { x: 10.0, y: 10.0 }],
                fill: Some(Fill { role: Role::FrameLine(FrameIndex(0)), opacity: 0.1 }),
                stroke: Some(stroke(Role::FrameLine(FrameIndex(0)), Pattern::Solid, 1.0)),
            },
            Item::Unclip,
            Item::Unclip,
            Item::Circle {
                centre: Pt { x: 50.0, y: 50.0 },
                radius: 11.0,
                fill: None,
                stroke: Some(stroke(Role::Ink, Pattern::Dashes, 1.0)),
            },
            text("−2 ± 1 \u{1}", Weight::Semibold),
        ]
    }

    /// The page boxes that a file states, in points.
    fn media_boxes(file: &[u8]) -> Vec<[f64; 4]> {
        let text = String::from_utf8_lossy(file);
        let boxes = text.split("/MediaBox").skip(1).map(|rest| {
            let numbers = rest.split_once('[').unwrap().1.split_once(']').unwrap().0;
            let numbers: Vec<f64> = numbers.split_whitespace().map(|n| n.parse().unwrap()).collect();
            numbers.try_into().unwrap()
        });
        boxes.collect()
    }

    /// ISO 216: A4 is 210 mm × 297 mm; 1 mm = 72/25.4 points (ISO 32000-2, 8.3.2.3: a point is 1/72 inch).
    #[test]
    fn pages_have_the_exact_size_of_their_scenes() {
        let pages = [(210.0, 297.0), (420.0, 297.0), (215.9, 279.4)];
        let scenes: Vec<Scene> = pages.iter().map(|(w, h)| scene(Page { width: w * MM, height: h * MM }, every_kind())).collect();
        let file = pdf(&scenes, Background::White, None).unwrap();
        assert!(file.starts_with(b"%PDF-1."));
        let boxes = media_boxes(&file);
        assert_eq!(boxes.len(), 3);
        for (found, (width, height)) in boxes.iter().zip(pages) {
            assert_eq!(found[..2], [0.0, 0.0]);
            assert!((found[2] - width * 72.0 / 25.4).abs() < 1e-3, "{found:?}");
            assert!((found[3] - height * 72.0 / 25.4).abs() < 1e-3, "{found:?}");
        }
    }

    #[test]
    fn the_same_scenes_are_the_same_bytes_and_the_day_is_given() {
        let scenes = vec![scene(Page { width: 200.0, height: 100.0 }, every_kind())];
        let day = Day::new(2026, 10, 2);
        let first = pdf(&scenes, Background::Light, day).unwrap();
        assert_eq!(first, pdf(&scenes, Background::Light, day).unwrap());
        let text = String::from_utf8_lossy(&first).replace(' ', "");
        assert!(text.contains("/CreationDate(D:20261002"), "the day of making");
        assert!(text.contains("/Title(A"), "the title");
        let without = pdf(&scenes, Background::Light, None).unwrap();
        assert!(!String::from_utf8_lossy(&without).contains("CreationDate"));
    }

    #[test]
    fn only_the_font_that_occurs_is_inside_and_only_its_letters() {
        let page = Page { width: 200.0, height: 100.0 };
        let file = pdf(&[scene(page, vec![text("± 2 mm", Weight::Regular)])], Background::White, None).unwrap();
        let written = String::from_utf8_lossy(&file);
        assert!(written.contains("+OpenSans") && !written.contains("Semibold"));
        assert!(file.len() < fonts::REGULAR.len() / 4, "{} bytes", file.len());
        let none = pdf(&[scene(page, Vec::new())], Background::White, None).unwrap();
        assert!(!String::from_utf8_lossy(&none).contains("OpenSans"));
    }

    #[test]
    fn wrong_requests_are_refused_in_words() {
        assert_eq!(pdf(&[], Background::White, None), Err(PdfError::NoPage));
        let good = scene(Page { width: 200.0, height: 100.0 }, Vec::new());
        let flat = scene(Page { width: 200.0, height: 0.0 }, Vec::new());
        assert_eq!(pdf(&[good, flat], Background::White, None), Err(PdfError::Size(2)));
        assert!(PdfError::Size(2).to_string().contains("page 2"));
    }

    proptest! {
        #[test]
        fn any_text_can_be_written(words in any::<String>()) {
            let mut scene = scene(Page { width: 200.0, height: 100.0 }, vec![text(&words, Weight::Regular)]);
            scene.title.clone_from(&words);
            prop_assert!(pdf(&[scene], Background::White, None).is_ok());
        }
    }
}
