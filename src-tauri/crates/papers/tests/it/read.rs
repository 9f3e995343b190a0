//! Reads PDFs back with outside readers: `pdftotext` and `pdfinfo` (poppler) for words, places and the
//! logical structure, lopdf for the file's objects.

use std::io::Write;
use std::process::{Command, Stdio};

/// Returns the text of each page as `pdftotext` with these options gives it.
pub fn pages(pdf: &[u8], options: &[&str]) -> Vec<String> {
    let text = pdftotext(pdf, options);
    let mut pages: Vec<String> = text.split('\u{c}').map(str::to_owned).collect();
    pages.pop();
    pages
}

/// Holds one word and its box in points from the sheet's top left.
#[derive(Debug)]
pub struct Word {
    pub page: usize,
    pub x_min: f32,
    pub x_max: f32,
    pub y_min: f32,
    pub y_max: f32,
    pub text: String,
}

/// Returns every word with its place, in the order in which the file says them.
pub fn words(pdf: &[u8]) -> Vec<Word> {
    let mut page = 0;
    let mut words = Vec::new();
    for line in pdftotext(pdf, &["-bbox", "-raw"]).lines().map(str::trim) {
        if line.starts_with("<page ") {
            page += 1;
        }
        let Some(rest) = line.strip_prefix("<word ") else { continue };
        let number = |name: &str| -> f32 {
            let after = rest.split_once(&format!("{name}=\"")).unwrap().1;
            after.split_once('"').unwrap().0.parse().unwrap()
        };
        words.push(Word {
            page,
            x_min: number("xMin"),
            x_max: number("xMax"),
            y_min: number("yMin"),
            y_max: number("yMax"),
            text: unescaped(&rest.split_once('>').unwrap().1.replace("</word>", "")),
        });
    }
    words
}

fn unescaped(text: &str) -> String {
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&apos;", "'").replace("&amp;", "&")
}

/// Returns every element of the logical structure in its order: its name and its own words.
pub fn structure(pdf: &[u8]) -> Vec<(String, String)> {
    let mut elements: Vec<(String, String)> = Vec::new();
    for line in poppler("pdfinfo", pdf, &["-struct-text"]).lines() {
        // Two blanks for each level, then a name, an attribute or words.
        let line = line.trim_start();
        if let Some(words) = line.strip_prefix('"') {
            let words = words.strip_suffix('"').unwrap_or(words);
            elements.last_mut().unwrap().1.push_str(words);
        } else if !line.starts_with('/') {
            let name: String = line.chars().take_while(|c| c.is_ascii_alphanumeric()).collect();
            elements.push((name, String::new()));
        }
    }
    for (_, words) in &mut elements {
        *words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    }
    elements
}

fn pdftotext(pdf: &[u8], options: &[&str]) -> String {
    poppler("pdftotext", pdf, &[options, &["-enc", "UTF-8"]].concat())
}

/// Runs one of poppler's readers on a file in memory.
fn poppler(program: &str, pdf: &[u8], options: &[&str]) -> String {
    // Only pdftotext has to be told where its words go.
    let out: &[&str] = if program == "pdftotext" { &["-"] } else { &[] };
    let mut child = Command::new(program)
        .args(options)
        .arg("-")
        .args(out)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("these tests read papers with poppler: install poppler-utils");
    let mut stdin = child.stdin.take().unwrap();
    let bytes = pdf.to_vec();
    let feed = std::thread::spawn(move || stdin.write_all(&bytes));
    let output = child.wait_with_output().unwrap();
    feed.join().unwrap().unwrap();
    assert!(output.status.success(), "{program} refused the file");
    String::from_utf8(output.stdout).unwrap()
}
