//! The field dictionary: for every answer its name, label, unit, plausible range, help and kind.
//!
//! It is built by the [`record!`](crate::record) declarations themselves, so it cannot drift from the
//! types. Window, command line, papers and JSON Schema all read it; none keeps a list of its own.
//! It holds no values and no rules about what a case should contain.

use serde::Serialize;
use ts_rs::TS;

/// One answer that an entry can hold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, TS)]
pub struct Field {
    /// JSON name, also the CSV header and the name that templates use.
    pub name: &'static str,
    /// What a person reads beside the answer.
    pub label: &'static str,
    /// One sentence or two for the person who fills it in; may be empty.
    pub help: &'static str,
    /// Unit of the number, as printed.
    pub unit: Option<&'static str>,
    /// Lowest and highest value that is ordinary; outside it is worth a second look, never refused.
    pub plausible: Option<(f64, f64)>,
    /// Lowest and highest value that the scale has; outside it is refused.
    pub limits: Option<(f64, f64)>,
    /// Whether the text usually runs over several lines.
    pub long: bool,
    /// What sort of answer it is.
    pub kind: Kind,
}

/// The sort of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, TS)]
#[serde(tag = "is", rename_all = "snake_case")]
pub enum Kind {
    /// Free text.
    Text,
    /// A whole number, zero or more.
    Whole,
    /// A decimal number.
    Number,
    /// `true` or `false`; absent is "not recorded".
    YesNo,
    /// `YYYY-MM-DD`.
    Date,
    /// `YYYY-MM-DDTHH:MM`, local time.
    Time,
    /// A case identifier (UUID).
    Id,
    /// Zero-based index into the case's `components`.
    Component,
    /// One of a closed list.
    Code {
        /// The list, in the order in which it is offered.
        codes: &'static [Code],
    },
    /// Answers that belong together.
    Record {
        /// The answers, in the order in which they are asked.
        fields: &'static [Field],
    },
    /// Any number of the same.
    List {
        /// What is repeated.
        of: &'static Kind,
    },
}

/// One choice of a closed list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
pub struct Code {
    /// The stored code, lower snake case.
    pub code: &'static str,
    /// The words that a person reads, fit to stand inside a sentence.
    pub words: &'static str,
}

/// A type that can stand as an answer in an entry.
pub trait Answer {
    /// The sort of answer.
    const KIND: Kind;
    /// Tells whether nothing has been recorded.
    fn is_blank(&self) -> bool;
}

impl<T: Answer> Answer for Option<T> {
    const KIND: Kind = T::KIND;
    fn is_blank(&self) -> bool {
        self.is_none()
    }
}

impl<T: Answer> Answer for Vec<T> {
    const KIND: Kind = Kind::List { of: &T::KIND };
    fn is_blank(&self) -> bool {
        self.is_empty()
    }
}

macro_rules! plain_answer {
    ($($type:ty => $kind:ident),* $(,)?) => {$(
        impl Answer for $type {
            const KIND: Kind = Kind::$kind;
            fn is_blank(&self) -> bool {
                false
            }
        }
    )*};
}

plain_answer! {
    String => Text,
    u32 => Whole,
    f64 => Number,
    bool => YesNo,
    crate::Date => Date,
    crate::LocalTime => Time,
    crate::ComponentIndex => Component,
}

/// Finds the field at a path such as `knee.deformity.coronal_deg` or `components[2].lot`.
///
/// Indices are ignored; `None` where the dictionary has no such name.
pub fn field(path: &str) -> Option<&'static Field> {
    let mut fields = crate::Case::FIELDS;
    let mut found: Option<&'static Field> = None;
    for step in path.split('.') {
        let name = step.split('[').next().unwrap_or(step);
        let field = fields.iter().find(|f| f.name == name)?;
        fields = record_fields(&field.kind).unwrap_or(&[]);
        found = Some(field);
    }
    found
}

/// Gives the fields of a record or of a list of records.
pub fn record_fields(kind: &Kind) -> Option<&'static [Field]> {
    match kind {
        Kind::Record { fields } => Some(fields),
        Kind::List { of } => record_fields(of),
        _ => None,
    }
}
