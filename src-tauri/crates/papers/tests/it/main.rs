//! Tests of the papers crate: one binary, one module for each kind of test.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a failing test says why by panicking")]

mod archive;
mod blocks;
mod boxes;
mod file;
mod hostile;
mod layout;
mod read;
mod recovery;
mod sample;
mod several;
mod structure;
mod template;
mod tree;
mod wording;
mod writers;
