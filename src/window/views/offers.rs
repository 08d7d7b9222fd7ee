//! What the view in front cannot show of a frame, as buttons above it, each with the entry that is missing: it leads the
//! keyboard to the field, in the Frameset view.

use egui::{RichText, Ui};

use super::super::labels::frameset as labels;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::SMALL;
use super::ViewId;
use crate::frameset::{Figure, FrameIndex, Standard};
use crate::lineup::MissingEntry;
use crate::words::missing_entry_text;

/// How many are offered at once.
const MOST: usize = 6;

/// Shows the buttons; nothing where nothing is missing.
pub(super) fn offers_ui(ui: &mut Ui, shown: Shown<'_>, view: ViewId, out: &mut Requests) {
    let mut offers: Vec<(FrameIndex, MissingEntry)> = Vec::new();
    for (place, _) in FrameIndex::numbered(&shown.findings().frames).filter(|(_, frame)| frame.shown) {
        for offer in missing(shown, view, place) {
            if !offers.contains(&offer) {
                offers.push(offer);
            }
        }
    }
    if offers.is_empty() {
        return;
    }
    egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 3)).show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            for (place, missing) in offers.into_iter().take(MOST) {
                let Some(frame) = place.of(&shown.findings().frames) else { continue };
                let words = labels::offer(&frame.letter, &missing_entry_text(missing));
                let button = ui.button(RichText::new(words).size(SMALL));
                if button.on_hover_text(labels::WHAT_AN_OFFER_DOES).clicked() {
                    out.push(Request::Enter(place, missing));
                }
            }
        });
    });
}

/// What a view misses of a frame, and the frame that lacks it. The Overview offers it in its cells; the tables of figures
/// say it in their own.
fn missing(shown: Shown<'_>, view: ViewId, place: FrameIndex) -> Vec<(FrameIndex, MissingEntry)> {
    let findings = shown.findings();
    let settings = &shown.lineup().settings;
    let Some(frame) = place.of(&findings.frames) else { return Vec::new() };
    let own = |missing: Option<MissingEntry>| missing.map(|missing| (place, missing)).into_iter().collect::<Vec<_>>();
    match view {
        ViewId::Overview | ViewId::AllFigures | ViewId::Frameset | ViewId::Check | ViewId::Publish => Vec::new(),
        ViewId::Outline => own(frame.missing_for_outline()),
        ViewId::Steering => own(frame.missing_figure(&[settings.steering.across, settings.steering.up])),
        ViewId::StackAndReach => own(frame.missing_figure(&[settings.stack_and_reach.across, settings.stack_and_reach.up])),
        ViewId::Bags => own(frame.missing_for_bags()),
        ViewId::Parts => own(frame.frameset.standards.is_empty().then_some(MissingEntry::Standard(Standard::BottomBracket))),
        ViewId::Fork => own(frame.missing_figure(&[Figure::AxleToCrown])),
        ViewId::ContactPoints => findings.missing_for_fit(place).into_iter().collect(),
        ViewId::Loaded => {
            let loaded = place.of(&findings.loaded(shown.lineup()).frames);
            let why = loaded.and_then(|loaded| loaded.rides.first()?.as_ref().err());
            own(why.and_then(|why| findings.missing_for_load(place, why)))
        }
        ViewId::Weight => own(frame.missing_weight()),
        ViewId::PriceAndClimb => {
            frame.missing_weight().into_iter().chain(findings.missing_price(place)).map(|missing| (place, missing)).collect()
        }
    }
}
