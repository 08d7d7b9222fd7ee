//! Files at their limits: what is written can be read back, and what could not be is refused before it is written.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::sync::Arc;
use std::time::Instant;

use proptest::prelude::*;
use proptest::sample::select;
use spandrel::frameset::{FileKind, Frameset, TextKind, read_frameset, write_frameset};
use spandrel::lineup::{Lineup, read_lineup, write_lineup};

fn frame() -> Frameset {
    let text =
        "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", sizes: [(label: \"M\", figures: {Stack: 622, Reach: 387})])";
    read_frameset(text.as_bytes()).unwrap()
}

#[test]
fn ten_thousand_frames_are_read_back() {
    let mut lineup = Lineup::default();
    for number in 0..10_000 {
        let mut frame = frame();
        frame.model = format!("Drift {number}");
        lineup.add(frame, Some(format!("drift-{number}.frame.ron")));
    }
    let began = Instant::now();
    let text = write_lineup(&lineup).unwrap();
    let written = began.elapsed();
    let began = Instant::now();
    assert!(read_lineup(text.as_bytes()).unwrap() == lineup);
    println!("10,000 frames, {} bytes: written in {written:.1?}, read in {:.1?}", text.len(), began.elapsed());
}

/// Just below the limit of bytes a line-up is read back; beyond it, it is refused before it is written, with the limit.
#[test]
fn a_line_up_beyond_its_limit_is_refused_before_it_is_written() {
    let mut heavy = frame();
    heavy.note = Some("x".repeat(TextKind::Notes.max_characters()));
    let each = write_frameset(&heavy).unwrap().len();
    let heavy = Arc::new(heavy);
    let mut lineup = Lineup::default();
    lineup.add(frame(), None);
    let entry = lineup.frames.remove(0);
    let fits = FileKind::Lineup.max_bytes() / (each + 400);
    lineup.frames = vec![spandrel::lineup::Entry { frameset: heavy, ..entry }; fits];
    let text = write_lineup(&lineup).unwrap();
    assert!(text.len() > FileKind::Lineup.max_bytes() * 9 / 10, "{} bytes are near the limit", text.len());
    assert!(read_lineup(text.as_bytes()).unwrap() == lineup);
    let first = lineup.frames[0].clone();
    lineup.frames.extend(vec![first; fits / 9]);
    let refusal = write_lineup(&lineup).unwrap_err().to_string();
    assert!(refusal.contains(&FileKind::Lineup.limit()), "{refusal}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Texts of the greatest length, of letters that a file writes by one byte or by ten, come back; one more is refused.
    #[test]
    fn texts_at_their_limits_come_back(
        letter in select(vec!['x', '"', '\\', '\n', 'é', '骑', '🚲', '\u{202e}', '\u{0}', '\u{e0041}']),
        over in 0_usize..2,
        field in 0_usize..5,
    ) {
        let text = |kind: TextKind| letter.to_string().repeat(kind.max_characters() + over);
        let mut frame = frame();
        let mut lineup = Lineup::default();
        match field {
            0 => frame.maker = text(TextKind::Name),
            1 => frame.model = text(TextKind::Name),
            2 => frame.note = Some(text(TextKind::Notes)),
            3 => lineup.title = text(TextKind::Name),
            _ => lineup.notes = text(TextKind::Notes),
        }
        let written = write_frameset(&frame);
        prop_assert_eq!(written.is_ok(), over == 0 || field > 2);
        if let Ok(text) = written {
            prop_assert!(read_frameset(text.as_bytes()).unwrap() == frame);
        }
        lineup.add(frame, None);
        let written = write_lineup(&lineup);
        prop_assert_eq!(written.is_ok(), over == 0);
        if let Ok(text) = written {
            prop_assert!(read_lineup(text.as_bytes()).unwrap() == lineup);
        }
    }
}
