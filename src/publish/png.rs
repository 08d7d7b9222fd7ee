//! SVG text as pixels and as a PNG file, with no font but the program's own.
//!
//! Not here: what the SVG shows. Invariant: the same SVG gives the same bytes on every machine of one architecture.

use std::sync::{Arc, LazyLock};

use png::text_metadata::ITXtChunk;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{self, fontdb};

use crate::drawing::{drawable, fonts};

/// The most pixels a side may have.
pub const MOST_PIXELS: u32 = 16_384;

/// Why a picture could not be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PngError {
    /// A side is zero or too long.
    #[error("a picture of {width} × {height} pixels cannot be made: each side from 1 to {MOST_PIXELS}")]
    Size {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
    /// The text is not SVG.
    #[error("the picture's SVG cannot be read: {0}")]
    Svg(String),
    /// The pixels could not be packed.
    #[error("the picture cannot be packed as PNG: {0}")]
    Packing(String),
}

/// Pixels in rows from the top, four bytes each: red, green, blue, opacity, not premultiplied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// 4 · width · height bytes.
    pub rgba: Vec<u8>,
}

/// Only our fonts, read once.
static FONTS: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
    let mut database = fontdb::Database::new();
    database.load_font_data(fonts::REGULAR.to_vec());
    database.load_font_data(fonts::SEMIBOLD.to_vec());
    Arc::new(database)
});

/// A picture read from SVG, to be painted in one size or several.
#[derive(Clone, Debug)]
pub struct Painter(usvg::Tree);

impl Painter {
    /// Reads the SVG. Characters that our fonts lack are painted as a sign that stands for them; its markup has none.
    ///
    /// # Errors
    /// Text that is not SVG.
    pub fn of(svg: &str) -> Result<Self, PngError> {
        let options = usvg::Options { fontdb: Arc::clone(&FONTS), ..usvg::Options::default() };
        usvg::Tree::from_str(&drawable(svg), &options).map(Self).map_err(|e| PngError::Svg(e.to_string()))
    }

    /// The pixels of a size. The drawing is scaled to fit and stands in the middle.
    ///
    /// # Errors
    /// A side of zero or above [`MOST_PIXELS`].
    pub fn pixels(&self, width_px: u32, height_px: u32) -> Result<Pixels, PngError> {
        let pixmap = self.painted(width_px, height_px)?;
        let mut rgba = Vec::with_capacity(pixmap.pixels().len() * 4);
        for p in pixmap.pixels() {
            let p = p.demultiply();
            rgba.extend([p.red(), p.green(), p.blue(), p.alpha()]);
        }
        Ok(Pixels { width: width_px, height: height_px, rgba })
    }

    fn painted(&self, width_px: u32, height_px: u32) -> Result<Pixmap, PngError> {
        let size_error = PngError::Size { width: width_px, height: height_px };
        if width_px > MOST_PIXELS || height_px > MOST_PIXELS {
            return Err(size_error);
        }
        let mut pixmap = Pixmap::new(width_px, height_px).ok_or(size_error)?;
        let tree = &self.0;
        #[expect(clippy::cast_possible_truncation, reason = "pixels up to 16384 fit")]
        let (width, height) = (f64::from(width_px) as f32, f64::from(height_px) as f32);
        let scale = (width / tree.size().width()).min(height / tree.size().height());
        let (dx, dy) = ((width - tree.size().width() * scale) / 2.0, (height - tree.size().height() * scale) / 2.0);
        resvg::render(tree, Transform::from_row(scale, 0.0, 0.0, scale, dx, dy), &mut pixmap.as_mut());
        Ok(pixmap)
    }
}

/// Pixels as a PNG file, packed quickly: for many pictures in a row.
///
/// # Errors
/// When they cannot be packed.
pub fn png_quickly(pixels: &Pixels) -> Result<Vec<u8>, PngError> {
    packed(pixels, png::Compression::Fast, None)
}

/// Pixels as a PNG file that carries a text under a keyword.
///
/// # Errors
/// When they cannot be packed.
pub fn png_carrying(pixels: &Pixels, keyword: &str, text: &str) -> Result<Vec<u8>, PngError> {
    packed(pixels, png::Compression::Balanced, Some((keyword, text)))
}

fn packed(pixels: &Pixels, compression: png::Compression, carried: Option<(&str, &str)>) -> Result<Vec<u8>, PngError> {
    let mut file = Vec::new();
    let packing = |e: png::EncodingError| PngError::Packing(e.to_string());
    let mut encoder = png::Encoder::new(&mut file, pixels.width, pixels.height);
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(compression);
    let mut writer = encoder.write_header().map_err(packing)?;
    if let Some((keyword, text)) = carried {
        let mut chunk = ITXtChunk::new(keyword, text);
        chunk.compress_text().map_err(packing)?;
        writer.write_text_chunk(&chunk).map_err(packing)?;
    }
    writer.write_image_data(&pixels.rgba).map_err(packing)?;
    writer.finish().map_err(packing)?;
    Ok(file)
}

/// An SVG as a PNG file of `width_px` × `height_px`. The drawing is scaled to fit and stands in the middle.
///
/// # Errors
/// A side of zero or above [`MOST_PIXELS`]; text that is not SVG.
pub fn png(svg: &str, width_px: u32, height_px: u32) -> Result<Vec<u8>, PngError> {
    Painter::of(svg)?.painted(width_px, height_px)?.encode_png().map_err(|e| PngError::Packing(e.to_string()))
}

/// An SVG as bare pixels, for the clipboard.
///
/// # Errors
/// As [`png`].
pub fn pixels(svg: &str, width_px: u32, height_px: u32) -> Result<Pixels, PngError> {
    Painter::of(svg)?.pixels(width_px, height_px)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10">
        <rect width="10" height="10" fill="#FAF8F3"/><rect width="5" height="10" fill="#0072B2"/></svg>"##;

    fn text(family: &str) -> String {
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="100" height="40"><text x="5" y="30" font-size="30"
            font-family="{family}" font-weight="{}">A ± 2</text></svg>"#,
            if family.ends_with("Semibold") { 600 } else { 400 }
        )
    }

    #[test]
    fn pixels_have_the_colours_and_size_asked_for() {
        let pixels = pixels(SQUARE, 20, 20).unwrap();
        assert_eq!((pixels.width, pixels.height, pixels.rgba.len()), (20, 20, 1600));
        assert_eq!(pixels.rgba[..4], [0x00, 0x72, 0xB2, 0xFF]);
        assert_eq!(pixels.rgba[19 * 4..20 * 4], [0xFA, 0xF8, 0xF3, 0xFF]);
    }

    #[test]
    fn a_png_says_its_size() {
        let file = png(SQUARE, 64, 32).unwrap();
        assert_eq!(file[..8], *b"\x89PNG\r\n\x1a\n");
        assert_eq!(file[16..24], [0, 0, 0, 64, 0, 0, 0, 32]);
        assert_eq!(file, png(SQUARE, 64, 32).unwrap());
    }

    #[test]
    fn both_weights_are_painted_from_our_own_fonts() {
        let ink = |family: &str| {
            let painted = pixels(&text(family), 100, 40).unwrap();
            painted.rgba.chunks(4).filter(|p| p[3] > 128).count()
        };
        let (regular, semibold) = (ink("Open Sans"), ink("Open Sans Semibold"));
        assert!(regular > 100 && semibold > regular + 30, "{regular} {semibold}");
    }

    #[test]
    fn a_character_without_a_glyph_is_no_gap() {
        let svg = |text: &str| {
            format!(
                r#"<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40"><text x="5" y="30" font-size="30"
                font-family="Open Sans">{text}</text></svg>"#
            )
        };
        let ink = |text: &str| pixels(&svg(text), 60, 40).unwrap().rgba.chunks(4).filter(|p| p[3] > 128).count();
        assert!(ink("🚲") > 100 && ink("ה") > 100 && ink("\u{200d}") == 0);
    }

    #[test]
    fn wrong_requests_are_refused_in_words() {
        assert_eq!(png(SQUARE, 0, 5), Err(PngError::Size { width: 0, height: 5 }));
        assert_eq!(png(SQUARE, 20_000, 5), Err(PngError::Size { width: 20_000, height: 5 }));
        assert!(matches!(png("no picture", 5, 5), Err(PngError::Svg(_))));
        assert!(png(SQUARE, 0, 5).unwrap_err().to_string().contains("each side from 1 to 16384"));
    }
}
