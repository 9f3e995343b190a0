//! What a rule finds, and how it says so.

use serde::Serialize;
use ts_rs::TS;

/// One thing that a person should look at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct Finding {
    /// Name of the rule that found it.
    pub rule: String,
    /// What sort of finding it is.
    pub kind: FindingKind,
    /// The answers it is about, such as `components[2].lot`; the first is the one to jump to.
    pub paths: Vec<String>,
    /// One sentence.
    pub message: String,
    /// Who asks for it or where the limit comes from, where somebody does.
    pub source: Option<String>,
    /// Whether a paper cannot be signed or handed out while it stands; no longer once it is overridden.
    pub blocks: bool,
    /// Whether the entry may be signed in spite of it, with a reason.
    pub overridable: bool,
    /// The reason for which the entry was signed in spite of it.
    pub overridden: Option<String>,
}

/// The sort of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, TS)]
#[serde(rename_all = "snake_case")]
pub enum FindingKind {
    /// Something that a published list or a paper asks for is not recorded.
    Missing,
    /// Two answers cannot both be true.
    Conflict,
    /// A value lies outside its ordinary range or a limit.
    OutOfRange,
    /// Something to bear in mind.
    Caution,
}

/// What one rule has found so far.
#[derive(Debug, Default)]
pub struct Found {
    findings: Vec<Finding>,
    rule: &'static str,
}

impl Found {
    /// Begins the findings of a rule.
    pub(crate) fn of(rule: &'static str) -> Self {
        Self { findings: Vec::new(), rule }
    }

    pub(crate) fn into_findings(self) -> Vec<Finding> {
        self.findings
    }

    fn say(&mut self, kind: FindingKind, paths: &[&str], message: String) -> &mut Finding {
        let at = self.findings.len();
        self.findings.push(Finding {
            rule: self.rule.to_owned(),
            kind,
            paths: paths.iter().map(|path| (*path).to_owned()).collect(),
            message,
            source: None,
            blocks: false,
            overridable: false,
            overridden: None,
        });
        &mut self.findings[at]
    }

    /// Says what another list already found, under the name of this rule.
    pub(crate) fn again(&mut self, finding: Finding) {
        self.findings.push(Finding { rule: self.rule.to_owned(), ..finding });
    }

    /// Says that something is missing.
    pub fn missing(&mut self, paths: &[&str], message: impl Into<String>) -> &mut Finding {
        self.say(FindingKind::Missing, paths, message.into())
    }

    /// Says that two answers cannot both be true. Blocks, unless told otherwise.
    pub fn conflict(&mut self, paths: &[&str], message: impl Into<String>) -> &mut Finding {
        let finding = self.say(FindingKind::Conflict, paths, message.into());
        finding.blocks = true;
        finding
    }

    /// Says that a value lies outside its ordinary range or a limit.
    pub fn out_of_range(&mut self, paths: &[&str], message: impl Into<String>) -> &mut Finding {
        self.say(FindingKind::OutOfRange, paths, message.into())
    }

    /// Says something to bear in mind.
    pub fn caution(&mut self, paths: &[&str], message: impl Into<String>) -> &mut Finding {
        self.say(FindingKind::Caution, paths, message.into())
    }
}

impl Finding {
    /// Names the source.
    pub fn source(&mut self, source: impl Into<String>) -> &mut Self {
        self.source = Some(source.into());
        self
    }

    /// Lets a paper not be signed or handed out while this stands.
    pub fn blocking(&mut self) -> &mut Self {
        self.blocks = true;
        self
    }
}
