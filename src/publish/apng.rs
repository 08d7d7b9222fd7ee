//! Pictures in a row as one PNG file that moves, with all of its opacity: *PNG (Third Edition)*, W3C 2025, chunks `acTL`,
//! `fcTL` and `fdAT`. Of a picture only the rectangle that changed is kept; one that did not change shows its forerunner
//! longer. Programs that know no moving PNG show the first picture.

use super::Pixels;
use super::film_error::FilmError;

/// A moving PNG being written.
#[derive(Debug)]
pub struct MovingPng {
    size: (u32, u32),
    rate: u16,
    /// Changed rectangle, its pixels, how many pictures it shows.
    frames: Vec<(Part, u16)>,
    last: Option<Pixels>,
}

/// A rectangle of a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Part {
    x: u32,
    y: u32,
    pixels: Pixels,
}

impl MovingPng {
    /// Begins one with so many pictures a second.
    #[must_use]
    pub const fn new(width: u32, height: u32, rate: u16) -> Self {
        Self { size: (width, height), rate, frames: Vec::new(), last: None }
    }

    /// Adds a picture; one of another size is left out.
    pub fn add(&mut self, picture: Pixels) {
        if (picture.width, picture.height) != self.size {
            return;
        }
        match self.last.as_ref().map(|last| changed(last, &picture)) {
            None => self.frames.push((Part { x: 0, y: 0, pixels: picture.clone() }, 1)),
            Some(Some(part)) => self.frames.push((part, 1)),
            Some(None) => {
                if let Some((_, shows)) = self.frames.last_mut() {
                    *shows = shows.saturating_add(1);
                }
            }
        }
        self.last = Some(picture);
    }

    /// The file, which begins again when it ends.
    ///
    /// # Errors
    /// A sentence when there is no picture or it cannot be packed.
    pub fn finish(self) -> Result<Vec<u8>, FilmError> {
        let packing = |e: png::EncodingError| FilmError::Png(e.to_string());
        let count = u32::try_from(self.frames.len()).unwrap_or(u32::MAX);
        let mut file = Vec::new();
        let mut encoder = png::Encoder::new(&mut file, self.size.0, self.size.1);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_animated(count, 0).map_err(packing)?;
        encoder.set_blend_op(png::BlendOp::Source).map_err(packing)?;
        let mut writer = encoder.write_header().map_err(packing)?;
        for (part, shows) in &self.frames {
            writer.reset_frame_position().map_err(packing)?;
            writer.set_frame_dimension(part.pixels.width, part.pixels.height).map_err(packing)?;
            writer.set_frame_position(part.x, part.y).map_err(packing)?;
            writer.set_frame_delay(*shows, self.rate).map_err(packing)?;
            writer.write_image_data(&part.pixels.rgba).map_err(packing)?;
        }
        writer.finish().map_err(packing)?;
        Ok(file)
    }
}

/// The smallest rectangle of `now` outside which nothing differs from `before`; `None` where nothing does.
fn changed(before: &Pixels, now: &Pixels) -> Option<Part> {
    let row_bytes = now.width as usize * 4;
    let rows = || before.rgba.chunks(row_bytes).zip(now.rgba.chunks(row_bytes));
    let top = rows().position(|(a, b)| a != b)?;
    let bottom = rows().rposition(|(a, b)| a != b)?;
    let (mut left, mut right) = (now.width as usize, 0);
    for (a, b) in rows().skip(top).take(bottom - top + 1) {
        let pixels = || a.chunks(4).zip(b.chunks(4));
        if let Some(first) = pixels().position(|(a, b)| a != b) {
            left = left.min(first);
            right = right.max(pixels().rposition(|(a, b)| a != b).unwrap_or(first));
        }
    }
    let mut rgba = Vec::with_capacity((bottom - top + 1) * (right - left + 1) * 4);
    for (_, row) in rows().skip(top).take(bottom - top + 1) {
        rgba.extend_from_slice(&row[left * 4..(right + 1) * 4]);
    }
    let side = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let pixels = Pixels { width: side(right - left + 1), height: side(bottom - top + 1), rgba };
    Some(Part { x: side(left), y: side(top), pixels })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(marks: &[(u32, u32)]) -> Pixels {
        let mut rgba = vec![0; 8 * 5 * 4];
        for (x, y) in marks {
            let at = ((y * 8 + x) * 4) as usize;
            rgba[at..at + 4].copy_from_slice(&[200, 10, 20, 128]);
        }
        Pixels { width: 8, height: 5, rgba }
    }

    #[test]
    fn only_what_changed_is_kept() {
        let part = changed(&picture(&[(1, 1)]), &picture(&[(3, 2), (5, 1)])).unwrap();
        assert_eq!((part.x, part.y, part.pixels.width, part.pixels.height), (1, 1, 5, 2));
        assert_eq!(changed(&picture(&[(1, 1)]), &picture(&[(1, 1)])), None);
    }

    #[test]
    fn every_picture_comes_out_again() {
        let pictures = [picture(&[]), picture(&[(1, 1)]), picture(&[(1, 1)]), picture(&[(7, 4)]), picture(&[])];
        let mut moving = MovingPng::new(8, 5, 25);
        for picture in &pictures {
            moving.add(picture.clone());
        }
        let file = moving.finish().unwrap();
        // Put together again by hand from what the decoder reads.
        let mut reader = png::Decoder::new(std::io::Cursor::new(&file)).read_info().unwrap();
        assert_eq!(reader.info().animation_control().unwrap().num_frames, 4);
        let mut canvas = vec![0; 8 * 5 * 4];
        let mut found = Vec::new();
        for _ in 0..4 {
            let mut buffer = vec![0; reader.output_buffer_size().unwrap()];
            let frame = reader.next_frame(&mut buffer).unwrap();
            let control = *reader.info().frame_control().unwrap();
            for y in 0..frame.height {
                let to = (((control.y_offset + y) * 8 + control.x_offset) * 4) as usize;
                let from = (y * frame.width * 4) as usize;
                let bytes = (frame.width * 4) as usize;
                canvas[to..to + bytes].copy_from_slice(&buffer[from..from + bytes]);
            }
            assert_eq!(control.delay_den, 25);
            found.extend(std::iter::repeat_n(canvas.clone(), control.delay_num as usize));
        }
        assert_eq!(found, pictures.map(|p| p.rgba));
        assert!(MovingPng::new(8, 5, 25).finish().is_err(), "no picture is no file");
    }
}
