//! Words beside the rear seen from above: its clearances, what is unknown, and what to measure.

use super::lengths::{length, length_to_whole};
use crate::parts::{NoGearChain, NoStayGap, RearGear, RearSource, RearView};
use crate::units::{Length, Measured, System};
use crate::words::Label;

/// Said below every rear view.
pub const REAR_VIEW_CAUTION: &str = "A chain or tyre that touches can lock the wheel and cause a crash. Places of sprockets, \
                                     rings and rotor are trade practice, unverified. Check every gear on the built bicycle.";

/// Title of the rears.
pub const REAR_TITLE: &str = "Rear from above";

/// A thing in the drawing of a rear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the trade's own names")]
pub enum RearItem {
    Tyre,
    Chain,
    ChosenChain,
    BottomBracket,
    Chainring,
    LargestChainring,
    SmallestChainring,
    LeftFlange,
    RightFlange,
    Rotor,
    Sprocket,
    LargestSprocket,
    SmallestSprocket,
    ChainstayOutside,
}

impl Label for RearItem {
    fn label(self) -> &'static str {
        match self {
            Self::Tyre => "tyre",
            Self::Chain => "chain",
            Self::ChosenChain => "chain in the chosen gear",
            Self::BottomBracket => "bottom bracket",
            Self::Chainring => "chainring",
            Self::LargestChainring => "largest chainring",
            Self::SmallestChainring => "smallest chainring",
            Self::LeftFlange => "left flange",
            Self::RightFlange => "right flange",
            Self::Rotor => "rotor, if there is one",
            Self::Sprocket => "sprocket",
            Self::LargestSprocket => "largest sprocket",
            Self::SmallestSprocket => "smallest sprocket",
            Self::ChainstayOutside => "right chainstay, outside",
        }
    }
}

/// The chain, for who points at it: `chain in the lowest gear, 15.8 ± 1.5 mm from the tyre`.
#[must_use]
pub fn rear_chain_text(units: System, view: &RearView) -> String {
    let gap = view.chain_to_tyre().map_or_else(String::new, |g| format!(", {} from the tyre", g.text(units)));
    format!("chain in the lowest gear{gap}")
}

/// The chainrings' gap to the chainstay; where it is unknown, the maker's word on them, if there is one.
fn rings_to_stay_text(units: System, view: &RearView) -> String {
    match (view.rings_to_stay(), view.rings_clear) {
        (Err(_), Some(true)) => "Chainring to chainstay: clear, because the maker allows rings of that size.".to_owned(),
        (Err(_), Some(false)) => "Chainring to chainstay: not clear, because the maker allows smaller rings only.".to_owned(),
        (gap, _) => gap_to_stay_text(units, "Chainring to chainstay", gap),
    }
}

/// A gap to the chainstay, or why it is unknown and what to measure.
fn gap_to_stay_text(units: System, what: &str, gap: Result<Measured<Length>, NoStayGap>) -> String {
    match gap {
        Ok(gap) if gap.high() < 0.0 => format!("{what}: they touch."),
        Ok(gap) => format!("{what}: {}{}.", gap.text(units), if gap.low() > 0.0 { "" } else { ", borderline" }),
        Err(NoStayGap::NoCrank) => format!("{what}: unknown, because no crank is published or listed."),
        Err(NoStayGap::TeethNotStated) => {
            format!("{what}: unknown, because the teeth of the rings are not stated. Write such as 142, 46/30T.")
        }
        Err(NoStayGap::ArmNotStated) => {
            format!("{what}: unknown, because length or Q factor is not stated. Write such as 142, 170 mm long, Q 150.")
        }
        Err(NoStayGap::StayUnknown(behind)) => format!(
            "{what}: unknown, because the chainstay is not published. Measure from the seat tube’s middle to its outside, {} \
             behind the bottom bracket, and enter it in Frameset.",
            length_to_whole(units, behind)
        ),
    }
}

/// The chain in a chosen gear: how far off straight it runs and what it clears, or why it is not drawn.
#[must_use]
pub fn chosen_gear_text(units: System, view: &RearView, gear: RearGear) -> String {
    let RearGear { ring, sprocket } = gear;
    match view.chain_in(gear) {
        Ok(chain) => {
            let angle = chain.angle.times(chain.angle.value.signum()).text(units);
            let gap = match chain.to_tyre {
                Some(gap) if gap.high() < 0.0 => ", touches the tyre".to_owned(),
                Some(gap) if gap.low() > 0.0 => format!(", {} from the tyre", gap.text(units)),
                Some(gap) => format!(", {} from the tyre, borderline", gap.text(units)),
                None => String::new(),
            };
            format!("Chain on ring {ring} and sprocket {sprocket}: {angle} off straight{gap}.")
        }
        Err(why) => {
            let why = match why {
                NoGearChain::NoDrive => "hub or crank is unknown".to_owned(),
                NoGearChain::SprocketsNotStated => {
                    "the hub’s sprockets are not stated; write such as 142 x 12, 11-speed".to_owned()
                }
                NoGearChain::RingsNotStated => "the number of chainrings is not stated; write such as 142, 2x".to_owned(),
                NoGearChain::Sprockets(1) => "there is one sprocket".to_owned(),
                NoGearChain::Sprockets(count) => format!("there are {count} sprockets"),
                NoGearChain::Rings(1) => "there is one chainring".to_owned(),
                NoGearChain::Rings(count) => format!("there are {count} chainrings"),
            };
            format!("Chain on ring {ring} and sprocket {sprocket}: not drawn, because {why}.")
        }
    }
}

/// Said where the reference is drawn below the others: `Thin lines: A, the reference, …`.
#[must_use]
pub fn over_reference_text(letter: &str) -> String {
    format!("Lines without fill: {letter}, the reference, at the same axle and scale.")
}

/// Said where a gear is chosen.
pub const CHOSEN_GEAR_KEY: &str =
    "Double line: chain in the chosen gear. Rings count from the smallest, sprockets from the largest.";

/// What is drawn how, in one line.
pub const REAR_VIEW_KEY: &str = "Solid: chain in the lowest gear. Dashed: chain in the highest gear. Thin line: widest \
                                 tyre that the maker allows. Line with dots: outside of the right chainstay, where it is known.";

/// What is said below one frame's rear, one sentence a line: chain to tyre, crank to chainstay, what is not known.
#[must_use]
pub fn rear_view_sentences(units: System, view: Option<&RearView>, gear: Option<RearGear>) -> Vec<String> {
    let Some(view) = view else {
        return vec!["Not drawn: chainstay, or hub, crank and tyre are unknown. Enter them as figures or parts.".to_owned()];
    };
    let mut sentences = Vec::new();
    match view.chain_to_tyre() {
        Some(gap) if gap.high() < 0.0 => {
            sentences.push("The chain touches the tyre in the lowest gear.".to_owned());
        }
        Some(gap) => {
            let doubt = if gap.low() > 0.0 { "" } else { ", borderline" };
            sentences.push(format!("Chain to tyre in the lowest gear: {}{doubt}.", gap.text(units)));
        }
        None => {
            let missing = match (&view.tyre, &view.rings, &view.hub) {
                (None, ..) => "no tyre is published or listed",
                (_, None, _) => "no crank or chainline is published or listed",
                (_, _, None) if view.is_gear_hub => "the gear hub’s chainline is not stated",
                _ => "no rear hub is published or listed",
            };
            sentences.push(format!("Chain to tyre: unknown, because {missing}."));
        }
    }
    sentences.extend(gear.map(|gear| chosen_gear_text(units, view, gear)));
    if view.rings.is_some_and(|rings| rings.count.is_none()) {
        sentences.push(
            "One chainring is drawn, because their number is not stated; the smallest of several brings the chain nearer to \
             the tyre."
                .to_owned(),
        );
    }
    sentences.push(rings_to_stay_text(units, view));
    sentences.push(gap_to_stay_text(units, "Crank arm to chainstay", view.arm_to_stay()));
    let published = [
        view.hub.filter(|(_, s)| *s == RearSource::Published).map(|_| "hub"),
        view.rings.filter(|r| r.source == RearSource::Published).map(|_| "crank"),
        view.tyre.filter(|t| t.source == RearSource::Published).map(|_| "tyre"),
    ];
    let published: Vec<&str> = published.into_iter().flatten().collect();
    if !published.is_empty() {
        let are = crate::units::capitalised(&crate::units::listed(published.iter().copied()));
        sentences.push(format!("{are} as published for the frame; a part of the list takes their place."));
    }
    sentences
}

/// What a part of the drawing is, for who points at it: `largest sprocket, 24.9 ± 1.2 mm from the middle`.
#[must_use]
pub fn from_the_middle(units: System, what: RearItem, place: Measured<Length>) -> String {
    format!("{}, {} from the middle", what.label(), place.text(units))
}

/// `tyre 50-622, 51 ± 2 mm wide on its rim`.
#[must_use]
pub fn rear_tyre_text(units: System, view: &RearView) -> String {
    let Some(tyre) = view.tyre else { return String::new() };
    let widest = view.widest_tyre_mm.map(|mm| format!("; the maker allows up to {}", length(units, mm)));
    format!("tyre {}, {} wide on its rim{}", tyre.size, tyre.width.text(units), widest.unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{SizeIndex, read_frameset};
    use crate::geometry::adjust;
    use crate::parts::{Part, PartKind, PartsList, Statements};

    fn view_of(parts: &[(PartKind, &str)]) -> Option<RearView> {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let adjusted = adjust(&frameset);
        let parts = parts.iter().map(|(kind, text)| Part::new(*kind, text, "").unwrap()).collect();
        let list = PartsList { parts, fork: None, ..PartsList::default() };
        RearView::of(&list, &Statements::of(&frameset), SizeIndex(0).of(&adjusted.sizes), frameset.tyre)
    }

    fn said(parts: &[(PartKind, &str)]) -> String {
        let view = view_of(parts);
        rear_view_sentences(System::Metric, view.as_ref(), None).join(" ")
    }

    #[test]
    fn each_clearance_is_told_or_why_not() {
        let (hub, crank) = ((PartKind::RearHub, "142 x 12, 11-speed"), (PartKind::Crank, "1x, chainline 45"));
        let listed = said(&[hub, crank, (PartKind::RearTyre, "50-622")]);
        assert!(listed.starts_with("Chain to tyre in the lowest gear: ") && !listed.contains("as published"), "{listed}");
        assert!(listed.contains("Chainring to chainstay: unknown, because the teeth of the rings are not stated."), "{listed}");
        let whole = said(&[hub, (PartKind::Crank, "142, 1x 40T, 170 mm long, Q 150")]);
        assert!(whole.contains("Chainring to chainstay: unknown, because the chainstay is not published. Measure"), "{whole}");
        assert!(whole.contains("170\u{2009}mm behind the bottom bracket"), "{whole}");
        assert!(said(&[hub, crank, (PartKind::RearTyre, "100-622")]).starts_with("The chain touches the tyre"));
        assert!(!listed.contains("One chainring"), "{listed}");
        assert!(said(&[hub, (PartKind::Crank, "chainline 45")]).contains("One chainring is drawn"));
        let gear = said(&[(PartKind::GearHub, "135 nutted"), crank]);
        assert!(gear.contains("the gear hub’s chainline is not stated"), "{gear}");
        assert!(said(&[crank]).contains("as published for the frame"));
        assert!(rear_view_sentences(System::Metric, None, None)[0].starts_with("Not drawn"));
    }

    #[test]
    fn the_chain_in_a_chosen_gear_is_told_or_why_it_is_not_drawn() {
        let hub = |text| (PartKind::RearHub, text);
        let told = |hub, crank: &'static str, ring, sprocket| {
            let view = view_of(&[hub, (PartKind::Crank, crank), (PartKind::RearTyre, "50-622")]).unwrap();
            chosen_gear_text(System::Metric, &view, RearGear { ring, sprocket })
        };
        let texts = [
            told(hub("142 x 12, 11-speed"), "2x, chainline 45", 2, 6),
            told(hub("142 x 12, 11-speed"), "2x, chainline 45", 2, 1),
            told(hub("142 x 12"), "2x, chainline 45", 1, 1),
            told(hub("142 x 12, 11-speed"), "chainline 45", 1, 1),
            told(hub("142 x 12, 11-speed"), "1x, chainline 45", 2, 1),
            told(hub("142 x 12, 11-speed"), "1x, chainline 45", 1, 12),
        ];
        insta::assert_snapshot!(texts.join("\n"), @"
        Chain on ring 2 and sprocket 6: 0.6 ± 0.2° off straight, 19.7 ± 1.2 mm from the tyre.
        Chain on ring 2 and sprocket 1: 3.1 ± 0.2° off straight, 14.4 ± 1.2 mm from the tyre.
        Chain on ring 1 and sprocket 1: not drawn, because the hub’s sprockets are not stated; write such as 142 x 12, 11-speed.
        Chain on ring 1 and sprocket 1: not drawn, because the number of chainrings is not stated; write such as 142, 2x.
        Chain on ring 2 and sprocket 1: not drawn, because there is one chainring.
        Chain on ring 1 and sprocket 12: not drawn, because there are 11 sprockets.
        ");
    }
}
