//! Front derailleurs: how they are held, where the cable comes from, and their chainline.

use super::super::reading::{folded, numbers, says};
use super::{DiameterRow, NotUnderstood, diameter, refused};

/// Bands in use: the seat tube's outside diameter.
pub const CLAMPS: &[DiameterRow] =
    &[diameter(28.6, "steel"), diameter(31.8, "oversized steel, aluminium"), diameter(34.9, "aluminium, titanium")];

/// How a front derailleur is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Attachment {
    /// A band around the seat tube of this diameter, mm.
    Clamp(f64),
    /// A tab brazed or riveted on.
    BrazeOn,
    /// Bolted to the frame or the bottom bracket.
    Direct,
    /// The maker says that none fits.
    None,
}

/// From where the cable pulls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "they say it all")]
pub enum Pull {
    Top,
    Bottom,
}

/// A front derailleur, or the place for one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrontDerailleur {
    /// How it is held.
    pub attachment: Attachment,
    /// Where the cable stop is, or whence it pulls; both ways where it says so.
    pub pull: Option<Pull>,
    /// Chainline that it is made for, mm.
    pub chainline_mm: Option<f64>,
}

impl FrontDerailleur {
    /// Reads `28.6 mm clamp`, `28.6 clamp`, `34.9 clamp, top pull`, `braze-on, chainline 47.5`, `direct mount`, `none`.
    ///
    /// # Errors
    /// Another way of holding, or a clamp that is not made.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        let chainline_mm = text.split("chainline").nth(1).and_then(|rest| numbers(rest).first().copied());
        let clamp = numbers(text.split("chainline").next().unwrap_or_default());
        let attachment = if says(&text, "braze-on") || says(&text, "brazed") || says(&text, "braze on") {
            Attachment::BrazeOn
        } else if says(&text, "direct") || says(&text, "direct mount") {
            Attachment::Direct
        } else if says(&text, "none") || says(&text, "no") {
            Attachment::None
        } else if let Some(mm) = clamp.iter().copied().find(|n| CLAMPS.iter().any(|k| (k.mm - n).abs() < 0.11)) {
            Attachment::Clamp(mm)
        } else {
            return refused(format!(
                "`{text}` is not a front derailleur: write 28.6 mm, 31.8 mm or 34.9 mm clamp, braze-on, direct mount or none"
            ));
        };
        let pull = match (says(&text, "top pull"), says(&text, "bottom pull")) {
            (true, false) => Some(Pull::Top),
            (false, true) => Some(Pull::Bottom),
            _ => None,
        };
        Ok(Self { attachment, pull, chainline_mm })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn derailleurs_are_read() {
        let read = |text: &str| FrontDerailleur::read(text).unwrap();
        assert_eq!(read("28.6 clamp").attachment, Attachment::Clamp(28.6));
        assert_eq!(read("28.6 mm clamp, top pull"), read("28.6 clamp, top pull"));
        assert_eq!(read("34.9 clamp, top pull").pull, Some(Pull::Top));
        assert_eq!(read("braze-on, chainline 47.5").chainline_mm, Some(47.5));
        assert_eq!(read("none").attachment, Attachment::None);
        assert!(FrontDerailleur::read("30 clamp").unwrap_err().0.contains("31.8"));
    }

    #[test]
    fn a_way_of_holding_goes_by_each_of_its_names() {
        for (attachment, names) in [
            (Attachment::BrazeOn, ["braze-on", "braze on", "brazed"].as_slice()),
            (Attachment::Direct, &["direct mount", "direct"]),
            (Attachment::None, &["none", "no front derailleur"]),
        ] {
            for name in names {
                assert_eq!(FrontDerailleur::read(name).unwrap().attachment, attachment, "{name}");
            }
        }
        let pull = |text: &str| FrontDerailleur::read(text).unwrap().pull;
        assert_eq!((pull("28.6, bottom pull"), pull("28.6, top pull, bottom pull")), (Some(Pull::Bottom), None));
    }
}
