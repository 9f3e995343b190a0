//! Every byte of a small notebook is flipped: that is noticed, or it has no effect on what is read.

use std::fs::OpenOptions;
use std::os::unix::fs::FileExt;
use std::sync::atomic::{AtomicUsize, Ordering};

use evengap_notebook::Notebook;
use serde_json::Value;
use tempfile::TempDir;

use crate::shelf::{Chance, create, file, in_full, now, open, passphrase, read_all, state};

#[test]
fn every_flipped_byte_is_noticed_or_has_no_effect() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    let mut notebook = create(&path);
    let node = notebook.save(&state(0, 1), None, now()).unwrap();
    notebook.save(&state(0, 2), Some(node), now()).unwrap();
    drop(notebook);
    let whole = std::fs::read(&path).unwrap();
    let expected = read_all(&open(&path)).unwrap();
    let step = if in_full() { 1 } else { 101 };
    let (noticed, without, done) = (AtomicUsize::new(0), AtomicUsize::new(0), AtomicUsize::new(0));
    let next = AtomicUsize::new(0);
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                let folder = TempDir::new().unwrap();
                std::fs::write(file(&folder), &whole).unwrap();
                loop {
                    let at = next.fetch_add(step, Ordering::Relaxed);
                    if at >= whole.len() {
                        break;
                    }
                    let counter = if flip(&folder, &whole, at, &expected) { &noticed } else { &without };
                    counter.fetch_add(1, Ordering::Relaxed);
                    done.fetch_add(1, Ordering::Relaxed);
                }
            });
        }
    });
    println!(
        "flipped bytes: {} of {} (every {step}); noticed: {}, without effect: {}, unnoticed with effect: 0",
        done.into_inner(),
        whole.len(),
        noticed.into_inner(),
        without.into_inner()
    );
}

/// Flips one byte in place, looks, and flips it back; tells whether it was noticed.
fn flip(folder: &TempDir, whole: &[u8], at: usize, expected: &Value) -> bool {
    let path = file(folder);
    let disk = OpenOptions::new().write(true).open(&path).unwrap();
    let mask = u8::try_from(1 + Chance::new(at as u64).below(255)).unwrap();
    disk.write_all_at(&[whole[at] ^ mask], at as u64).unwrap();
    let seen = match Notebook::open(&path, &passphrase(), now()) {
        Err(_) => None,
        Ok(notebook) => read_all(&notebook).ok(),
    };
    if let Some(seen) = &seen {
        assert_eq!(seen, expected, "byte {at} flipped by {mask:#04x}: what is read is as it was");
    }
    disk.write_all_at(&whole[at..=at], at as u64).unwrap();
    // A free page that was torn is mended when the notebook opens, and the whole file written anew.
    if seen.is_some() && std::fs::read(&path).unwrap() != whole {
        std::fs::write(&path, whole).unwrap();
    }
    seen.is_none()
}
