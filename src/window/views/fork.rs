//! The Fork view: another fork or other tyres on one frame, drawn as a ghost over it while a slider moves, and what
//! changes in figures.

use egui::{ComboBox, Grid, Id, RichText, Slider, SliderClamping, Ui};

use super::super::canvas::{Field, FirstButton, kept, tell};
use super::super::commands::Command;
use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::fit_edits::FitEdit;
use super::super::labels::fork as labels;
use super::super::menu::picture_menu_ui;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::super::viewport::Viewport;
use super::side_panel::{heading_ui, note_ui, plain_number_ui, row_ui, side_panel_ui};
use super::switch_ui;
use super::{View, ViewId};
use crate::drawing::{Page, View as ScaleView, change_scene, fit_change};
use crate::frameset::{Figure, FrameIndex, TyreSize};
use crate::lineup::PictureView;
use crate::parts::{Caution, ForkTrial};
use crate::units::{Quantity, System, THIN_SPACE, fixed};
use crate::words::{CHANGE_COLUMNS, caution_text, change_rows, correction_text, limit_text};

/// The Fork view.
pub(crate) struct Fork;

impl Fork {
    fn sight(shown: Shown<'_>, id: ViewId, page: Page) -> ScaleView {
        match shown.moment.viewports.get(&id).copied() {
            Some((Viewport::Scale(view), _)) => view,
            _ => fit_change(shown.findings(), &shown.lineup().settings.outline, page),
        }
    }
}

impl View for Fork {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        switch_ui(ui, false, Command::Fit, out);
        let fork_trial = &shown.lineup().settings.fork_trial;
        let tooltip = labels::ALSO_SHOWS_THE_CHANGED_FRAME;
        if ui.selectable_label(fork_trial.is_drawn, labels::SHOW_IN_OUTLINE).on_hover_text(tooltip).clicked() {
            put(out, ForkTrial { is_drawn: !fork_trial.is_drawn, ..fork_trial.clone() });
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "another fork", |ui| panel_ui(ui, shown, out));
        let tones = Tones::of(ui);
        let field = Field::of(ui, Id::unique("fork"));
        let settings = shown.lineup().settings.outline;
        let units = shown.lineup().settings.units;
        let before = Self::sight(shown, id, field.page);
        let view = match field.moved(ui, before, FirstButton::Animation, shown) {
            Some(after) => {
                out.push(Request::Look(id, Some((Viewport::Scale(after), field.page))));
                after
            }
            None => before,
        };
        let key = (shown.document.revision(), field.page, view);
        let scene =
            kept(ui, Id::unique("fork scene"), key, || change_scene(shown.findings(), &settings, units, field.page, view));
        picture_menu_ui(&field.response, shown, out);
        field.show(ui, &scene, tones);
        tell(ui.ctx(), None);
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Fork)
    }
}

fn put(out: &mut Requests, fork_trial: ForkTrial) {
    out.edit(Edit::Fit(FitEdit::ForkTrial(fork_trial)));
}

fn panel_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let settings = &shown.lineup().settings;
    let (fork_trial, units) = (&settings.fork_trial, settings.units);
    let frames = &shown.findings().frames;
    let Some(place) = fork_trial.frame.filter(|f| f.of(frames).is_some()).or(shown.findings().reference) else { return };
    let Some(frame) = place.of(frames) else { return };
    heading_ui(ui, labels::ANOTHER_FORK_OR_TYRE);
    row_ui(ui, labels::FRAME, |ui| {
        let text = format!("{} {}", frame.letter, frame.name);
        let combo = ComboBox::from_id_salt("changed frame").width(170.0).selected_text(text).truncate().show_ui(ui, |ui| {
            for (other, f) in FrameIndex::numbered(frames) {
                if ui.selectable_label(other == place, format!("{} {}", f.letter, f.name)).clicked() {
                    put(out, ForkTrial { frame: Some(other), ..fork_trial.clone() });
                }
            }
        });
        named(&combo.response, labels::CHANGED_FRAME);
    });
    if settings.parts.fork.is_some() {
        let mut takes = fork_trial.use_listed_fork;
        let check = ui.checkbox(&mut takes, labels::FORK_FROM_THE_PARTS_LIST);
        if check.on_hover_text(labels::USES_THE_FORK_OF_THE_PARTS_LIST).changed() {
            put(out, ForkTrial { use_listed_fork: takes, ..fork_trial.clone() });
        }
    }
    let drawn = |figure: Figure| {
        let value = frame.size.of(&frame.as_published.sizes).map(|s| s.value(figure));
        value.map_or((0.0, false), |v| (v.value, !v.is_missing))
    };
    let is_listed = fork_trial.use_listed_fork && settings.parts.fork.is_some();
    // What is applied is what is shown, whether it is typed here or comes with the listed fork.
    let (length, offset, sag) = fork_trial.applied(settings.parts.fork.as_ref());
    let axle_to_crown = (length, drawn(Figure::AxleToCrownAlongAxis));
    slider_ui(ui, units, !is_listed, labels::AXLE_TO_CROWN_ALONG_STEERING_AXIS, axle_to_crown, (300.0, 600.0), |v| {
        put(out, ForkTrial { fork_length: v, ..fork_trial.clone() });
    });
    slider_ui(ui, units, !is_listed, labels::FORK_OFFSET, (offset, drawn(Figure::ForkOffset)), (-60.0, 120.0), |v| {
        put(out, ForkTrial { fork_offset: v, ..fork_trial.clone() });
    });
    let sag = Some(sag).filter(|s| is_listed || *s > 0.0);
    slider_ui(ui, units, !is_listed, labels::SAG, (sag, (0.0, true)), (0.0, 100.0), |v| {
        put(out, ForkTrial { sag: v.unwrap_or(0.0), ..fork_trial.clone() });
    });
    row_ui(ui, labels::FRONT_TYRE, |ui| {
        tyre_ui(ui, labels::OTHER_FRONT_TYRE, fork_trial.front_tyre, |t| {
            put(out, ForkTrial { front_tyre: t, ..fork_trial.clone() });
        });
    });
    row_ui(ui, labels::REAR_TYRE, |ui| {
        tyre_ui(ui, labels::OTHER_REAR_TYRE, fork_trial.rear_tyre, |t| {
            put(out, ForkTrial { rear_tyre: t, ..fork_trial.clone() });
        });
    });
    if ui.button(labels::RESET).on_hover_text(labels::REMOVES_THE_OTHER_FORK_AND_TYRES).clicked() {
        let empty = ForkTrial { frame: fork_trial.frame, is_drawn: fork_trial.is_drawn, ..ForkTrial::default() };
        put(out, empty);
    }
    figures_ui(ui, shown, place);
}

/// A slider of a length, mm, in the chosen units. It is "as published", or unknown, until it is moved; the button resets it.
/// Where it is not the user's own, it shows what the parts list brings and cannot be moved.
fn slider_ui(
    ui: &mut Ui,
    units: System,
    is_own: bool,
    label: &str,
    (value, (drawn, is_known)): (Option<f64>, (f64, bool)),
    (low, high): (f64, f64),
    mut entered: impl FnMut(Option<f64>),
) {
    let tones = Tones::of(ui);
    let factor = units.factor(Quantity::Length);
    // A millimetre, or a twentieth of an inch.
    let step = match units {
        System::Metric => 1.0,
        System::Imperial => 0.05,
    };
    let (low, high) = (low * factor, high * factor);
    // What nobody moved yet stands on a whole step; what was typed, or comes with the listed fork, stands as it is.
    let own = value.map_or_else(|| if is_own { (drawn * factor / step).round() * step } else { drawn * factor }, |v| v * factor);
    let before = own.clamp(low, high);
    let mut number = before;
    let state = match (value, is_own) {
        (None, _) if is_known => labels::AS_PUBLISHED,
        (None, _) => labels::UNKNOWN,
        (Some(_), true) => labels::CHANGED,
        (Some(_), false) => labels::FROM_THE_PARTS_LIST,
    };
    ui.horizontal(|ui| {
        ui.label(RichText::new(label).color(tones.second()));
        ui.label(RichText::new(state).size(SMALL).color(tones.grey()));
        if value.is_some() && is_own {
            let button = ui.small_button("×").on_hover_text(labels::RESETS_IT_TO_THE_PUBLISHED_FIGURE);
            named(&button, labels::reset(&label));
            if button.clicked() {
                entered(None);
            }
        }
    });
    ui.horizontal(|ui| {
        ui.spacing_mut().slider_width = (ui.available_width() - 84.0).max(60.0);
        let slider = Slider::new(&mut number, low..=high).clamping(SliderClamping::Edits).step_by(step).show_value(false);
        let slider = ui.add_enabled(is_own, slider);
        named(&slider, label);
        let (unit, decimals) = (units.unit(Quantity::Length), if units == System::Metric { 1 } else { 2 });
        let name = format!("{label}, {unit}");
        let suffix = format!("{THIN_SPACE}{unit}");
        let field = ui.add_enabled_ui(is_own, |ui| plain_number_ui(ui, &name, number, low..=high, (step, decimals), &suffix));
        let typed = field.inner;
        number = typed.unwrap_or(number);
        if (slider.changed() || typed.is_some()) && fixed(number, decimals) != fixed(before, decimals) {
            entered(Some(units.from_field(Quantity::Length, number)));
        }
    });
}

fn tyre_ui(ui: &mut Ui, name: &str, tyre: Option<TyreSize>, mut entered: impl FnMut(Option<TyreSize>)) {
    let current = tyre.map(|t| t.to_string()).unwrap_or_default();
    let entry = TypedField { id: Id::unique(name), name, current, hint: labels::AS_PUBLISHED, width: 104.0 };
    let read = |text: &str| {
        if text.trim().is_empty() {
            return Ok(None);
        }
        crate::parts::standards::named_tyre(text).map(Some)
    };
    let (field, value) = entry.show(ui, read);
    field.on_hover_text(labels::HOW_TO_ENTER_ANOTHER_TYRE);
    if let Some(value) = value {
        entered(value);
    }
}

/// Room for a number with its ±, points.
const NUMBER: f32 = 72.0;
/// Space between two columns, points.
const GAP: f32 = 12.0;

/// Before, after and change, then what to mind.
fn figures_ui(ui: &mut Ui, shown: Shown<'_>, place: FrameIndex) {
    let tones = Tones::of(ui);
    let units = shown.lineup().settings.units;
    let Some(fit) = place.of(&shown.findings().fit) else { return };
    ui.add_space(8.0);
    if let Some(change) = &fit.change {
        let rows = change_rows(units, shown.findings(), place);
        // Names take what the three numbers leave, over as many lines as they need.
        let names = (ui.available_width() - 3.0 * (NUMBER + GAP)).max(72.0);
        Grid::new("changed figures").num_columns(4).spacing([GAP, 2.0]).min_row_height(16.0).show(ui, |ui| {
            ui.label(RichText::new("").size(SMALL));
            for column in CHANGE_COLUMNS {
                ui.label(RichText::new(column).size(SMALL).color(tones.second()));
            }
            ui.end_row();
            for row in &rows {
                let name = format!("{}, {}", row.label, units.unit(row.quantity));
                let name = RichText::new(name).size(SMALL).color(tones.second());
                ui.scope(|ui| {
                    ui.set_max_width(names);
                    ui.add(egui::Label::new(name).wrap());
                });
                for cell in &row.cells {
                    let colour = if cell.is_grey { tones.grey() } else { tones.ink() };
                    ui.label(RichText::new(cell.text()).size(SMALL).color(colour));
                }
                ui.end_row();
            }
        });
        if let Some(limit) = &change.limit {
            note_ui(ui, &limit_text(units, limit));
        }
    }
    if let Some(correction) = &fit.correction {
        note_ui(ui, &correction_text(units, correction));
    }
    note_ui(ui, caution_text(Caution::ForkLength));
}
