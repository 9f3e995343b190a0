//! What the program itself puts around the text of a template: the notices above it and the signature below it.
//!
//! Invariant: whatever the template is, a paper says what is open about it and has a place for its signature. They
//! are parts of their own beside the template's text, as the cautions are.

use serde_json::Value;

use crate::template::{Body, escaped};
use crate::words::{self, Words};
use crate::{Kind, Language, Occasion, Page, Standing, in_spite};

/// Puts notices and signature around a body. The language of `occasion` is to be one that the kind has.
pub(crate) fn put(body: &mut Body, kind: Kind, occasion: &Occasion, view: &Value) {
    let words = words::of(occasion.language);
    let unfinished = texts(view, "/derived/unfinished");
    if !unfinished.is_empty() {
        body.put_first(&not_finished(words.not_finished.of(kind), &unfinished));
    }
    if !occasion.settings.is_confirmed(occasion.language) {
        body.put_first(&to_be_checked(occasion.language));
    }
    body.put_last(&signature(kind, occasion, view, words));
}

/// Frames the reasons why a paper cannot be handed out.
fn not_finished(words: &str, reasons: &[String]) -> String {
    let reasons: String = reasons.iter().map(|reason| format!("> - {reason}\n")).collect();
    format!("> **{words}**\n>\n{reasons}")
}

/// Frames the notice that a translation waits for the clinic's check, in its own language and in English.
fn to_be_checked(language: Language) -> String {
    let [own, english] = [language, Language::En].map(|language| &words::of(language).to_be_checked);
    format!("> **{own}**\n>\n> {english}\n")
}

/// Writes who signed and when, or a line to sign on; the note says in addition who wrote it and what it is not.
fn signature(kind: Kind, occasion: &Occasion, view: &Value, words: &Words) -> String {
    let said = &words.signature;
    let mut parts = Vec::new();
    if kind == Kind::OperativeNote {
        parts.extend(in_spite::findings(view, words));
    }
    if matches!(kind, Kind::OperativeNote | Kind::Addendum) {
        parts.push(format!("## {}", said.heading));
    }
    let printed = |name: &str| text(view, name).unwrap_or_default();
    if kind == Kind::OperativeNote {
        let [author, date, time] = ["/paper/author", "/paper/date", "/paper/time"].map(printed);
        parts.push(said.written.fill(&[("author", &author), ("date", &date), ("time", &time)]));
        parts.extend(in_spite::filled(view, words));
    }
    let hand = || line(kind, occasion.page, view, words);
    let signature = match signed(kind, view, words) {
        None => hand(),
        // The entry was signed, not this paper: letters and cards still want a hand.
        Some(signed) if from_record(kind) => format!("{}&#10;{signed}", hand()),
        Some(signed) => match fingerprint(occasion, words) {
            Some(fingerprint) => format!("{signed}&#10;{fingerprint}"),
            None => signed,
        },
    };
    match kind {
        // One paragraph, so that no page begins with a signature that belongs to nothing.
        Kind::DischargeLetter => parts.extend(["---".to_owned(), format!("{}&#10;{signature}", said.wishes)]),
        _ => parts.push(signature),
    }
    if kind == Kind::OperativeNote {
        parts.push(said.gives_no_advice.clone());
    }
    parts.join("\n\n")
}

/// Says what tells the signed version from every other.
fn fingerprint(occasion: &Occasion, words: &Words) -> Option<String> {
    let Standing::Signed { fingerprint: Some(fingerprint), .. } = &occasion.standing else { return None };
    let groups = in_spite::grouped_fingerprint(fingerprint)?;
    Some(words.signature.fingerprint.fill(&[("fingerprint", &groups)]))
}

/// Tells whether a paper is written from the signed entry and is not itself what was signed.
fn from_record(kind: Kind) -> bool {
    matches!(kind, Kind::DischargeLetter | Kind::ClinicianLetter | Kind::ComponentRecord)
}

/// Says who signed; nothing where nobody did. An addendum is signed by whoever added it.
fn signed(kind: Kind, view: &Value, words: &Words) -> Option<String> {
    let by = text(view, "/paper/signed_by")?;
    let of = |of: &str, by: String| {
        let [on, at] = ["on", "at"].map(|name| text(view, &format!("/{of}{name}")).unwrap_or_default());
        [("by", by), ("on", on), ("at", at)]
    };
    let (pattern, values) = match kind {
        Kind::Addendum => (&words.signature.added, of("addendum/", text(view, "/addendum/by")?)),
        kind if from_record(kind) => (&words.signature.from_signed, of("paper/signed_", by)),
        _ => (&words.signature.signed, of("paper/signed_", by)),
    };
    let number = text(view, "/addendum/number").unwrap_or_default();
    let mut filled: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    filled.push(("number", &number));
    Some(pattern.fill(&filled))
}

/// Draws the line to sign on, after the name of who is to sign.
fn line(kind: Kind, page: Page, view: &Value, words: &Words) -> String {
    let said = &words.signature;
    let named = |name: &str| text(view, name);
    let who = match kind {
        // A card is too small for a long name.
        Kind::ComponentRecord if page == Page::Wallet => Some(said.heading.clone()),
        Kind::ComponentRecord => Some(texts(view, "/derived/operating_names").join(", ")).filter(|who| !who.is_empty()),
        Kind::ClinicianLetter => named("/derived/attending"),
        // To the patient by name alone, on one line.
        Kind::DischargeLetter => {
            texts(view, "/derived/operating_names").into_iter().next().or_else(|| named("/paper/author"))
        }
        Kind::Addendum => named("/addendum/by").or_else(|| named("/derived/signing")),
        Kind::OperativeNote => named("/derived/signing"),
    };
    let who = who.unwrap_or_else(|| said.surgeon.clone());
    let pattern = if kind == Kind::DischargeLetter || page == Page::Wallet { &said.line } else { &said.dated_line };
    // Short enough for one line of plain text after a name without grade and registration.
    let long = if matches!(kind, Kind::ClinicianLetter | Kind::ComponentRecord) { 24 } else { 32 };
    let [line, day] = [long, 16].map(|signs| "\\_".repeat(signs));
    pattern.fill(&[("who", &who), ("line", &line), ("day", &day)])
}

/// A text of the view, escaped as a template would print it.
pub(crate) fn text(view: &Value, pointer: &str) -> Option<String> {
    view.pointer(pointer).and_then(Value::as_str).map(escaped)
}

/// A list of texts of the view, escaped as a template would print them.
pub(crate) fn texts(view: &Value, pointer: &str) -> Vec<String> {
    let list = view.pointer(pointer).and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
    list.iter().filter_map(Value::as_str).map(escaped).collect()
}
