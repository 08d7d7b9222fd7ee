//! Bottom bracket shells: threads and bores, and the widths that each is made in.

use super::super::reading::{distinct, folded, number, numbers, plain, says_any};
use super::super::source::Source;
use super::{NotUnderstood, lacks_nothing, refused};

/// How a bottom bracket is held in the shell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "they say it all")]
pub enum Thread {
    Threaded,
    Pressed,
}

/// A kind of shell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShellRow {
    /// Its name.
    pub name: &'static str,
    /// Other names it goes by.
    pub also: &'static [&'static str],
    /// Threaded or pressed.
    pub thread: Thread,
    /// Bore or thread in words.
    pub bore: &'static str,
    /// Bore of a pressed shell, thread's major diameter of a threaded one, mm.
    pub bore_mm: f64,
    /// Widths it is made in, mm.
    pub widths_mm: &'static [f64],
    /// How it is known.
    pub source: Source,
}

/// The shells. That the thread called BSA is also called BSC is ISO 6696:1989's; threads, bores and widths are trade
/// practice, unverified.
pub const SHELLS: &[ShellRow] = &[
    ShellRow {
        name: "BSA",
        also: &["english", "british", "iso", "bsc", "jis"],
        thread: Thread::Threaded,
        bore: "1.37 in × 24 tpi, left-hand on the drive side",
        bore_mm: 34.8,
        widths_mm: &[68.0, 73.0, 83.0, 100.0],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "ITA",
        also: &["italian"],
        thread: Thread::Threaded,
        bore: "36 mm × 24 tpi, right-hand on both sides",
        bore_mm: 36.0,
        widths_mm: &[70.0],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "T47",
        also: &[],
        thread: Thread::Threaded,
        bore: "M47 × 1",
        bore_mm: 47.0,
        widths_mm: &[68.0, 73.0, 77.0, 85.5, 86.5],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "BB30",
        also: &[],
        thread: Thread::Pressed,
        bore: "41.96 mm",
        bore_mm: 41.96,
        widths_mm: &[68.0, 73.0],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "PF30",
        also: &["pressfit 30", "press fit 30", "press-fit 30"],
        thread: Thread::Pressed,
        bore: "46 mm",
        bore_mm: 46.0,
        widths_mm: &[68.0, 73.0],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "PF41",
        also: &[
            "pf86",
            "pf92",
            "bb86",
            "bb92",
            "pressfit 86",
            "pressfit 92",
            "press fit 86",
            "press fit 92",
            "press-fit 86",
            "press-fit 92",
        ],
        thread: Thread::Pressed,
        bore: "41 mm",
        bore_mm: 41.0,
        widths_mm: &[86.5, 92.0],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "BB386",
        also: &["386"],
        thread: Thread::Pressed,
        bore: "46 mm",
        bore_mm: 46.0,
        widths_mm: &[86.5],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "BB90",
        also: &["bb95"],
        thread: Thread::Pressed,
        bore: "37 mm",
        bore_mm: 37.0,
        widths_mm: &[90.0, 95.0],
        source: Source::TradePractice,
    },
];

/// A shell, or a bottom bracket for one.
#[derive(Clone, Debug, PartialEq)]
pub struct Shell {
    /// The kind.
    pub row: &'static ShellRow,
    /// Widths, mm: one of a shell, those it suits of a bottom bracket; none where not stated.
    pub widths_mm: Vec<f64>,
    /// Whether it turns off its middle, so that it tensions a chain.
    pub is_eccentric: bool,
}

impl Shell {
    /// Reads `BSA 68`, `68 mm BSA`, `73mm BSA threaded`, `JIS 68`, `BSA 68/73`, `PF86`, `T47 68`. The order of the words
    /// does not matter.
    ///
    /// # Errors
    /// A name that is not known, several, or a width that it is not made in, with the nearest.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let folded = folded(text);
        lacks_nothing(&folded, "BSA 73")?;
        let (row, name) = named_shell(text, &folded)?;
        // The name's own digits are not a width, except in PF86 and its like.
        let rest = folded.replacen(name, " ", 1).replace("24 tpi", " ");
        let mut widths_mm = distinct(numbers(&rest), 60.0..=110.0);
        if widths_mm.is_empty() {
            let digits: String = name.chars().filter(char::is_ascii_digit).collect();
            // 86 and 92, 90 and 95 stand for the width; BB86 is 86.5 mm.
            widths_mm.extend(number(&digits).and_then(|n| row.widths_mm.iter().copied().find(|w| (w - n).abs() <= 0.5)));
        }
        // What is made in one width only need not say it.
        if let (true, [only]) = (widths_mm.is_empty(), row.widths_mm) {
            widths_mm.push(*only);
        }
        for width in &mut widths_mm {
            let Some(made) = row.widths_mm.iter().copied().find(|w| (w - *width).abs() <= 0.5) else {
                let made: Vec<String> = row.widths_mm.iter().map(|w| plain(*w)).collect();
                return refused(format!("`{}`: {} is made {} mm wide", text.trim(), row.name, made.join(" or ")));
            };
            *width = made;
        }
        Ok(Self { row, widths_mm, is_eccentric: says_any(&folded, &["eccentric", "ebb"]) })
    }
}

/// The one kind of shell that a text names, and by which name.
fn named_shell<'a>(text: &str, folded: &'a str) -> Result<(&'static ShellRow, &'a str), NotUnderstood> {
    let mut found: Vec<(&'static ShellRow, &'a str)> = Vec::new();
    for row in SHELLS {
        let names = std::iter::once(row.name).chain(row.also.iter().copied());
        let longest = names.filter_map(|n| place_of_name(folded, &n.to_ascii_lowercase())).max_by_key(|n| n.len());
        found.extend(longest.map(|name| (row, name)));
    }
    match found.as_slice() {
        [only] => Ok(*only),
        [] => {
            let names: Vec<&str> = SHELLS.iter().map(|r| r.name).collect();
            let width = numbers(folded).into_iter().find(|n| (60.0..=110.0).contains(n));
            let says_letters = |w: &&str| w.chars().any(char::is_alphabetic) && *w != "mm" && *w != "threaded";
            let first = folded.split([' ', ',', '-']).find(says_letters).unwrap_or_default();
            let hint = crate::frameset::nearest(first, names.iter().copied()).unwrap_or("BSA");
            refused(format!(
                "`{}` is not a bottom bracket shell that is known here: did you mean {hint} {}?",
                text.trim(),
                plain(width.unwrap_or(68.0))
            ))
        }
        _ => refused(format!("`{}` names more than one kind of shell: write one, such as BSA 73", text.trim())),
    }
}

/// A shell's name in a text: at the beginning of a word, its own digits not running on (`BSA73` is BSA, `BB301` is nothing).
fn place_of_name<'a>(folded: &'a str, name: &str) -> Option<&'a str> {
    folded.match_indices(name).find_map(|(at, found)| {
        let before = folded.get(..at).and_then(|t| t.chars().next_back());
        let after = folded.get(at + name.len()..).and_then(|t| t.chars().next());
        let is_begun = !before.is_some_and(char::is_alphanumeric) || before.is_some_and(|c| c.is_ascii_digit()) && name == "bsa";
        let ends_in_digit = name.ends_with(|c: char| c.is_ascii_digit());
        let is_ended = match after {
            None => true,
            Some(c) if ends_in_digit => !c.is_ascii_digit(),
            Some(c) => !c.is_alphabetic(),
        };
        (is_begun && is_ended).then_some(found)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shells_are_read_with_their_widths() {
        // BB86/BB92 bore 41 mm, 86.5/92; BB30 bore 41.96, 68/73; 386 bore 46, 86.5: trade practice, unverified.
        for (text, name, bore, widths) in [
            ("BSA 68", "BSA", 34.8, vec![68.0]),
            ("BSA 68/73", "BSA", 34.8, vec![68.0, 73.0]),
            ("PF86", "PF41", 41.0, vec![86.5]),
            ("BB92", "PF41", 41.0, vec![92.0]),
            ("BB30 68", "BB30", 41.96, vec![68.0]),
            ("BB386", "BB386", 46.0, vec![86.5]),
            ("T47 68", "T47", 47.0, vec![68.0]),
            ("PF30 73", "PF30", 46.0, vec![73.0]),
            ("BSA", "BSA", 34.8, vec![]),
            ("68 mm BSA", "BSA", 34.8, vec![68.0]),
            ("73mm BSA threaded", "BSA", 34.8, vec![73.0]),
            ("BSA73", "BSA", 34.8, vec![73.0]),
            ("JIS 68", "BSA", 34.8, vec![68.0]),
            ("English thread, 68 mm, 1.37 in x 24 tpi", "BSA", 34.8, vec![68.0]),
            ("threaded T47, 86.5 mm", "T47", 47.0, vec![86.5]),
            ("Pressfit BB92", "PF41", 41.0, vec![92.0]),
        ] {
            let shell = Shell::read(text).unwrap();
            assert_eq!((shell.row.name, shell.row.bore_mm, shell.widths_mm), (name, bore, widths), "{text}");
        }
        assert!(Shell::read("BSA 70").unwrap_err().0.contains("68 or 73"));
        assert!(Shell::read("73 BSB").unwrap_err().0.contains("did you mean BSA 73?"), "the width is not changed");
        assert!(Shell::read("BSA or T47").unwrap_err().0.contains("more than one"));
        assert!(Shell::read("threaded, 73 mm").is_err(), "which thread is not said");
        assert!(Shell::read("BSB 68").unwrap_err().0.contains("BSA"));
    }
}
