//! Everything that is asked of a template before it is saved, all flaws at once.

use evengap_case::{Case, LocalTime};

use super::cautions::{Asked, PLACE, is_closed};
use super::engine::{compiled, normal};
use super::flaw::{Flaw, Found, MOST, placed};
use super::leftover::{in_brackets, left_over};
use super::near::nearest;
use super::shape::VIEW;
use super::tokens::{self, Is};
use super::{Body, cautions_of, render_source, run, walk};
use crate::blocks::{Block, BlockError};
use crate::{Addendum, Kind, Language, Occasion, drawings, render};

/// Names that drawings have in some paper; what the entries at hand allow is added to them.
const DRAWINGS: [&str; 3] = ["axis", "balance", "surfaces"];

/// Checks a template of a kind of paper, and renders it on entries (each with the name by which a flaw
/// calls it) and on an empty one. An empty answer means that it may be saved.
///
/// It parses; every name, filter and test exists, in branches not taken as well; the drawings exist; it
/// renders on every entry and prints something of it; tables are tables and stars make words strong; the
/// cautions stand in their place; it stays within its limits.
pub fn check(kind: Kind, language: Language, source: &str, cases: &[(&str, &Case)]) -> Vec<Flaw> {
    let language = kind.in_language(language);
    let read = normal(source);
    let mut flaws = placed(&read, walk::walk(&read, Some(language)).found);
    if flaws.is_empty() {
        flaws = compiled(source).err().unwrap_or_default();
    }
    let mut known: Vec<String> = DRAWINGS.map(str::to_owned).to_vec();
    for (_, case) in cases {
        known.extend(drawings::of(case, language).into_keys());
    }
    let mut found = unknown_drawings(&read, &known);
    found.extend(misplaced_cautions(&read, kind));
    flaws.extend(placed(&read, found));
    if flaws.is_empty() {
        flaws = on_cases(kind, language, source, &read, cases);
    }
    if flaws.is_empty() && prints_nothing(kind, language, source, &read, cases) {
        let found = Found::new(0, "This template prints nothing of the entry.");
        flaws = placed(&read, vec![found.hint("Write a name where its answer is to stand: {{ patient.given_name }}.")]);
    }
    flaws.sort_by_key(|flaw| (flaw.line, flaw.column));
    flaws.dedup();
    flaws.truncate(MOST);
    flaws
}

fn on_cases(kind: Kind, language: Language, source: &str, read: &str, cases: &[(&str, &Case)]) -> Vec<Flaw> {
    let mut flaws: Vec<Flaw> = Vec::new();
    // A template must not rest on anything being recorded.
    let nothing = Case::default();
    for (name, case) in cases.iter().copied().chain([("nothing recorded", &nothing)]) {
        let on = |mut flaw: Flaw| {
            flaw.message = format!("On the entry \"{name}\": {}", flaw.message);
            flaw
        };
        let flaw = match on_case(kind, language, source, read, case) {
            Ok(()) => continue,
            Err(flaw) => on(flaw),
        };
        // One sentence is enough for what is wrong at one place in every entry.
        if !flaws.iter().any(|known| (known.line, known.column) == (flaw.line, flaw.column)) {
            flaws.push(flaw);
        }
    }
    flaws
}

fn on_case(kind: Kind, language: Language, source: &str, read: &str, case: &Case) -> Result<(), Flaw> {
    let at = |found: Found| placed(read, vec![found]).swap_remove(0);
    let occasion = occasion(kind, language, case);
    let (view, _) = render::view_of(case, kind, &occasion);
    let body = render_source(kind, language, source, &view)?;
    if body.asked == Asked::Nested {
        let place = read.find(PLACE).unwrap_or(0);
        let found = Found::new(place, "The cautions cannot stand inside a list, table, box or code.");
        return Err(at(found.hint("Write @cautions on a line of its own, outside of everything else.")));
    }
    if !is_closed(&body.markdown()) {
        let place = ["```", "~~~", "<"].iter().filter_map(|sign| read.rfind(sign)).max().unwrap_or(0);
        let found = Found::new(place, "A block of code or HTML begins in the text and never ends.");
        return Err(at(found.hint("Take it out: papers hold headings, text, lists, tables and boxes only.")));
    }
    if let Some(found) = left_over(&body.markdown(), read) {
        return Err(at(found));
    }
    // A template may ask for words that brackets change, so only what is printed is looked at.
    let mut bracketed = view.clone();
    in_brackets(&mut bracketed);
    if let Some(found) = run(source, &bracketed).ok().and_then(|markdown| left_over(&markdown, read)) {
        return Err(at(found));
    }
    let mut drawings = drawings::of(case, language);
    drawings.extend(drawings::marks(case, occasion.made_at));
    let blocks = body.blocks(&drawings).map_err(|error| {
        at(match &error {
            BlockError::UnknownDrawing { name, .. } => {
                let place = read.find(&format!("drawing:{name}")).or_else(|| read.find("drawing:")).unwrap_or(0);
                let found = Found::new(place, format!("It has no drawing \"{name}\"."));
                if DRAWINGS.contains(&name.as_str()) {
                    found.hint(format!("Ask before: {{% if derived.has_drawing_of_{name} %}}."))
                } else {
                    found
                }
            }
            other => Found::new(0, format!("{other}.")),
        })
    })?;
    if kind == Kind::DischargeLetter && !holds_cautions(language, &view, &blocks) {
        return Err(at(
            Found::new(0, "The cautions are not in the letter.").hint("Write @cautions on a line of its own.")
        ));
    }
    Ok(())
}

/// Tells whether a template asks for nothing of an entry, or prints the same of every one.
///
/// It is not asked of one entry alone: that may lack the one answer that a template is about, and a template
/// that somebody is only trying may still have to get its first name.
fn prints_nothing(kind: Kind, language: Language, source: &str, read: &str, cases: &[(&str, &Case)]) -> bool {
    if cases.len() < 2 {
        return false;
    }
    let tokens = tokens::read(read).0;
    let beside = |name: &str| matches!(name, "paper" | "settings");
    let of_entry = |name: &str| VIEW.parts().iter().any(|part| part.name == name) && !beside(name);
    let asks = tokens.iter().enumerate().any(|(at, token)| match token.is {
        Is::Name(name) => of_entry(name) && (at == 0 || tokens[at - 1].is != Is::Sign(".")),
        _ => false,
    });
    if !asks {
        return true;
    }
    let printed = |case: &Case, occasion: &Occasion| run(source, &render::view_of(case, kind, occasion).0).ok();
    let nothing = Case::default();
    let empty = printed(&nothing, &Occasion { addendum: None, ..occasion(kind, language, &nothing) });
    cases.iter().all(|(_, case)| printed(case, &occasion(kind, language, case)) == empty)
}

/// Tells whether the cautions stand among the blocks of a letter, unchanged and not inside another.
fn holds_cautions(language: Language, view: &serde_json::Value, blocks: &[Block]) -> bool {
    let Ok(cautions) = cautions_of(language, view) else { return false };
    let cautions = Body::whole(&cautions).blocks(&Default::default()).unwrap_or_default();
    !cautions.is_empty() && blocks.windows(cautions.len()).any(|blocks| *blocks == cautions)
}

/// A fixed occasion: a check must not depend on the day on which it is made.
fn occasion(kind: Kind, language: Language, case: &Case) -> Occasion {
    let made_at = LocalTime(chrono::NaiveDate::default().and_time(chrono::NaiveTime::default()));
    let mut occasion = Occasion::new(made_at, "Author");
    occasion.language = language;
    occasion.addendum = (kind == Kind::Addendum).then(|| Addendum {
        number: 1,
        text: "What was added.".to_owned(),
        by: "Author".to_owned(),
        at: made_at,
        before: Case { id: case.id, ..Case::default() },
    });
    occasion
}

/// Drawings that no paper has. A name that the template puts together is left to the entries.
fn unknown_drawings(source: &str, known: &[String]) -> Vec<Found> {
    const ASKS: &str = "](drawing:";
    let mut found = Vec::new();
    for token in tokens::read(source).0 {
        let Is::Text(text) = token.is else { continue };
        for (at, _) in text.match_indices(ASKS) {
            let Some((name, _)) = text[at + ASKS.len()..].split_once(')') else { continue };
            if name.starts_with(drawings::MARK) || known.iter().any(|known| known == name) {
                continue;
            }
            let unknown = Found::new(token.at.start + at + 2, format!("There is no drawing \"{name}\"."));
            found.push(match nearest(name, known.iter().map(String::as_str)) {
                Some(near) => unknown.hint(format!("Did you mean drawing:{near}?")),
                None => unknown.hint(format!("The drawings are {}.", DRAWINGS.join(", "))),
            });
        }
    }
    found
}

/// Places of the cautions that cannot work.
fn misplaced_cautions(source: &str, kind: Kind) -> Vec<Found> {
    let mut found = Vec::new();
    for token in tokens::read(source).0 {
        let Is::Text(text) = token.is else { continue };
        let mut from = 0;
        for line in text.split_inclusive('\n') {
            if let Some(at) = line.find(PLACE) {
                let place = token.at.start + from + at;
                if kind != Kind::DischargeLetter {
                    let message = "Only the discharge letter has cautions.";
                    found.push(Found::new(place, message).hint("Take @cautions out."));
                } else if line.trim() != PLACE {
                    let message = "@cautions stands alone on its line, outside of lists, tables and boxes.";
                    found.push(Found::new(place, message).hint("Give it a line of its own."));
                }
            }
            from += line.len();
        }
    }
    found
}
