//! Why an animation could not be made.

use super::png::PngError;
use crate::lineup::NoAnimation;
use crate::words::no_animation_text;

/// Why an animation could not be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FilmError {
    /// A GIF of no pictures.
    #[error("a GIF needs a picture")]
    NoPicture,
    /// A picture that is too large for a GIF.
    #[error("a GIF has at most 65535 pixels a side")]
    TooLarge,
    /// Pictures that cannot be packed as GIF; why.
    #[error("the moving picture cannot be packed as GIF: {0}")]
    Gif(String),
    /// Pictures that cannot be packed as PNG; why.
    #[error("the moving picture cannot be packed as PNG: {0}")]
    Png(String),
    /// A picture that cannot be painted.
    #[error("{0}")]
    Picture(#[from] PngError),
    /// A sheet on which nothing moves; why.
    #[error("{}", no_animation_text(*.0))]
    NothingMoves(NoAnimation),
}
