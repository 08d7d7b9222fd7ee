//! Brake mounts and rotors.

use super::super::reading::{distinct, folded, is_upper_limit, mm, nearest_value, numbers, plain, same_digits, says, says_any};
use super::super::source::Source;
use super::{DiameterRow, NotUnderstood, diameter, lacks_nothing, refused};

/// Rotors in use.
pub const ROTORS: &[DiameterRow] = &[
    diameter(140.0, "road, rear"),
    diameter(160.0, "road, touring, trail"),
    diameter(180.0, "trail, loaded touring"),
    diameter(183.0, "older trail"),
    diameter(200.0, "downhill"),
    diameter(203.0, "downhill"),
    diameter(220.0, "downhill, heavy loads"),
    diameter(223.0, "downhill, heavy loads"),
];

/// How a caliper is bolted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MountKind {
    /// International standard: bolts along the axle, 51 mm apart.
    International,
    /// Post mount: bolts towards the axle, 74 mm apart.
    Post,
    /// Flat mount: on the stay or fork blade itself.
    Flat,
    /// Bosses for rim brakes.
    RimBosses,
    /// A hole for a rim brake.
    RimHole,
}

impl MountKind {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::International => "IS",
            Self::Post => "post mount",
            Self::Flat => "flat mount",
            Self::RimBosses => "rim brake bosses",
            Self::RimHole => "rim brake hole",
        }
    }

    /// Distance between the bolts, mm, and how it is known.
    #[must_use]
    pub const fn bolts_mm(self) -> Option<(f64, Source)> {
        match self {
            Self::International => Some((51.0, Source::TradePractice)),
            Self::Post => Some((74.0, Source::TradePractice)),
            // Rear, through the stay; the fork's adapter has 70 mm.
            Self::Flat => Some((34.0, Source::TradePractice)),
            Self::RimBosses | Self::RimHole => None,
        }
    }

    /// Whether it is for a disc.
    #[must_use]
    pub const fn is_disc(self) -> bool {
        matches!(self, Self::International | Self::Post | Self::Flat)
    }
}

/// A mount on a frame or fork, or a caliper for one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mount {
    /// How it is bolted on.
    pub kind: MountKind,
    /// Rotor without any adapter, mm; the least.
    pub native_mm: Option<f64>,
    /// Largest rotor that the maker allows, mm.
    pub most_mm: Option<f64>,
}

impl Mount {
    /// Reads `IS 160-180`, `post mount 180`, `flat mount 160, at most 180`, `flat mount, max 160`, `rim bosses`. One
    /// size behind "max" is the largest rotor; the rotor without an adapter is then not published.
    ///
    /// # Errors
    /// A mount that is not known, several mounts, or a rotor that is not made, with the nearest.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let kind = mount_kind(text)?;
        let text = folded(text);
        lacks_nothing(&text, "post mount 160, at most 203")?;
        let mut sizes = Vec::new();
        // Bolts: 34, 51, 70 and 74 mm apart; M5 and M6. The number of the standard is no rotor.
        let is_rotors = |n: &f64| *n >= 10.0 && ![2000.0, 34.0, 51.0, 70.0, 74.0].contains(n);
        for n in numbers(&text).into_iter().filter(is_rotors) {
            sizes.push(rotor_mm(n)?);
        }
        let sizes = distinct(sizes, 0.0..=f64::INFINITY);
        let (native_mm, most_mm) = match sizes.as_slice() {
            [] => (None, None),
            [only] if is_upper_limit(&text) => (None, Some(*only)),
            [only] => (Some(*only), None),
            [least, .., most] => (Some(*least), Some(*most)),
        };
        Ok(Self { kind, native_mm, most_mm })
    }
}

/// The one mount that a text names. `IS` beside another mount's name counts in capitals only: "post mount is standard".
fn mount_kind(text: &str) -> Result<MountKind, NotUnderstood> {
    const NAMES: [(MountKind, &[&str]); 4] = [
        (MountKind::International, &["is2000", "i.s", "international", "is mount", "is-mount", "is 2000"]),
        (MountKind::Post, &["post mount", "post-mount", "postmount", "post", "pm", "pm6", "pm7", "pm8"]),
        (MountKind::Flat, &["flat mount", "flat-mount", "flatmount", "flat", "fm"]),
        (MountKind::RimBosses, &["bosses", "cantilever", "rim bosses", "v-brake"]),
    ];
    let lower = folded(text);
    let mut kinds: Vec<MountKind> = NAMES.iter().filter(|(_, names)| says_any(&lower, names)).map(|(kind, _)| *kind).collect();
    let is_capital = text.split(|c: char| !c.is_alphanumeric()).any(|w| w == "IS");
    if !kinds.contains(&MountKind::International) && (is_capital || (kinds.is_empty() && says(&lower, "is"))) {
        kinds.push(MountKind::International);
    }
    if kinds.is_empty() && says_any(&lower, &["rim", "rim brake", "caliper"]) {
        kinds.push(MountKind::RimHole);
    }
    match kinds.as_slice() {
        [only] => Ok(*only),
        [] => {
            refused(format!("`{lower}` is not a brake mount that is known here: write IS, post mount, flat mount or rim bosses"))
        }
        _ => refused(format!("`{lower}` names more than one brake mount: write the frame's own, such as post mount 160")),
    }
}

/// A rotor's diameter in mm from its text.
///
/// # Errors
/// What no rotor measures, with the nearest one in use: `1,800 mm` is told to be 180.
pub fn rotor(text: &str) -> Result<f64, NotUnderstood> {
    match numbers(text).first() {
        Some(n) => rotor_mm(*n),
        None => refused(format!("`{}` is not a valid rotor diameter: write millimetres, such as 160", text.trim())),
    }
}

fn rotor_mm(value: f64) -> Result<f64, NotUnderstood> {
    if (120.0..=250.0).contains(&value) {
        return Ok(value);
    }
    let known = || ROTORS.iter().map(|r| r.mm);
    let near = same_digits(value, known()).or_else(|| nearest_value(value, known())).unwrap_or(160.0);
    refused(format!("a rotor of {} is not made: did you mean {}?", mm(value), plain(near)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mounts_are_read_with_their_rotors() {
        let mount = |text: &str| Mount::read(text).map(|m| (m.kind, m.native_mm, m.most_mm)).unwrap();
        assert_eq!(mount("IS 160-180"), (MountKind::International, Some(160.0), Some(180.0)));
        assert_eq!(mount("post mount 180"), (MountKind::Post, Some(180.0), None));
        assert_eq!(mount("flat mount 160, at most 180"), (MountKind::Flat, Some(160.0), Some(180.0)));
        assert_eq!(mount("post mount, at most 203"), (MountKind::Post, None, Some(203.0)));
        assert_eq!(mount("rim bosses").0, MountKind::RimBosses);
        for text in [
            "flat mount, max 160",
            "max. 160 flat mount",
            "flat mount ≤ 160",
            "flat mount up to 160 mm",
            "Flatmount, 160 maximum",
        ] {
            assert_eq!(mount(text), (MountKind::Flat, None, Some(160.0)), "{text}");
        }
        assert_eq!(mount("180 post mount, min 160"), (MountKind::Post, Some(160.0), Some(180.0)));
        assert_eq!(mount("post mount is standard"), (MountKind::Post, None, None));
        assert!(Mount::read("IS with post mount adapter").unwrap_err().0.contains("more than one"));
        assert!(Mount::read("drum").is_err());
        // IS bolts 51 mm apart, post mount 74 mm: trade practice, unverified.
        assert_eq!(MountKind::International.bolts_mm().map(|b| b.0), Some(51.0));
        assert_eq!(MountKind::Post.bolts_mm().map(|b| b.0), Some(74.0));
    }

    #[test]
    fn a_rotor_of_a_cart_wheel_is_refused() {
        assert_eq!(rotor("160 mm"), Ok(160.0));
        assert!(rotor("1,800 mm").unwrap_err().0.contains("did you mean 180?"));
        assert!(rotor("16").unwrap_err().0.contains("160"));
        assert!(rotor("large").is_err());
    }

    #[test]
    fn a_mount_goes_by_each_of_its_names() {
        for (kind, names) in [
            (MountKind::International, ["IS 160", "IS2000 160", "International standard 160"].as_slice()),
            (MountKind::Post, &["post mount 160", "post 160", "PM 160"]),
            (MountKind::Flat, &["flat mount 160", "flat 160", "FM 160"]),
            (MountKind::RimBosses, &["rim brake bosses", "bosses", "cantilever"]),
            (MountKind::RimHole, &["rim brake", "caliper"]),
        ] {
            for name in names {
                let mount = Mount::read(name).unwrap();
                assert_eq!(mount.kind, kind, "{name}");
                // The number of the standard is no rotor.
                assert_eq!(mount.native_mm, kind.is_disc().then_some(160.0), "{name}");
            }
        }
    }
}
