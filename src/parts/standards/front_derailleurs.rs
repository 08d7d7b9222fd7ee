//! Front derailleurs: how they are held, where the cable comes from, and their chainline.

use super::super::reading::{folded, numbers, rings_named, says, says_any, take_chainline};
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
    Front,
}

/// A front derailleur, or the place for one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrontDerailleur {
    /// How it is held.
    pub attachment: Attachment,
    /// Where the cable stop is, or whence it pulls; both ways where it says so.
    pub pull: Option<Pull>,
    /// Whether the frame has no stop for the cable housing.
    pub lacks_stop: bool,
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
        let (rest, chainline_mm) = take_chainline(&text);
        let lacks_stop =
            says_any(&rest, &["no housing stop", "no cable stop", "no stop", "without housing stop", "without stop"]);
        let rest = if lacks_stop {
            rest.replace("no housing stop", " ").replace("no cable stop", " ").replace("no stop", " ")
        } else {
            rest
        };
        let found = numbers(&rest);
        let clamp = CLAMPS.iter().map(|k| k.mm).find(|mm| found.iter().any(|n| (mm - n).abs() < 0.11));
        let is_one_ring = says(&rest, "only") && rings_named(&rest) == Some(1);
        let is_braze_on = says_any(&rest, &["braze-on", "brazed", "braze on", "brazed-on"]);
        let is_direct = says_any(&rest, &["direct", "direct mount", "direct-mount"]);
        let attachment = match (is_braze_on, is_direct, clamp) {
            (false, false, _) if is_one_ring || says_any(&rest, &["none", "no"]) => Attachment::None,
            (true, false, None) => Attachment::BrazeOn,
            (false, true, None) => Attachment::Direct,
            (false, false, Some(mm)) => Attachment::Clamp(mm),
            (false, false, None) => {
                return refused(format!(
                    "`{text}` is not a front derailleur: write 28.6 mm, 31.8 mm or 34.9 mm clamp, braze-on, direct mount or none"
                ));
            }
            _ => return refused(format!("`{text}` names more than one way of holding it: write one, such as 34.9 clamp")),
        };
        let pulls = [(Pull::Top, "top pull"), (Pull::Bottom, "bottom pull"), (Pull::Front, "front pull")];
        let mut named = pulls.iter().filter(|(_, words)| says(&rest, words)).map(|(pull, _)| *pull);
        let pull = named.next().filter(|_| named.next().is_none());
        Ok(Self { attachment, pull, lacks_stop, chainline_mm })
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
        assert_eq!(read("1x only").attachment, Attachment::None);
        assert_eq!(read("chainline 47.5, braze-on"), read("braze-on, 47.5 mm chainline"));
        let stopless = read("34.9 clamp, no housing stop");
        assert_eq!((stopless.attachment, stopless.lacks_stop), (Attachment::Clamp(34.9), true));
        assert_eq!(read("direct mount, front pull").pull, Some(Pull::Front));
        assert!(FrontDerailleur::read("28.6 clamp or braze-on").unwrap_err().0.contains("more than one way"));
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
