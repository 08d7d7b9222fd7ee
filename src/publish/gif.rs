//! Pictures in a row as a GIF (*Graphics Interchange Format*, version 89a, 1990): 256 colours that are chosen
//! once for all pictures, so that nothing flickers. A GIF counts hundredths of a second, and browsers slow down what is
//! faster than fifty a second; so not every picture is kept, and delays are rounded so that their sum is right.

use std::borrow::Cow;
use std::collections::HashMap;

use color_quant::NeuQuant;

use super::Pixels;

/// The most pictures a second in a GIF.
const MOST_A_SECOND: u32 = 25;
/// How thoroughly colours are sampled: 1 all pixels, 30 every thirtieth (the library's scale).
const SAMPLING: i32 = 3;

/// A GIF being written.
pub struct MovingGif {
    encoder: gif::Encoder<Vec<u8>>,
    colours: NeuQuant,
    known: HashMap<[u8; 3], u8>,
    rate: u32,
    /// Pictures seen, and the picture that is waiting for its length.
    seen: u32,
    waiting: Option<(u32, Vec<u8>)>,
    size: (u16, u16),
}

impl MovingGif {
    /// Begins one with so many pictures a second. `samples` are pictures whose colours it is to have.
    ///
    /// # Errors
    /// A sentence when it is too large for a GIF.
    pub fn new(samples: &[Pixels], rate: u32) -> Result<Self, String> {
        let first = samples.first().ok_or("a GIF needs a picture")?;
        let side = |n: u32| u16::try_from(n).ok().ok_or("a GIF has at most 65535 pixels a side");
        let size = (side(first.width)?, side(first.height)?);
        let all: Vec<u8> = samples.iter().flat_map(|p| p.rgba.iter().copied()).collect();
        let colours = NeuQuant::new(SAMPLING, 256, &all);
        let mut encoder = gif::Encoder::new(Vec::new(), size.0, size.1, &colours.color_map_rgb()).map_err(|e| unpacked(&e))?;
        encoder.set_repeat(gif::Repeat::Infinite).map_err(|e| unpacked(&e))?;
        Ok(Self { encoder, colours, known: HashMap::new(), rate: rate.max(1), seen: 0, waiting: None, size })
    }

    /// Adds an opaque picture; one of another size is left out.
    ///
    /// # Errors
    /// A sentence when it cannot be packed.
    pub fn add(&mut self, picture: &Pixels) -> Result<(), String> {
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
    fn write_waiting(&mut self, until: u32) -> Result<(), String> {
        let Some((from, pixels)) = self.waiting.take() else { return Ok(()) };
        let delay = self.hundredths(until) - self.hundredths(from);
        let frame = gif::Frame {
            width: self.size.0,
            height: self.size.1,
            buffer: Cow::Owned(pixels),
            delay: u16::try_from(delay).unwrap_or(u16::MAX),
            ..gif::Frame::default()
        };
        self.encoder.write_frame(&frame).map_err(|e| unpacked(&e))
    }

    /// The file, which begins again when it ends.
    ///
    /// # Errors
    /// A sentence when it cannot be packed.
    pub fn finish(mut self) -> Result<Vec<u8>, String> {
        self.write_waiting(self.seen)?;
        self.encoder.into_inner().map_err(|e| format!("the moving picture cannot be packed as GIF: {e}"))
    }
}

fn unpacked(error: &gif::EncodingError) -> String {
    format!("the moving picture cannot be packed as GIF: {error}")
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
