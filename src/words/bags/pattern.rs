//! What stands on a printed bag pattern: headings, facts, notes, what each line means, and how to print it.

use super::super::lengths::{length, length_to_tenth, length_to_whole};
use super::labels::along_label;
use super::notes::{WIDTH_NOTE, bag_note_text, cut_place, no_bag_text, no_opening_text};
use crate::lineup::{BagNote, FrameFindings, bag_space_measure};
use crate::luggage::{Along, Bag, BagPart, BagSpace, NoPattern};
use crate::units::{Day, Measured, NO_BREAK_SPACE, System, capitalised, expanded};

/// Said on every pattern.
pub const PATTERN_CAUTION: &str = "Cut card first and try it on the frame. Cut cloth only when the card fits. The pattern is \
                                   calculated from published figures. A bag in the way of cables or cranks can cause a crash: \
                                   keep them clear.";

/// Why there is no pattern, in two sentences.
#[must_use]
pub fn no_pattern_text(units: System, why: &NoPattern) -> String {
    match why {
        NoPattern::NoOpening(why) => no_opening_text(why),
        NoPattern::NoBag(why) => no_bag_text(units, *why),
    }
}

/// A line of a pattern that is explained in its key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PatternKey {
    /// The bag's own outline.
    FinishedEdge,
    /// The outline with seam allowance.
    SeamAllowance,
    /// The toothed line along the zip.
    Zip,
    /// The edges between which the outline may lie.
    Band,
    /// The cut line.
    CutLine,
}

impl PatternKey {
    /// What the line means.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::FinishedEdge => "finished edge: cut card here",
            Self::SeamAllowance => "seam allowance: cut cloth here",
            Self::Zip => "longest zip that fits this edge",
            Self::Band => "± of the finished edge",
            Self::CutLine => "cut line, from tube to tube",
        }
    }
}

/// A bag's pattern in words.
#[derive(Clone, Copy, Debug)]
pub struct PatternWords<'a> {
    /// Whose it is.
    pub frame: &'a FrameFindings,
    /// The frame-bag space.
    pub bag_space: &'a BagSpace,
    /// The bag.
    pub bag: &'a Bag,
    /// The chosen units.
    pub units: System,
}

impl PatternWords<'_> {
    /// `Quern Halter, size M`.
    #[must_use]
    pub fn frame_and_size(&self) -> String {
        format!("{}, size {}", self.frame.name, self.frame.size_label())
    }

    /// `Bag pattern: Quern Halter, size M`.
    #[must_use]
    pub fn title(&self) -> String {
        format!("Bag pattern: {}", self.frame_and_size())
    }

    /// `Bag pattern, full size · full frame bag · 2026-10-02`.
    #[must_use]
    pub fn subline(&self, day: Option<Day>) -> String {
        let part = match self.frame.luggage.settings().bag.part {
            BagPart::Full => "full frame bag".to_owned(),
            BagPart::Above(cut) => format!("partial frame bag, cut line {}", cut_place(self.units, cut)),
        };
        let mut words = vec!["Bag pattern, full size".to_owned(), part];
        words.extend(day.map(|d| d.to_string()));
        words.join(" · ")
    }

    /// Length of a straight edge with its ±.
    fn edge_length(&self, along: Along) -> String {
        self.bag.edge(along).map_or(Measured::exact(0.0), |e| e.length_mm).text(self.units)
    }

    /// Two lines beside an edge: `Top tube`, `zip 402 ± 9 mm`.
    #[must_use]
    pub fn edge(&self, along: Along) -> [String; 2] {
        let kind = if self.bag.zip() == Some(along) { "zip edge" } else { "straight edge" };
        [capitalised(along_label(along)), format!("{kind} {}", self.edge_length(along))]
    }

    /// Its measures in sentences.
    #[must_use]
    pub fn facts(&self) -> Vec<String> {
        let (bag, units) = (self.bag, self.units);
        let settings = self.frame.luggage.settings().bag;
        let zip = bag.zip();
        let others = bag.edges.iter().map(|e| e.along).filter(|along| Some(*along) != zip);
        let edges: Vec<String> = zip
            .map(|along| format!("zip {}", self.edge_length(along)))
            .into_iter()
            .chain(others.map(|along| format!("{} {}", along_label(along), self.edge_length(along))))
            .collect();
        vec![
            format!(
                "One side has {}. The bag holds {} when it is {} wide at the top and {} at the bottom.",
                bag.area_dm2.text(units),
                bag.litres.text(units),
                length_to_tenth(units, bag.width_mm.0),
                length_to_tenth(units, bag.width_mm.1)
            ),
            format!("Straight edges: {}.", edges.join(", ")),
            format!("Gusset between the two sides: {} long, without seams.", bag.around_mm.text(units)),
            format!(
                "Gap to tubes {}, corner radius {}, seam allowance {}.",
                length(units, settings.gap_to_tubes_mm),
                length(units, settings.corner_radius_mm),
                length(units, settings.seam_allowance_mm)
            ),
        ]
    }

    /// What to know before cutting.
    #[must_use]
    pub fn notes(&self) -> Vec<String> {
        let widest = self.bag_space.edge_u_mm.iter().flatten().copied().fold(0.0, f64::max);
        let way = length_to_whole(self.units, expanded(widest));
        let mut notes = vec![
            format!("The true finished edge may lie anywhere in the grey band, up to {way} either way."),
            bag_note_text(self.units, &bag_space_measure(self.bag_space)),
            "Cut two sides, the second one turned over.".to_owned(),
            WIDTH_NOTE.to_owned(),
        ];
        if !self.bag_space.assumed_diameters.is_empty() {
            notes.push(bag_note_text(self.units, &BagNote::AssumedDiameters(self.bag_space.assumed_diameters.clone())));
        }
        notes
    }

    /// The whole pattern in sentences, for those who do not see it.
    #[must_use]
    pub fn description(&self) -> String {
        let mut sentences = vec![format!("{}, full size.", self.title())];
        sentences.extend(self.facts());
        sentences.push(PATTERN_CAUTION.to_owned());
        sentences.join(" ")
    }

    /// How to print so many pages on some paper, neighbours sharing a strip so wide, mm.
    #[must_use]
    pub fn how_to_print(&self, pages: usize, paper: &str, shared_mm: f64) -> String {
        format!(
            "Print {pages} pages on {paper} at 100{NO_BREAK_SPACE}%, not fitted to the page. Measure the bars on each page. Cut along \
             the thin lines, or overlap the pages by {} so that their circles meet.",
            length(self.units, shared_mm)
        )
    }

    /// What stands beside the bar to check the print by, which is so long, mm.
    #[must_use]
    pub fn check_bar(&self, long_mm: f64) -> [String; 2] {
        let bar = length(self.units, long_mm);
        [format!("{bar}: measure it before you cut"), bar]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::{Findings, Lineup};
    use crate::luggage::Cut;

    fn words_of(part: BagPart, units: System) -> String {
        let path = format!("{}/sample-frames/quern-halter.frame.ron", env!("CARGO_MANIFEST_DIR"));
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(&std::fs::read(path).unwrap()).unwrap(), None);
        lineup.settings.bags.bag.part = part;
        let findings = Findings::of(&lineup);
        let frame = &findings.frames[0];
        let words = PatternWords {
            frame,
            bag_space: frame.luggage.bag_space.as_ref().unwrap(),
            bag: frame.luggage.bag().unwrap(),
            units,
        };
        let mut lines = vec![words.title(), words.subline(Day::read("2026-10-02"))];
        lines.extend(words.facts());
        lines.extend(words.notes());
        lines.push(words.how_to_print(5, "A4", 10.0));
        lines.extend(words.check_bar(if units == System::Metric { 100.0 } else { 101.6 }));
        lines.join("\n").replace([crate::units::THIN_SPACE, NO_BREAK_SPACE], " ")
    }

    #[test]
    fn a_pattern_says_what_it_is_in_the_chosen_units() {
        insta::assert_snapshot!(words_of(BagPart::Full, System::Metric), @"
        Bag pattern: Quern Halter, size M
        Bag pattern, full size · full frame bag · 2026-10-02
        One side has 10.9 ± 1.0 dm². The bag holds 5.9 ± 0.5 l when it is 59.7 mm wide at the top and 45.8 mm at the bottom.
        Straight edges: zip 457 ± 3 mm, down tube 540 ± 11 mm, head tube 38 ± 23 mm, seat tube 345 ± 29 mm.
        Gusset between the two sides: 1475 ± 40 mm long, without seams.
        Gap to tubes 5 mm, corner radius 15 mm, seam allowance 10 mm.
        The true finished edge may lie anywhere in the grey band, up to 30 mm either way.
        Measure along the seat tube, from its top to the middle of the top tube. The bag space is then known to ± 0.6 dm² instead of ± 1.0 dm².
        Cut two sides, the second one turned over.
        Thighs and cranks limit the width. Pedal the bicycle and measure between your knees.
        Print 5 pages on A4 at 100 %, not fitted to the page. Measure the bars on each page. Cut along the thin lines, or overlap the pages by 10 mm so that their circles meet.
        100 mm: measure it before you cut
        100 mm
        ");
        insta::assert_snapshot!(words_of(BagPart::Above(Cut::Level { above_bb_mm: 300.0 }), System::Imperial), @"
        Bag pattern: Quern Halter, size M
        Bag pattern, full size · partial frame bag, cut line 11.81 in above the bottom bracket · 2026-10-02
        One side has 108 ± 14 in². The bag holds 3.9 ± 0.5 l when it is 2.35 in wide at the top and 2.09 in at the bottom.
        Straight edges: zip 18.00 ± 0.13 in, down tube 8.4 ± 0.6 in, head tube 1.5 ± 0.9 in, seat tube 3.6 ± 1.1 in, cut line 11.4 ± 0.5 in.
        Gusset between the two sides: 46.6 ± 1.5 in long, without seams.
        Gap to tubes 0.2 in, corner radius 0.59 in, seam allowance 0.39 in.
        The true finished edge may lie anywhere in the grey band, up to 1.2 in either way.
        Measure along the seat tube, from its top to the middle of the top tube. The bag space is then known to ± 10 in² instead of ± 15 in².
        Cut two sides, the second one turned over.
        Thighs and cranks limit the width. Pedal the bicycle and measure between your knees.
        Print 5 pages on A4 at 100 %, not fitted to the page. Measure the bars on each page. Cut along the thin lines, or overlap the pages by 0.39 in so that their circles meet.
        4 in: measure it before you cut
        4 in
        ");
    }
}
