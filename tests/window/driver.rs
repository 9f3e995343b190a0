//! Drives the built window through `tauri-driver`: starts it, finds things by their test id, waits for conditions.
//!
//! Speaks just enough WebDriver for the journeys; every wait is a condition with a deadline, never a pause.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

/// How long a condition may take to come true.
const DEADLINE: Duration = Duration::from_secs(30);
/// How often it is asked whether it has.
const AGAIN: Duration = Duration::from_millis(40);

/// What a condition has not yet come to, for the message when it never does.
pub type NotYet = String;

/// Asks until the answer is there; panics with the last reason after the deadline.
pub fn wait<T>(what: &str, mut ask: impl FnMut() -> Result<T, NotYet>) -> T {
    let end = Instant::now() + DEADLINE;
    loop {
        match ask() {
            Ok(answer) => return answer,
            Err(reason) => assert!(Instant::now() < end, "waited {DEADLINE:?} for {what}: {reason}"),
        }
        thread::sleep(AGAIN);
    }
}

/// The process that stands between the test and the window.
pub struct Driver {
    child: Child,
    port: u16,
}

impl Driver {
    /// Starts `tauri-driver` on free ports of this computer.
    pub fn start() -> Self {
        let (port, native) = (free_port(), free_port());
        let child = Command::new("tauri-driver")
            .args(["--port", &port.to_string(), "--native-port", &native.to_string()])
            .stdout(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| {
                panic!("tauri-driver: {error}; install it with `cargo install tauri-driver --locked`")
            });
        wait("tauri-driver to listen", || {
            TcpStream::connect((Ipv4Addr::LOCALHOST, port)).map(drop).map_err(|error| error.to_string())
        });
        wait("the browser's driver to listen", || {
            TcpStream::connect((Ipv4Addr::LOCALHOST, native)).map(drop).map_err(|error| error.to_string())
        });
        Self { child, port }
    }

    /// Opens the window with its data in a folder.
    pub fn open(&self, data: &Path) -> Window {
        let program = program();
        let options = json!({ "application": program, "args": ["--data", data] });
        let mut window = Window { wire: Wire::connect(self.port), session: String::new() };
        let asked = json!({ "capabilities": { "alwaysMatch": { "tauri:options": options } } });
        let started = window
            .wire
            .ask("POST", "/session", &asked)
            .unwrap_or_else(|error| panic!("the window did not open: {error}"));
        window.session = started["sessionId"].as_str().unwrap_or_else(|| panic!("no session in {started}")).to_owned();
        window
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Asked politely, it takes the browser's driver with it; killed, it would leave that behind.
        let asked = Command::new("kill").arg(self.child.id().to_string()).status();
        if !asked.is_ok_and(|status| status.success()) {
            let _ = self.child.kill();
        }
        let _ = self.child.wait();
    }
}

fn free_port() -> u16 {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap_or_else(|error| panic!("no free port: {error}"));
    listener.local_addr().unwrap_or_else(|error| panic!("no free port: {error}")).port()
}

/// The built window lies beside the folder of the built tests.
fn program() -> PathBuf {
    let test = std::env::current_exe().unwrap_or_else(|error| panic!("this test has no path: {error}"));
    let program = test.ancestors().nth(2).map(|folder| folder.join("evengap-window")).unwrap_or_default();
    assert!(program.exists(), "{} is not built; run `cargo build -p evengap-window`", program.display());
    program
}

/// The open window.
pub struct Window {
    wire: Wire,
    session: String,
}

impl Window {
    fn ask(&mut self, method: &str, path: &str, body: &Value) -> Result<Value, NotYet> {
        self.wire.ask(method, &format!("/session/{}{path}", self.session), body)
    }

    fn element(&mut self, selector: &str) -> Result<String, NotYet> {
        let found = self.ask("POST", "/element", &json!({ "using": "css selector", "value": selector }))?;
        only(&found)
    }

    fn act(&mut self, selector: &str, act: &str, body: &Value) {
        wait(&format!("{act} on {selector}"), || {
            let element = self.element(selector)?;
            self.ask("POST", &format!("/element/{element}/{act}"), body)
        });
    }

    /// Clicks what has this test id.
    pub fn click(&mut self, id: &str) {
        self.act(&by(id), "click", &json!({}));
    }

    /// Chooses an option of a drop-down list.
    pub fn choose(&mut self, id: &str, value: &str) {
        self.act(&format!("{} > option[value=\"{value}\"]", by(id)), "click", &json!({}));
    }

    /// Types into a box, at the end of what is there.
    pub fn type_into(&mut self, id: &str, text: &str) {
        self.act(&by(id), "value", &json!({ "text": text }));
    }

    /// Types into the text of an editor that keeps its parts to itself (a shadow root).
    pub fn type_inside(&mut self, id: &str, text: &str) {
        wait(&format!("typing into {id}"), || {
            let editor = self.element(&by(id))?;
            let root = self.ask("GET", &format!("/element/{editor}/shadow"), &Value::Null)?;
            let root = only(&root)?;
            let inside = json!({ "using": "css selector", "value": "[contenteditable=true]" });
            let lines = only(&self.ask("POST", &format!("/shadow/{root}/element"), &inside)?)?;
            self.ask("POST", &format!("/element/{lines}/value"), &json!({ "text": text }))
        });
    }

    /// Empties a box and types into it.
    pub fn replace(&mut self, id: &str, text: &str) {
        self.act(&by(id), "clear", &json!({}));
        self.type_into(id, text);
    }

    /// Waits until what has this test id shows all these words, and gives its text.
    pub fn shows(&mut self, id: &str, words: &[&str]) -> String {
        wait(&format!("{words:?} in {id}"), || {
            let element = self.element(&by(id))?;
            let shown = self.ask("GET", &format!("/element/{element}/text"), &Value::Null)?;
            let shown = shown.as_str().unwrap_or_default();
            if words.iter().all(|word| shown.contains(word)) {
                Ok(shown.to_owned())
            } else {
                Err(format!("it shows {shown:?}"))
            }
        })
    }

    /// Waits until an attribute of what has this test id has a value.
    pub fn has(&mut self, id: &str, attribute: &str, value: &str) {
        wait(&format!("{attribute}={value} on {id}"), || {
            let element = self.element(&by(id))?;
            let found = self.ask("GET", &format!("/element/{element}/attribute/{attribute}"), &Value::Null)?;
            if found == value { Ok(()) } else { Err(format!("it is {found}")) }
        });
    }

    /// Waits until exactly so many things match a selector.
    pub fn counts(&mut self, selector: &str, expected: usize) {
        wait(&format!("{expected} of {selector}"), || {
            let found = self.ask("POST", "/elements", &json!({ "using": "css selector", "value": selector }))?;
            let count = found.as_array().map_or(0, Vec::len);
            if count == expected { Ok(()) } else { Err(format!("there are {count}")) }
        });
    }

    /// Closes the window.
    pub fn close(mut self) {
        let closed = self.ask("DELETE", "", &Value::Null);
        assert!(closed.is_ok(), "the window did not close: {closed:?}");
    }
}

/// The identifier in what stands for an element.
fn only(found: &Value) -> Result<String, NotYet> {
    let id = found.as_object().and_then(|element| element.values().next()).and_then(Value::as_str);
    id.map(str::to_owned).ok_or_else(|| format!("{found} is no element"))
}

fn by(id: &str) -> String {
    format!("[data-testid=\"{id}\"]")
}

/// One connection that is kept, as the drivers behind it expect.
struct Wire {
    stream: BufReader<TcpStream>,
}

impl Wire {
    fn connect(port: u16) -> Self {
        let stream =
            TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap_or_else(|error| panic!("tauri-driver: {error}"));
        Self { stream: BufReader::new(stream) }
    }

    fn ask(&mut self, method: &str, path: &str, body: &Value) -> Result<Value, NotYet> {
        let body = if body.is_null() { String::new() } else { body.to_string() };
        let head = format!(
            "{method} {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n",
            body.len()
        );
        let sent = self.stream.get_mut().write_all(format!("{head}{body}").as_bytes());
        let answered = sent.and_then(|()| self.answer());
        let (status, answer) = answered.unwrap_or_else(|error| panic!("{method} {path}: {error}"));
        let answer: Value = serde_json::from_slice(&answer).map_err(|error| format!("{method} {path}: {error}"))?;
        if status == 200 { Ok(answer["value"].clone()) } else { Err(answer["value"].to_string()) }
    }

    fn answer(&mut self) -> std::io::Result<(u16, Vec<u8>)> {
        let mut line = String::new();
        self.stream.read_line(&mut line)?;
        let status = line.split(' ').nth(1).and_then(|code| code.parse().ok()).unwrap_or_default();
        let mut length = 0;
        loop {
            line.clear();
            self.stream.read_line(&mut line)?;
            match line.trim_end().split_once(':') {
                Some((name, value)) if name.eq_ignore_ascii_case("content-length") => {
                    length = value.trim().parse().unwrap_or_default()
                }
                Some(_) => {}
                None => break,
            }
        }
        let mut body = vec![0; length];
        self.stream.read_exact(&mut body)?;
        Ok((status, body))
    }
}
