//! SQL, paths and format signs in every text answer of the dictionary are text.

use std::path::{Path, PathBuf};

use evengap_case::dictionary::{self, Kind as AnswerKind};
use evengap_case::{Case, read_value};
use evengap_desk::{Cost, Desk, PaperAsked, PaperFormat};
use evengap_papers::Kind;
use serde_json::{Value, json};
use tempfile::TempDir;

use crate::shelf::{WORDS, file, id, in_full, now};

const HOSTILE: [&str; 14] = [
    "'; DROP TABLE entry; --",
    "\" OR 1=1; DELETE FROM step; --",
    "x'); INSERT INTO person VALUES (9, 'x', 'keeper', NULL, ''); --",
    "NULL",
    "?1 :name @name $name",
    "names : a* NEAR(b c) NOT d ^e",
    "../../../../outside",
    "/outside/absolute",
    "C:\\outside\\file.txt",
    "file:outside?mode=rwc&vfs=unix",
    "%n%s%x %1$s {0} {} {:?}",
    "$(touch outside) `touch outside` | touch outside; touch outside &",
    "ATTACH DATABASE 'outside.db' AS outside KEY ''",
    "PRAGMA rekey = 'x'; PRAGMA writable_schema = 1;",
];

/// Puts a text into every text answer of an entry and counts them.
fn filled(case: &Case, text: &str) -> (Case, usize) {
    fn walk(value: &mut Value, path: &str, text: &str, count: &mut usize) {
        match value {
            Value::Object(map) => {
                for (key, value) in map {
                    let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                    walk(value, &path, text, count);
                }
            }
            Value::Array(items) => items.iter_mut().for_each(|value| walk(value, path, text, count)),
            _ => {
                let kind = dictionary::field(path).map(|field| field.kind);
                if path != "format"
                    && matches!(kind, Some(AnswerKind::Text | AnswerKind::List { of: AnswerKind::Text }))
                {
                    *value = json!(text);
                    *count += 1;
                }
            }
        }
    }
    let (mut value, mut count) = (case.to_value(), 0);
    walk(&mut value, "", text, &mut count);
    value["id"] = json!(id(1).to_string());
    (read_value(value).unwrap_or_else(|refusal| panic!("{refusal}")).case, count)
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    files
}

#[test]
fn every_text_answer_is_only_text() {
    let demos = evengap_tests::demos();
    let demos: Vec<_> = demos.iter().filter(|(name, _)| in_full() || name == "whole-knee-cemented").collect();
    let here = std::env::current_dir().unwrap();
    let before = files(&here);
    let (mut answers, mut papers) = (0, 0);
    for (name, demo) in demos {
        for text in HOSTILE {
            let folder = TempDir::new().unwrap();
            let mut desk = Desk::with_cost(Cost::LEAST);
            desk.notebook_create(&file(&folder), WORDS, "Ms Orla Quill", now()).unwrap();
            let (case, count) = filled(demo, text);
            answers += count;
            desk.case_save(case.to_value(), None, now()).unwrap_or_else(|error| panic!("{name}, “{text}”: {error}"));
            let shown = desk.case_show(&id(1).to_string()).unwrap();
            assert_eq!(shown.case, case, "{name}, “{text}”: comes back as it was typed");
            assert_eq!(desk.cases_find(text).unwrap().len(), 1, "{name}, “{text}”: is found as it was typed");
            for kind in Kind::ALL {
                let printed = desk.paper_print(PaperAsked::new(case.to_value(), kind), PaperFormat::Text, now());
                // An addendum needs one to be about.
                papers += usize::from(printed.is_ok());
                assert!(printed.is_ok() || kind == Kind::Addendum, "{name}, “{text}”, {kind:?}: is set");
            }
            desk.notebook_close().unwrap();
            desk.notebook_open(&file(&folder), WORDS, now()).unwrap();
            assert_eq!(
                desk.case_show(&id(1).to_string()).unwrap().case,
                case,
                "{name}, “{text}”: also when opened again"
            );
            assert_eq!(files(folder.path()), [file(&folder)], "{name}, “{text}”: no file appeared beside the notebook");
        }
    }
    assert_eq!(files(&here), before, "nor where the program runs");
    println!("hostile texts: {} in {answers} text answers, {papers} papers set; no other file appeared", HOSTILE.len());
}
