//! The Parts view: the rider's needs and the parts of the build, held against every frame. What is listed is typed at the
//! right; a slip is said at its field and changes nothing.

use std::str::FromStr;

use egui::{ComboBox, Id, Sense, Ui, vec2};

use super::super::canvas::{Field, kept, tell};
use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::fit_edits::FitEdit;
use super::super::labels::parts as labels;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::Tones;
use super::side_panel::{heading_ui, note_ui, row_ui, side_panel_ui};
use super::{View, ViewId};
use crate::drawing::{FitPart, Page, fit_bands_scene, fit_width, rear_height, rear_scene};
use crate::lineup::PictureView;
use crate::money::typed_price;
use crate::parts::{
    ForkMeasurement, ForkPart, MOST_RINGS, MOST_SPROCKETS, NEED_EXAMPLES, Need, Part, PartKind, Purchase, RearGear, RearSettings,
    check_part_price, typed_part_weight, written_part_weight,
};
use crate::units::Quantity;
use crate::words::{Label, build_item_text};

/// The Parts view.
pub(crate) struct Parts;

impl View for Parts {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let is_rear = shown.session.is_rear_shown;
        if ui.selectable_label(is_rear, labels::REAR_FROM_ABOVE).on_hover_text(labels::SHOWS_THE_REAR).clicked() {
            out.push(Request::RearFromAbove(!is_rear));
        }
        if is_rear {
            rear_tools_ui(ui, shown, out);
        }
        if ui.button(labels::COPY_PARTS).on_hover_text(labels::COPIES_THE_TABLES).clicked() {
            let standards = crate::words::standards_table(shown.findings()).as_text();
            let needs = crate::words::needs_table(shown.lineup(), shown.findings()).as_text();
            let parts = crate::words::parts_table(shown.lineup(), shown.findings()).as_text();
            ui.ctx().copy_text(format!("{standards}\n\n{needs}\n\n{parts}\n"));
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "parts list", |ui| lists_ui(ui, shown, out));
        tell(ui.ctx(), None);
        egui::ScrollArea::both().id_salt("parts tables").auto_shrink([false, false]).show(ui, |ui| {
            if shown.session.is_rear_shown {
                rear_ui(ui, shown);
                return;
            }
            for part in [FitPart::Standards, FitPart::Needs, FitPart::Parts] {
                table_ui(ui, part, shown);
            }
        });
    }

    /// The rear where it is shown; else the parts; where none is listed, the needs.
    fn picture(&self, shown: Shown<'_>) -> Option<PictureView> {
        if shown.session.is_rear_shown && PictureView::RearFromAbove.has_something(shown.findings(), shown.lineup()) {
            return Some(PictureView::RearFromAbove);
        }
        let has_parts = PictureView::Parts.has_something(shown.findings(), shown.lineup());
        Some(if has_parts { PictureView::Parts } else { PictureView::Needs })
    }
}

/// One table, as wide as there is room and as high as it is.
pub(super) fn table_ui(ui: &mut Ui, part: FitPart, shown: Shown<'_>) {
    let tones = Tones::of(ui);
    let (lineup, findings) = (shown.lineup(), shown.findings());
    let width = f64::from(ui.available_width().max(1.0)).max(fit_width(part, lineup, findings));
    let scene = kept(ui, Id::unique(("fit table", part)), (shown.document.revision(), width.to_bits()), || {
        fit_bands_scene(part, lineup, findings, width)
    });
    let (rect, response) = ui.allocate_exact_size(vec2(width as f32, scene.page.height as f32), Sense::click());
    Field { response, rect, page: scene.page }.show(ui, &scene, tones);
}

/// The gear whose chain is drawn, and whether the reference is drawn below the others.
fn rear_tools_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let rear = shown.lineup().settings.rear;
    let mut put = |rear: RearSettings| out.edit(Edit::Fit(FitEdit::Rear(rear)));
    let gear = rear.gear;
    let choice_ui = |ui: &mut Ui, name: &str, text: String, most: u8, now: Option<u8>| {
        let mut chosen = now;
        let menu = ComboBox::from_id_salt(name).width(110.0).selected_text(text).show_ui(ui, |ui| {
            ui.selectable_value(&mut chosen, None, labels::NO_GEAR);
            for place in 1..=most {
                ui.selectable_value(&mut chosen, Some(place), place.to_string());
            }
        });
        named(&menu.response, name);
        menu.response.on_hover_text(labels::DRAWS_ITS_CHAIN);
        (chosen != now).then_some(chosen)
    };
    // The tools stand from right to left.
    let text = labels::chosen_sprocket(gear.map(|g| g.sprocket));
    if let Some(sprocket) = choice_ui(ui, labels::SPROCKET, text, MOST_SPROCKETS, gear.map(|g| g.sprocket)) {
        let gear = sprocket.map(|sprocket| RearGear { ring: gear.map_or(1, |g| g.ring), sprocket });
        put(RearSettings { gear, ..rear });
    }
    let text = labels::chosen_ring(gear.map(|g| g.ring));
    if let Some(ring) = choice_ui(ui, labels::CHAINRING, text, MOST_RINGS, gear.map(|g| g.ring)) {
        let gear = ring.map(|ring| RearGear { ring, sprocket: gear.map_or(1, |g| g.sprocket) });
        put(RearSettings { gear, ..rear });
    }
    let below =
        ui.selectable_label(rear.over_reference, labels::REFERENCE_BELOW).on_hover_text(labels::DRAWS_THE_REFERENCE_BELOW);
    if below.clicked() {
        put(RearSettings { over_reference: !rear.over_reference, ..rear });
    }
}

/// The rears from above, as wide as there is room and as high as they are.
fn rear_ui(ui: &mut Ui, shown: Shown<'_>) {
    let (lineup, findings) = (shown.lineup(), shown.findings());
    let width = f64::from(ui.available_width().max(1.0));
    let scene = kept(ui, Id::unique("rear from above"), (shown.document.revision(), width.to_bits()), || {
        rear_scene(lineup, findings, Page { width, height: rear_height(lineup, findings, width) })
    });
    let (rect, response) = ui.allocate_exact_size(vec2(width as f32, scene.page.height as f32), Sense::click());
    Field { response, rect, page: scene.page }.show(ui, &scene, Tones::of(ui));
}

fn lists_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    heading_ui(ui, labels::NEEDS);
    for (place, need) in shown.lineup().settings.needs.iter().enumerate() {
        ui.horizontal(|ui| {
            let name = labels::need(&(place + 1));
            let width = ui.available_width() - 44.0;
            let entry =
                TypedField { id: Id::unique(("need", place)), name: &name, current: need.text().to_owned(), hint: "", width };
            let (_, entered) = entry.show(ui, read_need);
            if let Some(Some(need)) = entered {
                out.edit(Edit::Fit(FitEdit::Need(place, need)));
            }
            if remove_ui(ui, &labels::remove_need(&(place + 1))) {
                out.edit(Edit::Fit(FitEdit::RemoveNeed(place)));
            }
        });
    }
    let width = ui.available_width() - 44.0;
    let hint = NEED_EXAMPLES.get(shown.lineup().settings.needs.len() % NEED_EXAMPLES.len()).copied().unwrap_or_default();
    let entry = TypedField { id: Id::unique("new need"), name: labels::NEW_NEED, current: String::new(), hint, width };
    let (field, entered) = entry.show(ui, read_need);
    field.on_hover_text(labels::what_the_frame_must_have(&NEED_EXAMPLES.join("; ")));
    if let Some(Some(need)) = entered {
        out.edit(Edit::Fit(FitEdit::AddNeed(need)));
    }
    heading_ui(ui, labels::PARTS_OF_THE_BUILD);
    for (place, part) in shown.lineup().settings.parts.parts.iter().enumerate() {
        part_ui(ui, place, part, shown, out);
    }
    let menu = ComboBox::from_id_salt("new part").width(160.0).selected_text(labels::ADD_A_PART).show_ui(ui, |ui| {
        for kind in PartKind::ALL {
            if ui.selectable_label(false, kind.label()).clicked()
                && let Ok(part) = Part::new(kind, kind.example(), "")
            {
                out.edit(Edit::Fit(FitEdit::AddPart(part)));
            }
        }
    });
    named(&menu.response, labels::KIND_OF_PART_TO_ADD);
    note_ui(ui, labels::A_NEW_PART_IS_AN_EXAMPLE);
    fork_ui(ui, shown, out);
    besides_ui(ui, shown, out);
}

/// Whether a field's text could be put into a fork.
type Written = Result<(), NotANumber>;
/// Puts a field's text into a fork.
type Write = fn(&mut ForkPart, &str) -> Written;
/// A length of a fork: its name, what is usual, mm, what it is and how it is set.
type Length = (&'static str, f64, fn(&ForkPart) -> f64, fn(&mut ForkPart, f64));

/// Lengths of a fork.
const LENGTHS: [Length; 3] = [
    (labels::AXLE_TO_CROWN, 420.0, |f| f.length, |f, mm| f.length = mm),
    (labels::OFFSET, 45.0, |f| f.offset, |f, mm| f.offset = mm),
    (labels::TRAVEL, 0.0, |f| f.travel, |f, mm| f.travel = mm),
];

/// The fork of the build: what is not known stays empty and is then "not published".
fn fork_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    heading_ui(ui, labels::FORK_OF_THE_BUILD);
    let put = |out: &mut Requests, fork| out.edit(Edit::Fit(FitEdit::ListedFork(fork)));
    let Some(fork) = &shown.lineup().settings.parts.fork else {
        note_ui(ui, labels::FRONT_PARTS_NEED_A_FORK);
        if ui.button(labels::ADD_A_FORK).clicked() {
            put(out, Some(ForkPart::rigid(420.0, 45.0)));
        }
        return;
    };
    let units = shown.lineup().settings.units;
    let fields: [(&str, String, &str, Write); 8] = [
        (labels::FORK_NAME, fork.name.clone(), labels::FORK_NAME_EXAMPLE, |f, t| {
            t.trim().clone_into(&mut f.name);
            Ok(())
        }),
        (labels::FORK_SAG_PERCENT_OF_TRAVEL, crate::units::fixed(fork.sag_percent, 0), "20", |f, t| {
            read_number(t).map(|n| f.sag_percent = n)
        }),
        (labels::FORK_STEERER_CROWN_RACE, fork.steerer.clone(), "28.6 | 40", |f, t| {
            t.trim().clone_into(&mut f.steerer);
            Ok(())
        }),
        (labels::FORK_HUB, fork.hub.clone(), PartKind::FrontHub.example(), |f, t| {
            t.trim().clone_into(&mut f.hub);
            Ok(())
        }),
        (labels::FORK_BRAKE, fork.brake.clone(), labels::FORK_BRAKE_EXAMPLE, |f, t| {
            t.trim().clone_into(&mut f.brake);
            Ok(())
        }),
        (labels::FORK_WIDEST_TYRE, fork.widest_tyre.clone(), "57-622", |f, t| {
            t.trim().clone_into(&mut f.widest_tyre);
            Ok(())
        }),
        (labels::FORK_BOSSES, fork.bosses.clone(), "3+3", |f, t| {
            t.trim().clone_into(&mut f.bosses);
            Ok(())
        }),
        (labels::FORK_EYELETS, fork.eyelets.clone(), labels::FORK_EYELETS_EXAMPLE, |f, t| {
            t.trim().clone_into(&mut f.eyelets);
            Ok(())
        }),
    ];
    let in_unit = |mm: f64| units.in_field(Quantity::Length, mm);
    let mut field_ui = |ui: &mut Ui, name: &str, current: String, hint: &str, write: &dyn Fn(&mut ForkPart, &str) -> Written| {
        row_ui(ui, name, |ui| {
            let entry = TypedField { id: Id::unique(name), name, current, hint, width: 170.0 };
            let (_, entered) = entry.show(ui, |text| {
                let mut after = fork.clone();
                write(&mut after, text).map_err(|why| why.to_string())?;
                after.check(units).map(|()| after).map_err(|e| e.to_string())
            });
            if let Some(after) = entered {
                put(out, Some(after));
            }
        });
    };
    for (index, (name, current, hint, write)) in fields.into_iter().enumerate() {
        field_ui(ui, name, current, hint, &write);
        // The lengths stand below the name.
        let lengths: &[Length] = if index == 0 { &LENGTHS } else { &[] };
        for (name, usual, of, set) in lengths {
            let name = labels::fork(&name, &units.unit(Quantity::Length));
            field_ui(ui, &name, in_unit(of(fork)), &in_unit(*usual), &|fork, text| {
                set(fork, units.from_field(Quantity::Length, read_number(text)?));
                Ok(())
            });
        }
    }
    let mut is_along = fork.measured == ForkMeasurement::Along;
    if ui
        .checkbox(&mut is_along, labels::MEASURED_ALONG_THE_STEERING_AXIS)
        .on_hover_text(labels::OTHERWISE_MEASURED_DIRECTLY)
        .changed()
    {
        let measured = if is_along { ForkMeasurement::Along } else { ForkMeasurement::Direct };
        put(out, Some(ForkPart { measured, ..fork.clone() }));
    }
    let id = Id::unique("purchase of the fork");
    if let Some(purchase) = purchase_ui(ui, id, labels::FORK_OF_THE_BUILD, &fork.purchase, true, shown) {
        put(out, Some(ForkPart { purchase, ..fork.clone() }));
    }
    if ui.button(labels::REMOVE_THE_FORK).clicked() {
        put(out, None);
    }
}

/// A text that is not a number.
#[derive(Debug, thiserror::Error)]
#[error("{}", labels::is_not_a_number_write(.0))]
struct NotANumber(String);

fn read_number(text: &str) -> Result<f64, NotANumber> {
    crate::units::typed_number(text).ok_or_else(|| NotANumber(text.trim().to_owned()))
}

/// An empty field asks nothing.
fn read_need(text: &str) -> Result<Option<Need>, <Need as FromStr>::Err> {
    if text.trim().is_empty() { Ok(None) } else { text.parse::<Need>().map(Some) }
}

/// Weight and price of what the frames need beside the list.
fn besides_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let (lineup, findings) = (shown.lineup(), shown.findings());
    let mut items: Vec<(&'static str, String)> = Vec::new();
    for item in findings.builds.iter().flat_map(|b| &b.rows).map(|r| r.item) {
        if let Some(key) = item.besides_key().filter(|key| items.iter().all(|(known, _)| known != key)) {
            items.push((key, build_item_text(lineup, &item)));
        }
    }
    if items.is_empty() || lineup.settings.parts.is_empty() {
        return;
    }
    heading_ui(ui, labels::NEEDED_BESIDES);
    note_ui(ui, labels::NEEDED_BESIDES_NOTE);
    for (key, name) in items {
        small_ui(ui, &name);
        let purchase = lineup.settings.parts.besides.get(key).cloned().unwrap_or_default();
        if let Some(after) = purchase_ui(ui, Id::unique(("besides", key)), &name, &purchase, false, shown) {
            out.edit(Edit::Fit(FitEdit::Besides(key, after)));
        }
    }
}

/// A line in small letters.
fn small_ui(ui: &mut Ui, text: &str) {
    let tones = Tones::of(ui);
    ui.add(egui::Label::new(egui::RichText::new(text).size(super::super::theme::SMALL).color(tones.second())).truncate());
}

/// Whether a part is bought, where that is asked, its weight and its price; gives back what was changed.
fn purchase_ui(ui: &mut Ui, id: Id, name: &str, purchase: &Purchase, asks: bool, shown: Shown<'_>) -> Option<Purchase> {
    let (units, money) = (shown.lineup().settings.units, &shown.lineup().settings.money);
    let mut changed = None;
    ui.horizontal(|ui| {
        if asks {
            let mut to_buy = purchase.to_buy;
            let choice = ui.checkbox(&mut to_buy, labels::TO_BUY).on_hover_text(labels::OTHERWISE_YOU_OWN_IT);
            named(&choice, labels::to_buy(name));
            if choice.changed() {
                changed = Some(Purchase { to_buy, ..purchase.clone() });
            }
        }
        let unit = units.unit(Quantity::Mass);
        let weight_name = labels::weight_of(name, unit);
        let current = written_part_weight(purchase, units);
        let entry = TypedField { id: id.with("weight"), name: &weight_name, current, hint: unit, width: 90.0 };
        let (field, entered) = entry.show(ui, |text| typed_part_weight(text, units));
        field.on_hover_text(labels::WEIGHT_OF_A_PART);
        if let Some((grams, plus_minus)) = entered {
            changed = Some(Purchase { grams, plus_minus, ..purchase.clone() });
        }
        let price_name = labels::price_of(name);
        let current = purchase.price.clone().unwrap_or_default();
        let entry = TypedField { id: id.with("price"), name: &price_name, current, hint: labels::PRICE_HINT, width: 110.0 };
        let (field, entered) = entry.show(ui, |text| read_price(text, money.currency.code()));
        field.on_hover_text(labels::PRICE_OF_A_PART);
        if let Some(price) = entered {
            changed = Some(Purchase { price, ..purchase.clone() });
        }
    });
    changed
}

/// A typed price, in the currency shown where none is written; nothing where the field is empty.
fn read_price(text: &str, currency: &str) -> Result<Option<String>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let (amount, own) = typed_price(text).map_err(|why| why.to_string())?;
    let currency = own.map_or(currency, |c| c.code());
    check_part_price(&format!("{amount} {currency}")).map(Some).map_err(|why| why.to_string())
}

fn part_ui(ui: &mut Ui, place: usize, part: &Part, shown: Shown<'_>, out: &mut Requests) {
    let label = if part.name.is_empty() { part.kind.label().to_owned() } else { format!("{}, {}", part.kind.label(), part.name) };
    small_ui(ui, &label);
    let name = labels::part(&part.kind.label(), &(place + 1));
    ui.horizontal(|ui| {
        let width = ui.available_width() - 44.0;
        let entry = TypedField {
            id: Id::unique(("part", place)),
            name: &name,
            current: part.text.clone(),
            hint: part.kind.example(),
            width,
        };
        let (field, entered) =
            entry.show(ui, |text| Part::new(part.kind, text, &part.name).map(|read| read.with_purchase(part.purchase.clone())));
        field.on_hover_text(labels::as_in(&part.kind.example()));
        if let Some(part) = entered {
            out.edit(Edit::Fit(FitEdit::Part(place, part)));
        }
        if remove_ui(ui, &labels::remove_part(&(place + 1))) {
            out.edit(Edit::Fit(FitEdit::RemovePart(place)));
        }
    });
    if let Some(purchase) = purchase_ui(ui, Id::unique(("purchase", place)), &name, &part.purchase, true, shown) {
        out.edit(Edit::Fit(FitEdit::Part(place, part.clone().with_purchase(purchase))));
    }
}

fn remove_ui(ui: &mut Ui, name: &str) -> bool {
    let button = ui.button("×").on_hover_text(labels::REMOVES_IT_FROM_THE_LIST);
    named(&button, name);
    button.clicked()
}
