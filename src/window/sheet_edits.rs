//! Changes of the line-up's sheets: part of [`Edit`](super::edits::Edit); and which sheet is in front. Places beyond the
//! last sheet change nothing.

use super::labels::changes as labels;
use crate::frameset::TextKind;
use crate::lineup::{Lineup, Sheet};

/// Which sheet is in front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetPlace {
    /// The line-up's own at this place.
    Own(usize),
    /// The one to begin with at this place; a change of it makes it the line-up's own.
    ToBegin(usize),
}

/// Which sheet was asked for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Asked {
    /// The one asked for, if one was.
    pub(crate) place: Option<SheetPlace>,
    /// Place of the one to begin with that was last looked at.
    pub(crate) begun: usize,
}

impl Asked {
    /// Asks for another one.
    pub(crate) fn ask(&mut self, place: SheetPlace) {
        self.place = Some(place);
        if let SheetPlace::ToBegin(index) = place {
            self.begun = index;
        }
    }
}

/// A change of the line-up's sheets.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetEdit {
    /// The sheet at this place, changed; behind the last place it is a new one.
    Put {
        /// Place of the sheet among the line-up's own.
        place: usize,
        /// As it now is.
        sheet: Box<Sheet>,
        /// What was changed, for undo.
        what: String,
        /// The field that it was typed in: keystrokes in one field are one step.
        field: Option<u64>,
    },
    /// Away with the sheet at this place.
    Remove(usize),
}

impl SheetEdit {
    /// In words, after "undo" and "redo".
    pub(crate) fn label(&self, lineup: &Lineup) -> String {
        match self {
            Self::Put { sheet, what, .. } => labels::of_the_sheet(&what, &sheet.name),
            Self::Remove(place) => labels::removing_the_sheet(&lineup.sheets.get(*place).map_or("", |s| s.name.as_str())),
        }
    }

    /// Makes the change in the line-up.
    pub(crate) fn apply(self, lineup: &mut Lineup) {
        match self {
            Self::Put { place, sheet, .. } if place == lineup.sheets.len() => {
                let name = free_name(lineup, &sheet.name);
                lineup.sheets.push(Sheet { name, ..*sheet });
            }
            Self::Put { place, sheet, .. } => {
                if let Some(own) = lineup.sheets.get_mut(place) {
                    *own = *sheet;
                }
            }
            Self::Remove(place) if place < lineup.sheets.len() => drop(lineup.sheets.remove(place)),
            Self::Remove(_) => {}
        }
    }
}

/// The sheet in front, and its place: the one asked for; where it is gone, the one to begin with that was last looked at;
/// where none was asked for, the first.
pub(crate) fn sheet_in_front(lineup: &Lineup, asked: Asked) -> (SheetPlace, Sheet) {
    let of = |place: SheetPlace| match place {
        SheetPlace::Own(index) => lineup.sheets.get(index).cloned(),
        SheetPlace::ToBegin(index) => Sheet::presets().into_iter().nth(index),
    };
    [asked.place.unwrap_or(SheetPlace::Own(0)), SheetPlace::ToBegin(asked.begun)]
        .into_iter()
        .find_map(|place| of(place).map(|sheet| (place, sheet)))
        .unwrap_or_else(|| (SheetPlace::ToBegin(0), Sheet::default()))
}

/// A name that no sheet of the line-up has: the one asked for, or its beginning with a number behind it.
pub(crate) fn free_name(lineup: &Lineup, name: &str) -> String {
    let is_free = |name: &str| lineup.sheets.iter().all(|s| !is_same_name(&s.name, name));
    let name = name.trim();
    let mut free = name.to_owned();
    let mut number = 1;
    while !is_free(&free) {
        number += 1;
        free = TextKind::Name.with_behind(name, &format!(" {number}"));
    }
    free
}

/// Whether two names are one to the line-up's file: small and capital letters are alike there.
pub(crate) fn is_same_name(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn put(place: usize, name: &str) -> SheetEdit {
        let sheet = Box::new(Sheet { name: name.to_owned(), ..Sheet::default() });
        SheetEdit::Put { place, sheet, what: "title".to_owned(), field: None }
    }

    #[test]
    fn sheets_are_put_under_free_names_and_taken_away() {
        let mut lineup = Lineup::default();
        let mut asked = Asked::default();
        assert!(matches!(sheet_in_front(&lineup, asked), (SheetPlace::ToBegin(0), _)));
        asked.ask(SheetPlace::ToBegin(2));
        asked.ask(SheetPlace::Own(0));
        assert!(matches!(sheet_in_front(&lineup, asked), (SheetPlace::ToBegin(2), _)), "undone: where it began");
        for (place, name) in [(0, "Ärmel"), (1, "ärmel"), (7, "x")] {
            put(place, name).apply(&mut lineup);
        }
        assert_eq!(lineup.sheets.iter().map(|s| s.name.as_str()).collect::<Vec<_>>(), ["Ärmel", "ärmel 2"]);
        let written = crate::lineup::write_lineup(&lineup).expect("written");
        assert!(crate::lineup::read_lineup(written.as_bytes()).is_ok(), "it opens again");
        assert_eq!(SheetEdit::Remove(1).label(&lineup), "removing the sheet “ärmel 2”");
        assert!(matches!(sheet_in_front(&lineup, Asked::default()), (SheetPlace::Own(0), _)));
        SheetEdit::Remove(0).apply(&mut lineup);
        SheetEdit::Remove(5).apply(&mut lineup);
        assert_eq!(lineup.sheets.len(), 1);
    }
}
