//! HIBC supplier labels: primary, secondary and combined codes.
//!
//! After ANSI/HIBC 2.6. Everything is split by position from both ends, because the link and the
//! check character may be any of the 43 characters, `+`, `/`, `%` and space included.

mod check;
mod secondary;

pub(crate) use check::check_character;

use crate::label::shown;
use crate::{Label, Options, Scheme, WarningCode};

/// Labeler (4), product number (1 to 18) and packaging level (1).
const PRIMARY_LEAST: usize = 6;
const PRIMARY_MOST: usize = 23;

/// Tells whether a text begins like a HIBC supplier label.
pub(crate) fn looks_like(text: &str) -> bool {
    let mut characters = text.chars();
    characters.next() == Some('+')
        && characters.next().is_some_and(|second| second.is_ascii_alphanumeric() || second == '$')
        && characters.next().is_some()
}

/// Cuts two codes that a scanner sent one behind the other.
///
/// Only a first code with its right check character is cut off: no `+` can stand in its product
/// number, while the `+` in a second code may belong to `$$+` or to a lot.
pub(crate) fn codes(text: &str) -> Vec<&str> {
    let is_primary = |code: &str| {
        let Some((body, printed)) = last(code) else { return false };
        let inside = body.get(1..).unwrap_or("");
        (PRIMARY_LEAST..=PRIMARY_MOST).contains(&inside.len())
            && inside.starts_with(|first: char| first.is_ascii_alphabetic())
            && inside.bytes().all(|byte| byte.is_ascii_alphanumeric())
            && check_character(body) == Some(printed)
    };
    let is_second = |code: &str| {
        code.get(1..).is_some_and(|inside| inside.starts_with(|first: char| first == '$' || first.is_ascii_digit()))
    };
    text.match_indices('+')
        .map(|(at, _)| text.split_at(at))
        .find(|(first, second)| is_primary(first) && is_second(second))
        .map_or_else(|| vec![text], |(first, second)| vec![first, second])
}

/// Splits off the last character.
fn last(text: &str) -> Option<(&str, char)> {
    let (at, character) = text.char_indices().next_back()?;
    Some((&text[..at], character))
}

/// Reads one code, which begins with `+`, into the label.
///
/// `captioned`: the text is the caption under the code, where `_` stands for a space as check character.
pub(crate) fn read(text: &str, captioned: bool, options: &Options, label: &mut Label) {
    label.scheme = Scheme::Hibc;
    let Some((body, printed)) = last(text).filter(|(body, _)| body.len() > 1) else {
        label.say("", "Not recognised", text);
        label.warn(
            WarningCode::Length,
            format!("The code ‘{}’ is too short for a HIBC label: scan it again.", shown(text)),
        );
        return;
    };
    let printed_shown = &text[body.len()..];
    check(body, printed, captioned, label);
    let inside = &body[1..];
    if inside.starts_with(|first: char| first.is_ascii_alphabetic()) {
        let run = inside.find(|character: char| !character.is_ascii_alphanumeric()).unwrap_or(inside.len());
        let (primary, rest) = inside.split_at(run);
        read_primary(primary, label);
        if let Some(data) = rest.strip_prefix('/') {
            secondary::read(data, options, label);
        } else if !rest.is_empty() {
            label.say("", "Not recognised", rest);
            label.warn(
                WarningCode::Structure,
                format!(
                    "Behind the product number stands ‘{}’ instead of ‘/’: compare the code with the label.",
                    shown(rest)
                ),
            );
        }
        label.say("check", "Check character", printed_shown);
    } else {
        if let Some((data, link)) = last(inside) {
            secondary::read(data, options, label);
            label.say("link", "Link to the first code", &inside[data.len()..]);
            if check::value(link).is_none() {
                label.warn(
                    WarningCode::Character,
                    format!("The link character ‘{}’ is none that HIBC uses.", shown(&inside[data.len()..])),
                );
            }
        }
        label.say("check", "Check character", printed_shown);
    }
    judge(label);
}

/// Says that the first code is still to come; judged anew after a merge.
pub(crate) fn judge(label: &mut Label) {
    label.warnings.retain(|warning| warning.code != WarningCode::Pairing);
    if label.device_identifier.is_none() {
        label.warn(
            WarningCode::Pairing,
            "This is the second HIBC code of a label and names no product: scan the first code of the same label too."
                .to_owned(),
        );
    }
}

fn check(body: &str, printed: char, captioned: bool, label: &mut Label) {
    match check_character(body) {
        Some(right) if right == printed || captioned && right == ' ' && printed == '_' => {}
        Some(_) if check::value(printed).is_none() => label.warn(
            WarningCode::Character,
            format!(
                "The check character ‘{}’ is none that HIBC uses: compare it with the label.",
                shown(printed.encode_utf8(&mut [0; 4]))
            ),
        ),
        Some(right) => {
            let name = |character: char| {
                if character == ' ' {
                    "a space".to_owned()
                } else {
                    format!("‘{}’", shown(character.encode_utf8(&mut [0; 4])))
                }
            };
            label.warn(
                WarningCode::CheckDigit,
                format!(
                    "The code ends in the check character {} where {} is right: compare it with the label.",
                    name(printed),
                    name(right)
                ),
            );
        }
        None => label.warn(
            WarningCode::Character,
            format!("The code ‘{}’ holds a character that HIBC does not use: compare it with the label.", shown(body)),
        ),
    }
}

fn read_primary(primary: &str, label: &mut Label) {
    label.device_identifier = Some(primary.to_owned());
    if !(PRIMARY_LEAST..=PRIMARY_MOST).contains(&primary.len()) {
        label.say("", "Not recognised", primary);
        label.warn(
            WarningCode::Length,
            format!("The device identifier ‘{}’ should have {PRIMARY_LEAST} to {PRIMARY_MOST} characters: compare it with the label.", shown(primary)),
        );
        return;
    }
    let (labeler, rest) = primary.split_at(4);
    let (product, level) = rest.split_at(rest.len() - 1);
    label.say("LIC", "Labeler", labeler);
    label.say("PCN", "Product or catalogue number", product);
    label.say("U/M", "Packaging level", level);
    label.reference = Some(product.to_owned());
    if !level.bytes().all(|byte| byte.is_ascii_digit()) {
        label.warn(
            WarningCode::Structure,
            format!(
                "The device identifier ‘{}’ should end in a digit for the packaging level: compare it with the label.",
                shown(primary)
            ),
        );
    }
}
