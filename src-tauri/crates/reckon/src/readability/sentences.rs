//! Cuts a text into sentences and words.
//!
//! The sentence rules are those of Unicode (UAX 29), which already keep decimals and lower-case continuations together;
//! added here are blocks, list items, lines that are no running text, and abbreviations before a capital or a number.

use unicode_segmentation::UnicodeSegmentation;

/// What stands before a name or a number. Never the end of a sentence; compared in lower case without the last stop.
const BEFORE_SOMETHING: [&str; 24] = [
    "dr", "mr", "mrs", "ms", "miss", "prof", "st", "sr", "sra", "no", "nos", "nr", "fig", "vol", "pp", "tel", "ext",
    "approx", "ca", "vs", "e.g", "i.e", "cf", "viz",
];

/// Gives the sentences of a text, and how many lines were no running text (headings, tables, rules).
pub fn sentences(text: &str) -> (Vec<String>, usize) {
    let (blocks, left_out) = blocks(text);
    (blocks.iter().flat_map(|block| of_block(block)).collect(), left_out)
}

/// Gives the words of a sentence: what stands between spaces or dashes and has a letter or a digit in it.
pub fn words(sentence: &str) -> impl Iterator<Item = &str> {
    sentence
        .split(|letter: char| letter.is_whitespace() || letter == '—')
        .filter(|word| word.contains(char::is_alphanumeric))
}

/// Joins the lines of paragraphs and of list items. A blank line, a list mark or a line that is no running text ends one.
fn blocks(text: &str) -> (Vec<String>, usize) {
    let mut blocks: Vec<String> = Vec::new();
    let mut left_out = 0;
    let mut open = false;
    for line in text.lines().map(out_of_box) {
        if line.is_empty() {
            open = false;
        } else if is_furniture(line) {
            // Signs under a line make a heading of it.
            if open && is_underline(line) && blocks.pop().is_some() {
                left_out += 1;
            }
            left_out += 1;
            open = false;
        } else if let Some(item) = after_list_mark(line) {
            blocks.push(item.to_owned());
            open = true;
        } else {
            match blocks.last_mut().filter(|_| open) {
                Some(block) => {
                    block.push(' ');
                    block.push_str(line);
                }
                None => blocks.push(line.to_owned()),
            }
            open = true;
        }
    }
    (blocks, left_out)
}

/// Takes the marks of a quotation or of a drawn box off a line; a line of a table has marks within it and keeps them.
fn out_of_box(line: &str) -> &str {
    let line = line.trim().trim_start_matches('>').trim();
    let boxed = line.strip_prefix('|').and_then(|line| line.strip_suffix('|'));
    boxed.filter(|line| !line.contains('|')).unwrap_or(line).trim()
}

/// Says whether a line is a heading, a line of a table or a rule.
fn is_furniture(line: &str) -> bool {
    // Three spaces within a line set it in columns.
    line.starts_with(['#', '|']) || line.contains("   ") || !line.contains(char::is_alphanumeric)
}

fn is_underline(line: &str) -> bool {
    line.len() > 2 && (line.chars().all(|sign| sign == '=') || line.chars().all(|sign| sign == '-'))
}

/// Takes the mark off a list item: a bullet, or a number or letter with a stop or bracket.
fn after_list_mark(line: &str) -> Option<&str> {
    let (mark, rest) = line.split_once(char::is_whitespace)?;
    let counter = mark.strip_prefix('(').unwrap_or(mark).strip_suffix(['.', ')']);
    let counted = counter.is_some_and(|counter| {
        let digits = !counter.is_empty() && counter.len() <= 3 && counter.bytes().all(|byte| byte.is_ascii_digit());
        digits || (counter.len() == 1 && mark.ends_with(')') && counter.bytes().all(|byte| byte.is_ascii_alphabetic()))
    });
    (counted || matches!(mark, "-" | "*" | "+" | "•" | "–" | "·")).then(|| rest.trim_start())
}

fn of_block(block: &str) -> Vec<String> {
    let mut sentences: Vec<String> = Vec::new();
    for piece in block.split_sentence_bounds() {
        match sentences.last_mut() {
            Some(before) if goes_on(before) => before.push_str(piece),
            _ => sentences.push(piece.to_owned()),
        }
    }
    sentences.retain(|sentence| words(sentence).next().is_some());
    sentences.iter_mut().for_each(|sentence| *sentence = sentence.trim().to_owned());
    sentences
}

/// Says whether a sentence goes on after what Unicode took for its end.
fn goes_on(before: &str) -> bool {
    let Some(last) = before.split_whitespace().next_back().and_then(|word| word.strip_suffix('.')) else {
        return words(before).next().is_none();
    };
    let last = last.trim_start_matches(['(', '[', '"', '“', '‘', '\'']);
    let initial = last.chars().count() == 1 && last.chars().all(|letter| letter.is_uppercase() && letter != 'I');
    initial || BEFORE_SOMETHING.contains(&last.to_lowercase().as_str())
}
