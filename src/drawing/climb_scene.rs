//! The climb: for each shown frameset its share of the loaded total, the difference as percent of that, and the seconds
//! that it costs or saves, beside the climb's whole time.
//!
//! Invariant: a difference that is not clear is grey and has no bar.

use super::measure::{CAP_HEIGHT, shorten, text_width, wrap};
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pt, Role, Scene};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup};
use crate::words::drawings as labels;
use crate::words::{climb_sentence, duration_text, frame_and_size, more_do_not_fit};

pub(super) const SIDE: f64 = 20.0;
const LETTER: f64 = 30.0;
const SENTENCE: Face = Face::regular(13.0, Role::Ink);
const HEAD: Face = Face::semibold(12.0, Role::Ink);
const CELL: Face = Face::regular(12.5, Role::Ink);
const NOTE: Face = Face::regular(11.5, Role::SecondInk);
const ROW_SENTENCE: Face = Face::regular(12.0, Role::SecondInk);
const LINE: f64 = 17.5;
const HEADING: f64 = 26.0;
const ROW: f64 = 26.0;
const LEAST_ROW: f64 = 15.0;
/// From this height on a row has its sentence below, up to the height at which it stands at ease.
const ROW_WITH_SENTENCE: f64 = 50.0;
const AT_EASE: f64 = 76.0;
/// Widths of the columns after the bar, whose titles are `CLIMB_COLUMNS`: seconds and percent of the loaded total from the reference, share
/// of the loaded total, whole time.
const COLUMNS: [f64; 4] = [118.0, 100.0, 108.0, 96.0];
/// The column that a narrow page does without: the share of the whole, which the sentence above has for the reference.
const SHARE: usize = 2;
/// The room a bar must have, page units, and the room from which on it leaves the share its column.
const LEAST_BAR: f64 = 60.0;
const EASY_BAR: f64 = 120.0;

/// The climb on a page.
#[must_use]
pub fn climb_scene(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    draw(&mut pen, lineup, findings, Rect::of_page(page));
    pen.finish(page, labels::CLIMB_TITLE, description(lineup, findings))
}

/// The height at which it stands comfortably in that width, page units.
pub(super) fn height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    let shown = findings.frames.iter().filter(|f| f.shown).count().max(1);
    head(lineup, findings, width).len() as f64 * LINE + HEADING + ROW * shown as f64 + 8.0 + 2.0 * LINE
}

fn head(lineup: &Lineup, findings: &Findings, width: f64) -> Vec<String> {
    let sentence = findings.reference.and_then(|r| climb_sentence(lineup, findings, r)).unwrap_or_default();
    wrap(&sentence, SENTENCE.size, SENTENCE.weight, (width - 2.0 * SIDE).max(60.0), 3)
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(lineup: &Lineup, findings: &Findings) -> String {
    let reference = findings.reference.into_iter();
    let others = FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown && findings.reference != Some(*i));
    let sentences: Vec<String> = reference.chain(others).filter_map(|i| climb_sentence(lineup, findings, i)).collect();
    if sentences.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { sentences.join(" ") }
}

/// Draws it into a rectangle.
pub(super) fn draw(pen: &mut Pen, lineup: &Lineup, findings: &Findings, rect: Rect) {
    let shown: Vec<FrameIndex> = FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown).collect();
    if shown.is_empty() {
        pen.text(rect.centre(), labels::NO_FRAME_IS_SHOWN, Face::regular(14.0, Role::SecondInk), Anchor::Middle);
        return;
    }
    let (left, right) = (rect.x + SIDE, rect.right() - SIDE);
    let notes = wrap(labels::CLIMB_NOTES, NOTE.size, NOTE.weight, right - left, 2);
    let below = notes.len() as f64 * 15.0 + 10.0;
    let head = head(lineup, findings, rect.width);
    let room = rect.height - head.len() as f64 * LINE - HEADING - below;
    if room < LEAST_ROW {
        // Not a single row stands here: said, where there is a line for that.
        if rect.height >= 2.0 * LINE {
            let text = shorten(labels::CLIMB_DOES_NOT_FIT, NOTE.size, NOTE.weight, right - left);
            pen.text(Pt { x: left, y: rect.y + LINE }, text, NOTE, Anchor::Start);
        }
        return;
    }
    let mut y = rect.y;
    for line in head {
        y += LINE;
        pen.text(Pt { x: left, y: y - 4.0 }, line, SENTENCE, Anchor::Start);
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows on a page")]
    let fitting = ((room / LEAST_ROW) as usize).clamp(1, shown.len());
    let block = Block::new(lineup, findings, rect, &shown);
    let row = match room / fitting as f64 {
        high if high >= ROW_WITH_SENTENCE && block.has_room_for_sentences(&shown) => high.min(AT_EASE),
        low => low.min(ROW),
    };
    block.head(pen, y);
    y += HEADING;
    for place in &shown[..fitting] {
        block.row(pen, *place, y, row);
        y += row;
    }
    y += 4.0;
    let left_out = shown.len() - fitting;
    if left_out > 0 {
        pen.text(Pt { x: right, y: y + 10.0 }, more_do_not_fit(left_out), NOTE, Anchor::End);
    }
    for line in notes {
        y += 15.0;
        if y + 3.0 <= rect.bottom() {
            pen.text(Pt { x: left, y }, line, NOTE, Anchor::Start);
        }
    }
}

struct Block<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    left: f64,
    /// The bar's room, its zero and page units a second; no bar where there is no room.
    bar: Option<(Rect, f64, f64)>,
    /// Right ends of the columns; one that is left out ends where the one before does.
    ends: [f64; 4],
    has_share: bool,
}

impl<'a> Block<'a> {
    fn new(lineup: &'a Lineup, findings: &'a Findings, rect: Rect, shown: &[FrameIndex]) -> Self {
        let (left, right) = (rect.x + SIDE, rect.right() - SIDE);
        let room = right - left - LETTER;
        let all: f64 = COLUMNS.iter().sum();
        let has_share = room - all >= EASY_BAR;
        let columns = if has_share { all } else { all - COLUMNS[SHARE] };
        let bar_width = (room - columns).clamp(0.0, 520.0);
        let bar = (bar_width >= LEAST_BAR).then(|| {
            let reach = |i: &FrameIndex| {
                let time = i.of(&findings.price_and_climb)?.against.as_ref()?.climb?;
                Some((time.low(), time.high()))
            };
            let all = shown.iter().filter_map(reach).fold((0.0_f64, 0.0_f64), |(a, b), (low, high)| (a.min(low), b.max(high)));
            let across = Rect::new(left + LETTER, rect.y, bar_width - 12.0, 0.0);
            let scale = (across.width - 8.0) / (all.1 - all.0).max(1.0);
            (across, across.x + 4.0 - all.0 * scale, scale)
        });
        let mut x = left + LETTER + if bar.is_some() { bar_width } else { 0.0 };
        let squeeze = if bar.is_some() { 1.0 } else { (room / columns).min(1.0) };
        let mut ends = [0.0; 4];
        for (i, (end, width)) in ends.iter_mut().zip(COLUMNS).enumerate() {
            if has_share || i != SHARE {
                x += width * squeeze;
            }
            *end = x;
        }
        Self { lineup, findings, left, bar, ends, has_share }
    }

    /// The room of a row's sentence.
    fn sentence_width(&self) -> f64 {
        self.ends[3] - self.left - LETTER
    }

    /// Whether every row's sentence stands whole on one line.
    fn has_room_for_sentences(&self, shown: &[FrameIndex]) -> bool {
        let others = shown.iter().filter(|place| self.findings.reference != Some(**place));
        let mut sentences = others.filter_map(|place| climb_sentence(self.lineup, self.findings, *place));
        sentences.all(|s| text_width(&s, ROW_SENTENCE.size, ROW_SENTENCE.weight) <= self.sentence_width())
    }

    fn head(&self, pen: &mut Pen, y: f64) {
        let base = y + HEADING - 8.0;
        let letter = self.findings.reference_frame().map_or("", |f| f.letter.as_str());
        for (i, (end, title)) in self.ends.iter().zip(labels::CLIMB_COLUMNS).enumerate() {
            if i == SHARE && !self.has_share {
                continue;
            }
            let text = if i < SHARE { labels::versus(title, letter) } else { title.to_owned() };
            pen.text(Pt { x: *end, y: base }, text, HEAD, Anchor::End);
        }
        let has_bars = self.findings.price_and_climb.iter().any(|w| w.against.as_ref().is_some_and(|a| a.climb.is_some()));
        if let (Some((room, zero, _)), true) = (self.bar, has_bars) {
            let text = labels::FASTER;
            let width = text_width(text, NOTE.size, NOTE.weight);
            if zero - room.x > width + 10.0 {
                pen.text(Pt { x: zero - 6.0, y: base }, text, NOTE, Anchor::End);
            }
            if room.right() - zero > width + 16.0 {
                pen.text(Pt { x: zero + 6.0, y: base }, labels::SLOWER, NOTE, Anchor::Start);
            }
        }
        let y = y + HEADING - 2.0;
        pen.line(vec![Pt { x: self.left, y }, Pt { x: self.ends[3], y }], solid(Role::Hairline, 1.0));
    }

    fn row(&self, pen: &mut Pen, place: FrameIndex, y: f64, height: f64) {
        let (Some(frame), Some(found)) = (place.of(&self.findings.frames), place.of(&self.findings.price_and_climb)) else {
            return;
        };
        let has_sentence = height >= ROW_WITH_SENTENCE;
        let line = if has_sentence { ROW } else { height };
        let middle = y + if has_sentence { (height - ROW - 18.0) / 2.0 } else { 0.0 } + line / 2.0;
        let base = middle + CELL.size * CAP_HEIGHT / 2.0;
        let centre = Pt { x: self.left + 11.0, y: middle };
        if line >= 25.0 {
            pen.balloon(centre, &frame.letter, place);
        } else {
            let face = Face::semibold(12.5, Role::FrameLetter(place));
            pen.text(Pt { x: centre.x, y: base }, frame.letter.clone(), face, Anchor::Middle);
        }
        let is_reference = self.findings.reference == Some(place);
        let against = found.against.as_ref();
        let is_clear = against.is_some_and(|a| a.mass.is_clear());
        let grey = if is_clear || is_reference { Role::Ink } else { Role::Grey };
        let units = self.lineup.settings.units;
        let seconds = match (is_reference, against.and_then(|a| a.climb.as_ref())) {
            (true, _) => labels::REFERENCE.to_owned(),
            (_, Some(time)) => time.signed_text(units),
            (_, None) if against.is_some() => labels::NO_CLEAR_DIFFERENCE.to_owned(),
            _ => "–".to_owned(),
        };
        let percent = against.map_or_else(|| "–".to_owned(), |a| a.whole_percent.signed_text(units));
        let share = found.share_percent.map_or_else(|| labels::UNKNOWN.to_owned(), |share| share.text(units));
        let time = found.climb.as_ref().map_or_else(|_| labels::UNKNOWN.to_owned(), |t| duration_text(t.value));
        let own = if found.share_percent.is_some() { Role::Ink } else { Role::Grey };
        for (i, (text, role)) in [(seconds, grey), (percent, grey), (share, own), (time, own)].into_iter().enumerate() {
            if i == SHARE && !self.has_share {
                continue;
            }
            let room = self.ends[i] - if i == 0 { self.left + LETTER } else { self.ends[i - 1] } - 4.0;
            let text = shorten(&text, CELL.size, CELL.weight, room.min(COLUMNS[i]));
            pen.text(Pt { x: self.ends[i], y: base }, text, Face { role, ..CELL }, Anchor::End);
        }
        self.bar(pen, place, middle, line);
        let detail = climb_sentence(self.lineup, self.findings, place).unwrap_or_default();
        if has_sentence && !is_reference {
            pen.text(Pt { x: self.left + LETTER, y: middle + ROW / 2.0 + 13.0 }, detail.clone(), ROW_SENTENCE, Anchor::Start);
        }
        let area = Rect::new(self.left, y, self.ends[3] - self.left, height);
        pen.target(area.corners(), frame_and_size(frame), detail);
    }

    fn bar(&self, pen: &mut Pen, place: FrameIndex, middle: f64, height: f64) {
        let Some((_, zero, scale)) = self.bar else { return };
        pen.line(
            vec![Pt { x: zero, y: middle - height / 2.0 }, Pt { x: zero, y: middle + height / 2.0 }],
            solid(Role::SecondInk, 1.0),
        );
        let time = place.of(&self.findings.price_and_climb).and_then(|w| w.against.as_ref()).and_then(|a| a.climb);
        let Some(time) = time else { return };
        let at = |seconds: f64| zero + seconds * scale;
        let half = (height * 0.3).min(7.0);
        let (low, high) = (at(time.value).min(zero), at(time.value).max(zero));
        let role = Role::FrameLine(place);
        let bar = Rect::new(low, middle - half, high - low, 2.0 * half);
        pen.area(bar.corners(), Some(Fill { role, opacity: 0.35 }), Some(solid(role, 1.1)));
        let ends = [at(time.low()), at(time.high())];
        if ends[1] - ends[0] > 2.0 {
            let stroke = solid(Role::Ink, 1.2);
            pen.line(vec![Pt { x: ends[0], y: middle }, Pt { x: ends[1], y: middle }], stroke);
            for x in ends {
                pen.line(vec![Pt { x, y: middle - 4.0 }, Pt { x, y: middle + 4.0 }], stroke);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use crate::drawing::sample::{lineup, lineup_with_gaps};

    fn texts(scene: &Scene) -> Vec<&str> {
        scene.items.iter().filter_map(|i| if let Item::Text { text, .. } = i { Some(text.as_str()) } else { None }).collect()
    }

    const PAGE: Page = Page { width: 700.0, height: 300.0 };

    #[test]
    fn seconds_percent_and_share_stand_beside_the_whole_time() {
        let lineup = lineup(4);
        let findings = Findings::of(&lineup);
        let scene = climb_scene(&lineup, &findings, PAGE);
        let words = texts(&scene);
        let joined = words.join(" ").replace([crate::units::THIN_SPACE, crate::units::NO_BREAK_SPACE], " ");
        assert!(joined.contains("for 10 km at 5 % with 150 W."), "{joined}");
        for (place, worth) in findings.price_and_climb.iter().enumerate() {
            let time = worth.climb.as_ref().map_or_else(|_| "unknown".to_owned(), |t| duration_text(t.value));
            assert!(words.contains(&time.as_str()), "{place}: {time}");
            if let Some(time) = worth.against.as_ref().and_then(|a| a.climb) {
                assert!(words.contains(&time.signed_text(crate::units::System::Metric).as_str()));
            }
        }
        assert!(joined.contains("Martin"));
    }

    #[test]
    fn without_a_weight_there_is_no_time_and_it_says_so() {
        let lineup = lineup_with_gaps();
        let scene = climb_scene(&lineup, &Findings::of(&lineup), PAGE);
        assert!(texts(&scene).contains(&"unknown"), "{:?}", texts(&scene));
        assert!(scene.description.contains("unknown (needs the frameset’s weight)"), "{}", scene.description);
    }

    #[test]
    fn words_stay_on_the_page() {
        for frames in [1, 2, 8] {
            let lineup = lineup(frames);
            let findings = Findings::of(&lineup);
            for (width, height) in [(440.0, 200.0), (560.0, 260.0), (1200.0, 500.0)] {
                let scene = climb_scene(&lineup, &findings, Page { width, height });
                for item in &scene.items {
                    if let Item::Text { at, text, size, anchor, weight, .. } = item {
                        let covered = Rect::of_text(*at, text, *size, *anchor, *weight);
                        assert!(Rect::of_page(scene.page).encloses(covered), "{text:?} at {at:?}, {width} × {height}");
                    }
                }
            }
        }
    }
}
