//! The notebook as its callers see it, on real files.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod bench;
mod doors;
mod entries;
mod finding;
mod kept_papers;
mod older;
mod projections;
mod secrecy;
mod signing;
mod templates;
