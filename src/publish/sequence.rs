//! A sheet's moving pictures: numbered PNG files with their opacity, one PNG that moves, and a GIF.
//!
//! Invariants: pictures are made on all cores but put in order; only as many are held as are being made; it can be
//! stopped between any two.

use rayon::prelude::*;

use super::apng::MovingPng;
use super::film_error::FilmError;
use super::gif::MovingGif;
use super::png::{Painter, Pixels, png_quickly};
use super::sheet::{for_painting, sheet_background};
use super::{PublishProgress, Stopped};
use crate::drawing::{Moving, Palette, Rgb, Role};
use crate::lineup::{Findings, Lineup, Sheet, SheetBackground};

/// Pictures made at a time.
const AT_A_TIME: usize = 16;
/// Pixels across of the files that hold all pictures.
const SMALL: u32 = 800;

/// Names and bytes, in order.
pub type Files = Vec<(String, Vec<u8>)>;

/// One picture in both sizes.
struct Pair {
    file: Vec<u8>,
    small: Pixels,
}

/// Makes them: `moving/0001.png` and on, `moving.png`, `moving.gif`. `sheet` is the one for laying over film; the GIF,
/// which knows no half opacity, gets the ground that belongs to it.
///
/// # Errors
/// When it was stopped. The inner error is a sentence that says why nothing moves.
pub fn sequence(
    findings: &Findings,
    lineup: &Lineup,
    sheet: &Sheet,
    going: &PublishProgress,
) -> Result<Result<Files, FilmError>, Stopped> {
    let moving = match Moving::of(findings, lineup, sheet) {
        Ok(moving) => moving,
        Err(why) => return Ok(Err(FilmError::NothingMoves(why))),
    };
    going.expect(moving.count());
    made(&moving, sheet, going)
}

fn made(moving: &Moving, sheet: &Sheet, going: &PublishProgress) -> Result<Result<Files, FilmError>, Stopped> {
    let pair = |picture: usize| -> Result<Result<Pair, FilmError>, Stopped> {
        going.check()?;
        let pair = pair(moving, picture, sheet);
        going.count();
        Ok(pair)
    };
    let background = Palette::of(sheet_background(sheet.background)).colour(Role::Background);
    let mut files = Files::new();
    let (mut png, mut gif) = (None, None);
    let digits = moving.count().to_string().len().max(4);
    for first in (0..moving.count()).step_by(AT_A_TIME) {
        let places = first..(first + AT_A_TIME).min(moving.count());
        let pairs: Vec<Result<Pair, FilmError>> = places.into_par_iter().map(pair).collect::<Result<_, Stopped>>()?;
        for pair in pairs {
            let Pair { file, small } = match pair {
                Ok(pair) => pair,
                Err(why) => return Ok(Err(why)),
            };
            let opaque = on_ground(&small, background);
            let rate = moving.rate();
            if gif.is_none() {
                gif = match samples(moving, sheet, background).and_then(|s| MovingGif::new(&s, rate)) {
                    Ok(gif) => Some(gif),
                    Err(why) => return Ok(Err(why)),
                };
            }
            let added = gif.as_mut().map_or(Ok(()), |gif| gif.add(&opaque));
            if let Err(why) = added {
                return Ok(Err(why));
            }
            png.get_or_insert_with(|| MovingPng::new(small.width, small.height, u16::try_from(rate).unwrap_or(u16::MAX)))
                .add(small);
            files.push((format!("moving/{:0digits$}.png", files.len() + 1), file));
        }
    }
    let last = || -> Result<Files, FilmError> {
        let mut last = Files::new();
        if let Some(png) = png {
            last.push(("moving.png".to_owned(), png.finish()?));
        }
        if let Some(gif) = gif {
            last.push(("moving.gif".to_owned(), gif.finish()?));
        }
        Ok(last)
    };
    Ok(last().map(|mut whole| {
        whole.extend(files);
        whole
    }))
}

fn painter(moving: &Moving, picture: usize, sheet: &Sheet) -> Result<(Painter, (u32, u32)), FilmError> {
    let (svg, size) = for_painting(&moving.scene(picture), sheet);
    Ok((Painter::of(&svg)?, size))
}

fn small_size((width, height): (u32, u32)) -> (u32, u32) {
    let small = width.min(SMALL);
    (small, (height * small).div_euclid(width.max(1)).max(1))
}

fn pair(moving: &Moving, picture: usize, sheet: &Sheet) -> Result<Pair, FilmError> {
    let (painter, size) = painter(moving, picture, sheet)?;
    let whole = painter.pixels(size.0, size.1)?;
    let (width, height) = small_size(size);
    let small = if width == size.0 { whole.clone() } else { painter.pixels(width, height)? };
    Ok(Pair { file: png_quickly(&whole)?, small })
}

/// Pictures that together have all colours.
fn samples(moving: &Moving, sheet: &Sheet, background: Rgb) -> Result<Vec<Pixels>, FilmError> {
    let last = moving.count().saturating_sub(1);
    [0, last / 2, last]
        .into_iter()
        .map(|picture| {
            let (painter, size) = painter(moving, picture, sheet)?;
            let (width, height) = small_size(size);
            painter.pixels(width, height).map(|p| on_ground(&p, background)).map_err(FilmError::from)
        })
        .collect()
}

/// The picture laid on its ground.
fn on_ground(picture: &Pixels, background: Rgb) -> Pixels {
    let mut rgba = Vec::with_capacity(picture.rgba.len());
    for p in picture.rgba.chunks_exact(4) {
        let opacity = u32::from(p[3]);
        let mixed = |own: u8, under: u8| {
            let value = (u32::from(own) * opacity + u32::from(under) * (255 - opacity) + 127) / 255;
            u8::try_from(value).unwrap_or(u8::MAX)
        };
        rgba.extend([mixed(p[0], background.r), mixed(p[1], background.g), mixed(p[2], background.b), 255]);
    }
    Pixels { rgba, ..*picture }
}

/// The ground on which moving pictures are made: none, with light lines for a dark sheet.
#[must_use]
pub const fn film_ground(background: SheetBackground) -> SheetBackground {
    match background {
        SheetBackground::Light | SheetBackground::TransparentLight => SheetBackground::TransparentLight,
        SheetBackground::Dark | SheetBackground::TransparentDark => SheetBackground::TransparentDark,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::{Animation, Movement, read_lineup};

    fn library() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    fn film(what: Movement) -> Sheet {
        let animation = Some(Animation { what, seconds: 1, frames_per_second: 5 });
        Sheet { width: Some(320), background: SheetBackground::TransparentLight, animation, ..Sheet::default() }
    }

    #[test]
    fn every_movement_becomes_all_of_its_files_the_same_every_time() {
        let lineup = library();
        let findings = Findings::of(&lineup);
        for what in Movement::ALL {
            let going = PublishProgress::default();
            let files = sequence(&findings, &lineup, &film(what), &going).unwrap().unwrap();
            assert_eq!(going.progress(), (5, 5));
            let names: Vec<&str> = files.iter().map(|f| f.0.as_str()).collect();
            let numbered = ["moving/0001.png", "moving/0002.png", "moving/0003.png", "moving/0004.png", "moving/0005.png"];
            assert_eq!(names[..2], ["moving.png", "moving.gif"]);
            assert_eq!(names[2..], numbered);
            assert!(files[1].1.starts_with(b"GIF89a"));
            assert_eq!(files, sequence(&findings, &lineup, &film(what), &PublishProgress::default()).unwrap().unwrap());
        }
    }

    #[test]
    fn the_ground_is_clear_and_words_are_not() {
        let lineup = library();
        let files =
            sequence(&Findings::of(&lineup), &lineup, &film(Movement::Change), &PublishProgress::default()).unwrap().unwrap();
        let mut reader = png::Decoder::new(std::io::Cursor::new(&files[2].1)).read_info().unwrap();
        let mut rgba = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut rgba).unwrap();
        let count = |is: fn(u8) -> bool| rgba.chunks(4).filter(|p| is(p[3])).count() as f64 / (rgba.len() / 4) as f64;
        assert!(count(|a| a == 0) > 0.4, "{}", count(|a| a == 0));
        assert!(count(|a| a > 220) > 0.05);
        assert!(count(|a| (60..200).contains(&a)) > 0.005, "half opacity is kept");
    }

    #[test]
    fn what_cannot_move_is_said_and_it_can_be_stopped() {
        let mut lineup = library();
        for frame in lineup.frames.iter_mut().skip(1) {
            frame.shown = false;
        }
        let why = sequence(&Findings::of(&lineup), &lineup, &film(Movement::Change), &PublishProgress::default())
            .unwrap()
            .unwrap_err()
            .to_string();
        assert!(why.contains("show the reference and one more frame"), "{why}");
        let going = PublishProgress::default();
        going.stop();
        let lineup = library();
        assert_eq!(sequence(&Findings::of(&lineup), &lineup, &film(Movement::Appear), &going), Err(Stopped));
    }
}
