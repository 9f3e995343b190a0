//! The entry: what one operated knee's record holds.
//!
//! Types, closed codes, the field dictionary, the reader, the differences of two versions and the JSON
//! Schema. No I/O, no clock, no arithmetic and no opinion: whether an entry is complete or consistent
//! is asked elsewhere.

mod addendum;
mod case;
mod changes;
pub mod declare;
pub mod dictionary;
mod moment;
mod reader;
mod schema;
pub mod sections;

pub use addendum::{AddendumReading, merge_patch, read_addendum};
pub use case::{Case, FORMAT, SectionName};
pub use changes::{Change, changes, changes_of_values};
pub use moment::{CaseId, ComponentIndex, Date, LocalTime, NotReadable};
pub use reader::{Problem, Reading, Refusal, read, read_value};
pub use schema::schema;
