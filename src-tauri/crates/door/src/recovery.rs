//! The code on the printed recovery sheet: 28 random signs and four that notice a slip, in eight groups of four.

use std::fmt;

use sha2::{Digest, Sha256};
use zeroize::{Zeroize, ZeroizeOnDrop, Zeroizing};

use crate::DoorError;
use crate::key::random;

/// 32 signs that nobody takes for one another: no I, L, O and U.
const SIGNS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const RANDOM: usize = 28;
const CHECK: usize = 4;

/// Makes a new code.
///
/// # Errors
/// When the operating system gives no randomness.
pub fn recovery_code() -> Result<RecoveryCode, DoorError> {
    let bytes: [u8; RANDOM] = random()?;
    let mut code: String = bytes.iter().map(|byte| sign(*byte)).collect();
    code.push_str(&check(&code));
    Ok(RecoveryCode(code))
}

/// A code of 140 random bits.
#[derive(Clone, PartialEq, Eq, Zeroize, ZeroizeOnDrop)]
pub struct RecoveryCode(String);

/// Why something typed is no recovery code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CodeSlip {
    /// A sign that no code has.
    #[error("a recovery code has no \"{0}\"; look at that sign on the sheet again")]
    Sign(char),
    /// Signs are missing, or there are too many.
    #[error("a recovery code has 32 signs in eight groups of four; this one has {0}")]
    Length(usize),
    /// The last group does not agree with the others.
    #[error("one of the signs of this recovery code is wrong; hold it against the sheet group by group")]
    Check,
}

impl RecoveryCode {
    /// Reads a code as somebody types it: blanks, dashes and small letters do not matter, and O, I and L are read as the
    /// digits that they look like.
    ///
    /// # Errors
    /// When it is no code; the sentence says which slip to look for.
    pub fn read(typed: &str) -> Result<Self, CodeSlip> {
        // Of a length that never grows, so that no part of it stays behind in memory.
        let mut code = Zeroizing::new(String::with_capacity(RANDOM + CHECK));
        let mut signs = 0_usize;
        for letter in typed.chars().filter(|letter| !letter.is_whitespace() && !matches!(letter, '-' | '–' | '—' | '.'))
        {
            let sign = match letter.to_ascii_uppercase() {
                'O' => '0',
                'I' | 'L' => '1',
                letter if SIGNS.iter().any(|sign| char::from(*sign) == letter) => letter,
                _ => return Err(CodeSlip::Sign(letter)),
            };
            signs += 1;
            if signs <= RANDOM + CHECK {
                code.push(sign);
            }
        }
        if signs != RANDOM + CHECK {
            return Err(CodeSlip::Length(signs));
        }
        if check(&code[..RANDOM]) != code[RANDOM..] {
            return Err(CodeSlip::Check);
        }
        Ok(Self(std::mem::take(&mut *code)))
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

/// A sum, by which any one wrong sign is noticed for certain, and three signs of a hash, by which hardly any two are not.
fn check(code: &str) -> String {
    let sum = code.bytes().fold(0_usize, |sum, sign| sum + SIGNS.iter().position(|known| *known == sign).unwrap_or(0));
    let hash = Sha256::digest(code.as_bytes());
    let signs = [u8::try_from(sum % 32).unwrap_or(0), hash[0], hash[1], hash[2]];
    signs.into_iter().map(sign).collect()
}

fn sign(byte: u8) -> char {
    char::from(SIGNS[usize::from(byte % 32)])
}
