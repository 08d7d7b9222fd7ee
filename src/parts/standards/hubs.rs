//! Hub spacings (over locknut dimension, which must match the dropouts' width) and axles.

use std::fmt;

use super::super::reading::{CHAINLINES_MM, distinct, folded, mm, nearest_value, numbers, plain, says_any, take_chainline};
use super::super::source::Source;
use super::{NotUnderstood, lacks_nothing, refused};

/// Front or rear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "they say it all")]
pub enum Wheel {
    Front,
    Rear,
}

/// How a hub is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Axle {
    /// Hollow axle with a quick release through it: in slotted dropouts.
    QuickRelease,
    /// Solid axle with nuts: in slotted dropouts.
    Nutted,
    /// Through axle in closed dropouts, of this diameter, mm, where it is published.
    Through(Option<f64>),
}

/// A hub, or the place for one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hub {
    /// Over locknuts, or between dropouts, mm.
    pub spacing_mm: f64,
    /// How it is held, where stated.
    pub axle: Option<Axle>,
    /// The hub spacings that the maker sells the dropouts for, mm, least and most.
    pub takes_mm: Option<(f64, f64)>,
    /// How many sprockets its cassette has, where stated.
    pub sprockets: Option<u8>,
    /// Frame's centre plane to the middle of its sprockets, mm, where stated; to the one sprocket of a gear hub.
    pub chainline_mm: Option<f64>,
}

/// A row of the table of spacings in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HubRow {
    /// Wheel that the hub is for.
    pub wheel: Wheel,
    /// Spacing, mm.
    pub spacing_mm: f64,
    /// How it is usually held.
    pub axle: Axle,
    /// Where it is met.
    pub met: &'static str,
    /// How that is known.
    pub source: Source,
}

/// Spacings in use.
pub const HUBS: &[HubRow] = &[
    row(Wheel::Front, 100.0, Axle::QuickRelease, "road, touring"),
    row(Wheel::Front, 100.0, Axle::Through(Some(12.0)), "road and gravel with discs"),
    row(Wheel::Front, 100.0, Axle::Through(Some(15.0)), "older trail"),
    row(Wheel::Front, 110.0, Axle::Through(Some(15.0)), "trail (\"boost\")"),
    row(Wheel::Front, 110.0, Axle::Through(Some(20.0)), "downhill"),
    row(Wheel::Front, 135.0, Axle::QuickRelease, "fat tyres"),
    row(Wheel::Front, 150.0, Axle::Through(Some(15.0)), "fat tyres"),
    row(Wheel::Rear, 120.0, Axle::Nutted, "five sprockets, track"),
    row(Wheel::Rear, 126.0, Axle::QuickRelease, "six and seven sprockets"),
    row(Wheel::Rear, 130.0, Axle::QuickRelease, "road from eight sprockets on"),
    row(Wheel::Rear, 135.0, Axle::QuickRelease, "touring, older trail"),
    row(Wheel::Rear, 135.0, Axle::Nutted, "gear hubs"),
    row(Wheel::Rear, 141.0, Axle::QuickRelease, "148's flanges in open dropouts"),
    row(Wheel::Rear, 142.0, Axle::Through(Some(12.0)), "road and gravel with discs, trail"),
    row(Wheel::Rear, 148.0, Axle::Through(Some(12.0)), "trail (\"boost\")"),
    row(Wheel::Rear, 150.0, Axle::Through(Some(12.0)), "downhill"),
    row(Wheel::Rear, 157.0, Axle::Through(Some(12.0)), "downhill, wide trail"),
    row(Wheel::Rear, 170.0, Axle::QuickRelease, "fat tyres"),
    row(Wheel::Rear, 177.0, Axle::Through(Some(12.0)), "fat tyres"),
    row(Wheel::Rear, 190.0, Axle::QuickRelease, "fat tyres"),
    row(Wheel::Rear, 197.0, Axle::Through(Some(12.0)), "fat tyres"),
];

const fn row(wheel: Wheel, spacing_mm: f64, axle: Axle, met: &'static str) -> HubRow {
    HubRow { wheel, spacing_mm, axle, met, source: Source::TradePractice }
}

/// Register grooves of a closed dropout, each side, mm: 142 = 135 + 2 × 3.5 with the flanges in the same place, and
/// so is the chainline; 148 = 141 + 2 × 3.5 likewise. Trade practice, unverified.
pub(crate) const GROOVE_MM: f64 = 3.5;

impl Hub {
    /// Reads one hub: `142 x 12 through axle`, `12 x 142`, `135 x 10 quick release`, `135 nutted`,
    /// `132.5 x 10 quick release, takes 130 to 135`. The order of the words does not matter.
    ///
    /// # Errors
    /// No spacing between 70 and 210 mm, with the nearest known one; several spacings or kinds of axle.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        lacks_nothing(&text, "142 x 12 through axle")?;
        let (text, sprockets, chainline_mm) = drive_of(&text)?;
        let (own, takes) = match text.split_once("takes") {
            Some((own, takes)) => (own.trim().to_owned(), Some(numbers(takes))),
            None => (text.clone(), None),
        };
        let found = numbers(&own);
        let spacing_mm = spacing_of(&text, &found)?;
        let axle = axle_of(&own, &found)?;
        let takes_mm = match takes.as_deref() {
            None => None,
            Some([low, high]) if low <= high && (70.0..=210.0).contains(low) && *high <= 210.0 => Some((*low, *high)),
            Some(_) => return refused(format!("`{text}`: write the spacings it takes as `takes 130 to 135`")),
        };
        Ok(Self { spacing_mm, axle, takes_mm, sprockets, chainline_mm })
    }

    /// Reads a hub that may be had with several ends: `142 x 12 through axle or 135 x 10 quick release`.
    ///
    /// # Errors
    /// As [`Hub::read`].
    pub fn read_all(text: &str) -> Result<Vec<Self>, NotUnderstood> {
        folded(text).split(" or ").map(Self::read).collect()
    }
}

/// Sprockets and chainline of a hub's text, and the text without them.
fn drive_of(text: &str) -> Result<(String, Option<u8>, Option<f64>), NotUnderstood> {
    let (text, chainline_mm) = take_chainline(text);
    if let Some(line) = chainline_mm
        && !CHAINLINES_MM.contains(&line)
    {
        return refused(format!("`{text}`: a chainline of {} is not made: 35 to 85 mm", mm(line)));
    }
    let words: Vec<&str> = text.split(' ').collect();
    let count_of = |at: usize| -> Option<(u8, usize)> {
        let word = words.get(at)?.trim_matches([',', '(', ')', ';']);
        let (digits, unit) = word.split_at(word.find(|c: char| !c.is_ascii_digit()).unwrap_or(word.len()));
        let count = digits.parse::<u8>().ok().filter(|n| (1..=14).contains(n))?;
        let is_unit = |unit: &str| ["speed", "speeds", "sp", "s", "sprocket", "sprockets", "-speed", "-fach"].contains(&unit);
        if is_unit(unit) {
            return Some((count, 1));
        }
        let next = words.get(at + 1)?.trim_matches([',', '(', ')', ';']);
        (unit.is_empty() && is_unit(next)).then_some((count, 2))
    };
    match (0..words.len()).find_map(|at| count_of(at).map(|found| (at, found))) {
        Some((at, (count, taken))) => {
            let rest: Vec<&str> =
                words.iter().enumerate().filter(|(i, _)| *i < at || *i >= at + taken).map(|(_, w)| *w).collect();
            Ok((rest.join(" "), Some(count), chainline_mm))
        }
        None => Ok((text, None, chainline_mm)),
    }
}

/// The one spacing among the numbers of a text.
fn spacing_of(text: &str, found: &[f64]) -> Result<f64, NotUnderstood> {
    let is_known = |n: &f64| HUBS.iter().any(|r| (r.spacing_mm - n).abs() < 0.1);
    let spacings = distinct(found.iter().copied(), 70.0..=210.0);
    let known: Vec<f64> = spacings.iter().copied().filter(is_known).collect();
    match (spacings.as_slice(), known.as_slice()) {
        // Beside a known spacing another number is something else, such as the axle's own length.
        ([only], _) | (_, [only]) => Ok(*only),
        ([], _) if found.is_empty() => refused(format!("`{text}` states no spacing: write such as 142 x 12 through axle")),
        ([], _) => {
            // The spacing is the largest number beside an axle. Centimetres and slips of the point first: they say what was meant.
            let largest = found.iter().copied().reduce(f64::max);
            let is_hubs = |n: &f64| (70.0..=210.0).contains(n) && HUBS.iter().any(|r| (r.spacing_mm - n).abs() <= 5.0);
            let meant = largest.and_then(|n| [10.0, 0.1].map(|by| (n * by * 10.0).round() / 10.0).into_iter().find(is_hubs));
            let near = || nearest_value(largest?, HUBS.iter().map(|r| r.spacing_mm));
            let hint = meant.or_else(near).unwrap_or(135.0);
            refused(format!("`{text}` is not a valid hub spacing, 70 to 210 mm: did you mean {}?", plain(hint)))
        }
        _ => refused(format!(
            "`{text}` names more than one spacing: write one, such as {}, or `takes 130 to 135`",
            plain(spacings[0])
        )),
    }
}

const QUICK_RELEASE: [&str; 6] = ["quick release", "quick-release", "quickrelease", "qr", "qr5", "qr9"];
const NUTTED: [&str; 6] = ["nutted", "nuts", "solid", "bolted", "bolt-on", "bolt on"];
const THROUGH: [&str; 6] = ["through", "thru", "through-axle", "thru-axle", "thruaxle", "e-thru"];

/// How the hub is held, from its words, else from a diameter that speaks for itself.
fn axle_of(own: &str, found: &[f64]) -> Result<Option<Axle>, NotUnderstood> {
    // 12 mm and more are through axles; 9 and 10 mm may be either.
    let all = distinct(found.iter().copied(), 5.0..=25.0);
    let thick = distinct(found.iter().copied(), 12.0..=25.0);
    let is_through = says_any(own, &THROUGH);
    let is_quick = says_any(own, &QUICK_RELEASE);
    let is_nutted = says_any(own, &NUTTED);
    if usize::from(is_through) + usize::from(is_quick) + usize::from(is_nutted) > 1 {
        return refused(format!("`{own}` names more than one kind of axle: write one, such as 142 x 12 through axle"));
    }
    let diameter = match (thick.as_slice(), all.as_slice()) {
        ([only], _) | ([], [only]) => Some(*only),
        _ => None,
    };
    if is_through && diameter.is_none() && !all.is_empty() {
        return refused(format!("`{own}` names more than one axle diameter: write one, such as 142 x 12 through axle"));
    }
    Ok(if is_through {
        Some(Axle::Through(diameter))
    } else if is_quick {
        Some(Axle::QuickRelease)
    } else if is_nutted {
        Some(Axle::Nutted)
    } else {
        diameter.filter(|d| *d >= 12.0).map(|d| Axle::Through(Some(d)))
    })
}

impl Axle {
    /// In words.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::QuickRelease => "quick release".to_owned(),
            Self::Nutted => "nutted axle".to_owned(),
            Self::Through(Some(d)) => format!("{} through axle", mm(d)),
            Self::Through(None) => "through axle".to_owned(),
        }
    }

    /// Whether it lies in slots, so that the dropouts need not be closed.
    #[must_use]
    pub const fn is_slotted(self) -> bool {
        matches!(self, Self::QuickRelease | Self::Nutted)
    }
}

impl fmt::Display for Hub {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", mm(self.spacing_mm))?;
        match self.axle {
            Some(axle) => write!(f, ", {}", axle.words()),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn printed_hubs_are_read_either_way_round() {
        for text in ["142 x 12 through axle", "12 x 142 thru", "142×12", "12 x 142 mm through axle"] {
            let hub = Hub::read(text).unwrap();
            assert_eq!((hub.spacing_mm, hub.axle), (142.0, Some(Axle::Through(Some(12.0)))), "{text}");
        }
        assert_eq!(Hub::read("135 x 10 quick release").unwrap().axle, Some(Axle::QuickRelease));
        assert_eq!(Hub::read("135").unwrap().axle, None);
        let between = Hub::read("132.5 x 10 quick release, takes 130 to 135").unwrap();
        assert_eq!((between.spacing_mm, between.takes_mm), (132.5, Some((130.0, 135.0))));
        assert_eq!(Hub::read_all("142 x 12 through axle or 135 x 10 quick release").unwrap().len(), 2);
        assert!(Hub::read("14.2 x 12").unwrap_err().0.contains("did you mean 142?"));
        assert!(Hub::read("13.8 cm").unwrap_err().0.contains("did you mean 138?"));
        assert!(Hub::read("1380").unwrap_err().0.contains("did you mean 138?"));
        assert!(Hub::read("60").unwrap_err().0.contains("did you mean 100?"));
        assert!(Hub::read("quick release").is_err());
        assert!(Hub::read("132.5, takes many").is_err());
    }

    #[test]
    fn the_grooves_of_closed_dropouts_add_up() {
        // 142 = 135 + 2 × 3.5: trade practice, unverified.
        assert_eq!(135.0 + 2.0 * GROOVE_MM, 142.0);
        // Rear chainline from the spacing, worked in the same place: 142/2 − 3.5 − 2.5 − 44/2 = 43.0.
        assert_eq!(142.0 / 2.0 - GROOVE_MM - 2.5 - 44.0 / 2.0, 43.0);
        // Every row of the table is itself a hub that is read.
        for row in HUBS {
            let text = format!("{} {}", row.spacing_mm, row.axle.words());
            let hub = Hub::read(&text).unwrap();
            assert_eq!((hub.spacing_mm, hub.axle), (row.spacing_mm, Some(row.axle)), "{text}");
        }
    }

    #[test]
    fn an_axle_goes_by_its_words_before_its_diameter() {
        let axle = |text: &str| Hub::read(text).unwrap().axle;
        for (text, expected) in [
            ("100 x 9 through axle", Some(Axle::Through(Some(9.0)))),
            ("100 x 9 thru", Some(Axle::Through(Some(9.0)))),
            ("142 through axle", Some(Axle::Through(None))),
            ("100 x 15", Some(Axle::Through(Some(15.0)))),
            ("135 x 12 quick release", Some(Axle::QuickRelease)),
            ("130 QR", Some(Axle::QuickRelease)),
            ("120 x 10 nuts", Some(Axle::Nutted)),
            ("135 solid axle", Some(Axle::Nutted)),
            ("135 x 10", None),
            ("110 through axle", Some(Axle::Through(None))),
            ("Boost 148 × 12", Some(Axle::Through(Some(12.0)))),
            ("12x142mm", Some(Axle::Through(Some(12.0)))),
            ("thru-axle 12 mm, 142 mm, M12 x 1.5", Some(Axle::Through(Some(12.0)))),
            ("12 x 148, axle 180 mm long", Some(Axle::Through(Some(12.0)))),
        ] {
            assert_eq!(axle(text), expected, "{text}");
        }
    }

    #[test]
    fn sprockets_and_chainline_are_no_axle() {
        let read = |text: &str| Hub::read(text).map(|h| (h.spacing_mm, h.axle, h.sprockets, h.chainline_mm));
        let through = Some(Axle::Through(Some(12.0)));
        assert_eq!(read("142 x 12, 11-speed"), Ok((142.0, through, Some(11), None)));
        assert_eq!(read("12 speed, 148 x 12"), Ok((148.0, through, Some(12), None)));
        assert_eq!(read("135 nutted, chainline 53.5"), Ok((135.0, Some(Axle::Nutted), None, Some(53.5))));
        assert_eq!(read("54 mm chainline, 135 nutted"), Ok((135.0, Some(Axle::Nutted), None, Some(54.0))));
        assert!(Hub::read("135 nutted, chainline 535").unwrap_err().0.contains("35 to 85"));
    }

    #[test]
    fn two_hubs_in_one_text_are_never_mixed() {
        for text in ["135 x 10 or 142 x 12 through axle", "142 x 12 through axle, 135 quick release", "142/148 x 12"] {
            assert!(Hub::read(text).unwrap_err().0.contains("more than one spacing"), "{text}");
        }
        assert!(Hub::read("100 x 12 through axle or quick release").unwrap_err().0.contains("more than one kind of axle"));
        assert!(Hub::read("100 through axle, 12 or 15 mm").unwrap_err().0.contains("more than one axle diameter"));
        assert!(Hub::read("142, no through axle").unwrap_err().0.contains("`no`"));
    }

    #[test]
    fn the_spacings_that_dropouts_take_run_from_less_to_more() {
        let takes = |text: &str| Hub::read(&format!("132.5 x 10 quick release, takes {text}")).map(|h| h.takes_mm);
        assert_eq!(takes("130 to 135"), Ok(Some((130.0, 135.0))));
        for text in ["135 to 130", "60 to 135", "130 to 235", "130", "130 to 132 to 135"] {
            assert!(takes(text).unwrap_err().0.contains("takes 130 to 135"), "{text}");
        }
    }

    #[test]
    fn the_hint_for_a_spacing_does_not_come_from_the_axle() {
        let hint = |text: &str| Hub::read(text).unwrap_err().0;
        for (text, meant) in [("1420 x 12 through axle", "142"), ("12 x 1420", "142"), ("14.2 x 12", "142"), ("9 x 10 cm", "100")]
        {
            assert!(hint(text).ends_with(&format!("did you mean {meant}?")), "{}", hint(text));
        }
        // 163 is no hub's: nothing was meant by 16.3, so the nearest there is.
        assert!(hint("16.3").ends_with("did you mean 100?"), "{}", hint("16.3"));
    }
}
