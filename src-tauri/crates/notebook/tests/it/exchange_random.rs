//! Any edits and any exchanges, in any order: nothing is lost, nothing signed changes, and both sides come together.

use std::collections::{BTreeMap, BTreeSet};

use evengap_notebook::{Keep, Node, Notebook, State};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

use crate::bench::{at, id, named, sign};
use crate::exchange::{Ring, save};

/// What somebody does with one of two notebooks.
#[derive(Debug, Clone)]
enum Act {
    Write(usize, u8),
    Sign(usize),
    Add(usize, u8),
    Send(usize),
    Settle(usize, bool),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        4 => (0..2_usize, 0..4_u8).prop_map(|(who, word)| Act::Write(who, word)),
        1 => (0..2_usize).prop_map(Act::Sign),
        1 => (0..2_usize, 0..4_u8).prop_map(|(who, word)| Act::Add(who, word)),
        3 => (0..2_usize).prop_map(Act::Send),
        2 => (0..2_usize, any::<bool>()).prop_map(|(who, ours)| Act::Settle(who, ours)),
    ]
}

fn states(notebook: &Notebook) -> BTreeSet<Node> {
    match notebook.head(id(1)).unwrap() {
        Some(_) => notebook.history(id(1)).unwrap().into_iter().map(|step| step.node).collect(),
        None => BTreeSet::new(),
    }
}

/// What was signed and added so far, by number.
fn signed(notebook: &Notebook) -> BTreeMap<u32, String> {
    let Ok(shown) = notebook.show(id(1)) else { return BTreeMap::new() };
    if shown.state == State::Draft {
        return BTreeMap::new();
    }
    (1..=shown.number).map(|number| (number, format!("{:?}", notebook.entry_at(id(1), number).unwrap()))).collect()
}

fn settle_all(notebook: &mut Notebook, ours: bool, clock: &str) {
    for line in notebook.conflicts().unwrap() {
        // One choice may answer another question as well.
        let Ok(conflict) = notebook.conflict(line.sequence) else { continue };
        let wish = if ours { Keep::Ours } else { Keep::Theirs };
        let keep = if conflict.choices.contains(&wish) { wish } else { conflict.choices[0] };
        notebook.settle(line.sequence, keep, at(clock)).unwrap();
    }
}

fn send(ring: &mut Ring, notebooks: &mut [Notebook; 2], from: usize) {
    let [one, two] = notebooks;
    let (from, to) = if from == 0 { (one, two) } else { (two, one) };
    ring.send(from, to);
    assert!(states(from).is_subset(&states(to)), "every state arrived");
}

fn run(acts: Vec<Act>) {
    let mut ring = Ring::new();
    let mut notebooks = [ring.notebook("one"), ring.notebook("two")];
    let mut minute = 0;
    for act in acts {
        minute += 1;
        let clock = format!("{:02}:{:02}", 9 + minute / 60, minute % 60);
        let before = [0, 1].map(|who| (states(&notebooks[who]), signed(&notebooks[who])));
        match act {
            Act::Write(who, word) => {
                let is_draft = notebooks[who].show(id(1)).is_ok_and(|shown| shown.state == State::Draft);
                if is_draft || notebooks[who].head(id(1)).unwrap().is_none() {
                    save(&mut notebooks[who], &named(1, "Mavis", &format!("Name {word}")), &clock);
                }
            }
            Act::Sign(who) => {
                if let Ok(shown) = notebooks[who].show(id(1)) {
                    let _ = sign(&mut notebooks[who], &shown.case, &[], at(&clock));
                }
            }
            Act::Add(who, word) => {
                if let Ok(shown) = notebooks[who].show(id(1)) {
                    let case = named(1, "Maud", &format!("Name {word}"));
                    let _ = notebooks[who].add_addendum(&case, "words", shown.number, at(&clock));
                }
            }
            Act::Send(from) => send(&mut ring, &mut notebooks, from),
            Act::Settle(who, ours) => settle_all(&mut notebooks[who], ours, &clock),
        }
        for (notebook, (had, stood)) in notebooks.iter().zip(before) {
            assert!(had.is_subset(&states(notebook)), "no state is ever lost");
            let stands = signed(notebook);
            assert!(stood.iter().all(|(number, text)| stands.get(number) == Some(text)), "nothing signed ever changes");
        }
    }
    for _ in 0..3 {
        send(&mut ring, &mut notebooks, 0);
        settle_all(&mut notebooks[1], true, "21:30");
        send(&mut ring, &mut notebooks, 1);
        settle_all(&mut notebooks[0], true, "21:40");
    }
    send(&mut ring, &mut notebooks, 0);
    assert_eq!(states(&notebooks[0]), states(&notebooks[1]), "both have the whole history");
    let open = notebooks.each_ref().map(|notebook| notebook.open_conflicts().unwrap());
    assert_eq!(open, [0, 0], "nothing is left to ask");
    let heads = notebooks.each_ref().map(|notebook| notebook.head(id(1)).unwrap());
    let both_signed = notebooks.iter().all(|notebook| notebook.show(id(1)).is_ok_and(|one| one.state == State::Signed));
    assert!(heads[0] == heads[1] || both_signed, "one state, unless two were signed alone: {heads:?}");
}

#[test]
fn two_notebooks_come_together() {
    let cases = std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(24);
    let config = Config { cases, max_shrink_iters: 64, failure_persistence: None, ..Config::default() };
    TestRunner::new(config)
        .run(&prop::collection::vec(act(), 1..14), |acts| {
            run(acts);
            Ok(())
        })
        .unwrap();
}
