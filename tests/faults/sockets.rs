//! A whole session of the command line under strace: no socket is opened, of any family. The window opens those alone
//! that its display and its bus need.

use std::path::Path;
use std::process::Command;

use tempfile::TempDir;

use crate::shelf::{WORDS, program};

/// Runs the program under strace and gives every call that has to do with a network.
fn traced(folder: &Path, arguments: &[&str]) -> Vec<String> {
    let log = folder.join("calls");
    let out = Command::new("strace")
        .args(["--follow-forks", "--trace=%network", "--quiet=all", "--output"])
        .arg(&log)
        .arg(program("evengap"))
        .args(arguments)
        .current_dir(folder)
        .env("HOME", folder)
        .output()
        .expect("strace is installed");
    assert!(out.status.code().is_some_and(|code| code < 2), "{arguments:?}: {}", String::from_utf8_lossy(&out.stderr));
    let calls = std::fs::read_to_string(&log).unwrap();
    calls.lines().filter(|line| line.contains('(')).map(str::to_owned).collect()
}

#[test]
fn the_command_line_opens_no_socket() {
    let folder = TempDir::new().unwrap();
    let here = folder.path();
    std::fs::write(here.join("words"), WORDS).unwrap();
    std::fs::write(here.join("second"), "slow heron by the mill").unwrap();
    std::fs::write(here.join("third"), "a lane of old pear trees").unwrap();
    let words = ["--passphrase-file", "words"];
    let fresh = ["--new-passphrase-file", "second"];
    let of = |act: &[&'static str], then: &[&'static str]| [&["notebook"], act, &words, then].concat();
    let case = evengap_tests::project().join("demo-cases/whole-knee-cemented.json");
    let (case, id) = (case.to_str().unwrap(), evengap_tests::demo("whole-knee-cemented").id.to_string());
    let session: Vec<Vec<&str>> = vec![
        vec!["notebook", "new", "knees.evengap", "--writer", "Ms Orla Quill", "--passphrase-file", "words"],
        vec!["notebook", "add", "knees.evengap", case, "--passphrase-file", "words"],
        vec!["notebook", "list", "knees.evengap", "--passphrase-file", "words"],
        vec!["notebook", "find", "knees.evengap", "wiśn", "--passphrase-file", "words"],
        vec!["notebook", "show", "knees.evengap", &id, "--passphrase-file", "words"],
        vec!["notebook", "sign", "knees.evengap", &id, "--passphrase-file", "words"],
        vec!["notebook", "history", "knees.evengap", &id, "--passphrase-file", "words"],
        of(&["verify", "knees.evengap"], &[]),
        of(&["back-up", "knees.evengap", "--to", "copy.evengap"], &[]),
        of(&["restore", "copy.evengap", "--to", "restored.evengap"], &[]),
        of(&["send", "knees.evengap", "--to", "sent.evengap-exchange"], &fresh),
        of(&["receive", "restored.evengap", "sent.evengap-exchange"], &fresh),
        of(&["conflicts", "restored.evengap"], &[]),
        of(&["person-add", "knees.evengap", "Bram Osk", "--role", "registrar"], &fresh),
        of(&["person-change", "knees.evengap", "Bram Osk", "--role", "clinic"], &[]),
        of(&["people", "knees.evengap"], &[]),
        of(&["person-remove", "knees.evengap", "Bram Osk"], &[]),
        of(&["recovery-sheet", "knees.evengap", "--to", "sheet.pdf"], &[]),
        of(&["passphrase", "knees.evengap"], &["--new-passphrase-file", "third"]),
        vec!["review", case],
        vec!["paper", "operative-note", case, "--to", "note.pdf"],
        vec!["demo", "--to", "papers"],
        vec!["sources"],
        vec!["schema"],
    ];
    let mut acts = 0;
    for arguments in &session {
        assert_eq!(traced(here, arguments), [""; 0], "{arguments:?}: no socket, of any family");
        acts += 1;
    }
    // The same look sees a socket where there is one: looking up a name asks the name service for it.
    let log = here.join("seen");
    let seen = Command::new("strace")
        .args(["--follow-forks", "--trace=%network", "--quiet=all", "--output"])
        .arg(&log)
        .args(["getent", "passwd", "nobody-of-this-name"])
        .output();
    seen.expect("strace and getent are installed");
    assert!(std::fs::read_to_string(&log).unwrap().contains("socket("), "strace shows sockets");
    println!("command line under strace: {acts} acts, calls of the network family: 0");
}

/// What the window may open, by kind: its own work none at all. GTK and WebKit speak to the display, the session's bus and
/// WebKit's own processes over AF_UNIX; GLib, below WebKit, listens for the kernel's word on whether there is a network at
/// all (AF_NETLINK reaches no further than the kernel).
#[cfg(feature = "window")]
const OF_THE_WINDOW: [&str; 2] = ["AF_NETLINK NETLINK_ROUTE", "AF_UNIX"];

/// Watches the window from its start over the opening of the demonstration, as long as `timeout` lets it run.
#[cfg(feature = "window")]
#[test]
fn the_window_opens_no_socket_but_to_the_display_and_the_bus() {
    let folder = TempDir::new().unwrap();
    let (here, log) = (folder.path(), folder.path().join("calls"));
    let mut watched = Command::new("xvfb-run");
    watched.args(["--auto-servernum", "dbus-run-session", "--", "strace", "--follow-forks", "--trace=%network"]);
    watched.args(["--quiet=all", "--output"]).arg(&log).args(["timeout", "15"]).arg(program("evengap-window"));
    for name in ["HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"] {
        watched.env(name, here);
    }
    let watched = watched.env("LIBGL_ALWAYS_SOFTWARE", "1").env("GTK_USE_PORTAL", "0").env("NO_AT_BRIDGE", "1");
    watched.output().expect("xvfb-run and strace are installed");
    let calls = std::fs::read_to_string(&log).unwrap();
    let mut kinds: Vec<String> = calls.lines().filter_map(kind).collect();
    let sockets = kinds.len();
    kinds.sort();
    kinds.dedup();
    assert_eq!(kinds, OF_THE_WINDOW, "exactly what is known and explained");
    assert!(!calls.contains("sa_family=AF_INET"), "nothing is sent, bound or reached over any internet family");
    println!("window under strace: {sockets} sockets, all of {kinds:?}; AF_INET and AF_INET6: 0");
}

/// The family of a `socket` or `socketpair` call, and for AF_NETLINK what is asked of the kernel.
#[cfg(feature = "window")]
fn kind(line: &str) -> Option<String> {
    let (_, given) = line.split_once("socket(").or_else(|| line.split_once("socketpair("))?;
    let mut given = given.split([',', ')']).map(str::trim);
    let family = given.next()?;
    let protocol = if family == "AF_NETLINK" { given.nth(1).unwrap_or_default() } else { "" };
    Some(format!("{family} {protocol}").trim().to_owned())
}
