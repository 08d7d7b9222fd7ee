//! A crank against the rear hub's sprockets and what the frame is drawn for, and a bottom bracket against the shell.

use super::super::extra::Extra;
use super::super::places::{ChainAngles, ChainLimits, DERAILLEUR, ONE_SPROCKET, RearPlaces};
use super::super::reasons::{CrankReason, ShellReason};
use super::super::source::Source;
use super::super::standards::{CrankSpacing, Hub, Shell, crank_family};
use super::super::verdict::Outcome;
use crate::frameset::Standard;
use crate::parts::{Fit, Stated};
use crate::units::{Length, Measured};

/// Printed chainlines differ by this from one maker to the next, mm: trade practice, unverified.
pub(super) const CHAINLINE_PLAY_MM: f64 = 2.0;

/// That the chain runs further off straight than a limit, whichever.
const TOO_OBLIQUE: CrankReason = CrankReason::TooOblique { most_deg: DERAILLEUR.most_deg };

/// What a crank is held against.
#[derive(Clone, Copy)]
pub(in super::super) struct RearEnd<'a> {
    /// The crank that the frame is drawn for.
    pub(in super::super) drawn_for: &'a Stated<CrankSpacing>,
    /// The hub that the frame takes.
    pub(in super::super) place: &'a Stated<Hub>,
    /// The rear hub of the list with its ends.
    pub(in super::super) listed: Option<&'a [Hub]>,
    /// The gear hub of the list with its ends.
    pub(in super::super) gear_hub: Option<&'a [Hub]>,
    pub(in super::super) chainstay: Option<Measured<Length>>,
}

/// The verdict on a crank.
pub(in super::super) fn crank(crank: CrankSpacing, rear: RearEnd) -> Outcome {
    if let (Stated::NotUnderstood(_), Err(why)) = (rear.drawn_for, rear.drawn_for.known(Standard::CrankSpacing)) {
        return Outcome::not_stated(why);
    }
    let drawn_for = rear.drawn_for.is();
    let chain = match rear.gear_hub.and_then(<[Hub]>::first) {
        Some(hub) => one_sprocket(&crank, hub, rear.chainstay),
        None => cassette(&crank, rear),
    };
    let Some(drawn_for) = drawn_for else { return chain.number("chainline", crank.chainline_mm) };
    let outcome = chain.both(in_frame(&crank, drawn_for));
    outcome.number("chainline", crank.chainline_mm).number("frame_chainline", drawn_for.chainline_mm)
}

/// The crank where the frame is drawn for another: the chain comes nearer to the tyre, the rings to the chainstay.
fn in_frame(crank: &CrankSpacing, frame: &CrankSpacing) -> Outcome {
    let chain = chainline_in_frame(crank, frame);
    rings_in_frame(crank, frame).map_or(chain.clone(), |rings| chain.both(rings))
}

/// The rings against the largest that the maker publishes for that number of them; `None` where they clear, or nothing is
/// stated of either.
fn rings_in_frame(crank: &CrankSpacing, frame: &CrankSpacing) -> Option<Outcome> {
    let (own, own_largest) = (crank.rings, crank.largest_teeth?);
    let published = if own == Some(1) { frame.single_teeth.or(frame.largest_teeth) } else { frame.largest_teeth }?;
    let is_for_others = |rings: u8| frame.rings.is_some_and(|of| (of == 1) != (rings == 1));
    // One ring lies further in than the largest of several: what those may not have, it may not.
    let is_known = own.is_none_or(|rings| !is_for_others(rings)) || (own == Some(1) && own_largest > published);
    if let Some(rings) = own.filter(|_| !is_known) {
        return Some(Outcome::not_stated(CrankReason::RingLimitUnknown { rings }));
    }
    if own_largest > published {
        return Some(Outcome::does_not_fit(CrankReason::RingTooLarge { own: own_largest, most: published }, Source::Maker));
    }
    let (own, most) = crank.smallest_teeth.zip(frame.smallest_teeth).filter(|(own, most)| own > most)?;
    Some(Outcome::does_not_fit(CrankReason::SmallRingTooLarge { own, most }, Source::Maker))
}

/// Whether the rings clear the chainstay by the maker's word; `None` where it does not say. A crank further in than the
/// frame is drawn for is not what the maker speaks of.
pub(in super::super) fn rings_clear(crank: &CrankSpacing, frame: &CrankSpacing) -> Option<bool> {
    if let Some(outcome) = rings_in_frame(crank, frame) {
        return (outcome.fit == Fit::DoesNotFit).then_some(false);
    }
    let is_published = frame.largest_teeth.or(frame.single_teeth).is_some() && crank.largest_teeth.is_some();
    let is_further_in = crank.chainline_mm < frame.chainline_mm - CHAINLINE_PLAY_MM;
    (is_published && !is_further_in).then_some(true)
}

fn chainline_in_frame(crank: &CrankSpacing, frame: &CrankSpacing) -> Outcome {
    let out_mm = crank.chainline_mm - frame.chainline_mm;
    let reason = if out_mm.abs() <= CHAINLINE_PLAY_MM {
        CrankReason::Matches { spacing_mm: frame.spacing_mm, chainline_mm: crank.chainline_mm }
    } else {
        CrankReason::LinesDiffer { own_mm: crank.chainline_mm, frame_mm: frame.chainline_mm, out_mm }
    };
    if out_mm >= -CHAINLINE_PLAY_MM {
        return Outcome::fits(reason, Source::Maker);
    }
    Outcome::fits_with(Extra::LessTyreClearance { by_mm: -2.0 * out_mm }, reason, Source::TradePractice)
        .also(Extra::RingsClearStay)
}

/// The hubs that a crank may run with: the listed one, else all that the frame is sold for.
fn hubs(crank: &CrankSpacing, rear: RearEnd) -> Vec<Hub> {
    let with_spacing = |hub: Hub, spacing_mm| Hub { spacing_mm, axle: None, takes_mm: None, ..hub };
    if let Some(listed) = rear.listed {
        return listed.to_vec();
    }
    match rear.place.is() {
        Some(hub) => match hub.takes_mm {
            Some((least, most)) => vec![with_spacing(*hub, least), with_spacing(*hub, most)],
            None => vec![*hub],
        },
        // Of a frame that publishes no hub the crank that it is drawn for names one.
        None => rear.drawn_for.is().map_or_else(Vec::new, |d| {
            let hub = Hub { spacing_mm: d.spacing_mm, axle: None, takes_mm: None, sprockets: None, chainline_mm: None };
            if crank.spacing_mm == d.spacing_mm || d.is_spacing_stated { vec![hub] } else { Vec::new() }
        }),
    }
}

/// The chain on a cassette: as the trade sells crank and hub together, else by its angle; the kindest of several hubs.
fn cassette(crank: &CrankSpacing, rear: RearEnd) -> Outcome {
    let ways = hubs(crank, rear).into_iter().map(|hub| {
        let places = RearPlaces::of(&hub);
        let counts: Vec<u8> = crank.rings.map_or_else(|| vec![1, 2, 3], |n| vec![n]);
        let angles: Vec<(u8, ChainAngles)> =
            counts.iter().map(|n| (*n, ChainAngles::of(crank, *n, &places, rear.chainstay))).collect();
        let outcomes = angles.iter().map(|(n, a)| by_angle(*n, *a, DERAILLEUR)).collect::<Vec<_>>();
        let is_one = outcomes.windows(2).all(|w| w[0].fit == w[1].fit);
        let worst = outcomes.into_iter().enumerate().max_by_key(|(i, o)| (o.fit, angle_rank(&angles, *i)));
        let chain = worst.map_or_else(|| Outcome::not_stated(CrankReason::NothingPublished), |(_, o)| o);
        let family = crank_family(hub.spacing_mm);
        match family.filter(|f| (f.sold_mm.0..=f.sold_mm.1).contains(&crank.chainline_mm)) {
            Some(family) if hub.chainline_mm.is_none() => {
                let sold = CrankReason::SoldTogether { spacing_mm: family.spacing_mm, chainline_mm: crank.chainline_mm };
                // What is sold together runs; its angle is told all the same.
                Outcome { fit: Fit::Fits, ..chain }.without_last_if(TOO_OBLIQUE).because_first(sold)
            }
            _ if !is_one => {
                Outcome { fit: Fit::Borderline, ..chain }.without_last_if(TOO_OBLIQUE).because(CrankReason::DependsOnRings)
            }
            _ => chain,
        }
    });
    match (Outcome::best(ways), rear.place.is().filter(|_| rear.listed.is_none()).and_then(|h| h.takes_mm)) {
        (Some(best), Some((least_mm, most_mm))) => best.because_first(CrankReason::SeveralHubs { least_mm, most_mm }),
        (Some(best), None) => best,
        (None, _) => Outcome::not_stated(CrankReason::NothingPublished),
    }
}

/// Tenths of a degree, to choose the worst of several counts of rings.
fn angle_rank(angles: &[(u8, ChainAngles)], at: usize) -> u64 {
    angles.get(at).map_or(0, |(_, a)| (0..900).find(|tenths| a.worst_deg() * 10.0 <= *tenths as f64).unwrap_or(900))
}

/// The chain between one ring and a gear hub's sprocket.
fn one_sprocket(crank: &CrankSpacing, hub: &Hub, chainstay: Option<Measured<Length>>) -> Outcome {
    let Some(places) = RearPlaces::of_gear_hub(hub) else {
        return Outcome::not_stated(CrankReason::GearHubLineUnknown { own_mm: crank.chainline_mm });
    };
    let angles = ChainAngles::of(crank, 1, &places, chainstay);
    by_angle(1, angles, ONE_SPROCKET)
}

fn by_angle(rings: u8, angles: ChainAngles, limits: ChainLimits) -> Outcome {
    let reason = CrankReason::ChainRuns { rings, lowest: angles.lowest, highest: angles.highest };
    let worst = angles.worst_deg();
    let outcome = if worst <= limits.well_deg {
        Outcome::fits(reason, Source::TradePractice)
    } else if worst <= limits.most_deg {
        Outcome::borderline(reason, Source::TradePractice).because(CrankReason::TooOblique { most_deg: limits.well_deg })
    } else {
        Outcome::does_not_fit(reason, Source::TradePractice).because(CrankReason::TooOblique { most_deg: limits.most_deg })
    };
    outcome
        .number("chain_lowest_gear_deg", angles.lowest.value)
        .number("chain_lowest_gear_u_deg", angles.lowest.u)
        .number("chain_highest_gear_deg", angles.highest.value)
        .number("chain_highest_gear_u_deg", angles.highest.u)
}

/// The verdict on a bottom bracket.
pub(in super::super) fn bottom_bracket(own: &Shell, shell: &Stated<Shell>) -> Outcome {
    let shell = match shell.known(Standard::BottomBracket) {
        Ok(shell) => shell,
        Err(why) => return Outcome::not_stated(why),
    };
    if own.row.name != shell.row.name {
        return Outcome::does_not_fit(ShellReason::KindsDiffer { own: own.row, shell: shell.row }, shell.row.source);
    }
    let Some(width_mm) = shell.widths_mm.first().copied() else {
        return Outcome::not_stated(ShellReason::WidthUnknown(shell.row));
    };
    let outcome = if own.widths_mm.is_empty() {
        Outcome::not_stated(ShellReason::OwnWidthUnknown { shell: shell.row, width_mm })
    } else if own.widths_mm.contains(&width_mm) {
        Outcome::fits(ShellReason::Matches { shell: shell.row, width_mm }, Source::Maker)
    } else {
        Outcome::does_not_fit(ShellReason::WidthsDiffer { width_mm, own_mm: own.widths_mm.clone() }, Source::Maker)
    };
    outcome.number("shell_width", width_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stated<T>(text: &str, read: impl Fn(&str) -> Result<T, crate::parts::standards::NotUnderstood>) -> Stated<T> {
        if text.is_empty() { Stated::NotPublished } else { Stated::Is(read(text).unwrap()) }
    }

    fn on(own: &str, drawn_for: &str, hub: &str, chainstay_mm: f64) -> Outcome {
        let (drawn_for, place) = (stated(drawn_for, CrankSpacing::read), stated(hub, Hub::read));
        let chainstay = Some(Measured::new(chainstay_mm, 0.5));
        let rear = RearEnd { drawn_for: &drawn_for, place: &place, listed: None, gear_hub: None, chainstay };
        crank(CrankSpacing::read(own).unwrap(), rear)
    }

    fn fit(own: &str, drawn_for: &str, hub: &str) -> Fit {
        on(own, drawn_for, hub, 440.0).fit
    }

    #[test]
    fn cranks_run_with_the_hubs_that_they_are_sold_with() {
        for (own, hub) in [
            ("2x, chainline 43.5", "130 x 10 quick release"),
            ("2x, chainline 43.5", "135 x 10 quick release"),
            ("2x, chainline 45", "142 x 12 through axle"),
            ("1x, chainline 45", "142 x 12 through axle"),
            ("3x, chainline 50", "135 x 10 quick release"),
            ("1x, chainline 52", "148 x 12 through axle"),
            ("148", "141 x 10 quick release"),
            ("157", "157 x 12 through axle"),
            ("177", "177 x 12 through axle"),
            ("197", "190 x 10 quick release"),
            ("130", "132.5 x 10 quick release, takes 130 to 135"),
            ("142", "132.5 x 10 quick release, takes 130 to 135"),
        ] {
            let outcome = on(own, "", hub, 430.0);
            assert_eq!(outcome.fit, Fit::Fits, "{own} with {hub}: {:?}", outcome.reasons);
        }
    }

    #[test]
    fn other_cranks_are_judged_by_the_angle_of_the_chain() {
        // 67.5 − 4.6 − 2 × 19 = 24.9: 53 is 28.1 further out, 3.65° over 440 mm; of three rings the smallest is 20.35, 2.65°.
        let hub = "142 x 12, 11-speed";
        assert_eq!(fit("1x, chainline 53", "", hub), Fit::DoesNotFit);
        assert_eq!(fit("3x, chainline 53", "", hub), Fit::Borderline);
        assert_eq!(on("3x, chainline 53", "", hub, 480.0).fit, Fit::Fits, "a longer chainstay turns a no into a yes");
        let unknown = on("chainline 53", "", hub, 440.0);
        assert_eq!((unknown.fit, unknown.reasons.last()), (Fit::Borderline, Some(&CrankReason::DependsOnRings.into())));
        assert_eq!(fit("1x, chainline 76", "", "142 x 12"), Fit::DoesNotFit, "a fat crank on a road hub");
        assert_eq!(fit("142", "", ""), Fit::NotPublished);
        let line = |outcome: &Outcome, label: &str| outcome.numbers.iter().find(|n| n.label == label).map(|n| n.value);
        let told = on("1x, chainline 53", "", hub, 440.0);
        assert!((line(&told, "chain_lowest_gear_deg").unwrap() - (28.1f64 / 440.0).atan().to_degrees()).abs() < 1e-9);
    }

    #[test]
    fn both_limits_are_kept_to_the_tenth() {
        // A ring a millimetre further out is 0.13° over 440 mm; 24.9 + 19.21 = 44.11 is 2.5°, 24.9 + 25.37 = 50.27 is 3.3°.
        let rear = RearPlaces::of(&Hub::read("142 x 12, 11-speed").unwrap());
        let verdict = |line: f64| {
            let crank = CrankSpacing::read(&format!("1x, chainline {line}")).unwrap();
            by_angle(1, ChainAngles::of(&crank, 1, &rear, Some(Measured::new(440.0, 0.5))), DERAILLEUR).fit
        };
        assert_eq!([44.1, 44.2, 50.2, 50.3].map(verdict), [Fit::Fits, Fit::Borderline, Fit::Borderline, Fit::DoesNotFit]);
    }

    #[test]
    fn a_crank_further_in_than_the_frame_is_drawn_for_is_a_condition() {
        let narrow = on("142, 2x", "148", "148 x 12", 440.0);
        assert_eq!(narrow.fit, Fit::FitsWith);
        assert_eq!(narrow.extras, [Extra::LessTyreClearance { by_mm: 6.0 }, Extra::RingsClearStay]);
        assert_eq!(fit("148, 2x, chainline 51", "148", "148 x 12"), Fit::Fits, "makers differ by 2 mm");
        assert_eq!(fit("148", "142, max. 36T", "142 x 12"), fit("148", "142", "142 x 12"), "no teeth are entered");
        assert_eq!(fit("142, 1x 38T", "142, max. 36T", "142 x 12"), Fit::DoesNotFit);
        assert_eq!(fit("142, 1x 36T", "142, max. 36T", "142 x 12"), Fit::Fits);
    }

    #[test]
    fn the_hub_of_the_list_counts_before_the_frames() {
        let place = stated("142 x 12", Hub::read);
        let listed = [Hub::read("142 x 12, chainline 50").unwrap()];
        let drawn_for = Stated::NotPublished;
        let fit = |listed: Option<&[Hub]>, gear_hub: Option<&[Hub]>, own: &str| {
            let rear =
                RearEnd { drawn_for: &drawn_for, place: &place, listed, gear_hub, chainstay: Some(Measured::new(440.0, 0.5)) };
            crank(CrankSpacing::read(own).unwrap(), rear).fit
        };
        assert_eq!(
            (fit(None, None, "1x, chainline 53"), fit(Some(&listed), None, "1x, chainline 53")),
            (Fit::DoesNotFit, Fit::Borderline)
        );
        // One sprocket wants a straight chain: 3 mm over 440 are 0.39°, 6 mm 0.78°.
        let gear = [Hub::read("135 nutted, chainline 49").unwrap()];
        assert_eq!(
            ["chainline 49", "chainline 52", "chainline 55", "chainline 56"].map(|own| fit(None, Some(&gear), own)),
            [Fit::Fits, Fit::Fits, Fit::Borderline, Fit::DoesNotFit]
        );
        let silent = [Hub::read("135 nutted").unwrap()];
        assert_eq!(fit(None, Some(&silent), "chainline 49"), Fit::NotPublished);
    }

    #[test]
    fn shells_match_by_name_and_width() {
        let verdict =
            |own: &str, shell: &str| bottom_bracket(&Shell::read(own).unwrap(), &Stated::Is(Shell::read(shell).unwrap())).fit;
        assert_eq!(verdict("BSA 68/73", "BSA 73"), Fit::Fits);
        assert_eq!(verdict("BSA 68", "BSA 73"), Fit::DoesNotFit);
        assert_eq!(verdict("BSA 68/73", "T47 68"), Fit::DoesNotFit);
        assert_eq!(verdict("BSA 68", "BSA"), Fit::NotPublished);
    }
}
