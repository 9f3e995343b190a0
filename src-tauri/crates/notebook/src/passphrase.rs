//! The passphrase: what a person types to open a notebook. It never prints itself, and is wiped when it is let go.

use std::fmt;

use unicode_normalization::UnicodeNormalization;
use zeroize::Zeroizing;

use crate::NotebookError;

/// Characters of a new passphrase at least.
const SHORTEST: usize = 12;
/// Different characters among them at least: twelve blanks are no passphrase.
const DIFFERENT: usize = 5;

/// A passphrase that is not empty and holds no control characters.
pub struct Passphrase(Zeroizing<String>);

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
        // Composing makes a text up to three times as long; room for that leaves no copy behind.
        let mut composed = Zeroizing::new(String::with_capacity(typed.len() * 3));
        composed.extend(typed.nfc());
        Ok(Self(composed))
    }

    /// Refuses one that is too short to be chosen now; what was chosen before still opens.
    ///
    /// # Errors
    /// When it has fewer than twelve characters, or hardly any two different ones.
    pub fn check_chosen(&self) -> Result<(), NotebookError> {
        if self.0.chars().count() < SHORTEST {
            return Err(NotebookError::Passphrase(
                "The passphrase is too short; choose at least 12 characters, such as four or five words.",
            ));
        }
        let mut seen = Zeroizing::new([char::MIN; DIFFERENT]);
        let mut different = 0;
        for letter in self.0.chars() {
            if different < DIFFERENT && !seen[..different].contains(&letter) {
                seen[different] = letter;
                different += 1;
            }
        }
        if different < DIFFERENT {
            return Err(NotebookError::Passphrase(
                "The passphrase is the same few characters over and over; choose others, such as four or five words.",
            ));
        }
        Ok(())
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
