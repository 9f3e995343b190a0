//! Tests of the papers crate: one binary, one module for each kind of test.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a failing test says why by panicking")]

mod blocks;
mod file;
mod layout;
mod read;
mod sample;
mod writers;
