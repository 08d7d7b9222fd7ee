//! Changes to a frameset that keep every rule of its file: a changed frameset can always be written and read again.
//!
//! Each change is refused with the sentence that reading the file would give, and then changes nothing.

use super::figure::Figure;
use super::limits::TextKind;
use super::model::{Frameset, RoundedTo, Size};
use super::places::SizeIndex;
use super::value_error::ValueError;
use super::values::{check_figure, check_step};

/// Why a change was refused, in a sentence for the field.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Refused {
    /// A value that is not accepted.
    #[error("{0}")]
    Value(#[from] ValueError),
    /// A place behind the last size.
    #[error("there is no such size")]
    NoSuchSize,
    /// A bottom bracket drop that is not shorter than the chainstay, mm.
    #[error("BbDrop {drop} mm is not shorter than Chainstay {chainstay} mm")]
    DropNotShorter {
        /// Bottom bracket drop, mm.
        drop: f64,
        /// Chainstay, mm.
        chainstay: f64,
    },
    /// Removal of the only size.
    #[error("a frameset needs at least one size")]
    LastSize,
    /// A size without a label.
    #[error("a size needs a label")]
    NoLabel,
    /// A label that another size has.
    #[error("size \"{0}\" is given twice")]
    LabelTaken(String),
}

impl Frameset {
    /// A new frameset with one empty size, to be filled in.
    #[must_use]
    pub fn blank() -> Self {
        Self {
            format: Self::FORMAT,
            maker: String::new(),
            model: String::new(),
            year: None,
            rounded_to: RoundedTo::default(),
            tyre: None,
            front_tyre: None,
            bar: None,
            tubing: None,
            fork: None,
            tube_diameters: std::collections::BTreeMap::new(),
            tube_walls: std::collections::BTreeMap::new(),
            small_parts: std::collections::BTreeMap::new(),
            stated: Vec::new(),
            sizes: vec![Size::blank("M")],
            weights: Vec::new(),
            prices: Vec::new(),
            standards: std::collections::BTreeMap::new(),
            sources: Vec::new(),
            note: None,
        }
    }

    /// Prints `value` as `figure` of the size at `index`, or takes the figure out with `None`. A printed figure is
    /// believed again: it is neither set aside nor used anyway.
    ///
    /// # Errors
    /// A value that cannot be in the figure's unit, a drop that is not shorter than the chainstay, no such size.
    pub fn set_figure(&mut self, index: SizeIndex, figure: Figure, value: Option<f64>) -> Result<(), Refused> {
        let size = index.of_mut(&mut self.sizes).ok_or(Refused::NoSuchSize)?;
        let Some(value) = value else {
            size.figures.remove(&figure);
            size.rounded_to.remove(&figure);
            size.ignored.remove(&figure);
            size.use_anyway.remove(&figure);
            return Ok(());
        };
        check_figure(figure, value)?;
        let of = |other: Figure| if other == figure { Some(value) } else { size.figures.get(&other).copied() };
        if let (Some(drop), Some(chainstay)) = (of(Figure::BbDrop), of(Figure::Chainstay))
            && drop.abs() >= chainstay
        {
            return Err(Refused::DropNotShorter { drop, chainstay });
        }
        if size.figures.insert(figure, value) != Some(value) {
            size.ignored.remove(&figure);
            size.use_anyway.remove(&figure);
        }
        Ok(())
    }

    /// Says to which step a figure of a size was printed; `None` falls back to the file's.
    ///
    /// # Errors
    /// A step that is not above zero or too coarse.
    pub fn set_step(&mut self, index: SizeIndex, figure: Figure, step: Option<f64>) -> Result<(), Refused> {
        if let Some(step) = step {
            check_step(step)?;
        }
        if let Some(size) = index.of_mut(&mut self.sizes) {
            match step {
                Some(step) => size.rounded_to.insert(figure, step),
                None => size.rounded_to.remove(&figure),
            };
        }
        Ok(())
    }

    /// Says to which steps the whole table was printed.
    ///
    /// # Errors
    /// A step that is not above zero or too coarse.
    pub fn set_rounded_to(&mut self, rounded_to: RoundedTo) -> Result<(), Refused> {
        check_step(rounded_to.mm)?;
        check_step(rounded_to.deg)?;
        self.rounded_to = rounded_to;
        Ok(())
    }

    /// Adds an empty size behind the one at `index` and returns its place.
    pub fn add_size(&mut self, index: SizeIndex) -> SizeIndex {
        self.insert_size(index, Size::blank(""))
    }

    /// Adds a copy of the size at `index` behind it and returns its place.
    pub fn copy_size(&mut self, index: SizeIndex) -> SizeIndex {
        let copy = index.of(&self.sizes).cloned().unwrap_or_else(|| Size::blank(""));
        self.insert_size(index, copy)
    }

    fn insert_size(&mut self, index: SizeIndex, mut size: Size) -> SizeIndex {
        let (base, behind) = if size.label.is_empty() { ("new", "") } else { (size.label.as_str(), " copy") };
        let is_free = |label: &str| self.size_index(label).is_none();
        let first = TextKind::Name.with_behind(base, behind);
        let numbered = (2..).map(|n| TextKind::Name.with_behind(base, &format!("{behind} {n}")));
        size.label = std::iter::once(first.clone()).chain(numbered).find(|l| is_free(l)).unwrap_or(first);
        let at = (index.0 + 1).min(self.sizes.len());
        self.sizes.insert(at, size);
        SizeIndex(at)
    }

    /// Takes a size out, and the weights that were published for it.
    ///
    /// # Errors
    /// The last size stays: a frameset needs at least one.
    pub fn remove_size(&mut self, index: SizeIndex) -> Result<(), Refused> {
        if self.sizes.len() <= 1 {
            return Err(Refused::LastSize);
        }
        if index.0 < self.sizes.len() {
            let gone = self.sizes.remove(index.0);
            self.weights.retain(|w| w.size.as_deref() != Some(gone.label.as_str()));
        }
        Ok(())
    }

    /// Whether its parts hold together: each weight is of a size that there is, and nothing is set aside but what is
    /// printed.
    ///
    /// # Errors
    /// The word that it is about, and a sentence.
    pub fn check_whole(&self) -> Result<(), (&'static str, String)> {
        for label in self.weights.iter().filter_map(|w| w.size.as_deref()) {
            if self.size_index(label).is_none() {
                let labels: Vec<String> = self.sizes.iter().map(|s| format!("\"{}\"", s.label)).collect();
                let sentence = format!("a weight of size \"{label}\": the sizes are {}", labels.join(", "));
                return Err(("weights", sentence));
            }
        }
        for size in &self.sizes {
            if let Some(figure) = size.ignored.keys().find(|f| !size.figures.contains_key(f)) {
                let (figure, label) = (figure.label().to_lowercase(), &size.label);
                return Err(("ignored", format!("size \"{label}\" ignores its {figure}, which is not published")));
            }
        }
        Ok(())
    }

    /// Gives a size another label; weights published for it follow.
    ///
    /// # Errors
    /// An empty label, or one that another size has.
    pub fn rename_size(&mut self, index: SizeIndex, label: &str) -> Result<(), Refused> {
        let label = label.trim();
        if label.is_empty() {
            return Err(Refused::NoLabel);
        }
        TextKind::Name.check("the label", label)?;
        if self.size_index(label).is_some_and(|other| other != index) {
            return Err(Refused::LabelTaken(label.to_owned()));
        }
        if let Some(size) = index.of_mut(&mut self.sizes) {
            let before = std::mem::replace(&mut size.label, label.to_owned());
            for weight in self.weights.iter_mut().filter(|w| w.size.as_deref() == Some(before.as_str())) {
                weight.size = Some(label.to_owned());
            }
        }
        Ok(())
    }
}

impl Size {
    /// A size without any figure.
    #[must_use]
    pub fn blank(label: &str) -> Self {
        Self {
            label: label.to_owned(),
            figures: std::collections::BTreeMap::new(),
            rounded_to: std::collections::BTreeMap::new(),
            ignored: std::collections::BTreeMap::new(),
            use_anyway: std::collections::BTreeSet::new(),
            measured: std::collections::BTreeMap::new(),
            junctions: super::model::Junctions::default(),
            top_tube_bends: Vec::new(),
            seat_tube_bends: Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{read_frameset, write_frameset};

    #[test]
    fn what_was_changed_can_be_written_and_read_again() {
        let mut frameset = Frameset::blank();
        frameset.maker = "Quern".to_owned();
        frameset.set_figure(SizeIndex(0), Figure::Stack, Some(585.0)).unwrap();
        frameset.set_step(SizeIndex(0), Figure::Stack, Some(0.5)).unwrap();
        let copy = frameset.copy_size(SizeIndex(0));
        frameset.rename_size(copy, "L").unwrap();
        frameset.add_size(copy);
        assert_eq!(frameset.sizes.iter().map(|s| s.label.as_str()).collect::<Vec<_>>(), ["M", "L", "new"]);
        let text = write_frameset(&frameset).unwrap();
        assert_eq!(read_frameset(text.as_bytes()).unwrap(), frameset);
    }

    #[test]
    fn a_refused_change_changes_nothing() {
        let mut frameset = Frameset::blank();
        frameset.set_figure(SizeIndex(0), Figure::Chainstay, Some(440.0)).unwrap();
        let before = frameset.clone();
        for (figure, value) in
            [(Figure::Stack, 0.61), (Figure::Stack, f64::NAN), (Figure::Trail, 900.0), (Figure::WheelFlop, 20.0)]
        {
            assert!(frameset.set_figure(SizeIndex(0), figure, Some(value)).is_err(), "{figure:?} {value}");
        }
        assert!(frameset.set_step(SizeIndex(0), Figure::Chainstay, Some(0.0)).is_err());
        assert!(frameset.remove_size(SizeIndex(0)).is_err());
        assert!(frameset.rename_size(SizeIndex(0), " ").is_err());
        assert_eq!(frameset, before);
    }

    #[test]
    fn a_corrected_figure_is_believed_again() {
        let mut frameset = Frameset::blank();
        frameset.set_figure(SizeIndex(0), Figure::Stack, Some(585.0)).unwrap();
        frameset.sizes[0].ignored.insert(Figure::Stack, "contradicts the rest".to_owned());
        frameset.set_figure(SizeIndex(0), Figure::Stack, Some(595.0)).unwrap();
        assert_eq!(frameset.sizes[0].believed(Figure::Stack), Some(595.0));
        frameset.set_figure(SizeIndex(0), Figure::Stack, None).unwrap();
        assert!(frameset.sizes[0].figures.is_empty());
    }
}
