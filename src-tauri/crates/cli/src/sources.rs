//! `sources`: where every formula and every limit comes from, as one table.

use evengap_desk::{Desk, DeskError};
use serde_json::json;

use crate::answer::Answer;

/// Letters of the columns name, formula, source, year and kind. Longer words keep their length.
const WIDTHS: [usize; 5] = [26, 52, 52, 4, 15];

/// Gives the table of sources.
pub fn sources(desk: &Desk) -> Result<Answer, DeskError> {
    let lines = desk.sources()?;
    let mut text = row(["name", "formula or limit", "source", "year", "held as"]);
    for line in &lines {
        let year = line.year.map_or_else(String::new, |year| year.to_string());
        text.push_str(&row([&line.name, &line.formula, &line.source, &year, line.kind.words()]));
    }
    Ok(Answer::new(text, json!({ "sources": lines })))
}

/// Sets one row; a cell that is too long goes on in the lines below.
fn row(cells: [&str; 5]) -> String {
    let wrapped: Vec<Vec<String>> = cells.iter().zip(WIDTHS).map(|(cell, width)| wrap(cell, width)).collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    let mut text = String::new();
    for line in 0..height {
        let cells = wrapped.iter().zip(WIDTHS).map(|(cell, width)| {
            let cell = cell.get(line).map(String::as_str).unwrap_or_default();
            format!("{cell:<width$}")
        });
        text.push_str(cells.collect::<Vec<_>>().join("  ").trim_end());
        text.push('\n');
    }
    text
}

fn wrap(cell: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in cell.split_whitespace() {
        match lines.last_mut().filter(|line| line.chars().count() + 1 + word.chars().count() <= width) {
            Some(line) => {
                line.push(' ');
                line.push_str(word);
            }
            None => lines.push(word.to_owned()),
        }
    }
    lines
}
