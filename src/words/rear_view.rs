//! Words beside the rear seen from above: its clearances, what is unknown, and what to measure.

use super::lengths::length;
use crate::parts::{RearSource, RearView};
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
}

impl Label for RearItem {
    fn label(self) -> &'static str {
        match self {
            Self::Tyre => "tyre",
            Self::Chain => "chain",
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
        }
    }
}

/// The chain, for who points at it: `chain in the lowest gear, 15.8 ± 1.5 mm from the tyre`.
#[must_use]
pub fn rear_chain_text(units: System, view: &RearView) -> String {
    let gap = view.chain_to_tyre().map_or_else(String::new, |g| format!(", {} from the tyre", g.text(units)));
    format!("chain in the lowest gear{gap}")
}

/// What is drawn how, in one line.
pub const REAR_VIEW_KEY: &str = "Solid: chain in the lowest gear. Dashed: chain in the highest gear. Thin line: widest \
                                 tyre that the maker allows.";

/// What is said below one frame's rear, one sentence a line: chain to tyre, crank to chainstay, what is not known.
#[must_use]
pub fn rear_view_sentences(units: System, view: Option<&RearView>) -> Vec<String> {
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
    if view.rings.is_some_and(|rings| rings.count.is_none()) {
        sentences.push(
            "One chainring is drawn, because their number is not stated; the smallest of several brings the chain nearer to \
             the tyre."
                .to_owned(),
        );
    }
    sentences.push(
        "Crank and chainring to chainstay: unknown, because stays are not published. Measure from the seat tube’s middle to \
         the outside of the right chainstay, beside the chainring."
            .to_owned(),
    );
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

    fn said(parts: &[(PartKind, &str)]) -> String {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let adjusted = adjust(&frameset);
        let parts = parts.iter().map(|(kind, text)| Part::new(*kind, text, "").unwrap()).collect();
        let list = PartsList { parts, fork: None, ..PartsList::default() };
        let view = RearView::of(&list, &Statements::of(&frameset), SizeIndex(0).of(&adjusted.sizes), frameset.tyre);
        rear_view_sentences(System::Metric, view.as_ref()).join(" ")
    }

    #[test]
    fn each_clearance_is_told_or_why_not() {
        let (hub, crank) = ((PartKind::RearHub, "142 x 12, 11-speed"), (PartKind::Crank, "1x, chainline 45"));
        let listed = said(&[hub, crank, (PartKind::RearTyre, "50-622")]);
        assert!(listed.starts_with("Chain to tyre in the lowest gear: ") && !listed.contains("as published"), "{listed}");
        assert!(listed.contains("stays are not published. Measure"), "{listed}");
        assert!(said(&[hub, crank, (PartKind::RearTyre, "100-622")]).starts_with("The chain touches the tyre"));
        assert!(!listed.contains("One chainring"), "{listed}");
        assert!(said(&[hub, (PartKind::Crank, "chainline 45")]).contains("One chainring is drawn"));
        let gear = said(&[(PartKind::GearHub, "135 nutted"), crank]);
        assert!(gear.contains("the gear hub’s chainline is not stated"), "{gear}");
        assert!(said(&[crank]).contains("as published for the frame"));
        assert!(rear_view_sentences(System::Metric, None)[0].starts_with("Not drawn"));
    }
}
