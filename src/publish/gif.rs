//! Pictures in a row as a GIF (*Graphics Interchange Format*, version 89a, 1990): 255 colours that are chosen once for all
//! pictures, so that nothing flickers, and one that lets the picture before show through where nothing changed. A GIF counts hundredths of a second, and browsers slow down what is
//! faster than fifty a second; so not every picture is kept, and delays are rounded so that their sum is right.

use std::borrow::Cow;
use std::collections::HashMap;

use color_quant::NeuQuant;

use super::Pixels;
use super::film_error::FilmError;

/// The most pictures a second in a GIF.
const MOST_A_SECOND: u32 = 25;
/// How thoroughly colours are sampled: 1 all pixels, 30 every thirtieth (the library's scale).
const SAMPLING: i32 = 3;

/// The colour that lets the picture before show through.
const THROUGH: u8 = 255;

/// A GIF being written.
pub struct MovingGif {
    encoder: gif::Encoder<Vec<u8>>,
    colours: NeuQuant,
    known: HashMap<[u8; 3], u8>,
    rate: u32,
    /// Pictures seen, the picture that is waiting for its length, and the one before it.
    seen: u32,
    waiting: Option<(u32, Vec<u8>)>,
    before: Option<Vec<u8>>,
    size: (u16, u16),
}

impl MovingGif {
    /// Begins one with so many pictures a second. `samples` are pictures whose colours it is to have.
    ///
    /// # Errors
    /// A sentence when it is too large for a GIF.
    pub fn new(samples: &[Pixels], rate: u32) -> Result<Self, FilmError> {
        let first = samples.first().ok_or(FilmError::NoPicture)?;
        let side = |n: u32| u16::try_from(n).ok().ok_or(FilmError::TooLarge);
        let size = (side(first.width)?, side(first.height)?);
        let all: Vec<u8> = samples.iter().flat_map(|p| p.rgba.iter().copied()).collect();
        let colours = NeuQuant::new(SAMPLING, usize::from(THROUGH), &all);
        let map = [&colours.color_map_rgb()[..], &[0, 0, 0]].concat();
        let mut encoder = gif::Encoder::new(Vec::new(), size.0, size.1, &map).map_err(|e| unpacked(&e))?;
        encoder.set_repeat(gif::Repeat::Infinite).map_err(|e| unpacked(&e))?;
        Ok(Self { encoder, colours, known: HashMap::new(), rate: rate.max(1), seen: 0, waiting: None, before: None, size })
    }

    /// Adds an opaque picture; one of another size is left out.
    ///
    /// # Errors
    /// A sentence when it cannot be packed.
    pub fn add(&mut self, picture: &Pixels) -> Result<(), FilmError> {
        if (u32::from(self.size.0), u32::from(self.size.1)) != (picture.width, picture.height) {
            return Ok(());
        }
        let place = self.seen;
        self.seen += 1;
        if !place.is_multiple_of(self.rate.div_ceil(MOST_A_SECOND)) {
            return Ok(());
        }
        let (known, colours) = (&mut self.known, &self.colours);
        let index = |p: &[u8]| {
            let colour = [p[0], p[1], p[2]];
            *known
                .entry(colour)
                .or_insert_with(|| u8::try_from(colours.index_of(&[colour[0], colour[1], colour[2], 255])).unwrap_or_default())
        };
        let pixels: Vec<u8> = picture.rgba.chunks_exact(4).map(index).collect();
        if self.waiting.as_ref().is_some_and(|(_, before)| *before == pixels) {
            return Ok(());
        }
        self.write_waiting(place)?;
        self.waiting = Some((place, pixels));
        Ok(())
    }

    /// The time at which a picture begins, in hundredths of a second.
    const fn hundredths(&self, picture: u32) -> u32 {
        (picture * 100 + self.rate / 2) / self.rate
    }

    /// Writes the picture that waits, which ends where picture `until` begins.
    fn write_waiting(&mut self, until: u32) -> Result<(), FilmError> {
        let Some((from, pixels)) = self.waiting.take() else { return Ok(()) };
        let delay = self.hundredths(until) - self.hundredths(from);
        let (at, size, changed) = match &self.before {
            None => ((0, 0), self.size, pixels.clone()),
            Some(before) => changes(before, &pixels, self.size),
        };
        self.before = Some(pixels);
        let frame = gif::Frame {
            left: at.0,
            top: at.1,
            width: size.0,
            height: size.1,
            buffer: Cow::Owned(changed),
            transparent: Some(THROUGH),
            dispose: gif::DisposalMethod::Keep,
            delay: u16::try_from(delay).unwrap_or(u16::MAX),
            ..gif::Frame::default()
        };
        self.encoder.write_frame(&frame).map_err(|e| unpacked(&e))
    }

    /// The file, which begins again when it ends.
    ///
    /// # Errors
    /// A sentence when it cannot be packed.
    pub fn finish(mut self) -> Result<Vec<u8>, FilmError> {
        self.write_waiting(self.seen)?;
        self.encoder.into_inner().map_err(|e| FilmError::Gif(e.to_string()))
    }
}

/// Place, size and colours of the smallest rectangle that holds all that changed, what did not change in it see-through.
fn changes(before: &[u8], now: &[u8], (width, height): (u16, u16)) -> ((u16, u16), (u16, u16), Vec<u8>) {
    let row = |pixels: &'_ [u8], y: u16| -> Vec<u8> {
        let from = usize::from(y) * usize::from(width);
        pixels.iter().skip(from).take(usize::from(width)).copied().collect()
    };
    let is_changed = |y: &u16| row(before, *y) != row(now, *y);
    let Some(top) = (0..height).find(is_changed) else { return ((0, 0), (1, 1), vec![THROUGH]) };
    let bottom = (top..height).rfind(is_changed).unwrap_or(top);
    let column = |x: &u16| {
        (top..=bottom).any(|y| {
            let at = usize::from(y) * usize::from(width) + usize::from(*x);
            before.get(at) != now.get(at)
        })
    };
    let left = (0..width).find(column).unwrap_or(0);
    let right = (left..width).rfind(column).unwrap_or(left);
    let mut kept = Vec::new();
    for y in top..=bottom {
        let pairs = row(before, y).into_iter().zip(row(now, y)).skip(usize::from(left)).take(usize::from(right - left) + 1);
        kept.extend(pairs.map(|(old, new)| if old == new { THROUGH } else { new }));
    }
    ((left, top), (right - left + 1, bottom - top + 1), kept)
}

fn unpacked(error: &gif::EncodingError) -> FilmError {
    FilmError::Gif(error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(colour: [u8; 3]) -> Pixels {
        let rgba = std::iter::repeat_n([colour[0], colour[1], colour[2], 255], 12 * 7).flatten().collect();
        Pixels { width: 12, height: 7, rgba }
    }

    #[test]
    fn pictures_last_as_long_together_as_asked() {
        for (rate, seconds) in [(25, 2), (30, 2), (60, 1), (24, 3)] {
            let pictures: Vec<Pixels> =
                (0..rate * seconds).map(|i| plain(if i % 2 == 0 { [250, 248, 243] } else { [0, 114, 178] })).collect();
            let mut moving = MovingGif::new(&pictures[..2], rate).unwrap();
            for picture in &pictures {
                moving.add(picture).unwrap();
            }
            let file = moving.finish().unwrap();
            let mut options = gif::DecodeOptions::new();
            options.set_color_output(gif::ColorOutput::RGBA);
            let mut decoder = options.read_info(file.as_slice()).unwrap();
            let mut hundredths = 0;
            while let Some(frame) = decoder.read_next_frame().unwrap() {
                hundredths += u32::from(frame.delay);
                assert!(frame.delay >= 2);
            }
            assert_eq!(hundredths, seconds * 100, "{rate} a second");
        }
    }

    #[test]
    fn only_what_changed_is_kept() {
        let before = [1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3];
        let now = [1, 1, 1, 1, 2, 9, 2, 9, 3, 3, 9, 3];
        let (at, size, kept) = changes(&before, &now, (4, 3));
        assert_eq!((at, size), ((1, 1), (3, 2)));
        assert_eq!(kept, [9, THROUGH, 9, THROUGH, 9, THROUGH]);
        assert_eq!(changes(&now, &now, (4, 3)), ((0, 0), (1, 1), vec![THROUGH]));
    }

    #[test]
    fn colours_are_kept_and_a_picture_that_stays_is_one() {
        let (paper, blue) = (plain([250, 248, 243]), plain([0, 114, 178]));
        let mut moving = MovingGif::new(&[paper.clone(), blue.clone()], 25).unwrap();
        for picture in [&paper, &paper, &paper, &blue] {
            moving.add(picture).unwrap();
        }
        let file = moving.finish().unwrap();
        let mut options = gif::DecodeOptions::new();
        options.set_color_output(gif::ColorOutput::RGBA);
        let mut decoder = options.read_info(file.as_slice()).unwrap();
        let mut found = Vec::new();
        while let Some(frame) = decoder.read_next_frame().unwrap() {
            found.push((frame.delay, frame.buffer[..3].to_vec()));
        }
        assert_eq!(found.iter().map(|f| f.0).collect::<Vec<_>>(), [12, 4]);
        for ((_, found), expected) in found.iter().zip([[250, 248, 243], [0, 114, 178]]) {
            assert!(found.iter().zip(expected).all(|(a, b)| a.abs_diff(b) <= 4), "{found:?}");
        }
    }
}
