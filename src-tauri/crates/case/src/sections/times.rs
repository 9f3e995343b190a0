//! The clock of the operation.

use crate::{LocalTime, record};

record! {
    /// The times of the operation; a case may cross midnight.
    pub struct Times {
        #[label("Into theatre")]
        into_theatre: Option<LocalTime>,
        #[label("Anaesthesia started")]
        anaesthesia_start: Option<LocalTime>,
        #[label("Incision")]
        incision: Option<LocalTime>,
        #[label("Wound closed")]
        closed: Option<LocalTime>,
        #[label("Out of theatre")]
        out_of_theatre: Option<LocalTime>,
    }
}
