//! Writing a saved state: its node, and the patch that leads back to the state before it.

use json_patch::Patch;
use rusqlite::{Connection, OptionalExtension, Transaction, params};
use serde_json::Value;

use super::canonical::canonical;
use super::node::{Named, Node, StepKind};
use crate::{NotebookError, Person};

/// The newest version of an entry as it is stored.
pub(crate) struct Head {
    pub number: u32,
    pub kind: StepKind,
    pub written_at: String,
    pub node: Node,
    pub body: Value,
}

/// Reads the newest version of an entry, if there is one.
pub(crate) fn head(connection: &Connection, case_id: &str) -> Result<Option<Head>, NotebookError> {
    let found = connection
        .prepare_cached(include_str!("head.sql"))?
        .query_row([case_id], |row| {
            let body: String = row.get("body")?;
            let head = Head {
                number: row.get("number")?,
                kind: row.get("kind")?,
                written_at: row.get("written_at")?,
                node: row.get("own_hash")?,
                body: Value::Null,
            };
            Ok((head, body))
        })
        .optional()?;
    let Some((head, body)) = found else { return Ok(None) };
    let body =
        serde_json::from_str(&body).map_err(|source| NotebookError::Unreadable { id: case_id.to_owned(), source })?;
    Ok(Some(Head { body, ..head }))
}

/// Tells whether two bodies hold the same answers; `5` and `5.0` are the same number.
pub(crate) fn same(one: &Value, other: &Value) -> bool {
    one == other || canonical(one) == canonical(other)
}

/// A state that is to be saved.
pub(crate) struct NewStep<'a> {
    pub case_id: &'a str,
    pub kind: StepKind,
    pub number: u32,
    pub by: &'a Person,
    pub written_at: &'a str,
    pub body: &'a Value,
    pub addendum_text: Option<&'a str>,
    /// The state that it follows, and what that one holds.
    pub before: Option<(Node, &'a Value)>,
    /// The other state that it follows, where it settles a conflict.
    pub other_parent: Option<Node>,
}

impl NewStep<'_> {
    /// Gives the node that the state will have.
    pub fn node(&self) -> Node {
        let mark = self.by.mark.to_string();
        Named {
            parent: self.before.map(|(node, _)| node),
            other_parent: self.other_parent,
            case_id: self.case_id,
            kind: self.kind,
            number: self.number,
            mark: &mark,
            name: &self.by.name,
            written_at: self.written_at,
            addendum_text: self.addendum_text,
        }
        .node(self.body)
    }

    /// Writes the state and gives its node.
    pub fn write(&self, transaction: &Transaction<'_>) -> Result<Node, NotebookError> {
        let node = self.node();
        let back = self.before.map(|(_, before)| back(self.body, before));
        transaction.prepare_cached(include_str!("add_step.sql"))?.execute(params![
            self.case_id,
            node,
            self.before.map(|(node, _)| node),
            self.other_parent,
            self.kind,
            self.number,
            self.by.id,
            self.written_at,
            self.addendum_text,
            back,
        ])?;
        Ok(node)
    }
}

/// Makes the JSON Patch that leads from a state back to the one before it.
pub(crate) fn back(from: &Value, to: &Value) -> String {
    let patch = json_patch::diff(from, to);
    let mut restored = from.clone();
    let leads_back = json_patch::patch(&mut restored, &patch).is_ok() && canonical(&restored) == canonical(to);
    let text = serde_json::to_string(&patch).unwrap_or_default();
    let whole = || serde_json::json!([{ "op": "replace", "path": "", "value": to }]).to_string();
    // Whatever becomes of the ways of that library: a state that cannot be rebuilt is never saved.
    if leads_back && text.len() <= to.to_string().len() { text } else { whole() }
}

/// Goes back one state; gives nothing where the patch does not fit.
pub(crate) fn go_back(body: &Value, back: &str) -> Option<Value> {
    let patch: Patch = serde_json::from_str(back).ok()?;
    let mut before = body.clone();
    json_patch::patch(&mut before, &patch).ok()?;
    Some(before)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::{Map, Number, Value};

    use super::{back, go_back, same};

    /// Any JSON, with keys that mean something in a pointer and few enough names that two values share some.
    fn any_json() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<u64>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<f64>().prop_map(|float| Number::from_f64(float).map_or(Value::Null, Value::Number)),
            "[a-c]{0,2}".prop_map(Value::from),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 40, 6, |inner| {
            let key = prop_oneof!["[ab]", Just("~".to_owned()), Just("a/b".to_owned()), Just(String::new()), "[0-2]"];
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
                prop::collection::vec((key, inner), 0..6).prop_map(|pairs| Value::from(Map::from_iter(pairs))),
            ]
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn whatever_follows_leads_back(from in any_json(), to in any_json()) {
            let before = go_back(&from, &back(&from, &to));
            prop_assert!(before.is_some_and(|before| same(&before, &to)), "{from} back to {to}");
        }
    }
}
