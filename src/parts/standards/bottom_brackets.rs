//! Bottom bracket shells: threads and bores, and the widths that each is made in.

use super::super::reading::{folded, number, numbers, plain};
use super::super::source::Source;
use super::{NotUnderstood, refused};

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
        also: &["english", "iso", "bsc"],
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
        also: &["pressfit 30"],
        thread: Thread::Pressed,
        bore: "46 mm",
        bore_mm: 46.0,
        widths_mm: &[68.0, 73.0],
        source: Source::TradePractice,
    },
    ShellRow {
        name: "PF41",
        also: &["pf86", "pf92", "bb86", "bb92", "pressfit 86", "pressfit 92"],
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
}

impl Shell {
    /// Reads `BSA 68`, `BSA 68/73`, `PF86`, `T47 68`.
    ///
    /// # Errors
    /// A name that is not known, or a width that it is not made in, with the nearest.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let folded = folded(text);
        let named = |name: &str| folded.starts_with(&name.to_ascii_lowercase());
        // The longest name first, so that BB386 is not taken for another.
        let row = SHELLS.iter().find(|r| named(r.name) || r.also.iter().any(|n| named(n)));
        let Some(row) = row else {
            let names: Vec<&str> = SHELLS.iter().map(|r| r.name).collect();
            let first = folded.split(' ').next().unwrap_or_default();
            let hint = crate::frameset::nearest(first, names.iter().copied()).unwrap_or("BSA");
            return refused(format!(
                "`{}` is not a bottom bracket shell that is known here: did you mean {hint} 68?",
                text.trim()
            ));
        };
        // The name's own digits are not a width, except in PF86 and its like.
        let name = std::iter::once(row.name).chain(row.also.iter().copied()).filter(|n| named(n)).max_by_key(|n| n.len());
        let rest = folded.get(name.map_or(0, str::len)..).unwrap_or_default();
        let mut widths_mm: Vec<f64> = numbers(rest).into_iter().filter(|n| (60.0..=110.0).contains(n)).collect();
        if widths_mm.is_empty() {
            let digits: String = name.unwrap_or_default().chars().filter(char::is_ascii_digit).collect();
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
        Ok(Self { row, widths_mm })
    }
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
        ] {
            let shell = Shell::read(text).unwrap();
            assert_eq!((shell.row.name, shell.row.bore_mm, shell.widths_mm), (name, bore, widths), "{text}");
        }
        assert!(Shell::read("BSA 70").unwrap_err().0.contains("68 or 73"));
        assert!(Shell::read("BSB 68").unwrap_err().0.contains("BSA"));
    }
}
