//! Cranks by the rear hub that they are made for and by their chainline, with their rings. Six millimetres more of
//! spacing move the chain out by three.

use super::super::reading::{
    CHAINLINES_MM, distinct, folded, is_upper_limit, mm, nearest_value, numbers, plain, rings_named, says, says_any,
    take_chainline,
};
use super::super::source::Source;
use super::{NotUnderstood, lacks_nothing, refused};

/// A family of cranks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpacingRow {
    /// The rear hub it is made for, mm. 135 and 142 are one family: the flanges lie in the same place.
    pub spacing_mm: f64,
    /// Middle of the chainrings from the frame's centre plane, mm, where a crank says no more than its spacing.
    pub chainline_mm: f64,
    /// Least and most chainline, mm, that cranks for this hub are sold with.
    pub sold_mm: (f64, f64),
    /// Where it is met.
    pub met: &'static str,
    /// How it is known; makers differ by about ± 2 mm.
    pub source: Source,
}

const fn row(spacing_mm: f64, chainline_mm: f64, sold_mm: (f64, f64), met: &'static str) -> SpacingRow {
    SpacingRow { spacing_mm, chainline_mm, sold_mm, met, source: Source::TradePractice }
}

/// The families.
pub const SPACINGS: &[SpacingRow] = &[
    row(120.0, 42.0, (41.0, 45.0), "track, single speed"),
    row(130.0, 43.5, (43.0, 46.0), "road"),
    row(142.0, 49.0, (43.0, 50.5), "road, gravel, touring, trail (135 and 142)"),
    row(148.0, 52.0, (50.0, 55.0), "trail (141 and 148)"),
    row(157.0, 55.0, (54.0, 57.0), "wide trail (150 and 157)"),
    row(177.0, 66.0, (64.0, 68.0), "fat tyres (170 and 177)"),
    row(197.0, 76.0, (74.0, 77.5), "fat tyres (190 and 197)"),
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
    /// Whether the spacing was stated; else it is that of the nearest chainline.
    pub is_spacing_stated: bool,
    /// How many chainrings, where stated.
    pub rings: Option<u8>,
    /// Teeth of the largest ring; of a frame the largest that the maker allows.
    pub largest_teeth: Option<u8>,
    /// Teeth of the smallest of several rings; of a frame the most that the maker allows there.
    pub smallest_teeth: Option<u8>,
    /// Teeth of one ring alone, where rings for more than one number of them are stated; of a frame the most.
    pub single_teeth: Option<u8>,
    /// Length of its arms, mm, where stated.
    pub arm_mm: Option<f64>,
    /// Q factor, the distance over both arms where the pedals are, mm, where stated.
    pub q_mm: Option<f64>,
}

/// The family whose hub has that spacing, mm: 135, 141, 150, 170 and 190 lie in slots what 142, 148, 157, 177 and 197 hold
/// between grooves.
#[must_use]
pub fn crank_family(spacing_mm: f64) -> Option<&'static SpacingRow> {
    let closed = match () {
        () if spacing_mm == 135.0 => 142.0,
        () if spacing_mm == 141.0 => 148.0,
        () if spacing_mm == 150.0 => 157.0,
        () if spacing_mm == 170.0 => 177.0,
        () if spacing_mm == 190.0 => 197.0,
        () if spacing_mm == 126.0 => 130.0,
        () => spacing_mm,
    };
    SPACINGS.iter().find(|r| r.spacing_mm == closed)
}

impl CrankSpacing {
    /// Reads `148`, `spacing 142`, `142, chainline 49`, `2x, chainline 43.5`, `142, 46/30T`.
    ///
    /// # Errors
    /// Neither a spacing of 110 to 200 mm nor a chainline of 35 to 85 mm.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        lacks_nothing(&text, "142, chainline 49")?;
        let (rest, stated) = take_chainline(&text);
        if let Some(line) = stated
            && !CHAINLINES_MM.contains(&line)
        {
            return refused(format!("`{text}`: a chainline of {} is not made: 35 to 85 mm", mm(line)));
        }
        let sets = ring_sets(&rest);
        let count = |teeth: &[u8]| u8::try_from(teeth.len()).ok().filter(|n| *n > 1);
        // Rings for several numbers of them, as a frame's limits are printed: `1x 42T, 2x 46/30T`.
        let is_several = sets.iter().filter(|(rings, teeth)| rings.or_else(|| count(teeth)).is_some()).count() > 1;
        let one = sets.iter().filter(|_| !is_several).find_map(|(_, teeth)| count(teeth).filter(|_| !is_upper_limit(&rest)));
        let rings = rings_named(&rest).filter(|_| !is_several).or(one);
        let single = sets.iter().filter(|_| is_several).find(|(rings, _)| *rings == Some(1));
        let single_teeth = single.and_then(|(_, teeth)| teeth.first().copied());
        let of_several = sets.iter().filter(|(rings, _)| !is_several || *rings != Some(1));
        let largest_teeth = of_several.flat_map(|(_, teeth)| teeth).copied().max();
        let smallest_teeth = sets.iter().filter(|(_, teeth)| teeth.len() > 1).flat_map(|(_, teeth)| teeth).copied().min();
        // A crank's own length stands before its unit or behind "length", its Q factor beside its name.
        let (bare, arm_mm, q_mm) = without_arms(&rest);
        let spacings: Vec<f64> = distinct(numbers(&bare), 110.0..=200.0);
        let known: Vec<f64> = spacings.iter().copied().filter(|n| crank_family(*n).is_some()).collect();
        let with = |row: &SpacingRow, line: Option<f64>, is_spacing_stated| Self {
            spacing_mm: row.spacing_mm,
            chainline_mm: line.unwrap_or(row.chainline_mm),
            is_chainline_stated: line.is_some(),
            is_spacing_stated,
            rings,
            largest_teeth,
            smallest_teeth,
            single_teeth,
            arm_mm,
            q_mm,
        };
        match (known.as_slice(), spacings.as_slice(), stated) {
            ([first, others @ ..], ..) => {
                let family = crank_family(*first);
                if others.iter().any(|o| crank_family(*o).map(|r| r.spacing_mm) != family.map(|r| r.spacing_mm)) {
                    return refused(format!("`{text}` names more than one spacing: write one, such as {}", plain(*first)));
                }
                family
                    .map(|row| with(row, stated, true))
                    .ok_or_else(|| NotUnderstood(format!("`{text}` is not a crank's spacing")))
            }
            (_, [], Some(line)) => {
                let near = |r: &&SpacingRow| (r.chainline_mm - line).abs();
                let row = SPACINGS.iter().min_by(|a, b| near(a).total_cmp(&near(b)));
                row.map(|row| with(row, stated, false))
                    .ok_or_else(|| NotUnderstood(format!("`{text}` is not a crank's chainline")))
            }
            (_, [odd, ..], _) => {
                let near = nearest_value(*odd, SPACINGS.iter().map(|r| r.spacing_mm)).unwrap_or(142.0);
                refused(format!("`{text}`: no crank is made for {}: did you mean {}?", mm(*odd), plain(near)))
            }
            (_, [], None) if says(&text, "any") => refused("`any` states no spacing: leave the field empty"),
            (_, [], None) => refused(format!("`{text}` holds neither spacing nor chainline: write such as 142, or chainline 49")),
        }
    }
}

/// The rings of each clause that names any, with how many of them it speaks of.
fn ring_sets(folded: &str) -> Vec<(Option<u8>, Vec<u8>)> {
    let clauses = folded.split([',', ';', '(', ')']).flat_map(|clause| clause.split(" or "));
    clauses.map(|clause| (rings_named(clause), teeth_of(clause))).filter(|(_, teeth)| !teeth.is_empty()).collect()
}

/// The teeth of rings: numbers of 16 to 70 before a `t`, and those parted by strokes from one another.
fn teeth_of(folded: &str) -> Vec<u8> {
    let is_teeth = |n: &u8| (16..=70).contains(n);
    let mut found = Vec::new();
    for word in folded.split([' ', ',', ';', '(', ')']) {
        let bare = word.trim_end_matches(['t', '.']);
        let parts: Vec<&str> = bare.split('/').collect();
        let numbers: Option<Vec<u8>> = parts.iter().map(|p| p.trim_end_matches('t').parse().ok().filter(is_teeth)).collect();
        match numbers {
            Some(numbers) if parts.len() > 1 || word.ends_with('t') => found.extend(numbers),
            _ => {}
        }
    }
    found
}

/// The text without a crank's length, 120 to 190 mm, and without its Q factor, 120 to 260 mm, and both: `175 mm arms`,
/// `length 170`, `Q 150`.
fn without_arms(folded: &str) -> (String, Option<f64>, Option<f64>) {
    let (mut bare, mut arm, mut q) = (Vec::new(), None, None);
    let only = |clause: &str, range| match distinct(numbers(clause), range)[..] {
        [only] => Some(only),
        _ => None,
    };
    for clause in folded.split([',', ';']) {
        if says_any(clause, &["q", "q-factor", "tread"]) {
            q = q.or(only(clause, 120.0..=260.0));
        } else if says_any(clause, &["length", "arms", "arm", "long"]) {
            arm = arm.or(only(clause, 120.0..=190.0));
        } else {
            bare.push(clause);
        }
    }
    (bare.join(","), arm, q)
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
        assert!(CrankSpacing::read("142 or 148").unwrap_err().0.contains("more than one spacing"));
    }

    #[test]
    fn rings_and_teeth_are_no_chainline() {
        let read = |text: &str| {
            let crank = CrankSpacing::read(text).unwrap();
            (crank.chainline_mm, crank.rings, crank.largest_teeth)
        };
        for text in ["2x, 46/30T, chainline 43.5", "43.5 mm chainline, 46/30, double", "chainline 43.5, 2 x 11, 46/30t"] {
            assert_eq!(read(text), (43.5, Some(2), Some(46)), "{text}");
        }
        let limits = |text: &str| {
            let frame = CrankSpacing::read(text).unwrap();
            (frame.rings, frame.largest_teeth, frame.smallest_teeth, frame.single_teeth)
        };
        assert_eq!(limits("142, 1x 42T or 2x 46/30T"), (None, Some(46), Some(30), Some(42)));
        assert_eq!(limits("142, max. 2x 46/30T, 1x 42T"), (None, Some(46), Some(30), Some(42)));
        assert_eq!(limits("142, 2x 46/30T"), (Some(2), Some(46), Some(30), None));
        assert_eq!(limits("142, 1x 42T"), (Some(1), Some(42), None, None));
        assert_eq!(read("148, 1x, 32T"), (52.0, Some(1), Some(32)));
        assert_eq!(read("142, max. 36T"), (49.0, None, Some(36)));
        assert_eq!(read("142, 170 mm long"), (49.0, None, None), "the crank's length is no spacing");
        assert_eq!(read("142, 50/39/30"), (49.0, Some(3), Some(50)));
    }

    #[test]
    fn arms_and_their_width_are_read_beside_the_rest() {
        let read = |text: &str| {
            let crank = CrankSpacing::read(text).unwrap();
            (crank.spacing_mm, crank.arm_mm, crank.q_mm)
        };
        assert_eq!(read("142, 1x 40T, 170 mm long, Q 150"), (142.0, Some(170.0), Some(150.0)));
        assert_eq!(read("Q-factor 146 mm, chainline 44, length 165"), (130.0, Some(165.0), Some(146.0)));
        assert_eq!(read("148"), (148.0, None, None));
    }

    #[test]
    fn six_millimetres_of_spacing_are_three_of_chainline() {
        // 142 → 148 and 49 → 52: rows above.
        let (narrow, wide) = (CrankSpacing::read("142").unwrap(), CrankSpacing::read("148").unwrap());
        assert_eq!((wide.spacing_mm - narrow.spacing_mm) / 2.0, wide.chainline_mm - narrow.chainline_mm);
    }
}
