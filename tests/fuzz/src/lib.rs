//! What each target does with bytes: reads them, and checks what must be true of whatever was read. The binaries beside
//! throw made-up bytes at these functions; a plain test of the project replays the small corpora kept in `corpus/`.
//!
//! # Panics
//! Every function here panics where something that must be true is not: that is what a fuzzer looks for.

use std::io::{Cursor, Write};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use spandrel::frameset::import::{self, Reading, report};
use spandrel::frameset::{Figure, FrameIndex, Frameset, TyreSize, read_frameset, write_frameset};
use spandrel::geometry::adjust;
use spandrel::lineup::{Findings, read_lineup, write_lineup};
use spandrel::parts::standards::{End, Headset, HeadsetEnd, named_tyre};
use spandrel::publish::{CARRIED_KEYWORD, CARRIED_METADATA, CARRIED_NAME, carried};

/// A target: its name, which is its binary's and its corpus's, and what it does.
pub type Target = (&'static str, fn(&[u8]));

/// All of them.
pub const TARGETS: [Target; 12] = [
    ("frame_file", frame_file),
    ("lineup_file", lineup_file),
    ("pasted_table", pasted_table),
    ("copied_page", copied_page),
    ("specification", specification),
    ("spreadsheet", spreadsheet),
    ("carried_png", carried_png),
    ("carried_svg", carried_svg),
    ("carried_html", carried_html),
    ("carried_pdf", carried_pdf),
    ("tyre_designation", tyre_designation),
    ("headset_code", headset_code),
];

/// Frame files: what is read comes back when it is written, and leads to no figure that is none.
pub fn frame_file(bytes: &[u8]) {
    if let Ok(frameset) = read_frameset(bytes) {
        comes_back(&frameset);
        answers_without_nan(&frameset);
    }
}

/// Line-up files: likewise, with every difference between their frames.
pub fn lineup_file(bytes: &[u8]) {
    let Ok(lineup) = read_lineup(bytes) else { return };
    let text = write_lineup(&lineup).expect("a line-up can be written");
    let again = read_lineup(text.as_bytes()).unwrap_or_else(|e| panic!("{e}\n{text}"));
    assert_eq!(again, lineup, "{text}");
    let findings = Findings::of(&lineup);
    for frame in FrameIndex::all(findings.frames.len()) {
        for figure in Figure::ALL {
            if let Some(difference) = findings.difference(frame, *figure) {
                assert!(difference.value.is_finite() && difference.u.is_finite(), "{figure:?} {difference:?}");
            }
        }
    }
}

/// Tables as pasted text, or as any file that is offered as a table.
pub fn pasted_table(bytes: &[u8]) {
    let Ok(mut reading) = import::read_bytes(bytes) else { return };
    is_sound(&reading);
    // Questions are answered, one after the other, with their last choice. Each answer reads the table anew.
    for _ in 0..5 {
        let Some((subject, last)) = reading.open_questions().next().map(|q| (q.subject.clone(), q.choices.len() - 1)) else {
            break;
        };
        reading.answer(&subject, last);
    }
    is_sound(&reading);
}

/// Copied web pages: the bytes as they are behind a first tag, and as the cells of a table.
pub fn copied_page(bytes: &[u8]) {
    pasted_table(&[b"<!DOCTYPE html>", bytes].concat());
    pasted_table(&[b"<table><tr><th>Size<td>S<td>M<tr><td>Stack<td>580<td>600<tr>", bytes].concat());
}

/// Specification lists: each line as it is, and as what every kind of line says.
pub fn specification(bytes: &[u8]) {
    pasted_table(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let text: String = text.chars().filter(|c| !c.is_control()).take(200).collect();
    for label in
        ["Frame weight", "Weight", "Price", "Axles", "Brakes", "Headset", "Tyre clearance", "Fork", "Frame", "Sizes", "Eyelets"]
    {
        pasted_table(format!("{label}: {text}\nSeatpost: 27.2\n").as_bytes());
        pasted_table(format!("Size\tS\tM\nStack\t580\t600\n{label}\t{text}\t{text}\n").as_bytes());
    }
}

/// Spreadsheets: an archive as it is; else the bytes are a sheet and, behind a zero byte, its shared texts, in a sound
/// archive, so that what is made up reaches the reader behind the checksums.
pub fn spreadsheet(bytes: &[u8]) {
    if bytes.starts_with(b"PK") {
        return pasted_table(bytes);
    }
    let cut = bytes.iter().position(|b| *b == 0).unwrap_or(bytes.len());
    let (sheet, texts) = bytes.split_at(cut);
    pasted_table(&workbook(sheet, texts.get(1..).unwrap_or_default()));
}

fn workbook(sheet: &[u8], texts: &[u8]) -> Vec<u8> {
    const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";
    const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    let types = format!(
        "<Types xmlns=\"{PACKAGE}/content-types\"><Default Extension=\"rels\" \
         ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default Extension=\"xml\" \
         ContentType=\"application/xml\"/></Types>"
    );
    let root = format!(
        "<Relationships xmlns=\"{PACKAGE}/relationships\"><Relationship Id=\"rId1\" Type=\"{OFFICE}/officeDocument\" \
         Target=\"xl/workbook.xml\"/></Relationships>"
    );
    let book = format!(
        "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{OFFICE}\"><sheets><sheet name=\"Geometry\" sheetId=\"1\" r:id=\"rId1\"/></sheets>\
         </workbook>"
    );
    let links = format!(
        "<Relationships xmlns=\"{PACKAGE}/relationships\"><Relationship Id=\"rId1\" Type=\"{OFFICE}/worksheet\" \
         Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"rId2\" Type=\"{OFFICE}/sharedStrings\" \
         Target=\"sharedStrings.xml\"/></Relationships>"
    );
    let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let stored = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    for (name, data) in [
        ("[Content_Types].xml", types.as_bytes()),
        ("_rels/.rels", root.as_bytes()),
        ("xl/workbook.xml", book.as_bytes()),
        ("xl/_rels/workbook.xml.rels", links.as_bytes()),
        ("xl/worksheets/sheet1.xml", sheet),
        ("xl/sharedStrings.xml", texts),
    ] {
        archive.start_file(name, stored).expect("begun");
        archive.write_all(data).expect("written");
    }
    archive.finish().expect("finished").into_inner()
}

/// Pictures: as they are, and as the text of a sound one, with a right checksum.
pub fn carried_png(bytes: &[u8]) {
    take_out(bytes);
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, 1, 1);
    encoder.set_color(png::ColorType::Grayscale);
    let mut writer = encoder.write_header().expect("begun");
    let chunk = [CARRIED_KEYWORD.as_bytes(), b"\0", bytes].concat();
    writer.write_chunk(png::chunk::iTXt, &chunk).expect("written");
    writer.write_image_data(&[0]).expect("written");
    writer.finish().expect("finished");
    take_out(&file);
}

/// Drawings: as they are, and as what a sound one carries.
pub fn carried_svg(bytes: &[u8]) {
    take_out(bytes);
    take_out(format!("<svg>{CARRIED_METADATA}{}</metadata></svg>", STANDARD.encode(bytes)).as_bytes());
    if let Ok(text) = std::str::from_utf8(bytes) {
        take_out(format!("<svg>{CARRIED_METADATA}{text}</metadata></svg>").as_bytes());
    }
}

/// Pages: likewise.
pub fn carried_html(bytes: &[u8]) {
    take_out(bytes);
    let link = format!("<a download=\"{CARRIED_NAME}\" href=\"data:application/octet-stream;base64,");
    take_out(format!("<!DOCTYPE html>{link}{}\">", STANDARD.encode(bytes)).as_bytes());
    if let Ok(text) = std::str::from_utf8(bytes) {
        take_out(format!("<!DOCTYPE html>{link}{text}\">").as_bytes());
    }
}

/// PDF files: as they are, and behind a PDF's first line.
pub fn carried_pdf(bytes: &[u8]) {
    take_out(bytes);
    take_out(&[b"%PDF-1.7\n", bytes].concat());
}

fn take_out(bytes: &[u8]) {
    if let Ok(file) = carried(bytes) {
        lineup_file(&file);
    }
}

/// Tyre designations and trade names of wheels.
pub fn tyre_designation(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for tyre in [text.parse::<TyreSize>().ok(), named_tyre(text).ok()].into_iter().flatten() {
        assert!((90.0..=600.0).contains(&tyre.radius_mm()), "{tyre}");
        assert_eq!(tyre.to_string().parse::<TyreSize>(), Ok(tyre));
    }
}

/// Headset codes.
pub fn headset_code(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for end in [End::Upper, End::Lower] {
        if let Ok(read) = HeadsetEnd::read(end, text) {
            assert_eq!(HeadsetEnd::read(end, &read.to_string()).as_ref(), Ok(&read), "{text:?} as {read}");
        }
    }
    // A whole headset is not written back: its two ends are.
    drop(Headset::read(text));
}

/// Nothing that a frameset leads to is NaN or infinite.
fn answers_without_nan(frameset: &Frameset) {
    for size in &adjust(frameset).sizes {
        for value in size.values().iter().filter(|v| !v.is_missing) {
            assert!(value.value.is_finite() && value.u.is_finite() && value.u >= 0.0, "{value:?}");
        }
    }
}

/// What is written reads back as the same.
fn comes_back(frameset: &Frameset) {
    let text = write_frameset(frameset).expect("a frameset can be written");
    let again = read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e}\n{text}"));
    assert_eq!(&again, frameset, "{text}");
}

fn is_sound(reading: &Reading) {
    assert!(!report(reading).is_empty());
    if let Ok(frameset) = reading.to_frameset("Marrowby", "Drift") {
        comes_back(&frameset);
    }
}
