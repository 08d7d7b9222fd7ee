//! Spandrel sets bicycle framesets side by side. Every derived figure has the ± that the maker's rounding and the
//! assumptions leave in it, and every difference says whether it is clear.
//!
//! The modules, each knowing only those below it:
//!
//! ```text
//! window → publish → drawing → words → lineup → { luggage, parts, weight → geometry; money, riding, loaded } → frameset → units
//! (disk beside publish)
//! ```
//!
//! # Features
//! Without features the crate is the core: files, arithmetic, findings, their sentences and their drawings as data. It
//! needs no toolkit, no renderer and no parser of commands.
//!
//! | feature | adds |
//! |---|---|
//! | `import` | [`frameset::import`]: geometry tables as text, CSV or XLSX |
//! | `publish` | [`publish`]: drawings and tables as SVG, PNG, PDF, HTML, CSV, Markdown and films |
//! | `cli` | the program `spandrel`, with `import` and `publish` |
//! | `window` | [`window`], with `import` and `publish` |
//!
//! # Examples
//! Read a frameset's file, adjust it, and take a figure with its ±:
//!
//! ```
//! use spandrel::frameset::{Figure, read_frameset};
//! use spandrel::geometry::adjust;
//! use spandrel::units::System;
//!
//! let file = std::fs::read("sample-frames/marrowby-drift.frame.ron")?;
//! let frameset = read_frameset(&file)?;
//! let adjusted = adjust(&frameset);
//! let size = frameset.size_index("M").ok_or("no size M")?;
//! let stack = adjusted.sizes[size].value(Figure::Stack);
//! let shown = stack.measured().as_length();
//! assert!((shown.value - stack.value).abs() < 1e-9 && shown.low() < shown.value);
//! println!("Stack of size M: {}", shown.text(System::Metric));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub mod disk;
pub mod drawing;
pub mod frameset;
pub mod geometry;
pub mod lineup;
pub mod loaded;
pub mod luggage;
pub mod money;
pub mod parts;
#[cfg(feature = "publish")]
pub mod publish;
pub mod riding;
pub mod units;
pub mod weight;
#[cfg(feature = "window")]
pub mod window;
pub mod words;
