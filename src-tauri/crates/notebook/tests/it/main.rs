//! The notebook as its callers see it, on real files.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod backups;
mod bench;
mod doors;
mod entries;
mod exchange;
mod exchange_addenda;
mod exchange_faults;
mod exchange_files;
mod exchange_older;
mod exchange_random;
mod finding;
mod history;
mod hostile;
mod kept_papers;
mod older;
mod older_history;
mod people;
mod projections;
mod refusing;
mod rotation;
mod secrecy;
mod signing;
mod tampering;
mod templates;
