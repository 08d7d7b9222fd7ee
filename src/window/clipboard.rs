//! The clipboard, for pictures and text. It is opened at first use and kept, since on some desktops what was copied
//! lives only as long as its owner.

use crate::publish::Pixels;

/// The clipboard, once it is needed.
#[derive(Default)]
pub(crate) struct Clipboard {
    inner: Option<arboard::Clipboard>,
}

const NO_CLIPBOARD: &str = "No clipboard is available. Save a file instead.";

impl Clipboard {
    fn open(&mut self) -> Result<&mut arboard::Clipboard, String> {
        if self.inner.is_none() {
            self.inner = Some(arboard::Clipboard::new().map_err(|_refused| NO_CLIPBOARD.to_owned())?);
        }
        self.inner.as_mut().ok_or_else(|| NO_CLIPBOARD.to_owned())
    }

    /// Puts a picture on it.
    ///
    /// # Errors
    /// A sentence: no clipboard, or it refuses.
    pub(crate) fn copy_picture(&mut self, pixels: Pixels) -> Result<(), String> {
        let image = arboard::ImageData {
            width: pixels.width as usize,
            height: pixels.height as usize,
            bytes: std::borrow::Cow::Owned(pixels.rgba),
        };
        self.open()?.set_image(image).map_err(|_refused| "The picture could not be copied. Save it as a file instead.".to_owned())
    }
}
