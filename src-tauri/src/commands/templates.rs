//! Templates of papers: those in force, trying and saving one's own, and going back.

use evengap_desk::{
    DeskError, PageSize, PaperKind, PaperLanguage, TemplateLine, TemplateText, TemplateVersion, Tried, ViewName,
};
use serde_json::Value;
use tauri::State;

use crate::desktop::{Desktop, now};

type Answer<T> = Result<T, DeskError>;

/// Lists the template in force of every paper.
#[tauri::command(async)]
pub fn templates(desktop: State<'_, Desktop>) -> Answer<Vec<TemplateLine>> {
    desktop.desk().templates()
}

/// Shows a template in force.
#[tauri::command(async)]
pub fn template_show(desktop: State<'_, Desktop>, kind: PaperKind, language: PaperLanguage) -> Answer<TemplateText> {
    desktop.desk().template_show(kind, language)
}

/// Tries a template on an entry, as one types.
#[tauri::command(async)]
pub fn template_try(
    desktop: State<'_, Desktop>,
    case: Value,
    kind: PaperKind,
    language: PaperLanguage,
    source: &str,
    page: PageSize,
) -> Answer<Tried> {
    desktop.desk().template_try(case, kind, language, source, page, now())
}

/// Saves an own template that passes every check.
#[tauri::command(async)]
pub fn template_save(
    desktop: State<'_, Desktop>,
    kind: PaperKind,
    language: PaperLanguage,
    name: &str,
    source: &str,
) -> Answer<TemplateText> {
    desktop.desk().template_save(kind, language, name, source, now())
}

/// Lists every saved version of an own template.
#[tauri::command(async)]
pub fn template_history(
    desktop: State<'_, Desktop>,
    kind: PaperKind,
    language: PaperLanguage,
) -> Answer<Vec<TemplateVersion>> {
    desktop.desk().template_history(kind, language)
}

/// Puts a saved version, or the built-in template, in force again.
#[tauri::command(async)]
pub fn template_restore(
    desktop: State<'_, Desktop>,
    kind: PaperKind,
    language: PaperLanguage,
    version: Option<u32>,
) -> Answer<TemplateText> {
    desktop.desk().template_restore(kind, language, version, now())
}

/// Lists what a template may name, with examples from an entry.
#[tauri::command(async)]
pub fn template_names(desktop: State<'_, Desktop>, case: Value, kind: PaperKind) -> Answer<Vec<ViewName>> {
    desktop.desk().template_names(Some(case), kind, now())
}
