//! The main job, held against things outside the project.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

mod golden;
mod hostile;
mod note_lists;
mod pages;
mod values;
