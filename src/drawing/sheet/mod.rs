//! A sheet: title, legend, drawings, a small table, the findings in sentences and footnotes, laid out by simple rules in
//! the shape asked for.
//!
//! The rules: title and legend stand at the top, footnotes at the foot. Where the sheet is wider than high, what is
//! written stands in a column at the right and the drawings share the rest; else drawings come first, what is written
//! below. Nothing is made smaller than can be read ([`Format`]): what does not fit is left out, and that is said.
//!
//! Invariants: nothing of meaning outside the safe area; no text overlaps another; long names wrap or end in an ellipsis.

mod bag_spaces;
mod blocks;
mod format;
mod head;
mod lists;
mod moving;
mod placed;
mod sheeted;
mod single;
mod statement;
mod table;
#[cfg(test)]
mod tests;
mod weights;
mod written;

pub use format::{Format, LEAST_ON_PAPER, LEAST_ON_SCREENS};
pub use moving::Moving;
pub use sheeted::BACKING;
pub use single::block_scene;

use self::blocks::Drawings;
use self::sheeted::{Sheeted, UNBOUNDED};
use self::statement::statement_scene;
use self::written::Written;
use super::pen::Pen;
use super::rect::Rect;
use super::scene::{Page, Scene};
use crate::lineup::{Block, Findings, Lineup, Sheet};
use crate::words::drawings as labels;
use crate::words::{LeftOut, captions, footnotes, small_table};

/// A sheet, laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetDrawing {
    /// What is painted. Its page is [`Format::page`], or as high as it needs to be.
    pub scene: Scene,
    /// What does not fit.
    pub left_out: Vec<LeftOut>,
}

/// What the first drawing keeps of paper, where more drawings stand among the words.
const KEPT_ON_PAPER: f64 = 0.32;

/// Lays a sheet out.
#[must_use]
pub fn sheet_scene(findings: &Findings, lineup: &Lineup, sheet: &Sheet) -> SheetDrawing {
    if let (Some(statement), true) = (&sheet.statement, sheet.shape.is_screen()) {
        let format = Format::of(sheet.shape);
        return statement_scene(&Sheeted { findings, lineup, sheet, format, least: format.least }, statement);
    }
    let whole = laid_out(findings, lineup, sheet);
    let lost: Vec<Block> =
        whole.left_out.iter().filter_map(|l| if let LeftOut::Block(block) = l { Some(*block) } else { None }).collect();
    if lost.is_empty() {
        return whole;
    }
    // Without what does not fit, so that no footnote tells of what is not there.
    let contents = sheet.contents.iter().copied().filter(|b| !lost.contains(b)).collect();
    let rest = laid_out(findings, lineup, &Sheet { contents, ..sheet.clone() });
    let left_out = lost.into_iter().map(LeftOut::Block).chain(rest.left_out.iter().cloned()).collect();
    SheetDrawing { left_out, ..rest }
}

fn laid_out(findings: &Findings, lineup: &Lineup, sheet: &Sheet) -> SheetDrawing {
    let format = Format::of(sheet.shape);
    let with = Sheeted { findings, lineup, sheet, format, least: format.least };
    let mut pen = Pen::default();
    let mut left_out = Vec::new();
    let safe = format.safe();
    let rest = head::head(&mut pen, &with, safe);
    let rest = head::legend(&mut pen, &with, rest, &mut left_out);
    let notes = footnotes(lineup, findings, sheet);
    let height = match format.page().height {
        height if height < UNBOUNDED => {
            let rest = head::foot(&mut pen, &with, rest, &notes, &mut left_out);
            body(&mut pen, &with, rest, &mut left_out);
            height
        }
        _ => {
            let bottom = body(&mut pen, &with, rest, &mut left_out);
            head::foot_below(&mut pen, &with, Rect::new(rest.x, bottom, rest.width, UNBOUNDED), &notes) + format.margin.1
        }
    };
    let page = Page { width: format.page().width, height };
    let description = description(&with, &notes.iter().map(|n| n.text.clone()).collect::<Vec<_>>());
    SheetDrawing { scene: pen.finish(page, sheet.headline(lineup), description), left_out }
}

/// The overlaid outlines with their legend and nothing else, for laying over film.
#[must_use]
pub fn overlay_scene(findings: &Findings, lineup: &Lineup, sheet: &Sheet) -> Scene {
    let format = Format::of(sheet.shape);
    let with = Sheeted { findings, lineup, sheet, format, least: format.least };
    let mut pen = Pen::default();
    let safe = format.safe();
    let rest = head::legend(&mut pen, &with, safe, &mut Vec::new());
    Drawings::new(&with, vec![Block::Outline]).draw(&mut pen, rest);
    let description = super::outline_scene::description(findings, lineup.settings.outline, lineup.settings.units);
    pen.finish(format.page(), sheet.headline(lineup), description)
}

/// Drawings and what is written; gives back where they end.
fn body(pen: &mut Pen, with: &Sheeted, rect: Rect, left_out: &mut Vec<LeftOut>) -> f64 {
    let is_wanted = |b: &Block| with.sheet.has(*b);
    let mut drawings: Vec<Block> =
        with.sheet.contents.iter().copied().filter(|b| b.is_drawing() && *b != Block::Weights).collect();
    drawings.dedup();
    let mut written: Vec<Written> = Vec::new();
    for block in with.sheet.contents.iter().filter(|b| is_wanted(b)) {
        written.extend(Written::of(with, *block));
    }
    if with.format.is_wide() {
        return across(pen, with, rect, drawings, &written, left_out);
    }
    down(pen, with, rect, drawings, written, left_out)
}

/// What is written in a column at the right, the drawings beside it.
fn across(
    pen: &mut Pen,
    with: &Sheeted,
    rect: Rect,
    drawings: Vec<Block>,
    written: &[Written],
    left_out: &mut Vec<LeftOut>,
) -> f64 {
    let gap = with.least * 1.6;
    let mut area = rect;
    if !written.is_empty() {
        let wanted = written.iter().map(|w| w.wanted_width(with)).fold(0.0, f64::max);
        let share = if drawings.is_empty() { (1.0, 1.0) } else { (0.36, 0.56) };
        let width = wanted.clamp(rect.width * share.0, rect.width * share.1);
        let column = Rect::new(rect.right() - width, rect.y, width, rect.height);
        written::column(pen, with, column, written, left_out);
        area = Rect::new(rect.x, rect.y, rect.width - width - gap, rect.height);
    }
    blocks::draw_fitting(pen, with, area, drawings, left_out);
    rect.bottom()
}

/// The drawings above one another, then what is written. Where the sheet is wide for its text, as paper is, the first
/// drawing takes its whole width and all else stands in two columns below.
fn down(
    pen: &mut Pen,
    with: &Sheeted,
    rect: Rect,
    mut drawings: Vec<Block>,
    mut written: Vec<Written>,
    left_out: &mut Vec<LeftOut>,
) -> f64 {
    let gap = with.least * 1.3;
    let is_column = rect.height > UNBOUNDED / 2.0;
    let has_two_columns = rect.width > with.least * 50.0 && drawings.len() + written.len() > 2;
    if has_two_columns && drawings.len() > 1 {
        let others = drawings.split_off(1).into_iter().map(Written::Drawing).collect::<Vec<_>>();
        written.splice(0..0, others);
    }
    let half = (rect.width - gap * 1.6) / 2.0;
    // A table that is wider than a column goes over both.
    let is_broad = |w: &Written| has_two_columns && matches!(w, Written::Table(..)) && w.wanted_width(with) > half;
    let (broad, mut written): (Vec<Written>, Vec<Written>) = written.into_iter().partition(is_broad);
    if has_two_columns && !is_column {
        // A drawing that finds no room in its column is gone before the columns are made even.
        let free = rect.height * (1.0 - KEPT_ON_PAPER) - written::height(with, &broad, rect.width);
        written.retain(|w| {
            let fits = w.fits(with, half, free);
            if !fits {
                left_out.push(w.left_out());
            }
            fits
        });
    }
    let (left, right) = if has_two_columns { written::halves(with, written, half) } else { (written, Vec::new()) };
    let natural = if has_two_columns {
        written::height(with, &left, half).max(written::height(with, &right, half))
    } else {
        written::height(with, &left, rect.width)
    };
    let natural = natural + written::height(with, &broad, rect.width);
    let mut y = rect.y;
    while !drawings.is_empty() {
        let wanted: f64 = drawings.iter().map(|b| blocks::natural_height(with, *b, rect.width) + gap).sum();
        // Drawings keep half of the sheet where words would leave them less, two thirds of a square; on paper less.
        let share = if with.format.is_square() { 0.66 } else { 0.52 };
        let kept = wanted.min(rect.height * if has_two_columns { KEPT_ON_PAPER } else { share });
        let room = if is_column { wanted } else { (rect.height - natural).clamp(kept, (wanted * 1.1).max(kept)) };
        let least: f64 = drawings.iter().map(|b| blocks::least_size(with, *b, rect.width).height + gap).sum();
        if room + 0.5 < least && !blocks::is_shrinkable(&drawings) {
            if let Some(block) = drawings.pop() {
                left_out.push(LeftOut::Block(block));
            }
            continue;
        }
        for block in &drawings {
            let height = (blocks::natural_height(with, *block, rect.width) + gap) / wanted * room - gap;
            Drawings::new(with, vec![*block]).draw(pen, Rect::new(rect.x, y, rect.width, height));
            y += height + gap;
        }
        break;
    }
    let rest = Rect::new(rect.x, y, rect.width, if is_column { UNBOUNDED } else { rect.bottom() - y });
    if has_two_columns {
        let below = written::column(pen, with, rest, &broad, left_out);
        let rest = Rect::new(rest.x, below, rest.width, rest.bottom() - below);
        written::column(pen, with, Rect::new(rest.x, rest.y, half, rest.height), &left, left_out);
        written::column(pen, with, Rect::new(rest.right() - half, rest.y, half, rest.height), &right, left_out);
        return rest.bottom();
    }
    written::column(pen, with, rest, &left, left_out)
}

/// The sheet in words, for those who do not see it.
fn description(with: &Sheeted, notes: &[String]) -> String {
    let (findings, lineup, sheet) = (with.findings, with.lineup, with.sheet);
    let mut parts: Vec<String> = Vec::new();
    let frames: Vec<String> = findings.frames.iter().filter(|f| f.shown).map(crate::words::frame_and_size).collect();
    parts.push(if frames.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { format!("{}.", frames.join("; ")) });
    if sheet.has(Block::Captions) {
        parts.extend(captions(lineup, findings, sheet).into_iter().map(|c| c.text).filter(|t| !t.is_empty()));
    }
    if sheet.has(Block::Table) {
        let table = small_table(lineup, findings, sheet);
        for row in &table.rows {
            let cells = table.columns.iter().zip(&row.cells).map(|((head, _), cell)| format!("{head} {}", cell.text));
            let unit = if row.unit.is_empty() { String::new() } else { format!(", {}", row.unit) };
            parts.push(format!("{}{unit}: {}.", row.label, cells.collect::<Vec<_>>().join("; ")));
        }
    }
    parts.extend(notes.iter().cloned());
    parts.join(" ")
}
