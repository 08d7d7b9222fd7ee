//! One block of a sheet on a page of its own, for a page of a browser, where text is text and only drawings are pictures.

use super::blocks::{self, Drawings};
use super::format::Format;
use super::sheeted::{Sheeted, UNBOUNDED};
use super::weights::WeightBlock;
use super::{bag_spaces, head};
use crate::drawing::pen::Pen;
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Page, Scene};
use crate::drawing::{loaded_picture, outline_scene, plot_scene, price_scene, rear_scene, weight_scene};
use crate::lineup::{Axes, Block, Findings, Lineup, Shape, Sheet};
use crate::words::drawings as labels;
use crate::words::{LOADED_TITLE, REAR_TITLE, in_sentence};

/// Free around it, page units.
const AROUND: f64 = 12.0;

/// The drawing of a block, as wide as a column; `None` for what is written, and where there is nothing to draw.
#[must_use]
pub fn block_scene(findings: &Findings, lineup: &Lineup, sheet: &Sheet, block: Block) -> Option<Scene> {
    let format = Format::of(Shape::BlogColumn);
    let with = Sheeted { findings, lineup, sheet, format, least: format.least };
    let width = format.page().width;
    let mut pen = Pen::default();
    let mut rect = Rect::new(AROUND, AROUND, width - 2.0 * AROUND, UNBOUNDED);
    if block == Block::Outline {
        rect = head::legend(&mut pen, &with, rect, &mut Vec::new());
    }
    let settings = &lineup.settings;
    let plot = |axes: Axes| {
        let title = labels::plot_title(axes.up.label(), &in_sentence(axes.across));
        (title, plot_scene::description(findings, axes, settings.units))
    };
    let (title, description) = match block {
        Block::Outline => {
            (labels::OUTLINES_TITLE.to_owned(), outline_scene::description(findings, settings.outline, settings.units))
        }
        Block::Steering => plot(settings.steering),
        Block::StackAndReach => plot(settings.stack_and_reach),
        Block::Bags => (labels::BAG_SPACES_TITLE.to_owned(), bag_spaces::description(findings, lineup)),
        Block::RearFromAbove => (REAR_TITLE.to_owned(), rear_scene::description(lineup, findings)),
        Block::Loaded => (LOADED_TITLE.to_owned(), loaded_picture::description(findings, lineup)),
        Block::PriceAgainstWeight => (labels::PRICE_TITLE.to_owned(), price_scene::description(lineup, findings)),
        Block::Weights => (labels::WEIGHTS_TITLE.to_owned(), weight_scene::description(findings, settings.units)),
        // On a page of a browser it is a table of text.
        Block::Overview => return None,
        Block::PriceAndClimb | Block::Table | Block::Captions | Block::Needs | Block::Parts | Block::Standards | Block::Build => {
            return None;
        }
    };
    let height = if block == Block::Weights {
        let weights = WeightBlock::of(findings, settings.units)?;
        let height = weights.height(with.least, rect.width);
        weights.draw(&mut pen, &with, Rect::new(rect.x, rect.y, rect.width, height));
        height
    } else {
        let height = blocks::natural_height(&with, block, rect.width);
        Drawings::new(&with, vec![block]).draw(&mut pen, Rect::new(rect.x, rect.y, rect.width, height));
        height
    };
    Some(pen.finish(Page { width, height: rect.y + height + AROUND }, title, description))
}
