//! What a paper's file is called.

use evengap_case::Case;
use evengap_papers::{Kind as PaperKind, Language};

use super::PageSize;
use crate::files::fit_for_a_name;

/// Names a paper's file after the person, the day, the side and the paper; what is ordinary is not named.
pub(super) fn stem(case: &Case, kind: PaperKind, language: Language, page: PageSize, addendum: Option<u32>) -> String {
    named(case, "", kind, language, page, addendum)
}

/// Names one of many files: also after the hospital number, or else the case identifier, because people
/// of one name must not share a file, whichever of them is printed first.
pub(super) fn stem_with_number(
    case: &Case,
    kind: PaperKind,
    language: Language,
    page: PageSize,
    addendum: Option<u32>,
) -> String {
    let number = case.patient.hospital_number.as_deref().map(fit_for_a_name).filter(|number| !number.is_empty());
    let number = number.unwrap_or_else(|| match case.id.0.is_nil() {
        true => String::new(),
        false => case.id.to_string().replace('-', ""),
    });
    named(case, &number, kind, language, page, addendum)
}

fn named(
    case: &Case,
    of_person: &str,
    kind: PaperKind,
    language: Language,
    page: PageSize,
    addendum: Option<u32>,
) -> String {
    let family = case.patient.family_name.as_deref().map(fit_for_a_name).unwrap_or_default();
    let date = case.setting.operation_date.map(|date| date.to_string()).unwrap_or_default();
    let side = case.knee.side.map_or("", |side| side.words());
    let number = addendum.filter(|_| kind == PaperKind::Addendum).map(|number| number.to_string()).unwrap_or_default();
    let language = if language == Language::En { "" } else { language.code() };
    let page = if page == PageSize::Wallet { page.code() } else { "" };
    let parts = [family.as_str(), of_person, &date, side, kind.name(), &number, language, page];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
}
