//! A scene as SVG 1.1 text that looks the same everywhere: fonts embedded, numbers with fixed decimals, the same scene
//! always the same bytes.
//!
//! Not here: what is shown, and colours. Text stays text, so that it can be searched, read aloud and edited.

use std::fmt::Write;

use base64::Engine;

use crate::drawing::{Anchor, Background, Fill, Item, Palette, Pattern, Pt, Role, Scene, Stroke, Weight, dashes, fonts};

/// The scene as an SVG file of its own page's size, in CSS pixels.
#[must_use]
pub fn svg(scene: &Scene, background: Background) -> String {
    svg_of_size(scene, background, scene.page.width, scene.page.height)
}

/// The scene as an SVG file that states another size, in CSS pixels; the drawing is scaled to fit.
#[must_use]
pub fn svg_of_size(scene: &Scene, background: Background, width: f64, height: f64) -> String {
    svg_with(scene, SvgLook { background, ..SvgLook::default() }, width, height)
}

/// The scene as an SVG file that states its page's size in millimetres, so that it is printed true to size.
#[must_use]
pub fn svg_in_mm(scene: &Scene, background: Background) -> String {
    let mm = |length: f64| format!("{:.3}mm", length * 25.4 / 96.0);
    let look = SvgLook { background, ..SvgLook::default() };
    svg_of_stated_size(scene, look, &mm(scene.page.width), &mm(scene.page.height))
}

/// How a scene is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SvgLook {
    /// The ground, by which colours are chosen.
    pub background: Background,
    /// Whether the ground itself is left away, for laying over something.
    pub is_clear: bool,
    /// Whether the fonts are inside. A page with several pictures holds them once for all; so does what paints pixels.
    pub has_fonts: bool,
    /// Before every name inside the picture, so that several can stand on one page.
    pub prefix: &'static str,
}

impl Default for SvgLook {
    fn default() -> Self {
        Self { background: Background::Light, is_clear: false, has_fonts: true, prefix: "" }
    }
}

/// The scene as SVG in a look of one's choice, with its size in CSS pixels.
#[must_use]
pub fn svg_with(scene: &Scene, look: SvgLook, width: f64, height: f64) -> String {
    svg_of_stated_size(scene, look, &number(width), &number(height))
}

fn svg_of_stated_size(scene: &Scene, look: SvgLook, width: &str, height: &str) -> String {
    let room = if look.has_fonts { 160_000 } else { 40_000 };
    let mut writer = Writer { out: String::with_capacity(room), palette: Palette::of(look.background), look, clips: 0 };
    writer.scene(scene, width, height);
    writer.out
}

struct Writer {
    out: String,
    palette: Palette,
    look: SvgLook,
    clips: usize,
}

impl Writer {
    /// Writing to a string cannot fail.
    fn put(&mut self, text: std::fmt::Arguments<'_>) {
        let _ = self.out.write_fmt(text);
    }

    fn scene(&mut self, scene: &Scene, width: &str, height: &str) {
        let page = scene.page;
        let prefix = self.look.prefix;
        self.put(format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {} {}\" \
             role=\"img\" aria-labelledby=\"{prefix}title {prefix}desc\">\n",
            width,
            height,
            number(page.width),
            number(page.height)
        ));
        self.put(format_args!("<title id=\"{prefix}title\">{}</title>\n", escaped(&scene.title)));
        self.put(format_args!("<desc id=\"{prefix}desc\">{}</desc>\n", escaped(&scene.description)));
        if self.look.has_fonts {
            self.fonts(scene);
        }
        if !self.look.is_clear {
            let paper = self.palette.colour(Role::Background).hex();
            self.put(format_args!(
                "<rect x=\"0\" y=\"0\" width=\"{}\" height=\"{}\" fill=\"{paper}\"/>\n",
                number(page.width),
                number(page.height)
            ));
        }
        let mut is_clipped = false;
        for item in &scene.items {
            match item {
                Item::Clip { at, size } => {
                    if is_clipped {
                        self.out.push_str("</g>\n");
                    }
                    self.clips += 1;
                    let id = self.clips;
                    self.put(format_args!(
                        "<clipPath id=\"{prefix}clip{id}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>\n\
                         <g clip-path=\"url(#{prefix}clip{id})\">\n",
                        number(at.x),
                        number(at.y),
                        number(size.width),
                        number(size.height)
                    ));
                    is_clipped = true;
                }
                Item::Unclip => {
                    if is_clipped {
                        self.out.push_str("</g>\n");
                    }
                    is_clipped = false;
                }
                Item::Line { .. } | Item::Area { .. } | Item::Shape { .. } | Item::Circle { .. } | Item::Text { .. } => {
                    self.item(item);
                }
            }
        }
        if is_clipped {
            self.out.push_str("</g>\n");
        }
        self.out.push_str("</svg>\n");
    }

    /// The fonts of the weights that occur.
    fn fonts(&mut self, scene: &Scene) {
        let occurs = |wanted| scene.items.iter().any(|i| matches!(i, Item::Text { weight, .. } if *weight == wanted));
        let weights: Vec<Weight> = [Weight::Regular, Weight::Semibold].into_iter().filter(|w| occurs(*w)).collect();
        if weights.is_empty() {
            return;
        }
        self.out.push_str("<style>\n");
        for weight in weights {
            let data = base64::engine::general_purpose::STANDARD.encode(fonts::file(weight));
            self.put(format_args!(
                "@font-face {{ font-family: \"{}\"; font-weight: {}; src: url(\"data:font/ttf;base64,{data}\") format(\"truetype\"); }}\n",
                fonts::family(weight),
                fonts::css_weight(weight)
            ));
        }
        self.out.push_str("</style>\n");
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Line { points, stroke } => {
                self.out.push_str("<polyline points=\"");
                self.points(points);
                self.out.push_str("\" fill=\"none\"");
                self.stroke(Some(*stroke));
            }
            Item::Area { points, fill, stroke } => {
                self.out.push_str("<polygon points=\"");
                self.points(points);
                self.out.push('"');
                self.fill(*fill);
                self.stroke(*stroke);
            }
            Item::Shape { rings, fill } => {
                self.out.push_str("<path fill-rule=\"evenodd\" d=\"");
                for ring in rings {
                    self.out.push('M');
                    self.points(ring);
                    self.out.push('Z');
                }
                self.out.push('"');
                self.fill(Some(*fill));
            }
            Item::Circle { centre, radius, fill, stroke } => {
                self.put(format_args!(
                    "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"",
                    number(centre.x),
                    number(centre.y),
                    number(*radius)
                ));
                self.fill(*fill);
                self.stroke(*stroke);
            }
            Item::Text { at, text, size, anchor, role, weight } => {
                let anchor = match anchor {
                    Anchor::Start => "start",
                    Anchor::Middle => "middle",
                    Anchor::End => "end",
                };
                let fill = self.palette.colour(*role).hex();
                self.put(format_args!(
                    "<text x=\"{}\" y=\"{}\" font-family=\"{}\" font-weight=\"{}\" font-size=\"{}\" text-anchor=\"{anchor}\" \
                     fill=\"{fill}\">{}</text>\n",
                    number(at.x),
                    number(at.y),
                    fonts::family(*weight),
                    fonts::css_weight(*weight),
                    number(*size),
                    escaped(text)
                ));
                return;
            }
            Item::Clip { .. } | Item::Unclip => return,
        }
        self.out.push_str("/>\n");
    }

    fn points(&mut self, points: &[Pt]) {
        for (place, point) in points.iter().enumerate() {
            let space = if place == 0 { "" } else { " " };
            self.put(format_args!("{space}{},{}", number(point.x), number(point.y)));
        }
    }

    fn fill(&mut self, fill: Option<Fill>) {
        match fill {
            None => self.out.push_str(" fill=\"none\""),
            Some(fill) => {
                let colour = self.palette.colour(fill.role).hex();
                self.put(format_args!(" fill=\"{colour}\""));
                if fill.opacity < 1.0 {
                    self.put(format_args!(" fill-opacity=\"{}\"", number(fill.opacity)));
                }
            }
        }
    }

    fn stroke(&mut self, stroke: Option<Stroke>) {
        let Some(stroke) = stroke else { return };
        let colour = self.palette.colour(stroke.role).hex();
        self.put(format_args!(" stroke=\"{colour}\" stroke-width=\"{}\" stroke-linejoin=\"round\"", number(stroke.width)));
        if stroke.pattern == Pattern::Solid {
            self.out.push_str(" stroke-linecap=\"round\"");
        } else {
            let lengths: Vec<String> = dashes(stroke).into_iter().map(number).collect();
            self.put(format_args!(" stroke-dasharray=\"{}\"", lengths.join(" ")));
        }
        if stroke.opacity < 1.0 {
            self.put(format_args!(" stroke-opacity=\"{}\"", number(stroke.opacity)));
        }
    }
}

/// Two decimals always; −0 and what is not finite are 0.
fn number(value: f64) -> String {
    let text = format!("{:.2}", if value.is_finite() { value } else { 0.0 });
    if text == "-0.00" { "0.00".to_owned() } else { text }
}

/// Text for XML: markup escaped, characters that XML 1.0 does not allow replaced by U+FFFD, line breaks by spaces.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1F}' | '\u{7F}'..='\u{9F}' | '\u{FFFE}' | '\u{FFFF}' => out.push('\u{FFFD}'),
            _ => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::drawing::Page;
    use crate::frameset::FrameIndex;

    /// The text without the fonts' bytes, for reading.
    fn without_fonts(svg: &str) -> String {
        let short =
            |line: &str| line.split_once("base64,").map_or_else(|| line.to_owned(), |(before, _)| format!("{before}base64,…"));
        svg.lines().map(short).collect::<Vec<_>>().join("\n")
    }

    fn scene(items: Vec<Item>) -> Scene {
        Scene {
            page: Page { width: 200.0, height: 100.0 },
            items,
            targets: Vec::new(),
            title: "A & B".to_owned(),
            description: "A sits 12 mm taller than B.".to_owned(),
        }
    }

    fn every_kind() -> Scene {
        let stroke = |role, pattern, opacity| Stroke { role, width: 1.5, pattern, opacity };
        scene(vec![
            Item::Clip { at: Pt { x: 0.0, y: 0.0 }, size: Page { width: 150.0, height: 100.0 } },
            Item::Line {
                points: vec![Pt { x: -0.001, y: 10.0 }, Pt { x: 1.0 / 3.0, y: f64::NAN }],
                stroke: stroke(Role::FrameLine(FrameIndex(1)), Pattern::Frame(FrameIndex(1)), 0.5),
            },
            Item::Area {
                points: vec![Pt { x: 0.0, y: 0.0 }, Pt { x: 10.0, y: 0.0 }, Pt { x: 10.0, y: 10.0 }],
                fill: Some(Fill { role: Role::FrameLine(FrameIndex(0)), opacity: 0.1 }),
                stroke: Some(stroke(Role::FrameLine(FrameIndex(0)), Pattern::Solid, 1.0)),
            },
            Item::Unclip,
            Item::Circle {
                centre: Pt { x: 50.0, y: 50.0 },
                radius: 11.0,
                fill: None,
                stroke: Some(stroke(Role::Ink, Pattern::Dashes, 1.0)),
            },
            Item::Text {
                at: Pt { x: 50.0, y: 54.0 },
                text: "<A> & \"B\" \u{1} −2 ± 1".to_owned(),
                size: 13.0,
                anchor: Anchor::Middle,
                role: Role::FrameLetter(FrameIndex(2)),
                weight: Weight::Semibold,
            },
        ])
    }

    #[test]
    fn each_kind_of_item_is_written() {
        insta::assert_snapshot!(without_fonts(&svg(&every_kind(), Background::Light)));
    }

    #[test]
    fn the_same_scene_is_the_same_bytes_and_fonts_are_inside() {
        let text = svg(&every_kind(), Background::Dark);
        assert_eq!(text, svg(&every_kind(), Background::Dark));
        assert_eq!(text.matches("@font-face").count(), 1, "only the weight that occurs");
        assert!(text.len() > 50_000);
    }

    #[test]
    fn a_stated_size_leaves_the_drawing_alone() {
        let text = svg_of_size(&scene(Vec::new()), Background::Light, 1920.0, 960.0);
        assert!(text.contains("width=\"1920.00\" height=\"960.00\" viewBox=\"0 0 200.00 100.00\""));
    }

    proptest! {
        #[test]
        fn any_text_gives_well_formed_markup(text in any::<String>()) {
            let mut scene = scene(Vec::new());
            scene.title.clone_from(&text);
            scene.description.clone_from(&text);
            let written = svg(&scene, Background::Light);
            prop_assert!(resvg::usvg::Tree::from_str(&written, &resvg::usvg::Options::default()).is_ok());
        }
    }
}
