//! Moving pictures of a sheet: frames that appear one after the other, one frame's outline changing into the next, a fork
//! that gets longer. Each picture is a scene of its own, so any of them can be made alone.
//!
//! Invariants: nothing jumps but letters; the first and the last picture are frames as they are; what moves is eased, and
//! stands still at its end long enough to be read.

use super::format::Format;
use super::head;
use super::placed::{Place, put};
use super::sheeted::{Sheeted, UNBOUNDED};
use crate::drawing::balloons::{self, Balloon};
use crate::drawing::frame_shape::{self, FrameLook};
use crate::drawing::grid;
use crate::drawing::measure::{text_width, wrap};
use crate::drawing::order::frame_pattern_of;
use crate::drawing::outline_scene::road;
use crate::drawing::pen::{Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Page, Pt, Role, Scene, Weight};
use crate::drawing::standing::Standing;
use crate::drawing::view::{Canvas, Margins, View, fitted};
use crate::frameset::{Figure, FrameIndex};
use crate::geometry::{Adjusted, AdjustedSize, Change, Outline, Point, changed, outline, outline_between};
use crate::lineup::{Animation, Block, Findings, FrameFindings, Lineup, Movement, NoAnimation, Sheet, Tyres};
use crate::words::{self, frame_and_size};

/// A sheet's moving pictures, ready to be drawn one by one.
#[derive(Clone, Debug)]
pub struct Moving<'a> {
    findings: Findings,
    lineup: &'a Lineup,
    sheet: &'a Sheet,
    animation: Animation,
    /// Places of the frames that take part, in the order of their parts.
    places: Vec<FrameIndex>,
    /// The drawing's page before it is enlarged, what it shows, and where it lies on the sheet.
    page: Page,
    view: View,
    cell: Rect,
}

/// Eased from 0 to 1: 3t² − 2t³, which starts and ends at rest.
fn eased(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// Words in lines, each sentence that has its own line in at most two.
fn lines_of(words: &str, size: f64, width: f64) -> Vec<String> {
    words.split('\n').flat_map(|sentence| wrap(sentence, size, Weight::Regular, width, 2)).collect()
}

impl<'a> Moving<'a> {
    /// Prepares them; the sheet's own, or what is usual.
    ///
    /// # Errors
    /// What is missing.
    pub fn of(findings: &Findings, lineup: &'a Lineup, sheet: &'a Sheet) -> Result<Self, NoAnimation> {
        let animation = sheet.animation.unwrap_or_default();
        let has_outline = |i: &FrameIndex| findings.frames[*i].outline.as_ref().is_some_and(|o| !o.tubes.is_empty());
        let reference = findings.reference;
        let others = FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown && Some(*i) != reference);
        let mut places: Vec<FrameIndex> = reference.into_iter().chain(others).filter(has_outline).collect();
        if animation.what != Movement::Appear && places.first().copied() != reference {
            return Err(NoAnimation::ReferenceNotDrawn);
        }
        match animation.what {
            Movement::Appear if places.is_empty() => return Err(NoAnimation::NoFrame),
            Movement::Change if places.len() < 2 => {
                return Err(NoAnimation::OneFrame);
            }
            Movement::Fork(_) => places.truncate(1),
            _ => {}
        }
        let mut findings = findings.clone();
        for (place, frame) in FrameIndex::numbered(&mut findings.frames) {
            frame.shown = places.contains(&place);
        }
        let format = Format::of(sheet.shape);
        let mut moving = Self {
            findings,
            lineup,
            sheet,
            animation,
            places,
            page: Page { width: 1.0, height: 1.0 },
            view: View { centre_mm: Point { x: 0.0, y: 0.0 }, px_per_mm: 1.0 },
            cell: format.safe(),
        };
        moving.lay_out(format);
        Ok(moving)
    }

    fn with(&self) -> Sheeted<'_> {
        let format = Format::of(self.sheet.shape);
        Sheeted { findings: &self.findings, lineup: self.lineup, sheet: self.sheet, format, least: format.least }
    }

    /// Room for legend and words, and the view that shows every place that is passed.
    fn lay_out(&mut self, format: Format) {
        let with = self.with();
        let safe = Rect { height: format.safe().height.min(UNBOUNDED / 2.0), ..format.safe() };
        let rest = head::legend(&mut Pen::default(), &with, safe, &mut Vec::new());
        let words = format.least * 1.35 * self.words_lines(rest.width);
        let cell = Rect::new(rest.x, rest.y, rest.width, rest.height - words - format.least * 0.8);
        let (by, _) = format.enlarged(Block::Outline);
        let page = Page { width: cell.width / by, height: cell.height / by };
        let settings = self.lineup.settings.outline;
        let bounds = self.ends().iter().filter_map(|o| Standing::of_outline(o, settings.align_at).bounds(settings.wheels)).fold(
            (Point { x: f64::INFINITY, y: f64::INFINITY }, Point { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY }),
            |(low, high), (l, h)| {
                (Point { x: low.x.min(l.x), y: low.y.min(l.y) }, Point { x: high.x.max(h.x), y: high.y.max(h.y) })
            },
        );
        let view = fitted(bounds.0, bounds.1, page, Margins { side: 6.0, top: 34.0, bottom: 34.0 });
        (self.page, self.view, self.cell) = (page, view, cell);
    }

    /// The outlines between which all others lie.
    fn ends(&self) -> Vec<Outline> {
        let mut ends: Vec<Outline> = self.places.iter().filter_map(|i| self.findings.frames[*i].outline.clone()).collect();
        if let Movement::Fork(_) = self.animation.what {
            ends.extend(self.with_fork(1.0).map(|(o, _)| o));
        }
        ends
    }

    /// How many pictures there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.animation.pictures()
    }

    /// Pictures a second.
    #[must_use]
    pub const fn rate(&self) -> u32 {
        self.animation.frames_per_second
    }

    /// A picture, from 0; the last one beyond.
    #[must_use]
    pub fn scene(&self, picture: usize) -> Scene {
        let last = self.count().saturating_sub(1).max(1);
        let time = (picture as f64 / last as f64).min(1.0);
        let with = self.with();
        let mut pen = Pen::default();
        head::legend(&mut pen, &with, with.format.safe(), &mut Vec::new());
        let mut drawing = Pen::default();
        let canvas = Canvas { rect: Rect::of_page(self.page), view: self.view };
        drawing.clip(canvas.rect);
        if self.lineup.settings.outline.grid && !self.sheet.background.is_clear() {
            grid::draw(&mut drawing, canvas, self.lineup.settings.units);
        }
        let words = match self.animation.what {
            Movement::Appear => self.appear(&mut drawing, canvas, time),
            Movement::Change => self.change(&mut drawing, canvas, time),
            Movement::Fork(_) => self.fork(&mut drawing, canvas, time),
        };
        grid::scale_bar(&mut drawing, canvas, self.lineup.settings.units);
        drawing.unclip();
        let (by, lines_by) = with.format.enlarged(Block::Outline);
        let has_halo = with.sheet.background.is_clear();
        let lines_by = if has_halo { lines_by * 1.35 } else { lines_by };
        let place = Place { at: Pt { x: self.cell.x, y: self.cell.y }, by, lines_by, has_halo };
        put(&mut pen, drawing.finish(self.page, "", ""), place);
        self.write(&mut pen, &with, &words);
        let page = Page { height: with.format.page().height.min(UNBOUNDED / 2.0), ..with.format.page() };
        pen.finish(page, self.sheet.headline(self.lineup), words.replace('\n', " "))
    }

    /// The words below the drawing.
    fn write(&self, pen: &mut Pen, with: &Sheeted, words: &str) {
        let face = Face::regular(with.least, Role::Ink);
        let lines = lines_of(words, face.size, self.cell.width);
        let top = self.cell.bottom() + with.least * 0.8;
        let pitch = with.least * 1.35;
        let widest = lines.iter().map(|l| text_width(l, face.size, face.weight)).fold(0.0, f64::max);
        with.backing(pen, Rect::new(self.cell.x, top, widest, pitch * lines.len() as f64));
        head::write(pen, &lines, Pt { x: self.cell.x, y: top }, face, pitch);
    }

    /// Lines that the longest words take.
    fn words_lines(&self, width: f64) -> f64 {
        let longest = match self.animation.what {
            Movement::Fork(_) => self.fork_words(self.with_fork(1.0).as_ref().map(|(_, s)| s), 0.0),
            Movement::Appear | Movement::Change => {
                let mut frames: Vec<&FrameFindings> = self.places.iter().map(|i| &self.findings.frames[*i]).collect();
                frames.sort_by_key(|frame| std::cmp::Reverse(frame_and_size(frame).len()));
                match frames[..] {
                    [first, second, ..] => words::changes_into_text(first, second),
                    [only] => frame_and_size(only),
                    [] => String::new(),
                }
            }
        };
        lines_of(&longest, Format::of(self.sheet.shape).least, width).len() as f64
    }

    fn standing<'o>(&self, outline: &'o Outline) -> Standing<'o> {
        Standing::of_outline(outline, self.lineup.settings.outline.align_at)
    }

    /// A frame in its own look with a share of its opacity.
    fn draw_faded(&self, pen: &mut Pen, canvas: Canvas, outline: &Outline, place: FrameIndex, share: f64) {
        let is_reference = self.findings.reference == Some(place);
        let settings = self.lineup.settings.outline;
        // Where frames lie over one another, one pair of wheels and one saddle are enough.
        let is_one = self.animation.what != Movement::Appear || self.places.first() == Some(&place);
        let look = FrameLook {
            place,
            is_filled: is_reference,
            has_saddle: is_one || settings.all_wheels,
            pattern: frame_pattern_of(&self.findings, place),
            frames: self.places.len(),
            steps_back: false,
        };
        let (mut own, stands) = (Pen::default(), self.standing(outline));
        if settings.wheels && (is_one || settings.all_wheels) {
            frame_shape::draw_wheels(&mut own, canvas, &stands, place);
        }
        frame_shape::draw(&mut own, canvas, &stands, look);
        for item in own.finish(self.page, "", "").items.into_iter().filter_map(|i| i.faded(share)) {
            pen.item(item);
        }
    }

    fn balloon(&self, canvas: Canvas, outline: &Outline, place: FrameIndex) -> Option<Balloon> {
        let at = canvas.at(self.standing(outline).head()?);
        Some(Balloon { place, letter: place.of(&self.findings.frames)?.letter.clone(), at })
    }

    /// Frames appear, each in its part of four fifths of the time; the first of several is there from the start, so that
    /// whoever shows only the first picture shows a frame.
    fn appear(&self, pen: &mut Pen, canvas: Canvas, time: f64) -> String {
        let part = 0.8 / self.places.len().max(1) as f64;
        let share = |n: usize| {
            if n == 0 && self.places.len() > 1 { 1.0 } else { eased((time - part * n as f64) / (part * 0.6)) }
        };
        let drawn =
            || self.places.iter().enumerate().filter_map(|(n, i)| Some((n, *i, self.findings.frames[*i].outline.as_ref()?)));
        if let Some((_, _, outline)) = drawn().next() {
            road(pen, canvas, &self.standing(outline));
        }
        // The first lies beneath, as on the sheet.
        let mut order: Vec<_> = drawn().collect();
        order.sort_by_key(|(n, ..)| (*n > 0, std::cmp::Reverse(*n)));
        for (n, place, outline) in order {
            self.draw_faded(pen, canvas, outline, place, share(n));
        }
        let mut tags: Vec<(f64, Balloon)> =
            drawn().filter_map(|(n, i, o)| Some((share(n), self.balloon(canvas, o, i)?))).collect();
        tags.sort_by_key(|(_, b)| b.place);
        let visible: Vec<bool> = tags.iter().map(|(s, _)| *s >= 0.5).collect();
        let tags: Vec<Balloon> = tags.into_iter().map(|(_, b)| b).collect();
        balloons::draw_some(pen, &tags, canvas.rect, &visible);
        let newest = (0..self.places.len()).rev().find(|n| share(*n) >= 0.5);
        newest.map(|n| frame_and_size(&self.findings.frames[self.places[n]])).unwrap_or_default()
    }

    /// Each outline into the next: at rest, on its way for seven tenths of its part, at rest.
    fn change(&self, pen: &mut Pen, canvas: Canvas, time: f64) -> String {
        let parts = self.places.len().saturating_sub(1).max(1);
        let at = time * parts as f64;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a part's number, from zero")]
        let part = (at as usize).min(parts - 1);
        let share = eased((at - part as f64 - 0.15) / 0.7);
        let (from, to) = (self.places[part], self.places[part + 1]);
        let frame = |i: FrameIndex| &self.findings.frames[i];
        let (Some(a), Some(b)) = (frame(from).outline.as_ref(), frame(to).outline.as_ref()) else { return String::new() };
        let between = outline_between(a, b, share);
        road(pen, canvas, &self.standing(&between));
        // One is whole until the other is, so that nothing grows pale on its way.
        for (place, own, opacity) in [(from, a, 2.0 * (1.0 - share)), (to, b, 2.0 * share)] {
            let opacity = opacity.min(1.0);
            // What only one of both has fades with it.
            let mut whole = between.clone();
            whole.tubes.extend(own.tubes.iter().filter(|t| between.tubes.iter().all(|b| b.tube != t.tube)).cloned());
            whole.rear_wheel = whole.rear_wheel.or(own.rear_wheel);
            whole.front_wheel = whole.front_wheel.or(own.front_wheel);
            if whole.saddle.is_empty() {
                whole.saddle.clone_from(&own.saddle);
            }
            if opacity > 0.0 {
                self.draw_faded(pen, canvas, &whole, place, opacity);
            }
        }
        let nearer = if share < 0.5 { from } else { to };
        balloons::draw(pen, &Vec::from_iter(self.balloon(canvas, &between, nearer)), canvas.rect);
        match share {
            0.0 => frame_and_size(frame(from)),
            1.0 => frame_and_size(frame(to)),
            _ => words::changes_into_text(frame(from), frame(to)),
        }
    }

    /// At rest for a tenth of the time, longer and longer for six, at rest.
    fn fork(&self, pen: &mut Pen, canvas: Canvas, time: f64) -> String {
        let share = eased((time - 0.1) / 0.6);
        let place = self.places[0];
        let Some(as_published) = self.findings.frames[place].outline.as_ref() else { return String::new() };
        let Some((outline, size)) = self.with_fork(share) else { return String::new() };
        road(pen, canvas, &self.standing(&outline));
        if share > 0.0 {
            self.draw_faded(pen, canvas, as_published, place, 0.3);
        }
        self.draw_faded(pen, canvas, &outline, place, 1.0);
        balloons::draw(pen, &Vec::from_iter(self.balloon(canvas, &outline, place)), canvas.rect);
        self.fork_words(Some(&size), share)
    }

    /// The reference with that share of the fork's change: its outline and its figures.
    fn with_fork(&self, share: f64) -> Option<(Outline, AdjustedSize)> {
        let Movement::Fork(longer) = self.animation.what else { return None };
        let frame = self.places.first()?.of(&self.findings.frames)?;
        let size = frame.chosen()?;
        let length = size.value(Figure::AxleToCrownAlongAxis);
        let new = length.measured().as_length().moved(f64::from(longer) * share);
        let after =
            if share == 0.0 { size.clone() } else { changed(size, &Change { fork_length: Some(new), ..Change::default() }).size };
        let mut adjusted = Adjusted::clone(&frame.adjusted);
        frame.size.of_mut(&mut adjusted.sizes)?.clone_from(&after);
        let tyre = match self.lineup.settings.tyres {
            Tyres::AsPublished => None,
            Tyres::SameOnAll(tyre) => Some(tyre),
        };
        Some((outline(&frame.frameset, &adjusted, frame.size, tyre)?, after))
    }

    fn fork_words(&self, size: Option<&AdjustedSize>, share: f64) -> String {
        let Movement::Fork(longer) = self.animation.what else { return String::new() };
        words::fork_longer_text(self.lineup.settings.units, f64::from(longer) * share, size)
    }
}
