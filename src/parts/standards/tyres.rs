//! Tyres by designation or trade name, and the room that a frame states for them, by wheel and drivetrain.

use super::super::reading::{folded, mm, numbers, plain, says, unknown_word};
use super::wheel_names::{bead_seat_named, contradiction};
use super::{NotUnderstood, refused};
use crate::frameset::TyreSize;

/// A tyre from `47-622`, `47-622 (29 in)`, `29 x 2.0`, `26 x 1.5`, `700 x 32C`.
///
/// Inches of width become whole millimetres (× 25.4, rounded), as makers print both on one wall.
///
/// # Errors
/// A name that means several wheels, a name that contradicts the designation beside it, or no size at all.
pub fn named_tyre(text: &str) -> Result<TyreSize, NotUnderstood> {
    let folded = folded(text);
    let designation = folded.split([' ', ',', '(', ';']).find(|w| w.contains('-') && w.bytes().any(|b| b.is_ascii_digit()));
    if let Some(word) = designation
        && !folded.contains('x')
    {
        let tyre: TyreSize = word.parse().map_err(|e: crate::frameset::TyreError| NotUnderstood(e.to_string()))?;
        return match contradiction(&folded, bead_seat(tyre)) {
            Some(sentence) => refused(format!("`{}`: {sentence}", text.trim())),
            None => Ok(tyre),
        };
    }
    let Some((name, width)) = folded.split_once('x') else {
        return refused(format!("`{}` is not a tyre: write it as on its wall, such as 47-622 or 29 x 1.85", text.trim()));
    };
    let name = name.trim();
    let width = width.trim().trim_end_matches(['"', '″']).trim_end_matches("inch").trim_end_matches("in").trim();
    // `700 x 32C`: the letter of the rim stands behind the width.
    let (name, width) = match (name, width.strip_suffix(['a', 'b', 'c'])) {
        ("700" | "650", Some(bare)) => (format!("{name}{}", width.chars().next_back().unwrap_or('c')), bare.trim()),
        _ => (name.to_owned(), width),
    };
    let bead = bead_seat_named(&name, Some(width))?;
    let printed = width_in_numbers(width)
        .ok_or_else(|| NotUnderstood(format!("`{width}` is not a tyre's width: write millimetres or inches, such as 2.1")))?;
    let width_mm = if printed < 10.0 { printed * 25.4 } else { printed };
    whole(width_mm, bead)
}

/// The bead seat as a whole number of millimetres.
fn bead_seat(tyre: TyreSize) -> u16 {
    tyre.to_string().rsplit('-').next().and_then(|n| n.parse().ok()).unwrap_or(0)
}

fn whole(width_mm: f64, bead: u16) -> Result<TyreSize, NotUnderstood> {
    (18u32..=150)
        .find(|w| (f64::from(*w) - width_mm).abs() <= 0.5)
        .ok_or_else(|| NotUnderstood(format!("a tyre {} wide is outside 18 to 150 mm", mm(width_mm))))
        .and_then(|w| TyreSize::new(w, u32::from(bead)).map_err(|e| NotUnderstood(e.to_string())))
}

/// `1 1/2` and `1½` as 1.5.
fn width_in_numbers(width: &str) -> Option<f64> {
    let spaced = width.replace('½', " 1/2").replace('⅜', " 3/8").replace('⅝', " 5/8").replace('-', " ");
    let mut sum = 0.0;
    for word in spaced.split_whitespace() {
        sum += match word.split_once('/') {
            Some((a, b)) => a.parse::<f64>().ok()? / b.parse::<f64>().ok().filter(|b| *b > 0.0)?,
            None => word.replace(',', ".").parse().ok()?,
        };
    }
    (sum > 0.0).then_some(sum)
}

/// One statement of a frame's room for tyres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TyreClearance {
    /// Bead seat diameter of the wheel, mm.
    pub bead_seat_mm: f64,
    /// The widest tyre that the maker sells it for, mm. It leaves whatever gap the maker wants.
    pub widest_mm: Option<f64>,
    /// The clear width itself, mm, where the maker states that.
    pub clear_mm: Option<f64>,
    /// The crank's spacing that the statement is tied to, mm; with any where absent.
    pub with_spacing_mm: Option<f64>,
    /// Whether mudguards are in it.
    pub with_mudguards: bool,
}

/// All that a frame states about its room for tyres: several wheels, several drivetrains.
#[derive(Clone, Debug, PartialEq)]
pub struct TyreClearances(pub Vec<TyreClearance>);

impl TyreClearances {
    /// Reads `60-622`, `60-622; 66-584 with spacing 142`, `clear 72 on 622`, `50-622 with mudguards`.
    ///
    /// # Errors
    /// A clause without a size.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let mut rooms = Vec::new();
        for clause in text.split(';').map(folded).filter(|c| !c.is_empty()) {
            // Without mudguards is what a statement means that does not name them.
            let own = clause.strip_suffix(" without mudguards").unwrap_or(&clause);
            let (size, condition) = match own.split_once(" with ") {
                Some((size, condition)) => (size, Some(condition)),
                None => (own, None),
            };
            let known = ["spacing", "mudguards", "mudguard", "a", "and", "crank", "of", "mm"];
            if let Some(word) = condition.and_then(|c| unknown_word(c, &known)) {
                return refused(format!("`{word}` in `{clause}` is no condition: write with mudguards, or with spacing 148"));
            }
            let mut room = TyreClearance {
                bead_seat_mm: 0.0,
                widest_mm: None,
                clear_mm: None,
                with_spacing_mm: condition.filter(|c| says(c, "spacing")).and_then(|c| numbers(c).first().copied()),
                with_mudguards: condition.is_some_and(|c| says(c, "mudguards") || says(c, "mudguard")),
            };
            if says(size, "clear") {
                let [clear, bead] = numbers(size)[..] else {
                    return refused(format!("`{clause}`: write the clear width and the wheel, such as `clear 72 on 622`"));
                };
                room.clear_mm = Some(clear);
                room.bead_seat_mm = bead;
            } else {
                let tyre = named_tyre(size)?;
                room.widest_mm = Some(tyre.width_mm());
                room.bead_seat_mm = tyre.bead_seat_mm();
            }
            rooms.push(room);
        }
        if rooms.is_empty() { refused("no tyre is stated: write the widest one, such as 57-622") } else { Ok(Self(rooms)) }
    }

    /// The wheels that are stated at all, bead seat diameters in mm.
    #[must_use]
    pub fn wheels(&self) -> Vec<f64> {
        let mut wheels: Vec<f64> = self.0.iter().map(|r| r.bead_seat_mm).collect();
        wheels.dedup();
        wheels
    }

    /// `622 or 584`.
    #[must_use]
    pub fn wheels_in_words(&self) -> String {
        self.wheels().iter().map(|w| plain(*w)).collect::<Vec<_>>().join(" or ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tyres_go_by_designation_or_by_name() {
        // 700 × 32C is 32-622, 29 is 622: trade practice, unverified.
        for (text, right) in [
            ("47-622", "47-622"),
            ("47-622 (29 in)", "47-622"),
            ("29 x 2.0", "51-622"),
            ("29\" × 2.25\"", "57-622"),
            ("700 x 32C", "32-622"),
            ("700C x 32", "32-622"),
            ("26 x 1.5", "38-559"),
            ("26 x 1 1/2", "38-584"),
            ("650B x 47", "47-584"),
        ] {
            assert_eq!(named_tyre(text).map(|t| t.to_string()), Ok(right.to_owned()), "{text}");
        }
    }

    #[test]
    fn what_is_wrong_is_said_at_once() {
        let sentence = |text: &str| named_tyre(text).unwrap_err().0;
        assert!(sentence("44-622, 26 in").contains("never called 26"));
        assert!(sentence("622-44").contains("`44-622`"));
        assert!(sentence("26").contains("not a tyre"));
        assert!(sentence("26 x 50").contains("more than one wheel"), "millimetres do not settle a name in inches");
        assert!(sentence("").contains("not a tyre"));
    }

    #[test]
    fn a_frame_may_state_several_rooms() {
        let TyreClearances(rooms) = TyreClearances::read("60-622; 66-584 with spacing 142; clear 72 on 622").unwrap();
        assert_eq!(rooms[0].widest_mm, Some(60.0));
        assert_eq!((rooms[1].bead_seat_mm, rooms[1].with_spacing_mm), (584.0, Some(142.0)));
        assert_eq!((rooms[2].clear_mm, rooms[2].bead_seat_mm), (Some(72.0), 622.0));
        assert!(TyreClearances::read("").is_err());
        assert!(
            TyreClearances::read("60-622 with one chainring").unwrap_err().0.contains("`one`"),
            "a condition is never dropped"
        );
        assert!(!TyreClearances::read("60-622 without mudguards").unwrap().0[0].with_mudguards);
    }

    #[test]
    fn a_designation_is_found_among_other_words() {
        let read = |text: &str| named_tyre(text).map(|t| t.to_string());
        assert_eq!(read("29 in, 44-622"), Ok("44-622".to_owned()));
        assert_eq!(read("tubeless-ready 44-622"), Ok("44-622".to_owned()));
        // A width that is also a wheel's name in inches contradicts nothing.
        for text in ["26-622", "28-622", "20-622", "29-559"] {
            assert_eq!(read(text), Ok(text.to_owned()));
        }
    }

    #[test]
    fn the_wheels_are_told_once_each() {
        let rooms = TyreClearances::read("60-622; 50-622 with mudguards; 66-584").unwrap();
        assert_eq!(rooms.wheels(), [622.0, 584.0]);
        assert_eq!(rooms.wheels_in_words(), "622 or 584");
    }
}
