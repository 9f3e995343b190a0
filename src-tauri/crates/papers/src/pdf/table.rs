//! Tables to pieces: columns from their content, one piece for each row.
//!
//! A row is cut only if it is taller than a page; then it is cut between its lines. A drawing in a
//! cell is never cut: it shrinks to its column and to the page. A table of more columns than a page
//! can show is set as records: one small table for each row, with the header at its left.

use crate::blocks::{Align, Inline, Table};
use crate::columns::share;
use crate::drawing::{Drawing, Tone};

use super::flow::Builder;
use super::lines::{Line, fill, measure};
use super::look::{HAIRLINE, Look, MM};
use super::piece::{Mark, Piece};
use super::shape::Glyph;
use super::tags::{Role, Tag, Tags};

/// A column narrower than this many letters' heights is no column of words.
const LETTERS: f32 = 5.0;
/// No word and no drawing makes a column wider than this share of the table.
const LARGEST: f32 = 0.45;
/// A row up to this share of a page's height is easily overlooked.
const TALL: f32 = 0.2;
/// A row and its header beyond this share of a page's height are cut.
const FULL: f32 = 0.94;
/// A record up to this share of a page's height is kept in one piece.
const RECORD_WHOLE: f32 = 0.4;

/// A cell's content; text is shaped once for measuring and for breaking.
struct Cell<'t> {
    text: String,
    glyphs: Vec<Glyph>,
    drawing: Option<&'t Drawing>,
    tag: Option<Tag>,
}

/// A cell's content as it stands in its column.
#[derive(Default)]
struct Filled<'t> {
    lines: Vec<Line>,
    /// With its scale in points for a millimetre.
    drawing: Option<(&'t Drawing, f32)>,
    tag: Option<Tag>,
}

impl Filled<'_> {
    fn height(&self, leading: f32) -> f32 {
        let drawn = self.drawing.map_or(0.0, |(drawing, scale)| drawing.height_mm * scale);
        drawn.max(self.lines.len() as f32 * leading)
    }
}

/// Sets a table at `x`, at most `width` wide, with `before` points of space above.
pub(super) fn set(builder: &mut Builder<'_, '_>, table: &Table, x: f32, width: f32, before: f32) {
    let headed = table.has_header();
    let columns = table.align.len();
    if columns == 0 || (table.rows.is_empty() && !headed) {
        return;
    }
    let mut header: Vec<Vec<Cell<'_>>> = Vec::new();
    if headed {
        header.push(shape(builder, &table.header, |_| true));
    }
    let mut rows: Vec<_> = table.rows.iter().map(|row| shape(builder, row, |n| !headed && n == 0)).collect();
    let needs = Needs::of(columns, header.iter().chain(&rows), width, builder.look);
    if columns > 2 && !needs.fit(width) {
        return records(builder, table, x, width, before);
    }
    let tags = &mut builder.flow.tags;
    tags.begin(Role::Table);
    mark_up(tags, Role::HeaderRows, &mut header, headed);
    mark_up(tags, Role::Rows, &mut rows, headed);
    tags.end();
    let widths = needs.widths(width);
    let mut grid = Grid { look: builder.look, x, width, widths, align: &table.align, room: builder.height / 2.0 };
    let number = builder.flow.headers.len();
    let mut head =
        header.first().map(|cells| Piece { keep: true, table: Some(number), ..grid.row(&grid.fill(cells), true) });
    // A header that takes half the page is not said again on every page.
    let tall = head.take_if(|piece| piece.height > builder.height / 2.0).is_some();
    let head_height = head.as_ref().map_or(0.0, |piece| piece.height);
    builder.flow.headers.push(head.as_ref().map(Piece::repeated));
    let first = builder.flow.pieces.len();
    if let Some(piece) = head {
        builder.push(piece);
    }
    grid.room = builder.height * FULL - head_height;
    let rows: Vec<&Vec<Cell<'_>>> = header.iter().filter(|_| tall).chain(&rows).collect();
    let count = rows.len();
    for (n, cells) in rows.into_iter().enumerate() {
        let cells = grid.fill(cells);
        let whole = grid.row(&cells, false);
        // A drawing that fills the room exactly is not taller than it.
        if whole.height > grid.room + 0.1 {
            for slice in grid.slices(&cells) {
                builder.push(Piece { table: Some(number), ..slice });
            }
        } else {
            builder.push(Piece {
                table: Some(number),
                // No row stands alone at either end of a page, unless it is tall enough to be seen.
                keep: whole.height < builder.height * TALL && n + 1 < count && (n == 0 || n + 2 == count),
                ..whole
            });
        }
    }
    if let Some(piece) = builder.flow.pieces.get_mut(first) {
        piece.before = before;
    }
}

fn shape<'t>(builder: &mut Builder<'_, '_>, cells: &'t [Vec<Inline>], strong: impl Fn(usize) -> bool) -> Vec<Cell<'t>> {
    cells
        .iter()
        .enumerate()
        .map(|(n, cell)| {
            let (text, glyphs) = builder.shaper.inlines(cell, strong(n));
            let drawing = cell.iter().find_map(|inline| match inline {
                Inline::Drawing(drawing) => Some(&**drawing),
                _ => None,
            });
            Cell { text, glyphs, drawing, tag: None }
        })
        .collect()
}

/// Gives the rows of a table's part their structure; without a header the first column names the rows.
fn mark_up(tags: &mut Tags, part: Role, rows: &mut [Vec<Cell<'_>>], headed: bool) {
    if rows.is_empty() {
        return;
    }
    tags.begin(part);
    for row in rows {
        tags.begin(Role::Row);
        for (n, cell) in row.iter_mut().enumerate() {
            let role = match (part, n) {
                (Role::HeaderRows, _) => Role::ColumnHeader,
                (_, 0) if !headed => Role::RowHeader,
                _ => Role::Cell,
            };
            cell.tag = match cell.drawing {
                Some(drawing) => {
                    tags.begin(role);
                    let figure = tags.figure(&drawing.alt);
                    tags.end();
                    figure
                }
                None => Some(tags.leaf(role)),
            };
        }
        tags.end();
    }
    tags.end();
}

/// Sets each row as a table of its own, with the header's words at the left.
fn records(builder: &mut Builder<'_, '_>, table: &Table, x: f32, width: f32, before: f32) {
    let headed = table.has_header();
    let nothing = vec![Vec::new(); table.align.len()];
    let rows = if table.rows.is_empty() { std::slice::from_ref(&nothing) } else { &table.rows };
    let mut before = before;
    for row in rows {
        let pairs = row.iter().enumerate().map(|(n, cell)| {
            let name = headed.then(|| table.header.get(n).cloned().unwrap_or_default());
            name.into_iter().chain([cell.clone()]).collect::<Vec<_>>()
        });
        let record =
            Table { header: Vec::new(), rows: pairs.collect(), align: vec![Align::Left; if headed { 2 } else { 1 }] };
        let first = builder.flow.pieces.len();
        set(builder, &record, x, width, before);
        let pieces = &mut builder.flow.pieces[first..];
        let tall: f32 = pieces.iter().map(|piece| piece.height).sum();
        if tall < builder.height * RECORD_WHOLE
            && let Some((_, others)) = pieces.split_last_mut()
        {
            others.iter_mut().for_each(|piece| piece.keep = true);
        }
        before = builder.look.block_gap;
    }
}

/// How wide columns must be at least, would rather be, and like to be.
struct Needs {
    /// Drawings whole, and some letters of each word.
    floor: Vec<f32>,
    /// Words whole.
    least: Vec<f32>,
    /// Lines whole.
    most: Vec<f32>,
}

impl Needs {
    fn of<'c>(columns: usize, rows: impl Iterator<Item = &'c Vec<Cell<'c>>>, width: f32, look: &Look) -> Self {
        let pad = 2.0 * look.cell_pad_x + 0.5;
        let empty = vec![pad + 4.0; columns];
        let mut needs = Self { floor: empty.clone(), least: empty.clone(), most: empty };
        for row in rows {
            for (n, cell) in row.iter().enumerate().take(columns) {
                let (word, line) = measure(&cell.text, &cell.glyphs, look.cell.size);
                let drawn = cell.drawing.map_or(0.0, |drawing| drawing.width_mm * MM);
                let raise = |needed: &mut f32, content: f32| *needed = needed.max(content + pad);
                raise(&mut needs.floor[n], word.min(look.cell.size * LETTERS).max(drawn).min(width * LARGEST));
                // One endless word must not push the other columns off the page.
                raise(&mut needs.least[n], word.max(drawn).min(width * LARGEST));
                raise(&mut needs.most[n], line.max(drawn));
            }
        }
        needs
    }

    fn fit(&self, width: f32) -> bool {
        self.floor.iter().sum::<f32>() <= width
    }

    fn widths(&self, width: f32) -> Vec<f32> {
        let (floor, least): (f32, f32) = (self.floor.iter().sum(), self.least.iter().sum());
        let mut widths = if floor < width && width < least {
            // Words are broken; those of narrow columns, such as numbers, last.
            let part = (width - floor) / (least - floor);
            self.floor.iter().zip(&self.least).map(|(floor, least)| floor + (least - floor).max(0.0) * part).collect()
        } else {
            share(&self.least, &self.most, width)
        };
        // The table fills its column: what is left over goes to all, in proportion.
        let total: f32 = widths.iter().sum();
        if total > 0.0 && total < width {
            for w in &mut widths {
                *w *= width / total;
            }
        }
        widths
    }
}

struct Grid<'t> {
    look: &'static Look,
    x: f32,
    width: f32,
    widths: Vec<f32>,
    align: &'t [Align],
    /// Height that a row may have before it is cut.
    room: f32,
}

impl Grid<'_> {
    fn fill<'t>(&self, cells: &[Cell<'t>]) -> Vec<Filled<'t>> {
        cells
            .iter()
            .zip(&self.widths)
            .map(|(cell, width)| {
                let inner = (width - 2.0 * self.look.cell_pad_x).max(4.0);
                let drawing = cell.drawing.map(|drawing| {
                    let (wide, tall) = (drawing.width_mm.max(0.1), drawing.height_mm.max(0.1));
                    let room = self.room - 2.0 * self.look.cell_pad_y - HAIRLINE;
                    (drawing, MM.min(inner / wide).min(room / tall))
                });
                let lines = match drawing {
                    Some(_) => Vec::new(),
                    None => fill(&cell.text, &cell.glyphs, self.look.cell.size, inner),
                };
                Filled { lines, drawing, tag: cell.tag }
            })
            .collect()
    }

    fn row(&self, cells: &[Filled<'_>], header: bool) -> Piece {
        let content =
            cells.iter().map(|cell| cell.height(self.look.cell.leading)).fold(self.look.cell.leading, f32::max);
        let height = content + 2.0 * self.look.cell_pad_y + HAIRLINE;
        let mut marks = Vec::new();
        if header {
            marks.push(Mark::Ground { x: self.x, y: 0.0, width: self.width, height });
        }
        for (column, cell) in cells.iter().enumerate() {
            for (n, line) in cell.lines.iter().enumerate() {
                let top = self.look.cell_pad_y + n as f32 * self.look.cell.leading;
                self.words(&mut marks, column, line, top, cell.tag);
            }
            self.drawing(&mut marks, column, cell);
        }
        marks.push(self.under(height));
        Piece { height, header, baseline: self.look.cell_pad_y + self.look.cell.baseline(), marks, ..Piece::default() }
    }

    /// Cuts a row between its lines; its drawings stay beside the first of them.
    fn slices(&self, cells: &[Filled<'_>]) -> Vec<Piece> {
        let count = cells.iter().map(|cell| cell.lines.len()).max().unwrap_or(0);
        let drawn = cells
            .iter()
            .filter(|cell| cell.drawing.is_some())
            .map(|cell| cell.height(self.look.cell.leading))
            .fold(0.0, f32::max);
        let beside = ((drawn / self.look.cell.leading).ceil() as usize).max(1);
        let (mut pieces, mut from) = (Vec::new(), 0);
        while from < count {
            let to = if from == 0 { beside.min(count) } else { from + 1 };
            let above = if from == 0 { self.look.cell_pad_y } else { 0.0 };
            let below = if to == count { self.look.cell_pad_y } else { 0.0 };
            let height = above + (to - from) as f32 * self.look.cell.leading + below;
            let mut marks = Vec::new();
            for (column, cell) in cells.iter().enumerate() {
                for (n, line) in cell.lines.iter().enumerate().take(to).skip(from) {
                    let top = above + (n - from) as f32 * self.look.cell.leading;
                    self.words(&mut marks, column, line, top, cell.tag);
                }
                if from == 0 {
                    self.drawing(&mut marks, column, cell);
                }
            }
            if to == count {
                marks.push(self.under(height));
            }
            pieces.push(Piece { height, marks, ..Piece::default() });
            from = to;
        }
        pieces
    }

    fn drawing(&self, marks: &mut Vec<Mark>, column: usize, cell: &Filled<'_>) {
        if let Some((drawing, scale)) = cell.drawing {
            let x = self.place(column, drawing.width_mm * scale);
            marks.push(Mark::Drawing { x, y: self.look.cell_pad_y, scale, drawing: drawing.clone(), tag: cell.tag });
        }
    }

    fn words(&self, marks: &mut Vec<Mark>, column: usize, line: &Line, top: f32, tag: Option<Tag>) {
        if line.glyphs.is_empty() {
            return;
        }
        marks.push(Mark::Words {
            x: self.place(column, line.width),
            y: top + self.look.cell.baseline(),
            size: self.look.cell.size,
            tone: Tone::Ink,
            glyphs: line.glyphs.clone(),
            tag,
        });
    }

    /// Returns where something so wide begins in a column.
    fn place(&self, column: usize, wide: f32) -> f32 {
        let left = self.x + self.widths[..column].iter().sum::<f32>();
        let spare = self.widths[column] - 2.0 * self.look.cell_pad_x - wide;
        let shift = match self.align.get(column) {
            Some(Align::Right) => spare,
            Some(Align::Centre) => spare / 2.0,
            _ => 0.0,
        };
        left + self.look.cell_pad_x + shift.max(0.0)
    }

    fn under(&self, height: f32) -> Mark {
        Mark::Hairline { x: self.x, y: height, width: self.width }
    }
}
