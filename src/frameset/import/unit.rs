//! Units as tables write them, in labels, in cells, in a row or column of their own. Not a general unit library: only
//! what lengths and angles of a bicycle frame are printed in.

use super::fold::fold;

/// What a number of the table is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches of 25.4 mm.
    Inch,
    /// Degrees.
    Degree,
}

impl Unit {
    /// The units of lengths that a table without a word about units may be in, likeliest first.
    pub(super) const UNSAID: [Self; 3] = [Self::Millimetre, Self::Centimetre, Self::Inch];

    /// How many of the file's units (millimetres or degrees) one of these is.
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Self::Millimetre | Self::Degree => 1.0,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
            Self::Inch => 25.4,
        }
    }

    /// Whether it measures angles.
    #[must_use]
    pub const fn is_angle(self) -> bool {
        matches!(self, Self::Degree)
    }

    /// In which unit something was read, and into which it was brought where that is another.
    #[must_use]
    pub const fn conversion(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm to mm",
            Self::Metre => "m to mm",
            Self::Inch => "in to mm",
            Self::Degree => "°",
        }
    }

    /// Its name in words.
    #[must_use]
    pub const fn plural(self) -> &'static str {
        match self {
            Self::Millimetre => "millimetres",
            Self::Centimetre => "centimetres",
            Self::Metre => "metres",
            Self::Inch => "inches",
            Self::Degree => "degrees",
        }
    }

    /// Its short name as it follows a number.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Degree => "°",
        }
    }

    /// The unit that a word or sign names, in the six languages; `None` for anything else.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        let word = word.trim().trim_matches(['(', ')', '[', ']', '.']).trim();
        match word {
            "°" | "º" | "˚" => return Some(Self::Degree),
            "\"" | "″" | "''" | "”" | "′′" => return Some(Self::Inch),
            _ => {}
        }
        Some(match fold(word).as_str() {
            "mm" | "millimeter" | "millimeters" | "millimetre" | "millimetres" | "milimetros" | "millimetri" => Self::Millimetre,
            "cm" | "centimeter" | "centimeters" | "centimetre" | "centimetres" | "zentimeter" | "centimetros" | "centimetri" => {
                Self::Centimetre
            }
            "m" | "meter" | "metre" | "metres" | "meters" => Self::Metre,
            "in" | "inch" | "inches" | "zoll" | "pouce" | "pouces" | "po" | "pulgada" | "pulgadas" | "pulg" | "pollice"
            | "pollici" | "duim" => Self::Inch,
            "deg" | "degree" | "degrees" | "degre" | "degres" | "grad" | "grados" | "grado" | "gradi" | "graden" | "graad" => {
                Self::Degree
            }
            _ => return None,
        })
    }
}

/// The unit that stands at the end of a label, and the label without it. `Stack (mm)`, `Reach [cm]`, `Lenkwinkel in °`,
/// `Head angle, deg`, `Stack mm`; two units (`Stack (mm/in)`) are taken off and none is returned: the cells then say it.
pub(super) fn split_label(label: &str) -> (Option<Unit>, String) {
    let text = label.trim();
    if let Some((before, inside, after)) = bracketed(text) {
        if let Some(unit) = Unit::from_word(inside) {
            return (Some(unit), join(before, after));
        }
        let parts: Vec<Option<Unit>> = inside.split(['/', ',', '|']).map(Unit::from_word).collect();
        if parts.len() > 1 && parts.iter().all(Option::is_some) {
            return (None, join(before, after));
        }
    }
    if let Some(before) = text.strip_suffix(['°', 'º', '˚']) {
        return (Some(Unit::Degree), trim_end(before).to_owned());
    }
    if let Some((before, last)) = text.rsplit_once([' ', ',', '/', '\u{a0}'])
        && let Some(unit) = Unit::from_word(last)
        && !before.trim().is_empty()
    {
        // A lone letter is a letter of the drawing, not metres.
        if unit != Unit::Metre {
            return (Some(unit), trim_end(before).to_owned());
        }
    }
    (None, text.to_owned())
}

/// The label before its unit, without the preposition or mark that joined them.
fn trim_end(before: &str) -> &str {
    let before = before.trim_end().trim_end_matches([',', '/', ':', '-', '–']).trim_end();
    match before.rsplit_once(' ') {
        Some((rest, "in" | "en" | "em")) => rest.trim_end(),
        _ => before,
    }
}

fn join(before: &str, after: &str) -> String {
    let (before, after) = (trim_end(before), after.trim());
    if after.is_empty() { before.to_owned() } else { format!("{before} {after}") }
}

/// Text before, inside and after the last pair of round or square brackets.
pub(super) fn bracketed(text: &str) -> Option<(&str, &str, &str)> {
    let open = text.rfind(['(', '['])?;
    let (before, rest) = text.split_at(open);
    let close = rest.find([')', ']'])?;
    Some((before, rest.get(1..close)?, rest.get(close + 1..)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_come_off_labels() {
        use Unit::{Centimetre, Degree, Inch, Millimetre};
        for (label, unit, rest) in [
            ("Stack (mm)", Some(Millimetre), "Stack"),
            ("Stack [cm]", Some(Centimetre), "Stack"),
            ("Lenkwinkel in °", Some(Degree), "Lenkwinkel"),
            ("Lenkwinkel in Grad", Some(Degree), "Lenkwinkel"),
            ("Head angle, deg", Some(Degree), "Head angle"),
            ("Head angle°", Some(Degree), "Head angle"),
            ("Reach mm", Some(Millimetre), "Reach"),
            ("Standover (\")", Some(Inch), "Standover"),
            ("Oberrohr (horizontal) mm", Some(Millimetre), "Oberrohr (horizontal)"),
            ("Top tube (mm/in)", None, "Top tube"),
            ("Top tube (effective)", None, "Top tube (effective)"),
            ("Wheelbase M", None, "Wheelbase M"),
            ("mm", None, "mm"),
        ] {
            assert_eq!(split_label(label), (unit, rest.to_owned()), "{label}");
        }
    }
}
