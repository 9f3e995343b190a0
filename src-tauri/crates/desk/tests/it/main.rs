//! What a person can do, on real files.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod batch;
mod bench;
mod beside;
mod cases;
mod demonstration;
mod kept;
mod labels;
mod notebooks;
mod papers;
mod reckonings;
mod scans;
mod settings;
mod signing;
mod templates;
