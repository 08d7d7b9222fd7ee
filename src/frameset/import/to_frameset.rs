//! The reviewed reading becomes a frameset.

use std::collections::BTreeMap;

use super::ImportError;
use super::reading::Reading;
use crate::frameset::{Figure, Frameset, Size, TextKind, read_frameset, write_frameset};

impl Reading {
    /// The frameset of all that was taken. Sizes left out and sizes without a figure are not in it; what is no figure is
    /// in its note.
    ///
    /// # Errors
    /// Questions that must be answered first; nothing taken; two sizes of one label; what a frame file would refuse.
    pub fn to_frameset(&self, maker: &str, model: &str) -> Result<Frameset, ImportError> {
        for (what, text) in [("the maker", maker), ("the model", model)] {
            TextKind::Name.check(what, text.trim()).map_err(|why| ImportError::Refused(why.to_string()))?;
        }
        let open: Vec<String> = self.open_questions().map(|q| q.sentence.clone()).collect();
        if !open.is_empty() {
            return Err(ImportError::Open(open));
        }
        let mut notes = self.notes();
        let mut sizes: Vec<Size> = Vec::new();
        for (place, size) in self.sizes.iter().enumerate().filter(|(_, s)| !s.left_out) {
            let figures = self.figures_of(place);
            if figures.is_empty() {
                notes.push(format!("size {}: no figures are published", size.label));
                continue;
            }
            if sizes.iter().any(|s| s.label == size.label) {
                return Err(ImportError::SameLabel(size.label.clone()));
            }
            let rounded_to = self.steps.iter().filter(|(f, _)| figures.contains_key(f)).map(|(f, s)| (*f, *s)).collect();
            sizes.push(Size { figures, rounded_to, ..Size::blank(&size.label) });
        }
        if sizes.is_empty() {
            return Err(ImportError::NothingImported);
        }
        let frameset = Frameset {
            maker: maker.trim().to_owned(),
            model: model.trim().to_owned(),
            rounded_to: self.rounded_to,
            tyre: self.tyre,
            front_tyre: self.front_tyre,
            sizes,
            note: (!notes.is_empty()).then(|| notes.join("\n")),
            ..Frameset::blank()
        };
        // What the file would refuse, such as a drop longer than the chainstay, is refused here.
        let text = write_frameset(&frameset).map_err(|e| ImportError::Refused(e.to_string()))?;
        read_frameset(text.as_bytes()).map_err(|e| ImportError::Refused(e.to_string()))?;
        Ok(frameset)
    }

    fn figures_of(&self, place: usize) -> BTreeMap<Figure, f64> {
        self.rows
            .iter()
            .filter_map(|row| {
                let (figure, _) = row.figure?;
                let value = row.cells.get(place)?.value?;
                Some((figure, value))
            })
            .collect()
    }
}
