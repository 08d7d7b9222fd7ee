//! The reviewed reading becomes a frameset.

use std::collections::BTreeMap;

use super::ImportError;
use super::reading::Reading;
use super::specification::SpecificationFact;
use crate::frameset::{Figure, Frameset, Price, Size, TextKind, Weight, read_frameset, write_frameset};

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
            sizes = self.sizes_of_specification();
        }
        if sizes.is_empty() {
            return Err(ImportError::NothingImported);
        }
        let mut frameset = Frameset {
            maker: maker.trim().to_owned(),
            model: model.trim().to_owned(),
            rounded_to: self.rounded_to,
            tyre: self.tyre,
            front_tyre: self.front_tyre,
            sizes,
            note: (!notes.is_empty()).then(|| notes.join("\n")),
            ..Frameset::blank()
        };
        let kept = self.state(&mut frameset);
        if !kept.is_empty() {
            let note = frameset.note.take().into_iter().chain(kept).collect::<Vec<_>>();
            frameset.note = Some(note.join("\n"));
        }
        // What the file would refuse, such as a drop longer than the chainstay, is refused here.
        let text = write_frameset(&frameset).map_err(|e| ImportError::Refused(e.to_string()))?;
        read_frameset(text.as_bytes()).map_err(|e| ImportError::Refused(e.to_string()))?;
        Ok(frameset)
    }

    /// Adds what the specification states to a frameset that is there: weights, prices and standards that it does not have.
    /// What it has already stays; what could not be added is returned, a line each.
    pub fn state(&self, frameset: &mut Frameset) -> Vec<String> {
        let mut kept = Vec::new();
        for row in &self.specification {
            for fact in &row.facts {
                if !add(frameset, fact) {
                    kept.push(format!("{}: {} ({})", row.label, row.text, fact.text()));
                }
            }
        }
        kept
    }

    /// The sizes that a specification alone names, without figures.
    fn sizes_of_specification(&self) -> Vec<Size> {
        let facts = || self.specification.iter().flat_map(|row| &row.facts);
        if facts().next().is_none() {
            return Vec::new();
        }
        let mut labels: Vec<&str> = Vec::new();
        let listed =
            facts().filter_map(|fact| if let SpecificationFact::Size(label) = fact { Some(label.as_str()) } else { None });
        let weighed = facts()
            .filter_map(|fact| if let SpecificationFact::Weight(Weight { size, .. }) = fact { size.as_deref() } else { None });
        for label in listed.chain(weighed) {
            if !labels.contains(&label) {
                labels.push(label);
            }
        }
        if labels.is_empty() {
            labels.push("one size");
        }
        labels.into_iter().map(Size::blank).collect()
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

/// Adds one fact; `false` where the frameset has another already, or lacks the size.
fn add(frameset: &mut Frameset, fact: &SpecificationFact) -> bool {
    match fact {
        SpecificationFact::Weight(weight) => {
            let has_size = weight.size.as_ref().is_none_or(|size| frameset.size_index(size).is_some());
            let same = |w: &Weight| w.part == weight.part && w.size == weight.size && w.grams == weight.grams;
            if has_size && !frameset.weights.iter().any(same) {
                frameset.weights.push(weight.clone());
            }
            has_size
        }
        SpecificationFact::Price(price) => {
            let same = |p: &Price| p.part == price.part && p.amount == price.amount && p.currency == price.currency;
            if !frameset.prices.iter().any(same) {
                frameset.prices.push(price.clone());
            }
            true
        }
        SpecificationFact::Standard(standard, text) => {
            *frameset.standards.entry(*standard).or_insert_with(|| text.clone()) == *text
        }
        SpecificationFact::Fork(fork) => *frameset.fork.get_or_insert_with(|| fork.clone()) == *fork,
        SpecificationFact::Tubing(tubing) => *frameset.tubing.get_or_insert_with(|| tubing.clone()) == *tubing,
        SpecificationFact::Year(year) => *frameset.year.get_or_insert(*year) == *year,
        SpecificationFact::Size(label) => frameset.size_index(label).is_some(),
    }
}
