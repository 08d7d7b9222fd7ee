//! The drawings of a sheet in the room that they are given: one alone, or several in the grid that shows the smallest of
//! them largest.

use super::bag_spaces::{self, bag_spaces_scene};
use super::placed::{Place, put};
use super::sheeted::Sheeted;
use crate::drawing::loaded_picture::{loaded_picture_heights_on_sheet, loaded_picture_on_sheet};
use crate::drawing::outline_scene::{fit_outline_closely, outline_on_sheet};
use crate::drawing::overview_scene::{least_overview_height, overview_height, overview_scene};
use crate::drawing::pen::Pen;
use crate::drawing::plot_scene::plot_scene;
use crate::drawing::plot_view::fit_plot;
use crate::drawing::price_scene::price_scene;
use crate::drawing::rear_scene::{rear_height, rear_scene};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Page, Pt, Scene};
use crate::lineup::{Axes, Block};
use crate::words::LeftOut;

/// Least size of a drawing before it is enlarged, page units.
const LEAST_OUTLINE: Page = Page { width: 260.0, height: 150.0 };
const LEAST_PLOT: Page = Page { width: 280.0, height: 190.0 };
/// Least width of the rears before they are enlarged, page units.
const LEAST_REAR_WIDTH: f64 = 380.0;
const LEAST_PRICE: Page = Page { width: 320.0, height: 230.0 };
/// The least width of the loaded bicycles; their height is that of the bars.
const LEAST_LOADED: f64 = 380.0;
/// The least width of the overview; its height is that of its first rows.
const LEAST_OVERVIEW: f64 = 320.0;

/// Drawings that share a rectangle.
pub(super) struct Drawings<'a> {
    with: &'a Sheeted<'a>,
    blocks: Vec<Block>,
}

/// The least size of a drawing on the sheet in a width.
pub(super) fn least_size(with: &Sheeted, block: Block, width: f64) -> Page {
    let (by, _) = with.format.enlarged(block);
    let least = match block {
        Block::Outline => LEAST_OUTLINE,
        Block::PriceAgainstWeight => LEAST_PRICE,
        Block::Bags => bag_spaces::least_size(with, width / by),
        Block::Overview => Page { width: LEAST_OVERVIEW, height: least_overview_height(with.lineup, with.findings, width / by) },
        Block::RearFromAbove => least_rear(with),
        Block::Loaded => {
            Page { width: LEAST_LOADED, height: loaded_picture_heights_on_sheet(with.lineup, with.findings, width / by)[1] }
        }
        _ => LEAST_PLOT,
    };
    Page { width: least.width * by, height: least.height * by }
}

/// The rears of all frames with their words on the narrowest page on which they are readable, page units.
fn least_rear(with: &Sheeted) -> Page {
    let height = rear_height(with.lineup, with.findings, LEAST_REAR_WIDTH);
    Page { width: LEAST_REAR_WIDTH, height: 0.6 * height }
}

/// Whether a drawing is shown in whatever room there is: one alone, unless it is many small ones or a table.
pub(super) fn is_shrinkable(blocks: &[Block]) -> bool {
    matches!(blocks, [block] if !matches!(block, Block::Bags | Block::Overview | Block::Loaded))
}

/// Height that a drawing likes at a width.
pub(super) fn natural_height(with: &Sheeted, block: Block, width: f64) -> f64 {
    let (by, _) = with.format.enlarged(block);
    let height = match block {
        Block::Outline => width / 1.62,
        Block::Bags => bag_spaces::natural_height(with, width / by) * by,
        Block::Overview => overview_height(with.lineup, with.findings, width / by) * by,
        Block::RearFromAbove => rear_height(with.lineup, with.findings, width / by) * by,
        Block::Loaded => loaded_picture_heights_on_sheet(with.lineup, with.findings, width / by)[0] * by,
        _ => width / 1.55,
    };
    height.max(least_size(with, block, width).height)
}

/// Draws as many as have their least size; what has not is left out and named.
pub(super) fn draw_fitting(pen: &mut Pen, with: &Sheeted, rect: Rect, mut blocks: Vec<Block>, left_out: &mut Vec<LeftOut>) {
    while !blocks.is_empty() {
        let drawings = Drawings::new(with, blocks.clone());
        let cells = drawings.cells(rect);
        let fits = |(block, cell): (&Block, &Rect)| {
            let least = least_size(with, *block, cell.width);
            cell.width + 0.5 >= least.width && cell.height + 0.5 >= least.height
        };
        if blocks.iter().zip(&cells).all(fits) || is_shrinkable(&blocks) {
            drawings.draw(pen, rect);
            return;
        }
        if let Some(block) = blocks.pop() {
            left_out.push(LeftOut::Block(block));
        }
    }
}

impl<'a> Drawings<'a> {
    pub(super) fn new(with: &'a Sheeted<'a>, blocks: Vec<Block>) -> Self {
        Self { with, blocks }
    }

    /// One cell a drawing.
    fn cells(&self, rect: Rect) -> Vec<Rect> {
        let count = self.blocks.len().max(1);
        let gap = self.with.least * 1.2;
        let size = |columns: usize| {
            let rows = count.div_ceil(columns);
            let width = (rect.width - gap * (columns - 1) as f64) / columns as f64;
            let height = (rect.height - gap * (rows - 1) as f64) / rows as f64;
            (width, height)
        };
        let worth = |columns: &usize| {
            let (width, height) = size(*columns);
            (width / 1.6).min(height)
        };
        let columns = (1..=count).max_by(|a, b| worth(a).total_cmp(&worth(b))).unwrap_or(1);
        let (width, height) = size(columns);
        (0..self.blocks.len())
            .map(|i| {
                let (column, row) = ((i % columns) as f64, (i / columns) as f64);
                Rect::new(rect.x + column * (width + gap), rect.y + row * (height + gap), width, height)
            })
            .collect()
    }

    /// Draws all.
    pub(super) fn draw(&self, pen: &mut Pen, rect: Rect) {
        for (block, cell) in self.blocks.iter().zip(self.cells(rect)) {
            self.draw_one(pen, *block, cell);
        }
    }

    fn draw_one(&self, pen: &mut Pen, block: Block, cell: Rect) {
        let with = self.with;
        let (by, lines_by) = with.format.enlarged(block);
        let is_clear = with.sheet.background.is_clear();
        let has_halo = is_clear && block == Block::Outline;
        // On film lines are stronger.
        let lines_by = if has_halo { lines_by * 1.35 } else { lines_by };
        if is_clear && !has_halo {
            with.backing(pen, cell);
        }
        let page = Page { width: cell.width / by, height: cell.height / by };
        let scene = self.scene(block, page);
        put(pen, scene, Place { at: Pt { x: cell.x, y: cell.y }, by, lines_by, has_halo });
    }

    fn scene(&self, block: Block, page: Page) -> Scene {
        let (findings, settings) = (self.with.findings, &self.with.lineup.settings);
        let plot = |axes: Axes| plot_scene(findings, axes, settings.units, page, fit_plot(findings, axes));
        match block {
            Block::Steering => plot(settings.steering),
            Block::StackAndReach => plot(settings.stack_and_reach),
            Block::Bags => bag_spaces_scene(findings, self.with.lineup, page),
            Block::Overview => overview_scene(self.with.lineup, findings, page),
            Block::RearFromAbove => rear_scene(self.with.lineup, findings, page),
            Block::Loaded => loaded_picture_on_sheet(self.with.lineup, findings, page),
            Block::PriceAgainstWeight => price_scene(self.with.lineup, findings, page),
            _ => {
                let mut outline = settings.outline;
                outline.grid &= !self.with.sheet.background.is_clear();
                // What grey figures and notes would say stands in words on the sheet.
                outline_on_sheet(findings, outline, settings.units, page, fit_outline_closely(findings, outline, page))
            }
        }
    }
}
