//! Compiles a template, built in or own, and runs it within its budget. Compiled templates are kept.

use std::io::{self, Write};
use std::sync::{Arc, Mutex, PoisonError};

use serde_json::Value;
use tera::{Context, ErrorKind, Tera};

use super::flaw::{Flaw, Found, placed};
use super::{budget, escape, filters, walk};

/// How many compiled templates are kept: all built-in ones and a surgeon's own, with room to edit.
const KEPT: usize = 24;

/// The name of the template inside its own engine.
const NAME: &str = "template";

/// A template that may be run.
pub(super) struct Compiled {
    /// As it was given, for the places of flaws.
    source: String,
    tera: Tera,
    /// What was put in: byte of the source and length, in order.
    insertions: Vec<(usize, usize)>,
}

/// The compiled templates, the last used first.
static COMPILED: Mutex<Vec<Arc<Compiled>>> = Mutex::new(Vec::new());

/// Gives a template ready to run, compiled at most once while it is in use.
///
/// # Errors
/// Everything that is wrong with it.
pub(super) fn compiled(source: &str) -> Result<Arc<Compiled>, Vec<Flaw>> {
    // A panic elsewhere cannot leave the list half changed, so a poisoned lock is taken all the same.
    let lock = || COMPILED.lock().unwrap_or_else(PoisonError::into_inner);
    let find = |kept: &mut Vec<Arc<Compiled>>| {
        let at = kept.iter().position(|compiled| compiled.source == source)?;
        kept[..=at].rotate_right(1);
        kept.first().cloned()
    };
    if let Some(compiled) = find(&mut lock()) {
        return Ok(compiled);
    }
    let new = Arc::new(Compiled::new(source)?);
    let mut kept = lock();
    if let Some(compiled) = find(&mut kept) {
        return Ok(compiled);
    }
    kept.insert(0, Arc::clone(&new));
    kept.truncate(KEPT);
    Ok(new)
}

impl Compiled {
    fn new(source: &str) -> Result<Self, Vec<Flaw>> {
        let read = normal(source);
        let walk::Walked { found, insertions } = walk::walk(&read, None);
        if !found.is_empty() {
            return Err(placed(&read, found));
        }
        let mut filled = String::with_capacity(read.len() + insertions.len() * 40);
        let mut from = 0;
        for (at, text) in &insertions {
            filled.push_str(&read[from..*at]);
            filled.push_str(text);
            from = *at;
        }
        filled.push_str(&read[from..]);
        let mut tera = Tera::default();
        tera.autoescape_on([""]);
        tera.set_escape_fn(escape_and_spend);
        filters::register(&mut tera);
        let insertions: Vec<_> = insertions.into_iter().map(|(at, text)| (at, text.len())).collect();
        if let Err(error) = tera.add_raw_template(NAME, &filled) {
            return Err(placed(&read, vec![in_plain_words(&error, &insertions)]));
        }
        Ok(Self { source: source.to_owned(), tera, insertions })
    }

    /// Runs the template on a view.
    ///
    /// # Errors
    /// What stopped it, with its place.
    pub fn run(&self, view: &Value) -> Result<String, Flaw> {
        let (result, stopped) = budget::within(|| {
            let context = Context::from_serialize(view)?;
            let mut paper = Paper(Vec::new());
            self.tera.render_to(NAME, &context, &mut paper)?;
            Ok::<_, tera::Error>(paper.0)
        });
        let found = match (result, stopped) {
            // Every piece was whole characters, so the whole is text.
            (Ok(paper), None) => return Ok(String::from_utf8_lossy(&paper).into_owned()),
            (_, Some((sentence, at))) => Found::new(at.unwrap_or(0), sentence),
            (Err(error), None) => in_plain_words(&error, &self.insertions),
        };
        let mut flaws = placed(&normal(&self.source), vec![found]);
        Err(flaws.swap_remove(0))
    }
}

/// Takes away what an editor may put in unseen: the byte order mark and carriage returns before line
/// feeds. Lines and columns stay as they are.
pub(super) fn normal(source: &str) -> String {
    source.strip_prefix('\u{feff}').unwrap_or(source).replace("\r\n", "\n")
}

/// Escapes a printed value and accounts for it.
fn escape_and_spend(text: &str, out: &mut dyn Write) -> io::Result<()> {
    budget::made(text.len()).map_err(io::Error::other)?;
    escape::escape(text, out)
}

/// Takes the Markdown of a paper up to its limit.
struct Paper(Vec<u8>);

impl Write for Paper {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.0.len() + bytes.len() > budget::PAPER_BYTES {
            return Err(io::Error::other(budget::too_long()));
        }
        self.0.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Says what the template library found, at its place in the source as it was given.
fn in_plain_words(error: &tera::Error, insertions: &[(usize, usize)]) -> Found {
    let (ErrorKind::SyntaxError(report) | ErrorKind::RenderingError(report)) = error.kind() else {
        return Found::new(0, format!("The template cannot be used: {error}."));
    };
    let mut at = report.span().range.start;
    for (inserted, bytes) in insertions {
        if *inserted >= at {
            break;
        }
        at = at.saturating_sub(*bytes).max(*inserted);
    }
    let message = report.message().trim_end_matches('.').replace('`', "\"");
    Found::new(at, format!("{message}."))
}
