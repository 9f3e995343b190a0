//! What a surgeon signed in spite of. Written when an entry is signed, never filled in as an answer.

use crate::{LocalTime, record};

record! {
    /// A finding that stood against the signature, and why the entry was signed all the same.
    pub struct Override {
        /// Name of the rule that found it.
        #[label("Rule")]
        rule: Option<String>,
        /// The finding as it was read when the entry was signed.
        #[label("Finding")]
        #[long(true)]
        finding: Option<String>,
        /// The answers that the finding is about, such as `components[2].lot`.
        #[label("Answers")]
        paths: Vec<String>,
        /// Why the entry was signed all the same.
        #[label("Reason")]
        #[long(true)]
        reason: Option<String>,
        #[label("By")]
        by: Option<String>,
        #[label("At")]
        at: Option<LocalTime>,
    }
}
