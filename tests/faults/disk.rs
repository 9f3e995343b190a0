//! A disk that the power leaves: what was synced is on it, of the rest any part, in any order, torn at 512 bytes.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex};

use evengap_door::faults::{Act, Faults, FileKind, Op, Verdict};
use tempfile::TempDir;

use crate::shelf::{Chance, Watch, file};

const SECTOR: usize = 512;
/// One cut of so many comes at the end.
const OF_THE_END: usize = 10;
/// What was asked of the disk, with bytes of its own.
#[derive(Clone)]
pub enum Done {
    Open(FileKind),
    Write(FileKind, u64, Vec<u8>),
    Truncate(FileKind, u64),
    Sync(FileKind),
    Delete {
        durable: bool,
    },
    /// What was asked of the notebook, by number, was acknowledged.
    Acknowledged(usize),
}

struct Recorder {
    folder: PathBuf,
    done: Arc<Mutex<Vec<Done>>>,
}

/// Writes down everything that is asked of the disk while `act` uses the notebook in a folder; `act` says what was
/// acknowledged. Gives the disk as it was before.
pub fn recorded(folder: &TempDir, act: impl FnOnce(&dyn Fn(usize))) -> (Disk, Vec<Done>) {
    let begun = std::fs::read(file(folder)).unwrap();
    let done = Arc::new(Mutex::new(Vec::new()));
    let watch = Watch::new();
    watch.set(Recorder { folder: folder.path().to_owned(), done: Arc::clone(&done) });
    act(&|number| done.lock().unwrap().push(Done::Acknowledged(number)));
    watch.clear();
    let notebook = Inode { durable: begun, since: Vec::new() };
    let done = done.lock().unwrap().clone();
    (Disk { notebook, journals: BTreeMap::new(), shown: None, maybe: vec![None] }, done)
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
pub struct Disk {
    notebook: Inode,
    journals: BTreeMap<usize, Inode>,
    /// Which journal the folder shows now.
    shown: Option<usize>,
    /// What it may show after a cut: the durable one first, then what was done since.
    maybe: Vec<Option<usize>>,
}

impl Disk {
    pub fn take(&mut self, done: &Done) {
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
    pub fn cut(&self, folder: &TempDir, chance: &mut Chance) {
        let path = file(folder);
        std::fs::write(&path, self.notebook.after_a_cut(chance)).unwrap();
        let journal = folder.path().join("knees.evengap-journal");
        let _ = std::fs::remove_file(&journal);
        if let Some(shown) = self.maybe[chance.below(self.maybe.len())] {
            std::fs::write(&journal, self.journals[&shown].after_a_cut(chance)).unwrap();
        }
    }
}

/// Cuts the power at so many instants; `check` gets the number of the cut, the folder, and what was acknowledged before it.
/// Gives how many cuts left a journal.
pub fn cut_often(
    (mut disk, done): (Disk, Vec<Done>),
    cuts: usize,
    seed: u64,
    mut check: impl FnMut(usize, &TempDir, &[usize]),
) -> usize {
    let mut chance = Chance::new(seed);
    // The same instants in their order, so that the disk is walked through once; some after everything was acknowledged.
    let end = done.len();
    let instant = |cut| if cut % OF_THE_END == 0 { end } else { chance.below(end + 1) };
    let mut instants: Vec<usize> = (0..cuts).map(instant).collect();
    instants.sort_unstable();
    let (mut walked, mut acknowledged, mut journals) = (0, Vec::new(), 0);
    for (cut, instant) in instants.into_iter().enumerate() {
        for step in &done[walked..instant] {
            if let Done::Acknowledged(number) = step {
                acknowledged.push(*number);
            }
            disk.take(step);
        }
        walked = instant;
        let folder = TempDir::new().unwrap();
        disk.cut(&folder, &mut chance);
        journals += usize::from(folder.path().join("knees.evengap-journal").exists());
        check(cut, &folder, &acknowledged);
    }
    journals
}
