//! The form of a paper's file and the sheet it is set for.

use std::path::Path;

use evengap_papers::Page;
use serde::{Deserialize, Serialize};
use ts_rs::TS;

use crate::DeskError;

/// The form of a paper's file; also its ending.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, TS)]
pub enum PaperFormat {
    /// Pages.
    #[serde(rename = "pdf")]
    Pdf,
    /// Markdown.
    #[serde(rename = "md")]
    Markdown,
    /// Plain text.
    #[serde(rename = "txt")]
    Text,
    /// A page for a browser.
    #[serde(rename = "html")]
    Html,
}

impl PaperFormat {
    /// Every form.
    pub const ALL: [Self; 4] = [Self::Pdf, Self::Markdown, Self::Text, Self::Html];

    /// The ending of the file, without its dot.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Markdown => "md",
            Self::Text => "txt",
            Self::Html => "html",
        }
    }

    /// Tells the form from a file's name.
    ///
    /// # Errors
    /// When it ends otherwise.
    pub fn of_file(path: &Path) -> Result<Self, DeskError> {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
        Self::ALL.into_iter().find(|format| format.ending() == ending).ok_or_else(|| {
            let endings = Self::ALL.map(|format| format!(".{}", format.ending()));
            DeskError::failed(format!(
                "{}: a paper's file ends in one of {}; choose one of them.",
                path.display(),
                endings.join(", ")
            ))
        })
    }
}

/// The sheet.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum PageSize {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 8.5 × 11 inches.
    Letter,
    /// 105 × 74 mm (ISO 216 A7, landscape), for the component record.
    Wallet,
}

impl PageSize {
    /// The name on the command line, and under which papers are kept.
    pub const fn code(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
            Self::Wallet => "wallet",
        }
    }

    pub(crate) const fn sheet(self) -> Page {
        match self {
            Self::A4 => Page::A4,
            Self::Letter => Page::Letter,
            Self::Wallet => Page::Wallet,
        }
    }
}
