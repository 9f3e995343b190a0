//! The facts that published lists ask for, each as one function from an entry to the answers that
//! are not recorded. A fact is written once, however many lists ask for it.

use evengap_case::Case;
use evengap_case::sections::{Component, Fate, TeamPart};

use crate::{Finding, FindingKind};

/// A fact that a note must state.
#[derive(Debug, Clone, Copy)]
pub struct Fact {
    /// Name of the rule.
    pub name: &'static str,
    /// One sentence for the person who has not recorded it.
    pub sentence: &'static str,
    /// The answers that are missing; none where the fact is recorded.
    pub gaps: fn(&Case) -> Vec<String>,
}

impl Fact {
    /// Says that an entry lacks the fact; nothing where it is recorded. What is missing blocks.
    pub(crate) fn missing(&self, case: &Case) -> Option<Finding> {
        let paths = (self.gaps)(case);
        (!paths.is_empty()).then(|| Finding {
            rule: self.name.to_owned(),
            kind: FindingKind::Missing,
            paths,
            message: self.sentence.to_owned(),
            source: None,
            blocks: true,
            overridable: false,
            overridden: None,
        })
    }
}

/// Gives the paths whose answer is not recorded.
pub(crate) fn need(answers: &[(&str, bool)]) -> Vec<String> {
    answers.iter().filter(|(_, recorded)| !recorded).map(|(path, _)| (*path).to_owned()).collect()
}

/// Gives the first path unless at least one of the answers is recorded.
fn need_one(answers: &[(&str, bool)]) -> Vec<String> {
    if answers.iter().any(|(_, recorded)| *recorded) { Vec::new() } else { need(&answers[..1]) }
}

fn named(case: &Case, parts: &[TeamPart]) -> bool {
    case.team.iter().any(|m| m.person.is_some() && m.part.is_some_and(|part| parts.contains(&part)))
}

pub const PATIENT: Fact = Fact {
    name: "patient",
    sentence: "The patient is not fully identified: name, hospital number and date of birth.",
    gaps: |c| {
        let p = &c.patient;
        let mut gaps = need_one(&[
            ("patient.family_name", p.family_name.is_some()),
            ("patient.given_name", p.given_name.is_some()),
        ]);
        gaps.extend(need(&[
            ("patient.hospital_number", p.hospital_number.is_some()),
            ("patient.birth_date", p.birth_date.is_some()),
        ]));
        gaps
    },
};
pub const DATE_AND_TIME: Fact = Fact {
    name: "date_and_time",
    sentence: "Date and time of the operation are not both recorded.",
    gaps: |c| {
        let mut gaps = need(&[("setting.operation_date", c.setting.operation_date.is_some())]);
        gaps.extend(need_one(&[
            ("times.incision", c.times.incision.is_some()),
            ("times.into_theatre", c.times.into_theatre.is_some()),
            ("times.anaesthesia_start", c.times.anaesthesia_start.is_some()),
        ]));
        gaps
    },
};
pub const URGENCY: Fact = Fact {
    name: "urgency",
    sentence: "Whether the operation was elective or urgent is not recorded.",
    gaps: |c| need(&[("setting.urgency", c.setting.urgency.is_some())]),
};
pub const SURGEON_AND_ASSISTANT: Fact = Fact {
    name: "surgeon_and_assistant",
    sentence: "The operating surgeon and an assistant are not both named.",
    gaps: |c| {
        let recorded =
            named(c, &[TeamPart::OperatingSurgeon]) && named(c, &[TeamPart::Assistant, TeamPart::SupervisingSurgeon]);
        need(&[("team", recorded)])
    },
};
/// An assistant's task is clear from the part; it is two who operate whose shares must be told apart.
pub const WHO_DID_WHAT: Fact = Fact {
    name: "who_did_what",
    sentence: "It is not recorded who operated, or which part each of several surgeons did.",
    gaps: |c| {
        let operated = |part| matches!(part, Some(TeamPart::OperatingSurgeon | TeamPart::SupervisingSurgeon));
        let operators: Vec<_> = c.team.iter().enumerate().filter(|(_, m)| operated(m.part)).collect();
        match operators.as_slice() {
            [] => need(&[("team", false)]),
            [_] => Vec::new(),
            several if several.iter().any(|(_, m)| m.did.is_some()) => Vec::new(),
            several => several.iter().map(|(i, _)| format!("team[{i}].did")).collect(),
        }
    },
};
pub const ANAESTHETIST: Fact = Fact {
    name: "anaesthetist",
    sentence: "No anaesthetist is named.",
    gaps: |c| need(&[("team", named(c, &[TeamPart::Anaesthetist]))]),
};
pub const ANAESTHESIA: Fact = Fact {
    name: "anaesthesia",
    sentence: "The kind of anaesthesia is not recorded.",
    gaps: |c| need(&[("anaesthesia.kinds", !c.anaesthesia.kinds.is_empty())]),
};
pub const PROCEDURE: Fact = Fact {
    name: "procedure",
    sentence: "The procedure and its side are not both recorded.",
    gaps: |c| need(&[("choice.procedure", c.choice.procedure.is_some()), ("knee.side", c.knee.side.is_some())]),
};
pub const INCISION: Fact = Fact {
    name: "incision",
    sentence: "The incision is not recorded.",
    gaps: |c| need(&[("approach.incision", c.approach.incision.is_some())]),
};
pub const TECHNIQUE: Fact = Fact {
    name: "technique",
    sentence: "The technique is not recorded: incision and how the joint was opened.",
    gaps: |c| {
        need(&[
            ("approach.incision", c.approach.incision.is_some()),
            ("approach.arthrotomy", c.approach.arthrotomy.is_some()),
        ])
    },
};
pub const DIAGNOSIS_BEFORE: Fact = Fact {
    name: "diagnosis_before",
    sentence: "The diagnosis before the operation is not recorded.",
    gaps: |c| need(&[("knee.diagnosis.kind", c.knee.diagnosis.kind.is_some())]),
};
pub const DIAGNOSIS_AT_OPERATION: Fact = Fact {
    name: "diagnosis_at_operation",
    sentence: "The diagnosis at the operation is not recorded.",
    gaps: |c| need(&[("approach.postoperative_diagnosis", c.approach.postoperative_diagnosis.is_some())]),
};
pub const FINDINGS: Fact = Fact {
    name: "findings",
    sentence: "The findings are not recorded.",
    gaps: |c| need(&[("approach.findings", c.approach.findings.is_some())]),
};
pub const COMPLICATIONS: Fact = Fact {
    name: "complications",
    sentence: "Neither an event nor “no events” is recorded.",
    gaps: |c| need_one(&[("events", !c.events.is_empty()), ("none_recorded", c.none_recorded == Some(true))]),
};
pub const EXTRA_PROCEDURE: Fact = Fact {
    name: "extra_procedure",
    sentence: "An extra procedure is recorded without what was done or why.",
    gaps: |c| {
        let extras = c.approach.extra_procedures.iter().enumerate();
        extras
            .flat_map(|(i, extra)| {
                let at =
                    |name: &str, recorded: bool| (!recorded).then(|| format!("approach.extra_procedures[{i}].{name}"));
                [at("what", extra.what.is_some()), at("why", extra.why.is_some())].into_iter().flatten()
            })
            .collect()
    },
};
pub const TISSUE: Fact = Fact {
    name: "tissue",
    sentence: "It is not recorded what tissue was removed, added or altered.",
    gaps: |c| {
        need_one(&[
            ("cuts.pieces", !c.cuts.pieces.is_empty()),
            ("approach.osteophytes_removed", c.approach.osteophytes_removed.is_some()),
            ("approach.releases", !c.approach.releases.is_empty()),
            ("approach.none_recorded", c.approach.none_recorded == Some(true)),
            ("closing.specimens", !c.closing.specimens.is_empty()),
            ("closing.none_recorded", c.closing.none_recorded == Some(true)),
        ])
    },
};
pub const SPECIMENS: Fact = Fact {
    name: "specimens",
    sentence: "Neither specimens nor “no specimens” are recorded.",
    gaps: |c| {
        need_one(&[
            ("closing.specimens", !c.closing.specimens.is_empty()),
            ("closing.none_recorded", c.closing.none_recorded == Some(true)),
        ])
    },
};
pub const PROSTHESIS: Fact = Fact {
    name: "prosthesis",
    sentence: "An implanted component lacks its reference, or its lot or serial number.",
    gaps: |c| {
        let implanted = |part: &&Component| !matches!(part.fate, Some(Fate::OpenedNotUsed | Fate::Removed));
        if !c.components.iter().any(|part| implanted(&part)) {
            return need(&[("components", false)]);
        }
        let parts = c.components.iter().enumerate().filter(|(_, part)| implanted(part));
        parts
            .flat_map(|(i, part)| {
                let at = |name: &str, recorded: bool| (!recorded).then(|| format!("components[{i}].{name}"));
                let traced = part.lot.is_some() || part.serial.is_some();
                [at("reference", part.reference.is_some()), at("lot", traced)].into_iter().flatten()
            })
            .collect()
    },
};
pub const CLOSURE: Fact = Fact {
    name: "closure",
    sentence: "The closure is not recorded.",
    gaps: |c| need_one(&[("closing.layers", !c.closing.layers.is_empty()), ("closing.skin", c.closing.skin.is_some())]),
};
pub const BLOOD_LOSS: Fact = Fact {
    name: "blood_loss",
    sentence: "The blood loss is not recorded.",
    gaps: |c| need(&[("closing.blood_loss_ml", c.closing.blood_loss_ml.is_some())]),
};
pub const ANTIBIOTIC: Fact = Fact {
    name: "antibiotic",
    sentence: "Neither an antibiotic nor the reason for giving none is recorded.",
    gaps: |c| {
        need_one(&[
            ("anaesthesia.antibiotics", !c.anaesthesia.antibiotics.is_empty()),
            ("anaesthesia.no_antibiotic_reason", c.anaesthesia.no_antibiotic_reason.is_some()),
        ])
    },
};
pub const VTE: Fact = Fact {
    name: "vte",
    sentence: "The prevention of blood clots is not recorded.",
    gaps: |c| {
        let vte = &c.aftercare.vte;
        need_one(&[
            ("aftercare.vte.drug", vte.drug.is_some()),
            ("aftercare.vte.mechanical", vte.mechanical.is_some()),
            ("aftercare.vte.no_drug_reason", vte.no_drug_reason.is_some()),
        ])
    },
};
pub const INSTRUCTIONS: Fact = Fact {
    name: "instructions",
    sentence: "Instructions for after the operation are not recorded.",
    gaps: |c| {
        need_one(&[
            ("aftercare.instructions", c.aftercare.instructions.is_some()),
            ("aftercare.weight_bearing", c.aftercare.weight_bearing.is_some()),
            ("aftercare.special", c.aftercare.special.is_some()),
        ])
    },
};
pub const SIGNATURE: Fact = Fact {
    name: "signature",
    sentence: "Nobody is named who can sign: the operating or the responsible surgeon.",
    gaps: |c| need(&[("team", named(c, &[TeamPart::OperatingSurgeon, TeamPart::ResponsibleSurgeon]))]),
};
