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
mod in_spite;
mod kind;
mod notices;
mod occasion;
pub mod pdf;
mod reading;
mod recovery;
mod render;
pub mod template;
pub mod text;
mod view;
mod words;

pub use document::Page;
pub use fonts::Fonts;
pub use in_spite::grouped_fingerprint;
pub use kind::{Kind, Language};
pub use occasion::{Addendum, DateFormat, Occasion, OwnTemplate, PaperSettings, Standing};
pub use recovery::{RecoverySheet, recovery_sheet};
pub use render::{Paper, PapersError, render};
pub use template::{BUILT_IN, BuiltIn};
