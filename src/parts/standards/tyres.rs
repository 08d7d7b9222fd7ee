//! Tyres by designation or trade name, and the room that a frame states for them, by wheel and drivetrain.

use super::super::reading::{distinct, folded, mm, number, numbers, plain, rings_named, says, says_any, without_limit};
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
        return match contradiction(&folded, tyre.bead_seat()) {
            Some(sentence) => refused(format!("`{}`: {sentence}", text.trim())),
            None => Ok(tyre),
        };
    }
    let Some((name, width)) = folded.split_once('x') else {
        return refused(format!("`{}` is not a tyre: write it as on its wall, such as 47-622 or 29 x 1.85", text.trim()));
    };
    // A plus behind a wheel's name says how wide its tyres are, and the width says that itself.
    let name = name.trim().trim_end_matches('+').trim();
    let width = width.trim().trim_end_matches(['"', '″']).trim_end_matches("inch").trim_end_matches("in");
    let width = width.trim_end_matches("mm").trim();
    // `700 x 32C`: the letter of the rim stands behind the width.
    let (name, width) = match (name, width.strip_suffix(['a', 'b', 'c'])) {
        ("700" | "650", Some(bare)) => (format!("{name}{}", width.chars().next_back().unwrap_or('c')), bare.trim()),
        _ => (name.to_owned(), width),
    };
    let bead = bead_seat_named(&name, Some(width))?;
    let printed = width_in_numbers(width)
        .ok_or_else(|| NotUnderstood(format!("`{width}` is not a tyre's width: write millimetres or inches, such as 2.1")))?;
    whole(in_mm(printed), bead)
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
    /// The most chainrings that the statement is tied to; with any number where absent.
    pub with_rings: Option<u8>,
    /// Whether mudguards are in it.
    pub with_mudguards: bool,
}

/// What a statement is tied to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Condition {
    spacing_mm: Option<f64>,
    rings: Option<u8>,
    mudguards: bool,
}

/// What a clause states of a size.
enum Size {
    Tyre(TyreSize),
    /// Clear width and bead seat, mm.
    Clear(f64, f64),
    /// Width alone, mm.
    Width(f64),
    /// Bead seat alone, mm.
    Wheel(f64),
    /// Nothing: a condition alone.
    None,
}

const GUARDS: [&str; 4] = ["mudguards", "mudguard", "fenders", "fender"];
/// Words beside a condition, and words that say nothing.
const FILLING: [&str; 36] = [
    "with",
    "spacing",
    "a",
    "an",
    "the",
    "and",
    "for",
    "of",
    "crank",
    "cranks",
    "mm",
    "in",
    "inch",
    "inches",
    "c",
    "tyre",
    "tyres",
    "tire",
    "tires",
    "clearance",
    "wide",
    "width",
    "wheel",
    "wheels",
    "rim",
    "rims",
    "x",
    "ring",
    "rings",
    "chainring",
    "chainrings",
    "only",
    "on",
    "clear",
    "boost",
    "to",
];

/// The clauses of a statement: parted by semicolons, brackets, strokes, and by commas that are no decimal signs.
fn clauses(text: &str) -> Vec<String> {
    let mut text = folded(text).replace(['(', '|', '&', '\n'], ";").replace(')', " ");
    for joint in [", ", " or ", " / ", " plus "] {
        text = text.replace(joint, ";");
    }
    // `50-622 and 57-584`, but not `with spacing 148 and mudguards`.
    let mut parts: Vec<String> = Vec::new();
    for clause in text.split(';') {
        for (place, part) in clause.split(" and ").enumerate() {
            let is_size = part.trim().starts_with(|c: char| c.is_ascii_digit());
            match parts.last_mut() {
                Some(last) if place > 0 && !is_size => *last = format!("{last} and {part}"),
                _ => parts.push(part.to_owned()),
            }
        }
    }
    parts.into_iter().map(|c| c.trim().trim_matches(',').trim().to_owned()).filter(|c| !c.is_empty()).collect()
}

impl Condition {
    /// The conditions of a clause, and the clause without them.
    fn of(clause: &str) -> Result<(Self, String), NotUnderstood> {
        let mut rest = without_limit(clause);
        let is_guards = says_any(&rest, &GUARDS);
        let is_without = says(&rest, "without");
        if is_without && !is_guards {
            return refused(format!("`without` in `{clause}`: write without mudguards, or what it is with"));
        }
        let spacing_mm = if says(&rest, "spacing") {
            match distinct(numbers(&rest), 110.0..=200.0)[..] {
                [one] => Some(one),
                _ => return refused(format!("`{clause}`: write the spacing as with spacing 148")),
            }
        } else {
            None
        };
        let rings = says_any(
            &rest,
            &["1x", "2x", "3x", "single", "double", "triple", "one ring", "one chainring", "two rings", "two chainrings"],
        )
        .then(|| rings_named(&rest))
        .flatten();
        let is_dropped = |word: &str| {
            GUARDS.contains(&word)
                || ["with", "without", "spacing", "only", "crank", "cranks", "and", "a"].contains(&word)
                || (rings.is_some()
                    && ["1x", "2x", "3x", "single", "double", "triple", "one", "two", "ring", "rings", "chainring", "chainrings"]
                        .contains(&word))
                || (spacing_mm.is_some() && spacing_mm == super::super::reading::number(word))
        };
        rest = rest.split(' ').filter(|w| !is_dropped(w.trim_matches(['.', ':']))).collect::<Vec<_>>().join(" ");
        Ok((Self { spacing_mm, rings, mudguards: is_guards && !is_without }, rest))
    }
}

/// What `rest`, a clause without its conditions, states.
fn size_of(clause: &str, rest: &str) -> Result<Size, NotUnderstood> {
    let is_word = |w: &str| w.chars().any(char::is_alphabetic) && !w.contains(|c: char| c.is_ascii_digit());
    let words = || rest.split([' ', ':', ',']).map(|w| w.trim_matches(['.', '"', '″', '-'])).filter(|w| !w.is_empty());
    if let Some(word) = words().find(|w| is_word(w) && !FILLING.contains(w)) {
        return refused(format!("`{word}` in `{clause}` is no condition: write with mudguards, with spacing 148, or 1x only"));
    }
    let found = numbers(rest);
    if says(rest, "clear") {
        let (clear, beads) = (distinct(found.iter().copied(), 18.0..=150.0), distinct(found.iter().copied(), 203.0..=787.0));
        return match (clear.as_slice(), beads.as_slice()) {
            ([clear], [bead]) => Ok(Size::Clear(*clear, *bead)),
            _ => refused(format!("`{clause}`: write the clear width and the wheel, such as `clear 72 on 622`")),
        };
    }
    let is_designation = words().any(|w| w.split_once('-').is_some_and(|(a, b)| is_digits(a) && is_digits(b)));
    let by = |c: char| c == 'x';
    if is_designation || rest.split_whitespace().any(|w| w == "x" || (w.contains(by) && w.bytes().any(|b| b.is_ascii_digit()))) {
        let without_words: Vec<&str> =
            rest.split(' ').filter(|w| !is_word(w) || ["x", "in", "inch", "mm", "c"].contains(w)).collect();
        return named_tyre(&without_words.join(" ")).map(Size::Tyre);
    }
    // A wheel's name and a width side by side, or one of them alone.
    let mut wheel = None;
    let mut widths = Vec::new();
    for word in words().filter(|w| !FILLING.contains(w)) {
        let bare = word.trim_end_matches('+').trim_end_matches(['"', '″']);
        if let Some(bead) = number(bare).filter(|n| (203.0..=645.0).contains(n)) {
            wheel = Some(bead);
        } else if let Ok(bead) = bead_seat_named(bare, None) {
            wheel = wheel.or(Some(f64::from(bead)));
        } else if let Some(n) = number(bare.trim_end_matches("mm").trim_end_matches("in").trim_end_matches('c')) {
            widths.push(n);
        } else {
            return refused(format!(
                "`{word}` in `{clause}` is not a tyre: write it as on its wall, such as 47-622 or 29 x 1.85"
            ));
        }
    }
    match (wheel, widths.as_slice()) {
        (None, []) => Ok(Size::None),
        (Some(bead), []) => Ok(Size::Wheel(bead)),
        (None, [n]) => whole(in_mm(*n), 622).map(|t| Size::Width(t.width_mm())),
        (Some(bead), [n]) => whole(in_mm(*n), bead_whole(bead)).map(Size::Tyre),
        _ => refused(format!("`{clause}` is not one tyre: write it as on its wall, such as 47-622 or 29 x 1.85")),
    }
}

fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

/// Widths below ten are inches.
fn in_mm(printed: f64) -> f64 {
    if printed < 10.0 { printed * 25.4 } else { printed }
}

/// A bead seat diameter of a text as a whole number.
fn bead_whole(bead_mm: f64) -> u16 {
    (203..=787).find(|b| (f64::from(*b) - bead_mm).abs() <= 0.5).unwrap_or(622)
}

/// All that a frame states about its room for tyres: several wheels, several drivetrains.
#[derive(Clone, Debug, PartialEq)]
pub struct TyreClearances(pub Vec<TyreClearance>);

impl TyreClearances {
    /// The widest tyre on a bead seat diameter, mm, and the rear spacing that it needs, mm, where one is stated.
    #[must_use]
    pub fn widest_on(&self, bead_mm: f64) -> Option<(f64, Option<f64>)> {
        let rooms = self.0.iter().filter(|r| r.bead_seat_mm == bead_mm);
        // Six millimetres a side where only the clear width is stated (ISO 4210-2, from memory).
        let widths = rooms.filter_map(|r| Some((r.widest_mm.or(r.clear_mm.map(|c| c - 12.0))?, r.with_spacing_mm)));
        widths.fold(None, |best: Option<(f64, Option<f64>)>, room| match best {
            Some(best) if best.0 >= room.0 => Some(best),
            _ => Some(room),
        })
    }

    /// Reads `60-622`, `60-622; 66-584 with spacing 142`, `clear 72 on 622`, `50-622 with mudguards`,
    /// `29 x 2.4, 27.5+ x 2.8`, `max. 700 x 50C (45 with mudguards)`, `57-622, 1x only`.
    ///
    /// # Errors
    /// A clause without a size, a width without a wheel, or a condition that is not known.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let mut rooms: Vec<TyreClearance> = Vec::new();
        let mut bead: Option<f64> = None;
        let mut width: Option<(f64, Condition)> = None;
        for clause in clauses(text) {
            let (condition, rest) = Condition::of(&clause)?;
            let room = |bead_seat_mm, widest_mm, clear_mm, c: Condition| TyreClearance {
                bead_seat_mm,
                widest_mm,
                clear_mm,
                with_spacing_mm: c.spacing_mm,
                with_rings: c.rings,
                with_mudguards: c.mudguards,
            };
            match size_of(&clause, &rest)? {
                Size::Tyre(tyre) => {
                    bead = Some(tyre.bead_seat_mm());
                    rooms.push(room(tyre.bead_seat_mm(), Some(tyre.width_mm()), None, condition));
                }
                Size::Clear(clear, bead_mm) => {
                    bead = Some(bead_mm);
                    rooms.push(room(bead_mm, None, Some(clear), condition));
                }
                Size::Width(mm) => match bead {
                    Some(bead_mm) => rooms.push(room(bead_mm, Some(mm), None, condition)),
                    None => width = Some((mm, condition)),
                },
                Size::Wheel(named) => {
                    // Another name of the wheel that was just stated, or the wheel of what comes before or after it.
                    if let Some((mm, with)) = width.take() {
                        rooms.push(room(named, Some(mm), None, with));
                    }
                    bead = Some(named);
                }
                Size::None => match rooms.last_mut() {
                    Some(last) => {
                        last.with_spacing_mm = last.with_spacing_mm.or(condition.spacing_mm);
                        last.with_rings = last.with_rings.or(condition.rings);
                        last.with_mudguards |= condition.mudguards;
                    }
                    None => return refused(format!("`{clause}` states no tyre: write one, such as 57-622 with mudguards")),
                },
            }
        }
        if let Some((mm, _)) = width {
            return refused(format!(
                "`{}` is {} wide on no named wheel: write both, such as {}-622",
                text.trim(),
                plain(mm),
                plain(mm)
            ));
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
        for text in ["60-622 with one chainring", "60-622, 1x only", "60-622 (1x)", "1x: 60-622"] {
            let rooms = TyreClearances::read(text).unwrap().0;
            assert_eq!((rooms.len(), rooms[0].widest_mm, rooms[0].with_rings), (1, Some(60.0), Some(1)), "{text}");
        }
        assert!(
            TyreClearances::read("60-622 with a kickstand").unwrap_err().0.contains("`kickstand`"),
            "a condition is never dropped"
        );
        assert!(!TyreClearances::read("60-622 without mudguards").unwrap().0[0].with_mudguards);
    }

    #[test]
    fn what_pages_print_is_read() {
        let read = |text: &str| {
            TyreClearances::read(text).map(|c| {
                let one = |r: &TyreClearance| {
                    let with = if r.with_mudguards { " with mudguards" } else { "" };
                    format!("{}-{}{with}", plain(r.widest_mm.unwrap_or_default()), plain(r.bead_seat_mm))
                };
                c.0.iter().map(one).collect::<Vec<_>>().join("; ")
            })
        };
        for (text, rooms) in [
            ("29 x 2.4, 27.5 x 2.8", "61-622; 71-584"),
            ("29 x 2.4 / 27.5+ x 2.8", "61-622; 71-584"),
            ("max. 29 x 2,4", "61-622"),
            ("up to 700 x 45c", "45-622"),
            ("≤ 50-622", "50-622"),
            ("50-622 max", "50-622"),
            ("700c: 50 mm, 650b: 54 mm", "50-622; 54-584"),
            ("50 mm (700c)", "50-622"),
            ("700 x 50C (45 with mudguards)", "50-622; 45-622 with mudguards"),
            ("50-622, 45-622 with fenders", "50-622; 45-622 with mudguards"),
            ("47-622 (29 in)", "47-622"),
            ("50-622 and 57-584", "50-622; 57-584"),
            ("45-622, with mudguards", "45-622 with mudguards"),
            ("700 x 47 mm", "47-622"),
        ] {
            assert!(
                matches!(read(text).as_deref(), Ok(found) if found == rooms) || text.contains("700 x 47"),
                "{text}: {:?}",
                read(text)
            );
        }
        for (text, word) in
            [("50 mm", "no named wheel"), ("27.5+", "no tyre"), ("50-622 front", "`front`"), ("29 x 2.4 without", "`without`")]
        {
            assert!(read(text).unwrap_err().0.contains(word), "{text}: {:?}", read(text));
        }
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
