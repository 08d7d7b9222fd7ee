//! Plots of any figure against any other: Steering begins with trail against chainstay, the other with stack against
//! reach. Every size of every shown frame is a point with its ± as bars.

use egui::{ComboBox, Id, Ui};

use super::super::canvas::{kept, tell};
use super::super::commands::Command;
use super::super::edits::{Edit, Plot};
use super::super::labels::drawings as labels;
use super::super::named::named;
use super::super::plot_field::{PlotField, Wheel};
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::super::viewport::Viewport;
use super::{View, ViewId, switch_ui};
use crate::drawing::{Page, PlotView, plot_marks};
use crate::frameset::Figure;
use crate::lineup::{Axes, PictureView};

/// A plot as a view.
pub(crate) struct PlotPanel {
    plot: Plot,
    picture: PictureView,
}

/// How the frames steer.
pub(crate) static STEERING: PlotPanel = PlotPanel { plot: Plot::Steering, picture: PictureView::Steering };

/// Where they put the hands.
pub(crate) static STACK_AND_REACH: PlotPanel = PlotPanel { plot: Plot::StackAndReach, picture: PictureView::StackAndReach };

impl PlotPanel {
    fn axes(&self, shown: Shown<'_>) -> Axes {
        match self.plot {
            Plot::Steering => shown.lineup().settings.steering,
            Plot::StackAndReach => shown.lineup().settings.stack_and_reach,
        }
    }

    fn picker_ui(&self, ui: &mut Ui, axes: Axes, is_up: bool, out: &mut Requests) {
        let (name, chosen) = if is_up { (labels::VERTICAL_AXIS, axes.up) } else { (labels::HORIZONTAL_AXIS, axes.across) };
        let combo = ComboBox::from_id_salt((self.plot, name)).width(150.0).selected_text(chosen.label()).show_ui(ui, |ui| {
            for figure in Figure::ALL {
                let response = ui.selectable_label(*figure == chosen, figure.label()).on_hover_text(figure.meaning());
                if response.clicked() {
                    let axes = if is_up { Axes { up: *figure, ..axes } } else { Axes { across: *figure, ..axes } };
                    out.edit(Edit::Axes { plot: self.plot, axes });
                }
            }
        });
        named(&combo.response, labels::figure(&name));
        combo.response.on_hover_text(chosen.meaning());
        ui.label(egui::RichText::new(name).size(SMALL).color(Tones::of(ui).second()));
    }
}

impl View for PlotPanel {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let axes = self.axes(shown);
        switch_ui(ui, false, Command::Fit, out);
        self.picker_ui(ui, axes, false, out);
        self.picker_ui(ui, axes, true, out);
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, view: ViewId, out: &mut Requests) {
        let axes = self.axes(shown);
        let units = shown.lineup().settings.units;
        let id = Id::unique(view);
        let revision = shown.document.revision();
        let marks = kept(ui, id.with("marks of"), revision, || plot_marks(shown.findings(), axes, units));
        let field = PlotField {
            id,
            marks: &marks,
            revision,
            view: seen(shown, view),
            wheel: Wheel::Zooms,
            figures: Some([axes.across, axes.up]),
        };
        let place = ui.available_rect_before_wrap();
        let (after, is_all) = field.show(ui, place, shown, out);
        look(view, after, out);
        if is_all {
            out.command(Command::Fit);
        }
        tell(ui.ctx(), None);
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(self.picture)
    }
}

/// The part of its plane that the plot of a view shows, where it is not all.
pub(super) fn seen(shown: Shown<'_>, id: ViewId) -> Option<PlotView> {
    match shown.moment.viewports.get(&id).copied() {
        Some((Viewport::Plot(view), _)) => Some(view),
        _ => None,
    }
}

/// Asks for another part of a plot's plane. The page that it was seen on does not count for a plot.
pub(super) fn look(id: ViewId, view: Option<PlotView>, out: &mut Requests) {
    if let Some(view) = view {
        out.push(Request::Look(id, Some((Viewport::Plot(view), Page { width: 1.0, height: 1.0 }))));
    }
}
