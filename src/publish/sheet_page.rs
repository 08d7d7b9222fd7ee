//! A sheet as one page for browsers: the drawings of its blocks and all that is written.
//!
//! Invariant: the drawings are those of the sheet's pictures.

use super::html::{WebPage, html};
use super::sheet_background;
use super::svg::{SvgLook, svg_with};
use crate::drawing::{Background, block_scene, overview_side_views};
use crate::frameset::WriteError;
use crate::lineup::{Block, Findings, Lineup, Sheet, write_lineup};

/// Web page of a sheet.
///
/// # Errors
/// When the line-up cannot be written.
pub fn sheet_page(findings: &Findings, lineup: &Lineup, sheet: &Sheet) -> Result<String, WriteError> {
    let background = sheet_background(sheet.background);
    let file = write_lineup(lineup)?;
    let svg = |block: Block| {
        // The overview is a table on a page, with the side views above it.
        let scene = match block {
            Block::Overview => overview_side_views(findings)?,
            _ => block_scene(findings, lineup, sheet, block)?,
        };
        // Light lines keep their dark ground where the page is printed on white.
        let look = SvgLook { background, is_clear: background != Background::Dark, has_fonts: false, prefix: prefix(block) };
        Some((block, svg_with(&scene, look, scene.page.width, scene.page.height)))
    };
    let mut sheet = sheet.clone();
    let mut seen = Vec::new();
    sheet.contents.retain(|b| {
        !seen.contains(b) && {
            seen.push(*b);
            true
        }
    });
    let drawings: Vec<(Block, String)> = sheet.contents.iter().filter_map(|b| svg(*b)).collect();
    Ok(html(&WebPage { findings, lineup, sheet: &sheet, background, drawings: &drawings, file: &file }))
}

/// Before the names inside a block's drawing.
const fn prefix(block: Block) -> &'static str {
    match block {
        Block::Outline => "outline-",
        Block::Steering => "steering-",
        Block::StackAndReach => "stack-and-reach-",
        Block::Bags => "bags-",
        Block::RearFromAbove => "rear-",
        Block::Loaded => "loaded-",
        Block::Weights => "weights-",
        Block::PriceAgainstWeight => "price-",
        Block::Overview => "overview-",
        Block::PriceAndClimb | Block::Table | Block::Captions | Block::Needs | Block::Parts | Block::Standards | Block::Build => {
            "other-"
        }
    }
}
