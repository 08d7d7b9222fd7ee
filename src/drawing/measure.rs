//! How wide a text is in the embedded fonts, and how to make it fit: shortened with an ellipsis or broken into lines.
//!
//! Widths are sums of advances, without kerning: renderers that kern come out narrower by a per cent or less, none
//! wider. A character that the fonts lack counts as the sign that stands in its place where nothing else has it
//! ([`drawable`]).

use std::borrow::Cow;
use std::sync::LazyLock;

use super::fonts;
use super::scene::Weight;
use crate::units::visible;

/// Height of capitals as a share of the font size (Open Sans: 1462 of 2048).
pub const CAP_HEIGHT: f64 = 1462.0 / 2048.0;
/// Reach of tall letters above the base line as a share of the font size, accents on capitals left out.
pub const ASCENT: f64 = 0.77;
/// Reach of letters below the base line as a share of the font size.
pub const DESCENT: f64 = 0.25;
/// Comfortable distance from base line to base line as a share of the font size.
pub const LINE_HEIGHT: f64 = 1.4;

/// Advances up to this code point are looked up in a table; the fonts have next to nothing beyond.
const TABLE: usize = 0x2600;

/// What stands for a character that the fonts lack: U+FFFD, which they have.
const STAND_IN: char = '\u{fffd}';

struct Advances {
    /// By code point; `None` where the font lacks it.
    by_char: Vec<Option<f32>>,
    stand_in: f32,
}

impl Advances {
    /// Advances as shares of the font size. A file that cannot be read (none of ours) gives half the size for all.
    fn of(weight: Weight) -> Self {
        let Ok(face) = ttf_parser::Face::parse(fonts::file(weight), 0) else {
            return Self { by_char: vec![Some(0.5); TABLE], stand_in: 0.5 };
        };
        let em = f32::from(face.units_per_em());
        let advance = |glyph| f32::from(face.glyph_hor_advance(glyph).unwrap_or_default()) / em;
        let of = |c: char| face.glyph_index(c).map(advance);
        let by_char = (0..TABLE).map(|code| u32::try_from(code).ok().and_then(char::from_u32).and_then(of)).collect();
        Self { by_char, stand_in: of(STAND_IN).unwrap_or(1.0) }
    }

    fn own(&self, c: char) -> Option<f32> {
        self.by_char.get(c as usize).copied().flatten()
    }

    fn width(&self, c: char) -> f64 {
        let unseen = if is_unseen(c) { 0.0 } else { self.stand_in };
        f64::from(self.own(c).unwrap_or(unseen))
    }
}

static REGULAR: LazyLock<Advances> = LazyLock::new(|| Advances::of(Weight::Regular));
static SEMIBOLD: LazyLock<Advances> = LazyLock::new(|| Advances::of(Weight::Semibold));

fn advances(weight: Weight) -> &'static Advances {
    match weight {
        Weight::Regular => &REGULAR,
        Weight::Semibold => &SEMIBOLD,
    }
}

/// What only changes or joins its neighbours: joiners, marks of direction, variants, shades, tags (Unicode Standard,
/// `Default_Ignorable_Code_Point`, and the modifiers of Unicode Technical Standard #51).
const fn is_unseen(c: char) -> bool {
    matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}')
        || matches!(c, '\u{1f3fb}'..='\u{1f3ff}' | '\u{e0000}'..='\u{e0fff}')
}

/// The text as it can be painted where there are no fonts but ours: what they lack is seen as a sign that something is
/// there, rather than as nothing.
#[must_use]
pub fn drawable(text: &str) -> Cow<'_, str> {
    let has = |c: char| c == STAND_IN || c.is_whitespace() || c.is_control() || REGULAR.own(c).is_some();
    if text.chars().all(has) {
        return Cow::Borrowed(text);
    }
    let seen = text.chars().filter(|c| has(*c) || !is_unseen(*c));
    Cow::Owned(seen.map(|c| if has(c) { c } else { STAND_IN }).collect())
}

/// Width of one line of text at a font size, in the size's unit.
#[must_use]
pub fn text_width(text: &str, size: f64, weight: Weight) -> f64 {
    let advances = advances(weight);
    size * visible(text).chars().map(|c| advances.width(c)).sum::<f64>()
}

/// `text`, or as much of its beginning as fits into `width` with an ellipsis behind it. Where not even the ellipsis
/// fits, nothing.
#[must_use]
pub fn shorten(text: &str, size: f64, weight: Weight, width: f64) -> String {
    let text = &*visible(text);
    if text_width(text, size, weight) <= width {
        return text.to_owned();
    }
    let advances = advances(weight);
    let mut left = width / size - advances.width('…');
    if left < 0.0 {
        return String::new();
    }
    let mut kept = 0;
    for (place, c) in text.char_indices() {
        left -= advances.width(c);
        if left < 0.0 {
            break;
        }
        kept = place + c.len_utf8();
    }
    format!("{}…", text[..kept].trim_end())
}

/// Where a line may break.
fn is_gap(c: char) -> bool {
    c.is_whitespace() && c != crate::units::THIN_SPACE && c != '\u{a0}'
}

/// `text` in lines no wider than `width`, broken at spaces (never at the thin space between a number and its unit), a word
/// that is too long within itself. At most `most` lines: what does not fit into them ends in an ellipsis.
#[must_use]
pub fn wrap(text: &str, size: f64, weight: Weight, width: f64, most: usize) -> Vec<String> {
    let text = visible(text);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    let mut rest = text.split(is_gap).filter(|w| !w.is_empty()).map(ToOwned::to_owned).collect::<std::collections::VecDeque<_>>();
    while let Some(word) = rest.pop_front() {
        let longer = if line.is_empty() { word.clone() } else { format!("{line} {word}") };
        if text_width(&longer, size, weight) <= width {
            line = longer;
        } else if lines.len() + 1 >= most {
            let all = std::iter::once(longer).chain(rest.drain(..)).collect::<Vec<_>>().join(" ");
            line = shorten(&all, size, weight, width);
        } else if line.is_empty() {
            let mut kept = 0;
            for (place, c) in word.char_indices() {
                let end = place + c.len_utf8();
                if kept > 0 && text_width(&word[..end], size, weight) > width {
                    break;
                }
                kept = end;
            }
            lines.push(word[..kept].to_owned());
            if kept < word.len() {
                rest.push_front(word[kept..].to_owned());
            }
        } else {
            lines.push(std::mem::take(&mut line));
            rest.push_front(word);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn widths_are_the_fonts_own() {
        // hmtx of OpenSans-Regular: digits 1171, space 532 of 2048 units.
        assert!((text_width("0", 2048.0, Weight::Regular) - 1171.0).abs() < 0.5);
        assert!((text_width("12 3", 2048.0, Weight::Regular) - (3.0 * 1171.0 + 532.0)).abs() < 1.0);
        for c in ['−', '±', '×', '…', '\u{2009}', '°', 'Ø', 'ß', 'Ω'] {
            let face = ttf_parser::Face::parse(fonts::REGULAR, 0).unwrap();
            assert!(face.glyph_index(c).is_some(), "{c:?} is in the font");
        }
    }

    #[test]
    fn what_the_fonts_lack_is_seen_and_as_wide_as_measured() {
        assert!(matches!(drawable("Žluťoučký βελος кадр ± −12\u{2009}mm"), Cow::Borrowed(_)));
        assert_eq!(drawable("🚲 הג 車"), "\u{fffd} \u{fffd}\u{fffd} \u{fffd}");
        assert_eq!(drawable("👩🏽\u{200d}🔧\u{fe0f}"), "\u{fffd}\u{fffd}", "one sign each, none for what joins them");
        for text in ["🚲 הג 車", "👩🏽\u{200d}🔧\u{fe0f} Drift", "\u{202e}Drift\u{202c}"] {
            for weight in [Weight::Regular, Weight::Semibold] {
                let face = ttf_parser::Face::parse(fonts::file(weight), 0).unwrap();
                assert!(drawable(text).chars().all(|c| face.glyph_index(c).is_some()), "{text}");
                assert!((text_width(text, 10.0, weight) - text_width(&drawable(&visible(text)), 10.0, weight)).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn digits_are_tabular() {
        for weight in [Weight::Regular, Weight::Semibold] {
            let widths: Vec<f64> = ('0'..='9').map(|c| text_width(&c.to_string(), 1.0, weight)).collect();
            assert!(widths.iter().all(|w| *w == widths[0]), "{weight:?}");
        }
    }

    #[test]
    fn shortens_with_an_ellipsis() {
        assert_eq!(shorten("Drift", 10.0, Weight::Regular, 100.0), "Drift");
        let short = shorten("Marrowby Drift of the long name", 10.0, Weight::Regular, 60.0);
        assert!(short.ends_with('…') && short.starts_with("Marro"), "{short}");
        assert_eq!(shorten("Marrowby", 10.0, Weight::Regular, 2.0), "");
    }

    #[test]
    fn wraps_at_spaces_and_inside_long_words() {
        let lines = wrap("one two three", 10.0, Weight::Regular, 50.0, 9);
        assert_eq!(lines, ["one two", "three"]);
        let lines = wrap("Donaudampfschifffahrt", 10.0, Weight::Regular, 50.0, 9);
        assert!(lines.len() > 1 && lines.concat() == "Donaudampfschifffahrt");
        assert_eq!(wrap("by 99.7\u{2009}%", 10.0, Weight::Regular, 42.0, 9), ["by", "99.7\u{2009}%"]);
        let lines = wrap("against 84.8\u{2009}±\u{2009}1.7\u{2009}mm", 10.0, Weight::Regular, 80.0, 9);
        assert_eq!(lines, ["against", "84.8\u{2009}±\u{2009}1.7\u{2009}mm"], "a number keeps its ± and its unit");
        assert_eq!(wrap("", 10.0, Weight::Regular, 50.0, 9), Vec::<String>::new());
        let last = wrap("one two three four five", 10.0, Weight::Regular, 40.0, 2);
        assert!(last.len() == 2 && last[1].ends_with('…'), "{last:?}");
    }

    proptest! {
        #[test]
        fn fits_whatever_it_is(text in "\\PC{0,80}", width in 12.0..300.0_f64, most in 1_usize..5) {
            prop_assert!(text_width(&shorten(&text, 11.0, Weight::Semibold, width), 11.0, Weight::Semibold) <= width);
            let lines = wrap(&text, 11.0, Weight::Regular, width, most);
            prop_assert!(lines.len() <= most);
            for line in lines {
                // One character alone may be wider than the column; nothing else may.
                prop_assert!(text_width(&line, 11.0, Weight::Regular) <= width || line.chars().count() == 1);
            }
        }
    }
}
