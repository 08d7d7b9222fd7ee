//! The clipboard, for pictures and text. It is opened at first use and kept, since on some desktops what was copied
//! lives only as long as its owner.

use super::labels::notices as labels;
use crate::publish::Pixels;

/// The clipboard, once it is needed.
#[derive(Default)]
pub(crate) struct Clipboard {
    inner: Option<arboard::Clipboard>,
}

/// Why a picture could not be copied.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub(crate) enum ClipboardError {
    /// The desktop has no clipboard.
    #[error("{}", labels::NO_CLIPBOARD)]
    None,
    /// It does not take the picture.
    #[error("{}", labels::PICTURE_IS_NOT_COPIED)]
    Refused,
}

impl Clipboard {
    fn open(&mut self) -> Result<&mut arboard::Clipboard, ClipboardError> {
        if self.inner.is_none() {
            self.inner = Some(arboard::Clipboard::new().map_err(|_refused| ClipboardError::None)?);
        }
        self.inner.as_mut().ok_or(ClipboardError::None)
    }

    /// The web page on it, where what was copied is one.
    pub(crate) fn page(&mut self) -> Option<String> {
        let page = self.open().ok()?.get().html().ok()?;
        page.to_lowercase().contains("<t").then_some(page)
    }

    /// The text on it.
    pub(crate) fn text(&mut self) -> Option<String> {
        self.open().ok()?.get_text().ok()
    }

    /// Puts a picture on it.
    ///
    /// # Errors
    /// No clipboard, or it refuses.
    pub(crate) fn copy_picture(&mut self, pixels: Pixels) -> Result<(), ClipboardError> {
        let image = arboard::ImageData {
            width: pixels.width as usize,
            height: pixels.height as usize,
            bytes: std::borrow::Cow::Owned(pixels.rgba),
        };
        self.open()?.set_image(image).map_err(|_refused| ClipboardError::Refused)
    }
}
