//! Markdown to blocks, over pulldown-cmark with tables only.
//!
//! Invariant: every character of text in the Markdown is in some block afterwards; raw HTML is
//! kept as the characters that it consists of.

use std::collections::BTreeMap;

use pulldown_cmark::{Alignment, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

use super::{Align, Block, BlockError, Inline, Inlines, Table};
use crate::drawing::Drawing;

/// Prefix of a picture destination that names one of the paper's own drawings.
const DRAWING: &str = "drawing:";

/// Lists and boxes inside each other: beyond this no page can show them.
const DEEPEST: usize = 16;
/// Columns of a table: beyond this no page can show them.
const WIDEST: usize = 16;

/// Reads Markdown into blocks; `drawings` are those that `![](drawing:NAME)` may name.
///
/// # Errors
/// [`BlockError::UnknownDrawing`] if a picture asks for a drawing that is not in `drawings`;
/// [`BlockError::TooDeep`] and [`BlockError::TooWide`] for what no page can show.
pub fn parse(markdown: &str, drawings: &BTreeMap<String, Drawing>) -> Result<Vec<Block>, BlockError> {
    let mut reader = Reader {
        drawings,
        open: vec![Level::default()],
        inlines: Vec::new(),
        strong: 0,
        emphasis: 0,
        drawing: None,
        in_picture: false,
        words_outside: false,
        table: None,
        row: Vec::new(),
    };
    for event in Parser::new_ext(markdown, Options::ENABLE_TABLES) {
        reader.take(event)?;
    }
    reader.flush();
    Ok(reader.open.pop().map(|level| level.blocks).unwrap_or_default())
}

/// Blocks gathered at one depth, and the items if that depth is a list.
#[derive(Default)]
struct Level {
    blocks: Vec<Block>,
    items: Vec<Vec<Block>>,
    ordered_from: Option<u64>,
}

struct Reader<'a> {
    drawings: &'a BTreeMap<String, Drawing>,
    /// Never empty: the first level is the paper itself.
    open: Vec<Level>,
    inlines: Inlines,
    strong: u32,
    emphasis: u32,
    /// A drawing asked for in the paragraph being read.
    drawing: Option<Drawing>,
    in_picture: bool,
    /// The paragraph being read holds words beside its drawing.
    words_outside: bool,
    table: Option<Table>,
    row: Vec<Inlines>,
}

impl Reader<'_> {
    fn take(&mut self, event: Event<'_>) -> Result<(), BlockError> {
        match event {
            Event::Start(tag) => self.start(tag)?,
            Event::End(tag) => self.end(tag),
            Event::Text(text) | Event::Code(text) | Event::Html(text) | Event::InlineHtml(text) => {
                self.text(&text);
            }
            Event::SoftBreak => self.text(" "),
            Event::HardBreak => self.inlines.push(Inline::Break),
            Event::Rule => {
                self.flush();
                self.push(Block::Rule);
            }
            // These need options that are off.
            Event::InlineMath(text) | Event::DisplayMath(text) | Event::FootnoteReference(text) => {
                self.text(&text);
            }
            Event::TaskListMarker(_) => {}
        }
        Ok(())
    }

    fn start(&mut self, tag: Tag<'_>) -> Result<(), BlockError> {
        match tag {
            Tag::Paragraph | Tag::Heading { .. } | Tag::CodeBlock(_) | Tag::HtmlBlock => {
                self.flush();
            }
            Tag::BlockQuote(_) => self.deepen(None)?,
            Tag::List(ordered_from) => self.deepen(ordered_from)?,
            Tag::Item => self.deepen(None)?,
            Tag::Table(columns) => {
                if columns.len() > WIDEST {
                    return Err(BlockError::TooWide(columns.len(), WIDEST));
                }
                self.flush();
                self.table = Some(Table { align: columns.into_iter().map(align).collect(), ..Table::default() });
            }
            Tag::Strong => self.strong += 1,
            Tag::Emphasis => self.emphasis += 1,
            Tag::Image { dest_url, .. } => {
                self.in_picture = true;
                if let Some(name) = dest_url.strip_prefix(DRAWING) {
                    self.drawing = Some(self.find(name)?);
                }
            }
            _ => {}
        }
        Ok(())
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Image => self.in_picture = false,
            TagEnd::Paragraph => self.flush(),
            TagEnd::CodeBlock | TagEnd::HtmlBlock => {
                if matches!(self.inlines.last(), Some(Inline::Break)) {
                    self.inlines.pop();
                }
                self.flush();
            }
            TagEnd::Heading(level) => {
                let inlines = std::mem::take(&mut self.inlines);
                (self.drawing, self.words_outside) = (None, false);
                self.push(Block::Heading { level: number(level), inlines });
            }
            TagEnd::BlockQuote(_) => {
                let level = self.rise();
                self.push(Block::Boxed(level.blocks));
            }
            TagEnd::List(_) => {
                let level = self.rise();
                self.push(Block::List { ordered_from: level.ordered_from, items: level.items });
            }
            TagEnd::Item => {
                let level = self.rise();
                if let Some(list) = self.open.last_mut() {
                    list.items.push(level.blocks);
                }
            }
            TagEnd::Strong => self.strong = self.strong.saturating_sub(1),
            TagEnd::Emphasis => self.emphasis = self.emphasis.saturating_sub(1),
            TagEnd::TableCell => {
                let inlines = std::mem::take(&mut self.inlines);
                let words_outside = std::mem::take(&mut self.words_outside);
                self.row.push(match self.drawing.take() {
                    Some(drawing) if !words_outside => vec![Inline::Drawing(Box::new(drawing))],
                    _ => inlines,
                });
            }
            TagEnd::TableHead => {
                if let Some(table) = &mut self.table {
                    table.header = std::mem::take(&mut self.row);
                }
            }
            TagEnd::TableRow => {
                if let Some(table) = &mut self.table {
                    table.rows.push(std::mem::take(&mut self.row));
                }
            }
            TagEnd::Table => {
                if let Some(table) = self.table.take() {
                    self.push(Block::Table(table));
                }
            }
            _ => {}
        }
    }

    fn text(&mut self, text: &str) {
        self.words_outside |= !self.in_picture;
        // A line feed inside text was typed as one (`&#10;`), so the line ends there.
        for (n, line) in text.split('\n').enumerate() {
            if n > 0 {
                self.inlines.push(Inline::Break);
            }
            let line = line.trim_end_matches('\r');
            if line.is_empty() {
                continue;
            }
            let (strong, emphasis) = (self.strong > 0, self.emphasis > 0);
            // The parser hands out text in pieces; like pieces are joined again.
            if let Some(Inline::Text { text, strong: s, emphasis: e }) = self.inlines.last_mut()
                && (*s, *e) == (strong, emphasis)
            {
                text.push_str(line);
            } else {
                self.inlines.push(Inline::Text { text: line.to_owned(), strong, emphasis });
            }
        }
    }

    fn find(&self, name: &str) -> Result<Drawing, BlockError> {
        self.drawings.get(name).cloned().ok_or_else(|| {
            let known: Vec<&str> = self.drawings.keys().map(String::as_str).collect();
            BlockError::UnknownDrawing {
                name: name.to_owned(),
                known: if known.is_empty() { "none".to_owned() } else { known.join(", ") },
            }
        })
    }

    /// Turns pending words into a paragraph (tight list items have no paragraph events), or a
    /// picture that stands alone into its drawing.
    fn flush(&mut self) {
        let inlines = std::mem::take(&mut self.inlines);
        let words_outside = std::mem::take(&mut self.words_outside);
        match self.drawing.take() {
            Some(drawing) if !words_outside => self.push(Block::Drawing(drawing)),
            _ if inlines.is_empty() => {}
            _ => self.push(Block::Paragraph(inlines)),
        }
    }

    fn push(&mut self, block: Block) {
        if let Some(level) = self.open.last_mut() {
            level.blocks.push(block);
        }
    }

    fn deepen(&mut self, ordered_from: Option<u64>) -> Result<(), BlockError> {
        // A list and its items are two levels.
        if self.open.len() > 2 * DEEPEST {
            return Err(BlockError::TooDeep(DEEPEST));
        }
        self.flush();
        self.open.push(Level { ordered_from, ..Level::default() });
        Ok(())
    }

    fn rise(&mut self) -> Level {
        self.flush();
        self.open.pop().unwrap_or_default()
    }
}

fn align(alignment: Alignment) -> Align {
    match alignment {
        Alignment::None | Alignment::Left => Align::Left,
        Alignment::Center => Align::Centre,
        Alignment::Right => Align::Right,
    }
}

fn number(level: HeadingLevel) -> u8 {
    match level {
        HeadingLevel::H1 => 1,
        HeadingLevel::H2 => 2,
        HeadingLevel::H3 => 3,
        HeadingLevel::H4 => 4,
        HeadingLevel::H5 => 5,
        HeadingLevel::H6 => 6,
    }
}
