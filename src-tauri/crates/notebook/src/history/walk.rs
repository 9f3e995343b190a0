//! Walking back through the saved states of one entry, each rebuilt and its node computed anew.

use std::collections::{HashMap, HashSet};

use rusqlite::Connection;
use serde_json::Value;

use super::node::{Named, Node, StepKind};
use super::step::go_back;
use crate::NotebookError;

/// A saved state as it is stored.
#[derive(Debug, Clone)]
pub(crate) struct StepRow {
    pub sequence: i64,
    pub node: Node,
    pub parent: Option<Node>,
    pub other_parent: Option<Node>,
    pub kind: StepKind,
    pub number: u32,
    pub mark: String,
    pub name: String,
    pub written_at: String,
    pub addendum_text: Option<String>,
    pub back: Option<String>,
}

impl StepRow {
    /// Computes the node of the state from what it holds.
    pub fn node_of(&self, case_id: &str, body: &Value) -> Node {
        Named {
            parent: self.parent,
            other_parent: self.other_parent,
            case_id,
            kind: self.kind,
            number: self.number,
            mark: &self.mark,
            name: &self.name,
            written_at: &self.written_at,
            addendum_text: self.addendum_text.as_deref(),
        }
        .node(body)
    }
}

/// Reads every saved state of an entry, in the order in which they came into this notebook.
pub(crate) fn rows(connection: &Connection, case_id: &str) -> Result<Vec<StepRow>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("rows.sql"))?;
    let rows = statement.query_map([case_id], |row| {
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
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Reads the newest state of every branch that came from another notebook.
pub(crate) fn asides(connection: &Connection, case_id: &str) -> Result<Vec<(Node, String)>, NotebookError> {
    let mut statement = connection.prepare_cached(include_str!("asides.sql"))?;
    let rows = statement.query_map([case_id], |row| Ok((row.get("node")?, row.get("body")?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Why a walk ended before the first state.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Broken {
    /// No such state is stored.
    Missing(Node),
    /// The node is not the sum of what is stored; the sequence of the state.
    Differs(i64),
    /// What leads back to the state before does not fit; the sequence of the state.
    NoWayBack(i64),
}

/// Walks over the states of one entry, each of which is met once.
pub(crate) struct Walker<'a> {
    case_id: &'a str,
    rows: HashMap<Node, &'a StepRow>,
    /// The nodes that were met.
    pub met: HashSet<Node>,
}

impl<'a> Walker<'a> {
    pub fn new(case_id: &'a str, rows: &'a [StepRow]) -> Self {
        let rows = rows.iter().map(|row| (row.node, row)).collect();
        Self { case_id, rows, met: HashSet::new() }
    }

    /// Walks back from a state to the first one, or to one that was met before.
    ///
    /// `see` gets each state, what it holds, and what the state before it holds.
    pub fn back_from(
        &mut self,
        node: Node,
        body: Value,
        mut see: impl FnMut(&StepRow, &Value, Option<&Value>),
    ) -> Result<(), Broken> {
        let (mut node, mut body) = (node, body);
        while !self.met.contains(&node) {
            let row = *self.rows.get(&node).ok_or(Broken::Missing(node))?;
            if row.node_of(self.case_id, &body) != node {
                return Err(Broken::Differs(row.sequence));
            }
            self.met.insert(node);
            let (Some(parent), Some(back)) = (row.parent, &row.back) else {
                see(row, &body, None);
                return Ok(());
            };
            let before = go_back(&body, back).ok_or(Broken::NoWayBack(row.sequence))?;
            see(row, &body, Some(&before));
            (node, body) = (parent, before);
        }
        Ok(())
    }
}
