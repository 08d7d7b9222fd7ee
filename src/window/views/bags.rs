//! The Bags view: frame-bag spaces, overlaid and side by side, with bag and bottles; the cut line is dragged in the drawing, moved by arrow keys or typed; the pattern of each bag is saved from here.

use egui::{ComboBox, CursorIcon, EventFilter, Id, Key, Panel, PointerButton, Ui};

use super::super::canvas::{Field, kept, tell};
use super::super::edits::Edit;
use super::super::labels::bags as labels;
use super::super::menu::picture_menu_ui;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::Tones;
use super::all_figures::figures_ui;
use super::side_panel::{heading_ui, length_ui, note_ui, number_ui, pick_ui, row_ui, side_panel_ui};
use super::{View, ViewId};
use crate::drawing::{Paper, bag_space_scene, cut_through, is_on_cut};
use crate::frameset::FrameIndex;
use crate::lineup::{BagSpaceCorner, BagSpaceSettings, PictureView};
use crate::luggage::{BagPart, BagSettings, Bottle, Cage, Cut, Holder};
use crate::units::System;
use crate::words::{
    BOTTLE_CAUTION, PATTERN_CAUTION, WIDTH_NOTE, bag_notes_text, bag_part_label, bag_space_table, bottle_label, corner_label,
    cut_line_text, holder_label,
};

/// The Bags view.
pub(crate) struct Bags;

/// How far an arrow key moves the cut line, mm.
const KEY_STEP_MM: f64 = 5.0;

impl View for Bags {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let bag_space = shown.lineup().settings.bags;
        if ui.button(labels::COPY_TABLE).on_hover_text(labels::COPIES_THE_TABLE).clicked() {
            ui.ctx().copy_text(crate::publish::tabbed(&bag_space_table(shown.findings(), shown.lineup().settings.units)));
        }
        if ui
            .selectable_label(bag_space.with_bottles, labels::BOTTLES)
            .on_hover_text(labels::SHOWS_OR_HIDES_THE_BOTTLES)
            .clicked()
        {
            put(out, BagSpaceSettings { with_bottles: !bag_space.with_bottles, ..bag_space });
        }
        if ui.selectable_label(bag_space.with_bag, labels::BAG).on_hover_text(labels::SHOWS_OR_HIDES_THE_BAG).clicked() {
            put(out, BagSpaceSettings { with_bag: !bag_space.with_bag, ..bag_space });
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        tell(ui.ctx(), None);
        side_panel_ui(ui, "room settings", |ui| settings_ui(ui, shown, out));
        table_ui(ui, shown, out);
        let tones = Tones::of(ui);
        let field = Field::of(ui, Id::unique("bag_spaces"));
        let (settings, units) = (shown.lineup().settings.bags, shown.lineup().settings.units);
        let key = (shown.document.revision(), field.page);
        let scene = kept(ui, Id::unique("room scene"), key, || bag_space_scene(shown.findings(), &settings, units, field.page));
        picture_menu_ui(&field.response, shown, out);
        field.show(ui, &scene, tones);
        cut_ui(ui, &field, shown, out);
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Bags)
    }
}

fn put(out: &mut Requests, bag_space: BagSpaceSettings) {
    out.edit(Edit::BagSpace(bag_space));
}

fn put_bag(out: &mut Requests, bag_space: BagSpaceSettings, bag: BagSettings) {
    put(out, BagSpaceSettings { bag, ..bag_space });
}

/// The table against the reference, below the drawing.
fn table_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let units = shown.lineup().settings.units;
    let key = (shown.document.revision(), units == crate::units::System::Metric);
    let table = kept(ui, Id::unique("room table"), key, || bag_space_table(shown.findings(), units));
    if table.rows.is_empty() {
        return;
    }
    let most = (ui.available_height() * 0.45).max(90.0);
    Panel::bottom("room table")
        .default_size(most.min(212.0))
        .resizable(true)
        .max_size(most)
        .frame(egui::Frame::NONE)
        .show(ui, |ui| figures_ui(ui, Shown { table: &table, ..shown }, "room figures", out));
}

/// Taking hold of the cut line with the pointer, and moving it with arrow keys.
fn cut_ui(ui: &Ui, field: &Field, shown: Shown<'_>, out: &mut Requests) {
    let bag_space = shown.lineup().settings.bags;
    let BagPart::Above(cut) = bag_space.bag.part else { return };
    let response = &field.response;
    let held = Id::unique("the cut line is held");
    let mut is_held = ui.data(|d| d.get_temp::<bool>(held)).unwrap_or(false);
    let origin = ui.input(|i| i.pointer.press_origin()).map(|p| field.on_page(p));
    if response.drag_started_by(PointerButton::Primary) {
        is_held = origin.is_some_and(|at| is_on_cut(shown.findings(), &bag_space, field.page, at));
        response.request_focus();
    } else if !response.dragged_by(PointerButton::Primary) {
        is_held = false;
    }
    ui.data_mut(|d| d.insert_temp(held, is_held));
    let now = ui.input(|i| i.pointer.latest_pos()).map(|p| field.on_page(p));
    if is_held || field.pointer().is_some_and(|at| is_on_cut(shown.findings(), &bag_space, field.page, at)) {
        ui.ctx().set_cursor_icon(CursorIcon::ResizeVertical);
    }
    let mut after = cut;
    if let (true, Some(from), Some(at)) = (is_held, origin, now) {
        after = cut_through(shown.findings(), &bag_space, field.page, from, at).unwrap_or(cut);
    }
    if response.has_focus() {
        let arrows = EventFilter { vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, arrows));
        let up = ui.input_mut(|i| {
            let mut pressed = |key: Key| i.count_and_consume_key(egui::Modifiers::NONE, key) as f64;
            pressed(Key::ArrowUp) - pressed(Key::ArrowDown)
        });
        if up != 0.0 {
            after = moved(cut, up * KEY_STEP_MM);
        }
    }
    if after != cut {
        put_bag(out, bag_space, BagSettings { part: BagPart::Above(after), ..bag_space.bag });
        out.push(Request::Say(cut_line_text(shown.lineup().settings.units, after)));
    }
}

/// The line moved up by so many mm.
fn moved(cut: Cut, up_mm: f64) -> Cut {
    match cut {
        Cut::Level { above_bb_mm } => Cut::Level { above_bb_mm: (above_bb_mm + up_mm).clamp(-200.0, 1000.0) },
        Cut::AlongTopTube { below_mm } => Cut::AlongTopTube { below_mm: (below_mm - up_mm).clamp(0.0, 1000.0) },
    }
}

fn settings_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let (bag_space, units) = (shown.lineup().settings.bags, shown.lineup().settings.units);
    bag_ui(ui, bag_space, units, out);
    heading_ui(ui, labels::BOTTLES);
    bottles_ui(ui, bag_space, units, out);
    heading_ui(ui, labels::PATTERN_TO_PRINT);
    pattern_ui(ui, shown, out);
    heading_ui(ui, labels::DRAWING);
    if let Some(align_at) = pick_ui(ui, labels::ALIGN_BAGS_AT, 150.0, bag_space.align_at, &BagSpaceCorner::ALL, corner_label) {
        put(out, BagSpaceSettings { align_at, ..bag_space });
    }
    heading_ui(ui, labels::NOTES);
    for (place, frame) in FrameIndex::numbered(&shown.findings().frames).filter(|(_, f)| f.shown) {
        let notes = bag_notes_text(units, &shown.findings().bag_notes(place));
        note_ui(ui, &format!("{}: {notes}", frame.letter));
    }
}

/// Kinds of bags, each with the cut that it begins with.
const KINDS: [BagPart; 3] =
    [BagPart::Full, BagPart::Above(Cut::Level { above_bb_mm: 300.0 }), BagPart::Above(Cut::AlongTopTube { below_mm: 120.0 })];

fn is_kind(part: BagPart, kind: BagPart) -> bool {
    matches!(
        (part, kind),
        (BagPart::Full, BagPart::Full)
            | (BagPart::Above(Cut::Level { .. }), BagPart::Above(Cut::Level { .. }))
            | (BagPart::Above(Cut::AlongTopTube { .. }), BagPart::Above(Cut::AlongTopTube { .. }))
    )
}

fn bag_ui(ui: &mut Ui, bag_space: BagSpaceSettings, units: System, out: &mut Requests) {
    let bag = bag_space.bag;
    heading_ui(ui, labels::BAG);
    for kind in KINDS {
        let is_own = is_kind(bag.part, kind);
        if ui.radio(is_own, bag_part_label(kind)).clicked() && !is_own {
            put_bag(out, bag_space, BagSettings { part: kind, ..bag });
        }
    }
    match bag.part {
        BagPart::Full => {}
        BagPart::Above(Cut::Level { above_bb_mm }) => {
            if let Some(above_bb_mm) = length_ui(ui, units, labels::CUT_LINE_ABOVE_BOTTOM_BRACKET, above_bb_mm, -200.0..=1000.0) {
                put_bag(out, bag_space, BagSettings { part: BagPart::Above(Cut::Level { above_bb_mm }), ..bag });
            }
        }
        BagPart::Above(Cut::AlongTopTube { below_mm }) => {
            if let Some(below_mm) = length_ui(ui, units, labels::CUT_LINE_BELOW_TOP_TUBE, below_mm, 0.0..=1000.0) {
                put_bag(out, bag_space, BagSettings { part: BagPart::Above(Cut::AlongTopTube { below_mm }), ..bag });
            }
        }
    }
    if let Some(gap_to_tubes_mm) = length_ui(ui, units, labels::GAP_TO_TUBES, bag.gap_to_tubes_mm, 0.0..=60.0) {
        put_bag(out, bag_space, BagSettings { gap_to_tubes_mm, ..bag });
    }
    if let Some(corner_radius_mm) = length_ui(ui, units, labels::CORNER_RADIUS, bag.corner_radius_mm, 0.0..=80.0) {
        put_bag(out, bag_space, BagSettings { corner_radius_mm, ..bag });
    }
    if let Some(gusset_top_mm) = length_ui(ui, units, labels::GUSSET_WIDTH_AT_TOP, bag.gusset_top_mm, 10.0..=250.0) {
        put_bag(out, bag_space, BagSettings { gusset_top_mm, ..bag });
    }
    if let Some(gusset_bottom_mm) = length_ui(ui, units, labels::GUSSET_WIDTH_AT_BOTTOM, bag.gusset_bottom_mm, 10.0..=250.0) {
        put_bag(out, bag_space, BagSettings { gusset_bottom_mm, ..bag });
    }
    if let Some(seam_allowance_mm) = length_ui(ui, units, labels::SEAM_ALLOWANCE, bag.seam_allowance_mm, 0.0..=40.0) {
        put_bag(out, bag_space, BagSettings { seam_allowance_mm, ..bag });
    }
    note_ui(ui, WIDTH_NOTE);
}

fn bottles_ui(ui: &mut Ui, bag_space: BagSpaceSettings, units: System, out: &mut Requests) {
    let mut cages = bag_space.cages;
    let places = [
        (Holder::DownTube, &mut cages.down_tube, 235.0),
        (Holder::SeatTube, &mut cages.seat_tube, 165.0),
        (Holder::UnderDownTube, &mut cages.under_down_tube, 300.0),
    ];
    for (holder, cage, boss) in places {
        cage_ui(ui, units, holder, cage, boss);
    }
    if cages.under_down_tube.is_some()
        && let Some(teeth) =
            number_ui(ui, labels::LARGEST_CHAINRING, f64::from(cages.chainring_teeth), 16.0..=70.0, labels::TEETH)
    {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "16 to 70")]
        let teeth = teeth.round().clamp(16.0, 70.0) as u32;
        cages.chainring_teeth = teeth;
    }
    if cages != bag_space.cages {
        put(out, BagSpaceSettings { cages, ..bag_space });
    }
    note_ui(ui, labels::BOSSES_ARE_NOT_PUBLISHED);
    note_ui(ui, BOTTLE_CAUTION);
}

/// Which bottle is there, and where the lower boss is.
fn cage_ui(ui: &mut Ui, units: System, holder: Holder, cage: &mut Option<Cage>, boss: f64) {
    let name = labels::bottle(&holder_label(holder));
    row_ui(ui, &name, |ui| {
        let text = cage.map_or(labels::NONE, |c| bottle_label(c.bottle));
        let combo = ComboBox::from_id_salt(&name).width(84.0).selected_text(text).show_ui(ui, |ui| {
            if ui.selectable_label(cage.is_none(), labels::NONE).clicked() {
                *cage = None;
            }
            for bottle in Bottle::ALL {
                let is_own = cage.is_some_and(|c| c.bottle == bottle);
                if ui.selectable_label(is_own, bottle_label(bottle)).clicked() {
                    *cage = Some(Cage { bottle, ..cage.unwrap_or(Cage::unmeasured(bottle, boss)) });
                }
            }
        });
        named(&combo.response, &name);
    });
    if let Some(own) = cage
        && let Some(lower_boss_mm) =
            length_ui(ui, units, &labels::lower_boss(&holder_label(holder)), own.lower_boss_mm, 0.0..=600.0)
    {
        own.lower_boss_mm = lower_boss_mm;
    }
    if let Some(own) = cage
        && let Some(mm) =
            length_ui(ui, units, &labels::boss_plus_minus(&holder_label(holder)), own.boss_plus_minus_mm, 0.0..=100.0)
    {
        own.boss_plus_minus_mm = mm;
    }
}

fn pattern_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    if let Some(paper) = pick_ui(ui, labels::PAPER, 130.0, shown.session.paper, &Paper::ALL, Paper::label) {
        out.push(Request::Paper(paper));
    }
    for (place, frame) in FrameIndex::numbered(&shown.findings().frames).filter(|(_, f)| f.shown) {
        let button = egui::Button::new(labels::save_pattern_of(&frame.letter));
        let response = ui.add_enabled(frame.luggage.bag().is_some(), button);
        let tooltip = labels::size_full_size_as_pdf(&frame.name, &frame.size_label());
        if response.on_hover_text(tooltip).on_disabled_hover_text(labels::NO_BAG_FITS_THIS_FRAME).clicked() {
            out.push(Request::Pattern(place));
        }
    }
    note_ui(ui, PATTERN_CAUTION);
}
