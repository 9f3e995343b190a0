//! Words into lines of so many columns.

use unicode_segmentation::UnicodeSegmentation;

/// Counts columns: one for each character as a reader sees it, accents included.
pub(super) fn width(text: &str) -> usize {
    text.graphemes(true).count()
}

/// Wraps text at spaces; line feeds stay, and a word longer than a line is broken.
pub(super) fn wrap(text: &str, columns: usize) -> Vec<String> {
    let columns = columns.max(1);
    let mut lines = Vec::new();
    for part in text.split('\n') {
        let mut line = String::new();
        let mut used = 0;
        for word in part.split([' ', '\t']).filter(|word| !word.is_empty()) {
            let size = width(word);
            if used > 0 && used + 1 + size > columns {
                lines.push(std::mem::take(&mut line));
                used = 0;
            }
            if used > 0 {
                line.push(' ');
                used += 1;
            }
            for piece in word.graphemes(true) {
                if used == columns {
                    lines.push(std::mem::take(&mut line));
                    used = 0;
                }
                line.push_str(piece);
                used += 1;
            }
        }
        lines.push(line);
    }
    lines
}
