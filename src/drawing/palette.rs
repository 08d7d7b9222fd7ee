//! Colours: what each role looks like on the paper ground, on the dark one and on white, and how frames' lines are broken.
//!
//! The only place where colours are written down. Pure numbers, no toolkit. Invariant: on every ground, and on their
//! raised panels, a frame's colour and any text have a contrast of at least 4.5:1 (WCAG 2.2, success criteria 1.4.3 and 1.4.11);
//! eight frames are eight colours that stay apart with normal sight and without one kind of cone; and no two frames among the
//! first 88 share both colour and line pattern, so that colour alone never carries meaning.

use std::sync::LazyLock;

use super::scene::{Pattern, Role, Stroke};
use crate::frameset::FrameIndex;

/// The ground that a scene is painted on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Background {
    /// Quiet paper.
    #[default]
    Light,
    /// Dark.
    Dark,
    /// The white of a sheet to print on.
    White,
}

/// A colour in sRGB, eight bits a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Rgb {
    /// Red.
    pub r: u8,
    /// Green.
    pub g: u8,
    /// Blue.
    pub b: u8,
}

/// Contrast that text and frames' lines need against their ground.
pub const TEXT_CONTRAST: f64 = 4.5;

/// How many frames' colours there are before they repeat (with other patterns).
pub const FRAME_COLOURS: usize = 8;

/// Frames' colours on light grounds, in order. Searched for so that any two differ by ΔE 10 or more (CIEDE2000) for normal
/// sight and for dichromats (Machado et al. 2009), near the hues that Okabe and Ito recommend (*Color Universal Design*, 2008).
const ON_LIGHT: [Rgb; FRAME_COLOURS] = [
    Rgb::new(0x1E, 0x4E, 0xA2), // blue
    Rgb::new(0x84, 0x1E, 0x00), // red-brown
    Rgb::new(0x12, 0x60, 0x3C), // green
    Rgb::new(0x90, 0x30, 0x6C), // purple
    Rgb::new(0x8A, 0x60, 0x00), // dark yellow
    Rgb::new(0x12, 0x72, 0x90), // teal
    Rgb::new(0x1E, 0x24, 0x2A), // near black
    Rgb::new(0xBA, 0x2A, 0x5A), // red
];

/// The same on the dark ground.
const ON_DARK: [Rgb; FRAME_COLOURS] = [
    Rgb::new(0x36, 0x90, 0xFC), // blue
    Rgb::new(0xF0, 0x8A, 0x24), // orange
    Rgb::new(0x2A, 0xBA, 0x8A), // green
    Rgb::new(0xD8, 0x96, 0xC0), // pink
    Rgb::new(0xFC, 0xD2, 0x12), // yellow
    Rgb::new(0x90, 0xD8, 0xFC), // light blue
    Rgb::new(0xEA, 0xEA, 0xE4), // near white
    Rgb::new(0xF0, 0x48, 0x5A), // red
];

/// Frames' line patterns in order, as dash, gap, dash, gap … in stroke widths. Eleven, so that with eight colours the
/// 89th frame is the first to look like another.
const FRAME_DASHES: [&[f64]; 11] = [
    &[4.5, 3.0],                               // even dashes
    &[9.0, 4.0],                               // long dashes
    &[8.0, 3.0, 1.6, 3.0],                     // dash, dot
    &[1.6, 2.4],                               // dots
    &[8.0, 2.6, 1.6, 2.6, 1.6, 2.6],           // dash, two dots
    &[11.0, 3.0, 4.0, 3.0],                    // long dash, short dash
    &[4.5, 6.5],                               // wide-set dashes
    &[1.6, 2.2, 1.6, 5.5],                     // pairs of dots
    &[9.0, 2.6, 1.6, 2.2, 1.6, 2.2, 1.6, 2.6], // dash, three dots
    &[5.0, 3.0, 5.0, 3.0, 1.6, 3.0],           // two dashes, dot
    &[15.0, 7.0],                              // very long dashes
];

/// A ground's colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    paper: Rgb,
    panel: Rgb,
    hairline: Rgb,
    ink: Rgb,
    second_ink: Rgb,
    grey: Rgb,
    frames: [Rgb; FRAME_COLOURS],
}

static PAPER: LazyLock<Palette> = LazyLock::new(|| Palette::compute(Background::Light));
static DARK: LazyLock<Palette> = LazyLock::new(|| Palette::compute(Background::Dark));
static WHITE: LazyLock<Palette> = LazyLock::new(|| Palette::compute(Background::White));

impl Rgb {
    /// From its three channels.
    #[must_use]
    pub const fn new(r: u8, g: u8, b: u8) -> Self {
        Self { r, g, b }
    }

    /// `#RRGGBB`.
    #[must_use]
    pub fn hex(self) -> String {
        format!("#{:02X}{:02X}{:02X}", self.r, self.g, self.b)
    }

    /// Relative luminance, 0 (black) to 1 (white), as WCAG 2.2 defines it.
    #[must_use]
    pub fn luminance(self) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(self.r) + 0.7152 * linear(self.g) + 0.0722 * linear(self.b)
    }

    /// Contrast ratio, 1 to 21, the same either way round (WCAG 2.2).
    #[must_use]
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// This colour moved towards `other`: 0 leaves it, 1 is the other.
    #[must_use]
    pub fn mixed(self, other: Self, share: f64) -> Self {
        let mix = |a: u8, b: u8| {
            let value = (f64::from(a) + (f64::from(b) - f64::from(a)) * share.clamp(0.0, 1.0)).round();
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between two bytes")]
            let byte = value as u8;
            byte
        };
        Self::new(mix(self.r, other.r), mix(self.g, other.g), mix(self.b, other.b))
    }
}

impl Background {
    /// The colour towards which others are moved until they can be seen on this ground.
    const fn far_end(self) -> Rgb {
        match self {
            Self::Light | Self::White => Rgb::new(0, 0, 0),
            Self::Dark => Rgb::new(255, 255, 255),
        }
    }
}

impl Palette {
    /// The colours of a ground.
    #[must_use]
    pub fn of(background: Background) -> Self {
        match background {
            Background::Light => *PAPER,
            Background::Dark => *DARK,
            Background::White => *WHITE,
        }
    }

    fn compute(background: Background) -> Self {
        let (paper, panel, hairline, ink, second_ink) = match background {
            Background::Light => (
                Rgb::new(0xFA, 0xF8, 0xF3),
                Rgb::new(0xF1, 0xEE, 0xE6),
                Rgb::new(0xDC, 0xD7, 0xCB),
                Rgb::new(0x22, 0x25, 0x2A),
                Rgb::new(0x5F, 0x63, 0x6A),
            ),
            Background::Dark => (
                Rgb::new(0x15, 0x17, 0x1A),
                Rgb::new(0x1D, 0x20, 0x24),
                Rgb::new(0x2A, 0x2E, 0x33),
                Rgb::new(0xE8, 0xE6, 0xE1),
                Rgb::new(0x9B, 0xA0, 0xA6),
            ),
            Background::White => (
                Rgb::new(0xFF, 0xFF, 0xFF),
                Rgb::new(0xE9, 0xE9, 0xE9),
                Rgb::new(0xD0, 0xD0, 0xD0),
                Rgb::new(0x00, 0x00, 0x00),
                Rgb::new(0x50, 0x50, 0x50),
            ),
        };
        let seen = |colour: Rgb| fitted(colour, &[paper, panel], background.far_end());
        let frames = match background {
            Background::Light | Background::White => ON_LIGHT,
            Background::Dark => ON_DARK,
        };
        Self { paper, panel, hairline, ink, second_ink: seen(second_ink), grey: seen(Rgb::new(0x76, 0x7A, 0x80)), frames }
    }

    /// The colour of a role.
    #[must_use]
    pub const fn colour(&self, role: Role) -> Rgb {
        match role {
            Role::Background => self.paper,
            Role::Panel => self.panel,
            Role::Hairline => self.hairline,
            Role::Ink => self.ink,
            Role::SecondInk => self.second_ink,
            Role::Grey => self.grey,
            Role::FrameLine(place) | Role::FrameLetter(place) => self.frames[place.0 % FRAME_COLOURS],
        }
    }
}

/// `colour`, moved in steps of a 256th towards `far_end` until its contrast with every ground is that of text.
fn fitted(colour: Rgb, grounds: &[Rgb], far_end: Rgb) -> Rgb {
    (0..=256)
        .map(|step| colour.mixed(far_end, f64::from(step) / 256.0))
        .find(|c| grounds.iter().all(|g| c.contrast(*g) >= TEXT_CONTRAST))
        .unwrap_or(far_end)
}

/// The pattern that the frame at `place` is drawn with: solid while colours do not repeat; its own where patterns are asked
/// for (as for print in black and white) and beyond the eighth frame. The reference is always solid.
#[must_use]
pub(super) const fn frame_pattern(place: FrameIndex, is_reference: bool, has_patterns: bool) -> Pattern {
    if is_reference || (!has_patterns && place.0 < FRAME_COLOURS) { Pattern::Solid } else { Pattern::Frame(place) }
}

/// Dash, gap, dash, gap … of a stroke, in its own page units; empty for an unbroken line. Always an even number.
#[must_use]
pub fn dashes(stroke: Stroke) -> Vec<f64> {
    let lengths: &[f64] = match stroke.pattern {
        Pattern::Solid => &[],
        Pattern::Frame(place) => FRAME_DASHES[place.0 % FRAME_DASHES.len()],
        Pattern::Dashes => &[5.0, 4.0],
    };
    lengths.iter().map(|length| length * stroke.width).collect()
}

#[cfg(test)]
mod tests {
    use ::palette::color_difference::Ciede2000;
    use ::palette::white_point::D65;
    use ::palette::{IntoColor, Lab, LinSrgb, Srgb};

    use super::*;

    const BLACK: Rgb = Rgb::new(0, 0, 0);
    const WHITE: Rgb = Rgb::new(255, 255, 255);

    fn grey(value: u8) -> Rgb {
        Rgb::new(value, value, value)
    }

    /// W3C, WCAG 2.2, definitions of relative luminance and contrast ratio; values computed from them to seven digits.
    #[test]
    fn contrast_is_that_of_wcag() {
        assert!((BLACK.contrast(WHITE) - 21.0).abs() < 1e-12);
        for (colour, on_white) in [
            (grey(0x77), 4.478089),
            (grey(0x76), 4.542225),
            (grey(0x95), 2.995346),
            (grey(0x94), 3.033470),
            (Rgb::new(0, 0, 255), 8.592471),
        ] {
            assert!((colour.contrast(WHITE) - on_white).abs() < 1e-6, "{}", colour.hex());
            assert_eq!(colour.contrast(WHITE), WHITE.contrast(colour));
        }
    }

    #[test]
    fn everything_can_be_seen_on_every_ground() {
        for background in [Background::Light, Background::Dark, Background::White] {
            let palette = Palette::of(background);
            for under in [Role::Background, Role::Panel] {
                let under = palette.colour(under);
                for text in [Role::Ink, Role::SecondInk, Role::Grey] {
                    assert!(palette.colour(text).contrast(under) >= TEXT_CONTRAST, "{background:?} {text:?}");
                }
                for place in FrameIndex::all(FRAME_COLOURS) {
                    let contrast = palette.colour(Role::FrameLine(place)).contrast(under);
                    assert!(contrast >= TEXT_CONTRAST, "{background:?} {place:?}: {contrast}");
                }
            }
        }
    }

    /// The first frame, which is a new line-up's reference, is not the one that is seen least.
    #[test]
    fn the_first_colour_is_not_the_dimmest() {
        for background in [Background::Light, Background::Dark, Background::White] {
            let palette = Palette::of(background);
            let contrast = |place| palette.colour(Role::FrameLine(place)).contrast(palette.colour(Role::Background));
            let first = contrast(FrameIndex(0));
            assert!(FrameIndex::all(FRAME_COLOURS).any(|place| contrast(place) < first), "{background:?}");
        }
    }

    /// A colour in CIE L*a*b* (D65), as eyes see it whose cones are those of `sight`: a matrix on linear RGB.
    fn lab(colour: Rgb, sight: [[f64; 3]; 3]) -> Lab<D65, f64> {
        let rgb: LinSrgb<f64> = Srgb::new(colour.r, colour.g, colour.b).into_format::<f64>().into_linear();
        let seen = sight.map(|row| (row[0] * rgb.red + row[1] * rgb.green + row[2] * rgb.blue).clamp(0.0, 1.0));
        LinSrgb::new(seen[0], seen[1], seen[2]).into_color()
    }

    const NORMAL: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
    /// G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A physiologically-based model for simulation of color vision
    /// deficiency", IEEE Trans. Vis. Comput. Graph. 15(6) (2009) 1291–1298, severity 1, from memory: protanopia,
    /// deuteranopia, tritanopia.
    const DICHROMATS: [[[f64; 3]; 3]; 3] = [
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
    ];

    /// G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula", Color Res. Appl. 30 (2005) 21–30, Table 1,
    /// pair 1, from memory.
    #[test]
    fn colours_differ_by_ciede2000() {
        let (a, b) = (Lab::<D65, f64>::new(50.0, 2.6772, -79.7751), Lab::new(50.0, 0.0, -82.7485));
        assert!((a.difference(b) - 2.0425).abs() < 5e-5);
    }

    #[test]
    fn eight_frames_stay_apart_for_every_sight() {
        for background in [Background::Light, Background::Dark, Background::White] {
            let palette = Palette::of(background);
            for sight in [NORMAL].into_iter().chain(DICHROMATS) {
                for one in FrameIndex::all(FRAME_COLOURS) {
                    for other in FrameIndex::all(one.0) {
                        let colour = |place| lab(palette.colour(Role::FrameLine(place)), sight);
                        let difference = colour(one).difference(colour(other));
                        assert!(difference >= 10.0, "{background:?} {one:?} {other:?} {sight:?}: {difference}");
                    }
                }
            }
        }
    }

    #[test]
    fn a_colour_that_can_be_seen_is_left_alone() {
        assert_eq!(Palette::of(Background::Light).colour(Role::SecondInk).hex(), "#5F636A");
    }

    #[test]
    fn colour_and_pattern_together_tell_88_frames_apart() {
        let of = |pattern| dashes(Stroke { role: Role::Ink, width: 1.0, pattern, opacity: 1.0 });
        for background in [Background::Light, Background::Dark, Background::White] {
            let palette = Palette::of(background);
            for has_patterns in [true, false] {
                let pattern = |place| of(frame_pattern(place, false, has_patterns));
                let look = |place| (palette.colour(Role::FrameLine(place)).hex(), format!("{:?}", pattern(place)));
                let looks: std::collections::BTreeSet<_> = FrameIndex::all(88).map(look).collect();
                assert_eq!(looks.len(), 88);
            }
        }
        assert_eq!(frame_pattern(FrameIndex(3), true, true), Pattern::Solid);
        assert!(FrameIndex::all(FRAME_COLOURS).all(|place| frame_pattern(place, false, false) == Pattern::Solid));
        assert!(
            (0..20)
                .all(|i| of(Pattern::Frame(FrameIndex(i))).len().is_multiple_of(2)
                    && !of(Pattern::Frame(FrameIndex(i))).is_empty())
        );
    }
}
