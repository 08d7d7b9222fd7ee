//! Where a drawing to scale lies on its page: from millimetres (x forward, y up) to page units (x right, y down) and
//! back, with the moves that a hand makes.

use super::rect::Rect;
use super::scene::{Page, Pt};
use crate::geometry::Point;

/// A view of a drawing to scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// What lies in the page's middle, mm from the point where the frames stand together, y up.
    pub centre_mm: Point<f64>,
    /// Page units a millimetre, above zero.
    pub px_per_mm: f64,
}

/// Farthest and nearest zoom, page units a millimetre.
const ZOOM: std::ops::RangeInclusive<f64> = 0.02..=40.0;
/// Nearest zoom on a page other than the one that the view was chosen on, page units a millimetre.
const ZOOM_ELSEWHERE: f64 = 400.0;
/// How far from where the frames stand together the page's middle may be, mm. From the farthest zoom every page of 400
/// units or more still shows that place.
const FARTHEST_MM: f64 = 10_000.0;

impl View {
    /// Where a point of the drawing lies on the page.
    #[must_use]
    pub fn to_page(self, page: Page, point: Point<f64>) -> Pt {
        Canvas { rect: Rect::of_page(page), view: self }.at(point)
    }

    /// Which point of the drawing lies there on the page, mm.
    #[must_use]
    pub fn to_mm(self, page: Page, at: Pt) -> Point<f64> {
        Canvas { rect: Rect::of_page(page), view: self }.mm(at)
    }

    /// The view after the drawing was dragged by so many page units. The page's middle stays within 10 m of the point where
    /// the frames stand together.
    #[must_use]
    pub fn panned(self, dx: f64, dy: f64) -> Self {
        let centre_mm = Point { x: self.centre_mm.x - dx / self.px_per_mm, y: self.centre_mm.y + dy / self.px_per_mm };
        Self { centre_mm: near(centre_mm), ..self }
    }

    /// The same part of the drawing in the middle of another page, as large as that page is against the first.
    #[must_use]
    pub fn on_another_page(self, from: Page, to: Page) -> Self {
        let larger = (to.width / from.width.max(1.0)).min(to.height / from.height.max(1.0));
        Self { px_per_mm: (self.px_per_mm * larger).min(ZOOM_ELSEWHERE), ..self }
    }

    /// The view magnified by `factor` about a point of the page that stays where it is. Stops at 0.02 and 40 page units
    /// a millimetre; a factor that is not a number above zero changes nothing.
    #[must_use]
    pub fn zoomed_at(self, page: Page, at: Pt, factor: f64) -> Self {
        if !(factor.is_finite() && factor > 0.0) {
            return self;
        }
        let fixed = self.to_mm(page, at);
        let px_per_mm = (self.px_per_mm * factor).clamp(*ZOOM.start(), *ZOOM.end());
        let share = self.px_per_mm / px_per_mm;
        let centre_mm =
            Point { x: fixed.x + (self.centre_mm.x - fixed.x) * share, y: fixed.y + (self.centre_mm.y - fixed.y) * share };
        Self { centre_mm: near(centre_mm), px_per_mm }
    }
}

/// The point itself, or the nearest that a page's middle may show.
fn near(point: Point<f64>) -> Point<f64> {
    Point { x: point.x.clamp(-FARTHEST_MM, FARTHEST_MM), y: point.y.clamp(-FARTHEST_MM, FARTHEST_MM) }
}

/// A view within a rectangle of the page.
#[derive(Clone, Copy, Debug)]
pub(super) struct Canvas {
    pub(super) rect: Rect,
    pub(super) view: View,
}

impl Canvas {
    pub(super) fn at(self, point: Point<f64>) -> Pt {
        let centre = self.rect.centre();
        let scale = self.view.px_per_mm;
        Pt { x: centre.x + (point.x - self.view.centre_mm.x) * scale, y: centre.y - (point.y - self.view.centre_mm.y) * scale }
    }

    pub(super) fn mm(self, at: Pt) -> Point<f64> {
        let centre = self.rect.centre();
        let scale = self.view.px_per_mm;
        Point { x: self.view.centre_mm.x + (at.x - centre.x) / scale, y: self.view.centre_mm.y - (at.y - centre.y) / scale }
    }

    pub(super) fn px(self, mm: f64) -> f64 {
        mm * self.view.px_per_mm
    }
}

/// Margins around a drawing, page units.
#[derive(Clone, Copy, Debug)]
pub(super) struct Margins {
    pub(super) side: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// The largest view that shows all of `low`–`high` (mm) within the margins of a page.
pub(super) fn fitted(low: Point<f64>, high: Point<f64>, page: Page, margins: Margins) -> View {
    let (width, height) = ((high.x - low.x).max(1.0), (high.y - low.y).max(1.0));
    let across = (page.width - 2.0 * margins.side).max(20.0) / width;
    let up = (page.height - margins.top - margins.bottom).max(20.0) / height;
    let px_per_mm = across.min(up).clamp(*ZOOM.start(), *ZOOM.end());
    // The margins above and below differ, so the middle of the drawing is not the middle of the page.
    let lift = (margins.bottom - margins.top) / 2.0 / px_per_mm;
    View { centre_mm: Point { x: f64::midpoint(low.x, high.x), y: f64::midpoint(low.y, high.y) - lift }, px_per_mm }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const PAGE: Page = Page { width: 900.0, height: 500.0 };

    #[test]
    fn y_is_up_in_millimetres_and_down_on_the_page() {
        let view = View { centre_mm: Point { x: 100.0, y: 200.0 }, px_per_mm: 0.5 };
        assert_eq!(view.to_page(PAGE, Point { x: 100.0, y: 200.0 }), Pt { x: 450.0, y: 250.0 });
        assert_eq!(view.to_page(PAGE, Point { x: 120.0, y: 240.0 }), Pt { x: 460.0, y: 230.0 });
    }

    #[test]
    fn a_fitted_view_shows_everything_within_its_margins() {
        let (low, high) = (Point { x: -800.0, y: -300.0 }, Point { x: 1000.0, y: 700.0 });
        let view = fitted(low, high, PAGE, Margins { side: 20.0, top: 50.0, bottom: 30.0 });
        let (a, b) = (view.to_page(PAGE, low), view.to_page(PAGE, high));
        assert!(a.x >= 20.0 - 1e-9 && b.x <= 880.0 + 1e-9 && b.y >= 50.0 - 1e-9 && a.y <= 470.0 + 1e-9, "{a:?} {b:?}");
        assert!((b.y - 50.0).abs() < 1e-9 && (a.y - 470.0).abs() < 1e-9, "as large as it can be");
    }

    #[test]
    fn a_drawing_cannot_be_lost() {
        let view = View { centre_mm: Point { x: 0.0, y: 0.0 }, px_per_mm: 2.0 };
        let gone = (0..10_000).fold(view, |view, _| view.panned(900.0, -500.0));
        let corner = Pt { x: 900.0, y: 0.0 };
        let back = (0..100).fold(gone, |view, _| view.zoomed_at(PAGE, corner, 0.8));
        let at = back.to_page(PAGE, Point { x: 0.0, y: 0.0 });
        assert!(Rect::of_page(PAGE).contains(at), "{at:?}");
        let near = (0..100).fold(back, |view, _| view.zoomed_at(PAGE, corner, 1.25));
        assert!(near.px_per_mm <= 40.0 && near.centre_mm.x.abs() <= 10_000.0, "{near:?}");
        let larger = near.on_another_page(Page { width: 1.0, height: 1.0 }, Page { width: 3840.0, height: 2160.0 });
        assert!(larger.px_per_mm <= 400.0, "{larger:?}");
    }

    proptest! {
        #[test]
        fn moves_are_exact(x in -500.0..500.0_f64, y in -500.0..500.0_f64, scale in 0.05..5.0_f64,
                           px in 0.0..900.0_f64, py in 0.0..500.0_f64, factor in 0.2..5.0_f64) {
            let view = View { centre_mm: Point { x, y }, px_per_mm: scale };
            let at = Pt { x: px, y: py };
            let mm = view.to_mm(PAGE, at);
            let back = view.to_page(PAGE, mm);
            prop_assert!((back.x - px).abs() < 1e-6 && (back.y - py).abs() < 1e-6);
            let zoomed = view.zoomed_at(PAGE, at, factor);
            let kept = zoomed.to_mm(PAGE, at);
            // At the edge of what can be shown, the view stops instead.
            let is_free = zoomed.centre_mm.x.abs() < FARTHEST_MM && zoomed.centre_mm.y.abs() < FARTHEST_MM;
            prop_assert!(!is_free || (kept.x - mm.x).abs() < 1e-6 && (kept.y - mm.y).abs() < 1e-6);
            let dragged = view.panned(10.0, -7.0).to_page(PAGE, mm);
            prop_assert!((dragged.x - px - 10.0).abs() < 1e-6 && (dragged.y - py + 7.0).abs() < 1e-6);
            prop_assert_eq!(view.zoomed_at(PAGE, at, f64::NAN), view);
        }
    }
}
