//! The arithmetic of GS1: check digit, check pair, the 82 characters.

/// The invariant characters in the order that gives each its value in the check pair.
const INVARIANT: &str = "!\"%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz";
const PAIR: &[u8; 32] = b"23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
/// Weights of the check pair from the right; the longest key has 25 characters.
const PRIMES: [u32; 23] = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83];

/// Tells whether a character belongs to the 82 invariant ones.
pub(super) fn is_invariant(character: char) -> bool {
    matches!(character,
        '!' | '"' | '%'..='?' | 'A'..='Z' | '_' | 'a'..='z')
}

/// Computes the mod-10 check digit of digits that stand before it (weights 3, 1 from the right).
///
/// GS1 General Specifications, "Standard check digit calculations". `None` unless all are digits.
pub(super) fn check_digit(digits: &str) -> Option<u8> {
    let mut sum = 0;
    for (place, byte) in digits.bytes().rev().enumerate() {
        if !byte.is_ascii_digit() {
            return None;
        }
        sum += u32::from(byte - b'0') * if place % 2 == 0 { 3 } else { 1 };
    }
    u8::try_from((10 - sum % 10) % 10).ok()
}

/// Computes the two check characters of an alphanumeric key (prime weights from the right, mod 1021).
///
/// GS1 General Specifications, "Check character calculation (for alphanumeric keys)".
pub(super) fn check_pair(text: &str) -> Option<[char; 2]> {
    if text.len() > PRIMES.len() {
        return None;
    }
    let mut sum = 0;
    for (character, prime) in text.chars().rev().zip(PRIMES) {
        sum += u32::try_from(INVARIANT.find(character)?).ok()? * prime;
    }
    let sum = usize::try_from(sum % 1021).ok()?;
    Some([char::from(*PAIR.get(sum >> 5)?), char::from(*PAIR.get(sum & 31)?)])
}
