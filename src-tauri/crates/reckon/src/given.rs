//! The JSON face of the inputs: takes named values out of an object, refuses unknown names and impossible values, and
//! remembers what was given and what was lacking. The reckonings themselves know no JSON.

use std::collections::BTreeSet;

use serde_json::{Map, Value};

use crate::Refusal;
use crate::answer::{Answer, Echo};
use crate::reckoning::{Input, Reckoning};
use crate::refusal::Problem;

/// A value that can be read from JSON under the name of its input.
pub trait Read: Sized {
    /// Reads the value, or refuses it with a sentence that begins with `name`.
    fn read(name: &str, value: &Value) -> Result<Self, Refusal>;
}

impl Read for bool {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        value.as_bool().ok_or_else(|| Refusal::of(name, format!("true or false is needed here, not {}.", said(value))))
    }
}

impl Read for String {
    fn read(name: &str, value: &Value) -> Result<Self, Refusal> {
        let text = value.as_str().map(str::trim).filter(|text| !text.is_empty());
        text.map(str::to_owned).ok_or_else(|| Refusal::of(name, format!("a text is needed here, not {}.", said(value))))
    }
}

/// Says what was given instead, in a few words.
pub(crate) fn said(value: &Value) -> String {
    match value {
        Value::Null => "nothing".into(),
        Value::Bool(yes) => yes.to_string(),
        Value::Number(number) => number.to_string(),
        Value::String(text) if text.is_empty() => "an empty text".into(),
        Value::String(text) if text.chars().count() > 40 => {
            format!("“{}…”", text.chars().take(40).collect::<String>())
        }
        Value::String(text) => format!("“{text}”"),
        Value::Array(_) => "a list".into(),
        Value::Object(_) => "a group of values in braces".into(),
    }
}

/// The values given to one reckoning, or to one line of a list within it.
pub struct Given<'a> {
    reckoning: &'static Reckoning,
    /// Prefix of the names, such as `inflations[1].`; empty at the top.
    prefix: String,
    inputs: &'static [Input],
    values: &'a Map<String, Value>,
    refused: Vec<Problem>,
    lacking: BTreeSet<String>,
}

impl<'a> Given<'a> {
    /// Opens the values of a reckoning; unknown names are refused with the nearest known one.
    pub(crate) fn open(reckoning: &'static Reckoning, values: &'a Map<String, Value>) -> Self {
        Self::within(reckoning, String::new(), reckoning.inputs, values)
    }

    fn within(
        reckoning: &'static Reckoning,
        prefix: String,
        inputs: &'static [Input],
        values: &'a Map<String, Value>,
    ) -> Self {
        let mut given = Self { reckoning, prefix, inputs, values, refused: Vec::new(), lacking: BTreeSet::new() };
        for name in values.keys() {
            if inputs.iter().all(|input| input.name != name) {
                let message = unknown(name, inputs);
                given.refused.push(Problem { input: format!("{}{name}", given.prefix), message });
            }
        }
        given
    }

    /// Takes one value. Nothing where it was not given (or is null), or was refused; a lacking value that the
    /// reckoning requires is remembered for [`Given::needs`].
    pub fn take<T: Read>(&mut self, name: &'static str) -> Option<T> {
        let value = self.value(name)?;
        let full = format!("{}{name}", self.prefix);
        self.keep(T::read(&full, value))
    }

    /// Takes a list of plain values, such as the thicknesses to hand.
    pub fn list<T: Read>(&mut self, name: &'static str) -> Option<Vec<T>> {
        let items = self.items(name)?;
        let mut read = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            let full = format!("{}{name}[{index}]", self.prefix);
            read.push(self.keep(T::read(&full, item))?);
        }
        Some(read)
    }

    /// Takes a list of lines, each an object whose names are declared in the input's `lines`.
    /// Nothing where the list or any line's required value is lacking or refused.
    pub fn lines<T>(
        &mut self,
        name: &'static str,
        mut read: impl FnMut(&mut Given<'_>) -> Option<T>,
    ) -> Option<Vec<T>> {
        let items = self.items(name)?;
        if items.is_empty() {
            // An empty list says nothing, least of all zero.
            self.lacking.insert(name.to_owned());
            return None;
        }
        let declared = self.inputs.iter().find(|input| input.name == name).map_or(&[][..], |input| input.lines);
        let mut all = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            let full = format!("{}{name}[{index}]", self.prefix);
            let Some(values) = item.as_object() else {
                let message = format!("a group of values in braces is needed here, not {}.", said(item));
                self.refused.push(Problem { input: full, message });
                continue;
            };
            let mut line = Given::within(self.reckoning, format!("{full}."), declared, values);
            let read = read(&mut line);
            self.refused.append(&mut line.refused);
            self.lacking.append(&mut line.lacking);
            all.extend(read);
        }
        (all.len() == items.len()).then_some(all)
    }

    /// The answer where a required value is lacking: it names what is needed and guesses nothing.
    pub fn needs(&self) -> Answer {
        let mut answer = Answer::of(self.reckoning);
        let names: Vec<&str> = self.lacking.iter().map(String::as_str).collect();
        answer.not_computable = Some(needs(&names));
        answer
    }

    /// Ends the reading: the answer with the given values echoed, or all refusals.
    pub(crate) fn close(self, mut answer: Answer) -> Result<Answer, Refusal> {
        if !self.refused.is_empty() {
            return Err(Refusal { problems: self.refused });
        }
        for input in self.inputs {
            if let Some(value) = self.values.get(input.name).filter(|value| !value.is_null()) {
                answer.inputs.push(Echo {
                    name: input.name.into(),
                    value: value.clone(),
                    unit: input.unit.map(Into::into),
                });
            }
        }
        Ok(answer)
    }

    pub(crate) fn is_refused(&self) -> bool {
        !self.refused.is_empty()
    }

    fn keep<T>(&mut self, read: Result<T, Refusal>) -> Option<T> {
        read.map_err(|refusal| self.refused.extend(refusal.problems)).ok()
    }

    fn value(&mut self, name: &'static str) -> Option<&'a Value> {
        debug_assert!(self.inputs.iter().any(|input| input.name == name), "{name} must be declared as an input");
        let value = self.values.get(name).filter(|value| !value.is_null());
        if value.is_none() && self.inputs.iter().any(|input| input.name == name && input.required) {
            self.lacking.insert(format!("{}{name}", self.prefix));
        }
        value
    }

    fn items(&mut self, name: &'static str) -> Option<&'a Vec<Value>> {
        let value = self.value(name)?;
        let items = value.as_array();
        if items.is_none() {
            let message = format!("a list is needed here, not {}.", said(value));
            self.refused.push(Problem { input: format!("{}{name}", self.prefix), message });
        }
        items
    }
}

/// Says what is needed: "needs a, b and c".
pub(crate) fn needs(names: &[&str]) -> String {
    match names {
        [] => "needs more than was given".into(),
        [one] => format!("needs {one}"),
        [first @ .., last] => format!("needs {} and {last}", first.join(", ")),
    }
}

fn unknown(name: &str, inputs: &[Input]) -> String {
    let nearest = inputs
        .iter()
        .map(|input| (strsim::jaro_winkler(name, input.name), input.name))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((_, known)) => format!("this reckoning knows no such input; did you mean {known}?"),
        None => {
            let known: Vec<&str> = inputs.iter().map(|input| input.name).collect();
            format!("this reckoning knows no such input; it takes {}.", known.join(", "))
        }
    }
}

/// Declares a closed set of codes that can be read from JSON.
macro_rules! codes {
    ($(#[$meta:meta])* pub enum $type:ident { $($(#[$doc:meta])* $variant:ident = $code:literal => $words:literal,)* }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $type { $(#[doc = $words] $(#[$doc])* $variant,)* }

        impl $type {
            /// The code in JSON.
            #[allow(dead_code, reason = "not every set is echoed")]
            pub const fn code(self) -> &'static str {
                match self { $(Self::$variant => $code,)* }
            }
            /// The words that a person reads.
            #[allow(dead_code, reason = "not every set is printed")]
            pub const fn words(self) -> &'static str {
                match self { $(Self::$variant => $words,)* }
            }
        }

        impl $crate::given::Read for $type {
            fn read(name: &str, value: &serde_json::Value) -> Result<Self, $crate::Refusal> {
                match value.as_str() {
                    $(Some($code) => Ok(Self::$variant),)*
                    _ => {
                        let said = $crate::given::said(value);
                        let known = [$($code),*].join(", ");
                        Err($crate::Refusal::of(name, format!("{said} is not one of the choices: {known}.")))
                    }
                }
            }
        }
    };
}
pub(crate) use codes;
