//! Component labels: reading what a scanner sent, and joining the codes of one label.

use evengap_label::{Label, Options};

use crate::{Desk, DeskError, ErrorCode};

impl Desk {
    /// Reads one scan; never fails, because a label that cannot be read comes back with its raw text and a warning.
    ///
    /// `current_year` decides the century of two-digit years. `separators` are what this scanner sends between two
    /// elements besides ASCII 29.
    pub fn label_read(&self, scan: &str, separators: &[String], current_year: i32) -> Label {
        evengap_label::read(scan, &Options { separators: separators.to_vec(), ..Options::new(current_year) })
    }

    /// Joins two scans of one label.
    ///
    /// # Errors
    /// When they name two devices, lots, serials or dates, or one of them is not read (`refused`).
    pub fn label_merge(&self, first: &Label, second: &Label) -> Result<Label, DeskError> {
        evengap_label::merge(first, second).map_err(|refusal| DeskError::new(ErrorCode::Refused, refusal.to_string()))
    }
}
