//! The program is killed at any instant of its autosave.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use evengap_case::CaseId;
use evengap_desk::{Cost, Desk};
use tempfile::TempDir;

use crate::shelf::{Chance, WORDS, check_sound, create, file, id, now, open, round_of, rounds, state};

const NOTEBOOK: &str = "EVENGAP_KILLED_NOTEBOOK";
const FROM: &str = "EVENGAP_KILLED_FROM";
const CASES: usize = 3;
/// Kills of one notebook; then comes a fresh one, so that no history grows beyond what a case has.
const OF_ONE: usize = 40;

/// Not a test: what is killed. It saves through the desk for ever and prints each save that was acknowledged.
#[test]
#[ignore = "the process that the other test kills"]
fn who_is_killed() {
    let path = std::env::var(NOTEBOOK).expect("begun by the other test");
    let mut round: usize = std::env::var(FROM).unwrap().parse().unwrap();
    let mut desk = Desk::with_cost(Cost::LEAST);
    desk.notebook_open(path.as_ref(), WORDS, now()).unwrap();
    loop {
        round += 1;
        let (n, case_id): (usize, CaseId) = (round % CASES, id(round % CASES));
        let based_on = desk.case_show(&case_id.to_string()).ok().map(|entry| entry.version);
        desk.case_save(state(n, round).to_value(), based_on.as_deref(), now()).unwrap();
        println!("\nsaved {round}");
    }
}

#[test]
fn a_kill_at_any_instant_loses_no_acknowledged_save() {
    let kills = rounds(1_000, 40);
    let mut chance = Chance::new(5);
    let (mut acknowledged, mut beyond, mut with_journal) = (0, 0, 0);
    let mut done = 0;
    while done < kills {
        let folder = TempDir::new().unwrap();
        drop(create(&file(&folder)));
        let mut newest = [0; CASES];
        for _ in 0..OF_ONE.min(kills - done) {
            let before = acknowledged;
            let from = newest.iter().copied().max().unwrap();
            for round in killed(&folder, from, &mut chance) {
                newest[round % CASES] = round;
                acknowledged += 1;
            }
            let journal = folder.path().join("knees.evengap-journal");
            with_journal += usize::from(journal.exists());
            let notebook = open(&file(&folder));
            for (n, newest) in newest.iter_mut().enumerate() {
                let there = notebook.show(id(n)).map_or(0, |stored| round_of(&stored.case, n));
                assert!(there >= *newest, "kill {done}: save {newest} was acknowledged, and {there} is stored");
                beyond += usize::from(there > *newest);
                *newest = there;
            }
            assert!(acknowledged > before, "the child came as far as saving");
            done += 1;
        }
        let notebook = open(&file(&folder));
        check_sound(&notebook);
    }
    println!(
        "kills: {kills}; saves acknowledged: {acknowledged}, lost: 0; kills that left a journal: {with_journal}; saves \
         found that were committed but not acknowledged yet: {beyond}"
    );
}

/// Lets the child save, kills it at some instant after one of its saves, and gives all that it acknowledged.
fn killed(folder: &TempDir, from: usize, chance: &mut Chance) -> Vec<usize> {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "kills::who_is_killed", "--ignored", "--nocapture"])
        .env(NOTEBOOK, file(folder))
        .env(FROM, from.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let mut saved = Vec::new();
    let wanted = 1 + chance.below(4);
    let take = |line: String, saved: &mut Vec<usize>| {
        saved.extend(line.strip_prefix("saved ").map(|round| round.parse::<usize>().unwrap()));
    };
    while saved.len() < wanted {
        let line = lines.next().expect("the child saves").unwrap();
        take(line, &mut saved);
    }
    // The instant: somewhere within about one save.
    let until = Instant::now() + Duration::from_micros(chance.below(12_000) as u64);
    while Instant::now() < until {
        std::hint::spin_loop();
    }
    child.kill().unwrap();
    child.wait().unwrap();
    // What it printed before it was killed was acknowledged too; a line without its end was not.
    let mut rest: Vec<String> = lines.map_while(Result::ok).collect();
    if rest.last().is_some_and(|line| line.starts_with("saved ")) {
        // The last line may lack its end, and thus digits.
        rest.pop();
    }
    rest.into_iter().for_each(|line| take(line, &mut saved));
    saved
}
