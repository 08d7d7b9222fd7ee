//! A page of the guide on screen: the list of pages on the left, the page on the right, links between pages.

use egui::text::LayoutJob;
use egui::{FontId, Key, Label, Layout, Modifiers, RichText, ScrollArea, TextFormat, Ui, vec2};

use super::super::labels::help as labels;
use super::markdown::{Block, Run, Text, blocks};
use super::{PAGES, Page, page_of_link};
use crate::window::named::named;
use crate::window::theme::{BODY, HEADING, Tones, regular, semibold};

/// Width of the list of pages, points.
const LIST: f32 = 200.0;
/// Space between two columns of a table, points.
const GAP: f32 = 18.0;
/// How far a list of a list stands in, points.
const INDENT: f32 = 18.0;
/// The most that a line of text takes, points: longer ones are hard to follow. Code may take more.
const WIDEST: f32 = 860.0;

/// The list of pages and the page at the place `front`, which a click changes, within `height`.
pub(crate) fn guide_ui(ui: &mut Ui, front: &mut usize, height: f32) {
    let tones = Tones::of(ui);
    let mut next = None;
    ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(vec2(LIST, height), Layout::top_down_justified(egui::Align::LEFT), |ui| {
            ui.set_min_height(height);
            for (place, page) in PAGES.iter().enumerate() {
                let response = ui.selectable_label(place == *front, page.title);
                named(&response, labels::page(&page.title));
                if response.clicked() {
                    next = Some(place);
                }
            }
        });
        ui.add_space(GAP);
        ui.vertical(|ui| page_ui(ui, &PAGES[(*front).min(PAGES.len() - 1)], height, tones, &mut next));
    });
    if let Some(next) = next {
        *front = next;
        // The page that was left has been laid out already.
        ui.ctx().request_repaint();
    }
}

fn page_ui(ui: &mut Ui, page: &Page, height: f32, tones: Tones, next: &mut Option<usize>) {
    let far = scrolled_by_keys(ui, height);
    let area = ScrollArea::vertical().id_salt(page.file).auto_shrink([false, false]);
    area.max_height(height).min_scrolled_height(height).show(ui, |ui| {
        ui.style_mut().interaction.selectable_labels = true;
        // Clear of the scroll bar.
        ui.set_max_width(ui.available_width() - 12.0);
        if far != 0.0 {
            ui.scroll_with_delta(vec2(0.0, far));
        }
        for (place, block) in blocks(page.text).iter().enumerate() {
            ui.push_id(place, |ui| {
                if !matches!(block, Block::Code(_)) {
                    ui.set_max_width(WIDEST.min(ui.available_width()));
                }
                block_ui(ui, block, tones, next);
            });
        }
        ui.add_space(GAP);
    });
}

/// How far the keys scroll the page, points; down is negative.
fn scrolled_by_keys(ui: &Ui, height: f32) -> f32 {
    const ALL: f32 = 1e6;
    let page = height - 3.0 * BODY;
    let steps = [(Key::PageDown, -page), (Key::PageUp, page), (Key::Home, ALL), (Key::End, -ALL)];
    ui.input_mut(|input| steps.iter().map(|(key, far)| input.count_and_consume_key(Modifiers::NONE, *key) as f32 * far).sum())
}

fn block_ui(ui: &mut Ui, block: &Block, tones: Tones, next: &mut Option<usize>) {
    match block {
        Block::Heading(level, text) => {
            let size = match level {
                1 => HEADING + 6.0,
                2 => HEADING + 1.0,
                _ => BODY + 0.5,
            };
            if *level > 1 {
                ui.add_space(10.0);
            }
            ui.label(RichText::new(text.plain()).font(semibold(size)).color(tones.ink()));
            ui.add_space(2.0);
        }
        Block::Paragraph(text) => {
            text_ui(ui, text, tones, next);
            ui.add_space(4.0);
        }
        Block::Item(depth, mark, text) => {
            ui.horizontal_top(|ui| {
                ui.add_space(*depth as f32 * INDENT);
                let left = ui.cursor().left();
                ui.label(mark.as_str());
                ui.add_space((INDENT + left - ui.cursor().left()).max(0.0));
                ui.vertical(|ui| text_ui(ui, text, tones, next));
            });
        }
        Block::Code(code) => code_ui(ui, code, tones),
        Block::Table(head, rows) => table_ui(ui, head, rows, tones, next),
    }
}

fn code_ui(ui: &mut Ui, code: &str, tones: Tones) {
    egui::Frame::NONE.fill(tones.panel()).inner_margin(8).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.add(Label::new(RichText::new(code).font(FontId::monospace(BODY - 2.0)).color(tones.ink())).wrap());
    });
    ui.add_space(6.0);
}

fn code_font() -> FontId {
    FontId::monospace(BODY - 1.0)
}

fn format_of(run: &Run, is_head: bool, tones: Tones) -> TextFormat {
    let font = match (run.is_code, run.is_strong || is_head) {
        (true, _) => code_font(),
        (false, true) => semibold(BODY),
        (false, false) => regular(BODY),
    };
    TextFormat {
        font_id: font,
        color: tones.ink(),
        italics: run.is_slanted,
        line_height: Some(BODY * 1.5),
        ..TextFormat::default()
    }
}

fn job(runs: &[Run], is_head: bool, tones: Tones) -> LayoutJob {
    let mut job = LayoutJob::default();
    for run in runs {
        job.append(&run.text, 0.0, format_of(run, is_head, tones));
    }
    job
}

/// A text that wraps. Links to pages of the guide are controls of their own; other links are text.
fn text_ui(ui: &mut Ui, text: &Text, tones: Tones, next: &mut Option<usize>) {
    let leads = |run: &Run| run.link.as_deref().and_then(page_of_link);
    if !text.0.iter().any(|run| leads(run).is_some()) {
        ui.add(Label::new(job(&text.0, false, tones)).wrap());
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for run in &text.0 {
            match leads(run) {
                Some(place) if ui.link(RichText::new(&run.text).font(regular(BODY))).clicked() => *next = Some(place),
                Some(_) => {}
                None => drop(ui.add(Label::new(job(std::slice::from_ref(run), false, tones)).wrap())),
            }
        }
    });
}

fn table_ui(ui: &mut Ui, head: &[Text], rows: &[Vec<Text>], tones: Tones, next: &mut Option<usize>) {
    let natural = |column: usize| {
        let width = |row: &[Text], is_head: bool| {
            row.get(column).map_or(0.0, |text| ui.painter().layout_job(job(&text.0, is_head, tones)).size().x)
        };
        rows.iter().map(|row| width(row, false)).fold(width(head, true), f32::max).ceil() + 1.0
    };
    let wanted: Vec<f32> = (0..head.len()).map(natural).collect();
    let widths = shared_out(ui.available_width() - GAP * head.len().saturating_sub(1) as f32, &wanted);
    let row_ui = |ui: &mut Ui, row: &[Text], is_head: bool, next: &mut Option<usize>| {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            for (text, width) in row.iter().zip(&widths) {
                ui.allocate_ui_with_layout(vec2(*width, 0.0), Layout::top_down(egui::Align::LEFT), |ui| {
                    ui.set_width(*width);
                    if is_head {
                        ui.add(Label::new(job(&text.0, true, tones)).wrap());
                    } else {
                        text_ui(ui, text, tones, next);
                    }
                });
            }
        });
        let line = ui.cursor().min;
        ui.painter().hline(line.x..=line.x + ui.available_width(), line.y - 3.0, (1.0, tones.hairline()));
    };
    if !head.iter().all(|text| text.plain().is_empty()) {
        row_ui(ui, head, true, next);
    }
    for (place, row) in rows.iter().enumerate() {
        ui.push_id(place, |ui| row_ui(ui, row, false, next));
    }
    ui.add_space(8.0);
}

/// Widths of columns within `room`: each as wide as it wants where that fits; else those that want more than an equal share of
/// what the narrower ones leave get that share.
fn shared_out(room: f32, wanted: &[f32]) -> Vec<f32> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]));
    let mut widths = vec![0.0; wanted.len()];
    let mut left = room.max(0.0);
    for (done, column) in order.iter().enumerate() {
        widths[*column] = wanted[*column].min(left / (wanted.len() - done) as f32);
        left -= widths[*column];
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_get_what_they_want_or_an_equal_share_of_the_rest() {
        assert_eq!(shared_out(300.0, &[50.0, 100.0]), [50.0, 100.0]);
        assert_eq!(shared_out(300.0, &[500.0, 100.0, 400.0]), [100.0, 100.0, 100.0]);
        assert_eq!(shared_out(300.0, &[500.0, 40.0]), [260.0, 40.0]);
        assert_eq!(shared_out(-5.0, &[10.0]), [0.0]);
        assert!(shared_out(10.0, &[]).is_empty());
    }
}
