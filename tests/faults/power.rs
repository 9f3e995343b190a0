//! The power goes: what was synced is on the disk, of the rest any part, in any order, torn at 512 bytes.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex};

use evengap_door::faults::{Act, Faults, FileKind, Op, Verdict};
use tempfile::TempDir;

use crate::shelf::{Chance, Watch, check_sound, create, file, id, now, open, round_of, rounds, state};

const SECTOR: usize = 512;
const CASES: usize = 2;

/// What was asked of the disk, with bytes of its own.
#[derive(Clone)]
enum Done {
    Open(FileKind),
    Write(FileKind, u64, Vec<u8>),
    Truncate(FileKind, u64),
    Sync(FileKind),
    Delete {
        durable: bool,
    },
    /// The save of this round was acknowledged.
    Acknowledged(usize),
}

struct Recorder {
    folder: PathBuf,
    done: Arc<Mutex<Vec<Done>>>,
}

impl Faults for Recorder {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        if op.path.starts_with(&self.folder) && op.file != FileKind::Other {
            let mut done = self.done.lock().unwrap();
            match op.act {
                Act::Open { .. } => done.push(Done::Open(op.file)),
                Act::Write { offset, bytes } => done.push(Done::Write(op.file, offset, bytes.to_vec())),
                Act::Truncate { bytes } => done.push(Done::Truncate(op.file, bytes)),
                Act::Sync => done.push(Done::Sync(op.file)),
                Act::Delete { durable } => done.push(Done::Delete { durable }),
                Act::Close => {}
            }
        }
        Verdict::Go
    }
}

/// A file as the disk has it: what is durable, and what was asked since.
#[derive(Clone, Default)]
struct Inode {
    durable: Vec<u8>,
    since: Vec<Done>,
}

impl Inode {
    fn sync(&mut self) {
        for done in std::mem::take(&mut self.since) {
            apply(&mut self.durable, &done, &mut || true);
        }
    }

    /// What a power cut leaves of it: of what was not synced nothing, all, or any part in any order.
    fn after_a_cut(&self, chance: &mut Chance) -> Vec<u8> {
        let (mut bytes, mut since) = (self.durable.clone(), self.since.clone());
        let how = chance.below(4);
        if how > 1 {
            for last in (1..since.len()).rev() {
                since.swap(last, chance.below(last + 1));
            }
        }
        for done in &since {
            apply(&mut bytes, done, &mut || how == 1 || (how > 1 && chance.coin()));
        }
        bytes
    }
}

/// Does to bytes what was asked of a file; `reaches` is asked for each sector.
fn apply(bytes: &mut Vec<u8>, done: &Done, reaches: &mut dyn FnMut() -> bool) {
    match done {
        Done::Write(_, offset, written) => {
            let mut at = usize::try_from(*offset).unwrap();
            let mut rest = written.as_slice();
            while !rest.is_empty() {
                let (sector, after) = rest.split_at(rest.len().min(SECTOR - at % SECTOR));
                if reaches() {
                    bytes.resize(bytes.len().max(at + sector.len()), 0);
                    bytes[at..at + sector.len()].copy_from_slice(sector);
                }
                (at, rest) = (at + sector.len(), after);
            }
        }
        Done::Truncate(_, length) if reaches() => bytes.truncate(usize::try_from(*length).unwrap()),
        _ => {}
    }
}

/// The disk: the notebook, every journal that there was, and which journal the folder may show after a cut.
#[derive(Clone)]
struct Disk {
    notebook: Inode,
    journals: BTreeMap<usize, Inode>,
    /// Which journal the folder shows now.
    shown: Option<usize>,
    /// What it may show after a cut: the durable one first, then what was done since.
    maybe: Vec<Option<usize>>,
}

impl Disk {
    fn take(&mut self, done: &Done) {
        match done {
            Done::Open(FileKind::Journal) if self.shown.is_none() => {
                let new = self.journals.len();
                self.journals.insert(new, Inode::default());
                self.shown = Some(new);
                self.maybe.push(self.shown);
            }
            Done::Write(kind, ..) | Done::Truncate(kind, _) => self.inode(*kind).since.push(done.clone()),
            Done::Sync(kind) => {
                self.inode(*kind).sync();
                // SQLite syncs the folder with the first sync of a journal.
                if *kind == FileKind::Journal {
                    self.maybe = vec![self.shown];
                }
            }
            Done::Delete { durable } => {
                self.shown = None;
                self.maybe.push(None);
                if *durable {
                    self.maybe = vec![None];
                }
            }
            Done::Open(_) | Done::Acknowledged(_) => {}
        }
    }

    fn inode(&mut self, kind: FileKind) -> &mut Inode {
        match (kind, self.shown) {
            (FileKind::Journal, Some(shown)) => self.journals.get_mut(&shown).unwrap(),
            _ => &mut self.notebook,
        }
    }

    /// Writes what a cut leaves into a folder.
    fn cut(&self, folder: &TempDir, chance: &mut Chance) {
        let path = file(folder);
        std::fs::write(&path, self.notebook.after_a_cut(chance)).unwrap();
        let journal = folder.path().join("knees.evengap-journal");
        let _ = std::fs::remove_file(&journal);
        if let Some(shown) = self.maybe[chance.below(self.maybe.len())] {
            std::fs::write(&journal, self.journals[&shown].after_a_cut(chance)).unwrap();
        }
    }
}

/// Saves some rounds while everything that is asked of the disk is written down.
fn recorded(saves: usize) -> (Disk, Vec<Done>) {
    let folder = TempDir::new().unwrap();
    let mut notebook = create(&file(&folder));
    let begun = std::fs::read(file(&folder)).unwrap();
    let done = Arc::new(Mutex::new(Vec::new()));
    let watch = Watch::new();
    watch.set(Recorder { folder: folder.path().to_owned(), done: Arc::clone(&done) });
    for round in 1..=saves {
        let n = round % CASES;
        let based_on = notebook.head(id(n)).unwrap();
        notebook.save(&state(n, round), based_on, now()).unwrap();
        done.lock().unwrap().push(Done::Acknowledged(round));
    }
    watch.clear();
    let notebook = Inode { durable: begun, since: Vec::new() };
    let done = done.lock().unwrap().clone();
    (Disk { notebook, journals: BTreeMap::new(), shown: None, maybe: vec![None] }, done)
}

#[test]
fn a_power_cut_at_any_instant_loses_no_acknowledged_save() {
    let (saves, cuts) = (rounds(60, 12), rounds(4_000, 150));
    let (begun, done) = recorded(saves);
    let mut chance = Chance::new(11);
    // The same instants in their order, so that the disk is walked through once.
    let mut instants: Vec<usize> = (0..cuts).map(|_| chance.below(done.len() + 1)).collect();
    instants.sort_unstable();
    let mut disk = begun;
    let (mut walked, mut newest, mut journals) = (0, [0; CASES], 0);
    for (cut, instant) in instants.into_iter().enumerate() {
        for step in &done[walked..instant] {
            if let Done::Acknowledged(round) = step {
                newest[round % CASES] = *round;
            }
            disk.take(step);
        }
        walked = instant;
        let folder = TempDir::new().unwrap();
        disk.cut(&folder, &mut chance);
        journals += usize::from(folder.path().join("knees.evengap-journal").exists());
        let notebook = open(&file(&folder));
        for (n, newest) in newest.iter().enumerate() {
            let there = notebook.show(id(n)).map_or(0, |stored| round_of(&stored.case, n));
            assert!(
                there >= *newest,
                "cut {cut} after step {instant}: save {newest} was acknowledged, {there} is stored"
            );
        }
        check_sound(&notebook);
    }
    println!(
        "power cuts: {cuts} among {} steps of {saves} saves; journals found: {journals}; acknowledged saves lost: 0; \
         half cases: 0",
        done.len()
    );
}
