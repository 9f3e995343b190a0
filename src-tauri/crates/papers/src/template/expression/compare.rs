//! Comparisons, tests after `is`, and lists after `in`.

use super::super::flaw::Found;
use super::super::near::nearest;
use super::super::shape::Shape;
use super::super::tokens::{Is, Token};
use super::{Given, Inside, Read, TEXT, truth};

/// Tests after `is`.
const TESTS: [(&str, bool); 4] =
    [("none", false), ("starting_with", true), ("ending_with", true), ("containing", true)];

impl Inside<'_, '_> {
    pub(super) fn compare(&mut self) -> Read<Given> {
        let left = self.joined()?;
        let at = self.at();
        let sign = match self.peek() {
            Some(Is::Sign(sign @ ("==" | "!=" | "<" | ">" | "<=" | ">="))) => *sign,
            Some(Is::Name("in")) => "in",
            Some(Is::Name("is")) => "is",
            Some(Is::Name("not"))
                if matches!(self.tokens.get(self.next + 1), Some(Token { is: Is::Name("in"), .. })) =>
            {
                self.next += 1;
                "in"
            }
            _ => return Ok(left),
        };
        self.next += 1;
        self.count()?;
        match sign {
            "is" => self.test(&left)?,
            "in" => self.within(&left)?,
            "==" | "!=" => {
                let right = self.joined()?;
                self.check_words(&left, &right);
                self.check_words(&right, &left);
                self.check_sorts(&left, &right);
            }
            _ => {
                let right = self.joined()?;
                for side in [&left, &right] {
                    if side.shape.is_some_and(|shape| *shape != Shape::Number) {
                        self.note(
                            Found::new(at, format!("{sign} compares counted numbers only, such as loop.index."))
                                .hint("Answers are words: ask with == or !=."),
                        );
                        break;
                    }
                }
            }
        }
        if matches!(self.peek(), Some(Is::Sign("==" | "!=" | "<" | ">" | "<=" | ">=")) | Some(Is::Name("in" | "is"))) {
            let found = Found::new(self.at(), "Two comparisons stand side by side.");
            return self.refuse(found.hint("Join them with and."));
        }
        Ok(truth(left.at))
    }

    /// A closed list of codes or words that is compared with words that are not in it.
    fn check_words(&mut self, closed: &Given, words: &Given) {
        let (Some(shape), Some(text)) = (closed.shape, &words.words) else { return };
        let list = match shape {
            Shape::Code(codes) => Some(codes.clone()),
            shape => self.scope.language.and_then(|language| shape.closed_words(language)),
        };
        let Some(list) = list.filter(|list| !list.contains(&text.as_str())) else { return };
        let name = closed.name.as_deref().unwrap_or("This");
        let found = Found::new(words.at, format!("{name} is never \"{text}\"."));
        // A short name, and an item of a list, have no such name beside them.
        let is_code = name.contains('.')
            && closed.is_name()
            && matches!(shape, Shape::Worded { codes, .. } if codes.iter().any(|code| code.code == text));
        self.note(match nearest(text, list.iter().copied()).or_else(|| nearest(&text.to_lowercase(), list.clone())) {
            _ if is_code => found.hint(format!("That is a code: ask {name}_code.")),
            Some(near) => found.hint(format!("Did you mean \"{near}\"?")),
            None => found.hint(format!("It is one of {}.", list.join(", "))),
        });
    }

    /// Two things of different sorts, which are never the same.
    fn check_sorts(&mut self, left: &Given, right: &Given) {
        let (Some(one), Some(other), Some(_)) = (left.shape, right.shape, self.scope.language) else { return };
        if one.words() == other.words() {
            return;
        }
        // The sentence is about the side that has a name.
        let (named, against) = if left.name.is_none() && right.name.is_some() { (right, left) } else { (left, right) };
        let (Some(shape), Some(beside)) = (named.shape, against.shape) else { return };
        let name = named.name.as_deref().unwrap_or("This");
        let message = format!("{name} is {} and never the same as {}.", shape.words(), beside.words());
        let found = Found::new(against.at, message);
        self.note(match (shape, &against.digits, &against.words) {
            (shape, Some(digits), _) if shape.is_text() => {
                found.hint(format!("Answers are words: write \"{digits}\" in quotation marks."))
            }
            (Shape::Number, _, Some(words)) if words.parse::<u32>().is_ok() => {
                found.hint(format!("Write {words} without quotation marks."))
            }
            (Shape::Truth, ..) if named.is_name() => found.hint(format!("Ask {{% if {name} %}}.")),
            (Shape::List(_), _, Some(words)) if named.is_name() => {
                found.hint(format!("Ask {{% if \"{words}\" in {name} %}}."))
            }
            _ => found,
        });
    }

    fn test(&mut self, left: &Given) -> Read<()> {
        self.take_name("not");
        let (name, at) = self.any_name("a test")?;
        let Some((_, takes)) = TESTS.into_iter().find(|(test, _)| *test == name) else {
            let found = Found::new(at, format!("There is no test \"{name}\"."));
            let names = TESTS.map(|(name, _)| name);
            return self.refuse(match nearest(name, names) {
                Some(near) => found.hint(format!("Did you mean {near}?")),
                None => found.hint(format!("The tests are {}.", names.join(", "))),
            });
        };
        if takes {
            if !left.shape.is_none_or(Shape::is_text) {
                self.note(Found::new(left.at, format!("The test {name} needs a text.")));
            }
            self.need_sign("(")?;
            if !self.take_name("words") {
                return self.refuse(Found::new(self.at(), format!("Write {name}(words=\"…\").")));
            }
            self.need_sign("=")?;
            let at = self.at();
            if !matches!(self.peek(), Some(Is::Words(_))) {
                return self.refuse(Found::new(at, format!("{name} needs words in quotation marks.")));
            }
            self.next += 1;
            self.need_sign(")")?;
        }
        Ok(())
    }

    /// The list after `in`: a name, or words in square brackets.
    fn within(&mut self, left: &Given) -> Read<()> {
        let at = self.at();
        if !self.take_sign("[") {
            let list = self.joined()?;
            return match list.shape {
                None => Ok(()),
                Some(Shape::List(of)) => {
                    let name = list.name.map(|name| format!("An item of {name}"));
                    let item = Given { shape: Some(of), name, at, ..Given::default() };
                    self.check_words(&item, left);
                    self.check_sorts(left, &item);
                    Ok(())
                }
                Some(shape) => {
                    let found = Found::new(at, format!("in asks a list, and this is {}.", shape.words()));
                    self.note(found.hint("Ask a text with is containing(words=\"…\")."));
                    Ok(())
                }
            };
        }
        loop {
            let at = self.at();
            let Some(Is::Words(words)) = self.peek() else {
                return self.refuse(Found::new(at, "Here words in quotation marks are missing."));
            };
            self.count()?;
            self.next += 1;
            let shape = Some(&TEXT);
            let words = Given { shape, words: Some(words.to_string()), at, ..Given::default() };
            self.check_words(left, &words);
            self.check_sorts(left, &words);
            if self.take_sign("]") {
                return Ok(());
            }
            self.need_sign(",")?;
        }
    }
}
