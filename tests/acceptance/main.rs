//! The main job, held against things outside the project.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

// The checks of pages and the readers behind them are those of the papers crate.
#[path = "../../src-tauri/crates/papers/tests/it/boxes.rs"]
mod boxes;
#[path = "../../src-tauri/crates/papers/tests/it/read.rs"]
#[allow(dead_code, reason = "the papers crate reads more than words")]
mod read;

mod golden;
mod golden_pages;
mod hostile;
mod in_spite;
mod kinds;
mod languages;
mod marks;
mod note_lists;
mod pages;
mod reading;
mod values;
