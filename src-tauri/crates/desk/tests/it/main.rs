//! What a person can do, on real files.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod batch;
mod bench;
mod beside;
mod cases;
mod demonstration;
mod exchange;
mod history;
mod kept;
mod labels;
mod notebooks;
mod opening;
mod papers;
mod people;
mod reckonings;
mod rights;
mod scans;
mod settings;
mod signing;
mod templates;
