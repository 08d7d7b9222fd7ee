//! A picture asked for, as SVG text or as a PNG file: scene, SVG and PNG one after the other.
//!
//! Invariant: the PNG shows what the SVG shows, for it is made from it.

use super::png::{PngError, png};
use super::svg::svg_of_size;
use crate::drawing::{Picture, picture_scene};
use crate::lineup::{Findings, Lineup};

/// The picture as SVG that states the size asked for.
#[must_use]
pub fn picture_svg(findings: &Findings, lineup: &Lineup, picture: &Picture) -> String {
    let scene = picture_scene(findings, lineup, picture);
    svg_of_size(&scene, picture.background, f64::from(picture.width_px), f64::from(picture.height_px))
}

/// The picture as a PNG file of the size asked for.
///
/// # Errors
/// A side of zero or above [`MOST_PIXELS`](super::MOST_PIXELS).
pub fn picture_png(findings: &Findings, lineup: &Lineup, picture: &Picture) -> Result<Vec<u8>, PngError> {
    png(&picture_svg(findings, lineup, picture), picture.width_px, picture.height_px)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Background;
    use crate::frameset::read_frameset;
    use crate::lineup::PictureView;

    fn lineup() -> Lineup {
        let text = r#"Frameset(format: 1, maker: "Marrowby", model: "Drift", tyre: "47-622", sizes: [(label: "M", figures: {
            Stack: 610, Reach: 398, HeadAngle: 71.5, SeatAngle: 73, HeadTube: 148, SeatTube: 480, ForkLength: 430,
            ForkOffset: 49, Chainstay: 445, BbDrop: 67, Wheelbase: 1073})])"#;
        let text = format!("#![enable(implicit_some)]\n{text}");
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
        lineup
    }

    #[test]
    fn every_view_becomes_an_svg_and_a_png_of_the_size_asked_for() {
        let lineup = lineup();
        let findings = Findings::of(&lineup);
        for view in PictureView::ALL {
            let picture = Picture { view, width_px: 320, height_px: 180, background: Background::Dark, look: None };
            let svg = picture_svg(&findings, &lineup, &picture);
            assert!(svg.contains("width=\"320.00\" height=\"180.00\""));
            assert_eq!(svg, picture_svg(&findings, &lineup, &picture), "the same bytes every time");
            let png = picture_png(&findings, &lineup, &picture).unwrap();
            assert_eq!(png[16..24], [0, 0, 1, 64, 0, 0, 0, 180]);
        }
    }

    #[test]
    fn a_picture_without_pixels_is_refused() {
        let lineup = lineup();
        let picture =
            Picture { view: PictureView::Outline, width_px: 0, height_px: 180, background: Background::Light, look: None };
        assert!(picture_png(&Findings::of(&lineup), &lineup, &picture).is_err());
    }
}
