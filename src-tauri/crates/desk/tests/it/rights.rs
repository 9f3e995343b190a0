//! Every act at the desk by every role.

use std::collections::BTreeSet;
use std::path::Path;

use evengap_desk::{
    BackupSettings, BatchAsked, BatchTo, Desk, DeskError, ErrorCode, Keep, PageSize, PaperAsked, PaperChoice,
    PaperFormat, PaperKind, PaperLanguage, PaperSettings, Right, Role,
};
use serde_json::json;
use tempfile::TempDir;

use crate::bench::{PASSPHRASE, at, entry, folder, id, quick, refused, save};

type Outcome = Result<(), DeskError>;
type Act = (&'static str, Right, fn(&mut Desk, &Path) -> Outcome);

fn case_id() -> String {
    id(1).to_string()
}

fn note() -> PaperAsked {
    PaperAsked::new(entry(1, "Threlkeld"), PaperKind::OperativeNote)
}

fn batch(kind: PaperKind, folder: &Path) -> BatchAsked {
    BatchAsked {
        ids: vec![case_id()],
        kinds: vec![kind],
        language: PaperLanguage::En,
        page: PageSize::A4,
        to: BatchTo::Folder(folder.to_string_lossy().into_owned()),
        replace: true,
    }
}

const NOTE: PaperKind = PaperKind::OperativeNote;
const LETTER: PaperKind = PaperKind::DischargeLetter;
const EN: PaperLanguage = PaperLanguage::En;

/// Every act that needs a right, with the right that the contract gives it.
const ACTS: &[Act] = &[
    ("cases_find", Right::ListCases, |desk, _| desk.cases_find("").map(drop)),
    ("cases_find_newest", Right::ListCases, |desk, _| desk.cases_find_newest("", 5).map(drop)),
    ("case_new", Right::WriteDrafts, |desk, _| desk.case_new(id(9), at("09:00")).map(drop)),
    ("case_show", Right::ReadEntries, |desk, _| desk.case_show(&case_id()).map(drop)),
    ("case_save", Right::WriteDrafts, |desk, _| desk.case_save(entry(9, "A"), None, at("09:00")).map(drop)),
    ("case_review", Right::ReadEntries, |desk, _| desk.case_review(entry(1, "A")).map(drop)),
    ("case_reckonings", Right::ReadEntries, |desk, _| desk.case_reckonings(entry(1, "A")).map(drop)),
    ("case_drawings", Right::ReadEntries, |desk, _| desk.case_drawings(entry(1, "A")).map(drop)),
    ("case_addenda", Right::ReadEntries, |desk, _| desk.case_addenda(&case_id()).map(drop)),
    ("case_history", Right::History, |desk, _| desk.case_history(&case_id()).map(drop)),
    ("case_sign", Right::Sign, |desk, _| desk.case_sign(entry(1, "Threlkeld"), &[], at("09:00")).map(drop)),
    ("case_addendum", Right::Sign, |desk, _| desk.case_addendum(entry(1, "A"), "Words.", 1, at("09:00")).map(drop)),
    ("cases_add", Right::WriteDrafts, |desk, _| desk.cases_add(Vec::new(), at("09:00")).map(drop)),
    ("scan_read", Right::WriteDrafts, |desk, _| desk.scan_read(entry(1, "A"), "(10)L1", at("09:00")).map(drop)),
    ("picture_read", Right::WriteDrafts, |desk, _| desk.picture_read(entry(1, "A"), b"", at("09:00")).map(drop)),
    ("paper_preview", Right::AllPapers, |desk, _| desk.paper_preview(note(), at("09:00")).map(drop)),
    ("paper_print", Right::AllPapers, |desk, _| desk.paper_print(note(), PaperFormat::Text, at("09:00")).map(drop)),
    ("paper_suggest_path", Right::AllPapers, |desk, to| {
        desk.paper_suggest_path(to, &note(), PaperFormat::Pdf).map(drop)
    }),
    ("paper_export", Right::AllPapers, |desk, to| {
        desk.paper_export(note(), PaperFormat::Text, &to.join("note.txt"), true, at("09:00")).map(drop)
    }),
    ("paper_preview_of", Right::AllPapers, |desk, _| {
        desk.paper_preview_of(&case_id(), PaperChoice::new(NOTE), at("09:00")).map(drop)
    }),
    ("paper_preview_of", Right::PrintPapers, |desk, _| {
        desk.paper_preview_of(&case_id(), PaperChoice::new(LETTER), at("09:00")).map(drop)
    }),
    ("paper_export_of", Right::AllPapers, |desk, to| {
        let to = (&*to.join("note.txt"), true);
        desk.paper_export_of(&case_id(), PaperChoice::new(NOTE), PaperFormat::Text, to, at("09:00")).map(drop)
    }),
    ("paper_export_of", Right::PrintPapers, |desk, to| {
        let to = (&*to.join("letter.txt"), true);
        desk.paper_export_of(&case_id(), PaperChoice::new(LETTER), PaperFormat::Text, to, at("09:00")).map(drop)
    }),
    ("paper_suggest_path_of", Right::PrintPapers, |desk, to| {
        desk.paper_suggest_path_of(to, &case_id(), PaperChoice::new(LETTER), PaperFormat::Pdf).map(drop)
    }),
    ("papers_batch", Right::AllPapers, |desk, to| desk.papers_batch(batch(NOTE, to), at("09:00"), |_| true).map(drop)),
    ("papers_batch", Right::PrintPapers, |desk, to| {
        desk.papers_batch(batch(LETTER, to), at("09:00"), |_| true).map(drop)
    }),
    ("templates", Right::Templates, |desk, _| desk.templates().map(drop)),
    ("template_show", Right::Templates, |desk, _| desk.template_show(NOTE, EN).map(drop)),
    ("template_try", Right::Templates, |desk, _| {
        desk.template_try(entry(1, "A"), NOTE, EN, "x", PageSize::A4, at("09:00")).map(drop)
    }),
    ("template_save", Right::Templates, |desk, _| desk.template_save(NOTE, EN, "", "x", at("09:00")).map(drop)),
    ("template_check", Right::Templates, |desk, _| desk.template_check(NOTE, EN, "{{").map(drop)),
    ("template_history", Right::Templates, |desk, _| desk.template_history(NOTE, EN).map(drop)),
    ("template_restore", Right::Templates, |desk, _| desk.template_restore(NOTE, EN, None, at("09:00")).map(drop)),
    ("template_names", Right::Templates, |desk, _| desk.template_names(None, NOTE, at("09:00")).map(drop)),
    ("paper_settings_save", Right::Settings, |desk, _| desk.paper_settings_save(PaperSettings::default()).map(drop)),
    ("limits_save", Right::Settings, |desk, _| desk.limits_save(&json!({})).map(drop)),
    ("scanner_separators_save", Right::Settings, |desk, _| desk.scanner_separators_save(Vec::new()).map(drop)),
    ("backup_settings", Right::BackUp, |desk, _| desk.backup_settings().map(drop)),
    ("backup_settings_save", Right::Security, |desk, _| desk.backup_settings_save(BackupSettings::default()).map(drop)),
    ("lock_after_save", Right::Security, |desk, _| desk.lock_after_save(10).map(drop)),
    ("people", Right::People, |desk, _| desk.people().map(drop)),
    ("person_add", Right::People, |desk, _| desk.person_add("", Role::Clinic, false, "x", at("09:00")).map(drop)),
    ("person_change", Right::People, |desk, _| desk.person_change("x", Role::Clinic, false)),
    ("person_remove", Right::People, |desk, _| desk.person_remove("x", at("09:00"))),
    ("passphrase_set", Right::People, |desk, _| desk.passphrase_set("x", "x")),
    ("recovery_sheet", Right::RecoverySheet, |desk, to| {
        desk.recovery_sheet(&to.join("none").join("sheet.pdf"), false, PageSize::A4, at("09:00")).map(drop)
    }),
    ("notebook_back_up", Right::BackUp, |desk, to| {
        desk.notebook_back_up(Some(&to.join("none").join("copy.evengap")), false, at("09:00"), |_| true).map(drop)
    }),
    ("notebook_verify", Right::Verify, |desk, _| desk.notebook_verify().map(drop)),
    ("notebook_restore", Right::Restore, |desk, to| {
        desk.notebook_restore(&to.join("none.evengap"), "x", &to.join("new.evengap"), at("09:00")).map(drop)
    }),
    ("exchange_write", Right::Exchange, |desk, to| {
        desk.exchange_write((&to.join("none").join("x"), false), "x", None, at("09:00")).map(drop)
    }),
    ("exchange_read", Right::Exchange, |desk, to| desk.exchange_read(&to.join("none"), "x", at("09:00")).map(drop)),
    ("conflicts", Right::Exchange, |desk, _| desk.conflicts().map(drop)),
    ("conflict_show", Right::Exchange, |desk, _| desk.conflict_show(1).map(drop)),
    ("conflict_settle", Right::Exchange, |desk, _| desk.conflict_settle(1, Keep::Ours, at("09:00"))),
];

/// Acts that everybody may do, with or without an open notebook, and why nothing can be learnt by them.
const FREE: &[(&str, &str)] = &[
    ("new", "an empty desk"),
    ("with_cost", "an empty desk"),
    ("dictionary", "part of the program"),
    ("schema", "part of the program"),
    ("case_from_file", "reads a file of the person's own"),
    ("addendum_from_file", "reads a file of the person's own"),
    ("template_from_file", "reads a file of the person's own"),
    ("demo_cases", "part of the program"),
    ("demo_addenda", "part of the program"),
    ("demo_people", "part of the program"),
    ("demo_write", "invented people; each paper asks for its own right"),
    ("notebook_open_demonstration", "opens what is no secret"),
    ("notebook_current", "says what is open, and who opened it"),
    ("notebook_create", "another notebook"),
    ("notebook_open", "asks for a passphrase"),
    ("notebook_lock", "everybody may lock"),
    ("notebook_close", "everybody may close"),
    ("notebook_suggest_path", "looks at a folder"),
    ("passphrase_change", "everybody's own"),
    ("lock_after", "minutes"),
    ("label_read", "knows no notebook"),
    ("label_merge", "knows no notebook"),
    ("reckonings", "part of the program"),
    ("reckon", "numbers of the person's own"),
    ("sources", "formulas and limits"),
    ("limits", "formulas and limits"),
    ("scanner_separators", "signs of a scanner"),
    ("paper_settings", "nobody's data, and every paper needs them"),
];

/// What the contract says that each role may do; keepers may do the last five besides.
fn expected(role: Role) -> Vec<Right> {
    use Right::*;
    match role {
        Role::Surgeon => vec![
            ListCases,
            ReadEntries,
            WriteDrafts,
            Sign,
            AllPapers,
            PrintPapers,
            Templates,
            Settings,
            History,
            Exchange,
            BackUp,
            Security,
        ],
        Role::Registrar => vec![ListCases, ReadEntries, WriteDrafts, AllPapers, PrintPapers, History, BackUp],
        Role::Clinic => vec![ListCases, PrintPapers],
        Role::Keeper => vec![BackUp, Security, People, RecoverySheet, Restore, Verify],
    }
}

const PEOPLE: [(&str, Role, bool, &str); 5] = [
    ("Mr Surgeon", Role::Surgeon, false, "surgeon's passphrase"),
    ("Mr Registrar", Role::Registrar, false, "registrar's passphrase"),
    ("Ms Clinic", Role::Clinic, false, "clinic's passphrase"),
    ("Ms Keeper", Role::Keeper, false, "keeper's passphrase"),
    ("Mr Both", Role::Registrar, true, "registrar's and keeper's"),
];

/// A notebook with one entry and somebody of each role.
fn with_people(folder: &TempDir) -> Desk {
    let mut desk = quick();
    desk.notebook_create(&folder.path().join("knees.evengap"), PASSPHRASE, "Ms Orla Quill", at("08:00")).unwrap();
    save(&mut desk, entry(1, "Threlkeld"), at("08:00")).unwrap();
    for (name, role, keeper, passphrase) in PEOPLE {
        desk.person_add(name, role, keeper, passphrase, at("08:00")).unwrap();
    }
    desk
}

#[test]
fn every_act_by_every_role() {
    let folder = folder();
    let mut desk = with_people(&folder);
    for (name, role, keeper, passphrase) in PEOPLE {
        let mut may = expected(role);
        if keeper {
            may.extend(expected(Role::Keeper));
        }
        let state = desk.notebook_open(&folder.path().join("knees.evengap"), passphrase, at("08:30")).unwrap();
        let told: BTreeSet<_> = state.rights.iter().map(|right| format!("{right:?}")).collect();
        let want: BTreeSet<_> = may.iter().map(|right| format!("{right:?}")).collect();
        assert_eq!(told, want, "{name} is told what they may do");
        for (act, right, run) in ACTS {
            let refusal = run(&mut desk, folder.path()).err().filter(|error| error.code == ErrorCode::NotAllowed);
            assert_eq!(refusal.is_none(), may.contains(right), "{name}: {act} ({right:?}): {refusal:?}");
            if let Some(error) = refusal {
                assert!(error.message.starts_with(name), "{act} names who: {}", error.message);
                assert!(!error.message.contains("Threlkeld"), "{act} says nothing of a case: {}", error.message);
            }
        }
    }
}

#[test]
fn no_act_is_forgotten() {
    let mut found = BTreeSet::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
    while let Some(folder) = folders.pop() {
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap();
            let mut of_the_desk = false;
            for line in text.lines() {
                match line {
                    "impl Desk {" => of_the_desk = true,
                    "}" => of_the_desk = false,
                    _ => {}
                }
                if let Some(act) = line.strip_prefix("    pub fn ").filter(|_| of_the_desk) {
                    found.insert(act.split(['(', '<']).next().unwrap().to_owned());
                }
            }
        }
    }
    let listed: BTreeSet<String> =
        ACTS.iter().map(|(act, ..)| *act).chain(FREE.iter().map(|(act, _)| *act)).map(str::to_owned).collect();
    assert_eq!(found, listed, "each act of the desk is in one of the two tables of this test");
}

#[test]
fn the_clinic_prints_letters_and_reads_no_entry() {
    let folder = folder();
    let mut desk = with_people(&folder);
    let mut case = entry(1, "Threlkeld");
    case["approach"] = json!({ "findings": "Bare bone medially." });
    save(&mut desk, case, at("08:10")).unwrap();
    desk.notebook_open(&folder.path().join("knees.evengap"), PEOPLE[2].3, at("08:30")).unwrap();
    let lines = desk.cases_find("threl left").unwrap();
    assert_eq!(lines.len(), 1, "the list can be searched by what it shows");
    assert_eq!(desk.cases_find("bone").unwrap(), [], "and not by what stands in an entry");
    let letter = desk.paper_preview_of(&case_id(), PaperChoice::new(LETTER), at("09:00")).unwrap();
    assert!(letter.html.contains("Threlkeld"), "the letter of a stored entry");
    let sentence = refused(desk.case_show(&case_id()), ErrorCode::NotAllowed);
    assert_eq!(
        sentence,
        "Ms Clinic is somebody of the clinic in this notebook and may not read entries; a surgeon or a registrar may."
    );
}

#[test]
fn a_batch_stops_where_another_person_opens_the_notebook() {
    let folder = folder();
    let mut desk = with_people(&folder);
    let mut batch = evengap_desk::Batch::begin(&desk, batch(NOTE, folder.path()), at("09:00")).unwrap();
    desk.notebook_open(&folder.path().join("knees.evengap"), PEOPLE[2].3, at("09:00")).unwrap();
    assert!(!batch.step(&mut desk), "what one person began, another does not go on with");
    assert_eq!(batch.finish(&desk).unwrap().written, [], "nothing was written");
}
