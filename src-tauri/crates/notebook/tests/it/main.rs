//! The notebook as its callers see it, on real files.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod backups;
mod bench;
mod doors;
mod entries;
mod exchange;
mod exchange_files;
mod exchange_random;
mod finding;
mod history;
mod kept_papers;
mod older;
mod people;
mod refusing;
mod rotation;
mod older_history;
mod projections;
mod secrecy;
mod signing;
mod tampering;
mod templates;
