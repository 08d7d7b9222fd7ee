//! What stands around a sheet: title, the line below it, the legend of the frames, the footnotes.

use super::placed::balloon;
use super::sheeted::{Sheeted, UNBOUNDED};
use crate::drawing::measure::{CAP_HEIGHT, LINE_HEIGHT, shorten, text_width, wrap};
use crate::drawing::order::frame_pattern_of;
use crate::drawing::pen::{BALLOON, Face, Pen, solid};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Anchor, Pt, Role, Stroke, Weight};
use crate::frameset::FrameIndex;
use crate::lineup::{Block, FrameFindings};
use crate::words::drawings as labels;
use crate::words::{Footnote, LeftOut, aligned_text, common_texts};

/// Title, subtitle, author and date; gives back what is left.
pub(super) fn head(pen: &mut Pen, with: &Sheeted, rect: Rect) -> Rect {
    let least = with.least;
    let title = Face::regular(least * 1.8, Role::Ink);
    let line = Face::regular(least * 1.08, Role::SecondInk);
    let is_tall = rect.height > rect.width * 1.2;
    let titles = wrap(with.sheet.headline(with.lineup), title.size, title.weight, rect.width, if is_tall { 3 } else { 2 });
    let signed: Vec<&str> = [with.sheet.author.trim(), with.sheet.date.trim()].into_iter().filter(|s| !s.is_empty()).collect();
    let signed = shorten(&signed.join(", "), line.size, line.weight, rect.width * 0.5);
    let subtitle = subtitle(with);
    let signed_width = if signed.is_empty() { 0.0 } else { text_width(&signed, line.size, line.weight) + least };
    let beside = rect.width - signed_width;
    let fits_beside = text_width(&subtitle, line.size, line.weight) <= beside;
    let subtitles =
        wrap(&subtitle, line.size, line.weight, if fits_beside { beside } else { rect.width }, if is_tall { 3 } else { 2 });
    let own_line = !signed.is_empty() && !fits_beside;
    let pitch = line.size * LINE_HEIGHT;
    let lines = subtitles.len() + usize::from(own_line || (subtitles.is_empty() && !signed.is_empty()));
    let height = titles.len() as f64 * title.size * 1.22 + lines as f64 * pitch + least * 0.3;
    with.backing(pen, Rect::new(rect.x, rect.y, rect.width, height));
    let mut y = rect.y;
    for text in titles {
        pen.text(Pt { x: rect.x, y: y + title.size * 0.86 }, text, title, Anchor::Start);
        y += title.size * 1.22;
    }
    let signed_y = if own_line { y + pitch * subtitles.len() as f64 } else { y };
    for text in subtitles {
        pen.text(Pt { x: rect.x, y: y + line.size }, text, line, Anchor::Start);
        y += pitch;
    }
    let (x, anchor) = if own_line { (rect.x, Anchor::Start) } else { (rect.right(), Anchor::End) };
    pen.text(Pt { x, y: signed_y + line.size }, signed, line, anchor);
    let bottom = rect.y + height;
    Rect::new(rect.x, bottom, rect.width, rect.bottom() - bottom)
}

/// The user's subtitle, or what all frames have in common.
fn subtitle(with: &Sheeted) -> String {
    let own = with.sheet.subtitle.trim();
    if !own.is_empty() {
        return own.to_owned();
    }
    let mut words = common_texts(with.findings, true);
    if with.sheet.has(Block::Outline) && with.findings.frames.iter().filter(|f| f.shown).count() > 1 {
        words.push(aligned_text(with.lineup));
    }
    crate::units::capitalised(&words.join(", "))
}

/// The frames in rows: letter, line, name and size; gives back what is left below a rule.
pub(super) fn legend(pen: &mut Pen, with: &Sheeted, rect: Rect, left_out: &mut Vec<LeftOut>) -> Rect {
    let least = with.least;
    let by = least / 13.0;
    let radius = BALLOON * by;
    let name = Face::semibold(least, Role::Ink);
    let size_face = Face::regular(least, Role::SecondInk);
    let sample = least * 2.2;
    let gap = least * 1.2;
    let lead = 2.0 * radius + sample + least;
    let shown: Vec<(FrameIndex, &FrameFindings)> = FrameIndex::numbered(&with.findings.frames).filter(|(_, f)| f.shown).collect();
    let is_tall = !with.format.is_wide();
    // Few frames share the row; more than three stand in columns of a third each, on other shapes more than fit below one
    // another in halves.
    let most_rows = if with.format.is_square() {
        4
    } else if is_tall {
        8
    } else {
        3
    };
    let most = if is_tall && shown.len() <= most_rows {
        rect.width
    } else if is_tall {
        (rect.width - gap) / 2.0
    } else {
        ((rect.width - gap * 2.0) / 3.0).max(rect.width / shown.len().max(1) as f64 - gap)
    };
    let entries: Vec<(FrameIndex, &FrameFindings, String, String, f64)> = shown
        .iter()
        .map(|(place, frame)| {
            let reference =
                if with.findings.reference == Some(*place) && shown.len() > 1 { labels::REFERENCE_BEHIND } else { "" };
            let size = shorten(&format!("{}{reference}", frame.size_label()), size_face.size, size_face.weight, most * 0.4);
            let size_width = text_width(&size, size_face.size, size_face.weight);
            let full = if frame.name.is_empty() { labels::NO_NAME } else { &frame.name };
            let text = shorten(full, name.size, name.weight, most - lead - size_width - least * 0.5);
            let width = lead + text_width(&text, name.size, name.weight) + least * 0.5 + size_width;
            (*place, *frame, text, size, width)
        })
        .collect();
    let mut rows: Vec<Vec<usize>> = Vec::new();
    let mut used = 0.0;
    for (i, entry) in entries.iter().enumerate() {
        match rows.last_mut() {
            Some(row) if used + gap + entry.4 <= rect.width => {
                row.push(i);
                used += gap + entry.4;
            }
            _ => {
                rows.push(vec![i]);
                used = entry.4;
            }
        }
    }
    if rows.len() > most_rows {
        let lost: usize = rows[most_rows..].iter().map(Vec::len).sum();
        left_out.push(LeftOut::LegendFrames(lost));
        rows.truncate(most_rows);
    }
    let pitch = 2.0 * radius + least * 0.35;
    let height = pitch * rows.len() as f64;
    let top = rect.y + least * 0.25;
    let widest = rows.iter().map(|r| r.iter().map(|i| entries[*i].4 + gap).sum::<f64>() - gap).fold(0.0, f64::max);
    with.backing(pen, Rect::new(rect.x, top, widest.min(rect.width), height));
    for (row, members) in rows.iter().enumerate() {
        let middle = top + pitch * row as f64 + radius;
        let mut x = rect.x;
        for i in members {
            let (place, frame, text, size, width) = &entries[*i];
            let base = middle + least * CAP_HEIGHT / 2.0;
            balloon(pen, Pt { x: x + radius, y: middle }, &frame.letter, *place, by);
            let from = x + 2.0 * radius + least * 0.4;
            let pattern = frame_pattern_of(with.findings, *place);
            let stroke = Stroke { role: Role::FrameLine(*place), width: least / 7.0, pattern, opacity: 1.0 };
            pen.line(vec![Pt { x: from, y: middle }, Pt { x: from + sample, y: middle }], stroke);
            let words = x + lead;
            pen.text(Pt { x: words, y: base }, text.clone(), name, Anchor::Start);
            let after = words + text_width(text, name.size, name.weight) + least * 0.5;
            pen.text(Pt { x: after, y: base }, size.clone(), size_face, Anchor::Start);
            x += width + gap;
        }
    }
    let rule = top + height + least * 0.35;
    if !with.sheet.background.is_clear() {
        pen.line(vec![Pt { x: rect.x, y: rule }, Pt { x: rect.right(), y: rule }], solid(Role::Hairline, 1.0));
    }
    let bottom = rule + least * 0.7;
    Rect::new(rect.x, bottom, rect.width, rect.bottom() - bottom)
}

/// The footnotes at the foot, as many as there is room for, whole ones only; gives back what is left above.
pub(super) fn foot(pen: &mut Pen, with: &Sheeted, rect: Rect, notes: &[Footnote], left_out: &mut Vec<LeftOut>) -> Rect {
    let face = Face::regular(with.least, Role::SecondInk);
    let most = with.format.foot_lines();
    let all: Vec<&str> = notes.iter().map(|n| n.text.as_str()).collect();
    let lines = |text: &str| wrap(text, face.size, face.weight, rect.width, 1000);
    let mut taken = Vec::new();
    let mut left = 0;
    for text in &all {
        let more = [&taken[..], &[*text]].concat();
        if lines(&more.join(" ")).len() <= most { taken = more } else { left += 1 }
    }
    if left > 0 {
        left_out.push(LeftOut::Footnotes { lost: left, of: all.len() });
    }
    let lines = lines(&taken.join(" "));
    let pitch = face.size * 1.28;
    let height = pitch * lines.len() as f64;
    let top = rect.bottom() - height;
    with.backing(pen, Rect::new(rect.x, top, rect.width, height));
    write(pen, &lines, Pt { x: rect.x, y: top }, face, pitch);
    Rect::new(rect.x, rect.y, rect.width, top - rect.y - with.least * 0.8)
}

/// All footnotes below what is there, each a paragraph; gives back where they end.
pub(super) fn foot_below(pen: &mut Pen, with: &Sheeted, rect: Rect, notes: &[Footnote]) -> f64 {
    let face = Face::regular(with.least, Role::SecondInk);
    let pitch = face.size * 1.3;
    let mut y = rect.y + with.least * 0.6;
    pen.line(vec![Pt { x: rect.x, y }, Pt { x: rect.right(), y }], solid(Role::Hairline, 1.0));
    y += with.least * 0.5;
    for note in notes {
        let lines = wrap(&note.text, face.size, face.weight, rect.width, 1000);
        write(pen, &lines, Pt { x: rect.x, y }, face, pitch);
        y += pitch * lines.len() as f64 + with.least * 0.35;
    }
    y.min(UNBOUNDED)
}

/// Lines of one face below one another, the first with its top at `at`.
pub(super) fn write(pen: &mut Pen, lines: &[String], at: Pt, face: Face, pitch: f64) {
    for (i, line) in lines.iter().enumerate() {
        let y = at.y + pitch * i as f64 + face.size * 0.93;
        pen.text(Pt { x: at.x, y }, line.clone(), face, Anchor::Start);
    }
}

/// Height of a heading above a block, in text sizes.
pub(super) const HEADING: f64 = 1.45;

/// A small heading above a written block.
pub(super) fn heading(pen: &mut Pen, with: &Sheeted, at: Pt, text: &str) -> f64 {
    let face = Face { size: with.least, role: Role::SecondInk, weight: Weight::Semibold };
    pen.text(Pt { x: at.x, y: at.y + face.size * 0.93 }, text, face, Anchor::Start);
    with.least * HEADING
}
