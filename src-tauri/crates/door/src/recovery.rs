//! The code on the printed recovery sheet: 28 random signs and four that notice a slip, in eight groups of four.

use std::fmt;

use sha2::{Digest, Sha256};
use zeroize::{Zeroize, ZeroizeOnDrop};

use crate::DoorError;
use crate::key::random;

/// 32 signs that nobody takes for one another: no I, L, O and U.
const SIGNS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const RANDOM: usize = 28;
const CHECK: usize = 4;

/// A code of 140 random bits.
#[derive(Clone, PartialEq, Eq, Zeroize, ZeroizeOnDrop)]
pub struct RecoveryCode(String);

impl RecoveryCode {
    /// Makes a new one.
    ///
    /// # Errors
    /// When the operating system gives no randomness.
    pub fn random() -> Result<Self, DoorError> {
        let bytes: [u8; RANDOM] = random()?;
        let mut code: String = bytes.iter().map(|byte| sign(*byte)).collect();
        code.push_str(&check(&code));
        Ok(Self(code))
    }

    /// Reads a code as somebody types it: blanks, dashes and small letters do not matter, and O, I and L are read as the
    /// digits that they look like. None where it is no code: too short, too long, or with a slip in it.
    pub fn read(typed: &str) -> Option<Self> {
        let mut code = String::with_capacity(RANDOM + CHECK);
        for letter in typed.chars().filter(|letter| !letter.is_whitespace() && !matches!(letter, '-' | '–' | '—' | '.'))
        {
            code.push(match letter.to_ascii_uppercase() {
                'O' => '0',
                'I' | 'L' => '1',
                letter if letter.is_ascii() && SIGNS.contains(&(letter as u8)) => letter,
                _ => return None,
            });
        }
        let is_whole = code.len() == RANDOM + CHECK && check(&code[..RANDOM]) == code[RANDOM..];
        is_whole.then_some(Self(code))
    }

    /// Tells whether somebody meant to type a code, slips and all: it has a code's length and hardly anything else.
    pub fn is_meant(typed: &str) -> bool {
        let signs = typed.chars().filter(|letter| !letter.is_whitespace() && *letter != '-').count();
        let groups =
            typed.split(|letter: char| letter.is_whitespace() || letter == '-').filter(|group| !group.is_empty());
        signs.abs_diff(RANDOM + CHECK) <= 2
            && groups.count() >= 6
            && typed.chars().all(|letter| letter.is_ascii_alphanumeric() || letter.is_whitespace() || letter == '-')
    }

    /// Gives the code as the passphrase of its slot.
    pub fn as_passphrase(&self) -> &str {
        &self.0
    }

    /// Gives the groups as they are printed.
    pub fn groups(&self) -> Vec<String> {
        self.0.as_bytes().chunks(4).map(|group| String::from_utf8_lossy(group).into_owned()).collect()
    }
}

impl fmt::Debug for RecoveryCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("RecoveryCode(not shown)")
    }
}

fn check(code: &str) -> String {
    Sha256::digest(code.as_bytes())[..CHECK].iter().map(|byte| sign(*byte)).collect()
}

fn sign(byte: u8) -> char {
    char::from(SIGNS[usize::from(byte % 32)])
}
