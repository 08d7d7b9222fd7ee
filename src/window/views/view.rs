//! What a view is to the window.

use egui::Ui;

use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::view_id::ViewId;
use crate::lineup::{PictureView, Sheet};

/// A view: what stands behind one tab.
pub(crate) trait View: Sync {
    /// Its switches, at the right end of the row of tabs. Laid out from right to left.
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests);

    /// The view itself, in all the space that is left, shown as `id`.
    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, id: ViewId, out: &mut Requests);

    /// What it shows as a picture; `None` for a table.
    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        None
    }

    /// The sheet that it shows, which is then its picture.
    fn sheet(&self, _shown: Shown<'_>) -> Option<Sheet> {
        None
    }
}
