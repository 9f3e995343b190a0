//! Filters and their options.

use super::super::filters::{self, FILTERS, FilterOption, Gives, Takes};
use super::super::flaw::Found;
use super::super::near::nearest;
use super::super::shape::Shape;
use super::super::tokens::Is;
use super::{Given, Inside, NUMBER, Read, TEXT};

impl Inside<'_, '_> {
    /// Reads one filter; without `given` it stands in `{% filter … %}` and takes the text of the section.
    pub fn filter(&mut self, given: Option<Given>) -> Read<Given> {
        let (name, at) = self.any_name("a filter")?;
        let Some(filter) = FILTERS.iter().find(|filter| filter.name == name) else {
            let found = Found::new(at, format!("There is no filter \"{name}\"."));
            let names = FILTERS.iter().map(|filter| filter.name);
            return self.refuse(match nearest(name, names.clone()) {
                Some(near) => found.hint(format!("Did you mean {near}?")),
                None => found.hint(format!("The filters are {}.", names.collect::<Vec<_>>().join(", "))),
            });
        };
        let section = given.as_ref().is_none_or(|given| given.section);
        let from = given.as_ref().map_or(at, |given| given.at);
        let shape = given.map_or(Some(&TEXT), |given| given.shape);
        let fits = match (shape, filter.takes) {
            (None, _) => true,
            (Some(shape), Takes::Text) if shape.is_text() => true,
            (Some(Shape::List(of)), Takes::Texts) => of.is_text(),
            (Some(Shape::List(_)), Takes::List) => true,
            _ => false,
        };
        if !fits {
            let has = shape.map_or("nothing", Shape::words);
            let found = Found::new(at, format!("The filter {name} takes {}, and this is {has}.", filter.takes.words()));
            self.note(match (shape, filter.takes) {
                (Some(Shape::List(of)), Takes::Text) if of.is_text() => found.hint("Join the list first: | and_list."),
                (Some(Shape::List(_)), _) => found.hint("Go through the list with {% for item in list %}."),
                _ => found,
            });
        }
        if filter.around && !section {
            let found = Found::new(at, format!("The filter {name} stands around text."));
            self.note(found.hint(format!("Write {{% filter {name} %}} … {{% endfilter %}}.")));
        }
        self.filter_options(filter, at)?;
        let shape = match filter.gives {
            Gives::Text => &TEXT,
            Gives::Number => &NUMBER,
        };
        Ok(Given { shape: Some(shape), at: from, section, ..Given::default() })
    }

    fn filter_options(&mut self, filter: &filters::Filter, at: usize) -> Read<()> {
        let mut given: Vec<&str> = Vec::new();
        if self.take_sign("(") {
            while !self.take_sign(")") {
                self.count()?;
                let (option, option_at) = self.any_name("the name of an option")?;
                let known = filter.options.iter().find(|known| known.name == option);
                if known.is_none() {
                    let names = filter.options.iter().map(|option| option.name);
                    let found =
                        Found::new(option_at, format!("The filter {} has no option \"{option}\".", filter.name));
                    self.note(match (nearest(option, names.clone()), names.collect::<Vec<_>>()) {
                        (Some(near), _) => found.hint(format!("Did you mean {near}?")),
                        (None, names) if names.is_empty() => found.hint("It has no options."),
                        (None, names) => found.hint(format!("Its options are {}.", names.join(", "))),
                    });
                } else if given.contains(&option) {
                    self.note(Found::new(option_at, format!("The option {option} stands here twice.")));
                }
                given.push(option);
                self.need_sign("=")?;
                self.option_value(known)?;
                if !self.is_sign(")") {
                    self.need_sign(",")?;
                }
            }
        }
        for option in filter.options.iter().filter(|option| option.needed && !given.contains(&option.name)) {
            let found = Found::new(at, format!("The filter {} needs the option {}.", filter.name, option.name));
            self.note(found.hint(format!("Write {}({}=\"words\").", filter.name, option.name)));
        }
        Ok(())
    }

    fn option_value(&mut self, known: Option<&FilterOption>) -> Read<()> {
        let at = self.at();
        if known.is_some_and(|known| known.level) {
            return match self.peek() {
                Some(Is::Whole("1" | "2" | "3" | "4")) => {
                    self.next += 1;
                    Ok(())
                }
                _ => self.refuse(Found::new(at, "A level is 1, 2, 3 or 4.")),
            };
        }
        let first = self.next;
        let value = self.expression()?;
        if self.next == first + 1 && value.words.is_some() {
            self.literals.push(self.tokens[first].at.end);
        }
        if let Some(shape @ (Shape::List(_) | Shape::Record(_) | Shape::Truth)) = value.shape {
            self.note(Found::new(at, format!("An option takes a text, and this is {}.", shape.words())));
        }
        Ok(())
    }
}
