//! Crank spacings: named after the rear hub they are made for, each with its chainline. Six millimetres more of spacing
//! move the chain out by three.

use super::super::reading::{folded, mm, nearest_value, numbers, plain, says};
use super::super::source::Source;
use super::{NotUnderstood, refused};

/// A family of cranks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpacingRow {
    /// The rear hub it is made for, mm. 135 and 142 are one family: the flanges lie in the same place.
    pub spacing_mm: f64,
    /// Middle of the chainrings from the frame's centre plane, mm.
    pub chainline_mm: f64,
    /// Where it is met.
    pub met: &'static str,
    /// How it is known; makers differ by about ± 2 mm.
    pub source: Source,
}

/// The families.
pub const SPACINGS: &[SpacingRow] = &[
    SpacingRow { spacing_mm: 120.0, chainline_mm: 42.0, met: "track, single speed", source: Source::TradePractice },
    SpacingRow { spacing_mm: 130.0, chainline_mm: 43.5, met: "road", source: Source::TradePractice },
    SpacingRow { spacing_mm: 142.0, chainline_mm: 49.0, met: "touring, trail (135 and 142)", source: Source::TradePractice },
    SpacingRow { spacing_mm: 148.0, chainline_mm: 52.0, met: "trail (141 and 148)", source: Source::TradePractice },
    SpacingRow { spacing_mm: 157.0, chainline_mm: 55.0, met: "wide trail", source: Source::TradePractice },
];

/// A crank's spacing and chainline, or what a frame is drawn for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrankSpacing {
    /// The rear hub it is made for, mm.
    pub spacing_mm: f64,
    /// Chainline, mm: stated, or the family's.
    pub chainline_mm: f64,
    /// Whether the chainline was stated.
    pub is_chainline_stated: bool,
    /// Width of the shells it suits, mm.
    pub shell_mm: Option<f64>,
}

impl CrankSpacing {
    /// Reads `148`, `spacing 142`, `142, chainline 49`, `chainline 52`.
    ///
    /// # Errors
    /// Neither a spacing of 110 to 200 mm nor a chainline of 38 to 80 mm.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        let found = numbers(&text);
        let stated = text.split("chainline").nth(1).and_then(|rest| numbers(rest).first().copied());
        if let Some(line) = stated
            && !(38.0..=80.0).contains(&line)
        {
            return refused(format!("`{text}`: a chainline of {} is not made: 38 to 80 mm", mm(line)));
        }
        let spacing = found.iter().copied().find(|n| (110.0..=200.0).contains(n));
        let family = |spacing: f64| {
            // 135 and 141 lie in slots what 142 and 148 hold between grooves.
            let closed = if spacing == 135.0 {
                142.0
            } else if spacing == 141.0 {
                148.0
            } else {
                spacing
            };
            SPACINGS.iter().find(|r| r.spacing_mm == closed)
        };
        match (spacing, stated) {
            (Some(spacing_mm), _) => {
                let Some(row) = family(spacing_mm) else {
                    let near = nearest_value(spacing_mm, SPACINGS.iter().map(|r| r.spacing_mm)).unwrap_or(142.0);
                    return refused(format!("`{text}`: no crank is made for {}: did you mean {}?", mm(spacing_mm), plain(near)));
                };
                let line = stated.unwrap_or(row.chainline_mm);
                Ok(Self { spacing_mm: row.spacing_mm, chainline_mm: line, is_chainline_stated: stated.is_some(), shell_mm: None })
            }
            (None, Some(line)) => {
                let near = |r: &&SpacingRow| (r.chainline_mm - line).abs();
                let row = SPACINGS.iter().min_by(|a, b| near(a).total_cmp(&near(b)));
                let spacing_mm = row.map_or(142.0, |r| r.spacing_mm);
                Ok(Self { spacing_mm, chainline_mm: line, is_chainline_stated: true, shell_mm: None })
            }
            (None, None) if says(&text, "any") => refused("`any` states no spacing: leave the field empty"),
            (None, None) => refused(format!("`{text}` holds neither spacing nor chainline: write such as 142, or chainline 49")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cranks_go_by_spacing_or_by_chainline() {
        let crank = CrankSpacing::read("148").unwrap();
        assert_eq!((crank.spacing_mm, crank.chainline_mm, crank.is_chainline_stated), (148.0, 52.0, false));
        assert_eq!(CrankSpacing::read("135, chainline 47.5").unwrap().spacing_mm, 142.0);
        assert_eq!(CrankSpacing::read("chainline 52").unwrap().spacing_mm, 148.0);
        assert!(CrankSpacing::read("chainline 5").is_err());
        assert!(CrankSpacing::read("wide").is_err());
        assert!(CrankSpacing::read("144").unwrap_err().0.contains("142"));
    }

    #[test]
    fn six_millimetres_of_spacing_are_three_of_chainline() {
        // 142 → 148 and 49 → 52: rows above.
        let (narrow, wide) = (CrankSpacing::read("142").unwrap(), CrankSpacing::read("148").unwrap());
        assert_eq!((wide.spacing_mm - narrow.spacing_mm) / 2.0, wide.chainline_mm - narrow.chainline_mm);
    }
}
