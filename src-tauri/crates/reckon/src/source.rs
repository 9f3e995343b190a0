//! Where a formula, an edge or a limit comes from. Carried as data, so that a screen, a paper and the command line
//! can print it beside the number. Not a bibliography: one line that lets a reader find the work.

use std::borrow::Cow;

use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// How well a source is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum SourceKind {
    /// Printed; seen in print, in its publisher's abstract, or described alike by several independent pages.
    Published,
    /// What theatres do, without one work to point at.
    CommonPractice,
    /// Held from memory or from a secondary source; not confirmed against the work itself.
    FromMemory,
}

impl SourceKind {
    /// The words that a person reads.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::CommonPractice => "common practice",
            Self::FromMemory => "from memory",
        }
    }
}

/// A source of a formula or a limit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Authors and subject, or the name of the document.
    pub title: Cow<'static, str>,
    /// Year of publication, where there is one.
    #[serde(default)]
    pub year: Option<u16>,
    /// How well it is held.
    pub kind: SourceKind,
    /// Journal, volume and page, or the body that issued it; may be empty.
    #[serde(default)]
    pub place: Cow<'static, str>,
}

impl Source {
    /// Names a published work.
    pub const fn published(title: &'static str, year: u16, place: &'static str) -> Self {
        Self::of(title, Some(year), SourceKind::Published, place)
    }

    /// Names a published document that is revised without a fixed year, such as prescribing information.
    pub const fn published_undated(title: &'static str, place: &'static str) -> Self {
        Self::of(title, None, SourceKind::Published, place)
    }

    /// Names a habit of the trade.
    pub const fn common_practice(title: &'static str) -> Self {
        Self::of(title, None, SourceKind::CommonPractice, "")
    }

    /// Names a work whose statement is held from memory or at second hand.
    pub const fn from_memory(title: &'static str, year: u16, place: &'static str) -> Self {
        Self::of(title, Some(year), SourceKind::FromMemory, place)
    }

    /// Names what is held from memory without a work to point at.
    pub const fn remembered(title: &'static str) -> Self {
        Self::of(title, None, SourceKind::FromMemory, "")
    }

    const fn of(title: &'static str, year: Option<u16>, kind: SourceKind, place: &'static str) -> Self {
        Self { title: Cow::Borrowed(title), year, kind, place: Cow::Borrowed(place) }
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.title)?;
        if !self.place.is_empty() {
            write!(f, ", {}", self.place)?;
        }
        if let Some(year) = self.year {
            write!(f, ", {year}")?;
        }
        write!(f, " ({})", self.kind.words())
    }
}
