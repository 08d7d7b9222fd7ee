//! The look: tones of paper and slate, the type, spacing. The only place of the window that names a colour, and it takes
//! all of them from the palette of the drawings, so that window and picture agree.
//!
//! Colours of frames are for frames alone; controls are ink. Nothing is coloured as good or bad.

use std::sync::Arc;

use egui::{Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, Panel, Stroke, TextStyle, Theme, vec2};

use super::session::Appearance;
use crate::drawing::{self, Background, Palette, Role, Weight};

/// The semibold family's name.
const SEMIBOLD_ID: &str = "semibold";

/// The tones in use.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tones {
    palette: Palette,
}

impl Tones {
    /// Those of the appearance that `ui` is in.
    pub(crate) fn of(ui: &egui::Ui) -> Self {
        Self::on(ui.visuals().dark_mode)
    }

    /// Dark or light.
    pub(crate) fn on(is_dark: bool) -> Self {
        Self { palette: Palette::of(if is_dark { Background::Dark } else { Background::Light }) }
    }

    /// A role's colour.
    pub(crate) fn colour(self, role: Role) -> Color32 {
        let colour = self.palette.colour(role);
        Color32::from_rgb(colour.r, colour.g, colour.b)
    }

    /// A role's colour, seen through.
    pub(crate) fn faded(self, role: Role, opacity: f64) -> Color32 {
        self.colour(role).gamma_multiply(opacity as f32)
    }

    /// Drawing ground.
    pub(crate) fn paper(self) -> Color32 {
        self.colour(Role::Background)
    }

    /// Ground of panels.
    pub(crate) fn panel(self) -> Color32 {
        self.colour(Role::Panel)
    }

    /// The two tones of a chequered ground, which stands for film seen through a sheet.
    pub(crate) fn chequer(self) -> [Color32; 2] {
        [self.faded(Role::Grey, 0.35), self.faded(Role::Grey, 0.22)]
    }

    /// Rules and borders.
    pub(crate) fn hairline(self) -> Color32 {
        self.colour(Role::Hairline)
    }

    /// Text and lines that matter.
    pub(crate) fn ink(self) -> Color32 {
        self.colour(Role::Ink)
    }

    /// Text of second rank.
    pub(crate) fn second(self) -> Color32 {
        self.colour(Role::SecondInk)
    }

    /// Differences within their ±.
    pub(crate) fn grey(self) -> Color32 {
        self.colour(Role::Grey)
    }
}

/// Semibold type of a size.
pub(crate) fn semibold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name(SEMIBOLD_ID.into()))
}

/// Regular type of a size.
pub(crate) fn regular(size: f32) -> FontId {
    FontId::proportional(size)
}

/// Small type under other type.
pub(crate) const SMALL: f32 = 12.0;
/// The type of controls and tables.
pub(crate) const BODY: f32 = 13.5;
/// Headings of panels.
pub(crate) const HEADING: f32 = 15.0;

/// Sets type, spacing and tones, once.
pub(crate) fn install(ctx: &egui::Context) {
    ctx.set_fonts(fonts());
    for theme in [Theme::Light, Theme::Dark] {
        ctx.style_mut_of(theme, |style| dress(style, Tones::on(theme == Theme::Dark), theme == Theme::Dark));
    }
    ctx.options_mut(|options| {
        options.zoom_with_keyboard = false;
        options.fallback_theme = Theme::Light;
    });
}

/// Light, dark, or as the desktop is.
pub(crate) fn set_appearance(ctx: &egui::Context, appearance: Appearance) {
    ctx.set_theme(match appearance {
        Appearance::System => egui::ThemePreference::System,
        Appearance::Light => egui::ThemePreference::Light,
        Appearance::Dark => egui::ThemePreference::Dark,
    });
}

/// Open Sans first; what it lacks comes from the toolkit's own faces.
fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    for weight in [Weight::Regular, Weight::Semibold] {
        let face = FontData::from_static(drawing::fonts::file(weight));
        fonts.font_data.insert(drawing::fonts::family(weight).to_owned(), Arc::new(face));
    }
    let fallback = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    let family = |first: &str| std::iter::once(first.to_owned()).chain(fallback.iter().cloned()).collect::<Vec<_>>();
    let (regular, semibold) = (family(drawing::fonts::family(Weight::Regular)), family(drawing::fonts::family(Weight::Semibold)));
    fonts.families.insert(FontFamily::Proportional, regular);
    fonts.families.insert(FontFamily::Name(SEMIBOLD_ID.into()), semibold);
    fonts
}

fn dress(style: &mut egui::Style, tones: Tones, is_dark: bool) {
    style.text_styles = [
        (TextStyle::Small, regular(SMALL)),
        (TextStyle::Body, regular(BODY)),
        (TextStyle::Button, regular(BODY)),
        (TextStyle::Heading, semibold(HEADING)),
        (TextStyle::Monospace, FontId::monospace(BODY)),
    ]
    .into();
    style.animation_time = 0.0;
    style.scroll_animation = egui::style::ScrollAnimation::none();
    style.interaction.tooltip_delay = 0.35;
    style.interaction.selectable_labels = false;

    let spacing = &mut style.spacing;
    spacing.item_spacing = vec2(8.0, 6.0);
    spacing.button_padding = vec2(8.0, 3.0);
    spacing.interact_size = vec2(28.0, 24.0);
    spacing.menu_margin = Margin::same(6);
    spacing.window_margin = Margin::same(16);
    spacing.combo_width = 64.0;
    spacing.icon_width = 14.0;
    spacing.icon_width_inner = 8.0;
    spacing.icon_spacing = 6.0;
    spacing.tooltip_width = 420.0;
    spacing.menu_width = 240.0;
    spacing.combo_height = 640.0;

    let visuals = &mut style.visuals;
    visuals.dark_mode = is_dark;
    visuals.panel_fill = tones.panel();
    visuals.window_fill = tones.paper();
    visuals.window_stroke = Stroke::new(1.0, tones.hairline());
    visuals.window_corner_radius = CornerRadius::same(6);
    visuals.menu_corner_radius = CornerRadius::same(4);
    visuals.extreme_bg_color = tones.paper();
    visuals.faint_bg_color = tones.panel();
    visuals.code_bg_color = tones.panel();
    visuals.hyperlink_color = tones.ink();
    visuals.warn_fg_color = tones.ink();
    visuals.error_fg_color = tones.ink();
    visuals.weak_text_color = Some(tones.second());
    visuals.selection.bg_fill = tones.faded(Role::Ink, 0.16);
    visuals.selection.stroke = Stroke::new(1.0, tones.ink());
    visuals.text_cursor.blink = false;
    visuals.text_cursor.stroke = Stroke::new(1.5, tones.ink());
    visuals.popup_shadow.blur = 6;
    visuals.popup_shadow.offset = [0, 2];
    visuals.indent_has_left_vline = false;

    let widgets = &mut visuals.widgets;
    let radius = CornerRadius::same(3);
    let state = |widget: &mut egui::style::WidgetVisuals, fill: Color32, line: Color32, text: Color32| {
        widget.bg_fill = fill;
        widget.weak_bg_fill = fill;
        widget.bg_stroke = Stroke::new(1.0, line);
        widget.fg_stroke = Stroke::new(1.0, text);
        widget.corner_radius = radius;
        widget.expansion = 0.0;
    };
    state(&mut widgets.noninteractive, tones.panel(), tones.hairline(), tones.ink());
    state(&mut widgets.inactive, tones.panel(), tones.faded(Role::SecondInk, 0.55), tones.ink());
    // The rail of a slider must show on a panel.
    widgets.inactive.bg_fill = tones.hairline();
    state(&mut widgets.hovered, tones.panel(), tones.second(), tones.ink());
    state(&mut widgets.active, tones.hairline(), tones.ink(), tones.ink());
    state(&mut widgets.open, tones.hairline(), tones.second(), tones.ink());
}

/// The panel that a `Panel::top` of ours stands in: no inner rule, our own margins.
pub(crate) fn bar(id: &'static str) -> Panel {
    Panel::top(id).show_separator_line(false).resizable(false)
}
