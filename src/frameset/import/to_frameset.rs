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
        self.check_answered()?;
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
        note_below(&mut frameset, kept);
        check_file(frameset)
    }

    /// Whether it is a specification list alone, which can be added to a frameset that is there.
    #[must_use]
    pub fn is_specification_alone(&self) -> bool {
        self.rows.is_empty() && !self.specification.is_empty()
    }

    /// A frameset that is there, with what the specification states besides. What it has already stays; what could not be
    /// added, and what was not understood, stands in its note.
    ///
    /// # Errors
    /// Questions that must be answered first; a geometry table, or nothing to add; what a frame file would refuse.
    pub fn added_to(&self, frameset: &Frameset) -> Result<Frameset, ImportError> {
        self.check_answered()?;
        if !self.is_specification_alone() {
            return Err(ImportError::NothingImported);
        }
        let mut frameset = frameset.clone();
        let kept = self.state(&mut frameset);
        note_below(&mut frameset, self.notes().into_iter().chain(kept).collect());
        check_file(frameset)
    }

    fn check_answered(&self) -> Result<(), ImportError> {
        let open: Vec<String> = self.open_questions().map(|q| q.sentence.clone()).collect();
        if open.is_empty() { Ok(()) } else { Err(ImportError::Open(open)) }
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

/// Adds lines below the frameset's note.
fn note_below(frameset: &mut Frameset, lines: Vec<String>) {
    if !lines.is_empty() {
        frameset.note = Some(frameset.note.take().into_iter().chain(lines).collect::<Vec<_>>().join("\n"));
    }
}

/// What the file would refuse, such as a drop longer than the chainstay, is refused here.
fn check_file(frameset: Frameset) -> Result<Frameset, ImportError> {
    let text = write_frameset(&frameset).map_err(|e| ImportError::Refused(e.to_string()))?;
    read_frameset(text.as_bytes()).map_err(|e| ImportError::Refused(e.to_string()))?;
    Ok(frameset)
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

#[cfg(test)]
mod tests {
    use super::super::read_text;
    use super::*;

    fn frameset() -> Frameset {
        let text = "(format: 1, maker: \"Quern\", model: \"Ash\", note: \"of old\", weights: [(part: Frame, grams: 2300, from: Claimed)],
            sizes: [(label: \"M\", figures: {Stack: 610})])";
        read_frameset(text.as_bytes()).expect("well-formed")
    }

    #[test]
    fn a_specification_is_added_and_nothing_that_was_there_is_replaced_or_lost() {
        let list = "Frame weight: 2.4 kg\nFork weight (size XL): 950 g\nPrice: 899 EUR\nPaint: moss green";
        let before = frameset();
        let after = read_text(list).expect("read").added_to(&before).expect("added");
        assert_eq!(after.sizes, before.sizes);
        assert_eq!(after.weights.first(), before.weights.first());
        assert!(after.weights.iter().any(|w| w.grams == 2400.0), "another weight of the frame stands beside the first");
        assert_eq!(after.prices.len(), 1);
        let note = after.note.expect("a note");
        for kept in ["of old", "950 g", "moss green"] {
            assert!(note.contains(kept), "{kept}: {note}");
        }
    }

    #[test]
    fn a_geometry_table_is_not_added() {
        let reading = read_text("Size\tM\nStack\t600\nReach\t400").expect("read");
        assert!(!reading.is_specification_alone());
        assert_eq!(reading.added_to(&frameset()), Err(ImportError::NothingImported));
    }
}
