//! The typesetting peer: Markdown to typst markup, then typst's own layout and PDF writer.

use std::error::Error;

use pulldown_cmark::{Alignment, Event, HeadingLevel, Options, Parser, Tag, TagEnd};
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, Source};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

static FONTS: [&[u8]; 4] = [
    include_bytes!("../../fonts/SourceSans3-Regular.ttf"),
    include_bytes!("../../fonts/SourceSans3-It.ttf"),
    include_bytes!("../../fonts/SourceSans3-Semibold.ttf"),
    include_bytes!("../../fonts/SourceSans3-SemiboldIt.ttf"),
];

/// Holds what can be kept from paper to paper: library and fonts.
pub struct Typesetter {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
}

struct Paper<'p> {
    peer: &'p Typesetter,
    source: Source,
}

impl Typesetter {
    pub fn new() -> Result<Self, Box<dyn Error>> {
        let fonts: Vec<Font> = FONTS
            .into_iter()
            .map(|data| Font::new(Bytes::new(data), 0).ok_or("a font is damaged"))
            .collect::<Result<_, _>>()?;
        Ok(Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            fonts,
        })
    }

    pub fn write(&self, markdown: &str, number: usize) -> Result<Vec<u8>, Box<dyn Error>> {
        let source = Source::detached(format!("{}{}", preamble(number), markup(markdown)));
        let paper = Paper { peer: self, source };
        let document = typst::compile::<PagedDocument>(&paper)
            .output
            .map_err(|errors| format!("{errors:?}"))?;
        // Both write a structure tree.
        let options = PdfOptions {
            tagged: true,
            ..PdfOptions::default()
        };
        let bytes = typst_pdf::pdf(&document, &options).map_err(|errors| format!("{errors:?}"))?;
        // As its own program does between runs: what was not used lately is forgotten.
        comemo::evict(10);
        Ok(bytes)
    }
}

impl World for Paper<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &self.peer.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.peer.book
    }

    fn main(&self) -> FileId {
        self.source.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.source.id() {
            Ok(self.source.clone())
        } else {
            Err(FileError::Other(None))
        }
    }

    fn file(&self, _: FileId) -> FileResult<Bytes> {
        Err(FileError::Other(None))
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.peer.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn preamble(number: usize) -> String {
    format!(
        "#set document(title: \"Discharge letter\", author: \"Maren Oakshott\", date: none)\n\
         #set page(paper: \"a4\", margin: (x: 23mm, top: 35mm, bottom: 27mm), \
         header: [*Sigríður Nguyễn-Παππά* #h(1fr) Discharge letter \\ Born *3 May 1950* · Hospital number *LH-{number}* · *Left knee* #line(length: 100%, stroke: 0.5pt)], \
         footer: context [#line(length: 100%, stroke: 0.5pt) discharge-letter, version 1 · Maren Oakshott #h(1fr) Page #counter(page).display(\"1 of 1\", both: true)])\n\
         #set text(font: \"Source Sans 3\", size: 10pt, lang: \"en\", weight: 400)\n\
         #show strong: set text(weight: 600)\n#show heading: set text(weight: 600)\n\
         #set table(stroke: 0.5pt + gray)\n#show table: set text(size: 9pt)\n"
    )
}

/// Turns Markdown into the peer's markup.
fn markup(markdown: &str) -> String {
    let mut out = String::new();
    let mut lists: Vec<bool> = Vec::new();
    for event in Parser::new_ext(markdown, Options::ENABLE_TABLES) {
        match event {
            Event::Start(tag) => match tag {
                Tag::Heading { level, .. } => {
                    out.push_str(&format!("\n#heading(level: {})[", depth(level)));
                }
                Tag::Strong => out.push_str("#strong["),
                Tag::Emphasis => out.push_str("#emph["),
                Tag::List(first) => {
                    lists.push(first.is_some());
                    out.push_str(if first.is_some() { "#enum(" } else { "#list(" });
                }
                Tag::Item => out.push('['),
                Tag::BlockQuote(_) => {
                    out.push_str("\n#block(fill: luma(245), inset: 9pt, width: 100%)[");
                }
                Tag::Table(columns) => {
                    let align: Vec<&str> = columns.iter().map(|a| side(*a)).collect();
                    out.push_str(&format!(
                        "\n#table(columns: {}, align: ({},),",
                        columns.len(),
                        align.join(", ")
                    ));
                }
                Tag::TableHead => out.push_str("table.header("),
                Tag::TableCell => out.push('['),
                _ => {}
            },
            Event::End(tag) => match tag {
                TagEnd::Paragraph => out.push_str("\n\n"),
                TagEnd::Heading(_) | TagEnd::BlockQuote(_) => out.push_str("]\n"),
                TagEnd::Strong | TagEnd::Emphasis => out.push(']'),
                TagEnd::List(_) => {
                    lists.pop();
                    out.push_str(")\n");
                }
                TagEnd::Item | TagEnd::TableCell => out.push_str("],"),
                TagEnd::TableHead => out.push_str("),"),
                TagEnd::Table => out.push_str(")\n"),
                _ => {}
            },
            Event::Text(text) | Event::Code(text) => escape(&mut out, &text),
            Event::SoftBreak => out.push(' '),
            Event::HardBreak => out.push_str("\\\n"),
            Event::Rule => out.push_str("\n#line(length: 100%, stroke: 0.5pt)\n"),
            _ => {}
        }
    }
    out
}

fn escape(out: &mut String, text: &str) {
    for c in text.chars() {
        if c.is_ascii_punctuation() {
            out.push('\\');
        }
        out.push(c);
    }
}

fn depth(level: HeadingLevel) -> usize {
    level as usize
}

fn side(alignment: Alignment) -> &'static str {
    match alignment {
        Alignment::Right => "right",
        Alignment::Center => "center",
        _ => "left",
    }
}
