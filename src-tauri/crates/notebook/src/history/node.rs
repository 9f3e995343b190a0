//! The name of a saved state: the sum of what it holds, who wrote it and when, and of what it follows.

use std::fmt;
use std::str::FromStr;

use rusqlite::ToSql;
use rusqlite::types::{FromSql, FromSqlError, FromSqlResult, ToSqlOutput, ValueRef};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use sha2::{Digest, Sha256};
use ts_rs::TS;

use super::canonical::canonical;

/// The SHA-256 that names a saved state of an entry; written as 64 hexadecimal digits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, TS)]
#[serde(into = "String", try_from = "String")]
#[ts(type = "string")]
pub struct Node(pub [u8; 32]);

/// A text that names no saved state.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” names no version of an entry; a version is written as 64 hexadecimal digits")]
pub struct NoNode(String);

impl Node {
    /// Gives the first 16 digits in groups of four, as a paper prints them.
    pub fn fingerprint(&self) -> String {
        let digits = self.to_string();
        [0, 4, 8, 12].map(|at| &digits[at..at + 4]).join(" ")
    }
}

impl fmt::Display for Node {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(out, "{byte:02x}"))
    }
}

impl fmt::Debug for Node {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{self}")
    }
}

impl FromStr for Node {
    type Err = NoNode;
    fn from_str(text: &str) -> Result<Self, NoNode> {
        let no_node = || NoNode(text.to_owned());
        if text.len() != 64 || !text.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return Err(no_node());
        }
        let mut node = [0; 32];
        for (at, byte) in node.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&text[2 * at..2 * at + 2], 16).map_err(|_| no_node())?;
        }
        Ok(Self(node))
    }
}

impl From<Node> for String {
    fn from(node: Node) -> Self {
        node.to_string()
    }
}

impl TryFrom<String> for Node {
    type Error = NoNode;
    fn try_from(text: String) -> Result<Self, NoNode> {
        text.parse()
    }
}

impl ToSql for Node {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(ValueRef::Blob(&self.0)))
    }
}

impl FromSql for Node {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
        let bytes = value.as_blob()?;
        bytes.try_into().map(Self).map_err(|_| FromSqlError::InvalidType)
    }
}

/// How a state was saved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// By autosave, or taken in from a file.
    Draft,
    /// Signed.
    Signed,
    /// Added to a signed entry.
    Addendum,
}

impl StepKind {
    /// The stored word.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Signed => "signed",
            Self::Addendum => "addendum",
        }
    }
}

impl ToSql for StepKind {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(self.code().into())
    }
}

impl FromSql for StepKind {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
        match value.as_str()? {
            "draft" => Ok(Self::Draft),
            "signed" => Ok(Self::Signed),
            "addendum" => Ok(Self::Addendum),
            _ => Err(FromSqlError::InvalidType),
        }
    }
}

/// Everything of a state that its node is the sum of, but what it holds.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Named<'a> {
    pub parent: Option<Node>,
    pub other_parent: Option<Node>,
    pub case_id: &'a str,
    pub kind: StepKind,
    pub number: u32,
    pub mark: &'a str,
    pub name: &'a str,
    pub written_at: &'a str,
    pub addendum_text: Option<&'a str>,
}

impl Named<'_> {
    /// Gives the node of the state that holds this body.
    pub fn node(&self, body: &Value) -> Node {
        let sum = Sum::new("evengap step 1")
            .part(self.parent.as_ref().map_or(&[][..], |node| &node.0))
            .part(self.other_parent.as_ref().map_or(&[][..], |node| &node.0))
            .part(self.case_id)
            .part(self.kind.code())
            .part(self.number.to_string())
            .part(self.mark)
            .part(self.name)
            .part(self.written_at)
            .part(canonical(body))
            .part(self.addendum_text.unwrap_or_default());
        Node(sum.finish())
    }
}

/// A SHA-256 over parts, each after its length, so that nothing can move from one part into the next.
pub(crate) struct Sum(Sha256);

impl Sum {
    /// Begins with what is summed up, so that sums of two sorts of things are never equal.
    pub fn new(what: &str) -> Self {
        Self(Sha256::new()).part(what)
    }

    /// Adds the length in bytes (eight of them, the highest first) and the bytes. What is absent is an empty part.
    pub fn part(self, bytes: impl AsRef<[u8]>) -> Self {
        let bytes = bytes.as_ref();
        Self(self.0.chain_update((bytes.len() as u64).to_be_bytes()).chain_update(bytes))
    }

    pub fn finish(self) -> [u8; 32] {
        self.0.finalize().into()
    }
}
