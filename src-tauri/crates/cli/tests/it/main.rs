//! The program as somebody runs it: exit codes, sentences, and what is on the disk afterwards.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod bench;
mod files;
mod keeping;
mod notebooks;
mod output;
mod reckonings;
mod refusals;
