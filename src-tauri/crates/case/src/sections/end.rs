//! The end of follow-up of this knee.

use crate::{CaseId, Date, record};

record! {
    /// A later revision of this knee.
    pub struct Revised {
        #[label("On")]
        on: Option<Date>,
        #[label("Reason")]
        reason: Option<String>,
        /// The entry of the revision, where it is in this notebook.
        #[label("Case identifier")]
        case: Option<CaseId>,
    }
}

record! {
    /// The end of follow-up.
    pub struct End {
        #[label("Revised")]
        revised: Revised,
        #[label("Died on")]
        died_on: Option<Date>,
        #[label("Lost to follow-up on")]
        lost_to_follow_up_on: Option<Date>,
    }
}
