//! The passphrase: what a person types to open a notebook. It never prints itself.

use std::fmt;

use unicode_normalization::UnicodeNormalization;

use crate::NotebookError;

/// A passphrase that is not empty and holds no control characters.
pub struct Passphrase(String);

impl Passphrase {
    /// Takes what a person typed.
    ///
    /// Accents are composed (NFC), because keyboards differ in how they send them and the same words
    /// must open the same notebook on another computer.
    ///
    /// # Errors
    /// When nothing was typed, or a control character.
    pub fn new(typed: &str) -> Result<Self, NotebookError> {
        if typed.is_empty() {
            return Err(NotebookError::Passphrase("The passphrase is empty; type one."));
        }
        if typed.chars().any(char::is_control) {
            return Err(NotebookError::Passphrase(
                "The passphrase holds a control character, such as a tab or a line break; leave it out.",
            ));
        }
        Ok(Self(typed.nfc().collect()))
    }

    pub(crate) fn reveal(&self) -> &str {
        &self.0
    }
}

impl fmt::Debug for Passphrase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Passphrase(not shown)")
    }
}
