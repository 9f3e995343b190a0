//! Component labels: from what a scanner sent to a device identifier, lot, serial and dates, and back.
//!
//! Reads GS1 element strings and HIBC supplier labels, recognises ISBT 128 without decoding it, and
//! says in sentences what looks wrong. It never fails, never drops a character and never alters a
//! lot or a serial; it knows no entry and looks nothing up. Pictures need the feature `picture`.

mod compose;
mod dates;
mod gs1;
mod hibc;
mod label;
mod merge;
#[cfg(feature = "picture")]
mod picture;
mod read;

pub use compose::{Parts, compose};
pub use gs1::printed;
pub use label::{Element, Label, LabelDate, Options, Scheme, Warning, WarningCode};
pub use merge::{MergeRefusal, merge};
#[cfg(feature = "picture")]
pub use picture::{LARGEST_FILE_BYTES, LARGEST_SIDE_PIXELS, PictureError, Scan, Symbology, read_picture};
pub use read::{LONGEST_SCAN_BYTES, read};
