//! The file under the program: write-protected, moved away, replaced, cut off, and used by two programs at once.

use std::fs::{self, Permissions};
use std::os::unix::fs::PermissionsExt;

use evengap_notebook::NotebookError;
use tempfile::TempDir;

use crate::shelf::{check_sound, create, file, id, now, open, passphrase, round_of, state};

#[test]
fn a_file_that_goes_away() {
    let folder = TempDir::new().unwrap();
    let (path, away) = (file(&folder), folder.path().join("away.evengap"));
    let mut notebook = create(&path);
    let node = notebook.save(&state(0, 1), None, now()).unwrap();
    for how in ["moved", "deleted", "replaced"] {
        fs::copy(&path, &away).unwrap();
        fs::rename(&path, folder.path().join("held.evengap")).unwrap();
        match how {
            "replaced" => drop(fs::copy(&away, &path).unwrap()),
            "deleted" => drop(fs::remove_file(folder.path().join("held.evengap"))),
            _ => {}
        }
        let error = notebook.save(&state(0, 2), Some(node), now()).expect_err("nobody finds what was written there");
        assert!(matches!(error, NotebookError::Gone(_)), "{how}: {error:?}");
        drop(notebook);
        let _ = fs::remove_file(folder.path().join("held.evengap"));
        fs::rename(&away, &path).unwrap();
        notebook = open(&path);
        assert_eq!(round_of(&notebook.show(id(0)).unwrap().case, 0), 1, "{how}: what was saved before is there");
        check_sound(&notebook);
    }
}

#[test]
fn a_folder_that_may_not_be_written() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    let mut notebook = create(&path);
    let node = notebook.save(&state(0, 1), None, now()).unwrap();
    let protect = |mode| fs::set_permissions(folder.path(), Permissions::from_mode(mode)).unwrap();
    protect(0o500);
    // Whoever may write everywhere cannot be refused by a folder.
    let is_free = fs::write(folder.path().join("probe"), []).is_ok();
    let saved = notebook.save(&state(0, 2), Some(node), now());
    protect(0o700);
    if is_free {
        saved.expect("nothing refuses the superuser");
        println!("read-only folder: not refused, because the superuser runs this; the hook's refusals stand for it");
        return;
    }
    let said = saved.expect_err("SQLite cannot make its journal there").to_string();
    assert!(said.contains("knees") && said.ends_with('.'), "a sentence: “{said}”");
    assert_eq!(round_of(&notebook.show(id(0)).unwrap().case, 0), 1, "the old state is readable");
    notebook.save(&state(0, 2), Some(node), now()).expect("and once it may be written the next save works");
}

#[test]
fn two_writers_on_one_file() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    drop(create(&path));
    let (writers, saves) = (2, crate::shelf::rounds(200, 25));
    std::thread::scope(|scope| {
        for writer in 0..writers {
            let path = &path;
            scope.spawn(move || {
                let mut notebook = open(path);
                let mut node = None;
                for round in 1..=saves {
                    node = Some(notebook.save(&state(writer, round), node, now()).unwrap());
                }
            });
        }
    });
    let notebook = open(&path);
    for writer in 0..writers {
        assert_eq!(round_of(&notebook.show(id(writer)).unwrap().case, writer), saves, "every save of both is there");
        assert_eq!(notebook.history(id(writer)).unwrap().len(), saves, "and in the history");
    }
    check_sound(&notebook);
    println!("two writers: {saves} saves each at the same time, none lost");
}

#[test]
fn two_writers_on_one_entry() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    let mut here = create(&path);
    let mut there = open(&path);
    let node = here.save(&state(0, 1), None, now()).unwrap();
    there.save(&state(0, 2), Some(node), now()).unwrap();
    let error = here.save(&state(0, 3), Some(node), now()).expect_err("it would take away what the other one saved");
    assert!(matches!(error, NotebookError::ChangedMeanwhile(_)), "{error:?}");
    assert_eq!(round_of(&here.show(id(0)).unwrap().case, 0), 2, "what was acknowledged stays");
}

#[test]
fn a_file_that_is_cut_off_anywhere() {
    let folder = TempDir::new().unwrap();
    let path = file(&folder);
    create(&path).save(&state(0, 1), None, now()).unwrap();
    let whole = fs::read(&path).unwrap();
    let lengths: Vec<usize> = (0..whole.len()).step_by(crate::shelf::rounds(512, 8192)).collect();
    for length in &lengths {
        fs::write(&path, &whole[..*length]).unwrap();
        let opened = evengap_notebook::Notebook::open(&path, &passphrase(), now());
        assert!(opened.is_err(), "{length} of {} bytes are no notebook", whole.len());
        assert_eq!(fs::read(&path).unwrap(), whole[..*length], "and nothing was done to them");
    }
    println!("cut off: at {} lengths, refused at each, untouched", lengths.len());
}
