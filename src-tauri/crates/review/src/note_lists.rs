//! The three published lists that an operative note is held against, item by item.

use evengap_case::Case;

use crate::Finding;
use crate::facts::{self, Fact};

/// A published list of what an operative note states.
#[derive(Debug, Clone, Copy)]
pub struct List {
    /// Publisher, title and place.
    pub source: &'static str,
    /// Its items.
    pub items: &'static [ListItem],
}

/// One item of a published list.
#[derive(Debug, Clone, Copy)]
pub struct ListItem {
    /// The item in short.
    pub name: &'static str,
    fact: Fact,
}

impl ListItem {
    /// Gives the paths of the answers that this item still needs.
    pub fn gaps(&self, case: &Case) -> Vec<String> {
        (self.fact.gaps)(case)
    }
}

pub(crate) const fn item(name: &'static str, fact: Fact) -> ListItem {
    ListItem { name, fact }
}

/// The lists, as they stand in their sources.
pub const LISTS: [List; 3] = [
    List {
        source: "Royal College of Surgeons of England, Good Surgical Practice, 2014, 1.3",
        items: &[
            item("date and time", facts::DATE_AND_TIME),
            item("elective or emergency", facts::URGENCY),
            item("surgeon and assistant", facts::SURGEON_AND_ASSISTANT),
            item("anaesthetist", facts::ANAESTHETIST),
            item("procedure", facts::PROCEDURE),
            item("incision", facts::INCISION),
            item("operative diagnosis", facts::DIAGNOSIS_AT_OPERATION),
            item("findings", facts::FINDINGS),
            item("problems or complications", facts::COMPLICATIONS),
            item("extra procedure and why", facts::EXTRA_PROCEDURE),
            item("tissue removed, added or altered", facts::TISSUE),
            item("prosthesis with serial or lot numbers", facts::PROSTHESIS),
            item("closure", facts::CLOSURE),
            item("blood loss", facts::BLOOD_LOSS),
            item("antibiotic prophylaxis", facts::ANTIBIOTIC),
            item("VTE prophylaxis", facts::VTE),
            item("postoperative instructions", facts::INSTRUCTIONS),
            item("signature", facts::SIGNATURE),
        ],
    },
    List {
        source: "Joint Commission, RC.02.01.03 (progress note before the next level of care)",
        items: &[
            item("surgeons and assistants", facts::SURGEON_AND_ASSISTANT),
            item("procedure", facts::PROCEDURE),
            item("findings", facts::FINDINGS),
            item("blood loss", facts::BLOOD_LOSS),
            item("specimens", facts::SPECIMENS),
            item("postoperative diagnosis", facts::DIAGNOSIS_AT_OPERATION),
        ],
    },
    List {
        source: "CMS, 42 CFR 482.51(b)(6), interpretive list",
        items: &[
            item("patient identification", facts::PATIENT),
            item("dates and times", facts::DATE_AND_TIME),
            item("surgeons and assistants, and who did which significant task", facts::WHO_DID_WHAT),
            item("preoperative diagnosis", facts::DIAGNOSIS_BEFORE),
            item("postoperative diagnosis", facts::DIAGNOSIS_AT_OPERATION),
            item("procedure", facts::PROCEDURE),
            item("anaesthesia", facts::ANAESTHESIA),
            item("complications", facts::COMPLICATIONS),
            item("techniques", facts::TECHNIQUE),
            item("findings", facts::FINDINGS),
            item("tissues removed or altered", facts::TISSUE),
            item("devices implanted", facts::PROSTHESIS),
        ],
    },
];

/// Gives what an operative note still lacks; one finding a fact, with every list that asks for it.
pub fn missing_from_note(case: &Case) -> Vec<Finding> {
    missing(&LISTS, case)
}

/// Gives what an entry lacks of some lists.
pub(crate) fn missing(lists: &[List], case: &Case) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for list in lists {
        for item in list.items {
            let Some(lack) = item.fact.missing(case) else { continue };
            let source = format!("{} ({})", list.source, item.name);
            match found.iter_mut().find(|finding| finding.rule == lack.rule) {
                Some(known) => known.source = known.source.take().map(|before| format!("{before}; {source}")),
                None => found.push(Finding { source: Some(source), ..lack }),
            }
        }
    }
    found
}
