//! Tables to pieces: columns from their content, one piece for each row.
//!
//! A row is cut only if it is taller than a page; then it is cut between its lines.

use crate::blocks::{Align, Inline, Table};
use crate::columns::share;
use crate::drawing::Tone;

use super::flow::Builder;
use super::lines::{Line, fill, measure};
use super::look::{CELL, CELL_PAD_X, CELL_PAD_Y, HAIRLINE};
use super::piece::{Mark, Piece};
use super::shape::Glyph;

/// A cell's text, shaped once for measuring and for breaking.
type Cell = (String, Vec<Glyph>);

/// Sets a table at `x`, at most `width` wide, with `before` points of space above.
pub(super) fn set(builder: &mut Builder<'_, '_>, table: &Table, x: f32, width: f32, before: f32) {
    let headed = table.has_header();
    let header = headed.then(|| shape(builder, &table.header, true, false));
    let rows: Vec<Vec<Cell>> = table.rows.iter().map(|row| shape(builder, row, false, !headed)).collect();
    let columns = table.align.len();
    if columns == 0 || (rows.is_empty() && !headed) {
        return;
    }
    let grid = Grid { x, width, widths: widths(columns, header.iter().chain(&rows), width), align: &table.align };
    let number = builder.flow.headers.len();
    let head = header.map(|cells| Piece { keep: true, table: Some(number), ..grid.row(&grid.lines(&cells), true) });
    let head_height = head.as_ref().map_or(0.0, |piece| piece.height);
    builder.flow.headers.push(head.clone());
    let first = builder.flow.pieces.len();
    if let Some(piece) = head {
        builder.push(piece);
    }
    let room = builder.height - head_height - 40.0;
    let count = rows.len();
    for (n, cells) in rows.iter().enumerate() {
        let lines = grid.lines(cells);
        let whole = grid.row(&lines, false);
        if whole.height > room {
            for slice in grid.slices(&lines) {
                builder.push(Piece { table: Some(number), ..slice });
            }
        } else {
            builder.push(Piece {
                table: Some(number),
                // No row stands alone at either end of a page.
                keep: n + 1 < count && (n == 0 || n + 2 == count),
                ..whole
            });
        }
    }
    if let Some(piece) = builder.flow.pieces.get_mut(first) {
        piece.before = before;
    }
}

fn shape(builder: &mut Builder<'_, '_>, cells: &[Vec<Inline>], strong: bool, first_strong: bool) -> Vec<Cell> {
    cells.iter().enumerate().map(|(n, cell)| builder.shaper.inlines(cell, strong || (first_strong && n == 0))).collect()
}

fn widths<'c>(columns: usize, rows: impl Iterator<Item = &'c Vec<Cell>>, width: f32) -> Vec<f32> {
    let pad = 2.0 * CELL_PAD_X;
    let mut least = vec![pad + 4.0; columns];
    let mut most = vec![pad + 4.0; columns];
    for row in rows {
        for (n, (text, glyphs)) in row.iter().enumerate().take(columns) {
            let (word, line) = measure(text, glyphs, CELL.size);
            // One endless word must not push the other columns off the page.
            least[n] = least[n].max((word + pad + 0.5).min(width * 0.45));
            most[n] = most[n].max(line + pad + 0.5);
        }
    }
    let mut widths = share(&least, &most, width);
    // The table fills its column: what is left over goes to all, in proportion.
    let total: f32 = widths.iter().sum();
    if total > 0.0 && total < width {
        for w in &mut widths {
            *w *= width / total;
        }
    }
    widths
}

struct Grid<'t> {
    x: f32,
    width: f32,
    widths: Vec<f32>,
    align: &'t [Align],
}

impl Grid<'_> {
    fn lines(&self, cells: &[Cell]) -> Vec<Vec<Line>> {
        cells
            .iter()
            .zip(&self.widths)
            .map(|((text, glyphs), width)| fill(text, glyphs, CELL.size, (width - 2.0 * CELL_PAD_X).max(4.0)))
            .collect()
    }

    fn row(&self, cells: &[Vec<Line>], header: bool) -> Piece {
        let count = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let height = count as f32 * CELL.leading + 2.0 * CELL_PAD_Y + HAIRLINE;
        let mut marks = Vec::new();
        if header {
            marks.push(Mark::Ground { x: self.x, y: 0.0, width: self.width, height });
        }
        for (column, lines) in cells.iter().enumerate() {
            for (n, line) in lines.iter().enumerate() {
                let top = CELL_PAD_Y + n as f32 * CELL.leading;
                self.words(&mut marks, column, line, top);
            }
        }
        marks.push(self.under(height));
        Piece { height, header, baseline: CELL_PAD_Y + CELL.baseline(), marks, ..Piece::default() }
    }

    /// Cuts a row between its lines.
    fn slices(&self, cells: &[Vec<Line>]) -> Vec<Piece> {
        let count = cells.iter().map(Vec::len).max().unwrap_or(0);
        (0..count)
            .map(|n| {
                let above = if n == 0 { CELL_PAD_Y } else { 0.0 };
                let below = if n + 1 == count { CELL_PAD_Y } else { 0.0 };
                let height = above + CELL.leading + below;
                let mut marks = Vec::new();
                for (column, lines) in cells.iter().enumerate() {
                    if let Some(line) = lines.get(n) {
                        self.words(&mut marks, column, line, above);
                    }
                }
                if n + 1 == count {
                    marks.push(self.under(height));
                }
                Piece { height, marks, ..Piece::default() }
            })
            .collect()
    }

    fn words(&self, marks: &mut Vec<Mark>, column: usize, line: &Line, top: f32) {
        if line.glyphs.is_empty() {
            return;
        }
        let left = self.x + self.widths[..column].iter().sum::<f32>();
        let spare = self.widths[column] - 2.0 * CELL_PAD_X - line.width;
        let shift = match self.align.get(column) {
            Some(Align::Right) => spare,
            Some(Align::Centre) => spare / 2.0,
            _ => 0.0,
        };
        marks.push(Mark::Words {
            x: left + CELL_PAD_X + shift.max(0.0),
            y: top + CELL.baseline(),
            size: CELL.size,
            tone: Tone::Ink,
            glyphs: line.glyphs.clone(),
        });
    }

    fn under(&self, height: f32) -> Mark {
        Mark::Hairline { x: self.x, y: height, width: self.width }
    }
}
