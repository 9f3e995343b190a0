//! A table as aligned columns two spaces apart, cells wrapped; one that is too wide as records.

use crate::blocks::{Align, Inline, Table, words_of};
use crate::columns::share;
use crate::document::PageWords;

use super::wrap::{width, wrap};

const GAP: usize = 2;

/// Sets a table into lines of at most `columns`.
pub(super) fn set(table: &Table, columns: usize, page: &PageWords) -> Vec<String> {
    let count = table.align.len();
    if count == 0 {
        return Vec::new();
    }
    let Some(widths) = widths(table, columns, page) else {
        return records(table, columns, page);
    };
    let mut lines = Vec::new();
    if table.has_header() {
        lines.extend(row(&table.header, &widths, &table.align, page));
        let rules: Vec<String> = widths.iter().map(|w| "-".repeat(*w)).collect();
        lines.push(rules.join(&" ".repeat(GAP)));
    }
    // Rows that wrap are set apart, so that their lines are not read as rows.
    let sets: Vec<Vec<String>> = table.rows.iter().map(|cells| row(cells, &widths, &table.align, page)).collect();
    let loose = sets.iter().any(|set| set.len() > 1);
    for (n, set) in sets.into_iter().enumerate() {
        if n > 0 && loose {
            lines.push(String::new());
        }
        lines.extend(set);
    }
    lines
}

/// Returns the columns' widths; nothing if words would have to be broken.
fn widths(table: &Table, columns: usize, page: &PageWords) -> Option<Vec<usize>> {
    let count = table.align.len();
    let available = columns.saturating_sub(GAP * (count - 1)) as f32;
    let mut least = vec![1.0_f32; count];
    let mut most = vec![1.0_f32; count];
    for cells in std::iter::once(&table.header).chain(&table.rows) {
        for (n, cell) in cells.iter().enumerate().take(count) {
            let words = cell_words(cell, page);
            for line in words.split('\n') {
                most[n] = most[n].max(width(line) as f32);
            }
            for word in words.split_whitespace() {
                least[n] = least[n].max(width(word) as f32);
            }
        }
    }
    let fits = least.iter().sum::<f32>() <= available;
    fits.then(|| share(&least, &most, available).into_iter().map(|w| w as usize).collect())
}

/// Sets a table that is too wide as one record for each row: its first cell, then the others below
/// it with their header, so that no reference number is broken.
fn records(table: &Table, columns: usize, page: &PageWords) -> Vec<String> {
    let mut lines = Vec::new();
    for (n, cells) in table.rows.iter().enumerate() {
        if n > 0 {
            lines.push(String::new());
        }
        for (column, cell) in cells.iter().enumerate() {
            let header = table.header.get(column).map(|header| cell_words(header, page)).unwrap_or_default();
            let words = cell_words(cell, page);
            let label = if header.trim().is_empty() { words } else { format!("{header}: {words}") };
            let indent = if column == 0 { "" } else { "  " };
            let set = wrap(&label, columns.saturating_sub(4).max(8));
            for (m, line) in set.into_iter().enumerate() {
                let hang = if m == 0 { "" } else { "  " };
                lines.push(format!("{indent}{hang}{line}"));
            }
        }
    }
    lines
}

fn row(cells: &[Vec<Inline>], widths: &[usize], align: &[Align], page: &PageWords) -> Vec<String> {
    let set: Vec<Vec<String>> =
        cells.iter().zip(widths).map(|(cell, columns)| wrap(&cell_words(cell, page), *columns)).collect();
    let height = set.iter().map(Vec::len).max().unwrap_or(0);
    (0..height)
        .map(|n| {
            let parts: Vec<String> = set
                .iter()
                .zip(widths)
                .enumerate()
                .map(|(column, (lines, columns))| {
                    let words = lines.get(n).map_or("", String::as_str);
                    let spare = columns.saturating_sub(width(words));
                    let before = match align.get(column) {
                        Some(Align::Right) => spare,
                        Some(Align::Centre) => spare / 2,
                        _ => 0,
                    };
                    format!("{}{words}{}", " ".repeat(before), " ".repeat(spare - before))
                })
                .collect();
            parts.join(&" ".repeat(GAP)).trim_end().to_owned()
        })
        .collect()
}

/// Gives a cell's words; a drawing's are marked as such, as they are outside tables.
fn cell_words(cell: &[Inline], page: &PageWords) -> String {
    match cell {
        [Inline::Drawing(drawing)] => page.drawing(&drawing.alt),
        words => words_of(words),
    }
}
