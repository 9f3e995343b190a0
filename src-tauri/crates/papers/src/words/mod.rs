//! The word list of each language: what the program itself says on a paper, how it writes dates and
//! numbers, and the words of the codes. The lists are files in `templates/`.
//!
//! It holds no sentence of a template and changes nothing that a person typed.

mod pattern;

use std::sync::LazyLock;

use evengap_case::sections::{Procedure, Side};
use serde::Deserialize;
use serde_json::Value;

use crate::document::PageWords;
use crate::{Kind, Language};

pub(crate) use pattern::Pattern;

/// Everything that the program says in one language.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Words {
    /// Title of the discharge letter.
    pub discharge_letter: String,
    /// `{page}`, `{pages}`
    page_of: String,
    demonstration: String,
    drawing: String,
    /// The mark across a paper that is not signed.
    pub draft: String,
    /// `{name}`, `{version}`
    pub template: Pattern,
    /// Says that a translation waits for the clinic's check.
    pub to_be_checked: String,
    /// Says that a paper cannot be handed out.
    pub not_finished: OfKind,
    pub signature: Signature,
    pub in_spite: InSpite,
    pub not_recorded: String,
    pub name_not_recorded: String,
    /// Stands in the place of an author whom nobody named.
    pub author_not_named: String,
    pub born: String,
    pub hospital_number: String,
    pub side: String,
    /// The operated knee with its side.
    pub knee: Sided,
    pub values: Values,
    pub derived: Derived,
    pub surfaces: Surfaces,
    /// Why a letter cannot be handed out, by the answer that the review points at.
    unfinished: serde_json::Map<String, Value>,
    /// The words of codes, nested as an entry is. Empty in English: the dictionary has them.
    pub codes: Value,
}

/// A text for each kind of paper.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct OfKind {
    operative_note: String,
    discharge_letter: String,
    clinician_letter: String,
    component_record: String,
    addendum: String,
}

impl OfKind {
    /// Gives the text for a kind of paper.
    pub fn of(&self, kind: Kind) -> &str {
        match kind {
            Kind::OperativeNote => &self.operative_note,
            Kind::DischargeLetter => &self.discharge_letter,
            Kind::ClinicianLetter => &self.clinician_letter,
            Kind::ComponentRecord => &self.component_record,
            Kind::Addendum => &self.addendum,
        }
    }
}

/// What stands at the end of a paper.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Signature {
    pub heading: String,
    /// Stands above the signature of the letter to the patient.
    pub wishes: String,
    /// `{author}`, `{date}`, `{time}`
    pub written: Pattern,
    /// `{by}`, `{on}`, `{at}`
    pub signed: Pattern,
    /// `{by}`, `{on}`, `{at}`, `{number}`: the same of an addendum.
    pub added: Pattern,
    /// `{by}`, `{on}`, `{at}`: who signed the entry that this paper is written from.
    pub from_signed: Pattern,
    /// `{fingerprint}`: what tells the signed version from every other.
    pub fingerprint: Pattern,
    /// `{who}`, `{line}`: to sign by hand.
    pub line: Pattern,
    /// `{who}`, `{line}`, `{day}`: the same with a line for date and time.
    pub dated_line: Pattern,
    /// Who is to sign where nobody is named.
    pub surgeon: String,
    /// What the operative note says of itself.
    pub gives_no_advice: String,
}

/// What a note says of the findings that its entry was signed in spite of, and of usual answers.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct InSpite {
    pub heading: String,
    /// The same above a note that nobody has signed yet.
    pub heading_of_draft: String,
    /// `{finding}`, `{reason}`, `{by}`, `{on}`, `{at}`, `{about}`, `{rule}`
    pub item: Pattern,
    /// `{sections}`
    pub filled: Pattern,
    /// `{sections}`
    pub filled_unconfirmed: Pattern,
}

/// A text for each side.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Sided {
    left: String,
    right: String,
}

impl Sided {
    /// Gives the text for a side.
    pub fn of(&self, side: Side) -> &str {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }
}

/// How single values are written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Values {
    pub yes: String,
    pub no: String,
    /// The sign between whole and part of a number.
    pub decimal: char,
    /// January first.
    pub months: [String; 12],
    /// `{day}`, `{month}`, `{year}`
    pub date: Pattern,
    /// The same where the clinic wants the month first; languages without that habit repeat `date`.
    pub date_month_first: Pattern,
    /// `{clock}`
    pub time: Pattern,
    /// `{clock}`, `{date}`: a time that is not on the day of the operation.
    pub time_on: Pattern,
    /// What a component without a role is called.
    pub component: String,
    /// `{role}`, `{number}`
    pub component_number: Pattern,
    /// `{role}`, `{name}`, `{number}`
    pub component_named: Pattern,
    /// `{number}`
    pub component_unknown: Pattern,
}

/// Words of the facts that follow from several answers.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Derived {
    /// `{side}`, `{procedure}`: "left total knee replacement".
    pub operation_of_side: Pattern,
    /// `{procedure}`, `{knee}`: "exchange of the insert, left knee".
    pub operation_in_knee: Pattern,
    /// An operation of which nothing is recorded.
    pub operation: String,
    /// `{number}`
    pub registration: Pattern,
    pub not_named: String,
    pub varus: String,
    pub valgus: String,
    pub internal: String,
    pub external: String,
    pub no_coronal_deformity: String,
    pub extension: String,
    pub mid_flexion: String,
    pub flexion: String,
    replaced: Replaced,
}

/// What was replaced, in plain words.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Replaced {
    total: String,
    medial_partial: String,
    lateral_partial: String,
    patellofemoral: String,
    bicompartmental: String,
}

impl Derived {
    /// Gives what an operation replaced; nothing where its name does not say.
    pub fn replaced(&self, procedure: Procedure) -> Option<&str> {
        use Procedure::*;
        Some(match procedure {
            Total => &self.replaced.total,
            MedialPartial => &self.replaced.medial_partial,
            LateralPartial => &self.replaced.lateral_partial,
            Patellofemoral => &self.replaced.patellofemoral,
            Bicompartmental => &self.replaced.bicompartmental,
            InsertExchange
            | RevisionOneComponent
            | RevisionAll
            | FirstStageRemoval
            | SecondStageReimplantation
            | Other => return None,
        })
    }
}

/// Words of the drawing of the surfaces that were replaced.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Surfaces {
    pub inner_side: String,
    pub outer_side: String,
    pub thigh_bone: String,
    pub shin_bone: String,
    pub kneecap: String,
    /// First line of the legend, with a comma.
    pub knee: Sided,
    pub from_the_front: String,
    /// Stands beside a dark square.
    pub new: String,
    /// `{parts}`; the drawing in words.
    pub alt: SidedPattern,
    pub the_inner_side: String,
    pub the_outer_side: String,
    pub the_groove: String,
    pub the_back_of_the_kneecap: String,
}

/// A pattern for each side.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SidedPattern {
    left: Pattern,
    right: Pattern,
}

impl SidedPattern {
    /// Gives the pattern for a side.
    pub fn of(&self, side: Side) -> &Pattern {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }
}

impl Words {
    /// Gives what stands on every page.
    pub fn of_page(&self) -> PageWords {
        PageWords {
            page_of: self.page_of.clone(),
            demonstration: self.demonstration.clone(),
            drawing: self.drawing.clone(),
        }
    }

    /// Gives the words of a code at a place such as `/knee/side`; nothing where the dictionary's are to be used.
    pub fn code(&self, place: &str, code: &str) -> Option<&str> {
        self.codes.pointer(place)?.get(code)?.as_str()
    }

    /// Gives the reason why a letter is not finished, by the answer it is about.
    pub fn unfinished(&self, path: &str) -> Option<&str> {
        self.unfinished.get(path).and_then(Value::as_str)
    }
}

/// Each list, read once.
static LISTS: LazyLock<[Words; 3]> = LazyLock::new(|| {
    [
        include_str!("../../../../../templates/words.en.json"),
        include_str!("../../../../../templates/words.de.json"),
        include_str!("../../../../../templates/words.es.json"),
    ]
    .map(read)
});

#[expect(clippy::expect_used, reason = "the lists are part of the program, and the tests of this crate read them")]
fn read(list: &str) -> Words {
    serde_json::from_str(list).expect("a word list lacks a key or has one too many")
}

/// Gives the word list of a language.
pub(crate) fn of(language: Language) -> &'static Words {
    match language {
        Language::En => &LISTS[0],
        Language::De => &LISTS[1],
        Language::Es => &LISTS[2],
    }
}
