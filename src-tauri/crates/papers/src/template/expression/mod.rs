//! Reads what stands inside a tag and checks every name, filter and test in it, in branches that are
//! never taken as well.
//!
//! Only a closed part of the template language is allowed: names, words, `and`, `or`, `not`, `==`, `!=`,
//! `in`, `is`, `~`, comparisons of counted numbers, and the filters of this crate. No arithmetic, no
//! functions, no slices: nothing that can make something large out of something small.

mod compare;
mod filter;

use super::flaw::Found;
use super::scope::Scope;
use super::shape::Shape;
use super::tokens::{Is, Token};

/// Brackets inside brackets.
const DEEPEST: usize = 8;
/// Signs and filters in one tag.
const LONGEST: usize = 100;

/// Pieces that `~` joins.
const MOST_JOINED: usize = 5;

/// What an expression gives. `shape` is nothing where a flaw was found already.
#[derive(Debug, Clone, Default)]
pub(super) struct Given {
    pub shape: Option<&'static Shape>,
    /// The words, where it is nothing but words in quotation marks.
    pub words: Option<String>,
    /// The digits, where it is nothing but a number.
    pub digits: Option<String>,
    /// The name as it was written, where it is nothing but a name.
    pub name: Option<String>,
    /// It is the text that a filter stands around.
    pub section: bool,
    pub at: usize,
}

impl Given {
    /// Tells whether it is a name as it was written, and not a description of one.
    fn is_name(&self) -> bool {
        self.name.as_ref().is_some_and(|name| !name.contains(' '))
    }
}

static TEXT: Shape = Shape::Text;
static TRUTH: Shape = Shape::Truth;
static NUMBER: Shape = Shape::Number;

/// Marks that a flaw has been noted and the rest of the tag cannot be read.
pub(super) struct Unreadable;

type Read<T> = Result<T, Unreadable>;

/// Reads the tokens of one tag from left to right.
pub(super) struct Inside<'a, 's> {
    tokens: &'a [Token<'s>],
    next: usize,
    /// Byte at which the tag ends, for what is missing there.
    end: usize,
    scope: &'a Scope,
    pub found: Vec<Found>,
    /// Ends of literal words that are given to a filter: they may hold Markdown.
    pub literals: Vec<usize>,
    depth: usize,
    signs: usize,
}

impl<'a, 's> Inside<'a, 's> {
    pub fn new(tokens: &'a [Token<'s>], end: usize, scope: &'a Scope) -> Self {
        Self { tokens, next: 0, end, scope, found: Vec::new(), literals: Vec::new(), depth: 0, signs: 0 }
    }

    fn peek(&self) -> Option<&'a Is<'s>> {
        self.tokens.get(self.next).map(|token| &token.is)
    }

    /// The byte of the next token.
    pub fn at(&self) -> usize {
        self.tokens.get(self.next).map_or(self.end, |token| token.at.start)
    }

    fn is_sign(&self, sign: &str) -> bool {
        matches!(self.peek(), Some(Is::Sign(found)) if *found == sign)
    }

    fn is_name(&self, name: &str) -> bool {
        matches!(self.peek(), Some(Is::Name(found)) if *found == name)
    }

    pub fn take_sign(&mut self, sign: &str) -> bool {
        let is = self.is_sign(sign);
        self.next += usize::from(is);
        is
    }

    pub fn take_name(&mut self, name: &str) -> bool {
        let is = self.is_name(name);
        self.next += usize::from(is);
        is
    }

    /// Takes a name of any kind.
    pub fn any_name(&mut self, what: &str) -> Read<(&'s str, usize)> {
        let at = self.at();
        match self.peek() {
            Some(Is::Name(name)) => {
                self.next += 1;
                Ok((name, at))
            }
            _ => self.refuse(Found::new(at, format!("Here {what} is missing."))),
        }
    }

    pub fn need_sign(&mut self, sign: &str) -> Read<()> {
        if self.take_sign(sign) {
            return Ok(());
        }
        self.refuse(Found::new(self.at(), format!("Here {sign} is missing.")))
    }

    pub fn note(&mut self, found: Found) {
        self.found.push(found);
    }

    pub fn refuse<T>(&mut self, found: Found) -> Read<T> {
        self.note(found);
        Err(Unreadable)
    }

    /// Refuses what stands after a complete expression.
    pub fn finish(&mut self) -> Read<()> {
        let at = self.at();
        let Some(next) = self.peek() else { return Ok(()) };
        let found =
            match next {
                Is::Sign(sign @ ("+" | "-" | "*" | "/" | "%" | "//" | "**")) => {
                    Found::new(at, format!("A template does no arithmetic, so {sign} has no meaning here."))
                }
                Is::Sign("[" | "?[") => Found::new(at, "A template takes no single items out of a list.")
                    .hint("Go through the list with {% for item in list %}."),
                Is::Sign("(") => Found::new(at, "A template calls no functions."),
                Is::Sign("=") => Found::new(at, "One = has no meaning here.")
                    .hint("Write == to ask whether two things are the same."),
                Is::Sign(sign) => Found::new(at, format!("The sign {sign} has no meaning here.")),
                Is::Name("if") => Found::new(at, "The word if has no meaning here.")
                    .hint("Write {% if … %} … {% else %} … {% endif %}."),
                Is::Name(name) => Found::new(at, format!("The word {name} has no meaning here."))
                    .hint("Join names with and, or or |."),
                _ => Found::new(at, "Here stands one thing too many.").hint("Join two things with and or or."),
            };
        self.refuse(found)
    }

    fn count(&mut self) -> Read<()> {
        self.signs += 1;
        if self.signs > LONGEST {
            return self.refuse(Found::new(self.at(), "This tag is too long.").hint("Divide it into several tags."));
        }
        Ok(())
    }

    /// Reads `a or b`, the loosest binding.
    pub fn expression(&mut self) -> Read<Given> {
        self.depth += 1;
        if self.depth > DEEPEST {
            let found = Found::new(self.at(), format!("Brackets stand more than {DEEPEST} deep here."));
            return self.refuse(found.hint("Divide the question into several tags."));
        }
        let mut given = self.and()?;
        while self.take_name("or") {
            self.count()?;
            let right = self.and()?;
            // Either side may come out; a text beside a text stays a text.
            given = Given { shape: common(given.shape, right.shape), at: given.at, ..Given::default() };
        }
        self.depth -= 1;
        Ok(given)
    }

    fn and(&mut self) -> Read<Given> {
        let mut given = self.not()?;
        while self.take_name("and") {
            self.count()?;
            let right = self.not()?;
            given = Given { shape: common(given.shape, right.shape), at: given.at, ..Given::default() };
        }
        Ok(given)
    }

    fn not(&mut self) -> Read<Given> {
        let at = self.at();
        if !self.take_name("not") {
            return self.compare();
        }
        self.count()?;
        self.compare()?;
        Ok(truth(at))
    }

    fn joined(&mut self) -> Read<Given> {
        let mut given = self.piped()?;
        let mut pieces = 1;
        while self.is_sign("~") {
            pieces += 1;
            if pieces > MOST_JOINED {
                let found = Found::new(self.at(), format!("~ joins {MOST_JOINED} pieces at most."));
                return self.refuse(found.hint("Write them one after the other: {{ a }}{{ b }}."));
            }
            self.next += 1;
            self.check_text(&given);
            let right = self.piped()?;
            self.check_text(&right);
            given = Given { shape: Some(&TEXT), at: given.at, ..Given::default() };
        }
        Ok(given)
    }

    fn check_text(&mut self, given: &Given) {
        if let Some(shape @ (Shape::List(_) | Shape::Record(_) | Shape::Truth)) = given.shape {
            self.note(Found::new(given.at, format!("~ joins texts, and this is {}.", shape.words())));
        }
    }

    fn piped(&mut self) -> Read<Given> {
        let mut given = self.single()?;
        while self.take_sign("|") {
            self.count()?;
            given = self.filter(Some(given))?;
        }
        Ok(given)
    }

    fn single(&mut self) -> Read<Given> {
        let at = self.at();
        let Some(next) = self.peek() else {
            return self.refuse(Found::new(at, "Here a name is missing."));
        };
        match next {
            Is::Words(words) => {
                self.next += 1;
                let shape = Some(&TEXT);
                Ok(Given { shape, words: Some(words.to_string()), at, ..Given::default() })
            }
            Is::Whole(digits) if digits.len() <= 9 => {
                self.next += 1;
                if self.is_sign(".") {
                    return self.refuse(
                        Found::new(at, "Numbers with a decimal point have no meaning here.")
                            .hint("Answers are words: write \"7.5\" in quotation marks."),
                    );
                }
                Ok(Given { shape: Some(&NUMBER), digits: Some((*digits).to_owned()), at, ..Given::default() })
            }
            Is::Whole(_) => self.refuse(Found::new(at, "This number is too long.")),
            Is::Sign("(") => {
                self.next += 1;
                self.count()?;
                let given = self.expression()?;
                self.need_sign(")")?;
                Ok(Given { words: None, name: None, ..given })
            }
            Is::Name(word @ ("true" | "false" | "True" | "False" | "none" | "None" | "null")) => {
                self.next += 1;
                let hint = if word.eq_ignore_ascii_case("none") || *word == "null" {
                    "Ask with {% if name %} or is none."
                } else {
                    "Ask with {% if name %}; a recorded yes is the text \"yes\"."
                };
                self.refuse(Found::new(at, format!("The word {word} has no meaning here.")).hint(hint))
            }
            Is::Name("and" | "or" | "in" | "is" | "not" | "if" | "else") => {
                self.refuse(Found::new(at, "Here a name is missing."))
            }
            Is::Name(_) => self.path(),
            Is::Sign("[") => self.refuse(Found::new(at, "A list in square brackets stands only after in.")),
            Is::Sign("{") => self.refuse(Found::new(at, "A single { has no meaning inside a tag.")),
            Is::Sign(sign @ ("+" | "-" | "*" | "/" | "%" | "//" | "**")) => {
                let found = format!("A template does no arithmetic, so {sign} has no meaning here.");
                self.refuse(Found::new(at, found))
            }
            Is::Sign(sign) => self.refuse(Found::new(at, format!("Here a name is missing before {sign}."))),
            _ => self.refuse(Found::new(at, "Here a name is missing.")),
        }
    }

    /// Tells whether nothing but a name is left.
    pub fn is_path(&self) -> bool {
        let left = self.tokens.get(self.next..).unwrap_or_default();
        !left.is_empty() && left.iter().all(|token| matches!(token.is, Is::Name(_) | Is::Sign(".")))
    }

    /// Reads a name such as `knee.deformity.coronal_deg` and finds it in the view.
    pub fn path(&mut self) -> Read<Given> {
        let (root, at) = self.any_name("a name")?;
        if self.is_sign("(") {
            let found = Found::new(at, format!("A template calls no functions, so {root}(…) has no meaning."));
            return self.refuse(found);
        }
        let mut name = root.to_owned();
        let known = self.scope.root(root);
        if known.is_err() {
            // The hint is about the whole name that was written.
            let hint = self.scope.hint(root, &self.rest_of_path(root));
            self.note(Found { at, message: format!("There is no name \"{root}\" here."), hint });
        }
        let mut shape = known.ok().flatten();
        loop {
            self.signs += usize::from(self.is_sign("."));
            if self.signs > LONGEST {
                self.count()?;
            }
            if !self.take_sign(".") {
                break;
            }
            let (step, step_at) = self.any_name("a name after the point")?;
            if let Some(inside) = shape {
                shape = match self.scope.step(inside, &name, step) {
                    Ok(next) => Some(next),
                    Err((message, hint)) => {
                        self.note(Found { at: step_at, message, hint });
                        None
                    }
                };
            }
            name = format!("{name}.{step}");
        }
        Ok(Given { shape, name: Some(name), at, ..Given::default() })
    }

    fn rest_of_path(&self, root: &str) -> String {
        let mut path = root.to_owned();
        let mut next = self.next;
        while let (Some(Token { is: Is::Sign("."), .. }), Some(Token { is: Is::Name(step), .. })) =
            (self.tokens.get(next), self.tokens.get(next + 1))
        {
            path = format!("{path}.{step}");
            next += 2;
        }
        path
    }
}

fn truth(at: usize) -> Given {
    Given { shape: Some(&TRUTH), at, ..Given::default() }
}

/// The shape of what may be one or the other; what cannot be printed decides.
fn common(left: Option<&'static Shape>, right: Option<&'static Shape>) -> Option<&'static Shape> {
    match (left?, right?) {
        (left, right) if left == right => Some(left),
        (left @ (Shape::List(_) | Shape::Record(_)), _) => Some(left),
        (_, right @ (Shape::List(_) | Shape::Record(_))) => Some(right),
        (left, right) if left.is_text() && right.is_text() => Some(&TEXT),
        (left, _) => Some(left),
    }
}
