//! Usual answers that were filled in: nobody signs what nobody has looked at.

use super::Look;
use crate::finding::Found;

/// A section into which usual answers were filled, and which nobody has confirmed.
pub fn unconfirmed(look: Look<'_>, found: &mut Found) {
    for section in look.case.unconfirmed() {
        let message = format!("Usual answers were filled into “{}”; nobody has confirmed them.", section.words());
        found.caution(&[section.code()], message).blocking();
    }
}
