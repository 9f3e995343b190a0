//! The entries: every version there and in the ledger, every saved state rebuilt and its node computed anew.

use std::collections::HashSet;

use rusqlite::Connection;
use serde_json::Value;

use super::ledger::{Ledger, LedgerRow};
use super::{VerifyReport, is_damage};
use crate::NotebookError;
use crate::history::{Broken, Node, StepKind, StepRow, Walker, asides, rows};

/// A version of an entry as it is stored.
struct EntryRow {
    number: u32,
    kind: StepKind,
    author: i64,
    written_at: String,
    body: String,
    addendum_text: Option<String>,
    node: Option<Node>,
    previous: Option<Node>,
    /// The author of the saved state with the same node.
    step_author: Option<i64>,
}

/// Looks at every case: those of the ledger in its order, then any other.
pub(super) fn look(connection: &Connection, ledger: &Ledger, report: &mut VerifyReport) -> Result<(), NotebookError> {
    let mut statement = connection.prepare(include_str!("every_case.sql"))?;
    let stored: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<Result<_, _>>()?;
    let known: HashSet<&String> = ledger.cases.iter().collect();
    let others = stored.iter().filter(|case_id| !known.contains(case_id));
    for case_id in ledger.cases.iter().chain(others) {
        match case(connection, case_id, ledger.of(case_id), report) {
            Err(NotebookError::Database(error)) if is_damage(&error) => {
                report.problems.push(format!("What is stored of the entry {case_id} cannot be read: {error}."));
            }
            looked => looked?,
        }
    }
    let (count, newest): (i64, Option<i64>) =
        connection.query_row("SELECT count(*), max(sequence) FROM step", [], |row| Ok((row.get(0)?, row.get(1)?)))?;
    // They are numbered without a gap, so a draft's newest states cannot go while others stay.
    if report.problems.is_empty() && newest.is_some_and(|newest| newest != count) {
        report.problems.push("Saved states are missing: their numbers have a gap.".into());
    }
    Ok(())
}

fn case(
    connection: &Connection,
    case_id: &str,
    ledger: &[LedgerRow],
    report: &mut VerifyReport,
) -> Result<(), NotebookError> {
    let (versions, steps) = (versions(connection, case_id)?, rows(connection, case_id)?);
    report.steps += u32::try_from(steps.len()).unwrap_or(u32::MAX);
    let mut look = Look { case_id, versions: &versions, steps: &steps, problems: Vec::new() };
    if versions.is_empty() {
        let row = ledger.first().map(|row| format!(" (row {} of the ledger)", row.position)).unwrap_or_default();
        report.problems.push(format!("The entry {case_id} is missing{row}."));
        return Ok(());
    }
    report.entries += 1;
    for version in &versions {
        report.signed += u32::from(version.kind == StepKind::Signed);
        report.addenda += u32::from(version.kind == StepKind::Addendum);
    }
    look.numbers();
    look.in_ledger(ledger);
    let whole = versions.iter().filter_map(|version| look.version(version)).collect::<Vec<_>>();
    look.states(whole, asides(connection, case_id)?);
    report.problems.append(&mut look.problems);
    Ok(())
}

fn versions(connection: &Connection, case_id: &str) -> Result<Vec<EntryRow>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("entries.sql"))?;
    let rows = statement.query_map([case_id], |row| {
        Ok(EntryRow {
            number: row.get("number")?,
            kind: row.get("kind")?,
            author: row.get("author")?,
            written_at: row.get("written_at")?,
            body: row.get("body")?,
            addendum_text: row.get("addendum_text")?,
            node: row.get("own_hash")?,
            previous: row.get("previous_hash")?,
            step_author: row.get("step_author")?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// A look at one case.
struct Look<'a> {
    case_id: &'a str,
    versions: &'a [EntryRow],
    steps: &'a [StepRow],
    problems: Vec<String>,
}

impl Look<'_> {
    fn say(&mut self, sentence: String) {
        self.problems.push(sentence);
    }

    fn step(&self, node: Node) -> Option<&StepRow> {
        self.steps.iter().find(|step| step.node == node)
    }

    /// Versions are numbered from 1 without a gap.
    fn numbers(&mut self) {
        let missing = self.versions.iter().zip(1..).find(|(version, expected)| version.number != *expected);
        if let Some((_, expected)) = missing {
            self.say(format!("Version {expected} of the entry {} is missing.", self.case_id));
        }
    }

    /// The ledger knows the beginning, and every signed version and addendum as it stands here.
    fn in_ledger(&mut self, ledger: &[LedgerRow]) {
        let case_id = self.case_id;
        let begun: Vec<_> = ledger.iter().filter(|row| row.what == "begun").collect();
        match begun.as_slice() {
            [row] if self.step(Node(row.hash)).is_some_and(|step| step.parent.is_none()) => {}
            [row] => self.say(format!(
                "The first saved state of the entry {case_id} is missing or is not the one in row {} of the ledger.",
                row.position
            )),
            [] => self.say(format!("The beginning of the entry {case_id} is missing from the ledger.")),
            _ => self.say(format!("The ledger has the beginning of the entry {case_id} more than once.")),
        }
        for version in self.versions.iter().filter(|version| version.kind != StepKind::Draft) {
            let (number, what) = (version.number, version.kind.code());
            let same = |row: &&LedgerRow| row.what == what && row.number == number;
            let problem = match ledger.iter().filter(same).collect::<Vec<_>>().as_slice() {
                [row] if Some(Node(row.hash)) == version.node => continue,
                [row] => format!(
                    "Version {number} of the entry {case_id} ({what}) is not the one in row {} of the ledger.",
                    row.position
                ),
                [] => format!("Version {number} of the entry {case_id} ({what}) is missing from the ledger."),
                _ => format!("The ledger has version {number} of the entry {case_id} ({what}) more than once."),
            };
            self.say(problem);
        }
        for row in ledger.iter().filter(|row| matches!(row.what.as_str(), "signed" | "addendum")) {
            if !self.versions.iter().any(|one| one.number == row.number && one.kind.code() == row.what) {
                self.say(format!(
                    "Version {} of the entry {case_id} ({}) is missing; row {} of the ledger has it.",
                    row.number, row.what, row.position
                ));
            }
        }
    }

    /// A version agrees with its saved state, and its node is the sum of both. Gives node and body where all is well.
    fn version(&mut self, version: &EntryRow) -> Option<(Node, Value)> {
        let what = format!("version {} of the entry {}", version.number, self.case_id);
        let Some((node, step)) = version.node.and_then(|node| Some((node, self.step(node)?.clone()))) else {
            self.say(format!("The saved state of {what} is missing from its history."));
            return None;
        };
        let differs = [
            ("sort", version.kind != step.kind),
            ("number", version.number != step.number),
            ("author", Some(version.author) != version.step_author),
            ("time", version.written_at != step.written_at),
            ("addendum's text", version.addendum_text != step.addendum_text),
            ("predecessor", version.previous != step.parent),
        ];
        let differing: Vec<_> = differs.into_iter().filter_map(|(name, differs)| differs.then_some(name)).collect();
        let Ok(body) = serde_json::from_str::<Value>(&version.body) else {
            self.say(format!("What {what} holds is not what was written: it is no entry any more."));
            return None;
        };
        let summed = step.node_of(self.case_id, &body) == node;
        if !differing.is_empty() {
            let names = differing.join(", ");
            self.say(format!("In {what} and its history these differ, so one of them was changed: {names}."));
            return summed.then_some((node, body));
        }
        if !summed {
            self.say(format!(
                "What {what} holds is not what was written: its answers, its author or its time was changed."
            ));
            return None;
        }
        Some((node, body))
    }

    /// Every saved state can be rebuilt, from the newest back to the first.
    fn states(&mut self, versions: Vec<(Node, Value)>, asides: Vec<(Node, String)>) {
        let (case_id, steps) = (self.case_id, self.steps);
        let mut walker = Walker::new(case_id, steps);
        let mut heads: Vec<_> = versions.into_iter().rev().collect();
        for (node, body) in asides {
            match serde_json::from_str(&body) {
                Ok(body) => heads.push((node, body)),
                Err(_) => self.say(format!("A version of the entry {case_id} from another notebook cannot be read.")),
            }
        }
        for (node, body) in heads {
            let mut last: Option<String> = None;
            let see = |row: &StepRow, _: &Value, _: Option<&Value>| last = Some(told(row));
            let Err(broken) = walker.back_from(node, body, see) else { continue };
            let of = |sequence: i64| {
                steps.iter().find(|step| step.sequence == sequence).map_or_else(|| "it".to_owned(), told)
            };
            self.say(match broken {
                Broken::Missing(_) => {
                    let last = last.map(|last| format!(" before {last}")).unwrap_or_default();
                    format!("A saved state of the entry {case_id} is missing: the one{last}.")
                }
                Broken::Differs(sequence) => format!(
                    "The state of the entry {case_id} {}, or what leads back to it, is not what was written.",
                    of(sequence)
                ),
                Broken::NoWayBack(sequence) => format!(
                    "What leads back from the state of the entry {case_id} {} is not what was written.",
                    of(sequence)
                ),
            });
        }
        if !self.problems.is_empty() {
            // States that were not met follow from what was said.
            return;
        }
        if let Some(step) = steps.iter().find(|step| !walker.met.contains(&step.node)) {
            self.say(format!(
                "The newest version of the entry {case_id} does not follow from the state {}.",
                told(step)
            ));
        }
        let mut seen = HashSet::new();
        for step in steps {
            if [step.parent, step.other_parent].iter().flatten().any(|parent| !seen.contains(parent)) {
                self.say(format!(
                    "The state of the entry {case_id} {} stands before the one that it follows: they changed places.",
                    told(step)
                ));
                return;
            }
            seen.insert(step.node);
        }
    }
}

/// Says which saved state.
fn told(step: &StepRow) -> String {
    format!("saved on {} at {} by {}", day(&step.written_at), time(&step.written_at), step.name)
}

fn day(written_at: &str) -> &str {
    written_at.get(..10).unwrap_or(written_at)
}

fn time(written_at: &str) -> &str {
    written_at.get(11..).unwrap_or_default()
}
