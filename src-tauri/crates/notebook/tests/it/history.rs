//! The history of an entry: every state that was saved, rebuilt as it was.

use evengap_case::{Case, changes};
use evengap_notebook::{Branch, Node, Notebook, NotebookError, StepKind};
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use serde_json::{Value, json};

use crate::bench::{Bench, at, case, id, named, save, sign};

/// Whether each saved state is what was saved, and each step says what was changed.
#[track_caller]
fn check(notebook: &Notebook, saved: &[(Node, Case)]) {
    let case_id = saved[0].1.id;
    let history = notebook.history(case_id).unwrap();
    let nodes: Vec<_> = history.iter().rev().map(|step| step.node).collect();
    assert_eq!(nodes, saved.iter().map(|(node, _)| *node).collect::<Vec<_>>(), "every state that was saved, in order");
    let mut before = Case { id: case_id, ..Case::default() };
    for (step, (node, case)) in history.iter().rev().zip(saved) {
        assert_eq!(
            notebook.state(case_id, *node).unwrap().to_value(),
            case.to_value(),
            "as it was saved at {}",
            step.at
        );
        assert_eq!(step.changes, changes(&before, case), "and what was changed then");
        before = case.clone();
    }
    assert_eq!(notebook.verify().unwrap().problems, Vec::<String>::new(), "and all of it can be proved");
}

#[test]
fn who_changed_what_and_when() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let (one, two) = (named(1, "Mavis", "Threl"), named(1, "Mavis", "Threlkeld"));
    let three = named(1, "Mavis", "Threlkeld-Moss");
    let mut saved = vec![(notebook.save(&one, None, at("08:01")).unwrap(), one)];
    saved.push((save(&mut notebook, &two, at("08:02")).unwrap(), two.clone()));
    saved.push((sign(&mut notebook, &two, &[], at("17:30")).unwrap(), two));
    notebook.add_addendum(&three, " She has married. ", 1, at("18:00")).unwrap();
    saved.push((notebook.head(id(1)).unwrap().unwrap(), three));
    check(&notebook, &saved);

    let history = notebook.history(id(1)).unwrap();
    let told: Vec<_> =
        history.iter().map(|step| (step.kind, step.number, step.at.as_str(), step.text.as_deref())).collect();
    assert_eq!(
        told,
        [
            (StepKind::Addendum, 2, "2026-06-30T18:00", Some("She has married.")),
            (StepKind::Signed, 1, "2026-06-30T17:30", None),
            (StepKind::Draft, 1, "2026-06-30T08:02", None),
            (StepKind::Draft, 1, "2026-06-30T08:01", None),
        ],
        "the newest first"
    );
    assert!(history.iter().all(|step| step.by == "Ms Orla Quill" && step.branch == Branch::Ours), "by whom");
    let change = &history[2].changes[0];
    assert_eq!(change.path, "patient.family_name", "value by value");
    assert_eq!((&change.before, &change.now), (&Some(json!("Threl")), &Some(json!("Threlkeld"))), "before and now");
    assert_eq!(history[1].changes, [], "signing changed nothing");
    assert_eq!(notebook.show(id(1)).unwrap().node, saved[3].0, "the newest state is the entry");
    assert_eq!(notebook.entry_at(id(1), 1).unwrap().node, saved[2].0, "and the signed one its first version");
}

#[test]
fn nothing_new_is_no_state() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let length = |value: Value| case(1, json!({ "patient": { "shoe_size": value } }));
    let first = notebook.save(&length(json!(39.0)), None, at("08:01")).unwrap();
    let stale = save(&mut notebook, &length(json!(40)), at("08:01")).unwrap();
    let back = save(&mut notebook, &length(json!(39)), at("08:01")).unwrap();
    assert!(first != stale && stale != back && first != back, "a state is also what it follows");
    assert_eq!(
        save(&mut notebook, &length(json!(39.0)), at("08:02")).unwrap(),
        back,
        "39 and 39.0 are the same answer"
    );
    assert_eq!(notebook.save(&length(json!(39)), Some(stale), at("08:02")).unwrap(), back, "whatever it was based on");
    let states = [(first, length(json!(39.0))), (stale, length(json!(40))), (back, length(json!(39)))];
    check(&notebook, &states);
}

#[test]
fn a_save_is_based_on_what_is_stored() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let first = notebook.save(&named(1, "Mavis", "Threl"), None, at("08:01")).unwrap();
    let second = notebook.save(&named(1, "Mavis", "Threlkeld"), Some(first), at("08:02")).unwrap();
    for stale in [None, Some(first)] {
        let error = notebook.save(&named(1, "Ivo", "Threlkeld"), stale, at("08:03")).unwrap_err();
        assert!(matches!(error, NotebookError::ChangedMeanwhile(_)), "{stale:?} is no longer the newest: {error}");
    }
    assert_eq!(notebook.head(id(1)).unwrap(), Some(second), "nothing was written");
    let error = notebook.save(&named(2, "Ivo", "Sandringford"), Some(first), at("08:03")).unwrap_err();
    assert!(matches!(error, NotebookError::UnknownCase(_)), "there is no such entry any more: {error}");
    let error = notebook.state(id(1), Node([7; 32])).unwrap_err().to_string();
    assert!(error.ends_with("choose one of the states of its history."), "a state that never was: {error}");
}

#[test]
fn signing_may_write_into_the_entry() {
    let bench = Bench::new();
    let seen = named(1, "Mavis", "Threlkeld");
    let mut notebook = bench.notebook([seen.clone()]);
    let mut signed = seen.clone();
    signed.confirmed = vec![evengap_case::SectionName::Patient];
    let promised = notebook.node_when_signed(&signed, at("17:30")).unwrap();
    let other = Case { id: id(2), ..signed.clone() };
    assert!(notebook.sign(&seen, &other, promised, &[], at("17:30")).is_err(), "but never makes another entry of it");
    let node = notebook.sign(&seen, &signed, promised, &[], at("17:30")).unwrap();
    assert_eq!(node, promised, "its papers can name the state before it is there");
    assert_eq!(notebook.show(id(1)).unwrap().case, signed, "what was signed");
    assert_eq!(
        node.fingerprint(),
        format!("{node}").as_bytes()[..16]
            .chunks(4)
            .map(|four| std::str::from_utf8(four).unwrap())
            .collect::<Vec<_>>()
            .join(" "),
        "in groups"
    );
    assert_eq!(node.to_string().parse::<Node>().unwrap(), node, "a node is read back");
    assert!("xyz".parse::<Node>().is_err(), "and nothing else is one");
}

#[test]
fn whatever_was_typed() {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let texts =
        ["e\u{301}", "é", "😀\u{0}\u{1F}", "'); DROP TABLE step; --", "../../etc/passwd", "~1/~0\"\\", "\u{202E}"];
    let saved: Vec<_> = texts
        .into_iter()
        .map(|text| case(1, json!({ "patient": { "family_name": "x", "odd": { text: [text, { "": text }] } } })))
        .map(|case| (save(&mut notebook, &case, at("08:00")).unwrap(), case))
        .collect();
    check(&notebook, &saved);
}

/// One edit of an entry, as a seed picks it.
fn edit(value: &mut Value, (what, seed): (u8, u64)) {
    let floats = [0.1, 1e300, -0.0, 123_456_789.123_456_79, 5e-324, 38.0, 333_333_333.333_333_3];
    let pick = usize::try_from(seed % 97).unwrap();
    match what {
        0 => value["patient"]["height_cm"] = json!(130 + pick),
        1 => value["unknown"] = json!({ "deep": [pick, floats[pick % floats.len()], null, { "ß": "\u{7}" }] }),
        2 => value["knee"]["deformity"] = json!({ "coronal_deg": floats[5] + pick as f64 / 10.0 }),
        3 => value["patient"]["family_name"] = json!(format!("Name {pick} 😀")),
        4 => {
            value.as_object_mut().unwrap().remove("knee");
        }
        _ => {
            let lists = ["team", "components", "events", "visits"];
            let Some(list) = value[lists[pick % lists.len()]].as_array_mut().filter(|list| !list.is_empty()) else {
                return;
            };
            let length = list.len();
            match what {
                5 => list.rotate_left(pick % length),
                6 => list.swap(0, pick % length),
                7 => {
                    list.remove(pick % length);
                }
                _ => list.insert(pick % (length + 1), list[pick % length].clone()),
            }
        }
    }
}

fn demo_cases() -> Vec<Value> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../demo-cases");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let json = paths.into_iter().filter(|path| path.extension().is_some_and(|ending| ending == "json"));
    json.map(|path| serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()).collect()
}

/// Saves an entry after every edit; each of the states is there afterwards.
fn rebuilt(mut value: Value, edits: &[(u8, u64)], revert: usize) -> Result<(), TestCaseError> {
    let bench = Bench::new();
    let mut notebook = bench.notebook([]);
    let mut saved: Vec<(Node, Case)> = Vec::new();
    let mut keep = |value: &Value, saved: &mut Vec<(Node, Case)>| {
        // An edit may make something that is no entry; the program would not save it either.
        let Ok(reading) = evengap_case::read_value(value.clone()) else { return };
        let node = save(&mut notebook, &reading.case, at("08:00")).unwrap();
        if saved.last().is_none_or(|(last, _)| *last != node) {
            saved.push((node, reading.case));
        }
    };
    keep(&value, &mut saved);
    for one in edits {
        edit(&mut value, *one);
        keep(&value, &mut saved);
    }
    let earlier = saved[revert % saved.len()].1.to_value();
    keep(&earlier, &mut saved);
    check(&notebook, &saved);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn history_is_what_was_saved(
        case in 0_usize..11,
        edits in prop::collection::vec((0_u8..9, any::<u64>()), 1..12),
        revert in any::<usize>(),
    ) {
        rebuilt(demo_cases().swap_remove(case), &edits, revert)?;
    }
}
