//! The mod-43 check character of HIBC.

const ALPHABET: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

/// Gives the value of a character, 0 to 42.
pub(super) fn value(character: char) -> Option<u32> {
    Some(match character {
        '0'..='9' => u32::from(character) - u32::from('0'),
        'A'..='Z' => u32::from(character) - u32::from('A') + 10,
        '-' => 36,
        '.' => 37,
        ' ' => 38,
        '$' => 39,
        '/' => 40,
        '+' => 41,
        '%' => 42,
        _ => return None,
    })
}

/// Computes the check character of a code without it; the leading `+` counts. `None` for foreign characters.
pub(crate) fn check_character(text: &str) -> Option<char> {
    let mut sum = 0_u32;
    for character in text.chars() {
        sum = (sum + value(character)?) % 43;
    }
    ALPHABET.chars().nth(usize::try_from(sum).ok()?)
}
