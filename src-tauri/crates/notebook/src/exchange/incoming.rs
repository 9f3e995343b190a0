//! One case of an exchange file, believed only after every state of it was rebuilt and its name computed anew.

use std::collections::HashMap;

use evengap_case::{Case, CaseId, LocalTime};
use rusqlite::Row;
use serde_json::Value;

use super::ancestry::Ancestry;
use super::error::refused;
use super::file::ExchangeFile;
use crate::NotebookError;
use crate::history::{Broken, DEEPEST, Node, StepKind, StepRow, Walker, depth};

/// Bytes that the signed versions and addenda of a case may come to, each of which is stored whole.
const MOST_WHOLE: usize = 256 * 1024 * 1024;

/// The end of a branch: the version that stands in the other notebook, or one that lies aside there.
pub(super) struct Tip {
    pub node: Node,
    pub stands: bool,
    pub body: String,
    pub settled: Option<Settled>,
}

/// How a conflict was settled in the other notebook.
pub(super) struct Settled {
    pub at: String,
    pub mark: String,
    pub kept: String,
}

/// A case of an exchange file.
pub(super) struct Incoming {
    pub case_id: String,
    /// Each behind those that it follows.
    pub steps: Vec<StepRow>,
    /// The version that stands comes first.
    pub tips: Vec<Tip>,
}

/// Reads a case and checks everything in it but the papers.
pub(super) fn read(file: &ExchangeFile<'_>, case_id: String) -> Result<Incoming, NotebookError> {
    let wrong = |what: &str| refused(file.path, format!("the case {case_id} {what}"));
    let id: CaseId = case_id.parse().map_err(|_| refused(file.path, "a case in it has no identifier"))?;
    if id.to_string() != case_id || id.0.is_nil() {
        return Err(refused(file.path, "a case in it has no identifier"));
    }
    let steps = file.rows(include_str!("read_steps.sql"), [&case_id], step)?;
    let mut tips = file.rows(include_str!("read_tips.sql"), [&case_id], tip)?;
    if tips.iter().filter(|tip| tip.stands).count() != 1 {
        return Err(wrong("does not say which version stands"));
    }

    if !is_moderate(&steps, &tips) {
        return Err(wrong("has more text, in more signed versions, than anybody writes"));
    }
    let mut by_node: HashMap<Node, StepRow> = steps.into_iter().map(|step| (step.node, step)).collect();
    let ancestry = Ancestry::of(by_node.values().map(|step| (step.node, [step.parent, step.other_parent])));
    let order = ancestry.in_order().ok_or_else(|| wrong("has a version that follows from one that is missing"))?;
    for step in by_node.values() {
        let parent = |node: Option<Node>| node.and_then(|node| by_node.get(&node));
        check(step, parent(step.parent), parent(step.other_parent)).map_err(wrong)?;
    }
    let settled_times = tips.iter().filter_map(|tip| tip.settled.as_ref());
    if settled_times.clone().any(|settled| settled.at.parse::<LocalTime>().is_err()) {
        return Err(wrong("has a conflict that was settled at no time"));
    }

    let steps: Vec<StepRow> = order.into_iter().filter_map(|node| by_node.remove(&node)).collect();
    let mut walker = Walker::new(&case_id, &steps);
    for tip in &mut tips {
        let body: Value = serde_json::from_str(&tip.body).map_err(|_| wrong("has a version that cannot be read"))?;
        // What is stored is what was looked at: a text may say one thing twice, and its reader take either.
        tip.body = body.to_string();
        let mut unreadable = None;
        let look = |_: &StepRow, body: &Value, _: Option<&Value>| {
            unreadable = unreadable.or(unlike_an_entry(id, body));
        };
        // A branch that ends where another one passed is checked by that one, but for what it says here.
        if walker.met.contains(&tip.node) {
            let mut again = Walker::new(&case_id, &steps);
            again.back_from(tip.node, body, |_, _, _| {}).map_err(|broken| wrong(words(&broken)))?;
            continue;
        }
        walker.back_from(tip.node, body, look).map_err(|broken| wrong(words(&broken)))?;
        if let Some(what) = unreadable {
            return Err(wrong(what));
        }
    }
    if walker.met.len() != steps.len() {
        return Err(wrong("has a version of which nothing says what it held"));
    }
    Ok(Incoming { case_id, steps, tips })
}

/// Tells whether a case is of a size that can be taken. A few bytes make an addendum, which is stored with all the text of
/// its entry: so a small file could ask for more than memory and disk can hold. No version is longer than all the text
/// of the case.
fn is_moderate(steps: &[StepRow], tips: &[Tip]) -> bool {
    let patches: usize = steps.iter().filter_map(|step| step.back.as_ref()).map(String::len).sum();
    let text = patches + tips.iter().map(|tip| tip.body.len()).sum::<usize>();
    let whole = tips.len() + steps.iter().filter(|step| step.kind != StepKind::Draft).count();
    whole.saturating_mul(text) <= MOST_WHOLE
}

fn step(row: &Row<'_>) -> rusqlite::Result<StepRow> {
    Ok(StepRow {
        sequence: row.get("sequence")?,
        node: row.get("node")?,
        parent: row.get("parent")?,
        other_parent: row.get("other_parent")?,
        kind: row.get("kind")?,
        number: row.get("number")?,
        mark: row.get("mark")?,
        name: row.get("name")?,
        written_at: row.get("written_at")?,
        addendum_text: row.get("addendum_text")?,
        back: row.get("back")?,
    })
}

fn tip(row: &Row<'_>) -> rusqlite::Result<Tip> {
    let settled: (Option<String>, Option<String>, Option<String>) =
        (row.get("settled_at")?, row.get("settled_by")?, row.get("kept")?);
    let settled = match settled {
        (Some(at), Some(mark), Some(kept)) if super::Keep::of(&kept).is_some() => Some(Settled { at, mark, kept }),
        (None, None, None) => None,
        _ => return Err(rusqlite::Error::InvalidQuery),
    };
    Ok(Tip { node: row.get("node")?, stands: row.get("stands")?, body: row.get("body")?, settled })
}

/// Says what no notebook writes: what may follow what, and with which number.
fn check(step: &StepRow, parent: Option<&StepRow>, other: Option<&StepRow>) -> Result<(), &'static str> {
    let draft = |step: &StepRow| step.kind == StepKind::Draft;
    let fits = match step.kind {
        StepKind::Draft => step.number == 1 && parent.is_none_or(draft) && other.is_none_or(draft),
        StepKind::Signed => step.number == 1 && parent.is_none_or(draft) && other.is_none(),
        StepKind::Addendum => {
            other.is_none()
                && parent.is_some_and(|parent| !draft(parent) && parent.number.checked_add(1) == Some(step.number))
        }
    };
    let settles_two = step.other_parent.is_none() || (step.parent.is_some() && step.parent != step.other_parent);
    if !fits || !settles_two {
        return Err("has a version that cannot follow the one before it");
    }
    if (step.kind == StepKind::Addendum) != step.addendum_text.is_some() {
        return Err("has an addendum without a text, or a text without an addendum");
    }
    if step.written_at.parse::<LocalTime>().is_err() {
        return Err("has a version that was written at no time");
    }
    match (&step.parent, &step.back) {
        (None, None) => Ok(()),
        (Some(_), Some(back)) if is_plain(back) => Ok(()),
        _ => Err("has a version from which nothing leads back"),
    }
}

/// Tells whether a patch only adds, takes away and replaces. Copies could make little text into endless much.
fn is_plain(back: &str) -> bool {
    let Ok(Value::Array(acts)) = serde_json::from_str(back) else { return false };
    acts.iter().all(|act| {
        let text = |name: &str| act.get(name).and_then(Value::as_str);
        matches!(text("op"), Some("add" | "remove" | "replace"))
            && text("path").is_some_and(|path| path.matches('/').count() <= DEEPEST)
    })
}

/// Says what keeps a state from being a state of this entry.
fn unlike_an_entry(id: CaseId, body: &Value) -> Option<&'static str> {
    if depth(body) > DEEPEST {
        return Some("has a version that is nested too deep");
    }
    match serde_json::from_value::<Case>(body.clone()) {
        Err(_) => Some("has a version that is no entry, or one of a newer program"),
        Ok(case) if case.id != id => Some("has a version that belongs to another case"),
        Ok(_) => None,
    }
}

fn words(broken: &Broken) -> &'static str {
    match broken {
        Broken::Missing(_) => "has a version that is missing",
        Broken::Differs(_) => "has a version that is not what was written",
        Broken::NoWayBack(_) => "has a version from which nothing leads back",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(addenda: usize, text: usize, expected: bool) {
        let node = Node([0; 32]);
        let step = |_| StepRow {
            sequence: 1,
            node,
            parent: None,
            other_parent: None,
            kind: StepKind::Addendum,
            number: 2,
            mark: String::new(),
            name: String::new(),
            written_at: String::new(),
            addendum_text: None,
            back: None,
        };
        let steps: Vec<StepRow> = (0..addenda).map(step).collect();
        let tip = Tip { node, stands: true, body: " ".repeat(text), settled: None };
        assert_eq!(is_moderate(&steps, &[tip]), expected, "{addenda} addenda to {text} bytes");
    }

    #[test]
    fn what_is_stored_whole_has_an_end() {
        check(50, 2 * 1024 * 1024, true);
        check(2_000, 100 * 1024, true);
        check(50_000, 10 * 1024 * 1024, false);
        check(2, 100 * 1024 * 1024, false);
    }
}
