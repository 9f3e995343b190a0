//! Every item of the three published lists stands in the whole-knee note, and is missed when emptied.
//!
//! Sources: Royal College of Surgeons of England, Good Surgical Practice, 2014, 1.3 (18 items);
//! Joint Commission RC.02.01.03; CMS 42 CFR 482.51(b)(6), interpretive list.

use evengap_case::{Case, read_value};
use evengap_papers::Kind;
use evengap_review::{LISTS, missing_from_note};
use evengap_tests::{FONTS, demo, demos, paper, pdftotext, unwrapped};

/// An item, the words by which it is found in the note, and the answers that record it.
type Row = (&'static str, &'static [&'static str], &'static [&'static str]);

const RCS: [Row; 18] = [
    ("date and time", &["10 March 2026", "incision 09:21"], &["/setting/operation_date"]),
    ("elective or emergency", &["Elective operation"], &["/setting/urgency"]),
    ("surgeon and assistant", &["Ms Maren Oakshott", "Mr Idris Penhale"], &["/team"]),
    ("anaesthetist", &["Dr Leocadia Thornwick"], &["/team"]),
    ("procedure", &["Left total knee replacement"], &["/choice/procedure"]),
    ("incision", &["Incision: Straight midline"], &["/approach/incision"]),
    (
        "operative diagnosis",
        &["Diagnosis at operation", "medial and patellofemoral"],
        &["/approach/postoperative_diagnosis"],
    ),
    ("findings", &["Findings: Eburnated bone"], &["/approach/findings"]),
    ("problems or complications", &["Bone cement implantation syndrome"], &["/events"]),
    (
        "extra procedure and why",
        &["Removal of a 12 mm loose body", "Reason: Found on opening"],
        &["/approach/extra_procedures/0/why"],
    ),
    (
        "tissue removed, added or altered",
        &["Osteophytes removed", "Distal medial femur", "Soft-tissue releases"],
        &["/cuts/pieces", "/approach/osteophytes_removed", "/approach/releases", "/closing/specimens"],
    ),
    (
        "prosthesis with serial or lot numbers",
        &["lot T228401", "serial S7194998", "lot M80898"],
        &["/components/5/lot"],
    ),
    ("closure", &["Closure: Capsule", "Skin: Steel clips"], &["/closing/layers", "/closing/skin"]),
    ("blood loss", &["Blood loss 220 ml"], &["/closing/blood_loss_ml"]),
    ("antibiotic prophylaxis", &["cefuroxime 1500 mg at 08:52"], &["/anaesthesia/antibiotics"]),
    ("VTE prophylaxis", &["Rivaroxaban 10 mg"], &["/aftercare/vte"]),
    (
        "postoperative instructions",
        &["Full weight bearing", "Keep the wound dry"],
        &["/aftercare/instructions", "/aftercare/weight_bearing", "/aftercare/special"],
    ),
    ("signature", &["Signature", "Date and time:"], &["/team"]),
];

const JOINT_COMMISSION: [Row; 6] = [
    ("surgeons and assistants", &["Ms Maren Oakshott", "Bronagh Tilney"], &["/team"]),
    ("procedure", &["Left total knee replacement"], &["/knee/side"]),
    ("findings", &["Findings: Eburnated bone"], &["/approach/findings"]),
    ("blood loss", &["Blood loss 220 ml"], &["/closing/blood_loss_ml"]),
    ("specimens", &["Specimens: Loose body"], &["/closing/specimens"]),
    ("postoperative diagnosis", &["Diagnosis at operation"], &["/approach/postoperative_diagnosis"]),
];

const CMS: [Row; 12] = [
    (
        "patient identification",
        &["Zofia Wiśniewska-Brzęk", "WTH-204871", "19 August 1954"],
        &["/patient/hospital_number"],
    ),
    ("dates and times", &["10 March 2026", "closed 10:52"], &["/times"]),
    (
        "surgeons and assistants, and who did which significant task",
        &["Mr Idris Penhale: Assisted throughout"],
        &["/team"],
    ),
    (
        "preoperative diagnosis",
        &["Diagnosis before operation", "Primary osteoarthritis of the left knee"],
        &["/knee/diagnosis"],
    ),
    ("postoperative diagnosis", &["Diagnosis at operation"], &["/approach/postoperative_diagnosis"]),
    ("procedure", &["Left total knee replacement"], &["/choice/procedure"]),
    ("anaesthesia", &["Anaesthesia: spinal, sedation, nerve block and local infiltration"], &["/anaesthesia/kinds"]),
    ("complications", &["Problems and complications"], &["/events"]),
    ("techniques", &["medial parapatellar arthrotomy", "deep medial collateral ligament"], &["/approach/arthrotomy"]),
    ("findings", &["No sign of infection"], &["/approach/findings"]),
    (
        "tissues removed or altered",
        &["Osteophytes removed", "Specimens: Loose body"],
        &["/cuts/pieces", "/approach/osteophytes_removed", "/approach/releases", "/closing/specimens"],
    ),
    ("devices implanted", &["Femoral component", "Tibial tray", "Patellar button", "Bone cement"], &["/components"]),
];

fn rows() -> [&'static [Row]; 3] {
    [&RCS, &JOINT_COMMISSION, &CMS]
}

/// Takes answers out of an entry.
fn without(case: &Case, pointers: &[&str]) -> Case {
    let mut value = case.to_value();
    for pointer in pointers {
        *value.pointer_mut(pointer).unwrap_or_else(|| panic!("the demo records {pointer}")) = serde_json::Value::Null;
    }
    read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case
}

#[test]
fn the_table_names_every_item_of_every_list() {
    for (list, rows) in LISTS.iter().zip(rows()) {
        let names: Vec<_> = list.items.iter().map(|item| item.name).collect();
        assert_eq!(names, rows.iter().map(|row| row.0).collect::<Vec<_>>(), "{}", list.source);
    }
}

#[test]
fn every_item_is_read_back_from_the_whole_knee_note() {
    let case = demo("whole-knee-cemented");
    assert_eq!(missing_from_note(&case), [], "the finished demo lacks nothing");
    let pdf = paper(&case, Kind::OperativeNote).pdf(&FONTS).unwrap();
    let text = unwrapped(&pdftotext(&pdf.bytes));
    for (list, rows) in LISTS.iter().zip(rows()) {
        for (item, words, _) in rows {
            for words in *words {
                assert!(text.contains(words), "“{item}” of {}: the note must say “{words}”", list.source);
            }
        }
    }
}

#[test]
fn every_item_is_missed_when_its_answers_are_emptied() {
    let whole = demo("whole-knee-cemented");
    for (list, rows) in LISTS.iter().zip(rows()) {
        for (item, _, answers) in rows {
            let case = without(&whole, answers);
            let asked = format!("{} ({item})", list.source);
            let named =
                |finding: &evengap_review::Finding| finding.source.as_deref().is_some_and(|s| s.contains(&asked));
            let findings = missing_from_note(&case);
            let finding = findings.iter().find(|finding| named(finding));
            let finding = finding.unwrap_or_else(|| panic!("“{item}” of {} must be reported missing", list.source));
            assert!(!finding.paths.is_empty(), "“{item}” must name the answers that it lacks");
            let note = paper(&case, Kind::OperativeNote);
            assert!(
                note.markdown().contains(&format!("- {}", finding.message)),
                "the note itself must say what it lacks: {}",
                finding.message
            );
        }
    }
}

#[test]
fn finished_demos_lack_nothing_and_the_half_filled_one_does() {
    for (name, case) in demos() {
        let findings = missing_from_note(&case);
        assert_eq!(findings.is_empty(), name != "half-filled-draft", "{name}: {findings:#?}");
    }
}
