//! Own templates of papers: every version that was ever saved, and which one is in force. Whether a template
//! is any good is not asked here.

use evengap_case::LocalTime;
use rusqlite::{Transaction, params};

use crate::gate::Changed;
use crate::{Notebook, NotebookError};

/// A saved version of an own template.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TemplateVersion {
    /// The paper.
    pub kind: String,
    /// Its language.
    pub language: String,
    /// 1 for the first; never given twice for one paper and language.
    pub version: u32,
    /// Its name.
    pub name: String,
    /// The template.
    pub source: String,
    /// Who saved it.
    pub by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub saved_at: String,
    /// Whether papers are made with it.
    pub in_force: bool,
}

impl Notebook {
    /// Saves a new version of an own template, as the person who opened the notebook, and puts it in force. Gives its number.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn template_save(
        &mut self,
        (kind, language): (&str, &str),
        name: &str,
        source: &str,
        now: LocalTime,
    ) -> Result<u32, NotebookError> {
        let by = self.person.id;
        self.write(|transaction| {
            let given = params![kind, language, name, source, now.to_string(), by];
            let version = transaction.query_row(include_str!("save.sql"), given, |row| row.get(0))?;
            choose(transaction, (kind, language), Some(version), by, now)?;
            Ok(Changed { result: version, cases: Vec::new() })
        })
    }

    /// Puts a version in force, or the built-in template where none is given.
    ///
    /// # Errors
    /// When there is no such version, or the file cannot be written.
    pub fn template_choose(
        &mut self,
        (kind, language): (&str, &str),
        version: Option<u32>,
        now: LocalTime,
    ) -> Result<(), NotebookError> {
        let by = self.person.id;
        self.write(|transaction| {
            if let Some(version) = version {
                let given = params![kind, language, version];
                let exists: bool = transaction.query_row(include_str!("exists.sql"), given, |row| row.get(0))?;
                if !exists {
                    let (kind, language) = (kind.to_owned(), language.to_owned());
                    return Err(NotebookError::UnknownTemplate { kind, language, version });
                }
            }
            choose(transaction, (kind, language), version, by, now)?;
            Ok(Changed { result: (), cases: Vec::new() })
        })
    }

    /// Gives the own template that is in force; nothing where it is the built-in one.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn template_in_force(&self, kind: &str, language: &str) -> Result<Option<TemplateVersion>, NotebookError> {
        Ok(self.template_history(kind, language)?.into_iter().find(|version| version.in_force))
    }

    /// Lists every saved version of one paper's own template, the newest first.
    ///
    /// # Errors
    /// When the file cannot be read.
    pub fn template_history(&self, kind: &str, language: &str) -> Result<Vec<TemplateVersion>, NotebookError> {
        self.read(|connection| {
            let mut statement = connection.prepare_cached(include_str!("history.sql"))?;
            let versions = statement.query_map(params![kind, language], |row| {
                Ok(TemplateVersion {
                    kind: row.get("kind")?,
                    language: row.get("language")?,
                    version: row.get("version")?,
                    name: row.get("name")?,
                    source: row.get("source")?,
                    by: row.get("author")?,
                    saved_at: row.get("saved_at")?,
                    in_force: row.get("in_force")?,
                })
            })?;
            Ok(versions.collect::<Result<_, _>>()?)
        })
    }
}

fn choose(
    transaction: &Transaction<'_>,
    (kind, language): (&str, &str),
    version: Option<u32>,
    by: i64,
    now: LocalTime,
) -> Result<(), NotebookError> {
    let given = params![kind, language, version, now.to_string(), by];
    transaction.execute(include_str!("choose.sql"), given)?;
    Ok(())
}
