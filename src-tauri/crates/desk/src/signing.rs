//! Signing an entry, and adding to a signed one.
//!
//! Which findings may be overridden is the review's own; who may sign is asked of the rights.

use evengap_case::sections::Override;
use evengap_case::{Case, CaseId, LocalTime, Problem};
use evengap_notebook::State;
use evengap_review::Finding;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;

use crate::{Desk, DeskError, Entry, ErrorCode, Right};

/// One addendum in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, TS)]
pub struct AddendumLine {
    /// 1 for the first.
    pub number: u32,
    /// Who added it.
    pub by: String,
    /// When, `YYYY-MM-DDTHH:MM`.
    pub at: String,
    /// What it says.
    pub text: String,
}

/// A finding in spite of which an entry is to be signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, TS)]
pub struct OverrideAsked {
    /// [`Finding::rule`].
    pub rule: String,
    /// [`Finding::paths`].
    pub paths: Vec<String>,
    /// Why it is signed all the same; printed on the note.
    pub reason: String,
}

impl OverrideAsked {
    fn is_of(&self, finding: &Finding) -> bool {
        (&self.rule, &self.paths) == (&finding.rule, &finding.paths)
    }
}

impl Desk {
    /// Signs an entry as the notebook's writer; its operative note is made and kept in the same moment. `case` is the
    /// entry as it stands on the screen, so that what is signed is what was looked at. `overrides` are the findings in
    /// spite of which it is signed, each with a reason; whoever signs stands for all of them, also for those whose reason
    /// stands in the draft.
    ///
    /// # Errors
    /// When findings block, an override is of none that stands and may be overridden, or has no reason, it is signed already or stored otherwise than given (`refused`, with the places), no
    /// notebook is open, or it holds no such entry.
    pub fn case_sign(&mut self, case: Value, overrides: &[OverrideAsked], now: LocalTime) -> Result<Entry, DeskError> {
        self.open_as(Right::Sign)?;
        let seen = evengap_case::read_value(case)?.case;
        let stored = self.open()?.show(seen.id)?;
        let by = self.open()?.writer().to_owned();
        let mut signed = stored.case.clone();
        if stored.state == State::Draft {
            if !is_the_same(&seen.to_value(), &stored.case.to_value()) {
                return Err(DeskError::new(
                    ErrorCode::Refused,
                    "Somebody saved this entry meanwhile, so what is stored is not what you looked at. Nothing was signed; \
                     open it again and look.",
                ));
            }
            signed.overrides = self.overriding(&stored.case, overrides, &by, now)?;
            let places = self.blocking(&signed)?.into_iter().map(place).collect::<Vec<_>>();
            if !places.is_empty() {
                return Err(blocked("The entry cannot be signed yet", places));
            }
        }
        let node = self.open()?.node_when_signed(&signed, now)?;
        let note = self.note_to_sign(&signed, &by, Some(node.to_string()), now)?;
        self.open_to_write()?.sign(&stored.case, &signed, node, &[note], now)?;
        self.case_show(&seen.id.to_string())
    }

    /// Adds to a signed entry, as the notebook's writer: words, and the answers as they are from now on. `based_on` is
    /// [`Entry::number`] of the version that the writer looked at.
    ///
    /// An addendum corrects one entry and never makes it another's: the side stays, of what tells the patient apart only
    /// one answer may change at a time, and nothing that would keep an entry from being signed may come in with it.
    ///
    /// # Errors
    /// When the entry cannot be read or is a draft, somebody added to it meanwhile, the words are missing, or the answers
    /// change in a way that an addendum may not (`refused`, with the places), or no notebook is open.
    pub fn case_addendum(
        &mut self,
        case: Value,
        text: &str,
        based_on: u32,
        now: LocalTime,
    ) -> Result<Entry, DeskError> {
        self.open_as(Right::Sign)?;
        let case = evengap_case::read_value(case)?.case;
        let stored = self.open()?.show(case.id)?;
        // One of another version is refused below for that, before anything is written.
        if stored.state == State::Signed && stored.number == based_on {
            identity_stays(&stored.case, &case)?;
            let before = self.blocking(&stored.case)?;
            let known = |one: &Finding| before.iter().any(|old| (&old.rule, &old.paths) == (&one.rule, &one.paths));
            let new = self.blocking(&case)?.into_iter().filter(|one| !known(one)).map(place).collect::<Vec<_>>();
            if !new.is_empty() {
                return Err(blocked("The addendum cannot be added", new));
            }
        }
        self.open_to_write()?.add_addendum(&case, text, based_on, now)?;
        self.case_show(&case.id.to_string())
    }

    /// What an entry records when it is signed in spite of findings: only what stands against it, each in the name of
    /// whoever signs.
    fn overriding(
        &self,
        case: &Case,
        asked: &[OverrideAsked],
        by: &str,
        now: LocalTime,
    ) -> Result<Vec<Override>, DeskError> {
        let mut bare = case.clone();
        bare.overrides.clear();
        let standing = self.blocking(&bare)?;
        for one in asked {
            let Some(finding) = standing.iter().find(|finding| one.is_of(finding)) else {
                let message = "One of the findings to sign in spite of does not stand; look at the findings again.";
                return Err(refused(message, one.paths.iter().map(String::as_str).collect()));
            };
            let message = if !finding.overridable {
                format!("Nobody can sign in spite of this; correct the entry: {}", finding.message)
            } else if !evengap_notebook::says_something(&one.reason) {
                format!("Write why you sign in spite of this: {}", finding.message)
            } else {
                continue;
            };
            return Err(refused(&message, finding.paths.iter().map(String::as_str).collect()));
        }
        let reason = |finding: &Finding| {
            let asked = asked.iter().find(|one| one.is_of(finding)).map(|one| one.reason.trim().to_owned());
            asked.or_else(|| {
                let in_draft = case
                    .overrides
                    .iter()
                    .find(|one| one.rule.as_ref() == Some(&finding.rule) && one.paths == finding.paths)?;
                in_draft.reason.clone().filter(|reason| evengap_notebook::says_something(reason))
            })
        };
        let standing = standing.iter().filter(|finding| finding.overridable);
        Ok(standing.filter_map(|finding| Some(finding.override_for(reason(finding)?, by, now))).collect())
    }

    /// What keeps an entry from being signed.
    fn blocking(&self, case: &Case) -> Result<Vec<Finding>, DeskError> {
        Ok(self.case_review(case.to_value())?.into_iter().filter(|finding| finding.blocks).collect())
    }

    /// Lists the addenda of an entry, the oldest first.
    ///
    /// # Errors
    /// When no notebook is open, or it cannot be read.
    pub fn case_addenda(&self, id: &str) -> Result<Vec<AddendumLine>, DeskError> {
        let lines = self.open_as(Right::ReadEntries)?.addenda(identifier(id)?)?;
        let numbered = lines.into_iter().map(|line| AddendumLine {
            // The signed entry itself is version 1.
            number: line.number.saturating_sub(1),
            by: line.by,
            at: line.at,
            text: line.text,
        });
        Ok(numbered.collect())
    }
}

/// Reads the identifier of a case as a person gives it.
pub(crate) fn identifier(id: &str) -> Result<CaseId, DeskError> {
    id.parse().map_err(|error| DeskError::failed(format!("{error}.")))
}

fn place(finding: Finding) -> Problem {
    Problem { path: finding.paths.into_iter().next().unwrap_or_default(), message: finding.message }
}

/// Refuses an addendum that would make the entry that of another knee or another patient.
fn identity_stays(before: &Case, now: &Case) -> Result<(), DeskError> {
    if before.knee.side != now.knee.side {
        let message = "The side of a signed entry stays as it was signed. If the other knee was operated on, begin an entry \
                       for it, and say in an addendum that this one is void.";
        return Err(refused(message, vec!["knee.side"]));
    }
    if before.overrides != now.overrides {
        let message = "What an entry was signed in spite of stays as it was signed. Say in the words of the addendum what \
                       there is to say about it.";
        return Err(refused(message, vec!["overrides"]));
    }
    let (was, is) = (&before.patient, &now.patient);
    let changed: Vec<_> = [
        // What was not recorded may be filled in.
        ("patient.family_name", was.family_name.is_some() && was.family_name != is.family_name),
        ("patient.birth_date", was.birth_date.is_some() && was.birth_date != is.birth_date),
        ("patient.hospital_number", was.hospital_number.is_some() && was.hospital_number != is.hospital_number),
    ]
    .into_iter()
    .filter_map(|(path, changed)| changed.then_some(path))
    .collect();
    if changed.len() > 1 {
        let message = "Family name, birth date and hospital number tell one patient from another: an addendum corrects only \
                       one of them, so that a signed entry never becomes another patient's. Correct one, then the next.";
        return Err(refused(message, changed));
    }
    Ok(())
}

fn refused(message: &str, paths: Vec<&str>) -> DeskError {
    let places = paths.into_iter().map(|path| Problem { path: path.into(), message: message.into() }).collect();
    DeskError { code: ErrorCode::Refused, message: message.into(), places }
}

/// Compares two entries. Numbers are compared as a page of the window knows them (IEEE 754 binary64): it gives `5` back
/// for `5.0`.
fn is_the_same(one: &Value, other: &Value) -> bool {
    match (one, other) {
        (Value::Number(one), Value::Number(other)) => one == other || one.as_f64() == other.as_f64(),
        (Value::Array(one), Value::Array(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|(one, other)| is_the_same(one, other))
        }
        (Value::Object(one), Value::Object(other)) => {
            one.len() == other.len()
                && one.iter().all(|(key, one)| other.get(key).is_some_and(|other| is_the_same(one, other)))
        }
        _ => one == other,
    }
}

fn blocked(what: &str, places: Vec<Problem>) -> DeskError {
    let message = match places.as_slice() {
        [only] => format!("{what}: {}", only.message),
        all => format!(
            "{what}; {} findings stand against it. First: {}",
            all.len(),
            all.first().map(|place| place.message.as_str()).unwrap_or_default()
        ),
    };
    DeskError { code: ErrorCode::Refused, message, places }
}
