//! Notes on frame-bag space, bags and bottles in sentences.

use super::super::lengths::{length, number};
use super::super::phrases::in_sentence;
use super::labels::{bottle_label, holder_label};
use crate::geometry::Assumption;
use crate::lineup::{BagNote, BagSpaceSettings};
use crate::luggage::{BagPart, BottleFit, BottleVerdict, Clash, Cut, Measurement, NoBag, NoOpening};
use crate::units::{Area, Length, Measured, Quantity, System, capitalised, decimals_for, fixed, listed};
use crate::words::Label;

/// Said beside every width.
pub const WIDTH_NOTE: &str = "Thighs and cranks limit the width. Pedal the bicycle and measure between your knees.";

/// Said beside every bottle.
pub const BOTTLE_CAUTION: &str = "A bottle that touches a wheel can cause a crash. Bottle and cage sizes are trade practice, \
                                  unverified. Only the side view is compared. Try bottles, cages and bag on the frame, with the \
                                  front wheel turned and the bicycle loaded.";

/// Why there is no frame-bag space, in two sentences.
#[must_use]
pub fn no_opening_text(why: &NoOpening) -> String {
    let cannot = "Frame-bag space cannot be drawn";
    match why {
        NoOpening::Missing(figures) => {
            let names: Vec<String> = figures.iter().copied().map(in_sentence).collect();
            let (are, them) = if names.len() == 1 { ("is", "it") } else { ("are", "them") };
            format!("{cannot}: {} {are} unknown. Enter or measure {them}.", listed(names.iter().map(String::as_str)))
        }
        NoOpening::NoSeatTubeJunction => format!(
            "{cannot}: nothing says where the top tube meets the seat tube. Measure the seat tube, or enter standover height \
             and top tube."
        ),
        NoOpening::Crossing(a, b) => {
            format!("{cannot}: {} and {} cross. Check the doubtful figures.", a.label(), b.label())
        }
    }
}

/// Why there is no bag, in two sentences.
#[must_use]
pub fn no_bag_text(units: System, why: NoBag) -> String {
    match why {
        NoBag::TooTight { clearance, radius } => format!(
            "No bag fits with a gap of {} and a corner radius of {}. Make them smaller.",
            length(units, clearance),
            length(units, radius)
        ),
        NoBag::NothingAboveCut => "No bag fits above the cut line. Move the line down.".to_owned(),
    }
}

/// What to measure on the frame, as a request.
fn measurement_text(measure: Measurement) -> String {
    match measure {
        Measurement::Junction(Assumption::TopTubeBelowHeadTubeTop) => {
            "Measure along the head tube, from its top to the middle of the top tube".to_owned()
        }
        Measurement::Junction(Assumption::TopTubeBelowSeatTubeTop) => {
            "Measure along the seat tube, from its top to the middle of the top tube".to_owned()
        }
        Measurement::Junction(Assumption::DownTubeAboveHeadTubeBottom) => {
            "Measure along the head tube, from its bottom to the middle of the down tube".to_owned()
        }
        Measurement::Junction(other) => format!("Measure the {}", super::super::assumption_label(other)),
        Measurement::Diameter(tube) => format!("Measure the diameter of the {} in the side view", tube.label()),
    }
}

/// The ± of an area with its unit: `± 0.41 dm²`.
fn area_plus_minus(units: System, area: Measured<Area>) -> String {
    let expanded = area.expanded() * units.factor(Quantity::Area);
    units.with_unit(Quantity::Area, &format!("±\u{2009}{}", fixed(expanded, decimals_for(expanded))))
}

fn clash_text(clash: Clash) -> String {
    match clash {
        Clash::Bag => "the bag".to_owned(),
        Clash::Tube(tube) => format!("the {}", tube.label()),
        Clash::Bottle(holder) => format!("the bottle {}", holder_label(holder)),
        Clash::FrontTyre => "the front tyre".to_owned(),
        Clash::RearTyre => "the rear tyre".to_owned(),
        Clash::ChainRing => "the chainring".to_owned(),
    }
}

/// A gap with its ±: `12 ± 5 mm`.
fn gap_text(units: System, gap: Measured<Length>) -> String {
    gap.text(units)
}

/// How a bottle fits: `The 0.75 l bottle on the down tube hits the bag.`
#[must_use]
pub fn bottle_fit_text(units: System, fit: &BottleFit) -> String {
    let bottle = format!("The {} bottle {}", bottle_label(fit.bottle), holder_label(fit.holder));
    match fit.with_bag {
        BottleVerdict::Fits => match fit.nearest {
            Some((clash, gap)) => format!("{bottle} fits, {} from {}.", gap_text(units, gap), clash_text(clash)),
            None => format!("{bottle} fits."),
        },
        BottleVerdict::Borderline => format!("{bottle} is borderline{}", borderline_text(units, fit)),
        BottleVerdict::DoesNotFit => {
            let hits: Vec<String> = fit.hits.iter().copied().map(clash_text).collect();
            let (is_bag, is_beside) = (fit.hits.contains(&Clash::Bag), fit.without_bag == fit.alone);
            let verdict = if fit.alone == BottleVerdict::Fits { "it fits" } else { "it is borderline" };
            let otherwise = match (fit.without_bag, fit.alone) {
                (_, BottleVerdict::DoesNotFit) => String::new(),
                (BottleVerdict::DoesNotFit, _) if is_bag => format!(" On its own, without the bag, {verdict}."),
                (BottleVerdict::DoesNotFit, _) => format!(" On its own {verdict}."),
                (BottleVerdict::Fits, _) => " Without the bag it fits.".to_owned(),
                (BottleVerdict::Borderline, _) if is_beside => " Without the bag it is borderline.".to_owned(),
                (BottleVerdict::Borderline, _) => " Without the bag it is borderline beside the other bottle.".to_owned(),
            };
            format!("{bottle} hits {}.{otherwise}", listed(hits.iter().map(String::as_str)))
        }
    }
}

/// What a borderline bottle depends on, from the colon or comma to the full stop.
fn borderline_text(units: System, fit: &BottleFit) -> String {
    if let Some((from, to)) = fit.free_mm {
        let whole = |mm: f64| whole_length(units, mm);
        return format!(": it fits with its lower boss {} to {} from the bottom bracket.", whole(from).0, whole(to).1);
    }
    match (fit.hits.as_slice(), fit.nearest) {
        ([], Some((_, gap))) if gap.low() > 0.0 => ": it depends on the height of the bosses.".to_owned(),
        ([], Some((clash, gap))) => format!(", {} from {}.", gap_text(units, gap), clash_text(clash)),
        ([], None) => ".".to_owned(),
        (hits, _) => {
            let hits: Vec<String> = hits.iter().copied().map(clash_text).collect();
            format!(": it may hit {}.", listed(hits.iter().map(String::as_str)))
        }
    }
}

/// A place along a tube to the millimetre or the tenth of an inch, without its unit and with it.
fn whole_length(units: System, mm: f64) -> (String, String) {
    let decimals = match units {
        System::Metric => 0,
        System::Imperial => 1,
    };
    let text = fixed(mm * units.factor(Quantity::Length), decimals);
    (text.clone(), units.with_unit(Quantity::Length, &text))
}

/// Said where the bag takes the place of every bottle, the fullest form first; and how many fit without it.
#[must_use]
pub fn no_bottle_beside_bag(fits: &[BottleFit]) -> Vec<String> {
    let without = bottle_count_text(fits.iter().map(|f| f.without_bag));
    vec![
        format!("no space for bottles beside this bag; without it {without}"),
        format!("without the bag {without}"),
        "no bottle beside this bag".to_owned(),
    ]
}

/// How many of a frame's bottles fit: `both bottles fit`, `1 of 2 bottles fits, 1 is borderline`; empty for none.
#[must_use]
pub fn bottle_count_text(verdicts: impl IntoIterator<Item = BottleVerdict>) -> String {
    let verdicts: Vec<BottleVerdict> = verdicts.into_iter().collect();
    let of = |verdict| verdicts.iter().filter(|v| **v == verdict).count();
    let (fitting, borderline, all) = (of(BottleVerdict::Fits), of(BottleVerdict::Borderline), verdicts.len());
    let of_those_that_fit = match (fitting, all) {
        (_, 0) => return String::new(),
        (0, 1) if borderline == 1 => return "the bottle is borderline".to_owned(),
        (0, 2) if borderline == 2 => return "both bottles are borderline".to_owned(),
        (0, _) if borderline == all => return format!("all {all} bottles are borderline"),
        (1, 1) => "the bottle fits".to_owned(),
        (_, 1) => "the bottle does not fit".to_owned(),
        (2, 2) => "both bottles fit".to_owned(),
        (0, all) if borderline == 1 => return format!("1 of {all} bottles is borderline, none fits"),
        (0, all) if borderline > 1 => return format!("{borderline} of {all} bottles are borderline, none fits"),
        (0, 2) => "neither bottle fits".to_owned(),
        (0, _) => "no bottle fits".to_owned(),
        (some, all) if some == all => format!("all {all} bottles fit"),
        (1, all) => format!("1 of {all} bottles fits"),
        (some, all) => format!("{some} of {all} bottles fit"),
    };
    match borderline {
        0 => of_those_that_fit,
        1 => format!("{of_those_that_fit}, 1 is borderline"),
        more => format!("{of_those_that_fit}, {more} are borderline"),
    }
}

/// A note in one or two sentences.
#[must_use]
pub fn bag_note_text(units: System, note: &BagNote) -> String {
    match note {
        BagNote::NoOpening(why) => no_opening_text(why),
        BagNote::MeasureFirst { measure, now, then } => format!(
            "{}. The bag space is then known to {} instead of {}.",
            measurement_text(*measure),
            area_plus_minus(units, *then),
            area_plus_minus(units, *now)
        ),
        BagNote::NothingToMeasure(area) => {
            format!("The bag space is known to {}. No single measurement would narrow this much.", area_plus_minus(units, *area))
        }
        BagNote::AssumedDiameters(tubes) => {
            format!("Tube diameters are assumed from the material: {}.", listed(tubes.iter().map(|t| t.label())))
        }
        BagNote::ShellInCorner => "The bottom bracket shell reaches into the lowest corner. The bag is cut around it.".to_owned(),
        BagNote::NoBag(why) => no_bag_text(units, *why),
        BagNote::BagInPieces => "The cut line leaves more than one piece. The bag is the largest.".to_owned(),
        BagNote::Bottle(fit) => bottle_fit_text(units, fit),
        BagNote::BottleWithoutTube(holder) => {
            format!("The bottle {} is not drawn: too few figures are published for its tube.", holder_label(*holder))
        }
    }
}

/// All notes on a frame as one text.
#[must_use]
pub fn bag_notes_text(units: System, notes: &[BagNote]) -> String {
    notes.iter().map(|n| bag_note_text(units, n)).collect::<Vec<_>>().join(" ")
}

/// The bag that is drawn in all frames: `full frame bag`, `5 mm gap to tubes`, `45 to 60 mm wide`; none where none is drawn.
#[must_use]
pub fn bag_settings_texts(units: System, settings: &BagSpaceSettings) -> Vec<String> {
    if !settings.with_bag {
        return Vec::new();
    }
    let bag = settings.bag;
    let part = match bag.part {
        BagPart::Full => "full frame bag",
        BagPart::Above(_) => "partial frame bag above the cut line",
    };
    let (low, high) = (bag.gusset_bottom_mm.min(bag.gusset_top_mm), bag.gusset_bottom_mm.max(bag.gusset_top_mm));
    let wide = if low == high {
        format!("{} wide", length(units, low))
    } else {
        format!("{} to {} wide", number(low * units.factor(Quantity::Length)), length(units, high))
    };
    vec![part.to_owned(), format!("{} gap to tubes", length(units, bag.gap_to_tubes_mm)), wide]
}

/// Where the cut line is: `Cut line 300 mm above the bottom bracket.`
#[must_use]
pub fn cut_line_text(units: System, cut: Cut) -> String {
    capitalised(&format!("cut line {}.", cut_place(units, cut)))
}

/// `300 mm above the bottom bracket`.
pub(super) fn cut_place(units: System, cut: Cut) -> String {
    match cut {
        Cut::Level { above_bb_mm } if above_bb_mm < 0.0 => format!("{} below the bottom bracket", length(units, -above_bb_mm)),
        Cut::Level { above_bb_mm } => format!("{} above the bottom bracket", length(units, above_bb_mm)),
        Cut::AlongTopTube { below_mm } => format!("{} below the top tube", length(units, below_mm)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{Figure, Tube};
    use crate::geometry::Point;
    use crate::luggage::{Bottle, Holder};

    /// A bottle with that verdict with the bag, without it, and on its own.
    fn bottle(verdicts: [BottleVerdict; 3], hits: Vec<Clash>, nearest: Option<(Clash, f64)>) -> BottleFit {
        let [with_bag, without_bag, alone] = verdicts;
        BottleFit {
            holder: Holder::DownTube,
            bottle: Bottle::Middle,
            lower_boss_mm: 235.0,
            outline: Vec::new(),
            bosses: [Point { x: 0.0, y: 0.0 }; 2],
            hits,
            nearest: nearest.map(|(clash, mm)| (clash, Measured::new(mm, 2.6))),
            free_mm: None,
            alone,
            without_bag,
            with_bag,
        }
    }

    /// One of each note, and each way in which a bottle fits or does not.
    fn all() -> Vec<BagNote> {
        let (now, then) = (Measured::new(9.1, 0.2), Measured::new(9.1, 0.05));
        let first = |measure| BagNote::MeasureFirst { measure, now, then };
        vec![
            BagNote::NoOpening(NoOpening::Missing(vec![Figure::Stack])),
            BagNote::NoOpening(NoOpening::Missing(vec![Figure::Stack, Figure::HeadTube, Figure::SeatAngle])),
            BagNote::NoOpening(NoOpening::NoSeatTubeJunction),
            BagNote::NoOpening(NoOpening::Crossing(Tube::TopTube, Tube::DownTube)),
            first(Measurement::Junction(Assumption::TopTubeBelowHeadTubeTop)),
            first(Measurement::Junction(Assumption::TopTubeBelowSeatTubeTop)),
            first(Measurement::Junction(Assumption::DownTubeAboveHeadTubeBottom)),
            first(Measurement::Diameter(Tube::DownTube)),
            BagNote::NothingToMeasure(now),
            BagNote::AssumedDiameters(vec![Tube::TopTube]),
            BagNote::AssumedDiameters(vec![Tube::TopTube, Tube::SeatTube]),
            BagNote::ShellInCorner,
            BagNote::NoBag(NoBag::TooTight { clearance: 5.0, radius: 80.0 }),
            BagNote::NoBag(NoBag::NothingAboveCut),
            BagNote::BagInPieces,
        ]
        .into_iter()
        .chain(bottles().into_iter().map(BagNote::Bottle))
        .chain([BagNote::BottleWithoutTube(Holder::UnderDownTube)])
        .collect()
    }

    /// Each way in which a bottle fits or does not.
    fn bottles() -> Vec<BottleFit> {
        use BottleVerdict::{Borderline, DoesNotFit, Fits};
        let near = Some((Clash::Tube(Tube::TopTube), 12.4));
        vec![
            bottle([Fits; 3], Vec::new(), None),
            bottle([Fits; 3], Vec::new(), near),
            bottle([Borderline; 3], Vec::new(), Some((Clash::Bag, 0.3))),
            bottle([Borderline; 3], Vec::new(), near),
            bottle([Borderline; 3], vec![Clash::Tube(Tube::TopTube)], None),
            BottleFit { free_mm: Some((210.0, 224.6)), ..bottle([Borderline; 3], Vec::new(), near) },
            bottle([DoesNotFit, DoesNotFit, DoesNotFit], vec![Clash::Bag, Clash::FrontTyre], None),
            bottle([DoesNotFit, Fits, Fits], vec![Clash::Bag], None),
            bottle([DoesNotFit, Borderline, Borderline], vec![Clash::Bag], None),
            bottle([DoesNotFit, Borderline, Fits], vec![Clash::Bag], None),
            bottle([DoesNotFit, DoesNotFit, Fits], vec![Clash::Bag, Clash::Bottle(Holder::SeatTube)], None),
            bottle([DoesNotFit, DoesNotFit, Fits], vec![Clash::Bottle(Holder::SeatTube)], None),
            bottle([DoesNotFit; 3], vec![Clash::ChainRing, Clash::RearTyre], None),
        ]
    }

    #[test]
    fn every_note_is_said_in_the_chosen_units() {
        let said = |units| {
            let lines: Vec<String> = all().iter().map(|n| format!("{}: {}", n.code(), bag_note_text(units, n))).collect();
            lines.join("\n").replace('\u{2009}', " ")
        };
        insta::assert_snapshot!(said(System::Metric), @r"
        figures_unknown: Frame-bag space cannot be drawn: stack is unknown. Enter or measure it.
        figures_unknown: Frame-bag space cannot be drawn: stack, head tube and effective seat angle are unknown. Enter or measure them.
        seat_tube_junction_unknown: Frame-bag space cannot be drawn: nothing says where the top tube meets the seat tube. Measure the seat tube, or enter standover height and top tube.
        tubes_cross: Frame-bag space cannot be drawn: top tube and down tube cross. Check the doubtful figures.
        measure_first: Measure along the head tube, from its top to the middle of the top tube. The bag space is then known to ± 0.10 dm² instead of ± 0.4 dm².
        measure_first: Measure along the seat tube, from its top to the middle of the top tube. The bag space is then known to ± 0.10 dm² instead of ± 0.4 dm².
        measure_first: Measure along the head tube, from its bottom to the middle of the down tube. The bag space is then known to ± 0.10 dm² instead of ± 0.4 dm².
        measure_first: Measure the diameter of the down tube in the side view. The bag space is then known to ± 0.10 dm² instead of ± 0.4 dm².
        nothing_to_measure: The bag space is known to ± 0.4 dm². No single measurement would narrow this much.
        tube_diameters_assumed: Tube diameters are assumed from the material: top tube.
        tube_diameters_assumed: Tube diameters are assumed from the material: top tube and seat tube.
        shell_in_corner: The bottom bracket shell reaches into the lowest corner. The bag is cut around it.
        gap_and_corners_leave_no_bag: No bag fits with a gap of 5 mm and a corner radius of 80 mm. Make them smaller.
        nothing_above_cut_line: No bag fits above the cut line. Move the line down.
        bag_in_pieces: The cut line leaves more than one piece. The bag is the largest.
        bottle_fits: The 0.75 l bottle on the down tube fits.
        bottle_fits: The 0.75 l bottle on the down tube fits, 12 ± 5 mm from the top tube.
        bottle_borderline: The 0.75 l bottle on the down tube is borderline, 0 ± 5 mm from the bag.
        bottle_borderline: The 0.75 l bottle on the down tube is borderline: it depends on the height of the bosses.
        bottle_borderline: The 0.75 l bottle on the down tube is borderline: it may hit the top tube.
        bottle_borderline: The 0.75 l bottle on the down tube is borderline: it fits with its lower boss 210 to 225 mm from the bottom bracket.
        bottle_hits: The 0.75 l bottle on the down tube hits the bag and the front tyre.
        bottle_hits: The 0.75 l bottle on the down tube hits the bag. Without the bag it fits.
        bottle_hits: The 0.75 l bottle on the down tube hits the bag. Without the bag it is borderline.
        bottle_hits: The 0.75 l bottle on the down tube hits the bag. Without the bag it is borderline beside the other bottle.
        bottle_hits: The 0.75 l bottle on the down tube hits the bag and the bottle on the seat tube. On its own, without the bag, it fits.
        bottle_hits: The 0.75 l bottle on the down tube hits the bottle on the seat tube. On its own it fits.
        bottle_hits: The 0.75 l bottle on the down tube hits the chainring and the rear tyre.
        bottle_tube_unknown: The bottle under the down tube is not drawn: too few figures are published for its tube.
        ");
        let imperial = said(System::Imperial);
        let changed: Vec<&str> = imperial.lines().filter(|l| !said(System::Metric).contains(l)).collect();
        insta::assert_snapshot!(changed.join("\n"), @"
        measure_first: Measure along the head tube, from its top to the middle of the top tube. The bag space is then known to ± 1.6 in² instead of ± 6 in².
        measure_first: Measure along the seat tube, from its top to the middle of the top tube. The bag space is then known to ± 1.6 in² instead of ± 6 in².
        measure_first: Measure along the head tube, from its bottom to the middle of the down tube. The bag space is then known to ± 1.6 in² instead of ± 6 in².
        measure_first: Measure the diameter of the down tube in the side view. The bag space is then known to ± 1.6 in² instead of ± 6 in².
        nothing_to_measure: The bag space is known to ± 6 in². No single measurement would narrow this much.
        gap_and_corners_leave_no_bag: No bag fits with a gap of 0.2 in and a corner radius of 3.15 in. Make them smaller.
        bottle_fits: The 0.75 l bottle on the down tube fits, 0.5 ± 0.2 in from the top tube.
        bottle_borderline: The 0.75 l bottle on the down tube is borderline, 0.0 ± 0.2 in from the bag.
        bottle_borderline: The 0.75 l bottle on the down tube is borderline: it fits with its lower boss 8.3 to 8.8 in from the bottom bracket.
        ");
    }

    #[test]
    fn bottles_are_counted_in_words() {
        use BottleVerdict::{Borderline as B, DoesNotFit as N, Fits as F};
        let counts: [&[BottleVerdict]; 15] = [
            &[],
            &[F],
            &[N],
            &[B],
            &[F, F],
            &[F, N],
            &[F, B],
            &[B, B],
            &[B, N],
            &[N, N],
            &[F, F, F],
            &[F, F, N],
            &[F, B, B],
            &[B, B, B],
            &[N, N, N],
        ];
        insta::assert_snapshot!(counts.map(|c| bottle_count_text(c.iter().copied())).join("\n"), @"

        the bottle fits
        the bottle does not fit
        the bottle is borderline
        both bottles fit
        1 of 2 bottles fits
        1 of 2 bottles fits, 1 is borderline
        both bottles are borderline
        1 of 2 bottles is borderline, none fits
        neither bottle fits
        all 3 bottles fit
        2 of 3 bottles fit
        1 of 3 bottles fits, 2 are borderline
        all 3 bottles are borderline
        no bottle fits
        ");
    }

    #[test]
    fn the_bag_that_is_drawn_is_said_in_the_chosen_units() {
        let mut settings = BagSpaceSettings::default();
        let said = |settings: &BagSpaceSettings, units| bag_settings_texts(units, settings).join(", ").replace('\u{2009}', " ");
        insta::assert_snapshot!(said(&settings, System::Metric), @"full frame bag, 5 mm gap to tubes, 45 to 60 mm wide");
        settings.bag.part = BagPart::Above(Cut::Level { above_bb_mm: 300.0 });
        settings.bag.gusset_bottom_mm = settings.bag.gusset_top_mm;
        insta::assert_snapshot!(said(&settings, System::Imperial), @"partial frame bag above the cut line, 0.2 in gap to tubes, 2.36 in wide");
        let cuts = [Cut::Level { above_bb_mm: 300.0 }, Cut::Level { above_bb_mm: -20.0 }, Cut::AlongTopTube { below_mm: 120.0 }];
        insta::assert_snapshot!(cuts.map(|c| cut_line_text(System::Metric, c).replace('\u{2009}', " ")).join("\n"), @"
        Cut line 300 mm above the bottom bracket.
        Cut line 20 mm below the bottom bracket.
        Cut line 120 mm below the top tube.
        ");
        settings.with_bag = false;
        assert_eq!(said(&settings, System::Metric), "");
    }
}
