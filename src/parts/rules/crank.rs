//! A crank against the rear hub's chainline, and a bottom bracket against the shell.

use super::super::extra::Extra;
use super::super::reading::plain;
use super::super::reasons::{CrankReason, ShellReason};
use super::super::source::Source;
use super::super::standards::{CrankSpacing, Hub, Shell};
use super::super::verdict::Outcome;
use crate::frameset::Standard;
use crate::parts::Stated;

/// Printed chainlines differ by this from one maker to the next, mm: trade practice, unverified.
const CHAINLINE_PLAY_MM: f64 = 2.0;
/// Further than this on each side a chain does not run straight enough, mm: trade practice, unverified.
const MOST_MOVED_MM: f64 = 5.0;

/// The crank that a frame is drawn for: published, or that of its rear hub (trade practice, unverified).
pub(in super::super) fn drawn_for(stated: &Stated<CrankSpacing>, rear_hub: &Stated<Hub>) -> Option<(CrankSpacing, Source)> {
    if let Some(spacing) = stated.is() {
        return Some((*spacing, Source::Maker));
    }
    let hub = rear_hub.is()?;
    CrankSpacing::read(&plain(hub.spacing_mm)).ok().map(|spacing| (spacing, Source::TradePractice))
}

/// The verdict on a crank.
pub(in super::super) fn crank(crank: CrankSpacing, stated: &Stated<CrankSpacing>, rear_hub: &Stated<Hub>) -> Outcome {
    if let (Stated::NotUnderstood(_), Err(why)) = (stated, stated.known(Standard::CrankSpacing)) {
        return Outcome::not_stated(why);
    }
    // Dropouts that are sold for several hubs take several cranks, each at its own hub's chainline.
    let several = one_of_several(crank, stated, rear_hub);
    let own = several.map(|(frame, _)| (frame, Source::TradePractice)).or_else(|| drawn_for(stated, rear_hub));
    let Some((frame, source)) = own else { return Outcome::not_stated(CrankReason::NothingPublished) };
    let animation = (crank.spacing_mm - frame.spacing_mm) / 2.0;
    let line = crank.chainline_mm - frame.chainline_mm;
    let finished = |o: Outcome| {
        let o = o
            .number("crank_spacing", crank.spacing_mm)
            .number("frame_spacing", frame.spacing_mm)
            .number("chain_moves_out_a_side", animation)
            .number("chainline", crank.chainline_mm);
        match several {
            Some((_, reason)) => o.because_first(reason),
            None => o,
        }
    };
    let off = Extra::ChainlineOff { by_mm: line.abs() };
    if animation == 0.0 && line.abs() <= CHAINLINE_PLAY_MM {
        let reason = CrankReason::Matches { spacing_mm: crank.spacing_mm, chainline_mm: crank.chainline_mm };
        return finished(Outcome::fits(reason, source));
    }
    if animation == 0.0 {
        let reason = CrankReason::ChainlinesDiffer {
            own_mm: crank.chainline_mm,
            spacing_mm: frame.spacing_mm,
            usual_mm: frame.chainline_mm,
        };
        return finished(Outcome::fits_with(off, reason, Source::TradePractice));
    }
    let reason = CrankReason::MovesChain { own_mm: crank.spacing_mm, spacing_mm: frame.spacing_mm, out_mm: animation };
    if animation.abs() > MOST_MOVED_MM {
        let outcome = Outcome::does_not_fit(reason, Source::TradePractice);
        return finished(outcome.because(CrankReason::TooFarToMove { most_mm: MOST_MOVED_MM }));
    }
    let extra = if animation > 0.0 {
        Extra::ChainFurtherOut { by_mm: animation }
    } else {
        Extra::LessTyreClearance { by_mm: -2.0 * animation }
    };
    let outcome = Outcome::fits_with(extra, reason, Source::TradePractice);
    // A chainline that is stated and not its spacing's own is off by that as well.
    let is_off_besides = crank.is_chainline_stated && (line - animation).abs() > CHAINLINE_PLAY_MM;
    finished(if is_off_besides { outcome.also(off) } else { outcome })
}

/// The spacing, among those of the hubs that the dropouts are sold for, that the crank is made for; and that as a reason.
fn one_of_several(
    crank: CrankSpacing,
    stated: &Stated<CrankSpacing>,
    rear_hub: &Stated<Hub>,
) -> Option<(CrankSpacing, CrankReason)> {
    let (Stated::NotPublished, Some((least_mm, most_mm))) = (stated, rear_hub.is()?.takes_mm) else { return None };
    let frame = [least_mm, most_mm]
        .into_iter()
        .filter_map(|hub| CrankSpacing::read(&plain(hub)).ok())
        .find(|family| family.spacing_mm == crank.spacing_mm)?;
    Some((frame, CrankReason::SuitsOneOfSeveral { least_mm, most_mm }))
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
    use crate::parts::Fit;

    fn verdict(own: &str, stated: &str, hub: &str) -> Outcome {
        let stated = if stated.is_empty() { Stated::NotPublished } else { Stated::Is(CrankSpacing::read(stated).unwrap()) };
        let hub = if hub.is_empty() { Stated::NotPublished } else { Stated::Is(Hub::read(hub).unwrap()) };
        crank(CrankSpacing::read(own).unwrap(), &stated, &hub)
    }

    #[test]
    fn half_the_difference_goes_to_each_side() {
        assert_eq!(verdict("142", "142", "").fit, Fit::Fits);
        let wide = verdict("148", "", "142 x 12 through axle");
        assert_eq!((wide.fit, wide.numbers[2].value), (Fit::FitsWith, 3.0));
        let narrow = verdict("142", "148", "");
        assert_eq!((narrow.fit, narrow.extras), (Fit::FitsWith, vec![Extra::LessTyreClearance { by_mm: 6.0 }]));
        assert_eq!(verdict("142", "", "").fit, Fit::NotPublished);
        assert_eq!(verdict("130", "", "148 x 12").fit, Fit::DoesNotFit);
        assert_eq!(verdict("130", "", "148 x 12").reasons.len(), 2);
        // 135 and 142 have one chainline: 142 = 135 + 2 × 3.5 (trade practice, unverified).
        assert_eq!(verdict("142", "", "135 x 10 quick release").fit, Fit::Fits);
        let several = "132.5 x 10 quick release, takes 130 to 135";
        assert_eq!((verdict("130", "", several).fit, verdict("142", "", several).fit), (Fit::Fits, Fit::Fits));
        let reasons = verdict("142", "", several).reasons;
        assert_eq!(reasons.first(), Some(&CrankReason::SuitsOneOfSeveral { least_mm: 130.0, most_mm: 135.0 }.into()));
        // Of another spacing and off besides: 52 − 43.5, where 3 would come of the spacing alone.
        let both = verdict("142, chainline 43.5", "148", "").extras;
        assert_eq!(both, [Extra::LessTyreClearance { by_mm: 6.0 }, Extra::ChainlineOff { by_mm: 8.5 }]);
        // The chainline is held against the hub's there too: 49 − 43.5.
        let off = verdict("142, chainline 43.5", "", several);
        assert_eq!((off.fit, off.extras.as_slice()), (Fit::FitsWith, [Extra::ChainlineOff { by_mm: 5.5 }].as_slice()));
        assert_eq!(off.extras, verdict("142, chainline 43.5", "142", "").extras, "as where one hub alone is stated");
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

    #[test]
    fn a_chainline_is_off_only_beyond_what_the_spacing_moves_it() {
        // 148 in 142: 3 mm out a side. A chainline of 52.5 is 3.5 more than 49, so half a millimetre is left over.
        let extras = |own: &str| verdict(own, "142", "").extras;
        let out = Extra::ChainFurtherOut { by_mm: 3.0 };
        assert_eq!(extras("148"), [out]);
        assert_eq!(extras("148, chainline 52.5"), [out]);
        assert_eq!(extras("148, chainline 56"), [out, Extra::ChainlineOff { by_mm: 7.0 }]);
        // Within 2 mm makers differ.
        assert_eq!(verdict("142, chainline 50.5", "142", "").fit, Fit::Fits);
        assert_eq!(extras("142, chainline 52.5"), [Extra::ChainlineOff { by_mm: 3.5 }]);
    }
}
