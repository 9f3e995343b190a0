//! What a person can do, on real files.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod bench;
mod beside;
mod cases;
mod demonstration;
mod labels;
mod notebooks;
mod papers;
mod reckonings;
mod scans;
mod settings;
