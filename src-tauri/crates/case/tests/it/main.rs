//! The tests of the entry, in one binary.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

mod changes;
mod dictionary;
mod random;
mod reader;
mod schema;
mod signing;
