//! The line-up that a published picture or page carries, so that whoever gets only that can open the very comparison.
//!
//! A PNG has it in an international text chunk (*PNG (Third Edition)*, W3C 2025, `iTXt`), an SVG in its metadata, a page in
//! the link that takes it away; a PDF has it as an attachment, which every viewer hands out.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use crate::frameset::FileKind;

/// Keyword of the text chunk.
pub const CARRIED_KEYWORD: &str = "Spandrel comparison";
/// What stands before it in an SVG, where it is in base 64.
pub const CARRIED_METADATA: &str = "<metadata id=\"comparison\">";
/// Name under which a page and a PDF hand it out.
pub const CARRIED_NAME: &str = "comparison.lineup.ron";

/// The largest line-up that is carried, bytes.
const MOST: usize = FileKind::Lineup.max_bytes();

const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";

/// Why a picture or page gives no comparison.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NotCarried {
    /// A PDF, whose attachments every viewer hands out.
    #[error("a PDF has its comparison among its attachments: save {CARRIED_NAME} from there and open that")]
    InAttachment,
    /// Neither a PNG nor text.
    #[error("this is not a picture or page that carries a comparison: choose a PNG, SVG or HTML file that Spandrel published")]
    OtherFile,
    /// An SVG or a page without one.
    #[error("it carries no comparison: pictures and pages of a published sheet do, where nobody has taken it out")]
    NotInText,
    /// A PNG without one.
    #[error("the picture carries no comparison: pictures of a published sheet do, but many programs and places take it out")]
    NotInPicture,
    /// More than the limit of a line-up file.
    #[error("the comparison that it carries is too large")]
    TooLarge,
    /// An SVG or a page whose comparison is not in base 64; why.
    #[error("the comparison that it carries is damaged: {0}")]
    DamagedText(String),
    /// A PNG that cannot be read; why.
    #[error("the picture is damaged: {0}")]
    DamagedPicture(String),
    /// A PNG whose chunk cannot be unpacked; why.
    #[error("the comparison that the picture carries is damaged or too large: {0}")]
    DamagedChunk(String),
}

/// The file of the line-up that is carried.
///
/// # Errors
/// Why there is none.
pub fn carried(bytes: &[u8]) -> Result<Vec<u8>, NotCarried> {
    if bytes.starts_with(PNG) {
        return of_png(bytes);
    }
    if bytes.starts_with(b"%PDF") {
        return Err(NotCarried::InAttachment);
    }
    let text = std::str::from_utf8(bytes).map_err(|_not_text| NotCarried::OtherFile)?;
    let page = ["download=\"", CARRIED_NAME, "\" href=\"data:application/octet-stream;base64,"].concat();
    let between = |before: &str, after: char| text.split_once(before).and_then(|(_, rest)| rest.split_once(after));
    let (found, _) = between(CARRIED_METADATA, '<').or_else(|| between(&page, '"')).ok_or(NotCarried::NotInText)?;
    // Programs that write such files anew may break the text into lines.
    let found: String = found.split_ascii_whitespace().collect();
    if found.len() > MOST / 3 * 4 + 8 {
        return Err(NotCarried::TooLarge);
    }
    STANDARD.decode(found).map_err(|e| NotCarried::DamagedText(e.to_string()))
}

fn of_png(bytes: &[u8]) -> Result<Vec<u8>, NotCarried> {
    let limits = png::Limits { bytes: 2 * MOST };
    let reader = png::Decoder::new_with_limits(std::io::Cursor::new(bytes), limits).read_info();
    let reader = reader.map_err(|e| NotCarried::DamagedPicture(e.to_string()))?;
    let chunk = reader.info().utf8_text.iter().find(|c| c.keyword == CARRIED_KEYWORD);
    let mut chunk = chunk.cloned().ok_or(NotCarried::NotInPicture)?;
    chunk
        .decompress_text_with_limit(MOST)
        .and_then(|()| chunk.get_text())
        .map(String::into_bytes)
        .map_err(|e| NotCarried::DamagedChunk(e.to_string()))
}

#[cfg(test)]
mod tests {
    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn what_carries_nothing_says_so_in_words() {
        for (bytes, says) in [
            (&b"%PDF-1.7"[..], "attachments"),
            (b"<svg xmlns=\"http://www.w3.org/2000/svg\"/>", "carries no comparison"),
            (b"<svg><metadata id=\"comparison\">!!!</metadata></svg>", "damaged"),
            (b"\x89PNG\r\n\x1a\nxx", "damaged"),
            (b"\xff\xfe", "not a picture or page"),
        ] {
            let why = carried(bytes).unwrap_err().to_string();
            assert!(why.contains(says), "{why}");
        }
    }

    proptest! {
        /// Whatever bytes there are, and a sound picture with one byte changed: an answer in words, or a text.
        #[test]
        fn any_bytes_are_answered(bytes in vec(any::<u8>(), 0..200), at in 0_usize..120, to in any::<u8>()) {
            drop(carried(&bytes));
            drop(carried(&[PNG, &bytes].concat()));
            let mut file = Vec::new();
            let mut encoder = png::Encoder::new(&mut file, 1, 1);
            encoder.add_itxt_chunk(CARRIED_KEYWORD.to_owned(), "Lineup()".to_owned()).unwrap();
            encoder.write_header().unwrap().write_image_data(&[0]).unwrap();
            prop_assert_eq!(carried(&file).unwrap(), b"Lineup()");
            if let Some(byte) = file.get_mut(at) {
                *byte = to;
            }
            drop(carried(&file));
        }
    }

    #[test]
    fn an_svg_hands_its_comparison_out() {
        let svg = format!("<svg>{CARRIED_METADATA}{}</metadata></svg>", STANDARD.encode("Lineup()"));
        assert_eq!(carried(svg.as_bytes()).unwrap(), b"Lineup()");
    }

    /// As a program may write it anew: in lines, with the line ends of any system, indented.
    #[test]
    fn a_comparison_in_lines_is_read() {
        let text = "Lineup(title: \"a comparison that takes a few lines in base 64\")".repeat(9);
        for (every, end) in [(76, "\n"), (64, "\r\n"), (4, "\n\t  ")] {
            let encoded = STANDARD.encode(&text).into_bytes();
            let lines: Vec<&str> = encoded.chunks(every).map(|line| std::str::from_utf8(line).unwrap()).collect();
            let lines = format!("{end}{}{end}", lines.join(end));
            for file in [
                format!("<svg>{CARRIED_METADATA}{lines}</metadata></svg>"),
                format!("<a download=\"{CARRIED_NAME}\" href=\"data:application/octet-stream;base64,{lines}\">"),
            ] {
                assert_eq!(carried(file.as_bytes()).unwrap(), text.as_bytes(), "every {every}");
            }
        }
    }
}
