//! The tests of the review, in one binary.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at the first surprise")]

mod outgoing;
mod overriding;
mod rules;
