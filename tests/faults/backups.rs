//! The power goes while a backup is made: nothing half-made ever has the backup's name, and what was there stays.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use evengap_door::faults::{Act, Faults, Op, Verdict};
use evengap_notebook::Notebook;
use tempfile::TempDir;

use crate::disk::{cut_often, recorded};
use crate::shelf::{
    WORDS, Watch, check_sound, create, file, id, now, open, passphrase, program, round_of, rounds, state,
};

/// Looks at the target before each step on the disk.
struct Looking {
    folder: PathBuf,
    target: PathBuf,
    old: Vec<u8>,
    steps: Arc<AtomicUsize>,
}

impl Faults for Looking {
    fn before(&mut self, op: &Op<'_>) -> Verdict {
        // The copy is looked at once more, through a name of its own, but never written, after it got its name.
        if op.path.starts_with(&self.folder) && !matches!(op.act, Act::Close | Act::Open { .. }) {
            let there = std::fs::read(&self.target).unwrap_or_default();
            assert!(there == self.old, "{op:?}: at the backup's name is what was there before, all of it");
            self.steps.fetch_add(1, Ordering::Relaxed);
        }
        Verdict::Go
    }
}

#[test]
fn the_name_is_given_last() {
    for old in [None, Some(1)] {
        let folder = TempDir::new().unwrap();
        let target = folder.path().join("copy.evengap");
        let mut notebook = create(&file(&folder));
        let mut node = None;
        for round in 1..=3 {
            node = Some(notebook.save(&state(0, round), node, now()).unwrap());
            if old == Some(round) {
                notebook.back_up().run(&target, false, |_, _| true).unwrap();
            }
        }
        let watch = Watch::new();
        let steps = Arc::new(AtomicUsize::new(0));
        let bytes = std::fs::read(&target).unwrap_or_default();
        let folder_path = folder.path().to_owned();
        watch.set(Looking { folder: folder_path, target: target.clone(), old: bytes, steps: Arc::clone(&steps) });
        notebook.back_up().run(&target, true, |_, _| true).unwrap();
        watch.clear();
        let steps = steps.load(Ordering::Relaxed);
        assert!(steps > 10, "{steps} steps were seen");
        let copy = Notebook::open(&target, &passphrase(), now()).unwrap();
        assert_eq!(round_of(&copy.show(id(0)).unwrap().case, 0), 3, "the new one is whole");
        check_sound(&copy);
        println!(
            "backup: at each of {steps} steps its name held what was there before (old backup: {})",
            old.is_some()
        );
    }
}

#[test]
fn a_power_cut_while_a_backup_is_made_leaves_the_notebook() {
    let folder = TempDir::new().unwrap();
    let target = TempDir::new().unwrap();
    let mut notebook = create(&file(&folder));
    let mut node = notebook.save(&state(0, 1), None, now()).unwrap();
    let recording = recorded(&folder, |acknowledged| {
        let job = notebook.back_up();
        let mut round = 1;
        // Somebody saves meanwhile.
        let mut save = |_, _| {
            if round < 4 {
                round += 1;
                node = notebook.save(&state(0, round), Some(node), now()).unwrap();
                acknowledged(round);
            }
            true
        };
        job.run(&target.path().join("copy.evengap"), false, &mut save).unwrap();
    });
    let (cuts, steps) = (rounds(1_000, 40), recording.1.len());
    cut_often(recording, cuts, 31, |cut, folder, acknowledged| {
        let notebook = open(&file(folder));
        let there = round_of(&notebook.show(id(0)).unwrap().case, 0);
        let newest = acknowledged.last().copied().unwrap_or(1);
        assert!(there >= newest, "cut {cut}: save {newest} was acknowledged, {there} is stored");
        check_sound(&notebook);
    });
    println!("power cuts: {cuts} among {steps} steps of a notebook that is saved and backed up at once; lost: 0");
}

/// The calls of a backup by the command line, in their order, each with the file it is about.
fn calls(folder: &Path) -> Vec<String> {
    std::fs::write(folder.join("words"), WORDS).unwrap();
    let log = folder.join("calls");
    let out = Command::new("strace")
        .args(["--follow-forks", "--decode-fds=path", "--quiet=all", "--output"])
        .arg(&log)
        .arg("--trace=write,pwrite64,ftruncate,fsync,fdatasync,link,linkat,rename,renameat,renameat2,unlink,unlinkat")
        .arg(program("evengap"))
        .args(["notebook", "back-up", "knees.evengap", "--to", "copy.evengap", "--passphrase-file", "words"])
        .current_dir(folder)
        .env("HOME", folder)
        .output()
        .expect("strace is installed");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    std::fs::read_to_string(&log).unwrap().lines().map(str::to_owned).collect()
}

#[test]
fn a_backup_is_durable_before_it_has_its_name_and_its_name_before_the_end() {
    let folder = TempDir::new().unwrap();
    create(&file(&folder)).save(&state(0, 1), None, now()).unwrap();
    let calls = calls(folder.path());
    let is_sync = |line: &&String| line.contains("fsync(") || line.contains("fdatasync(");
    let last = |what: &dyn Fn(&&String) -> bool| calls.iter().rposition(|line| what(&line));
    let written = last(&|line| line.contains("write") && line.contains(".unfinished>")).expect("the copy is written");
    let named = calls
        .iter()
        .position(|line| (line.contains("link") || line.contains("rename")) && line.contains("copy.evengap\""))
        .expect("the copy gets its name");
    let synced = calls[written..named].iter().any(|line| is_sync(&line) && line.contains(".unfinished>"));
    assert!(written < named && synced, "what was written is durable before the name: {calls:#?}");
    let shown = folder.path().canonicalize().unwrap();
    let kept = calls[named..].iter().any(|line| is_sync(&line) && line.contains(&format!("<{}>", shown.display())));
    assert!(kept, "and the folder after it: {calls:#?}");
    println!("backup under strace: {} calls; written, synced, named, folder synced, in this order", calls.len());
}
