//! Goes through a template from its first to its last tag and notes everything that is wrong with it,
//! and what the compiler has to add.
//!
//! Invariant: a template without flaws here holds only the tags of [`TAGS`], closed and nested no deeper
//! than the template library can bear, and every loop of it is known.

use super::budget::SOURCE_BYTES;
use super::expression::{Given, Inside, Unreadable};
use super::flaw::{Found, MOST};
use super::near::nearest;
use super::scope::Scope;
use super::shape::Shape;
use super::tokens::{self, Is, Token, shown};
use crate::Language;

/// Tags inside tags.
const DEEPEST: usize = 20;
/// `elif`s of one `if`.
const MOST_ELIFS: usize = 50;
/// The tags that open, and what closes them.
const TAGS: [(&str, &str); 3] = [("if", "endif"), ("for", "endfor"), ("filter", "endfilter")];

/// What was found in a template.
pub(super) struct Walked {
    pub found: Vec<Found>,
    /// Texts to be put in at bytes of the source, in order.
    pub insertions: Vec<(usize, String)>,
}

/// Goes through a source; it is to have no carriage returns and no byte order mark.
///
/// With a language, comparisons that can never be true there are flaws as well.
pub(super) fn walk(source: &str, language: Option<Language>) -> Walked {
    if source.len() > SOURCE_BYTES {
        let limit = SOURCE_BYTES / 1024;
        let found = Found::new(
            0,
            format!("This template is too long: {} kB; the limit is {limit} kB.", source.len().div_ceil(1024)),
        );
        return Walked { found: vec![found], insertions: Vec::new() };
    }
    let (tokens, mut found) = tokens::read(source);
    found.extend(unprintable(source));
    let mut walker = Walker { found, insertions: Vec::new(), open: Vec::new(), scope: Scope::new(language) };
    walker.all(&tokens);
    let Walker { found, mut insertions, .. } = walker;
    insertions.sort_by_key(|(at, _)| *at);
    Walked { found, insertions }
}

/// Signs that no paper can print.
fn unprintable(source: &str) -> impl Iterator<Item = Found> + '_ {
    let bad = source.char_indices().filter(|(_, sign)| sign.is_control() && !matches!(sign, '\n' | '\t'));
    bad.take(MOST)
        .map(|(at, sign)| Found::new(at, format!("The sign {} cannot be printed.", shown(sign))).hint("Take it out."))
}

/// An open tag.
struct Open {
    name: &'static str,
    end: &'static str,
    at: usize,
    /// Where its body begins, and whether blanks there are taken away.
    body: usize,
    trims: bool,
    has_else: bool,
    elifs: usize,
}

struct Walker {
    found: Vec<Found>,
    insertions: Vec<(usize, String)>,
    open: Vec<Open>,
    scope: Scope,
}

impl Walker {
    fn all(&mut self, tokens: &[Token<'_>]) {
        let mut next = 0;
        while let Some(token) = tokens.get(next) {
            next += 1;
            let prints = match token.is {
                Is::PrintStart => true,
                Is::TagStart => false,
                _ => continue,
            };
            // The lexer leaves out a tag that has no end.
            let length = tokens[next..].iter().take_while(|token| !matches!(token.is, Is::End(_))).count();
            let Some(end) = tokens.get(next + length) else { break };
            let inside = &tokens[next..next + length];
            next += length + 1;
            if prints {
                self.print(inside, token.at.start, end.at.start);
            } else {
                self.tag(inside, token.at.start, end);
            }
            if self.found.len() >= MOST {
                return;
            }
        }
        for open in std::mem::take(&mut self.open) {
            let message = format!("This {{% {} %}} is never closed.", open.name);
            self.found.push(Found::new(open.at, message).hint(format!("Close it with {{% {} %}}.", open.end)));
        }
    }

    /// Reads the inside of a tag; what was noted is kept even where it could not be read to its end.
    fn read<T>(
        &mut self,
        inside: &[Token<'_>],
        end: usize,
        read: impl FnOnce(&mut Inside<'_, '_>) -> Result<T, Unreadable>,
    ) -> Option<T> {
        let mut reader = Inside::new(inside, end, &self.scope);
        let result = read(&mut reader);
        let (found, literals) = (reader.found, reader.literals);
        self.found.extend(found);
        self.insertions.extend(literals.into_iter().map(|at| (at, format!(" | {}", super::filters::LITERAL))));
        result.ok()
    }

    fn print(&mut self, inside: &[Token<'_>], at: usize, end: usize) {
        if inside.is_empty() {
            self.found.push(Found::new(at, "This tag is empty.").hint("Write a name: {{ patient.given_name }}."));
            return;
        }
        self.read(inside, end, |reader| {
            let given = reader.expression()?;
            reader.finish()?;
            if let Some(found) = unfit_to_print(&given) {
                reader.note(found);
            }
            Ok(())
        });
    }

    fn tag(&mut self, inside: &[Token<'_>], at: usize, end: &Token<'_>) {
        let name = match inside.first() {
            Some(Token { is: Is::Name(name), .. }) => *name,
            _ => {
                let found = Found::new(at, "This tag has no name.");
                self.found.push(found.hint("The tags are if, for, filter and set."));
                return;
            }
        };
        let (rest, end_at) = (&inside[1..], end.at.start);
        match name {
            "if" => {
                self.question(rest, end_at);
                self.opens(0, at, end);
            }
            "elif" | "else" => self.other_branch(name, rest, at, end_at),
            "for" => self.for_each(rest, at, end),
            "filter" => {
                self.read(rest, end_at, |reader| {
                    let mut given = reader.filter(None)?;
                    while reader.take_sign("|") {
                        given = reader.filter(Some(given))?;
                    }
                    reader.finish()
                });
                self.opens(2, at, end);
            }
            "set" => self.set(rest, end_at),
            _ => match TAGS.iter().find(|(_, end)| *end == name) {
                Some(_) => self.closes(name, rest, at),
                None => self.found.push(unknown_tag(name, inside[0].at.start)),
            },
        }
    }

    fn question(&mut self, inside: &[Token<'_>], end: usize) {
        self.read(inside, end, |reader| {
            reader.expression()?;
            reader.finish()
        });
    }

    fn opens(&mut self, tag: usize, at: usize, end: &Token<'_>) {
        let (name, close) = TAGS[tag];
        if self.open.len() == DEEPEST {
            let found = Found::new(at, format!("Tags stand more than {DEEPEST} deep here."));
            self.found.push(found.hint("Write them one after the other."));
        }
        self.open.push(Open {
            name,
            end: close,
            at,
            body: end.at.end,
            trims: end.is == Is::End(true),
            has_else: false,
            elifs: 0,
        });
        self.scope.open(name == "for");
    }

    fn other_branch(&mut self, name: &str, inside: &[Token<'_>], at: usize, end: usize) {
        let Some(open) = self.open.last_mut().filter(|open| open.name == "if" || name == "else" && open.name == "for")
        else {
            let message = format!("This {{% {name} %}} belongs to no open {{% if %}}.");
            self.found.push(Found::new(at, message));
            return;
        };
        if open.has_else {
            self.found.push(Found::new(at, format!("This {{% {name} %}} stands after the {{% else %}}.")));
            return;
        }
        let is_loop = open.name == "for";
        if name == "else" {
            open.has_else = true;
        } else {
            open.elifs += 1;
            if open.elifs == MOST_ELIFS + 1 {
                self.found.push(Found::new(at, format!("This {{% if %}} has more than {MOST_ELIFS} {{% elif %}}.")));
            }
        }
        if is_loop {
            self.end_of_loop(at);
        }
        // What a branch sets is not known in the next one.
        self.scope.close();
        self.scope.open(false);
        if name == "elif" {
            self.question(inside, end);
        } else {
            self.read(inside, end, |reader| reader.finish());
        }
    }

    fn for_each(&mut self, inside: &[Token<'_>], at: usize, end: &Token<'_>) {
        let read = self.read(inside, end.at.start, |reader| {
            let (item, item_at) = reader.any_name("the name of an item")?;
            if reader.take_sign(",") {
                return reader.refuse(Found::new(item_at, "for gives one name.").hint("Write {% for item in list %}."));
            }
            if !reader.take_name("in") {
                let found = Found::new(reader.at(), "Here the word in is missing.");
                return reader.refuse(found.hint("Write {% for item in list %}."));
            }
            let list = reader.path()?;
            reader.finish()?;
            Ok((item.to_owned(), item_at, list))
        });
        let mut item = None;
        if let Some((name, name_at, list)) = read {
            self.check_new_name(&name, name_at);
            let shape = match list.shape {
                Some(Shape::List(of)) => Some(&**of),
                Some(shape) => {
                    let written = list.name.as_deref().unwrap_or("This");
                    let message = format!("{written} is {}, and for goes through a list.", shape.words());
                    self.found.push(Found::new(list.at, message));
                    None
                }
                None => None,
            };
            item = Some((name, shape));
        }
        self.opens(1, at, end);
        if let Some((name, shape)) = item {
            self.scope.add(&name, shape);
        }
    }

    /// A new name must not mean something already, and must be one that the template language leaves free.
    fn check_new_name(&mut self, name: &str, at: usize) {
        const RESERVED: [&str; 16] = [
            "true", "True", "false", "False", "none", "None", "null", "loop", "self", "and", "or", "not", "is", "in",
            "continue", "break",
        ];
        if name.starts_with('_') || RESERVED.contains(&name) {
            self.found.push(Found::new(at, format!("The name {name} cannot be given.")).hint("Choose another name."));
        } else if self.scope.has(name) {
            let found = Found::new(at, format!("The name {name} means something else already."));
            self.found.push(found.hint("Choose another name."));
        }
    }

    fn set(&mut self, inside: &[Token<'_>], end: usize) {
        let read = self.read(inside, end, |reader| {
            let (name, name_at) = reader.any_name("a name")?;
            if !reader.take_sign("=") {
                let found = Found::new(reader.at(), "Here = is missing.");
                return reader.refuse(found.hint("Write {% set short = knee.diagnosis %}."));
            }
            let at = reader.at();
            if !reader.is_path() {
                let found = Found::new(at, "set gives a short name to a longer one, and nothing else.");
                return reader.refuse(found.hint("Write {% set short = knee.diagnosis %}."));
            }
            let given = reader.path()?;
            reader.finish()?;
            Ok((name.to_owned(), name_at, given.shape))
        });
        if let Some((name, at, shape)) = read {
            self.check_new_name(&name, at);
            self.scope.add(&name, shape);
        }
    }

    fn closes(&mut self, name: &str, inside: &[Token<'_>], at: usize) {
        let Some(open) = self.open.last() else {
            self.found.push(Found::new(at, format!("This {{% {name} %}} closes nothing.")).hint("Take it out."));
            return;
        };
        if open.end != name {
            let message =
                format!("{{% {name} %}} stands here where {{% {} %}} has to close {{% {} %}}.", open.end, open.name);
            self.found.push(Found::new(at, message));
            // Close what was meant, so that one slip is one flaw.
            match self.open.iter().rposition(|open| open.end == name) {
                Some(depth) => {
                    while self.open.len() > depth {
                        self.open.pop();
                        self.scope.close();
                    }
                }
                None => {
                    self.open.pop();
                    self.scope.close();
                }
            }
            return;
        }
        if open.name == "for" && !open.has_else {
            self.end_of_loop(at);
        }
        self.open.pop();
        self.scope.close();
        self.read(inside, at, |reader| reader.finish());
    }

    /// Makes the loop that ends at `at` spend its rounds.
    fn end_of_loop(&mut self, at: usize) {
        if let Some(open) = self.open.last() {
            let (body, trims) = (at.saturating_sub(open.body), if open.trims { "-" } else { "" });
            let call = format!("{{{{ {}(body={body}, at={}) {trims}}}}}", super::filters::ROUND, open.at);
            self.insertions.push((open.body, call));
        }
    }
}

fn unfit_to_print(given: &Given) -> Option<Found> {
    let shape = given.shape.filter(|shape| !shape.is_text() && **shape != Shape::Number)?;
    let written = given.name.as_deref().unwrap_or("This");
    let found = Found::new(given.at, format!("{written} is {} and cannot be printed.", shape.words()));
    // Only what has a name can be named in a hint.
    let Some(name) = &given.name else { return Some(found) };
    Some(match shape {
        Shape::List(of) if of.is_text() => found.hint(format!("Join it: {{{{ {name} | and_list }}}}.")),
        Shape::List(_) => found.hint(format!("Go through it with {{% for item in {name} %}}.")),
        Shape::Record(parts) => match parts.iter().find(|part| part.shape.is_text()) {
            Some(first) => found.hint(format!("Print one of its names, such as {name}.{}.", first.name)),
            None => found,
        },
        _ => found.hint(format!("Ask for it: {{% if {name} %}}.")),
    })
}

fn unknown_tag(name: &str, at: usize) -> Found {
    let refused = match name {
        "include" | "import" | "extends" | "block" | "endblock" => Some("A template stands alone: it reads no other"),
        "raw" | "endraw" => Some("Typed text is printed as typed, so nothing needs raw"),
        "set_global" | "endset" | "macro" | "component" | "break" | "continue" => Some("Templates here do without it"),
        _ => None,
    };
    if let Some(why) = refused {
        return Found::new(at, format!("The tag {name} is not allowed. {why}."));
    }
    let found = Found::new(at, format!("There is no tag \"{name}\"."));
    let known = ["if", "elif", "else", "endif", "for", "endfor", "filter", "endfilter", "set"];
    match nearest(name, known) {
        Some(near) => found.hint(format!("Did you mean {near}?")),
        None => found.hint("The tags are if, for, filter and set."),
    }
}
