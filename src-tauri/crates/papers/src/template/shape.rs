//! The view's contract as a tree: which names there are, of what sort, and what they mean.
//!
//! It is built from the field dictionary and from the table beside the facts, and knows no entry.

use std::sync::LazyLock;

use evengap_case::Case;
use evengap_case::dictionary::{Code, Field, Kind as Answer};

use super::contract::What;
use crate::view::meanings::{ADDED, Added, Sort};
use crate::{Language, words};

/// What stands under a name.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    /// Words, or nothing where nothing is recorded.
    Text,
    /// The words for yes or no, or nothing.
    YesNo,
    /// The words of one of a closed list of codes, or nothing; `place` is where a language has its words.
    Worded { place: String, codes: &'static [Code] },
    /// One of a closed list of codes, or nothing.
    Code(Vec<&'static str>),
    /// True or false.
    Truth,
    /// A number that the template itself counts, such as `loop.index`.
    Number,
    /// Names that belong together.
    Record(Vec<Part>),
    /// Any number of the same.
    List(Box<Shape>),
}

/// One name of a record.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Part {
    pub name: String,
    pub what: What,
    pub meaning: String,
    pub shape: Shape,
}

/// The whole view. Every kind of paper sees the same names.
pub(super) static VIEW: LazyLock<Shape> = LazyLock::new(|| {
    let mut view = Shape::Record(record(Case::FIELDS, ""));
    for added in ADDED {
        let shape = match &added.sort {
            Sort::Text => Shape::Text,
            Sort::Truth => Shape::Truth,
            Sort::OneOf(codes) => Shape::Code(codes.to_vec()),
            Sort::Record => Shape::Record(Vec::new()),
            Sort::Texts => Shape::List(Box::new(Shape::Text)),
            Sort::Records => Shape::List(Box::new(Shape::Record(Vec::new()))),
            Sort::Like(path) => view.at(path).cloned().unwrap_or(Shape::Text),
        };
        view.add(added, shape);
    }
    view
});

/// The names that a `for` gives inside its body.
pub(super) static LOOP: LazyLock<Shape> = LazyLock::new(|| {
    let parts = [
        ("index", What::Number, "number of the round, from 1", Shape::Number),
        ("index0", What::Number, "number of the round, from 0", Shape::Number),
        ("first", What::Truth, "whether this is the first round", Shape::Truth),
        ("last", What::Truth, "whether this is the last round", Shape::Truth),
        ("length", What::Number, "how many rounds there are", Shape::Number),
    ];
    let part = |(name, what, meaning, shape): (&str, What, &str, Shape)| Part {
        name: name.to_owned(),
        what,
        meaning: meaning.to_owned(),
        shape,
    };
    Shape::Record(parts.map(part).to_vec())
});

impl Shape {
    /// The names inside; none where there are none.
    pub fn parts(&self) -> &[Part] {
        match self {
            Self::Record(parts) => parts,
            _ => &[],
        }
    }

    /// Finds the shape at a path such as `derived.did[].person`.
    pub fn at(&self, path: &str) -> Option<&Self> {
        path.split('.').try_fold(self, |shape, step| {
            let name = step.trim_end_matches("[]");
            let found = &shape.parts().iter().find(|part| part.name == name)?.shape;
            match found {
                Self::List(of) if step.ends_with("[]") => Some(of.as_ref()),
                _ => Some(found),
            }
        })
    }

    fn parts_mut(&mut self, path: &str) -> Option<&mut Vec<Part>> {
        let mut shape = self;
        for step in path.split('.').filter(|step| !step.is_empty()) {
            let name = step.trim_end_matches("[]");
            let Self::Record(parts) = shape else { return None };
            shape = &mut parts.iter_mut().find(|part| part.name == name)?.shape;
            if let Self::List(of) = shape {
                shape = of;
            }
        }
        match shape {
            Self::Record(parts) => Some(parts),
            _ => None,
        }
    }

    fn add(&mut self, added: &Added, shape: Shape) {
        let (record, name) = added.name.rsplit_once('.').unwrap_or(("", added.name));
        // A row whose record is missing shows in the test that compares contract and view.
        if let Some(parts) = self.parts_mut(record) {
            parts.retain(|part| part.name != name);
            let what = What::of_added(&added.sort, &shape);
            parts.push(Part { name: name.to_owned(), what, meaning: added.meaning.to_owned(), shape });
        }
    }

    /// Tells whether words stand there, ready to print.
    pub fn is_text(&self) -> bool {
        matches!(self, Self::Text | Self::YesNo | Self::Worded { .. } | Self::Code(_))
    }

    /// Everything that can stand there in a language, where that is a closed list of words.
    pub fn closed_words(&self, language: Language) -> Option<Vec<&'static str>> {
        let words = words::of(language);
        match self {
            Self::YesNo => Some(vec![&words.values.yes, &words.values.no]),
            Self::Worded { place, codes } => {
                Some(codes.iter().map(|code| words.code(place, code.code).unwrap_or(code.words)).collect())
            }
            _ => None,
        }
    }

    /// The word for this sort in a sentence.
    pub fn words(&self) -> &'static str {
        match self {
            Self::Text | Self::YesNo | Self::Worded { .. } | Self::Code(_) => "a text",
            Self::Truth => "true or false",
            Self::Number => "a number",
            Self::Record(_) => "a group of names",
            Self::List(_) => "a list",
        }
    }
}

fn record(fields: &'static [Field], before: &str) -> Vec<Part> {
    let mut parts = Vec::new();
    for field in fields {
        let place = format!("{before}/{}", field.name);
        if let Answer::Code { codes } = field.kind {
            let codes: Vec<_> = codes.iter().map(|code| code.code).collect();
            parts.push(Part {
                name: format!("{}_code", field.name),
                what: What::Code,
                meaning: format!("{}, as its code: {}.", field.label, codes.join(", ")),
                shape: Shape::Code(codes),
            });
        }
        let what = What::of_answer(&field.kind);
        parts.push(Part {
            name: field.name.to_owned(),
            what,
            meaning: meaning(field),
            shape: answer(&field.kind, place),
        });
    }
    parts
}

fn answer(kind: &'static Answer, place: String) -> Shape {
    match kind {
        Answer::Record { fields } => Shape::Record(record(fields, &place)),
        Answer::List { of } => Shape::List(Box::new(answer(of, place))),
        Answer::YesNo => Shape::YesNo,
        Answer::Code { codes } => Shape::Worded { place, codes },
        _ => Shape::Text,
    }
}

fn meaning(field: &Field) -> String {
    let unit = field.unit.map(|unit| format!(" ({unit})")).unwrap_or_default();
    let help = if field.help.is_empty() { String::new() } else { format!(" {}", field.help) };
    // A recorded "no" is words like any other answer, so asking whether it is there finds it.
    let asked = match field.kind {
        Answer::YesNo => " {% if … %} is true for \"no\" too; write == \"yes\".",
        _ => "",
    };
    format!("{}{unit}.{help}{asked}", field.label)
}
