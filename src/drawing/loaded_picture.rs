//! The picture of the loaded bicycles: speeds and front wheel's shares above, the reference with each loading from the side
//! below.

use super::loaded_scene::{loaded_height, loaded_heights_on_sheet, loaded_on_sheet, loaded_scene};
use super::loaded_sides_scene::{least_sides_height, loaded_sides_height, loaded_sides_scene};
use super::pen::Pen;
use super::scene::{Page, Pt, Scene};
use crate::lineup::{Findings, Lineup};
use crate::words::drawings as labels;
use crate::words::{loaded_sentences, loaded_side_sentences};

const GAP: f64 = 14.0;

/// The picture on a page. Where it is too low for both, the bicycles from the side are left away.
pub(super) fn loaded_picture(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let bars = (loaded_height(lineup, findings, page.width), |page| loaded_scene(lineup, findings, page));
    stacked(lineup, findings, page, bars)
}

/// The same for a sheet, which has sentences and footnotes of its own.
pub(super) fn loaded_picture_on_sheet(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let [at_ease, least] = loaded_heights_on_sheet(lineup, findings, page.width);
    let both = least + GAP + least_sides_height(lineup, findings, page.width);
    // Where both fit, the bars do with less.
    let height = if page.height >= both { at_ease.min(page.height - (both - least)) } else { at_ease };
    stacked(lineup, findings, page, (height, |page| loaded_on_sheet(lineup, findings, page)))
}

/// Bars at their height above, bicycles in what is left below.
fn stacked(lineup: &Lineup, findings: &Findings, page: Page, (bars, scene): (f64, impl Fn(Page) -> Scene)) -> Scene {
    let left = page.height - bars - GAP;
    if left < least_sides_height(lineup, findings, page.width) {
        return Scene { description: description(findings, lineup), ..scene(page) };
    }
    let lower = left.min(loaded_sides_height(lineup, findings, page.width));
    let upper = page.height - lower - GAP;
    let bars = scene(Page { width: page.width, height: upper });
    let sides = loaded_sides_scene(lineup, findings, None, Page { width: page.width, height: lower });
    let title = bars.title.clone();
    let mut pen = Pen::default();
    pen.place(bars, Pt { x: 0.0, y: 0.0 });
    pen.place(sides, Pt { x: 0.0, y: upper + GAP });
    pen.finish(page, title, description(findings, lineup))
}

/// What the picture tells, for those who do not see it.
pub(super) fn description(findings: &Findings, lineup: &Lineup) -> String {
    let mut told = loaded_sentences(lineup, findings);
    told.extend(findings.reference.into_iter().flat_map(|reference| loaded_side_sentences(lineup, findings, reference)));
    if told.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { told.join(" ") }
}

/// The height on a sheet: at ease, then at least, page units.
pub(super) fn loaded_picture_heights_on_sheet(lineup: &Lineup, findings: &Findings, width: f64) -> [f64; 2] {
    let [at_ease, least] = loaded_heights_on_sheet(lineup, findings, width);
    [at_ease + GAP + loaded_sides_height(lineup, findings, width), least]
}
