//! Papers: from an entry to Markdown, blocks, text, HTML and PDF.
//!
//! The way is one direction: entry and review → view → Tera template → Markdown → blocks → writers.
//! It never sees a notebook, reads no clock and opens no file.

pub mod blocks;
mod columns;
pub mod document;
pub mod drawing;
pub mod drawings;
pub mod fonts;
pub mod html;
pub mod pdf;
mod render;
mod template;
pub mod text;
mod view;

pub use document::Page;
pub use fonts::Fonts;
pub use render::{DateFormat, Kind, Occasion, Paper, PaperSettings, PapersError, render};
pub use template::{BUILT_IN, BuiltIn};
