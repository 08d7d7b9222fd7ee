//! A crank against the rear hub's chainline, and a bottom bracket against the shell.

use super::super::reading::{mm, plain};
use super::super::source::Source;
use super::super::standards::{CrankSpacing, Hub, Shell, Thread};
use super::super::verdict::{Outcome, a_side};
use crate::frameset::Standard;
use crate::parts::Stated;
use crate::parts::stated::not_understood;

/// The crank that a frame is drawn for: stated, or that of its rear hub (trade practice, unverified).
pub(in super::super) fn drawn_for(stated: &Stated<CrankSpacing>, rear_hub: &Stated<Hub>) -> Option<(CrankSpacing, Source)> {
    if let Some(spacing) = stated.is() {
        return Some((*spacing, Source::Maker));
    }
    let hub = rear_hub.is()?;
    CrankSpacing::read(&plain(hub.spacing_mm)).ok().map(|spacing| (spacing, Source::TradePractice))
}

/// The verdict on a crank.
pub(in super::super) fn crank(crank: CrankSpacing, stated: &Stated<CrankSpacing>, rear_hub: &Stated<Hub>) -> Outcome {
    if let Stated::NotUnderstood(why) = stated {
        return Outcome::not_stated(not_understood(Standard::CrankSpacing, why));
    }
    // Dropouts that are sold for several hubs take several cranks, each at its own hub's chainline.
    let several = one_of_several(crank, stated, rear_hub);
    let own = several.as_ref().map(|(frame, _)| (*frame, Source::TradePractice)).or_else(|| drawn_for(stated, rear_hub));
    let Some((frame, source)) = own else {
        return Outcome::not_stated("The maker states neither a crank spacing nor a rear hub from which it would follow.");
    };
    let several = several.map(|(_, sentence)| sentence).unwrap_or_default();
    let moves = (crank.spacing_mm - frame.spacing_mm) / 2.0;
    let line = crank.chainline_mm - frame.chainline_mm;
    let numbers = |o: Outcome| {
        o.number("crank_spacing", crank.spacing_mm)
            .number("frame_spacing", frame.spacing_mm)
            .number("chain_moves_out_a_side", moves)
            .number("chainline", crank.chainline_mm)
    };
    // Printed chainlines differ by ± 2 mm from one maker to the next.
    if moves == 0.0 && line.abs() <= 2.0 {
        return numbers(Outcome::fits(
            format!(
                "{several}Crank and {} are both of spacing {}: chainline {}.",
                if several.is_empty() { "frame" } else { "hub" },
                plain(crank.spacing_mm),
                mm(crank.chainline_mm)
            ),
            source,
        ));
    }
    if moves == 0.0 {
        return numbers(Outcome::fits_with(
            format!("a chainline {} off the hub's", mm(line.abs())),
            format!(
                "{several}The crank's chainline is {}, that of spacing {} usually {}.",
                mm(crank.chainline_mm),
                plain(frame.spacing_mm),
                mm(frame.chainline_mm)
            ),
            Source::TradePractice,
        ));
    }
    let reason = format!(
        "A crank of spacing {} instead of {} moves the chain {} by {}.",
        plain(crank.spacing_mm),
        plain(frame.spacing_mm),
        if moves > 0.0 { "out" } else { "in" },
        a_side(moves.abs())
    );
    // A chainline that is stated and not its spacing's own is off by that as well.
    let beyond = line - moves;
    let off = if crank.is_chainline_stated && beyond.abs() > 2.0 {
        format!(", and a chainline {} off the hub's", mm(line.abs()))
    } else {
        String::new()
    };
    let with = if moves > 0.0 {
        format!("the chain {} further out than the hub's sprockets, the rings' room beside the chainstay to be tried", mm(moves))
    } else {
        format!("{} less room for the rear tyre", mm(-2.0 * moves))
    };
    if moves.abs() > 5.0 {
        return numbers(Outcome::does_not_fit(
            format!("{reason} That is further than a chain runs straight."),
            Source::TradePractice,
        ));
    }
    numbers(Outcome::fits_with(format!("{with}{off}"), reason, Source::TradePractice))
}

/// The spacing, among those of the hubs that the dropouts are sold for, that the crank is made for; and that in a sentence.
fn one_of_several(crank: CrankSpacing, stated: &Stated<CrankSpacing>, rear_hub: &Stated<Hub>) -> Option<(CrankSpacing, String)> {
    let (Stated::NotStated, Some((least, most))) = (stated, rear_hub.is()?.takes_mm) else { return None };
    let frame = [least, most]
        .into_iter()
        .filter_map(|hub| CrankSpacing::read(&plain(hub)).ok())
        .find(|family| family.spacing_mm == crank.spacing_mm)?;
    let sentence =
        format!("The dropouts are sold for hubs of {} to {}, and this crank is made for one of them. ", mm(least), mm(most));
    Some((frame, sentence))
}

/// The verdict on a bottom bracket.
pub(in super::super) fn bottom_bracket(own: &Shell, shell: &Stated<Shell>) -> Outcome {
    let shell = match shell.known(Standard::BottomBracket) {
        Ok(shell) => shell,
        Err(why) => return Outcome::not_stated(why),
    };
    if own.row.name != shell.row.name {
        let held = |t: Thread| if t == Thread::Threaded { "threaded" } else { "pressed" };
        return Outcome::does_not_fit(
            format!(
                "The bottom bracket is {} ({}, {}), the shell {} ({}, {}).",
                own.row.name,
                held(own.row.thread),
                own.row.bore,
                shell.row.name,
                held(shell.row.thread),
                shell.row.bore
            ),
            shell.row.source,
        );
    }
    let Some(width) = shell.widths_mm.first().copied() else {
        return Outcome::not_stated(format!("The shell is {}, its width is not stated.", shell.row.name));
    };
    let number = |o: Outcome| o.number("shell_width", width);
    if own.widths_mm.is_empty() {
        return number(Outcome::not_stated(format!(
            "The shell is {} {}; the bottom bracket states no width.",
            shell.row.name,
            mm(width)
        )));
    }
    if own.widths_mm.contains(&width) {
        return number(Outcome::fits(format!("Both are {}, {} wide.", shell.row.name, mm(width)), Source::Maker));
    }
    let made: Vec<String> = own.widths_mm.iter().map(|w| plain(*w)).collect();
    number(Outcome::does_not_fit(
        format!("The shell is {} wide, the bottom bracket made for {} mm.", mm(width), made.join(" or ")),
        Source::Maker,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::Fit;

    fn verdict(own: &str, stated: &str, hub: &str) -> Outcome {
        let stated = if stated.is_empty() { Stated::NotStated } else { Stated::Is(CrankSpacing::read(stated).unwrap()) };
        let hub = if hub.is_empty() { Stated::NotStated } else { Stated::Is(Hub::read(hub).unwrap()) };
        crank(CrankSpacing::read(own).unwrap(), &stated, &hub)
    }

    #[test]
    fn half_the_difference_goes_to_each_side() {
        assert_eq!(verdict("142", "142", "").fit, Fit::Fits);
        let wide = verdict("148", "", "142 x 12 through axle");
        assert_eq!((wide.fit, wide.numbers[2].value), (Fit::FitsWith, 3.0));
        let narrow = verdict("142", "148", "");
        assert_eq!((narrow.fit, narrow.with.as_deref()), (Fit::FitsWith, Some("6\u{2009}mm less room for the rear tyre")));
        assert_eq!(verdict("142", "", "").fit, Fit::NotStated);
        assert_eq!(verdict("130", "", "148 x 12").fit, Fit::DoesNotFit);
        // 135 and 142 have one chainline: 142 = 135 + 2 × 3.5 (trade practice, unverified).
        assert_eq!(verdict("142", "", "135 x 10 quick release").fit, Fit::Fits);
        let several = "132.5 x 10 quick release, takes 130 to 135";
        assert_eq!((verdict("130", "", several).fit, verdict("142", "", several).fit), (Fit::Fits, Fit::Fits));
        // Of another spacing and off besides: 52 − 43.5, where 3 would come of the spacing alone.
        let both = verdict("142, chainline 43.5", "148", "").with.unwrap_or_default();
        assert!(both.ends_with("and a chainline 8.5\u{2009}mm off the hub's"), "{both}");
        // The chainline is held against the hub's there too: 49 − 43.5.
        let off = verdict("142, chainline 43.5", "", several);
        assert_eq!((off.fit, off.with.as_deref()), (Fit::FitsWith, Some("a chainline 5.5\u{2009}mm off the hub's")));
        assert_eq!(off.with, verdict("142, chainline 43.5", "142", "").with, "as where one hub alone is stated");
    }

    #[test]
    fn shells_match_by_name_and_width() {
        let verdict =
            |own: &str, shell: &str| bottom_bracket(&Shell::read(own).unwrap(), &Stated::Is(Shell::read(shell).unwrap())).fit;
        assert_eq!(verdict("BSA 68/73", "BSA 73"), Fit::Fits);
        assert_eq!(verdict("BSA 68", "BSA 73"), Fit::DoesNotFit);
        assert_eq!(verdict("BSA 68/73", "T47 68"), Fit::DoesNotFit);
        assert_eq!(verdict("BSA 68", "BSA"), Fit::NotStated);
    }
}
